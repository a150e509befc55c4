/* SPDX-License-Identifier: GPL-3.0-or-later
   problems.c - tests of generated problems: random numbers against published ones, answers against FLINT,
   worked steps one by one, wrong answers, and the difficulty of versions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../sheet/support.h"

#include <flint/flint.h>
#include <flint/fmpq.h>

#include "lesson/figure.h"
#include "lesson/worksheet.h"

/* The first numbers of splitmix64 from 1234567 and of xoshiro256** from 1, 2, 3, 4: as the test vectors
   of other libraries give them (from memory).  */
static void
test_random (void **state)
{
  static const uint64_t splitmix[] =
  {
    UINT64_C (6457827717110365317), UINT64_C (3203168211198807973), UINT64_C (9817491932198370423),
    UINT64_C (4593380528125082431), UINT64_C (16408922859458223821)
  };
  static const uint64_t xoshiro[] = { 11520, 0, 1509978240, UINT64_C (1215971899390074240) };
  br__random r = { { 1, 2, 3, 4 } };
  uint64_t x = 1234567;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (splitmix); i++)
    assert_true (br__splitmix (&x) == splitmix[i]);
  for (size_t i = 0; i < CHECK_COUNT (xoshiro); i++)
    assert_true (br__random_next (&r) == xoshiro[i]);
}

/* All numbers below 6 come, about equally often, and none else.  */
static void
test_below (void **state)
{
  br__random r;
  long counts[6] = { 0 };
  (void) state;
  br__random_start (&r, check_random (), 1, 1);
  for (int i = 0; i < 60000; i++)
    {
      uint64_t n = br__random_below (&r, 6);
      assert_true (n < 6);
      counts[n]++;
    }
  /* Six standard deviations of a binomial count, sqrt (60000 * 5 / 36), are 548.  */
  for (int i = 0; i < 6; i++)
    assert_in_range (counts[i], 9452, 10548);
}

/* The first numbers of stream (7, 3, 2), worked out once from the words of random.h by another
   program (Python's integers).  */
static void
test_stream (void **state)
{
  br__random r;
  (void) state;
  br__random_start (&r, 7, 3, 2);
  uint64_t first = br__random_next (&r), second = br__random_next (&r);
  assert_true (first == UINT64_C (6084345407525491205));
  assert_true (second == UINT64_C (14034986966913589164));
}

/* ---- Answers ---- */

static void
get (fmpq_t z, br__ratio x)
{
  fmpq_set_si (z, x.num, (ulong) x.den);
}

/* Z = the nearest multiple of 1 / LEVEL to X, which is no tie.  */
static void
nearest (fmpq_t z, const fmpq_t x, int64_t level)
{
  fmpq_t half;
  fmpz_t n;
  fmpq_init (half);
  fmpz_init (n);
  fmpq_set_si (half, 1, 2);
  fmpq_mul_si (z, x, level);
  fmpq_add (z, z, half);
  fmpz_fdiv_q (n, fmpq_numref (z), fmpq_denref (z));
  fmpq_set_fmpz (z, n);
  fmpz_set_si (n, level);
  fmpq_div_fmpz (z, z, n);
  fmpq_clear (half);
  fmpz_clear (n);
}

/* The formulas of the topics over the numbers G of the wording, K the kind; 0 where TOPIC is not of
   those.  */
static int
answer_of_numbers (fmpq_t z, const br__problem *p, fmpq_t g[4])
{
  unsigned k = p->kind_index;
  if (p->topic == &br__topic_reading)
    fmpq_mul (z, g[2], g[3]), fmpq_add (z, z, g[1]);
  else if (p->topic == &br__topic_decimals)
    {
      nearest (z, g[0], p->level);
      if (k)
        fmpq_sub (z, z, g[0]);
    }
  else if (p->topic == &br__topic_sums)
    k ? fmpq_sub (z, g[0], g[1]) : fmpq_add (z, g[0], g[1]);
  else if (p->topic == &br__topic_products)
    k % 2 ? fmpq_div (z, g[0], g[1]) : fmpq_mul (z, g[0], g[1]);
  else if (p->topic == &br__topic_scale)
    k ? fmpq_mul (z, g[0], g[1]) : fmpq_div (z, g[0], g[1]);
  else if (p->topic == &br__topic_known_size)
    fmpq_div (z, k ? g[1] : g[0], k ? g[0] : g[1]), fmpq_mul (z, z, g[2]);
  else
    return 0;
  return 1;
}

static void
answer_of_fender (fmpq_t z, unsigned k, fmpq_t g[4], const fmpq_t two)
{
  fmpq_div (z, k == 1 ? g[1] : g[0], two);
  if (k == 0 || k == 2)
    fmpq_add (z, z, g[1]);
  if (k == 2)
    fmpq_add (z, z, g[2]);
  if (k == 1)
    fmpq_sub (z, g[0], z);
  if (k == 3)
    fmpq_sub (z, g[0], g[1]);
}

/* How many pieces with their cuts, or what they leave.  */
static void
answer_of_stock (fmpq_t z, unsigned k, fmpq_t g[4])
{
  fmpq_t step;
  fmpz_t n;
  fmpq_init (step);
  fmpz_init (n);
  fmpq_add (step, g[1], g[2]);
  if (k)
    fmpq_mul (z, g[3], step), fmpq_sub (z, g[0], z);
  else
    {
      fmpq_add (z, g[0], g[2]);
      fmpq_div (z, z, step);
      fmpz_fdiv_q (n, fmpq_numref (z), fmpq_denref (z));
      fmpq_set_fmpz (z, n);
    }
  fmpq_clear (step);
  fmpz_clear (n);
}

static void
answer_of (fmpq_t z, const br__problem *p)
{
  fmpq_t g[4], one, two;
  fmpq_init (one), fmpq_init (two);
  fmpq_set_si (one, 1, 1), fmpq_set_si (two, 2, 1);
  for (int i = 0; i < 4; i++)
    {
      br__ratio zero = { 0, 1 };
      fmpq_init (g[i]);
      get (g[i], (unsigned) i < p->all ? p->given[i] : zero);
    }
  if (answer_of_numbers (z, p, g))
    ;
  else if (p->topic == &br__topic_fender)
    answer_of_fender (z, p->kind_index, g, two);
  else if (p->topic == &br__topic_stock)
    answer_of_stock (z, p->kind_index, g);
  else if (p->topic == &br__topic_dividing)
    {
      fmpq_sub (z, g[1], one);
      fmpq_mul (z, z, g[2]);
      fmpq_sub (z, g[0], z);
      fmpq_div (z, z, g[1]);
    }
  else if (p->topic == &br__topic_missing)
    {
      fmpq_sub (z, g[0], g[1]);
      p->kind_index ? fmpq_div (z, z, two) : fmpq_sub (z, z, g[2]);
    }
  else
    fail_msg ("%s: no formula", p->topic->name);
  for (int i = 0; i < 4; i++)
    fmpq_clear (g[i]);
  fmpq_clear (one), fmpq_clear (two);
}

/* Each step is an equation that holds, and the last one ends with the answer.  */
static void
check_steps (br_sheet *sheet, const br__task *t, const char *expression)
{
  said s = SAID_ZERO;
  const char *last = t->answer.bytes;
  for (size_t i = 0; i < t->steps.count; i++)
    {
      sheet_say (sheet, &s, "check %s", br__text_string (&t->steps.rows[i]));
      if (strcmp (said_get (&s, 0, "state"), "pass") != 0)
        fail_msg ("%s: the step %s does not hold", expression, br__text_string (&t->steps.rows[i]));
    }
  assert_true (t->steps.count > 0);
  last = strrchr (br__text_string (&t->steps.rows[t->steps.count - 1]), '=') + 1;
  sheet_say (sheet, &s, "check %s = %s", last, br__text_string (&t->answer) + (t->answer.bytes[0] == '+'));
  if (strcmp (said_get (&s, 0, "state"), "pass") != 0)
    fail_msg ("%s: the steps end with %s, the key says %s", expression, last, br__text_string (&t->answer));
  said_clear (&s);
}

/* At least three wrong answers, none of them right, no two alike.  */
static void
check_wrong (const br__problem *p)
{
  assert_true (p->wrong_count >= BR__WRONG_IN_KEY);
  for (unsigned i = 0; i < p->wrong_count; i++)
    {
      assert_true (br__ratio_cmp (p->wrong[i].value, p->answer) != 0);
      for (unsigned k = 0; k < i; k++)
        assert_true (br__ratio_cmp (p->wrong[i].value, p->wrong[k].value) != 0);
    }
}

/* What the key shows, the first three, are of different mistakes where there are different ones.  */
static void
check_key (const br__task *t)
{
  unsigned kinds = 0, shown = 0;
  for (unsigned i = 0; i < t->wrong_count; i++)
    {
      int known = 0;
      for (unsigned k = 0; k < i; k++)
        known |= t->mistake[k] == t->mistake[i];
      kinds += !known;
      shown += !known && i < BR__WRONG_IN_KEY;
    }
  assert_int_equal (shown, kinds < BR__WRONG_IN_KEY ? kinds : BR__WRONG_IN_KEY);
  assert_true (shown >= 2);
}

/* Metric sizes are five centimetres for two inches.  */
static void
check_between_inches (const br__problem *p, br__ratio x, int64_t low, int64_t high)
{
  br__ratio least = br__ratio_of (p->metric ? low * 5 : low, p->metric ? 2 : 1), most = br__ratio_of (p->metric ? high * 5 : high, p->metric ? 2 : 1);
  if (br__ratio_cmp (x, least) < 0 || br__ratio_cmp (x, most) > 0)
    fail_msg ("%s: %lld/%lld in is no size for that", p->topic->name, (long long) x.num, (long long) x.den);
}

/* Sizes that the things of the wording can have; counts of more than one, as the words are in the plural.  */
static void
check_sizes (const br__problem *p)
{
  for (unsigned i = 0; i < p->count; i++)
    assert_true (p->given[i].num > 0);
  assert_true (p->answer.num > 0 || p->kind->ask == BR__ASK_DECIMAL);
  if (p->topic == &br__topic_scale)
    {
      int back = p->kind_index == 1;
      int large = strstr (br__wording (p->topic->name, p->kind_index, p->scene), "{S}") != NULL;
      check_between_inches (p, back ? p->given[0] : p->answer, 10, large ? 288 : 48);
      check_between_inches (p, back ? p->answer : p->given[0], 1, 10);
    }
  else if (p->topic == &br__topic_known_size)
    {
      check_between_inches (p, p->given[0], 1, 9);
      check_between_inches (p, p->kind_index ? p->given[2] : p->answer, 2, 56);
    }
  else
    for (unsigned i = 0; i < p->count; i++)
      check_between_inches (p, p->given[i], 0, 96);
  if (p->topic == &br__topic_dividing || (p->topic == &br__topic_products && p->kind_index < 2))
    assert_true (p->given[1].num > p->given[1].den);
  if (p->topic == &br__topic_stock)
    {
      assert_true (p->kind_index ? p->given[3].num > 1 : p->answer.num > 1);
      assert_true (p->given[0].den == 1 && p->given[0].num % (p->metric ? 20 : 24) == 0);
    }
  /* No pupil takes a piece for longer than what it is sawn from.  */
  for (unsigned i = 0; i < p->wrong_count && p->kind->part; i++)
    if (br__ratio_cmp (p->wrong[i].value, p->given[0]) > 0)
      fail_msg ("%s: %s is more than there is", p->topic->name, br__mistake_name (p->wrong[i].mistake));
  if (p->topic == &br__topic_missing && p->kind_index)
    assert_true (br__ratio_cmp (p->answer, br__ratio_of (p->metric ? 18 : 3, p->metric ? 10 : 4)) > 0);
}

/* The numbers of the wording stand in it, nothing is left to fill in.  */
static void
check_wording (const br__problem *p, const char *text)
{
  assert_null (strpbrk (text, "{}"));
  for (unsigned i = 0; i < p->count && !p->topic->picture; i++)
    {
      /* In feet and inches, or in metres, they have other figures.  */
      if (p->feet && p->given[i].num >= (p->metric ? 100 : 12) * p->given[i].den)
        continue;
      br_text t = BR_TEXT_ZERO;
      if (p->topic == &br__topic_decimals && !p->metric)
        br__text_printf (&t, "%lld.%03lld", (long long) (p->given[0].num / 1000), (long long) (p->given[0].num % 1000));
      else
{
          char count[] = { '{', (char) ('0' + i), 'n', 0 };
          if (strstr (br__wording (p->topic->name, p->kind_index, p->scene), count))
            br__put_ratio (&t, p->given[i]);
          else
            br__put_size (&t, p, p->given[i], p->topic == &br__topic_decimals);
        }
      if (!strstr (text, br__text_string (&t)) && !(p->word && i == 1))
        fail_msg ("%s does not stand in: %s", br__text_string (&t), text);
      br__text_clear (&t);
    }
}

/* What the manual's table says of a level: the marks that sizes and answer lie on, and in `missing` what is carried.  A kerf is
   as a saw makes it, the size of a decimal lies on no mark, and a scale or a part is no size.  */
static void
check_level (const br__problem *p, br__ruler_of ruler, int64_t grade)
{
  int64_t marks = ruler.level;
  if (p->metric && grade && grade < 3)
    marks = grade == 1 ? 2 : 10;
  else if (grade && grade < 3 && p->topic != &br__topic_sums)
    marks = ruler.level * grade / 4 > 4 ? ruler.level * grade / 4 : 4;
  for (unsigned i = 0; i < p->count; i++)
    if (p->topic != &br__topic_decimals && !((p->topic == &br__topic_scale || p->topic == &br__topic_products) && i == 1)
        && !((p->topic == &br__topic_dividing || p->topic == &br__topic_stock) && i == 2))
      if (marks % p->given[i].den != 0)
        fail_msg ("%s %u, level %d, ruler %d: %d/%d", p->topic->name, p->kind_index, (int) grade, (int) ruler.level,
                  (int) p->given[i].num, (int) p->given[i].den);
  assert_true (p->kind->ask == BR__ASK_DECIMAL || p->kind->ask == BR__ASK_COUNT || marks % p->answer.den == 0);
  if (p->topic == &br__topic_missing && grade)
    {
      br__ratio a = p->given[0], b = p->given[1];
      unsigned carried = p->kind_index ? br__borrows (a, b) : br__carries (b, p->given[2]) + br__borrows (a, br__ratio_add (b, p->given[2]));
      assert_int_equal (carried > 0, grade > 2);
    }
}

/* How many steps its key has.  */
static size_t
check_problem (br_sheet *sheet, br__helper *h, const br__worksheet *w, size_t version, size_t i)
{
  const br__problem *p = &w->problems[version * w->problem_count + i];
  br__task t;
  br_text expression = BR_TEXT_ZERO;
  fmpq_t ours, theirs;
  fmpq_init (ours), fmpq_init (theirs);
  memset (&t, 0, sizeof t);
  check_ok (br__task_make (&t, h, w, version, i, 1));
  br__problem_expression (&expression, p);
  get (ours, p->answer);
  answer_of (theirs, p);
  if (!fmpq_equal (ours, theirs))
    fail_msg ("%s: %s is not %s", p->topic->name, br__text_string (&expression), br__text_string (&t.answer));
  if (p->kind->ask == BR__ASK_MARK)
    assert_true (p->level % p->answer.den == 0);
  if (p->kind->ask == BR__ASK_COUNT)
    assert_true (p->answer.den == 1);
  check_wrong (p);
  check_key (&t);
  check_sizes (p);
  check_wording (p, br__text_string (&t.text));
  check_steps (sheet, &t, br__text_string (&expression));
  size_t steps = t.steps.count;
  br__task_clear (&t);
  br__text_clear (&expression);
  fmpq_clear (ours), fmpq_clear (theirs);
  return steps;
}

/* No line of a figure runs through the words of a size, and all of them are in the picture: a letter is about 3/5 as wide as high,
   in a fraction less, unless that is PLAIN, as it is in HTML.  */
static void
check_figure (const br__problem *p, int32_t size, int plain)
{
  br__figure f;
  if (!br__has_figure (p))
    return;
  br__figure_make (&f, p, size, plain);
  /* Parts that are measured side by side have a longer bar beside large letters, with a line down to the size at both ends.  */
  if (p->topic == &br__topic_missing)
    {
      int32_t length = size == BR_PAGE_INCH / 4 && !plain ? BR_PAGE_INCH * 9 / 2 : BR_PAGE_INCH * 3, ends = 0;
      for (size_t k = 0; k < f.line_count; k++)
        ends += f.lines[k].x0 == f.lines[k].x1 && (f.lines[k].x0 == 0 || f.lines[k].x0 == length) && f.lines[k].y1 - f.lines[k].y0 > BR_PAGE_INCH / 4;
      assert_int_equal (ends, 2);
    }
  for (size_t i = 0; i < f.label_count; i++)
    {
      int32_t width = (int32_t) strlen (f.labels[i].text) * size * (!strchr (f.labels[i].text, '/') ? 60 : plain ? 54 : 40) / 100;
      int32_t left = f.labels[i].x - (f.labels[i].align == BR_ALIGN_LEFT ? 0 : f.labels[i].align == BR_ALIGN_RIGHT ? width : width / 2);
      int32_t top = f.labels[i].y + size * 3 / 10, bottom = f.labels[i].y + size;
      if (left <= -size || left + width > f.width)
        fail_msg ("%s %u: %s is out of the picture", p->topic->name, p->kind_index, f.labels[i].text);
      for (size_t k = 0; k < f.line_count; k++)
        if (f.lines[k].x0 < left + width && f.lines[k].x1 > left && f.lines[k].y0 < bottom && f.lines[k].y1 > top && !f.lines[k].dashed
            && p->topic != &br__topic_fender)
          fail_msg ("%s %u: a line runs through %s", p->topic->name, p->kind_index, f.labels[i].text);
    }
}

/* The rulers of worksheets that are tried: inches, inches told in feet, and millimetres.  */
static const br__ruler_of rulers[] = { { 4, 0, 1 }, { 8, 0, 0 }, { 16, 0, 0 }, { 32, 0, 0 }, { 64, 0, 1 }, { 10, 1, 0 }, { 20, 1, 1 } };

/* A worksheet of all topics, EACH problems of each.  */
static br__worksheet *
all_topics (int64_t seed, br__ruler_of ruler, int64_t grade, int64_t versions, int64_t each)
{
  br__worksheet *w = br__alloc_zero (1, sizeof *w);
  br_sheet sheet;
  br__run run = { .sheet = &sheet };
  memset (&sheet, 0, sizeof sheet);
  w->seed = seed;
  w->ruler = ruler;
  w->versions = versions;
  for (size_t i = 0; br__topic_at (i); i++)
    {
      w->rows[w->row_count].topic = br__topic_at (i);
      w->rows[w->row_count].grade = grade;
      w->rows[w->row_count++].count = each;
      w->problem_count += (size_t) each;
    }
  check_ok (br__worksheet_draw (w, &run));
  return w;
}

/* 14,000 problems: 7 rulers, 5 levels, 10 versions, 40 problems.  */
static void
test_answers (void **state)
{
  br__helper h;
  (void) state;
  check_ok (br__helper_start (&h));
  for (size_t r = 0; r < CHECK_COUNT (rulers); r++)
    for (int64_t grade = 0; grade <= BR__GRADES; grade++)
      {
        br__worksheet *w = all_topics (check_between (0, 1000000), rulers[r], grade, check_times (10), 1 + check_times (3));
        br_sheet *sheet = NULL;
        check_ok (br_sheet_new (&sheet));
        said s = SAID_ZERO;
        sheet_say (sheet, &s, "units %s", rulers[r].metric ? "mm" : "in");
        said_clear (&s);
        for (size_t i = 0; i < w->problem_count; i++)
          {
            /* Equally hard: as many steps in each version.  */
            size_t first = 0;
            for (size_t v = 0; v < (size_t) w->versions; v++)
              {
                check_level (&w->problems[v * w->problem_count + i], rulers[r], grade);
                check_figure (&w->problems[v * w->problem_count + i], BR_PAGE_INCH / 4, 0);
                check_figure (&w->problems[v * w->problem_count + i], BR_PAGE_INCH / 4, 1);
                check_figure (&w->problems[v * w->problem_count + i], BR_PAGE_INCH / 8, 0);
                check_figure (&w->problems[v * w->problem_count + i], BR_PAGE_INCH / 8, 1);
                size_t steps = check_problem (sheet, &h, w, v, i);
                first = v ? first : steps;
                assert_int_equal (steps, first);
              }
          }
        br_sheet_free (sheet);
        br__worksheet_free (w);
      }
  br__helper_end (&h);
}

/* Each topic has 24 wordings, no two alike.  */
static void
test_wordings (void **state)
{
  (void) state;
  for (size_t i = 0; br__topic_at (i); i++)
    {
      const br__topic *topic = br__topic_at (i);
      unsigned count = 0;
      for (unsigned k = 0; k < topic->kind_count; k++)
        {
          unsigned n = br__wording_count (topic->name, k);
          count += n;
          for (unsigned a = 0; a < n; a++)
            for (unsigned b = 0; b < a; b++)
              assert_string_not_equal (br__wording (topic->name, k, a), br__wording (topic->name, k, b));
        }
      assert_int_equal (count, 24);
    }
}

/* ---- Versions ---- */

/* What can be counted in the wording itself: its numbers, their denominators and their digits.  */
static void
shape_of_text (br_text *t, const char *text)
{
  while (*text)
    if (*text >= '0' && *text <= '9')
      {
        size_t n = strspn (text, "0123456789");
        if (text[n] == '/' && text[n + 1] >= '0' && text[n + 1] <= '9')
          {
            size_t d = strspn (text + n + 1, "0123456789");
            br__text_printf (t, "f/%.*s ", (int) d, text + n + 1);
            n += 1 + d;
          }
        else
          br__text_printf (t, "%zu ", n);
        text += n;
      }
    else
      {
        br__text_putc (t, *text);
        text++;
      }
}

/* Every version has the measures of the first, the same words, numbers of the same make, and is not
   the one beside it.  */
static void
test_versions (void **state)
{
  const size_t versions = 2 + (size_t) check_times (38);
  (void) state;
  for (size_t r = 0; r < CHECK_COUNT (rulers); r++)
    {
      br__worksheet *w = all_topics (check_between (0, 1000000), rulers[r], (int64_t) r % (BR__GRADES + 1), (int64_t) versions, 4);
      size_t alike = 0;
      for (size_t i = 0; i < w->problem_count; i++)
        for (size_t v = 1; v < versions; v++)
          {
            const br__problem *p = &w->problems[i], *q = &w->problems[v * w->problem_count + i], *before = q - w->problem_count;
            br__difficulty d, e;
            br_text s = BR_TEXT_ZERO, t = BR_TEXT_ZERO, x = BR_TEXT_ZERO, y = BR_TEXT_ZERO;
            br__problem_measure (&d, p);
            br__problem_measure (&e, q);
            assert_memory_equal (&d, &e, sizeof d);
            br__problem_tell (&s, p, NULL);
            br__problem_tell (&t, q, NULL);
            shape_of_text (&x, br__text_string (&s));
            shape_of_text (&y, br__text_string (&t));
            assert_string_equal (br__text_string (&x), br__text_string (&y));
            assert_true (p->kind == q->kind && p->scene == q->scene);
            if (memcmp (q->given, before->given, sizeof q->given) == 0 && alike++ == 0)
              print_error ("ruler %zu: version %zu is the one before: %s\n", r, v, br__text_string (&t));
            br__text_clear (&s), br__text_clear (&t), br__text_clear (&x), br__text_clear (&y);
          }
      /* Coarse rulers have few numbers of one difficulty, but neighbours differ all the same.  */
      assert_int_equal (alike, 0);
      br__worksheet_free (w);
    }
}

/* The same seed draws the same, another something else.  */
static void
test_seeds (void **state)
{
  br__worksheet *a = all_topics (11, rulers[1], 0, 5, 4), *b = all_topics (11, rulers[1], 0, 5, 4), *c = all_topics (12, rulers[1], 0, 5, 4);
  size_t n = 5 * a->problem_count, differ = 0;
  (void) state;
  assert_memory_equal (a->problems, b->problems, n * sizeof *a->problems);
  for (size_t i = 0; i < n; i++)
    differ += memcmp (a->problems[i].given, c->problems[i].given, sizeof a->problems[i].given) != 0;
  assert_true (differ > n * 9 / 10);
  br__worksheet_free (a);
  br__worksheet_free (b);
  br__worksheet_free (c);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_random), CHECK_TEST (test_below), CHECK_TEST (test_stream), CHECK_TEST (test_answers), CHECK_TEST (test_wordings),
    CHECK_TEST (test_versions), CHECK_TEST (test_seeds)
  };
  return CHECK_RUN (tests);
}
