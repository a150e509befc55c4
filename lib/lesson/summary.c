/* SPDX-License-Identifier: LGPL-3.0-or-later
   summary.c - what a class did: by problem, and by mistake.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "lesson/grade.h"

/* How often verdicts from FIRST to before END came in problem I.  */
static int64_t
count_of (const br__class *c, size_t i, size_t first, size_t end)
{
  int64_t n = 0;
  for (size_t k = first; k < end; k++)
    n += c->counts[k * c->problems + i];
  return n;
}

static void
put_problems (br_record *r, const br__class *c)
{
  br_list *rows = br__put_list (r, "problems");
  for (size_t i = 0; i < c->problems; i++)
    {
      br_record *row = br__list_record (rows);
      br__put_count (row, "problem", (int64_t) i + 1);
      br__put_count (row, "right", count_of (c, i, BR__RIGHT, BR__RIGHT + 1));
      br__put_count (row, "form", count_of (c, i, BR__NOT_LOWEST, BR__ROUNDED + 1));
      br__put_count (row, "known_mistake", count_of (c, i, BR__JUDGEMENTS, BR__VERDICTS));
      br__put_count (row, "other_wrong", count_of (c, i, BR__WRONG, BR__WRONG + 1));
      br__put_count (row, "unreadable", count_of (c, i, BR__UNREADABLE, BR__UNREADABLE + 1));
      br__put_count (row, "no_answer", count_of (c, i, BR__NO_ANSWER, BR__NO_ANSWER + 1));
    }
}

/* The verdicts that something is to be learnt from, the most frequent first.  */
static void
put_mistakes (br_record *r, const br__class *c)
{
  br_list *rows = br__put_list (r, "mistakes");
  char told[BR__VERDICTS] = { 0 };
  for (;;)
    {
      size_t best = 0;
      int64_t most = 0;
      for (size_t k = BR__NOT_LOWEST; k < BR__VERDICTS; k++)
        {
          int64_t n = 0;
          for (size_t i = 0; i < c->problems; i++)
            n += c->counts[k * c->problems + i];
          if (!told[k] && n > most)
            {
              best = k;
              most = n;
            }
        }
      if (!most)
        return;
      told[best] = 1;
      br_text problems = BR_TEXT_ZERO;
      br_record *row = br__list_record (rows);
      br__put_text (row, "mistake", br__verdict_name (best));
      br__put_count (row, "count", most);
      for (size_t i = 0; i < c->problems; i++)
        if (c->counts[best * c->problems + i])
          br__text_printf (&problems, "%s%zu", problems.length ? ", " : "", i + 1);
      br__put_from (row, "in_problems", &problems);
    }
}

static br_status
put_figures (br_record *r, const br__class *c)
{
  const br_number *mean = br_real_rational (&c->mean), *spread = br_real_rational (&c->spread);
  static const char *const keys[] = { "mean", "spread", "lowest", "highest" };
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;
  for (size_t i = 0; i < 4 && !c->papers; i++)
    br__put_null (r, keys[i]);
  if (!c->papers)
    return BR_OK;
  br__put_marks (&t, mean);
  br__put_from (r, keys[0], &t);
  if (spread)
    br__put_marks (&t, spread);
  else
    status = br__put_real_decimal (&t, NULL, &c->spread, 4, BR_REAL_BITS);
  br__put_from (r, keys[1], &t);
  br__put_marks (&t, &c->lowest);
  br__put_from (r, keys[2], &t);
  br__put_marks (&t, &c->highest);
  br__put_from (r, keys[3], &t);
  return status;
}

br_status
br__grade_summary (br__run *run, const br__class *c, const char *path)
{
  br_record *r = br__record_new ("grade_summary");
  br__put_text (r, "file", path);
  br__put_count (r, "papers", (int64_t) c->papers);
  br_status status = put_figures (r, c);
  put_problems (r, c);
  put_mistakes (r, c);
  return br__emit_or_fail (run, r, status, 0, 0);
}
