/* SPDX-License-Identifier: LGPL-3.0-or-later
   names.c - names as they are spoken: `the front wheel` is what the sheet calls front_wheel, or a shape called front.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "phrase/phrase.h"
#include "phrase/words.h"
#include "sheet/hidden.h"
#include "wood/wood.h"

#define MOST_NAME 24

static int
things (const br__run *run, const char *name, size_t length)
{
  const br_sheet *sheet = run->sheet;
  return (run->lex.known && run->lex.known (run->lex.user, name, length) ? BR__THING_SIZE : 0)
         | (br__shape_find (sheet, name, length) ? BR__THING_SHAPE : 0) | (br__wood_find (sheet, 1, name, length) ? BR__THING_STOCK : 0)
         | (br__wood_find (sheet, 0, name, length) ? BR__THING_PART : 0);
}

void
br__put_other (br_text *t, const br_sheet *sheet, const char *name)
{
  const br__run run = { .sheet = (br_sheet *) sheet };
  const size_t length = strlen (name);
  const int what = things (&run, name, length);
  const br__words word = { .run = &run, .word = { { name, length } }, .count = 1 };
  const br__function *f = br__function_find (name, length);
  if (what & BR__THING_SHAPE)
    br__text_printf (t, "`%s` is a shape: how wide it is, is width(%s)", name, name);
  else if (what)
    br__text_printf (t, "`%s` is %s, and no size: give its size a name of its own", name, what & BR__THING_PART ? "a part" : "stock");
  else if (f)
    br__text_printf (t, "`%s` is a function, and wants a value in brackets behind it", name);
  else if (br_unit_find (name, length))
    br__text_printf (t, "`%s` is a unit, and wants a number before it", name);
  else if (br__ordinal (&word, 0, NULL) || br__word_at (&word, 0, "half"))
    br__text_printf (t, "`%s` is part of a number, and is written in digits: 1/16", name);
  else if (sheet->language->find (name, length))
    br__text_printf (t, "`%s` is a word of the language, and no size is called so yet", name);
}

int
br__word_thing (const br__words *l, size_t i)
{
  return i < l->count ? things (l->run, l->word[i].s, l->word[i].length) : 0;
}

int
br__word_called (size_t *length, const br__words *l, size_t i)
{
  br__words one = br__bare_word (l, i);
  int what = br__word_thing (&one, 0);
  if (!what && one.word[0].length > 3 && one.word[0].s[one.word[0].length - 1] == 's')
    {
      one.word[0].length--;
      what = br__word_thing (&one, 0);
      one.word[0].length += !what;
    }
  *length = one.word[0].length;
  return what;
}

int
br__put_size_of (br_text *t, const br__words *l, size_t i)
{
  const br__words one = br__bare_word (l, i);
  if (br__word_thing (&one, 0) != BR__THING_SHAPE)
    return 0;
  br__text_printf (t, "%s(%.*s)", br__words_among (l, "tall|taller|high|higher|lower|height") ? "height" : "width", (int) one.word[0].length, one.word[0].s);
  return 1;
}

/* The length of the word I without what says whose a thing is: the deck's width.  */
static size_t
owner_length (const br__words *l, size_t i)
{
  const char *s = l->word[i].s;
  const size_t n = l->word[i].length;
  return n > 2 && s[n - 1] == 's' && s[n - 2] == '\'' ? n - 2 : n > 4 && s[n - 1] == 's' && memcmp (s + n - 4, "\xe2\x80\x99", 3) == 0 ? n - 4 : n;
}

/* How many words from I on are a name with underscores for their blanks, wheel thickness, or without any, wheel base: three or two; NAME
   gets it.  */
static size_t
joined (char name[MOST_NAME], const br__words *l, size_t i)
{
  static const char *const signs[] = { "_", "" };
  for (size_t n = 3; n > 1 && i < l->count; n--)
    for (size_t k = 0; k < sizeof signs / sizeof signs[0] && i + n <= l->count; k++)
      {
        int length = snprintf (name, MOST_NAME, "%.*s", (int) owner_length (l, i), l->word[i].s);
        for (size_t w = i + 1; w < i + n && length > 2 && length < MOST_NAME; w++)
          length += snprintf (name + length, (size_t) (MOST_NAME - length), "%s%.*s", signs[k], (int) l->word[w].length, l->word[w].s);
        /* wheel blanks */
        const int several = length > 3 && length < MOST_NAME && name[length - 1] == 's' && !things (l->run, name, (size_t) length);
        if (several)
          name[--length] = 0;
        if (length > 2 && length < MOST_NAME && things (l->run, name, (size_t) length) && (*signs[k] || (l->word[i].length > 2 && !br__word_begins_number (l, i + 1) && !(br__word_thing (l, i) && br__word_thing (l, i + 1)))))
          return n;
      }
  return 0;
}

/* The word I is a name in other letters, Deck; NAME gets it as the sheet has it.  */
static int
is_lower (char name[MOST_NAME], const br__words *l, size_t i)
{
  const size_t length = l->word[i].length;
  if (length >= MOST_NAME || br__word_thing (l, i))
    return 0;
  for (size_t k = 0; k < length; k++)
    name[k] = l->word[i].s[k] >= 'A' && l->word[i].s[k] <= 'Z' ? (char) (l->word[i].s[k] | 0x20) : l->word[i].s[k];
  name[length] = 0;
  return memcmp (name, l->word[i].s, length) != 0 && things (l->run, name, length);
}

/* How wide is deck, of a shape: its width.  */
static void
ask_shape (br__words *l)
{
  static const struct { const char *question, *is; } table[] = {
    { "how wide|long is|are", "width of" }, { "how high|tall is|are", "height of" }, { "how big|large is|are", "area of" } };
  for (size_t k = 0; k < sizeof table / sizeof table[0]; k++)
    if (br__words_at (l, 0, table[k].question) && br__word_thing (l, 3) == BR__THING_SHAPE
        && (l->count == 4 || (l->count == 5 && br__word_at (l, 4, "shape"))))
      {
        l->count = 4;
        br__words_put (l, 0, 3, table[k].is);
      }
  /* A line that is aslant is longer than it is wide.  */
  const br__shape *shape = l->count > 2 && br__words_at (l, l->count - 2, "of") ? br__shape_find (l->run->sheet, l->word[l->count - 1].s, l->word[l->count - 1].length) : NULL;
  if (shape && shape->kind == BR__LINE && br__words_at (l, l->count - 3, "width|length"))
    br__words_put (l, l->count - 3, 2, "");
}

/* The word I with underscores for its hyphens is a name, axle-hole, and no difference of two; NAME gets it.  */
static int
is_hyphened (char name[MOST_NAME], const br__words *l, size_t i)
{
  const char *s = l->word[i].s, *hyphen = memchr (s, '-', l->word[i].length);
  const size_t n = l->word[i].length, first = hyphen ? (size_t) (hyphen - s) : 0;
  if (!first || n >= MOST_NAME || (things (l->run, s, first) && things (l->run, s + first + 1, n - first - 1)))
    return 0;
  for (size_t k = 0; k < n; k++)
    name[k] = s[k] == '-' ? '_' : s[k];
  name[n] = 0;
  return things (l->run, name, n);
}

/* NAME = what the sheet calls that WAY of what the word I is: deck_width; 0: nothing.  */
static int
way_of (char name[MOST_NAME], const br__words *l, size_t i, const char *const ways[2])
{
  const size_t bare = br__bare_word (l, i).word[0].length, lengths[] = { bare, bare - (bare > 3 && l->word[i].s[bare - 1] == 's') };
  for (size_t k = 0; k < 4; k++)
    {
      const int n = ways[k / 2] ? snprintf (name, MOST_NAME, "%.*s_%s", (int) lengths[k % 2], l->word[i].s, ways[k / 2]) : 0;
      if (n > 0 && n < MOST_NAME && (things (l->run, name, (size_t) n) & BR__THING_SIZE))
        return 1;
    }
  return 0;
}

/* How wide is the deck, and the deck is 22 in long, where the sheet has a deck_width and a deck_length: that is meant, whatever else is
   called deck.  */
static void
name_way (br__words *l)
{
  static const struct { const char *said, *names[2]; } table[] = {
    { "long|length|longer|shorter|lengthen|shorten", { "length", NULL } }, { "wide|width|wider|narrower|widen", { "width", NULL } },
    { "high|tall|height|higher|taller", { "height", NULL } }, { "thick|thickness|thicker|thinner|thicken", { "thickness", NULL } },
    { "diameter|dia|across", { "dia", "diameter" } } };
  enum { ROWS = sizeof table / sizeof table[0] };
  char name[MOST_NAME];
  size_t at = l->count, of = l->count, k = ROWS, count = 0;
  if (memchr (l->run->text, '=', l->run->end) || br__words_at (l, 0, "box|circle|part|stock|plate|outline|arc|line|row|space|divide|draw|note|dimension|move"))
    return;
  for (size_t i = 0; i < l->count; i++)
    {
      const br__words one = br__bare_word (l, i);
      for (size_t row = 0; row < ROWS; row++)
        if (br__words_at (&one, 0, table[row].said) && !br__word_known (&one, 0))
          at = i, k = row, count++;
    }
  /* Is the deck wider than the side: of both.  */
  for (size_t i = 0; i < l->count && count == 1 && l->made_count < BR__MOST_MADE; i++)
    if (i != at && br__letter_at (l->word[i].s, l->word[i].length, 0) && way_of (name, l, i, table[k].names))
      {
        const size_t bare = br__bare_word (l, i).word[0].length, article = i && br__words_at (l, i - 1, "the|my|our|your");
        br__words_make (l, i, 1, "%s%.*s", name, (int) (l->word[i].length - bare), l->word[i].s + bare);
        if (article)
          br__words_put (l, i - 1, 1, "");
        at -= article && at > i;
        i -= article;
        of = i;
      }
  if (of == l->count)
    return;
  if (br__word_at (l, at + 1, "of") && at + 2 == of)
    br__words_put (l, at, 2, "");
  else if (at > of && at > 1 && (br__word_begins_number (l, at - 1) || br__word_is_unit (l, at - 1)) && br__words_at (l, at, "long|wide|high|tall|thick|across"))
    br__words_put (l, at, 1, "");
}

void
br__phrase_names (br__words *l)
{
  const br__statement *st = br__statement_of (l->run, l->word[0].s, l->word[0].length);
  if (st && (st->follow == BR__FOLLOW_TEXT || st->follow == BR__FOLLOW_FILE || st->follow == BR__FOLLOW_QUOTED))
    return;
  for (size_t i = 0; i < l->count; i++)
    {
      char name[MOST_NAME];
      const int defines = l->count > i + 1 && l->word[i + 1].length == 1 && l->word[i + 1].s[0] == '=';
      if ((l->count > 1 && !defines && is_lower (name, l, i)) || is_hyphened (name, l, i))
        br__words_make (l, i, 1, "%s", name);
      const int article = br__words_at (l, i, "the|my|our|your") && !br__word_known (l, i);
      const size_t words = joined (name, l, i + (size_t) article);
      if (words)
        br__words_make (l, i, words + (size_t) article, "%s", name);
      else if (article && (br__word_thing (l, i + 1) || (i > 1 && br__word_at (l, i - 1, "of") && i + 2 == l->count && br__word_is_new (l, i + 1))))
        br__words_put (l, i, 1, "");
      /* wheel's size */
      const size_t owner = i < l->count ? owner_length (l, i) : 0, whole = owner ? l->word[i].length : 0;
      if (owner < whole)
        {
          l->word[i].length = owner;
          if (!br__word_thing (l, i))
            l->word[i].length = whole;
        }
      /* Front wheel, of a shape called front, is no product.  */
      if ((br__word_thing (l, i) & BR__THING_SHAPE) && br__words_at (l, i + 1, "wheel|circle|box|arc|plate|line|outline|shape")
          && !(br__word_thing (l, i + 1) & BR__THING_SHAPE) && i + 1 < l->count && (i || article || !br__word_known (l, i)))
        br__words_put (l, i + 1, 1, "");
      if ((br__word_thing (l, i) & BR__THING_STOCK) && br__words_at (l, i + 1, "board|boards|plank|planks|sheet|sheets|stick|sticks|stock"))
        br__words_put (l, i + 1, 1, "");
    }
  name_way (l);
  ask_shape (l);
}

int
br__names_nothing (const br__run *run, const br_text *hint)
{
  br__run made = *run;
  br__words l = { .run = &made };
  made.text = br__text_string (hint);
  made.end = hint->length;
  br__words_cut (&l);
  if (!br__word_at (&l, 0, "check"))
    return 0;
  for (size_t i = 1; i < l.count; i++)
    if (br__words_at (&l, i, "it|this|that|they|them|everything|nothing|anything|all|the|a4|letter"))
      return 1;
  return 0;
}
