/* SPDX-License-Identifier: LGPL-3.0-or-later
   evaluate.c - evaluates trees with a stack of values, and checks dimensions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "measure/measure.h"
#include "formula/operate.h"

/* Powers of length past this are a slip, not a measure.  */
#define MOST_POWER 9

const char *
br__dimension_words (br_dimension dimension)
{
  switch (dimension)
    {
    case BR_PLAIN: return "a plain number";
    case BR_LENGTH: return "a length";
    case BR_AREA: return "an area";
    case BR_VOLUME: return "a volume";
    case BR_ANGLE: return "an angle";
    default: return dimension < 0 ? "one over a length" : "a higher power of a length";
    }
}

br_status
br__to_length (br__value *v, const br__settings *s)
{
  br__work w = { s, NULL, NULL, 0 };
  return br__work_to_length (&w, v);
}

br_status
br__unify (br__value *x, br__value *y, const br__settings *s, br_error *error)
{
  br__work w = { s, NULL, error, 0 };
  return br__work_unify (&w, x, y);
}

br_status
br__no_grid (br_error *error, size_t offset, size_t length)
{
  br__fail (error, BR_DOMAIN, offset, length, "the size of a grid square is not known yet");
  br__hint (error, "write `grid 1/4 in` first");
  return BR_DOMAIN;
}

static br_status
apply_number (br__value *z, const br__node *n, const br__settings *s, br_error *error)
{
  const br_unit *unit = n->number.unit;
  br_status status = br_real_set_number (&z->real, &n->number.value);
  if (status != BR_OK)
    return status;
  z->dimension = unit ? unit->dimension : BR_PLAIN;
  if (!unit || !br__unit_is_box (unit))
    return BR_OK;
  if (br_number_sign (&s->grid) <= 0)
    return br__no_grid (error, 0, 0);
  return br_number_mul (&z->real.rational, &z->real.rational, &s->grid);
}

/* The dimension of a product (SIGN 1) or quotient (SIGN -1).  */
static br_status
product_dimension (br_dimension *d, const br__value *x, const br__value *y, int sign, br_error *error)
{
  if (x->dimension == BR_ANGLE || y->dimension == BR_ANGLE)
    {
      if (sign < 0 && x->dimension == y->dimension)
        *d = BR_PLAIN;
      else if (x->dimension == BR_ANGLE && y->dimension == BR_PLAIN)
        *d = BR_ANGLE;
      else if (sign > 0 && x->dimension == BR_PLAIN)
        *d = BR_ANGLE;
      else
        return br__fail (error, BR_DOMAIN, 0, 0, "%s %s %s is no measure",
                         br__dimension_words (x->dimension), sign > 0 ? "times" : "divided by",
                         br__dimension_words (y->dimension));
      return BR_OK;
    }
  *d = x->dimension + sign * y->dimension;
  if (*d > MOST_POWER || *d < -MOST_POWER)
    return br__fail (error, BR_TOO_BIG, 0, 0, "a power of a length past %d", MOST_POWER);
  return BR_OK;
}

/* The dimension of a power of X, which is one of a length.  */
static br_status
power_dimension (br__work *w, br_dimension *dimension, const br__value *x, const br_number *exponent)
{
  int64_t n, d;
  if (!br_number_get_ratio (&n, &d, exponent) || n > MOST_POWER || n < -MOST_POWER)
    return br__fail (w->error, BR_TOO_BIG, 0, 0, "a power of a length past %d", MOST_POWER);
  int64_t power = x->dimension * n;
  if (power % d)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "this root of %s is no measure", br__dimension_words (x->dimension));
  if (power / d > MOST_POWER || power / d < -MOST_POWER)
    return br__fail (w->error, BR_TOO_BIG, 0, 0, "a power of a length past %d", MOST_POWER);
  *dimension = (br_dimension) (power / d);
  return BR_OK;
}

/* Why a power of a known X has no value.  */
static br_status
no_power (br__work *w, const br__value *x, const br_number *exponent)
{
  int64_t n, d;
  if (!x->slot && br_number_sign (exponent) < 0 && br_real_rational (&x->real)
      && br_number_sign (br_real_rational (&x->real)) == 0)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "division by zero (0 to a negative power)");
  if (br_number_get_ratio (&n, &d, exponent) && d <= 64)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "a negative number has no such root");
  return br__fail (w->error, BR_DOMAIN, 0, 0, "only roots up to the 64th are known");
}

static br_status
apply_power (br__work *w, br__value *z, const br__value *x, const br__value *y)
{
  const br_number *exponent = br_real_rational (&y->real);

  if (y->dimension != BR_PLAIN)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "an exponent is a plain number, not %s",
                     br__dimension_words (y->dimension));
  if (!y->slot && !exponent)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "an exponent must be a whole number or a fraction");
  if (x->dimension == BR_ANGLE)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "a power of an angle is no measure");
  z->dimension = BR_PLAIN;
  if (y->slot)
    {
      if (x->dimension != BR_PLAIN)
        return br__fail (w->error, BR_DOMAIN, 0, 0, "here the power changes, so %s to it is no one kind of measure",
                         br__dimension_words (x->dimension));
      return br__operate (w, z, BR__CODE_POWER_OF, x, y);
    }
  br_status status = x->dimension == BR_PLAIN ? BR_OK : power_dimension (w, &z->dimension, x, exponent);
  if (status == BR_OK)
    {
      status = br__operate_power (w, z, x, exponent);
      if (status == BR_DOMAIN)
        return no_power (w, x, exponent);
    }
  return status;
}

static br_status
apply_binary (br__work *w, br__value *z, const br__node *n, br__value *x, br__value *y)
{
  br_status status;
  if (n->op == BR__OP_ADD || n->op == BR__OP_SUB)
    {
      status = br__work_unify (w, x, y);
      if (status != BR_OK)
        return status;
      z->dimension = x->dimension;
      return br__operate (w, z, n->op == BR__OP_ADD ? BR__CODE_ADD : BR__CODE_SUB, x, y);
    }
  if (n->op == BR__OP_POW)
    return apply_power (w, z, x, y);
  if (n->unit && x->dimension != BR_PLAIN)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "a unit goes behind a plain number; this is %s already",
                     br__dimension_words (x->dimension));
  status = product_dimension (&z->dimension, x, y, n->op == BR__OP_MUL ? 1 : -1, w->error);
  if (status != BR_OK)
    return status;
  status = br__operate (w, z, n->op == BR__OP_MUL ? BR__CODE_MUL : BR__CODE_DIV, x, y);
  if (status == BR_DOMAIN)
    br__fail (w->error, BR_DOMAIN, 0, 0, "division by zero");
  return status;
}

br_status
br__work_apply (br__work *w, br__value *z, const br__node *n, br__value *args)
{
  switch (n->op)
    {
    case BR__OP_NUMBER:
      return apply_number (z, n, w->settings, w->error);
    case BR__OP_NEG:
      z->dimension = args[0].dimension;
      return br__operate (w, z, BR__CODE_NEG, &args[0], NULL);
    case BR__OP_CALL:
      if (!n->function->call)
        return br__call_shop (w, z, args, n->count, n->function);
      return n->function->call (w, z, args, n->count, n->function);
    case BR__OP_NAME:
      return BR_DOMAIN;         /* names are put in by the caller */
    default:
      return apply_binary (w, z, n, &args[0], &args[1]);
    }
}

br_status
br__apply (br__value *z, const br__node *n, br__value *args, const br__settings *s, br_error *error)
{
  br__work w = { s, NULL, error, 0 };
  return br__work_apply (&w, z, n, args);
}

/* Sets the message: what is not decided at node N with BITS bits.  */
static void
put_doubt (br_error *error, const br__node *n, unsigned bits)
{
  const char *question = n->op == BR__OP_DIV ? "whether the divisor is 0" : n->op == BR__OP_POW ? "whether this power has a value" : NULL;
  if (question)
    br__fail (error, BR_UNDECIDED, error->offset, 0, "%s is not certain at %u bits", question, bits);
  else if (n->op == BR__OP_CALL)
    br__fail (error, BR_UNDECIDED, error->offset, 0, "what `%s` gives here is not certain at %u bits", n->function->name, bits);
}

/* Moves an error that br__apply left at an operand, or nowhere, to its place in the line.  */
static void
place_error (br_error *error, br_status status, const br__tree *t, size_t index, unsigned bits)
{
  const br__node *n = &t->nodes[index];
  if (!error)
    return;
  if (error->status == BR_OK)
    br__fail_plain (error, status, 0, 0);
  if (status == BR_UNDECIDED && br__error_is_plain (error))
    put_doubt (error, n, bits);
  size_t where = n->offset, length = n->length;
  if (n->op == BR__OP_CALL && error->offset < n->count)
    {
      /* The operands end right before this node; walk back to the one that was meant.  */
      size_t child = index - 1;
      for (unsigned k = n->count - 1; k > error->offset; k--)
        child = t->nodes[child].first - 1;
      where = t->nodes[child].offset;
      length = t->nodes[child].length;
    }
  error->offset = t->base + where;
  error->length = length;
}

br_status
br__walk_tree (void *result, const br__domain *d, void *user, const br__tree *t, void *room, size_t places)
{
  char *stack = places > t->deepest ? room : br__alloc ((t->deepest + 1) * d->size);
  size_t depth = 0;
  br_status status = stack ? BR_OK : BR_NO_MEMORY;

  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      unsigned count = t->nodes[i].count;
      char *args = stack + (depth - count) * d->size, *made = stack + depth * d->size;
      memset (made, 0, d->size);
      status = d->take (user, made, args, t, &i);
      for (unsigned k = 0; k < count; k++)
        d->clear (args + k * d->size);
      memmove (args, made, d->size);
      depth = depth - count + 1;
    }
  if (status == BR_OK)
    memcpy (result, stack + --depth * d->size, d->size);
  while (depth > 0)
    d->clear (stack + --depth * d->size);
  if (stack != room)
    br__free (stack);
  return status;
}

/* Values by the names that they are looked up in.  */
typedef struct worker
{
  br__work *work;
  const br__names *names;
} worker;

static void
clear_value (void *value)
{
  br__value_clear (value);
}

static br_status
take_value (void *user, void *made, void *args, const br__tree *t, size_t *i)
{
  const worker *u = user;
  const br__node *n = &t->nodes[*i];
  br_error *error = u->work->error;
  br_status status;
  if (error)
    error->status = BR_OK, error->offset = BR__WHOLE_CALL, error->hint[0] = 0;
  if (n->op == BR__OP_NAME)
    {
      const br__value *found = NULL;
      status = u->names->lookup (&found, u->names->user, t, n, error);
      if (status == BR_OK)
        status = br__value_set (made, found);
    }
  else
    status = br__work_apply (u->work, made, n, args);
  if (status == BR_OK && u->work->settles)
    status = br_real_settle (&((br__value *) made)->real);
  if (status != BR_OK)
    place_error (error, status, t, *i, u->work->settings->bits);
  return status;
}

br_status
br__work_tree (br__work *w, br__value *z, const br__tree *t, const br__names *names)
{
  static const br__domain values = { sizeof (br__value), clear_value, take_value };
  worker user = { w, names };
  br__value room[9], made;
  if (w->error)
    w->error->status = BR_OK;
  br_status status = br__walk_tree (&made, &values, &user, t, room, sizeof room / sizeof room[0]);
  if (status == BR_OK)
    {
      br__value_clear (z);
      *z = made;
    }
  else if (w->error && w->error->status == BR_OK)
    br__fail_plain (w->error, status, t->base, 0);
  return status;
}

br_status
br__evaluate (br__value *z, const br__tree *t, const br__settings *s, const br__names *names, br_error *error)
{
  br__work w = { s, NULL, error, 0 };
  br_status status = br__work_tree (&w, z, t, names);
  if (status != BR_OK)
    return status;
  /* A short fraction it is already.  */
  status = br_real_settle (&z->real);
  if (status == BR_OK && t->count > 1 && br_real_question (&z->real, NULL))
    {
      /* If there is no proof for the whole, there may be proofs for its parts: evaluate again with these.  */
      w.settles = 1;
      return br__work_tree (&w, z, t, names);
    }
  return status == BR_OK ? BR_OK : br__fail_plain (error, status, t->base, t->length);
}

void
br__rounded_clear (br__rounded *r)
{
  br_number_clear (&r->value);
  br_number_clear (&r->below);
  br_number_clear (&r->above);
}

br_status
br__mark_from_value (br__mark *mark, const br__settings *s, const br__value *v, const br_unit *unit,
                     br_error *error)
{
  const br_number *q = br_real_rational (&v->real);
  if (!q)
    return br__fail (error, BR_DOMAIN, 0, 0, "a mark must be a whole number or a fraction");
  if (v->dimension != BR_PLAIN && v->dimension != BR_LENGTH)
    return br__fail (error, BR_DOMAIN, 0, 0, "a mark is a length or a plain number, not %s",
                     br__dimension_words (v->dimension));
  if (br_number_sign (q) <= 0)
    {
      br__fail (error, BR_DOMAIN, 0, 0, "a mark must be over zero");
      br__hint (error, "write `1/8` or `1/16`, say");
      return BR_DOMAIN;
    }
  if (v->dimension == BR_LENGTH && !unit)
    unit = s->unit;
  br_status status = br__mark_from (mark, s, q, v->dimension == BR_LENGTH ? unit : NULL);
  return status == BR_OK ? BR_OK : br__fail_plain (error, status, 0, 0);
}

br_status
br__mark_size (br_number *size, const br__mark *mark, br__value *x, const br__settings *s)
{
  br_status status = BR_OK;
  if (mark->length && x->dimension == BR_PLAIN)
    status = br__to_length (x, s);
  if (status != BR_OK)
    return status;
  if (x->dimension == BR_PLAIN || mark->length)
    return br_number_set (size, &mark->size);
  br_number factor = BR_NUMBER_ZERO;
  status = br__settings_factor (&factor, s, BR_LENGTH);
  if (status == BR_OK)
    status = br_number_mul (size, &mark->size, &factor);
  br_number_clear (&factor);
  return status;
}

br_status
br__round_sides (br__rounded *r, const br_real *x, const br_number *size, const br__settings *s)
{
  br_status status = br_real_round (&r->below, NULL, x, size, BR_DOWN, s->ties, s->bits);
  if (status == BR_OK)
    status = br_real_round (&r->above, NULL, x, size, BR_UP, s->ties, s->bits);
  r->sided = status == BR_OK;
  return status == BR_UNDECIDED ? BR_OK : status;
}

br_status
br__round_value (br__rounded *r, br__value *x, const br__mark *mark, br_direction direction,
                 const br__settings *s, br_error *error)
{
  br_number size = BR_NUMBER_ZERO;
  br__rounded made = BR__ROUNDED_ZERO;
  br_status status;

  if (x->dimension != BR_PLAIN && x->dimension != BR_LENGTH)
    return br__fail (error, BR_DOMAIN, 0, 0, "%s has no mark on a ruler",
                     br__dimension_words (x->dimension));
  status = br__mark_size (&size, mark, x, s);
  if (status == BR_OK)
    status = br_real_round (&made.value, &made.tie, &x->real, &size, direction, s->ties, s->bits);
  if (status == BR_OK)
    status = br__round_sides (&made, &x->real, &size, s);
  made.dimension = x->dimension;
  br_number_clear (&size);
  if (status != BR_OK)
    {
      br__rounded_clear (&made);
      return br__fail_plain (error, status, 0, 0);
    }
  br__rounded_clear (r);
  *r = made;
  return BR_OK;
}
