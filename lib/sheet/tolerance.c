/* SPDX-License-Identifier: LGPL-3.0-or-later
   tolerance.c - the statement `tolerance`, and the tolerance behind a size.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/words.h"
#include "measure/measure.h"
#include "sheet/caution.h"
#include "sheet/tolerance.h"

br_status
br__read_tolerance (br__run *run, br__value *value, char **text)
{
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_status status = br__read_fixed (&v, &tree, run);
  if (status == BR_OK)
    {
      const br_number *q = br_real_rational (&v.real);
      if (!q || br_number_sign (q) < 0 || (v.dimension != BR_PLAIN && v.dimension != BR_LENGTH))
        status = br__fail (run->error, BR_DOMAIN, tree.base, tree.length,
                           "a tolerance is a length or a plain number of zero or more");
      else if (br__is_per_cent (tree.text, tree.length))
        {
          status = br__fail (run->error, BR_DOMAIN, tree.base, tree.length,
                             "a tolerance is a length or a number, no share of the size");
          br__hint (run->error, "help tolerance");
        }
      else if (tree.count > 1 || br__unit_is_box (tree.nodes[0].number.unit))
        {
          /* The value of a formula could depend on a setting that comes after the size in the sheet.  */
          status = br__fail (run->error, BR_DOMAIN, tree.base, tree.length,
                             "a tolerance is a single length or number");
          br__hint_number (run, &v);
        }
    }
  if (status == BR_OK)
    {
      br__value_clear (value);
      *value = v;
      *text = tree.text;
      tree.text = NULL;
    }
  else
    br__value_clear (&v);
  br__tree_clear (&tree);
  return status;
}

/* The names behind `on`, each given a copy of what was read.  */
static br_status
give_one (br__run *run, const br__value *value, const char *text)
{
  const br__token *token = &run->lex.token;
  if (token->type != BR__NAME)
    return br__expected (run, "the name of a dimension");
  br__entry *e = br__graph_get (run->sheet->graph, run->text + token->offset, token->length);
  br__tolerance *made = e ? br__alloc_zero (1, sizeof *made) : NULL;
  br_status status = made ? br__value_set (&made->value, value) : BR_NO_MEMORY;
  if (status == BR_OK && !(made->text = br__strndup (text, strlen (text))))
    status = BR_NO_MEMORY;
  br__change change = { .kind = BR__CHANGE_TOLERANCE, .entry = e, .tolerance = made };
  if (status == BR_OK)
    status = br__change_add (run, &change);
  if (status != BR_OK)
    {
      br__tolerance_free (made);
      return br__fail_plain (run->error, status, token->offset, token->length);
    }
  br__tolerance_swap (run->sheet->graph, &run->changes.rows[run->changes.count - 1]);
  return br__lex_next (&run->lex, run->error);
}

static br_status
emit_tolerance (br__run *run, br__entry *e)
{
  const br__settings *s = &run->sheet->settings;
  const char *text = "";
  const br__value *given = br__tolerance_given (e, &text), *v = br__entry_value (e);
  br_number half = BR_NUMBER_ZERO;
  br__value band = BR__VALUE_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_real z = BR_REAL_ZERO;
  const br__definition *d = br__entry_definition (e);
  int own = d && d->tolerance_text;
  br_status status = v ? br__tolerance_half (&half, e, s, NULL) : BR_DOMAIN;
  band.dimension = v ? v->dimension : BR_PLAIN;
  if (status == BR_OK)
    status = br_real_set_number (&band.real, &half);
  else if (status == BR_DOMAIN)
    /* It has no size yet, or one of another kind: as it was given.  */
    status = br__value_set (&band, given);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &band, s);
  if (status == BR_OK)
    status = br__shown (&t, &band, s);
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("tolerance");
      br__put_text (r, "name", br__entry_name (e));
      br__put_exact (r, "exact", br_real_rational (&z));
      br__put_from (r, "shown", &t);
      br__put_text (r, "typed", text);
      br__put_truth (r, "known", v != NULL);
      br__put_truth (r, "own", own);
      status = br__emit (run, r);
    }
  else
    br__fail_plain (run->error, status, run->word.offset, run->word.length);
  br_number_clear (&half);
  br__value_clear (&band);
  br_real_clear (&z);
  br__text_clear (&t);
  return status;
}

static int
is_listed (br__entry *e)
{
  return br__line_of_entry (e) && br__entry_definition (e);
}

static int
by_name (const void *x, const void *y)
{
  return strcmp (br__entry_name (*(br__entry *const *) x), br__entry_name (*(br__entry *const *) y));
}

/* Names without a size, by the alphabet: when they were first named, a wrong line may have had a say in.  */
static br_status
show_sizeless (size_t *count, br__run *run)
{
  br__entry **rows = NULL;
  size_t found = 0, room = 0;
  br_status status = BR_OK;
  for (br__entry *e = br__graph_first (run->sheet->graph); e && status == BR_OK; e = br__entry_next (e))
    if (!is_listed (e) && br__tolerance_given (e, NULL))
      {
        if (br__grow (&rows, &room, found + 1, sizeof (br__entry *)))
          rows[found++] = e;
        else
          status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
      }
  if (found)
    qsort (rows, found, sizeof (br__entry *), by_name);
  for (size_t i = 0; i < found && status == BR_OK; i++)
    status = emit_tolerance (run, rows[i]);
  *count += found;
  br__free (rows);
  return status;
}

/* Sizes in the order of their lines, as `list` has them.  */
static br_status
show_all (br__run *run)
{
  br_status status = BR_OK;
  size_t count = 0;
  for (br__line *l = run->sheet->first; l && status == BR_OK; l = l->next)
    if (l->entry && br__line_of_entry (l->entry) == l && is_listed (l->entry) && br__tolerance_given (l->entry, NULL))
      {
        status = emit_tolerance (run, l->entry);
        count++;
      }
  if (status == BR_OK)
    status = show_sizeless (&count, run);
  if (status == BR_OK && !count)
    status = br__remark (run, "no tolerance has been given yet: write `tolerance 1/32 on NAME`");
  return status;
}

/* The word `on` and the names.  */
static br_status
read_names (br__run *run, const br__value *value, const char *text)
{
  br_status status = br__lex_is_word (&run->lex, "on") ? BR_OK : br__expected (run, "the word `on`");
  do
    {
      if (status == BR_OK)
        status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = give_one (run, value, text);
    }
  while (status == BR_OK && br__lex_is_sign (&run->lex, ','));
  return status == BR_OK ? br__end_of_line (run) : status;
}

br_status
br__do_tolerance (br__run *run)
{
  const br__moves none = BR__MOVES_ZERO;
  br__value value = BR__VALUE_ZERO;
  char *text = NULL;
  if (run->lex.token.type == BR__END)
    return show_all (run);
  br_status status = br__read_tolerance (run, &value, &text);
  if (status == BR_OK)
    status = read_names (run, &value, text);
  /* Answer the tolerances that were set, in the order of the line.  */
  for (size_t i = 0; i < run->changes.count && status == BR_OK; i++)
    status = emit_tolerance (run, run->changes.rows[i].entry);
  if (status == BR_OK)
    status = br__tell_cautions (run, &none, &run->changes);
  if (status == BR_OK)
    status = br__tell_worst_margins (run, &none, &run->changes);
  run->kept = status == BR_OK;
  br__value_clear (&value);
  br__free (text);
  return status;
}
