/* SPDX-License-Identifier: GPL-3.0-or-later
   said.h - a sink that keeps what a sheet says, and looks into it by path ("changed.0.name", "waiting.count").  */
#ifndef BR_TESTS_SAID_H
#define BR_TESTS_SAID_H

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "benchrule_sheet.h"
#include "schema.h"

#define SAID_UNUSED __attribute__ ((unused))

/* A record as pairs of path and value, each ended by NUL: it is the C library's memory, so that a
   test may refuse the library's own.  */
typedef struct said_record
{
  char *pairs;
  size_t size;
} said_record;

typedef struct said_fault
{
  size_t line, text_length;
  char file[64];
  br_error error;
} said_fault;

typedef struct said
{
  said_record *records;
  size_t count;
  said_fault *faults;
  size_t fault_count;
} said;

#define SAID_ZERO { NULL, 0, NULL, 0 }

/* A line made as by printf, to be freed.  */
SAID_UNUSED static char *said_line (const char *format, va_list args) __attribute__ ((format (printf, 1, 0)));

SAID_UNUSED static char *
said_line (const char *format, va_list args)
{
  char *line = NULL;
  size_t length;
  FILE *out = open_memstream (&line, &length);
  vfprintf (out, format, args);
  fclose (out);
  return line;
}

SAID_UNUSED static void
said_clear (said *s)
{
  for (size_t i = 0; i < s->count; i++)
    free (s->records[i].pairs);
  free (s->records);
  free (s->faults);
  memset (s, 0, sizeof *s);
}

static void said_put_record (FILE *out, const char *path, const br_record *record);

SAID_UNUSED static void
said_put_field (FILE *out, const char *path, br_field field)
{
  char inner[256];
  switch (field.type)
    {
    case BR_FIELD_NULL: fprintf (out, "%s%cnull%c", path, 0, 0); break;
    case BR_FIELD_TRUTH: fprintf (out, "%s%c%s%c", path, 0, field.value.truth ? "true" : "false", 0); break;
    case BR_FIELD_COUNT: fprintf (out, "%s%c%" PRId64 "%c", path, 0, field.value.count, 0); break;
    case BR_FIELD_TEXT: fprintf (out, "%s%c%s%c", path, 0, field.value.text, 0); break;
    case BR_FIELD_RECORD: said_put_record (out, path, field.value.record); break;
    case BR_FIELD_LIST:
      fprintf (out, "%s.count%c%zu%c", path, 0, br_list_size (field.value.list), 0);
      for (size_t i = 0; i < br_list_size (field.value.list); i++)
        {
          snprintf (inner, sizeof inner, "%s.%zu", path, i);
          said_put_field (out, inner, br_list_at (field.value.list, i));
        }
      break;
    }
}

static void
said_put_record (FILE *out, const char *path, const br_record *record)
{
  char inner[256];
  for (size_t i = 0; i < br_record_size (record); i++)
    {
      br_field field = br_record_at (record, i);
      snprintf (inner, sizeof inner, "%s%s%s", path, *path ? "." : "", field.key);
      said_put_field (out, inner, field);
    }
}

SAID_UNUSED static void
said_take_record (void *user, const br_record *record)
{
  said *s = user;
  schema_hold (record);
  s->records = realloc (s->records, (s->count + 1) * sizeof *s->records);
  said_record *made = &s->records[s->count++];
  FILE *out = open_memstream (&made->pairs, &made->size);
  fprintf (out, "kind%c%s%c", 0, br_record_kind (record), 0);
  said_put_record (out, "", record);
  fclose (out);
}

SAID_UNUSED static void
said_take_fault (void *user, const br_fault *fault)
{
  said *s = user;
  s->faults = realloc (s->faults, (s->fault_count + 1) * sizeof *s->faults);
  said_fault *made = &s->faults[s->fault_count++];
  made->line = fault->line;
  made->text_length = fault->text_length;
  snprintf (made->file, sizeof made->file, "%s", fault->file);
  made->error = *fault->error;
}

/* The value at PATH of record INDEX, or NULL where there is none.  */
SAID_UNUSED static const char *
said_find (const said *s, size_t index, const char *path)
{
  if (index >= s->count)
    return NULL;
  const char *at = s->records[index].pairs, *end = at + s->records[index].size;
  while (at < end)
    {
      const char *value = at + strlen (at) + 1;
      if (strcmp (at, path) == 0)
        return value;
      at = value + strlen (value) + 1;
    }
  return NULL;
}

#endif
