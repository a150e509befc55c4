# SPDX-License-Identifier: LGPL-3.0-or-later
# Facts of the trade, each table with its published source.
libbenchrule_core_la_SOURCES += \
  lib/shop/about.c \
  lib/shop/about.h \
  lib/shop/blade.c \
  lib/shop/blade.h \
  lib/shop/calc.h \
  lib/shop/caution.c \
  lib/shop/caution.h \
  lib/shop/drill.c \
  lib/shop/drill.h \
  lib/shop/functions.c \
  lib/shop/functions.h \
  lib/shop/paper.c \
  lib/shop/paper.h \
  lib/shop/picture.c \
  lib/shop/picture.h \
  lib/shop/small_part.c \
  lib/shop/spacing.c \
  lib/shop/spacing.h \
  lib/shop/stock.c \
  lib/shop/stock.h \
  lib/shop/cautions.c \
  lib/shop/workpiece.c
