/* SPDX-License-Identifier: LGPL-3.0-or-later
   parser.c - from tokens to a tree: values, calls, brackets, and lists.  The depth of brackets, exponents and bare
   functions is counted, so that recursion is bounded.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "exact/status.h"
#include "exact/text.h"
#include "measure/measure.h"
#include "formula/functions.h"
#include "formula/parser_private.h"
#include "formula/words.h"


void
br__tree_clear (br__tree *t)
{
  for (size_t i = 0; i < t->count; i++)
    br_measure_clear (&t->nodes[i].number);
  br__free (t->nodes);
  br__free (t->text);
  memset (t, 0, sizeof *t);
}

br_status
br__parse_advance (br__parser *p)
{
  p->last_end = p->lexer->token.offset + p->lexer->token.length;
  return br__lex_next (p->lexer, p->error);
}

br_status
br__parse_deeper (br__parser *p)
{
  if (++p->depth <= BR_MAX_DEPTH)
    return BR_OK;
  return br__fail (p->error, BR_TOO_BIG, p->lexer->token.offset, 1,
                   "more than %d brackets or powers inside each other", BR_MAX_DEPTH);
}

/* Adds a node whose subtree begins with node FIRST and text at OFFSET.  */
br_status
br__parse_add (br__parser *p, br__op op, unsigned count, size_t first, size_t offset, const br__token *word)
{
  br__tree *t = p->tree;
  if (!br__grow (&t->nodes, &t->room, t->count + 1, sizeof (br__node)))
    return br__fail_plain (p->error, BR_NO_MEMORY, offset, 0);
  br__node *n = &t->nodes[t->count++];
  memset (n, 0, sizeof *n);
  n->op = op;
  n->count = count;
  n->first = first;
  n->offset = offset;
  n->length = p->last_end - offset;
  n->word = word->offset;
  n->word_length = word->length;
  p->stack += 1 - (size_t) count;
  if (p->stack > t->deepest)
    t->deepest = p->stack;
  return BR_OK;
}

/* Adds the number M, which it takes over, for the text WORD.  */
br_status
br__parse_add_number (br__parser *p, br_measure *m, const br__token *word, int made)
{
  br_status status = br__parse_add (p, BR__OP_NUMBER, 0, p->tree->count, word->offset, word);
  if (status == BR_OK)
    {
      br__node *n = &p->tree->nodes[p->tree->count - 1];
      br__number_move (&n->number.value, &m->value);
      n->number.unit = m->unit;
      n->made = made;
      p->rewrite |= made;
    }
  br_measure_clear (m);
  return status;
}

static br_status
parse_number (br__parser *p)
{
  br__token word = p->lexer->token;
  br_measure m = BR_MEASURE_ZERO;
  br_status status = br__lex_number (&m, p->lexer, p->error);
  if (status == BR_OK)
    status = br__parse_advance (p);
  if (status == BR_OK)
    status = br__parse_add_number (p, &m, &word, 0);
  br_measure_clear (&m);
  return status;
}

static br_status
wrong_count (br__parser *p, const br__function *f, const br__token *word, unsigned count)
{
  br__fail (p->error, BR_SYNTAX, word->offset, p->last_end - word->offset,
            "`%s` was given %u value%s", f->name, count, count == 1 ? "" : "s");
  br__hint_call (p->error, f);
  return BR_SYNTAX;
}

static br_status parse (br__tree *t, br__lexer *l, int size, int inside, br_error *error);

static br_status
finish_call (br__parser *p, const br__function *f, const br__token *word, unsigned count, size_t first,
             int bare)
{
  if (count < br__function_least (f) || count > br__function_most (f))
    return wrong_count (p, f, word, count);
  br_status status = br__parse_add (p, BR__OP_CALL, count, first, word->offset, word);
  if (status == BR_OK)
    {
      p->tree->nodes[p->tree->count - 1].function = f;
      p->tree->nodes[p->tree->count - 1].bare = bare;
    }
  return status;
}

static br_status
unclosed (br__parser *p, size_t open, int list)
{
  if (br__lex_is_sign (p->lexer, BR__PLUS_MINUS))
    {
      br__fail (p->error, BR_SYNTAX, p->lexer->token.offset, p->lexer->token.length,
                "a tolerance does not go inside brackets");
      br__hint (p->error, "to add a number below zero, put a blank between the signs: + -");
      return BR_SYNTAX;
    }
  const br__token *t = &p->lexer->token;
  if (list && (t->type == BR__NUMBER || t->type == BR__NAME) && p->last_end < t->offset)
    {
      br__fail (p->error, BR_SYNTAX, t->offset, t->length, "two values side by side");
      br__hint_instead (p->error, p->lexer, p->last_end, t->offset - p->last_end, ", ", NULL);
    }
  else
    {
      br__fail (p->error, BR_SYNTAX, open, 1, "this bracket is not closed");
      if (t->type == BR__END && p->last_end)
        br__hint_instead (p->error, p->lexer, p->last_end, 0, ")", NULL);
    }
  return BR_SYNTAX;
}

/* Goes past a closing bracket, and past the mark of a unit behind it, as in (3 + 2)".  */
static br_status
advance_closed (br__parser *p)
{
  br__lexer *l = p->lexer;
  size_t at = br__skip_blanks (l->text, l->end, l->next), end = 0;
  br__glyph g = br__glyph_at (l->text, l->end, at);
  if ((g.kind == BR__GLYPH_INCH || g.kind == BR__GLYPH_FOOT || g.kind == BR__GLYPH_DEGREE || g.code == '%')
      && br__unit_scan (&end, l->text, l->end, at))
    {
      p->mark = at;
      l->next = end;
    }
  return br__parse_advance (p);
}

/* NAME ( expression , expression ... ), the token at hand is the bracket.  */
static br_status
parse_arguments (br__parser *p, const br__function *f, const br__token *word)
{
  size_t first = p->tree->count, open = p->lexer->token.offset;
  unsigned count = 0;
  int outer = p->size, commas = p->lexer->commas;
  br_status status = br__parse_deeper (p);

  p->size = 0;
  p->lexer->commas = br__function_most (f) >= 2 && br__function_most (f) < 100;
  if (status == BR_OK)
    status = br__parse_advance (p);
  if (status == BR_OK && !br__lex_is_sign (p->lexer, ')'))
    for (;;)
      {
        status = br__parse_sum (p);
        if (status != BR_OK)
          return status;
        count++;
        if (!br__lex_is_sign (p->lexer, ','))
          break;
        status = br__parse_advance (p);
        if (status != BR_OK)
          return status;
      }
  if (status == BR_OK && !br__lex_is_sign (p->lexer, ')'))
    return unclosed (p, open, 1);
  p->lexer->commas = commas;
  if (status == BR_OK)
    status = advance_closed (p);
  p->depth--;
  p->size = outer;
  return status == BR_OK ? finish_call (p, f, word, count, first, 0) : status;
}

static br_status
unknown_function (br__parser *p, const br__token *word)
{
  const char *name = p->lexer->text + word->offset;
  br__fail (p->error, BR_SYNTAX, word->offset, word->length, "there is no function `%.*s`",
            br__clip (name, word->length, 40), name);
  static const struct { const char *typed, *is; } others[] = {
    { "boxes", "in_boxes" }, { "average", "mean" }, { "avg", "mean" }, { "maximum", "max" }, { "minimum", "min" },
    { "root", "sqrt" }, { "total", "sum" }, { "hypotenuse", "diagonal" }, { "round", "nearest" }, { "perimeter", "circumference" } };
  const char *near = NULL;
  for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
    if (br__same_word (name, word->length, others[i].typed))
      near = others[i].is;
  if (near && strcmp (near, "in_boxes") != 0)
    {
      br__hint_instead (p->error, p->lexer, word->offset, word->length, near, NULL);
      return BR_SYNTAX;
    }
  if (!near)
    near = br__nearest_function (name, word->length);
  if (near)
    br__hint (p->error, "did you mean `%s`?", near);
  else
    br__hint (p->error, "to multiply, write `*` before the bracket");
  return BR_SYNTAX;
}

static int
starts_term (const br__lexer *l)
{
  return l->token.type == BR__NUMBER || l->token.type == BR__NAME;
}

/* A minus that belongs to the term behind it: a blank before it and none after, as in
   `abs -3`; `radius - 3` and `radius-3` subtract.  */
static int
is_leading_minus (const br__lexer *l)
{
  if (!br__lex_is_sign (l, '-') || !l->token.blank_before)
    return 0;
  br__lexer ahead = *l;
  return br__lex_next (&ahead, NULL) == BR_OK && !ahead.token.blank_before && starts_term (&ahead);
}

/* A function of one argument before a single term.  */
static br_status
parse_bare (br__parser *p, const br__function *f, const br__token *word)
{
  size_t first = p->tree->count;
  br__token minus = p->lexer->token;
  int negative = br__lex_is_sign (p->lexer, '-');
  br_status status = br__parse_deeper (p);

  if (status == BR_OK && negative)
    status = br__parse_advance (p);
  if (status == BR_OK)
    status = br__parse_primary (p);
  if (status == BR_OK && negative)
    status = br__parse_add (p, BR__OP_NEG, 1, first, minus.offset, &minus);
  p->depth--;
  return status == BR_OK ? finish_call (p, f, word, 1, first, 1) : status;
}

/* A question about one shape: one of its numbers, or the sum or difference of two.  */
typedef struct asked
{
  int word, first, second;
  br__op op;
} asked;

static asked
asked_of (int part)
{
  static const asked rows[] =
  {
    { BR__SHAPE_SIDE_LEFT, BR__SHAPE_X, BR__SHAPE_LEFT, BR__OP_ADD }, { BR__SHAPE_SIDE_RIGHT, BR__SHAPE_X, BR__SHAPE_RIGHT, BR__OP_ADD },
    { BR__SHAPE_SIDE_TOP, BR__SHAPE_Y, BR__SHAPE_TOP, BR__OP_ADD }, { BR__SHAPE_SIDE_BOTTOM, BR__SHAPE_Y, BR__SHAPE_BOTTOM, BR__OP_ADD },
    { BR__SHAPE_CENTRE_X, BR__SHAPE_X, BR__SHAPE_MIDDLE_X, BR__OP_ADD },
    { BR__SHAPE_CENTRE_Y, BR__SHAPE_Y, BR__SHAPE_MIDDLE_Y, BR__OP_ADD },
    { BR__SHAPE_WIDTH, BR__SHAPE_RIGHT, BR__SHAPE_LEFT, BR__OP_SUB }, { BR__SHAPE_HEIGHT, BR__SHAPE_TOP, BR__SHAPE_BOTTOM, BR__OP_SUB }
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    if (rows[i].word == part)
      return rows[i];
  return (asked) { part, part, 0, BR__OP_NAME };
}

/* Parses a question about shapes: top(deck), clear(deck, wheel).  The current token is the bracket.  */
static br_status
parse_shapes (br__parser *p, int part, const br__token *word)
{
  const asked a = asked_of (part);
  size_t open = p->lexer->token.offset, first = p->tree->count;
  br_status status = BR_OK;

  for (int i = 0; i < (part == BR__SHAPE_CLEAR ? 2 : 1) && status == BR_OK; i++)
    {
      if (i && !br__lex_is_sign (p->lexer, ','))
        return br__fail (p->error, BR_SYNTAX, open, 1, "`clear` is asked of two shapes: clear(deck, wheel)");
      status = br__parse_advance (p);
      if (status == BR_OK && p->lexer->token.type != BR__NAME)
        return br__fail (p->error, BR_SYNTAX, p->lexer->token.offset, p->lexer->token.length,
                         "the name of a shape should stand here");
      if (status == BR_OK)
        status = br__parse_advance (p);
    }
  if (status == BR_OK && !br__lex_is_sign (p->lexer, ')'))
    return unclosed (p, open, 0);
  if (status == BR_OK)
    status = br__parse_advance (p);
  br__token whole = *word;
  whole.length = p->last_end - word->offset;
  for (int i = 0; i < (a.second ? 2 : 1) && status == BR_OK; i++)
    {
      status = br__parse_add (p, BR__OP_NAME, 0, p->tree->count, word->offset, &whole);
      if (status == BR_OK)
        p->tree->nodes[p->tree->count - 1].part = (unsigned) (i ? a.second : a.first);
    }
  return status == BR_OK && a.second ? br__parse_add (p, a.op, 2, first, word->offset, &whole) : status;
}

static br_status
parse_name (br__parser *p)
{
  br__token word = p->lexer->token;
  const br__function *f = br__function_find (p->lexer->text + word.offset, word.length);
  br_status status = br__parse_advance (p);
  int part = br__shape_word (p->lexer->text + word.offset, word.length);

  if (status != BR_OK)
    return status;
  if (part && br__lex_is_sign (p->lexer, '('))
    return parse_shapes (p, part, &word);
  if (br__lex_is_sign (p->lexer, '(') && !(f && br__function_most (f) == 0 && !br__closes_next (p->lexer)))
    return f ? parse_arguments (p, f, &word) : unknown_function (p, &word);
  if (f && br__function_least (f) == 1 && br__function_most (f) <= 2 && (starts_term (p->lexer) || is_leading_minus (p->lexer))
      && !br__is_clause_word (p->lexer))
    return parse_bare (p, f, &word);
  if (f && br__function_most (f) == 0)       /* pi */
    return finish_call (p, f, &word, 0, p->tree->count, 1);
  if (f && p->lexer->token.type == BR__NUMBER)
    {
      br__fail (p->error, BR_SYNTAX, word.offset, word.length, "`%s` wants its values in brackets",
                f->name);
      br__hint_call (p->error, f);
      return BR_SYNTAX;
    }
  return br__parse_add (p, BR__OP_NAME, 0, p->tree->count, word.offset, &word);
}

static br_status
parse_brackets (br__parser *p)
{
  size_t open = p->lexer->token.offset;
  int outer = p->size;
  br_status status = br__parse_deeper (p);
  p->size = 0;
  if (status == BR_OK)
    status = br__parse_advance (p);
  if (status == BR_OK)
    status = br__parse_sum (p);
  if (status != BR_OK)
    return status;
  if (br__lex_is_sign (p->lexer, ','))
    {
      br__fail (p->error, BR_SYNTAX, p->lexer->token.offset, 1,
                "a list does not go inside brackets");
      return BR_SYNTAX;
    }
  if (!br__lex_is_sign (p->lexer, ')'))
    return unclosed (p, open, 0);
  p->depth--;
  p->size = outer;
  status = advance_closed (p);
  if (status == BR_OK)
    {
      br__node *n = &p->tree->nodes[p->tree->count - 1];
      n->brackets = 1;
      n->offset = open;
      n->length = p->last_end - open;
    }
  return status;
}

br_status
br__parse_primary (br__parser *p)
{
  const br__token *t = &p->lexer->token;
  if (t->type == BR__NUMBER)
    return parse_number (p);
  if (t->type == BR__NAME)
    return parse_name (p);
  if (br__lex_is_sign (p->lexer, '('))
    return parse_brackets (p);
  if (t->type == BR__END)
    return br__fail (p->error, BR_SYNTAX, t->offset, 0, "the line ends where a value should stand");
  return br__fail (p->error, BR_SYNTAX, t->offset, t->length,
                   "a value should stand here, not `%.*s`",
                   br__clip (p->lexer->text + t->offset, t->length, 20), p->lexer->text + t->offset);
}

/* Two terms side by side, the usual slips.  */
static br_status
check_end (br__parser *p)
{
  const br__lexer *l = p->lexer;
  const br__token *t = &l->token;
  br__node *last = &p->tree->nodes[p->tree->count - 1];

  if (br__lex_is_sign (l, ')') && !p->inside)
    return br__fail (p->error, BR_SYNTAX, t->offset, 1, "this bracket closes nothing");
  if (t->type == BR__NUMBER)
    {
      br__fail (p->error, BR_SYNTAX, t->offset, t->length, "two numbers side by side");
      if (last->op == BR__OP_NUMBER)
        br__hint (p->error, "put a sign or a comma between them");
      return BR_SYNTAX;
    }
  if (br__lex_is_sign (l, '('))
    {
      br__fail (p->error, BR_SYNTAX, t->offset, 1, "a sign is missing before this bracket");
      br__hint (p->error, "to multiply, write `*` before the bracket");
      return BR_SYNTAX;
    }
  if (t->type == BR__NAME && !t->blank_before && last->op == BR__OP_NUMBER
      && !br__same_word (l->text + t->offset, 1, "x"))
    {
      br__fail (p->error, BR_SYNTAX, t->offset, t->length, "a sign is missing before `%.*s`",
                br__clip (l->text + t->offset, t->length, 40), l->text + t->offset);
      br__hint (p->error, "`*` multiplies; a name begins with a letter");
      return BR_SYNTAX;
    }
  return BR_OK;
}

/* Replaces T by the tree parsed from its own echo, so that a text with words becomes one of numbers and signs and the
   offsets of the nodes fit that text.  */
static br_status
rewrite (br__tree *t, br_error *error)
{
  br_text echo = BR_TEXT_ZERO;
  br__lexer l;
  size_t base = t->base;
  br__put_tree (&echo, t);
  br_status status = echo.failed ? br__fail_plain (error, BR_NO_MEMORY, base, 0)
                                 : br__lex_start (&l, br__text_string (&echo), echo.length, error);
  if (status == BR_OK)
    status = parse (t, &l, 0, 0, error);
  t->base = base;
  br__text_clear (&echo);
  return status;
}

static br_status
parse (br__tree *t, br__lexer *l, int size, int inside, br_error *error)
{
  br__tree made = BR__TREE_ZERO;
  br__parser p = { .tree = &made, .lexer = l, .error = error, .last_end = l->token.offset, .size = size, .inside = inside };

  made.base = l->token.offset;
  br_status status = l->status != BR_OK ? l->status : br__parse_sum (&p);
  if (status == BR_OK)
    status = check_end (&p);
  if (status == BR_OK)
    {
      made.length = p.last_end - made.base;
      made.text = br__strndup (l->text + made.base, made.length);
      if (!made.text)
        status = br__fail_plain (error, BR_NO_MEMORY, made.base, 0);
    }
  if (status != BR_OK)
    {
      br__tree_clear (&made);
      return br__lex_fail (l, status);
    }
  for (size_t i = 0; i < made.count; i++)
    {
      made.nodes[i].offset -= made.base;
      made.nodes[i].word -= made.base;
    }
  if (p.rewrite && (status = rewrite (&made, error)) != BR_OK)
    {
      br__tree_clear (&made);
      return br__lex_fail (l, status);
    }
  br__tree_clear (t);
  *t = made;
  return BR_OK;
}

br_status
br__parse (br__tree *t, br__lexer *l, br_error *error)
{
  return parse (t, l, 0, 0, error);
}

br_status
br__parse_size (br__tree *t, br__lexer *l, br_error *error)
{
  return parse (t, l, 1, 0, error);
}

br_status
br__parse_inside (br__tree *t, br__lexer *l, br_error *error)
{
  return parse (t, l, 0, 1, error);
}

void
br__trees_free (br__tree *trees, size_t count)
{
  for (size_t i = 0; i < count; i++)
    br__tree_clear (&trees[i]);
  br__free (trees);
}

/* The function of a tree that is a bare call and nothing else, such as `full 1-3/16`.  */
static const br__node *
bare_call (const br__tree *t)
{
  const br__node *root = &t->nodes[t->count - 1];
  return root->op == BR__OP_CALL && root->bare && root->count == 1 ? root : NULL;
}

/* Puts the call of HEAD around the whole of T.  */
static br_status
wrap (br__tree *t, const br__node *head, br_error *error)
{
  if (!br__grow (&t->nodes, &t->room, t->count + 1, sizeof (br__node)))
    return br__fail_plain (error, BR_NO_MEMORY, t->base, 0);
  br__node *n = &t->nodes[t->count];
  memset (n, 0, sizeof *n);
  n->op = BR__OP_CALL;
  n->count = 1;
  n->function = head->function;
  n->bare = 1;
  n->word = n->offset = 0;
  n->word_length = n->length = t->length;
  t->count++;
  return BR_OK;
}

/* nearest 3.57, 1/8: the second value is meant as the mark.  */
static br_status
refuse_bare_list (const br__tree *trees, const br__lexer *l, br_error *error)
{
  const br__tree *second = &trees[1];
  size_t start = trees[0].base, end = second->base + second->length;
  size_t value = start + trees[0].nodes[trees[0].count - 1].word_length;
  br_text call = BR_TEXT_ZERO;
  br_status status = br__fail (error, BR_SYNTAX, start, end - start, "a function of two values wants brackets");
  while (br__blank_at (l->text + value, 1))
    value++;
  br__text_printf (&call, "nearest(%.*s)", br__clip (l->text + value, end - value, 80), l->text + value);
  br__hint_instead (error, l, start, end - start, br__text_string (&call), NULL);
  br__text_clear (&call);
  return status;
}

br_status
br__parse_list (br__tree **trees, size_t *count, br__lexer *l, br_error *error)
{
  br__tree *made = NULL;
  size_t n = 0, room = 0;
  br_status status;

  for (;;)
    {
      if (!br__grow (&made, &room, n + 1, sizeof (br__tree)))
        {
          status = br__fail_plain (error, BR_NO_MEMORY, l->token.offset, 0);
          break;
        }
      memset (&made[n], 0, sizeof made[n]);
      status = br__parse (&made[n], l, error);
      if (status != BR_OK)
        break;
      n++;
      if (!br__lex_is_sign (l, ','))
        break;
      status = br__lex_next (l, error);
      if (status != BR_OK)
        break;
    }
  const br__node *head = status == BR_OK ? bare_call (&made[0]) : NULL;
  if (head && n == 2 && head->function->id == BR__FUNCTION_NEAREST)
    status = refuse_bare_list (made, l, error);
  for (size_t i = 1; head && i < n && status == BR_OK; i++)
    if (!bare_call (&made[i]))
      status = wrap (&made[i], head, error);
  if (status != BR_OK)
    {
      br__trees_free (made, n);
      return br__lex_fail (l, status);
    }
  *trees = made;
  *count = n;
  return BR_OK;
}
