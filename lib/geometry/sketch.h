/* SPDX-License-Identifier: LGPL-3.0-or-later
   sketch.h - outlines and other shapes as paths whose numbers are known values or slots of a program.  So the measures of an
   outline are computed by the same code for answers and for searches.

   The sketch owns every value that is made on it.  An error is sticky: after it each call gives zero.  */
#ifndef BR_GEOMETRY_SKETCH_H
#define BR_GEOMETRY_SKETCH_H

#include "formula/operate.h"
#include "formula/tree.h"
#include "geometry/path.h"

typedef struct br__sketch
{
  br__work *work;
  br_status status;
  struct br__sketch_block *blocks;
} br__sketch;

void br__sketch_clear (br__sketch *s);
const br__value *br__sketch_int (br__sketch *s, int64_t n);
/* Y is NULL for an operation of one operand.  */
const br__value *br__sketch_do (br__sketch *s, br__opcode op, const br__value *x, const br__value *y);

/* A piece of a path: straight where SLOPE is NULL, else an arc that turns by twice the angle whose tangent SLOPE is,
   to the left where that is over zero, and by less than 180 degrees.  */
typedef struct br__leg
{
  const br__value *x, *y, *x2, *y2;
  const br__value *slope, *radius, *centre_x, *centre_y;
  size_t corner;                /* of an outline: its side, cut or round */
  int sharp;                    /* it begins at a corner that is neither round nor cut */
} br__leg;

typedef struct br__legs
{
  br__leg *rows;
  size_t count, room;
  const br__value *side;        /* 1: the inside is on the left; -1: on the right; 0: there is no inside */
} br__legs;

void br__legs_clear (br__legs *legs);

/* outline_legs.c.  The BR__CORNER_NUMBERS of a corner, in this order: place, radius or cut, cut along the side that follows (0 of
   what is round), rise of the side that ends in it.  */
#define BR__MOST_CORNERS 64
enum { BR__CORNER_X, BR__CORNER_Y, BR__CORNER_CUT, BR__CORNER_CUT_AFTER, BR__CORNER_RISE };

/* The path of an outline of COUNT corners.  If a corner cannot be drawn, fails and sets INDEX to its number.  Slots of a
   program are not checked.  */
br_status br__outline_legs (br__legs *legs, br__sketch *s, const br__value *corners, size_t count);
/* 0, or what is wrong with an outline, or a BOX, whose numbers are known: its error, at argument *INDEX.  */
br_status br__outline_check (size_t *index, br__work *w, const br__value *corners, size_t count, int box);

typedef enum br__outline_measure
{
  BR__OUTLINE_RIGHT, BR__OUTLINE_TOP, BR__OUTLINE_LEFT, BR__OUTLINE_BOTTOM, BR__OUTLINE_MIDDLE_X, BR__OUTLINE_MIDDLE_Y,
  BR__OUTLINE_AREA, BR__OUTLINE_PERIMETER
} br__outline_measure;

/* Z, of which the dimension is the caller's to set.  LEGS are as they are before they turn by ANGLE, as they may do here.  */
br_status br__legs_measure (br__value *z, br__sketch *s, br__legs *legs, const br__value *angle, br__outline_measure what);
/* LEGS, which have values, as a path of them: its pieces are to be freed, and end where the sketch does.  */
br_status br__legs_path (br__path *path, br__pad *g, const br__legs *legs);
/* About the middle of their width and height.  */
void br__legs_turn (br__legs *legs, br__sketch *s, const br__value *angle);

/* shape_legs.c: the path of a shape by its seven numbers, and those of its corners behind them.  */
br_status br__shape_legs (br__legs *legs, br__sketch *s, const br__value *numbers);
/* shape_places.c: the figures that a row or a mirror is made of, in their places; of another shape, that shape.  */
typedef struct br__places
{
  br__value *rows;              /* COUNT times NUMBERS values, borrowed from the sketch */
  size_t count, room, numbers;
} br__places;

#define BR__MOST_PLACES 100
br_status br__shape_places (br__places *p, br__sketch *s, const br__value *numbers, size_t count);
void br__places_clear (br__places *p);
/* Values of LEG that belong to others become values of the sketch.  */
br_status br__leg_keep (br__leg *leg, br__sketch *s);
/* How many numbers there are from NUMBERS on, those of corners and of a copied shape included; 0 where they are not all among
   the first ROOM.  */
unsigned br__shape_number_count (const br__value *numbers, unsigned room);

#endif
