/* SPDX-License-Identifier: LGPL-3.0-or-later
   mixed.c - parses the number of a measure: 12, 2.5, 3/8, 2-3/8, with the fraction characters and
   hyphens of pasted texts.  An ambiguous number is an error.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/bytes.h"
#include "exact/number.h"
#include "exact/status.h"
#include "measure/measure.h"

#define SMALL_DIGITS BR__SMALL_DIGITS
#define SHORT_DIGITS 9      /* two such integers multiply and add within 63 bits */
#define ECHO 40             /* bytes of input that a hint repeats at most */

/* Digits of one kind, ordinary, raised or lowered.  */
typedef struct run
{
  size_t start, end, count;
  br__kind kind;
} run;

/* A fraction as it stands: TOP / BOTTOM, or NUM / DEN (NUM / BOTTOM where DEN is 0 and TOP
   is empty) for the characters that are one.  */
typedef struct fraction
{
  size_t start, end;
  int num, den;
  run top, bottom;
} fraction;

static run
take_run (const br__reader *r, size_t at)
{
  run d = { at, at, 0, (br__kind) br__glyph_at (r->text, r->length, at).kind };

  if (d.kind == BR__GLYPH_DIGIT)
    {
      while (d.end < r->length && r->text[d.end] >= '0' && r->text[d.end] <= '9')
        d.end++;
      d.count = d.end - at;
    }
  else if (d.kind == BR__GLYPH_SUPERSCRIPT || d.kind == BR__GLYPH_SUBSCRIPT)
    for (;;)
      {
        br__glyph g = br__glyph_at (r->text, r->length, d.end);

        if (g.kind != d.kind)
          break;
        d.end += g.length;
        d.count++;
      }
  return d;
}

static br_status
too_long (const br__reader *r, size_t start, size_t end, size_t count)
{
  return br__fail (r->error, BR_TOO_BIG, start, end - start,
                   "a number of %zu digits; the limit is %d digits", count, BR_MAX_DIGITS);
}

/* Z = the integer that D is.  */
static br_status
run_value (br_number *z, const br__reader *r, const run *d)
{
  char digits[BR_MAX_DIGITS];
  size_t at = d->start, i;

  if (d->count > BR_MAX_DIGITS)
    return too_long (r, d->start, d->end, d->count);
  if (d->count <= SMALL_DIGITS)
    {
      int64_t n = 0;

      while (at < d->end)
        {
          br__glyph g = br__glyph_at (r->text, r->length, at);

          n = n * 10 + g.num;
          at += g.length;
        }
      return br_number_set_int (z, n);
    }
  for (i = 0; i < d->count; i++)
    {
      br__glyph g = br__glyph_at (r->text, r->length, at);

      digits[i] = (char) ('0' + g.num);
      at += g.length;
    }
  return br__number_from_digits (z, digits, d->count, "", 0);
}

/* The denominator at AT.  One with a point behind it is no fraction's: 1/2.5 divides.  */
static int
take_bottom (fraction *f, const br__reader *r, size_t at, int raised_top)
{
  f->bottom = take_run (r, at);
  if (f->bottom.kind == BR__GLYPH_SUBSCRIPT)
    return 1;
  return f->bottom.kind == BR__GLYPH_DIGIT && !raised_top
         && br__glyph_at (r->text, r->length, f->bottom.end).kind != BR__GLYPH_POINT;
}

/* 1 if a fraction stands at AT: 3/8, a vulgar fraction, raised and lowered digits.  A raised
   digit before an ordinary slash is an exponent unless lowered digits follow.  */
static int
find_fraction (fraction *f, const br__reader *r, size_t at)
{
  br__glyph g = br__glyph_at (r->text, r->length, at), slash;

  memset (f, 0, sizeof *f);
  f->start = at;
  switch (g.kind)
    {
    case BR__GLYPH_VULGAR:
      f->num = g.num;
      f->den = g.den;
      f->end = at + g.length;
      return 1;
    case BR__GLYPH_ONE_OVER:
      f->num = 1;
      if (!take_bottom (f, r, at + g.length, 0))
        return 0;
      break;
    case BR__GLYPH_DIGIT:
    case BR__GLYPH_SUPERSCRIPT:
      f->top = take_run (r, at);
      slash = br__glyph_at (r->text, r->length, f->top.end);
      if (slash.kind != BR__GLYPH_SLASH && slash.kind != BR__GLYPH_FRACTION_SLASH)
        return 0;
      if (!take_bottom (f, r, f->top.end + slash.length,
                        g.kind == BR__GLYPH_SUPERSCRIPT && slash.kind == BR__GLYPH_SLASH))
        return 0;
      break;
    default:
      return 0;
    }
  f->end = f->bottom.end;
  return 1;
}

size_t
br__raised_end (const char *text, size_t length, size_t at)
{
  br__reader r = { text, length, NULL, NULL };
  br__glyph g = br__glyph_at (text, length, at);
  fraction f;
  run digits;

  if (g.kind != BR__GLYPH_SUPERSCRIPT && g.code != 0x207b)
    return at;
  if (g.kind == BR__GLYPH_SUPERSCRIPT && find_fraction (&f, &r, at))
    return at;
  digits = take_run (&r, g.code == 0x207b ? at + g.length : at);
  return digits.kind == BR__GLYPH_SUPERSCRIPT ? digits.end : at;
}

br_status
br__raised_scan (br__numeral *n, const br__reader *r, size_t at)
{
  run digits = take_run (r, at);

  n->start = at;
  n->end = digits.end;
  n->form = BR__FORM_WHOLE;
  return run_value (&n->value, r, &digits);
}

/* Z = F.  PROPER (may be NULL) tells whether it is less than one.  */
static br_status
fraction_value (br_number *z, int *proper, const br__reader *r, const fraction *f)
{
  br_number top = BR_NUMBER_ZERO, bottom = BR_NUMBER_ZERO;
  br_status status = BR_OK;

  if (f->den != 0)
    {
      if (proper != NULL)
        *proper = 1;
      return br_number_set_ratio (z, f->num, f->den);
    }
  if (f->top.count != 0)
    status = run_value (&top, r, &f->top);
  else
    status = br_number_set_int (&top, f->num);
  if (status == BR_OK)
    status = run_value (&bottom, r, &f->bottom);
  if (status != BR_OK)
    goto out;
  if (br_number_sign (&bottom) == 0)
    {
      status = br__fail (r->error, BR_DOMAIN, f->bottom.start, f->bottom.end - f->bottom.start,
                         "the denominator is zero");
      goto out;
    }
  if (proper != NULL)
    *proper = br_number_cmp (&top, &bottom) < 0;
  status = br_number_div (z, &top, &bottom);
out:
  br_number_clear (&top);
  br_number_clear (&bottom);
  return status;
}

/* The fraction that makes a mixed number of the whole one that ends at AT: right behind it if
   it is a character of its own, after one hyphen, or after blanks.  */
static int
find_joined (fraction *f, const br__reader *r, size_t at)
{
  br__glyph g = br__glyph_at (r->text, r->length, at);

  switch (g.kind)
    {
    case BR__GLYPH_DASH:
      return find_fraction (f, r, at + g.length);
    case BR__GLYPH_BLANK:
      return find_fraction (f, r, br__skip_blanks (r->text, r->length, at));
    case BR__GLYPH_VULGAR: case BR__GLYPH_ONE_OVER: case BR__GLYPH_SUPERSCRIPT:
      return find_fraction (f, r, at);
    default:
      return 0;
    }
}

static br_status
improper (const br__reader *r, const run *whole, const fraction *f, const br_number *sum)
{
  char text[ECHO + 1];
  br_status status = br__fail (r->error, BR_SYNTAX, whole->start, f->end - whole->start,
                               "the fraction of a mixed number is less than one");

  if (f->end - whole->start < ECHO && br_number_write_mixed (text, sizeof text, sum) <= ECHO)
    br__hint (r->error, "write %.*s - %.*s to subtract or %s for the sum",
              (int) (whole->end - whole->start), r->text + whole->start,
              (int) (f->end - f->start), r->text + f->start, text);
  return status;
}

static br_status
mixed_value (br__numeral *n, const br__reader *r, const run *whole, const fraction *f)
{
  br_number part = BR_NUMBER_ZERO;
  int proper = 0;
  br_status status = run_value (&n->value, r, whole);

  if (status == BR_OK)
    status = fraction_value (&part, &proper, r, f);
  if (status == BR_OK)
    status = br_number_add (&n->value, &n->value, &part);
  if (status == BR_OK && !proper)
    status = improper (r, whole, f, &n->value);
  n->form = BR__FORM_MIXED;
  n->end = f->end;
  br_number_clear (&part);
  return status;
}

/* 1,000 and 0,125: the comma makes lists, so that these would be two numbers each.  */
static br_status
refuse_commas (const br__reader *r, const run *whole)
{
  size_t end = whole->end, shown = 0, i;
  char digits[ECHO];
  int decimal = r->text[whole->start] == '0';
  br_status status;

  if (whole->count > 3)
    return BR_OK;
  while (end < r->length && r->text[end] == ',' && take_run (r, end + 1).count == 3
         && br__glyph_at (r->text, r->length, end + 1).kind == BR__GLYPH_DIGIT)
    end += 4;
  if (end == whole->end)
    return BR_OK;
  status = br__fail (r->error, BR_SYNTAX, whole->start, end - whole->start,
                     decimal ? "a decimal is written with a point"
                     : "a number is written without commas between its thousands");
  if (end - whole->start < ECHO && (!decimal || end == whole->end + 4))
    {
      for (i = whole->start; i < end; i++)
        if (r->text[i] != ',' || decimal)
          digits[shown++] = r->text[i] == ',' ? '.' : r->text[i];
      br__hint (r->error, "write %.*s, or a blank after the comma for a list",
                (int) shown, digits);
    }
  return status;
}

/* 1e9, 2.5e-3: an exponent behind N.  Other words there are the caller's.  */
static br_status
refuse_exponent (const br__reader *r, const br__numeral *n)
{
  size_t at = n->end + 1;
  br__glyph sign = br__glyph_at (r->text, r->length, at);
  int minus = sign.kind == BR__GLYPH_DASH, exact = 0;
  run digits;
  char text[ECHO + 1];
  br_number value = BR_NUMBER_ZERO, ten = BR_NUMBER_ZERO;
  br_status status;

  if (minus || sign.code == '+')
    at += sign.length;
  digits = take_run (r, at);
  if (digits.kind != BR__GLYPH_DIGIT)
    return BR_OK;
  status = br__fail (r->error, BR_SYNTAX, n->start, digits.end - n->start,
                     "numbers are written without exponents");
  if (digits.count <= 2 && n->end - n->start < ECHO
      && run_value (&value, r, &digits) == BR_OK && br_number_set_int (&ten, 10) == BR_OK)
    {
      int64_t power = 0, one = 1;

      if (br_number_get_ratio (&power, &one, &value)
          && br_number_pow (&ten, &ten, minus ? -power : power) == BR_OK
          && br_number_mul (&value, &n->value, &ten) == BR_OK
          && br_number_write_decimal (text, sizeof text, &exact, &value, ECHO) <= ECHO && exact)
        br__hint (r->error, "write %s", text);
    }
  br_number_clear (&value);
  br_number_clear (&ten);
  return status;
}

/* 1.2.3 and 2..5: END is behind the second point.  */
static br_status
two_points (const br__reader *r, size_t start, size_t end)
{
  while (end < r->length && (r->text[end] == '.'
                             || br__glyph_at (r->text, r->length, end).kind == BR__GLYPH_DIGIT))
    end++;
  return br__fail (r->error, BR_SYNTAX, start, end - start, "a number has one decimal point");
}

/* The decimal of WHOLE, which may be empty, and the point behind it.  */
static br_status
decimal_value (br__numeral *n, const br__reader *r, const run *whole)
{
  size_t point = whole->end, size = whole->end - whole->start;
  run part = take_run (r, point + 1);
  br_status status = BR_OK;

  if (part.kind != BR__GLYPH_DIGIT)
    part.end = part.start, part.count = 0;
  n->end = part.end;
  n->form = BR__FORM_DECIMAL;
  if (n->end < r->length && r->text[n->end] == '.')
    return two_points (r, whole->start, n->end + 1);
  if (size + part.count == 0)
    return br__fail (r->error, BR_SYNTAX, point, 1, "a point without a digit beside it");
  if (size + part.count > BR_MAX_DIGITS)
    return too_long (r, whole->start, n->end, size + part.count);
  status = br__number_from_digits (&n->value, r->text + whole->start, size,
                                   r->text + part.start, part.count);
  return status;
}

/* 2.5⅜ has two fraction parts.  */
static br_status
refuse_fraction (const br__reader *r, const br__numeral *n)
{
  br__glyph g = br__glyph_at (r->text, r->length, n->end);
  fraction f;
  br_status status;

  if ((g.kind != BR__GLYPH_VULGAR && g.kind != BR__GLYPH_ONE_OVER)
      || !find_fraction (&f, r, n->end))
    return BR_OK;
  status = br__fail (r->error, BR_SYNTAX, n->start, f.end - n->start,
                     "a number has a decimal part or a fraction, not both");
  if (f.end - n->start < ECHO)
    br__hint (r->error, "write %.*s + %.*s for the sum", (int) (n->end - n->start),
              r->text + n->start, (int) (f.end - f.start), r->text + f.start);
  return status;
}

/* A number that begins with a digit.  */
static br_status
digits_value (br__numeral *n, const br__reader *r, const run *whole)
{
  fraction f;
  br_status status;

  if (whole->end < r->length && r->text[whole->end] == '.')
    {
      status = decimal_value (n, r, whole);
      return status == BR_OK ? refuse_fraction (r, n) : status;
    }
  if (find_fraction (&f, r, whole->start))
    {
      n->form = BR__FORM_FRACTION;
      n->end = f.end;
      return fraction_value (&n->value, NULL, r, &f);
    }
  if (find_joined (&f, r, whole->end))
    return mixed_value (n, r, whole, &f);
  n->form = BR__FORM_WHOLE;
  n->end = whole->end;
  status = run_value (&n->value, r, whole);
  return status == BR_OK ? refuse_commas (r, whole) : status;
}

/* N goes on with the value of the digits from *AT on, and *AT goes past them, MOST at most.  */
static inline int64_t
take_digits (int64_t n, const char **at, const char *end, ptrdiff_t most)
{
  const char *p = *at, *stop = end - p > most ? p + most : end;

  for (; p < stop && (unsigned char) (*p - '0') < 10; p++)
    n = n * 10 + (*p - '0');
  *at = p;
  return n;
}

/* 1 if nothing at P can extend the number that ends there: P is the end of the text, or a
   character that is not in numbers.  */
static inline int
ends_plainly (const char *p, const char *end)
{
  return p == end || *p == '"' || *p == '\'' || *p == ')';
}

/* The numbers of nearly every text, in ASCII, short, with nothing behind them that could change
   what they are: 12, 6.595, 3/8, 2-3/8, 2 3/8.  0 leaves all else, and every mistake, to the
   whole reader below, which gives the same for these.  Z is the number from START on, *AT where it ends.  */
static inline int
take_plain (br_number *z, br__form *form, const char **at, const char *start, const char *end)
{
  const char *p = start, *part;
  int64_t whole = take_digits (0, &p, end, SMALL_DIGITS), top, bottom;
  size_t size = (size_t) (p - start);

  *form = BR__FORM_WHOLE;
  if (p < end && *p == '.' && size < SMALL_DIGITS)
    {
      part = ++p;
      whole = take_digits (whole, &p, end, (ptrdiff_t) (SMALL_DIGITS - size));
      size += (size_t) (p - part);
      if (size == 0 || !ends_plainly (p, end))
        return 0;
      br__number_put_decimal (z, whole, (unsigned) (p - part));
      *form = BR__FORM_DECIMAL;
    }
  else if (size == 0 || size > SHORT_DIGITS)
    return 0;
  else if (ends_plainly (p, end))
    br__number_put_small (z, whole, 1);
  else
    {
      top = whole, whole = 0;
      *form = BR__FORM_FRACTION;
      if (*p == '-' || *p == ' ')
        {
          whole = top;
          part = ++p;
          top = take_digits (0, &p, end, SHORT_DIGITS);
          if (p == part || p == end)
            return 0;
          *form = BR__FORM_MIXED;
        }
      if (*p != '/')
        return 0;
      p++;
      bottom = take_digits (0, &p, end, SHORT_DIGITS);
      if (bottom == 0 || (*form == BR__FORM_MIXED && top >= bottom)
          || !ends_plainly (p, end)
          || br_number_set_ratio (z, whole * bottom + top, bottom) != BR_OK)
        return 0;
    }
  *at = p;
  return 1;
}

int
br__numeral_plain (br__numeral *n, const br__reader *r, size_t at)
{
  const char *end;

  if (!take_plain (&n->value, &n->form, &end, r->text + at, r->text + r->length))
    return 0;
  n->start = at;
  n->end = (size_t) (end - r->text);
  return 1;
}

/* Whole numbers and decimals of eight bytes at most, all at once.  */
static inline int
take_decimal (br_number *z, const char *text, size_t length)
{
  if (length > 8 || length == 0)
    return 0;
  uint64_t word = length == 8 ? br__load_eight (text) : br__load_few (text, length), rest;
  unsigned before = br__digits_ahead (word), behind;

  if (before >= length)
    {
      br__number_put_small (z, br__digits_value (word, before), 1);
      return 1;
    }
  rest = word >> 8 * before;
  if ((rest & 0xff) != '.' || length == 1)
    return 0;
  rest >>= 8;
  behind = br__digits_ahead (rest);
  if (before + 1 + behind != length)
    return 0;
  word = (word & ((UINT64_C (1) << 8 * before) - 1)) | rest << 8 * before;
  br__number_put_decimal (z, br__digits_value (word, before + behind), behind);
  return 1;
}

int
br__plain_read (br_number *z, const char *text, size_t length)
{
  br_number x = BR_NUMBER_ZERO;
  const char *end;
  br__form form;

  if (take_decimal (z, text, length))
    return 1;
  /* TEXT may be NULL where there is none.  */
  if (length == 0 || !take_plain (&x, &form, &end, text, text + length) || end != text + length)
    return 0;
  /* A plain number lies inline.  */
  br__number_put_small (z, x.num, br__small_den (&x));
  return 1;
}

br_status
br__numeral_scan (br__numeral *n, const br__reader *r, size_t at)
{
  if (br__numeral_plain (n, r, at))
    return BR_OK;
  br__numeral new = BR__NUMERAL_ZERO;
  run whole = take_run (r, at);
  fraction f;
  br_status status;

  new.start = at;
  if (whole.kind == BR__GLYPH_DIGIT)
    status = digits_value (&new, r, &whole);
  else if (whole.kind == BR__GLYPH_POINT)
    {
      whole.end = at;
      status = decimal_value (&new, r, &whole);
      if (status == BR_OK)
        status = refuse_fraction (r, &new);
    }
  else if (find_fraction (&f, r, at))
    {
      new.form = BR__FORM_FRACTION;
      new.end = f.end;
      status = fraction_value (&new.value, NULL, r, &f);
    }
  else
    status = br__fail (r->error, BR_SYNTAX, at, br__glyph_at (r->text, r->length, at).length,
                       "a measure begins with a number");
  if (status == BR_OK && new.end < r->length && (r->text[new.end] | 0x20) == 'e')
    status = refuse_exponent (r, &new);
  if (status == BR_OK)
    {
      br_number_swap (&n->value, &new.value);
      n->start = new.start;
      n->end = new.end;
      n->form = new.form;
    }
  br_number_clear (&new.value);
  return status;
}
