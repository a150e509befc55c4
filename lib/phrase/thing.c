/* SPDX-License-Identifier: LGPL-3.0-or-later
   thing.c - shapes, stock and parts as they are spoken: `make a box called seat, 4 wide and 2 high, on top of the deck`
   is `box seat = 4 x 2 on deck`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "phrase/words.h"

#define MOST_SIZES 3

/* What is spoken of a thing's sizes, in the order in which its statement has them.  */
typedef struct thing
{
  const char *word, *also, *ways[MOST_SIZES];
} thing;

static const thing kinds[] = {
  { "circle", "wheel|disc|disk", { "across|diameter|diam|dia|wide", NULL, NULL } },
  { "plate", "ring", { "across|diameter|diam|dia|wide", NULL, NULL } },
  { "outline", "", { NULL, NULL, NULL } },
  { "line", "bar", { NULL, NULL, NULL } },
  { "box", "rectangle|rect", { "wide|long|across", "high|tall|thick", NULL } },
  { "stock", "board", { "thick", "wide", "long" } },
  { "part", "piece", { "long", "wide|high|tall", "thick" } } };
static const thing dowel = { "stock", "", { "round|diameter|dia|across|thick", "long", NULL } };

/* Places, and how many of them; the first that fits.  */
static const struct { const char *spoken, *is; } places[] = {
  { "on top of", "on" }, { "resting|standing|sitting on", "on" }, { "to the left|right of", "" }, { "at|on the left|right of", "" }, { "under|underneath|beneath", "below" }, { "over", "above" },
  { "at|in|on the centre|center|middle of", "same centre as" }, { "at|in|on centre|center|middle of", "same centre as" },
  { "centred|centered at|on|in|over|with", "same centre as" }, { "concentric with|to", "same centre as" },
  { "centre|center|middle of", "same centre as" }, { "at the origin", "at 0, 0" }, { "at origin", "at 0, 0" },
  { "with the same centre|center as", "same centre as" }, { "same center as", "same centre as" },
  { "qty|quantity of|is|=", "qty" }, { "qty:|quantity:|quantity", "qty" }, { "made|cut|out from|of", "from" } };

/* The length of the word I without a comma or a bracket at its end.  */
static size_t
bare (const br__words *l, size_t i)
{
  return br__word_bare (l, i, ",;:)");
}

/* The word at I says what is made; a wheel is a circle only behind `draw a` and the like.  */
static const thing *
kind_of (const br__words *l, size_t i)
{
  for (size_t k = 0; k < sizeof kinds / sizeof kinds[0] && !br__word_known (l, i); k++)
    if (br__word_at (l, i, kinds[k].word) || ((i || k > 3 || (k == 3 && br__word_at (l, i + 2, "="))) && *kinds[k].also && br__words_at (l, i, kinds[k].also)))
      return &kinds[k];
  return NULL;
}

static int
same_way (const br__words *l, size_t i, const char *ways)
{
  br__words one = { .run = l->run, .count = 1 };
  if (i >= l->count || !ways)
    return 0;
  one.word[0].s = l->word[i].s;
  one.word[0].length = bare (l, i);
  return br__words_at (&one, 0, ways);
}

/* A size from *I on, its words FROM up to TO; which of the KIND's it is said to be, -1: it is not said, -2: it is none.  */
static int
size_at (const thing *kind, const br__words *l, size_t *i, size_t *from, size_t *to)
{
  size_t at = *i;
  *from = at;
  if (br__word_begins_number (l, at))
    {
      const int more = bare (l, at) == l->word[at].length;
      at++;
      if (more && br__word_begins_number (l, at) && memchr (l->word[at].s, '/', l->word[at].length))
        at++;
      if (bare (l, at - 1) == l->word[at - 1].length && at < l->count)
        {
          br__words unit = { .run = l->run, .count = 1 };
          unit.word[0].s = l->word[at].s;
          unit.word[0].length = bare (l, at);
          at += (size_t) (br__word_is_unit (&unit, 0) && !(br__word_at (l, at, "in") && br__words_at (l, at + 1, "the")));
        }
    }
  else if (br__word_thing (l, at) & BR__THING_SIZE)
    at++;
  else
    return -2;
  *to = at;
  *i = at;
  for (int way = 0; way < MOST_SIZES; way++)
    if (same_way (l, at, kind->ways[way]) && !(br__word_thing (l, at) & BR__THING_SIZE))
      {
        *i = at + 1;
        return way;
      }
  return -1;
}

static void
put_span (br_text *t, const br__words *l, size_t from, size_t to)
{
  for (size_t i = from; i < to; i++)
    br__text_printf (t, "%s%.*s", i > from ? " " : "", (int) (i + 1 == to ? bare (l, i) : l->word[i].length), l->word[i].s);
}

/* 3 in above deck at I: as `above deck by 3 in`; the words that it takes, or 0.  T may be NULL.  */
static size_t
raised_at (br_text *t, const br__words *l, size_t i)
{
  size_t size = i + (size_t) br__word_at (l, i, "at"), end = size + 1;
  if (!br__word_begins_number (l, size))
    return 0;
  end += (size_t) br__word_is_unit (l, end);
  const size_t way = end, name = way + (size_t) (br__words_at (l, way, "above|below") ? 1 : br__words_at (l, way, "left|right of") ? 2 : 0);
  if (name == way || name + 1 != l->count || !(br__word_thing (l, name) & BR__THING_SHAPE))
    return 0;
  if (!t)
    return 1;
  br__text_putc (t, ' ');
  put_span (t, l, way, name + 1);
  br__text_puts (t, " by ");
  put_span (t, l, size, end);
  return name + 1 - i;
}

/* Puts the sizes from *I on as the statement has them: 2 high 4 wide as 4 x 2.  0 where they are not simple.  */
static int
put_sizes (br_text *t, const thing *kind, const br__words *l, size_t *i)
{
  size_t from[MOST_SIZES], to[MOST_SIZES], count = 0, order[MOST_SIZES] = { 0, 1, 2 };
  int way[MOST_SIZES], said = 0, lumber = 0;
  for (size_t at = *i; count < MOST_SIZES; )
    {
      size_t start = at;
      while (count && same_way (l, start, "x|by|and|,|plywood|hardwood|dowel|board"))
        start++;
      /* The comma of a place: 4 x 2, 3 in above deck */
      if (count && bare (l, start - 1) < l->word[start - 1].length && raised_at (NULL, l, start))
        break;
      way[count] = size_at (kind, l, &start, &from[count], &to[count]);
      /* 1x6 8 ft long: lumber has two sizes in one word.  */
      lumber |= kind->word[0] == 's' && count == 0 && way[0] == -1 && memchr (l->word[from[0]].s, 'x', l->word[from[0]].length);
      if (way[count] == -2 || (strchr ("ps", kind->word[0]) && same_way (l, start, "of|pieces|off|times|copies|pcs|needed")))
        break;
      if (start < l->count && br__words_at (l, start, "+|-|*|/"))
        return 0;
      said += way[count++] >= 0;
      *i = at = start;
      if (!kind->ways[1] && count)
        break;
    }
  if (!count || (!lumber && said && said < (int) count && !(said == 1 && way[count - 1] == (int) count - 1)))
    return 0;
  for (size_t k = 0; said == (int) count && k < count; k++)
    {
      size_t before = 0;
      for (size_t j = 0; j < count; j++)
        if (j != k && way[j] == way[k])
          return 0;
        else
          before += way[j] < way[k];
      order[before] = k;
    }
  for (size_t k = 0; k < count; k++)
    {
      br__text_puts (t, k ? " x " : " ");
      put_span (t, l, from[order[k]], to[order[k]]);
    }
  return 1;
}

/* 4 of them, 4 pieces, x 4, times 4 at I: *N words; 0: none.  */
static size_t
quantity_at (const br__words *l, size_t i, size_t *number)
{
  *number = i;
  if (br__word_at (l, i, "qty") && br__cardinal (l, i + 1) > 1)
    return *number = i + 1, 2;
  if ((br__word_begins_number (l, i) || br__cardinal (l, i) > 1) && br__word_at (l, i + 1, "of") && same_way (l, i + 2, "them|these|those"))
    return 3;
  if (br__word_begins_number (l, i) && same_way (l, i + 1, "pieces|off|times|copies|pcs|needed"))
    return 2;
  /* (2) */
  const size_t length = i < l->count ? l->word[i].length : 0;
  if (length > 2 && l->word[i].s[0] == '(' && l->word[i].s[length - 1] == ')' && br__digits (l->word[i].s + 1, length - 2) == length - 2)
    return 1;
  /* x2 */
  if (length > 1 && l->word[i].s[0] == 'x' && br__digits (l->word[i].s + 1, length - 1) == length - 1)
    return 1;
  *number = i + 1;
  return br__words_at (l, i, "x|times|*") && br__word_begins_number (l, i + 1) && (i + 2 == l->count || br__word_at (l, i + 2, "from")) ? 2 : 0;
}

/* Puts how many, which the word I says in digits, behind OPENS bytes, or as a word.  */
static void
put_count (br_text *t, const br__words *l, size_t i, int opens)
{
  if (br__cardinal (l, i) > 1)
    br__text_printf (t, " qty %lld", (long long) br__cardinal (l, i));
  else
    br__text_printf (t, " qty %.*s", (int) bare (l, i) - opens, l->word[i].s + opens);
}

/* 1/2 wide and a 3/8 hole at I, as the statements have them: the words, or 0.  T may be NULL.  */
static size_t
width_at (br_text *t, const br__words *l, size_t i)
{
  const size_t size = i + (size_t) br__word_at (l, i, "with") + (size_t) br__words_at (l, i + (size_t) br__word_at (l, i, "with"), "a");
  size_t end = size + 1;
  if (!br__word_begins_number (l, size))
    return 0;
  end += (size_t) br__word_is_unit (l, end);
  if (!br__words_at (l, end, "wide|hole"))
    return 0;
  if (!t)
    return 1;
  br__text_printf (t, " %.*s ", (int) l->word[end].length, l->word[end].s);
  put_span (t, l, size, end);
  return end + 1 - i;
}

/* Puts the words from I on, the place and what else stands there.  */
static void
put_rest (br_text *t, const thing *kind, const br__words *l, size_t i)
{
  while (i < l->count)
    {
      size_t n, number;
      const char *s = l->word[i].s;
      if ((n = raised_at (t, l, i)) > 0)
        {
          i += n;
          continue;
        }
      if ((kind->word[0] == 'p' || (kind->word[0] == 's' && (br__word_begins_number (l, i) || br__word_at (l, i, "qty")))) && (n = quantity_at (l, i, &number)) > 0)
        {
          const int opens = l->word[number].s[0] == '(' || l->word[number].s[0] == 'x';
          put_count (t, l, number, opens);
          i += n;
          continue;
        }
      if ((n = width_at (t, l, i)) > 0)
        {
          i += n;
          continue;
        }
      if (br__words_at (l, i, "centred|centered on|at") && br__word_begins_number (l, i + 2))
        {
          br__text_puts (t, " at");
          i += 2;
          continue;
        }
      size_t k = 0;
      while (k < sizeof places / sizeof places[0] && !br__words_at (l, i, places[k].spoken))
        k++;
      if (k < sizeof places / sizeof places[0])
        {
          n = br__words_of (places[k].spoken);
          br__text_printf (t, " %s", places[k].is);
          if (!*places[k].is)
            put_span (t, l, i + 2, i + n);
          i += n;
          continue;
        }
      if (br__words_at (l, i, "a|an|the") && !br__word_known (l, i))
        {
          i++;
          continue;
        }
      /* A place in brackets; a comma stands within a place alone.  */
      const int opens = s[0] == '(', next_number = !width_at (NULL, l, i + 1) && (br__word_begins_number (l, i + 1) || br__word_known (l, i + 1)
                        || (i + 1 < l->count && strchr ("-(", l->word[i + 1].s[0])));
      size_t length = l->word[i].length;
      while (length > 1 && (s[length - 1] == ')' || (s[length - 1] == ',' && !next_number)) && (opens || !memchr (s, '(', length)))
        length--;
      const char *comma = memchr (s, ',', length);
      br__text_putc (t, ' ');
      br__text_put (t, s + opens, comma && comma + 1 < s + length ? (size_t) (comma + 1 - s - opens) : length - (size_t) opens);
      /* 3,4: a place has two numbers.  */
      if (comma && comma + 1 < s + length)
        br__text_printf (t, " %.*s", (int) (s + length - comma - 1), comma + 1);
      i++;
    }
}

/* What the wood is besides solid boards, anywhere from I on; or NULL.  */
static const char *
material (const br__words *l, size_t i)
{
  for (; i < l->count; i++)
    if (same_way (l, i, "round|dowel|diameter|dia"))
      return "round";
    else if (same_way (l, i, "plywood"))
      return "plywood";
    else if (same_way (l, i, "hardwood"))
      return "hardwood";
  return NULL;
}

int
br__phrase_thing (br_text *t, const br__words *l)
{
  size_t i = 0;
  while (br__words_at (l, i, "draw|make|add|put|create|new|place|there|is|i|want|need|have") && !br__word_known (l, i))
    i++;
  while (br__words_at (l, i, "a|an|another|new|the"))
    i++;
  const thing *kind = kind_of (l, i);
  if (!kind)
    return 0;
  i++;
  while (br__words_at (l, i, "called|named|for|the|a|="))
    i++;
  if (i >= l->count)
    return 0;
  br__words name = { .run = l->run, .count = 1 };
  name.word[0].s = l->word[i].s;
  name.word[0].length = bare (l, i);
  /* make part side 22 long: what is there would be changed, not made anew.  */
  if (br__word_thing (&name, 0) > BR__THING_SIZE && !memchr (l->run->text, '=', l->run->end))
    return 0;
  if ((!br__word_thing (&name, 0) && !br__word_is_new (&name, 0)) || br__words_at (&name, 0, "of|with|in|on|at|to|by|from|over|under|above|below|dia|diameter|radius|across"))
    return 0;
  br__text_printf (t, "%s %.*s =", kind->word, (int) name.word[0].length, name.word[0].s);
  i++;
  while (br__words_at (l, i, "=|is|of|with|size|sized|:|a|an|from"))
    i++;
  const char *kindred = kind->word[0] == 's' ? material (l, i) : NULL;
  const int halves = kind->word[0] == 'c' && br__word_at (l, i, "radius");
  if (kind->word[0] == 'c' && br__words_at (l, i, "radius|diameter|diam|dia"))
    i += 1 + (size_t) br__words_at (l, i + 1, "of|is|=");
  if (kindred)
    {
      br__text_printf (t, " %s", kindred);
      kind = *kindred == 'r' ? &dowel : kind;
      i += (size_t) same_way (l, i, kindred);
    }
  size_t start = t->length, from = i;
  if (kind->ways[0] && put_sizes (t, kind, l, &i))
    {
      const int after = kind->word[0] == 'c' && br__word_at (l, i, "radius");
      if ((halves || after) && t->length - start < 40)
        {
          char size[48] = "";
          memcpy (size, t->bytes + start + 1, t->length - start - 1);
          t->length = start;
          br__text_printf (t, " diameter(%s)", size);
          i += (size_t) after;
        }
    }
  else
    {
      if (halves)
        return 0;
      t->length = start;
      i = from;
    }
  put_rest (t, kind, l, i);
  return !t->failed;
}
