/* SPDX-License-Identifier: GPL-3.0-or-later
   total.c - lists rounded so that the parts add up: by hand, against every choice, and with
   parts that are not rational.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../exact/real_check.h"
#include "measure.h"

#define MOST 8              /* parts of the random lists, of which every choice is tried */
#define MOST_BY_HAND 16

/* A list, what becomes of it, and its mark.  */
typedef struct list
{
  br_real x[MOST_BY_HAND];
  br_number values[MOST_BY_HAND], sum, mark;
} list;

static void
list_start (list *l, const char *mark)
{
  memset (l, 0, sizeof *l);
  check_set (&l->mark, mark);
}

static void
list_keep (list *l, size_t count, br_direction direction)
{
  check_ok (br_ruler_keep_total (l->values, &l->sum, l->x, count, &l->mark, direction,
                                 BR_TIES_UP, 0));
}

static void
check_total (const char *const *parts, size_t count, const char *mark, br_direction direction,
             const char *const *want, const char *total)
{
  list l;
  size_t i;

  list_start (&l, mark);
  for (i = 0; i < count; i++)
    check_set (&l.x[i].rational, parts[i]);
  list_keep (&l, count, direction);
  check_is (&l.sum, total);
  for (i = 0; i < count; i++)
    check_is (&l.values[i], want[i]);
}

static void
by_hand (void **state)
{
  static const char *const thirds[] = { "1/3", "1/3", "1/3" };
  static const char *const first[] = { "1/2", "1/4", "1/4" };
  static const char *const on_mark[] = { "1/4", "5/16", "7/16", "1/2" };
  static const char *const on_mark_values[] = { "1/4", "1/4", "1/2", "1/2" };
  static const char *const below[] = { "-1/3", "-1/3", "-1/3" };
  static const char *const below_values[] = { "-1/4", "-1/4", "-1/2" };
  static const char *const halves[] = { "1/8", "1/8", "1/8" };
  static const char *const up[] = { "1/4", "1/4", "0" }, *const down[] = { "1/4", "0", "0" };

  (void) state;
  check_total (thirds, 3, "1/4", BR_NEAREST, first, "1");
  check_total (on_mark, 4, "1/4", BR_NEAREST, on_mark_values, "3/2");
  check_total (below, 3, "1/4", BR_NEAREST, below_values, "-1");
  check_total (halves, 3, "1/4", BR_UP, up, "1/2");
  check_total (halves, 3, "1/4", BR_DOWN, down, "1/4");
  check_total (thirds, 0, "1/4", BR_NEAREST, first, "0");
}

/* COUNT equal parts of WHOLE, to MARK: how many are LOW and HIGH.  */
static void
check_equal_parts (int64_t whole, int64_t count, const char *mark, const char *high,
                   int64_t highs, const char *low)
{
  br_number all = BR_NUMBER_ZERO;
  list l;
  int64_t i;

  list_start (&l, mark);
  for (i = 0; i < count; i++)
    check_ok (br_number_set_ratio (&l.x[i].rational, whole, count));
  list_keep (&l, (size_t) count, BR_NEAREST);
  for (i = 0; i < count; i++)
    check_is (&l.values[i], i < highs ? high : low);
  check_ok (br_number_set_int (&all, whole));
  assert_true (br_number_equal (&l.sum, &all));
}

static void
published (void **state)
{
  (void) state;
  /* Carpentry II, US Army subcourse EN5156, Stairway Calculations: 13 risers of 7-1/4 in make
     94-1/4 in for a rise of 94 in; one of them has to be 7.  */
  check_equal_parts (94, 13, "1/4", "29/4", 12, "7");
  /* Common practice, no source: ten feet in seven parts, 7 of 17-1/8 in are 119-7/8.  */
  check_equal_parts (120, 7, "1/16", "275/16", 2, "137/8");
}

/* The least largest error over all choices of floor or ceiling that add up to TOTAL, in units
   of 1/UNIT of a mark; -1 if none does.  */
static int64_t
slow_largest (const int64_t *rest, int64_t up, size_t count, int64_t unit)
{
  int64_t least = -1;
  unsigned choice;
  size_t i;

  for (choice = 0; choice < 1u << count; choice++)
    {
      int64_t ups = 0, largest = 0;

      for (i = 0; i < count; i++)
        {
          int is_up = choice >> i & 1;
          int64_t error = is_up ? unit - rest[i] : rest[i];

          /* A part on a mark has no other mark to go to.  */
          if (is_up && rest[i] == 0)
            break;
          ups += is_up;
          largest = error > largest ? error : largest;
        }
      if (i == count && ups == up && (least < 0 || largest < least))
        least = largest;
    }
  return least;
}

static int64_t
as_int (const br_number *x, int64_t unit)
{
  int64_t n = 0, d = 1;

  assert_true (br_number_get_ratio (&n, &d, x));
  assert_int_equal (unit % d, 0);
  return n * (unit / d);
}

/* One random list: X[i] = N[i] / UNIT marks.  */
static void
check_choice (int64_t unit, size_t count)
{
  br_real x[MOST];
  br_number values[MOST], sum = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, exact = BR_NUMBER_ZERO;
  br_number want = BR_NUMBER_ZERO;
  int64_t n[MOST], rest[MOST], go[MOST], up = 0, largest = 0, total = 0;
  br_direction direction = (br_direction) check_below (3);
  br_ties ties = (br_ties) check_below (3);
  size_t i, j;

  memset (x, 0, sizeof x);
  memset (values, 0, sizeof values);
  check_ok (br_number_set_ratio (&mark, 1, 16));
  for (i = 0; i < count; i++)
    {
      n[i] = check_between (-3 * unit, 3 * unit);
      rest[i] = ((n[i] % unit) + unit) % unit;
      check_ok (br_number_set_ratio (&x[i].rational, n[i], unit * 16));
      check_ok (br_number_add (&exact, &exact, &x[i].rational));
    }
  check_ok (br_ruler_round (&want, NULL, NULL, &exact, &mark, direction, ties));
  check_ok (br_ruler_keep_total (values, &sum, x, count, &mark, direction, ties, 0));
  assert_true (br_number_equal (&sum, &want));
  for (i = 0; i < count; i++)
    {
      int64_t error = as_int (&values[i], unit * 16) - n[i];

      go[i] = error > 0;
      assert_true (error == -rest[i] || error == unit - rest[i]);
      assert_false (rest[i] == 0 && go[i]);
      up += go[i];
      largest = llabs (error) > largest ? llabs (error) : largest;
      total += n[i] + error;
    }
  assert_int_equal (total, as_int (&sum, unit * 16));
  assert_int_equal (largest, slow_largest (rest, up, count, unit));
  for (i = 0; i < count; i++)
    for (j = 0; j < count; j++)
      if (go[i] && !go[j] && rest[j] != 0)
        assert_true (rest[i] > rest[j] || (rest[i] == rest[j] && i < j));
}

static void
every_choice (void **state)
{
  static const int64_t unit_list[] = { 2, 3, 4, 5, 60, 127, 1000 };
  long i;

  (void) state;
  for (i = 0; i < check_times (4000); i++)
    check_choice (unit_list[check_below (CHECK_COUNT (unit_list))],
                  (size_t) check_between (1, MOST));
}

/* Parts that are not rational; of equal ones the earlier goes up.  */
static void
roots (void **state)
{
  static const char *const want[] = { "23/16", "7/4", "11/8", "7/4" };
  list l;
  size_t i;

  (void) state;
  list_start (&l, "1/16");
  /* The root of 2 is 22.627... sixteenths, of 3 27.712...; the four are 100.68 sixteenths, to
     101; the floors are 98 (roots to three places from memory).  */
  for (i = 0; i < 4; i++)
    {
      check_ok (br_number_set_int (&l.x[i].rational, i % 2 == 0 ? 2 : 3));
      check_ok (br_real_sqrt (&l.x[i], &l.x[i], 0));
    }
  list_keep (&l, 4, BR_NEAREST);
  check_is (&l.sum, "101/16");
  for (i = 0; i < 4; i++)
    {
      check_is (&l.values[i], want[i]);
      br_real_clear (&l.x[i]);
    }
}

/* L gets 1 + sqrt 2, with a zero that no proof finds, and sqrt 2.  */
static void
list_hidden (list *l, const char *mark)
{
  list_start (l, mark);
  l->x[0] = real_of (OPEN_ZERO " 1 2 sqrt + +");
  l->x[1] = real_of ("2 sqrt");
}

/* Two parts of which none is known to be over its mark by more: where all go up, or none does, nobody asks.  */
static void
no_order (void **state)
{
  static const struct { const char *mark; br_direction direction; const char *first, *second, *sum; } rows[] = {
    { "1/16", BR_UP, "39/16", "23/16", "31/8" }, { "1", BR_DOWN, "2", "1", "3" },
  };
  list l;

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      list_hidden (&l, rows[i].mark);
      list_keep (&l, 2, rows[i].direction);
      check_is (&l.sum, rows[i].sum);
      check_is (&l.values[0], rows[i].first);
      check_is (&l.values[1], rows[i].second);
      br_real_clear (&l.x[0]);
      br_real_clear (&l.x[1]);
    }
  list_hidden (&l, "1");
  assert_int_equal (br_ruler_keep_total (l.values, &l.sum, l.x, 2, &l.mark, BR_UP, BR_TIES_UP, 0), BR_UNDECIDED);
  check_is (&l.sum, "0");
  br_real_clear (&l.x[0]);
  br_real_clear (&l.x[1]);
}

/* Each part has its mark, their sum has none that is certain, and nothing is handed out.  */
static void
undecided_total (void **state)
{
  list l;
  size_t i;

  (void) state;
  list_hidden (&l, "1/16");
  check_ok (br_real_neg (&l.x[1], &l.x[1]));
  check_ok (br_number_set_int (&l.values[0], 1));
  check_ok (br_real_set_number (&l.x[2], &l.values[0]));
  check_ok (br_number_set_int (&l.values[0], 0));
  check_ok (br_real_sub (&l.x[1], &l.x[1], &l.x[2]));
  br_real_clear (&l.x[2]);
  check_ok (br_number_set_int (&l.sum, 77));
  assert_int_equal (br_ruler_keep_total (l.values, &l.sum, l.x, 2, &l.mark, BR_DOWN, BR_TIES_UP, 0), BR_UNDECIDED);
  check_is (&l.sum, "77");
  for (i = 0; i < 2; i++)
    {
      check_is (&l.values[i], "0");
      br_real_clear (&l.x[i]);
    }
}

static void
long_list (void **state)
{
  enum { COUNT = 3000 };
  br_real *x = calloc (COUNT, sizeof *x);
  br_number *values = calloc (COUNT, sizeof *values);
  br_number sum = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, added = BR_NUMBER_ZERO;
  size_t i;

  (void) state;
  if (x == NULL || values == NULL)
    fail_msg ("no memory");
  check_set (&mark, "1/32");
  for (i = 0; i < COUNT; i++)
    check_ok (br_number_set_ratio (&x[i].rational, check_between (0, 100000), 1270));
  check_ok (br_ruler_keep_total (values, &sum, x, COUNT, &mark, BR_NEAREST, BR_TIES_UP, 0));
  for (i = 0; i < COUNT; i++)
    check_ok (br_number_add (&added, &added, &values[i]));
  assert_true (br_number_equal (&added, &sum));
  free (x);
  free (values);
}

static void
no_memory (void **state)
{
  br_status status;
  list l;
  size_t i;

  (void) state;
  list_start (&l, "1/16");
  for (i = 0; i < 3; i++)
    check_set (&l.x[i].rational, "1/3");
  CHECK_EACH_REFUSAL (status, status = br_ruler_keep_total (l.values, &l.sum, l.x, 3, &l.mark,
                                                            BR_NEAREST, BR_TIES_UP, 0), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (by_hand),
    CHECK_TEST (published),
    CHECK_TEST (every_choice),
    CHECK_TEST (roots),
    CHECK_TEST (no_order),
    CHECK_TEST (undecided_total),
    CHECK_TEST (long_list),
    CHECK_TEST (no_memory),
  };

  return CHECK_RUN (tests);
}
