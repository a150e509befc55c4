/* SPDX-License-Identifier: GPL-3.0-or-later
   answers.c - fuzz target: a table that a spreadsheet wrote, and each of its cells as a student's answer.
   What is read is UTF-8 in cells that end, is written so that nothing in it is a formula, and reads again as
   what it was; an answer called right is of the right size.  Three bytes choose the key.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "fuzz.h"
#include "file/markup.h"
#include "exact/memory.h"
#include "table/rows.h"
#include "lesson/verdict.h"
#include "measure/measure.h"

static br_status
take (br__rows *r, const char *text, size_t length, br_error *error)
{
  /* The library frees it.  */
  char *bytes = br__alloc (length + 1);
  fuzz_require (bytes);
  memcpy (bytes, text, length);
  bytes[length] = 0;
  return br__rows_take (r, bytes, length, "answers", error);
}

static void
check_utf8 (const char *cell)
{
  size_t length = strlen (cell);
  br__glyph g;
  for (size_t at = 0; at < length; at += g.length)
    {
      g = br__glyph_at (cell, length, at);
      fuzz_require (g.kind != BR__GLYPH_BROKEN && g.length > 0);
    }
}

/* A cell as it is put into a file: no formula of a spreadsheet, and read back as it was, but for letters that nobody sees,
   which are put by their numbers.  */
static void
check_written (const char *cell)
{
  br_text t = BR_TEXT_ZERO, plain = BR_TEXT_ZERO;
  br__rows rows = BR__ROWS_ZERO;
  br__put_plain (&plain, cell, strlen (cell));
  /* Commas part the cells as the first row has most of them.  */
  br__text_printf (&t, "%0*d", (int) strlen (cell) + 9, 0);
  memset (t.bytes + 1, ',', t.length - 2);
  br__text_puts (&t, "\nx,");
  size_t start = t.length;
  br__put_cell (&t, cell);
  br__text_puts (&t, ",x\n");
  const char *text = br__text_string (&t), *first = text + start + (text[start] == '"');
  int number = (*first == '+' || *first == '-') && cell[1 + strspn (cell + 1, "0123456789.")] == 0;
  fuzz_require (number || *first == 0 || !strchr ("=+-@\t\r", *first));
  fuzz_require (take (&rows, text, t.length, NULL) == BR_OK);
  fuzz_require (rows.count == 2 && rows.rows[1].count == 3);
  /* An apostrophe before a sign was put there by whoever wrote it, and is taken off; one behind a semicolon or a tab stays,
     as other programs part cells there.  */
  int parted = 0;
  for (const char *at = cell; (at = strpbrk (at, ";\t")) != NULL; )
    {
      at++;
      parted |= at[strspn (at, " ")] && strchr ("=+-@\xef", at[strspn (at, " ")]) != NULL;
    }
  if (!parted && !(cell[0] == '\'' && cell[1] && strchr ("=+-@", cell[1])))
    fuzz_require (strcmp (rows.rows[1].cells[1], br__text_string (&plain)) == 0);
  br__rows_clear (&rows);
  br__text_clear (&plain);
  br__text_clear (&t);
}

static void
check_judged (const char *answer, const br__key *key)
{
  br__verdict v, again;
  char *spaced = malloc (strlen (answer) + 3);
  br_measure m = BR_MEASURE_ZERO;
  fuzz_require (spaced && br__judge (&v, answer, key) == BR_OK);
  fuzz_require (v.index < BR__VERDICTS && *br__verdict_name (v.index));
  if (v.index == BR__UNREADABLE)
    {
      fuzz_require (v.error.offset <= strlen (answer) && v.error.length <= strlen (answer) - v.error.offset);
      fuzz_require (*v.error.message);
    }
  /* Blanks around are no part of an answer.  */
  sprintf (spaced, " %s ", answer);
  if (strlen (answer) < 150)
    {
      fuzz_require (br__judge (&again, spaced, key) == BR_OK);
      fuzz_require (again.index == v.index);
    }
  if (v.index < BR__ROUNDED && br_measure_read (&m, answer, strlen (answer), NULL, NULL) == BR_OK)
    {
      if (!m.unit && key->unit)
        fuzz_require (br_number_mul (&m.value, &m.value, &key->step) == BR_OK);
      fuzz_require (br_number_equal (&m.value, &key->exact));
    }
  free (spaced);
  br_measure_clear (&m);
}

static void
make_key (br__key *key, fuzz_bytes *bytes)
{
  static const char *const units[] = { "", "in", "mm", "ft", "sq in", "deg" };
  unsigned how = fuzz_byte (bytes), n = fuzz_byte (bytes), d = fuzz_byte (bytes);
  const char *unit = units[how % 6];
  memset (key, 0, sizeof *key);
  key->unit = *unit ? br_unit_find (unit, strlen (unit)) : NULL;
  key->ask = (br__ask) (how / 6 % 4);
  fuzz_require (br_number_set_ratio (&key->exact, n, 1 + d % 64) == BR_OK);
  fuzz_require (br_number_set_ratio (&key->mark, how >> 7, 16) == BR_OK);
  fuzz_require (br_number_set_ratio (&key->step, key->unit ? key->unit->num : 1, key->unit ? key->unit->den : 1) == BR_OK);
  fuzz_require (br_number_add (&key->wrong[0], &key->exact, &key->exact) == BR_OK);
  key->mistake[0] = BR__MISTAKE_SCALE;
  key->wrong_count = 1;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  fuzz_bytes bytes = { data, data + size };
  br__rows rows = BR__ROWS_ZERO;
  br_error error;
  br__key key;
  make_key (&key, &bytes);
  br_status status = take (&rows, (const char *) bytes.at, (size_t) (bytes.end - bytes.at), &error);
  fuzz_require (status == BR_OK || (status == BR_SYNTAX && *error.message && !strchr (error.message, '\n')));
  for (size_t i = 0; i < rows.count; i++)
    {
      const br__row *row = &rows.rows[i];
      fuzz_require (row->count > 0 && row->line > 0 && (i == 0 || row->line > rows.rows[i - 1].line));
      fuzz_require (*br__row_cell (row, row->count) == 0);
      for (size_t k = 0; k < row->count; k++)
        {
          check_utf8 (row->cells[k]);
          check_written (row->cells[k]);
          check_judged (row->cells[k], &key);
        }
    }
  br__rows_clear (&rows);
  br__key_clear (&key);
  return 0;
}
