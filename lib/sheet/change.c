/* SPDX-License-Identifier: LGPL-3.0-or-later
   change.c - the changes of a statement: recording them, rollback, undo and redo.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/hidden.h"
#include "sheet/tolerance.h"
#include "sheet/replace.h"

static void
change_clear (br__change *change)
{
  br__definition_free (change->definition);
  if (change->settings)
    br__settings_clear (change->settings);
  br__free (change->settings);
  br__tolerance_free (change->tolerance);
  br__free (change->text);
  br_sheet_free (change->content);
  memset (change, 0, sizeof *change);
}

void
br__changes_drop (br__changes *changes)
{
  for (size_t i = 0; i < changes->count; i++)
    change_clear (&changes->rows[i]);
  br__free (changes->rows);
  memset (changes, 0, sizeof *changes);
}

br_status
br__changes_room (br__run *run)
{
  size_t count = 1;
  for (br__run *r = run; r; r = r->collect)
    {
      br__changes *s = &r->changes;
      count += s->count;
      if (!br__grow (&s->rows, &s->room, count, sizeof (br__change)))
        return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  return BR_OK;
}

/* Work in br__account_takes: some seconds, and a change that takes so little that a line of its own takes longer.  */
#define MOST_CHANGED 7500000
#define SMALL_CHANGE 500

br_status
br__may_change (br__run *run)
{
  if (run->sheet->changed <= MOST_CHANGED)
    return BR_OK;
  return br__fail (run->error, BR_TOO_BIG, run->word.offset, run->word.length,
                   "this input has changed as much as one input may: change this in another");
}

void
br__changed (br_sheet *sheet, size_t takes)
{
  sheet->changed += takes > SMALL_CHANGE ? takes : 0;
}

br_status
br__change_add (br__run *run, const br__change *change)
{
  br_status status = br__changes_room (run);
  if (status == BR_OK)
    run->changes.rows[run->changes.count++] = *change;
  run->changes.done = run->changes.count;
  return status;
}

br_status
br__change_switch (br__run *run, int *active)
{
  br__change change = { .kind = BR__CHANGE_SWITCH, .active = active };
  br_status status = br__change_add (run, &change);
  if (status == BR_OK)
    *active = !*active;
  return status;
}

br_status
br__change_text (br__run *run, char **text, char *new)
{
  br__change change = { .kind = BR__CHANGE_TEXT, .place = text, .text = *text };
  br_status status = br__change_add (run, &change);
  if (status == BR_OK)
    *text = new;
  else
    br__free (new);
  return status;
}

br_status
br__change_define (br__run *run, br__entry *e, br__definition **d, br__moves *moves)
{
  br_status status = br__entry_definition (e) ? br__may_change (run) : BR_OK;
  if (status == BR_OK)
    status = br__changes_room (run);
  if (status == BR_OK)
    status = br__graph_define (run->sheet->graph, e, d, &run->sheet->settings, moves, run->error);
  if (status != BR_OK)
    return status;
  br__change change = { .kind = BR__CHANGE_DEFINITION, .entry = e, .definition = *d };
  *d = NULL;
  return br__change_add (run, &change);
}

br_status
br__moves_join (br__moves *moves, br__moves *from, br__graph *g, br_error *error)
{
  if (!moves->mark)
    moves->mark = br__graph_mark (g);
  for (size_t i = 0; i < from->count; i++)
    {
      if (!br__mark_add (from->rows[i].entry, moves->mark))
        continue;
      if (!br__grow (&moves->rows, &moves->room, moves->count + 1, sizeof (br__move)))
        return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
      moves->rows[moves->count++] = from->rows[i];
      memset (&from->rows[i].before, 0, sizeof from->rows[i].before);
    }
  return BR_OK;
}

static br_status
swap_settings (br_sheet *sheet, br__change *change, br__moves *moves, br_error *error)
{
  br_status status = br__graph_renew (sheet->graph, change->settings, moves, error);
  if (status == BR_OK)
    {
      br__settings other = sheet->settings;
      sheet->settings = *change->settings;
      *change->settings = other;
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
refresh_distances (br_sheet *sheet, const br__change *change, br__moves *moves, br_error *error)
{
  const char *name = NULL;
  size_t length = br__entry_shape (&name, change->entry);
  return br__distances_refresh (sheet->graph, name, length, moves, error);
}

static br_status
swap (br_sheet *sheet, br__change *change, br__moves *moves, br_error *error)
{
  switch (change->kind)
    {
    case BR__CHANGE_DEFINITION:
      return br__graph_define (sheet->graph, change->entry, &change->definition, &sheet->settings,
                               moves, error);
    case BR__CHANGE_SETTINGS:
      return swap_settings (sheet, change, moves, error);
    case BR__CHANGE_LINE_TEXT:
      {
        size_t length = change->line->length;
        swap_texts (&change->line->text, &change->text);
        change->line->length = change->length;
        change->length = length;
        return BR_OK;
      }
    case BR__CHANGE_LINE_SHOWN:
      br__line_turn (change->line);
      return BR_OK;
    case BR__CHANGE_SWITCH:
      *change->active = !*change->active;
      return BR_OK;
    case BR__CHANGE_ANNOTATION:
      {
        struct br__annotation *other = *change->holds;
        *change->holds = change->annotation;
        change->annotation = other;
        return BR_OK;
      }
    case BR__CHANGE_TOLERANCE:
      br__tolerance_swap (sheet->graph, change);
      return BR_OK;
    case BR__CHANGE_TEXT:
      swap_texts (change->place, &change->text);
      return BR_OK;
    case BR__CHANGE_CONTENT:
      br__swap_content (sheet, change->content);
      return BR_OK;
    case BR__CHANGE_DISTANCES:
      return refresh_distances (sheet, change, moves, error);
    }
  return BR_OK;
}

/* Does and takes back changes until the first DONE of them are done.  */
static br_status
go_to (br_sheet *sheet, br__changes *changes, size_t done, br__moves *moves, br_error *error)
{
  br_status status = BR_OK;
  while (status == BR_OK && changes->done != done)
    {
      int back = changes->done > done;
      br__moves some = BR__MOVES_ZERO;
      br__change *change = &changes->rows[back ? changes->done - 1 : changes->done];
      status = swap (sheet, change, moves ? &some : NULL, error);
      /* Marks are of one graph.  */
      if (moves && change->kind == BR__CHANGE_CONTENT)
        moves->mark = br__graph_mark (sheet->graph);
      if (status == BR_OK)
        changes->done += back ? (size_t) -1 : 1;
      if (status == BR_OK && moves)
        status = br__moves_join (moves, &some, sheet->graph, error);
      br__moves_clear (&some);
    }
  return status;
}

/* Goes back to a state that has held before, so that nothing but memory can be wanting.  */
static br_status
finish_rollback (br_sheet *sheet)
{
  br__rollback *r = &sheet->pending_rollback;
  if (!r->changes)
    return BR_OK;
  br__account_spare (1);
  br_status status = go_to (sheet, r->changes, r->done, NULL, NULL);
  br__account_spare (0);
  if (status == BR_OK)
    {
      r->changes = NULL;
      br__changes_drop (&r->own);
      br__checks_judge_all (sheet);
    }
  return status;
}

br_status br__changes_settle (br_sheet *sheet) { return finish_rollback (sheet); }

void
br__rollback_later (br_sheet *sheet, br__changes *changes, size_t done)
{
  sheet->pending_rollback.changes = changes;
  sheet->pending_rollback.done = done;
  (void) finish_rollback (sheet);
}

br_status
br__changes_swap (br_sheet *sheet, br__changes *changes, int backwards, br__moves *moves,
                br_error *error)
{
  size_t before = changes->done;
  br_status status = go_to (sheet, changes, backwards ? 0 : changes->count, moves, error);
  /* All of it or nothing.  */
  if (status != BR_OK)
    br__rollback_later (sheet, changes, before);
  return status;
}

void
br__changes_revert (br__run *run)
{
  br__rollback *r = &run->sheet->pending_rollback;
  if (r->changes == &run->changes)
    r->changes = NULL;
  br__changes *s = &run->changes;
  run->cautioned = 0;           /* its cautions went with it */
  /* A pending rollback of one of its lines comes first; br__changes_room has reserved the memory.  */
  if (s->count && r->changes == &r->own && s->room >= s->count + r->own.count)
    {
      memcpy (s->rows + s->count, r->own.rows, r->own.count * sizeof *s->rows);
      s->done = s->count + r->own.done;
      s->count += r->own.count;
      br__free (r->own.rows);
      r->changes = NULL;
    }
  if (s->count && !r->changes)
    {
      r->own = run->changes;
      memset (&run->changes, 0, sizeof run->changes);
      br__rollback_later (run->sheet, &r->own, 0);
    }
  br__changes_drop (&run->changes);
}

br_status
br__changes_begin (br__run *run)
{
  br_sheet *sheet = run->sheet;
  br_status status = finish_rollback (sheet);
  /* Whether this line may exceed the memory limit is not known before it is parsed, so allow it here.  */
  br__account_spare (1);
  if (status == BR_OK && !br__grow (&sheet->history, &sheet->history_room, sheet->done_count + 1,
                                    sizeof (br__changes)))
    status = BR_NO_MEMORY;
  br__account_spare (0);
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, 0);
}

void
br__changes_commit (br__run *run)
{
  br_sheet *sheet = run->sheet;
  if (!run->changes.count)
    {
      br__changes_drop (&run->changes);
      return;
    }
  if (run->collect)
    {
      /* br__changes_room has made room for them.  */
      br__changes *s = &run->collect->changes;
      memcpy (s->rows + s->count, run->changes.rows, run->changes.count * sizeof *s->rows);
      s->done = s->count += run->changes.count;
      run->changes.count = 0;
      br__changes_drop (&run->changes);
      return;
    }
  /* Drop the newest first: later changes may refer to objects of earlier ones.  */
  for (size_t i = sheet->history_count; i > sheet->done_count; i--)
    br__changes_drop (&sheet->history[i - 1]);
  if (sheet->saved_at != SIZE_MAX && sheet->saved_at > sheet->done_count)
    sheet->saved_at = SIZE_MAX;
  sheet->history[sheet->done_count++] = run->changes;
  sheet->history_count = sheet->done_count;
  memset (&run->changes, 0, sizeof run->changes);
}
