# SPDX-License-Identifier: GPL-3.0-or-later
# The page that a sheet becomes.
report_tests = tests/report/report
unit_tests += $(report_tests)
TESTS += tests/report/review.tap
EXTRA_DIST += tests/report/review.tap
