/* SPDX-License-Identifier: LGPL-3.0-or-later
   rows.c - reading tables from whatever a spreadsheet writes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "table/rows.h"
#include "file/csv.h"
#include "measure/measure.h"
#include "file/file.h"
#include "formula/lexer.h"

void
br__rows_clear (br__rows *r)
{
  br__free (r->bytes);
  br__free (r->cells);
  br__free (r->rows);
  memset (r, 0, sizeof *r);
}

/* ---- Encodings ---- */

static void
put_code (br_text *t, uint32_t c)
{
  if (c < 0x80)
    br__text_putc (t, (char) c);
  else if (c < 0x800)
    br__text_printf (t, "%c%c", (int) (0xC0 | c >> 6), (int) (0x80 | (c & 0x3F)));
  else if (c < 0x10000)
    br__text_printf (t, "%c%c%c", (int) (0xE0 | c >> 12), (int) (0x80 | (c >> 6 & 0x3F)), (int) (0x80 | (c & 0x3F)));
  else
    br__text_printf (t, "%c%c%c%c", (int) (0xF0 | c >> 18), (int) (0x80 | (c >> 12 & 0x3F)),
                     (int) (0x80 | (c >> 6 & 0x3F)), (int) (0x80 | (c & 0x3F)));
}

static int
is_utf8 (const char *bytes, size_t length)
{
  for (size_t at = 0; at < length; )
    {
      br__glyph g = br__glyph_at (bytes, length, at);
      if (g.kind == BR__GLYPH_BROKEN)
        return 0;
      at += g.length;
    }
  return 1;
}

static void
from_utf16 (br_text *t, const unsigned char *bytes, size_t length, int big)
{
  for (size_t i = 2; i + 1 < length; i += 2)
    {
      uint32_t c = (uint32_t) bytes[i + !big] << 8 | bytes[i + big];
      if (c >= 0xD800 && c < 0xDC00 && i + 3 < length)
        {
          uint32_t low = (uint32_t) bytes[i + 2 + !big] << 8 | bytes[i + 2 + big];
          if (low >= 0xDC00 && low < 0xE000)
            {
              c = 0x10000 + ((c - 0xD800) << 10) + (low - 0xDC00);
              i += 2;
            }
        }
      put_code (t, c && !(c >= 0xD800 && c < 0xE000) ? c : 0xFFFD);
    }
}

/* Windows-1252: 0x80 to 0x9F by the table of the WHATWG Encoding Standard, the rest as Latin-1.  */
static void
from_1252 (br_text *t, const unsigned char *bytes, size_t length)
{
  static const uint16_t high[32] =
  {
    0x20AC, 0x81, 0x201A, 0x192, 0x201E, 0x2026, 0x2020, 0x2021, 0x2C6, 0x2030, 0x160, 0x2039, 0x152, 0x8D, 0x17D, 0x8F,
    0x90, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014, 0x2DC, 0x2122, 0x161, 0x203A, 0x153, 0x9D, 0x17E, 0x178
  };
  for (size_t i = 0; i < length; i++)
    put_code (t, bytes[i] >= 0x80 && bytes[i] < 0xA0 ? high[bytes[i] - 0x80] : bytes[i]);
}

/* Puts *BYTES into UTF-8 without its mark.  */
static br_status
to_utf8 (char **bytes, size_t *length)
{
  const unsigned char *b = (const unsigned char *) *bytes;
  size_t mark = *length >= 3 && memcmp (b, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
  br_text t = BR_TEXT_ZERO;
  if (*length >= 2 && ((b[0] == 0xFF && b[1] == 0xFE) || (b[0] == 0xFE && b[1] == 0xFF)))
    from_utf16 (&t, b, *length, b[0] == 0xFE);
  else if (!is_utf8 (*bytes + mark, *length - mark))
    from_1252 (&t, b + mark, *length - mark);
  else
    br__text_put (&t, *bytes + mark, *length - mark);
  char *made = t.failed ? NULL : br__strndup (br__text_string (&t), t.length);
  if (made)
    {
      br__free (*bytes);
      *bytes = made;
      *length = t.length;
    }
  br__text_clear (&t);
  return made ? BR_OK : BR_NO_MEMORY;
}

/* ---- Cells ---- */

/* Extracts the cell at *AT in place: unquoted, trimmed, NUL-terminated.  Returns the character after it.  */
static char
take_cell (char **cell, char **at, const char *end, char separator, size_t *breaks, int *open)
{
  char *from = *at, *to, *start;
  while (from < end && *from == ' ')
    from++;
  start = to = from;
  if (from < end && *from == '"')
    {
      for (from++; from < end && !(*from == '"' && from[1] != '"'); from++)
        {
          from += *from == '"';
          *breaks += *from == '\n';
          *to++ = *from;
        }
      *open = from >= end;
      from += from < end;
    }
  /* Text after the closing quote belongs to the cell: "2-3/8"" is a measure with its inch sign.  */
  while (from < end && *from != separator && *from != '\n')
    *to++ = *from++;
  char behind = from < end ? *from : 0;
  *at = from + (from < end);
  while (to > start && (to[-1] == ' ' || to[-1] == '\r' || to[-1] == '\t'))
    to--;
  *to = 0;
  if (*start == '\'' && br__formula_sign (start + 1))
    start++;
  while (*start && strchr (" \t\r\n", *start))
    start++;
  *cell = start;
  return behind;
}

/* A table is text: fails at a control character, which only binary files contain.  */
static br_status
find_control (const char *bytes, size_t length, const char *path, br_error *error)
{
  size_t line = 1;
  for (size_t i = 0; i < length; i++)
    {
      unsigned char c = (unsigned char) bytes[i];
      line += c == '\n';
      if ((c < 0x20 && !strchr ("\t\r\n", c)) || c == 0 || c == 0x7F)
        {
          br__fail (error, BR_SYNTAX, 0, 0, "%.*s:%zu: a control character: is this a text file?", BR__CLIP (path, 100), line);
          br__hint (error, "save the table as CSV");
          return BR_SYNTAX;
        }
    }
  return BR_OK;
}

/* The cells of one row, at CELLS[COUNT].  */
static br_status
take_row (br__rows *r, size_t *cell_room, size_t *cell_count, char **at, const char *end, char separator,
          size_t *line, const char *path, br_error *error)
{
  size_t first = *line;
  char behind;
  do
    {
      int open = 0;
      if (!br__grow (&r->cells, cell_room, *cell_count + 1, sizeof *r->cells))
        return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
      behind = take_cell (&r->cells[*cell_count], at, end, separator, line, &open);
      ++*cell_count;
      if (open)
        return br__fail (error, BR_SYNTAX, 0, 0, "%.*s:%zu: a quote is not closed", BR__CLIP (path, 100), first);
    }
  while (behind == separator);
  ++*line;
  return BR_OK;
}

br_status
br__rows_take (br__rows *r, char *bytes, size_t length, const char *path, br_error *error)
{
  br__rows made = BR__ROWS_ZERO;
  size_t room = 0, cell_room = 0, cell_count = 0, line = 1;
  br_status status = to_utf8 (&bytes, &length);
  made.bytes = bytes;
  char *at = bytes, *end = bytes + length;
  char separator = br__csv_separator (bytes, length);
  if (status != BR_OK)
    br__fail_plain (error, status, 0, 0);
  else
    status = find_control (bytes, length, path, error);
  while (status == BR_OK && at < end)
    {
      size_t first = cell_count, filled = 0, from = line;
      status = take_row (&made, &cell_room, &cell_count, &at, end, separator, &line, path, error);
      for (size_t i = first; i < cell_count && status == BR_OK; i++)
        filled += made.cells[i][0] != 0;
      if (status != BR_OK || !filled)
        continue;
      if (!br__grow (&made.rows, &room, made.count + 1, sizeof *made.rows))
        status = br__fail_plain (error, BR_NO_MEMORY, 0, 0);
      else
        {
          br__row row = { NULL, cell_count - first, from, first };
          made.rows[made.count++] = row;
        }
    }
  if (status != BR_OK)
    {
      br__rows_clear (&made);
      return status;
    }
  /* Only now do the cells stay where they are.  */
  for (size_t i = 0; i < made.count; i++)
    made.rows[i].cells = made.cells + made.rows[i].first;
  *r = made;
  return BR_OK;
}

br_status
br__rows_read (br__rows *r, const char *path, br_error *error)
{
  char *bytes = NULL;
  size_t length = 0;
  br_status status = br__file_read (&bytes, &length, path, error);
  return status == BR_OK ? br__rows_take (r, bytes, length, path, error) : status;
}

int
br__is_among (const char *cell, size_t length, const char *words)
{
  for (const char *w = words; *w; )
    {
      char word[32];
      size_t n = strcspn (w, " ");
      memcpy (word, w, n);
      word[n] = 0;
      if (br__same_word (cell, length, word))
        return 1;
      w += n + (w[n] == ' ');
    }
  return 0;
}

size_t
br__rows_column (const br__rows *r, const char *words)
{
  size_t count = r->count ? r->rows[0].count : 0;
  for (size_t i = 0; i < count; i++)
    if (br__is_among (r->rows[0].cells[i], strlen (r->rows[0].cells[i]), words))
      return i;
  /* Else one that has such a word: Student name.  */
  for (size_t i = 0; i < count; i++)
    for (const char *s = r->rows[0].cells[i]; *s; )
      {
        size_t n = strcspn (s, " ");
        if (br__is_among (s, n, words))
          return i;
        s += n + (s[n] == ' ');
      }
  return SIZE_MAX;
}

const char *
br__row_cell (const br__row *row, size_t column)
{
  return column < row->count ? row->cells[column] : "";
}

int
br__cell_is_number (const char *cell)
{
  return *cell >= '1' && *cell <= '9' && cell[strspn (cell, "0123456789")] == 0;
}

br_status
br__names_read (char ***names, size_t *count, const char *path, br_error *error)
{
  br__rows rows = BR__ROWS_ZERO;
  char **made = NULL;
  size_t n = 0;
  br_status status = br__rows_read (&rows, path, error);
  size_t column = br__rows_column (&rows, "name names student students");
  size_t first = column != SIZE_MAX;
  if (column == SIZE_MAX)
    column = 0;
  if (status == BR_OK)
    {
      made = br__alloc_zero (rows.count + 1, sizeof *made);
      status = made ? BR_OK : br__fail_plain (error, BR_NO_MEMORY, 0, 0);
    }
  for (size_t i = first; i < rows.count && status == BR_OK; i++)
    {
      const char *name = br__row_cell (&rows.rows[i], column);
      if (!*name)
        continue;
      made[n] = br__strndup (name, strlen (name));
      status = made[n++] ? BR_OK : br__fail_plain (error, BR_NO_MEMORY, 0, 0);
    }
  if (status == BR_OK && !n)
    status = br__fail (error, BR_DOMAIN, 0, 0, "%.*s holds no names", BR__CLIP (path, 140));
  br__rows_clear (&rows);
  if (status != BR_OK)
    {
      for (size_t i = 0; made && i < n; i++)
        br__free (made[i]);
      br__free (made);
      return status;
    }
  *names = made;
  *count = n;
  return BR_OK;
}
