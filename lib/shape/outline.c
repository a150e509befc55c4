/* SPDX-License-Identifier: LGPL-3.0-or-later
   outline.c - parses the corners of an outline.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/shape.h"

static void
corner_clear (br__corner_draft *c)
{
  br__tree_clear (&c->x);
  br__tree_clear (&c->y);
  br__tree_clear (&c->cut);
  br__tree_clear (&c->after);
  br__tree_clear (&c->rise);
}

void
br__corners_clear (br__shape_draft *d)
{
  for (size_t i = 0; i < d->corner_count; i++)
    corner_clear (&d->corners[i]);
  br__free (d->corners);
  d->corners = NULL;
  d->corner_count = d->corner_room = 0;
}

static br_status
add_corner (br__corner_draft **c, br__run *run, br__shape_draft *d)
{
  const br__token t = run->lex.token;
  if (d->corner_count == BR__MOST_CORNERS)
    return br__fail (run->error, BR_TOO_BIG, t.offset, t.length, "an outline of more than %d corners", BR__MOST_CORNERS);
  if (!br__grow (&d->corners, &d->corner_room, d->corner_count + 1, sizeof *d->corners))
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  *c = &d->corners[d->corner_count++];
  memset (*c, 0, sizeof **c);
  return BR_OK;
}

/* Sets a hint: the line with WORD instead of the LENGTH bytes at OFFSET.  The rest of that line is not checked here.  */
static void
hint_instead (br__run *run, size_t offset, size_t length, const char *word)
{
  const size_t behind = offset + length;
  if (run->end + strlen (word) < 180)
    br__hint (run->error, "write `%.*s%s%.*s`", (int) offset, run->text, word, (int) (run->end - behind), run->text + behind);
}

/* (0, 0) to (4, 0): the line without brackets as a hint.  */
static void
hint_bare (br__run *run)
{
  br_text t = BR_TEXT_ZERO;
  for (size_t i = 0; i < run->end; i++)
    if (!strchr ("()", run->text[i]))
      br__text_put (&t, run->text + i, 1);
  if (t.length < 180)
    br__hint (run->error, "write `%s`", br__text_string (&t));
  br__text_clear (&t);
}

/* Parses a number of a corner, or of its round or cut; WHAT names it in errors.  The FIRST of two must be followed by a
   comma.  */
static br_status
read_size (br__run *run, br__tree *t, const char *what, int first)
{
  const br__lexer before = run->lex;
  if (run->lex.token.type == BR__END)
    return br__expected (run, what);
  if (run->lex.status != BR_OK || br__parse_size (t, &run->lex, run->error) == BR_OK)
    return run->lex.status;
  /* These can be names, too.  */
  if (br__lex_is_word (&before, "to") || br__lex_is_word (&before, "by"))
    {
      run->lex = before;
      return br__expected (run, what);
    }
  if (strcmp (run->error->message, "a list does not go inside brackets") == 0)
    hint_bare (run);
  if (!first && strcmp (run->error->message, "two numbers side by side") == 0)
    {
      br__fail (run->error, BR_SYNTAX, run->error->offset, run->error->length, "`to` should stand before the next corner");
      hint_instead (run, run->error->offset, 0, "to ");
    }
  return run->lex.status;
}

/* The second number of a corner.  */
static br_status
read_second (br__run *run, br__corner_draft *c)
{
  br__need_sign (run, ',', "a comma and the height of the corner");
  return read_size (run, &c->y, "the height of the corner", 0);
}

/* `by DX, DY`, `X, Y` or `LENGTH at ANGLE`; the first corner is a place.  */
static br_status
read_place (br__run *run, br__corner_draft *c, int first)
{
  const br__token at = run->lex.token;
  if (!first && br__take_word (run, "by"))
    c->form = BR__CORNER_BY;
  read_size (run, &c->x, "a corner", 1);
  const int angle = !first && run->lex.status == BR_OK && br__lex_is_word (&run->lex, "at");
  if (angle && c->form == BR__CORNER_BY)
    {
      br__lex_fail (&run->lex, br__fail (run->error, BR_SYNTAX, at.offset, at.length, "a length at an angle stands behind `to`"));
      hint_instead (run, at.offset, at.length, "to");
    }
  if (!angle || run->lex.status != BR_OK)
    return read_second (run, c);
  br__go_on (run);
  c->form = BR__CORNER_ANGLE;
  return read_size (run, &c->y, "an angle", 0);
}

/* A part of a statement that is there already, or has no place where another word stands.  */
static br_status
twice (br__run *run, const br__token *at, const char *message)
{
  return br__lex_fail (&run->lex, br__fail (run->error, BR_SYNTAX, at->offset, at->length, "%s", message));
}

/* `round R`, `cut C [x D]` and `rise H` behind a corner.  */
static br_status
read_treatment (br__run *run, br__corner_draft *c, int first)
{
  for (;;)
    {
      const br__token at = run->lex.token;
      int round = br__take_word (run, "round");
      if (round || br__take_word (run, "cut"))
        {
          if (c->cut.count)
            return twice (run, &at, "this corner is rounded or cut already");
          c->round = round;
          read_size (run, &c->cut, round ? "a radius" : "a size", 0);
          if (!round)
            br__read_second_size (run, &c->after);
        }
      else if (br__take_word (run, "rise"))
        {
          if (first)
            {
              twice (run, &at, "no side has been drawn yet that could rise");
              br__hint (run->error, "to bend the last side, write `to start rise H` at the end");
              return BR_SYNTAX;
            }
          if (c->rise.count)
            return twice (run, &at, "this side has a rise already");
          read_size (run, &c->rise, "a rise", 0);
        }
      else
        return run->lex.status;
    }
}

/* 1 where C is written as the first corner was, so that the outline is closed by hand.  */
static int
is_first (const br__shape_draft *d, const br__corner_draft *c)
{
  const br__corner_draft *f = &d->corners[0];
  return c->form == BR__CORNER_AT && c->x.length == f->x.length && c->y.length == f->y.length
         && memcmp (c->x.text, f->x.text, f->x.length) == 0 && memcmp (c->y.text, f->y.text, f->y.length) == 0;
}

/* The side that closes the outline, whose rise the first corner keeps.  */
static br_status
read_last (br__run *run, br__shape_draft *d)
{
  if (br__take_word (run, "rise"))
    read_size (run, &d->corners[0].rise, "a rise", 0);
  return run->lex.status;
}

/* Handles an outline whose last corner is the first one again.  */
static br_status
close_by_hand (br__shape_draft *d)
{
  br__corner_draft *last = &d->corners[d->corner_count - 1], *first = &d->corners[0];
  if (last->cut.count && !first->cut.count)
    {
      const br__tree empty = BR__TREE_ZERO;
      first->cut = last->cut, first->after = last->after, first->round = last->round;
      last->cut = last->after = empty;
    }
  first->rise = last->rise;
  last->rise = (br__tree) BR__TREE_ZERO;
  corner_clear (last);
  d->corner_count--;
  return BR_OK;
}

/* T is there and does not come to 0, which is refused as a rise later.  */
static int
is_arc (br__run *run, const br__tree *t)
{
  br_error before = *run->error;
  br__value v = BR__VALUE_ZERO;
  int sign = 1;
  int known = t->count && br__value_of (&v, run, t) == BR_OK && br_real_sign (&sign, &v.real, run->sheet->settings.bits) == BR_OK;
  br__value_clear (&v);
  *run->error = before;
  return t->count && !(known && sign == 0);
}

/* A corner is rounded or cut between two straight sides.  */
static br_status
check_rises (br__run *run, const br__shape_draft *d)
{
  for (size_t i = 0; i < d->corner_count; i++)
    {
      const br__corner_draft *c = &d->corners[i], *next = &d->corners[(i + 1) % d->corner_count];
      if (c->cut.count && (is_arc (run, &c->rise) || is_arc (run, &next->rise)))
        {
          br__fail (run->error, BR_DOMAIN, c->cut.base, c->cut.length,
                    "corner %d cannot be rounded or cut: a side of it is an arc", (int) i + 1);
          br__hint (run->error, "round or cut corners between two straight sides");
          return BR_DOMAIN;
        }
    }
  return BR_OK;
}

br_status
br__outline_read (br__run *run, br__shape_draft *d)
{
  br__corner_draft *c;
  int closed = 0;
  br_status status = add_corner (&c, run, d);
  if (status == BR_OK)
    {
      read_place (run, c, 1);
      status = read_treatment (run, c, 1);
    }
  while (status == BR_OK && !closed)
    {
      int to = br__take_word (run, "to");
      if ((status = run->lex.status) != BR_OK || (!to && !br__lex_is_word (&run->lex, "by")))
        break;
      if (to && br__take_word (run, "start"))
        {
          closed = 1;
          status = read_last (run, d);
          continue;
        }
      status = add_corner (&c, run, d);
      if (status == BR_OK)
        {
          read_place (run, c, 0);
          status = read_treatment (run, c, 0);
        }
      if (status == BR_OK && d->corner_count > 3 && is_first (d, c))
        {
          closed = 1;
          status = close_by_hand (d);
        }
    }
  if (status == BR_OK && d->corner_count < 3)
    {
      br__expected (run, "`to` and the next corner, of three or more,");
      br__hint (run->error, "help outline");
      return BR_SYNTAX;
    }
  return status == BR_OK ? check_rises (run, d) : status;
}
