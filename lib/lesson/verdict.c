/* SPDX-License-Identifier: LGPL-3.0-or-later
   verdict.c - reads an answer as the whole project reads measures, and says what is to be said of it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/verdict.h"
#include "measure/measure.h"

/* An answer that is longer is none.  */
#define MOST_BYTES 200

const char *
br__verdict_name (size_t index)
{
  static const char *const names[] =
  {
    "right", "not in lowest terms", "other form", "unit missing", "wrong", "unreadable", "no answer"
  };
  return index < BR__JUDGEMENTS ? names[index] : br__mistake_name ((br__mistake) (index - BR__JUDGEMENTS));
}

void
br__key_clear (br__key *key)
{
  br_number_clear (&key->exact);
  br_number_clear (&key->mark);
  br_number_clear (&key->step);
  for (unsigned i = 0; i < BR__MOST_WRONG; i++)
    br_number_clear (&key->wrong[i]);
}

/* How the number of an answer is written.  */
typedef struct form
{
  int decimal, fraction;
  int64_t num, den;             /* of its fraction, 0 where it is too long to say */
} form;

static int64_t
more_digits (int64_t n, int digit)
{
  return n < 0 || n > 100000000 ? -1 : n * 10 + digit;
}

/* Digits one after another make a number; a slash between two numbers, a fraction.  */
static form
form_of (const char *text, size_t length)
{
  form f = { 0, 0, 0, 0 };
  int64_t number = 0, before = 0;
  int slash = 0, running = 0;
  for (size_t at = 0; at < length; )
    {
      br__glyph g = br__glyph_at (text, length, at);
      int digit = g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_SUPERSCRIPT || g.kind == BR__GLYPH_SUBSCRIPT;
      if (digit)
        {
          number = more_digits (running ? number : 0, g.num);
          if (slash)
            {
              f.fraction = 1;
              f.num = before;
              f.den = number;
            }
        }
      else if (g.kind == BR__GLYPH_SLASH || g.kind == BR__GLYPH_FRACTION_SLASH)
        {
          before = number;
          slash = 1;
        }
      else if (slash && f.fraction)
        slash = 0;
      f.decimal |= g.kind == BR__GLYPH_POINT;
      running = digit;
      at += g.length;
    }
  return f;
}

/* The judgement on an answer of the right size.  */
static br__judgement
judge_form (const char *text, size_t length, const br_measure *m, const br__key *key)
{
  form f = form_of (text, length);
  if (f.fraction && f.num >= 0 && f.den > 0 && br__ratio_of (f.num, f.den).den != f.den)
    return BR__NOT_LOWEST;
  if (f.fraction && (f.num >= f.den || key->ask == BR__ASK_DECIMAL))
    return BR__OTHER_FORM;
  if (f.decimal && key->ask != BR__ASK_DECIMAL && !br_number_is_integer (&key->exact))
    return BR__OTHER_FORM;
  if (!m->unit && key->unit)
    return BR__NO_UNIT;
  return m->unit && !key->unit ? BR__OTHER_FORM : BR__RIGHT;
}

/* The mistake that gives VALUE, or BR__MISTAKES: those of the key, then a mark or a whole away.  */
static br_status
find_mistake (br__mistake *mistake, const br_number *value, const br__key *key)
{
  br_number off = BR_NUMBER_ZERO;
  br_status status;
  *mistake = BR__MISTAKES;
  for (unsigned i = 0; i < key->wrong_count; i++)
    if (br_number_equal (value, &key->wrong[i]))
      {
        *mistake = key->mistake[i];
        return BR_OK;
      }
  status = br_number_sub (&off, value, &key->exact);
  if (status == BR_OK)
    status = br_number_abs (&off, &off);
  if (status == BR_OK && br_number_equal (&off, &key->mark))
    *mistake = BR__MISTAKE_MARK;
  else if (status == BR_OK && key->ask != BR__ASK_DECIMAL && br_number_equal (&off, &key->step))
    *mistake = BR__MISTAKE_WHOLE;
  br_number_clear (&off);
  return status;
}

/* Bytes of a quotation mark at S, or 0: straight, single, curly, low or angled.  */
static size_t
quote_at (const char *s)
{
  static const char *const quotes[] =
  {
    "\"", "'", "\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E", "\xE2\x80\x98", "\xE2\x80\x99", "\xC2\xAB", "\xC2\xBB"
  };
  for (size_t i = 0; i < sizeof quotes / sizeof quotes[0]; i++)
    if (strncmp (s, quotes[i], strlen (quotes[i])) == 0)
      return strlen (quotes[i]);
  return 0;
}

/* ANSWER without blanks and quotes around, a decimal comma made a point; *SKIPPED bytes in front.  */
static size_t
clean (char *text, size_t *skipped, const char *answer)
{
  size_t start = br__skip_blanks (answer, strlen (answer), 0), length, quote;
  quote = quote_at (answer + start);
  start = br__skip_blanks (answer, strlen (answer), start + quote);
  length = strlen (answer + start);
  if (length > MOST_BYTES)
    length = MOST_BYTES;
  memcpy (text, answer + start, length);
  while (length && (text[length - 1] == ' ' || text[length - 1] == '\t'))
    length--;
  text[length] = 0;
  for (size_t at = 0; quote && at < length; at++)
    if (quote_at (text + at) && at + quote_at (text + at) == length)
      length = at;
  text[length] = 0;
  /* Two apostrophes for the inch sign.  */
  if (length > 2 && strcmp (text + length - 2, "''") == 0)
    {
      text[--length] = 0;
      text[length - 1] = '"';
    }
  char *comma = strchr (text, ',');
  if (comma && comma > text && comma[-1] >= '0' && comma[-1] <= '9' && comma[1] >= '0' && comma[1] <= '9'
      && !strchr (comma + 1, ','))
    *comma = '.';
  *skipped = start;
  return length;
}

/* 1 if LENGTH bytes at TEXT are letters, points and blanks alone.  */
static int
is_words (const char *text, size_t length)
{
  for (size_t i = 0; i < length; i++)
    if (!((text[i] >= 'A' && text[i] <= 'Z') || (text[i] >= 'a' && text[i] <= 'z') || text[i] == ' ' || text[i] == '.'))
      return 0;
  return length > 0;
}

/* What TEXT says.  Of a count, the word for what is counted is no unit: 8 slats.  */
static br_status
read_answer (br_measure *m, const char *text, size_t length, const br__key *key, br_error *error)
{
  br_status status = br_measure_read (m, text, length, NULL, error);
  size_t n = strcspn (text, " ");
  if (status == BR_OK || status == BR_NO_MEMORY || key->ask != BR__ASK_COUNT || n >= length
      || !is_words (text + n, length - n))
    return status;
  return br_measure_read (m, text, n, NULL, NULL) == BR_OK ? BR_OK : status;
}

/* 1 if the number of M is right and its unit is not.  */
static br_status
is_other_unit (int *yes, const br_measure *m, const br__key *key)
{
  br_number size = BR_NUMBER_ZERO, number = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  *yes = 0;
  if (!m->unit || m->unit == key->unit || m->unit->num == 0)
    return BR_OK;
  status = br_number_set_ratio (&size, m->unit->num, m->unit->den);
  if (status == BR_OK)
    status = br_number_div (&number, &m->value, &size);
  if (status == BR_OK)
    status = br_number_mul (&number, &number, &key->step);
  if (status == BR_OK)
    *yes = br_number_equal (&number, &key->exact);
  br_number_clear (&size);
  br_number_clear (&number);
  return status;
}

/* In the unit asked for where none is written.  */
static br_status
in_unit (br_number *value, const br_measure *m, const br__key *key)
{
  if (m->unit || !key->unit)
    return br_number_set (value, &m->value);
  return br_number_mul (value, &m->value, &key->step);
}

br_status
br__judge (br__verdict *v, const char *answer, const br__key *key)
{
  char text[MOST_BYTES + 1];
  size_t skipped = 0, length = clean (text, &skipped, answer);
  br_measure m = BR_MEASURE_ZERO;
  br_number value = BR_NUMBER_ZERO;
  br__mistake mistake = BR__MISTAKES;
  int other = 0;
  br_status status;
  memset (v, 0, sizeof *v);
  v->index = BR__NO_ANSWER;
  if (!length)
    return BR_OK;
  status = read_answer (&m, text, length, key, &v->error);
  if (status != BR_OK && status != BR_NO_MEMORY)
    {
      v->index = BR__UNREADABLE;
      v->error.offset += skipped;
      return BR_OK;
    }
  if (status == BR_OK)
    status = in_unit (&value, &m, key);
  if (status == BR_OK)
    status = is_other_unit (&other, &m, key);
  int of_kind = !m.unit || !key->unit || m.unit->dimension == key->unit->dimension;
  if (status == BR_OK && of_kind && br_number_equal (&value, &key->exact))
    v->index = judge_form (text, length, &m, key);
  else if (status == BR_OK && other)
    v->index = (size_t) BR__JUDGEMENTS + BR__MISTAKE_UNIT;
  else if (status == BR_OK && !of_kind)
    v->index = BR__WRONG;
  else if (status == BR_OK)
    {
      status = find_mistake (&mistake, &value, key);
      v->index = mistake == BR__MISTAKES ? (size_t) BR__WRONG : (size_t) BR__JUDGEMENTS + mistake;
    }
  br_number_clear (&value);
  br_measure_clear (&m);
  return status;
}
