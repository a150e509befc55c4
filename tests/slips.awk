# SPDX-License-Identifier: GPL-3.0-or-later
# slips.awk - a row for each slip of the pen that could be made in the C files given: file, line, column, what is
# there, what comes instead, function, line before, line after.  Comments, what stands in quotes, directives and sizes
# of memory are left alone, and so are the slips of the list EQUIVALENT, of which none can be told from the right
# text; how many these were goes to the file COUNTS.  An entry of the list that names no slip is a mistake.

function trimmed (text)
{
  sub (/^ +/, "", text)
  return text
}

# TEXT with what stands in quotes or comments struck out, each letter in its column.
function plain (text,    out, i, c, quote)
{
  out = quote = ""
  for (i = 1; i <= length (text); i++)
    {
      c = substr (text, i, 1)
      if (commented)
        {
          if (substr (text, i - 1, 2) == "*/" && i > opened + 2)
            commented = 0
          c = "#"
        }
      else if (quote != "")
        {
          if (c == "\\")
            {
              out = out "#"
              i++
            }
          else if (c == quote)
            quote = ""
          c = "#"
        }
      else if (substr (text, i, 2) == "/*")
        {
          commented = 1
          opened = i
          c = "#"
        }
      else if (c == "\"" || c == "'")
        {
          quote = c
          c = "#"
        }
      out = out c
    }
  opened = -2
  return out
}

function offer (text, from, to,    at, before, after)
{
  for (at = 1; (i = index (substr (text, at), from)) > 0; at += length (from) - 1)
    {
      at += i - 1
      before = trimmed($0)
      after = trimmed(substr ($0, 1, at - 1) to substr ($0, at + length (from)))
      if ((FILENAME, name, before, after) in known)
        {
          known[FILENAME, name, before, after] = 1
          left_out++
        }
      else
        print FILENAME "\t" FNR "\t" at "\t" from "\t" to "\t" name "\t" before "\t" after
    }
}

function either (text, one, other)
{
  offer(text, one, other)
  offer(text, other, one)
}

BEGIN {
  while (EQUIVALENT != "" && (getline line < EQUIVALENT) > 0)
    {
      if (line ~ /^lib\//)
        split (line, place, " ")
      else if (line ~ /^- /)
        was = substr (line, 3)
      else if (line ~ /^\+ /)
        known[place[1], place[2], was, substr (line, 3)] = 0
    }
}

FNR == 1 { commented = 0; opened = -2; name = "" }
{
  text = plain($0)
  if ($0 ~ /^[a-z_0-9]+ \(/)
    name = $1
  if (text ~ /^ *#|sizeof|br__grow|assert/)
    next
  either(text, " < ", " <= ")
  either(text, " > ", " >= ")
  either(text, " == ", " != ")
  either(text, " && ", " || ")
  either(text, " + ", " - ")
  either(text, " = 0;", " = 1;")
  either(text, "return 0;", "return 1;")
  offer(text, " 1)", " 2)")
  offer(text, " 0)", " 1)")
}

END {
  for (key in known)
    if (!known[key])
      {
        gsub (SUBSEP, " | ", key)
        print "no such slip: " key > "/dev/stderr"
        stale = 1
      }
  print left_out + 0 > COUNTS
  exit stale
}
