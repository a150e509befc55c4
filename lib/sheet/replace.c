/* SPDX-License-Identifier: LGPL-3.0-or-later
   replace.c - replaces the content of a sheet but keeps its session (history, settings of the program).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "sheet/replace.h"

#define SWAP(field) \
  do { __typeof__ (a->field) kept = a->field; a->field = b->field; b->field = kept; } while (0)

/* Swaps the members that belong to the session, not to the content.  */
static void
swap_session (br_sheet *a, br_sheet *b)
{
  SWAP (history);
  SWAP (done_count);
  SWAP (history_count);
  SWAP (history_room);
  SWAP (pending_rollback);
  SWAP (practice_path);
  SWAP (painter);
  SWAP (painter_user);
  SWAP (policy);
  SWAP (policy_user);
  SWAP (keeper);
  SWAP (keeper_user);
  SWAP (mistakes);
  SWAP (phrases_read);
  SWAP (changed);
  SWAP (quit);
  SWAP (no_pictures);
  SWAP (no_pager);
  SWAP (jobs);
  SWAP (reading);
  SWAP (opened);
  SWAP (opened_bytes);
  SWAP (collect);
  SWAP (flag);
  SWAP (account);
  SWAP (running);
  SWAP (told);
  SWAP (ended);
}

void
br__swap_content (br_sheet *sheet, br_sheet *other)
{
  br_sheet kept = *sheet;
  *sheet = *other;
  *other = kept;
  swap_session (sheet, other);
  br__graph_set_settings (sheet->graph, &sheet->settings);
  br__graph_set_settings (other->graph, &other->settings);
}

br_status
br__content_new (br_sheet **content, const br_sheet *sheet, br_error *error)
{
  br_status status = br__sheet_new (content, sheet->language);
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  (*content)->settings.bits = sheet->settings.bits;
  return BR_OK;
}

br_status
br__replace_content (br__run *run, br_sheet **content)
{
  br_sheet *sheet = run->sheet;
  br__change change = { .kind = BR__CHANGE_CONTENT, .content = *content };
  br_status status = br__changes_room (run);
  if (status != BR_OK)
    return status;
  /* Undo can no longer go back to the saved state.  */
  if (sheet->saved_at != SIZE_MAX && sheet->saved_at > sheet->done_count)
    sheet->saved_at = SIZE_MAX;
  br__swap_content (sheet, *content);
  *content = NULL;
  return br__change_add (run, &change);
}
