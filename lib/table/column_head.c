/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_head.c - what the first row of a CSV file says: which column is which, and the unit of its cells.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "formula/words.h"
#include "table/column.h"

/* A heading without blanks around and without its unit: `length (mm)`, `length [mm]`, `length, mm`, `length_mm`.  */
typedef struct heading
{
  size_t start, end;          /* all of it */
  size_t base;                /* where the unit begins, or END */
  const br_unit *unit;
} heading;

static int
is_blank (char c)
{
  return c == ' ' || c == '\t';
}

static heading
read_heading (const br_text *t)
{
  const char *text = br__text_string (t);
  heading h = { 0, t->length, 0, NULL };
  while (h.start < h.end && is_blank (text[h.start]))
    h.start++;
  while (h.end > h.start && is_blank (text[h.end - 1]))
    h.end--;
  h.base = h.end;
  size_t to = h.end, from, base;
  char close = to > h.start ? text[to - 1] : 0, open = close == ')' ? '(' : close == ']' ? '[' : 0;
  to -= open != 0;
  for (from = to; from > h.start && !strchr (open ? "([" : ",_ ", text[from - 1]); from--)
    ;
  base = from > h.start ? from - 1 : h.start;
  if (!open)
    while (base > h.start && is_blank (text[base]))
      base--;
  if (from == h.start || base == h.start || (open ? text[base] != open : text[base] != ',' && text[base] != '_'))
    return h;
  const br_unit *unit = br_unit_find (text + from, to - from);
  if (!unit || unit->dimension != BR_LENGTH || unit->num == 0)
    return h;
  while (base > h.start && is_blank (text[base - 1]))
    base--;
  h.base = base;
  h.unit = unit;
  return h;
}

/* The cells of a row, one after the other.  */
typedef struct cells
{
  const char *next, *end;     /* NEXT is NULL behind the last */
  int last;
  char separator;
  br__csv_row row;
} cells;

static cells
cells_of (const char *at, const char *end, int last, char separator)
{
  cells c = { NULL, end, last, separator, { 0 } };
  if (br__csv_next (&c.row, at, end, 0, last, separator))
    {
      c.next = at;
      c.end = c.row.end;
    }
  return c;
}

/* T gets what the next cell holds; 0 where there is none.  */
static int
next_cell (br_text *t, cells *c)
{
  br__text_reset (t);
  if (!c->next)
    return 0;
  const char *stop = br__csv_cell_end (&c->row, c->next, c->end, 1, c->separator);
  br__csv_put_content (t, c->next, stop);
  c->next = stop < c->end ? stop + 1 : NULL;
  return !t->failed;
}

void
br__put_cells_by (br_record *r, const br__column *c)
{
  br__put_text (r, "cells_by", c->separator == ';' ? "semicolons" : c->separator == '\t' ? "tabs" : "");
  br__put_truth (r, "decimal_commas", c->commas);
}

br_status
br__column_unit (const br_unit **unit, const br__csv_row *row)
{
  br_text t = BR_TEXT_ZERO;
  br__csv_put_content (&t, row->cell, row->cell_end);
  int failed = t.failed;
  *unit = failed || !t.length ? NULL : read_heading (&t).unit;
  br__text_clear (&t);
  return failed ? BR_NO_MEMORY : BR_OK;
}

br_status
br__column_of_names (size_t *number, size_t index, const char *at, const char *end, int last, char separator)
{
  static const char *const words[] = { "name", "names", "part", "parts", "piece" };
  br_text t = BR_TEXT_ZERO;
  cells c = cells_of (at, end, last, separator);
  size_t found = 0, i = 0;
  for (; !found && next_cell (&t, &c); i++)
    for (size_t w = 0; w < sizeof words / sizeof words[0] && i != index; w++)
      if (br__same_word (br__text_string (&t), t.length, words[w]))
        found = i + 1;
  int failed = t.failed;
  br__text_clear (&t);
  *number = found ? found : i < 2 ? 0 : index == 0 ? 2 : 1;
  return failed ? BR_NO_MEMORY : BR_OK;
}

br_status
br__column_find (size_t *index, const char *named, size_t named_length, const char *at, const char *end, int last,
                 char separator, br_error *error)
{
  br_text cell = BR_TEXT_ZERO, known = BR_TEXT_ZERO;
  cells c = cells_of (at, end, last, separator);
  size_t found[2] = { 0, 0 }, which[2] = { 0, 0 };      /* with all of their headings, and without a unit */
  for (size_t i = 0; next_cell (&cell, &c); i++)
    {
      const char *text = br__text_string (&cell);
      heading h = read_heading (&cell);
      for (int k = 0; k < 2; k++)
        {
          size_t length = (k ? h.base : h.end) - h.start;
          if (length == named_length && memcmp (text + h.start, named, length) == 0 && !found[k]++)
            which[k] = i;
        }
      if (known.length < BR_HINT_SIZE)
        br__text_printf (&known, "%s%.*s", i ? ", " : "", BR__CLIP (text, 20));
    }
  br_status status = BR_OK;
  int shown = br__clip (named, named_length, 60), k = !found[0];
  if (cell.failed || known.failed)
    status = br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  else if (found[k] == 0)
    {
      status = br__fail (error, BR_DOMAIN, 0, 0, "no column is called `%.*s`", shown, named);
      br__hint (error, "the first row has: %.*s", BR__CLIP (br__text_string (&known), 120));
    }
  else if (found[k] > 1)
    {
      status = br__fail (error, BR_DOMAIN, 0, 0, "%zu columns are called `%.*s`", found[k], shown, named);
      br__hint (error, "say which by its number, from 1");
    }
  else
    *index = which[k];
  br__text_clear (&cell);
  br__text_clear (&known);
  return status;
}
