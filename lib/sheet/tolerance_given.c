/* SPDX-License-Identifier: LGPL-3.0-or-later
   tolerance_given.c - the tolerances of names: given with the size itself or by a statement of their own,
   which may come before the name has a value.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/tolerance.h"

void
br__tolerance_free (br__tolerance *t)
{
  if (!t)
    return;
  br__value_clear (&t->value);
  br__free (t->text);
  br__free (t);
}

void
br__tolerances_free (br__graph *g)
{
  for (br__entry *e = g ? br__graph_first (g) : NULL; e; e = br__entry_next (e))
    br__tolerance_free (*br__entry_tolerance (e));
}

void
br__tolerance_swap (br__graph *g, br__change *change)
{
  void **place = br__entry_tolerance (change->entry);
  br__tolerance *was = *place;
  *place = change->tolerance;
  br__graph_count_tolerance (g, (change->tolerance != NULL) - (was != NULL));
  change->tolerance = was;
}

const br__value *
br__tolerance_given (const br__entry *e, const char **text)
{
  const br__definition *d = br__entry_definition (e);
  const br__tolerance *t = *br__entry_tolerance ((br__entry *) e);
  int own = d && d->tolerance_text;
  if (!own && !t)
    return NULL;
  if (text)
    *text = own ? d->tolerance_text : t->text;
  return own ? &d->tolerance : &t->value;
}

br_status
br__tolerance_half (br_number *half, br__entry *e, const br__settings *s, br_error *error)
{
  const br__value *given = br__tolerance_given (e, NULL), *v = br__entry_value (e);
  br_number factor = BR_NUMBER_ZERO, zero = BR_NUMBER_ZERO;
  if (!given || !v)
    return br_number_set (half, &zero);
  if (given->dimension == v->dimension)
    return br_number_set (half, br_real_rational (&given->real));
  /* A plain number is one of the sheet's units, whichever of the two it is.  */
  if (given->dimension == BR_LENGTH && v->dimension != BR_PLAIN)
    return br__fail (error, BR_DOMAIN, 0, 0, "the tolerance of `%.*s` is a length, and `%.*s` is %s",
                     BR__CLIP (br__entry_name (e), 60), BR__CLIP (br__entry_name (e), 60),
                     br__dimension_words (v->dimension));
  br_status status = br__settings_factor (&factor, s, given->dimension == BR_LENGTH ? BR_LENGTH
                                                                                    : v->dimension);
  if (status == BR_OK && given->dimension == BR_LENGTH)
    status = br_number_div (half, br_real_rational (&given->real), &factor);
  else if (status == BR_OK)
    status = br_number_mul (half, br_real_rational (&given->real), &factor);
  br_number_clear (&factor);
  return status;
}

int
br__tolerances_any (const br_sheet *sheet)
{
  return br__graph_tolerances (sheet->graph) > 0;
}

static br__role
role_of (void *user, br__entry *e)
{
  (void) user;
  const br__value *t = br__tolerance_given (e, NULL);
  if (!t)
    return BR__ROLE_FORMULA;
  return br_number_sign (br_real_rational (&t->real)) > 0 && br__entry_value (e) ? BR__ROLE_INPUT
                                                                                 : BR__ROLE_FIXED;
}

const br__program_names br__tolerance_names = { NULL, role_of, NULL };
