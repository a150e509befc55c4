# SPDX-License-Identifier: LGPL-3.0-or-later
# Drawings as strokes, their files, and a sheet as a page of HTML: of the core.
libbenchrule_core_la_SOURCES += \
  lib/draw/canvas.c \
  lib/draw/canvas.h \
  lib/draw/dimension_line.c \
  lib/draw/dimension_line.h \
  lib/draw/dimension_place.c \
  lib/draw/draw.c \
  lib/draw/draw.h \
  lib/draw/draw_record.c \
  lib/draw/ink_map.c \
  lib/draw/ink_map.h \
  lib/draw/label.c \
  lib/draw/layout.c \
  lib/draw/left_out.c \
  lib/draw/paint.c \
  lib/draw/paperwork.c \
  lib/draw/plot.c \
  lib/draw/plot.h \
  lib/draw/report.c \
  lib/draw/report.h \
  lib/draw/report_cut.c \
  lib/draw/report_figure.c \
  lib/draw/report_rows.c \
  lib/draw/side.c \
  lib/draw/svg.c \
  lib/draw/template.c \
  lib/draw/tile.c \
  lib/draw/title.c \
  lib/draw/view.c \
  lib/draw/view.h

# Pages: a module that the program opens when a page is asked for, so that cairo and pango take no
# time from a plain sum.
pkglib_LTLIBRARIES = libbenchrule-draw.la
libbenchrule_draw_la_SOURCES = \
  lib/draw/fraction.c \
  lib/draw/page.c \
  lib/draw/page.h \
  lib/draw/ruler.c
libbenchrule_draw_la_CPPFLAGS = $(AM_CPPFLAGS) $(PANGOCAIRO_CFLAGS)
libbenchrule_draw_la_CFLAGS = $(AM_CFLAGS) $(VISIBILITY_CFLAGS)
libbenchrule_draw_la_LDFLAGS = $(AM_LDFLAGS) -module -avoid-version -shared -no-undefined
libbenchrule_draw_la_LIBADD = $(PANGOCAIRO_LIBS) -lm
