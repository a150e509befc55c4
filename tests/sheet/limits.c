/* SPDX-License-Identifier: GPL-3.0-or-later
   limits.c - lines at and past each limit: refused with the limit named, or done, in bounded
   time and on a small stack.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#define SECONDS 10.0

/* HEAD, then TIMES times UNIT, then TAIL TIMES times, then END.  */
typedef struct pattern
{
  const char *head, *unit, *tail, *end;
  size_t times;
} pattern;

static char *
build (size_t *length, const pattern *p)
{
  size_t h = strlen (p->head), u = strlen (p->unit), t = strlen (p->tail), e = strlen (p->end);
  *length = h + p->times * (u + t) + e;
  char *text = malloc (*length + 1), *at = text;
  memcpy (at, p->head, h);
  at += h;
  for (size_t i = 0; i < p->times; i++, at += u)
    memcpy (at, p->unit, u);
  memcpy (at, p->end, e);
  at += e;
  for (size_t i = 0; i < p->times; i++, at += t)
    memcpy (at, p->tail, t);
  text[*length] = 0;
  return text;
}

static const struct limit
{
  pattern line;
  br_status status;
  size_t offset;
  const char *says;     /* part of the message, or the exact value */
} limits[] = {
  /* Digits in a number: 1,000.  */
  { { "", "0", "", "7", 999 }, BR_OK, 0, "7" },
  { { "", "0", "", "7", 1000 }, BR_TOO_BIG, 0, "limit is 1000 digits" },
  { { "1 + ", "1", "", "", 1001 }, BR_TOO_BIG, 4, "limit is 1000 digits" },
  { { "", "9", "", "", 1500 }, BR_TOO_BIG, 0, "limit is 1000 digits" },
  { { "0.", "3", "", "", 1500 }, BR_TOO_BIG, 0, "limit is 1000 digits" },
  { { "1/", "3", "", "", 1500 }, BR_TOO_BIG, 2, "limit is 1000 digits" },
  { { "", "9", "", "", 60000 }, BR_TOO_BIG, 0, "limit is 1000 digits" },
  { { "1e", "9", "", "", 60000 }, BR_SYNTAX, 0, "exponent" },

  /* Bytes in a line: 64 KiB.  */
  { { "1", "+1", "", " ", 32767 }, BR_OK, 0, "32768" },
  { { "1", "-1", "", " ", 32767 }, BR_OK, 0, "-32766" },
  { { "", " ", "", "3", 65535 }, BR_OK, 0, "3" },
  { { "", " ", "", "3", 65536 }, BR_TOO_BIG, 0, "65536 bytes" },
  { { "1", "+1", "", "  ", 32767 }, BR_TOO_BIG, 0, "65536 bytes" },
  { { "1", "+1", "", "", 500000 }, BR_TOO_BIG, 0, "65536 bytes" },
  { { "", "(", "", "", 1000000 }, BR_TOO_BIG, 0, "65536 bytes" },
  { { "# ", "x", "", "", 1000000 }, BR_TOO_BIG, 0, "65536 bytes" },
  { { "3 # ", "x", "", "", 65000 }, BR_OK, 0, "3" },
  { { "1", "*1", "", "", 32767 }, BR_OK, 0, "1" },
  { { "1", "/1", "", "", 32767 }, BR_OK, 0, "1" },
  { { "", "-", "", "3", 60000 }, BR_OK, 0, "3" },
  { { "", "-", "", "3", 60001 }, BR_OK, 0, "-3" },
  { { "", "- ", "", "3", 30000 }, BR_OK, 0, "3" },
  { { "sum(1", ", 1", "", ")", 21000 }, BR_OK, 0, "21001" },
  { { "max(1", ", 2", "", ")", 21000 }, BR_OK, 0, "2" },
  { { "sqrt 2", "+sqrt 2", "", "-sqrt(2)", 2000 }, BR_OK, 0, NULL },

  /* Brackets, powers and bare functions inside each other: 200.  */
  { { "", "(", ")", "3", 200 }, BR_OK, 0, "3" },
  { { "", "(", ")", "3", 201 }, BR_TOO_BIG, 200, "200 brackets" },
  { { "", "(", ")", "3", 5000 }, BR_TOO_BIG, 200, "200 brackets" },
  { { "", "(", "", "", 5000 }, BR_TOO_BIG, 200, "200 brackets" },
  { { "", "(", "", "", 200 }, BR_SYNTAX, 200, "line ends" },
  { { "", "(1+", ")", "3", 200 }, BR_OK, 0, "203" },
  { { "", "-(", ")", "3", 200 }, BR_OK, 0, "3" },
  { { "", "abs(", ")", "3", 200 }, BR_OK, 0, "3" },
  { { "", "abs(", ")", "3", 201 }, BR_TOO_BIG, 803, "200 brackets" },
  { { "", "abs ", "", "3", 200 }, BR_OK, 0, "3" },
  { { "", "abs ", "", "3", 201 }, BR_TOO_BIG, 804, "200 brackets" },
  { { "", "abs ", "", "3", 16000 }, BR_TOO_BIG, 804, "200 brackets" },
  { { "", "1^", "", "2", 200 }, BR_OK, 0, "1" },
  { { "", "1^", "", "2", 201 }, BR_TOO_BIG, 401, "200 brackets" },
  { { "", "1^", "", "2", 30000 }, BR_TOO_BIG, 401, "200 brackets" },
  { { "", "1^-", "", "2", 20000 }, BR_TOO_BIG, 601, "200 brackets" },
  { { "", ")", "", "", 60000 }, BR_SYNTAX, 0, "value should stand here" },
  { { "x = ", "(", "", "", 5000 }, BR_TOO_BIG, 204, "200 brackets" },
  { { "check 3 < ", "(", "", "", 5000 }, BR_TOO_BIG, 210, "200 brackets" },
  { { "round ", "(", "", "", 5000 }, BR_TOO_BIG, 206, "200 brackets" },

  /* Bits of a result: 1,000,000.  */
  { { "10^99999999", "", "", "", 0 }, BR_TOO_BIG, 0, "1,000,000 bits" },
  { { "10^-99999999", "", "", "", 0 }, BR_TOO_BIG, 0, "1,000,000 bits" },
  { { "10^9999999999999999999", "", "", "", 0 }, BR_TOO_BIG, 0, "1,000,000 bits" },
  { { "2^1000000", "", "", "", 0 }, BR_TOO_BIG, 0, "1,000,000 bits" },
  { { "2^999999 / 2^999998", "", "", "", 0 }, BR_OK, 0, "2" },
  { { "2^999999 - 2^999999 + 5", "", "", "", 0 }, BR_OK, 0, "5" },
  { { "1 + 2^999999 * 2", "", "", "", 0 }, BR_TOO_BIG, 4, "1,000,000 bits" },
  { { "2^999999", "*2^999999", "", "", 500 }, BR_TOO_BIG, 0, "1,000,000 bits" },
  { { "2^2^2^2^2^2^2", "", "", "", 0 }, BR_TOO_BIG, -1, "1,000,000 bits" },
  { { "1^9223372036854775807", "", "", "", 0 }, BR_OK, 0, "1" },
  { { "2^999000", "", "", "", 0 }, BR_OK, 0, NULL },
  { { "2^999999 + 1/3", "", "", "", 0 }, BR_TOO_BIG, 0, "1,000,000 bits" },

  /* Long words.  */
  { { "", "x", "", "", 60000 }, BR_DOMAIN, 0, "is not known" },
  { { "", "x", "", " 3", 60000 }, BR_SYNTAX, 0, "not a word I know" },
  { { "", "x", "", "(3)", 60000 }, BR_SYNTAX, 0, "no function" },
  { { "help ", "x", "", "", 60000 }, BR_SYNTAX, 5, "no help on" },
  { { "", "\xc3\xb6", "", "", 30000 }, BR_DOMAIN, 0, "is not known" },
  { { "round 3 to ", "x", "", "", 60000 }, BR_DOMAIN, 11, "is not known" },
  { { "units ", "x", "", "", 60000 }, BR_SYNTAX, 6, "`in`, `mm`" },
  { { "3 ", "x", "", "", 60000 }, BR_SYNTAX, 2, "" },
  { { "open ", "x", "", "", 60000 }, BR_IO, 5, "too long" },
  { { "scale ", "x", "", "", 60000 }, BR_SYNTAX, 6, "" },
  { { "scale 1:", "9", "", "", 60000 }, BR_TOO_BIG, 8, "limit is 1000 digits" },
};

static int failures;

static void
check_limit (const struct limit *l)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  size_t length;
  char *text = build (&length, &l->line);
  double start = sheet_seconds ();
  br_status status = sheet_run_small (sheet, &s, text, length);
  double took = sheet_seconds () - start;
  const br_error *e = s.fault_count ? &s.faults[0].error : NULL;
  int good = status == l->status && (status == BR_OK ? s.count > 0 && !e : e && s.fault_count == 1);

  if (good && status == BR_OK && l->says)
    good = strcmp (said_get (&s, 0, "exact"), l->says) == 0;
  if (good && status != BR_OK)
    good = (l->offset == (size_t) -1 || e->offset == l->offset) && e->offset + e->length <= length
           && strstr (e->message, l->says) != NULL;
  if (!good || took > SECONDS * (check_watched () ? 10 : 1))
    {
      print_error ("%.20s%.8s...%.20s (%zu times): %s at %zu+%zu: %s; %.1f s\n", l->line.head,
                   l->line.unit, l->line.end, l->line.times, br_status_name (status),
                   e ? e->offset : 0, e ? e->length : 0, e ? e->message : "", took);
      failures++;
    }
  free (text);
  sheet_end (sheet, &s);
}

static void
each_limit (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (limits); i++)
    check_limit (&limits[i]);
  assert_int_equal (failures, 0);
}

/* Every byte, and every pair of a byte and a digit, is read or refused with its place.  */
static void
every_byte (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  char text[] = "3 + ?1";

  (void) state;
  for (int c = 0; c < 256; c++)
    {
      if (c == '\n')
        continue;
      text[4] = (char) c;
      br_status status = sheet_run_bytes (sheet, &s, text, 6);
      assert_int_equal (s.fault_count, status != BR_OK);
      if (status != BR_OK)
        {
          assert_in_range (s.faults[0].error.offset, 4, 6);
          assert_in_range (s.faults[0].error.offset + s.faults[0].error.length, 4, 6);
        }
      else
        assert_true (s.count == 1);
    }
  sheet_end (sheet, &s);
}

/* Statements cut short after each byte, and with each byte lost or doubled: never more than told.  */
static void
damaged_statements (void **state)
{
  static const char *const lines[] = {
    "front = wheelbase - 2-3/8 in +- 1/16 in  # n\xc3\xb6te", "round 1-3/16, 2.5 mm to 1/8 in up keep total",
    "check fender_radius(3-1/2, 5/16) >= sqrt 2 ^ -1/2 # must", "scale 1/4 in = 1'-0\"",
    "simplest 6.595 within 1/32", "forget front, wheelbase", "grid 1/4 in", "full 5\xe2\x80\xb2 2\xe2\x85\x9c\xe2\x80\xb3, (2)",
  };
  said s = SAID_ZERO;
  char damaged[128];

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    {
      size_t length = strlen (lines[i]);
      br_sheet *sheet = sheet_with ("wheelbase = 8 in");
      for (size_t k = 0; k < 3 * length; k++)
        {
          size_t at = k / 3, skip = k % 3, n = at;
          memcpy (damaged, lines[i], at);
          if (skip > 0)
            {
              n += length - at - (skip == 1);
              memcpy (damaged + at, lines[i] + at + (skip == 1), n - at);
            }
          if (skip == 2)
            damaged[n++] = lines[i][at];
          char *copy = malloc (n ? n : 1);
          memcpy (copy, damaged, n);
          br_status status = sheet_run_bytes (sheet, &s, copy, n);
          assert_int_equal (s.fault_count, status != BR_OK);
          assert_true (status == BR_OK || s.faults[0].error.offset + s.faults[0].error.length <= n);
          free (copy);
        }
      sheet_say (sheet, &s, "1/2");
      br_sheet_free (sheet);
    }
  said_clear (&s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (each_limit),
    CHECK_TEST (every_byte),
    CHECK_TEST (damaged_statements),
  };
  return CHECK_RUN (tests);
}
