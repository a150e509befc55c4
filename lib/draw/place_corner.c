/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_corner.c - the corners of an outline as rows of the table below the figure: each from the lower left corner of the
   box around the outline, with its round or cut, and the rise of the side that ends in it.  Then the ends of arcs, and rows and
   mirrors, each told once.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/place_table.h"

/* A row with DIMENSION, which is emptied: of corner I, of those FOLLOWING that are alike, from FROM.  */
static br_status
add_row (br__place_table *t, br_text *dimension, const br__shape *s, br__corner_told what, size_t i, const char *following, const char *from)
{
  br_text cells[BR__PLACE_COLUMNS] = { *dimension, BR_TEXT_ZERO, BR_TEXT_ZERO };
  *dimension = (br_text) BR_TEXT_ZERO;
  br__text_printf (&cells[BR__PLACE_OF], "%s, %s %zu%s", s->name, what == BR__TOLD_SIDE ? "side to" : "corner", i + 1, following);
  br__text_printf (&cells[BR__PLACE_FROM], "%s, %s", s->name, from);
  br_status status = br__place_row_add (t, cells);
  for (int k = 0; k < BR__PLACE_COLUMNS; k++)
    br__text_clear (&cells[k]);
  return status;
}

/* 1 where the corners are those of the box around it, anticlockwise from the lower left one.  */
static int
is_box (br__run *run, const br__shape *s, size_t corners)
{
  static const int level[] = { BR__SHAPE_LEFT, BR__SHAPE_RIGHT, BR__SHAPE_RIGHT, BR__SHAPE_LEFT };
  static const int upright[] = { BR__SHAPE_BOTTOM, BR__SHAPE_BOTTOM, BR__SHAPE_TOP, BR__SHAPE_TOP };
  int alike = corners == 4;
  for (size_t i = 0; i < 8 && alike; i++)
    {
      br_real z = BR_REAL_ZERO;
      int sign = 1;
      alike = br__corner_number (&z, run->sheet, s, i / 2, i % 2 ? BR__CORNER_Y : BR__CORNER_X, (i % 2 ? upright : level)[i / 2]) == BR_OK
              && br_real_sign (&sign, &z, run->sheet->settings.bits) == BR_OK && sign == 0;
      br_real_clear (&z);
    }
  return alike;
}

/* Rounds and cuts of one size are told together.  */
static br_status
add_treatments (br__place_table *t, br__run *run, const br__shape *s, size_t corners, br__corner_told what)
{
  br_status status = BR_OK;
  unsigned char done[BR__MOST_CORNERS] = { 0 };
  for (size_t i = 0; i < corners && status == BR_OK; i++)
    {
      br_text text = BR_TEXT_ZERO, alike = BR_TEXT_ZERO, other = BR_TEXT_ZERO;
      status = done[i] ? BR_OK : br__put_corner (&text, run->sheet, s, i, what);
      for (size_t k = i + 1; k < corners && text.length && status == BR_OK; k++)
        {
          br__text_reset (&other);
          status = br__put_corner (&other, run->sheet, s, k, what);
          if (!done[k] && strcmp (br__text_string (&other), br__text_string (&text)) == 0)
            {
              br__text_printf (&alike, "; %zu", k + 1);
              done[k] = 1;
            }
        }
      if (text.length && status == BR_OK)
        status = add_row (t, &text, s, what, i, br__text_string (&alike), what == BR__TOLD_SIDE ? "its chord" : "its sides");
      br__text_clear (&text);
      br__text_clear (&alike);
      br__text_clear (&other);
    }
  return status;
}

/* How far S is turned, and where its corners are before that.  */
static br_status
add_turned (br__place_table *t, br__run *run, const br__shape *s, size_t corners)
{
  br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
  const br__value *turn = br__shape_value (run->sheet, s, BR__SHAPE_C);
  br_status status = br__put_real_decimal (&cells[0], NULL, &turn->real, 7, run->sheet->settings.bits);
  br__text_puts (&cells[0], "°, turned");
  br__text_puts (&cells[BR__PLACE_OF], s->name);
  br__text_puts (&cells[BR__PLACE_FROM], "its middle, anticlockwise");
  if (status == BR_OK)
    status = br__place_row_add (t, cells);
  for (int k = 0; k < BR__PLACE_COLUMNS; k++)
    br__text_clear (&cells[k]);
  for (size_t i = 1; i < corners && status == BR_OK; i++)
    {
      br_text text = BR_TEXT_ZERO;
      status = br__tell_corner_number (&text, "", run->sheet, s, i, BR__CORNER_X, BR__CORNER_PART (0, BR__CORNER_X));
      if (status == BR_OK)
        status = br__tell_corner_number (&text, " across, ", run->sheet, s, i, BR__CORNER_Y, BR__CORNER_PART (0, BR__CORNER_Y));
      br__text_puts (&text, " up");
      if (status == BR_OK)
        status = add_row (t, &text, s, BR__TOLD_PLACE, i, "", "corner 1, unturned");
      br__text_clear (&text);
    }
  for (br__corner_told what = BR__TOLD_CORNER; what <= BR__TOLD_SIDE && status == BR_OK; what++)
    status = add_treatments (t, run, s, corners, what);
  return status;
}

br_status
br__place_corners (br__place_table *t, br__run *run, const br__drawn *d)
{
  const br__shape *s = d->shape;
  size_t corners = br__shape_corners (run->sheet->graph, s->name, strlen (s->name));
  int box = is_box (run, s, corners);
  const br_number *turn = br_real_rational (&br__shape_value (run->sheet, s, BR__SHAPE_C)->real);
  if (!turn || br_number_sign (turn) != 0)
    return add_turned (t, run, s, corners);
  br_text text = BR_TEXT_ZERO;
  br_status status = BR_OK;
  if (box)
    {
      br__text_puts (&text, "rectangle");
      status = add_row (t, &text, s, BR__TOLD_PLACE, 0, " to 4", "left and bottom");
    }
  for (size_t i = 0; i < corners && !box && status == BR_OK; i++)
    {
      status = br__put_corner (&text, run->sheet, s, i, BR__TOLD_PLACE);
      if (status == BR_OK)
        status = add_row (t, &text, s, BR__TOLD_PLACE, i, "", "left and bottom");
    }
  br__text_clear (&text);
  for (br__corner_told what = BR__TOLD_CORNER; what <= BR__TOLD_SIDE && status == BR_OK; what++)
    status = add_treatments (t, run, s, corners, what);
  return status;
}

/* ---- Arcs, rows and mirrors ---- */

/* Where the ends of an arc are.  */
br_status
br__place_angles (br__place_table *t, br__run *run, const br__drawn *d)
{
  br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
  const br__value *from = br__shape_value (run->sheet, d->shape, BR__SHAPE_C), *turn = br__shape_value (run->sheet, d->shape, BR__SHAPE_D);
  br_real to = BR_REAL_ZERO;
  br_status status = from && turn ? br_real_add (&to, &from->real, &turn->real) : BR_DOMAIN;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      char text[40];
      int whole = 0;
      size_t n = br_real_write_decimal (text, sizeof text, &whole, i ? &to : &from->real, 7, run->sheet->settings.bits, &status);
      if (status == BR_OK && n < sizeof text)
        br__text_printf (&cells[0], "%s%s%s\xC2\xB0", i ? " to " : "", whole ? "" : "\xE2\x89\x88", text);
    }
  br_real_clear (&to);
  br__text_printf (&cells[1], "%s, ends", d->shape->name);
  br__text_puts (&cells[2], "right, anticlockwise");
  if (status == BR_OK)
    return br__place_row_add (t, cells);
  for (int i = 0; i < BR__PLACE_COLUMNS; i++)
    br__text_clear (&cells[i]);
  return status == BR_NO_MEMORY ? status : BR_OK;
}

/* The step of a row, a way that it does not go left out.  */
static br_status
put_step (br_text *t, br__run *run, const br__shape *s)
{
  static const char *const words[] = { " across", " up" };
  br_status status = BR_OK;
  int any = 0;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      const br__value *v = br__shape_value (run->sheet, s, i ? BR__SHAPE_C : BR__SHAPE_B);
      const br_number *q = br_real_rational (&v->real);
      if (q && br_number_sign (q) == 0)
        continue;
      br__text_puts (t, any++ ? ", " : "");
      status = br__put_drawing_number (t, &v->real, &run->sheet->settings);
      br__text_puts (t, words[i]);
    }
  return status;
}

/* A row is told once: how many, and the step; a mirror by its axis, from the DATUM.  */
br_status
br__place_copies (br__place_table *t, br__run *run, const br__shape *s, const br_real *datum)
{
  br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
  br_real at = BR_REAL_ZERO;
  br_status status;
  if (s->kind == BR__ROW)
    {
      br__text_printf (&cells[BR__PLACE_DIMENSION], "%d × ", br__row_places (run->sheet, s));
      status = put_step (&cells[BR__PLACE_DIMENSION], run, s);
      br__text_puts (&cells[BR__PLACE_OF], s->name);
      br__text_puts (&cells[BR__PLACE_FROM], s->base);
    }
  else
    {
      status = br_real_sub (&at, &br__shape_value (run->sheet, s, BR__SHAPE_A)->real, datum);
      if (status == BR_OK)
        status = br__put_drawing_number (&cells[BR__PLACE_DIMENSION], &at, &run->sheet->settings);
      br__text_puts (&cells[BR__PLACE_DIMENSION], " across");
      br__text_printf (&cells[BR__PLACE_OF], "%s, mirror of %s", s->name, s->base);
      br__text_puts (&cells[BR__PLACE_FROM], "datum");
    }
  br_real_clear (&at);
  if (status == BR_OK)
    return br__place_row_add (t, cells);
  for (int i = 0; i < BR__PLACE_COLUMNS; i++)
    br__text_clear (&cells[i]);
  return status;
}
