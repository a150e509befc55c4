# SPDX-License-Identifier: GPL-3.0-or-later
# Numbers and real values.
exact_tests = tests/exact/gmp \
  tests/exact/number \
  tests/exact/number_memory \
  tests/exact/number_narrow \
  tests/exact/number_round \
  tests/exact/number_text \
  tests/exact/real \
  tests/exact/real_limits \
  tests/exact/real_round \
  tests/exact/real_zero \
  tests/exact/wide \
  tests/exact/wide_words
if HAVE_QQBAR
exact_tests += tests/exact/real_algebraic
endif
unit_tests += $(exact_tests)
EXTRA_DIST += tests/exact/real_algebraic.c
EXTRA_DIST += tests/data/real_values.txt tests/data/decimal_equivalents.txt
