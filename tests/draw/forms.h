/* SPDX-License-Identifier: GPL-3.0-or-later
   forms.h - what the table of a drawing says of outlines, of what is turned, of rows and mirrors; held against the sheet.  */
#ifndef BR_TESTS_DRAW_FORMS_H
#define BR_TESTS_DRAW_FORMS_H

#include "read_page.h"

static void is_told (const shape *s, const char *what, double found, double right, double slack);
static double in_unit (const br_sheet *sheet, const br__shape *s, int part);

/* 1 where TEXT is NAME, WORDS and a list with NUMBER in it: "o, corner 1; 3", or the last of "o, corner 1 to 4".  */
static int
is_of_corner (const char *text, const char *name, const char *words, size_t number)
{
  size_t n = strlen (name), m = strlen (words);
  if (strncmp (text, name, n) != 0 || strncmp (text + n, words, m) != 0)
    return 0;
  for (const char *s = text + n + m; s; s = strstr (s, "; ") ? strstr (s, "; ") + 2 : NULL)
    {
      char *end;
      size_t first = strtoul (s, &end, 10), last = strncmp (end, " to ", 4) == 0 ? strtoul (end + 4, NULL, 10) : first;
      if (number >= first && number <= last)
        return 1;
    }
  return 0;
}

/* The number behind WORD at *S, which goes on behind it.  */
static double
number_behind (const char **s, const char *word, double *slack)
{
  double value = NAN;
  *slack = 0;
  if (strncmp (*s, word, strlen (word)) != 0)
    return NAN;
  *s += strlen (word);
  if (!read_number (&value, slack, s))
    return NAN;
  *slack = *slack > 0.1 ? half_mark : *slack;
  return value;
}

/* That number is RIGHT.  */
static void
number_is (const shape *s, const char *what, const char **text, const char *word, double right)
{
  double slack, found = number_behind (text, word, &slack);
  is_told (s, what, found, right, slack);
}

/* Corner I + 1 of S: its place, from what the page has it from.  */
static void
check_corner_place (const page *p, br_sheet *sheet, const br__shape *it, const shape *s, size_t i, int turned)
{
  double at[2], size[2];
  int found = 0;
  for (int u = 0; u < 2; u++)
    {
      at[u] = in_unit (sheet, it, BR__CORNER_PART (i, u ? BR__CORNER_Y : BR__CORNER_X));
      at[u] -= turned ? in_unit (sheet, it, BR__CORNER_PART (0, u ? BR__CORNER_Y : BR__CORNER_X))
                      : in_unit (sheet, it, u ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT);
      size[u] = in_unit (sheet, it, u ? BR__SHAPE_TOP : BR__SHAPE_RIGHT) - in_unit (sheet, it, u ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT);
    }
  for (size_t k = 0; k < p->row_count; k++)
    {
      const char *t = p->rows[k].dimension;
      if (!is_of_corner (p->rows[k].of, s->name, ", corner ", i + 1) || (strstr (p->rows[k].from, "unturned") != NULL) != turned
          || strstr (p->rows[k].from, "its sides"))
        continue;
      found++;
      if (strcmp (t, "rectangle") == 0)
        {
          /* Its sides are dimensioned.  */
          is_told (s, "a corner", at[0], i % 3 ? size[0] : 0, 0);
          is_told (s, "a corner", at[1], i / 2 ? size[1] : 0, 0);
          continue;
        }
      number_is (s, "a corner's place", &t, "", at[0]);
      number_is (s, "a corner's height", &t, " across, ", at[1]);
      assert_string_equal (t, " up");
    }
  if (found != !(turned && i == 0))
    fail_msg ("corner %zu of %s has %d places on the page", i + 1, s->name, found);
}

/* Its radius or cut, and the rise of the side to it.  */
static void
check_corner_form (const page *p, br_sheet *sheet, const br__shape *it, const shape *s, size_t i)
{
  double right[3] = { in_unit (sheet, it, BR__CORNER_PART (i, BR__CORNER_CUT)), in_unit (sheet, it, BR__CORNER_PART (i, BR__CORNER_CUT_AFTER)),
                      in_unit (sheet, it, BR__CORNER_PART (i, BR__CORNER_RISE)) };
  int found[2] = { 0, 0 };
  for (size_t k = 0; k < p->row_count; k++)
    {
      const char *t = p->rows[k].dimension;
      if (is_of_corner (p->rows[k].of, s->name, ", side to ", i + 1) && ++found[1])
        number_is (s, "a rise", &t, "rise ", right[2]);
      if (!is_of_corner (p->rows[k].of, s->name, ", corner ", i + 1) || !strstr (p->rows[k].from, "its sides"))
        continue;
      found[0]++;
      number_is (s, "a radius or a cut", &t, right[1] > 0 ? "cut " : "R ", right[0]);
      if (right[1] > 0)
        number_is (s, "a cut", &t, " x ", right[1]);
    }
  if (found[0] != (right[0] > 0) || found[1] != (right[2] != 0))
    fail_msg ("corner %zu of %s: %d rounds or cuts, %d rises", i + 1, s->name, found[0], found[1]);
}

static void
check_outline (const page *p, br_sheet *sheet, const br__shape *it, size_t index, const double datum[2])
{
  const shape *s = &p->shapes[index];
  const size_t corners = br__shape_corners (sheet->graph, s->name, strlen (s->name));
  double turn = in_unit (sheet, it, BR__SHAPE_C), told = 0, slack = 0;
  for (int u = 0; u < 2; u++)
    for (size_t k = 0; k < 2; k++)
      if (k == 0 || !isnan (p->known[u][2 * index + k]))
        is_told (s, u ? "the height" : "the place", p->known[u][2 * index + k],
                 in_unit (sheet, it, BR__SHAPE_X + u) + in_unit (sheet, it, (u ? k ? BR__SHAPE_TOP : BR__SHAPE_BOTTOM : k ? BR__SHAPE_RIGHT : BR__SHAPE_LEFT))
                 - datum[u], p->slack[u][2 * index + k]);
  for (size_t k = 0; k < p->row_count; k++)
    if (strstr (p->rows[k].dimension, "turned") && strcmp (p->rows[k].of, s->name) == 0)
      {
        const char *t = p->rows[k].dimension;
        told = number_behind (&t, "", &slack);
      }
  is_told (s, "its turn", told, turn, 1e-3);
  for (size_t i = 0; i < corners; i++)
    {
      check_corner_place (p, sheet, it, s, i, turn != 0);
      check_corner_form (p, sheet, it, s, i);
    }
}

/* A row: how many, and the step; a mirror: where its axis is.  */
static void
check_copies (const page *p, br_sheet *sheet, const br__shape *it, const shape *s, const double datum[2])
{
  int found = 0;
  for (size_t k = 0; k < p->row_count; k++)
    {
      double slack, n, step[2] = { 0, 0 };
      const char *t = p->rows[k].dimension, *of = p->rows[k].of;
      size_t name = strlen (s->name);
      if (strncmp (of, s->name, name) != 0 || (of[name] && strncmp (of + name, ", mirror of ", 12) != 0))
        continue;
      found++;
      n = number_behind (&t, "", &slack);
      if (it->kind == BR__MIRROR)
        {
          assert_string_equal (of + name + 12, it->base);
          is_told (s, "its axis", n, in_unit (sheet, it, BR__SHAPE_A) - datum[0], slack);
          assert_string_equal (p->rows[k].from, "datum");
          continue;
        }
      is_told (s, "how many", n, in_unit (sheet, it, BR__SHAPE_A), 0);
      assert_string_equal (p->rows[k].from, it->base);
      t += strlen (" \xC3\x97 ");
      for (double value; !isnan (value = number_behind (&t, "", &slack)); t += strncmp (t, ", ", 2) == 0 ? 2 : 0)
        {
          int up = strncmp (t, " up", 3) == 0;
          t += up ? 3 : strlen (" across");
          step[up] = value;
        }
      is_told (s, "the step", step[0], in_unit (sheet, it, BR__SHAPE_B), slack);
      is_told (s, "the step up", step[1], in_unit (sheet, it, BR__SHAPE_C), slack);
    }
  if (found != 1)
    fail_msg ("%s stands %d times in the table", s->name, found);
}

#endif
