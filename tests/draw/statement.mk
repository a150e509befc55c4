# SPDX-License-Identifier: GPL-3.0-or-later
# Tests of the statement draw, and of the files that the program makes of it.
EXTRA_DIST += tests/draw/files.tap
TESTS += tests/draw/files.tap
