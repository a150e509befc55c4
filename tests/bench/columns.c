/* SPDX-License-Identifier: GPL-3.0-or-later
   columns.c - one column of a million decimals and fractions put on sixteenths with its exact errors, from
   file to file: by the library, by the command, by GMP and FLINT, and by a loop that can do only
   this.  All take turns, and their files must be the same.  Then how the cost grows with the rows.

   columns [--rows N] [--rounds N] [--csv FILE] [--growth]  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <fcntl.h>
#include <spawn.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "clock.h"
#include "benchrule_sheet.h"
#include "column_peers.h"

#define MOST_ROUNDS 101

extern char **environ;

static char folder[] = "/tmp/benchrule-bench-XXXXXX", in_path[64], out_path[64], first_path[64];
static long peak;             /* of the command's memory, KiB */

/* A fixed sequence (xorshift64, Marsaglia 2003).  */
static unsigned
below (unsigned n)
{
  static uint64_t x = UINT64_C (0x9e3779b97f4a7c15);
  x ^= x << 13;
  x ^= x >> 7;
  x ^= x << 17;
  return (unsigned) (x % n);
}

static unsigned
odd_below (unsigned n)
{
  return 1 + 2 * below (n / 2);
}

/* What exports and class lists hold: of 20, eleven decimals of three to six places, one of one place, five
   fractions of an inch ruler, one of thirds, two whole numbers.  */
static void
put_value (FILE *file)
{
  unsigned kind = below (20), den = 2u << below (6);
  if (kind < 6)
    fprintf (file, "%u.%03u\n", below (48), below (1000));
  else if (kind < 10)
    fprintf (file, "%u.%04u\n", below (48), below (10000));
  else if (kind < 11)
    fprintf (file, "%u.%06u\n", below (48), below (1000000));
  else if (kind < 14)
    fprintf (file, "%u-%u/%u\n", 1 + below (48), odd_below (den), den);
  else if (kind < 16)
    fprintf (file, "%u/%u\n", odd_below (den), den);
  else if (kind < 17)
    fprintf (file, "%u/3\n", 1 + below (20));
  else if (kind < 18)
    fprintf (file, "%u.%u\n", below (48), below (10));
  else
    fprintf (file, "%u\n", below (96));
}

static int
make_file (long rows)
{
  FILE *file = fopen (in_path, "w");
  if (!file)
    return 0;
  fputs ("length\n", file);
  for (long i = 0; i < rows; i++)
    put_value (file);
  return fclose (file) == 0;
}

static char statement[200];

static int
by_library (const char *in, const char *out)
{
  br_sheet *sheet = NULL;
  (void) in;
  (void) out;
  if (br_sheet_new (&sheet) != BR_OK)
    return 0;
  br_status status = br_sheet_run (sheet, statement, strlen (statement), "bench", 1, NULL);
  br_sheet_free (sheet);
  return status == BR_OK;
}

static int
by_command (const char *in, const char *out)
{
  const char *program = getenv ("BR");
  char *arguments[] = { (char *) "benchrule", (char *) "-c", statement, NULL };
  posix_spawn_file_actions_t actions;
  struct rusage use;
  pid_t child;
  int status = -1;
  (void) in;
  (void) out;
  posix_spawn_file_actions_init (&actions);
  posix_spawn_file_actions_addopen (&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  int good = posix_spawn (&child, program ? program : "./benchrule", &actions, NULL, arguments, environ) == 0
             && wait4 (child, &status, 0, &use) == child && status == 0;
  posix_spawn_file_actions_destroy (&actions);
  if (good)
    peak = use.ru_maxrss;
  return good;
}

typedef struct runner
{
  const char *name;
  int (*run) (const char *in, const char *out);
  double target;              /* the ratio to the command that is wanted; 0: none */
  double ms[MOST_ROUNDS];     /* sorted at the end */
  double processor[MOST_ROUNDS];  /* ms of this program and of the command: what others run meanwhile is not in it */
} runner;

static runner runners[] = {
  { "the command", by_command, 0, { 0 }, { 0 } },
  { "the library", by_library, 0, { 0 }, { 0 } },
  { "loop by hand", peer_hand, 1, { 0 }, { 0 } },
  { "FLINT fmpq", peer_fmpq, 6, { 0 }, { 0 } },
  { "GMP mpq", peer_mpq, 12, { 0 }, { 0 } },
};

#define RUNNERS (sizeof runners / sizeof *runners)

static int
same_files (const char *one, const char *other)
{
  FILE *a = fopen (one, "r"), *b = fopen (other, "r");
  int same = a && b, c;
  while (same && (c = getc_unlocked (a)) == getc_unlocked (b) && c != EOF)
    ;
  same = same && feof (a) && feof (b);
  if (a)
    fclose (a);
  if (b)
    fclose (b);
  return same;
}

static double
processor_ms (void)
{
  struct timespec own;
  struct rusage children;
  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &own);
  getrusage (RUSAGE_CHILDREN, &children);
  return 1e3 * (double) (own.tv_sec + children.ru_utime.tv_sec + children.ru_stime.tv_sec) + (double) own.tv_nsec / 1e6
         + (double) (children.ru_utime.tv_usec + children.ru_stime.tv_usec) / 1e3;
}

/* The first run of each warms, and is compared with that of the command.  */
static int
measure (int rounds)
{
  for (size_t k = 0; k < RUNNERS; k++)
    {
      if (!runners[k].run (in_path, out_path))
        {
          if (runners[k].run == peer_fmpq)
            runners[k].run = NULL;
          else
            return 0;
          continue;
        }
      if (k == 0 && rename (out_path, first_path) != 0)
        return 0;
      if (k > 0 && !same_files (first_path, out_path))
        {
          fprintf (stderr, "columns: %s writes other bytes than the command\n", runners[k].name);
          return 0;
        }
    }
  for (int round = 0; round < rounds; round++)
    for (size_t k = 0; k < RUNNERS; k++)
      {
        /* Who begins changes from round to round.  */
        runner *r = &runners[(k + (size_t) round) % RUNNERS];
        /* Each makes a new file: what a file system does about an old one is nobody's work.  */
        unlink (out_path);
        double start = bench_now (), processor = processor_ms ();
        if (r->run && !r->run (in_path, out_path))
          return 0;
        r->ms[round] = (bench_now () - start) / 1e6;
        r->processor[round] = processor_ms () - processor;
      }
  for (size_t k = 0; k < RUNNERS; k++)
    {
      bench_sort (runners[k].ms, (size_t) rounds);
      bench_sort (runners[k].processor, (size_t) rounds);
    }
  return 1;
}

/* A row a runner: median, quartiles, median of the processor's time, and how many times the command's that is.  */
static void
report (FILE *file, int csv, long rows, int rounds)
{
  double command = runners[0].processor[rounds / 2];
  if (csv)
    fputs ("what,rows,median_ms,quartile_1_ms,quartile_3_ms,processor_ms,ratio\n", file);
  else
    fprintf (file, "%ld rows from file to file, ms, %d rounds; the command's memory %ld KiB\n"
             "                 median  quartiles          processor  times the command's\n", rows, rounds, peak);
  for (size_t k = 0; k < RUNNERS; k++)
    {
      const runner *r = &runners[k];
      double median = r->ms[rounds / 2], low = r->ms[rounds / 4], high = r->ms[rounds - 1 - rounds / 4];
      double processor = r->processor[rounds / 2];
      if (!r->run)
        continue;
      if (csv)
        fprintf (file, "%s,%ld,%.2f,%.2f,%.2f,%.2f,%.3f\n", r->name, rows, median, low, high, processor,
                 processor / command);
      else
        fprintf (file, "%-15s %8.1f  %7.1f to %7.1f  %9.1f  %7.2f%s", r->name, median, low, high, processor,
                 processor / command, r->target > 0 ? "" : "\n");
      if (!csv && r->target > 0)
        fprintf (file, "  (at least %.2f: %s)\n", r->target, processor / command >= r->target ? "met" : "missed");
    }
}

/* The command's time a row, from a thousand rows to ten million.  */
static int
growth (FILE *csv)
{
  puts ("\n      rows   command ms   ns a row   memory KiB");
  for (long rows = 1000; rows <= 10000000; rows *= 10)
    {
      double ms[7];
      int count = rows > 1000000 ? 3 : 7;
      if (!make_file (rows))
        return 0;
      for (int i = 0; i < count; i++)
        {
          unlink (out_path);
          double start = bench_now ();
          if (!by_command (in_path, out_path))
            return 0;
          ms[i] = (bench_now () - start) / 1e6;
        }
      bench_sort (ms, (size_t) count);
      printf ("%10ld %12.2f %10.1f %12ld\n", rows, ms[count / 2], ms[count / 2] * 1e6 / (double) rows, peak);
      if (csv)
        fprintf (csv, "growth,%ld,%.2f,%.2f,%.2f,,\n", rows, ms[count / 2], ms[0], ms[count - 1]);
    }
  return 1;
}

static int
run (long rows, int rounds, int grow, FILE *csv)
{
  if (!make_file (rows) || !measure (rounds))
    return 0;
  report (stdout, 0, rows, rounds);
  if (csv)
    report (csv, 1, rows, rounds);
  return !grow || growth (csv);
}

int
main (int argc, char **argv)
{
  long rows = 1000000;
  int rounds = 11, grow = 0, good = 1;
  const char *csv_path = NULL;
  for (int i = 1; i < argc; i++)
    if (strcmp (argv[i], "--growth") == 0)
      grow = 1;
    else if (i + 1 < argc && strcmp (argv[i], "--csv") == 0)
      csv_path = argv[++i];
    else if (i + 1 < argc && strcmp (argv[i], "--rows") == 0)
      rows = atol (argv[++i]);
    else if (i + 1 < argc && strcmp (argv[i], "--rounds") == 0)
      rounds = atoi (argv[++i]);
    else
      good = 0;
  if (!good || rows < 1 || rounds < 1 || rounds > MOST_ROUNDS)
    {
      fprintf (stderr, "usage: %s [--rows N] [--rounds N] [--csv FILE] [--growth]\n", argv[0]);
      return 2;
    }
  FILE *csv = csv_path ? fopen (csv_path, "w") : NULL;
  if ((csv_path && !csv) || !mkdtemp (folder))
    {
      perror ("columns");
      return 1;
    }
  snprintf (in_path, sizeof in_path, "%s/in.csv", folder);
  snprintf (out_path, sizeof out_path, "%s/out.csv", folder);
  snprintf (first_path, sizeof first_path, "%s/first.csv", folder);
  snprintf (statement, sizeof statement, "round column 1 of %s to 1/16 into %s", in_path, out_path);
  good = run (rows, rounds, grow, csv);
  if (!good)
    fputs ("columns: a run failed\n", stderr);
  unlink (in_path);
  unlink (out_path);
  unlink (first_path);
  rmdir (folder);
  if (csv && fclose (csv) != 0)
    good = 0;
  return !good;
}
