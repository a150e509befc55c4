/* SPDX-License-Identifier: GPL-3.0-or-later
   pages.c - opens the module that draws pages: the one beside a program that was not installed, else the
   installed one.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "pages.h"

#include <dlfcn.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define MODULE BR_PAINTER_MODULE

/* PATH gets the folder of this program and NAME; 0 where that cannot be told.  */
static int
beside_program (char *path, size_t size, const char *name)
{
  ssize_t n = readlink ("/proc/self/exe", path, size - 1);
  if (n <= 0)
    return 0;
  path[n] = 0;
  char *slash = strrchr (path, '/');
  if (!slash || (size_t) (slash - path) + strlen (name) + 2 > size)
    return 0;
  memcpy (slash + 1, name, strlen (name) + 1);
  return access (path, R_OK) == 0;
}

/* WAY gets the way from the folder of programs to the module, as configured: "../lib/benchrule/NAME".  It stays the
   same where all was installed under another prefix.  0: there is none.  */
static int
way_from_programs (char *way, size_t size)
{
  const char *from = BINDIR, *to = PKGLIBDIR "/" MODULE;
  size_t same = 0, length = 0;
  for (size_t i = 0; from[i] && from[i] == to[i]; i++)
    if (from[i] == '/')
      same = i + 1;
  if (!same)
    return 0;
  for (const char *rest = from + same; rest; rest = strchr (rest, '/') ? strchr (rest, '/') + 1 : NULL)
    if (*rest)
      {
        if (length + 3 >= size)
          return 0;
        memcpy (way + length, "../", 4);
        length += 3;
      }
  if (length + strlen (to + same) >= size)
    return 0;
  memcpy (way + length, to + same, strlen (to + same) + 1);
  return 1;
}

#ifdef HAVE_PAGES
# define MISSING "pages cannot be drawn: " MODULE " is not there"
# define UNLOADED "pages cannot be drawn: " MODULE " is there but cannot be loaded; is memory short?"
#else
# define UNLOADED MISSING
# define MISSING "pages cannot be drawn: this benchrule was built without them (--without-pages)"
#endif

const br_painter *
pages_find (void *user, br_error *error)
{
  static const br_painter *painter;
  char path[4096], way[1024];
  void *module;
  (void) user;
  if (painter)
    return painter;
  int there = beside_program (path, sizeof path, ".libs/" MODULE)
              || (way_from_programs (way, sizeof way) && beside_program (path, sizeof path, way));
  if (!there)
    snprintf (path, sizeof path, "%s", PKGLIBDIR "/" MODULE);
  there = access (path, R_OK) == 0;
  module = dlopen (path, RTLD_NOW | RTLD_LOCAL);
  painter = module ? dlsym (module, BR_PAINTER_SYMBOL) : NULL;
  if (!painter && error)
    {
      memset (error, 0, sizeof *error);
      error->status = BR_IO;
      snprintf (error->message, sizeof error->message, "%s", there ? UNLOADED : MISSING);
      snprintf (error->hint, sizeof error->hint, "write into a .txt, .html or .csv file");
    }
  return painter;
}
