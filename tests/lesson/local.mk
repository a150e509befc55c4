# SPDX-License-Identifier: GPL-3.0-or-later
# Worksheets, keys and marks.
lesson_tests = tests/lesson/answers tests/lesson/grade tests/lesson/papers tests/lesson/practice tests/lesson/worksheet
unit_tests += $(lesson_tests)
if HAVE_FLINT
unit_tests += tests/lesson/problems
endif
TESTS += tests/lesson/pages.tap tests/lesson/week.tap
EXTRA_DIST += tests/data/answer_forms.csv tests/data/answers_meant.csv tests/data/answers.txt tests/data/answers_written.csv tests/data/textbook.txt tests/lesson/pages.tap tests/lesson/week.tap
