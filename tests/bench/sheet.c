/* SPDX-License-Identifier: GPL-3.0-or-later
   sheet.c - how the cost of a sheet grows: reading 1,000, 10,000 and 100,000 dimensions of which each depends on
   the one before, and changing one with ten dependants in a sheet of 100 and of 100,000.  Fails where reading
   does not grow in proportion or the change costs more than three times as much.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "clock.h"
#include "benchrule_sheet.h"

#define ROUNDS 5
#define CHANGES 201
#define DEPENDANTS 10
#define WITHIN 3            /* times, for the change */
#define GROWTH 20           /* times, for ten times the dimensions */

static void
must (br_status status)
{
  if (status != BR_OK)
    {
      fprintf (stderr, "sheet: %s\n", br_status_name (status));
      exit (1);
    }
}

static double
median (double *times, size_t count)
{
  bench_sort (times, count);
  return times[count / 2];
}

/* Records are taken and looked at, as a program would.  */
static void
take (void *user, const br_record *record)
{
  *(size_t *) user += br_record_size (record);
}

/* COUNT dimensions, each a sixteenth over the one before.  */
static char *
chain (size_t *length, size_t count)
{
  char *text = NULL;
  FILE *out = open_memstream (&text, length);

  fputs ("n0 = 3-1/2 in\n", out);
  for (size_t i = 1; i < count; i++)
    fprintf (out, "n%zu = n%zu + 1/16\n", i, i - 1);
  fclose (out);
  return text;
}

static double
reading (size_t count)
{
  double times[ROUNDS];
  size_t length, fields = 0;
  br_sink sink = { .user = &fields, .record = take };
  char *text = chain (&length, count);

  for (int i = 0; i < ROUNDS; i++)
    {
      br_sheet *sheet = NULL;
      double start = bench_now ();
      must (br_sheet_new (&sheet));
      must (br_sheet_run (sheet, text, length, "bench", 1, &sink));
      times[i] = bench_now () - start;
      if (br_sheet_waiting (sheet))
        must (BR_UNDECIDED);
      br_sheet_free (sheet);
    }
  free (text);
  return median (times, ROUNDS);
}

/* A chain of COUNT, of which one more name has ten users.  */
static double
changing (size_t count)
{
  static double times[CHANGES];
  size_t length, fields = 0;
  br_sink sink = { .user = &fields, .record = take };
  char *text = chain (&length, count), line[64];
  br_sheet *sheet = NULL;

  must (br_sheet_new (&sheet));
  must (br_sheet_run (sheet, text, length, "bench", 1, NULL));
  must (br_sheet_run (sheet, "wheel = 3-1/2 in", 16, "bench", 1, NULL));
  for (int i = 0; i < DEPENDANTS; i++)
    {
      snprintf (line, sizeof line, "part%d = wheel / 2 + %d/8", i, i);
      must (br_sheet_run (sheet, line, strlen (line), "bench", 1, NULL));
    }
  for (int i = 0; i < CHANGES; i++)
    {
      snprintf (line, sizeof line, "wheel = %d/16 in", 57 + i);
      double start = bench_now ();
      must (br_sheet_run (sheet, line, strlen (line), "bench", 1, &sink));
      times[i] = bench_now () - start;
    }
  br_sheet_free (sheet);
  free (text);
  return median (times, CHANGES);
}

static void
ratio (const char *what, double a, double b)
{
  long long tenths = (long long) (b * 10 / (a > 0 ? a : 1));

  printf ("%s%lld.%lld", what, tenths / 10, tenths % 10);
}

int
main (void)
{
  static const size_t counts[] = { 1000, 10000, 100000 };
  double read[3], small, large;
  int good;

  for (int i = 0; i < 3; i++)
    {
      read[i] = reading (counts[i]);
      printf ("%sreading %zu chained dimensions: %lld us", i ? "; " : "", counts[i], (long long) (read[i] / 1000));
    }
  ratio ("; growth ", read[0], read[1]);
  ratio (" and ", read[1], read[2]);
  small = changing (100);
  large = changing (100000);
  printf ("\none change with %d dependants: %lld ns in a sheet of 100, %lld ns in one of 100000", DEPENDANTS,
          (long long) small, (long long) large);
  ratio ("; ratio ", small, large);
  good = read[1] < read[0] * GROWTH && read[2] < read[1] * GROWTH && large < small * WITHIN;
  printf ("; %s\n", good ? "in bounds" : "OUT OF BOUNDS");
  return !good;
}
