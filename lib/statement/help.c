/* SPDX-License-Identifier: LGPL-3.0-or-later
   help.c - help and completion, both from the tables of statements and functions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shape/shape.h"
#include "draw/draw.h"
#include "statement/statements.h"
#include "phrase/topics.h"
#include "wood/wood.h"
#include "formula/words.h"

static void
put_lines (br_list *lines, const char *text)
{
  while (*text)
    {
      size_t n = strcspn (text, "\n");
      br__list_bytes (lines, text, n);
      text += n + (text[n] == '\n');
    }
}

/* Form and summary side by side where a line of 80 has room for both.  */
#define FORM_WIDTH 26
#define LINE_WIDTH 80

static void
put_row (br_list *lines, const char *form, const char *summary)
{
  br_text t = BR_TEXT_ZERO;
  if (strlen (form) <= FORM_WIDTH && FORM_WIDTH + 3 + strlen (summary) < LINE_WIDTH)
    br__text_printf (&t, "  %-*s %s", FORM_WIDTH, form, summary);
  else
    {
      br__text_printf (&t, "  %s", form);
      br__list_from (lines, &t);
      br__text_printf (&t, "      %s", summary);
    }
  br__list_from (lines, &t);
}

static void
put_function (br_list *lines, const br__function *f)
{
  br_text t = BR_TEXT_ZERO;
  br__text_puts (&t, f->name);
  if (*f->parameters)
    br__text_printf (&t, "(%s)", f->parameters);
  put_row (lines, br__text_string (&t), f->summary);
  br__text_clear (&t);
}

/* Every statement that is a setting or, otherwise, is none.  */
static void
put_statements (br_list *lines, int setting)
{
  const br__statement *st;
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    if (st->setting == setting)
      put_row (lines, st->form, st->summary);
}

static void
put_functions (br_list *lines)
{
  for (size_t i = 0; br__function_at (i); i++)
    put_function (lines, br__function_at (i));
}

/* How each is written, as many to a line as it has room for: what each does would be more than a screen.  */
static void
put_forms (br_list *lines)
{
  br_text line = BR_TEXT_ZERO, form = BR_TEXT_ZERO;
  const br__function *f;
  for (size_t i = 0; (f = br__function_at (i)) != NULL; i++)
    {
      br__text_reset (&form);
      br__text_printf (&form, *f->parameters ? "  %s(%s)" : "  %s", f->name, f->parameters);
      if (line.length + form.length > LINE_WIDTH)
        {
          br__list_text (lines, br__text_string (&line));
          br__text_reset (&line);
        }
      br__text_puts (&line, br__text_string (&form));
    }
  br__list_from (lines, &line);
  br__text_clear (&form);
}

static br_status
help_first (br__run *run)
{
  br_record *r = br__record_new ("help");
  put_lines (br__put_list (r, "lines"), br__first_page);
  return br__emit (run, r);
}

static br_status
help_all (br__run *run)
{
  br_record *r = br__record_new ("help");
  br_list *lines = br__put_list (r, "lines");
  put_lines (lines, "A measure on its own is shown: exact, as a decimal, and on the ruler.\n"
                    "NAME = VALUE sets a dimension; # starts a note.\n\nStatements");
  put_statements (lines, 0);
  put_lines (lines, " \nSettings (alone, they show what is set)");
  put_statements (lines, 1);
  put_lines (lines, " \nFunctions (one value needs no brackets: full 1-3/16)");
  put_functions (lines);
  put_lines (lines, " \nhelp WORD tells more.");
  return br__emit (run, r);
}

/* The row of a word of a topic: the statement of that name, else the function.  */
static void
put_word (br_list *lines, const char *word, size_t length)
{
  const br__statement *st = br__statement_find (word, length);
  const br__function *f = st ? NULL : br__function_find (word, length);
  br_text t = BR_TEXT_ZERO;
  if (f)
    put_function (lines, f);
  if (!st)
    return;
  /* The long forms are for `help WORD`.  */
  br__text_put (&t, word, length);
  put_row (lines, strlen (st->form) <= FORM_WIDTH ? st->form : br__text_string (&t), st->summary);
  br__text_clear (&t);
}

static br_status
help_topic (br__run *run, const br__topic *topic)
{
  br_record *r = br__record_new ("help");
  br_list *lines = br__put_list (r, "lines");
  put_lines (lines, topic->title);
  put_lines (lines, topic->examples);
  if (!topic->words && strcmp (topic->word, "settings") == 0)
    put_statements (lines, 1);
  else if (!topic->words)
    put_forms (lines);
  else if (*topic->examples)
    put_lines (lines, " ");
  for (const char *w = topic->words; w && *w; w += strcspn (w, " "), w += *w == ' ')
    put_word (lines, w, strcspn (w, " "));
  return br__emit (run, r);
}

/* Lines of TEXT that go on in the next are one, so that the screen breaks them where it ends; those that are set in are
   lines of their own.  */
static void
put_paragraphs (br_list *lines, const char *text)
{
  br_text t = BR_TEXT_ZERO;
  while (*text)
    {
      size_t n = strcspn (text, "\n");
      br__text_put (&t, text, n);
      int goes_on = text[n] && *text != ' ' && text[n + 1] != ' ' && text[n + 1] != '\n';
      text += n + (text[n] != 0);
      if (goes_on)
        br__text_puts (&t, text[-2] == '.' ? "  " : " ");
      else
        {
          br__list_from (lines, &t);
          br__text_reset (&t);
        }
    }
  br__text_clear (&t);
}

static br_status
help_statement (br__run *run, const br__statement *st)
{
  br_record *r = br__record_new ("help");
  br_list *lines = br__put_list (r, "lines");
  br_text t = BR_TEXT_ZERO;
  put_lines (lines, st->form);
  br__text_printf (&t, "  %s", st->summary);
  br__list_from (lines, &t);
  if (st->help)
    put_paragraphs (lines, st->help);
  return br__emit (run, r);
}

static br_status
help_function (br__run *run, const br__function *f)
{
  br_record *r = br__record_new ("help");
  br_list *lines = br__put_list (r, "lines");
  br_text t = BR_TEXT_ZERO;
  put_function (lines, f);
  if (f->rule)
    {
      br__text_printf (&t, "  The rule: %s.", f->rule);
      br__list_from (lines, &t);
      br__text_printf (&t, "  Where it is from: %s.", f->source);
      br__list_from (lines, &t);
    }
  if (f->formula)
    {
      br__text_puts (&t, "  As a formula: ");
      br__shop_put_formula (&t, f);
      br__list_from (lines, &t);
    }
  return br__emit (run, r);
}

static br_status
no_help (br__run *run, const br__token *t)
{
  const char *word = run->text + t->offset;
  const br__statement *st;
  br__search search;
  br__search_start (&search, word, t->length);
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    br__search_offer (&search, st->word);
  for (size_t i = 0; br__function_at (i); i++)
    br__search_offer (&search, br__function_at (i)->name);
  for (const br__topic *topic = br__topics; topic->word; topic++)
    br__search_offer (&search, topic->word);
  br__fail (run->error, BR_SYNTAX, t->offset, t->length, "there is no help on `%.*s`",
            br__clip (word, t->length, 40), word);
  if (search.best)
    br__hint (run->error, "help %s", search.best);
  else
    br__hint (run->error, "help all");
  return BR_SYNTAX;
}

/* help ^ */
static br_status
help_power (br__run *run)
{
  br_record *r = br__record_new ("help");
  put_lines (br__put_list (r, "lines"),
             "^ is a power. It binds tighter than any /, that of a fraction too:\n"
             "  3^2/4        is 9/4, as in a textbook (it was read otherwise once)\n"
             "  2^(1/2)      is a root, as sqrt 2 is\n"
             "  (2-1/2)^2    a mixed number goes into brackets\n"
             "  d^2-1/4      is d squared less a quarter\n"
             "  4\xc2\xb2, 3 ft^2  are powers too; (3 ft)^2 is 9 sq ft");
  return br__emit (run, r);
}

br_status
br__do_help (br__run *run)
{
  const br__token t = run->lex.token;
  if (t.type == BR__END)
    return help_first (run);
  const char *word = run->text + t.offset;
  const br__statement *st = t.type == BR__NAME ? br__statement_find (word, t.length) : NULL;
  const br__function *f = t.type == BR__NAME ? br__function_find (word, t.length) : NULL;
  br_status status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status != BR_OK)
    return status;
  if (t.type == BR__SIGN && t.sign == '^')
    return help_power (run);
  if (st)
    return help_statement (run, st);
  if (f)
    return help_function (run, f);
  const br__topic *topic = t.type == BR__NAME ? br__topic_find (word, t.length) : NULL;
  if (topic)
    return help_topic (run, topic);
  if (br__same_word (word, t.length, "all"))
    return help_all (run);
  return no_help (run, &t);
}

/* Completion */

typedef struct completion
{
  const char *typed;
  size_t length;
  void (*found) (void *user, const char *word);
  void *user;
} completion;

static void
offer (const completion *c, const char *word)
{
  if (strncmp (word, c->typed, c->length) == 0)
    c->found (c->user, word);
}

static void
offer_names (const completion *c, const br_sheet *sheet)
{
  for (br__entry *e = br__graph_first (sheet->graph); e; e = br__entry_next (e))
    if (!br__is_hidden_entry (e) && (br__entry_definition (e) || br__entry_users (e, NULL)))
      offer (c, br__entry_name (e));
}

/* Stock, parts and shapes, whose names are no values.  */
static void
offer_things (const completion *c, const br_sheet *sheet)
{
  for (const br__wood *w = sheet->wood; w; w = w->next)
    if (w->active)
      offer (c, w->name);
  for (const br__shape *s = sheet->shapes; s; s = s->next)
    if (s->active)
      offer (c, s->name);
}

static void
offer_functions (const completion *c)
{
  for (size_t i = 0; br__function_at (i); i++)
    {
      char word[64];
      const br__function *f = br__function_at (i);
      size_t n = strlen (f->name);
      if (n + 2 > sizeof word)
        continue;
      memcpy (word, f->name, n + 1);
      if (br__function_most (f) > 0)
        memcpy (word + n, "(", 2);
      offer (c, word);
    }
}

static void
offer_statements (const completion *c)
{
  const br__statement *st;
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    offer (c, st->word);
}

/* The words of a list parted by blanks.  */
static void
offer_words (const completion *c, const char *words)
{
  while (words && *words)
    {
      char word[32];
      size_t n = strcspn (words, " ");
      if (n < sizeof word)
        {
          memcpy (word, words, n);
          word[n] = 0;
          offer (c, word);
        }
      words += n + (words[n] == ' ');
    }
}

/* The start of the word that ends at POINT.  */
static size_t
word_start (const char *text, size_t point)
{
  size_t start = 0;
  for (size_t i = 0, n; i < point; i += n)
    {
      n = br__letter_at (text + i, point - i, 1);
      if (!n)
        {
          n = 1;
          start = i + 1;
        }
    }
  return start;
}

/* 1 if a file name is being typed after `into`; *START gets its start.  The number of parts after `divide ... into` is
   not a file name.  */
static int
is_file_behind_into (size_t *start, const br__statement *st, const char *text, size_t point)
{
  size_t at = point, word;
  if (!st || !st->words || !strstr (st->words, "into") || st->run == br__do_divide)
    return 0;
  while (at > 0 && text[at - 1] != ' ' && text[at - 1] != '\t')
    at--;
  for (word = at; word > 0 && (text[word - 1] == ' ' || text[word - 1] == '\t'); word--)
    continue;
  if (word == at || word < 5 || !br__same_word (text + word - 4, 4, "into") || text[word - 5] != ' ')
    return 0;
  *start = at;
  return 1;
}

void
br_sheet_complete (const br_sheet *sheet, const char *text, size_t point, size_t *start, int *file,
                   void (*found) (void *user, const char *word), void *user)
{
  if (!sheet || (!text && point) || !start || !file || !found)
    return;
  size_t first = 0, end, n;
  *file = 0;
  *start = word_start (text, point);
  completion c = { text + *start, point - *start, found, user };
  while (first < point && (n = br__blank_at (text + first, point - first)) > 0)
    first += n;
  if (br__note_start (text, point) < point || (*start < point && text[*start] >= '0' && text[*start] <= '9'))
    return;
  if (*start == first)
    {
      offer_statements (&c);
      offer_functions (&c);
      offer_names (&c, sheet);
      return;
    }
  for (end = first; end < point && (n = br__letter_at (text + end, point - end, 1)) > 0; )
    end += n;
  const br__statement *st = br__statement_find (text + first, end - first);
  br__follow follow = st ? st->follow : BR__FOLLOW_VALUE;
  if (follow == BR__FOLLOW_FILE)
    {
      *file = 1;
      *start = end;
      while (*start < point && (n = br__blank_at (text + *start, point - *start)) > 0)
        *start += n;
      return;
    }
  if (is_file_behind_into (start, st, text, point))
    {
      *file = 1;
      return;
    }
  if (st)
    offer_words (&c, st->words);
  if (follow == BR__FOLLOW_NAME || follow == BR__FOLLOW_VALUE)
    offer_names (&c, sheet);
  if (follow == BR__FOLLOW_NAME || (st && (st->run == br__do_part || st->run == br__do_draw)))
    offer_things (&c, sheet);
  if (follow == BR__FOLLOW_VALUE)
    offer_functions (&c);
  if (st && st->run == br__do_help)
    {
      for (const br__topic *topic = br__topics; topic->word; topic++)
        offer (&c, topic->word);
      offer_statements (&c);
      offer_functions (&c);
    }
}
