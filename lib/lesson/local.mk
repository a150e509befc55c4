# SPDX-License-Identifier: LGPL-3.0-or-later
# Problems, worksheets, keys and marks.
libbenchrule_core_la_SOURCES += \
  lib/lesson/answer.c \
  lib/lesson/answer.h \
  lib/lesson/given.c \
  lib/lesson/grade.c \
  lib/lesson/grade.h \
  lib/lesson/history.c \
  lib/lesson/html.c \
  lib/lesson/key_short.c \
  lib/lesson/keyfile.c \
  lib/lesson/keyfile.h \
  lib/lesson/mark.c \
  lib/lesson/marks_write.c \
  lib/lesson/mistake.c \
  lib/lesson/mistake.h \
  lib/lesson/own.c \
  lib/lesson/own_wrong.c \
  lib/lesson/pages.c \
  lib/lesson/practice.c \
  lib/lesson/practice.h \
  lib/lesson/practice_file.c \
  lib/lesson/problem.c \
  lib/lesson/problem.h \
  lib/lesson/problem_fraction.c \
  lib/lesson/problem_ruler.c \
  lib/lesson/problem_scale.c \
  lib/lesson/problem_shop.c \
  lib/lesson/random.c \
  lib/lesson/random.h \
  lib/lesson/ratio.h \
  lib/lesson/rows.c \
  lib/lesson/rows.h \
  lib/lesson/slip.c \
  lib/lesson/slip.h \
  lib/lesson/statements.c \
  lib/lesson/summary.c \
  lib/lesson/task.c \
  lib/lesson/verdict.c \
  lib/lesson/verdict.h \
  lib/lesson/worksheet.c \
  lib/lesson/worksheet.h \
  lib/lesson/write.c \
  lib/lesson/write.h
