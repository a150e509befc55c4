/* SPDX-License-Identifier: LGPL-3.0-or-later
   expression.c - expressions on a line of their own, and the unit that an answer is asked in.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "measure/measure.h"
#include "sheet/sheet.h"

static br_status
show_one (br__run *run, const br__tree *tree)
{
  br__value v = BR__VALUE_ZERO;
  br_record *r = NULL;
  br_status status = br__value_of (&v, run, tree);

  if (status == BR_OK)
    {
      r = br__record_new ("value");
      br__put_expression (r, tree);
      if (run->error)
        run->error->status = BR_OK;
      status = br__put_answer (r, &v, run);
      if (status != BR_OK)
        br__fail_untold (run->error, status, tree->base, tree->length);
      if (status != BR_OK && run->error)
        run->error->offset = tree->base, run->error->length = tree->length;
    }
  if (status == BR_OK)
    {
      if (run->note_length)
        br__put_bytes (r, "note", run->note, run->note_length);
      status = br__emit (run, r);
    }
  else
    br__record_free (r);
  br__value_clear (&v);
  return status;
}

/* The unit that an answer is asked in: `45 mm in inches`, and `2-3/8 in mm`, whose first unit is the `in` before it.  */
static br_status
read_asked (br__run *run, const br__tree *tree)
{
  br__lexer *l = &run->lex, ahead = *l;
  const br__node *root = &tree->nodes[tree->count - 1];
  size_t end = 0, tail = tree->base + tree->length;
  int word = br__lex_is_word (l, "in") || br__lex_is_word (l, "to") || br__lex_is_word (l, "into") || br__lex_is_word (l, "as");
  int behind = root->number.unit && tail >= 2 && br__same_word (l->text + tail - 2, 2, "in");
  if (l->token.type != BR__NAME || (!word && !behind)
      || (word && (br__lex_next (&ahead, NULL) != BR_OK || ahead.token.type != BR__NAME)))
    return BR_OK;
  if (word && br__lex_is_word (&ahead, "a") && br__lex_next (&ahead, NULL) != BR_OK)
    return BR_OK;
  int fraction = br__lex_is_word (&ahead, "fraction") || br__lex_is_word (&ahead, "fractions");
  if (word && (fraction || br__lex_is_word (&ahead, "decimal") || br__lex_is_word (&ahead, "decimals")))
    {
      run->asked_form = fraction ? BR__AS_FRACTION : BR__AS_DECIMAL;
      *l = ahead;
      return br__lex_next (l, run->error);
    }
  const br_unit *unit = br__unit_scan (&end, l->text, l->end, ahead.token.offset);
  if (!unit || br__unit_is_box (unit) || br__skip_blanks (l->text, l->end, end) < l->end)
    return BR_OK;
  if (!word && strcmp (run->sheet->settings.unit->name, "in") != 0)
    {
      br_text a = BR_TEXT_ZERO, b = BR_TEXT_ZERO;
      size_t number = tail - 2;
      while (number > tree->base && br__blank_at (l->text + number - 1, 1))
        number--;
      br_status status = br__fail (run->error, BR_SYNTAX, tree->base, end - tree->base, "`in` can be inches here, or the word before %s",
                                   unit->name);
      br__text_printf (&a, "(%.*s) in %s", (int) tree->length, l->text + tree->base, unit->name);
      br__text_printf (&b, "%.*s %s", (int) (number - tree->base), l->text + tree->base, unit->name);
      br__hint_instead (run->error, l, tree->base, end - tree->base, br__text_string (&a), br__text_string (&b));
      br__text_clear (&a);
      br__text_clear (&b);
      return status;
    }
  run->asked_unit = unit;
  return br__lex_from (l, end, run->error);
}

br_status
br__each_of_list (br__run *run, br_status (*answer) (br__run *run, const br__tree *tree))
{
  br__tree *trees = NULL;
  size_t count = 0;
  br_status status = br__parse_list (&trees, &count, &run->lex, run->error);

  if (status == BR_OK && answer == show_one)
    status = read_asked (run, &trees[count - 1]);
  if (status == BR_OK)
    status = br__end_of_line (run);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    status = answer (run, &trees[i]);
  br__trees_free (trees, count);
  return status;
}

/* An expression or a list on a line of its own.  */
br_status
br__do_show (br__run *run)
{
  return br__each_of_list (run, show_one);
}

/* The value in full, as no answer for people writes it.  */
static br_status
emit_exact (br__run *run, const br__tree *tree)
{
  br__value v = BR__VALUE_ZERO;
  br_status status = br__value_of (&v, run, tree);
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("exact");
      br__put_expression (r, tree);
      status = br__put_value (r, &v, &run->sheet->settings);
      if (status == BR_OK)
        status = br__emit (run, r);
      else
        {
          br__record_free (r);
          br__fail_plain (run->error, status, tree->base, tree->length);
        }
    }
  br__value_clear (&v);
  return status;
}

br_status
br__do_exact (br__run *run)
{
  return br__each_of_list (run, emit_exact);
}
