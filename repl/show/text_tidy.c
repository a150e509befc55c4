/* SPDX-License-Identifier: GPL-3.0-or-later
   text_tidy.c - the proposal to put every given dimension on its mark, and what follows.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <stdlib.h>

static void
put_moves (const display *d, const br_list *rows, const char *what, const char *after)
{
  const char *headings[] = { what, "now", after };
  table t = TABLE_ZERO;
  if (!br_list_size (rows))
    return;
  table_start (&t, 3, headings);
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      table_add (&t, br_record_text (row, "name"));
      for (int k = 0; k < 2; k++)
        {
          char *size = text_short (d, br_record_text (row, k ? "after" : "before"), "");
          table_add (&t, size ? size : "");
          free (size);
        }
    }
  table_put (&t, d);
  table_clear (&t);
}

static void
tidy_block (const display *d, const br_record *record)
{
  const br_list *failing = br_record_list (record, "failing");
  int applied = br_record_truth (record, "applied");
  if (!br_list_size (br_record_list (record, "dimensions")))
    fputs ("nothing moves\n", d->stream);
  else
    fputs (applied ? "moved to the nearest marks; `undo` takes it back\n"
           : "a proposal; `tidy apply` does it\n", d->stream);
  put_moves (d, br_record_list (record, "dimensions"), "given", "on its mark");
  put_moves (d, br_record_list (record, "moves"), "moves with it", "then");
  if (br_list_size (br_record_list (record, "kept")))
    {
      fputs ("  stays as it is: ", d->stream);
      text_names (d, br_record_list (record, "kept"));
      fputs ("  (`tidy NAME` moves one)\n", d->stream);
    }
  for (size_t i = 0; i < br_list_size (failing); i++)
    {
      display_bold (d, 1);
      display_put (d, applied ? "FAIL" : "would FAIL");
      display_bold (d, 0);
      display_put (d, "  ");
      display_put (d, br_list_text (failing, i));
      putc ('\n', d->stream);
    }
}

static void
known_block (const display *d, const br_record *record)
{
  const br_list *names = br_record_list (record, "names");
  fputs (br_list_size (names) ? "known: " : "nothing is known yet: write `known NAME`", d->stream);
  text_names (d, names);
  putc ('\n', d->stream);
}

static void
saved_block (const display *d, const br_record *record)
{
  display_put (d, "saved to ");
  display_put (d, br_record_text (record, "file"));
  putc ('\n', d->stream);
}

const text_kind text_tidies[] =
{
  { "tidy", tidy_block, NULL, 0, NULL, 0, NULL },
  { "known", known_block, NULL, 0, NULL, 0, NULL },
  { "saved", saved_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
