/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape.c - the statements circle, box, arc, line and outline: reading, keeping, forgetting.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/depth.h"

const br__value *
br__shape_value (const br_sheet *sheet, const br__shape *s, int part)
{
  br__entry *e = br__shape_entry (sheet->graph, s->name, strlen (s->name), part);
  return e ? br__entry_value (e) : NULL;
}

const char *
br__shape_kind_word (br__shape_kind kind)
{
  static const char *const words[] = { "", "circle", "box", "arc", "line", "outline", "row", "mirror" };
  return words[kind];
}

const char *
br__shape_statement (const br__shape *s)
{
  return s->word ? s->word : br__shape_kind_word (s->kind);
}

static void
draft_clear (br__shape_draft *d)
{
  for (int i = 0; i < 4; i++)
    {
      br__tree_clear (&d->size[i]);
      br__tree_clear (&d->at[i]);
    }
  br__corners_clear (d);
  br__tree_clear (&d->gap);
  br__tree_clear (&d->shift);
  br__tree_clear (&d->deep);
  br__tree_clear (&d->across);
  br__tree_clear (&d->turn);
  br__free (d->wheel);
  br__free (d->base);
}

/* ---- Reading ---- */

br_status
br__shape_read_name (char **name, br__run *run, const char *what)
{
  const br__token *t = &run->lex.token;
  if (run->lex.status != BR_OK || t->type != BR__NAME)
    return br__expected (run, what);
  if (t->length > BR__SHAPE_NAME)
    return br__lex_fail (&run->lex, br__fail (run->error, BR_TOO_BIG, t->offset, t->length, "a name of more than %d bytes",
                                              BR__SHAPE_NAME));
  char *copy = br__strndup (run->text + t->offset, t->length);
  if (!copy)
    return br__lex_fail (&run->lex, br__fail_plain (run->error, BR_NO_MEMORY, 0, 0));
  br__free (*name);
  *name = copy;
  return br__lex_next (&run->lex, run->error);
}

static br_status
read_value (br__run *run, br__tree *t)
{
  return br__parse_size (t, &run->lex, run->error);
}

br_status
br__read_point (br__run *run, br__tree at[2])
{
  read_value (run, &at[0]);
  br__need_sign (run, ',', "a comma and the height of the point");
  return read_value (run, &at[1]);
}

static br_status
read_box (br__run *run, br__shape_draft *d)
{
  read_value (run, &d->size[0]);
  br__skip_separator (run);
  return read_value (run, &d->size[1]);
}

br_status
br__read_second_size (br__run *run, br__tree *t)
{
  if (!br__at_separator (&run->lex))
    return run->lex.status;
  br__skip_separator (run);
  return read_value (run, t);
}

/* The values in brackets that are left: one, and one more if there is a comma.  */
static void
read_inside (br__run *run, br__shape_draft *d)
{
  br__parse_inside (&d->size[0], &run->lex, run->error);
  if (br__lex_is_sign (&run->lex, ','))
    {
      br__go_on (run);
      br__parse_inside (&d->size[1], &run->lex, run->error);
    }
  br__need_sign (run, ')', "a closing bracket");
}

/* fender(WHEEL, GAP, WIDTH) or bend(RADIUS, WIDTH), then how far it turns.  */
static br_status
read_arc (br__run *run, br__shape_draft *d)
{
  int fender = br__lex_is_word (&run->lex, "fender");
  if (!fender && !br__lex_is_word (&run->lex, "bend"))
    return br__expected (run, "`fender(WHEEL, GAP, WIDTH)` or `bend(RADIUS, WIDTH)`");
  br__go_on (run);
  br__need_sign (run, '(', "an opening bracket");
  if (fender)
    {
      br__shape_read_name (&d->wheel, run, "the name of a circle");
      br__need_sign (run, ',', "a comma and the gap");
    }
  read_inside (run, d);
  if (run->lex.token.type == BR__NUMBER || br__lex_is_sign (&run->lex, '('))
    read_value (run, &d->size[2]);
  return run->lex.status;
}

/* A disc, or a ring where it has a hole.  */
static br_status
read_plate (br__run *run, br__shape_draft *d)
{
  read_value (run, &d->size[0]);
  d->kind = BR__CIRCLE;
  if (!br__take_word (run, "hole"))
    return run->lex.status;
  d->kind = BR__ARC;
  return read_value (run, &d->size[1]);
}

static br_status
read_line (br__run *run, br__shape_draft *d)
{
  br__read_point (run, &d->at[0]);
  br__need_word (run, "to", "`to` and the end of the line");
  return br__read_point (run, &d->at[2]);
}

/* ---- Clauses ---- */

/* `on top of front` says no shape called top: it is left to the reader of phrases.  */
static int
is_on_top (const br__run *run)
{
  br__lexer ahead = run->lex;
  return br__lex_is_word (&ahead, "top") && !br__shape_find (run->sheet, "top", 3) && br__lex_next (&ahead, NULL) == BR_OK
         && br__lex_is_word (&ahead, "of");
}

/* `on`, `above`, `below`, `left of`, `right of`, `same centre as` and the shape: *FOUND is 1 then.  */
static br_status
read_relation (br__run *run, br__shape_draft *d, int *found)
{
  int relation = BR__NO_RELATION;
  const br__token at = run->lex.token;
  if (br__take_word (run, "on") || br__take_word (run, "above"))
    relation = BR__ABOVE;
  else if (br__take_word (run, "below"))
    relation = BR__BELOW;
  else if (br__lex_is_word (&run->lex, "left") || br__lex_is_word (&run->lex, "right"))
    {
      relation = br__lex_is_word (&run->lex, "left") ? BR__LEFT_OF : BR__RIGHT_OF;
      br__go_on (run);
      br__need_word (run, "of", "`of`");
    }
  else if (br__take_word (run, "same"))
    {
      relation = BR__CENTRED;
      if (!br__take_word (run, "centre"))
        br__need_word (run, "center", "`centre as`");
      br__need_word (run, "as", "`as`");
    }
  *found = 1;
  if (run->lex.status == BR_OK && relation == BR__ABOVE && is_on_top (run))
    return br__expected (run, "the name of a shape");
  *found = relation != BR__NO_RELATION || run->lex.status != BR_OK;
  if (run->lex.status != BR_OK || !*found)
    return run->lex.status;
  if (d->relation || d->placed)
    return br__fail (run->error, BR_SYNTAX, at.offset, at.length, "this shape has its place already");
  d->relation = relation;
  return br__shape_read_name (&d->base, run, "the name of a shape");
}

static br_status
read_flush (br__run *run, br__shape_draft *d)
{
  static const struct { const char *word; int side; } sides[] =
    { { "right", BR__RIGHT }, { "top", BR__TOP }, { "left", BR__LEFT }, { "bottom", BR__BOTTOM } };
  int beside = d->relation == BR__LEFT_OF || d->relation == BR__RIGHT_OF;
  for (size_t i = 0; i < 4; i++)
    if (br__lex_is_word (&run->lex, sides[i].word))
      {
        int level = sides[i].side == BR__RIGHT || sides[i].side == BR__LEFT;
        if (!d->relation || d->relation == BR__CENTRED || beside == level)
          break;
        d->flush = sides[i].side + 1;
        return br__lex_next (&run->lex, run->error);
      }
  return br__expected (run, beside ? "`top` or `bottom`" : "`left` or `right`, behind `on` or `above` a shape,");
}

/* Clauses that say what a shape is, not where.  *FOUND is 1 if there was one.  */
static br_status
read_quality (br__run *run, br__shape_draft *d, br__shape *s, int *found)
{
  *found = 1;
  if (br__take_word (run, "layer"))
    return br__shape_read_name (&s->layer, run, "the name of a layer");
  if (br__take_word (run, "of"))
    return br__shape_read_name (&s->of, run, "the name of a part");
  if (((d->kind == BR__CIRCLE && !d->plate) || d->kind == BR__LINE) && br__take_word (run, "hole"))
    {
      s->hole = 1;
      return BR_OK;
    }
  if (d->kind == BR__ARC && !d->plate && !d->size[3].count && br__take_word (run, "from"))
    return read_value (run, &d->size[3]);
  if (d->kind == BR__LINE && !d->size[0].count && br__take_word (run, "wide"))
    return read_value (run, &d->size[0]);
  br_status status = br__edges_read (run, d, found);
  return status == BR_OK && !*found ? br__depth_read (run, d, s, found) : status;
}

static br_status
read_clauses (br__run *run, br__shape_draft *d, br__shape *s)
{
  br_status status = BR_OK;
  while (status == BR_OK && run->lex.token.type != BR__END)
    {
      int found;
      status = read_quality (run, d, s, &found);
      if (status != BR_OK || found)
        continue;
      if (d->kind == BR__LINE)
        return br__expected (run, "`wide`, `hole`, `turned`, `deep`, `layer` or `of`");
      status = read_relation (run, d, &found);
      if (status != BR_OK || found)
        continue;
      if (!d->relation && !d->placed && br__take_word (run, "at"))
        {
          d->placed = 1;
          status = br__read_point (run, d->at);
        }
      else if (d->relation && d->relation != BR__CENTRED && !d->gap.count && br__take_word (run, "by"))
        status = read_value (run, &d->gap);
      else if (d->relation && !d->shift.count && br__take_word (run, "shift"))
        status = read_value (run, &d->shift);
      else if (!d->flush && br__take_word (run, "flush"))
        status = read_flush (run, d);
      else if ((status = run->lex.status) == BR_OK)
        {
          status = br__expected (run, d->relation ? "`by`, `shift`, `flush`, `deep`, `layer` or `of`"
                                                  : "a place (`at X, Y`, `on`, `above`, `left of` ...)");
          br__hint (run->error, "help %s", d->boxed ? "box" : d->plate ? "plate" : br__shape_kind_word (d->kind));
        }
    }
  return status;
}

static br_status
read_shape (br__run *run, br__shape_draft *d, br__shape *s)
{
  br_status status = br__shape_read_name (&s->name, run, "the name of the shape");
  s->note = br__strndup (run->note, run->note_length);
  size_t end = run->end;
  while (end && br__blank_at (run->text + end - 1, 1))
    end--;
  s->text = br__strndup (run->text, end);
  if (status == BR_OK && (!s->note || !s->text))
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status != BR_OK)
    return status;
  d->name = s->name;
  d->name_length = strlen (s->name);
  if (br__is_copy (d->kind))
    {
      status = br__copy_read (run, d, s);
      s->depth = d->depth;
      s->base = status == BR_OK ? br__strndup (d->base, strlen (d->base)) : NULL;
      return status == BR_OK && !s->base ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : status;
    }
  br__need_sign (run, '=', "`=`");
  if (run->lex.status != BR_OK)
    return run->lex.status;
  switch (d->kind)
    {
    case BR__CIRCLE:
      status = read_value (run, &d->size[0]);
      status = status == BR_OK ? br__refuse_label (run, &d->size[0]) : status;
      break;
    case BR__BOX: status = read_box (run, d); break;
    case BR__ARC: status = d->plate ? read_plate (run, d) : read_arc (run, d); break;
    case BR__LINE: status = read_line (run, d); break;
    default: status = br__outline_read (run, d); break;
    }
  if (status == BR_OK)
    status = read_clauses (run, d, s);
  s->depth = d->depth;
  if (status == BR_OK && d->kind == BR__LINE && s->hole && !d->size[0].count)
    {
      status = br__expected (run, "`wide` and the width of the slot");
      br__hint (run->error, "line slot = 0, 0 to 3, 0 wide 1/2 hole");
    }
  s->kind = d->kind;
  s->word = d->boxed ? "box" : d->plate ? "plate" : NULL;
  s->loose = br__is_loose (d);
  return status;
}

/* ---- Keeping ---- */

/* A shape of this name comes or goes: what is undone before this, or done again up to here, has the distances to it.  */
static br_status
mark_distances (br__run *run, const br__shape *s)
{
  br__change change = { .kind = BR__CHANGE_DISTANCES };
  change.entry = br__shape_entry (run->sheet->graph, s->name, strlen (s->name), BR__SHAPE_KIND);
  return br__change_add (run, &change);
}

/* Takes S out of the sheet, and its line.  */
static br_status
drop_shape (br__run *run, br__shape *s, br__moves *moves)
{
  br_status status = mark_distances (run, s);
  if (status == BR_OK)
    status = br__take_out (run, &s->active, s->line);
  return status == BR_OK ? br__shape_undefine (run, s->name, moves) : status;
}

static void
free_all (br_sheet *sheet)
{
  for (br__shape *s = sheet->shapes, *next; s; s = next)
    {
      next = s->next;
      br__shape_free (s);
    }
}

void
br__shape_append (br_sheet *sheet, br__shape *s)
{
  br__release_by (sheet, free_all);
  if (sheet->last_shape)
    sheet->last_shape->next = s;
  else
    sheet->shapes = s;
  sheet->last_shape = s;
}

/* The sheet owns S from here on, active or not.  */
static br_status
put_shape (br__run *run, br__shape *s, const br__shape_draft *d, br__moves *moves)
{
  br__shape *old = br__shape_find (run->sheet, s->name, strlen (s->name));
  br_status status = BR_OK;
  br__shape_append (run->sheet, s);
  if (old)
    status = drop_shape (run, old, moves);
  if (status == BR_OK)
    status = br__shape_define (run, d, moves);
  if (status == BR_OK && br__is_copy (d->kind))
    status = br__copies_count (run, d);
  if (status != BR_OK)
    return status;
  void **tag = br__entry_tag (br__shape_entry (run->sheet->graph, s->name, strlen (s->name), BR__SHAPE_KIND));
  s->older = *tag;
  *tag = s;
  status = br__change_switch (run, &s->active);
  return status == BR_OK ? mark_distances (run, s) : status;
}

static br_status
keep_shape (br__run *run, br__shape_kind kind, int plate)
{
  br__shape_draft d;
  br__moves moves = BR__MOVES_ZERO;
  br__shape *s = br__alloc_zero (1, sizeof *s);
  memset (&d, 0, sizeof d);
  if (!s)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  d.kind = s->kind = kind;
  d.plate = plate;
  br_status status = read_shape (run, &d, s);
  if (status == BR_OK)
    status = put_shape (run, s, &d, &moves);
  else
    br__shape_free (s);
  if (status == BR_OK)
    status = br__line_append (run, &run->line);
  if (status == BR_OK)
    {
      s->line = run->line;
      status = br__shape_show (run, s);
    }
  if (status == BR_OK)
    status = br__tell_change (run, &moves, &run->changes);
  draft_clear (&d);
  br__moves_clear (&moves);
  return status;
}

br_status br__do_circle (br__run *run) { return keep_shape (run, BR__CIRCLE, 0); }
br_status br__do_box (br__run *run) { return keep_shape (run, BR__BOX, 0); }
br_status br__do_arc (br__run *run) { return keep_shape (run, BR__ARC, 0); }
br_status br__do_line (br__run *run) { return keep_shape (run, BR__LINE, 0); }
br_status br__do_outline (br__run *run) { return keep_shape (run, BR__OUTLINE, 0); }
br_status br__do_plate (br__run *run) { return keep_shape (run, BR__ARC, 1); }
br_status br__do_row (br__run *run) { return keep_shape (run, BR__ROW, 0); }
br_status br__do_mirror (br__run *run) { return keep_shape (run, BR__MIRROR, 0); }

br_status
br__shape_forget (br__run *run)
{
  br__moves moves = BR__MOVES_ZERO;
  char *name = NULL;
  const br__token t = run->lex.token;
  br_status status = br__shape_read_name (&name, run, "the name of a shape");
  br__shape *s = status == BR_OK ? br__shape_find (run->sheet, name, strlen (name)) : NULL;
  if (status == BR_OK && !s)
    status = br__fail (run->error, BR_DOMAIN, t.offset, t.length, "there is no shape called `%.*s`",
                      BR__CLIP (name, 40));
  if (status == BR_OK)
    status = drop_shape (run, s, &moves);
  if (status == BR_OK)
    status = br__emit_forgotten (run, name);
  if (status == BR_OK)
    status = br__tell_change (run, &moves, &run->changes);
  br__free (name);
  br__moves_clear (&moves);
  return status;
}
