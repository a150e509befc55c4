# SPDX-License-Identifier: GPL-3.0-or-later
# Sheets: changes, names, limits, memory, threads.
sheet_tests = tests/sheet/budget \
  tests/sheet/caller \
  tests/sheet/edits \
  tests/sheet/ended \
  tests/sheet/hostile \
  tests/sheet/limits \
  tests/sheet/memory \
  tests/sheet/memory_lines \
  tests/sheet/names \
  tests/sheet/nulls \
  tests/sheet/public \
  tests/sheet/stopped \
  tests/sheet/threads
unit_tests += $(sheet_tests)
