/* SPDX-License-Identifier: GPL-3.0-or-later
   text_draw.c - what a drawing has become, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <string.h>

static void
put_loose (const display *d, const br_list *waiting)
{
  for (size_t i = 0; i < br_list_size (waiting); i++)
    {
      const br_record *row = br_list_record (waiting, i);
      display_put (d, "  dashed: ");
      display_put (d, br_record_text (row, "name"));
      display_put (d, " needs ");
      text_names (d, br_record_list (row, "needs"));
      putc ('\n', d->stream);
    }
}

const char *
text_view_words (const char *view)
{
  static const char *const words[][2] =
    { { "side", "side view" }, { "top", "view from above" }, { "front", "front view" }, { "views", "three views" },
      { "parts", "the parts" } };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (strcmp (view, words[i][0]) == 0)
      return words[i][1];
  return view;
}

static void
drawing_block (const display *d, const br_record *record)
{
  int64_t pages = br_record_count (record, "pages"), shapes = br_record_count (record, "shapes");
  int64_t left_out = br_record_count (record, "left_out");
  int parts = strcmp (br_record_text (record, "view"), "parts") == 0;
  text_strong (d, br_record_text (record, "file"));
  display_put (d, ": ");
  display_put (d, text_view_words (br_record_text (record, "view")));
  if (*br_record_text (record, "projection"))
    {
      display_put (d, " in ");
      display_put (d, br_record_text (record, "projection"));
      display_put (d, "-angle projection");
    }
  display_put (d, ", ");
  display_put (d, br_record_text (record, "scale_words"));
  if (*br_record_text (record, "width_shown"))
    {
      display_put (d, ", ");
      text_put_cut (d, br_record_text (record, "width_shown"));
      display_put (d, " x ");
      text_put_cut (d, br_record_text (record, "height_shown"));
    }
  fputs ("\n  ", d->stream);
  text_count (d, shapes, parts ? "part" : "shape", parts ? "parts" : "shapes");
  display_put (d, " on ");
  if (pages > 1)
    fprintf (d->stream, "%" PRId64 " sheets of ", pages);
  display_put (d, *br_record_text (record, "paper") ? br_record_text (record, "paper") : "a page of its own size");
  display_put (d, *br_record_text (record, "paper") ? " paper, " : "");
  display_put (d, br_record_text (record, "lies"));
  display_put (d, *br_record_text (record, "square") ? "; " : "");
  display_put (d, br_record_text (record, "square"));
  putc ('\n', d->stream);
  if (left_out > 0)
    fprintf (d->stream, "  %" PRId64 " %s in a table\n", left_out,
             left_out == 1 ? "size or place stands" : "sizes and places stand");
  put_loose (d, br_record_list (record, "waiting"));
  text_undrawn (d, br_record_list (record, "parts"));
  if (br_list_size (br_record_list (record, "without_depth")))
    {
      display_put (d, "  in the side view alone, as the depth is not known: ");
      text_names (d, br_record_list (record, "without_depth"));
      putc ('\n', d->stream);
    }
}

void
text_undrawn (const display *d, const br_list *parts)
{
  for (size_t i = 0; i < br_list_size (parts); i++)
    if (!br_record_truth (br_list_record (parts, i), "drawn"))
      {
        display_put (d, "  not drawn, as its length or width is not known: ");
        display_put (d, br_record_text (br_list_record (parts, i), "part"));
        putc ('\n', d->stream);
      }
}

const text_kind text_drawings[] = {
  { "drawing", drawing_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
