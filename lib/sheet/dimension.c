/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension.c - setting, forgetting and listing named dimensions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "measure/measure.h"
#include "formula/functions.h"
#include "sheet/hidden.h"
#include "sheet/tolerance.h"

static const char *
state_of (const br__entry *e)
{
  if (!br__entry_value (e))
    return "waiting";
  return br__entry_definition (e)->edge_count ? "derived" : "given";
}

static void
put_nulls (br_record *r)
{
  static const char *const keys[] =
    { "exact", "decimal", "decimal_exact", "unit", "shown", "mark", "error", "error_decimal", "tie" };
  for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
    br__put_null (r, keys[i]);
}

/* The fields that `set` and `dimension` share.  */
static br_status
put_dimension (br_record *r, const br__entry *e, const br__settings *s)
{
  const br__definition *d = br__entry_definition (e);
  const br__value *v = br__entry_value (e);
  br_status status = BR_OK;

  br__put_text (r, "name", br__entry_name (e));
  br__put_text (r, "state", state_of (e));
  if (v)
    {
      status = br__put_value (r, v, s);
      if (status == BR_OK)
        status = br__put_on_ruler (r, v, s);
    }
  else
    put_nulls (r);
  br_list *waiting = br__put_list (r, "waiting");
  for (size_t i = 0; !v && i < d->edge_count; i++)
    if (!br__entry_value (d->edges[i].used))
      br__list_entry (waiting, d->edges[i].used);
  br__put_bytes (r, "formula", d->tree.text, d->tree.length);
  const char *tolerance = NULL;
  if (br__tolerance_given (e, &tolerance))
    br__put_text (r, "tolerance", tolerance);
  br__put_text (r, "note", d->note);
  return status;
}

/* Exact in the sheet's unit; a decimal where it is not rational; null without a value.  */
static br_status
put_plain_value (br_record *row, const char *key, const br__value *v, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  if (!v)
    {
      br__put_null (row, key);
      return BR_OK;
    }
  br_status status = br__in_sheet_unit (&z, v, s);
  if (status == BR_OK && br_real_rational (&z))
    br__put_exact (row, key, br_real_rational (&z));
  else if (status == BR_OK)
    {
      br_text t = BR_TEXT_ZERO;
      status = br__put_real_decimal (&t, NULL, &z, 12, s->bits);
      if (status == BR_UNDECIDED)
        br__put_null (row, key);
      else
        br__put_from (row, key, &t);
      if (status == BR_UNDECIDED)
        status = BR_OK;
    }
  br_real_clear (&z);
  return status;
}

br_status
br__put_moves (br_record *r, const br__moves *moves, br_sheet *sheet)
{
  br_list *list = br__put_list (r, "changed");
  br_status status = BR_OK;
  for (size_t i = 0; i < moves->count && status == BR_OK; i++)
    {
      const br__move *m = &moves->rows[i];
      br_text t = BR_TEXT_ZERO;
      if (br__is_hidden_entry (m->entry))
        continue;
      br_record *row = br__list_record (list);
      br__put_text (row, "name", br__entry_name (m->entry));
      status = put_plain_value (row, "before", m->had ? &m->before : NULL, &sheet->settings);
      if (status == BR_OK)
        status = put_plain_value (row, "after", br__entry_value (m->entry), &sheet->settings);
      if (status == BR_OK && m->had)
        {
          status = br__shown (&t, &m->before, &sheet->settings);
          br__put_from (row, "before_shown", &t);
        }
      if (status == BR_OK && br__entry_value (m->entry))
        {
          status = br__shown (&t, br__entry_value (m->entry), &sheet->settings);
          br__put_from (row, "after_shown", &t);
        }
    }
  return status;
}

br_status
br__name_taken (br__run *run, const br__token *word)
{
  const char *name = run->text + word->offset;
  const br__statement *st = run->sheet->language->find (name, word->length);
  if (st && !br__word_behind (st) && !st->may_name)
    {
      br__fail (run->error, BR_SYNTAX, word->offset, word->length,
                "`%s` is a word of the language and cannot name a dimension", st->word);
      if (st->setting)
        br__hint (run->error, "to set it, write it without `=`: %s", st->form);
      return BR_SYNTAX;
    }
  if (br__same_word (name, word->length, "pi"))
    return br__fail (run->error, BR_SYNTAX, word->offset, word->length,
                     "`pi` is a number and cannot name a dimension");
  return BR_OK;
}

/* 17.4 +- 0.1 mm in inches: the trade means both in mm, and the size alone is in inches.  Not asked of what is written down
   already, where the tolerance may have come later.  */
static br_status
same_unit (br__run *run, const br__definition *d, size_t end)
{
  const char *sheet = run->sheet->settings.unit->name;
  br_measure t = BR_MEASURE_ZERO;
  int bare = !run->from_file && br_measure_read (&t, d->tolerance_text, strlen (d->tolerance_text), NULL, NULL) == BR_OK
             && t.unit && strcmp (t.unit->name, sheet) != 0;
  for (size_t i = 0; i < d->tree.count; i++)
    bare = bare && d->tree.nodes[i].op == BR__OP_NUMBER && !d->tree.nodes[i].number.unit;
  if (bare)
    {
      br__fail_two_ways (run, 0, run->end);
      br__hint (run->error, "write `%.*s %s +- %s` or `%.*s %s +- %s`", (int) end, run->text, t.unit->name, d->tolerance_text,
                (int) end, run->text, sheet, d->tolerance_text);
    }
  br_measure_clear (&t);
  return bare ? BR_SYNTAX : BR_OK;
}

/* `+- T` behind a formula.  */
static br_status
read_tolerance (br__run *run, br__definition *d)
{
  size_t end = run->lex.token.offset;
  br_status status = br__lex_next (&run->lex, run->error);
  while (end > 0 && run->text[end - 1] == ' ')
    end--;
  if (status == BR_OK)
    status = br__read_tolerance (run, &d->tolerance, &d->tolerance_text);
  return status == BR_OK ? same_unit (run, d, end) : status;
}

/* `+- T` and `known` behind a formula, in either order.  */
static br_status
read_behind (br__run *run, br__definition *d)
{
  br_status status = BR_OK;
  for (int more = 1; more && status == BR_OK; )
    if (br__lex_is_sign (&run->lex, BR__PLUS_MINUS) && !d->tolerance_text)
      status = read_tolerance (run, d);
    else if (br__lex_is_word (&run->lex, "known") && !d->known)
      {
        d->known = 1;
        status = br__lex_next (&run->lex, run->error);
      }
    else
      more = 0;
  return status;
}

/* If D has no note or no tolerance, it gets that of OLD.  */
static br_status
keep_old (br__run *run, br__definition *d, const br__definition *old)
{
  int note = !run->note_length && *old->note, tolerance = !d->tolerance_text && old->tolerance_text;
  char *kept = note ? br__strndup (old->note, strlen (old->note)) : NULL;
  if (kept)
    {
      br__definition_take_note (d, kept);
    }
  br_status status = note && !kept ? BR_NO_MEMORY : BR_OK;
  if (status == BR_OK && tolerance)
    status = br__value_set (&d->tolerance, &old->tolerance);
  if (status == BR_OK && tolerance
      && !(d->tolerance_text = br__strndup (old->tolerance_text, strlen (old->tolerance_text))))
    status = BR_NO_MEMORY;
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, 0);
}

/* Writes the line of the assignment with what D took over from the previous definition: the tolerance if none was
   TYPED, and the note.  */
static void
put_line (br_text *t, const br__run *run, const br__definition *d, int typed)
{
  int tolerance = d->tolerance_text && !typed, note = !run->note_length && *d->note;
  size_t end = run->end;
  if (!tolerance && !note)
    {
      br__text_put (t, run->text, run->length);
      return;
    }
  while (end > 0 && (run->text[end - 1] == ' ' || run->text[end - 1] == '\t'))
    end--;
  br__text_put (t, run->text, end);
  if (tolerance)
    br__text_printf (t, " +- %s", d->tolerance_text);
  if (note)
    br__text_printf (t, "  # %s", d->note);
  else if (run->note_length)
    {
      br__text_puts (t, "  ");
      br__text_put (t, run->text + run->end, run->length - run->end);
    }
}

/* 1 where D can be worked out only behind the line that gives the size of a grid square.  */
static int
needs_grid (const br__definition *d)
{
  for (size_t i = 0; d && i < d->tree.count; i++)
    {
      const br__node *n = &d->tree.nodes[i];
      if (n->op == BR__OP_NUMBER ? br__unit_is_box (n->number.unit)
                                 : n->op == BR__OP_CALL && n->function->id == BR__FUNCTION_IN_BOXES)
        return 1;
    }
  return 0;
}

/* The scale is in D already.  */
static int
is_scaled (const br__definition *d)
{
  for (size_t i = 0; d && i < d->tree.count; i++)
    if (d->tree.nodes[i].op == BR__OP_CALL
        && (d->tree.nodes[i].function->id == BR__FUNCTION_FULL || d->tree.nodes[i].function->id == BR__FUNCTION_DRAWN
            || d->tree.nodes[i].function->id == BR__FUNCTION_IN_BOXES))
      return 1;
  return 0;
}

/* Puts the line of the assignment into the sheet: in place of the one that E has, or behind all others
   where it would not stand behind a setting that it needs.  */
static br_status
keep_line (br__run *run, br__entry *e, int typed, int had_grid)
{
  const br__definition *d = br__entry_definition (e);
  br__line *line = br__line_of_entry (e);
  br_text t = BR_TEXT_ZERO;
  const char *text = run->text;
  size_t length = run->length;
  br_status status = BR_OK;
  if (line && !line->foreign && !run->from_file)
    {
      put_line (&t, run, d, typed);
      if (t.failed)
        status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
      else if (t.length > BR_MAX_LINE)
        status = br__fail (run->error, BR_TOO_BIG, 0, 0, "a line of more than %d bytes with the note that it has",
                           BR_MAX_LINE);
      run->text = br__text_string (&t);
      run->length = t.length;
      if (status == BR_OK && (had_grid || !needs_grid (d)))
        status = br__line_rewrite (run, line);
      else if (status == BR_OK)
        {
          status = br__line_hide (run, line);
          line = NULL;
        }
    }
  else
    line = NULL;
  if (status == BR_OK && !line)
    {
      status = br__line_append (run, &line);
      if (status == BR_OK)
        br__line_defines (line, e);
    }
  run->text = text;
  run->length = length;
  run->line = line;
  br__text_clear (&t);
  return status;
}

static int
is_full_size (const br__settings *s)
{
  br_number one = { 1, 0 };
  return br_number_equal (&s->scale, &one);
}

void
br__put_waited (br_text *t, const br_sheet *sheet, const br__entry *e)
{
  const br__definition *d = br__entry_value (e) ? NULL : br__entry_definition (e);
  for (size_t i = 0; d && i < d->edge_count && !t->length; i++)
    if (!br__entry_definition (d->edges[i].used) && !br__is_hidden_entry (d->edges[i].used))
      {
        const char *name = br__entry_name (d->edges[i].used);
        sheet->language->put_other (t, sheet, name);
        const char *near = t->length ? NULL : br__graph_near (sheet->graph, e, name);
        if (near)
          br__text_printf (t, "did you mean `%s`?", near);
      }
}

/* 3/4 x 5-1/2 x 96, which a sawyer would take for a board.  */
static int
is_board (const br__definition *d)
{
  const char *x = d && d->tree.text ? strstr (d->tree.text, " x ") : NULL;
  return x && strstr (x + 1, " x ");
}

static br_status
emit_set (br__run *run, br__entry *e, const br__moves *moves, int is_new)
{
  br_record *r = br__record_new ("set");
  br_status status = put_dimension (r, e, &run->sheet->settings);
  const br__definition *d = br__entry_definition (e);
  br_text t = BR_TEXT_ZERO;
  br__put_waited (&t, run->sheet, e);
  const char *slip = is_new && !t.length ? br__graph_slip (run->sheet->graph, e) : NULL;
  if (t.length)
    ;
  else if (slip)
    br__text_printf (&t, "this is a new size beside `%s`; `undo` takes it back", slip);
  else if (needs_grid (d) && !is_scaled (d) && !is_full_size (&run->sheet->settings))
    br__text_printf (&t, "this is as drawn; the full size is full(%s)", d->tree.text);
  else if (is_board (d))
    br__text_printf (&t, "this is a product; a board is `stock %s = %s`", br__entry_name (e), d->tree.text);
  if (t.length || t.failed)
    br__put_from (r, "message", &t);
  else
    br__put_null (r, "message");
  if (status == BR_OK)
    status = br__put_moves (r, moves, run->sheet);
  return br__emit_or_fail (run, r, status, run->word.offset, run->word.length);
}

/* Wheel beside wheel: one of them is a slip.  */
static br_status
refuse_capital (br__run *run)
{
  const char *name = run->text + run->word.offset;
  const char *other = br__graph_same_letters (run->sheet->graph, name, run->word.length);
  if (!other)
    return BR_OK;
  br_status status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                               "`%.*s` and `%s` differ by capital letters alone", br__clip (name, run->word.length, 40),
                               name, other);
  br__hint_instead (run->error, &run->lex, run->word.offset, run->word.length, other, NULL);
  return status;
}

br_status
br__assign (br__run *run)
{
  br__tree tree = BR__TREE_ZERO;
  br__definition *d = NULL;
  br__moves moves = BR__MOVES_ZERO;
  br__entry *e = NULL;
  br_status status = br__name_taken (run, &run->word);

  if (status == BR_OK)
    status = refuse_capital (run);
  if (status == BR_OK)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__parse (&tree, &run->lex, run->error);
  if (status == BR_OK)
    {
      e = br__graph_get (run->sheet->graph, run->text + run->word.offset, run->word.length);
      status = e ? br__definition_new (&d, run->sheet->graph, &tree, run->note, run->note_length,
                                       run->error)
                 : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  if (status == BR_OK)
    status = read_behind (run, d);
  if (status == BR_OK && run->behind)
    status = run->behind (run);
  if (status == BR_OK && run->behind)
    status = read_behind (run, d);
  if (status == BR_OK)
    status = br__end_of_line (run);
  const br__definition *old = e ? br__entry_definition (e) : NULL;
  int typed = status == BR_OK && d->tolerance_text, had_grid = needs_grid (old), is_new = !old && !run->from_file;
  if (status == BR_OK && old)
    status = keep_old (run, d, old);
  if (status == BR_OK)
    status = br__change_define (run, e, &d, &moves);
  if (status == BR_OK)
    status = keep_line (run, e, typed, had_grid);
  if (status == BR_OK)
    status = emit_set (run, e, &moves, is_new);
  if (status == BR_OK)
    status = br__tell_change (run, &moves, &run->changes);
  br__tree_clear (&tree);
  br__definition_free (d);
  br__moves_clear (&moves);
  return status;
}

br_status
br__named_entry (br__run *run, br__entry **e)
{
  const br__token *t = &run->lex.token;
  br__node node = { .op = BR__OP_NAME, .word_length = t->length };
  br__tree tree = { .text = (char *) run->text + t->offset, .length = t->length };
  const br__value *v;

  if (t->type != BR__NAME)
    return br__expected (run, "the name of a dimension");
  *e = br__graph_find (run->sheet->graph, run->text + t->offset, t->length);
  if (*e && (br__entry_definition (*e) || br__entry_users (*e, NULL)))
    return br__lex_next (&run->lex, run->error);
  br_status status = br__graph_lookup (&v, run->sheet->graph, &tree, &node, run->error);
  if (run->error)
    run->error->offset = t->offset, run->error->length = t->length;
  return status;
}

br_status
br__forget_dimension (br__run *run)
{
  br__entry *e = NULL;
  br__definition *d = NULL;
  br__moves moves = BR__MOVES_ZERO;
  br__token word = run->lex.token;
  br_status status = br__named_entry (run, &e);

  if (status == BR_OK && !br__entry_definition (e))
    status = br__fail (run->error, BR_DOMAIN, word.offset, word.length,
                       "`%.*s` has no value to forget", BR__CLIP (br__entry_name (e), 60));
  if (status == BR_OK)
    status = br__change_define (run, e, &d, &moves);
  /* A name that was set twice in a file has two lines.  */
  for (br__line *line; status == BR_OK && (line = br__line_of_entry (e)) != NULL; )
    status = br__line_hide (run, line);
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("forgotten");
      br__put_text (r, "name", br__entry_name (e));
      status = br__put_moves (r, &moves, run->sheet);
      status = br__emit_or_free (run, r, status);
    }
  if (status == BR_OK)
    status = br__tell_change (run, &moves, &run->changes);
  br__definition_free (d);
  br__moves_clear (&moves);
  return status;
}

/* The drawn size at the sheet's scale, for lengths and plain numbers.  */
static br_status
put_drawn (br_record *r, const br__value *v, const br__settings *s)
{
  br__value drawn = BR__VALUE_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;

  if (!v || (v->dimension != BR_PLAIN && v->dimension != BR_LENGTH))
    {
      br__put_null (r, "drawn");
      return BR_OK;
    }
  drawn.dimension = v->dimension;
  status = br_scale_drawn (&drawn.real, &v->real, &s->scale);
  if (status == BR_OK)
    status = br__shown (&t, &drawn, s);
  if (status == BR_OK)
    br__put_from (r, "drawn", &t);
  br__text_clear (&t);
  br__value_clear (&drawn);
  return status;
}

br_status
br__do_list (br__run *run)
{
  br_status status = br__end_of_line (run);
  size_t count = 0;
  for (br__line *l = run->sheet->first; l && status == BR_OK; l = l->next)
    {
      /* A name that was set twice in a file has two lines; the last is the one that counts.  */
      if (!l->entry || l->hidden || *br__entry_tag (l->entry) != l || !br__entry_definition (l->entry))
        continue;
      br_record *r = br__record_new ("dimension");
      status = put_dimension (r, l->entry, &run->sheet->settings);
      if (status == BR_OK)
        status = put_drawn (r, br__entry_value (l->entry), &run->sheet->settings);
      status = br__emit_or_free (run, r, status);
      count++;
    }
  if (status == BR_OK && !count)
    status = br__remark (run, "no dimension has been set yet");
  return status;
}
