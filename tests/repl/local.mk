# SPDX-License-Identifier: GPL-3.0-or-later
# The program: what is shown, what comes in, the command line, and the prompt on a terminal.

repl_tests = tests/repl/answers tests/repl/display tests/repl/input
unit_tests += $(repl_tests)
repl_shown = repl/display.c repl/escape.c repl/fault.c repl/show/fields.c repl/show/ruler_text.c repl/show/table.c
REPL_TEST_CPPFLAGS = $(AM_CPPFLAGS) -I$(top_srcdir)/repl $(JANSSON_CFLAGS)
tests_repl_answers_SOURCES = tests/repl/answers.c $(repl_shown) $(repl_answers)
tests_repl_answers_CPPFLAGS = $(REPL_TEST_CPPFLAGS)
tests_repl_answers_LDADD = $(LDADD) $(JANSSON_LIBS)
tests_repl_display_SOURCES = tests/repl/display.c $(repl_shown)
tests_repl_display_CPPFLAGS = $(REPL_TEST_CPPFLAGS)
tests_repl_input_SOURCES = tests/repl/input.c repl/history.c repl/state.c repl/input.c repl/line.c repl/options.c
tests_repl_input_CPPFLAGS = $(REPL_TEST_CPPFLAGS) -DWITHOUT_READLINE

check_PROGRAMS += tests/repl/hold_records

# The program without a line editor, which pty runs too.
check_PROGRAMS += tests/repl/plain
tests_repl_plain_SOURCES = $(benchrule_SOURCES)
tests_repl_plain_CPPFLAGS = $(LIB_CPPFLAGS) $(JANSSON_CFLAGS) -DWITHOUT_READLINE $(repl_folders)
tests_repl_plain_LDADD = $(core) $(JANSSON_LIBS) $(GLPK_LIBS) $(core_LIBS)

check_PROGRAMS += tests/repl/pty
if HAVE_READLINE
TESTS += tests/repl/pty
else
TESTS += tests/repl/plain.tap
endif
EXTRA_DIST += tests/repl/plain.tap
tests_repl_pty_SOURCES = tests/repl/pty.c tests/repl/screen.c
tests_repl_pty_LDADD = -lutil

# pty finds every .script here; each has its .golden.
repl_sessions = afterwards color complete container dumb foreign history inputrc interrupt left pager paste plain prompt resize signals two unkept unsaved
TESTS += tests/repl/command.tap tests/repl/files.tap tests/repl/hostile.tap tests/repl/json.tap tests/repl/large.tap tests/repl/memory.tap tests/repl/records.tap
EXTRA_DIST += tests/repl/command.tap tests/repl/files.tap tests/repl/hostile.tap tests/repl/json.tap tests/repl/large.tap tests/repl/memory.tap tests/repl/records.tap \
  $(repl_sessions:%=tests/repl/%.script) $(repl_sessions:%=tests/repl/%.golden)
