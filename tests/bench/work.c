/* SPDX-License-Identifier: GPL-3.0-or-later
   work.c - the parts of the work alone: reading, rounding, writing, rows of CSV, sums, diagonals, the change of
   a sheet, a whole column.  `work` tells what an item of each takes; `work NAME` does one of them once, for a
   program that counts instructions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "clock.h"
#include "benchrule_sheet.h"
#include "exact/text.h"
#include "file/csv.h"

#define ITEMS 20000
#define ROUNDS 21

static char texts[ITEMS][16], all[ITEMS * 16], path[] = "/tmp/benchrule-work-XXXXXX", target[64];
static size_t lengths[ITEMS], all_length;
static br_number values[ITEMS], marks[ITEMS], errors[ITEMS], sixteenth = { 1, 15 };

/* A fixed sequence (Knuth's linear congruential one for 64 bits).  */
static unsigned
below (unsigned n)
{
  static uint64_t x = 1;
  x = x * UINT64_C (6364136223846793005) + UINT64_C (1442695040888963407);
  return (unsigned) (x >> 33) % n;
}

static void
must (int good)
{
  if (!good)
    {
      fputs ("work: a call failed\n", stderr);
      exit (1);
    }
}

static void
fill (void)
{
  for (size_t i = 0; i < ITEMS; i++)
    {
      unsigned kind = below (10), den = 2u << below (6);
      if (kind < 6)
        snprintf (texts[i], sizeof texts[i], "%u.%0*u", below (48), 3 + (int) (kind & 1), below (1000));
      else if (kind < 9)
        snprintf (texts[i], sizeof texts[i], "%u-%u/%u", 1 + below (48), 1 + 2 * below (den / 2), den);
      else
        snprintf (texts[i], sizeof texts[i], "%u/3", 1 + below (20));
      lengths[i] = strlen (texts[i]);
      memcpy (all + all_length, texts[i], lengths[i]);
      all_length += lengths[i];
      all[all_length++] = '\n';
    }
}

static void
reading (void)
{
  for (size_t i = 0; i < ITEMS; i++)
    {
      br_measure m = BR_MEASURE_ZERO;
      must (br_measure_read (&m, texts[i], lengths[i], NULL, NULL) == BR_OK);
      values[i] = m.value;
    }
}

static void
rounding (void)
{
  for (size_t i = 0; i < ITEMS; i++)
    must (br_ruler_round (&marks[i], &errors[i], NULL, &values[i], &sixteenth, BR_NEAREST, BR_TIES_UP) == BR_OK);
}

static void
writing (void)
{
  br_text t = BR_TEXT_ZERO;
  for (size_t i = 0; i < ITEMS; i++)
    {
      if (i % 1024 == 0)
        br__text_reset (&t);
      br__put_mixed (&t, &marks[i]);
      br__put_number (&t, &errors[i]);
      br__put_decimal (&t, &errors[i], 12);
    }
  must (!t.failed);
  br__text_clear (&t);
}

static void
rows (void)
{
  br__csv_row row;
  size_t cells = 0;
  for (const char *at = all; at < all + all_length; at = row.next)
    {
      must (br__csv_next (&row, at, all + all_length, 0, 1, ','));
      cells += row.cells;
    }
  must (cells == ITEMS);
}

static void
adding (void)
{
  br_number sum = BR_NUMBER_ZERO;
  for (size_t i = 0; i < ITEMS; i++)
    must (br_number_add (&sum, &marks[i], &values[i]) == BR_OK);
  br_number_clear (&sum);
}

/* A tenth of the items: the root of a sum of squares, put on its mark for certain.  */
static void
diagonals (void)
{
  for (size_t i = 0; i + 1 < ITEMS / 10; i++)
    {
      br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
      br_number mark = BR_NUMBER_ZERO;
      must (br_real_set_number (&x, &values[i]) == BR_OK && br_real_set_number (&y, &values[i + 1]) == BR_OK
            && br_real_mul (&x, &x, &x) == BR_OK && br_real_mul (&y, &y, &y) == BR_OK
            && br_real_add (&x, &x, &y) == BR_OK && br_real_sqrt (&x, &x, 0) == BR_OK
            && br_real_round (&mark, NULL, &x, &sixteenth, BR_NEAREST, BR_TIES_UP, 0) == BR_OK);
      br_real_clear (&x);
      br_real_clear (&y);
      br_number_clear (&mark);
    }
}

/* A hundredth of the items: a change that fifty dimensions follow.  */
static void
change (void)
{
  br_sheet *sheet = NULL;
  char line[64];
  must (br_sheet_new (&sheet) == BR_OK);
  for (int i = 0; i <= 50 + ITEMS / 100; i++)
    {
      if (i > 0 && i <= 50)
        snprintf (line, sizeof line, "d%d = d%d + 1/16", i, i - 1);
      else
        snprintf (line, sizeof line, "d0 = %d-3/8", i + 1);
      must (br_sheet_run (sheet, line, strlen (line), "work", 1, NULL) == BR_OK);
    }
  br_sheet_free (sheet);
}

static void
column (void)
{
  br_sheet *sheet = NULL;
  char line[200];
  snprintf (line, sizeof line, "round column 1 of %s to 1/16 into %s", path, target);
  must (br_sheet_new (&sheet) == BR_OK && br_sheet_run (sheet, line, strlen (line), "work", 1, NULL) == BR_OK);
  br_sheet_free (sheet);
}

/* What is made ready for all of them.  */
static void
nothing (void)
{
}

static const struct
{
  const char *name;
  void (*run) (void);
  size_t items;
} works[] = {
  { "nothing", nothing, 1 },
  { "reading", reading, ITEMS }, { "rounding", rounding, ITEMS }, { "writing", writing, ITEMS },
  { "rows", rows, ITEMS }, { "adding", adding, ITEMS }, { "diagonals", diagonals, ITEMS / 10 },
  { "change", change, ITEMS / 100 }, { "column", column, ITEMS },
};

#define WORKS (sizeof works / sizeof *works)

static void
tell_all (void)
{
  puts ("                 ns an item   quartiles");
  for (size_t k = 1; k < WORKS; k++)
    {
      double ns[ROUNDS];
      for (int i = 0; i < ROUNDS; i++)
        {
          double start = bench_now ();
          works[k].run ();
          ns[i] = (bench_now () - start) / (double) works[k].items;
        }
      bench_sort (ns, ROUNDS);
      printf ("%-15s %11.1f   %.1f to %.1f\n", works[k].name, ns[ROUNDS / 2], ns[ROUNDS / 4],
              ns[ROUNDS - 1 - ROUNDS / 4]);
    }
}

int
main (int argc, char **argv)
{
  size_t k = 0;
  int fd;
  while (argc == 2 && k < WORKS && strcmp (argv[1], works[k].name) != 0)
    k++;
  if (argc > 2 || k == WORKS)
    {
      fprintf (stderr, "usage: %s [WORK]\nworks:", argv[0]);
      for (k = 0; k < WORKS; k++)
        fprintf (stderr, " %s", works[k].name);
      putc ('\n', stderr);
      return 2;
    }
  fill ();
  reading ();
  rounding ();
  fd = mkstemp (path);
  must (fd >= 0 && write (fd, all, all_length) == (ssize_t) all_length && close (fd) == 0);
  snprintf (target, sizeof target, "%s.out", path);
  if (argc == 2)
    works[k].run ();
  else
    tell_all ();
  unlink (path);
  unlink (target);
  return 0;
}
