# SPDX-License-Identifier: GPL-3.0-or-later
# What a man page wants otherwise than Markdown: the title becomes the NAME, sections stand in capitals, a table of two
# columns is a list of terms, a link to another page is a reference to it; a minus can be copied.
# PART=before works on the source, PART=after on what lowdown made of it.

BEGIN {
  count = split(PAGES, pairs, " ")
  for (i = 1; i <= count; i++) {
    split(pairs[i], pair, ":")
    file = pair[1]
    sub(/^.*\//, "", file)
    page = pair[2]
    sub(/^.*\//, "", page)
    dot = match(page, /\.[0-9]$/)
    reference[file] = "**" substr(page, 1, dot - 1) "**(" substr(page, dot + 1) ")"
  }
}

# Links of LINE, [TEXT](FILE.md#PLACE), as references; a file that is no man page is named.
function refer(line,   at, link, text, file, said) {
  said = ""
  while (match(line, /\[[^]]*\]\([^)]*\)/)) {
    link = substr(line, RSTART, RLENGTH)
    at = index(link, "](")
    text = substr(link, 2, at - 2)
    file = substr(link, at + 2, length(link) - at - 2)
    sub(/#.*/, "", file)
    said = said substr(line, 1, RSTART - 1)
    line = substr(line, RSTART + RLENGTH)
    sub(/^.*\//, "", file)
    if (file in reference)
      file = reference[file]
    else
      file = "*" file "*"
    said = said (text ~ /\.md$/ || text ~ /^examples\// ? file : text " (" file ")")
  }
  return said line
}

function lower_first(text) {
  return tolower(substr(text, 1, 1)) substr(text, 2)
}

function flush_row(   cells, n) {
  gsub(/\\\|/, "\001", row)
  n = split(row, cells, /[ \t]*\|[ \t]*/)
  gsub("\001", "|", cells[2])
  gsub("\001", "|", cells[3])
  print cells[2]
  print ": " cells[3]
  print ""
}

PART == "before" && /^```/ { fenced = !fenced; print; next }
PART == "before" && fenced { print; next }
PART == "before" && /^# / { print "# NAME\n\n" NAME " - " lower_first(substr($0, 3)) "\n"; part = "NAME"; next }
# What follows the title in code alone is how it is called.
PART == "before" && part == "NAME" && /^`[^`]*`$/ { print "# SYNOPSIS\n"; part = "SYNOPSIS" }
PART == "before" && part && /./ && !/^`[^`]*`$/ { print "# DESCRIPTION\n"; part = "" }
PART == "before" && /^## / { print toupper(substr($0, 2)); next }
PART == "before" && /^### / { print substr($0, 2); next }
# The head of a table and the line under it name what a list of terms shows by its form.
PART == "before" && /^\|/ {
  rows++
  row = refer($0)
  if (rows == 1 && gsub(/[^\\]\|/, "&", row) != 2) wide = 1
  if (wide) print row
  else if (rows > 2) flush_row()
  next
}
PART == "before" { rows = 0; wide = 0; print refer($0); next }

PART == "after" && NR == 1 { print "'\\\" t"; print ".\\\" SPDX-License-Identifier: GPL-3.0-or-later"; next }
PART == "after" && /^\.TS/ { table = 1 }
PART == "after" && /^\.TE/ { table = 0 }
PART == "after" && table && /allbox/ { sub(/ *allbox/, "") }
PART == "after" && /^[.']/ { print; next }
PART == "after" {
  gsub(/\\fC/, "\\fB")
  gsub(/\\-/, "-")
  gsub(/-/, "\\-")
  print
}
