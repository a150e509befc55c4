# SPDX-License-Identifier: LGPL-3.0-or-later
# Circles, boxes, arcs, lines, outlines: places and distances.
libbenchrule_core_la_SOURCES += \
  lib/shape/annotation.c \
  lib/shape/axle.c \
  lib/shape/annotation.h \
  lib/shape/annotation_read.c \
  lib/shape/annotation_show.c \
  lib/shape/datum.c \
  lib/shape/copy.c \
  lib/shape/depth.c \
  lib/shape/depth.h \
  lib/shape/edges.c \
  lib/shape/outline.c \
  lib/shape/outline_tree.c \
  lib/shape/rubs.c \
  lib/shape/shape.c \
  lib/shape/shape.h \
  lib/shape/shape_show.c \
  lib/shape/shape_tree.c \
  lib/shape/statements.c \
  lib/shape/through.c \
  lib/shape/through.h \
  lib/shape/turn.c \
  lib/shape/weak.c
