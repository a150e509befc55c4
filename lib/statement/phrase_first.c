/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase_first.c - lines that are right in the language and that people mean otherwise: they are read as phrases first.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"
#include "statement/phrase.h"
#include "statement/phrase_words.h"

/* x = five, which would wait for `five`.  */
static int
waits_for_number (const br__words *l)
{
  int found = l->count > 2 && br__word_at (l, 1, "=");
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
    br__fail (run->error, BR_SYNTAX, 0, run->end, "this can be read in two ways");
  if (found)
    br__hint (run->error, "write `%.*s %.*s` or `%.*s, %.*s`", (int) feet, s, (int) inches, comma + 1, (int) feet, s, (int) inches, comma + 1);
  br_measure_clear (&a);
  br_measure_clear (&b);
  return found;
}

int
br__phrase_first (br__run *run)
{
  br__words l = { .run = run };
  br__words_cut (&l);
  if (l.count == 0 || l.count == BR__MOST_WORDS)
    return 0;
  if (br__phrase_feet_hint (run, &l))
    return 1;
  if (!waits_for_number (&l))
    return 0;
  br__fail (run->error, BR_SYNTAX, 0, run->end, "a number in words");
  return 1;
}
