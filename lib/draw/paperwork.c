/* SPDX-License-Identifier: LGPL-3.0-or-later
   paperwork.c - what stands on the paper beside a figure, and the files that drawings become.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "exact/wide.h"
#include "draw/drawing.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "plot/ink_map.h"
#include "sheet/access.h"

#define PAD (BR__INCH / 8)            /* between the frame and the figure */
#define MOST_DOTS INT64_C (100000000) /* of a PNG */
#define DOTS_PER_INCH 144

void
br__paperwork_clear (br__paperwork *w)
{
  br_number_clear (&w->ratio);
  memset (w, 0, sizeof *w);
}

/* "quarter size, 1:4", "3 in = 1 ft, 1:4": as words and as a ratio.  */
static void
put_scale_words (br_text *t, const br_number *ratio, int inch)
{
  static const struct { int64_t drawn, full; const char *words; } names[] =
  {
    { 1, 1, "full size" }, { 1, 2, "half size" }, { 1, 4, "quarter size" }, { 1, 8, "eighth size" },
    { 2, 1, "double size" }
  };
  const br__scale_row *row;
  int64_t n = 0, d = 0;
  (void) br_number_get_ratio (&n, &d, ratio);
  for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
    if (names[i].drawn == n && names[i].full == d)
      br__text_printf (t, "%s, ", names[i].words);
  for (size_t i = 0; !t->length && (row = br__scale_at (i, inch)) != NULL; i++)
    if (row->words && row->drawn == n && row->full == d)
      br__text_printf (t, "%s, ", row->words);
  br__put_scale (t, ratio);
}

/* Copies what T holds into a field of SIZE bytes, cut at a character; fails with T.  */
static br_status
into_field (char *field, size_t size, br_text *t)
{
  size_t n = t->length;
  int failed = t->failed;
  if (n >= size)
    for (n = size - 1; n && ((unsigned char) t->bytes[n] & 0xC0) == 0x80; n--)
      continue;
  if (!failed && n)
    memcpy (field, t->bytes, n);
  field[failed ? 0 : n] = 0;
  br__text_clear (t);
  return failed ? BR_NO_MEMORY : BR_OK;
}

/* X inches at full size.  */
static br_status
number_to_paper (int64_t *z, const br_number *x)
{
  br_real real = BR_REAL_ZERO;
  br_status status = br_real_set_number (&real, x);
  if (status == BR_OK)
    status = br__to_paper (z, &real, NULL, 0);
  br_real_clear (&real);
  return status;
}

/* The square of the sheet, or what is usual; and what one stands for.  */
static br_status
set_squares (br__paperwork *w, const br__settings *s, const br_number *given)
{
  br_number size = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_style style = br__settings_style (s);
  const br_number *from = given ? given : br_number_sign (&s->grid) > 0 ? &s->grid : NULL;
  br_status status = from ? br_number_set (&size, from)
                     : w->metric ? br_number_set_ratio (&size, 25, 127) : br_number_set_ratio (&size, 1, 4);
  if (status == BR_OK)
    status = number_to_paper (&w->grid, &size);
  if (status == BR_OK)
    status = br_number_div (&size, &size, &w->ratio);
  if (status == BR_OK)
    {
      br__text_puts (&t, "1 square is ");
      br__put_measure (&t, &size, BR_LENGTH, &style);
      status = into_field (w->square, sizeof w->square, &t);
    }
  br_number_clear (&size);
  return status;
}

static int64_t
ratio_of_inch (int64_t num, int64_t den)
{
  br__wide twice = br__wide_add (br__wide_product (num, BR__INCH * 2), br__wide_of (den));
  return br__wide_low (br__wide_over (twice, br__wide_of (2 * den)));
}

static br_status
set_paper (br__paperwork *w, const br__settings *s, const br__paper *paper, int landscape)
{
  br__settings look = *s;       /* borrowed, for the margin of this paper */
  br_number margin = BR_NUMBER_ZERO;
  const br_unit *unit;
  look.paper = paper ? paper : br__settings_paper (s);
  int64_t wide = ratio_of_inch (look.paper->width_num, look.paper->width_den);
  int64_t high = ratio_of_inch (look.paper->height_num, look.paper->height_den);
  w->paper = look.paper->shown;
  w->paper_width = landscape ? high : wide;
  w->paper_height = landscape ? wide : high;
  br_status status = br__settings_margin (&margin, &unit, &look);
  if (status == BR_OK)
    status = number_to_paper (&w->margin, &margin);
  br_number_clear (&margin);
  return status;
}

br_status
br__paperwork_make (br__paperwork *w, br__run *run, const char *what, const br_number *ratio,
                    const br_number *grid, const br__paper *paper, int landscape)
{
  const br_sheet *sheet = run->sheet;
  const char *unit = sheet->settings.unit->name;
  br__paperwork made = { .title = sheet->title ? sheet->title : "No title", .date = sheet->date ? sheet->date : "",
                         .what = what };
  br_text t = BR_TEXT_ZERO;
  int inch = strcmp (unit, "in") == 0 || strcmp (unit, "ft") == 0;
  made.metric = !inch;
  made.unit = inch && !sheet->settings.feet && unit[0] == 'i' ? "inches" : inch ? "feet and inches" : unit;
  br_status status = br_number_set (&made.ratio, ratio);
  if (status == BR_OK)
    status = set_squares (&made, &sheet->settings, grid);
  if (status == BR_OK)
    status = set_paper (&made, &sheet->settings, paper, landscape);
  if (status == BR_OK)
    {
      put_scale_words (&t, ratio, inch);
      status = into_field (made.scale, sizeof made.scale, &t);
    }
  if (status != BR_OK)
    {
      br__paperwork_clear (&made);
      return status;
    }
  br__paperwork_clear (w);
  *w = made;
  return BR_OK;
}

br__area
br__paper_room (const br__paperwork *w)
{
  int64_t corner = br__next_line (w->margin + PAD, BR__FINE, 0);
  int64_t right = w->paper_width - w->margin - PAD, foot = w->paper_height - w->margin - br__block_height (w) - PAD;
  return (br__area) { corner, corner, right - right % BR__FINE, foot - foot % BR__FINE };
}

/* ---- Files ---- */

const char *
br__picture_form (const char *path)
{
  static const char *const forms[] = { "pdf", "svg", "png" };
  size_t n = strlen (path);
  for (size_t i = 0; i < 3; i++)
    if (n > 4 && path[n - 4] == '.' && br__same_word (path + n - 3, 3, forms[i]))
      return forms[i];
  return NULL;
}

/* FIGURE in the middle of a sheet of its own; squares fill the frame, but not what is read below or beside the figure.  */
static void
compose (br__plot *page, const br__plot *figure, const br__paperwork *w, const char *extra)
{
  br__area room = br__paper_room (w);
  br__area frame = { w->margin, w->margin, w->paper_width - w->margin, w->paper_height - w->margin };
  int64_t dx = br__next_line (room.x + (room.x2 - room.x - figure->width) / 2 - BR__FINE / 2, BR__FINE, 0);
  int64_t dy = br__next_line (room.y + (room.y2 - room.y - figure->height) / 2 - BR__FINE / 2, BR__FINE, 0);
  page->width = w->paper_width;
  page->height = w->paper_height;
  int64_t low = figure->table || figure->figure_right ? figure->table_top + dy : frame.y2 - br__block_height (w);
  int64_t right = figure->figure_right ? figure->figure_right + dx : frame.x2;
  br__area holes[BR__MOST_PIECES];
  for (size_t i = 0; i < figure->piece_count; i++)
    holes[i] = (br__area) { figure->pieces[i].x + dx - BR__FREE_AIR, figure->pieces[i].y + dy - BR__FREE_AIR, figure->pieces[i].x2 + dx + BR__FREE_AIR,
                            figure->pieces[i].y2 + dy + BR__FREE_AIR };
  if (figure->squares)
    br__plot_grid (page, (br__area) { frame.x, frame.y, right, low }, w->grid, figure->square_x + dx, figure->square_y + dy, holes,
                   figure->piece_count);
  br__plot_join (page, figure, figure->squares, dx, dy, NULL);
  if (!w->bare)
    br__title_block (page, w, frame, extra);
}

/* Paper as large as FIGURE needs.  */
static void
stretch (br__paperwork *w, const br__plot *figure)
{
  br__area room = br__paper_room (w);
  int64_t wide = figure->width - (room.x2 - room.x), high = figure->height - (room.y2 - room.y);
  w->paper_width += wide > 0 ? br__next_line (wide, BR__INCH / 4, 0) : 0;
  w->paper_height += high > 0 ? br__next_line (high, BR__INCH / 4, 0) : 0;
}

static br_status
write_svg (br__run *run, const br__plot *page, const char *title, const char *description, const char *path)
{
  br_text t = BR_TEXT_ZERO;
  br__put_svg (&t, page, title, description, 0);
  br_status status = t.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0)
                              : br__file_put (run, path, BR__CONTENT_SVG, t.bytes, t.length);
  br__text_clear (&t);
  return status;
}

/* One sheet, as large as it must be.  */
static br_status
write_one (br__run *run, const br__plot *figure, br__paperwork *w, const char *form, const char *title,
           const char *description, const char *path)
{
  br__plot page = { .inks = NULL };
  br_status status = BR_OK;
  stretch (w, figure);
  int64_t square_inches = (w->paper_width / BR__INCH + 1) * (w->paper_height / BR__INCH + 1);
  if (strcmp (form, "png") == 0 && square_inches > MOST_DOTS / (DOTS_PER_INCH * DOTS_PER_INCH))
    {
      status = br__fail (run->error, BR_TOO_BIG, 0, 0,
                         "a picture of %" PRId64 " by %" PRId64 " in is too large for dots", w->paper_width / BR__INCH,
                         w->paper_height / BR__INCH);
      br__hint (run->error, "write into a .pdf or .svg file, or at a smaller scale");
      return status;
    }
  compose (&page, figure, w, NULL);
  if (page.failed)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  else if (strcmp (form, "svg") == 0)
    status = write_svg (run, &page, title, description, path);
  else
    status = br__paint (run, &page, 1, form, title, description, path);
  br__plot_clear (&page);
  return status;
}

/* Appends the MORE pages at FROM, which it takes over, to those at *PAGES.  */
static br_status
append_pages (br__plot **pages, size_t *count, br__plot *from, size_t more)
{
  br__plot *all = br__alloc_zero (*count + more, sizeof *all);
  if (!all)
    {
      br__plots_free (from, more);
      return BR_NO_MEMORY;
    }
  if (*count)
    memcpy (all, *pages, *count * sizeof *all);
  memcpy (all + *count, from, more * sizeof *all);
  br__free (*pages);
  br__free (from);
  *pages = all;
  *count += more;
  return BR_OK;
}

/* Adds the sheet, or the sheets, of FIGURE, which is number NUMBER of ALL.  */
static br_status
add_sheet (br__plot **pages, size_t *count, br__run *run, const br__plot *figure, const br__paperwork *w, size_t number, size_t all)
{
  br__area room = br__paper_room (w);
  br__plot *made = NULL;
  size_t more = 1;
  char extra[60];
  br_status status = BR_OK;
  snprintf (extra, sizeof extra, "%zu of %zu", number, all);
  if (figure->width > room.x2 - room.x || figure->height > room.y2 - room.y)
    status = br__tile (&made, &more, figure, w, run);
  else if ((made = br__alloc_zero (1, sizeof *made)) != NULL)
    compose (made, figure, w, extra);
  if (status == BR_OK && (!made || made->failed))
    {
      br__plots_free (made, made ? more : 0);
      status = BR_NO_MEMORY;
    }
  if (status == BR_OK)
    status = append_pages (pages, count, made, more);
  return br__fail_untold (run->error, status, 0, 0);
}

br_status
br__draw_sheets (size_t *pages, br__run *run, const br__plot *figures, size_t count, const br__paperwork *w,
                 const char *description, const char *path)
{
  br__paperwork sheet = *w;     /* borrowed */
  br__plot *all = NULL;
  size_t made = 0;
  br_text title = BR_TEXT_ZERO;
  br_status status = BR_OK;
  sheet.square[0] = 0;
  br__text_printf (&title, "%s: %s, %s", w->title, w->what, w->scale);
  if (title.failed)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    status = add_sheet (&all, &made, run, &figures[i], &sheet, i + 1, count);
  if (status == BR_OK)
    status = br__paint (run, all, made, "pdf", br__text_string (&title), description, path);
  if (status == BR_OK)
    *pages = made;
  br__plots_free (all, made);
  br__text_clear (&title);
  return status;
}

static br_status
write_many (size_t *count, br__run *run, const br__plot *figure, const br__paperwork *w, const char *title,
            const char *description, const char *path)
{
  br__plot *pages = NULL;
  size_t made = 0;
  br_status status = br__tile (&pages, &made, figure, w, run);
  if (status == BR_OK)
    status = br__paint (run, pages, made, "pdf", title, description, path);
  if (status == BR_OK)
    *count = made;
  br__plots_free (pages, made);
  return status;
}

br_status
br__draw_file (size_t *pages, br__run *run, const br__plot *figure, const br__paperwork *w,
               const char *description, const char *path)
{
  const char *form = br__picture_form (path);
  br__paperwork sheet = *w;     /* borrowed, to be stretched */
  br__area room = br__paper_room (w);
  br_text title = BR_TEXT_ZERO;
  br_status status;
  if (!figure->squares)
    sheet.square[0] = 0;
  br__text_printf (&title, "%s: %s, %s", w->title, w->what, w->scale);
  if (title.failed || figure->failed)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  else if (strcmp (form, "pdf") == 0 && !w->bare && (figure->width > room.x2 - room.x || figure->height > room.y2 - room.y))
    status = write_many (pages, run, figure, &sheet, br__text_string (&title), description, path);
  else
    {
      status = write_one (run, figure, &sheet, form, br__text_string (&title), description, path);
      if (status == BR_OK)
        *pages = 1;
    }
  br__text_clear (&title);
  return status;
}
