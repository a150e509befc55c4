# SPDX-License-Identifier: GPL-3.0-or-later
# Pages through the module with cairo.
page_tests = tests/page/pdf \
  tests/page/update \
  tests/page/width
if HAVE_PAGES
unit_tests += $(page_tests)
endif
# The module shows the painter alone, so the source is built for the test once more.
tests_page_update_SOURCES = tests/page/update.c lib/page/update.c
tests_page_update_CPPFLAGS = $(AM_CPPFLAGS) $(PANGOCAIRO_CFLAGS)
tests_page_update_LDADD = $(LDADD) $(PANGOCAIRO_LIBS)
