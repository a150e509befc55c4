# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of the language and of sheets.

EXTRA_DIST += tests/data/expressions.txt tests/data/statements.txt tests/data/wrong_lines.txt

if HAVE_CMOCKA
sheet_tests = tests/sheet/language
check_PROGRAMS += $(sheet_tests)
TESTS += $(sheet_tests)
tests_sheet_language_SOURCES = tests/sheet/language.c tests/sheet/support.h tests/measure/measure.h \
  tests/check.h
tests_sheet_language_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_language_CFLAGS = $(TEST_CFLAGS)
tests_sheet_language_LDADD = $(TEST_LIBS)
endif
