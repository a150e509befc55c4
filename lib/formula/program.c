/* SPDX-License-Identifier: LGPL-3.0-or-later
   program.c - the instructions of a compiled formula, one after another.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/program.h"

void
br__program_clear (br__program *t)
{
  for (size_t i = 0; i < t->count; i++)
    {
      br_real_clear (&t->code[i].constant);
      br_number_clear (&t->code[i].number);
      br__free (t->code[i].operands);
    }
  br__free (t->code);
  br__free (t->inputs);
  br__free (t->input_slots);
  *t = (br__program) BR__PROGRAM_ZERO;
}

/* ---- Instructions ---- */

/* An empty one at the end, or NULL.  */
static br__instruction *
new_instruction (br__program *t)
{
  if (!br__grow (&t->code, &t->room, t->count + 1, sizeof (br__instruction)))
    return NULL;
  memset (&t->code[t->count], 0, sizeof (br__instruction));
  return &t->code[t->count++];
}

br_status
br__program_slot (br__program *t, size_t *slot, const br__value *x)
{
  if (x->slot)
    {
      *slot = x->slot - 1;
      return BR_OK;
    }
  br__instruction *c = new_instruction (t);
  if (!c)
    return BR_NO_MEMORY;
  c->op = BR__CODE_CONSTANT;
  c->linear = 1;
  *slot = t->count - 1;
  return br_real_set (&c->constant, &x->real);
}

static int
stays_linear (const br__instruction *c, const br__instruction *x, const br__instruction *y)
{
  static const br_number one = { 1, 0 };
  switch (c->op)
    {
    case BR__CODE_ADD: case BR__CODE_SUB:
      return x->linear && y->linear;
    case BR__CODE_MUL:
      return x->linear && y->linear && (x->op == BR__CODE_CONSTANT || y->op == BR__CODE_CONSTANT);
    case BR__CODE_DIV:
      return x->linear && y->op == BR__CODE_CONSTANT;
    case BR__CODE_NEG: case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW: case BR__CODE_RATIONAL:
      return x->linear;
    case BR__CODE_POWER:
      return x->linear && br_number_equal (&c->number, &one);
    default:
      return 0;
    }
}

/* Records whether the operation gives the program corners or steps.  */
static void
note_kind (br__program *t, br__opcode op)
{
  switch (op)
    {
    case BR__CODE_MARK: case BR__CODE_DRILL:
      t->steps = 1;
      t->smooth = 0;
      break;
    case BR__CODE_ABS: case BR__CODE_MAX: case BR__CODE_MIN: case BR__CODE_APART: case BR__CODE_SHAPE:
      t->smooth = 0;
      break;
    case BR__CODE_FITS:
      t->fits = 1;
      break;
    default:
      break;
    }
}

br_status
br__program_emit (br__program *t, br__value *z, const br__instruction *c, const br__value *x, const br__value *y)
{
  size_t left = 0, right = 0;
  br_number number = BR_NUMBER_ZERO;
  br_status status = br__program_slot (t, &left, x);
  right = left;
  if (status == BR_OK && y)
    status = br__program_slot (t, &right, y);
  if (status == BR_OK)
    status = br_number_set (&number, &c->number);
  br__instruction *made = status == BR_OK ? new_instruction (t) : NULL;
  if (!made)
    {
      br_number_clear (&number);
      return status == BR_OK ? BR_NO_MEMORY : status;
    }
  *made = *c;
  made->number = number;
  made->left = left;
  made->right = right;
  made->linear = stays_linear (made, &t->code[left], &t->code[right]);
  note_kind (t, c->op);
  br_real_clear (&z->real);
  z->slot = t->count;
  return BR_OK;
}

br_status
br__program_input (br__program *t, struct br__entry *e)
{
  br__instruction *c;
  if (!br__grow (&t->inputs, &t->input_room, t->input_count + 1, sizeof t->inputs[0])
      || !br__grow (&t->input_slots, &t->slot_room, t->input_count + 1, sizeof (size_t))
      || !(c = new_instruction (t)))
    return BR_NO_MEMORY;
  c->op = BR__CODE_INPUT;
  c->left = t->input_count;
  c->linear = 1;
  t->input_slots[t->input_count] = t->count - 1;
  t->inputs[t->input_count++] = e;
  return BR_OK;
}
