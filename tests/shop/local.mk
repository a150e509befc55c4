# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of the shop's facts: functions, tables, cautions, side views.

EXTRA_DIST += tests/data/blades.txt tests/data/drills.txt tests/data/gaps.txt \
  tests/data/geometry.txt tests/data/small_parts.txt

if HAVE_CMOCKA
shop_tests = tests/shop/functions tests/shop/inverses tests/shop/tables tests/shop/cautions \
  tests/shop/small_parts tests/shop/picture
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
endif
