/* SPDX-License-Identifier: LGPL-3.0-or-later
   trade.c - calls of the functions of the trade: arguments that are known go to the function itself, others
   through its formula.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "formula/operate.h"

#define MOST_BOUND 16           /* parameters and steps of a formula */

/* Values of names inside a formula.  */
typedef struct bound
{
  const char *name;
  size_t length;
  br__value value;
} bound;

typedef struct bounds
{
  bound rows[MOST_BOUND];
  size_t count;
} bounds;

static br_status
look_up (const br__value **value, void *user, const br__tree *t, const br__node *n, br_error *error)
{
  const bounds *b = user;
  for (size_t i = 0; i < b->count; i++)
    if (b->rows[i].length == n->word_length && memcmp (b->rows[i].name, t->text + n->word, n->word_length) == 0)
      {
        *value = &b->rows[i].value;
        return BR_OK;
      }
  return br__fail (error, BR_DOMAIN, 0, 0, "no such name");
}

/* Brings the lengths of a call to one kind: lengths where any is one, else plain.  */
static br_status
unify_arguments (br__work *w, br__value *args, unsigned count, const br__function *self, br_dimension *kind)
{
  const char *kinds = self->shop->kinds;
  *kind = BR_PLAIN;
  for (unsigned i = 0; i < count; i++)
    if (kinds[i] == 'L' && args[i].dimension == BR_LENGTH)
      *kind = BR_LENGTH;
  for (unsigned i = 0; i < count; i++)
    {
      br_dimension d = args[i].dimension;
      if (kinds[i] == 'L' && d != BR_PLAIN && d != BR_LENGTH)
        return br__fail (w->error, BR_DOMAIN, i, 0, "a length should stand here, not %s", br__dimension_words (d));
      if (kinds[i] == 'A' && d != BR_PLAIN && d != BR_ANGLE)
        return br__fail (w->error, BR_DOMAIN, i, 0, "`%s` takes degrees here, not %s", br__function_name (self),
                         br__dimension_words (d));
      if (kinds[i] == 'L' && *kind == BR_LENGTH && d == BR_PLAIN)
        {
          br_status status = br__work_to_length (w, &args[i]);
          if (status != BR_OK)
            return br__fail_plain (w->error, status, i, 0);
        }
    }
  return BR_OK;
}

/* One step of a formula, "front = front_dia / 2" or the last expression, becomes the next row of B.  */
static br_status
take_step (br__work *w, bounds *b, const char *text, size_t length)
{
  br__tree tree = BR__TREE_ZERO;
  br__lexer l, ahead;
  br__names names = { b, look_up };
  bound *row = &b->rows[b->count];
  br_status status = b->count < MOST_BOUND ? br__lex_start (&l, text, length, w->error) : BR_TOO_BIG;
  if (status != BR_OK)
    return status;
  ahead = l;
  if (l.token.type == BR__NAME)
    status = br__lex_next (&ahead, w->error);
  if (status == BR_OK && l.token.type == BR__NAME && br__lex_is_sign (&ahead, '='))
    {
      row->name = text + l.token.offset;
      row->length = l.token.length;
      status = br__lex_next (&ahead, w->error);
      l = ahead;
    }
  if (status == BR_OK)
    status = br__parse (&tree, &l, w->error);
  if (status == BR_OK)
    status = br__work_tree (w, &row->value, &tree, &names);
  b->count += status == BR_OK;
  br__tree_clear (&tree);
  return status;
}

/* X has to be what the letter NEED of a row says.  */
static br_status
put_need (br__work *w, br__value *x, char need)
{
  br__value turn = { .dimension = BR_ANGLE };
  br_status status = BR_OK;
  if (need == '*' || !x->slot)
    return BR_OK;
  if (need == 'a')
    {
      /* Up to a whole turn: less is not asked for, so it stands before X itself.  */
      status = br_number_set_int (&turn.real.rational, 360);
      if (status == BR_OK)
        status = br__operate (w, &turn, BR__CODE_SUB, &turn, x);
      if (status == BR_OK)
        status = br__operate (w, &turn, BR__CODE_NOT_BELOW, &turn, NULL);
      br__value_clear (&turn);
    }
  return status == BR_OK ? br__operate (w, x, need == '0' ? BR__CODE_NOT_BELOW : BR__CODE_OVER_ZERO, x, NULL)
                         : status;
}

/* The value by the formula, which has no such call in it: this goes no deeper.  */
static br_status
by_formula (br__work *w, br__value *z, br__value *args, unsigned count, const br__shop_function *shop)
{
  bounds b;
  const char *at = shop->formula;
  br_status status = BR_OK;
  memset (&b, 0, sizeof b);
  for (unsigned i = 0; i < count && status == BR_OK; i++)
    {
      bound *row = &b.rows[b.count++];
      row->name = br__shop_parameter (&row->length, shop, i);
      status = put_need (w, &args[i], shop->needs[i]);
      if (status == BR_OK)
        status = br__value_set (&row->value, &args[i]);
      /* Degrees are a number in a formula.  */
      if (shop->kinds[i] == 'A')
        row->value.dimension = BR_PLAIN;
    }
  if (status == BR_OK && *shop->limit)
    {
      status = take_step (w, &b, shop->limit, strlen (shop->limit));
      if (status == BR_OK)
        status = put_need (w, &b.rows[--b.count].value, '+');
      br__value_clear (&b.rows[b.count].value);
    }
  while (status == BR_OK && *at)
    {
      size_t length = strcspn (at, ";");
      status = take_step (w, &b, at, length);
      at += length + (at[length] == ';');
    }
  if (status == BR_OK)
    status = br__value_set (z, &b.rows[b.count - 1].value);
  for (size_t i = 0; i < MOST_BOUND; i++)
    br__value_clear (&b.rows[i].value);
  return status;
}

br_status
br__call_shop (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  const br__shop_function *shop = self->shop;
  const br_real *reals[BR__SHOP_MAX_ARGS];
  br_dimension kind;
  int varies = 0;
  br_status status = BR_OK;

  /* Drills are made in inches, so a plain number of a metric sheet becomes a length first.  */
  if (!shop->formula && args[0].dimension == BR_PLAIN && strcmp (w->settings->unit->name, "in") != 0)
    {
      status = br__work_to_length (w, &args[0]);
      if (status != BR_OK)
        return br__fail_plain (w->error, status, 0, 0);
    }
  status = unify_arguments (w, args, count, self, &kind);
  for (unsigned i = 0; i < count; i++)
    {
      varies |= args[i].slot != 0;
      reals[i] = &args[i].real;
    }
  if (status == BR_OK && !varies)
    status = shop->call (&z->real, reals, w->settings->bits, w->error);
  else if (status == BR_OK)
    {
      status = shop->formula ? by_formula (w, z, args, count, shop)
                             : br__operate (w, z, BR__CODE_DRILL, &args[0], NULL);
      if (status != BR_OK && w->error)
        w->error->offset = BR__WHOLE_CALL;
    }
  char result = shop->kinds[strcspn (shop->kinds, ":") + 1];
  z->dimension = result == 'L' ? kind : result == 'A' ? BR_ANGLE : BR_PLAIN;
  return status;
}
