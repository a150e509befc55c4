/* SPDX-License-Identifier: LGPL-3.0-or-later
   random.h - the random numbers of worksheets.  They are specified here and in docs/worksheets.md
   and never change, so that a seed gives the same paper for ever.

   splitmix64 (Steele, Lea and Flood, 2014): x := x + 0x9e3779b97f4a7c15, then
     z := x; z := (z ^ z >> 30) * 0xbf58476d1ce4e5b9; z := (z ^ z >> 27) * 0x94d049bb133111eb;
     the number is z ^ z >> 31.
   xoshiro256** (Blackman and Vigna, 2018), four words of state s:
     the number is rotl (s1 * 5, 7) * 9; t := s1 << 17; s2 ^= s0; s3 ^= s1; s1 ^= s2; s0 ^= s3;
     s2 ^= t; s3 := rotl (s3, 45).
   The stream of a problem: x := seed, x := splitmix64 (x) ^ version, x := splitmix64 (x) ^ problem;
   the next four numbers of splitmix64 from x are the state.  Version 0 is what all versions share;
   problems count from 1.
   A number below n: numbers from (2^64 - n) mod n on are good, smaller ones are thrown away; the
   number modulo n.  */
#ifndef BR_LESSON_RANDOM_H
#define BR_LESSON_RANDOM_H

#include <stdint.h>

typedef struct br__random
{
  uint64_t s[4];
} br__random;

/* The next number of splitmix64 from *X.  */
uint64_t br__splitmix (uint64_t *x);
void br__random_start (br__random *r, uint64_t seed, uint64_t version, uint64_t problem);
uint64_t br__random_next (br__random *r);
/* 0 .. N - 1; N over 0.  */
uint64_t br__random_below (br__random *r, uint64_t n);
/* LOW .. HIGH, both included.  */
int64_t br__random_between (br__random *r, int64_t low, int64_t high);

#endif
