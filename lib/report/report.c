/* SPDX-License-Identifier: LGPL-3.0-or-later
   report.c - `report into FILE.html`: the whole sheet as one page of HTML with nothing outside it and no
   script, for a phone, a printer and a screen reader.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "report/report.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/worksheet.h"
#include "file/markup.h"
#include "sheet/access.h"
#include "sheet/caution.h"
#include "wood/wood.h"

/* ---- What the sheet says ---- */

static void
take_record (void *user, const br_record *r)
{
  br__report_row (user, r);
}

static void
pass_progress (void *user, const char *what, int percent)
{
  const br_sink *sink = ((br__report *) user)->run->sink;
  sink->progress (sink->user, what, percent);
}

/* Runs a statement of the sheet as if its WORD stood alone on a line; its answers go into the report.  */
static br_status
ask (br__report *p, const char *word, br_status (*statement) (br__run *run), br_error *error)
{
  br__run *run = p->run;
  br_sink sink = { .user = p, .record = take_record };
  br__run sub = { .sheet = run->sheet, .sink = &sink, .file = run->file, .line_number = run->line_number, .text = word,
                  .word = { .type = BR__NAME, .length = strlen (word) }, .note = "", .error = error };
  if (run->sink)
    sink.solver = run->sink->solver;
  if (run->sink && run->sink->progress)
    sink.progress = pass_progress;
  br_status status = br__lex_start (&sub.lex, "", 0, error);
  return status == BR_OK ? statement (&sub) : status;
}

static int
has_parts (const br_sheet *sheet)
{
  for (const br__wood *w = sheet->wood; w; w = w->next)
    if (w->active && !w->stock)
      return 1;
  return 0;
}

/* Parts that cannot be planned are named in the report, which is useful without a plan.  */
static br_status
ask_for_plan (br__report *p)
{
  br_error error = { .status = BR_OK };
  br_text *t = &p->sections[BR__REPORT_PLAN].remark;
  br_status status = ask (p, "cuts", br__do_cuts, &error);
  if (status == BR_OK || status == BR_NO_MEMORY)
    return status == BR_OK ? BR_OK : br__fail_plain (p->run->error, status, 0, 0);
  br__text_puts (t, "<p>There is no plan: ");
  br__put_escaped (t, error.message);
  br__text_puts (t, ".</p>\n");
  return BR_OK;
}

/* The settings and the sizes, drawn sizes among them, at the scale of the figure: words and figure agree also where the sheet has no scale.  */
static br_status
ask_at_its_scale (br__report *p, const char *word, br_status (*statement) (br__run *run))
{
  br_number *scale = &p->run->sheet->settings.scale, own = *scale;
  if (br_number_sign (&p->scale))
    *scale = p->scale;
  br_status status = ask (p, word, statement, p->run->error);
  *scale = own;
  return status;
}

static br_status
collect (br__report *p)
{
  static const struct { int section; const char *statement; } questions[] =
  {
    { BR__REPORT_DRAWING, "shapes" },
    { BR__REPORT_MISSING, "date" }, { BR__REPORT_MISSING, "scale" }, { BR__REPORT_MISSING, "units" },
    { BR__REPORT_MISSING, "ruler" }, { BR__REPORT_MISSING, "grid" }, { BR__REPORT_MISSING, "kerf" },
    { BR__REPORT_MISSING, "blade" }, { BR__REPORT_MISSING, "child" }, { BR__REPORT_MISSING, "missing" },
    { BR__REPORT_DIMENSIONS, "list" }, { BR__REPORT_CHECKS, "check" },
    { BR__REPORT_CAUTIONS, "cautions" }
  };
  br_status status = BR_OK;
  for (size_t i = 0; i < sizeof questions / sizeof questions[0] && status == BR_OK; i++)
    {
      p->at = questions[i].section;
      const char *word = questions[i].statement;
      int own = p->at == BR__REPORT_CAUTIONS;       /* those about parts come with the parts */
      status = ask_at_its_scale (p, word, own ? br__caution_all : p->run->sheet->language->find (word, strlen (word))->run);
      if (status == BR_OK && p->at == BR__REPORT_DRAWING && p->sections[p->at].rows)
        status = br__report_figure (p);
    }
  if (status == BR_OK && has_parts (p->run->sheet))
    {
      p->at = BR__REPORT_PARTS;
      status = ask (p, "parts", br__do_parts, p->run->error);
      p->at = BR__REPORT_PLAN;
      if (status == BR_OK)
        status = ask_for_plan (p);
    }
  return status;
}

/* ---- The page ---- */

static const char style[] =
  ":root{font:100%/1.5 system-ui,sans-serif;color:#111;background:#fff}\n"
  "body{font:inherit;color:inherit;max-width:70rem;margin:0 auto;padding:1rem;overflow-wrap:anywhere}\n"
  "h1{margin:.2em 0;line-height:1.2}h2{margin:2rem 0 .5rem;border-bottom:3px solid #111}h3{margin:1.2rem 0 .3rem}\n"
  ".skip{position:absolute;left:-100vw}.skip:focus{position:static}\n"
  ".r{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap;user-select:none}\n"
  ".m{white-space:nowrap}.f{white-space:nowrap}\n"
  "sup,sub{font-size:.68em;line-height:0}sup{vertical-align:.45em}sub{vertical-align:baseline}\n"
  ".first{border:3px solid #111;padding:.5rem .8rem;font-weight:bold}\n"
  ".row{display:flex;flex-wrap:wrap;gap:.2rem 1.4rem;margin:.5rem 0;padding:0;list-style:none}\n"
  "nav a,.skip{display:inline-block;padding:.3rem 0}\n"
  ".box{overflow-x:auto;position:relative}.box:focus-visible{outline:3px solid #111}\n"
  "table{border-collapse:separate;border-spacing:0;border:solid #666;border-width:0 1px 1px 0;overflow-wrap:normal}.wide{min-width:44rem}\n"
  "caption{text-align:left;padding:.2rem 0}\n"
  "th,td{border:solid #666;border-width:1px 0 0 1px;padding:5px 9px;text-align:left;vertical-align:top}\n"
  "th:last-child,td:last-child{min-width:8rem}td:last-child{overflow-wrap:anywhere}\n"
  "thead th{background:#eee}tbody th{font-weight:600;position:sticky;left:0;background:#fff;background-clip:padding-box}\n"
  "code{font-family:ui-monospace,monospace;font-size:.88em}td>code{display:block;min-width:12em}\n"
  ".state{min-width:9rem}.fail th,.fail td{border-top:3px solid #111;border-bottom:3px solid #111}\n"
  "figure{margin:0 0 1rem}figcaption{margin:.4rem 0}.scroll{overflow-x:auto;position:relative}.scroll:focus-visible{outline:3px solid #111}\n"
  "figure svg{display:block;max-width:100%;height:auto}@media screen{.fit svg{width:100%}}\n"
  BR__FIGURE_STYLE
  ".stick{display:block;width:100%;min-width:430px;max-height:24rem;stroke:#111;stroke-width:2}.piece{fill:#fff}.rest{fill:#ddd}\n"
  ".stick text{font:26px system-ui,sans-serif;fill:#111;stroke:none;text-anchor:middle}\n"
  "small{color:#333}li{margin:.3rem 0}\n"
  "@media print{@page{margin:.5in}:root{font-size:9.5pt}body{max-width:none;padding:0}nav,.skip{display:none}\n"
  ".box{overflow:visible}.wide{min-width:0;width:100%}tbody th{position:static;background:none}td code,th code{overflow-wrap:anywhere}\n"
  "th,td{padding:3px 5px}td>code{min-width:8em}.state{min-width:0}th:last-child,td:last-child{min-width:6rem}\n"
  "thead{display:table-header-group}tr,.keep,figure{break-inside:avoid}\n"
  "h2,h3{break-after:avoid}}\n";

static const struct section_form
{
  const char *id, *title, *caption, *words;
  const char *columns[7];       /* of a table; none where the body is whole */
} forms[BR__REPORT_SECTIONS] =
{
  { "drawing", "The side view", "Shapes", "",
    { "Shape", "Is", "Size", "Place", "State", NULL } },
  { "missing", "What is missing", "Missing values", "", { "Missing", "Needed by", NULL } },
  { "dimensions", "Dimensions", "All dimensions",
    "<p>Full size, the nearest mark on the ruler with its error, and the size on a drawing at the scale.</p>\n",
    { "Dimension", "Full size", "On the ruler", "Drawn", "Formula", "Note", NULL } },
  { "checks", "Checks", "Rules that must hold",
    "<p>The margin is the room that is left; below zero the rule fails.</p>\n",
    { "Rule", "State", "Left side", "Right side", "Margin", "What it means", NULL } },
  { "cautions", "Cautions", NULL, "", { NULL } },
  { "parts", "Parts", "What is to be cut", "<p>Lengths lie along the grain.</p>\n",
    { "Part", "How many", "Length", "Width", "Thick", "From", "Note" } },
  { "plan", "The cutting plan", NULL, "", { NULL } }
};

static int
has_section (const br__report *p, int i)
{
  int shown = p->sections[i].rows || p->sections[i].remark.length;
  return i == BR__REPORT_CAUTIONS || (i == BR__REPORT_DRAWING ? p->sections[i].rows > 0 : shown);
}

static void
put_head (br_text *t, const br__report *p)
{
  const char *title = p->run->sheet->title ? p->run->sheet->title : "Design";
  br__html_head (t, "en", title, style);
  br__text_puts (t, "\n<a class=\"skip\" href=\"#design\">Skip to the design</a>\n<header><h1>");
  br__put_fractions (t, title);
  br__text_puts (t, "</h1>\n");
  br__text_printf (t, "<ul class=\"row\" aria-label=\"Settings\">\n%s</ul>\n", br__text_string (&p->settings));
  br__text_puts (t, "<p class=\"first\">Your teacher&#39;s rules and local codes come first.</p>\n"
                    "<nav aria-label=\"Sections\"><ul class=\"row\">\n");
  for (int i = 0; i < BR__REPORT_SECTIONS; i++)
    if (has_section (p, i))
      br__text_printf (t, "<li><a href=\"#%s\">%s</a></li>\n", forms[i].id, forms[i].title);
  br__text_puts (t, "<li><a href=\"#reading\">How to read this</a></li></ul></nav></header>\n");
}

/* "3 sizes are missing", "1 size is missing".  */
static void
put_count (br_text *t, size_t n, const char *one, const char *more)
{
  if (n)
    br__text_printf (t, "<li>%zu %s</li>\n", n, n == 1 ? one : more);
}

static void
put_summary (br_text *t, const br__report *p)
{
  br__text_puts (t, "<ul aria-label=\"In short\">\n");
  put_count (t, p->checks[BR__CHECK_FAIL], "<a href=\"#checks\">check <b>FAILS</b></a>",
             "<a href=\"#checks\">checks <b>FAIL</b></a>");
  put_count (t, p->checks[BR__CHECK_UNDECIDED], "check is not decided", "checks are not decided");
  put_count (t, p->checks[BR__CHECK_WAITING], "check waits for a value", "checks wait for a value");
  put_count (t, p->checks[BR__CHECK_PASS], "check holds", "checks hold");
  put_count (t, p->sections[BR__REPORT_MISSING].rows, "<a href=\"#missing\">value is <b>missing</b></a>",
             "<a href=\"#missing\">values are <b>missing</b></a>");
  put_count (t, p->sections[BR__REPORT_DIMENSIONS].rows, "dimension", "dimensions");
  put_count (t, p->sections[BR__REPORT_CAUTIONS].rows, "caution", "cautions");
  br__text_puts (t, "</ul>\n");
}

/* A table that is wider than a phone scrolls in a box of its own, which the keyboard reaches.  */
static void
put_table (br_text *t, const br__report *p, int i)
{
  br__text_printf (t, "<div class=\"box\" role=\"region\" aria-labelledby=\"%s-caption\" tabindex=\"0\">"
                      "<table%s><caption id=\"%s-caption\">%s</caption>\n<thead><tr>", forms[i].id,
                   forms[i].columns[2] ? " class=\"wide\"" : "", forms[i].id, forms[i].caption);
  for (size_t k = 0; k < 7 && forms[i].columns[k]; k++)
    br__text_printf (t, "<th scope=\"col\">%s</th>", forms[i].columns[k]);
  br__text_puts (t, "</tr></thead>\n<tbody>\n");
  br__text_put (t, br__text_string (&p->sections[i].body), p->sections[i].body.length);
  br__text_puts (t, "</tbody></table></div>\n");
}

static void
put_cautions (br_text *t, const br__report *p)
{
  const br__report_section *s = &p->sections[BR__REPORT_CAUTIONS];
  br__text_puts (t, "<p>Your teacher&#39;s rules and local codes come before any number here. A caution is no "
                    "clearance: what is not named here can hurt, too.</p>\n");
  if (s->rows)
    br__text_printf (t, "<ul>\n%s</ul>\n", br__text_string (&s->body));
  else
    br__text_puts (t, "<p>No gap, curve or part of this sheet is one that the tables of cautions know.</p>\n");
}

static void
put_section (br_text *t, const br__report *p, int i)
{
  const br__report_section *s = &p->sections[i];
  br__text_printf (t, "<section aria-labelledby=\"%s\"><h2 id=\"%s\">%s</h2>\n", forms[i].id, forms[i].id,
                   forms[i].title);
  if (i == BR__REPORT_CAUTIONS)
    put_cautions (t, p);
  else
    {
      br__text_put (t, br__text_string (&s->remark), s->remark.length);
      if (s->rows)
        br__text_puts (t, forms[i].words);
      if (s->rows && forms[i].caption)
        put_table (t, p, i);
      else if (s->rows)
        br__text_put (t, br__text_string (&s->body), s->body.length);
    }
  br__text_puts (t, "</section>\n");
}

static const char reading[] =
  "<section aria-labelledby=\"reading\"><h2 id=\"reading\">How to read this</h2>\n<ul>\n"
  "<li><b>Full size</b> is the exact size of the real thing. After \xE2\x89\x88 stand the first digits of one that no "
  "fraction says.</li>\n"
  "<li><b>On the ruler</b> is the nearest mark, the size to pencil. <b>Over by</b> and <b>under by</b> say how much the "
  "mark is more or less than the exact size; <b>a tie</b> lies half way between two marks.</li>\n"
  "<li><b>Drawn</b> is how long it is on a drawing at the scale above.</li>\n"
  "<li>A <b>check</b> is a rule that the design must keep. Its <b>margin</b> is the room that is left.</li>\n"
  "<li>In the cutting plan the saw cuts beyond each pencil mark, on the waste side; the grey is what is left. Measure "
  "every mark from the one end, so that errors do not add up.</li>\n"
  "<li>Measure your wood before you cut: it may not be as it was sold.</li>\n</ul>\n</section>\n";

static br_status
put_page (br_text *t, br__report *p)
{
  put_head (t, p);
  br__text_puts (t, "<main id=\"design\">\n");
  put_summary (t, p);
  for (int i = 0; i < BR__REPORT_SECTIONS; i++)
    if (has_section (p, i))
      put_section (t, p, i);
  br__text_printf (t, "%s</main>\n</body></html>\n", reading);
  for (int i = 0; i < BR__REPORT_SECTIONS; i++)
    t->failed |= p->sections[i].body.failed | p->sections[i].remark.failed;
  t->failed |= p->settings.failed;
  return t->failed ? br__fail_plain (p->run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
}

static br_status
emit_report (br__report *p, const char *path)
{
  static const char *const keys[] = { "pass", "fail", "waiting", "undecided" };
  br_record *r = br__record_new ("report");
  br__put_text (r, "file", path);
  br_list *sections = br__put_list (r, "sections");
  for (int i = 0; i < BR__REPORT_SECTIONS; i++)
    if (has_section (p, i))
      br__list_text (sections, forms[i].id);
  br__put_count (r, "dimensions", (int64_t) p->sections[BR__REPORT_DIMENSIONS].rows);
  br__put_count (r, "missing", (int64_t) p->sections[BR__REPORT_MISSING].rows);
  for (size_t i = 0; i < 4; i++)
    br__put_count (r, keys[i], (int64_t) p->checks[i]);
  br__put_count (r, "cautions", (int64_t) p->sections[BR__REPORT_CAUTIONS].rows);
  return br__emit (p->run, r);
}

br_status
br__do_report (br__run *run)
{
  br__report p = { .run = run };
  br_text page = BR_TEXT_ZERO;
  char *path = NULL;
  size_t start = run->lex.next;
  if (!br__lex_is_word (&run->lex, "into"))
    return br__expected (run, "`into FILE.html`");
  while (start < run->end && br__blank_at (run->text + start, run->end - start))
    start++;
  br_status status = br__clause_file (&path, run, start, "", BR_FILE_WRITE);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && !br__ends_with (path, ".html"))
    status = br__placed (run, br__wrong_ending (run, path, ".html", ".html"), start, run->end);
  if (status == BR_OK)
    status = collect (&p);
  if (status == BR_OK)
    status = put_page (&page, &p);
  if (status == BR_OK)
    status = br__placed (run, br__file_put (run, path, BR__CONTENT_HTML, br__text_string (&page), page.length), start, run->end);
  if (status == BR_OK)
    status = emit_report (&p, path);
  for (int i = 0; i < BR__REPORT_SECTIONS; i++)
    {
      br__text_clear (&p.sections[i].body);
      br__text_clear (&p.sections[i].remark);
    }
  br_number_clear (&p.scale);
  br__text_clear (&p.settings);
  br__text_clear (&page);
  br__free (path);
  return status;
}
