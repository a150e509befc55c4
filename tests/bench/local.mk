# SPDX-License-Identifier: GPL-3.0-or-later
# Programs that `make bench` builds and runs: add each to BENCHES (automake keeps
# every NAME_PROGRAMS for itself).

BENCHES += tests/bench/real

# Linked with all that the program is linked with, needed or not.
BENCHES += tests/bench/startup
tests_bench_startup_LDFLAGS = $(AM_LDFLAGS) -Wl,--no-as-needed
tests_bench_startup_LDADD = $(READLINE_LIBS) $(JANSSON_LIBS) $(GLPK_LIBS) $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

BENCHES += tests/bench/formula

BENCHES += tests/bench/number

BENCHES += tests/bench/sheet

# Cutting plans with the program's solver.
if HAVE_GLPK
BENCHES += tests/bench/cuts
endif
tests_bench_cuts_SOURCES = tests/bench/cuts.c tests/bench/cuts_peer.c repl/solver.c
tests_bench_cuts_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl
tests_bench_cuts_LDADD = $(LDADD) $(GLPK_LIBS)

# A column of a million cells, against others.
BENCHES += tests/bench/columns
tests_bench_columns_SOURCES = tests/bench/columns.c tests/bench/column_peers.c

BENCHES += tests/bench/work

# Instructions, which no busy machine changes, against those that are written down.
EXTRA_DIST += tests/bench/clock.h tests/bench/column_peers.h tests/bench/cuts_peer.h tests/bench/instructions.sh tests/bench/baseline.txt
instructions: all tests/bench/work$(EXEEXT)
	srcdir='$(abs_srcdir)' CC='$(CC)' VALGRIND='$(VALGRIND)' BR='$(abs_builddir)/benchrule$(EXEEXT)' \
	  $(BASH_PROGRAM) $(srcdir)/tests/bench/instructions.sh tests/bench/work$(EXEEXT)
.PHONY: instructions

# Papers by the hundred: the program does the work.
BENCHES += tests/bench/lesson

# Drawings: the program does the work.
BENCHES += tests/bench/drawing
