/* SPDX-License-Identifier: LGPL-3.0-or-later
   status.c - names of statuses, and filling in errors without cutting a UTF-8 character.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "exact/status.h"

const char *
br_version (void)
{
  return BR_VERSION;
}

const char *
br_status_name (br_status status)
{
  switch (status)
    {
    case BR_OK: return "ok";
    case BR_SYNTAX: return "syntax";
    case BR_DOMAIN: return "domain";
    case BR_TOO_BIG: return "too big";
    case BR_UNDECIDED: return "undecided";
    case BR_NO_MEMORY: return "no memory";
    case BR_IO: return "input or output";
    case BR_STOPPED: return "stopped";
    }
  return "unknown";
}

int
br__clip (const char *text, size_t length, size_t most)
{
  if (length <= most)
    return (int) length;
  /* Back to a byte that begins a character; four bytes that go on are no character.  */
  size_t end = most;
  while (end > 0 && most - end < 4 && ((unsigned char) text[end] & 0xc0) == 0x80)
    end--;
  return (int) (((unsigned char) text[end] & 0xc0) == 0x80 ? most : end);
}

/* Like vsnprintf, but a text that is too long is cut between two characters.  */
__attribute__ ((format (printf, 3, 0))) static void
print_whole_characters (char *buffer, size_t size, const char *format, va_list arguments)
{
  int length = vsnprintf (buffer, size, format, arguments);
  if (length < 0)
    buffer[0] = 0;
  else if ((size_t) length >= size)
    {
      size_t end = size - 1, start = end;
      /* Back to the first byte of the last character, then see if all of it is there.  */
      while (start > 0 && ((unsigned char) buffer[start - 1] & 0xc0) == 0x80)
        start--;
      if (start > 0)
        {
          unsigned char lead = (unsigned char) buffer[start - 1];
          size_t bytes = lead < 0x80 ? 1 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
          if (start - 1 + bytes > end)
            buffer[start - 1] = 0;
        }
    }
}

void
br__fill (br_error *error, br_status status, size_t offset, size_t length, const char *format, ...)
{
  if (error)
    {
      br_error filled = { .status = status, .offset = offset, .length = length };
      va_list arguments;
      va_start (arguments, format);
      print_whole_characters (filled.message, sizeof filled.message, format, arguments);
      va_end (arguments);
      *error = filled;
    }
}

void
br__hint (br_error *error, const char *format, ...)
{
  if (error)
    {
      char hint[BR_HINT_SIZE];
      va_list arguments;
      va_start (arguments, format);
      print_whole_characters (hint, sizeof hint, format, arguments);
      va_end (arguments);
      __builtin_memcpy (error->hint, hint, sizeof hint);
    }
}

void
br__fill_plain (br_error *error, br_status status, size_t offset, size_t length)
{
  const char *message = "unknown status";
  switch (status)
    {
    case BR_OK: message = ""; break;
    case BR_SYNTAX: message = "not understood"; break;
    case BR_DOMAIN: message = "there is no such value"; break;
    case BR_TOO_BIG: message = "a number on the way has more than 1,000,000 bits, some 300,000 digits"; break;
    case BR_UNDECIDED: message = "not certain at the precision limit"; break;
    case BR_NO_MEMORY: message = "out of memory"; break;
    case BR_IO: message = "a file could not be read or written"; break;
    case BR_STOPPED: message = "stopped"; break;
    }
  br__fill (error, status, offset, length, "%s", message);
}

int
br__error_is_plain (const br_error *error)
{
  br_error plain = { .status = error->status };
  br__fill_plain (&plain, error->status, 0, 0);
  return strcmp (plain.message, error->message) == 0;
}
