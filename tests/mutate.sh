#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# mutate.sh SOURCES BUILD COUNT [SEED]: would the tests notice a slip of the pen?  COUNT times ("all": for each one)
# it takes a comparison, a sign, a small constant or an answer of lib/exact or lib/measure, at random, writes
# another one, compiles that file and runs the tests of the two rooms until one fails; what they let pass
# they see once more under the sanitizers, as in the examination.  It says which slips went unnoticed and what
# share was noticed.  Slips that no test can tell from the right text stand in tests/data/equivalent_slips.txt,
# each with its reason, and are left out.  BUILD is configured (its config.h is read); all that is made goes
# to BUILD/mutations.  JOBS (2) slips are tried at a time.
set -u
sources=$(cd "${1:?usage: mutate.sh SOURCES BUILD COUNT [SEED]}" && pwd) || exit 1
build=$(cd "${2:?}" && pwd) || exit 1
count=${3:?} seed=${4:-1} jobs=${JOBS:-2}
room=$build/mutations log=$build/mutate.log
tests='exact/number exact/number_text exact/number_round exact/real exact/real_round exact/number_memory
  exact/real_limits measure/markup measure/read measure/write measure/ruler measure/scale measure/total
  measure/csv measure/glyph measure/robust'
libraries='-lcmocka -lflint -lmpfi -lmpfr -lgmp -lm -lpthread'
watch='-g -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer'
export srcdir=$sources CMOCKA_TEST_ABORT=1 UBSAN_OPTIONS=print_stacktrace=0
export ASAN_OPTIONS=hard_rss_limit_mb=3000 LSAN_OPTIONS=suppressions=$sources/tests/leaks.supp:print_suppressions=0
ulimit -c 0

# compile FLAGS OUTPUT FILE: one file of the library.
compile ()
{
  # shellcheck disable=SC2086
  cc -std=gnu11 -O1 -w -fPIC $1 -DHAVE_CONFIG_H -I"$build" -I"$sources/lib" -c "$3" -o "$2"
}

# link FLAGS OUTPUT OBJECT...: the two rooms as a library of their own, so that a slip costs one file and one link.
link ()
{
  local flags=$1 output=$2
  shift 2
  # shellcheck disable=SC2086
  cc -shared $flags -o "$output" "$@" -lmpfi -lmpfr -lgmp -lm -lpthread
}

# The objects and the tests of one KIND (plain, watched) with its FLAGS.
prepare ()
{
  local kind=$1 flags=$2 file name
  mkdir -p "$room/$kind/tests" || return 1
  for file in "$sources"/lib/exact/*.c "$sources"/lib/measure/*.c; do
    compile "$flags" "$room/$kind/$(basename "$file" .c).o" "$file" || return 1
  done
  link "$flags" "$room/$kind/libslip.so" "$room/$kind"/*.o || return 1
  for name in $tests; do
    # shellcheck disable=SC2086
    cc -std=gnu11 -O1 -w $flags -DHAVE_CONFIG_H -DHAVE_FLINT -I"$build" -I"$sources/lib" -I"$sources/tests" \
      "$sources/tests/$name.c" -L"$room/$kind" -lslip $libraries -o "$room/$kind/tests/${name#*/}" || return 1
  done
}

# passes KIND FOLDER NAME SECONDS: one test with the library of FOLDER.
passes ()
{
  ( [ "$1" = watched ] || ulimit -v 4000000
    cd "$2" && LD_LIBRARY_PATH=$2 exec timeout "$4" "$room/$1/tests/${3#*/}" ) >"$2/output" 2>&1
}

# What each test takes, so that the quickest come first: rows of milliseconds and name.
measure ()
{
  local kind=$1 name start
  for name in $tests; do
    start=$(date +%s%N)
    passes "$kind" "$room/$kind" "$name" 600 \
      || { cat "$room/$kind/output"; echo "$kind: $name fails as it is"; return 1; } >&2
    echo "$((($(date +%s%N) - start) / 1000000)) $name"
  done >"$room/$kind/times"
}

# noticed KIND FLAGS FOLDER FILE: 0 if a test fails, crashes or hangs, 2 if the slip does not compile.  What
# lib/measure does is not called from the tests of lib/exact, which stands before it.
noticed ()
{
  local kind=$1 flags=$2 folder=$3 file=$4 time name own=${4#lib/} objects
  own=${own%%/*}
  mapfile -t objects < <(find "$room/$kind" -name '*.o' ! -name "$(basename "$file" .c).o")
  rm -f "$folder/libslip.so"
  compile "$flags" "$folder/slip.o" "$folder/slip.c" \
    && link "$flags" "$folder/libslip.so" "$folder/slip.o" "${objects[@]}" || return 2
  while read -r time name; do
    passes "$kind" "$folder" "$name" $((20 + time / 50)) || { echo "$name"; return 0; }
  done < <(sort -n "$room/$kind/times" | grep " $own/"
           [ "$own" = measure ] || sort -n "$room/$kind/times" | grep -v " $own/")
  return 1
}

# The slips of one queue, an answer a line: noticed by what, unnoticed, or invalid.
try ()
{
  local folder=$room/$1 file line column from to name before after by status
  while IFS=$'\t' read -r file line column from to name before after; do
    awk -v line="$line" -v column="$column" -v from="$from" -v to="$to" '
      FNR == line { $0 = substr ($0, 1, column - 1) to substr ($0, column + length (from)) } { print }
    ' "$sources/$file" >"$folder/slip.c"
    by=$(noticed plain '' "$folder" "$file" 2>>"$log")
    status=$?
    if [ $status -eq 1 ]; then
      by=$(noticed watched "$watch" "$folder" "$file" 2>>"$log") && by="$by, watched"
      status=$?
    fi
    case $status in
      0) status="noticed ($by)" ;;
      1) status=unnoticed ;;
      *) status=invalid ;;
    esac
    printf '%s: %s:%s %s:\n- %s\n+ %s\n' "$status" "$file" "$line" "$name" "$before" "$after"
  done <"$folder/queue" >"$folder/answers"
}

rm -rf "$room"
mkdir -p "$room" && : >"$log"
( cd "$sources" && awk -v EQUIVALENT=tests/data/equivalent_slips.txt -v COUNTS="$room/left" -f tests/slips.awk \
    lib/exact/*.c lib/measure/*.c ) >"$room/all" || exit 1
total=$(wc -l <"$room/all")
[ "$count" != all ] || count=$total
echo "$total slips could be made, without the $(cat "$room/left") that nothing can tell; $count of them, seed $seed"
prepare plain '' && prepare watched "$watch" && measure plain && measure watched || exit 1
awk -v seed="$seed" 'BEGIN { srand(seed) } { print rand() "\t" $0 }' "$room/all" | sort -n | cut -f2- \
  | head -n "$count" >"$room/chosen"
workers=()
for ((job = 1; job <= jobs; job++)); do
  mkdir "$room/$job"
  awk -v job="$job" -v jobs="$jobs" 'NR % jobs == job - 1' "$room/chosen" >"$room/$job/queue"
  try "$job" &
  workers+=($!)
done
trap 'kill "${workers[@]}" 2>/dev/null; exit 1' INT TERM
wait "${workers[@]}"
cat "$room"/[0-9]*/answers >"$room/answers"
awk '/^unnoticed/ { shown = 3 } shown-- > 0' "$room/answers"
awk '/^noticed/ { c++ } /^unnoticed/ { m++ } /^invalid/ { i++ } END {
  if (c + m == 0)
    exit 1
  printf "%d noticed, %d not: %.1f per cent (%d did not compile)\n", c, m, 100 * c / (c + m), i
  exit c < 0.95 * (c + m)
}' "$room/answers"
