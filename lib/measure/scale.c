/* SPDX-License-Identifier: LGPL-3.0-or-later
   scale.c - drawing scales: reading and writing them, and lengths drawn to them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "exact/text.h"
#include "measure/measure.h"

/* One side of a scale as it stands, TEXT[start..end).  */
typedef struct side
{
  br_measure measure;
  size_t start, end;
} side;

#define SIDE_ZERO { BR_MEASURE_ZERO, 0, 0 }

/* 1 if all that is left of R from AT on is the word A, or B.  */
static int
ends_with_word (const br__reader *r, size_t at, const char *a, const char *b)
{
  size_t start = br__skip_blanks (r->text, r->length, at);
  size_t end = br__word_end (r->text, r->length, start);

  return br__skip_blanks (r->text, r->length, end) == r->length
         && (br__word_is (r->text + start, end - start, a)
             || br__word_is (r->text + start, end - start, b));
}

/* The sizes of mechanical drawing: FULL, HALF SIZE, QUARTER SIZE ...  */
static br_status
read_word (br_number *ratio, const br__reader *r, size_t at)
{
  static const struct
  {
    const char *word;
    int num, den;
  } sizes[] = {
    { "full", 1, 1 }, { "half", 1, 2 }, { "quarter", 1, 4 }, { "eighth", 1, 8 },
    { "double", 2, 1 },
  };
  size_t i, end = br__word_end (r->text, r->length, at);

  for (i = 0; i < sizeof sizes / sizeof *sizes; i++)
    if (br__word_is (r->text + at, end - at, sizes[i].word))
      {
        if (br__skip_blanks (r->text, r->length, end) < r->length
            && !ends_with_word (r, end, "size", "scale"))
          {
            end = br__skip_blanks (r->text, r->length, end);
            return br__fail (r->error, BR_SYNTAX, end, r->length - end,
                             "this is no part of a scale");
          }
        return br_number_set_ratio (ratio, sizes[i].num, sizes[i].den);
      }
  return br__fail (r->error, BR_SYNTAX, at, end - at,
                   "a scale is a ratio such as 1:2, a pair such as 1/4 in = 1 ft, or one of "
                   "full, half, quarter, eighth, double");
}

/* Reads the side at AT: a plain number or a length, over zero.  */
static br_status
read_side (side *s, const br__reader *r, size_t at)
{
  br__glyph g;
  size_t used = 0, sign;
  br_status status;

  sign = at = br__skip_blanks (r->text, r->length, at);
  g = br__glyph_at (r->text, r->length, at);
  if (g.kind == BR__GLYPH_DASH)
    at = br__skip_blanks (r->text, r->length, at + g.length);
  if (!br__measure_begins (r->text, r->length, at))
    return br__fail (r->error, BR_SYNTAX, sign, g.length, "a number or a length is missing");
  status = br_measure_scan (&s->measure, &used, r->text + at, r->length - at, r->grid, r->error);
  if (status != BR_OK)
    {
      if (r->error != NULL)
        r->error->offset += at;
      return status;
    }
  s->start = sign;
  s->end = at + used;
  if (sign != at || br_number_sign (&s->measure.value) == 0)
    return br__fail (r->error, BR_DOMAIN, sign, s->end - sign,
                     "both sides of a scale are over zero");
  if (s->measure.unit != NULL && s->measure.unit->dimension != BR_LENGTH)
    return br__fail (r->error, BR_DOMAIN, sign, s->end - sign,
                     "a scale has lengths or plain numbers on its sides");
  return BR_OK;
}

/* A scale of one side: 1/2 is the ratio itself.  AT is behind it.  */
static br_status
read_ratio (br_number *ratio, const br__reader *r, const side *drawn, size_t at)
{
  br_number one = { 1, 0 };
  br_status status;
  int shown = drawn->end - drawn->start <= 24 ? (int) (drawn->end - drawn->start) : 0;

  if (drawn->measure.unit != NULL && at == r->length)
    {
      status = br__fail (r->error, BR_SYNTAX, drawn->start, drawn->end - drawn->start,
                         "the full length that is drawn as this is missing");
      if (shown != 0)
        br__hint (r->error, "write %.*s = 1 ft for one foot", shown, r->text + drawn->start);
      return status;
    }
  /* A quarter scale is 1:4, but many call 1/4 in = 1 ft, which is 1:48, by that name.  */
  if (drawn->measure.unit == NULL && ends_with_word (r, at, "scale", "scale"))
    {
      status = br__fail (r->error, BR_SYNTAX, drawn->start, r->length - drawn->start,
                         "this can mean a ratio or inches to the foot");
      if (shown != 0)
        br__hint (r->error, "write %.*s size, or %.*s in = 1 ft", shown, r->text + drawn->start,
                  shown, r->text + drawn->start);
      return status;
    }
  if (at < r->length
      && (drawn->measure.unit != NULL || !ends_with_word (r, at, "size", "size")))
    return br__fail (r->error, BR_SYNTAX, at, r->length - at,
                     "a scale has : or = between drawn and full size");
  if (drawn->measure.unit == NULL && shown != 0 && at == r->length && br_number_is_integer (&drawn->measure.value)
      && br_number_cmp (&drawn->measure.value, &one) > 0)
    {
      status = br__fail (r->error, BR_SYNTAX, drawn->start, drawn->end - drawn->start,
                         "this can be so many times smaller, or so many times larger");
      br__hint (r->error, "write `scale 1:%.*s` or `scale %.*s:1`", shown, r->text + drawn->start, shown,
                r->text + drawn->start);
      return status;
    }
  return br_number_set (ratio, &drawn->measure.value);
}

static br_status
read_pair (br_number *ratio, const br__reader *r, const side *drawn, size_t at)
{
  side full = SIDE_ZERO;
  br_status status = read_side (&full, r, at);
  const side *plain = drawn->measure.unit == NULL ? drawn : &full;

  if (status == BR_OK && (drawn->measure.unit == NULL) != (full.measure.unit == NULL))
    status = br__fail (r->error, BR_DOMAIN, plain->start, plain->end - plain->start,
                       "a scale has a unit on both sides or on none");
  at = br__skip_blanks (r->text, r->length, full.end);
  if (status == BR_OK && at < r->length)
    status = br__fail (r->error, BR_SYNTAX, at, r->length - at, "this is no part of a scale");
  if (status == BR_OK)
    status = br_number_div (ratio, &drawn->measure.value, &full.measure.value);
  br_measure_clear (&full.measure);
  return status;
}

/* The end of what parts the sides of a scale at AT, `:`, `=` or a word that says the same; AT: none.  */
static size_t
pair_sign (const br__reader *r, size_t at)
{
  static const char *const words[] = { "to", "is", "equals", "for", "per" };
  size_t i, end = br__word_end (r->text, r->length, at);

  if (at < r->length && (r->text[at] == ':' || r->text[at] == '='))
    return at + 1;
  for (i = 0; i < sizeof words / sizeof *words; i++)
    if (br__word_is (r->text + at, end - at, words[i]))
      return end;
  return at;
}

static br_status
read_scale (br_number *ratio, const br__reader *r)
{
  side drawn = SIDE_ZERO;
  size_t at = br__skip_blanks (r->text, r->length, 0);
  br_status status;

  if (br__word_end (r->text, r->length, at) > at)
    return read_word (ratio, r, at);
  status = read_side (&drawn, r, at);
  if (status == BR_OK)
    {
      at = br__skip_blanks (r->text, r->length, drawn.end);
      size_t behind = pair_sign (r, at);
      if (behind > at)
        status = read_pair (ratio, r, &drawn, behind);
      else
        status = read_ratio (ratio, r, &drawn, at);
    }
  br_measure_clear (&drawn.measure);
  return status;
}

br_status
br_scale_read (br_number *ratio, const char *text, size_t length, br_error *error)
{
  if (!ratio || (!text && length))
    return br__fail_null (error);
  return br__scale_read (ratio, text, length, NULL, error);
}

br_status
br__scale_read (br_number *ratio, const char *text, size_t length, const br_number *grid, br_error *error)
{
  br_error place;
  br__reader r = { text, length, grid, &place };
  br_number new = BR_NUMBER_ZERO;
  br_status status;

  place.status = BR_OK;
  status = read_scale (&new, &r);
  if (status == BR_OK)
    br_number_swap (ratio, &new);
  else if (place.status == BR_OK)
    br__fail_plain (error, status, 0, length);
  else if (error != NULL)
    *error = place;
  br_number_clear (&new);
  return status;
}

void
br__put_scale (br_text *t, const br_number *ratio)
{
  br_number one = BR_NUMBER_ZERO, full = BR_NUMBER_ZERO;

  if (br_number_set_int (&one, 1) != BR_OK)
    t->failed = 1;
  else if (br_number_sign (ratio) <= 0 || br_number_cmp (ratio, &one) >= 0)
    {
      br__put_mixed (t, ratio);
      br__text_puts (t, ":1");
    }
  else if (br_number_div (&full, &one, ratio) != BR_OK)
    t->failed = 1;
  else
    {
      br__text_puts (t, "1:");
      br__put_mixed (t, &full);
    }
  br_number_clear (&one);
  br_number_clear (&full);
}

size_t
br_scale_write (char *buffer, size_t size, const br_number *ratio)
{
  if (!ratio)
    return SIZE_MAX;
  br_text t = BR_TEXT_ZERO;

  br__put_scale (&t, ratio);
  return br__text_hand_out (buffer, size, &t);
}

/* Z = X * FACTOR, or X / FACTOR where INVERSE is 1.  */
static br_status
multiply (br_real *z, const br_real *x, const br_number *factor, int inverse)
{
  br_real by = BR_REAL_ZERO;
  br_status status = br_number_sign (factor) > 0 ? br_number_set_int (&by.rational, 1) : BR_DOMAIN;

  if (status == BR_OK && inverse)
    status = br_number_div (&by.rational, &by.rational, factor);
  else if (status == BR_OK)
    status = br_number_set (&by.rational, factor);
  if (status == BR_OK)
    status = br_real_mul (z, x, &by);
  br_real_clear (&by);
  return status;
}

br_status
br_scale_full (br_real *full, const br_real *drawn, const br_number *ratio)
{
  if (!full || !drawn || !ratio)
    return BR_DOMAIN;
  return multiply (full, drawn, ratio, 1);
}

br_status
br_scale_drawn (br_real *drawn, const br_real *full, const br_number *ratio)
{
  if (!drawn || !full || !ratio)
    return BR_DOMAIN;
  return multiply (drawn, full, ratio, 0);
}

br_status
br_scale_full_number (br_number *full, const br_number *drawn, const br_number *ratio)
{
  if (!full || !drawn || !ratio)
    return BR_DOMAIN;
  return br_number_sign (ratio) > 0 ? br_number_div (full, drawn, ratio) : BR_DOMAIN;
}

br_status
br_scale_drawn_number (br_number *drawn, const br_number *full, const br_number *ratio)
{
  if (!drawn || !full || !ratio)
    return BR_DOMAIN;
  return br_number_sign (ratio) > 0 ? br_number_mul (drawn, full, ratio) : BR_DOMAIN;
}
