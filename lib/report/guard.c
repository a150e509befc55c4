/* SPDX-License-Identifier: LGPL-3.0-or-later
   guard.c - a thread that watches the clock and the memory while another works.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <malloc.h>
#include <pthread.h>
#include <time.h>

#include "exact/memory.h"
#include "report/guard.h"

/* The watcher looks so often, in nanoseconds.  */
#define PERIOD 50000000L

struct br__guard
{
  pthread_t thread;
  pthread_mutex_t lock;
  pthread_cond_t change;
  int started, working, ended;
  struct timespec begun;
  size_t before;                /* bytes in use when the work began */
  const volatile sig_atomic_t *outer;
  volatile sig_atomic_t over;   /* 1 time, 2 memory, 3 from outside */
};

/* Bytes that the program has from the C library, GMP's among them.  */
static size_t
bytes_in_use (void)
{
#if defined __GLIBC__ && __GLIBC_PREREQ (2, 33)
  struct mallinfo2 m = mallinfo2 ();
  return m.uordblks + m.hblkhd;
#else
  return 0;
#endif
}

static int
is_late (const br__guard *g)
{
  struct timespec now;
  clock_gettime (CLOCK_MONOTONIC, &now);
  return now.tv_sec - g->begun.tv_sec > BR__GUARD_SECONDS
         || (now.tv_sec - g->begun.tv_sec == BR__GUARD_SECONDS && now.tv_nsec >= g->begun.tv_nsec);
}

static void
look (br__guard *g)
{
  size_t used = bytes_in_use ();
  if (g->over)
    return;
  if (g->outer && *g->outer)
    g->over = 3;
  else if (used > g->before && used - g->before > (size_t) BR__GUARD_MEBIBYTES << 20)
    g->over = 2;
  else if (is_late (g))
    g->over = 1;
}

static void *
watch (void *user)
{
  br__guard *g = user;
  pthread_mutex_lock (&g->lock);
  while (!g->ended)
    if (!g->working)
      pthread_cond_wait (&g->change, &g->lock);
    else
      {
        struct timespec until;
        clock_gettime (CLOCK_MONOTONIC, &until);
        until.tv_nsec += PERIOD;
        until.tv_sec += until.tv_nsec / 1000000000L;
        until.tv_nsec %= 1000000000L;
        pthread_cond_timedwait (&g->change, &g->lock, &until);
        if (g->working)
          look (g);
      }
  pthread_mutex_unlock (&g->lock);
  return NULL;
}

br_status
br__guard_new (br__guard **guard, const volatile sig_atomic_t *outer)
{
  br__guard *g = br__alloc_zero (1, sizeof *g);
  pthread_condattr_t attributes;
  sigset_t all, before;
  if (!g)
    return BR_NO_MEMORY;
  g->outer = outer;
  pthread_mutex_init (&g->lock, NULL);
  pthread_condattr_init (&attributes);
  pthread_condattr_setclock (&attributes, CLOCK_MONOTONIC);
  pthread_cond_init (&g->change, &attributes);
  pthread_condattr_destroy (&attributes);
  /* Signals are for the thread that asked for the work.  */
  sigfillset (&all);
  pthread_sigmask (SIG_BLOCK, &all, &before);
  g->started = pthread_create (&g->thread, NULL, watch, g) == 0;
  pthread_sigmask (SIG_SETMASK, &before, NULL);
  if (!g->started)
    {
      br__guard_free (g);
      return BR_NO_MEMORY;
    }
  *guard = g;
  return BR_OK;
}

void
br__guard_free (br__guard *g)
{
  if (!g)
    return;
  pthread_mutex_lock (&g->lock);
  g->ended = 1;
  pthread_cond_signal (&g->change);
  pthread_mutex_unlock (&g->lock);
  if (g->started)
    pthread_join (g->thread, NULL);
  pthread_cond_destroy (&g->change);
  pthread_mutex_destroy (&g->lock);
  br__free (g);
}

const volatile sig_atomic_t *
br__guard_begin (br__guard *g)
{
  pthread_mutex_lock (&g->lock);
  clock_gettime (CLOCK_MONOTONIC, &g->begun);
  g->before = bytes_in_use ();
  g->over = 0;
  g->working = 1;
  pthread_cond_signal (&g->change);
  pthread_mutex_unlock (&g->lock);
  return &g->over;
}

void
br__guard_end (br__guard *g)
{
  pthread_mutex_lock (&g->lock);
  g->working = 0;
  pthread_mutex_unlock (&g->lock);
}

int
br__guard_is_over (br__guard *g)
{
  return g->over != 0;
}

const char *
br__guard_reason (const br__guard *g)
{
  return g->over == 1 ? "stopped after 10 s" : g->over == 2 ? "stopped: more than 256 MiB of memory" : "stopped";
}
