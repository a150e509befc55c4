# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of worksheets, keys and marks.

EXTRA_DIST += tests/data/answers.txt tests/data/textbook.txt tests/lesson/pages.tap
TESTS += tests/lesson/pages.tap

if HAVE_CMOCKA
lesson_tests = tests/lesson/grade tests/lesson/worksheet
check_PROGRAMS += $(lesson_tests)
TESTS += $(lesson_tests)
tests_lesson_grade_SOURCES = tests/lesson/grade.c tests/lesson/support.h tests/sheet/support.h tests/check.h
tests_lesson_grade_CPPFLAGS = $(TEST_CPPFLAGS)
tests_lesson_grade_CFLAGS = $(TEST_CFLAGS)
tests_lesson_grade_LDADD = $(TEST_LIBS)
tests_lesson_worksheet_SOURCES = tests/lesson/worksheet.c tests/lesson/support.h tests/sheet/support.h tests/check.h
tests_lesson_worksheet_CPPFLAGS = $(TEST_CPPFLAGS)
tests_lesson_worksheet_CFLAGS = $(TEST_CFLAGS)
tests_lesson_worksheet_LDADD = $(TEST_LIBS)
if HAVE_FLINT
check_PROGRAMS += tests/lesson/problems
TESTS += tests/lesson/problems
tests_lesson_problems_SOURCES = tests/lesson/problems.c tests/sheet/support.h tests/check.h
tests_lesson_problems_CPPFLAGS = $(TEST_CPPFLAGS) $(FLINT_CFLAGS)
tests_lesson_problems_CFLAGS = $(TEST_CFLAGS)
tests_lesson_problems_LDADD = $(TEST_LIBS) $(FLINT_LIBS)
endif
endif
