/* SPDX-License-Identifier: GPL-3.0-or-later
   cuts_peer.h - a cutting plan by GLPK alone.  */
#ifndef BR_TESTS_BENCH_CUTS_PEER_H
#define BR_TESTS_BENCH_CUTS_PEER_H

#include <stddef.h>
#include <stdint.h>

/* The sticks of ROOM that a plan for DEMAND[I] pieces of SIZE[I], kerfs included, takes: patterns by Gilmore and
   Gomory's column generation, then whole numbers of those, within MILLISECONDS.  0 where GLPK finds none by then.  */
int64_t glpk_cuts (int64_t room, const int64_t *size, const int64_t *demand, size_t count, int milliseconds);

#endif
