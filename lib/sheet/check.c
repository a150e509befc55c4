/* SPDX-License-Identifier: LGPL-3.0-or-later
   check.c - rules that must hold.  What is kept in the graph is the margin: the right side less
   the left for "at most", the left less the right for "at least".  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/caution.h"
#include "sheet/maker.h"
#include "sheet/tolerance.h"

static br_status
read_comparison (br__run *run, br__comparison *c)
{
  static const struct { int sign; br__comparison c; } signs[] =
  {
    { '<', BR__COMPARE_LT }, { BR__AT_MOST, BR__COMPARE_LE }, { '=', BR__COMPARE_EQ },
    { BR__AT_LEAST, BR__COMPARE_GE }, { '>', BR__COMPARE_GT }, { BR__UNEQUAL, BR__COMPARE_NE }
  };
  for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
    if (br__lex_is_sign (&run->lex, signs[i].sign))
      {
        *c = signs[i].c;
        return br__lex_next (&run->lex, run->error);
      }
  return br__expected (run, "one of < <= = >= > != ");
}

/* GREAT less SMALL as one tree over the text of the rule.  */
static br_status
difference (br__tree *t, const br__tree *great, const br__tree *small, const char *text, size_t base,
            size_t length)
{
  br__node minus = { .op = BR__OP_SUB, .count = 2, .length = length };
  t->base = base;
  t->length = length;
  t->text = br__strndup (text + base, length);
  if (!t->text)
    return BR_NO_MEMORY;
  br_status status = br__tree_append (t, great, great->base - base);
  size_t first = t->count;
  if (status == BR_OK)
    status = br__tree_append (t, small, small->base - base);
  for (size_t i = first; i < t->count; i++)
    t->nodes[i].first += first;
  if (status == BR_OK && !br__grow (&t->nodes, &t->room, t->count + 1, sizeof (br__node)))
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    t->nodes[t->count++] = minus;
  t->deepest = great->deepest > small->deepest + 1 ? great->deepest : small->deepest + 1;
  return status;
}

/* Exactly, and as it is shown; null while it waits.  */
static br_status
put_side (br_record *r, const char *key, const char *shown_key, br__run *run, const br__tree *tree)
{
  const br__settings *s = &run->sheet->settings;
  br__value v = BR__VALUE_ZERO;
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  /* No error text is wanted; without one, no search for similar names is made.  */
  br__run unsaid = *run;
  unsaid.error = NULL;
  br_status status = br__value_of (&v, &unsaid, tree);
  int known = status == BR_OK;
  if (known)
    status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK)
    status = br__shown (&t, &v, s);
  br__put_exact (r, key, known && status == BR_OK ? br_real_rational (&z) : NULL);
  if (known && status == BR_OK)
    br__put_from (r, shown_key, &t);
  br__text_clear (&t);
  br_real_clear (&z);
  br__value_clear (&v);
  /* The check is judged even if its digits are undecided.  */
  return status == BR_NO_MEMORY || (known && status != BR_UNDECIDED) ? status : BR_OK;
}

static br_status
emit_check (br__run *run, br__check *check)
{
  static const char *const states[] = { "pass", "fail", "waiting", "undecided" };
  const br__settings *s = &run->sheet->settings;
  const br__value *v = br__entry_value (check->margin);
  br_record *r = br__record_new ("check");
  br_text t = BR_TEXT_ZERO;
  br_status status;

  br__put_text (r, "formula", check->formula);
  br__put_text (r, "state", states[check->state]);
  status = put_side (r, "left", "left_shown", run, &check->left);
  if (status == BR_OK)
    status = put_side (r, "right", "right_shown", run, &check->right);
  if (v && status == BR_OK)
    {
      br_real z = BR_REAL_ZERO;
      status = br__in_sheet_unit (&z, v, s);
      br__put_exact (r, "margin", br_real_rational (&z));
      br_real_clear (&z);
      if (status == BR_OK)
        status = br__shown (&t, v, s);
      if (status == BR_OK)
        br__put_from (r, "margin_shown", &t);
      else if (status == BR_UNDECIDED)
        status = BR_OK;
      br__text_clear (&t);
    }
  else
    br__put_null (r, "margin");
  if (status == BR_OK)
    status = br__put_worst_margin (r, run->sheet, check);
  br__put_text (r, "note", check->note);
  br__text_clear (&t);
  return br__emit_or_fail (run, r, status, 0, run->end);
}

typedef struct checks
{
  br__check **rows;
  size_t count, room;
} checks;

static int
in_order (const void *x, const void *y)
{
  size_t a = (*(br__check *const *) x)->number, b = (*(br__check *const *) y)->number;
  return a < b ? -1 : a > b;
}

static int
add_check (checks *list, br__check *c)
{
  if (!br__grow (&list->rows, &list->room, list->count + 1, sizeof *list->rows))
    return 0;
  list->rows[list->count++] = c;
  return 1;
}

/* The checks whose margin moved, in the order of the sheet: there may be thousands of others.  */
static br_status
find_moved (checks *list, const br__moves *moves)
{
  int enough = 1;
  for (size_t i = 0; i < moves->count && enough; i++)
    {
      br__check *c = *br__entry_check (moves->rows[i].entry);
      enough = !c || !c->active || add_check (list, c);
    }
  if (list->count)
    qsort (list->rows, list->count, sizeof *list->rows, in_order);
  return enough ? BR_OK : BR_NO_MEMORY;
}

/* With shapes, a check may change between waiting and undecided although no value moved.  */
static br_status
judge_waiting (br_sheet *sheet, br_error *error)
{
  br_status status = BR_OK;
  for (br__check *c = sheet->shapes ? sheet->checks : NULL; c && status == BR_OK; c = c->next)
    if (c->active && !br__entry_value (c->margin))
      status = br__check_judge (sheet, c, error);
  return status;
}

br_status
br__tell_change (br__run *run, const br__moves *moves, const br__changes *changes)
{
  br_sheet *sheet = run->sheet;
  checks moved = { NULL, 0, 0 };
  br_status status = br__tell_cautions (run, moves, changes);
  if (status == BR_OK && sheet->checks && find_moved (&moved, moves) != BR_OK)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, run->end);
  for (size_t i = 0; i < moved.count && status == BR_OK; i++)
    {
      int was = moved.rows[i]->state;
      status = br__check_judge (sheet, moved.rows[i], run->error);
      if (status == BR_OK && (moved.rows[i]->state == BR__CHECK_FAIL || moved.rows[i]->state != was))
        status = emit_check (run, moved.rows[i]);
    }
  br__free (moved.rows);
  if (status == BR_OK)
    status = judge_waiting (sheet, run->error);
  return status == BR_OK ? br__tell_worst_margins (run, moves, changes) : status;
}

/* MARK gets all that depends on what CHANGES did; 0: on settings or the like, so that it may be anything.  */
static br_status
mark_changed (unsigned long *mark, br_sheet *sheet, const br__moves *moves, const br__changes *changes)
{
  br_status status = BR_OK;
  *mark = br__graph_mark (sheet->graph);
  for (size_t i = 0; i < changes->count && status == BR_OK; i++)
    {
      const br__change *change = &changes->rows[i];
      if (change->kind == BR__CHANGE_SETTINGS || change->kind == BR__CHANGE_CONTENT)
        {
          *mark = 0;
          return BR_OK;
        }
      if (change->kind == BR__CHANGE_DEFINITION || change->kind == BR__CHANGE_TOLERANCE)
        status = br__mark_users (&change->entry, 1, *mark);
    }
  for (size_t i = 0; i < moves->count && status == BR_OK; i++)
    status = br__mark_users (&moves->rows[i].entry, 1, *mark);
  return status;
}

br_status
br__tell_worst_margins (br__run *run, const br__moves *moves, const br__changes *changes)
{
  unsigned long mark = 0;
  br_sheet *sheet = run->sheet;
  if (!sheet->checks || !br__tolerances_any (sheet))
    return BR_OK;
  br_status status = mark_changed (&mark, sheet, moves, changes);
  if (status != BR_OK)
    return br__fail_plain (run->error, status, 0, run->end);
  for (br__check *c = sheet->checks; c && status == BR_OK; c = c->next)
    {
      int was = c->as_cut;
      if (!c->active || c->state != BR__CHECK_PASS || (mark && !br__mark_has (c->margin, mark)))
        continue;
      status = br__put_worst_margin (NULL, sheet, c);
      if (status == BR_OK && c->as_cut != BR__AS_CUT_HOLDS && c->as_cut != was)
        status = emit_check (run, c);
      else if (status != BR_OK)
        br__fail_plain (run->error, status, 0, 0);
    }
  return status;
}

/* Shows every rule of the sheet.  */
static br_status
show_all (br__run *run)
{
  br_status status = br__end_of_line (run);
  size_t count = 0;
  for (br__check *c = run->sheet->checks; c && status == BR_OK; c = c->next)
    if (c->active)
      {
        status = br__check_judge (run->sheet, c, run->error);
        if (status == BR_OK)
          status = emit_check (run, c);
        count++;
      }
  if (status == BR_OK && !count)
    status = br__remark (run, "no check has been set yet");
  return status;
}

/* Gives CHECK its hidden entry.  */
static br_status
tie_check (br__run *run, br__check *check, size_t base, size_t length)
{
  br_sheet *sheet = run->sheet;
  br__tree margin = BR__TREE_ZERO;
  br__definition *d = NULL;
  br_text name = BR_TEXT_ZERO;
  int at_most = check->comparison == BR__COMPARE_LT || check->comparison == BR__COMPARE_LE;
  br_status status = difference (&margin, at_most ? &check->right : &check->left,
                                 at_most ? &check->left : &check->right, run->text, base, length);
  if (status == BR_OK)
    {
      br__text_printf (&name, " check %lu", ++sheet->check_count);
      if (!name.failed)
        check->margin = br__graph_get_hidden (sheet->graph, BR__ENTRY_MARGIN, br__text_string (&name), name.length);
      if (!check->margin)
        status = BR_NO_MEMORY;
      check->number = sheet->check_count;
    }
  if (status == BR_OK)
    status = br__definition_new (&d, sheet->graph, &margin, "", 0, run->error);
  else
    br__fail_plain (run->error, status, base, length);
  /* An undone check needs nothing.  */
  if (status == BR_OK)
    status = br__change_define (run, check->margin, &d, NULL);
  br__definition_free (d);
  br__tree_clear (&margin);
  br__text_clear (&name);
  return status;
}

static br_status
read_check (br__run *run, br__check *check)
{
  size_t base = run->lex.token.offset, end;
  br_status status = br__parse (&check->left, &run->lex, run->error);
  if (status == BR_OK)
    status = read_comparison (run, &check->comparison);
  if (status == BR_OK)
    status = br__parse (&check->right, &run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status != BR_OK)
    return status;
  end = check->right.base + check->right.length;
  check->formula = br__strndup (run->text + base, end - base);
  check->note = br__strndup (run->note, run->note_length);
  if (!check->formula || !check->note)
    return br__fail_plain (run->error, BR_NO_MEMORY, base, end - base);
  return tie_check (run, check, base, end - base);
}

/* Gives a hint if CHECK waits for a name that is something else than a dimension.  */
static br_status
tell_waited (br__run *run, const br__check *check)
{
  br_text t = BR_TEXT_ZERO;
  br__put_waited (&t, run->sheet, check->margin);
  br_status status = t.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : t.length ? br__remark (run, "%s", br__text_string (&t)) : BR_OK;
  br__text_clear (&t);
  return status;
}

br_status
br__do_check (br__run *run)
{
  br_sheet *sheet = run->sheet;
  if (run->lex.token.type == BR__END)
    return show_all (run);
  br__check *check = br__alloc_zero (1, sizeof *check);
  if (!check)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br_status status = read_check (run, check);
  if (status == BR_OK)
    status = br__line_append (run, &run->line);
  if (status != BR_OK)
    {
      br__check_free (check);
      return status;
    }
  run->line->check = check;
  *br__entry_check (check->margin) = check;
  if (sheet->last_check)
    sheet->last_check->next = check;
  else
    sheet->checks = check;
  sheet->last_check = check;
  status = br__change_switch (run, &check->active);
  if (status != BR_OK)
    return status;
  status = br__check_judge (sheet, check, run->error);
  if (status == BR_OK)
    status = emit_check (run, check);
  return status == BR_OK ? tell_waited (run, check) : status;
}

/* ---- Rules that are taken out ---- */

/* The next byte of S from *I on that is no blank; 0: its end.  */
static char
next_byte (const char *s, size_t length, size_t *i)
{
  while (*i < length && s[*i] == ' ')
    ++*i;
  return *i < length ? s[(*i)++] : 0;
}

/* FORMULA is TEXT, blanks apart.  */
static int
same_rule (const char *formula, const char *text, size_t length)
{
  size_t i = 0, k = 0;
  char a, b;
  do
    {
      a = next_byte (formula, strlen (formula), &i);
      b = next_byte (text, length, &k);
    }
  while (a && a == b);
  return a == b;
}

/* FORMULA speaks of the name TEXT.  */
static int
names_rule (const char *formula, const char *text, size_t length)
{
  br__lexer lex;
  br_status status = br__lex_start (&lex, formula, strlen (formula), NULL);
  for (; status == BR_OK && lex.token.type != BR__END; status = br__lex_next (&lex, NULL))
    if (lex.token.type == BR__NAME && lex.token.length == length && memcmp (formula + lex.token.offset, text, length) == 0)
      return 1;
  return 0;
}

static br_status
take_check_out (br__run *run, br__check *check)
{
  br__definition *none = NULL;
  br__line *line = run->sheet->first;
  while (line && line->check != check)
    line = line->next;
  /* A check that is removed must not keep what it uses in the graph.  */
  br_status status = br__change_define (run, check->margin, &none, NULL);
  br__definition_free (none);
  if (status == BR_OK)
    status = br__take_out (run, &check->active, line);
  if (status != BR_OK)
    return status;
  return br__emit_forgotten (run, check->formula);
}

/* Removes the check that is written from the current token to the end of the line, or the only one that uses the name there.  */
br_status
br__check_forget (br__run *run)
{
  const size_t start = run->lex.token.offset;
  const char *text = run->text + start;
  size_t length = run->end - start, count = 0;
  br__check *found[2] = { NULL, NULL };
  while (length && text[length - 1] == ' ')
    length--;
  for (int names = 0; names < 2 && !count; names++)
    for (br__check *c = run->sheet->checks; c; c = c->next)
      if (c->active && (names ? names_rule (c->formula, text, length) : same_rule (c->formula, text, length)))
        found[count < 2 ? count : 1] = c, count++;
  while (run->lex.token.type != BR__END)
    if (br__lex_next (&run->lex, run->error) != BR_OK)
      return run->error->status;
  /* The same rule twice goes one by one.  */
  if (count && (count == 1 || same_rule (found[0]->formula, text, length)))
    return take_check_out (run, found[0]);
  br__fail (run->error, BR_DOMAIN, start, length, count ? "several rules speak of `%.*s`" : "there is no rule `%.*s`", br__clip (text, length, 40), text);
  if (count && strlen (found[0]->formula) + strlen (found[1]->formula) < 90)
    br__hint (run->error, "write `forget check %s` or `forget check %s`", found[0]->formula, found[1]->formula);
  else
    br__hint (run->error, "write `check`, which has them all");
  return BR_DOMAIN;
}
