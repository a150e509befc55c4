/* SPDX-License-Identifier: LGPL-3.0-or-later
   update.c - adds to a tagged PDF what cairo does not write: its language, and descriptions of its figures (ISO 32000-1,
   14.9; from memory).  This is an incremental update (7.5.6): new versions of the changed objects and a new cross-reference
   table are appended to the file.  From 1.18 on cairo puts objects into object streams (7.5.7) and uses a cross-reference
   stream (7.5.8); both kinds of file are supported.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <glib.h>
/* What is read through zlib stays as it is.  */
#define ZLIB_CONST
#include <zlib.h>

#include "page/update.h"

/* The dictionary of an object as it is now, without the >> that ends it.  */
typedef struct change
{
  long number;
  char *text;
  size_t length;
  size_t offset;                /* its new offset */
  const char *description;      /* of a figure; NULL: the catalogue */
} change;

typedef struct changes
{
  change *rows;
  size_t count, room;
  char *const *descriptions;
  size_t figures, figure;       /* how many there are, and the next one */
  int failed;                   /* memory ran out */
} changes;

int
br__bytes_put (br__bytes *to, const char *bytes, size_t length)
{
  if (!to->failed && (!to->bytes || to->length + length + 1 > to->room))
    {
      size_t room = (to->length + length + 1) * 2;
      char *more = realloc (to->bytes, room);
      if (more)
        {
          to->bytes = more;
          to->room = room;
        }
      else
        to->failed = 1;
    }
  if (!to->failed)
    {
      memcpy (to->bytes + to->length, bytes, length);
      to->length += length;
      to->bytes[to->length] = '\0';
    }
  return !to->failed;
}

/* At most 200 bytes, as entries of a PDF have.  */
__attribute__ ((format (printf, 2, 3))) static void
put (br__bytes *to, const char *format, ...)
{
  char line[200];
  va_list args;
  va_start (args, format);
  vsnprintf (line, sizeof line, format, args);
  va_end (args);
  br__bytes_put (to, line, strlen (line));
}

/* WORD in the LENGTH bytes of TEXT, some of which may be zero; NULL: it is not there.  */
static const char *
find (const char *text, size_t length, const char *word)
{
  size_t n = strlen (word);
  for (const char *end = text + length; (size_t) (end - text) >= n; text++)
    {
      text = memchr (text, word[0], (size_t) (end - text) - n + 1);
      if (!text)
        return NULL;
      if (memcmp (text, word, n) == 0)
        return text;
    }
  return NULL;
}

/* The number behind WORD; 0: it is not there.  */
static long
number_behind (const char *text, size_t length, const char *word)
{
  const char *found = find (text, length, word);
  return found ? strtol (found + strlen (word), NULL, 10) : 0;
}

/* Keeps the object NUMBER, whose dictionary is TEXT, if it is the catalogue or a figure.  */
static void
look_at (changes *all, long number, const char *text, size_t length)
{
  int figure = all->figure < all->figures && find (text, length, "/S /Figure");
  if (all->failed || (!figure && !find (text, length, "/Type /Catalog")))
    return;
  while (length > 0 && text[length - 1] != '>')
    length--;
  if (all->count == all->room)
    {
      size_t room = 2 * all->room + 8;
      change *more = realloc (all->rows, room * sizeof *more);
      if (!more)
        {
          all->failed = 1;
          return;
        }
      all->rows = more;
      all->room = room;
    }
  change *c = &all->rows[all->count];
  *c = (change) { number, malloc (length + 1), length >= 2 ? length - 2 : 0, 0, figure ? all->descriptions[all->figure] : NULL };
  if (!c->text)
    {
      all->failed = 1;
      return;
    }
  memcpy (c->text, text, length);
  all->figure += (size_t) figure;
  all->count++;
}

/* The stream at PACKED (RFC 1950), which ends by itself.  0: it cannot be read.  */
static int
unpack (br__bytes *plain, const char *packed, size_t length)
{
  z_stream z = { .next_in = (const Bytef *) packed, .avail_in = length < UINT_MAX ? (uInt) length : UINT_MAX };
  char part[4096];
  int status = inflateInit (&z);
  if (status != Z_OK)
    return 0;
  do
    {
      z.next_out = (Bytef *) part;
      z.avail_out = sizeof part;
      status = inflate (&z, Z_NO_FLUSH);
      br__bytes_put (plain, part, sizeof part - z.avail_out);
    }
  while (status == Z_OK && !plain->failed);
  inflateEnd (&z);
  return status == Z_STREAM_END && !plain->failed;
}

/* A stream of objects: DICTIONARY says how many it has and where the first begins; before them stand their numbers and places.  */
static void
look_into (changes *all, const char *dictionary, size_t length, const char *packed, size_t rest)
{
  br__bytes plain = { NULL, 0, 0, 0 };
  long count = number_behind (dictionary, length, "/N "), first = number_behind (dictionary, length, "/First ");
  if (unpack (&plain, packed, rest) && first > 0 && (size_t) first <= plain.length)
    {
      char *at = plain.bytes;
      for (long i = 0; i < count; i++)
        {
          long number = strtol (at, &at, 10), start = first + strtol (at, &at, 10), end = (long) plain.length;
          char *next = at;
          if (i + 1 < count)
            {
              strtol (next, &next, 10);
              end = first + strtol (next, NULL, 10);
            }
          if (start <= end && end <= (long) plain.length)
            look_at (all, number, plain.bytes + start, (size_t) (end - start));
        }
    }
  all->failed |= plain.failed;
  free (plain.bytes);
}

/* Each object of FILE: "12 0 obj\n<< ... >>\nstream\n ... endobj".  */
static void
look_through (changes *all, const br__bytes *file)
{
  const char *at = file->bytes, *end = file->bytes + file->length;
  for (const char *head; (head = find (at, (size_t) (end - at), " 0 obj\n")); )
    {
      const char *start = head + 7, *stop = find (start, (size_t) (end - start), "endobj");
      if (!stop)
        break;
      const char *stream = find (start, (size_t) (stop - start), "stream\n");
      size_t length = (size_t) ((stream ? stream : stop) - start);
      while (head > file->bytes && head[-1] >= '0' && head[-1] <= '9')
        head--;
      if (stream && find (start, length, "/Type /ObjStm"))
        look_into (all, start, length, stream + 7, (size_t) (stop - stream - 7));
      else
        look_at (all, strtol (head, NULL, 10), start, length);
      at = stop + 6;
    }
}

/* UTF-8 as a string of ISO 32000-1, 7.9.2.2: UTF-16, here in hexadecimal.  */
static void
put_string (br__bytes *file, const char *text)
{
  glong count = 0;
  gunichar2 *units = g_utf8_to_utf16 (text, -1, NULL, &count, NULL);
  put (file, "<FEFF");
  for (glong i = 0; units && i < count; i++)
    put (file, "%04X", (unsigned) units[i]);
  put (file, ">");
  g_free (units);
}

static void
put_object (br__bytes *file, change *c, const char *language)
{
  c->offset = file->length;
  put (file, "%ld 0 obj\n", c->number);
  br__bytes_put (file, c->text, c->length);
  if (c->description)
    {
      put (file, "   /Alt ");
      put_string (file, c->description);
      put (file, "\n");
    }
  else
    put (file, "   /Lang (%s)\n   /ViewerPreferences << /DisplayDocTitle true >>\n", language);
  put (file, ">>\nendobj\n");
}

static int
by_number (const void *a, const void *b)
{
  const change *x = a, *y = b;
  return (x->number > y->number) - (x->number < y->number);
}

/* The entries of a trailer.  LAST: the table before; SIZE: one more than the last object.  */
static void
put_trailer (br__bytes *file, long size, long root, long info, long last)
{
  put (file, "<< /Size %ld\n   /Root %ld 0 R\n   /Info %ld 0 R\n   /Prev %ld\n", size, root, info, last);
}

static void
put_table (br__bytes *file, const changes *all, long size, long root, long info, long last)
{
  put (file, "xref\n");
  for (size_t i = 0; i < all->count; i++)
    put (file, "%ld 1\n%010zu 00000 n \n", all->rows[i].number, all->rows[i].offset);
  put (file, "trailer\n");
  put_trailer (file, size, root, info, last);
  put (file, ">>\n");
}

/* The same as a stream, an object of its own: for each object a 1, its place in four bytes, and its generation, 0.  */
static void
put_table_stream (br__bytes *file, const changes *all, long size, long root, long info, long last)
{
  size_t own = file->length;
  put (file, "%ld 0 obj\n", size);
  put_trailer (file, size + 1, root, info, last);
  put (file, "   /Type /XRef\n   /W [1 4 1]\n   /Index [");
  for (size_t i = 0; i < all->count; i++)
    put (file, "%ld 1 ", all->rows[i].number);
  put (file, "%ld 1]\n   /Length %zu\n>>\nstream\n", size, 6 * (all->count + 1));
  for (size_t i = 0; i <= all->count; i++)
    {
      size_t offset = i < all->count ? all->rows[i].offset : own;
      br__bytes_put (file, (char[]) { 1, (char) (offset >> 24), (char) (offset >> 16), (char) (offset >> 8), (char) offset, 0 }, 6);
    }
  put (file, "\nendstream\nendobj\n");
}

int
br__pdf_update (br__bytes *file, const char *language, char *const *descriptions, size_t figures)
{
  changes all = { NULL, 0, 0, descriptions, figures, 0, 0 };
  size_t tail = file->length < 40 ? file->length : 40;
  long last = number_behind (file->bytes + file->length - tail, tail, "startxref\n");
  if (last <= 0 || (size_t) last >= file->length)
    return 1;
  look_through (&all, file);
  size_t rest = file->length - (size_t) last;
  const char *table = file->bytes + last;
  long size = number_behind (table, rest, "/Size "), root = number_behind (table, rest, "/Root "),
    info = number_behind (table, rest, "/Info ");
  int packed = strncmp (table, "xref", 4) != 0;
  if (all.count)
    {
      qsort (all.rows, all.count, sizeof *all.rows, by_number);
      for (size_t i = 0; i < all.count; i++)
        put_object (file, &all.rows[i], language);
      size_t place = file->length;
      (packed ? put_table_stream : put_table) (file, &all, size, root, info, last);
      put (file, "startxref\n%zu\n%%%%EOF\n", place);
    }
  for (size_t i = 0; i < all.count; i++)
    free (all.rows[i].text);
  free (all.rows);
  return !all.failed && !file->failed;
}
