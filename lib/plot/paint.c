/* SPDX-License-Identifier: LGPL-3.0-or-later
   paint.c - pages of strokes through the program's painter, to PDF and PNG.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/wide.h"
#include "plot/plot.h"
#include "exact/status.h"
#include "sheet/access.h"

#define SQUARES_GREY 750              /* thousandths of white */
#define FULL_TURN INT64_C (360000000) /* in the painter's millionths of a degree */

typedef struct easel
{
  const br_painter *painter;
  br_page *page;
  int grey;
  int figure;                   /* it is being painted */
} easel;

/* Billionths of an inch in the painter's unit, the nearest.  */
static int32_t
to_page (int64_t n)
{
  const int64_t num = 9, den = 125000;
  int64_t twice = 2 * n * num + den, floor = twice / (2 * den);
  return (int32_t) (floor - (twice < 0 && twice % (2 * den) != 0));
}

/* Billionths of a degree in the painter's millionths, FROM less than a turn.  */
static br_page_step
to_step (const br__path_step *s)
{
  static const br_page_step_type types[] = { BR_STEP_MOVE, BR_STEP_LINE, BR_STEP_ARC, BR_STEP_CLOSE };
  int64_t from = s->from / 1000 % FULL_TURN, turn = (s->to - s->from) / 1000;
  turn = turn > FULL_TURN ? FULL_TURN : turn < -FULL_TURN ? -FULL_TURN : turn;
  return (br_page_step) { types[s->type], to_page (s->x), to_page (s->y), to_page (s->r), (int32_t) from, (int32_t) (from + turn) };
}

/* The outline of K as one path; with MORE it waits for the next one, to be one stroke with that.  */
static void
paint_outline (easel *e, const br__ink *k, int more)
{
  br__path_step room[BR__MOST_STEPS];
  size_t count;
  const br__path_step *steps = br__ink_steps (&count, room, k);
  for (size_t i = 0; i < count; i++)
    {
      br_page_step step = to_step (&steps[i]);
      e->painter->path (e->page, &step, 1);
    }
  if (!more)
    e->painter->stroke (e->page, to_page (br__pen_width (k->pen)), k->dashed);
}

static void
paint_arrow (easel *e, const br__ink *k)
{
  int64_t c[6];
  int32_t corners[6];
  br__arrow_corners (c, k);
  for (int i = 0; i < 6; i++)
    corners[i] = to_page (c[i]);
  e->painter->fill (e->page, corners, 3);
}

static void
paint_text (easel *e, const br__ink *k)
{
  br_page_text t = { .text = k->text, .x = to_page (k->x), .size = to_page (k->size), .bold = k->bold,
                     .align = k->align };
  int32_t half = e->painter->text (e->page, NULL, &t, 0) / 2;
  t.turned = k->turned;
  t.high = !k->prose;
  t.x -= k->turned ? half : 0;
  t.y = to_page (k->y) - (k->turned ? 0 : half);
  e->painter->text (e->page, NULL, &t, 1);
}

static void
paint_ink (easel *e, const br__ink *k, int more)
{
  if ((k->pen == BR__PEN_GRID) != e->grey)
    {
      e->grey = k->pen == BR__PEN_GRID;
      e->painter->pen (e->page, e->grey ? SQUARES_GREY : 0, 1);
    }
  if (k->type == BR__INK_ARROW)
    paint_arrow (e, k);
  else if (k->type == BR__INK_TEXT)
    paint_text (e, k);
  else
    paint_outline (e, k, more);
}

/* The figure is one thing, with a description; each text beside it is a paragraph.  */
static void
paint_tagged (easel *e, const br__ink *k, int more, const char *description)
{
  int figure = !k->apart;
  if (figure != e->figure)
    {
      e->painter->tag (e->page, figure ? "Figure" : NULL, figure ? description : NULL);
      e->figure = figure;
    }
  int words = !figure && k->type == BR__INK_TEXT;
  if (words)
    e->painter->tag (e->page, "P", NULL);
  paint_ink (e, k, more);
  if (words)
    e->painter->tag (e->page, NULL, NULL);
}

/* Squares are one stroke: what draws pages takes its time for each, and more the more there are.  */
static int
goes_on (const br__plot *p, size_t i)
{
  const br__ink *k = &p->inks[i], *next = k + 1;
  return i + 1 < p->count && i + 1 != p->cut_from && i + 1 != p->cut_to && k->pen == BR__PEN_GRID && next->pen == BR__PEN_GRID
         && k->dashed == next->dashed && k->apart == next->apart;
}

static void
paint_page (easel *e, const br__plot *p, const char *description)
{
  e->grey = 0;
  e->painter->pen (e->page, 0, 1);
  for (size_t i = 0; i < p->count; i++)
    {
      const br__area *a = &p->window;
      if (p->cut_to > p->cut_from && i == p->cut_from)
        e->painter->clip (e->page, to_page (a->x), to_page (a->y), to_page (a->x2), to_page (a->y2));
      if (p->cut_to > p->cut_from && i == p->cut_to)
        e->painter->clip (e->page, 0, 0, 0, 0);
      paint_tagged (e, &p->inks[i], goes_on (p, i), description);
    }
  if (e->figure)
    e->painter->tag (e->page, NULL, NULL);
  e->figure = 0;
}

/* What no font here has is an empty box on paper: that is said.  */
static br_status
say_missing (br__run *run, const easel *e)
{
  char letters[BR_PAGE_MISSING] = "";
  br_text t = BR_TEXT_ZERO;
  if (e->painter->missing)
    e->painter->missing (letters, e->page);
  if (!*letters)
    return BR_OK;
  br_record *r = br__record_new ("caution");
  br__text_printf (&t, "no font on this machine has these letters, an empty box stands for each: %s", letters);
  br__put_from (r, "message", &t);
  br__put_text (r, "source", "the fonts of this machine");
  br__text_clear (&t);
  return br__emit (run, r);
}

br_status
br__paint (br__run *run, const br__plot *pages, size_t count, const char *form, const char *title, const char *description,
           const char *path)
{
  easel e = { .painter = NULL };
  char *bytes = NULL;
  size_t length = 0;
  if (!run->sheet->painter)
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "this program cannot draw pages");
      br__hint (run->error, "write into a .svg file");
      return BR_DOMAIN;
    }
  e.painter = run->sheet->painter (run->sheet->painter_user, run->error);
  if (!e.painter)
    {
      br__hint (run->error, "write into a .svg file");
      return run->error && run->error->status != BR_OK ? run->error->status : BR_IO;
    }
  br_status status = e.painter->open (&e.page, form, to_page (pages[0].width), to_page (pages[0].height), title,
                                      run->error);
  if (status != BR_OK)
    return status;
  e.painter->tag (e.page, "Document", NULL);
  for (size_t i = 0; i < count; i++)
    {
      if (i)
        e.painter->next (e.page);
      paint_page (&e, &pages[i], description);
    }
  e.painter->tag (e.page, NULL, NULL);
  status = say_missing (run, &e);
  if (status != BR_OK)
    {
      e.painter->drop (e.page);
      return status;
    }
  status = e.painter->close (&bytes, &length, e.page, run->error);
  if (status == BR_OK)
    {
      status = br__file_put (run, path, br__content_named (path), bytes, length);
      e.painter->release (bytes);
    }
  return status;
}
