/* SPDX-License-Identifier: LGPL-3.0-or-later
   wordings.c - what problems say, from one table.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/problem.h"

static const struct { const char *topic; unsigned kind; const char *words; } wordings[] =
{
#include "lesson/wordings.def"
};

#define WORDINGS (sizeof wordings / sizeof wordings[0])

size_t
br__wording_first (const char *topic, unsigned kind)
{
  size_t i = 0;
  while (wordings[i].kind != kind || *wordings[i].topic != *topic || strcmp (wordings[i].topic, topic) != 0)
    i++;
  return i;
}

unsigned
br__wording_count (const char *topic, unsigned kind)
{
  size_t first = br__wording_first (topic, kind), end = first;
  while (end < WORDINGS && wordings[end].kind == kind && strcmp (wordings[end].topic, topic) == 0)
    end++;
  return (unsigned) (end - first);
}

const char *
br__wording (const char *topic, unsigned kind, unsigned index)
{
  return wordings[br__wording_first (topic, kind) + index].words;
}

const char *
br__wording_at (size_t index)
{
  return index < WORDINGS ? wordings[index].words : NULL;
}
