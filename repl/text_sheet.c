/* SPDX-License-Identifier: GPL-3.0-or-later
   text_sheet.c - answers about a sheet as text: dimensions, what is missing, where one
   comes from, checks, steps, settings and cautions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <stdlib.h>
#include <string.h>

#include "fields.h"

/* A list of names as one cell; the caller frees it.  */
static char *
join (const br_list *names)
{
  char *text = NULL;
  size_t size = 0;
  FILE *stream = open_memstream (&text, &size);
  if (!stream)
    return NULL;
  for (size_t i = 0; i < fields_in (names); i++)
    fprintf (stream, "%s%s", i ? ", " : "", field_text_at (names, i));
  return fclose (stream) == 0 ? text : NULL;
}

static void
add_free (table *t, char *text)
{
  table_add (t, text ? text : "");
  free (text);
}

static void
dimension_row (table *t, const display *d, const br_record *record)
{
  int waits = strcmp (field_text (record, "state"), "waiting") == 0;
  int exact = *field_text (record, "exact") != '\0';
  table_add (t, field_text (record, "name"));
  if (waits)
    table_add (t, "waits");
  else if (exact)
    table_add (t, field_text (record, "shown"));
  else
    table_addf (t, "%s%s", display_sign (d, "\xe2\x89\x88 ", "about "), field_text (record, "decimal"));
  table_add (t, field_text (record, "drawn"));
  table_add (t, field_text (record, "formula"));
  if (waits)
    add_free (t, join (field_list (record, "waiting")));
  else
    table_add (t, "");
  table_add (t, field_text (record, "note"));
}

static void
missing_row (table *t, const display *d, const br_record *record)
{
  (void) d;
  table_add (t, field_text (record, "name"));
  br_field by = br_record_get (record, "needed_by");
  if (by.type == BR_FIELD_LIST)
    add_free (t, join (by.value.list));
  else
    table_add (t, field_text (record, "needed_by"));
}

static void
setting_row (table *t, const display *d, const br_record *record)
{
  (void) d;
  table_add (t, field_text (record, "name"));
  table_add (t, field_text (record, "value"));
}

static void
setting_block (const display *d, const br_record *record)
{
  display_put (d, field_text (record, "name"));
  display_put (d, " ");
  display_put (d, field_text (record, "value"));
  putc ('\n', d->stream);
}

static void
trace_block (const display *d, const br_record *record)
{
  const br_list *uses = field_list (record, "uses");
  const br_list *used_by = field_list (record, "used_by");
  const char *formula = field_text (record, "formula");
  display_put (d, field_text (record, "name"));
  display_put (d, *formula ? " = " : "");
  display_put (d, formula);
  fputs ("\n  comes from   ", d->stream);
  display_put (d, fields_in (uses) ? "" : "nothing else: it was given");
  text_names (d, uses);
  fputs ("\n  is used by   ", d->stream);
  display_put (d, fields_in (used_by) ? "" : "nothing");
  text_names (d, used_by);
  putc ('\n', d->stream);
}

static void
put_mixed (const display *d, const char *exact)
{
  char *mixed = text_mixed (exact);
  display_put (d, mixed ? mixed : exact);
  free (mixed);
}

/* The state stands first and in words, a failure in capitals.  */
static void
check_block (const display *d, const br_record *record)
{
  const char *state = field_text (record, "state");
  const char *note = field_text (record, "note");
  const char *margin = field_text (record, "margin");
  int fails = strcmp (state, "fail") == 0;
  display_bold (d, fails);
  display_put (d, fails ? "FAIL" : state);
  if (fails)
    display_bold (d, 0);
  display_put (d, "  ");
  display_put (d, field_text (record, "formula"));
  if (*field_text (record, "left") && *field_text (record, "right"))
    {
      display_put (d, ": ");
      put_mixed (d, field_text (record, "left"));
      display_put (d, " against ");
      put_mixed (d, field_text (record, "right"));
    }
  if (*margin)
    {
      display_put (d, ", margin ");
      put_mixed (d, margin);
    }
  fputs (*note ? "\n      " : "", d->stream);
  display_put (d, note);
  putc ('\n', d->stream);
}

static void
steps_block (const display *d, const br_record *record)
{
  const br_list *steps = field_list (record, "steps");
  for (size_t i = 0; i < fields_in (steps); i++)
    {
      fprintf (d->stream, "%3zu. ", i + 1);
      display_put (d, field_text_at (steps, i));
      putc ('\n', d->stream);
    }
  display_put (d, "answer ");
  display_bold (d, 1);
  display_put (d, field_text (record, "answer"));
  display_bold (d, 0);
  putc ('\n', d->stream);
}

static void
caution_block (const display *d, const br_record *record)
{
  const char *source = field_text (record, "source");
  display_bold (d, 1);
  display_put (d, "Take care: ");
  display_bold (d, 0);
  display_put (d, field_text (record, "message"));
  if (*source)
    {
      display_put (d, " (");
      display_put (d, source);
      display_put (d, ")");
    }
  putc ('\n', d->stream);
}

static const char *const dimension_headings[] = { "name", "value", "drawn", "formula", "waits for", "note" };
static const char *const missing_headings[] = { "missing", "needed by" };
static const char *const setting_headings[] = { "setting", "value" };

const text_kind text_sheets[] = {
  { "dimension", NULL, dimension_row, 6, dimension_headings },
  { "missing", NULL, missing_row, 2, missing_headings },
  { "setting", setting_block, setting_row, 2, setting_headings },
  { "trace", trace_block, NULL, 0, NULL },
  { "check", check_block, NULL, 0, NULL },
  { "steps", steps_block, NULL, 0, NULL },
  { "caution", caution_block, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL }
};
