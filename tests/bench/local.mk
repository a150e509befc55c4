# SPDX-License-Identifier: GPL-3.0-or-later
# Programs that `make bench` builds and runs: add each to BENCHES (automake keeps
# every NAME_PROGRAMS for itself).

BENCHES += tests/bench/real
tests_bench_real_SOURCES = tests/bench/real.c
tests_bench_real_LDADD = libbenchrule-core.la $(MPFI_LIBS) $(MPFR_LIBS) $(GMP_LIBS)
