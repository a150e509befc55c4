/* SPDX-License-Identifier: GPL-3.0-or-later
   text_draw.c - what a drawing has become, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <inttypes.h>

#include "fields.h"

static int64_t
number_of (const br_record *record, const char *key)
{
  br_field field = br_record_get (record, key);
  return field.type == BR_FIELD_COUNT ? field.value.count : 0;
}

static void
put_loose (const display *d, const br_list *waiting)
{
  for (size_t i = 0; i < fields_in (waiting); i++)
    {
      const br_record *row = field_record_at (waiting, i);
      display_put (d, "  dashed: ");
      display_put (d, field_text (row, "name"));
      display_put (d, " needs ");
      text_names (d, field_list (row, "needs"));
      putc ('\n', d->stream);
    }
}

static void
drawing_block (const display *d, const br_record *record)
{
  int64_t pages = number_of (record, "pages"), shapes = number_of (record, "shapes");
  int64_t left_out = number_of (record, "left_out");
  text_strong (d, field_text (record, "file"));
  display_put (d, ": ");
  display_put (d, field_text (record, "view"));
  display_put (d, " view, ");
  display_put (d, field_text (record, "scale_words"));
  if (*field_text (record, "width_shown"))
    {
      display_put (d, ", ");
      display_put (d, field_text (record, "width_shown"));
      display_put (d, " x ");
      display_put (d, field_text (record, "height_shown"));
    }
  fprintf (d->stream, "\n  %" PRId64 " %s on ", shapes, shapes == 1 ? "shape" : "shapes");
  if (pages > 1)
    fprintf (d->stream, "%" PRId64 " sheets of ", pages);
  display_put (d, *field_text (record, "paper") ? field_text (record, "paper") : "a page of its own size");
  display_put (d, *field_text (record, "paper") ? " paper, " : "");
  display_put (d, field_text (record, "lies"));
  display_put (d, *field_text (record, "square") ? "; " : "");
  display_put (d, field_text (record, "square"));
  putc ('\n', d->stream);
  if (left_out)
    fprintf (d->stream, "  %" PRId64 " %s no room on it and %s in a list below\n", left_out,
             left_out == 1 ? "size or name found" : "sizes or names found", left_out == 1 ? "stands" : "stand");
  put_loose (d, field_list (record, "waiting"));
}

const text_kind text_drawings[] = {
  { "drawing", drawing_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
