/* SPDX-License-Identifier: LGPL-3.0-or-later
   clauses.c - what several statements read: marks, clauses of rounding, the x between two sizes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "formula/functions.h"
#include "measure/measure.h"
#include "sheet/sheet.h"

/* Rulers that have a name: "to eighths".  */
static const struct { const char *word; int64_t parts; } named[] =
{
  { "wholes", 1 }, { "halves", 2 }, { "quarters", 4 }, { "eighths", 8 }, { "sixteenths", 16 },
  { "inches", 1 }
};

br_status
br__refuse_mark (br__run *run, const br__tree *tree)
{
  const br__node *n = &tree->nodes[tree->count - 1];
  /* The nearest 1/32 is that mark, and not 1/32 put on the ruler.  */
  const char *name = n->op == BR__OP_CALL && n->bare ? n->function->name : "";
  const int percent = tree->length && tree->text[tree->length - 1] == '%';
  if (percent || strcmp (name, "nearest") == 0 || strcmp (name, "up") == 0 || strcmp (name, "down") == 0)
    return br__fail (run->error, BR_SYNTAX, tree->base + (percent ? 0 : n->word), percent ? tree->length : n->word_length,
                     "a mark, such as 1/8, should stand here");
  const char *unit = run->sheet->settings.unit->name;
  int inches = strcmp (unit, "in") == 0 || strcmp (unit, "ft") == 0;
  int64_t num, den;
  if (n->op != BR__OP_NUMBER || n->number.unit || !br_number_get_ratio (&num, &den, &n->number.value))
    return BR_OK;
  /* Rulers of half millimetres are sold, those of thirds of an inch are not.  */
  int64_t parts = inches ? num : den;
  int binary = parts > 1 && parts <= 64 && (parts & (parts - 1)) == 0;
  if (inches ? den != 1 || !(binary || num == 10 || num == 100)
             : num != 1 || !binary || den < 4 || !memchr (tree->text, '/', tree->length))
    return BR_OK;
  br_text a = BR_TEXT_ZERO, b = BR_TEXT_ZERO;
  br_status status = br__fail (run->error, BR_SYNTAX, tree->base, tree->length,
                               inches ? "`%.*s` can be one part in so many of an inch, or so many inches"
                                      : "`%.*s` can be of an inch, or of a millimetre",
                               br__clip (tree->text, tree->length, 20), tree->text);
  br__text_printf (&a, inches ? "1/%.*s" : "%.*s in", br__clip (tree->text, tree->length, 20), tree->text);
  br__text_printf (&b, inches ? "%.*s in" : "%.*s mm", br__clip (tree->text, tree->length, 20), tree->text);
  br__hint_instead (run->error, &run->lex, tree->base, tree->length, br__text_string (&a), br__text_string (&b));
  br__text_clear (&a);
  br__text_clear (&b);
  return status;
}

/* If a diameter is wanted, `radius 1` would be read as half of 1, and `diameter 2` as twice 2: the user means neither.  */
br_status
br__refuse_label (br__run *run, const br__tree *tree)
{
  const br__node *n = &tree->nodes[tree->count - 1];
  const char *name = n->op == BR__OP_CALL && n->bare ? n->function->name : "";
  const int radius = strcmp (name, "radius") == 0;
  if (!radius && strcmp (name, "diameter") != 0)
    return BR_OK;
  const br__tree of = br__subtree (tree, br__operand (tree, tree->count - 1, 0));
  br_text t = BR_TEXT_ZERO;
  br_status status = br__fail (run->error, BR_SYNTAX, tree->base, tree->length, "a diameter should stand here");
  br__text_puts (&t, radius ? "diameter(" : "");
  br__put_tree (&t, &of);
  br__text_puts (&t, radius ? ")" : "");
  br__hint_instead (run->error, &run->lex, tree->base, tree->length, br__text_string (&t), NULL);
  br__text_clear (&t);
  return status;
}

br_status
br__read_mark (br__run *run, br__mark *mark)
{
  br__settings *s = &run->sheet->settings;
  for (size_t i = 0; i < sizeof named / sizeof named[0]; i++)
    if (br__lex_is_word (&run->lex, named[i].word))
      {
        br_number size = BR_NUMBER_ZERO;
        br_status status = br_number_set_ratio (&size, 1, named[i].parts);
        if (status == BR_OK)
          status = br__mark_from (mark, s, &size, NULL);
        return status == BR_OK ? br__lex_next (&run->lex, run->error) : status;
      }
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_status status = br__parse (&tree, &run->lex, run->error);
  if (status == BR_OK)
    status = br__refuse_mark (run, &tree);
  if (status == BR_OK)
    status = br__value_of (&v, run, &tree);
  if (status == BR_OK)
    {
      const br__node *root = &tree.nodes[tree.count - 1];
      const br_unit *unit = root->op == BR__OP_NUMBER ? root->number.unit : NULL;
      if (unit && br__unit_is_box (unit))
        unit = s->grid_unit;
      status = br__mark_from_value (mark, s, &v, unit, run->error);
      if (status != BR_OK && run->error)
        run->error->offset = tree.base, run->error->length = tree.length;
    }
  br__tree_clear (&tree);
  br__value_clear (&v);
  return status;
}

br_status
br__read_clauses (br__run *run, br__clauses *c, const char *last)
{
  br_status status = BR_OK;
  int marked = 0;
  while (status == BR_OK && run->lex.token.type != BR__END)
    {
      if (last && br__lex_is_word (&run->lex, last))
        break;
      if (br__lex_is_word (&run->lex, "to") && !marked++)
        {
          status = br__lex_next (&run->lex, run->error);
          c->at_hand = !last && !br__lex_is_known (&run->lex)
                       ? br__lex_is_word (&run->lex, "stock") ? 1 : br__lex_is_word (&run->lex, "dowels") ? 2 : 0 : 0;
          if (status == BR_OK)
            status = c->at_hand ? br__lex_next (&run->lex, run->error) : br__read_mark (run, &c->mark);
          continue;
        }
      if ((br__lex_is_word (&run->lex, "up") || br__lex_is_word (&run->lex, "down")) && !c->directed++)
        c->direction = br__lex_is_word (&run->lex, "up") ? BR_UP : BR_DOWN;
      else if (br__lex_is_word (&run->lex, "keep") && !c->keep_total)
        {
          c->keep_total = 1;
          br__go_on (run);
          if (!br__lex_is_word (&run->lex, "total"))
            return br__expected (run, "`total` after `keep`");
        }
      else
        return br__expected (run, last ? "`to 1/8`, `up`, `down`, `keep total` or `into` and a file"
                             : "`to 1/8`, `up`, `down` or `keep total`");
      if (status == BR_OK)
        status = br__lex_next (&run->lex, run->error);
    }
  if (status == BR_OK && !marked)
    {
      status = br__settings_mark (&c->mark, &run->sheet->settings);
      if (status != BR_OK)
        br__fail_plain (run->error, status, 0, 0);
    }
  return status;
}

int
br__at_separator (const br__lexer *l)
{
  const char *s = l->text + l->token.offset;
  if (l->status != BR_OK)
    return 0;
  if (l->token.type == BR__SIGN)
    return l->token.sign == '*' && s[0] != '*';
  if (l->token.type != BR__NAME || (s[0] != 'x' && s[0] != 'X'))
    return 0;
  return l->token.length == 1 || (s[1] >= '0' && s[1] <= '9');
}

br_status
br__skip_separator (br__run *run)
{
  br__lexer *l = &run->lex;
  if (!br__at_separator (l))
    return br__expected (run, "`x` and the next size");
  return br__lex_from (l, l->token.type == BR__NAME ? l->token.offset + 1 : l->next, run->error);
}

int
br__take_word (br__run *run, const char *word)
{
  return br__lex_is_word (&run->lex, word) && br__lex_next (&run->lex, run->error) == BR_OK;
}
