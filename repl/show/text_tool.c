/* SPDX-License-Identifier: GPL-3.0-or-later
   text_tool.c - drills and saw blades as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <string.h>

#include "show/fields.h"

/* SIDE is "below" or "above"; two cells.  Drills by number and letter are known by their decimals.  */
static void
drill_cells (table *t, const br_record *row, const char *side)
{
  char key[24], decimal[64];
  br_number size = BR_NUMBER_ZERO;
  const char *name = br_record_text (row, side);
  snprintf (key, sizeof key, "%s_size", side);
  const char *exact = br_record_text (row, key);
  int named = strcmp (exact, name) != 0 && field_number (&size, exact)
    && br_number_write_decimal (decimal, sizeof decimal, NULL, &size, 6) < sizeof decimal;
  table_addf (t, "%s%s%s", name, named ? " = " : "", named ? decimal : "");
  br_number_clear (&size);
  snprintf (key, sizeof key, "%s_play", side);
  const char *play = br_record_text (row, key);
  table_addf (t, "%s%s", field_sign (play) > 0 ? "+" : "", play);
}

/* `drills(0.3)` is written as a function would be; its brackets are not repeated.  */
static void
put_size (const display *d, const br_record *record)
{
  const char *typed = br_record_text (record, "expression");
  text_value (d, record, *typed == '(' ? br_record_text (record, "shown") : typed);
  putc ('\n', d->stream);
}

static void
drills_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "drills by", "next below", "play", "next above", "play" };
  const br_list *rows = br_record_list (record, "rows");
  table t = TABLE_ZERO;
  put_size (d, record);
  table_start (&t, 5, headings);
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      table_add (&t, br_record_text (row, "series"));
      drill_cells (&t, row, "below");
      drill_cells (&t, row, "above");
    }
  table_put (&t, d);
  table_clear (&t);
  text_source (d, record);
}

static void
saws_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "blade", "smallest radius", "can it follow?" };
  const br_list *rows = br_record_list (record, "rows");
  table t = TABLE_ZERO;
  display_put (d, "a curve of radius ");
  put_size (d, record);
  table_start (&t, 3, headings);
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      table_add (&t, br_record_text (row, "blade"));
      table_add (&t, br_record_text (row, "smallest_radius"));
      table_add (&t, br_record_truth (row, "follows") ? "yes" : "no, too wide");
    }
  table_put (&t, d);
  table_clear (&t);
  text_source (d, record);
}

const text_kind text_tools[] = {
  { "drills", drills_block, NULL, 0, NULL, 0, NULL },
  { "saws", saws_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
