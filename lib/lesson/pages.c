/* SPDX-License-Identifier: LGPL-3.0-or-later
   pages.c - worksheets and keys on paper: what stands where.  How a line or a letter is put down is the
   painter's business.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "lesson/write.h"
#include "sheet/access.h"
#include "shop/paper.h"

#define POINT (BR_PAGE_INCH / 72)
#define THIN (POINT * 3 / 4)
#define SMALL (POINT * 9)
#define MARGIN (BR_PAGE_INCH * 3 / 4)
#define NUMBER_WIDTH (BR_PAGE_INCH / 2)
#define FOOT (BR_PAGE_INCH / 2)       /* above the lower margin: the line to check, the page */
#define CORNER (2 * BR_PAGE_INCH)     /* upper right: the version and the seed */
#define RULER_INCHES 6

typedef struct layout
{
  const br_painter *painter;
  br_page *page;
  const br__worksheet *w;
  int key;
  int32_t width, height;        /* of the paper */
  int32_t size;                 /* of letters */
  int32_t y;                    /* the next free line */
  size_t paper, version;
  int sheet_of_paper;           /* pages of this paper so far */
  int pages;
} layout;

static int32_t
put (layout *l, int32_t x, int32_t y, int32_t width, int32_t size, int bold, const char *text, int draw)
{
  br_page_text t = { text, x, y, width, size, bold, width < 0 ? BR_ALIGN_RIGHT : BR_ALIGN_LEFT, 0, 0 };
  if (width < 0)
    t.width = 0;
  return l->painter->text (l->page, NULL, &t, draw);
}

static int32_t
text_width (const layout *l)
{
  return l->width - 2 * MARGIN - NUMBER_WIDTH;
}

static int32_t
width_of (layout *l, int32_t size, const char *text)
{
  int32_t wide = 0;
  br_page_text t = { text, 0, 0, 0, size, 0, BR_ALIGN_LEFT, 0, 0 };
  l->painter->text (l->page, &wide, &t, 0);
  return wide;
}

/* The line by which the printer is checked, and the number of the page.  */
static void
put_foot (layout *l)
{
  static const char check[] = "This line is 2 in long. If it is not, print at 100 %.";
  br_text t = BR_TEXT_ZERO;
  int32_t base = l->height - MARGIN, right = MARGIN + 2 * BR_PAGE_INCH, tick = BR_PAGE_INCH / 16;
  int32_t size = l->w->large ? 12 * POINT : SMALL, room = l->width - MARGIN - right - 4 * tick;
  l->painter->line (l->page, MARGIN, base, right, base, POINT, 0);
  l->painter->line (l->page, MARGIN, base - tick, MARGIN, base + tick, THIN, 0);
  l->painter->line (l->page, right, base - tick, right, base + tick, THIN, 0);
  br__text_printf (&t, "%sversion %zu, page %d", l->key ? "key, " : "", l->version + 1, l->sheet_of_paper);
  room -= width_of (l, size, br__text_string (&t));
  put (l, right + tick * 2, base - put (l, 0, 0, room, size, 0, check, 0) / 2, room, size, 0, check, 1);
  put (l, l->width - MARGIN, base - size * 7 / 10, -1, size, 0, br__text_string (&t), 1);
  br__text_clear (&t);
}

static void
put_name (layout *l)
{
  const char *name = br__paper_name (l->w, l->paper);
  int32_t wide = 0;
  br_page_text t = { "Name: ", MARGIN, l->y, 0, l->size, 0, BR_ALIGN_LEFT, 0, 0 };
  int32_t high = l->painter->text (l->page, &wide, &t, 1);
  if (*name)
    high = put (l, MARGIN + wide, l->y, l->width - 2 * MARGIN - wide - CORNER, l->size, 1, name, 1);
  else
    l->painter->line (l->page, MARGIN + wide, l->y + high, l->width - MARGIN - CORNER, l->y + high, THIN, 0);
  l->y += high + l->size * 7 / 10;
}

/* The head of a page; the first of a paper has the name and what is asked.  */
static void
new_page (layout *l)
{
  br_text t = BR_TEXT_ZERO;
  if (l->pages++)
    l->painter->next (l->page);
  l->sheet_of_paper++;
  l->y = MARGIN;
  br__text_printf (&t, "Version %zu", l->version + 1);
  int32_t under = l->y + put (l, l->width - MARGIN, l->y, -1, l->size, 1, br__text_string (&t), 1);
  br__text_reset (&t);
  br__text_printf (&t, "seed %lld", (long long) l->w->seed);
  under += put (l, l->width - MARGIN, under, -1, l->w->large ? 12 * POINT : SMALL, 0, br__text_string (&t), 1);
  br__text_reset (&t);
  br__text_printf (&t, "%s%s", l->key ? "Key: " : "", l->w->title ? l->w->title : "Worksheet");
  l->y += put (l, MARGIN, l->y, l->width - 2 * MARGIN - CORNER, l->size * 4 / 3, 1, br__text_string (&t), 1) * 5 / 4;
  if (!l->key)
    put_name (l);
  if (!l->key && l->sheet_of_paper == 1)
    {
      br__text_reset (&t);
      br__put_instruction (&t);
      l->y += put (l, MARGIN, l->y, l->width - 2 * MARGIN, l->size, 0, br__text_string (&t), 1);
      br__text_reset (&t);
      br__put_caution (&t, l->w);
      if (t.length)
        l->y += put (l, MARGIN, l->y, l->width - 2 * MARGIN, l->w->large ? l->size : SMALL * 10 / 9, 0, br__text_string (&t), 1);
      l->y += l->size * 7 / 10;
    }
  if (l->y < under)
    l->y = under + l->size / 4;
  l->painter->line (l->page, MARGIN, l->y, l->width - MARGIN, l->y, THIN, 0);
  l->y += l->size;
  put_foot (l);
  br__text_clear (&t);
}

static int32_t
lower_end (const layout *l)
{
  return l->height - MARGIN - FOOT;
}

/* Room for HIGH more, on this page or another.  */
static void
need (layout *l, int32_t high)
{
  if (l->y + high > lower_end (l))
    new_page (l);
}

static void
put_ruler (layout *l, const br__problem *p)
{
  int32_t base = l->y + BR_PAGE_INCH * 3 / 4;
  br__ratio at = br__ratio_mul (p->given[0], br__ratio_of (BR_PAGE_INCH, 1));
  br_page_ruler r = { MARGIN + NUMBER_WIDTH, base, BR_PAGE_INCH, RULER_INCHES, (int32_t) p->level, 0,
                      (int32_t) (at.num / at.den), (l->w->large ? 14 : 11) * POINT };
  l->painter->ruler (l->page, &r);
  l->y = base + BR_PAGE_INCH / 2;
}

static void
put_problem (layout *l, const br__task *task, size_t index)
{
  int picture = task->problem && task->problem->topic->picture;
  int32_t x = MARGIN + NUMBER_WIDTH, room = task->room * BR_PAGE_INCH / 4;
  int32_t high = put (l, x, l->y, text_width (l), l->size, 0, br__text_string (&task->text), 0);
  int32_t answer = l->size * 5 / 2;
  br_text number = BR_TEXT_ZERO;
  high += room + answer + (picture ? BR_PAGE_INCH * 5 / 4 : 0);
  need (l, high);
  /* Long words of a teacher take from the room.  */
  if (l->y + high > lower_end (l))
    room -= l->y + high - lower_end (l) < room ? l->y + high - lower_end (l) : room;
  br__text_printf (&number, "%zu.", index + 1);
  put (l, MARGIN, l->y, 0, l->size, 1, br__text_string (&number), 1);
  l->y += put (l, x, l->y, text_width (l), l->size, 0, br__text_string (&task->text), 1) + l->size / 2;
  if (picture)
    put_ruler (l, task->problem);
  l->y += room;
  int32_t wide = 0;
  br_page_text t = { "Answer: ", l->width - MARGIN - 3 * BR_PAGE_INCH, l->y, 0, l->size, 0, BR_ALIGN_LEFT, 0, 0 };
  int32_t base = l->painter->text (l->page, &wide, &t, 1);
  l->painter->line (l->page, t.x + wide, l->y + base, l->width - MARGIN, l->y + base, THIN, 0);
  l->y += answer;
  br__text_clear (&number);
}

/* DRAW 0 only measures; returns the height.  */
static int32_t
put_row (layout *l, int32_t indent, int bold, const char *text, int draw)
{
  int32_t x = MARGIN + NUMBER_WIDTH + indent, width = text_width (l) - indent;
  int32_t high = put (l, x, l->y, width, l->size, bold, text, 0);
  if (draw)
    {
      need (l, high);
      put (l, x, l->y, width, l->size, bold, text, 1);
      l->y += high;
    }
  return high;
}

static int32_t
put_key_rows (layout *l, const br__task *task, int draw)
{
  br_text t = BR_TEXT_ZERO;
  int32_t high = put_row (l, 0, 0, br__text_string (&task->text), draw);
  br__text_printf (&t, "Answer: %s", br__text_string (&task->answer));
  high += put_row (l, 0, 1, br__text_string (&t), draw);
  for (size_t i = 0; i < task->steps.count; i++)
    {
      br__text_reset (&t);
      br__put_step (&t, br__text_string (&task->steps.rows[i]));
      high += put_row (l, BR_PAGE_INCH / 4, 0, br__text_string (&t), draw);
    }
  for (unsigned i = 0; i < task->wrong_count && i < BR__WRONG_IN_KEY; i++)
    {
      br__text_reset (&t);
      br__text_printf (&t, "Not %s: %s; %s.", br__text_string (&task->wrong[i]), br__mistake_name (task->mistake[i]),
                       br__mistake_shows (task->mistake[i]));
      high += put_row (l, BR_PAGE_INCH / 4, 0, br__text_string (&t), draw);
    }
  br__text_clear (&t);
  return high;
}

/* A problem stays on one page with all its steps, unless they are more than a page holds.  */
static void
put_key (layout *l, const br__task *task, size_t index)
{
  br_text t = BR_TEXT_ZERO;
  need (l, put_key_rows (l, task, 0));
  br__text_printf (&t, "%zu.", index + 1);
  put (l, MARGIN, l->y, 0, l->size, 1, br__text_string (&t), 1);
  put_key_rows (l, task, 1);
  l->y += l->size;
  br__text_clear (&t);
}

static br_status
page_task (void *user, const br__worksheet *w, const br__task *task, size_t paper, size_t version, size_t index)
{
  layout *l = user;
  (void) w;
  if (index == 0)
    {
      l->paper = paper;
      l->version = version;
      l->sheet_of_paper = 0;
      new_page (l);
    }
  if (l->key)
    put_key (l, task, index);
  else
    put_problem (l, task, index);
  return BR_OK;
}

br_status
br__page_start (const br_painter **painter, br_page **page, br__run *run, int32_t width, int32_t height, const char *title)
{
  if (!run->sheet->painter)
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "this program cannot draw pages");
      br__hint (run->error, "write into a .txt, .html or .csv file");
      return BR_DOMAIN;
    }
  *painter = run->sheet->painter (run->sheet->painter_user, run->error);
  if (!*painter)
    return run->error && run->error->status != BR_OK ? run->error->status : BR_IO;
  return (*painter)->open (page, "pdf", width, height, title, run->error);
}

br_status
br__page_end (const char *path, const br_painter *painter, br_page *page, br__run *run)
{
  char *bytes = NULL;
  size_t length = 0;
  br_status status = painter->close (&bytes, &length, page, run->error);
  if (status == BR_OK)
    {
      status = br__file_put (run, path, BR__CONTENT_PDF, bytes, length);
      painter->release (bytes);
    }
  return status;
}

br_status
br__worksheet_pdf (const char *path, const br__worksheet *w, br__run *run, int key)
{
  const br__paper *paper = w->paper ? w->paper : br__paper_find ("letter", 6);
  layout l = { .w = w, .key = key };
  l.width = (int32_t) (paper->width_num * BR_PAGE_INCH / paper->width_den);
  l.height = (int32_t) (paper->height_num * BR_PAGE_INCH / paper->height_den);
  /* A key is the teacher's, in ordinary print.  */
  l.size = (key ? 10 : w->large ? 18 : 12) * POINT;
  br_status status = br__page_start (&l.painter, &l.page, run, l.width, l.height, w->title ? w->title : "Worksheet");
  if (status != BR_OK)
    return status;
  status = br__each_task (run, w, key, key ? "drawing the key" : "drawing papers", page_task, &l);
  if (status == BR_OK)
    return br__page_end (path, l.painter, l.page, run);
  l.painter->drop (l.page);
  return status;
}
