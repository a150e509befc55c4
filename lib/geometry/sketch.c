/* SPDX-License-Identifier: LGPL-3.0-or-later
   sketch.c - the values of a sketch.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "geometry/sketch.h"

#define BLOCK 64

struct br__sketch_block
{
  struct br__sketch_block *next;
  size_t used;
  br__value value[BLOCK];
};

static const br__value zero = BR__VALUE_ZERO;

void
br__sketch_clear (br__sketch *s)
{
  while (s->blocks)
    {
      struct br__sketch_block *block = s->blocks;
      s->blocks = block->next;
      for (size_t i = 0; i < block->used; i++)
        br__value_clear (&block->value[i]);
      br__free (block);
    }
}

/* Room for another value, or NULL once something has failed.  */
static br__value *
room (br__sketch *s)
{
  if (s->status != BR_OK)
    return NULL;
  if (!s->blocks || s->blocks->used == BLOCK)
    {
      struct br__sketch_block *block = br__alloc_zero (1, sizeof *block);
      if (!block)
        {
          s->status = BR_NO_MEMORY;
          return NULL;
        }
      block->next = s->blocks;
      s->blocks = block;
    }
  return &s->blocks->value[s->blocks->used++];
}

const br__value *
br__sketch_int (br__sketch *s, int64_t n)
{
  br__value *z = room (s);
  if (z)
    s->status = br_number_set_int (&z->real.rational, n);
  return s->status == BR_OK ? z : &zero;
}

const br__value *
br__sketch_do (br__sketch *s, br__opcode op, const br__value *x, const br__value *y)
{
  br__value *z = room (s);
  if (z)
    s->status = br__operate (s->work, z, op, x, y);
  return s->status == BR_OK ? z : &zero;
}

void
br__legs_clear (br__legs *legs)
{
  br__free (legs->rows);
  memset (legs, 0, sizeof *legs);
}

br_status
br__legs_path (br__path *path, br__pad *g, const br__legs *legs)
{
  br__path_piece *pieces = br__alloc_zero (legs->count, sizeof *pieces);
  if (!pieces)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < legs->count; i++)
    {
      const br__leg *l = &legs->rows[i];
      pieces[i].from = (br__point) { &l->x->real, &l->y->real };
      pieces[i].to = (br__point) { &l->x2->real, &l->y2->real };
      if (l->slope)
        {
          pieces[i].centre = (br__point) { &l->centre_x->real, &l->centre_y->real };
          pieces[i].radius = &l->radius->real;
          pieces[i].turn = br__sign_of (g, &l->slope->real);
        }
    }
  *path = (br__path) { pieces, legs->count, br__sign_of (g, &legs->side->real) };
  return g->status;
}
