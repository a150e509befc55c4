/* SPDX-License-Identifier: LGPL-3.0-or-later
   text.c - a growable text buffer that remembers if memory ran out.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/text.h"

void
br__text_clear (br_text *t)
{
  br__free (t->bytes);
  *t = (br_text) BR_TEXT_ZERO;
}

void
br__text_reset (br_text *t)
{
  t->length = 0;
  if (t->bytes)
    t->bytes[0] = 0;
}

char *
br__text_more_room (br_text *t, size_t more)
{
  size_t need;
  if (t->failed)
    return NULL;
  if (__builtin_add_overflow (t->length, more, &need) || need == SIZE_MAX)
    t->failed = 1;
  else if (need + 1 > t->room)
    {
      /* A first block that most texts never outgrow.  */
      size_t first = need + 1 < 64 ? 64 : need + 1;
      t->failed = !br__grow (&t->bytes, &t->room, first, 1);
    }
  return t->failed ? NULL : t->bytes + t->length;
}

void
br__text_put (br_text *t, const char *bytes, size_t length)
{
  /* BYTES may lie in T itself, which can move.  */
  uintptr_t from = (uintptr_t) bytes, start = (uintptr_t) t->bytes;
  int inside = t->bytes && from >= start && from < start + t->room;
  size_t at = inside ? (size_t) (from - start) : 0;
  char *end = br__text_room (t, length);
  if (!end)
    return;
  if (length)
    memmove (end, inside ? t->bytes + at : bytes, length);
  br__text_took (t, length);
}

void
br__text_puts (br_text *t, const char *string)
{
  br__text_put (t, string, strlen (string));
}

void
br__text_printf (br_text *t, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  int length = vsnprintf (NULL, 0, format, arguments);
  va_end (arguments);
  if (length < 0)
    t->failed = 1;
  char *end = t->failed ? NULL : br__text_room (t, (size_t) length);
  if (!end)
    return;
  va_start (arguments, format);
  vsnprintf (end, (size_t) length + 1, format, arguments);
  va_end (arguments);
  br__text_took (t, (size_t) length);
}

const char *
br__text_string (const br_text *t)
{
  return t->bytes ? t->bytes : "";
}

size_t
br__text_hand_out (char *buffer, size_t size, br_text *t)
{
  size_t length = t->failed ? SIZE_MAX : t->length;
  if (size > 0)
    {
      size_t some = t->failed ? 0 : t->length < size ? t->length : size - 1;
      if (some)
        memcpy (buffer, t->bytes, some);
      /* On a failure the buffer is an output too: left as it was.  */
      if (!t->failed)
        buffer[some] = 0;
    }
  br__text_clear (t);
  return length;
}
