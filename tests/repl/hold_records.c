/* SPDX-License-Identifier: GPL-3.0-or-later
   hold_records.c - holds the records on standard input, one a line, against the schema, and tells what is wrong, each
   mistake once.  With --kinds: the kinds of the schema that are not among them; with --keys: where the schema and the
   library's own table of keys differ.  Exit status 1 where there is anything to tell.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "schema.h"
#include "sheet/record_keys.h"

static int told;

static void
tell (json_t *seen, const char *mistake, const char *line)
{
  if (json_object_get (seen, mistake))
    return;
  json_object_set_new (seen, mistake, json_true ());
  printf ("%s: %s\n", mistake, line);
  told = 1;
}

/* The properties of each record are the table's keys in its order, and all of them required.  */
static void
compare_keys (void)
{
  const br__record_keys *row;
  for (size_t i = 0; (row = br__record_keys_at (i)); i++)
    {
      const br__record_keys *before = i ? br__record_keys_at (i - 1) : NULL;
      if (before && strcmp (before->kind, row->kind) >= 0)
        {
          printf ("lib/sheet/record_keys.c: `%s` stands behind `%s`\n", row->kind, before->kind);
          told = 1;
        }
      const json_t *schema = schema_of (row->kind);
      json_t *required = json_object_get (schema, "required"), *properties = json_object_get (schema, "properties");
      size_t first = strchr (row->kind, '.') ? 0 : 1, n = 0;
      while (row->keys[n])
        {
          const char *key = json_string_value (json_array_get (required, first + n));
          if (!key || strcmp (key, row->keys[n]) != 0 || !json_object_get (properties, row->keys[n]))
            break;
          n++;
        }
      if (row->keys[n] || json_array_size (required) != first + n || json_object_size (properties) != first + n)
        {
          printf ("`%s`: the schema and lib/sheet/record_keys.c differ at `%s`\n", row->kind, row->keys[n] ? row->keys[n] : "");
          told = 1;
        }
    }
}

int
main (int argc, char **argv)
{
  char *line = NULL;
  size_t room = 0;
  json_t *seen = json_object (), *kinds = json_object ();
  if (argc > 1 && strcmp (argv[1], "--keys") == 0)
    {
      compare_keys ();
      return told;
    }
  for (ssize_t n; (n = getline (&line, &room, stdin)) > 0; )
    {
      json_error_t error;
      line[n - (line[n - 1] == '\n')] = 0;
      json_t *record = json_loads (line, JSON_REJECT_DUPLICATES, &error);
      const char *mistake = record ? schema_mistake (record) : error.text;
      if (mistake)
        tell (seen, mistake, line);
      else
        json_object_set_new (kinds, json_string_value (json_object_get (record, "kind")), json_true ());
      json_decref (record);
    }
  const br__record_keys *row;
  for (size_t i = 0; argc > 1 && strcmp (argv[1], "--kinds") == 0 && (row = br__record_keys_at (i)); i++)
    if (!strchr (row->kind, '.') && !json_object_get (kinds, row->kind))
      {
        printf ("no record of the kind `%s`\n", row->kind);
        told = 1;
      }
  free (line);
  json_decref (seen);
  json_decref (kinds);
  return told;
}
