# SPDX-License-Identifier: LGPL-3.0-or-later
libbenchrule_core_la_SOURCES += \
  lib/shop/about.c lib/shop/about.h \
  lib/shop/arc_distance.c \
  lib/shop/blade.c lib/shop/blade.h \
  lib/shop/calc.h \
  lib/shop/caution.c lib/shop/caution.h \
  lib/shop/cut.c lib/shop/cut.h \
  lib/shop/cut_corner.c \
  lib/shop/cut_fill.c \
  lib/shop/cut_fit.c \
  lib/shop/cut_pattern.c \
  lib/shop/cut_picture.c lib/shop/cut_picture.h \
  lib/shop/cut_sheet.c lib/shop/cut_sheet.h \
  lib/shop/distance.c \
  lib/shop/drill.c lib/shop/drill.h \
  lib/shop/functions.c lib/shop/functions.h \
  lib/shop/geometry.c lib/shop/geometry.h \
  lib/shop/paper.c lib/shop/paper.h \
  lib/shop/picture.c lib/shop/picture.h \
  lib/shop/small_part.c \
  lib/shop/spacing.c lib/shop/spacing.h \
  lib/shop/stock.c lib/shop/stock.h \
  lib/shop/workpiece.c
