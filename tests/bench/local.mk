# SPDX-License-Identifier: GPL-3.0-or-later
# Programs that `make bench` builds and runs: add each to BENCHES (automake keeps
# every NAME_PROGRAMS for itself).

BENCHES += tests/bench/real
tests_bench_real_SOURCES = tests/bench/real.c tests/bench/clock.h
tests_bench_real_LDADD = libbenchrule-core.la $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

# Linked with all that the program is linked with, needed or not.
BENCHES += tests/bench/startup
tests_bench_startup_SOURCES = tests/bench/startup.c tests/bench/clock.h
tests_bench_startup_LDFLAGS = $(AM_LDFLAGS) -Wl,--no-as-needed
tests_bench_startup_LDADD = $(READLINE_LIBS) $(JANSSON_LIBS) $(GLPK_LIBS) $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

BENCHES += tests/bench/number
tests_bench_number_SOURCES = tests/bench/number.c tests/bench/clock.h
tests_bench_number_LDADD = libbenchrule-core.la $(GMP_LIBS)
if HAVE_FLINT
tests_bench_number_CPPFLAGS = $(AM_CPPFLAGS) $(FLINT_CFLAGS)
tests_bench_number_LDADD += $(FLINT_LIBS)
endif

BENCHES += tests/bench/sheet
tests_bench_sheet_SOURCES = tests/bench/sheet.c tests/bench/clock.h
tests_bench_sheet_LDADD = libbenchrule-core.la $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

# Cutting plans with the program's solver.
BENCHES += tests/bench/cuts
tests_bench_cuts_SOURCES = tests/bench/cuts.c repl/solver.c
tests_bench_cuts_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl
tests_bench_cuts_LDADD = libbenchrule-core.la $(GLPK_LIBS) $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

# A column of a million cells, against others.
BENCHES += tests/bench/columns
tests_bench_columns_SOURCES = tests/bench/columns.c tests/bench/clock.h tests/bench/column_peers.c tests/bench/column_peers.h
tests_bench_columns_CPPFLAGS = $(AM_CPPFLAGS) $(FLINT_CFLAGS)
tests_bench_columns_LDADD = libbenchrule-core.la $(FLINT_LIBS) $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

BENCHES += tests/bench/work
tests_bench_work_SOURCES = tests/bench/work.c tests/bench/clock.h
tests_bench_work_LDADD = libbenchrule-core.la $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

# Instructions, which no busy machine changes, against those that are written down.
EXTRA_DIST += tests/bench/instructions.sh tests/bench/baseline.txt
instructions: all tests/bench/work$(EXEEXT)
	srcdir='$(abs_srcdir)' CC='$(CC)' VALGRIND='$(VALGRIND)' BR='$(abs_builddir)/benchrule$(EXEEXT)' \
	  $(BASH_PROGRAM) $(srcdir)/tests/bench/instructions.sh tests/bench/work$(EXEEXT)
.PHONY: instructions

# Papers by the hundred: the program does the work.
BENCHES += tests/bench/lesson
tests_bench_lesson_SOURCES = tests/bench/lesson.c tests/bench/clock.h

# Drawings: the program does the work.
BENCHES += tests/bench/drawing
tests_bench_drawing_SOURCES = tests/bench/drawing.c tests/bench/clock.h
