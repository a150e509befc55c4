/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: shapes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shape/depth.h"

const br__statement br__shape_statements[] =
{
  { "circle", "circle NAME = DIAMETER at X, Y", "a circle to be drawn: a wheel, a dowel, a hole",
    "X goes to the right and Y up from a corner of your choice; every number is a formula.\n"
    "Instead of `at X, Y`:\n"
    "  on SHAPE, above SHAPE, below SHAPE, left of SHAPE, right of SHAPE [by GAP]\n"
    "  [flush left, right, top or bottom] [shift DISTANCE], same centre as SHAPE\n"
    "`hole` is drilled, `layer NAME` draws together, `of PART` is a part's outline.\n"
    "For views from above and from the front: deep D [centred, from Z or both sides TRACK\n"
    "(over the outsides) or both sides between TRACK], and `behind SHAPE` where it is hidden.\n"
    "left(NAME), right(NAME), top(NAME), bottom(NAME), centre_x(NAME) and centre_y(NAME)\n"
    "are numbers for formulas, and clear(NAME, NAME) is the distance of two.",
    BR__FOLLOW_NAME, "at on above below left right of by flush shift same centre as layer hole deep from centred both sides between behind", 0, 0, br__do_circle },
  { "box", "box NAME = WIDTH x HEIGHT at X, Y", "a rectangle to be drawn, by its lower left corner",
    "Other places, as with circle: help circle.  Corners:\n"
    "  round R, cut C              all of them are rounded, or cut off by C along both sides\n"
    "  cut C x D                   cut off by C across and D up\n"
    "  round R top, cut C right bottom   those of that side, or that one\n"
    "`turned ANGLE` turns it about its middle, anticlockwise.", BR__FOLLOW_NAME,
    "round cut turned at on above below left right of by flush shift same centre as layer deep from centred both sides between behind", 0, 0, br__do_box },
  { "arc", "arc NAME = fender(WHEEL, GAP, WIDTH) 200 deg", "a fender around its wheel, or any bent strip",
    "WHEEL is a circle: the fender has its centre, whatever moves.  Half of the arc lies on\n"
    "either side of the top; `from 0 deg` says where it begins, anticlockwise from the right.\n"
    "arc NAME = bend(RADIUS, WIDTH) 90 deg at X, Y is a strip of that inner radius.",
    BR__FOLLOW_NAME, "fender( bend( from turned at on above below left right of by flush shift same centre as layer deep from centred both sides between behind", 0, 0,
    br__do_arc },
  { "plate", "plate NAME = DIAMETER [hole DIAMETER]", "a disc to be drawn, or a ring: a washer, a rim",
    "Its place is as with circle: help circle.", BR__FOLLOW_NAME,
    "hole at on above below left right of by flush shift same centre as layer", 0, 1, br__do_plate },
  { "line", "line NAME = X, Y to X, Y [wide WIDTH]", "a line to be drawn, or a bar with round ends",
    "With `hole` at the end the bar is a slot.  `turned ANGLE` turns it about its middle.", BR__FOLLOW_NAME,
    "to wide hole turned layer of deep from centred both sides between behind", 0, 0, br__do_line },
  { "outline", "outline NAME = X, Y to X, Y to X, Y ...", "a closed outline of three corners or more, as a saw cuts it",
    "Its corners, either way around; it closes by itself.  Behind a corner:\n"
    "  round R, cut C, cut C x D   rounded, or cut off by C along both sides (D along the next)\n"
    "  rise H      the side that ends there is an arc, H high; below zero it goes inward\n"
    "A corner from the one before it: by DX, DY, or to LENGTH at ANGLE.  to start rise H bends\n"
    "the last side.  `at X, Y` or another place, as with circle, moves it as a whole.\n"
    "width(NAME), height(NAME), area(NAME) and perimeter(NAME) are numbers for formulas.",
    BR__FOLLOW_NAME, "to by round cut rise start turned at on above below left right of flush shift same centre as layer deep from centred both sides between behind", 0, 1,
    br__do_outline },
  { "row", "row NAME of SHAPE qty N by STEP", "a shape several times, in a row that follows it",
    "N places in all, the shape itself the first, each STEP further right; by DX, DY goes up as\n"
    "well.  What changes of SHAPE changes in every place.  The row is a shape like others: left,\n"
    "right, clear and so on ask for all of its places, area(NAME) is that of all together.\n"
    "A row of a row is a grid.", BR__FOLLOW_NAME, "of qty by layer", 0, 1, br__do_row },
  { "mirror", "mirror NAME of SHAPE about X", "a shape once more, the other way around, that follows it",
    "About the upright line at X: what lies 2 in to its left is 2 in to its right.", BR__FOLLOW_NAME, "of about layer", 0, 1,
    br__do_mirror },
  { "turn", "turn NAME by ANGLE", "turns a shape about its middle, anticlockwise",
    "A box and an outline turn about the middle of their width and height; below zero, clockwise.\n"
    "The shape is kept with `turned ANGLE` behind it; turning it again adds to that.", BR__FOLLOW_NAME, "by", 0, 1, br__do_turn },
  { "datum", "datum X, Y", "the point that drawings mark, and that places are measured from",
    "Without it, and after `no datum`, places are measured from the lower left corner\n"
    "of what is drawn.", BR__FOLLOW_VALUE, NULL, 1, 1, br__do_datum },
  { "dimension", "dimension FROM to TO [level, upright or along] [off DISTANCE] [as TEXT]",
    "a dimension of drawings, beside those that they have by themselves",
    "FROM and TO: centre(SHAPE), left(SHAPE), right, top, bottom(SHAPE); corners:\n"
    "corner(SHAPE, left top), corner(OUTLINE, 3); ends: start(LINE), end(LINE).\n"
    "Without a way it is level or upright where that is all there is, else along.\n"
    "`off 1/2` keeps it so far from the figure on paper, below zero on its other side.\n"
    "`as TEXT` stands in the place of the number.  `no dimension FROM to TO` takes it\n"
    "back; `no dimension SHAPE`: that shape gets none by itself.",
    BR__FOLLOW_WORD, "centre( left( right( top( bottom( corner( start( end( to level upright along off as", 0, 1, br__do_dimension },
  { "note", "note \"TEXT\" at X, Y [to SHAPE]", "a text on drawings, with a line to a shape",
    "`no note \"TEXT\"` takes it back.", BR__FOLLOW_QUOTED, "at to", 0, 1, br__do_note },
  { "no", "no dimension SHAPE", "takes back what drawings have, or what was asked of them",
    "no dimension SHAPE, no dimension FROM to TO, no note \"TEXT\", no datum.", BR__FOLLOW_WORD, "dimension note datum", 0, 1,
    br__do_no },
  { "shapes", "shapes", "all shapes of the sheet, with size and place", NULL, BR__FOLLOW_NOTHING, NULL, 0, 0,
    br__do_shapes },
  { "clear", "clear SHAPE, SHAPE", "the distance of two shapes; below zero they overlap",
    "In a check: check clear(wheel, fender) >= 1/4.  Below zero, it is how far one would have\n"
    "to be pushed to be free.  Of two shapes that have a depth it is the distance in all three\n"
    "directions: what passes at another depth is free.", BR__FOLLOW_NAME, NULL, 0, 0, br__do_clear },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
