/* SPDX-License-Identifier: LGPL-3.0-or-later
   list.c - lists as they are spoken, 3, 4 and 5, and functions that are called by their words: wheel gap 14, 3, 3.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "formula/functions.h"
#include "measure/measure.h"
#include "phrase/phrase.h"
#include "phrase/words.h"

static int
is_value (const br__words *l, size_t i)
{
  return br__word_begins_number (l, i) || br__word_known (l, i);
}

static int
ends_in_comma (const br__words *l, size_t i)
{
  return l->word[i].s[l->word[i].length - 1] == ',';
}

/* 2 and 3/8, 2 3/8: a whole number at I and a fraction at K.  */
static int
is_mixed (const br__words *l, size_t i, size_t k)
{
  int64_t n, d;
  return br__word_ratio (l, i, &n, &d) && d == 1 && br__word_ratio (l, k, &n, &d) && d > 1 && n < d;
}

/* The `and` before the last member of a list, with what makes it one before it: a comma, or a statement that takes a list;
   0 where there is none.  */
static size_t
list_and (const br__words *l)
{
  int list = br__words_at (l, 0, "round|full|drawn");
  for (size_t i = 1; i + 1 < l->count; i++)
    {
      list |= ends_in_comma (l, i - 1);
      if (list && br__words_at (l, i, "and|&") && !br__word_known (l, i) && is_value (l, i - 1) && is_value (l, i + 1))
        return i;
    }
  return 0;
}

int
br__phrase_corners (br_text *t, const br__words *l)
{
  size_t count = 0;
  int whole = 0;
  for (size_t i = 3; i < l->count; i++)
    for (const char *s = l->word[i].s, *end = s + l->word[i].length, *next; s < end; s = next + 1)
      {
        for (next = s; next < end && strchr ("0123456789./-", *next); next++)
          ;
        if (next < end && !strchr (",()", *next))
          return 0;
        if (next == s)
          continue;
        /* 4 1/2 is one number.  */
        if (whole && memchr (s, '/', (size_t) (next - s)))
          return 0;
        whole = next == end && !memchr (s, '/', (size_t) (next - s));
        br__text_printf (t, "%s%.*s", count == 0 ? "" : count % 2 ? ", " : " to ", (int) (next - s), s);
        count++;
      }
  return count >= 6 && count % 2 == 0;
}

void
br__phrase_list (br__words *l)
{
  size_t i;
  while ((i = list_and (l)) > 0 && !is_mixed (l, i - 1, i + 1))
    br__words_put (l, i, 1, ",");
}

/* Puts the line with COMMA for its word at AND.  */
static void
put_list (br_text *t, const br__words *l, size_t and, const char *comma)
{
  for (size_t i = 0; i < l->count; i++)
    if (i == and)
      br__text_puts (t, comma);
    else
      {
        br__text_puts (t, i && i != and + 1 ? " " : "");
        br__text_put (t, l->word[i].s, l->word[i].length);
      }
}

/* mean of 3, 2 and 3/8: two values at its end, or one.  */
int
br__words_mixed (const br__words *l, size_t start, size_t count)
{
  int64_t n, d;
  int comma = 0;
  for (size_t i = start; i + 2 < start + count; i++)
    {
      comma |= l->word[i].s[l->word[i].length - 1] == ',' || (i > start && br__word_at (l, i, "and"));
      if (br__word_at (l, i + 1, "and") && br__word_ratio (l, i, &n, &d) && d == 1 && br__word_ratio (l, i + 2, &n, &d)
          && d > 1 && n < d && comma)
        return 1;
    }
  return 0;
}

/* 3, 2 and 3/8: two values, or one.  */
int
br__phrase_list_hint (br__run *run, const br__words *l)
{
  size_t i = list_and (l);
  int comma = 0;
  for (size_t k = 0; k + 1 < i; k++)
    comma |= ends_in_comma (l, k);
  if (!i || !comma || !is_mixed (l, i - 1, i + 1))
    return 0;
  br_text one = BR_TEXT_ZERO, two = BR_TEXT_ZERO;
  put_list (&one, l, i, "-");
  put_list (&two, l, i, ", ");
  int found = !one.failed && !two.failed && one.length + two.length < 130;
  if (found)
    {
      br__fail_two_ways (run, 0, run->end);
      br__hint (run->error, "write `%s` or `%s`", br__text_string (&one), br__text_string (&two));
    }
  br__text_clear (&one);
  br__text_clear (&two);
  return found;
}

/* 3.57 4.21 2.9: the line with commas between the numbers that stand side by side.  */
int
br__phrase_apart (br_text *t, const br__words *l)
{
  int found = 0;
  for (size_t i = 0; i < l->count; i++)
    {
      int apart = i > 0 && br__word_begins_number (l, i - 1) && br__word_begins_number (l, i) && !is_mixed (l, i - 1, i)
                  && !ends_in_comma (l, i - 1);
      found |= apart;
      br__text_puts (t, apart ? ", " : i ? " " : "");
      br__text_put (t, l->word[i].s, l->word[i].length);
    }
  return found && !t->failed;
}

/* ---- Functions in words ---- */

/* The words from I on that are the name of F, one for each part between its underscores; 0: they are not.  */
static size_t
words_of_name (const br__words *l, size_t i, const br__function *f)
{
  size_t n = 0;
  for (const char *name = f->name; ; name++, n++)
    {
      size_t part = strcspn (name, "_");
      char word[24];
      snprintf (word, sizeof word, "%.*s", (int) part, name);
      if (!br__word_at (l, i + n, word))
        return 0;
      name += part;
      if (!*name)
        return n + 1;
    }
}

const br__function *
br__phrase_function (const br__words *l, size_t from, size_t *after)
{
  const br__function *f;
  for (size_t i = 0; (f = br__function_at (i)) != NULL; i++)
    {
      size_t n = strchr (f->name, '_') ? words_of_name (l, from, f) : 0;
      if (!n && from < l->count && br__word_is (l->word[from].s, l->word[from].length, f->name))
        n = 1;
      if (n)
        {
          *after = from + n;
          return f;
        }
    }
  return NULL;
}

/* A unit, with the comma behind it or without.  */
static int
is_unit (const br__words *l, size_t i)
{
  return i < l->count && br_unit_find (l->word[i].s, l->word[i].length - (size_t) ends_in_comma (l, i)) != NULL;
}

/* A number or a name with its unit at *I, behind an article and before a comma or the like.  */
static int
put_member (br_text *t, const br__words *l, size_t *i)
{
  size_t length, at = *i;
  at += (size_t) br__words_at (l, at, "a|an|the");
  if (at >= l->count || !is_value (l, at))
    return 0;
  for (int unit = 0; ; unit++, at++)
    {
      int comma = ends_in_comma (l, at);
      length = l->word[at].length - (size_t) comma;
      br__text_puts (t, unit ? " " : "");
      br__text_put (t, l->word[at].s, length);
      if (comma || unit || !is_unit (l, at + 1))
        break;
    }
  at++;
  at += (size_t) br__words_at (l, at, ",|and|&|with|by");
  *i = at;
  return 1;
}

int
br__phrase_call (br_text *t, const br__words *l, size_t from, int spoken)
{
  size_t at, members = 0;
  const br__function *f = br__phrase_function (l, from, &at);
  if (!f || (at > from + 1) != spoken || !*f->parameters)
    return 0;
  at += (size_t) br__words_at (l, at, "of|for|with|between");
  br__text_printf (t, "%s(", f->name);
  while (at < l->count)
    {
      /* For a 3 in wheel: the name says of what the number is, and is no second value.  */
      if (members && br__word_begins_number (l, at - 1 - (size_t) br__word_is_unit (l, at - 1)) && !ends_in_comma (l, at - 1) && br__word_known (l, at))
        return 0;
      br__text_puts (t, members++ ? ", " : "");
      if (!put_member (t, l, &at))
        return 0;
    }
  br__text_puts (t, ")");
  return members >= br__function_least (f) && members <= br__function_most (f) && !t->failed;
}
