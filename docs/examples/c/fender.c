/* SPDX-License-Identifier: CC0-1.0
   fender.c - the fender's radius around a wheel and the gap between two wheels, on their marks, with the rules that
   the gap touches.  */
#include <benchrule.h>

#include <stdio.h>
#include <string.h>

static br_status
read (br_real *x, const char *text)
{
  return br_real_read (x, text, strlen (text), NULL);
}

/* X on sixteenths, with its error.  */
static br_status
show (const char *name, const br_real *x)
{
  br_number sixteenth = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  br_real off = BR_REAL_ZERO;
  char on[80], by[80];
  br_status status = br_number_set_ratio (&sixteenth, 1, 16);
  if (status == BR_OK)
    status = br_ruler_round_real (&mark, &off, NULL, x, &sixteenth, BR_NEAREST, BR_TIES_UP, 0);
  if (status == BR_OK && br_measure_write (on, sizeof on, &mark, BR_LENGTH, NULL) < sizeof on
      && br_real_write_decimal (by, sizeof by, NULL, &off, 6, 0, NULL) < sizeof by)
    printf ("%s: mark %s, error %s\n", name, on, by);
  br_number_clear (&mark);
  br_real_clear (&off);
  return status;
}

int
main (void)
{
  br_real front = BR_REAL_ZERO, rear = BR_REAL_ZERO, base = BR_REAL_ZERO, gap = BR_REAL_ZERO, z = BR_REAL_ZERO;
  br_caution cautions[BR_MOST_CAUTIONS];
  size_t count = 0;
  int good = read (&front, "2-3/8") == BR_OK && read (&rear, "3-1/2") == BR_OK && read (&base, "3-1/8") == BR_OK
             && read (&gap, "5/16") == BR_OK && br_fender_radius (&z, &front, &gap, 0, NULL) == BR_OK
             && show ("fender radius", &z) == BR_OK && br_wheel_gap (&z, &base, &front, &rear, 0, NULL) == BR_OK
             && show ("wheel gap", &z) == BR_OK
             && br_caution_gap (cautions, &count, &z, BR_BETWEEN_WHEELS, BR_AGE_UNKNOWN, 0, NULL) == BR_OK;
  for (size_t i = 0; good && i < count; i++)
    printf ("%s\n  %s\n", cautions[i].text, cautions[i].source);
  br_real_clear (&z);
  return !good;
}
