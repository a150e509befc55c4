/* SPDX-License-Identifier: LGPL-3.0-or-later
   run.c - a line that is no statement is read as a phrase and then in plainer words, and gets a hint where it is neither.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "formula/words.h"
#include "phrase/phrase.h"
#include "phrase/words.h"
#include "sheet/access.h"

#define MOST_LOOKED_INTO 1000
#define MOST_READ 50000
/* What has to be read in plainer words, and what is refused and gets a hint, takes several times as long.  */
#define MORE_OF_PLAINER 5
#define MORE_OF_REFUSED 2

const char br__only_help[] = "`help` lists the words";

int
br__seeks_hints (const br__run *run)
{
  return run->sheet->mistakes < MOST_LOOKED_INTO;
}

/* A value and a setting say themselves what they were taken for.  */
static int
echoes (const br__run *run, const br_text *phrase, const br_text *left_out)
{
  const br__statement *st = br__statement_of (run, phrase->bytes, strcspn (phrase->bytes, " "));
  return left_out->length || (st && !st->setting && !strstr (phrase->bytes, " = "));
}

/* RUN is at the text of TYPED again, and keeps what was made for it since.  */
static void
read_again (br__run *run, const br__run *typed)
{
  run->text = typed->text;
  run->length = typed->length;
  run->end = typed->end;
  run->note = typed->note;
  run->note_length = typed->note_length;
  run->lex = typed->lex;
  run->word = typed->word;
}

/* The place of a mistake in the words of the language may lie behind the line that was TYPED, which is in its whole the
   place then.  */
static void
stay_inside (br__run *run, const br__run *typed)
{
  size_t characters = 0;
  for (size_t i = 0; i < typed->length; i++)
    characters += ((unsigned char) typed->text[i] & 0xc0) != 0x80;
  if (run->error->offset <= characters)
    return;
  read_again (run, typed);
  run->error->offset = 0;
  run->error->length = typed->end;
}

/* ERROR has a hint that leads further than `help`.  */
static int
says_more (const br_error *error)
{
  return *error->hint && strcmp (error->hint, br__only_help) != 0;
}

/* RUN is at T, which it keeps.  */
static void
take_text (br__run *run, br_text *t)
{
  br__text_clear (&run->phrase);
  run->phrase = *t;
  *t = (br_text) BR_TEXT_ZERO;
  run->text = br__text_string (&run->phrase);
  run->length = run->phrase.length;
  br__find_note (run);
  memset (run->error, 0, sizeof *run->error);
}

static int
touch_nothing (void *user, const br_file_request *request)
{
  (void) user;
  (void) request;
  return 0;
}

/* The statement WORD does no more than to show or to put something.  */
static int
is_tried (const char *word)
{
  static const char *const words[] = { "round", "marks", "simplest", "check", "circle", "box", "line", "arc", "plate", "outline", "stock",
    "part", "explain", "divide", "space", "find", "fit", "stack", "turn", "row", "mirror", "clear", "tolerance", "known", "drills", "saws",
    "list", "name", "show", "order", "kerf", "ruler", "scale", "grid", "rename", "forget", "trace", "dimension", "note" };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (strcmp (words[i], word) == 0)
      return 1;
  return 0;
}

/* TEXT begins with a statement that does no more than it says at once, or with none: what goes through the history, reads a
   file or asks is not tried.  */
static int
may_try (const br__run *run, const char *text)
{
  const br__statement *st = br__statement_of (run, text, strcspn (text, " `;"));
  return !st || is_tried (st->word);
}

/* What TEXT does is tried and taken back; *ERROR is what is wrong with it, *CHANGES, which may be NULL, how many things of the sheet
   it changes.  */
static br_status
try_line (br_error *error, const br__run *run, const char *text, size_t length, size_t *changes)
{
  const br_sink none = { 0 };
  br_sheet *sheet = run->sheet;
  br_file_policy *const policy = sheet->policy;
  br_status (*const takes_line) (int *, br__run *) = sheet->takes_line;
  const int untold = sheet->untold;
  memset (error, 0, sizeof *error);
  br__run trial = { .sheet = sheet, .sink = &none, .file = run->file, .line_number = run->line_number,
                    .text = text, .length = length, .error = error };
  if (br__changes_begin (&trial) != BR_OK)
    {
      sheet->tried_short = 1;
      return BR_NO_MEMORY;
    }
  br__find_note (&trial);
  sheet->policy = touch_nothing;
  sheet->takes_line = NULL;
  br_status status = sheet->language->dispatch (&trial);
  sheet->tried_short |= status == BR_NO_MEMORY;
  if (changes)
    *changes = trial.changes.count;
  br__changes_revert (&trial);
  sheet->untold = untold;       /* all that has changed is as it was */
  sheet->policy = policy;
  sheet->takes_line = takes_line;
  br__text_clear (&trial.phrase);
  br__text_clear (&trial.left_out);
  br__changes_drop (&trial.changes);
  br__file_forget (&trial);
  return trial.refused ? BR_OK : status;
}

/* TEXT gives another value to something that is there, and that RUN does not speak of.  */
static int
replaces_unasked (const br__run *run, const char *text, size_t length)
{
  br__run made = *run;
  made.text = text;
  made.length = made.end = length;
  br__words hint = { .run = &made };
  br__words_cut (&hint);
  const size_t name = br__word_at (&hint, 1, "=") ? 0 : 1;
  int found = (name == 0 || br__word_at (&hint, 2, "=") || br__words_at (&hint, 0, "row|mirror")) && br__word_thing (&hint, name);
  /* body length is body_length */
  const char *s = hint.word[name].s;
  const size_t n = hint.word[name].length;
  for (size_t i = 0, k; found && i + n <= run->end; i++)
    {
      for (k = 0; k < n && (run->text[i + k] == s[k] || (s[k] == '_' && strchr (" -", run->text[i + k]))); k++)
        ;
      found = k < n;
    }
  /* whel is 4 speaks of the wheel, and how wide the deck is of deck_width.  */
  br__words typed = { .run = run };
  br__words_cut (&typed);
  if (typed.count && typed.count < BR__MOST_WORDS)
    br__phrase_names (&typed);
  for (size_t i = 0; found && i < typed.count; i++)
    {
      found = !(br__bare_word (&typed, i).word[0].length == n && memcmp (typed.word[i].s, s, n) == 0);
      if (!found)
        break;
      const char *near = br__near_size (run, typed.word[i].s, typed.word[i].length);
      found = !(near && strlen (near) == n && memcmp (near, s, n) == 0);
    }
  return found;
}

int
br__run_works (const br__run *run, const char *text, size_t length)
{
  br_error error;
  const char *second = memchr (text, ';', length);
  /* Of several, those are tried that change nothing for each other.  */
  if (second && strncmp (second, "; check ", 8) == 0 && !br__run_works (run, second + 2, length - (size_t) (second + 2 - text)))
    return 0;
  length = second ? (size_t) (second - text) : length;
  return !replaces_unasked (run, text, length) && (!may_try (run, text) || try_line (&error, run, text, length, NULL) == BR_OK);
}

/* What the hint of RUN says to write works: `A`, or `A` or `B`, of which one that does not is left out.  */
static int
hint_works (br__run *run)
{
  br_text line[2] = { BR_TEXT_ZERO, BR_TEXT_ZERO };
  /* Of a line's first word: the line with another one.  */
  const int means = strncmp (run->error->hint, "did you mean `", 14) == 0 && strstr (run->error->message, "is not a word I know");
  const char *s = run->error->hint + (means ? 13 : 6);
  int count = 0, works = 0, which = 0;
  for (; count < 2 && (means || strncmp (run->error->hint, "write `", 7) == 0) && *s == '`'; count++)
    {
      const char *end = strchr (s + 1, '`');
      br__text_put (&line[count], s + 1, end ? (size_t) (end - s) - 1 : 0);
      s = end && strncmp (end + 1, " or `", 5) == 0 ? end + 5 : end ? end + 1 : s;
    }
  /* Of other hints, not all is to be typed.  */
  if (*s && !(means && strcmp (s, "?") == 0))
    count = 0;
  for (int i = 0; i < count; i++)
    if (br__run_works (run, br__text_string (&line[i]), line[i].length))
      works++, which = i;
  run->sheet->tried_short |= line[0].failed || line[1].failed;
  if (works == 1 && count == 2)
    {
      if (run->two_ways)
        br__fail (run->error, run->error->status, run->error->offset, run->error->length, "this can be read in two ways, of which one works here");
      br__hint (run->error, "write `%s`", br__text_string (&line[which]));
    }
  br__text_clear (&line[0]);
  br__text_clear (&line[1]);
  return works || !count;
}

/* The name in the line of RUN, which sets a size or checks, behind its first word, that nothing is called yet; 0: there is none.  */
static int
new_name_in (br__token *name, const br__run *run)
{
  br_error ignored;
  br__lexer lex;
  br_status status = br__lex_start (&lex, run->text, run->end, &ignored);
  while (status == BR_OK && (status = br__lex_next (&lex, &ignored)) == BR_OK && lex.token.type != BR__END)
    {
      const char *s = run->text + lex.token.offset;
      const size_t n = lex.token.length;
      const br__words one = { .run = run, .word = { { s, n } }, .count = 1 };
      if (lex.token.type == BR__NAME && !br__word_thing (&one, 0) && !br__function_find (s, n) && !br_unit_find (s, n)
          && br__shape_word (s, n) == BR__SHAPE_NONE && !br__words_at (&one, 0, "known|x"))
        return *name = lex.token, 1;
    }
  return 0;
}

/* TYPED ends in a question mark, and is no order that is put politely: could you make the wheel 5?  */
static int
only_asks (const br__run *typed)
{
  br__words l = { .run = typed };
  br__words_cut (&l);
  const size_t first = (size_t) br__word_at (&l, 0, "please");
  return typed->end && typed->text[typed->end - 1] == '?' && !br__words_at (&l, first, "can|could|would|will you|i|we") && !br__words_at (&l, first, "may i|we");
}

/* RUN, made of TYPED, which only asks, would change the sheet: it is refused.  */
static int
asks_and_changes (br__run *run, const br__run *typed)
{
  br_error ignored;
  size_t changes = 0;
  const br__statement *st = br__statement_of (run, run->text, strcspn (run->text, " `;"));
  const int n = run->end > 100 ? 0 : (int) run->end;    /* a longer line has no hint */
  if (!only_asks (typed) || (st && strcmp (st->word, "check") == 0) || try_line (&ignored, run, run->text, run->end, &changes) != BR_OK || !changes)
    return 0;
  br__fail (run->error, BR_SYNTAX, 0, typed->end, "a question changes nothing in the sheet");
  br__words l = { .run = run };
  br__words_cut (&l);
  if (n && l.count > 2 && br__word_at (&l, 1, "=") && br__word_known (&l, 0))
    br__hint (run->error, "write `check %.*s` or `%.*s`", n, run->text, n, run->text);
  else if (n && st && st->setting)
    br__hint (run->error, "write `%.*s` or `%s`", n, run->text, st->word);
  else if (n)
    br__hint (run->error, "write `%.*s`", n, run->text);
  return 1;
}

/* 3.57 rounded to 1/8, then times 4: of what is rounded, or of the mark.  */
static int
goes_on_behind_mark (br__run *run, const br__words *l)
{
  size_t to = 2;
  while (to + 2 < l->count && !br__word_at (l, to, "to"))
    to++;
  if (!br__word_at (l, 0, "round") || to + 3 >= l->count || !br__words_at (l, to + 2, "*|/|+|-") || run->end > 50)
    return 0;
  const char *first = l->word[1].s, *mark = l->word[to + 1].s, *rest = l->word[to + 2].s;
  const int size = (int) (l->word[to - 1].s + l->word[to - 1].length - first), n = (int) l->word[to + 1].length, more = (int) (run->text + run->end - rest);
  br__fail_two_ways (run, 0, run->end);
  br__hint (run->error, "write `nearest(%.*s, %.*s) %.*s` or `round (%.*s) %.*s to %.*s`", size, first, n, mark, more, rest, size, first, more, rest, n, mark);
  return 1;
}

/* RUN, in the words that were made of TYPED, runs; what is said of a shape, a part or a stock sets no size of its name, nor
   what is said of several one of theirs: the wheels are 5.  */
static br_status
run_made (br__run *run, const br__run *typed)
{
  br__words l = { .run = run };
  br__words_cut (&l);
  const int sets = l.count > 2 && br__word_at (&l, 1, "=") && !memchr (typed->text, '=', typed->end);
  size_t length = 0;
  const int thing = sets ? br__word_called (&length, &l, 0) : 0;
  if ((thing & BR__THING_SIZE) && length < l.word[0].length)
    return br__fail (run->error, BR_SYNTAX, 0, typed->end, "the size is called `%.*s`", br__clip (l.word[0].s, length, 40), l.word[0].s);
  if (thing && !(thing & BR__THING_SIZE))
    return br__fail (run->error, BR_SYNTAX, 0, typed->end, "`%.*s` is %s, and no size", br__clip (l.word[0].s, length, 40), l.word[0].s,
                     thing & BR__THING_SHAPE ? "a shape" : thing & BR__THING_PART ? "a part" : "stock");
  /* Round 45.6 to the nearest mm in a sheet of inches: of mm, or of inches.  */
  const br_unit *of, *const own = run->sheet->settings.unit, *const mark = l.count == 5 ? br_unit_find (l.word[4].s, l.word[4].length) : NULL;
  if (mark && mark != own && br__word_at (&l, 0, "round") && br__words_at (&l, 2, "to 1") && br__word_measure (&l, 1, &of) && !of && run->end < 60)
    {
      const int n = (int) l.word[1].length;
      br__fail_two_ways (run, 0, run->end);
      br__hint (run->error, "write `round %.*s %s to 1 %s` or `round %.*s %s to 1 %s`", n, l.word[1].s, mark->name, mark->name, n, l.word[1].s, own->name, mark->name);
      return BR_SYNTAX;
    }
  if (br__last_has_unit (run, &l) || (sets && br__two_sizes (run, typed, &l)))
    return BR_SYNTAX;
  /* whel is 4: the wheel, or another size.  */
  const char *const near = sets && !thing ? br__near_size (run, l.word[0].s, l.word[0].length) : NULL;
  if (near && run->end < 60)
    {
      const int n = (int) (run->end - (size_t) (l.word[1].s - run->text));
      br__fail_two_ways (run, 0, run->end);
      br__hint (run->error, "write `%s %.*s` or `%.*s`", near, n, l.word[1].s, (int) run->end, run->text);
      return BR_SYNTAX;
    }
  /* The axle is known: it stays as it is.  */
  if (thing && l.count == 3 && br__word_at (&l, 2, "known"))
    {
      br__fail (run->error, BR_SYNTAX, 0, typed->end, "`known` stands behind a value");
      br__hint (run->error, "write `known %.*s`", br__clip (l.word[0].s, l.word[0].length, 40), l.word[0].s);
      return BR_SYNTAX;
    }
  /* The wheel is round: a word that is no size is waited for where the language is typed, and not where it is spoken.  */
  br__token name;
  const int checks = br__word_at (&l, 0, "check") && !memchr (typed->text, '<', typed->end) && !memchr (typed->text, '>', typed->end)
                     && !memchr (typed->text, '=', typed->end);
  if ((sets || checks) && new_name_in (&name, run))
    {
      br_text other = BR_TEXT_ZERO;
      char word[48] = "";
      memcpy (word, run->text + name.offset, (size_t) br__clip (run->text + name.offset, name.length, 40));
      br__fail (run->error, BR_SYNTAX, 0, typed->end, "`%s` is no size of this sheet", word);
      br__put_other (&other, run->sheet, word);
      if (!other.length && run->end < 100 && br__run_works (run, run->text, run->end))
        br__hint (run->error, "`%.*s` waits for a size that is called so", (int) run->end, run->text);
      br__text_clear (&other);
      return BR_SYNTAX;
    }
  if (asks_and_changes (run, typed) || goes_on_behind_mark (run, &l))
    return BR_SYNTAX;
  return run->sheet->language->dispatch (run);
}

/* A line that was refused with STATUS is read as a phrase, and runs in the words of the language, which are those that
   the sheet keeps.  Where that is refused, too, the line's own mistake is told, unless only the phrase has a hint.  */
static br_status
read_phrase (br__run *run, br_status status)
{
  const br__run typed = *run;
  br_text t = BR_TEXT_ZERO;
  const br_error first = *run->error;
  if (run->two_ways || br__phrase_refused (run))
    return status;
  if (br__phrase (&t, &run->left_out, run))
    {
      run->echoes = echoes (run, &t, &run->left_out);
      br__text_put (&t, " ", run->end < run->length);
      br__text_put (&t, run->text + run->end, run->length - run->end);
      br__changes_revert (run);
      take_text (run, &t);
      if (!run->phrase.failed && (status = run_made (run, &typed)) == BR_OK)
        return BR_OK;
      br__changes_revert (run);
      run->echoes = 0;
      br__phrase_hint (run);
      if ((says_more (run->error) && hint_works (run)) || run->error->status == BR_NO_MEMORY)
        {
          stay_inside (run, &typed);
          return run->error->status == BR_NO_MEMORY ? BR_NO_MEMORY : status;
        }
      const br_status was = status;
      const br_error later = *run->error;
      read_again (run, &typed);
      *run->error = first;
      status = first.status;
      br__phrase_hint (run);
      /* Of a line that begins as a statement its own mistake is the nearer one.  */
      const int begins = br__statement_of (run, run->text + typed.word.offset, typed.word.length) != NULL;
      if (begins || says_more (run->error) || (*run->error->hint && !*later.hint) || run->phrase.failed)
        return run->error->status == BR_NO_MEMORY ? BR_NO_MEMORY : status;
      run->text = br__text_string (&run->phrase);
      run->length = run->phrase.length;
      br__find_note (run);
      *run->error = later;
      stay_inside (run, &typed);
      return was;
    }
  int failed = t.failed;
  br__text_clear (&t);
  if (failed)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br__phrase_hint (run);
  return run->error->status == BR_NO_MEMORY ? BR_NO_MEMORY : status;
}

/* HINT takes a word behind a number for a name, which may be a slip instead: 3 inchs.  */
static int
keeps_word (const char *hint)
{
  return strstr (hint, "`, or to keep it `") || strstr (hint, " # ");
}

/* RUN has no hint but one that leads to help, or does not work.  */
static int
needs_hint (br__run *run)
{
  const char *hint = run->error->hint;
  return !says_more (run->error) || keeps_word (hint) || strncmp (hint, "help ", 5) == 0 || strcmp (hint, "write `help`") == 0 || strcmp (hint, "write `help sizes`") == 0
         || (strncmp (hint, "write ", 6) == 0 && hint[6] != '`') || strncmp (hint, "a new size", 10) == 0 || strncmp (hint, "put a sign", 10) == 0 || strncmp (hint, "did you mean", 12) == 0 || !hint_works (run);
}

/* The hint of the line with its slips of the keyboard mended, which is never run as it stands; ABOUT: or of what it speaks of.  */
static int
hint_of_spelling (br__run *run, int about)
{
  br_text spelled = BR_TEXT_ZERO, t = BR_TEXT_ZERO, left_out = BR_TEXT_ZERO;
  br__run made = *run;
  const br_error first = *run->error;
  int found = 0, more = br__phrase_spelled (&spelled, run);
  for (int steps = 0; more && !found && steps < 3; steps++)
    {
      made.text = br__text_string (&spelled);
      made.end = made.length = spelled.length;
      *run->error->hint = 0;
      found = br__phrase_refused (&made) && hint_works (&made);
      more = !found && (br__phrase (&t, &left_out, &made) || (br__text_reset (&t), br__phrase_loose (&t, &made)));
      if (more && (found = t.length < 120 && br__run_works (run, br__text_string (&t), t.length)) != 0)
        br__hint (run->error, "write `%s`", br__text_string (&t));
      if (!found && steps == 0 && about)
        found = br__phrase_about (&made, 1);
      br__text_clear (&spelled);
      spelled = t;
      t = left_out = (br_text) BR_TEXT_ZERO;
    }
  run->sheet->tried_short |= spelled.failed;
  br__text_clear (&spelled);
  if (!found)
    *run->error = first;
  return found;
}

/* A line that was refused with STATUS and has no hint is read in plainer words, and what these are as a phrase again, as one
   may hold another.  Where that is refused, too, the line's own mistake is told, with the hint that came of it.  */
static br_status
run_plainer (br__run *run, const br__run *typed, br_status status)
{
  enum { MOST_STEPS = 4 };
  br_text t = BR_TEXT_ZERO;
  const int hinted = says_more (run->error) && hint_works (run);
  const br_error first = *run->error;
  /* The first mistake may be one of a phrase, and its place there.  */
  const br__run told = *run;
  br_text phrase = run->phrase;
  run->phrase = (br_text) BR_TEXT_ZERO;
  read_again (run, typed);
  int more = br__phrase_loose (&t, run);
  for (int steps = 0; more && steps < MOST_STEPS; steps++)
    {
      const int echo = echoes (run, &t, &run->left_out);
      take_text (run, &t);
      run->echoes = echo;
      if (run_made (run, typed) == BR_OK)
        {
          br__text_clear (&phrase);
          return BR_OK;
        }
      br__changes_revert (run);
      more = !br__phrase_refused (run) && br__phrase (&t, &run->left_out, run);
    }
  br__text_clear (&t);
  run->echoes = 0;
  if (needs_hint (run))
    br__phrase_hint (run);
  const br_error later = *run->error;
  const int found = !needs_hint (run);
  read_again (run, typed);
  *run->error = first;
  if (found)
    br__hint (run->error, "%s", later.hint);
  else if (!(keeps_word (first.hint) && hint_of_spelling (run, 1)) && !br__phrase_about (run, 1) && !hinted && !hint_of_spelling (run, 1) && says_more (run->error))
    *run->error->hint = 0;
  br__text_clear (&run->phrase);
  run->phrase = phrase;
  read_again (run, &told);
  return status;
}

/* 0,0 to 4,0 4,3: commas without a blank behind them in a line that has another mistake, which is told, where it stands.  */
static br_status
tell_behind_commas (br__run *run, br_status status)
{
  br_text t = BR_TEXT_ZERO;
  br_error error;
  const char *s = run->text;
  const size_t start = run->error->offset, end = start + run->error->length;
  size_t put = 0;
  if (status != BR_SYNTAX || !strstr (run->error->message, "blank behind each comma") || !br__statement_of (run, s + run->word.offset, run->word.length)
      || (*run->error->hint && hint_works (run)))
    return status;
  for (size_t i = 0; i < run->end; i++)
    {
      br__text_put (&t, s + i, 1);
      br__text_puts (&t, s[i] == ',' && i + 1 < run->end && s[i + 1] != ' ' ? " " : "");
    }
  if (!t.failed && may_try (run, s + run->word.offset) && try_line (&error, run, br__text_string (&t), t.length, NULL) != BR_OK)
    {
      /* Where it stands in what was typed.  */
      for (size_t i = 0; i < run->end && i + put < error.offset; i++)
        put += s[i] == ',' && s[i + 1] != ' ' && i + 1 < run->end;
      error.offset -= put;
      if (error.offset <= start || error.offset >= end || error.status != BR_SYNTAX)
        {
          *run->error = error;
          status = error.status;
        }
    }
  status = t.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : status;
  br__text_clear (&t);
  return status;
}

br_status
br__run_phrase (br__run *run, br_status status)
{
  if (run->sheet->phrases_read >= MOST_READ)
    {
      if (!*run->error->hint)
        br__hint (run->error, "after 50,000 lines in other words, lines are read in the words of `help` alone");
      return status;
    }
  run->sheet->phrases_read++;
  run->sheet->tried_short = 0;
  status = tell_behind_commas (run, status);
  const br__run typed = *run;
  const br_status was = status;
  status = read_phrase (run, status);
  if ((status == BR_SYNTAX || (status == BR_DOMAIN && was == BR_SYNTAX)) && !run->told && !run->refused && br__seeks_hints (run) && needs_hint (run))
    {
      run->sheet->phrases_read += MORE_OF_PLAINER;
      status = run_plainer (run, &typed, status);
    }
  else if (status == BR_DOMAIN && strstr (run->error->message, "` is not known") && strncmp (run->error->hint, "did you mean", 12) != 0 && br__seeks_hints (run) && needs_hint (run))
    hint_of_spelling (run, 0);
  /* Forget the rest: no size would be called `the`.  */
  if (status == BR_DOMAIN && strncmp (run->error->hint, "a new size", 10) == 0 && run->error->offset < typed.end)
    {
      br__words l = { .run = &typed };
      br__words_cut (&l);
      for (size_t i = 0; i < l.count; i++)
        if (l.word[i].s == typed.text + run->error->offset && br__words_at (&l, i, "the|a|an|my|our|this|that|all|both|it|everything|next|last|to|of|in|for|with|on"))
          br__phrase_topic (run);
    }
  run->sheet->phrases_read += status != BR_OK ? MORE_OF_REFUSED : 0;
  /* What was tried for a hint had no memory: another hint, or none, is no answer.  */
  return run->sheet->tried_short && status != BR_OK ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : status;
}
