/* SPDX-License-Identifier: LGPL-3.0-or-later
   two_ways.c - lines that can be parsed but that people use with two meanings: refused, and the hint shows both.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "measure/measure.h"
#include "sheet/sheet.h"

void
br__fail_two_ways (br__run *run, size_t offset, size_t length)
{
  br__fail (run->error, BR_SYNTAX, offset, length, "this can be read in two ways");
  run->two_ways = 1;
}

/* The unit that the measure T says, or NULL.  */
static const br_unit *
unit_of (const br__run *run, const br__token *t)
{
  br_measure m = BR_MEASURE_ZERO;
  int found = t->type == BR__NUMBER && br_measure_read (&m, run->text + t->offset, t->length, NULL, NULL) == BR_OK;
  const br_unit *unit = found ? m.unit : NULL;
  br_measure_clear (&m);
  return unit;
}

/* Sizes of boards are written with one unit behind both where it is metric, 100 x 50 mm; 4 x 30 in is a product of textbooks.  */
static int
is_shared (const br_unit *unit)
{
  return unit && (strcmp (unit->name, "mm") == 0 || strcmp (unit->name, "cm") == 0 || strcmp (unit->name, "m") == 0);
}

int
br__shares_unit (br__run *run)
{
  br__lexer l = run->lex;
  br_error ignored;
  const br__token first = l.token;
  if (first.type != BR__NUMBER || unit_of (run, &first) || br__lex_next (&l, &ignored) != BR_OK)
    return 0;
  const br__token sign = l.token;
  const char *s = run->text + sign.offset;
  const size_t left = run->end - sign.offset;
  if (left < 2 || (*s != 'x' && memcmp (s, "\xc3\x97", 2) != 0) || br__lex_next (&l, &ignored) != BR_OK || !is_shared (unit_of (run, &l.token))
      || first.length + l.token.length > 50)
    return 0;
  const br__token last = l.token;
  size_t unit = last.length;
  while (unit && !strchr ("0123456789. /", run->text[last.offset + unit - 1]))
    unit--;
  if (br__lex_next (&l, &ignored) != BR_OK || l.token.type != BR__END || unit == 0)
    return 0;
  const char *blank = last.length - unit > 1 ? " " : "";
  br__fail_two_ways (run, first.offset, last.offset + last.length - first.offset);
  br__hint (run->error, "write `%.*s%s%.*s * %.*s` or `%.*s * %.*s`", (int) first.length, run->text + first.offset, blank, (int) (last.length - unit),
            run->text + last.offset + unit, (int) last.length, run->text + last.offset, (int) first.length, run->text + first.offset,
            (int) last.length, run->text + last.offset);
  return 1;
}

int
br__halves_or_doubles (br__run *run)
{
  br__lexer l = run->lex;
  br_error ignored;
  if (br__lex_next (&l, &ignored) != BR_OK || !(br__lex_is_word (&l, "radius") || br__lex_is_word (&l, "diameter")))
    return 0;
  const br__token word = l.token;
  if (br__lex_next (&l, &ignored) != BR_OK || l.token.type != BR__NUMBER)
    return 0;
  const int start = (int) l.token.offset, length = br__clip (run->text + start, run->end - (size_t) start, 40);
  br__fail_two_ways (run, word.offset, run->end - word.offset);
  br__hint (run->error, "write `%.*s = %.*s` or `%.*s = %.*s(%.*s)`", (int) run->word.length, run->text + run->word.offset, length,
            run->text + start, (int) run->word.length, run->text + run->word.offset, (int) word.length, run->text + word.offset,
            length, run->text + start);
  return 1;
}
