/* SPDX-License-Identifier: GPL-3.0-or-later
   text_shape.c - shapes, and the distance of two, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <stdlib.h>
#include <string.h>

static void
shape_block (const display *d, const br_record *record)
{
  int waits = strcmp (br_record_text (record, "state"), "waiting") == 0;
  display_put (d, br_record_text (record, "shape"));
  display_put (d, " ");
  text_strong (d, br_record_text (record, "name"));
  display_put (d, "  ");
  text_put_cut (d, br_record_text (record, "size"));
  display_put (d, ", ");
  text_put_cut (d, br_record_text (record, "place"));
  if (*br_record_text (record, "layer"))
    {
      display_put (d, ", layer ");
      display_put (d, br_record_text (record, "layer"));
    }
  if (*br_record_text (record, "of"))
    {
      display_put (d, ", of ");
      display_put (d, br_record_text (record, "of"));
    }
  putc ('\n', d->stream);
  if (waits)
    {
      display_put (d, "  waits for ");
      text_names (d, br_record_list (record, "waiting"));
      putc ('\n', d->stream);
    }
}

static void
shape_row (table *t, const display *d, const br_record *record)
{
  const br_list *waiting = br_record_list (record, "waiting");
  table_add (t, br_record_text (record, "name"));
  table_add (t, br_record_text (record, "shape"));
  text_add_cut (t, d, br_record_text (record, "size"));
  text_add_cut (t, d, br_record_text (record, "place"));
  table_addf (t, "%s%s", br_list_size (waiting) ? "waits for " : "", br_list_text (waiting, 0));
}

/* In which direction two shapes that have a depth are free, or would soonest be.  */
static const char *
along (const br_record *record)
{
  const char *way = br_record_text (record, "along");
  if (*way == 'h')
    return ", and one lies in a hole that the other leaves it";
  if (br_record_truth (record, "overlap"))
    return !*way ? "" : *way == 'd' ? "; the shortest push is in depth" : "; the shortest push is seen from the side";
  if (*way == 'd')
    return strcmp (br_record_text (record, "exact"), "0") == 0 ? "  in depth: they touch" : "  in depth: they pass each other";
  return !*way ? "" : *way == 'b' ? "  aslant: seen from the side, and in depth"
         : "  seen from the side";
}

static void
rubs_row (table *t, const display *d, const br_record *record)
{
  const char *first = br_record_text (record, "first"), *second = br_record_text (record, "second");
  int overlap = strcmp (br_record_text (record, "state"), "overlap") == 0;
  (void) d;
  table_add (t, first);
  table_add (t, second);
  table_add (t, !overlap ? "undecided: they may only touch, or lie in a hole" : strcmp (first, second) == 0 ? "overlap: its own places"
                : "overlap");
}

static void
clear_block (const display *d, const br_record *record)
{
  const br_list *shapes = br_record_list (record, "shapes");
  char name[420];     /* a name of a shape has 200 bytes at most */
  snprintf (name, sizeof name, "clear(%.200s, %.200s)", br_list_text (shapes, 0), br_list_text (shapes, 1));
  text_value (d, record, name);
  display_put (d, br_record_truth (record, "overlap") ? "  they overlap" : "");
  display_put (d, along (record));
  putc ('\n', d->stream);
  text_mark (d, record);
}

static void
put_waiting (const display *d, const br_record *record)
{
  const br_list *waiting = br_record_list (record, "waiting");
  if (br_list_size (waiting))
    {
      display_put (d, "  waits for ");
      text_names (d, waiting);
    }
  putc ('\n', d->stream);
}

static void
dimension_line_block (const display *d, const br_record *record)
{
  const char *between = br_record_text (record, "between"), *text = br_record_text (record, "text");
  if (*br_record_text (record, "shown"))
    text_value (d, record, between);
  else
    display_put (d, between);
  display_put (d, *br_record_text (record, "way") ? ", " : "");
  display_put (d, br_record_text (record, "way"));
  display_put (d, *text ? ", as " : "");
  display_put (d, text);
  put_waiting (d, record);
}

static void
note_block (const display *d, const br_record *record)
{
  display_put (d, "note: ");
  display_put (d, br_record_text (record, "text"));
  display_put (d, *br_record_text (record, "to") ? ", to " : "");
  display_put (d, br_record_text (record, "to"));
  put_waiting (d, record);
}

static void
no_dimension_block (const display *d, const br_record *record)
{
  display_put (d, br_record_text (record, "shape"));
  display_put (d, " gets no dimension by itself");
  putc ('\n', d->stream);
}

static const char *const shape_headings[] = { "name", "shape", "size", "place", "" };

static const char *const rubs_headings[] = { "shape", "shape", "" };

const text_kind text_shapes[] = {
  { "rubs", NULL, rubs_row, 3, rubs_headings, 0, NULL },
  { "shape", shape_block, shape_row, 5, shape_headings, 0, NULL },
  { "clear", clear_block, NULL, 0, NULL, 0, NULL },
  { "dimension_line", dimension_line_block, NULL, 0, NULL, 0, NULL },
  { "note", note_block, NULL, 0, NULL, 0, NULL },
  { "no_dimension", no_dimension_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
