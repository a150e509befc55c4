/* SPDX-License-Identifier: GPL-3.0-or-later
   pager.c - answers that are longer than the screen, in the program that PAGER names.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "pager.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "escape.h"

#define USUAL "less -FRX"
#define LONGEST_PATH 4096

void
pager_begin (pager *p, display *d)
{
  if (!d->terminal || p->terminal)
    return;
  FILE *kept = open_memstream (&p->text, &p->size);
  if (!kept)
    return;
  p->terminal = d->stream;
  d->stream = kept;
}

/* The answers go to the terminal again; 1 if some were kept back.  */
static int
take_back (pager *p, display *d)
{
  if (!p->terminal)
    return 0;
  int whole = fclose (d->stream) == 0;
  d->stream = p->terminal;
  p->terminal = NULL;
  return whole && p->size > 0;
}

static void
put_plain (pager *p, const display *d)
{
  display_fold (d, p->text, p->size);
}

static void
drop (pager *p)
{
  free (p->text);
  p->text = NULL;
  p->size = 0;
}

void
pager_pass (pager *p, display *d)
{
  if (take_back (p, d))
    put_plain (p, d);
  drop (p);
}

/* The text as the screen is to show it; 0 where memory ran out.  */
static int
fold (pager *p, const display *d)
{
  char *text = NULL;
  size_t size = 0;
  display aside = *d;
  aside.stream = open_memstream (&text, &size);
  if (!aside.stream)
    return 0;
  display_fold (&aside, p->text, p->size);
  if (fclose (aside.stream) != 0)
    {
      free (text);
      return 0;
    }
  free (p->text);
  p->text = text;
  p->size = size;
  return 1;
}

/* 1 if the screen has no room for the text and the line that is typed next.  */
static int
is_long (const pager *p, const display *d)
{
  int rows = 1;
  for (const char *at = p->text; (at = strchr (at, '\n')) != NULL; at++)
    rows++;
  return d->height > 0 && rows > d->height;
}

/* 1 if there is a program of the name that COMMAND begins with.  */
static int
is_there (const char *command)
{
  size_t length = strcspn (command, " \t");
  const char *path = getenv ("PATH");
  char file[LONGEST_PATH];
  if (memchr (command, '/', length))
    return snprintf (file, sizeof file, "%.*s", (int) length, command) < (int) sizeof file && access (file, X_OK) == 0;
  while (length && path && *path)
    {
      size_t folder = strcspn (path, ":");
      if (snprintf (file, sizeof file, "%.*s/%.*s", (int) folder, path, (int) length, command) < (int) sizeof file
          && access (file, X_OK) == 0)
        return 1;
      path += folder + (path[folder] == ':');
    }
  return 0;
}

/* 1 if the pager has shown the text.  Who leaves it early has seen enough.  */
static int
page (const pager *p)
{
  const char *command = getenv ("PAGER");
  struct sigaction ignore = { .sa_handler = SIG_IGN }, before;
  if (!command)
    command = USUAL;
  if (!is_there (command) || sigaction (SIGPIPE, &ignore, &before) != 0)
    return 0;
  FILE *stream = popen (command, "w");
  int shown = stream != NULL;
  if (stream)
    {
      fwrite (p->text, 1, p->size, stream);
      int status = pclose (stream);
      shown = status != -1;
    }
  sigaction (SIGPIPE, &before, NULL);
  return shown;
}

void
pager_end (pager *p, display *d)
{
  if (take_back (p, d))
    {
      fflush (d->stream);
      if (p->off || !p->pages || !fold (p, d) || !is_long (p, d) || !page (p))
        put_plain (p, d);
    }
  drop (p);
}
