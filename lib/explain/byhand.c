/* SPDX-License-Identifier: LGPL-3.0-or-later
   byhand.c - sums, products and quotients of mixed numbers the way they are taught: common
   denominator, carry, borrow, improper fractions, lowest terms.  Whatever is not a plain shop
   fraction takes one step.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "explain/explain.h"

/* Larger parts are no arithmetic for a pencil, and below this no product overflows.  */
#define MOST 1000000

/* A number as whole and fraction over a denominator that need not be the least.  */
typedef struct parts
{
  int64_t whole, num, den;
} parts;

void
br__worked_steps_clear (br__worked_steps *l)
{
  for (size_t i = 0; i < l->count; i++)
    br__text_clear (&l->rows[i]);
  br__free (l->rows);
  memset (l, 0, sizeof *l);
}

void
br__worked_steps_add (br__worked_steps *l, const char *left, const char *sign, const char *right)
{
  br_text t = BR_TEXT_ZERO;
  if (strcmp (left, right) == 0)
    return;
  br__text_printf (&t, "%s %s %s", left, sign, right);
  if (t.failed || !br__grow (&l->rows, &l->room, l->count + 1, sizeof (br_text)))
    {
      l->failed = 1;
      br__text_clear (&t);
      return;
    }
  l->rows[l->count++] = t;
}

/* Writes the unit after a number of DIMENSION, in the sheet's unit.  */
static void
put_suffix (br_text *t, br_dimension dimension, const br__settings *s)
{
  if (dimension == BR_PLAIN)
    return;
  if (dimension == BR_LENGTH && strcmp (s->unit->name, "in") == 0)
    br__text_putc (t, '"');
  else
    {
      br__text_putc (t, ' ');
      br__put_unit_name (t, s, dimension);
    }
}

/* "2-3/8", "10/8", "3": not brought to lowest terms.  */
static void
put_parts (br_text *t, const parts *p, br_dimension d, const br__settings *s)
{
  if (p->num == 0)
    br__text_printf (t, "%lld", (long long) p->whole);
  else if (p->whole == 0)
    br__text_printf (t, "%lld/%lld", (long long) p->num, (long long) p->den);
  else
    br__text_printf (t, "%lld-%lld/%lld", (long long) p->whole, (long long) p->num,
                     (long long) p->den);
  put_suffix (t, d, s);
}

/* "3 + 12/8": a whole beside a fraction that is not less than one.  */
static void
put_open (br_text *t, const parts *p, br_dimension d, const br__settings *s)
{
  parts whole = { p->whole, 0, 1 }, fraction = { 0, p->num, p->den };
  if (p->whole)
    {
      put_parts (t, &whole, d, s);
      br__text_puts (t, " + ");
    }
  put_parts (t, &fraction, d, s);
}

/* A chain of equal texts: each link is a step.  */
typedef struct chain
{
  br__worked_steps *list;
  br_text at;           /* the last text */
} chain;

/* X in the sheet's unit as small parts; 0 where it is not one for a pencil: below zero, large, or
   a decimal.  */
static int
take_parts (parts *p, chain *c, const br__value *x, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  int64_t n = 0, d = 1;
  const br_number *q;
  br_status status = br__in_sheet_unit (&z, x, s);
  int ok = status == BR_OK && (q = br_real_rational (&z)) != NULL
           && br_number_get_ratio (&n, &d, q) && n >= 0 && n < MOST && d < MOST;
  br_real_clear (&z);
  if (ok)
    status = br__shown (&t, x, s);
  ok = ok && status == BR_OK && !memchr (br__text_string (&t), '.', t.length);
  c->list->failed |= status == BR_NO_MEMORY || t.failed;
  br__text_clear (&t);
  p->whole = n / d;
  p->num = n % d;
  p->den = d;
  return ok;
}

static int64_t
gcd (int64_t a, int64_t b)
{
  while (b)
    {
      int64_t r = a % b;
      a = b;
      b = r;
    }
  return a;
}

static void
over (parts *p, int64_t den)
{
  p->num *= den / p->den;
  p->den = den;
}

static void
chain_to (chain *c, br_text *next)
{
  if (next->failed || c->at.failed)
    c->list->failed = 1;
  br__worked_steps_add (c->list, br__text_string (&c->at), "=", br__text_string (next));
  br__text_clear (&c->at);
  c->at = *next;
  memset (next, 0, sizeof *next);
}

/* The sum or difference of parts over one denominator, then carried and reduced.  */
static void
finish_sum (chain *c, parts *z, br_dimension d, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  if (z->num >= z->den)
    {
      put_open (&t, z, d, s);
      chain_to (c, &t);
      z->whole += z->num / z->den;
      z->num %= z->den;
    }
  put_parts (&t, z, d, s);
  chain_to (c, &t);
}

static void
put_pair (br_text *t, const parts *x, char sign, const parts *y, br_dimension d, const br__settings *s)
{
  put_parts (t, x, d, s);
  br__text_printf (t, " %c ", sign);
  put_parts (t, y, d, s);
}

static int
sum_by_hand (chain *c, br__op op, const br__value *x, const br__value *y, const br__settings *s)
{
  parts a, b, z;
  br_dimension d = x->dimension;
  br_text t = BR_TEXT_ZERO;
  char sign = op == BR__OP_ADD ? '+' : '-';

  if (!take_parts (&a, c, x, s) || !take_parts (&b, c, y, s))
    return 0;
  int64_t den = a.den / gcd (a.den, b.den) * b.den;
  if (den >= MOST || (a.num == 0 && b.num == 0))
    return 0;
  if (op == BR__OP_SUB && a.whole * den + a.num * (den / a.den) < b.whole * den + b.num * (den / b.den))
    return 0;
  if (a.num)
    over (&a, den);
  if (b.num)
    over (&b, den);
  put_pair (&t, &a, sign, &b, d, s);
  chain_to (c, &t);
  a.den = b.den = z.den = den;
  if (op == BR__OP_ADD)
    {
      z.whole = a.whole + b.whole;
      z.num = a.num + b.num;
      finish_sum (c, &z, d, s);
      return 1;
    }
  if (a.num < b.num)
    {
      a.whole--;
      a.num += den;
      put_open (&t, &a, d, s);
      br__text_puts (&t, " - ");
      put_parts (&t, &b, d, s);
      chain_to (c, &t);
    }
  z.whole = a.whole - b.whole;
  z.num = a.num - b.num;
  finish_sum (c, &z, d, s);
  return 1;
}

static void
put_improper (br_text *t, const parts *p, br_dimension d, const br__settings *s)
{
  parts improper = { 0, p->whole * p->den + p->num, p->den };
  if (p->num == 0)
    improper.whole = p->whole, improper.num = 0;
  put_parts (t, &improper, d, s);
}

static int
product_by_hand (chain *c, br__op op, const br__value *x, const br__value *y, br_dimension d,
                 const br__settings *s)
{
  parts a, b;
  br_text t = BR_TEXT_ZERO;

  if (!take_parts (&a, c, x, s) || !take_parts (&b, c, y, s) || (a.num == 0 && b.num == 0 && op == BR__OP_MUL))
    return 0;
  int64_t p = a.whole * a.den + a.num, q = b.whole * b.den + b.num;
  br_dimension of_x = x->dimension, of_y = y->dimension;
  int ratio = op == BR__OP_DIV && of_x == of_y && d == BR_PLAIN && of_y != BR_PLAIN;
  if (op == BR__OP_DIV && (q == 0 || (of_y != BR_PLAIN && !ratio) || (a.num == 0 && b.num == 0 && p % q == 0)))
    return 0;
  if (ratio)                    /* how often one goes into the other is the same without the unit */
    {
      of_x = of_y = BR_PLAIN;
      put_parts (&t, &a, of_x, s);
      br__text_puts (&t, " / ");
      put_parts (&t, &b, of_y, s);
      chain_to (c, &t);
    }
  put_improper (&t, &a, of_x, s);
  br__text_puts (&t, op == BR__OP_MUL ? " * " : " / ");
  put_improper (&t, &b, of_y, s);
  chain_to (c, &t);
  parts z = { 0, op == BR__OP_MUL ? p * q : p * b.den, op == BR__OP_MUL ? a.den * b.den : a.den * q };
  if (op == BR__OP_DIV && b.num)
    {
      put_improper (&t, &a, of_x, s);
      br__text_printf (&t, " * %lld/%lld", (long long) b.den, (long long) q);
      chain_to (c, &t);
    }
  if (z.den == 1)
    return 1;
  put_parts (&t, &z, d, s);
  chain_to (c, &t);
  return 1;
}

int
br__explain_has_unit (br_dimension dimension)
{
  return dimension == BR_ANGLE || (dimension >= BR_PLAIN && dimension <= BR_VOLUME);
}

void
br__by_hand (br__worked_steps *l, const char *left, const char *end, br__op op, const br__value *x,
             const br__value *y, br_dimension dimension, const br__settings *s)
{
  chain c = { l, BR_TEXT_ZERO };
  br_text last = BR_TEXT_ZERO;
  br__settings plain = *s;      /* borrowed: no feet while fractions are worked on */
  plain.feet = 0;

  br__text_puts (&c.at, left);
  /* Feet have no fractions of their own on paper.  */
  if (strcmp (s->unit->name, "ft") != 0 && br__explain_has_unit (dimension) && br__explain_has_unit (x->dimension)
      && br__explain_has_unit (y->dimension))
    {
      if (op == BR__OP_ADD || op == BR__OP_SUB)
        sum_by_hand (&c, op, x, y, &plain);
      else if (op == BR__OP_MUL || op == BR__OP_DIV)
        product_by_hand (&c, op, x, y, dimension, &plain);
    }
  br__text_puts (&last, end);
  chain_to (&c, &last);
  br__text_clear (&c.at);
}
