/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood.c - the statements stock and part: reading, keeping, forgetting.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/shape.h"
#include "wood/wood.h"

void
br__wood_free (br__wood *w)
{
  for (int i = 0; i < BR__SIZES; i++)
    br__tree_clear (&w->size[i]);
  br__tree_clear (&w->quantity);
  br__free (w->name);
  br__free (w->note);
  br__free (w->from);
  br__free (w->as);
  br__free (w);
}

/* By the method of Fowler, Noll and Vo (FNV-1a), from memory.  */
static size_t
hash_of (const char *name, size_t length)
{
  uint32_t hash = 2166136261u;
  for (size_t i = 0; i < length; i++)
    hash = (hash ^ (unsigned char) name[i]) * 16777619u;
  return hash % BR__WOOD_HASHES;
}

br__wood *
br__wood_find (const br_sheet *sheet, int stock, const char *name, size_t length)
{
  for (br__wood *w = sheet->wood_of ? sheet->wood_of[hash_of (name, length)] : NULL; w; w = w->alike)
    if (w->active && w->stock == stock && strlen (w->name) == length && memcmp (w->name, name, length) == 0)
      return w;
  return NULL;
}

const char *
br__wood_cut_as (const br_sheet *sheet, const char *name)
{
  const br__wood *w = br__wood_find (sheet, 0, name, strlen (name));
  return w ? w->as : NULL;
}

/* ---- Reading ---- */

static br_status
read_size (br__run *run, br__wood *w, int which)
{
  return br__parse_size (&w->size[which], &run->lex, run->error);
}

static br_status
read_next_size (br__run *run, br__wood *w, int which)
{
  br_status status = br__skip_separator (run);
  return status == BR_OK ? read_size (run, w, which) : status;
}

/* The whole number that TEXT begins with; *USED is 0 where there is none or one too long.  */
static int64_t
digits (const char *text, size_t length, size_t *used)
{
  int64_t n = 0;
  for (*used = 0; *used < length && text[*used] >= '0' && text[*used] <= '9'; ++*used)
    {
      if (*used == 3)
        {
          *used = 0;
          return 0;
        }
      n = 10 * n + (text[*used] - '0');
    }
  return n;
}

/* A nominal name such as 2x4, written without a blank and not the beginning of another number.  The
   lexer is put behind it.  */
static br_status
read_lumber (br__run *run, br__wood *w, int *found)
{
  br__lexer *l = &run->lex;
  const char *s = l->text + l->token.offset;
  size_t left = l->end - l->token.offset, a, b;
  br_number t = BR_NUMBER_ZERO, width = BR_NUMBER_ZERO;
  int64_t thick = digits (s, left, &a), wide;

  *found = 0;
  if (l->token.type != BR__NUMBER || a == 0 || a + 1 >= left || (s[a] != 'x' && s[a] != 'X'))
    return BR_OK;
  wide = digits (s + a + 1, left - a - 1, &b);
  size_t end = a + 1 + b;
  if (b == 0 || (end < left && s[end] != 'x' && s[end] != 'X' && !br__blank_at (s + end, left - end)))
    return BR_OK;
  br_status status = br__nominal_lumber (&t, &width, thick, wide);
  br_number_clear (&t);
  br_number_clear (&width);
  if (status != BR_OK)
    return status == BR_DOMAIN ? BR_OK : status;
  *found = 1;
  w->nominal = BR__LUMBER;
  w->lumber[0] = thick < wide ? thick : wide;
  w->lumber[1] = thick < wide ? wide : thick;
  return br__lex_from (l, l->token.offset + end, run->error);
}

static br_status
read_stock_sizes (br__run *run, br__wood *w)
{
  br_status status = BR_OK;
  int lumber = 0;
  if (br__lex_is_word (&run->lex, "round"))
    w->round = 1;
  else if (br__lex_is_word (&run->lex, "plywood"))
    w->nominal = BR__PLYWOOD;
  else if (br__lex_is_word (&run->lex, "hardwood"))
    w->nominal = BR__HARDWOOD;
  else
    status = read_lumber (run, w, &lumber);
  if (status != BR_OK || lumber)
    return status == BR_OK ? read_next_size (run, w, BR__LENGTH_OF) : status;
  if (w->round || w->nominal != BR__ACTUAL)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = read_size (run, w, BR__THICKNESS);
  if (status == BR_OK && w->round)
    status = br__refuse_label (run, &w->size[BR__THICKNESS]);
  if (status == BR_OK && !w->round)
    status = read_next_size (run, w, BR__WIDTH);
  if (status == BR_OK)
    status = read_next_size (run, w, BR__LENGTH_OF);
  return status;
}

static br_status
read_part_sizes (br__run *run, br__wood *w)
{
  br_status status = read_size (run, w, BR__LENGTH_OF);
  if (status == BR_OK && br__at_separator (&run->lex))
    status = read_next_size (run, w, BR__WIDTH);
  if (status == BR_OK && br__at_separator (&run->lex))
    status = read_next_size (run, w, BR__THICKNESS);
  return status;
}

static br_status
read_from (br__run *run, br__wood *w)
{
  br_status status = br__lex_next (&run->lex, run->error);
  const br__token *t = &run->lex.token;
  if (status == BR_OK && t->type != BR__NAME)
    status = br__expected (run, "the name of a stock");
  if (status != BR_OK)
    return status;
  w->from = br__strndup (run->text + t->offset, t->length);
  if (!w->from)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  return br__lex_next (&run->lex, run->error);
}

/* T = a call of FUNCTION for the shape NAME; if FUNCTION is NULL, the percentage of the rectangle around the shape that is
   waste.  */
static br_status
parse_of_shape (br__tree *t, const char *function, const char *name, br__run *run)
{
  br_text text = BR_TEXT_ZERO;
  br__lexer l;
  if (function)
    br__text_printf (&text, "%s(%s)", function, name);
  else
    br__text_printf (&text, "100 - 100 * area(%s) / (width(%s) * height(%s))", name, name, name);
  br_status status = text.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0)
                                 : br__lex_start (&l, text.bytes, text.length, run->error);
  if (status == BR_OK)
    status = br__parse_size (t, &l, run->error);
  br__text_clear (&text);
  return status;
}

/* `as SHAPE [x THICKNESS]`: the blank is the smallest rectangle around the shape, level along the grain.  */
static br_status
read_shape (br__run *run, br__wood *w)
{
  br_status status = br__lex_next (&run->lex, run->error);
  const br__token t = run->lex.token;
  if (status == BR_OK && t.type != BR__NAME)
    status = br__expected (run, "the name of a shape");
  if (status == BR_OK)
    {
      w->as = br__strndup (run->text + t.offset, t.length);
      status = w->as ? br__lex_next (&run->lex, run->error) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  if (status == BR_OK)
    status = parse_of_shape (&w->size[BR__LENGTH_OF], "width", w->as, run);
  if (status == BR_OK)
    status = parse_of_shape (&w->size[BR__WIDTH], "height", w->as, run);
  if (status == BR_OK && br__at_separator (&run->lex))
    status = read_next_size (run, w, BR__THICKNESS);
  return status;
}

/* `as SHAPE` behind sizes: one of the two is enough.  */
static br_status
refuse_both (br__run *run, const br__wood *w)
{
  const br__token as = run->lex.token;
  br_status status = br__lex_next (&run->lex, run->error);
  const br__token shape = run->lex.token;
  if (status != BR_OK || shape.type != BR__NAME)
    return status == BR_OK ? br__expected (run, "the name of a shape") : status;
  br__fail (run->error, BR_SYNTAX, as.offset, as.length, "a part has its sizes, or takes them from a shape by `as`");
  br__hint (run->error, "write `part %s as %.*s%s%.*s`", w->name, (int) shape.length, run->text + shape.offset,
            w->quantity.count ? " qty " : "", (int) w->quantity.length, w->quantity.count ? run->text + w->quantity.base : "");
  return BR_SYNTAX;
}

static br_status
read_clauses (br__run *run, br__wood *w)
{
  br_status status = BR_OK;
  while (status == BR_OK && run->lex.token.type != BR__END)
    {
      if (br__lex_is_word (&run->lex, "qty") && !w->quantity.count)
        {
          br__go_on (run);
          status = br__parse_size (&w->quantity, &run->lex, run->error);
        }
      else if (!w->stock && !w->from && br__lex_is_word (&run->lex, "from"))
        status = read_from (run, w);
      else if (!w->stock && !w->turn && br__lex_is_word (&run->lex, "turn"))
        {
          w->turn = 1;
          status = br__lex_next (&run->lex, run->error);
        }
      else if (!w->stock && !w->size[BR__LENGTH_OF].count && br__lex_is_word (&run->lex, "as"))
        status = read_shape (run, w);
      else if (!w->stock && !w->as && br__lex_is_word (&run->lex, "as"))
        return refuse_both (run, w);
      else if (w->stock)
        return br__expected (run, "`qty` and how many there are");
      else
        return br__expected (run, "`x` and another size, `qty`, `from` or `turn`");
    }
  return status;
}

/* A quantity that is a plain number can be judged at once.  */
static br_status
check_quantity (br__run *run, const br__wood *w)
{
  const br__tree *t = &w->quantity;
  if (t->count == 1 && t->nodes[0].op == BR__OP_NUMBER
      && (t->nodes[0].number.unit || br_number_sign (&t->nodes[0].number.value) <= 0
          || !br_number_is_integer (&t->nodes[0].number.value)))
    return br__fail (run->error, BR_DOMAIN, t->base, t->length,
                     "a quantity is a whole number of one or more");
  return BR_OK;
}

static br_status
read_wood (br__run *run, br__wood *w)
{
  const br__token name = run->lex.token;
  br_status status = BR_OK;
  if (name.type != BR__NAME)
    return br__expected (run, w->stock ? "the name of the stock" : "the name of the part");
  w->name = br__strndup (run->text + name.offset, name.length);
  w->note = br__strndup (run->note, run->note_length);
  if (!w->name || !w->note)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  status = br__lex_next (&run->lex, run->error);
  int sized = status == BR_OK && br__lex_is_sign (&run->lex, '=');
  if (status == BR_OK && !sized && (w->stock || run->lex.token.type != BR__NAME))
    return br__expected (run, "`=`");
  if (status == BR_OK && sized)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK && sized && !(!w->stock && br__lex_is_word (&run->lex, "as") && !br__lex_is_known (&run->lex)))
    status = w->stock ? read_stock_sizes (run, w) : read_part_sizes (run, w);
  if (status == BR_OK)
    status = read_clauses (run, w);
  if (status == BR_OK && !w->stock && !w->size[BR__LENGTH_OF].count)
    {
      br__fail (run->error, BR_SYNTAX, name.offset, name.length, "a part needs its sizes, or the shape that it is cut as");
      br__hint (run->error, "help part");
      return BR_SYNTAX;
    }
  const br__tree *t = &w->size[BR__LENGTH_OF];
  if (status == BR_OK && !w->as && t->count == 1 && t->nodes[0].op == BR__OP_NAME && br__shape_find (run->sheet, run->text + t->base, t->length))
    {
      br__fail (run->error, BR_DOMAIN, t->base, t->length, "`%.*s` is a shape, and no size", (int) t->length, run->text + t->base);
      br__hint (run->error, "write `part %s as %.*s`", w->name, (int) t->length, run->text + t->base);
      return BR_DOMAIN;
    }
  return status == BR_OK ? check_quantity (run, w) : status;
}

/* ---- Keeping ---- */

static void
free_all (br_sheet *sheet)
{
  for (br__wood *w = sheet->wood, *next; w; w = next)
    {
      next = w->next;
      br__wood_free (w);
    }
  br__free (sheet->wood_of);
}

/* 0 out of memory.  */
static int
append (br_sheet *sheet, br__wood *w)
{
  if (!sheet->wood_of && !(sheet->wood_of = br__alloc_zero (BR__WOOD_HASHES, sizeof *sheet->wood_of)))
    return 0;
  br__release_by (sheet, free_all);
  if (sheet->last_wood)
    sheet->last_wood->next = w;
  else
    sheet->wood = w;
  sheet->last_wood = w;
  br__wood **first = &sheet->wood_of[hash_of (w->name, strlen (w->name))];
  w->alike = *first;
  *first = w;
  return 1;
}

/* 1 if a size or the quantity of W is that of another.  */
static int
follows_others (const br__wood *w)
{
  for (int i = 0; i <= BR__SIZES; i++)
    {
      const br__tree *t = i < BR__SIZES ? &w->size[i] : &w->quantity;
      for (size_t k = 0; k < t->count; k++)
        if (t->nodes[k].op == BR__OP_NAME)
          return 1;
    }
  return 0;
}

/* How much of the blank is not the part.  */
static br_status
tell_waste (br__run *run, const br__wood *w)
{
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = parse_of_shape (&tree, NULL, w->as, run);
  if (status == BR_OK)
    status = br__value_of (&v, run, &tree);
  br_status written = status == BR_OK ? br__put_real_decimal (&t, NULL, &v.real, 3, run->sheet->settings.bits) : BR_UNDECIDED;
  if (t.failed || written == BR_NO_MEMORY || written == BR_STOPPED)
    status = br__fail_untold (run->error, t.failed ? BR_NO_MEMORY : written, 0, run->end);
  else if (written == BR_OK)
    status = br__remark (run, "the blank is the rectangle around %s, its length along the grain: %s %% of it is waste", w->as,
                         br__text_string (&t));
  br__tree_clear (&tree);
  br__value_clear (&v);
  br__text_clear (&t);
  return status;
}

static br_status
keep_wood (br__run *run, int stock)
{
  br__wood *w = br__alloc_zero (1, sizeof *w);
  br__piece piece = { 0 };
  if (!w)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  w->stock = stock;
  br_status status = read_wood (run, w);
  if (status == BR_OK)
    status = br__wood_work_out (&piece, run, w);
  /* If its sizes depend on others, a saved stock or part may have become impossible after it was typed; it is accepted.  */
  if (status == BR_OK && piece.problem.length && !piece.waits && !(run->from_file && follows_others (w)))
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset, "%s",
                       br__text_string (&piece.problem));
  br__wood *old = status == BR_OK ? br__wood_find (run->sheet, stock, w->name, strlen (w->name)) : NULL;
  if (status == BR_OK && !append (run->sheet, w))
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status != BR_OK)
    {
      br__piece_clear (&piece);
      br__wood_free (w);
      return status;
    }
  /* From here on the sheet owns it, active or not.  */
  if (old)
    status = br__take_out (run, &old->active, old->line);
  if (status == BR_OK)
    status = br__change_switch (run, &w->active);
  if (status == BR_OK)
    status = br__line_append (run, &run->line);
  if (status == BR_OK)
    {
      w->line = run->line;
      status = br__wood_show (run, &piece);
    }
  if (status == BR_OK && w->as && !piece.problem.length)
    status = tell_waste (run, w);
  br__piece_clear (&piece);
  return status;
}

br_status
br__do_stock (br__run *run)
{
  return run->lex.token.type == BR__END ? br__stock_list (run) : keep_wood (run, 1);
}

br_status
br__do_part (br__run *run)
{
  return keep_wood (run, 0);
}

br_status
br__wood_forget (br__run *run, int stock)
{
  br_status status = BR_OK;
  const br__token t = run->lex.token;
  br__wood *w = NULL;
  if (t.type != BR__NAME)
    status = br__expected (run, stock ? "the name of a stock" : "the name of a part");
  else
    {
      w = br__wood_find (run->sheet, stock, run->text + t.offset, t.length);
      status = w ? br__lex_next (&run->lex, run->error)
                 : br__fail (run->error, BR_DOMAIN, t.offset, t.length, "there is no %s called `%.*s`",
                             stock ? "stock" : "part", br__clip (run->text + t.offset, t.length, 40),
                             run->text + t.offset);
    }
  if (status == BR_OK)
    status = br__take_out (run, &w->active, w->line);
  if (status != BR_OK)
    return status;
  return br__emit_forgotten (run, w->name);
}
