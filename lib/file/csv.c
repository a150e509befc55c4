/* SPDX-License-Identifier: LGPL-3.0-or-later
   csv.c - finds where the rows and cells of CSV begin and end.

   This does not use libcsv, because libcsv returns cells without their quotes and without their position, so that
   rows could not be copied byte for byte; docs/performance.md compares the times.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/bytes.h"
#include "file/csv.h"
#include "file/markup.h"

/* The place behind the closing quote of the cell at P, or NULL where it does not come before END (it
   may come right behind a quote that is the last byte).  */
static const char *
behind_quotes (br__csv_row *row, const char *p, const char *end, int last)
{
  const char *from = p + 1;

  for (;;)
    {
      const char *quote = memchr (from, '"', (size_t) (end - from));

      if (quote == NULL || (quote + 1 == end && !last))
        return NULL;
      for (; (from = memchr (from, '\n', (size_t) (quote - from))) != NULL; from++)
        row->breaks++;
      from = quote + 1;
      if (from == end || *from != '"')
        return from;
      from++;
    }
}

/* The first SEPARATOR or line feed from P on, or END.  */
static inline const char *
cell_stop (const char *p, const char *end, char separator)
{
  for (; end - p >= 8; p += 8)
    {
      uint64_t word = br__load_eight (p);
      uint64_t found = (br__bytes_not (word, separator) & br__bytes_not (word, '\n')) ^ BR__EVERY (0x80);
      if (found)
        return p + br__bytes_before (found);
    }
  while (p < end && *p != separator && *p != '\n')
    p++;
  return p;
}

/* Behind the quotes that the cell at P begins with; END where they are not closed and nothing comes behind it.  */
static __attribute__ ((noinline)) const char *
quoted_end (br__csv_row *row, const char *p, const char *end, int last)
{
  p = behind_quotes (row, p, end, last);
  if (p == NULL && last)
    {
      row->open = 1;
      p = end;
    }
  return p;
}

static inline const char *
cell_end (br__csv_row *row, const char *p, const char *end, int last, char separator)
{
  if (p < end && *p == '"' && (p = quoted_end (row, p, end, last)) == NULL)
    return NULL;
  p = cell_stop (p, end, separator);
  return p == end && !last ? NULL : p;
}

const char *
br__csv_cell_end (br__csv_row *row, const char *p, const char *end, int last, char separator)
{
  return cell_end (row, p, end, last, separator);
}

int
br__csv_next (br__csv_row *row, const char *at, const char *end, size_t wanted, int last, char separator)
{
  const char *p = at, *cell;

  row->start = at;
  row->cell = row->cell_end = NULL;
  row->cells = 0;
  row->breaks = 0;
  row->open = 0;
  for (;; p++)
    {
      cell = p;
      p = cell_end (row, p, end, last, separator);
      if (p == NULL)
        return 0;
      if (row->cells++ == wanted)
        {
          row->cell = cell;
          row->cell_end = p;
        }
      if (p == end || *p == '\n')
        break;
    }
  row->end = p;
  row->next = p;
  if (p < end)
    {
      row->next++;
      row->end -= p > cell && p[-1] == '\r';
    }
  if (row->cell_end != NULL && row->cell_end > row->end)
    row->cell_end = row->end;
  return 1;
}

size_t
br__csv_whole (const char *text, size_t length, char separator)
{
  const char *end = text + length, *at = text;
  br__csv_row row;

  if (memchr (text, '"', length) == NULL)
    {
      at = memrchr (text, '\n', length);
      return at == NULL ? 0 : (size_t) (at + 1 - text);
    }
  while (at < end && br__csv_next (&row, at, end, 0, 0, separator))
    at = row.next;
  return (size_t) (at - text);
}

/* ---- Separators ---- */

#define LOOKED_AT 20          /* rows */

/* The cells of each of the first rows, where they all have as many; else 0.  *FIRST = those of the first.  */
static size_t
cells_of_all (size_t *first, const char *text, size_t length, char separator)
{
  const char *at = text, *end = text + length;
  br__csv_row row;
  size_t same = 0;
  *first = 0;
  for (int i = 0; i < LOOKED_AT && at < end && br__csv_next (&row, at, end, 0, 1, separator); at = row.next)
    {
      if (row.end == row.start)
        continue;
      if (i++ == 0)
        *first = same = row.cells;
      /* The last row of a part of a file may be cut off.  */
      else if (row.cells != same && row.next < end)
        same = 0;
    }
  return same;
}

static int
is_digit (const char *text, size_t length, size_t i)
{
  return i < length && text[i] >= '0' && text[i] <= '9';
}

/* The commas of the first row all stand between digits.  */
static int
commas_are_decimal (const char *text, size_t length)
{
  for (size_t i = 0; i < length && text[i] != '\n'; i++)
    if (text[i] == ',' && !(i > 0 && is_digit (text, length, i - 1) && is_digit (text, length, i + 1)))
      return 0;
  return 1;
}

char
br__csv_separator (const char *text, size_t length)
{
  static const char signs[] = { ',', ';', '\t' };
  size_t first[3] = { 0 }, same[3] = { 0 }, best = 0, only = 0, count = 0;
  for (size_t i = 0; i < 3; i++)
    {
      same[i] = cells_of_all (&first[i], text, length, signs[i]);
      best = first[i] > first[best] ? i : best;
      if (same[i] > 1)
        {
          only = i;
          count++;
        }
    }
  if (count == 1)
    return signs[only];
  /* A comma in a heading, length, mm;name, says nothing where rows follow.  */
  const char *below = memchr (text, '\n', length);
  size_t skipped = below && below + 1 < text + length ? (size_t) (below + 1 - text) : 0;
  for (size_t i = 2; i > 0; i--)
    if ((first[i] > 1 && commas_are_decimal (text, length))
        || (same[i] > 1 && commas_are_decimal (text + skipped, length - skipped)))
      return signs[i];
  return signs[best];
}

const char *
br__decimal_comma (const char *text, size_t length)
{
  const char *comma = memchr (text, ',', length);
  size_t at = comma ? (size_t) (comma - text) : 0;
  if (!comma || !at || !is_digit (text, length, at - 1) || !is_digit (text, length, at + 1) || memchr (text, '.', length)
      || memchr (comma + 1, ',', length - at - 1))
    return NULL;
  return comma;
}

/* A comma that can only be that of a decimal: other than three digits behind it, or a lone 0 before it.  */
static int
is_certain (const char *text, size_t length, const char *comma)
{
  size_t at = (size_t) (comma - text), digits = 0;
  while (is_digit (text, length, at + 1 + digits))
    digits++;
  return digits != 3 || (text[at - 1] == '0' && !(at > 1 && is_digit (text, length, at - 2)));
}

int
br__csv_decimal_commas (const char *text, size_t length, size_t wanted, char separator)
{
  const char *at = text, *end = text + length;
  br__csv_row row;
  int found = 0;
  for (int i = 0; i < 50 * LOOKED_AT && at < end && br__csv_next (&row, at, end, wanted, 1, separator); i++, at = row.next)
    {
      size_t n = row.cell ? (size_t) (row.cell_end - row.cell) : 0;
      const char *comma = n ? br__decimal_comma (row.cell, n) : NULL, *point = n ? memchr (row.cell, '.', n) : NULL;
      /* 1.234,5 has a point between its thousands.  */
      if (point && !memchr (row.cell, ',', n) && is_digit (row.cell, n, (size_t) (point - row.cell) + 1))
        return 0;
      found |= comma && is_certain (row.cell, n, comma);
    }
  return found;
}

void
br__csv_put_content (br_text *t, const char *cell, const char *cell_end)
{
  const char *quote;

  if (cell == cell_end || *cell != '"')
    {
      br__text_put (t, cell, (size_t) (cell_end - cell));
      return;
    }
  for (cell++; (quote = memchr (cell, '"', (size_t) (cell_end - cell))) != NULL; cell = quote + 2)
    {
      br__text_put (t, cell, (size_t) (quote - cell));
      if (quote + 1 == cell_end || quote[1] != '"')
        {
          cell = quote + 1;
          break;
        }
      br__text_putc (t, '"');
    }
  br__text_put (t, cell, (size_t) (cell_end - cell));
}

void
br__csv_put_cell (br_text *t, const char *bytes, size_t length, char separator)
{
  const char *end = bytes + length, *quote;

  if (memchr (bytes, '"', length) == NULL && memchr (bytes, ',', length) == NULL && memchr (bytes, separator, length) == NULL
      && memchr (bytes, '\n', length) == NULL && memchr (bytes, '\r', length) == NULL)
    {
      br__text_put (t, bytes, length);
      return;
    }
  br__text_putc (t, '"');
  for (; (quote = memchr (bytes, '"', (size_t) (end - bytes))) != NULL; bytes = quote + 1)
    {
      br__text_put (t, bytes, (size_t) (quote + 1 - bytes));
      br__text_putc (t, '"');
    }
  br__text_put (t, bytes, (size_t) (end - bytes));
  br__text_putc (t, '"');
}

size_t
br__formula_sign (const char *s)
{
  static const char *const wide[] = { "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0" };
  if (*s && strchr ("=+-@", *s))
    return 1;
  for (size_t i = 0; i < sizeof wide / sizeof wide[0]; i++)
    if (strncmp (s, wide[i], 3) == 0)
      return 3;
  return 0;
}

void
br__put_cell (br_text *t, const char *text)
{
  br_text cell = BR_TEXT_ZERO;
  /* A sign and then a number alone is a number, not a formula.  */
  int number = (*text == '-' || *text == '+') && text[1] && text[1 + strspn (text + 1, "0123456789.")] == 0;
  int guarded = !number && *text && (br__formula_sign (text) || strchr ("\t\r\n", *text));
  while (*text)
    {
      size_t n = strcspn (text, ";\t");
      if (guarded)
        br__text_putc (&cell, '\'');
      n += text[n] != '\0';
      n += text[n] == '\0' ? 0 : strspn (text + n, " ");
      br__put_plain (&cell, text, n);
      text += n;
      guarded = br__formula_sign (text) > 0;
    }
  br__csv_put_cell (t, br__text_string (&cell), cell.length, ',');
  t->failed |= cell.failed;
  br__text_clear (&cell);
}
