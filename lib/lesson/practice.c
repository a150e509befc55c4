/* SPDX-License-Identifier: LGPL-3.0-or-later
   practice.c - `practice TOPIC`: a problem is asked, the next line is its answer.  `hint` shows the next step, `skip`
   the answer, `done` ends.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/words.h"
#include "lesson/figure.h"
#include "lesson/practice.h"
#include "lesson/write.h"

static void
practice_free (br__practice *p)
{
  if (!p)
    return;
  br__task_clear (&p->task);
  br__key_clear (&p->key);
  br__helper_end (&p->helper);
  br__free (p->cards);
  br__free (p);
}

static void
free_of (br_sheet *sheet)
{
  practice_free (sheet->practice);
}

/* ---- Cards ---- */

static br_status
practice_new (br__practice **made, const char *path, br_error *error)
{
  br__practice *p = br__alloc_zero (1, sizeof *p);
  const br__topic *topic;
  size_t room = 0;
  for (size_t i = 0; (topic = br__topic_at (i)) != NULL; i++)
    room += topic->kind_count;
  if (!p || !(p->cards = br__alloc_zero (room, sizeof *p->cards)))
    {
      br__free (p);
      return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
    }
  for (size_t i = 0; (topic = br__topic_at (i)) != NULL; i++)
    for (unsigned k = 0; k < topic->kind_count; k++)
      p->cards[p->count++] = (br__card) { .topic = topic, .kind = k };
  br_status status = br__practice_read (p, path, error);
  if (status == BR_OK && (status = br__helper_start (&p->helper)) != BR_OK)
    br__fail_plain (error, status, 0, 0);
  if (status == BR_OK)
    *made = p;
  else
    practice_free (p);
  return status;
}

/* 1 where CARD went wrong and is due again: before those that were never asked.  */
static int
is_urgent (const br__practice *p, const br__card *card)
{
  return card->asked && card->box == 1 && card->due <= p->answered;
}

/* The card of the session's topic that is due first.  */
static br__card *
next_card (br__practice *p)
{
  br__card *best = NULL;
  for (size_t i = 0; i < p->count; i++)
    {
      br__card *card = &p->cards[i];
      int urgent = is_urgent (p, card), other = best && is_urgent (p, best);
      if ((!p->topic || card->topic == p->topic) && (!best || urgent > other || (urgent == other && card->due < best->due)))
        best = card;
    }
  return best;
}

/* Where the card of the problem at hand goes.  So many problems lie between: the widths in centimetres of the
   parts of Leitner's box, from memory.  */
static void
put_back (br__practice *p)
{
  static const int64_t wait[BR__BOXES] = { 1, 2, 5, 8, 14 };
  br__card *card = p->card;
  card->box = p->failed ? 1 : card->box < BR__BOXES ? card->box + 1 : BR__BOXES;
  card->asked++;
  card->right += !p->failed;
  p->right += !p->failed;
  card->due = ++p->answered + wait[card->box - 1];
}

/* ---- Problems ---- */

static br_status
make_key (br__practice *p)
{
  const br__problem *q = &p->problem;
  br__key *key = &p->key;
  br__key_clear (key);
  memset (key, 0, sizeof *key);
  key->ask = q->kind->ask;
  key->unit = key->ask == BR__ASK_COUNT ? NULL : br_unit_find (q->metric ? "mm" : "in", 2);
  if (q->metric && key->ask < BR__ASK_DECIMAL)
    key->ask = BR__ASK_ANY;
  key->present = 1;
  br__ratio exact = br__problem_inches (q, q->answer), mark = br__problem_inches (q, br__ratio_of (1, q->level));
  br_status status = br_number_set_ratio (&key->exact, exact.num, exact.den);
  if (status == BR_OK)
    status = br_number_set_ratio (&key->step, key->unit ? key->unit->num : 1, key->unit ? key->unit->den : 1);
  if (status == BR_OK && key->ask != BR__ASK_COUNT)
    status = br_number_set_ratio (&key->mark, mark.num, mark.den);
  for (unsigned i = 0; i < q->wrong_count && status == BR_OK; i++)
    {
      br__ratio wrong = br__problem_inches (q, q->wrong[i].value);
      key->mistake[i] = q->wrong[i].mistake;
      status = br_number_set_ratio (&key->wrong[key->wrong_count++], wrong.num, wrong.den);
    }
  return status;
}

static br_status
ask_next (br__practice *p, br__run *run)
{
  br__plan plan;
  p->card = next_card (p);
  p->number++;
  p->hints = 0;
  p->failed = 0;
  if (!br__plan_make (&plan, p->card->topic, br__sheet_ruler (run), (int) p->level, 1, (uint64_t) p->answered + 1, p->card->kind))
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "`%s` has no problems of this level", p->card->topic->name);
  br__problem_make (&p->problem, &plan, 1, 1, (uint64_t) p->answered + 1, NULL, NULL, 0);
  p->sheet.problem_count = 1;
  p->sheet.problems = &p->problem;
  br_status status = br__task_make (&p->task, &p->helper, &p->sheet, 0, 0, 1);
  if (status == BR_OK)
    status = make_key (p);
  if (status != BR_OK)
    return br__fail_plain (run->error, status, 0, 0);
  br_record *r = br__record_new ("practice_problem");
  br_text picture = BR_TEXT_ZERO;
  br__put_count (r, "number", p->number);
  br__put_text (r, "topic", p->card->topic->name);
  br__put_copy (r, "text", &p->task.text);
  if (p->card->topic->picture)
    br__put_picture (&picture, &p->problem, NULL);
  br__put_from (r, "picture", &picture);
  return br__emit (run, r);
}

/* A problem at which something went wrong counts, though it is left.  */
static br_status
end (br__practice *p, br__run *run)
{
  br_record *r = br__record_new ("practice_end");
  br_status status = BR_OK;
  if (p->failed)
    {
      put_back (p);
      status = br__practice_write (p, run->sheet->practice_path, run->error);
    }
  br__put_count (r, "problems", p->number - !p->failed);
  br__put_count (r, "right", p->right);
  run->sheet->takes_line = NULL;
  run->sheet->practice = NULL;
  practice_free (p);
  br_status emitted = br__emit (run, r);
  return status == BR_OK ? emitted : status;
}

static br_status
show_hint (br__practice *p, br__run *run)
{
  br_record *r = br__record_new ("practice_hint");
  br_text step = BR_TEXT_ZERO;
  size_t count = p->task.steps.count;
  p->failed = 1;
  if (p->hints < count)
    br__put_step (&step, br__text_string (&p->task.steps.rows[p->hints++]));
  else
    br__text_printf (&step, "the answer is %s", br__text_string (&p->task.answer));
  br__put_from (r, "step", &step);
  br__put_count (r, "more", (int64_t) (count - p->hints));
  return br__emit (run, r);
}

/* The answer of the problem at hand was given, or is shown: on to the next.  */
static br_status
go_on (br__practice *p, br__run *run)
{
  put_back (p);
  br_status status = br__practice_write (p, run->sheet->practice_path, run->error);
  return status == BR_OK ? ask_next (p, run) : status;
}

static br_status
take_answer (br__practice *p, br__run *run, const char *written)
{
  br__verdict v;
  br_text verdict = BR_TEXT_ZERO;
  br_status status = br__judge (&v, written, &p->key);
  if (status != BR_OK)
    return br__fail_plain (run->error, status, 0, 0);
  int right = v.index == BR__RIGHT, mistake = v.index >= BR__JUDGEMENTS;
  br_record *r = br__record_new ("practice_answer");
  br__put_text (r, "answer", written);
  br__put_truth (r, "right", right);
  br__put_verdict (&verdict, &v);
  br__put_from (r, "verdict", &verdict);
  br__put_text (r, "shows", mistake ? br__mistake_shows ((br__mistake) (v.index - BR__JUDGEMENTS)) : "");
  status = br__emit (run, r);
  /* What cannot be read is a slip of the fingers, not a mistake.  */
  if (!right && v.index != BR__UNREADABLE && v.index != BR__NO_ANSWER)
    {
      p->card->mistakes[v.index]++;
      p->failed = 1;
    }
  return status == BR_OK && right ? go_on (p, run) : status;
}

/* A line while practice goes on, which is not empty.  `practice ...` ends it, and begins anew or reports.  */
static br_status
take_line (int *taken, br__run *run)
{
  br__practice *p = run->sheet->practice;
  size_t start = 0, stop = run->length;
  while (start < stop && br__blank_at (run->text + start, stop - start))
    start += br__blank_at (run->text + start, stop - start);
  while (stop > start && strchr (" \t\r", run->text[stop - 1]))
    stop--;
  const char *text = run->text + start;
  size_t length = stop - start;
  size_t word = 0;
  while (word < length && text[word] != ' ')
    word++;
  *taken = !br__same_word (text, word, "practice");
  if (!*taken)
    return end (p, run);
  if (br__same_word (text, length, "help"))
    return br__remark (run, "type the answer, or `hint`, `skip`, `done`");
  if (br__same_word (text, length, "done") || br__same_word (text, length, "quit"))
    return end (p, run);
  if (br__same_word (text, length, "hint"))
    return show_hint (p, run);
  if (br__same_word (text, length, "skip"))
    {
      br_record *r = br__record_new ("practice_hint");
      p->failed = 1;
      br_text t = BR_TEXT_ZERO;
      br__text_printf (&t, "the answer is %s", br__text_string (&p->task.answer));
      br__put_from (r, "step", &t);
      br__put_count (r, "more", 0);
      br_status status = br__emit (run, r);
      return status == BR_OK ? go_on (p, run) : status;
    }
  char *written = br__strndup (text, length);
  br_status status = written ? take_answer (p, run, written) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br__free (written);
  return status;
}

/* ---- The statement ---- */

static br_status
report (br__run *run)
{
  br__practice *p = NULL;
  br_status status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = practice_new (&p, run->sheet->practice_path, run->error);
  for (size_t i = 0; status == BR_OK && i < p->count; i++)
    {
      const br__card *card = &p->cards[i];
      br_text t = BR_TEXT_ZERO;
      if (!card->asked)
        continue;
      br_record *r = br__record_new ("practice_progress");
      br__put_text (r, "topic", card->topic->name);
      br__put_count (r, "problem", card->kind + 1);
      br__put_count (r, "asked", card->asked);
      br__put_count (r, "right", card->right);
      br__put_count (r, "box", card->box);
      for (size_t k = 1; k < BR__VERDICTS; k++)
        if (card->mistakes[k])
          br__text_printf (&t, "%s%s %u", t.length ? "; " : "", br__verdict_name (k), card->mistakes[k]);
      br__put_from (r, "mistakes", &t);
      status = br__emit (run, r);
    }
  if (status == BR_OK && !p->answered)
    status = br__remark (run, "nothing has been practised yet");
  practice_free (p);
  return status;
}

br_status
br__do_practice (br__run *run)
{
  br__practice *p = NULL;
  const br__topic *topic = NULL;
  int64_t level = 0;
  int own = 0;
  br__token at = run->lex.token;
  if (br__lex_is_word (&run->lex, "report"))
    return report (run);
  br_status status = at.type == BR__END ? BR_OK : br__read_topic (&topic, &own, run);
  if (status == BR_OK && own)
    status = br__fail (run->error, BR_DOMAIN, at.offset, at.length, "own problems are for worksheets");
  if (status == BR_OK && topic)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK && br__lex_is_word (&run->lex, "level"))
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__clause_count (&level, run, "a level", 1, BR__GRADES);
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && run->from_file)
    {
      status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "practice is for the prompt");
      br__hint (run->error, "type it there, or pass it in a pipe");
    }
  if (status == BR_OK)
    status = practice_new (&p, run->sheet->practice_path, run->error);
  if (status != BR_OK)
    return status;
  p->topic = topic;
  p->level = level;
  free_of (run->sheet);
  run->sheet->practice = p;
  br__release_by (run->sheet, free_of);
  run->sheet->takes_line = take_line;
  return ask_next (p, run);
}
