/* SPDX-License-Identifier: LGPL-3.0-or-later
   table.c - matches a line with the rows of rows.c, which says how they are written, and of orders.c.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "formula/functions.h"
#include "measure/measure.h"
#include "phrase/phrase.h"
#include "phrase/words.h"

#define MOST_SLOTS 5

typedef struct slot
{
  size_t start, count;          /* words */
  long number;                  /* of an ordinal, or 0 */
  char kind;
} slot;

typedef struct match
{
  const br__words *l;
  size_t from;                  /* the phrase begins at this word */
  slot slots[MOST_SLOTS];
  size_t count;
  int hints;                    /* a hint is made of it, which is read as it stands */
} match;

/* The literal TYPED (a|b) of LENGTH bytes stands at word I, which is no name that is meant; a colon may be behind it.  */
static int
literal_at (const br__words *l, size_t i, const char *typed, size_t length)
{
  const size_t whole = i < l->count ? l->word[i].length : 0, bare = whole - (whole > 1 && l->word[i].s[whole - 1] == ':');
  while (whole && length)
    {
      const char *bar = memchr (typed, '|', length);
      size_t n = bar ? (size_t) (bar - typed) : length;
      if ((n == whole || n == bare) && br__word_starts (l, i, typed, n))
        return !br__word_meant (l, i);
      typed += n + (bar != NULL);
      length -= n + (bar != NULL);
    }
  return 0;
}

/* The statement that the word I is, which no size is called.  */
static const br__statement *
statement_at (const br__words *l, size_t i)
{
  return i < l->count && !br__word_known (l, i) ? br__statement_of (l->run, l->word[i].s, l->word[i].length) : NULL;
}

static int
is_setting (const br__words *l, size_t i)
{
  const br__statement *st = statement_at (l, i);
  return st && st->setting && st->follow != BR__FOLLOW_TEXT;
}

/* What is on or off.  */
static int
is_switch (const br__words *l, size_t i)
{
  const br__statement *st = statement_at (l, i);
  return st && st->words && strcmp (st->words, "on off") == 0;
}

/* The slot of kind KIND takes the word I; *NUMBER of an ordinal.  */
static int
slot_takes (const br__words *l, size_t i, char kind, long *number)
{
  int plural = 0;
  int64_t n, d;
  *number = 0;
  switch (kind)
    {
    case 'V': return br__word_begins_number (l, i);
    case 'L':
      return br__word_begins_number (l, i) || br__word_known (l, i) || br__word_is_unit (l, i)
             || (l->word[i].length == 1 && strchr ("+-*/^()", *l->word[i].s));
    case 'M': return br__word_ratio (l, i, &n, &d) && d > 1 && n == 1;
    case 'N':
      *number = br__cardinal (l, i) > 1 ? (long) br__cardinal (l, i) : 0;
      return *number || (br__word_ratio (l, i, &n, &d) && d == 1);
    case 'P': return br__word_begins_number (l, i) && l->word[i].s[l->word[i].length - 1] == '%';
    case 'E':
      {
        br__words one = { .run = l->run, .word = { { l->word[i].s + 2, l->word[i].length - 2 } }, .count = l->word[i].length > 2 };
        const int found = one.count && strchr ("?x_", l->word[i].s[0]) && l->word[i].s[1] == '/' && br__word_ratio (&one, 0, &n, &d) && d == 1;
        *number = found ? (long) n : 0;
        return found;
      }
    case 'H': return br__statement_of (l->run, l->word[i].s, l->word[i].length) || br__function_find (l->word[i].s, l->word[i].length);
    case 'T': return is_setting (l, i);
    case 'W': return !(l->word[i].length == 1 && l->word[i].s[0] == '=');
    case 'O': return is_switch (l, i);
    case 'K': return br__word_known (l, i);
    case 'G': return (br__word_thing (l, i) & BR__THING_SHAPE) != 0;
    case 'A':
      {
        size_t length;
        return br__word_called (&length, l, i) != 0;
      }
    case 'X': return br__word_is_new (l, i);
    case 'C': return br__words_at (l, i, "<|<=|=|>=|>|!=|\xe2\x89\xa4|\xe2\x89\xa5");
    case 'U': return br_unit_find (l->word[i].s, l->word[i].length) != NULL && !br__word_known (l, i);
    case 'D':
    case 'S':
      *number = (long) br__ordinal (l, i, &plural);
      return *number > 1 && plural == (kind == 'S');
    default: return 1;
    }
}

static int
is_sum_sign (const br__words *l, size_t i)
{
  return br__word_at (l, i, "plus") || br__word_at (l, i, "minus")
         || (l->word[i].length == 1 && (l->word[i].s[0] == '+' || l->word[i].s[0] == '-'));
}

/* The first word of a sum's sign in S, or its end.  */
static size_t
sum_in (const br__words *l, const slot *s)
{
  size_t i = s->start;
  while (i < s->start + s->count && !is_sum_sign (l, i))
    i++;
  return i;
}

static int
match_from (match *m, size_t i, const char *typed)
{
  size_t length = strcspn (typed, " ");
  const char *rest = typed + length + (typed[length] == ' ');
  if (!*typed)
    return i == m->l->count;
  if (*typed == '[')
    return (literal_at (m->l, i, typed + 1, length - 2) && match_from (m, i + 1, rest)) || match_from (m, i, rest);
  if (!br__phrase_is_slot (typed, length))
    return literal_at (m->l, i, typed, length) && match_from (m, i + 1, rest);
  slot *s = &m->slots[m->count];
  for (size_t n = 1; i + n <= m->l->count && (n == 1 || strchr ("*QL", *typed)) && m->count < MOST_SLOTS; n++)
    {
      long number = 0;
      if (*typed == '.' ? !br__ends_in (m->l->word[i].s, m->l->word[i].length, typed, length) : !slot_takes (m->l, *typed == 'L' ? i + n - 1 : i, *typed, &number))
        break;
      *s = (slot) { i, n, number, *typed };
      if (*typed == 'Q' && sum_in (m->l, s) == i + n)
        continue;
      m->count++;
      if (match_from (m, i + n, rest))
        return 1;
      m->count--;
    }
  return 0;
}

/* wheel = wheel + 1, and not wheel = axle + 1.  */
static int
same_names (const match *m)
{
  size_t a = m->slots[0].start, b = m->slots[1].start;
  return m->l->word[a].length == m->l->word[b].length && memcmp (m->l->word[a].s, m->l->word[b].s, m->l->word[a].length) == 0;
}

/* A scale is of two lengths, 1/4" = 1', and 3/4 = 6/8 is none.  */
static int
is_fraction (const match *m)
{
  int64_t n, d;
  return br__word_ratio (m->l, m->slots[0].start, &n, &d);
}

/* A number, a name or a function is in S.  */
static int
says_value (const br__words *l, const slot *s)
{
  for (size_t i = s->start; i < s->start + s->count; i++)
    {
      if (br__word_known (l, i) || br__ordinal (l, i, NULL) || br__function_find (l->word[i].s, l->word[i].length))
        return 1;
      for (size_t k = 0; k < l->word[i].length; k++)
        if (br__measure_begins (l->word[i].s, l->word[i].length, k))
          return 1;
    }
  return 0;
}

/* Readings of what begins with any words want a value there: tape measure in 16ths has none.  */
static int
lacks_value (const match *m, const br__phrase_rule *r)
{
  const char *typed = r->typed + (strncmp (r->typed, "[round] ", 8) == 0 ? 8 : 0);
  const slot *s = &m->slots[0];
  return *typed == '*' && ((strchr (r->is, '|') && !says_value (m->l, s))
                           || ((strchr (r->is, '|') || *r->is == '?') && br__word_asks (m->l->word[s->start].s, m->l->word[s->start].length)));
}

/* The row of the table R, whose words begin so, that the words from FROM on are, or NULL.  */
static const br__phrase_rule *
find_in (const br__phrase_rule *r, const br__row_letters *begins, match *m, const br__words *l, size_t from)
{
  *m = (match) { .l = l, .from = from };
  const uint32_t first = from < l->count ? br__letter_bit (*l->word[from].s) : 0;
  uint32_t letters = 0;
  for (size_t i = from; i < l->count; i++)
    letters |= br__letter_bit (*l->word[i].s);
  const int statement = statement_at (l, from) != NULL, rounds = br__word_at (l, from, "round");
  for (size_t i = 0; r->typed; r++, i++)
    {
      if (begins && !((begins[i].first & first) && (begins[i].more[0] & letters) && (begins[i].more[1] & letters) && (begins[i].more[2] & letters)))
        continue;
      m->count = 0;
      /* A value is no check, what begins with any words is no statement, and only a number asks for its sum.  */
      const int any = *r->typed == '*' || (!rounds && strncmp (r->typed, "[round] *", 9) == 0);
      if ((from > 0 && strstr (r->is, "check ")) || (any && statement)
          || (strncmp (r->typed, "* =", 3) == 0 && !br__word_begins_number (l, from)))
        continue;
      if (match_from (m, from, r->typed) && !lacks_value (m, r) && (strncmp (r->typed, "K = K", 5) != 0 || r->typed[6] == '=' || same_names (m))
          && (strcmp (r->typed, "V = V") != 0 || !is_fraction (m)))
        return r;
    }
  return NULL;
}

static const br__phrase_rule *
find_row (match *m, const br__words *l, size_t from)
{
  const struct br__phrase_index *index = br__phrase_index (l->run->sheet);
  const br__phrase_rule *r = find_in (br__phrase_rules, index ? index->rows : NULL, m, l, from);
  return r ? r : find_in (br__phrase_orders, index ? index->rows + index->orders : NULL, m, l, from);
}

/* What stands behind the phrase's end: a sum could go on behind it, or within it.  */
static int
is_open (const match *m, const char *is)
{
  int grouped = strchr (is, '{') || strchr (is, '(') || strchr (is, '@');
  if (!m->count || !grouped)
    return 0;
  const slot *last = &m->slots[m->count - 1], *first = &m->slots[0];
  if (strchr (is, '@') && br__words_mixed (m->l, last->start, last->count))
    return 1;
  return (last->start + last->count == m->l->count && sum_in (m->l, last) < m->l->count)
         || (strstr (is, "{1}") && first->start == m->from && sum_in (m->l, first) < first->start + first->count);
}

/* Puts the words from FROM up to TO; of a LIST with commas for `and`, or where LIST is 2 as in 2 and 3/8 at its end.  */
static void
put_words (br_text *t, const br__words *l, size_t from, size_t to, int list)
{
  for (size_t i = from; i < to; i++)
    {
      if (list == 2 && i + 2 == to && br__word_at (l, i, "and"))
        {
          br__text_printf (t, "-%.*s", (int) l->word[i + 1].length, l->word[i + 1].s);
          return;
        }
      int comma = t->length && br__text_string (t)[t->length - 1] == ',';
      if (list && (br__word_at (l, i, "and") || br__word_at (l, i, "&")) && i > from)
        {
          br__text_puts (t, comma ? "" : ",");
          /* a wheel and an axle */
          i += list && i + 2 < to && br__words_at (l, i + 1, "a|an") && br__word_is_new (l, i + 2) && !br__ordinal (l, i + 2, NULL);
          continue;
        }
      br__text_puts (t, i > from ? " " : "");
      br__text_put (t, l->word[i].s, l->word[i].length);
    }
}

/* A number or a name needs no brackets, but for a fraction before or behind POWER, or a unit before that.  */
static int
is_single (const br__words *l, const slot *s, int power)
{
  if (s->count != 1)
    return 0;
  br_measure m = BR_MEASURE_ZERO;
  int number = !power && br_measure_read (&m, l->word[s->start].s, l->word[s->start].length, NULL, NULL) == BR_OK;
  br_measure_clear (&m);
  const br_unit *unit;
  if (power && br__word_measure (l, s->start, &unit) && unit)
    return 0;
  for (size_t k = 0; k < l->word[s->start].length && !number; k++)
    if (!br__letter_at (l->word[s->start].s + k, 1, 1) && l->word[s->start].s[k] != '.')
      return 0;
  return 1;
}

/* The value of TEXT, which is no line of its own.  */
static br_status
value_of_text (br__value *v, const br__run *run, const br_text *text)
{
  br__run made = *run;
  br__lexer lex;
  br__tree tree = BR__TREE_ZERO;
  br_error error;
  made.error = &error;
  br_status status = br__lex_start (&lex, br__text_string (text), text->length, &error);
  if (status == BR_OK)
    status = br__parse (&tree, &lex, &error);
  if (status == BR_OK)
    status = br__value_of (v, &made, &tree);
  br__tree_clear (&tree);
  return status;
}

static int
is_length (const br__words *l, const slot *s)
{
  br_text text = BR_TEXT_ZERO;
  br__value v = BR__VALUE_ZERO;
  put_words (&text, l, s->start, s->start + s->count, 0);
  int found = !text.failed && value_of_text (&v, l->run, &text) == BR_OK && v.dimension == BR_LENGTH;
  br__value_clear (&v);
  br__text_clear (&text);
  return found;
}

/* Puts the words of S, which are a value, in the words of the language: square root of 2 as sqrt(2).  */
static void
put_value_words (br_text *t, const br__words *l, const slot *s)
{
  br__words part = { .run = l->run, .count = s->count };
  for (size_t i = 0; i < s->count; i++)
    part.word[i] = l->word[s->start + i];
  /* wheel = 3, rear = 4 */
  part.word[s->count - 1].length -= (size_t) (s->count == 1 && part.word[0].length > 1 && part.word[0].s[part.word[0].length - 1] == ',');
  size_t start = t->length, length;
  int64_t n, d;
  /* wheels, 2 wheelbases */
  if (part.count == 1 && !br__word_thing (&part, 0) && (br__word_called (&length, &part, 0) & BR__THING_SIZE))
    {
      br__text_printf (t, "%.*s", (int) length, part.word[0].s);
      return;
    }
  if (part.count == 2 && br__word_ratio (&part, 0, &n, &d) && (br__word_called (&length, &part, 1) & BR__THING_SIZE) && length < part.word[1].length)
    {
      br__text_printf (t, "%.*s * %.*s", (int) part.word[0].length, part.word[0].s, (int) length, part.word[1].s);
      return;
    }
  if (part.count > 1 && br__phrase_row (t, &part) && !br__statement_of (l->run, t->bytes + start, strcspn (t->bytes + start, " ")))
    return;
  t->length = start;
  if (t->bytes)
    t->bytes[start] = 0;
  br__phrase_numbers (&part);
  br__phrase_signs (&part);
  put_words (t, &part, 0, part.count, 0);
}

/* Puts IS up to END with its slots.  FIRST: of a phrase whose last slot is a sum, only the first member belongs to it.  */
static void
put_is (br_text *t, const match *m, const char *is, const char *end, int first)
{
  size_t stop = m->l->count;
  const slot *last = &m->slots[m->count ? m->count - 1 : 0];
  int power = memchr (is, '^', (size_t) (end - is)) != NULL;
  const int compares = strncmp (is, "check ", 6) == 0 || strncmp (is, "stack ", 6) == 0;
  int at_end = m->count && last->start + last->count == m->l->count && sum_in (m->l, last) < m->l->count;
  for (; is < end; is++)
    {
      if (!strchr ("${@&~", *is))
        {
          br__text_putc (t, *is);
          continue;
        }
      slot s = m->slots[is[1] - '1'];
      if (*is == '&')
        {
          br__text_puts (t, is_length (m->l, &s) ? " in" : "");
          is++;
          continue;
        }
      /* 48 of 6 in pieces: of 48 in.  */
      if (*is == '~')
        {
          if (!is_length (m->l, &s))
            br__text_printf (t, s.count == 1 && br__word_begins_number (m->l, s.start) ? " %s" : " * 1 %s", m->l->run->sheet->settings.unit->name);
          is++;
          continue;
        }
      int group = *is == '{' && !is_single (m->l, &s, power);
      if (first && at_end && s.start == last->start)
        {
          stop = sum_in (m->l, &s);
          s.count = stop - s.start;
          group = *is == '{' && !is_single (m->l, &s, power);
        }
      else if (first && s.start == m->from && !at_end)
        group = 0;
      br__text_puts (t, group ? "(" : "");
      size_t length;
      if (s.number)
        br__text_printf (t, "%ld", s.number);
      else if (s.kind == 'A' && br__word_called (&length, m->l, s.start))
        br__text_put (t, m->l->word[s.start].s, length);
      else if (*is == '@')
        put_words (t, m->l, s.start, s.start + s.count, first && br__words_mixed (m->l, last->start, last->count) ? 2 : 1);
      else if (compares && s.count == 1 && br__put_size_of (t, m->l, s.start))
        ;
      else if (group || m->hints)
        put_value_words (t, m->l, &s);
      else
        put_words (t, m->l, s.start, s.start + s.count, 0);
      br__text_puts (t, group ? ")" : "");
      is += *is == '{' ? 2 : 1;
    }
  br__text_puts (t, stop < m->l->count ? " " : "");
  put_words (t, m->l, stop, m->l->count, 0);
}

/* `NAME = phrase` and `check phrase` have theirs behind that.  */
static size_t
phrase_start (const br__words *l)
{
  if (l->count > 2 && statement_at (l, 0) && !(l->word[1].length == 1 && l->word[1].s[0] == '='))
    return 0;
  for (size_t i = 1; i + 1 < l->count && i < 3; i++)
    if (l->word[i].length == 1 && l->word[i].s[0] == '=' && !br__word_begins_number (l, 0))
      return i + 1;
  return 0;
}

static int
call_start (const br__words *l, size_t from)
{
  return from + 2 < l->count && br__word_at (l, from + 1, "of") && !br__word_known (l, from)
         && br__function_find (l->word[from].s, l->word[from].length);
}

/* FUNCTION of VALUE, VALUE and VALUE.  */
static int
call_of (br_text *t, const br__words *l, size_t from)
{
  match m = { .l = l, .from = from, .slots = { { from + 2, l->count - from - 2, 0, 0 } }, .count = 1 };
  const char *is = "(@1)";
  if (!call_start (l, from) || sum_in (l, m.slots) < l->count || br__words_mixed (l, m.slots[0].start, m.slots[0].count))
    return 0;
  br__text_put (t, l->word[from].s, l->word[from].length);
  put_is (t, &m, is, is + strlen (is), 0);
  return 1;
}

/* The row of the words from *FROM on, an article left out, or of the whole line: then *FROM is 0.  */
static const br__phrase_rule *
find_phrase (match *m, size_t *from, const br__words *l)
{
  const br__phrase_rule *r = NULL;
  *from = phrase_start (l);
  size_t at = *from + (br__word_at (l, *from, "the") && !br__word_known (l, *from));
  if (*from && (r = find_row (m, l, *from - 1)) != NULL && *r->typed == '=')
    --*from;
  else if (*from)
    r = find_row (m, l, at);
  if (!r && *from && call_start (l, at))
    return NULL;
  return r ? r : find_row (m, l, *from = 0);
}

/* Where the two readings of R part, or NULL: the second divides, and a list is not divided, as in 0.4, 1.2 in 1/16.  */
static const char *
find_bar (const match *m, const br__phrase_rule *r)
{
  const char *bar = strchr (r->is, '|');
  const slot *s = &m->slots[0];
  for (size_t i = s->start; bar && strncmp (bar, "|{1} / ", 7) == 0 && i + 1 < s->start + s->count; i++)
    if (m->l->word[i].s[m->l->word[i].length - 1] == ',')
      return NULL;
  return bar;
}

int
br__phrase_row (br_text *t, const br__words *l)
{
  match m;
  size_t from;
  const br__phrase_rule *r = find_phrase (&m, &from, l);
  if (r && (find_bar (&m, r) || *r->is == '?' || is_open (&m, r->is)))
    return 0;
  put_words (t, l, 0, from, 0);
  br__text_puts (t, from ? " " : "");
  if (r)
    put_is (t, &m, r->is, r->is + strcspn (r->is, "|"), 0);
  from += (size_t) (!r && br__word_at (l, from, "the"));
  if (r || call_of (t, l, from))
    return !t->failed;
  size_t start = t->length;
  int found = br__phrase_call (t, l, from, 1);
  t->length = found ? t->length : start;
  return found && !t->failed;
}

/* Puts a statement of a reading, IS up to END; where a ! is in it, the value of what follows that, if it is a fraction.  */
static void
put_one (br_text *t, const match *m, const char *is, const char *end, int first)
{
  const char *mark = memchr (is, '!', (size_t) (end - is));
  mark = mark && mark[1] == '=' ? NULL : mark;
  put_is (t, m, is, mark ? mark : end, first);
  if (!mark)
    return;
  br_text text = BR_TEXT_ZERO, shown = BR_TEXT_ZERO;
  br__value v = BR__VALUE_ZERO;
  put_is (&text, m, mark + 1, end, first);
  int found = !text.failed && value_of_text (&v, m->l->run, &text) == BR_OK && br_real_rational (&v.real)
              && br__shown (&shown, &v, &m->l->run->sheet->settings) == BR_OK;
  br__text_put (t, br__text_string (found ? &shown : &text), found ? shown.length : text.length);
  br__value_clear (&v);
  br__text_clear (&shown);
  br__text_clear (&text);
}

/* Puts a reading of the phrase, IS up to END, one statement or several.  */
static void
put_reading (br_text *t, const match *m, const char *is, const char *end, int first)
{
  for (const char *part; is < end; is = part)
    {
      const char *semicolon = memchr (is, ';', (size_t) (end - is));
      part = semicolon ? semicolon : end;
      put_one (t, m, is, part, first);
      if (semicolon)
        br__text_puts (t, "; "), part += 2;
    }
}

int
br__phrase_row_hint (br__run *run, const br__words *l)
{
  match m;
  br_text a = BR_TEXT_ZERO, b = BR_TEXT_ZERO;
  size_t from;
  const br__phrase_rule *r = find_phrase (&m, &from, l);
  const char *bar = r ? find_bar (&m, r) : NULL;
  int single = r && *r->is == '?';
  int open = r && !bar && !single && is_open (&m, r->is);
  if (!r || (!bar && !single && !open))
    return 0;
  put_words (&a, l, 0, from, 0);
  put_words (&b, l, 0, from, 0);
  br__text_puts (&a, from ? " " : "");
  br__text_puts (&b, from ? " " : "");
  const char *is = r->is + single, *end = is + strlen (is);
  m.hints = 1;
  put_reading (&a, &m, is, bar ? bar : end, open);
  put_reading (&b, &m, bar ? bar + 1 : is, end, 0);
  if (strcmp (is, "help") == 0 || br__names_nothing (run, &a))
    {
      br__text_clear (&b);
      int about = br__phrase_about (run, 1);
      if (!about && *is == 'h')
        {
          br__phrase_topic (run);
          if (strncmp (run->error->hint, "help ", 5) != 0)
            br__hint (run->error, "write `help`");
        }
      br__text_clear (&a);
      return about || *is == 'h';
    }
  int found = a.length + (single ? 0 : b.length) < 130 && !a.failed && !b.failed;
  if (found && !single)
    {
      br__fail_two_ways (run, 0, l->run->end);
      br__hint (run->error, "write `%s` or `%s`", br__text_string (&a), br__text_string (&b));
    }
  else if (found && strncmp (is, "draw", 4) == 0 && (!is[4] || is[4] == ' ') && !run->sheet->shapes)
    br__hint (run->error, "there is no shape yet: `circle wheel = 3-1/2 at 0, 0` is one, then `%s`", br__text_string (&a));
  else if (found)
    br__hint (run->error, "write `%s`", br__text_string (&a));
  br__text_clear (&a);
  br__text_clear (&b);
  return found;
}
