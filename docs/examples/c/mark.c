/* SPDX-License-Identifier: CC0-1.0
   mark.c - one measure to a mark: reads it as it is spoken at the bench and says where on eighths it lies.

     ./mark "5' 2-5/16\""  */
#include <benchrule.h>

#include <stdio.h>
#include <string.h>

int
main (int argc, char **argv)
{
  const char *text = argc > 1 ? argv[1] : "22.3746";
  br_measure measure = BR_MEASURE_ZERO;
  br_number eighth = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO;
  br_error error;
  char on[80], by[80];
  int tie = 0;

  if (br_measure_read (&measure, text, strlen (text), NULL, &error) != BR_OK)
    {
      fprintf (stderr, "%s\n%*s %s\n%s\n", text, (int) error.offset + 1, "^", error.message, error.hint);
      return 1;
    }
  int good = br_number_set_ratio (&eighth, 1, 8) == BR_OK
             && br_ruler_round (&mark, &off, &tie, &measure.value, &eighth, BR_NEAREST, BR_TIES_UP) == BR_OK
             && br_number_write_mixed (on, sizeof on, &mark) < sizeof on
             && br_number_write (by, sizeof by, &off) < sizeof by;
  if (good)
    printf ("%s: mark %s, error %s%s\n", text, on, by, tie ? ", half way" : "");
  br_measure_clear (&measure);
  br_number_clear (&mark);
  br_number_clear (&off);
  return !good;
}
