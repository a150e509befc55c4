/* SPDX-License-Identifier: LGPL-3.0-or-later
   tag.c - the structure of a PDF for screen readers: headings, paragraphs, figures with a description, and the
   language.  ISO 32000-1, 14.7 to 14.9 (from memory).  cairo writes the structure tree, update.c the rest.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "page/page.h"

#define MOST_LANGUAGE 20
#define MOST_OPEN 8
#define MOST_ROLE 16

typedef struct br__tags
{
  char open[MOST_OPEN][MOST_ROLE];
  size_t depth;
  char language[MOST_LANGUAGE]; /* "" is "en" */
  char **descriptions;          /* of the figures, in order */
  size_t figures, room;
} br__tags;

void
br__tags_free (br_page *page)
{
  for (size_t i = 0; page->tags && i < page->tags->figures; i++)
    free (page->tags->descriptions[i]);
  if (page->tags)
    free (page->tags->descriptions);
  free (page->tags);
  page->tags = NULL;
}

static int
keep_description (br__tags *t, const char *description)
{
  if (t->figures == t->room)
    {
      size_t room = 2 * t->room + 8;
      char **more = realloc (t->descriptions, room * sizeof *more);
      if (!more)
        return 0;
      t->descriptions = more;
      t->room = room;
    }
  char *copy = strdup (description ? description : "");
  if (copy)
    t->descriptions[t->figures++] = copy;
  return copy != NULL;
}

void
br__page_tag (br_page *page, const char *role, const char *description)
{
  if (!page->pdf)
    return;
  if (!page->tags)
    page->tags = calloc (1, sizeof *page->tags);
  br__tags *t = page->tags;
  /* The lines of a figure are its own.  */
  if (role ? strcmp (role, "Figure") == 0 : t && t->depth && strcmp (t->open[t->depth - 1], "Figure") == 0)
    br__page_flush (page);
  if (!t)
    page->failed = 1;
  else if (role && t->depth < MOST_OPEN)
    {
      snprintf (t->open[t->depth], sizeof t->open[0], "%s", role);
      cairo_tag_begin (page->cairo, t->open[t->depth++], NULL);
      if (strcmp (role, "Document") == 0 && description)
        snprintf (t->language, sizeof t->language, "%s", description);
      if (strcmp (role, "Figure") == 0 && !keep_description (t, description))
        page->failed = 1;
    }
  else if (!role && t->depth)
    cairo_tag_end (page->cairo, t->open[--t->depth]);
}

int
br__tags_finish (br_page *page)
{
  const br__tags *t = page->tags;
  return br__pdf_update (&page->file, t && *t->language ? t->language : "en", t ? t->descriptions : NULL, t ? t->figures : 0);
}
