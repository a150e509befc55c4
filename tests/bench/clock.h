/* SPDX-License-Identifier: GPL-3.0-or-later
   clock.h - what the benches share: the time, and times in order.  */
#ifndef BR_TESTS_BENCH_CLOCK_H
#define BR_TESTS_BENCH_CLOCK_H

#include <stdlib.h>
#include <time.h>

/* Nanoseconds from some moment on, by a clock that no one sets.  */
static inline double
bench_now (void)
{
  struct timespec t;
  clock_gettime (CLOCK_MONOTONIC, &t);
  return (double) t.tv_sec * 1e9 + (double) t.tv_nsec;
}

static inline int
bench_compare (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

/* The smallest first; the median is then TIMES[COUNT / 2].  */
static inline void
bench_sort (double *times, size_t count)
{
  qsort (times, count, sizeof *times, bench_compare);
}

#endif
