/* SPDX-License-Identifier: GPL-3.0-or-later
   svg.h - reads an SVG file back: elements in their order with attributes and text, and its numbers exactly, in
   billionths of an inch.  What is not well-formed fails the test.  */
#ifndef BR_TESTS_DRAW_SVG_H
#define BR_TESTS_DRAW_SVG_H

#include "../lesson/support.h"
#include "draw/drawing.h"

#define SVG_ATTRIBUTES 12
#define SVG_DEPTH 16

typedef struct svg_element
{
  const char *name;
  const char *key[SVG_ATTRIBUTES], *value[SVG_ATTRIBUTES];
  size_t attributes;
  char *text;                   /* what stands in it, entities read */
  const char *title;            /* of the element <title> in it, or NULL */
  size_t parent;                /* index; its own for the root */
} svg_element;

typedef struct svg_file
{
  char *bytes;
  svg_element *elements;
  size_t count;
  int64_t width, height;        /* of the picture, billionths of an inch */
} svg_file;

CHECK_UNUSED static void
svg_clear (svg_file *f)
{
  for (size_t i = 0; i < f->count; i++)
    free (f->elements[i].text);
  free (f->elements);
  free (f->bytes);
  memset (f, 0, sizeof *f);
}

/* Ends the name at S with NUL and returns what stood there; *AFTER gets the byte behind.  */
static char *
svg_name (char **at)
{
  char *start = *at;
  size_t n = strspn (start, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-:");
  if (n == 0)
    fail_msg ("a name should stand at: %.40s", start);
  *at = start + n;
  return start;
}

/* Entities become the characters that they stand for, in place.  */
static void
svg_plain (char *s)
{
  static const struct { const char *entity; char c; } known[] =
  {
    { "&amp;", '&' }, { "&lt;", '<' }, { "&gt;", '>' }, { "&quot;", '"' }, { "&#39;", '\'' }, { "&apos;", '\'' }
  };
  char *out = s;
  while (*s)
    {
      size_t i = 0;
      assert_true (*s != '<');
      if (*s != '&')
        {
          *out++ = *s++;
          continue;
        }
      while (i < CHECK_COUNT (known) && strncmp (s, known[i].entity, strlen (known[i].entity)) != 0)
        i++;
      if (i == CHECK_COUNT (known))
        fail_msg ("not an entity: %.20s", s);
      *out++ = known[i].c;
      s += strlen (known[i].entity);
    }
  *out = 0;
}

/* The attributes at AT, up to > or />.  */
static char *
svg_attributes (svg_element *e, char *at)
{
  for (;;)
    {
      size_t blanks = strspn (at, " \n");
      at += blanks;
      if (*at == '>' || *at == '/' || *at == '?')
        return at;
      assert_true (blanks > 0 && e->attributes < SVG_ATTRIBUTES);
      char *key = svg_name (&at);
      assert_true (at[0] == '=' && at[1] == '"');
      *at = 0;
      char *value = at + 2, *end = strchr (value, '"');
      assert_non_null (end);
      *end = 0;
      svg_plain (value);
      for (size_t i = 0; i < e->attributes; i++)
        assert_string_not_equal (e->key[i], key);
      e->key[e->attributes] = key;
      e->value[e->attributes++] = value;
      at = end + 1;
    }
}

static void
svg_take_text (svg_file *f, size_t index, char *start, char *end)
{
  svg_element *e = &f->elements[index];
  size_t old = e->text ? strlen (e->text) : 0;
  char kept = *end;
  *end = 0;
  e->text = realloc (e->text, old + (size_t) (end - start) + 1);
  assert_non_null (e->text);
  memcpy (e->text + old, start, (size_t) (end - start) + 1);
  svg_plain (e->text + old);
  *end = kept;
}

/* The element that begins at AT, behind its <; returns where its tag ends, *OPEN 1 if it is not closed there.  */
static char *
svg_start (svg_file *f, char *at, size_t parent, int *open)
{
  f->elements = realloc (f->elements, (f->count + 1) * sizeof *f->elements);
  assert_non_null (f->elements);
  svg_element *e = &f->elements[f->count++];
  memset (e, 0, sizeof *e);
  e->parent = parent;
  e->name = svg_name (&at);
  char *behind = at;
  at = svg_attributes (e, at);
  *open = *at != '/';
  at += !*open;
  assert_true (*at == '>');
  *behind = 0;                  /* ends the name */
  return at + 1;
}

CHECK_UNUSED static const char *
svg_get (const svg_element *e, const char *key)
{
  for (size_t i = 0; i < e->attributes; i++)
    if (strcmp (e->key[i], key) == 0)
      return e->value[i];
  return NULL;
}

/* The decimal at *S times SCALE (a power of ten), exactly; *S goes on behind it.  */
CHECK_UNUSED static int64_t
svg_decimal (const char **s, int64_t scale)
{
  int minus = **s == '-';
  int64_t n = 0, behind = 1;
  int point = 0;
  *s += minus;
  assert_true (**s >= '0' && **s <= '9');
  for (; (**s >= '0' && **s <= '9') || (**s == '.' && !point); ++*s)
    if (**s == '.')
      point = 1;
    else
      {
        n = n * 10 + (**s - '0');
        behind *= point ? 10 : 1;
      }
  /* No digit lies below the grid.  */
  assert_true (scale % behind == 0);
  n *= scale / behind;
  return minus ? -n : n;
}

#define SVG_UNIT INT64_C (1000000)      /* billionths of an inch in a unit of the file */

CHECK_UNUSED static int64_t
svg_number (const svg_element *e, const char *key)
{
  const char *s = svg_get (e, key);
  if (!s)
    fail_msg ("<%s> has no %s", e->name, key);
  int64_t n = svg_decimal (&s, SVG_UNIT);
  assert_int_equal (*s, 0);
  return n;
}

/* The next number of a path or a transform, past letters, blanks and brackets; 0 at its end.  */
CHECK_UNUSED static int
svg_next (int64_t *n, const char **s)
{
  *s += strcspn (*s, "-0123456789");
  if (!**s)
    return 0;
  *n = svg_decimal (s, SVG_UNIT);
  return 1;
}

/* Reads the size, and checks that a unit of the file is a thousandth of an inch.  */
static void
svg_size (svg_file *f)
{
  const svg_element *root = &f->elements[0];
  const char *wide = svg_get (root, "width"), *high = svg_get (root, "height"), *box = svg_get (root, "viewBox");
  int64_t n[4];
  assert_string_equal (root->name, "svg");
  f->width = svg_decimal (&wide, BR__INCH);
  f->height = svg_decimal (&high, BR__INCH);
  assert_string_equal (wide, "in");
  assert_string_equal (high, "in");
  for (int i = 0; i < 4; i++)
    assert_true (svg_next (&n[i], &box));
  assert_int_equal (n[0], 0);
  assert_int_equal (n[1], 0);
  assert_int_equal (n[2], f->width);
  assert_int_equal (n[3], f->height);
}

CHECK_UNUSED static void
svg_read (svg_file *f, const char *path)
{
  size_t open[SVG_DEPTH], depth = 0;
  memset (f, 0, sizeof *f);
  f->bytes = lesson_get (path);
  char *at = f->bytes;
  if (strncmp (at, "<?xml ", 6) == 0)
    at = strstr (at, "?>") + 2;
  for (char *tag; (tag = strchr (at, '<')) != NULL; )
    {
      int stays;
      if (depth)
        svg_take_text (f, open[depth - 1], at, tag);
      if (tag[1] == '/')
        {
          at = tag + 2;
          char *name = svg_name (&at);
          assert_true (depth > 0 && *at == '>');
          const svg_element *e = &f->elements[open[--depth]];
          if (strlen (e->name) != (size_t) (at - name) || strncmp (name, e->name, (size_t) (at - name)) != 0)
            fail_msg ("<%s> ends as %.10s", e->name, name);
          if (depth && strcmp (e->name, "title") == 0)
            f->elements[open[depth - 1]].title = e->text;
          at++;
          continue;
        }
      at = svg_start (f, tag + 1, depth ? open[depth - 1] : 0, &stays);
      assert_true (depth < SVG_DEPTH && (depth || f->count == 1));
      if (stays)
        open[depth++] = f->count - 1;
    }
  assert_int_equal (depth, 0);
  assert_int_equal (strspn (at, " \n"), strlen (at));
  svg_size (f);
}

/* The one element NAME of which the title is TITLE.  */
CHECK_UNUSED static const svg_element *
svg_find (const svg_file *f, const char *name, const char *title)
{
  const svg_element *found = NULL;
  for (size_t i = 1; i < f->count; i++)
    if (strcmp (f->elements[i].name, name) == 0 && f->elements[i].title && strcmp (f->elements[i].title, title) == 0)
      {
        assert_null (found);
        found = &f->elements[i];
      }
  if (!found)
    fail_msg ("no <%s> is called %s", name, title);
  return found;
}

#endif
