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

/* So many problems lie between two of a card, by its box: three for each centimetre of the parts of Leitner's box, which are 1, 2,
   5, 8 and 14 wide (from memory).  The last is then long enough for the cards of all topics.  */
static const int64_t wait[BR__BOXES] = { 3, 6, 15, 24, 42 };

typedef enum choice
{
  NEW,          /* never asked: the first kind of each topic, then the second ... */
  MISSED,       /* due in the first box */
  DUE,          /* due in another */
  LONGEST       /* asked longer ago than any other */
} choice;

/* The card of the session's topic that comes first among those WANTED, or NULL.  */
static br__card *
first_of (br__practice *p, choice wanted)
{
  br__card *best = NULL;
  int64_t best_key = 0;
  for (size_t i = 0; i < p->count; i++)
    {
      br__card *card = &p->cards[i];
      int due = card->asked && card->due <= p->answered;
      int fits[] = { !card->asked, due && card->box == 1, due && card->box > 1, card->asked > 0 };
      if (!fits[wanted] || (p->topic && card->topic != p->topic))
        continue;
      /* A card that was asked is in a box.  */
      int64_t key = wanted == NEW ? card->kind : wanted == LONGEST && card->box ? card->due - wait[card->box - 1] : card->due;
      if (best && key >= best_key)
        continue;
      best = card;
      best_key = key;
    }
  return best;
}

/* Of three problems one is new, one is due and one is a mistake that is due, so that neither what goes wrong nor what is new keeps
   the rest from coming.  */
static br__card *
next_card (br__practice *p)
{
  static const choice turns[3][4] = { { NEW, DUE, LONGEST }, { DUE, NEW, LONGEST }, { MISSED, DUE, NEW, LONGEST } };
  br__card *card = NULL;
  for (size_t i = 0; !card; i++)
    card = first_of (p, turns[p->answered % 3][i]);
  return card;
}

/* Where the card of the problem at hand goes.  A new one comes out of the first box.  */
static void
put_back (br__practice *p)
{
  br__card *card = p->card;
  card->box = p->failed ? 1 : card->box == BR__BOXES ? BR__BOXES : card->asked ? card->box + 1 : 2;
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

/* A problem of P's card in other words than the last time, and with numbers that are new in the session where there are such.  */
static br_status
make_problem (br__practice *p, br__run *run)
{
  const br__topic *topic = p->card->topic;
  const br__problem *before = NULL;
  br__plan plan;
  uint64_t index = (uint64_t) p->answered + 1, nth = p->card->kind + (uint64_t) p->card->asked * topic->kind_count;
  if (!br__plan_make (&plan, topic, br__sheet_ruler (run), (int) p->level, 1, index, nth))
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "`%s` has no problems of this level", topic->name);
  size_t past = p->number < BR__PAST ? (size_t) p->number : BR__PAST;
  for (int64_t i = p->number - (int64_t) past; i < p->number; i++)
    if (p->past[i % BR__PAST].kind == &topic->kinds[p->card->kind])
      before = &p->past[i % BR__PAST];
  br__problem_make (&p->problem, &plan, 1, 1, index, before, p->past, past);
  p->past[p->number++ % BR__PAST] = p->problem;
  return BR_OK;
}

static br_status
ask_next (br__practice *p, br__run *run)
{
  p->card = next_card (p);
  p->hints = 0;
  p->failed = 0;
  br_status status = make_problem (p, run);
  if (status != BR_OK)
    return status;
  p->sheet.problem_count = 1;
  p->sheet.problems = &p->problem;
  status = br__task_make (&p->task, &p->helper, &p->sheet, 0, 0, 1);
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
    br__put_step_in_words (&step, br__text_string (&p->task.steps.rows[p->hints++]));
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
  if (status == BR_OK && (status = br__end_of_line (run)) != BR_OK)
    br__hint (run->error, "write `practice report`");
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
