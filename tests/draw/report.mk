# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of the page that a sheet becomes, and of the view in the terminal.
EXTRA_DIST += tests/draw/browser.tap tests/draw/terminal.tap
TESTS += tests/draw/browser.tap tests/draw/terminal.tap

if HAVE_CMOCKA
check_PROGRAMS += tests/draw/report
TESTS += tests/draw/report
tests_draw_report_SOURCES = tests/draw/report.c tests/draw/html.h tests/lesson/support.h tests/sheet/support.h \
  tests/check.h
tests_draw_report_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_report_CFLAGS = $(TEST_CFLAGS) -pthread
tests_draw_report_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/draw/view
TESTS += tests/draw/view
tests_draw_view_SOURCES = tests/draw/view.c tests/sheet/support.h tests/check.h
tests_draw_view_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_view_CFLAGS = $(TEST_CFLAGS) -pthread
tests_draw_view_LDADD = $(TEST_LIBS) -lm
endif
