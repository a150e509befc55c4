/* SPDX-License-Identifier: GPL-3.0-or-later
   number.c - how fast two shop fractions are added: benchrule, GMP's mpq_add and, where it is
   there, FLINT's fmpq_add, on the same canonical inputs.  The rounds of the three take turns, so
   that a slow moment of the machine is everybody's.  `--csv FILE` writes the figures there too.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gmp.h>
#ifdef HAVE_FLINT
# include <flint/flint.h>
# include <flint/fmpq.h>
#endif

#include "clock.h"
#include "benchrule.h"

#define PAIRS 4096
#define PASSES 50             /* over all pairs in a round */
#define ROUNDS 21

static br_number ours[2][PAIRS], ours_sum[PAIRS];
static mpq_t gmp[2][PAIRS], gmp_sum[PAIRS];
#ifdef HAVE_FLINT
static fmpq_t flint[2][PAIRS], flint_sum[PAIRS];
#endif

/* A fixed sequence (xorshift64, Marsaglia 2003).  */
static uint64_t
next_random (void)
{
  static uint64_t x = UINT64_C (0x9e3779b97f4a7c15);
  x ^= x << 13;
  x ^= x >> 7;
  x ^= x << 17;
  return x;
}

/* Lengths within 96 in either side of 0, on rulers from whole inches to 64ths.  */
static int
fill (void)
{
  for (int i = 0; i < PAIRS; i++)
    {
      for (int k = 0; k < 2; k++)
        {
          int64_t den = INT64_C (1) << next_random () % 7;
          int64_t num = (int64_t) (next_random () % (uint64_t) (192 * den + 1)) - 96 * den;
          if (br_number_set_ratio (&ours[k][i], num, den) != BR_OK)
            return 0;
          mpq_init (gmp[k][i]);
          mpq_set_si (gmp[k][i], (long) num, (unsigned long) den);
          mpq_canonicalize (gmp[k][i]);
#ifdef HAVE_FLINT
          fmpq_init (flint[k][i]);
          fmpq_set_si (flint[k][i], (slong) num, (ulong) den);
#endif
        }
      mpq_init (gmp_sum[i]);
#ifdef HAVE_FLINT
      fmpq_init (flint_sum[i]);
#endif
    }
  return 1;
}

static void
run_ours (void)
{
  for (int i = 0; i < PAIRS; i++)
    if (br_number_add (&ours_sum[i], &ours[0][i], &ours[1][i]) != BR_OK)
      abort ();
}

static void
run_gmp (void)
{
  for (int i = 0; i < PAIRS; i++)
    mpq_add (gmp_sum[i], gmp[0][i], gmp[1][i]);
}

#ifdef HAVE_FLINT
static void
run_flint (void)
{
  for (int i = 0; i < PAIRS; i++)
    fmpq_add (flint_sum[i], flint[0][i], flint[1][i]);
}
#endif

static struct runner
{
  const char *name;
  void (*run) (void);
  double ns[ROUNDS];          /* of one addition; sorted at the end */
} runners[] = {
  { "br_number_add", run_ours, { 0 } },
  { "mpq_add", run_gmp, { 0 } },
#ifdef HAVE_FLINT
  { "fmpq_add", run_flint, { 0 } },
#endif
};

#define RUNNERS (sizeof runners / sizeof *runners)

/* The sums of all must be the same, or the times say nothing.  */
static int
sums_agree (void)
{
  for (int i = 0; i < PAIRS; i++)
    {
      int64_t num, den;
      if (!br_number_get_ratio (&num, &den, &ours_sum[i])
          || mpz_cmp_si (mpq_numref (gmp_sum[i]), (long) num) != 0
          || mpz_cmp_si (mpq_denref (gmp_sum[i]), (long) den) != 0)
        return 0;
#ifdef HAVE_FLINT
      if (fmpz_cmp_si (fmpq_numref (flint_sum[i]), (slong) num) != 0
          || fmpz_cmp_si (fmpq_denref (flint_sum[i]), (slong) den) != 0)
        return 0;
#endif
    }
  return 1;
}

static void
measure (void)
{
  for (size_t k = 0; k < RUNNERS; k++)
    runners[k].run ();        /* warm, and fills the sums */
  for (int round = 0; round < ROUNDS; round++)
    for (size_t k = 0; k < RUNNERS; k++)
      {
        /* Who begins changes from round to round.  */
        struct runner *r = &runners[(k + (size_t) round) % RUNNERS];
        double start = bench_now ();
        for (int pass = 0; pass < PASSES; pass++)
          r->run ();
        r->ns[round] = (bench_now () - start) / ((double) PASSES * PAIRS);
      }
  for (size_t k = 0; k < RUNNERS; k++)
    bench_sort (runners[k].ns, ROUNDS);
}

/* A row a runner: median, quartiles, and how many times our median it is.  */
static void
report (FILE *file, int csv)
{
  fputs (csv ? "what,median_ns,quartile_1_ns,quartile_3_ns,ratio\n"
             : "                 median  quartiles         times ours\n", file);
  for (size_t k = 0; k < RUNNERS; k++)
    {
      const double *ns = runners[k].ns;
      double median = ns[ROUNDS / 2], low = ns[ROUNDS / 4], high = ns[ROUNDS - 1 - ROUNDS / 4];
      double ratio = median / runners[0].ns[ROUNDS / 2];
      if (csv)
        fprintf (file, "%s,%.3f,%.3f,%.3f,%.3f\n", runners[k].name, median, low, high, ratio);
      else
        fprintf (file, "%-15s %7.2f  %6.2f to %6.2f  %6.2f\n", runners[k].name, median, low, high, ratio);
    }
}

static int
write_csv (const char *path)
{
  FILE *file = fopen (path, "w");
  if (!file)
    return 0;
  report (file, 1);
  int good = !ferror (file);
  return fclose (file) == 0 && good;
}

int
main (int argc, char **argv)
{
  int csv = argc == 3 && strcmp (argv[1], "--csv") == 0;
  if (argc != 1 && !csv)
    {
      fprintf (stderr, "usage: %s [--csv FILE]\n", argv[0]);
      return 2;
    }
  if (!fill ())
    return 1;
  measure ();
  if (!sums_agree ())
    {
      fputs ("the sums differ\n", stderr);
      return 1;
    }
  printf ("adding two shop fractions, ns each, %d rounds of %d\n", ROUNDS, PASSES * PAIRS);
  report (stdout, 0);
  if (csv && !write_csv (argv[2]))
    {
      fprintf (stderr, "%s: could not be written\n", argv[2]);
      return 1;
    }
  return 0;
}
