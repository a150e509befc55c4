# SPDX-License-Identifier: GPL-3.0-or-later
# What formulas mean.
formula_tests = tests/formula/formulas \
  tests/formula/language \
  tests/formula/shop
unit_tests += $(formula_tests)
EXTRA_DIST += tests/data/expressions.txt tests/data/statements.txt tests/data/wrong_lines.txt \
  tests/data/corners.txt tests/data/identities.txt tests/data/wrong_corners.txt \
  tests/data/phrases.txt tests/data/worked.txt
