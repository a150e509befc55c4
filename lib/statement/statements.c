/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: marks, settings, spacing, help.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "statement/statements.h"
#include "table/column.h"

const br__statement br__statement_statements[] =
{
  { "round", "round VALUE, ... [to MARK] [up or down] [keep total]",
    "puts values on ruler marks, each with its error",
    "The error is mark less value: over is positive.  `up` never gives less than the\n"
    "value, `down` never more.  `keep total` rounds the parts of a list so that they add\n"
    "up to the rounded whole.  Without `to`, the sheet's ruler is taken.\n"
    "A whole column of a CSV file, by its name or number; - is standard input or output.\n"
    "Commas, semicolons or tabs stand between its cells:\n"
    "  round column length of parts.csv to 1/16 into marked.csv\n"
    "  full column 2 of sketch.csv to 1/8      (drawn column ... the other way)\n"
    "`round 0.68 to stock` and `to dowels` put a size on what is at hand, the nearest first.",
    BR__FOLLOW_VALUE, "stock dowels to up down keep total column of into", 0, 0, br__do_round },
  { "name", "name column NAMES size SIZES of FILE.csv", "makes a dimension of each row: its name, and its size",
    "The columns are given by what the first row calls them or by their numbers: `name column 1 size 2 of parts.csv`.\n"
    "With `name column size of parts.csv` the sizes are the column headed size, the names the other one.\n"
    "Then `check` and `tidy` can say where rounding breaks a fit.  One `undo` takes all of them back.",
    BR__FOLLOW_WORD, "column size of", 0, 0, br__do_name },
  { "marks", "marks VALUE", "the nearest mark on every ruler from whole inches to 64ths", NULL,
    BR__FOLLOW_VALUE, NULL, 0, 0, br__do_marks },
  { "simplest", "simplest VALUE within DISTANCE",
    "the plainest fraction of an inch ruler that is no further away", NULL,
    BR__FOLLOW_VALUE, "within", 0, 0, br__do_simplest },
  { "missing", "missing", "what has no value yet, and what waits for it", NULL,
    BR__FOLLOW_NOTHING, NULL, 0, 0, br__do_missing },
  { "trace", "trace NAME", "where a dimension comes from and what depends on it", NULL,
    BR__FOLLOW_NAME, NULL, 0, 0, br__do_trace },
  { "forget", "forget NAME, ...", "takes a dimension, a shape, a stock, a part or a rule away",
    "Where one name is two of them: `forget dimension NAME`, `forget shape NAME` and so on.  `forget check RULE` takes a rule "
    "away, `forget check NAME` the only one that speaks of NAME.",
    BR__FOLLOW_NAME, "dimension shape stock part check", 0, 0, br__do_forget },
  { "show", "show fender(WHEEL, GAP, WIDTH)", "a small picture of a wheel under its fender",
    "show wheels(WHEELBASE, FRONT, REAR) shows two wheels and the daylight between them.",
    BR__FOLLOW_WORD, "fender( wheels(", 0, 0, br__do_picture },
  { "divide", "divide LENGTH into N [kerf K]", "equal pieces, and where to mark them from one end",
    "The kerf is the sheet's where none is said.  A mark is where a piece ends: the saw cuts\n"
    "beyond it.  Each is measured from the end, so that errors do not add up.",
    BR__FOLLOW_VALUE, "into kerf", 0, 0, br__do_divide },
  { "space", "space N across LENGTH [width W] [ends E]", "equal gaps, and where each thing begins",
    "Without `ends` the gap at the ends is that between the things.",
    BR__FOLLOW_VALUE, "across width ends", 0, 0, br__do_space },
  { "ruler", "ruler MARK", "the finest mark of the ruler: 1/16, 1/10, 1 mm",
    NULL, BR__FOLLOW_VALUE, NULL, 1, 0, br__do_setting },
  { "scale", "scale 1:2", "the drawing's scale, drawn to full",
    "scale 1:2, scale half, scale 1/4 in = 1 ft.  A known size on a picture gives one, too:\n"
    "scale 41 mm = 3 in says that what measures 41 mm there is 3 in.",
    BR__FOLLOW_WORD, "full half quarter eighth", 1, 0, br__do_setting },
  { "units", "units in", "the unit of plain numbers beside lengths, and of results: in, mm, cm, ft",
    NULL, BR__FOLLOW_WORD, "in mm cm ft", 1, 0, br__do_setting },
  { "grid", "grid 1/4 in", "the size of a square of the sketch paper", NULL,
    BR__FOLLOW_VALUE, NULL, 1, 0, br__do_setting },
  { "kerf", "kerf 1/8", "the width of the saw's cut", NULL, BR__FOLLOW_VALUE, NULL, 1, 0, br__do_setting },
  { "blade", "blade 1/4", "the width of the class's band-saw blade",
    "A fender whose radius is too tight for it draws a caution.", BR__FOLLOW_VALUE, NULL, 1, 0,
    br__do_setting },
  { "child", "child 3 years", "for whom it is made: an age, or none",
    "Cautions about gaps hold under 8 years (96 months), those about small parts under 3.\n"
    "`child none` is for what no child plays with.", BR__FOLLOW_WORD, "years months none", 1, 0,
    br__do_setting },
  { "paper", "paper letter [margin M]", "the drawing paper: letter, legal, tabloid, a4, a3 ...",
    "Also ledger, statement, a0 to a5 (ISO 216), a to f (ASME Y14.1), arch_a to arch_e1.\n"
    "Margins are 1/2 in, and 10 mm on ISO paper, where nothing else is said.",
    BR__FOLLOW_WORD, "letter legal tabloid ledger statement a0 a1 a2 a3 a4 a5 margin", 1, 0, br__do_setting },
  { "ties", "ties up", "where exactly half way goes: up (away from zero), down, even", NULL,
    BR__FOLLOW_WORD, "up down even", 1, 0, br__do_setting },
  { "projection", "projection third", "how views lie around the side in a drawing: first or third angle",
    "Third angle, usual with inches: the top above the side, the front at its left.  First angle,\n"
    "usual with millimetres: the top below, the front at the right.  A cone on the drawing tells.",
    BR__FOLLOW_WORD, "first third", 1, 1, br__do_setting },
  { "feet", "feet on", "lengths from a foot on as feet and inches: on, off", NULL,
    BR__FOLLOW_WORD, "on off", 1, 0, br__do_setting },
  { "title", "title TEXT", "the sheet's title", NULL, BR__FOLLOW_TEXT, NULL, 1, 0, br__do_title },
  { "date", "date TEXT", "the date in the title block of drawings", "Nothing is taken from the clock.",
    BR__FOLLOW_TEXT, NULL, 1, 0, br__do_date },
  { "pictures", "pictures off", "the small pictures of rulers beside a mark: on, off", NULL, BR__FOLLOW_WORD, "on off", 0, 1,
    br__do_screen },
  { "pager", "pager off", "answers longer than the screen go through the program that PAGER names: on, off",
    "Where PAGER is not set that is `less -FRX`.  Only at the prompt.", BR__FOLLOW_WORD, "on off", 0, 1, br__do_screen },
  { "help", "help [WORD]", "what one does most, a topic, or more about a word", NULL, BR__FOLLOW_WORD, NULL, 0, 0,
    br__do_help },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
