/* SPDX-License-Identifier: GPL-3.0-or-later
   nulls.c - each public function with NULL where it takes none, and with a choice that there is not: it is refused, and nothing
   is changed.  tests/packaging/nulls.awk finds parameters that no call is made for here.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <mpfr.h>

#include "support.h"

static br_number number;
static br_real real;
static br_measure measure;
static br_sheet *sheet, *other;
static br_item item;
static mpq_t q;
static mpz_t z;
static mpfr_t f;
static char buffer[10];
static int64_t whole;
static int sign;
static size_t start;

static void
take_word (void *user, const char *word)
{
  (void) user;
  fail_msg ("`%s` was found", word);
}

#define REFUSES(call)                                                   \
  do                                                                    \
    if ((call) != BR_DOMAIN)                                            \
      fail_msg ("%s was not refused", #call);                           \
  while (0)

static void
numbers (void **state)
{
  (void) state;
  REFUSES (br_number_abs (NULL, &number));
  REFUSES (br_number_abs (&number, NULL));
  REFUSES (br_number_add (NULL, &number, &number));
  REFUSES (br_number_add (&number, NULL, &number));
  REFUSES (br_number_add (&number, &number, NULL));
  REFUSES (br_number_ceil (NULL, &number));
  REFUSES (br_number_ceil (&number, NULL));
  REFUSES (br_number_div (NULL, &number, &number));
  REFUSES (br_number_div (&number, NULL, &number));
  REFUSES (br_number_div (&number, &number, NULL));
  REFUSES (br_number_floor (NULL, &number));
  REFUSES (br_number_floor (&number, NULL));
  REFUSES (br_number_get_mpz (NULL, &number));
  REFUSES (br_number_get_mpz (z, NULL));
  REFUSES (br_number_mul (NULL, &number, &number));
  REFUSES (br_number_mul (&number, NULL, &number));
  REFUSES (br_number_mul (&number, &number, NULL));
  REFUSES (br_number_neg (NULL, &number));
  REFUSES (br_number_neg (&number, NULL));
  REFUSES (br_number_pow (NULL, &number, 1));
  REFUSES (br_number_pow (&number, NULL, 1));
  REFUSES (br_number_read (NULL, "1", 1, NULL));
  REFUSES (br_number_read (&number, NULL, 1, NULL));
  REFUSES (br_number_round (NULL, NULL, &number, BR_NEAREST, BR_TIES_UP));
  REFUSES (br_number_round (&number, NULL, NULL, BR_NEAREST, BR_TIES_UP));
  REFUSES (br_number_set (NULL, &number));
  REFUSES (br_number_set (&number, NULL));
  REFUSES (br_number_set_int (NULL, 1));
  REFUSES (br_number_set_mpq (NULL, q));
  REFUSES (br_number_set_mpq (&number, NULL));
  REFUSES (br_number_set_mpz (NULL, z));
  REFUSES (br_number_set_mpz (&number, NULL));
  REFUSES (br_number_set_ratio (NULL, 1, 1));
  REFUSES (br_number_sub (NULL, &number, &number));
  REFUSES (br_number_sub (&number, NULL, &number));
  REFUSES (br_number_sub (&number, &number, NULL));
}

static void
measures (void **state)
{
  (void) state;
  REFUSES (br_measure_read (NULL, "1", 1, NULL, NULL));
  REFUSES (br_measure_read (&measure, NULL, 1, NULL, NULL));
  REFUSES (br_measure_scan (NULL, NULL, "1", 1, NULL, NULL));
  REFUSES (br_measure_scan (&measure, NULL, "1", 1, NULL, NULL));
  REFUSES (br_measure_scan (&measure, &start, NULL, 1, NULL, NULL));
  REFUSES (br_ruler_keep_total (NULL, &number, &real, 1, &number, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_ruler_keep_total (&number, NULL, &real, 1, &number, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_ruler_keep_total (&number, &number, NULL, 1, &number, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_ruler_keep_total (&number, &number, &real, 1, NULL, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_ruler_neighbours (NULL, &number, &number, &number));
  REFUSES (br_ruler_neighbours (&number, NULL, &number, &number));
  REFUSES (br_ruler_neighbours (&number, &number, NULL, &number));
  REFUSES (br_ruler_neighbours (&number, &number, &number, NULL));
  REFUSES (br_ruler_round (NULL, &number, NULL, &number, &number, BR_NEAREST, BR_TIES_UP));
  REFUSES (br_ruler_round (&number, &number, NULL, NULL, &number, BR_NEAREST, BR_TIES_UP));
  REFUSES (br_ruler_round (&number, &number, NULL, &number, NULL, BR_NEAREST, BR_TIES_UP));
  REFUSES (br_ruler_round_real (NULL, &real, NULL, &real, &number, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_ruler_round_real (&number, &real, NULL, NULL, &number, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_ruler_round_real (&number, &real, NULL, &real, NULL, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_ruler_simplest (NULL, &number, &real, &number, 100));
  REFUSES (br_ruler_simplest (&number, NULL, &real, &number, 100));
  REFUSES (br_ruler_simplest (&number, &number, NULL, &number, 100));
  REFUSES (br_ruler_simplest (&number, &number, &real, NULL, 100));
  REFUSES (br_scale_drawn (NULL, &real, &number));
  REFUSES (br_scale_drawn (&real, NULL, &number));
  REFUSES (br_scale_drawn (&real, &real, NULL));
  REFUSES (br_scale_drawn_number (NULL, &number, &number));
  REFUSES (br_scale_drawn_number (&number, NULL, &number));
  REFUSES (br_scale_drawn_number (&number, &number, NULL));
  REFUSES (br_scale_full (NULL, &real, &number));
  REFUSES (br_scale_full (&real, NULL, &number));
  REFUSES (br_scale_full (&real, &real, NULL));
  REFUSES (br_scale_full_number (NULL, &number, &number));
  REFUSES (br_scale_full_number (&number, NULL, &number));
  REFUSES (br_scale_full_number (&number, &number, NULL));
  REFUSES (br_scale_read (NULL, "1", 1, NULL));
  REFUSES (br_scale_read (&number, NULL, 1, NULL));
}

static void
reals (void **state)
{
  (void) state;
  REFUSES (br_real_abs (NULL, &real, 100));
  REFUSES (br_real_abs (&real, NULL, 100));
  REFUSES (br_real_add (NULL, &real, &real));
  REFUSES (br_real_add (&real, NULL, &real));
  REFUSES (br_real_add (&real, &real, NULL));
  REFUSES (br_real_asin (NULL, &real, 100));
  REFUSES (br_real_asin (&real, NULL, 100));
  REFUSES (br_real_atan (NULL, &real));
  REFUSES (br_real_atan (&real, NULL));
  REFUSES (br_real_cmp (NULL, &real, &real, 100));
  REFUSES (br_real_cmp (&sign, NULL, &real, 100));
  REFUSES (br_real_cmp (&sign, &real, NULL, 100));
  REFUSES (br_real_cos (NULL, &real));
  REFUSES (br_real_cos (&real, NULL));
  REFUSES (br_real_div (NULL, &real, &real, 100));
  REFUSES (br_real_div (&real, NULL, &real, 100));
  REFUSES (br_real_div (&real, &real, NULL, 100));
  REFUSES (br_real_enclose (NULL, &number, &real, 100));
  REFUSES (br_real_enclose (&number, NULL, &real, 100));
  REFUSES (br_real_enclose (&number, &number, NULL, 100));
  REFUSES (br_real_get_mpfr (NULL, &real, MPFR_RNDN, 100));
  REFUSES (br_real_get_mpfr (f, NULL, MPFR_RNDN, 100));
  REFUSES (br_real_mul (NULL, &real, &real));
  REFUSES (br_real_mul (&real, NULL, &real));
  REFUSES (br_real_mul (&real, &real, NULL));
  REFUSES (br_real_neg (NULL, &real));
  REFUSES (br_real_neg (&real, NULL));
  REFUSES (br_real_pi (NULL));
  REFUSES (br_real_pow (NULL, &real, &number, 100));
  REFUSES (br_real_pow (&real, NULL, &number, 100));
  REFUSES (br_real_pow (&real, &real, NULL, 100));
  REFUSES (br_real_read (NULL, "1", 1, NULL));
  REFUSES (br_real_read (&real, NULL, 1, NULL));
  REFUSES (br_real_round (NULL, NULL, &real, &number, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_real_round (&number, NULL, NULL, &number, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_real_round (&number, NULL, &real, NULL, BR_NEAREST, BR_TIES_UP, 100));
  REFUSES (br_real_set (NULL, &real));
  REFUSES (br_real_set (&real, NULL));
  REFUSES (br_real_set_number (NULL, &number));
  REFUSES (br_real_set_number (&real, NULL));
  REFUSES (br_real_settle (NULL));
  REFUSES (br_real_sign (NULL, &real, 100));
  REFUSES (br_real_sign (&sign, NULL, 100));
  REFUSES (br_real_sin (NULL, &real));
  REFUSES (br_real_sin (&real, NULL));
  REFUSES (br_real_sqrt (NULL, &real, 100));
  REFUSES (br_real_sqrt (&real, NULL, 100));
  REFUSES (br_real_sub (NULL, &real, &real));
  REFUSES (br_real_sub (&real, NULL, &real));
  REFUSES (br_real_sub (&real, &real, NULL));
  REFUSES (br_real_tan (NULL, &real, 100));
  REFUSES (br_real_tan (&real, NULL, 100));
}

static void
sheets (void **state)
{
  (void) state;
  REFUSES (br_sheet_get (NULL, NULL, sheet, "1", NULL));
  REFUSES (br_sheet_get (&real, NULL, NULL, "1", NULL));
  REFUSES (br_sheet_get (&real, NULL, sheet, NULL, NULL));
  REFUSES (br_sheet_keep (NULL, "1", NULL));
  REFUSES (br_sheet_keep (sheet, NULL, NULL));
  REFUSES (br_sheet_keep_practice (NULL, "1"));
  REFUSES (br_sheet_keep_practice (sheet, NULL));
  REFUSES (br_sheet_new (NULL));
  REFUSES (br_sheet_next (NULL, sheet, BR_ITEM_PART, NULL));
  REFUSES (br_sheet_next (&item, NULL, BR_ITEM_PART, NULL));
  REFUSES (br_sheet_run (NULL, "1", 1, "test", 1, NULL));
  REFUSES (br_sheet_run (sheet, NULL, 1, "test", 1, NULL));
  REFUSES (br_sheet_run_file (NULL, "1", NULL));
  REFUSES (br_sheet_run_file (sheet, NULL, NULL));
  REFUSES (br_sheet_save (NULL, "1", NULL));
  REFUSES (br_sheet_save (sheet, NULL, NULL));
  REFUSES (br_sheet_set (NULL, "1", &real, BR_LENGTH, NULL));
  REFUSES (br_sheet_set (sheet, NULL, &real, BR_LENGTH, NULL));
  REFUSES (br_sheet_set (sheet, "1", NULL, BR_LENGTH, NULL));
  REFUSES (br_sheet_set_bits (NULL, 100));
  REFUSES (br_sheet_set_jobs (NULL, 1));
  REFUSES (br_sheet_set_memory (NULL, 100));
  REFUSES (br_sheet_write (NULL, "1", NULL));
  REFUSES (br_sheet_write (sheet, NULL, NULL));
}

static void
trade (void **state)
{
  const br_real one = { { 1, 0 }, NULL };
  (void) state;
  REFUSES (br_arc_length (NULL, &one, &one, 0, NULL));
  REFUSES (br_arc_length (&real, NULL, &one, 0, NULL));
  REFUSES (br_arc_length (&real, &one, NULL, 0, NULL));
  REFUSES (br_axle_length (NULL, &one, &one, &one, &one, &one, 0, NULL));
  REFUSES (br_axle_length (&real, NULL, &one, &one, &one, &one, 0, NULL));
  REFUSES (br_axle_length (&real, &one, NULL, &one, &one, &one, 0, NULL));
  REFUSES (br_axle_length (&real, &one, &one, NULL, &one, &one, 0, NULL));
  REFUSES (br_axle_length (&real, &one, &one, &one, NULL, &one, 0, NULL));
  REFUSES (br_axle_length (&real, &one, &one, &one, &one, NULL, 0, NULL));
  REFUSES (br_chord (NULL, &one, &one, 0, NULL));
  REFUSES (br_chord (&real, NULL, &one, 0, NULL));
  REFUSES (br_chord (&real, &one, NULL, 0, NULL));
  REFUSES (br_circumference (NULL, &one, 0, NULL));
  REFUSES (br_circumference (&real, NULL, 0, NULL));
  REFUSES (br_clearance_hole (NULL, &one, &one, 0, NULL));
  REFUSES (br_clearance_hole (&real, NULL, &one, 0, NULL));
  REFUSES (br_clearance_hole (&real, &one, NULL, 0, NULL));
  REFUSES (br_diagonal (NULL, &one, &one, 0, NULL));
  REFUSES (br_diagonal (&real, NULL, &one, 0, NULL));
  REFUSES (br_diagonal (&real, &one, NULL, 0, NULL));
  REFUSES (br_diameter (NULL, &one, 0, NULL));
  REFUSES (br_diameter (&real, NULL, 0, NULL));
  REFUSES (br_drill_next (NULL, &one, BR_DRILL_NUMBER, 0, NULL));
  REFUSES (br_drill_next (&real, NULL, BR_DRILL_NUMBER, 0, NULL));
  REFUSES (br_fender_gap (NULL, &one, &one, 0, NULL));
  REFUSES (br_fender_gap (&real, NULL, &one, 0, NULL));
  REFUSES (br_fender_gap (&real, &one, NULL, 0, NULL));
}

static void
more_trade (void **state)
{
  const br_real one = { { 1, 0 }, NULL };
  (void) state;
  REFUSES (br_fender_outer (NULL, &one, &one, &one, 0, NULL));
  REFUSES (br_fender_outer (&real, NULL, &one, &one, 0, NULL));
  REFUSES (br_fender_outer (&real, &one, NULL, &one, 0, NULL));
  REFUSES (br_fender_outer (&real, &one, &one, NULL, 0, NULL));
  REFUSES (br_fender_radius (NULL, &one, &one, 0, NULL));
  REFUSES (br_fender_radius (&real, NULL, &one, 0, NULL));
  REFUSES (br_fender_radius (&real, &one, NULL, 0, NULL));
  REFUSES (br_radius (NULL, &one, 0, NULL));
  REFUSES (br_radius (&real, NULL, 0, NULL));
  REFUSES (br_radius_from (NULL, &one, &one, 0, NULL));
  REFUSES (br_radius_from (&real, NULL, &one, 0, NULL));
  REFUSES (br_radius_from (&real, &one, NULL, 0, NULL));
  REFUSES (br_rise (NULL, &one, &one, 0, NULL));
  REFUSES (br_rise (&real, NULL, &one, 0, NULL));
  REFUSES (br_rise (&real, &one, NULL, 0, NULL));
  REFUSES (br_wheel_gap (NULL, &one, &one, &one, 0, NULL));
  REFUSES (br_wheel_gap (&real, NULL, &one, &one, 0, NULL));
  REFUSES (br_wheel_gap (&real, &one, NULL, &one, 0, NULL));
  REFUSES (br_wheel_gap (&real, &one, &one, NULL, 0, NULL));
  REFUSES (br_wheelbase_for (NULL, &one, &one, &one, 0, NULL));
  REFUSES (br_wheelbase_for (&real, NULL, &one, &one, 0, NULL));
  REFUSES (br_wheelbase_for (&real, &one, NULL, &one, 0, NULL));
  REFUSES (br_wheelbase_for (&real, &one, &one, NULL, 0, NULL));
}

static void
cautions (void **state)
{
  const br_real one = { { 1, 0 }, NULL };
  br_caution cautions[BR_MOST_CAUTIONS];
  (void) state;
  REFUSES (br_caution_gap (NULL, &start, &one, BR_BETWEEN_WHEELS, 0, 0, NULL));
  REFUSES (br_caution_gap (cautions, NULL, &one, BR_BETWEEN_WHEELS, 0, 0, NULL));
  REFUSES (br_caution_small_box (NULL, &start, &one, &one, &one, 0, 0, NULL));
  REFUSES (br_caution_small_box (cautions, NULL, &one, &one, &one, 0, 0, NULL));
  REFUSES (br_caution_small_box (cautions, &start, NULL, &one, &one, 0, 0, NULL));
  REFUSES (br_caution_small_box (cautions, &start, &one, NULL, &one, 0, 0, NULL));
  REFUSES (br_caution_small_box (cautions, &start, &one, &one, NULL, 0, 0, NULL));
  REFUSES (br_caution_gap (cautions, &start, NULL, BR_BETWEEN_WHEELS, 0, 0, NULL));
  REFUSES (br_caution_small_disc (cautions, &start, &one, NULL, 0, 0, NULL));
  REFUSES (br_caution_small_disc (NULL, &start, &one, &one, 0, 0, NULL));
  REFUSES (br_caution_small_disc (cautions, NULL, &one, &one, 0, 0, NULL));
  REFUSES (br_caution_small_disc (cautions, &start, NULL, &one, 0, 0, NULL));
  REFUSES (br_caution_workpiece (NULL, &start, &one, &one, &one, 0, NULL));
  REFUSES (br_caution_workpiece (cautions, NULL, &one, &one, &one, 0, NULL));
  REFUSES (br_caution_gap (cautions, &start, &one, (br_between) (BR_BETWEEN_FIXED_PARTS + 1), 0, 0, NULL));
  REFUSES (br_drill_next (&real, &one, (br_drill_series) (BR_DRILL_LETTER + 1), 0, NULL));
}

/* A choice that there is not: a way to round, a mode, a kind.  */
static void
choices (void **state)
{
  static const int wrong[][2] = { { -1, BR_TIES_UP }, { 3, BR_TIES_UP }, { BR_NEAREST, -1 }, { BR_UP, 3 }, { INT_MAX, INT_MIN } };
  const br_number one = { 1, 0 }, half = { 1, 1 }, third = { 1, 2 };
  const br_real x = { { 45, 31 }, NULL };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    {
      br_direction direction = (br_direction) wrong[i][0];
      br_ties ties = (br_ties) wrong[i][1];
      REFUSES (br_number_round (&number, &sign, &x.rational, direction, ties));
      REFUSES (br_number_round (&number, &sign, &one, direction, ties));
      REFUSES (br_ruler_round (&number, &number, &sign, &x.rational, &half, direction, ties));
      REFUSES (br_ruler_round (&number, &number, &sign, &x.rational, &third, direction, ties));
      REFUSES (br_real_round (&number, &sign, &x, &half, direction, ties, 0));
      REFUSES (br_ruler_round_real (&number, &real, &sign, &x, &half, direction, ties, 0));
      REFUSES (br_ruler_keep_total (&number, &number, &x, 1, &half, direction, ties, 0));
    }
  REFUSES (br_real_get_mpfr (f, &x, MPFR_RNDNA, 0));
  REFUSES (br_real_get_mpfr (f, &x, (mpfr_rnd_t) (MPFR_RNDF + 1), 0));
  REFUSES (br_sheet_next (&item, sheet, (br_item_kind) (BR_ITEM_CHECK + 1), NULL));
  REFUSES (br_sheet_set (sheet, "a", &x, 4, NULL));
  /* Squares of no size, and of less.  */
  REFUSES (br_measure_read (&measure, "3 boxes", 7, &number, NULL));
  REFUSES (br_measure_read (&measure, "3 boxes", 7, &(br_number) { -1, 3 }, NULL));
}

/* Where no status is given there is nothing: 0, NULL, "", and SIZE_MAX for a text.  */
static void
without_status (void **state)
{
  (void) state;
  assert_true (br_file_usual (NULL) == 0);
  assert_true (br_measure_write (buffer, 1, NULL, BR_LENGTH, NULL) == SIZE_MAX);
  assert_true (br_number_check (NULL) == 0);
  assert_true (br_number_cmp (NULL, &number) == 0);
  assert_true (br_number_cmp (&number, NULL) == 0);
  assert_true (br_number_equal (NULL, &number) == 0);
  assert_true (br_number_equal (&number, NULL) == 0);
  br_number_get_mpq (NULL, &number);
  br_number_get_mpq (q, NULL);
  assert_true (br_number_get_ratio (NULL, &whole, &number) == 0);
  assert_true (br_number_get_ratio (&whole, NULL, &number) == 0);
  assert_true (br_number_get_ratio (&whole, &whole, NULL) == 0);
  assert_true (br_number_is_integer (NULL) == 0);
  assert_true (br_number_sign (NULL) == 0);
  br_number_swap (NULL, &number);
  br_number_swap (&number, NULL);
  assert_true (br_number_write (buffer, 1, NULL) == SIZE_MAX);
  assert_true (br_number_write_decimal (buffer, 1, NULL, NULL, 1) == SIZE_MAX);
  assert_true (br_number_write_mixed (buffer, 1, NULL) == SIZE_MAX);
  assert_null (br_real_question (NULL, &whole));
  assert_null (br_real_rational (NULL));
  assert_true (br_real_write_decimal (buffer, 1, NULL, NULL, 1, 100, NULL) == SIZE_MAX);
  assert_true (br_scale_write (buffer, 1, NULL) == SIZE_MAX);
  br_sheet_complete (NULL, "1", 1, &start, &sign, take_word, NULL);
  br_sheet_complete (sheet, NULL, 1, &start, &sign, take_word, NULL);
  br_sheet_complete (sheet, "1", 1, NULL, &sign, take_word, NULL);
  br_sheet_complete (sheet, "1", 1, &start, NULL, take_word, NULL);
  br_sheet_complete (sheet, "1", 1, &start, &sign, NULL, NULL);
  assert_true (br_sheet_failing (NULL) == 0);
  br_sheet_set_keeper (NULL, NULL, NULL);
  br_sheet_set_painter (NULL, NULL, NULL);
  br_sheet_set_policy (NULL, NULL, NULL);
  assert_true (br_sheet_unsaved (NULL) == 0);
  assert_true (br_sheet_waiting (NULL) == 0);
  br_sheet_watch (NULL, NULL);
  assert_null (br_unit_find (NULL, 1));
  assert_string_equal (br_record_kind (NULL), "");
  assert_true (br_record_size (NULL) == 0 && br_list_size (NULL) == 0);
  assert_int_equal (br_record_at (NULL, 3).type, BR_FIELD_NULL);
  assert_int_equal (br_list_at (NULL, 3).type, BR_FIELD_NULL);
  assert_int_equal (br_record_get (NULL, "a").type, BR_FIELD_NULL);
  assert_int_equal (br_record_get (NULL, NULL).type, BR_FIELD_NULL);
  assert_string_equal (br_record_text (NULL, "a"), "");
  assert_string_equal (br_list_text (NULL, 0), "");
  assert_true (br_record_truth (NULL, "a") == 0 && br_record_count (NULL, "a") == -1);
  assert_true (!br_record_list (NULL, "a") && !br_list_record (NULL, 0));
  br_number_clear (NULL);
  br_real_clear (NULL);
  br_measure_clear (NULL);
  br_sheet_free (NULL);
  br_sheet_go_on (NULL);
  assert_int_equal (br_sheet_done (NULL), 0);
  assert_null (br_sheet_path (NULL));
}

/* A record's field without its key.  */
static void
take_record (void *user, const br_record *record)
{
  assert_int_equal (br_record_get (record, NULL).type, BR_FIELD_NULL);
  assert_string_equal (br_record_text (record, NULL), "");
  assert_true (br_record_truth (record, NULL) == 0 && br_record_count (record, NULL) == -1 && !br_record_list (record, NULL));
  ++*(int *) user;
}

/* What may be NULL.  */
static void
allowed (void **state)
{
  br_error error;
  (void) state;
  assert_int_equal (br_number_read (&number, NULL, 0, NULL), BR_SYNTAX);
  assert_int_equal (br_measure_read (&measure, NULL, 0, NULL, NULL), BR_SYNTAX);
  assert_int_equal (br_scale_read (&number, NULL, 0, NULL), BR_SYNTAX);
  assert_int_equal (br_real_read (&real, NULL, 0, NULL), BR_SYNTAX);
  check_ok (br_sheet_run (sheet, NULL, 0, NULL, 1, NULL));
  assert_int_equal (br_sheet_run (sheet, "2 +\nuse none.sheet\nopen none.sheet", 34, NULL, 1, NULL), BR_SYNTAX);
  assert_true (br_number_write (NULL, 0, &number) == 1 && br_number_write_mixed (NULL, 0, &number) == 1);
  assert_true (br_number_write_decimal (NULL, 0, NULL, &number, 3) == 1 && br_scale_write (NULL, 0, &(br_number) { 1, 1 }) == 3);
  assert_true (br_measure_write (NULL, 0, &number, BR_LENGTH, NULL) == 2);
  assert_null (br_real_question (&real, NULL));
  br_caution cautions[BR_MOST_CAUTIONS];
  check_ok (br_caution_workpiece (cautions, &start, NULL, NULL, NULL, 0, NULL));
  assert_int_equal (start, 0);
  assert_true (br_real_write_decimal (NULL, 0, NULL, &real, 3, 0, NULL) == 1);
  br_status status = BR_OK;
  assert_true (br_real_write_decimal (buffer, 1, NULL, NULL, 3, 0, &status) == SIZE_MAX);
  assert_int_equal (status, BR_DOMAIN);
  assert_int_equal (br_sheet_save (sheet, NULL, &error), BR_DOMAIN);
  assert_string_equal (error.message, "NULL was given where something is needed");
  int records = 0;
  check_ok (br_sheet_run (sheet, "1/2", 3, "test", 1, &(br_sink) { .user = &records, .record = take_record }));
  assert_int_equal (records, 1);
}

/* Nothing was changed by all that.  */
static void
unchanged (void **state)
{
  (void) state;
  assert_true (br_number_sign (&number) == 0 && real.node == NULL && br_number_sign (&real.rational) == 0);
  assert_true (mpq_sgn (q) == 0 && mpz_sgn (z) == 0 && mpfr_nan_p (f) && !other && sign == 0 && whole == 0);
  assert_true (!br_sheet_unsaved (sheet) && br_sheet_waiting (sheet) == 0);
}

static int
set_up (void **state)
{
  (void) state;
  mpq_init (q);
  mpz_init (z);
  mpfr_init2 (f, 64);
  return br_sheet_new (&sheet) != BR_OK;
}

static int
tear_down (void **state)
{
  (void) state;
  mpq_clear (q);
  mpz_clear (z);
  mpfr_clear (f);
  br_sheet_free (sheet);
  return 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (numbers), CHECK_TEST (measures), CHECK_TEST (reals), CHECK_TEST (trade), CHECK_TEST (more_trade), CHECK_TEST (cautions),
    CHECK_TEST (sheets), CHECK_TEST (choices), CHECK_TEST (without_status),
    CHECK_TEST (allowed), CHECK_TEST (unchanged),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, set_up, tear_down));
}
