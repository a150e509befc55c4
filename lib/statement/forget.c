/* SPDX-License-Identifier: LGPL-3.0-or-later
   forget.c - the statement `forget`: each room takes its own things out of the sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shape/shape.h"
#include "statement/statements.h"
#include "wood/wood.h"

/* What is called by the name at hand; where that is more than one thing, the way to say which is told.  */
static br_status
forget_named (br__run *run)
{
  static const char *const kinds[] = { "dimension", "shape", "stock", "part" };
  const br_sheet *sheet = run->sheet;
  const br__token t = run->lex.token;
  const char *name = run->text + t.offset;
  if (t.type != BR__NAME)
    return br__forget_dimension (run);
  const br__entry *e = br__graph_find (sheet->graph, name, t.length);
  int is[] = { e && br__entry_definition (e), br__shape_find (sheet, name, t.length) != NULL,
               br__wood_find (sheet, 1, name, t.length) != NULL, br__wood_find (sheet, 0, name, t.length) != NULL };
  int first = 0, count = is[0] + is[1] + is[2] + is[3], second;
  while (first < 3 && !is[first])
    first++;
  if (count < 2)
    return first == 0 || count == 0 ? br__forget_dimension (run) : first == 1 ? br__shape_forget (run) : br__wood_forget (run, first == 2);
  for (second = first + 1; second < 3 && !is[second]; )
    second++;
  br__fail (run->error, BR_DOMAIN, t.offset, t.length, "`%.*s` is a %s and a %s", br__clip (name, t.length, 40), name,
            kinds[first], kinds[second]);
  br__hint (run->error, "write `forget %s %.*s` or `forget %s %.*s`", kinds[first], br__clip (name, t.length, 40), name,
            kinds[second], br__clip (name, t.length, 40), name);
  return BR_DOMAIN;
}

/* The word at hand says of what kind the name behind it is.  */
static int
is_kind (br__run *run, const char *kind)
{
  br__lexer ahead = run->lex;
  if (!br__lex_is_word (&run->lex, kind) || br__lex_next (&ahead, NULL) != BR_OK || ahead.token.type == BR__END
      || ahead.token.type == BR__SIGN)
    return 0;
  run->lex = ahead;
  return 1;
}

static br_status
forget_next (br__run *run)
{
  if (is_kind (run, "part"))
    return br__wood_forget (run, 0);
  if (is_kind (run, "stock"))
    return br__wood_forget (run, 1);
  if (is_kind (run, "shape"))
    return br__shape_forget (run);
  return is_kind (run, "dimension") ? br__forget_dimension (run) : forget_named (run);
}

br_status
br__do_forget (br__run *run)
{
  br_status status = forget_next (run);
  while (status == BR_OK && br__lex_is_sign (&run->lex, ','))
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = forget_next (run);
    }
  return status == BR_OK ? br__end_of_line (run) : status;
}
