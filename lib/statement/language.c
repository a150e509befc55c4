/* SPDX-License-Identifier: LGPL-3.0-or-later
   language.c - joins the statements of all rooms: dispatch, help and completion read them here.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "draw/draw.h"
#include "explain/explain.h"
#include "lesson/worksheet.h"
#include "phrase/phrase.h"
#include "report/report.h"
#include "shape/shape.h"
#include "sheet/sheet.h"
#include "solve/find.h"
#include "statement/statements.h"
#include "wood/wood.h"

static const br__statement *const rooms[] =
{
  br__statement_statements,
  br__solve_statements,
  br__sheet_statements,
  br__shape_statements,
  br__draw_statements,
  br__report_statements,
  br__explain_statements,
  br__wood_statements,
  br__lesson_statements,
  br__file_statements,
};

const br__statement *
br__statement_at (size_t index)
{
  for (size_t room = 0; room < sizeof rooms / sizeof rooms[0]; room++)
    for (const br__statement *st = rooms[room]; st->word; st++)
      if (index-- == 0)
        return st;
  return NULL;
}

const br__statement *
br__statement_find (const char *word, size_t length)
{
  for (size_t room = 0; room < sizeof rooms / sizeof rooms[0]; room++)
    for (const br__statement *st = rooms[room]; st->word; st++)
      /* Every word begins with a small letter, and nearly every one with another.  */
      if (length && (*word | 0x20) == *st->word && br__same_word (word, length, st->word))
        return st;
  return NULL;
}

br_status
br_sheet_new (br_sheet **sheet)
{
  if (!sheet)
    return BR_DOMAIN;
  static const br__language language = { br__statement_at, br__statement_find, br__sheet_run, br__dispatch, br__put_setting, br__shape_weak, br__put_other,
                                         br__wood_cut_as };
  br__account *account = br__account_new (BR_SHEET_MEMORY);
  if (!account)
    return BR_NO_MEMORY;
  br__account *before = br__account_use (account);
  br_status status = br__sheet_new (sheet, &language);
  (void) br__account_use (before);
  if (status == BR_OK)
    (*sheet)->account = account;
  else
    br__account_close (account);
  return status;
}
