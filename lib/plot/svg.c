/* SPDX-License-Identifier: LGPL-3.0-or-later
   svg.c - a drawing as SVG.  A place of the drawing is a decimal of the file to the last billionth of an
   inch, so that what is measured there is what was drawn.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>

#include "exact/wide.h"
#include "plot/plot.h"
#include "file/markup.h"

#define THOU (BR__INCH / 1000)        /* the unit of the file */
#define BILLION INT64_C (1000000000)

/* N as a decimal of units of UNIT, a power of ten, without zeros at its end.  */
static void
put_units (br_text *t, int64_t n, int64_t unit)
{
  uint64_t size = n < 0 ? -(uint64_t) n : (uint64_t) n, rest = size % (uint64_t) unit;
  br__text_printf (t, "%s%" PRIu64, n < 0 ? "-" : "", size / (uint64_t) unit);
  if (!rest)
    return;
  br__text_putc (t, '.');
  for (uint64_t u = (uint64_t) unit / 10; rest; rest %= u, u /= 10)
    br__text_putc (t, (char) ('0' + rest / u));
}

static void
put_place (br_text *t, int64_t n)
{
  put_units (t, n, THOU);
}

static void
put_attribute (br_text *t, const char *name, int64_t n)
{
  br__text_printf (t, " %s=\"", name);
  put_place (t, n);
  br__text_putc (t, '"');
}

static void
put_pair (br_text *t, const char *command, int64_t x, int64_t y)
{
  br__text_puts (t, command);
  put_place (t, x);
  br__text_putc (t, ' ');
  put_place (t, y);
}

/* ---- Shapes ---- */

/* The end of ELEMENT, with the name of its shape.  */
static void
put_end (br_text *t, const char *element, const char *name)
{
  if (!name)
    {
      br__text_puts (t, "/>\n");
      return;
    }
  br__text_puts (t, "><title>");
  br__put_escaped (t, name);
  br__text_printf (t, "</title></%s>\n", element);
}

/* An element that is told by its attributes KEYS, which NULL ends.  */
static void
put_element (br_text *t, const char *element, const char *const *keys, const int64_t *places, const char *name)
{
  br__text_printf (t, "<%s", element);
  for (size_t i = 0; keys[i]; i++)
    put_attribute (t, keys[i], places[i]);
  put_end (t, element, name);
}

static void
put_line (br_text *t, const br__ink *k)
{
  static const char *const keys[] = { "x1", "y1", "x2", "y2", NULL };
  put_element (t, "line", keys, (const int64_t[]) { k->x, k->y, k->x2, k->y2 }, k->text);
}

static void
put_circle (br_text *t, const br__ink *k)
{
  static const char *const keys[] = { "cx", "cy", "r", NULL };
  put_element (t, "circle", keys, (const int64_t[]) { k->x, k->y, k->r }, k->text);
}

static void
put_box (br_text *t, const br__ink *k)
{
  static const char *const keys[] = { "x", "y", "width", "height", NULL };
  put_element (t, "rect", keys, (const int64_t[]) { k->x, k->y, k->x2 - k->x, k->y2 - k->y }, k->text);
}

/* The point at ANGLE on a circle of radius R around 0 0.  */
static void
on_circle (int64_t *x, int64_t *y, int64_t r, int64_t angle)
{
  int64_t sine, cosine;
  br__sine_cosine (&sine, &cosine, angle);
  *x = br__scale_by (r, cosine, BILLION);
  *y = br__scale_by (-r, sine, BILLION);
}

/* A curve in steps of at most a right angle: the centre of a longer one would depend on the last digit of its ends.  FIRST
   stands before its beginning.  */
static void
put_curve (br_text *t, const br__path_step *s, const char *first)
{
  int64_t turn = s->to - s->from, size = turn < 0 ? -turn : turn;
  int64_t steps = (size + 90 * BILLION - 1) / (90 * BILLION), x, y;
  on_circle (&x, &y, s->r, s->from);
  put_pair (t, first, s->x + x, s->y + y);
  for (int64_t i = 1; i <= steps; i++)
    {
      on_circle (&x, &y, s->r, i == steps ? s->to : s->from + br__scale_by (turn, i, steps));
      put_pair (t, " A", s->r, s->r);
      br__text_printf (t, " 0 0 %d ", turn < 0);
      put_pair (t, "", s->x + x, s->y + y);
    }
}

/* The path lies around 0 0, and is moved to its centre.  */
static void
put_strip (br_text *t, const br__ink *k)
{
  int64_t turn = k->to - k->from, full = 360 * BILLION;
  br__text_puts (t, "<path transform=\"");
  put_pair (t, "translate(", k->x, k->y);
  br__text_puts (t, ")\" d=\"");
  put_curve (t, &(br__path_step) { .r = k->r, .from = k->from, .to = k->to }, "M");
  if (turn >= full || turn <= -full)
    {
      br__text_puts (t, " Z");
      if (k->r2 != k->r)
        {
          put_curve (t, &(br__path_step) { .r = k->r2, .from = k->from, .to = k->to }, " M");
          br__text_puts (t, " Z");
        }
    }
  else if (k->r2 != k->r)
    {
      put_curve (t, &(br__path_step) { .r = k->r2, .from = k->to, .to = k->from }, " L");
      br__text_puts (t, " Z");
    }
  br__text_putc (t, '"');
  put_end (t, "path", k->text);
}

static void
put_bar (br_text *t, const br__ink *k)
{
  int64_t x, y;
  br__across (&x, &y, k->x2 - k->x, k->y2 - k->y, k->r);
  br__text_puts (t, "<path d=\"");
  put_pair (t, "M", k->x + x, k->y + y);
  put_pair (t, " L", k->x2 + x, k->y2 + y);
  put_pair (t, " A", k->r, k->r);
  put_pair (t, " 0 0 1 ", k->x2 - x, k->y2 - y);
  put_pair (t, " L", k->x - x, k->y - y);
  put_pair (t, " A", k->r, k->r);
  put_pair (t, " 0 0 1 ", k->x + x, k->y + y);
  br__text_puts (t, " Z\"");
  put_end (t, "path", k->text);
}

/* A closed outline of lines and arcs.  */
static void
put_path (br_text *t, const br__ink *k)
{
  int fresh = 1;                /* an outline begins */
  br__text_puts (t, "<path d=\"");
  for (const br__path_step *s = k->steps; s < k->steps + k->step_count; s++)
    {
      const char *command = s == k->steps ? "M" : fresh || s->type == BR__STEP_MOVE ? " M" : " L";
      if (s->type == BR__STEP_CLOSE)
        br__text_puts (t, " Z");
      else if (s->type == BR__STEP_ARC)
        put_curve (t, s, command);
      else
        put_pair (t, command, s->x, s->y);
      fresh = s->type == BR__STEP_CLOSE;
    }
  br__text_putc (t, '"');
  put_end (t, "path", k->text);
}

static void
put_arrow (br_text *t, const br__ink *k)
{
  int64_t c[6];
  br__arrow_corners (c, k);
  br__text_puts (t, "<path fill=\"#000\" stroke=\"none\" d=\"");
  put_pair (t, "M", c[0], c[1]);
  put_pair (t, " L", c[2], c[3]);
  put_pair (t, " L", c[4], c[5]);
  br__text_puts (t, " Z\"/>\n");
}

static void
put_text (br_text *t, const br__ink *k)
{
  static const char *const anchors[] = { "start", "middle", "end" };
  br__text_puts (t, "<text");
  /* A capital is some 7/10 of its size high.  */
  int64_t down = k->size * 35 / 100, x = k->x + (k->turned ? down : 0), y = k->y + (k->turned ? 0 : down);
  put_attribute (t, "x", x);
  put_attribute (t, "y", y);
  if (k->turned)
    {
      put_pair (t, " transform=\"rotate(-90 ", x, y);
      br__text_puts (t, ")\"");
    }
  put_attribute (t, "font-size", k->size);
  if (k->align != BR_ALIGN_LEFT)
    br__text_printf (t, " text-anchor=\"%s\"", anchors[k->align]);
  br__text_puts (t, k->bold ? " font-weight=\"bold\"" : "");
  br__text_puts (t, " fill=\"#000\" stroke=\"none\">");
  br__put_escaped (t, k->text);
  br__text_puts (t, "</text>\n");
}

/* ---- The whole ---- */

static void
put_ink (br_text *t, const br__ink *k)
{
  switch (k->type)
    {
    case BR__INK_LINE: put_line (t, k); break;
    case BR__INK_CIRCLE: put_circle (t, k); break;
    case BR__INK_BOX: put_box (t, k); break;
    case BR__INK_STRIP: put_strip (t, k); break;
    case BR__INK_BAR: put_bar (t, k); break;
    case BR__INK_PATH: put_path (t, k); break;
    case BR__INK_ARROW: put_arrow (t, k); break;
    case BR__INK_TEXT: put_text (t, k); break;
    }
}

/* The next ink of GROUP from I on.  */
static size_t
next_of (const br__plot *p, size_t i, unsigned groups)
{
  while (i < p->count && !(groups & 1u << p->inks[i].group))
    i++;
  return i;
}

static int
looks_alike (const br__ink *a, const br__ink *b)
{
  return a->pen == b->pen && a->dashed == b->dashed;
}

/* Lines of one look that have no name go into one path; returns the ink behind those from I on.  */
static size_t
put_plain_lines (br_text *t, const br__plot *p, size_t i, unsigned groups)
{
  const br__ink *first = &p->inks[i];
  size_t n = 0, next = i;
  for (; next < p->count; next = next_of (p, next + 1, groups), n++)
    if (p->inks[next].type != BR__INK_LINE || p->inks[next].text || !looks_alike (&p->inks[next], first))
      break;
  if (n < 2)
    return i;
  br__text_puts (t, "<path d=\"");
  for (size_t k = i; k < next; k = next_of (p, k + 1, groups))
    {
      put_pair (t, k > i ? " M" : "M", p->inks[k].x, p->inks[k].y);
      put_pair (t, " L", p->inks[k].x2, p->inks[k].y2);
    }
  br__text_puts (t, "\"/>\n");
  return next;
}

/* The strokes of GROUPS, a set of bits, as one group called NAME.  */
static void
put_group (br_text *t, const br__plot *p, const char *prefix, const char *name, unsigned groups)
{
  static const char *const dashes[] = { "", " stroke-dasharray=\"80 50\"", " stroke-dasharray=\"160 30 10 30\"" };
  const br__ink *last = NULL;
  size_t next;
  for (size_t i = next_of (p, 0, groups); i < p->count; i = next)
    {
      const br__ink *k = &p->inks[i];
      if (!last)
        br__text_printf (t, "<g id=\"%s%s\">\n", prefix, name);
      if (!last || !looks_alike (k, last))
        {
          br__text_printf (t, "%s<g stroke=\"%s\" stroke-width=\"", last ? "</g>\n" : "",
                           k->pen == BR__PEN_GRID ? "#ccc" : "#000");
          put_place (t, br__pen_width (k->pen));
          br__text_printf (t, "\"%s>\n", dashes[k->dashed]);
        }
      last = k;
      next = put_plain_lines (t, p, i, groups);
      if (next == i)
        {
          put_ink (t, k);
          next = next_of (p, i + 1, groups);
        }
    }
  br__text_puts (t, last ? "</g>\n</g>\n" : "");
}

static void
put_inks (br_text *t, const br__plot *p, int inside)
{
  /* A page has ids of its own.  */
  const char *prefix = inside ? "drawing-" : "";
  put_group (t, p, prefix, "grid", 1u << BR__GROUP_GRID);
  put_group (t, p, prefix, "outlines", 1u << BR__GROUP_OUTLINES);
  put_group (t, p, prefix, "centres", 1u << BR__GROUP_CENTRES);
  put_group (t, p, prefix, "dimensions", 1u << BR__GROUP_DIMENSIONS | 1u << BR__GROUP_EXTENSIONS | 1u << BR__GROUP_LEADERS);
  put_group (t, p, prefix, "frame", 1u << BR__GROUP_FRAME);
  put_group (t, p, prefix, "text", 1u << BR__GROUP_TEXT);
}

void
br__put_svg (br_text *t, const br__plot *p, const char *title, const char *description, int inside)
{
  if (!inside)
    br__text_puts (t, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  br__text_puts (t, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
  put_units (t, p->width, BR__INCH);
  br__text_puts (t, "in\" height=\"");
  put_units (t, p->height, BR__INCH);
  br__text_puts (t, "in\" viewBox=\"0 0 ");
  put_pair (t, "", p->width, p->height);
  br__text_puts (t, "\" role=\"img\" aria-labelledby=\"drawing-title drawing-words\">\n<title id=\"drawing-title\">");
  br__put_escaped (t, title);
  br__text_puts (t, "</title>\n<desc id=\"drawing-words\">");
  br__put_escaped (t, description);
  br__text_puts (t, "</desc>\n<rect");
  put_attribute (t, "width", p->width);
  put_attribute (t, "height", p->height);
  br__text_puts (t, " fill=\"#fff\"/>\n<g fill=\"none\" stroke-linejoin=\"round\" font-family=\"sans-serif\">\n");
  put_inks (t, p, inside);
  br__text_puts (t, "</g>\n</svg>\n");
}
