/* SPDX-License-Identifier: LGPL-3.0-or-later
   record.c - the answers of statements: a kind and an ordered row of fields.  Both records
   and lists are rows of cells; a list is a row whose keys are "".  A record of a known kind begins with all its keys.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "sheet/record.h"
#include "sheet/record_keys.h"

typedef struct cell
{
  const char *key;
  br_field_type type;
  union
  {
    int truth;
    int64_t count;
    char *text;
    struct row *row;
  } value;
} cell;

typedef struct row
{
  const char *kind;
  const br__record_keys *known;     /* of a record; of a list, those of its records; NULL: not in the table */
  cell *cells;
  size_t size, room;
  size_t next;              /* the cell behind the one that was put last */
  int failed;
} row;

struct br_record { row row; };
struct br_list { row row; };

static const br_field absent = { "", BR_FIELD_NULL, { 0 } };

static void row_free (row *r);

static void
cell_clear (cell *c)
{
  if (c->type == BR_FIELD_TEXT)
    br__free (c->value.text);
  else if (c->type == BR_FIELD_LIST || c->type == BR_FIELD_RECORD)
    row_free (c->value.row);
}

static void
row_free (row *r)
{
  if (!r)
    return;
  for (size_t i = 0; i < r->size; i++)
    cell_clear (&r->cells[i]);
  br__free (r->cells);
  br__free (r);
}

static cell *
row_append (row *r, const char *key)
{
  if (!br__grow (&r->cells, &r->room, r->size + 1, sizeof (cell)))
    {
      r->failed = 1;
      return NULL;
    }
  cell *c = &r->cells[r->size++];
  memset (c, 0, sizeof *c);
  c->key = key;
  return c;
}

static row *
row_new (const char *kind, const br__record_keys *known, int is_list)
{
  row *r = br__alloc_zero (1, sizeof *r);
  if (!r)
    return NULL;
  r->kind = kind;
  r->known = known;
  if (!known || is_list)
    return r;
  size_t count = 0;
  while (known->keys[count])
    count++;
  if (count && !br__grow (&r->cells, &r->room, count, sizeof (cell)))
    r->failed = 1;
  else
    for (; r->size < count; r->size++)
      r->cells[r->size] = (cell) { .key = known->keys[r->size] };
  return r;
}

/* The cell of KEY, or a new one if there is none, as in a list.  Keys mostly come in order, so this is fast.  */
static cell *
row_find (row *r, const char *key)
{
  size_t at = r->next;
  for (size_t i = 0; i < r->size && *key; i++, at++)
    {
      if (at >= r->size)
        at = 0;
      if (r->cells[at].key[0] == key[0] && strcmp (r->cells[at].key, key) == 0)
        {
          r->next = at + 1;
          cell_clear (&r->cells[at]);
          return &r->cells[at];
        }
    }
  return row_append (r, key);
}

static cell *
row_add (row *r, const char *key, br_field_type type)
{
  cell *c = r ? row_find (r, key) : NULL;
  if (c)
    c->type = type;
  return c;
}

static void
row_add_text (row *r, const char *key, const char *bytes, size_t length)
{
  cell *c = row_add (r, key, BR_FIELD_TEXT);
  if (!c)
    return;
  c->value.text = br__strndup (bytes, length);
  if (!c->value.text)
    {
      c->type = BR_FIELD_NULL;
      r->failed = 1;
    }
}

static void
row_add_from (row *r, const char *key, br_text *t)
{
  cell *c = t->bytes && !t->failed ? row_add (r, key, BR_FIELD_TEXT) : NULL;
  if (t->failed && r)
    r->failed = 1;
  /* The bytes, which end with a NUL, change hands.  */
  if (c)
    {
      c->value.text = t->bytes;
      *t = (br_text) BR_TEXT_ZERO;
    }
  else
    row_add_text (r, key, br__text_string (t), t->length);
  br__text_clear (t);
}

static row *
row_add_row (row *r, const char *key, br_field_type type)
{
  cell *c = row_add (r, key, type);
  const br__record_keys *known = NULL;
  if (!c)
    return NULL;
  if (r->known)
    known = type == BR_FIELD_LIST ? br__record_keys_of (r->known->kind, key) : r->known;
  c->value.row = row_new ("", known, type == BR_FIELD_LIST);
  if (!c->value.row)
    {
      c->type = BR_FIELD_NULL;
      r->failed = 1;
    }
  return c->value.row;
}

static int
row_failed (const row *r)
{
  if (!r || r->failed)
    return 1;
  for (size_t i = 0; i < r->size; i++)
    if ((r->cells[i].type == BR_FIELD_LIST || r->cells[i].type == BR_FIELD_RECORD)
        && row_failed (r->cells[i].value.row))
      return 1;
  return 0;
}

static br_field
row_at (const row *r, size_t index)
{
  if (!r || index >= r->size)
    return absent;
  const cell *c = &r->cells[index];
  br_field f = { c->key, c->type, { 0 } };
  switch (c->type)
    {
    case BR_FIELD_NULL: break;
    case BR_FIELD_TRUTH: f.value.truth = c->value.truth; break;
    case BR_FIELD_COUNT: f.value.count = c->value.count; break;
    case BR_FIELD_TEXT: f.value.text = c->value.text; break;
    case BR_FIELD_LIST: f.value.list = (const br_list *) c->value.row; break;
    case BR_FIELD_RECORD: f.value.record = (const br_record *) c->value.row; break;
    }
  return f;
}

/* A record is its row, so that one set of functions serves both.  */
#define ROW(x) ((row *) (x))
#define CROW(x) ((const row *) (x))

br_record *
br__record_new (const char *kind)
{
  return (br_record *) row_new (kind, br__record_keys_of (kind, NULL), 0);
}

void br__record_free (br_record *r) { row_free (ROW (r)); }
int br__record_failed (const br_record *r) { return row_failed (CROW (r)); }

void br__put_null (br_record *r, const char *key) { row_add (ROW (r), key, BR_FIELD_NULL); }

void
br__put_truth (br_record *r, const char *key, int truth)
{
  cell *c = row_add (ROW (r), key, BR_FIELD_TRUTH);
  if (c)
    c->value.truth = truth != 0;
}

void
br__put_count (br_record *r, const char *key, int64_t count)
{
  cell *c = row_add (ROW (r), key, BR_FIELD_COUNT);
  if (c)
    c->value.count = count;
}

void
br__put_bytes (br_record *r, const char *key, const char *bytes, size_t length)
{
  row_add_text (ROW (r), key, bytes, length);
}

void
br__put_text (br_record *r, const char *key, const char *text)
{
  row_add_text (ROW (r), key, text, strlen (text));
}

void br__put_from (br_record *r, const char *key, br_text *t) { row_add_from (ROW (r), key, t); }

void
br__put_copy (br_record *r, const char *key, const br_text *t)
{
  br_text copy = BR_TEXT_ZERO;
  br__text_put (&copy, br__text_string (t), t->length);
  copy.failed |= t->failed;
  br__put_from (r, key, &copy);
}

void
br__put_exact (br_record *r, const char *key, const br_number *x)
{
  if (!x)
    {
      br__put_null (r, key);
      return;
    }
  br_text t = BR_TEXT_ZERO;
  br__put_number (&t, x);
  br__put_from (r, key, &t);
}

br_list *
br__put_list (br_record *r, const char *key)
{
  return (br_list *) row_add_row (ROW (r), key, BR_FIELD_LIST);
}

void
br__list_bytes (br_list *l, const char *bytes, size_t length)
{
  row_add_text (ROW (l), "", bytes, length);
}

void
br__list_text (br_list *l, const char *text)
{
  row_add_text (ROW (l), "", text, strlen (text));
}

void br__list_from (br_list *l, br_text *t) { row_add_from (ROW (l), "", t); }

br_record *
br__list_record (br_list *l)
{
  return (br_record *) row_add_row (ROW (l), "", BR_FIELD_RECORD);
}

const char *br_record_kind (const br_record *r) { return r ? r->row.kind : ""; }
size_t br_record_size (const br_record *r) { return r ? r->row.size : 0; }
br_field br_record_at (const br_record *r, size_t index) { return row_at (CROW (r), index); }

br_field
br_record_get (const br_record *r, const char *key)
{
  if (!key)
    return absent;
  for (size_t i = 0; r && i < r->row.size; i++)
    if (r->row.cells[i].key[0] == key[0] && strcmp (r->row.cells[i].key, key) == 0)
      return row_at (CROW (r), i);
  return absent;
}

size_t br_list_size (const br_list *l) { return l ? l->row.size : 0; }
br_field br_list_at (const br_list *l, size_t index) { return row_at (CROW (l), index); }

const char *
br_record_text (const br_record *r, const char *key)
{
  br_field field = br_record_get (r, key);
  return field.type == BR_FIELD_TEXT ? field.value.text : "";
}

int
br_record_truth (const br_record *r, const char *key)
{
  br_field field = br_record_get (r, key);
  return field.type == BR_FIELD_TRUTH && field.value.truth;
}

int64_t
br_record_count (const br_record *r, const char *key)
{
  br_field field = br_record_get (r, key);
  return field.type == BR_FIELD_COUNT ? field.value.count : -1;
}

const br_list *
br_record_list (const br_record *r, const char *key)
{
  br_field field = br_record_get (r, key);
  return field.type == BR_FIELD_LIST ? field.value.list : NULL;
}

const char *
br_list_text (const br_list *l, size_t index)
{
  br_field field = br_list_at (l, index);
  return field.type == BR_FIELD_TEXT ? field.value.text : "";
}

const br_record *
br_list_record (const br_list *l, size_t index)
{
  br_field field = br_list_at (l, index);
  return field.type == BR_FIELD_RECORD ? field.value.record : NULL;
}
