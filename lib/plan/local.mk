# SPDX-License-Identifier: LGPL-3.0-or-later
# Cutting as pure optimisation: lengths, counts and kerfs, no sheets.
libbenchrule_core_la_SOURCES += \
  lib/plan/cut.c \
  lib/plan/cut.h \
  lib/plan/cut_corner.c \
  lib/plan/cut_fill.c \
  lib/plan/cut_fit.c \
  lib/plan/cut_pattern.c \
  lib/plan/cut_sheet.c \
  lib/plan/cut_sheet.h \
  lib/plan/cut_small.c
