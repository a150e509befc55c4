/* SPDX-License-Identifier: LGPL-3.0-or-later
   known.c - sizes that must not be changed: those of `known` statements, and sizes of bought hardware.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/hidden.h"
#include "sheet/known.h"

/* What LINE declares the names after its first word to be: 1: stock, 0: known, -1: neither.  */
static int
says_of (const br__line *line)
{
  br__lexer l;
  if (br__lex_start (&l, line->text, line->length, NULL) != BR_OK)
    return -1;
  const int stock = br__lex_is_word (&l, "stock");
  return (stock || br__lex_is_word (&l, "known")) && br__lex_next (&l, NULL) == BR_OK && !br__lex_is_sign (&l, '=') ? stock : -1;
}

struct br__holding
{
  const br__entry *entry;
  int stock;
};

static int
order_of (const void *a, const void *b)
{
  const struct br__holding *p = a, *q = b;
  return p->entry != q->entry ? ((uintptr_t) p->entry > (uintptr_t) q->entry) - ((uintptr_t) p->entry < (uintptr_t) q->entry)
                              : p->stock - q->stock;
}

/* Adds the dimensions that stand in LINE behind its first word.  */
static br_status
add_names (br__held *h, const br_sheet *sheet, const br__line *line, int stock)
{
  br__lexer l;
  br_status status = br__lex_start (&l, line->text, br__note_start (line->text, line->length), NULL);
  while (status == BR_OK && l.token.type != BR__END && (status = br__lex_next (&l, NULL)) == BR_OK)
    {
      const br__entry *e = l.token.type == BR__NAME ? br__graph_find (sheet->graph, line->text + l.token.offset, l.token.length) : NULL;
      if (!e)
        continue;
      if (!br__grow (&h->rows, &h->room, h->count + 1, sizeof *h->rows))
        return BR_NO_MEMORY;
      h->rows[h->count++] = (struct br__holding) { e, stock };
    }
  return BR_OK;
}

br_status
br__held_find (br__held *h, const br_sheet *sheet)
{
  br_status status = BR_OK;
  size_t lines = 0;
  for (const br__line *line = sheet->first; line && status == BR_OK; line = line->next, lines++)
    {
      const int stock = line->hidden || !line->text[0] ? -1 : says_of (line);
      if (stock >= 0)
        status = add_names (h, sheet, line, stock);
    }
  br__account_spend (lines);
  if (h->count)
    qsort (h->rows, h->count, sizeof *h->rows, order_of);
  return status;
}

void
br__held_clear (br__held *h)
{
  br__free (h->rows);
  *h = (br__held) BR__HELD_ZERO;
}

static int
is_held (const br__held *h, const br__entry *e, int stock)
{
  const struct br__holding key = { e, stock };
  return h->count && bsearch (&key, h->rows, h->count, sizeof key, order_of) != NULL;
}

int
br__is_marked_known (const br__held *h, br__entry *e)
{
  const br__definition *d = br__entry_definition (e);
  return (d && d->known) || is_held (h, e, 0);
}

/* 1 if TEXT contains WORD, in any case, with no letter next to it.  */
static int
has_word (const char *text, size_t length, const char *word)
{
  size_t n = strlen (word);
  for (size_t i = 0; i + n <= length; i++)
    if ((i == 0 || !br__letter_at (text + i - 1, 1, 0) || text[i - 1] == '_') && br__same_word (text + i, n, word))
      return 1;
  return 0;
}

/* 1 if the name or the note of E says that it is bought hardware.  */
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
br__stays (const br__held *h, br__entry *e)
{
  return is_hardware (e) || br__is_marked_known (h, e) || is_held (h, e, 1);
}

/* The name at hand.  A file may give its size further on, or not at all any more.  */
static br_status
read_name (br_list *names, br__run *run)
{
  const br__token t = run->lex.token;
  br__entry *e = NULL;
  if (run->from_file && t.type == BR__NAME && !br__graph_find (run->sheet->graph, run->text + t.offset, t.length))
    {
      br__list_bytes (names, run->text + t.offset, t.length);
      return br__lex_next (&run->lex, run->error);
    }
  br_status status = br__named_entry (run, &e);
  if (status == BR_OK)
    br__list_entry (names, e);
  return status;
}

/* `known axle, board`: the line itself is what keeps it.  */
br_status
br__do_known (br__run *run)
{
  br_status status = BR_OK;
  br_record *r = br__record_new ("known");
  br_list *names = br__put_list (r, "names");
  int list = run->lex.token.type == BR__END;
  br__held held = BR__HELD_ZERO;
  if (list)
    status = br__fail_untold (run->error, br__held_find (&held, run->sheet), 0, run->end);
  for (br__entry *e = br__graph_first (run->sheet->graph); list && status == BR_OK && e; e = br__entry_next (e))
    if (!br__is_hidden_entry (e) && br__entry_definition (e) && br__stays (&held, e))
      br__list_entry (names, e);
  br__held_clear (&held);
  for (int first = 1; !list && status == BR_OK && (first || br__lex_is_sign (&run->lex, ',')); first = 0)
    {
      if (!first)
        status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = read_name (names, run);
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
