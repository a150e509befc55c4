# SPDX-License-Identifier: GPL-3.0-or-later
# Programs that `make bench` builds and runs: add each to BENCHES (automake keeps
# every NAME_PROGRAMS for itself).

BENCHES += tests/bench/real
tests_bench_real_SOURCES = tests/bench/real.c
tests_bench_real_LDADD = libbenchrule-core.la $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

# Linked with all that the program is linked with, needed or not.
BENCHES += tests/bench/startup
tests_bench_startup_SOURCES = tests/bench/startup.c
tests_bench_startup_LDFLAGS = $(AM_LDFLAGS) -Wl,--no-as-needed
tests_bench_startup_LDADD = $(READLINE_LIBS) $(JANSSON_LIBS) $(GLPK_LIBS) $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

BENCHES += tests/bench/number
tests_bench_number_SOURCES = tests/bench/number.c
tests_bench_number_LDADD = libbenchrule-core.la $(GMP_LIBS)
if HAVE_FLINT
tests_bench_number_CPPFLAGS = $(AM_CPPFLAGS) $(FLINT_CFLAGS)
tests_bench_number_LDADD += $(FLINT_LIBS)
endif

BENCHES += tests/bench/sheet
tests_bench_sheet_SOURCES = tests/bench/sheet.c
tests_bench_sheet_LDADD = libbenchrule-core.la $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)

# Cutting plans with the program's solver.
BENCHES += tests/bench/cuts
tests_bench_cuts_SOURCES = tests/bench/cuts.c repl/solver.c
tests_bench_cuts_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl
tests_bench_cuts_LDADD = libbenchrule-core.la $(GLPK_LIBS) $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)
