# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of the shop's facts: functions, tables, cautions, side views; wood and how to cut it.

EXTRA_DIST += tests/data/blades.txt tests/data/drills.txt tests/data/gaps.txt \
  tests/data/geometry.txt tests/data/lumber.txt tests/data/paper.txt tests/data/small_parts.txt

if HAVE_CMOCKA
shop_tests = tests/shop/functions tests/shop/inverses tests/shop/tables tests/shop/cautions \
  tests/shop/small_parts tests/shop/picture tests/shop/cut tests/shop/cut_sheet tests/shop/wood
check_PROGRAMS += $(shop_tests)
TESTS += $(shop_tests)
tests_shop_functions_SOURCES = tests/shop/functions.c tests/shop/support.h tests/check.h
tests_shop_functions_CPPFLAGS = $(TEST_CPPFLAGS)
tests_shop_functions_CFLAGS = $(TEST_CFLAGS)
tests_shop_functions_LDADD = $(TEST_LIBS)
tests_shop_inverses_SOURCES = tests/shop/inverses.c tests/shop/support.h tests/check.h
tests_shop_inverses_CPPFLAGS = $(TEST_CPPFLAGS)
tests_shop_inverses_CFLAGS = $(TEST_CFLAGS)
tests_shop_inverses_LDADD = $(TEST_LIBS)
tests_shop_tables_SOURCES = tests/shop/tables.c tests/shop/support.h tests/check.h
tests_shop_tables_CPPFLAGS = $(TEST_CPPFLAGS)
tests_shop_tables_CFLAGS = $(TEST_CFLAGS)
tests_shop_tables_LDADD = $(TEST_LIBS)
tests_shop_cautions_SOURCES = tests/shop/cautions.c tests/shop/support.h tests/check.h
tests_shop_cautions_CPPFLAGS = $(TEST_CPPFLAGS)
tests_shop_cautions_CFLAGS = $(TEST_CFLAGS)
tests_shop_cautions_LDADD = $(TEST_LIBS)
tests_shop_small_parts_SOURCES = tests/shop/small_parts.c tests/shop/support.h tests/check.h
tests_shop_small_parts_CPPFLAGS = $(TEST_CPPFLAGS)
tests_shop_small_parts_CFLAGS = $(TEST_CFLAGS)
tests_shop_small_parts_LDADD = $(TEST_LIBS)
tests_shop_picture_SOURCES = tests/shop/picture.c tests/shop/support.h tests/check.h
tests_shop_picture_CPPFLAGS = $(TEST_CPPFLAGS)
tests_shop_picture_CFLAGS = $(TEST_CFLAGS)
tests_shop_picture_LDADD = $(TEST_LIBS)
tests_shop_cut_SOURCES = tests/shop/cut.c tests/check.h repl/solver.c
tests_shop_cut_CPPFLAGS = $(TEST_CPPFLAGS) -I$(top_srcdir)/repl
tests_shop_cut_CFLAGS = $(TEST_CFLAGS)
tests_shop_cut_LDADD = $(TEST_LIBS) $(GLPK_LIBS)
tests_shop_cut_sheet_SOURCES = tests/shop/cut_sheet.c tests/check.h repl/solver.c
tests_shop_cut_sheet_CPPFLAGS = $(TEST_CPPFLAGS) -I$(top_srcdir)/repl
tests_shop_cut_sheet_CFLAGS = $(TEST_CFLAGS)
tests_shop_cut_sheet_LDADD = $(TEST_LIBS) $(GLPK_LIBS)
tests_shop_wood_SOURCES = tests/shop/wood.c tests/shop/support.h tests/check.h
tests_shop_wood_CPPFLAGS = $(TEST_CPPFLAGS)
tests_shop_wood_CFLAGS = $(TEST_CFLAGS)
tests_shop_wood_LDADD = $(TEST_LIBS)
endif
