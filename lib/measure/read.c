/* SPDX-License-Identifier: LGPL-3.0-or-later
   read.c - reads measures: a number with its unit, feet and inches as one length, and the
   whole of a text with its sign.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/number.h"
#include "exact/status.h"
#include "exact/text.h"
#include "measure/measure.h"

/* A number and its unit as they stand, TEXT[start..end).  */
typedef struct part
{
  br__numeral numeral;
  const br_unit *unit;      /* NULL: none */
  const br_unit *base;      /* the unit is this one to the power POWER */
  int power;
  int mark;                 /* the unit is ' or " */
  size_t end;
} part;

#define PART_ZERO { BR__NUMERAL_ZERO, NULL, NULL, 1, 0, 0 }

void
br_measure_clear (br_measure *m)
{
  if (!m)
    return;
  br_number_clear (&m->value);
  m->unit = NULL;
}

static br_status
take_part (part *p, const br__reader *r, size_t at)
{
  br__unit_found found;
  br_status status = br__numeral_scan (&p->numeral, r, at);

  if (status != BR_OK)
    return status;
  p->end = p->numeral.end;
  p->mark = 0;
  p->unit = p->base = NULL;
  if (br__unit_scan_power (&found, r->text, r->length, p->end))
    {
      p->unit = found.unit;
      p->base = found.base;
      p->power = found.power;
      p->mark = found.mark;
      p->end = found.end;
    }
  return BR_OK;
}

/* Z = the value of P in inches, square inches and so on.  */
static br_status
part_value (br_number *z, const br__reader *r, const part *p)
{
  br_number size = BR_NUMBER_ZERO;
  br_status status;

  if (p->unit == NULL || p->base->num == p->base->den)
    return br_number_set (z, &p->numeral.value);
  if (br__unit_is_box (p->unit))
    {
      if (r->grid != NULL && br_number_sign (r->grid) > 0)
        return br_number_mul (z, &p->numeral.value, r->grid);
      status = br__fail (r->error, BR_DOMAIN, p->numeral.start, p->end - p->numeral.start,
                         "boxes are a length only when the size of the grid is known");
      br__hint (r->error, "grid 1/4 in");
      return status;
    }
  status = br_number_set_ratio (&size, p->base->num, p->base->den);
  if (status == BR_OK && p->power != 1)
    status = br_number_pow (&size, &size, p->power);
  if (status == BR_OK)
    status = br_number_mul (z, &p->numeral.value, &size);
  br_number_clear (&size);
  return status;
}

/* A per cent is a plain number.  */
static const br_unit *
unit_of_measure (const part *p)
{
  return p->unit != NULL && p->unit->dimension == BR_PLAIN ? NULL : p->unit;
}

br_status
br__unit_measure (br_measure *m, size_t *used, const char *text, size_t length, br_error *error)
{
  br__reader r = { text, length, NULL, error };
  br__unit_found found;
  part p = PART_ZERO;
  br_status status;

  if (!br__unit_scan_power (&found, text, length, 0))
    return br__fail (error, BR_SYNTAX, 0, 0, "a unit should stand here");
  p.unit = found.unit;
  p.base = found.base;
  p.power = found.power;
  status = br_number_set_int (&p.numeral.value, 1);
  /* A box counts as one inch here; it is multiplied by the grid when the formula is evaluated.  */
  if (status == BR_OK && br__unit_is_box (p.unit))
    br_number_swap (&m->value, &p.numeral.value);
  else if (status == BR_OK)
    status = part_value (&m->value, &r, &p);
  br_number_clear (&p.numeral.value);
  if (status != BR_OK)
    return status;
  m->unit = unit_of_measure (&p);
  *used = found.end;
  return BR_OK;
}

/* Units that stand side by side in one length, the larger first, with the words that an error wants.  */
static const struct
{
  const char *name, *one, *many;
  int metric;
} chain[] = {
  { "mi", "mile", "miles", 0 }, { "yd", "yard", "yards", 0 }, { "ft", "foot", "feet", 0 },
  { "in", "inch", "inches", 0 }, { "km", "kilometre", "kilometres", 1 }, { "m", "metre", "metres", 1 },
  { "cm", "centimetre", "centimetres", 1 }, { "mm", "millimetre", "millimetres", 1 },
};

#define CHAIN (sizeof chain / sizeof *chain)

/* The place of UNIT in the table, CHAIN where it has none.  */
static size_t
chain_place (const br_unit *unit)
{
  size_t i;

  for (i = 0; unit != NULL && i < CHAIN; i++)
    if (strcmp (unit->name, chain[i].name) == 0)
      return i;
  return CHAIN;
}

/* 1 for the units that a smaller one may follow within one length.  */
static int
is_chain (const br_unit *unit)
{
  size_t place = chain_place (unit);

  return place + 1 < CHAIN && chain[place + 1].metric == chain[place].metric;
}

/* Where the next part of a length such as 5' 2" may begin: right behind, after blanks or after
   one hyphen.  */
static int
next_part (size_t *at, const br__reader *r, size_t end)
{
  br__glyph g = br__glyph_at (r->text, r->length, end);

  *at = g.kind == BR__GLYPH_DASH ? end + g.length : br__skip_blanks (r->text, r->length, end);
  return br__measure_begins (r->text, r->length, *at);
}

/* 1 if NEXT goes on with the length that ends with LAST.  After a foot mark a number without
   a unit is inches, as long as there are fewer than a foot of them.  */
static int
goes_on (const part *last, part *next)
{
  br_number foot = BR_NUMBER_ZERO;
  size_t place = chain_place (next->unit);

  if (next->unit != NULL)
    return place < CHAIN && place > chain_place (last->unit)
           && chain[place].metric == chain[chain_place (last->unit)].metric;
  if (!last->mark || last->unit->num != 12 || last->numeral.form != BR__FORM_WHOLE
      || br_number_set_int (&foot, 12) != BR_OK
      || br_number_cmp (&next->numeral.value, &foot) >= 0)
    return 0;
  next->unit = next->base = br__unit_base (NULL);
  next->power = 1;
  return 1;
}

/* Hints at the length of INCHES in the manner of FIRST, if it is feet and begins the text: after
   yards the hint would stand for less than is marked.  */
static void
hint_feet (const br__reader *r, const part *first, const br_number *inches)
{
  br_text t = BR_TEXT_ZERO;
  br_number feet = BR_NUMBER_ZERO, rest = BR_NUMBER_ZERO;

  if (first->numeral.start == 0 && strcmp (first->unit->name, "ft") == 0
      && br_number_set_int (&rest, 12) == BR_OK
      && br_number_div (&feet, inches, &rest) == BR_OK
      && br_number_floor (&feet, &feet) == BR_OK
      && br_number_mul (&rest, &feet, &rest) == BR_OK
      && br_number_sub (&rest, inches, &rest) == BR_OK)
    {
      br__put_mixed (&t, &feet);
      br__text_puts (&t, first->mark ? "'" : " ft");
      if (br_number_sign (&rest) != 0)
        {
          br__text_putc (&t, ' ');
          br__put_mixed (&t, &rest);
          br__text_puts (&t, first->mark ? "\"" : " in");
        }
      if (!t.failed && t.length <= 40)
        br__hint (r->error, "write %s", br__text_string (&t));
    }
  br__text_clear (&t);
  br_number_clear (&feet);
  br_number_clear (&rest);
}

/* Checks that LAST and NEXT can stand side by side; SUM is all up to NEXT, VALUE is NEXT.  */
static br_status
check_parts (const br__reader *r, const part *last, const part *next, const br_number *sum,
             const br_number *value)
{
  br_number limit = BR_NUMBER_ZERO, whole = BR_NUMBER_ZERO;
  size_t large = chain_place (last->unit), small = chain_place (next->unit);
  /* Books write 5 yd 8 ft 2 in before they carry; of inches so many are a slip.  */
  const int carried_later = last->unit->num == 36 && next->unit->num == 12;
  br_status status = br_number_set_ratio (&limit, last->unit->num, last->unit->den);

  if (status == BR_OK)
    status = br_number_add (&whole, sum, value);
  if (status != BR_OK)
    goto out;
  if (last->numeral.form != BR__FORM_WHOLE)
    {
      status = br__fail (r->error, BR_SYNTAX, last->numeral.start, last->end - last->numeral.start,
                         "%s before %s are a whole number", chain[large].many, chain[small].many);
      hint_feet (r, last, &whole);
    }
  else if (br_number_cmp (value, &limit) >= 0 && !carried_later)
    {
      status = br__fail (r->error, BR_SYNTAX, next->numeral.start,
                         next->end - next->numeral.start, "the %s come to a %s or more",
                         chain[small].many, chain[large].one);
      hint_feet (r, last, &whole);
    }
out:
  br_number_clear (&limit);
  br_number_clear (&whole);
  return status;
}

static void
part_swap (part *a, part *b)
{
  part c = *a;

  *a = *b;
  *b = c;
}

/* Feet or yards that no inches follow, with a digit right behind them: 5 ft2 is an area, and 5 ft9 is 5 and a
   name.  */
static br_status
end_feet (br_number *sum, part *last, const br__reader *r)
{
  int power = br__unit_glued_power (r->text, r->length, last->end);
  br__unit_found found;

  if (power != 0)
    {
      size_t at = last->end;

      if (!br__unit_scan_power (&found, power == 2 ? "sq ft" : "cu ft", 5, 0))
        return BR_DOMAIN;
      if (strcmp (last->base->name, "yd") == 0
          && !br__unit_scan_power (&found, power == 2 ? "sq yd" : "cu yd", 5, 0))
        return BR_DOMAIN;
      last->unit = found.unit;
      last->power = power;
      last->end = at + 1;
      return part_value (sum, r, last);
    }
  last->unit = NULL;
  last->end = last->numeral.end;
  return br_number_set (sum, &last->numeral.value);
}

/* Adds to SUM the feet and inches that follow LAST, which becomes the last of them.  */
static br_status
add_smaller (br_number *sum, part *last, const br__reader *r)
{
  br_number value = BR_NUMBER_ZERO;
  part next = PART_ZERO;
  br_status status = BR_OK;
  size_t at, end = last->end;

  while (is_chain (last->unit) && next_part (&at, r, last->end))
    {
      status = take_part (&next, r, at);
      if (status != BR_OK || !goes_on (last, &next))
        break;
      status = part_value (&value, r, &next);
      if (status == BR_OK)
        status = check_parts (r, last, &next, sum, &value);
      if (status == BR_OK)
        status = br_number_add (sum, sum, &value);
      if (status != BR_OK)
        break;
      part_swap (last, &next);
    }
  if (status == BR_OK && last->end == end && is_chain (last->unit) && !last->mark
      && br__glyph_at (r->text, r->length, end).kind == BR__GLYPH_DIGIT)
    status = end_feet (sum, last, r);
  br_number_clear (&value);
  br_number_clear (&next.numeral.value);
  return status;
}

/* Trade notes give inches and their fraction a mark each: 8' 7" 7/16".  Adds such a fraction
   to SUM.  */
static br_status
add_marked_fraction (br_number *sum, part *last, const br__reader *r)
{
  part next = PART_ZERO;
  br_number one = BR_NUMBER_ZERO;
  br_status status;
  size_t at = br__skip_blanks (r->text, r->length, last->end);

  if (!br__measure_begins (r->text, r->length, at))
    return BR_OK;
  status = take_part (&next, r, at);
  if (status != BR_OK || next.numeral.form != BR__FORM_FRACTION || !next.mark
      || next.unit != last->unit)
    goto out;
  status = br_number_set_int (&one, 1);
  if (status == BR_OK && br_number_cmp (&next.numeral.value, &one) >= 0)
    status = br__fail (r->error, BR_SYNTAX, at, next.end - at,
                       "the fraction after whole inches is less than one");
  if (status == BR_OK)
    status = br_number_add (sum, sum, &next.numeral.value);
  if (status == BR_OK)
    part_swap (last, &next);
out:
  br_number_clear (&one);
  br_number_clear (&next.numeral.value);
  return status;
}

static br_status
scan (br_measure *m, size_t *used, const br__reader *r)
{
  br_number sum = BR_NUMBER_ZERO;
  part last = PART_ZERO;
  br_status status = take_part (&last, r, 0);

  if (status == BR_OK)
    status = part_value (&sum, r, &last);
  if (status == BR_OK)
    status = add_smaller (&sum, &last, r);
  if (status == BR_OK && last.mark && last.unit == br__unit_base (NULL)
      && last.numeral.form == BR__FORM_WHOLE)
    status = add_marked_fraction (&sum, &last, r);
  if (status == BR_OK)
    {
      br_number_swap (&m->value, &sum);
      m->unit = unit_of_measure (&last);
      *used = last.end;
    }
  br_number_clear (&sum);
  br_number_clear (&last.numeral.value);
  return status;
}

br_status
br_measure_scan (br_measure *m, size_t *used, const char *text, size_t length,
                 const br_number *grid, br_error *error)
{
  if (!m || !used || (!text && length))
    return br__fail_null (error);
  br_error place;
  br__reader r = { text, length, grid, &place };
  br_status status;

  place.status = BR_OK;
  status = scan (m, used, &r);
  if (status == BR_OK || error == NULL)
    return status;
  /* A failure of the arithmetic comes without a message of its own.  */
  if (place.status == BR_OK)
    return br__fail_plain (error, status, 0, length);
  *error = place;
  return status;
}

/* The end of the name at AT, for which a word that is no unit was meant.  */
static size_t
name_end (const br__reader *r, size_t at)
{
  for (;; at++)
    {
      br__glyph g = br__glyph_at (r->text, r->length, at);

      if (g.kind != BR__GLYPH_LETTER && g.kind != BR__GLYPH_DIGIT && g.code != '_')
        return at;
    }
}

/* 2 - 3/8 where one measure is wanted: hints at 2-3/8 if that reads as one.  */
static br_status
refuse_subtraction (const br__reader *r, size_t start, size_t at, size_t dash)
{
  char text[40];
  size_t size = 0, used = 0, i;
  br_measure m = BR_MEASURE_ZERO;
  br_status status = br__fail (r->error, BR_SYNTAX, at, dash,
                               "one measure is wanted, not a subtraction");

  for (i = start; i < r->length && size < sizeof text; i++)
    if (r->text[i] != ' ' && r->text[i] != '\t')
      text[size++] = r->text[i];
  if (i == r->length && br_measure_scan (&m, &used, text, size, r->grid, NULL) == BR_OK
      && used == size)
    br__hint (r->error, "write %.*s if it is one number", (int) size, text);
  br_measure_clear (&m);
  return status;
}

/* The error for text at AT that does not belong to the measure, which began at START.  */
static br_status
leftover (const br__reader *r, size_t start, size_t at)
{
  br__glyph g = br__glyph_at (r->text, r->length, at);
  int first = start == at;
  size_t end;

  switch (g.kind)
    {
    case BR__GLYPH_END:
      return br__fail (r->error, BR_SYNTAX, at, 0, "a measure is missing");
    case BR__GLYPH_BROKEN:
      return br__fail (r->error, BR_SYNTAX, at, 1, "a byte that is no UTF-8");
    case BR__GLYPH_CONTROL:
      return br__fail (r->error, BR_SYNTAX, at, g.length, "a control character");
    case BR__GLYPH_LETTER:
      end = name_end (r, at);
      if (first)
        return br__fail (r->error, BR_SYNTAX, at, end - at, "a measure begins with a number");
      return br__fail (r->error, BR_SYNTAX, at, end - at, "no such unit: %.*s",
                       br__clip (r->text + at, end - at, 40), r->text + at);
    case BR__GLYPH_DASH:
      if (first)
        return br__fail (r->error, BR_SYNTAX, at, g.length, "a measure has one sign");
      return refuse_subtraction (r, start, at, g.length);
    default:
      if (first)
        return br__fail (r->error, BR_SYNTAX, at, g.length, "a measure begins with a number");
      if (!br__measure_begins (r->text, r->length, at))
        return br__fail (r->error, BR_SYNTAX, at, g.length, "this is no part of a measure");
      for (end = at; br__glyph_at (r->text, r->length, end).kind == BR__GLYPH_DIGIT; end++)
        ;
      return br__fail (r->error, BR_SYNTAX, at, end > at ? end - at : g.length,
                       "two numbers side by side");
    }
}

br_status
br_measure_read (br_measure *m, const char *text, size_t length, const br_number *grid,
                 br_error *error)
{
  if (!m || (!text && length))
    return br__fail_null (error);
  br_measure new = BR_MEASURE_ZERO;
  br__reader r = { text, length, grid, error };
  size_t at, used = 0, end;
  br__glyph sign;
  br_status status;

  if (br__plain_read (&m->value, text, length))
    {
      m->unit = NULL;
      return BR_OK;
    }
  at = br__skip_blanks (text, length, 0);
  sign = br__glyph_at (text, length, at);
  if (sign.kind == BR__GLYPH_DASH || sign.code == '+')
    at = br__skip_blanks (text, length, at + sign.length);
  if (!br__measure_begins (text, length, at)
      && br__glyph_at (text, length, at).kind != BR__GLYPH_POINT)
    return leftover (&r, at, at);
  status = br_measure_scan (&new, &used, text + at, length - at, grid, error);
  if (status != BR_OK)
    {
      if (error != NULL)
        error->offset += at;
      return status;
    }
  end = br__skip_blanks (text, length, at + used);
  if (end < length)
    status = leftover (&r, at, end);
  else if (sign.kind == BR__GLYPH_DASH)
    {
      status = br_number_neg (&new.value, &new.value);
      if (status != BR_OK)
        br__fail_plain (error, status, 0, length);
    }
  if (status == BR_OK)
    {
      br_number_swap (&m->value, &new.value);
      m->unit = new.unit;
    }
  br_measure_clear (&new);
  return status;
}

br_status
br_real_read (br_real *z, const char *text, size_t length, br_error *error)
{
  if (!z || (!text && length))
    return br__fail_null (error);
  br_measure m = BR_MEASURE_ZERO;
  br_status status = br_measure_read (&m, text, length, NULL, error);

  if (status == BR_OK)
    {
      br_real_clear (z);
      z->rational = m.value;
    }
  return status;
}
