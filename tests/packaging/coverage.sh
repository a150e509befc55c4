#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# How much of the library the tests have run, by line and by branch: a row for each folder of lib.  It fails
# where the whole is below COVER_LINES or COVER_BRANCHES per cent, and where a line is not run of which
# tests/data/unreached.txt does not say why.  With the names of sources it lists the lines in them that no test
# runs or of which a branch is never taken.  `make coverage` runs the tests first.
set -u
here=$(cd "${srcdir:-.}/tests" && pwd) || exit 1
cd "${builddir:-.}" || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
build=$PWD

# Runs gcov for each object that a test has run; a source may have been compiled more than once.
summaries ()
{
  find lib -name '*.gcda' | while read -r data; do
    ( cd "$build" && gcov -b -n "$data" 2>/dev/null )
  done
}

missed ()
{
  local source name
  for source; do
    name=$(basename "$source" .c)
    find "${source%/*}" -name "*-$name.gcda" | while read -r data; do
      gcov -b -c -t "$data" 2>/dev/null | awk -v name="$source" '
        /^ *-: *0:Source:/ { ours = index ($0, name) }
        /^ *[0-9#=*-]+[*]?: *[0-9]+:/ { line = $0; shown = 0; if (ours && /^ *[#=]+:/) { print; shown = 1 } }
        /^branch/ && /taken 0|never/ && ours && !shown { print line; shown = 1 }'
    done
  done
}

# The lines themselves, of every object.
lines ()
{
  find lib -name '*.gcno' | while read -r notes; do
    gcov -t "$notes" 2>/dev/null
  done
}

if [ $# -gt 0 ]; then
  missed "$@"
  exit 0
fi
summaries >"$work/all"
awk -v lines="${COVER_LINES:-98}" -v branches="${COVER_BRANCHES:-91}" '
  # 12.34% of 56
  function share (text, parts) { split (text, parts, /[:% ]+/); return parts[length (parts) - 2] * parts[length (parts)] / 100 }
  function whole (text, parts) { split (text, parts, / /); return parts[length (parts)] }
  function row (name, l, n, b, m) {
    printf "%-12s %6d lines %6.2f %%   %6d branches %6.2f %%\n", name, n, 100 * l / n, m, m ? 100 * b / m : 100
  }
  /^File / { file = $2; gsub (/^.*lib\/|\047/, "", file); next }
  file !~ /\.c$/ { next }
  /^Lines executed/ { l = share ($0); better = !(file in run) || l > run[file]; if (better) { run[file] = l; all[file] = whole ($0) } }
  /^Taken at least once/ && better { taken[file] = share ($0); ways[file] = whole ($0) }
  END {
    for (file in run) {
      folder = file
      sub (/\/[^\/]*$/, "", folder)
      L[folder] += run[file]; N[folder] += all[file]; B[folder] += taken[file]; M[folder] += ways[file]
      l_all += run[file]; n_all += all[file]; b_all += taken[file]; m_all += ways[file]
    }
    if (!n_all) { print "nothing has been run"; exit 1 }
    for (folder in N) row("lib/" folder, L[folder], N[folder], B[folder], M[folder])
    row("lib", l_all, n_all, b_all, m_all)
    exit 100 * l_all / n_all < lines || 100 * b_all / m_all < branches
  }' "$work/all"
status=$?
lines >"$work/lines"
awk -f "$here/packaging/unreached.awk" "$here/data/unreached.txt" "$work/lines" || status=1
exit $status
