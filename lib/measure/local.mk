# SPDX-License-Identifier: LGPL-3.0-or-later
libbenchrule_core_la_SOURCES += \
  lib/measure/measure.h \
  lib/measure/csv.c \
  lib/measure/csv.h \
  lib/measure/glyph.c \
  lib/measure/markup.c \
  lib/measure/markup.h \
  lib/measure/unit.c \
  lib/measure/mixed.c \
  lib/measure/read.c \
  lib/measure/write.c \
  lib/measure/ruler.c \
  lib/measure/total.c \
  lib/measure/simplest.c \
  lib/measure/scale.c
