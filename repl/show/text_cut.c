/* SPDX-License-Identifier: GPL-3.0-or-later
   text_cut.c - wood as text: stock, parts, what a class needs, plans for cutting, equal spacing,
   scales that fit the paper.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "show/fields.h"

static void
put_line (const display *d, const char *before, const char *text)
{
  fputs (before, d->stream);
  text_put_cut (d, text);
  putc ('\n', d->stream);
}

/* ---- Stock and parts ---- */

static void
piece_block (const display *d, const br_record *record)
{
  const char *stock = br_record_text (record, "stock"), *nominal = br_record_text (record, "nominal");
  const char *problem = br_record_text (record, "problem");
  int64_t quantity = br_record_count (record, "quantity");
  text_strong (d, br_record_text (record, "name"));
  fputs ("  ", d->stream);
  text_put_cut (d, br_record_text (record, "shown"));
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
      display_wrap (d, br_record_text (record, "source"), (int) strlen (nominal) + 12, 4);
    }
  if (*problem)
    put_line (d, "  ", problem);
}

/* A size on the ruler, and how far the mark is off where it is.  */
static void
add_size (table *t, const display *d, const br_record *row, const char *mark_key, const char *error_key)
{
  const char *mark = br_record_text (row, mark_key), *error = br_record_text (row, error_key);
  char *few = field_sign (error) ? text_signed (d, error) : NULL;
  if (few)
    table_addf (t, "%s (error %s)", mark, few);
  else
    table_add (t, mark);
  free (few);
}

/* "length = deck_length - 2 * board", for a size that was given by more than a number.  */
static void
put_origin (const display *d, const br_record *row, const char *name, const char *key, int *any)
{
  const char *from = br_record_text (row, key);
  const char *c = from;
  while (*c && (strchr ("0123456789./-+*() ", *c) || (unsigned char) *c >= 0x80))
    c++;
  if (!*c)
    return;
  if (!*any)
    text_strong (d, br_record_text (row, "part"));
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
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      const char *name = br_record_text (row, "part");
      if (!*br_record_text (row, "problem"))
        continue;
      text_strong (d, name);
      fputs (" cannot be cut: ", d->stream);
      display_wrap (d, br_record_text (row, "problem"), (int) strlen (name) + 16, 2);
    }
}

static void
parts_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "part", "number", "length", "width", "thick", "stock", "note" };
  const br_list *rows = br_record_list (record, "rows");
  table t = TABLE_ZERO;
  table_start (&t, 7, headings);
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      table_add (&t, br_record_text (row, "part"));
      table_addf (&t, "%" PRId64, br_record_count (row, "quantity"));
      add_size (&t, d, row, "length_mark", "length_error");
      add_size (&t, d, row, "width_mark", "width_error");
      /* Thickness is bought, not marked.  */
      text_add_cut (&t, d, br_record_text (row, "thickness_shown"));
      table_add (&t, br_record_text (row, "stock"));
      table_add (&t, br_record_text (row, "note"));
    }
  table_put (&t, d);
  table_clear (&t);
  for (size_t i = 0; i < br_list_size (rows); i++)
    put_origins (d, br_list_record (rows, i));
  put_problems (d, rows);
}

static void
order_block (const display *d, const br_record *record)
{
  static const char *const stock_headings[] = { "to buy", "stock", "size" };
  static const char *const part_headings[] = { "to cut", "part", "size" };
  const br_list *stocks = br_record_list (record, "stocks"), *parts = br_record_list (record, "parts");
  table t = TABLE_ZERO;
  if (br_record_count (record, "class") == 1)
    display_put (d, "For one");
  else
    fprintf (d->stream, "For a class of %" PRId64, br_record_count (record, "class"));
  if (br_record_count (record, "spare") > 0)
    fprintf (d->stream, ", %" PRId64 " per cent spare", br_record_count (record, "spare"));
  fputs (":\n", d->stream);
  table_start (&t, 3, stock_headings);
  for (size_t i = 0; i < br_list_size (stocks); i++)
    {
      const br_record *row = br_list_record (stocks, i);
      int64_t n = br_record_count (row, "quantity"), least = br_record_count (row, "least");
      if (n > least)
        table_addf (&t, "%" PRId64 " (%" PRId64 " at least)", n, least);
      else
        table_addf (&t, "%" PRId64, n);
      table_add (&t, br_record_text (row, "stock"));
      text_add_cut (&t, d, br_record_text (row, "shown"));
    }
  table_put (&t, d);
  table_clear (&t);
  table_start (&t, 3, part_headings);
  for (size_t i = 0; i < br_list_size (parts); i++)
    {
      const br_record *row = br_list_record (parts, i);
      table_addf (&t, "%" PRId64, br_record_count (row, "quantity"));
      table_add (&t, br_record_text (row, "part"));
      text_add_cut (&t, d, br_record_text (row, "shown"));
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
  for (size_t i = 0, n; i < br_list_size (pieces); i += n)
    {
      const br_record *piece = br_list_record (pieces, i);
      const char *name = br_record_text (piece, "part");
      for (n = 1; i + n < br_list_size (pieces); n++)
        {
          const br_record *next = br_list_record (pieces, i + n);
          if (strcmp (br_record_text (next, "part"), name) != 0)
            break;
        }
      fprintf (d->stream, "%s%zu ", i ? ", " : "", n);
      display_put (d, name);
    }
}

static void
put_marks (const display *d, const char *label, const br_list *marks, const br_list *errors)
{
  if (br_list_size (marks) == 0)
    return;
  fputs (label, d->stream);
  for (size_t i = 0; i < br_list_size (marks); i++)
    {
      fputs (i ? "  " : "", d->stream);
      display_put (d, br_list_text (marks, i));
      const char *error = br_list_text (errors, i);
      char *few = field_sign (error) ? text_signed (d, error) : NULL;
      if (few)
        fprintf (d->stream, " (error %s)", few);
      free (few);
    }
  putc ('\n', d->stream);
}

/* One stick, and how many more are like it.  */
static void
put_stick (const display *d, const br_record *stick, size_t times)
{
  int64_t number = br_record_count (stick, "number");
  const br_list *picture = br_record_list (stick, "picture"), *across = br_record_list (stick, "pencil_across");
  text_strong (d, br_record_text (stick, "stock"));
  fprintf (d->stream, " %" PRId64, number);
  if (times > 1)
    fprintf (d->stream, " to %" PRId64, number + (int64_t) times - 1);
  fputs (": ", d->stream);
  put_pieces (d, br_record_list (stick, "pieces"));
  putc ('\n', d->stream);
  for (size_t i = 0; i < br_list_size (picture); i++)
    put_line (d, "  ", br_list_text (picture, i));
  put_marks (d, across ? "  along, from one end:   " : "  pencil from one end: ",
             br_record_list (stick, "pencil"), br_record_list (stick, "pencil_error"));
  if (across)
    put_marks (d, "  across, from one edge: ", across, br_record_list (stick, "pencil_across_error"));
  if (strcmp (br_record_text (stick, "offcut"), "0") != 0)
    put_line (d, "  offcut ", br_record_text (stick, "offcut_mark"));
}

static void
put_verdict (const display *d, const br_record *row)
{
  int64_t used = br_record_count (row, "used"), needed = br_record_count (row, "needed");
  int64_t least = br_record_count (row, "least");
  display_put (d, br_record_text (row, "stock"));
  fprintf (d->stream, ": %" PRId64 " used", used);
  if (needed > used)
    fprintf (d->stream, ", %" PRId64 " needed", needed);
  if (br_record_truth (row, "proven"))
    fprintf (d->stream, "; proved: no plan with this stock%s needs fewer\n", *br_record_text (row, "width") ? ", cut from edge to edge," : "");
  else
    fprintf (d->stream, "; no plan needs fewer than %" PRId64 "; it is not proved that %" PRId64
             " is best%s\n", least, needed, br_record_truth (row, "stopped") ? " (the search was ended)" : "");
}

static void
cut_plan_block (const display *d, const br_record *record)
{
  const br_list *sticks = br_record_list (record, "sticks"), *unplaced = br_record_list (record, "unplaced");
  const br_list *stocks = br_record_list (record, "stocks");
  for (size_t i = 0, n; i < br_list_size (sticks); i += n)
    {
      for (n = 1; i + n < br_list_size (sticks); n++)
        if (!br_record_truth (br_list_record (sticks, i + n), "same"))
          break;
      put_stick (d, br_list_record (sticks, i), n);
    }
  for (size_t i = 0; i < br_list_size (stocks); i++)
    put_verdict (d, br_list_record (stocks, i));
  for (size_t i = 0; i < br_list_size (unplaced); i++)
    {
      const br_record *row = br_list_record (unplaced, i);
      fprintf (d->stream, "not placed: %" PRId64 " ", br_record_count (row, "quantity"));
      display_put (d, br_record_text (row, "part"));
      put_line (d, ": ", br_record_text (row, "why"));
    }
}

/* ---- Spacing and paper ---- */

static void
division_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "mark", "from the end", "on the ruler", "error" };
  const br_list *rows = br_record_list (record, "rows");
  table t = TABLE_ZERO;
  int gaps = strcmp (br_record_text (record, "of"), "gaps") == 0;
  fprintf (d->stream, "%" PRId64 " %s of ", br_record_count (record, "pieces"), gaps ? "things with gaps" : "pieces");
  char *piece = text_short (d, br_record_text (record, "piece_shown"), "");
  text_strong (d, piece ? piece : "");
  free (piece);
  text_mark (d, record);
  table_start (&t, 4, headings);
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      char *error = text_record_error (d, row), *shown = text_short (d, br_record_text (row, "shown"), "");
      table_addf (&t, "%zu", i + 1);
      table_add (&t, shown ? shown : "");
      free (shown);
      table_add (&t, br_record_text (row, "mark"));
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
  const char *over = br_record_text (record, key);
  if (strcmp (over, "0\"") == 0 || !*over || *over == '0')
    return;
  fputs (*any ? " and " : "  full size is too large by ", d->stream);
  *any = 1;
  display_put (d, over);
  fputs (words, d->stream);
}

static void
fit_block (const display *d, const br_record *record)
{
  const char *words = br_record_text (record, "scale_words");
  int any = 0;
  if (!br_record_truth (record, "fits"))
    {
      put_line (d, "no standard scale is small enough for ", br_record_text (record, "paper"));
      return;
    }
  text_strong (d, br_record_text (record, "scale"));
  if (*words)
    {
      fputs (" (", d->stream);
      display_put (d, words);
      fputs (")", d->stream);
    }
  fputs (" fits on ", d->stream);
  display_put (d, br_record_text (record, "paper"));
  fputs (", ", d->stream);
  display_put (d, br_record_text (record, "lies"));
  put_line (d, ", margins ", br_record_text (record, "margin"));
  fputs ("  drawn ", d->stream);
  text_put_cut (d, br_record_text (record, "drawn_width_shown"));
  put_line (d, " x ", br_record_text (record, "drawn_height_shown"));
  if (*br_record_text (record, "squares_width"))
    {
      fputs ("  squares ", d->stream);
      text_put_cut (d, br_record_text (record, "squares_width_shown"));
      put_line (d, " x ", br_record_text (record, "squares_height_shown"));
    }
  put_over (d, record, "full_over_width_shown", " in width", &any);
  put_over (d, record, "full_over_height_shown", " in height", &any);
  if (any)
    putc ('\n', d->stream);
}

const text_kind text_cuts[] = {
  { "stock", piece_block, NULL, 0, NULL, 0, NULL },
  { "part", piece_block, NULL, 0, NULL, 0, NULL },
  { "parts", parts_block, NULL, 0, NULL, 0, NULL },
  { "order", order_block, NULL, 0, NULL, 0, NULL },
  { "cut_plan", cut_plan_block, NULL, 0, NULL, 0, NULL },
  { "division", division_block, NULL, 0, NULL, 0, NULL },
  { "fit", fit_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
