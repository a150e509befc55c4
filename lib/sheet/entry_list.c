/* SPDX-License-Identifier: LGPL-3.0-or-later
   entry_list.c - entries of the graph in lists, as people call them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "sheet/hidden.h"

static int
is_listed (const br_list *list, const char *text)
{
  for (size_t i = 0; i < br_list_size (list); i++)
    {
      br_field field = br_list_at (list, i);
      if (field.type == BR_FIELD_TEXT && strcmp (field.value.text, text) == 0)
        return 1;
    }
  return 0;
}

void
br__list_once (br_list *list, br_text *t)
{
  if (!is_listed (list, br__text_string (t)))
    br__list_from (list, t);
  br__text_clear (t);
}

void
br__list_entry_once (br_list *list, const br__entry *e)
{
  br_text t = BR_TEXT_ZERO;
  const br__check *check = br__check_of (e);
  if (check)
    br__text_printf (&t, "check %s", check->formula);
  else
    br__put_entry_words (&t, e);
  br__list_once (list, &t);
}

void
br__list_entry (br_list *list, const br__entry *e)
{
  if (br__is_hidden_entry (e))
    br__list_entry_once (list, e);
  else
    br__list_text (list, br__entry_name (e));
}
