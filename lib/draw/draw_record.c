/* SPDX-License-Identifier: LGPL-3.0-or-later
   draw_record.c - what is said about a drawing: its record, and the shapes in words.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/draw.h"
#include "exact/status.h"

#define MOST_DESCRIBED 200

br_status
br__put_description (br_text *t, const br_sheet *sheet, const br__side_view *v)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < v->count && i < MOST_DESCRIBED && status == BR_OK; i++)
    {
      const br__drawn *d = &v->shapes[i];
      br__text_printf (t, "%s %s: ", br__shape_statement (d->shape), d->shape->name);
      status = br__shape_size_words (t, sheet, d->shape);
      br__text_puts (t, ", ");
      if (status == BR_OK)
        status = br__shape_place_words (t, sheet, d->shape);
      br__text_puts (t, d->tied ? ".\n" : "; dashed, not tied down yet.\n");
    }
  if (v->count > MOST_DESCRIBED)
    br__text_printf (t, "And %zu more shapes.\n", v->count - MOST_DESCRIBED);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}

/* ---- How far the shapes reach ---- */

/* The side of S in inches, X and RIGHT or Y and TOP and so on.  */
static br_status
side_of (br_real *z, const br_sheet *sheet, const br__shape *s, int centre, int reach)
{
  const br__value *c = br__shape_value (sheet, s, centre), *r = br__shape_value (sheet, s, reach);
  return c && r ? br_real_add (z, &c->real, &r->real) : BR_UNDECIDED;
}

/* The outermost side of all, which is the greatest where GREATEST.  On paper it is among those that lie
   within two places of the end of the view.  */
static br_status
outermost (br_real *z, const br_sheet *sheet, const br__side_view *v, int centre, int reach, int greatest)
{
  const br__drawn *first = v->shapes;
  while (first->in_wood)
    first++;
  br__area all = first->reach;  /* without the datum, which may lie outside */
  for (size_t i = 0; i < v->count; i++)
    if (!v->shapes[i].in_wood)
      br__area_join (&all, v->shapes[i].reach);
  int64_t end = centre == BR__SHAPE_X ? (greatest ? all.x2 : all.x) : greatest ? all.y2 : all.y;
  br_real at = BR_REAL_ZERO;
  br_status status = BR_OK;
  int any = 0;
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    {
      const br__area *a = &v->shapes[i].reach;
      int64_t side = centre == BR__SHAPE_X ? (greatest ? a->x2 : a->x) : greatest ? a->y2 : a->y;
      int order = 0;
      if (v->shapes[i].in_wood || side - end > 2 || end - side > 2)
        continue;
      status = side_of (&at, sheet, v->shapes[i].shape, centre, reach);
      if (status == BR_OK && any)
        status = br_real_cmp (&order, &at, z, sheet->settings.bits);
      if (status == BR_OK && (!any || (greatest ? order > 0 : order < 0)))
        status = br_real_set (z, &at);
      any = 1;
    }
  br_real_clear (&at);
  return status;
}

/* The whole width or height, exactly: fields KEY and SHOWN; null where it is not known.  */
static br_status
put_extent (br_record *r, const char *key, const char *shown, const br_sheet *sheet, const br__side_view *v, int level)
{
  int centre = level ? BR__SHAPE_X : BR__SHAPE_Y;
  br__value size = BR__VALUE_ZERO;
  br_real low = BR_REAL_ZERO, unit = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  size.dimension = BR_LENGTH;
  br_status status = outermost (&size.real, sheet, v, centre, level ? BR__SHAPE_RIGHT : BR__SHAPE_TOP, 1);
  if (status == BR_OK)
    status = outermost (&low, sheet, v, centre, level ? BR__SHAPE_LEFT : BR__SHAPE_BOTTOM, 0);
  if (status == BR_OK)
    status = br_real_sub (&size.real, &size.real, &low);
  if (status == BR_OK)
    status = br__in_sheet_unit (&unit, &size, &sheet->settings);
  br__put_exact (r, key, status == BR_OK ? br_real_rational (&unit) : NULL);
  if (status == BR_OK)
    status = br__shown (&t, &size, &sheet->settings);
  if (status == BR_OK)
    br__put_from (r, shown, &t);
  else
    br__put_null (r, shown);
  br__text_clear (&t);
  br_real_clear (&low);
  br_real_clear (&unit);
  br__value_clear (&size);
  return status == BR_UNDECIDED ? BR_OK : status;
}

static void
put_loose (br_record *r, const br_sheet *sheet, const br__side_view *v)
{
  br_list *waiting = br__put_list (r, "waiting");
  for (size_t i = 0; i < v->count; i++)
    if (!v->shapes[i].tied)
      {
        br_record *row = br__list_record (waiting);
        br__put_text (row, "name", v->shapes[i].shape->name);
        br__shape_waiting (br__put_list (row, "needs"), sheet, v->shapes[i].shape);
      }
}

/* A picture that is larger than the paper has a page of its own size.  */
static void
put_paper (br_record *r, const br__drawing *d)
{
  br__area room = br__paper_room (&d->w);
  if ((d->bare || strcmp (br__picture_form (d->path), "pdf") != 0)
      && (d->figure.width > room.x2 - room.x || d->figure.height > room.y2 - room.y))
    {
      br__put_null (r, "paper");
      br__put_null (r, "lies");
      return;
    }
  br__put_text (r, "paper", d->w.paper);
  br__put_text (r, "lies", d->landscape ? "on its side" : "upright");
}

br_status
br__drawing_emit (const br__drawing *d, br__run *run)
{
  const br__seen *z = d->seen[0].sheet ? &d->seen[0] : &d->seen[1];
  const br_sheet *sheet = run->sheet, *drawn = z->sheet && d->from != BR__ALL_VIEWS ? z->sheet : sheet;
  br_record *r = br__record_new ("drawing");
  br_text t = BR_TEXT_ZERO;
  br__put_text (r, "view", d->parts ? "parts" : br__view_names[d->from]);
  br__put_text (r, "file", d->path);
  br__put_text (r, "form", br__picture_form (d->path));
  br__put_scale (&t, &d->w.ratio);
  br__put_from (r, "scale", &t);
  br__put_text (r, "scale_words", d->w.scale);
  if (d->figure.squares)
    br__put_text (r, "square", d->w.square);
  else
    br__put_null (r, "square");
  put_paper (r, d);
  br__put_count (r, "pages", (int64_t) d->pages);
  br__put_count (r, "shapes", (int64_t) d->found.shapes);
  br__put_count (r, "loose", (int64_t) d->found.loose);
  br__put_count (r, "left_out", (int64_t) (d->found.unmeasured + d->found.unlabelled + d->found.unplaced));
  br_list *parts = br__put_list (r, "parts");
  br_status status = d->parts ? br__put_part_rows (parts, run, d->wood) : put_extent (r, "width", "width_shown", drawn, &d->view, 1);
  if (status == BR_OK && !d->parts)
    status = put_extent (r, "height", "height_shown", drawn, &d->view, 0);
  if (status == BR_OK)
    put_loose (r, sheet, &d->view);
  if (d->from == BR__ALL_VIEWS)
    br__put_text (r, "projection", br__first_angle (&sheet->settings) ? "first" : "third");
  br_list *flat = br__put_list (r, "without_depth");
  for (size_t i = 0; i < z->flat_count; i++)
    br__list_text (flat, z->flat[i]->name);
  br__text_clear (&t);
  return br__emit_or_fail (run, r, status, 0, 0);
}
