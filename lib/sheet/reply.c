/* SPDX-License-Identifier: LGPL-3.0-or-later
   reply.c - functions for all statements: the end of the line, answers, and errors about unexpected words.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/sheet.h"

br_status
br__emit (br__run *run, br_record *r)
{
  br_status status = br__record_failed (r) ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
  const volatile sig_atomic_t *flag = br__account_watch (NULL);     /* the callback may allocate */
  if (run->echoes && run->sink && run->sink->read_as)
    run->sink->read_as (run->sink->user, br__text_string (&run->phrase), br__text_string (&run->left_out));
  run->echoes = 0;
  if (status == BR_OK && run->sink && run->sink->record)
    run->sink->record (run->sink->user, r);
  (void) br__account_watch (flag);
  br__record_free (r);
  return status;
}

br_status
br__emit_or_free (br__run *run, br_record *r, br_status status)
{
  if (status == BR_OK)
    return br__emit (run, r);
  br__record_free (r);
  return status;
}

br_status
br__emit_or_fail (br__run *run, br_record *r, br_status status, size_t offset, size_t length)
{
  if (status == BR_OK)
    return br__emit (run, r);
  br__record_free (r);
  return br__fail_plain (run->error, status, offset, length);
}

int
br__stopped (const br__run *run)
{
  return run->sheet->flag && *run->sheet->flag;
}

void
br__find_note (br__run *run)
{
  size_t start, end = run->length;
  run->end = br__note_start (run->text, run->length);
  start = run->end + (run->end < run->length);
  while (start < end && (run->text[start] == ' ' || run->text[start] == '\t'))
    start++;
  while (end > start && (run->text[end - 1] == ' ' || run->text[end - 1] == '\t'
                         || run->text[end - 1] == '\r'))
    end--;
  run->note = run->text + start;
  run->note_length = end - start;
}

void
br__fill_expected (br__run *run, const char *what)
{
  const br__token *t = &run->lex.token;
  if (t->type == BR__END)
    br__fill (run->error, BR_SYNTAX, t->offset, 0, "the line ends where %s should stand", what);
  else
    br__fill (run->error, BR_SYNTAX, t->offset, t->length, "%s should stand here", what);
}

/* 2 x 3 and 2 x where a size is called x.  */
static void
hint_product (br__run *run)
{
  const br__token *t = &run->lex.token;
  size_t start = t->offset, rest = t->offset + t->length;
  while (start && run->text[start - 1] == ' ')
    start--;
  while (rest < run->end && run->text[rest] == ' ')
    rest++;
  if (rest == run->end)
    rest = t->offset;
  if (run->end < 100)
    br__hint (run->error, "to multiply, write `%.*s * %.*s`", (int) start, run->text, (int) (run->end - rest), run->text + rest);
  else
    br__hint (run->error, "to multiply, write `*`");
}

br_status
br__end_of_line (br__run *run)
{
  const br__token *t = &run->lex.token;
  int shown = br__clip (run->text + t->offset, t->length, 40);
  if (run->lex.status != BR_OK || t->type == BR__END)
    return run->lex.status;
  br__fail (run->error, BR_SYNTAX, t->offset, t->length, "unexpected `%.*s`", shown,
            run->text + t->offset);
  if (t->type == BR__SIGN && t->sign != BR__PLUS_MINUS && (t->sign > 127 || strchr ("<=>", t->sign)))
    br__hint (run->error, run->end < 100 ? "to compare, write `check %.*s`" : "to compare, write `check` at the start of the line",
              (int) run->end, run->text);
  else if (br__lex_is_word (&run->lex, "x"))
    hint_product (run);
  return BR_SYNTAX;
}

br_status
br__remark (br__run *run, const char *format, ...)
{
  char message[BR_MESSAGE_SIZE];
  va_list args;
  va_start (args, format);
  vsnprintf (message, sizeof message, format, args);
  va_end (args);
  br_record *r = br__record_new ("remark");
  br__put_text (r, "message", message);
  return br__emit (run, r);
}
