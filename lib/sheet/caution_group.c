/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution_group.c - joins the cautions of one change that have the same text but are about different things.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "sheet/caution_group.h"
#include "sheet/hidden.h"

br_status
br__caution_add (br__caution_group *g, const br__entry *e, br_text *message, br_text *source, br_text *scope, br_text *brief)
{
  br_text name = BR_TEXT_ZERO;
  size_t i = 0;
  int failed = message->failed || source->failed;
  if (e)
    br__put_entry_words (&name, e);
  while (!failed && i < g->count && (strcmp (br_record_text (g->rows[i], "message"), br__text_string (message)) != 0
                          || strcmp (br_record_text (g->rows[i], "source"), br__text_string (source)) != 0))
    i++;
  if (!failed && i == g->count)
    {
      failed = !br__grow (&g->rows, &g->room, i + 1, sizeof *g->rows) || !br__grow (&g->names, &g->names_room, i + 1, sizeof *g->names);
      if (!failed)
        {
          br_record *r = g->rows[g->count++] = br__record_new ("caution");
          br__put_from (r, "message", message);
          br__put_from (r, "source", source);
          br__put_from (r, "scope", scope);
          if (!g->full)
            br__put_copy (r, "brief", brief);
          g->names[i] = br__put_list (r, "concerns");
        }
    }
  if (!failed && e)
    br__list_once (g->names[i], &name);
  br__text_clear (&name);
  br__text_clear (message);
  br__text_clear (source);
  br__text_clear (scope);
  br__text_clear (brief);
  return failed ? BR_NO_MEMORY : BR_OK;
}

br_status
br__caution_group_end (br__caution_group *g, br__run *run, br_status status)
{
  for (size_t i = 0; i < g->count; i++)
    if (status == BR_OK)
      status = br__emit (run, g->rows[i]);
    else
      br__record_free (g->rows[i]);
  br__free (g->rows);
  br__free (g->names);
  return status;
}

void
br__list_names (br_list *list, const char *names)
{
  while (*names)
    {
      size_t length = strcspn (names, ",");
      br__list_bytes (list, names, length);
      names += length + strspn (names + length, ", ");
    }
}
