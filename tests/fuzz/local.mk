# SPDX-License-Identifier: GPL-3.0-or-later
# Fuzz targets.  `make check` feeds each with its corpus.  `make fuzz`, in a build configured with
# --enable-fuzzing CC=clang, goes on from there for FUZZ_SECONDS a target and stops at the first find, which
# lies in tests/fuzz/found then; what has grown on the way is in tests/fuzz/grown.

FUZZ_SECONDS = 180
FUZZ_FLAGS = -max_len=600
# What users type, open and bring as tables takes 5 s and 500 MB at most.  The seconds are taken four times, as the sanitizers slow
# it down by 2 to 3 (the figure of their makers); of blocks that were given back they keep 16 MB, so that the megabytes are those of
# the program: 85 in 20 seconds of each of these targets, where 256 MB, as usual, are kept it is 470.
FUZZ_LIMITS_line = -timeout=20 -rss_limit_mb=500 -malloc_limit_mb=500
FUZZ_LIMITS_sheet = $(FUZZ_LIMITS_line)
FUZZ_LIMITS_csv = $(FUZZ_LIMITS_line)
FUZZ_LIMITS = -timeout=10 -rss_limit_mb=2048
FUZZ_INCLUDES = $(AM_CPPFLAGS) -I$(srcdir)/tests/fuzz
EXTRA_DIST += tests/fuzz/fuzz.h tests/fuzz/decimal.h tests/fuzz/session.h tests/fuzz/words.dict tests/fuzz/corpus

fuzz_replays = tests/fuzz/replay_measure tests/fuzz/replay_number tests/fuzz/replay_real \
  tests/fuzz/replay_line tests/fuzz/replay_sheet tests/fuzz/replay_csv \
  tests/fuzz/replay_answers tests/fuzz/replay_engines tests/fuzz/replay_edits
check_PROGRAMS += $(fuzz_replays)
TESTS += $(fuzz_replays)
fuzz_measure_sources = tests/fuzz/measure.c
fuzz_number_sources = tests/fuzz/number.c
fuzz_real_sources = tests/fuzz/real.c
fuzz_line_sources = tests/fuzz/line.c
fuzz_sheet_sources = tests/fuzz/sheet.c
fuzz_csv_sources = tests/fuzz/csv.c
fuzz_answers_sources = tests/fuzz/answers.c
fuzz_engines_sources = tests/fuzz/engines.c
fuzz_edits_sources = tests/fuzz/edits.c

tests_fuzz_replay_measure_SOURCES = tests/fuzz/replay.c $(fuzz_measure_sources)
tests_fuzz_replay_measure_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"measure"'
tests_fuzz_replay_number_SOURCES = tests/fuzz/replay.c $(fuzz_number_sources)
tests_fuzz_replay_number_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"number"'
tests_fuzz_replay_real_SOURCES = tests/fuzz/replay.c $(fuzz_real_sources)
tests_fuzz_replay_real_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"real"'
tests_fuzz_replay_line_SOURCES = tests/fuzz/replay.c $(fuzz_line_sources)
tests_fuzz_replay_line_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"line"'
tests_fuzz_replay_sheet_SOURCES = tests/fuzz/replay.c $(fuzz_sheet_sources)
tests_fuzz_replay_sheet_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"sheet"'
tests_fuzz_replay_csv_SOURCES = tests/fuzz/replay.c $(fuzz_csv_sources)
tests_fuzz_replay_csv_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"csv"'
tests_fuzz_replay_answers_SOURCES = tests/fuzz/replay.c $(fuzz_answers_sources)
tests_fuzz_replay_answers_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"answers"'
tests_fuzz_replay_engines_SOURCES = tests/fuzz/replay.c $(fuzz_engines_sources)
tests_fuzz_replay_engines_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"engines"'
tests_fuzz_replay_edits_SOURCES = tests/fuzz/replay.c $(fuzz_edits_sources)
tests_fuzz_replay_edits_CPPFLAGS = $(FUZZ_INCLUDES) -DFUZZ_NAME='"edits"'

if FUZZING
FUZZ_ENGINE = $(AM_LDFLAGS) -fsanitize=fuzzer
fuzz_targets = tests/fuzz/measure tests/fuzz/number tests/fuzz/real tests/fuzz/line tests/fuzz/sheet \
  tests/fuzz/csv tests/fuzz/answers tests/fuzz/engines tests/fuzz/edits
EXTRA_PROGRAMS += $(fuzz_targets)
tests_fuzz_measure_SOURCES = $(fuzz_measure_sources)
tests_fuzz_measure_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_number_SOURCES = $(fuzz_number_sources)
tests_fuzz_number_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_real_SOURCES = $(fuzz_real_sources)
tests_fuzz_real_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_line_SOURCES = $(fuzz_line_sources)
tests_fuzz_line_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_sheet_SOURCES = $(fuzz_sheet_sources)
tests_fuzz_sheet_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_csv_SOURCES = $(fuzz_csv_sources)
tests_fuzz_csv_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_answers_SOURCES = $(fuzz_answers_sources)
tests_fuzz_answers_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_engines_SOURCES = $(fuzz_engines_sources)
tests_fuzz_engines_LDFLAGS = $(FUZZ_ENGINE)
tests_fuzz_edits_SOURCES = $(fuzz_edits_sources)
tests_fuzz_edits_LDFLAGS = $(FUZZ_ENGINE)

fuzz: $(fuzz_targets)
	@$(MKDIR_P) tests/fuzz/found
	@for target in $(fuzz_targets); do \
	  name=`basename $$target`; \
	  $(MKDIR_P) tests/fuzz/grown/$$name; \
	  echo "fuzzing $$name"; \
	  case $$name in \
	    line) limits='$(FUZZ_LIMITS_line)' ;; sheet) limits='$(FUZZ_LIMITS_sheet)' ;; csv) limits='$(FUZZ_LIMITS_csv)' ;; \
	    *) limits='$(FUZZ_LIMITS)' ;; \
	  esac; \
	  srcdir='$(abs_srcdir)' ASAN_OPTIONS=malloc_context_size=8:quarantine_size_mb=16 ./$$target $$limits $(FUZZ_FLAGS) -max_total_time=$(FUZZ_SECONDS) \
	    -print_final_stats=1 -dict=$(srcdir)/tests/fuzz/words.dict \
	    -artifact_prefix='$(abs_builddir)/tests/fuzz/found/'$$name- \
	    tests/fuzz/grown/$$name $(srcdir)/tests/fuzz/corpus/$$name || exit 1; \
	done
else
fuzz:
	@echo 'configure with CC=clang --enable-fuzzing first' >&2; exit 1
endif

.PHONY: fuzz
