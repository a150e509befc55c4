/* SPDX-License-Identifier: LGPL-3.0-or-later
   undo.c - the statements undo and redo.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "sheet/sheet.h"

/* Undoes or redoes one statement and answers what moved.  */
static br_status
travel (br__run *run, int back)
{
  br_sheet *sheet = run->sheet;
  br__moves moves = BR__MOVES_ZERO;
  br_status status = br__end_of_line (run);

  if (status == BR_OK && run->collect)
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                       "a sheet that is used takes nothing back");
  if (status == BR_OK)
    status = br__may_change (run);
  if (status != BR_OK)
    return status;
  /* Also where it fails: once what it follows is saved without it, it would do something.  */
  run->steps = 1;
  if (back ? sheet->done_count == 0 : sheet->done_count == sheet->history_count)
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                     back ? "there is nothing to undo" : "there is nothing to redo");
  br__changes *changes = &sheet->history[back ? sheet->done_count - 1 : sheet->done_count];
  status = br__changes_swap (sheet, changes, back, &moves, run->error);
  if (status == BR_OK)
    {
      sheet->done_count += back ? (size_t) -1 : 1;
      br_record *r = br__record_new (back ? "undone" : "redone");
      status = br__put_moves (r, &moves, sheet);
      status = br__emit_or_free (run, r, status);
      if (status == BR_OK)
        status = br__tell_change (run, &moves, changes);
      if (status != BR_OK)
        {
          sheet->done_count += back ? 1 : (size_t) -1;
          br__rollback_later (sheet, changes, back ? changes->count : 0);
        }
    }
  br__moves_clear (&moves);
  return status;
}

br_status br__do_undo (br__run *run) { return travel (run, 1); }
br_status br__do_redo (br__run *run) { return travel (run, 0); }
