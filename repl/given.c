/* SPDX-License-Identifier: GPL-3.0-or-later
   given.c - cautions about parts, which come with each list of them, are shown once as long as they hold.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "given.h"

#include <stdlib.h>
#include <string.h>

static int
has (char *const *rows, size_t count, const char *text)
{
  for (size_t i = 0; i < count; i++)
    if (strcmp (rows[i], text) == 0)
      return 1;
  return 0;
}

static void
add (given_list *list, const char *text)
{
  char **grown = realloc (list->rows, (list->count + 1) * sizeof *grown);
  if (!grown)
    return;
  list->rows = grown;
  if ((grown[list->count] = strdup (text)) != NULL)
    list->count++;
}

static void
clear (given_list *list)
{
  for (size_t i = 0; i < list->count; i++)
    free (list->rows[i]);
  free (list->rows);
  *list = (given_list) { NULL, 0 };
}

int
given_before (given *g, const br_record *record)
{
  const char *kind = br_record_kind (record), *message = br_record_text (record, "message");
  g->listed |= strcmp (kind, "parts") == 0;
  if (strcmp (kind, "caution") != 0 || !*br_record_text (record, "parts") || !*br_record_text (record, "brief"))
    return 0;
  int before = has (g->before.rows, g->before.count, message);
  if (!before)
    add (&g->before, message);
  add (&g->now, message);
  return before;
}

void
given_end (given *g)
{
  if (g->listed)
    {
      given_list lapsed = g->before;
      g->before = g->now;
      g->now = lapsed;
    }
  g->listed = 0;
  clear (&g->now);
}

void
given_clear (given *g)
{
  clear (&g->before);
  clear (&g->now);
}
