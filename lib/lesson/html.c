/* SPDX-License-Identifier: LGPL-3.0-or-later
   html.c - worksheets and keys as one HTML page with nothing outside it: fractions raised and
   lowered, rulers as pictures at true size, a page for each paper when printed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "file/markup.h"
#include "lesson/figure.h"
#include "lesson/write.h"

typedef struct html_writer
{
  br_text *out;
  int key;
  unsigned told;                /* words of the trade that this paper has explained */
  br_text words;                /* those, to stand at its foot */
} html_writer;

/* 960 to the inch; a centimetre is 378 of these.  */
static void
put_ruler (br_text *t, const br__problem *p, const br__sentences *words)
{
  const int units = p->metric ? 15 : 6, unit = p->metric ? 378 : 960, ends = 240;
  br__ratio at = br__ratio_mul (p->given[0], br__ratio_of (unit, 1));
  br__text_printf (t, "<svg width=\"%d.%03d%s\" height=\"0.9in\" viewBox=\"-120 0 %d 864\" role=\"img\" aria-label=\"",
                   units + ends / unit, ends % unit * 1000 / unit, p->metric ? "cm" : "in", units * unit + ends);
  br__put_picture (t, p, words);
  br__text_printf (t, "\"><path fill=\"none\" stroke=\"#000\" stroke-width=\"12\" d=\"M0 280H%d", units * unit);
  for (int64_t i = 0; i <= units * p->level; i++)
    {
      int64_t den = p->level / (br__ratio_of (i, p->level).den);
      int height = 120;
      if (p->metric)
        height += 90 * ((p->level < 20 || i % 2 == 0) + (i * 2 % p->level == 0) + (i % p->level == 0));
      else
        for (; den > 1; den /= 2)
          height += 60;
      br__text_printf (t, "M%lld 280V%d", (long long) (i * unit / p->level), 280 + height);
    }
  br__text_printf (t, "\"/><path d=\"M%lld 270l-50 -140h100z\"/>", (long long) (at.num / at.den));
  for (int i = 0; i <= units; i++)
    br__text_printf (t, "<text x=\"%d\" y=\"820\" font-size=\"150\" text-anchor=\"middle\">%d</text>", i * unit, i);
  br__text_puts (t, "</svg>\n");
}

static void
put_head (br_text *t, const br__worksheet *w)
{
  static const char style[] =
    "body{max-width:7in;margin:0.5in auto;padding:0 .6em;overflow-wrap:anywhere}\n"
    "@media screen{svg{max-width:100%}}@page{@bottom-right{content:\"page \" counter(page) \" of \" counter(pages)}}\n"
    ".true{border:solid #000;border-width:0 1px 2px;width:2in;height:.1in;display:inline-block;margin-right:.2in}\n"
    "section{page-break-after:always}\nli{page-break-inside:avoid;margin-bottom:1em}\n"
    ".two{display:grid;grid-template-columns:1fr 1fr;gap:1em}.words{font-size:.85em}\n.answer{margin-bottom:1.5em}\n";
  static const char large[] = "body{font-size:18pt}sup,sub{font-size:1em}\n";
  br_text own = BR_TEXT_ZERO;
  br__text_printf (&own, "%s%s", style, w->large ? large : "");
  br__html_head (t, w->title ? w->title : "Worksheet", br__text_string (&own));
  br__text_putc (t, '\n');
  t->failed |= own.failed;
  br__text_clear (&own);
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

/* What papers say, in the teacher's words.  */
static void
put_said (br_text *t, const br__worksheet *w, const char *english)
{
  br_text said = BR_TEXT_ZERO;
  br__sentences_put (&said, w->words, english);
  br__put_escaped (t, br__text_string (&said));
  t->failed |= said.failed;
  br__text_clear (&said);
}

static void
put_paragraph (br_text *t, const br__worksheet *w, void (*put) (br_text *t, const br__worksheet *w))
{
  br_text words = BR_TEXT_ZERO;
  put (&words, w);
  br__text_puts (t, words.length ? "<p>" : "");
  br__put_escaped (t, br__text_string (&words));
  br__text_puts (t, words.length ? "</p>\n" : "");
  t->failed |= words.failed;
  br__text_clear (&words);
}

static void
put_heading (html_writer *x, const br__worksheet *w, size_t paper, size_t version)
{
  br_text *t = x->out, label = BR_TEXT_ZERO;
  const char *name = br__paper_name (w, paper), *text;
  br__text_printf (t, "%s<section><h1>%s", paper ? "</section>\n" : "", x->key ? "Key: " : "");
  br__put_fractions (t, w->title ? w->title : br__sentences_find (x->key ? NULL : w->words, "Worksheet"));
  br__text_puts (t, "</h1>\n<p>");
  put_said (t, w, "Version");
  br__text_printf (t, " %zu, ", version + 1);
  put_said (t, w, "seed");
  br__text_printf (t, " %lld", (long long) w->seed);
  if (!x->key)
    {
      for (size_t i = 0; i < BR__FIELDS; i++)
        {
          br__text_reset (&label);
          if (!br__put_field_label (&label, &text, w, i))
            continue;
          br__text_puts (t, " &nbsp; ");
          br__put_escaped (t, br__text_string (&label));
          br__text_putc (t, ' ');
          br__put_escaped (t, *text ? text : "__________________");
        }
      br__text_puts (t, " &nbsp; ");
      put_said (t, w, "Name:");
      br__text_putc (t, ' ');
      br__put_escaped (t, *name ? name : "______________________________");
      br__text_puts (t, "</p>\n");
      put_paragraph (t, w, br__put_instruction);
      put_paragraph (t, w, br__put_caution);
      br__text_puts (t, "<p>");
      if (has_picture (w))
        {
          br__text_puts (t, "<span class=\"true\"></span>");
          put_said (t, w, "This line is 2 in long. If it is not, print at 100 %.");
        }
    }
  br__text_puts (t, "</p>\n<ol>\n");
  t->failed |= label.failed;
  br__text_clear (&label);
}

static br_status
html_task (void *user, const br__worksheet *w, br__task *task, size_t paper, size_t version, size_t index)
{
  html_writer *x = user;
  br_text *t = x->out;
  const char *word;
  if (index == 0)
    {
      put_heading (x, w, paper, version);
      x->told = 0;
      br__text_reset (&x->words);
    }
  br__text_puts (t, task->other.length ? "<li><div class=\"two\"><div>" : "<li>");
  br__put_fractions (t, br__text_string (&task->text));
  if (task->other.length)
    {
      br__text_puts (t, "</div><div>");
      br__put_fractions (t, br__text_string (&task->other));
      br__text_puts (t, "</div></div>");
    }
  br__text_putc (t, '\n');
  if (x->key)
    put_key (t, task);
  else
    {
      if (task->problem && task->problem->topic->picture)
        put_ruler (t, task->problem, w->words);
      else if (task->problem && br__has_figure (task->problem))
        br__figure_svg (t, task->problem, w->words, (w->large ? 15 : 10) * BR_PAGE_INCH / 72);
      br__text_printf (t, "<div style=\"height:%d.%02din\"></div><div class=\"answer\">", task->room / 4, task->room % 4 * 25);
      put_said (t, w, "Answer:");
      br__text_puts (t, " ____________________</div>");
      while ((word = br__next_word (w, task, &x->told)) != NULL)
        {
          br__text_puts (&x->words, x->words.length ? "<br>\n" : "");
          br__put_escaped (&x->words, word);
        }
    }
  br__text_puts (t, "</li>\n");
  if (index + 1 == w->problem_count)
    br__text_printf (t, x->words.length ? "</ol>\n<p class=\"words\">%s</p>\n" : "</ol>%s\n", br__text_string (&x->words));
  t->failed |= x->words.failed;
  return BR_OK;
}

br_status
br__worksheet_html (br_text *out, const br__worksheet *w, br__run *run, int key)
{
  html_writer x = { .out = out, .key = key };
  put_head (out, w);
  br_status status = br__each_task (run, w, key, key ? "writing the key" : "writing papers", html_task, &x);
  br__text_puts (out, "</section></body></html>\n");
  br__text_clear (&x.words);
  return status;
}
