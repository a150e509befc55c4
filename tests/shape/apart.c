/* SPDX-License-Identifier: GPL-3.0-or-later
   apart.c - sheets that do not see each other, in one thread and in two; and a session in which any one
   allocation is refused.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../sheet/support.h"

/* A session of every statement, its settings by NUMBER.  */
static const char *const sessions[] = {
  "units in\nruler 1/16\nscale 1:2\nties up\nfeet on\ngrid 1/4 in\n"
  "wheel = 3-1/2 in +- 1/32 in  # bought\nfront = wheelbase - wheel\nmissing\nwheelbase = 14 in\n"
  "check front >= sqrt 2  # room\nround front, wheel, 1/3 in to 1/8 keep total\nmarks sqrt (3 sq in)\n"
  "simplest 6.595 within 1/32\nfull 1-3/16, 2-1/4\n(1 + wheel / 3 in) ^ 9\ncircumference wheel\nin_boxes wheel\n"
  "trace wheel\nlist\nundo\nredo\nforget wheel\nundo\nwheel = 5 in\nhelp round\nfender_radius(wheel, 5/16)",
  "units mm\nruler 1/2\nscale 2:1\nties even\nfeet off\ngrid 5 mm\n"
  "wheel = 90 +- 1  # bought\nfront = wheelbase - wheel\nmissing\nwheelbase = 400 mm\n"
  "check front <= 100 * pi  # room\nround front, wheel, 1/3 to 1/2 keep total\nmarks sqrt 3\n"
  "simplest 6.595 within 1/32\nfull 12, 13 mm\n(1 + wheel / 3) ^ 9\ncircumference wheel\nin_boxes wheel\n"
  "trace wheel\nlist\nundo\nredo\nforget wheel\nundo\nwheel = 120\nhelp scale\nfender_gap(wheel, wheel / 2)",
};

/* What session NUMBER says, with its sheet made, set to BITS and freed; NULL where it was not as it should
   be.  It can be called from any thread.  */
static char *
session (int number, unsigned bits)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  br_status status = br_sheet_new (&sheet);
  if (status == BR_OK)
    status = br_sheet_set_bits (sheet, bits);
  if (status == BR_OK)
    status = sheet_run (sheet, &s, sessions[number]);
  for (size_t i = 0; i < s.count; i++)
    for (size_t k = 0; k < s.records[i].size; k++)
      fputc (s.records[i].pairs[k] ? s.records[i].pairs[k] : '\n', out);
  fclose (out);
  said_clear (&s);
  br_sheet_free (sheet);
  if (status == BR_OK)
    return text;
  free (text);
  return NULL;
}

typedef struct worker
{
  int number, differed;
  long times;
  const char *expected;
} worker;

static void *
work (void *user)
{
  worker *w = user;
  for (long i = 0; i < w->times; i++)
    {
      char *text = session (w->number, w->number ? 128 : 4096);
      w->differed += !text || strcmp (text, w->expected) != 0;
      free (text);
    }
  mpfr_free_cache ();
  return NULL;
}

static void
two_threads (void **state)
{
  pthread_t threads[4];
  worker workers[4];
  char *expected[2] = { session (0, 4096), session (1, 128) };
  (void) state;
  assert_non_null (expected[0]);
  assert_non_null (expected[1]);
  assert_string_not_equal (expected[0], expected[1]);
  for (int i = 0; i < 4; i++)
    {
      workers[i] = (worker) { i % 2, 0, check_times (25), expected[i % 2] };
      assert_int_equal (pthread_create (&threads[i], NULL, work, &workers[i]), 0);
    }
  for (int i = 0; i < 4; i++)
    assert_int_equal (pthread_join (threads[i], NULL), 0);
  for (int i = 0; i < 4; i++)
    assert_int_equal (workers[i].differed, 0);
  free (expected[0]);
  free (expected[1]);
}

/* Two sheets, a line of one after a line of the other.  */
static void
by_turns (void **state)
{
  br_sheet *a = sheet_with ("units in"), *b = sheet_with ("units mm");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (a, &s, "x = 1 in + 1");
  sheet_say (b, &s, "x = 1 in + 1");
  sheet_say (a, &s, "ruler 1/4");
  sheet_say (b, &s, "ties down");
  sheet_say (a, &s, "x");
  said_is (&s, 0, "exact", "2");
  said_is (&s, 0, "unit", "in");
  sheet_say (b, &s, "x");
  said_is (&s, 0, "exact", "132/5");
  said_is (&s, 0, "unit", "mm");
  assert_int_equal (sheet_run (a, &s, "y"), BR_DOMAIN);
  sheet_say (b, &s, "y = 3");
  assert_int_equal (sheet_run (a, &s, "y"), BR_DOMAIN);
  br_sheet_free (a);
  sheet_say (b, &s, "x + y");
  said_is (&s, 0, "exact", "147/5");
  said_clear (&s);
  br_sheet_free (b);
}

/* Bits are a sheet's own.  */
static void
bits (void **state)
{
  br_sheet *low = sheet_with (""), *high = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  assert_int_equal (br_sheet_set_bits (low, 63), BR_DOMAIN);
  assert_int_equal (br_sheet_set_bits (low, 65537), BR_DOMAIN);
  check_ok (br_sheet_set_bits (low, 64));
  check_ok (br_sheet_set_bits (high, 65536));
  /* sin 18 degrees is (sqrt 5 - 1) / 4, to which 10^-100 is added: 64 bits cannot tell them apart.  */
  const char *line = "check sin 18 + 10^-100 > (sqrt 5 - 1) / 4";
  sheet_say (low, &s, "%s", line);
  said_is (&s, 0, "state", "undecided");
  sheet_say (high, &s, "%s", line);
  said_is (&s, 0, "state", "pass");
  assert_int_equal (sheet_run (low, &s, "nearest(2*sin(sqrt 2)*cos(sqrt 2) - sin(sqrt 8) + 1/32, 1/16)"), BR_UNDECIDED);
  assert_non_null (strstr (s.faults[0].error.message, "64 bits"));
  said_clear (&s);
  br_sheet_free (low);
  br_sheet_free (high);
}

/* Allocation N of a session is refused, for each N: nothing is lost, and the sheet still works when there is
   memory again.  */
static int
refuse (int number, long n)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  check_memory_limit (n);
  br_status status = br_sheet_new (&sheet);
  if (status == BR_OK)
    status = sheet_run (sheet, &s, sessions[number]);
  check_memory_left = -1;
  int refused = check_memory_refused;
  if (refused)
    assert_int_not_equal (status, BR_OK);
  else
    assert_int_equal (status, BR_OK);
  if (sheet)
    {
      sheet_say (sheet, &s, "units in\nwheel = 3 in\nwheel / 2\nlist\nmissing\ncheck\nundo\nredo");
      size_t at = said_first (&s, "value");
      said_is (&s, at, "exact", "3/2");
      sheet_run (sheet, &s, "undo\nundo\nundo\nundo\nundo\nundo\nundo\nundo\nundo\nredo\nredo\nredo\nlist");
    }
  br_sheet_free (sheet);
  if (check_memory_blocks != 0)
    fail_msg ("allocation %ld refused: %ld blocks are lost", n, check_memory_blocks);
  check_memory_free ();
  said_clear (&s);
  return refused;
}

static void
refused_memory (void **state)
{
  (void) state;
  for (int number = 0; number < 2; number++)
    {
      long n = 0;
      /* Each one at first, then some: a session takes thousands.  */
      while (refuse (number, n))
        n += n < 400 ? 1 : 1 + (long) check_below (7);
      assert_true (n > 400);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (two_threads),
    CHECK_TEST (by_turns),
    CHECK_TEST (bits),
    CHECK_TEST (refused_memory),
  };
  return CHECK_RUN (tests);
}
