/* SPDX-License-Identifier: GPL-3.0-or-later
   input.c - lines from a stream that is no terminal, each within the limit of a line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "input.h"

#include <stdlib.h>
#include <string.h>

#include "benchrule.h"

static int
grow (input *in)
{
  size_t room = in->room ? 2 * in->room : 256;
  char *bytes = realloc (in->bytes, room);
  if (!bytes)
    return 0;
  in->bytes = bytes;
  in->room = room;
  return 1;
}

static void
skip_mark (input *in)
{
  static const char mark[] = "\xef\xbb\xbf";
  if (in->line != 1 || in->length < 3 || memcmp (in->bytes, mark, 3) != 0)
    return;
  in->length -= 3;
  memmove (in->bytes, in->bytes + 3, in->length);
}

input_result
input_next (input *in)
{
  int c;
  in->length = 0;
  while ((c = getc_unlocked (in->stream)) != EOF && c != '\n')
    {
      if (in->length == in->room && !grow (in))
        return INPUT_FAILED;
      /* room for a byte order mark, a CR and one byte that shows it is too long */
      if (in->length < BR_MAX_LINE + 5)
        in->bytes[in->length++] = (char) c;
    }
  if (ferror (in->stream))
    return INPUT_FAILED;
  if (c == EOF && in->length == 0)
    return INPUT_END;
  if (!in->bytes && !grow (in))
    return INPUT_FAILED;
  in->line++;
  skip_mark (in);
  if (in->length > 0 && in->bytes[in->length - 1] == '\r')
    in->length--;
  return INPUT_LINE;
}

void
input_clear (input *in)
{
  input zero = INPUT_ZERO;
  free (in->bytes);
  *in = zero;
}
