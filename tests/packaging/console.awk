# SPDX-License-Identifier: GPL-3.0-or-later
# Takes the examples out of a document: for each "$ COMMAND" in a block fenced by
# ```console it writes OUT/N.command and OUT/N.expected; "> " carries a command on.
/^```console *$/ { inside = 1; command = ""; next }
inside && /^```/ { inside = 0; command = ""; next }
inside && /^\$ / {
  count++
  command = OUT "/" count ".command"
  expected = OUT "/" count ".expected"
  print substr ($0, 3) > command
  printf "" > expected
  said = 0
  next
}
inside && command != "" && !said && /^> / { print substr ($0, 3) > command; next }
inside && command != "" { said = 1; print > expected }
