/* SPDX-License-Identifier: LGPL-3.0-or-later
   edit.c - the lines of shapes, parts and stock as hints have them: as they are, and with what is to be changed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "phrase/words.h"
#include "shape/shape.h"
#include "wood/wood.h"

/* Puts the line that made the shape, the part or the stock NAME.  A line that begins as another statement is about something
   that is to be made.  */
int
br__about_put_line (br_text *t, const br__words *l, const char *name, size_t length)
{
  const br_sheet *sheet = l->run->sheet;
  const br__statement *typed = br__statement_of (l->run, l->word[0].s, l->word[0].length);
  const br__shape *shape = br__shape_find (sheet, name, length);
  const br__wood *wood = br__wood_find (sheet, 0, name, length);
  wood = wood ? wood : br__wood_find (sheet, 1, name, length);
  const br__line *made = shape ? shape->line : wood ? wood->line : NULL;
  const int other = made && typed && strcmp (typed->word, "use") != 0 && typed != br__statement_of (l->run, made->text, strcspn (made->text, " "));
  if (made)
    br__text_put (t, made->text, br__note_start (made->text, made->length));
  while (t->length && t->bytes[t->length - 1] == ' ')
    t->bytes[--t->length] = 0;
  return made && !other;
}

#define PLACED "at|on|above|below|left|right|same"
#define BEHIND_ALL "deep|layer|of|behind|turned"
#define BEHIND_PLACE "hole|round|cut|" BEHIND_ALL
#define UPWARD "up|down|raise|lift|lower|higher|drop"
#define NO_PLACE "left|right|up|down|on|above|below|over|under"
#define NO_SIZE "longer|shorter|wider|narrower|bigger|larger|smaller|taller|higher|lower|thicker|thinner|more|less|by|extra|twice|times|half|" \
  "deep|thick|up|down|left|right|radius|round|corner|corners"

/* 1 where a word of the statement S that is among WORDS begins at I.  */
static int
says (const br__words *l, const char *s, size_t i, const char *words)
{
  if (i && s[i - 1] != ' ')
    return 0;
  const br__words one = { .run = l->run, .word = { { s + i, strcspn (s + i, " ") } }, .count = 1 };
  return br__words_at (&one, 0, words);
}

/* Where a word among WORDS begins in the statement S of N bytes, from FROM on; N: nowhere.  */
static size_t
find_clause (const br__words *l, const char *s, size_t n, size_t from, const char *words)
{
  while (from < n && !says (l, s, from, words))
    from++;
  return from < n ? from : n;
}

/* Puts value I of the line behind what stands there.  */
static void
put_value (br_text *t, br__about *m, size_t i, const char *before)
{
  br__text_puts (t, before);
  const br__words one = br__bare_word (&m->l, m->v[i].at);
  br__about_put_word (t, m, m->v[i].at, one.word[0].length, '/');
}

/* The comma between FROM and END that stands in no brackets; END: there is none.  */
static size_t
find_comma (const char *s, size_t from, size_t end)
{
  int depth = 0;
  for (; from < end && (s[from] != ',' || depth); from++)
    depth += (s[from] == '(') - (s[from] == ')');
  return from;
}

/* Where the place of the shape S begins, behind FROM; not the `at` of a corner, `to LENGTH at ANGLE`, which has no comma before it.  */
static size_t
find_place (const br__words *l, const char *s, size_t n, size_t from, int corners)
{
  int angled = 0;
  for (size_t corner = from, i = from; i < n; i++)
    {
      if (corners && says (l, s, i, "to|by"))
        corner = i, angled = 0;
      else if (corners && !angled && says (l, s, i, "at") && find_comma (s, corner, i) == i && strncmp (s + corner, "to start ", 9) != 0)
        angled = 1;
      else if (says (l, s, i, PLACED))
        return i;
    }
  return n;
}

/* Puts value I of the line as what is moved by, which is taken off where that is to the left or down.  */
static void
put_shift (br_text *t, br__about *m, size_t i)
{
  put_value (t, m, i, m->count == 1 && br__words_among (&m->l, "left|down|lower|drop") ? " - " : " + ");
}

/* Puts the place of S from FROM to END with the values of the line added; where there is one, that is the way it is said.  */
static void
put_moved (br_text *t, br__about *m, const char *s, size_t from, size_t end)
{
  const size_t comma = find_comma (s, from, end);
  const int both = m->count > 1, across = both || br__words_among (&m->l, "left|right");
  br__text_put (t, s + from, comma - from);
  if (across)
    put_shift (t, m, 0);
  br__text_put (t, s + comma, end - comma);
  if (both || !across)
    put_shift (t, m, (size_t) both);
}

/* Both ends of a line.  */
static int
put_moved_line (br_text *t, br__about *m, const char *s, size_t n, size_t size)
{
  const size_t to = find_clause (&m->l, s, n, size, "to"), end = find_clause (&m->l, s, n, size, "wide|" BEHIND_PLACE);
  const size_t rest = end - (end < n);
  br__text_put (t, s, size);
  put_moved (t, m, s, size, to - 1);
  br__text_puts (t, " ");
  put_moved (t, m, s, to, rest);
  br__text_put (t, s + rest, n - rest);
  return 1;
}

/* Puts the statement of the shape NAME again, as the values of the line have it: HOW is `A`, at that place, `J`, moved by as much, or
   `Z`, of that size.  */
int
br__about_put_again (br_text *t, br__about *m, char how, const char *name, size_t length)
{
  const br__shape *shape = br__shape_find (m->l.run->sheet, name, length);
  const char *s = shape ? shape->text : NULL;
  if (!s || !strchr (s, '='))
    return 0;
  const int round = says (&m->l, s, 0, "circle|plate"), outline = says (&m->l, s, 0, "outline"), line = shape->kind == BR__LINE;
  const int upward = br__words_among (&m->l, UPWARD), directed = how == 'J' && br__words_among (&m->l, "left|right") != upward;
  const size_t wanted = directed || (how == 'Z' && round) ? 1 : 2;
  if (m->count != wanted || (how == 'Z' && !round && !says (&m->l, s, 0, "box")) || (line && how != 'J')
      || (!directed && br__words_among (&m->l, how == 'Z' ? NO_SIZE : NO_PLACE)) || (how == 'Z' && wanted == 2 && br__words_among (&m->l, "high|tall|wide|long")))
    return 0;
  const size_t n = br__note_start (s, strlen (s)), size = strcspn (s, "=") + 1;
  if (line)
    return put_moved_line (t, m, s, n, size);
  const size_t behind = find_clause (&m->l, s, n, size, BEHIND_PLACE), found = find_place (&m->l, s, n, size, outline);
  /* What is no place of its own stands before it: the hole of a ring, the round of a corner.  */
  const size_t none = says (&m->l, s, 0, "circle|box") ? behind : find_clause (&m->l, s, n, size, BEHIND_ALL);
  const int at = found < n && s[found] == 'a' && s[found + 1] == 't';
  size_t place = how == 'Z' && behind < found ? behind : found < n ? found : none, end = none;
  /* `left of deck` has an `of` of its own.  */
  if (found < n)
    end = find_clause (&m->l, s, n, found + (strchr ("lr", s[found]) ? strlen ("right of") : 1), BEHIND_PLACE);
  /* above deck by 1/2: up is more of that.  */
  const int raised = directed && upward && !at && found < n && s[found] == 'a' && find_clause (&m->l, s, end, found + 1, "by") < end;
  if (how != 'Z' && !raised && ((shape->kind == BR__ARC && !round && !at) || (how == 'J' && !at && (directed || !outline || found < n))))
    return 0;
  while (place > size && s[place - 1] == ' ')
    place--;
  br__text_put (t, s, how == 'Z' ? size : raised ? end - (end < n) : place);
  if (raised)
    put_shift (t, m, 0);
  else if (how == 'J' && at)
    put_moved (t, m, s, place, end - (end < n));
  else
    {
      put_value (t, m, 0, how == 'Z' ? " " : " at ");
      if (wanted == 2)
        put_value (t, m, 1, how == 'Z' ? " x " : ", ");
    }
  const size_t rest = how == 'Z' ? place : end - (end < n);
  br__text_put (t, s + rest, n - rest);
  return 1;
}

/* Where the size WHICH of the statement S of N bytes begins, *FROM, and ends; 0: it has not so many, or they are of lumber, 1x6.  */
static size_t
size_end (size_t *from, const br__words *l, const char *s, size_t n, int which)
{
  size_t i = strcspn (s, "=") + 1;
  const size_t end = i < n ? find_clause (l, s, n, i, PLACED "|" BEHIND_PLACE "|qty|from|as|with|grain") : 0;
  *from = i;
  for (; i < end; i++)
    if (s[i] == 'x' && s[i - 1] == ' ' && s[i + 1] == ' ' && which-- == 0)
      break;
    else if (s[i] == 'x' && s[i - 1] == ' ' && s[i + 1] == ' ')
      *from = i + 1;
    else if (s[i] == 'x' && s[i - 1] >= '0' && s[i - 1] <= '9')
      return 0;
  while (i < n + 1 && s[i - 1] == ' ')
    i--;
  return which > 0 || !end ? 0 : i;
}

int
br__put_size_of_part (br_text *t, const br__words *l, const char *name, size_t length)
{
  static const char *const ways[] = { "long|length|longer|shorter", "wide|width|wider|narrower", "thick|thickness|thicker|thinner" };
  br_text line = BR_TEXT_ZERO;
  size_t from = 0, end = 0;
  int way = 0;
  while (way < 3 && !br__words_among (l, ways[way]))
    way++;
  if (way < 3 && br__about_put_line (&line, l, name, length))
    end = size_end (&from, l, br__text_string (&line), line.length, way);
  from += end > from && line.bytes[from] == ' ';
  br__text_put (t, br__text_string (&line) + from, end > from ? end - from : 0);
  br__text_clear (&line);
  return end > from;
}

#define MORE_OF "more|another|extra|add|additional"
#define LESS_OF "less|fewer|remove|lose|drop|without|off"

/* Puts the line S of N bytes of a part or a stock with as many of it as the line M says, or as many more or less; 0: it says none.  */
static int
put_quantity (br_text *t, br__about *m, const char *s, size_t n)
{
  const br__words *l = &m->l;
  const size_t counted = find_clause (l, s, n, 1, "qty");
  size_t end = counted < n ? counted : find_clause (l, s, n, 1, "from|as|with|grain"), rest = end;
  const br__words now = { .run = l->run, .word = { { s + end + 4, strcspn (s + end, " ") == 3 ? strcspn (s + end + 4, " ") : 0 } }, .count = 1 };
  int64_t have = 1, d = 1;
  const int more = br__words_among (l, MORE_OF), less = br__words_among (l, LESS_OF);
  if (counted < n)
    rest = find_clause (l, s, n, end + 1, "from|as|with|grain");
  end -= end < n;
  rest -= rest < n;
  if ((rest > end && !br__word_ratio (&now, 0, &have, &d) && (more || less)) || d != 1 || (more && less))
    return 0;
  int64_t by = m->count ? m->v[0].n : 1;
  for (size_t i = 0; i < l->count && !m->count; i++)
    by = br__cardinal (l, i) > 1 ? br__cardinal (l, i) : by;
  have += (more - less) * by;
  br__text_put (t, s, end);
  if (more || less)
    br__text_printf (t, " qty %lld", (long long) have);
  else
    put_value (t, m, 0, " qty ");
  if (m->count)
    m->taken[m->v[0].at] = 1;
  br__text_put (t, s + rest, n - rest);
  return have > 0 && (m->count || more || less);
}

/* Puts the line S of N bytes with its first sizes as the line M has them: 14 x 6.  */
static int
put_sizes (br_text *t, br__about *m, const char *s, size_t n)
{
  size_t from, first = 0, rest = 0;
  for (size_t i = 0; i < m->count; i++)
    {
      if ((rest = size_end (&from, &m->l, s, n, (int) i)) == 0 || (i + 1 < m->count && !br__words_at (&m->l, m->v[i].at + 1, "x|by|times|and")))
        return 0;
      first = i ? first : from;
    }
  br__text_put (t, s, first);
  for (size_t i = 0; i < m->count; i++)
    put_value (t, m, i, i ? " x " : " ");
  br__text_put (t, s + rest, n - rest);
  return 1;
}

/* Puts the line S of N bytes of a part with the stock that the line M names, which is another.  */
static int
put_stock (br_text *t, br__about *m, const char *s, size_t n)
{
  const size_t from = find_clause (&m->l, s, n, 1, "from|as|with|grain"), rest = n > from && s[from] == 'f' ? find_clause (&m->l, s, n, from + 5, "as|with|grain") : from;
  br__text_put (t, s, from - (from < n));
  for (size_t i = 0; i < m->l.count; i++)
    if (br__word_thing (&m->l, i) == BR__THING_STOCK)
      {
        br__text_printf (t, " from %.*s%s", (int) m->l.word[i].length, m->l.word[i].s, rest < n ? " " : "");
        br__text_put (t, s + rest, n - rest);
        return m->taken[i] = *s == 'p';
      }
  return 0;
}

/* The value is said to be how many there are: behind a quantity's word, or before the NAME of what is counted.  */
static int
is_quantity (const br__about *m, const char *s, const char *name, size_t length)
{
  const br__words *l = &m->l;
  const size_t next = m->count ? m->v[0].at + 1 : l->count;
  if ((*s != 'p' && *s != 's') || (m->count && (m->v[0].d != 1 || m->v[0].unit)))
    return 0;
  return br__words_among (l, *s == 's' ? "qty|quantity|copies|number|many|pieces|another|stock|board|boards|sheet|sheets" : "qty|quantity|copies|number|many|pieces|another|them|these")
         || (br__words_among (l, MORE_OF "|" LESS_OF) && (!m->count || br__words_at (l, next, "more|extra|less|fewer|additional")))
         || (next < l->count && l->word[next].length >= length && memcmp (l->word[next].s, name, length) == 0);
}

/* Puts the line of the thing NAME with one of its sizes as, or more or less by, the value of the line, with two of them, or with as
   many of it: HOW is `Y`, as the line says, `W`, as its first size, `U`, as its second, or `O`, from another
   stock.  */
int
br__about_put_edited (br_text *t, br__about *m, char how, const char *name, size_t length)
{
  static const struct { const char *kind, *more[3], *less[3], *is[3]; } ways[] = {
    { "box", { "longer|wider|lengthen|widen", "taller|higher", "-" }, { "narrower|shorten", "lower", "-" }, { "long|wide|length|width", "high|tall|height", "-" } },
    { "part", { "longer|lengthen", "wider|widen", "thicker" }, { "shorter|shorten", "narrower", "thinner" }, { "long|length", "wide|width|rip", "thick|thickness" } },
    { "stock", { "thicker", "wider", "longer" }, { "thinner", "narrower", "shorter" }, { "thick|thickness", "wide|width", "long|length" } },
    { "circle", { "bigger|larger|wider", "-", "-" }, { "smaller|narrower", "-", "-" }, { "across|wide|diameter|dia|diametre", "-", "-" } } };
  br_text line = BR_TEXT_ZERO;
  const br__words *l = &m->l;
  int found = m->count < 4 && br__about_put_line (&line, l, name, length) && !br__words_among (l, "than|as|twice|times|half|percent")
              && (how == 'Y' || how == 'O' || !br__words_among (l, NO_SIZE "|stock|board|boards|them|these"));
  const char *s = br__text_string (&line), *sign = NULL;
  const size_t n = line.length;
  size_t from = 0, end = 0;
  for (size_t k = 0; found && k < sizeof ways / sizeof ways[0] && m->count == 1 && how != 'O'; k++)
    for (int way = 0; way < 3 && !sign && strncmp (s, ways[k].kind, strlen (ways[k].kind)) == 0; way++)
      if ((sign = br__words_among (l, ways[k].more[way]) ? " + " : br__words_among (l, ways[k].less[way]) ? " - "
                  : (how == 'Y' ? br__words_among (l, ways[k].is[way]) : *ways[k].is[way] != '-' && way == (how == 'U'))
                    && !br__words_among (l, "off|by|from|radius|" MORE_OF "|" LESS_OF) ? " " : NULL) != NULL)
        end = size_end (&from, l, s, n, way);
  if (found && sign && end)
    {
      br__text_put (t, s, sign[1] ? end : from);
      put_value (t, m, 0, sign);
      br__text_put (t, s + end, n - end);
    }
  else if (found && how == 'O')
    found = m->count == 0 && put_stock (t, m, s, n);
  else if (found && !sign && m->count > 1)
    found = (*s == 'p' || (*s == 's' && m->count == 3)) && put_sizes (t, m, s, n);
  else
    found = found && !sign && is_quantity (m, s, name, length) && put_quantity (t, m, s, n);
  br__text_clear (&line);
  return found;
}
