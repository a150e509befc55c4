/* SPDX-License-Identifier: GPL-3.0-or-later
   read_number.h - reads numbers as they stand on a page.  */
#ifndef BR_TESTS_DRAW_READ_NUMBER_H
#define BR_TESTS_DRAW_READ_NUMBER_H

#include "figure.h"

#include <math.h>

/* A number at *S, "≈" for a mark that is only near; *SLACK by how much it may be off.  0: none.  */
static int
read_number (double *value, double *slack, const char **s)
{
  const char *at = *s;
  int near = strncmp (at, "\xE2\x89\x88", 3) == 0, used = 0;
  int whole = 0, n = 0, d = 1;
  at += near ? 3 : 0;
  int minus = *at == '-';
  at += minus;
  if (sscanf (at, "%d-%d/%d%n", &whole, &n, &d, &used) == 3 && used)
    *value = whole + (double) n / d;
  else if (sscanf (at, "%d/%d%n", &n, &d, &used) == 2 && used)
    *value = (double) n / d;
  else
    {
      char *end;
      if (*at < '0' || *at > '9')
        return 0;
      *value = strtod (at, &end);
      used = (int) (end - at);
    }
  *value *= minus ? -1 : 1;
  *slack = near ? 0.6 : 1e-6;   /* half a mark of a ruler of 1/16 in or 1 mm: scaled by the caller */
  *s = at + used;
  return 1;
}

static double half_mark;

static int
read_size (double *value, double *slack, const char *s, const char *mark)
{
  const char *at = strstr (s, mark);
  if (!at)
    return 0;
  at += strlen (mark);
  int good = read_number (value, slack, &at);
  *slack = *slack > 0.1 ? half_mark : *slack;
  return good;
}

static int
is_number (const char *s)
{
  double value, slack;
  const char *times = strstr (s, "x ");
  s = times ? times + 2 : s;
  return read_number (&value, &slack, &s) && (*s == 0 || (times && strncmp (s, " (= ", 4) == 0));
}

#endif
