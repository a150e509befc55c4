/* SPDX-License-Identifier: LGPL-3.0-or-later
   html.c - worksheets and keys as one HTML page with nothing outside it: fractions raised and
   lowered, rulers as pictures at true size, a page for each paper when printed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/write.h"
#include "file/markup.h"

typedef struct html_writer
{
  br_text *out;
  int key;
} html_writer;

static void
put_ruler (br_text *t, const br__problem *p)
{
  const int inches = 6;
  br__ratio at = br__ratio_mul (p->given[0], br__ratio_of (960, 1));
  br__text_printf (t, "<svg width=\"%d.25in\" height=\"0.9in\" viewBox=\"-120 0 %d 864\" role=\"img\" "
                   "aria-label=\"", inches, inches * 960 + 240);
  br__put_picture (t, p);
  br__text_printf (t, "\"><path fill=\"none\" stroke=\"#000\" stroke-width=\"12\" d=\"M0 280H%d",
                   inches * 960);
  for (int64_t i = 0; i <= inches * p->level; i++)
    {
      int64_t den = p->level / (br__ratio_of (i, p->level).den);
      int height = 120;
      for (; den > 1; den /= 2)
        height += 60;
      br__text_printf (t, "M%lld 280V%d", (long long) (i * 960 / p->level), 280 + height);
    }
  br__text_printf (t, "\"/><path d=\"M%lld 270l-50 -140h100z\"/>", (long long) (at.num / at.den));
  for (int i = 0; i <= inches; i++)
    br__text_printf (t, "<text x=\"%d\" y=\"820\" font-size=\"150\" text-anchor=\"middle\">%d</text>", i * 960, i);
  br__text_puts (t, "</svg>\n");
}

static void
put_head (br_text *t, const br__worksheet *w)
{
  br__text_puts (t, "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
                 "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>");
  br__put_escaped (t, w->title ? w->title : "Worksheet");
  br__text_printf (t, "</title><style>\nbody{font:%s sans-serif;color:#000;background:#fff;max-width:7in;margin:0.5in auto;padding:0 .6em;overflow-wrap:anywhere}\n"
                   "@media screen{svg{max-width:100%%}}@page{@bottom-right{content:\"page \" counter(page) \" of \" counter(pages)}}\n"
                   ".true{border:solid #000;border-width:0 1px 2px;width:2in;height:.1in;display:inline-block;margin-right:.2in}\n"
                   "section{page-break-after:always}\nli{page-break-inside:avoid;margin-bottom:1em}\n"
                   ".f{white-space:nowrap}sup,sub{font-size:.7em;line-height:0}\n.answer{margin-bottom:1.5em}\n"
                   "table{border-collapse:collapse}td,th{border:1px solid #000;padding:.1em .5em;text-align:left}\n"
                   "</style></head><body>\n", w->large ? "18pt" : "12pt");
}

static void
put_key (br_text *t, const br__task *task)
{
  br__text_puts (t, "<p><b>Answer: ");
  br__put_fractions (t, br__text_string (&task->answer));
  br__text_puts (t, "</b></p>\n<p>");
  for (size_t i = 0; i < task->steps.count; i++)
    {
      br_text step = BR_TEXT_ZERO;
      br__put_step (&step, br__text_string (&task->steps.rows[i]));
      br__put_fractions (t, br__text_string (&step));
      br__text_puts (t, "<br>\n");
      t->failed |= step.failed;
      br__text_clear (&step);
    }
  br__text_puts (t, "</p><table><tr><th>Usual wrong answer</th><th>Mistake</th><th>What it shows</th></tr>\n");
  for (unsigned i = 0; i < task->wrong_count && i < BR__WRONG_IN_KEY; i++)
    {
      br__text_puts (t, "<tr><td>");
      br__put_fractions (t, br__text_string (&task->wrong[i]));
      br__text_printf (t, "</td><td>%s</td><td>%s</td></tr>\n", br__mistake_name (task->mistake[i]),
                       br__mistake_shows (task->mistake[i]));
    }
  br__text_puts (t, "</table>\n");
}

static int
has_picture (const br__worksheet *w)
{
  for (size_t i = 0; i < w->row_count; i++)
    if (w->rows[i].topic && w->rows[i].topic->picture)
      return 1;
  return 0;
}

static br_status
html_task (void *user, const br__worksheet *w, const br__task *task, size_t paper, size_t version, size_t index)
{
  html_writer *x = user;
  br_text *t = x->out;
  if (index == 0)
    {
      const char *name = br__paper_name (w, paper);
      br__text_printf (t, "%s<section><h1>%s", paper ? "</ol></section>\n" : "", x->key ? "Key: " : "");
      br__put_fractions (t, w->title ? w->title : "Worksheet");
      br__text_printf (t, "</h1>\n<p>Version %zu, seed %lld", version + 1, (long long) w->seed);
      if (!x->key)
        {
          br__text_puts (t, " &nbsp; Name: ");
          br__put_escaped (t, *name ? name : "______________________________");
          br__text_puts (t, "</p>\n<p>");
          br__put_instruction (t);
          br__text_puts (t, "</p>\n<p>");
          br__put_caution (t, w);
          if (has_picture (w))
            br__text_puts (t, "</p>\n<p><span class=\"true\"></span>This line is 2 in long. If it is not, print at 100 %.");
        }
      br__text_puts (t, "</p>\n<ol>\n");
    }
  br__text_puts (t, "<li>");
  br__put_fractions (t, br__text_string (&task->text));
  br__text_putc (t, '\n');
  if (x->key)
    put_key (t, task);
  else
    {
      if (task->problem && task->problem->topic->picture)
        put_ruler (t, task->problem);
      br__text_printf (t, "<div style=\"height:%d.%02din\"></div><div class=\"answer\">Answer: ____________________</div>",
                       task->room / 4, task->room % 4 * 25);
    }
  br__text_puts (t, "</li>\n");
  return BR_OK;
}

br_status
br__worksheet_html (br_text *out, const br__worksheet *w, br__run *run, int key)
{
  html_writer x = { out, key };
  put_head (out, w);
  br_status status = br__each_task (run, w, key, key ? "writing the key" : "writing papers", html_task, &x);
  br__text_puts (out, "</ol></section></body></html>\n");
  return status;
}
