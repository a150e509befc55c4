/* SPDX-License-Identifier: GPL-3.0-or-later
   text.c - records as text: who prints which kind, rows that wait to become a table,
   and a plain printer for kinds that have none of their own.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "fields.h"

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

/* A row inside a list: "key value, key value" on one line.  */
static void
put_row (const display *d, const br_record *record)
{
  for (size_t i = 0; i < br_record_size (record); i++)
    {
      br_field field = br_record_at (record, i);
      display_put (d, i ? ", " : "");
      display_put (d, field.key);
      display_put (d, " ");
      put_scalar (d, &field);
    }
}

static void
put_list (const display *d, const br_list *list, int indent)
{
  for (size_t i = 0; i < br_list_size (list); i++)
    {
      br_field field = br_list_at (list, i);
      display_repeat (d, " ", indent);
      if (field.type == BR_FIELD_RECORD)
        put_row (d, field.value.record);
      else
        put_scalar (d, &field);
      putc ('\n', d->stream);
    }
}

static void
put_fields (const display *d, const br_record *record, int indent)
{
  for (size_t i = 0; i < br_record_size (record); i++)
    {
      br_field field = br_record_at (record, i);
      if (field.type == BR_FIELD_NULL
          || (field.type == BR_FIELD_LIST && br_list_size (field.value.list) == 0))
        continue;
      display_repeat (d, " ", indent);
      display_put (d, field.key);
      display_put (d, ":");
      if (field.type == BR_FIELD_LIST || field.type == BR_FIELD_RECORD)
        putc ('\n', d->stream);
      if (field.type == BR_FIELD_LIST)
        put_list (d, field.value.list, indent + 2);
      else if (field.type == BR_FIELD_RECORD)
        put_fields (d, field.value.record, indent + 2);
      else
        {
          display_put (d, " ");
          put_scalar (d, &field);
          putc ('\n', d->stream);
        }
    }
}

/* Any kind: the lines that it brings, or else its fields.  */
static void
put_plain (const display *d, const br_record *record)
{
  const br_list *lines = field_list (record, "lines");
  if (lines)
    put_list (d, lines, 0);
  else
    put_fields (d, record, 0);
}

static const text_kind *
find_kind (const br_record *record)
{
  static const text_kind plain = { "", put_plain, NULL, 0, NULL };
  const text_kind *const tables[] = { text_values, text_rounds, text_sheets, text_shops };
  if (field_list (record, "lines"))
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
      if (kind->block)
        hold_single (p, record);
    }
  kind->row (&p->rows, p->display, record);
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
