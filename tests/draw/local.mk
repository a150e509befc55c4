# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of drawings.

if HAVE_CMOCKA
draw_tests = tests/draw/figure
check_PROGRAMS += $(draw_tests)
TESTS += $(draw_tests)
DRAW_TEST_CFLAGS = $(TEST_CFLAGS) -pthread
tests_draw_figure_SOURCES = tests/draw/figure.c tests/draw/figure.h tests/sheet/support.h tests/check.h
tests_draw_figure_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_figure_CFLAGS = $(DRAW_TEST_CFLAGS)
tests_draw_figure_LDADD = $(TEST_LIBS) -lm
endif
