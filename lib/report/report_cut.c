/* SPDX-License-Identifier: LGPL-3.0-or-later
   report_cut.c - the list of parts and the cutting plan: a picture of each stick, its pieces, and where to put the
   pencil.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "report/report.h"
#include "file/markup.h"

/* ---- Parts ---- */

/* A bare measure needs no second telling.  */
static int
is_formula (br_text *t, const char *from)
{
  br_measure m = BR_MEASURE_ZERO;
  br_status status = br_measure_read (&m, from, strlen (from), NULL, NULL);
  br_measure_clear (&m);
  t->failed |= status == BR_NO_MEMORY;
  return *from && status != BR_OK;
}

/* ", over by 1/32": how far a mark is off.  */
static void
put_error (br_text *t, const char *error)
{
  if (!*error || strcmp (error, "0") == 0)
    return;
  br__text_puts (t, *error == '-' ? ", under by " : ", over by ");
  br__put_fractions (t, error + (*error == '-'));
}

/* A size on the ruler, how far off that is, and the formula that it comes from.  */
static void
put_size (br_text *t, const br_record *row, const char *mark_key, const char *error_key, const char *from_key)
{
  const char *error = br_record_text (row, error_key), *from = br_record_text (row, from_key);
  br__text_puts (t, "<td>");
  br__put_spoken (t, br_record_text (row, mark_key));
  put_error (t, error);
  if (is_formula (t, from))
    {
      br__text_puts (t, "<br><code>");
      br__put_escaped (t, from);
      br__text_puts (t, "</code>");
    }
  br__text_puts (t, "</td>");
}

void
br__report_parts (br__report *p, const br_record *r)
{
  const br_list *rows = br_record_list (r, "rows");
  br_text *t = &p->sections[BR__REPORT_PARTS].body;
  for (size_t i = 0; rows && i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      const char *problem = br_record_text (row, "problem");
      br__text_puts (t, "<tr><th scope=\"row\">");
      br__put_escaped (t, br_record_text (row, "part"));
      br__text_printf (t, "</th><td>%lld</td>", (long long) br_record_count (row, "quantity"));
      put_size (t, row, "length_mark", "length_error", "length_from");
      put_size (t, row, "width_mark", "width_error", "width_from");
      br__report_cell (t, br_record_text (row, "thickness_shown"));
      br__report_cell (t, br_record_text (row, "stock"));
      br__text_puts (t, "<td>");
      br__put_spoken (t, br_record_text (row, "note"));
      if (*problem)
        {
          br__text_printf (t, "%s<b>cannot be cut:</b> ", *br_record_text (row, "note") ? "; " : "");
          br__put_escaped (t, problem);
        }
      br__text_puts (t, "</td></tr>\n");
    }
}

/* ---- A stick ---- */

/* The picture's width, in units of its own; a letter is so high.  */
#define ACROSS 1000
#define LETTER 26

/* The exact field KEY over LENGTH in ACROSSths, 0 where there is none.  */
static int64_t
part_of (br__report *p, const br_record *r, const char *key, const br_number *length)
{
  const char *exact = br_record_text (r, key);
  br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO;
  int64_t n = 0, d = 1;
  br_status status = *exact ? br_number_read (&x, exact, strlen (exact), NULL) : BR_OK;
  if (status == BR_OK)
    status = br_number_set_int (&y, ACROSS);
  if (status == BR_OK)
    status = br_number_mul (&x, &x, &y);
  if (status == BR_OK)
    status = br_number_div (&x, &x, length);
  if (status == BR_OK)
    status = br_number_round (&x, NULL, &x, BR_NEAREST, BR_TIES_UP);
  if (status != BR_OK || !br_number_get_ratio (&n, &d, &x))
    {
      p->sections[BR__REPORT_PLAN].body.failed |= status == BR_NO_MEMORY;
      n = 0;
    }
  br_number_clear (&x);
  br_number_clear (&y);
  return n;
}

/* The row of LIST whose stock is NAME.  */
static const br_record *
stock_row (const br_list *list, const char *name)
{
  for (size_t i = 0; list && i < br_list_size (list); i++)
    if (strcmp (br_record_text (br_list_record (list, i), "stock"), name) == 0)
      return br_list_record (list, i);
  return NULL;
}

/* "2 side, 1 end": what a stick is cut into.  */
static void
put_pieces_words (br_text *t, const br_list *pieces)
{
  for (size_t i = 0, n; pieces && i < br_list_size (pieces); i += n)
    {
      const char *name = br_record_text (br_list_record (pieces, i), "part");
      for (n = 1; i + n < br_list_size (pieces); n++)
        if (strcmp (br_record_text (br_list_record (pieces, i + n), "part"), name) != 0)
          break;
      br__text_printf (t, "%s%zu ", i ? ", " : "", n);
      br__put_escaped (t, name);
    }
}

static size_t
letters_in (const char *s)
{
  size_t n = 0;
  for (; *s; s++)
    n += ((unsigned char) *s & 0xC0) != 0x80;
  return n;
}

static int
same_piece (const br_record *x, const br_record *y)
{
  return strcmp (br_record_text (x, "part"), br_record_text (y, "part")) == 0
         && strcmp (br_record_text (x, "length"), br_record_text (y, "length")) == 0
         && strcmp (br_record_text (x, "width"), br_record_text (y, "width")) == 0;
}

/* NUMBER is that of the piece in the list below.  */
static void
put_piece_picture (br__report *p, const br_record *piece, size_t number, const br_number *length, int64_t start, int64_t high)
{
  br_text *t = &p->sections[BR__REPORT_PLAN].body;
  const char *name = br_record_text (piece, "part");
  int flat = *br_record_text (piece, "x") != 0;
  int64_t x = flat ? part_of (p, piece, "x", length) : start, y = part_of (p, piece, "y", length);
  int64_t wide = part_of (p, piece, "length", length), tall = flat ? part_of (p, piece, "width", length) : high;
  br__text_printf (t, "<rect x=\"%lld\" y=\"%lld\" width=\"%lld\" height=\"%lld\" class=\"piece\"/>", (long long) x,
                   (long long) y, (long long) wide, (long long) tall);
  /* If the name does not fit, its number in the list is written.  */
  int named = (int64_t) letters_in (name) * LETTER * 6 / 10 < wide && tall > LETTER;
  if (named || (tall > LETTER && wide > LETTER))
    {
      br__text_printf (t, "<text x=\"%lld\" y=\"%lld\">", (long long) (x + wide / 2),
                       (long long) (y + tall / 2 + LETTER / 3));
      if (named)
        br__put_escaped (t, name);
      else
        br__text_printf (t, "%zu", number);
      br__text_puts (t, "</text>");
    }
}

/* Pieces of a stick that is only cut to length lie one after the other, a kerf between them.  */
static void
put_picture (br__report *p, const br_record *stick, const br_record *stock)
{
  br_text *t = &p->sections[BR__REPORT_PLAN].body;
  const br_list *pieces = br_record_list (stick, "pieces");
  const char *exact = br_record_text (stock, "length");
  br_number length = BR_NUMBER_ZERO;
  br_status status = br_number_read (&length, exact, strlen (exact), NULL);
  t->failed |= status == BR_NO_MEMORY;
  if (status == BR_OK && br_number_sign (&length) > 0)
    {
      int64_t high = *br_record_text (stock, "width") ? part_of (p, stock, "width", &length) : 2 * LETTER, x = 0;
      int64_t kerf = part_of (p, stock, "kerf", &length);
      br__text_printf (t, "<div class=\"scroll\" role=\"region\" aria-label=\"A picture of the cuts\" tabindex=\"0\">"
                          "<svg class=\"stick\" viewBox=\"-2 -2 %d %lld\" role=\"img\" aria-label=\"", ACROSS + 4,
                       (long long) high + 4);
      br__put_escaped (t, br_record_text (stick, "stock"));
      br__text_puts (t, " cut into ");
      put_pieces_words (t, pieces);
      br__text_printf (t, "\"><rect width=\"%d\" height=\"%lld\" class=\"rest\"/>", ACROSS, (long long) high);
      for (size_t i = 0, number = 0; pieces && i < br_list_size (pieces); i++)
        {
          number += !i || !same_piece (br_list_record (pieces, i), br_list_record (pieces, i - 1));
          put_piece_picture (p, br_list_record (pieces, i), number, &length, x, high);
          x += part_of (p, br_list_record (pieces, i), "length", &length) + kerf;
        }
      br__text_puts (t, "</svg></div>\n");
      p->sticks++;
    }
  br_number_clear (&length);
}

static void
put_marks (br_text *t, const char *label, const br_list *marks, const br_list *errors)
{
  if (!marks || !br_list_size (marks))
    return;
  br__text_printf (t, "<li>%s ", label);
  for (size_t i = 0; i < br_list_size (marks); i++)
    {
      br__text_puts (t, i ? "; " : "");
      br__put_spoken (t, br_list_text (marks, i));
      put_error (t, br_list_text (errors, i));
    }
  br__text_puts (t, "</li>\n");
}

/* "2 side 21-3/4" by 4-9/16"".  */
static void
put_piece_list (br_text *t, const br_list *pieces)
{
  br__text_puts (t, "<li>Cut ");
  size_t number = 1;
  for (size_t i = 0, n; pieces && i < br_list_size (pieces); i += n, number++)
    {
      const br_record *piece = br_list_record (pieces, i);
      for (n = 1; i + n < br_list_size (pieces) && same_piece (piece, br_list_record (pieces, i + n)); n++)
        continue;
      br__text_printf (t, "%s%zu ", i ? "; " : "", n);
      br__put_escaped (t, br_record_text (piece, "part"));
      br__text_putc (t, ' ');
      br__put_spoken (t, br_record_text (piece, "mark"));
      if (*br_record_text (piece, "width_mark"))
        {
          br__text_puts (t, " by ");
          br__put_spoken (t, br_record_text (piece, "width_mark"));
        }
      br__text_printf (t, " (%zu)", number);
    }
  br__text_puts (t, "</li>\n");
}

/* ---- The plan ---- */

/* Pictures of more kinds of sticks than these are of no use to anyone.  */
#define MOST_PICTURES 24

/* Draws one stick and writes how many there are like it.  */
static void
put_stick (br__report *p, const br_record *stick, size_t times, const br_record *stock)
{
  br_text *t = &p->sections[BR__REPORT_PLAN].body;
  const br_list *across = br_record_list (stick, "pencil_across");
  int64_t number = br_record_count (stick, "number");
  br__text_puts (t, "<div class=\"keep\"><h3>");
  br__put_escaped (t, br_record_text (stick, "stock"));
  br__text_printf (t, " %lld", (long long) number);
  if (times > 1)
    br__text_printf (t, " to %lld, all alike", (long long) number + (long long) times - 1);
  br__text_puts (t, "</h3>\n");
  if (stock && p->sticks < MOST_PICTURES)
    put_picture (p, stick, stock);
  br__text_puts (t, "<ul>\n");
  put_piece_list (t, br_record_list (stick, "pieces"));
  put_marks (t, across ? "Pencil marks along, from one end:" : "Pencil marks from one end:",
             br_record_list (stick, "pencil"), br_record_list (stick, "pencil_error"));
  put_marks (t, "Pencil marks across, from one edge:", across, br_record_list (stick, "pencil_across_error"));
  if (strcmp (br_record_text (stick, "offcut"), "0") != 0)
    {
      br__text_puts (t, "<li>What is left: ");
      br__put_spoken (t, br_record_text (stick, "offcut_mark"));
      br__text_puts (t, "</li>\n");
    }
  br__text_puts (t, "</ul></div>\n");
}

static void
put_verdict (br_text *t, const br_record *row)
{
  long long used = br_record_count (row, "used"), needed = br_record_count (row, "needed");
  br__text_puts (t, "<li>");
  br__put_escaped (t, br_record_text (row, "stock"));
  br__text_printf (t, ": %lld used", used);
  if (needed > used)
    br__text_printf (t, ", %lld needed", needed);
  if (br_record_truth (row, "proven"))
    br__text_printf (t, "; it is proved that no plan with this stock%s needs fewer.</li>\n",
                     *br_record_text (row, "width") ? ", cut from edge to edge," : "");
  else
    br__text_printf (t, "; no plan needs fewer than %lld, and it is not proved that %lld is best.</li>\n",
                     (long long) br_record_count (row, "least"), needed);
}

void
br__report_plan (br__report *p, const br_record *r)
{
  const br_list *sticks = br_record_list (r, "sticks"), *stocks = br_record_list (r, "stocks");
  const br_list *unplaced = br_record_list (r, "unplaced");
  br_text *t = &p->sections[BR__REPORT_PLAN].body;
  if (unplaced && br_list_size (unplaced))
    br__text_puts (t, "<p><b>Not every part has a place:</b></p>\n");
  br__text_puts (t, "<ul>\n");
  for (size_t i = 0; unplaced && i < br_list_size (unplaced); i++)
    {
      const br_record *row = br_list_record (unplaced, i);
      br__text_printf (t, "<li>%lld ", (long long) br_record_count (row, "quantity"));
      br__put_escaped (t, br_record_text (row, "part"));
      br__text_puts (t, ": ");
      br__put_escaped (t, br_record_text (row, "why"));
      br__text_puts (t, "</li>\n");
    }
  for (size_t i = 0; stocks && i < br_list_size (stocks); i++)
    put_verdict (t, br_list_record (stocks, i));
  br__text_puts (t, "</ul>\n");
  for (size_t i = 0, n; sticks && i < br_list_size (sticks); i += n)
    {
      const br_record *stick = br_list_record (sticks, i);
      for (n = 1; i + n < br_list_size (sticks); n++)
        if (!br_record_truth (br_list_record (sticks, i + n), "same"))
          break;
      put_stick (p, stick, n, stock_row (stocks, br_record_text (stick, "stock")));
    }
}
