/* SPDX-License-Identifier: GPL-3.0-or-later
   input.c - lines from a stream that is no terminal, each within the limit of a line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "input.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "benchrule.h"

#define BLOCK 65536

/* With room for a byte order mark, a CR and one byte that shows that the line is too long.  */
#define ROOM (BR_MAX_LINE + 5)

/* Room for MORE bytes of the line, of which no more than ROOM are kept.  */
static int
grow (input *in, size_t more)
{
  size_t room = in->room ? in->room : 256;
  const size_t wanted = more < ROOM - in->length ? in->length + more : ROOM;
  while (room < wanted)
    room *= 2;
  char *bytes = room > in->room ? realloc (in->bytes, room) : in->bytes;
  if (!bytes)
    return 0;
  in->bytes = bytes;
  in->room = room;
  return 1;
}

/* Reads a block where none is left; how many bytes there are then, 0 at the end, -1 where it failed.  */
static ssize_t
fill (input *in)
{
  if (in->at < in->end)
    return (ssize_t) (in->end - in->at);
  if (!in->block && !(in->block = malloc (BLOCK)))
    return -1;
  const ssize_t got = read (in->fd, in->block, BLOCK);
  in->at = 0;
  in->end = got > 0 ? (size_t) got : 0;
  return got;
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
  const char *newline = NULL;
  ssize_t left;
  size_t count = 0;
  in->length = 0;
  while (!newline && (left = fill (in)) != 0)
    {
      if (left < 0)
        return INPUT_FAILED;
      const char *from = in->block + in->at;
      newline = memchr (from, '\n', (size_t) left);
      count = newline ? (size_t) (newline - from) : (size_t) left;
      if (!grow (in, count))
        return INPUT_FAILED;
      in->at += count + (newline != NULL);
      count = count < ROOM - in->length ? count : ROOM - in->length;
      memcpy (in->bytes + in->length, from, count);
      in->length += count;
    }
  if (!newline && in->length == 0)
    return INPUT_END;
  in->line++;
  skip_mark (in);
  if (in->length > 0 && in->bytes[in->length - 1] == '\r')
    in->length--;
  return INPUT_LINE;
}

int
input_waits (const input *in)
{
  return in->at < in->end && memchr (in->block + in->at, '\n', in->end - in->at) != NULL;
}

void
input_clear (input *in)
{
  input zero = INPUT_ZERO;
  free (in->bytes);
  free (in->block);
  *in = zero;
}
