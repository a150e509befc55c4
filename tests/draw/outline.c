/* SPDX-License-Identifier: GPL-3.0-or-later
   outline.c - whether an outline can be drawn again from the page: the corners in the table below the figure, with their
   rounds, cuts and rises, have its area and its edge; and its strokes lie where it is.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../shape/wire.h"
#include "svg.h"

/* "2-3/8", "≈2-3/8" or "8".  */
static double
number_at (const char **text)
{
  const char *s = *text;
  double whole = 0, num = 0;
  int minus = *s == '-';
  s += minus;
  if (strncmp (s, "\xE2\x89\x88", 3) == 0)
    s += 3;
  minus |= *s == '-';
  s += *s == '-';
  char *end;
  whole = strtod (s, &end);
  if (*end == '/')
    whole /= strtod (end + 1, &end);
  else if (*end == '-')
    {
      num = strtod (end + 1, &end);
      whole += num / strtod (end + 1, &end);
    }
  *text = end;
  return minus ? -whole : whole;
}

/* The texts to the left of OF (its dimension) and to the right, about as high: smaller letters stand a little higher.  */
static const char *
in_row (const svg_file *f, const svg_element *of, int left)
{
  const svg_element *best = NULL;
  for (size_t i = 0; i < f->count; i++)
    {
      const svg_element *e = &f->elements[i];
      if (strcmp (e->name, "text") != 0 || llabs (svg_number (e, "y") - svg_number (of, "y")) > BR__INCH / 50)
        continue;
      int64_t x = svg_number (e, "x"), at = svg_number (of, "x");
      if (left ? x < at && (!best || x > svg_number (best, "x")) : x > at && (!best || x < svg_number (best, "x")))
        best = e;
    }
  assert_non_null (best);
  return best->text;
}

/* 1 where TEXT is WORDS and a list in which NUMBER is: "o, corner 1; 3".  */
static int
is_of (const char *text, const char *words, int number)
{
  size_t n = strlen (words);
  if (strncmp (text, words, n) != 0)
    return 0;
  for (const char *s = text + n; s; s = strstr (s, "; ") ? strstr (s, "; ") + 2 : NULL)
    if (atoi (s) == number)
      return 1;
  return 0;
}

/* The corner I + 1 from its rows.  */
static wire_corner
read_corner (const svg_file *f, int i)
{
  wire_corner c = { 0, 0, 0, 0, 0, 0 };
  int places = 0;
  for (size_t k = 0; k < f->count; k++)
    {
      const svg_element *e = &f->elements[k];
      if (!e->text || !(is_of (e->text, "o, corner ", i + 1) || is_of (e->text, "o, side to ", i + 1)))
        continue;
      const char *s = in_row (f, e, 1);
      if (strncmp (s, "R ", 2) == 0 || strncmp (s, "cut ", 4) == 0 || strncmp (s, "rise ", 5) == 0)
        {
          int kind = *s == 'R' ? 'R' : s[0];
          s = strchr (s, ' ') + 1;
          int value = (int) lround (number_at (&s) * 16);
          *(kind == 'R' ? &c.round : kind == 'c' ? &c.cut : &c.rise) = value;
          if (kind == 'c')
            {
              s += 3;
              c.after = (int) lround (number_at (&s) * 16);
            }
        }
      else
        {
          assert_string_equal (in_row (f, e, 0), "o, left and bottom");
          c.x = (int) lround (number_at (&s) * 8);
          assert_int_equal (strncmp (s, " across, ", 9), 0);
          s += 9;
          c.y = (int) lround (number_at (&s) * 8);
          assert_string_equal (s, " up");
          places++;
          continue;
        }
      assert_int_equal (*s, 0);
    }
  assert_int_equal (places, 1);
  return c;
}

static void
test_rebuild (void **state)
{
  static svg_file f;
  char path[] = "/tmp/benchrule-outline-XXXXXX.svg";
  (void) state;
  close (mkstemps (path, 4));
  for (long times = check_times (20); times > 0; times--)
    {
      static wire w;
      wire_outline o, back = { .count = 0 };
      char *text = NULL;
      size_t length;
      said s = SAID_ZERO;
      double area, edge, again, around;
      do
        {
          wire_random (&o, 7, 1);
          wire_of_outline (&w, &o);
        }
      while (wire_crosses_itself (&w));
      FILE *out = open_memstream (&text, &length);
      wire_statement (out, "o", &o, 40, 24);
      fclose (out);
      br_sheet *sheet = NULL;
      check_ok (br_sheet_new (&sheet));
      br_status status = sheet_run (sheet, &s, text);
      if (status == BR_OK)
        {
          sheet_say (sheet, &s, "ruler 1/64\ndraw into %s scale half", path);
          svg_read (&f, path);
          for (back.count = 0; back.count < o.count; back.count++)
            back.corner[back.count] = read_corner (&f, back.count);
          svg_clear (&f);
          wire_formulas (&area, &edge, &o);
          svg_clear (&f);
          wire_formulas (&area, &edge, &o);
          wire_formulas (&again, &around, &back);
          /* Places are rounded to eighths of the box around it, which need not be one.  */
          if (fabs (area - again) > edge / 8 || fabs (edge - around) > o.count * 0.3)
            fail_msg ("area %f, read %f; edge %f, read %f: %s", area, again, edge, around, text);
        }
      free (text);
      sheet_end (sheet, &s);
    }
  unlink (path);
}

/* A turned outline has its corners in the table as they are before it is turned: from the first, as they were typed.  */
static void
test_turned (void **state)
{
  static const char *const rows[] = { ">10\xC2\xB0, turned<", ">its middle, anticlockwise<", ">4 across, 0 up<", ">4 across, 3 up<",
                                      ">0 across, 2 up<", ">a, corner 4<", ">R 1/2<", ">rise 1/4<", ">a, side to 4<" };
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("outline a = 0, 0 to 4, 0 round 1/2 to 4, 3 to 0, 2 rise 1/4\nturn a by 10 deg");
  (void) state;
  sheet_say (sheet, &s, "draw into a.svg");
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    lesson_contains ("a.svg", rows[i], 1);
  lesson_contains ("a.svg", ">a, corner 1, unturned<", 1);
  sheet_end (sheet, &s);
}

/* A side of 5 with a rise of 1 is one arc, of (2.5 * 2.5 + 1) / 2 = 3-5/8; two rounds that are alike are two.  */
static void
test_arcs_are_counted (void **state)
{
  static const char *const sides[] = { "0, 0 to 10, 0 to 10, 5 rise 1 to 0, 5", "0, 0 to 10, 0 round 1 to 10, 5 round 1 to 0, 5" };
  static const char *const texts[] = { ">R 3-5/8<", ">2x R 1<" };
  (void) state;
  for (int i = 0; i < 2; i++)
    {
      char line[100];
      said s = SAID_ZERO;
      snprintf (line, sizeof line, "outline a = %s", sides[i]);
      br_sheet *sheet = sheet_with (line);
      sheet_say (sheet, &s, "draw into a.svg");
      lesson_contains ("a.svg", texts[i], 1);
      sheet_end (sheet, &s);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_rebuild), CHECK_TEST (test_turned), CHECK_TEST (test_arcs_are_counted) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, lesson_enter, lesson_leave));
}
