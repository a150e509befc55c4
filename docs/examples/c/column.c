/* SPDX-License-Identifier: CC0-1.0
   column.c - a column of CAD numbers, each to sixteenths, and the worst error of them all.  */
#include <benchrule.h>

#include <stdio.h>
#include <string.h>

static const char *const column[] = { "22.3746", "3.4998", "0.7502", "11.0313", "4.7813" };

int
main (void)
{
  br_measure measure = BR_MEASURE_ZERO;
  br_number sixteenth = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO, worst = BR_NUMBER_ZERO;
  char on[80], by[80];
  br_status status = br_number_set_ratio (&sixteenth, 1, 16);

  for (size_t i = 0; i < sizeof column / sizeof column[0] && status == BR_OK; i++)
    {
      status = br_measure_read (&measure, column[i], strlen (column[i]), NULL, NULL);
      if (status == BR_OK)
        status = br_ruler_round (&mark, &off, NULL, &measure.value, &sixteenth, BR_NEAREST, BR_TIES_UP);
      if (status != BR_OK)
        break;
      br_number_write_mixed (on, sizeof on, &mark);
      br_number_write_decimal (by, sizeof by, NULL, &off, 6);
      printf ("%-8s %8s %10s\n", column[i], on, by);
      status = br_number_abs (&off, &off);
      if (status == BR_OK && br_number_cmp (&off, &worst) > 0)
        br_number_swap (&worst, &off);
    }
  br_number_write_decimal (by, sizeof by, NULL, &worst, 6);
  if (status == BR_OK)
    printf ("worst error %s\n", by);
  br_measure_clear (&measure);
  br_number_clear (&mark);
  br_number_clear (&off);
  br_number_clear (&worst);
  return status != BR_OK;
}
