/* SPDX-License-Identifier: LGPL-3.0-or-later
   draw_read.c - the words of the statement draw.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/draw.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/worksheet.h"

#define CLAUSES "layer of into scale grid paper"

static int
is_clause (const char *word, size_t length)
{
  const char *at = CLAUSES;
  while (*at)
    {
      size_t n = strcspn (at, " ");
      if (n == length && memcmp (at, word, n) == 0)
        return 1;
      at += n + (at[n] == ' ');
    }
  return 0;
}

/* The end of what stands at START, up to the next clause, without blanks at its end.  */
static size_t
end_of_clause (const br__run *run, size_t start)
{
  size_t at = start, last = start;
  while (at < run->end)
    {
      size_t word, blank;
      while (at < run->end && (blank = br__blank_at (run->text + at, run->end - at)) > 0)
        at += blank;
      for (word = at; at < run->end && !br__blank_at (run->text + at, run->end - at); at++)
        continue;
      if (is_clause (run->text + word, at - word))
        break;
      last = at > word ? at : last;
    }
  return last;
}

static br_status
read_scale (br__drawing *d, br__run *run)
{
  size_t start = run->lex.token.offset, end = end_of_clause (run, start);
  br_status status = br_scale_read (&d->ratio, run->text + start, end - start, run->error);
  if (status != BR_OK)
    {
      run->error->offset += start;
      return status;
    }
  d->scaled = 1;
  return br__lex_from (&run->lex, end, run->error);
}

/* The size of a square: a fraction, plain in the sheet's unit.  */
static br_status
read_grid (br__drawing *d, br__run *run)
{
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_status status = br__parse_size (&tree, &run->lex, run->error);
  if (status == BR_OK)
    status = br__value_of (&v, run, &tree);
  if (status == BR_OK && v.dimension == BR_PLAIN)
    status = br__to_length (&v, &run->sheet->settings);
  if (status == BR_OK)
    {
      const br_number *q = br_real_rational (&v.real);
      if (v.dimension != BR_LENGTH || !q || br_number_sign (q) <= 0)
        status = br__fail (run->error, BR_DOMAIN, tree.base, tree.length,
                           "a square has a length over zero, a fraction");
      else if ((status = br_number_set (&d->grid, q)) != BR_OK)
        br__fail_plain (run->error, status, tree.base, tree.length);
    }
  br__tree_clear (&tree);
  br__value_clear (&v);
  return status;
}

static br_status
read_paper (br__drawing *d, br__run *run)
{
  const br__token t = run->lex.token;
  d->paper = t.type == BR__NAME ? br__paper_find (run->text + t.offset, t.length) : NULL;
  if (d->paper)
    return br__lex_next (&run->lex, run->error);
  br__expected (run, "a paper such as `letter`, `legal`, `tabloid` or `a4`");
  br__hint (run->error, "help paper lists them");
  return BR_SYNTAX;
}

static br_status
read_name (char **name, br__run *run, const char *what)
{
  const br__token t = run->lex.token;
  if (t.type != BR__NAME)
    return br__expected (run, what);
  char *copy = br__strndup (run->text + t.offset, t.length);
  if (!copy)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br__free (*name);
  *name = copy;
  return br__lex_next (&run->lex, run->error);
}

static br_status
read_file (br__drawing *d, br__run *run, size_t start)
{
  br_status status = br__clause_file (&d->path, run, start, CLAUSES, BR_FILE_WRITE);
  d->path_start = start;
  d->path_end = end_of_clause (run, start);
  if (status == BR_OK && !br__picture_form (d->path))
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "a drawing is a .pdf, .svg or .png file");
      status = br__placed (run, BR_DOMAIN, d->path_start, d->path_end);
    }
  return status;
}

/* The clause at hand, which is not the line's end.  */
static br_status
read_clause (br__drawing *d, br__run *run)
{
  const br__lexer at = run->lex;
  size_t behind = run->lex.next;
  if (br__lex_is_word (&at, "into") && !d->path)
    return read_file (d, run, behind);
  int scale = br__lex_is_word (&at, "scale") && !d->scaled, grid = br__lex_is_word (&at, "grid");
  int paper = br__lex_is_word (&at, "paper") && !d->paper, layer = br__lex_is_word (&at, "layer") && !d->layer;
  int of = br__lex_is_word (&at, "of") && !d->of;
  grid = grid && br_number_sign (&d->grid) == 0;
  if (d->parts && !scale && !paper)
    return br__expected (run, "`into`, `scale` or `paper`");
  /* What is given twice, or no clause at all.  */
  if (!scale && !grid && !paper && !layer && !of)
    return br__expected (run, "`into`, `scale`, `grid`, `paper`, `layer` or `of`");
  br_status status = br__lex_next (&run->lex, run->error);
  if (status != BR_OK)
    return status;
  return scale ? read_scale (d, run) : grid ? read_grid (d, run) : paper ? read_paper (d, run)
         : layer ? read_name (&d->layer, run, "the name of a layer") : read_name (&d->of, run, "the name of a part");
}

br_status
br__drawing_read (br__drawing *d, br__run *run)
{
  if (br__take_word (run, "top"))
    d->from = BR__FROM_ABOVE;
  else if (br__take_word (run, "front"))
    d->from = BR__FROM_THE_FRONT;
  else if (br__take_word (run, "views"))
    d->from = BR__ALL_VIEWS;
  else if (br__take_word (run, "parts"))
    d->parts = 1;
  else
    (void) br__take_word (run, "side");
  d->bare = !d->parts && br__take_word (run, "bare");
  br_status status = run->lex.status;
  while (status == BR_OK && run->lex.token.type != BR__END)
    status = read_clause (d, run);
  return status;
}
