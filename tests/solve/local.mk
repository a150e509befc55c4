# SPDX-License-Identifier: GPL-3.0-or-later
# Tolerances, and sizes that are looked for.
solve_tests = tests/solve/find \
  tests/solve/tolerance
unit_tests += $(solve_tests)
EXTRA_DIST += tests/data/tolerances.txt
