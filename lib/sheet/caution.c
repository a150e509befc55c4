/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution.c - cautions that go with results.  The figures and their sources are in lib/shop.

   Whether a dimension is a gap, and between which parts, is found from its name, from the functions that its formula
   calls and, for a number of a shape, from what it measures.  Only this file decides which rules apply: after each
   change, for everything that the change affects; after a line that changes nothing, for the formulas in it.  An entry
   stores which cautions were given, so that a caution is given once while it applies, and again after it had stopped
   applying.  If one change causes the same caution for several things, it is given once with all their names.  */
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

/* Both standards share one caution, so that a result gets only one.  LOW and HIGH are the same size, or its limits.  */
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
      /* If the rule applies to the size itself, only that caution is given.  */
      if (as_cut && c->now & rule)
        continue;
      if (br__is_new_caution (c, as_cut ? rule << AS_CUT : rule))
        told[count++] = answer.cautions[i];
    }
  if (status != BR_OK || !count)
    return status;
  if (as_cut)
    {
      br__text_puts (&message, BR__AS_CUT_WITHIN);
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

/* 1 if V can be a gap, a radius or the size of a piece.  */
static int
is_length (const br__value *v)
{
  return v->dimension == BR_PLAIN || v->dimension == BR_LENGTH;
}

/* A gap between PARTS (NULL: that they overlap is said elsewhere), the size of E or of a formula with the tree T; both may be
   NULL.  */
static br_status
judge_gap (br__concern *c, const br__value *gap, const char *parts, br__entry *e, const br__tree *t)
{
  br__span z = BR__SPAN_ZERO;
  br_status status;

  if (!is_length (gap))
    return BR_OK;
  status = br__span_of (&z, c->run, gap, e, t);
  if (status == BR_OK && parts)
    status = judge_overlap (c, gap, gap->dimension == BR_PLAIN ? &gap->real : &z.size, parts);
  if (status == BR_OK)
    status = judge_rods (c, &z.size, &z.size);
  if (status == BR_OK && z.off)
    status = judge_rods (c, &z.low, &z.high);
  br__span_clear (&z);
  return status == BR_OK ? BR_OK : br__fail_plain (c->run->error, status, 0, c->run->end);
}

/* The cautions given about the current line, if it is not part of the sheet.  */
static unsigned *
told_of_line (br__run *run)
{
  uint32_t hash = br__name_hash (run->text, run->end);
  br_sheet *sheet = run->sheet;
  size_t at = hash % (sizeof sheet->lines_told.rows / sizeof sheet->lines_told.rows[0]);
  if (sheet->lines_told.rows[at].hash != hash)
    sheet->lines_told.rows[at].told = 0;
  sheet->lines_told.rows[at].hash = hash;
  return &sheet->lines_told.rows[at].told;
}

br_status
br__caution_gap (br__run *run, const br__value *gap, const char *parts)
{
  br__caution_group g = BR__CAUTION_GROUP_ZERO;
  unsigned *told = told_of_line (run);
  br__concern c = { .run = run, .group = &g, .before = *told };
  br_status status = judge_gap (&c, gap, parts, NULL, NULL);
  *told = c.now;
  return br__caution_group_end (&g, run, status);
}

/* In the unit in which it was given.  */
static void
put_blade (br_text *t, const br__settings *s)
{
  br_style style = { s->blade_unit, 0 };
  br__put_measure (t, &s->blade, BR_LENGTH, &style);
}

br_status
br__judge_curve (br__concern *c, const br_real *radius, unsigned rule, int as_cut)
{
  const br__settings *s = &c->run->sheet->settings;
  br_real least = BR_REAL_ZERO;
  const char *from;
  int order = 0;

  if (br_number_sign (&s->blade) <= 0 || (as_cut && c->now & rule))
    return BR_OK;
  br_status status = br__blade_limit (&least.rational, &from, &s->blade);
  if (status == BR_OK)
    status = br_real_cmp (&order, radius, &least, s->bits);
  if (status == BR_OK && order < 0 && br__is_new_caution (c, as_cut ? rule << AS_CUT : rule))
    {
      br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO, brief = BR_TEXT_ZERO;
      br_style style = br__settings_style (s);
      br__text_puts (&message, as_cut ? BR__AS_CUT_WITHIN : "");
      br__text_puts (&brief, as_cut ? "as cut: " : "");
      size_t start = message.length;
      br__text_puts (&message, "a blade ");
      put_blade (&message, s);
      br__text_puts (&message, " wide follows no curve tighter than a radius of ");
      br__put_measure (&message, &least.rational, BR_LENGTH, &style);
      br__text_put (&brief, message.bytes + start, message.length - start);
      br__text_puts (&message, ": take a narrower blade or another saw, and do not force it; "
                               BR__TEACHER_FIRST);
      br__text_puts (&source, from);
      br__text_puts (&scope, "band saws");
      status = br__caution_add (c->group, c->entry, &message, &source, &scope, &brief);
    }
  br_real_clear (&least);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* The same for the value RADIUS of E or T.  */
static br_status
judge_radius (br__concern *c, const br__value *radius, br__entry *e, const br__tree *t)
{
  br__span z = BR__SPAN_ZERO;
  br_status status = is_length (radius) ? br__span_of (&z, c->run, radius, e, t) : BR_OK;
  if (status == BR_OK && is_length (radius))
    status = br__judge_curve (c, &z.size, RULE_CURVE, 0);
  if (status == BR_OK && z.off)
    status = br__judge_curve (c, &z.low, RULE_CURVE, 1);
  br__span_clear (&z);
  return status;
}

static int
is_letter (char c)
{
  return ((c | 0x20) >= 'a' && (c | 0x20) <= 'z') || c & 0x80;
}

/* 1 if a word of a name begins at S + AT, or ends before it: no letter goes on there, or a capital in small letters does.  */
static int
parts_words (const char *s, size_t at)
{
  return at == 0 || !is_letter (s[at - 1]) || !is_letter (s[at]) || (s[at - 1] >= 'a' && s[at] >= 'A' && s[at] <= 'Z');
}

/* 1 if NAME says, in capitals or not, that it is a gap: in a word of its own or at either end of one, as in wheelgap, which
   `gape` and `singapore` have not.  */
static int
is_called_gap (const char *name)
{
  static const char *const words[] = { "gap", "clearance", "daylight" };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    for (size_t at = 0; name[at]; at++)
      {
        size_t k = 0;
        while (words[i][k] && (name[at + k] | 0x20) == words[i][k])
          k++;
        if (words[i][k])
          continue;
        size_t end = at + k;
        if (parts_words (name, end) || ((name[end] | 0x20) == 's' && parts_words (name, end + 1)))
          return 1;
        if (parts_words (name, at) && (name[end] | 0x20) != 'e' && (name[end] | 0x20) != 'i')
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

/* The call at INDEX.  That of the whole formula has the tolerance of what it is the formula of.  */
static br_status
judge_call (br__concern *c, const br__tree *t, size_t index)
{
  const br__function *f = t->nodes[index].function;
  br__value v = BR__VALUE_ZERO;
  size_t place = f->gap == BR__SHOP_RESULT ? index : br__operand (t, index, (unsigned) f->gap - 1);
  br__tree part = br__subtree (t, place), whole = br__subtree (t, index);
  br__entry *root = index + 1 == t->count ? c->entry : NULL;
  br_status status = BR_OK;
  if (!is_told_elsewhere (t, place))
    {
      status = br__value_of (&v, c->run, &part);
      if (status == BR_OK)
        status = judge_gap (c, &v, f->parts, place == index ? root : NULL, &part);
    }
  if (status == BR_OK && f->curve)
    {
      status = br__value_of (&v, c->run, &whole);
      if (status == BR_OK)
        status = judge_radius (c, &v, root, &whole);
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
  const br__definition *d = v ? br__entry_definition (e) : NULL;
  br__node_shapes (name, length, t, n);
  if (!d || (!is_wheel (sheet, name[0], (size_t) length[0]) && !is_wheel (sheet, name[1], (size_t) length[1])))
    return BR_OK;
  unsigned *told = br__entry_told (e);
  br__concern own = { .run = c->run, .group = c->group, .entry = e,
                      .before = (c->again ? 0 : *told) | told_of_fender (sheet, name, length), .again = c->again };
  br_status status = judge_gap (&own, v, NULL, NULL, &d->tree);
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
  unsigned *told = told_of_line (run);
  br__concern c = { .run = run, .group = &g, .before = *told };
  br_status status = br__caution_group_end (&g, run, judge_tree (&c, t));
  if (status == BR_OK)
    *told = c.now;
  return status;
}

/* A distance of shapes is a gap for those that ask for it; once it is none any more, the next time is a new one.  */
static br_status
forget_told (br__run *run, br__entry *e)
{
  unsigned *told = br__entry_told (e);
  const br__value *v = br__entry_value (e);
  br__concern c = { .run = run, .before = ~0u };
  br_status status = v && *told ? judge_gap (&c, v, NULL, NULL, &br__entry_definition (e)->tree) : BR_OK;
  *told &= c.now;
  return status;
}

/* Finds the cautions about E.  */
static br_status
judge_entry (br__look *l, br__entry *e)
{
  unsigned *told = br__entry_told (e);
  br__concern c = { .run = l->run, .group = &l->group, .entry = e, .before = l->again ? 0 : *told, .again = l->again };
  const br__value *v = br__entry_value (e);
  const br__definition *d = br__entry_definition (e);
  br_status status = BR_OK;

  if (br__entry_kind_of (e) == BR__ENTRY_DISTANCE)
    return forget_told (l->run, e);
  if (v && d && !br__is_hidden_entry (e) && is_called_gap (br__entry_name (e)))
    status = judge_gap (&c, v, "the parts", e, &d->tree);
  if (v && d && status == BR_OK)
    status = judge_tree (&c, &d->tree);
  *told = c.now | (*told & RULES_OF_SHAPES);
  return status == BR_OK ? br__judge_shape (l, e) : status;
}

static br_status
end_look (br__look *l, br_status status)
{
  status = br__caution_group_end (&l->group, l->run, status);
  return status == BR_OK ? BR_OK : br__fail_untold (l->run->error, status, 0, l->run->end);
}

static br_status
judge_all (br__run *run, int again)
{
  br_sheet *sheet = run->sheet;
  br__look l = { .run = run, .again = again, .group = { .full = again } };
  br_status status = BR_OK;
  /* Nothing here asks for memory, and 100,000 entries take as long as 300,000 requests, measured.  */
  br__account_toil (3 * br__graph_size (sheet->graph));
  for (br__entry *e = br__graph_first (sheet->graph); e && status == BR_OK; e = br__entry_next (e))
    status = judge_entry (&l, e);
  sheet->untold = 0;
  return end_look (&l, status);
}

/* What a change affects: only what moved, also what depends on that but did not move, or the whole sheet.  */
enum { BEARS_ON_MOVED, BEARS_ON_USERS, BEARS_ON_ALL };

static int
reach_of (const br__changes *changes)
{
  int reach = BEARS_ON_MOVED;
  for (size_t i = 0; i < changes->count; i++)
    {
      const br__change *x = &changes->rows[i];
      if (x->kind == BR__CHANGE_SETTINGS || x->kind == BR__CHANGE_CONTENT)
        return BEARS_ON_ALL;
      if (x->kind == BR__CHANGE_TOLERANCE || (x->kind == BR__CHANGE_DEFINITION && x->definition && x->definition->tolerance_text))
        reach = BEARS_ON_USERS;
    }
  return reach;
}

static br_status
judge_each (br__look *l, br__entry *const *rows, size_t count)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < count && status == BR_OK; i++)
    status = judge_entry (l, rows[i]);
  return status;
}

/* Judges what moved and what was defined again.  */
static br_status
judge_moved (br__look *l, const br__moves *moves, const br__changes *changes, int users)
{
  br_sheet *sheet = l->run->sheet;
  br__entry **seeds = NULL, **rows = NULL;
  size_t count = 0, room = 0, found = 0;
  br_status status = br__grow (&seeds, &room, moves->count + changes->count, sizeof *seeds) ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < moves->count && status == BR_OK; i++)
    seeds[count++] = moves->rows[i].entry;
  for (size_t i = 0; i < changes->count && status == BR_OK; i++)
    if (changes->rows[i].entry && (!count || changes->rows[i].entry != seeds[0]))
      seeds[count++] = changes->rows[i].entry;
  if (status == BR_OK && users)
    status = br__users_of (&rows, &found, seeds, count, br__graph_mark (sheet->graph));
  if (status == BR_OK)
    status = users ? judge_each (l, rows, found) : judge_each (l, seeds, count);
  br__free (seeds);
  br__free (rows);
  return status;
}

br_status
br__tell_cautions (br__run *run, const br__moves *moves, const br__changes *changes)
{
  br_sheet *sheet = run->sheet;
  br__look l = { .run = run };
  int reach = reach_of (changes);
  run->cautioned = 1;
  /* Without a reader no caution counts as given: a line that `tidy` tries.  */
  if (!run->sink || !run->sink->record)
    {
      sheet->untold = 1;
      return BR_OK;
    }
  if (sheet->untold || reach == BEARS_ON_ALL)
    return judge_all (run, 0);
  return end_look (&l, judge_moved (&l, moves, changes, reach == BEARS_ON_USERS || br__tolerances_any (sheet)));
}

br_status
br__caution_all (br__run *run)
{
  return judge_all (run, 1);
}

/* Only cautions that depend on the name can be new.  */
br_status
br__caution_renamed (br__run *run, const char *old, const char *new)
{
  static const br_sink silent;
  br__run unheard = *run;
  br__look l = { .run = run };
  br__entry *e = br__graph_find (run->sheet->graph, new, strlen (new));
  unheard.sink = &silent;
  run->cautioned = 1;
  br_status status = judge_all (&unheard, 0);
  if (status != BR_OK || !e || is_called_gap (old))
    return status;
  *br__entry_told (e) = 0;
  return end_look (&l, judge_entry (&l, e));
}
