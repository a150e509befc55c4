/* SPDX-License-Identifier: GPL-3.0-or-later
   pdf.h - reads the strokes of a PDF file back: unpacks its streams (RFC 1951) and follows the path operators of a
   page (ISO 32000-1, 8.5; from memory) through their matrices.  Places are points of 1/72 in, y down from the
   upper left corner.  */
#ifndef BR_TESTS_DRAW_PDF_H
#define BR_TESTS_DRAW_PDF_H

#include "check.h"

/* ---- Unpacking ---- */

typedef struct pdf_bits
{
  const unsigned char *at, *end;
  unsigned held, count;
  unsigned char *out;
  size_t length, room;
  int wrong;
} pdf_bits;

static unsigned
pdf_take (pdf_bits *b, unsigned count)
{
  while (b->count < count)
    {
      if (b->at == b->end)
        {
          b->wrong = 1;
          return 0;
        }
      b->held |= (unsigned) *b->at++ << b->count;
      b->count += 8;
    }
  unsigned bits = b->held & ((1u << count) - 1);
  b->held >>= count;
  b->count -= count;
  return bits;
}

static void
pdf_put (pdf_bits *b, unsigned char c)
{
  if (b->length == b->room)
    {
      b->room = b->room * 2 + 4096;
      b->out = realloc (b->out, b->room);
      assert_non_null (b->out);
    }
  b->out[b->length++] = c;
}

/* A code by the lengths of its words: how many of each length, and the symbols in order.  */
typedef struct pdf_code
{
  unsigned count[16], symbol[320];
} pdf_code;

static void
pdf_make_code (pdf_code *c, const unsigned char *lengths, unsigned n)
{
  unsigned offset[16] = { 0 };
  memset (c->count, 0, sizeof c->count);
  for (unsigned i = 0; i < n; i++)
    c->count[lengths[i]]++;
  for (unsigned i = 1; i < 15; i++)
    offset[i + 1] = offset[i] + c->count[i];
  for (unsigned i = 0; i < n; i++)
    if (lengths[i])
      c->symbol[offset[lengths[i]]++] = i;
  c->count[0] = 0;
}

static unsigned
pdf_symbol (pdf_bits *b, const pdf_code *c)
{
  unsigned code = 0, first = 0, index = 0;
  for (unsigned length = 1; length < 16 && !b->wrong; length++)
    {
      code = code << 1 | pdf_take (b, 1);
      if (code - first < c->count[length])
        return c->symbol[index + code - first];
      index += c->count[length];
      first = (first + c->count[length]) << 1;
    }
  b->wrong = 1;
  return 256;
}

static void
pdf_block (pdf_bits *b, const pdf_code *letters, const pdf_code *distances)
{
  static const unsigned base[] = { 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99,
                                   115, 131, 163, 195, 227, 258 };
  for (unsigned s; !b->wrong && (s = pdf_symbol (b, letters)) != 256; )
    {
      if (s < 256)
        {
          pdf_put (b, (unsigned char) s);
          continue;
        }
      s -= 257;
      unsigned extra = s < 8 || s == 28 ? 0 : (s - 4) / 4;
      unsigned length = s < 29 ? base[s] + pdf_take (b, extra) : 0;
      unsigned d = pdf_symbol (b, distances), more = d < 4 ? 0 : (d - 2) / 2;
      size_t back = d < 4 ? d + 1 : ((2 + (d & 1)) << more) + 1 + pdf_take (b, more);
      if (b->wrong || s >= 29 || back > b->length)
        {
          b->wrong = 1;
          return;
        }
      while (length--)
        pdf_put (b, b->out[b->length - back]);
    }
}

/* The two codes that stand before a block of kind 2.  */
static void
pdf_read_codes (pdf_bits *b, pdf_code *letters, pdf_code *distances)
{
  static const unsigned char order[] = { 16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15 };
  unsigned char lengths[320] = { 0 }, small[19] = { 0 };
  unsigned n = pdf_take (b, 5) + 257, m = pdf_take (b, 5) + 1, k = pdf_take (b, 4) + 4, i = 0;
  pdf_code code;
  for (unsigned j = 0; j < k; j++)
    small[order[j]] = (unsigned char) pdf_take (b, 3);
  pdf_make_code (&code, small, 19);
  while (i < n + m && !b->wrong)
    {
      unsigned s = pdf_symbol (b, &code), times = 1;
      unsigned char value = (unsigned char) s;
      if (s == 16)
        {
          value = i ? lengths[i - 1] : 0;
          times = 3 + pdf_take (b, 2);
        }
      else if (s > 16)
        {
          value = 0;
          times = s == 17 ? 3 + pdf_take (b, 3) : 11 + pdf_take (b, 7);
        }
      for (; times && i < n + m; times--)
        lengths[i++] = value;
    }
  pdf_make_code (letters, lengths, n);
  pdf_make_code (distances, lengths + n, m);
}

/* The bytes packed at AT (zlib's two before them), or NULL; to be freed.  */
CHECK_UNUSED static char *
pdf_unpack (const unsigned char *at, const unsigned char *end)
{
  pdf_bits b = { .at = at + 2, .end = end };
  unsigned last = 0;
  while (!last && !b.wrong)
    {
      pdf_code letters, distances;
      unsigned char lengths[288];
      last = pdf_take (&b, 1);
      unsigned kind = pdf_take (&b, 2);
      if (kind == 2)
        pdf_read_codes (&b, &letters, &distances);
      else if (kind == 1)
        {
          for (unsigned i = 0; i < 288; i++)
            lengths[i] = i < 144 ? 8 : i < 256 ? 9 : i < 280 ? 7 : 8;
          pdf_make_code (&letters, lengths, 288);
          memset (lengths, 5, 30);
          pdf_make_code (&distances, lengths, 30);
        }
      else
        b.wrong = 1;            /* what is not packed at all does not occur here */
      if (!b.wrong)
        pdf_block (&b, &letters, &distances);
    }
  pdf_put (&b, 0);
  if (b.wrong)
    {
      free (b.out);
      return NULL;
    }
  return (char *) b.out;
}

/* ---- Strokes ---- */

typedef struct pdf_point
{
  double x, y;
  int begins, curved;           /* a subpath begins here; a curve ends here */
} pdf_point;

typedef struct pdf_page
{
  pdf_point *points;
  size_t count;
  double height;
} pdf_page;

typedef struct pdf_matrix { double a, b, c, d, e, f; } pdf_matrix;

static void
pdf_add (pdf_page *p, const pdf_matrix *m, double x, double y, int begins, int curved)
{
  p->points = realloc (p->points, (p->count + 1) * sizeof *p->points);
  assert_non_null (p->points);
  p->points[p->count++] = (pdf_point) { m->a * x + m->c * y + m->e, p->height - (m->b * x + m->d * y + m->f), begins, curved };
}

/* Back to where the outline began.  */
static void
pdf_close (pdf_page *p)
{
  size_t i = p->count;
  while (i > 0 && !p->points[i - 1].begins)
    i--;
  assert_true (i > 0);
  p->points = realloc (p->points, (p->count + 1) * sizeof *p->points);
  assert_non_null (p->points);
  p->points[p->count] = p->points[i - 1];
  p->points[p->count++].begins = 0;
}

static pdf_matrix
pdf_join (const double n[6], const pdf_matrix *m)
{
  return (pdf_matrix) { n[0] * m->a + n[1] * m->c, n[0] * m->b + n[1] * m->d, n[2] * m->a + n[3] * m->c,
                        n[2] * m->b + n[3] * m->d, n[4] * m->a + n[5] * m->c + m->e, n[4] * m->b + n[5] * m->d + m->f };
}

/* Follows the operators of TEXT; texts in round brackets are passed over.  */
CHECK_UNUSED static void
pdf_follow (pdf_page *p, const char *text)
{
  pdf_matrix stack[32], m = { 1, 0, 0, 1, 0, 0 };
  double n[6] = { 0 };
  int depth = 0;
  while (*(text += strspn (text, " \n\r\t")))
    {
      char *end;
      double value = strtod (text, &end);
      if (end != text)
        {
          memmove (n, n + 1, 5 * sizeof *n);
          n[5] = value;
          text = end;
          continue;
        }
      if (*text == '(')
        {
          for (text++; *text && *text != ')'; text++)
            text += *text == '\\' && text[1];
          text += *text != 0;
          continue;
        }
      size_t length = strcspn (text, " \n\r\t(");
      length = length ? length : 1;
      char word[4] = { 0 };
      memcpy (word, text, length < 3 ? length : 3);
      text += length;
      if (strcmp (word, "q") == 0 && depth < 32)
        stack[depth++] = m;
      else if (strcmp (word, "Q") == 0 && depth)
        m = stack[--depth];
      else if (strcmp (word, "cm") == 0)
        m = pdf_join (n, &m);
      else if (strcmp (word, "m") == 0 || strcmp (word, "l") == 0)
        pdf_add (p, &m, n[4], n[5], *word == 'm', 0);
      else if (strcmp (word, "c") == 0)
        pdf_add (p, &m, n[4], n[5], 0, 1);
      else if (strcmp (word, "re") == 0)
        for (int i = 0; i < 5; i++)
          pdf_add (p, &m, n[2] + (i == 1 || i == 2 ? n[4] : 0), n[3] + (i == 2 || i == 3 ? n[5] : 0), i == 0, 0);
      else if (strcmp (word, "h") == 0)
        pdf_close (p);
    }
}

/* The height of the first page whose size stands in LENGTH bytes of text, or 0.  */
static double
pdf_height (const char *text, size_t length)
{
  const char *end = text + length;
  for (const char *s = text; s + 10 < end; s++)
    if (memcmp (s, "/MediaBox", 9) == 0)
      {
        double n = 0;
        char *next = strchr (s, '[') + 1;
        for (int i = 0; i < 4; i++)
          n = strtod (next, &next);
        return n;
      }
  return 0;
}

/* The next stream from AT on, unpacked (to be freed), or NULL; AT goes behind where it begins.  */
static char *
pdf_stream (const char **at, const char *end)
{
  for (const char *s = *at; s + 8 < end; s++)
    if (memcmp (s, "stream\n", 7) == 0 && s[-1] != 'd')
      {
        char *text = pdf_unpack ((const unsigned char *) s + 7, (const unsigned char *) end);
        *at = s + 7;
        if (text)
          return text;
      }
  return NULL;
}

/* The strokes of the first page of LENGTH bytes; those of further pages follow.  Cairo before 1.18 writes the size of
   a page as plain text, and later packs it into a stream behind the strokes.  */
CHECK_UNUSED static void
pdf_read (pdf_page *p, const char *bytes, size_t length)
{
  const char *end = bytes + length, *at = bytes + 1;
  char *text;
  memset (p, 0, sizeof *p);
  p->height = pdf_height (bytes, length);
  while (p->height == 0 && (text = pdf_stream (&at, end)) != NULL)
    {
      p->height = pdf_height (text, strlen (text));
      free (text);
    }
  for (at = bytes + 1; (text = pdf_stream (&at, end)) != NULL; free (text))
    if (strstr (text, " cm\n"))
      pdf_follow (p, text);
}

#endif
