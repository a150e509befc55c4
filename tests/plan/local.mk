# SPDX-License-Identifier: GPL-3.0-or-later
# Plans for cutting, with the program's solver.
plan_tests = tests/plan/cut tests/plan/cut_sheet
unit_tests += $(plan_tests)
tests_plan_cut_SOURCES = tests/plan/cut.c repl/solver.c
tests_plan_cut_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl
tests_plan_cut_LDADD = $(LDADD) $(GLPK_LIBS)
tests_plan_cut_sheet_SOURCES = tests/plan/cut_sheet.c repl/solver.c
tests_plan_cut_sheet_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl
tests_plan_cut_sheet_LDADD = $(LDADD) $(GLPK_LIBS)
