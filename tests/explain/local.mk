# SPDX-License-Identifier: GPL-3.0-or-later
# Worked steps.
explain_tests = tests/explain/explain
unit_tests += $(explain_tests)
