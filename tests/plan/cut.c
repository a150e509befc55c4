/* SPDX-License-Identifier: GPL-3.0-or-later
   cut.c - plans for sticks: against all ways of few pieces, against plans that were planted, and with
   solvers that tell the truth, nothing, or lies.  */
#include "check.h"
#include "plan/cut.h"
#include "solver.h"

#define MOST 400

typedef struct sample
{
  int64_t stick, kerf, length[MOST], demand[MOST];
  size_t count;
} sample;

static br_status
plan_with (br__cut_plan *plan, const sample *s, const br_solver *solver, int64_t milliseconds)
{
  br__cut_control c = { .solver = solver, .milliseconds = milliseconds };
  br__cut_begin (&c);
  return br__cut_sticks (plan, s->stick, s->kerf, s->length, s->demand, s->count, &c, NULL);
}

/* Every piece once, each stick long enough for its pieces and the kerfs between them.  */
static void
check_plan (const br__cut_plan *plan, const sample *s)
{
  int64_t seen[MOST] = { 0 };
  assert_int_equal (plan->start[0], 0);
  for (size_t i = 0; i < plan->sticks; i++)
    {
      int64_t used = -s->kerf;
      assert_true (plan->start[i + 1] > plan->start[i]);
      for (size_t k = plan->start[i]; k < plan->start[i + 1]; k++)
        {
          assert_true (plan->type[k] < s->count);
          seen[plan->type[k]]++;
          used += s->length[plan->type[k]] + s->kerf;
        }
      assert_true (used <= s->stick);
    }
  for (size_t i = 0; i < s->count; i++)
    assert_int_equal (seen[i], s->demand[i]);
  assert_true (plan->least <= (int64_t) plan->sticks);
}

/* The fewest sticks by trying every set of pieces that one stick holds: up to 8 pieces.  */
static size_t
fewest (const sample *s)
{
  int64_t piece[8];
  size_t n = 0, best[256];
  for (size_t i = 0; i < s->count; i++)
    for (int64_t k = 0; k < s->demand[i]; k++)
      piece[n++] = s->length[i];
  best[0] = 0;
  for (size_t set = 1; set < (size_t) 1 << n; set++)
    {
      best[set] = n;
      for (size_t part = set; part > 0; part = (part - 1) & set)
        {
          int64_t used = -s->kerf;
          for (size_t i = 0; i < n; i++)
            if (part >> i & 1)
              used += piece[i] + s->kerf;
          if (used <= s->stick && best[set ^ part] + 1 < best[set])
            best[set] = best[set ^ part] + 1;
        }
    }
  return best[((size_t) 1 << n) - 1];
}

/* Up to 8 pieces of few sizes, often such that they fill a stick to the last.  */
static void
small_sample (sample *s)
{
  size_t pieces = 1 + check_below (8);
  memset (s, 0, sizeof *s);
  s->stick = check_between (8, 40);
  s->kerf = check_between (0, 3);
  for (size_t i = 0; i < pieces; i++)
    {
      s->length[s->count] = i > 0 && check_below (3) == 0 ? s->length[s->count - 1]
                            : check_between (1, check_below (2) ? s->stick : 1 + s->stick / 2);
      s->demand[s->count++] = 1;
    }
}

/* Prices and uses that have nothing to do with the question.  */
static int
lie (int64_t *uses, int64_t *prices, const br_cover *cover)
{
  for (size_t j = 0; j < cover->columns; j++)
    uses[j] = (int64_t) (check_random () >> 20) - (INT64_C (1) << 42);
  for (size_t i = 0; i < cover->rows; i++)
    prices[i] = (int64_t) (check_random () >> 21) - (INT64_C (1) << 41);
  return check_below (10) != 0;
}

static int
lie_whole (int64_t *uses, const br_cover *cover, int64_t target, int milliseconds,
           const volatile sig_atomic_t *flag)
{
  (void) target, (void) milliseconds, (void) flag;
  for (size_t j = 0; j < cover->columns; j++)
    uses[j] = check_between (-5, 5);
  return 1;
}

static const br_solver liar = { lie, lie_whole };

static void
against_all_ways (void **state)
{
  const br_solver *const solvers[] = { NULL, &solver_glpk, &liar };
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  (void) state;
  for (long n = 0; n < check_times (1500); n++)
    {
      sample s;
      small_sample (&s);
      size_t best = fewest (&s);
      check_ok (plan_with (&plan, &s, solvers[n % 3], 2000));
      check_plan (&plan, &s);
      /* All ways of so few pieces are tried, so the plan is best and known to be.  */
      assert_int_equal (plan.sticks, best);
      assert_int_equal (plan.least, best);
    }
  br__cut_plan_clear (&plan);
}

/* The bound alone, and patterns alone, without the help of trying all ways.  */
static void
bounds_and_patterns (void **state)
{
  const br_solver *const solvers[] = { &solver_glpk, &liar };
  (void) state;
  for (long n = 0; n < check_times (600); n++)
    {
      br__cut_plan plan = BR__CUT_PLAN_ZERO;
      sample s;
      int64_t size[8] = { 0 }, demand[8] = { 0 };
      br__cut_job job = { 0, 0, size, demand, 0 };
      br__cut_control c = { .solver = solvers[n % 2], .milliseconds = 200 };
      small_sample (&s);
      for (int64_t l = s.stick; l > 0; l--)
        {
          int64_t many = 0;
          for (size_t i = 0; i < s.count; i++)
            many += s.length[i] == l;
          if (many > 0)
            size[job.types] = l + s.kerf, demand[job.types++] = many, job.pieces += (size_t) many;
        }
      job.room = s.stick + s.kerf;
      int64_t best = (int64_t) fewest (&s), least = br__cut_bound (&job);
      assert_in_range (least, 1, best);
      check_ok (br__cut_first_fit (&plan, &job));
      assert_true ((int64_t) plan.sticks >= best);
      br__cut_begin (&c);
      check_ok (br__cut_by_patterns (&plan, &job, &least, &c));
      assert_in_range (least, 1, best);
      assert_true ((int64_t) plan.sticks >= best);
      br__cut_plan_clear (&plan);
    }
}

/* Sticks cut up at random: their pieces surely come out of as many sticks.  */
static void
planted (void **state)
{
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  (void) state;
  for (long n = 0; n < check_times (60); n++)
    {
      sample s = { .stick = check_between (100, 3000), .kerf = check_between (0, 8) };
      int64_t sticks = check_between (1, 40);
      for (int64_t i = 0; i < sticks; i++)
        for (int64_t left = s.stick; left > 0 && s.count < MOST; )
          {
            int64_t piece = check_between (1 + s.stick / 12, s.stick / 2);
            if (left - piece <= s.kerf)
              piece = left;
            s.length[s.count] = piece;
            s.demand[s.count++] = 1;
            left -= piece + s.kerf;
          }
      check_ok (plan_with (&plan, &s, n % 2 ? &solver_glpk : NULL, 60));
      check_plan (&plan, &s);
      assert_true (plan.least <= sticks);
    }
  br__cut_plan_clear (&plan);
}

static void
twenty_sizes (sample *s)
{
  memset (s, 0, sizeof *s);
  s->stick = 96 * 16;
  s->kerf = 2;
  s->count = 20;
  for (size_t i = 0; i < s->count; i++)
    {
      s->length[i] = check_between (32, 48 * 16);
      s->demand[i] = 10;
    }
}

static void
most_are_proved (void **state)
{
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  long jobs = check_times (12), proved = 0;
  (void) state;
  for (long n = 0; n < jobs; n++)
    {
      sample s;
      twenty_sizes (&s);
      check_ok (plan_with (&plan, &s, &solver_glpk, 2000));
      check_plan (&plan, &s);
      proved += plan.least == (int64_t) plan.sticks;
      check_ok (plan_with (&plan, &s, &liar, 30));
      check_plan (&plan, &s);
    }
  assert_true (2 * proved > jobs);
  br__cut_plan_clear (&plan);
}

/* The dearest choice by counting through all of up to 5 types.  */
static int64_t
dearest (const br__cut_job *job, const int64_t *prices, const int64_t *limit, size_t i, int64_t room)
{
  int64_t best = 0;
  if (i == job->types)
    return 0;
  for (int64_t k = 0; k <= limit[i] && k * job->size[i] <= room; k++)
    {
      int64_t v = k * prices[i] + dearest (job, prices, limit, i + 1, room - k * job->size[i]);
      if (v > best)
        best = v;
    }
  return best;
}

static void
dearest_fill (void **state)
{
  (void) state;
  for (long n = 0; n < check_times (2000); n++)
    {
      /* With a fine step the table is too large and branches are gone through.  */
      int64_t fine = n % 2 ? INT64_C (1000000007) : 1, size[5], demand[5], prices[5], limit[5];
      br__cut_job job = { 0, 1 + check_below (5), size, demand, 0 };
      uint32_t counts[5];
      int64_t value = -1, bound = -1, worth = 0, used = 0;
      job.room = check_between (5, 60) * fine;
      for (size_t i = 0; i < job.types; i++)
        {
          size[i] = check_between (1, 25) * fine + (fine > 1 ? check_between (0, 9) : 0);
          prices[i] = check_between (-2, 30);
          limit[i] = check_between (0, 6);
        }
      check_ok (br__cut_fill (&value, &bound, counts, &job, prices, limit, job.room));
      for (size_t i = 0; i < job.types; i++)
        {
          assert_true (counts[i] <= limit[i]);
          worth += counts[i] * prices[i];
          used += counts[i] * size[i];
        }
      assert_true (used <= job.room);
      assert_int_equal (worth, value);
      assert_int_equal (value, dearest (&job, prices, limit, 0, job.room));
      assert_true (bound >= value);
    }
}

/* Examples from print.  Army subcourse OD1640, practical exercise 2, item c: a rod cut in five needs 4
   cuts where it is used up, 40-1/4 in in all.  An 8 ft board gives 11 pieces of 8 in with a kerf of 1/8, 12
   without: common shop exercise, no source.  */
static void
textbook (void **state)
{
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  sample rod = { 322, 1, { 34, 28, 52, 150, 54 }, { 1, 1, 1, 1, 1 }, 5 };
  sample board = { 768, 1, { 64 }, { 11 }, 1 };
  (void) state;
  check_ok (plan_with (&plan, &rod, NULL, 1000));
  assert_int_equal (plan.sticks, 1);
  rod.stick--;
  check_ok (plan_with (&plan, &rod, NULL, 1000));
  assert_int_equal (plan.sticks, 2);
  check_ok (plan_with (&plan, &board, NULL, 1000));
  assert_int_equal (plan.sticks, 1);
  board.demand[0] = 12;
  check_ok (plan_with (&plan, &board, NULL, 1000));
  assert_int_equal (plan.sticks, 2);
  board.kerf = 0;
  check_ok (plan_with (&plan, &board, NULL, 1000));
  assert_int_equal (plan.sticks, 1);
  br__cut_plan_clear (&plan);
}

static void
bad_input (void **state)
{
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  br__cut_control c = { .milliseconds = 100 };
  br_error e;
  int64_t length[2] = { 5, 11 }, demand[2] = { 1, 1 };
  (void) state;
  br__cut_begin (&c);
  assert_int_equal (br__cut_sticks (&plan, 10, 1, length, demand, 2, &c, &e), BR_DOMAIN);
  assert_int_equal (e.offset, 1);
  length[1] = 0;
  assert_int_equal (br__cut_sticks (&plan, 10, 1, length, demand, 2, &c, &e), BR_DOMAIN);
  length[1] = 10;
  assert_int_equal (br__cut_sticks (&plan, 10, 10, length, demand, 2, &c, &e), BR_DOMAIN);
  assert_int_equal (br__cut_sticks (&plan, 10, -1, length, demand, 2, &c, &e), BR_DOMAIN);
  demand[0] = 1000000;
  assert_int_equal (br__cut_sticks (&plan, 10, 1, length, demand, 2, &c, &e), BR_TOO_BIG);
  assert_int_equal (br__cut_sticks (&plan, INT64_MAX, 1, length, demand, 2, &c, &e), BR_TOO_BIG);
  assert_null (plan.start);
  demand[0] = 0;
  check_ok (br__cut_sticks (&plan, 10, 1, length, demand, 1, &c, &e));
  assert_int_equal (plan.sticks, 0);
  br__cut_plan_clear (&plan);
}

/* With the flag raised there is still a plan, and it says that it was stopped where it may not be best.  */
static void
stopped (void **state)
{
  static const volatile sig_atomic_t raised = 1;
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  (void) state;
  for (int n = 0; n < 20; n++)
    {
      sample s;
      br__cut_control c = { .solver = &solver_glpk, .flag = &raised, .milliseconds = 60000 };
      twenty_sizes (&s);
      br__cut_begin (&c);
      check_ok (br__cut_sticks (&plan, s.stick, s.kerf, s.length, s.demand, s.count, &c, NULL));
      check_plan (&plan, &s);
      assert_int_equal (plan.stopped, plan.least < (int64_t) plan.sticks);
    }
  br__cut_plan_clear (&plan);
}

static void
out_of_memory (void **state)
{
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  br_status status = BR_OK;
  /* 23 sticks by simpler means, 22 by patterns, so that every way of planning is gone through.  */
  sample s = { 100, 0, { 32, 12, 15, 13, 39, 44, 40, 43 }, { 9, 9, 9, 9, 9, 9, 9, 9 }, 8 };
  (void) state;
  check_ok (plan_with (&plan, &s, NULL, 100000));
  assert_int_equal (plan.sticks, 23);
  br__cut_plan_clear (&plan);
  CHECK_EACH_REFUSAL (status, status = plan_with (&plan, &s, &solver_glpk, 100000), 2);
  assert_int_equal (plan.sticks, 22);
  br__cut_plan_clear (&plan);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (against_all_ways), CHECK_TEST (bounds_and_patterns), CHECK_TEST (planted),
    CHECK_TEST (most_are_proved), CHECK_TEST (dearest_fill), CHECK_TEST (textbook),
    CHECK_TEST (bad_input), CHECK_TEST (stopped), CHECK_TEST (out_of_memory),
  };
  return CHECK_RUN (tests);
}
