/* SPDX-License-Identifier: GPL-3.0-or-later
   interrupt.c - Ctrl-C outside the prompt.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "interrupt.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static volatile sig_atomic_t came;
static struct sigaction before;

static void
note (int number)
{
  (void) number;
  came = 1;
}

void
interrupt_begin (br_sheet *sheet)
{
  struct sigaction now;
  memset (&now, 0, sizeof now);
  now.sa_handler = note;
  now.sa_flags = (int) SA_RESETHAND;      /* reads and waits end, too */
  sigemptyset (&now.sa_mask);
  came = 0;
  if (sigaction (SIGINT, NULL, &before) != 0 || before.sa_handler == SIG_IGN)
    return;
  sigaction (SIGINT, &now, NULL);
  br_sheet_watch (sheet, &came);
}

void
interrupt_end (br_sheet *sheet)
{
  if (before.sa_handler == SIG_IGN)
    return;
  br_sheet_watch (sheet, NULL);
  sigaction (SIGINT, &before, NULL);
  if (!came)
    return;
  fflush (NULL);
  signal (SIGINT, SIG_DFL);
  raise (SIGINT);
}
