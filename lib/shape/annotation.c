/* SPDX-License-Identifier: LGPL-3.0-or-later
   annotation.c - the statements `dimension`, `note` and `no`: annotations of drawings, saved with the sheet.  The value and the
   position of an annotation are hidden entries of the graph, so that they follow every change.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/annotation.h"

void
br__annotation_free (br__annotation *a)
{
  br__free (a->from.shape);
  br__free (a->to.shape);
  br__free (a->words);
  br__free (a->text);
  br__free (a->shape);
  br__free (a);
}

void
br__annotations_free (br_sheet *sheet)
{
  for (br__annotation *a = sheet->annotations, *next; a; a = next)
    {
      next = a->next;
      br__annotation_free (a);
    }
  br__free (sheet->annotation_of);
}

/* ---- Its entries ---- */

static br__entry *
entry_of (br__graph *g, const br__annotation *a, int part, int make)
{
  static const char *const parts[] = { "x", "y", "off" };
  char key[60];
  size_t n = (size_t) snprintf (key, sizeof key, " %s %lu %s", a->kind == BR__NOTE ? "note" : "dimension line", a->number, parts[part]);
  return make ? br__graph_get_hidden (g, BR__ENTRY_DRAWN, key, n) : br__graph_find (g, key, n);
}

const br__value *
br__annotation_value (const br_sheet *sheet, const br__annotation *a, int part)
{
  const br__entry *e = entry_of (sheet->graph, a, part, 0);
  return e ? br__entry_value (e) : NULL;
}

const br__definition *
br__annotation_definition (const br_sheet *sheet, const br__annotation *a, int part)
{
  const br__entry *e = entry_of (sheet->graph, a, part, 0);
  return e ? br__entry_definition (e) : NULL;
}

static void
put_spot (br__maker *m, const br__spot *s, int way)
{
  size_t length = strlen (s->shape);
  br__make_shape_number (m, s->shape, length, BR__SHAPE_X + way);
  br__make_shape_number (m, s->shape, length, s->part[way]);
  if (s->half)
    {
      br__make_int (m, 2 * s->half);
      br__make_op (m, BR__OP_DIV);
    }
  br__make_op (m, BR__OP_ADD);
}

static br_status
define (br__run *run, const br__annotation *a, int part, br__definition **d, br__moves *moves)
{
  br__moves some = BR__MOVES_ZERO;
  br__entry *e = entry_of (run->sheet->graph, a, part, 1);
  br_status status = e ? br__change_define (run, e, d, &some) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    status = br__moves_join (moves, &some, run->sheet->graph, run->error);
  br__moves_clear (&some);
  br__definition_free (*d);
  *d = NULL;
  return status;
}

/* Its entry PART is the length T.  */
static br_status
define_length (br__run *run, const br__annotation *a, int part, const br__tree *t, br__moves *moves)
{
  br__definition *made = NULL;
  br_status status = br__make_length (&made, run, t);
  return status == BR_OK ? define (run, a, part, &made, moves) : status;
}

/* From one point to the other, the ways in which both have a place.  */
static br_status
define_distance (br__run *run, const br__annotation *a, br__moves *moves)
{
  br_status status = BR_OK;
  for (int way = 0; way < 2 && status == BR_OK; way++)
    {
      br__definition *made = NULL;
      br__maker m;
      if (a->from.none[way] || a->to.none[way])
        continue;
      br__maker_start (&m, run->sheet->graph, run->text, run->end, run->word.offset);
      put_spot (&m, &a->to, way);
      put_spot (&m, &a->from, way);
      br__make_op (&m, BR__OP_SUB);
      status = br__maker_end (&made, &m, run->error);
      if (status == BR_OK)
        status = define (run, a, way, &made, moves);
    }
  return status;
}

/* ---- In the sheet ---- */

static int
same_spot (const br__spot *s, const br__spot *t)
{
  return strcmp (s->shape, t->shape) == 0 && s->half == t->half && memcmp (s->part, t->part, sizeof s->part) == 0
         && memcmp (s->none, t->none, sizeof s->none) == 0;
}

static int
same_spots (const br__annotation *a, const br__annotation *b)
{
  return (same_spot (&a->from, &b->from) && same_spot (&a->to, &b->to)) || (same_spot (&a->from, &b->to) && same_spot (&a->to, &b->from));
}

/* 1 if A and B are about the same points or shape, so that only one of them is valid at a time.  */
static int
is_about_same (const br__annotation *a, const br__annotation *b)
{
  if (a->kind != b->kind)
    return 0;
  if (a->kind == BR__DIMENSION_LINE)
    return same_spots (a, b);
  return a->kind == BR__NOTE ? strcmp (a->text, b->text) == 0 : strcmp (a->shape, b->shape) == 0;
}

/* Where that which goes WAY stands in it: a way that is not said is along two points.  */
static int
place_of (br__way way)
{
  return way == BR__ALONG ? BR__ANY_WAY : way;
}

static unsigned
hash_of_text (const char *text)
{
  unsigned hash = 5381;
  for (; *text; text++)
    hash = hash * 33 + (unsigned char) *text;
  return hash;
}

/* The same for all that replace each other: a dimension is one from either end.  */
static size_t
hash_of (br__annotation_kind kind, const char *text, const char *other)
{
  return ((unsigned) kind + hash_of_text (text) + (other ? hash_of_text (other) : 0)) % BR__NOTE_HASHES;
}

static size_t
hash_of_annotation (const br__annotation *a)
{
  return a->kind == BR__DIMENSION_LINE ? hash_of (a->kind, a->from.shape, a->to.shape)
         : hash_of (a->kind, a->kind == BR__NOTE ? a->text : a->shape, NULL);
}

/* The first of those with HASH, or NULL.  */
static br__annotation *
first_of (const br_sheet *sheet, size_t hash)
{
  return sheet->annotation_of ? sheet->annotation_of[hash] : NULL;
}

/* The first that was given of those about the same as A, or NULL.  */
static br__annotation *
first_about (const br_sheet *sheet, const br__annotation *a)
{
  br__annotation *b = first_of (sheet, hash_of_annotation (a));
  while (b && !is_about_same (a, b))
    b = b->alike;
  return b;
}

int
br__is_unmeasured (const br_sheet *sheet, const char *shape)
{
  for (const br__annotation *a = first_of (sheet, hash_of (BR__UNMEASURED, shape, NULL)); a; a = a->alike)
    if (a->kind == BR__UNMEASURED && strcmp (a->shape, shape) == 0)
      return a->holds[BR__ANY_WAY] != NULL;
  return 0;
}

int
br__is_said_by_another (const br_sheet *sheet, const br__annotation *a, br__way way)
{
  const br__annotation *first = a->way == way ? NULL : first_about (sheet, a);
  const br__annotation *b = first ? first->holds[place_of (way)] : NULL;
  return b && b->way == way;
}

/* What holds at PLACE of FIRST is A, or nothing.  */
static br_status
change_holds (br__run *run, br__annotation *first, int place, br__annotation *a)
{
  br__change change = { .kind = BR__CHANGE_ANNOTATION, .holds = &first->holds[place], .annotation = first->holds[place] };
  br_status status = br__change_add (run, &change);
  if (status == BR_OK)
    first->holds[place] = a;
  return status;
}

/* Takes out what A replaces; *FOUND is 1 where there was some.  With ANY, a way that is not said is each of them.  */
static br_status
take_out (int *found, br__run *run, const br__annotation *a, int any, br__moves *moves)
{
  br_status status = BR_OK;
  br__annotation *first = first_about (run->sheet, a);
  *found = 0;
  for (int place = 0; first && place < BR__ALONG && status == BR_OK; place++)
    {
      br__annotation *b = first->holds[place];
      if (!b || (place != place_of (a->way) && !(any && a->way == BR__ANY_WAY)))
        continue;
      *found = 1;
      status = br__take_out (run, &b->active, b->line);
      if (status == BR_OK)
        status = change_holds (run, first, place, NULL);
      for (int i = 0; i < BR__DRAWN_NUMBERS && status == BR_OK; i++)
        {
          br__definition *none = NULL;
          br__entry *e = entry_of (run->sheet->graph, b, i, 0);
          if (e && br__entry_definition (e))
            status = define (run, b, i, &none, moves);
        }
    }
  return status;
}

static void
append (br_sheet *sheet, br__annotation *a)
{
  a->number = ++sheet->annotation_count;
  if (sheet->last_annotation)
    sheet->last_annotation->next = a;
  else
    sheet->annotations = a;
  sheet->last_annotation = a;
  if (first_about (sheet, a))
    return;
  br__annotation **first = &sheet->annotation_of[hash_of_annotation (a)];
  a->alike = *first;
  *first = a;
}

/* The sheet owns A from here on, with the formulas in T.  */
static br_status
keep (br__run *run, br__annotation *a, const br__tree t[BR__DRAWN_NUMBERS])
{
  br__moves moves = BR__MOVES_ZERO;
  int found;
  append (run->sheet, a);
  br_status status = take_out (&found, run, a, 0, &moves);
  for (int i = 0; i < BR__DRAWN_NUMBERS && status == BR_OK; i++)
    if (t[i].count)
      status = define_length (run, a, i, &t[i], &moves);
  if (status == BR_OK && a->kind == BR__DIMENSION_LINE)
    status = define_distance (run, a, &moves);
  if (status == BR_OK)
    status = br__line_append (run, &run->line);
  if (status == BR_OK)
    {
      a->line = run->line;
      status = br__change_switch (run, &a->active);
    }
  if (status == BR_OK)
    status = change_holds (run, first_about (run->sheet, a), place_of (a->way), a);
  if (status == BR_OK)
    status = br__annotation_show (run, a);
  if (status == BR_OK)
    status = br__tell_change (run, &moves, &run->changes);
  br__moves_clear (&moves);
  return status;
}

static br__annotation *
new_annotation (br__run *run, br__annotation_kind kind)
{
  br_sheet *sheet = run->sheet;
  br__annotation *a = br__alloc_zero (1, sizeof *a);
  if (!sheet->annotation_of && (sheet->annotation_of = br__alloc_zero (BR__NOTE_HASHES, sizeof *sheet->annotation_of)) != NULL)
    br__release_by (sheet, br__annotations_free);
  if (a && sheet->annotation_of)
    {
      a->kind = kind;
      return a;
    }
  br__free (a);
  br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  return NULL;
}

/* Shows those of KIND.  */
static br_status
show_all (br__run *run, br__annotation_kind kind, const char *none)
{
  br_status status = BR_OK;
  size_t count = 0;
  for (const br__annotation *a = run->sheet->annotations; a && status == BR_OK; a = a->next)
    if (a->active && a->kind == kind)
      {
        status = br__annotation_show (run, a);
        count++;
      }
  return status == BR_OK && !count ? br__remark (run, "%s", none) : status;
}

br_status
br__do_dimension (br__run *run)
{
  br__tree t[BR__DRAWN_NUMBERS] = { BR__TREE_ZERO, BR__TREE_ZERO, BR__TREE_ZERO };
  if (run->lex.token.type == BR__END)
    return show_all (run, BR__DIMENSION_LINE, "no dimension of a drawing has been asked for");
  br__annotation *a = new_annotation (run, BR__DIMENSION_LINE);
  if (!a)
    return BR_NO_MEMORY;
  br_status status = br__dimension_read (a, &t[BR__DRAWN_OFF], run);
  if (status == BR_OK)
    status = keep (run, a, t);
  else
    br__annotation_free (a);
  br__tree_clear (&t[BR__DRAWN_OFF]);
  return status;
}

static br_status
read_note (br__annotation *a, br__tree at[2], br__run *run)
{
  br_status status = br__note_text_read (&a->text, run);
  if (status != BR_OK)
    return status;
  br__note_at_read (run);
  br__read_point (run, at);
  if (br__take_word (run, "to"))
    br__shape_read_name (&a->shape, run, "the name of a shape");
  return br__end_of_line (run);
}

br_status
br__do_note (br__run *run)
{
  br__tree t[BR__DRAWN_NUMBERS] = { BR__TREE_ZERO, BR__TREE_ZERO, BR__TREE_ZERO };
  if (run->lex.token.type == BR__END)
    return show_all (run, BR__NOTE, "no note of a drawing has been given");
  br__annotation *a = new_annotation (run, BR__NOTE);
  if (!a)
    return BR_NO_MEMORY;
  br_status status = read_note (a, t, run);
  if (status == BR_OK)
    status = keep (run, a, t);
  else
    br__annotation_free (a);
  for (int i = 0; i < BR__DRAWN_NUMBERS; i++)
    br__tree_clear (&t[i]);
  return status;
}

/* ---- no ... ---- */

/* Takes out what is like A, which is freed.  */
static br_status
drop (br__run *run, br__annotation *a, const char *what)
{
  br__moves moves = BR__MOVES_ZERO;
  int found = 0;
  size_t start = run->word.offset;
  br_status status = br__end_of_line (run);
  if (status == BR_OK)
    status = take_out (&found, run, a, a->kind == BR__DIMENSION_LINE, &moves);
  if (status == BR_OK && !found)
    status = br__fail (run->error, BR_DOMAIN, start, run->end - start, "there is no such %s", what);
  if (status == BR_OK)
    status = br__remark (run, "the %s is gone", what);
  br__moves_clear (&moves);
  br__annotation_free (a);
  return status;
}

/* `no dimension SHAPE`, or FROM to TO and perhaps which of several.  */
static br_status
no_dimension (br__run *run)
{
  static const br__tree none[BR__DRAWN_NUMBERS];
  br__lexer ahead = run->lex;
  const br__token at = run->lex.token;
  int alone = at.type == BR__NAME && br__lex_next (&ahead, NULL) == BR_OK && ahead.token.type == BR__END;
  br__annotation *a = new_annotation (run, alone ? BR__UNMEASURED : BR__DIMENSION_LINE);
  if (!a)
    return BR_NO_MEMORY;
  br_status status = alone ? br__shape_read_name (&a->shape, run, "the name of a shape") : br__spots_read (a, run);
  if (status == BR_OK && !alone)
    status = br__way_read (a, run);
  if (status == BR_OK && !alone)
    return drop (run, a, "dimension");
  if (status == BR_OK && !br__is_unmeasured (run->sheet, a->shape))
    return keep (run, a, none);
  if (status == BR_OK)
    status = br__annotation_show (run, a);
  br__annotation_free (a);
  return status;
}

static br_status
no_note (br__run *run)
{
  br__annotation *a = new_annotation (run, BR__NOTE);
  if (!a)
    return BR_NO_MEMORY;
  run->word.length = run->lex.token.offset + run->lex.token.length - run->word.offset;
  br_status status = br__note_text_read (&a->text, run);
  if (status == BR_OK)
    return drop (run, a, "note");
  br__annotation_free (a);
  return status;
}

br_status
br__do_no (br__run *run)
{
  int dimension = br__lex_is_word (&run->lex, "dimension"), datum = br__lex_is_word (&run->lex, "datum");
  if (br__lex_is_word (&run->lex, "note"))
    return no_note (run);
  if (!dimension && !datum)
    return br__expected (run, "`dimension`, `note` or `datum`");
  br_status status = br__lex_next (&run->lex, run->error);
  return status != BR_OK ? status : datum ? br__no_datum (run) : no_dimension (run);
}
