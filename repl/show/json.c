/* SPDX-License-Identifier: GPL-3.0-or-later
   json.c - records and mistakes as JSON: a plain walk over the fields, in order,
   compact, one object a line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/json.h"

#include <stdlib.h>
#include <string.h>

#include "escape.h"

/* A text that is no UTF-8 is no JSON string; its broken bytes are spelled out.  */
static json_t *
of_text (const char *text)
{
  json_t *string = json_string (text);
  if (string)
    return string;
  char *whole = escape_broken (text, strlen (text));
  string = whole ? json_string (whole) : NULL;
  free (whole);
  return string;
}

static json_t *of_list (const br_list *list);

static json_t *
of_field (const br_field *field)
{
  switch (field->type)
    {
    case BR_FIELD_TRUTH: return json_boolean (field->value.truth);
    case BR_FIELD_COUNT: return json_integer (field->value.count);
    case BR_FIELD_TEXT: return of_text (field->value.text);
    case BR_FIELD_LIST: return of_list (field->value.list);
    case BR_FIELD_RECORD: return json_of_record (field->value.record);
    case BR_FIELD_NULL: break;
    }
  return json_null ();
}

static json_t *
of_list (const br_list *list)
{
  json_t *array = json_array ();
  int good = array != NULL;
  for (size_t i = 0; good && i < br_list_size (list); i++)
    {
      br_field field = br_list_at (list, i);
      good = json_array_append_new (array, of_field (&field)) == 0;
    }
  if (good)
    return array;
  json_decref (array);
  return NULL;
}

json_t *
json_of_record (const br_record *record)
{
  json_t *object = json_object ();
  const char *kind = br_record_kind (record);
  int good = object != NULL;
  if (good && *kind)
    good = json_object_set_new (object, "kind", of_text (kind)) == 0;
  for (size_t i = 0; good && i < br_record_size (record); i++)
    {
      br_field field = br_record_at (record, i);
      good = json_object_set_new (object, field.key, of_field (&field)) == 0;
    }
  if (good)
    return object;
  json_decref (object);
  return NULL;
}

/* What steers a terminal or turns text is spelled as JSON spells it, so that who looks at it sees it.  */
static void
put_spelled (FILE *stream, const char *text)
{
  size_t length = strlen (text), start = 0;
  for (size_t at = 0; at < length; )
    {
      size_t bytes = 1;
      unsigned code = (unsigned char) text[at] < 0x7f ? 0 : escape_control (&bytes, text + at, length - at);
      if (code)
        {
          fwrite (text + start, 1, at - start, stream);
          fprintf (stream, "\\u%04x", code);
          start = at + bytes;
        }
      at += bytes;
    }
  fwrite (text + start, 1, length - start, stream);
  putc ('\n', stream);
}

/* Takes OBJECT over.  */
static int
put_line (FILE *stream, json_t *object)
{
  char *text = object ? json_dumps (object, JSON_COMPACT) : NULL;
  int good = text != NULL;
  if (good)
    put_spelled (stream, text);
  free (text);
  json_decref (object);
  return good;
}

int
json_put_record (FILE *stream, const br_record *record)
{
  return put_line (stream, json_of_record (record));
}

/* A mistake that is in no line, such as a file that is not there, has no place.  */
static int
set_place (json_t *object, const char *key, int known, size_t place)
{
  return json_object_set_new (object, key,
                              known ? json_integer ((json_int_t) place) : json_null ()) == 0;
}

int
json_put_fault (FILE *stream, const br_fault *fault)
{
  json_t *object = json_object ();
  int known = fault->line > 0;
  size_t column = escape_column (fault->text, fault->text_length, fault->error->offset);
  int good = object
             && json_object_set_new (object, "kind", json_string ("error")) == 0
             && json_object_set_new (object, "message", of_text (fault->error->message)) == 0
             && json_object_set_new (object, "file", of_text (fault->file)) == 0
             && set_place (object, "line", known, fault->line)
             && set_place (object, "column", known, column)
             && json_object_set_new (object, "hint", of_text (fault->error->hint)) == 0
             && json_object_set_new (object, "status", json_string (br_status_name (fault->error->status))) == 0;
  if (good)
    return put_line (stream, object);
  json_decref (object);
  return 0;
}
