/* SPDX-License-Identifier: GPL-3.0-or-later
   interrupt.c - Ctrl-C and what else ends a program, outside the prompt.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "interrupt.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const int numbers[] = { SIGINT, SIGTERM, SIGHUP };

#define COUNT (sizeof numbers / sizeof numbers[0])

/* Work that does not end, as it waits to write to somebody who does not read, is ended after so many seconds.  */
#define PATIENCE 5

static volatile sig_atomic_t came;      /* the number of the first, or 0 */
static struct timespec since;
static struct sigaction before[COUNT], alarm_before;

static void
end_by (int number)
{
  sigset_t one;
  sigemptyset (&one);
  sigaddset (&one, number);
  signal (number, SIG_DFL);
  raise (number);
  sigprocmask (SIG_UNBLOCK, &one, NULL);
}

static void
note (int number)
{
  if (number == SIGALRM || (came && interrupt_overdue (&since)))
    end_by (came ? came : number);
  if (came)
    return;
  clock_gettime (CLOCK_MONOTONIC, &since);
  came = number;
  if (number != SIGINT)
    alarm (PATIENCE);
}

static void
take (int number, struct sigaction *old)
{
  struct sigaction now;
  memset (&now, 0, sizeof now);
  now.sa_handler = note;                /* without SA_RESTART: reads and waits end, too */
  sigemptyset (&now.sa_mask);
  if (sigaction (number, NULL, old) == 0 && old->sa_handler != SIG_IGN)
    sigaction (number, &now, NULL);
}

void
interrupt_begin (br_sheet *sheet)
{
  came = 0;
  take (SIGALRM, &alarm_before);
  for (size_t i = 0; i < COUNT; i++)
    take (numbers[i], &before[i]);
  br_sheet_watch (sheet, &came);
}

int
interrupt_came (void)
{
  return came != 0;
}

void
interrupt_end (br_sheet *sheet)
{
  br_sheet_watch (sheet, NULL);
  if (came)
    {
      fflush (NULL);
      end_by (came);
    }
  alarm (0);
  sigaction (SIGALRM, &alarm_before, NULL);
  for (size_t i = 0; i < COUNT; i++)
    sigaction (numbers[i], &before[i], NULL);
}
