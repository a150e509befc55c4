# SPDX-License-Identifier: GPL-3.0-or-later
# The shop's facts: functions, tables, cautions, side views.
shop_tests = tests/shop/cautions \
  tests/shop/functions \
  tests/shop/inverses \
  tests/shop/picture \
  tests/shop/small_parts \
  tests/shop/tables \
  tests/shop/header \
  tests/shop/wood
unit_tests += $(shop_tests)
EXTRA_DIST += tests/data/blades.txt tests/data/drills.txt tests/data/gaps.txt \
  tests/data/geometry.txt tests/data/lumber.txt tests/data/necks.txt tests/data/paper.txt tests/data/small_parts.txt
