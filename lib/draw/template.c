/* SPDX-License-Identifier: LGPL-3.0-or-later
   template.c - the statement `template PART into FILE`: a part at full size, to be glued on the wood; its
   outline, its centre marks, and the drills of its holes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/dimension_line.h"
#include "draw/draw.h"
#include "draw/template.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/worksheet.h"
#include "measure/measure.h"
#include "wood/wood.h"
#include "formula/words.h"
#include "shop/caution.h"
#include "shop/drill.h"

#define LINE_HEIGHT (BR__SIZE_TEXT * 3 / 2)
#define ROOM (BR__INCH / 2)         /* beside the outline, for names of what is small */
#define WAY "saw and sand on the waste side of the line: the line stays on the part"

/* The template that is being made.  */
typedef struct work
{
  br__run *run;
  char *name;
  br__side_view view;           /* the shapes of the part; without any, the plain outline */
  br__wood_list wood;
  const br__piece *piece;       /* in the list of parts, or NULL */
  br__size_lines level, upright;
  br__plot plot;
  size_t holes, unlabelled, unmeasured;
} work;

static void
work_clear (work *w)
{
  br__free (w->name);
  br__view_clear (&w->view);
  br__wood_list_clear (&w->wood);
  br__size_lines_clear (&w->level);
  br__size_lines_clear (&w->upright);
  br__plot_clear (&w->plot);
}

/* ---- The part ---- */

static br_status
no_such_part (work *w, br__token at)
{
  br__run *run = w->run;
  br__search near;
  br__search_start (&near, w->name, strlen (w->name));
  for (size_t i = 0; i < w->wood.part_count; i++)
    br__search_offer (&near, w->wood.parts[i].wood->name);
  for (const br__shape *s = run->sheet->shapes; s; s = s->next)
    if (s->active && s->of)
      br__search_offer (&near, s->of);
  br__fail (run->error, BR_DOMAIN, at.offset, at.length, "there is no part called `%.*s`, and no shape of it",
            BR__CLIP (w->name, 40));
  if (near.best)
    br__hint (run->error, "did you mean `%s`?", near.best);
  else
    br__hint (run->error, "part NAME = LENGTH x WIDTH makes one; a shape belongs to it by `of NAME`");
  return BR_DOMAIN;
}

/* A template is cut by: nothing on it is made up.  */
static br_status
refuse_loose (const work *w, br__token at)
{
  for (size_t i = 0; i < w->view.count; i++)
    if (!w->view.shapes[i].tied)
      {
        br__fail (w->run->error, BR_DOMAIN, at.offset, at.length, "shape `%.*s` of this part is not tied down yet",
                  BR__CLIP (w->view.shapes[i].shape->name, 40));
        br__hint (w->run->error, "`missing` tells what it needs");
        return BR_DOMAIN;
      }
  return BR_OK;
}

/* A failure that is not told yet, in the place of the part's name.  */
static br_status
tell (const work *w, br_status status, br__token at)
{
  if (status != BR_TOO_BIG)
    return br__fail_plain (w->run->error, status, at.offset, at.length);
  return br__fail (w->run->error, status, at.offset, at.length, "`%.*s` is too large to be drawn, or too far from 0, 0",
                   BR__CLIP (w->name, 40));
}

static br_status
find_part (work *w, br__token at)
{
  br__run *run = w->run;
  br_status status = br__wood_resolve (&w->wood, run);
  for (size_t i = 0; i < w->wood.part_count && status == BR_OK; i++)
    if (strcmp (w->wood.parts[i].wood->name, w->name) == 0)
      w->piece = &w->wood.parts[i];
  if (status == BR_OK)
    status = br__view_make (&w->view, run, NULL, NULL, w->name);
  /* What the whole is measured from may lie far from a part of it.  */
  if (status == BR_OK)
    status = br__datum_corner (&w->view, run->sheet);
  if (status == BR_OK)
    return refuse_loose (w, at);
  if (status != BR_DOMAIN)
    return tell (w, status, at);
  if (!w->piece)
    return no_such_part (w, at);
  if (!w->piece->size[BR__LENGTH_OF].known || !w->piece->size[w->piece->wood->round ? BR__THICKNESS : BR__WIDTH].known)
    {
      br__fail (run->error, BR_DOMAIN, at.offset, at.length, "the size of part `%.*s` is not known: %.*s",
                BR__CLIP (w->name, 40),
                BR__CLIP (br__text_string (&w->piece->problem), 120));
      br__hint (run->error, "`missing` tells what is still needed");
      return BR_DOMAIN;
    }
  return BR_OK;
}

/* ---- Holes ---- */

/* Three digits of a hole that no drill has just so: a mark of the ruler would be coarser than drills are.  */
static br_status
put_hole (br_text *t, const br_real *diameter, const br__settings *s)
{
  br__value v = BR__VALUE_ZERO;
  br_real z = BR_REAL_ZERO;
  br_text digits = BR_TEXT_ZERO;
  int whole = 0;
  v.dimension = BR_LENGTH;
  br_status status = br_real_set (&v.real, diameter);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK)
    status = br__put_real_decimal (&digits, &whole, &z, 3, s->bits);
  if (status == BR_OK)
    br__text_printf (t, "⌀ %s%s", whole ? "" : "≈", br__text_string (&digits));
  if (status == BR_OK && digits.failed)
    status = BR_NO_MEMORY;
  br__value_clear (&v);
  br_real_clear (&z);
  br__text_clear (&digits);
  return status;
}

/* "drill 15/32", or the hole and its nearest drill.  */
static br_status
put_drill (br_text *t, const br_real *diameter, const br__settings *s)
{
  br__drill_pair pair = BR__DRILL_PAIR_ZERO;
  br_real sum = BR_REAL_ZERO;
  int sign = 0, metric = br__unit_is_decimal (s->unit);
  br_status status = br__drill_neighbours (&pair, metric ? BR__DRILL_METRIC : BR_DRILL_FRACTIONAL, diameter, s->bits, NULL);
  if (status == BR_OK && pair.has_above && pair.has_below)
    status = br_real_add (&sum, &pair.play_above, &pair.play_below);
  if (status == BR_OK)
    status = br_real_sign (&sign, &sum, s->bits);
  if (status == BR_OK && pair.has_above && pair.has_below && strcmp (pair.above.name, pair.below.name) == 0)
    br__text_printf (t, "drill %s", pair.above.name);
  else if (status == BR_OK)
    {
      /* Half way between two the larger: what turns in it must not bind.  */
      const br__drill *nearest = !pair.has_above ? NULL : sign > 0 && pair.has_below ? &pair.below : &pair.above;
      status = put_hole (t, diameter, s);
      if (nearest)
        br__text_printf (t, ", nearest drill %s", nearest->name);
      else
        br__text_puts (t, ", too large for a drill");
    }
  if (status == BR_OK && !metric && pair.has_above && (strcmp (s->unit->name, "in") != 0 || s->feet))
    br__text_puts (t, " in");
  br_real_clear (&sum);
  br__drill_pair_clear (&pair);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}

/* A hole is told by its drill instead of its name.  */
static br_status
name_hole (br__drawn *d, const br_sheet *sheet)
{
  br_real diameter = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  int slot = d->shape->kind == BR__LINE;
  const br__value *size = br__shape_value (sheet, d->shape, slot ? BR__SHAPE_C : BR__SHAPE_A);
  br_status status = !size ? BR_DOMAIN : slot ? br_real_set (&diameter, &size->real) : br_real_add (&diameter, &size->real, &size->real);
  br__text_puts (&t, slot ? "slot, " : "");
  if (status == BR_OK)
    status = put_drill (&t, &diameter, &sheet->settings);
  char *label = status == BR_OK ? br__strndup (br__text_string (&t), t.length) : NULL;
  if (status == BR_OK && !label)
    status = BR_NO_MEMORY;
  if (label)
    {
      br__free (d->label);
      d->label = label;
    }
  br_real_clear (&diameter);
  br__text_clear (&t);
  return status;
}

static br_status
name_holes (work *w)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < w->view.count && status == BR_OK; i++)
    if (w->view.shapes[i].shape->hole)
      {
        status = name_hole (&w->view.shapes[i], w->run->sheet);
        w->holes++;
      }
    else if (w->view.shapes[i].copies && w->view.shapes[i].copies[0].shape->hole)
      w->holes += w->view.shapes[i].copy_count;
  return status;
}

/* ---- The figure ---- */

/* Length level, width upright.  */
static br_status
measure_outline (work *w)
{
  const br__piece *p = w->piece;
  const br_number *sizes[] = { &p->size[BR__LENGTH_OF].value,
                               &p->size[p->wood->round ? BR__THICKNESS : BR__WIDTH].value };
  br__size_lines *const lines[] = { &w->level, &w->upright };
  int64_t *const reach[] = { &w->view.reach.x2, &w->view.reach.y2 };
  br_real inches = BR_REAL_ZERO;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      status = br_real_set_number (&inches, sizes[i]);
      if (status == BR_OK)
        status = br__to_paper (reach[i], &inches, NULL, 0);
      if (status == BR_OK)
        status = br__size_lines_of_outline (lines[i], w->run, w->name, *reach[i], &inches, i);
    }
  br_real_clear (&inches);
  return status;
}

static br_status
measure (work *w)
{
  if (!w->view.count)
    return measure_outline (w);
  br_status status = name_holes (w);
  if (status == BR_OK)
    status = br__size_lines_of_part (&w->level, w->run, &w->view, 0);
  if (status == BR_OK)
    status = br__size_lines_of_part (&w->upright, w->run, &w->view, 1);
  return status;
}

/* How it is used, at the foot of each sheet: nothing but the part stands on the rest of it.  TITLE gets the text of the first.  */
static void
put_notes (br__paperwork *paper, br_text *title, const work *w)
{
  static const char *const notes[] =
  {
    "Measure the line at the foot of the sheet first: a printer may change sizes.",
    "Cut on the waste side of the line, so that the line stays on the part.", NULL,
    "Wear eye protection; " BR__TEACHER_FIRST "."
  };
  br__text_printf (title, "%s, full size", w->name);
  if (w->piece && w->piece->quantity > 1)
    br__text_printf (title, ", make %lld", (long long) w->piece->quantity);
  paper->notes[0] = br__text_string (title);
  for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++)
    paper->notes[i + 1] = notes[i];
  paper->notes[3] = w->holes ? "Prick the centres with an awl, and clamp the wood before you drill." : "Clamp the wood before you cut.";
}

static void
put_outline (work *w, int64_t left, int64_t top)
{
  w->plot.group = BR__GROUP_OUTLINES;
  br__ink *ink = br__plot_add (&w->plot, BR__INK_BOX, BR__PEN_OUTLINE, left, top - w->view.reach.y2);
  ink->x2 = left + w->view.reach.x2;
  ink->y2 = top;
  br__ink_name (&w->plot, ink, w->name);
  w->plot.group = BR__GROUP_DIMENSIONS;
}

/* Along the length of a board its grain runs.  */
static void
put_grain (work *w, int64_t left, int64_t top)
{
  const int64_t half = BR__INCH * 7 / 8, gap = BR__INCH * 5 / 16;
  int64_t x = left + w->view.reach.x2 / 2, y = top - w->view.reach.y2 / 2;
  if (w->piece->wood->round || w->view.reach.x2 < 3 * half || w->view.reach.y2 < BR__INCH / 3)
    return;
  br__plot_text (&w->plot, x, y, BR_ALIGN_MIDDLE, BR__SIZE_TEXT, "grain");
  for (int side = -1; side <= 1; side += 2)
    {
      br__plot_line (&w->plot, BR__PEN_THIN, x + side * gap, y, x + side * half, y, 0);
      br__ink *arrow = br__plot_add (&w->plot, BR__INK_ARROW, BR__PEN_THIN, x + side * half, y);
      arrow->x2 = x;
      arrow->y2 = y;
    }
}

static int64_t
larger (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

static br_status
put_figure (work *w)
{
  br__plot *p = &w->plot;
  int64_t room = w->view.count ? ROOM : 0;
  const br__area reach = w->view.reach;
  int64_t left = larger (larger (w->upright.depth[BR__NEAR], w->level.before), room) - reach.x;
  int64_t top = larger (larger (w->level.depth[BR__FAR], w->upright.after), room) + reach.y2;
  p->width = larger (p->width, left + reach.x2 + larger (larger (w->upright.depth[BR__FAR], w->level.after), room));
  p->group = BR__GROUP_DIMENSIONS;
  p->height = top - reach.y + larger (larger (w->level.depth[BR__NEAR], w->upright.before), room);
  if (w->view.count)
    br__view_plot (p, &w->view, left, top);
  else
    {
      put_outline (w, left, top);
      put_grain (w, left, top);
    }
  br__size_lines_plot (p, &w->level, &w->view, left, top);
  br__size_lines_plot (p, &w->upright, &w->view, left, top);
  w->unlabelled = br__labels_plot (p, &w->view, (br__area) { 0, 0, p->width, p->height }, left, top);
  int64_t table = 0;
  const br__view_at f = { &w->view, &w->level, &w->upright, left, top };
  br__datum_plot (p, &f);
  br__area below = { 0, p->height + LINE_HEIGHT / 2, p->width, 0 };
  br_status status = br__places_plot (p, &w->unmeasured, &table, w->run, &f, below);
  p->height += table ? table + LINE_HEIGHT / 2 : 0;
  return status != BR_OK ? br__fail_plain (w->run->error, status, 0, 0)
         : p->failed ? br__fail_plain (w->run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
}

/* ---- The file ---- */

/* The sheet of paper upright or on its side, whichever takes it whole; else as the part lies.  */
static br_status
choose_paper (br__paperwork *paper, br_text *title, work *w, const char *what)
{
  br_number one = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&one, 1);
  int fits = 0;
  for (int i = 0; i < 3 && !fits && status == BR_OK; i++)
    {
      int landscape = i < 2 ? i : w->plot.width > w->plot.height;
      status = br__paperwork_make (paper, w->run, what, &one, NULL, NULL, landscape);
      paper->square[0] = 0;
      br__text_reset (title);
      put_notes (paper, title, w);
      br__area room = br__paper_room (paper);
      fits = room.x2 - room.x >= w->plot.width && room.y2 - room.y >= w->plot.height;
    }
  br_number_clear (&one);
  return status;
}

static br_status
put_words (br_text *t, const work *w)
{
  if (w->view.count)
    return br__put_description (t, w->run->sheet, &w->view);
  br__text_printf (t, "%s, %s by %s", w->name, w->level.count ? w->level.rows[0].text : "?",
                   w->upright.count ? w->upright.rows[0].text : "?");
  return t->failed ? BR_NO_MEMORY : BR_OK;
}

static br_status
write_file (size_t *pages, work *w, const char *path)
{
  br__paperwork paper = BR__PAPERWORK_ZERO;
  br_text what = BR_TEXT_ZERO, words = BR_TEXT_ZERO, title = BR_TEXT_ZERO;
  br__text_printf (&what, "template of %s", w->name);
  br_status status = what.failed ? BR_NO_MEMORY : choose_paper (&paper, &title, w, br__text_string (&what));
  if (title.failed)
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    status = put_words (&words, w);
  if (status == BR_OK)
    status = br__draw_file (pages, w->run, &w->plot, &paper, br__text_string (&words), path);
  br__paperwork_clear (&paper);
  br__text_clear (&what);
  br__text_clear (&words);
  br__text_clear (&title);
  if (status == BR_TOO_BIG && w->run->error)
    br__hint (w->run->error, "an .svg file is one sheet, however large");
  return status == BR_OK ? status : br__fail_untold (w->run->error, status, 0, 0);
}

static br_status
emit (const work *w, const char *path, size_t pages)
{
  br_record *r = br__record_new ("template");
  br__put_text (r, "part", w->name);
  br__put_text (r, "file", path);
  br__put_text (r, "form", br__picture_form (path));
  br__put_count (r, "pages", (int64_t) pages);
  br__put_count (r, "holes", (int64_t) w->holes);
  br_list *drills = br__put_list (r, "drills");
  for (size_t i = 0; i < w->view.count; i++)
    if (w->view.shapes[i].shape->hole)
      br__list_text (drills, w->view.shapes[i].label);
  br__put_count (r, "left_out", (int64_t) (w->unlabelled + w->unmeasured));
  br_status status = br__template_check (br__put_list (r, "problems"), w->run, &w->view, w->piece);
  if (status != BR_OK)
    {
      br__record_free (r);
      return br__fail_plain (w->run->error, status, 0, 0);
    }
  status = br__emit (w->run, r);
  if (status != BR_OK)
    return status;
  r = br__record_new ("caution");
  br__put_text (r, "message", WAY "; clamp the wood and wear eye protection; " BR__TEACHER_FIRST);
  br__put_text (r, "source", "common practice, no source");
  return br__emit (w->run, r);
}

static br_status
read_statement (work *w, br__token *at, char **path, size_t *start)
{
  br__run *run = w->run;
  *at = run->lex.token;
  if (at->type != BR__NAME)
    return br__expected (run, "the name of a part");
  w->name = br__strndup (run->text + at->offset, at->length);
  br_status status = w->name ? br__lex_next (&run->lex, run->error) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK && !br__lex_is_word (&run->lex, "into"))
    return br__expected (run, "`into FILE.pdf`");
  *start = run->lex.next;
  if (status == BR_OK)
    status = br__clause_file (path, run, *start, "", BR_FILE_WRITE);
  if (status == BR_OK && !br__picture_form (*path))
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "a template is a .pdf, .svg or .png file");
      status = br__placed (run, BR_DOMAIN, *start, run->end);
    }
  return status;
}

br_status
br__do_template (br__run *run)
{
  work w;
  br__token at;
  char *path = NULL;
  size_t start = 0, pages = 0;
  memset (&w, 0, sizeof w);
  w.run = run;
  br_status status = read_statement (&w, &at, &path, &start);
  if (status == BR_OK)
    status = find_part (&w, at);
  if (status == BR_OK)
    {
      status = measure (&w);
      if (status != BR_OK)
        tell (&w, status, at);
    }
  if (status == BR_OK)
    status = put_figure (&w);
  if (status == BR_OK)
    status = br__placed (run, write_file (&pages, &w, path), start, run->end);
  if (status == BR_OK)
    status = emit (&w, path, pages);
  br__free (path);
  work_clear (&w);
  return status;
}
