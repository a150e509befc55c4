/* SPDX-License-Identifier: LGPL-3.0-or-later
   turn.c - the statement turn: runs the line of a shape again, with the angle added.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/shape.h"

/* Each turn adds to the line, which is read again by the next.  */
#define LONGEST_LINE 4096

/* The line of S with ANGLE, LENGTH bytes, behind `turned`: more than it was turned before.  */
static br_status
put_line (br_text *t, const br__shape *s, const char *angle, size_t length)
{
  const char *text = s->text;
  size_t end = strlen (text);
  br__lexer l;
  if (end + length > LONGEST_LINE)
    return BR_TOO_BIG;
  br_status status = br__lex_start (&l, text, end, NULL);
  for (; status == BR_OK && l.token.type != BR__END; status = br__lex_next (&l, NULL))
    if (br__lex_is_word (&l, "turned"))
      break;
  int before = status == BR_OK && l.token.type != BR__END;
  if (before)
    {
      br__tree old = BR__TREE_ZERO;
      status = br__lex_next (&l, NULL);
      if (status == BR_OK)
        status = br__parse_size (&old, &l, NULL);
      size_t behind = old.base + old.length;
      br__text_put (t, text, behind);
      br__text_printf (t, " + (%.*s)", (int) length, angle);
      br__text_put (t, text + behind, end - behind);
      br__tree_clear (&old);
    }
  else
    {
      br__text_put (t, text, end);
      br__text_printf (t, " turned %.*s", (int) length, angle);
    }
  if (*s->note)
    br__text_printf (t, "   # %s", s->note);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}

/* Parses the shape and the angle, to the end of the statement.  */
static br_status
read_turn (const br__shape **s, br__tree *angle, br__run *run)
{
  const br__token at = run->lex.token;
  char *name = NULL;
  br_status status = br__shape_read_name (&name, run, "the name of a shape");
  *s = status == BR_OK ? br__shape_find (run->sheet, name, strlen (name)) : NULL;
  if (status == BR_OK && !*s)
    {
      status = br__fail (run->error, BR_DOMAIN, at.offset, at.length, "there is no shape called `%.*s`", BR__CLIP (name, 40));
      br__hint (run->error, "draw it first; `shapes` lists what there is");
    }
  else if (status == BR_OK && (*s)->base)
    {
      status = br__fail (run->error, BR_DOMAIN, at.offset, at.length, "a %s follows its shape, which is what can be turned",
                         br__shape_statement (*s));
      br__hint (run->error, "turn %s by 10 deg", (*s)->base);
    }
  br__free (name);
  if (status != BR_OK)
    return status;
  br__need_word (run, "by", "`by` and the angle");
  br__parse_size (angle, &run->lex, run->error);
  return br__end_of_line (run);
}

/* The sheet of a file keeps the line as it stands there.  */
static br_status
keep_typed (br__run *run, const br__run *typed)
{
  char *text = br__strndup (typed->text, typed->length);
  if (!text)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br__free (run->line->text);
  run->line->text = text;
  run->line->original = text;
  run->line->length = typed->length;
  return BR_OK;
}

/* Runs TEXT, which is taken over, as the current line.  An error in it is reported for the angle, at START.  */
static br_status
run_line (br__run *run, br_text *text, size_t start, size_t length)
{
  const br__run typed = *run;
  const br__statement *st = NULL;
  run->text = br__text_string (text);
  run->length = text->length;
  run->end = br__note_start (run->text, run->length);
  run->note = run->text + run->end + (run->end < run->length ? 2 : 0);
  run->note_length = run->length - (size_t) (run->note - run->text);
  br_status status = br__lex_start (&run->lex, run->text, run->end, run->error);
  run->lex.known = typed.lex.known;
  run->lex.user = typed.lex.user;
  run->word = run->lex.token;
  if (status == BR_OK)
    {
      st = run->sheet->language->find (run->text + run->word.offset, run->word.length);
      status = br__lex_next (&run->lex, run->error);
    }
  if (status == BR_OK)
    status = st->run (run);
  if (status == BR_OK && run->from_file)
    status = keep_typed (run, &typed);
  if (status == BR_OK)
    {
      br__text_clear (&run->phrase);
      run->phrase = *text;
      *text = (br_text) BR_TEXT_ZERO;
      return BR_OK;
    }
  run->text = typed.text;
  run->length = typed.length;
  run->end = typed.end;
  run->note = typed.note;
  run->note_length = typed.note_length;
  run->lex = typed.lex;
  run->word = typed.word;
  if (run->error)
    run->error->offset = start, run->error->length = length;
  return status;
}

br_status
br__do_turn (br__run *run)
{
  const br__shape *s = NULL;
  br__tree angle = BR__TREE_ZERO;
  br_text text = BR_TEXT_ZERO;
  br_status status = read_turn (&s, &angle, run);
  if (status == BR_OK)
    {
      status = put_line (&text, s, run->text + angle.base, angle.length);
      if (status == BR_TOO_BIG)
        br__fail (run->error, status, angle.base, angle.length, "the line of %s, with all its turns, is too long for one more: draw it anew, `turned` by their sum",
                  s->name);
      else if (status != BR_OK)
        br__fail_plain (run->error, status, 0, 0);
    }
  if (status == BR_OK)
    status = run_line (run, &text, angle.base, angle.length);
  br__text_clear (&text);
  br__tree_clear (&angle);
  return status;
}
