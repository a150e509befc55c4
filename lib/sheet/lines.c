/* SPDX-License-Identifier: LGPL-3.0-or-later
   lines.c - the sheet as text: lines in order, kept as they were typed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/sheet.h"

br_status
br__line_append (br__run *run, br__line **line)
{
  br_sheet *sheet = run->sheet;
  br__line *made = br__alloc_zero (1, sizeof *made);
  if (made)
    made->text = br__strndup (run->text, run->length);
  if (!made || !made->text)
    {
      br__free (made);
      return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  made->length = run->length;
  made->original = made->text;
  made->hidden = 1;
  made->typed = !run->from_file;
  made->owner = sheet->collect ? sheet->collect->line : NULL;
  made->foreign = made->owner != NULL;
  made->ending = sheet->last && sheet->last->ending == BR__CRLF ? BR__CRLF : BR__LF;
  made->prev = sheet->last;
  if (sheet->last)
    sheet->last->next = made;
  else
    sheet->first = made;
  sheet->last = made;
  br__change change = { .kind = BR__CHANGE_LINE_SHOWN, .line = made };
  br_status status = br__change_add (run, &change);
  if (status != BR_OK)
    return status;
  made->hidden = 0;
  *line = made;
  return BR_OK;
}

br_status
br__line_rewrite (br__run *run, br__line *line)
{
  char *text = br__strndup (run->text, run->length);
  if (!text)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br__change change = { .kind = BR__CHANGE_LINE_TEXT, .line = line, .text = line->text,
                    .length = line->length };
  br_status status = br__change_add (run, &change);
  if (status != BR_OK)
    {
      br__free (text);
      return status;
    }
  line->text = text;
  line->length = run->length;
  return BR_OK;
}

br_status
br__line_hide (br__run *run, br__line *line)
{
  br__change change = { .kind = BR__CHANGE_LINE_SHOWN, .line = line };
  br_status status = br__change_add (run, &change);
  if (status == BR_OK)
    br__line_turn (line);
  /* A line from another sheet comes back when that sheet is read again, so save the statement that removed it.  */
  if (line->foreign)
    run->kept = 1;
  return status;
}

br_status
br__take_out (br__run *run, int *active, br__line *line)
{
  br_status status = br__change_switch (run, active);
  return status == BR_OK && line && !line->hidden && (!run->from_file || run->forgetting) ? br__line_hide (run, line) : status;
}

void
br__line_defines (br__line *line, br__entry *e)
{
  void **tag = br__entry_tag (e);
  line->entry = e;
  line->shadowed = *tag;
  *tag = line;
}

void
br__line_turn (br__line *line)
{
  void **tag = line->entry ? br__entry_tag (line->entry) : NULL;
  line->hidden = !line->hidden;
  if (!tag)
    return;
  if (!line->hidden)
    *tag = line;
  else if (*tag == line)
    *tag = line->shadowed;
}

br__line *
br__line_of_entry (br__entry *entry)
{
  br__line *line = *br__entry_tag (entry);
  return line && !line->hidden ? line : NULL;
}

br_status
br__emit_forgotten (br__run *run, const char *name)
{
  br_record *r = br__record_new ("forgotten");
  br__put_text (r, "name", name);
  (void) br__put_list (r, "changed");
  return br__emit (run, r);
}
