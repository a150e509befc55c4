/* SPDX-License-Identifier: LGPL-3.0-or-later
   template.c - the statement `template PART into FILE`: a part at full size, to be glued on the wood.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/draw.h"
#include "draw/part_figure.h"
#include "draw/template.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/worksheet.h"
#include "formula/words.h"
#include "shop/caution.h"

#define WAY "saw and sand on the waste side of the line: the line stays on the part"

/* The template that is being made.  */
typedef struct work
{
  br__run *run;
  char *name;
  br__wood_list wood;
  br__part_figure f;
} work;

static void
work_clear (work *w)
{
  br__free (w->name);
  br__wood_list_clear (&w->wood);
  br__part_figure_clear (&w->f);
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
  for (size_t i = 0; i < w->f.view.count; i++)
    if (!w->f.view.shapes[i].tied)
      {
        br__fail (w->run->error, BR_DOMAIN, at.offset, at.length, "shape `%.*s` of this part is not tied down yet",
                  BR__CLIP (w->f.view.shapes[i].shape->name, 40));
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
      w->f.piece = &w->wood.parts[i];
  w->f.run = run;
  w->f.name = w->name;
  if (status == BR_OK)
    status = br__part_figure_view (&w->f);
  if (status == BR_OK)
    return refuse_loose (w, at);
  if (status != BR_DOMAIN)
    return tell (w, status, at);
  if (!w->f.piece)
    return no_such_part (w, at);
  if (!w->f.piece->size[BR__LENGTH_OF].known || !w->f.piece->size[w->f.piece->wood->round ? BR__THICKNESS : BR__WIDTH].known)
    {
      br__fail (run->error, BR_DOMAIN, at.offset, at.length, "the size of part `%.*s` is not known: %.*s",
                BR__CLIP (w->name, 40),
                BR__CLIP (br__text_string (&w->f.piece->problem), 120));
      br__hint (run->error, "`missing` tells what is still needed");
      return BR_DOMAIN;
    }
  return BR_OK;
}

/* ---- Words ---- */

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
  if (w->f.piece && w->f.piece->quantity > 1)
    br__text_printf (title, ", make %lld", (long long) w->f.piece->quantity);
  if (w->f.piece && !w->f.piece->wood->round && !w->f.grain)
    br__text_puts (title, ", grain along its length");
  paper->notes[0] = br__text_string (title);
  for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++)
    paper->notes[i + 1] = notes[i];
  paper->notes[3] = w->f.holes ? "Prick the centres with an awl, and clamp the wood before you drill." : "Clamp the wood before you cut.";
}

/* ---- The file ---- */

/* The paper, upright or on its side.  */
static br_status
make_paper (br__paperwork *paper, br_text *title, const work *w, const char *what, int landscape)
{
  br_number one = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&one, 1);
  if (status == BR_OK)
    status = br__paperwork_make (paper, w->run, what, &one, NULL, NULL, landscape);
  paper->square[0] = 0;
  br__text_reset (title);
  put_notes (paper, title, w);
  br_number_clear (&one);
  return status;
}

/* What the part is to be laid out for.  */
static br_status
find_rooms (work *w)
{
  br__paperwork paper = BR__PAPERWORK_ZERO;
  br_text title = BR_TEXT_ZERO;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      status = make_paper (&paper, &title, w, "", i);
      w->f.room[i] = br__paper_room (&paper);
    }
  if (status == BR_OK && title.failed)
    status = BR_NO_MEMORY;
  br__paperwork_clear (&paper);
  br__text_clear (&title);
  return br__fail_untold (w->run->error, status, 0, 0);
}

/* The sheet of paper upright or on its side, whichever takes it whole; else as the part lies.  */
static br_status
choose_paper (br__paperwork *paper, br_text *title, work *w, const char *what)
{
  br_status status = BR_OK;
  int fits = 0;
  for (int i = 0; i < 3 && !fits && status == BR_OK; i++)
    {
      status = make_paper (paper, title, w, what, i < 2 ? i : w->f.plot.width > w->f.plot.height);
      br__area room = br__paper_room (paper);
      fits = room.x2 - room.x >= w->f.plot.width && room.y2 - room.y >= w->f.plot.height;
    }
  return status;
}

static br_status
put_words (br_text *t, const work *w)
{
  if (w->f.view.count)
    return br__put_description (t, w->run->sheet, &w->f.view);
  br__text_printf (t, "%s, %s by %s", w->name, w->f.level.count ? w->f.level.rows[0].text : "?",
                   w->f.upright.count ? w->f.upright.rows[0].text : "?");
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
    status = br__draw_file (pages, w->run, &w->f.plot, &paper, br__text_string (&words), path);
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
  br__put_count (r, "holes", (int64_t) w->f.holes);
  br_list *drills = br__put_list (r, "drills");
  for (size_t i = 0; i < w->f.view.count; i++)
    if (w->f.view.shapes[i].shape->hole)
      br__list_text (drills, br__drill_of (&w->f.view.shapes[i]));
  br__put_count (r, "left_out", (int64_t) (w->f.unlabelled + w->f.unmeasured));
  br_status status = br__template_check (br__put_list (r, "problems"), w->run, &w->f.view, w->f.piece);
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
    status = find_rooms (&w);
  const char *form = path ? br__picture_form (path) : NULL;
  w.f.joined = form && strcmp (form, "pdf") == 0;
  if (status == BR_OK)
    {
      status = br__part_figure_measure (&w.f);
      if (status != BR_OK)
        tell (&w, status, at);
    }
  if (status == BR_OK)
    status = br__part_figure_plot (&w.f);
  if (status == BR_OK)
    status = br__placed (run, write_file (&pages, &w, path), start, run->end);
  if (status == BR_OK)
    status = emit (&w, path, pages);
  br__free (path);
  work_clear (&w);
  return status;
}
