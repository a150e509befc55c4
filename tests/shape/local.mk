# SPDX-License-Identifier: GPL-3.0-or-later
# Shapes and their distances.
shape_tests = tests/shape/apart tests/shape/copies tests/shape/depth tests/shape/edges tests/shape/largest \
  tests/shape/outline tests/shape/pairs tests/shape/shapes
unit_tests += $(shape_tests)
