/* SPDX-License-Identifier: LGPL-3.0-or-later
   safety.c - cautions that go with results, and the statements about drills and saws.  The
   figures and their sources are in lib/shop.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/safety.h"
#include "shop/blade.h"
#include "shop/caution.h"
#include "shop/drill.h"

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

static br_status
emit_caution (br__run *run, br_text *message, br_text *source, br_text *scope)
{
  br_record *r = br__record_new ("caution");
  br__put_from (r, "message", message);
  br__put_from (r, "source", source);
  br__put_from (r, "scope", scope);
  return br__emit (run, r);
}

/* Both standards in one caution, so that a result draws one.  */
static br_status
tell_gap (br__run *run, const br_real *gap, const br__child *child)
{
  br__gap_answer answer;
  br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO;
  br_status status = br__gap_caution (&answer, gap, child, run->sheet->settings.bits);

  if (status != BR_OK || !answer.count)
    return status;
  for (size_t i = 0; i < answer.count; i++)
    {
      const br_caution *c = answer.cautions[i];
      size_t length = strlen (c->text);
      size_t tail = sizeof "; " BR__TEACHER_FIRST - 1;
      if (i + 1 < answer.count && length > tail)
        length -= tail;
      if (i > 0)
        br__text_puts (&message, "; "), br__text_puts (&source, "; "), br__text_puts (&scope, "; ");
      br__text_put (&message, c->text, length);
      br__text_puts (&source, c->source);
      br__text_puts (&scope, c->scope);
    }
  return emit_caution (run, &message, &source, &scope);
}

br_status
br__caution_gap (br__run *run, const br__value *gap, const char *parts)
{
  const br__settings *s = &run->sheet->settings;
  br__child child = br__child_of (s);
  br__value inches = BR__VALUE_ZERO;
  br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO;
  br_style style = br__settings_style (s);
  br_status status;

  if (gap->dimension != BR_PLAIN && gap->dimension != BR_LENGTH)
    return BR_OK;
  status = br__value_set (&inches, gap);
  if (status == BR_OK && gap->dimension == BR_PLAIN)
    status = br__to_length (&inches, s);
  if (status == BR_OK)
    status = br__overlap_message (&message, gap->dimension == BR_PLAIN ? &gap->real : &inches.real, parts,
                                  gap->dimension, &style, s->bits);
  if (status == BR_UNDECIDED)
    status = BR_OK;
  if (status == BR_OK && message.length)
    {
      br__text_puts (&source, "geometry");
      br__text_puts (&scope, "parts that must turn freely");
      status = emit_caution (run, &message, &source, &scope);
    }
  else if (status == BR_OK)
    status = tell_gap (run, &inches.real, &child);
  br__text_clear (&message);
  br__value_clear (&inches);
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, run->end);
}

/* A curve that the class's blade can not follow.  */
static br_status
judge_curve (br__run *run, const br__value *radius)
{
  const br__settings *s = &run->sheet->settings;
  const br__blade *blade = br_number_sign (&s->blade) > 0 ? br__blade_radius (&s->blade) : NULL;
  br__value inches = BR__VALUE_ZERO;
  br_real least = BR_REAL_ZERO;
  int order = 0;

  if (!blade || (radius->dimension != BR_PLAIN && radius->dimension != BR_LENGTH))
    return BR_OK;
  br_status status = br__value_set (&inches, radius);
  if (status == BR_OK && inches.dimension == BR_PLAIN)
    status = br__to_length (&inches, s);
  if (status == BR_OK)
    status = br_number_set_ratio (&least.rational, blade->radius_num, blade->radius_den);
  if (status == BR_OK)
    status = br_real_cmp (&order, &inches.real, &least, s->bits);
  if (status == BR_OK && order < 0)
    {
      br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO;
      br_style style = br__settings_style (s);
      br__text_puts (&message, "a blade ");
      br__put_measure (&message, &s->blade, BR_LENGTH, &style);
      br__text_puts (&message, " wide follows no curve tighter than a radius of ");
      br__put_measure (&message, &least.rational, BR_LENGTH, &style);
      br__text_puts (&message, ": take a narrower blade or another saw, and do not force it; "
                               BR__TEACHER_FIRST);
      br__text_puts (&source, blade->source);
      br__text_puts (&scope, "band saws");
      status = emit_caution (run, &message, &source, &scope);
    }
  br_real_clear (&least);
  br__value_clear (&inches);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* The subtree of node INDEX as a tree that borrows from T.  */
static br__tree
subtree (const br__tree *t, size_t index)
{
  br__tree part = *t;
  part.nodes = t->nodes + t->nodes[index].first;
  part.count = index - t->nodes[index].first + 1;
  return part;
}

/* The index of operand K of node INDEX.  */
static size_t
operand (const br__tree *t, size_t index, unsigned k)
{
  size_t child = index - 1;
  for (unsigned i = t->nodes[index].count - 1; i > k; i--)
    child = t->nodes[child].first - 1;
  return child;
}

static br_status
value_at (br__value *v, br__run *run, const br__tree *t, size_t index)
{
  br__tree part = subtree (t, index);
  return br__value_of (v, run, &part);
}

/* What in a call is a gap between moving parts, and what a curve to saw.  */
static const struct { const char *name; int gap; int curve; const char *parts; } watched[] =
{
  { "fender_radius", 1, -1, "the wheel and its fender" },
  { "fender_outer", 1, 0, "the wheel and its fender" },
  { "fender_gap", -1, -2, "the wheel and its fender" },
  { "wheel_gap", -1, -2, "the wheels" },
};

/* 1 if one of the words of NAME, parted by underscores, is "gap".  */
static int
is_called_gap (const char *name)
{
  for (const char *s = name; (s = strstr (s, "gap")) != NULL; s += 3)
    if ((s == name || s[-1] == '_') && (s[3] == 0 || s[3] == '_'))
      return 1;
  return 0;
}

/* The gap that operand INDEX names is told of where that dimension is set.  */
static int
is_told_elsewhere (const br__tree *t, size_t index)
{
  const br__node *n = &t->nodes[index];
  return n->op == BR__OP_NAME && n->entry && is_called_gap (br__entry_name (n->entry));
}

static br_status
judge_call (br__run *run, const br__tree *t, size_t index, size_t row)
{
  br__value v = BR__VALUE_ZERO;
  int gap = watched[row].gap, curve = watched[row].curve;
  size_t place = gap < 0 ? index : operand (t, index, (unsigned) gap);
  br_status status = BR_OK;
  if (!is_told_elsewhere (t, place))
    {
      status = value_at (&v, run, t, place);
      if (status == BR_OK)
        status = br__caution_gap (run, &v, watched[row].parts);
    }
  if (status == BR_OK && curve == -1)
    {
      status = value_at (&v, run, t, index);
      if (status == BR_OK)
        status = judge_curve (run, &v);
    }
  br__value_clear (&v);
  return status;
}

br_status
br__caution_tree (br__run *run, const br__tree *t)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      const br__node *n = &t->nodes[i];
      if (n->op != BR__OP_CALL || !n->function->shop)
        continue;
      for (size_t k = 0; k < sizeof watched / sizeof watched[0] && status == BR_OK; k++)
        if (strcmp (n->function->shop->name, watched[k].name) == 0)
          status = judge_call (run, t, i, k);
    }
  return status;
}

br_status
br__caution_moves (br__run *run, const br__moves *moves)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < moves->count && status == BR_OK; i++)
    {
      const br__entry *e = moves->rows[i].entry;
      const br__value *v = br__entry_value (e);
      if (!v || br__is_hidden_entry (e))
        continue;
      if (is_called_gap (br__entry_name (e)))
        status = br__caution_gap (run, v, "the parts");
      else
        status = br__caution_tree (run, &br__entry_definition (e)->tree);
    }
  return status;
}

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
      br__put_bytes (r, "expression", t.text, t.length);
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
  if (status == BR_OK)
    status = br__emit (run, r);
  else
    br__record_free (r);
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
      br__put_bytes (r, "expression", t.text, t.length);
      status = br__put_value (r, &x, &run->sheet->settings);
      br_list *rows = br__put_list (r, "rows");
      for (size_t i = 0; i < br__blade_count; i++)
        put_blade (br__list_record (rows), &br__blades[i], i < count, &run->sheet->settings);
      br__put_text (r, "source", br__blades[0].source);
      if (status == BR_OK)
        status = br__emit (run, r);
      else
        br__record_free (r);
    }
  br__value_clear (&x);
  br__tree_clear (&t);
  return status;
}
