/* SPDX-License-Identifier: GPL-3.0-or-later
   cut_sheet.c - plans for boards and sheets: each piece once, no two nearer than a kerf, and all of
   it to be had by saw cuts that run through.  */
#include "check.h"
#include "plan/cut.h"
#include "wood/cut_picture.h"
#include "solver.h"

#define MOST 300

typedef struct sample
{
  int64_t length, width, kerf;
  br__cut_piece pieces[MOST];
  size_t count;
} sample;

typedef struct box
{
  int64_t x, y, length, width;
} box;

static br_status
plan_with (br__cut_layout *layout, const sample *s, br_error *error)
{
  br__cut_control c = { .solver = &solver_glpk, .milliseconds = 2000 };
  br__cut_begin (&c);
  return br__cut_sheets (layout, s->length, s->width, s->kerf, s->pieces, s->count, &c, error);
}

/* Whether a saw can part BOXES by cuts that run through what is being cut, each taking KERF.  A cut may go
   wherever no box is in its way.  */
static int
can_be_sawn (box *boxes, size_t count, int64_t kerf)
{
  if (count < 2)
    return 1;
  for (int across = 0; across < 2; across++)
    for (size_t i = 0; i < count; i++)
      {
        int64_t cut = across ? boxes[i].y + boxes[i].width : boxes[i].x + boxes[i].length;
        size_t before = 0, behind = 0;
        for (size_t k = 0; k < count; k++)
          {
            int64_t start = across ? boxes[k].y : boxes[k].x;
            int64_t end = start + (across ? boxes[k].width : boxes[k].length);
            before += end <= cut;
            behind += start >= cut + kerf;
          }
        if (before + behind < count || behind == 0)
          continue;
        /* Those before the cut come first.  */
        for (size_t k = 0, n = 0; k < count; k++)
          if ((across ? boxes[k].y + boxes[k].width : boxes[k].x + boxes[k].length) <= cut)
            {
              box swap = boxes[k];
              boxes[k] = boxes[n];
              boxes[n++] = swap;
            }
        return can_be_sawn (boxes, before, kerf) && can_be_sawn (boxes + before, behind, kerf);
      }
  return 0;
}

static void
check_layout (const br__cut_layout *layout, const sample *s)
{
  int64_t seen[MOST] = { 0 };
  box boxes[1000];
  size_t n = 0;
  for (size_t i = 0; i < layout->count; i++)
    {
      const br__cut_place *p = &layout->places[i];
      assert_true (p->type < s->count && p->sheet < layout->sheets);
      const br__cut_piece *c = &s->pieces[p->type];
      assert_true (c->turn || !p->turned);
      seen[p->type]++;
      boxes[n] = (box) { p->x, p->y, p->turned ? c->width : c->length, p->turned ? c->length : c->width };
      assert_true (p->x >= 0 && p->x + boxes[n].length <= s->length);
      assert_true (p->y >= 0 && p->y + boxes[n].width <= s->width);
      n++;
      if (i + 1 == layout->count || layout->places[i + 1].sheet != p->sheet)
        {
          assert_true (can_be_sawn (boxes, n, s->kerf));
          n = 0;
        }
      else
        assert_true (n < CHECK_COUNT (boxes));
    }
  for (size_t i = 0; i < s->count; i++)
    assert_int_equal (seen[i], s->pieces[i].demand);
  assert_true (layout->least <= (int64_t) layout->sheets);
}

static void
any_pieces (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  (void) state;
  for (long n = 0; n < check_times (150); n++)
    {
      sample s = { check_between (20, 400), check_between (20, 200), check_between (0, 4), { { 0 } }, 0 };
      int turn = n % 2;
      s.count = 1 + check_below (12);
      for (size_t i = 0; i < s.count; i++)
        s.pieces[i] = (br__cut_piece) { check_between (1, s.length), check_between (1, s.width),
                                        check_between (0, 6), turn };
      check_ok (plan_with (&layout, &s, NULL));
      check_layout (&layout, &s);
    }
  br__cut_layout_clear (&layout);
}

/* Cuts a sheet into pieces at random; which surely come out of it again.  */
static void
saw_up (sample *s, int64_t length, int64_t width, int depth)
{
  int64_t side = depth % 2 ? width : length;
  int64_t at = side > 2 * s->kerf + 20 ? check_between (10, side - s->kerf - 10) : 0;
  if (depth > 4 || at == 0 || s->count + 40 > MOST)
    {
      s->pieces[s->count++] = (br__cut_piece) { length, width, 1, 0 };
      return;
    }
  saw_up (s, depth % 2 ? length : at, depth % 2 ? at : width, depth + 1);
  side -= at + s->kerf;
  saw_up (s, depth % 2 ? length : side, depth % 2 ? side : width, depth + 1);
}

static void
planted (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  (void) state;
  for (long n = 0; n < check_times (80); n++)
    {
      sample s = { check_between (100, 900), check_between (60, 500), check_between (0, 4), { { 0 } }, 0 };
      int64_t sheets = check_between (1, 5);
      for (int64_t i = 0; i < sheets; i++)
        saw_up (&s, s.length, s.width, (int) check_below (4));
      for (size_t i = 0; n % 3 == 0 && i < s.count; i++)
        s.pieces[i].turn = 1;
      check_ok (plan_with (&layout, &s, NULL));
      check_layout (&layout, &s);
      assert_true (layout.least <= sheets);
    }
  br__cut_layout_clear (&layout);
}

/* Slats of one width are planned as sticks are, so many beside each other.  */
static void
slats (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  /* 5-1/2 in takes three of 1-3/4 in with 1/8 in kerfs; 48 in takes three of 12 in and an offcut.  */
  sample s = { 384, 44, 1, { { 96, 14, 28, 0 } }, 1 };
  (void) state;
  check_ok (plan_with (&layout, &s, NULL));
  check_layout (&layout, &s);
  assert_int_equal (layout.sheets, 4);
  assert_int_equal (layout.least, 4);
  s.pieces[0].demand = 27;
  check_ok (plan_with (&layout, &s, NULL));
  assert_int_equal (layout.sheets, 3);
  br__cut_layout_clear (&layout);
}

static void
bad_input (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  br_error e;
  sample s = { 100, 50, 1, { { 40, 20, 1, 0 }, { 30, 60, 1, 0 } }, 2 };
  (void) state;
  assert_int_equal (plan_with (&layout, &s, &e), BR_DOMAIN);
  assert_int_equal (e.offset, 1);
  s.pieces[1].turn = 1;
  check_ok (plan_with (&layout, &s, &e));
  check_layout (&layout, &s);
  s.kerf = 50;
  assert_int_equal (plan_with (&layout, &s, &e), BR_DOMAIN);
  s.kerf = 1;
  s.pieces[0].demand = 1000000;
  assert_int_equal (plan_with (&layout, &s, &e), BR_TOO_BIG);
  s.pieces[0].demand = 1;
  s.pieces[0].width = 0;
  assert_int_equal (plan_with (&layout, &s, &e), BR_DOMAIN);
  br__cut_layout_clear (&layout);
}

static void
out_of_memory (void **state)
{
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  br_status status = BR_OK;
  sample s = { 100, 60, 2, { { 61, 33, 3, 0 }, { 40, 28, 4, 1 }, { 20, 50, 5, 0 } }, 3 };
  (void) state;
  CHECK_EACH_REFUSAL (status, status = plan_with (&layout, &s, NULL), 1);
  br__cut_layout_clear (&layout);
}

/* No line is longer than it may be, whatever the sizes; every name that has room is there.  */
static void
pictures (void **state)
{
  (void) state;
  for (int n = 0; n < 500; n++)
    {
      br_text t = BR_TEXT_ZERO;
      int64_t length = check_between (1, 1 + (int64_t) check_below (BR__CUT_MAX_SIZE));
      int64_t width = n % 3 ? check_between (1, 1 + (int64_t) check_below (BR__CUT_MAX_SIZE)) : 0;
      int64_t x = check_between (0, length - 1), y = width ? check_between (0, width - 1) : 0;
      br__picture_piece piece = { n % 2 ? "deck" : "\xc3\xa9t\xc3\xa9", x, y, check_between (1, length - x),
                                  width ? check_between (1, width - y) : 1 };
      br__picture_cuts (&t, length, width, &piece, 1);
      assert_false (t.failed);
      for (const char *line = br__text_string (&t); *line; line += strcspn (line, "\n") + 1)
        assert_true (strcspn (line, "\n") <= 66);
      if (n % 2 && piece.length > length / 4)
        assert_non_null (strstr (br__text_string (&t), "deck"));
      br__text_clear (&t);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (any_pieces), CHECK_TEST (planted), CHECK_TEST (slats), CHECK_TEST (bad_input),
    CHECK_TEST (out_of_memory), CHECK_TEST (pictures),
  };
  return CHECK_RUN (tests);
}
