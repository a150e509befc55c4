/* SPDX-License-Identifier: LGPL-3.0-or-later
   outline_view.c - an outline as it lies on paper: each piece of its edge put on the grid of the drawing.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "view/view.h"

/* Twice the angle whose tangent SLOPE is.  */
static br_status
turn_of (int64_t *turn, const br__value *slope, unsigned bits)
{
  br_real z = BR_REAL_ZERO;
  br_status status = br_real_atan (&z, &slope->real);
  if (status == BR_OK)
    status = br_real_add (&z, &z, &z);
  if (status == BR_OK)
    status = br__to_paper (turn, &z, NULL, bits);
  br_real_clear (&z);
  return status;
}

static br_status
take_leg (br__drawn_piece *p, const br__leg *leg, const br_number *ratio, unsigned bits)
{
  const br__value *const values[] = { leg->x, leg->y, leg->x2, leg->y2, leg->centre_x, leg->centre_y, leg->radius };
  int64_t *const places[] = { &p->x, &p->y, &p->x2, &p->y2, &p->centre_x, &p->centre_y, &p->radius };
  br_status status = BR_OK;
  memset (p, 0, sizeof *p);
  for (int i = 0; i < (leg->slope ? 7 : 4) && status == BR_OK; i++)
    status = br__to_paper (places[i], &values[i]->real, ratio, bits);
  if (status != BR_OK || !leg->slope)
    return status;
  p->from = br__angle (p->x - p->centre_x, p->y - p->centre_y);
  return turn_of (&p->turn, leg->slope, bits);
}

br_status
br__drawn_pieces (br__drawn *d, const br__legs *legs, const br_number *ratio, unsigned bits)
{
  br_status status = BR_OK;
  d->pieces = br__alloc_zero (legs->count, sizeof *d->pieces);
  d->piece_count = legs->count;
  if (!d->pieces)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < legs->count && status == BR_OK; i++)
    status = take_leg (&d->pieces[i], &legs->rows[i], ratio, bits);
  br__drawn_box (d);
  return status;
}

/* For whoever looks at the whole, it is a box.  */
void
br__drawn_box (br__drawn *d)
{
  d->a = d->reach.x2 - d->reach.x;
  d->b = d->reach.y2 - d->reach.y;
  d->c = d->d = 0;
  d->x = d->reach.x + d->a / 2;
  d->y = d->reach.y + d->b / 2;
}

/* What stands on the figure of leg I: of an arc its radius, once where it is two legs of one side; a cut is the last leg of its
   corner.  */
static br_status
put_size (br__drawn_piece *p, const br__legs *legs, size_t i, const br_sheet *sheet, const br__shape *shape)
{
  const br__leg *leg = &legs->rows[i];
  const int last = i + 1 == legs->count || leg[1].corner != leg->corner, arc = leg->slope && (last || !leg[1].slope);
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;
  br__text_puts (&t, arc ? "R " : "");
  if (arc)
    status = br__put_drawing_number (&t, &leg->radius->real, &sheet->settings);
  else if (last)
    status = br__put_corner (&t, sheet, shape, leg->corner, BR__TOLD_CORNER);
  if (status == BR_OK && t.length < sizeof p->size)
    memcpy (p->size, br__text_string (&t), t.length + 1);
  br__text_clear (&t);
  return status;
}

br_status
br__drawn_outline (br__drawn *d, const br_sheet *sheet, const br_number *ratio)
{
  br__work work = { &sheet->settings, NULL, NULL, 0 };
  br__sketch s = { &work, BR_OK, NULL };
  br__legs legs = { NULL, 0, 0, NULL };
  br_status status = br__shape_legs_of (&legs, &s, sheet, d->shape);
  if (status == BR_OK)
    status = br__drawn_pieces (d, &legs, ratio, sheet->settings.bits);
  for (size_t i = 0; i < legs.count && status == BR_OK; i++)
    status = put_size (&d->pieces[i], &legs, i, sheet, d->shape);
  br__legs_clear (&legs);
  br__sketch_clear (&s);
  return status;
}

int64_t
br__outline_turn (const br__drawn *d, int upright, int greatest, int64_t at)
{
  const int64_t near = BR__INCH / 1000000;
  int64_t best = 0;
  int found = 0;
  for (size_t i = 0; i < d->piece_count; i++)
    {
      const br__drawn_piece *p = &d->pieces[i];
      int64_t along = upright ? p->y : p->x, across = upright ? p->x : p->y;
      int64_t middle = upright ? p->centre_y : p->centre_x, beside = upright ? p->centre_x : p->centre_y;
      int end = llabs (along - at) < near, turns = p->turn && llabs (llabs (at - middle) - p->radius) < near;
      int64_t here = end ? across : beside;
      if ((end || turns) && (!found || (greatest ? here > best : here < best)))
        {
          best = here;
          found = 1;
        }
    }
  return best;
}

void
br__outline_plot (br__plot *p, const br__drawn *d, const char *name, int64_t left, int64_t top)
{
  br__path_step steps[2 * BR__MOST_CORNERS + 2];
  size_t count = 0;
  for (size_t i = 0; i < d->piece_count; i++)
    {
      const br__drawn_piece *k = &d->pieces[i];
      if (k->turn)
        steps[count++] = (br__path_step) { BR__STEP_ARC, left + k->centre_x, top - k->centre_y, k->radius, k->from, k->from + k->turn };
      else
        steps[count++] = (br__path_step) { i ? BR__STEP_LINE : BR__STEP_MOVE, left + (i ? k->x2 : k->x), top - (i ? k->y2 : k->y), 0, 0, 0 };
      if (!i && !k->turn)
        steps[count++] = (br__path_step) { BR__STEP_LINE, left + k->x2, top - k->y2, 0, 0, 0 };
    }
  steps[count++] = (br__path_step) { .type = BR__STEP_CLOSE };
  br__ink *ink = br__plot_add (p, BR__INK_PATH, BR__PEN_OUTLINE, left + d->x, top - d->y);
  br__ink_path (p, ink, steps, count);
  br__ink_name (p, ink, name);
}

void
br__outline_walk (br__stylus *s, const br__drawn *d)
{
  for (size_t i = 0; i < d->piece_count; i++)
    {
      const br__drawn_piece *k = &d->pieces[i];
      if (k->turn)
        br__stylus_arc (s, k->centre_x, k->centre_y, k->radius, k->from, k->turn);
      else
        {
          s->x = k->x;
          s->y = k->y;
        }
      br__stylus_to (s, k->x2, k->y2);
    }
}
