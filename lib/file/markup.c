/* SPDX-License-Identifier: LGPL-3.0-or-later
   markup.c - what a user typed, inside HTML and SVG; fractions as the eye and as the ear want them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "file/markup.h"
#include "measure/measure.h"
#include "measure/unbroken.h"

/* XML 1.0, section 2.2, has no U+FFFE and U+FFFF.  */
static int
is_spelled_out (unsigned c)
{
  return br_text_is_control (c) || c == 0xfffe || c == 0xffff;
}

/* Spells the character G at S out where nobody could see it; 0 where it is one to be seen.  */
static int
put_spelled (br_text *t, const char *s, const br__glyph *g)
{
  unsigned byte = (unsigned char) *s;
  if (g->kind == BR__GLYPH_BROKEN || byte < 0x20 || byte == 0x7f)
    br__text_printf (t, "\\x%02x", byte);
  else if (byte >= 0x80 && is_spelled_out (g->code))
    br__text_printf (t, "\\u%04x", g->code);
  else
    return 0;
  return 1;
}

void
br__put_plain (br_text *t, const char *bytes, size_t length)
{
  for (size_t i = 0; i < length; )
    {
      br__glyph g = br__glyph_at (bytes, length, i);
      size_t n = g.length ? g.length : 1;
      if (bytes[i] == '\n' || bytes[i] == '\t' || !put_spelled (t, bytes + i, &g))
        br__text_put (t, bytes + i, n);
      i += n;
    }
}

void
br__put_escaped_bytes (br_text *t, const char *bytes, size_t length)
{
  for (size_t i = 0; i < length; )
    {
      br__glyph g = br__glyph_at (bytes, length, i);
      unsigned byte = (unsigned char) bytes[i];
      if (byte == '\t' || byte == '\n' || byte == '\r')
        br__text_putc (t, ' ');
      else if (!put_spelled (t, bytes + i, &g))
        switch (byte)
          {
          case '&': br__text_puts (t, "&amp;"); break;
          case '<': br__text_puts (t, "&lt;"); break;
          case '>': br__text_puts (t, "&gt;"); break;
          case '"': br__text_puts (t, "&quot;"); break;
          case '\'': br__text_puts (t, "&#39;"); break;
          default: br__text_put (t, bytes + i, g.length);
          }
      i += g.length ? g.length : 1;
    }
}

void
br__put_escaped (br_text *t, const char *text)
{
  br__put_escaped_bytes (t, text, strlen (text));
}

/* ---- Fractions ---- */

static int
digit (char c)
{
  return c >= '0' && c <= '9';
}

/* The bytes of the fraction that begins at S, such as 3/8 or 2-3/8, or 0.  WHOLE gets where its fraction
   begins, SLASH where its slash stands.  */
static size_t
fraction_at (const char *s, size_t *whole, size_t *slash)
{
  size_t at = 0, n;
  *whole = 0;
  while (digit (s[at]))
    at++;
  if (at && s[at] == '-')
    {
      *whole = ++at;
      while (digit (s[at]))
        at++;
    }
  n = at;
  if (at == *whole || s[at] != '/' || !digit (s[at + 1]))
    return 0;
  *slash = n;
  for (at++; digit (s[at]); at++)
    continue;
  return at;
}

/* The bytes from AT to END of S, escaped, with blanks that hold a size together.  */
static void
put_unbroken (br_text *t, const char *s, size_t at, size_t end)
{
  for (size_t from = at; at < end; from = at)
    {
      while (at < end && !br__is_in_measure (s, at))
        at++;
      br__put_escaped_bytes (t, s + from, at - from);
      br__text_puts (t, at < end ? "\xC2\xA0" : "");
      at += at < end;
    }
}

void
br__put_fractions (br_text *t, const char *s)
{
  const char *all = s;
  while (*s)
    {
      size_t whole, slash, n = fraction_at (s, &whole, &slash);
      if (n)
        {
          br__text_put (t, s, whole ? whole - 1 : 0);
          /* A narrow blank, so that nobody hears or copies 21/16 for 2-1/16.  */
          br__text_puts (t, whole ? "\xE2\x80\xAF" : "");
          br__text_puts (t, "<span class=\"f\"><sup>");
          br__text_put (t, s + whole, slash - whole);
          br__text_puts (t, "</sup>\xE2\x81\x84<sub>");
          br__text_put (t, s + slash + 1, n - slash - 1);
          br__text_puts (t, "</sub></span>");
          s += n;
          continue;
        }
      /* A run of digits that begins no fraction is passed whole, so that 1.13/8 stays 1.13/8.  */
      n = digit (*s) ? strspn (s, "0123456789.") : strcspn (s, "0123456789");
      put_unbroken (t, all, (size_t) (s - all), (size_t) (s - all) + n);
      s += n;
    }
}

/* ---- In words ---- */

/* "eighths" for the denominator D[0..N), or nothing.  */
static const char *
part_words (const char *d, size_t n, int one)
{
  static const struct { const char *den, *one, *more; } rows[] =
  {
    { "2", "half", "halves" }, { "3", "third", "thirds" }, { "4", "quarter", "quarters" },
    { "5", "fifth", "fifths" }, { "6", "sixth", "sixths" }, { "7", "seventh", "sevenths" },
    { "8", "eighth", "eighths" }, { "9", "ninth", "ninths" }, { "10", "tenth", "tenths" },
    { "12", "twelfth", "twelfths" }, { "16", "sixteenth", "sixteenths" }, { "20", "twentieth", "twentieths" },
    { "32", "thirty-second", "thirty-seconds" }, { "64", "sixty-fourth", "sixty-fourths" },
    { "100", "hundredth", "hundredths" }
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    if (br__word_is (d, n, rows[i].den))
      return one ? rows[i].one : rows[i].more;
  return NULL;
}

/* A number as one says it, up to where it ends; returns its bytes.  *FRACTION: less than a whole.  */
static size_t
put_number_words (br_text *t, const char *s, int *fraction)
{
  size_t whole, slash, n = fraction_at (s, &whole, &slash);
  *fraction = 0;
  if (!n)
    {
      n = strspn (s, "0123456789.");
      br__text_put (t, s, n);
      return n;
    }
  *fraction = !whole;
  int one = slash - whole == 1 && s[whole] == '1';
  const char *parts = part_words (s + slash + 1, n - slash - 1, one);
  if (whole)
    {
      br__text_put (t, s, whole - 1);
      br__text_puts (t, " and ");
    }
  br__text_put (t, s + whole, slash - whole);
  br__text_puts (t, parts ? " " : " over ");
  if (parts)
    br__text_puts (t, parts);
  else
    br__text_put (t, s + slash + 1, n - slash - 1);
  return n;
}

/* "minus 5 feet 2 and 3 eighths inches" for -5' 2-3/8"; 0 where S is not of that form from end to end.  */
static int
put_words (br_text *t, const char *s)
{
  int measures = 0;
  if (*s == '-')
    {
      br__text_puts (t, "minus ");
      s++;
    }
  while (*s)
    {
      int fraction;
      int one = s[0] == '1' && (s[1] == '"' || s[1] == '\'');
      size_t n = put_number_words (t, s, &fraction);
      if (!n || (s[n] != '"' && s[n] != '\''))
        return 0;
      int foot = s[n] == '\'';
      br__text_puts (t, fraction ? (foot ? " of a foot" : " of an inch") : foot ? (one ? " foot" : " feet")
                                                                            : one ? " inch" : " inches");
      s += n + 1;
      measures++;
      if (*s == ' ' && s[1])
        {
          br__text_putc (t, ' ');
          s++;
        }
      else if (*s)
        return 0;
    }
  return measures > 0;
}

void
br__put_spoken (br_text *t, const char *text)
{
  br_text words = BR_TEXT_ZERO;
  int said = put_words (&words, text) && !words.failed;
  if (said)
    br__text_puts (t, "<span class=\"m\" aria-hidden=\"true\">");
  br__put_fractions (t, text);
  if (said)
    br__text_printf (t, "</span><span class=\"r\">%s</span>", br__text_string (&words));
  t->failed |= words.failed;
  br__text_clear (&words);
}

void
br__html_head (br_text *t, const char *language, const char *title, const char *style)
{
  br__text_printf (t, "<!DOCTYPE html>\n<html lang=\"%s\"><head><meta charset=\"utf-8\">"
                   "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>", language);
  br__put_escaped (t, title);
  br__text_printf (t, "</title><style>\nbody{font:12pt sans-serif;color:#000;background:#fff}\n"
                   "table{border-collapse:collapse}td,th{border:1px solid #000;padding:.15em .5em;text-align:left;vertical-align:top}\n"
                   ".box{overflow-x:auto}.f{white-space:nowrap}sup,sub{font-size:.75em;line-height:0}\n%s</style></head>\n<body>", style);
}
