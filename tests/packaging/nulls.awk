# SPDX-License-Identifier: GPL-3.0-or-later
# Pointers of public functions that are never NULL in a call: the headers (.h) declare, the other files call.  What ERROR and USER
# may be is said once for all.

# What stands between the brackets that TEXT begins with goes into PARTS, by its outer commas; the count.
function in_brackets (text, parts,    n, depth, i, c)
{
  n = 1
  parts[1] = ""
  for (i = 2; i <= length (text); i++)
    {
      c = substr (text, i, 1)
      if (c ~ /[({]/)
        depth++
      else if (c ~ /[)}]/ && depth-- == 0)
        return n
      if (c == "," && depth == 0)
        parts[++n] = ""
      else
        parts[n] = parts[n] c
    }
  return n
}

{ text[FILENAME ~ /\.h$/] = text[FILENAME ~ /\.h$/] " " $0 }

END {
  rest = text[1]
  while (match (rest, /BR_API [^;(]*br_[a-z0-9_]+ \(/))
    {
      head = substr (rest, RSTART, RLENGTH)
      rest = substr (rest, RSTART + RLENGTH - 1)
      match (head, /br_[a-z0-9_]+ \($/)
      name = substr (head, RSTART, RLENGTH - 2)
      n = in_brackets (rest, parameter)
      for (i = 1; i <= n; i++)
        if (parameter[i] ~ /\*|mpq_t|mpz_t|mpfr_t/ && parameter[i] !~ /\*error$|\*user$/)
          wanted[name " " i] = parameter[i]
    }
  rest = text[0]
  while (match (rest, /br_[a-z0-9_]+ \(/))
    {
      name = substr (rest, RSTART, RLENGTH - 2)
      rest = substr (rest, RSTART + RLENGTH - 1)
      n = in_brackets (rest, argument)
      for (i = 1; i <= n; i++)
        if (argument[i] ~ /^ *NULL *$/)
          delete wanted[name " " i]
    }
  for (w in wanted)
    print w ": " wanted[w]
}
