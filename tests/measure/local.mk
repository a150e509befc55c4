# SPDX-License-Identifier: GPL-3.0-or-later
if HAVE_CMOCKA
check_PROGRAMS += tests/measure/read
TESTS += tests/measure/read
tests_measure_read_SOURCES = tests/measure/read.c tests/measure/measure.h tests/check.h
tests_measure_read_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_read_CFLAGS = $(TEST_CFLAGS)
tests_measure_read_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/glyph
TESTS += tests/measure/glyph
tests_measure_glyph_SOURCES = tests/measure/glyph.c tests/measure/measure.h tests/check.h
tests_measure_glyph_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_glyph_CFLAGS = $(TEST_CFLAGS)
tests_measure_glyph_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/write
TESTS += tests/measure/write
tests_measure_write_SOURCES = tests/measure/write.c tests/measure/measure.h tests/check.h
tests_measure_write_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_write_CFLAGS = $(TEST_CFLAGS)
tests_measure_write_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/ruler
TESTS += tests/measure/ruler
tests_measure_ruler_SOURCES = tests/measure/ruler.c tests/measure/measure.h tests/check.h
tests_measure_ruler_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_ruler_CFLAGS = $(TEST_CFLAGS)
tests_measure_ruler_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/total
TESTS += tests/measure/total
tests_measure_total_SOURCES = tests/measure/total.c tests/measure/measure.h tests/check.h
tests_measure_total_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_total_CFLAGS = $(TEST_CFLAGS)
tests_measure_total_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/scale
TESTS += tests/measure/scale
tests_measure_scale_SOURCES = tests/measure/scale.c tests/measure/measure.h tests/check.h
tests_measure_scale_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_scale_CFLAGS = $(TEST_CFLAGS)
tests_measure_scale_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/robust
TESTS += tests/measure/robust
tests_measure_robust_SOURCES = tests/measure/robust.c tests/measure/measure.h tests/check.h
tests_measure_robust_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_robust_CFLAGS = $(TEST_CFLAGS)
tests_measure_robust_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/csv
TESTS += tests/measure/csv
tests_measure_csv_SOURCES = tests/measure/csv.c tests/check.h
tests_measure_csv_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_csv_CFLAGS = $(TEST_CFLAGS)
tests_measure_csv_LDADD = $(TEST_LIBS)

check_PROGRAMS += tests/measure/markup
TESTS += tests/measure/markup
tests_measure_markup_SOURCES = tests/measure/markup.c tests/check.h
tests_measure_markup_CPPFLAGS = $(TEST_CPPFLAGS)
tests_measure_markup_CFLAGS = $(TEST_CFLAGS)
tests_measure_markup_LDADD = $(TEST_LIBS)

endif

EXTRA_DIST += \
  tests/data/measures.txt \
  tests/data/wrong_measures.txt \
  tests/data/scales.txt \
  tests/data/units.txt
