/* SPDX-License-Identifier: GPL-3.0-or-later
   text_cut.c - wood as text: stock, parts, what a class needs, plans for cutting, equal spacing,
   scales that fit the paper.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "fields.h"

static int64_t
count_of (const br_record *record, const char *key)
{
  br_field field = br_record_get (record, key);
  return field.type == BR_FIELD_COUNT ? field.value.count : -1;
}

static void
put_line (const display *d, const char *before, const char *text)
{
  fputs (before, d->stream);
  display_put (d, text);
  putc ('\n', d->stream);
}

/* ---- Stock and parts ---- */

static void
piece_block (const display *d, const br_record *record)
{
  const char *stock = field_text (record, "stock"), *nominal = field_text (record, "nominal");
  const char *problem = field_text (record, "problem");
  int64_t quantity = count_of (record, "quantity");
  text_strong (d, field_text (record, "name"));
  fputs ("  ", d->stream);
  display_put (d, field_text (record, "shown"));
  if (quantity >= 0)
    fprintf (d->stream, ", %" PRId64 "%s", quantity,
             strcmp (br_record_kind (record), "stock") == 0 ? " at hand" : *stock ? "" : " of them");
  if (*stock)
    {
      fputs (" from ", d->stream);
      display_put (d, stock);
    }
  putc ('\n', d->stream);
  if (*nominal)
    {
      fputs ("  sold as ", d->stream);
      display_put (d, nominal);
      fputs (": ", d->stream);
      display_wrap (d, field_text (record, "source"), (int) strlen (nominal) + 12, 4);
    }
  if (*problem)
    put_line (d, "  ", problem);
}

/* A size on the ruler, and how far the mark is off where it is.  */
static void
add_size (table *t, const br_record *row, const char *mark_key, const char *error_key)
{
  const char *mark = field_text (row, mark_key), *error = field_text (row, error_key);
  int sign = field_sign (error);
  if (sign == 0)
    table_add (t, mark);
  else
    table_addf (t, "%s (error %s%s)", mark, sign > 0 ? "+" : "", error);
}

/* "length = deck_length - 2 * board", for a size that was given by more than a number.  */
static void
put_origin (const display *d, const br_record *row, const char *name, const char *key, int *any)
{
  const char *from = field_text (row, key);
  const char *c = from;
  while (*c && (strchr ("0123456789./-+*() ", *c) || (unsigned char) *c >= 0x80))
    c++;
  if (!*c)
    return;
  if (!*any)
    text_strong (d, field_text (row, "part"));
  fputs (*any ? ", " : ": ", d->stream);
  *any = 1;
  display_put (d, name);
  fputs (" = ", d->stream);
  display_put (d, from);
}

static void
put_origins (const display *d, const br_record *row)
{
  int any = 0;
  put_origin (d, row, "length", "length_from", &any);
  put_origin (d, row, "width", "width_from", &any);
  put_origin (d, row, "thickness", "thickness_from", &any);
  if (any)
    putc ('\n', d->stream);
}

/* What is wrong with a part, on lines of its own.  */
static void
put_problems (const display *d, const br_list *rows)
{
  for (size_t i = 0; i < fields_in (rows); i++)
    {
      const br_record *row = field_record_at (rows, i);
      const char *name = field_text (row, "part");
      if (!*field_text (row, "problem"))
        continue;
      text_strong (d, name);
      fputs (" can not be cut: ", d->stream);
      display_wrap (d, field_text (row, "problem"), (int) strlen (name) + 17, 2);
    }
}

static void
parts_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "part", "number", "length", "width", "thick", "stock", "note" };
  const br_list *rows = field_list (record, "rows");
  table t = TABLE_ZERO;
  table_start (&t, 7, headings);
  for (size_t i = 0; i < fields_in (rows); i++)
    {
      const br_record *row = field_record_at (rows, i);
      table_add (&t, field_text (row, "part"));
      table_addf (&t, "%" PRId64, count_of (row, "quantity"));
      add_size (&t, row, "length_mark", "length_error");
      add_size (&t, row, "width_mark", "width_error");
      /* Thickness is bought, not marked.  */
      table_add (&t, field_text (row, "thickness_shown"));
      table_add (&t, field_text (row, "stock"));
      table_add (&t, field_text (row, "note"));
    }
  table_put (&t, d);
  table_clear (&t);
  for (size_t i = 0; i < fields_in (rows); i++)
    put_origins (d, field_record_at (rows, i));
  put_problems (d, rows);
}

static void
order_block (const display *d, const br_record *record)
{
  static const char *const stock_headings[] = { "to buy", "stock", "size" };
  static const char *const part_headings[] = { "to cut", "part", "size" };
  const br_list *stocks = field_list (record, "stocks"), *parts = field_list (record, "parts");
  table t = TABLE_ZERO;
  fprintf (d->stream, "For a class of %" PRId64, count_of (record, "class"));
  if (count_of (record, "spare") > 0)
    fprintf (d->stream, ", %" PRId64 " per cent spare", count_of (record, "spare"));
  fputs (":\n", d->stream);
  table_start (&t, 3, stock_headings);
  for (size_t i = 0; i < fields_in (stocks); i++)
    {
      const br_record *row = field_record_at (stocks, i);
      int64_t n = count_of (row, "quantity"), least = count_of (row, "least");
      if (n > least)
        table_addf (&t, "%" PRId64 " (%" PRId64 " at least)", n, least);
      else
        table_addf (&t, "%" PRId64, n);
      table_add (&t, field_text (row, "stock"));
      table_add (&t, field_text (row, "shown"));
    }
  table_put (&t, d);
  table_clear (&t);
  table_start (&t, 3, part_headings);
  for (size_t i = 0; i < fields_in (parts); i++)
    {
      const br_record *row = field_record_at (parts, i);
      table_addf (&t, "%" PRId64, count_of (row, "quantity"));
      table_add (&t, field_text (row, "part"));
      table_add (&t, field_text (row, "shown"));
    }
  table_put (&t, d);
  table_clear (&t);
  put_problems (d, parts);
}

/* ---- Plans ---- */

/* "2 side, 1 end": equal parts that follow each other are counted.  */
static void
put_pieces (const display *d, const br_list *pieces)
{
  for (size_t i = 0, n; i < fields_in (pieces); i += n)
    {
      const br_record *piece = field_record_at (pieces, i);
      const char *name = field_text (piece, "part");
      for (n = 1; i + n < fields_in (pieces); n++)
        {
          const br_record *next = field_record_at (pieces, i + n);
          if (strcmp (field_text (next, "part"), name) != 0)
            break;
        }
      fprintf (d->stream, "%s%zu ", i ? ", " : "", n);
      display_put (d, name);
    }
}

static void
put_marks (const display *d, const char *label, const br_list *marks)
{
  if (fields_in (marks) == 0)
    return;
  fputs (label, d->stream);
  for (size_t i = 0; i < fields_in (marks); i++)
    {
      fputs (i ? "  " : "", d->stream);
      display_put (d, field_text_at (marks, i));
    }
  putc ('\n', d->stream);
}

/* One stick, and how many more are like it.  */
static void
put_stick (const display *d, const br_record *stick, size_t times)
{
  int64_t number = count_of (stick, "number");
  const br_list *picture = field_list (stick, "picture"), *across = field_list (stick, "pencil_across");
  text_strong (d, field_text (stick, "stock"));
  fprintf (d->stream, " %" PRId64, number);
  if (times > 1)
    fprintf (d->stream, " to %" PRId64, number + (int64_t) times - 1);
  fputs (": ", d->stream);
  put_pieces (d, field_list (stick, "pieces"));
  putc ('\n', d->stream);
  for (size_t i = 0; i < fields_in (picture); i++)
    put_line (d, "  ", field_text_at (picture, i));
  put_marks (d, across ? "  along, from one end:   " : "  pencil from one end: ",
             field_list (stick, "pencil"));
  if (across)
    put_marks (d, "  across, from one edge: ", across);
  if (strcmp (field_text (stick, "offcut"), "0") != 0)
    put_line (d, "  offcut ", field_text (stick, "offcut_mark"));
}

static void
put_verdict (const display *d, const br_record *row)
{
  int64_t used = count_of (row, "used"), needed = count_of (row, "needed");
  int64_t least = count_of (row, "least");
  display_put (d, field_text (row, "stock"));
  fprintf (d->stream, ": %" PRId64 " used", used);
  if (needed > used)
    fprintf (d->stream, ", %" PRId64 " needed", needed);
  if (field_truth (row, "proven"))
    fputs ("; proved: no plan needs fewer\n", d->stream);
  else
    fprintf (d->stream, "; no plan needs fewer than %" PRId64 "; it is not proved that %" PRId64
             " is best%s\n", least, needed, field_truth (row, "stopped") ? " (the search was ended)" : "");
}

static void
cut_plan_block (const display *d, const br_record *record)
{
  const br_list *sticks = field_list (record, "sticks"), *unplaced = field_list (record, "unplaced");
  const br_list *stocks = field_list (record, "stocks");
  for (size_t i = 0, n; i < fields_in (sticks); i += n)
    {
      for (n = 1; i + n < fields_in (sticks); n++)
        if (!field_truth (field_record_at (sticks, i + n), "same"))
          break;
      put_stick (d, field_record_at (sticks, i), n);
    }
  for (size_t i = 0; i < fields_in (stocks); i++)
    put_verdict (d, field_record_at (stocks, i));
  for (size_t i = 0; i < fields_in (unplaced); i++)
    {
      const br_record *row = field_record_at (unplaced, i);
      fprintf (d->stream, "not placed: %" PRId64 " ", count_of (row, "quantity"));
      display_put (d, field_text (row, "part"));
      put_line (d, ": ", field_text (row, "why"));
    }
}

/* ---- Spacing and paper ---- */

static void
division_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "mark", "from the end", "on the ruler", "error" };
  const br_list *rows = field_list (record, "rows");
  table t = TABLE_ZERO;
  int gaps = strcmp (field_text (record, "of"), "gaps") == 0;
  fprintf (d->stream, "%" PRId64 " %s of ", count_of (record, "pieces"), gaps ? "things with gaps" : "pieces");
  text_strong (d, field_text (record, "piece_shown"));
  text_mark (d, record);
  table_start (&t, 4, headings);
  for (size_t i = 0; i < fields_in (rows); i++)
    {
      const br_record *row = field_record_at (rows, i);
      char *error = text_record_error (d, row);
      table_addf (&t, "%zu", i + 1);
      table_add (&t, field_text (row, "shown"));
      table_add (&t, field_text (row, "mark"));
      table_add (&t, error ? error : "");
      free (error);
    }
  if (table_rows (&t) > 0)
    table_put (&t, d);
  table_clear (&t);
}

static void
put_over (const display *d, const br_record *record, const char *key, const char *words, int *any)
{
  const char *over = field_text (record, key);
  if (strcmp (over, "0\"") == 0 || !*over || *over == '0')
    return;
  fputs (*any ? " and " : "  full size is too large by ", d->stream);
  *any = 1;
  display_put (d, over);
  fputs (words, d->stream);
}

/* Squares as they are counted: 11, 22-3/8; a part that no one can count, as about so many.  */
static void
put_squares (const display *d, const char *exact)
{
  int64_t n, parts;
  char text[64];
  br_number x = BR_NUMBER_ZERO;
  if (!field_number (&x, exact))
    return;
  if (br_number_get_ratio (&n, &parts, &x) && parts <= 64 && (parts & (parts - 1)) == 0)
    br_number_write_mixed (text, sizeof text, &x);
  else
    {
      display_put (d, "about ");
      br_number_write_decimal (text, sizeof text, NULL, &x, 3);
    }
  display_put (d, text);
  br_number_clear (&x);
}

static void
fit_block (const display *d, const br_record *record)
{
  const char *words = field_text (record, "scale_words");
  int any = 0;
  if (!field_truth (record, "fits"))
    {
      put_line (d, "no standard scale is small enough for ", field_text (record, "paper"));
      return;
    }
  text_strong (d, field_text (record, "scale"));
  if (*words)
    {
      fputs (" (", d->stream);
      display_put (d, words);
      fputs (")", d->stream);
    }
  fputs (" fits on ", d->stream);
  display_put (d, field_text (record, "paper"));
  fputs (", ", d->stream);
  display_put (d, field_text (record, "lies"));
  put_line (d, ", margins ", field_text (record, "margin"));
  fputs ("  drawn ", d->stream);
  display_put (d, field_text (record, "drawn_width_shown"));
  put_line (d, " x ", field_text (record, "drawn_height_shown"));
  if (*field_text (record, "squares_width"))
    {
      display_put (d, "  squares ");
      put_squares (d, field_text (record, "squares_width"));
      display_put (d, " x ");
      put_squares (d, field_text (record, "squares_height"));
      putc ('\n', d->stream);
    }
  put_over (d, record, "full_over_width_shown", " in width", &any);
  put_over (d, record, "full_over_height_shown", " in height", &any);
  if (any)
    putc ('\n', d->stream);
}

const text_kind text_cuts[] = {
  { "stock", piece_block, NULL, 0, NULL, 0 },
  { "part", piece_block, NULL, 0, NULL, 0 },
  { "parts", parts_block, NULL, 0, NULL, 0 },
  { "order", order_block, NULL, 0, NULL, 0 },
  { "cut_plan", cut_plan_block, NULL, 0, NULL, 0 },
  { "division", division_block, NULL, 0, NULL, 0 },
  { "fit", fit_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
