/* SPDX-License-Identifier: LGPL-3.0-or-later
   glyph.c - which characters of a pasted text stand for blanks, hyphens, slashes, digits,
   fractions and the marks of feet and inches.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"

/* Kinds of the ASCII characters; digits and letters are told apart before.  */
static br__kind
ascii_kind (unsigned char c)
{
  switch (c)
    {
    case ' ': case '\t': return BR__GLYPH_BLANK;
    case '-': return BR__GLYPH_DASH;
    case '/': return BR__GLYPH_SLASH;
    case '.': return BR__GLYPH_POINT;
    case ',': return BR__GLYPH_COMMA;
    case '\'': return BR__GLYPH_FOOT;
    case '"': return BR__GLYPH_INCH;
    default: return c < 0x20 || c == 0x7f ? BR__GLYPH_CONTROL : BR__GLYPH_OTHER;
    }
}

/* Decodes one character of two bytes or more.  Returns its length, 0 for what is no UTF-8
   (RFC 3629, section 3: no overlong forms, no surrogates, nothing past U+10FFFF).  */
static unsigned
decode (unsigned *code, const unsigned char *p, size_t left)
{
  static const unsigned least[5] = { 0, 0, 0x80, 0x800, 0x10000 };
  unsigned need, value, i;

  if (p[0] >= 0xc2 && p[0] <= 0xdf)
    need = 2, value = p[0] & 0x1fu;
  else if ((p[0] & 0xf0) == 0xe0)
    need = 3, value = p[0] & 0x0fu;
  else if (p[0] >= 0xf0 && p[0] <= 0xf4)
    need = 4, value = p[0] & 0x07u;
  else
    return 0;
  if (left < need)
    return 0;
  for (i = 1; i < need; i++)
    {
      if ((p[i] & 0xc0) != 0x80)
        return 0;
      value = value << 6 | (p[i] & 0x3fu);
    }
  if (value < least[need] || value > 0x10ffff || (value >= 0xd800 && value <= 0xdfff))
    return 0;
  *code = value;
  return need;
}

/* Raised and lowered digits (Unicode, block Superscripts and Subscripts, and Latin-1).  */
static int
is_script_digit (br__glyph *g)
{
  unsigned c = g->code;

  if (c == 0xb9 || c == 0x2070 || (c >= 0x2074 && c <= 0x2079))
    g->kind = BR__GLYPH_SUPERSCRIPT, g->num = c == 0xb9 ? 1 : (unsigned char) (c - 0x2070);
  else if (c == 0xb2 || c == 0xb3)
    g->kind = BR__GLYPH_SUPERSCRIPT, g->num = (unsigned char) (c - 0xb0);
  else if (c >= 0x2080 && c <= 0x2089)
    g->kind = BR__GLYPH_SUBSCRIPT, g->num = (unsigned char) (c - 0x2080);
  else
    return 0;
  return 1;
}

/* The vulgar fractions of Unicode (blocks Latin-1 Supplement and Number Forms).  */
static int
is_vulgar (br__glyph *g)
{
  static const unsigned char latin[3][2] = { { 1, 4 }, { 1, 2 }, { 3, 4 } };
  static const unsigned char forms[15][2] = {
    { 1, 7 }, { 1, 9 }, { 1, 10 }, { 1, 3 }, { 2, 3 }, { 1, 5 }, { 2, 5 }, { 3, 5 },
    { 4, 5 }, { 1, 6 }, { 5, 6 }, { 1, 8 }, { 3, 8 }, { 5, 8 }, { 7, 8 }
  };
  unsigned c = g->code;
  const unsigned char *pair = NULL;

  if (c >= 0xbc && c <= 0xbe)
    pair = latin[c - 0xbc];
  else if (c >= 0x2150 && c <= 0x215e)
    pair = forms[c - 0x2150];
  if (pair != NULL)
    g->num = pair[0], g->den = pair[1];
  else if (c == 0x2189)
    g->num = 0, g->den = 3;
  else
    return 0;
  g->kind = BR__GLYPH_VULGAR;
  return 1;
}

static br__kind
wide_kind (unsigned c)
{
  switch (c)
    {
    case 0xa0: case 0x202f: case 0x205f: case 0x3000:
      return BR__GLYPH_BLANK;
    case 0x2010: case 0x2011: case 0x2012: case 0x2013: case 0x2212:
      return BR__GLYPH_DASH;
    case 0x2044: case 0x2215: case 0x29f8:
      return BR__GLYPH_FRACTION_SLASH;
    case 0x2018: case 0x2019: case 0x2032: case 0x02b9:
      return BR__GLYPH_FOOT;
    case 0x201c: case 0x201d: case 0x2033: case 0x02ba:
      return BR__GLYPH_INCH;
    case 0xb0:
      return BR__GLYPH_DEGREE;
    case 0x215f:
      return BR__GLYPH_ONE_OVER;
    default:
      if (c >= 0x2000 && c <= 0x200a)
        return BR__GLYPH_BLANK;
      return c < 0xa0 ? BR__GLYPH_CONTROL : BR__GLYPH_OTHER;
    }
}

br__glyph
br__glyph_at (const char *text, size_t length, size_t at)
{
  br__glyph g = { 0, 0, BR__GLYPH_END, 0, 0 };
  unsigned char c;

  if (at >= length)
    return g;
  c = (unsigned char) text[at];
  g.code = c;
  g.length = 1;
  if (c >= '0' && c <= '9')
    {
      g.kind = BR__GLYPH_DIGIT;
      g.num = (unsigned char) (c - '0');
    }
  else if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'))
    g.kind = BR__GLYPH_LETTER;
  else if (c < 0x80)
    g.kind = (unsigned char) ascii_kind (c);
  else
    {
      unsigned used = decode (&g.code, (const unsigned char *) text + at, length - at);

      if (used == 0)
        g.kind = BR__GLYPH_BROKEN;
      else
        {
          g.length = (unsigned char) used;
          if (!is_script_digit (&g) && !is_vulgar (&g))
            g.kind = (unsigned char) wide_kind (g.code);
        }
    }
  return g;
}

size_t
br__skip_blanks (const char *text, size_t length, size_t at)
{
  for (;;)
    {
      br__glyph g;

      while (at < length && (text[at] == ' ' || text[at] == '\t'))
        at++;
      if (at >= length || (unsigned char) text[at] < 0x80)
        return at;
      g = br__glyph_at (text, length, at);
      if (g.kind != BR__GLYPH_BLANK)
        return at;
      at += g.length;
    }
}

int
br__measure_begins (const char *text, size_t length, size_t at)
{
  br__glyph g = br__glyph_at (text, length, at);

  switch (g.kind)
    {
    case BR__GLYPH_DIGIT: case BR__GLYPH_SUPERSCRIPT:
    case BR__GLYPH_VULGAR: case BR__GLYPH_ONE_OVER:
      return 1;
    case BR__GLYPH_POINT:
      g = br__glyph_at (text, length, at + 1);
      return g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_POINT;
    default:
      return 0;
    }
}

int
br_text_is_control (uint32_t c)
{
  return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0x61c || c == 0x200e || c == 0x200f
         || (c >= 0x2028 && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069) || c == 0xfeff;
}

size_t
br__word_end (const char *text, size_t length, size_t at)
{
  while (at < length && ((text[at] >= 'a' && text[at] <= 'z')
                         || (text[at] >= 'A' && text[at] <= 'Z')))
    at++;
  return at;
}

int
br__word_is (const char *text, size_t length, const char *word)
{
  /* Most words differ in their first letter, and a NUL in TEXT is no letter of one.  */
  for (size_t i = 0; i < length; i++)
    {
      char c = text[i];

      if (c >= 'A' && c <= 'Z')
        c = (char) (c - 'A' + 'a');
      if (c != word[i] || !c)
        return 0;
    }
  return !word[length];
}
