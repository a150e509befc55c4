/* SPDX-License-Identifier: GPL-3.0-or-later
   refusal.h - a session of which the first, the second ... allocation is refused.  */
#ifndef BR_TESTS_SHEET_REFUSAL_H
#define BR_TESTS_SHEET_REFUSAL_H

#include "../sheet/support.h"

/* Each refusal is told, nothing is lost, and the sheet still works: LINE then gives a record of KIND with
   EXPECTED at PATH.  The first 300 one by one, then some.  */
CHECK_UNUSED static void
refuse_each (const char *session, const char *line, const char *kind, const char *path, const char *expected)
{
  long n = 0;
  for (int refused = 1; refused; n += n < 300 ? 1 : 1 + (long) check_below (1 + (uint64_t) n / 40))
    {
      br_sheet *sheet = NULL;
      said s = SAID_ZERO;
      check_memory_limit (n);
      br_status status = br_sheet_new (&sheet);
      if (status == BR_OK)
        status = sheet_run (sheet, &s, session);
      check_memory_left = -1;
      refused = check_memory_refused;
      if (status != (refused ? BR_NO_MEMORY : BR_OK))
        fail_msg ("allocation %ld refused: status %d", n, status);
      if (sheet)
        {
          sheet_say (sheet, &s, "%s", line);
          said_is (&s, said_first (&s, kind), path, expected);
        }
      br_sheet_free (sheet);
      if (check_memory_blocks != 0)
        fail_msg ("allocation %ld refused: %ld blocks are lost", n, check_memory_blocks);
      check_memory_free ();
      said_clear (&s);
    }
  assert_true (n > 300);
}

#endif
