/* SPDX-License-Identifier: GPL-3.0-or-later
   ask.h - what a person may ask of a drawing, at random.  */
#ifndef BR_TESTS_DRAW_ASK_H
#define BR_TESTS_DRAW_ASK_H

#include "figure.h"
#include "shape/annotation.h"

/* A point of S that has a place one way.  */
static void
put_spot (char *text, size_t size, const br__shape *s, int upright)
{
  static const char *const level[] = { "centre(%s)", "left(%s)", "right(%s)", "corner(%s, left top)" };
  static const char *const up[] = { "center(%s)", "top(%s)", "bottom(%s)", "corner(%s, bottom right)" };
  if (s->kind == BR__LINE && check_below (2))
    snprintf (text, size, check_below (2) ? "start(%s)" : "end(%s)", s->name);
  else
    {
      size_t i = (size_t) check_below (4);
      /* Formats from the tables above.  */
      const char *format = upright ? up[i] : level[i], *mark = strstr (format, "%s");
      snprintf (text, size, "%.*s%s%s", (int) (mark - format), format, s->name, mark + 2);
    }
}

static const br__shape *
any_shape (const br_sheet *sheet)
{
  size_t count = 0;
  for (const br__shape *s = sheet->shapes; s; s = s->next)
    count += s->active;
  size_t at = (size_t) check_below (count);
  const br__shape *s = sheet->shapes;
  while (!s->active || at-- > 0)
    s = s->next;
  return s;
}

/* A few dimensions and notes by hand, and a shape that is to have none.  ALONG: dimensions along two points, too.  */
CHECK_UNUSED static void
ask (br_sheet *sheet, int along)
{
  for (int64_t i = check_between (1, 4); i > 0; i--)
    {
      static const char *const ends[] = { "", " off 3/4", " off -1/2", " as \"to suit\"", " off 1 as about so" };
      char from[80], to[80];
      said s = SAID_ZERO;
      int upright = (int) check_below (2);
      put_spot (from, sizeof from, any_shape (sheet), upright);
      put_spot (to, sizeof to, any_shape (sheet), upright);
      if (along && check_below (2))
        {
          /* One after the other: which argument of a call is worked out first is the compiler's choice.  */
          const br__shape *end = any_shape (sheet), *start = any_shape (sheet);
          sheet_say (sheet, &s, "dimension centre(%s) to corner(%s, left bottom)%s", start->name, end->name,
                     check_below (3) ? "" : " off 1/2");
        }
      else
        sheet_say (sheet, &s, "dimension %s to %s %s%s", from, to, upright ? "upright" : "level", ends[check_below (CHECK_COUNT (ends))]);
      said_clear (&s);
    }
  said s = SAID_ZERO;
  for (int64_t i = check_below (4); i > 0; i--)
    {
      const br__shape *near = any_shape (sheet);
      int64_t y = check_between (0, 240), x = check_between (0, 480);
      sheet_say (sheet, &s, "note \"sand well\" at %" PRId64 "/16, %" PRId64 "/16 to %s", x, y, near->name);
    }
  said_clear (&s);
  if (check_below (4) == 0)
    sheet_say (sheet, &s, "no dimension %s", any_shape (sheet)->name);
  said_clear (&s);
}

#endif
