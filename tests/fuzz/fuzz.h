/* SPDX-License-Identifier: GPL-3.0-or-later
   fuzz.h - what the fuzz targets share: a claim that stops the run, and bytes read as numbers.

   A target is LLVMFuzzerTestOneInput in a file of its own.  With a fuzzer's main it is fed with inputs
   that it has never seen; with that of replay.c, with the files of tests/fuzz/corpus.  */
#ifndef BR_TESTS_FUZZ_H
#define BR_TESTS_FUZZ_H

#include <inttypes.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "benchrule.h"

#define FUZZ_UNUSED __attribute__ ((unused))

/* Returns 0 always.  */
int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

/* What must hold for every input.  */
#define fuzz_require(claim)                                                     \
  do                                                                            \
    {                                                                           \
      if (!(claim))                                                             \
        {                                                                       \
          fprintf (stderr, "%s:%d: not so: %s\n", __FILE__, __LINE__, #claim);  \
          abort ();                                                             \
        }                                                                       \
    }                                                                           \
  while (0)

typedef struct fuzz_bytes
{
  const uint8_t *at, *end;
} fuzz_bytes;

/* 0 once nothing is left.  */
FUZZ_UNUSED static unsigned
fuzz_byte (fuzz_bytes *b)
{
  return b->at < b->end ? *b->at++ : 0;
}

FUZZ_UNUSED static uint64_t
fuzz_word (fuzz_bytes *b, unsigned count)
{
  uint64_t word = 0;
  while (count-- > 0)
    word = word << 8 | fuzz_byte (b);
  return word;
}

/* A signed integer, which leans to where the inline form of a number ends.  */
FUZZ_UNUSED static int64_t
fuzz_int (fuzz_bytes *b)
{
  unsigned form = fuzz_byte (b);
  uint64_t word;
  switch (form % 6)
    {
    case 0: word = fuzz_word (b, 1); break;
    case 1: word = fuzz_word (b, 2); break;
    case 2: word = UINT64_C (1) << form / 6; break;
    case 3: word = (UINT64_C (1) << form / 6) - 1; break;
    case 4: word = (uint64_t) INT64_MAX - fuzz_word (b, 1) % 4; break;
    default: word = fuzz_word (b, 8); break;
    }
  return fuzz_byte (b) & 1 ? (int64_t) - word : (int64_t) word;
}

#endif
