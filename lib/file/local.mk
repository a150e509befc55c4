# SPDX-License-Identifier: LGPL-3.0-or-later
# Files read and written whole, CSV, markup.
libbenchrule_core_la_SOURCES += \
  lib/file/csv.c \
  lib/file/csv.h \
  lib/file/file.c \
  lib/file/file.h \
  lib/file/file_write.c \
  lib/file/markup.c \
  lib/file/markup.h \
  lib/file/output.h \
  lib/file/statements.c
