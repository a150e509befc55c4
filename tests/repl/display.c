/* SPDX-License-Identifier: GPL-3.0-or-later
   display.c - tests of what a terminal shows: escaped text and its columns, the caret under
   a mistake, tables and the picture of a ruler.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#include <locale.h>

#include "display.h"
#include "escape.h"
#include "fault.h"
#include "show/ruler_text.h"
#include "show/table.h"

static char *shown;
static size_t shown_size;

static display
open_display (int width, int utf8)
{
  display d = { .stream = open_memstream (&shown, &shown_size), .utf8 = utf8, .width = width };
  assert_non_null (d.stream);
  return d;
}

/* Compares what D got with WANTED.  */
static void
close_display (display *d, const char *wanted)
{
  fclose (d->stream);
  assert_string_equal (shown, wanted);
  free (shown);
  shown = NULL;
}

static void
test_escape (void **state)
{
  /* UTF-8 by RFC 3629: overlong forms, surrogates, too large and cut ones are broken; the
     bidi controls by Unicode UAX 9; widths by hand.  */
  static const struct { const char *text, *shown; int width; } cases[] = {
    { "2-3/8", "2-3/8", 5 },
    { "a\tb", "a b", 3 },
    { "\033[31m", "\\x1b[31m", 8 },
    { "\x7f", "\\x7f", 4 },
    { "\xc2\x9b", "\\u009b", 6 },
    { "\xe2\x80\xae", "\\u202e", 6 },
    { "\xe2\x81\xa6", "\\u2066", 6 },
    { "\xe2\x80\x8f", "\\u200f", 6 },
    { "2\xe2\x85\x9c", "2\xe2\x85\x9c", 2 },
    { "e\xcc\x81", "e\xcc\x81", 1 },
    { "\xe5\xb0\xba", "\xe5\xb0\xba", 2 },
    { "\xff", "\\xff", 4 },
    { "\xc0\xaf", "\\xc0\\xaf", 8 },
    { "\xe0\x80\xaf", "\\xe0\\x80\\xaf", 12 },
    { "\xed\xa0\x80", "\\xed\\xa0\\x80", 12 },
    { "\xf4\x90\x80\x80", "\\xf4\\x90\\x80\\x80", 16 },
    { "\xe2\x85", "\\xe2\\x85", 8 },
    { "", "", 0 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (cases); i++)
    {
      char *text = escape_text (cases[i].text, strlen (cases[i].text));
      assert_string_equal (text, cases[i].shown);
      assert_int_equal (escape_width (cases[i].text, strlen (cases[i].text)), cases[i].width);
      free (text);
    }
}

static void
test_broken (void **state)
{
  char *text = escape_broken ("a\033\xe2\x85\x9c\xff", 6);
  (void) state;
  assert_string_equal (text, "a\033\xe2\x85\x9c\\xff");
  free (text);
}

static void
test_column (void **state)
{
  static const struct { const char *text; size_t offset, column; } cases[] = {
    { "abc", 0, 1 }, { "abc", 2, 3 }, { "abc", 3, 4 }, { "abc", 9, 4 },
    { "\xe2\x85\x9c + x", 6, 5 },       /* a vulgar fraction is one character */
    { "e\xcc\x81?", 3, 2 },             /* a combining accent belongs to its letter */
    { "\xe5\xb0\xba?", 3, 2 },          /* one character, two columns wide */
    { "\t?", 1, 2 },
    { "\033?", 1, 2 },
    { "\xff?", 1, 2 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (cases); i++)
    assert_int_equal (escape_column (cases[i].text, strlen (cases[i].text), cases[i].offset),
                      cases[i].column);
}

static void
check_fault (const char *text, size_t offset, size_t length, int place, const char *wanted)
{
  br_error error = { BR_SYNTAX, offset, length, "not known", "" };
  br_fault fault = { "cart.sheet", 3, text, strlen (text), &error };
  display d = open_display (80, 1);
  fault_put (&d, &fault, place);
  close_display (&d, wanted);
}

static void
test_caret (void **state)
{
  (void) state;
  check_fault ("a = 1 ? 2", 6, 1, 1, "cart.sheet:3:7: not known\n  a = 1 ? 2\n        ^\n");
  check_fault ("a = weel", 4, 4, 0, "not known\n  a = weel\n      ^~~~\n");
  check_fault ("1 +", 3, 0, 1, "cart.sheet:3:4: not known\n  1 +\n     ^\n");
  check_fault ("\033 ?", 2, 1, 1, "cart.sheet:3:3: not known\n  \\x1b ?\n       ^\n");
  check_fault ("\xe5\xb0\xba ?\n", 4, 1, 1, "cart.sheet:3:3: not known\n  \xe5\xb0\xba ?\n     ^\n");
  check_fault ("a\xff", 1, 1, 1, "cart.sheet:3:2: not known\n  a\\xff\n   ^~~~\n");
  check_fault ("", 0, 0, 1, "cart.sheet:3:1: not known\n");
}

static void
test_hint (void **state)
{
  br_error error = { BR_IO, 0, 0, "no such file", "write the\033 name" };
  br_fault fault = { "x\033.sheet", 0, "", 0, &error };
  display d = open_display (80, 1);
  (void) state;
  fault_put (&d, &fault, 1);
  close_display (&d, "x\\x1b.sheet: no such file\nhint: write the\\x1b name\n");
}

/* Wherever the mistake is in a long line, no line is wider than 80 columns, and the caret
   stands under it.  */
static void
test_window (void **state)
{
  enum { LONG = 300 };
  char text[LONG + 1];
  (void) state;
  for (size_t at = 0; at < LONG; at++)
    {
      memset (text, 'x', LONG);
      text[LONG] = '\0';
      text[at] = '?';
      br_error error = { BR_SYNTAX, at, 1, "m", "" };
      br_fault fault = { "f", 1, text, LONG, &error };
      display d = open_display (80, 0);
      fault_put (&d, &fault, 0);
      fclose (d.stream);
      char *line = strchr (shown, '\n') + 1;
      char *caret = strchr (line, '\n') + 1;
      assert_true (strcspn (line, "\n") <= 80 && strcspn (caret, "\n") <= 80);
      assert_int_equal (line[strcspn (caret, "^")], '?');
      free (shown);
    }
}

static void
test_table (void **state)
{
  static const char *const headings[] = { "name", "value", "empty", "note" };
  table t = TABLE_ZERO;
  (void) state;
  table_start (&t, 4, headings);
  table_add (&t, "wheel");
  table_addf (&t, "%d-1/2", 3);
  table_add (&t, "");
  table_add (&t, "the front wheel\033");
  table_add (&t, "\xe5\xb0\xba");
  table_add (&t, "1");
  table_add (&t, "");
  table_add (&t, "");
  assert_int_equal (table_rows (&t), 2);
  display d = open_display (80, 1);
  table_put (&t, &d);
  close_display (&d, "  name   value  note\n  wheel  3-1/2  the front wheel\\x1b\n  \xe5\xb0\xba     1\n");
  d = open_display (30, 1);
  table_put (&t, &d);
  close_display (&d, "  name   value  note\n  wheel  3-1/2  the front whe\xe2\x80\xa6\n  \xe5\xb0\xba     1\n");
  d = open_display (30, 0);
  table_put (&t, &d);
  close_display (&d, "  name   value  note\n  wheel  3-1/2  the front w...\n  \xe5\xb0\xba     1\n");
  table_clear (&t);
}

static void
test_ruler (void **state)
{
  ruler_picture picture = { "1319/200", "6.595", "53/8", "1/8", "over by 3/100" };
  (void) state;
  display d = open_display (80, 0);
  ruler_put (&d, &picture);
  close_display (&d,
                 "\n"
                 "                               6.595\n"
                 "                                 v\n"
                 "    ---+--------------+--------------+--------------+--------------+---\n"
                 "       |              |              |              |              |\n"
                 "                      |                             |\n"
                 "                      |\n"
                 "     6-3/8          6-1/2          6-5/8          6-3/4          6-7/8\n"
                 "                                     ^\n"
                 "                               over by 3/100\n");
}

/* The arrow stands at its place to a column: 15 columns are one mark.  */
static void
test_arrow (void **state)
{
  (void) state;
  for (int64_t i = -7; i <= 7; i++)
    {
      char value[64];
      snprintf (value, sizeof value, "%d/240", (int) (53 * 30 + 2 * i));
      ruler_picture picture = { value, "x", "53/8", "1/8", "" };
      display d = open_display (80, 0);
      ruler_put (&d, &picture);
      fclose (d.stream);
      char *arrow = strchr (strchr (shown + 1, '\n'), 'v');
      char *line = arrow;
      while (line[-1] != '\n')
        line--;
      assert_int_equal (arrow - line, 37 + i);
      free (shown);
    }
}

/* A ruler begins at zero, and what cannot be read draws nothing.  */
static void
test_ruler_ends (void **state)
{
  ruler_picture picture = { "1/100", "1/100", "0", "1/8", "this mark" };
  (void) state;
  display d = open_display (80, 0);
  ruler_put (&d, &picture);
  fclose (d.stream);
  assert_null (strstr (shown, "-1/8"));
  assert_non_null (strstr (shown, "\n       0 "));
  free (shown);
  picture.step = "0";
  d = open_display (80, 0);
  ruler_put (&d, &picture);
  close_display (&d, "");
}

/* A line is broken at a blank, but not between an approximate sign and its number.  */
static void
test_break (void **state)
{
  static const char text[] = "an error of \xe2\x89\x88 0.125 in";
  (void) state;
  display d = open_display (16, 1);
  display_wrap (&d, text, 0, 2);
  close_display (&d, "an error of\n  \xe2\x89\x88 0.125 in\n");
  d = open_display (16, 1);
  display_fold (&d, text, strlen (text));
  close_display (&d, "an error of\n  \xe2\x89\x88 0.125 in");
}

/* After Ctrl-C no more lines come, however many there are.  */
static void
test_stop (void **state)
{
  static const char *const headings[] = { "name", "value" };
  static const char text[] = "one\ntwo\n";
  table t = TABLE_ZERO;
  (void) state;
  table_start (&t, 2, headings);
  for (int i = 0; i < 4; i++)
    table_add (&t, "x");
  for (volatile sig_atomic_t stop = 0; stop < 2; stop++)
    {
      display d = open_display (80, 1);
      d.stop = &stop;
      table_put (&t, &d);
      display_fold (&d, text, strlen (text));
      close_display (&d, stop ? "" : "  name  value\n  x     x\n  x     x\none\ntwo\n");
    }
  table_clear (&t);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_escape), CHECK_TEST (test_broken), CHECK_TEST (test_column),
    CHECK_TEST (test_caret), CHECK_TEST (test_hint), CHECK_TEST (test_window),
    CHECK_TEST (test_table), CHECK_TEST (test_ruler), CHECK_TEST (test_arrow),
    CHECK_TEST (test_ruler_ends), CHECK_TEST (test_break), CHECK_TEST (test_stop)
  };
  if (!setlocale (LC_CTYPE, "C.UTF-8"))
    return 77;
  return CHECK_RUN (tests);
}
