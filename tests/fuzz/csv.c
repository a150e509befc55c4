/* SPDX-License-Identifier: GPL-3.0-or-later
   csv.c - fuzz target: a text read as rows of CSV and put on a ruler.  What a row holds is written and read
   again; rows come out byte for byte with their mark and error behind them, in one block or in two, and mark
   less error is the value.  Two bytes choose the column and where the text is cut; the rest is the text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "fuzz.h"
#include "measure/measure.h"
#include "table/column.h"

static char separator;

/* Each cell written again reads as what it held.  */
static void
check_cells (const br__csv_row *row, const char *end, int last)
{
  br_text content = BR_TEXT_ZERO, written = BR_TEXT_ZERO, again = BR_TEXT_ZERO;
  br__csv_row one, other;
  for (size_t i = 0; i < row->cells && i < 6; i++)
    {
      fuzz_require (br__csv_next (&one, row->start, end, i, last, separator));
      fuzz_require (one.cells == row->cells && one.next == row->next && one.breaks == row->breaks);
      fuzz_require (one.cell && one.cell >= one.start && one.cell <= one.cell_end && one.cell_end <= one.end);
      br__text_reset (&content);
      br__text_reset (&written);
      br__text_reset (&again);
      br__csv_put_content (&content, one.cell, one.cell_end);
      br__csv_put_cell (&written, br__text_string (&content), content.length, separator);
      br__text_putc (&written, separator);
      const char *text = br__text_string (&written);
      fuzz_require (br__csv_next (&other, text, text + written.length, 0, 1, separator) && other.cells == 2 && !other.open);
      br__csv_put_content (&again, other.cell, other.cell_end);
      fuzz_require (again.length == content.length
                    && memcmp (br__text_string (&again), br__text_string (&content), again.length) == 0);
    }
  br__text_clear (&content);
  br__text_clear (&written);
  br__text_clear (&again);
}

/* Rows follow one another to the end; those of a part are the first of the whole.  */
static void
check_rows (const char *text, size_t length, size_t cut)
{
  const char *end = text + length, *at = text;
  size_t whole = br__csv_whole (text, cut, separator);
  br__csv_row row, part;
  fuzz_require (whole <= cut);
  while (at < end)
    {
      fuzz_require (br__csv_next (&row, at, end, 0, 1, separator));
      fuzz_require (row.start == at && row.end >= at && row.next >= row.end && row.next > at && row.cells > 0);
      if (at < text + whole)
        {
          fuzz_require (br__csv_next (&part, at, text + whole, 0, 0, separator));
          fuzz_require (part.next == row.next && part.cells == row.cells && !row.open);
        }
      if (!row.open)
        check_cells (&row, end, 1);
      at = row.next;
    }
  fuzz_require (at == end);
}

/* Whole rows of LENGTH bytes, worked on.  The block is as large as it must be, so that a byte read behind it is seen.  */
static void
block_run (br__block *b, const br__column *c, const char *text, size_t length, int last)
{
  memset (b, 0, sizeof *b);
  b->in = malloc (length + BR__SLACK);
  fuzz_require (b->in);
  memcpy (b->in, text, length);
  memset (b->in + length, 0, BR__SLACK);
  b->length = length;
  b->last = last;
  br__column_rows (b, c);
  fuzz_require (b->status == BR_OK);
  fuzz_require (b->bads.told <= b->bads.count && b->bads.count <= b->rows + 1 && b->marks <= b->rows);
  for (size_t i = 0; i < b->bads.told; i++)
    {
      const br__bad *bad = &b->bads.rows[i];
      fuzz_require (bad->error.offset <= bad->length && bad->error.length <= bad->length - bad->error.offset);
      fuzz_require (*bad->error.message);
    }
}

static void
block_clear (br__block *b)
{
  br__bads_clear (&b->bads);
  br__text_clear (&b->out);
  br__text_clear (&b->cell);
  br__text_clear (&b->shown);
  br__sums_clear (&b->sums);
  free (b->in);
}

/* A cell as a number, its measure read, or the one that stands in it beside something else; 0 if it is none.  */
static int
cell_measure (br_number *x, const br__csv_row *row)
{
  br_text content = BR_TEXT_ZERO;
  br_measure m = BR_MEASURE_ZERO;
  br__csv_put_content (&content, row->cell, row->cell_end);
  const char *text = br__text_string (&content);
  size_t start, end;
  int good = br_measure_read (&m, text, content.length, NULL, NULL) == BR_OK
             || (br__measure_within (&start, &end, text, content.length)
                 && br_measure_read (&m, text + start, end - start, NULL, NULL) == BR_OK);
  br_number_swap (x, &m.value);
  br_measure_clear (&m);
  br__text_clear (&content);
  return good;
}

/* Mark less value is the error, which is no more than half a mark.  */
static void
check_mark (const br__csv_row *row, const br__csv_row *out, const char *end)
{
  br__csv_row mark, error;
  br_number x = BR_NUMBER_ZERO, value = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO, twice = BR_NUMBER_ZERO;
  static const br_number sixteenth = { 1, 15 };
  fuzz_require (br__csv_next (&mark, out->start, end, out->cells - 3, 1, separator));
  fuzz_require (br__csv_next (&error, out->start, end, out->cells - 2, 1, separator));
  if (mark.cell < mark.cell_end)
    {
      fuzz_require (cell_measure (&x, row) && cell_measure (&value, &mark) && cell_measure (&off, &error));
      fuzz_require (br_number_sub (&x, &value, &x) == BR_OK && br_number_equal (&x, &off));
      fuzz_require (br_number_abs (&off, &off) == BR_OK && br_number_add (&twice, &off, &off) == BR_OK);
      fuzz_require (br_number_cmp (&twice, &sixteenth) <= 0);
    }
  br_number_clear (&x);
  br_number_clear (&value);
  br_number_clear (&off);
  br_number_clear (&twice);
}

/* Each row of the text goes out as it is, with three cells behind.  */
static void
check_out (const br__block *b, const br__column *c)
{
  const char *at = b->in, *end = b->in + b->length, *out = br__text_string (&b->out), *out_end = out + b->out.length;
  br__csv_row row, made;
  while (at < end && br__csv_next (&row, at, end, c->index, 1, separator) && !row.open)
    {
      size_t size = (size_t) (row.end - row.start), ending = (size_t) (row.next - row.end);
      if (size == 0)
        {
          fuzz_require ((size_t) (out_end - out) >= ending && memcmp (out, row.end, ending) == 0);
          out += ending;
          at = row.next;
          continue;
        }
      fuzz_require (br__csv_next (&made, out, out_end, 0, 1, separator) && !made.open);
      fuzz_require ((size_t) (made.end - made.start) >= size + 3 && memcmp (out, row.start, size) == 0);
      fuzz_require ((size_t) (made.next - made.end) == ending && memcmp (made.end, row.end, ending) == 0);
      fuzz_require (made.cells == (row.cells < c->width ? c->width : row.cells) + 3);
      if (row.cell)
        check_mark (&row, &made, out_end);
      at = row.next;
      out = made.next;
    }
}

static void
check_blocks (const br__column *c, const char *text, size_t length, size_t cut)
{
  br__block all, first, second;
  size_t whole = br__csv_whole (text, cut, separator);
  block_run (&all, c, text, length, 1);
  block_run (&first, c, text, whole, 0);
  block_run (&second, c, text + whole, length - whole, 1);
  fuzz_require (all.rows == first.rows + second.rows && all.marks == first.marks + second.marks);
  fuzz_require (all.lines == first.lines + second.lines && all.bads.count == first.bads.count + second.bads.count);
  fuzz_require (all.out.length == first.out.length + second.out.length);
  const char *out = br__text_string (&all.out);
  fuzz_require (memcmp (out, br__text_string (&first.out), first.out.length) == 0);
  fuzz_require (memcmp (out + first.out.length, br__text_string (&second.out), second.out.length) == 0);
  check_out (&all, c);
  block_clear (&all);
  block_clear (&first);
  block_clear (&second);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  fuzz_bytes bytes = { data, data + size };
  unsigned how = fuzz_byte (&bytes), cut = fuzz_byte (&bytes);
  const char *text = (const char *) bytes.at;
  size_t length = (size_t) (bytes.end - bytes.at);
  br__settings settings;
  separator = br__csv_separator (text, length);
  fuzz_require (br__settings_start (&settings) == BR_OK);
  br__column c = { .separator = separator, .settings = &settings, .direction = BR_NEAREST, .index = how % 4, .width = 1 + how / 4 % 4,
                   .sizes = { { 1, 15 }, { 1, 15 } }, .unit = { 1, 0 }, .lengths = 1 };
  fuzz_require (br__settings_mark (&c.mark, &settings) == BR_OK);
  check_rows (text, length, cut < length ? cut : length);
  check_blocks (&c, text, length, cut < length ? cut : length);
  br_number_clear (&c.mark.size);
  br__settings_clear (&settings);
  return 0;
}
