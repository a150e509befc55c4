/* SPDX-License-Identifier: GPL-3.0-or-later
   memory.c - a reserve for GMP and MPFR.  The library asks for memory before they do, and refuses what would not fit;
   what is left are small requests at a bad moment.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "memory.h"

#include <gmp.h>
#include <malloc.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <unistd.h>

/* More than an operation takes on numbers at the limit of 1,000,000 bits.  */
#define RESERVE_BYTES ((size_t) 4 << 20)
#define EXIT_WRONG 2

static void *reserve;
static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;

static void *
take_again (void *old, size_t size)
{
  static const char words[] = "benchrule: out of memory\n";
  void *block = realloc (old, size);
  if (block)
    return block;
  pthread_mutex_lock (&lock);
  free (reserve);
  reserve = NULL;
  pthread_mutex_unlock (&lock);
  block = realloc (old, size);
  if (block)
    return block;
  fflush (stdout);
  fflush (stderr);
  (void) !write (STDERR_FILENO, words, sizeof words - 1);
  _exit (EXIT_WRONG);
}

static void *
take (size_t size)
{
  return take_again (NULL, size);
}

static void *
retake (void *old, size_t old_size, size_t size)
{
  (void) old_size;
  return take_again (old, size);
}

static void
give (void *block, size_t size)
{
  (void) size;
  free (block);
}

void
memory_refill (void)
{
  if (!reserve)
    reserve = malloc (RESERVE_BYTES);
}

void
memory_start (void)
{
#ifdef M_ARENA_MAX
  /* Each thread would take 64 MiB of an address space that is short.  */
  struct rlimit limit;
  if (getrlimit (RLIMIT_AS, &limit) == 0 && limit.rlim_cur != RLIM_INFINITY)
    (void) mallopt (M_ARENA_MAX, 1);
#endif
#ifdef M_TRIM_THRESHOLD
  /* A page of paper takes and gives back some hundred KiB: to hand them to the system each time takes a third of the time.  */
  (void) mallopt (M_TRIM_THRESHOLD, 16 << 20);
  (void) mallopt (M_MMAP_THRESHOLD, 4 << 20);
#endif
  memory_refill ();
  mp_set_memory_functions (take, retake, give);
}
