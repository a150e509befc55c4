/* SPDX-License-Identifier: LGPL-3.0-or-later
   geometry.h - plain geometry on real values: a scratch pad for formulas, and the distance of
   two shapes.

   The pad owns every value that is made on it until it is cleared.  An error is sticky: after it
   each call gives zero, so that a formula checks for errors once, at its end.  */
#ifndef BR_GEOMETRY_GEOMETRY_H
#define BR_GEOMETRY_GEOMETRY_H

#include "benchrule.h"

typedef struct br__pad
{
  br_status status;
  unsigned bits;                /* as for br_real_sign */
  struct br__pad_block *blocks;
} br__pad;

/* Z takes the value X of the pad, which is cleared; what failed on the way is returned.  */
br_status br__pad_end (br_real *z, const br_real *x, br__pad *g);
void br__pad_clear (br__pad *g);

const br_real *br__pad_int (br__pad *g, int64_t n);
const br_real *br__add (br__pad *g, const br_real *x, const br_real *y);
const br_real *br__sub (br__pad *g, const br_real *x, const br_real *y);
const br_real *br__mul (br__pad *g, const br_real *x, const br_real *y);
const br_real *br__div (br__pad *g, const br_real *x, const br_real *y);
const br_real *br__neg (br__pad *g, const br_real *x);
const br_real *br__abs_of (br__pad *g, const br_real *x);
const br_real *br__half (br__pad *g, const br_real *x);
const br_real *br__root (br__pad *g, const br_real *x);
const br_real *br__sine (br__pad *g, const br_real *degrees);
const br_real *br__cosine (br__pad *g, const br_real *degrees);
const br_real *br__least (br__pad *g, const br_real *x, const br_real *y);
const br_real *br__most (br__pad *g, const br_real *x, const br_real *y);
/* The multiple of 1 / 2^PLACES nearest to X.  */
const br_real *br__pad_rounded (br__pad *g, const br_real *x, unsigned places);
/* Certain, or 0 and the pad has failed.  */
int br__sign_of (br__pad *g, const br_real *x);
int br__order_of (br__pad *g, const br_real *x, const br_real *y);

typedef struct br__point
{
  const br_real *x, *y;
} br__point;

br__point br__minus (br__pad *g, br__point p, br__point q);
br__point br__opposite (br__pad *g, br__point d);
/* D turned by 90 degrees, anticlockwise.  */
br__point br__left_of (br__pad *g, br__point d);
br__point br__along (br__pad *g, br__point p, const br_real *t, br__point d);     /* P + T D */
const br_real *br__dot (br__pad *g, br__point p, br__point q);
const br_real *br__cross (br__pad *g, br__point p, br__point q);
const br_real *br__length_of (br__pad *g, br__point p);
/* The unit vector at DEGREES, anticlockwise from the right.  */
br__point br__direction (br__pad *g, const br_real *degrees);
/* From P to the segment from A to B, which are two points.  */
const br_real *br__point_to_segment (br__pad *g, br__point p, br__point a, br__point b);

/* The numbers of a shape, x to the right and y up, in one unit; angles in degrees.
   circle: centre x y, a radius.  box: centre x y, a width, b height.
   arc: centre x y, a inner and b outer radius, c where it begins, d how far it turns (0 to 360).
   line: middle x y, a and b from its start to its end, c its width with round ends, or 0.
   outline: x y where its corners are measured from, a how many there are; it is no br__figure, but a path.
   row: x y of the shape that it repeats, a how many places, b c the step, d how many figures in all.
   mirror: x y of the shape that it shows mirrored, a where the upright axis is, d how many figures in all.
   Both are places of figures; behind their numbers stand those of the shape they copy.  */
typedef enum br__shape_kind { BR__CIRCLE = 1, BR__BOX, BR__ARC, BR__LINE, BR__OUTLINE, BR__ROW, BR__MIRROR } br__shape_kind;

static inline int
br__is_copy (int kind)
{
  return kind == BR__ROW || kind == BR__MIRROR;
}

typedef struct br__figure
{
  br__shape_kind kind;
  const br_real *x, *y, *a, *b, *c, *d;
} br__figure;

/* How far an arc or a line reaches from its centre in one of four ways; a circle and a box have it in their sizes.  */
typedef enum br__side { BR__RIGHT, BR__TOP, BR__LEFT, BR__BOTTOM } br__side;

/* Z: signed, so that the side lies at the centre and Z.  */
br_status br__figure_reach (br_real *z, const br__figure *f, br__side side, unsigned bits);

/* Z: the distance of the two areas.  Below zero they overlap, and -Z is how far one must be pushed to
   be free: along a side, an end or the line of the centres, the shortest of these.  For circles,
   boxes and lines no push is shorter; for an arc it counts as filled where no plainer push is known.
   BR_UNDECIDED: they touch in a way that no number of bits tells from overlap.  */
br_status br__figure_distance (br_real *z, const br__figure *p, const br__figure *q, unsigned bits);

/* arc_distance.c: the same where one is an arc, P the arc.  */
const br_real *br__arc_distance (br__pad *g, const br__figure *arc, const br__figure *q);

/* distance.c: a convex outline, anticlockwise, thickened by ROUND all around.  */
typedef struct br__hull
{
  br__point corner[4];
  size_t count;
  const br_real *round;
} br__hull;

void br__hull_of (br__hull *h, br__pad *g, const br__figure *f);
const br_real *br__hull_distance (br__pad *g, const br__hull *p, const br__hull *q);

#endif
