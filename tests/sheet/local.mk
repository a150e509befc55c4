# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of the language and of sheets.

EXTRA_DIST += tests/data/expressions.txt tests/data/statements.txt tests/data/wrong_lines.txt \
  tests/data/corners.txt tests/data/wrong_corners.txt

TESTS += tests/sheet/columns.tap
EXTRA_DIST += tests/sheet/columns.tap

TESTS += tests/sheet/json.tap tests/sheet/parts.tap
EXTRA_DIST += tests/sheet/json.tap tests/sheet/parts.tap

if HAVE_CMOCKA
check_PROGRAMS += tests/sheet/column
TESTS += tests/sheet/column
tests_sheet_column_SOURCES = tests/sheet/column.c tests/sheet/support.h tests/check.h
tests_sheet_column_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_column_CFLAGS = $(TEST_CFLAGS) -pthread
tests_sheet_column_LDADD = $(TEST_LIBS)
sheet_tests = tests/sheet/language tests/sheet/limits tests/sheet/rounding tests/sheet/formulas \
  tests/sheet/edits tests/sheet/names tests/sheet/hostile tests/sheet/apart tests/sheet/shop tests/sheet/complete tests/sheet/shapes \
  tests/sheet/explain
check_PROGRAMS += $(sheet_tests)
TESTS += $(sheet_tests)
SHEET_TEST_CFLAGS = $(TEST_CFLAGS) -pthread
tests_sheet_language_SOURCES = tests/sheet/language.c tests/sheet/support.h tests/measure/measure.h \
  tests/check.h
tests_sheet_language_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_language_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_language_LDADD = $(TEST_LIBS)
tests_sheet_explain_SOURCES = tests/sheet/explain.c tests/sheet/support.h tests/check.h
tests_sheet_explain_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_explain_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_explain_LDADD = $(TEST_LIBS)
tests_sheet_shapes_SOURCES = tests/sheet/shapes.c tests/sheet/support.h tests/check.h
tests_sheet_shapes_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_shapes_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_shapes_LDADD = $(TEST_LIBS) -lm
tests_sheet_limits_SOURCES = tests/sheet/limits.c tests/sheet/support.h tests/check.h
tests_sheet_limits_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_limits_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_limits_LDADD = $(TEST_LIBS)
tests_sheet_rounding_SOURCES = tests/sheet/rounding.c tests/sheet/support.h tests/check.h
tests_sheet_rounding_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_rounding_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_rounding_LDADD = $(TEST_LIBS)
tests_sheet_names_SOURCES = tests/sheet/names.c tests/sheet/support.h tests/check.h
tests_sheet_names_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_names_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_names_LDADD = $(TEST_LIBS)
tests_sheet_hostile_SOURCES = tests/sheet/hostile.c tests/sheet/support.h tests/check.h
tests_sheet_hostile_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_hostile_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_hostile_LDADD = $(TEST_LIBS)
tests_sheet_apart_SOURCES = tests/sheet/apart.c tests/sheet/support.h tests/check.h
tests_sheet_apart_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_apart_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_apart_LDADD = $(TEST_LIBS)
tests_sheet_shop_SOURCES = tests/sheet/shop.c tests/sheet/support.h tests/check.h
tests_sheet_shop_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_shop_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_shop_LDADD = $(TEST_LIBS)
tests_sheet_complete_SOURCES = tests/sheet/complete.c tests/sheet/support.h tests/check.h
tests_sheet_complete_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_complete_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_complete_LDADD = $(TEST_LIBS)
# FLINT_LIBS is empty where FLINT is not there; the oracle is then GMP.
tests_sheet_formulas_SOURCES = tests/sheet/formulas.c tests/sheet/oracle.h tests/sheet/support.h tests/check.h
tests_sheet_formulas_CPPFLAGS = $(TEST_CPPFLAGS) $(FLINT_CFLAGS)
tests_sheet_formulas_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_formulas_LDADD = $(FLINT_LIBS) $(TEST_LIBS)
tests_sheet_edits_SOURCES = tests/sheet/edits.c tests/sheet/oracle.h tests/sheet/support.h tests/check.h
tests_sheet_edits_CPPFLAGS = $(TEST_CPPFLAGS) $(FLINT_CFLAGS)
tests_sheet_edits_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_edits_LDADD = $(FLINT_LIBS) $(TEST_LIBS)
endif

if HAVE_CMOCKA
tolerance_tests = tests/sheet/tolerance tests/sheet/find
check_PROGRAMS += $(tolerance_tests)
TESTS += $(tolerance_tests)
tests_sheet_tolerance_SOURCES = tests/sheet/tolerance.c tests/sheet/oracle.h tests/sheet/refusal.h tests/sheet/support.h tests/check.h
tests_sheet_tolerance_CPPFLAGS = $(TEST_CPPFLAGS) $(FLINT_CFLAGS)
tests_sheet_tolerance_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_tolerance_LDADD = $(FLINT_LIBS) $(TEST_LIBS)
tests_sheet_find_SOURCES = tests/sheet/find.c tests/sheet/oracle.h tests/sheet/refusal.h tests/sheet/support.h tests/check.h
tests_sheet_find_CPPFLAGS = $(TEST_CPPFLAGS) $(FLINT_CFLAGS)
tests_sheet_find_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_find_LDADD = $(FLINT_LIBS) $(TEST_LIBS)
sheet_fault_tests = tests/sheet/ended tests/sheet/public tests/sheet/memory tests/sheet/memory_lines tests/sheet/threads tests/sheet/save_faults
check_PROGRAMS += $(sheet_fault_tests)
TESTS += $(sheet_fault_tests)
tests_sheet_memory_SOURCES = tests/sheet/memory.c tests/sheet/samples.h tests/sheet/support.h tests/check.h
tests_sheet_memory_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_memory_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_memory_LDADD = $(TEST_LIBS)
tests_sheet_memory_lines_SOURCES = tests/sheet/memory_lines.c tests/sheet/samples.h tests/sheet/support.h \
  tests/measure/measure.h tests/check.h
tests_sheet_memory_lines_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_memory_lines_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_memory_lines_LDADD = $(TEST_LIBS)
tests_sheet_ended_SOURCES = tests/sheet/ended.c tests/sheet/support.h tests/check.h
tests_sheet_ended_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_ended_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_ended_LDADD = $(TEST_LIBS)
tests_sheet_public_SOURCES = tests/sheet/public.c tests/sheet/support.h tests/check.h
tests_sheet_public_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_public_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_public_LDADD = $(TEST_LIBS)
tests_sheet_threads_SOURCES = tests/sheet/threads.c tests/sheet/samples.h tests/sheet/support.h tests/check.h
tests_sheet_threads_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_threads_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_threads_LDADD = $(TEST_LIBS)
# Its calls of the system go through functions of its own.
tests_sheet_save_faults_SOURCES = tests/sheet/save_faults.c tests/sheet/support.h tests/check.h
tests_sheet_save_faults_CPPFLAGS = $(TEST_CPPFLAGS)
tests_sheet_save_faults_CFLAGS = $(SHEET_TEST_CFLAGS)
tests_sheet_save_faults_LDFLAGS = $(AM_LDFLAGS) -Wl,--wrap=open,--wrap=read,--wrap=write,--wrap=fsync \
  -Wl,--wrap=fchmod,--wrap=close,--wrap=rename,--wrap=mkostemp,--wrap=unlink
tests_sheet_save_faults_LDADD = $(TEST_LIBS)
endif
EXTRA_DIST += tests/data/tolerances.txt
