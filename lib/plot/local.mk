# SPDX-License-Identifier: LGPL-3.0-or-later
# Strokes and texts on paper, and the files that show them.
libbenchrule_core_la_SOURCES += \
  lib/plot/canvas.c \
  lib/plot/canvas.h \
  lib/plot/ink_map.c \
  lib/plot/ink_map.h \
  lib/plot/paint.c \
  lib/plot/place.c \
  lib/plot/plot.c \
  lib/plot/plot.h \
  lib/plot/svg.c \
  lib/plot/table_piece.c \
  lib/plot/table_piece.h
