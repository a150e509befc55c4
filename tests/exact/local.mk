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

if HAVE_CMOCKA
check_PROGRAMS += tests/exact/number
TESTS += tests/exact/number
tests_exact_number_SOURCES = tests/exact/number.c tests/check.h
tests_exact_number_CPPFLAGS = $(TEST_CPPFLAGS)
tests_exact_number_CFLAGS = $(TEST_CFLAGS)
tests_exact_number_LDADD = $(TEST_LIBS)
check_PROGRAMS += tests/exact/number_memory
TESTS += tests/exact/number_memory
tests_exact_number_memory_SOURCES = tests/exact/number_memory.c tests/check.h
tests_exact_number_memory_CPPFLAGS = $(TEST_CPPFLAGS)
tests_exact_number_memory_CFLAGS = $(TEST_CFLAGS)
tests_exact_number_memory_LDADD = $(TEST_LIBS)
check_PROGRAMS += tests/exact/number_round
TESTS += tests/exact/number_round
tests_exact_number_round_SOURCES = tests/exact/number_round.c tests/check.h
tests_exact_number_round_CPPFLAGS = $(TEST_CPPFLAGS)
tests_exact_number_round_CFLAGS = $(TEST_CFLAGS)
tests_exact_number_round_LDADD = $(TEST_LIBS)
check_PROGRAMS += tests/exact/number_text
TESTS += tests/exact/number_text
tests_exact_number_text_SOURCES = tests/exact/number_text.c tests/check.h
tests_exact_number_text_CPPFLAGS = $(TEST_CPPFLAGS)
tests_exact_number_text_CFLAGS = $(TEST_CFLAGS)
tests_exact_number_text_LDADD = $(TEST_LIBS)
if HAVE_FLINT
tests_exact_number_CPPFLAGS += $(FLINT_CFLAGS)
tests_exact_number_LDADD += $(FLINT_LIBS)
endif
endif
EXTRA_DIST += tests/data/decimal_equivalents.txt
