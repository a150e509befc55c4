/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem.c - what all topics share: plans, versions of one difficulty, wrong answers, wording.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/problem.h"
#include "lesson/sentences.h"

/* Draws before a version stops looking for numbers that are new on the paper, and not only beside the version before, and
   before it takes those of the reference.  */
#define MOST_NEW 400
#define MOST_DRAWS 4000
/* A difficulty serves when so many sets of numbers have it among so many draws; references that
   are tried.  */
#define COMPANY 6
#define COMPANY_DRAWS 600
#define MOST_REFERENCES 100
/* Draws before a topic has none that serve.  */
#define MOST_TRIES 100000

const br__topic *
br__topic_at (size_t index)
{
  static const br__topic *const topics[] =
  {
    &br__topic_reading, &br__topic_decimals, &br__topic_sums, &br__topic_products, &br__topic_scale,
    &br__topic_known_size, &br__topic_fender, &br__topic_dividing, &br__topic_stock,
    &br__topic_missing
  };
  return index < sizeof topics / sizeof topics[0] ? topics[index] : NULL;
}

int64_t
br__plan_den (const br__plan *plan, unsigned word, int64_t least, int64_t most)
{
  static const int64_t parts[2][6] = { { 2, 4, 8, 16, 32, 64 }, { 2, 10, 20 } };
  int64_t chosen[6] = { 0 };
  uint64_t choices = 0;
  for (int i = 0; i < 6; i++)
    if (parts[plan->metric][i] >= least && parts[plan->metric][i] <= most)
      chosen[choices++] = parts[plan->metric][i];
  return choices ? chosen[plan->words[word] % choices] : plan->metric ? plan->level : least;
}

br__ratio
br__plan_size (const br__plan *plan, int64_t inches)
{
  return br__ratio_of (plan->metric ? inches * 5 : inches, plan->metric ? 2 : 1);
}

br__ratio
br__draw_length (const br__plan *plan, br__random *r, int64_t low, int64_t high, int64_t den)
{
  int64_t whole = br__random_between (r, br__ratio_floor (br__plan_size (plan, low)), br__ratio_floor (br__plan_size (plan, high)));
  if (den == 1)
    return br__ratio_of (whole, 1);
  return br__ratio_of (whole * den + 2 * br__random_between (r, 1, den / 2) - 1, den);
}

br__ratio
br__draw_marks (const br__plan *plan, br__random *r, int64_t low, int64_t high, int64_t step)
{
  br__ratio steps = br__ratio_of (plan->level, step);
  return br__ratio_div (br__ratio_of (br__random_between (r, br__ratio_floor (br__ratio_mul (br__plan_size (plan, low), steps)),
                                                          br__ratio_floor (br__ratio_mul (br__plan_size (plan, high), steps))), 1), steps);
}

static int
same (br__ratio x, br__ratio y)
{
  return x.num == y.num && x.den == y.den;
}

void
br__problem_wrong (br__problem *p, br__ratio value, br__mistake mistake)
{
  p->unclear |= same (value, p->answer);
  /* Millimetres have no thirds.  */
  if ((p->kind->part && br__ratio_cmp (value, p->given[0]) > 0)
      || (value.num <= 0 && p->kind->ask != BR__ASK_DECIMAL)
      || (p->metric && p->kind->ask != BR__ASK_COUNT && 10000 % value.den != 0))
    return;
  for (unsigned i = 0; i < p->wrong_count; i++)
    if (same (value, p->wrong[i].value))
      {
        p->unclear |= mistake != p->wrong[i].mistake;
        return;
      }
  if (p->wrong_count < BR__MOST_WRONG)
    {
      br__wrong made = { value, mistake };
      p->wrong[p->wrong_count++] = made;
    }
}

/* The mistakes that fit any answer, behind those of the topic, where they can be told apart.  */
static void
add_general (br__problem *p)
{
  br__ratio one = { 1, 1 }, mark = br__ratio_of (1, p->level);
  br__ratio values[] = { br__ratio_add (p->answer, mark), br__ratio_sub (p->answer, one),
                         br__ratio_sub (p->answer, mark), br__ratio_add (p->answer, one) };
  int unclear = p->unclear;
  /* An error has neither a whole part nor a mark of its own, and a count has no marks.  */
  for (int i = 0; i < 4 && p->kind->ask != BR__ASK_DECIMAL; i++)
    if (i % 2 == 1 || p->kind->ask != BR__ASK_COUNT)
      br__problem_wrong (p, values[i], i % 2 ? BR__MISTAKE_WHOLE : BR__MISTAKE_MARK);
  p->unclear = unclear;
}

static unsigned
digits_of (br__ratio x)
{
  int64_t whole = (x.num < 0 ? -x.num : x.num) / x.den;
  unsigned digits = 0;
  for (; whole > 0; whole /= 10)
    digits++;
  return digits;
}

/* The digits of the size X as it is told: of its feet and its inches, of its metres and its millimetres.  */
static unsigned
told_digits (const br__problem *p, br__ratio x)
{
  br__ratio large = br__ratio_of (p->metric ? 100 : 12, 1), count = br__ratio_of (br__ratio_floor (br__ratio_div (x, large)), 1);
  br__ratio rest = br__ratio_sub (x, br__ratio_mul (count, large));
  if (!p->feet || count.num == 0)
    return digits_of (x);
  return 10 * digits_of (count) + (rest.num > 0) + digits_of (p->metric ? br__ratio_mul (rest, br__ratio_of (10, 1)) : rest);
}

void
br__problem_measure (br__difficulty *d, const br__problem *p)
{
  memset (d, 0, sizeof *d);
  d->operations = p->kind->operations;
  d->carry = p->carry;
  d->answer_den = (unsigned) p->answer.den;
  d->answer_digits = digits_of (p->answer);
  d->feet = br__problem_in_feet (p, p->answer) && !br__problem_names_unit (p);
  memcpy (d->between, p->between, sizeof d->between);
  for (unsigned i = 0; i < p->count; i++)
    {
      d->den[i] = (unsigned) p->given[i].den;
      d->digits[i] = told_digits (p, p->given[i]);
    }
}

unsigned
br__carries (br__ratio x, br__ratio y)
{
  br__ratio one = { 1, 1 };
  return br__ratio_cmp (br__ratio_add (br__ratio_part (x), br__ratio_part (y)), one) >= 0;
}

unsigned
br__borrows (br__ratio x, br__ratio y)
{
  return br__ratio_cmp (br__ratio_part (x), br__ratio_part (y)) < 0;
}

/* 1 if P is as hard as PLAN wants: from the third level on something is carried or borrowed, and a fourth is told
   in feet.  */
static int
fits_grade (const br__problem *p, const br__plan *plan)
{
  int feet = 0;
  if (plan->grade && plan->topic->carries && (p->carry != 0) != (plan->grade > 2))
    return 0;
  for (unsigned i = 0; i < p->count; i++)
    feet |= p->given[i].num >= (p->metric ? 100 : 12) * p->given[i].den;
  return plan->grade < 4 || feet || plan->topic != &br__topic_sums;
}

/* One set of numbers; 0 where they do not serve.  */
static int
draw (br__problem *p, const br__plan *plan, br__random *r)
{
  memset (p, 0, sizeof *p);
  p->topic = plan->topic;
  p->kind_index = plan->kind;
  p->kind = &plan->topic->kinds[plan->kind];
  p->scene = plan->scene;
  p->level = plan->level;
  p->metric = plan->metric;
  p->feet = plan->feet || plan->grade == 4;
  if (!plan->topic->draw (p, plan, r) || p->unclear || !fits_grade (p, plan))
    return 0;
  add_general (p);
  return p->wrong_count >= BR__WRONG_IN_KEY;
}

static int
is_repeat (const br__problem *p, const br__problem *q)
{
  if (p->kind != q->kind)
    return 0;
  for (unsigned i = 0; i < p->count; i++)
    if (!same (p->given[i], q->given[i]))
      return 0;
  return 1;
}

static int
is_new (const br__problem *p, const br__problem *before, const br__problem *earlier, size_t count)
{
  if (before && is_repeat (p, before))
    return 0;
  for (size_t i = 0; i < count; i++)
    if (is_repeat (p, &earlier[i]))
      return 0;
  return 1;
}

/* How many sets of numbers of the same difficulty are easily found, up to COMPANY, which is enough for seats side by side.  R is
   a copy.  */
static int
company_of (const br__plan *plan, br__random r)
{
  br__problem found[COMPANY];
  int count = 0;
  for (int i = 0; i < COMPANY_DRAWS && count < COMPANY; i++)
    {
      br__problem made;
      br__difficulty d;
      int known = 0;
      if (!draw (&made, plan, &r))
        continue;
      br__problem_measure (&d, &made);
      for (int k = 0; k < count; k++)
        known |= is_repeat (&made, &found[k]);
      if (!known && memcmp (&d, &plan->wanted, sizeof d) == 0)
        found[count++] = made;
    }
  return count;
}

int
br__plan_make (br__plan *plan, const br__topic *topic, br__ruler_of ruler, int grade, uint64_t seed,
               uint64_t index, uint64_t nth)
{
  br__random r;
  br__random_start (&r, seed, 0, index);
  plan->topic = topic;
  plan->metric = ruler.metric;
  plan->feet = ruler.feet;
  /* The first two levels have coarser marks; adding and taking away has levels of its own.  */
  plan->level = ruler.level;
  if (ruler.metric && (grade == 1 || grade == 2))
    plan->level = grade == 1 ? 2 : 10;
  else if (topic != &br__topic_sums && (grade == 1 || grade == 2))
    plan->level = ruler.level * grade / 4 < 4 ? 4 : ruler.level * grade / 4;
  plan->grade = grade;
  /* Kinds take turns, so that two problems of a topic are of two kinds.  */
  plan->kind = (unsigned) (nth % topic->kind_count);
  /* So do its wordings, from one on that the seed picks.  */
  unsigned scenes = br__wording_count (topic->name, plan->kind);
  br__random first;
  br__random_start (&first, seed, 0, 0);
  plan->scene = (unsigned) ((nth / topic->kind_count + br__random_below (&first, scenes)) % scenes);
  for (int i = 0; i < BR__PLAN_WORDS; i++)
    plan->words[i] = br__random_next (&r) >> 1;
  br__plan best = *plan;
  for (int i = 0, most = -1; i < MOST_REFERENCES && most < COMPANY; i++)
    {
      int tries = 0, company;
      while (tries < MOST_TRIES && !draw (&plan->reference, plan, &r))
        {
          tries++;
          /* What all versions share may be what has none: it is drawn anew now and then.  */
          if (tries % 500 == 0)
            for (int k = 0; k < BR__PLAN_WORDS; k++)
              plan->words[k] = br__random_next (&r) >> 1;
        }
      if (tries == MOST_TRIES)
        return 0;
      br__problem_measure (&plan->wanted, &plan->reference);
      company = company_of (plan, r);
      if (company > most)
        {
          most = company;
          best = *plan;
        }
    }
  *plan = best;
  return 1;
}

void
br__problem_make (br__problem *p, const br__plan *plan, uint64_t seed, uint64_t version,
                  uint64_t index, const br__problem *before, const br__problem *earlier, size_t count)
{
  br__problem made;
  br__difficulty d;
  br__random r;

  br__random_start (&r, seed, version, index);
  for (int i = 0; i < MOST_DRAWS; i++)
    {
      if (!draw (&made, plan, &r))
        continue;
      br__problem_measure (&d, &made);
      if (memcmp (&d, &plan->wanted, sizeof d) == 0 && is_new (&made, before, earlier, i < MOST_NEW ? count : 0))
        {
          *p = made;
          return;
        }
    }
  *p = plan->reference;
}

void
br__put_ratio (br_text *t, br__ratio x)
{
  br_number n = BR_NUMBER_ZERO;
  if (br_number_set_ratio (&n, x.num, x.den) != BR_OK)
    t->failed = 1;
  br__put_mixed (t, &n);
  br_number_clear (&n);
}

void
br__put_ratio_decimal (br_text *t, br__ratio x)
{
  br_number n = BR_NUMBER_ZERO;
  if (br_number_set_ratio (&n, x.num, x.den) != BR_OK)
    t->failed = 1;
  br__put_decimal (t, &n, 12);
  br_number_clear (&n);
}

void
br__put_size (br_text *t, const br__problem *p, br__ratio x, int decimal)
{
  if (p->metric)
    x = br__ratio_mul (x, br__ratio_of (10, 1));
  (p->metric || decimal ? br__put_ratio_decimal : br__put_ratio) (t, x);
}

br__ratio
br__problem_inches (const br__problem *p, br__ratio value)
{
  /* 1 cm is 50/127 in.  */
  return p->metric && p->kind->ask != BR__ASK_COUNT ? br__ratio_mul (value, br__ratio_of (50, 127)) : value;
}

/* What stands in the braces at S: a given size ({0}), its number ({0l}), that as a decimal without or with its unit
   ({0d}, {0x}), a count ({0n}), the finest mark ({m}), the number of marks ({k}), the unit ({u}, {p}), the name of the scale ({s}, {S}).  */
static void
put_field (br_text *t, const char *s, const br__problem *p, const br__sentences *words)
{
  if (*s == 'm')
    br__text_printf (t, p->metric ? "%s mm" : "1/%s%lld", p->metric ? p->level == 20 ? "0.5" : p->level == 10 ? "1" : "5" : "", (long long) p->level);
  else if (*s == 'u' || *s == 'p')
    br__text_puts (t, br__sentences_find (words, p->metric ? "millimetres" : *s == 'p' ? "inches and lowest terms" : "inches"));
  else if (*s == 'k')
    br__text_printf (t, "%lld", (long long) p->level);
  else if (*s == 's' || *s == 'S')
    br__text_puts (t, br__sentences_find (words, p->word));
  else if (s[1] == 'n')
    br__put_ratio (t, p->given[*s - '0']);
  else
    br__put_size (t, p, p->given[*s - '0'], s[1] == 'd' || s[1] == 'x');
  if (*s >= '0' && *s <= '9' && (s[1] == '}' || s[1] == 'x'))
    br__text_puts (t, p->metric ? " mm" : "\"");
}

int
br__problem_in_feet (const br__problem *p, br__ratio x)
{
  return p->feet && x.num >= (p->metric ? 100 : 12) * x.den;
}

void
br__problem_put_length (br_text *t, const br__problem *p, br__ratio x)
{
  br_style style = { NULL, 1 };
  br_number n = BR_NUMBER_ZERO;
  if (!br__problem_in_feet (p, x))
    {
      br__put_size (t, p, x, 0);
      br__text_puts (t, p->metric ? " mm" : "\"");
      return;
    }
  if (p->metric)
    {
      int64_t metres = br__ratio_floor (x) / 100;
      br__ratio rest = br__ratio_sub (x, br__ratio_of (metres * 100, 1));
      br__text_printf (t, "%lld m", (long long) metres);
      if (rest.num)
        {
          br__text_putc (t, ' ');
          br__put_size (t, p, rest, 1);
          br__text_puts (t, " mm");
        }
      return;
    }
  if (br_number_set_ratio (&n, x.num, x.den) != BR_OK)
    t->failed = 1;
  br__put_measure (t, &n, BR_LENGTH, &style);
  br_number_clear (&n);
}

/* The same where lengths of a foot and more are told in feet and inches, of a metre and more in metres and millimetres.  */
static void
put_told (br_text *t, const char *s, const br__problem *p, const br__sentences *words)
{
  if (*s >= '0' && *s < '0' + (int) (sizeof p->given / sizeof *p->given) && s[1] == '}')
    br__problem_put_length (t, p, p->given[*s - '0']);
  else
    put_field (t, s, p, words);
}

typedef void put_one (br_text *t, const char *s, const br__problem *p, const br__sentences *words);

static void
fill (br_text *t, const char *form, const br__problem *p, const br__sentences *words, put_one *put)
{
  while (*form)
    {
      size_t n = strcspn (form, "{");
      br__text_put (t, form, n);
      form += n;
      if (*form)
        {
          put (t, form + 1, p, words);
          form += strcspn (form, "}") + 1;
        }
    }
}

void
br__problem_fill (br_text *t, const char *form, const br__problem *p, const br__sentences *words)
{
  fill (t, form, p, words, put_told);
}

void
br__problem_tell (br_text *t, const br__problem *p, const br__sentences *words)
{
  br__problem_fill (t, br__sentences_find (words, br__wording (p->topic->name, p->kind_index, p->scene)), p, words);
}

void
br__problem_expression (br_text *t, const br__problem *p)
{
  fill (t, p->kind->expression, p, NULL, put_field);
}

int
br__problem_names_unit (const br__problem *p)
{
  const char *wording = br__wording (p->topic->name, p->kind_index, p->scene);
  return strstr (wording, "{u}") || strstr (wording, "{p}");
}

void
br__problem_answer (br_text *t, const br__problem *p, br__ratio value)
{
  if (p->kind->ask == BR__ASK_COUNT)
    {
      br__put_ratio (t, value);
      return;
    }
  if (br__problem_in_feet (p, value) && !br__problem_names_unit (p))
    {
      br__problem_put_length (t, p, value);
      return;
    }
  br__text_puts (t, p->kind->ask == BR__ASK_DECIMAL && value.num > 0 ? "+" : "");
  br__put_size (t, p, value, p->kind->ask == BR__ASK_DECIMAL);
  br__text_puts (t, p->metric ? " mm" : "\"");
}
