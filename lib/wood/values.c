/* SPDX-License-Identifier: LGPL-3.0-or-later
   values.c - a sheet for programs: its dimensions as values, and what stands on it, in order.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>
#include <string.h>

#include "exact/real.h"
#include "shape/shape.h"
#include "sheet/sheet.h"
#include "wood/wood.h"

/* Takes back first what a line before it left for want of memory: half of a `use`, or of a column of names.  */
static br_status
settle (const br_sheet *sheet, br_error *error)
{
  if (!sheet->pending_rollback.changes)
    return BR_OK;
  br__call call;
  br_sheet *own = (br_sheet *) sheet;   /* what is asked for is as it was */
  br__sheet_enter (&call, own, NULL);
  br_status status = br__sheet_leave (&call, own, br__changes_settle (own));
  return status == BR_OK ? BR_OK : br__fail_plain (error, status, 0, 0);
}

/* ---- A dimension ---- */

br_status
br_sheet_get (br_real *value, br_dimension *dimension, const br_sheet *sheet, const char *name,
              br_error *error)
{
  if (!value || !sheet || !name)
    return br__fail_null (error);
  br_status settled = settle (sheet, error);
  if (settled != BR_OK)
    return settled;
  size_t length = strlen (name);
  br__entry *e = br__graph_find (sheet->graph, name, length);
  if (!e || br__is_hidden_entry (e) || !br__entry_definition (e))
    return br__fail (error, BR_DOMAIN, 0, length, "there is no `%.*s` on the sheet", BR__CLIP (name, 100));
  const br__value *v = br__entry_value (e);
  if (!v)
    return br__fail (error, BR_DOMAIN, 0, length, "`%.*s` waits for a value", BR__CLIP (name, 100));
  br_status status = br_real_set (value, &v->real);
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  if (dimension)
    *dimension = v->dimension;
  return BR_OK;
}

/* The unit to write after a number of DIMENSION, or NULL if the language has no unit for it.  */
static const char *
unit_of (br_dimension dimension)
{
  switch (dimension)
    {
    case BR_PLAIN: return "";
    case BR_LENGTH: return " in";
    case BR_AREA: return " sq in";
    case BR_VOLUME: return " cu in";
    case BR_ANGLE: return " deg";
    default: return NULL;
    }
}

/* Adds a term such as 3/2 in * sqrt(2) * pi, without factors that are 1.  */
static br_status
put_term (br_text *t, const br__term *term, const char *unit, int first)
{
  const br_number one = { 1, 0 };
  br_number size = BR_NUMBER_ZERO;
  int below = br_number_sign (&term->q) < 0, root = !br_number_equal (&term->m, &one), factors = root || term->k;
  br_status status = br_number_abs (&size, &term->q);
  br__text_puts (t, first ? (below ? "-" : "") : below ? " - " : " + ");
  if (*unit || !factors || !br_number_equal (&size, &one))
    {
      br__put_number (t, &size);
      br__text_printf (t, "%s%s", unit, factors ? " * " : "");
    }
  if (root)
    {
      br__text_puts (t, "sqrt(");
      br__put_number (t, &term->m);
      br__text_puts (t, term->k ? ") * " : ")");
    }
  if (term->k == 1)
    br__text_puts (t, "pi");
  else if (term->k)
    br__text_printf (t, "pi^(%" PRId64 ")", term->k);
  br_number_clear (&size);
  return status;
}

/* Adds X in the language, as itself: a fraction with its unit, or a sum of terms.  */
static br_status
put_exact (br_text *t, const br_real *x, const char *unit)
{
  br__term room;
  size_t size = 0;
  const br__term *terms = br__terms (&size, x, &room);
  if (!terms)
    return BR_DOMAIN;
  if (br_real_rational (x))
    {
      br__put_number (t, br_real_rational (x));
      br__text_puts (t, unit);
      return BR_OK;
    }
  br_status status = BR_OK;
  for (size_t i = 0; i < size && status == BR_OK; i++)
    status = put_term (t, &terms[i], unit, i == 0);
  return status;
}

/* The first mistake of a line that is run for a program; its place is in no text of the program's.  */
static void
keep_fault (void *user, const br_fault *fault)
{
  br_error *error = user;
  if (error->status == BR_OK)
    *error = *fault->error;
  error->offset = error->length = 0;
}

/* 1 where NAME is one name of the language and nothing else.  */
static int
is_name (const char *name, size_t length)
{
  br__lexer lex;
  return br__lex_start (&lex, name, length, NULL) == BR_OK && lex.token.type == BR__NAME && lex.token.offset == 0
         && lex.token.length == length;
}

br_status
br_sheet_set (br_sheet *sheet, const char *name, const br_real *value, br_dimension dimension,
              br_error *error)
{
  if (!sheet || !name || !value)
    return br__fail_null (error);
  if (sheet->running)
    return br__fail (error, BR_DOMAIN, 0, 0, "a sheet takes no lines from its own callbacks");
  const char *unit = unit_of (dimension);
  br_text t = BR_TEXT_ZERO;
  br_error found = { .status = BR_OK };
  const br_sink sink = { .user = &found, .fault = keep_fault };
  size_t length = strlen (name);
  if (!is_name (name, length))
    return br__fail (error, BR_SYNTAX, 0, length, "`%.*s` is not a name", BR__CLIP (name, 100));
  if (!unit)
    return br__fail (error, BR_DOMAIN, 0, 0, "a sheet takes lengths, areas, volumes, angles and plain numbers");
  br__text_printf (&t, "%s = ", name);
  br_status status = put_exact (&t, value, unit);
  if (status == BR_DOMAIN)
    br__fail (error, status, 0, 0, "a sheet takes fractions and sums of roots and powers of pi: no line says this value");
  else if (status != BR_OK || t.failed)
    status = br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  else
    {
      status = br_sheet_run (sheet, t.bytes, t.length, "", 1, &sink);
      if (status != BR_OK && error)
        *error = found;
    }
  br__text_clear (&t);
  return status;
}

/* ---- The items of a sheet ---- */

/* The first line from LINE on that defines a dimension which counts.  */
static const br__line *
dimension_from (const br__line *line)
{
  while (line && (!line->entry || line->hidden || *br__entry_tag (line->entry) != line
                  || !br__entry_definition (line->entry)))
    line = line->next;
  return line;
}

static void
take_dimension (br_item *item, const br__line *line)
{
  const br__definition *d = br__entry_definition (line->entry);
  *item = (br_item) { br__entry_name (line->entry), d->tree.text, d->note,
                      br__entry_value (line->entry) ? BR_ITEM_KNOWN : BR_ITEM_WAITING, line };
}

static void
take_check (br_item *item, const br__check *check)
{
  static const br_item_state states[] =
  {
    [BR__CHECK_PASS] = BR_ITEM_PASSES, [BR__CHECK_FAIL] = BR_ITEM_FAILS, [BR__CHECK_WAITING] = BR_ITEM_WAITING,
    [BR__CHECK_UNDECIDED] = BR_ITEM_UNDECIDED
  };
  *item = (br_item) { "", check->formula, check->note, states[check->state], check };
}

static br_status
take_part (br_item *item, const br_sheet *sheet, const br__wood *wood, br_error *error)
{
  /* Working a part out leaves the sheet as it is; a run has room for one that changes.  */
  br_error own = { .status = BR_OK };
  br__run run = { .sheet = (br_sheet *) sheet, .error = &own };
  br__piece piece = { .wood = wood };
  br_status status = br__wood_work_out (&piece, &run, wood);
  if (status == BR_OK)
    *item = (br_item) { wood->name, "", wood->note ? wood->note : "",
                        piece.waits ? BR_ITEM_WAITING : piece.problem.length ? BR_ITEM_WRONG : BR_ITEM_KNOWN, wood };
  else if (error)
    *error = own;
  br__piece_clear (&piece);
  return status;
}

static const br__wood *
part_from (const br__wood *wood)
{
  while (wood && (wood->stock || !wood->active))
    wood = wood->next;
  return wood;
}

br_status
br_sheet_next (br_item *item, const br_sheet *sheet, br_item_kind kind, br_error *error)
{
  if (!item || !sheet)
    return br__fail_null (error);
  br_status settled = settle (sheet, error);
  if (settled != BR_OK)
    return settled;
  const void *place = item->place;
  const br__line *line = place;
  const br__check *check = place;
  const br__wood *part = place;
  const br__shape *shape = place;
  br_item end = BR_ITEM_ZERO;
  switch (kind)
    {
    case BR_ITEM_DIMENSION:
      line = dimension_from (place ? line->next : sheet->first);
      if (line)
        take_dimension (&end, line);
      break;
    case BR_ITEM_CHECK:
      for (check = place ? check->next : sheet->checks; check && !check->active; check = check->next)
        continue;
      if (check)
        take_check (&end, check);
      break;
    case BR_ITEM_PART:
      part = part_from (place ? part->next : sheet->wood);
      if (part && take_part (&end, sheet, part, error) != BR_OK)
        return error ? error->status : BR_NO_MEMORY;
      break;
    case BR_ITEM_SHAPE:
      for (shape = place ? shape->next : sheet->shapes; shape && !shape->active; shape = shape->next)
        continue;
      if (shape)
        end = (br_item) { shape->name, "", shape->note ? shape->note : "",
                          br__shape_waiting (NULL, sheet, shape) ? BR_ITEM_WAITING : BR_ITEM_KNOWN, shape };
      break;
    default:
      return br__fail (error, BR_DOMAIN, 0, 0, "no such kind");
    }
  *item = end;
  return BR_OK;
}
