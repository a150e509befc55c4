# SPDX-License-Identifier: GPL-3.0-or-later
# The program.  It sees the public headers alone.
benchrule_CPPFLAGS += $(repl_folders)
# Where the module for pages is installed.
repl_folders = -DPKGLIBDIR='"$(pkglibdir)"'
# How answers are written; tests link these too.
repl_answers = \
  repl/json.c \
  repl/text.c \
  repl/text_column.c \
  repl/text_cut.c \
  repl/text_design.c \
  repl/text_draw.c \
  repl/text_lesson.c \
  repl/text_piece.c \
  repl/text_round.c \
  repl/text_shape.c \
  repl/text_view.c \
  repl/text_sheet.c \
  repl/text_template.c \
  repl/text_tidy.c \
  repl/text_tool.c \
  repl/text_value.c
benchrule_SOURCES += $(repl_answers) \
  repl/complete.c \
  repl/complete.h \
  repl/display.c \
  repl/display.h \
  repl/escape.c \
  repl/escape.h \
  repl/fault.c \
  repl/fault.h \
  repl/fields.c \
  repl/fields.h \
  repl/history.c \
  repl/history.h \
  repl/input.c \
  repl/input.h \
  repl/interrupt.c \
  repl/interrupt.h \
  repl/json.h \
  repl/line.c \
  repl/line.h \
  repl/main.c \
  repl/options.c \
  repl/options.h \
  repl/pages.c \
  repl/pages.h \
  repl/recovery.c \
  repl/recovery.h \
  repl/ruler.c \
  repl/ruler.h \
  repl/session.c \
  repl/session.h \
  repl/solver.h \
  repl/state.c \
  repl/state.h \
  repl/table.c \
  repl/table.h \
  repl/text.h
if HAVE_GLPK
benchrule_SOURCES += repl/solver.c
endif
