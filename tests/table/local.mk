# SPDX-License-Identifier: GPL-3.0-or-later
# Columns of CSV files.
table_tests = tests/table/column
unit_tests += $(table_tests)
TESTS += tests/table/columns.tap
EXTRA_DIST += tests/table/columns.tap
