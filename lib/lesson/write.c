/* SPDX-License-Identifier: LGPL-3.0-or-later
   write.c - worksheets and keys as plain text and as a table.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "measure/unbroken.h"
#include "table/rows.h"
#include "lesson/figure.h"
#include "lesson/write.h"

br_status
br__each_task (br__run *run, const br__worksheet *w, int key, const char *what, br__task_writer *writer, void *user)
{
  br__helper h = { NULL };
  br__task t;
  size_t papers = key ? (size_t) w->versions : br__papers_of (w);
  br_status status = br__helper_start (&h);
  memset (&t, 0, sizeof t);
  for (size_t paper = 0; paper < papers && status == BR_OK; paper++)
    {
      size_t version = key ? paper : br__paper_version (w, paper);
      status = br__lesson_progress (run, what, paper, papers);
      for (size_t i = 0; i < w->problem_count && status == BR_OK; i++)
        {
          status = br__task_make (&t, &h, w, version, i, key);
          if (status == BR_OK)
            status = writer (user, w, &t, paper, version, i);
        }
    }
  br__task_clear (&t);
  br__helper_end (&h);
  if (status != BR_OK && run->error && run->error->status == BR_OK)
    br__fail_plain (run->error, status, 0, 0);
  return status;
}

void
br__put_instruction (br_text *t, const br__worksheet *w)
{
  const char *own = w->fields[BR__FIELD_INSTRUCTION];
  if (own && *own)
    br__text_puts (t, own);
  else
    br__sentences_put (t, w->words, w->ruler.metric ? "Show your steps. Write lengths with their unit."
                                                : "Show your steps. Write fractions in lowest terms, and lengths with their unit.");
}

void
br__put_caution (br_text *t, const br__worksheet *w)
{
  static const char *const sentences[] =
  {
    "The sizes are for practice, not for building.",
    "At a saw do as your teacher says: eyes covered, fingers away from the blade.",
    "A real gap beside a moving part must not be one that pinches a finger: ask your teacher, who knows the local rules."
  };
  unsigned dangers = 0;
  for (size_t i = 0; i < w->row_count; i++)
    dangers |= w->rows[i].topic ? w->rows[i].topic->dangers : 0;
  for (unsigned i = 0; dangers && i < 3; i++)
    if (i == 0 || (dangers & (i == 1 ? BR__DANGER_SAW : BR__DANGER_GAP)))
      {
        br__text_puts (t, i ? " " : "");
        br__sentences_put (t, w->words, sentences[i]);
      }
}

int
br__put_field_label (br_text *t, const char **text, const br__worksheet *w, size_t field)
{
  static const char *const labels[] = { "School:", "Class:", "Date:" };
  if (field >= BR__FIELD_INSTRUCTION || !w->fields[field])
    return 0;
  br__sentences_put (t, w->words, labels[field]);
  *text = w->fields[field];
  return 1;
}

const char *
br__next_word (const br__worksheet *w, const br__task *task, unsigned *told)
{
  const char *found = w->words && w->words->off ? NULL : br__sentences_explain (told, task->english);
  return found ? br__sentences_find (w->words, found) : NULL;
}

void
br__put_step (br_text *t, const char *step)
{
  while (*step)
    {
      int sign = step[0] == ' ' && (step[1] == '*' || step[1] == '/') && step[2] == ' ';
      if (sign)
        br__text_puts (t, step[1] == '*' ? " \xC3\x97 " : " \xC3\xB7 ");
      else
        br__text_putc (t, *step);
      step += sign ? 3 : 1;
    }
}

/* What a call on the left of a step is in words, where {0} and {1} are what stands in its parentheses.  Of any other, the right
   side says enough.  */
static const struct { const char *name, *form; } calls[] =
{
  { "nearest", "{0} to the nearest {1} is " }, { "up", "{0} up to the next {1} is " }, { "down", "{0} down to the next {1} is " },
  { "sqrt", "the square root of {0} is " }, { "abs", "{0} without its sign is " }, { "max", "the largest of {0} is " },
  { "min", "the smallest of {0} is " }
};

/* The call on the left of STEP, if it is one and nothing else: *NAME bytes of its name, *FIRST at the end of the first value in its
   parentheses, *LAST at their end.  Else 0.  */
static int
is_call (size_t *name, size_t *first, size_t *last, const char *step)
{
  int depth = 0;
  size_t at = *name = strcspn (step, " (=");
  *first = 0;
  if (!at || step[at] != '(')
    return 0;
  do
    {
      depth += (step[at] == '(') - (step[at] == ')');
      if (depth == 1 && step[at] == ',' && !*first)
        *first = at;
    }
  while (depth && step[++at]);
  *last = at;
  *first = *first ? *first : at;
  return step[at] == ')' && (strncmp (step + at, ") = ", 4) == 0 || strncmp (step + at, ") \xE2\x89\x88 ", 6) == 0);
}

/* LENGTH bytes of a step.  */
static void
put_part (br_text *t, const char *step, size_t length)
{
  br_text part = BR_TEXT_ZERO;
  br__text_put (&part, step, length);
  br__put_step (t, br__text_string (&part));
  t->failed |= part.failed;
  br__text_clear (&part);
}

void
br__put_step_in_words (br_text *t, const char *step)
{
  size_t name, first, last, which = 0;
  if (!is_call (&name, &first, &last, step))
    {
      br__put_step (t, step);
      return;
    }
  while (which < sizeof calls / sizeof calls[0] && (strlen (calls[which].name) != name || memcmp (calls[which].name, step, name) != 0))
    which++;
  const char *form = which < sizeof calls / sizeof calls[0] ? calls[which].form : "";
  for (; *form; form++)
    if (strncmp (form, "{0}", 3) == 0)
      put_part (t, step + name + 1, (strstr (form, "{1}") ? first : last) - name - 1), form += 2;
    else if (strncmp (form, "{1}", 3) == 0)
      {
        if (last - first == 3 && step[first + 2] == '1')
          br__text_puts (t, "whole number");
        else
          put_part (t, step + first + 2, last > first + 2 ? last - first - 2 : 0);
        form += 2;
      }
    else
      br__text_putc (t, *form);
  br__text_puts (t, step[last + 2] == '=' ? "" : which < sizeof calls / sizeof calls[0] ? "about " : "\xE2\x89\x88 ");
  br__put_step (t, strchr (step + last + 2, ' ') + 1);
}

/* ---- Text ---- */

#define TEXT_WIDTH 78

/* S, broken at blanks that are in no size, each line behind INDENT blanks but the first.  */
static void
put_wrapped (br_text *t, const char *s, size_t indent)
{
  size_t column = indent;
  while (*s)
    {
      size_t n = strcspn (s, " ");
      while (br__is_in_measure (s, n))
        n += 1 + strcspn (s + n + 1, " ");
      if (column > indent && column + 1 + n > TEXT_WIDTH)
        {
          br__text_printf (t, "\n%*s", (int) indent, "");
          column = indent;
        }
      else if (column > indent)
        {
          br__text_putc (t, ' ');
          column++;
        }
      br__text_put (t, s, n);
      column += n;
      s += n + (s[n] == ' ');
    }
  br__text_putc (t, '\n');
}

/* The inch or centimetre around the arrow in characters: its whole numbers at the ends, a stroke a mark.  Lengths begin at 0, which
   is not on it then.  */
static void
put_ruler (br_text *t, const br__problem *p, const br__worksheet *w)
{
  int64_t whole = br__ratio_floor (p->given[0]);
  const int columns = p->metric ? 60 : 64;
  br__ratio place = br__ratio_mul (br__ratio_part (p->given[0]), br__ratio_of (columns, 1));
  int step = columns / (int) p->level, at = (int) (place.num / place.den);
  br__text_printf (t, "      %*sv\n      ", at, "");
  for (int i = 0; i <= columns; i++)
    br__text_putc (t, i % step == 0 ? '|' : ' ');
  br__text_puts (t, "\n      ");
  for (int i = 0; i <= columns; i++)
    br__text_putc (t, i % (columns / 2) == 0 || (!p->metric && i % (columns / 4) == 0 && p->level > 4) ? '|' : ' ');
  br__text_printf (t, "\n      %-*lld%lld\n", columns, (long long) whole, (long long) whole + 1);
  if (whole > 0)
    {
      br__text_puts (t, "      ");
      br__sentences_put (t, w->words, "0 is further left: measure from there.");
      br__text_putc (t, '\n');
    }
}

static void
put_paragraph (br_text *t, const br__worksheet *w, void (*put) (br_text *t, const br__worksheet *w))
{
  br_text words = BR_TEXT_ZERO;
  put (&words, w);
  if (words.length)
    put_wrapped (t, br__text_string (&words), 0);
  t->failed |= words.failed;
  br__text_clear (&words);
}

static void
put_heading (br_text *t, const br__worksheet *w, size_t paper, size_t version, int key)
{
  const char *title = w->title ? w->title : br__sentences_find (w->words, "Worksheet"), *name = br__paper_name (w, paper), *text;
  if (paper > 0)
    br__text_putc (t, '\f');
  if (key)
    {
      br__text_printf (t, "Key: %s    Version %zu of %lld, seed %lld\n\n", title, version + 1, (long long) w->versions, (long long) w->seed);
      return;
    }
  br__text_printf (t, "%s    ", title);
  br__sentences_put (t, w->words, "Version");
  br__text_printf (t, " %zu, ", version + 1);
  br__sentences_put (t, w->words, "seed");
  br__text_printf (t, " %lld\n", (long long) w->seed);
  for (size_t i = 0; i < BR__FIELDS; i++)
    if (br__put_field_label (t, &text, w, i))
      br__text_printf (t, " %s\n", *text ? text : "__________________");
  br__sentences_put (t, w->words, "Name:");
  br__text_printf (t, " %s\n", *name ? name : "______________________________");
  put_paragraph (t, w, br__put_instruction);
  put_paragraph (t, w, br__put_caution);
  br__text_putc (t, '\n');
}

static void
put_key (br_text *t, const br__task *task)
{
  br__text_printf (t, "    Answer: %s\n", br__text_string (&task->answer));
  for (size_t i = 0; i < task->steps.count; i++)
    {
      br__text_puts (t, "      ");
      br__put_step (t, br__text_string (&task->steps.rows[i]));
      br__text_putc (t, '\n');
    }
  br__text_puts (t, "    Usual wrong answers:\n");
  for (unsigned i = 0; i < task->wrong_count && i < BR__WRONG_IN_KEY; i++)
    {
      br_text row = BR_TEXT_ZERO;
      br__text_printf (&row, "%s: %s; %s", br__text_string (&task->wrong[i]), br__mistake_name (task->mistake[i]),
                       br__mistake_shows (task->mistake[i]));
      br__text_puts (t, "      ");
      put_wrapped (t, br__text_string (&row), 8);
      br__text_clear (&row);
    }
  br__text_putc (t, '\n');
}

typedef struct text_writer
{
  br_text *out;
  int key;
  unsigned told;                /* words of the trade that this paper has explained */
  br_text words;                /* those, to stand at its foot */
} text_writer;

static br_status
text_task (void *user, const br__worksheet *w, br__task *task, size_t paper, size_t version, size_t index)
{
  text_writer *x = user;
  const char *word;
  if (index == 0)
    {
      put_heading (x->out, w, paper, version, x->key);
      x->told = 0;
      br__text_reset (&x->words);
    }
  br__text_printf (x->out, "%2zu. ", index + 1);
  put_wrapped (x->out, br__text_string (&task->text), 4);
  if (task->other.length)
    {
      br__text_puts (x->out, "    ");
      put_wrapped (x->out, br__text_string (&task->other), 4);
    }
  if (x->key)
    put_key (x->out, task);
  else
    {
      if (task->problem && task->problem->topic->picture)
        put_ruler (x->out, task->problem, w);
      for (int i = 0; i < task->room; i++)
        br__text_putc (x->out, '\n');
      br__text_puts (x->out, "    ");
      br__sentences_put (x->out, w->words, "Answer:");
      br__text_puts (x->out, " ______________\n\n");
      while ((word = br__next_word (w, task, &x->told)) != NULL)
        br__text_printf (&x->words, "%s\n", word);
      if (index + 1 == w->problem_count)
        br__text_puts (x->out, br__text_string (&x->words));
      x->out->failed |= x->words.failed;
    }
  return BR_OK;
}

br_status
br__worksheet_text (br_text *out, const br__worksheet *w, br__run *run, int key)
{
  text_writer x = { .out = out, .key = key };
  br_status status = br__each_task (run, w, key, key ? "writing the key" : "writing papers", text_task, &x);
  br__text_clear (&x.words);
  return status;
}

/* ---- Table ---- */

static void
put_next (br_text *t, const char *cell)
{
  br__text_putc (t, ',');
  br__put_cell (t, cell);
}

static br_status
csv_task (void *user, const br__worksheet *w, br__task *task, size_t paper, size_t version, size_t index)
{
  text_writer *x = user;
  br_text steps = BR_TEXT_ZERO;
  if (!x->key)
    {
      br__put_cell (x->out, br__paper_name (w, paper));
      br__text_printf (x->out, ",%zu,%zu", version + 1, index + 1);
      put_next (x->out, task->topic);
      put_next (x->out, br__text_string (&task->text));
      if (task->problem)
        br__put_picture (&steps, task->problem, w->words);
      put_next (x->out, br__text_string (&steps));
      br__text_putc (x->out, '\n');
      x->out->failed |= steps.failed;
      br__text_clear (&steps);
      return BR_OK;
    }
  br__text_printf (x->out, "%zu,%zu", version + 1, index + 1);
  put_next (x->out, task->topic);
  put_next (x->out, br__text_string (&task->text));
  put_next (x->out, br__text_string (&task->answer));
  put_next (x->out, br__text_string (&task->exact));
  put_next (x->out, task->unit);
  put_next (x->out, task->ask);
  put_next (x->out, br__text_string (&task->mark));
  for (size_t i = 0; i < task->steps.count; i++)
    br__text_printf (&steps, "%s%s", i ? "; " : "", br__text_string (&task->steps.rows[i]));
  put_next (x->out, br__text_string (&steps));
  for (unsigned i = 0; i < BR__MOST_WRONG; i++)
    {
      put_next (x->out, i < task->wrong_count ? br__text_string (&task->wrong[i]) : "");
      put_next (x->out, i < task->wrong_count ? br__mistake_name (task->mistake[i]) : "");
    }
  br__text_putc (x->out, ',');
  if (task->points)
    br__text_printf (x->out, "%lld", (long long) task->points);
  br__text_puts (x->out, !task->bonus ? "" : task->points ? " bonus" : "bonus");
  br__text_putc (x->out, '\n');
  x->out->failed |= steps.failed;
  br__text_clear (&steps);
  return BR_OK;
}

br_status
br__worksheet_csv (br_text *out, const br__worksheet *w, br__run *run, int key)
{
  text_writer x = { .out = out, .key = key };
  br__text_puts (out, key ? "version,problem,topic,text,answer,exact,unit,form,mark,steps" : "name,version,problem,topic,text,picture\n");
  for (int i = 1; key && i <= BR__MOST_WRONG; i++)
    br__text_printf (out, ",wrong %d,shows %d", i, i);
  if (key)
    br__text_puts (out, ",points\n");
  return br__each_task (run, w, key, key ? "writing the key" : "writing papers", csv_task, &x);
}
