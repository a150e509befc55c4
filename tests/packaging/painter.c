/* SPDX-License-Identifier: GPL-3.0-or-later
   painter.c - a program of others that draws a page: its one argument is the module that pkg-config names.  */

#include <benchrule_sheet.h>

#include <dlfcn.h>
#include <stdio.h>

static const br_painter *
find (void *user, br_error *error)
{
  void *module = dlopen (user, RTLD_NOW | RTLD_LOCAL);
  (void) error;
  return module ? dlsym (module, BR_PAINTER_SYMBOL) : NULL;
}

static void
on_fault (void *user, const br_fault *fault)
{
  (void) user;
  puts (fault->error->message);
}

int
main (int argc, char **argv)
{
  static const char lines[] = "circle wheel = 2 at 0, 1\ndraw into page.pdf\n";
  const br_sink sink = { .fault = on_fault };
  br_sheet *sheet = NULL;
  if (argc != 2 || br_sheet_new (&sheet) != BR_OK)
    return 1;
  br_sheet_set_painter (sheet, find, argv[1]);
  br_status status = br_sheet_run (sheet, lines, sizeof lines - 1, "lines", 1, &sink);
  br_sheet_free (sheet);
  return status != BR_OK;
}
