/* SPDX-License-Identifier: LGPL-3.0-or-later
   echo.c - writes a tree as it was parsed, with brackets where it could be read differently.  A tree is
   in postfix order, so each subtree begins with a leaf.  The text before a subtree (brackets, names of functions) is stored
   with that leaf, outermost first; then one pass over the nodes writes everything.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "formula/functions.h"
#include "formula/tree.h"
#include "measure/measure.h"

/* Text before a leaf.  */
typedef struct before
{
  const char *text;
  size_t next;            /* index + 1 of what follows it, 0: none */
} before;

typedef struct echo
{
  const br__tree *tree;
  size_t *first;          /* of each leaf: index + 1 of the outermost text before it */
  char *open;             /* of each node: brackets go around it */
  before *befores;
  size_t count;
} echo;

static void
put_before (echo *e, size_t node, const char *text)
{
  size_t leaf = e->tree->nodes[node].first;
  e->befores[e->count].text = text;
  e->befores[e->count].next = e->first[leaf];
  e->first[leaf] = ++e->count;
}

/* How tightly a node binds.  */
enum { SUM = 1, PRODUCT, SIGN, POWER, ATOM };

/* The place of a shape's side is a sum that is written as one call, its width a difference: both parts have the same word.  */
static int
is_side (const br__tree *t, size_t i)
{
  const br__node *n = &t->nodes[i];
  return (n->op == BR__OP_ADD || n->op == BR__OP_SUB) && n->count == 2 && i >= 2 && t->nodes[i - 1].op == BR__OP_NAME
         && t->nodes[i - 1].part && t->nodes[i - 2].op == BR__OP_NAME && t->nodes[i - 1].word == t->nodes[i - 2].word;
}

static int
binds (const br__tree *t, size_t i)
{
  switch (t->nodes[i].op)
    {
    case BR__OP_NEG: return SIGN;
    case BR__OP_ADD: case BR__OP_SUB: return is_side (t, i) ? ATOM : SUM;
    case BR__OP_MUL: return t->nodes[i].unit ? POWER : PRODUCT;
    case BR__OP_DIV: return PRODUCT;
    case BR__OP_POW: return POWER;
    default: return ATOM;
    }
}

/* How the number N was written: with a hyphen in it, with a slash, or as one word.  */
enum { WORD, SLASH, HYPHEN };

static int
form_of (const br__tree *t, const br__node *n)
{
  const char *s = t->text + n->word;
  int form = WORD;
  if (n->op != BR__OP_NUMBER || n->made || n->number.unit)
    return WORD;
  for (size_t at = 0; at < n->word_length; )
    {
      br__glyph g = br__glyph_at (s, n->word_length, at);
      if (g.kind == BR__GLYPH_DASH)
        return HYPHEN;
      if (g.kind == BR__GLYPH_BLANK)
        return WORD;
      if (g.kind != BR__GLYPH_DIGIT && g.kind != BR__GLYPH_POINT)
        form = SLASH;
      at += g.length;
    }
  return form;
}

/* 1 where the sign of N was typed without a blank on both sides.  */
static int
is_tight (const br__tree *t, const br__node *n)
{
  size_t end = n->word + n->word_length;
  return n->word > 0 && end < t->length
         && !(br__blank_at (t->text + n->word - 1, 1) && br__blank_at (t->text + end, t->length - end));
}

/* 1 where operand CHILD of the node PARENT (the right one where RIGHT is 1) wants brackets.  */
static int
wants_brackets (const br__tree *t, size_t parent, size_t child, int right)
{
  const br__node *p = &t->nodes[parent], *c = &t->nodes[child];
  int form = form_of (t, c), tight = binds (t, child);
  if (c->brackets)
    return 1;
  switch (p->op)
    {
    case BR__OP_NEG:
      return tight < ATOM;
    case BR__OP_ADD: case BR__OP_SUB:
      return (right && tight == SUM) || (right && tight == SIGN) || (form == HYPHEN && is_tight (t, p));
    case BR__OP_MUL: case BR__OP_DIV:
      if (p->unit)
        return !right && tight < POWER;
      /* 6/(1 + 2) in and 6/a/3 in: the unit is that of the divisor, which a reader could take otherwise.  */
      return tight < PRODUCT || (right && tight < POWER) || form == HYPHEN || (form == SLASH && p->op == BR__OP_DIV)
             || (right && p->op == BR__OP_DIV
                 && ((c->op == BR__OP_MUL && c->unit) || (c->op == BR__OP_NUMBER && c->number.unit && is_tight (t, p))));
    default: /* a power */
      return right ? tight < ATOM && c->op != BR__OP_NEG : tight < ATOM || form != WORD || c->number.unit != NULL;
    }
}

/* 1 for a function of textbooks, where sqrt 3/2 could be half of sqrt 3.  */
static int
is_of_textbooks (const br__function *f)
{
  static const char *const names[] = { "sqrt", "sin", "cos", "tan", "atan" };
  for (size_t k = 0; k < sizeof names / sizeof names[0]; k++)
    if (strcmp (f->name, names[k]) == 0)
      return 1;
  return 0;
}

/* A call of a bare function with a single word behind it keeps the look that it has on a line of its own.  */
static int
stays_bare (const br__tree *t, size_t i)
{
  return t->nodes[i].bare && i == t->count - 1 && t->nodes[i - 1].first == i - 1 && !t->nodes[i - 1].brackets
         && !(form_of (t, &t->nodes[i - 1]) == SLASH && is_of_textbooks (t->nodes[i].function));
}

static const char *
sign_of (const br__node *n)
{
  switch (n->op)
    {
    case BR__OP_ADD: return " + ";
    case BR__OP_SUB: return " - ";
    case BR__OP_DIV: return " / ";
    case BR__OP_POW: return "^";
    default: return n->unit ? " " : " * ";
    }
}

/* Stores the text before the operands of node I, the innermost first.  */
static void
lay_out (echo *e, size_t i)
{
  const br__tree *t = e->tree;
  const br__node *n = &t->nodes[i];
  size_t last = i - 1, child = last;
  if (!n->count || is_side (t, i))
    return;
  for (unsigned k = n->count; k-- > 0; child = t->nodes[child].first - 1)
    {
      if (n->op != BR__OP_CALL && wants_brackets (t, i, child, k > 0))
        {
          e->open[child] = 1;
          put_before (e, child, "(");
        }
      if (k > 0)
        put_before (e, child, n->op == BR__OP_CALL ? ", " : sign_of (n));
    }
  if (n->op == BR__OP_NEG)
    put_before (e, i, "-");
  else if (n->op == BR__OP_CALL)
    {
      put_before (e, i, stays_bare (t, i) ? " " : "(");
      put_before (e, i, n->function->name);
    }
}

void
br__put_node_number (br_text *t, const br__tree *tree, const br__node *n)
{
  br_style style = { n->number.unit, 0 };
  const char *word = tree->text + n->word;
  if (n->made)
    br__put_measure (t, &n->number.value, n->number.unit ? n->number.unit->dimension : BR_PLAIN, &style);
  else
    {
      if (n->word_length && br__word_end (word, n->word_length, 0) > 0)
        br__text_puts (t, "1 ");
      br__text_put (t, word, n->word_length);
    }
}

static void
put_leaf (br_text *t, const echo *e, size_t i)
{
  const br__node *n = &e->tree->nodes[i];
  for (size_t b = e->first[i]; b; b = e->befores[b - 1].next)
    br__text_puts (t, e->befores[b - 1].text);
  if (n->op == BR__OP_NUMBER && n->made)
    br__put_node_number (t, e->tree, n);
  else if (n->op == BR__OP_CALL)
    br__text_puts (t, n->function->name);
  else
    br__text_put (t, e->tree->text + n->word, n->word_length);
}

void
br__put_tree (br_text *t, const br__tree *tree)
{
  echo e = { tree, br__alloc_zero (tree->count, sizeof (size_t)), br__alloc_zero (tree->count, 1),
             br__alloc_zero (4 * tree->count, sizeof (before)), 0 };
  if (!e.first || !e.open || !e.befores)
    t->failed = 1;
  else
    {
      for (size_t i = 0; i < tree->count; i++)
        lay_out (&e, i);
      for (size_t i = 0; i < tree->count; i++)
        {
          const br__node *n = &tree->nodes[i];
          if (n->first == i && !(i > 0 && i + 1 < tree->count && is_side (tree, i + 1)))
            put_leaf (t, &e, i);
          if (n->op == BR__OP_CALL && n->count && !stays_bare (tree, i))
            br__text_putc (t, ')');
          if (e.open[i])
            br__text_putc (t, ')');
        }
    }
  br__free (e.first);
  br__free (e.open);
  br__free (e.befores);
}
