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

br_status
br__grade_summary (br__run *run, const br__class *c, const char *path)
{
  br_record *r = br__record_new ("grade_summary");
  br_number mean = BR_NUMBER_ZERO, n = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = br_number_set_int (&n, (int64_t) c->papers);
  br__put_text (r, "file", path);
  br__put_count (r, "papers", (int64_t) c->papers);
  if (status == BR_OK && c->papers)
    {
      status = br_number_div (&mean, &c->all, &n);
      br__put_decimal (&t, &mean, 4);
      br__put_from (r, "mean", &t);
    }
  else
    br__put_null (r, "mean");
  put_problems (r, c);
  put_mistakes (r, c);
  br_number_clear (&mean);
  br_number_clear (&n);
  if (status == BR_OK)
    return br__emit (run, r);
  br__record_free (r);
  return br__fail_plain (run->error, status, 0, 0);
}
