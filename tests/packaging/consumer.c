/* SPDX-License-Identifier: GPL-3.0-or-later
   consumer.c - a program of others: it has the installed header and the shared library, nothing else.  */
#include <benchrule.h>
#include <stdio.h>

int
main (void)
{
  br_real wheel = BR_REAL_ZERO, gap = BR_REAL_ZERO, z = BR_REAL_ZERO, off = BR_REAL_ZERO;
  br_number eighth = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  br_caution rules[BR_MOST_CAUTIONS];
  char on[80], by[80];
  size_t count = 0;
  if (br_real_read (&wheel, "2-3/8", 5, NULL) || br_real_read (&gap, "1/4", 3, NULL)
      || br_fender_radius (&z, &wheel, &gap, 0, NULL) || br_number_set_ratio (&eighth, 1, 8)
      || br_ruler_round_real (&mark, &off, NULL, &z, &eighth, BR_NEAREST, BR_TIES_UP, 0)
      || br_caution_gap (rules, &count, &gap, BR_BETWEEN_WHEEL_AND_FENDER, BR_AGE_UNKNOWN, 0, NULL))
    return 1;
  br_number_write_mixed (on, sizeof on, &mark);
  br_real_write_decimal (by, sizeof by, NULL, &off, 6, 0, NULL);
  printf ("fender radius %s, error %s\n", on, by);
  for (size_t i = 0; i < count; i++)
    printf ("%s\n  %s\n", rules[i].text, rules[i].source);
  return 0;
}
