/* SPDX-License-Identifier: LGPL-3.0-or-later
   given.c - `given NAME from LOW to HIGH by STEP`: a dimension of the sheet that is LOW there, and in each version
   of a worksheet another size, from which the teacher's own problems follow.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/worksheet.h"
#include "measure/measure.h"

#define MOST_SIZES 10000
/* Sizes that are tried before a version has none with an answer.  */
#define MOST_TRIES 200

typedef struct given
{
  br__entry *entry;
  br__value low, step;
  int64_t count;                /* of sizes */
  const br_unit *unit;          /* of LOW as it is written, or NULL */
  int64_t now;                  /* the size at hand */
} given;

static void
given_clear (given *g)
{
  br__value_clear (&g->low);
  br__value_clear (&g->step);
}

/* How many sizes there are from LOW to HIGH: at least one, and HIGH is the last.  */
static br_status
count_sizes (int64_t *count, const given *g, const br__value *high, size_t start, br__run *run)
{
  const br_number *a = br_real_rational (&g->low.real), *b = br_real_rational (&high->real), *step = br_real_rational (&g->step.real);
  br_number n = BR_NUMBER_ZERO;
  int64_t whole = -1, one = 1;
  size_t end = run->lex.token.offset;
  br_status status = BR_OK;
  if (!a || !b || !step || g->low.dimension != high->dimension || g->low.dimension != g->step.dimension)
    status = br__fail (run->error, BR_DOMAIN, start, end - start, "the three sizes must be fractions of one kind");
  else if (br_number_sign (step) <= 0)
    status = br__fail (run->error, BR_DOMAIN, start, end - start, "the step must be over 0");
  if (status == BR_OK)
    status = br_number_sub (&n, b, a);
  if (status == BR_OK)
    status = br_number_div (&n, &n, step);
  if (status == BR_OK && (!br_number_get_ratio (&whole, &one, &n) || one != 1 || whole < 0 || whole >= MOST_SIZES))
    status = br__fail (run->error, BR_DOMAIN, start, end - start,
                       "from the first size to the last there must be a whole number of steps, less than %d", MOST_SIZES);
  br_number_clear (&n);
  *count = whole + 1;
  return status;
}

/* `to HIGH by STEP`, where LOW has been read.  */
static br_status
read_range (given *g, br__run *run)
{
  br__value high = BR__VALUE_ZERO;
  br__tree tree = BR__TREE_ZERO;
  size_t start = run->lex.token.offset;
  br_status status = br__lex_is_word (&run->lex, "to") ? br__lex_next (&run->lex, run->error) : br__expected (run, "`to`");
  if (status == BR_OK)
    status = br__read_fixed (&high, &tree, run);
  br__tree_clear (&tree);
  if (status == BR_OK)
    status = br__lex_is_word (&run->lex, "by") ? br__lex_next (&run->lex, run->error) : br__expected (run, "`by`");
  if (status == BR_OK)
    status = br__read_fixed (&g->step, &tree, run);
  br__tree_clear (&tree);
  if (status == BR_OK)
    status = count_sizes (&g->count, g, &high, start, run);
  br__value_clear (&high);
  return status;
}

/* NAME from LOW to HIGH by STEP, behind the word `given`.  */
static br_status
read_given (given *g, br__token *name, br__run *run)
{
  br__tree tree = BR__TREE_ZERO;
  br_measure written = BR_MEASURE_ZERO;
  *name = run->lex.token;
  if (name->type != BR__NAME)
    return br__expected (run, "the name of a dimension");
  br_status status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__lex_is_word (&run->lex, "from") ? br__lex_next (&run->lex, run->error) : br__expected (run, "`from`");
  if (status == BR_OK)
    status = br__read_fixed (&g->low, &tree, run);
  if (status == BR_OK && br_measure_read (&written, tree.text, tree.length, NULL, NULL) == BR_OK)
    g->unit = written.unit;
  br_measure_clear (&written);
  br__tree_clear (&tree);
  return status == BR_OK ? read_range (g, run) : status;
}

/* What stands behind the formula has been read when the line began, but how far the size may be off.  */
static br_status
skip_range (br__run *run)
{
  br_status status = BR_OK;
  while (status == BR_OK && run->lex.token.type != BR__END && !br__lex_is_sign (&run->lex, BR__PLUS_MINUS))
    status = br__lex_next (&run->lex, run->error);
  return status;
}

br_status
br__do_given (br__run *run)
{
  given g = { .unit = NULL };
  br__lexer start = run->lex;
  br__token name;
  br_status status = read_given (&g, &name, run);
  given_clear (&g);
  if (status == BR_OK && !br__lex_is_sign (&run->lex, BR__PLUS_MINUS))
    status = br__end_of_line (run);
  run->lex = start;
  if (status == BR_OK)
    status = br__lex_next (&run->lex, run->error);
  if (status != BR_OK)
    return status;
  /* From here on it is an assignment with `from` for its sign.  */
  run->word = name;
  run->behind = skip_range;
  return br__assign (run);
}

/* The lines of the sheet that draw sizes.  */
static br_status
collect (given **all, size_t *count, br__run *run)
{
  given *rows = NULL;
  size_t room = 0, n = 0;
  br_status status = BR_OK;
  for (const br__line *line = run->sheet->first; line && status == BR_OK; line = line->next)
    {
      br__run part;
      br_error error;
      br__token name;
      given g = { .unit = NULL };
      memset (&error, 0, sizeof error);
      if (!line->entry || !br__open_line (&part, run, line, &error) || !br__lex_is_word (&part.lex, "given")
          || br__lex_next (&part.lex, &error) != BR_OK)
        continue;
      status = read_given (&g, &name, &part);
      g.entry = line->entry;
      if (status == BR_OK && !br__grow (&rows, &room, n + 1, sizeof *rows))
        status = BR_NO_MEMORY;
      if (status == BR_OK)
        rows[n++] = g;
      else
        given_clear (&g);
    }
  *all = rows;
  *count = n;
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, 0);
}

/* Gives the dimension of G size NOW, as a change of the statement at hand.  */
static br_status
set_size (const given *g, br__run *run)
{
  br__moves moves = BR__MOVES_ZERO;
  br__tree tree = BR__TREE_ZERO;
  br__lexer lex;
  br_text t = BR_TEXT_ZERO;
  br_number x = BR_NUMBER_ZERO;
  br__definition *d = NULL;
  br_error *told = run->error, ignored;
  br_style style = br__settings_style (&run->sheet->settings);
  style.feet = 0;
  if (g->unit)
    style.unit = br__unit_base (g->unit);
  br_status status = br_number_set_int (&x, g->now);
  if (status == BR_OK)
    status = br_number_mul (&x, &x, br_real_rational (&g->step.real));
  if (status == BR_OK)
    status = br_number_add (&x, &x, br_real_rational (&g->low.real));
  br__put_measure (&t, &x, g->low.dimension, &style);
  if (status == BR_OK)
    status = t.failed ? BR_NO_MEMORY : br__lex_start (&lex, br__text_string (&t), t.length, NULL);
  if (status == BR_OK)
    status = br__parse (&tree, &lex, NULL);
  if (status == BR_OK)
    status = br__definition_new (&d, run->sheet->graph, &tree, "", 0, NULL);
  /* A formula that has no value with this size is no mistake of the line at hand.  */
  run->error = &ignored;
  if (status == BR_OK)
    status = br__change_define (run, g->entry, &d, &moves);
  run->error = told;
  br__definition_free (d);
  br__moves_clear (&moves);
  br__tree_clear (&tree);
  br__text_clear (&t);
  br_number_clear (&x);
  return status;
}

/* The sheet is as it was before sizes were drawn.  */
static br_status
take_back (br__run *run)
{
  br__changes_revert (run);
  return run->sheet->pending_rollback.changes ? BR_NO_MEMORY : BR_OK;
}

/* The own problems of VERSION (from 1) into OWN[COUNT]: sizes are drawn until all of them have an answer.  */
static br_status
draw_version (br__own *own, size_t count, given *rows, size_t n, const br__worksheet *w, size_t version, br__run *run)
{
  br_status status = BR_OK;
  br__random r;
  /* Behind the streams of the problems, which count from 1.  */
  br__random_start (&r, (uint64_t) w->seed, version, (uint64_t) BR__MOST_PROBLEMS + 1);
  for (int tries = 0; tries < MOST_TRIES && status == BR_OK; tries++)
    {
      br__own *made = NULL;
      size_t got = 0;
      for (size_t i = 0; i < n && status == BR_OK; i++)
        {
          int64_t before = rows[i].now;
          rows[i].now = (int64_t) br__random_below (&r, (uint64_t) rows[i].count);
          if (rows[i].now == before && rows[i].count > 1)
            rows[i].now = (rows[i].now + 1) % rows[i].count;
          status = set_size (&rows[i], run);
        }
      if (status == BR_OK)
        status = br__own_collect (&made, &got, run);
      br_status back = take_back (run);
      status = back != BR_OK ? back : status == BR_NO_MEMORY ? status : BR_OK;
      if (status == BR_OK && made && got == count)
        {
          memcpy (own, made, count * sizeof *made);
          br__free (made);
          return BR_OK;
        }
      br__own_free (made, got);
    }
  if (status != BR_OK)
    return br__fail_plain (run->error, status, 0, 0);
  br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
            "with the sizes that `given` draws, own problems have no answer");
  br__hint (run->error, "an answer that is no fraction needs `to 1/16`");
  return BR_DOMAIN;
}

br_status
br__own_draw (br__worksheet *w, br__run *run)
{
  given *rows = NULL;
  size_t n = 0;
  br_status status = br__own_collect (&w->own, &w->own_count, run);
  w->own_sets = 1;
  if (status == BR_OK)
    status = collect (&rows, &n, run);
  for (size_t i = 0; i < n; i++)
    rows[i].now = -1;
  if (status == BR_OK && n && w->own_count)
    {
      br__own *all = br__alloc_zero ((size_t) w->versions * w->own_count, sizeof *all);
      if (!all)
        status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
      else
        {
          br__own_free (w->own, w->own_count);
          w->own = all;
          w->own_sets = (size_t) w->versions;
        }
      for (size_t v = 0; v < (size_t) w->versions && status == BR_OK; v++)
        status = draw_version (&all[v * w->own_count], w->own_count, rows, n, w, v + 1, run);
    }
  for (size_t i = 0; i < n; i++)
    given_clear (&rows[i]);
  br__free (rows);
  return status;
}
