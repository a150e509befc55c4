/* SPDX-License-Identifier: GPL-3.0-or-later
   column_peers.h - the job of `round column 1 of IN to 1/16 into OUT` done by others.  The file has one
   column of decimals and fractions under a header; each writes the same bytes, or returns 0.  */
#ifndef BR_BENCH_COLUMN_PEERS_H
#define BR_BENCH_COLUMN_PEERS_H

/* 64-bit integers and nothing else: no check of what it reads, no other mark than 1/16, no other
   column, no value that does not fit.  Digit by digit, as one writes it.  */
int peer_hand (const char *in, const char *out);
/* The same in the rationals of GMP, and of FLINT where it is there (0 where not), each as its
   manual shows: a number made from its digits, multiplied, rounded down, subtracted, printed.  */
int peer_mpq (const char *in, const char *out);
int peer_fmpq (const char *in, const char *out);

#endif
