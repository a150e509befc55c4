# SPDX-License-Identifier: LGPL-3.0-or-later
# Geometry on real values: how far shapes reach and how far they are apart; no sheets.
libbenchrule_core_la_SOURCES += \
  lib/geometry/arc_distance.c \
  lib/geometry/distance.c \
  lib/geometry/geometry.c \
  lib/geometry/geometry.h \
  lib/geometry/shape_call.c \
  lib/geometry/shape_call.h \
  lib/geometry/strip.h \
  lib/geometry/strip_overlap.c
