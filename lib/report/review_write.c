/* SPDX-License-Identifier: LGPL-3.0-or-later
   review_write.c - writes a review as a table and as a page for each student.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/access.h"
#include "file/markup.h"
#include "table/rows.h"
#include "lesson/worksheet.h"
#include "report/report.h"
#include "report/review.h"

/* A student's page has so many lines in all its lists, and so many in one.  */
#define MOST_ON_PAGE 24
#define MOST_LINES 6

/* ---- A table ---- */

static void
put_list (br_text *out, const br__design *d, br__finding f)
{
  br_text t = BR_TEXT_ZERO;
  for (size_t i = 0; i < d->count[f]; i++)
    br__text_printf (&t, "%s%s", i ? "; " : "", br__text_string (&d->found[f][i]));
  br__text_putc (out, ',');
  br__put_cell (out, br__text_string (&t));
  out->failed |= t.failed;
  br__text_clear (&t);
}

static void
put_table (br_text *t, const br__design *designs, size_t count)
{
  br__text_puts (t, "file,title,dimensions,shapes,drawing");
  for (int f = 0; f < BR__FINDINGS; f++)
    br__text_printf (t, ",%s", br__finding_key ((br__finding) f));
  br__text_putc (t, '\n');
  for (size_t i = 0; i < count; i++)
    {
      const br__design *d = &designs[i];
      br__put_cell (t, d->path);
      br__text_putc (t, ',');
      br__put_cell (t, br__text_string (&d->title));
      br__text_printf (t, ",%zu,%zu,", d->dimensions, d->shapes);
      br__put_cell (t, br__text_string (&d->drawing));
      for (int f = 0; f < BR__FINDINGS; f++)
        put_list (t, d, (br__finding) f);
      br__text_putc (t, '\n');
    }
}

/* ---- A page for each student ---- */

static const char style[] =
  "body{line-height:1.35;max-width:7.5in;margin:1em auto;padding:0 .6em;overflow-wrap:anywhere}\n"
  "h1{font-size:1.4em;margin:.2em 0}h2{font-size:1.15em;margin:.8em 0 .2em}h3{font-size:1em;margin:.6em 0 .2em}ul{margin:.2em 0;padding-left:1.3em}\n"
  "figure{margin:.5em 0}.scroll{overflow-x:auto}figure svg{max-width:max(100%,30rem);height:auto;max-height:3.6in}figcaption{font-size:.85em}\n"
  "table{overflow-wrap:normal}thead th+th{writing-mode:vertical-rl;white-space:nowrap}thead th{vertical-align:bottom}\n"
  "tbody th{position:sticky;left:0;background:#fff;overflow-wrap:anywhere}tbody th a{color:inherit}\n"
  "@media (max-width:32em){.box{font-size:.8em}td,th{padding:.15em .25em}}\n"
  BR__FIGURE_STYLE
  "@media print{@page{margin:.5in}body{margin:0;padding:0;font-size:10.5pt}.scroll{overflow:visible}table{font-size:9pt}"
  "section{break-before:page}figure svg{max-width:100%;max-height:none}h3{margin:.3em 0 0}ul{margin:0}}\n";

/* What comes first of what there is to do.  */
const br__finding br__to_do[BR__TO_DO] =
{
  BR__FINDING_MISTAKE, BR__FINDING_MISSING, BR__FINDING_RULE, BR__FINDING_FAILS, BR__FINDING_UNPLACED, BR__FINDING_WAITING,
  BR__FINDING_OFF_RULER, BR__FINDING_CAUTION, BR__FINDING_NOT_RUN
};

size_t
br__lines_each (const br__design *d)
{
  size_t lists = d->count[BR__FINDING_HOLDS] > 0;
  for (size_t k = 0; k < BR__TO_DO; k++)
    lists += d->count[br__to_do[k]] > 0;
  return lists * MOST_LINES <= MOST_ON_PAGE ? MOST_LINES : MOST_ON_PAGE / lists;
}

size_t
br__to_mend (const br__design *d)
{
  size_t n = 0;
  for (size_t k = 0; k < BR__TO_DO && br__to_do[k] != BR__FINDING_OFF_RULER; k++)
    n += d->count[br__to_do[k]];
  return n;
}

static void
put_lines (br_text *t, const br__design *d, br__finding f)
{
  if (!d->count[f])
    return;
  /* Every other one is a part of what to do next.  */
  int level = f == BR__FINDING_HOLDS ? 2 : 3;
  br__text_printf (t, "<h%d>%s</h%d>\n<ul>", level, br__finding_heading (f), level);
  for (size_t i = 0; i < d->count[f] && i < br__lines_each (d); i++)
    {
      br__text_puts (t, "<li>");
      br__put_fractions (t, br__text_string (&d->found[f][i]));
      br__text_puts (t, "</li>\n");
    }
  if (d->count[f] > br__lines_each (d))
    br__text_printf (t, "<li>and %zu more</li>\n", d->count[f] - br__lines_each (d));
  br__text_puts (t, "</ul>\n");
}

static void
put_design (br_text *t, const br__design *d, size_t number)
{
  br__text_printf (t, "<section id=\"d%zu\"><h1>", number);
  br__put_escaped (t, d->title.length ? br__text_string (&d->title) : d->path);
  br__text_puts (t, "</h1>\n<p>");
  br__put_escaped (t, d->path);
  br__text_printf (t, ": %zu dimension%s, %zu shape%s. The drawing: %s.</p>\n", d->dimensions, d->dimensions == 1 ? "" : "s", d->shapes,
                   d->shapes == 1 ? "" : "s", br__text_string (&d->drawing));
  br__text_put (t, br__text_string (&d->figure), d->figure.length);
  put_lines (t, d, BR__FINDING_HOLDS);
  br__text_printf (t, "<h2>What to do next</h2>\n%s", br__to_mend (d) ? "" : "<p>Nothing is left to mend. Show it to your teacher before you cut.</p>\n");
  for (size_t k = 0; k < BR__TO_DO; k++)
    put_lines (t, d, br__to_do[k]);
  br__text_puts (t, "<p>Your teacher's rules and local codes come first.</p></section>\n");
}

/* PATH, which a line may end in behind a folder and before the ending.  */
static void
put_path (br_text *t, const char *path)
{
  while (*path)
    {
      size_t n = strcspn (path + 1, "/.") + 1;
      n += path[n] == '/';
      br__put_escaped_bytes (t, path, n);
      br__text_puts (t, path[n] ? "<wbr>" : "");
      path += n;
    }
}

static void
put_row (br_text *t, const br__design *d, size_t number)
{
  br__text_printf (t, "<tr><th><a href=\"#d%zu\">", number);
  put_path (t, d->path);
  br__text_puts (t, "</a></th>");
  for (size_t k = 0; k < BR__TO_DO; k++)
    br__text_printf (t, "<td>%zu</td>", d->count[br__to_do[k]]);
  br__text_printf (t, "<td>%s</td></tr>\n", br__text_string (&d->drawing));
}

static void
put_pages (br_text *t, const br__design *designs, size_t count)
{
  br__html_head (t, "en", "Designs looked over", style);
  br__text_puts (t, "\n<main><h1>Designs looked over</h1>\n<div class=\"box\"><table><thead><tr><th>design</th>");
  for (size_t k = 0; k < BR__TO_DO; k++)
    {
      /* The short name of the CSV table; the lists below it have the long one.  */
      br__text_printf (t, "<th title=\"%s\">", br__finding_heading (br__to_do[k]));
      for (const char *c = br__finding_key (br__to_do[k]); *c; c++)
        br__text_putc (t, *c == '_' ? ' ' : *c);
      br__text_puts (t, "</th>");
    }
  br__text_puts (t, "<th>drawing</th></tr></thead><tbody>\n");
  for (size_t i = 0; i < count; i++)
    put_row (t, &designs[i], i + 1);
  br__text_puts (t, "</tbody></table></div>\n");
  for (size_t i = 0; i < count; i++)
    put_design (t, &designs[i], i + 1);
  br__text_puts (t, "</main></body></html>\n");
}

br_status
br__review_write (const char *path, const br__design *designs, size_t count, br__run *run)
{
  br_text t = BR_TEXT_ZERO;
  if (br__ends_with (path, ".pdf"))
    return br__review_pdf (path, designs, count, run);
  if (br__ends_with (path, ".csv"))
    put_table (&t, designs, count);
  else if (br__ends_with (path, ".html"))
    put_pages (&t, designs, count);
  else
    return br__wrong_ending (run, path, ".csv, .html or .pdf", ".html");
  br_status status = t.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0)
                              : br__file_put (run, path, br__content_named (path), br__text_string (&t), t.length);
  br__text_clear (&t);
  return status;
}
