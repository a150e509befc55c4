/* SPDX-License-Identifier: LGPL-3.0-or-later
   hint.c - what to write instead of a line that people type for something else.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "formula/words.h"
#include "measure/measure.h"
#include "phrase/phrase.h"
#include "phrase/words.h"

/* The name in the words FROM up to TO with its blanks and hyphens as underscores.  */
void
br__put_joined (br_text *t, const br__words *l, size_t from, size_t to)
{
  for (size_t i = from; i < to; i++)
    {
      if (i > from)
        br__text_putc (t, '_');
      for (size_t k = 0; k < l->word[i].length; k++)
        br__text_putc (t, l->word[i].s[k] == '-' ? '_' : l->word[i].s[k]);
    }
}

static void
put_rest (br_text *t, const br__words *l, size_t from)
{
  for (size_t i = from; i < l->count; i++)
    {
      br__text_putc (t, ' ');
      br__text_put (t, l->word[i].s, l->word[i].length);
    }
}

int
br__word_asks (const char *word, size_t length)
{
  static const char *const words[] = { "how", "what", "which", "who", "why", "when", "where", "can", "could", "would", "does", "do",
                                       "is", "are", "am", "make", "give", "i", "remember", "find", "get", "tell", "put", "take", "need",
                                       "want", "have", "swap", "angle", "slope", "if", "suppose", "not", "no", "never", "for", "from", "of", "by", "at", "with",
                                       "without", "between", "reduce", "increase", "decrease", "enlarge", "shrink", "add", "subtract", "multiply",
                                       "sort", "compare", "convert", "simplify", "call", "keep", "copy", "lock", "delete", "remove", "cut",
                                       "switch", "move", "only", "steps", "more", "less" };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (br__word_is (word, length, words[i]))
      return 1;
  return 0;
}

/* wheel base = 4 and axle-height = 2: names have no blanks and no hyphens.  */
static int
joined_name (br_text *t, const br__words *l)
{
  size_t equals = 0;
  while (equals < l->count && !(l->word[equals].length == 1 && l->word[equals].s[0] == '='))
    equals++;
  if (equals == 0 || equals > 4 || equals + 1 >= l->count || br__word_asks (l->word[0].s, l->word[0].length) || l->run->sheet->language->find (l->word[0].s, l->word[0].length))
    return 0;
  for (size_t i = 1; i < equals; i++)
    if (br__words_at (l, i, "to|the|of|from|by|at|with"))
      return 0;
  for (size_t i = 0; i < equals; i++)
    for (size_t k = 0; k < l->word[i].length; k++)
      if ((l->word[i].s[k] != '-' || l->word[i].length == 1) && !br__letter_at (l->word[i].s + k, l->word[i].length - k, k > 0 || i > 0))
        return 0;
  if (equals == 1 && !memchr (l->word[0].s, '-', l->word[0].length))
    return 0;
  br__put_joined (t, l, 0, equals);
  put_rest (t, l, equals);
  return 1;
}

/* outline side = 0,0, 4,0, 4,3: the corners of a shape as numbers alone.  */
static int
puts_corners (br_text *t, const br__words *l)
{
  if (l->count < 4 || !br__word_at (l, 0, "outline") || !br__word_at (l, 2, "="))
    return 0;
  br__text_printf (t, "outline %.*s = ", (int) l->word[1].length, l->word[1].s);
  return br__phrase_corners (t, l) && br__run_works (l->run, br__text_string (t), t->length);
}

/* 4 wheels where wheel is known.  */
static int
counted_name (br_text *t, const br__words *l)
{
  int64_t n, d;
  br__words one = *l;
  size_t length;
  if (l->count < 2 || !br__word_ratio (l, 0, &n, &d) || br__word_at (l, 1, "x")
      || (l->count > 2 && br__letter_at (l->word[2].s, l->word[2].length, 1)) || !(br__word_called (&length, l, 1) & BR__THING_SIZE))
    return 0;
  one.word[1].length = length;
  br__text_put (t, l->word[0].s, l->word[0].length);
  br__text_puts (t, " *");
  put_rest (t, &one, 1);
  return 1;
}

/* half of 3 + 1 and twice a + b: of the first value, or of the sum.  */
static int
product_of_sum (br_error *error, br__words *l)
{
  br_text first = BR_TEXT_ZERO, sum = BR_TEXT_ZERO;
  br__phrase_numbers (l);
  size_t i = 0;
  for (; i < l->count; i++)
    if ((br__word_at (l, i, "of") && i > 0 && br__takes_of (l, i - 1)) || br__word_at (l, i, "twice") || br__word_at (l, i, "double"))
      break;
  if (i >= l->count || !br__sum_follows (l, i + 1))
    return 0;
  if (br__word_at (l, i, "of"))
    br__words_put (l, i, 1, "*");
  else
    br__words_put (l, i++, 1, "2 *");
  br__phrase_signs (l);
  for (size_t k = 0; k < l->count; k++)
    {
      br__text_printf (&first, "%s%.*s", k ? " " : "", (int) l->word[k].length, l->word[k].s);
      br__text_printf (&sum, "%s%s%.*s", k ? " " : "", k == i + 1 ? "(" : "", (int) l->word[k].length, l->word[k].s);
    }
  br__text_putc (&sum, ')');
  if (first.failed || sum.failed)
    br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  else if (first.length + sum.length < 120)
    br__hint (error, "write `%s` or `%s`", br__text_string (&first), br__text_string (&sum));
  br__text_clear (&first);
  br__text_clear (&sum);
  return 1;
}

int
br__phrase_refused (br__run *run)
{
  br__words l = { .run = run };
  br__phrase_frame (&l);
  return l.count > 0 && l.count < BR__MOST_WORDS && (br__size_or_mark (run, &l) || br__phrase_row_hint (run, &l) || br__phrase_list_hint (run, &l) || br__phrase_feet_hint (run, &l));
}

/* 2x4 and 2x4x8 in one word: a product, or lumber.  3:4: a quotient, or a scale.  floor = 8x8: a product, or a part.  */
static int
glued_pair (br_error *error, const br__words *l)
{
  const size_t last = l->count == 3 && br__word_at (l, 1, "=") ? 2 : 0;
  const char *s = l->word[last].s, *end = s + l->word[last].length, *colon = memchr (s, ':', l->word[last].length);
  br_text product = BR_TEXT_ZERO;
  int found = l->count == last + 1 && l->word[0].length < 40 && l->word[last].length < 40 && !(last && colon), members = 0;
  for (const char *at = s; found && at <= end; members++)
    {
      br_measure m = BR_MEASURE_ZERO;
      const char *x = memchr (at, colon ? ':' : 'x', (size_t) (end - at));
      const int n = (int) ((x ? x : end) - at);
      found = br_measure_read (&m, at, (size_t) n, NULL, NULL) == BR_OK;
      br__text_printf (&product, colon ? "%s(%.*s)" : "%s%.*s", !members ? "" : colon ? " / " : last ? " x " : " * ", n, at);
      br_measure_clear (&m);
      at += n + 1;
    }
  found = found && members > 1 && !product.failed && !(colon && members > 2);
  if (found && last)
    br__hint (error, "write `part %.*s = %s` or `%.*s = %s`", (int) l->word[0].length, l->word[0].s, br__text_string (&product), (int) l->word[0].length, l->word[0].s,
              br__text_string (&product));
  else if (found)
    br__hint (error, colon ? "write `%s`, or `scale %.*s`" : "write `%s`", br__text_string (&product), (int) l->word[last].length, s);
  br__text_clear (&product);
  return found;
}

/* 1/2" dowel and gap = 19 mm plywood: a measure, and what it is the size of.  */
static int
named_measure (br_error *error, const br__words *l)
{
  size_t last = l->count - 1, first = l->count > 3 && l->word[1].length == 1 && l->word[1].s[0] == '=' ? 2 : 0;
  const char *start = l->word[first].s;
  size_t length = (size_t) (l->word[last].s - start);
  br_measure m = BR_MEASURE_ZERO;
  while (length && start[length - 1] == ' ')
    length--;
  /* Of what is said to be wide a note tells too little.  */
  int found = l->count > 1 && !(first && br__words_at (l, last, "wide|long|high|tall|thick|deep")) && !br_unit_find (l->word[last].s, l->word[last].length)
              && br_measure_read (&m, start, length, NULL, NULL) == BR_OK && length + l->word[last].length < 60;
  const int unit = m.unit != NULL;
  br_measure_clear (&m);
  for (size_t i = 0, n; found && i < l->word[last].length; i += n)
    {
      n = br__letter_at (l->word[last].s + i, l->word[last].length - i, i > 0);
      found = n > 0;
      n += !found;
    }
  size_t named = 0;
  const int several = found && !br__word_known (l, last) && (br__word_called (&named, l, last) & BR__THING_SIZE);
  if (several && first)
    br__hint (error, "write `%.*s = %.*s * %.*s`", (int) l->word[0].length, l->word[0].s, (int) length, start, (int) named, l->word[last].s);
  else if (several && unit)
    br__hint (error, "write `%.*s = %.*s`", (int) named, l->word[last].s, (int) length, start);
  else if (several)
    br__hint (error, "write `%.*s * %.*s`", (int) length, start, (int) named, l->word[last].s);
  else if (found && first)
    br__hint (error, "write `%.*s = %.*s %c %.*s`", (int) l->word[0].length, l->word[0].s, (int) length, start,
              br__word_known (l, last) ? '*' : '#', (int) l->word[last].length, l->word[last].s);
  else if (found && br__word_known (l, last))
    br__hint (error, "write `%.*s * %.*s`", (int) length, start, (int) l->word[last].length, l->word[last].s);
  else if (found)
    br__hint (error, "write `%.*s`, or to keep it `%.*s = %.*s`", (int) length, start, (int) l->word[last].length,
              l->word[last].s, (int) length, start);
  return found;
}

/* Words that people put before a number, and that are no part of a name.  */
static int
is_particle (const br__words *l, size_t i)
{
  return br__words_at (l, i, "of|to|in|for|with|at|by|on|from|and|or|than|about|the|a|an|be|not|it|them|this|that|all|everything|times|plus|minus|half");
}

/* wheel 3-1/2, wheel 3.5 in, deck length 20, but not ratio 3:5 */
static int
new_name (br_text *t, const br__words *l)
{
  size_t words = br__word_begins_number (l, 1) ? 1 : 2;
  if (l->count <= words || l->count > words + 2 || !br__word_is_new (l, 0) || !br__word_begins_number (l, words)
      || (words == 2 && (is_particle (l, 0) || is_particle (l, 1) || !(br__word_is_new (l, 1) || br__function_find (l->word[1].s, l->word[1].length))))
      || (l->count == words + 2 && !br__word_is_unit (l, words + 1)))
    return 0;
  br_measure m = BR_MEASURE_ZERO;
  int reads = br_measure_read (&m, l->word[words].s, l->word[words].length, NULL, NULL) == BR_OK;
  br_measure_clear (&m);
  if (!reads)
    return 0;
  br__put_joined (t, l, 0, words);
  br__text_puts (t, " =");
  put_rest (t, l, words);
  return 1;
}

/* 3\\4 and the like.  */
static int
respelled (br_error *error, const br__run *run)
{
  br_text t = BR_TEXT_ZERO, named = BR_TEXT_ZERO;
  int found = run->end < 100 && br__respell (&t, run, 1);
  br__run made = *run;
  made.text = br__text_string (&t);
  made.end = made.length = t.length;
  br__words l = { .run = &made };
  br__words_cut (&l);
  if (found)
    br__hint (error, "write `%s`", br__text_string (new_name (&named, &l) ? &named : &t));
  else if (t.failed)
    found = br__fail_plain (error, BR_NO_MEMORY, 0, 0) != BR_OK;
  br__text_clear (&named);
  br__text_clear (&t);
  return found;
}

/* 17.5 +/- 0.1 mm: the size, in the unit of both.  */
static int
toleranced (br_error *error, const br__run *run)
{
  static const char *const signs[] = { "\xc2\xb1", "+/-", "+-" };
  for (size_t at = 1; at + 2 < run->end && run->end < 80; at++)
    for (size_t k = 0; k < sizeof signs / sizeof signs[0]; k++)
      {
        br_measure size = BR_MEASURE_ZERO, off = BR_MEASURE_ZERO;
        size_t n = strlen (signs[k]), used = 0;
        if (n > run->end - at || memcmp (run->text + at, signs[k], n) != 0)
          continue;
        n += at + n < run->end && run->text[at + n] == ' ';
        int found = br_measure_read (&size, run->text, at, NULL, NULL) == BR_OK
                    && br_measure_scan (&off, &used, run->text + at + n, run->end - at - n, NULL, NULL) == BR_OK;
        const char *unit = found && off.unit && !size.unit ? off.unit->name : "";
        const int length = (int) at - (run->text[at - 1] == ' ');
        if (found)
          br__hint (error, "write `size = %.*s%s%s +- %.*s` or `%.*s%s%s`", length, run->text, *unit ? " " : "", unit, (int) (run->end - at - n), run->text + at + n,
                    length, run->text, *unit ? " " : "", unit);
        br_measure_clear (&size);
        br_measure_clear (&off);
        if (found)
          return 1;
      }
  return 0;
}

/* 4ft6, 6ft 2, 5 foot 3-1/2 and 1m20: the smaller unit is not said.  */
static int
bare_inches (br_error *error, const br__run *run)
{
  for (size_t at = 1; at + 2 < run->end && run->end < 80; at++)
    {
      static const char *const units[][2] = { { "ft", "in" }, { "foot", "in" }, { "feet", "in" }, { "m", "cm" }, { "cm", "mm" } };
      const char *s = run->text + at, *smaller = "";
      size_t n = 0, letters = 0;
      while (at + letters < run->end && br__letter_at (s + letters, 1, 0))
        letters++;
      for (size_t k = 0; k < sizeof units / sizeof units[0]; k++)
        if (letters == strlen (units[k][0]) && br__same_word (s, letters, units[k][0]))
          n = letters, smaller = units[k][1];
      const size_t next = at + n + (at + n < run->end && s[n] == ' '), end = at - (s[-1] == ' ');
      br_measure inches = BR_MEASURE_ZERO;
      size_t used = 0;
      const int found = n && end && run->text[end - 1] >= '0' && run->text[end - 1] <= '9' && br__measure_begins (run->text, run->end, next)
                        && br_measure_scan (&inches, &used, run->text + next, run->end - next, NULL, NULL) == BR_OK && !inches.unit;
      br_measure_clear (&inches);
      if (found)
        {
          br__hint (error, "write `%.*s %.*s %.*s %s%.*s`", (int) end, run->text, n > 2 ? 2 : (int) n, n > 2 ? "ft" : s, (int) used, run->text + next, smaller,
                    (int) (run->end - next - used), run->text + next + used);
          return 1;
        }
    }
  return 0;
}

/* 1 where ERROR has no hint but the one that NAME is written with brackets, with the names of its values.  */
static int
lacks_hint (const br_error *error, const char *name)
{
  size_t n = strlen (name);
  return !*error->hint || strncmp (error->hint, "`help`", 6) == 0
         || (strncmp (error->hint, "write ", 6) == 0 && strncmp (error->hint + 6, name, n) == 0 && error->hint[6 + n] == '(');
}

/* 3 and 4, 2' 6" and 3 1/4": two values, or their sum.  */
static int
and_pair (br_error *error, const br__words *l)
{
  size_t at = 1;
  while (at < l->count && !br__word_at (l, at, "and"))
    at++;
  if (at + 1 >= l->count || l->run->end > 50)
    return 0;
  const char *s = l->word[0].s, *next = l->word[at + 1].s;
  const int a = (int) (l->word[at - 1].s + l->word[at - 1].length - s), b = (int) (l->word[l->count - 1].s + l->word[l->count - 1].length - next);
  br_measure m = BR_MEASURE_ZERO;
  const int found = br_measure_read (&m, s, (size_t) a, NULL, NULL) == BR_OK && br_measure_read (&m, next, (size_t) b, NULL, NULL) == BR_OK;
  br_measure_clear (&m);
  if (found)
    br__hint (error, "write `%.*s, %.*s` or `%.*s + %.*s`", a, s, b, next, a, s, b, next);
  return found;
}

/* T, or what it assigns, is a formula.  */
static int
reads (const br_text *t)
{
  const char *s = br__text_string (t), *equals = strchr (s, '=');
  br__lexer lex;
  br__tree tree = BR__TREE_ZERO;
  br_error error;
  s = equals ? equals + 1 : s;
  int found = !t->failed && br__lex_start (&lex, s, strlen (s), &error) == BR_OK && br__parse (&tree, &lex, &error) == BR_OK;
  br__tree_clear (&tree);
  return found;
}

/* A hint with a formula in which words are left, min(gap, front deck), is none.  */
static void
drop_words (br_error *error)
{
  br_text t = BR_TEXT_ZERO;
  const char *end = strrchr (error->hint, '`');
  if (strcmp (error->message, "two values side by side") == 0 && strncmp (error->hint, "write `", 7) == 0 && !strstr (error->hint, "` or `"))
    {
      br__text_put (&t, error->hint + 7, (size_t) (end - error->hint) - 7);
      if (!reads (&t))
        *error->hint = 0;
    }
  br__text_clear (&t);
}

/* A function whose values want brackets, and several values without a comma.  */
static int
call_or_list (br_text *t, const br_error *error, const br__words *l)
{
  size_t from = 0, after = 0;
  int assigns = l->count > 2 && l->word[1].length == 1 && l->word[1].s[0] == '=';
  if (!assigns && strncmp (error->hint, "put a sign", 10) == 0 && br__phrase_apart (t, l))
    return 1;
  br__text_reset (t);
  if (assigns)
    {
      br__text_printf (t, "%.*s = ", (int) l->word[0].length, l->word[0].s);
      from = 2;
    }
  const br__function *f = br__phrase_function (l, from, &after);
  int found = f && lacks_hint (error, f->name);
  if (found && br__phrase_call (t, l, from, 0) && reads (t))
    return 1;
  br__text_reset (t);
  if (found && after > from + 1)
    br__text_printf (t, "help %s", f->name);
  return found && after > from + 1;
}

/* The bytes of a blank or an apostrophe at AT that parts the thousands of 1 234.56 or 1'234.56, else 0.  */
static size_t
part_of_thousands (const br__run *run, size_t at, size_t digits, int *mark)
{
  br__glyph g = br__glyph_at (run->text, run->end, at);
  size_t end = at + g.length;
  *mark = g.kind == BR__GLYPH_FOOT;
  if (digits < 1 || digits > 3 || (g.kind != BR__GLYPH_BLANK && !*mark))
    return 0;
  end += br__digits (run->text + end, run->end - end > 4 ? 4 : run->end - end);
  const char next = end < run->end ? run->text[end] : ' ';
  return end == at + g.length + 3 && next != '/' && next != '-' && next != ',' ? g.length : 0;
}

/* 1 234.56 mm and 1'234.56 mm: the number without what parts its thousands, or two numbers.  */
static int
parted_thousands (br_error *error, const br__run *run)
{
  br_text number = BR_TEXT_ZERO, list = BR_TEXT_ZERO;
  int marks = 0, blanks = 0;
  size_t digits = 0, n;
  for (size_t i = 0; i < run->end; )
    {
      int mark = 0, digit = run->text[i] >= '0' && run->text[i] <= '9';
      if (!digit && (n = part_of_thousands (run, i, digits, &mark)) > 0)
        {
          marks += mark;
          blanks += !mark;
          br__text_puts (&list, ", ");
          digits = 0;
          i += n;
          continue;
        }
      /* 2.125 250 and 3/125 250 are no thousands.  */
      digits = digit ? digits + 1 : run->text[i] == '.' || run->text[i] == '/' ? 9 : 0;
      br__text_put (&number, run->text + i, 1);
      br__text_put (&list, run->text + i++, 1);
    }
  int found = marks + blanks > 0 && !number.failed && !list.failed && number.length + list.length < 120;
  if (found && blanks && !memchr (run->text, '=', run->end))
    br__hint (error, "write `%s` or `%s`", br__text_string (&number), br__text_string (&list));
  else if (found)
    br__hint (error, "write `%s`", br__text_string (&number));
  br__text_clear (&number);
  br__text_clear (&list);
  return found;
}

/* lsit: a statement, mistyped.  */
static int
mistyped (br_error *error, const br__words *l)
{
  br__search search;
  const br__statement *st;
  if (l->count != 1 || !br__word_is_new (l, 0) || strncmp (error->hint, "a new size", 10) != 0)
    return 0;
  br__search_start (&search, l->word[0].s, l->word[0].length);
  for (size_t i = 0; (st = l->run->sheet->language->at (i)) != NULL; i++)
    br__search_offer (&search, st->word);
  if (search.best)
    br__hint (error, "did you mean `%s`? A new size is set by `=`", search.best);
  return search.best != NULL;
}

/* 3 + and `wheel =` break off; of a shape more is missing than a value.  */
static int
breaks_off (br_error *error, const br__words *l)
{
  const size_t last = l->count - 1;
  if (*error->hint || l->run->end > 60 || br__words_at (l, 0, "circle|box|arc|plate|line|outline|stock|part") || strcmp (error->message, "the line ends where a value should stand") != 0
      || br__letter_at (l->word[last].s, l->word[last].length, 1) || strchr (",(", l->word[last].s[l->word[last].length - 1]))
    return 0;
  const size_t length = (size_t) (l->word[last].s - l->run->text) + l->word[last].length;
  br__hint (error, "go on with a value, such as `%.*s 1/2`", (int) length, l->run->text);
  return 1;
}

/* Where a name is what is wrong: `stock = 3/4 x 5-1/2 x 96` has none, and none has a hyphen.  */
static int
puts_name (br_text *t, const br__run *run, const br__words *l)
{
  const size_t last = l->count - 1;
  if (l->count > 2 && l->word[1].length == 1 && l->word[1].s[0] == '=' && strstr (run->error->message, "cannot name") && !*run->error->hint
      && br__words_at (l, 0, "circle|box|arc|plate|line|outline|stock|part") && run->end < 90)
    return br__text_printf (t, "%.*s my_%.*s", (int) l->word[0].length, l->word[0].s, (int) run->end, run->text), 1;
  if (l->count < 3 || !br__word_at (l, 0, "rename") || !memchr (l->word[last].s, '-', l->word[last].length))
    return 0;
  br__text_puts (t, "rename");
  put_rest (t, l, 1);
  for (size_t i = t->length - l->word[last].length; i < t->length && !t->failed; i++)
    t->bytes[i] = t->bytes[i] == '-' ? '_' : t->bytes[i];
  return 1;
}

/* Sixteen; M8: the size of a bolt across its thread.  */
static int
bolt (br_error *error, const br__words *l)
{
  const char *s = l->word[0].s;
  const size_t n = l->word[0].length;
  if (l->count == 1 && br__cardinal (l, 0) > 1)
    return br__hint (error, "write `%lld`", (long long) br__cardinal (l, 0)), 1;
  if (l->count != 1 || n < 2 || n > 3 || (*s | 0x20) != 'm' || s[1] == '0' || br__digits (s + 1, n - 1) < n - 1)
    return 0;
  br__hint (error, "write `%.*s mm` or `drills %.*s mm`", (int) n - 1, s + 1, (int) n - 1, s + 1);
  return 1;
}

void
br__phrase_hint (br__run *run)
{
  br__words l = { .run = run }, copy;
  br_text t = BR_TEXT_ZERO;
  br__words_cut (&l);
  drop_words (run->error);
  if (l.count == 0 || l.count == BR__MOST_WORDS || !br__seeks_hints (run))
    return;
  /* wheel++ */
  size_t n = l.word[0].length;
  if (l.count == 1 && n > 2 && memcmp (l.word[0].s + n - 2, "++", 2) == 0)
    {
      copy = l;
      copy.word[0].length -= 2;
      br__words_put (&copy, 1, 0, "+= 1");
      if (br__phrase_row_hint (run, &copy))
        return;
    }
  int known = br__word_known (&l, 0);
  copy = l;
  if (toleranced (run->error, run) || bare_inches (run->error, run) || parted_thousands (run->error, run) || product_of_sum (run->error, &copy) || glued_pair (run->error, &l) || respelled (run->error, run)
      || and_pair (run->error, &l) || bolt (run->error, &l) || breaks_off (run->error, &l)
      || mistyped (run->error, &l))
    return;
  if (br__phrase_sizes (&t, &l) || (br__text_reset (&t), puts_corners (&t, &l)))
    {
      br__hint (run->error, "write `%s`", br__text_string (&t));
      br__text_clear (&t);
      return;
    }
  br__text_clear (&t);
  if ((strstr (run->error->message, "is not a word I know") || strcmp (run->error->message, "two values side by side") == 0
       || !*run->error->hint) && br__phrase_about (run, 0))
    return;
  if (puts_name (&t, run, &l))
    ;
  else if (!known && l.count > 1 && (br__word_at (&l, 0, "delete") || br__word_at (&l, 0, "remove") || br__word_at (&l, 0, "erase") || br__word_at (&l, 0, "del")))
    {
      br__text_puts (&t, "forget");
      put_rest (&t, &l, 1);
    }
  else if (!known && l.count == 2 && (br__word_at (&l, 0, "load") || br__word_at (&l, 0, "read")))
    {
      br__text_puts (&t, "open");
      put_rest (&t, &l, 1);
    }
  else if (!known && br__word_at (&l, 0, "print"))
    br__hint (run->error, "write `report into FILE.html` for a page, or `list`");
  else if (!known && l.count == 2 && br__word_at (&l, 0, "boxes"))
    br__hint (run->error, "write `%.*s boxes` or `in_boxes(%.*s)`", (int) l.word[1].length, l.word[1].s,
              (int) l.word[1].length, l.word[1].s);
  else if (!br__phrase_sized (&t, &l) && (br__text_reset (&t), !joined_name (&t, &l)) && !counted_name (&t, &l) && !call_or_list (&t, run->error, &l)
           && !(lacks_hint (run->error, "") && new_name (&t, &l)))
    named_measure (run->error, &l);
  if (t.failed)
    br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  else if (t.length && t.length < 120)
    br__hint (run->error, "write `%s`", br__text_string (&t));
  br__text_clear (&t);
}
