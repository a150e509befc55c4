/* SPDX-License-Identifier: GPL-3.0-or-later
   measure.h - what the tests of measures share: texts of data files with escapes.  */
#ifndef BR_TESTS_MEASURE_H
#define BR_TESTS_MEASURE_H

#include "check.h"

/* Turns \uXXXX, \xHH, \s, \t and \n in TEXT into what they stand for; its length.  */
CHECK_UNUSED static size_t
measure_unescape (char *text)
{
  char *out = text, *in = text, hex[5] = "";
  unsigned code;

  while (*in != '\0')
    {
      if (*in != '\\')
        {
          *out++ = *in++;
          continue;
        }
      switch (in[1])
        {
        case 's': *out++ = ' '; in += 2; break;
        case 't': *out++ = '\t'; in += 2; break;
        case 'n': *out++ = '\n'; in += 2; break;
        case 'x':
          memcpy (hex, in + 2, 2);
          hex[2] = '\0';
          *out++ = (char) strtoul (hex, NULL, 16);
          in += 4;
          break;
        default:
          memcpy (hex, in + 2, 4);
          hex[4] = '\0';
          code = (unsigned) strtoul (hex, NULL, 16);
          in += 6;
          if (code >= 0x800)
            {
              *out++ = (char) (0xe0 | code >> 12);
              *out++ = (char) (0x80 | (code >> 6 & 0x3f));
            }
          else
            *out++ = (char) (0xc0 | code >> 6);
          *out++ = (char) (0x80 | (code & 0x3f));
        }
    }
  *out = '\0';
  return (size_t) (out - text);
}

/* LENGTH bytes of TEXT in a block of just that size, so that a read past the end is seen
   by the memory checkers.  */
CHECK_UNUSED static char *
measure_exact_copy (const char *text, size_t length)
{
  char *copy = malloc (length > 0 ? length : 1);

  if (copy == NULL)
    fail_msg ("no memory");
  else
    memcpy (copy, text, length);
  return copy;
}

/* The status called WORD.  */
CHECK_UNUSED static br_status
measure_status (const char *word)
{
  int status;

  for (status = BR_OK; status <= BR_IO; status++)
    if (strcmp (br_status_name ((br_status) status), word) == 0)
      return (br_status) status;
  fail_msg ("no status is called %s", word);
  return BR_OK;
}

/* Asserts that ERROR is as fields FROM on of DATA say: status, offset, length, part of the
   message, part of the hint.  */
CHECK_UNUSED static void
measure_check_error (const check_data *data, size_t from, br_status status, const br_error *error)
{
  char *const *f = data->field + from;
  const char *hint = from + 4 < data->fields ? f[4] : "-";
  int good = status == measure_status (f[0]) && error->status == status
             && error->offset == strtoul (f[1], NULL, 10)
             && error->length == strtoul (f[2], NULL, 10)
             && strstr (error->message, f[3]) != NULL
             && (strcmp (hint, "-") == 0 ? error->hint[0] == '\0'
                                         : strstr (error->hint, hint) != NULL);

  if (!good)
    fail_msg ("%s:%ld: %s at %zu+%zu: %s; %s", data->name, data->line, br_status_name (status),
              error->offset, error->length, error->message, error->hint);
}

#endif
