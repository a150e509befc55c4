/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_root.c - all roots of a formula of one name.  A linear formula needs one division.  For others,
   branch and prune: an interval ("stretch") on which the enclosure of the formula does not contain zero has no root; one
   on which the slope keeps its sign has at most one; others are halved (Moore, Interval Analysis, 1966;
   from memory).  Signs at the ends are exact or certified, so no root is missed or invented.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/number.h"
#include "solve/find_search.h"

#define MOST_BOXES 20000
#define MOST_RUN 4000000        /* instructions run, over all boxes */
#define POWER_RUN 300           /* a power with an exponent that changes takes as long as so many others */
#define SHAPE_RUN 20            /* and what shapes measure, of each of their numbers */
#define MOST_DOUBTS 64          /* signs that are not decided */
#define NARROW 26               /* a stretch of 2^-NARROW is not halved any more */
#define CLOSE 100               /* a root is known to 2^-CLOSE */
#define PLAIN_BITS 50           /* a root that may turn out to be a fraction has no longer parts */

static void
stretch_clear (br__stretch *s)
{
  br_number_clear (&s->low);
  br_number_clear (&s->high);
}

br_status
br__root_valid (int *valid, const br__program *t, const br_real *x)
{
  br_real z = BR_REAL_ZERO;
  br_status status = br__program_value (&z, t, x, 0);
  *valid = status == BR_OK;
  br_real_clear (&z);
  return status == BR_DOMAIN ? BR_OK : status;
}

br_status
br__finder_add (br__finder *f, const br_number *x)
{
  br_real at = BR_REAL_ZERO;
  int valid = 0;
  br_status status = br_real_set_number (&at, x);
  if (status == BR_OK)
    status = br__root_valid (&valid, f->t, &at);
  if (status == BR_OK && valid)
    status = br__roots_add (f->roots, &at, x, x);
  br_real_clear (&at);
  return status;
}

br_status
br__finder_sign (int *sign, br__finder *f, const br_number *x)
{
  br_real at = BR_REAL_ZERO, z = BR_REAL_ZERO;
  br__interval_set (f->e->box[0], x, x);
  br_status status = br__enclose (f->e);
  if (status != BR_OK)
    return status;
  *sign = f->e->empty || f->e->partial ? 2 : br__interval_sign (br__enclosed_root (f->e), 0);
  if (*sign != 2)
    return BR_OK;
  status = br_real_set_number (&at, x);
  if (status == BR_OK)
    status = br__program_value (&z, f->t, &at, 1);
  if (status == BR_OK)
    {
      status = br_real_sign (sign, &z, f->t->settings->bits);
      f->doubts += status == BR_UNDECIDED;
    }
  else if (status == BR_DOMAIN)
    {
      *sign = 2;
      status = BR_OK;
    }
  /* Past the limit of bits nobody knows either.  */
  else if (status == BR_TOO_BIG)
    {
      f->doubts++;
      status = BR_UNDECIDED;
    }
  br_real_clear (&at);
  br_real_clear (&z);
  return status;
}

static br_status
middle (br_number *z, const br_number *x, const br_number *y)
{
  br_number half = { 1, 1 };
  br_status status = br_number_add (z, x, y);
  return status == BR_OK ? br_number_mul (z, z, &half) : status;
}

/* 1 if HIGH - LOW is at most 2^-BITS.  */
static br_status
is_narrow (int *narrow, const br_number *low, const br_number *high, int bits)
{
  br_number width = BR_NUMBER_ZERO, limit = BR_NUMBER_ZERO, two = { 2, 0 };
  br_status status = br_number_sub (&width, high, low);
  if (status == BR_OK)
    status = br_number_pow (&limit, &two, -bits);
  *narrow = status == BR_OK && br_number_cmp (&width, &limit) <= 0;
  br_number_clear (&width);
  br_number_clear (&limit);
  return status;
}

/* FOUND gets 1 where the plainest fraction of LOW .. HIGH is a root for certain; it is then added.  */
static br_status
try_fraction (int *found, br__finder *f, const br_number *low, const br_number *high)
{
  br_number x = BR_NUMBER_ZERO;
  int sign = 1;
  *found = 0;
  br_status status = br__number_plainest (&x, low, high);
  if (status == BR_OK && br__number_bits (&x) <= PLAIN_BITS)
    {
      status = br__finder_sign (&sign, f, &x);
      if (status == BR_UNDECIDED)
        status = BR_OK, sign = 1;
      if (status == BR_OK && sign == 0)
        {
          *found = 1;
          status = br__finder_add (f, &x);
        }
    }
  br_number_clear (&x);
  return status;
}

/* 1 where all of LOW .. HIGH has a value for certain.  That is seen without exact values: a power of which the exponent is
   no fraction has none, and still passes through zero.  */
static br_status
has_values (int *has, br__finder *f, const br_number *low, const br_number *high)
{
  br__interval_set (f->e->box[0], low, high);
  br_status status = br__enclose (f->e);
  *has = !f->e->empty && !f->e->partial && br__interval_bounded (br__enclosed_root (f->e));
  return status;
}

/* Adds a root that is not a fraction, if the functions have a value around it, or at least on both sides of it.  */
static br_status
add_between (br__finder *f, const br_number *low, const br_number *high)
{
  br_real at = BR_REAL_ZERO;
  int valid = 0;
  br_status status = has_values (&valid, f, low, high);
  const br_number *const ends[2] = { low, high };
  for (int i = 0, has = !valid || f->t->fits; i < 2 && has && status == BR_OK; i++)
    {
      status = br_real_set_number (&at, ends[i]);
      if (status == BR_OK)
        status = br__root_valid (&has, f->t, &at);
      valid = has;
    }
  if (status == BR_OK && valid)
    status = br__roots_add (f->roots, NULL, low, high);
  br_real_clear (&at);
  return status;
}

/* Halves S, at whose low end the sign is SIGN and at the high end the other, until its root is close.  */
static br_status
refine (br__finder *f, br__stretch *s, int sign)
{
  br_number mid = BR_NUMBER_ZERO;
  int narrow = 0, here = 1, found = 0;
  br_status status = BR_OK;
  while (status == BR_OK && !narrow)
    {
      status = middle (&mid, &s->low, &s->high);
      if (status == BR_OK)
        status = br__finder_sign (&here, f, &mid);
      if (status == BR_UNDECIDED)
        {
          /* The root is there for all that can be told: from a quarter on halving misses it.  */
          status = middle (&mid, &s->low, &mid);
          if (status == BR_OK)
            status = br__finder_sign (&here, f, &mid);
        }
      if (status != BR_OK)
        break;
      if (here == 0)
        {
          status = br__finder_add (f, &mid);
          found = 1;
          break;
        }
      br_number_swap (here == sign ? &s->low : &s->high, &mid);
      status = is_narrow (&narrow, &s->low, &s->high, CLOSE);
    }
  if (status == BR_OK && !found)
    status = try_fraction (&found, f, &s->low, &s->high);
  if (status == BR_OK && !found)
    status = add_between (f, &s->low, &s->high);
  br_number_clear (&mid);
  return status;
}

br_status
br__finder_leave (br__finder *f, const br_number *low, const br_number *high)
{
  br__roots *r = f->roots;
  for (int i = 0; i < r->open && i < BR__OPEN_ROOM; i++)
    {
      /* Join it to a range that touches it.  */
      if (br_number_cmp (low, &r->open_high[i]) > 0 || br_number_cmp (high, &r->open_low[i]) < 0)
        continue;
      br_status status = BR_OK;
      if (br_number_cmp (low, &r->open_low[i]) < 0)
        status = br_number_set (&r->open_low[i], low);
      if (status == BR_OK && br_number_cmp (high, &r->open_high[i]) > 0)
        status = br_number_set (&r->open_high[i], high);
      return status;
    }
  if (r->open++ >= BR__OPEN_ROOM)
    return BR_OK;
  br_status status = br_number_set (&r->open_low[r->open - 1], low);
  return status == BR_OK ? br_number_set (&r->open_high[r->open - 1], high) : status;
}

/* The same at an end of a stretch: where it is not decided whether a root is there, the others are looked for.  */
static br_status
end_sign (int *sign, br__finder *f, const br_number *x)
{
  br_status status = br__finder_sign (sign, f, x);
  if (status != BR_UNDECIDED)
    return status;
  *sign = 2;
  return br__finder_leave (f, x, x);
}

/* A stretch on which the slope never changes its sign.  */
static br_status
take_monotone (br__finder *f, br__stretch *s)
{
  int low = 2, high = 2;
  br_status status = end_sign (&low, f, &s->low);
  if (status == BR_OK)
    status = end_sign (&high, f, &s->high);
  if (status == BR_OK && low == 0)
    status = br__finder_add (f, &s->low);
  if (status == BR_OK && low && low * high == -1)
    status = refine (f, s, low);
  if (status == BR_OK && high == 0)
    status = br__finder_add (f, &s->high);
  return status;
}

/* 1 in *NONE where S, with poles inside, has no root to either side of any of them.  */
static br_status
beside_poles (int *none, br__finder *f, const br__stretch *s)
{
  br__enclosure *e = f->e;
  br_status status = BR_OK;
  br__interval_set (e->box[0], &s->low, &s->high);
  *none = e->beside_poles = 1;
  for (e->sides = 0; e->sides < 1U << BR__MOST_POLES && *none && status == BR_OK; e->sides++)
    {
      status = br__enclose (e);
      *none = e->met && e->met <= BR__MOST_POLES && (e->empty || !br__interval_has_zero (br__enclosed_root (e)));
    }
  e->beside_poles = 0;
  return status;
}

/* Too narrow to be halved: a fraction that is a root, or one that lies between two signs; whether it is the
   only one is not decided, unless it is that fraction.  */
static br_status
leave_open (br__finder *f, br__stretch *s, int unbroken)
{
  br_number x = BR_NUMBER_ZERO;
  int sign = 1, low = 2, high = 2, none = 0;
  br_status status = unbroken ? BR_OK : beside_poles (&none, f, s);
  if (status == BR_OK && none)
    return BR_OK;
  if (status == BR_OK)
    status = br__number_plainest (&x, &s->low, &s->high);
  if (status == BR_OK && br__number_bits (&x) <= PLAIN_BITS)
    status = br__finder_sign (&sign, f, &x);
  if (status == BR_UNDECIDED)
    status = BR_OK, sign = 1;
  /* A root, or a pole.  */
  if (status == BR_OK && (sign == 0 || sign == 2))
    status = br__finder_sides (f, s, &x);
  br_number_clear (&x);
  if (status != BR_OK || sign == 0 || sign == 2)
    return status;
  status = br__finder_leave (f, &s->low, &s->high);
  if (status == BR_OK && unbroken)
    status = br__finder_sign (&low, f, &s->low);
  if (status == BR_OK && unbroken)
    status = br__finder_sign (&high, f, &s->high);
  if (status == BR_UNDECIDED)
    return BR_OK;
  return status == BR_OK && low * high == -1 ? refine (f, s, low) : status;
}

/* 1 in *NONE if the mean value form leaves zero out; the slopes over S stand ready in E.  */
static br_status
mean_value (int *none, br__finder *f, const br__stretch *s, const br_number *mid)
{
  br__interval slope, offset;
  br__interval_init (slope, BR__BOX_BITS);
  br__interval_init (offset, BR__BOX_BITS);
  br__interval_copy (slope, br__enclosed_slope (f->e, 0));
  br__interval_set (offset, &s->low, &s->high);
  br__interval_set (f->e->box[0], mid, mid);
  br__interval_sub (offset, offset, f->e->box[0]);
  br_status status = br__enclose (f->e);
  if (status == BR_OK && !f->e->empty && !f->e->partial && br__interval_bounded (slope))
    {
      br__interval_mul (offset, offset, slope);
      br__interval_add (offset, offset, br__enclosed_root (f->e));
      *none = !br__interval_has_zero (offset);
    }
  br__interval_clear (slope);
  br__interval_clear (offset);
  return status;
}

/* LOW .. HIGH waits.  */
static br_status
push (br__finder *f, const br_number *low, const br_number *high)
{
  if (f->count == BR__MOST_STRETCHES)
    return BR_TOO_BIG;
  br__stretch *s = &f->waiting[f->count];
  br_status status = br_number_set (&s->low, low);
  if (status == BR_OK)
    status = br_number_set (&s->high, high);
  if (status == BR_OK)
    status = br__roots_away (&f->away[f->count], f->roots, low, high);
  f->count += status == BR_OK;
  return status;
}

static int
is_under (const br__finder *f, size_t i)
{
  return !f->roots->either && br_number_sign (&f->waiting[i].high) <= 0;
}

/* S becomes the stretch in which the roots are that are wanted first; ENOUGH where more were found than are
   shown, all of them wanted before what waits.  */
static br_status
pull (br__stretch *s, int *enough, br__finder *f)
{
  size_t best = 0, last = f->count - 1;
  for (size_t i = 1; i < f->count; i++)
    {
      int under = is_under (f, i), best_under = is_under (f, best);
      if (under != best_under ? under < best_under : br_number_cmp (&f->away[i], &f->away[best]) <= 0)
        best = i;
    }
  br_status status = br__roots_enough (enough, f->roots, &f->away[best], is_under (f, best));
  br_number_swap (&s->low, &f->waiting[best].low);
  br_number_swap (&s->high, &f->waiting[best].high);
  br_number_swap (&f->waiting[best].low, &f->waiting[last].low);
  br_number_swap (&f->waiting[best].high, &f->waiting[last].high);
  br_number_swap (&f->away[best], &f->away[last]);
  f->count = last;
  return status;
}

/* A stretch over which the formula has values and may be zero: 1 in *DONE where that settles it.  */
static br_status
take_slope (int *done, br__finder *f, br__stretch *s, int jumps)
{
  int low = 2, high = 2;
  br__enclose_slopes (f->e);
  int way = br__interval_sign (br__enclosed_slope (f->e, 0), f->t->smooth);
  *done = 1;
  if ((way == 0 && !jumps) || br__interval_is_zero (br__enclosed_root (f->e)))
    return br__finder_flat (f, s);
  if ((way == 1 || way == -1) && !jumps)
    return take_monotone (f, s);
  *done = 0;
  if (way != 1 && way != -1)
    return BR_OK;
  /* It jumps, but always the same way: between ends of one sign there is no root.  */
  br_status status = end_sign (&low, f, &s->low);
  if (status == BR_OK)
    status = end_sign (&high, f, &s->high);
  *done = status == BR_OK && low * high == 1;
  return status;
}

static br_status
take_stretch (br__finder *f, br__stretch *s)
{
  br_number mid = BR_NUMBER_ZERO;
  int narrow = 0, none = 0;
  br__interval_set (f->e->box[0], &s->low, &s->high);
  br_status status = br__enclose (f->e);
  if (status != BR_OK || f->e->empty || !br__interval_has_zero (br__enclosed_root (f->e)))
    return status;
  int jumps = f->t->steps && br__steps_vary (f->e), partial = f->e->partial;
  int unbroken = !jumps && !partial && br__interval_bounded (br__enclosed_root (f->e));
  if (!partial)
    {
      status = take_slope (&none, f, s, jumps);
      if (status != BR_OK || none)
        return status;
    }
  status = middle (&mid, &s->low, &s->high);
  if (status == BR_OK && !partial && !jumps)
    status = mean_value (&none, f, s, &mid);
  if (status == BR_OK && !none)
    status = br__finder_take_band (&none, f, s, &mid);
  if (status == BR_OK && !none)
    status = is_narrow (&narrow, &s->low, &s->high, NARROW);
  if (status == BR_OK && !none && narrow && jumps && !partial)
    {
      br__interval_set (f->e->box[0], &s->low, &s->high);
      status = br__enclose (f->e);
      if (status == BR_OK)
        status = br__finder_jump (f, s);
    }
  else if (status == BR_OK && !none)
    {
      status = narrow ? leave_open (f, s, unbroken) : push (f, &mid, &s->high);
      if (status == BR_OK && !narrow)
        status = push (f, &s->low, &mid);
    }
  br_number_clear (&mid);
  return status;
}

/* From LOW to HIGH, with zero and the place where the search begins between stretches.  */
static br_status
push_all (br__finder *f)
{
  const br_number zero = BR_NUMBER_ZERO, *home = &f->roots->home, *low = &f->roots->low, *high = &f->roots->high;
  const br_number *cuts[4] = { low, &zero, home, high };
  br_status status = BR_OK;
  if (br_number_sign (home) < 0)
    cuts[1] = home, cuts[2] = &zero;
  for (size_t i = 0; i < 3 && status == BR_OK; i++)
    if (br_number_cmp (cuts[i], cuts[i + 1]) < 0 && br_number_cmp (cuts[i], high) < 0 && br_number_cmp (cuts[i + 1], low) > 0)
      status = push (f, cuts[i], cuts[i + 1]);
  return status;
}

/* The work of one enclosure of the formula, in instructions.  */
static size_t
run_of (const br__program *t)
{
  size_t run = t->count;
  for (size_t i = 0; i < t->count; i++)
    run += t->code[i].op == BR__CODE_POWER_OF ? POWER_RUN : t->code[i].op == BR__CODE_SHAPE ? SHAPE_RUN * t->code[i].operand_count : 0;
  return run;
}

static br_status
search (br__finder *f)
{
  br__stretch s = { BR_NUMBER_ZERO, BR_NUMBER_ZERO };
  const size_t most = MOST_RUN / run_of (f->t) < MOST_BOXES ? MOST_RUN / run_of (f->t) : MOST_BOXES;
  int enough = 0;
  br_status status = br__enclosure_new (&f->e, f->t);
  if (status == BR_OK)
    status = push_all (f);
  while (status == BR_OK && f->count > 0)
    {
      if (++f->boxes > most || f->doubts > MOST_DOUBTS || (f->flag && *f->flag))
        {
          f->roots->stopped = 1;
          break;
        }
      status = pull (&s, &enough, f);
      if (status == BR_OK && enough)
        break;
      if (status == BR_OK)
        status = take_stretch (f, &s);
    }
  stretch_clear (&s);
  for (size_t i = 0; i < BR__MOST_STRETCHES; i++)
    {
      stretch_clear (&f->waiting[i]);
      br_number_clear (&f->away[i]);
    }
  br__enclosure_free (f->e);
  return status == BR_OK ? br__roots_finish (f->roots) : status;
}

/* Z, if it is certain that it is the plainest fraction that it can be: T is zero there.  */
static br_status
plain_root (br_real *z, const br__program *t, const br_number *low, const br_number *high)
{
  br_real at = BR_REAL_ZERO, value = BR_REAL_ZERO;
  int sign = 1;
  if (br_real_rational (z))
    return BR_OK;
  br_status status = br__number_plainest (&at.rational, low, high);
  if (status == BR_OK && br__number_bits (&at.rational) <= PLAIN_BITS)
    {
      status = br__program_value (&value, t, &at, 1);
      if (status == BR_OK)
        status = br_real_sign (&sign, &value, t->settings->bits);
      if (status == BR_OK && sign == 0)
        status = br_real_set (z, &at);
    }
  br_real_clear (&at);
  br_real_clear (&value);
  return status == BR_UNDECIDED || status == BR_DOMAIN ? BR_OK : status;
}

/* SLOPE * x + OFFSET = 0.  */
static br_status
solve_linear (br__roots *r, const br__program *t)
{
  br_real slope = BR_REAL_ZERO, offset = BR_REAL_ZERO, zero = BR_REAL_ZERO;
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  int sign = 0, valid = 0;
  unsigned bits = t->settings->bits;
  br_status status = br__program_slopes (&slope, t, &zero, 1, 0);
  if (status == BR_OK)
    status = br__program_value (&offset, t, &zero, 1);
  if (status == BR_OK)
    status = br_real_sign (&sign, &slope, bits);
  if (status == BR_OK && sign == 0)
    {
      r->always = 1;
      status = br_real_sign (&sign, &offset, bits);
      r->every = sign == 0;
      goto out;
    }
  if (status == BR_OK)
    status = br_real_div (&offset, &offset, &slope, bits);
  if (status == BR_OK)
    status = br_real_neg (&offset, &offset);
  if (status == BR_OK)
    status = br__root_valid (&valid, t, &offset);
  if (status == BR_OK)
    status = br_real_enclose (&low, &high, &offset, BR__BOX_BITS);
  if (status == BR_OK)
    status = plain_root (&offset, t, &low, &high);
  if (status == BR_OK && valid)
    status = br__roots_add (r, br_real_rational (&offset) ? &offset : NULL, &low, &high);
 out:
  br_real_clear (&slope);
  br_real_clear (&offset);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

br_status
br__roots_find (br__roots *r, const br__program *t, const volatile sig_atomic_t *flag)
{
  r->linear = t->code[t->root].linear;
  if (r->linear)
    return solve_linear (r, t);
  br__finder *f = br__alloc_zero (1, sizeof *f);
  if (!f)
    return BR_NO_MEMORY;
  f->t = t;
  f->roots = r;
  f->flag = flag;
  br__mpfr_state state;
  br__mpfr_enter (&state);
  br_status status = search (f);
  br__mpfr_leave (&state);
  br__free (f);
  return status;
}
