# SPDX-License-Identifier: LGPL-3.0-or-later
# Questions over formulas: find, stack, tidy.
libbenchrule_core_la_SOURCES += \
  lib/solve/find.c \
  lib/solve/find.h \
  lib/solve/find_band.c \
  lib/solve/find_keep.c \
  lib/solve/find_root.c \
  lib/solve/find_rows.c \
  lib/solve/find_search.h \
  lib/solve/find_step.c \
  lib/solve/stack.c \
  lib/solve/statements.c \
  lib/solve/tidy.c
