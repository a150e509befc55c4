/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood_depth.c - parts that are drawn with a depth that none of their sizes has.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shape/through.h"
#include "wood/wood.h"

/* The size of P that is left for the depth of S, where its other two are how wide and how high S is, or -1.  */
static int
size_across (const br__piece *p, const br_sheet *sheet, const br__shape *s)
{
  br_real side[2] = { BR_REAL_ZERO, BR_REAL_ZERO };
  int equal[2][BR__SIZES] = { { 0 } }, left = -1;
  br_status status = BR_OK;
  for (int way = 0; way < 2 && status == BR_OK; way++)
    {
      const br__value *low = br__shape_value (sheet, s, way ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT);
      const br__value *high = br__shape_value (sheet, s, way ? BR__SHAPE_TOP : BR__SHAPE_RIGHT);
      status = low && high ? br_real_sub (&side[way], &high->real, &low->real) : BR_DOMAIN;
      for (int i = 0; i < BR__SIZES && status == BR_OK; i++)
        {
          br_real size = { p->size[i].value, NULL };    /* borrowed */
          int order = 1;
          status = p->size[i].known ? br_real_cmp (&order, &side[way], &size, sheet->settings.bits) : BR_DOMAIN;
          equal[way][i] = status == BR_OK && order == 0;
        }
    }
  for (int i = 0; i < BR__SIZES && status == BR_OK; i++)
    for (int k = 0; k < BR__SIZES; k++)
      if (i != k && equal[0][i] && equal[1][k])
        left = BR__THICKNESS + BR__WIDTH + BR__LENGTH_OF - i - k;
  br_real_clear (&side[0]);
  br_real_clear (&side[1]);
  return left;
}

/* *HAS is 1 if a size of P is DEEP, or is not known; the one ACROSS alone, where its other two are those of the shape.  */
static br_status
has_size (int *has, const br__piece *p, const br__value *deep, int across, unsigned bits)
{
  br_status status = BR_OK;
  *has = 0;
  for (int i = 0; i < BR__SIZES && status == BR_OK && !*has; i++)
    {
      if (across >= 0 && i != across)
        continue;
      br_real size = { p->size[i].value, NULL };        /* borrowed */
      int order = 0;
      if (p->size[i].known)
        status = br_real_cmp (&order, &deep->real, &size, bits);
      *has = status == BR_OK && (order == 0 || !p->size[i].known);
    }
  return status == BR_UNDECIDED ? BR_OK : status;
}

static br_status
tell (br__run *run, const br__piece *p, const br__shape *s, const br__value *deep, int across)
{
  br_text t = BR_TEXT_ZERO;
  br_record *r = br__record_new ("caution");
  br__text_printf (&t, "%s: its shape `%s` is drawn ", p->wood->name, s->name);
  br_status status = br__shown_about (&t, deep, &run->sheet->settings);
  static const char *const not[] = { " deep, and the part is not as thick", " deep, and the part is not as wide", " deep, and the part is not as long" };
  const int place = across == BR__THICKNESS ? 0 : across == BR__WIDTH ? 1 : 2;
  br__text_puts (&t, across < 0 ? " deep, and no size of the part is that" : not[place]);
  br__put_from (r, "message", &t);
  br__put_text (r, "source", "this sheet");
  br__put_text (r, "parts", p->wood->name);
  br__text_clear (&t);
  return br__emit_or_free (run, r, status);
}

br_status
br__wood_depths (br__run *run, const br__wood_list *list)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < list->part_count && status == BR_OK; i++)
    for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
      {
        const br__piece *p = &list->parts[i];
        int has = 1, cut_as = p->wood->as && strcmp (p->wood->as, s->name) == 0;
        const char *of = br__part_of (run->sheet, s);
        if (!s->active || !s->depth || br__shape_source (run->sheet, s)->hole || !(cut_as || (of && strcmp (of, p->wood->name) == 0)))
          continue;
        const br__value *deep = br__shape_value (run->sheet, s, BR__SHAPE_DEEP);
        const int across = cut_as ? BR__THICKNESS : size_across (p, run->sheet, s);
        if (deep)
          status = has_size (&has, p, deep, across, run->sheet->settings.bits);
        if (status == BR_OK && !has)
          status = tell (run, p, s, deep, across);
      }
  return status;
}

br_status
br__tell_across (br__run *run)
{
  br__wood_list list = { 0 };
  br_status status = br__tell_axles (run);
  if (status == BR_OK)
    status = br__wood_resolve (&list, run);
  if (status == BR_OK)
    status = br__wood_depths (run, &list);
  br__wood_list_clear (&list);
  return status;
}

br_status
br__do_rubs (br__run *run)
{
  br_status status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__tell_rubs (run);
  return status == BR_OK ? br__tell_across (run) : status;
}
