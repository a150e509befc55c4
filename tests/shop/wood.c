/* SPDX-License-Identifier: GPL-3.0-or-later
   wood.c - published sizes of lumber, panels and paper, standard scales, and equal spacing.  */
#include "shop/paper.h"
#include "shop/spacing.h"
#include "shop/stock.h"
#include "support.h"

/* X := shop notation such as 1-1/2.  */
static void
read_shop (br_number *x, const char *text)
{
  br_measure m = BR_MEASURE_ZERO;
  check_ok (br_measure_read (&m, text, strlen (text), NULL, NULL));
  br_number_swap (x, &m.value);
  br_measure_clear (&m);
}

static void
lumber_row (const char *nominal, const char *thickness, const char *width)
{
  br_number t = BR_NUMBER_ZERO, w = BR_NUMBER_ZERO, wanted = BR_NUMBER_ZERO;
  char *end;
  long a = strtol (nominal, &end, 10), b = strtol (end + 1, NULL, 10);
  for (int turned = 0; turned < 2; turned++)
    {
      check_ok (br__nominal_lumber (&t, &w, turned ? b : a, turned ? a : b));
      read_shop (&wanted, thickness);
      assert_true (br_number_equal (&t, &wanted));
      read_shop (&wanted, width);
      assert_true (br_number_equal (&w, &wanted));
    }
}

static void
nominal_sizes (void **state)
{
  check_data data;
  int rows[3] = { 0, 0, 0 };
  br_number x = BR_NUMBER_ZERO, wanted = BR_NUMBER_ZERO;
  (void) state;
  check_open (&data, "lumber.txt", ' ');
  while (check_next (&data))
    {
      int kind = data.field[0][0] == 'l' ? 0 : data.field[0][0] == 'p' ? 1 : 2;
      rows[kind]++;
      if (kind == 0)
        {
          lumber_row (data.field[1], data.field[2], data.field[3]);
          continue;
        }
      read_shop (&x, data.field[1]);
      check_ok (br__nominal_thickness (&x, kind == 1 ? BR__PLYWOOD : BR__HARDWOOD, &x));
      read_shop (&wanted, data.field[2]);
      assert_true (br_number_equal (&x, &wanted));
    }
  assert_true (rows[0] >= 30 && rows[1] == 5 && rows[2] == 13);
  assert_non_null (strstr (br__nominal_source (BR__LUMBER), "PS 20"));
  assert_non_null (strstr (br__nominal_source (BR__HARDWOOD), "NHLA"));
}

/* NHLA rules, S2S standard thickness: 3/16 in under nominal up to 6/4, 1/4 in under from 7/4.  */
static void
hardwood_rule (void **state)
{
  static const char *const nominal[] =
    { "3/8", "1/2", "5/8", "3/4", "1", "5/4", "3/2", "7/4", "2", "5/2", "3", "7/2", "4" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (nominal); i++)
    {
      br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO;
      check_set (&x, nominal[i]);
      check_ok (br__nominal_thickness (&y, BR__HARDWOOD, &x));
      check_ok (br_number_sub (&x, &x, &y));
      check_is (&x, i < 7 ? "3/16" : "1/4");
    }
}

static void
no_such_size (void **state)
{
  static const int64_t pairs[][2] =
    { { 0, 4 }, { 1, 13 }, { 2, 0 }, { 5, 25 }, { 2, 100 }, { -2, 4 }, { 4, 5000 } };
  br_number t = BR_NUMBER_ZERO, w = BR_NUMBER_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (pairs); i++)
    assert_int_equal (br__nominal_lumber (&t, &w, pairs[i][0], pairs[i][1]), BR_DOMAIN);
  check_set (&t, "7/9");
  assert_int_equal (br__nominal_thickness (&w, BR__PLYWOOD, &t), BR_DOMAIN);
  check_set (&t, "-3/4");
  assert_int_equal (br__nominal_thickness (&w, BR__HARDWOOD, &t), BR_DOMAIN);
  check_set (&t, "123456789012345678901234567890");
  assert_int_equal (br__nominal_thickness (&w, BR__HARDWOOD, &t), BR_DOMAIN);
  check_is (&w, "0");
  br_number_clear (&t);
}

static void
paper_sizes (void **state)
{
  check_data data;
  size_t rows = 0;
  br_number side[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO }, inch = BR_NUMBER_ZERO, x = BR_NUMBER_ZERO;
  (void) state;
  check_set (&inch, "127/5");
  check_open (&data, "paper.txt", ' ');
  for (; check_next (&data); rows++)
    {
      const br__paper *p = br__paper_find (data.field[0], strlen (data.field[0]));
      assert_non_null (p);
      for (int i = 0; i < 2; i++)
        {
          read_shop (&side[i], data.field[2 + i]);
          if (strcmp (data.field[1], "mm") == 0)
            check_ok (br_number_div (&side[i], &side[i], &inch));
        }
      if (br_number_cmp (&side[0], &side[1]) > 0)       /* ledger is tabloid on its side */
        br_number_swap (&side[0], &side[1]);
      check_ok (br_number_set_ratio (&x, p->width_num, p->width_den));
      assert_true (br_number_equal (&x, &side[0]));
      check_ok (br_number_set_ratio (&x, p->height_num, p->height_den));
      assert_true (br_number_equal (&x, &side[1]));
    }
  assert_int_equal (rows, br__paper_count);
  assert_ptr_equal (br__paper_find ("A4", 2), br__paper_find ("a4", 2));
  assert_null (br__paper_find ("a6", 2));
  assert_null (br__paper_find ("lette", 5));
  assert_null (br__paper_find ("letters", 7));
}

/* ISO 5455:1979, 5.1: 50:1 20:1 10:1 5:1 2:1, 1:1, 1:2 1:5 1:10 ... 1:10000.  The customary inch scales are
   those of the triangular scale, 12 in over the inches that stand for a foot; 6 in and 12 in = 1 ft are 1:2
   and 1:1.  */
static void
scales (void **state)
{
  static const int64_t iso[][2] =
    { { 50, 1 }, { 20, 1 }, { 10, 1 }, { 5, 1 }, { 2, 1 }, { 1, 1 }, { 1, 2 }, { 1, 5 }, { 1, 10 },
      { 1, 20 }, { 1, 50 }, { 1, 100 }, { 1, 200 }, { 1, 500 }, { 1, 1000 }, { 1, 2000 }, { 1, 5000 },
      { 1, 10000 } };
  const br__scale_row *row, *before = NULL;
  size_t i;
  (void) state;
  for (i = 0; (row = br__scale_at (i, 0)) != NULL; i++)
    {
      assert_true (i < CHECK_COUNT (iso));
      assert_true (row->drawn == iso[i][0] && row->full == iso[i][1] && !row->words);
    }
  assert_int_equal (i, CHECK_COUNT (iso));
  for (i = 0; (row = br__scale_at (i, 1)) != NULL; i++, before = row)
    {
      br_number ratio = BR_NUMBER_ZERO, read = BR_NUMBER_ZERO;
      assert_true (!before || row->drawn * before->full < before->drawn * row->full);
      if (!row->words)
        continue;
      check_ok (br_number_set_ratio (&ratio, row->drawn, row->full));
      check_ok (br_scale_read (&read, row->words, strlen (row->words), NULL));
      assert_true (br_number_equal (&ratio, &read));
    }
  assert_int_equal (i, CHECK_COUNT (iso) + 11);
}

/* Line to line is in.  */
static void
fits_to_the_line (void **state)
{
  br_real w = BR_REAL_ZERO, h = BR_REAL_ZERO;
  br_number room_w = BR_NUMBER_ZERO, room_h = BR_NUMBER_ZERO;
  const br__scale_row half = { 1, 2, NULL };
  int fits = -1;
  (void) state;
  check_set (&room_w, "15/2");
  check_set (&room_h, "10");
  shop_ratio (&w, 15, 1);
  shop_ratio (&h, 20, 1);
  check_ok (br__scale_fits (&fits, &half, &w, &h, &room_w, &room_h, 0));
  assert_int_equal (fits, 1);
  shop_nudge (&h, 1, 1000000000);
  check_ok (br__scale_fits (&fits, &half, &w, &h, &room_w, &room_h, 0));
  assert_int_equal (fits, 0);
  shop_root (&h, 400, 1);
  check_ok (br__scale_fits (&fits, &half, &w, &h, &room_w, &room_h, 0));
  assert_int_equal (fits, 1);
  br_real_clear (&w);
  br_real_clear (&h);
}

/* ---- Spacing ---- */

static void
divides (const char *length, int64_t count, const char *kerf, const char *piece)
{
  br_real l = BR_REAL_ZERO, k = BR_REAL_ZERO, p = BR_REAL_ZERO;
  shop_set (&l, length, strlen (length));
  shop_set (&k, kerf, strlen (kerf));
  check_ok (br__divide (&p, &l, count, &k, 0));
  shop_is (&p, piece);
}

static void
spaces (const char *length, int64_t count, const char *width, const char *ends, const char *gap)
{
  br_real l = BR_REAL_ZERO, w = BR_REAL_ZERO, e = BR_REAL_ZERO, g = BR_REAL_ZERO;
  shop_set (&l, length, strlen (length));
  shop_set (&w, width, strlen (width));
  if (ends)
    shop_set (&e, ends, strlen (ends));
  check_ok (br__space (&g, &l, count, &w, ends ? &e : NULL, 0));
  shop_is (&g, gap);
}

/* Boards and openings from textbooks and common exercises, as each line says.  */
static void
textbook (void **state)
{
  (void) state;
  divides ("27", 6, "0", "9/2");        /* OpenStax Prealgebra 2e: 3/4 yd in 6 parts are 4-1/2 in each */
  divides ("213", 3, "0", "71");        /* Burzynski and Ellis: 5 yd 2 ft 9 in / 3 is 1 yd 2 ft 11 in */
  divides ("96", 3, "1/8", "383/12");   /* common exercise, no source: 31-11/12 in */
  divides ("120", 7, "0", "120/7");     /* common exercise, no source: 17-1/7 in */
  divides ("11/4", 3, "0", "11/12");    /* common exercise, no source */
  /* Sawmill knowledge base: 12 boards of 1-1/8 in with 11 kerfs of 5/32 in take 15-7/32 in.  */
  divides ("487/32", 12, "5/32", "9/8");
  spaces ("33", 4, "5", "2", "3");      /* homework thread: 4 plaques of 5 in, 2 in at the ends */
  spaces ("36", 4, "2", NULL, "28/5");  /* common exercise, no source: 4 slats of 2 in in 36 in */
  spaces ("32", 3, "0", NULL, "8");     /* common exercise, no source: 3 hooks */
  spaces ("384", 33, "0", "0", "12");   /* The Builders' Guide: 32 ft at 12 in take 33 joists */
}

/* The last piece ends where the length does, and each mark is its own sum and not one of roundings.  */
static void
marks_from_one_end (void **state)
{
  (void) state;
  for (long n = 0; n < check_times (300); n++)
    {
      br_real l = BR_REAL_ZERO, k = BR_REAL_ZERO, p = BR_REAL_ZERO, m = BR_REAL_ZERO, sum = BR_REAL_ZERO;
      int64_t count = check_between (1, 40);
      shop_random (&l, 200);
      shop_ratio (&k, check_between (0, 3), 64 * 50);
      if (br__divide (&p, &l, count, &k, 0) != BR_OK)
        continue;
      for (int64_t i = 0; i < count; i++)
        {
          check_ok (br_real_add (&sum, &sum, &p));
          check_ok (br__divide_mark (&m, &p, &k, i));
          shop_same (&m, &sum);
          check_ok (br_real_add (&sum, &sum, &k));
        }
      shop_same (&m, &l);
      /* Things of width K: behind the last is one more gap.  */
      check_ok (br__space (&p, &l, count, &k, NULL, 0));
      check_ok (br__space_mark (&m, &p, &k, NULL, count - 1));
      check_ok (br_real_add (&m, &m, &k));
      check_ok (br_real_add (&m, &m, &p));
      shop_same (&m, &l);
      br_real_clear (&l);
      br_real_clear (&p);
      br_real_clear (&m);
      br_real_clear (&sum);
    }
}

static void
no_room (void **state)
{
  br_real l = BR_REAL_ZERO, k = BR_REAL_ZERO, z = BR_REAL_ZERO;
  (void) state;
  shop_ratio (&l, 10, 1);
  shop_ratio (&k, 5, 1);
  assert_int_equal (br__divide (&z, &l, 3, &k, 0), BR_DOMAIN);
  assert_int_equal (br__divide (&z, &l, 0, &k, 0), BR_DOMAIN);
  assert_int_equal (br__space (&z, &l, 3, &k, NULL, 0), BR_DOMAIN);
  check_ok (br__space (&z, &l, 2, &k, NULL, 0));
  shop_is (&z, "0");
  assert_int_equal (br__space (&z, &l, 1, &k, &k, 0), BR_DOMAIN);
  shop_ratio (&l, 15, 1);
  check_ok (br__space (&z, &l, 1, &k, &k, 0));
  shop_ratio (&k, -1, 1);
  assert_int_equal (br__divide (&z, &l, 2, &k, 0), BR_DOMAIN);
  assert_int_equal (br__space (&z, &l, 2, &k, NULL, 0), BR_DOMAIN);
  shop_is (&z, "0");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (nominal_sizes), CHECK_TEST (hardwood_rule), CHECK_TEST (no_such_size),
    CHECK_TEST (paper_sizes), CHECK_TEST (scales), CHECK_TEST (fits_to_the_line), CHECK_TEST (textbook),
    CHECK_TEST (marks_from_one_end), CHECK_TEST (no_room),
  };
  return CHECK_RUN (tests);
}
