/* SPDX-License-Identifier: LGPL-3.0-or-later
   sizes.c - several sizes in one line: length 10, width 4; a deck 22 long and 11 wide.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"
#include "phrase/words.h"

/* What a size is called that is said to be so: 3 wide.  */
static const char *
way_at (const br__words *l, size_t i)
{
  static const struct { const char *said, *name; } ways[] = {
    { "long", "length" }, { "wide", "width" }, { "high|tall", "height" }, { "thick", "thickness" }, { "deep", "depth" }, { "across|diameter|dia", "diameter" } };
  if (i >= l->count)
    return NULL;
  const br__words one = br__bare_word (l, i);
  for (size_t k = 0; k < sizeof ways / sizeof ways[0]; k++)
    if (br__words_at (&one, 0, ways[k].said))
      return ways[k].name;
  return NULL;
}

/* The word I is the name of a size, one that is there or could be.  */
static int
names_size (const br__words *l, size_t i)
{
  return br__word_known (l, i)
         || (br__word_is_new (l, i) && !way_at (l, i) && !br__words_at (l, i, "x|by|not|no|at|of|off|over|across|from|to|with|plus|minus|times|less|than|into|for|on|in|or|every|each|above|below|under|between|within|next|past|per|then|until|after|before"));
}

/* Another size begins at I: width 4, behind length 22.  */
static int
next_size (const br__words *l, size_t i)
{
  return i < l->count && br__letter_at (l->word[i].s, l->word[i].length, 0) && names_size (l, i) && br__word_begins_number (l, i + 1);
}

/* length = 10, width = 4 and body height is 3 in: one statement for each.  deck: length 10, width 4 has names of two words.  */
int
br__phrase_sizes (br_text *t, const br__words *l)
{
  size_t sizes = 0;
  /* What is wrong in the line of a shape is no name.  */
  if (l->count && !br__word_known (l, 0) && br__statement_of (l->run, l->word[0].s, l->word[0].length))
    return 0;
  const size_t of = l->count && l->word[0].length < 20 && br__word_bare (l, 0, ":") < l->word[0].length ? br__word_bare (l, 0, ":") : 0;
  for (size_t i = of > 0; i < l->count; sizes++)
    {
      i += sizes && br__word_at (l, i, "and");
      const size_t from = i;
      while (i < l->count && !br__words_at (l, i, "=|is|are") && !br__word_begins_number (l, i))
        if (!br__letter_at (l->word[i].s, l->word[i].length, 0) || l->word[i++].length > 30)
          return 0;
      const size_t value = i + !br__word_begins_number (l, i);
      if (i == from || i > from + 3 || value >= l->count || !(br__word_begins_number (l, value) || br__word_known (l, value)))
        return 0;
      /* length 10: one word, with a comma before the next.  */
      if (value == i && (i > from + 1 || !names_size (l, from)))
        return 0;
      br__text_printf (t, "%s%.*s%s", sizes ? "; " : "", (int) of, l->word[0].s, of ? "_" : "");
      br__put_joined (t, l, from, i);
      br__text_puts (t, " =");
      /* Length 22 width 11: numbers alone.  */
      const size_t start = value == i ? i : l->count;
      for (i = value; i < l->count && !(i > value && (br__word_at (l, i, "and") || br__word_bare (l, i - 1, ",;") < l->word[i - 1].length || next_size (l, i))); i++)
        if (i > start && !br__word_begins_number (l, i) && br_unit_find (l->word[i].s, br__word_bare (l, i, ",;")) == NULL)
          return 0;
        else
          br__text_printf (t, " %.*s", (int) br__word_bare (l, i, ",;"), l->word[i].s);
    }
  return sizes > 1 && t->length < 120;
}

/* Deck is 22 long and 11 wide; wheel 3-1/2 across, 3/4 thick.  */
int
br__phrase_sized (br_text *t, const br__words *l)
{
  const size_t from = br__words_at (l, 0, "a|the|my"), end = from + 1 + (from + 1 < l->count && br__word_is_new (l, from + 1) && !br__words_at (l, from + 1, "is|are"));
  size_t i = end, sizes = 0;
  if (end >= l->count || !names_size (l, from) || (end > from + 1 && br__word_known (l, from)))
    return 0;
  i += (size_t) br__words_at (l, i, "is|are|measures");
  for (size_t value; i < l->count; i++, sizes++)
    {
      const char *way;
      i += sizes && br__words_at (l, i, "and|by|x");
      for (value = i; i < l->count && (br__word_begins_number (l, i) || (i > value && br__word_is_unit (l, i))); i++)
        ;
      if (i == value || (way = way_at (l, i)) == NULL)
        return 0;
      br__text_puts (t, sizes ? "; " : "");
      br__put_joined (t, l, from, end);
      /* A wheel is called by how far it is across.  */
      br__text_printf (t, "%s%s =", br__word_known (l, from) && *way == 'd' && way[1] == 'i' ? "" : "_", br__word_known (l, from) && *way == 'd' && way[1] == 'i' ? "" : way);
      for (; value < i; value++)
        br__text_printf (t, " %.*s", (int) br__word_bare (l, value, ","), l->word[value].s);
    }
  return sizes > 1 && t->length < 120;
}


int
br__two_sizes (br__run *run, const br__run *typed, const br__words *l)
{
  br__words spoken = { .run = typed };
  br_text sizes = BR_TEXT_ZERO;
  size_t x = 3;
  br__words_cut (&spoken);
  while (x < l->count && !br__words_at (l, x, "x|by|*"))
    x++;
  if (x + 1 >= l->count || !br__words_among (&spoken, "x|by") || !br__word_begins_number (l, x - 1) || !br__word_begins_number (l, x + 1) || run->end > 60)
    return 0;
  for (size_t i = 2; i < l->count; i++)
    br__text_printf (&sizes, " %.*s", br__words_at (l, i, "by|*") ? 1 : (int) l->word[i].length, br__words_at (l, i, "by|*") ? "x" : l->word[i].s);
  br__fail_two_ways (run, 0, run->end);
  br__hint (run->error, "write `part %.*s =%s` or `%.*s =%s`", (int) l->word[0].length, l->word[0].s, br__text_string (&sizes), (int) l->word[0].length, l->word[0].s,
            br__text_string (&sizes));
  br__text_clear (&sizes);
  return 1;
}

/* wheel to 3-1/2, wheel to 5 in: the size of the wheel, or a mark that it is put on.  Of wheel to 4 is told elsewhere, and 1/8 is a mark.  */
int
br__size_or_mark (br__run *run, const br__words *l)
{
  int64_t n, d;
  const size_t last = l->count - 1;
  if (l->count < 3 || l->count > 5 || !br__word_known (l, 0) || !br__word_at (l, 1, "to") || run->end > 60)
    return 0;
  const int number = (int) (l->word[last].s + l->word[last].length - l->word[2].s);
  br_measure m = BR_MEASURE_ZERO;
  const int reads = br_measure_read (&m, l->word[2].s, (size_t) number, NULL, NULL) == BR_OK;
  const int sure = !reads || (br_number_get_ratio (&n, &d, &m.value) && (n == 1 || (d == 1 && !m.unit)));
  br_measure_clear (&m);
  if (sure)
    return 0;
  br__fail_two_ways (run, 0, run->end);
  br__hint (run->error, "write `%.*s = %.*s` or `round %.*s to %.*s`", (int) l->word[0].length, l->word[0].s, number, l->word[2].s, (int) l->word[0].length, l->word[0].s,
            number, l->word[2].s);
  return 1;
}
