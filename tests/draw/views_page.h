/* SPDX-License-Identifier: GPL-3.0-or-later
   views_page.h - parts a page with three views in third-angle projection into the side and what is seen from above, each as a page of its
   own.  Which view a stroke belongs to is seen from its place; level dimension lines belong to the side alone.  */
#ifndef BR_TESTS_DRAW_VIEWS_PAGE_H
#define BR_TESTS_DRAW_VIEWS_PAGE_H

#include "read_page.h"

typedef struct views_page
{
  svg_file file;
  const char *first;            /* the shape that each view begins with */
  int64_t y[2][2];              /* how far the side, and the view from above, go down the page: least and greatest */
  int64_t left;                 /* of the side: what is farther left is seen from the front */
  int64_t tables[2];            /* where those of the view from above begin, and end */
} views_page;

/* The middle of E down the page, and how far it reaches.  */
static int
reach_down (int64_t reach[2], const svg_element *e)
{
  int64_t x, y;
  reach[0] = INT64_MAX;
  reach[1] = INT64_MIN;
  if (strcmp (e->name, "rect") == 0)
    {
      reach[0] = svg_number (e, "y");
      reach[1] = reach[0] + svg_number (e, "height");
    }
  else if (strcmp (e->name, "circle") == 0)
    {
      reach[0] = svg_number (e, "cy") - svg_number (e, "r");
      reach[1] = svg_number (e, "cy") + svg_number (e, "r");
    }
  else if (strcmp (e->name, "line") == 0)
    {
      y = svg_number (e, "y1"), x = svg_number (e, "y2");
      reach[0] = x < y ? x : y;
      reach[1] = x < y ? y : x;
    }
  else if (strcmp (e->name, "path") == 0 && !svg_get (e, "transform") && !strchr (svg_get (e, "d"), 'A'))
    for (const char *d = svg_get (e, "d"); svg_next (&x, &d) && svg_next (&y, &d); )
      {
        reach[0] = y < reach[0] ? y : reach[0];
        reach[1] = y > reach[1] ? y : reach[1];
      }
  return reach[0] <= reach[1];
}

static void
read_views_page (views_page *v, const char *path)
{
  int view = -1;
  memset (v, 0, sizeof *v);
  svg_read (&v->file, path);
  for (int i = 0; i < 2; i++)
    v->y[i][0] = INT64_MAX, v->y[i][1] = INT64_MIN;
  v->left = v->tables[0] = v->tables[1] = INT64_MAX;
  for (size_t i = 1; i < v->file.count; i++)
    {
      const svg_element *e = &v->file.elements[i];
      int64_t reach[2];
      if (strcmp (e->name, "text") == 0)
        {
          v->tables[0] = strcmp (e->text, "Seen from above:") == 0 ? svg_number (e, "y") : v->tables[0];
          v->tables[1] = strcmp (e->text, "Seen from the front:") == 0 ? svg_number (e, "y") : v->tables[1];
        }
      if (!e->title || strcmp (e->name, "svg") == 0 || strcmp (e->title, "datum") == 0)
        continue;
      v->first = v->first ? v->first : e->title;
      view += strcmp (e->title, v->first) == 0;
      if (view < 2 && reach_down (reach, e))
        {
          v->y[view][0] = reach[0] < v->y[view][0] ? reach[0] : v->y[view][0];
          v->y[view][1] = reach[1] > v->y[view][1] ? reach[1] : v->y[view][1];
        }
      if (view == 0 && strcmp (e->name, "rect") == 0)
        v->left = svg_number (e, "x") < v->left ? svg_number (e, "x") : v->left;
    }
  assert_int_equal (view, 2);
}

static int64_t
away (const int64_t reach[2], int64_t at)
{
  return at < reach[0] ? reach[0] - at : at > reach[1] ? at - reach[1] : 0;
}

/* 1 where the number of E stands between, or beside, level arrows.  */
static int
is_level (const svg_file *f, const svg_element *e)
{
  tip t;
  for (size_t i = 1; i < f->count; i++)
    if (read_tip (&t, &f->elements[i], 0) && llabs (t.across - middle_of (e)) < BR__INCH / 500)
      return 1;
  return 0;
}

/* Whether E belongs to the view from above (ABOVE), or to the side.  */
static int
belongs (const views_page *v, const svg_element *e, int above)
{
  tip t;
  int64_t at;
  if (strcmp (e->name, "text") == 0)
    {
      at = middle_of (e);
      if (strncmp (e->text, "Seen from ", 10) == 0)
        return 0;
      /* The title block ends both tables.  */
      if (strncmp (e->text, "sizes in ", 9) == 0)
        return 1;
      if (at > v->tables[0])
        return above && at < v->tables[1];
      if (at > v->y[0][1] + 2 * BR__INCH || is_level (&v->file, e))
        return !above;
    }
  else if (read_tip (&t, e, 0))
    return !above;
  else if (read_tip (&t, e, 1))
    at = t.along;
  else if (e->title && strcmp (e->title, "datum") == 0)
    at = svg_number (e, "cy");
  else
    return e->title == NULL;
  return (away (v->y[1], at) < away (v->y[0], at)) == above;
}

/* The piece E of the box S, or a line across it.  */
static void
join_piece (shape *s, const svg_element *e)
{
  shape piece = *s;
  if (strcmp (e->name, "path") == 0)
    {
      static drawn_path path;
      path.count = path.loop_count = 0;
      read_path (&path, svg_get (e, "d"));
      find_reach (&piece, &path);
    }
  else
    for (int i = 0; i < 2; i++)
      {
        int rect = strcmp (e->name, "rect") == 0;
        int64_t y = rect ? svg_number (e, "y") + (i ? 0 : svg_number (e, "height")) : svg_number (e, i ? "y2" : "y1");
        piece.at[0][i] = rect ? svg_number (e, "x") + (i ? svg_number (e, "width") : 0) : svg_number (e, i ? "x2" : "x1");
        piece.at[1][i] = y;
      }
  for (int u = 0; u < 2; u++)
    for (int i = 0; i < 2; i++)
      {
        /* Low and high sides; down the page numbers grow.  */
        int64_t *low = &s->at[u][u], *high = &s->at[u][!u], at = piece.at[u][i];
        *low = at < *low ? at : *low;
        *high = at > *high ? at : *high;
      }
}

/* From above each shape is a box, in pieces where something hides a part of it.  */
static void
add_piece (page *p, const svg_element *e)
{
  shape *s = shape_called (p, e->title, strlen (e->title));
  if (!s)
    {
      s = &p->shapes[p->count++];
      assert_true (p->count < MOST_SHAPES);
      *s = (shape) { .name = e->title, .kind = BR__BOX, .at = { { INT64_MAX, INT64_MIN }, { INT64_MIN, INT64_MAX } } };
    }
  join_piece (s, e);
}

/* The elements of one of the two: shapes by their order, the rest by its place.  P reads them; the file stays V's.  */
static void
part_of_views (page *p, const views_page *v, int above)
{
  int view = -1;
  memset (p, 0, sizeof *p);
  p->file = v->file;
  p->file.count = 0;
  p->file.elements = calloc (v->file.count, sizeof *p->file.elements);
  assert_non_null (p->file.elements);
  for (size_t i = 0; i < v->file.count; i++)
    {
      const svg_element *e = &v->file.elements[i];
      int stroke = i > 0 && e->title && strcmp (e->name, "svg") != 0 && strcmp (e->title, "datum") != 0;
      view += stroke && strcmp (e->title, v->first) == 0;
      if (stroke && above && view == 1)
        add_piece (p, e);
      else if (i == 0 || (stroke ? view == above : belongs (v, e, above)))
        p->file.elements[p->file.count++] = *e;
    }
  read_elements (p);
}

#endif
