#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# mutate.sh SOURCES FOLDER COUNT [SEED]: would the tests notice a slip of the pen?  COUNT times ("all": for each one)
# it takes a comparison, a sign, a small constant or an answer of lib, at random, writes another one, builds, and runs
# the tests of that room, then those of the rooms that MORE names, until one fails.  It says which slips went unnoticed
# and what share was noticed.  Slips that no test can tell from the right text stand in tests/data/equivalent_slips.txt,
# each with its reason, and are left out.  FOLDER gets a copy of SOURCES, configured and built, for each of JOBS (2)
# slips that are tried at a time; copies that are there already are brought up to date and used again.
#
# ROOMS (all): the rooms of lib that slips are made in.  MORE ("statement repl"): what is run beside their own tests.
# CONFIGURE ("CFLAGS=-O1"): options; with --enable-sanitizers slips that only those see are noticed as well.
set -u
sources=$(cd "${1:?usage: mutate.sh SOURCES FOLDER COUNT [SEED]}" && pwd) || exit 1
mkdir -p "${2:?}" && folder=$(cd "$2" && pwd) || exit 1
count=${3:?} seed=${4:-1} jobs=${JOBS:-2} more=${MORE-statement repl} slow=${SLOW:-300}
rooms=${ROOMS:-$(cd "$sources/lib" && find . -mindepth 1 -maxdepth 1 -type d ! -name '.*' -printf '%f ')}
export CMOCKA_TEST_ABORT=1 BR_TEST_FACTOR=${BR_TEST_FACTOR:-1/5}
ulimit -c 0

# prepare COPY: the sources as git has them, built with their tests.
prepare ()
{
  local copy=$1
  mkdir -p "$copy" || return 1
  # A slip may have been left there.
  (cd "$sources" && git ls-files -z | while IFS= read -r -d '' file; do
     cmp -s "$file" "$copy/$file" || cp --parents "$file" "$copy" || return 1
   done) || return 1
  cd "$copy" || return 1
  if [ ! -f Makefile ]; then
    mkdir -p m4 build-aux && cp "$(automake --print-libdir)/tap-driver.sh" build-aux/ && autoreconf --install \
      && eval "./configure --quiet ${CONFIGURE:-CFLAGS=-O1}" || return 1
  fi
  make -s && make -s check TESTS=
}

# The tests of ROOM, a name a line: programs and scripts.
tests_of ()
{
  local room=$1 source
  for source in tests/"$room"/*.c; do
    grep -q "^${source%.c}\$(EXEEXT):" Makefile && echo "${source%.c}"
  done
  find tests/"$room" -name '*.tap' | sort
}

# passes TEST, as `make check` runs it, but without make, which takes longer than most tests.
passes ()
{
  local command=("./$1")
  [ "${1%.tap}" = "$1" ] || command=(bash "$1")
  srcdir=$PWD builddir=$PWD BR=$PWD/benchrule XDG_STATE_HOME=$PWD/tests/state LC_ALL=C.UTF-8 TERM=dumb INPUTRC=/dev/null \
    CMOCKA_MESSAGE_OUTPUT=TAP CC=cc timeout "$slow" "${command[@]}" >output 2>&1 </dev/null
  case $? in
    0) ! grep -q '^not ok' output ;;
    77) return 0 ;;
    *) return 1 ;;
  esac
}

# noticed ROOM: 0 and the test's name if one fails, crashes or hangs, 2 if the slip does not compile.
noticed ()
{
  local room test programs
  make -s libbenchrule-core.la >log 2>&1 || return 2
  for room in "$1" $more; do
    [ -d tests/"$room" ] || continue
    mapfile -t programs < <(tests_of "$room")
    make -s benchrule "${programs[@]}" >log 2>&1 || return 2
    for test in "${programs[@]}"; do
      grep -qxF "$test" unsound 2>/dev/null || passes "$test" || { echo "$test"; return 0; }
    done
  done
  return 1
}

# sound TEST FILE: 0 if the test passes without the slip, asked once for each test.
sound ()
{
  grep -qxF "$1" sound 2>/dev/null && return 0
  cp "$sources/$2" "$2"
  make -s libbenchrule-core.la benchrule >log 2>&1 || return 1
  [ "${1%.tap}" != "$1" ] || make -s "$1" >log 2>&1
  passes "$1" && echo "$1" >>sound
}

# The slips of one queue, an answer a line: noticed by what, unnoticed, or invalid.
try ()
{
  local file line column from to name before after by status room
  cd "$folder/$1" || return 1
  while IFS=$'\t' read -r file line column from to name before after; do
    room=${file#lib/}
    awk -v line="$line" -v column="$column" -v from="$from" -v to="$to" '
      FNR == line { $0 = substr ($0, 1, column - 1) to substr ($0, column + length (from)) } { print }
    ' "$sources/$file" >"$file"
    cp "$file" slip
    by=$(noticed "${room%%/*}")
    status=$?
    # A test that fails as it is says nothing, here and later.
    while [ $status -eq 0 ] && ! sound "$by" "$file"; do
      echo "$by fails as it is" >&2
      echo "$by" >>unsound
      cp slip "$file"
      by=$(noticed "${room%%/*}")
      status=$?
    done
    cp "$sources/$file" "$file"
    case $status in
      0) status="noticed ($by)" ;;
      1) status=unnoticed ;;
      *) status=invalid ;;
    esac
    printf '%s: %s:%s %s:\n- %s\n+ %s\n' "$status" "$file" "$line" "$name" "$before" "$after"
  done <queue >answers
}

(cd "$sources" && awk -v EQUIVALENT=tests/data/equivalent_slips.txt -v COUNTS="$folder/left" -f tests/slips.awk lib/*/*.c) \
  >"$folder/all" || exit 1
for room in $rooms; do
  grep "^lib/$room/" "$folder/all"
done >"$folder/wanted"
total=$(wc -l <"$folder/wanted")
[ "$count" != all ] || count=$total
echo "$total slips could be made, without the $(cat "$folder/left") that nothing can tell; $count of them, seed $seed"
for ((job = 1; job <= jobs; job++)); do
  (prepare "$folder/$job") >"$folder/log" 2>&1 || { tail "$folder/log"; exit 1; }
done
awk -v seed="$seed" 'BEGIN { srand(seed) } { print rand() "\t" $0 }' "$folder/wanted" | sort -n | cut -f2- \
  | head -n "$count" >"$folder/chosen"
workers=()
for ((job = 1; job <= jobs; job++)); do
  awk -v job="$job" -v jobs="$jobs" 'NR % jobs == job - 1' "$folder/chosen" >"$folder/$job/queue"
  try "$job" &
  workers+=($!)
done
trap 'kill "${workers[@]}" 2>/dev/null; exit 1' INT TERM
wait "${workers[@]}"
cat "$folder"/[0-9]*/answers >"$folder/answers"
awk '/^unnoticed/ { shown = 3 } shown-- > 0' "$folder/answers"
awk '/^noticed/ { c++ } /^unnoticed/ { m++ } /^invalid/ { i++ } END {
  if (c + m == 0)
    exit 1
  printf "%d noticed, %d not: %.1f per cent (%d did not compile)\n", c, m, 100 * c / (c + m), i
  exit c < 0.95 * (c + m)
}' "$folder/answers"
