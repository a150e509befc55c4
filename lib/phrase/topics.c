/* SPDX-License-Identifier: LGPL-3.0-or-later
   topics.c - the first page of help, and the topics that it leads to; each fits a screen of 24 lines.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "formula/lexer.h"
#include "phrase/topics.h"

const char *const br__first_page =
  "Type a measure, or what is to be done with it. What one does most:\n"
  " \n"
  "  2-3/8 + 5/16               the value: exact, as a decimal, on the ruler\n"
  "  round 3.57 to 1/8          the nearest mark, with its error\n"
  "  wheel = 3-1/2              gives a size a name; base = 4 * wheel follows it\n"
  "  scale half                 then `full 1-3/16` is twice as long\n"
  "  check gap >= 1/2  # why    a rule that must hold, looked at after each change\n"
  "  missing                    what has no size yet, and what waits for it\n"
  "  list                       all sizes\n"
  "  explain base               each step as it is done by hand\n"
  "  part rail = 12 x 2 qty 4   a part to cut; then `parts` and `cuts`\n"
  "  draw into cart.pdf         a drawing to build from\n"
  "  save cart.sheet            keeps the work; `undo` takes the last change back\n"
  "  worksheet sums 6 into w.pdf   practice papers; `key into k.pdf` is their key\n"
  " \n"
  "help TOPIC:  squares  fractions  rounding  wheels  cutting  drawing  worksheets\n"
  "             checks  sizes  settings  functions  files\n"
  "help WORD tells more of a word, help all lists every word.\n"
  "`quit` ends.";

/* Words of statements and functions follow the examples; their rows come from the tables.  */
const br__topic br__topics[] =
{
  { "squares", "paper sketch graph",
    "From a sketch on squared paper to full size",
    "  grid 1/4 in                how large a square is\n"
    "  scale half                 1 in on the paper is 2 in on the thing\n"
    "  full(3-1/2 squares)        the full size of three and a half squares\n"
    "  drawn 5-1/4                how long 5-1/4 in is on the paper\n"
    "  scale 41 mm = 3 in         a known size on a picture gives the scale\n",
    "grid scale full drawn fit" },
  { "fractions", "fraction decimal feet inches convert conversion unit centimeter millimeter numerator denominator",
    "Fractions, decimals and units",
    "  2-3/8, 2 3/8, 2.375        one number\n"
    "  5' 2-3/8\", 12 mm, 1.2 m    lengths; plain numbers take the sheet's unit\n"
    "  half of 5-3/8              also: a quarter of 7, twice 2-1/4\n"
    "  45 mm in inches            the same length in another unit\n"
    "  3^2/4                      9/4: a power goes before any slash\n"
    "  explain 2-3/8 + 5/16       the sum by hand, step by step\n",
    "explain simplest marks sum mean" },
  { "rounding", "rounded error mark tape column table spreadsheet list csv numbers cad",
    "Sizes on a ruler",
    "  round 3.57 to 1/8          the nearest mark; the error is mark less value\n"
    "  round 3.57 to 1/8 up       never less\n"
    "  round 1.3, 2.45 to 1/8 keep total   the parts still add up\n"
    "  round column length of parts.csv to 1/16 into marked.csv\n"
    "  name column part size length of parts.csv   then `check` and `tidy` know them\n",
    "round marks name simplest nearest up down ruler ties tidy" },
  { "wheels", "wheel fender mudguard axle hub hole dowel bit bolt screw washer clearance daylight finger",
    "Wheels, fenders, axles and drills",
    "  show fender(3, 3/4, 1/4)   a small picture\n",
    "fender_radius fender_outer fender_gap wheel_gap wheelbase_for axle_length clearance_hole drill drills "
    "cautions" },
  { "cutting", "cut wood board plank lumber plywood sheet saw offcut piece slat plan",
    "Wood, parts and cuts",
    "  stock pine = 3/4 x 5-1/2 x 48 qty 3\n"
    "  part rail = 12 x 2 qty 4\n"
    "  cuts                       which part comes out of which board, kerf counted\n",
    "stock part parts cuts order kerf divide space saws blade" },
  { "drawing", "picture view shape rectangle svg pdf png diagram plot",
    "Shapes, drawings, templates",
    "  circle front = wheel at 0, wheel / 2\n"
    "  box deck = 22 x 3/4 above front by 1/2\n"
    "  draw into cart.pdf\n",
    "circle box arc line shapes clear draw template report fit paper title" },
  { "worksheets", "class student pupil teacher test quiz exercise homework question",
    "Papers, keys and marks",
    "  worksheet sums 6, fender 2 versions 2 seed 7 into papers.pdf\n"
    "  key into key.pdf\n"
    "  grade answers.csv with key.csv into marks.csv\n",
    "worksheet key words grade mark history review practice problem answer given" },
  { "checks", "rule must fail fits limit safe",
    "Rules that must hold",
    "  check gap >= 1/2  # fingers\n"
    "  width = 3 +- 1/64          how far the cut size may be off\n"
    "  find base for gap = 1/2    the size that makes it so\n",
    "check tolerance stack find tidy cautions missing" },
  { "sizes", "dimension variable measurement size named value",
    "Sizes with names",
    "  wheel = 3-1/2  # measured  a size and its note\n"
    "  base = 4 * wheel           follows when `wheel` changes; any order will do\n"
    "  forget base                takes a size away\n",
    "list missing trace forget undo redo find tidy" },
  { "settings", "setting option preference metric imperial",
    "Settings; alone, each shows what is set", "", NULL },
  { "functions", "function formula math area volume angle perimeter",
    "Functions; one value needs no brackets: full 1-3/16; `help NAME` tells more", "", NULL },
  { "files", "file load import export print close disk folder",
    "Files",
    "  save cart.sheet            the sheet as text; `save` alone writes it again\n"
    "  open cart.sheet            reads it\n",
    "open use save new recover run report draw worksheet" },
  { NULL, NULL, NULL, NULL, NULL }
};

static int
is_one_of (const char *words, const char *text, size_t length)
{
  for (size_t n; *words; words += n + (words[n] == ' '))
    {
      char word[16] = "";
      n = strcspn (words, " ");
      memcpy (word, words, n < sizeof word ? n : sizeof word - 1);
      if (br__same_word (text, length, word))
        return 1;
    }
  return 0;
}

const br__topic *
br__topic_find (const char *word, size_t length)
{
  size_t single = length > 3 && (word[length - 1] | 0x20) == 's' ? length - 1 : length;
  for (const br__topic *t = br__topics; t->word; t++)
    if (br__same_word (word, length, t->word) || is_one_of (t->also, word, length) || is_one_of (t->also, word, single))
      return t;
  return NULL;
}
