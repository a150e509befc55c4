# SPDX-License-Identifier: LGPL-3.0-or-later
# Views, dimension lines, templates.
libbenchrule_core_la_SOURCES += \
  lib/draw/balloon.c \
  lib/draw/by_hand.c \
  lib/draw/by_hand.h \
  lib/draw/dimension_end.c \
  lib/draw/dimension_end.h \
  lib/draw/dimension_line.c \
  lib/draw/dimension_line.h \
  lib/draw/dimension_place.c \
  lib/draw/draw.c \
  lib/draw/draw.h \
  lib/draw/draw_read.c \
  lib/draw/draw_record.c \
  lib/draw/drawing.h \
  lib/draw/fit.c \
  lib/draw/note_place.c \
  lib/draw/label.c \
  lib/draw/layout.c \
  lib/draw/place_corner.c \
  lib/draw/place_group.c \
  lib/draw/place_group.h \
  lib/draw/place_list.c \
  lib/draw/place_list.h \
  lib/draw/place_plot.c \
  lib/draw/place_table.c \
  lib/draw/place_table.h \
  lib/draw/paperwork.c \
  lib/draw/part_figure.c \
  lib/draw/part_figure.h \
  lib/draw/parts.c \
  lib/draw/statements.c \
  lib/draw/template.c \
  lib/draw/template.h \
  lib/draw/template_check.c \
  lib/draw/tile.c \
  lib/draw/title.c \
  lib/draw/views.c \
  lib/draw/views.h \
  lib/draw/view.c \
  lib/draw/view.h
