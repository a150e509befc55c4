/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase_sense.c - what a line of other words may mean: its values, in whatever order, and a word that says what is asked of
   them.  That is a hint and never a reading.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "measure/measure.h"
#include "statement/phrase.h"
#include "statement/phrase_words.h"
#include "statement/statements.h"

#define MOST_VALUES 10
#define TURNS "turn turns turned revolution revolutions revs rotation rotations rotate rotates spin spins roll rolls"
#define ROUND "circumference rim around"
#define THINGS "holes hole slats slat rungs rung pegs peg screws nails posts balusters spindles shelves marks dowels bars hooks"
#define APART "apart spaced spacing spaces space spread evenly equally gap gaps between"
#define PIECES "pieces piece parts part lengths sections bits strips blocks equal cut split divide share slice saw"
#define ANGLE "angle slope slopes pitch gradient incline ramp steep grade tilt degrees degree"
#define MORE "bigger larger longer greater wider more thicker taller higher"
#define LESS "smaller shorter less thinner narrower lower"

#define NO "not no never cannot can't cant mustn't shouldn't won't"
/* These stand behind the value that they are said of: 3 high.  */
#define BEHIND "high tall long wide thick deep across up"

/* One of the words ANY and one of ALSO, where there are some, stand in the line, which has COUNT values (0: two or more; 1 or
   more that are the least of a list: -1).  ROLES says which value is $1, $2 and so on: `#` how many there are of something,
   `/` one part of an inch, +WORDS the one right before one of them, =WORDS the one that they are said of, rather than one of ANY,
   WORDS the nearest to one of them; the others follow in their order.  @ is all of them as a list, + as a sum.  % is the
   unit that the line ends in.  */
typedef struct sense
{
  const char *any, *also, *roles;
  int count;
  const char *is;
} sense;

static const sense senses[] = {
  { TURNS, NULL, "+" TURNS " times", 2, "$1 * circumference($2)" },
  { TURNS, NULL, "wheel diameter dia circle tyre tire roller disc across", 2, "$2 / circumference($1)" },
  { TURNS, "radius", NULL, 1, "circumference(diameter($1))" },
  { TURNS, "diameter dia", NULL, 1, "circumference($1)|$1 / pi" },
  { TURNS, NULL, NULL, 1, "circumference($1)" },
  { "diameter dia", ROUND, "=" ROUND, 1, "$1 / pi" },
  { "radius", ROUND, "=" ROUND, 1, "$1 / pi / 2" },
  { "diameter dia across wide", "radius", "=radius", 1, "diameter($1)" },
  { "radius", "diameter dia across wide", "=diameter dia across wide", 1, "radius($1)" },
  { ROUND, "radius", NULL, 1, "circumference(diameter($1))" },
  { ROUND, NULL, NULL, 1, "circumference($1)" },
  { "diameter dia", NULL, NULL, 1, "diameter($1)" },
  { "radius", NULL, NULL, 1, "radius($1)" },
  { "diagonal diagonally hypotenuse corner corners brace ladder pythagoras", NULL, NULL, 2, "diagonal($1, $2)" },
  { ANGLE, "percent percentage %", "rise rises rising high height up", 2, "$1 / $2 * 100" },
  { ANGLE " rise rises rising", NULL, "rise rises rising high height up tall", 2, "atan($1 / $2)" },
  { ANGLE, NULL, "/", 1, "atan($1)" },
  { "denominator denominators", NULL, NULL, 0, "explain +" },
  { "order sort arrange rank ascending descending", NULL, NULL, 0, "@" },
  { "smallest least shortest thinnest minimum", NULL, NULL, 0, "min(@)" },
  { "largest biggest longest thickest widest maximum most", NULL, NULL, 0, "max(@)" },
  { THINGS " " APART " " PIECES, "thick wide width thickness", "#,thick wide width thickness", 3, "space $1 across $3 width $2" },
  { "gap kerf saw blade", PIECES, "#,kerf saw blade wide thick gap", 3, "divide $3 into $1 kerf $2" },
  { THINGS " " APART, NULL, "#", 2, "space $1 across $2" },
  { PIECES, NULL, "#", 2, "divide $2 into $1" },
  { "every", NULL, "every", 2, "$2 / $1" },
  { "go goes fit fits many", "many times often pieces", "long", 2, "$1 / $2" },
  { "scale size scaled drawn drawing paper", "half", NULL, 1, "drawn($1, 1/2)|full($1, 1/2)" },
  { "scale size scaled drawn drawing paper", "quarter", NULL, 1, "drawn($1, 1/4)|full($1, 1/4)" },
  { "scale size scaled drawn drawing paper", "eighth", NULL, 1, "drawn($1, 1/8)|full($1, 1/8)" },
  { "scale", "what what's whats which find", NULL, 2, "$1 / $2" },
  { "scale scaled", NULL, "scale scaled", 2, "drawn($2, $1)|full($2, $1)" },
  { "nearest closest next round rounded", "up upward upwards over above", "/", 2, "round $2 to $1 up" },
  { "nearest closest next round rounded", "down downward downwards under below", "/", 2, "round $2 to $1 down" },
  { "nearest closest round rounded rounding ruler mark tape", NULL, "/", 2, "round $2 to $1" },
  { "nearest closest round rounded", NULL, NULL, -1, "round @" },
  { "decimal decimals", NULL, NULL, 1, "$1 as a decimal" },
  { "fraction", NULL, NULL, 1, "$1 as a fraction" },
  { "percent percentage %", "of out", NULL, 2, "$1 / $2 * 100" },
  { "percent percentage %", NULL, NULL, 1, "$1 as percent" },
  { MORE, "much difference", NULL, 2, "abs($1 - $2)" },
  { LESS, "much difference", NULL, 2, "abs($1 - $2)" },
  { "give", "take", NULL, 2, "size = $1 +- $2" },
  { MORE, NO, NULL, 2, "check $1 <= $2" },
  { LESS, NO, NULL, 2, "check $1 >= $2" },
  { MORE, NULL, NULL, 2, "check $1 > $2" },
  { LESS, NULL, NULL, 2, "check $1 < $2" },
  { "same equal equals equivalent match matches", NULL, NULL, 2, "check $1 = $2" },
  { "fit fits go goes inside through under within", NULL, NULL, 2, "check $1 <= $2" },
  { "average mean", NULL, NULL, 0, "mean(@)" },
  { "middle halfway midway midpoint centre center between", NULL, NULL, 2, "mean(@)" },
  { "difference far apart off out error short", NULL, NULL, 2, "abs($1 - $2)" },
  { "take away minus subtract left leftover remains remain remaining less off cut", NULL, NULL, 2, "$1 - $2|$2 - $1" },
  { "total altogether sum add plus together combined all", NULL, NULL, 0, "sum(@)" },
  { "area surface square", "circle disc round", NULL, 1, "pi * ($1 / 2)^2" },
  { "area surface", NULL, NULL, 2, "$1 * $2" },
  { "perimeter border edging", NULL, NULL, 2, "2 * ($1 + $2)" },
  { "volume", NULL, NULL, 3, "$1 * $2 * $3" },
  { "times product multiply multiplied each", NULL, NULL, 2, "$1 * $2" },
  { "half halve halved middle centre center", NULL, NULL, 1, "$1 / 2" },
  { "third thirds", NULL, NULL, 1, "$1 / 3" },
  { "quarter quarters", NULL, NULL, 1, "$1 / 4" },
  { "twice double doubled", NULL, NULL, 1, "2 * $1" },
  { "tolerance within", NULL, NULL, 2, "size = $1 +- $2" },
  { "remember store keep save note write memory", NULL, NULL, 1, "size = $1" },
  { "in into to as many what convert", NULL, "%", 1, "$1 in %" },
  { NULL, NULL, NULL, 0, NULL }
};

typedef struct value
{
  size_t at, length;
  const char *s;
  const br_unit *unit;
  int64_t n, d;                 /* of a plain fraction or whole number, else 0 */
  int known;
} value;

typedef struct line
{
  const br__words *l;
  value v[MOST_VALUES];
  size_t count;
} line;

static size_t
bare_length (const br__words *l, size_t i)
{
  return br__word_bare (l, i, ",.?!;:");
}

/* The word I is one of WORDS.  */
static int
is_one_of (const br__words *l, size_t i, const char *words)
{
  const size_t length = bare_length (l, i);
  for (size_t n; *words && *words != ','; words += n + (words[n] == ' '))
    {
      char word[16];
      n = strcspn (words, " ,");
      snprintf (word, sizeof word, "%.*s", (int) n, words);
      if (br__same_word (l->word[i].s, length, word))
        return 1;
    }
  return 0;
}

static int
has_one_of (const line *m, const char *words)
{
  for (size_t i = 0; i < m->l->count; i++)
    if (!br__word_known (m->l, i) && is_one_of (m->l, i, words))
      return 1;
  return 0;
}

/* The values of the line: measures, names, and a ratio 1:4 as 1/4.  */
static void
find_values (line *m, br__words *l)
{
  m->l = l;
  m->count = 0;
  for (size_t i = 0; i < l->count && m->count < MOST_VALUES; i++)
    {
      const size_t length = l->word[i].length;
      value v = { .at = i, .s = l->word[i].s, .length = bare_length (l, i) };
      l->word[i].length = v.length;
      const char *colon = memchr (v.s, ':', v.length);
      v.known = br__word_known (l, i);
      int found = v.known || br__word_measure (l, i, &v.unit) || (colon && colon > v.s && strspn (v.s, "0123456789:") >= v.length);
      if (found && !v.known && !colon && !v.unit && !br__word_ratio (l, i, &v.n, &v.d))
        v.n = v.d = 0;
      l->word[i].length = length;
      if (found)
        m->v[m->count++] = v;
    }
}

static size_t
apart (size_t a, size_t b)
{
  return a > b ? a - b : b - a;
}

/* How many there are: a whole number before the name of a thing, else the only one, or the less of two.  */
static size_t
find_count (const line *m)
{
  size_t best = MOST_VALUES;
  for (size_t i = 0; i < m->count; i++)
    if (m->v[i].d == 1)
      {
        const size_t next = m->v[i].at + 1;
        if (next < m->l->count && is_one_of (m->l, next, THINGS " " PIECES " " APART " ways"))
          return i;
        if (best == MOST_VALUES || m->v[i].n < m->v[best].n)
          best = i;
      }
  return best;
}

/* The value that the role R says, of those that are not TAKEN yet; MOST_VALUES: none.  */
static size_t
find_role (const line *m, const sense *s, const char *r, const int *taken)
{
  size_t best = MOST_VALUES, least = BR__MOST_WORDS;
  if (*r == '#')
    return find_count (m);
  for (size_t i = 0; i < m->count; i++)
    {
      const value *v = &m->v[i];
      if (taken[i])
        continue;
      if (*r == '/' ? v->n == 1 && v->d > 1 : *r == '+' ? v->at + 1 < m->l->count && is_one_of (m->l, v->at + 1, r + 1) : 0)
        return i;
      /* A word behind a value is a little further from it than one before, unless that is how it is said.  */
      size_t nearest = BR__MOST_WORDS * 2, other = BR__MOST_WORDS * 2;
      for (size_t k = 0; k < m->l->count && !strchr ("/+", *r); k++)
        {
          const size_t far = 2 * apart (k, v->at) + ((k > v->at) != is_one_of (m->l, k, BEHIND));
          if (is_one_of (m->l, k, r + (*r == '=')))
            nearest = far < nearest ? far : nearest;
          else if (is_one_of (m->l, k, s->any))
            other = far < other ? far : other;
        }
      if (*r == '=' ? nearest < other : nearest < least)
        best = i, least = nearest;
    }
  return best;
}

/* ORDER = which value is the first, the second and so on.  */
static int
find_roles (size_t *order, const line *m, const sense *s)
{
  int taken[MOST_VALUES] = { 0 };
  size_t n = 0;
  for (const char *r = s->roles; r && *r != '%'; )
    {
      const size_t i = find_role (m, s, r, taken);
      const char *comma = strchr (r, ',');
      if (i < MOST_VALUES && !taken[i])
        {
          order[n++] = i;
          taken[i] = 1;
        }
      else if (strchr ("#/+=", *r))
        return 0;
      r = comma ? comma + 1 : NULL;
    }
  for (size_t i = 0; i < m->count; i++)
    if (!taken[i])
      order[n++] = i;
  return 1;
}

/* 5ft2in as 5 ft 2 in, 1:4 as 1/4.  */
static void
put_value (br_text *t, const value *v)
{
  for (size_t i = 0; i < v->length; i++)
    {
      const int letter = br__letter_at (v->s + i, 1, 0) > 0, before = i && br__letter_at (v->s + i - 1, 1, 0) > 0;
      br__text_puts (t, i && letter != before && !v->known ? " " : "");
      br__text_putc (t, v->s[i] == ':' ? '/' : v->s[i]);
    }
}

/* The unit that stands alone at the end of the line, or NULL.  */
static const br_unit *
last_unit (const line *m)
{
  for (size_t i = m->l->count; i > 0; i--)
    {
      const br_unit *u = br_unit_find (m->l->word[i - 1].s, bare_length (m->l, i - 1));
      if (u && !br__word_known (m->l, i - 1) && !br__word_begins_number (m->l, i - 1) && !br__words_at (m->l, i - 1, "in"))
        return u;
    }
  return NULL;
}

static void
put_sense (br_text *t, const line *m, const size_t *order, const char *is, const char *end)
{
  const char *unit = "";
  for (; is < end; is++)
    if (*is == '$')
      put_value (t, &m->v[order[*++is - '1']]);
    else if (*is == '@' || (*is == '+' && is + 1 == end))
      for (size_t i = 0; i < m->count; i++)
        {
          br__text_puts (t, !i ? "" : *is == '@' ? ", " : " + ");
          put_value (t, &m->v[i]);
        }
    else if (*is == '%')
      br__text_puts (t, last_unit (m) ? last_unit (m)->name : unit);
    else
      br__text_putc (t, *is);
}

static int
fits (const line *m, const sense *s)
{
  const int count = (int) m->count;
  return (s->count > 0 ? count == s->count : s->count == 0 ? count >= 2 : count >= 1) && has_one_of (m, s->any)
         && (!s->also || has_one_of (m, s->also)) && !(s->roles && *s->roles == '%' && !last_unit (m));
}

int
br__phrase_sense (br__run *run, br__phrase_trial works)
{
  br__words l = { .run = run };
  line m;
  size_t order[MOST_VALUES];
  int found = 0;
  br__words_cut (&l);
  if (l.count == 0 || l.count == BR__MOST_WORDS)
    return 0;
  /* Of the statements, those that ask for a value.  */
  if (br__statement_find (l.word[0].s, l.word[0].length) && !br__word_known (&l, 0)
      && !br__words_at (&l, 0, "round|mark|marks|divide|space|check|scale|ruler|find|explain|simplest|tolerance|exact|saws|drills"))
    return 0;
  br__words_loosen (&l);
  find_values (&m, &l);
  /* Papers for a class, not an answer; nor is one what a file holds.  */
  int other = has_one_of (&m, "pupil pupils student students class kids questions problems");
  for (size_t i = 0; i < l.count && !other; i++)
    other = br__ends_in (l.word[i].s, bare_length (&l, i), BR__TABLES, strlen (BR__TABLES));
  if (other)
    return 0;
  for (const sense *s = senses; s->any && !found; s++)
    {
      br_text a = BR_TEXT_ZERO, b = BR_TEXT_ZERO;
      const char *end = s->is + strlen (s->is), *bar = memchr (s->is, '|', strlen (s->is));
      if (!fits (&m, s) || !find_roles (order, &m, s))
        continue;
      put_sense (&a, &m, order, s->is, bar ? bar : end);
      if (bar)
        put_sense (&b, &m, order, bar + 1, end);
      found = !a.failed && !b.failed && a.length + b.length < 130 && works (run, &a) && (!bar || works (run, &b));
      if (found && bar)
        br__hint (run->error, "write `%s` or `%s`", br__text_string (&a), br__text_string (&b));
      else if (found)
        br__hint (run->error, "write `%s`", br__text_string (&a));
      br__text_clear (&a);
      br__text_clear (&b);
    }
  return found;
}
