/* SPDX-License-Identifier: GPL-3.0-or-later
   practice.c - pupils who practise: one who misses all, one who is always right, and one who misses one topic.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#include "lesson/practice.h"

#define MOST 240
#define TOPICS 10

/* What a pupil was asked, and of which card.  */
typedef struct course
{
  size_t card[MOST], cards, count;
  unsigned topic[MOST];
  char text[MOST][300];
  int64_t due[MOST], waiting[MOST];     /* of the card; how many others were due longer */
} course;

static unsigned
topic_number (const br__topic *topic)
{
  unsigned i = 0;
  while (br__topic_at (i) != topic)
    i++;
  return i;
}

/* COUNT problems of what LINE begins; those of WEAK ("all", "" or a topic) are missed.  */
static course *
practise (const char *line, size_t count, const char *weak)
{
  course *c = calloc (1, sizeof *c);
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  assert_non_null (c);
  check_ok (br_sheet_new (&sheet));
  sheet_say (sheet, &s, "%s", line);
  for (c->count = 0; c->count < count; c->count++)
    {
      br__practice *p = sheet->practice;
      size_t n = c->count;
      char answer[100];
      c->cards = p->count;
      c->card[n] = (size_t) (p->card - p->cards);
      c->topic[n] = topic_number (p->card->topic);
      c->due[n] = p->card->asked ? p->card->due : -1;
      for (size_t i = 0; i < p->count; i++)
        c->waiting[n] += p->cards[i].asked && p->cards[i].due <= p->answered && p->cards[i].due < p->card->due;
      snprintf (c->text[n], sizeof c->text[n], "%s", br__text_string (&p->task.text));
      snprintf (answer, sizeof answer, "%s", br__text_string (&p->task.answer));
      sheet_say (sheet, &s, "%s", strcmp (weak, "all") == 0 || strcmp (weak, p->card->topic->name) == 0 ? "skip" : answer);
      said_is (&s, 1, "kind", "practice_problem");
    }
  said_clear (&s);
  br_sheet_free (sheet);
  return c;
}

static size_t
topics_among (const course *c, size_t count)
{
  size_t found = 0;
  for (unsigned t = 0; t < TOPICS; t++)
    {
      int here = 0;
      for (size_t i = 0; i < count; i++)
        here |= c->topic[i] == t;
      found += here != 0;
    }
  return found;
}

/* How often CARD was asked; *LONGEST is the most problems from one time to the next, or to the end.  */
static size_t
times (size_t *longest, const course *c, size_t card)
{
  size_t n = 0, last = 0;
  *longest = 0;
  for (size_t i = 0; i <= c->count; i++)
    if (i == c->count || c->card[i] == card)
      {
        *longest = i - last > *longest ? i - last : *longest;
        last = i;
        n += i < c->count;
      }
  return n;
}

/* All topics come, the second kinds as well, and then all by turns.  */
static void
test_misses_all (void **state)
{
  course *c = practise ("practice", 120, "all");
  size_t longest;
  (void) state;
  assert_int_equal (topics_among (c, 15), TOPICS);
  for (size_t k = 0; k < c->cards; k++)
    {
      assert_in_range (times (&longest, c, k), 3, 8);
      assert_in_range (longest, 1, 50);
    }
  free (c);
}

/* What is due comes soon after, and no card before it is due while another waits.  */
static void
test_always_right (void **state)
{
  course *c = practise ("practice", MOST, "");
  size_t longest;
  (void) state;
  assert_int_equal (topics_among (c, 20), TOPICS);
  for (size_t i = 0; i < c->count; i++)
    if (c->due[i] >= 0)
      {
        assert_true ((int64_t) i - c->due[i] <= 12);
        if (c->due[i] > (int64_t) i)
          assert_int_equal (c->waiting[i], 0);
      }
  for (size_t k = 0; k < c->cards; k++)
    assert_in_range (times (&longest, c, k), 6, 14);
  free (c);
}

/* A mistake comes again sooner than the rest, but does not keep the rest from coming again.  */
static void
test_misses_one_topic (void **state)
{
  course *c = practise ("practice", 180, "reading");
  size_t longest, missed = 0;
  (void) state;
  assert_int_equal (topics_among (c, 20), TOPICS);
  for (size_t i = 0; i < c->count; i++)
    missed += c->topic[i] == 0;
  assert_in_range (missed, 45, 75);
  for (size_t k = 0; k < c->cards; k++)
    {
      size_t n = times (&longest, c, k);
      assert_in_range (n, k < 2 ? 20 : 4, k < 2 ? 40 : 10);
      assert_in_range (longest, k < 2 ? 4 : 20, k < 2 ? 20 : 60);
    }
  free (c);
}

/* A line of TEXT without its numbers.  */
static void
without_numbers (char *text)
{
  char *to = text;
  for (; *text; text++)
    if (!strchr ("0123456789/-", *text))
      *to++ = *text;
  *to = 0;
}

static size_t
different_texts (const course *c)
{
  size_t n = 0;
  for (size_t i = 0; i < c->count; i++)
    {
      int known = 0;
      for (size_t k = 0; k < i; k++)
        known |= strcmp (c->text[i], c->text[k]) == 0;
      n += !known;
    }
  return n;
}

/* One topic: other words and other numbers each time.  */
static void
test_new_words (void **state)
{
  course *c = practise ("practice sums level 1", 48, "");
  (void) state;
  assert_int_equal (different_texts (c), 48);
  for (size_t i = 0; i < c->count; i++)
    without_numbers (c->text[i]);
  /* Twelve a kind.  */
  assert_int_equal (different_texts (c), 24);
  for (size_t i = 12; i < c->count; i++)
    assert_string_not_equal (c->text[i], c->text[i - 12]);
  free (c);
}

/* Where a topic has one kind, it comes each time; missed or not.  */
static void
test_one_card (void **state)
{
  course *c = practise ("practice dividing", 30, "all");
  (void) state;
  assert_int_equal (different_texts (c), 30);
  assert_int_equal (topics_among (c, 30), 1);
  free (c);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_misses_all), CHECK_TEST (test_always_right), CHECK_TEST (test_misses_one_topic), CHECK_TEST (test_new_words),
    CHECK_TEST (test_one_card)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, lesson_enter, lesson_leave));
}
