/* SPDX-License-Identifier: LGPL-3.0-or-later
   slip.c - slips for pupils, four to a page, to cut.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "file/file.h"
#include "file/markup.h"
#include "lesson/answer.h"
#include "lesson/slip.h"
#include "lesson/write.h"
#include "shop/paper.h"

/* What a quarter of a page holds.  */
#define MOST_WRONG_ROWS 7
/* Beside them: the name, the marks, the note, how many more are wrong, and how one of them begins.  */
#define MOST_ROWS (MOST_WRONG_ROWS + 5)

typedef struct slip
{
  br_text rows[MOST_ROWS];
  int bold[MOST_ROWS];
  size_t count;
} slip;

static br_text *
next_row (slip *s, int bold)
{
  s->bold[s->count] = bold;
  br__text_reset (&s->rows[s->count]);
  return &s->rows[s->count++];
}

/* 1 where T names a function, as in "circumference(3)".  */
static int
has_call (const br_text *t)
{
  for (size_t at = 1; at < t->length; at++)
    if (t->bytes[at] == '(' && br__is_letter (t->bytes[at - 1]))
      return 1;
  return 0;
}

/* The first step of KEY's right way that names no function, or the first.  Steps are parted by "; ".  */
static void
put_first_step (br_text *t, const br__key *key)
{
  br_text step = BR_TEXT_ZERO, words = BR_TEXT_ZERO, first = BR_TEXT_ZERO;
  const char *at = key->steps, *end;
  do
    {
      end = strstr (at, "; ");
      br__text_reset (&step);
      br__text_reset (&words);
      br__text_put (&step, at, end ? (size_t) (end - at) : strlen (at));
      br__put_step_in_words (&words, br__text_string (&step));
      if (at == key->steps)
        br__text_puts (&first, br__text_string (&words));
      at = end ? end + 2 : NULL;
    }
  while (at && has_call (&words));
  br__text_puts (t, br__text_string (has_call (&words) ? &first : &words));
  t->failed |= step.failed || words.failed || first.failed;
  br__text_clear (&step);
  br__text_clear (&words);
  br__text_clear (&first);
}

static void
put_wrong (slip *s, const br__class *c, const br__marked *paper, size_t i)
{
  const br__key *key = br__marked_key (c, paper, i);
  const char *written = br__marked_answer (c, paper, i);
  const br__mark_cell *cell = &paper->cells[i];
  br_text *t = next_row (s, 0);
  br__text_printf (t, "%zu. %s", i + 1, cell->verdict == BR__UNREADABLE ? br__verdict_name (cell->verdict) : br__text_string (&cell->text));
  if (cell->verdict != BR__NO_ANSWER && *written)
    br__text_printf (t, ": you wrote %.*s", BR__CLIP (written, 30));
  if (key)
    br__text_printf (t, "%s right is %s", cell->verdict == BR__NO_ANSWER || !*written ? ":" : ",", key->answer);
  if (cell->verdict >= BR__JUDGEMENTS && cell->verdict < BR__VERDICTS)
    br__text_printf (t, " (%s)", br__mistake_shows ((br__mistake) (cell->verdict - BR__JUDGEMENTS)));
}

/* What PAPER's slip says.  */
static void
fill (slip *s, const br__class *c, const br__marked *paper)
{
  size_t wrong = 0, first = SIZE_MAX;
  s->count = 0;
  br_text *t = next_row (s, 1);
  br__text_printf (t, "%s", *paper->student ? paper->student : "no name");
  t = next_row (s, 0);
  if (paper->version)
    {
      br__text_printf (t, "Version %zu: ", paper->version);
      br__put_marks (t, &paper->marks);
      br__text_puts (t, " of ");
      br__put_marks (t, &paper->of);
    }
  else
    br__text_puts (t, "Not marked yet.");
  if (paper->note.length)
    br__text_puts (next_row (s, 0), br__text_string (&paper->note));
  for (size_t i = 0; i < c->problems; i++)
    if (paper->cells[i].verdict != BR__RIGHT && paper->cells[i].verdict != BR__NOT_ASKED)
      {
        const br__key *key = br__marked_key (c, paper, i);
        /* A step helps where the size is not right; a form has none.  */
        if (key && *key->steps && (first == SIZE_MAX || (paper->cells[first].verdict <= BR__ROUNDED && paper->cells[i].verdict > BR__ROUNDED)))
          first = i;
        if (++wrong <= MOST_WRONG_ROWS)
          put_wrong (s, c, paper, i);
      }
  if (wrong > MOST_WRONG_ROWS)
    br__text_printf (next_row (s, 0), "and %zu more", wrong - MOST_WRONG_ROWS);
  if (!wrong)
    br__text_puts (next_row (s, 0), "All right.");
  if (first != SIZE_MAX)
    {
      t = next_row (s, 0);
      br__text_printf (t, "Problem %zu begins: ", first + 1);
      put_first_step (t, br__marked_key (c, paper, first));
    }
}

static br_status
slip_clear (slip *s)
{
  int failed = 0;
  for (size_t i = 0; i < MOST_ROWS; i++)
    {
      failed |= s->rows[i].failed;
      br__text_clear (&s->rows[i]);
    }
  return failed ? BR_NO_MEMORY : BR_OK;
}

br_status
br__slips_html (br_text *out, const br__class *c)
{
  slip s;
  memset (&s, 0, sizeof s);
  br__html_head (out, "en", "Slips",
                 "body{margin:1em}section{border:1px dashed #000;padding:1em;box-sizing:border-box;overflow-wrap:anywhere}\n"
                 "h2{font-size:1.1em;margin:0 0 .3em}p{margin:0 0 .4em}\n"
                 "@page{margin:.4in}\n@media print{body{margin:0;font-size:10pt}main{display:grid;grid-template-columns:1fr 1fr}\n"
                 "section{height:4.9in;break-inside:avoid;overflow:hidden}}\n");
  br__text_puts (out, "<main>\n");
  for (size_t i = 0; i < c->marked_count; i++)
    {
      if (!c->marked[i].row)
        continue;
      fill (&s, c, &c->marked[i]);
      br__text_puts (out, "<section>");
      for (size_t k = 0; k < s.count; k++)
        {
          br__text_puts (out, s.bold[k] ? "<h2>" : "<p>");
          br__put_fractions (out, br__text_string (&s.rows[k]));
          br__text_puts (out, s.bold[k] ? "</h2>\n" : "</p>\n");
        }
      br__text_puts (out, "</section>\n");
    }
  br__text_puts (out, "</main></body></html>\n");
  br_status status = slip_clear (&s);
  return out->failed ? BR_NO_MEMORY : status;
}

/* ---- On paper ---- */

#define POINT (BR_PAGE_INCH / 72)
#define EDGE (BR_PAGE_INCH / 2)       /* from the cut to the words */

static void
put_cuts (const br_painter *painter, br_page *page, int32_t width, int32_t height)
{
  painter->line (page, width / 2, EDGE / 2, width / 2, height - EDGE / 2, POINT / 2, 1);
  painter->line (page, EDGE / 2, height / 2, width - EDGE / 2, height / 2, POINT / 2, 1);
}

static void
put_slip (const br_painter *painter, br_page *page, const slip *s, int32_t x, int32_t y, int32_t width)
{
  for (size_t k = 0; k < s->count; k++)
    {
      br_page_text t = { br__text_string (&s->rows[k]), x, y, width, (s->bold[k] ? 14 : 11) * POINT, s->bold[k], BR_ALIGN_LEFT, 0, 0 };
      y += painter->text (page, NULL, &t, 1) + 4 * POINT;
    }
}

static br_status
put_pages (const br_painter *painter, br_page *page, const br__class *c, int32_t width, int32_t height)
{
  slip s;
  size_t n = 0;
  memset (&s, 0, sizeof s);
  for (size_t i = 0; i < c->marked_count; i++)
    {
      if (!c->marked[i].row)
        continue;
      if (n && n % 4 == 0)
        painter->next (page);
      if (n % 4 == 0)
        put_cuts (painter, page, width, height);
      fill (&s, c, &c->marked[i]);
      put_slip (painter, page, &s, (n % 2 ? width / 2 : 0) + EDGE, (n % 4 > 1 ? height / 2 : 0) + EDGE, width / 2 - 2 * EDGE);
      n++;
    }
  return slip_clear (&s);
}

br_status
br__slips_pdf (const char *path, const br__class *c, br__run *run)
{
  const br__paper *paper = run->sheet->settings.paper ? run->sheet->settings.paper : br__paper_find ("letter", 6);
  int32_t width = (int32_t) (paper->width_num * BR_PAGE_INCH / paper->width_den);
  int32_t height = (int32_t) (paper->height_num * BR_PAGE_INCH / paper->height_den);
  const br_painter *painter = NULL;
  br_page *page = NULL;
  br_status status = br__page_start (&painter, &page, run, width, height, "Slips");
  if (status == BR_OK && (status = put_pages (painter, page, c, width, height)) != BR_OK)
    {
      painter->drop (page);
      return br__fail_plain (run->error, status, 0, 0);
    }
  return status == BR_OK ? br__page_end (path, painter, page, run) : status;
}
