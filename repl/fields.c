/* SPDX-License-Identifier: GPL-3.0-or-later
   fields.c - short ways to the fields of a record.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "fields.h"

#include <string.h>

const char *
field_text (const br_record *record, const char *key)
{
  br_field field = br_record_get (record, key);
  return field.type == BR_FIELD_TEXT ? field.value.text : "";
}

int
field_truth (const br_record *record, const char *key)
{
  br_field field = br_record_get (record, key);
  return field.type == BR_FIELD_TRUTH && field.value.truth;
}

const br_list *
field_list (const br_record *record, const char *key)
{
  br_field field = br_record_get (record, key);
  return field.type == BR_FIELD_LIST ? field.value.list : NULL;
}

size_t
fields_in (const br_list *list)
{
  return list ? br_list_size (list) : 0;
}

const char *
field_text_at (const br_list *list, size_t index)
{
  br_field field = br_list_at (list, index);
  return field.type == BR_FIELD_TEXT ? field.value.text : "";
}

const br_record *
field_record_at (const br_list *list, size_t index)
{
  br_field field = br_list_at (list, index);
  return field.type == BR_FIELD_RECORD ? field.value.record : NULL;
}

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
