/* SPDX-License-Identifier: GPL-3.0-or-later
   told.h - how much is told in the table of a drawing, however its rows are merged.  */
#ifndef BR_TESTS_DRAW_TOLD_H
#define BR_TESTS_DRAW_TOLD_H

/* How often PART is in the file NAME.  */
static size_t
times_in (const char *name, const char *part)
{
  char *bytes = lesson_get (name);
  size_t found = 0;
  for (const char *s = bytes; (s = strstr (s, part)) != NULL; s++)
    found++;
  free (bytes);
  return found;
}

/* Of a cell of LENGTH at S: "peg_1 to 6; bar, both ends" are eight.  */
static size_t
features_of (const char *s, size_t length)
{
  size_t found = 0;
  for (const char *end = s + length, *next; s < end; s = next)
    {
      char piece[400], word[4] = "";
      int first = 0, last = 0;
      next = strstr (s, "; ");
      next = next && next < end ? next + 2 : end;
      snprintf (piece, sizeof piece, "%.*s", (int) (next - s), s);
      size_t name = strcspn (piece, " ,;"), stem = name;
      while (stem && piece[stem - 1] >= '0' && piece[stem - 1] <= '9')
        stem--;
      int several = sscanf (piece + stem, "%d %3[a-z] %d", &first, word, &last) == 3 && (strcmp (word, "to") == 0 || strcmp (word, "and") == 0);
      found += (several ? (size_t) (last - first + 1) : 1) * (strstr (piece, ", both ends") ? 2 : 1);
    }
  return found;
}

/* Of the cells of WORDS, a text a line, that stand after what is said of them.  */
static size_t
told_in (const char *words)
{
  size_t found = 0;
  for (int of = 0; *words; words += *words == '\n')
    {
      const size_t length = strcspn (words, "\n");
      /* A head may stand between the cells of the row under it.  */
      if ((length == 2 && memcmp (words, "of", 2) == 0) || (length == 4 && memcmp (words, "from", 4) == 0))
        {
          words += length;
          continue;
        }
      found += (size_t) of * features_of (words, length);
      of = (length > 7 && memcmp (words + length - 7, " across", 7) == 0) || (length > 3 && memcmp (words + length - 3, " up", 3) == 0)
           || strncmp (words, "same ", 5) == 0 || strncmp (words, "in line\n", 8) == 0;
      /* "3 across, 2 up" are two.  */
      const char *both = strstr (words, " across, ");
      of += of && both && both < words + length;
      words += length;
    }
  return found;
}

/* Of the picture NAME.  */
static size_t
told_in_picture (const char *name)
{
  char *bytes = lesson_get (name), *to = bytes;
  for (char *s = bytes; (s = strstr (s, "<text")) != NULL; )
    {
      char *text = strchr (s, '>') + 1, *end = strchr (text, '<');
      memmove (to, text, (size_t) (end - text));
      to += end - text;
      *to++ = '\n';
      s = end;
    }
  *to = 0;
  size_t found = told_in (bytes);
  free (bytes);
  return found;
}

#endif
