# SPDX-License-Identifier: GPL-3.0-or-later
# What the scripts of this folder share: the lines of TAP, a place to work in and
# the compiler with the flags of the build.
# shellcheck shell=bash
# shellcheck disable=SC2034,SC2154

set -u
: "${srcdir:=.}" "${builddir:=.}"
compile="${CC:-cc} ${SAN_FLAGS-}"
top=$(cd "$srcdir" && pwd)
built=$(cd "$builddir" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
tap_count=0

# Numbers with a point are numbers in every locale.
awk ()
{
  LC_ALL=C command awk "$@"
}

# The result of the command just run, with its name; DETAIL is shown where it failed.
tap_result ()
{
  local status=$1 name=$2 detail=${3-}
  tap_count=$((tap_count + 1))
  if [ "$status" -eq 0 ]; then
    echo "ok $tap_count - $name"
  else
    echo "not ok $tap_count - $name"
    [ -z "$detail" ] || printf '%s\n' "$detail" | sed 's/^/# /'
  fi
}

# Passes where OUTPUT is empty, as the lists of what is wrong should be.
tap_nothing ()
{
  [ -z "$2" ]
  tap_result $? "$1" "$2"
}

tap_skip ()
{
  tap_count=$((tap_count + 1))
  echo "ok $tap_count - $1 # SKIP $2"
}

# Passes where each line of FILE is a record as docs/benchrule.schema.json has them.
tap_records ()
{
  tap_nothing "$1" "$(srcdir=$top "$built/tests/repl/hold_records" <"$2" 2>&1 | cut -c 1-1000)"
}

# In a build without pages: ends the script, NAME skipped.
tap_needs_pages ()
{
  "$BR" --version | grep -q '^Pages: none' || return 0
  tap_skip "$1" 'built without pages'
  tap_end
  exit 0
}

tap_end ()
{
  echo "1..$tap_count"
}
