# SPDX-License-Identifier: GPL-3.0-or-later
# What people type.
phrase_tests = tests/phrase/phrases
unit_tests += $(phrase_tests)
