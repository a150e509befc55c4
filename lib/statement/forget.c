/* SPDX-License-Identifier: LGPL-3.0-or-later
   forget.c - the statement `forget`: each room takes its own things out of the sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shape/shape.h"
#include "statement/statements.h"
#include "wood/wood.h"

enum { DIMENSION, SHAPE, STOCK, PART, KINDS };
static const char *const kinds[KINDS] = { "dimension", "shape", "stock", "part" };

/* How many things have the name in the current token; IS gets of which kinds.  */
static int
things_called (int is[KINDS], const br__run *run)
{
  const br_sheet *sheet = run->sheet;
  const br__token *t = &run->lex.token;
  const char *name = run->text + t->offset;
  const br__entry *e = br__graph_find (sheet->graph, name, t->length);
  is[DIMENSION] = e && br__entry_definition (e);
  is[SHAPE] = br__shape_find (sheet, name, t->length) != NULL;
  is[STOCK] = br__wood_find (sheet, 1, name, t->length) != NULL;
  is[PART] = br__wood_find (sheet, 0, name, t->length) != NULL;
  return is[DIMENSION] + is[SHAPE] + is[STOCK] + is[PART];
}

/* Forgets the thing with the name in the current token; if there are several, the error says how to choose one.  */
static br_status
forget_named (br__run *run)
{
  const br__token t = run->lex.token;
  const char *name = run->text + t.offset;
  int is[KINDS], first = 0, count = things_called (is, run), second;
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

/* 1 if the current token is the word KIND and a name follows it.  */
static int
is_kind (br__run *run, const char *kind)
{
  br__lexer ahead = run->lex;
  if (!br__lex_is_word (&run->lex, kind) || br__lex_next (&ahead, NULL) != BR_OK || ahead.token.type == BR__END
      || br__lex_is_sign (&ahead, ','))
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
  if (is_kind (run, "check"))
    return br__check_forget (run);
  return is_kind (run, "dimension") ? br__forget_dimension (run) : forget_named (run);
}

/* Fails if the rest of the line has an error, so that nothing is reported as forgotten that is not.  */
static br_status
look_ahead (br__run *run)
{
  br__run ahead = *run;
  br_status status = BR_OK;
  int is[KINDS], of_kind;
  do
    {
      br__run here = ahead;
      /* A rule is looked up when it is taken out.  */
      if (is_kind (&here, "check"))
        return BR_OK;
      of_kind = is_kind (&ahead, "part") || is_kind (&ahead, "stock") || is_kind (&ahead, "shape") || is_kind (&ahead, "dimension");
      if (ahead.lex.token.type != BR__NAME || (!of_kind && things_called (is, &ahead) == 0))
        return forget_next (&here);
      status = br__lex_next (&ahead.lex, run->error);
    }
  while (status == BR_OK && br__lex_is_sign (&ahead.lex, ',') && (status = br__lex_next (&ahead.lex, run->error)) == BR_OK);
  return status == BR_OK ? br__end_of_line (&ahead) : status;
}

br_status
br__do_forget (br__run *run)
{
  br_status status = look_ahead (run);
  run->forgetting = 1;
  if (status == BR_OK)
    status = forget_next (run);
  while (status == BR_OK && br__lex_is_sign (&run->lex, ','))
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = forget_next (run);
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  /* A line of another sheet comes back with it: what took that out stays.  */
  run->steps = status == BR_OK && !run->kept;
  return status;
}
