# SPDX-License-Identifier: LGPL-3.0-or-later
# Pages: a module that the program opens when a page is asked for, so that cairo and pango take no
# time from a plain sum.
if HAVE_PAGES
pkglib_LTLIBRARIES = libbenchrule-draw.la
libbenchrule_draw_la_SOURCES = \
  lib/page/fraction.c \
  lib/page/page.c \
  lib/page/page.h \
  lib/page/page_ruler.c \
  lib/page/room.c \
  lib/page/tag.c \
  lib/page/update.c \
  lib/page/update.h
libbenchrule_draw_la_CPPFLAGS = $(LIB_CPPFLAGS) $(PANGOCAIRO_CFLAGS)
libbenchrule_draw_la_CFLAGS = $(LIB_CFLAGS) $(VISIBILITY_CFLAGS)
libbenchrule_draw_la_LDFLAGS = $(AM_LDFLAGS) -module -avoid-version -shared -no-undefined
libbenchrule_draw_la_LIBADD = $(PANGOCAIRO_LIBS) -lm
endif
