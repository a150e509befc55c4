/* SPDX-License-Identifier: LGPL-3.0-or-later
   annotation_read.c - the words of `dimension` and `note`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/annotation.h"

/* Sides in the order of br__side.  */
static const char *const sides[] = { "right", "top", "left", "bottom" };

/* The side that the word at hand is, or -1.  */
static int
side_at (const br__run *run)
{
  for (int i = 0; i < 4; i++)
    if (br__lex_is_word (&run->lex, sides[i]))
      return i;
  return -1;
}

static br_status
no_spot (br__run *run)
{
  br__fill_expected (run, "a point such as `centre(wheel)`, `left(deck)` or `corner(deck, right top)`");
  br__hint (run->error, "help dimension");
  return BR_SYNTAX;
}

static void
put_side (br__spot *s, int side)
{
  int way = side == BR__TOP || side == BR__BOTTOM;
  s->part[way] = BR__SHAPE_RIGHT + side;
  s->none[way] = 0;
}

/* One or two sides; SECOND: a second one has to follow.  */
static br_status
read_sides (br__spot *s, br__run *run, int second)
{
  br_status status = BR_OK;
  int first = side_at (run), other;
  if (first < 0)
    return no_spot (run);
  s->none[0] = s->none[1] = 1;
  put_side (s, first);
  status = br__lex_next (&run->lex, run->error);
  other = status == BR_OK ? side_at (run) : -1;
  if (status != BR_OK || (other < 0 && !second))
    return status;
  if (other < 0 || other % 2 == first % 2)
    return br__expected (run, first % 2 ? "`left` or `right`" : "`top` or `bottom`");
  put_side (s, other);
  return br__lex_next (&run->lex, run->error);
}

/* A corner of an outline, by its number.  */
static br_status
read_number (br__spot *s, br__run *run)
{
  br_measure m = BR_MEASURE_ZERO;
  const br__token at = run->lex.token;
  int64_t n = 0, d = 1;
  size_t count = br__shape_corners (run->sheet->graph, s->shape, strlen (s->shape));
  br_status status = br__lex_number (&m, &run->lex, run->error);
  if (status == BR_OK && (m.unit || !br_number_get_ratio (&n, &d, &m.value) || d != 1))
    n = 0;
  br_measure_clear (&m);
  if (status == BR_OK && (n < 1 || n > BR__MOST_CORNERS || (count && n > (int64_t) count)))
    {
      br__fail (run->error, BR_DOMAIN, at.offset, at.length, "corners are numbered from 1 to %d",
                count ? (int) count : BR__MOST_CORNERS);
      return BR_DOMAIN;
    }
  if (status == BR_OK && !count && br__shape_find (run->sheet, s->shape, strlen (s->shape)))
    {
      br__fail (run->error, BR_DOMAIN, at.offset, at.length, "corners have numbers in an outline alone");
      br__hint (run->error, "corner(%.*s, left top)", BR__CLIP (s->shape, 40));
      return BR_DOMAIN;
    }
  if (status != BR_OK)
    return status;
  for (int i = 0; i < 2; i++)
    s->part[i] = BR__CORNER_PART (n - 1, BR__CORNER_X + i);
  return br__lex_next (&run->lex, run->error);
}

/* The brackets and what is in them.  */
static br_status
read_shape (br__spot *s, br__run *run, int corner)
{
  br__need_sign (run, '(', "an opening bracket and the name of a shape");
  br_status status = br__shape_read_name (&s->shape, run, "the name of a shape");
  if (corner)
    br__need_sign (run, ',', "a comma and which corner it is");
  if (status == BR_OK && corner && run->lex.status == BR_OK)
    status = run->lex.token.type == BR__NUMBER ? read_number (s, run) : read_sides (s, run, 1);
  if (status != BR_OK)
    return status;
  br__need_sign (run, ')', "a closing bracket");
  return run->lex.status;
}

/* Only a line has ends.  */
static br_status
check_ends (const br__spot *s, br__run *run, br__token at)
{
  const br__shape *it = br__shape_find (run->sheet, s->shape, strlen (s->shape));
  if (!s->half || !it || it->kind == BR__LINE)
    return BR_OK;
  br__fail (run->error, BR_DOMAIN, at.offset, at.length, "a line alone has a start and an end");
  br__hint (run->error, "centre(%.*s)", BR__CLIP (s->shape, 40));
  return BR_DOMAIN;
}

br_status
br__spot_read (br__spot *s, br__run *run)
{
  const br__token at = run->lex.token;
  int centre = br__lex_is_word (&run->lex, "centre") || br__lex_is_word (&run->lex, "center");
  int corner = br__lex_is_word (&run->lex, "corner");
  s->half = br__lex_is_word (&run->lex, "start") ? -1 : br__lex_is_word (&run->lex, "end");
  if (centre)
    {
      s->part[0] = BR__SHAPE_MIDDLE_X;
      s->part[1] = BR__SHAPE_MIDDLE_Y;
    }
  if (s->half)
    {
      s->part[0] = BR__SHAPE_A;
      s->part[1] = BR__SHAPE_B;
    }
  br_status status = centre || corner || s->half ? br__lex_next (&run->lex, run->error) : read_sides (s, run, 0);
  if (status == BR_OK)
    status = read_shape (s, run, corner);
  return status == BR_OK ? check_ends (s, run, at) : status;
}

/* The way that the two have both a place is the one that is left, or the one that is asked for.  */
static br_status
find_way (br__annotation *a, br__run *run, br__token at, size_t end)
{
  static const char *const words[] = { "", "level", "upright", "along" };
  int level = !a->from.none[0] && !a->to.none[0], upright = !a->from.none[1] && !a->to.none[1];
  int good = a->way == BR__ANY_WAY ? level || upright : a->way == BR__LEVEL ? level : a->way == BR__UPRIGHT ? upright : level && upright;
  if (!good)
    {
      if (level || upright)
        br__fail (run->error, BR_DOMAIN, at.offset, end - at.offset, "these two have no distance %s", words[a->way]);
      else
        br__fail (run->error, BR_DOMAIN, at.offset, end - at.offset, "a side to the left or right and one above or below have no distance");
      br__hint (run->error, "corner(%.*s, left top) is a point, centre(%.*s) another", BR__CLIP (a->from.shape, 40),
                BR__CLIP (a->to.shape, 40));
      return BR_DOMAIN;
    }
  if (a->way == BR__ANY_WAY && level != upright)
    a->way = level ? BR__LEVEL : BR__UPRIGHT;
  return BR_OK;
}

br_status
br__spots_read (br__annotation *a, br__run *run)
{
  size_t start = run->lex.token.offset, end;
  br_status status = br__spot_read (&a->from, run);
  if (status != BR_OK)
    return status;
  br__need_word (run, "to", "`to` and another point");
  if (run->lex.status != BR_OK || (status = br__spot_read (&a->to, run)) != BR_OK)
    return run->lex.status != BR_OK ? run->lex.status : status;
  end = run->lex.token.type == BR__END ? run->end : run->lex.token.offset;
  while (end > start && br__blank_at (run->text + end - 1, 1))
    end--;
  a->words = br__strndup (run->text + start, end - start);
  return a->words ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
}

/* Bytes of the quotation mark at TEXT, straight or curly, or 0.  */
static size_t
quote_at (const char *text, size_t length)
{
  if (length && *text == '"')
    return 1;
  return length >= 3 && (memcmp (text, "\xE2\x80\x9C", 3) == 0 || memcmp (text, "\xE2\x80\x9D", 3) == 0) ? 3 : 0;
}

size_t
br__quoted_end (const char *text, size_t length, size_t start)
{
  size_t at = start;
  for (size_t blank; at < length && (blank = br__blank_at (text + at, length - at)) > 0; )
    at += blank;
  size_t quote = quote_at (text + at, length - at);
  for (at += quote; quote && at < length; at++)
    if (quote_at (text + at, length - at))
      return at + quote_at (text + at, length - at);
  return start;
}

/* note 'hi' at 1, 1 and note hi at 1, 1: the note with its text, from START on, in quotation marks as a hint; note hi stands at 0, 0.  */
static void
hint_quoted (br__run *run, size_t start)
{
  const char *s = run->text;
  for (size_t i = start + 1; i + 4 < run->end; i++)
    if (memcmp (s + i, " at ", 4) == 0)
      {
        const size_t marks = s[start] == '\'' && s[i - 1] == '\'' && i > start + 2;
        br__hint (run->error, "write `%.*s\"%.*s\"%.*s`", (int) start, s, (int) (i - start - 2 * marks), s + start + marks, (int) (run->end - i), s + i);
        return;
      }
  if (run->end > start && memcmp (s, "note ", 5) == 0 && !memchr (s, '"', run->end))
    br__hint (run->error, "write `%.*s\"%.*s\" at 0, 0`", (int) start, s, (int) (run->end - start), s + start);
}

/* The text from START on, in quotation marks, or, where it may be BARE, up to the end of the line; *END is behind it.  */
static br_status
read_text (char **text, size_t *end, br__run *run, size_t start, int bare)
{
  size_t at = start, quote, close;
  for (size_t blank; at < run->end && (blank = br__blank_at (run->text + at, run->end - at)) > 0; )
    at += blank;
  quote = quote_at (run->text + at, run->end - at);
  close = at + quote;
  while (close < run->end && (!quote || !quote_at (run->text + close, run->end - close)))
    close++;
  *end = close + (quote ? quote_at (run->text + close, run->end - close) : 0);
  while (!quote && close > at && br__blank_at (run->text + close - 1, 1))
    close--;
  if ((!quote && !bare) || close == at + quote)
    {
      br__fail (run->error, BR_SYNTAX, at, run->end - at, "a text in quotation marks should stand here");
      hint_quoted (run, at);
      return BR_SYNTAX;
    }
  if (quote && *end == close)
    return br__fail (run->error, BR_SYNTAX, at, run->end - at, "the text has no quotation mark at its end");
  if (close - at - quote > BR__MOST_NOTE)
    return br__fail (run->error, BR_TOO_BIG, at, close - at, "a text of more than %d bytes", BR__MOST_NOTE);
  *text = br__strndup (run->text + at + quote, close - at - quote);
  return *text ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
}

/* The text of a note, which ends at END, is not followed by `at`.  If there are quotation marks inside of the note, the error
   says so, and the hint has the note with inch signs or single quotation marks.  */
static void
refuse_quotes (br__run *run, size_t start, size_t end)
{
  br_text t = BR_TEXT_ZERO;
  const char *s = run->text;
  size_t last = end, behind = run->end, first = start;
  for (size_t i = end; i + 4 < run->end && behind == run->end; i++)
    if (memcmp (s + i, " at ", 4) == 0)
      behind = i;
  for (size_t i = end; i < behind; i++)
    if (quote_at (s + i, behind - i))
      last = i;
  if (last == end)
    return;
  while (!quote_at (s + first, end - first))
    first++;
  br__text_put (&t, s, first);
  for (size_t n, i = first; i < last; i += n)
    {
      n = i > first ? quote_at (s + i, last - i) : 0;
      if (n)
        br__text_puts (&t, s[i - 1] >= '0' && s[i - 1] <= '9' ? " in" : "'");
      else if (s[i] != '\\' || !quote_at (s + i + 1, last - i))
        br__text_put (&t, s + i, 1);
      n += !n;
    }
  br__text_put (&t, s + last, run->end - last);
  br__fail (run->error, BR_SYNTAX, end - 1, 1, "a text has no quotation marks inside");
  br__hint (run->error, behind < run->end ? "write `%s`" : "write `%s at 0, 0`", br__text_string (&t));
  if (t.failed)
    br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br__text_clear (&t);
}

br_status
br__note_text_read (char **text, br__run *run)
{
  size_t end;
  br_status status = read_text (text, &end, run, run->word.offset + run->word.length, 0);
  return status == BR_OK ? br__lex_from (&run->lex, end, run->error) : status;
}

void
br__note_at_read (br__run *run)
{
  const size_t start = run->word.offset + run->word.length;
  const int is_at = br__lex_is_word (&run->lex, "at");
  br__need_word (run, "at", "`at X, Y`");
  if (!is_at && run->lex.status == BR_SYNTAX)
    refuse_quotes (run, start, br__quoted_end (run->text, run->end, start));
}

br_status
br__way_read (br__annotation *a, br__run *run)
{
  static const char *const ways[] = { "level", "upright", "along" };
  for (int i = 0; i < 3 && a->way == BR__ANY_WAY; i++)
    if (br__take_word (run, ways[i]))
      a->way = (br__way) (BR__LEVEL + i);
  return run->lex.status;
}

br_status
br__dimension_read (br__annotation *a, br__tree *off, br__run *run)
{
  const br__token at = run->lex.token;
  br_status status = br__spots_read (a, run);
  size_t end = at.offset + (a->words ? strlen (a->words) : 0);
  if (status == BR_OK)
    status = br__way_read (a, run);
  if (status == BR_OK)
    status = find_way (a, run, at, end);
  if (status == BR_OK && br__lex_is_word (&run->lex, "off"))
    {
      a->off = 1;
      br__go_on (run);
      status = br__parse_size (off, &run->lex, run->error);
    }
  if (status == BR_OK && br__lex_is_word (&run->lex, "as"))
    {
      status = read_text (&a->text, &end, run, run->lex.next, 1);
      if (status == BR_OK)
        status = br__lex_from (&run->lex, end, run->error);
    }
  if (status == BR_OK && run->lex.token.type != BR__END)
    return br__expected (run, a->off ? "`as TEXT`" : "`level`, `upright`, `along`, `off DISTANCE` or `as TEXT`");
  return status;
}
