/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution_shape.c - cautions about shapes: pieces that a small child can choke on, and outlines with curves that a blade cannot
   follow or with wood that is too narrow to hold.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "geometry/shape_call.h"
#include "geometry/weak.h"
#include "sheet/caution.h"
#include "sheet/caution_look.h"
#include "sheet/hidden.h"
#include "shop/about.h"
#include "shop/caution.h"

/* Z = WHAT, "width" or "height", of the shape NAME.  BR_DOMAIN while it waits.  */
static br_status
extent_of (br__span *z, br__run *run, const char *what, const char *name, size_t length)
{
  br__run own = *run;
  br__lexer lex;
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_text text = BR_TEXT_ZERO;
  own.error = NULL;
  br__text_printf (&text, "%s(%.*s)", what, (int) length, name);
  br_status status = text.failed ? BR_NO_MEMORY : br__lex_start (&lex, br__text_string (&text), text.length, NULL);
  if (status == BR_OK)
    status = br__parse_size (&tree, &lex, NULL);
  if (status == BR_OK)
    status = br__value_of (&v, &own, &tree);
  if (status == BR_OK)
    status = br__span_of (z, &own, &v, NULL, &tree);
  br__value_clear (&v);
  br__tree_clear (&tree);
  br__text_clear (&text);
  return status;
}

/* Z = the depth of the shape, or of the shape that it copies.  *KNOWN: 1 if there is one.  */
static br_status
depth_of (br__span *z, int *known, br__run *run, const br__shape *s)
{
  const br_sheet *sheet = run->sheet;
  const br__shape *base;
  while (!s->depth && s->base && (base = br__shape_find (sheet, s->base, strlen (s->base))) != NULL)
    s = base;
  br__entry *e = br__shape_entry (sheet->graph, s->name, strlen (s->name), BR__SHAPE_DEEP);
  const br__value *v = s->depth && e ? br__entry_value (e) : NULL;
  *known = v != NULL;
  return v ? br__span_of (z, run, v, NULL, &br__entry_definition (e)->tree) : BR_OK;
}

/* Whether the piece S may fit into the small parts cylinder, ALONG, UP and DEEP as it is: where its depth is not known, no
   piece is as thin as what is asked for here.  A circle is a disc and a box a box; any other shape has two points as far apart
   as it is wide or high, all through its depth.  */
static br_status
may_fit (br_truth *fits, const br__shape *s, const br_real *along, const br_real *up, const br_real *deep, unsigned bits)
{
  static const br_real thin = { .rational = { 1, 999 } };
  const br_real *depth = deep ? deep : &thin;
  br_truth wide = BR_NO;
  br_status status;
  if (s->kind == BR__CIRCLE)
    status = br__small_disc_fits (fits, along, depth, bits, NULL);
  else if (s->kind == BR__BOX)
    status = br__small_box_fits (fits, along, up, depth, bits, NULL);
  else
    {
      status = br__small_box_fits (&wide, along, depth, &thin, bits, NULL);
      if (status == BR_OK)
        status = br__small_box_fits (fits, up, depth, &thin, bits, NULL);
      if (status == BR_OK && (wide == BR_NO || *fits == BR_YES))
        *fits = wide == BR_NO ? BR_NO : BR_UNKNOWN;
    }
  if (status == BR_OK && *fits == BR_YES && !deep)
    *fits = BR_UNKNOWN;
  return status;
}

/* A shape is a piece that can come loose, but a hole and a line without a width, and what copies them.  */
static int
is_piece (const br_sheet *sheet, const br__shape *s)
{
  s = br__shape_source (sheet, s);
  if (s->base || s->hole)
    return 0;
  br__entry *wide = br__shape_entry (sheet->graph, s->name, strlen (s->name), BR__SHAPE_C);
  const br__value *v = wide ? br__entry_value (wide) : NULL;
  const br_number *none = v ? br_real_rational (&v->real) : NULL;
  return s->kind != BR__LINE || !none || br_number_sign (none) != 0;
}

static br_status
say_small (br__concern *c, br_truth fits, int as_cut)
{
  br__child child = br__child_of (&c->run->sheet->settings);
  const br_caution *small = br__small_part_caution (fits, &child);
  br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO, brief = BR_TEXT_ZERO;
  if (!small || (as_cut && c->now & RULE_SMALL) || !br__is_new_caution (c, as_cut ? RULE_SMALL_CUT : RULE_SMALL))
    return BR_OK;
  br__text_printf (&message, "%s%s", as_cut ? BR__AS_CUT_WITHIN : "as drawn, ", small->text);
  br__text_puts (&source, small->source);
  br__text_puts (&scope, small->scope);
  br__text_printf (&brief, "16 CFR 1501.4: %s small enough for a child under 3 years to choke on", as_cut ? "as cut," : "as drawn,");
  return br__caution_add (c->group, c->entry, &message, &source, &scope, &brief);
}

/* If the age of the user is not set, this caution is given only by the statement for all cautions: most circles are drawn
   before the age is set.  */
static br_status
judge_piece (br__concern *c, const br__shape *s)
{
  const br__settings *settings = &c->run->sheet->settings;
  br__child child = br__child_of (settings);
  br__span size[3] = { BR__SPAN_ZERO, BR__SPAN_ZERO, BR__SPAN_ZERO };
  br_truth fits = BR_NO;
  int deep = 0;
  br_status status;
  if ((!c->again && child.state != BR__CHILD_MONTHS) || !br__child_under (&child, 36) || !is_piece (c->run->sheet, s))
    return BR_OK;
  status = extent_of (&size[0], c->run, "width", s->name, strlen (s->name));
  if (status == BR_OK)
    status = extent_of (&size[1], c->run, "height", s->name, strlen (s->name));
  if (status == BR_OK)
    status = depth_of (&size[2], &deep, c->run, s);
  if (status == BR_OK)
    status = may_fit (&fits, s, &size[0].size, &size[1].size, deep ? &size[2].size : NULL, settings->bits);
  if (status == BR_OK)
    status = say_small (c, fits, 0);
  if (status == BR_OK && (size[0].off || size[1].off || size[2].off))
    {
      const br_real *low[3];
      for (int i = 0; i < 3; i++)
        low[i] = size[i].off ? &size[i].low : &size[i].size;
      status = may_fit (&fits, s, low[0], low[1], deep ? low[2] : NULL, settings->bits);
      if (status == BR_OK)
        status = say_small (c, fits, 1);
    }
  for (int i = 0; i < 3; i++)
    br__span_clear (&size[i]);
  return status;
}

/* ---- Outlines ---- */

/* Wood is narrow below 1/2 in (common practice, no source): a neck breaks, and the sooner the shorter its fibres are.  That is
   where it is narrow along the grain, which runs level as for the blank of a part.  */
static const br_real narrow = { .rational = { 1, 1 } };
#define NARROW "1/2 in"

/* SIZE of wood is left at one place, under RULE.  */
static br_status
judge_neck (br__concern *c, const br_real *size, unsigned rule)
{
  const br__settings *s = &c->run->sheet->settings;
  br_text message = BR_TEXT_ZERO, source = BR_TEXT_ZERO, scope = BR_TEXT_ZERO, brief = BR_TEXT_ZERO;
  br_style style = br__settings_style (s);
  if (!br__is_new_caution (c, rule))
    return BR_OK;
  br__text_puts (&message, rule == RULE_NECK ? "a neck is " : "short grain: wood is ");
  br_status status = br__put_about (&message, size, BR_LENGTH, &style, s->bits);
  br__text_puts (&message, rule == RULE_NECK ? " wide: under " NARROW " it breaks easily"
                                              : " long with the grain level: under " NARROW " it splits easily");
  br__text_put (&brief, message.bytes, message.length);
  br__text_puts (&message, rule == RULE_NECK ? "; make it wider; " BR__TEACHER_FIRST
                                             : "; make it wider, or turn the part on its board; " BR__TEACHER_FIRST);
  br__text_puts (&source, "common practice, no source");
  br__text_puts (&scope, "parts that are sawn from boards");
  br_status added = br__caution_add (c->group, c->entry, &message, &source, &scope, &brief);
  return status == BR_OK ? added : status;
}

/* A strip that is narrow as a whole has no neck.  */
static br_status
is_strip (int *strip, br__run *run, const br__shape *s)
{
  static const char *const ways[] = { "width", "height" };
  br_status status = BR_OK;
  *strip = 0;
  for (int i = 0; i < 2 && status == BR_OK && !*strip; i++)
    {
      br__span size = BR__SPAN_ZERO;
      int order = 0;
      status = extent_of (&size, run, ways[i], s->name, strlen (s->name));
      if (status == BR_OK)
        status = br_real_cmp (&order, &size.size, &narrow, run->sheet->settings.bits);
      *strip = order < 0;
      br__span_clear (&size);
    }
  return status;
}

static br_status
judge_outline (br__concern *c, const br__shape *s)
{
  br__weak weak = { .bends = 0 };
  int strip = 0;
  br_status status = c->run->sheet->language->weak (&weak, c->run->sheet, s, &narrow);
  if (status == BR_OK && weak.bends)
    status = br__judge_curve (c, &weak.bend, RULE_BEND, 0);
  if (status == BR_OK && (weak.necks || weak.grains))
    status = is_strip (&strip, c->run, s);
  if (status == BR_OK && weak.necks && !strip)
    status = judge_neck (c, &weak.neck, RULE_NECK);
  if (status == BR_OK && weak.grains && !strip)
    status = judge_neck (c, &weak.grain, RULE_SHORT);
  br__weak_clear (&weak);
  return status;
}

/* A size that waits or is undecided is reported elsewhere: no caution.  */
static br_status
end_part (br_status status)
{
  return status == BR_NO_MEMORY || status == BR_STOPPED ? status : BR_OK;
}

/* E is a number of a shape.  */
br_status
br__judge_shape (br__look *l, const br__entry *e)
{
  const br_sheet *sheet = l->run->sheet;
  const char *name = NULL;
  size_t length = br__entry_shape (&name, e);
  const br__shape *s = length ? br__shape_find (sheet, name, length) : NULL;
  br__entry *kind = length ? br__shape_entry (sheet->graph, name, length, BR__SHAPE_KIND) : NULL;
  if (!kind || kind == l->last || (l->again && e != kind))
    return BR_OK;
  l->last = kind;
  /* As long as a dozen requests for memory, measured.  */
  br__account_toil (12);
  unsigned *told = br__entry_told (kind);
  br__concern c = { .run = l->run, .group = &l->group, .entry = kind, .before = l->again ? 0 : *told, .again = l->again };
  br_status status = s && s->kind == BR__OUTLINE ? end_part (judge_outline (&c, s)) : BR_OK;
  if (s && status == BR_OK)
    status = end_part (judge_piece (&c, s));
  *told = (*told & ~RULES_OF_SHAPES) | (c.now & RULES_OF_SHAPES);
  return status;
}
