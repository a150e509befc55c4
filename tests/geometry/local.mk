# SPDX-License-Identifier: GPL-3.0-or-later
# Distances of figures.
geometry_tests = tests/geometry/distance
unit_tests += $(geometry_tests)
