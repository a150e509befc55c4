/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_show.c - shapes as records and in words, what they wait for, and the distance of two.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shape/depth.h"
#include "sheet/caution.h"

/* ---- What it waits for ---- */

size_t
br__shape_waiting (br_list *waiting, const br_sheet *sheet, const br__shape *s)
{
  size_t count = s->loose;
  if (s->loose)
    br__list_text (waiting, "a place");
  for (int i = BR__SHAPE_KIND; i; i = br__shape_next_part (sheet->graph, s->name, strlen (s->name), i))
    {
      br__entry *e = br__shape_entry (sheet->graph, s->name, strlen (s->name), i);
      const br__definition *d = e ? br__entry_definition (e) : NULL;
      for (size_t k = 0; d && !br__entry_value (e) && k < d->edge_count; k++)
        if (!br__entry_value (d->edges[k].used) && !br__is_of_shape (d->edges[k].used, s->name, strlen (s->name)))
          {
            if (waiting)
              br__list_entry_once (waiting, d->edges[k].used);
            count++;
          }
    }
  return count;
}

/* ---- In words ---- */

/* " WORD 3-1/2"" of number PART, with number PLUS (unless 0) added, doubled where TWICE is 1; less number PLUS where it is
   -1; ? while it waits.  */
static br_status
put_number (br_text *t, const char *before, const br_sheet *sheet, const br__shape *s, int part, int plus,
            int twice)
{
  const br__value *v = br__shape_value (sheet, s, part);
  const br__value *w = plus ? br__shape_value (sheet, s, plus) : NULL;
  br__value sum = BR__VALUE_ZERO;
  br_status status = BR_OK;
  if (!v || (plus && !w))
    {
      br__text_printf (t, "%s?", before);
      return BR_OK;
    }
  status = br__value_set (&sum, v);
  if (status == BR_OK && w)
    status = twice < 0 ? br_real_sub (&sum.real, &sum.real, &w->real) : br_real_add (&sum.real, &sum.real, &w->real);
  if (status == BR_OK && twice > 0)
    status = br_real_add (&sum.real, &sum.real, &sum.real);
  br__text_puts (t, before);
  if (status == BR_OK)
    status = br__shown_about (t, &sum, &sheet->settings);
  br__value_clear (&sum);
  return status;
}

static int
is_zero (const br_sheet *sheet, const br__shape *s, int part)
{
  const br__value *v = br__shape_value (sheet, s, part);
  const br_number *q = v ? br_real_rational (&v->real) : NULL;
  return q && br_number_sign (q) == 0;
}

/* A box with corners that are no corners any more, or that is turned.  */
static br_status
put_box_words (br_text *t, const br_sheet *sheet, const br__shape *s)
{
  int treated = 0;
  br_status status = put_number (t, "", sheet, s, BR__SHAPE_B, 0, 0);
  if (status == BR_OK)
    status = put_number (t, " x ", sheet, s, BR__SHAPE_D, 0, 0);
  for (size_t i = 0; i < 4; i++)
    {
      int cut = BR__CORNER_PART (i, BR__CORNER_CUT);
      treated |= !is_zero (sheet, s, cut) && br__shape_value (sheet, s, cut);
    }
  br__text_puts (t, treated ? ", corners rounded or cut" : "");
  if (status == BR_OK && br__shape_value (sheet, s, BR__SHAPE_C) && !is_zero (sheet, s, BR__SHAPE_C))
    status = put_number (t, ", turned ", sheet, s, BR__SHAPE_C, 0, 0);
  return status;
}

/* Without its depth.  */
static br_status
put_size (br_text *t, const br_sheet *sheet, const br__shape *s)
{
  br_status status = BR_OK;
  switch (s->kind)
    {
    case BR__CIRCLE:
      return put_number (t, s->hole ? "hole " : "diameter ", sheet, s, BR__SHAPE_A, 0, 1);
    case BR__BOX:
      status = put_number (t, "", sheet, s, BR__SHAPE_A, 0, 0);
      return status == BR_OK ? put_number (t, " x ", sheet, s, BR__SHAPE_B, 0, 0) : status;
    case BR__ARC:
      if (s->word)
        {
          status = put_number (t, "diameter ", sheet, s, BR__SHAPE_B, 0, 1);
          return status == BR_OK ? put_number (t, ", hole ", sheet, s, BR__SHAPE_A, 0, 1) : status;
        }
      status = put_number (t, "radius ", sheet, s, BR__SHAPE_A, 0, 0);
      if (status == BR_OK)
        status = put_number (t, " to ", sheet, s, BR__SHAPE_B, 0, 0);
      return status == BR_OK ? put_number (t, ", turns ", sheet, s, BR__SHAPE_D, 0, 0) : status;
    case BR__LINE:
      status = put_number (t, s->hole ? "slot, runs " : "runs ", sheet, s, BR__SHAPE_A, 0, 0);
      return status == BR_OK ? put_number (t, ", rises ", sheet, s, BR__SHAPE_B, 0, 0) : status;
    case BR__OUTLINE:
      if (s->word)
        return put_box_words (t, sheet, s);
      br__text_printf (t, "%d corners, ", (int) br__shape_corners (sheet->graph, s->name, strlen (s->name)));
      status = put_number (t, "", sheet, s, BR__SHAPE_RIGHT, BR__SHAPE_LEFT, -1);
      return status == BR_OK ? put_number (t, " x ", sheet, s, BR__SHAPE_TOP, BR__SHAPE_BOTTOM, -1) : status;
    case BR__ROW:
      status = put_number (t, "", sheet, s, BR__SHAPE_A, 0, 0);
      br__text_printf (t, " of %s", s->base);
      if (status == BR_OK)
        status = put_number (t, ", by ", sheet, s, BR__SHAPE_B, 0, 0);
      return status == BR_OK && !is_zero (sheet, s, BR__SHAPE_C) ? put_number (t, ", ", sheet, s, BR__SHAPE_C, 0, 0) : status;
    case BR__MIRROR:
      br__text_printf (t, "of %s", s->base);
      return put_number (t, ", about ", sheet, s, BR__SHAPE_A, 0, 0);
    }
  return status;
}

br_status
br__shape_size_words (br_text *t, const br_sheet *sheet, const br__shape *s)
{
  br_status status = put_size (t, sheet, s);
  return status == BR_OK ? br__put_depth_size (t, sheet, s) : status;
}

br_status
br__shape_place_words (br_text *t, const br_sheet *sheet, const br__shape *s)
{
  int box = s->kind == BR__BOX || s->kind == BR__OUTLINE || br__is_copy (s->kind);
  br_status status = put_number (t, box ? "corner at " : s->kind == BR__LINE ? "middle at " : "centre at ",
                                 sheet, s, BR__SHAPE_X, box ? BR__SHAPE_LEFT : 0, 0);
  if (status == BR_OK)
    status = put_number (t, ", ", sheet, s, BR__SHAPE_Y, box ? BR__SHAPE_BOTTOM : 0, 0);
  return status == BR_OK ? br__put_depth_place (t, sheet, s) : status;
}

/* ---- Records ---- */

/* KEY of Z, a decimal: nothing where no digit of it is certain.  */
static br_status
put_decimal_field (br_record *r, const char *key, const br_real *z, const br__settings *s)
{
  br_text digits = BR_TEXT_ZERO;
  br_status status = br__put_real_decimal (&digits, NULL, z, 12, s->bits);
  if (status == BR_OK)
    br__put_from (r, key, &digits);
  br__text_clear (&digits);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* Number PART, doubled where TWICE is 1, less number LESS where that is not 0; nothing while it waits.  DECIMAL is the key
   of its decimal, or NULL.  */
static br_status
put_value_field (br_record *r, const char *key, const char *decimal, const br_sheet *sheet, const br__shape *s, int part,
                 int twice, int less)
{
  const br__value *v = br__shape_value (sheet, s, part), *w = less ? br__shape_value (sheet, s, less) : NULL;
  int known = v && (!less || w);
  br__value z = BR__VALUE_ZERO;
  br_real in_unit = BR_REAL_ZERO;
  br_status status = known ? br__value_set (&z, v) : BR_OK;
  if (status == BR_OK && known && less)
    status = br_real_sub (&z.real, &z.real, &w->real);
  if (status == BR_OK && twice)
    status = br_real_add (&z.real, &z.real, &z.real);
  if (status == BR_OK)
    status = br__in_sheet_unit (&in_unit, &z, &sheet->settings);
  br__put_exact (r, key, known && status == BR_OK ? br_real_rational (&in_unit) : NULL);
  if (status == BR_OK && known && decimal)
    status = put_decimal_field (r, decimal, &in_unit, &sheet->settings);
  br_real_clear (&in_unit);
  br__value_clear (&z);
  return status;
}

static br_status
put_values (br_record *r, const br_sheet *sheet, const br__shape *s)
{
  /* Kind 0: every shape has it.  */
  static const struct { br__shape_kind kind; const char *key, *decimal; int part, twice, less; } rows[] =
  {
    { 0, "x", "x_decimal", BR__SHAPE_X, 0, 0 },
    { 0, "y", "y_decimal", BR__SHAPE_Y, 0, 0 },
    { BR__CIRCLE, "diameter", "diameter_decimal", BR__SHAPE_A, 1, 0 },
    { BR__BOX, "width", "width_decimal", BR__SHAPE_A, 0, 0 },
    { BR__BOX, "height", "height_decimal", BR__SHAPE_B, 0, 0 },
    { BR__ARC, "inner_radius", "inner_radius_decimal", BR__SHAPE_A, 0, 0 },
    { BR__ARC, "outer_radius", "outer_radius_decimal", BR__SHAPE_B, 0, 0 },
    { BR__ARC, "from", "from_decimal", BR__SHAPE_C, 0, 0 },
    { BR__ARC, "turn", "turn_decimal", BR__SHAPE_D, 0, 0 },
    { BR__LINE, "run", "run_decimal", BR__SHAPE_A, 0, 0 },
    { BR__LINE, "rise", "rise_decimal", BR__SHAPE_B, 0, 0 },
    { BR__LINE, "width", "width_decimal", BR__SHAPE_C, 0, 0 },
    { BR__OUTLINE, "width", "width_decimal", BR__SHAPE_RIGHT, 0, BR__SHAPE_LEFT },
    { BR__OUTLINE, "height", "height_decimal", BR__SHAPE_TOP, 0, BR__SHAPE_BOTTOM },
    { BR__ROW, "places", NULL, BR__SHAPE_A, 0, 0 },
    { BR__ROW, "step_x", NULL, BR__SHAPE_B, 0, 0 },
    { BR__ROW, "step_y", NULL, BR__SHAPE_C, 0, 0 },
    { BR__ROW, "width", "width_decimal", BR__SHAPE_RIGHT, 0, BR__SHAPE_LEFT },
    { BR__ROW, "height", "height_decimal", BR__SHAPE_TOP, 0, BR__SHAPE_BOTTOM },
    { BR__MIRROR, "about", NULL, BR__SHAPE_A, 0, 0 },
    { BR__MIRROR, "width", "width_decimal", BR__SHAPE_RIGHT, 0, BR__SHAPE_LEFT },
    { BR__MIRROR, "height", "height_decimal", BR__SHAPE_TOP, 0, BR__SHAPE_BOTTOM },
    { BR__OUTLINE, "corners", NULL, BR__SHAPE_A, 0, 0 },
    { 0, "area", "area_decimal", BR__SHAPE_AREA, 0, 0 },
    { 0, "perimeter", "perimeter_decimal", BR__SHAPE_PERIMETER, 0, 0 }
  };
  br_status status = BR_OK;
  for (size_t i = 0; i < sizeof rows / sizeof rows[0] && status == BR_OK; i++)
    if (!rows[i].kind || rows[i].kind == s->kind)
      status = put_value_field (r, rows[i].key, rows[i].decimal, sheet, s, rows[i].part, rows[i].twice, rows[i].less);
  return status;
}

br_status
br__shape_show (br__run *run, const br__shape *s)
{
  const br_sheet *sheet = run->sheet;
  br_text t = BR_TEXT_ZERO;
  br_record *r = br__record_new ("shape");
  size_t waits = br__shape_waiting (NULL, sheet, s);
  br__put_text (r, "name", s->name);
  br__put_text (r, "shape", br__shape_statement (s));
  br__put_text (r, "state", waits ? "waiting" : "placed");
  br__shape_waiting (br__put_list (r, "waiting"), sheet, s);
  br__put_text (r, "anchor", s->kind == BR__LINE ? "middle" : s->kind == BR__OUTLINE ? "origin of its corners" : "centre");
  br_status status = br__shape_size_words (&t, sheet, s);
  if (status == BR_OK)
    {
      br__put_from (r, "size", &t);
      status = br__shape_place_words (&t, sheet, s);
    }
  if (status == BR_OK)
    {
      br__put_from (r, "place", &t);
      status = put_values (r, sheet, s);
    }
  if (status == BR_OK)
    status = br__put_depth_fields (r, sheet, s);
  if (s->base)
    br__put_text (r, "copy_of", s->base);
  if (s->layer)
    br__put_text (r, "layer", s->layer);
  if (s->of)
    br__put_text (r, "of", s->of);
  if (s->kind == BR__CIRCLE || s->kind == BR__LINE)
    br__put_truth (r, "hole", s->hole);
  br__put_text (r, "note", s->note);
  br__text_clear (&t);
  return br__emit_or_fail (run, r, status, 0, 0);
}

br_status
br__do_shapes (br__run *run)
{
  br_status status = br__end_of_line (run);
  size_t count = 0;
  for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
    if (s->active)
      {
        status = br__shape_show (run, s);
        count++;
      }
  if (status == BR_OK && !count)
    status = br__remark (run, "no shape has been drawn yet");
  return status;
}

/* ---- clear A, B ---- */

/* A shape alone has no distance: a hint of the first other one.  */
static br_status
lacks_second (br__run *run, const br__token *name)
{
  const br__shape *other = run->sheet->shapes;
  const int ends = run->lex.token.type == BR__END;
  br__expected (run, "a comma and another shape");
  while (other && (!other->active || (strlen (other->name) == name->length && memcmp (other->name, run->text + name->offset, name->length) == 0)))
    other = other->next;
  if (ends && other && br__shape_find (run->sheet, run->text + name->offset, name->length))
    br__hint (run->error, "write `clear %.*s, %.*s`", br__clip (run->text + name->offset, name->length, 40), run->text + name->offset,
              BR__CLIP (other->name, 40));
  return BR_SYNTAX;
}

/* Two names with a comma between them.  */
static br_status
read_two (br__run *run, br__token name[2])
{
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      if (i && !br__lex_is_sign (&run->lex, ','))
        return run->lex.status != BR_OK ? run->lex.status : lacks_second (run, &name[0]);
      if (i)
        status = br__lex_next (&run->lex, run->error);
      name[i] = run->lex.token;
      if (status == BR_OK && name[i].type != BR__NAME)
        return br__expected (run, "the name of a shape");
      if (status == BR_OK)
        status = br__lex_next (&run->lex, run->error);
    }
  return status == BR_OK ? br__end_of_line (run) : status;
}

static br_status
emit_clear (br__run *run, const br__value *v, const br__token name[2])
{
  int sign = 0;
  br_record *r = br__record_new ("clear");
  br_list *shapes = br__put_list (r, "shapes");
  for (int i = 0; i < 2; i++)
    br__list_bytes (shapes, run->text + name[i].offset, name[i].length);
  br_status status = br_real_sign (&sign, &v->real, run->sheet->settings.bits);
  br__put_truth (r, "overlap", sign < 0);
  if (status == BR_OK)
    status = br__put_clear_along (r, run->sheet, br__shape_find (run->sheet, run->text + name[0].offset, name[0].length),
                                  br__shape_find (run->sheet, run->text + name[1].offset, name[1].length), v);
  if (status == BR_OK)
    status = br__put_value (r, v, &run->sheet->settings);
  if (status == BR_OK)
    status = br__put_on_ruler (r, v, &run->sheet->settings);
  return br__emit_or_fail (run, r, status, 0, 0);
}

br_status
br__do_clear (br__run *run)
{
  br__value v = BR__VALUE_ZERO;
  br_text call = BR_TEXT_ZERO;
  br__token name[2];
  size_t start = run->lex.token.offset, end;
  br_status status;
  /* With brackets it is an expression.  */
  if (br__lex_is_sign (&run->lex, '('))
    {
      status = br__lex_start (&run->lex, run->text, run->end, run->error);
      return status == BR_OK ? br__do_show (run) : status;
    }
  status = read_two (run, name);
  if (status != BR_OK)
    return status;
  end = name[1].offset + name[1].length;
  br__text_printf (&call, "(%.*s)", (int) (end - start), run->text + start);
  br__node node = { .op = BR__OP_NAME, .length = call.length, .word_length = call.length, .part = BR__SHAPE_CLEAR };
  br__tree tree = { .text = call.bytes, .length = call.length, .base = start, .nodes = &node, .count = 1, .deepest = 1 };
  status = call.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : br__value_of (&v, run, &tree);
  if (status == BR_OK)
    status = emit_clear (run, &v, name);
  if (status == BR_OK)
    status = br__caution_tree (run, &tree);
  else if (run->error)
    run->error->offset = start, run->error->length = end - start;
  br__value_clear (&v);
  br__text_clear (&call);
  return status;
}
