/* SPDX-License-Identifier: GPL-3.0-or-later
   engines.c - fuzz target: the bytes choose a sheet, and everything that works formulas out agrees on it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "fuzz.h"

static fuzz_bytes engines_bytes;

#define ENGINES_BELOW(n) (fuzz_byte (&engines_bytes) % (n))
#define ENGINES_FAIL(...)                       \
  do                                            \
    {                                           \
      fprintf (stderr, __VA_ARGS__);            \
      abort ();                                 \
    }                                           \
  while (0)

#include "statement/engines.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  engines_sheet e;
  engines_bytes = (fuzz_bytes) { data, data + size };
  engines_make (&e);
  engines_check (&e);
  engines_end (&e);
  return 0;
}
