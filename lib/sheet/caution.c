/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution.c - cautions that go with results.  The figures and their sources are in lib/shop.

   A dimension says what it is between by its name, by the functions that its formula calls, and, of
   a shape, by what it measures.  This file alone asks what that touches: after each change of the dimensions
   that moved, and of an expression that is shown.  An entry keeps what was said of it, so that a caution is
   given once as long as it holds, and again when a size comes back under a rule.  What one change makes to be said of
   several things in the same words is said of all of them together.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "geometry/shape_call.h"
#include "sheet/caution.h"
#include "sheet/caution_look.h"
#include "sheet/hidden.h"
#include "sheet/tolerance.h"
#include "shop/blade.h"
#include "shop/caution.h"

br__child
br__child_of (const br__settings *s)
{
  br__child child = { BR__CHILD_UNSET, 0 };
  if (s->child == BR__NO_CHILD)
    child.state = BR__CHILD_NONE;
  else if (s->child >= 0)
    {
      child.state = BR__CHILD_MONTHS;
      child.months = (unsigned) s->child;
    }
  return child;
}

/* Both standards in one caution, so that a result draws one.  LOW and HIGH are one size, or what it may come to.  */
static br_status
judge_rods (br__concern *c, const br_real *low, const br_real *high)
{
  br__gap_answer answer;
  br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO, brief = BR_TEXT_ZERO;
  br__child child = br__child_of (&c->run->sheet->settings);
  const br_caution *told[2] = { NULL, NULL };
  size_t count = 0, tail = sizeof "; " BR__TEACHER_FIRST - 1;
  int as_cut = low != high;
  br_status status = br__gap_caution (&answer, low, high, &child, c->run->sheet->settings.bits);

  for (size_t i = 0; status == BR_OK && i < answer.count; i++)
    {
      unsigned rule = answer.cautions[i] == answer.of_astm ? RULE_ASTM : RULE_ISO;
      /* What holds of the size itself is said of that.  */
      if (as_cut && c->now & rule)
        continue;
      if (br__is_new_caution (c, as_cut ? rule << AS_CUT : rule))
        told[count++] = answer.cautions[i];
    }
  if (status != BR_OK || !count)
    return status;
  if (as_cut)
    {
      br__text_puts (&message, "as cut, within its tolerance: ");
      br__text_puts (&brief, "as cut: ");
    }
  br__gap_brief (&brief, told[0] == answer.of_astm, count > 1 || told[0] != answer.of_astm,
                 answer.astm == BR_UNKNOWN || answer.iso == BR_UNKNOWN);
  for (size_t i = 0; i < count; i++)
    {
      size_t length = strlen (told[i]->text);
      if (i + 1 < count && length > tail)
        length -= tail;
      if (i > 0)
        br__text_puts (&message, "; "), br__text_puts (&source, "; "), br__text_puts (&scope, "; ");
      br__text_put (&message, told[i]->text, length);
      br__text_puts (&source, told[i]->source);
      br__text_puts (&scope, told[i]->scope);
    }
  return br__caution_add (c->group, c->entry, &message, &source, &scope, &brief);
}

/* What GAP, in inches, may come to where it is off by its tolerances: of the entry E, or else of the tree T, either
   may be NULL.  */
static br_status
judge_as_cut (br__concern *c, const br_real *gap, br__entry *e, const br__tree *t)
{
  br_sheet *sheet = c->run->sheet;
  br__bounds b = BR__BOUNDS_ZERO;
  br__program program = BR__PROGRAM_ZERO;
  br_real *values = NULL;
  br_number *halves = NULL;
  br_real half = BR_REAL_ZERO;
  size_t inputs = 0;
  br_status status = BR_OK;

  if (!br__tolerances_any (sheet))
    return BR_OK;
  if (e && br__tolerance_given (e, NULL))
    {
      status = br__tolerance_half (&half.rational, e, &sheet->settings, NULL);
      if (status == BR_OK)
        status = br_real_sub (&b.low, gap, &half);
      if (status == BR_OK)
        status = br_real_add (&b.high, gap, &half);
      inputs = 1;
    }
  else if (t)
    {
      status = br__program_compile (&program, sheet, t, NULL, &br__tolerance_names, NULL);
      inputs = program.input_count;
      if (status == BR_OK && inputs)
        status = br__inputs_of (&values, &halves, &program, NULL);
      if (status == BR_OK && inputs)
        status = br__bounds_of (&b, &program, values, halves, NULL);
    }
  if (status == BR_OK && inputs)
    status = judge_rods (c, &b.low, &b.high);
  br__inputs_free (values, halves, inputs);
  br__program_clear (&program);
  br__bounds_clear (&b);
  br_real_clear (&half);
  /* What cannot be bounded is said by the checks that ask for it.  */
  return status == BR_NO_MEMORY || status == BR_STOPPED ? status : BR_OK;
}

/* PARTS touch or overlap.  */
static br_status
judge_overlap (br__concern *c, const br__value *gap, const br_real *size, const char *parts)
{
  const br__settings *s = &c->run->sheet->settings;
  br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO, brief = BR_TEXT_ZERO;
  br_style style = br__settings_style (s);
  br_status status = br__overlap_message (&message, size, parts, gap->dimension, &style, s->bits);

  if (status == BR_OK && message.length && br__is_new_caution (c, RULE_RUBS))
    {
      br__text_puts (&source, "geometry");
      br__text_puts (&scope, "parts that must turn freely");
      br__text_puts (&brief, br__text_string (&message));
      return br__caution_add (c->group, c->entry, &message, &source, &scope, &brief);
    }
  br__text_clear (&message);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* A gap between PARTS (NULL: that they overlap is said elsewhere); E and T as for judge_as_cut.  */
static br_status
judge_gap (br__concern *c, const br__value *gap, const char *parts, br__entry *e, const br__tree *t)
{
  br__value inches = BR__VALUE_ZERO;
  br_status status;

  if (gap->dimension != BR_PLAIN && gap->dimension != BR_LENGTH)
    return BR_OK;
  status = br__value_set (&inches, gap);
  if (status == BR_OK && gap->dimension == BR_PLAIN)
    status = br__to_length (&inches, &c->run->sheet->settings);
  if (status == BR_OK && parts)
    status = judge_overlap (c, gap, gap->dimension == BR_PLAIN ? &gap->real : &inches.real, parts);
  if (status == BR_OK)
    status = judge_rods (c, &inches.real, &inches.real);
  if (status == BR_OK)
    status = judge_as_cut (c, &inches.real, e, t);
  br__value_clear (&inches);
  return status == BR_OK ? BR_OK : br__fail_plain (c->run->error, status, 0, c->run->end);
}

br_status
br__caution_gap (br__run *run, const br__value *gap, const char *parts)
{
  br__caution_group g = BR__CAUTION_GROUP_ZERO;
  br__concern c = { .run = run, .group = &g };
  return br__caution_group_end (&g, run, judge_gap (&c, gap, parts, NULL, NULL));
}

/* A curve that the class's blade cannot follow.  */
br_status
br__judge_curve (br__concern *c, const br__value *radius, unsigned rule)
{
  const br__settings *s = &c->run->sheet->settings;
  br__value inches = BR__VALUE_ZERO;
  br_real least = BR_REAL_ZERO;
  const char *from;
  int order = 0;

  if (br_number_sign (&s->blade) <= 0 || (radius->dimension != BR_PLAIN && radius->dimension != BR_LENGTH))
    return BR_OK;
  br_status status = br__value_set (&inches, radius);
  if (status == BR_OK && inches.dimension == BR_PLAIN)
    status = br__to_length (&inches, s);
  if (status == BR_OK)
    status = br__blade_limit (&least.rational, &from, &s->blade);
  if (status == BR_OK)
    status = br_real_cmp (&order, &inches.real, &least, s->bits);
  if (status == BR_OK && order < 0 && br__is_new_caution (c, rule))
    {
      br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO, brief = BR_TEXT_ZERO;
      br_style style = br__settings_style (s);
      br__text_puts (&message, "a blade ");
      br__put_measure (&message, &s->blade, BR_LENGTH, &style);
      br__text_puts (&message, " wide follows no curve tighter than a radius of ");
      br__put_measure (&message, &least.rational, BR_LENGTH, &style);
      br__text_put (&brief, message.bytes, message.length);
      br__text_puts (&message, ": take a narrower blade or another saw, and do not force it; "
                               BR__TEACHER_FIRST);
      br__text_puts (&source, from);
      br__text_puts (&scope, "band saws");
      status = br__caution_add (c->group, c->entry, &message, &source, &scope, &brief);
    }
  br_real_clear (&least);
  br__value_clear (&inches);
  return status == BR_UNDECIDED ? BR_OK : status;
}

static br_status
value_at (br__value *v, br__run *run, const br__tree *t, size_t index)
{
  br__tree part = br__subtree (t, index);
  return br__value_of (v, run, &part);
}

/* 1 if NAME says, in capitals or not, that it is a gap.  */
static int
is_called_gap (const char *name)
{
  static const char *const words[] = { "gap", "clearance", "daylight" };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    for (const char *s = name; *s; s++)
      {
        size_t k = 0;
        while (words[i][k] && (s[k] | 0x20) == words[i][k])
          k++;
        if (!words[i][k])
          return 1;
      }
  return 0;
}

/* The gap that operand INDEX names gets its caution where that dimension is set.  */
static int
is_told_elsewhere (const br__tree *t, size_t index)
{
  const br__node *n = &t->nodes[index];
  return n->op == BR__OP_NAME && n->entry && is_called_gap (br__entry_name (n->entry));
}

static br_status
judge_call (br__concern *c, const br__tree *t, size_t index)
{
  const br__function *f = t->nodes[index].function;
  br__value v = BR__VALUE_ZERO;
  size_t place = f->gap == BR__SHOP_RESULT ? index : br__operand (t, index, (unsigned) f->gap - 1);
  br__tree part = br__subtree (t, place);
  br_status status = BR_OK;
  if (!is_told_elsewhere (t, place))
    {
      status = br__value_of (&v, c->run, &part);
      if (status == BR_OK)
        status = judge_gap (c, &v, f->parts, NULL, &part);
    }
  if (status == BR_OK && f->curve)
    {
      status = value_at (&v, c->run, t, index);
      if (status == BR_OK)
        status = br__judge_curve (c, &v, RULE_CURVE);
    }
  br__value_clear (&v);
  return status;
}

/* A wheel, as far as it is known: a circle.  Its distance from another shape is a gap.  */
static int
is_wheel (const br_sheet *sheet, const char *name, size_t length)
{
  const br__shape *s = br__shape_find (sheet, name, length);
  return s && s->kind == BR__CIRCLE && !s->hole;
}

/* The cautions that were given about the gap between a wheel and its fender, where E is the distance of the two.  */
static unsigned
told_of_fender (const br_sheet *sheet, const char *const name[2], const int length[2])
{
  for (int i = 0; i < 2; i++)
    {
      br__entry *radius = br__shape_entry (sheet->graph, name[i], (size_t) length[i], BR__SHAPE_A);
      br__entry *wheel = br__shape_entry (sheet->graph, name[1 - i], (size_t) length[1 - i], BR__SHAPE_KIND);
      const br__definition *d = radius ? br__entry_definition (radius) : NULL;
      const br__node *last = d && d->tree.count ? &d->tree.nodes[d->tree.count - 1] : NULL;
      if (last && last->op == BR__OP_CALL && last->function == br__shape_function (BR__CALL_FENDER)
          && d->edge_count && d->edges[0].used == wheel)
        return *br__entry_told (radius);
    }
  return 0;
}

/* The distance of two shapes, one of them a wheel.  */
static br_status
judge_distance (br__concern *c, const br__tree *t, const br__node *n)
{
  br_sheet *sheet = c->run->sheet;
  const char *name[2];
  int length[2];
  br__entry *e = br__node_entry (sheet->graph, t, n, 0);
  const br__value *v = e ? br__entry_value (e) : NULL;
  br__node_shapes (name, length, t, n);
  if (!v || (!is_wheel (sheet, name[0], (size_t) length[0]) && !is_wheel (sheet, name[1], (size_t) length[1])))
    return BR_OK;
  unsigned *told = br__entry_told (e);
  br__concern own = { .run = c->run, .group = c->group, .entry = e, .before = *told | told_of_fender (sheet, name, length) };
  br_status status = judge_gap (&own, v, NULL, NULL, NULL);
  *told = own.now;
  return status;
}

static br_status
judge_tree (br__concern *c, const br__tree *t)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      const br__node *n = &t->nodes[i];
      if (n->op == BR__OP_NAME && n->part == BR__SHAPE_CLEAR)
        status = judge_distance (c, t, n);
      if (n->op == BR__OP_CALL && n->function->gap)
        status = judge_call (c, t, i);
    }
  return status;
}

br_status
br__caution_tree (br__run *run, const br__tree *t)
{
  br__caution_group g = BR__CAUTION_GROUP_ZERO;
  br__concern c = { .run = run, .group = &g };
  return br__caution_group_end (&g, run, judge_tree (&c, t));
}

/* What there is to say of E.  */
static br_status
judge_entry (br__look *l, br__entry *e)
{
  unsigned *told = br__entry_told (e);
  br__concern c = { .run = l->run, .group = &l->group, .entry = e, .before = l->again ? 0 : *told };
  const br__value *v = br__entry_value (e);
  const br__definition *d = br__entry_definition (e);
  br_status status = BR_OK;

  if (v && d && !br__is_hidden_entry (e) && is_called_gap (br__entry_name (e)))
    status = judge_gap (&c, v, "the parts", e, &d->tree);
  if (v && d && status == BR_OK)
    status = judge_tree (&c, &d->tree);
  *told = c.now | (*told & RULES_OF_SHAPES);
  return status == BR_OK ? br__judge_shape (l, e) : status;
}

/* The small pieces that the look came upon, in one caution.  */
static br_status
end_look (br__look *l, br_status status)
{
  br__child child = br__child_of (&l->run->sheet->settings);
  const br_caution *small = br__small_part_caution (BR_UNKNOWN, &child);
  if (status == BR_OK && l->small.length && small)
    {
      br_record *r = br__record_new ("caution");
      br_text message = BR_TEXT_ZERO;
      br__text_printf (&message, "%s: as drawn, %s", br__text_string (&l->small), small->text);
      br__put_from (r, "message", &message);
      br__put_text (r, "source", small->source);
      br__put_text (r, "scope", small->scope);
      br__put_copy (r, "parts", &l->small);
      if (!l->again)
        br__put_text (r, "brief", "16 CFR 1501.4: as drawn, small enough for a child under 3 years to choke on");
      br__list_names (br__put_list (r, "concerns"), br__text_string (&l->small));
      status = br__emit (l->run, r);
    }
  br__text_clear (&l->small);
  status = br__caution_group_end (&l->group, l->run, status);
  return status == BR_OK ? BR_OK : br__fail_untold (l->run->error, status, 0, l->run->end);
}

static br_status
judge_all (br__run *run, int again)
{
  br_sheet *sheet = run->sheet;
  br__look l = { .run = run, .again = again, .group = { .full = again } };
  br_status status = BR_OK;
  for (br__entry *e = br__graph_first (sheet->graph); e && status == BR_OK; e = br__entry_next (e))
    {
      if (again && br__entry_kind_of (e) == BR__ENTRY_DISTANCE)
        *br__entry_told (e) = 0;
      status = judge_entry (&l, e);
    }
  sheet->child_told = sheet->settings.child;
  if (status == BR_OK)
    status = br_number_set (&sheet->blade_told, &sheet->settings.blade);
  return end_look (&l, status);
}

br_status
br__tell_cautions (br__run *run, const br__moves *moves)
{
  /* Without a reader no caution counts as given: a line that `tidy` tries.  */
  if (!run->sink || !run->sink->record)
    return BR_OK;
  const br_sheet *sheet = run->sheet;
  if (!moves || sheet->child_told != sheet->settings.child || !br_number_equal (&sheet->blade_told, &sheet->settings.blade))
    return judge_all (run, 0);
  br__look l = { .run = run };
  br_status status = BR_OK;
  for (size_t i = 0; i < moves->count && status == BR_OK; i++)
    status = judge_entry (&l, moves->rows[i].entry);
  return end_look (&l, status);
}

br_status
br__caution_all (br__run *run)
{
  return judge_all (run, 1);
}
