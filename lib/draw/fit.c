/* SPDX-License-Identifier: LGPL-3.0-or-later
   fit.c - the statement fit: the largest standard scale at which something goes on the paper.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/draw.h"
#include "exact/status.h"
#include "measure/measure.h"
#include "shop/paper.h"
#include "wood/wood.h"

/* What is to be drawn, and the room for it.  */
typedef struct fit
{
  br__run *run;
  br__value size[2];            /* width, height */
  br_number room[2];            /* inside the margins of the sheet as it lies */
  br_number side[2];            /* the same of the sheet upright: short, long */
  const br__scale_row *scale;
  int fits, landscape;
} fit;

static void
fit_clear (fit *f)
{
  for (int i = 0; i < 2; i++)
    {
      br__value_clear (&f->size[i]);
      br_number_clear (&f->room[i]);
      br_number_clear (&f->side[i]);
    }
}

/* A length over zero from the value of a formula in PLACE.  */
static br_status
check_size (br__run *run, br__value *v, size_t offset, size_t length)
{
  const br__settings *s = &run->sheet->settings;
  int sign = 0;
  br_status status = v->dimension == BR_PLAIN ? br__to_length (v, s) : BR_OK;
  if (status == BR_OK && v->dimension != BR_LENGTH)
    return br__fail (run->error, BR_DOMAIN, offset, length, "a size is a length, not %s",
                     br__dimension_words (v->dimension));
  if (status == BR_OK)
    status = br_real_sign (&sign, &v->real, s->bits);
  if (status == BR_OK && sign <= 0)
    return br__fail (run->error, BR_DOMAIN, offset, length, "a size must be over zero");
  return status == BR_OK ? BR_OK : br__fail_value (run->error, status, offset, length, v, s);
}

static br_status
read_size (fit *f, int i)
{
  br__tree tree = BR__TREE_ZERO;
  br_status status = br__parse_size (&tree, &f->run->lex, f->run->error);
  if (status == BR_OK)
    status = br__value_of (&f->size[i], f->run, &tree);
  if (status == BR_OK)
    status = check_size (f->run, &f->size[i], tree.base, tree.length);
  br__tree_clear (&tree);
  return status;
}

/* The sheet's own sizes.  */
static br_status
find_overall (fit *f)
{
  static const char *const names[] = { "overall_length", "overall_height" };
  br__run *run = f->run;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      br__entry *e = br__graph_find (run->sheet->graph, names[i], strlen (names[i]));
      const br__value *v = e ? br__entry_value (e) : NULL;
      if (!v)
        {
          br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                    "`%s` has no value", names[i]);
          br__hint (run->error, "set overall_length and overall_height, or write fit 22-3/8 x 14");
          return BR_DOMAIN;
        }
      status = br__value_set (&f->size[i], v);
      if (status == BR_OK)
        status = check_size (run, &f->size[i], run->word.offset, run->word.length);
    }
  return status;
}

/* The sheet upright inside its margins.  */
static br_status
find_room (fit *f)
{
  const br__settings *s = &f->run->sheet->settings;
  const br__paper *p = br__settings_paper (s);
  br_number margin = BR_NUMBER_ZERO;
  const br_unit *unit;
  br_status status = br__settings_margin (&margin, &unit, s);
  if (status == BR_OK)
    status = br_number_set_ratio (&f->side[0], p->width_num, p->width_den);
  if (status == BR_OK)
    status = br_number_set_ratio (&f->side[1], p->height_num, p->height_den);
  for (int i = 0; i < 4 && status == BR_OK; i++)
    status = br_number_sub (&f->side[i / 2], &f->side[i / 2], &margin);
  br_number_clear (&margin);
  if (status == BR_OK && br_number_sign (&f->side[0]) <= 0)
    return br__fail (f->run->error, BR_DOMAIN, f->run->word.offset, f->run->word.length,
                     "the margins leave nothing of the paper");
  return status;
}

static br_status
lay (fit *f, int landscape)
{
  br_status status = br_number_set (&f->room[0], &f->side[landscape]);
  f->landscape = landscape;
  return status == BR_OK ? br_number_set (&f->room[1], &f->side[!landscape]) : status;
}

/* The largest scale that fits, the sheet upright or else on its side; the smallest where none does.  */
static br_status
find_scale (fit *f)
{
  const br__settings *s = &f->run->sheet->settings;
  const br__scale_row *row;
  br_status status = BR_OK;
  for (size_t i = 0; !f->fits && status == BR_OK && (row = br__scale_at (i, br__settings_are_inches (s))) != NULL; i++)
    for (int landscape = 0; landscape < 2 && !f->fits && status == BR_OK; landscape++)
      {
        f->scale = row;
        status = lay (f, landscape);
        if (status == BR_OK)
          status = br__scale_fits (&f->fits, row, &f->size[0].real, &f->size[1].real, &f->room[0],
                                   &f->room[1], s->bits);
      }
  /* Which of the two is not certain is seen by its question.  */
  const br__value *asked = &f->size[br_real_question (&f->size[0].real, NULL) == NULL];
  return status == BR_OK ? BR_OK : br__fail_value (f->run->error, status, f->run->word.offset, f->run->word.length, asked, s);
}

/* A drawn size as one would measure it: 5-19/32", 12.5 mm; a part of an inch that no rule has, about so.  */
static br_status
put_drawn_size (br_text *t, const br__value *drawn, const br__settings *s)
{
  const br_number *x = br_real_rational (&drawn->real);
  if (!x || !br__settings_are_inches (s) || br__is_shop_fraction (x, BR__FINEST_RULE))
    return br__shown (t, drawn, s);
  br__text_puts (t, "about ");
  return br__put_ruler_mark (t, x, BR_NEAREST, s);
}

/* Squares as they are counted: 11, 22-3/8; a part that no one can count, as about so many.  */
static void
put_squares (br_text *t, const br_number *count)
{
  if (br__is_shop_fraction (count, BR__FINEST_RULE))
    br__put_mixed (t, count);
  else
    {
      br__text_puts (t, "about ");
      br__put_decimal (t, count, 3);
    }
}

/* The fields of one side as drawn.  */
static br_status
put_drawn (br_record *r, fit *f, int i)
{
  static const struct { const char *exact, *shown, *squares, *squares_shown, *over, *over_shown; } keys[] =
  {
    { "drawn_width", "drawn_width_shown", "squares_width", "squares_width_shown", "full_over_width",
      "full_over_width_shown" },
    { "drawn_height", "drawn_height_shown", "squares_height", "squares_height_shown", "full_over_height",
      "full_over_height_shown" }
  };
  const br__settings *s = &f->run->sheet->settings;
  br__value drawn = BR__VALUE_ZERO, over = BR__VALUE_ZERO;
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  int sign = 0;
  br_status status = br_number_set_ratio (&drawn.real.rational, f->scale->drawn, f->scale->full);
  drawn.dimension = over.dimension = BR_LENGTH;
  if (status == BR_OK)
    status = br_real_mul (&drawn.real, &drawn.real, &f->size[i].real);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &drawn, s);
  if (status == BR_OK)
    {
      br__put_exact (r, keys[i].exact, br_real_rational (&z));
      status = put_drawn_size (&t, &drawn, s);
      br__put_from (r, keys[i].shown, &t);
    }
  /* How many squares of the sketch paper it takes.  */
  if (status == BR_OK && br_number_sign (&s->grid) > 0 && br_real_rational (&drawn.real))
    {
      status = br_number_div (&z.rational, &drawn.real.rational, &s->grid);
      br__put_exact (r, keys[i].squares, &z.rational);
      put_squares (&t, &z.rational);
      br__put_from (r, keys[i].squares_shown, &t);
    }
  if (status == BR_OK)
    status = br_real_set_number (&over.real, &f->room[i]);
  if (status == BR_OK)
    status = br_real_sub (&over.real, &f->size[i].real, &over.real);
  if (status == BR_OK)
    status = br_real_sign (&sign, &over.real, s->bits);
  if (status == BR_OK && sign < 0)
    br_real_clear (&over.real);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &over, s);
  if (status == BR_OK)
    {
      br__put_exact (r, keys[i].over, br_real_rational (&z));
      /* How much too big is a thing to know roughly: a mark will do.  */
      if (br_real_rational (&over.real))
        status = br__put_ruler_mark (&t, br_real_rational (&over.real), BR_UP, s);
      else
        status = br__shown (&t, &over, s);
      br__put_from (r, keys[i].over_shown, &t);
    }
  br__text_clear (&t);
  br_real_clear (&z);
  br__value_clear (&drawn);
  br__value_clear (&over);
  return status;
}

static br_status
emit_fit (fit *f)
{
  const br__settings *s = &f->run->sheet->settings;
  const br__paper *p = br__settings_paper (s);
  br_record *r = br__record_new ("fit");
  br_number ratio = BR_NUMBER_ZERO, margin = BR_NUMBER_ZERO;
  const br_unit *unit = NULL;
  br_text t = BR_TEXT_ZERO;
  br_status status = br_number_set_ratio (&ratio, f->scale->drawn, f->scale->full);
  br__put_scale (&t, &ratio);
  br__put_from (r, "scale", &t);
  if (f->scale->words)
    br__put_text (r, "scale_words", f->scale->words);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = put_drawn (r, f, i);
  br__put_truth (r, "fits", f->fits);
  br__put_text (r, "paper", p->shown);
  br__put_text (r, "lies", f->landscape ? "on its side" : "upright");
  if (status == BR_OK)
    status = br__settings_margin (&margin, &unit, s);
  if (status == BR_OK)
    {
      br_style style = { unit, 0 };
      br__put_measure (&t, &margin, BR_LENGTH, &style);
    }
  br__put_from (r, "margin", &t);
  br__put_text (r, "source", f->scale->words ? "customary inch scale" : "ISO 5455");
  br__put_text (r, "paper_source", p->source);
  br_number_clear (&ratio);
  br_number_clear (&margin);
  return br__emit_or_free (f->run, r, status);
}

br_status
br__do_fit (br__run *run)
{
  fit f = { .run = run };
  br_status status = BR_OK;
  if (run->lex.token.type == BR__END)
    status = find_overall (&f);
  else
    {
      status = read_size (&f, 0);
      if (status == BR_OK)
        status = br__skip_separator (run);
      if (status == BR_OK)
        status = read_size (&f, 1);
      if (status == BR_OK)
        status = br__end_of_line (run);
    }
  if (status == BR_OK)
    status = find_room (&f);
  if (status == BR_OK)
    status = find_scale (&f);
  if (status == BR_OK)
    {
      status = emit_fit (&f);
      if (status != BR_OK)
        br__fail_plain (run->error, status, 0, run->end);
    }
  fit_clear (&f);
  return status;
}
