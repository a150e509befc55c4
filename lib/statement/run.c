/* SPDX-License-Identifier: LGPL-3.0-or-later
   run.c - `run files`: runs the lines of sheet files that the file policy refused at first.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "statement/statements.h"

br_status
br__do_run (br__run *run)
{
  br_sheet *sheet = run->sheet;
  size_t count = 0;
  br_status status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && run->from_file)
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                       "a sheet cannot allow itself to touch files");
  if (status != BR_OK)
    return status;
  for (br__line *l = sheet->first; l; l = l->next)
    if (!l->hidden && l->refused_in && !l->uses)
      {
        count++;
        status = br__run_again (run, l);
        if (run->mistake == BR_OK)
          run->mistake = status;
        if (br__stopped (run))
          return br__fail_stopped (run);
      }
  run->told = run->mistake != BR_OK;
  return count ? BR_OK : br__remark (run, "no line of a sheet file waits to touch files");
}
