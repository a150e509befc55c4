#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes a page of the manual from its Markdown source, on standard output; lowdown does the converting.
#   page.sh man docs/limits.md benchrule-limits.7 VERSION DATE     SOURCE_PAGES lists what else is a man page
#   page.sh man docs/library.md benchrule-trade.3 ...      of a section of the library's page, what holds for every function
#   page.sh html docs/limits.md
# SOURCE_PAGES holds "SOURCE:PAGE" for each man page, so that links between sources become references.
set -eu
form=$1 source=$2
here=$(dirname "$0")
: "${LOWDOWN:=lowdown}" "${AWK:=awk}" "${SOURCE_PAGES:=}"
LC_ALL=C.UTF-8
export LC_ALL
title=$(sed -n 's/^# //p' "$source" | head -n 1)

# The section HEADING of $source as a page of its own, with TITLE and what a program includes.
group_page ()
{
  printf '# %s\n\n`#include <%s>`\n' "$2" "$3"
  "$AWK" -v wanted="## $1" '/^## / { inside = $0 == wanted; next } inside' "$source"
  printf '## Rules for every function\n'
  "$AWK" '/^## / { inside = $0 == "## Rules for every function"; next } inside' "$source"
  printf '## See also\n\n[library.md](library.md), which has the types\n'
}

man_page ()
{
  page=$1 version=$2 day=$3
  name=${page%.*} section=${page##*.}
  group=1
  case $page in
    benchrule-numbers.3) set -- Numbers 'Exact fractions' benchrule.h ;;
    benchrule-reals.3) set -- 'Real values' 'Fractions, roots, multiples of pi, and formulas of these' benchrule.h ;;
    benchrule-measures.3) set -- Measures 'Shop notation and units' benchrule.h ;;
    benchrule-rulers.3) set -- 'Rulers and scales' 'Marks of a ruler and scales of a drawing' benchrule.h ;;
    benchrule-trade.3) set -- 'The trade' 'Circles, wheels, fenders, axles and drills' benchrule.h ;;
    benchrule-cautions.3) set -- Cautions 'Published rules that a size touches' benchrule.h ;;
    benchrule-gmp.3) set -- 'GMP and MPFR' 'To and from GMP and MPFR' benchrule.h ;;
    benchrule-records.3) set -- Records 'Answers of a sheet' benchrule_sheet.h ;;
    benchrule-sheets.3) set -- Sheets 'Design sheets' benchrule_sheet.h ;;
    *) group= ;;
  esac
  if [ -n "$group" ]; then
    group_page "$1" "$2" "$3" >"$work/group"
    source=$work/group
  fi
  "$AWK" -v PART=before -v NAME="$name" -v PAGES="$SOURCE_PAGES" -f "$here/page.awk" "$source" >"$work/source"
  "$LOWDOWN" -s -t man --out-no-smarty -m title="$(echo "$name" | tr '[:lower:]' '[:upper:]')" -m section="$section" \
    -m date="$day" -m source="benchrule $version" "$work/source" >"$work/page"
  "$AWK" -v PART=after -f "$here/page.awk" "$work/page"
}

# One file with nothing outside it; other pages of the manual are beside it, wherever their sources are.
html_page ()
{
  cat <<END
<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>$title</title>
<style>
body { font: 100%/1.5 sans-serif; max-width: 54em; margin: 0 auto; padding: 0 1em 3em; color: #111; background: #fff }
h1 { line-height: 1.2 }
h2 { margin-top: 2em }
code, pre { font-family: monospace, monospace; font-size: 90%; line-height: 1.4; background: #f4f3ee }
pre { padding: .6em .8em; overflow-x: auto }
pre code { font-size: 100%; background: none }
table { border-collapse: collapse; display: block; overflow-x: auto }
td, th { text-align: left; vertical-align: top; padding: .25em .8em .25em 0; border-bottom: 1px solid #ccc }
nav { border-bottom: 1px solid #ccc; padding: .5em 0 }
@media print { nav { display: none } pre { white-space: pre-wrap } }
</style>
</head>
<body>
<nav><a href="index.html">The manual of benchrule</a></nav>
<main>
END
  "$LOWDOWN" -t html --out-no-smarty "$source" \
    | sed -e 's|href="\(docs/\)*manual\.md"|href="index.html"|g' \
          -e 's|href="\(docs/\)*\([a-z_A-Z]*\)\.md\(#[^"]*\)*"|href="\2.html\3"|g' \
          -e 's|>\([a-z_A-Z]*\)\.md</a>|>\1</a>|g'
  printf '</main>\n</body>\n</html>\n'
}

command -v "$LOWDOWN" >/dev/null || { echo "$source: lowdown not found (Debian: lowdown)" >&2; exit 1; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
case $form in
  man) man_page "$3" "$4" "$5" ;;
  html) html_page ;;
esac
