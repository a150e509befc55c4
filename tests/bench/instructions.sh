#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# instructions.sh [--write] WORK-PROGRAM: counts the instructions of each piece of work and compares them with
# baseline.txt.  More than 5 per cent over it fails, unless a commit since the baseline says so in a line
# "Instructions: why".  --write makes a new baseline.  `make instructions` runs it.
set -u
here=$(cd "$(dirname "$0")" && pwd)
baseline=$here/baseline.txt
valgrind=${VALGRIND:-valgrind}
write=
[ "${1-}" != --write ] || { write=yes; shift; }
program=${1:?usage: instructions.sh [--write] WORK-PROGRAM}

# The counts hold for one compiler and one kind of machine.
made_by=$("${CC:-cc}" --version | sed -n 1p)," "$(uname -m)
works='nothing reading rounding writing rows adding diagonals change column'

# The instructions of COMMAND.
count ()
{
  "$valgrind" --tool=callgrind --callgrind-out-file=/dev/null "$@" 2>&1 >/dev/null \
    | sed -n 's/^==.*Collected : *\([0-9]*\).*/\1/p'
}

measure ()
{
  local work before all
  before=$(count "$program" nothing)
  for work in $works; do
    all=$(count "$program" "$work")
    [ -n "$all" ] || { echo "instructions.sh: $work could not be counted" >&2; return 1; }
    [ "$work" = nothing ] || all=$((all - before))
    echo "$work $all"
  done
  echo "start-up $(count "${BR:-./benchrule}" -c 1/2)"
}

# Git where the commits are: BR_HISTORY names the clone for a copy of it.
history ()
{
  git -c safe.directory='*' -C "${BR_HISTORY:-$here/../..}" "$@" 2>/dev/null
}

# A word about it in a commit since the baseline was written.
explained ()
{
  local since
  since=$(history log -1 --format=%H -- tests/bench/baseline.txt)
  [ -n "$since" ] && history log --format=%B "$since"..HEAD | grep -q '^Instructions: .'
}

counts=$(measure) || exit 1
if [ -n "$write" ]; then
  { echo "# $made_by"; echo "$counts"; } >"$baseline"
  cat "$baseline"
  exit 0
fi
if [ "$(sed -n '1s/^# //p' "$baseline")" != "$made_by" ]; then
  echo "not compared: the baseline is of$(sed -n '1s/^#//p' "$baseline"), this is $made_by"
  echo "$counts"
  exit 0
fi
worse=$(echo "$counts" | awk -v baseline="$baseline" '
  BEGIN { while ((getline line < baseline) > 0) { split (line, part, " "); was[part[1]] = part[2] } }
  { change = was[$1] ? 100 * ($2 / was[$1] - 1) : 100
    printf "%-10s %12d  was %12d  %+6.1f %%\n", $1, $2, was[$1], change > "/dev/stderr"
    if (change > 5) print $1 }')
if [ -z "$worse" ]; then
  echo 'no work takes 5 per cent more instructions than its baseline'
elif explained; then
  echo "worse, and a commit says why:" $worse
else
  echo "more than 5 per cent worse:" $worse
  echo 'a line "Instructions: why" in the commit lets it pass; instructions.sh --write makes a new baseline'
  exit 1
fi
