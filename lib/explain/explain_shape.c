/* SPDX-License-Identifier: LGPL-3.0-or-later
   explain_shape.c - explains questions about shapes with formulas that could be typed: right(deck) is
   centre_x(deck) + w / 2.  The formulas of shapes are hidden; here they are written as text of the language, which
   is then explained like any formula.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "explain/explain_private.h"
#include "geometry/geometry.h"
#include "geometry/shape_call.h"
#include "sheet/hidden.h"

int
br__explain_is_side (const br__tree *t, const br__node *n)
{
  return n->op == BR__OP_NAME && n->part && n + 2 < t->nodes + t->count && n[1].part && n[1].word == n->word;
}

int
br__explain_is_part (const br__tree *t, const br__node *n)
{
  return n->op == BR__OP_NAME && n->part && t->text[n->word] == '(';
}

static int
is_zero (const item *x)
{
  const br_number *q = br_real_rational (&x->value.real);
  return q && br_number_sign (q) == 0;
}

static br_status
take (item *z, const item *x, explainer *e)
{
  br__text_puts (&z->text, br__text_string (&x->text));
  z->binds = x->binds;
  br__explain_whole (e, &z->text);
  return BR_OK;
}

/* "right(deck)", and from which centre it is: "centre_x(deck)".  */
static void
put_side (br_text *side, br_text *centre, int part, const char *name, int length)
{
  static const char *const words[] = { "right", "top", "left", "bottom" };
  unsigned way = (unsigned) (part - BR__SHAPE_RIGHT) % 4;
  if (side)
    br__text_printf (side, "%s(%.*s)", words[way], length, name);
  if (centre)
    br__text_printf (centre, "%s(%.*s)", way % 2 ? "centre_y" : "centre_x", length, name);
}

/* How PART of the shape that LENGTH bytes at NAME call is written: a place by its name, a size by its formula,
   how far an arc or a line reaches by its side.  */
static br_status
put_part (explainer *x, br__entry *e, int part, const char *name, int length, item *made)
{
  const br__definition *d = e ? br__entry_definition (e) : NULL;
  const br__value *v = e ? br__entry_value (e) : NULL;
  br_status status = v && d ? br__value_set (&made->value, v) : BR_DOMAIN;
  if (status != BR_OK)
    return status;
  const br__node *root = &d->tree.nodes[d->tree.count - 1];
  if (part == BR__SHAPE_X || part == BR__SHAPE_Y)
    put_side (NULL, &made->text, part == BR__SHAPE_X ? BR__SHAPE_RIGHT : BR__SHAPE_TOP, name, length);
  else if (part >= BR__SHAPE_RIGHT && part <= BR__SHAPE_BOTTOM && root->function == br__shape_function (BR__CALL_REACH))
    {
      br_text centre = BR_TEXT_ZERO;
      put_side (&made->text, &centre, part, name, length);
      br__text_printf (&made->text, " - %s", br__text_string (&centre));
      made->text.failed |= centre.failed;
      br__text_clear (&centre);
      made->binds = BINDS_SUM;
    }
  else if (part != BR__SHAPE_KIND)
    {
      br__value_clear (&made->value);
      status = br__explain_tree (x, &d->tree, BR__WALK_NAMES, made);
    }
  br__explain_whole (x, &made->text);
  return status;
}

br_status
br__explain_part (explainer *x, const br__tree *t, const br__node *n, item *made)
{
  const char *name[2];
  int length[2];
  br__node_shapes (name, length, t, n);
  return put_part (x, br__node_entry (x->run->sheet->graph, t, n, 0), (int) n->part, name[0], length[0], made);
}

/* -X, without brackets around a product.  */
static void
compose_minus (item *made, const item *o)
{
  br__text_printf (&made->text, o->binds < BINDS_PRODUCT ? "-(%s)" : "-%s", br__text_string (&o->text));
  made->text.failed |= o->text.failed;
  made->binds = BINDS_SIGN;
}

/* Writes a sum or difference without zero terms; subtracting a negative number is written as adding.  */
static void
compose_sum (item *made, const br__node *n, const item *o, explainer *x)
{
  br__node sign = { .op = n->op, .count = 2 };
  item right = ITEM_ZERO;
  take (&right, &o[1], x);
  if (right.binds == BINDS_SIGN && right.text.length)
    {
      sign.op = n->op == BR__OP_ADD ? BR__OP_SUB : BR__OP_ADD;
      br__text_reset (&right.text);
      br__text_puts (&right.text, br__text_string (&o[1].text) + 1);
      right.binds = BINDS_PRODUCT;
    }
  item parts[2] = { o[0], right };      /* borrowed */
  if (is_zero (&o[1]))
    take (made, &o[0], x);
  else if (!is_zero (&o[0]))
    made->binds = br__explain_compose (&made->text, &sign, parts);
  else if (sign.op == BR__OP_ADD)
    take (made, &right, x);
  else
    compose_minus (made, &right);
  br__explain_clear (&right);
}

/* Z, empty, gets O as a length.  */
static br_status
take_length (item *z, const item *o, explainer *x)
{
  take (z, o, x);
  br_status status = br__value_set (&z->value, &o->value);
  const char *text = br__text_string (&z->text);
  int minus = z->binds == BINDS_SIGN && *text == '-' && !strchr (text, '^');
  int number = (minus || z->binds >= BINDS_MIXED) && text[minus] && strchr ("0123456789.", text[minus]);
  return status == BR_OK && z->value.dimension == BR_PLAIN ? br__explain_length (z, !number, x) : status;
}

/* A call that checks a size and makes it a length, or adds a fender's gap to its wheel's radius.  */
static br_status
take_call (explainer *x, const br__node *n, const item *o, item *made)
{
  static const br__node plus = { .op = BR__OP_ADD, .count = 2 };
  item length = ITEM_ZERO;
  int fender = n->function == br__shape_function (BR__CALL_FENDER), step = n->function == br__shape_function (BR__CALL_STEP);
  if (!fender && !step && n->count > 1 && n->function != br__shape_function (BR__CALL_RUN))
    return BR_DOMAIN;           /* measured, not a formula */
  if (!fender && made->value.dimension != BR_LENGTH)
    return take (made, &o[0], x);
  br_status status = take_length (&length, &o[fender ? 2 : step], x);
  if (fender)
    {
      item parts[2] = { o[1], length };    /* borrowed */
      compose_sum (made, &plus, parts, x);
    }
  else
    take (made, &length, x);
  br__explain_clear (&length);
  return status;
}

br_status
br__explain_hidden (explainer *x, const br__node *n, const item *o, item *made)
{
  br_status status = br__explain_work_out (&made->value, x, n, o);
  if (status == BR_OK && n->op == BR__OP_CALL)
    status = take_call (x, n, o, made);
  else if (status == BR_OK && is_zero (made))
    status = br__explain_written (made, x);
  else if (n->op == BR__OP_ADD || n->op == BR__OP_SUB)
    compose_sum (made, n, o, x);
  else if (n->op == BR__OP_NEG)
    compose_minus (made, o);
  else
    made->binds = br__explain_compose (&made->text, n, o);
  br__explain_whole (x, &made->text);
  return status;
}

/* "sqrt((centre_x(front) - centre_x(rear))^2 + ...) - 8" / 2 - 6" / 2": circles alone have it in one formula.  */
static br_status
put_distance (br_text *t, explainer *x, const char *name[2], const int length[2])
{
  br__graph *g = x->run->sheet->graph;
  br_status status = BR_OK;
  br_text ends = BR_TEXT_ZERO;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      item radius = ITEM_ZERO;
      status = put_part (x, br__shape_entry (g, name[i], (size_t) length[i], BR__SHAPE_A), BR__SHAPE_A, name[i], length[i],
                         &radius);
      br__text_printf (&ends, radius.binds < BINDS_PRODUCT ? " - (%s)" : " - %s", br__text_string (&radius.text));
      br__explain_clear (&radius);
    }
  br__text_printf (t, "sqrt((centre_x(%.*s) - centre_x(%.*s))^2 + (centre_y(%.*s) - centre_y(%.*s))^2)%s", length[0],
                   name[0], length[1], name[1], length[0], name[0], length[1], name[1], br__text_string (&ends));
  t->failed |= ends.failed;
  br__text_clear (&ends);
  return status;
}

/* 1 if the shape is of KIND, or of OTHER.  */
static int
is_kind (explainer *x, const char *name, int length, br__shape_kind kind, br__shape_kind other)
{
  br__entry *e = br__shape_entry (x->run->sheet->graph, name, (size_t) length, BR__SHAPE_KIND);
  const br__value *v = e ? br__entry_value (e) : NULL;
  int64_t n = 0, d = 1;
  return v && br_number_get_ratio (&n, &d, &v->real.rational) && (n == (int64_t) kind || n == (int64_t) other);
}

/* Adds number PART of the row or mirror NAME, which is multiplied or taken away: in brackets where it is a sum.  */
static br_status
put_number (br_text *t, explainer *x, int part, const char *name, int length)
{
  item number = ITEM_ZERO;
  br_status status = put_part (x, br__shape_entry (x->run->sheet->graph, name, (size_t) length, part), part, name, length, &number);
  br__text_printf (t, number.binds < BINDS_PRODUCT ? "(%s)" : "%s", br__text_string (&number.text));
  t->failed |= number.text.failed;
  br__explain_clear (&number);
  return status;
}

/* The sign of number PART of the shape NAME; 0 while it waits.  */
static int
sign_of (explainer *x, int part, const char *name, int length)
{
  br__entry *e = br__shape_entry (x->run->sheet->graph, name, (size_t) length, part);
  const br__value *v = e ? br__entry_value (e) : NULL;
  int sign = 0;
  return v && br_real_sign (&sign, &v->real, x->run->sheet->settings.bits) == BR_OK ? sign : 0;
}

/* Writes the answer of a row or a mirror from the shape that it copies: a side of a row is that of the shape, perhaps plus some
   steps; a side of a mirror is the mirror image of the other side of the shape.  Writes nothing for other shapes.  */
static br_status
put_copy (br_text *t, explainer *x, int part, const char *name, int length)
{
  const char *base = NULL;
  const int of = (int) br__shape_base (&base, x->run->sheet->graph, name, (size_t) length);
  const int row = is_kind (x, name, length, BR__ROW, BR__ROW), side = part >= BR__SHAPE_RIGHT && part <= BR__SHAPE_BOTTOM;
  br_status status = BR_OK;
  if (!of)
    return BR_OK;
  if (part == BR__SHAPE_WIDTH || part == BR__SHAPE_HEIGHT)
    br__text_printf (t, part == BR__SHAPE_WIDTH ? "right(%.*s) - left(%.*s)" : "top(%.*s) - bottom(%.*s)", length, name, length, name);
  else if (part == BR__SHAPE_AREA || part == BR__SHAPE_PERIMETER)
    {
      if (row)
        status = put_number (t, x, BR__SHAPE_A, name, length);
      br__text_printf (t, "%s%s(%.*s)", row ? " * " : "", part == BR__SHAPE_AREA ? "area" : "perimeter", of, base);
    }
  else if (side && row)
    {
      const int step = (part - BR__SHAPE_RIGHT) % 2 ? BR__SHAPE_C : BR__SHAPE_B, way = part <= BR__SHAPE_TOP ? 1 : -1;
      put_side (t, NULL, part, base, of);
      if (sign_of (x, step, name, length) != way)
        return BR_OK;
      br__text_puts (t, " + (");
      status = put_number (t, x, BR__SHAPE_A, name, length);
      br__text_puts (t, " - 1) * ");
      if (status == BR_OK)
        status = put_number (t, x, step, name, length);
    }
  else if (side && (part - BR__SHAPE_RIGHT) % 2)
    put_side (t, NULL, part, base, of);
  else if (side)
    {
      br__text_puts (t, "2 * ");
      status = put_number (t, x, BR__SHAPE_A, name, length);
      br__text_puts (t, " - ");
      put_side (t, NULL, part == BR__SHAPE_RIGHT ? BR__SHAPE_LEFT : BR__SHAPE_RIGHT, base, of);
    }
  return status;
}

/* Writes the formula for a question; empty if there is none.  */
static br_status
put_asked (br_text *label, br_text *t, explainer *x, int part, const char *name[2], const int length[2])
{
  br__entry *e = part == BR__SHAPE_CLEAR ? NULL : br__shape_entry (x->run->sheet->graph, name[0], (size_t) length[0], part);
  item sum = ITEM_ZERO, o[2] = { ITEM_ZERO, ITEM_ZERO };
  const br__node plus = { .op = BR__OP_ADD, .count = 2 };
  br_status status = BR_OK;
  if (part == BR__SHAPE_CLEAR)
    {
      br__text_printf (label, "clear(%.*s, %.*s)", length[0], name[0], length[1], name[1]);
      return is_kind (x, name[0], length[0], BR__CIRCLE, BR__CIRCLE) && is_kind (x, name[1], length[1], BR__CIRCLE, BR__CIRCLE)
             ? put_distance (t, x, name, length) : BR_OK;
    }
  if (part >= BR__SHAPE_MIDDLE_X)
    {
      static const char *const words[] = { "area", "perimeter" };
      int extent = part == BR__SHAPE_AREA || part == BR__SHAPE_PERIMETER;
      br__text_printf (label, "%s(%.*s)", extent ? words[part - BR__SHAPE_AREA] : part == BR__SHAPE_WIDTH ? "width" : "height",
                       length[0], name[0]);
      return put_copy (t, x, part, name[0], length[0]);
    }
  if (part == BR__SHAPE_X || part == BR__SHAPE_Y)
    {
      put_side (NULL, label, part == BR__SHAPE_X ? BR__SHAPE_RIGHT : BR__SHAPE_TOP, name[0], length[0]);
      const br__definition *d = e ? br__entry_definition (e) : NULL;
      /* The centre of area of an outline is measured.  */
      if (d && !br__shape_corners (x->run->sheet->graph, name[0], (size_t) length[0]))
        status = br__explain_tree (x, &d->tree, BR__WALK_NAMES, &sum);
    }
  else
    {
      int centre = (part - BR__SHAPE_RIGHT) % 2 ? BR__SHAPE_Y : BR__SHAPE_X;
      br__entry *middle = br__shape_entry (x->run->sheet->graph, name[0], (size_t) length[0], centre);
      put_side (label, NULL, part, name[0], length[0]);
      if (!is_kind (x, name[0], length[0], BR__CIRCLE, BR__BOX))
        return put_copy (t, x, part, name[0], length[0]);
      status = put_part (x, middle, centre, name[0], length[0], &o[0]);
      if (status == BR_OK)
        status = put_part (x, e, part, name[0], length[0], &o[1]);
      if (status == BR_OK)
        compose_sum (&sum, &plus, o, x);
    }
  br__text_puts (t, br__text_string (&sum.text));
  t->failed |= sum.text.failed;
  br__explain_clear (&sum);
  br__explain_clear (&o[0]);
  br__explain_clear (&o[1]);
  return status;
}

/* 1 if FORMULA asks for a place of the shape NAME, or a side.  */
static int
names_itself (const br__tree *formula, const char *name, int length)
{
  for (size_t i = 0; i < formula->count; i++)
    {
      const char *other[2];
      int long_as[2];
      if (formula->nodes[i].op != BR__OP_NAME || !formula->nodes[i].part)
        continue;
      br__node_shapes (other, long_as, formula, &formula->nodes[i]);
      if (long_as[0] == length && memcmp (other[0], name, (size_t) length) == 0)
        return 1;
    }
  return 0;
}

/* 1 if FORMULA has the same value as node N of T.  */
static int
comes_to (explainer *x, const br__tree *formula, const br__tree *t, const br__node *n, br_status *status)
{
  br__value mine = BR__VALUE_ZERO, right = BR__VALUE_ZERO;
  br_error *kept = x->run->error, error;
  int order = 1;
  x->run->error = &error;
  *status = br__value_of (&mine, x->run, formula);
  if (*status == BR_OK)
    *status = br__explain_value (&right, x, t, n);
  if (*status == BR_OK)
    *status = br_real_cmp (&order, &mine.real, &right.real, x->run->sheet->settings.bits);
  x->run->error = kept;
  br__value_clear (&mine);
  br__value_clear (&right);
  return *status == BR_OK && order == 0;
}

/* The part that the call at N of T asks for: a number of the shape, or BR__SHAPE_WIDTH or _HEIGHT.  */
static int
part_asked (const br__tree *t, const br__node *n)
{
  if (!br__explain_is_side (t, n))
    return (int) n->part;
  if (n[2].op == BR__OP_SUB)
    return n->part == BR__SHAPE_RIGHT ? BR__SHAPE_WIDTH : BR__SHAPE_HEIGHT;
  return n[1].part == BR__SHAPE_MIDDLE_X || n[1].part == BR__SHAPE_MIDDLE_Y ? (int) n->part : (int) n[1].part;
}

br_status
br__explain_measured (br_text *label, br__tree *formula, explainer *x, const br__tree *t, const br__node *n)
{
  const char *name[2];
  int length[2], part = part_asked (t, n);
  br_text text = BR_TEXT_ZERO;
  br_error error;
  br__lexer l;
  br__node_shapes (name, length, t, n);
  br_status status = put_asked (label, &text, x, part, name, length);
  br__explain_whole (x, &text);
  if (status == BR_OK && x->steps->failed)
    status = BR_NO_MEMORY;
  if (status == BR_OK && text.length)
    {
      status = br__lex_start (&l, br__text_string (&text), text.length, &error);
      if (status == BR_OK)
        status = br__parse (formula, &l, &error);
      if (status == BR_OK && (part == BR__SHAPE_X || part == BR__SHAPE_Y) && names_itself (formula, name[0], length[0]))
        br__tree_clear (formula);
      if (status == BR_OK && formula->count && !comes_to (x, formula, t, n, &status))
        br__tree_clear (formula);
    }
  /* If there is no formula, only the measured value is given.  */
  if (status != BR_OK && status != BR_NO_MEMORY)
    {
      br__tree_clear (formula);
      status = BR_OK;
    }
  br__explain_whole (x, label);
  br__text_clear (&text);
  return status;
}
