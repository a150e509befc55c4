/* SPDX-License-Identifier: LGPL-3.0-or-later
   datum.c - `datum X, Y`: the point of the design that drawings mark and measure places from.  It is two hidden entries
   of the graph, so that it follows every change.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shape/shape.h"

static const char *const names[2] = { " datum x", " datum y" };

static br__entry *
entry_of (const br_sheet *sheet, int way)
{
  br__entry *e = br__graph_find (sheet->graph, names[way], strlen (names[way]));
  return e && br__entry_definition (e) ? e : NULL;
}

int
br__datum_is_given (const br_sheet *sheet)
{
  return entry_of (sheet, 0) != NULL;
}

const br__value *
br__datum_value (const br_sheet *sheet, int way)
{
  const br__entry *e = entry_of (sheet, way);
  return e ? br__entry_value (e) : NULL;
}

static br_status
emit_datum (br__run *run)
{
  const br_sheet *sheet = run->sheet;
  br_record *r = br__record_new ("setting");
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;
  br__put_text (r, "name", "datum");
  if (!br__datum_is_given (sheet))
    br__text_puts (&t, "the lower left corner of what is drawn");
  for (int i = 0; i < 2 && br__datum_is_given (sheet) && status == BR_OK; i++)
    {
      const br__value *v = br__datum_value (sheet, i);
      br__text_puts (&t, i ? ", " : "");
      if (v)
        status = br__shown (&t, v, &sheet->settings);
      else
        br__text_putc (&t, '?');
    }
  br__put_from (r, "value", &t);
  br__text_clear (&t);
  return br__emit_or_fail (run, r, status, 0, 0);
}

/* Gives the datum the place AT, or, where that is NULL, takes it away.  */
static br_status
put_datum (br__run *run, const br__tree *at)
{
  br__moves moves = BR__MOVES_ZERO;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      br__moves some = BR__MOVES_ZERO;
      br__definition *made = NULL;
      br__entry *e = br__graph_get_hidden (run->sheet->graph, BR__ENTRY_DRAWN, names[i], strlen (names[i]));
      if (!e)
        status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
      else if (at)
        status = br__make_length (&made, run, &at[i]);
      if (status == BR_OK)
        status = br__change_define (run, e, &made, &some);
      if (status == BR_OK)
        status = br__moves_join (&moves, &some, run->sheet->graph, run->error);
      br__moves_clear (&some);
      br__definition_free (made);
    }
  if (status == BR_OK)
    status = emit_datum (run);
  if (status == BR_OK)
    status = br__tell_change (run, &moves, &run->changes);
  run->kept = status == BR_OK;
  run->setting = "datum";
  br__moves_clear (&moves);
  return status;
}

br_status
br__do_datum (br__run *run)
{
  br__tree at[2] = { BR__TREE_ZERO, BR__TREE_ZERO };
  if (run->lex.token.type == BR__END)
    return emit_datum (run);
  br_status status = br__read_point (run, at);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = put_datum (run, at);
  br__tree_clear (&at[0]);
  br__tree_clear (&at[1]);
  return status;
}

br_status
br__no_datum (br__run *run)
{
  br_status status = br__end_of_line (run);
  if (status == BR_OK && !br__datum_is_given (run->sheet))
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                       "no datum was given: places are measured from the lower left corner");
  return status == BR_OK ? put_datum (run, NULL) : status;
}
