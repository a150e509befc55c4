/* SPDX-License-Identifier: GPL-3.0-or-later
   text_shape.c - shapes, and the distance of two, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <stdlib.h>
#include <string.h>

#include "fields.h"

static void
shape_block (const display *d, const br_record *record)
{
  int waits = strcmp (field_text (record, "state"), "waiting") == 0;
  display_put (d, field_text (record, "shape"));
  display_put (d, " ");
  text_strong (d, field_text (record, "name"));
  display_put (d, "  ");
  display_put (d, field_text (record, "size"));
  display_put (d, ", ");
  display_put (d, field_text (record, "place"));
  if (*field_text (record, "layer"))
    {
      display_put (d, ", layer ");
      display_put (d, field_text (record, "layer"));
    }
  if (*field_text (record, "of"))
    {
      display_put (d, ", of ");
      display_put (d, field_text (record, "of"));
    }
  putc ('\n', d->stream);
  if (waits)
    {
      display_put (d, "  waits for ");
      text_names (d, field_list (record, "waiting"));
      putc ('\n', d->stream);
    }
}

static void
shape_row (table *t, const display *d, const br_record *record)
{
  const br_list *waiting = field_list (record, "waiting");
  (void) d;
  table_add (t, field_text (record, "name"));
  table_add (t, field_text (record, "shape"));
  table_add (t, field_text (record, "size"));
  table_add (t, field_text (record, "place"));
  table_addf (t, "%s%s", fields_in (waiting) ? "waits for " : "", fields_in (waiting) ? field_text_at (waiting, 0) : "");
}

static void
clear_block (const display *d, const br_record *record)
{
  const br_list *shapes = field_list (record, "shapes");
  char name[160];
  snprintf (name, sizeof name, "clear(%.70s, %.70s)", field_text_at (shapes, 0), field_text_at (shapes, 1));
  text_value (d, record, name);
  display_put (d, field_truth (record, "overlap") ? "  they overlap" : "");
  putc ('\n', d->stream);
  text_mark (d, record);
}

static const char *const shape_headings[] = { "name", "shape", "size", "place", "" };

const text_kind text_shapes[] = {
  { "shape", shape_block, shape_row, 5, shape_headings, 0 },
  { "clear", clear_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
