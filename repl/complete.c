/* SPDX-License-Identifier: GPL-3.0-or-later
   complete.c - completion: the words that can follow the typed text, from the sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "complete.h"

#include <stdlib.h>
#include <string.h>

#include "benchrule_sheet.h"
#include "session.h"

typedef struct words
{
  char **items;         /* ends with NULL while it is not NULL */
  size_t count, room;
} words;

static void
add_word (void *user, const char *word)
{
  words *w = user;
  if (w->count + 1 >= w->room)
    {
      size_t room = w->room ? 2 * w->room : 32;
      char **items = realloc (w->items, room * sizeof *items);
      if (!items)
        return;
      w->items = items;
      w->room = room;
    }
  w->items[w->count] = strdup (word);
  if (w->items[w->count])
    w->count++;
  w->items[w->count] = NULL;
}

char **
complete_words (void *user, const char *text, size_t point, size_t *start, int *file)
{
  const session *s = user;
  words w = { NULL, 0, 0 };
  br_sheet_complete (s->sheet, text, point, start, file, add_word, &w);
  return w.items;
}
