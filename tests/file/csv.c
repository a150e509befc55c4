/* SPDX-License-Identifier: GPL-3.0-or-later
   csv.c - rows and cells of CSV against RFC 4180 and a slow reader; short numbers read both ways.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#include "file/csv.h"
#include "measure/measure.h"

/* The cells of the first row of TEXT, a bar between, then what is left.  */
static void
check_row (const char *text, int last, const char *cells, const char *rest)
{
  const char *end = text + strlen (text);
  br_text all = BR_TEXT_ZERO;
  br__csv_row row;
  row.cells = 1;
  for (size_t i = 0; i < row.cells; i++)
    {
      assert_int_equal (br__csv_next (&row, text, end, i, last, ','), 1);
      if (i)
        br__text_putc (&all, '|');
      br__csv_put_content (&all, row.cell, row.cell_end);
    }
  assert_string_equal (br__text_string (&all), cells);
  assert_string_equal (row.next, rest);
  assert_int_equal (br__csv_next (&row, text, end, row.cells, last, ','), 1);
  assert_null (row.cell);
  br__text_clear (&all);
}

/* RFC 4180, section 2: rules 1 to 7 with its own examples, then what it leaves open.  */
static void
test_rows (void **state)
{
  (void) state;
  check_row ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", 0, "aaa|bbb|ccc", "zzz,yyy,xxx\r\n");
  check_row ("zzz,yyy,xxx", 1, "zzz|yyy|xxx", "");
  check_row ("\"aaa\",\"bbb\",\"ccc\"\r\nzzz", 0, "aaa|bbb|ccc", "zzz");
  check_row ("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz", 0, "aaa|b\r\nbb|ccc", "zzz");
  check_row ("\"aaa\",\"b\"\"bb\",\"ccc\"\n", 0, "aaa|b\"bb|ccc", "");
  check_row (" a , b\n", 0, " a | b", "");
  check_row ("2-3/8\",5' 2\"\n", 0, "2-3/8\"|5' 2\"", "");
  check_row (",,\n,", 0, "||", ",");
  check_row ("\n1", 0, "", "1");
  check_row ("\"\"\"\"\n", 0, "\"", "");
  check_row ("\"a\"b,\"\"\n", 0, "ab|", "");
  check_row ("a\rb\r\n", 0, "a\rb", "");
  check_row ("\"a\"", 1, "a", "");
}

/* Lines inside quotes are counted, and a quote that nothing closes is told.  */
static void
test_breaks (void **state)
{
  static const struct { const char *text; size_t breaks; int open; } rows[] = {
    { "a,b", 0, 0 }, { "\"a\nb\",\"c\r\n\r\nd\",e", 3, 0 }, { "\"a\nb\"\"\n\"", 2, 0 }, { "\"a\n,b", 0, 1 }, { "", 0, 0 },
    { "a,", 0, 0 }, { "a,\"", 0, 1 }, { "\"\"", 0, 0 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      size_t length = strlen (rows[i].text);
      char *text = malloc (length + 1);         /* as large as it must be, so that a byte behind it is seen */
      br__csv_row row;
      assert_non_null (text);
      text = realloc (text, length ? length : 1);
      memcpy (text, rows[i].text, length);
      assert_int_equal (br__csv_next (&row, text, text + length, 0, 1, ','), 1);
      assert_int_equal (row.open, rows[i].open);
      if (!row.open)
        assert_int_equal (row.breaks, rows[i].breaks);
      assert_int_equal (br__csv_whole (text, length, ','), 0);
      free (text);
    }
}

/* What ends before the row does is told apart from what is a row.  */
static void
test_ends (void **state)
{
  static const char *const unfinished[] = { "a,b", "\"a\nb", "\"a\"\"", "\"a\"", "a,\"" };
  br__csv_row row;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (unfinished); i++)
    {
      const char *text = unfinished[i], *end = text + strlen (text);
      assert_int_equal (br__csv_next (&row, text, end, 0, 0, ','), 0);
      assert_int_equal (br__csv_whole (text, strlen (text), ','), 0);
      assert_int_equal (br__csv_next (&row, text, end, 0, 1, ','), 1);
      assert_ptr_equal (row.next, end);
    }
  assert_int_equal (br__csv_whole ("a,b\nc\nd", 7, ','), 6);
  assert_int_equal (br__csv_whole ("\n", 1, ','), 1);
  const char *some = "a\n\"b\nc\"\nd\n\"e\n";
  assert_int_equal (br__csv_whole (some, strlen (some), ','), 10);
  /* What stands before the row is not part of it: here the first half of a line end.  */
  const char *ends = "\r\n";
  assert_int_equal (br__csv_next (&row, ends + 1, ends + 2, 0, 0, ','), 1);
  assert_ptr_equal (row.end, ends + 1);
  const char *open = "\"a\nb";
  assert_int_equal (br__csv_next (&row, open, open + 4, 0, 1, ','), 1);
  assert_int_equal (row.open, 1);
}

/* A cell that is put is read back the same, whatever it holds.  */
static void
test_cells (void **state)
{
  static const char letters[] = "ab\",\n\r ";
  (void) state;
  for (long i = 0; i < check_times (20000); i++)
    {
      char bytes[12];
      size_t length = check_below (sizeof bytes);
      br_text text = BR_TEXT_ZERO, back = BR_TEXT_ZERO;
      br__csv_row row;
      for (size_t k = 0; k < length; k++)
        bytes[k] = letters[check_below (sizeof letters - 1)];
      br__csv_put_cell (&text, bytes, length, ',');
      br__text_puts (&text, ",x\r\n");
      assert_int_equal (br__csv_next (&row, text.bytes, text.bytes + text.length, 0, 0, ','), 1);
      assert_int_equal (row.cells, 2);
      assert_ptr_equal (row.next, text.bytes + text.length);
      br__csv_put_content (&back, row.cell, row.cell_end);
      assert_int_equal (back.length, length);
      assert_memory_equal (br__text_string (&back), bytes, length);
      br__text_clear (&text);
      br__text_clear (&back);
    }
}

/* The short way of reading gives what the whole reader does: a no-break blank behind the number
   sends it there.  */
static void
test_short_way (void **state)
{
  static const char letters[] = "0123456789012345.-/ ";
  long plain = 0;
  (void) state;
  for (long i = 0; i < check_times (200000); i++)
    {
      char text[32];
      size_t length = 1 + check_below (check_below (4) ? 9 : 28);
      br_measure fast = BR_MEASURE_ZERO, slow = BR_MEASURE_ZERO;
      br__numeral n = BR__NUMERAL_ZERO;
      for (size_t k = 0; k < length; k++)
        text[k] = letters[check_below (sizeof letters - 1)];
      memcpy (text + length, "\xc2\xa0", 2);
      br__reader r = { text, length, NULL, NULL };
      plain += br__numeral_plain (&n, &r, 0);
      br_number_clear (&n.value);
      br_status one = br_measure_read (&fast, text, length, NULL, NULL);
      br_status other = br_measure_read (&slow, text, length + 2, NULL, NULL);
      if (one != other || !br_number_equal (&fast.value, &slow.value) || !br_number_check (&fast.value))
        fail_msg ("%.*s: %s and %s", (int) length, text, br_status_name (one), br_status_name (other));
      br_measure_clear (&fast);
      br_measure_clear (&slow);
    }
  assert_true (plain > check_times (200000) / 50);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_rows), CHECK_TEST (test_breaks), CHECK_TEST (test_ends), CHECK_TEST (test_cells), CHECK_TEST (test_short_way),
  };
  return CHECK_RUN (tests);
}
