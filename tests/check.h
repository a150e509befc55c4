/* SPDX-License-Identifier: GPL-3.0-or-later
   check.h - what every test program shares: a seeded random source that leans to the edges,
   a reader for tests/data, an allocator that fails on demand, and a few assertions.

   BR_TEST_SEED    the seed (decimal or 0x...); without it a fixed one
   BR_TEST_FACTOR  how many times longer the random tests run (1): 100, or 1/5
   srcdir          where the sources lie (set by the test harness), else "."

   Include this first: it brings in cmocka with what cmocka needs before it.  */
#ifndef BR_TESTS_CHECK_H
#define BR_TESTS_CHECK_H

#include <inttypes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <gmp.h>

#include "benchrule.h"
#include "exact/memory.h"
#include "exact/number.h"
#include "exact/text.h"

#define CHECK_UNUSED __attribute__ ((unused))
#define CHECK_COUNT(array) (sizeof (array) / sizeof *(array))

/* ---- Seed and random source (splitmix64, Steele, Lea and Flood 2014; from memory) ---- */

static uint64_t check_seed = UINT64_C (0x62656e636872756c);
static uint64_t check_state = UINT64_C (0x62656e636872756c);
static long check_factor = 1, check_divisor = 1;

/* Reads the environment.  Call it first in main; CHECK_RUN does.  */
CHECK_UNUSED static void
check_start (void)
{
  const char *seed = getenv ("BR_TEST_SEED");
  const char *factor = getenv ("BR_TEST_FACTOR");
  if (seed && *seed)
    check_seed = strtoull (seed, NULL, 0);
  if (factor && strtol (factor, NULL, 10) > 0)
    {
      const char *divisor = strchr (factor, '/');
      check_factor = strtol (factor, NULL, 10);
      check_divisor = divisor && strtol (divisor + 1, NULL, 10) > 0 ? strtol (divisor + 1, NULL, 10) : 1;
    }
  check_state = check_seed;
}

/* Whether a sanitizer or valgrind watches each access of memory: work takes up to thirty times as long then, and what is
   allocated does not count where the C library counts.  */
CHECK_UNUSED static int
check_watched (void)
{
  const char *flags = getenv ("SAN_FLAGS");
  return flags && *flags;
}

/* For a setup function: each test begins at the seed, so that one can be run alone.  */
CHECK_UNUSED static int
check_reseed (void **state)
{
  (void) state;
  check_state = check_seed;
  return 0;
}

CHECK_UNUSED static int
check_end (int failed)
{
  if (failed)
    fprintf (stderr, "random data came from BR_TEST_SEED=0x%" PRIx64 " BR_TEST_FACTOR=%ld/%ld\n",
             check_seed, check_factor, check_divisor);
  return failed != 0;
}

/* main's body: runs the array TESTS as a group and tells the seed if one failed.  */
#define CHECK_RUN(tests) \
  (check_start (), check_end (cmocka_run_group_tests (tests, NULL, NULL)))

/* A test that starts at the seed.  */
#define CHECK_TEST(function) cmocka_unit_test_setup (function, check_reseed)

/* How often a random test runs: BASE times the factor, and once at least.  */
CHECK_UNUSED static long
check_times (long base)
{
  return base * check_factor / check_divisor + (base * check_factor < check_divisor);
}

CHECK_UNUSED static uint64_t
check_random (void)
{
  uint64_t z = check_state += UINT64_C (0x9e3779b97f4a7c15);
  z = (z ^ (z >> 30)) * UINT64_C (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * UINT64_C (0x94d049bb133111eb);
  return z ^ (z >> 31);
}

/* 0 .. N - 1, for N over 0.  */
CHECK_UNUSED static uint64_t
check_below (uint64_t n)
{
  return check_random () % n;
}

/* How far a test that refuses each allocation in turn goes at a time: 1, or some more where the random tests are shorter.  */
CHECK_UNUSED static long
check_stride (void)
{
  return check_factor >= check_divisor ? 1 : 1 + (long) check_below ((uint64_t) (2 * check_divisor / check_factor));
}

/* LOW .. HIGH, both included.  */
CHECK_UNUSED static int64_t
check_between (int64_t low, int64_t high)
{
  return (int64_t) ((uint64_t) low + check_below ((uint64_t) high - (uint64_t) low + 1));
}

/* ---- Random numbers that lean to the edges ---- */

/* Runs of ones and zeros, up to about BITS bits, as carries like them.  */
CHECK_UNUSED static void
check_runs (mpz_t z, unsigned bits)
{
  unsigned used = 0;
  mpz_set_ui (z, 1);
  while (used < bits)
    {
      unsigned run = 1 + (unsigned) check_below (40);
      mpz_mul_2exp (z, z, run);
      if (check_random () & 1)
        {
          mpz_t ones;
          mpz_init_set_ui (ones, 1);
          mpz_mul_2exp (ones, ones, run);
          mpz_sub_ui (ones, ones, 1);
          mpz_ior (z, z, ones);
          mpz_clear (ones);
        }
      used += run;
    }
}

/* An integer, mostly small or near a border: 0, 1, word limits, powers of 2 and 10.  */
CHECK_UNUSED static void
check_mpz (mpz_t z)
{
  switch (check_below (12))
    {
    case 0: mpz_set_ui (z, (unsigned long) check_below (3)); break;
    case 1: mpz_set_ui (z, (unsigned long) check_below (130)); break;
    case 2: case 3: mpz_set_ui (z, (unsigned long) check_below (10000)); break;
    case 4:     /* 2^31, 2^32, 2^62, 2^63, 2^64 and about */
      {
        static const unsigned bits[] = { 31, 32, 62, 63, 63, 63, 64, 127 };
        mpz_set_ui (z, 1);
        mpz_mul_2exp (z, z, bits[check_below (CHECK_COUNT (bits))]);
        break;
      }
    case 5:
      mpz_set_ui (z, 1);
      mpz_mul_2exp (z, z, (mp_bitcnt_t) check_below (140));
      break;
    case 6: mpz_ui_pow_ui (z, 10, (unsigned long) check_below (40)); break;
    case 7: mpz_set_ui (z, 127); break;
    case 8: check_runs (z, 20 + (unsigned) check_below (200)); break;
    default: mpz_set_ui (z, (unsigned long) (check_random () >> check_below (64))); break;
    }
  if (check_below (4) == 0)
    mpz_add_ui (z, z, 1);
  else if (check_below (3) == 0)
    mpz_sub_ui (z, z, 1);
  if (check_random () & 1)
    mpz_neg (z, z);
}

/* A rational in lowest terms: denominators of rulers (2 .. 64), of decimals, and any.  */
CHECK_UNUSED static void
check_mpq (mpq_t q)
{
  check_mpz (mpq_numref (q));
  switch (check_below (6))
    {
    case 0: mpz_set_ui (mpq_denref (q), 1); break;
    case 1: mpz_set_ui (mpq_denref (q), 1ul << check_between (1, 6)); break;
    case 2: mpz_set_ui (mpq_denref (q), (unsigned long) check_between (2, 64)); break;
    case 3: mpz_ui_pow_ui (mpq_denref (q), 10, (unsigned long) check_below (25)); break;
    default:
      check_mpz (mpq_denref (q));
      mpz_abs (mpq_denref (q), mpq_denref (q));
      if (mpz_sgn (mpq_denref (q)) == 0)
        mpz_set_ui (mpq_denref (q), 127);
      break;
    }
  mpq_canonicalize (q);
}

/* Z, initialised, gets such a rational.  */
CHECK_UNUSED static void
check_number (br_number *z)
{
  mpq_t q;
  mpq_init (q);
  check_mpq (q);
  assert_int_equal (br__number_from_mpq (z, q), BR_OK);
  mpq_clear (q);
}

/* A shop fraction within LIMIT inches of 0: whole inches and a ruler mark down to 1/64.  */
CHECK_UNUSED static void
check_shop_number (br_number *z, int64_t limit)
{
  int64_t den = INT64_C (1) << check_below (7);
  assert_int_equal (br_number_set_ratio (z, check_between (-limit * den, limit * den), den), BR_OK);
}

/* ---- Assertions ---- */

#define check_ok(call) assert_int_equal ((call), BR_OK)

/* X is in the one representation that it must have, and is TEXT ("n/d" or "n").  */
#define check_is(x, text) check_is_at ((x), (text), __FILE__, __LINE__)

CHECK_UNUSED static void
check_is_at (const br_number *x, const char *text, const char *file, int line)
{
  size_t size = br_number_write (NULL, 0, x) + 1;
  char *buffer = size ? malloc (size) : NULL;
  if (!buffer)
    {
      print_error ("no memory\n");
      _fail (file, line);
      return;
    }
  br_number_write (buffer, size, x);
  int good = br_number_check (x) && strcmp (buffer, text) == 0;
  if (!good)
    print_error ("%s%s where %s was right\n", buffer,
                 br_number_check (x) ? "" : " (malformed)", text);
  free (buffer);
  if (!good)
    _fail (file, line);
}

/* X := TEXT, which is "n" or "n/d".  */
#define check_set(x, text) check_ok (br_number_read ((x), (text), strlen (text), NULL))

/* ---- Data files: a record a line, "#" starts a remark line ---- */

#define CHECK_LINE 4096
#define CHECK_FIELDS 32

typedef struct check_data
{
  FILE *file;
  const char *name;
  char separator;
  long line;
  char bytes[CHECK_LINE];
  char *field[CHECK_FIELDS];  /* blanks around are taken off */
  size_t fields;
} check_data;

/* Opens tests/data/NAME, of which fields are parted by SEPARATOR.  Fails the test if it
   cannot be read.  */
CHECK_UNUSED static void
check_open (check_data *data, const char *name, char separator)
{
  const char *source = getenv ("srcdir");
  char path[CHECK_LINE];
  snprintf (path, sizeof path, "%s/tests/data/%s", source && *source ? source : ".", name);
  memset (data, 0, sizeof *data);
  data->name = name;
  data->separator = separator;
  data->file = fopen (path, "r");
  if (!data->file)
    fail_msg ("%s: not readable (srcdir names the folder of the sources)", path);
}

CHECK_UNUSED static char *
check_trim (char *text)
{
  while (*text == ' ' || *text == '\t')
    text++;
  char *end = text + strlen (text);
  while (end > text && strchr (" \t\r\n", end[-1]))
    end--;
  *end = 0;
  return text;
}

/* The next record: 1, or 0 at the end, with the file closed.  */
CHECK_UNUSED static int
check_next (check_data *data)
{
  while (fgets (data->bytes, sizeof data->bytes, data->file))
    {
      char *rest = data->bytes;
      data->line++;
      data->fields = 0;
      if (*rest == '#' || *check_trim (rest) == 0)
        continue;
      while (rest && data->fields < CHECK_FIELDS)
        {
          char *end = strchr (rest, data->separator);
          if (end)
            *end++ = 0;
          data->field[data->fields++] = check_trim (rest);
          rest = end;
        }
      return 1;
    }
  fclose (data->file);
  data->file = NULL;
  return 0;
}

/* ---- The n-th allocation fails ---- */

static long check_memory_left = -1;   /* allocations that still succeed; below 0: all */
static int check_memory_once;         /* 1: one allocation is refused, and those after it are not */
static long check_memory_asked;       /* allocations that were asked for */
static long check_memory_blocks;      /* blocks taken and not yet given back */
static int check_memory_refused;      /* 1 once an allocation was refused */

CHECK_UNUSED static void *
check_memory_reallocate (void *old, size_t size)
{
  check_memory_asked++;
  if (check_memory_left == 0)
    {
      check_memory_refused = 1;
      if (check_memory_once)
        check_memory_left = -1;
      return NULL;
    }
  if (check_memory_left > 0)
    check_memory_left--;
  void *block = realloc (old, size);
  if (block && !old)
    check_memory_blocks++;
  return block;
}

CHECK_UNUSED static void
check_memory_release (void *block)
{
  if (block)
    check_memory_blocks--;
  free (block);
}

/* From here on the library's memory is counted, and after LEFT allocations there is no
   more (LEFT below 0: no end).  Blocks taken before may be given back later.  */
CHECK_UNUSED static void
check_memory_limit (long left)
{
  check_memory_left = left;
  check_memory_once = 0;
  check_memory_refused = 0;
  check_memory_asked = 0;
  check_memory_blocks = 0;
  br__memory_set (check_memory_reallocate, check_memory_release);
}

CHECK_UNUSED static void
check_memory_free (void)
{
  br__memory_set (NULL, NULL);
  check_memory_left = -1;
}

/* Runs BODY (a statement that sets STATUS) with the first, the second ... allocation
   refused until none is, and asserts that each refusal gives BR_NO_MEMORY and takes
   nothing that is not given back; LEAVES is how many blocks the good run keeps.
     CHECK_EACH_REFUSAL (status, status = br_number_add (&z, &x, &y), 1);  */
#define CHECK_EACH_REFUSAL(status, body, leaves)                              \
  do                                                                          \
    {                                                                         \
      long check_nth = 0;                                                     \
      for (;; check_nth++)                                                    \
        {                                                                     \
          check_memory_limit (check_nth);                                     \
          body;                                                               \
          check_memory_left = -1;                                             \
          if (!check_memory_refused)                                          \
            break;                                                            \
          assert_int_equal ((status), BR_NO_MEMORY);                          \
          assert_int_equal (check_memory_blocks, 0);                          \
        }                                                                     \
      assert_int_equal ((status), BR_OK);                                     \
      assert_int_equal (check_memory_blocks, (leaves));                       \
      check_memory_free ();                                                   \
    }                                                                         \
  while (0)

#endif
