/* SPDX-License-Identifier: LGPL-3.0-or-later
   screen.c - how a program shows its answers: `pictures` and `pager`, which are no part of a sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "formula/words.h"
#include "statement/statements.h"

br_status
br__do_screen (br__run *run)
{
  int pager = br__same_word (run->text + run->word.offset, run->word.length, "pager");
  int *off = pager ? &run->sheet->no_pager : &run->sheet->no_pictures, now = *off;
  br_status status = BR_OK;
  if (run->lex.token.type != BR__END)
    {
      now = br__lex_is_word (&run->lex, "off");
      if (!now && !br__lex_is_word (&run->lex, "on"))
        return br__expected (run, "`on` or `off`");
      status = br__lex_next (&run->lex, run->error);
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status != BR_OK)
    return status;
  *off = now;
  br_record *r = br__record_new ("setting");
  br__put_text (r, "name", pager ? "pager" : "pictures");
  br__put_text (r, "value", now ? "off" : "on");
  return br__emit (run, r);
}
