# SPDX-License-Identifier: LGPL-3.0-or-later
# Shapes as they are seen from one side, and what hides what.
libbenchrule_core_la_SOURCES += \
  lib/view/bend.c \
  lib/view/closed_edge.c \
  lib/view/closed_edge.h \
  lib/view/copies.c \
  lib/view/datum.c \
  lib/view/hidden_line.c \
  lib/view/hidden_line.h \
  lib/view/label_size.c \
  lib/view/opening.c \
  lib/view/outline_view.c \
  lib/view/profile.c \
  lib/view/seen.c \
  lib/view/seen.h \
  lib/view/side.c \
  lib/view/view.h \
  lib/view/wood_left.c \
  lib/view/wood_left.h
