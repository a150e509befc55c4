/* SPDX-License-Identifier: LGPL-3.0-or-later
   content.c - what a file holds.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>
#include <strings.h>

#include "file/content.h"

/* MARK: bytes near the start of each page and picture that this program makes, and of few others.  The format alone is not
   enough: a user's own photograph or drawing must not be overwritten.  The mark of a PDF is cairo's comment, that of a PNG
   the background that cairo writes.  */
static const struct
{
  const char *ending, *name, *mark;
} kinds[] =
{
  [BR__CONTENT_SHEET] = { ".sheet", "a sheet", NULL }, [BR__CONTENT_CSV] = { ".csv", "a table like this one", NULL },
  [BR__CONTENT_PAPER] = { ".txt", "a paper or a key like this one", NULL },
  [BR__CONTENT_HTML] = { ".html", "a web page like this one", "><head><meta charset=\"utf-8\"><meta name=\"viewport\" " },
  [BR__CONTENT_SVG] = { ".svg", "an SVG picture like this one", " role=\"img\" " },
  [BR__CONTENT_PDF] = { ".pdf", "a PDF file like this one", "\n%\xB5\xED\xAE\xFB\n" },
  [BR__CONTENT_PNG] = { ".png", "a PNG picture like this one", "bKGD" },
};

#define MARK_WITHIN 400

const char *br__content_name (br__content content) { return kinds[content].name; }

int
br__content_has_ending (const char *path, br__content content)
{
  const char *ending = kinds[content].ending;
  size_t n = strlen (path), k = strlen (ending);
  return n > k && strcasecmp (path + n - k, ending) == 0;
}

br__content
br__content_named (const char *path)
{
  for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
    if (br__content_has_ending (path, (br__content) i))
      return (br__content) i;
  return BR__CONTENT_CSV;
}

static int
begins (const char *bytes, size_t length, const char *with)
{
  size_t n = strlen (with);
  return length >= n && strncasecmp (bytes, with, n) == 0;
}

/* Skips a byte order mark, blanks, and anything that may come before the first element of a page.  */
static void
skip_prolog (const char **bytes, size_t *length)
{
  static const char *const parts[][2] = { { "<?", "?>" }, { "<!--", "-->" }, { "<!doctype svg", ">" } };
  const char *at = *bytes, *end = at + *length;
  if (begins (at, (size_t) (end - at), "\xEF\xBB\xBF"))
    at += 3;
  for (size_t i = 0; i < 3; )
    {
      while (at < end && strchr (" \t\r\n", *at))
        at++;
      const char *close = NULL;
      if (begins (at, (size_t) (end - at), parts[i][0]))
        close = memmem (at, (size_t) (end - at), parts[i][1], strlen (parts[i][1]));
      if (close)
        at = close + strlen (parts[i][1]);
      i = close ? 0 : i + 1;
    }
  *bytes = at;
  *length = (size_t) (end - at);
}

/* The first line, without its end.  */
static size_t
first_line (const char **bytes, size_t length)
{
  if (begins (*bytes, length, "\xEF\xBB\xBF"))
    {
      *bytes += 3;
      length -= 3;
    }
  const char *end = memchr (*bytes, '\n', length);
  size_t n = end ? (size_t) (end - *bytes) : length;
  return n && (*bytes)[n - 1] == '\r' ? n - 1 : n;
}

static size_t
count_commas (const char *row, size_t length)
{
  size_t n = 0;
  for (size_t i = 0; i < length; i++)
    n += row[i] == ',';
  return n;
}

/* A row that names no columns: numbers, signs and marks of units.  */
static int
is_nameless (const char *row, size_t length)
{
  for (size_t i = 0; i < length; i++)
    if ((row[i] >= 'a' && row[i] <= 'z') || (row[i] >= 'A' && row[i] <= 'Z') || row[i] == '#')
      return 0;
  return 1;
}

/* The tables that the language writes, by their first row: how it begins and how it ends.  */
static const struct
{
  const char *start, *end;
} tables[] =
{
  { "", "_error_decimal" }, { "", "_error_decimal\"" }, { "name,version,problem,topic,", "" },
  { "version,problem,topic,text,answer,", "" }, { "student,version,", ",marks,of,note" },
};

static int
is_table (const char *row, size_t length, size_t which)
{
  size_t n = strlen (tables[which].end);
  return begins (row, length, tables[which].start) && length >= n
         && memcmp (row + length - n, tables[which].end, n) == 0;
}

/* 1 if ROW is the first row of a table that a statement made from a column.  */
static int
is_column (const char *row, size_t length)
{
  return is_table (row, length, 0) || is_table (row, length, 1);
}

static int
same_table (const char *old, size_t old_length, const char *new, size_t new_length)
{
  size_t n = first_line (&old, old_length), k = first_line (&new, new_length);
  if (n == k && memcmp (old, new, n) == 0)
    return 1;
  for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++)
    if (is_table (old, n, i) && is_table (new, k, i))
      return 1;
  /* A column that has no name, written beside its marks, is four cells or more.  */
  int unnamed = is_nameless (old, n) && count_commas (old, n) >= 3;
  int unnamed_now = is_nameless (new, k) && count_commas (new, k) >= 3;
  return (unnamed || is_column (old, n)) && (unnamed_now || is_column (new, k));
}

/* TEXT ends in a number behind a blank: its digits, else 0.  */
static size_t
digits_at_end (const char *text, size_t length)
{
  size_t n = 0;
  while (n < length && text[length - n - 1] >= '0' && text[length - n - 1] <= '9')
    n++;
  return n < length && text[length - n - 1] == ' ' ? n : 0;
}

/* The heading of papers and of their keys, "    Version 1, seed 5" in words of any language, and of short keys.  */
static int
is_paper (const char *bytes, size_t length)
{
  size_t n = first_line (&bytes, length), digits = digits_at_end (bytes, n);
  const char *comma = digits ? memrchr (bytes, ',', n - digits) : NULL;
  return comma && (begins (bytes, n, "Answers: ")
                   || (digits_at_end (bytes, (size_t) (comma - bytes)) && memmem (bytes, (size_t) (comma - bytes), "    ", 4)));
}

static int
same_paper (const char *old, size_t old_length, const char *new, size_t new_length)
{
  static const char *const kinds_of_key[] = { "Key: ", "Answers: " };
  for (size_t i = 0; i < sizeof kinds_of_key / sizeof kinds_of_key[0]; i++)
    if (begins (old, old_length, kinds_of_key[i]) != begins (new, new_length, kinds_of_key[i]))
      return 0;
  return is_paper (old, old_length);
}

/* Whether BYTES are a page or a picture of CONTENT.  */
static int
is_page (const char *bytes, size_t length, br__content content)
{
  switch (content)
    {
    case BR__CONTENT_PDF: return begins (bytes, length, "%PDF-");
    case BR__CONTENT_PNG: return length >= 8 && memcmp (bytes, "\x89PNG\r\n\x1a\n", 8) == 0;
    case BR__CONTENT_HTML:
      skip_prolog (&bytes, &length);
      return begins (bytes, length, "<!doctype html") || begins (bytes, length, "<html");
    case BR__CONTENT_SVG:
      skip_prolog (&bytes, &length);
      return begins (bytes, length, "<svg");
    case BR__CONTENT_SHEET: case BR__CONTENT_CSV: case BR__CONTENT_PAPER: break;
    }
  return 0;
}

static int
has_mark (const char *bytes, size_t length, br__content content)
{
  const char *mark = kinds[content].mark;
  return memmem (bytes, length < MARK_WITHIN ? length : MARK_WITHIN, mark, strlen (mark)) != NULL;
}

int
br__content_gives_way (const char *old, size_t old_length, br__content content, const char *new, size_t new_length)
{
  if (old_length == 0)
    return 1;
  switch (content)
    {
    case BR__CONTENT_SHEET: return 0;
    case BR__CONTENT_CSV: return same_table (old, old_length, new, new_length);
    case BR__CONTENT_PAPER: return same_paper (old, old_length, new, new_length);
    default:
      /* A program's own painter may make whatever it likes.  */
      return !is_page (new, new_length, content)
             || (is_page (old, old_length, content)
                 && (has_mark (old, old_length, content) || !has_mark (new, new_length, content)));
    }
}

int
br__content_is_text (const char *bytes, size_t length)
{
  for (size_t i = 0; i < length; i++)
    {
      unsigned char c = (unsigned char) bytes[i];
      if (c == 0)
        return 0;
    }
  return 1;
}
