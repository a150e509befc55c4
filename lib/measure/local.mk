# SPDX-License-Identifier: LGPL-3.0-or-later
# Shop notation: text to number and back, units, rulers, scales.
libbenchrule_core_la_SOURCES += \
  lib/measure/cell.c \
  lib/measure/glyph.c \
  lib/measure/measure.h \
  lib/measure/mixed.c \
  lib/measure/read.c \
  lib/measure/ruler.c \
  lib/measure/scale.c \
  lib/measure/simplest.c \
  lib/measure/total.c \
  lib/measure/unbroken.h \
  lib/measure/unit.c \
  lib/measure/write.c
