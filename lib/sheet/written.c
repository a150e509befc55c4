/* SPDX-License-Identifier: LGPL-3.0-or-later
   written.c - writes the sheet as the text of a file.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "exact/memory.h"
#include "sheet/written.h"

typedef struct writer
{
  br_text *t;
  const br_sheet *sheet;
  const char *path;             /* of the file that is written */
  br__ending ending;            /* of the line before */
  struct given *given;          /* the settings, where only the last line of each is written; else NULL */
} writer;

/* The sheet's own lines of one setting.  */
typedef struct given
{
  const char *name;
  const br__line *first, *last, *noted;     /* NOTED: the last that has a note */
  int between;                  /* something was told since LAST */
} given;

#define MOST_SETTINGS 24

static given *
find_given (given *all, const char *name)
{
  while (all->name && strcmp (all->name, name) != 0)
    all++;
  return all;
}

static void
put_behind (writer *w, const char *sign, const char *text, size_t length, br__ending ending)
{
  if (w->ending == BR__NO_ENDING)
    br__text_putc (w->t, '\n');
  br__text_puts (w->t, sign);
  br__text_put (w->t, text, length);
  if (ending != BR__NO_ENDING)
    br__text_puts (w->t, ending == BR__CRLF ? "\r\n" : "\n");
  w->ending = ending;
}

static void
put_line (writer *w, const char *text, size_t length, br__ending ending)
{
  put_behind (w, "", text, length, ending);
}

/* Whether the file that LINE uses would be read where the new file is opened, and is what was read: it is still there, and
   is not the one that is written.  */
static int
can_use (const writer *w, const br__line *line)
{
  br_file_request request = { .use = BR_FILE_SHEET, .path = line->uses, .sheet = w->path };
  if (access (line->uses, F_OK) != 0 || br__same_file (line->uses, w->path) || !br_file_usual (&request))
    return 0;
  for (const br__line *l = line->next; l; l = l->next)
    if (l->owner == line && (l->text != l->original || (l->uses && !can_use (w, l))))
      return 0;
  return 1;
}

/* The name in LINE, which is a `use`.  */
static br_text
name_in (const br__line *line)
{
  br_text name = BR_TEXT_ZERO;
  br__lexer lex;
  size_t end = br__note_start (line->text, line->length), start = 0;
  if (br__lex_start (&lex, line->text, end, NULL) == BR_OK)
    start = lex.token.offset + lex.token.length;
  while (start < end && br__blank_at (line->text + start, 1))
    start++;
  while (end > start && br__blank_at (line->text + end - 1, 1))
    end--;
  if (end > start + 1 && line->text[start] == '"' && line->text[end - 1] == '"')
    start++, end--;
  br__text_put (&name, line->text + start, end - start);
  return name;
}

/* 1 if the path in LINE leads to the same file from the folder FOLDER, too.  */
static int
leads_there (const br__line *line, const char *folder)
{
  br_text name = name_in (line), whole = BR_TEXT_ZERO;
  const char *text = br__text_string (&name);
  br__text_printf (&whole, "%s%s%s", *text == '/' ? "" : folder, *text == '/' ? "" : "/", text);
  char *real = whole.failed || name.failed ? NULL : br__file_resolve (br__text_string (&whole));
  int same = real && strcmp (real, line->uses) == 0;
  br__free (real);
  br__text_clear (&name);
  br__text_clear (&whole);
  return same;
}

static void put_lines (writer *w, const br__line *owner);

static void
put_use (writer *w, const br__line *line)
{
  char *folder = br__file_folder (w->path);
  const char *below = folder ? br__file_below (line->uses, folder) : NULL;
  size_t note = br__note_start (line->text, line->length);
  br_text t = BR_TEXT_ZERO;
  if (!below || !can_use (w, line))
    {
      br__text_printf (&t, "# from %s", br__file_base (line->uses));
      put_line (w, br__text_string (&t), t.length, line->ending == BR__CRLF ? BR__CRLF : BR__LF);
      put_lines (w, line);
    }
  else if (leads_there (line, folder))
    put_line (w, line->text, line->length, line->ending);
  else
    {
      br__text_printf (&t, "use \"%s\"%s", below, note < line->length ? "  " : "");
      br__text_put (&t, line->text + note, line->length - note);
      put_line (w, br__text_string (&t), t.length, line->ending);
    }
  w->t->failed |= t.failed;
  br__text_clear (&t);
  br__free (folder);
}

/* If a setting was made several times, only the last line is written, at its place; but the grid is written where it was
   first set, because sizes in squares can be read only after it.  */
static void
put_setting (writer *w, const br__line *line)
{
  const given *g = find_given (w->given, line->setting);
  const br__line *noted = g->noted;
  br_text t = BR_TEXT_ZERO;
  if (line != (strcmp (g->name, "grid") == 0 ? g->first : g->last))
    return;
  w->sheet->language->put_setting (&t, w->sheet, g->last);
  if (noted && noted != g->last)
    {
      size_t note = br__note_start (noted->text, noted->length);
      br__text_puts (&t, "  ");
      br__text_put (&t, noted->text + note, noted->length - note);
    }
  put_line (w, br__text_string (&t), t.length, line->ending);
  w->t->failed |= t.failed;
  br__text_clear (&t);
}

static void
put_lines (writer *w, const br__line *owner)
{
  for (const br__line *l = owner ? owner->next : w->sheet->first; l; l = l->next)
    if (l->hidden || l->owner != owner)
      continue;
    else if (l->uses)
      put_use (w, l);
    else if (l->setting && w->given && !owner)
      put_setting (w, l);
    else
      /* The effect of `undo` and the like is already in the other lines.  */
      put_behind (w, l->steps ? "# " : "", l->text, l->length, l->ending);
}

/* Finds which lines made which setting.  Returns 1 if a setting was made twice and the last line of each would be enough.
   It would not be enough if an answer in a file comes between two such lines, if the settings of another sheet come between
   them, or for a ruler given as a whole number, 8, which means something else in another unit.  */
static int
gather_settings (given all[MOST_SETTINGS + 1], const br_sheet *sheet)
{
  int twice = 0;
  for (const br__line *l = sheet->first; l; l = l->next)
    {
      if (l->hidden)
        continue;
      given *g = l->setting ? find_given (all, l->setting) : NULL;
      for (given *other = all; (l->answers || (l->foreign && g)) && other->name; other++)
        other->between |= l->foreign && g ? 2 : 1;
      if (!g || g == all + MOST_SETTINGS)
        continue;
      if (l->foreign)
        {
          g->name = l->setting;
          g->between |= strcmp (l->setting, "units") == 0 ? 2 : 0;
        }
      else if (g->first && ((g->between & 2) || (g->between && !l->typed)))
        return 0;
      else
        {
          g->name = l->setting;
          twice |= g->first != NULL;
          g->first = g->first ? g->first : l;
          g->last = l;
          g->noted = br__note_start (l->text, l->length) < l->length ? l : g->noted;
          g->between &= 2;
        }
    }
  const given *ruler = find_given (all, "ruler"), *units = find_given (all, "units");
  const br__settings *set = &sheet->settings;
  int64_t num, den;
  int whole = !set->ruler_unit && br_number_get_ratio (&num, &den, &set->ruler) && den == 1;
  const br__line *l = ruler->first && whole ? units->first : NULL;
  while (l && l != units->last && l != ruler->last)
    l = l->next;
  return twice && (!l || l == units->last);
}

void
br__put_sheet (br_text *t, const br_sheet *sheet, const char *path)
{
  given all[MOST_SETTINGS + 1];
  memset (all, 0, sizeof all);
  writer w = { t, sheet, path, BR__LF, gather_settings (all, sheet) ? all : NULL };
  if (sheet->mark)
    br__text_puts (t, "\xEF\xBB\xBF");
  put_lines (&w, NULL);
}

void
br__free_name (char *name, size_t size)
{
  int n = 1;
  do
    snprintf (name, size, n == 1 ? "work.sheet" : "work%d.sheet", n);
  while (access (name, F_OK) == 0 && n++ < 1000);
}
