/* SPDX-License-Identifier: LGPL-3.0-or-later
   report_figure.c - the side view inside the page, at the largest standard scale that a printed page has room for.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/wide.h"
#include "draw/drawing.h"
#include "report/report.h"
#include "exact/status.h"
#include "file/markup.h"

/* Letter and A4 paper with the margins of the page have room for these, beside other sections and, with a table, alone.  */
#define ROOM_WIDTH (BR__INCH * 29 / 4)
#define ROOM_HEIGHT (BR__INCH * 13 / 2)
#define WHOLE_HEIGHT (BR__INCH * 17 / 2)

typedef struct figure
{
  br__paperwork w;
  br__side_view view;
  br__plot plot;
  br__draw_result found;
  int too_large;                /* at the sheet's scale: it is drawn at another */
  int64_t room_height, whole_height;
  const char *crowd;            /* what there is too much of for a drawing, over MOST, or NULL */
  int most;
  int alone;                    /* without the table of places, which has no room on a page of lists */
} figure;

/* Removes the table; the legend of the numbers in the drawing, "(1) ...", is above it and stays.  */
static void
drop_table (br__plot *p)
{
  size_t first = p->table;
  if (!first)
    return;
  while (first < p->count && p->inks[first].text && p->inks[first].text[0] == '(')
    {
      p->table_top = p->inks[first].y + p->inks[first].size;
      first++;
    }
  br__plot_cut (p, first);
  /* One beside the figure begins near its top.  */
  if (p->table_top > p->height / 3)
    p->height = p->table_top;
  p->table = 0;
}

static br_status
draw_at (figure *f, br__run *run, const br_number *ratio)
{
  /* Scale after scale is tried, each of which takes its time.  */
  br_status status = br__stopped (run) ? br__fail_stopped (run)
                     : br__paperwork_make (&f->w, run, "side view", ratio, NULL, NULL, 0);
  if (status == BR_OK)
    status = br__view_make (&f->view, run, ratio, NULL, NULL);
  if (status == BR_OK)
    status = br__draw_side (&f->plot, &f->found, run, &f->view, f->w.grid, ROOM_WIDTH, f->whole_height);
  if (status == BR_OK && f->alone)
    drop_table (&f->plot);
  return status;
}

/* 1 if the figure fits on the page.  */
static int
fits (const figure *f)
{
  const int table = f->found.unmeasured + f->found.unlabelled > 0;
  return f->plot.width <= ROOM_WIDTH && f->plot.height <= (table ? f->whole_height : f->room_height);
}

/* The same without its table, which may be longer than a page.  */
static int
fits_alone (const figure *f)
{
  return f->plot.width <= ROOM_WIDTH && (f->plot.table ? f->plot.table_top : f->plot.height) <= f->whole_height;
}

/* Without dimension lines it may go in at ROW; FULL is at full size.  */
static int
may_go_in (const br__scale_row *row, br__area full, int64_t room_height)
{
  return br__compare_products (full.x2 - full.x, row->drawn, ROOM_WIDTH, row->full) <= 0
         && br__compare_products (full.y2 - full.y, row->drawn, room_height, row->full) <= 0;
}

static br_status
draw (figure *f, br__run *run)
{
  const br__scale_row *row, *alone = NULL;
  br_number ratio = BR_NUMBER_ZERO;
  int done = 0;
  br_status status = br_number_set_int (&ratio, 1);
  if (status == BR_OK)
    status = br__paperwork_make (&f->w, run, "side view", &ratio, NULL, NULL, 0);
  if (status == BR_OK)
    status = br__view_make (&f->view, run, &ratio, NULL, NULL);
  if (status == BR_OK && (f->crowd = br__crowd_of (&f->most, &f->view, run->sheet)) != NULL)
    status = BR_TOO_BIG;
  br__area full = f->view.reach;
  int inch = !f->w.metric;
  if (status == BR_OK && run->sheet->settings.scale_given)
    {
      status = draw_at (f, run, &run->sheet->settings.scale);
      done = status == BR_OK && fits (f);
      f->too_large = !done;
      status = status == BR_TOO_BIG ? BR_OK : status;
    }
  for (size_t i = 0; !done && status == BR_OK && (row = br__scale_at (i, inch)) != NULL; i++)
    if ((may_go_in (row, full, f->room_height) && br__scale_is_usual (row, inch)) || !br__scale_at (i + 1, inch))
      {
        status = br_number_set_ratio (&ratio, row->drawn, row->full);
        if (status == BR_OK)
          status = draw_at (f, run, &ratio);
        done = fits (f);
        /* No smaller than half of what has room itself: the table does not get shorter.  */
        if (alone && br__compare_products (2 * row->drawn, alone->full, row->full, alone->drawn) <= 0)
          break;
        alone = !alone && status == BR_OK && fits_alone (f) ? row : alone;
      }
  if (!done && alone && status == BR_OK)
    status = br_number_set_ratio (&ratio, alone->drawn, alone->full);
  if (!done && alone && status == BR_OK)
    status = draw_at (f, run, &ratio);
  br_number_clear (&ratio);
  return status;
}

static void
put_caption (br_text *t, const figure *f)
{
  br__text_puts (t, "<figcaption>The scale is ");
  br__put_fractions (t, f->w.scale);
  br__text_puts (t, " when this page is printed at 100 %");
  br__text_puts (t, *f->w.square ? "; " : "");
  br__put_fractions (t, f->w.square);
  br__text_puts (t, ".");
  if (f->too_large)
    br__text_puts (t, " At the scale of the sheet it is too large for this page.");
  if (f->found.loose)
    br__text_puts (t, " What is dashed is not tied down yet: its size or place is made up.");
  br__text_puts (t, "</figcaption>");
}

/* The width in pixels of a screen at which the smallest letters of P have LEAST_LETTER: on a phone the drawing scrolls.  */
#define LEAST_LETTER 11
static int
least_width (const br__plot *p)
{
  int64_t least = BR__INCH, width = p->width / 1000000;
  for (size_t i = 0; i < p->count; i++)
    if (p->inks[i].type == BR__INK_TEXT && p->inks[i].size < least)
      least = p->inks[i].size;
  least /= 1000000;
  return least > 0 ? (int) ((width * LEAST_LETTER + least - 1) / least) : 0;
}

/* Writes a line of known length, to check whether the printer kept the size.  */
static void
put_check_line (br_text *t, int metric)
{
  const char *length = metric ? "50 mm" : "2 in";
  br__text_printf (t, "<p class=\"check\"><span role=\"img\" aria-label=\"a line of %s\" style=\"width:%s\"></span> ", length,
                   metric ? "50mm" : "2in");
  br__text_printf (t, "On paper this line is %s long. If it is not, print at 100 %%.</p>\n", length);
}

br_status
br__report_figure (br__report *p)
{
  br_text *t = &p->sections[BR__REPORT_DRAWING].remark;
  br_text title = BR_TEXT_ZERO, words = BR_TEXT_ZERO;
  figure f = { .w = BR__PAPERWORK_ZERO, .view = BR__VIEW_ZERO, .plot = { .inks = NULL }, .room_height = p->room_height ? p->room_height : ROOM_HEIGHT,
               .whole_height = p->room_height ? p->room_height : WHOLE_HEIGHT,
               .alone = p->plot != NULL };
  br_status status = draw (&f, p->run);
  if (status == BR_OK)
    status = br__put_description (&words, p->run->sheet, &f.view);
  if (status == BR_OK)
    {
      br__text_printf (&title, "%s, %s", f.w.what, f.w.scale);
      br__text_printf (t, "<figure><div class=\"scroll\" role=\"region\" aria-label=\"The side view\" tabindex=\"0\">"
                          "<div class=\"fit\" style=\"min-width:%dpx\">", least_width (&f.plot));
      br__put_svg (t, &f.plot, br__text_string (&title), br__text_string (&words), 1);
      br__text_puts (t, "</div></div>");
      put_caption (t, &f);
      put_check_line (t, f.w.metric);
      br__text_puts (t, "</figure>\n");
      status = title.failed || words.failed || f.plot.failed ? BR_NO_MEMORY : BR_OK;
      if (status == BR_OK && !p->run->sheet->settings.scale_given)
        status = br_number_set (&p->scale, &f.w.ratio);
      if (p->plot)
        {
          *p->plot = f.plot;
          memset (&f.plot, 0, sizeof f.plot);
        }
    }
  /* A page without a picture is of use, too.  */
  if (status == BR_TOO_BIG)
    {
      if (f.crowd)
        br__text_printf (t, "<p>More than %d %s are too many for one drawing.</p>\n", f.most, f.crowd);
      else
        br__text_puts (t, "<p>A shape reaches too far to be drawn.</p>\n");
      status = BR_OK;
    }
  else if (status != BR_OK)
    br__fail_plain (p->run->error, status, 0, 0);
  br__text_clear (&title);
  br__text_clear (&words);
  br__plot_clear (&f.plot);
  br__view_clear (&f.view);
  br__paperwork_clear (&f.w);
  return status;
}
