# SPDX-License-Identifier: LGPL-3.0-or-later
# Dimensions and what depends on them, lines, changes, checks, answers.
libbenchrule_core_la_SOURCES += \
  lib/sheet/access.c \
  lib/sheet/access.h \
  lib/sheet/bounds.c \
  lib/sheet/caution.c \
  lib/sheet/caution.h \
  lib/sheet/change.c \
  lib/sheet/check.c \
  lib/sheet/check_judge.c \
  lib/sheet/clauses.c \
  lib/sheet/compile.c \
  lib/sheet/compile.h \
  lib/sheet/dimension.c \
  lib/sheet/entry_list.c \
  lib/sheet/expression.c \
  lib/sheet/known.c \
  lib/sheet/known.h \
  lib/sheet/fixed.c \
  lib/sheet/graph.c \
  lib/sheet/graph.h \
  lib/sheet/graph_private.h \
  lib/sheet/hidden.c \
  lib/sheet/hidden.h \
  lib/sheet/lines.c \
  lib/sheet/loop.c \
  lib/sheet/maker.c \
  lib/sheet/maker.h \
  lib/sheet/record.c \
  lib/sheet/record.h \
  lib/sheet/record_keys.c \
  lib/sheet/record_keys.h \
  lib/sheet/renew.c \
  lib/sheet/replace.c \
  lib/sheet/replace.h \
  lib/sheet/reply.c \
  lib/sheet/sheet.c \
  lib/sheet/sheet.h \
  lib/sheet/show.c \
  lib/sheet/statements.c \
  lib/sheet/tolerance.c \
  lib/sheet/tolerance.h \
  lib/sheet/tolerance_given.c \
  lib/sheet/undo.c \
  lib/sheet/worst_margin.c \
  lib/sheet/written.c \
  lib/sheet/written.h
