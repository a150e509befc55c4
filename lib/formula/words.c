/* SPDX-License-Identifier: LGPL-3.0-or-later
   words.c - "did you mean": edit distance with transpositions, for short words only.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "formula/functions.h"
#include "formula/tree.h"
#include "formula/words.h"

#define LONGEST 32

static char
lower (char c)
{
  return c >= 'A' && c <= 'Z' ? (char) (c - 'A' + 'a') : c;
}

/* Insertions, losses, changes and swaps of neighbours that lead from A to B; three rows of the
   usual table are kept.  Both are at most LONGEST bytes.  */
static size_t
distance (const char *a, size_t m, const char *b, size_t n)
{
  size_t rows[3][LONGEST + 1];
  for (size_t j = 0; j <= n; j++)
    rows[0][j] = j;
  for (size_t i = 1; i <= m; i++)
    {
      size_t *row = rows[i % 3], *above = rows[(i + 2) % 3], *two = rows[(i + 1) % 3];
      row[0] = i;
      for (size_t j = 1; j <= n; j++)
        {
          char x = lower (a[i - 1]), y = lower (b[j - 1]);
          size_t d = above[j - 1] + (x != y);
          if (above[j] + 1 < d)
            d = above[j] + 1;
          if (row[j - 1] + 1 < d)
            d = row[j - 1] + 1;
          if (i > 1 && j > 1 && x == lower (b[j - 2]) && lower (a[i - 2]) == y && two[j - 2] + 1 < d)
            d = two[j - 2] + 1;
          row[j] = d;
        }
    }
  return rows[m % 3][n];
}

void
br__search_start (br__search *s, const char *word, size_t length)
{
  s->word = word;
  s->length = length;
  s->best = NULL;
  /* The greatest distance that is still a likely typing error grows with the length of the word.  */
  s->distance = length > LONGEST ? 0 : length < 3 ? 1 : length < 6 ? 2 : 3;
}

void
br__search_offer (br__search *s, const char *candidate)
{
  size_t n = strlen (candidate);
  size_t apart = n > s->length ? n - s->length : s->length - n;
  if (n > LONGEST || apart >= s->distance)
    return;
  size_t d = distance (s->word, s->length, candidate, n);
  if (d < s->distance && d < s->length)
    {
      s->distance = d;
      s->best = candidate;
    }
}

const char *
br__nearest_function (const char *name, size_t length)
{
  br__search s;
  const br__function *f;
  br__search_start (&s, name, length);
  for (size_t i = 0; (f = br__function_at (i)) != NULL; i++)
    br__search_offer (&s, f->name);
  return s.best;
}

int
br__is_per_cent (const char *text, size_t length)
{
  return length > 1 && (text[length - 1] == '%' || (length > 4 && br__same_word (text + length - 4, 4, "cent")));
}

int
br__is_clause_word (const br__lexer *l)
{
  static const char *const words[] =
    { "to", "up", "down", "keep", "within", "into", "across", "for", "from" };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (br__lex_is_word (l, words[i]))
      return 1;
  return 0;
}

int
br__shape_word (const char *word, size_t length)
{
  static const struct { const char *word; int part; } words[] =
  {
    { "clear", BR__SHAPE_CLEAR }, { "left", BR__SHAPE_SIDE_LEFT }, { "right", BR__SHAPE_SIDE_RIGHT },
    { "top", BR__SHAPE_SIDE_TOP }, { "bottom", BR__SHAPE_SIDE_BOTTOM }, { "centre_x", BR__SHAPE_CENTRE_X },
    { "centre_y", BR__SHAPE_CENTRE_Y }, { "center_x", BR__SHAPE_CENTRE_X }, { "center_y", BR__SHAPE_CENTRE_Y },
    { "width", BR__SHAPE_WIDTH }, { "height", BR__SHAPE_HEIGHT }, { "area", BR__SHAPE_AREA },
    { "perimeter", BR__SHAPE_PERIMETER }
  };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (br__same_word (word, length, words[i].word))
      return words[i].part;
  return BR__SHAPE_NONE;
}
