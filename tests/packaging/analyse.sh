#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# What can be found without running anything: cppcheck, clang-tidy and gcc's own analyser over all of lib and
# repl, or over the sources named, as many at a time as there are processors.  Told are each finding that is not
# in false_alarms.txt, each entry there that nothing needs any more, and each tool that is missing; where there is
# one of these the status is 1.  `make analyse` gives CPPFLAGS; JOBS and TOOLS may be set.
set -u
: "${srcdir:=.}" "${CPPFLAGS:=-I. -Ilib -Irepl}" "${GCC:=gcc}" "${TOOLS:=cppcheck clang-tidy gcc}"
: "${JOBS:=$(nproc 2>/dev/null || echo 2)}"
cd "$srcdir" || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export CPPFLAGS GCC work

# of TOOL SOURCE...: what TOOL says of the sources.  The two that follow paths do so up to a number of states, gcc's
# own and a quarter of what clang-tidy would do, so that no source takes longer than some seconds.  Left out of what
# gcc says: leaks, as version 12 takes a block for lost that is kept in an array or in a struct of the caller; leaks
# are found where the tests run under the sanitizer and under valgrind, with each request for memory refused once.
of ()
{
  local tool=$1
  shift
  # shellcheck disable=SC2086
  case $tool in
    cppcheck)
      cppcheck --quiet --enable=warning,performance,portability --inline-suppr --std=c11 -DHAVE_CONFIG_H -Ilib \
        --suppress=missingIncludeSystem --template='{file}:{line}:{column}: {severity}: {message} [{id}]' "$@" ;;
    clang-tidy)
      clang-tidy --quiet --config-file=.clang-tidy --extra-arg=-Xclang --extra-arg=-analyzer-config \
        --extra-arg=-Xclang --extra-arg=max-nodes=50000 "$@" -- -std=gnu11 -DHAVE_CONFIG_H $CPPFLAGS ;;
    gcc)
      "$GCC" -O1 -fanalyzer -Wno-analyzer-malloc-leak -std=gnu11 -DHAVE_CONFIG_H $CPPFLAGS -fdiagnostics-plain-output \
        -fdiagnostics-path-format="${paths:-none}" -S -o /dev/null "$@" ;;
  esac
}

# job TOOL SOURCE...: the same, kept in files of its own.  No finding may pass for a source that was not read.
job ()
{
  local said
  said=$work/said.$1.$(printf '%s' "$2" | tr / _)
  of "$@" >"$said" 2>&1 || grep -q '\]$' "$said" || echo "$1 failed on $2" >>"$said"
}
export -f of job

# The findings of TOOL in what it said: each once, as a header is read by many.
findings ()
{
  cat "$work/said.$1".* 2>/dev/null \
    | sed -n -e "s|^$PWD/||" -e 's/,-warnings-as-errors\]$/]/' -e 's/\[CWE-[0-9]*\] //' \
      -e '/: \(error\|warning\|performance\|portability\): /p' -e '/ failed on /p' | sort -u
}

# A tool that finds nothing must be known to look.
looks ()
{
  printf 'int planted (void);\nint planted (void) { int *p = 0; return *p; }\n' >"$work/planted.c"
  of "$1" "$work/planted.c" 2>&1 | grep -q 'planted\.c:2:.*[Nn]ull\|planted\.c:2:.*NULL'
}

# Takes from the findings what false_alarms.txt has: the entries that served are kept in $work/served.
others ()
{
  awk -v served="$work/served" '
    NR == FNR { if (!/^#/ && NF > 2) alarm[$1 " " $2] = 1; next }
    {
      source = $1; sub (/:.*/, "", source)
      check = $NF; gsub (/[][]|-W/, "", check)
      if ((source " " check) in alarm) print source, check >>served
      else print
    }' tests/packaging/false_alarms.txt -
}

used=
missing=
for tool in $TOOLS; do
  command=$tool
  [ "$tool" != gcc ] || command=$GCC
  if ! command -v "$command" >/dev/null; then
    missing="$missing $tool"
  elif ! looks "$tool"; then
    echo "$tool does not see a pointer that is null where it is followed"
    exit 1
  else
    used="$used $tool"
  fi
done

named=$#
if [ "$named" -gt 0 ]; then
  sources=("$@")
  export paths=inline-events
else
  mapfile -t sources < <(find lib repl -name '*.c' -exec ls -S {} +)
fi
for tool in $used; do
  # cppcheck looks from one source into another, so that it has them all at once.
  [ "$tool" = cppcheck ] && echo "$tool ${sources[*]}" || printf "$tool %s\n" "${sources[@]}"
done | xargs -P "$JOBS" -L 1 bash -c 'job "$@"' job

[ "$named" -eq 0 ] || cat "$work"/said.*
failed=0
: >"$work/served"
for tool in $used; do
  findings "$tool" | others >"$work/findings"
  sed "s/^/$tool: /" "$work/findings"
  count=$(wc -l <"$work/findings")
  failed=$((failed + count))
  echo "$tool: ${#sources[@]} sources, $count findings"
done
if [ "$named" -eq 0 ] && [ "$TOOLS" = 'cppcheck clang-tidy gcc' ] && [ -z "$missing" ]; then
  awk 'FILENAME == ARGV[1] { served[$0] = 1; next }
       !/^#/ && NF && !(($1 " " $2) in served) { print "false_alarms.txt: nothing says this any more: " $0; n++ }
       END { exit n > 0 }' "$work/served" tests/packaging/false_alarms.txt || failed=$((failed + 1))
fi
for tool in $missing; do
  echo "$tool: not found"
  failed=$((failed + 1))
done
[ "$failed" -eq 0 ]
