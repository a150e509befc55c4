/* SPDX-License-Identifier: GPL-3.0-or-later
   robust.c - random bytes and damaged spellings through every reader: whatever comes, the
   answer is a measure or an error with a place inside the text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure.h"

#define TEXTS 1000
#define SIZE 120

static const br_number quarter = { 1, 3 };

static char *texts[TEXTS];
static size_t lengths[TEXTS], text_count;

/* Collects the spellings, right and wrong, as the seeds.  */
static int
collect (void **state)
{
  static const struct { const char *file; size_t field; } files[] = {
    { "measures.txt", 0 }, { "wrong_measures.txt", 1 }, { "scales.txt", 0 }
  };
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (files); i++)
    {
      check_data data;

      check_open (&data, files[i].file, '|');
      while (check_next (&data))
        if (text_count < TEXTS)
          {
            char *field = data.field[files[i].field];

            lengths[text_count] = measure_unescape (field);
            texts[text_count] = measure_exact_copy (field, lengths[text_count]);
            text_count++;
          }
    }
  return text_count < 400;
}

static int
let_go (void **state)
{
  (void) state;
  while (text_count > 0)
    free (texts[--text_count]);
  return 0;
}

/* Inserts, removes, changes, repeats or joins pieces of seeds.  Returns the new length.  */
static size_t
damage (char *text)
{
  static const char *const pieces[] = {
    " ", "-", "/", ".", "'", "\"", ",", "0", "1", "3/8", "e5", "in", "ft", "mm", "sq ", "\xc2\xa0",
    "\xe2\x80\x93", "\xe2\x81\x84", "\xe2\x85\x9c", "\xc2\xb3", "\xe2\x82\x88", "\xe2\x80\xb2",
    "\xe2\x80\xb3", "\xe2\x85\x9f", "=", ":", "\xc3", "\xff", "_", "999999999999999999"
  };
  size_t pick = check_below (text_count), length = lengths[pick];
  int64_t times = check_between (0, 4);

  length = length < SIZE ? length : SIZE;
  memcpy (text, texts[pick], length);
  while (times-- > 0)
    {
      size_t at = check_below (length + 1);
      const char *piece = pieces[check_below (CHECK_COUNT (pieces))];
      size_t size = strlen (piece);

      switch (check_below (4))
        {
        case 0:
          if (at < length)
            text[at] = (char) check_random ();
          break;
        case 1:
          if (at < length)
            memmove (text + at, text + at + 1, --length - at);
          break;
        case 2:
          length = at;
          break;
        default:
          if (length + size <= SIZE)
            {
              memmove (text + at + size, text + at, length - at);
              memcpy (text + at, piece, size);
              length += size;
            }
        }
    }
  return length;
}

static void
check_place (br_status status, const br_error *error, size_t length)
{
  assert_int_equal (error->status, status);
  assert_true (error->offset <= length && error->length <= length - error->offset);
  assert_true (error->message[0] != '\0' && memchr (error->message, 0, BR_MESSAGE_SIZE) != NULL);
  assert_non_null (memchr (error->hint, 0, BR_HINT_SIZE));
}

/* What was taken is the same measure alone, before a bracket, and behind a minus sign.  */
static void
check_taken (const char *text, size_t used, const br_measure *m)
{
  char *more = malloc (used + 2);
  br_measure again = BR_MEASURE_ZERO;
  size_t part = 0;

  if (more == NULL)
    fail_msg ("no memory");
  memcpy (more, text, used);
  more[used] = ')';
  check_ok (br_measure_scan (&again, &part, more, used, &quarter, NULL));
  assert_true (part == used && br_number_equal (&again.value, &m->value));
  check_ok (br_measure_scan (&again, &part, more, used + 1, &quarter, NULL));
  assert_true (part == used && br_number_equal (&again.value, &m->value));
  assert_ptr_equal (again.unit, m->unit);
  memmove (more + 1, more, used);
  more[0] = '-';
  check_ok (br_measure_read (&again, more, used + 1, &quarter, NULL));
  check_ok (br_number_neg (&again.value, &again.value));
  assert_true (br_number_equal (&again.value, &m->value));
  br_measure_clear (&again);
  free (more);
}

/* What was read is written so that it reads back.  */
static void
check_written (const br_measure *m)
{
  br_style style = { m->unit, (int) check_below (2) };
  br_dimension dimension = m->unit != NULL ? m->unit->dimension : BR_PLAIN;
  size_t size = br_measure_write (NULL, 0, &m->value, dimension, &style) + 1;
  char *text = malloc (size);
  br_measure again = BR_MEASURE_ZERO;

  if (text == NULL)
    fail_msg ("no memory");
  br_measure_write (text, size, &m->value, dimension, &style);
  check_ok (br_measure_read (&again, text, size - 1, NULL, NULL));
  assert_true (br_number_equal (&again.value, &m->value));
  br_measure_clear (&again);
  free (text);
}

static void
check_text (const char *bytes, size_t length)
{
  char *text = measure_exact_copy (bytes, length);
  const br_number *grid = check_below (4) == 0 ? NULL : &quarter;
  br_measure m = BR_MEASURE_ZERO;
  br_number ratio = BR_NUMBER_ZERO;
  br_error error;
  size_t used = 0;
  br_status status;

  memset (&error, 1, sizeof error);
  status = br_measure_scan (&m, &used, text, length, grid, &error);
  if (status == BR_OK)
    {
      assert_true (used > 0 && used <= length && br_number_check (&m.value));
      assert_true (br_number_sign (&m.value) >= 0);
      check_taken (text, used, &m);
    }
  else
    check_place (status, &error, length);
  memset (&error, 1, sizeof error);
  status = br_measure_read (&m, text, length, grid, &error);
  if (status == BR_OK)
    check_written (&m);
  else
    check_place (status, &error, length);
  memset (&error, 1, sizeof error);
  status = br_scale_read (&ratio, text, length, &error);
  if (status == BR_OK)
    assert_true (br_number_sign (&ratio) > 0 && br_number_check (&ratio));
  else
    check_place (status, &error, length);
  br_measure_clear (&m);
  br_number_clear (&ratio);
  free (text);
}

static void
damaged_spellings (void **state)
{
  char text[SIZE];
  long i;

  (void) state;
  for (i = 0; i < check_times (30000); i++)
    {
      size_t length = damage (text);

      check_text (text, length);
    }
}

static void
random_bytes (void **state)
{
  static const char likely[] = "0123456789 -/.'\",eimnfts";
  char text[SIZE];
  long i;

  (void) state;
  for (i = 0; i < check_times (20000); i++)
    {
      size_t length = check_below (i % 2 ? 12 : SIZE + 1), at;

      for (at = 0; at < length; at++)
        text[at] = i % 4 < 3 ? likely[check_below (sizeof likely - 1)] : (char) check_random ();
      check_text (text, length);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (damaged_spellings),
    CHECK_TEST (random_bytes),
  };

  check_start ();
  return check_end (cmocka_run_group_tests (tests, collect, let_go));
}
