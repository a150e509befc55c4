/* SPDX-License-Identifier: GPL-3.0-or-later
   glyph.c - every character of Unicode and every wrong byte: what UTF-8 is by the grammar of RFC 3629, section 4, and
   what each character is for by the names in the charts of Unicode 15 (blocks Latin-1 Supplement, General Punctuation,
   Superscripts and Subscripts, Number Forms, Mathematical Operators; from memory).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure.h"
#include "measure/measure.h"

/* Characters FIRST to LAST are of KIND; the rest are of no use in a measure.  Digits count up from NUM.  */
static const struct row
{
  unsigned first, last;
  br__kind kind;
  unsigned char num, den;
} rows[] = {
  { 0x00, 0x08, BR__GLYPH_CONTROL, 0, 0 }, { '\t', '\t', BR__GLYPH_BLANK, 0, 0 },
  { 0x0a, 0x1f, BR__GLYPH_CONTROL, 0, 0 }, { ' ', ' ', BR__GLYPH_BLANK, 0, 0 },
  { '"', '"', BR__GLYPH_INCH, 0, 0 }, { '\'', '\'', BR__GLYPH_FOOT, 0, 0 }, { ',', ',', BR__GLYPH_COMMA, 0, 0 },
  { '-', '-', BR__GLYPH_DASH, 0, 0 }, { '.', '.', BR__GLYPH_POINT, 0, 0 }, { '/', '/', BR__GLYPH_SLASH, 0, 0 },
  { '0', '9', BR__GLYPH_DIGIT, 0, 0 }, { 'A', 'Z', BR__GLYPH_LETTER, 0, 0 }, { 'a', 'z', BR__GLYPH_LETTER, 0, 0 },
  { 0x7f, 0x9f, BR__GLYPH_CONTROL, 0, 0 }, { 0xa0, 0xa0, BR__GLYPH_BLANK, 0, 0 },
  { 0xb0, 0xb0, BR__GLYPH_DEGREE, 0, 0 }, { 0xb2, 0xb3, BR__GLYPH_SUPERSCRIPT, 2, 0 },
  { 0xb9, 0xb9, BR__GLYPH_SUPERSCRIPT, 1, 0 },
  { 0xbc, 0xbc, BR__GLYPH_VULGAR, 1, 4 }, { 0xbd, 0xbd, BR__GLYPH_VULGAR, 1, 2 },
  { 0xbe, 0xbe, BR__GLYPH_VULGAR, 3, 4 },
  { 0x2b9, 0x2b9, BR__GLYPH_FOOT, 0, 0 }, { 0x2ba, 0x2ba, BR__GLYPH_INCH, 0, 0 },
  { 0x2000, 0x200a, BR__GLYPH_BLANK, 0, 0 }, { 0x2010, 0x2013, BR__GLYPH_DASH, 0, 0 },
  { 0x2018, 0x2019, BR__GLYPH_FOOT, 0, 0 }, { 0x201c, 0x201d, BR__GLYPH_INCH, 0, 0 },
  { 0x202f, 0x202f, BR__GLYPH_BLANK, 0, 0 }, { 0x2032, 0x2032, BR__GLYPH_FOOT, 0, 0 },
  { 0x2033, 0x2033, BR__GLYPH_INCH, 0, 0 }, { 0x2044, 0x2044, BR__GLYPH_FRACTION_SLASH, 0, 0 },
  { 0x205f, 0x205f, BR__GLYPH_BLANK, 0, 0 }, { 0x2070, 0x2070, BR__GLYPH_SUPERSCRIPT, 0, 0 },
  { 0x2074, 0x2079, BR__GLYPH_SUPERSCRIPT, 4, 0 }, { 0x2080, 0x2089, BR__GLYPH_SUBSCRIPT, 0, 0 },
  { 0x2150, 0x2150, BR__GLYPH_VULGAR, 1, 7 }, { 0x2151, 0x2151, BR__GLYPH_VULGAR, 1, 9 },
  { 0x2152, 0x2152, BR__GLYPH_VULGAR, 1, 10 }, { 0x2153, 0x2153, BR__GLYPH_VULGAR, 1, 3 },
  { 0x2154, 0x2154, BR__GLYPH_VULGAR, 2, 3 }, { 0x2155, 0x2155, BR__GLYPH_VULGAR, 1, 5 },
  { 0x2156, 0x2156, BR__GLYPH_VULGAR, 2, 5 }, { 0x2157, 0x2157, BR__GLYPH_VULGAR, 3, 5 },
  { 0x2158, 0x2158, BR__GLYPH_VULGAR, 4, 5 }, { 0x2159, 0x2159, BR__GLYPH_VULGAR, 1, 6 },
  { 0x215a, 0x215a, BR__GLYPH_VULGAR, 5, 6 }, { 0x215b, 0x215b, BR__GLYPH_VULGAR, 1, 8 },
  { 0x215c, 0x215c, BR__GLYPH_VULGAR, 3, 8 }, { 0x215d, 0x215d, BR__GLYPH_VULGAR, 5, 8 },
  { 0x215e, 0x215e, BR__GLYPH_VULGAR, 7, 8 }, { 0x215f, 0x215f, BR__GLYPH_ONE_OVER, 0, 0 },
  { 0x2189, 0x2189, BR__GLYPH_VULGAR, 0, 3 }, { 0x2212, 0x2212, BR__GLYPH_DASH, 0, 0 },
  { 0x2215, 0x2215, BR__GLYPH_FRACTION_SLASH, 0, 0 }, { 0x29f8, 0x29f8, BR__GLYPH_FRACTION_SLASH, 0, 0 },
  { 0x3000, 0x3000, BR__GLYPH_BLANK, 0, 0 },
};

/* C in UTF-8, by the table of RFC 3629, section 3; its bytes.  */
static size_t
encode (char *bytes, unsigned c)
{
  static const unsigned lead[] = { 0, 0, 0xc0, 0xe0, 0xf0 };
  size_t size = c < 0x80 ? 1 : c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;

  if (size == 1)
    bytes[0] = (char) c;
  else
    {
      for (size_t i = size - 1; i > 0; i--, c >>= 6)
        bytes[i] = (char) (0x80 | (c & 0x3f));
      bytes[0] = (char) (lead[size] | c);
    }
  return size;
}

static void
every_character (void **state)
{
  size_t i = 0;

  (void) state;
  for (unsigned c = 0; c <= 0x10ffff; c = c == 0xd7ff ? 0xe000 : c + 1)
    {
      char bytes[4];
      size_t size = encode (bytes, c);
      br__glyph g = br__glyph_at (bytes, size, 0);
      int known;

      while (i < CHECK_COUNT (rows) && rows[i].last < c)
        i++;
      known = i < CHECK_COUNT (rows) && rows[i].first <= c;
      if (g.code != c || g.length != size || g.kind != (known ? rows[i].kind : BR__GLYPH_OTHER))
        fail_msg ("U+%04X is read as U+%04X of kind %d and %d bytes", c, g.code, g.kind, g.length);
      if (known && rows[i].den != 0)
        assert_true (g.num == rows[i].num && g.den == rows[i].den);
      if (g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_SUPERSCRIPT || g.kind == BR__GLYPH_SUBSCRIPT)
        assert_int_equal (g.num, rows[i].num + c - rows[i].first);
      /* Without its last byte it is broken, and no byte past the end is looked at.  */
      assert_int_equal (br__glyph_at (bytes, size - 1, 0).kind, size == 1 ? BR__GLYPH_END : BR__GLYPH_BROKEN);
    }
  assert_int_equal (i, CHECK_COUNT (rows));
}

static int
is_tail (unsigned byte)
{
  return byte >= 0x80 && byte <= 0xbf;
}

/* The bytes of the character that begins with A, B, C, D by the grammar of RFC 3629, section 4; 0 for none.  */
static unsigned
grammar (unsigned a, unsigned b, unsigned c, unsigned d)
{
  unsigned low = a == 0xe0 ? 0xa0 : a == 0xf0 ? 0x90 : 0x80;
  unsigned high = a == 0xed ? 0x9f : a == 0xf4 ? 0x8f : 0xbf;

  if (a < 0x80)
    return 1;
  if (a < 0xc2 || a > 0xf4 || b < low || b > high)
    return 0;
  if (a < 0xe0)
    return 2;
  if (!is_tail (c))
    return 0;
  return a < 0xf0 ? 3 : is_tail (d) ? 4 : 0;
}

static void
every_wrong_byte (void **state)
{
  static const unsigned thirds[] = { 0x00, 0x7f, 0x80, 0xbf, 0xc0, 0xff };

  (void) state;
  for (unsigned a = 0; a < 0x100; a++)
    for (unsigned b = 0; b < 0x100; b++)
      for (size_t c = 0; c < CHECK_COUNT (thirds); c++)
        for (size_t d = 0; d < CHECK_COUNT (thirds); d++)
          {
            char bytes[4] = { (char) a, (char) b, (char) thirds[c], (char) thirds[d] };
            unsigned size = grammar (a, b, thirds[c], thirds[d]);
            br__glyph g = br__glyph_at (bytes, 4, 0);

            if (g.length != (size != 0 ? size : 1) || (g.kind == BR__GLYPH_BROKEN) != (size == 0))
              fail_msg ("%02x %02x %02x %02x: %d bytes, kind %d", a, b, thirds[c], thirds[d], g.length, g.kind);
          }
}

/* Unicode's Cc, its property Bidi_Control (PropList.txt), both separators of lines and the byte order mark.  */
static void
controls (void **state)
{
  static const struct { uint32_t first, last; } rows_of_controls[] = {
    { 0, 0x1f }, { 0x7f, 0x9f }, { 0x61c, 0x61c }, { 0x200e, 0x200f }, { 0x2028, 0x2029 }, { 0x202a, 0x202e },
    { 0x2066, 0x2069 }, { 0xfeff, 0xfeff },
  };
  size_t i = 0;

  (void) state;
  for (uint32_t c = 0; c <= 0x10ffff; c++)
    {
      while (i < CHECK_COUNT (rows_of_controls) && rows_of_controls[i].last < c)
        i++;
      assert_int_equal (br_text_is_control (c), i < CHECK_COUNT (rows_of_controls) && rows_of_controls[i].first <= c);
    }
}

/* Blanks of each width are skipped, up to the end and no further.  */
static void
blanks (void **state)
{
  static const char text[] = " \t\xc2\xa0\xe2\x80\xaf \xe3\x80\x80\tx \xe2\x80\x8b";

  (void) state;
  assert_int_equal (br__skip_blanks (text, sizeof text - 1, 0), 12);
  assert_int_equal (br__skip_blanks (text, sizeof text - 1, 12), 12);
  assert_int_equal (br__skip_blanks (text, sizeof text - 1, 13), 14);   /* U+200B has no width and is none */
  assert_int_equal (br__skip_blanks (text, 2, 0), 2);
  assert_int_equal (br__skip_blanks (text, 3, 0), 2);                   /* half a character */
  assert_int_equal (br__skip_blanks (text, 0, 0), 0);
}

/* Words are of ASCII letters: those beside A, Z, a and z in the table end them.  */
static void
words (void **state)
{
  static const char text[] = "@AZaz[`az{a-z";

  (void) state;
  assert_int_equal (br__word_end (text, sizeof text - 1, 0), 0);
  assert_int_equal (br__word_end (text, sizeof text - 1, 1), 5);
  assert_int_equal (br__word_end (text, 3, 1), 3);
  assert_int_equal (br__word_end (text, sizeof text - 1, 6), 6);
  assert_int_equal (br__word_end (text, sizeof text - 1, 7), 9);
  assert_int_equal (br__word_end (text, sizeof text - 1, 10), 11);
  assert_int_equal (br__word_is ("AZaz", 4, "azaz"), 1);
  assert_int_equal (br__word_is ("AZa", 3, "azaz"), 0);
  assert_int_equal (br__word_is ("AZaz", 4, "aza"), 0);
  assert_int_equal (br__word_is ("AZay", 4, "azaz"), 0);
  /* Capitals only are made small.  */
  assert_int_equal (br__word_is ("@[", 2, "`{"), 0);
  assert_int_equal (br__word_is ("`{", 2, "`{"), 1);
}

static void
begins (void **state)
{
  static const struct { const char *text; int begins; } table[] = {
    { "1", 1 }, { "\xc2\xb2", 1 }, { "\xc2\xbd", 1 }, { "\xe2\x85\x9f" "8", 1 }, { ".5", 1 }, { "..", 1 }, { ".", 0 },
    { ". 5", 0 }, { ".-", 0 }, { "-1", 0 }, { " 1", 0 }, { "\xe2\x82\x82", 0 }, { "a", 0 }, { "", 0 }, { "/2", 0 },
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    assert_int_equal (br__measure_begins (table[i].text, strlen (table[i].text), 0), table[i].begins);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (every_character), CHECK_TEST (every_wrong_byte), CHECK_TEST (controls), CHECK_TEST (blanks),
    CHECK_TEST (words), CHECK_TEST (begins),
  };

  return CHECK_RUN (tests);
}
