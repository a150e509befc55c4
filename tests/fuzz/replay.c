/* SPDX-License-Identifier: GPL-3.0-or-later
   replay.c - feeds each file of tests/fuzz/corpus/FUZZ_NAME to the target that it is linked with, so that
   what fuzzing has found stays found where no fuzzer is at hand.  Speaks TAP.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <dirent.h>

#include "fuzz.h"

#define MOST_BYTES (1 << 20)

static int
is_input (const struct dirent *entry)
{
  return entry->d_name[0] != '.';
}

/* The file in a block of exactly its size, so that a sanitizer or valgrind sees each byte read past it.  */
static int
replay (const char *folder, const char *name)
{
  static uint8_t room[MOST_BYTES];
  char path[4096];
  snprintf (path, sizeof path, "%s/%s", folder, name);
  FILE *file = fopen (path, "rb");
  if (!file)
    return 0;
  size_t size = fread (room, 1, sizeof room, file);
  int whole = !ferror (file) && feof (file);
  fclose (file);
  uint8_t *data = malloc (size + !size);
  if (!whole || !data)
    {
      free (data);
      return 0;
    }
  memcpy (data, room, size);
  LLVMFuzzerTestOneInput (data, size);
  free (data);
  return 1;
}

int
main (void)
{
  const char *source = getenv ("srcdir");
  char folder[2048];
  struct dirent **entries;
  int failed = 0;
  snprintf (folder, sizeof folder, "%s/tests/fuzz/corpus/" FUZZ_NAME, source && *source ? source : ".");
  int count = scandir (folder, &entries, is_input, alphasort);
  if (count <= 0)
    {
      printf ("Bail out! %s: no inputs (srcdir names the folder of the sources)\n", folder);
      return 1;
    }
  printf ("1..%d\n", count);
  for (int i = 0; i < count; i++)
    {
      int good = replay (folder, entries[i]->d_name);
      printf ("%s %d - %s\n", good ? "ok" : "not ok", i + 1, entries[i]->d_name);
      fflush (stdout);      /* the next one may end the program */
      failed += !good;
      free (entries[i]);
    }
  free (entries);
  return failed != 0;
}
