/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_head.c - what the first row of a CSV file says: which column is which, and the unit of its cells.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "formula/words.h"
#include "table/column.h"

/* A heading without blanks around and without its unit: `length (mm)`, `length [mm]`, `length, mm`, `length_mm`, `length mm`,
   `length in mm`, `mm`.  */
typedef struct heading
{
  size_t start, end;          /* all of it */
  size_t base;                /* where the unit begins; END without one, or where there is nothing else */
  const br_unit *unit;
} heading;

/* Blanks, and what may part a unit from the words before it.  */
static int
is_between (char c, const char *more)
{
  return c == ' ' || c == '\t' || (c && strchr (more, c));
}

/* Where the word of TEXT begins that ends at TO.  */
static size_t
word_start (const char *text, size_t start, size_t to, const char *more)
{
  while (to > start && !is_between (text[to - 1], more))
    to--;
  return to;
}

static heading
read_heading (const br_text *t)
{
  static const char parts[] = ",_/:-";
  const char *text = br__text_string (t);
  heading h = { 0, t->length, 0, NULL };
  while (h.start < h.end && is_between (text[h.start], ""))
    h.start++;
  while (h.end > h.start && is_between (text[h.end - 1], ""))
    h.end--;
  h.base = h.end;
  size_t to = h.end, from, base;
  char close = to > h.start ? text[to - 1] : 0, open = close == ')' ? '(' : close == ']' ? '[' : 0;
  if (open)
    for (from = --to; from > h.start && text[from - 1] != open; from--)
      ;
  else
    from = word_start (text, h.start, to, parts);
  if (open && from == h.start)
    return h;
  for (base = from - (open != 0); base > h.start && is_between (text[base - 1], parts); base--)
    ;
  const br_unit *unit = br_unit_find (text + from, to - from);
  /* An m alone may be a name; `sq ft` and `board feet` are no lengths, and `rod 5 mm` is a rod.  */
  size_t before = word_start (text, h.start, base, parts);
  if (!unit || unit->dimension != BR_LENGTH || unit->num == 0 || (base == h.start && !open && to - from == 1)
      || (!open && before < base && (br_unit_find (text + before, to - before) || strchr ("0123456789", text[base - 1]))))
    return h;
  if (!open && base - before == 2 && before > h.start && br__same_word (text + before, 2, "in"))
    for (base = before; base > h.start && is_between (text[base - 1], parts); base--)
      ;
  h.base = base > h.start ? base : h.end;
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
