/* SPDX-License-Identifier: LGPL-3.0-or-later
   must.c - the statement `must have NAME from LOW to HIGH`: the requirements of a task.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "report/review.h"

/* The sides of a range; a plain number is one in the sheet's unit where NAME's value has one.  */
typedef struct bounds
{
  br__value low, high;
  int given;
} bounds;

static br_status
read_side (br__value *v, br__run *run)
{
  br__tree tree = BR__TREE_ZERO;
  br_status status = br__read_fixed (v, &tree, run);
  br__tree_clear (&tree);
  return status;
}

static br_status
read_range (bounds *r, br__run *run)
{
  r->given = br__take_word (run, "from");
  if (!r->given)
    return run->lex.status;
  read_side (&r->low, run);
  br__need_word (run, "to", "`to`");
  return read_side (&r->high, run);
}

/* Gives V, if it is a plain number, the dimension of the length OTHER.  */
static br_status
fit_unit (br__value *v, const br__value *other, const br__settings *s)
{
  br_real factor = BR_REAL_ZERO;
  if (v->dimension != BR_PLAIN || other->dimension == BR_PLAIN)
    return BR_OK;
  br_status status = br__settings_factor (&factor.rational, s, other->dimension);
  if (status == BR_OK)
    status = br_real_mul (&v->real, &v->real, &factor);
  br_real_clear (&factor);
  v->dimension = other->dimension;
  return status;
}

/* "pass", "fail" or "undecided".  */
static br_status
judge (const char **state, bounds *r, br__value *value, br__run *run)
{
  br__settings *s = &run->sheet->settings;
  br__value *sides[] = { &r->low, &r->high };
  *state = "pass";
  for (int i = 0; i < 2 && r->given; i++)
    {
      int sign = 0;
      br_status status = fit_unit (sides[i], value, s);
      if (status == BR_OK)
        status = fit_unit (value, sides[i], s);
      if (status == BR_OK && sides[i]->dimension != value->dimension)
        {
          *state = "fail";
          continue;
        }
      if (status == BR_OK)
        status = br_real_cmp (&sign, &value->real, &sides[i]->real, s->bits);
      if (status == BR_UNDECIDED)
        *state = "undecided";
      else if (status != BR_OK)
        return status;
      else if (i ? sign > 0 : sign < 0)
        *state = "fail";
    }
  return BR_OK;
}

static br_status
put_side (br_record *r, const char *key, const bounds *range, const br__value *side, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  if (!range->given)
    {
      br__put_null (r, key);
      return BR_OK;
    }
  br_status status = br__shown (&t, side, s);
  br__put_from (r, key, &t);
  return status;
}

/* Parses NAME [from LOW to HIGH] from the current token on; if SAY, answers whether the design meets it.  */
static br_status
read_one (br__run *run, int say)
{
  bounds range = { .given = 0 };
  br__token name = run->lex.token;
  const char *state = "missing";
  br_text shown = BR_TEXT_ZERO;
  if (name.type != BR__NAME)
    return br__expected (run, "the name of a dimension");
  br_status status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = read_range (&range, run);
  if (status == BR_OK && run->lex.token.type != BR__END && !br__lex_is_sign (&run->lex, ','))
    {
      status = br__expected (run, range.given ? "a comma and another name" : "`from`, or a comma and another name");
      br__hint (run->error, "write `check %.*s`", br__clip (run->text + name.offset, run->end - name.offset, 80), run->text + name.offset);
    }
  if (status != BR_OK || !say)
    {
      br__value_clear (&range.low);
      br__value_clear (&range.high);
      return status;
    }
  br__entry *e = br__graph_find (run->sheet->graph, run->text + name.offset, name.length);
  const br__value *value = e ? br__entry_value (e) : NULL;
  br__value compared = BR__VALUE_ZERO;
  if (value)
    status = br__value_set (&compared, value);
  if (status == BR_OK && value)
    status = judge (&state, &range, &compared, run);
  else if (e && br__entry_definition (e))
    state = "waiting";
  if (status == BR_OK && value)
    status = br__shown (&shown, value, &run->sheet->settings);
  br_record *r = br__record_new ("need");
  br__put_bytes (r, "name", run->text + name.offset, name.length);
  br__put_text (r, "state", state);
  br__put_from (r, "shown", &shown);
  if (status == BR_OK)
    status = put_side (r, "low", &range, &range.low, &run->sheet->settings);
  if (status == BR_OK)
    status = put_side (r, "high", &range, &range.high, &run->sheet->settings);
  br__value_clear (&compared);
  br__value_clear (&range.low);
  br__value_clear (&range.high);
  return br__emit_or_fail (run, r, status, name.offset, name.length);
}

br_status
br__do_must (br__run *run)
{
  if (!br__lex_is_word (&run->lex, "have"))
    return br__expected (run, "`have`");
  br__lexer start = run->lex;
  br_status status = BR_OK;
  /* Parse the whole line first, so that there is no answer if it has an error.  */
  for (int say = 0; status == BR_OK && say < 2; say++)
    {
      run->lex = start;
      do
        {
          status = br__lex_next (&run->lex, run->error);
          if (status == BR_OK)
            status = read_one (run, say);
        }
      while (status == BR_OK && br__lex_is_sign (&run->lex, ','));
      if (status == BR_OK)
        status = br__end_of_line (run);
    }
  run->kept = status == BR_OK;
  return status;
}
