/* SPDX-License-Identifier: LGPL-3.0-or-later
   program_call.c - cells of operations and of the functions of arithmetic and of the ruler, by the same
   rules for dimensions as the evaluator's.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/program.h"

/* An empty cell at the end, or NULL.  */
static br__instruction *
new_cell (br__program *t)
{
  if (!br__grow (&t->code, &t->room, t->count + 1, sizeof (br__instruction)))
    return NULL;
  memset (&t->code[t->count], 0, sizeof (br__instruction));
  return &t->code[t->count++];
}

/* The cell of X, made where X is a constant.  */
static br_status
cell_of (br__program *t, size_t *cell, const br__item *x)
{
  if (x->varies)
    {
      *cell = x->cell;
      return BR_OK;
    }
  br__instruction *c = new_cell (t);
  if (!c)
    return BR_NO_MEMORY;
  c->op = BR__CODE_CONSTANT;
  c->linear = 1;
  *cell = t->count - 1;
  return br_real_set (&c->constant, &x->value.real);
}

static int
stays_linear (br__opcode op, const br__instruction *x, const br__instruction *y)
{
  switch (op)
    {
    case BR__CODE_ADD: case BR__CODE_SUB:
      return x->linear && y->linear;
    case BR__CODE_MUL:
      return x->linear && y->linear && (x->op == BR__CODE_CONSTANT || y->op == BR__CODE_CONSTANT);
    case BR__CODE_DIV:
      return x->linear && y->op == BR__CODE_CONSTANT;
    case BR__CODE_NEG: case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW:
      return x->linear;
    default:
      return 0;
    }
}

br_status
br__program_add (br__program *t, br__item *z, br__opcode op, const br__item *x, const br__item *y,
              br_error *error)
{
  size_t left = 0, right = 0;
  br_status status = cell_of (t, &left, x);
  if (status == BR_OK && op == BR__CODE_CONSTANT)
    {
      z->cell = left;
      return BR_OK;
    }
  right = left;
  if (status == BR_OK && y)
    status = cell_of (t, &right, y);
  br__instruction *c = status == BR_OK ? new_cell (t) : NULL;
  if (!c)
    return br__fail_plain (error, status == BR_OK ? BR_NO_MEMORY : status, 0, 0);
  c->op = op;
  c->left = left;
  c->right = right;
  c->linear = stays_linear (op, &t->code[left], &t->code[right]);
  if (op == BR__CODE_ABS || op == BR__CODE_MAX || op == BR__CODE_MIN)
    t->smooth = 0;
  if (op == BR__CODE_MARK || op == BR__CODE_DRILL)
    t->smooth = 0, t->steps = 1;
  z->varies = 1;
  z->cell = t->count - 1;
  return BR_OK;
}

/* X OP Q for a number Q.  */
static br_status
with_number (br__program *t, br__item *z, br__opcode op, const br__item *x, const br_number *q, br_error *error)
{
  br__item factor = { BR__VALUE_ZERO, 0, 0 };
  br_status status = br_real_set_number (&factor.value.real, q);
  if (status == BR_OK)
    status = br__program_add (t, z, op, x, &factor, error);
  else
    br__fail_plain (error, status, 0, 0);
  br__item_clear (&factor);
  return status;
}

br_status
br__item_to_length (br__program *t, br__item *x, br_error *error)
{
  br_number factor = BR_NUMBER_ZERO, one = { 1, 0 };
  br_status status;
  if (!x->varies)
    {
      status = br__to_length (&x->value, t->settings);
      return status == BR_OK ? status : br__fail_plain (error, status, 0, 0);
    }
  status = br__settings_factor (&factor, t->settings, BR_LENGTH);
  if (status != BR_OK)
    br__fail_plain (error, status, 0, 0);
  else if (!br_number_equal (&factor, &one))
    status = with_number (t, x, BR__CODE_MUL, x, &factor, error);
  if (status == BR_OK)
    x->value.dimension = BR_LENGTH;
  br_number_clear (&factor);
  return status;
}

br_status
br__items_unify (br__program *t, br__item *x, br__item *y, br_error *error)
{
  br_dimension a = x->value.dimension, b = y->value.dimension;
  br__item *plain = a == BR_PLAIN ? x : b == BR_PLAIN ? y : NULL;
  br_dimension other = plain == x ? b : a;
  if (a == b)
    return BR_OK;
  if (plain && other == BR_LENGTH)
    return br__item_to_length (t, plain, error);
  if (plain && other == BR_ANGLE)
    {
      plain->value.dimension = BR_ANGLE;
      return BR_OK;
    }
  return br__fail (error, BR_DOMAIN, 0, 0, "%s and %s do not go together", br__dimension_words (a),
                   br__dimension_words (b));
}

br_status
br__program_power (br__program *t, br__item *z, const br__item *x, const br__item *y, br_error *error)
{
  const br_number *q = br_real_rational (&y->value.real);
  int64_t n, d;
  if (y->varies || y->value.dimension != BR_PLAIN || !q || !br_number_get_ratio (&n, &d, q) || d > 64
      || n > BR_MAX_DIGITS || n < -BR_MAX_DIGITS)
    {
      br__fail (error, BR_DOMAIN, 0, 0, "this exponent can not be followed: it has to be a plain number that stands still");
      return BR_DOMAIN;
    }
  br_dimension dimension = x->value.dimension;
  if (dimension == BR_ANGLE || dimension * n % d)
    return br__fail (error, BR_DOMAIN, 0, 0, "this power of %s is no measure",
                     br__dimension_words (dimension));
  br_status status = br__program_add (t, z, BR__CODE_POWER, x, NULL, error);
  if (status != BR_OK)
    return status;
  z->value.dimension = (br_dimension) (dimension * n / d);
  br__instruction *c = &t->code[t->count - 1];
  if (n == 1 && d == 1)
    c->linear = t->code[c->left].linear;
  status = br_number_set (&c->number, q);
  return status == BR_OK ? status : br__fail_plain (error, status, 0, 0);
}

static br_status
wrong_dimension (const br__node *n, const br__item *x, br_error *error)
{
  return br__fail (error, BR_DOMAIN, 0, 0, "`%s` does not take %s here", br__function_name (n->function),
                   br__dimension_words (x->value.dimension));
}

static br_status
call_circle (br__program *t, br__item *z, const br__node *n, br__item *args, br__opcode op, br_error *error)
{
  br_dimension d = args[0].value.dimension;
  if (d != BR_PLAIN && (d != BR_ANGLE || op == BR__CODE_ATAN))
    return wrong_dimension (n, &args[0], error);
  z->value.dimension = op == BR__CODE_ATAN ? BR_ANGLE : BR_PLAIN;
  return br__program_add (t, z, op, &args[0], NULL, error);
}

/* sum, mean, max, min: brought to one dimension, then one after the other.  */
static br_status
call_row (br__program *t, br__item *z, const br__node *n, br__item *args, br__opcode op, br_error *error)
{
  unsigned leader = 0;
  br_status status = BR_OK;
  for (unsigned i = 1; i < n->count; i++)
    if (args[leader].value.dimension == BR_PLAIN && args[i].value.dimension != BR_PLAIN)
      leader = i;
  for (unsigned i = 0; i < n->count && status == BR_OK; i++)
    if (i != leader)
      status = br__items_unify (t, &args[leader], &args[i], error);
  br__item sum = { BR__VALUE_ZERO, args[0].varies, args[0].cell };
  if (status == BR_OK)
    status = br__value_set (&sum.value, &args[0].value);
  for (unsigned i = 1; i < n->count && status == BR_OK; i++)
    status = br__program_add (t, &sum, op, &sum, &args[i], error);
  z->value.dimension = args[0].value.dimension;
  z->varies = 1;
  z->cell = sum.cell;
  if (status == BR_OK && br__function_name (n->function)[1] == 'e')
    {
      br_number count = { n->count, 0 };
      status = with_number (t, z, BR__CODE_DIV, z, &count, error);
    }
  br__item_clear (&sum);
  return status;
}

static br_status
call_scale (br__program *t, br__item *z, const br__node *n, br__item *args, br_error *error)
{
  const br_number *ratio = &t->settings->scale;
  if (n->count == 2)
    ratio = args[1].varies ? NULL : br_real_rational (&args[1].value.real);
  if (!ratio || br_number_sign (ratio) <= 0)
    return br__fail (error, BR_DOMAIN, 0, 0, "a scale has to be a fraction over zero that stands still");
  if (args[0].value.dimension != BR_PLAIN && args[0].value.dimension != BR_LENGTH)
    return wrong_dimension (n, &args[0], error);
  z->value.dimension = args[0].value.dimension;
  return with_number (t, z, br__function_name (n->function)[0] == 'f' ? BR__CODE_DIV : BR__CODE_MUL,
                      &args[0], ratio, error);
}

static br_status
call_boxes (br__program *t, br__item *z, const br__node *n, br__item *args, br_error *error)
{
  br_status status = BR_OK;
  if (br_number_sign (&t->settings->grid) <= 0)
    return br__no_grid (error, 0, 0);
  if (args[0].value.dimension == BR_PLAIN)
    status = br__item_to_length (t, &args[0], error);
  if (status != BR_OK)
    return status;
  if (args[0].value.dimension != BR_LENGTH)
    return wrong_dimension (n, &args[0], error);
  z->value.dimension = BR_PLAIN;
  return with_number (t, z, BR__CODE_DIV, &args[0], &t->settings->grid, error);
}

/* nearest, up, down.  */
static br_status
call_mark (br__program *t, br__item *z, const br__node *n, br__item *args, br_error *error)
{
  char first = br__function_name (n->function)[0];
  br__mark mark = BR__MARK_ZERO;
  br_number size = BR_NUMBER_ZERO;
  br__value x = { BR_REAL_ZERO, args[0].value.dimension };
  br_status status;
  if (x.dimension != BR_PLAIN && x.dimension != BR_LENGTH)
    return wrong_dimension (n, &args[0], error);
  if (n->count == 2 && args[1].varies)
    return br__fail (error, BR_DOMAIN, 0, 0, "a mark has to stand still");
  status = n->count == 2 ? br__mark_from_value (&mark, t->settings, &args[1].value, NULL, error)
                         : br__settings_mark (&mark, t->settings);
  if (status == BR_OK)
    status = br__mark_size (&size, &mark, &x, t->settings);
  if (status == BR_OK && x.dimension != args[0].value.dimension)
    status = br__item_to_length (t, &args[0], error);
  if (status == BR_OK)
    status = br__program_add (t, z, BR__CODE_MARK, &args[0], NULL, error);
  if (status == BR_OK)
    {
      br__instruction *c = &t->code[t->count - 1];
      c->direction = first == 'u' ? BR_UP : first == 'd' ? BR_DOWN : BR_NEAREST;
      c->number = size;
      size = (br_number) BR_NUMBER_ZERO;
      z->value.dimension = x.dimension;
    }
  br__value_clear (&x);
  br_number_clear (&size);
  br_number_clear (&mark.size);
  return status;
}

static br_status
call_drill (br__program *t, br__item *z, const br__node *n, br__item *args, br_error *error)
{
  br_status status = BR_OK;
  if (args[0].value.dimension == BR_PLAIN && strcmp (t->settings->unit->name, "in") != 0)
    status = br__item_to_length (t, &args[0], error);
  if (status != BR_OK)
    return status;
  if (args[0].value.dimension != BR_PLAIN && args[0].value.dimension != BR_LENGTH)
    return wrong_dimension (n, &args[0], error);
  z->value.dimension = args[0].value.dimension;
  return br__program_add (t, z, BR__CODE_DRILL, &args[0], NULL, error);
}

static br_status
call_root (br__program *t, br__item *z, br__item *args, br_error *error)
{
  br__item half = { BR__VALUE_ZERO, 0, 0 };
  br_status status = br_number_set_ratio (&half.value.real.rational, 1, 2);
  if (status == BR_OK)
    status = br__program_power (t, z, &args[0], &half, error);
  br__item_clear (&half);
  return status;
}

br_status
br__program_call (br__program *t, br__item *z, const br__node *n, br__item *args, br_error *error)
{
  static const struct { const char *name; br__opcode op; } rows[] =
  {
    { "sum", BR__CODE_ADD }, { "mean", BR__CODE_ADD }, { "max", BR__CODE_MAX }, { "min", BR__CODE_MIN },
    { "sin", BR__CODE_SIN }, { "cos", BR__CODE_COS }, { "tan", BR__CODE_TAN }, { "atan", BR__CODE_ATAN },
    { "abs", BR__CODE_ABS }, { "sqrt", BR__CODE_POWER }, { "boxes", BR__CODE_DIV },
    { "full", BR__CODE_MUL }, { "drawn", BR__CODE_MUL }, { "drill", BR__CODE_DRILL },
    { "nearest", BR__CODE_MARK }, { "up", BR__CODE_MARK }, { "down", BR__CODE_MARK }
  };
  const char *name = br__function_name (n->function);
  size_t i = 0;
  while (i < sizeof rows / sizeof rows[0] && strcmp (rows[i].name, name) != 0)
    i++;
  if (i == sizeof rows / sizeof rows[0] && br__function_find (name, strlen (name)) != n->function)
    return br__fail (error, BR_DOMAIN, 0, 0, "what shapes measure can not be followed here");
  if (i == sizeof rows / sizeof rows[0])
    return br__fail (error, BR_DOMAIN, 0, 0, "`%s` can not be followed here", name);
  br__opcode op = rows[i].op;
  switch (op)
    {
    case BR__CODE_ADD: case BR__CODE_MAX: case BR__CODE_MIN: return call_row (t, z, n, args, op, error);
    case BR__CODE_POWER: return call_root (t, z, args, error);
    case BR__CODE_DIV: return call_boxes (t, z, n, args, error);
    case BR__CODE_MUL: return call_scale (t, z, n, args, error);
    case BR__CODE_DRILL: return call_drill (t, z, n, args, error);
    case BR__CODE_MARK: return call_mark (t, z, n, args, error);
    case BR__CODE_ABS:
      z->value.dimension = args[0].value.dimension;
      return br__program_add (t, z, op, &args[0], NULL, error);
    default: return call_circle (t, z, n, args, op, error);
    }
}
