/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution_line.c - the cautions at the end of a statement: about its changes or, if it changes nothing, about the gaps and
   curves in the formulas of its line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "formula/functions.h"
#include "sheet/caution.h"

/* 1 if the call of a function that has to do with gaps, or a distance of shapes, begins at the token at hand.  */
static int
begins_gap (const br__lexer *l)
{
  const char *word = l->text + l->token.offset;
  size_t length = l->token.length, end = l->token.offset + length;
  const br__function *f;
  if (l->token.type != BR__NAME || end >= l->end || l->text[end] != '(')
    return 0;
  f = br__function_find (word, length);
  return br__lex_is_word (l, "clear") || (f && f->gap);
}

/* 0 if the line has only free text or the name of a file, and so no formulas.  */
static int
has_formulas (const br__run *run)
{
  const br__statement *st = run->word.type == BR__NAME ? run->sheet->language->find (run->text + run->word.offset, run->word.length)
                                                       : NULL;
  return run->word.length && (!st || st->follow == BR__FOLLOW_VALUE || st->follow == BR__FOLLOW_WORD || st->follow == BR__FOLLOW_NAME);
}

static br_status
caution_line (br__run *run)
{
  br__lexer l;
  br_status status = BR_OK, lexed = br__lex_start (&l, run->text, run->end, NULL);
  l.known = run->lex.known;
  l.user = run->lex.user;
  while (status != BR_NO_MEMORY && status != BR_STOPPED && lexed == BR_OK && l.token.type != BR__END)
    {
      br__lexer behind = l;
      br__tree t = BR__TREE_ZERO;
      br_status parsed = begins_gap (&l) ? br__parse (&t, &behind, NULL) : BR_SYNTAX;
      if (parsed == BR_NO_MEMORY)
        status = parsed;
      else if (parsed == BR_OK)
        {
          br__run own = *run;
          own.error = NULL;
          status = br__caution_tree (&own, &t);
          run->echoes = own.echoes;
          l = behind;
        }
      else
        lexed = br__lex_next (&l, NULL);
      br__tree_clear (&t);
    }
  status = status == BR_OK ? lexed : status;
  /* A formula without a value is skipped: it may use the size that `find` looks for.  */
  return status == BR_NO_MEMORY || status == BR_STOPPED ? br__fail_plain (run->error, status, 0, 0) : BR_OK;
}

br_status
br__end_cautions (br__run *run)
{
  static const br__moves none = BR__MOVES_ZERO;
  if (run->changes.count)
    return run->cautioned ? BR_OK : br__tell_cautions (run, &none, &run->changes);
  return has_formulas (run) ? caution_line (run) : BR_OK;
}
