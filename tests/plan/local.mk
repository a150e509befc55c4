# SPDX-License-Identifier: GPL-3.0-or-later
# Plans for cutting, with the program's solver.
plan_tests = tests/plan/cut tests/plan/cut_sheet tests/plan/cut_small
if HAVE_GLPK
unit_tests += $(plan_tests)
endif
PLAN_TEST_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl
PLAN_TEST_LDADD = $(LDADD) $(GLPK_LIBS)
tests_plan_cut_SOURCES = tests/plan/cut.c repl/solver.c
tests_plan_cut_CPPFLAGS = $(PLAN_TEST_CPPFLAGS)
tests_plan_cut_LDADD = $(PLAN_TEST_LDADD)
tests_plan_cut_sheet_SOURCES = tests/plan/cut_sheet.c repl/solver.c
tests_plan_cut_sheet_CPPFLAGS = $(PLAN_TEST_CPPFLAGS)
tests_plan_cut_sheet_LDADD = $(PLAN_TEST_LDADD)
tests_plan_cut_small_SOURCES = tests/plan/cut_small.c repl/solver.c
tests_plan_cut_small_CPPFLAGS = $(PLAN_TEST_CPPFLAGS)
tests_plan_cut_small_LDADD = $(PLAN_TEST_LDADD)
