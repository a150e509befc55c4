# SPDX-License-Identifier: LGPL-3.0-or-later
# Formulas: lexer, parser, tree, settings, values, and formulas compiled over a few names.
libbenchrule_core_la_SOURCES += \
  lib/formula/evaluate.c \
  lib/formula/evaluate.h \
  lib/formula/functions.c \
  lib/formula/functions.h \
  lib/formula/lexer.c \
  lib/formula/lexer.h \
  lib/formula/parser.c \
  lib/formula/settings.c \
  lib/formula/settings.h \
  lib/formula/tape.c \
  lib/formula/tape.h \
  lib/formula/tape_call.c \
  lib/formula/tape_enclose.c \
  lib/formula/tape_exact.c \
  lib/formula/tree.h \
  lib/formula/words.c \
  lib/formula/words.h
