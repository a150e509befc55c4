# SPDX-License-Identifier: GPL-3.0-or-later
# Compares what no test runs with the list of lines of which it is known why: awk -f unreached.awk LIST GCOV,
# where GCOV is what `gcov -t` writes, of any number of objects.  LIST has a line `SOURCE: WHY` and under it,
# set in, the texts of the lines; a text stands as often as it is not run.  WHY begins with `at times:` where a run
# may reach them or not, as what depends on the clock.  Each line of code that is neither
# run nor in the list is told, and each line of the list that is run, or is no line of code any more.
FILENAME == ARGV[1] && /^(#|$)/ { next }
FILENAME == ARGV[1] && /^[^ \t]/ { file = $1; sub (/:$/, "", file); at_times = $2 " " $3 == "at times:"; next }
FILENAME == ARGV[1] {
  text = trimmed($0)
  listed[file, text]++
  if (at_times)
    lax[file, text] = 1
  place[file, text] = FILENAME ":" FNR
  next
}

/^ *-: *0:Source:/ {
  source = $0
  sub (/^.*:Source:/, "", source)
  sub (/^.*\/lib\//, "lib/", source)
  next
}
source ~ /^lib\/.*\.c$/ && /^ *([0-9]+[*]?|#####|=====): *[0-9]+:/ {
  number = $0
  sub (/^[^:]*: */, "", number)
  text = number
  sub (/:.*/, "", number)
  sub (/^[0-9]*:/, "", text)
  key = source SUBSEP number
  if ($0 ~ /^ *[0-9]/)
    run[key] = 1
  if (!(key in code)) {
    code[key] = trimmed(text)
    order[++count] = key
  }
}

function trimmed (text)
{
  gsub (/^[ \t]+|[ \t]+$/, "", text)
  return text
}

END {
  if (!count) { print "nothing has been run"; exit 1 }
  for (i = 1; i <= count; i++)
    if (!(order[i] in run)) {
      split (order[i], part, SUBSEP)
      if (listed[part[1], code[order[i]]]-- > 0)
        continue
      printf "%s:%d: no test runs this, and nothing says why: %s\n", part[1], part[2], code[order[i]]
      wrong = 1
    }
  for (key in listed)
    if (listed[key] > 0 && !(key in lax)) {
      split (key, part, SUBSEP)
      printf "%s: a test runs this line of %s, or it is gone: %s\n", place[key], part[1], part[2]
      wrong = 1
    }
  exit wrong
}
