/* SPDX-License-Identifier: GPL-3.0-or-later
   text.c - records as text: who prints which kind, rows that wait to become a table,
   and a plain printer for kinds that have none of their own.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "escape.h"
#include "show/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

static void put_fields (const display *d, const br_record *record, int indent);

static void
put_scalar (const display *d, const br_field *field)
{
  switch (field->type)
    {
    case BR_FIELD_TRUTH: display_put (d, field->value.truth ? "yes" : "no"); break;
    case BR_FIELD_COUNT: fprintf (d->stream, "%" PRId64, field->value.count); break;
    case BR_FIELD_TEXT: display_put (d, field->value.text); break;
    default: display_put (d, "-"); break;
    }
}

#define KEY_SIZE 32

/* A key as words.  */
static const char *
words_of (char words[KEY_SIZE], const char *key)
{
  size_t i = 0;
  for (; i < KEY_SIZE - 1 && key[i]; i++)
    words[i] = key[i] == '_' ? ' ' : key[i];
  words[i] = '\0';
  return words;
}

static void
put_items (const display *d, const br_list *list, int indent)
{
  for (size_t i = 0; i < br_list_size (list); i++)
    {
      br_field field = br_list_at (list, i);
      display_repeat (d, " ", indent);
      put_scalar (d, &field);
      putc ('\n', d->stream);
    }
}

/* An item of a list in a cell: of a record its scalars, blanks between.  */
static void
put_item (const display *d, const br_field *item)
{
  size_t count = item->type == BR_FIELD_RECORD ? br_record_size (item->value.record) : 0;
  for (size_t i = 0; i < count; i++)
    {
      br_field field = br_record_at (item->value.record, i);
      display_put (d, i ? " " : "");
      put_scalar (d, &field);
    }
  if (item->type != BR_FIELD_RECORD)
    put_scalar (d, item);
}

/* A cell: a scalar as it is, the items of a list with commas between.  The caller frees it.  */
static char *
cell_of (const display *d, const br_field *field)
{
  char *text = NULL;
  size_t size = 0;
  display aside = *d;
  aside.stream = open_memstream (&text, &size);
  if (!aside.stream)
    return NULL;
  if (field->type == BR_FIELD_LIST)
    for (size_t i = 0; i < br_list_size (field->value.list); i++)
      {
        br_field item = br_list_at (field->value.list, i);
        display_put (&aside, i ? ", " : "");
        put_item (&aside, &item);
      }
  else if (field->type != BR_FIELD_NULL)
    put_scalar (&aside, field);
  return fclose (aside.stream) == 0 ? text : NULL;
}

/* Rows that are records make a table; the first one names the columns.  */
static void
put_rows (const display *d, const br_list *list)
{
  table t = TABLE_ZERO;
  const char *keys[TABLE_COLUMNS], *headings[TABLE_COLUMNS];
  char words[TABLE_COLUMNS][KEY_SIZE];
  const br_record *first = br_list_record (list, 0);
  size_t columns = br_record_size (first);
  if (columns > TABLE_COLUMNS)
    columns = TABLE_COLUMNS;
  for (size_t i = 0; i < columns; i++)
    {
      keys[i] = br_record_at (first, i).key;
      headings[i] = words_of (words[i], keys[i]);
    }
  table_start (&t, columns, headings);
  for (size_t row = 0; row < br_list_size (list); row++)
    for (size_t i = 0; i < columns; i++)
      {
        const br_record *record = br_list_record (list, row);
        br_field field = { "", BR_FIELD_NULL, { 0 } };
        if (record)
          field = br_record_get (record, keys[i]);
        char *cell = cell_of (d, &field);
        table_add (&t, cell ? cell : "");
        free (cell);
      }
  table_put (&t, d);
  table_clear (&t);
}

static void
put_list (const display *d, const br_list *list, int indent)
{
  if (br_list_size (list) > 0 && br_list_record (list, 0))
    put_rows (d, list);
  else
    put_items (d, list, indent);
}

/* 1 for what the line of the value says already.  */
static int
is_said (const char *key)
{
  static const char *const said[] = { "expression", "exact", "decimal", "decimal_exact", "unit", "shown" };
  for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
    if (strcmp (key, said[i]) == 0)
      return 1;
  return 0;
}

static void
put_field (const display *d, const br_field *field, int indent)
{
  char words[KEY_SIZE];
  int rows = field->type == BR_FIELD_LIST || field->type == BR_FIELD_RECORD;
  display_repeat (d, " ", indent);
  display_put (d, words_of (words, field->key));
  display_put (d, ":");
  if (rows)
    putc ('\n', d->stream);
  if (field->type == BR_FIELD_LIST)
    put_list (d, field->value.list, indent + 2);
  else if (field->type == BR_FIELD_RECORD)
    put_fields (d, field->value.record, indent + 2);
  else
    {
      display_put (d, " ");
      put_scalar (d, field);
      putc ('\n', d->stream);
    }
}

static void
put_fields (const display *d, const br_record *record, int indent)
{
  int valued = *br_record_text (record, "expression") && *br_record_text (record, "decimal");
  if (valued)
    {
      text_value (d, record, br_record_text (record, "expression"));
      putc ('\n', d->stream);
    }
  for (size_t i = 0; i < br_record_size (record); i++)
    {
      br_field field = br_record_at (record, i);
      int empty = field.type == BR_FIELD_NULL
                  || (field.type == BR_FIELD_LIST && br_list_size (field.value.list) == 0);
      if (!empty && !(valued && is_said (field.key)))
        put_field (d, &field, indent);
    }
}

/* Lines of words; those of a picture stay as they are.  */
static void
put_words (const display *d, const br_list *lines)
{
  for (size_t i = 0; i < br_list_size (lines); i++)
    {
      char *line = escape_text (br_list_text (lines, i), strlen (br_list_text (lines, i)));
      if (line)
        display_fold (d, line, strlen (line));
      putc ('\n', d->stream);
      free (line);
    }
}

/* Any kind: the lines that it brings, or else its fields.  */
static void
put_plain (const display *d, const br_record *record)
{
  const br_list *lines = br_record_list (record, "lines");
  if (lines && strcmp (br_record_kind (record), "help") == 0)
    put_words (d, lines);
  else if (lines)
    put_items (d, lines, 0);
  else
    put_fields (d, record, 0);
}

static const text_kind *
find_kind (const br_record *record)
{
  static const text_kind plain = { "", put_plain, NULL, 0, NULL, 0, NULL };
  const text_kind *const tables[] = { text_values, text_rounds, text_columns, text_drawings, text_sheets, text_cuts,
                                      text_tidies, text_tools, text_designs, text_shapes, text_templates,
                                      text_views, text_lessons };
  if (br_record_list (record, "lines"))
    return &plain;
  for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++)
    for (const text_kind *k = tables[i]; k->kind; k++)
      if (strcmp (k->kind, br_record_kind (record)) == 0)
        return k;
  return &plain;
}

/* Keeps what a single record would look like, as it may be followed by others.  */
static void
hold_single (text_printer *p, const br_record *record)
{
  display aside = *p->display;
  size_t size = 0;
  aside.stream = open_memstream (&p->single, &size);
  if (!aside.stream)
    {
      p->failed = 1;
      return;
    }
  p->held->block (&aside, record);
  if (fclose (aside.stream) != 0)
    p->failed = 1;
}

void
text_put (text_printer *p, const br_record *record)
{
  const text_kind *kind = find_kind (record);
  if (p->held && p->held != kind)
    text_flush (p);
  if (!kind->row)
    {
      kind->block (p->display, record);
      return;
    }
  if (!p->held)
    {
      p->held = kind;
      table_start (&p->rows, kind->columns, kind->headings);
      p->rows.keep = kind->keep;
      if (kind->block)
        hold_single (p, record);
    }
  kind->row (&p->rows, p->display, record);
  if (kind->end && kind->end (NULL, record))
    {
      text_flush (p);
      kind->end (p->display, record);
    }
}

void
text_flush (text_printer *p)
{
  if (!p->held)
    return;
  if (table_rows (&p->rows) == 1 && p->single)
    fputs (p->single, p->display->stream);
  else
    table_put (&p->rows, p->display);
  text_clear (p);
}

void
text_clear (text_printer *p)
{
  p->failed |= p->rows.failed;
  table_clear (&p->rows);
  free (p->single);
  p->single = NULL;
  p->held = NULL;
}
