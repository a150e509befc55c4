# SPDX-License-Identifier: LGPL-3.0-or-later
# Columns of a CSV file.
libbenchrule_core_la_SOURCES += \
  lib/table/column.c \
  lib/table/column.h \
  lib/table/column_cells.c \
  lib/table/column_head.c \
  lib/table/column_pump.c \
  lib/table/column_pump.h \
  lib/table/column_source.c \
  lib/table/column_sums.c \
  lib/table/column_total.c \
  lib/table/column_words.c \
  lib/table/column_words.h \
  lib/table/name_column.c \
  lib/table/rows.c \
  lib/table/rows.h
