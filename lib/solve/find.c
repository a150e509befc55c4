/* SPDX-License-Identifier: LGPL-3.0-or-later
   find.c - the statement `find`: finds the size of one dimension that makes two values equal, and the marks
   next to it.  It only proposes; the sheet is not changed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/hidden.h"
#include "solve/find.h"

#define DIGITS 12
#define ROUGH_DIGITS 6
/* The range of the search to either side: in inches, in degrees.  */
#define REACH 1200
#define TURN 360

/* The name that is looked for and what it measures.  */
typedef struct wanted
{
  br__entry *entry;
  br_dimension dimension;
} wanted;

typedef struct finding
{
  br__run *run;
  const wanted *name;
  br__program_names names;
  br__tree left, right;
  br__token word;
  br__roots roots;
} finding;

static br__role
role_of (void *user, br__entry *e)
{
  return e == ((const wanted *) user)->entry ? BR__ROLE_INPUT : BR__ROLE_FORMULA;
}

static br_dimension
dimension_of (void *user, br__entry *e)
{
  (void) e;
  return ((const wanted *) user)->dimension;
}

/* ---- The answer about a root ---- */

/* A decimal of as many digits as LOW and HIGH have in common, in the sheet's unit.  */
static br_status
common_decimal (br_text *t, const br_number *low, const br_number *high, br_dimension dimension,
                const br__settings *s)
{
  br_number factor = BR_NUMBER_ZERO, a = BR_NUMBER_ZERO, b = BR_NUMBER_ZERO;
  br_text other = BR_TEXT_ZERO;
  br_status status = br__settings_factor (&factor, s, dimension);
  if (status == BR_OK)
    status = br_number_div (&a, low, &factor);
  if (status == BR_OK)
    status = br_number_div (&b, high, &factor);
  for (unsigned digits = DIGITS; status == BR_OK; digits--)
    {
      br__text_reset (t);
      br__text_reset (&other);
      if (digits == 0)
        break;
      br__put_decimal (t, &a, digits);
      br__put_decimal (&other, &b, digits);
      if (t->failed || other.failed)
        status = BR_NO_MEMORY;
      else if (strcmp (br__text_string (t), br__text_string (&other)) == 0)
        break;
    }
  br__text_clear (&other);
  br_number_clear (&factor);
  br_number_clear (&a);
  br_number_clear (&b);
  return status;
}

static br_status
put_common (br_record *r, const char *key, const br_number *low, const br_number *high,
            br_dimension dimension, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  br_status status = common_decimal (&t, low, high, dimension, s);
  if (status == BR_OK && t.length)
    br__put_from (r, key, &t);
  else
    br__put_null (r, key);
  br__text_clear (&t);
  return status;
}

/* The mark nearest to the value between ENDS.  If the mark is a length, ENDS become lengths.  */
static br_status
put_common_mark (br_record *r, br__value *ends, const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  br__rounded rounded[2] = { BR__ROUNDED_ZERO, BR__ROUNDED_ZERO };
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = br__settings_mark (&mark, s);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = br__round_value (&rounded[i], &ends[i], &mark, BR_NEAREST, s, NULL);
  if (status == BR_OK && !br_number_equal (&rounded[0].value, &rounded[1].value))
    status = BR_UNDECIDED;
  if (status == BR_OK)
    status = br_number_sub (&low, &rounded[0].value, &ends[1].real.rational);
  if (status == BR_OK)
    status = br_number_sub (&high, &rounded[0].value, &ends[0].real.rational);
  if (status == BR_OK)
    {
      br__put_mark_text (&t, &rounded[0].value, ends[0].dimension, &mark, s);
      br__put_from (r, "mark", &t);
      br__put_null (r, "error");
      status = put_common (r, "error_decimal", &low, &high, ends[0].dimension, s);
      br__put_truth (r, "tie", 0);
    }
  br_number_clear (&mark.size);
  br_number_clear (&low);
  br_number_clear (&high);
  br__rounded_clear (&rounded[0]);
  br__rounded_clear (&rounded[1]);
  return status;
}

static void
put_no_mark (br_record *r)
{
  br__put_null (r, "mark");
  br__put_null (r, "error");
  br__put_null (r, "error_decimal");
}

/* The fields of br__put_value and br__put_on_ruler for a root of which only a lower and an upper bound
   are known.  */
static br_status
put_between (br_record *r, const br__solution *root, br_dimension dimension, const br__settings *s)
{
  br__value ends[2] = { { .dimension = dimension }, { .dimension = dimension } };
  br_text t = BR_TEXT_ZERO;
  br_status status = br_real_set_number (&ends[0].real, &root->low);
  if (status == BR_OK)
    status = br_real_set_number (&ends[1].real, &root->high);
  br__put_null (r, "exact");
  if (status == BR_OK)
    status = put_common (r, "decimal", &root->low, &root->high, dimension, s);
  br__put_truth (r, "decimal_exact", 0);
  br__put_unit_name (&t, s, dimension);
  br__put_from (r, "unit", &t);
  if (status == BR_OK)
    status = common_decimal (&t, &root->low, &root->high, dimension, s);
  if (dimension != BR_PLAIN)
    br__text_putc (&t, ' ');
  br__put_unit_name (&t, s, dimension);
  br__put_from (r, "shown", &t);
  if (status == BR_OK && (dimension == BR_PLAIN || dimension == BR_LENGTH))
    status = put_common_mark (r, ends, s);
  else
    put_no_mark (r);
  br__value_clear (&ends[0]);
  br__value_clear (&ends[1]);
  return status;
}

static br_status
put_mark_row (br_list *list, const br_number *value, const char *side, br_dimension dimension,
              const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  br__value v = { .dimension = dimension };
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_record *row = br__list_record (list);
  br_status status = br__settings_mark (&mark, s);
  if (status == BR_OK)
    status = br_real_set_number (&v.real, value);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK)
    {
      br__put_text (row, "side", side);
      br__put_exact (row, "value", br_real_rational (&z));
      br__put_mark_text (&t, value, dimension, &mark, s);
      br__put_from (row, "mark", &t);
    }
  br__text_clear (&t);
  br_real_clear (&z);
  br__value_clear (&v);
  br_number_clear (&mark.size);
  return status;
}

/* Why no mark is offered, or what to type.  */
static void
put_advice (br_text *message, const br__kept *k, const char *name, int drawn)
{
  if (k->failing)
    br__text_printf (message, "`%s` fails whatever `%s` is, so no mark keeps every check", k->failing->formula, name);
  else if (k->undecided)
    br__text_printf (message, "`%s` is undecided whatever `%s` is, so no mark is known to keep every check",
                     k->undecided->formula, name);
  else if (k->lost)
    br__text_printf (message, "`%s` cannot be followed from `%s`, so no mark is known to keep every check",
                     k->lost->formula, name);
  else if (drawn && !k->has_below && !k->has_above)
    br__text_puts (message, "no mark near it keeps every check");
  else
    br__text_printf (message, "nothing is set yet: write `%s = ...` to take one", name);
  if (k->waiting)
    {
      br__text_printf (message, "; `%s` was not asked: it waits for ", k->waiting->formula);
      br__put_entry_words (message, k->missing);
    }
}

/* The marks at which every check holds.  */
static br_status
put_keeping (br_record *r, br_text *message, finding *f, const br__solution *root)
{
  br__kept kept = BR__KEPT_ZERO;
  const br__settings *s = &f->run->sheet->settings;
  br_dimension d = f->name->dimension;
  br_status status = BR_OK;
  int drawn = d == BR_PLAIN || d == BR_LENGTH;
  if (drawn)
    status = br__kept_find (&kept, f->run->sheet, &f->names, root, d);
  br_list *list = br__put_list (r, "keeping");
  int on = kept.has_below && kept.has_above && br_number_equal (&kept.below, &kept.above);
  if (status == BR_OK && kept.has_below)
    status = put_mark_row (list, &kept.below, on ? root->exact ? "on" : "near" : "below", kept.dimension, s);
  if (status == BR_OK && kept.has_above && !on)
    status = put_mark_row (list, &kept.above, "above", kept.dimension, s);
  put_advice (message, &kept, br__entry_name (f->name->entry), drawn);
  br__kept_clear (&kept);
  return status;
}

/* An end of a range of roots, exactly (R may be NULL) and in words; null where ROOT stands alone or it is not known
   exactly.  */
static br_status
put_range_end (br_record *r, const char *key, br_text *t, const br_number *at, br__end end, br_dimension dimension,
               const br__settings *s)
{
  br__value v = { .dimension = dimension };
  br_real z = BR_REAL_ZERO;
  br_text shown = BR_TEXT_ZERO;
  br_status status = br_real_set_number (&v.real, at);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK && end == BR__END_ROUGH)
    {
      if (r)
        br__put_null (r, key);
      br__text_puts (t, "about ");
      status = br__put_real_decimal (t, NULL, &z, ROUGH_DIGITS, s->bits);
    }
  else if (status == BR_OK)
    {
      br__put_exact (r, key, br_real_rational (&z));
      status = br__shown (&shown, &v, s);
      br__text_printf (t, "%s%s", br__text_string (&shown), end == BR__END_OUT ? " (not itself)" : "");
    }
  br__text_clear (&shown);
  br_real_clear (&z);
  br__value_clear (&v);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}

/* The fields and the message for a ROOT that is a range.  */
static br_status
put_range (br_record *r, br_text *message, const br__solution *root, br_dimension dimension, const br__settings *s)
{
  br_text from = BR_TEXT_ZERO, to = BR_TEXT_ZERO;
  br_status status = BR_OK;
  if (!root->range)
    {
      br__put_null (r, "from");
      br__put_null (r, "to");
      return BR_OK;
    }
  status = put_range_end (r, "from", &from, &root->from, root->from_end, dimension, s);
  if (status == BR_OK)
    status = put_range_end (r, "to", &to, &root->to, root->to_end, dimension, s);
  if (status == BR_OK && (from.failed || to.failed))
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    br__text_printf (message, "every size from %s to %s makes it so; ", br__text_string (&from),
                     br__text_string (&to));
  if (from.failed || to.failed)
    status = BR_NO_MEMORY;
  br__text_clear (&from);
  br__text_clear (&to);
  return status;
}

/* A place where it is not decided: its digits, or from where to where.  CLOSE: the one before had digits.  */
static br_status
put_place (br_text *t, int *close, const br_number *low, const br_number *high, br_dimension dimension, const br__settings *s)
{
  br_text digits = BR_TEXT_ZERO;
  br_status status = common_decimal (&digits, low, high, dimension, s);
  int has_digits = digits.length > 0;
  if (status == BR_OK && has_digits)
    br__text_printf (t, "%s%s", *close ? "" : "close to ", br__text_string (&digits));
  else if (status == BR_OK)
    {
      br__text_puts (t, "from ");
      status = put_range_end (NULL, NULL, t, low, BR__END_ROUGH, dimension, s);
      br__text_puts (t, " to ");
      if (status == BR_OK)
        status = put_range_end (NULL, NULL, t, high, BR__END_ROUGH, dimension, s);
    }
  *close = has_digits;
  br__text_clear (&digits);
  return status;
}

/* Adds a clause about what the search could not decide.  */
static br_status
put_open (br_text *message, const finding *f)
{
  const br__settings *s = &f->run->sheet->settings;
  const br__roots *r = &f->roots;
  int close = 0;
  br_status status = BR_OK;
  if (r->more)
    br__text_printf (message, "; there are more than %d", BR__MOST_ROOTS);
  if (r->stopped)
    br__text_puts (message, "; the search was ended, so there may be others");
  if (r->open)
    br__text_puts (message, "; it is not decided whether there are others ");
  for (int i = 0; i < r->open && i < BR__OPEN_ROOM && status == BR_OK; i++)
    {
      int last = i + 1 == r->open;
      br__text_puts (message, i == 0 ? "" : last ? " and " : ", ");
      status = put_place (message, &close, &r->open_low[i], &r->open_high[i], f->name->dimension, s);
    }
  if (r->open > BR__OPEN_ROOM)
    br__text_puts (message, " and other sizes");
  return status;
}

static br_status
emit_root (finding *f, size_t index)
{
  const br__solution *root = &f->roots.rows[index];
  const br__settings *s = &f->run->sheet->settings;
  br__value v = { .real = root->value, .dimension = f->name->dimension };    /* borrowed */
  br_text message = BR_TEXT_ZERO;
  br_record *r = br__record_new ("found");
  br_status status;
  br__put_text (r, "name", br__entry_name (f->name->entry));
  status = root->exact ? br__put_value (r, &v, s) : put_between (r, root, v.dimension, s);
  if (status == BR_OK && root->exact)
    status = br__put_on_ruler (r, &v, s);
  br__put_count (r, "solution", (int64_t) index + 1);
  br__put_count (r, "solutions", (int64_t) f->roots.count);
  br__put_truth (r, "linear", f->roots.linear);
  if (status == BR_OK)
    status = put_range (r, &message, root, v.dimension, s);
  if (status == BR_OK)
    status = put_keeping (r, &message, f, root);
  if (status == BR_OK)
    status = put_open (&message, f);
  br__put_from (r, "message", &message);
  br__text_clear (&message);
  return br__emit_or_free (f->run, r, status);
}

/* No root: where it was looked for.  */
static br_status
emit_none (finding *f)
{
  static const char *const nulls[] = { "exact", "decimal", "decimal_exact", "unit", "shown" };
  const br__settings *s = &f->run->sheet->settings;
  const br__roots *roots = &f->roots;
  br_style style = br__settings_style (s);
  br_text t = BR_TEXT_ZERO;
  br_record *r = br__record_new ("found");
  br_status status = BR_OK;
  br__put_text (r, "name", br__entry_name (f->name->entry));
  for (size_t i = 0; i < sizeof nulls / sizeof nulls[0]; i++)
    br__put_null (r, nulls[i]);
  put_no_mark (r);
  br__put_count (r, "solution", 0);
  br__put_count (r, "solutions", 0);
  br__put_truth (r, "linear", roots->linear);
  br__put_null (r, "from");
  br__put_null (r, "to");
  (void) br__put_list (r, "keeping");
  br__text_printf (&t, "no value of `%s`", br__entry_name (f->name->entry));
  if (!roots->linear)
    {
      br__text_puts (&t, " from ");
      br__put_measure (&t, &roots->low, f->name->dimension, &style);
      br__text_puts (&t, " to ");
      br__put_measure (&t, &roots->high, f->name->dimension, &style);
    }
  br__text_puts (&t, roots->stopped || roots->open ? " was found that makes it so" : " makes it so");
  status = put_open (&t, f);
  br__put_from (r, "message", &t);
  br__text_clear (&t);
  return br__emit_or_free (f->run, r, status);
}

/* ---- The statement ---- */

/* Starts the search at the present size, or at zero if there is none or it is too far away.  */
static br_status
set_home (br__roots *r, const br__value *v)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = v ? br_real_enclose (&low, &high, &v->real, DIGITS * 4) : BR_OK;
  if (status == BR_OK && br_number_cmp (&low, &r->low) > 0 && br_number_cmp (&low, &r->high) < 0)
    br_number_swap (&r->home, &low);
  r->either = br_number_sign (&r->home) < 0 && v && (v->dimension == BR_PLAIN || v->dimension == BR_ANGLE);
  br_number_clear (&low);
  br_number_clear (&high);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* Sets the range of the search: in inches, in the sheet's unit for plain numbers, or in degrees.  */
static br_status
set_reach (br__roots *r, br_dimension dimension, const br__settings *s)
{
  br_number factor = BR_NUMBER_ZERO;
  int64_t power = dimension == BR_PLAIN || dimension == BR_ANGLE ? 1 : dimension;
  br_status status = br_number_set_int (&r->high, dimension == BR_ANGLE ? TURN : REACH);
  if (status == BR_OK && dimension == BR_PLAIN)
    {
      status = br__settings_factor (&factor, s, BR_LENGTH);
      if (status == BR_OK)
        status = br_number_div (&r->high, &r->high, &factor);
    }
  if (status == BR_OK)
    status = br_number_pow (&r->high, &r->high, power);
  if (status == BR_OK)
    status = br_number_neg (&r->low, &r->high);
  br_number_clear (&factor);
  return status;
}

static br_status
compile (br__program *t, finding *f, wanted *name)
{
  br__run *run = f->run;
  const br__value *v = br__entry_value (name->entry);
  br_error first = { .status = BR_OK };
  name->dimension = v ? v->dimension : BR_PLAIN;
  br_status status = br__program_compile (t, run->sheet, &f->left, &f->right, &f->names, &first);
  /* The dimension of the name is not known yet: if a plain number does not fit, try a length.  */
  if (status == BR_DOMAIN && !v)
    {
      name->dimension = BR_LENGTH;
      status = br__program_compile (t, run->sheet, &f->left, &f->right, &f->names, run->error);
      if (status == BR_OK)
        return BR_OK;
    }
  if (status != BR_OK && run->error)
    *run->error = first;
  return status;
}

static br_status
solve (finding *f, wanted *name)
{
  br__program t = BR__PROGRAM_ZERO;
  br__run *run = f->run;
  size_t from = f->left.base, length = f->right.base + f->right.length - from;
  const char *called = br__entry_name (name->entry);
  br_status status = compile (&t, f, name);
  if (status != BR_OK)
    return status;
  if (status == BR_OK)
    {
      status = set_reach (&f->roots, name->dimension, &run->sheet->settings);
      if (status == BR_OK)
        status = set_home (&f->roots, br__entry_value (name->entry));
      if (status == BR_OK)
        status = br__roots_find (&f->roots, &t, run->sheet->flag);
      if (status != BR_OK)
        br__fail_plain (run->error, status, from, length);
    }
  if (status == BR_OK && f->roots.always)
    {
      status = br__fail (run->error, BR_DOMAIN, f->word.offset, f->word.length, "`%.*s` does not matter here: %s",
                         BR__CLIP (called, 60),
                         f->roots.every ? "both sides are always equal" : "the sides are never equal");
      br__hint (run->error, "`trace %.*s` tells what depends on it", BR__CLIP (called, 60));
    }
  br__program_clear (&t);
  return status;
}

static br_status
read_find (finding *f, wanted *name)
{
  br__run *run = f->run;
  br__lexer *l = &run->lex;
  f->word = l->token;
  if (l->token.type != BR__NAME)
    return br__expected (run, "the name of a dimension");
  const char *word = run->text + f->word.offset;
  const br__entry *known = br__graph_find (run->sheet->graph, word, f->word.length);
  br_status status = br__name_taken (run, &f->word);
  /* A dimension may have the name of a function, but first it has to be set.  */
  if (status == BR_OK && br__function_find (word, f->word.length) && !(known && br__entry_definition (known)))
    status = br__fail (run->error, BR_SYNTAX, f->word.offset, f->word.length, "`%.*s` is a function",
                       br__clip (word, f->word.length, 60), word);
  if (status == BR_OK)
    status = br__lex_next (l, run->error);
  if (status == BR_OK)
    status = br__lex_is_word (l, "for") ? br__lex_next (l, run->error) : br__expected (run, "the word `for`");
  if (status == BR_OK)
    status = br__parse (&f->left, l, run->error);
  if (status == BR_OK)
    status = br__lex_is_sign (l, '=') ? br__lex_next (l, run->error) : br__expected (run, "the sign =");
  if (status == BR_OK)
    status = br__parse (&f->right, l, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status != BR_OK)
    return status;
  name->entry = br__graph_get (run->sheet->graph, run->text + f->word.offset, f->word.length);
  return name->entry ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, f->word.offset, f->word.length);
}

br_status
br__do_find (br__run *run)
{
  wanted name = { NULL, BR_PLAIN };
  finding f = { .run = run, .name = &name, .names = { &name, role_of, dimension_of } };
  br_status status = read_find (&f, &name);
  if (status == BR_OK)
    status = solve (&f, &name);
  if (status == BR_OK && !f.roots.count)
    status = emit_none (&f);
  for (size_t i = 0; i < f.roots.count && status == BR_OK; i++)
    status = emit_root (&f, i);
  if (status != BR_OK && run->error && run->error->status == BR_OK)
    br__fail_plain (run->error, status, f.word.offset, f.word.length);
  br__tree_clear (&f.left);
  br__tree_clear (&f.right);
  br__roots_clear (&f.roots);
  return status;
}
