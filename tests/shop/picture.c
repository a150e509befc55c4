/* SPDX-License-Identifier: GPL-3.0-or-later
   picture.c - side views in characters: they stay on the page, stand on the floor, look the
   same left and right, and never cut a number.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/picture.h"
#include "support.h"

#define PAGE_COLUMNS 78
#define PAGE_LINES 16

typedef struct page
{
  br_text text;
  size_t lines;
  char cell[64][160];   /* padded with blanks */
} page;

/* Takes the page apart; every line of the picture proper is at most PAGE_COLUMNS wide.  */
static void
page_read (page *p)
{
  const char *from = br__text_string (&p->text), *end;

  memset (p->cell, 0, sizeof p->cell);
  for (p->lines = 0; *from != 0; from = end + 1)
    {
      end = strchr (from, '\n');
      assert_non_null (end);
      assert_in_range (p->lines, 0, 63);
      assert_in_range (end - from, 0, 159);
      memset (p->cell[p->lines], ' ', 159);
      memcpy (p->cell[p->lines], from, (size_t) (end - from));
      assert_true (p->lines >= PAGE_LINES || end - from <= PAGE_COLUMNS);
      assert_true (end == from || end[-1] != ' ');
      p->lines++;
    }
}

static void
draw_fender (page *p, const char *sizes, const br_style *style)
{
  shop_args args;

  shop_read (&args, sizes);
  br__text_reset (&p->text);
  check_ok (br__picture_fender (&p->text, &args.value[0].rational, &args.value[1].rational,
                                &args.value[2].rational, style));
  shop_clear (&args);
  page_read (p);
}

static void
draw_wheels (page *p, const char *sizes, const br_style *style)
{
  shop_args args;
  br_real gap = BR_REAL_ZERO;

  shop_read (&args, sizes);
  check_ok (br__shop_value (&gap, shop_find ("wheel_gap"), args.pointer, 0, NULL));
  br__text_reset (&p->text);
  check_ok (br__picture_wheels (&p->text, &args.value[0].rational, &args.value[1].rational,
                                &args.value[2].rational, &gap, style, 0));
  br_real_clear (&gap);
  shop_clear (&args);
  page_read (p);
}

static int
shows (const page *p, const char *what)
{
  return strstr (br__text_string (&p->text), what) != NULL;
}

/* The row and column of the only or first '+', which is an axle.  */
static void
find_axle (const page *p, size_t *line, size_t *column, size_t from)
{
  *column = from;
  for (*line = 0; *line < p->lines; ++*line)
    for (*column = from; *column < PAGE_COLUMNS; ++*column)
      if (p->cell[*line][*column] == '+')
        return;
  fail_msg ("no axle in\n%s", br__text_string (&p->text));
}

/* Around the axle wheel and fender look the same on the left and on the right.  */
static void
is_even (const page *p, size_t axle)
{
  size_t line, i;

  for (line = 0; line < p->lines && p->cell[line][0] != '='; line++)
    for (i = 1; i <= axle; i++)
      {
        char left = p->cell[line][axle - i], right = p->cell[line][axle + i];

        if ((left == 'o' || left == '#' || left == 'x') && left != right)
          fail_msg ("line %zu is not even in\n%s", line, br__text_string (&p->text));
      }
}

/* The market cart: wheel 3-1/2, gap 5/16 or 9/16, fender 3/8.  */
static void
cart_fender (void **state)
{
  page p = { .text = BR_TEXT_ZERO };
  const br_style mm = { br_unit_find ("mm", 2), 0 };
  size_t line, column;

  (void) state;
  draw_fender (&p, "7/2 5/16 3/8", NULL);
  assert_int_equal (p.lines, PAGE_LINES);
  assert_true (shows (&p, "wheel, diameter 3-1/2\"\n"));
  assert_true (shows (&p, "gap 5/16\"\n"));
  assert_true (shows (&p, "fender, width 3/8\"\n"));
  assert_true (shows (&p, "inner radius 2-1/16\"\n"));
  assert_true (shows (&p, "outer radius 2-7/16\"\n"));
  assert_false (shows (&p, "thicker"));
  find_axle (&p, &line, &column, 0);
  is_even (&p, column);
  /* From the axle up: the wheel's edge, a gap to be seen, the fender.  */
  while (p.cell[line][column] != 'o')
    line--;
  assert_int_equal (p.cell[line - 1][column], ' ');
  assert_int_equal (p.cell[line - 2][column], '#');
  draw_fender (&p, "7/2 9/16 3/8", NULL);
  assert_true (shows (&p, "inner radius 2-5/16\"\n"));
  draw_fender (&p, "7/2 5/16 3/8", &mm);
  assert_true (shows (&p, "wheel, diameter 88.9 mm\n"));
  br__text_clear (&p.text);
}

static void
fender_overlap (void **state)
{
  page p = { .text = BR_TEXT_ZERO };

  (void) state;
  draw_fender (&p, "7/2 -3/8 3/4", NULL);
  assert_true (shows (&p, "overlap 3/8\"\n"));
  assert_true (shows (&p, "xxx"));
  draw_fender (&p, "7/2 1/64 1/64", NULL);
  assert_true (shows (&p, "thicker"));
  assert_true (shows (&p, "#"));
  br__text_clear (&p.text);
}

static void
cart_wheels (void **state)
{
  page p = { .text = BR_TEXT_ZERO };
  size_t line, column, floor, second;

  (void) state;
  draw_wheels (&p, "8 7/2 7/2", NULL);
  assert_true (shows (&p, "- daylight 4-1/2\" -"));
  assert_true (shows (&p, "wheelbase 8\""));
  find_axle (&p, &line, &column, 0);
  find_axle (&p, &line, &second, column + 1);
  is_even (&p, column);
  draw_wheels (&p, "8 7/2 5/2", NULL);
  assert_true (shows (&p, "daylight about 5.01561 in"));
  assert_true (shows (&p, "front 3-1/2\""));
  assert_true (shows (&p, "rear 2-1/2\""));
  for (floor = 0; p.cell[floor][0] != '='; floor++)
    assert_true (floor < p.lines);
  /* Both wheels stand on the floor under their axles.  */
  find_axle (&p, &line, &column, 0);
  assert_int_equal (p.cell[floor - 1][column], 'o');
  find_axle (&p, &line, &second, column + 1);
  assert_int_equal (p.cell[floor - 1][second], 'o');
  draw_wheels (&p, "2 2 7", NULL);
  assert_true (shows (&p, "overlap about 1.29844 in"));
  assert_true (shows (&p, "x"));
  br__text_clear (&p.text);
}

/* Any sizes, also absurd ones, keep the page and the numbers.  */
static void
random_sizes (void **state)
{
  page p = { .text = BR_TEXT_ZERO };
  char sizes[200], label[100];
  int64_t n[3], d[3];
  br_number x = BR_NUMBER_ZERO;
  size_t i, line, column;
  long times;

  (void) state;
  for (times = check_times (300); times > 0; times--)
    {
      for (i = 0; i < 3; i++)
        {
          n[i] = check_between (1, times % 3 == 0 ? 1000000 : 600);
          d[i] = INT64_C (1) << check_below (7);
        }
      snprintf (sizes, sizeof sizes, "%" PRId64 "/%" PRId64 " %" PRId64 "/%" PRId64 " %" PRId64
                "/%" PRId64, n[0], d[0], n[1], d[1], n[2], d[2]);
      check_ok (br_number_set_ratio (&x, n[0], d[0]));
      br_measure_write (label, sizeof label, &x, BR_LENGTH, NULL);
      draw_fender (&p, sizes, NULL);
      assert_true (shows (&p, label));
      find_axle (&p, &line, &column, 0);
      is_even (&p, column);
      draw_wheels (&p, sizes, NULL);
      assert_true (shows (&p, label));
    }
  br_number_clear (&x);
  br__text_clear (&p.text);
}

/* A number too long for the page stands under the picture, whole.  */
static void
long_numbers (void **state)
{
  page p = { .text = BR_TEXT_ZERO };

  (void) state;
  draw_fender (&p, "7000000000000000001/2000000000000000003 5/16 3/8", NULL);
  assert_true (shows (&p, "wheel, diameter 3-999999999999999992/2000000000000000003\""));
  assert_true (shows (&p, "2000000000000000003"));
  br__text_clear (&p.text);
}

/* A fender into TEXT, which keeps nothing where it fails.  */
static br_status
draw_or_nothing (br_text *text, const shop_args *args)
{
  br_status status = br__picture_fender (text, &args->value[0].rational, &args->value[1].rational,
                                         &args->value[2].rational, NULL);

  if (status != BR_OK)
    br__text_clear (text);
  return status;
}

static void
faults (void **state)
{
  static const char *const bad[] = { "0 1 1", "-1 1 1", "7/2 -7/4 1", "7/2 1/4 0", "7/2 1/4 -1" };
  br_text text = BR_TEXT_ZERO;
  shop_args args;
  br_real gap = { { 1, 0 }, NULL };
  br_status status;
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (bad); i++)
    {
      shop_read (&args, bad[i]);
      assert_int_equal (br__picture_fender (&text, &args.value[0].rational, &args.value[1].rational,
                                            &args.value[2].rational, NULL), BR_DOMAIN);
      assert_int_equal (br__picture_wheels (&text, &args.value[0].rational, &args.value[1].rational,
                                            &args.value[2].rational, &gap, NULL, 0),
                        BR_DOMAIN);
      assert_string_equal (br__text_string (&text), "");
      shop_clear (&args);
    }
  shop_read (&args, "7/2 1/4 3/8");
  CHECK_EACH_REFUSAL (status, status = draw_or_nothing (&text, &args), 1);
  br__text_clear (&text);
  shop_clear (&args);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (cart_fender), CHECK_TEST (fender_overlap), CHECK_TEST (cart_wheels),
    CHECK_TEST (random_sizes), CHECK_TEST (long_numbers), CHECK_TEST (faults),
  };
  return CHECK_RUN (tests);
}
