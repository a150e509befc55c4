# SPDX-License-Identifier: GPL-3.0-or-later
# The tests, a folder for each folder that they test.  A unit test is one source, tests/ROOM/NAME.c, and its name in
# unit_tests of its room's fragment: how it is compiled and linked stands in Makefile.am.

unit_tests =
# Holds records against the schema; for every test.
check_LIBRARIES = tests/libschema.a
tests_libschema_a_SOURCES = tests/schema.c tests/schema.h repl/show/json.c repl/escape.c
tests_libschema_a_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl
include tests/exact/local.mk
include tests/measure/local.mk
include tests/shop/local.mk
include tests/plan/local.mk
include tests/formula/local.mk
include tests/geometry/local.mk
include tests/file/local.mk
include tests/sheet/local.mk
include tests/solve/local.mk
include tests/explain/local.mk
include tests/shape/local.mk
include tests/wood/local.mk
include tests/table/local.mk
include tests/lesson/local.mk
include tests/draw/local.mk
include tests/report/local.mk
include tests/page/local.mk
include tests/phrase/local.mk
include tests/statement/local.mk
include tests/repl/local.mk
include tests/bench/local.mk
include tests/fuzz/local.mk
include tests/packaging/local.mk

if HAVE_CMOCKA
check_PROGRAMS += $(unit_tests)
TESTS += $(unit_tests)
endif
EXTRA_DIST += tests/leaks.supp tests/mutate.sh tests/slips.awk tests/data/equivalent_slips.txt \
  $(test_headers)
test_headers = tests/check.h \
  tests/draw/ask.h \
  tests/draw/figure.h \
  tests/shape/wire.h \
  tests/draw/forms.h \
  tests/draw/read_number.h \
  tests/draw/read_page.h \
  tests/draw/read_shapes.h \
  tests/draw/told.h \
  tests/draw/views_page.h \
  tests/draw/source.h \
  tests/draw/svg.h \
  tests/file/faults.h \
  tests/exact/real_check.h \
  tests/lesson/support.h \
  tests/measure/measure.h \
  tests/page/pdf.h \
  tests/repl/folder.h \
  tests/repl/screen.h \
  tests/report/html.h \
  tests/said.h \
  tests/sheet/oracle.h \
  tests/sheet/samples.h \
  tests/sheet/support.h \
  tests/shop/support.h \
  tests/statement/engines.h \
  tests/statement/random_sheet.h \
  tests/solve/refusal.h
