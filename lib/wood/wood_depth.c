/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood_depth.c - parts that are drawn with a depth that none of their sizes has.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shape/through.h"
#include "wood/wood.h"

/* *HAS is 1 if a size of P is DEEP, or is not known; its thickness alone, where its other two are those of the shape (CUT_AS).  */
static br_status
has_size (int *has, const br__piece *p, const br__value *deep, int cut_as, unsigned bits)
{
  br_status status = BR_OK;
  *has = 0;
  for (int i = 0; i < (cut_as ? BR__THICKNESS + 1 : BR__SIZES) && status == BR_OK && !*has; i++)
    {
      br_real size = { p->size[i].value, NULL };        /* borrowed */
      int order = 0;
      if (p->size[i].known)
        status = br_real_cmp (&order, &deep->real, &size, bits);
      *has = status == BR_OK && (order == 0 || !p->size[i].known);
    }
  return status == BR_UNDECIDED ? BR_OK : status;
}

static br_status
tell (br__run *run, const br__piece *p, const br__shape *s, const br__value *deep, int cut_as)
{
  br_text t = BR_TEXT_ZERO;
  br_record *r = br__record_new ("caution");
  br__text_printf (&t, "%s: its shape `%s` is drawn ", p->wood->name, s->name);
  br_status status = br__shown (&t, deep, &run->sheet->settings);
  br__text_puts (&t, cut_as ? " deep, and the part is not as thick" : " deep, and no size of the part is that");
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
        if (deep)
          status = has_size (&has, p, deep, cut_as, run->sheet->settings.bits);
        if (status == BR_OK && !has)
          status = tell (run, p, s, deep, cut_as);
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
