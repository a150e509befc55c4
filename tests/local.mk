# SPDX-License-Identifier: GPL-3.0-or-later
# The tests, a folder for each folder that they test.

include tests/exact/local.mk
include tests/measure/local.mk
include tests/shop/local.mk
include tests/sheet/local.mk
include tests/draw/local.mk
include tests/lesson/local.mk
include tests/repl/local.mk
include tests/bench/local.mk
include tests/fuzz/local.mk
include tests/packaging/local.mk
EXTRA_DIST += tests/leaks.supp tests/mutate.sh tests/slips.awk tests/data/equivalent_slips.txt
