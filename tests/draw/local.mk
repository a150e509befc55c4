# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of drawings, of the files that the program makes of them, of the view in the terminal and of the page that a
# sheet becomes.
draw_scripts = tests/draw/browser.tap tests/draw/files.tap tests/draw/paper.tap tests/draw/terminal.tap
TESTS += $(draw_scripts)
EXTRA_DIST += $(draw_scripts)

if HAVE_CMOCKA
draw_tests = tests/draw/draw tests/draw/figure tests/draw/measured tests/draw/pdf tests/draw/report tests/draw/sheets \
  tests/draw/view tests/draw/width
check_PROGRAMS += $(draw_tests)
TESTS += $(draw_tests)
DRAW_TEST_CFLAGS = $(TEST_CFLAGS) -pthread
tests_draw_draw_SOURCES = tests/draw/draw.c tests/draw/svg.h tests/lesson/support.h tests/sheet/support.h tests/check.h
tests_draw_draw_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_draw_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_draw_LDADD = $(TEST_LIBS)
tests_draw_figure_SOURCES = tests/draw/figure.c tests/draw/figure.h tests/sheet/support.h tests/check.h
tests_draw_figure_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_figure_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_figure_LDADD = $(TEST_LIBS) -lm
tests_draw_measured_SOURCES = tests/draw/measured.c tests/draw/figure.h tests/draw/svg.h tests/lesson/support.h \
  tests/sheet/support.h tests/check.h
tests_draw_measured_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_measured_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_measured_LDADD = $(TEST_LIBS) -lm
tests_draw_pdf_SOURCES = tests/draw/pdf.c tests/draw/pdf.h tests/draw/figure.h tests/draw/svg.h tests/lesson/support.h \
  tests/sheet/support.h tests/check.h
tests_draw_pdf_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_pdf_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_pdf_LDADD = $(TEST_LIBS) -lm
tests_draw_report_SOURCES = tests/draw/report.c tests/draw/html.h tests/lesson/support.h tests/sheet/support.h \
  tests/check.h
tests_draw_report_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_report_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_report_LDADD = $(TEST_LIBS)
tests_draw_sheets_SOURCES = tests/draw/sheets.c tests/lesson/support.h tests/sheet/support.h tests/check.h
tests_draw_sheets_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_sheets_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_sheets_LDADD = $(TEST_LIBS)
tests_draw_view_SOURCES = tests/draw/view.c tests/sheet/support.h tests/check.h
tests_draw_view_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_view_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_view_LDADD = $(TEST_LIBS) -lm
tests_draw_width_SOURCES = tests/draw/width.c tests/check.h
tests_draw_width_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_width_CFLAGS = $(TEST_CFLAGS)
tests_draw_width_LDADD = $(TEST_LIBS)
endif
