/* SPDX-License-Identifier: GPL-3.0-or-later
   consumer.c - a program of others: it has the installed header and the shared
   library, nothing else.  Half of 4-3/4 is 2-3/8.  */

#include <benchrule.h>

#include <stdio.h>
#include <string.h>

int
main (void)
{
  br_number x = BR_NUMBER_ZERO, two = BR_NUMBER_ZERO;
  char text[32];
  int good = br_number_set_ratio (&x, 19, 4) == BR_OK
             && br_number_set_int (&two, 2) == BR_OK
             && br_number_div (&x, &x, &two) == BR_OK
             && br_number_write_mixed (text, sizeof text, &x) < sizeof text
             && strcmp (br_version (), BR_VERSION) == 0;
  br_number_clear (&x);
  br_number_clear (&two);
  if (good)
    puts (text);
  return !good;
}
