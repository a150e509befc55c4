/* SPDX-License-Identifier: LGPL-3.0-or-later
   page.c - files of pages: surfaces, lines, arcs, and the bytes at the end.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include "page/page.h"

#define PNG_PER_INCH 144.0
#define MOST_INCHES 200
#define CURVES 0.005                  /* the greatest error of a curve for an arc, in points */

br_status
br__page_fail (br_error *error, br_status status, const char *message)
{
  if (error)
    {
      memset (error, 0, sizeof *error);
      error->status = status;
      snprintf (error->message, sizeof error->message, "%s", message);
    }
  return status;
}

static cairo_status_t
take_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  br_page *page = closure;
  return br__bytes_put (&page->file, (const char *) data, length) ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_NO_MEMORY;
}

/* No date goes in, so that the same calls give the same bytes.  */
static void
set_metadata (cairo_surface_t *surface, const char *title)
{
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "benchrule");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, "");
}

static void
make_surface (br_page *page, const char *form, int32_t width, int32_t height, const char *title)
{
  double w = BR__POINTS (width), h = BR__POINTS (height);
  if (strcmp (form, "pdf") == 0)
    {
      page->surface = cairo_pdf_surface_create_for_stream (take_bytes, page, w, h);
      page->pdf = 1;
      set_metadata (page->surface, title);
    }
  else if (strcmp (form, "svg") == 0)
    page->surface = cairo_svg_surface_create_for_stream (take_bytes, page, w, h);
  else
    {
      double scale = PNG_PER_INCH / 72;
      page->png = 1;
      page->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (w * scale), (int) ceil (h * scale));
      cairo_surface_set_device_scale (page->surface, scale, scale);
    }
}

static void
page_drop (br_page *page)
{
  br__shapes_free (page);
  br__tags_free (page);
  if (page->context)
    g_object_unref (page->context);
  cairo_destroy (page->cairo);
  if (page->surface)
    {
      cairo_surface_finish (page->surface);
      cairo_surface_destroy (page->surface);
    }
  free (page->file.bytes);
  free (page);
}

static br_status
page_open (br_page **page, const char *form, int32_t width, int32_t height, const char *title, br_error *error)
{
  const int32_t most = MOST_INCHES * BR_PAGE_INCH;
  if (strcmp (form, "pdf") != 0 && strcmp (form, "svg") != 0 && strcmp (form, "png") != 0)
    return br__page_fail (error, BR_DOMAIN, "pages are drawn as pdf, svg or png");
  if (width <= 0 || height <= 0 || width > most || height > most)
    return br__page_fail (error, BR_TOO_BIG, "a page must be over 0 and at most 200 in wide and high");
  size_t ink = strcmp (form, "png") == 0 ? (size_t) (width / 500 + 1) * (size_t) (height / 500 + 1) * 4 : 0;
  br_status room = br__page_room (ink, error);
  if (room != BR_OK)
    return room;
  br_page *made = calloc (1, sizeof *made);
  if (!made)
    return br__page_fail (error, BR_NO_MEMORY, "out of memory");
  make_surface (made, form, width, height, title);
  made->cairo = cairo_create (made->surface);
  if (cairo_status (made->cairo) != CAIRO_STATUS_SUCCESS)
    {
      br_status status = br__page_fail (error, BR_NO_MEMORY, cairo_status_to_string (cairo_status (made->cairo)));
      page_drop (made);
      return status;
    }
  if (made->png)
    {
      cairo_set_source_rgb (made->cairo, 1, 1, 1);
      cairo_paint (made->cairo);
    }
  cairo_set_source_rgb (made->cairo, 0, 0, 0);
  made->context = br__page_context (made->cairo);
  *page = made;
  return BR_OK;
}

static void
page_next (br_page *page)
{
  br__page_flush (page);
  page->failed |= !br__page_room_again ();
  if (!page->png)
    cairo_show_page (page->cairo);
}

static void
page_stroke (br_page *page, int32_t width, int dashes)
{
  /* Long dash and dot for centre lines (ISO 128-2, type 04.1; ASME Y14.2; from memory).  */
  static const double dash[] = { 6, 4 }, dash_dot[] = { 12, 2, 1, 2 };
  /* A PDF keeps its curves; how far they reach need not be known so well.  */
  cairo_set_tolerance (page->cairo, page->png ? CURVES : 0.1);
  cairo_set_line_width (page->cairo, BR__POINTS (width));
  cairo_set_dash (page->cairo, dashes == 2 ? dash_dot : dash, dashes == 2 ? 4 : dashes ? 2 : 0, 0);
  cairo_stroke (page->cairo);
}

void
br__page_flush (br_page *page)
{
  if (page->lines)
    page_stroke (page, page->line_width, page->dashes);
  page->lines = 0;
}

void
br__page_begin_line (br_page *page, int32_t width, int dashes)
{
  if (page->line_width != width || page->dashes != dashes)
    br__page_flush (page);
  page->lines = 1;
  page->line_width = width;
  page->dashes = dashes;
}

static void
add_arc (br_page *page, double x, double y, double r, int32_t from, int32_t to)
{
  const double turn = acos (-1.0) / 180e6;
  cairo_set_tolerance (page->cairo, CURVES);
  (to < from ? cairo_arc : cairo_arc_negative) (page->cairo, x, y, r, -from * turn, -to * turn);
}

static void
page_path (br_page *page, const br_page_step *steps, size_t count)
{
  br__page_flush (page);
  for (const br_page_step *s = steps; s < steps + count; s++)
    {
      double x = BR__POINTS (s->x), y = BR__POINTS (s->y);
      if (s->type == BR_STEP_MOVE)
        cairo_move_to (page->cairo, x, y);
      else if (s->type == BR_STEP_LINE)
        cairo_line_to (page->cairo, x, y);
      else if (s->type == BR_STEP_ARC)
        add_arc (page, x, y, BR__POINTS (s->r), s->from, s->to);
      else
        {
          /* The next step begins a new outline.  */
          cairo_close_path (page->cairo);
          cairo_new_sub_path (page->cairo);
        }
    }
}

void
br__page_line (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1, int32_t width, int dashed)
{
  br__page_begin_line (page, width, dashed);
  cairo_move_to (page->cairo, BR__POINTS (x0), BR__POINTS (y0));
  cairo_line_to (page->cairo, BR__POINTS (x1), BR__POINTS (y1));
}

static void
page_arc (br_page *page, int32_t x, int32_t y, int32_t radius, int32_t from, int32_t to, int32_t width,
          int dashed)
{
  br__page_begin_line (page, width, dashed);
  cairo_new_sub_path (page->cairo);
  add_arc (page, BR__POINTS (x), BR__POINTS (y), BR__POINTS (radius), from, to);
}

static void
page_pen (br_page *page, int32_t grey, int round)
{
  br__page_flush (page);
  cairo_set_source_rgb (page->cairo, grey / 1000.0, grey / 1000.0, grey / 1000.0);
  cairo_set_line_cap (page->cairo, round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
}

static void
page_fill (br_page *page, const int32_t *corners, size_t count)
{
  br__page_flush (page);
  for (size_t i = 0; i < count; i++)
    cairo_line_to (page->cairo, BR__POINTS (corners[2 * i]), BR__POINTS (corners[2 * i + 1]));
  cairo_close_path (page->cairo);
  cairo_fill (page->cairo);
}

static void
page_clip (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1)
{
  br__page_flush (page);
  cairo_reset_clip (page->cairo);
  if (x1 <= x0)
    return;
  cairo_rectangle (page->cairo, BR__POINTS (x0), BR__POINTS (y0), BR__POINTS (x1 - x0), BR__POINTS (y1 - y0));
  cairo_clip (page->cairo);
}

static br_status
page_close (char **bytes, size_t *length, br_page *page, br_error *error)
{
  br_status status = BR_OK;
  cairo_status_t trouble;
  br__page_flush (page);
  cairo_show_page (page->cairo);
  trouble = cairo_status (page->cairo);
  if (page->png && trouble == CAIRO_STATUS_SUCCESS)
    trouble = cairo_surface_write_to_png_stream (page->surface, take_bytes, page);
  cairo_surface_finish (page->surface);
  if (trouble == CAIRO_STATUS_SUCCESS)
    trouble = cairo_surface_status (page->surface);
  if (trouble != CAIRO_STATUS_SUCCESS || page->failed)
    status = br__page_fail (error, BR_NO_MEMORY, page->failed ? "out of memory" : cairo_status_to_string (trouble));
  else if (page->pdf && !br__tags_finish (page))
    status = br__page_fail (error, BR_NO_MEMORY, "out of memory");
  else
    {
      *bytes = page->file.bytes;
      *length = page->file.length;
      page->file.bytes = NULL;
    }
  page_drop (page);
  return status;
}

static void
page_release (char *bytes)
{
  free (bytes);
}

const br_painter br_draw_painter =
{
  page_open, page_next, br__page_line, page_arc, br__page_text, br__page_ruler, page_close, page_release,
  page_drop, page_pen, page_fill, page_clip, page_path, page_stroke, br__page_tag, br__page_missing
};
