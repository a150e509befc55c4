/* SPDX-License-Identifier: GPL-3.0-or-later
   options.c - reads the command line, and answers --help and --version.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "options.h"

#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "benchrule_sheet.h"
#include "line.h"

enum { OPTION_HELP = 256, OPTION_VERSION, OPTION_COLOR, OPTION_JOBS, OPTION_ALLOW_FILES };

static const struct option long_options[] = {
  { "output", required_argument, NULL, 'o' },
  { "color", optional_argument, NULL, OPTION_COLOR },
  { "jobs", required_argument, NULL, OPTION_JOBS },
  { "allow-files", no_argument, NULL, OPTION_ALLOW_FILES },
  { "help", no_argument, NULL, OPTION_HELP },
  { "version", no_argument, NULL, OPTION_VERSION },
  { NULL, 0, NULL, 0 }
};

static void
put_help (void)
{
  fputs ("Usage: benchrule [OPTION]... [SHEET]...\n"
         "Exact shop arithmetic: fractions, rulers, scales and design sheets.\n"
         "\n"
         "Opens the first SHEET, brings in the others as by `use`, then runs each STATEMENT.\n"
         "In a terminal, without -c, a prompt follows.\n"
         "With neither, asks for statements at a prompt, or reads them from standard input\n"
         "where that is no terminal.\n"
         "A SHEET that is - stands for standard input.\n"
         "\n"
         "  -c STATEMENT          run STATEMENT; may be given again\n"
         "  -i                    go on to the prompt afterwards\n"
         "  -o, --output=FORMAT   write answers as text (the default) or as json,\n"
         "                        one object a line\n"
         "      --color[=WHEN]    auto (the default), always or never\n"
         "      --jobs=N          work on a long column of a CSV file in N threads, 1 to 64\n"
         "      --allow-files     let lines of sheet files read and write other files\n"
         "      --help            show this and leave\n"
         "      --version         show the version and leave\n"
         "\n"
         "Exit status: 0 if all is well, 1 if a check fails, 2 if a statement was wrong or\n"
         "a file could not be read or written.\n"
         "\n"
         "Examples:\n"
         "  benchrule -c 'round 6.595 to 1/8'     the nearest mark, and the error\n"
         "  benchrule market_cart.sheet           run a design sheet\n"
         "  benchrule -o json -c '3-1/2 * 22/7'   an answer for another program\n", stdout);
}

static void
put_version (void)
{
  printf ("benchrule (benchrule) %s\n", BR_VERSION);
  fputs ("License GPLv3+: GNU GPL version 3 or later <https://gnu.org/licenses/gpl.html>;\n"
         "the library alone LGPLv3+.\n"
         "This is free software: you are free to change and redistribute it.\n"
         "There is NO WARRANTY, to the extent permitted by law.\n", stdout);
  printf ("Line editing: %s\n", line_version ());
#ifdef HAVE_GLPK
  puts ("Cutting plans: with GLPK");
#else
  puts ("Cutting plans: without GLPK, so that fewer are proved best");
#endif
#ifdef HAVE_PAGES
  puts ("Pages: cairo and pango");
#else
  puts ("Pages: none, so that PDF and PNG are refused");
#endif
}

static options_result
wrong_value (const char *option, const char *value, const char *wanted)
{
  fprintf (stderr, "benchrule: %s takes %s, not '%s'\n", option, wanted, value);
  return OPTIONS_WRONG;
}

static options_result
read_output (options *o, const char *value)
{
  o->json = strcmp (value, "json") == 0;
  return o->json || strcmp (value, "text") == 0 ? OPTIONS_RUN
         : wrong_value ("--output", value, "text or json");
}

static options_result
read_color (options *o, const char *value)
{
  static const char *const names[] = { "auto", "always", "never" };
  if (!value)
    value = "always";
  for (int i = 0; i < 3; i++)
    if (strcmp (value, names[i]) == 0)
      {
        o->color = (display_color) i;
        return OPTIONS_RUN;
      }
  return wrong_value ("--color", value, "auto, always or never");
}

static options_result
read_jobs (options *o, const char *value)
{
  char *end;
  long jobs = *value >= '0' && *value <= '9' ? strtol (value, &end, 10) : 0;
  if (jobs < 1 || jobs > BR_MAX_JOBS || *end)
    return wrong_value ("--jobs", value, "a number from 1 to 64");
  o->jobs = (unsigned) jobs;
  return OPTIONS_RUN;
}

static options_result
read_one (options *o, int option)
{
  switch (option)
    {
    case 'c': o->statements[o->statement_count++] = optarg; return OPTIONS_RUN;
    case 'i': o->interactive = 1; return OPTIONS_RUN;
    case 'o': return read_output (o, optarg);
    case OPTION_COLOR: return read_color (o, optarg);
    case OPTION_JOBS: return read_jobs (o, optarg);
    case OPTION_ALLOW_FILES: o->allow_files = 1; return OPTIONS_RUN;
    case OPTION_HELP: put_help (); return OPTIONS_LEAVE;
    case OPTION_VERSION: put_version (); return OPTIONS_LEAVE;
    default: return OPTIONS_WRONG;
    }
}

options_result
options_read (options *o, int argc, char **argv)
{
  options_result result = OPTIONS_RUN;
  int option;
  o->statements = calloc ((size_t) argc + 1, sizeof *o->statements);
  if (!o->statements)
    {
      fputs ("benchrule: out of memory\n", stderr);
      return OPTIONS_WRONG;
    }
  while (result == OPTIONS_RUN && (option = getopt_long (argc, argv, "c:io:", long_options, NULL)) != -1)
    result = read_one (o, option);
  if (result == OPTIONS_WRONG)
    fputs ("Try 'benchrule --help' for more information.\n", stderr);
  o->sheets = argv + optind;
  o->sheet_count = (size_t) (argc - optind);
  return result;
}

void
options_clear (options *o)
{
  options zero = OPTIONS_ZERO;
  free (o->statements);
  *o = zero;
}
