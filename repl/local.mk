# SPDX-License-Identifier: GPL-3.0-or-later
# The program.  It sees the public headers alone.
benchrule_CPPFLAGS += $(repl_folders)
# Where the module for pages is installed.
repl_folders = -I$(top_srcdir)/repl -DPKGLIBDIR='"$(pkglibdir)"' -DBINDIR='"$(bindir)"'
# How answers are written; tests link these too.
repl_answers = \
  repl/show/json.c \
  repl/show/text.c \
  repl/show/text_column.c \
  repl/show/text_cut.c \
  repl/show/text_design.c \
  repl/show/text_draw.c \
  repl/show/text_lesson.c \
  repl/show/text_number.c \
  repl/show/text_piece.c \
  repl/show/text_round.c \
  repl/show/text_shape.c \
  repl/show/text_view.c \
  repl/show/text_sheet.c \
  repl/show/text_template.c \
  repl/show/text_tidy.c \
  repl/show/text_tool.c \
  repl/show/text_value.c
benchrule_SOURCES += $(repl_answers) \
  repl/complete.c \
  repl/complete.h \
  repl/display.c \
  repl/display.h \
  repl/escape.c \
  repl/escape.h \
  repl/fault.c \
  repl/fault.h \
  repl/show/fields.c \
  repl/show/fields.h \
  repl/given.c \
  repl/given.h \
  repl/history.c \
  repl/history.h \
  repl/input.c \
  repl/input.h \
  repl/interrupt.c \
  repl/interrupt.h \
  repl/show/json.h \
  repl/line.c \
  repl/line.h \
  repl/main.c \
  repl/memory.c \
  repl/memory.h \
  repl/options.c \
  repl/options.h \
  repl/pages.c \
  repl/pages.h \
  repl/pager.c \
  repl/pager.h \
  repl/recovery.c \
  repl/recovery.h \
  repl/show/ruler_text.c \
  repl/show/ruler_text.h \
  repl/session.c \
  repl/session.h \
  repl/solver.h \
  repl/state.c \
  repl/state.h \
  repl/show/table.c \
  repl/show/table.h \
  repl/show/text.h
if HAVE_GLPK
benchrule_SOURCES += repl/solver.c
endif
# Where things are installed may change with Makefile.
repl/benchrule-pages.$(OBJEXT) repl/tests_repl_plain-pages.$(OBJEXT): Makefile
