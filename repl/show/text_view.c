/* SPDX-License-Identifier: GPL-3.0-or-later
   text_view.c - the side view in characters with what its letters mean, and the report in one line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "escape.h"
#include "show/table.h"

static void
put_some (const display *d, const br_record *record, const char *key, const char *one, const char *more)
{
  int64_t n = br_record_count (record, key);
  if (n <= 0)
    return;
  display_put (d, ", ");
  text_count (d, n, one, more);
}

static void
report_block (const display *d, const br_record *record)
{
  text_strong (d, br_record_text (record, "file"));
  fprintf (d->stream, ": %zu sections", br_list_size (br_record_list (record, "sections")));
  put_some (d, record, "dimensions", "dimension", "dimensions");
  put_some (d, record, "missing", "value missing", "values missing");
  put_some (d, record, "pass", "check holds", "checks hold");
  put_some (d, record, "fail", "check FAILS", "checks FAIL");
  put_some (d, record, "waiting", "check waits", "checks wait");
  put_some (d, record, "undecided", "check undecided", "checks undecided");
  put_some (d, record, "cautions", "caution", "cautions");
  putc ('\n', d->stream);
}

/* ---- The side view ---- */

/* "A front  diameter 3-1/2""; NULL when memory ran out.  */
static char *
legend_entry (const display *d, const br_record *shape, int name_width)
{
  const br_list *waiting = br_record_list (shape, "waiting");
  const char *mark = br_record_text (shape, "mark");
  char *text = NULL, *sizes;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  if (!out)
    return NULL;
  sizes = text_cut (d, br_record_text (shape, "size"));
  const char *name = br_record_text (shape, "name");
  fprintf (out, "%s %s%*s%s", *mark ? mark : " ", name, name_width + 2 - escape_width (name, strlen (name)), "", sizes ? sizes : "");
  free (sizes);
  for (size_t i = 0; i < br_list_size (waiting); i++)
    fprintf (out, "%s%s", i ? ", " : "  dashed: waits for ", br_list_text (waiting, i));
  if (fclose (out) != 0)
    {
      free (text);
      return NULL;
    }
  return text;
}

/* Shapes past these have no letters.  */
#define MOST_LISTED 52

/* In as many columns as there is room for, to be read from left to right.  */
static void
put_legend (const display *d, const br_list *shapes)
{
  size_t all = br_list_size (shapes), count = all < MOST_LISTED ? all : MOST_LISTED;
  char **entries = calloc (count ? count : 1, sizeof *entries);
  int widest = 0, name_width = 0;
  for (size_t i = 0; i < count; i++)
    {
      const char *name = br_record_text (br_list_record (shapes, i), "name");
      int width = escape_width (name, strlen (name));
      name_width = width > name_width ? width : name_width;
    }
  for (size_t i = 0; entries && i < count; i++)
    {
      entries[i] = legend_entry (d, br_list_record (shapes, i), name_width);
      int width = entries[i] ? escape_width (entries[i], strlen (entries[i])) : 0;
      widest = width > widest ? width : widest;
    }
  size_t across = (size_t) (d->width / (widest + 4));
  across += across == 0;
  for (size_t i = 0; entries && i < count; i++)
    {
      const char *entry = entries[i] ? entries[i] : "";
      int last = i + 1 == count || (i + 1) % across == 0;
      fputs ("  ", d->stream);
      display_put (d, entry);
      if (!last)
        display_repeat (d, " ", widest + 2 - escape_width (entry, strlen (entry)));
      else
        putc ('\n', d->stream);
    }
  for (size_t i = 0; entries && i < count; i++)
    free (entries[i]);
  free (entries);
  if (all > count)
    fprintf (d->stream, "  and %zu more: `shapes` lists them\n", all - count);
}

/* What the numbers of the parts mean.  */
static void
put_parts (const display *d, const br_list *parts)
{
  static const char *const headings[] = { "no.", "part", "number", "size", "stock" };
  table t = TABLE_ZERO;
  table_start (&t, 5, headings);
  for (size_t i = 0; i < br_list_size (parts); i++)
    {
      const br_record *row = br_list_record (parts, i);
      table_addf (&t, "%" PRId64, br_record_count (row, "number"));
      table_add (&t, br_record_text (row, "part"));
      table_addf (&t, "%" PRId64, br_record_count (row, "quantity"));
      table_add (&t, br_record_text (row, "shown"));
      table_add (&t, br_record_text (row, "stock"));
    }
  table_put (&t, d);
  table_clear (&t);
  text_undrawn (d, parts);
}

static void
view_block (const display *d, const br_record *record)
{
  const br_list *lines = br_record_list (record, d->utf8 ? "dots" : "plain");
  int bar = (int) br_record_count (record, "bar_columns");
  const char *view = br_record_text (record, "view");
  if (strcmp (view, "side") != 0)
    {
      text_strong (d, text_view_words (view));
      putc ('\n', d->stream);
    }
  for (size_t i = 0; i < br_list_size (lines); i++)
    {
      display_put (d, br_list_text (lines, i));
      putc ('\n', d->stream);
    }
  fputs ("\n|", d->stream);
  display_repeat (d, "-", bar - 2);
  fputs ("|  ", d->stream);
  display_put (d, br_record_text (record, "bar"));
  putc ('\n', d->stream);
  if (*br_record_text (record, "not_to_scale"))
    fprintf (d->stream, "not at the sheet's scale, %s: `draw %sinto FILE.pdf` is\n", br_record_text (record, "not_to_scale"),
             strcmp (view, "parts") == 0 ? "parts " : "");
  put_legend (d, br_record_list (record, "shapes"));
  if (br_record_truth (record, "hidden"))
    fputs ("  wide gaps: behind something\n", d->stream);
  if (br_list_size (br_record_list (record, "parts")))
    put_parts (d, br_record_list (record, "parts"));
}

const text_kind text_views[] = {
  { "view", view_block, NULL, 0, NULL, 0, NULL },
  { "report", report_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
