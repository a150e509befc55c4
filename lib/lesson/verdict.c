/* SPDX-License-Identifier: LGPL-3.0-or-later
   verdict.c - reads an answer as the whole project reads measures, and says what is to be said of it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/answer.h"
#include "lesson/verdict.h"
#include "measure/measure.h"

const char *
br__verdict_name (size_t index)
{
  static const char *const names[] =
  {
    "right", "not in lowest terms", "other form", "unit missing", "rounded", "wrong", "unreadable", "no answer"
  };
  return index < BR__JUDGEMENTS ? names[index] : br__mistake_name ((br__mistake) (index - BR__JUDGEMENTS));
}

void
br__key_clear (br__key *key)
{
  br_number_clear (&key->exact);
  br_number_clear (&key->mark);
  br_number_clear (&key->step);
  br_number_clear (&key->also);
  br_number_clear (&key->also_step);
  for (unsigned i = 0; i < BR__MOST_WRONG; i++)
    br_number_clear (&key->wrong[i]);
}

static int64_t
more_digits (int64_t n, int digit)
{
  return n < 0 || n > 100000000 ? -1 : n * 10 + digit;
}

/* Digits one after another make a number; a slash between two numbers, a fraction.  */
br__written
br__written_of (const char *text, size_t length)
{
  br__written f = { 0, 0, 0, 0, 0, 0, 0, 0 };
  int64_t number = 0, before = 0;
  int slash = 0, runs = 0, running = -1;  /* numbers so far; the kind of digit before */
  for (size_t at = 0; at < length; )
    {
      br__glyph g = br__glyph_at (text, length, at);
      int digit = g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_SUPERSCRIPT || g.kind == BR__GLYPH_SUBSCRIPT;
      runs += (digit && running != g.kind) || g.kind == BR__GLYPH_VULGAR;
      if (g.kind == BR__GLYPH_VULGAR)
        {
          f.fraction = 1;
          f.num = g.num;
          f.den = g.den;
          f.mixed = runs > 1;
        }
      if (digit)
        {
          number = more_digits (running == g.kind ? number : 0, g.num);
          f.places += f.decimal != 0;
          if (slash)
            {
              f.fraction = 1;
              f.num = before;
              f.den = number;
              f.mixed = runs > 2;
            }
        }
      else if (g.kind == BR__GLYPH_SLASH || g.kind == BR__GLYPH_FRACTION_SLASH)
        {
          before = number;
          slash = 1;
        }
      else if (slash && f.fraction)
        slash = 0;
      f.decimal |= g.kind == BR__GLYPH_POINT && br__glyph_at (text, length, at + 1).kind == BR__GLYPH_DIGIT;
      f.percent |= g.code == '%' || (length - at >= 7 && br__word_is (text + at, 7, "percent"));
      f.sign |= at == 0 && (g.kind == BR__GLYPH_DASH || g.code == '+');
      running = digit ? (int) g.kind : -1;
      at += g.length;
    }
  return f;
}

/* WHOLE = 1 if VALUE, the right size, is a whole number in the unit in which M says it.  */
static br_status
is_whole (int *whole, const br_number *value, const br_measure *m, const br__key *key)
{
  br_number size = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  if (m->unit && m->unit->num)
    status = br_number_set_ratio (&size, m->unit->num, m->unit->den);
  else
    status = key->unit ? br_number_set (&size, &key->step) : br_number_set_int (&size, 1);
  if (status == BR_OK)
    status = br_number_div (&size, value, &size);
  *whole = status == BR_OK && br_number_is_integer (&size);
  br_number_clear (&size);
  return status;
}

/* 1 where A is in two units of which one is UNIT: 1 m 24 cm is in metres.  */
static int
has_unit (const br__answer *a, const br_unit *unit)
{
  size_t end = 0;
  for (size_t at = 1; unit && at < a->length; at++)
    if (!br__is_letter (a->text[at - 1]) && br__unit_scan (&end, a->text, a->length, at) == unit)
      return 1;
  return 0;
}

/* The verdict on an answer of the right size, WHOLE in its unit or not.  */
static size_t
judge_form (const br__written *f, const br__answer *a, int whole, const br__key *key)
{
  const br_measure *m = &a->measure;
  int any = key->ask == BR__ASK_ANY, one = key->ask == BR__ASK_ONE_FRACTION;
  if (f->fraction && f->num >= 0 && f->den > 0 && br__ratio_of (f->num, f->den).den != f->den)
    return BR__NOT_LOWEST;
  if (f->fraction && !any && (key->ask == BR__ASK_DECIMAL || (one ? f->mixed : f->num >= f->den)))
    return BR__OTHER_FORM;
  /* A share is no length.  */
  if (f->percent && key->unit)
    return (size_t) BR__JUDGEMENTS + BR__MISTAKE_UNIT;
  if (f->percent && !any)
    return BR__OTHER_FORM;
  /* 3' 15" goes into feet and inches once more.  */
  if (a->carried && !any)
    return BR__OTHER_FORM;
  if (f->decimal && !any && key->ask != BR__ASK_DECIMAL && !whole)
    return BR__OTHER_FORM;
  /* A part of a foot is said in inches.  */
  if (f->fraction && !any && !whole && m->unit && m->unit != key->unit && strcmp (m->unit->name, "ft") == 0)
    return BR__OTHER_FORM;
  if (!m->unit && key->unit)
    return BR__NO_UNIT;
  if (m->unit && !key->unit)
    return (size_t) BR__JUDGEMENTS + BR__MISTAKE_UNIT;
  /* Feet and inches go together; a millimetre does for neither, nor a square foot for square inches.  */
  return !any && m->unit != key->unit && !has_unit (a, key->unit)
         && (br__unit_is_decimal (m->unit) || br__unit_is_decimal (key->unit) || key->unit->dimension != BR_LENGTH) ? BR__OTHER_FORM : BR__RIGHT;
}

/* 1 if VALUE is the key's without its whole number.  */
static br_status
lacks_whole (int *yes, const br_number *value, const br__key *key)
{
  br_number rest = BR_NUMBER_ZERO, one = BR_NUMBER_ZERO;
  br_status status = br_number_sub (&rest, &key->exact, value);
  *yes = 0;
  if (status == BR_OK)
    status = br_number_div (&rest, &rest, &key->step);
  if (status == BR_OK)
    status = br_number_div (&one, value, &key->step);
  /* The rest is whole, the value less than one, both of one sign.  */
  if (status == BR_OK && br_number_is_integer (&rest) && br_number_sign (&rest) * br_number_sign (value) > 0)
    {
      br_number size = BR_NUMBER_ZERO;
      status = br_number_set_int (&size, br_number_sign (value));
      *yes = status == BR_OK && br_number_cmp (&one, &size) * br_number_sign (value) < 0;
      br_number_clear (&size);
    }
  br_number_clear (&rest);
  br_number_clear (&one);
  return status;
}

/* The mistake that gives VALUE, or BR__MISTAKES: a part left off, those of the key, then a mark or a whole away.  */
static br_status
find_mistake (br__mistake *mistake, const br_number *value, const br__written *f, const br__key *key)
{
  br_number off = BR_NUMBER_ZERO;
  int lacks = 0;
  br_status status = br_number_neg (&off, &key->exact);
  *mistake = BR__MISTAKES;
  /* Who writes a plus, or "over", has the sign and the wrong one.  */
  if (status == BR_OK && br_number_sign (value) > 0 && br_number_equal (&off, value))
    *mistake = f->sign ? BR__MISTAKE_SIGN : BR__MISTAKE_NO_SIGN;
  for (unsigned i = 0; i < key->wrong_count && *mistake == BR__MISTAKES; i++)
    if (br_number_equal (value, &key->wrong[i]))
      *mistake = key->mistake[i];
  if (status == BR_OK && *mistake == BR__MISTAKES)
    status = lacks_whole (&lacks, value, key);
  if (lacks)
    *mistake = BR__MISTAKE_NO_WHOLE;
  if (status == BR_OK && *mistake == BR__MISTAKES)
    status = br_number_sub (&off, value, &key->exact);
  if (status == BR_OK && *mistake == BR__MISTAKES)
    status = br_number_abs (&off, &off);
  if (status == BR_OK && *mistake == BR__MISTAKES && br_number_equal (&off, &key->mark))
    *mistake = BR__MISTAKE_MARK;
  else if (status == BR_OK && *mistake == BR__MISTAKES && key->ask != BR__ASK_DECIMAL && br_number_equal (&off, &key->step))
    *mistake = BR__MISTAKE_WHOLE;
  br_number_clear (&off);
  return status;
}

/* 1 if VALUE is what EXACT, half way between two multiples of PLACE, becomes where it is rounded up or to the even one.  */
static br_status
is_kept_tie (int *yes, const br_number *value, const br_number *place, const br_number *exact)
{
  br_number wanted = BR_NUMBER_ZERO, count = BR_NUMBER_ZERO;
  br_status status = br_number_div (&count, exact, place);
  for (br_ties ties = BR_TIES_UP; status == BR_OK && !*yes && ties <= BR_TIES_EVEN; ties += BR_TIES_EVEN - BR_TIES_UP)
    {
      status = br_number_round (&wanted, NULL, &count, BR_NEAREST, ties);
      if (status == BR_OK)
        status = br_number_mul (&wanted, &wanted, place);
      *yes = status == BR_OK && br_number_equal (&wanted, value);
    }
  br_number_clear (&wanted);
  br_number_clear (&count);
  return status;
}

/* 1 if VALUE, written with so many places of its unit, is the key's to those places: half way, away from zero or to the even digit
   (ISO 80000-1, annex B, has both, from memory).  A whole number is only where the unit is not larger than the one that is asked
   for.  *NEAR: less than a mark away, or to places of a number that has no marks.  */
static br_status
is_rounded (int *yes, int *near, const br_number *value, const br_measure *m, const br__written *f, const br__key *key)
{
  br_number off = BR_NUMBER_ZERO, half = BR_NUMBER_ZERO;
  int64_t num = m->unit ? m->unit->num : 1, den = m->unit ? m->unit->den : 1, tens = 2;
  br_status status;
  *yes = 0;
  if (f->fraction || f->places > 12 || num == 0)
    return BR_OK;
  for (unsigned i = 0; i < f->places + (f->percent ? 2 : 0); i++)
    tens *= 10;
  status = br_number_set_ratio (&half, num, den);
  if (status == BR_OK && !m->unit && key->unit)
    status = br_number_set (&half, &key->step);
  int too_large = status == BR_OK && !f->places && m->unit && br_number_cmp (&half, &key->step) > 0;
  if (status == BR_OK)
    status = br_number_set_int (&off, tens);
  if (status == BR_OK)
    status = br_number_div (&half, &half, &off);
  if (status == BR_OK)
    status = br_number_sub (&off, value, &key->exact);
  if (status == BR_OK)
    status = br_number_abs (&off, &off);
  *near = br_number_sign (&key->mark) ? br_number_cmp (&off, &key->mark) < 0 : f->places > 0;
  int way = status == BR_OK ? br_number_cmp (&off, &half) : 1, kept = way < 0;
  if (status == BR_OK && way == 0)
    status = br_number_add (&half, &half, &half);
  if (status == BR_OK && way == 0)
    status = is_kept_tie (&kept, value, &half, &key->exact);
  *yes = status == BR_OK && !too_large && br_number_sign (value) != 0 && kept;
  br_number_clear (&off);
  br_number_clear (&half);
  return status;
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

/* 1 if VALUE is the key's in hundredths: 15 for 15 %.  */
static br_status
lacks_percent (int *yes, const br_number *value, const br__key *key)
{
  br_number share = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&share, 100);
  if (status == BR_OK)
    status = br_number_div (&share, value, &share);
  *yes = status == BR_OK && br_number_equal (&share, &key->exact);
  br_number_clear (&share);
  return status;
}

/* What is to be said of VALUE, which is of the dimension asked for and not the right one.  */
static br_status
judge_wrong (br__verdict *v, const br_number *value, const br_measure *m, const br__written *f, const br__key *key)
{
  br__mistake mistake = BR__MISTAKES;
  int rounded = 0, bare = 0;
  v->near = 0;
  br_status status = find_mistake (&mistake, value, f, key);
  if (status == BR_OK && mistake == BR__MISTAKES)
    status = is_rounded (&rounded, &v->near, value, m, f, key);
  if (status == BR_OK && !f->percent && !m->unit && !key->unit && key->answer && strchr (key->answer, '%'))
    status = lacks_percent (&bare, value, key);
  v->index = bare ? (size_t) BR__NO_UNIT : rounded ? (size_t) BR__ROUNDED : mistake == BR__MISTAKES ? (size_t) BR__WRONG : (size_t) BR__JUDGEMENTS + mistake;
  v->places = f->places;
  return status;
}

static br_status
judge (br__verdict *v, const char *written, const br__key *key)
{
  br__answer a;
  br_number value = BR_NUMBER_ZERO;
  int other = 0, whole = 0;
  br_status status;
  memset (v, 0, sizeof *v);
  v->index = BR__NO_ANSWER;
  if (br__answer_is_none (written))
    return BR_OK;
  status = br__answer_read (&a, written, key->ask == BR__ASK_COUNT, &v->error);
  if (status != BR_OK && status != BR_NO_MEMORY)
    v->index = BR__UNREADABLE;
  if (status != BR_OK)
    {
      br__answer_clear (&a);
      return status == BR_NO_MEMORY ? status : BR_OK;
    }
  const br_measure *m = &a.measure;
  v->unit = m->unit != NULL;
  br__written f = br__written_of (a.text, a.length);
  status = in_unit (&value, m, key);
  if (status == BR_OK)
    status = is_other_unit (&other, m, key);
  int of_kind = !m->unit || !key->unit || m->unit->dimension == key->unit->dimension;
  if (status == BR_OK && of_kind && br_number_equal (&value, &key->exact))
    {
      status = is_whole (&whole, &value, m, key);
      v->index = judge_form (&f, &a, whole, key);
      if (v->index == BR__NO_UNIT && a.quoted && strcmp (key->unit->name, "in") == 0)
        v->index = BR__RIGHT;
    }
  else if (status == BR_OK && other)
    v->index = (size_t) BR__JUDGEMENTS + BR__MISTAKE_UNIT;
  else if (status == BR_OK && !of_kind)
    v->index = BR__WRONG;
  else if (status == BR_OK)
    status = judge_wrong (v, &value, m, &f, key);
  br_number_clear (&value);
  br__answer_clear (&a);
  return status;
}

/* Where the next answer begins in WRITTEN, parted from the one before behind FROM, and with a number on both sides; NULL where
   there is no other.  FIRST bytes are the one before it; *SAYS_OR: by a word or a bracket, not by a sign.  */
static const char *
other_answer (const char *written, size_t from, size_t *first, int *says_or)
{
  static const char *const joints[] = { " or ", "(", "[", "(or ", " which is ", " / ", ", ", ", or ", "; ", " and ", " ~ ", "\xE2\x89\x88" };
  const char *word = NULL, *sign = strchr (written + from, '=');
  size_t joint = 1;
  /* The one in "x = 5/8" parts nothing.  */
  while (sign && !br__has_number (written, (size_t) (sign - written)))
    sign = strchr (sign + 1, '=');
  for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++)
    {
      const char *at = strstr (written + from, joints[i]);
      /* Behind a number a slash is a fraction's.  */
      if (!at || (word && word < at) || (joints[i][1] == '/' && at > written && br__is_digit (at[-1])))
        continue;
      word = at;
      joint = strlen (joints[i]);
    }
  *says_or = word && (!sign || word < sign);
  const char *at = *says_or ? word : sign;
  if (!at || !br__has_number (written, (size_t) (at - written)) || !br__has_number (at, strlen (at)))
    return NULL;
  *first = (size_t) (at - written);
  return at + (*says_or ? joint : 1);
}

/* Two answers in one: the better of them where both have the right size.  Else it is not known which is meant, unless an
   equals sign says that the last is what came out.  */
static br_status
judge_all (br__verdict *v, const char *written, const br__key *key)
{
  char first[2 * BR__ANSWER_BYTES];
  br__answer words = { .length = strlen (written) };
  br__verdict other;
  int says_or = 0;
  size_t length = 0;
  words.length = words.length < BR__ANSWER_BYTES ? words.length : BR__ANSWER_BYTES;
  memcpy (words.text, written, words.length);
  br__answer_drop_reason (&words);
  br__answer_put_words (&words);
  br__answer_put_equals (&words);
  br_status status = judge (v, written, key);
  const char *next = words.text;
  for (size_t from = 0; status == BR_OK; from = length + 1)
    {
      next = other_answer (words.text, from, &length, &says_or);
      if (!next)
        return status;
      memcpy (first, words.text, length);
      first[length] = 0;
      status = judge (&other, first, key);
      if (status == BR_OK && (other.index <= BR__NO_UNIT || (other.index == BR__ROUNDED && other.near)))
        break;
    }
  if (status != BR_OK)
    return status;
  status = judge (v, next, key);
  /* "19/8 or 2-3/8 in", "3/8 = 0.375 in": the unit is that of both.  */
  if (status == BR_OK && v->unit && v->index == BR__OTHER_FORM && other.index == BR__NO_UNIT)
    v->index = BR__RIGHT;
  /* "5 14/16 in = 5 7/8".  */
  else if (status == BR_OK && v->index == BR__NO_UNIT && other.index == BR__NOT_LOWEST && other.unit)
    v->index = BR__RIGHT;
  /* "5/8 = 0.625" lacks its unit, and nothing else.  */
  else if (status == BR_OK && v->index != BR__RIGHT && v->index < BR__NO_UNIT && !v->unit && other.index == BR__NO_UNIT)
    v->index = BR__NO_UNIT;
  /* "4' 3-1/2" or 4' 4"" are two.  */
  else if (status == BR_OK && (v->index < BR__ROUNDED || (v->index == BR__ROUNDED && v->near)) && other.index < v->index && !(v->index == BR__NO_UNIT && !other.unit))
    *v = other;
  else if (status == BR_OK && v->index > BR__NO_UNIT && says_or)
    status = judge (v, written, key);
  return status;
}

/* JOINED = WRITTEN without what parts digits in threes, as in 1,450 mm and 1 450 mm; 0 where nothing does.  */
static int
join_threes (char joined[BR__ANSWER_BYTES + 1], const char *written)
{
  size_t count = 0;
  int found = 0;
  if (strlen (written) > BR__ANSWER_BYTES)
    return 0;
  for (size_t at = 0; written[at]; at++)
    {
      int behind = at > 0 && br__is_digit (written[at - 1]) && strchr (", '", written[at]);
      if (behind && strspn (written + at + 1, "0123456789") == 3 && written[at + 4] != '/')
        found = 1;
      else
        joined[count++] = written[at];
    }
  joined[count] = 0;
  return found;
}

/* PARTED = WRITTEN without a stop between a whole number and its fraction, as in 2. 3/8; 0 where there is none.  */
static int
part_stop (char parted[BR__ANSWER_BYTES + 1], const char *written)
{
  br__answer a = { .length = strlen (written) };
  int found = 0;
  if (a.length > BR__ANSWER_BYTES)
    return 0;
  memcpy (a.text, written, a.length + 1);
  for (size_t at = 1; at < a.length; at++)
    if (br__is_digit (a.text[at - 1]) && strncmp (a.text + at, ". ", 2) == 0 && br__fraction_end (&a, at + 2) > at + 2)
      {
        br__answer_replace (&a, at, 1, "");
        found = 1;
      }
  memcpy (parted, a.text, a.length + 1);
  return found;
}

/* As it stands, or with digits in threes or without a stray stop where that is right.  */
static br_status
judge_threes (br__verdict *v, const char *written, const br__key *key)
{
  char joined[BR__ANSWER_BYTES + 1];
  br__verdict other;
  br_status status = judge_all (v, written, key);
  if (status != BR_OK || v->index <= BR__NO_UNIT || !(join_threes (joined, written) || part_stop (joined, written)))
    return status;
  status = judge_all (&other, joined, key);
  if (status == BR_OK && other.index <= BR__NO_UNIT)
    *v = other;
  return status;
}

br_status
br__judge (br__verdict *v, const char *written, const br__key *key)
{
  br_status status = judge_threes (v, written, key);
  if (status != BR_OK || !key->has_also || v->index == BR__RIGHT || v->index == BR__NO_ANSWER || v->index == BR__UNREADABLE)
    return status;
  br__verdict other;
  br__key also = *key;
  also.exact = key->also;
  also.step = key->also_step;
  also.unit = key->also_unit;
  also.ask = key->also_ask;
  also.wrong_count = 0;
  status = judge_all (&other, written, &also);
  if (status == BR_OK && other.index <= BR__NO_UNIT && other.index < v->index)
    *v = other;
  return status;
}

void
br__put_verdict (br_text *t, const br__verdict *v)
{
  br__text_puts (t, br__verdict_name (v->index));
  if (v->index == BR__UNREADABLE)
    br__text_printf (t, " at character %zu: %s", v->error.offset + 1, v->error.message);
  if (v->index == BR__ROUNDED && v->places)
    br__text_printf (t, " to %u place%s", v->places, v->places == 1 ? "" : "s");
  else if (v->index == BR__ROUNDED)
    br__text_puts (t, " to a whole number");
}
