# SPDX-License-Identifier: GPL-3.0-or-later
# Statements: marks, and what completion offers.
statement_tests = tests/statement/cautions \
  tests/statement/complete \
  tests/statement/engines \
  tests/statement/files \
  tests/statement/rounding \
  tests/statement/settings \
  tests/statement/values
unit_tests += $(statement_tests)
