/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_list.c - several shapes, sides or ends in one cell of a table: names that differ by their number alone are told from the
   first to the last, so that a table takes few rows and the figure has the room.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "draw/place_list.h"

/* The number at the end of NAME, of at most nine digits and without a nought before it; *STEM: how long the name is without it.  0: none.  */
static unsigned long
number_of (const char *name, size_t *stem)
{
  unsigned long n = 0, place = 1;
  size_t end = strlen (name);
  for (*stem = end; *stem && name[*stem - 1] >= '0' && name[*stem - 1] <= '9'; place *= 10)
    {
      if (place >= 1000000000)
        return 0;
      n += place * (unsigned long) (name[--*stem] - '0');
    }
  return *stem && *stem < end && name[*stem] != '0' ? n : 0;
}

int
br__is_next_name (const char *before, const char *name)
{
  size_t stem, other;
  unsigned long n = number_of (before, &stem), next = number_of (name, &other);
  return n && next == n + 1 && stem == other && memcmp (before, name, stem) == 0;
}

void
br__put_names (br_text *t, const char *first, size_t count)
{
  size_t stem;
  br__text_puts (t, first);
  if (count > 1)
    br__text_printf (t, " %s %lu", count > 2 ? "to" : "and", number_of (first, &stem) + (unsigned long) count - 1);
}

int
br__names_hold (const char *names, const char *name)
{
  char first[200];
  size_t stem, other, length = strcspn (names, " ,;");
  const char *more = names + length, *to = strncmp (more, " to ", 4) == 0 ? more + 4 : strncmp (more, " and ", 5) == 0 ? more + 5 : NULL;
  if (!to || length >= sizeof first)
    return 0;
  memcpy (first, names, length);
  first[length] = 0;
  unsigned long low = number_of (first, &stem), high = strtoul (to, NULL, 10), n = number_of (name, &other);
  return low && stem == other && n >= low && n <= high && memcmp (first, name, stem) == 0;
}

/* Whether the first two of ITEMS are both ends of one bar.  */
static int
are_both_ends (const br__place_item *items, size_t count)
{
  return count > 1 && items[0].words && items[1].words && items[0].words != items[1].words && strstr (items[0].words, " end")
         && strcmp (items[0].name, items[1].name) == 0;
}

/* How many of ITEMS are the first shape, and what is said of it.  */
static size_t
read_shape (const char **words, const br__place_item *items, size_t count)
{
  int both = are_both_ends (items, count);
  *words = both ? "both ends" : items[0].words;
  return both ? 2 : 1;
}

void
br__put_items (br_text *t, const br__place_item *items, size_t count)
{
  for (size_t i = 0; i < count; )
    {
      const char *words, *other;
      const char *first = items[i].name, *last = first;
      size_t names = 1;
      br__text_puts (t, i ? "; " : "");
      i += read_shape (&words, items + i, count - i);
      for (size_t n; i < count && br__is_next_name (last, items[i].name); i += n)
        {
          n = read_shape (&other, items + i, count - i);
          if (other != words && (!other || !words || strcmp (other, words) != 0))
            break;
          last = items[i].name;
          names++;
        }
      br__put_names (t, first, names);
      if (words)
        br__text_printf (t, ", %s", words);
    }
}
