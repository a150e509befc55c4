/* SPDX-License-Identifier: LGPL-3.0-or-later
   tools.c - the statements about drills, saws and cautions.  The figures and their sources are in lib/shop.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shop/blade.h"
#include "shop/drill.h"
#include "sheet/caution.h"
#include "shape/depth.h"
#include "wood/wood.h"

/* The length that a statement is about, alone on its line.  */
static br_status
read_length (br__value *x, br__tree *t, br__run *run)
{
  br_status status = br__parse (t, &run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  return status == BR_OK ? br__value_of_length (x, run, t) : status;
}

static void
put_drill (br_record *row, const char *prefix, const br__drill *drill, const br_real *play,
           const br__settings *s)
{
  br_number size = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_record *r = row;
  int below = prefix[0] == 'b';
  if (br_number_set_ratio (&size, drill->num, drill->den) != BR_OK)
    return;
  br__put_text (r, below ? "below" : "above", drill->name);
  br__put_exact (r, below ? "below_size" : "above_size", &size);
  br_status status = br__put_real_decimal (&t, NULL, play, 6, s->bits);
  t.failed |= status == BR_NO_MEMORY;
  if (status == BR_OK || t.failed)
    br__put_from (r, below ? "below_play" : "above_play", &t);
  br__text_clear (&t);
  br_number_clear (&size);
}

br_status
br__do_drills (br__run *run)
{
  const br__settings *s = &run->sheet->settings;
  br__tree t = BR__TREE_ZERO;
  br__value x = BR__VALUE_ZERO;
  br_record *r = NULL;
  br_status status = read_length (&x, &t, run);

  if (status == BR_OK)
    {
      r = br__record_new ("drills");
      br__put_expression (r, &t);
      status = br__put_value (r, &x, s);
      br_list *rows = br__put_list (r, "rows");
      for (int k = 0; k < BR__DRILL_SERIES && status == BR_OK; k++)
        {
          br__drill_pair pair = BR__DRILL_PAIR_ZERO;
          br_record *row = br__list_record (rows);
          br__put_text (row, "series", br__drill_series_name ((br_drill_series) k));
          status = br__drill_neighbours (&pair, (br_drill_series) k, &x.real, s->bits, run->error);
          if (status == BR_OK && pair.has_below)
            put_drill (row, "below", &pair.below, &pair.play_below, s);
          if (status == BR_OK && pair.has_above)
            put_drill (row, "above", &pair.above, &pair.play_above, s);
          br__drill_pair_clear (&pair);
        }
      br__put_text (r, "source", br__drill_source ());
      if (status != BR_OK && run->error)
        run->error->offset = t.base, run->error->length = t.length;
    }
  status = br__emit_or_free (run, r, status);
  br__value_clear (&x);
  br__tree_clear (&t);
  return status;
}

static void
put_blade (br_record *row, const br__blade *b, int follows, const br__settings *s)
{
  br_number n = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_style style = br__settings_style (s);
  if (br_number_set_ratio (&n, b->width_num, b->width_den) == BR_OK)
    br__put_measure (&t, &n, BR_LENGTH, &style);
  br__put_from (row, "blade", &t);
  if (br_number_set_ratio (&n, b->radius_num, b->radius_den) == BR_OK)
    br__put_measure (&t, &n, BR_LENGTH, &style);
  br__put_from (row, "smallest_radius", &t);
  br__put_truth (row, "follows", follows);
  br_number_clear (&n);
}

br_status
br__do_saws (br__run *run)
{
  br__tree t = BR__TREE_ZERO;
  br__value x = BR__VALUE_ZERO;
  size_t count = 0;
  br_status status = read_length (&x, &t, run);

  if (status == BR_OK)
    {
      status = br__blades_for (&count, &x.real, run->sheet->settings.bits, run->error);
      if (status != BR_OK && run->error)
        run->error->offset = t.base, run->error->length = t.length;
    }
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("saws");
      br__put_expression (r, &t);
      status = br__put_value (r, &x, &run->sheet->settings);
      br_list *rows = br__put_list (r, "rows");
      for (size_t i = 0; i < br__blade_count; i++)
        put_blade (br__list_record (rows), &br__blades[i], i < count, &run->sheet->settings);
      br__put_text (r, "source", br__blades[0].source);
      status = br__emit_or_free (run, r, status);
    }
  br__value_clear (&x);
  br__tree_clear (&t);
  return status;
}

br_status
br__do_cautions (br__run *run)
{
  br__wood_list list = { 0 };
  br_status status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__caution_all (run);
  if (status == BR_OK)
    status = br__wood_resolve (&list, run);
  if (status == BR_OK)
    status = br__wood_cautions (run, &list, BR__WOOD_FULL);
  if (status == BR_OK)
    status = br__tell_axles (run);
  if (status == BR_OK)
    status = br__wood_depths (run, &list);
  br__wood_list_clear (&list);
  return status;
}
