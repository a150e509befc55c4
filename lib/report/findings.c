/* SPDX-License-Identifier: LGPL-3.0-or-later
   findings.c - the findings about a design, in lists of sentences.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "report/review.h"

/* Of one kind in one design; the rest is not told.  */
#define MOST_FOUND 200

static const struct { const char *key, *heading; } findings[BR__FINDINGS] =
{
  [BR__FINDING_MISTAKE] = { "mistakes", "Lines with a mistake" },
  [BR__FINDING_MISSING] = { "missing", "Missing sizes" },
  [BR__FINDING_WAITING] = { "waiting", "Waits for a size" },
  [BR__FINDING_FAILS] = { "checks_failed", "Checks that do not hold" },
  [BR__FINDING_RULE] = { "rules_failed", "Rules of the task that are not met" },
  [BR__FINDING_OFF_RULER] = { "off_ruler", "Sizes between two marks of the ruler" },
  [BR__FINDING_UNPLACED] = { "unplaced", "Parts that do not come out of the stock" },
  [BR__FINDING_CAUTION] = { "cautions", "Cautions" },
  [BR__FINDING_NOT_RUN] = { "not_run", "Lines that a review does not run" },
  [BR__FINDING_HOLDS] = { "holds", "What holds" },
};

const char *
br__finding_key (br__finding f)
{
  return findings[f].key;
}

const char *
br__finding_heading (br__finding f)
{
  return findings[f].heading;
}

void
br__design_add (br__design *d, br__finding f, const char *format, ...)
{
  char line[600];
  va_list args;
  if (d->count[f] >= MOST_FOUND)
    return;
  va_start (args, format);
  vsnprintf (line, sizeof line, format, args);
  va_end (args);
  if (!br__grow (&d->found[f], &d->room[f], d->count[f] + 1, sizeof (br_text)))
    {
      d->title.failed = 1;
      return;
    }
  br_text *t = &d->found[f][d->count[f]++];
  memset (t, 0, sizeof *t);
  br__text_puts (t, line);
  d->title.failed |= t->failed;
}

void
br__design_clear (br__design *d)
{
  for (int f = 0; f < BR__FINDINGS; f++)
    {
      for (size_t i = 0; i < d->count[f]; i++)
        br__text_clear (&d->found[f][i]);
      br__free (d->found[f]);
    }
  br__text_clear (&d->title);
  br__text_clear (&d->drawing);
  br__text_clear (&d->figure);
  br__plot_clear (&d->plot);
  br__free (d->path);
}
