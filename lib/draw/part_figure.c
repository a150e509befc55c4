/* SPDX-License-Identifier: LGPL-3.0-or-later
   part_figure.c - one part by itself: its outline, its holes with their drills, its sizes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "draw/part_figure.h"
#include "draw/place_list.h"
#include "draw/place_table.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "measure/measure.h"
#include "plot/ink_map.h"
#include "shop/drill.h"

#define LINE_HEIGHT (BR__SIZE_TEXT * 3 / 2)
#define ROOM (BR__INCH / 2)         /* beside the outline, for names of what is small */

void
br__part_figure_clear (br__part_figure *f)
{
  br__view_clear (&f->view);
  br__size_lines_clear (&f->level);
  br__size_lines_clear (&f->upright);
  br__plot_clear (&f->plot);
  memset (f, 0, sizeof *f);
}

br_status
br__part_figure_view (br__part_figure *f)
{
  br_status status = br__view_make (&f->view, f->run, f->ratio, NULL, f->name);
  /* What the whole is measured from may lie far from a part of it.  */
  return status == BR_OK ? br__datum_corner (&f->view, f->run->sheet) : status;
}

/* ---- Holes ---- */

/* Three digits of a hole that no drill has just so: a mark of the ruler would be coarser than drills are.  */
static br_status
put_hole (br_text *t, const br_real *diameter, const br__settings *s)
{
  br__value v = BR__VALUE_ZERO;
  br_real z = BR_REAL_ZERO;
  br_text digits = BR_TEXT_ZERO;
  int whole = 0;
  v.dimension = BR_LENGTH;
  br_status status = br_real_set (&v.real, diameter);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK)
    status = br__put_real_decimal (&digits, &whole, &z, 3, s->bits);
  if (status == BR_OK)
    br__text_printf (t, "⌀ %s%s", whole ? "" : "≈", br__text_string (&digits));
  if (status == BR_OK && digits.failed)
    status = BR_NO_MEMORY;
  br__value_clear (&v);
  br_real_clear (&z);
  br__text_clear (&digits);
  return status;
}

/* "drill 15/32", or the hole and its nearest drill.  */
static br_status
put_drill (br_text *t, const br_real *diameter, const br__settings *s)
{
  br__drill_pair pair = BR__DRILL_PAIR_ZERO;
  br_real sum = BR_REAL_ZERO;
  int sign = 0, metric = br__unit_is_decimal (s->unit);
  br_status status = br__drill_neighbours (&pair, metric ? BR__DRILL_METRIC : BR_DRILL_FRACTIONAL, diameter, s->bits, NULL);
  if (status == BR_OK && pair.has_above && pair.has_below)
    status = br_real_add (&sum, &pair.play_above, &pair.play_below);
  if (status == BR_OK)
    status = br_real_sign (&sign, &sum, s->bits);
  if (status == BR_OK && pair.has_above && pair.has_below && strcmp (pair.above.name, pair.below.name) == 0)
    br__text_printf (t, "drill %s", pair.above.name);
  else if (status == BR_OK)
    {
      /* Half way between two the larger: what turns in it must not bind.  */
      const br__drill *nearest = !pair.has_above ? NULL : sign > 0 && pair.has_below ? &pair.below : &pair.above;
      status = put_hole (t, diameter, s);
      if (nearest)
        br__text_printf (t, ", nearest drill %s", nearest->name);
      else
        br__text_puts (t, ", too large for a drill");
    }
  if (status == BR_OK && !metric && pair.has_above && (strcmp (s->unit->name, "in") != 0 || s->feet))
    br__text_puts (t, " in");
  br_real_clear (&sum);
  br__drill_pair_clear (&pair);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}

/* A hole is told by its drill instead of its name.  */
static br_status
name_hole (br__drawn *d, const br_sheet *sheet)
{
  br_real diameter = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  int slot = d->shape->kind == BR__LINE;
  const br__value *size = br__shape_value (sheet, d->shape, slot ? BR__SHAPE_C : BR__SHAPE_A);
  br_status status = !size ? BR_DOMAIN : slot ? br_real_set (&diameter, &size->real) : br_real_add (&diameter, &size->real, &size->real);
  br__text_puts (&t, slot ? "slot, " : "");
  if (status == BR_OK)
    status = put_drill (&t, &diameter, &sheet->settings);
  char *label = status == BR_OK ? br__strndup (br__text_string (&t), t.length) : NULL;
  if (status == BR_OK && !label)
    status = BR_NO_MEMORY;
  if (label)
    {
      br__free (d->label);
      d->label = label;
    }
  br_real_clear (&diameter);
  br__text_clear (&t);
  return status;
}

static br_status
name_holes (br__part_figure *f)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < f->view.count && status == BR_OK; i++)
    if (f->view.shapes[i].shape->hole)
      {
        status = name_hole (&f->view.shapes[i], f->run->sheet);
        f->holes++;
      }
    else if (f->view.shapes[i].copies && f->view.shapes[i].copies[0].shape->hole)
      f->holes += f->view.shapes[i].copy_count;
  return status;
}

/* 1 if CELL, "h1; rail, left; peg_2 to 7", has something of NAME.  */
static int
is_of (const char *cell, const char *name)
{
  const size_t length = strlen (name);
  for (const char *s = cell; s; s = strstr (s, "; "))
    {
      s += s == cell ? 0 : 2;
      if ((strncmp (s, name, length) == 0 && (!s[length] || strchr (";, ", s[length]))) || br__names_hold (s, name))
        return 1;
    }
  return 0;
}

/* A hole that the table has is to be found on the figure: its name stands before its drill.  */
static br_status
name_listed (br__part_figure *f)
{
  const br__view_at at = { &f->view, &f->level, &f->upright, 0, 0, 0 };
  br__place_table t = { NULL, 0, 0, 0 };
  br_status status = BR_OK;
  if (f->view.datum.found && f->holes)
    status = br__place_table_make (&t, f->run, &at, BR__PLACE_SHORT, 0);
  for (size_t i = 0; i < f->view.count && status == BR_OK; i++)
    {
      br__drawn *d = &f->view.shapes[i];
      br_text text = BR_TEXT_ZERO;
      for (size_t k = 0; k < t.count && d->shape->hole && !d->named; k++)
        d->named = is_of (t.rows[k].cell[BR__PLACE_OF], d->shape->name) || is_of (t.rows[k].cell[BR__PLACE_FROM], d->shape->name);
      if (!d->named)
        continue;
      br__text_printf (&text, "%s, %s", d->shape->name, d->label);
      char *label = text.failed ? NULL : br__strndup (br__text_string (&text), text.length);
      br__text_clear (&text);
      status = label ? BR_OK : BR_NO_MEMORY;
      if (label)
        {
          br__free (d->label);
          d->label = label;
        }
    }
  br__place_table_clear (&t);
  return status;
}

const char *
br__drill_of (const br__drawn *hole)
{
  return hole->label + (hole->named ? strlen (hole->shape->name) + 2 : 0);
}

/* ---- The figure ---- */

/* Length level, width upright.  */
static br_status
measure_outline (br__part_figure *f)
{
  const br__piece *p = f->piece;
  const br_number *sizes[] = { &p->size[BR__LENGTH_OF].value,
                               &p->size[p->wood->round ? BR__THICKNESS : BR__WIDTH].value };
  br__size_lines *const lines[] = { &f->level, &f->upright };
  int64_t *const reach[] = { &f->view.reach.x2, &f->view.reach.y2 };
  br_real inches = BR_REAL_ZERO;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      status = br_real_set_number (&inches, sizes[i]);
      if (status == BR_OK)
        status = br__to_paper (reach[i], &inches, f->ratio, 0);
      if (status == BR_OK)
        status = br__size_lines_of_outline (lines[i], f->run, f->name, *reach[i], &inches, i);
    }
  br_real_clear (&inches);
  return status;
}

static int64_t
larger (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

/* How far the figure reaches above its shapes, or below them.  */
static int64_t
margin_of (const br__part_figure *f, int above)
{
  return larger (larger (f->level.depth[above ? BR__FAR : BR__NEAR], above ? f->upright.after : f->upright.before), f->view.count ? ROOM : 0);
}

/* Rows of sheets that the figure takes, above its table, or would take with as little as possible around its shapes (BARE).  */
static int64_t
rows_of (const br__part_figure *f, int bare)
{
  const br__area r = f->view.reach;
  int64_t wide = r.x2 - r.x + 2 * ROOM, high = r.y2 - r.y + (bare ? 2 * ROOM : margin_of (f, 0) + margin_of (f, 1)) + LINE_HEIGHT / 2;
  const br__area *room = &f->room[wide > high];
  const int64_t step = larger (room->y2 - room->y - BR__JOIN, BR__JOIN);
  return high <= step + BR__JOIN ? 1 : (high - BR__JOIN + step - 1) / step;
}

/* A long part is not glued from more sheets for the sake of its dimension lines: they stand in fewer tiers, and the table has the
   rest, in a picture of one sheet, too: a template is the same in every form.  So many may be left to the table, or all stay: it would
   take a sheet of its own.  */
#define MOST_LISTED 2

static br_status
save_sheets (br__part_figure *f)
{
  br_status status = BR_OK;
  const int64_t least = rows_of (f, 1);
  for (int tiers = f->room[0].x2 ? BR__MOST_TIERS - 1 : -1; tiers >= 0 && status == BR_OK
         && (rows_of (f, 0) > least || (f->view.tiers && f->level.refused + f->level.left_out > MOST_LISTED)); tiers--)
    {
      f->view.tiers = tiers;    /* 0 in the end: all stay */
      status = br__size_lines_of_part (&f->level, f->run, &f->view, 0);
    }
  return status;
}

br_status
br__part_figure_measure (br__part_figure *f)
{
  if (!f->view.count)
    return measure_outline (f);
  br_status status = name_holes (f);
  if (status == BR_OK)
    status = br__size_lines_of_part (&f->level, f->run, &f->view, 0);
  if (status == BR_OK)
    status = br__size_lines_of_part (&f->upright, f->run, &f->view, 1);
  if (status == BR_OK)
    status = save_sheets (f);
  if (status == BR_OK)
    status = name_listed (f);
  return status;
}

static void
put_outline (br__part_figure *f, int64_t left, int64_t top)
{
  f->plot.group = BR__GROUP_OUTLINES;
  br__ink *ink = br__plot_add (&f->plot, BR__INK_BOX, BR__PEN_OUTLINE, left, top - f->view.reach.y2);
  ink->x2 = left + f->view.reach.x2;
  ink->y2 = top;
  br__ink_name (&f->plot, ink, f->name);
  f->plot.group = BR__GROUP_DIMENSIONS;
}

void
br__grain_plot (br__plot *p, int64_t x, int64_t y, int upright)
{
  const int64_t gap = upright ? BR__INCH / 8 : BR__INCH * 5 / 16;
  br__plot_text (p, x, y, BR_ALIGN_MIDDLE, BR__SIZE_TEXT, "grain");
  for (int side = -1; side <= 1; side += 2)
    {
      const int64_t from = side * gap, to = side * BR__GRAIN / 2;
      br__plot_line (p, BR__PEN_THIN, x + (upright ? 0 : from), y + (upright ? from : 0), x + (upright ? 0 : to), y + (upright ? to : 0), 0);
      br__ink *arrow = br__plot_add (p, BR__INK_ARROW, BR__PEN_THIN, x + (upright ? 0 : to), y + (upright ? to : 0));
      arrow->x2 = x;
      arrow->y2 = y;
    }
}

/* 1 where the part is drawn across its length: that is nearer to how high it is than to how wide.  */
static int
is_across (const br__part_figure *f)
{
  const br_real inches = { f->piece->size[BR__LENGTH_OF].value, NULL }; /* borrowed */
  const br__area r = f->view.reach;
  int64_t length = 0;
  return f->piece->size[BR__LENGTH_OF].known && br__to_paper (&length, &inches, f->ratio, 0) == BR_OK
         && llabs (r.y2 - r.y - length) < llabs (r.x2 - r.x - length);
}

/* Along the length of a board its grain runs: where nothing else is drawn on it.  */
static void
put_grain (br__part_figure *f, int64_t left, int64_t top)
{
  const br__area r = f->view.reach, within = { left + r.x, top - r.y2, left + r.x2, top - r.y };
  br__ink_map m;
  if (!f->piece || f->piece->wood->round)
    return;
  if (!br__ink_map_make (&m, &f->plot, within))
    {
      f->plot.failed = 1;
      return;
    }
  const int upright = is_across (f);
  const int64_t wide = upright ? BR__INCH / 2 : BR__GRAIN, high = upright ? BR__GRAIN : BR__INCH / 5;
  int64_t x = (within.x + within.x2 - wide) / 2, y = (within.y + within.y2 - high) / 2;
  br__ink_map_keep_joins (&m, &f->plot);
  f->grain = br__ink_map_is_free (&m, (br__area) { x - BR__FREE_AIR, y - BR__FREE_AIR, x + wide + BR__FREE_AIR, y + high + BR__FREE_AIR })
             || br__ink_map_place (&x, &y, &m, wide, high, 0);
  br__ink_map_clear (&m);
  if (f->grain)
    br__grain_plot (&f->plot, x + wide / 2, y + high / 2, upright);
}

/* 1 where P goes on a sheet of paper, upright or on its side (LANDSCAPE).  */
static int
fits (const br__part_figure *f, const br__plot *p, int landscape)
{
  const br__area *room = &f->room[landscape];
  return p->width <= room->x2 - room->x && p->height <= room->y2 - room->y;
}

/* The paper lies so that the figure goes on one sheet, or else as it does itself.  */
static void
find_sheets (br__part_figure *f)
{
  int landscape = f->plot.width > f->plot.height;
  if (f->joined && !fits (f, &f->plot, 0) && !fits (f, &f->plot, 1))
    br__plot_sheets (&f->plot, f->room[landscape].x2 - f->room[landscape].x, f->room[landscape].y2 - f->room[landscape].y);
}

/* The table on the sheet that the figure goes on, if there is room for all of it in some way; else below.  */
static br_status
put_table (br__part_figure *f, const br__view_at *at)
{
  br__plot *p = &f->plot;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      br__plot trial = { .width = p->width, .height = p->height, .face = p->face };
      if (!fits (f, p, i))
        continue;
      br__plot_join (&trial, p, 0, 0, 0, NULL);
      status = br__places_around (&trial, &f->unmeasured, f->run, at, f->room[i].x2 - f->room[i].x, f->room[i].y2 - f->room[i].y);
      int good = status == BR_OK && fits (f, &trial, i);
      br__plot_clear (good ? p : &trial);
      if (good)
        {
          *p = trial;
          return BR_OK;
        }
    }
  int64_t table = 0;
  br__area below = { 0, p->height + LINE_HEIGHT / 2, br__table_width (p, p->width), 0 };
  if (status == BR_OK)
    status = br__places_plot (p, &f->unmeasured, &table, f->run, at, below);
  p->height += table ? table + LINE_HEIGHT / 2 : 0;
  return status;
}

br_status
br__part_figure_plot (br__part_figure *f)
{
  br__plot *p = &f->plot;
  int64_t room = f->view.count ? ROOM : 0;
  const br__area reach = f->view.reach;
  int64_t left = larger (larger (f->upright.depth[BR__NEAR], f->level.before), room) - reach.x;
  int64_t top = margin_of (f, 1) + reach.y2;
  p->width = larger (p->width, left + reach.x2 + larger (larger (f->upright.depth[BR__FAR], f->level.after), room));
  p->group = BR__GROUP_DIMENSIONS;
  p->height = top - reach.y + margin_of (f, 0);
  p->face = (br__area) { left + reach.x, top - reach.y2, left + reach.x2, top - reach.y };
  find_sheets (f);
  if (f->view.count)
    br__view_plot (p, &f->view, left, top);
  else
    put_outline (f, left, top);
  br__size_lines_plot (p, &f->level, &f->view, left, top);
  br__size_lines_plot (p, &f->upright, &f->view, left, top);
  f->unlabelled = br__labels_plot (p, &f->view, (br__area) { 0, 0, p->width, p->height }, left, top);
  const br__view_at at = { &f->view, &f->level, &f->upright, left, top, 0 };
  br__datum_plot (p, &at);
  put_grain (f, left, top);
  br_status status = put_table (f, &at);
  return status != BR_OK ? br__fail_plain (f->run->error, status, 0, 0)
         : p->failed ? br__fail_plain (f->run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
}
