/* SPDX-License-Identifier: CC0-1.0
   sketch.c - a sketch at half scale on quarter-inch squares: what was measured and counted on it, at full size.  */
#include <benchrule.h>

#include <stdio.h>
#include <string.h>

static const char *const drawn[] = { "6-27/32", "9-1/2 boxes", "2-3/8" };

int
main (void)
{
  br_number ratio = BR_NUMBER_ZERO, square = BR_NUMBER_ZERO, full = BR_NUMBER_ZERO;
  br_measure measure = BR_MEASURE_ZERO;
  char text[80];
  br_status status = br_scale_read (&ratio, "half", strlen ("half"), NULL);

  if (status == BR_OK)
    status = br_number_set_ratio (&square, 1, 4);
  for (size_t i = 0; i < sizeof drawn / sizeof drawn[0] && status == BR_OK; i++)
    {
      status = br_measure_read (&measure, drawn[i], strlen (drawn[i]), &square, NULL);
      if (status == BR_OK)
        status = br_scale_full_number (&full, &measure.value, &ratio);
      if (status == BR_OK && br_measure_write (text, sizeof text, &full, BR_LENGTH, NULL) < sizeof text)
        printf ("%s drawn is %s\n", drawn[i], text);
    }
  br_measure_clear (&measure);
  br_number_clear (&ratio);
  br_number_clear (&full);
  return status != BR_OK;
}
