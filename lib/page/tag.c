/* SPDX-License-Identifier: LGPL-3.0-or-later
   tag.c - what the parts of a PDF are, for who hears it read: headings, paragraphs, figures with a description, and the
   language.  ISO 32000-1, 14.7 to 14.9 (from memory).

   cairo writes the tree of roles, but neither the language nor descriptions.  They are added as ISO 32000-1, 7.5.6 has it
   for changes: behind the file the objects in question once more, and a table of where they stand.  cairo from 1.18 on packs
   objects into streams, and a file that is written so stays as it is.  */
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

/* ---- The finished file ---- */

typedef struct change
{
  long number;                  /* of the object */
  size_t start, end;            /* its dictionary in the file, without the >> that ends it */
  size_t offset;                /* where it stands anew */
  const char *description;      /* of a figure; NULL: the catalogue */
} change;

typedef struct changes
{
  change *rows;
  size_t count, room;
} changes;

/* Finds WORD from AT on; the file has bytes of zero in it.  */
static size_t
find (const br_page *page, size_t at, const char *word)
{
  size_t n = strlen (word);
  for (; at + n <= page->length; at++)
    {
      const char *next = memchr (page->bytes + at, word[0], page->length - n - at + 1);
      if (!next)
        break;
      at = (size_t) (next - page->bytes);
      if (memcmp (next, word, n) == 0)
        return at;
    }
  return page->length;
}

/* The object whose dictionary holds what stands at AT: "12 0 obj\n<< ... >>\nendobj".  */
static int
take_object (changes *all, const br_page *page, size_t at, const char *description)
{
  size_t start = at, end = find (page, at, "endobj");
  while (start > 4 && memcmp (page->bytes + start, " obj", 4) != 0)
    start--;
  size_t head = start;
  while (head > 0 && page->bytes[head - 1] != '\n')
    head--;
  while (end > start && memcmp (page->bytes + end, ">>", 2) != 0)
    end--;
  if (all->count == all->room)
    {
      size_t room = 2 * all->room + 8;
      change *more = realloc (all->rows, room * sizeof *more);
      if (!more)
        return 0;
      all->rows = more;
      all->room = room;
    }
  all->rows[all->count++] = (change) { strtol (page->bytes + head, NULL, 10), start + 4, end, 0, description };
  return 1;
}

static int
put (br_page *page, const char *bytes, size_t length)
{
  if (page->length + length + 1 > page->room)
    {
      size_t room = (page->length + length) * 2;
      char *more = realloc (page->bytes, room);
      if (!more)
        return 0;
      page->bytes = more;
      page->room = room;
    }
  memcpy (page->bytes + page->length, bytes, length);
  page->length += length;
  return 1;
}

static int
put_text (br_page *page, const char *text)
{
  return put (page, text, strlen (text));
}

/* UTF-8 as a string of ISO 32000-1, 7.9.2.2: UTF-16, here in hexadecimal.  */
static int
put_string (br_page *page, const char *text)
{
  int good = put_text (page, "<FEFF");
  glong count = 0;
  gunichar2 *units = g_utf8_to_utf16 (text, -1, NULL, &count, NULL);
  for (glong i = 0; units && i < count && good; i++)
    {
      char hex[5];
      snprintf (hex, sizeof hex, "%04X", (unsigned) units[i]);
      good = put_text (page, hex);
    }
  g_free (units);
  return good && put_text (page, ">");
}

static int
put_object (br_page *page, change *c)
{
  char head[40];
  c->offset = page->length;
  snprintf (head, sizeof head, "%ld 0 obj", c->number);
  size_t length = c->end - c->start;
  char *old = malloc (length + 1);
  if (!old)
    return 0;
  memcpy (old, page->bytes + c->start, length);
  int good = put_text (page, head) && put (page, old, length);
  free (old);
  if (good && c->description)
    good = put_text (page, "   /Alt ") && put_string (page, c->description) && put_text (page, "\n");
  else if (good)
    good = put_text (page, "   /Lang (") && put_text (page, page->tags && *page->tags->language ? page->tags->language : "en")
           && put_text (page, ")\n   /ViewerPreferences << /DisplayDocTitle true >>\n");
  return good && put_text (page, ">>\nendobj\n");
}

/* The number behind WORD, which stands from AT on; 0: it does not.  */
static long
number_behind (const br_page *page, size_t at, const char *word)
{
  size_t found = find (page, at, word);
  return found < page->length ? strtol (page->bytes + found + strlen (word), NULL, 10) : 0;
}

static int
put_references (br_page *page, const changes *all, size_t trailer, long last)
{
  char line[200];
  size_t table = page->length;
  int good = put_text (page, "xref\n");
  for (size_t i = 0; i < all->count && good; i++)
    {
      snprintf (line, sizeof line, "%ld 1\n%010zu 00000 n \n", all->rows[i].number, all->rows[i].offset);
      good = put_text (page, line);
    }
  snprintf (line, sizeof line, "trailer\n<< /Size %ld\n   /Root %ld 0 R\n   /Info %ld 0 R\n   /Prev %ld\n>>\nstartxref\n%zu\n%%%%EOF\n",
            number_behind (page, trailer, "/Size "), number_behind (page, trailer, "/Root "),
            number_behind (page, trailer, "/Info "), last, table);
  return good && put_text (page, line);
}

int
br__tags_finish (br_page *page)
{
  changes all = { NULL, 0, 0 };
  /* The end of what is there is not part of the search.  */
  size_t trailer = 0, at = 0, catalogue = find (page, 0, "/Type /Catalog"), figure = 0;
  for (size_t next; (next = find (page, trailer, "trailer")) < page->length; trailer = next + 1)
    continue;
  if (!put (page, "", 1))
    return 0;
  page->length--;
  long last = number_behind (page, trailer, "startxref\n");
  if (!trailer || !last || catalogue == page->length)
    return 1;
  int good = take_object (&all, page, catalogue, NULL);
  while (page->tags && good && figure < page->tags->figures && (at = find (page, at, "/S /Figure")) < page->length)
    good = take_object (&all, page, at++, page->tags->descriptions[figure++]);
  for (size_t i = 0; i < all.count && good; i++)
    good = put_object (page, &all.rows[i]);
  good = good && put_references (page, &all, trailer, last);
  free (all.rows);
  return good;
}
