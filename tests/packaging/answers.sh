#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# What the program $BR answers and writes, in the new folder that is named: text, JSON, drawings as SVG and in characters,
# reports, papers, keys, marks and columns.  Compilers, systems and widths of a machine's words must not show in it, so that two
# such folders are compared by `diff -r`.  PDF and PNG are left out, as other libraries write them, and so are cutting plans, which
# are as good as their time and the solver allow.
set -eu
: "${srcdir:=.}" "${BR:=./benchrule}"
srcdir=$(cd "$srcdir" && pwd)
BR=$(realpath "$BR")
export TZ=UTC LC_ALL=C.UTF-8
mkdir "$1"
cd "$1"

# answer NAME OPTION...: what is said, as text and as JSON, with the status: a refusal is an answer, too.
answer ()
{
  local name=$1 form status
  shift
  for form in text json; do
    status=0
    "$BR" -o $form "$@" >"$name.$form" 2>&1 || status=$?
    echo "status $status" >>"$name.$form"
  done
}

for sheet in "$srcdir"/docs/examples/*.sheet "$srcdir"/tests/data/*.sheet; do
  name=$(basename "$sheet" .sheet)
  sed '/^cuts/d; /^order/d' "$sheet" >"$name.sheet"
  answer "$name" "$name.sheet" -c 'date 25 November 2026' -c list -c missing -c shapes -c parts -c cautions -c rubs \
    -c draw -c 'draw views' -c 'draw parts' -c "draw into $name.svg" -c "draw views into $name-views.svg" \
    -c "draw parts into $name-parts.svg" -c "draw bare into $name-bare.svg"
  grep -q '^stock' "$sheet" || answer "$name-report" "$name.sheet" -c 'date 25 November 2026' -c "report into $name.html"
done

# Slanting dimensions, with sides of 3, 4 and 5, and notes that look for a place.
answer slanting -c 'date 25 November 2026' -c 'plate front = 2 hole 1/2 at 0, 0' -c 'circle rear = 3 at 4, 3' -c 'circle pin = 1/4 at 2, 6' \
  -c 'outline side = 0, 0 to 8, 0 to 8, 3 to 4, 6 to 0, 4' -c 'dimension centre(front) to centre(rear) along' \
  -c 'dimension centre(rear) to centre(pin) along off 1/2' -c 'note "drill first" at 4, 3 to rear' -c 'note "sand" at 2, 6 to side' \
  -c draw -c 'draw into slanting.svg'

# Every topic, in each unit, for people and for programs.
topics='reading 2, decimals 2, sums 2, products 2, scale 2, known size 2, fender 2, dividing 2, stock 2, missing 2'
for units in in mm; do
  for form in txt csv html; do
    answer "papers-$units-$form" -c "units $units" -c "worksheet $topics seed 7 versions 3 into papers-$units.$form" \
      -c "key papers-$units-key.$form"
  done
done
printf '%s\n' student,version,1,2,3,4,5 'Ada,1,8-11/16 in,10 11/16 in,1-7/16 in,eight and 9/16 in,18' \
  'Bo,2,8 11/16,10-5/16 in,2-13/16 in,8.56 in,nineteen' >answers.csv
answer grade -c 'worksheet sums 2, fender 1, missing 1, stock 1 seed 8 versions 2 into graded.csv' -c 'key graded-key.csv' \
  -c 'grade answers.csv with graded-key.csv into marks.csv'

# A column with every form of number: decimals of a drawing program, fractions of a ruler, thirds.
awk 'BEGIN { print "part,length"
             for (i = 1; i <= 2000; i++)
               {
                 n = (i * 7919) % 100003
                 if (i % 5 == 0) print "p" i "," int (n / 64) "-" 2 * (n % 32) + 1 "/64"
                 else if (i % 7 == 0) print "p" i "," n "/3"
                 else printf "p%d,%d.%04d\n", i, n / 1000, (n * 37) % 10000
               } }' >column.csv
for mark in 1/16 1/10 '1 mm'; do
  name=column-$(tr -d ' /' <<<"$mark")
  answer "$name" -c "round column length of column.csv to $mark into $name.csv" \
    -c "round column length of column.csv to $mark keep total into $name-total.csv"
done

# Every row of the tables of formulas, exact values, roots and angles, and some of each kind of question.
sed -s '/^#/d; s/;.*//; s/ | /\n/g' "$srcdir"/tests/data/{expressions,identities,worked}.txt >formulas.lines
answer formulas formulas.lines
answer questions -c 'marks 22.3746' -c 'simplest 4.7813 within 1/16' -c 'explain fender_radius(2-3/8, 5/16)' \
  -c 'explain 22.3746 to 1/16' -c 'drills 0.26' -c 'saws 3' -c 'divide 22-3/8 into 7 kerf 1/8' \
  -c 'space 5 across 22-3/8 width 2-1/8 ends 1' -c 'exact sqrt(2) * pi' -c 'x = 2' -c 'find x for chord(x, 40) = 3' \
  -c 'find x for wheelbase_for(x, 6, 4) = 7' -c 'show fender(3-1/2, 5/16, 1)' -c 'help all'
