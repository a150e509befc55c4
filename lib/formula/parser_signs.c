/* SPDX-License-Identifier: LGPL-3.0-or-later
   parser_signs.c - parses operators, from powers to sums: one function for each level of precedence.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/number.h"
#include "exact/status.h"
#include "exact/text.h"
#include "formula/functions.h"
#include "formula/parser_private.h"
#include "formula/words.h"
#include "measure/measure.h"

static br_status parse_power (br__parser *p);

/* Signs before a value: each minus turns it round.  */
static br_status
parse_signed (br__parser *p)
{
  br__token first = p->lexer->token;
  size_t start = p->tree->count;
  int negative = 0, any = 0;
  br_status status = BR_OK;

  while (status == BR_OK && (br__lex_is_sign (p->lexer, '-') || br__lex_is_sign (p->lexer, '+')))
    {
      negative ^= p->lexer->token.sign == '-';
      any = 1;
      status = br__parse_advance (p);
    }
  if (status == BR_OK)
    status = parse_power (p);
  if (status == BR_OK && any && negative)
    status = br__parse_add (p, BR__OP_NEG, 1, start, first.offset, &first);
  return status;
}

/* A power in raised digits: 4², d⁻¹.  The token at hand is the raised number.  */
static br_status
parse_raised (br__parser *p)
{
  const br__lexer *l = p->lexer;
  br__token word = l->token, digits = word;
  br__reader r = { l->text, word.offset + word.length, NULL, p->error };
  br__glyph g = br__glyph_at (r.text, r.length, word.offset);
  br__numeral n = BR__NUMERAL_ZERO;
  br_measure m = BR_MEASURE_ZERO;
  int minus = g.kind != BR__GLYPH_SUPERSCRIPT;

  digits.offset += minus ? g.length : 0;
  digits.length -= minus ? g.length : 0;
  br_status status = br__raised_scan (&n, &r, digits.offset);
  size_t first = p->tree->count;
  if (status == BR_OK)
    {
      br_number_swap (&m.value, &n.value);
      status = br__parse_advance (p);
    }
  if (status == BR_OK)
    status = br__parse_add_number (p, &m, &digits, 1);
  if (status == BR_OK && minus)
    status = br__parse_add (p, BR__OP_NEG, 1, first, word.offset, &word);
  br_measure_clear (&m);
  br_number_clear (&n.value);
  return status;
}

/* A power of a power in two ways of writing, 2³^2, or of a function without brackets, sqrt d^2.  */
static br_status
refuse_powers (br__parser *p, size_t offset)
{
  const br__token *t = &p->lexer->token;
  br_text whole = BR_TEXT_ZERO;
  size_t length = p->last_end - offset;
  const br__node *last = &p->tree->nodes[p->tree->count - 1];
  br_status status = br__fail (p->error, BR_SYNTAX, t->offset, t->length, "what this is a power of is not clear");
  br__text_printf (&whole, "(%.*s)", br__clip (p->lexer->text + offset, length, 60), p->lexer->text + offset);
  if (last->bare && last->count && last[-1].first == p->tree->count - 2)
    {
      br_text inner = BR_TEXT_ZERO;
      br__lexer ahead = *p->lexer;
      br_status next = t->type == BR__RAISED ? BR_OK : br__lex_next (&ahead, NULL);
      size_t end = ahead.token.offset + ahead.token.length;
      br__text_printf (&inner, "%s(%.*s)", last->function->name, (int) (end - last[-1].offset),
                       p->lexer->text + last[-1].offset);
      br__text_printf (&whole, "%.*s", (int) (end - p->last_end), p->lexer->text + p->last_end);
      if (next == BR_OK && end - offset < 60)
        br__hint_instead (p->error, p->lexer, offset, end - offset, br__text_string (&whole), br__text_string (&inner));
      br__text_clear (&inner);
    }
  else
    br__hint_instead (p->error, p->lexer, offset, length, br__text_string (&whole), NULL);
  br__text_clear (&whole);
  return status;
}

/* The operator SIGN with its right operand, which is read here, where the left one begins with node FIRST.  */
static br_status
parse_exponent (br__parser *p, size_t first, size_t offset)
{
  br__token sign = p->lexer->token;
  int raised = sign.type == BR__RAISED, outer = p->exponent;
  br_status status = br__parse_deeper (p);

  p->exponent = 1;
  if (status == BR_OK && !raised)
    status = br__parse_advance (p);
  if (status == BR_OK)
    status = raised ? parse_raised (p) : parse_signed (p);
  p->exponent = outer;
  p->depth--;
  if (status == BR_OK)
    status = br__parse_add (p, BR__OP_POW, 2, first, offset, &sign);
  if (status == BR_OK && (p->lexer->token.type == BR__RAISED || (raised && br__lex_is_sign (p->lexer, '^'))))
    return refuse_powers (p, offset);
  return status;
}

/* 1 where the word at hand is a unit.  In `(a + b) in mm` it says in which unit the answer is wanted.  */
static int
is_unit_behind (const br__parser *p, size_t *end)
{
  const br__lexer *l = p->lexer;
  size_t next;
  if (l->token.type != BR__NAME || br__lex_is_known (l)
      || !br__unit_scan (end, l->text, l->end, l->token.offset))
    return 0;
  return !(br__lex_is_word (l, "in") && br__unit_scan (&next, l->text, l->end, *end));
}

/* A unit behind brackets, a call or a power: (3 + 2) in, sqrt(2) in.  */
static br_status
parse_unit_behind (br__parser *p, size_t first, size_t offset)
{
  br__lexer *l = p->lexer;
  br__token word = l->token;
  br_measure m = BR_MEASURE_ZERO;
  size_t at = p->mark ? p->mark : word.offset, used = 0;
  br_status status = br__unit_measure (&m, &used, l->text + at, l->end - at, p->error);

  word.offset = at;
  word.length = used;
  if (status == BR_OK && !p->mark)
    {
      l->next = at + used;
      status = br__lex_next (l, p->error);
    }
  p->mark = 0;
  p->last_end = at + used;
  if (status == BR_OK)
    status = br__parse_add_number (p, &m, &word, 0);
  if (status == BR_OK)
    status = br__parse_add (p, BR__OP_MUL, 2, first, offset, &word);
  if (status == BR_OK)
    p->tree->nodes[p->tree->count - 1].unit = 1;
  br_measure_clear (&m);
  return status;
}

/* 1 if a unit may follow N.  */
static int
takes_unit (const br__node *n)
{
  return n->brackets || n->op == BR__OP_POW || (n->op == BR__OP_CALL && (!n->bare || n->count == 0));
}

static br_status
parse_power (br__parser *p)
{
  size_t first = p->tree->count, offset = p->lexer->token.offset, end;
  br_status status = br__parse_primary (p);

  if (status == BR_OK && (br__lex_is_sign (p->lexer, '^') || p->lexer->token.type == BR__RAISED))
    {
      const br__node *last = &p->tree->nodes[p->tree->count - 1];
      if (p->mark || (last->bare && last->count && !last->brackets))
        return refuse_powers (p, offset);
      status = parse_exponent (p, first, offset);
    }
  if (status == BR_OK && takes_unit (&p->tree->nodes[p->tree->count - 1])
      && (p->mark || (!p->exponent && is_unit_behind (p, &end))))
    status = parse_unit_behind (p, first, offset);
  return status;
}

/* An `x` between two values multiplies, where nothing is called by that name; in 3.5x2 it is parted from the number.
   2x4 is left alone: it may be the wood of that name.  */
static int
is_times (const br__parser *p)
{
  br__lexer *l = p->lexer;
  const br__node *last = &p->tree->nodes[p->operand];
  if (l->token.type != BR__NAME || (l->text[l->token.offset] | 0x20) != 'x' || p->size || br__lex_is_known (l))
    return 0;
  if (l->token.length == 1)
    return 1;
  if (l->text[l->token.offset + 1] < '0' || l->text[l->token.offset + 1] > '9'
      || (last->op == BR__OP_NUMBER && !last->number.unit && br_number_is_integer (&last->number.value)
          && !l->token.blank_before))
    return 0;
  l->token.length = 1;
  l->next = l->token.offset + 1;
  return 1;
}

/* A times sign or a slash.  In a size such as 3/4 × 5-1/2 a times sign parts the numbers.  */
static int
is_product_sign (const br__parser *p)
{
  if (br__lex_is_sign (p->lexer, '/') || is_times (p))
    return 1;
  if (!br__lex_is_sign (p->lexer, '*'))
    return 0;
  return !(p->size && p->lexer->text[p->lexer->token.offset] != '*');
}

int
br__closes_next (const br__lexer *l)
{
  br__lexer ahead = *l;
  return br__lex_next (&ahead, NULL) == BR_OK && br__lex_is_sign (&ahead, ')');
}

/* 1 for the name of a size, which may be given later where it is one letter.  */
static int
is_size (const br__lexer *l)
{
  return l->token.type == BR__NAME
         && (br__lex_is_known (l) || (l->token.length == 1 && !br__lex_is_word (l, "x")
                                      && !br_unit_find (l->text + l->token.offset, 1)));
}

/* Brackets, pi or a function right behind a value, which multiply: 2(3 + 1), 2 pi; and a number or a size behind pi.  */
static int
is_product_implied (const br__parser *p)
{
  const br__lexer *l = p->lexer;
  const br__node *last = &p->tree->nodes[p->operand];
  const br__function *f;
  int pi = last->op == BR__OP_CALL && last->count == 0 && !last->brackets;
  if (last->op != BR__OP_NUMBER && !last->brackets && !pi)
    return 0;
  if (br__lex_is_sign (l, '(') || (pi && l->token.type == BR__NUMBER) || (pi && is_size (l)))
    return 1;
  if (l->token.type != BR__NAME || (last->op != BR__OP_NUMBER && !pi) || br__lex_is_known (l) || br__is_clause_word (l))
    return 0;
  f = br__function_find (l->text + l->token.offset, l->token.length);
  if (!f)
    return 0;
  br__lexer ahead = *l;
  return br__function_most (f) == 0 || (br__lex_next (&ahead, NULL) == BR_OK && br__lex_is_sign (&ahead, '('));
}

/* a / 2(3 + 1): the last operand of the division may be meant to hold what follows.  */
static br_status
refuse_implied (br__parser *p, int divided)
{
  const br__node *last = &p->tree->nodes[p->operand];
  size_t start = last->brackets ? last->offset : last->word;
  const br__lexer *l = p->lexer;
  br_status status = br__fail (p->error, BR_SYNTAX, start, l->token.offset + l->token.length - start,
                               "this can be read in two ways behind a division");
  br_text a = BR_TEXT_ZERO;
  br__text_printf (&a, divided ? "%.*s * " : "(%.*s) * ", br__clip (l->text + start, p->last_end - start, 40),
                   l->text + start);
  br__hint_instead (p->error, l, start, l->token.offset - start, br__text_string (&a), NULL);
  br__text_clear (&a);
  return status;
}

/* 1 where the last number is a division rather than a fraction: 6/2(1 + 2).  */
static int
is_division (const br__parser *p)
{
  const br__node *last = &p->tree->nodes[p->operand];
  br_number one = { 1, 0 };
  return last->op == BR__OP_NUMBER && !last->brackets && !last->number.unit
         && memchr (p->lexer->text + last->word, '/', last->word_length)
         && !memchr (p->lexer->text + last->word, '-', last->word_length)
         && !memchr (p->lexer->text + last->word, ' ', last->word_length)
         && br_number_cmp (&last->number.value, &one) >= 0;
}

/* Parses one factor; p->operand gets the node of its value.  */
static br_status
parse_factor (br__parser *p)
{
  br_status status = parse_signed (p);
  if (status == BR_OK)
    {
      p->operand = p->tree->count - 1;
      if (p->tree->nodes[p->operand].op == BR__OP_NEG && !p->tree->nodes[p->operand].brackets)
        p->operand--;
    }
  return status;
}

static br_status
parse_product (br__parser *p)
{
  size_t first = p->tree->count, offset = p->lexer->token.offset;
  br_status status = parse_factor (p);
  int divided = 0;

  while (status == BR_OK)
    {
      int typed = is_product_sign (p);
      br__token sign = p->lexer->token;
      if (!typed && !is_product_implied (p))
        break;
      if (!typed && (divided || is_division (p)))
        return refuse_implied (p, divided);
      if (typed)
        status = br__parse_advance (p);
      else
        sign.length = 0;
      if (status == BR_OK)
        status = parse_factor (p);
      divided = typed && sign.sign == '/';
      if (status == BR_OK)
        status = br__parse_add (p, divided ? BR__OP_DIV : BR__OP_MUL, 2, first, offset, &sign);
    }
  return status;
}

static int
is_share (const br__parser *p, const br__node *n)
{
  return n->op == BR__OP_NUMBER && br__is_per_cent (p->lexer->text + n->offset, n->length);
}

/* 24 + 10%: a tenth more, or 0.1 more.  What begins with node FIRST at OFFSET and ends before node RIGHT is the left operand.
   A sum of shares is clear, and so is 1 + 10%.  */
static br_status
refuse_share (br__parser *p, size_t first, size_t right, size_t offset, const br__token *sign)
{
  const br__node *nodes = p->tree->nodes, *share = &nodes[right], *left = &nodes[right - 1];
  static const br_number one = { 1, 0 };
  if (p->tree->count != right + 1 || !is_share (p, share) || share->brackets
      || (left->op == BR__OP_NUMBER && !left->number.unit && br_number_cmp (&left->number.value, &one) == 0))
    return BR_OK;
  for (size_t i = first; i < right; i++)
    if (is_share (p, &nodes[i]))
      return BR_OK;
  const char *text = p->lexer->text;
  size_t end = sign->offset, length = p->last_end - offset;
  while (end > offset && br__blank_at (text + end - 1, 1))
    end--;
  int group = right - first > 1 && !(left->brackets && left->first == first), digits = (int) strspn (text + share->offset, "0123456789.");
  br_text more = BR_TEXT_ZERO, sum = BR_TEXT_ZERO;
  br__text_printf (&more, "%s%.*s%s * (1 %c %.*s)", group ? "(" : "", (int) (end - offset), text + offset, group ? ")" : "",
                   sign->sign, (int) (p->last_end - share->offset), text + share->offset);
  br__text_printf (&sum, "%.*s %c %.*s / 100", (int) (end - offset), text + offset, sign->sign, digits, text + share->offset);
  br_status status = br__fail (p->error, BR_SYNTAX, share->offset, share->length,
                               "this can be a share of what stands before it, or so many hundredths");
  br__hint_instead (p->error, p->lexer, offset, length, br__text_string (&more), digits ? br__text_string (&sum) : NULL);
  br__text_clear (&more);
  br__text_clear (&sum);
  return status;
}

br_status
br__parse_sum (br__parser *p)
{
  size_t first = p->tree->count, offset = p->lexer->token.offset;
  br_status status = parse_product (p);

  while (status == BR_OK && (br__lex_is_sign (p->lexer, '+') || br__lex_is_sign (p->lexer, '-')))
    {
      br__token sign = p->lexer->token;
      size_t right = p->tree->count;
      status = br__parse_advance (p);
      if (status == BR_OK)
        status = parse_product (p);
      if (status == BR_OK)
        status = refuse_share (p, first, right, offset, &sign);
      if (status == BR_OK)
        status = br__parse_add (p, sign.sign == '+' ? BR__OP_ADD : BR__OP_SUB, 2, first, offset, &sign);
    }
  return status;
}
