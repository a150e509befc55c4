/* SPDX-License-Identifier: GPL-3.0-or-later
   startup.c - how long the program takes to start: `benchrule -c 1/2` against this program
   itself, which is linked with the same libraries and does nothing.  Both are run by
   turns, and the medians are compared.  The target: within 3 times.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "clock.h"

#define RUNS 201
#define WARM_UP 10
#define TARGET 3.0

extern char **environ;

/* Milliseconds that a run takes, its output thrown away; below zero where it failed.  */
static double
run (const char *program, char *const *arguments)
{
  posix_spawn_file_actions_t actions;
  pid_t child;
  int status = -1;
  posix_spawn_file_actions_init (&actions);
  posix_spawn_file_actions_addopen (&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  double start = bench_now ();
  int failed = posix_spawn (&child, program, &actions, NULL, arguments, environ) != 0
               || waitpid (child, &status, 0) != child || status != 0;
  double taken = (bench_now () - start) / 1e6;
  posix_spawn_file_actions_destroy (&actions);
  return failed ? -1 : taken;
}

int
main (int argc, char **argv)
{
  static double program[RUNS], nothing[RUNS];
  char *statement[] = { (char *) "benchrule", (char *) "-c", (char *) "1/2", NULL };
  char *itself[] = { (char *) "startup", (char *) "nothing", NULL };
  const char *benchrule = getenv ("BR");
  if (argc > 1 && strcmp (argv[1], "nothing") == 0)
    return 0;
  if (!benchrule)
    benchrule = "./benchrule";
  for (int i = -WARM_UP; i < RUNS; i++)
    {
      double one = run (benchrule, statement);
      double other = run ("/proc/self/exe", itself);
      if (one < 0 || other < 0)
        {
          fprintf (stderr, "startup: %s could not be run\n", one < 0 ? benchrule : "this program");
          return 1;
        }
      if (i >= 0)
        {
          program[i] = one;
          nothing[i] = other;
        }
    }
  bench_sort (program, RUNS);
  bench_sort (nothing, RUNS);
  double ratio = program[RUNS / 2] / nothing[RUNS / 2];
  printf ("start-up: benchrule -c 1/2 takes %.3f ms, a program that does nothing %.3f ms: %.2f times"
          " (target %.0f, %s)\n", program[RUNS / 2], nothing[RUNS / 2], ratio, TARGET,
          ratio <= TARGET ? "met" : "missed");
  return 0;
}
