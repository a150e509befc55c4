# SPDX-License-Identifier: GPL-3.0-or-later
# Stock and parts.
TESTS += tests/wood/parts.tap
EXTRA_DIST += tests/wood/parts.tap
