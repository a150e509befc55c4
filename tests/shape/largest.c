/* SPDX-License-Identifier: GPL-3.0-or-later
   largest.c - the largest radius and the largest cut that an error names do fit when they are typed, and no larger one does.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "wire.h"

/* A convex outline of four or five corners in eighths, TREATED by WHAT; ALIKE: so is the corner behind it.  */
static char *
text_of (const wire_outline *o, int treated, int alike, const char *what)
{
  char *text = NULL;
  size_t length;
  FILE *out = open_memstream (&text, &length);
  fputs ("outline o = ", out);
  for (int i = 0; i < o->count; i++)
    fprintf (out, "%s(%d / 8), (%d / 8)%s%s", i ? " to " : "", o->corner[i].x, o->corner[i].y,
             i == treated || (alike && i == (treated + 1) % o->count) ? " " : "",
             i == treated || (alike && i == (treated + 1) % o->count) ? what : "");
  fclose (out);
  return text;
}

static void
convex (wire_outline *o)
{
  static const int places[][2] = { { 0, 0 }, { 40, 0 }, { 40, 24 }, { 20, 36 }, { 0, 24 } };
  int most = check_below (2) ? 4 : 0;
  memset (o, 0, sizeof *o);
  for (int i = 0; i < (int) CHECK_COUNT (places); i++)
    if (i != 3 || most)
      {
        int x = (int) check_between (0, 4), y = (int) check_between (0, 4);
        o->corner[o->count].x = places[i][0] + x * (check_below (2) ? 1 : 0);
        o->corner[o->count++].y = places[i][1] + y * (check_below (2) ? 1 : 0);
      }
}

static void
check_line (const char *line, int fits)
{
  said s = SAID_ZERO;
  br_sheet *sheet = NULL;
  check_ok (br_sheet_new (&sheet));
  br_status status = sheet_run (sheet, &s, line);
  if ((status == BR_OK) != fits)
    fail_msg ("%s: %s", line, fits ? s.faults[0].error.message : "a larger one fits, too");
  sheet_end (sheet, &s);
}

/* WHAT ("round" or "cut") of one corner, far too much at first.  */
static void
check_largest (const wire_outline *o, int treated, int alike, const char *what)
{
  char size[80];
  said s = SAID_ZERO;
  br_sheet *sheet = NULL;
  check_ok (br_sheet_new (&sheet));
  snprintf (size, sizeof size, "%s 99", what);
  char *text = text_of (o, treated, alike, size);
  assert_int_equal (sheet_run (sheet, &s, text), BR_DOMAIN);
  const char *most = strstr (s.faults[0].error.message, "that fits is ");
  if (!most)
    fail_msg ("%s: %s", text, s.faults[0].error.message);
  most += strlen ("that fits is ");
  most += strncmp (most, "\xE2\x89\x88 ", 4) == 0 ? 4 : 0;
  free (text);
  for (int more = 0; more < 2; more++)
    {
      snprintf (size, sizeof size, "%s (%s%s)", what, most, more ? " + 1/10000 in" : "");
      text = text_of (o, treated, alike, size);
      check_line (text, !more);
      free (text);
    }
  sheet_end (sheet, &s);
}

static void
test_random (void **state)
{
  (void) state;
  for (long times = check_times (60); times > 0; times--)
    {
      wire_outline o;
      convex (&o);
      int treated = (int) check_below (o.count), alike = (int) check_below (2);
      check_largest (&o, treated, alike, check_below (2) ? "round" : "cut");
    }
}

/* What is round or cut as far as the corner beside it: that stays sharp, and nothing may pass through it.  */
static void
test_table (void **state)
{
  static const struct { const char *line; int fits; } rows[] =
  {
    { "outline o = 0, 0 to 4, 0 round 3 to 4, 3 to 0, 3", 1 },
    { "outline o = 0, 0 to 4, 0 cut 4 x 3 to 4, 3 to 0, 3", 1 },
    { "outline o = 4, 0 cut 4 x 3 to 4, 3 to 0, 3 to 0, 0", 1 },
    { "box o = 4 x 4 at 0, 0 round 4 top left", 1 },
    { "box o = 4 x 3 at 0, 0 cut 3 top left", 1 },
    { "outline o = 0, 0 to 4, 0 round 3 to 4, 3 rise 1/4 to 0, 3", 0 },
    { "outline o = 0, 0 to 4, 0 round 3 to 4, 3 to 0, 3 rise 1/4", 1 },
    { "outline o = 0, 0 to 3, 4 round 5 * 3 / 4 to 6, 0", 1 },
    /* Only a piece of a circle and its chord is left, or no wood at all.  */
    { "outline o = 0, 0 to 4, 0 cut 4 x 3 to 4, 3", 0 },
    /* The next side comes back through the arc, or along the cut.  */
    { "outline o = 0, 0 to 4, 0 round 3 to 4, 3 to 4/3, -1/3 to 0, -1/3", 0 },
    { "outline o = 0, 0 to 4, 0 cut 3 to 4, 3 to 2, 1 to 0, 3", 0 },
    { "outline o = 0, 0 to 4, 0 cut 3 to 4, 3 to 2, 2 to 0, 3", 1 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    check_line (rows[i].line, rows[i].fits);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_table), CHECK_TEST (test_random) };
  return CHECK_RUN (tests);
}
