# SPDX-License-Identifier: LGPL-3.0-or-later
# Geometry on real values: how far shapes reach and how far they are apart; no sheets.
libbenchrule_core_la_SOURCES += \
  lib/geometry/arc_distance.c \
  lib/geometry/depth_call.c \
  lib/geometry/distance.c \
  lib/geometry/geometry.c \
  lib/geometry/geometry.h \
  lib/geometry/outline_check.c \
  lib/geometry/outline_legs.c \
  lib/geometry/path.c \
  lib/geometry/path.h \
  lib/geometry/path_distance.c \
  lib/geometry/path_meet.h \
  lib/geometry/path_overlap.c \
  lib/geometry/path_weak.c \
  lib/geometry/weak.h \
  lib/geometry/shape_call.c \
  lib/geometry/shape_call.h \
  lib/geometry/shape_legs.c \
  lib/geometry/shape_measure.c \
  lib/geometry/shape_places.c \
  lib/geometry/sketch.c \
  lib/geometry/sketch.h \
  lib/geometry/strip.h \
  lib/geometry/strip_overlap.c
