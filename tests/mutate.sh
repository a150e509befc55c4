#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# mutate.sh SOURCES BUILD COUNT [SEED]: would the tests notice a slip of the pen?  COUNT times it takes a
# comparison, a sign or a small constant of lib/exact or lib/measure, at random, writes another one, compiles
# that file and runs the tests of the two rooms until one fails.  It says which slips went unnoticed and what
# share was noticed.  SOURCES must be a copy that may be written to, BUILD its configured and built folder.
set -u
sources=$(cd "${1:?usage: mutate.sh SOURCES BUILD COUNT [SEED]}" && pwd) || exit 1
build=$(cd "${2:?}" && pwd) || exit 1
count=${3:?} seed=${4:-1}
log=$build/mutate.log
tests='exact/number exact/number_text exact/number_round exact/real exact/real_round exact/number_memory
  exact/real_limits measure/markup measure/read measure/write measure/ruler measure/scale measure/total measure/csv measure/robust'
libraries='-lcmocka -lflint -lmpfi -lmpfr -lgmp -lm'
room=$build/mutations

# A row for each slip that could be made: file, line, column, what is there, what comes instead.  Comments,
# strings, directives, declarations of constants in headers and the texts of error messages are left alone.
candidates ()
{
  ( cd "$sources" && awk '
    function offer (text, from, to, at, rest, start) {
      rest = text; start = 0
      while ((at = index (rest, from)) > 0) {
        print FILENAME "\t" FNR "\t" start + at "\t" from "\t" to
        start += at + length (from) - 1
        rest = substr (rest, at + length (from))
      }
    }
    FNR == 1 { comment = 0 }
    {
      text = $0
      if (comment) { if (text ~ /\*\//) comment = 0; next }
      if (text ~ /^ *\/\*/ ) { if (text !~ /\*\//) comment = 1; next }
      sub (/\/\*.*$/, "", text)
      if ($0 ~ /\/\*/ && $0 !~ /\*\//) comment = 1
      if (text ~ /^#/ || text ~ /"/ || text ~ /^ *for .*; *i/ || text ~ /sizeof|br__grow|assert/) next
      offer(text, " < ", " <= "); offer(text, " <= ", " < "); offer(text, " > ", " >= "); offer(text, " >= ", " > ")
      offer(text, " == ", " != "); offer(text, " != ", " == "); offer(text, " && ", " || "); offer(text, " || ", " && ")
      offer(text, " + ", " - "); offer(text, " - ", " + "); offer(text, " 1)", " 2)"); offer(text, " 0)", " 1)")
      offer(text, " = 0;", " = 1;"); offer(text, " = 1;", " = 0;")
    }' lib/exact/*.c lib/measure/*.c )
}

# The library as a shared one of its own, and the tests linked with it once: a slip costs one file and one link.
prepare ()
{
  local name short
  rm -rf "$room" && mkdir -p "$room"
  make -s -C "$build" VISIBILITY_CFLAGS= BR_CFLAGS=-std=gnu11 libbenchrule-core.la || return 1
  objects=$(cd "$build" && find lib -path '*/.libs/libbenchrule_core_la-*.o')
  link || return 1
  for name in $tests; do
    short=${name#*/}
    # shellcheck disable=SC2086
    cc -std=gnu11 -O1 -w -DHAVE_CONFIG_H -I"$build" -I"$sources/lib" -I"$sources/tests" "$sources/tests/$name.c" \
       -L"$room" -lslip $libraries -lpthread -o "$room/$short" || return 1
  done
}

link ()
{
  # shellcheck disable=SC2086
  ( cd "$build" && cc -shared -o "$room/libslip.so" $objects -lmpfi -lmpfr -lgmp -lm -lpthread )
}

compile ()
{
  local object=$build/${1%/*}/.libs/libbenchrule_core_la-$(basename "$1" .c).o
  cc -std=gnu11 -O1 -w -fPIC -DHAVE_CONFIG_H -I"$build" -I"$sources/lib" -c "$sources/$1" -o "$object"
}

# Runs the tests, those of the file's own room first; 0 if one fails or hangs.
noticed ()
{
  local name first=$1
  compile "$first" >>"$log" 2>&1 && link >>"$log" 2>&1 || return 2
  for name in $(tr ' ' '\n' <<<"$tests" | grep . | sort -t/ -k1,1 -s $([[ $first == lib/measure* ]] && echo -r)); do
    ( ulimit -v 4000000; cd "$room" && srcdir=$sources LD_LIBRARY_PATH=$room timeout "$patience" "./${name#*/}" ) >>"$log" 2>&1 || return 0
  done
  return 1
}

patience=30
: >"$log"
prepare || exit 1
candidates >"$room/all" || exit 1
total=$(wc -l <"$room/all")
echo "$total slips could be made; $count of them, seed $seed"
noticed lib/exact/text.c && { echo 'the tests fail as it is' >&2; exit 1; }
caught=0 missed=0 invalid=0
while IFS=$'\t' read -r file line column from to; do
  cp "$sources/$file" "$room/kept.c"
  awk -v line="$line" -v column="$column" -v from="$from" -v to="$to" '
    FNR == line { $0 = substr ($0, 1, column - 1) to substr ($0, column + length (from)) } { print }
  ' "$room/kept.c" >"$sources/$file"
  noticed "$file"
  case $? in
    0) caught=$((caught + 1)) ;;
    1) missed=$((missed + 1)); printf 'unnoticed: %s:%s:%s `%s` for `%s`\n' "$file" "$line" "$column" "$to" "$from" ;;
    *) invalid=$((invalid + 1)) ;;
  esac
  cp "$room/kept.c" "$sources/$file"
  compile "$file"
done < <(awk -v seed="$seed" 'BEGIN { srand(seed) } { print rand() "\t" $0 }' "$room/all" | sort -n | cut -f2- | head -n "$count")
[ $((caught + missed)) -gt 0 ] || exit 1
awk -v c="$caught" -v m="$missed" -v i="$invalid" 'BEGIN {
  printf "%d noticed, %d not: %.1f per cent (%d did not compile)\n", c, m, 100 * c / (c + m), i
  exit c < 0.95 * (c + m)
}'
