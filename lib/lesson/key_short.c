/* SPDX-License-Identifier: LGPL-3.0-or-later
   key_short.c - a key of answers alone: a row for each version, a page for a class.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "file/markup.h"
#include "table/rows.h"
#include "lesson/write.h"
#include "measure/measure.h"
#include "shop/paper.h"

typedef struct answers
{
  const br__worksheet *w;
  br_text *cells;               /* of problem I of version V at V * problem_count + I */
} answers;

static br_status
take_answer (void *user, const br__worksheet *w, br__task *task, size_t paper, size_t version, size_t index)
{
  answers *a = user;
  br_text *cell = &a->cells[version * w->problem_count + index];
  (void) paper;
  br__text_puts (cell, br__text_string (&task->answer));
  return cell->failed ? BR_NO_MEMORY : BR_OK;
}

static const char *
answer_at (const answers *a, size_t version, size_t index)
{
  return br__text_string (&a->cells[version * a->w->problem_count + index]);
}

static void
put_title (br_text *t, const br__worksheet *w)
{
  br__text_printf (t, "Answers: %s, seed %lld", w->title ? w->title : "Worksheet", (long long) w->seed);
}

/* How many columns S takes: characters, not bytes.  */
static size_t
width_of (const char *s)
{
  size_t n = 0, length = strlen (s);
  for (size_t at = 0; at < length; n++)
    at += br__glyph_at (s, length, at).length;
  return n;
}

static void
put_text (br_text *t, const answers *a)
{
  size_t n = a->w->problem_count, versions = (size_t) a->w->versions;
  put_title (t, a->w);
  br__text_puts (t, "\n\nversion");
  for (size_t v = 0; v <= versions; v++)
    {
      if (v)
        br__text_printf (t, "%-7zu", v);
      for (size_t i = 0; i < n; i++)
        {
          size_t wide = 3;
          for (size_t k = 0; k < versions; k++)
            wide = width_of (answer_at (a, k, i)) > wide ? width_of (answer_at (a, k, i)) : wide;
          if (!v)
            br__text_printf (t, "  %-*zu", (int) wide, i + 1);
          else
            br__text_printf (t, "  %s%*s", answer_at (a, v - 1, i), (int) (wide - width_of (answer_at (a, v - 1, i))), "");
        }
      while (t->length && t->bytes[t->length - 1] == ' ')
        t->bytes[--t->length] = 0;
      br__text_putc (t, '\n');
    }
}

static void
put_table (br_text *t, const answers *a)
{
  br__text_puts (t, "version");
  for (size_t i = 0; i < a->w->problem_count; i++)
    br__text_printf (t, ",%zu", i + 1);
  for (size_t v = 0; v < (size_t) a->w->versions; v++)
    {
      br__text_printf (t, "\n%zu", v + 1);
      for (size_t i = 0; i < a->w->problem_count; i++)
        {
          br__text_putc (t, ',');
          br__put_cell (t, answer_at (a, v, i));
        }
    }
  br__text_putc (t, '\n');
}

static void
put_html (br_text *t, const answers *a)
{
  br_text title = BR_TEXT_ZERO;
  put_title (&title, a->w);
  br__html_head (t, "en", br__text_string (&title), "body{font-size:11pt}\n");
  br__text_puts (t, "<h1>");
  br__put_escaped (t, br__text_string (&title));
  br__text_puts (t, "</h1>\n<div class=\"box\"><table><tr><th>Version</th>");
  for (size_t i = 0; i < a->w->problem_count; i++)
    br__text_printf (t, "<th>%zu</th>", i + 1);
  for (size_t v = 0; v < (size_t) a->w->versions; v++)
    {
      br__text_printf (t, "</tr>\n<tr><th>%zu</th>", v + 1);
      for (size_t i = 0; i < a->w->problem_count; i++)
        {
          br__text_puts (t, "<td>");
          br__put_fractions (t, answer_at (a, v, i));
          br__text_puts (t, "</td>");
        }
    }
  br__text_puts (t, "</tr></table></div></body></html>\n");
  t->failed |= title.failed;
  br__text_clear (&title);
}

/* ---- On paper ---- */

#define POINT (BR_PAGE_INCH / 72)
#define MARGIN (BR_PAGE_INCH / 2)
#define FIRST (BR_PAGE_INCH * 9 / 10)  /* the column of versions */

typedef struct sheet
{
  const br_painter *painter;
  br_page *page;
  int32_t width, height, size, row, y;
} sheet;

static void
put_cell (sheet *s, int32_t x, const char *text, int bold)
{
  br_page_text t = { text, x, s->y, 0, s->size, bold, BR_ALIGN_LEFT, 0, 0 };
  s->painter->text (s->page, NULL, &t, 1);
}

/* The row of VERSION, from 1, or of the problems' numbers.  */
static void
put_row (sheet *s, const answers *a, size_t version)
{
  size_t n = a->w->problem_count;
  char number[32];
  snprintf (number, sizeof number, "%zu", version);
  put_cell (s, MARGIN, version ? number : "Version", 1);
  for (size_t i = 0; i < n; i++)
    {
      snprintf (number, sizeof number, "%zu", i + 1);
      put_cell (s, MARGIN + FIRST + (int32_t) i * ((s->width - 2 * MARGIN - FIRST) / (int32_t) n), version ? answer_at (a, version - 1, i) : number,
                !version);
    }
  s->y += s->row;
  s->painter->line (s->page, MARGIN, s->y - POINT * 2, s->width - MARGIN, s->y - POINT * 2, POINT / 4, 0);
}

/* The largest letters, up to 11 points, with which the widest answer goes into its column.  */
static void
choose_size (sheet *s, const answers *a)
{
  size_t n = a->w->problem_count;
  int32_t room = (s->width - 2 * MARGIN - FIRST) / (int32_t) n - 4 * POINT, widest = 0;
  s->size = 11 * POINT;
  for (size_t k = 0; k < n * (size_t) a->w->versions; k++)
    {
      int32_t wide = 0;
      br_page_text t = { br__text_string (&a->cells[k]), 0, 0, 0, s->size, 0, BR_ALIGN_LEFT, 0, 0 };
      s->painter->text (s->page, &wide, &t, 0);
      widest = wide > widest ? wide : widest;
    }
  if (widest > room && widest > 0)
    s->size = (int32_t) ((int64_t) s->size * room / widest);
  s->row = s->size * 8 / 5;
}

static br_status
put_pdf (const char *path, const answers *a, br__run *run)
{
  const br__paper *paper = a->w->paper ? a->w->paper : br__paper_find ("letter", 6);
  sheet s = { .width = (int32_t) (paper->width_num * BR_PAGE_INCH / paper->width_den),
              .height = (int32_t) (paper->height_num * BR_PAGE_INCH / paper->height_den) };
  br_text title = BR_TEXT_ZERO;
  put_title (&title, a->w);
  br_status status = br__page_start (&s.painter, &s.page, run, s.width, s.height, br__text_string (&title));
  if (status == BR_OK)
    {
      choose_size (&s, a);
      for (size_t v = 0; v <= (size_t) a->w->versions; v++)
        {
          if (v == 0 || s.y + s.row > s.height - MARGIN)
            {
              if (v)
                s.painter->next (s.page);
              s.y = MARGIN;
              br_page_text t = { br__text_string (&title), MARGIN, s.y, s.width - 2 * MARGIN, 13 * POINT, 1, BR_ALIGN_LEFT, 0, 0 };
              s.y += s.painter->text (s.page, NULL, &t, 1) + 6 * POINT;
              put_row (&s, a, 0);
            }
          if (v)
            put_row (&s, a, v);
        }
      status = br__page_end (path, s.painter, s.page, run);
    }
  br__text_clear (&title);
  return status;
}

br_status
br__key_short (const char *path, const br__worksheet *w, br__run *run)
{
  size_t count = (size_t) w->versions * w->problem_count;
  answers a = { w, br__alloc_zero (count, sizeof (br_text)) };
  br_text t = BR_TEXT_ZERO;
  br_status status = a.cells ? br__each_task (run, w, 1, "writing the key", take_answer, &a) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK && br__ends_with (path, ".pdf"))
    status = put_pdf (path, &a, run);
  else if (status == BR_OK)
    {
      (br__ends_with (path, ".csv") ? put_table : br__ends_with (path, ".html") ? put_html : put_text) (&t, &a);
      status = br__lesson_write (path, &t, run);
    }
  for (size_t i = 0; a.cells && i < count; i++)
    br__text_clear (&a.cells[i]);
  br__free (a.cells);
  br__text_clear (&t);
  return status;
}
