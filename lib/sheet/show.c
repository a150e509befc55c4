/* SPDX-License-Identifier: LGPL-3.0-or-later
   show.c - a value as fields of a record: exact, decimal, in shop notation, on the ruler.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>
#include <string.h>

#include "exact/status.h"
#include "measure/measure.h"
#include "sheet/sheet.h"

/* Significant digits of every decimal that is shown.  */
#define DIGITS 12

static br_status
lookup (const br__value **value, void *user, const br__tree *tree, const br__node *node,
        br_error *error)
{
  return br__graph_lookup (value, user, tree, node, error);
}

br_status
br__value_of (br__value *v, br__run *run, const br__tree *tree)
{
  br__names names = { run->sheet->graph, lookup };
  return br__evaluate (v, tree, &run->sheet->settings, &names, run->error);
}

br_status
br__value_of_length (br__value *v, br__run *run, const br__tree *tree)
{
  br_status status = br__value_of (v, run, tree);
  if (status == BR_OK && v->dimension == BR_PLAIN)
    status = br__to_length (v, &run->sheet->settings);
  if (status == BR_OK && v->dimension != BR_LENGTH)
    status = br__fail (run->error, BR_DOMAIN, tree->base, tree->length, "a length should stand here, not %s",
                       br__dimension_words (v->dimension));
  return status;
}

void
br__hint_number (br__run *run, const br__value *v)
{
  br_text t = BR_TEXT_ZERO;
  if (br_real_rational (&v->real) && (v->dimension == BR_PLAIN || v->dimension == BR_LENGTH)
      && br__shown (&t, v, &run->sheet->settings) == BR_OK)
    br__hint (run->error, "write the number itself: %.*s", BR__CLIP (br__text_string (&t), 80));
  br__text_clear (&t);
}

static br_status
refuse_name (br__run *run, const br__tree *tree, const br__node *node)
{
  br__value v = BR__VALUE_ZERO;
  br__names names = { run->sheet->graph, lookup };
  br_status status = br__fail (run->error, BR_DOMAIN, tree->base + node->word, node->word_length,
                               "a number should stand here, and not a name, which could change later");
  if (br__evaluate (&v, tree, &run->sheet->settings, &names, NULL) == BR_OK)
    br__hint_number (run, &v);
  br__value_clear (&v);
  return status;
}

br_status
br__read_fixed (br__value *v, br__tree *tree, br__run *run)
{
  br_status status = br__parse (tree, &run->lex, run->error);
  for (size_t i = 0; i < tree->count && status == BR_OK; i++)
    if (tree->nodes[i].op == BR__OP_NAME)
      status = refuse_name (run, tree, &tree->nodes[i]);
  if (status == BR_OK)
    status = br__value_of (v, run, tree);
  return br__lex_fail (&run->lex, status);
}

br_status
br__in_sheet_unit (br_real *z, const br__value *v, const br__settings *s)
{
  br_real factor = BR_REAL_ZERO;
  br_status status = br__settings_factor (&factor.rational, s, v->dimension);
  if (status == BR_OK)
    status = br_real_div (z, &v->real, &factor, s->bits);
  br_real_clear (&factor);
  return status;
}

/* Z, which is not told apart from QUESTION: its certain digits, all that DIGITS promise, the zeros at the end too.  */
static br_status
put_certain_digits (br_text *t, const br_real *z, const br_number *question, const br__settings *s)
{
  const size_t start = t->length;
  size_t digits = 0;
  int begun = br_number_sign (question) == 0;
  br_status status = br__put_real_decimal (t, NULL, z, DIGITS, s->bits);

  if (status == BR_UNDECIDED)
    {
      br__put_decimal (t, question, DIGITS);
      status = BR_OK;
    }
  for (size_t i = start; i < t->length; i++)
    {
      char c = t->bytes[i];
      begun |= c >= '1' && c <= '9';
      digits += begun && c >= '0' && c <= '9';
    }
  if (digits < DIGITS && t->length > start && !memchr (t->bytes + start, '.', t->length - start))
    br__text_putc (t, '.');
  for (; digits < DIGITS; digits++)
    br__text_putc (t, '0');
  return status;
}

/* The question that is left of Z, in words.  */
static void
put_question (br_text *t, const br_real *z, const br__settings *s)
{
  br_style style = br__settings_style (s);
  int64_t bits = 0;
  br__text_puts (t, ", not told apart from ");
  br__put_measure (t, br_real_question (z, &bits), BR_PLAIN, &style);
  if (bits == INT64_MAX)
    br__text_puts (t, ": no proof is in reach");
  else if (bits > 0)
    br__text_printf (t, ": a proof takes %" PRId64 " bits, past the limit of 1,000,000", bits);
}

/* Writes V; if ASKS, also the fraction that an undecided V may be equal to.  */
static br_status
shown_as (br_text *t, const br__value *v, const br__settings *s, int asks)
{
  const br_number *q = br_real_rational (&v->real);
  if (q)
    {
      br_style style = br__settings_style (s);
      br__put_measure (t, q, v->dimension, &style);
      return t->failed ? BR_NO_MEMORY : BR_OK;
    }
  br_real z = BR_REAL_ZERO;
  br_status status = br__in_sheet_unit (&z, v, s);
  const br_number *question = br_real_question (&z, NULL);
  if (status == BR_OK)
    status = question ? put_certain_digits (t, &z, question, s) : br__put_real_decimal (t, NULL, &z, DIGITS, s->bits);
  if (status == BR_OK && v->dimension != BR_PLAIN)
    {
      br__text_putc (t, ' ');
      br__put_unit_name (t, s, v->dimension);
    }
  if (status == BR_OK && question && asks)
    put_question (t, &z, s);
  br_real_clear (&z);
  return status;
}

br_status
br__shown (br_text *t, const br__value *v, const br__settings *s)
{
  return shown_as (t, v, s, 1);
}

br_status
br__shown_about (br_text *t, const br__value *v, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  if (br_real_rational (&v->real))
    return br__shown (t, v, s);
  br__text_puts (t, "≈ ");
  const size_t start = t->length;
  br_status status = br__in_sheet_unit (&z, v, s);
  if (status == BR_OK)
    status = br_real_question (&z, NULL) ? BR_UNDECIDED : br__put_real_decimal (t, NULL, &z, 6, s->bits);
  if (status == BR_OK && v->dimension != BR_PLAIN)
    {
      br__text_putc (t, ' ');
      br__put_unit_name (t, s, v->dimension);
    }
  br_real_clear (&z);
  if (status != BR_UNDECIDED)
    return t->failed ? BR_NO_MEMORY : status;
  t->length = start;
  return br__shown (t, v, s);
}

br_status
br__shown_digits (br_text *t, const br__value *v, const br__settings *s)
{
  return shown_as (t, v, s, 0);
}

br_status
br__fail_value (br_error *error, br_status status, size_t offset, size_t length, const br__value *v, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  if (status == BR_UNDECIDED && br_real_question (&v->real, NULL) && br__shown (&t, v, s) == BR_OK && !t.failed)
    br__fail (error, status, offset, length, "not certain at %u bits: %s", s->bits, br__text_string (&t));
  else
    br__fail_plain (error, status, offset, length);
  br__text_clear (&t);
  return status;
}

/* The fields KEY (a decimal, null where it is not certain) and, if WHOLE_KEY is given, whether it is the whole
   value.  */
static br_status
put_decimal (br_record *r, const char *key, const char *whole_key, const br_real *z,
             const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  int whole = 0;
  br_status status = br__put_real_decimal (&t, &whole, z, DIGITS, s->bits);
  if (status == BR_OK)
    br__put_from (r, key, &t);
  else if (status == BR_UNDECIDED)
    {
      br__put_null (r, key);
      status = BR_OK;
    }
  if (status == BR_OK && whole_key)
    br__put_truth (r, whole_key, whole);
  br__text_clear (&t);
  return status;
}

void
br__put_expression (br_record *r, const br__tree *tree)
{
  br_text t = BR_TEXT_ZERO;
  br__put_tree (&t, tree);
  br__put_from (r, "expression", &t);
  br__text_clear (&t);
}

/* exact decimal decimal_exact unit */
static br_status
put_amount (br_record *r, const br__value *v, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = br__in_sheet_unit (&z, v, s);

  if (status == BR_OK)
    {
      br__put_exact (r, "exact", br_real_rational (&z));
      status = put_decimal (r, "decimal", "decimal_exact", &z, s);
    }
  if (status == BR_OK)
    {
      br__put_unit_name (&t, s, v->dimension);
      br__put_from (r, "unit", &t);
    }
  br__text_clear (&t);
  br_real_clear (&z);
  return status;
}

static br_status
put_shown (br_record *r, const br__value *v, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  br_status status = br__shown (&t, v, s);

  if (status == BR_OK)
    br__put_from (r, "shown", &t);
  br__text_clear (&t);
  return status;
}

br_status
br__put_value (br_record *r, const br__value *v, const br__settings *s)
{
  br_status status = put_amount (r, v, s);
  return status == BR_OK ? put_shown (r, v, s) : status;
}

void
br__put_mark_text (br_text *t, const br_number *value, br_dimension dimension,
                   const br__mark *mark, const br__settings *s)
{
  br_style style = br__settings_style (s);
  if (mark->unit)
    style.unit = mark->unit;
  br__put_measure (t, value, dimension, &style);
}

br_status
br__put_error (br_record *r, const br__value *v, const br_number *mark, const br__settings *s)
{
  br__value error = BR__VALUE_ZERO;
  br_real z = BR_REAL_ZERO;
  br_status status = br_real_set_number (&error.real, mark);

  error.dimension = v->dimension;
  if (status == BR_OK)
    status = br_real_sub (&error.real, &error.real, &v->real);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &error, s);
  if (status == BR_OK)
    {
      br__put_exact (r, "error", br_real_rational (&z));
      status = put_decimal (r, "error_decimal", NULL, &z, s);
    }
  br__value_clear (&error);
  br_real_clear (&z);
  return status;
}

static void
put_no_mark (br_record *r)
{
  br__put_null (r, "mark");
  br__put_null (r, "error");
  br__put_null (r, "error_decimal");
}

/* The mark on the ruler of S; its error is in the unit of SHEET.  */
static br_status
put_mark (br_record *r, const br__value *v, const br__settings *s, const br__settings *sheet)
{
  br__mark mark = BR__MARK_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br__value x = BR__VALUE_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;

  if (v->dimension != BR_PLAIN && v->dimension != BR_LENGTH)
    {
      put_no_mark (r);
      return BR_OK;
    }
  status = br__settings_mark (&mark, s);
  if (status == BR_OK)
    status = br__value_set (&x, v);
  if (status == BR_OK)
    status = br__round_value (&rounded, &x, &mark, BR_NEAREST, s, NULL);
  if (status == BR_OK)
    {
      br__put_mark_text (&t, &rounded.value, x.dimension, &mark, s);
      br__put_from (r, "mark", &t);
      status = br__put_error (r, &x, &rounded.value, sheet);
    }
  if (status == BR_OK)
    br__put_truth (r, "tie", rounded.tie);
  else if (status == BR_UNDECIDED)
    {
      put_no_mark (r);
      status = BR_OK;
    }
  br__value_clear (&x);
  br__rounded_clear (&rounded);
  br_number_clear (&mark.size);
  return status;
}

br_status
br__put_on_ruler (br_record *r, const br__value *v, const br__settings *s)
{
  return put_mark (r, v, s, s);
}

/* The field `shown` in board feet or per cent, which are no powers of a length.  */
static br_status
put_in_measure (br_record *r, const br__value *v, const br_unit *unit, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_number size = BR_NUMBER_ZERO, one = { 1, 0 };
  br_status status = br_number_set_ratio (&size, unit->num, unit->den);
  if (status == BR_OK)
    status = br_real_set_number (&z, &size);
  if (status == BR_OK)
    status = br_real_div (&z, &v->real, &z, s->bits);
  const br_number *q = br_real_rational (&z);
  if (status == BR_OK && q && unit->dimension != BR_PLAIN)
    br__put_mixed (&t, q);
  else if (status == BR_OK)
    status = br__put_real_decimal (&t, NULL, &z, DIGITS, s->bits);
  br__text_printf (&t, " %s", unit->dimension != BR_PLAIN && q && br_number_equal (q, &one) ? "board foot" : unit->name);
  if (status == BR_OK)
    br__put_from (r, "shown", &t);
  br__text_clear (&t);
  br_number_clear (&size);
  br_real_clear (&z);
  return status;
}

/* The unit of the ruler for an answer in UNIT: rulers are not marked in yards, miles, metres or kilometres.  */
static const br_unit *
ruler_unit (const br_unit *unit)
{
  return unit->num <= 12 * unit->den ? unit : br_unit_find (unit->den == 127 ? "mm" : "in", 2);
}

/* Shows V in UNIT, and its mark there: all else stays in the sheet's unit.  */
static br_status
put_converted (br_record *r, br__value *v, const br__settings *s, const br_unit *unit, br_error *error)
{
  br__settings there = *s;          /* its numbers are borrowed */
  br_dimension dimension = unit->dimension;
  br_status status = BR_OK;

  if (v->dimension == BR_PLAIN && dimension == BR_LENGTH)
    status = br__to_length (v, s);
  if (v->dimension != dimension)
    return br__fail (error, BR_DOMAIN, 0, 0, "%s is not measured in %s", br__dimension_words (v->dimension), unit->name);
  there.unit = br__unit_base (unit);
  there.feet = 0;
  br__settings ruler = there;
  ruler.unit = ruler_unit (there.unit);
  if (strcmp (ruler.unit->name, s->unit->name) != 0)
    ruler.ruler_given = 0;
  if (status == BR_OK)
    status = put_amount (r, v, s);
  if (status == BR_OK && (dimension == BR_PLAIN || (dimension == BR_VOLUME && br__unit_of_power (unit, dimension) != unit)))
    status = put_in_measure (r, v, unit, s);
  else if (status == BR_OK)
    status = put_shown (r, v, &there);
  return status == BR_OK ? put_mark (r, v, &ruler, s) : status;
}

/* The field `shown` as a fraction or as a decimal, whichever was asked for.  */
static br_status
put_form (br_record *r, const br__value *v, const br__run *run)
{
  const br__settings *s = &run->sheet->settings;
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = br__in_sheet_unit (&z, v, s);
  const br_number *q = br_real_rational (&z);
  if (status == BR_OK && q && run->asked_form == BR__AS_FRACTION)
    br__put_mixed (&t, q);
  else if (status == BR_OK)
    status = br__put_real_decimal (&t, NULL, &z, DIGITS, s->bits);
  if (status == BR_OK && v->dimension != BR_PLAIN)
    {
      br__text_putc (&t, ' ');
      br__put_unit_name (&t, s, v->dimension);
    }
  if (status == BR_OK)
    br__put_from (r, "shown", &t);
  br__text_clear (&t);
  br_real_clear (&z);
  return status;
}

br_status
br__put_answer (br_record *r, br__value *v, br__run *run)
{
  const br__settings *s = &run->sheet->settings;
  br_status status;
  if (run->asked_unit)
    return put_converted (r, v, s, run->asked_unit, run->error);
  status = run->asked_form ? put_amount (r, v, s) : br__put_value (r, v, s);
  if (status == BR_OK && run->asked_form)
    status = put_form (r, v, run);
  return status == BR_OK ? br__put_on_ruler (r, v, s) : status;
}
