/* SPDX-License-Identifier: LGPL-3.0-or-later
   spacing.c - the statements divide and space: every mark from one end, each with its own error.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "statement/statements.h"
#include "wood/cuts.h"
#include "shop/spacing.h"

#define MOST_MARKS 10000

/* A length and its place in the line.  */
typedef struct given
{
  br__value v;
  size_t offset, length;
  int known;
} given;

static br_status
read_length (br__run *run, given *g)
{
  br__tree tree = BR__TREE_ZERO;
  br_status status = br__parse (&tree, &run->lex, run->error);
  if (status == BR_OK)
    status = br__value_of_length (&g->v, run, &tree);
  g->offset = tree.base;
  g->length = tree.length;
  g->known = status == BR_OK;
  br__tree_clear (&tree);
  return br__lex_fail (&run->lex, status);
}

/* One WORD and the length behind it, at most once.  */
static br_status
read_clause (br__run *run, const char *word, given *g, int *taken)
{
  *taken = !g->known && br__take_word (run, word);
  return *taken ? read_length (run, g) : run->lex.status;
}

static br_status
put_exact_or_decimal (br_text *t, const br__value *v, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  br_status status = br__in_sheet_unit (&z, v, s);
  if (status == BR_OK && br_real_rational (&z))
    br__put_number (t, br_real_rational (&z));
  else if (status == BR_OK)
    status = br__put_real_decimal (t, NULL, &z, 12, s->bits);
  br_real_clear (&z);
  return status;
}

static br_status
put_value (br_record *r, const br__value *v, const br__settings *s)
{
  br_status status = br__put_value (r, v, s);
  return status == BR_OK ? br__put_on_ruler (r, v, s) : status;
}

/* The fields of what is between the marks: a piece or a gap.  */
static br_status
put_piece (br_record *r, const br__value *v, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = br__in_sheet_unit (&z, v, s);
  br__put_exact (r, "piece", br_real_rational (&z));
  br_real_clear (&z);
  if (status == BR_OK)
    status = br__shown (&t, v, s);
  br__put_from (r, "piece_shown", &t);
  if (status == BR_OK)
    status = br__put_on_ruler (r, v, s);
  return status;
}

static br_status
put_length (br_record *r, const char *key, const given *g, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  br_status status = br__shown (&t, &g->v, s);
  br__put_from (r, key, &t);
  return status;
}

/* ---- divide L into N [kerf K] ---- */

typedef struct division
{
  br__run *run;
  given length, kerf, width, ends;
  int64_t count;
  br__value piece;              /* or the gap */
} division;

static void
division_clear (division *d)
{
  given *all[] = { &d->length, &d->kerf, &d->width, &d->ends };
  for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
    br__value_clear (&all[i]->v);
  br__value_clear (&d->piece);
}

typedef br_status mark_at (br_real *mark, const division *d, int64_t index);

static br_status
cut_mark (br_real *mark, const division *d, int64_t index)
{
  return br__divide_mark (mark, &d->piece.real, &d->kerf.v.real, index);
}

static br_status
thing_mark (br_real *mark, const division *d, int64_t index)
{
  return br__space_mark (mark, &d->piece.real, &d->width.v.real, d->ends.known ? &d->ends.v.real : NULL,
                         index);
}

/* The list of exact places, then the rows with marks and errors.  */
static br_status
put_marks (br_record *r, const division *d, int64_t count, mark_at *at)
{
  const br__settings *s = &d->run->sheet->settings;
  br_status status = BR_OK;
  for (int rows = 0; rows < 2 && status == BR_OK; rows++)
    {
      br_list *list = br__put_list (r, rows ? "rows" : "marks");
      for (int64_t i = 0; i < count && status == BR_OK; i++)
        {
          br__value v = BR__VALUE_ZERO;
          br_text t = BR_TEXT_ZERO;
          v.dimension = BR_LENGTH;
          status = at (&v.real, d, i);
          if (status == BR_OK && rows)
            status = put_value (br__list_record (list), &v, s);
          else if (status == BR_OK)
            {
              status = put_exact_or_decimal (&t, &v, s);
              br__list_from (list, &t);
            }
          br__value_clear (&v);
          if (br__stopped (d->run))
            return br__fail_stopped (d->run);
        }
    }
  return status;
}

static br_status
finish (division *d, br_record *r, br_status status)
{
  if (status == BR_OK && d->run->note_length)
    br__put_bytes (r, "note", d->run->note, d->run->note_length);
  if (status == BR_OK)
    return br__emit (d->run, r);
  br__record_free (r);
  /* The stop has been reported already.  */
  return br__fail_untold (d->run->error, status, 0, d->run->end);
}

static br_status
divide (division *d)
{
  const br__settings *s = &d->run->sheet->settings;
  br_record *r = NULL;
  d->piece.dimension = BR_LENGTH;
  br_status status = br__divide (&d->piece.real, &d->length.v.real, d->count, &d->kerf.v.real, s->bits);
  if (status == BR_DOMAIN)
    return br__fail (d->run->error, status, d->length.offset, d->length.length,
                     "the kerfs leave nothing for the pieces");
  if (status == BR_OK)
    {
      r = br__record_new ("division");
      status = put_piece (r, &d->piece, s);
    }
  br__put_count (r, "pieces", d->count);
  br__put_text (r, "of", "cuts");
  if (status == BR_OK)
    status = put_length (r, "kerf", &d->kerf, s);
  if (status == BR_OK)
    status = put_marks (r, d, d->count - 1, cut_mark);
  return finish (d, r, status);
}

br_status
br__do_divide (br__run *run)
{
  division d = { .run = run };
  int taken;
  read_length (run, &d.length);
  br__need_word (run, "into", "`into` and how many pieces");
  br__read_count (run, &d.count, 1, MOST_MARKS, "the number of pieces");
  br_status status = read_clause (run, "kerf", &d.kerf, &taken);
  if (status == BR_OK && !d.kerf.known)
    {
      d.kerf.v.dimension = BR_LENGTH;
      status = br_real_set_number (&d.kerf.v.real, &run->sheet->settings.kerf);
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = divide (&d);
  division_clear (&d);
  return status;
}

/* ---- space N across L [width W] [ends E] ---- */

static br_status
space (division *d)
{
  const br__settings *s = &d->run->sheet->settings;
  br_record *r = NULL;
  d->piece.dimension = BR_LENGTH;
  br_status status = br__space (&d->piece.real, &d->length.v.real, d->count, &d->width.v.real,
                                d->ends.known ? &d->ends.v.real : NULL, s->bits);
  if (status == BR_DOMAIN && d->ends.known && d->count == 1)
    return br__fail (d->run->error, status, d->ends.offset, d->ends.length,
                     "one alone does not fill what is between the ends");
  if (status == BR_DOMAIN)
    return br__fail (d->run->error, status, d->length.offset, d->length.length,
                     "there is not so much room");
  if (status == BR_OK)
    {
      r = br__record_new ("division");
      status = put_piece (r, &d->piece, s);
    }
  br__put_count (r, "pieces", d->count);
  br__put_text (r, "of", "gaps");
  if (status == BR_OK)
    status = put_length (r, "width", &d->width, s);
  if (status == BR_OK && d->ends.known)
    status = put_length (r, "ends", &d->ends, s);
  if (status == BR_OK)
    status = put_marks (r, d, d->count, thing_mark);
  return finish (d, r, status);
}

br_status
br__do_space (br__run *run)
{
  division d = { .run = run };
  int width = 1, ends = 1;
  br__read_count (run, &d.count, 1, MOST_MARKS, "how many there are");
  d.width.v.dimension = BR_LENGTH;
  br__need_word (run, "across", "`across` and the length");
  read_length (run, &d.length);
  while (br__lex_more (&run->lex) && (width || ends))
    {
      read_clause (run, "width", &d.width, &width);
      read_clause (run, "ends", &d.ends, &ends);
    }
  br_status status = br__lex_more (&run->lex) ? br__expected (run, "`width` or `ends`") : run->lex.status;
  if (status == BR_OK)
    status = space (&d);
  division_clear (&d);
  return status;
}
