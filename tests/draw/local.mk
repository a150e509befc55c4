# SPDX-License-Identifier: GPL-3.0-or-later
# Drawings, the files that the program makes of them, and the view in the terminal.
draw_tests = tests/draw/crossings \
  tests/draw/draw \
  tests/draw/figure \
  tests/draw/hidden_line \
  tests/draw/measured \
  tests/draw/outline \
  tests/draw/parts \
  tests/draw/rebuild \
  tests/draw/sheets \
  tests/draw/view \
  tests/draw/views
unit_tests += $(draw_tests)
draw_scripts = tests/draw/browser.tap tests/draw/files.tap tests/draw/paper.tap tests/draw/terminal.tap
TESTS += $(draw_scripts)
EXTRA_DIST += $(draw_scripts) tests/data/barrow.sheet tests/data/beetle.sheet tests/data/bench.sheet tests/data/birdhouse.sheet tests/data/board.sheet tests/data/boat.sheet \
  tests/data/crane.sheet tests/data/duck.sheet tests/data/houses.sheet tests/data/jig.sheet tests/data/loader.sheet tests/data/marble_run.sheet \
  tests/data/seesaw.sheet tests/data/shelf.sheet tests/data/stool.sheet tests/data/tool_board.sheet tests/data/train.sheet
