# SPDX-License-Identifier: GPL-3.0-or-later
# Prints C code as FILE:LINE:TEXT without its comments and with its strings empty,
# so that what is said in them is not taken for code.
FNR == 1 { inside = 0 }
{
  out = ""
  for (i = 1; i <= length ($0); i++)
    {
      two = substr ($0, i, 2)
      one = substr (two, 1, 1)
      if (inside)
        {
          if (two == "*/")
            { inside = 0; i++; out = out " " }
        }
      else if (two == "/*")
        { inside = 1; i++ }
      else if (two == "//")
        break
      else if (one == "\"" || one == "'")
        {
          out = out one
          for (i++; i <= length ($0) && substr ($0, i, 1) != one; i++)
            if (substr ($0, i, 1) == "\\")
              i++
          out = out one
        }
      else
        out = out one
    }
  if (out ~ /[^ \t]/)
    print FILENAME ":" FNR ":" out
}
