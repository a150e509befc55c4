/* SPDX-License-Identifier: LGPL-3.0-or-later
   unbroken.h - where a line of text must not be broken: inside a size.  All is inline, because the module of pages does not
   link the library.  */
#ifndef BR_MEASURE_UNBROKEN_H
#define BR_MEASURE_UNBROKEN_H

#include <string.h>

/* 1 if a line must not be broken at the blank S + AT: before the unit of a number, or after the metres or feet of a size that has
   more parts.  */
static inline int
br__is_in_measure (const char *s, size_t at)
{
  static const char digits[] = "0123456789";
  static const char *const units[] = { "mm", "cm", "m", "in", "ft" };
  const char *next = s + at + 1;
  if (at == 0 || s[at] != ' ' || *next == 0)
    return 0;
  if (strchr (digits, *next))
    return (s[at - 1] == '\'' && at > 1 && strchr (digits, s[at - 2]))
           || (s[at - 1] == 'm' && at > 2 && s[at - 2] == ' ' && strchr (digits, s[at - 3]));
  for (size_t i = 0; strchr (digits, s[at - 1]) && i < sizeof units / sizeof units[0]; i++)
    {
      size_t n = strlen (units[i]);
      if (strncmp (next, units[i], n) == 0 && !((next[n] | 32) >= 'a' && (next[n] | 32) <= 'z'))
        return 1;
    }
  return 0;
}

#endif
