/* SPDX-License-Identifier: LGPL-3.0-or-later
   pages.c - worksheets and keys on paper: what stands where.  How a line or a letter is put down is the
   painter's business.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/figure.h"
#include "lesson/write.h"
#include "sheet/access.h"
#include "shop/paper.h"

#define POINT (BR_PAGE_INCH / 72)
#define THIN (POINT * 3 / 4)
#define SMALL (POINT * 9)
#define MARGIN (BR_PAGE_INCH * 3 / 4)
#define NUMBER_WIDTH (BR_PAGE_INCH / 2)
#define FOOT (BR_PAGE_INCH / 2)       /* above the lower margin: the line to check, the page */
#define CORNER (2 * BR_PAGE_INCH)     /* upper right: the version and the seed */
#define RULER_INCHES 6
#define RULER_CENTIMETRES 15

typedef struct layout
{
  const br_painter *painter;
  br_page *page;
  const br__worksheet *w;
  int key;
  int32_t width, height;        /* of the paper */
  int32_t size;                 /* of letters */
  int32_t y;                    /* the next free line */
  int32_t notes;                /* what words of the trade take at the foot of the page */
  size_t paper, version;
  /* A paper is laid out twice: only measured, to know how many pages it has and what they leave free, and then drawn.  */
  int measuring;
  br__task *tasks;              /* the problems of the paper */
  size_t *on_page;              /* how many of them on each page, */
  int32_t *free;                /* what they leave, below 0 where they must stand closer, */
  int32_t *gives;               /* and what their room may give */
  int32_t give;                 /* the same of the page at hand */
  int sheet_of_paper;           /* pages of this paper so far */
  int sheets;                   /* and in all, when it was measured */
  int pages;
  unsigned told;                /* words that were explained on this paper */
  const char *role;             /* of the text that is put down, for who hears a page read; NULL: a paragraph */
} layout;

/* In large print 3/8 is as large as all else.  */
static int
digits_are_high (const layout *l)
{
  return l->w->large && !l->key;
}

static int32_t
put (layout *l, int32_t x, int32_t y, int32_t width, int32_t size, int bold, const char *text, int draw)
{
  br_page_text t = { text, x, y, width, size, bold, width < 0 ? BR_ALIGN_RIGHT : BR_ALIGN_LEFT, digits_are_high (l), 0 };
  if (width < 0)
    t.width = 0;
  if (!draw || l->measuring)
    return l->painter->text (l->page, NULL, &t, 0);
  l->painter->tag (l->page, l->role ? l->role : "P", NULL);
  int32_t high = l->painter->text (l->page, NULL, &t, 1);
  l->painter->tag (l->page, NULL, NULL);
  return high;
}

/* What follows, up to the end of the tag, is a picture of P for who hears the page read.  */
static void
begin_picture (layout *l, const br__problem *p)
{
  br_text t = BR_TEXT_ZERO;
  br__put_picture (&t, p, l->w->words);
  l->painter->tag (l->page, "Figure", br__text_string (&t));
  br__text_clear (&t);
}

static void
put_line (layout *l, int32_t x0, int32_t y0, int32_t x1, int32_t y1, int32_t width)
{
  if (!l->measuring)
    l->painter->line (l->page, x0, y0, x1, y1, width, 0);
}

/* What papers say, in the teacher's words.  */
static int32_t
put_said (layout *l, int32_t x, int32_t y, int32_t width, int32_t size, const char *english, int draw)
{
  br_text t = BR_TEXT_ZERO;
  br__sentences_put (&t, l->w->words, english);
  int32_t high = put (l, x, y, width, size, 0, br__text_string (&t), draw);
  br__text_clear (&t);
  return high;
}

static int32_t
text_width (const layout *l)
{
  return l->width - 2 * MARGIN - NUMBER_WIDTH;
}

static int32_t
width_of (layout *l, int32_t size, const char *text)
{
  int32_t wide = 0;
  br_page_text t = { text, 0, 0, 0, size, 0, BR_ALIGN_LEFT, digits_are_high (l), 0 };
  l->painter->text (l->page, &wide, &t, 0);
  return wide;
}

/* "page 1 of 3", as the teacher's words have it: the numbers stand for %d in their order.  */
static void
put_page_number (br_text *t, const layout *l)
{
  const char *form = l->key ? "page %d of %d" : br__sentences_find (l->w->words, "page %d of %d");
  for (int n = l->sheet_of_paper; *form; form++)
    if (form[0] == '%' && form[1] == 'd')
      {
        br__text_printf (t, "%d", n);
        n = l->sheets;
        form++;
      }
    else
      br__text_putc (t, *form);
}

/* The line by which the printer is checked, and the number of the page.  */
static void
put_foot (layout *l)
{
  br_text t = BR_TEXT_ZERO;
  int32_t base = l->height - MARGIN, right = MARGIN + 2 * BR_PAGE_INCH, tick = BR_PAGE_INCH / 16;
  int32_t size = l->w->large ? 12 * POINT : SMALL, room = l->width - MARGIN - right - 4 * tick;
  static const char check[] = "This line is 2 in long. If it is not, print at 100 %.";
  put_line (l, MARGIN, base, right, base, POINT);
  put_line (l, MARGIN, base - tick, MARGIN, base + tick, THIN);
  put_line (l, right, base - tick, right, base + tick, THIN);
  br__text_puts (&t, l->key ? "key, version" : br__sentences_find (l->w->words, "version"));
  br__text_printf (&t, " %zu, ", l->version + 1);
  put_page_number (&t, l);
  room -= width_of (l, size, br__text_string (&t));
  put_said (l, right + tick * 2, base - put_said (l, 0, 0, room, size, check, 0) / 2, room, size, check, 1);
  put (l, l->width - MARGIN, base - size * 7 / 10, -1, size, 0, br__text_string (&t), 1);
  br__text_clear (&t);
}

/* LABEL and what stands behind it, or a line to fill in, from X on; as wide as WIDTH.  Returns how high it is.  */
static int32_t
put_label (layout *l, int32_t x, int32_t width, const char *label, const char *text)
{
  int32_t wide = width_of (l, l->size, label) + l->size / 3, high = put (l, x, l->y, 0, l->size, 0, label, 1);
  if (*text)
    return put (l, x + wide, l->y, width - wide, l->size, 1, text, 1);
  put_line (l, x + wide, l->y + high, x + width, l->y + high, THIN);
  return high;
}

static void
put_name (layout *l)
{
  br_text t = BR_TEXT_ZERO;
  br__sentences_put (&t, l->w->words, "Name:");
  l->y += put_label (l, MARGIN, l->width - 2 * MARGIN - CORNER, br__text_string (&t), br__paper_name (l->w, l->paper)) + l->size * 7 / 10;
  br__text_clear (&t);
}

/* School, class and date side by side, in large print one below the other.  */
static void
put_fields (layout *l)
{
  br_text t = BR_TEXT_ZERO;
  const char *text;
  int32_t count = 0, high = 0, whole = l->width - 2 * MARGIN, gap = l->size, x = MARGIN;
  for (size_t i = 0; i < BR__FIELDS; i++)
    count += br__put_field_label (&t, &text, l->w, i);
  int32_t width = count == 0 || l->w->large ? whole : (whole - (count - 1) * gap) / count;
  for (size_t i = 0; i < BR__FIELDS; i++)
    {
      br__text_reset (&t);
      if (!br__put_field_label (&t, &text, l->w, i))
        continue;
      int32_t h = put_label (l, x, width, br__text_string (&t), text);
      high = h > high ? h : high;
      x += width + gap;
      if (l->w->large)
        {
          l->y += h + l->size * 7 / 10;
          x = MARGIN;
        }
    }
  if (count && !l->w->large)
    l->y += high + l->size * 7 / 10;
  br__text_clear (&t);
}

/* What is asked and what to mind, at the head of a paper.  */
static void
put_asked (layout *l)
{
  br_text t = BR_TEXT_ZERO;
  put_fields (l);
  br__put_instruction (&t, l->w);
  l->y += put (l, MARGIN, l->y, l->width - 2 * MARGIN, l->size, 0, br__text_string (&t), 1);
  br__text_reset (&t);
  br__put_caution (&t, l->w);
  if (t.length)
    l->y += put (l, MARGIN, l->y, l->width - 2 * MARGIN, l->w->large ? l->size : SMALL * 10 / 9, 0, br__text_string (&t), 1);
  l->y += l->size * 7 / 10;
  br__text_clear (&t);
}

/* The head of a page; the first of a paper has the name and what is asked.  */
static void
new_page (layout *l)
{
  const br__sentences *words = l->key ? NULL : l->w->words;
  br_text t = BR_TEXT_ZERO;
  if (!l->measuring && l->pages++)
    l->painter->next (l->page);
  l->sheet_of_paper++;
  l->notes = l->give = 0;
  l->y = MARGIN;
  br__text_printf (&t, "%s %zu", br__sentences_find (words, "Version"), l->version + 1);
  int32_t under = l->y + put (l, l->width - MARGIN, l->y, -1, l->size, 1, br__text_string (&t), 1);
  br__text_reset (&t);
  br__text_printf (&t, "%s %lld", br__sentences_find (words, "seed"), (long long) l->w->seed);
  under += put (l, l->width - MARGIN, under, -1, l->w->large ? 12 * POINT : SMALL, 0, br__text_string (&t), 1);
  br__text_reset (&t);
  br__text_printf (&t, "%s%s", l->key ? "Key: " : "", l->w->title ? l->w->title : br__sentences_find (words, "Worksheet"));
  l->role = "H1";
  l->y += put (l, MARGIN, l->y, l->width - 2 * MARGIN - CORNER, l->size * 4 / 3, 1, br__text_string (&t), 1) * 5 / 4;
  l->role = NULL;
  if (!l->key)
    put_name (l);
  if (!l->key && l->sheet_of_paper == 1)
    put_asked (l);
  if (l->y < under)
    l->y = under + l->size / 4;
  put_line (l, MARGIN, l->y, l->width - MARGIN, l->y, THIN);
  l->y += l->size;
  put_foot (l);
  br__text_clear (&t);
}

static int32_t
lower_end (const layout *l)
{
  return l->height - MARGIN - FOOT - l->notes;
}

/* Words of the trade go to the foot of the page, the first one lowest.  */
static void
put_note (layout *l, const char *text)
{
  int32_t size = l->w->large ? l->size : SMALL, high = put (l, MARGIN, 0, l->width - 2 * MARGIN, size, 0, text, 0);
  l->notes += high;
  put (l, MARGIN, lower_end (l) + size / 2, l->width - 2 * MARGIN, size, 0, text, 1);
}

/* What a page has left or lacks, and how many problems it has.  */
static void
end_page (layout *l, size_t count)
{
  if (!l->measuring || l->key)
    return;
  l->on_page[l->sheet_of_paper - 1] = count;
  /* Nothing stands below the last answer.  */
  l->free[l->sheet_of_paper - 1] = lower_end (l) - l->y + l->size;
  l->gives[l->sheet_of_paper - 1] = l->give;
}

/* Room for HIGH more, on this page or another.  */
static void
need (layout *l, int32_t high)
{
  if (l->y + high > lower_end (l))
    new_page (l);
}

/* How high the picture of a ruler is; in large print it is drawn twice its size and says so.  */
static int32_t
ruler_height (const layout *l)
{
  return l->w->large ? BR_PAGE_INCH * 9 / 4 : BR_PAGE_INCH * 5 / 4;
}

static void
put_ruler (layout *l, const br__problem *p)
{
  int32_t times = l->w->large ? 2 : 1, unit = p->metric ? BR_PAGE_INCH * 50 / 127 : BR_PAGE_INCH;
  int32_t whole = (int32_t) br__ratio_floor (p->given[0]), first = times == 1 || whole == 0 ? 0 : whole - 1;
  br__ratio at = br__ratio_mul (br__ratio_sub (p->given[0], br__ratio_of (first, 1)), br__ratio_of (unit * times, 1));
  int32_t x = MARGIN + NUMBER_WIDTH, base = l->y + ruler_height (l) * 3 / 5;
  br_page_ruler r = { x, base, unit * times, (p->metric ? RULER_CENTIMETRES : RULER_INCHES) / times, (int32_t) p->level, first,
                      (int32_t) (at.num / at.den), (l->w->large ? 18 : 11) * POINT };
  if (!l->measuring)
    {
      begin_picture (l, p);
      l->painter->ruler (l->page, &r);
      l->painter->tag (l->page, NULL, NULL);
    }
  l->y += ruler_height (l);
  if (times > 1)
    put_said (l, x, l->y - l->size * 3 / 2, text_width (l), l->size, first ? "It is drawn twice its size. 0 is further left."
              : "This ruler is drawn twice its size.", 1);
}

/* A narrow figure stands at the right, beside the room to work in.  */
static int
is_narrow (const layout *l, const br__figure *f)
{
  return f->width < text_width (l) * 3 / 5;
}

static void
put_figure (layout *l, const br__figure *f)
{
  int32_t x = is_narrow (l, f) ? l->width - MARGIN - f->width : MARGIN + NUMBER_WIDTH + l->size / 2;
  for (int dashed = 1; dashed >= 0; dashed--)
    for (size_t i = 0; i < f->line_count; i++)
      if (f->lines[i].dashed == dashed)
        l->painter->line (l->page, x + f->lines[i].x0, l->y + f->lines[i].y0, x + f->lines[i].x1, l->y + f->lines[i].y1, THIN, dashed);
  for (size_t i = 0; i < f->circle_count; i++)
    l->painter->arc (l->page, x + f->circles[i].x, l->y + f->circles[i].y, f->circles[i].radius, 0, 360 * 1000000, THIN, 0);
  for (size_t i = 0; i < f->label_count; i++)
    {
      br_page_text t = { f->labels[i].text, x + f->labels[i].x, l->y + f->labels[i].y, 0, f->size, 0, f->labels[i].align, digits_are_high (l), 0 };
      l->painter->text (l->page, NULL, &t, 1);
    }
}

/* The words of a problem, in two languages side by side; returns their height.  */
static int32_t
put_wording (layout *l, const br__task *task, int draw)
{
  int32_t x = MARGIN + NUMBER_WIDTH, width = text_width (l), gap = BR_PAGE_INCH / 4;
  if (!task->other.length)
    return put (l, x, l->y, width, l->size, 0, br__text_string (&task->text), draw);
  int32_t left = put (l, x, l->y, (width - gap) / 2, l->size, 0, br__text_string (&task->text), draw);
  int32_t right = put (l, x + (width + gap) / 2, l->y, (width - gap) / 2, l->size, 0, br__text_string (&task->other), draw);
  return left > right ? left : right;
}

static void
put_answer_line (layout *l)
{
  br_text t = BR_TEXT_ZERO;
  br__sentences_put (&t, l->w->words, "Answer:");
  int32_t wide = width_of (l, l->size, br__text_string (&t)), x = l->width - MARGIN - 2 * BR_PAGE_INCH - wide;
  int32_t base = put (l, x, l->y, 0, l->size, 0, br__text_string (&t), 1);
  put_line (l, x + wide + l->size / 3, l->y + base, l->width - MARGIN, l->y + base, THIN);
  br__text_clear (&t);
}

/* What ROOM gets of what the page leaves, but no more than twice the room; or what it, which may give GIVE, loses of what the page
   lacks.  */
static int32_t
more_room (const layout *l, int32_t room, int32_t give)
{
  size_t at = (size_t) l->sheet_of_paper - 1;
  if (l->measuring || l->on_page[at] == 0)
    return 0;
  if (l->free[at] < 0)
    {
      int64_t lost = l->gives[at] ? (-(int64_t) l->free[at] * give + l->gives[at] - 1) / l->gives[at] : 0;
      return lost < room ? -(int32_t) lost : -room;
    }
  int32_t share = l->free[at] / (int32_t) l->on_page[at];
  return share < room ? share : room;
}

/* What the words of TASK that are not explained yet take at the foot.  */
static int32_t
notes_of (layout *l, const br__task *task)
{
  unsigned told = l->told;
  int32_t high = 0;
  const char *word;
  while ((word = br__next_word (l->w, task, &told)) != NULL)
    high += put (l, MARGIN, 0, l->width - 2 * MARGIN, l->w->large ? l->size : SMALL, 0, word, 0);
  return high;
}

/* A problem HIGH, whose room may give GIVE, on this page or on another: it stays where it fits when all on the page stand as close
   as they can.  */
static void
begin_problem (layout *l, const br__task *task, int32_t high, int32_t give, size_t *count)
{
  int full = l->measuring ? l->y + high + notes_of (l, task) - give - l->give - l->size > lower_end (l) : *count == l->on_page[l->sheet_of_paper - 1];
  const char *word;
  if (full)
    {
      end_page (l, *count);
      *count = 0;
      new_page (l);
    }
  ++*count;
  l->give += give;
  while ((word = br__next_word (l->w, task, &l->told)) != NULL)
    put_note (l, word);
}

static void
put_problem (layout *l, const br__task *task, size_t index, size_t *count)
{
  int ruler = task->problem && task->problem->topic->picture, figure = task->problem && br__has_figure (task->problem);
  int32_t room = task->room * BR_PAGE_INCH / 4, answer = l->size * 5 / 2, picture = ruler ? ruler_height (l) : 0, least = room / 2;
  br__figure f;
  if (figure)
    {
      br__figure_make (&f, task->problem, l->w->large ? l->size : l->size * 5 / 6, 0);
      picture = is_narrow (l, &f) ? 0 : f.height + l->size / 2;
      least = is_narrow (l, &f) && f.height > least ? f.height : least;
      room = least > room ? least : room;
    }
  int32_t give = room - least;
  char number[24];
  /* Which page it stands on is known when it is drawn: so is its height then.  */
  int32_t words = l->measuring ? put_wording (l, task, 0) : 0;
  begin_problem (l, task, words + l->size / 2 + room + answer + picture, give, count);
  snprintf (number, sizeof number, "%zu.", index + 1);
  l->role = "H2";
  put (l, MARGIN, l->y, 0, l->size, 1, number, 1);
  l->role = NULL;
  l->y += (l->measuring ? words : put_wording (l, task, 1)) + l->size / 2;
  if (ruler)
    put_ruler (l, task->problem);
  else if (figure && !l->measuring)
    {
      begin_picture (l, task->problem);
      put_figure (l, &f);
      l->painter->tag (l->page, NULL, NULL);
    }
  l->y += (figure ? picture : 0) + room + more_room (l, room, give);
  if (!l->measuring)
    put_answer_line (l);
  l->y += answer;
}

/* DRAW 0 only measures; returns the height.  */
static int32_t
put_row (layout *l, int32_t indent, int bold, const char *text, int draw)
{
  int32_t x = MARGIN + NUMBER_WIDTH + indent, width = text_width (l) - indent;
  int32_t high = put (l, x, l->y, width, l->size, bold, text, 0);
  if (draw)
    {
      need (l, high);
      put (l, x, l->y, width, l->size, bold, text, 1);
      l->y += high;
    }
  return high;
}

static int32_t
put_key_rows (layout *l, const br__task *task, int draw)
{
  br_text t = BR_TEXT_ZERO;
  int32_t high = put_row (l, 0, 0, br__text_string (&task->text), draw);
  br__text_printf (&t, "Answer: %s", br__text_string (&task->answer));
  high += put_row (l, 0, 1, br__text_string (&t), draw);
  for (size_t i = 0; i < task->steps.count; i++)
    {
      br__text_reset (&t);
      br__put_step (&t, br__text_string (&task->steps.rows[i]));
      high += put_row (l, BR_PAGE_INCH / 4, 0, br__text_string (&t), draw);
    }
  for (unsigned i = 0; i < task->wrong_count && i < BR__WRONG_IN_KEY; i++)
    {
      br__text_reset (&t);
      br__text_printf (&t, "Not %s: %s; %s.", br__text_string (&task->wrong[i]), br__mistake_name (task->mistake[i]),
                       br__mistake_shows (task->mistake[i]));
      high += put_row (l, BR_PAGE_INCH / 4, 0, br__text_string (&t), draw);
    }
  br__text_clear (&t);
  return high;
}

/* A problem stays on one page with all its steps, unless they are more than a page holds.  */
static void
put_key (layout *l, const br__task *task, size_t index)
{
  br_text t = BR_TEXT_ZERO;
  need (l, put_key_rows (l, task, 0));
  br__text_printf (&t, "%zu.", index + 1);
  put (l, MARGIN, l->y, 0, l->size, 1, br__text_string (&t), 1);
  put_key_rows (l, task, 1);
  l->y += l->size;
  br__text_clear (&t);
}

static void
lay_out (layout *l)
{
  size_t count = 0;
  l->sheet_of_paper = 0;
  l->told = 0;
  new_page (l);
  for (size_t i = 0; i < l->w->problem_count; i++)
    if (l->key)
      put_key (l, &l->tasks[i], i);
    else
      put_problem (l, &l->tasks[i], i, &count);
  end_page (l, count);
}

/* A paper is put down when all of its problems are known.  */
static br_status
page_task (void *user, const br__worksheet *w, br__task *task, size_t paper, size_t version, size_t index)
{
  layout *l = user;
  br__task *kept = &l->tasks[index];
  br__task_clear (kept);
  *kept = *task;
  memset (task, 0, sizeof *task);
  if (index + 1 < w->problem_count)
    return BR_OK;
  l->paper = paper;
  l->version = version;
  l->measuring = 1;
  lay_out (l);
  l->sheets = l->sheet_of_paper;
  l->measuring = 0;
  lay_out (l);
  /* The next paper begins on a front side.  */
  if (w->duplex && !l->key && l->sheets % 2 && paper + 1 < br__papers_of (w))
    l->painter->next (l->page);
  return BR_OK;
}

br_status
br__page_start (const br_painter **painter, br_page **page, br__run *run, int32_t width, int32_t height, const char *title)
{
  if (!run->sheet->painter)
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "this program cannot draw pages");
      br__hint (run->error, "write into a .txt, .html or .csv file");
      return BR_DOMAIN;
    }
  *painter = run->sheet->painter (run->sheet->painter_user, run->error);
  if (!*painter)
    return run->error && run->error->status != BR_OK ? run->error->status : BR_IO;
  return (*painter)->open (page, "pdf", width, height, title, run->error);
}

br_status
br__page_end (const char *path, const br_painter *painter, br_page *page, br__run *run)
{
  char *bytes = NULL;
  size_t length = 0;
  br_status status = painter->close (&bytes, &length, page, run->error);
  if (status == BR_OK)
    {
      status = br__file_put (run, path, BR__CONTENT_PDF, bytes, length);
      painter->release (bytes);
    }
  return status;
}

br_status
br__worksheet_pdf (const char *path, const br__worksheet *w, br__run *run, int key)
{
  const br__paper *paper = w->paper ? w->paper : br__paper_find ("letter", 6);
  /* A page has a problem at least.  */
  layout l = { .w = w, .key = key, .tasks = br__alloc_zero (w->problem_count, sizeof *l.tasks),
               .on_page = br__alloc_zero (w->problem_count + 1, sizeof *l.on_page), .free = br__alloc_zero (w->problem_count + 1, sizeof *l.free),
               .gives = br__alloc_zero (w->problem_count + 1, sizeof *l.gives) };
  l.width = (int32_t) (paper->width_num * BR_PAGE_INCH / paper->width_den);
  l.height = (int32_t) (paper->height_num * BR_PAGE_INCH / paper->height_den);
  /* A key is the teacher's, in ordinary print.  */
  l.size = (key ? 10 : w->large ? 18 : 12) * POINT;
  const br__sentences *words = key ? NULL : w->words;
  const char *title = w->title ? w->title : br__sentences_find (words, "Worksheet");
  br_status status = l.tasks && l.on_page && l.free && l.gives ? br__page_start (&l.painter, &l.page, run, l.width, l.height, title)
                                                    : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    l.painter->tag (l.page, "Document", br__sentences_language (words));
  if (status == BR_OK && (status = br__each_task (run, w, key, key ? "drawing the key" : "drawing papers", page_task, &l)) != BR_OK)
    l.painter->drop (l.page);
  else if (status == BR_OK)
    {
      l.painter->tag (l.page, NULL, NULL);
      status = br__page_end (path, l.painter, l.page, run);
    }
  for (size_t i = 0; l.tasks && i < w->problem_count; i++)
    br__task_clear (&l.tasks[i]);
  br__free (l.tasks);
  br__free (l.on_page);
  br__free (l.free);
  br__free (l.gives);
  return status;
}
