/* SPDX-License-Identifier: LGPL-3.0-or-later
   small_part.c - does a part fit into the small parts cylinder of 16 CFR 1501.4?

   The cylinder is 1-1/4 in across with a flat bottom that slopes from 1 in deep at one side to
   2-1/4 in at the other: 1-1/4 in down over 1-1/4 in across, so it slopes at 45 degrees.  In
   eighths of an inch, with z the depth and x across towards the deep side, its inside is

     x^2 + y^2 <= 25,   0 <= z <= 13 + x,

   which is convex.  All sizes below are in eighths: radius 5, depth 8 to 18.

   It fits, box h x a x b: stand it upright, h down, a along x, b along y, pushed to the deep
   side. In the round section it needs a^2 + b^2 <= 100; its outer face is then at x = sqrt (25 -
   b^2 / 4), its inner face a nearer, where the depth is 13 + sqrt (25 - b^2 / 4) - a, which h
   must not exceed.  With t = h + a - 13 that is t <= 0 or 4 t^2 + b^2 <= 100.  All six ways to
   stand it are tried.

   It fits, disc or rod of diameter d and length t: upright at the deep side its inner edge is at
   x = 5 - d, so d <= 10 and t + d <= 18.  Lying on its edge gains nothing: that needs d^2 + t^2
   <= 100, whence d + t <= 10 sqrt 2 < 18.

   It does not fit:
   1. Longest line inside, from the rim on the shallow side to the deepest point: its square is
      100 + 324. (Points of the rim and of the bottom, which are all that count in a convex body:
      rim to bottom at angles p, q is 50 (1 - cos (p - q)) + (13 + 5 cos q)^2, largest at p = pi,
      q = 0; bottom to bottom at most 200; rim to rim at most 100.)  A box's diagonal, or a rod's,
      over that: no.
   2. Seen from above, the part must lie within a circle of diameter 10.  A box seen along a unit
      direction u shows its corners at v - (v.u) u; being symmetric about its middle it needs a
      circle of diameter squared D^2 - min (+-l u1 +- w u2 +- t u3)^2, D its diagonal.  Signs can
      be chosen so that the bracket is at most the largest of its terms, hence at most the longest
      side l: the square is at least D^2 - l^2, the sum of the squares of the two smaller sides.
      Over 100: no.  A disc shows its full diameter in some direction from wherever it is seen, so
      d > 10: no.
   3. For any body, the farthest it reaches in the directions -z, z - x and x adds up to at most 0
      + 13 + 5 = 18.  An edge of length l and direction e adds half of l (|ez| + |ez - ex| + |ex|)
      = l max (|ex|, |ez|, |ez - ex|).  Its view from above is at most 10 long: l^2 (ex^2 + ey^2)
      <= 100, so |ez| and sqrt (1 - ex^2) are at least k = sqrt (1 - 100 / l^2), if l > 10.  The
      other two edges, of which the shorter is s, add at least s (|e2x| + |e3x|) >= s sqrt (1 -
      ex^2).  So (l + s) k <= 18: (l + s)^2 (l^2 - 100) > 324 l^2 is a no.  A rod of length l and
      diameter s comes to the same: its round adds s / 2 times the lengths of -z, z - x and x
      across the axis; the sides of that triangle sum to at least twice that of x, sqrt (1 -
      ex^2).

   Between these lies "may fit"; for a child's safety that is treated as fitting.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shop/calc.h"
#include "shop/caution.h"

#define CYLINDER "the small parts cylinder, 1-1/4 in across and 1 in to 2-1/4 in deep"
#define SOURCE "16 CFR 1501.4, size requirements and test procedure for small parts"
#define EDITION "the section in force; English dimensions govern"
#define SCOPE "toys and their loose pieces for children under 36 months"
#define ADVICE \
  ": a child under 3 years can choke on it; make it larger, or fix it so that it cannot come " \
  "off; " BR__TEACHER_FIRST

static const br_caution fits_certain = {
  "this part fits into " CYLINDER ADVICE, SOURCE, EDITION, SCOPE
};
static const br_caution fits_maybe = {
  "this part may fit into " CYLINDER ADVICE, SOURCE, EDITION, SCOPE
};

static const br_real four = BR__WHOLE (4);
static const br_real eight = BR__WHOLE (8);
static const br_real ten = BR__WHOLE (10);
static const br_real middle_depth = BR__WHOLE (13);
static const br_real largest_depth = BR__WHOLE (18);
static const br_real round_squared = BR__WHOLE (100);
static const br_real depth_squared = BR__WHOLE (324);
static const br_real longest_squared = BR__WHOLE (424);

const br_caution *
br__small_part_caution (br_truth fits, const br__child *child)
{
  if (fits == BR_NO || !br__child_under (child, 36))
    return NULL;
  return fits == BR_YES ? &fits_certain : &fits_maybe;
}

/* Is A over LIMIT?  Ends the calculation C; *STATUS keeps a fault, not that it is undecided.  */
static br_truth
over (br__calc *c, const br_real *a, const br_real *limit, br_status *status)
{
  int order = calc_order (c, a, limit);
  br_truth answer = calc_truth (&c->status, order > 0);

  if (*status == BR_OK)
    *status = c->status;
  calc_clear (c);
  return answer;
}

static br_truth
not (br_truth x)
{
  return x == BR_UNKNOWN ? BR_UNKNOWN : x == BR_YES ? BR_NO : BR_YES;
}

/* Is X^2 + Y^2 over LIMIT?  */
static br_truth
squares_over (const br_real *x, const br_real *y, const br_real *limit, unsigned bits,
              br_status *status)
{
  br__calc c = BR__CALC (bits);

  calc_mul (&c, &c.a, x, x);
  calc_mul (&c, &c.b, y, y);
  calc_add (&c, &c.a, &c.a, &c.b);
  return over (&c, &c.a, limit, status);
}

static br_truth
sum_over (const br_real *x, const br_real *y, const br_real *limit, unsigned bits,
          br_status *status)
{
  br__calc c = BR__CALC (bits);

  calc_add (&c, &c.a, x, y);
  return over (&c, &c.a, limit, status);
}

/* Does the box fit with H down, A across the slope and B along it?  */
static br_truth
stands (const br_real *h, const br_real *a, const br_real *b, unsigned bits, br_status *status)
{
  br__calc c = BR__CALC (bits);
  br_truth round = not (squares_over (a, b, &round_squared, bits, status));
  br_truth shallow = not (sum_over (h, a, &middle_depth, bits, status));
  br_truth deep;

  calc_add (&c, &c.a, h, a);
  calc_sub (&c, &c.a, &c.a, &middle_depth);
  calc_mul (&c, &c.a, &c.a, &c.a);
  calc_mul (&c, &c.a, &c.a, &four);
  calc_mul (&c, &c.b, b, b);
  calc_add (&c, &c.a, &c.a, &c.b);
  deep = not (over (&c, &c.a, &round_squared, status));
  return truth_both (round, truth_either (shallow, deep));
}

/* Is a part of length L with another size S too long in every position (case 3)?  */
static br_truth
too_long (const br_real *l, const br_real *s, unsigned bits, br_status *status)
{
  br__calc c = BR__CALC (bits);

  calc_mul (&c, &c.b, l, l);
  calc_add (&c, &c.a, l, s);
  calc_mul (&c, &c.a, &c.a, &c.a);
  calc_sub (&c, &c.c, &c.b, &round_squared);
  calc_mul (&c, &c.a, &c.a, &c.c);
  calc_mul (&c, &c.b, &c.b, &depth_squared);
  return over (&c, &c.a, &c.b, status);
}

/* Is the box's diagonal longer than any line inside the cylinder (case 1)?  */
static br_truth
diagonal_over (const br_real *side, unsigned bits, br_status *status)
{
  br__calc c = BR__CALC (bits);
  size_t i;

  for (i = 0; i < 3; i++)
    {
      calc_mul (&c, &c.b, &side[i], &side[i]);
      calc_add (&c, &c.a, &c.a, &c.b);
    }
  return over (&c, &c.a, &longest_squared, status);
}

/* SIDE[i] = SIZES[i] in eighths.  */
static br_status
in_eighths (br_real *side, const br_real *const *sizes, size_t count, unsigned bits,
            br_error *error)
{
  size_t i;
  int sign;
  br_status status;

  for (i = 0; i < count; i++)
    {
      sign = 0;
      status = br_real_sign (&sign, sizes[i], bits);
      if (status == BR_OK && sign <= 0)
        return br__fail (error, BR_DOMAIN, i, 0, "the sizes of a part must be over zero");
      if (status == BR_OK)
        status = br_real_mul (&side[i], sizes[i], &eight);
      if (status != BR_OK)
        return br__fail_plain (error, status, i, 0);
    }
  return BR_OK;
}

br_status
br__small_box_fits (br_truth *fits, const br_real *length, const br_real *width,
                    const br_real *thickness, unsigned bits, br_error *error)
{
  const br_real *sizes[] = { length, width, thickness };
  br_real side[3] = { BR_REAL_ZERO, BR_REAL_ZERO, BR_REAL_ZERO };
  br_truth yes = BR_NO, no = BR_NO, wide = BR_YES, longer;
  br_status status = in_eighths (side, sizes, 3, bits, error);
  br_status fault = BR_OK;
  size_t i, j, k;

  if (status != BR_OK)
    goto out;
  no = diagonal_over (side, bits, &fault);
  for (i = 0; i < 3; i++)
    {
      j = (i + 1) % 3;
      k = (i + 2) % 3;
      yes = truth_either (yes, stands (&side[i], &side[j], &side[k], bits, &fault));
      yes = truth_either (yes, stands (&side[i], &side[k], &side[j], bits, &fault));
      wide = truth_both (wide, squares_over (&side[j], &side[k], &round_squared, bits, &fault));
      longer = truth_both (too_long (&side[i], &side[j], bits, &fault),
                           too_long (&side[i], &side[k], bits, &fault));
      no = truth_either (no, longer);
    }
  no = truth_either (no, wide);
  status = fault == BR_OK ? BR_OK : br__fail_plain (error, fault, 0, 0);
  if (status == BR_OK)
    *fits = yes == BR_YES ? BR_YES : no == BR_YES ? BR_NO : BR_UNKNOWN;
out:
  for (i = 0; i < 3; i++)
    br_real_clear (&side[i]);
  return status;
}

br_status
br__small_disc_fits (br_truth *fits, const br_real *diameter, const br_real *thickness,
                     unsigned bits, br_error *error)
{
  const br_real *sizes[] = { diameter, thickness };
  br_real side[2] = { BR_REAL_ZERO, BR_REAL_ZERO };
  const br_real *d = &side[0], *t = &side[1];
  br_truth yes, no;
  br_status status = in_eighths (side, sizes, 2, bits, error);
  br_status fault = BR_OK;
  br__calc c = BR__CALC (bits);

  if (status != BR_OK)
    goto out;
  no = over (&c, d, &ten, &fault);
  yes = truth_both (not (no), not (sum_over (d, t, &largest_depth, bits, &fault)));
  no = truth_either (no, squares_over (d, t, &longest_squared, bits, &fault));
  no = truth_either (no, too_long (t, d, bits, &fault));
  status = fault == BR_OK ? BR_OK : br__fail_plain (error, fault, 0, 0);
  if (status == BR_OK)
    *fits = yes == BR_YES ? BR_YES : no == BR_YES ? BR_NO : BR_UNKNOWN;
out:
  br_real_clear (&side[0]);
  br_real_clear (&side[1]);
  return status;
}
