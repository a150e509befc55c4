# SPDX-License-Identifier: LGPL-3.0-or-later
# The statements of the language, and help.
libbenchrule_core_la_SOURCES += \
  lib/statement/files.c \
  lib/statement/forget.c \
  lib/statement/help.c \
  lib/statement/missing.c \
  lib/statement/open.c \
  lib/statement/opened.h \
  lib/statement/phrase.c \
  lib/statement/phrase.h \
  lib/statement/phrase_about.c \
  lib/statement/phrase_hint.c \
  lib/statement/phrase_index.c \
  lib/statement/phrase_names.c \
  lib/statement/phrase_thing.c \
  lib/statement/phrase_edit.c \
  lib/statement/phrase_frame.c \
  lib/statement/phrase_list.c \
  lib/statement/phrase_loose.c \
  lib/statement/phrase_numbers.c \
  lib/statement/phrase_orders.c \
  lib/statement/phrase_rows.c \
  lib/statement/phrase_run.c \
  lib/statement/phrase_slots.c \
  lib/statement/phrase_cues.c \
  lib/statement/phrase_table.c \
  lib/statement/phrase_words.h \
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
  lib/statement/told.h \
  lib/statement/topics.c \
  lib/statement/topics.h
