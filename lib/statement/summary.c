/* SPDX-License-Identifier: LGPL-3.0-or-later
   summary.c - a summary of an opened sheet in a few lines: sizes, waiting names, checks, cautions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/hidden.h"
#include "statement/opened.h"
#include "statement/statements.h"
#include "wood/wood.h"

static void
count_caution (void *user, const br_record *record)
{
  *(size_t *) user += strcmp (br_record_kind (record), "caution") == 0;
}

/* Counts the cautions that `cautions` would show; they count as given then.  */
static br_status
count_cautions (size_t *count, const br__run *run)
{
  br_sink sink = { .user = count, .record = count_caution };
  br__run own = { .sheet = run->sheet, .sink = &sink, .file = run->file, .text = "", .note = "", .error = run->error };
  br_status status = br__lex_start (&own.lex, "", 0, run->error);
  return status == BR_OK ? br__do_cautions (&own) : status;
}

static size_t
put_sizes (br_record *r, const br_sheet *sheet)
{
  size_t count = 0;
  br_list *waiting = br__put_list (r, "waiting");
  for (br__entry *e = br__graph_first (sheet->graph); e; e = br__entry_next (e))
    if (!br__is_hidden_entry (e) && br__entry_definition (e))
      {
        count++;
        if (!br__entry_value (e))
          br__list_text (waiting, br__entry_name (e));
      }
  return count;
}

static void
put_checks (br_record *r, const br_sheet *sheet)
{
  size_t count[4] = { 0, 0, 0, 0 };
  br_list *failing = br__put_list (r, "failing");
  for (const br__check *c = sheet->checks; c; c = c->next)
    if (c->active)
      {
        count[c->state]++;
        if (c->state == BR__CHECK_FAIL)
          {
            br_record *row = br__list_record (failing);
            br__put_text (row, "formula", c->formula);
            br__put_text (row, "note", c->note);
          }
      }
  br__put_count (r, "pass", (int64_t) count[BR__CHECK_PASS]);
  br__put_count (r, "fail", (int64_t) count[BR__CHECK_FAIL]);
  br__put_count (r, "checks_waiting", (int64_t) count[BR__CHECK_WAITING]);
  br__put_count (r, "undecided", (int64_t) count[BR__CHECK_UNDECIDED]);
}

br_status
br__emit_summary (br__run *run, const char *path)
{
  br_sheet *sheet = run->sheet;
  size_t cautions = 0;
  if (!run->sink || !run->sink->summary || sheet->reading)
    return BR_OK;
  br_status status = count_cautions (&cautions, run);
  if (status != BR_OK)
    return status;
  br_record *r = br__record_new ("opened");
  br__put_text (r, "file", path);
  br__put_text (r, "title", sheet->title ? sheet->title : "");
  br__put_count (r, "dimensions", (int64_t) put_sizes (r, sheet));
  put_checks (r, sheet);
  br__put_count (r, "cautions", (int64_t) cautions);
  return br__emit (run, r);
}
