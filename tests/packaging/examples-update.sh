#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Writes what the program says now into the examples of a document:
#   BR=./benchrule tests/packaging/examples-update.sh README.md docs/market_cart.md
# Read the difference before it is committed: an example is a promise.
set -eu
program=$(realpath "${BR:-./benchrule}")
[ -x "$program" ] || { echo "no program: $program" >&2; exit 1; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin"
ln -s "$program" "$work/bin/benchrule"
PATH=$work/bin:$PATH
[ "$(locale charmap 2>/dev/null)" = UTF-8 ] || export LC_ALL=C.UTF-8
cd "$(dirname "$0")/../.."
for document; do
  awk '
    function run(   file) {
      if (command == "") return
      file = WORK "/command"
      print command > file
      close(file)
      system("bash " file " </dev/null 2>&1")
      command = ""
    }
    { fflush() }
    /^```console *$/ { inside = 1; print; fflush(); next }
    inside && /^```/ { run(); inside = 0; print; fflush(); next }
    inside && /^\$ / { run(); command = substr($0, 3); said = 0; print; fflush(); next }
    inside && command != "" && !said && /^> / { command = command "\n" substr($0, 3); print; fflush(); next }
    inside { said = 1; next }
    { print }
  ' WORK="$work" "$document" >"$work/new"
  cat "$work/new" >"$document"
done
