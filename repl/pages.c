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

#ifdef HAVE_PAGES
# define MISSING "pages cannot be drawn: " MODULE " is not there"
#else
# define MISSING "pages cannot be drawn: this benchrule was built without them (--without-pages)"
#endif

const br_painter *
pages_find (void *user, br_error *error)
{
  static const br_painter *painter;
  char path[4096];
  void *module = NULL;
  (void) user;
  if (painter)
    return painter;
  if (beside_program (path, sizeof path, ".libs/" MODULE))
    module = dlopen (path, RTLD_NOW | RTLD_LOCAL);
  if (!module)
    module = dlopen (PKGLIBDIR "/" MODULE, RTLD_NOW | RTLD_LOCAL);
  painter = module ? dlsym (module, BR_PAINTER_SYMBOL) : NULL;
  if (!painter && error)
    {
      memset (error, 0, sizeof *error);
      error->status = BR_IO;
      snprintf (error->message, sizeof error->message, "%s", MISSING);
      snprintf (error->hint, sizeof error->hint, "write into a .txt, .html or .csv file");
    }
  return painter;
}
