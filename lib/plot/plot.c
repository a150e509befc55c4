/* SPDX-License-Identifier: LGPL-3.0-or-later
   plot.c - the list of strokes and texts, and where texts have room.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/wide.h"
#include "plot/plot.h"
#include "exact/memory.h"
#include "exact/text.h"

int64_t
br__pen_width (br__pen pen)
{
  /* 0.13, 0.25 and 0.5 mm.  */
  static const int64_t widths[] = { BR__INCH * 13 / 2540, BR__INCH * 25 / 2540, BR__INCH * 50 / 2540 };
  return widths[pen];
}

void
br__plot_cut (br__plot *p, size_t count)
{
  p->piece_count = 0;
  for (; p->count > count; p->count--)
    {
      br__free (p->inks[p->count - 1].text);
      br__free (p->inks[p->count - 1].steps);
    }
}

void
br__plot_clear (br__plot *p)
{
  br__plot_cut (p, 0);
  br__free (p->inks);
  br__free (p->taken);
  memset (p, 0, sizeof *p);
}

br__ink *
br__plot_add (br__plot *p, br__ink_type type, br__pen pen, int64_t x, int64_t y)
{
  if (!br__grow (&p->inks, &p->room, p->count + 2, sizeof (br__ink)))
    {
      static _Thread_local br__ink spare;
      p->failed = 1;
      return p->room ? &p->inks[p->count] : &spare;
    }
  br__ink *ink = &p->inks[p->count++];
  memset (ink, 0, sizeof *ink);
  ink->type = type;
  ink->pen = pen;
  ink->group = type == BR__INK_TEXT ? BR__GROUP_TEXT : pen == BR__PEN_GRID ? BR__GROUP_GRID : p->group;
  ink->apart = p->group == BR__GROUP_FRAME;
  ink->x = x;
  ink->y = y;
  return ink;
}

void
br__ink_name (br__plot *p, br__ink *ink, const char *text)
{
  /* Once memory has run out INK may be one that nobody frees.  */
  if (!text || !p->count || ink != &p->inks[p->count - 1])
    return;
  ink->text = br__strndup (text, strlen (text));
  if (!ink->text)
    {
      p->failed = 1;
      br__free (ink->steps);
      p->count--;               /* a text of nothing is no ink */
    }
}

void
br__ink_path (br__plot *p, br__ink *ink, const br__path_step *steps, size_t count)
{
  if (!count || !p->count || ink != &p->inks[p->count - 1])
    return;
  ink->steps = br__alloc_zero (count, sizeof *steps);
  if (!ink->steps)
    {
      p->failed = 1;
      br__free (ink->text);
      p->count--;
      return;
    }
  memcpy (ink->steps, steps, count * sizeof *steps);
  ink->step_count = count;
}

static size_t
steps_of_strip (br__path_step s[BR__MOST_STEPS], const br__ink *k)
{
  const int64_t full = 360 * BR__INCH, turn = k->to - k->from;
  int whole = turn >= full || turn <= -full;
  size_t n = 0;
  s[n++] = (br__path_step) { BR__STEP_ARC, k->x, k->y, k->r, k->from, k->to };
  if (whole)
    s[n++] = (br__path_step) { .type = BR__STEP_CLOSE };
  if (k->r2 == k->r)
    return n;
  /* A ring is two curves; else the outer one leads back.  */
  s[n++] = (br__path_step) { BR__STEP_ARC, k->x, k->y, k->r2, whole ? k->from : k->to, whole ? k->to : k->from };
  s[n++] = (br__path_step) { .type = BR__STEP_CLOSE };
  return n;
}

static size_t
steps_of_bar (br__path_step s[BR__MOST_STEPS], const br__ink *k)
{
  const int64_t right = 90 * BR__INCH, angle = br__angle (k->x2 - k->x, k->y - k->y2);
  s[0] = (br__path_step) { BR__STEP_ARC, k->x, k->y, k->r, angle + right, angle + 3 * right };
  s[1] = (br__path_step) { BR__STEP_ARC, k->x2, k->y2, k->r, angle - right, angle + right };
  s[2] = (br__path_step) { .type = BR__STEP_CLOSE };
  return 3;
}

const br__path_step *
br__ink_steps (size_t *count, br__path_step room[BR__MOST_STEPS], const br__ink *k)
{
  size_t n = 0;
  switch (k->type)
    {
    case BR__INK_LINE:
      room[n++] = (br__path_step) { .type = BR__STEP_MOVE, .x = k->x, .y = k->y };
      room[n++] = (br__path_step) { .type = BR__STEP_LINE, .x = k->x2, .y = k->y2 };
      break;
    case BR__INK_CIRCLE:
      room[n++] = (br__path_step) { BR__STEP_ARC, k->x, k->y, k->r, 0, 360 * BR__INCH };
      room[n++] = (br__path_step) { .type = BR__STEP_CLOSE };
      break;
    case BR__INK_BOX:
      for (int i = 0; i < 4; i++)
        room[n++] = (br__path_step) { i ? BR__STEP_LINE : BR__STEP_MOVE, i == 1 || i == 2 ? k->x2 : k->x, i > 1 ? k->y2 : k->y, 0, 0, 0 };
      room[n++] = (br__path_step) { .type = BR__STEP_CLOSE };
      break;
    case BR__INK_STRIP:
      n = steps_of_strip (room, k);
      break;
    case BR__INK_BAR:
      n = steps_of_bar (room, k);
      break;
    case BR__INK_PATH:
      *count = k->step_count;
      return k->steps;
    case BR__INK_ARROW:
    case BR__INK_TEXT:
      break;
    }
  *count = n;
  return room;
}

void
br__plot_line (br__plot *p, br__pen pen, int64_t x, int64_t y, int64_t x2, int64_t y2, br__dash dashed)
{
  br__ink *ink = br__plot_add (p, BR__INK_LINE, pen, x, y);
  ink->x2 = x2;
  ink->y2 = y2;
  ink->dashed = dashed;
}

void
br__plot_text (br__plot *p, int64_t x, int64_t y, br_align align, int64_t size, const char *text)
{
  br__ink *ink = br__plot_add (p, BR__INK_TEXT, BR__PEN_THIN, x, y);
  ink->align = align;
  ink->size = size;
  br__ink_name (p, ink, text);
  br__plot_take (p, br__text_area (x, y, align, size, text));
}

void
br__plot_turned (br__plot *p, int64_t x, int64_t y, int64_t size, const char *text)
{
  br__ink *ink = br__plot_add (p, BR__INK_TEXT, BR__PEN_THIN, x, y);
  br__area a = br__text_area (0, 0, BR_ALIGN_MIDDLE, size, text);
  ink->align = BR_ALIGN_MIDDLE;
  ink->size = size;
  ink->turned = 1;
  br__ink_name (p, ink, text);
  br__plot_take (p, (br__area) { x + a.y, y + a.x, x + a.y2, y + a.x2 });
}

/* Thousandths of the letters' size that a character of ASCII takes, from the blank on: DejaVu Sans, which the painter
   asks for, measured, and nine tenths of its bold face where that is more; rounded up.  Other usual faces are
   no wider, but for a letter here and there.  */
static const int16_t widths[] =
{
  320, 420, 470, 840, 640, 960, 790, 280, 420, 420, 510, 840, 350, 380, 350, 340,
  640, 640, 640, 640, 640, 640, 640, 640, 640, 640, 360, 360, 840, 840, 840, 540,
  1010, 710, 690, 700, 780, 640, 620, 780, 760, 340, 340, 700, 580, 900, 760, 790,
  660, 790, 700, 640, 640, 740, 700, 1010, 700, 660, 690, 420, 340, 420, 840, 510,
  510, 620, 650, 550, 650, 620, 400, 650, 650, 310, 310, 600, 310, 980, 650, 620,
  650, 650, 450, 540, 440, 650, 600, 840, 600, 600, 530, 650, 340, 650, 840
};

int64_t
br__text_width (const char *text, int64_t size)
{
  int64_t width = 0;
  for (const unsigned char *s = (const unsigned char *) text; *s; s++)
    if (*s >= ' ' && *s < 127)
      width += widths[*s - ' '];
    else if ((*s & 0xC0) != 0x80)
      width += *s == 0xE2 ? 1010 : 1300;  /* signs such as ≈ and ⌀; a letter of whatever script */
  return (width * size + 999) / 1000;
}

br__area
br__text_area (int64_t x, int64_t y, br_align align, int64_t size, const char *text)
{
  int64_t width = br__text_width (text, size);
  int64_t left = align == BR_ALIGN_LEFT ? x : align == BR_ALIGN_MIDDLE ? x - width / 2 : x - width;
  return (br__area) { left, y - size * 3 / 5, left + width, y + size * 3 / 5 };
}

void
br__plot_take (br__plot *p, br__area a)
{
  if (br__grow (&p->taken, &p->taken_room, p->taken_count + 1, sizeof (br__area)))
    p->taken[p->taken_count++] = a;
  else
    p->failed = 1;
}

void
br__area_join (br__area *a, br__area b)
{
  a->x = b.x < a->x ? b.x : a->x;
  a->y = b.y < a->y ? b.y : a->y;
  a->x2 = b.x2 > a->x2 ? b.x2 : a->x2;
  a->y2 = b.y2 > a->y2 ? b.y2 : a->y2;
}

int
br__areas_meet (br__area a, br__area b)
{
  return a.x < b.x2 && b.x < a.x2 && a.y < b.y2 && b.y < a.y2;
}

int
br__segment_meets (int64_t x, int64_t y, int64_t x2, int64_t y2, br__area a)
{
  /* Cut by each side in turn: what is left is from LOW to HIGH of it, fractions with parts over 0 below.  */
  int64_t low[] = { 0, 1 }, high[] = { 1, 1 }, least[] = { a.x - x, a.y - y }, most[] = { a.x2 - x, a.y2 - y };
  const int64_t run[] = { x2 - x, y2 - y };
  for (int i = 0; i < 2; i++)
    {
      int64_t length = llabs (run[i]), first = run[i] < 0 ? -most[i] : least[i], last = run[i] < 0 ? -least[i] : most[i];
      if (length == 0 && (first >= 0 || last <= 0))
        return 0;
      if (length && br__compare_products (first, low[1], low[0], length) > 0)
        memcpy (low, (int64_t[]) { first, length }, sizeof low);
      if (length && br__compare_products (last, high[1], high[0], length) < 0)
        memcpy (high, (int64_t[]) { last, length }, sizeof high);
    }
  return br__compare_products (low[0], high[1], high[0], low[1]) < 0;
}

void
br__arrow_corners (int64_t corners[6], const br__ink *arrow)
{
  int64_t size = arrow->size ? arrow->size : BR__INCH / 10, x, y;
  br__across (&x, &y, arrow->x2 - arrow->x, arrow->y2 - arrow->y, size);
  /* Three times as long as wide.  */
  int64_t back_x = arrow->x - y, back_y = arrow->y + x;
  int64_t whole[] = { arrow->x, arrow->y, back_x + x / 6, back_y + y / 6, back_x - x / 6, back_y - y / 6 };
  memcpy (corners, whole, sizeof whole);
}

/* Around the steps of K, arcs as if they turned all around.  */
static br__area
area_of_path (const br__ink *k)
{
  br__area a = { INT64_MAX, INT64_MAX, INT64_MIN, INT64_MIN };
  const int64_t around = BR__INCH / 16;
  for (const br__path_step *s = k->steps; s < k->steps + k->step_count; s++)
    if (s->type != BR__STEP_CLOSE)
      {
        int64_t r = s->r + around;
        a.x = s->x - r < a.x ? s->x - r : a.x;
        a.y = s->y - r < a.y ? s->y - r : a.y;
        a.x2 = s->x + r > a.x2 ? s->x + r : a.x2;
        a.y2 = s->y + r > a.y2 ? s->y + r : a.y2;
      }
  return a;
}

void
br__plot_sheets (br__plot *p, int64_t wide, int64_t high)
{
  p->sheet[0] = p->width > wide && wide > 2 * BR__JOIN ? wide - BR__JOIN : 0;
  p->sheet[1] = p->height > high && high > 2 * BR__JOIN ? high - BR__JOIN : 0;
}

int64_t
br__table_width (const br__plot *p, int64_t width)
{
  return p->sheet[0] || p->sheet[1] ? BR__INCH * 3 : width;
}

br__area
br__ink_area (const br__ink *k)
{
  int64_t r = k->r > k->r2 ? k->r : k->r2;
  br__area a = { k->x, k->y, k->x, k->y };
  if (k->type == BR__INK_TEXT && k->turned)
    {
      a = br__text_area (0, 0, k->align, k->size, k->text);
      return (br__area) { k->x + a.y, k->y + a.x, k->x + a.y2, k->y + a.x2 };
    }
  if (k->type == BR__INK_TEXT)
    return br__text_area (k->x, k->y, k->align, k->size, k->text);
  if (k->type == BR__INK_PATH)
    return area_of_path (k);
  if (k->type != BR__INK_CIRCLE && k->type != BR__INK_STRIP)
    {
      a.x = k->x < k->x2 ? k->x : k->x2;
      a.x2 = k->x < k->x2 ? k->x2 : k->x;
      a.y = k->y < k->y2 ? k->y : k->y2;
      a.y2 = k->y < k->y2 ? k->y2 : k->y;
    }
  r += BR__INCH / 16;
  return (br__area) { a.x - r, a.y - r, a.x2 + r, a.y2 + r };
}

void
br__plot_join (br__plot *p, const br__plot *from, size_t first, int64_t dx, int64_t dy, const br__area *inside)
{
  size_t start = p->count;
  for (size_t i = first; i < from->count && !p->failed; i++)
    {
      const br__ink *k = &from->inks[i];
      br__area a = br__ink_area (k);
      if (inside && !br__areas_meet ((br__area) { a.x + dx, a.y + dy, a.x2 + dx, a.y2 + dy }, *inside))
        continue;
      br__ink *ink = br__plot_add (p, k->type, k->pen, 0, 0);
      *ink = *k;
      ink->text = NULL;
      ink->steps = NULL;
      br__ink_name (p, ink, k->text);
      br__ink_path (p, ink, k->steps, k->step_count);
    }
  br__plot_shift (p, start, dx, dy);
}

void
br__plot_fitted (br__plot *p, int64_t x, int64_t y, br_align align, int64_t size, int64_t width, const char *text)
{
  const int64_t least = 6 * BR__POINT;
  br_text t = BR_TEXT_ZERO;
  if (!*text)
    return;
  while (size > least && br__text_width (text, size) > width)
    size = size * 9 / 10 > least ? size * 9 / 10 : least;
  br__text_puts (&t, text);
  while (!t.failed && t.length && br__text_width (t.bytes, size) > width)
    {
      /* A whole character goes, and the mark that something did.  */
      size_t n = t.length > 3 && memcmp (t.bytes + t.length - 3, "\xE2\x80\xA6", 3) == 0 ? t.length - 3 : t.length;
      while (n && ((unsigned char) t.bytes[--n] & 0xC0) == 0x80)
        continue;
      t.length = n;
      t.bytes[n] = 0;
      if (n)
        br__text_puts (&t, "\xE2\x80\xA6");
    }
  p->failed = p->failed || t.failed;
  br__plot_text (p, x, y, align, size, br__text_string (&t));
  br__text_clear (&t);
}

void
br__plots_free (br__plot *pages, size_t count)
{
  for (size_t i = 0; pages && i < count; i++)
    br__plot_clear (&pages[i]);
  br__free (pages);
}

void
br__plot_shift (br__plot *p, size_t first, int64_t dx, int64_t dy)
{
  for (size_t i = first; i < p->count; i++)
    {
      p->inks[i].x += dx;
      p->inks[i].x2 += dx;
      p->inks[i].y += dy;
      p->inks[i].y2 += dy;
      for (size_t k = 0; k < p->inks[i].step_count; k++)
        {
          p->inks[i].steps[k].x += dx;
          p->inks[i].steps[k].y += dy;
        }
    }
}

/* ---- Squares, and lines that make room ---- */

#define MOST_SQUARES 10000      /* lines one way */

/* A line of squares at AT, across from FROM to TO or UPRIGHT, with a gap at each of the COUNT HOLES.  */
static void
plot_square_line (br__plot *p, int upright, int64_t at, int64_t from, int64_t to, const br__area *holes, size_t count)
{
  while (from < to)
    {
      int64_t stop = to, next = to;
      for (size_t i = 0; i < count; i++)
        {
          const br__area *h = &holes[i];
          const int64_t begin = upright ? h->y : h->x, end = upright ? h->y2 : h->x2;
          if (end > from && begin < stop && at > (upright ? h->x : h->y) && at < (upright ? h->x2 : h->y2))
            {
              stop = begin > from ? begin : from;
              next = end;
            }
        }
      if (stop > from)
        br__plot_line (p, BR__PEN_GRID, upright ? at : from, upright ? from : at, upright ? at : stop, upright ? stop : at, 0);
      from = next;
    }
}

void
br__plot_grid (br__plot *p, br__area area, int64_t step, int64_t x, int64_t y, const br__area *holes, size_t count)
{
  if (step <= 0 || (area.x2 - area.x) / step > MOST_SQUARES || (area.y2 - area.y) / step > MOST_SQUARES)
    return;
  for (int64_t at = br__next_line (area.x, step, x); at <= area.x2; at += step)
    plot_square_line (p, 1, at, area.y, area.y2, holes, count);
  for (int64_t at = br__next_line (area.y, step, y); at <= area.y2; at += step)
    plot_square_line (p, 0, at, area.x, area.x2, holes, count);
}

void
br__lines_open (br__plot *p, br__area area)
{
  size_t count = p->count;
  for (size_t i = 0; i < count; i++)
    {
      const br__ink k = p->inks[i];
      int upright = k.x == k.x2, level = k.y == k.y2;
      if (k.type != BR__INK_LINE || k.pen != BR__PEN_THIN || upright == level
          || !br__segment_meets (k.x, k.y, k.x2, k.y2, area))
        continue;
      /* What begins or ends in the area is shortened, what runs through falls in two, what lies in it is gone.  */
      int64_t from = upright ? k.y : k.x, to = upright ? k.y2 : k.x2;
      int64_t low = upright ? area.y : area.x, high = upright ? area.y2 : area.x2;
      int64_t near = from < to ? low : high, far = from < to ? high : low;
      int before = from < to ? from < near : from > near, after = from < to ? far < to : far > to;
      if (before)
        *(upright ? &p->inks[i].y2 : &p->inks[i].x2) = near;
      if (!before)
        *(upright ? &p->inks[i].y : &p->inks[i].x) = far;
      if (!before && !after)
        *(upright ? &p->inks[i].y2 : &p->inks[i].x2) = far;
      if (before && after)
        {
          br__plot_line (p, k.pen, upright ? k.x : far, upright ? far : k.y, k.x2, k.y2, k.dashed);
          p->inks[p->count - 1].group = k.group;
        }
    }
}
