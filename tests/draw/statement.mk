# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of the statement draw, and of the files that the program makes of it.
EXTRA_DIST += tests/draw/files.tap
TESTS += tests/draw/files.tap

if HAVE_CMOCKA
check_PROGRAMS += tests/draw/draw tests/draw/sheets
TESTS += tests/draw/draw tests/draw/sheets
tests_draw_draw_SOURCES = tests/draw/draw.c tests/draw/svg.h tests/lesson/support.h tests/sheet/support.h tests/check.h
tests_draw_draw_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_draw_CFLAGS = $(TEST_CFLAGS) -pthread
tests_draw_draw_LDADD = $(TEST_LIBS)
tests_draw_sheets_SOURCES = tests/draw/sheets.c tests/lesson/support.h tests/sheet/support.h tests/check.h
tests_draw_sheets_CPPFLAGS = $(TEST_CPPFLAGS)
tests_draw_sheets_CFLAGS = $(TEST_CFLAGS) -pthread
tests_draw_sheets_LDADD = $(TEST_LIBS)
endif
