# SPDX-License-Identifier: LGPL-3.0-or-later
# Files read and written whole, CSV, markup.
libbenchrule_core_la_SOURCES += \
  lib/file/beside.c \
  lib/file/beside.h \
  lib/file/content.c \
  lib/file/content.h \
  lib/file/csv.c \
  lib/file/csv.h \
  lib/file/file.c \
  lib/file/file.h \
  lib/file/markup.c \
  lib/file/markup.h \
  lib/file/output.c \
  lib/file/output.h \
  lib/file/policy.c
