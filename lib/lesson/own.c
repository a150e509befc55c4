/* SPDX-License-Identifier: LGPL-3.0-or-later
   own.c - the teacher's own problems.  They live in the sheet as its lines, and are collected from
   there whenever a worksheet asks for them, so that undo and save need to know nothing of them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/answer.h"
#include "lesson/verdict.h"
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

int
br__open_line (br__run *part, br__run *run, const br__line *line, br_error *error)
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

/* The mark that the answer lies on, for those who are one off it; none where it lies on none, or is read from no ruler: a
   plain number, or a decimal of inches.  */
static br_status
put_mark (br__own *own, br__value *v, const br__mark *mark, int to_mark, br__settings *s)
{
  br_number marks = BR_NUMBER_ZERO;
  int is_on_ruler = own->dimension == BR_LENGTH && (own->ask != BR__ASK_DECIMAL || br__unit_is_decimal (own->style.unit));
  br_status status = br__mark_size (&own->mark, mark, v, s);
  if (status == BR_OK)
    status = br_number_div (&marks, &own->answer, &own->mark);
  if (status == BR_OK && !(br_number_is_integer (&marks) && (to_mark ? own->dimension == BR_PLAIN || own->dimension == BR_LENGTH : is_on_ruler)))
    status = br_number_set_int (&own->mark, 0);
  br_number_clear (&marks);
  return status;
}

void
br__own_put (br_text *t, const br__own *own, const br_number *x)
{
  const br_unit *unit = br__own_unit (own);
  br_number in_unit = BR_NUMBER_ZERO, size = BR_NUMBER_ZERO;
  int decimal = own->ask == BR__ASK_DECIMAL;
  int mixed = own->ask == BR__ASK_LENGTH && !own->style.feet && (unit ? strcmp (unit->name, "ft") != 0 : own->dimension == BR_PLAIN);
  if (!decimal && !mixed && !own->percent && own->ask != BR__ASK_ONE_FRACTION)
    {
      br__put_measure (t, x, own->dimension, &own->style);
      return;
    }
  if (br_number_set_ratio (&size, unit && unit->num ? unit->num : 1, unit ? unit->den : 1) != BR_OK
      || br_number_div (&in_unit, x, &size) != BR_OK)
    t->failed = 1;
  if (decimal)
    br__put_decimal (t, &in_unit, 12);
  else if (own->percent)
    br__put_measure (t, &in_unit, BR_PLAIN, NULL);
  else if (mixed)
    br__put_mixed (t, &in_unit);
  else
    br__put_number (t, &in_unit);
  if (unit && !decimal && strcmp (unit->name, "in") == 0)
    br__text_putc (t, '"');
  else if (unit)
    br__text_printf (t, " %s", unit->name);
  br_number_clear (&in_unit);
  br_number_clear (&size);
}

/* The form that is asked for: the one that the teacher wrote the answer in, if IS_WRITTEN, else the one of its unit, and
   any where it is no fraction of the shop, which is told as a decimal.  */
static br__ask
ask_of (br__own *own, int is_written, const br__tree *tree)
{
  br__written f = br__written_of (tree->text, is_written ? tree->length : 0);
  own->percent = f.percent;
  if (f.percent)
    return BR__ASK_ANY;
  if (f.decimal)
    return BR__ASK_DECIMAL;
  if (own->dimension == BR_PLAIN && br_number_is_integer (&own->answer))
    return BR__ASK_COUNT;
  if (f.fraction)
    return f.mixed || f.num < f.den ? BR__ASK_LENGTH : BR__ASK_ONE_FRACTION;
  if (br__unit_is_decimal (own->style.unit) && own->dimension != BR_PLAIN)
    return BR__ASK_DECIMAL;
  br_text t = BR_TEXT_ZERO;
  br__put_measure (&t, &own->answer, own->dimension, &own->style);
  f = br__written_of (br__text_string (&t), t.length);
  br__text_clear (&t);
  return f.decimal ? BR__ASK_ANY : BR__ASK_LENGTH;
}

/* `as WORD` behind the answer; ASK stays where it does not stand there.  */
static br_status
read_form (br__ask *ask, br__run *run)
{
  static const struct { const char *word; br__ask ask; } rows[] =
  {
    { "decimal", BR__ASK_DECIMAL }, { "fraction", BR__ASK_ONE_FRACTION }, { "mixed", BR__ASK_LENGTH }, { "any", BR__ASK_ANY }
  };
  if (!br__lex_is_word (&run->lex, "as"))
    return BR_OK;
  br_status status = br__lex_next (&run->lex, run->error);
  for (size_t i = 0; i < sizeof rows / sizeof rows[0] && status == BR_OK; i++)
    if (br__lex_is_word (&run->lex, rows[i].word))
      {
        *ask = rows[i].ask;
        return br__lex_next (&run->lex, run->error);
      }
  return status == BR_OK ? br__expected (run, "`decimal`, `fraction`, `mixed` or `any`") : status;
}

/* A decimal that does not end is none that can be asked for.  */
static br_status
check_form (const br__own *own, const br__tree *tree, br__run *run)
{
  const br_unit *unit = br__own_unit (own);
  br_text t = BR_TEXT_ZERO;
  br_number in_unit = BR_NUMBER_ZERO, size = BR_NUMBER_ZERO;
  br_status status = br_number_set_ratio (&size, unit && unit->num ? unit->num : 1, unit ? unit->den : 1);
  if (status == BR_OK)
    status = br_number_div (&in_unit, &own->answer, &size);
  int ends = status != BR_OK || own->ask != BR__ASK_DECIMAL || br__put_decimal (&t, &in_unit, 12);
  if (t.failed)
    status = BR_NO_MEMORY;
  else if (!ends)
    {
      status = br__fail (run->error, BR_DOMAIN, tree->base, tree->length, "as a decimal this answer does not end");
      br__hint (run->error, "write `to 0.01` behind it");
    }
  br__text_clear (&t);
  br_number_clear (&in_unit);
  br_number_clear (&size);
  return status;
}

/* 1 where the first unit of TREE is a foot, as in 4' 3-1/2".  */
static int
begins_in_feet (const br__tree *tree)
{
  const br_unit *unit = NULL;
  size_t end = 0;
  for (size_t at = 1; at < tree->length && !unit; at++)
    unit = br__unit_scan (&end, tree->text, tree->length, at);
  return unit && strcmp (unit->name, "ft") == 0;
}

/* ASK is what the teacher said, BR__ASK_COUNT where nothing.  */
static br_status
put_answer (br__own *own, br__value *v, const br__tree *tree, const br__mark *mark, int to_mark, br__ask ask, br__run *run)
{
  br__settings *s = &run->sheet->settings;
  br__rounded rounded = BR__ROUNDED_ZERO;
  const br_number *q = br_real_rational (&v->real);
  br_measure written = BR_MEASURE_ZERO;
  int is_written = br_measure_read (&written, tree->text, tree->length, NULL, NULL) == BR_OK;
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
  if (mark->unit || (is_written && written.unit))
    own->style.unit = br__unit_base (mark->unit ? mark->unit : written.unit);
  own->style.feet = is_written && written.unit && strcmp (written.unit->name, "in") == 0 && begins_in_feet (tree);
  if (status == BR_OK)
    status = br_number_set (&own->answer, q);
  if (status == BR_OK)
    own->ask = ask != BR__ASK_COUNT ? ask : ask_of (own, is_written, tree);
  /* Where the sheet's unit makes it a decimal, one that is cut short has always done.  */
  if (status == BR_OK && (ask == BR__ASK_DECIMAL || is_written))
    status = check_form (own, tree, run);
  if (status == BR_OK)
    status = put_mark (own, v, mark, to_mark, s);
  if (status == BR_OK)
    br__own_put (&own->answer_text, own, &own->answer);
  br__rounded_clear (&rounded);
  br_measure_clear (&written);
  return status;
}

/* The last step of an answer as a decimal: the value in the form that is asked for.  */
static void
add_form_step (br__own *own)
{
  br_text last = BR_TEXT_ZERO;
  const char *sign = own->steps.count ? strstr (br__text_string (&own->steps.rows[own->steps.count - 1]), " = ") : NULL;
  br__put_measure (&last, &own->answer, own->dimension, &own->style);
  if ((own->ask == BR__ASK_DECIMAL || own->ask == BR__ASK_ONE_FRACTION)
      && strcmp (br__text_string (&last), br__text_string (&own->answer_text)) != 0
      && !(sign && strcmp (sign + 3, br__text_string (&own->answer_text)) == 0))
    br__worked_steps_add (&own->steps, br__text_string (&last), "=", br__text_string (&own->answer_text));
  own->steps.failed |= last.failed;
  br__text_clear (&last);
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
  br__ask ask = BR__ASK_COUNT;
  br_status status = br__parse (&tree, &run->lex, run->error);
  if (status == BR_OK)
    status = read_answer_mark (run, &mark, &to_mark);
  if (status == BR_OK)
    status = read_form (&ask, run);
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
    status = put_answer (own, &v, &tree, &mark, to_mark, ask, run);
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
  if (status == BR_OK)
    add_form_step (own);
  if (status != BR_OK && run->error && run->error->status == BR_OK)
    br__fail_plain (run->error, status, tree.base, tree.length);
  br__worked_steps_clear (&rules);
  br__text_clear (&shown);
  br_number_clear (&mark.size);
  br__value_clear (&v);
  br__tree_clear (&tree);
  return status;
}

/* TEXT with the values of the formulas that stand in braces, as in "a wheel of {wheel}"; to be freed.  Braces that
   hold no formula with a value stay.  */
static char *
fill_in (const char *text, size_t length, br__run *run)
{
  br_text t = BR_TEXT_ZERO;
  for (size_t at = 0; at < length; at++)
    {
      const char *end = text[at] == '{' ? memchr (text + at, '}', length - at) : NULL;
      br__value v = BR__VALUE_ZERO;
      br__tree tree = BR__TREE_ZERO;
      br_error error;
      br__run part = { .sheet = run->sheet, .text = text + at + 1, .length = end ? (size_t) (end - text) - at - 1 : 0, .error = &error };
      part.end = part.length;
      br_text value = BR_TEXT_ZERO;
      int filled = end && br__lex_start (&part.lex, part.text, part.end, &error) == BR_OK
                   && br__parse (&tree, &part.lex, &error) == BR_OK && part.lex.token.type == BR__END
                   && br__value_of (&v, &part, &tree) == BR_OK && br__shown (&value, &v, &run->sheet->settings) == BR_OK;
      if (filled)
        {
          br__text_puts (&t, br__text_string (&value));
          at = (size_t) (end - text);
        }
      else
        br__text_putc (&t, text[at]);
      t.failed |= value.failed;
      br__text_clear (&value);
      br__value_clear (&v);
      br__tree_clear (&tree);
    }
  char *made = t.failed ? NULL : br__strndup (br__text_string (&t), t.length);
  br__text_clear (&t);
  return made;
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
      if (!br__open_line (&part, run, line, &error))
        continue;
      br__token word = part.lex.token;
      if (br__lex_is_word (&part.lex, "problem"))
        rest_of_line (&text, &length, &part, &word);
      else if (text && br__lex_is_word (&part.lex, "answer") && br__lex_next (&part.lex, &error) == BR_OK
               && !br__lex_is_sign (&part.lex, '='))
        {
          /* Errors were reported when the line was read; lines that still wait are skipped.  */
          status = read_answer (&made, NULL, NULL, &part);
          if (status == BR_OK)
            {
              made.text = fill_in (text, length, run);
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
  for (const br__line *line = run->sheet->last; line; line = line->prev)
    {
      br__run part;
      br_error error;
      if (!br__open_line (&part, run, line, &error))
        continue;
      if (br__lex_is_word (&part.lex, "problem"))
        return 1;
      if (br__lex_is_word (&part.lex, "answer"))
        return 0;
    }
  return 0;
}

/* "answer 1:4".  */
static void
hint_fraction (br__run *run)
{
  const char *colon = run->text + run->error->offset;
  int left = 0, right = 0;
  while (run->error->offset > (size_t) left && br__is_digit (colon[-left - 1]))
    left++;
  while (run->error->offset + (size_t) right + 1 < run->end && br__is_digit (colon[right + 1]))
    right++;
  if (*colon == ':' && left && right)
    br__hint (run->error, "write the ratio as a fraction, `answer %.*s/%.*s`; pupils may answer `%.*s`", left, colon - left, right, colon + 1,
              left + right + 1, colon - left);
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
  if (status == BR_SYNTAX && run->error && run->error->offset < run->end)
    hint_fraction (run);
  own_clear (&own);
  return status;
}
