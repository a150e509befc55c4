/* SPDX-License-Identifier: GPL-3.0-or-later
   text_view.c - the report, told in a line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <inttypes.h>

#include "fields.h"

static void
put_some (const display *d, const br_record *record, const char *key, const char *one, const char *more)
{
  br_field field = br_record_get (record, key);
  int64_t n = field.type == BR_FIELD_COUNT ? field.value.count : 0;
  if (n)
    fprintf (d->stream, ", %" PRId64 " %s", n, n == 1 ? one : more);
}

static void
report_block (const display *d, const br_record *record)
{
  text_strong (d, field_text (record, "file"));
  fprintf (d->stream, ": %zu sections", fields_in (field_list (record, "sections")));
  put_some (d, record, "dimensions", "dimension", "dimensions");
  put_some (d, record, "missing", "value missing", "values missing");
  put_some (d, record, "pass", "check holds", "checks hold");
  put_some (d, record, "fail", "check FAILS", "checks FAIL");
  put_some (d, record, "waiting", "check waits", "checks wait");
  put_some (d, record, "undecided", "check undecided", "checks undecided");
  put_some (d, record, "cautions", "caution", "cautions");
  putc ('\n', d->stream);
}

const text_kind text_views[] = {
  { "report", report_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
