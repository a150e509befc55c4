/* SPDX-License-Identifier: LGPL-3.0-or-later
   html.c - worksheets and keys as one HTML page with nothing outside it: fractions raised and
   lowered, rulers as pictures at true size, a page for each paper when printed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "file/markup.h"
#include "lesson/figure.h"
#include "lesson/write.h"
#include "shop/paper.h"

typedef struct html_writer
{
  br_text *out;
  int key;
  unsigned told;                /* words of the trade that this paper has explained */
  br_text words;                /* those, to stand at its foot */
} html_writer;

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

/* 960 to the inch; a centimetre is 378 of these.  In large print the ruler is drawn twice its size, which it says.  */
static void
put_ruler (br_text *t, const br__problem *p, const br__worksheet *w)
{
  const int times = w->large ? 2 : 1, units = (p->metric ? 15 : 6) / times, unit = (p->metric ? 378 : 960) * times, ends = 240;
  const int numeral = times > 1 ? 240 : 150, low = 670 + numeral;
  int whole = (int) br__ratio_floor (p->given[0]), first = times == 1 || whole == 0 ? 0 : whole - 1;
  br__ratio at = br__ratio_mul (br__ratio_sub (p->given[0], br__ratio_of (first, 1)), br__ratio_of (unit, 1));
  br_text said = BR_TEXT_ZERO;
  br__put_picture (&said, p, w->words);
  br__text_printf (t, "<svg width=\"%d.%03din\" height=\"%d.%03din\" viewBox=\"-120 0 %d %d\" role=\"img\" aria-label=\"",
                   (units * unit + ends) / 960, (units * unit + ends) % 960 * 1000 / 960, (low + 44) / 960, (low + 44) % 960 * 1000 / 960,
                   units * unit + ends, low + 44);
  br__put_escaped (t, br__text_string (&said));
  br__text_printf (t, "\"><path fill=\"none\" stroke=\"#000\" stroke-width=\"%d\" d=\"M0 280H%d", times > 1 ? 16 : 12, units * unit);
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
    br__text_printf (t, "<text x=\"%d\" y=\"%d\" font-size=\"%d\" text-anchor=\"middle\">%d</text>", i * unit, low, numeral, first + i);
  br__text_puts (t, "</svg>\n");
  if (times > 1)
    {
      br__text_puts (t, "<div>");
      put_said (t, w, first ? "It is drawn twice its size. 0 is further left." : "This ruler is drawn twice its size.");
      br__text_puts (t, "</div>\n");
    }
  t->failed |= said.failed;
  br__text_clear (&said);
}

/* TEXT as a string of a style sheet: what is no letter, digit or blank is put by its number (CSS 2.1, 4.3.7).  */
static void
put_css_string (br_text *t, const char *text, size_t length)
{
  br__text_putc (t, '"');
  for (size_t i = 0; i < length; i++)
    if (text[i] == ' ' || (text[i] & 0x80) || (text[i] >= '0' && text[i] <= '9') || ((text[i] | 32) >= 'a' && (text[i] | 32) <= 'z'))
      br__text_putc (t, text[i]);
    else
      br__text_printf (t, "\\%02x ", (unsigned) text[i]);
  br__text_putc (t, '"');
}

/* The foot of each printed sheet: whose paper it is, and which page of it.  How many a paper has is known where it is alone: a
   browser counts those of the whole file.  */
static void
put_feet (br_text *t, const br__worksheet *w, int key)
{
  const char *form = key ? "page %d of %d" : br__sentences_find (w->words, "page %d of %d");
  const char *first = strstr (form, "%d"), *second = first ? strstr (first + 2, "%d") : NULL;
  size_t count = key ? (size_t) w->versions : br__papers_of (w);
  br_text who = BR_TEXT_ZERO, plain = BR_TEXT_ZERO;
  for (size_t i = 0; i < count && second; i++)
    {
      const char *name = key ? "Key" : br__paper_name (w, i);
      br__text_reset (&who), br__text_reset (&plain);
      br__put_plain (&plain, name, strlen (name));
      br__text_printf (&who, "%s%s", br__text_string (&plain), *name ? ", " : "");
      br__sentences_put (&who, key ? NULL : w->words, "version");
      br__text_printf (&who, " %zu", (key ? i : br__paper_version (w, i)) + 1);
      br__text_printf (t, "@page p%zu{counter-increment:p%zu;@bottom-left{content:", i + 1, i + 1);
      put_css_string (t, br__text_string (&who), who.length);
      br__text_puts (t, "}@bottom-right{content:");
      put_css_string (t, form, (size_t) (first - form));
      br__text_printf (t, " counter(p%zu)", i + 1);
      if (count == 1)
        {
          put_css_string (t, first + 2, (size_t) (second - first - 2));
          br__text_puts (t, " counter(pages)");
          put_css_string (t, second + 2, strlen (second + 2));
        }
      br__text_puts (t, "}}\n");
    }
  t->failed |= who.failed | plain.failed;
  br__text_clear (&who);
  br__text_clear (&plain);
}

/* A size in inches, to three places.  */
#define INCHES(size) (long long) (size##_num / size##_den), (long long) (size##_num % size##_den * 1000 / size##_den)

static void
put_head (br_text *t, const br__worksheet *w, int key)
{
  static const char style[] =
    "body{max-width:7in;margin:0.5in auto;padding:0 .6em;overflow-wrap:anywhere}\n"
    "td,th{overflow-wrap:break-word}li svg{display:block}@media screen{svg{max-width:100%}}\n"
    ".true{border:solid #000;border-width:0 1px 2px;width:2in;height:.1in;display:inline-block;margin-right:.2in}\n"
    "section+section{break-before:page}\nli{page-break-inside:avoid;margin-bottom:1.5em;padding:.3em 0 3px}li .blank{margin-bottom:0}\n"
    ".two{display:grid;grid-template-columns:1fr 1fr;gap:1em}.words{font-size:.85em}\n"
    ".blank{display:flex;gap:.5em;margin-bottom:1.5em}.blank i{flex:1;max-width:15em;border-bottom:1px solid}\n"
    "p .blank{display:inline-flex;margin:0}p i{width:10em}\n"
    "@media screen and (max-width:32em){ol{padding-left:1.7em}}\n"
    /* Where there is room, a figure stands beside the room to work in, as in PDF.  */
    "@media print,(min-width:32.01em){li svg:not([width$=in]){float:right;margin-left:1em}li .blank{clear:both}}\n"
    "@media print{body{margin:0 auto}h1{margin:0 0 .3em}}\n";
  /* A ruler that is shown smaller keeps its numerals.  */
  static const char usual[] = "@media screen and (max-width:32em){svg[width$=in] text{font-size:220px}}\n";
  static const char large[] = "body{font-size:18pt;line-height:1.7}sup,sub{font-size:1em}@media print{body{line-height:1.5}}\n";
  br_text own = BR_TEXT_ZERO;
  br__text_printf (&own, "%s%s%s", style, key ? "" : w->large ? large : usual, w->duplex && !key ? "section+section{break-before:right}\n" : "");
  if (w->paper)
    br__text_printf (&own, "@page{size:%lld.%03lldin %lld.%03lldin}\n", INCHES (w->paper->width), INCHES (w->paper->height));
  put_feet (&own, w, key);
  const br__sentences *words = key ? NULL : w->words;
  br__html_head (t, br__sentences_language (words), w->title ? w->title : br__sentences_find (words, "Worksheet"), br__text_string (&own));
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
      br__text_printf (t, "</td><td>%s</td><td>", br__mistake_name (task->mistake[i]));
      br__put_fractions (t, br__mistake_shows (task->mistake[i]));
      br__text_puts (t, "</td></tr>\n");
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

/* LABEL and TEXT in ELEMENT, or where that is empty a line to write on, which is as long as there is room.  */
static void
put_blank (br_text *t, const char *label, const char *text, const char *element)
{
  br__text_printf (t, "<%s class=\"blank\">", element);
  br__put_escaped (t, label);
  br__text_putc (t, ' ');
  br__put_escaped (t, text);
  br__text_printf (t, *text ? "</%s>" : "<i></i></%s>", element);
}

static void
put_said_blank (br_text *t, const br__worksheet *w, const char *english, const char *text)
{
  br_text said = BR_TEXT_ZERO;
  br__sentences_put (&said, w->words, english);
  put_blank (t, br__text_string (&said), text, "div");
  t->failed |= said.failed;
  br__text_clear (&said);
}

static void
put_heading (html_writer *x, const br__worksheet *w, size_t paper, size_t version)
{
  br_text *t = x->out, label = BR_TEXT_ZERO;
  const char *name = br__paper_name (w, paper), *text;
  br__text_printf (t, "%s<section style=\"page:p%zu\"><h1>%s", paper ? "</section>\n" : "", (x->key ? version : paper) + 1, x->key ? "Key: " : "");
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
          put_blank (t, br__text_string (&label), text, "span");
        }
      br__text_puts (t, "</p>\n");
      put_said_blank (t, w, "Name:", name);
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
        put_ruler (t, task->problem, w);
      else if (task->problem && br__has_figure (task->problem))
        br__figure_svg (t, task->problem, w->words, (w->large ? 18 : 10) * BR_PAGE_INCH / 72);
      br__text_printf (t, "<div style=\"height:%d.%02din\"></div>", task->room / 4, task->room % 4 * 25);
      put_said_blank (t, w, "Answer:", "");
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
  put_head (out, w, key);
  br_status status = br__each_task (run, w, key, key ? "writing the key" : "writing papers", html_task, &x);
  br__text_puts (out, "</section></body></html>\n");
  br__text_clear (&x.words);
  return status;
}
