# SPDX-License-Identifier: GPL-3.0-or-later

if HAVE_CMOCKA
check_PROGRAMS += tests/exact/real
TESTS += tests/exact/real
check_PROGRAMS += tests/exact/real_round
TESTS += tests/exact/real_round
check_PROGRAMS += tests/exact/real_limits
TESTS += tests/exact/real_limits
tests_exact_real_SOURCES = tests/exact/real.c tests/exact/real_check.h tests/check.h
tests_exact_real_CPPFLAGS = $(TEST_CPPFLAGS)
tests_exact_real_CFLAGS = $(TEST_CFLAGS)
tests_exact_real_LDADD = $(TEST_LIBS)
tests_exact_real_round_SOURCES = tests/exact/real_round.c tests/exact/real_check.h tests/check.h
tests_exact_real_round_CPPFLAGS = $(TEST_CPPFLAGS)
tests_exact_real_round_CFLAGS = $(TEST_CFLAGS)
tests_exact_real_round_LDADD = $(TEST_LIBS)
tests_exact_real_limits_SOURCES = tests/exact/real_limits.c tests/exact/real_check.h tests/check.h
tests_exact_real_limits_CPPFLAGS = $(TEST_CPPFLAGS)
tests_exact_real_limits_CFLAGS = $(TEST_CFLAGS)
tests_exact_real_limits_LDADD = $(TEST_LIBS) -lpthread
endif
EXTRA_DIST += tests/data/real_values.txt
