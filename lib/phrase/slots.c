/* SPDX-License-Identifier: LGPL-3.0-or-later
   slots.c - what stands in the hints of cues.c for what a line has: its shapes, its measures, its files.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "measure/measure.h"
#include "phrase/phrase.h"
#include "phrase/words.h"

/* What stands behind a number and is not what it counts.  */
#define NO_THINGS "x|by|of|on|in|at|to|for|from|and|or|long|wide|high|tall|thick|deep|across|with|in."

#define COMPARED "bigger|larger|longer|greater|wider|thicker|taller|higher|smaller|shorter|less|thinner|narrower|lower|fit|fits|same|equal"

static size_t
bare_length (const br__words *l, size_t i)
{
  return br__word_bare (l, i, br__word_begins_number (l, i) ? ",.?!;:" : ",.?!;:\"'");
}

/* The word I alone, without the marks behind it.  */
br__words
br__bare_word (const br__words *l, size_t i)
{
  br__words one = { .run = l->run, .word = { l->word[i] }, .count = 1 };
  one.word[0].length = bare_length (l, i);
  return one;
}

/* The word I is one of WORDS up to a blank or a comma, and no size.  */
int
br__word_among (const br__words *l, size_t i, const char *words)
{
  size_t length = 0;
  for (const char *end; *words && *words != ' ' && *words != ','; words = end + (*end == '|'))
    {
      char word[24] = "";
      for (end = words; *end && *end != '|' && *end != ' ' && *end != ','; end++)
        ;
      /* Most words have another first letter.  */
      if (br__letter_bit (*words) != br__letter_bit (*l->word[i].s))
        continue;
      length = length ? length : bare_length (l, i);
      const size_t n = (size_t) (end - words);
      const int begins = n > 1 && words[n - 1] == '-';
      const size_t most = begins ? n - 1 : n;
      if (begins ? length < most : length != most)
        continue;
      memcpy (word, words, most);
      /* Whether it is a size takes longest to find, and is asked for last.  */
      if (br__same_word (l->word[i].s, most, word))
        return !br__word_meant (l, i);
    }
  return 0;
}

/* The line has a word of each group of HAS.  */
int
br__words_among (const br__words *l, const char *has)
{
  while (*has)
    {
      size_t i = 0;
      while (i < l->count && !br__word_among (l, i, has))
        i++;
      if (i == l->count)
        return 0;
      has += strcspn (has, " ");
      has += *has == ' ';
    }
  return 1;
}

/* 2x4 and 2x4s: the length of the name of lumber, or 0.  */
static size_t
lumber_at (const br__words *l, size_t i)
{
  const char *s = l->word[i].s;
  size_t n = 0, x = 0, length = bare_length (l, i);
  for (; n < length && ((s[n] >= '0' && s[n] <= '9') || (s[n] == 'x' && n && !x)); n++)
    x = s[n] == 'x' ? n : x;
  return x && x + 1 < n && (n == length || (n + 1 == length && s[n] == 's')) ? n : 0;
}

/* The word I is a ratio, 1:4.  */
static int
is_ratio (const br__words *l, size_t i)
{
  const size_t length = bare_length (l, i);
  const char *s = l->word[i].s, *colon = memchr (s, ':', length);
  size_t n = 0;
  while (n < length && (s[n] == ':' || (s[n] >= '0' && s[n] <= '9')))
    n++;
  return colon && colon > s && n == length;
}

void
br__about_values (br__about *m)
{
  /* Is the tray wider than the base: of a shape its size is asked for.  */
  const int compares = br__words_at (&m->l, 0, "is|are|does|do|will|would|can|check") && br__words_among (&m->l, COMPARED);
  for (size_t i = 0; i < m->l.count && m->count < BR__MOST_VALUES; i++)
    {
      const br__words one = br__bare_word (&m->l, i);
      br_measure x = BR_MEASURE_ZERO;
      br__valued v = { .at = i };
      v.measured = br__word_begins_number (&one, 0) && br_measure_read (&x, one.word[0].s, one.word[0].length, br__words_grid (&m->l), NULL) == BR_OK;
      v.unit = x.unit != NULL;
      if (!v.measured || !br_number_get_ratio (&v.n, &v.d, &x.value))
        v.n = v.d = 0;
      br_measure_clear (&x);
      if (v.measured || is_ratio (&m->l, i) || (compares && br__word_thing (&one, 0) == BR__THING_SHAPE) || (br__word_known (&one, 0) && (br__word_meant (&m->l, i) || !br__word_known (&m->l, i))))
        m->v[m->count++] = v;
    }
}

/* The first word that says how many: a whole number without a unit, before what is counted or at the end.  */
size_t
br__about_count (const br__words *l)
{
  size_t i = 0;
  while (i < l->count && !br__words_at (l, i, "qty"))
    i++;
  if (i + 1 < l->count)
    {
      int64_t n, d;
      return br__word_ratio (l, i + 1, &n, &d) && d == 1 && n > 0 ? i + 1 : l->count;
    }
  for (i = 0; i < l->count; i++)
    {
      int64_t n, d;
      br__words one = br__bare_word (l, i);
      if (!br__word_begins_number (l, i) && br__cardinal (l, i) > 1)
        break;
      if (!br__word_ratio (&one, 0, &n, &d) || d != 1 || n < 1)
        continue;
      /* 4 x 3 x 2 has no count, nor a place, at 9.  */
      if (i + 1 == l->count && i && br__words_at (l, i - 1, "x|by|at|every|off"))
        continue;
      if (i + 1 == l->count)
        break;
      one = br__bare_word (l, i + 1);
      /* 7-1/2 x 5 two pieces: of pieces there are two.  */
      if (!br__cardinal (&one, 0) && br__letter_at (one.word[0].s, one.word[0].length, 0) && !br__words_at (&one, 0, NO_THINGS))
        break;
    }
  return i;
}

/* ---- What a hint is made of ---- */

/* The word I of N bytes: 5ft2in as 5 ft 2 in.  */
void
br__about_put_word (br_text *t, br__about *m, size_t i, size_t n, char colon)
{
  const br__words one = br__bare_word (&m->l, i);
  const int number = br__word_begins_number (&one, 0) && !lumber_at (&m->l, i);
  const char *s = m->l.word[i].s;
  m->taken[i] = 1;
  for (size_t k = 0; k < n; k++)
    {
      const int letter = br__letter_at (s + k, 1, 0) > 0, before = k && br__letter_at (s + k - 1, 1, 0) > 0;
      br__text_puts (t, number && k && letter != before ? " " : "");
      br__text_putc (t, s[k] == ':' ? colon : s[k]);
    }
}

/* Puts the side of the shape NAME, the word I, that is said before it: the left of the deck as left(deck).  */
static void
put_side (br_text *t, const br__words *l, size_t i, size_t length)
{
  static const char *const sides[] = { "left", "right", "top", "bottom" };
  const char *side = "centre";
  for (size_t k = i > 3 ? i - 3 : 0; k < i; k++)
    for (size_t n = 0; n < sizeof sides / sizeof sides[0]; n++)
      if (br__word_at (l, k, sides[n]))
        side = sides[n];
  br__text_printf (t, "%s(%.*s)", side, (int) length, l->word[i].s);
}

/* Puts the place of the line, at 3, 4; 0: it says none.  */
static int
put_place (br_text *t, br__about *m)
{
  const br__words *l = &m->l;
  for (size_t i = 0; i + 1 < l->count; i++)
    if (br__word_at (l, i, "at") && br__word_begins_number (l, i + 1))
      {
        const char *s = l->word[i + 1].s, *comma = memchr (s, ',', l->word[i + 1].length);
        const size_t n = comma ? (size_t) (comma - s) : l->word[i + 1].length;
        if (comma && n + 1 < l->word[i + 1].length)
          br__text_printf (t, "at %.*s, %.*s", (int) n, s, (int) (l->word[i + 1].length - n - 1), comma + 1);
        else if (!br__word_begins_number (l, i + 2))
          return 0;
        else
          {
            br__text_printf (t, "at %.*s, ", (int) n, s);
            br__about_put_word (t, m, i + 2, l->word[i + 2].length, '/');
          }
        m->taken[i + 1] = 1;
        return 1;
      }
  return 0;
}

/* Puts the text in quotation marks of the line; 0: there is none.  */
static int
put_quoted (br_text *t, const br__run *run)
{
  const char *open = memchr (run->text, '"', run->end);
  const char *close = open ? memchr (open + 1, '"', run->end - (size_t) (open + 1 - run->text)) : NULL;
  if (close)
    br__text_put (t, open, (size_t) (close + 1 - open));
  return close != NULL;
}

/* The bytes of the word I where it is one of KIND; 0: it is none.  A name may be one of many: wheels for wheel.  */
static size_t
kind_at (const br__about *m, size_t i, char kind)
{
  const br__words *l = &m->l;
  br__words one = br__bare_word (l, i);
  const size_t length = one.word[0].length;
  const br_unit *unit;
  int plural = 0;
  const int wanted = strchr ("GEAJZ", kind) ? BR__THING_SHAPE : kind == 'K' ? BR__THING_SIZE : strchr ("PO", kind) ? BR__THING_PART : kind == 'S' ? BR__THING_STOCK
                     : strchr ("dp", kind) ? BR__THING_PART : strchr ("YWUL", kind) ? BR__THING_SHAPE | BR__THING_PART | BR__THING_STOCK : 0;
  size_t called = 0;
  if (wanted)
    return br__word_called (&called, l, i) & wanted ? called : 0;
  int found = 0;
  switch (kind)
    {
    case 'B': return lumber_at (l, i);
    case 'M': found = br__ordinal (&one, 0, &plural) > (plural ? 1 : 3); break;
    case 'F': found = br__ends_in (one.word[0].s, length, BR__TABLES, strlen (BR__TABLES)); break;
    case 'I': found = br__ends_in (one.word[0].s, length, ".pdf|.html|.svg|.png", strlen (".pdf|.html|.svg|.png")); break;
    case 'R': found = is_ratio (l, i); break;
    case 'N': found = i == m->counts; break;
    case 'D': found = br__words_at (&one, 0, "a4|a3|letter"); break;
    case 'V': found = i != m->counts && !lumber_at (l, i) && br__word_measure (&one, 0, &unit); break;
    default: break;
    }
  return found ? length : 0;
}

/* Puts the WHICH-th thing of KIND that the line names; 0: it has not so many.  */
static int
put_thing (br_text *t, br__about *m, char kind, int which)
{
  const br__words *l = &m->l;
  const char *before = NULL;
  size_t length, before_length = 0;
  for (size_t i = 0; i < l->count; i++)
    {
      /* The same name twice is one thing, but for its sides; a 250mm wheel is none that is drawn.  */
      const br_unit *unit;
      if (i && strchr ("GEAJZYWUOL", kind) && br__word_measure (l, i - 1, &unit) && unit)
        continue;
      if ((length = kind_at (m, i, kind)) == 0
          || (strchr ("GLKPS", kind) && before_length == length && memcmp (before, l->word[i].s, length) == 0))
        continue;
      if (--which > 0)
        {
          before = l->word[i].s;
          before_length = length;
          continue;
        }
      if (kind == 'M')
        br__text_printf (t, "%lld", (long long) br__ordinal (l, i, NULL));
      else if (kind == 'N' && br__cardinal (l, i) > 1)
        br__text_printf (t, "%lld", (long long) br__cardinal (l, i));
      else if (kind == 'E')
        put_side (t, l, i, length);
      else if (strchr ("AJZ", kind))
        return m->taken[i] = br__about_put_again (t, m, kind, l->word[i].s, length);
      else if (strchr ("YWUO", kind))
        return m->taken[i] = br__about_put_edited (t, m, kind, l->word[i].s, length);
      else if (kind == 'p')
        return m->taken[i] = 1;
      else if (kind == 'd')
        return m->taken[i] = br__put_size_of_part (t, l, l->word[i].s, length);
      else if (kind == 'L')
        return br__about_put_line (t, l, l->word[i].s, length);
      else
        br__about_put_word (t, m, i, length, ':');
      m->taken[i] = 1;
      return 1;
    }
  return 0;
}

/* Puts a name that is free: what the line calls the thing, what it counts, or another.  */
static void
put_name (br_text *t, const br__words *l)
{
  /* stock oak 3/4 by 5, 2 boards */
  if (br__words_at (l, 0, "stock|part") && br__word_is_new (l, 1) && !br__words_at (l, 1, NO_THINGS "|called|named"))
    {
      br__text_put (t, l->word[1].s, l->word[1].length);
      return;
    }
  for (int counted = 0; counted < 2; counted++)
    for (size_t i = 0; i + 1 < l->count; i++)
      {
        const br__words one = br__bare_word (l, i + 1);
        int64_t n = 0, d = 0;
        const int before = counted ? (br__word_ratio (l, i, &n, &d) && d == 1 && n > 1) || br__cardinal (l, i) > 1 : br__words_at (l, i, "called|named");
        if (before && br__word_is_new (&one, 0) && !br__word_thing (&one, 0) && !br__words_at (&one, 0, NO_THINGS "|more|times|pieces|copies|big"))
          {
            br__text_put (t, one.word[0].s, one.word[0].length);
            return;
          }
      }
  static const char *const names[] = { "new_one", "new_two", "new_three" };
  /* row slats c qty 3: the name is there already.  */
  if (br__words_at (l, 0, "row|mirror|circle|box|plate|outline|line|arc") && br__word_is_new (l, 1) && !br__words_at (l, 1, NO_THINGS))
    {
      br__text_put (t, l->word[1].s, l->word[1].length);
      return;
    }
  size_t i = 0;
  for (; i < 2; i++)
    {
      const br__words one = { .run = l->run, .word = { { names[i], strlen (names[i]) } }, .count = 1 };
      if (!br__word_thing (&one, 0))
        break;
    }
  br__text_puts (t, names[i]);
}

/* Puts what the papers of the line are about; 0: it does not say.  */
static int
put_topic (br_text *t, const br__words *l)
{
  const br__cue *c = br__paper_cues;
  while (c->has && !br__words_among (l, c->has))
    c++;
  br__text_puts (t, c->has ? c->is : "");
  return c->has != NULL;
}

/* Puts the unit that stands alone at the end of the line; 0: none does.  */
static int
put_unit (br_text *t, const br__words *l)
{
  for (size_t i = l->count; i > 0; i--)
    {
      const br_unit *u = br_unit_find (l->word[i - 1].s, bare_length (l, i - 1));
      if (u && !br__word_known (l, i - 1) && !br__word_begins_number (l, i - 1) && !br__words_at (l, i - 1, "in"))
        return br__text_puts (t, u->name), 1;
    }
  return 0;
}

/* Puts the value I of the line, of a shape its size.  */
static void
put_valued (br_text *t, br__about *m, size_t i)
{
  const size_t at = m->v[i].at;
  /* 24 / (3 in) is divided by a length.  */
  const int divides = m->v[i].unit && t->length > 2 && memcmp (t->bytes + t->length - 2, "/ ", 2) == 0;
  br__text_puts (t, divides ? "(" : "");
  if ((m->taken[at] = br__put_size_of (t, &m->l, at)) == 0)
    br__about_put_word (t, m, at, bare_length (&m->l, at), '/');
  br__text_puts (t, divides ? ")" : "");
}

/* Puts the values of the line from FROM on, in the order of their roles, with SIGN between them, where there are LEAST or more.  */
static int
put_values (br_text *t, br__about *m, size_t from, const char *sign, size_t least)
{
  for (size_t i = from; i < m->count; i++)
    {
      br__text_puts (t, i > from ? sign : "");
      put_valued (t, m, m->order[i]);
    }
  return m->count >= from + least;
}

/* Puts the name of what is measured: the words before `is` and the like, or the first, before a number.  */
static int
put_measured (br_text *t, const br__words *l)
{
  size_t end = 1;
  while (end < l->count && end < 4 && !br__words_at (l, end, "is|are|was|measures|should|must|=|equals|will|be|needs") && !br__word_begins_number (l, end))
    end++;
  for (size_t i = 0; i < end; i++)
    if (end == l->count || !br__word_is_new (l, i) || (br__word_thing (l, i) && end == 1))
      return 0;
  for (size_t i = 0; i < end; i++)
    br__text_printf (t, "%s%.*s", i ? "_" : "", (int) l->word[i].length, l->word[i].s);
  return 1;
}

/* Puts what the two letters at IS say; 0: the line has it not.  */
static int
put_slot (br_text *t, br__about *m, const char *is)
{
  const br__words *l = &m->l;
  switch (*is)
    {
    case 'X': put_name (t, l); return 1;
    case 'H': return put_measured (t, l);
    case 'C': return put_place (t, m);
    case 'T': return put_topic (t, l);
    case 'Q': return put_quoted (t, l->run);
    case '%': return put_unit (t, l);
    case '@': return put_values (t, m, 0, ", ", 2);
    case '&': return put_values (t, m, m->named, ", ", 1);
    case '+': return put_values (t, m, 0, " + ", 2);
    case '-':
      memset (m->taken, -1, sizeof m->taken);
      return 1;
    default: break;
    }
  if (*is < '1' || *is > '9')
    return put_thing (t, m, *is, is[1] - '0');
  const size_t which = (size_t) (*is - '1');
  if (which >= m->count)
    return 0;
  put_valued (t, m, m->order[which]);
  return 1;
}

/* T = the hint from IS up to END; 0 where the line has not all that it takes.  */
int
br__about_put (br_text *t, br__about *m, const char *is, const char *end)
{
  for (; is < end; is++)
    if (*is == '[')
      {
        const char *close = memchr (is, ']', (size_t) (end - is)), *bar = memchr (is, '|', (size_t) (close - is));
        const size_t start = t->length;
        if (!br__about_put (t, m, is + 1, bar ? bar : close))
          {
            t->length = start;
            if (t->bytes)
              t->bytes[start] = 0;
            if (bar && !br__about_put (t, m, bar + 1, close))
              return 0;
          }
        is = close;
      }
    else if (*is != '$')
      br__text_putc (t, *is);
    else if (!put_slot (t, m, is + 1))
      return 0;
    else
      is += strchr ("123456789@&+%-", is[1]) ? 1 : 2;
  return !t->failed;
}
