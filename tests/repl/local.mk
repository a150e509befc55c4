# SPDX-License-Identifier: GPL-3.0-or-later
# The program: what is shown, what comes in, the command line, and the prompt on a terminal.

if HAVE_CMOCKA
check_PROGRAMS += tests/repl/answers tests/repl/display tests/repl/input
TESTS += tests/repl/answers tests/repl/display tests/repl/input
repl_shown = repl/display.c repl/escape.c repl/fault.c repl/fields.c repl/ruler.c repl/table.c
tests_repl_answers_SOURCES = tests/repl/answers.c tests/check.h $(repl_shown) $(repl_answers)
tests_repl_answers_CPPFLAGS = $(TEST_CPPFLAGS) -I$(top_srcdir)/repl $(JANSSON_CFLAGS)
tests_repl_answers_CFLAGS = $(TEST_CFLAGS)
tests_repl_answers_LDADD = $(TEST_LIBS) $(JANSSON_LIBS)
tests_repl_display_SOURCES = tests/repl/display.c tests/check.h $(repl_shown)
tests_repl_display_CPPFLAGS = $(TEST_CPPFLAGS) -I$(top_srcdir)/repl
tests_repl_display_CFLAGS = $(TEST_CFLAGS)
tests_repl_display_LDADD = $(TEST_LIBS)
tests_repl_input_SOURCES = tests/repl/input.c tests/check.h tests/repl/folder.h \
  repl/history.c repl/state.c repl/input.c repl/line.c repl/options.c
tests_repl_input_CPPFLAGS = $(TEST_CPPFLAGS) -I$(top_srcdir)/repl
tests_repl_input_CFLAGS = $(TEST_CFLAGS)
tests_repl_input_LDADD = $(TEST_LIBS)
endif

# The program without a line editor, which pty runs too.
check_PROGRAMS += tests/repl/plain
tests_repl_plain_SOURCES = $(benchrule_SOURCES)
tests_repl_plain_CPPFLAGS = $(AM_CPPFLAGS) $(JANSSON_CFLAGS) -DWITHOUT_READLINE $(repl_folders)
tests_repl_plain_LDADD = libbenchrule-core.la $(JANSSON_LIBS) $(GLPK_LIBS)

check_PROGRAMS += tests/repl/pty
TESTS += tests/repl/pty
tests_repl_pty_SOURCES = tests/repl/pty.c tests/repl/folder.h \
  tests/repl/screen.c tests/repl/screen.h
tests_repl_pty_LDADD = -lutil

# pty finds every .script here; each has its .golden.
repl_sessions = afterwards color complete dumb history inputrc interrupt paste plain prompt resize signals unkept unsaved
TESTS += tests/repl/command.tap tests/repl/hostile.tap
EXTRA_DIST += tests/repl/command.tap tests/repl/hostile.tap \
  $(repl_sessions:%=tests/repl/%.script) $(repl_sessions:%=tests/repl/%.golden)
