/* SPDX-License-Identifier: LGPL-3.0-or-later
   loose.c - a line that no phrase takes as it was typed, in plainer words: without articles and the like, each
   measure as one word, so that `a 3 1/2 inch wheel` is read as `3-1/2in wheel`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "formula/words.h"
#include "measure/measure.h"
#include "phrase/phrase.h"
#include "phrase/topics.h"
#include "phrase/words.h"
#include "shape/shape.h"
#include "wood/wood.h"

#define MOST_WORD 24

const br_number *
br__words_grid (const br__words *l)
{
  static const br_number one = { 1, 0 };
  const br_number *grid = &l->run->sheet->settings.grid;
  return br_number_sign (grid) ? grid : &one;
}

/* The word I is a measure with a unit or without; *UNIT tells.  */
int
br__word_measure (const br__words *l, size_t i, const br_unit **unit)
{
  br_measure m = BR_MEASURE_ZERO;
  int found = br__word_begins_number (l, i) && br_measure_read (&m, l->word[i].s, l->word[i].length, br__words_grid (l), NULL) == BR_OK;
  *unit = found ? m.unit : NULL;
  br_measure_clear (&m);
  return found;
}

/* `in` before a value, a unit or an article is no inch: slope 1 in 12, 3/8 in mm.  */
static int
is_unit (const br__words *l, size_t i)
{
  const br_unit *u;
  if (!br__word_is_unit (l, i) || br__word_known (l, i))
    return 0;
  u = br_unit_find (l->word[i].s, l->word[i].length);
  if (u->dimension != BR_LENGTH)
    return 0;
  return !br__word_at (l, i, "in") || !(br__word_begins_number (l, i + 1) || br__word_is_unit (l, i + 1) || (i + 1 < l->count && br__word_thing (l, i + 1))
                                       || br__words_at (l, i + 1, "a|an|the|my|how|what|half|order|total|all|decimals|decimal|fractions")
                                       || br__words_at (l, i + 1, "fraction|lowest|simplest|metric|words|percent|feet|each|equal"));
}

/* Glues the words of a measure at I: 3 1/2 in, 5 ft 2 in.  A comma behind its end stays there.  */
static void
glue_measure (br__words *l, size_t i)
{
  int64_t n, d, whole, one;
  const br_unit *unit;
  int comma = 0;
  if (br__word_ratio (l, i, &whole, &one) && one == 1)
    {
      const size_t length = i + 1 < l->count ? l->word[i + 1].length : 0;
      comma = length && l->word[i + 1].s[length - 1] == ',';
      if (length)
        l->word[i + 1].length -= (size_t) comma;
      if (length && br__word_ratio (l, i + 1, &n, &d) && d > 1 && n < d && !memchr (l->word[i + 1].s, ',', l->word[i + 1].length))
        br__words_make (l, i, 2, "%lld-%lld/%lld%s", (long long) whole, (long long) n, (long long) d, comma ? "," : "");
      else if (length)
        l->word[i + 1].length += (size_t) comma, comma = 0;
    }
  if (comma || i + 1 >= l->count || !br__word_measure (l, i, &unit) || unit)
    return;
  size_t length = l->word[i + 1].length;
  comma = l->word[i + 1].s[length - 1] == ',';
  l->word[i + 1].length -= (size_t) comma;
  if (is_unit (l, i + 1) || (comma && br__word_at (l, i + 1, "in")))
    {
      const br_unit *u = br_unit_find (l->word[i + 1].s, l->word[i + 1].length);
      br__words_make (l, i, 2, "%.*s%s%s", (int) l->word[i].length, l->word[i].s,
                      u->num ? u->name : "squares", comma ? "," : "");
    }
  else
    l->word[i + 1].length += (size_t) comma;
}

/* Minus 2 gaps, where gap is a size: 2 * gap.  */
static void
count_sizes (br__words *l, size_t i)
{
  int64_t n, d = 1;
  size_t length;
  if (i && br__words_at (l, i - 1, "plus|minus|less|+|-") && ((n = br__cardinal (l, i)) > 1 || (br__word_ratio (l, i, &n, &d) && d == 1)) && !br__word_known (l, i + 1)
      && (br__word_called (&length, l, i + 1) & BR__THING_SIZE))
    br__words_make (l, i, 2, "%lld * %.*s", (long long) n, (int) length, l->word[i + 1].s);
}

/* 5ft 2in: one word.  */
static void
glue_feet (br__words *l, size_t i)
{
  const br_unit *a, *b;
  size_t length = i + 1 < l->count ? l->word[i + 1].length : 0;
  if (!length || !br__word_measure (l, i, &a) || !a || strcmp (a->name, "ft") != 0)
    return;
  length -= l->word[i + 1].s[length - 1] == ',';
  br__words one = *l;
  one.word[i + 1].length = length;
  if (br__word_measure (&one, i + 1, &b) && b && strcmp (b->name, "in") == 0)
    br__words_make (l, i, 2, "%.*s%.*s", (int) l->word[i].length, l->word[i].s, (int) l->word[i + 1].length, l->word[i + 1].s);
}

/* diagonal 6x8, and a line from 0,0 to 5,5: two measures in one word, where it can be no lumber and no decimal comma.  */
static void
part_pairs (br__words *l)
{
  const int line = br__words_among (l, "line|bar from to");
  if (!(line || br__words_among (l, "diagonal|hypotenuse|area|perimeter|volume|rectangle|+|-|plus|minus")) || br__words_among (l, "board-|stock|lumber|stud-|plank-"))
    return;
  for (size_t i = 0; i < l->count; i++)
    {
      const char *s = l->word[i].s, *x = memchr (s, line ? ',' : 'x', l->word[i].length);
      const size_t n = x ? (size_t) (x - s) : 0, length = l->word[i].length;
      if (!n || n + 1 == length || l->count + 2 > BR__MOST_WORDS || !br__word_begins_number (l, i) || !br__measure_begins (s, length, n + 1))
        continue;
      const size_t next = i + (line ? 1 : 2);
      br__words_put (l, i, 1, line ? "a b" : "a x b");
      l->word[i].s = s;
      l->word[i].length = n + (size_t) line;
      l->word[next].s = x + 1;
      l->word[next].length = length - n - 1;
    }
}

/* M8: a thread, and no name.  */
static int
bolt_size (const br__words *l, size_t i)
{
  const char *s = l->word[i].s;
  const size_t n = l->word[i].length;
  return (n == 2 || n == 3) && (*s | 0x20) == 'm' && s[1] > '0' && s[1] <= '9' && (n == 2 || (s[2] >= '0' && s[2] <= '9')) && !br__word_thing (l, i);
}

void
br__words_loosen (br__words *l)
{
  static const char *const fillers[] = { "a", "an", "the", "my", "our", "your", "his", "her", "please", "just", "exactly", "altogether", "so",
                                         "then", "ok", "okay", "really", "actually", "there", "also", "pls", "plz", "thx", "thanks", "hey", "hi", "teh", "me" };
  size_t last = l->count ? l->count - 1 : 0;
  static const struct { const char *said, *is; } plainer[] = {
    { "more wide", "wider" }, { "more long", "longer" }, { "more high|tall", "taller" }, { "more thick", "thicker" }, { "more big|large", "bigger" },
    { "more narrow|thin", "narrower" }, { "more short", "shorter" }, { "more small", "smaller" }, { "more low", "lower" } };
  if (l->count)
    l->word[last].length = br__word_bare (l, last, "?!.");
  /* A bit taller is of no drill.  */
  for (size_t i = 0; i + 2 < l->count; i++)
    if (br__words_at (l, i, "a bit|little") && !br__word_known (l, i + 1))
      br__words_put (l, i, 2, "");
  for (size_t i = 0; i + 1 < l->count; i++)
    for (size_t k = 0; k < sizeof plainer / sizeof plainer[0] && br__word_at (l, i, "more"); k++)
      if (br__words_at (l, i, plainer[k].said))
        br__words_put (l, i, 2, plainer[k].is);
  /* gap Â±1/32 */
  for (size_t i = 1; i < l->count; i++)
    {
      const size_t n = l->word[i].length, sign = *l->word[i].s == '+' ? 1 + (size_t) (n > 2 && l->word[i].s[1] == '/') : 1;
      if (n > sign + 1 && br__measure_begins (l->word[i].s, n, sign + 1) && (memcmp (l->word[i].s, "\xc2\xb1", 2) == 0 || (*l->word[i].s == '+' && l->word[i].s[sign] == '-')))
        br__words_make (l, i, 1, "+- %.*s", (int) (n - sign - 1), l->word[i].s + sign + 1);
    }
  /* An M8 bolt is 8 mm across.  */
  for (size_t i = 0; i < l->count; i++)
    if (bolt_size (l, i) && br__words_among (l, "bolt|bolts|screw|screws|thread|threads|nut|nuts|drill-|bit|hole|holes|washer|washers|clearance"))
      br__words_make (l, i, 1, "%.*smm", (int) l->word[i].length - 1, l->word[i].s + 1);
  part_pairs (l);
  br__phrase_numbers (l);
  for (size_t i = 0; i < l->count; i++)
    glue_measure (l, i);
  for (size_t i = 0; i + 1 < l->count; i++)
    {
      glue_feet (l, i);
      if (i + 1 < l->count)
        count_sizes (l, i);
    }
  /* What a note says is its text, not manners.  */
  for (size_t i = br__word_at (l, 0, "note") ? l->count : 0; i < l->count; )
    {
      int drops = 0;
      for (size_t k = 0; k < sizeof fillers / sizeof fillers[0] && l->count > 1 && !br__word_known (l, i); k++)
        drops |= br__word_at (l, i, fillers[k]);
      /* a = 3: a name.  */
      drops |= i > 1 && i + 1 == l->count && br__words_at (l, i, "again|then");
      if (drops && !(i + 1 == l->count && br__words_at (l, i, "ok|okay")) && !(i + 1 < l->count && br__words_at (l, i + 1, "=|<|>|<=|>=|+|-|*|/")))
        br__words_put (l, i, 1, "");
      else
        i++;
    }
}

int
br__phrase_loose (br_text *t, const br__run *run)
{
  br__words l = { .run = run };
  br__words_cut (&l);
  if (l.count == 0 || l.count == BR__MOST_WORDS)
    return 0;
  br__words_loosen (&l);
  for (size_t i = 0; i < l.count; i++)
    {
      br__text_puts (t, i ? " " : "");
      br__text_put (t, l.word[i].s, l.word[i].length);
    }
  return l.count > 0 && !t->failed;
}

/* ---- Slips of the keyboard ---- */

/* Offers the words of four letters or more in TEXT, which a blank or a bar parts; BEST holds the nearest.  */
static void
offer_words (br__search *s, char best[MOST_WORD], const char *text)
{
  for (size_t n; *text; text += n + (text[n] != 0))
    {
      char word[MOST_WORD];
      n = strcspn (text, " |[]");
      if (n < 4 || n >= sizeof word)
        continue;
      memcpy (word, text, n);
      word[n] = 0;
      /* turn- is each word that begins so.  */
      if (word[n - 1] == '-' && s->length >= n - 1 && memcmp (s->word, word, n - 1) == 0)
        s->distance = 0;
      br__search_offer (s, word);
      if (s->best == word)
        s->best = memcpy (best, word, n + 1);
    }
}

/* BEST = the word that the word I is one slip from; 0: it is a word that is known, or near none.  */
static int
nearest_word (char best[MOST_WORD], const br__words *l, size_t i)
{
  const br_sheet *sheet = l->run->sheet;
  const char *s = l->word[i].s;
  const size_t n = l->word[i].length;
  br__search search;
  for (size_t k = 0; k < n; k++)
    if (!br__letter_at (s + k, 1, 0))
      return 0;
  if (n < 5 || br__word_thing (l, i) || br__statement_of (l->run, s, n) || br__function_find (s, n) || br__topic_find (s, n) || br_unit_find (s, n))
    return 0;
  br__search_start (&search, s, n);
  search.distance = search.distance > 2 ? 2 : search.distance;
  size_t left = BR__MOST_OFFERED;
  for (const br__shape *x = sheet->shapes; x && left > 0; x = x->next, left--)
    offer_words (&search, best, x->name);
  left = BR__MOST_OFFERED;
  for (const br__wood *x = sheet->wood; x && left > 0; x = x->next, left--)
    offer_words (&search, best, x->name);
  left = BR__MOST_OFFERED;
  for (const br__entry *e = br__graph_first (sheet->graph); e && left > 0; e = br__entry_next (e), left--)
    offer_words (&search, best, br__entry_name (e));
  offer_words (&search, best, "inches feet yards metres meters millimetres millimeters centimetres centimeters quarters eighth eighths sixteenth sixteenths");
  for (const br__phrase_rule *r = br__phrase_rules; r->typed; r++)
    offer_words (&search, best, r->typed);
  for (const br__phrase_rule *r = br__phrase_orders; r->typed; r++)
    offer_words (&search, best, r->typed);
  for (const br__cue *c = br__cues; c->has; c++)
    offer_words (&search, best, c->has);
  return search.best && search.distance == 1;
}

const char *
br__near_size (const br__run *run, const char *s, size_t length)
{
  br__search search;
  size_t left = BR__MOST_OFFERED;
  for (size_t k = 0; k < length; k++)
    if (!br__letter_at (s + k, 1, 0))
      return NULL;
  br__search_start (&search, s, length < 4 ? 0 : length);
  search.distance = length < 4 ? 0 : 2;
  for (const br__entry *e = br__graph_first (run->sheet->graph); e && left > 0; e = br__entry_next (e), left--)
    if (br__entry_definition (e) && !br__is_hidden_entry (e))
      br__search_offer (&search, br__entry_name (e));
  return search.best;
}

/* Whether the word S, LENGTH bytes, may stand in a line of ST.  */
static int
is_word_of (const br__statement *st, const char *s, size_t length)
{
  const char *const texts[] = { st->form, st->words ? st->words : "" };
  for (int i = 0; i < 2; i++)
    for (const char *at = texts[i]; *at; at += *at != 0)
      {
        size_t n = 0;
        while (br__letter_at (at + n, 1, 0))
          n++;
        if (n == length && memcmp (at, s, n) == 0)
          return 1;
        at += n;
      }
  return 0;
}

int
br__phrase_spelled (br_text *t, const br__run *run)
{
  br__words l = { .run = run };
  char best[MOST_WORD];
  int found = 0;
  br__words_cut (&l);
  if (l.count && l.count < BR__MOST_WORDS)
    br__phrase_names (&l);
  const br__statement *st = l.count ? br__statement_of (l.run, l.word[0].s, l.word[0].length) : NULL;
  for (size_t i = 0; i < l.count && l.count < BR__MOST_WORDS; i++)
    {
      const br__words one = br__bare_word (&l, i);
      const int slip = !(st && is_word_of (st, one.word[0].s, one.word[0].length)) && nearest_word (best, &one, 0);
      br__text_printf (t, "%s%.*s", i ? " " : "", slip ? (int) strlen (best) : (int) l.word[i].length, slip ? best : l.word[i].s);
      found |= slip;
    }
  return found && !t->failed;
}

/* ---- Lines that are right in the language, and that people mean otherwise ---- */

/* x = five, which would wait for `five`.  */
static int
waits_for_number (const br__words *l)
{
  int found = l->count > 2 && (br__word_at (l, 1, "=") || (br__words_at (l, 0, "stock|part|circle|box") && br__word_at (l, 2, "=")));
  for (size_t i = 2; i < l->count && found; i++)
    if (br__cardinal (l, i) && !br__words_at (l, i, "a|an"))
      return 1;
  return 0;
}

/* 2ft,3in: one length, or two.  */
int
br__phrase_feet_hint (br__run *run, const br__words *l)
{
  const char *s = l->word[0].s, *comma = memchr (s, ',', l->word[0].length);
  const size_t feet = comma ? (size_t) (comma - s) : 0, inches = comma ? l->word[0].length - feet - 1 : 0;
  br_measure a = BR_MEASURE_ZERO, b = BR_MEASURE_ZERO;
  int found = l->count == 1 && comma && inches && l->word[0].length < 60
              && br_measure_read (&a, s, feet, NULL, NULL) == BR_OK && br_measure_read (&b, comma + 1, inches, NULL, NULL) == BR_OK
              && a.unit && b.unit && strcmp (a.unit->name, "ft") == 0 && strcmp (b.unit->name, "in") == 0;
  if (found)
    {
      br__fail_two_ways (run, 0, run->end);
      br__hint (run->error, "write `%.*s %.*s` or `%.*s, %.*s`", (int) feet, s, (int) inches, comma + 1, (int) feet, s, (int) inches, comma + 1);
    }
  br_measure_clear (&a);
  br_measure_clear (&b);
  return found;
}

/* TIMES X is SIZE at the most.  */
static int
is_within (const br_number *x, int64_t times, const br_number *size)
{
  br_number t = BR_NUMBER_ZERO;
  int within = br_number_set_int (&t, times) == BR_OK && br_number_mul (&t, &t, x) == BR_OK && br_number_cmp (&t, size) <= 0;
  br_number_clear (&t);
  return within;
}

/* The word I is a number with SIGN glued before it, so small beside the size in the word NOMINAL, a name or a number, that it may
   be how far that may be off: a fiftieth of it, or an eighth and a quarter of it.  */
static int
is_limit (const br__words *l, size_t i, char sign, size_t nominal)
{
  const char *s = l->word[i].s, *of = l->word[nominal].s;
  const size_t length = l->word[i].length, of_length = l->word[nominal].length;
  br_measure limit = BR_MEASURE_ZERO, size = BR_MEASURE_ZERO, one = BR_MEASURE_ZERO;
  int found = *s == sign && br_measure_read (&limit, s + 1, length - 1, br__words_grid (l), NULL) == BR_OK
              && br_number_set_int (&one.value, 1) == BR_OK;
  if (found && br__word_begins_number (l, nominal))
    found = br_measure_read (&size, of, of_length, br__words_grid (l), NULL) == BR_OK
            && (is_within (&limit.value, 50, &size.value) || (is_within (&limit.value, 8, &one.value) && is_within (&limit.value, 4, &size.value)));
  else if (found)
    found = br__letter_at (of, of_length, 0) && is_within (&limit.value, 8, &one.value);
  br_measure_clear (&limit);
  br_measure_clear (&size);
  br_measure_clear (&one);
  return found;
}

/* w = 12 / 3 in: three, of inches, or twelve by three inches, which is no size.  */
static int
divides_by_length (br__run *run, const br__words *l)
{
  const size_t from = 2, last = l->count - 1;
  const br_unit *first, *second;
  if (l->count < from + 3 || !br__word_at (l, 1, "=") || l->count > from + 4 || !br__word_at (l, from + 1, "/") || run->end > 60
      || !br__word_measure (l, from, &first) || first || !br__word_measure (l, from + 2, &second) || (last == from + 3) != !second
      || (last == from + 3 && !br__word_is_unit (l, last)))
    return 0;
  const int before = (int) (l->word[from].s - run->text), n = (int) l->word[from].length;
  const char *s = l->word[from + 2].s, *end = l->word[last].s + l->word[last].length;
  size_t number = 0;
  while (s + number < end && strchr ("0123456789/.-", s[number]))
    number++;
  const size_t unit = number + (s[number] == ' ');
  br__fail_two_ways (run, 0, run->end);
  br__hint (run->error, "write `%.*s(%.*s / %.*s) %.*s` or `%.*s%.*s / (%.*s)`", before, run->text, n, l->word[from].s, (int) number, s,
            (int) (end - s) - (int) unit, s + unit, before, run->text, n, l->word[from].s, (int) (end - s), s);
  return 1;
}

/* 58.7, 31.3, 40 mm in a sheet of inches, from the word FROM on: where the last stands, which alone has *UNIT; 0: it is no such list.
   25, 4 mm and 1, 234 mm and 1.234, 56 mm are what such a comma in a number is told from.  */
static size_t
list_of_one_unit (const br_unit **unit, const br__words *l, size_t from)
{
  size_t last = from;
  int decimals = 0, thousands = 1;
  br__words one = *l;
  if (l->count < from + 2)
    return 0;
  for (; last < l->count && l->word[last].s[l->word[last].length - 1] == ','; last++)
    {
      one.word[last].length--;
      /* 1/2, 3/4, 10 mm: fractions are of inches.  */
      if (memchr (l->word[last].s, '/', l->word[last].length))
        return 0;
      decimals |= memchr (l->word[last].s, '.', l->word[last].length) != NULL;
      thousands &= last == from || br__digits (l->word[last].s, l->word[last].length) == 3;
      if (!br__word_measure (&one, last, unit) || *unit)
        return 0;
    }
  const char *dot = memchr (l->word[from].s, '.', l->word[from].length);
  const int decimal_comma = last == from + 1 && (!decimals || (dot && br__digits (dot + 1, l->word[from].length - (size_t) (dot + 1 - l->word[from].s)) == 3));
  if (last == from || !br__word_measure (l, last, unit) || decimal_comma || (thousands && last < l->count && br__digits (l->word[last].s, l->word[last].length) == 3))
    return 0;
  const size_t next = last + (*unit ? 1 : 2);
  *unit = *unit ? *unit : br__word_is_unit (l, last + 1) ? br_unit_find (l->word[last + 1].s, l->word[last + 1].length) : NULL;
  return *unit && (*unit)->dimension == BR_LENGTH && (*unit)->num && !br__word_begins_number (l, next) ? last : 0;
}

int
br__last_has_unit (br__run *run, const br__words *l)
{
  const size_t from = (size_t) br__words_at (l, 0, "round|full|drawn");
  const br_unit *unit = NULL, *const own = run->sheet->settings.unit;
  const size_t last = list_of_one_unit (&unit, l, from);
  if (!last || br__unit_is_decimal (unit) == br__unit_is_decimal (own) || run->end > 60)
    return 0;
  const int before = (int) (l->word[from].s - run->text), rest = (int) (run->text + run->end - l->word[last].s);
  br_text all = BR_TEXT_ZERO, alone = BR_TEXT_ZERO;
  br__text_printf (&all, "%.*s", before, run->text);
  br__text_printf (&alone, "%.*s", before, run->text);
  for (size_t i = from; i < last; i++)
    {
      br__text_printf (&all, "%.*s %s, ", (int) l->word[i].length - 1, l->word[i].s, unit->name);
      br__text_printf (&alone, "%.*s %s, ", (int) l->word[i].length - 1, l->word[i].s, own->name);
    }
  br__fail_two_ways (run, 0, run->end);
  br__hint (run->error, "write `%s%.*s` or `%s%.*s`", br__text_string (&all), rest, l->word[last].s, br__text_string (&alone), rest, l->word[last].s);
  br__text_clear (&all);
  br__text_clear (&alone);
  return 1;
}

int
br__phrase_first (br__run *run)
{
  br__words l = { .run = run };
  br__words_cut (&l);
  if (l.count == 0 || l.count == BR__MOST_WORDS)
    return 0;
  if (br__phrase_feet_hint (run, &l) || divides_by_length (run, &l) || br__last_has_unit (run, &l))
    return 1;
  const size_t last = l.count - 1;
  if (last && br__words_at (&l, 0, "tolerance|known") && br__words_at (&l, last, "everything|all|them|these|it|this|that") && !br__word_known (&l, last))
    {
      br__fail (run->error, BR_SYNTAX, (size_t) (l.word[last].s - run->text), l.word[last].length, "the sizes stand here by their names");
      br__hint (run->error, "write `list`, which has them all");
      return 1;
    }
  /* 6.2 +0.1 -0.05: a sum, or limits on either side.  */
  if (last > 1 && is_limit (&l, last - 1, '+', last - 2) && is_limit (&l, last, '-', last - 2))
    {
      const char *plus = l.word[last - 1].s + 1, *minus = l.word[last].s + 1;
      br__fail_two_ways (run, 0, run->end);
      if (run->end < 80)
        br__hint (run->error, "write `%.*s + %.*s - %.*s` or `help tolerance`", (int) (plus - run->text) - 2, run->text, (int) l.word[last - 1].length - 1, plus, (int) l.word[last].length - 1, minus);
      return 1;
    }
  /* part leg = 200 x 40 x2: two of them, or 2 thick.  */
  const size_t at = last - (last > 6 && br__word_at (&l, last - 1, "from") ? 2 : 0);
  if (at > 4 && br__word_at (&l, 0, "part") && br__word_at (&l, at - 2, "x") && l.word[at].length > 1 && l.word[at].s[0] == 'x'
      && br__digits (l.word[at].s + 1, l.word[at].length - 1) == l.word[at].length - 1)
    {
      const int before = (int) (l.word[at].s - run->text), n = (int) (run->end - (size_t) before) - 1;
      br__fail_two_ways (run, 0, run->end);
      if (run->end < 60)
        br__hint (run->error, "write `%.*sqty %.*s` or `%.*sx %.*s`", before, run->text, n, l.word[at].s + 1, before, run->text, n, l.word[at].s + 1);
      return 1;
    }
  if (!waits_for_number (&l))
    return 0;
  br__fail (run->error, BR_SYNTAX, 0, run->end, "a number in words");
  return 1;
}
