# SPDX-License-Identifier: GPL-3.0-or-later
# What goes out of the house: names, header, installation, documents; and the house rules.

packaging_tests = \
  tests/packaging/answers.tap \
  tests/packaging/argument.tap \
  tests/packaging/bootstrap.tap \
  tests/packaging/completion.tap \
  tests/packaging/examples.tap \
  tests/packaging/install.tap \
  tests/packaging/limits.tap \
  tests/packaging/lint.tap \
  tests/packaging/manual.tap \
  tests/packaging/names.tap \
  tests/packaging/programs.tap \
  tests/packaging/rooms.tap
TESTS += $(packaging_tests)
EXTRA_DIST += $(packaging_tests) \
  tests/packaging/analyse.sh \
  tests/packaging/answers.sh \
  tests/packaging/code.awk \
  tests/packaging/console.awk \
  tests/packaging/coverage.sh \
  tests/packaging/consumer.c \
  tests/packaging/nulls.awk \
  tests/packaging/one_cpu.sh \
  tests/packaging/painter.c \
  tests/packaging/pictures.sh \
  tests/packaging/examples-update.sh \
  tests/packaging/false_alarms.txt \
  tests/packaging/tap.sh \
  tests/packaging/unreached.awk \
  tests/data/unreached.txt
