/* SPDX-License-Identifier: GPL-3.0-or-later
   support.h - a folder for the files of a test.  */
#ifndef BR_TESTS_LESSON_SUPPORT_H
#define BR_TESTS_LESSON_SUPPORT_H

#include "../sheet/support.h"

#include <dirent.h>
#include <unistd.h>

static char lesson_folder[64];

/* For the setup and teardown of a group.  */
CHECK_UNUSED static int
lesson_enter (void **state)
{
  (void) state;
  strcpy (lesson_folder, "/tmp/benchrule-lesson-XXXXXX");
  return mkdtemp (lesson_folder) && chdir (lesson_folder) == 0 ? 0 : -1;
}

CHECK_UNUSED static int
lesson_leave (void **state)
{
  DIR *dir = opendir (lesson_folder);
  (void) state;
  /* What a test that failed has left, too.  */
  for (const struct dirent *d; dir && (d = readdir (dir)) != NULL; )
    unlink (d->d_name);
  if (dir)
    closedir (dir);
  return chdir ("/") == 0 && rmdir (lesson_folder) == 0 ? 0 : -1;
}

CHECK_UNUSED static void
lesson_put (const char *name, const char *bytes, size_t length)
{
  FILE *file = fopen (name, "wb");
  assert_non_null (file);
  assert_int_equal (fwrite (bytes, 1, length, file), length);
  assert_int_equal (fclose (file), 0);
}

/* The whole file, to be freed.  */
CHECK_UNUSED static char *
lesson_get (const char *name)
{
  FILE *file = fopen (name, "rb");
  char *bytes = NULL;
  size_t used = 0, got;
  if (!file)
    fail_msg ("%s: not written", name);
  do
    {
      bytes = realloc (bytes, used + 65537);
      assert_non_null (bytes);
      got = fread (bytes + used, 1, 65536, file);
      used += got;
    }
  while (got);
  bytes[used] = 0;
  fclose (file);
  return bytes;
}

CHECK_UNUSED static void
lesson_contains (const char *name, const char *part, int wanted)
{
  char *bytes = lesson_get (name);
  if ((strstr (bytes, part) != NULL) != wanted)
    fail_msg ("%s %s: %s", name, wanted ? "lacks" : "has", part);
  free (bytes);
}

#endif
