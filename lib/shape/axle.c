/* SPDX-License-Identifier: LGPL-3.0-or-later
   axle.c - checks whether wheels that are drawn on both sides are where the axles of the sheet put them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/depth.h"

/* The space that an axle leaves for its wheels: its length minus the allowance at both ends.  */
typedef struct axle
{
  const char *name;
  br__value track;
} axle;

typedef struct axles
{
  axle *rows;
  size_t count, room;
} axles;

static void
axles_clear (axles *a)
{
  for (size_t i = 0; i < a->count; i++)
    br__value_clear (&a->rows[i].track);
  br__free (a->rows);
}

/* Node INDEX of T, in inches.  */
static br_status
inches_at (br__value *v, br__run *run, const br__tree *t, size_t index)
{
  br__tree part = br__subtree (t, index);
  br_status status = br__value_of (v, run, &part);
  return status == BR_OK && v->dimension == BR_PLAIN ? br__to_length (v, &run->sheet->settings) : status;
}

/* Adds the space of the axle of node INDEX of T, a call of axle_length.  Axles that wait for a value are skipped.  */
static br_status
add_axle (axles *a, br__run *run, const char *name, const br__tree *t, size_t index)
{
  enum { END_ALLOWANCE = 4 };   /* among its parameters: lib/shop/functions.c */
  br__run quiet = *run;
  br__value end = BR__VALUE_ZERO;
  if (!br__grow (&a->rows, &a->room, a->count + 1, sizeof *a->rows))
    return BR_NO_MEMORY;
  axle *x = &a->rows[a->count];
  memset (x, 0, sizeof *x);
  x->name = name;
  quiet.error = NULL;
  br_status status = inches_at (&x->track, &quiet, t, index);
  if (status == BR_OK)
    status = inches_at (&end, &quiet, t, br__operand (t, index, END_ALLOWANCE));
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = br_real_sub (&x->track.real, &x->track.real, &end.real);
  a->count += status == BR_OK;
  if (status != BR_OK)
    br__value_clear (&x->track);
  br__value_clear (&end);
  return status == BR_NO_MEMORY || status == BR_STOPPED ? status : BR_OK;
}

static br_status
find_axles (axles *a, br__run *run)
{
  br_status status = BR_OK;
  for (br__entry *e = br__graph_first (run->sheet->graph); e && status == BR_OK; e = br__entry_next (e))
    {
      const br__definition *d = br__is_hidden_entry (e) || !br__entry_value (e) ? NULL : br__entry_definition (e);
      for (size_t i = 0; d && i < d->tree.count && status == BR_OK; i++)
        if (d->tree.nodes[i].op == BR__OP_CALL && strcmp (d->tree.nodes[i].function->name, "axle_length") == 0)
          status = add_axle (a, run, br__entry_name (e), &d->tree, i);
    }
  return status;
}

/* The wheels S, TRACK over their outsides, are where no axle has them.  */
static br_status
tell (br__run *run, const br__shape *s, const br__value *track, const axle *x)
{
  br_text t = BR_TEXT_ZERO;
  br_record *r = br__record_new ("caution");
  br__text_printf (&t, "the wheels `%s` are drawn ", s->name);
  br_status status = br__shown_about (&t, track, &run->sheet->settings);
  br__text_printf (&t, " over the outsides, and `%s` less its ends leaves ", x->name);
  if (status == BR_OK)
    status = br__shown_about (&t, &x->track, &run->sheet->settings);
  br__put_from (r, "message", &t);
  br__put_text (r, "source", "this sheet");
  br__list_text (br__put_list (r, "concerns"), s->name);
  br__text_clear (&t);
  return br__emit_or_free (run, r, status);
}

/* Wheels are circles on both sides.  One that is where an axle has it is right.  */
static br_status
judge_wheel (br__run *run, const br__shape *s, const axles *a)
{
  const br_sheet *sheet = run->sheet;
  const br__value *middle = br__depth_middle (sheet, s), *deep = br__depth_of (sheet, s);
  br__value track = { .dimension = BR_LENGTH };
  int differs = 1;
  if (!middle || !deep)
    return BR_OK;
  br_status status = br_real_add (&track.real, &middle->real, &middle->real);
  if (status == BR_OK)
    status = br_real_add (&track.real, &track.real, &deep->real);
  for (size_t i = 0; i < a->count && status == BR_OK && differs; i++)
    status = br_real_cmp (&differs, &track.real, &a->rows[i].track.real, sheet->settings.bits);
  if (status == BR_OK && differs)
    status = tell (run, s, &track, &a->rows[0]);
  br__value_clear (&track);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* S, or the first shape behind it that is a wheel, or NULL.  */
static const br__shape *
wheel_from (const br__shape *s)
{
  while (s && !(s->active && s->kind == BR__CIRCLE && !s->hole && s->depth > BR__FROM_DEPTH))
    s = s->next;
  return s;
}

br_status
br__tell_axles (br__run *run)
{
  axles a = { NULL, 0, 0 };
  const br__shape *s = wheel_from (run->sheet->shapes);
  br_status status = s ? find_axles (&a, run) : BR_OK;
  for (; s && status == BR_OK && a.count; s = wheel_from (s->next))
    status = judge_wheel (run, s, &a);
  axles_clear (&a);
  return status == BR_OK ? BR_OK : br__fail_untold (run->error, status, 0, run->end);
}
