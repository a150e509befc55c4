/* SPDX-License-Identifier: LGPL-3.0-or-later
   geometry.c - the scratch pad: formulas of plane geometry on real values.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/real.h"
#include "geometry/geometry.h"

#define BLOCK 64

struct br__pad_block
{
  struct br__pad_block *next;
  size_t used;
  br_real value[BLOCK];
};

static const br_real zero = BR_REAL_ZERO;

void
br__pad_clear (br__pad *g)
{
  while (g->blocks)
    {
      struct br__pad_block *block = g->blocks;
      g->blocks = block->next;
      for (size_t i = 0; i < block->used; i++)
        br_real_clear (&block->value[i]);
      br__free (block);
    }
}

br_status
br__pad_end (br_real *z, const br_real *x, br__pad *g)
{
  br_status status = g->status;
  if (status == BR_OK)
    status = br_real_set (z, x);
  br__pad_clear (g);
  return status;
}

/* Room for another value, or NULL once something has failed.  */
static br_real *
room (br__pad *g)
{
  if (g->status != BR_OK)
    return NULL;
  if (!g->blocks || g->blocks->used == BLOCK)
    {
      struct br__pad_block *block = br__alloc_zero (1, sizeof *block);
      if (!block)
        {
          g->status = BR_NO_MEMORY;
          return NULL;
        }
      block->next = g->blocks;
      g->blocks = block;
    }
  return &g->blocks->value[g->blocks->used++];
}

static const br_real *
made (br__pad *g, const br_real *z, br_status status)
{
  g->status = status;
  return status == BR_OK ? z : &zero;
}

const br_real *
br__pad_int (br__pad *g, int64_t n)
{
  br_real *z = room (g);
  return z ? made (g, z, br_number_set_int (&z->rational, n)) : &zero;
}

const br_real *
br__add (br__pad *g, const br_real *x, const br_real *y)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_add (z, x, y)) : &zero;
}

const br_real *
br__sub (br__pad *g, const br_real *x, const br_real *y)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_sub (z, x, y)) : &zero;
}

const br_real *
br__mul (br__pad *g, const br_real *x, const br_real *y)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_mul (z, x, y)) : &zero;
}

const br_real *
br__div (br__pad *g, const br_real *x, const br_real *y)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_div (z, x, y, g->bits)) : &zero;
}

const br_real *
br__neg (br__pad *g, const br_real *x)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_neg (z, x)) : &zero;
}

const br_real *
br__abs_of (br__pad *g, const br_real *x)
{
  return br__sign_of (g, x) < 0 ? br__neg (g, x) : x;
}

const br_real *
br__half (br__pad *g, const br_real *x)
{
  return br__div (g, x, br__pad_int (g, 2));
}

const br_real *
br__root (br__pad *g, const br_real *x)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_sqrt (z, x, g->bits)) : &zero;
}

const br_real *
br__sine (br__pad *g, const br_real *degrees)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_sin (z, degrees)) : &zero;
}

const br_real *
br__cosine (br__pad *g, const br_real *degrees)
{
  br_real *z = room (g);
  return z ? made (g, z, br_real_cos (z, degrees)) : &zero;
}

const br_real *
br__pad_rounded (br__pad *g, const br_real *x, unsigned places)
{
  br_number step = BR_NUMBER_ZERO;
  br_real *z = room (g);
  if (!z)
    return &zero;
  br_status status = br_number_set_int (&step, 2);
  if (status == BR_OK)
    status = br_number_pow (&step, &step, -(int64_t) places);
  if (status == BR_OK)
    status = br_real_round (&z->rational, NULL, x, &step, BR_NEAREST, BR_TIES_UP, g->bits);
  br_number_clear (&step);
  return made (g, z, status);
}

int
br__sign_of (br__pad *g, const br_real *x)
{
  int sign = 0;
  if (g->status == BR_OK)
    g->status = br_real_sign (&sign, x, g->bits);
  return g->status == BR_OK ? sign : 0;
}

int
br__order_of (br__pad *g, const br_real *x, const br_real *y)
{
  int order = 0;
  if (g->status == BR_OK)
    g->status = br_real_cmp (&order, x, y, g->bits);
  return g->status == BR_OK ? order : 0;
}

/* The greater one where SIGN is 1, the less where it is -1.  Of two that touch, as those of two corners that a side parts do, and that
   a short proof does not tell to be one, it is (x + y + sign |x - y|) / 2, which is true whatever they are.  */
static const br_real *
extreme (br__pad *g, const br_real *x, const br_real *y, int sign)
{
  int order = 0;
  if (!br__real_is_formula (x) || !br__real_is_formula (y))
    return br__order_of (g, x, y) * sign >= 0 ? x : y;
  g->status = g->status == BR_OK ? br__real_apart (&order, x, y) : g->status;
  if (g->status != BR_OK || order != 0)
    return order * sign >= 0 ? x : y;
  const br_real *d = br__sub (g, x, y);
  g->status = g->status == BR_OK ? br__real_ask (d, BR__GLANCE, 0) : g->status;
  if (g->status != BR_OK || !d->node || d->node->known == BR__FRACTION)
    return br__sign_of (g, d) * sign >= 0 ? x : y;
  const br_real *square = br__mul (g, d, d), *sum = br__add (g, x, y);
  br_real *size = room (g);
  const br_real *apart = size ? made (g, size, br__real_root (size, square, 2)) : &zero;
  return br__half (g, sign > 0 ? br__add (g, sum, apart) : br__sub (g, sum, apart));
}

const br_real *
br__least (br__pad *g, const br_real *x, const br_real *y)
{
  return extreme (g, x, y, -1);
}

const br_real *
br__most (br__pad *g, const br_real *x, const br_real *y)
{
  return extreme (g, x, y, 1);
}

/* ---- Points ---- */

br__point
br__minus (br__pad *g, br__point p, br__point q)
{
  br__point z = { br__sub (g, p.x, q.x), br__sub (g, p.y, q.y) };
  return z;
}

br__point
br__opposite (br__pad *g, br__point d)
{
  return (br__point) { br__neg (g, d.x), br__neg (g, d.y) };
}

br__point
br__left_of (br__pad *g, br__point d)
{
  return (br__point) { br__neg (g, d.y), d.x };
}

br__point
br__along (br__pad *g, br__point p, const br_real *t, br__point d)
{
  br__point z = { br__add (g, p.x, br__mul (g, t, d.x)), br__add (g, p.y, br__mul (g, t, d.y)) };
  return z;
}

const br_real *
br__dot (br__pad *g, br__point p, br__point q)
{
  return br__add (g, br__mul (g, p.x, q.x), br__mul (g, p.y, q.y));
}

const br_real *
br__cross (br__pad *g, br__point p, br__point q)
{
  return br__sub (g, br__mul (g, p.x, q.y), br__mul (g, p.y, q.x));
}

const br_real *
br__length_of (br__pad *g, br__point p)
{
  /* Along an axis no root is needed, whatever the number is.  */
  if (br__sign_of (g, p.x) == 0)
    return br__abs_of (g, p.y);
  if (br__sign_of (g, p.y) == 0)
    return br__abs_of (g, p.x);
  return br__root (g, br__dot (g, p, p));
}

br__point
br__direction (br__pad *g, const br_real *degrees)
{
  br__point z = { br__cosine (g, degrees), br__sine (g, degrees) };
  return z;
}

const br_real *
br__point_to_segment (br__pad *g, br__point p, br__point a, br__point b)
{
  br__point d = br__minus (g, b, a), v = br__minus (g, p, a);
  const br_real *t = br__dot (g, v, d), *whole = br__dot (g, d, d);
  if (br__sign_of (g, t) <= 0)
    return br__length_of (g, v);
  if (br__order_of (g, t, whole) >= 0)
    return br__length_of (g, br__minus (g, p, b));
  return br__div (g, br__abs_of (g, br__cross (g, d, v)), br__length_of (g, d));
}
