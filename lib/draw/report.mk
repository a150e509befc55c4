# SPDX-License-Identifier: LGPL-3.0-or-later
# A sheet as a page of HTML, and its drawing in characters: of the core.
libbenchrule_core_la_SOURCES += \
  lib/draw/canvas.c \
  lib/draw/canvas.h \
  lib/draw/report.c \
  lib/draw/report.h \
  lib/draw/report_cut.c \
  lib/draw/report_figure.c \
  lib/draw/report_rows.c \
  lib/draw/view.c \
  lib/draw/view.h
