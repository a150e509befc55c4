# SPDX-License-Identifier: LGPL-3.0-or-later
# Formulas: lexer, parser, tree, settings, values, and formulas compiled over a few names.
libbenchrule_core_la_SOURCES += \
  lib/formula/echo.c \
  lib/formula/evaluate.c \
  lib/formula/evaluate.h \
  lib/formula/functions.c \
  lib/formula/functions.h \
  lib/formula/lexer.c \
  lib/formula/lexer.h \
  lib/formula/parser.c \
  lib/formula/parser_private.h \
  lib/formula/parser_signs.c \
  lib/formula/settings.c \
  lib/formula/settings.h \
  lib/formula/program.c \
  lib/formula/program.h \
  lib/formula/operate.c \
  lib/formula/operate.h \
  lib/formula/trade.c \
  lib/formula/domain_box.c \
  lib/formula/domain_box.h \
  lib/formula/domain_slope.c \
  lib/formula/domain_exact.c \
  lib/formula/tree.h \
  lib/formula/words.c \
  lib/formula/words.h
