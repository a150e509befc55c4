/* SPDX-License-Identifier: LGPL-3.0-or-later
   left_out.c - a table under the drawing of sizes and names that found no room on it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/plot.h"
#include "exact/memory.h"

#define SIZE (8 * BR__POINT)
#define LEADING (SIZE * 7 / 5)
#define BETWEEN (BR__INCH / 5)  /* columns */
#define MOST_LINES 12

typedef struct table
{
  char **rows;
  size_t count, room;
  int64_t widest;
  int failed;
} table;

static void
table_clear (table *t)
{
  for (size_t i = 0; i < t->count; i++)
    br__free (t->rows[i]);
  br__free (t->rows);
}

/* Takes T over, cut to WIDTH.  */
static void
add_row (table *t, br_text *text, int64_t width)
{
  char *row = text->failed ? NULL : br__strndup (br__text_string (text), text->length);
  br__text_clear (text);
  if (!row || !br__grow (&t->rows, &t->room, t->count + 1, sizeof *t->rows))
    {
      br__free (row);
      t->failed = 1;
      return;
    }
  /* A name too long for the paper keeps its beginning.  */
  size_t n = strlen (row);
  int cut = 0;
  while (n > 3 && br__text_width (row, SIZE) > width)
    {
      do
        n--;
      while (n > 0 && ((unsigned char) row[n] & 0xC0) == 0x80);
      row[n] = 0;
      cut = 1;
    }
  if (cut && n > 3 && row[n - 1] >= 0 && row[n - 2] >= 0 && row[n - 3] >= 0)
    memcpy (row + n - 3, "...", 3);
  t->rows[t->count++] = row;
  int64_t wide = br__text_width (row, SIZE);
  t->widest = wide > t->widest ? wide : t->widest;
}

static void
add_sizes (table *t, const br__size_lines *d, int64_t width)
{
  for (size_t i = 0; i < d->count; i++)
    {
      const br__size_line *row = &d->rows[i];
      br_text text = BR_TEXT_ZERO;
      if (row->tier >= 0)
        continue;
      br__text_printf (&text, "%s %s %s%s%s", row->text, d->upright ? "up" : "across", row->of,
                       row->to_of ? " to " : "", row->to_of ? row->to_of : "");
      add_row (t, &text, width);
    }
}

static void
add_names (table *t, const br__side_view *v, int64_t width)
{
  for (size_t i = 0; i < v->count; i++)
    if (v->shapes[i].unlabelled)
      {
        br_text text = BR_TEXT_ZERO;
        br__text_puts (&text, v->shapes[i].label);
        add_row (t, &text, width);
      }
}

int64_t
br__left_out_plot (br__plot *p, const br__side_view *v, const br__size_lines *level, const br__size_lines *upright,
                   int64_t left, int64_t top, int64_t width)
{
  table t = { NULL, 0, 0, 0, 0 };
  add_sizes (&t, level, width);
  add_sizes (&t, upright, width);
  add_names (&t, v, width);
  size_t columns = (size_t) ((width + BETWEEN) / (t.widest + BETWEEN)), lines = 0, shown;
  columns = columns ? columns : 1;
  shown = t.count;
  if (shown > columns * MOST_LINES)
    shown = columns * MOST_LINES;
  if (t.count)
    {
      br_text more = BR_TEXT_ZERO;
      lines = (shown + columns - 1) / columns;
      br__text_puts (&more, "No room on the drawing for:");
      if (shown < t.count)
        br__text_printf (&more, " (and %zu more; `shapes` lists all)", t.count - shown);
      br__plot_text (p, left, top + LEADING / 2, BR_ALIGN_LEFT, SIZE, br__text_string (&more));
      p->failed |= more.failed;
      br__text_clear (&more);
    }
  for (size_t i = 0; i < shown; i++)
    br__plot_text (p, left + (int64_t) (i / lines) * (t.widest + BETWEEN),
                   top + LEADING / 2 + (int64_t) (i % lines + 1) * LEADING, BR_ALIGN_LEFT, SIZE, t.rows[i]);
  p->failed |= t.failed;
  int64_t height = t.count ? (int64_t) (lines + 1) * LEADING : 0;
  table_clear (&t);
  return height;
}
