# SPDX-License-Identifier: GPL-3.0-or-later
# Reading and writing measures, rulers, scales.
measure_tests = tests/measure/glyph \
  tests/measure/read \
  tests/measure/robust \
  tests/measure/ruler \
  tests/measure/scale \
  tests/measure/total \
  tests/measure/write
unit_tests += $(measure_tests)
EXTRA_DIST += tests/data/measures.txt tests/data/wrong_measures.txt tests/data/scales.txt tests/data/units.txt
