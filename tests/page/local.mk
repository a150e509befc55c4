# SPDX-License-Identifier: GPL-3.0-or-later
# Pages through the module with cairo.
page_tests = tests/page/pdf \
  tests/page/width
if HAVE_PAGES
unit_tests += $(page_tests)
endif
