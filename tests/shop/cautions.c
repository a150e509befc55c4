/* SPDX-License-Identifier: GPL-3.0-or-later
   cautions.c - gaps against both toy standards, overlaps in words, and pieces too small to
   hold; each caution gives way to the teacher.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/caution.h"
#include "support.h"

static const br__child unset = { BR__CHILD_UNSET, 0 };
static const br__child none = { BR__CHILD_NONE, 0 };

static void
gives_way (const char *message)
{
  size_t length = strlen (message), end = strlen (BR__TEACHER_FIRST);

  assert_true (length > end);
  assert_string_equal (message + length - end, BR__TEACHER_FIRST);
}

static br__gap_answer
ask (const br_real *gap, const br__child *child, unsigned bits)
{
  br__gap_answer answer = { BR_UNKNOWN, BR_UNKNOWN, 9, { NULL, NULL }, NULL };
  size_t i;

  check_ok (br__gap_caution (&answer, gap, gap, child, bits));
  assert_in_range (answer.count, 0, 2);
  for (i = 0; i < answer.count; i++)
    {
      gives_way (answer.cautions[i]->text);
      assert_non_null (strstr (answer.cautions[i]->scope, "96 months"));
    }
  return answer;
}

/* V01 to V11: boundary cases worked out from ASTM F963 4.18.1 and ISO 8124-1.  */
static void
gaps (void **state)
{
  check_data data;
  br__gap_answer answer;
  br_real gap = BR_REAL_ZERO;
  size_t rows = 0, astm, iso;

  (void) state;
  check_open (&data, "gaps.txt", ';');
  for (; check_next (&data); rows++)
    {
      assert_int_equal (data.fields, 4);
      shop_set (&gap, data.field[1], strlen (data.field[1]));
      answer = ask (&gap, &unset, 0);
      astm = strcmp (data.field[2], "fail") == 0;
      iso = strcmp (data.field[3], "fail") == 0;
      assert_int_equal (answer.astm, astm ? BR_YES : BR_NO);
      assert_int_equal (answer.iso, iso ? BR_YES : BR_NO);
      assert_int_equal (answer.count, astm + iso);
      if (astm)
        assert_non_null (strstr (answer.cautions[0]->source, "ASTM F963 4.18.1"));
      if (iso)
        assert_non_null (strstr (answer.cautions[answer.count - 1]->source, "ISO 8124-1"));
    }
  assert_int_equal (rows, 11);
  br_real_clear (&gap);
}

/* Roots a hair from each rod, from both sides: 2^-60 of a square inch.  */
static void
gaps_at_the_edge (void **state)
{
  static const struct { int64_t num, den; int astm[3], iso[3]; } rods[] = {
    { 3, 16, { BR_NO, BR_YES, BR_YES }, { BR_NO, BR_NO, BR_NO } },
    { 25, 127, { BR_YES, BR_YES, BR_YES }, { BR_NO, BR_YES, BR_YES } },
    { 60, 127, { BR_YES, BR_YES, BR_YES }, { BR_YES, BR_NO, BR_NO } },
    { 1, 2, { BR_YES, BR_NO, BR_NO }, { BR_NO, BR_NO, BR_NO } },
  };
  br__gap_answer answer;
  br_real gap = BR_REAL_ZERO;
  size_t i;
  int by;

  (void) state;
  for (i = 0; i < CHECK_COUNT (rods); i++)
    for (by = -1; by <= 1; by++)
      {
        shop_ratio (&gap, rods[i].num * rods[i].num, rods[i].den * rods[i].den);
        shop_nudge (&gap, by, INT64_C (1) << 60);
        check_ok (br_real_sqrt (&gap, &gap, 0));
        answer = ask (&gap, &unset, 0);
        assert_int_equal (answer.astm, rods[i].astm[by + 1]);
        assert_int_equal (answer.iso, rods[i].iso[by + 1]);
      }
  br_real_clear (&gap);
}

/* What cannot be told is said, and counts as touched.  */
static void
gaps_undecided (void **state)
{
  br__gap_answer answer;
  br_real gap = BR_REAL_ZERO;

  (void) state;
  shop_ratio (&gap, 3, 16);
  shop_blur (&gap);
  answer = ask (&gap, &unset, 200);
  assert_int_equal (answer.astm, BR_UNKNOWN);
  assert_int_equal (answer.iso, BR_NO);
  assert_int_equal (answer.count, 1);
  assert_non_null (strstr (answer.cautions[0]->text, "not certain"));
  assert_int_equal (ask (&gap, &none, 200).count, 0);
  br_real_clear (&gap);
}

/* The standards speak of children under 96 months; the standards' own answer stays.  */
static void
ages (void **state)
{
  static const struct { br__child child; size_t count; } rows[] = {
    { { BR__CHILD_UNSET, 0 }, 2 }, { { BR__CHILD_UNSET, 200 }, 2 }, { { BR__CHILD_NONE, 0 }, 0 },
    { { BR__CHILD_MONTHS, 0 }, 2 }, { { BR__CHILD_MONTHS, 36 }, 2 },
    { { BR__CHILD_MONTHS, 95 }, 2 },
    /* ISO says "96 months and under", ASTM "under 96 months".  */
    { { BR__CHILD_MONTHS, 96 }, 1 }, { { BR__CHILD_MONTHS, 97 }, 0 },
    { { BR__CHILD_MONTHS, 200 }, 0 },
  };
  br__gap_answer answer;
  br_real gap = { { 5, 15 }, NULL };
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (rows); i++)
    {
      answer = ask (&gap, &rows[i].child, 0);
      assert_int_equal (answer.count, rows[i].count);
      assert_int_equal (answer.astm, BR_YES);
      assert_int_equal (answer.iso, BR_YES);
    }
}

static void
says (const br_real *gap, const char *parts, br_dimension dimension, const br_style *style,
      const char *words)
{
  br_text text = BR_TEXT_ZERO;

  br__text_puts (&text, "note: ");
  check_ok (br__overlap_message (&text, gap, parts, dimension, style, 0));
  assert_string_equal (br__text_string (&text) + 6, words);
  br__text_clear (&text);
}

static void
overlaps (void **state)
{
  const br_style mm = { br_unit_find ("mm", 2), 0 };
  br_real gap = BR_REAL_ZERO;
  br_text text = BR_TEXT_ZERO;

  (void) state;
  shop_ratio (&gap, -3, 8);
  assert_int_equal (ask (&gap, &unset, 0).count, 0);
  says (&gap, "the wheels", BR_LENGTH, NULL, "the wheels overlap by 3/8\"");
  says (&gap, "the wheel and its fender", BR_PLAIN, NULL,
        "the wheel and its fender overlap by 3/8");
  says (&gap, "the wheels", BR_LENGTH, &mm, "the wheels overlap by 9.525 mm");
  shop_ratio (&gap, 0, 1);
  assert_int_equal (ask (&gap, &unset, 0).count, 0);
  says (&gap, "the wheels", BR_LENGTH, NULL, "the wheels touch: they will rub");
  shop_ratio (&gap, 1, 64);
  says (&gap, "the wheels", BR_LENGTH, NULL, "");
  shop_root (&gap, 2, 1);
  check_ok (br_real_neg (&gap, &gap));
  says (&gap, "the wheels", BR_LENGTH, NULL, "the wheels overlap by about 1.41421 in");
  says (&gap, "the wheels", BR_LENGTH, &mm, "the wheels overlap by about 35.921 mm");
  says (&gap, "the wheels", BR_PLAIN, &mm, "the wheels overlap by about 1.41421");
  shop_ratio (&gap, 0, 1);
  shop_blur (&gap);
  assert_int_equal (br__overlap_message (&text, &gap, "the wheels", BR_LENGTH, NULL, 200),
                    BR_UNDECIDED);
  assert_string_equal (br__text_string (&text), "");
  br__text_clear (&text);
  br_real_clear (&gap);
}

/* 1 if some row of MACHINE is among ROWS.  */
static int
among (const br__advice *const *rows, size_t count, const char *machine, br__advice_side side)
{
  size_t i;

  for (i = 0; i < count; i++)
    if (strcmp (rows[i]->machine, machine) == 0 && rows[i]->side == side)
      return 1;
  return 0;
}

/* Figures of school rule sets, machine manuals and the HSE, all advice: 12 in on a jointer (and
   300 mm), 8 in on a miter saw (memory), 12 in anywhere, 1/4 in thick on jointer and planer, 2 in
   from a band saw's line on both sides, 6 in wide for a push stick.  */
static void
workpieces (void **state)
{
  static const struct
  {
    const char *length, *machine;
    br__advice_side side;
    int count, touched;
  } rows[] = {
    { "13 7 3/4", "any machine", BR__LENGTH_SIDE, 0, 0 },
    { "769/64 7 3/4", "any machine", BR__LENGTH_SIDE, 0, 0 },
    { "12 7 3/4", "any machine", BR__LENGTH_SIDE, 2, 1 },
    { "12 7 3/4", "jointer", BR__LENGTH_SIDE, 2, 0 },
    { "12 7 3/4", "drill press", BR__ANY_SIDE, 2, 1 },
    { "767/64 7 3/4", "jointer", BR__LENGTH_SIDE, 3, 1 },
    { "1500/127 7 3/4", "jointer", BR__LENGTH_SIDE, 3, 1 },
    { "1499/127 7 3/4", "jointer", BR__LENGTH_SIDE, 4, 1 },
    { "8 7 3/4", "miter saw", BR__LENGTH_SIDE, 4, 0 },
    { "511/64 7 3/4", "miter saw", BR__LENGTH_SIDE, 6, 1 },
    { "4 7 3/4", "band saw", BR__LENGTH_SIDE, 6, 0 },
    { "255/64 7 3/4", "band saw", BR__LENGTH_SIDE, 7, 1 },
    { "20 6 3/4", "table saw", BR__WIDTH_SIDE, 2, 1 },
    { "20 385/64 3/4", "table saw", BR__WIDTH_SIDE, 0, 0 },
    { "20 3/4 3/4", "jointer", BR__WIDTH_SIDE, 2, 0 },
    { "20 47/64 3/4", "jointer", BR__WIDTH_SIDE, 3, 1 },
    { "20 7 1/4", "planer", BR__THICKNESS_SIDE, 0, 0 },
    { "20 7 15/64", "planer", BR__THICKNESS_SIDE, 3, 1 },
    { "20 7 15/64", "jointer", BR__THICKNESS_SIDE, 3, 1 },
    { "1 1/2 1/8", "band saw", BR__LENGTH_SIDE, 11, 1 },
  };
  const br__advice *found[32];
  shop_args args;
  size_t i, count;

  (void) state;
  assert_in_range (br__advice_count, 1, CHECK_COUNT (found));
  for (i = 0; i < CHECK_COUNT (rows); i++)
    {
      shop_read (&args, rows[i].length);
      check_ok (br__workpiece_advice (found, &count, args.pointer[0], args.pointer[1],
                                      args.pointer[2], 0));
      if (count != (size_t) rows[i].count
          || among (found, count, rows[i].machine, rows[i].side) != rows[i].touched)
        fail_msg ("%s: %zu rows, %s", rows[i].length, count, rows[i].machine);
      shop_clear (&args);
    }
  for (i = 0; i < br__advice_count; i++)
    {
      gives_way (br__advices[i].message);
      assert_true (strcmp (br__advices[i].status, "found") == 0
                   || strcmp (br__advices[i].status, "memory") == 0);
      assert_int_equal (strcmp (br__advices[i].status, "memory") == 0,
                        strcmp (br__advices[i].machine, "miter saw") == 0);
    }
}

/* Sizes not known say nothing; one that cannot be decided is listed.  */
static void
workpieces_unknown (void **state)
{
  const br__advice *found[32];
  br_real length = BR_REAL_ZERO;
  size_t count = 99;

  (void) state;
  check_ok (br__workpiece_advice (found, &count, NULL, NULL, NULL, 0));
  assert_int_equal (count, 0);
  shop_ratio (&length, 4, 1);
  shop_blur (&length);
  check_ok (br__workpiece_advice (found, &count, &length, NULL, NULL, 200));
  assert_int_equal (among (found, count, "band saw", BR__LENGTH_SIDE), 1);
  assert_int_equal (count, 7);
  br_real_clear (&length);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (gaps), CHECK_TEST (gaps_at_the_edge), CHECK_TEST (gaps_undecided),
    CHECK_TEST (ages), CHECK_TEST (overlaps), CHECK_TEST (workpieces),
    CHECK_TEST (workpieces_unknown),
  };
  return CHECK_RUN (tests);
}
