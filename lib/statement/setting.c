/* SPDX-License-Identifier: LGPL-3.0-or-later
   setting.c - the statements that set a sheet: each shows its value, and sets it when one is
   given.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "measure/measure.h"
#include "statement/statements.h"
#include "shop/paper.h"
#include "sheet/sheet.h"

/* A number as it was written, with the unit that it was written in: "1/4 in".  */
static void
put_written (br_text *t, const br_number *inches, const br_unit *unit)
{
  br_number n = BR_NUMBER_ZERO, factor = BR_NUMBER_ZERO;
  if (!unit)
    {
      br__put_mixed (t, inches);
      return;
    }
  br_style style = { unit, 0 };
  br_status status = br_number_set_ratio (&factor, unit->num, unit->den);
  if (status == BR_OK)
    status = br_number_div (&n, inches, &factor);
  if (status == BR_OK && strcmp (unit->name, "mm") != 0 && strcmp (unit->name, "cm") != 0)
    {
      br__put_mixed (t, &n);
      br__text_printf (t, " %s", unit->name);
    }
  else
    br__put_measure (t, inches, BR_LENGTH, &style);
  br_number_clear (&n);
  br_number_clear (&factor);
}

/* ---- What a setting is written as; nothing where it was not given ---- */

static void
put_units (br_text *t, const br__settings *s)
{
  br__text_puts (t, s->unit->name);
}

static void
put_ruler (br_text *t, const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  if (br__settings_mark (&mark, s) != BR_OK)
    t->failed = 1;
  const br_unit *unit = mark.unit;
  if (!unit && strcmp (s->unit->name, "in") != 0)
    unit = s->unit;
  if (!mark.unit && unit && !mark.length)
    {
      br__put_mixed (t, &mark.size);
      br__text_printf (t, " %s", unit->name);
    }
  else
    put_written (t, &mark.size, mark.length && !mark.unit ? br_unit_find ("in", 2) : mark.unit);
  br_number_clear (&mark.size);
}

static void
put_scale (br_text *t, const br__settings *s)
{
  br__put_scale (t, &s->scale);
}

static void
put_grid (br_text *t, const br__settings *s)
{
  if (s->grid_unit)
    put_written (t, &s->grid, s->grid_unit);
}

static void
put_kerf (br_text *t, const br__settings *s)
{
  if (s->kerf_unit)
    put_written (t, &s->kerf, s->kerf_unit);
}

static void
put_blade (br_text *t, const br__settings *s)
{
  if (s->blade_unit)
    put_written (t, &s->blade, s->blade_unit);
}

static void
put_child (br_text *t, const br__settings *s)
{
  int months = s->child % 12, count = months ? s->child : s->child / 12;
  if (s->child == BR__NO_CHILD)
    br__text_puts (t, "none");
  else if (s->child >= 0)
    br__text_printf (t, "%d %s%s", count, months ? "month" : "year", count == 1 ? "" : "s");
}

static void
put_paper (br_text *t, const br__settings *s)
{
  br_number margin = BR_NUMBER_ZERO;
  const br_unit *unit = NULL;
  if (br__settings_margin (&margin, &unit, s) != BR_OK)
    t->failed = 1;
  br__text_printf (t, "%s, margins ", br__settings_paper (s)->shown);
  put_written (t, &margin, unit);
  br_number_clear (&margin);
}

static const char *const ties_words[] = { "up", "down", "even", NULL };
static const char *const projection_words[] = { "first", "third", NULL };
static const char *const feet_words[] = { "off", "on", NULL };

/* As it is read, its margin with a unit.  */
static void
put_paper_again (br_text *t, const br__settings *s)
{
  br__text_puts (t, br__settings_paper (s)->name);
  if (!s->margin_unit)
    return;
  br__text_puts (t, " margin ");
  put_written (t, &s->margin, s->margin_unit);
}

static void
put_ties (br_text *t, const br__settings *s)
{
  br__text_puts (t, ties_words[s->ties]);
}

static void
put_projection (br_text *t, const br__settings *s)
{
  br__text_puts (t, projection_words[!br__first_angle (s)]);
}

static void
put_feet (br_text *t, const br__settings *s)
{
  br__text_puts (t, feet_words[s->feet]);
}

/* ---- What a setting is read from ---- */

/* `blade 1/2 x 6` is a product, or a blade of 1/2.  */
static br_status
refuse_pair (br__run *run, const br__tree *tree, br_dimension dimension)
{
  const br__node *root = &tree->nodes[tree->count - 1];
  if (root->op != BR__OP_MUL || root->word_length != 1 || (tree->text[root->word] | 0x20) != 'x')
    return BR_OK;
  const br__tree first = br__subtree (tree, br__operand (tree, tree->count - 1, 0));
  br_text one = BR_TEXT_ZERO, product = BR_TEXT_ZERO;
  br__put_tree (&one, &first);
  br__put_tree (&product, tree);
  br_status status = br__fail (run->error, BR_SYNTAX, tree->base, tree->length, "one size should stand here");
  br__hint_instead (run->error, &run->lex, tree->base, tree->length, br__text_string (&one),
                    dimension == BR_AREA ? NULL : br__text_string (&product));
  br__text_clear (&one);
  br__text_clear (&product);
  return status;
}

/* A rational length or plain number, over zero (or from zero where ZERO is set).  UNIT gets how it was written; inches
   where it is a length.  MARK: one with two readings as a mark is refused.  */
static br_status
read_size (br__run *run, br_number *size, const br_unit **unit, int zero, int mark)
{
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_status status = br__read_fixed (&v, &tree, run);
  if (status == BR_OK)
    status = refuse_pair (run, &tree, v.dimension);
  if (status == BR_OK && mark)
    status = br__refuse_mark (run, &tree);
  if (status == BR_OK)
    {
      const br_number *q = br_real_rational (&v.real);
      const br__node *root = &tree.nodes[tree.count - 1];
      *unit = root->op == BR__OP_NUMBER && !br__unit_is_box (root->number.unit) ? root->number.unit : NULL;
      if (v.dimension == BR_LENGTH && !*unit)
        *unit = run->sheet->settings.unit;
      if (!q || (v.dimension != BR_PLAIN && v.dimension != BR_LENGTH))
        status = br__fail (run->error, BR_DOMAIN, tree.base, tree.length,
                           "a length or a plain number should stand here");
      else if (br_number_sign (q) < !zero)
        status = br__fail (run->error, BR_DOMAIN, tree.base, tree.length,
                           zero ? "this cannot be below zero" : "this must be over zero");
      else
        status = br_number_set (size, q);
    }
  br__tree_clear (&tree);
  br__value_clear (&v);
  return status;
}

static br_status
read_ruler (br__run *run, br__settings *new)
{
  new->ruler_given = 1;
  return read_size (run, &new->ruler, &new->ruler_unit, 0, 1);
}

/* A size kept in inches: a plain one is in the sheet's unit.  */
static br_status
read_inches (br__run *run, br_number *size, const br_unit **unit, int zero, int mark)
{
  br_status status = read_size (run, size, unit, zero, mark);
  if (status == BR_OK && !*unit)
    {
      br_number factor = BR_NUMBER_ZERO;
      *unit = run->sheet->settings.unit;
      status = br__settings_factor (&factor, &run->sheet->settings, BR_LENGTH);
      if (status == BR_OK)
        status = br_number_mul (size, size, &factor);
      br_number_clear (&factor);
    }
  return status;
}

static br_status
read_grid (br__run *run, br__settings *new)
{
  return read_inches (run, &new->grid, &new->grid_unit, 0, strcmp (new->unit->name, "in") == 0);
}

static br_status
read_kerf (br__run *run, br__settings *new)
{
  return read_inches (run, &new->kerf, &new->kerf_unit, 1, 0);
}

static br_status
read_blade (br__run *run, br__settings *new)
{
  return read_inches (run, &new->blade, &new->blade_unit, 0, 0);
}

/* The oldest age that is asked for, in years.  */
#define OLDEST 120

/* `3 years`, `18 months` or `none`.  */
static br_status
read_child (br__run *run, br__settings *new)
{
  br_measure m = BR_MEASURE_ZERO;
  size_t place = run->lex.token.offset, length = run->lex.token.length;
  int64_t n = -1, d = 1;

  if (br__lex_is_word (&run->lex, "none"))
    {
      new->child = BR__NO_CHILD;
      return br__lex_next (&run->lex, run->error);
    }
  if (run->lex.token.type != BR__NUMBER)
    return br__expected (run, "an age such as `3 years`, or `none`,");
  br_status status = br__lex_number (&m, &run->lex, run->error);
  if (status == BR_OK && (m.unit || !br_number_get_ratio (&n, &d, &m.value)))
    n = -1;
  br_measure_clear (&m);
  if (status == BR_OK)
    status = br__lex_next (&run->lex, run->error);
  int years = br__lex_is_word (&run->lex, "years") || br__lex_is_word (&run->lex, "year");
  if (status == BR_OK && !years && !br__lex_is_word (&run->lex, "months")
      && !br__lex_is_word (&run->lex, "month"))
    return br__expected (run, "`years` or `months`");
  if (status == BR_OK)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK && (n < 0 || n > 12 * OLDEST))
    n = -1;
  if (status == BR_OK && years)
    n *= 12;
  if (status == BR_OK && (n < 0 || n % d || n / d > 12 * OLDEST))
    return br__fail (run->error, BR_DOMAIN, place, length,
                     "an age is a whole number of months, from 0 to %d years", OLDEST);
  new->child = (int) (n / d);
  return status;
}

/* NAME [margin SIZE] */
static br_status
read_paper (br__run *run, br__settings *new)
{
  const br__token t = run->lex.token;
  new->paper = t.type == BR__NAME ? br__paper_find (run->text + t.offset, t.length) : NULL;
  if (!new->paper)
    {
      br__fill_expected (run, "a paper such as `letter`, `legal`, `tabloid` or `a4`");
      br__hint (run->error, "letter legal tabloid ledger statement, a0 to a5, a to f, arch_a to arch_e1");
      return BR_SYNTAX;
    }
  br_status status = br__lex_next (&run->lex, run->error);
  if (status != BR_OK || !br__lex_is_word (&run->lex, "margin"))
    return status;
  status = br__lex_next (&run->lex, run->error);
  return status == BR_OK ? read_inches (run, &new->margin, &new->margin_unit, 1, 0) : status;
}

static br_status
read_scale (br__run *run, br__settings *new)
{
  size_t start = run->lex.token.offset;
  br_status status = br__scale_read (&new->scale, run->text + start, run->end - start,
                                     br_number_sign (&new->grid) > 0 ? &new->grid : NULL, run->error);
  new->scale_given = 1;
  if (status != BR_OK && run->error)
    run->error->offset += start;
  if (status != BR_OK)
    return status;
  return br__lex_from (&run->lex, run->end, run->error);
}

static br_status
read_units (br__run *run, br__settings *new)
{
  static const char *const known[] = { "in", "mm", "cm", "ft" };
  const br__token *t = &run->lex.token;
  const br_unit *unit = br_unit_find (run->text + t->offset, t->length);
  for (size_t i = 0; unit && i < sizeof known / sizeof known[0]; i++)
    if (strcmp (unit->name, known[i]) == 0)
      {
        new->unit = unit;
        return br__lex_next (&run->lex, run->error);
      }
  return br__expected (run, "`in`, `mm`, `cm` or `ft`");
}

/* One of WORDS; *CHOICE gets which.  */
static br_status
read_choice (br__run *run, const char *const *words, int *choice, const char *expected)
{
  for (size_t i = 0; words[i]; i++)
    if (br__lex_is_word (&run->lex, words[i]))
      {
        *choice = (int) i;
        return br__lex_next (&run->lex, run->error);
      }
  return br__expected (run, expected);
}

static br_status
read_ties (br__run *run, br__settings *new)
{
  int choice = 0;
  br_status status = read_choice (run, ties_words, &choice, "`up`, `down` or `even`");
  new->ties = (br_ties) choice;
  return status;
}

static br_status
read_feet (br__run *run, br__settings *new)
{
  return read_choice (run, feet_words, &new->feet, "`on` or `off`");
}

static br_status
read_projection (br__run *run, br__settings *new)
{
  int choice = 0;
  br_status status = read_choice (run, projection_words, &choice, "`first` or `third`");
  new->projection = choice ? 3 : 1;
  return status;
}

/* ---- The settings ---- */

typedef struct setting
{
  const char *name;
  br_status (*read) (br__run *run, br__settings *new);      /* what stands behind the name */
  void (*put) (br_text *t, const br__settings *s);
  /* If earlier settings influence how its line is parsed: writes the value so that they do not; else NULL.  */
  void (*put_again) (br_text *t, const br__settings *s);
} setting;

static const setting settings[] =
{
  { "units", read_units, put_units, NULL }, { "ruler", read_ruler, put_ruler, put_ruler },
  { "scale", read_scale, put_scale, put_scale }, { "grid", read_grid, put_grid, put_grid },
  { "kerf", read_kerf, put_kerf, put_kerf }, { "blade", read_blade, put_blade, put_blade },
  { "child", read_child, put_child, NULL }, { "paper", read_paper, put_paper, put_paper_again },
  { "ties", read_ties, put_ties, NULL }, { "feet", read_feet, put_feet, NULL },
  { "projection", read_projection, put_projection, NULL }
};

static br_status
emit_setting (br__run *run, const setting *row, const br__moves *moves)
{
  br_record *r = br__record_new ("setting");
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;
  br__put_text (r, "name", row->name);
  row->put (&t, &run->sheet->settings);
  if (t.length || t.failed)
    br__put_from (r, "value", &t);
  else
    br__put_null (r, "value");
  br__text_clear (&t);
  if (moves && moves->count)
    status = br__put_moves (r, moves, run->sheet);
  return br__emit_or_free (run, r, status);
}

/* Takes over NEW as the sheet's settings: everything that depends on them is worked out again.  */
static br_status
change (br__run *run, br__settings *new, const setting *row)
{
  br_sheet *sheet = run->sheet;
  br__moves moves = BR__MOVES_ZERO;
  br__settings *old = br__alloc_zero (1, sizeof *old);
  br_status status = old ? br__changes_room (run) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);

  if (status == BR_OK)
    status = br__may_change (run);
  if (status == BR_OK)
    status = br__graph_renew (sheet->graph, new, &moves, run->error);
  if (status == BR_OK)
    {
      *old = sheet->settings;
      sheet->settings = *new;
      memset (new, 0, sizeof *new);
      br__change new_settings = { .kind = BR__CHANGE_SETTINGS, .settings = old };
      status = br__change_add (run, &new_settings);
      if (status == BR_OK)
        old = NULL;
    }
  if (status == BR_OK)
    status = emit_setting (run, row, &moves);
  if (status == BR_OK)
    status = br__tell_change (run, &moves, &run->changes);
  if (status == BR_OK)
    {
      run->kept = 1;
      run->setting = row->name;
    }
  br__moves_clear (&moves);
  br__free (old);
  return status;
}

br_status
br__do_setting (br__run *run)
{
  const setting *row = settings;
  br__settings copy = { .unit = NULL };
  while (!br__same_word (run->text + run->word.offset, run->word.length, row->name))
    row++;
  if (run->lex.token.type == BR__END)
    return emit_setting (run, row, NULL);
  br_status status = br__settings_copy (&copy, &run->sheet->settings);
  if (status != BR_OK)
    return br__fail_plain (run->error, status, 0, 0);
  status = row->read (run, &copy);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = change (run, &copy, row);
  br__settings_clear (&copy);
  return status;
}

/* 1 if all numbers in LINE have units, so that its meaning does not depend on earlier settings.  A mixed number before its
   unit is one number.  */
static int
stands_alone (const br__line *line)
{
  br__lexer lex;
  int alone = br__lex_start (&lex, line->text, br__note_start (line->text, line->length), NULL) == BR_OK;
  while (alone && lex.token.type != BR__END)
    {
      br_measure m = BR_MEASURE_ZERO;
      if (lex.token.type == BR__NUMBER)
        alone = br__lex_number (&m, &lex, NULL) == BR_OK && m.unit && !br__unit_is_box (m.unit);
      br_measure_clear (&m);
      alone = alone && br__lex_next (&lex, NULL) == BR_OK;
    }
  return alone;
}

void
br__put_setting (br_text *t, const br_sheet *sheet, const br__line *line)
{
  const size_t note = br__note_start (line->text, line->length);
  for (size_t i = 0; i < sizeof settings / sizeof settings[0]; i++)
    if (strcmp (settings[i].name, line->setting) == 0 && settings[i].put_again
        && (settings[i].put_again == put_paper_again || !stands_alone (line))
        && !(settings[i].put_again == put_ruler && !sheet->settings.ruler_unit))    /* a plain number, whatever the unit */
      {
        br__text_printf (t, "%s ", settings[i].name);
        settings[i].put_again (t, &sheet->settings);
        if (note < line->length)
          br__text_puts (t, "  ");
        br__text_put (t, line->text + note, line->length - note);
        return;
      }
  br__text_put (t, line->text, line->length);
}

/* A setting that is any text: shown, or the rest of the line put instead of *TEXT.  */
static br_status
text_setting (br__run *run, const char *name, char **text)
{
  if (run->lex.token.type != BR__END)
    {
      size_t start = run->lex.token.offset, end = run->end;
      while (end > start && (run->text[end - 1] == ' ' || run->text[end - 1] == '\t'))
        end--;
      /* title: market cart, as it is typed */
      if (!run->from_file && run->text[start] == ':' && start + 1 < end)
        for (start++; run->text[start] == ' ' || run->text[start] == '\t'; )
          start++;
      char *copy = br__strndup (run->text + start, end - start);
      if (!copy)
        return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
      br_status status = br__change_text (run, text, copy);
      if (status != BR_OK)
        return status;
      run->kept = 1;
      run->setting = name;
    }
  br_record *r = br__record_new ("setting");
  br__put_text (r, "name", name);
  br__put_text (r, "value", *text ? *text : "");
  return br__emit (run, r);
}

br_status
br__do_title (br__run *run)
{
  return text_setting (run, "title", &run->sheet->title);
}

/* The date is not taken from the clock, so that the same sheet always gives the same page.  */
br_status
br__do_date (br__run *run)
{
  return text_setting (run, "date", &run->sheet->date);
}
