/* SPDX-License-Identifier: LGPL-3.0-or-later
   page.h - pages through cairo and pango: lines, arcs, text with proper fractions, rulers; to PDF,
   SVG and PNG.  Sizes are 72,000ths of an inch as in the section "Pages" of benchrule_sheet.h.

   The same calls give the same bytes: no date goes into a file.  Black on
   white alone.  */
#ifndef BR_PAGE_PAGE_H
#define BR_PAGE_PAGE_H

#include <cairo.h>
#include <pango/pangocairo.h>

#include "benchrule_sheet.h"
#include "page/update.h"

/* Points of 1/72 in, cairo's own unit, in N.  */
#define BR__POINTS(n) ((double) (n) / (BR_PAGE_INCH / 72.0))

/* A word that has been shaped once and is drawn often.  */
typedef struct br__shape br__shape;
typedef struct br__batch br__batch;

struct br_page
{
  cairo_surface_t *surface;
  cairo_t *cairo;
  PangoContext *context;
  br__shape *shapes;            /* by font and word */
  br__batch *batch;             /* glyphs that wait; NULL at first */
  int png;
  struct br__tags *tags;        /* what is open, and descriptions; NULL at first */
  int pdf;
  int turned, high;             /* the text at hand */
  int lines;                    /* some wait in cairo's path, */
  int32_t line_width;
  int dashes;                   /* to be drawn so */
  char missing[BR_PAGE_MISSING];
  int failed;                   /* memory ran out */
  br__bytes file;               /* so far */
};

/* fraction.c: words, and fractions as words.  */
void br__shapes_free (br_page *page);
void br__page_missing (char letters[BR_PAGE_MISSING], const br_page *page);
int32_t br__page_text (br_page *page, int32_t *width, const br_page_text *text, int draw);
/* ruler.c */
void br__page_ruler (br_page *page, const br_page_ruler *ruler);
/* room.c */
/* BR_OK where a page can be begun: there is a font, memory, a thread.  glib, which pango is built on, ends the program where it finds no memory or no thread.
   INK: bytes of its picture.  */
br_status br__page_room (size_t ink, br_error *error);
/* 1 where there is memory for one page or one word more.  */
int br__page_room_again (void);
/* For CAIRO's surface; given back by g_object_unref.  */
PangoContext *br__page_context (cairo_t *cairo);

/* page.c
   Successive lines of the same width are joined into one path, even with text between them: a path takes more space in the file
   than its lines.  */
/* Draws the pending lines.  */
void br__page_flush (br_page *page);
/* Lines added to cairo's path after this call are pending, to be drawn with this width and these dashes.  */
void br__page_begin_line (br_page *page, int32_t width, int dashes);
br_status br__page_fail (br_error *error, br_status status, const char *message);
void br__page_line (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1, int32_t width,
                    int dashed);

/* tag.c */
void br__page_tag (br_page *page, const char *role, const char *description);
void br__tags_free (br_page *page);
/* Gives the PDF that is done its language, and its figures their descriptions.  0: out of memory.  */
int br__tags_finish (br_page *page);

/* The painter that the program registers; found by its name in the module.  */
BR_API extern const br_painter br_draw_painter;

#endif
