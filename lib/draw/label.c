/* SPDX-License-Identifier: LGPL-3.0-or-later
   label.c - the names of shapes: inside where there is room, else beside with a leader; no text on another,
   none on an outline.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "draw/by_hand.h"
#include "exact/wide.h"
#include "view/wood_left.h"

#define AIR (BR__INCH / 32)
#define ARROW (BR__INCH / 8)
#define CROWD 300               /* shapes */
#define FEW 80                  /* so many take all the care that there is */
#define BALLOON (BR__INCH / 9)     /* the radius of a number's circle */
#define LIMIT 10000             /* a cost that is no room */

/* A text on another, on an outline or on a leader is not to be; an extension line through a text, which is opened
   there, is bad, and so is a leader through an outline.  */
#define NO LIMIT
static const unsigned text_price[BR__CELLS] = { 0, 30, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO };
static const unsigned leader_price[BR__CELLS] = { 0, 6, 12, 18, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO };
/* Leaders have an angle of 30 to 60 degrees to the lines of the sheet, as drafting textbooks have it (common practice, no
   source), and are no longer than 1-1/2 in.  */
static const int64_t reaches[] = { BR__INCH / 5, BR__INCH / 3, BR__INCH / 2, BR__INCH * 3 / 4, BR__INCH, BR__INCH * 5 / 4 };
#define LONGEST (BR__INCH * 149 / 100)
/* The angles that are tried, in billionths of a degree: of names the first three, in a crowd the first alone.  */
#define ANGLES 3
#define ANGLES_OF_BALLOON 7
static const int64_t angles[ANGLES_OF_BALLOON] = { 45 * BR__INCH, 31 * BR__INCH, 59 * BR__INCH, 38 * BR__INCH, 52 * BR__INCH,
                                                   69 * BR__INCH / 2, 111 * BR__INCH / 2 };
/* Their sines and cosines in billionths, which are asked for at every name.  */
static const int64_t sines[] = { 707106781, 515038075, 857167301, 615661475, 788010754, 566406237, 824126189 };
static const int64_t cosines[] = { 707106781, 857167301, 515038075, 788010754, 615661475, 824126189, 566406237 };

/* ---- Where it can stand ---- */

static void
add_anchor (br__anchors *a, int64_t x, int64_t y, int64_t out_x, int64_t out_y, int64_t thick)
{
  if (a->count < BR__MOST_ANCHORS)
    a->rows[a->count++] = (br__anchor) { x, y, out_x, out_y, thick };
}

/* A length times a unit in billionths.  */
static int64_t
part (int64_t length, int64_t unit)
{
  return br__scale_by (length, unit, BR__INCH);
}

/* Direction I of those that a leader may have, from the right anticlockwise; a unit in billionths, y down.  */
static int64_t
direction (int64_t *x, int64_t *y, int i)
{
  int64_t quarter = i % 4, at = angles[i / 4], angle = quarter * 90 * BR__INCH + (quarter % 2 ? 90 * BR__INCH - at : at);
  *x = quarter == 0 || quarter == 3 ? cosines[i / 4] : -cosines[i / 4];
  *y = quarter < 2 ? -sines[i / 4] : sines[i / 4];
  return angle;
}

/* The cosine between a direction and the way OUT, both units in billionths, in parts of ALIKE.  */
#define ALIKE (BR__INCH * BR__INCH)
static int64_t
along (int64_t x, int64_t y, int64_t out_x, int64_t out_y)
{
  return x * out_x + y * out_y;
}

/* From a point of an outline in all directions that lead out of it.  */
static void
add_fan (br__anchors *a, int64_t x, int64_t y, int64_t out_x, int64_t out_y, int64_t thick)
{
  for (int i = 0; i < a->directions; i++)
    {
      int64_t to_x, to_y;
      (void) direction (&to_x, &to_y, i);
      if (along (to_x, to_y, out_x, out_y) > ALIKE / 5 * 2)
        add_anchor (a, x, y, to_x, to_y, thick);
    }
}

/* Of a curve of radius R from FROM on over TURN the points from which a leader leads away from the centre (OUT 1), through
   what is THICK, or to it (-1); where it has none of these, and for balloons, points of it with leaders askew.  */
static void
add_curve (br__anchors *a, int64_t x, int64_t y, int64_t r, int64_t thick, int64_t from, int64_t turn, int out)
{
  const int64_t full = 360 * BR__INCH;
  size_t before = a->count;
  for (int i = 0; i < a->directions; i++)
    {
      int64_t to_x, to_y, angle = direction (&to_x, &to_y, i), past = ((angle - from) % full + full) % full;
      if (past <= turn)
        add_anchor (a, x + part (r, to_x), y + part (r, to_y), out * to_x, out * to_y, thick);
    }
  for (int i = 1; i < 6 && (a->count == before || a->directions > 4 * ANGLES); i++)
    {
      int64_t sine, cosine;
      br__sine_cosine (&sine, &cosine, from + turn / 6 * i);
      add_fan (a, x + part (r, cosine), y - part (r, sine), out * cosine, -out * sine, thick);
    }
}

static void
add_box (br__anchors *a, int64_t x, int64_t y, int64_t width, int64_t height)
{
  for (int i = -1; i <= 1; i++)
    for (int side = -1; side <= 1; side += 2)
      {
        add_fan (a, x + width * 3 / 8 * i, y + side * height / 2, 0, side * BR__INCH, 0);
        add_fan (a, x + side * width / 2, y + height * 3 / 8 * i, side * BR__INCH, 0, 0);
      }
}

static void
add_line (br__anchors *a, const br__drawn *d, int64_t x, int64_t y)
{
  int64_t out_x, out_y;
  br__across (&out_x, &out_y, d->a, -d->b, BR__INCH);
  for (int i = -3; i <= 3; i += 2)
    for (int side = -1; side <= 1; side += 2)
      add_fan (a, x + d->a * i / 8 + side * part (d->c / 2, out_x), y - d->b * i / 8 + side * part (d->c / 2, out_y),
               side * out_x, side * out_y, 0);
}

/* The middle of the straight piece P, to its right and left.  */
static void
add_side (br__anchors *a, const br__drawn_piece *p, int64_t left, int64_t top)
{
  br__drawn side = { .x = p->x + (p->x2 - p->x) / 2, .y = p->y + (p->y2 - p->y) / 2, .a = (p->x2 - p->x) / 3, .b = (p->y2 - p->y) / 3 };
  if (a->count + 14 <= BR__MOST_ANCHORS)
    add_line (a, &side, left + side.x, top - side.y);
}

static void
add_outline (br__anchors *a, const br__drawn *d, int64_t left, int64_t top)
{
  for (size_t i = 0; i < d->piece_count; i++)
    if (!d->pieces[i].turn)
      add_side (a, &d->pieces[i], left, top);
  if (!a->count)
    add_box (a, left + d->x, top - d->y, d->a, d->b);
}

static void
find_anchors (br__anchors *a, const br__drawn *d, int64_t left, int64_t top)
{
  int64_t x = left + d->x, y = top - d->y;
  switch (d->shape->kind)
    {
    case BR__CIRCLE:
      add_curve (a, x, y, d->a, 0, 0, 360 * BR__INCH, 1);
      break;
    case BR__ARC:
      /* The arrow touches the edge whose radius it says, from without across the strip.  */
      add_curve (a, x, y, d->a, d->b - d->a, d->c, d->d, 1);
      add_curve (a, x, y, d->a, 0, d->c, d->d, -1);
      break;
    case BR__LINE:
      add_line (a, d, x, y);
      break;
    case BR__OUTLINE:
      add_outline (a, d, left, top);
      break;
    default:
      if (d->copies)
        find_anchors (a, &d->copies[d->copy_count - 1], left, top);
      else
        add_box (a, x, y, d->a, d->b);
      break;
    }
}

void
br__anchors_find (br__anchors *a, const br__drawn *d, int64_t left, int64_t top)
{
  br__wood_left wood = { NULL, 0, 0, 0 };
  size_t kept = 0;
  a->count = 0;
  find_anchors (a, d, left, top);
  br__wood_left_find (&wood, a->view, d->copies ? &d->copies[d->copy_count - 1] : d, left, top);
  /* Where a hole is open at the edge of the wood there is nothing to touch.  */
  for (size_t i = 0; i < a->count; i++)
    if (br__wood_left_near (&wood, (br__page_point) { (double) a->rows[i].x, (double) a->rows[i].y }, 0))
      a->rows[kept++] = a->rows[i];
  a->count = kept ? kept : a->count;
  br__wood_left_clear (&wood);
}

/* A place for a text and, where it is not inside, the leader.  */
typedef struct place
{
  unsigned cost;
  int64_t x, y;                 /* the middle of the text */
  br_align align;               /* it begins or ends at its leader, however wide the letters really are */
  int leader;
  int64_t from_x, from_y, to_x, to_y;   /* from the text to the outline */
} place;

static br__area
area_around (int64_t x, int64_t y, int64_t half_width, int64_t half_height)
{
  return (br__area) { x - half_width, y - half_height, x + half_width, y + half_height };
}

static void
try_place (place *best, const br__ink_map *m, place p, int64_t half_width, int64_t half_height)
{
  br__area a = area_around (p.x, p.y, half_width, half_height);
  if (p.cost < best->cost)
    p.cost += br__ink_map_cost (m, a, text_price, LIMIT);
  if (p.leader && p.cost < best->cost)
    p.cost += br__ink_map_line_cost (m, p.from_x, p.from_y, p.to_x, p.to_y, leader_price, LIMIT);
  if (p.cost < best->cost)
    *best = p;
}

/* 1 where X Y, a place of the view V inside D, lies inside of something else that D is around, as a window: there its name is that of
   the window.  */
static int
is_of_another (const br__side_view *v, const br__drawn *d, int64_t x, int64_t y)
{
  const br__area *own = &d->reach;
  for (const br__drawn *o = v->shapes; o < v->shapes + v->count && v->count <= CROWD; o++)
    {
      const br__area *a = &o->reach;
      if (o != d && o->shape->kind != BR__LINE && x > a->x && x < a->x2 && y > a->y && y < a->y2
          && a->x2 - a->x < own->x2 - own->x && a->y2 - a->y < own->y2 - own->y)
        return 1;
    }
  return 0;
}

/* Inside a box or a circle of V, the middle first.  */
static void
try_inside (place *best, const br__ink_map *m, const br__side_view *v, const br__drawn *d, int64_t left, int64_t top, int64_t half_width,
            int64_t half_height)
{
  const int64_t x = left + d->x, y = top - d->y;
  int64_t width = d->shape->kind == BR__BOX ? d->a / 2 : d->a * 7 / 8;
  int64_t height = d->shape->kind == BR__BOX ? d->b / 2 : d->a * 3 / 5;
  for (int i = 0; i < 9; i++)
    for (int k = 0; k < 9; k++)
      {
        /* 0, -1, 1, -2, 2 ... quarters of the room that is left.  */
        int across = (i + 1) / 2 * (i % 2 ? -1 : 1), down = (k + 1) / 2 * (k % 2 ? -1 : 1);
        int64_t spare_x = width - half_width, spare_y = height - half_height;
        if (spare_x < 0 || spare_y < 0)
          return;
        place p = { .cost = (unsigned) (i + k), .align = BR_ALIGN_MIDDLE, .x = x + spare_x * across / 4, .y = y + spare_y * down / 4 };
        if (p.cost < best->cost && !is_of_another (v, d, p.x - left, top - p.y))
          try_place (best, m, p, half_width, half_height);
      }
}

static void
try_outside (place *best, const br__ink_map *m, const br__anchors *a, size_t lengths, int64_t half_width, int64_t half_height)
{
  for (size_t i = 0; i < a->count; i++)
    for (size_t k = 0; k < lengths; k++)
      {
        const br__anchor *at = &a->rows[i];
        if (at->thick + reaches[k] > LONGEST)
          break;
        place p = { .cost = 20 + 10 * (unsigned) k, .leader = 1, .to_x = at->x, .to_y = at->y };
        p.from_x = at->x + part (at->thick + reaches[k], at->out_x);
        p.from_y = at->y + part (at->thick + reaches[k], at->out_y);
        /* It meets the text at its end.  */
        p.align = at->out_x > 0 ? BR_ALIGN_LEFT : BR_ALIGN_RIGHT;
        p.x = p.from_x + (at->out_x > 0 ? half_width : -half_width);
        p.y = p.from_y;
        try_place (best, m, p, half_width, half_height);
      }
}

/* 1 where no other circle of V is as near to X Y, a place of the view, as the circle D; with some air.  */
static int
is_nearest (const br__side_view *v, const br__drawn *d, int64_t x, int64_t y)
{
  const int64_t own = br__span (x - d->x, y - d->y) - d->a + AIR;
  for (const br__drawn *whole = v->shapes; whole < v->shapes + v->count; whole++)
    {
      const br__drawn *other;
      for (size_t count = br__drawn_figures (&other, whole); count > 0; count--, other++)
        if (whole != d && other->shape->kind == BR__CIRCLE && llabs (x - other->x) - other->a < own && llabs (y - other->y) - other->a < own
            && llabs (br__span (x - other->x, y - other->y) - other->a) < own)
          return 0;
    }
  return 1;
}

/* Beside the circle D of V, without a leader: off its centre lines, at the upper right where that is free.  */
static void
try_close (place *best, const br__ink_map *m, const br__side_view *v, const br__drawn *d, int64_t left, int64_t top, unsigned cost)
{
  /* The square around the balloon is off the circle, too.  */
  const int64_t off = d->a + BALLOON * 3 / 2 + AIR;
  for (int i = 0; i < 4 && d->shape->kind == BR__CIRCLE; i++)
    {
      int64_t out_x, out_y;
      (void) direction (&out_x, &out_y, i);
      place p = { .cost = cost + (unsigned) i, .align = BR_ALIGN_MIDDLE };
      p.x = left + d->x + part (off, out_x);
      p.y = top - d->y + part (off, out_y);
      if (p.cost < best->cost && is_nearest (v, d, p.x - left, top - p.y))
        try_place (best, m, p, BALLOON, BALLOON);
    }
}

/* ---- All of them ---- */

static void
put_text (br__plot *p, br__ink_map *m, const place *best, br_align align, int64_t x, const char *text, int64_t half_width,
          int64_t half_height)
{
  br__lines_open (p, area_around (best->x, best->y, half_width, half_height));
  br__plot_text (p, x, best->y, align, BR__SIZE_TEXT, text);
  br__ink_map_fill (m, area_around (best->x, best->y, half_width, half_height), BR__CELL_TEXT);
  if (!best->leader)
    return;
  br__plot_line (p, BR__PEN_THIN, best->from_x, best->from_y, best->to_x, best->to_y, 0);
  br__ink_map_line (m, best->from_x, best->from_y, best->to_x, best->to_y, BR__CELL_KEPT);
  br__ink *arrow = br__plot_add (p, BR__INK_ARROW, BR__PEN_THIN, best->to_x, best->to_y);
  arrow->x2 = best->from_x;
  arrow->y2 = best->from_y;
}

static void
put_label (br__plot *p, br__ink_map *m, const char *text, const place *best, int64_t half_width, int64_t half_height)
{
  int64_t aside = half_width - AIR, x = best->x + (best->align == BR_ALIGN_LEFT ? -aside : best->align == BR_ALIGN_RIGHT ? aside : 0);
  put_text (p, m, best, best->align, x, text, half_width, half_height);
}

/* Inside D, or beside it.  */
static void
put_name (br__plot *p, br__ink_map *m, br__drawn *d, br__anchors *a, size_t lengths, int64_t left, int64_t top, int inside)
{
  int64_t half_width = br__text_width (d->label, BR__SIZE_TEXT) / 2 + AIR, half_height = BR__SIZE_TEXT * 3 / 5 + AIR / 2;
  place best = { .cost = inside ? 30 : LIMIT };
  if (inside && (d->shape->kind == BR__BOX || d->shape->kind == BR__CIRCLE))
    try_inside (&best, m, a->view, d, left, top, half_width, half_height);
  else if (!inside)
    {
      br__anchors_find (a, d, left, top);
      try_outside (&best, m, a, lengths, half_width, half_height);
    }
  if (best.x == 0 && best.y == 0)
    return;
  d->unlabelled = 0;
  put_label (p, m, d->label, &best, half_width, half_height);
}

/* Those with room inside go first, as they have no other place as good (ROUND 0); then sizes of shapes, then holes.  */
static void
put_labels (br__plot *p, br__ink_map *m, br__side_view *v, br__anchors *a, int64_t left, int64_t top, int round)
{
  /* In a crowd long leaders only tangle.  */
  size_t lengths = v->count > CROWD ? 3 : sizeof reaches / sizeof reaches[0];
  for (size_t i = 0; i < v->count; i++)
    if (v->shapes[i].unlabelled && !v->shapes[i].balloon && (round == 0 || (v->shapes[i].shape->hole != 0) == (round == 2)))
      put_name (p, m, &v->shapes[i], a, lengths, left, top, round == 0);
}

/* From the middle of the arc K along its radius, outward or from the side of its centre: the arrow touches the arc.  */
static void
add_radius (br__anchors *a, const br__drawn_piece *k, int64_t left, int64_t top)
{
  int64_t sine, cosine, x, y;
  br__sine_cosine (&sine, &cosine, k->from + k->turn / 2);
  for (int i = 0; i < a->directions; i++)
    {
      (void) direction (&x, &y, i);
      if (llabs (along (x, y, cosine, -sine)) > ALIKE / 5 * 4)
        add_anchor (a, left + k->centre_x + part (k->radius, cosine), top - k->centre_y - part (k->radius, sine), x, y, 0);
    }
}

/* The sizes of D's rounds and cuts; those of one size are said once, as "2x R 1/2" (ASME Y14.5, section on repeated features, from
   memory).  What finds no room is in the table alone.  */
static void
put_corners (br__plot *p, br__ink_map *m, const br__drawn *d, br__anchors *a, int64_t left, int64_t top)
{
  for (size_t i = 0; i < d->piece_count; i++)
    {
      const br__drawn_piece *k = &d->pieces[i];
      size_t alike = 0, before = 0;
      char text[64];
      place best = { .cost = LIMIT };
      a->count = 0;
      for (size_t n = 0; n < d->piece_count; n++)
        if (k->size[0] && strcmp (d->pieces[n].size, k->size) == 0)
          {
            alike++;
            before += n < i;
            (k->turn ? add_radius : add_side) (a, &d->pieces[n], left, top);
          }
      if (!alike || before)
        continue;
      if (alike > 1)
        snprintf (text, sizeof text, "%zux %s", alike, k->size);
      else
        snprintf (text, sizeof text, "%s", k->size);
      int64_t half_width = br__text_width (text, BR__SIZE_TEXT) / 2 + AIR, half_height = BR__SIZE_TEXT * 3 / 5 + AIR / 2;
      try_outside (&best, m, a, sizeof reaches / sizeof reaches[0], half_width, half_height);
      if (best.leader)
        put_label (p, m, text, &best, half_width, half_height);
    }
}

/* The next NUMBER in a circle at BEST, for D of V; nothing where that is no place.  */
static void
put_balloon (br__plot *p, br__ink_map *m, const br__side_view *v, br__drawn *d, size_t *number, const place *best)
{
  char text[24];
  if (best->x == 0 && best->y == 0)
    return;
  d->balloon = br__number_beside (v, d);
  if (!d->balloon)
    d->balloon = ++*number;
  snprintf (text, sizeof text, "%zu", d->balloon);
  put_text (p, m, best, BR_ALIGN_MIDDLE, best->x, text, BALLOON, BALLOON);
  br__plot_add (p, BR__INK_CIRCLE, BR__PEN_THIN, best->x, best->y)->r = BALLOON;
}

/* "35x ⌀ 1/2", the size of the COUNT circles of V from FIRST on, at one of them.  */
static void
put_size_of_series (br__plot *p, br__ink_map *m, const br__side_view *v, size_t first, size_t count, br__anchors *a, int64_t left, int64_t top)
{
  char text[80];
  place best = { .cost = LIMIT };
  const br__drawn *d = &v->shapes[first];
  if (snprintf (text, sizeof text, "%zux%s", count, d->label + strlen (d->shape->name)) >= (int) sizeof text)
    return;
  int64_t half_width = br__text_width (text, BR__SIZE_TEXT) / 2 + AIR, half_height = BR__SIZE_TEXT * 3 / 5 + AIR / 2;
  for (size_t i = 0; i < count; i++)
    {
      br__anchors_find (a, d + i, left, top);
      try_outside (&best, m, a, sizeof reaches / sizeof reaches[0], half_width, half_height);
    }
  if (best.leader)
    put_label (p, m, text, &best, half_width, half_height);
}

/* Circles of one size whose names follow one another, so many or more, are told as a chart of holes is: each has a number beside
   it, all have one row in the list.  */
#define SERIES 6

static void
put_series (br__plot *p, br__ink_map *m, br__side_view *v, br__anchors *a, int64_t left, int64_t top, size_t *number)
{
  for (size_t i = 0, alike; i < v->count && v->count <= CROWD; i += alike)
    {
      alike = v->shapes[i].shape->kind == BR__CIRCLE && !v->shapes[i].balloon ? br__alike_from (v, i) : 1;
      for (br__drawn *d = &v->shapes[i]; alike >= SERIES && d < &v->shapes[i + alike]; d++)
        {
          place best = { .cost = LIMIT };
          try_close (&best, m, v, d, left, top, 0);
          br__anchors_find (a, d, left, top);
          try_outside (&best, m, a, sizeof reaches / sizeof reaches[0], BALLOON, BALLOON);
          put_balloon (p, m, v, d, number, &best);
        }
      if (alike >= SERIES && v->shapes[i].balloon)
        put_size_of_series (p, m, v, i, alike, a, left, top);
    }
}

/* Numbers in circles for those whose names found no room (TRIES 0); or before names are put, for those that had none of both in the
   first so many tries.  */
static void
put_balloons (br__plot *p, br__ink_map *m, br__side_view *v, br__anchors *a, int64_t left, int64_t top, size_t *number, int tries)
{
  for (size_t i = 0; i < v->count && v->count <= CROWD; i++)
    {
      br__drawn *d = &v->shapes[i];
      place best = { .cost = LIMIT };
      if (!d->unlabelled || d->balloon || (tries && (!d->untied || d->untied > tries)))
        continue;
      a->directions = 4 * (v->count > FEW ? ANGLES : ANGLES_OF_BALLOON);
      br__anchors_find (a, d, left, top);
      a->directions = 4 * ANGLES;
      try_outside (&best, m, a, sizeof reaches / sizeof reaches[0], BALLOON, BALLOON);
      try_close (&best, m, v, d, left, top, 60);
      put_balloon (p, m, v, d, number, &best);
    }
}

/* What is to be read at the shapes of V goes to P, off what M holds; what found nothing in the first TRIES goes before.  The number of
   those that find nothing now.  */
static size_t
put_all (br__plot *p, br__ink_map *m, br__side_view *v, int64_t left, int64_t top, int tries)
{
  br__anchors a = { .view = v, .directions = v->count > CROWD ? 4 : 4 * ANGLES };
  size_t untied = 0, number = v->beside ? br__number_beside (v, NULL) : v->numbered;
  for (size_t i = 0; i < v->count; i++)
    {
      v->shapes[i].unlabelled = !v->shapes[i].through;
      v->shapes[i].balloon = 0;
    }
  if (tries)
    put_balloons (p, m, v, &a, left, top, &number, tries);
  put_series (p, m, v, &a, left, top, &number);
  for (int round = 0; round < 3; round++)
    put_labels (p, m, v, &a, left, top, round);
  for (size_t i = 0; i < v->count && v->count <= CROWD; i++)
    if (v->shapes[i].tied && !v->shapes[i].unmeasured)
      put_corners (p, m, &v->shapes[i], &a, left, top);
  put_balloons (p, m, v, &a, left, top, &number, 0);
  for (size_t i = 0; i < v->count; i++)
    untied += (size_t) (v->shapes[i].unlabelled && !v->shapes[i].balloon);
  return untied;
}

/* 1 where no smaller circle of V has the centre of D.  */
static int
is_innermost (const br__side_view *v, const br__drawn *d)
{
  for (const br__drawn *o = v->shapes; o < v->shapes + v->count; o++)
    if (o->shape->kind == BR__CIRCLE && o->a < d->a && llabs (o->x - d->x) < AIR && llabs (o->y - d->y) < AIR)
      return 0;
  return 1;
}

/* What P holds, and centres, which are to be seen; a leader that runs through one seems to be that of its hole.  */
static int
map_make (br__ink_map *m, const br__plot *p, const br__side_view *v, br__area within, int64_t left, int64_t top)
{
  if (!br__ink_map_make (m, p, within))
    return 0;
  br__ink_map_keep_joins (m, p);
  for (const br__drawn *d = v->shapes; d < v->shapes + v->count; d++)
    if (d->tied && d->shape->kind == BR__CIRCLE)
      {
        br__ink_map_fill (m, area_around (left + d->x, top - d->y, AIR, AIR), BR__CELL_OUTLINE);
        if (d->shape->hole && d->a >= AIR && v->count <= CROWD && is_innermost (v, d))
          br__ink_map_fill (m, area_around (left + d->x, top - d->y, d->a / 8, d->a / 8), BR__CELL_KEPT);
      }
  return 1;
}

/* How often those that find nothing are let go before; of more shapes than FEW one try takes its time.  */
#define TRIES 6

/* After how many tries, beside the figure, the fewest shapes are without a name and a number at them.  */
static int
find_tries (br__plot *p, br__side_view *v, br__area within, int64_t left, int64_t top)
{
  size_t least = SIZE_MAX;
  int best = 0;
  for (size_t i = 0; i < v->count; i++)
    v->shapes[i].untied = 0;
  for (int tries = 0; tries <= TRIES && least > 0 && v->count <= FEW && !p->failed; tries++)
    {
      br__ink_map m;
      br__plot aside = { .inks = NULL };
      if (!map_make (&m, p, v, within, left, top))
        {
          p->failed = 1;
          break;
        }
      size_t untied = put_all (&aside, &m, v, left, top, tries);
      best = untied < least ? tries : best;
      least = untied < least ? untied : least;
      for (br__drawn *d = v->shapes; d < v->shapes + v->count; d++)
        if (d->unlabelled && !d->balloon && !d->untied)
          d->untied = tries + 1;
      p->failed = p->failed || aside.failed;
      br__plot_clear (&aside);
      br__ink_map_clear (&m);
    }
  return best;
}

size_t
br__labels_plot (br__plot *p, br__side_view *v, br__area within, int64_t left, int64_t top)
{
  br__ink_map m;
  size_t unlabelled = 0;
  br__group before = p->group;
  int tries = find_tries (p, v, within, left, top);
  if (!map_make (&m, p, v, within, left, top))
    {
      p->failed = 1;
      return 0;
    }
  p->group = BR__GROUP_LEADERS;
  (void) put_all (p, &m, v, left, top, tries);
  for (size_t i = 0; i < v->count; i++)
    unlabelled += (size_t) v->shapes[i].unlabelled;
  br__ink_map_clear (&m);
  p->group = before;
  return unlabelled;
}
