/* SPDX-License-Identifier: LGPL-3.0-or-later
   annotation_show.c - dimensions and notes of drawings as records.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shape/annotation.h"

br_status
br__annotation_distance (br__value *v, br__way *way, const br_sheet *sheet, const br__annotation *a)
{
  const br__value *d[2] = { br__annotation_value (sheet, a, BR__DRAWN_X), br__annotation_value (sheet, a, BR__DRAWN_Y) };
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  const br_real *z = NULL;
  br__way found = a->way;
  int flat = d[1] && br__sign_of (&g, &d[1]->real) == 0, steep = d[0] && br__sign_of (&g, &d[0]->real) == 0;
  if (found == BR__ANY_WAY)
    found = flat ? BR__LEVEL : steep ? BR__UPRIGHT : BR__ALONG;
  if (found == BR__ALONG && d[0] && d[1])
    z = br__length_of (&g, (br__point) { &d[0]->real, &d[1]->real });
  else if (found != BR__ALONG && d[found - BR__LEVEL])
    z = br__abs_of (&g, &d[found - BR__LEVEL]->real);
  if (!z || (a->way == BR__ANY_WAY && (!d[0] || !d[1])))
    {
      br__pad_clear (&g);
      return BR_UNDECIDED;
    }
  *way = found;
  v->dimension = BR_LENGTH;
  return br__pad_end (&v->real, z, &g);
}

static void
put_way (br_record *r, br__way way)
{
  static const char *const words[] = { NULL, "level", "upright", "along" };
  if (words[way])
    br__put_text (r, "way", words[way]);
}

/* Lists the numbers of A that have no value yet.  */
static void
put_waiting (br_record *r, const br_sheet *sheet, const br__annotation *a)
{
  br_list *list = br__put_list (r, "waiting");
  for (int i = 0; i < BR__DRAWN_NUMBERS; i++)
    {
      const br__definition *d = br__annotation_definition (sheet, a, i);
      for (size_t k = 0; d && k < d->edge_count; k++)
        if (!br__entry_value (d->edges[k].used))
          br__list_entry_once (list, d->edges[k].used);
    }
}

static br_status
put_length (br_record *r, const char *key, const br_sheet *sheet, const br__value *v)
{
  br_real z = BR_REAL_ZERO;
  br_status status = v ? br__in_sheet_unit (&z, v, &sheet->settings) : BR_OK;
  if (v && status == BR_OK)
    br__put_exact (r, key, br_real_rational (&z));
  br_real_clear (&z);
  return status;
}

static br_status
show_dimension (br_record *r, br__run *run, const br__annotation *a)
{
  const br_sheet *sheet = run->sheet;
  br__value v = BR__VALUE_ZERO;
  br__way way = a->way;
  br_status status = br__annotation_distance (&v, &way, sheet, a);
  int waits = status == BR_UNDECIDED;
  br__put_text (r, "between", a->words);
  put_way (r, way);
  put_waiting (r, sheet, a);
  if (a->text)
    br__put_text (r, "text", a->text);
  if (status == BR_OK)
    status = br__put_value (r, &v, &sheet->settings);
  if (status == BR_OK || waits)
    status = put_length (r, "off", sheet, a->off ? br__annotation_value (sheet, a, BR__DRAWN_OFF) : NULL);
  br__value_clear (&v);
  return status;
}

br_status
br__annotation_show (br__run *run, const br__annotation *a)
{
  static const char *const kinds[] = { "dimension_line", "note", "no_dimension" };
  br_record *r = br__record_new (kinds[a->kind]);
  br_status status = BR_OK;
  if (a->kind == BR__UNMEASURED)
    br__put_text (r, "shape", a->shape);
  else if (a->kind == BR__DIMENSION_LINE)
    status = show_dimension (r, run, a);
  else
    {
      br__put_text (r, "text", a->text);
      for (int i = 0; i < 2 && status == BR_OK; i++)
        status = put_length (r, i ? "y" : "x", run->sheet, br__annotation_value (run->sheet, a, i));
      if (a->shape)
        br__put_text (r, "to", a->shape);
      put_waiting (r, run->sheet, a);
    }
  return br__emit_or_fail (run, r, status, 0, 0);
}
