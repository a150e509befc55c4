/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_cells.c - the rows of a block with their new cells: mark, error, error as a decimal.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "exact/status.h"
#include "table/column.h"
#include "formula/evaluate.h"
#include "measure/measure.h"

#define DIGITS 12             /* of the decimal */
#define LINE_KEPT 4096        /* bytes of a line that a mistake shows at most */
#define NEW_CELLS 3

void
br__bads_clear (br__bads *bads)
{
  for (size_t i = 0; i < bads->told; i++)
    br__free (bads->rows[i].text);
  bads->count = bads->told = 0;
}

/* Scales X to the size that is asked for.  */
static br_status
resize (br_number *x, const br__column *c)
{
  if (c->asked == BR__FULL_SIZE)
    return br_number_div (x, x, &c->settings->scale);
  return br_number_mul (x, x, &c->settings->scale);
}

/* R2 and D1 may be what the first row calls a column; in others that is a radius and a diameter.  */
static int
may_have_more (const br__column *c, const char *text, size_t length)
{
  return c->begun || (length > 0 && ((unsigned char) *text >= 0x80 || strchr ("0123456789.\"~", *text)));
}

/* *TEXT gets the cell with a point for its decimal comma; 0 where there is no memory.  */
static int
comma_to_point (const char **text, size_t length, const br__column *c, br__block *b)
{
  const char *comma = c->commas ? br__decimal_comma (*text, length) : NULL;
  if (!comma)
    return 1;
  br__text_reset (&b->shown);
  br__text_put (&b->shown, *text, length);
  if (b->shown.failed)
    return 0;
  b->shown.bytes[comma - *text] = '.';
  *text = br__text_string (&b->shown);
  return 1;
}

/* 1,234 could be either.  */
static void
hint_comma (br_error *error, const char *text, size_t length)
{
  const char *comma = br__decimal_comma (text, length);
  if (!comma || length > 60)
    return;
  const int whole = (int) (comma - text), rest = (int) (length - (size_t) whole - 1);
  br__hint (error, "in the file, write `%.*s.%.*s` or `%.*s%.*s`", whole, text, rest, comma + 1, whole, text, rest, comma + 1);
}

/* The value of a cell that is not simply a number.  */
static __attribute__ ((noinline)) br_status
read_cell (br_number *x, br_dimension *dimension, const br__column *c, br__block *b, const char *text, size_t length,
           br_error *error)
{
  br_measure m = BR_MEASURE_ZERO;
  if (length > 0 && *text == '"')
    {
      br__text_reset (&b->cell);
      br__csv_put_content (&b->cell, text, text + length);
      if (b->cell.failed)
        return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
      text = br__text_string (&b->cell);
      length = b->cell.length;
    }
  if (!comma_to_point (&text, length, c, b))
    return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  br_status status = br_measure_read (&m, text, length, c->grid, error);
  size_t start, end;
  if (status == BR_SYNTAX && may_have_more (c, text, length) && br__measure_within (&start, &end, text, length))
    {
      br__fill (error, BR_OK, 0, 0, "%s", "");
      status = br_measure_read (&m, text + start, end - start, c->grid, error);
      b->sums.around++;
    }
  if (status == BR_SYNTAX)
    hint_comma (error, text, length);
  if (status != BR_OK)
    return status;
  *dimension = m.unit ? m.unit->dimension : BR_PLAIN;
  if (*dimension == BR_PLAIN || *dimension == BR_LENGTH)
    br__number_move (x, &m.value);
  else
    status = br__fail (error, BR_DOMAIN, 0, length, "%s has no mark on a ruler", br__dimension_words (*dimension));
  br_measure_clear (&m);
  return status;
}

/* X, which stands in the cell, as the number that is meant: by the unit in the heading, the scale, the sheet's unit.  */
static __attribute__ ((noinline)) br_status
convert (br_number *x, br_dimension *dimension, const br__column *c)
{
  br_status status = BR_OK;
  if (c->head && *dimension == BR_PLAIN)
    {
      br_number one = BR_NUMBER_ZERO;
      status = br_number_set_ratio (&one, c->head->num, c->head->den);
      if (status == BR_OK)
        status = br_number_mul (x, x, &one);
      *dimension = BR_LENGTH;
    }
  if (status == BR_OK && c->asked != BR__AS_IT_IS)
    status = resize (x, c);
  if (status == BR_OK && c->lengths && *dimension == BR_PLAIN)
    {
      status = br_number_mul (x, x, &c->unit);
      *dimension = BR_LENGTH;
    }
  return status;
}

br_status
br__column_value (br_number *x, br_dimension *dimension, const br__column *c, br__block *b,
                  const br__csv_row *row, br_error *error)
{
  size_t length = (size_t) (row->cell_end - row->cell);
  br_status status = BR_OK;
  *dimension = BR_PLAIN;
  if (!br__plain_read (x, row->cell, length))
    status = read_cell (x, dimension, c, b, row->cell, length, error);
  if (status != BR_OK || !(c->head || c->lengths || c->asked != BR__AS_IT_IS))
    return status;
  status = convert (x, dimension, c);
  if (status == BR_OK)
    return BR_OK;
  br_number_clear (x);
  return br__fail_plain (error, status, 0, length);
}

/* The mark VALUE of a length has an inch sign or a blank, so that it may need quotes.  */
static void
put_length (br__block *b, const br__column *c, const br_number *value)
{
  br__text_reset (&b->shown);
  br__put_mark_text (&b->shown, value, BR_LENGTH, &c->mark, c->settings);
  if (b->shown.failed)
    b->out.failed = 1;
  else
    br__csv_put_cell (&b->out, br__text_string (&b->shown), b->shown.length, c->separator);
}

/* The line that the cell of ROW begins in, from 1.  */
static size_t
line_of (const br__block *b, const br__csv_row *row)
{
  size_t line = b->lines + 1;
  for (const char *at = row->start; row->breaks && at < row->cell; at++)
    line += *at == '\n';
  return line;
}

/* MARK of X is counted in, and whether it is off the nearest by more than a tie may be; OFF is its error.  */
static br_status
count_mark (br__block *b, const br__column *c, const br_number *x, const br_number *mark, const br_number *off,
            const br_number *error, const br__csv_row *row, int length)
{
  size_t line = line_of (b, row);
  br_status status = br__sums_row (&b->sums, x, mark, error, length, line);
  if (status == BR_OK && c->kept)
    {
      br_number twice = BR_NUMBER_ZERO, two = { 2, 0 };
      status = br_number_abs (&twice, off);
      if (status == BR_OK)
        status = br_number_mul (&twice, &twice, &two);
      if (status == BR_OK && br_number_cmp (&twice, &c->sizes[length]) > 0)
        status = br__sums_push (&b->sums, mark, off, &c->sizes[length], length, line);
      br__number_drop (&twice);
    }
  return status;
}

/* The new cells of the cell of ROW, which holds X, behind the first separator.  */
static br_status
put_mark (br__block *b, const br__column *c, const br_number *x, br_dimension dimension, const br__csv_row *row)
{
  br_number value = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO, in_unit = BR_NUMBER_ZERO;
  const br_number *error = dimension == BR_LENGTH ? &in_unit : &off;
  br_status status;
  if (c->kept)
    {
      status = br_number_set (&value, &c->kept[b->first + b->marks]);
      if (status == BR_OK)
        status = br_number_sub (&off, &value, x);
    }
  else
    status = br_ruler_round (&value, &off, NULL, x, &c->sizes[dimension == BR_LENGTH], c->direction,
                             c->settings->ties);
  if (status == BR_OK && dimension == BR_LENGTH)
    status = br_number_div (&in_unit, &off, &c->unit);
  if (status == BR_OK)
    status = count_mark (b, c, x, &value, &off, error, row, dimension == BR_LENGTH);
  if (status == BR_OK)
    {
      size_t start = b->out.length;
      if (dimension == BR_LENGTH)
        put_length (b, c, &value);
      else
        br__put_measure (&b->out, &value, BR_PLAIN, NULL);
      br__text_putc (&b->out, c->separator);
      br__put_number (&b->out, error);
      br__text_putc (&b->out, c->separator);
      br__put_decimal (&b->out, error, DIGITS);
      for (char *at = b->out.bytes + start; c->commas && !b->out.failed && at < b->out.bytes + b->out.length; at++)
        *at = *at == '.' ? ',' : *at;
      b->marks++;
    }
  br__number_drop (&value);
  br__number_drop (&off);
  br__number_drop (&in_unit);
  return status;
}

/* Keeps the line of ROW around PLACE, where ERROR lies.  BLOCK_LINE is the line that ROW begins in.  */
static void
add_bad (br__block *b, const br__csv_row *row, const char *place, const br_error *error)
{
  const char *start = place, *end, *at;
  b->bads.count++;
  if (b->bads.told == BR__BAD_TOLD)
    return;
  br__bad *bad = &b->bads.rows[b->bads.told];
  while (start > row->start && start[-1] != '\n' && place - start < LINE_KEPT / 2)
    start--;
  end = memchr (place, '\n', (size_t) (row->end - place));
  if (!end)
    end = row->end;
  if (end - start > LINE_KEPT)
    end = start + LINE_KEPT;
  bad->line = b->lines;
  for (at = row->start; (at = memchr (at, '\n', (size_t) (start - at))) != NULL; at++)
    bad->line++;
  bad->length = (size_t) (end - start);
  bad->text = br__strndup (start, bad->length);
  bad->error = *error;
  bad->error.offset += (size_t) (place - start);
  /* Only the first line of a cell with several lines is reported.  */
  if (bad->error.offset > bad->length)
    bad->error.offset = bad->length;
  if (bad->error.length > bad->length - bad->error.offset)
    bad->error.length = bad->length - bad->error.offset;
  if (!bad->text)
    b->status = BR_NO_MEMORY;
  else
    b->bads.told++;
}

/* A cell whose bytes are not what it holds gets its mistake reported for the whole.  */
static void
add_bad_cell (br__block *b, const br__csv_row *row, br_error *error)
{
  if (row->cell < row->cell_end && *row->cell == '"')
    {
      error->offset = 0;
      error->length = (size_t) (row->cell_end - row->cell);
    }
  add_bad (b, row, row->cell, error);
}

/* As br__text_put, for the bytes of a block, and a separator.  A row is short: pieces of one size, with what is
   behind it in the block, take less than a call that looks how long it is.  */
static inline void
put_cells (br_text *out, const char *start, const char *end, char separator)
{
  size_t length = (size_t) (end - start);
  char *at = br__text_room (out, length + BR__SLACK);
  if (!at)
    return;
  for (size_t i = 0; i < length; i += BR__SLACK)
    memcpy (at + i, start + i, BR__SLACK);
  at[length] = separator;
  br__text_took (out, length + 1);
}

static void
put_nothing (br_text *out, size_t cells, char separator)
{
  while (cells-- > 0)
    br__text_putc (out, separator);
}

/* The row is passed on, and behind it what is new, which begins with a separator in any case.  */
static void
put_row (br__block *b, const br__column *c, const br__csv_row *row)
{
  br_number x = BR_NUMBER_ZERO;
  br_dimension dimension = BR_PLAIN;
  br_error error;
  br_status status;
  put_cells (&b->out, row->start, row->end, c->separator);
  if (row->cells < c->width)
    put_nothing (&b->out, c->width - row->cells, c->separator);
  if (!row->cell)
    {
      br__fail (&error, BR_SYNTAX, 0, 0, "this row has %zu of %zu cells", row->cells, c->width);
      add_bad (b, row, row->end, &error);
      put_nothing (&b->out, NEW_CELLS - 1, c->separator);
      return;
    }
  status = br__column_value (&x, &dimension, c, b, row, &error);
  if (status == BR_OK)
    {
      status = put_mark (b, c, &x, dimension, row);
      if (status != BR_OK)
        br__fail_plain (&error, status, 0, (size_t) (row->cell_end - row->cell));
    }
  if (status == BR_NO_MEMORY)
    b->status = status;
  else if (status != BR_OK)
    {
      add_bad_cell (b, row, &error);
      put_nothing (&b->out, NEW_CELLS - 1, c->separator);
    }
  else if (row->cells > c->width)
    {
      br__fail (&error, BR_SYNTAX, 0, 0, "this row has %zu cells, the first has %zu: its mark is not below its name",
                row->cells, c->width);
      add_bad (b, row, row->end, &error);
    }
  br__number_drop (&x);
}

void
br__column_rows (br__block *b, const br__column *c)
{
  const char *at = b->in + b->start, *end = b->in + b->length;
  br__csv_row row;
  for (; at < end && b->status == BR_OK && br__csv_next (&row, at, end, c->index, b->last, c->separator); at = row.next)
    {
      if (row.open)
        {
          br_error error;
          br__fail (&error, BR_SYNTAX, 0, 1, "the quote that opens here, or in this row, is not closed");
          add_bad (b, &row, row.start, &error);
          br__text_put (&b->out, row.start, (size_t) (row.next - row.start));
        }
      else
        {
          /* A line with nothing on it is no row.  */
          if (row.end > row.start)
            {
              put_row (b, c, &row);
              b->rows++;
            }
          if (row.next - row.end == 1)
            br__text_putc (&b->out, '\n');
          else
            br__text_put (&b->out, row.end, (size_t) (row.next - row.end));
        }
      b->lines += 1 + row.breaks;
    }
  if (b->out.failed)
    b->status = BR_NO_MEMORY;
}
