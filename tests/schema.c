/* SPDX-License-Identifier: GPL-3.0-or-later
   schema.c - holds records against docs/benchrule.schema.json: what that file uses of JSON Schema 2020-12, and no more; a
   word that is not known here is a mistake of the schema.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "schema.h"

#include <regex.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "show/json.h"

#define HELP "; DEVELOPERS.md, Records, says what a new key or kind needs"

static char mistake[600];

__attribute__ ((format (printf, 1, 2))) static const char *
wrong (const char *format, ...)
{
  va_list args;
  va_start (args, format);
  vsnprintf (mistake, sizeof mistake, format, args);
  va_end (args);
  return mistake;
}

static json_t *
definitions (void)
{
  static json_t *schema;
  if (!schema)
    {
      char path[4096];
      json_error_t error;
      snprintf (path, sizeof path, "%s/docs/benchrule.schema.json", getenv ("srcdir") ? getenv ("srcdir") : ".");
      schema = json_load_file (path, JSON_REJECT_DUPLICATES, &error);
      if (!schema)
        {
          fprintf (stderr, "%s:%d: %s\n", path, error.line, error.text);
          exit (1);
        }
    }
  return json_object_get (schema, "$defs");
}

const json_t *
schema_of (const char *name)
{
  char key[200];
  snprintf (key, sizeof key, "record.%s", name);
  return json_object_get (definitions (), key);
}

static int
has_type (const json_t *x, const char *type)
{
  return strcmp (type, "object") == 0 ? json_is_object (x) : strcmp (type, "array") == 0 ? json_is_array (x)
         : strcmp (type, "string") == 0 ? json_is_string (x) : strcmp (type, "integer") == 0 ? json_is_integer (x)
         : strcmp (type, "boolean") == 0 ? json_is_boolean (x) : strcmp (type, "null") == 0 ? json_is_null (x) : 0;
}

static int
is_one_of (const json_t *x, const json_t *types)
{
  size_t i;
  const json_t *type;
  if (json_is_string (types))
    return has_type (x, json_string_value (types));
  json_array_foreach (types, i, type)
    if (has_type (x, json_string_value (type)))
      return 1;
  return 0;
}

/* Patterns are compiled once: there are few.  */
static int
matches (const char *text, const char *pattern)
{
  static struct { const char *pattern; regex_t compiled; } known[16];
  size_t i = 0;
  while (i < 15 && known[i].pattern && strcmp (known[i].pattern, pattern) != 0)
    i++;
  if (!known[i].pattern)
    {
      if (regcomp (&known[i].compiled, pattern, REG_EXTENDED | REG_NOSUB) != 0)
        return 0;
      known[i].pattern = pattern;
    }
  return regexec (&known[i].compiled, text, 0, NULL, 0) == 0;
}

static const char *check (const json_t *x, const json_t *schema, const char *at);

static const char *
check_object (const json_t *x, const json_t *properties, const char *at)
{
  const char *key, *found = NULL;
  json_t *value;
  json_object_foreach ((json_t *) x, key, value)
    {
      char inner[200];
      const json_t *property = json_object_get (properties, key);
      snprintf (inner, sizeof inner, "%s.%s", at, key);
      if (!property)
        return wrong ("`%s` has the key `%s`, which the schema has not" HELP, at, key);
      found = check (value, property, inner);
      if (found)
        return found;
    }
  return NULL;
}

static const char *
check_word (const json_t *x, const char *word, const json_t *said, const char *at)
{
  const char *found = NULL;
  size_t i;
  const json_t *item;
  if (strcmp (word, "$ref") == 0)
    {
      const char *name = json_string_value (said);
      const json_t *other = strncmp (name, "#/$defs/", 8) == 0 ? json_object_get (definitions (), name + 8) : NULL;
      return other ? check (x, other, at) : wrong ("the schema has no %s", name);
    }
  if (strcmp (word, "properties") == 0)
    return check_object (x, said, at);
  if (strcmp (word, "required") == 0)
    {
      json_array_foreach (said, i, item)
        if (!json_object_get (x, json_string_value (item)))
          return wrong ("`%s` lacks the key `%s`" HELP, at, json_string_value (item));
    }
  else if (strcmp (word, "items") == 0)
    {
      json_array_foreach (x, i, item)
        if ((found = check (item, said, at)))
          return found;
    }
  else if (strcmp (word, "enum") == 0)
    {
      json_array_foreach (said, i, item)
        if (json_equal (x, item))
          return NULL;
      return wrong ("`%s` is none of those that the schema has", at);
    }
  else if (strcmp (word, "const") == 0)
    return json_equal (x, said) ? NULL : wrong ("`%s` is another one in the schema", at);
  else if (strcmp (word, "pattern") == 0)
    return !json_is_string (x) || matches (json_string_value (x), json_string_value (said)) ? NULL
           : wrong ("`%s` is \"%.80s\", no %s", at, json_string_value (x), json_string_value (said));
  else if (strcmp (word, "minimum") == 0)
    return !json_is_integer (x) || json_integer_value (x) >= json_integer_value (said) ? NULL
           : wrong ("`%s` is too small", at);
  else if (strcmp (word, "additionalProperties") != 0)
    return wrong ("the schema says \"%s\", which tests/schema.c does not know", word);
  return NULL;
}

static const char *
check (const json_t *x, const json_t *schema, const char *at)
{
  const char *word;
  json_t *said;
  const json_t *types = json_object_get (schema, "type");
  if (types && !is_one_of (x, types))
    return wrong ("`%s` is %s, which the schema does not have there" HELP, at, json_is_null (x) ? "null" : json_is_string (x)
                  ? "a text" : json_is_array (x) ? "a list" : json_is_integer (x) ? "a count" : "of another type");
  json_object_foreach ((json_t *) schema, word, said)
    {
      const char *found = strcmp (word, "type") == 0 ? NULL : check_word (x, word, said, at);
      if (found)
        return found;
    }
  return NULL;
}

const char *
schema_mistake (const json_t *record)
{
  const char *kind = json_string_value (json_object_get (record, "kind"));
  const json_t *schema = kind ? schema_of (kind) : NULL;
  if (!kind)
    return wrong ("a record without a kind");
  return schema ? check (record, schema, kind) : wrong ("a record of the kind `%s`, which the schema has not" HELP, kind);
}

void
schema_hold (const br_record *record)
{
  json_t *object = json_of_record (record);
  const char *found = schema_mistake (object);
  if (found)
    {
      char *text = json_dumps (object, JSON_COMPACT);
      fprintf (stderr, "docs/benchrule.schema.json: %s: %s\n", found, text);
      exit (1);
    }
  json_decref (object);
}
