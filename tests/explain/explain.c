/* SPDX-License-Identifier: GPL-3.0-or-later
   explain.c - every step of every explanation is put to the language again: its two sides are one
   value, and the last is what the expression itself gives.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "formula/functions.h"
#include "../sheet/support.h"

#define ABOUT " \xe2\x89\x88 "

/* LEFT and RIGHT of STEP; 1 for =, 0 for a step that rounds.  */
static int
split (const char *step, char *left, char *right, size_t size)
{
  const char *sign = strstr (step, ABOUT);
  int equal = sign == NULL;
  size_t width = equal ? 3 : strlen (ABOUT);
  if (equal)
    sign = strstr (step, " = ");
  if (!sign || strstr (sign + width, equal ? " = " : ABOUT))
    fail_msg ("not one equation: %s", step);
  assert_true (strlen (step) < size);
  snprintf (left, size, "%.*s", (int) (sign - step), step);
  snprintf (right, size, "%s", sign + width);
  return equal;
}

/* What the check says: "pass", "undecided" ...  */
static void
judge (br_sheet *sheet, const char *check, const char *step, char *state, size_t size)
{
  said s = SAID_ZERO;
  br_status status = sheet_run (sheet, &s, check);
  if (status != BR_OK)
    fail_msg ("%s: %s\n  of %s", check, s.faults[0].error.message, step);
  snprintf (state, size, "%s", said_get (&s, 0, "state"));
  assert_int_equal (sheet_run (sheet, &s, "undo"), BR_OK);
  said_clear (&s);
}

static void
holds (br_sheet *sheet, const char *check, const char *step)
{
  char state[16];
  judge (sheet, check, step, state, sizeof state);
  if (strcmp (state, "pass") != 0)
    fail_msg ("%s: %s\n  of %s", state, check, step);
}

/* A step that rounds gives twelve digits, correctly rounded.  Where two ways to one sine cannot be told
   to be equal, which no enclosure can, they must agree as far.  */
static void
step_holds (br_sheet *sheet, const char *step)
{
  char left[2048], right[2048], check[8192], state[16] = "undecided";
  if (split (step, left, right, sizeof left))
    {
      snprintf (check, sizeof check, "check %s = %s", left, right);
      judge (sheet, check, step, state, sizeof state);
    }
  if (strcmp (state, "undecided") == 0)
    {
      snprintf (check, sizeof check, "check ((%s) - (%s))^2 <= (%s)^2 / 10^22", left, right, right);
      holds (sheet, check, step);
    }
  else if (strcmp (state, "pass") != 0)
    fail_msg ("%s: %s", state, step);
}

/* Explains EXPRESSION and puts each step to the language.  0 where it has no value.  */
static size_t
explain (br_sheet *sheet, const char *expression)
{
  said s = SAID_ZERO, value = SAID_ZERO;
  char text[4096], path[64], end[8192];
  snprintf (text, sizeof text, "explain %s", expression);
  br_status status = sheet_run (sheet, &s, expression);
  if (status != BR_OK)
    {
      assert_int_equal (sheet_run (sheet, &s, text), status);
      said_clear (&s);
      return 0;
    }
  if (sheet_run (sheet, &value, text) != BR_OK)
    fail_msg ("%s: %s", text, value.faults[0].error.message);
  assert_string_equal (said_get (&value, 0, "kind"), "steps");
  size_t count = strtoul (said_get (&value, 0, "steps.count"), NULL, 10);
  for (size_t i = 0; i < count; i++)
    {
      snprintf (path, sizeof path, "steps.%zu", i);
      step_holds (sheet, said_get (&value, 0, path));
    }
  if (strcmp (said_get (&s, 0, "exact"), "null") != 0)
    {
      snprintf (end, sizeof end, "check %s = %s", expression, said_get (&value, 0, "answer"));
      holds (sheet, end, text);
    }
  said_clear (&s);
  said_clear (&value);
  return count;
}

/* A shop size as it is typed: 2-3/8, 5/16, 7, now and then 6.595.  */
static void
put_size (FILE *out, const char *unit)
{
  int64_t whole = check_between (0, 12), d = INT64_C (1) << check_below (6), n = d > 1 ? check_between (1, d - 1) : 0;
  if (check_below (12) == 0)
    fprintf (out, "%" PRId64 ".%03d", whole, (int) check_between (1, 999));
  else if (n && whole)
    fprintf (out, "%" PRId64 "-%" PRId64 "/%" PRId64, whole, n, d);
  else if (n)
    fprintf (out, "%" PRId64 "/%" PRId64, n, d);
  else
    fprintf (out, "%" PRId64, whole + 1);
  fputs (unit, out);
}

static void
put_expression (FILE *out, int depth, const char *unit)
{
  if (depth == 0 || check_below (4) == 0)
    {
      put_size (out, unit);
      return;
    }
  switch (check_below (8))
    {
    case 0: case 1: case 2:
      fputc ('(', out), put_expression (out, depth - 1, unit);
      fputs (check_below (2) ? ") + (" : ") - (", out);
      put_expression (out, depth - 1, unit), fputc (')', out);
      break;
    case 3: case 4:
      put_size (out, ""), fputs (" * (", out), put_expression (out, depth - 1, unit), fputc (')', out);
      break;
    case 5:
      fputc ('(', out), put_expression (out, depth - 1, unit), fputs (") / ", out), put_size (out, "");
      break;
    case 6:
      fputs ("-(", out), put_expression (out, depth - 1, unit), fputc (')', out);
      break;
    default:
      fputs ("sqrt((", out), put_expression (out, depth - 1, unit), fputs (")^2 + ", out);
      fprintf (out, "%s)", *unit ? "9 sq in" : "9");
      break;
    }
}

static void
expressions (void **state)
{
  static const char *const units[] = { "", " in" };
  (void) state;
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  size_t steps = 0;
  long times = check_times (400);
  for (long k = times; k > 0; k--)
    {
      char *text = NULL;
      size_t size;
      FILE *out = open_memstream (&text, &size);
      put_expression (out, (int) check_between (1, 3), units[check_below (2)]);
      fclose (out);
      steps += explain (sheet, text);
      free (text);
    }
  assert_true (steps > (size_t) times);
  sheet_end (sheet, &s);
}

static void
shop_functions (void **state)
{
  (void) state;
  for (size_t i = 0; i < br__shop_function_count; i++)
    {
      const br__function *f = &br__shop_functions[i];
      size_t explained = 0;
      for (long k = 5 + check_times (20); k > 0; k--)
        {
          br_sheet *sheet = sheet_with (check_below (2) ? "" : "units mm");
          said s = SAID_ZERO;
          char *text = NULL;
          size_t size;
          FILE *out = open_memstream (&text, &size);
          const char *unit = check_below (2) ? "" : " in";
          fprintf (out, "%s(", f->name);
          for (size_t a = 0; a < br__function_least (f); a++)
            {
              fputs (a ? ", " : "", out);
              if (f->needs[a] == 'a')
                fprintf (out, "%d", (int) check_between (1, 360));
              else if (strcmp (f->name, "drill") == 0)
                fprintf (out, "0.%03d in", (int) check_between (1, 990));
              else
                put_size (out, unit);
            }
          fputc (')', out);
          fclose (out);
          explained += explain (sheet, text) > 0;
          free (text);
          sheet_end (sheet, &s);
        }
      if (!explained)
        fail_msg ("nothing of %s was explained", f->name);
    }
}

/* A chain of dimensions, and the marks at the end of it.  */
static void
chains (void **state)
{
  static const char *const asked[] =
    { "top", "side", "reach", "top to 1/8", "full 1-3/16", "drawn 4-3/4", "in_boxes top", "-top^2", "6.595 to 1/8",
      "handle", "mean(wheel, top, 3)", "max(wheel, 2)" };
  br_sheet *sheet = sheet_with ("scale half\ngrid 1/4 in\nwheel = 3-1/2 in\nbase = 4 * wheel\n"
                                "deck = base + 2 * (5/4 * wheel)\nside = deck / 5\ntop = side - 7/16 in\n"
                                "reach = diagonal(deck, side)\nhandle = reach / 2 + wheel");
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (asked); i++)
    {
      char text[128], path[32];
      snprintf (text, sizeof text, "explain %s", asked[i]);
      if (sheet_run (sheet, &s, text) != BR_OK)
        fail_msg ("%s: %s", text, s.faults[0].error.message);
      said kept = s;
      memset (&s, 0, sizeof s);
      size_t count = strtoul (said_get (&kept, 0, "steps.count"), NULL, 10);
      assert_true (count > 0);
      for (size_t k = 0; k < count; k++)
        {
          snprintf (path, sizeof path, "steps.%zu", k);
          step_holds (sheet, said_get (&kept, 0, path));
        }
      said_clear (&kept);
    }
  sheet_end (sheet, &s);
}

/* Every step of EXPRESSION on SHEET holds there, and none shows what no one typed.  */
static void
holds_there (br_sheet *sheet, const char *expression)
{
  said s = SAID_ZERO;
  char text[128], path[32];
  snprintf (text, sizeof text, "explain %s", expression);
  if (sheet_run (sheet, &s, text) != BR_OK)
    fail_msg ("%s: %s", text, s.faults[0].error.message);
  size_t count = strtoul (said_get (&s, 0, "steps.count"), NULL, 10);
  assert_true (count > 0);
  for (size_t k = 0; k < count; k++)
    {
      snprintf (path, sizeof path, "steps.%zu", k);
      const char *step = said_get (&s, 0, path);
      if (strstr (step, "box deck") || strstr (step, "/ )") || *step == ' ')
        fail_msg ("%s: %s", text, step);
      step_holds (sheet, step);
    }
  said_clear (&s);
}

/* What shapes measure, and names of the sheet that a function has for its own values.  */
static void
shapes_and_names (void **state)
{
  static const char *const asked[] =
    { "right(deck)", "left(deck)", "top(deck)", "bottom(deck)", "centre_x(deck)", "centre_y(deck)", "r", "reach",
      "right(shelf)", "top(shelf)", "centre_x(shelf)", "left(rear)", "bottom(rear)", "clear(front, rear)",
      "clear(deck, rear)", "top(mudguard)", "right(mudguard)", "top(sign) + 1", "clear(rear, front) to 1/8 in",
      "right(brace)", "centre_y(brace)", "diagonal(side, 4)", "axle_length(a, b, sqrt(2), 0, chord)",
      "wheel_gap(40, side, rise)", "rise(r, side)", "radius_from(wheelbase, front_dia)", "drill(gap / 200)",
      "1 in + side", "diagonal(side, 1 in)", "max(side, 3)", "-(13 in - 6 ft)", "-(side - 6)", "2 * -(1 - 3)",
      "right(deck)^2", "-right(deck)", "fender_outer(front_dia, gap, side)", "arc_length(4, 30 deg)", "arc_length(4, bent)",
      "centre_x(post)", "centre_y(strip)", "centre_x(strip)", "centre_y(stop)",
      "right(rail)", "left(rail)", "top(rail)", "bottom(rail)", "width(rail)", "height(twin)", "left(twin)", "right(twin)",
      "bottom(twin)", "area(rail) / 2", "perimeter(twin)", "left(back)", "right(next)" };
  static const char *const units[] = { "", "units mm", "units ft" };
  (void) state;
  for (size_t k = 0; k < CHECK_COUNT (units); k++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with (units[k]);
      sheet_say (sheet, &s, "w = 22\nbox deck = w x 3/4 at 0, 0\ncircle front = 8-1/4 at 4, -3\nr = right(deck)\n"
                 "reach = clear(front, deck) + r\na = 14\nb = a / 3\nd = 5\nx = 2\nchord = 3\nrise = 6\ngap = 7\nside = diagonal(2, 3)\n"
                 "wheelbase = side + 30\nfront_dia = 9\nbox shelf = 2 * a x side / 4 above deck by -1/8 flush left\n"
                 "circle rear = 6 + 1/2 right of front by gap / 8\narc mudguard = fender(front, 3/4, 1/2) 180 deg\n"
                 "box sign = 3 x a / 4 above mudguard\nline brace = 1, 2 to 7-1/2, -side wide 1/4\n"
                 "bent = sqrt(2) * 20 deg\nbox plate = 4 x 1 at 0, 0\ncircle post = 2 left of plate by 1\n"
                 "arc strip = bend(2, 1) 90 deg above plate by 1\nbox stop = 1 x 1 right of strip flush top\n"
                 "row rail of shelf qty chord by a / 2, -side\nmirror twin of rail about w / 3\nrow back of front qty 4 by -3\n"
                 "box next = 1 x 1 right of rail by 1");
      for (size_t i = 0; i < CHECK_COUNT (asked); i++)
        holds_there (sheet, asked[i]);
      sheet_end (sheet, &s);
    }
}

/* How a sum is done by hand, to the letter.  */
static void
by_hand (void **state)
{
  static const struct { const char *asked; const char *steps[8]; } rows[] =
  {
    { "3-1/2 - 1-3/8", { "3-1/2 - 1-3/8 = 3-4/8 - 1-3/8", "3-4/8 - 1-3/8 = 2-1/8" } },
    { "2-5/8 + 1-7/8", { "2-5/8 + 1-7/8 = 3 + 12/8", "3 + 12/8 = 4-4/8", "4-4/8 = 4-1/2" } },
    { "3-1/8 - 1-5/8", { "3-1/8 - 1-5/8 = 2 + 9/8 - 1-5/8", "2 + 9/8 - 1-5/8 = 1-4/8", "1-4/8 = 1-1/2" } },
    { "2-3/8 * 3", { "2-3/8 * 3 = 19/8 * 3", "19/8 * 3 = 57/8", "57/8 = 7-1/8" } },
    { "2-1/4 / 1-1/2", { "2-1/4 / 1-1/2 = 9/4 / 3/2", "9/4 / 3/2 = 9/4 * 2/3", "9/4 * 2/3 = 18/12",
                         "18/12 = 1-1/2" } },
    { "3 / (1/4)", { "3 / 1/4 = 3 * 4/1", "3 * 4/1 = 12" } },
    { "5 in / 1-1/4 in", { "5\" / 1-1/4\" = 5 / 1-1/4", "5 / 1-1/4 = 5 / 5/4", "5 / 5/4 = 5 * 4/5", "5 * 4/5 = 20/5",
                           "20/5 = 4" } },
    { "-(13 in - 6 ft)", { "13\" - 72\" = -59\"", "-(-59\") = 59\"" } },
    { "diagonal(edge, 4)", { "diagonal(edge, 4) = sqrt(edge^2 + 4^2)", "edge^2 = 13", "4^2 = 16", "13 + 16 = 29",
                             "sqrt(29) \xe2\x89\x88 5.38516480713", "nearest(sqrt(29), 1/16) = 5-3/8" } },
    { "right(deck)", { "centre_x(deck) = w / 2", "w / 2 = 22\" / 2", "22\" / 2 = 11\"",
                       "right(deck) = centre_x(deck) + w / 2", "centre_x(deck) + w / 2 = 11\" + 22\" / 2",
                       "22\" / 2 = 11\"", "11\" + 11\" = 22\"" } },
    { "bottom(wheel)", { "centre_y(wheel) = -3\"", "bottom(wheel) = centre_y(wheel) - 8 in / 2",
                         "centre_y(wheel) - 8 in / 2 = -3\" - 8 in / 2", "8\" / 2 = 4\"", "-3\" - 4\" = -7\"" } },
    { "6.595 to 1/8", { "6.595 / 1/8 = 52.76", "nearest(52.76, 1) = 53", "53 * 1/8 = 6-5/8" } },
    /* A row goes on from its shape, and a mirror shows the other side.  */
    { "left(wheels)", { "centre_x(wheel) = 4\"", "left(wheel) = centre_x(wheel) - 8 in / 2", "centre_x(wheel) - 8 in / 2 = 4\" - 8 in / 2",
                        "8\" / 2 = 4\"", "4\" - 4\" = 0\"", "left(wheels) = left(wheel)", "left(wheel) = 0\"" } },
    { "area(decks)", { "area(decks) = 3 * area(deck)", "3 * area(deck) = 3 * 16-1/2 sq in", "3 * 16-1/2 sq in = 3 * 33/2 sq in",
                       "3 * 33/2 sq in = 99/2 sq in", "99/2 sq in = 49-1/2 sq in" } },
    /* What an outline takes up is measured.  */
    { "width(side) - height(side)", { "width(side) - height(side) = 8\" - 5\"", "8\" - 5\" = 3\"" } },
    { "area(side) / 2", { "area(side) / 2 = 20 sq in / 2", "20 sq in / 2 = 10 sq in" } },
    { "perimeter(square) / 2", { "perimeter(square) / 2 = 8\" / 2", "8\" / 2 = 4\"" } },
  };
  br_sheet *sheet = sheet_with ("a = 14\nedge = diagonal(2, 3)\nw = 22 in\nbox deck = w x 3/4 at 0, 0\ncircle wheel = 8 in at 4, -3\n"
                                "outline side = 0, 0 to 8, 0 to 8, 5\noutline square = 0, 0 to 2, 0 to 2, 2 to 0, 2\nrow wheels of wheel qty 3 by 10 in\nrow decks of deck qty 3 by 30");
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      char text[128], path[32];
      size_t count = 0;
      snprintf (text, sizeof text, "explain %s", rows[i].asked);
      sheet_say (sheet, &s, "%s", text);
      for (; count < 8 && rows[i].steps[count]; count++)
        {
          snprintf (path, sizeof path, "steps.%zu", count);
          said_is (&s, 0, path, rows[i].steps[count]);
        }
      assert_int_equal (strtoul (said_get (&s, 0, "steps.count"), NULL, 10), count);
    }
  sheet_end (sheet, &s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (by_hand),
    CHECK_TEST (expressions),
    CHECK_TEST (shop_functions),
    CHECK_TEST (chains),
    CHECK_TEST (shapes_and_names),
  };
  return CHECK_RUN (tests);
}
