# SPDX-License-Identifier: GPL-3.0-or-later
# Files: CSV, markup, and what becomes of a file when writing it fails.
file_tests = tests/file/csv tests/file/markup tests/file/replace tests/file/save_faults
unit_tests += $(file_tests)
# Its calls of the system go through functions of its own.
tests_file_save_faults_LDFLAGS = $(AM_LDFLAGS) -Wl,--wrap=open,--wrap=read,--wrap=write,--wrap=fsync \
  -Wl,--wrap=fchmod,--wrap=close,--wrap=rename,--wrap=linkat,--wrap=unlink,--wrap=getrandom,--wrap=ftruncate \
  -Wl,--wrap=fstat
