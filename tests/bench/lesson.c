/* SPDX-License-Identifier: GPL-3.0-or-later
   lesson.c - how long a school's worth of papers takes: 1,000 versions of 20 problems with their keys as
   text and as PDF, and 10,000 papers marked.  The program named by BR does the work, in a folder
   that is taken away again.  Ends with 1 where a time is past its limit.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#include "clock.h"

#define TOPICS "reading 2, decimals 2, sums 2, products 2, scale 2, known size 2, fender 2, dividing 2, stock 2, missing 2"

/* What the processor has worked for children that have ended: beside the time on the clock it tells how
   busy the machine was with something else.  */
static double
worked (void)
{
  struct rusage r;
  getrusage (RUSAGE_CHILDREN, &r);
  return (double) r.ru_utime.tv_sec + (double) r.ru_stime.tv_sec + (double) (r.ru_utime.tv_usec + r.ru_stime.tv_usec) * 1e-6;
}

/* 10,000 papers: the right answers of version 1 to 1,000, ten times over, by a filter of the key.  */
static const char make_answers[] =
  "awk -F, 'BEGIN { printf \"student,version\"; for (i = 1; i <= 20; i++) printf \",%d\", i; print \"\" }"
  " { for (k = 1; k <= 10; k++) { printf \"S%d-%d,%d\", NR, k, NR; for (i = 1; i <= 20; i++) printf \",%s\", (i + k) % 7 ? \"2-3/8 in\" : \"5/16\";"
  " print \"\" } }' numbers > answers.csv";

static int
run (const char *what, const char *command, double limit)
{
  double start = bench_now (), before = worked ();
  int status = system (command);
  double took = (bench_now () - start) / 1e9;
  printf ("%-44s %7.2f s of %4.0f, %.2f s at work%s\n", what, took, limit, worked () - before, status != 0 ? "  failed" : took > limit ? "  too slow" : "");
  return status == 0 && took <= limit;
}

int
main (void)
{
  char folder[] = "/tmp/benchrule-lesson-XXXXXX";
  int good = 1;
  if (!getenv ("BR") || !mkdtemp (folder) || chdir (folder) != 0)
    {
      fputs ("BR must name the program\n", stderr);
      return 2;
    }
  good &= run ("1,000 versions of 20 problems, keys, as text",
               "\"$BR\" -c 'worksheet " TOPICS " versions 1000 into a.txt' -c 'key k.txt' >/dev/null", 3);
  good &= run ("the same as PDF",
               "\"$BR\" -c 'worksheet " TOPICS " versions 1000 into a.pdf' -c 'key k.pdf' >/dev/null", 30);
  good &= system ("\"$BR\" -c 'worksheet " TOPICS " versions 1000 into a.csv' -c 'key k.csv' >/dev/null") == 0;
  good &= system ("seq 1 1000 > numbers") == 0 && system (make_answers) == 0;
  good &= run ("10,000 papers marked", "\"$BR\" -c 'grade answers.csv with k.csv into marks.csv' >/dev/null", 5);
  if (system ("rm -f a.* k.* numbers answers.csv marks.csv") != 0 || chdir ("/") != 0 || rmdir (folder) != 0)
    return 2;
  return good ? 0 : 1;
}
