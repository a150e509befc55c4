/* SPDX-License-Identifier: LGPL-3.0-or-later
   known.c - sizes that are known and stay: what `known` says in the lines of the sheet, and what is bought as it is.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "sheet/hidden.h"
#include "sheet/known.h"

/* The first word of LINE is WORD, and no name that is set.  */
static int
begins_with (const br__line *line, const char *word)
{
  br__lexer l;
  return br__lex_start (&l, line->text, br__note_start (line->text, line->length), NULL) == BR_OK && br__lex_is_word (&l, word)
         && br__lex_next (&l, NULL) == BR_OK && !br__lex_is_sign (&l, '=');
}

/* NAME stands in LINE behind its first word.  */
static int
holds_name (const br__line *line, const char *name)
{
  br__lexer l;
  size_t length = strlen (name);
  br_status status = br__lex_start (&l, line->text, br__note_start (line->text, line->length), NULL);
  while (status == BR_OK && l.token.type != BR__END && (status = br__lex_next (&l, NULL)) == BR_OK)
    if (l.token.type == BR__NAME && l.token.length == length && memcmp (line->text + l.token.offset, name, length) == 0)
      return 1;
  return 0;
}

static int
any_holds (const br_sheet *sheet, const char *word, const char *name)
{
  for (const br__line *line = sheet->first; line; line = line->next)
    if (!line->hidden && line->text[0] && begins_with (line, word) && holds_name (line, name))
      return 1;
  return 0;
}

int
br__is_marked_known (const br_sheet *sheet, br__entry *e)
{
  const br__definition *d = br__entry_definition (e);
  return (d && d->known) || any_holds (sheet, "known", br__entry_name (e));
}

/* A word of TEXT, in small letters or capitals, parted by what is no letter.  */
static int
has_word (const char *text, size_t length, const char *word)
{
  size_t n = strlen (word);
  for (size_t i = 0; i + n <= length; i++)
    if ((i == 0 || !br__letter_at (text + i - 1, 1, 0) || text[i - 1] == '_') && br__same_word (text + i, n, word))
      return 1;
  return 0;
}

/* What is bought as it is says so in its name or its note.  */
static int
is_hardware (const br__entry *e)
{
  static const char *const words[] = { "dowel", "stock", "bolt", "screw", "nail", "washer", "hardware", "bought", "rod", "plywood" };
  const char *name = br__entry_name (e);
  const br__definition *d = br__entry_definition (e);
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (has_word (name, strlen (name), words[i]) || (d && d->note && has_word (d->note, strlen (d->note), words[i])))
      return 1;
  return 0;
}

int
br__stays (const br_sheet *sheet, br__entry *e)
{
  return is_hardware (e) || br__is_marked_known (sheet, e) || any_holds (sheet, "stock", br__entry_name (e));
}

/* `known axle, board`: the line itself is what keeps it.  */
br_status
br__do_known (br__run *run)
{
  br_status status = BR_OK;
  br_record *r = br__record_new ("known");
  br_list *names = br__put_list (r, "names");
  int list = run->lex.token.type == BR__END;
  for (br__entry *e = br__graph_first (run->sheet->graph); list && e; e = br__entry_next (e))
    if (!br__is_hidden_entry (e) && br__entry_definition (e) && br__stays (run->sheet, e))
      br__list_entry (names, e);
  for (int first = 1; !list && status == BR_OK && (first || br__lex_is_sign (&run->lex, ',')); first = 0)
    {
      br__entry *e = NULL;
      if (!first)
        status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__named_entry (run, &e);
      if (status == BR_OK)
        br__list_entry (names, e);
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status != BR_OK)
    {
      br__record_free (r);
      return status;
    }
  run->kept = !list;
  return br__emit (run, r);
}
