/* SPDX-License-Identifier: GPL-3.0-or-later
   engines.c - random sheets, each worked out by everything that works formulas out.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#define ENGINES_BELOW(n) check_below (n)
#define ENGINES_FAIL(...) fail_msg (__VA_ARGS__)

#include "statement/engines.h"

static void
one_value (void **state)
{
  (void) state;
  for (long i = check_times (25); i > 0; i--)
    {
      engines_sheet e;
      engines_make (&e);
      engines_check (&e);
      engines_end (&e);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (one_value),
  };
  return CHECK_RUN (tests);
}
