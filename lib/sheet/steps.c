/* SPDX-License-Identifier: LGPL-3.0-or-later
   steps.c - what a statement changed, and undo and redo of it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/shape.h"
#include "wood/wood.h"
#include "sheet/tolerance.h"
#include "sheet/replace.h"

static void
step_clear (br__step *step)
{
  br__definition_free (step->definition);
  if (step->settings)
    br__settings_clear (step->settings);
  br__free (step->settings);
  br__tolerance_free (step->tolerance);
  br__free (step->text);
  br_sheet_free (step->content);
  memset (step, 0, sizeof *step);
}

void
br__steps_drop (br__statement_steps *steps)
{
  for (size_t i = 0; i < steps->count; i++)
    step_clear (&steps->steps[i]);
  br__free (steps->steps);
  memset (steps, 0, sizeof *steps);
}

br_status
br__steps_room (br__run *run)
{
  size_t count = 1;
  for (br__run *r = run; r; r = r->collect)
    {
      br__statement_steps *s = &r->steps;
      count += s->count;
      if (!br__grow (&s->steps, &s->room, count, sizeof (br__step)))
        return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  return BR_OK;
}

br_status
br__step_add (br__run *run, const br__step *step)
{
  br_status status = br__steps_room (run);
  if (status == BR_OK)
    run->steps.steps[run->steps.count++] = *step;
  run->steps.done = run->steps.count;
  return status;
}

br_status
br__step_define (br__run *run, br__entry *e, br__definition **d, br__moves *moves)
{
  br_status status = br__steps_room (run);
  if (status == BR_OK)
    status = br__graph_define (run->sheet->graph, e, d, &run->sheet->settings, moves, run->error);
  if (status != BR_OK)
    return status;
  br__step step = { .type = BR__STEP_DEFINITION, .entry = e, .definition = *d };
  *d = NULL;
  return br__step_add (run, &step);
}

br_status
br__moves_join (br__moves *moves, br__moves *from, br_error *error)
{
  if (!moves->count)
    {
      br__moves_clear (moves);
      *moves = *from;
      memset (from, 0, sizeof *from);
      return BR_OK;
    }
  for (size_t i = 0; i < from->count; i++)
    {
      size_t k = 0;
      while (k < moves->count && moves->rows[k].entry != from->rows[i].entry)
        k++;
      if (k < moves->count)
        continue;
      if (!br__grow (&moves->rows, &moves->room, moves->count + 1, sizeof (br__move)))
        return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
      moves->rows[moves->count++] = from->rows[i];
      memset (&from->rows[i].before, 0, sizeof from->rows[i].before);
    }
  return BR_OK;
}

static br_status
swap_settings (br_sheet *sheet, br__step *step, br__moves *moves, br_error *error)
{
  br_status status = br__graph_renew (sheet->graph, step->settings, moves, error);
  if (status == BR_OK)
    {
      br__settings other = sheet->settings;
      sheet->settings = *step->settings;
      *step->settings = other;
    }
  return status;
}

static void
swap_texts (char **x, char **y)
{
  char *text = *x;
  *x = *y;
  *y = text;
}

static br_status
swap_step (br_sheet *sheet, br__step *step, br__moves *moves, br_error *error)
{
  switch (step->type)
    {
    case BR__STEP_DEFINITION:
      return br__graph_define (sheet->graph, step->entry, &step->definition, &sheet->settings,
                               moves, error);
    case BR__STEP_SETTINGS:
      return swap_settings (sheet, step, moves, error);
    case BR__STEP_LINE_TEXT:
      {
        char *text = step->line->text;
        size_t length = step->line->length;
        step->line->text = step->text;
        step->line->length = step->length;
        step->text = text;
        step->length = length;
        return BR_OK;
      }
    case BR__STEP_LINE_SHOWN:
      br__line_turn (step->line);
      return BR_OK;
    case BR__STEP_CHECK:
      step->check->active = !step->check->active;
      return BR_OK;
    case BR__STEP_SHAPE:
      step->shape->active = !step->shape->active;
      return BR_OK;
    case BR__STEP_WOOD:
      step->wood->active = !step->wood->active;
      return BR_OK;
    case BR__STEP_TOLERANCE:
      br__tolerance_swap (step);
      return BR_OK;
    case BR__STEP_TITLE:
      swap_texts (&sheet->title, &step->text);
      return BR_OK;
    case BR__STEP_DATE:
      swap_texts (&sheet->date, &step->text);
      return BR_OK;
    case BR__STEP_CONTENT:
      br__swap_content (sheet, step->content);
      return BR_OK;
    }
  return BR_OK;
}

/* Does and takes back steps until the first DONE of them are done.  */
static br_status
go_to (br_sheet *sheet, br__statement_steps *steps, size_t done, br__moves *moves, br_error *error)
{
  br_status status = BR_OK;
  while (status == BR_OK && steps->done != done)
    {
      int back = steps->done > done;
      br__moves some = BR__MOVES_ZERO;
      status = swap_step (sheet, &steps->steps[back ? steps->done - 1 : steps->done],
                          moves ? &some : NULL, error);
      if (status == BR_OK)
        steps->done += back ? (size_t) -1 : 1;
      if (status == BR_OK && moves)
        status = br__moves_join (moves, &some, error);
      br__moves_clear (&some);
    }
  return status;
}

/* Goes back to a state that has held before, so that nothing but memory can be wanting.  */
static br_status
finish_rollback (br_sheet *sheet)
{
  br__rollback *r = &sheet->pending_rollback;
  if (!r->steps)
    return BR_OK;
  br_status status = go_to (sheet, r->steps, r->done, NULL, NULL);
  if (status == BR_OK)
    {
      r->steps = NULL;
      br__steps_drop (&r->own);
      br__checks_judge_all (sheet);
    }
  return status;
}

br_status br__steps_settle (br_sheet *sheet) { return finish_rollback (sheet); }

static void
rollback_later (br_sheet *sheet, br__statement_steps *steps, size_t done)
{
  sheet->pending_rollback.steps = steps;
  sheet->pending_rollback.done = done;
  (void) finish_rollback (sheet);
}

br_status
br__steps_swap (br_sheet *sheet, br__statement_steps *steps, int backwards, br__moves *moves,
                br_error *error)
{
  size_t before = steps->done;
  br_status status = go_to (sheet, steps, backwards ? 0 : steps->count, moves, error);
  /* All of it or nothing.  */
  if (status != BR_OK)
    rollback_later (sheet, steps, before);
  return status;
}

void
br__steps_revert (br__run *run)
{
  br__rollback *r = &run->sheet->pending_rollback;
  if (r->steps == &run->steps)
    r->steps = NULL;
  if (run->steps.count && !r->steps)
    {
      r->own = run->steps;
      memset (&run->steps, 0, sizeof run->steps);
      rollback_later (run->sheet, &r->own, 0);
    }
  br__steps_drop (&run->steps);
}

br_status
br__steps_begin (br__run *run)
{
  br_sheet *sheet = run->sheet;
  br_status status = finish_rollback (sheet);
  if (status == BR_OK && !br__grow (&sheet->history, &sheet->history_room, sheet->done_count + 1,
                                    sizeof (br__statement_steps)))
    status = BR_NO_MEMORY;
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, 0);
}

void
br__steps_commit (br__run *run)
{
  br_sheet *sheet = run->sheet;
  if (!run->steps.count)
    {
      br__steps_drop (&run->steps);
      return;
    }
  if (run->collect)
    {
      /* br__steps_room has made room for them.  */
      br__statement_steps *s = &run->collect->steps;
      memcpy (s->steps + s->count, run->steps.steps, run->steps.count * sizeof *s->steps);
      s->done = s->count += run->steps.count;
      run->steps.count = 0;
      br__steps_drop (&run->steps);
      return;
    }
  /* What came later belongs to what came before.  */
  for (size_t i = sheet->history_count; i > sheet->done_count; i--)
    br__steps_drop (&sheet->history[i - 1]);
  if (sheet->saved_at != SIZE_MAX && sheet->saved_at > sheet->done_count)
    sheet->saved_at = SIZE_MAX;
  sheet->history[sheet->done_count++] = run->steps;
  sheet->history_count = sheet->done_count;
  memset (&run->steps, 0, sizeof run->steps);
}

/* One step through the history, told with all that moved.  */
static br_status
travel (br__run *run, int back)
{
  br_sheet *sheet = run->sheet;
  br__moves moves = BR__MOVES_ZERO;
  br_status status = br__end_of_line (run);

  if (status == BR_OK && run->collect)
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                       "a sheet that is used takes nothing back");
  if (status != BR_OK)
    return status;
  if (back ? sheet->done_count == 0 : sheet->done_count == sheet->history_count)
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                     back ? "there is nothing to undo" : "there is nothing to redo");
  br__statement_steps *steps = &sheet->history[back ? sheet->done_count - 1 : sheet->done_count];
  status = br__steps_swap (sheet, steps, back, &moves, run->error);
  if (status == BR_OK)
    {
      sheet->done_count += back ? (size_t) -1 : 1;
      br_record *r = br__record_new (back ? "undone" : "redone");
      status = br__put_moves (r, &moves, sheet);
      if (status == BR_OK)
        status = br__emit (run, r);
      else
        br__record_free (r);
      if (status == BR_OK)
        status = br__tell_change (run, &moves);
      if (status != BR_OK)
        {
          sheet->done_count += back ? 1 : (size_t) -1;
          rollback_later (sheet, steps, back ? steps->count : 0);
        }
    }
  br__moves_clear (&moves);
  return status;
}

br_status br__do_undo (br__run *run) { return travel (run, 1); }
br_status br__do_redo (br__run *run) { return travel (run, 0); }
