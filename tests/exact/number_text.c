/* SPDX-License-Identifier: GPL-3.0-or-later
   number_text.c - rationals read and written, the growing text and errors that they use.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"
#include "exact/bytes.h"
#include "exact/status.h"

static const struct
{
  const char *x, *mixed, *decimal;      /* 12 digits */
  int whole;
} written[] = {
  { "0", "0", "0", 1 },
  { "5", "5", "5", 1 },
  { "-5", "-5", "-5", 1 },
  { "19/8", "2-3/8", "2.375", 1 },
  { "-19/8", "-2-3/8", "-2.375", 1 },
  { "-3/8", "-3/8", "-0.375", 1 },
  { "63/64", "63/64", "0.984375", 1 },
  { "2/3", "2/3", "0.666666666667", 0 },
  { "-1/3", "-1/3", "-0.333333333333", 0 },
  { "1/7", "1/7", "0.142857142857", 0 },
  { "1001/3", "333-2/3", "333.666666667", 0 },
  { "9999999999999999/10000000000000", "999-9999999999999/10000000000000", "1000", 0 },
  { "-99999999999999/100000000000000", "-99999999999999/100000000000000", "-1", 0 },
  { "999999999999/1000000000000", "999999999999/1000000000000", "0.999999999999", 1 },
  { "1/1000000000000000000", "1/1000000000000000000", "0.000000000000000001", 1 },
  { "1/9223372036854775808", "1/9223372036854775808", "0.000000000000000000108420217249", 0 },
  { "100", "100", "100", 1 },
  { "1000000000000", "1000000000000", "1000000000000", 1 },
  { "1234567890125", "1234567890125", "1234567890130", 0 },     /* tie, away from zero */
  { "-1234567890125", "-1234567890125", "-1234567890130", 0 },
  { "1234567890115", "1234567890115", "1234567890120", 0 },
  { "123456789012/5", "24691357802-2/5", "24691357802.4", 1 },
  { "1000000000000000001/2", "500000000000000000-1/2", "500000000000000000", 0 },
  { "9223372036854775807", "9223372036854775807", "9223372036850000000", 0 },
  { "9223372036854775808", "9223372036854775808", "9223372036850000000", 0 },
  { "-55340232221128654847/3", "-18446744073709551615-2/3", "-18446744073700000000", 0 },
};

static size_t
write_decimal_12 (char *buffer, size_t size, const br_number *x)
{
  return br_number_write_decimal (buffer, size, NULL, x, 12);
}

/* A writer puts TEXT, and cuts it in the manner of snprintf at any size.  */
static void
check_writer (size_t (*writer) (char *, size_t, const br_number *), const br_number *x,
              const char *text)
{
  size_t length = strlen (text);
  assert_int_equal (writer (NULL, 0, x), length);
  for (size_t size = 1; size <= length + 2; size++)
    {
      char buffer[128];
      memset (buffer, '#', sizeof buffer);
      assert_int_equal (writer (buffer, size, x), length);
      size_t some = length < size ? length : size - 1;
      assert_memory_equal (buffer, text, some);
      assert_int_equal (buffer[some], 0);
      assert_int_equal (buffer[some + 1], '#');
    }
}

static void
test_written (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (written); i++)
    {
      br_number x = BR_NUMBER_ZERO;
      int whole = -1;
      check_set (&x, written[i].x);
      check_writer (br_number_write, &x, written[i].x);
      check_writer (br_number_write_mixed, &x, written[i].mixed);
      check_writer (write_decimal_12, &x, written[i].decimal);
      br_number_write_decimal (NULL, 0, &whole, &x, 12);
      assert_int_equal (whole, written[i].whole);
      br_number_clear (&x);
    }
}

static void
test_few_digits (void **state)
{
  static const struct { const char *x; unsigned digits; const char *text; } table[] = {
    { "5/2", 1, "3" }, { "-5/2", 1, "-3" }, { "7/2", 1, "4" }, { "249/100", 1, "2" },
    { "95/10", 1, "10" }, { "1/8", 2, "0.13" }, { "-1/8", 2, "-0.13" }, { "1/8", 3, "0.125" },
    { "999/1000", 2, "1" }, { "19/200", 1, "0.1" }, { "5/2", 0, "3" }, { "449", 1, "400" },
    { "450", 1, "500" }, { "95", 1, "100" }, { "1/3", 45, "0.333333333333333333333333333333333333333333333" },
    { "1/8", 4000000000u, "0.125" },
    { "0", 41, "0" }, { "0", 4000000000u, "0" }, { "-7", 60, "-7" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      br_number x = BR_NUMBER_ZERO;
      char text[128];
      check_set (&x, table[i].x);
      br_number_write_decimal (text, sizeof text, NULL, &x, table[i].digits);
      assert_string_equal (text, table[i].text);
      br_number_clear (&x);
    }
}

/* The rational that a decimal text says; DIGITS gets its significant digits.  */
static void
parse_decimal (mpq_t q, long *digits, const char *text)
{
  const char *point = strchr (text, '.');
  char plain[1024];
  size_t length = 0;
  for (const char *c = text; *c; c++)
    if (*c != '.')
      plain[length++] = *c;
  plain[length] = 0;
  assert_int_equal (mpz_set_str (mpq_numref (q), plain, 10), 0);
  mpz_ui_pow_ui (mpq_denref (q), 10, point ? strlen (point + 1) : 0);
  mpq_canonicalize (q);
  const char *first = plain + strspn (plain, "-0"), *end = plain + length;
  /* Zeros at the end of an integer need not be significant.  */
  while (!point && end > first && end[-1] == '0')
    end--;
  *digits = end > first ? (long) (end - first) : 0;
}

/* TEXT is Q to at most DIGITS: form, error at most half a unit of the last place, ties away.  */
static void
assert_decimal (const char *text, int whole, mpq_srcptr q, unsigned digits)
{
  mpq_t value, unit, off, size;
  long used;
  mpq_inits (value, unit, off, size, NULL);
  parse_decimal (value, &used, text);
  assert_true (used <= (long) digits);
  assert_int_equal (*text == '-', mpq_sgn (q) < 0);
  const char *first = text + (*text == '-');
  assert_true (*first != '.' && (*first != '0' || first[1] == 0 || first[1] == '.'));
  if (strchr (text, '.'))
    assert_true (strchr ("0.", text[strlen (text) - 1]) == NULL);
  assert_int_equal (whole, mpq_equal (value, q));
  /* UNIT: the last of DIGITS places of Q, found by counting up and down.  */
  mpq_abs (size, q);
  mpq_set_ui (unit, 1, 1);
  mpq_t ten;
  mpq_init (ten);
  mpq_set_ui (ten, 10, 1);
  while (mpq_sgn (q) != 0 && mpq_cmp (unit, size) <= 0)
    mpq_mul (unit, unit, ten);
  while (mpq_sgn (q) != 0 && mpq_cmp (unit, size) > 0)
    mpq_div (unit, unit, ten);
  for (unsigned i = 1; i < digits; i++)
    mpq_div (unit, unit, ten);
  mpq_sub (off, value, q);
  int direction = mpq_sgn (off);
  mpq_abs (off, off);
  mpq_add (off, off, off);
  int near = mpq_cmp (off, unit);
  assert_true (near <= 0);
  if (near == 0)
    assert_int_equal (direction, mpq_sgn (q));
  mpq_clears (value, unit, off, size, ten, NULL);
}

static void
test_at_random (void **state)
{
  (void) state;
  mpq_t q;
  mpq_init (q);
  for (long i = check_times (6000); i > 0; i--)
    {
      br_number x = BR_NUMBER_ZERO, back = BR_NUMBER_ZERO;
      char text[1024], right[1024];
      unsigned digits = check_below (3) ? 12 : (unsigned) check_between (1, 60);
      int whole = -1;
      check_mpq (q);
      check_ok (br__number_from_mpq (&x, q));
      gmp_snprintf (right, sizeof right, "%Qd", q);
      br_number_write (text, sizeof text, &x);
      assert_string_equal (text, right);
      check_set (&back, text);
      assert_true (br_number_check (&back));
      assert_true (br_number_equal (&back, &x));
      br_number_write_decimal (text, sizeof text, &whole, &x, digits);
      assert_decimal (text, whole, q, digits);
      /* Shop notation is the whole, the rest and the sign.  */
      mpz_t n, rest;
      mpz_inits (n, rest, NULL);
      mpz_tdiv_qr (n, rest, mpq_numref (q), mpq_denref (q));
      mpz_abs (rest, rest);
      if (mpz_sgn (rest) == 0)
        gmp_snprintf (right, sizeof right, "%Zd", n);
      else if (mpz_sgn (n) == 0)
        gmp_snprintf (right, sizeof right, "%s%Zd/%Zd", mpq_sgn (q) < 0 ? "-" : "", rest, mpq_denref (q));
      else
        gmp_snprintf (right, sizeof right, "%Zd-%Zd/%Zd", n, rest, mpq_denref (q));
      mpz_clears (n, rest, NULL);
      br_number_write_mixed (text, sizeof text, &x);
      assert_string_equal (text, right);
      br_number_clear (&x);
      br_number_clear (&back);
    }
  mpq_clear (q);
}

/* Digits before and after a point, against mpz_set_str.  */
static void
test_from_digits (void **state)
{
  (void) state;
  mpq_t right, value;
  mpq_inits (right, value, NULL);
  for (long i = check_times (5000); i > 0; i--)
    {
      char digits[64];
      br_number x = BR_NUMBER_ZERO;
      size_t length = (size_t) check_between (1, check_below (2) ? 20 : 45);
      size_t whole = (size_t) check_below (length + 1);
      for (size_t k = 0; k < length; k++)
        digits[k] = check_below (3) ? "0259"[check_below (4)] : (char) ('0' + check_below (10));
      digits[length] = 0;
      mpz_set_str (mpq_numref (right), digits, 10);
      mpz_ui_pow_ui (mpq_denref (right), 10, length - whole);
      mpq_canonicalize (right);
      check_ok (br__number_from_digits (&x, digits, whole, digits + whole, length - whole));
      assert_true (br_number_check (&x));
      br__number_to_mpq (value, &x);
      assert_true (mpq_equal (value, right));
      br_number_clear (&x);
    }
  mpq_clears (right, value, NULL);
}

static void
test_read_refuses (void **state)
{
  static const struct { const char *text; br_status status; size_t offset, length; } table[] = {
    { "", BR_SYNTAX, 0, 0 }, { "-", BR_SYNTAX, 1, 0 }, { "--1", BR_SYNTAX, 1, 1 },
    { "+1", BR_SYNTAX, 0, 1 }, { " 1", BR_SYNTAX, 0, 1 }, { "1 ", BR_SYNTAX, 1, 1 },
    { "1.5", BR_SYNTAX, 1, 1 }, { "1/", BR_SYNTAX, 2, 0 }, { "/2", BR_SYNTAX, 0, 1 },
    { "1/-2", BR_SYNTAX, 2, 1 }, { "1/2/3", BR_SYNTAX, 3, 1 }, { "0x10", BR_SYNTAX, 1, 1 },
    { "2 3/8", BR_SYNTAX, 1, 1 }, { "1/0", BR_DOMAIN, 2, 1 }, { "0/00", BR_DOMAIN, 2, 2 },
  };
  (void) state;
  br_number x = BR_NUMBER_ZERO;
  check_set (&x, "19/8");
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      br_error error = { .status = BR_OK };
      assert_int_equal (br_number_read (&x, table[i].text, strlen (table[i].text), &error), table[i].status);
      assert_int_equal (error.status, table[i].status);
      assert_int_equal (error.offset, table[i].offset);
      assert_int_equal (error.length, table[i].length);
      assert_true (error.message[0] != 0);
      check_is (&x, "19/8");
    }
  /* Both sides of the limit on digits, behind a sign and a bar too.  */
  char digits[BR_MAX_DIGITS + 4];
  br_error error;
  memset (digits, '7', sizeof digits);
  digits[BR_MAX_DIGITS] = 0;
  check_ok (br_number_read (&x, digits, BR_MAX_DIGITS, NULL));
  check_is (&x, digits);
  digits[BR_MAX_DIGITS] = '7';
  assert_int_equal (br_number_read (&x, digits, BR_MAX_DIGITS + 1, &error), BR_TOO_BIG);
  assert_non_null (strstr (error.message, "1,000"));
  memcpy (digits, "-1/", 3);
  check_ok (br_number_read (&x, digits, BR_MAX_DIGITS + 3, NULL));
  memcpy (digits, "1/7", 3);
  assert_int_equal (br_number_read (&x, digits, BR_MAX_DIGITS + 3, &error), BR_TOO_BIG);
  assert_true (error.offset == 2 && error.length == BR_MAX_DIGITS + 1);
  /* LENGTH counts, not a NUL, and nothing behind it is looked at.  */
  check_ok (br_number_read (&x, "-6/85", 4, NULL));
  check_is (&x, "-3/4");
  assert_int_equal (br_number_read (&x, "-1", 0, &error), BR_SYNTAX);
  assert_true (error.offset == 0 && error.length == 0);
  assert_int_equal (br_number_read (&x, "-1", 1, &error), BR_SYNTAX);
  assert_true (error.offset == 1 && error.length == 0);
  assert_string_equal (error.message, "a digit is missing at the end");
  assert_int_equal (br_number_read (&x, "1/2", 2, &error), BR_SYNTAX);
  assert_true (error.offset == 2 && error.length == 0);
  check_ok (br_number_read (&x, "3/8", 1, &error));
  check_is (&x, "3");
  assert_int_equal (br_number_read (&x, "x", 1, &error), BR_SYNTAX);
  assert_string_equal (error.message, "a digit belongs here");
}

static void
test_text_grows (void **state)
{
  (void) state;
  br_text t = BR_TEXT_ZERO;
  char buffer[16];
  assert_string_equal (br__text_string (&t), "");
  assert_int_equal (br__text_hand_out (buffer, sizeof buffer, &t), 0);
  assert_string_equal (buffer, "");
  for (int i = 0; i < 1000; i++)
    {
      br__text_putc (&t, 'a');
      br__text_printf (&t, "%d", i % 10);
    }
  assert_int_equal (t.length, 2000);
  assert_memory_equal (t.bytes + 1990, "a5a6a7a8a9", 11);
  br__text_put (&t, t.bytes, t.length);     /* of itself */
  assert_int_equal (t.length, 4000);
  assert_memory_equal (t.bytes, t.bytes + 2000, 2000);
  br__text_put (&t, t.bytes + 1990, 10);
  assert_string_equal (t.bytes + 4000, "a5a6a7a8a9");
  br__text_reset (&t);
  assert_string_equal (br__text_string (&t), "");
  br__text_puts (&t, "wheel");
  assert_string_equal (br__text_string (&t), "wheel");
  assert_int_equal (br__text_hand_out (buffer, 4, &t), 5);
  assert_string_equal (buffer, "whe");
  br__text_clear (&t);
  br__text_printf (&t, "%s", "");           /* nothing is no failure */
  assert_int_equal (t.failed, 0);
  assert_int_equal (br__text_hand_out (buffer, sizeof buffer, &t), 0);
  /* No text is so long; that it failed stays so.  */
  assert_null (br__text_more_room (&t, SIZE_MAX));
  br__text_puts (&t, "wheel");
  strcpy (buffer, "as it was");
  assert_int_equal (br__text_hand_out (buffer, sizeof buffer, &t), SIZE_MAX);
  assert_string_equal (buffer, "as it was");
}

/* A text that moves as it grows, with other bytes right behind it: those are not its own.  */
static _Alignas (max_align_t) char arena[512];
static size_t arena_held;       /* bytes of the block in use */

static void *
take_from_arena (void *old, size_t size)
{
  char *block = old ? arena + 256 : arena;
  assert_true (size <= 256);
  if (old)
    memcpy (block, old, arena_held);
  arena_held = size;
  return block;
}

static void
leave_in_arena (void *block)
{
  (void) block;
}

static void
test_text_beside_another (void **state)
{
  (void) state;
  br_text t = BR_TEXT_ZERO;
  br__memory_set (take_from_arena, leave_in_arena);
  br__text_puts (&t, "a wheel of three and a half inches on an axle of 7/16, ");
  assert_int_equal (t.room, 64);
  char *beside = t.bytes + t.room;
  memcpy (beside, "painted green", 14);
  br__text_put (&t, beside, 13);
  assert_string_equal (br__text_string (&t), "a wheel of three and a half inches on an axle of 7/16, painted green");
  br__text_clear (&t);
  br__memory_set (NULL, NULL);
}

/* A message of repeated CHARACTER, LENGTH bytes of it in front being "a": cut before the first that does not fit.  */
static void
check_cut (const char *character, size_t shift, size_t length)
{
  char text[2 * BR_MESSAGE_SIZE] = "";
  size_t size = strlen (character), end = shift, fits;
  br_error error;
  memset (text, 'a', shift);
  for (; end + size <= length; end += size)
    strcpy (text + end, character);
  br__fail (&error, BR_SYNTAX, 0, 0, "%s", text);
  fits = end < BR_MESSAGE_SIZE ? end : shift + (BR_MESSAGE_SIZE - 1 - shift) / size * size;
  assert_int_equal (strlen (error.message), fits);
  assert_memory_equal (error.message, text, fits);
  br__hint (&error, "%s", text);
  fits = end < BR_HINT_SIZE ? end : shift + (BR_HINT_SIZE - 1 - shift) / size * size;
  assert_int_equal (strlen (error.hint), fits);
}

/* The first and the last lead byte of two, three and four bytes (RFC 3629, section 4), and texts that are as long as
   there is room or one byte more or less.  Bytes that are no characters are cut anywhere.  */
static void
test_cut (void **state)
{
  static const char *const characters[] = {
    "a", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xef\xbf\xbd", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf"
  };
  char text[2 * BR_MESSAGE_SIZE];
  br_error error;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (characters); i++)
    for (size_t shift = 0; shift < 5; shift++)
      {
        for (size_t length = BR_MESSAGE_SIZE - 5; length < BR_MESSAGE_SIZE + 6; length++)
          check_cut (characters[i], shift, length);
        for (size_t length = BR_HINT_SIZE - 5; length < BR_HINT_SIZE + 6; length++)
          check_cut (characters[i], shift, length);
      }
  memset (text, 0x80, sizeof text - 1);
  text[sizeof text - 1] = 0;
  br__fail (&error, BR_SYNTAX, 0, 0, "%s", text);
  assert_int_equal (strlen (error.message), BR_MESSAGE_SIZE - 1);
  br__hint (&error, "%s", text);
  assert_int_equal (strlen (error.hint), BR_HINT_SIZE - 1);
}

static void
test_errors (void **state)
{
  (void) state;
  br_error error;
  char longer[2 * BR_MESSAGE_SIZE];
  assert_int_equal (br__fail (NULL, BR_DOMAIN, 1, 2, "x"), BR_DOMAIN);
  /* An eighth takes three bytes: at each shift the cut comes before a whole one.  */
  for (size_t shift = 0; shift < 4; shift++)
    {
      memset (longer, 'a', shift);
      for (size_t i = shift; i + 3 < sizeof longer; i += 3)
        strcpy (longer + i, "⅛");
      br__fail (&error, BR_SYNTAX, 3, 4, "%s", longer);
      size_t fits = shift + (BR_MESSAGE_SIZE - 1 - shift) / 3 * 3;
      assert_int_equal (strlen (error.message), fits);
      assert_int_equal (error.offset, 3);
      assert_int_equal (error.length, 4);
      assert_string_equal (error.hint, "");
      br__hint (&error, "%s", longer);
      assert_int_equal (strlen (error.hint), shift + (BR_HINT_SIZE - 1 - shift) / 3 * 3);
    }
  br__hint (&error, "write %s", "3/8");
  assert_string_equal (error.hint, "write 3/8");
  br__fail_plain (&error, BR_TOO_BIG, 0, 0);
  assert_non_null (strstr (error.message, "1,000,000 bits"));
  br__fail_plain (&error, BR_NO_MEMORY, 0, 0);
  assert_string_equal (error.message, "out of memory");
  /* Each status has its own name.  */
  for (int i = BR_OK; i <= BR_STOPPED; i++)
    for (int k = BR_OK; k < i; k++)
      assert_string_not_equal (br_status_name ((br_status) i), br_status_name ((br_status) k));
  assert_string_equal (br_version (), BR_VERSION);
}

/* Eight bytes at once: each byte in each place against a look at one after the other.  */
static void
test_words (void **state)
{
  (void) state;
  for (unsigned place = 0; place < 8; place++)
    for (int byte = 0; byte < 256; byte++)
      {
        char text[8];
        unsigned ahead = 0;
        memset (text, byte ^ 1, sizeof text);
        text[place] = (char) byte;
        while (ahead < 8 && text[ahead] >= '0' && text[ahead] <= '9')
          ahead++;
        uint64_t word = br__load_eight (text), others = br__bytes_not (word, (unsigned char) byte);
        assert_int_equal (br__digits_ahead (word), ahead);
        assert_true (others == (BR__EVERY (0x80) ^ UINT64_C (0x80) << 8 * place));
      }
  for (int i = 0; i < check_times (10000); i++)
    {
      char text[9];
      unsigned count = 1 + (unsigned) check_below (8), length = (unsigned) check_below (8);
      snprintf (text, sizeof text, "%08u", (unsigned) check_below (100000000));
      uint64_t word = br__load_eight (text);
      assert_true (br__load_few (text, length) == (word & ((UINT64_C (1) << 8 * length) - 1)));
      text[count] = 0;
      assert_true (br__digits_value (word, count) == strtoul (text, NULL, 10));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_written),
    CHECK_TEST (test_few_digits),
    CHECK_TEST (test_at_random),
    CHECK_TEST (test_from_digits),
    CHECK_TEST (test_read_refuses),
    CHECK_TEST (test_text_grows),
    CHECK_TEST (test_text_beside_another),
    CHECK_TEST (test_cut),
    CHECK_TEST (test_errors),
    CHECK_TEST (test_words),
  };
  return CHECK_RUN (tests);
}
