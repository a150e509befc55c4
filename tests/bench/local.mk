# SPDX-License-Identifier: GPL-3.0-or-later
# Programs that `make bench` builds and runs: add each to BENCHES (automake keeps
# every NAME_PROGRAMS for itself).
