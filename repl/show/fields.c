/* SPDX-License-Identifier: GPL-3.0-or-later
   fields.c - numbers that stand in a record as texts.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/fields.h"

#include <string.h>

int
field_sign (const char *number)
{
  int minus = *number == '-';
  size_t zeros = strspn (number + minus, "0.");
  char next = number[minus + zeros];
  if (next == '\0' || next == '/')
    return 0;
  return minus ? -1 : 1;
}

int
field_number (br_number *z, const char *text)
{
  br_measure measure = BR_MEASURE_ZERO;
  size_t length = strlen (text);
  int found = length > 0 && br_number_read (z, text, length, NULL) == BR_OK;
  if (!found && length > 0 && br_measure_read (&measure, text, length, NULL, NULL) == BR_OK)
    {
      br_number_swap (z, &measure.value);
      found = 1;
    }
  br_measure_clear (&measure);
  return found;
}
