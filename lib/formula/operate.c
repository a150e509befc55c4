/* SPDX-License-Identifier: LGPL-3.0-or-later
   operate.c - one operation on values: computed at once, or added to the program that is being compiled.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/operate.h"

static br_status
perform (br__work *w, br__value *z, const br__instruction *c, const br__value *x, const br__value *y)
{
  if (x->slot || (y && y->slot))
    return br__program_emit (w->program, z, c, x, y);
  z->slot = 0;
  return br__exact_operation (&z->real, c, &x->real, y ? &y->real : NULL, w->settings, 0);
}

br_status
br__operate (br__work *w, br__value *z, br__opcode op, const br__value *x, const br__value *y)
{
  const br__instruction c = { .op = op };
  return perform (w, z, &c, x, y);
}

br_status
br__operate_power (br__work *w, br__value *z, const br__value *x, const br_number *exponent)
{
  const br__instruction c = { .op = BR__CODE_POWER, .number = *exponent };      /* borrowed */
  return perform (w, z, &c, x, NULL);
}

br_status
br__operate_mark (br__work *w, br__value *z, const br__value *x, const br_number *size, br_direction direction)
{
  const br__instruction c = { .op = BR__CODE_MARK, .number = *size, .direction = direction };
  return perform (w, z, &c, x, NULL);
}

br_status
br__operate_measure (br__work *w, br__value *z, const br__value *args, unsigned count, const br__function *self)
{
  const br_real *reals[BR__MOST_MEASURED];
  br__instruction c = { .op = self->rates ? BR__CODE_SHAPE : BR__CODE_FITS, .function = self };
  int varies = 0;
  br_status status = BR_OK;
  for (unsigned i = 0; i < count; i++)
    {
      reals[i] = &args[i].real;
      varies |= args[i].slot != 0;
    }
  if (!varies)
    return self->measure (&z->real, reals, w->settings->bits);
  c.operand_count = count;
  c.operands = br__alloc_zero (count, sizeof *c.operands);
  if (!c.operands)
    return BR_NO_MEMORY;
  for (unsigned i = 0; i < count && status == BR_OK; i++)
    status = br__program_slot (w->program, &c.operands[i], &args[i]);
  if (status == BR_OK)
    status = br__program_emit (w->program, z, &c, &args[0], NULL);
  if (status != BR_OK)
    br__free (c.operands);
  return status;
}

br_status
br__work_to_length (br__work *w, br__value *v)
{
  static const br_number one = { 1, 0 };
  br__value factor = BR__VALUE_ZERO;
  br_status status = br__settings_factor (&factor.real.rational, w->settings, BR_LENGTH);
  if (status == BR_OK && !br_number_equal (&factor.real.rational, &one))
    status = br__operate (w, v, BR__CODE_MUL, v, &factor);
  if (status == BR_OK)
    v->dimension = BR_LENGTH;
  br__value_clear (&factor);
  return status;
}

/* The plain number V with the unit that it lacks to be an area or a volume.  */
static void
hint_unit (br__work *w, const br__value *v, br_dimension dimension)
{
  const br_number *q = v->slot ? NULL : br_real_rational (&v->real);
  br_text t = BR_TEXT_ZERO;
  if (!q || (dimension != BR_AREA && dimension != BR_VOLUME))
    return;
  br__put_measure (&t, q, BR_PLAIN, NULL);
  br__text_putc (&t, ' ');
  br__put_unit_name (&t, w->settings, dimension);
  br__hint (w->error, "write `%s`", br__text_string (&t));
  br__text_clear (&t);
}

br_status
br__work_unify (br__work *w, br__value *x, br__value *y)
{
  if (x->dimension == y->dimension)
    return BR_OK;
  br__value *plain = x->dimension == BR_PLAIN ? x : y->dimension == BR_PLAIN ? y : NULL;
  br__value *other = plain == x ? y : x;
  if (plain && other->dimension == BR_LENGTH)
    {
      br_status status = br__work_to_length (w, plain);
      return status == BR_OK ? BR_OK : br__fail_plain (w->error, status, 0, 0);
    }
  if (plain && other->dimension == BR_ANGLE)
    {
      plain->dimension = BR_ANGLE;
      return BR_OK;
    }
  br__fail (w->error, BR_DOMAIN, 0, 0, "%s and %s do not go together", br__dimension_words (x->dimension),
            br__dimension_words (y->dimension));
  if (plain)
    hint_unit (w, plain, other->dimension);
  return BR_DOMAIN;
}
