/* SPDX-License-Identifier: GPL-3.0-or-later
   escape.c - how text is shown on a terminal: a UTF-8 decoder, widths from the C
   library, and escapes for characters that must not reach a terminal.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "escape.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <wchar.h>

#include "benchrule.h"

/* Takes one character; returns its bytes, 0 where TEXT does not begin with one.
   Overlong forms, surrogates and values past U+10FFFF are none (RFC 3629).  */
static size_t
decode (uint32_t *code, const unsigned char *text, size_t length)
{
  static const uint32_t least[5] = { 0, 0, 0x80, 0x800, 0x10000 };
  size_t need = text[0] < 0x80 ? 1 : text[0] < 0xc2 ? 0 : text[0] < 0xe0 ? 2
                : text[0] < 0xf0 ? 3 : text[0] < 0xf5 ? 4 : 0;
  if (need == 0 || need > length)
    return 0;
  uint32_t c = need == 1 ? text[0] : text[0] & (0x7fu >> need);
  for (size_t i = 1; i < need; i++)
    {
      if ((text[i] & 0xc0) != 0x80)
        return 0;
      c = c << 6 | (text[i] & 0x3fu);
    }
  if (c < least[need] || (c >= 0xd800 && c < 0xe000) || c > 0x10ffff)
    return 0;
  *code = c;
  return need;
}

/* The ASCII replacement for a sign that the locale cannot show.  */
static const char *
plain_form (uint32_t c)
{
  static const struct { uint32_t code; const char *plain; } forms[] = {
    { 0xb1, "+-" }, { 0xb7, "*" }, { 0xd7, "x" }, { 0xf7, "/" }, { 0x2013, "-" },
    { 0x2032, "'" }, { 0x2033, "\"" }, { 0x2044, "/" }, { 0x2192, "->" }, { 0x2212, "-" },
    { 0x2248, "about" }, { 0x2260, "!=" }, { 0x2264, "<=" }, { 0x2265, ">=" },
    { 0xbc, "1/4" }, { 0xbd, "1/2" }, { 0xbe, "3/4" }
  };
  for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
    if (forms[i].code == c)
      return forms[i].plain;
  return NULL;
}

static void
spell (escape_char *c, char letter, int digits, unsigned code)
{
  c->width = snprintf (c->shown, sizeof c->shown, "\\%c%0*x", letter, digits, code);
}

/* A character that the locale has no width for, and no plain form: its bytes.  */
static void
spell_bytes (escape_char *c, const char *text)
{
  c->width = 0;
  for (size_t i = 0; i < c->bytes && i < 3; i++)
    c->width += snprintf (c->shown + c->width, sizeof c->shown - (size_t) c->width,
                          "\\x%02x", (unsigned) (unsigned char) text[i]);
}

void
escape_next (escape_char *c, const char *text, size_t length)
{
  uint32_t code = 0;
  c->bytes = decode (&code, (const unsigned char *) text, length);
  c->broken = c->bytes == 0;
  if (c->broken)
    {
      c->bytes = 1;
      spell (c, 'x', 2, (unsigned char) text[0]);
      return;
    }
  if (code == '\t')
    code = ' ';
  if (br_text_is_control (code))
    {
      spell (c, code < 0x80 ? 'x' : 'u', code < 0x80 ? 2 : 4, (unsigned) code);
      return;
    }
  int width = code < 0x80 ? 1 : wcwidth ((wchar_t) code);
  const char *plain = width < 0 ? plain_form (code) : NULL;
  if (plain)
    c->width = snprintf (c->shown, sizeof c->shown, "%s", plain);
  else if (width < 0 && c->bytes == 4)
    spell (c, 'U', 6, (unsigned) code);
  else if (width < 0)
    spell_bytes (c, text);
  else
    {
      memcpy (c->shown, text, c->bytes);
      if (code == ' ')
        c->shown[0] = ' ';
      c->shown[c->bytes] = '\0';
      c->width = width;
    }
}

int
escape_width (const char *text, size_t length)
{
  escape_char c;
  int width = 0;
  for (size_t i = 0; i < length; i += c.bytes)
    {
      escape_next (&c, text + i, length - i);
      width += c.width;
    }
  return width;
}

size_t
escape_column (const char *text, size_t length, size_t offset)
{
  escape_char c;
  size_t column = 1;
  for (size_t i = 0; i < length && i < offset; i += c.bytes)
    {
      escape_next (&c, text + i, length - i);
      if (c.width > 0 && i + c.bytes <= offset)
        column++;
    }
  return column;
}

unsigned
escape_control (size_t *bytes, const char *text, size_t length)
{
  uint32_t code = 0;
  *bytes = decode (&code, (const unsigned char *) text, length);
  *bytes += *bytes == 0;
  return br_text_is_control (code) ? (unsigned) code : 0;
}

static char *
escape_all (const char *text, size_t length, int only_broken)
{
  escape_char c;
  if (length > SIZE_MAX / ESCAPE_SHOWN_SIZE - 1)
    return NULL;
  char *shown = malloc (length * ESCAPE_SHOWN_SIZE + 1);
  size_t end = 0;
  if (!shown)
    return NULL;
  for (size_t i = 0; i < length; i += c.bytes)
    {
      escape_next (&c, text + i, length - i);
      int keep = only_broken && !c.broken;
      size_t n = keep ? c.bytes : strlen (c.shown);
      memcpy (shown + end, keep ? text + i : c.shown, n);
      end += n;
    }
  shown[end] = '\0';
  return shown;
}

char *
escape_text (const char *text, size_t length)
{
  return escape_all (text, length, 0);
}

char *
escape_broken (const char *text, size_t length)
{
  return escape_all (text, length, 1);
}
