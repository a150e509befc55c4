/* SPDX-License-Identifier: LGPL-3.0-or-later
   figure.c - the drawings beside problems, and the same in words.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "file/markup.h"
#include "lesson/figure.h"

#define POINT (BR_PAGE_INCH / 72)
/* Of the longest bar: as wide as a phone, where a wider one would be shown smaller, and its letters with it.  */
#define LENGTH (BR_PAGE_INCH * 3)
#define RADIUS (BR_PAGE_INCH * 9 / 20)
/* From letters of this size on, a bar whose parts have their sizes side by side is half as long again on paper, so that they have
   room.  */
#define LARGE (POINT * 16)
#define TICK (POINT * 3)
#define BAR (POINT * 14)

/* The figure at hand.  */
typedef struct sketch
{
  br__figure *f;
  const br__problem *p;
  br__ratio unit;               /* of the page in an inch or centimetre of the problem */
  int plain;                    /* the letters of a fraction are as large as others */
  int32_t length;               /* of the longest bar */
} sketch;

int
br__has_figure (const br__problem *p)
{
  return p->topic == &br__topic_fender || p->topic == &br__topic_missing || p->topic == &br__topic_known_size
         || p->topic == &br__topic_dividing || p->topic == &br__topic_stock;
}

static int32_t
place (const sketch *s, br__ratio x)
{
  return (int32_t) br__ratio_floor (br__ratio_mul (x, s->unit));
}

static void
add_line (br__figure *f, int32_t x0, int32_t y0, int32_t x1, int32_t y1, int dashed)
{
  if (f->line_count < BR__MOST_STROKES)
    {
      f->lines[f->line_count].x0 = x0;
      f->lines[f->line_count].y0 = y0;
      f->lines[f->line_count].x1 = x1;
      f->lines[f->line_count].y1 = y1;
      f->lines[f->line_count++].dashed = dashed;
    }
}

static void
add_circle (br__figure *f, int32_t x, int32_t y, int32_t radius)
{
  f->circles[f->circle_count].x = x;
  f->circles[f->circle_count].y = y;
  f->circles[f->circle_count++].radius = radius;
}

/* The figure goes as far as X.  */
static void
widen (br__figure *f, int32_t x)
{
  f->width = x > f->width ? x : f->width;
}

/* How wide the label FORM is, about.  */
static int32_t
width_of (const sketch *s, const char *form)
{
  br_text t = BR_TEXT_ZERO;
  br__problem_fill (&t, form, s->p, NULL);
  int32_t width = (int32_t) t.length * s->f->size * (!strchr (br__text_string (&t), '/') ? 75 : s->plain ? 60 : 45) / 100;
  br__text_clear (&t);
  return *form == '?' ? s->f->size : width > s->f->size * 4 ? width : s->f->size * 4;
}

/* FORM ("{0}" or "?") at a place.  */
static void
add_label (const sketch *s, int32_t x, int32_t y, br_align align, const char *form)
{
  br__figure *f = s->f;
  br_text t = BR_TEXT_ZERO;
  br__problem_fill (&t, form, s->p, NULL);
  if (align == BR_ALIGN_LEFT)
    widen (f, x + width_of (s, form));
  f->labels[f->label_count].x = x;
  f->labels[f->label_count].y = y;
  f->labels[f->label_count].align = align;
  snprintf (f->labels[f->label_count++].text, sizeof f->labels[0].text, "%s", br__text_string (&t));
  br__text_clear (&t);
}

static void
add_ticks (br__figure *f, int32_t x0, int32_t x1, int32_t y)
{
  add_line (f, x0, y, x1, y, 0);
  add_line (f, x0, y - TICK, x0, y + TICK, 0);
  add_line (f, x1, y - TICK, x1, y + TICK, 0);
}

/* 1 where it has no room over a line from X0 to X1.  */
static int
is_short (const sketch *s, int32_t x0, int32_t x1, const char *form)
{
  return x1 - x0 < width_of (s, form);
}

/* A dimension line at Y with ticks, its label over it or, where it is short, behind it.  */
static void
add_size (const sketch *s, int32_t x0, int32_t x1, int32_t y, const char *form)
{
  int32_t size = s->f->size;
  add_ticks (s->f, x0, x1, y);
  if (is_short (s, x0, x1, form))
    add_label (s, x1 + TICK * 2, y - size * 7 / 10, BR_ALIGN_LEFT, form);
  else
    add_label (s, (x0 + x1) / 2, y - size * 3 / 2, BR_ALIGN_MIDDLE, form);
}

static void
add_bar (br__figure *f, int32_t x0, int32_t x1, int32_t y, int dashed)
{
  add_line (f, x0, y, x1, y, dashed);
  add_line (f, x0, y + BAR, x1, y + BAR, dashed);
  add_line (f, x0, y, x0, y + BAR, dashed);
  add_line (f, x1, y, x1, y + BAR, dashed);
}

static br__ratio
half (br__ratio x)
{
  return br__ratio_div (x, br__ratio_of (2, 1));
}

/* ---- Circles ---- */

/* A wheel, a ring around it, and its outside where it is thick.  */
static void
draw_ring (sketch *s)
{
  const br__problem *p = s->p;
  br__ratio wheel = p->given[p->kind_index == 1];
  br__ratio inner = p->kind_index == 1 ? p->given[0] : br__ratio_add (half (wheel), p->given[1]);
  br__ratio outer = p->kind_index == 2 ? br__ratio_add (inner, p->given[2]) : inner;
  int32_t size = s->f->size, top = size * 2 * (p->kind_index == 2 ? 2 : 1), x = RADIUS + size * 5, y = top + RADIUS;
  s->unit = br__ratio_div (br__ratio_of (RADIUS, 1), outer);
  int32_t r = place (s, half (wheel)), ring = place (s, inner), reach = place (s, p->kind_index == 2 ? outer : inner);
  add_circle (s->f, x, y, r);
  add_circle (s->f, x, y, ring);
  if (p->kind_index == 2)
    add_circle (s->f, x, y, reach);
  /* Across the wheel, below it.  */
  int32_t below = y + RADIUS + size * 2;
  add_line (s->f, x - r, y, x - r, below, 1);
  add_line (s->f, x + r, y, x + r, below, 1);
  add_size (s, x - r, x + r, below, p->kind_index == 1 ? "{1}" : "{0}");
  /* The gap and the thickness, above it.  */
  add_line (s->f, x + r, y, x + r, top - size, 1);
  add_line (s->f, x + ring, y, x + ring, p->kind_index == 2 ? size : top - size, 1);
  add_ticks (s->f, x + r, x + ring, top - size);
  add_label (s, x + reach + TICK * 2, top - size * 17 / 10, BR_ALIGN_LEFT, p->kind_index == 1 ? "?" : "{1}");
  if (p->kind_index == 2)
    {
      add_line (s->f, x + reach, y, x + reach, size, 1);
      add_ticks (s->f, x + ring, x + reach, size);
      add_label (s, x + reach + TICK * 2, size * 3 / 10, BR_ALIGN_LEFT, "{2}");
    }
  /* The radius goes up to the left, at 45 degrees.  */
  int32_t slope = (int32_t) ((int64_t) reach * 7071 / 10000);
  add_line (s->f, x, y, x - slope, y - slope, 0);
  add_label (s, x - slope - TICK, y - slope - size * 3 / 2, BR_ALIGN_RIGHT, p->kind_index == 1 ? "{0}" : "?");
  widen (s->f, 2 * x);
  s->f->height = below + size;
}

/* Two wheels side by side.  */
static void
draw_wheels (sketch *s)
{
  const br__problem *p = s->p;
  int32_t size = s->f->size;
  s->unit = br__ratio_div (br__ratio_of (s->length * 3 / 5, 1), br__ratio_add (p->given[0], p->given[1]));
  int32_t r = place (s, half (p->given[1])), base = place (s, p->given[0]), y = size * 2 + r, below = y + r + size * 2;
  add_circle (s->f, r, y, r);
  add_circle (s->f, r + base, y, r);
  add_line (s->f, 0, y, 0, size * 3 / 2, 1);
  add_line (s->f, 2 * r, y, 2 * r, size * 3 / 2, 1);
  add_size (s, 0, 2 * r, size * 3 / 2, "{1}");
  add_size (s, 2 * r, base, y, "?");
  add_line (s->f, r, y, r, below, 1);
  add_line (s->f, r + base, y, r + base, below, 1);
  add_size (s, r, r + base, below, "{0}");
  widen (s->f, base + 2 * r);
  s->f->height = below + size;
}

/* ---- Bars ---- */

/* {0} over all, above the bar, which begins at the left.  */
static int32_t
draw_whole (sketch *s, int32_t *y)
{
  s->unit = br__ratio_div (br__ratio_of (s->length, 1), s->p->given[0]);
  *y = s->f->size * 2;
  add_size (s, 0, s->length, *y - TICK * 2, "{0}");
  widen (s->f, s->length);
  s->f->height = *y + BAR + s->f->size * 3;
  return *y + BAR + s->f->size * 2;
}

/* The size of a part of the bar at Y, beside others, where its label has room over it, or behind the end of the bar; else on a row
   of its own below them all.  Where it is.  */
static int32_t
add_part (const sketch *s, int32_t x0, int32_t x1, int32_t y, const char *form)
{
  int32_t size = s->f->size;
  int at_end = x1 == s->length && is_short (s, x0, x1, form);
  if (at_end || !is_short (s, x0, x1, form))
    {
      add_size (s, x0, x1, y, form);
      return y;
    }
  y = s->f->height + size / 2;
  s->f->height += size * 3 / 2;
  add_ticks (s->f, x0, x1, y);
  add_label (s, x1 + TICK * 2, y - size * 7 / 10, BR_ALIGN_LEFT, form);
  return y;
}

static void
draw_missing (sketch *s)
{
  const br__problem *p = s->p;
  int32_t y, below = draw_whole (s, &y);
  int32_t a = place (s, p->kind_index ? p->answer : p->given[1]), c = s->length - place (s, p->kind_index ? p->answer : p->given[2]);
  add_bar (s->f, 0, s->length, y, 0);
  int32_t left = add_part (s, 0, a, below, p->kind_index ? "?" : "{1}");
  int32_t middle = add_part (s, a, c, below, p->kind_index ? "{1}" : "?");
  int32_t right = add_part (s, c, s->length, below, p->kind_index ? "?" : "{2}");
  add_line (s->f, 0, y, 0, left, 0);
  add_line (s->f, a, y, a, left > middle ? left : middle, 0);
  add_line (s->f, c, y, c, right > middle ? right : middle, 0);
  add_line (s->f, s->length, y, s->length, right, 0);
}

/* COUNT pieces of LENGTH from the left, with kerfs of WIDTH between them; the end of the last.  */
static br__ratio
draw_pieces (sketch *s, int32_t y, int64_t count, br__ratio length, br__ratio kerf)
{
  br__ratio at = { 0, 1 };
  for (int64_t i = 0; i < count; i++)
    {
      br__ratio end = br__ratio_add (at, length);
      add_bar (s->f, place (s, at), place (s, end), y, 0);
      at = br__ratio_add (end, kerf);
    }
  return at;
}

static void
draw_dividing (sketch *s)
{
  const br__problem *p = s->p;
  int32_t y, below = draw_whole (s, &y);
  draw_pieces (s, y, p->given[1].num, p->answer, p->given[2]);
  int32_t first = place (s, p->answer), second = place (s, br__ratio_add (p->answer, p->given[2]));
  add_size (s, 0, first, below, "?");
  add_size (s, first, second, below, "{2}");
}

static void
draw_stock (sketch *s)
{
  const br__problem *p = s->p;
  int32_t y, below = draw_whole (s, &y);
  /* How many there are is asked for: two of them, and what else the board has.  */
  int64_t count = p->kind_index ? p->given[3].num : 2;
  int32_t rest = place (s, draw_pieces (s, y, count, p->given[1], p->given[2]));
  int32_t first = place (s, p->given[1]), second = place (s, br__ratio_add (p->given[1], p->given[2]));
  add_bar (s->f, rest, s->length, y, p->kind_index == 0);
  if (p->kind_index)
    add_part (s, rest, s->length, below, "?");
  /* Beside what is left, where that is not too near.  */
  if (p->kind_index && rest < first + TICK * 2 + width_of (s, "{1}"))
    add_part (s, 0, first, below, "{1}");
  else
    add_size (s, 0, first, below, "{1}");
  add_part (s, first, second, below, "{2}");
}

/* The picture's two sizes above, the real ones below them, all at one scale.  */
static void
draw_known (sketch *s)
{
  const br__problem *p = s->p;
  br__ratio real = p->kind_index ? p->given[2] : p->answer, shown = p->kind_index ? p->answer : p->given[2];
  br__ratio lengths[] = { p->given[1], shown, p->given[0], real };
  const char *labels[] = { "{1}", p->kind_index ? "?" : "{2}", "{0}", p->kind_index ? "{2}" : "?" };
  int32_t y = s->f->size, step = BAR + s->f->size;
  widen (s->f, s->length);
  s->unit = br__ratio_div (br__ratio_of (s->length * 4 / 5, 1), real);
  for (int i = 0; i < 4; i++)
    {
      int32_t end = place (s, lengths[i]);
      add_bar (s->f, 0, end, y, i < 2);
      add_label (s, end + TICK * 2, y + BAR / 2 - s->f->size * 7 / 10, BR_ALIGN_LEFT, labels[i]);
      y += i == 1 ? step * 3 / 2 : step;
    }
  s->f->height = y;
}

void
br__figure_make (br__figure *f, const br__problem *p, int32_t size, int plain)
{
  memset (f, 0, sizeof *f);
  f->size = size;
  int longer = p->topic == &br__topic_missing && size >= LARGE && !plain;
  sketch s = { f, p, { 1, 1 }, plain, longer ? LENGTH * 3 / 2 : LENGTH };
  if (p->topic == &br__topic_fender)
    (p->kind_index == 3 ? draw_wheels : draw_ring) (&s);
  else if (p->topic == &br__topic_missing)
    draw_missing (&s);
  else if (p->topic == &br__topic_known_size)
    draw_known (&s);
  else
    (p->topic == &br__topic_dividing ? draw_dividing : draw_stock) (&s);
}

/* ---- In words, and in HTML ---- */

void
br__put_picture (br_text *t, const br__problem *p, const br__sentences *words)
{
  char topic[32] = "ruler picture";
  unsigned kind = (p->metric ? 2u : 0u) + (p->given[2].num == p->given[2].den);
  if (br__has_figure (p))
    {
      snprintf (topic, sizeof topic, "%s picture", p->topic->name);
      kind = p->kind_index;
    }
  else if (!p->topic->picture)
    return;
  br__problem_fill (t, br__sentences_find (words, br__wording (topic, kind, 0)), p, words);
}

void
br__figure_svg (br_text *t, const br__problem *p, const br__sentences *words, int32_t size)
{
  static const char *const anchors[] = { "start", "middle", "end" };
  br__figure f;
  br_text said = BR_TEXT_ZERO;
  br__figure_make (&f, p, size, 1);
  br__put_picture (&said, p, words);
  br__text_printf (t, "<svg width=\"%d\" height=\"%d\" viewBox=\"-8 -8 %d %d\" role=\"img\" aria-label=\"", f.width / 750 + 16, f.height / 750 + 16,
                   f.width / 750 + 16, f.height / 750 + 16);
  br__put_escaped (t, br__text_string (&said));
  br__text_puts (t, "\"><g fill=\"none\" stroke=\"#000\">");
  for (size_t i = 0; i < f.line_count; i++)
    br__text_printf (t, "<path d=\"M%d %dL%d %d\"%s/>", f.lines[i].x0 / 750, f.lines[i].y0 / 750, f.lines[i].x1 / 750, f.lines[i].y1 / 750,
                     f.lines[i].dashed ? " stroke-dasharray=\"4 3\"" : "");
  for (size_t i = 0; i < f.circle_count; i++)
    br__text_printf (t, "<circle cx=\"%d\" cy=\"%d\" r=\"%d\"/>", f.circles[i].x / 750, f.circles[i].y / 750, f.circles[i].radius / 750);
  br__text_puts (t, "</g>");
  for (size_t i = 0; i < f.label_count; i++)
    {
      br__text_printf (t, "<text x=\"%d\" y=\"%d\" font-size=\"%d\" text-anchor=\"%s\">", f.labels[i].x / 750, (f.labels[i].y + size) / 750, size / 750,
                       anchors[f.labels[i].align]);
      br__put_escaped (t, f.labels[i].text);
      br__text_puts (t, "</text>");
    }
  br__text_puts (t, "</svg>\n");
  t->failed |= said.failed;
  br__text_clear (&said);
}
