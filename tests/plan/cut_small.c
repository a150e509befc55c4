/* SPDX-License-Identifier: GPL-3.0-or-later
   cut_small.c - plans for few pieces are the best there are: held against every cut at every place.  */
#include "check.h"
#include "plan/cut.h"
#include "solver.h"

#define MOST 12

typedef struct job
{
  int64_t length, width, kerf;
  br__cut_piece pieces[MOST];   /* one each */
  size_t count;
} job;

/* Whether the pieces of SET come out of LENGTH by WIDTH: each way to part them, each place of the cut.  */
static int
goes_in (const job *j, unsigned set, int64_t length, int64_t width)
{
  if (!set)
    return 1;
  if (length < 1 || width < 1)
    return 0;
  if (!(set & (set - 1)))
    for (size_t i = 0; i < j->count; i++)
      if (set == 1u << i)
        {
          const br__cut_piece *p = &j->pieces[i];
          return (p->length <= length && p->width <= width) || (p->turn && p->width <= length && p->length <= width);
        }
  for (unsigned part = (set - 1) & set; part; part = (part - 1) & set)
    {
      for (int64_t at = 1; at < length; at++)
        if (goes_in (j, part, at, width) && goes_in (j, set & ~part, length - at - j->kerf, width))
          return 1;
      for (int64_t at = 1; at < width; at++)
        if (goes_in (j, part, length, at) && goes_in (j, set & ~part, length, width - at - j->kerf))
          return 1;
    }
  return 0;
}

static size_t
fewest (const job *j, unsigned set)
{
  size_t best = SIZE_MAX;
  if (!set)
    return 0;
  for (unsigned part = set; part; part = (part - 1) & set)
    if ((part & (set & -set)) && goes_in (j, part, j->length, j->width))
      {
        size_t n = 1 + fewest (j, set & ~part);
        if (n < best)
          best = n;
      }
  return best;
}

static br_status
plan (br__cut_layout *layout, const job *j)
{
  br__cut_control c = { .solver = &solver_glpk, .milliseconds = 60000 };
  br__cut_begin (&c);
  return br__cut_sheets (layout, j->length, j->width, j->kerf, j->pieces, j->count, &c, NULL);
}

static void
draw_job (job *j, size_t most, int64_t longest)
{
  j->length = check_between (4, longest);
  j->width = check_between (4, longest);
  j->kerf = check_between (0, 2);
  j->count = 1 + check_below (most);
  for (size_t i = 0; i < j->count; i++)
    j->pieces[i] = (br__cut_piece) { check_between (1, j->length), check_between (1, j->width), 1,
                                     (int) check_below (2) };
}

static void
every_cut (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  (void) state;
  for (long n = 0; n < check_times (200); n++)
    {
      job j;
      draw_job (&j, 4, 9);
      check_ok (plan (&layout, &j));
      assert_int_equal (layout.sheets, fewest (&j, (1u << j.count) - 1));
      assert_int_equal (layout.least, layout.sheets);
    }
  br__cut_layout_clear (&layout);
}

/* Up to twelve parts are always proved.  */
static void
always_proved (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  (void) state;
  for (long n = 0; n < check_times (10); n++)
    {
      job j;
      draw_job (&j, MOST, 1500);
      for (size_t i = 0; i < j.count; i++)
        {
          j.pieces[i].length = 1 + j.pieces[i].length / 2;
          j.pieces[i].width = 1 + j.pieces[i].width / 2;
        }
      check_ok (plan (&layout, &j));
      assert_int_equal (layout.least, layout.sheets);
    }
  br__cut_layout_clear (&layout);
}

/* Two of three lie along the sheet and one across.  */
static void
one_across (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  job j = { 1536, 768, 1, { { 740, 400, 3, 1 } }, 1 };
  (void) state;
  check_ok (plan (&layout, &j));
  assert_int_equal (layout.sheets, 1);
  br__cut_layout_clear (&layout);
}

/* With the flag raised there is still a plan, and it says that it was stopped where it may not be best.  */
static void
stopped (void **state)
{
  static const volatile sig_atomic_t raised = 1;
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  int open = 0;
  (void) state;
  for (int n = 0; n < 20; n++)
    {
      job j = { 1536, 768, 1, { { 740, 400, 3, 1 } }, 1 };
      br__cut_control c = { .solver = &solver_glpk, .flag = &raised, .milliseconds = 60000 };
      if (n > 0)
        draw_job (&j, MOST, 40);
      br__cut_begin (&c);
      check_ok (br__cut_sheets (&layout, j.length, j.width, j.kerf, j.pieces, j.count, &c, NULL));
      assert_int_equal (layout.stopped, layout.least < (int64_t) layout.sheets);
      open += layout.stopped;
    }
  assert_true (open > 0);
  br__cut_layout_clear (&layout);
}

/* Jobs that the other planners leave open, which is seen where the flag is raised.  */
static void
without_memory (void **state)
{
  static const volatile sig_atomic_t raised = 1;
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  br_status status;
  (void) state;
  for (int found = 0; found < 3;)
    {
      job j;
      br__cut_control c = { .solver = &solver_glpk, .flag = &raised, .milliseconds = 60000 };
      draw_job (&j, 5, 40);
      br__cut_begin (&c);
      check_ok (br__cut_sheets (&layout, j.length, j.width, j.kerf, j.pieces, j.count, &c, NULL));
      int open = layout.stopped;
      br__cut_layout_clear (&layout);
      if (!open)
        continue;
      found++;
      CHECK_EACH_REFUSAL (status, (br__cut_layout_clear (&layout), status = plan (&layout, &j)), 1);
    }
  br__cut_layout_clear (&layout);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (every_cut), CHECK_TEST (always_proved), CHECK_TEST (one_across), CHECK_TEST (stopped), CHECK_TEST (without_memory),
  };
  return CHECK_RUN (tests);
}
