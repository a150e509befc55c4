# SPDX-License-Identifier: LGPL-3.0-or-later
# What people type, in the words of the language, and the topics of help that it leads to.
libbenchrule_core_la_SOURCES += \
  lib/phrase/about.c \
  lib/phrase/cues.c \
  lib/phrase/edit.c \
  lib/phrase/frame.c \
  lib/phrase/hint.c \
  lib/phrase/index.c \
  lib/phrase/list.c \
  lib/phrase/loose.c \
  lib/phrase/names.c \
  lib/phrase/numbers.c \
  lib/phrase/orders.c \
  lib/phrase/phrase.c \
  lib/phrase/phrase.h \
  lib/phrase/rows.c \
  lib/phrase/run.c \
  lib/phrase/sizes.c \
  lib/phrase/slots.c \
  lib/phrase/table.c \
  lib/phrase/thing.c \
  lib/phrase/topics.c \
  lib/phrase/topics.h \
  lib/phrase/words.h
