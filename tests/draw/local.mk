# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of drawings.

TESTS += tests/draw/paper.tap
EXTRA_DIST += tests/draw/paper.tap

if HAVE_CMOCKA
draw_tests = tests/draw/figure tests/draw/measured tests/draw/pdf tests/draw/width
check_PROGRAMS += $(draw_tests)
TESTS += $(draw_tests)
DRAW_TEST_CFLAGS = $(TEST_CFLAGS) -pthread
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
tests_draw_width_SOURCES = tests/draw/width.c tests/check.h
tests_draw_width_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_width_CFLAGS = $(TEST_CFLAGS)
tests_draw_width_LDADD = $(TEST_LIBS)
endif
