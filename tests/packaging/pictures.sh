#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# The pictures of the README and of the manual, made by the program $BR:
#   pictures.sh FOLDER     makes them anew in FOLDER, docs/pictures for those that are kept
#   pictures.sh --check    fails where one that is kept is not what the program makes now; other versions of cairo and
#                          poppler draw letters otherwise by a shade, so that then the strokes alone are compared
set -eu
: "${srcdir:=.}" "${BR:=./benchrule}"
srcdir=$(cd "$srcdir" && pwd)
BR=$(realpath "$BR")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

make_pictures ()
{
  local sheet=$srcdir/docs/examples/market_cart_side.sheet
  cd "$1"
  "$BR" "$sheet" -c 'date 25 November 2026' -c 'draw into market_cart.png' -c 'draw into market_cart.svg' >/dev/null
  for name in barrow crane; do
    "$BR" "$srcdir/tests/data/$name.sheet" -c "draw into $name.png" -c "draw into $name.svg" >/dev/null
  done
  "$BR" -c 'title The market cart' -c 'worksheet reading 2, fender 2, scale 1 seed 12 into worksheet.pdf' \
    -c 'worksheet reading 2, fender 2, scale 1 seed 12 into worksheet.txt' >/dev/null
  pdftoppm -r 80 -gray -png -singlefile worksheet.pdf worksheet
  # Slips of a class that was made up, with mistakes that pupils make.
  "$BR" -c 'worksheet sums 2, fender 1, missing 1, stock 1 seed 8 into paper.csv' -c 'key key.csv' >/dev/null
  cat >answers.csv <<'END'
student,version,1,2,3,4,5
Ada,1,8-11/16 in,10 11/16 in,1-7/16 in,eight and 9/16 in,18
Bo,1,8 11/16,10-5/16 in,2-13/16 in,8.56 in,nineteen
Cleo,1,8-22/32 in,idk,1-7/16 in,8 9/16 in,18 boards
Dan,1,8 11/16",11-11/16 in,1-1/2 in,"8-5/8 in, no, 8-9/16 in",19
END
  "$BR" -c 'grade answers.csv with key.csv into slips.pdf' -c 'grade answers.csv with key.csv into slips.html' >/dev/null
  pdftoppm -r 80 -gray -png -singlefile slips.pdf slips
  rm worksheet.pdf slips.pdf paper.csv key.csv answers.csv
  { pkg-config --modversion cairo pango; pdftoppm -v 2>&1 | head -n 1; } >made_with.txt
}

if [ "$1" != --check ]; then
  mkdir -p "$1"
  make_pictures "$1"
  exit 0
fi
make_pictures "$work"
compared='market_cart.svg barrow.svg crane.svg worksheet.txt slips.html'
if cmp -s "$work/made_with.txt" "$srcdir/docs/pictures/made_with.txt"; then
  compared="$compared market_cart.png barrow.png crane.png worksheet.png slips.png"
fi
for name in $compared; do
  cmp "$work/$name" "$srcdir/docs/pictures/$name"
done
echo "current: $compared"
