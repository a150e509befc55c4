/* SPDX-License-Identifier: LGPL-3.0-or-later
   table.c - the one table of statements: dispatch, help and completion read it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "sheet/sheet.h"

static const br__statement statements[] =
{
  { "round", "round VALUE, ... [to MARK] [up or down] [keep total]",
    "puts values on ruler marks, each with its error",
    "The error is mark less value: over is positive.  `up` never gives less than the\n"
    "value, `down` never more.  `keep total` rounds the parts of a list so that they add\n"
    "up to the rounded whole.  Without `to`, the sheet's ruler is taken.\n"
    "A whole column of a CSV file, by its name or number; - is standard input or output:\n"
    "  round column length of parts.csv to 1/16 into marked.csv\n"
    "  full column 2 of sketch.csv to 1/8      (drawn column ... the other way)",
    BR__FOLLOW_VALUE, "to up down keep total column of into", 0, br__do_round },
  { "marks", "marks VALUE", "the nearest mark on every ruler from whole inches to 64ths", NULL,
    BR__FOLLOW_VALUE, NULL, 0, br__do_marks },
  { "simplest", "simplest VALUE within DISTANCE",
    "the plainest fraction of an inch ruler that is no further away", NULL,
    BR__FOLLOW_VALUE, "within", 0, br__do_simplest },
  { "drills", "drills SIZE", "the drills next to a size, with the play that each leaves",
    "Fractional, number and letter drills.  The play is drill less size.", BR__FOLLOW_VALUE, NULL, 0,
    br__do_drills },
  { "saws", "saws RADIUS", "the band-saw blades that can follow a curve of that radius", NULL,
    BR__FOLLOW_VALUE, NULL, 0, br__do_saws },
  { "tidy", "tidy [apply] [to MARK]", "every given dimension on its nearest mark",
    "Shows what would move, and which checks would fail; `tidy apply` does it, and one\n"
    "`undo` takes it back.", BR__FOLLOW_WORD, "apply to", 0, br__do_tidy },
  { "list", "list", "all dimensions of the sheet", NULL, BR__FOLLOW_NOTHING, NULL, 0, br__do_list },
  { "missing", "missing", "what has no value yet, and what waits for it", NULL,
    BR__FOLLOW_NOTHING, NULL, 0, br__do_missing },
  { "trace", "trace NAME", "where a dimension comes from and what hangs on it", NULL,
    BR__FOLLOW_NAME, NULL, 0, br__do_trace },
  { "forget", "forget NAME, ...", "takes the value of a dimension away", NULL,
    BR__FOLLOW_NAME, NULL, 0, br__do_forget },
  { "undo", "undo", "takes the last change back", NULL, BR__FOLLOW_NOTHING, NULL, 0, br__do_undo },
  { "redo", "redo", "does again what was taken back", NULL, BR__FOLLOW_NOTHING, NULL, 0, br__do_redo },
  { "check", "check VALUE <= VALUE  # what it means",
    "a rule that must hold: < <= = >= > !=", "Its note is the message.  It is looked at again at\n"
    "each change.  `check` alone shows all rules.", BR__FOLLOW_VALUE, NULL, 0, br__do_check },
  { "tolerance", "tolerance 1/32 on NAME, ...", "how far a size may be off either way when it is cut",
    "A tolerance behind the size itself, as in `width = 3 +- 1/64`, goes before it, and stays\n"
    "when the size is changed, until `+- 0`.  `tolerance 0 on NAME` takes away what `tolerance` gave.\n"
    "`tolerance` alone shows all.", BR__FOLLOW_VALUE, "on", 0,
    br__do_tolerance },
  { "stack", "stack VALUE", "what tolerances add up to: worst case, root sum square, shares",
    "Exact where the formula is linear or runs one way over all sizes within the\n"
    "tolerances; else bounds that are certain.", BR__FOLLOW_VALUE, NULL, 0, br__do_stack },
  { "find", "find NAME for VALUE = VALUE", "the size of one dimension that makes it so",
    "Nothing is set: the answer says what to type.  It also gives the nearest marks of the\n"
    "ruler at which every check holds.", BR__FOLLOW_NAME, "for", 0, br__do_find },
  { "show", "show fender(WHEEL, GAP, WIDTH)", "a small picture of a wheel under its fender",
    "show wheels(WHEELBASE, FRONT, REAR) shows two wheels and the daylight between them.",
    BR__FOLLOW_WORD, "fender( wheels(", 0, br__do_picture },
  { "circle", "circle NAME = DIAMETER at X, Y", "a circle to be drawn: a wheel, a dowel, a hole",
    "X goes to the right and Y up from a corner of your choice; every number is a formula.\n"
    "Instead of `at X, Y`:\n"
    "  on SHAPE, above SHAPE, below SHAPE, left of SHAPE, right of SHAPE [by GAP]\n"
    "  [flush left, right, top or bottom] [shift DISTANCE], same centre as SHAPE\n"
    "`hole` is drilled, `layer NAME` draws together, `of PART` is a part's outline.\n"
    "left(NAME), right(NAME), top(NAME), bottom(NAME), centre_x(NAME) and centre_y(NAME)\n"
    "are numbers for formulas, and clear(NAME, NAME) is the distance of two.",
    BR__FOLLOW_NAME, "at on above below left right of by flush shift same centre as layer hole", 0, br__do_circle },
  { "box", "box NAME = WIDTH x HEIGHT at X, Y", "a rectangle to be drawn, by its lower left corner",
    "Other places, as with circle: help circle.", BR__FOLLOW_NAME,
    "at on above below left right of by flush shift same centre as layer", 0, br__do_box },
  { "arc", "arc NAME = fender(WHEEL, GAP, WIDTH) 200 deg", "a fender around its wheel, or any bent strip",
    "WHEEL is a circle: the fender has its centre, whatever moves.  Half of the arc lies on\n"
    "either side of the top; `from 0 deg` says where it begins, anticlockwise from the right.\n"
    "arc NAME = bend(RADIUS, WIDTH) 90 deg at X, Y is a strip of that inner radius.",
    BR__FOLLOW_NAME, "fender( bend( from at on above below left right of by flush shift same centre as layer", 0,
    br__do_arc },
  { "line", "line NAME = X, Y to X, Y [wide WIDTH]", "a line to be drawn, or a bar with round ends",
    NULL, BR__FOLLOW_NAME, "to wide layer of", 0, br__do_line },
  { "shapes", "shapes", "all shapes of the sheet, with size and place", NULL, BR__FOLLOW_NOTHING, NULL, 0,
    br__do_shapes },
  { "clear", "clear SHAPE, SHAPE", "the distance of two shapes; below zero they overlap",
    "In a check: check clear(wheel, fender) >= 1/4.  Below zero, it is how far one would have\n"
    "to be pushed to be free.", BR__FOLLOW_NAME, NULL, 0, br__do_clear },
  { "template", "template PART into FILE.pdf", "a part at full size, to be glued on the wood",
    "Outline, centre marks and drill sizes of the shapes `of PART`, or the part's length and\n"
    "width.  Several sheets of paper where one is too small.  Also .svg and .png.  Check the line\n"
    "at the foot of the sheet with a ruler before you cut.", BR__FOLLOW_NAME, "into", 0, br__do_template },
  { "report", "report into FILE.html", "the whole sheet as a page for a phone, a printer or a screen reader",
    "One file with nothing outside it: the side view, what is missing, dimensions, checks,\n"
    "cautions, parts and the cutting plan.", BR__FOLLOW_WORD, "into", 0, br__do_report },
  { "draw", "draw [side] [into FILE.pdf] [scale 1:4] [grid 1/4] [paper letter] [layer NAME] [of PART]",
    "the side view to scale, on squares, with its sizes",
    "FILE ends in .pdf, .svg or .png.  Without `scale` it is the largest standard one at which all\n"
    "goes on the paper; what is larger comes as several sheets of a PDF, which overlap.  A shape\n"
    "that is not tied down is dashed.  Without a file it is shown in the terminal.", BR__FOLLOW_WORD,
    "side into scale grid paper layer of letter a4", 0, br__do_draw },
  { "explain", "explain VALUE [to MARK]", "each step as it is done by hand",
    "Each step is an equation, and both sides can be typed back.  Of a dimension, the whole\n"
    "chain that leads to it.", BR__FOLLOW_VALUE, "to", 0, br__do_explain },
  { "divide", "divide LENGTH into N [kerf K]", "equal pieces, and where to mark them from one end",
    "The kerf is the sheet's where none is said.  A mark is where a piece ends: the saw cuts\n"
    "beyond it.  Each is measured from the end, so that errors do not add up.",
    BR__FOLLOW_VALUE, "into kerf", 0, br__do_divide },
  { "space", "space N across LENGTH [width W] [ends E]", "equal gaps, and where each thing begins",
    "Without `ends` the gap at the ends is that between the things.",
    BR__FOLLOW_VALUE, "across width ends", 0, br__do_space },
  { "stock", "stock NAME = T x W x L [qty N]", "the wood at hand: boards, sheets, dowels",
    "stock pine = 3/4 x 5-1/2 x 48 qty 3     thickness, width, length\n"
    "stock rod = round 7/16 x 36             diameter, length\n"
    "stock stud = 2x4 x 96                   nominal, by US PS 20: really 1-1/2 x 3-1/2\n"
    "stock ply = plywood 3/4 x 48 x 96       really 23/32 by the practice of the trade\n"
    "stock ash = hardwood 4/4 x 6 x 72       really 13/16 surfaced, by the NHLA's rules\n"
    "Without blanks 2x4 is the nominal name; 2 x 4 is two by four inches.  Measure what you\n"
    "have: shops sell other sizes, too.  `stock` alone shows all.",
    BR__FOLLOW_VALUE, "round plywood hardwood qty", 0, br__do_stock },
  { "part", "part NAME = L x W [x T] [qty N] [from STOCK]", "a part to be cut, sizes as formulas",
    "The length lies along the grain; `turn` lets it lie across.  Without `from`, the stock\n"
    "is that whose thickness fits.  Of a dowel, the length is enough.  `forget part NAME`.",
    BR__FOLLOW_VALUE, "qty from turn", 0, br__do_part },
  { "parts", "parts", "the list of parts: sizes, marks, stock, and where each size comes from", NULL,
    BR__FOLLOW_NOTHING, NULL, 0, br__do_parts },
  { "cuts", "cuts [STOCK] [limit SECONDS]", "the plan for cutting the parts, kerf counted",
    "How many sticks it takes, the least that any plan could take, and whether it is proved\n"
    "best.  Ctrl-C gives the best plan so far.", BR__FOLLOW_WORD, "limit", 0, br__do_cuts },
  { "order", "order [CLASS] N [spare PERCENT]", "what a class of N needs of parts and stock", NULL,
    BR__FOLLOW_VALUE, "class spare", 0, br__do_order },
  { "fit", "fit W x H", "the largest standard scale at which it fits on the paper",
    "By ISO 5455, and in inches also by the customary scales.  Without sizes, those of the\n"
    "sheet: overall_length and overall_height.", BR__FOLLOW_VALUE, NULL, 0, br__do_fit },
  { "ruler", "ruler MARK", "the finest mark of the ruler: 1/16, 1/10, 1 mm",
    NULL, BR__FOLLOW_VALUE, NULL, 1, br__do_ruler },
  { "scale", "scale 1:2", "the drawing's scale, drawn to full",
    "scale 1:2, scale half, scale 1/4 in = 1 ft.  A known size on a picture gives one, too:\n"
    "scale 41 mm = 3 in says that what measures 41 mm there is 3 in.",
    BR__FOLLOW_WORD, "full half quarter eighth", 1, br__do_scale },
  { "units", "units in", "the unit of plain numbers beside lengths, and of results: in, mm, cm, ft",
    NULL, BR__FOLLOW_WORD, "in mm cm ft", 1, br__do_units },
  { "grid", "grid 1/4 in", "the size of a square of the sketch paper", NULL,
    BR__FOLLOW_VALUE, NULL, 1, br__do_grid },
  { "kerf", "kerf 1/8", "the width of the saw's cut", NULL, BR__FOLLOW_VALUE, NULL, 1, br__do_kerf },
  { "blade", "blade 1/4", "the width of the class's band-saw blade",
    "A fender whose radius is too tight for it draws a caution.", BR__FOLLOW_VALUE, NULL, 1,
    br__do_blade },
  { "child", "child 3 years", "for whom it is made: an age, or none",
    "Cautions about gaps hold under 8 years (96 months), those about small parts under 3.\n"
    "`child none` is for what no child plays with.", BR__FOLLOW_WORD, "years months none", 1,
    br__do_child },
  { "paper", "paper letter [margin M]", "the drawing paper: letter, legal, tabloid, a4, a3 ...",
    "Also ledger, statement, a0 to a5 (ISO 216), a to f (ASME Y14.1), arch_a to arch_e1.\n"
    "Margins are 1/2 in, and 10 mm on ISO paper, where nothing else is said.",
    BR__FOLLOW_WORD, "letter legal tabloid ledger statement a0 a1 a2 a3 a4 a5 margin", 1, br__do_paper },
  { "ties", "ties up", "where exactly half way goes: up (away from zero), down, even", NULL,
    BR__FOLLOW_WORD, "up down even", 1, br__do_ties },
  { "feet", "feet on", "lengths from a foot on as feet and inches: on, off", NULL,
    BR__FOLLOW_WORD, "on off", 1, br__do_feet },
  { "title", "title TEXT", "the sheet's title", NULL, BR__FOLLOW_NOTHING, NULL, 1, br__do_title },
  { "date", "date TEXT", "the date in the title block of drawings", "Nothing is taken from the clock.",
    BR__FOLLOW_NOTHING, NULL, 1, br__do_date },
  { "problem", "problem TEXT", "a problem of your own for worksheets",
    "The line behind it gives its answer: answer VALUE [to MARK].", BR__FOLLOW_NOTHING, NULL, 0,
    br__do_problem },
  { "answer", "answer VALUE [to MARK]", "the answer of the problem above", NULL, BR__FOLLOW_VALUE, "to", 0,
    br__do_answer },
  { "worksheet", "worksheet TOPIC N, ... [ruler 1/16] [seed S] [versions V] [names FILE.csv] into FILE.pdf",
    "practice papers, different from seat to seat",
    "Topics: reading, decimals, sums, products, scale, known size, fender, dividing, stock,\n"
    "missing, and own for your own problems.  Levels are ruler 1/8, 1/16 and 1/32.  A seed always\n"
    "gives the same papers.  FILE ends in .pdf, .txt, .csv or .html; `size large` is large print,\n"
    "`paper a4` the other paper.", BR__FOLLOW_WORD,
    "reading decimals sums products scale known size fender dividing stock missing own ruler seed versions "
    "names large paper letter a4 into", 0, br__do_worksheet },
  { "key", "key FILE", "answers, worked steps and usual wrong answers of the worksheet above", NULL,
    BR__FOLLOW_FILE, NULL, 0, br__do_key },
  { "grade", "grade ANSWERS.csv with KEY.csv [names FILE.csv] [points FILE.csv] into MARKS.csv",
    "marks papers, and says what went wrong",
    "Columns of answers: student, version, and one for each problem.  The key is one that `key\n"
    "FILE.csv` wrote.  A file of points has the columns verdict and points.", BR__FOLLOW_FILE, NULL, 0,
    br__do_grade },
  { "open", "open FILE", "runs the lines of a sheet", NULL, BR__FOLLOW_FILE, NULL, 0, br__do_open },
  { "save", "save FILE", "writes the sheet to a file; alone, to the one it came from", NULL,
    BR__FOLLOW_FILE, NULL, 0, br__do_save },
  { "help", "help [WORD]", "this list, or more about a word", NULL, BR__FOLLOW_WORD, NULL, 0,
    br__do_help },
  { "quit", "quit", "ends", NULL, BR__FOLLOW_NOTHING, NULL, 0, br__do_quit },
};

const br__statement *
br__statement_at (size_t index)
{
  return index < sizeof statements / sizeof statements[0] ? &statements[index] : NULL;
}

const br__statement *
br__statement_find (const char *word, size_t length)
{
  const br__statement *st;
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    if (br__same_word (word, length, st->word))
      return st;
  return NULL;
}
