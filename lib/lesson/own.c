/* SPDX-License-Identifier: LGPL-3.0-or-later
   own.c - the teacher's own problems.  They live in the sheet as its lines, and are collected from
   there whenever a worksheet asks for them, so that undo and save need to know nothing of them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/worksheet.h"
#include "measure/measure.h"

/* In large print such a problem fills a page.  */
#define MOST_TEXT 800

static void
own_clear (br__own *own)
{
  br__free (own->text);
  br_number_clear (&own->answer);
  br_number_clear (&own->mark);
  br__text_clear (&own->answer_text);
  br__worked_steps_clear (&own->steps);
  for (unsigned i = 0; i < BR__MOST_WRONG; i++)
    br_number_clear (&own->wrong[i]);
}

void
br__own_free (br__own *own, size_t count)
{
  for (size_t i = 0; i < count; i++)
    own_clear (&own[i]);
  br__free (own);
}

/* A run over another line of the sheet, so that its errors are not those of the line at hand.  */
static int
open_line (br__run *part, br__run *run, const br__line *line, br_error *error)
{
  br__run made = { .sheet = run->sheet, .text = line->text, .length = line->length, .error = error };
  *part = made;
  part->end = br__note_start (line->text, line->length);
  return !line->hidden && br__lex_start (&part->lex, part->text, part->end, error) == BR_OK;
}

/* The text behind the word at hand without blanks around.  */
static void
rest_of_line (const char **text, size_t *length, const br__run *run, const br__token *word)
{
  size_t start = word->offset + word->length, end = run->end, n;
  while (start < end && (n = br__blank_at (run->text + start, end - start)) > 0)
    start += n;
  while (end > start && br__blank_at (run->text + end - 1, 1))
    end--;
  *text = run->text + start;
  *length = end - start;
}

/* The mark behind `to`, or the sheet's where RUN has none.  */
static br_status
read_answer_mark (br__run *run, br__mark *mark, int *given)
{
  *given = br__lex_is_word (&run->lex, "to");
  if (!*given)
    return br__settings_mark (mark, &run->sheet->settings);
  br_status status = br__lex_next (&run->lex, run->error);
  return status == BR_OK ? br__read_mark (run, mark) : status;
}

/* The mark that the answer lies on, for those who are one off it; none where it lies on none.  */
static br_status
put_mark (br__own *own, br__value *v, const br__mark *mark, br__settings *s)
{
  br_number marks = BR_NUMBER_ZERO;
  br_status status = br__mark_size (&own->mark, mark, v, s);
  if (status == BR_OK)
    status = br_number_div (&marks, &own->answer, &own->mark);
  if (status == BR_OK && !(br_number_is_integer (&marks) && (own->dimension == BR_PLAIN || own->dimension == BR_LENGTH)))
    status = br_number_set_int (&own->mark, 0);
  br_number_clear (&marks);
  return status;
}

static br_status
put_answer (br__own *own, br__value *v, const br__tree *tree, const br__mark *mark, int to_mark, br__run *run)
{
  br__settings *s = &run->sheet->settings;
  br__rounded rounded = BR__ROUNDED_ZERO;
  const br_number *q = br_real_rational (&v->real);
  br_status status = BR_OK;
  if (to_mark)
    {
      status = br__round_value (&rounded, v, mark, BR_NEAREST, s, run->error);
      q = &rounded.value;
    }
  else if (!q)
    {
      status = br__fail (run->error, BR_DOMAIN, tree->base, tree->length, "an answer that is no fraction needs a mark");
      br__hint (run->error, "write `to 1/16` behind it");
    }
  own->dimension = v->dimension;
  own->style = br__settings_style (s);
  if (mark->unit)
    own->style.unit = mark->unit;
  own->style.feet = 0;
  own->decimal = br__unit_is_decimal (own->style.unit);
  if (status == BR_OK)
    status = br_number_set (&own->answer, q);
  if (status == BR_OK)
    status = put_mark (own, v, mark, s);
  if (status == BR_OK)
    br__put_measure (&own->answer_text, &own->answer, own->dimension, &own->style);
  br__rounded_clear (&rounded);
  return status;
}

/* Puts the names of TREE that have no value yet into WAITING, each once; 1 where there are some.  */
static int
list_waiting (br_list *waiting, const br__run *run, const br__tree *tree)
{
  int waits = 0;
  for (size_t i = 0; i < tree->count; i++)
    {
      const br__node *n = &tree->nodes[i];
      const char *name = tree->text + n->word;
      const br__value *v;
      size_t k = 0;
      if (n->op != BR__OP_NAME || br__graph_lookup (&v, run->sheet->graph, tree, n, NULL) == BR_OK)
        continue;
      waits = 1;
      while (k < br_list_size (waiting) && !br__same_word (name, n->word_length, br_list_text (waiting, k)))
        k++;
      if (k == br_list_size (waiting))
        br__list_bytes (waiting, name, n->word_length);
    }
  return waits;
}

/* The answer behind the word at hand of RUN, with its steps.  Where names have no value yet, *WAITS gets 1, they
   go into WAITING and OWN gets none; it is a mistake where WAITS is NULL.  */
static br_status
read_answer (br__own *own, int *waits, br_list *waiting, br__run *run)
{
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br__mark mark = BR__MARK_ZERO;
  br__worked_steps rules = BR__WORKED_STEPS_ZERO;
  br_text shown = BR_TEXT_ZERO;
  int to_mark = 0;
  br_status status = br__parse (&tree, &run->lex, run->error);
  if (status == BR_OK)
    status = read_answer_mark (run, &mark, &to_mark);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && waits && (*waits = list_waiting (waiting, run, &tree)))
    {
      br_number_clear (&mark.size);
      br__tree_clear (&tree);
      return BR_OK;
    }
  if (status == BR_OK)
    status = br__value_of (&v, run, &tree);
  if (status == BR_OK)
    status = put_answer (own, &v, &tree, &mark, to_mark, run);
  if (status == BR_OK)
    status = br__own_wrong (own, run, &tree, to_mark ? &mark : NULL);
  /* Where nothing is rounded, the mark is one that the answer lies on, and no step comes of it.  */
  if (status == BR_OK && !to_mark && br_number_sign (&own->answer) != 0)
    {
      mark.length = own->dimension == BR_LENGTH;
      mark.unit = NULL;
      status = br_number_abs (&mark.size, &own->answer);
    }
  if (status == BR_OK)
    status = br__explain (&own->steps, &rules, &shown, run, &tree, &mark);
  if (status != BR_OK && run->error && run->error->status == BR_OK)
    br__fail_plain (run->error, status, tree.base, tree.length);
  br__worked_steps_clear (&rules);
  br__text_clear (&shown);
  br_number_clear (&mark.size);
  br__value_clear (&v);
  br__tree_clear (&tree);
  return status;
}

br_status
br__own_collect (br__own **own, size_t *count, br__run *run)
{
  br__own *rows = NULL;
  size_t room = 0, n = 0;
  const char *text = NULL;
  size_t length = 0;
  br_status status = BR_OK;
  for (const br__line *line = run->sheet->first; line && status == BR_OK; line = line->next)
    {
      br__run part;
      br_error error;
      br__own made;
      memset (&error, 0, sizeof error);
      memset (&made, 0, sizeof made);
      if (!open_line (&part, run, line, &error))
        continue;
      br__token word = part.lex.token;
      if (br__lex_is_word (&part.lex, "problem"))
        rest_of_line (&text, &length, &part, &word);
      else if (text && br__lex_is_word (&part.lex, "answer") && br__lex_next (&part.lex, &error) == BR_OK
               && !br__lex_is_sign (&part.lex, '='))
        {
          /* A line that was wrong when it was read was told of then; one that waits is none yet.  */
          status = read_answer (&made, NULL, NULL, &part);
          if (status == BR_OK)
            {
              made.text = br__strndup (text, length);
              text = NULL;
              if (!made.text || !br__grow (&rows, &room, n + 1, sizeof *rows))
                status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
              else
                {
                  rows[n++] = made;
                  memset (&made, 0, sizeof made);
                }
            }
          else if (status != BR_NO_MEMORY)
            status = BR_OK;
        }
      own_clear (&made);
    }
  if (status != BR_OK)
    {
      br__own_free (rows, n);
      return status;
    }
  *own = rows;
  *count = n;
  return BR_OK;
}

br_status
br__do_problem (br__run *run)
{
  const char *text;
  size_t length;
  rest_of_line (&text, &length, run, &run->word);
  if (!length)
    {
      br__fail (run->error, BR_SYNTAX, run->end, 0, "the line ends where the problem's text should stand");
      return BR_SYNTAX;
    }
  if (length > MOST_TEXT)
    return br__fail (run->error, BR_TOO_BIG, (size_t) (text - run->text), length, "a problem of more than %d bytes", MOST_TEXT);
  run->kept = 1;
  br_record *r = br__record_new ("problem");
  br__put_bytes (r, "text", text, length);
  return br__emit (run, r);
}

/* 1 if the last problem of the sheet still wants an answer.  */
static int
wants_answer (br__run *run)
{
  int wants = 0;
  for (const br__line *line = run->sheet->first; line; line = line->next)
    {
      br__run part;
      br_error error;
      if (!open_line (&part, run, line, &error))
        continue;
      if (br__lex_is_word (&part.lex, "problem"))
        wants = 1;
      else if (br__lex_is_word (&part.lex, "answer"))
        wants = 0;
    }
  return wants;
}

br_status
br__do_answer (br__run *run)
{
  br__own own;
  br_status status;
  memset (&own, 0, sizeof own);
  if (!wants_answer (run))
    {
      status = br__fail (run->error, BR_SYNTAX, run->word.offset, run->word.length,
                         "there is no problem that waits for an answer");
      br__hint (run->error, "write `problem TEXT` first");
      return status;
    }
  br_record *r = br__record_new ("answer");
  int waits = 0;
  status = read_answer (&own, &waits, br__put_list (r, "waiting"), run);
  if (status == BR_OK)
    {
      run->kept = 1;
      br__put_exact (r, "exact", waits ? NULL : &own.answer);
      br__put_from (r, "shown", &own.answer_text);
      status = br__emit (run, r);
    }
  else
    br__record_free (r);
  own_clear (&own);
  return status;
}
