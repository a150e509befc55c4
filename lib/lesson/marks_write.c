/* SPDX-License-Identifier: LGPL-3.0-or-later
   marks_write.c - marks as a table for a spreadsheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/access.h"
#include "lesson/slip.h"
#include "lesson/worksheet.h"

void
br__put_marks (br_text *t, const br_number *x)
{
  br_text whole = BR_TEXT_ZERO;
  if (br__put_decimal (&whole, x, 12))
    br__text_puts (t, br__text_string (&whole));
  else
    br__put_decimal (t, x, 4);
  t->failed |= whole.failed;
  br__text_clear (&whole);
}

static void
put_next (br_text *t, const char *cell)
{
  br__text_putc (t, ',');
  br__put_cell (t, cell);
}

static void
put_paper (br_text *t, const br__class *c, const br__marked *paper)
{
  br__put_cell (t, paper->student);
  put_next (t, paper->row ? br__row_cell (paper->row, c->version) : "");
  for (size_t i = 0; i < c->problems; i++)
    {
      const br__key *key = br__marked_key (c, paper, i);
      put_next (t, paper->cells ? br__text_string (&paper->cells[i].text) : "");
      put_next (t, br__marked_answer (c, paper, i));
      put_next (t, key ? key->answer : "");
    }
  br__text_putc (t, ',');
  if (paper->row)
    br__put_marks (t, &paper->marks);
  br__text_putc (t, ',');
  if (paper->row)
    br__put_marks (t, &paper->of);
  put_next (t, br__text_string (&paper->note));
  br__text_putc (t, '\n');
}

/* A row below the papers with WHAT in the first cell and MARKS in their column.  */
static br_status
put_figure (br_text *t, const br__class *c, const char *what, const br_real *marks)
{
  br__put_cell (t, what);
  for (size_t i = 0; i < 3 * c->problems + 2; i++)
    br__text_putc (t, ',');
  br_status status = br_real_rational (marks) ? BR_OK : br__put_real_decimal (t, NULL, marks, 4, BR_REAL_BITS);
  if (br_real_rational (marks))
    br__put_marks (t, br_real_rational (marks));
  br__text_puts (t, ",,\n");
  return status;
}

/* The row that says which topic each problem is of; a summary over many papers needs it.  */
static void
put_topics (br_text *t, const br__class *c)
{
  br__text_puts (t, "topic,");
  for (size_t i = 0; i < c->problems; i++)
    {
      put_next (t, c->keys[i].topic ? c->keys[i].topic : "");
      br__text_puts (t, ",,");
    }
  br__text_puts (t, ",,,\n");
}

static br_status
put_table (br_text *t, const br__class *c)
{
  br_status status = BR_OK;
  br__text_puts (t, "student,version");
  for (size_t i = 1; i <= c->problems; i++)
    br__text_printf (t, ",%zu,answer %zu,right %zu", i, i, i);
  br__text_puts (t, ",marks,of,note\n");
  for (size_t i = 0; i < c->marked_count; i++)
    put_paper (t, c, &c->marked[i]);
  if (c->papers)
    status = put_figure (t, c, "class average", &c->mean);
  if (c->papers && status == BR_OK)
    status = put_figure (t, c, "spread (standard deviation)", &c->spread);
  put_topics (t, c);
  return t->failed ? BR_NO_MEMORY : status;
}

br_status
br__marks_write (const char *path, const br__class *c, br__run *run)
{
  br_text t = BR_TEXT_ZERO;
  br_status status;
  if (br__ends_with (path, ".pdf"))
    return br__slips_pdf (path, c, run);
  if (br__ends_with (path, ".html"))
    status = br__slips_html (&t, c);
  else if (br__ends_with (path, ".csv"))
    status = put_table (&t, c);
  else
    return br__wrong_ending (run, path, ".csv, .html or .pdf", ".html");
  if (status == BR_OK)
    status = br__file_put (run, path, br__content_named (path), br__text_string (&t), t.length);
  else
    br__fail_plain (run->error, status, 0, 0);
  br__text_clear (&t);
  return status;
}
