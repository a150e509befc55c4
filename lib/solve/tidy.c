/* SPDX-License-Identifier: LGPL-3.0-or-later
   tidy.c - moves every given dimension to its nearest mark.  The changes are really made; if only a
   proposal was asked for, they are rolled back before the answer is given.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/text.h"
#include "sheet/hidden.h"
#include "sheet/known.h"
#include "sheet/sheet.h"
#include "sheet/caution.h"
#include "solve/find.h"

/* The entries to tidy: those that are named, or all except these.  */
typedef struct choice
{
  br__entry **named;
  size_t count, room;
  int except;
  br__held held;
} choice;

static int
is_named (const choice *c, const br__entry *e)
{
  for (size_t i = 0; i < c->count; i++)
    if (c->named[i] == e)
      return 1;
  return 0;
}

/* 1 if E may move.  A named entry always may; others only if they are not `known` and not bought hardware.  */
static int
is_chosen (const choice *c, br__entry *e)
{
  if (c->count && !c->except)
    return is_named (c, e);
  return !is_named (c, e) && !br__stays (&c->held, e);
}

static br_status
read_names (choice *c, br__run *run)
{
  br_status status = BR_OK;
  for (int first = 1; status == BR_OK && (first || br__lex_is_sign (&run->lex, ',')); first = 0)
    {
      br__entry *e = NULL;
      if (!first)
        status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__named_entry (run, &e);
      if (status == BR_OK && !br__grow (&c->named, &c->room, c->count + 1, sizeof (br__entry *)))
        status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
      if (status == BR_OK)
        c->named[c->count++] = e;
    }
  return status;
}

/* The mark for a given dimension, *OFF 0 where it lies on one or is not on a ruler, and
   -1 where it is under half a mark.  */
static br_status
mark_for (br_text *text, int *off, br__run *run, const br__value *v, const br__mark *mark)
{
  const br__settings *s = &run->sheet->settings;
  br__value x = BR__VALUE_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br_status status = BR_OK;
  *off = 0;
  if (v->dimension != BR_PLAIN && v->dimension != BR_LENGTH)
    return BR_OK;
  status = br__value_set (&x, v);
  if (status == BR_OK)
    status = br__round_value (&rounded, &x, mark, BR_NEAREST, s, run->error);
  const br_number *q = br_real_rational (&x.real);
  /* A size under half a mark never becomes 0.  */
  if (status == BR_OK && !(q && br_number_equal (q, &rounded.value)) && br_number_sign (&rounded.value) == 0)
    *off = -1;
  else if (status == BR_OK && !(q && br_number_equal (q, &rounded.value)))
    {
      /* A plain dimension stays plain, and a length is written as one.  */
      *off = 1;
      br__put_mark_text (text, &rounded.value, x.dimension, mark, s);
      status = text->failed ? BR_NO_MEMORY : BR_OK;
    }
  br__rounded_clear (&rounded);
  br__value_clear (&x);
  return status;
}

/* Sets E to what MARK_TEXT says, as if that had been typed, as a part of this statement.  */
static br_status
set_to (br__run *run, const choice *c, br__entry *e, const char *mark_text)
{
  const br__definition *d = br__entry_definition (e);
  br_text line = BR_TEXT_ZERO;
  br__run inner = *run;

  br__text_printf (&line, "%s = %s", br__entry_name (e), mark_text);
  if (d->tolerance_text)
    br__text_printf (&line, " +- %s", d->tolerance_text);
  if (br__is_marked_known (&c->held, e))
    br__text_puts (&line, " known");
  inner.text = br__text_string (&line);
  inner.length = inner.end = line.length;
  inner.note = "";
  inner.note_length = 0;
  inner.from_file = 0;
  inner.sink = NULL;
  inner.line = NULL;
  br_status status = line.failed ? BR_NO_MEMORY
                                 : br__lex_start (&inner.lex, inner.text, inner.end, run->error);
  inner.word = inner.lex.token;
  if (status == BR_OK)
    status = br__lex_next (&inner.lex, run->error);
  if (status == BR_OK)
    status = br__assign (&inner);
  run->changes = inner.changes;
  br__text_clear (&line);
  if (status != BR_OK && run->error)
    run->error->offset = run->word.offset, run->error->length = run->word.length;
  return status;
}

static br_status
tidy_all (br__run *run, const br__mark *mark, const choice *c, br_list *kept, size_t *count)
{
  br_status status = BR_OK;
  for (br__entry *e = br__graph_first (run->sheet->graph); e && status == BR_OK;
       e = br__entry_next (e))
    {
      const br__definition *d = br__entry_definition (e);
      const br__value *v = br__entry_value (e);
      br_text text = BR_TEXT_ZERO;
      int off;
      if (!d || !v || d->edge_count || br__is_hidden_entry (e))
        continue;
      status = mark_for (&text, &off, run, v, mark);
      int chosen = is_chosen (c, e);
      if (status == BR_OK && off && (!chosen || off < 0))
        {
          if (chosen || !c->count || c->except)
            br__list_entry (kept, e);
        }
      else if (status == BR_OK && off)
        {
          status = set_to (run, c, e, br__text_string (&text));
          ++*count;
        }
      br__text_clear (&text);
    }
  return status;
}

static void
put_shown (br_record *row, const char *key, const br__value *v, const br__mark *mark, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  const br_number *q = v && mark ? br_real_rational (&v->real) : NULL;
  br_status status = v ? BR_OK : BR_DOMAIN;
  if (q)
    br__put_mark_text (&t, q, v->dimension, mark, s);
  else if (v)
    status = br__shown (&t, v, s);
  t.failed |= status == BR_NO_MEMORY;
  if (status != BR_OK && !t.failed)
    br__put_null (row, key);
  else
    br__put_from (row, key, &t);
  br__text_clear (&t);
}

/* MOVES are those of the way back: what they call before is the proposal, which is on a MARK, and shown as on its ruler, where it
   was given.  */
static void
put_rows (br_record *r, br_sheet *sheet, const br__moves *moves, const br__mark *mark, int derived)
{
  br_list *list = br__put_list (r, derived ? "moves" : "dimensions");
  for (size_t i = moves->count; i-- > 0; )
    {
      const br__move *m = &moves->rows[i];
      const br__definition *d = br__entry_definition (m->entry);
      if (br__is_hidden_entry (m->entry) || (d && d->edge_count > 0) != derived)
        continue;
      br_record *row = br__list_record (list);
      br__put_text (row, "name", br__entry_name (m->entry));
      put_shown (row, "before", br__entry_value (m->entry), NULL, &sheet->settings);
      put_shown (row, "after", m->had ? &m->before : NULL, derived ? NULL : mark, &sheet->settings);
    }
}

/* Judges each check now.  */
static br_status
judge_all (br__run *run)
{
  br_status status = BR_OK;
  for (br__check *c = run->sheet->checks; c && status == BR_OK; c = c->next)
    if (c->active)
      status = br__check_judge (run->sheet, c, run->error);
  return status;
}

static void
put_failing (br_record *r, const br_sheet *sheet)
{
  br_list *list = br__put_list (r, "failing");
  for (const br__check *c = sheet->checks; c; c = c->next)
    if (c->active && c->state == BR__CHECK_FAIL)
      {
        br_text t = BR_TEXT_ZERO;
        br__text_puts (&t, c->formula);
        if (*c->note)
          br__text_printf (&t, "  # %s", c->note);
        br__list_from (list, &t);
      }
}

static br_status
propose (br__run *run, const br__mark *mark, const choice *c, int apply)
{
  br__moves moves = BR__MOVES_ZERO;
  size_t count = 0;
  br_record *r = br__record_new ("tidy");
  br_status status = tidy_all (run, mark, c, br__put_list (r, "kept"), &count);
  int kept = br_list_size (br_record_list (r, "kept")) > 0;

  if (status == BR_OK)
    status = judge_all (run);
  br__put_truth (r, "applied", apply);
  if (status == BR_OK)
    put_failing (r, run->sheet);
  if (status == BR_OK)
    status = br__changes_swap (run->sheet, &run->changes, 1, &moves, run->error);
  if (status == BR_OK)
    {
      put_rows (r, run->sheet, &moves, mark, 0);
      put_rows (r, run->sheet, &moves, mark, 1);
      if (apply)
        status = br__changes_swap (run->sheet, &run->changes, 0, NULL, run->error);
      else
        br__changes_drop (&run->changes);
    }
  if (status == BR_OK)
    status = judge_all (run);
  if (status == BR_OK && !count && !kept)
    {
      br__record_free (r);
      r = NULL;
      status = br__remark (run, "every given dimension lies on a mark");
    }
  else if (status == BR_OK)
    {
      status = br__emit (run, r);
      r = NULL;
    }
  br__record_free (r);
  if (status == BR_OK && apply)
    status = br__tell_cautions (run, &moves, &run->changes);
  br__moves_clear (&moves);
  return status;
}

br_status
br__do_tidy (br__run *run)
{
  br__mark mark = BR__MARK_ZERO;
  br__settings *s = &run->sheet->settings;
  int apply = br__lex_is_word (&run->lex, "apply"), given = 0;
  br_status status = apply ? br__lex_next (&run->lex, run->error) : BR_OK;
  choice c = { .held = BR__HELD_ZERO };

  c.except = status == BR_OK && br__lex_is_word (&run->lex, "except");
  if (c.except)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK && (c.except || (run->lex.token.type == BR__NAME && !br__lex_is_word (&run->lex, "to"))))
    status = read_names (&c, run);
  if (status == BR_OK && br__lex_is_word (&run->lex, "to"))
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__read_mark (run, &mark);
      given = status == BR_OK;
    }
  else if (status == BR_OK && br_number_sign (&run->sheet->tidy.size) > 0)
    status = br__mark_copy (&mark, &run->sheet->tidy);
  else if (status == BR_OK)
    status = br__settings_mark (&mark, s);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && given)
    status = br__mark_copy (&run->sheet->tidy, &mark);
  if (status == BR_OK)
    status = br__fail_untold (run->error, br__held_find (&c.held, run->sheet), 0, run->end);
  if (status == BR_OK)
    status = propose (run, &mark, &c, apply);
  br__held_clear (&c.held);
  br__free (c.named);
  br_number_clear (&mark.size);
  return status;
}
