/* SPDX-License-Identifier: GPL-3.0-or-later
   measure.c - fuzz target: a text read as a measure, written and read again.  Two bytes choose the grid and
   how it is written; the rest is the text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "fuzz.h"

static void
check_error (const br_error *error, br_status status, size_t length)
{
  fuzz_require (error->status == status);
  fuzz_require (error->offset <= length && error->length <= length - error->offset);
  fuzz_require (*error->message && !strchr (error->message, '\n'));
}

static int
same (const br_measure *x, const br_measure *y)
{
  return br_number_equal (&x->value, &y->value) && x->unit == y->unit;
}

/* The measure that a text begins with is the whole of the part that it takes.  */
static void
check_scan (const char *text, size_t length, const br_number *grid)
{
  br_measure m = BR_MEASURE_ZERO, again = BR_MEASURE_ZERO;
  size_t used = SIZE_MAX, used_again = SIZE_MAX;
  br_error error;
  br_status status = br_measure_scan (&m, &used, text, length, grid, &error);
  if (status == BR_OK)
    {
      fuzz_require (used > 0 && used <= length);
      fuzz_require (br_number_check (&m.value) && br_number_sign (&m.value) >= 0);
      char *part = malloc (used);
      fuzz_require (part);
      memcpy (part, text, used);
      fuzz_require (br_measure_scan (&again, &used_again, part, used, grid, NULL) == BR_OK);
      fuzz_require (used_again == used && same (&m, &again));
      fuzz_require (br_measure_read (&again, part, used, grid, NULL) == BR_OK && same (&m, &again));
      free (part);
    }
  else
    {
      check_error (&error, status, length);
      fuzz_require (used == SIZE_MAX && m.value.num == 0 && m.value.den_minus_1 == 0 && !m.unit);
    }
  br_measure_clear (&m);
  br_measure_clear (&again);
}

/* M as STYLE writes it is M.  */
static void
check_written (const br_measure *m, const br_style *style)
{
  br_dimension dimension = m->unit ? m->unit->dimension : BR_PLAIN;
  br_measure again = BR_MEASURE_ZERO;
  br_error error;
  size_t length = br_measure_write (NULL, 0, &m->value, dimension, style);
  fuzz_require (length != SIZE_MAX);
  char *text = malloc (length + 1);
  fuzz_require (text);
  fuzz_require (br_measure_write (text, length + 1, &m->value, dimension, style) == length);
  fuzz_require (strlen (text) == length);
  br_status status = br_measure_read (&again, text, length, NULL, &error);
  /* What was read in boxes or in mixed numbers of many digits may need more of them than are read.  */
  if (status != BR_TOO_BIG)
    {
      fuzz_require (status == BR_OK);
      fuzz_require (br_number_equal (&m->value, &again.value));
      fuzz_require ((again.unit ? again.unit->dimension : BR_PLAIN) == dimension);
    }
  free (text);
  br_measure_clear (&again);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  static const char *const units[] = { "in", "ft", "yd", "mm", "cm", "m", "thou", "boxes" };
  fuzz_bytes bytes = { data, data + size };
  unsigned how = fuzz_byte (&bytes), with_grid = fuzz_byte (&bytes) & 1;
  const char *name = units[how % 8];
  br_style style = { br_unit_find (name, strlen (name)), how >> 3 & 1 }, plain = BR_STYLE_INCHES;
  br_number grid = BR_NUMBER_ZERO;
  br_measure m = BR_MEASURE_ZERO;
  br_error error;
  const char *text = (const char *) bytes.at;
  size_t length = (size_t) (bytes.end - bytes.at);

  fuzz_require (br_number_set_ratio (&grid, 1, 4) == BR_OK);
  check_scan (text, length, with_grid ? &grid : NULL);
  br_status status = br_measure_read (&m, text, length, with_grid ? &grid : NULL, &error);
  if (status == BR_OK)
    {
      fuzz_require (br_number_check (&m.value));
      check_written (&m, &style);
      check_written (&m, &plain);
      check_written (&m, NULL);
    }
  else
    check_error (&error, status, length);
  br_measure_clear (&m);
  br_number_clear (&grid);
  return 0;
}
