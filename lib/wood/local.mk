# SPDX-License-Identifier: LGPL-3.0-or-later
# Stock, parts, cuts.
libbenchrule_core_la_SOURCES += \
  lib/wood/at_hand.c \
  lib/wood/cut_picture.c \
  lib/wood/cut_picture.h \
  lib/wood/cuts.c \
  lib/wood/cuts.h \
  lib/wood/cuts_show.c \
  lib/wood/statements.c \
  lib/wood/tools.c \
  lib/wood/values.c \
  lib/wood/wood.c \
  lib/wood/wood.h \
  lib/wood/wood_caution.c \
  lib/wood/wood_depth.c \
  lib/wood/wood_resolve.c \
  lib/wood/wood_show.c
