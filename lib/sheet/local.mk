# SPDX-License-Identifier: LGPL-3.0-or-later
# Dimensions and what depends on them, lines, changes, checks, answers.
libbenchrule_core_la_SOURCES += \
  lib/sheet/check.c \
  lib/sheet/dimension.c \
  lib/sheet/graph.c \
  lib/sheet/graph.h \
  lib/sheet/graph_private.h \
  lib/sheet/lines.c \
  lib/sheet/loop.c \
  lib/sheet/record.c \
  lib/sheet/record.h \
  lib/sheet/renew.c \
  lib/sheet/safety.h \
  lib/sheet/sheet.c \
  lib/sheet/sheet.h \
  lib/sheet/show.c \
  lib/sheet/statements.c \
  lib/sheet/steps.c \
  lib/sheet/tolerance.c \
  lib/sheet/tolerance.h
