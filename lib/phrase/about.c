/* SPDX-License-Identifier: LGPL-3.0-or-later
   about.c - a line that no row reads, but that has words of something and what its statement takes, in whatever order:
   `make sure that the front wheel never hits the deck` has `hits` and two shapes, and its hint is a check of their distance.
   That is a hint and never a reading.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>
#include <strings.h>

#include "exact/status.h"
#include "formula/words.h"
#include "phrase/phrase.h"
#include "phrase/topics.h"
#include "phrase/words.h"
#include "shape/shape.h"

#define COUNTED "holes|hole|slats|slat|rungs|rung|pegs|peg|screws|nails|posts|balusters|spindles|shelves|marks|dowels|bars|hooks|" \
  "spaced|spacing|spaces|space|spread|evenly|equally|gap|gaps|between|pieces|piece|parts|part|lengths|sections|bits|strips|blocks|" \
  "equal|cut|split|divide|share|slice|saw|ways"
/* These stand behind the value that they are said of: 3 high.  */
#define BEHIND "high|tall|long|wide|thick|deep|across|up"

/* ---- Which value is which ---- */

static size_t
apart (size_t a, size_t b)
{
  return a > b ? a - b : b - a;
}

/* How many there are: a whole number before the name of a thing, else the only one, or the less of two.  */
static size_t
find_count (const br__about *m)
{
  size_t best = BR__MOST_VALUES;
  for (size_t i = 0; i < m->count; i++)
    if (m->v[i].d == 1 && !m->v[i].unit)
      {
        const size_t next = m->v[i].at + 1;
        if (next < m->l.count && br__word_among (&m->l, next, COUNTED))
          return i;
        if (best == BR__MOST_VALUES || m->v[i].n < m->v[best].n)
          best = i;
      }
  return best;
}

/* A is less than B, as far as both are numbers that are not long.  */
static int
is_less (const br__valued *a, const br__valued *b)
{
  const int64_t most = INT32_MAX;
  return a->n <= most && a->d <= most && b->n <= most && b->d <= most && a->n * b->d < b->n * a->d;
}

static size_t
find_largest (const br__about *m, const int *taken)
{
  size_t best = BR__MOST_VALUES;
  for (size_t i = 0; i < m->count; i++)
    if (!taken[i] && (best == BR__MOST_VALUES || is_less (&m->v[best], &m->v[i])))
      best = i;
  return best;
}

/* The value that the role R says, of those that are not TAKEN yet; BR__MOST_VALUES: none.  */
static size_t
find_role (const br__about *m, const char *has, const char *r, const int *taken)
{
  size_t best = BR__MOST_VALUES, least = BR__MOST_WORDS;
  if (*r == '#' || *r == '>')
    return *r == '#' ? find_count (m) : find_largest (m, taken);
  for (size_t i = 0; i < m->count; i++)
    {
      const br__valued *v = &m->v[i];
      if (taken[i])
        continue;
      if (*r == '/' ? v->n == 1 && v->d > 1 : *r == '+' ? v->at + 1 < m->l.count && br__word_among (&m->l, v->at + 1, r + 1) : 0)
        return i;
      /* A word behind a value is a little further from it than one before, unless that is how it is said.  */
      size_t nearest = BR__MOST_WORDS * 2, other = BR__MOST_WORDS * 2;
      for (size_t k = 0; k < m->l.count && !strchr ("/+", *r); k++)
        {
          const size_t far = 2 * apart (k, v->at) + ((k > v->at) != br__word_among (&m->l, k, BEHIND));
          if (br__word_among (&m->l, k, r + (*r == '=')))
            nearest = far < nearest ? far : nearest;
          else if (br__word_among (&m->l, k, has))
            other = far < other ? far : other;
        }
      if (*r == '=' ? nearest < other : nearest < least)
        best = i, least = nearest;
    }
  return best;
}

/* M->order = which value is the first, the second and so on.  */
static int
find_roles (br__about *m, const br__cue *c)
{
  int taken[BR__MOST_VALUES] = { 0 };
  size_t n = 0;
  for (const char *r = c->roles; r; )
    {
      const size_t i = find_role (m, c->has, r, taken);
      const char *comma = strchr (r, ',');
      if (i < BR__MOST_VALUES && !taken[i])
        {
          m->order[n++] = i;
          taken[i] = 1;
        }
      else if (strchr ("#/+=", *r))
        return 0;
      r = comma ? comma + 1 : NULL;
    }
  m->named = n;
  for (size_t i = 0; i < m->count; i++)
    if (!taken[i])
      m->order[n++] = i;
  return 1;
}

/* ---- The functions of the trade ---- */

/* The value that PART of N bytes of a parameter's name says: what is called so or, where that is not asked for alone, stands nearest
   to the word.  */
static size_t
value_of_part (const br__about *m, const char *part, size_t n, const int *taken, int called)
{
  char role[64];
  for (size_t i = 0; i < m->count; i++)
    if (!taken[i] && m->l.word[m->v[i].at].length >= n && memcmp (m->l.word[m->v[i].at].s, part, n) == 0)
      return i;
  if (called)
    return BR__MOST_VALUES;
  snprintf (role, sizeof role, "%.*s-%s", (int) n, part, n == 3 && memcmp (part, "gap", n) == 0 ? "|between|space|room|clear-|daylight" : n == 5 && memcmp (part, "shaft", n) == 0 ? "|axle|dowel|pin|rod|bolt" : "");
  return find_role (m, "", role, taken);
}

/* The size of the sheet that the PART of N bytes of a parameter's name says, where no value of the line does: the one called so, a
   wheel's diameter where there is a wheelbase and no front or rear is told apart, or the only one of its kind, fender_inside for fender_radius; NULL: none.  */
static const char *
size_of_part (const br__run *run, const char *part, size_t n)
{
  static const char inner[] = "_radius|_inside|_inner";
  const char *found = NULL;
  size_t left = BR__MOST_OFFERED;
  const br__words base = { .run = run, .word = { { "wheelbase", strlen ("wheelbase") } }, .count = 1 };
  const int front = br__word_known (&base, 0) && ((n == 5 && memcmp (part, "front", n) == 0) || (n == 4 && memcmp (part, "rear", n) == 0));
  for (const br__entry *e = br__graph_first (run->sheet->graph); e && left > 0; e = br__entry_next (e), left--)
    {
      const char *name = br__entry_name (e);
      const size_t length = strlen (name);
      if (br__is_hidden_entry (e) || !br__entry_definition (e))
        continue;
      if (length == n && memcmp (name, part, n) == 0)
        return name;
      if (strcmp (name, "wheel") == 0 ? front : n == 6 && length > n && memcmp (name, part, n) == 0 && br__ends_in (name, length, inner, strlen (inner)))
        found = name;
    }
  return found;
}

/* The name of the parameter P of F, of which the first word has N bytes.  */
static const char *
first_of_parameter (size_t *n, const br__function *f, size_t p)
{
  size_t length;
  const char *name = br__shop_parameter (&length, f, p);
  for (*n = 0; *n < length && name[*n] != '_'; ++*n)
    ;
  return name;
}

/* T = the function F with the values of the line that its parameters are called by, and sizes of the sheet for the others.  */
static int
put_call (br_text *t, br__about *m, const br__function *f)
{
  int taken[BR__MOST_VALUES] = { 0 };
  static const char slot[] = "$1";
  size_t most = br__function_most (f), value[8], left = m->count;
  for (size_t pass = 0; pass < 2; pass++)
    for (size_t p = 0; p < most && p < 8; p++)
      {
        size_t first;
        const char *name = first_of_parameter (&first, f, p);
        if (pass && value[p] < BR__MOST_VALUES)
          continue;
        value[p] = value_of_part (m, name, first, taken, !pass);
        if (value[p] < BR__MOST_VALUES)
          taken[value[p]] = 1, left--;
      }
  for (size_t p = 0; p < most && p < 8; p++)
    {
      size_t first, i = value[p];
      const char *name = first_of_parameter (&first, f, p);
      const char *named = i == BR__MOST_VALUES ? size_of_part (m->l.run, name, first) : NULL;
      for (size_t k = 0; left && !named && i == BR__MOST_VALUES && k < m->count; k++)
        if (!taken[k])
          i = k, taken[k] = 1, left--;
      br__text_puts (t, p ? ", " : "(");
      if (named)
        br__text_puts (t, named);
      else if (i == BR__MOST_VALUES)
        return 0;
      m->order[0] = i < BR__MOST_VALUES ? i : 0;
      if (!named && !br__about_put (t, m, slot, slot + 2))
        return 0;
    }
  br__text_putc (t, ')');
  return 1;
}

/* A hint that takes some of what is measured and not the rest was not meant, nor were settings where something is measured, a
   plan where there is no wood, or shapes that rub where there are none.  Help takes nothing.  */
static int
takes_all (const br__about *m, const char *is)
{
  if (strncmp (is, "help", 4) == 0)
    return 1;
  /* An angle is given already: there is no slope to be asked for.  */
  for (size_t i = 1; i < m->l.count; i++)
    if (br__words_at (&m->l, i, "degree|degrees|deg") && br__word_begins_number (&m->l, i - 1)
        && (strncmp (is, "atan", 4) == 0 || strchr ("$d(s", *is)))
      return 0;
  if (strncmp (is, "$K1 =", 5) == 0 && br__words_among (&m->l, "most|least|sure|never|than|between|over|under|above|below|apart|check|times|half|twice|double|plus|minus"))
    return 0;
  if (strncmp (is, "$1 * $2", 7) == 0 && br__words_among (&m->l, "circumference|radius|perimeter|diagonal"))
    return 0;
  /* The fender goes round 7/16, and nothing is put on a mark.  */
  for (size_t i = 1; i < m->l.count && strncmp (is, "round", 5) == 0; i++)
    if (br__words_at (&m->l, i, "round") && br__word_thing (&m->l, i - 1) && !br__words_among (&m->l, "to|nearest|closest"))
      return 0;
  for (size_t i = 0; i < m->count; i++)
    if (!m->taken[m->v[i].at])
      return 0;
  for (size_t i = 0; i < m->l.count; i++)
    for (size_t k = 0; k < m->l.word[i].length && !m->taken[i]; k++)
      if (m->l.word[i].s[k] >= '0' && m->l.word[i].s[k] <= '9')
        return 0;
  return (strncmp (is, "key ", 4) != 0 || m->l.run->sheet->worksheet) && (strcmp (is, "cuts") != 0 || m->l.run->sheet->wood) && (strcmp (is, "rubs") != 0 || m->l.run->sheet->shapes);
}

/* A question about numbers makes no shape.  */
static int
answers (const br__about *m, const char *is)
{
  static const char *const made[] = { "circle", "box", "line", "stock", "part" };
  int makes = 0;
  /* Is the deck longer than the tray: nothing is to be changed.  */
  if (strncmp (is, "$L", 2) == 0 && (br__words_at (&m->l, 0, "is|are|was|were|does|do|will") || br__words_among (&m->l, "gap|between|clearance|least|most")))
    return 0;
  for (size_t i = 0; i < sizeof made / sizeof made[0]; i++)
    makes |= strncmp (is, made[i], strlen (made[i])) == 0;
  /* Of 11 x 2 nothing is divided.  */
  if ((strncmp (is, "space", 5) == 0 || strncmp (is, "divide", 6) == 0) && br__words_among (&m->l, "x"))
    return 0;
  return m->count == 0 || !makes || !br__words_at (&m->l, 0, "how|what|what's|which|is|are|does|find|if|volume|area|perimeter");
}

/* What asks for values is no other statement but for some, no paper for a class, and not about a file.  */
static int
asks_values (const br__about *m)
{
  const br__words *l = &m->l;
  if (br__statement_of (l->run, l->word[0].s, l->word[0].length) && !br__word_known (l, 0)
      && !br__words_at (l, 0, "round|mark|marks|divide|space|check|scale|ruler|find|explain|simplest|tolerance|exact|saws|drills|arc"))
    return 0;
  for (size_t i = 0; i < l->count; i++)
    if (br__word_among (l, i, "pupil|pupils|student|students|class|kids|questions|problems") || br__ends_in (l->word[i].s, l->word[i].length, BR__TABLES, strlen (BR__TABLES)))
      return 0;
  return 1;
}

/* T = the hint from IS up to END of the cue C, where the line has what it takes and it works.  */
static int
try_hint (br_text *t, br__about *m, const br__cue *c, const char *is, const char *end)
{
  /* check wheel_gap() > 0: the function, and what stands around it.  */
  const char *call = strstr (is, "()"), *name = call;
  while (name && name > is && br__letter_at (name - 1, 1, 1))
    name--;
  const br__function *f = call && call < end ? br__function_find (name, (size_t) (call - name)) : NULL;
  br__text_reset (t);
  memset (m->taken, 0, sizeof m->taken);
  if (!br__about_put (t, m, is, f ? call : end) || (f && (!put_call (t, m, f) || !br__about_put (t, m, call + 2, end))) || !takes_all (m, c->is) || t->length >= 120)
    return 0;
  /* What was typed already is no help.  */
  const br__run *run = m->l.run;
  if (t->length == run->end && memcmp (br__text_string (t), run->text, t->length) == 0)
    return 0;
  /* Nor is its own line, which is to be changed.  */
  for (size_t i = 0; i < m->l.count && c->is[0] == '$' && c->is[1] != 'L'; i++)
    {
      size_t length;
      br_text line = BR_TEXT_ZERO;
      const int own = (br__word_called (&length, &m->l, i) & ~BR__THING_SIZE) && br__about_put_line (&line, &m->l, m->l.word[i].s, length)
                      && line.length == t->length && memcmp (br__text_string (&line), br__text_string (t), t->length) == 0;
      br__text_clear (&line);
      if (own)
        return 0;
    }
  return (!strchr (c->is, '$') && !f) || br__run_works (run, br__text_string (t), t->length);
}

/* The values of the line are as many as IS takes, where it takes them by number.  */
static int
counts_right (const br__about *m, const char *is)
{
  size_t most = 0;
  for (const char *s = strchr (is, '$'); s; s = strchr (s + 1, '$'))
    if (s[1] >= '1' && s[1] <= '9' && (size_t) (s[1] - '0') > most)
      most = (size_t) (s[1] - '0');
  return most == 0 || m->count == most || strstr (is, "$-") || (strstr (is, "$&") && m->count > most);
}

static int
hint_of (br__run *run, br__about *m, const br__cue *c)
{
  br_text a = BR_TEXT_ZERO, b = BR_TEXT_ZERO;
  const char *end = c->is + strlen (c->is), *other = strchr (c->is, '~');
  m->counts = strstr (c->is, "$N") ? br__about_count (&m->l) : m->l.count;
  int first = 0, second = 0;
  if (br__words_among (&m->l, c->has) && answers (m, c->is) && counts_right (m, c->is) && find_roles (m, c))
    {
      first = try_hint (&a, m, c, c->is, other ? other : end);
      second = other && try_hint (&b, m, c, other + 1, end);
    }
  if (first && second)
    br__hint (run->error, "write `%s` or `%s`", br__text_string (&a), br__text_string (&b));
  /* Its own line alone changes nothing.  */
  else if (first && strncmp (c->is, "$L", 2) == 0)
    br__hint (run->error, "type its line with what is to be changed: `%s`", br__text_string (&a));
  else if (first || second)
    br__hint (run->error, "write `%s`", br__text_string (first ? &a : &b));
  br__text_clear (&a);
  br__text_clear (&b);
  return first || second;
}

/* A line that denies something sets or makes nothing, unless the cue takes the denial as what it says.  */
static int
is_denied (const br__about *m, const br__cue *c)
{
  static const char *const makes[] = { "$K", "$H", "$L", "$A", "$J", "$Z", "$Y", "$W", "size", "units", "ruler", "circle", "box", "line", "part", "stock", "row", "turn", "mirror", "arc",
    "tolerance", "round", "tidy", "worksheet", "draw", "kerf", "child", "grade", "key", "report", "undo", "redo", "forget", "scale", "grid", "space", "divide" };
  size_t i = 0;
  while (i < sizeof makes / sizeof makes[0] && strncmp (c->is, makes[i], strlen (makes[i])) != 0)
    i++;
  /* "The wheel should be 3, not 4" says what it is.  */
  const int says = strstr (c->has, "not") || strstr (c->has, "no|") || strstr (c->has, "never");
  return i < sizeof makes / sizeof makes[0] && !(says && (*c->is != '$' || m->count > 2));
}

/* A line of one size and one measure, and words beside that say no more, says what the size is: wheels four inch diameter.  */
static int
hint_of_size (br__run *run, br__about *m)
{
  static const char beside[] = "i|we|bring|could|can|may|want|need|ought|has|needs|wants|supposed|would|like|use|make|put|set|give|have|take|get|let|change|raise|lower|increase|reduce|to|at|be|is|are|shall|should|must|will|it|"
    "now|only|just|measure|measures|with|in|for|so|that|long|wide|high|tall|thick|deep|across|diameter|dia|length|width|height|thickness|size|of|ok|about|try";
  /* These are kept as a note.  */
  static const char noted[] = "measured|roughly|approx|approximately|nearly|almost|around|dowel|plywood|ply|rod|pine|oak|maple|birch|steel|nominal|actual|inside|outside|guessed|estimated|sketch|picture";
  const br__words *l = &m->l;
  size_t named = l->count, length = 0, n, value = l->count;
  br_text t = BR_TEXT_ZERO;
  /* What checks sets nothing.  */
  if (br__words_at (l, 0, "check"))
    return 0;
  for (size_t i = 0; i < l->count; i++)
    {
      const br__words one = br__bare_word (l, i);
      if (!br__word_begins_number (l, i) && !br__word_called (&n, l, i) && !br__words_at (&one, 0, beside) && !br__words_at (&one, 0, noted))
        return 0;
    }
  for (size_t i = 0; i < l->count; i++)
    if (br__word_called (&n, l, i) & BR__THING_SIZE)
      {
        if (named < l->count)
          return 0;
        named = i, length = n;
      }
  for (size_t i = 0; i < m->count; i++)
    if (m->v[i].measured)
      {
        if (value < l->count)
          return 0;
        value = m->v[i].at;
      }
  if (named == l->count || value == l->count)
    return 0;
  memset (m->taken, 0, sizeof m->taken);
  br__text_printf (&t, "%.*s = ", (int) length, l->word[named].s);
  m->taken[named] = 1;
  br__about_put_word (&t, m, value, br__bare_word (l, value).word[0].length, '/');
  const size_t end = t.length;
  for (size_t i = 0; i < l->count; i++)
    if (!br__word_called (&n, l, i) && br__words_at (l, i, noted))
      br__text_printf (&t, "%s %.*s", t.length == end ? " #" : "", (int) l->word[i].length, l->word[i].s);
  const int found = takes_all (m, "") && t.length < 120 && br__run_works (run, br__text_string (&t), t.length);
  if (found)
    br__hint (run->error, "write `%s`", br__text_string (&t));
  br__text_clear (&t);
  return found;
}

/* The line speaks of several of a part, and has one whole number that is no size: 12 slats please.  */
static int
counts_several (const br__words *l)
{
  size_t numbers = 0, several = 0, length;
  for (size_t i = 0; i < l->count; i++)
    {
      int64_t n, d;
      const br__words one = br__bare_word (l, i);
      if (br__cardinal (l, i) > 1)
        numbers++;
      else if (br__word_begins_number (l, i))
        numbers += br__word_ratio (&one, 0, &n, &d) && d == 1 && !br__word_is_unit (l, i + 1) ? 1 : 2;
      else if ((br__word_called (&length, l, i) & BR__THING_PART) && length < one.word[0].length)
        several++;
      else if (!br__words_at (&one, 0, "i|we|want|need|have|got|make|cut|should|must|be|are|to|reduce|increase|set|change|only|just|now|the|please|it|of|get|give|let|will"))
        return 0;
    }
  return numbers == 1 && several == 1;
}

#define MOST_SHAPES 200         /* that are looked at */

/* The shapes of which the word S, wheels, is several: those whose names end in _wheel.  Two of them get into PAIR; their number.  */
static size_t
shapes_called (const br_sheet *sheet, const char *s, size_t length, const char *pair[2])
{
  size_t count = 0, left = MOST_SHAPES;
  for (const br__shape *x = sheet->shapes; x && left > 0 && length > 3 && s[length - 1] == 's'; x = x->next, left--)
    {
      const size_t n = strlen (x->name), stem = length - 1;
      if (n > stem + 1 && x->name[n - stem - 1] == '_' && strncasecmp (x->name + n - stem, s, stem) == 0 && count++ < 2)
        pair[count - 1] = x->name;
    }
  return count;
}

/* Between the wheels, where just two shapes are wheels: both by their names.  */
static void
name_both (br__words *l)
{
  const char *pair[2];
  for (size_t i = 1; i < l->count; i++)
    {
      const br__words one = br__bare_word (l, i);
      if (br__word_thing (&one, 0) || shapes_called (l->run->sheet, one.word[0].s, one.word[0].length, pair) != 2)
        continue;
      br__words_put (l, i, 1, pair[0]);
      br__words_put (l, i + 1, 0, pair[1]);
      if (br__words_at (l, i - 1, "two|both|2"))
        br__words_put (l, i - 1, 1, "");
      return;
    }
}

int
br__phrase_about (br__run *run, int last)
{
  br__about m = { .l = { .run = run } };
  br__words_cut (&m.l);
  /* Slats: 10, and reduce the slats to 7: how many.  */
  if (counts_several (&m.l))
    {
      for (size_t i = 0; i < m.l.count; i++)
        if (br__cardinal (&m.l, i) > 1)
          br__words_make (&m.l, i, 1, "%lld", (long long) br__cardinal (&m.l, i));
      br__words_put (&m.l, m.l.count, 0, "qty");
    }
  for (size_t i = 0; i < m.l.count; i++)
    if (br__cardinal (&m.l, i) > 1 && br__words_at (&m.l, i + 1, "equal|even|evenly|equally"))
      br__words_make (&m.l, i, 1, "%lld", (long long) br__cardinal (&m.l, i));
  /* Four slats instead of two: what was, is not asked for.  */
  for (size_t i = 1; i + 1 < m.l.count; i++)
    if (br__words_at (&m.l, i, "instead of") || br__words_at (&m.l, i, "rather than"))
      {
        m.l.count = i;
        br__words_put (&m.l, i, 0, "only");
        if (br__cardinal (&m.l, 0) > 1)
          br__words_make (&m.l, 0, 1, "%lld", (long long) br__cardinal (&m.l, 0));
      }
  /* What is wrong in a file is not what the line lacks.  */
  if (m.l.count < 2 || m.l.count == BR__MOST_WORDS || (run->touched_count && run->error->status != BR_IO && strncmp (run->error->message, "the line ends", 13) != 0)
      /* A file that is not there: what is said of a part or a shape is told, and not of papers.  */
      || (run->error->status == BR_IO && !br__words_at (&m.l, 0, "use")))
    return 0;
  br__phrase_names (&m.l);
  name_both (&m.l);
  br__words_loosen (&m.l);
  br__about_values (&m);
  const int equals = memchr (run->text, '=', run->end) != NULL, values = last && asks_values (&m);
  /* Help with a word in the statement of a shape is not help with the shape.  */
  const int shape = br__words_at (&m.l, 0, "circle|box|line|arc|plate|outline|row|mirror|turn|dimension");
  int late = 0, denies = 0;
  for (size_t i = 0; i < m.l.count && !denies; i++)
    denies = br__words_at (&m.l, i, BR__DENIALS "|don't|dont|doesn't|doesnt|wont|without");
  for (const br__cue *c = br__cues; c->has && (last || !late); c++)
    {
      const char *slot = strchr (c->is, '$');
      const int takes_values = (strstr (c->is, "()") && strncmp (c->is, "check ", 6) != 0) || (slot && strchr ("123456789@&+", slot[1]));
      const int helps = strncmp (c->is, "help", 4) == 0;
      late |= !*c->has;
      if (!*c->has && values && !equals && !denies && hint_of_size (run, &m))
        return 1;
      if (*c->has && (takes_values ? values : !equals || (last && helps)) && !(shape && helps) && !(denies && is_denied (&m, c))
          && hint_of (run, &m, c))
        return 1;
    }
  return 0;
}

/* ---- Where no hint is found ---- */

/* A word that has help: that of a statement, of a function, or one that leads to a topic.  */
static const char *
word_with_help (const br__words *l, size_t i)
{
  const char *s = l->word[i].s;
  size_t length = l->word[i].length;
  while (length && strchr (".,?!;:", s[length - 1]))
    length--;
  const br__statement *st = br__statement_of (l->run, s, length);
  const br__function *f = br__function_find (s, length);
  const br__topic *topic = br__topic_find (s, length);
  return st ? st->word : f ? f->name : topic ? topic->word : NULL;
}

/* What the sheet has of the name that the line speaks of; 0: it speaks of none.  */
static int
hint_of_name (br__run *run, const br__words *l)
{
  for (size_t i = 0; i < l->count; i++)
    {
      size_t length;
      const char *s = l->word[i].s;
      const int what = br__word_called (&length, l, i), n = (int) length;
      if (n > 40 || !what || (what == BR__THING_SIZE && !br__word_known (l, i)))
        continue;
      if (what & BR__THING_SIZE)
        br__hint (run->error, "write `%.*s`, or `trace %.*s` for what hangs on it", n, s, n, s);
      else
        br__hint (run->error, what & BR__THING_SHAPE ? "write `shapes`, which has it" : "write `parts`, which has it");
      return 1;
    }
  return 0;
}

void
br__phrase_topic (br__run *run)
{
  /* These say less of what a line is about than others do.  */
  static const char weak[] = "use|down|up|show|find|name|note|new|run|row|words|known|review|mean|list|same|half|open|draw|save|line|mark|left|right|top|title";
  br__words l = { .run = run };
  br__words_cut (&l);
  /* The name of a size that is given says nothing of what is wrong with its value.  */
  const size_t first = l.count > 1 && l.word[1].s[0] == '=' ? 2 : 0;
  for (int pass = 0; pass < 2; pass++)
    {
      for (size_t i = first; i < l.count; i++)
        {
          size_t length;
          const char *word = br__word_called (&length, &l, i) || l.word[i].length < 3 || (i && br__words_at (&l, i, weak)) != pass ? NULL : word_with_help (&l, i);
          if (word && strcmp (word, "help") != 0)
            {
              br__hint (run->error, "help %s", word);
              return;
            }
        }
      if (!pass && !first && l.count > 1 && l.count < BR__MOST_WORDS && hint_of_name (run, &l))
        return;
    }
}
