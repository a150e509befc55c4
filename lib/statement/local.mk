# SPDX-License-Identifier: LGPL-3.0-or-later
# The statements of the language, and help.
libbenchrule_core_la_SOURCES += \
  lib/statement/files.c \
  lib/statement/forget.c \
  lib/statement/help.c \
  lib/statement/missing.c \
  lib/statement/open.c \
  lib/statement/opened.h \
  lib/statement/picture.c \
  lib/statement/recover.c \
  lib/statement/rename.c \
  lib/statement/round.c \
  lib/statement/run.c \
  lib/statement/save.c \
  lib/statement/screen.c \
  lib/statement/summary.c \
  lib/statement/setting.c \
  lib/statement/spacing.c \
  lib/statement/statement.c \
  lib/statement/statements.c \
  lib/statement/statements.h \
  lib/statement/language.c \
  lib/statement/told.c \
  lib/statement/told.h
