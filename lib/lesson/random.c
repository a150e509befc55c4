/* SPDX-License-Identifier: LGPL-3.0-or-later
   random.c - splitmix64 and xoshiro256** as random.h specifies them.  Whoever changes a
   number here changes the papers of every seed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/random.h"

uint64_t
br__splitmix (uint64_t *x)
{
  uint64_t z = *x += UINT64_C (0x9e3779b97f4a7c15);
  z = (z ^ (z >> 30)) * UINT64_C (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * UINT64_C (0x94d049bb133111eb);
  return z ^ (z >> 31);
}

static uint64_t
rotl (uint64_t x, int by)
{
  return (x << by) | (x >> (64 - by));
}

void
br__random_start (br__random *r, uint64_t seed, uint64_t version, uint64_t problem)
{
  uint64_t x = seed;
  x = br__splitmix (&x) ^ version;
  x = br__splitmix (&x) ^ problem;
  for (int i = 0; i < 4; i++)
    r->s[i] = br__splitmix (&x);
}

uint64_t
br__random_next (br__random *r)
{
  uint64_t *s = r->s, made = rotl (s[1] * 5, 7) * 9, t = s[1] << 17;
  s[2] ^= s[0];
  s[3] ^= s[1];
  s[1] ^= s[2];
  s[0] ^= s[3];
  s[2] ^= t;
  s[3] = rotl (s[3], 45);
  return made;
}

uint64_t
br__random_below (br__random *r, uint64_t n)
{
  uint64_t x, least = -n % n;
  do
    x = br__random_next (r);
  while (x < least);
  return x % n;
}

int64_t
br__random_between (br__random *r, int64_t low, int64_t high)
{
  return low + (int64_t) br__random_below (r, (uint64_t) (high - low) + 1);
}
