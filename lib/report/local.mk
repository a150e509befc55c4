# SPDX-License-Identifier: LGPL-3.0-or-later
# A sheet as one page of HTML.
libbenchrule_core_la_SOURCES += \
  lib/report/findings.c \
  lib/report/guard.c \
  lib/report/guard.h \
  lib/report/must.c \
  lib/report/report.c \
  lib/report/report.h \
  lib/report/report_cut.c \
  lib/report/report_figure.c \
  lib/report/report_rows.c \
  lib/report/review.c \
  lib/report/review.h \
  lib/report/review_page.c \
  lib/report/review_write.c \
  lib/report/statements.c
