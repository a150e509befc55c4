/* SPDX-License-Identifier: LGPL-3.0-or-later
   task.c - problems as they go on paper, and worked out for the key.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/sentences.h"
#include "lesson/worksheet.h"

void
br__task_clear (br__task *t)
{
  br__text_clear (&t->text);
  br__text_clear (&t->other);
  br__text_clear (&t->answer);
  br__text_clear (&t->exact);
  br__text_clear (&t->mark);
  br__worked_steps_clear (&t->steps);
  for (unsigned i = 0; i < BR__MOST_WRONG; i++)
    br__text_clear (&t->wrong[i]);
  memset (t, 0, sizeof *t);
}

br_status
br__helper_start (br__helper *h)
{
  return br__sheet_new (&h->sheet, NULL);
}

void
br__helper_end (br__helper *h)
{
  br_sheet_free (h->sheet);
}

/* The steps of EXPRESSION.  */
static br_status
work_out (br__task *t, br__helper *h, const br_text *expression, br__ratio size)
{
  br__tree tree = BR__TREE_ZERO;
  br__worked_steps rules = BR__WORKED_STEPS_ZERO;
  br_text shown = BR_TEXT_ZERO;
  br__mark mark = BR__MARK_ZERO;
  br_error error;
  memset (&error, 0, sizeof error);
  br__run run = { .sheet = h->sheet, .text = br__text_string (expression), .length = expression->length,
                  .end = expression->length, .error = &error };
  br_status status = expression->failed ? BR_NO_MEMORY : br_number_set_ratio (&mark.size, size.num, size.den);
  if (status == BR_OK)
    status = br__lex_start (&run.lex, run.text, run.end, &error);
  if (status == BR_OK)
    status = br__parse (&tree, &run.lex, &error);
  if (status == BR_OK)
    status = br__explain (&t->steps, &rules, &shown, &run, &tree, &mark);
  br__tree_clear (&tree);
  br__worked_steps_clear (&rules);
  br__text_clear (&shown);
  br_number_clear (&mark.size);
  return status;
}

/* A step with X as a decimal on the right.  */
static void
add_decimal_step (br__task *t, const br__problem *p, br_text *left, br__ratio x)
{
  br_text decimal = BR_TEXT_ZERO;
  br__put_size (&decimal, p, x, 1);
  br__worked_steps_add (&t->steps, br__text_string (left), "=", br__text_string (&decimal));
  t->steps.failed |= left->failed | decimal.failed;
  br__text_clear (&decimal);
}

/* A step between the length X in feet and inches and the same in inches alone, in metres and in millimetres.  */
static void
add_feet_step (br__task *t, const br__problem *p, br__ratio x, int back)
{
  br_text feet = BR_TEXT_ZERO, plain = BR_TEXT_ZERO;
  br__problem_put_length (&feet, p, x);
  br__put_size (&plain, p, x, 0);
  br__text_puts (&plain, p->metric ? " mm" : "\"");
  br__worked_steps_add (&t->steps, br__text_string (back ? &plain : &feet), "=", br__text_string (back ? &feet : &plain));
  t->steps.failed |= feet.failed | plain.failed;
  br__text_clear (&feet);
  br__text_clear (&plain);
}

/* A step for each size of the wording that is in feet.  */
static void
add_feet_steps (br__task *t, const br__problem *p)
{
  const char *wording = br__wording (p->topic->name, p->kind_index, p->scene);
  for (unsigned i = 0; i < p->count; i++)
    {
      char field[] = { '{', (char) ('0' + i), '}', 0 };
      if (br__problem_in_feet (p, p->given[i]) && strstr (wording, field))
        add_feet_step (t, p, p->given[i], 0);
    }
}

/* The steps of P's expression.  If it has two parts, the first is put on the ruler and made a decimal, and
   the last is a sum of decimals as it stands.  */
static br_status
steps_of (br__task *t, br__helper *h, const br__problem *p)
{
  br_text all = BR_TEXT_ZERO, part = BR_TEXT_ZERO;
  br_status status;
  /* Marks are plain numbers in the unit of the problem.  */
  br__ratio mark = br__ratio_of (p->metric ? 10 : 1, p->level);
  h->sheet->settings.unit = p->metric ? br_unit_find ("mm", 2) : br_unit_find ("in", 2);
  br__problem_expression (&all, p);
  add_feet_steps (t, p);
  const char *first = br__text_string (&all), *end = strchr (first, ';');
  if (!end)
    /* Where nothing is rounded, the mark is one that the answer lies on, and no step comes of it.  */
    status = work_out (t, h, &all, p->kind->to_mark ? mark
                       : br__ratio_of (1, br__ratio_mul (p->answer, br__ratio_of (p->metric ? 10 : 1, 1)).den));
  else
    {
      br__text_put (&part, first, (size_t) (end - first));
      status = work_out (t, h, &part, mark);
      br__text_reset (&part);
      br__put_size (&part, p, p->given[1], 0);
      if (!p->metric)
        add_decimal_step (t, p, &part, p->given[1]);
      br__text_reset (&part);
      br__text_puts (&part, end + 1);
      add_decimal_step (t, p, &part, p->answer);
    }
  if (br__problem_in_feet (p, p->answer) && p->kind->ask < BR__ASK_DECIMAL && !br__problem_names_unit (p))
    add_feet_step (t, p, p->answer, 1);
  br__text_clear (&all);
  br__text_clear (&part);
  return status;
}

/* How keyfile.c reads it.  */
static const char *
ask_name (br__ask ask)
{
  static const char *const names[] = { "fraction", "fraction", "decimal", "count", "one fraction", "any" };
  return names[ask];
}

static void
put_exact (br_text *t, br__ratio x)
{
  br__text_printf (t, x.den == 1 ? "%lld" : "%lld/%lld", (long long) x.num, (long long) x.den);
}

static br_status
key_of_drawn (br__task *t, br__helper *h, const br__problem *p)
{
  br__problem_answer (&t->answer, p, p->answer);
  put_exact (&t->exact, br__problem_inches (p, p->answer));
  t->ask = ask_name (p->metric && p->kind->ask < BR__ASK_DECIMAL ? BR__ASK_ANY : p->kind->ask);
  t->unit = p->kind->ask == BR__ASK_COUNT ? "" : p->metric ? "mm" : "in";
  if (p->kind->ask != BR__ASK_COUNT)
    put_exact (&t->mark, br__problem_inches (p, br__ratio_of (1, p->level)));
  br_status status = steps_of (t, h, p);
  for (unsigned i = 0; i < p->wrong_count && status == BR_OK; i++)
    {
      br__problem_answer (&t->wrong[i], p, p->wrong[i].value);
      t->mistake[i] = p->wrong[i].mistake;
    }
  t->wrong_count = p->wrong_count;
  return status;
}

static br_status
key_of_own (br__task *t, const br__own *own)
{
  const br_unit *unit = br__own_unit (own);
  br__text_puts (&t->answer, br__text_string (&own->answer_text));
  br__put_number (&t->exact, &own->answer);
  if (br_number_sign (&own->mark) > 0)
    br__put_number (&t->mark, &own->mark);
  t->ask = ask_name (own->ask);
  t->unit = unit && !own->percent ? unit->name : "";
  for (size_t i = 0; i < own->steps.count; i++)
    {
      if (!br__grow (&t->steps.rows, &t->steps.room, i + 1, sizeof (br_text)))
        return BR_NO_MEMORY;
      memset (&t->steps.rows[i], 0, sizeof (br_text));
      br__text_puts (&t->steps.rows[i], br__text_string (&own->steps.rows[i]));
      t->steps.count++;
    }
  for (unsigned i = 0; i < own->wrong_count; i++)
    {
      br__own_put (&t->wrong[i], own, &own->wrong[i]);
      t->mistake[i] = own->mistake[i];
    }
  t->wrong_count = own->wrong_count;
  return BR_OK;
}

/* The first of each mistake come first, so that a key shows three that differ where there are three.  */
static void
put_firsts_first (br__task *t)
{
  br_text wrong[BR__MOST_WRONG];
  br__mistake mistakes[BR__MOST_WRONG];
  unsigned n = 0;
  for (int again = 0; again < 2; again++)
    for (unsigned i = 0; i < t->wrong_count; i++)
      {
        int known = 0;
        for (unsigned k = 0; k < i; k++)
          known |= t->mistake[k] == t->mistake[i];
        if (known != again)
          continue;
        wrong[n] = t->wrong[i];
        mistakes[n++] = t->mistake[i];
      }
  memcpy (t->wrong, wrong, n * sizeof *wrong);
  memcpy (t->mistake, mistakes, n * sizeof *mistakes);
}

/* (2 points), (bonus, 2 points); nothing where nothing was said.  */
static void
put_points (br_text *t, const br__problem *p, const br__sentences *words)
{
  if (!p->points && !p->bonus)
    return;
  br__text_puts (t, " (");
  if (p->bonus)
    br__text_printf (t, "%s%s", br__sentences_find (words, "bonus"), p->points ? ", " : "");
  if (p->points)
    br__text_printf (t, "%lld %s", (long long) p->points, br__sentences_find (words, p->points == 1 ? "point" : "points"));
  br__text_putc (t, ')');
}

/* A line for each operation and for what is carried, one to make denominators alike, and one more.  */
static int
room_of (const br__problem *p)
{
  int unlike = 0;
  if (p->topic->picture)
    return 0;
  for (unsigned i = 1; i < p->count; i++)
    unlike |= p->given[i].den != p->given[0].den && !p->metric;
  return 2 + (int) p->kind->operations + (p->carry > 0) + unlike;
}

br_status
br__task_make (br__task *t, br__helper *h, const br__worksheet *w, size_t version, size_t index, int key)
{
  const br__problem *p = &w->problems[version * w->problem_count + index];
  const br__sentences *words = w->words;
  int both = 0;
  br_status status = BR_OK;
  br__task_clear (t);
  t->points = p->points;
  t->bonus = p->bonus;
  t->english = "";
  if (!p->topic)
    {
      t->topic = "own";
      t->room = 4;
      br__text_puts (&t->text, w->own[p->own].text);
      if (key)
        status = key_of_own (t, &w->own[p->own]);
    }
  else
    {
      t->problem = p;
      t->topic = p->topic->name;
      t->room = room_of (p);
      t->english = br__wording (p->topic->name, p->kind_index, p->scene);
      /* What the table does not have stands there once.  */
      both = words && words->both && strcmp (br__sentences_find (words, t->english), t->english) != 0;
      br__problem_tell (&t->text, p, both ? NULL : words);
      if (both)
        {
          br__problem_tell (&t->other, p, words);
          put_points (&t->other, p, words);
        }
      if (key)
        status = key_of_drawn (t, h, p);
    }
  put_points (&t->text, p, both ? NULL : words);
  put_firsts_first (t);
  if (status == BR_OK && (t->text.failed || t->other.failed || t->answer.failed || t->steps.failed))
    status = BR_NO_MEMORY;
  return status;
}

size_t
br__papers_of (const br__worksheet *w)
{
  return w->name_count ? w->name_count : (size_t) w->versions;
}

size_t
br__paper_version (const br__worksheet *w, size_t paper)
{
  return paper % (size_t) w->versions;
}

const char *
br__paper_name (const br__worksheet *w, size_t paper)
{
  return w->name_count ? w->names[paper] : "";
}

br_status
br__lesson_progress (br__run *run, const char *what, size_t done, size_t all)
{
  size_t part = all / 100 + 1;
  if (br__stopped (run))
    return br__fail (run->error, BR_STOPPED, run->word.offset, run->word.length,
                     "stopped: nothing was written");
  if (run->sink && run->sink->progress && done % part == 0)
    run->sink->progress (run->sink->user, what, (int) (done * 100 / (all ? all : 1)));
  return BR_OK;
}
