/* SPDX-License-Identifier: LGPL-3.0-or-later
   depth.c - how deep a shape is and where it lies in depth: `deep D from Z`, `centred`, `both sides TRACK`, and `behind SHAPE`.

   Depth is measured at a right angle to the side view: Z is 0 in the middle and grows toward the viewer.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/depth.h"

#define MOST_BEHIND 100         /* one another: each is looked for by its name */

/* ---- Reading ---- */

/* `both sides TRACK`, with `between` before it or behind it.  */
static br_status
read_both (br__run *run, br__shape_draft *d)
{
  br__need_word (run, "sides", "`sides`");
  d->depth = br__take_word (run, "between") ? BR__BETWEEN : BR__OUTSIDES;
  br__parse_size (&d->across, &run->lex, run->error);
  if (br__take_word (run, "between"))
    d->depth = BR__BETWEEN;
  return run->lex.status;
}

/* The position in depth must follow the depth directly, because an arc may have another `from`, for its start.  */
static br_status
read_deep (br__run *run, br__shape_draft *d)
{
  br__parse_size (&d->deep, &run->lex, run->error);
  d->depth = BR__CENTRED_DEPTH;
  if (br__take_word (run, "from"))
    {
      d->depth = BR__FROM_DEPTH;
      return br__parse_size (&d->across, &run->lex, run->error);
    }
  if (br__take_word (run, "both"))
    return read_both (run, d);
  if (!br__take_word (run, "centred"))
    (void) br__take_word (run, "centered");
  return run->lex.status;
}

/* 1 if S lies behind the shape NAME, or behind one that does; *COUNT gets how many were looked at.  */
static int
is_behind (size_t *count, const br_sheet *sheet, const br__shape *s, const char *name)
{
  for (*count = 0; *count < MOST_BEHIND && s && s->behind && strcmp (s->behind, name) != 0; ++*count)
    s = br__shape_find (sheet, s->behind, strlen (s->behind));
  return *count < MOST_BEHIND && s && s->behind;
}

static br_status
read_behind (br__run *run, br__shape *s)
{
  const br__token at = run->lex.token;
  br_status status = br__shape_read_name (&s->behind, run, "the name of a shape");
  if (status != BR_OK)
    return status;
  const br__shape *front = br__shape_find (run->sheet, s->behind, strlen (s->behind));
  size_t count = 0;
  if (strcmp (s->behind, s->name) == 0 || (front && is_behind (&count, run->sheet, front, s->name)))
    status = br__fail (run->error, BR_DOMAIN, at.offset, at.length, "`%.*s` lies behind `%.*s` itself",
                       BR__CLIP (s->behind, 40), BR__CLIP (s->name, 40));
  else if (count == MOST_BEHIND)
    status = br__fail (run->error, BR_TOO_BIG, at.offset, at.length, "more than %d shapes that lie behind one another", MOST_BEHIND);
  return status;
}

br_status
br__depth_read (br__run *run, br__shape_draft *d, br__shape *s, int *found)
{
  const br__token at = run->lex.token;
  *found = 1;
  if (!d->depth && br__take_word (run, "deep"))
    return read_deep (run, d);
  if (!s->behind && br__take_word (run, "behind"))
    return read_behind (run, s);
  *found = run->lex.status != BR_OK;
  if (!br__lex_is_word (&run->lex, "both") && !br__lex_is_word (&run->lex, "centred"))
    return run->lex.status;
  br__fail (run->error, BR_SYNTAX, at.offset, at.length, d->depth ? "this shape has its place in depth already"
                                                                  : "how deep it is comes first");
  br__hint (run->error, "deep 3/4 in both sides 7 in");
  return BR_SYNTAX;
}

/* ---- Formulas ---- */

int
br__depth_has (const br__shape_draft *d, int part)
{
  int both = d->depth == BR__OUTSIDES || d->depth == BR__BETWEEN;
  if (!d->depth)
    return 0;
  return part == BR__SHAPE_DEEP || part == (both ? BR__SHAPE_Z_BOTH : BR__SHAPE_Z);
}

void
br__put_depth_number (br__maker *m, const br__shape_draft *d, int part)
{
  if (part == BR__SHAPE_DEEP)
    {
      br__make_typed (m, &d->deep);
      br__make_call (m, BR__CALL_DEPTH);
      return;
    }
  if (d->depth == BR__CENTRED_DEPTH)
    {
      br__make_int (m, 0);
      br__make_call (m, BR__CALL_LENGTH);
      return;
    }
  br__make_typed (m, &d->across);
  if (d->depth == BR__FROM_DEPTH)
    br__make_call (m, BR__CALL_LENGTH);
  br__make_shape_number (m, d->name, d->name_length, BR__SHAPE_DEEP);
  if (d->depth != BR__FROM_DEPTH)
    {
      br__make_call (m, d->depth == BR__BETWEEN ? BR__CALL_BETWEEN : BR__CALL_TRACK);
      return;
    }
  br__make_int (m, 2);
  br__make_op (m, BR__OP_DIV);
  br__make_op (m, BR__OP_ADD);
}

/* ---- In words ---- */

const br__shape *
br__depth_source (const br_sheet *sheet, const br__shape *s)
{
  const br__shape *base;
  while (!s->depth && s->base && (base = br__shape_find (sheet, s->base, strlen (s->base))) != NULL)
    s = base;
  return s;
}

const br__value *
br__depth_of (const br_sheet *sheet, const br__shape *s)
{
  return br__shape_value (sheet, br__depth_source (sheet, s), BR__SHAPE_DEEP);
}

const br__value *
br__depth_middle (const br_sheet *sheet, const br__shape *s)
{
  s = br__depth_source (sheet, s);
  return br__shape_value (sheet, s, s->depth == BR__OUTSIDES || s->depth == BR__BETWEEN ? BR__SHAPE_Z_BOTH : BR__SHAPE_Z);
}

/* Z = the middle and SIGN halves of the depth; *KNOWN is 0 while one of them waits.  */
static br_status
depth_at (br__value *z, int *known, const br_sheet *sheet, const br__shape *s, int sign)
{
  const br__value *middle = br__depth_source (sheet, s)->depth ? br__depth_middle (sheet, s) : NULL, *deep = br__depth_of (sheet, s);
  br_real half = { { 2, 0 }, NULL };
  *known = middle && deep;
  if (!*known)
    return BR_OK;
  br_status status = br_real_div (&half, &deep->real, &half, sheet->settings.bits);
  if (status == BR_OK)
    status = sign < 0 ? br_real_sub (&z->real, &middle->real, &half) : br_real_add (&z->real, &middle->real, &half);
  z->dimension = BR_LENGTH;
  br_real_clear (&half);
  return status;
}

br_status
br__depth_ends (br__value *near, br__value *far, int *known, const br_sheet *sheet, const br__shape *s)
{
  br_status status = depth_at (near, known, sheet, s, 1);
  return status == BR_OK ? depth_at (far, known, sheet, s, -1) : status;
}

static br_status
put_length (br_text *t, const br_sheet *sheet, const br__value *v)
{
  if (v)
    return br__shown_about (t, v, &sheet->settings);
  br__text_putc (t, '?');
  return BR_OK;
}

br_status
br__put_depth_size (br_text *t, const br_sheet *sheet, const br__shape *s)
{
  if (!s->depth)
    return BR_OK;
  br__text_puts (t, ", ");
  br_status status = put_length (t, sheet, br__shape_value (sheet, s, BR__SHAPE_DEEP));
  br__text_puts (t, " deep");
  return status;
}

br_status
br__put_depth_place (br_text *t, const br_sheet *sheet, const br__shape *s)
{
  br__value near = BR__VALUE_ZERO, far = BR__VALUE_ZERO;
  int known = 0, outside = s->depth == BR__OUTSIDES;
  br_status status = BR_OK;
  if (s->depth > BR__CENTRED_DEPTH)
    status = br__depth_ends (&near, &far, &known, sheet, s);
  if (status == BR_OK && s->depth == BR__FROM_DEPTH)
    {
      br__text_puts (t, ", in depth from ");
      status = put_length (t, sheet, known ? &far : NULL);
    }
  else if (status == BR_OK && s->depth > BR__FROM_DEPTH)
    {
      br__value *whole = outside ? &near : &far;
      br__text_puts (t, ", on both sides, ");
      status = br_real_add (&whole->real, &whole->real, &whole->real);
      if (status == BR_OK)
        status = put_length (t, sheet, known ? whole : NULL);
      br__text_puts (t, outside ? " over the outsides" : " between them");
    }
  if (s->behind)
    br__text_printf (t, ", behind %s", s->behind);
  br__value_clear (&near);
  br__value_clear (&far);
  return status;
}

br_status
br__put_depth_fields (br_record *r, const br_sheet *sheet, const br__shape *s)
{
  br__value end[2] = { BR__VALUE_ZERO, BR__VALUE_ZERO };
  static const char *const keys[] = { "depth_to", "depth_from" };
  int known = 0;
  br_status status = br__depth_ends (&end[0], &end[1], &known, sheet, s);
  const br__value *deep = br__depth_of (sheet, s);
  const int depth = br__depth_source (sheet, s)->depth;
  for (int i = 0; i < 3 && status == BR_OK; i++)
    {
      const br__value *v = i == 2 ? deep : known ? &end[i] : NULL;
      br_real in_unit = BR_REAL_ZERO;
      status = v ? br__in_sheet_unit (&in_unit, v, &sheet->settings) : BR_OK;
      if (v && status == BR_OK)
        br__put_exact (r, i == 2 ? "deep" : keys[i], br_real_rational (&in_unit));
      br_real_clear (&in_unit);
    }
  if (depth)
    br__put_truth (r, "both_sides", depth > BR__FROM_DEPTH);
  if (s->behind)
    br__put_text (r, "behind", s->behind);
  br__value_clear (&end[0]);
  br__value_clear (&end[1]);
  return status;
}
