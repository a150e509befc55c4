/* SPDX-License-Identifier: LGPL-3.0-or-later
   fraction.c - text: words are shaped once by pango and placed side by side; fractions are composed here: raised
   numerator, sloped line, lowered denominator, from the digits of the font.

   Text copied from the PDF contains 2-3/8 as it was written: the glyph of the whole number also
   represents the hyphen, and that of the sloped line the slash.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <uthash.h>

#include "measure/unbroken.h"
#include "page/page.h"

#define FAMILY "DejaVu Sans"
#define SMALL 0.66            /* digits of a fraction, of the letters' size */
#define RAISED 0.34           /* base of the numerator over the line, of the letters' size */
#define BAR 0.30              /* width that the sloped line takes */
/* Of fractions in digits as high as others: the numerator over the line, the denominator under it.  ISO 3098-1 and ASME Y14.2
   want digits of 2.5 mm and more, in fractions, too (from memory).  */
#define HIGH_RAISED 0.27
#define HIGH_LOWERED 0.20
#define SLASH "\xE2\x81\x84"   /* U+2044 FRACTION SLASH */
#define MOST_GLYPHS 200
#define GAP 0.08              /* between whole number and fraction */
#define LEADING 1.4           /* line to line */

struct br__shape
{
  PangoLayout *layout;
  double width;
  cairo_scaled_font_t *font;      /* of a run whose glyphs stand one after another, each for a character or more; else NULL */
  const PangoGlyphString *run;    /* then those */
  size_t length;                  /* bytes of its text */
  UT_hash_handle hh;
  char key[];                     /* bold, size in 1/72,000 in, text */
};

/* Glyphs of one font that wait to be put down in one go.  */
struct br__batch
{
  cairo_scaled_font_t *font;
  cairo_glyph_t glyphs[MOST_GLYPHS];
  cairo_text_cluster_t clusters[MOST_GLYPHS];
  char text[MOST_GLYPHS * 2];
  int count, length;
};

/* A piece that is set without a break: a run of letters, or a fraction.  */
typedef struct piece
{
  const char *text;
  size_t length;
  size_t whole, slash;        /* of a fraction: bytes of its whole number with the hyphen, and its slash */
  int fraction;
} piece;

void
br__shapes_free (br_page *page)
{
  br__shape *s, *next;
  HASH_ITER (hh, page->shapes, s, next)
    {
      HASH_DEL (page->shapes, s);
      g_object_unref (s->layout);
      free (s);
    }
  free (page->batch);
}

static PangoLayout *
shape_text (br_page *page, const char *text, size_t length, int32_t size, int bold)
{
  PangoLayout *layout = pango_layout_new (page->context);
  PangoFontDescription *font = pango_font_description_new ();
  pango_font_description_set_family_static (font, FAMILY);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  /* Absolute: units of a point, whatever resolution the context thinks it has.  */
  pango_font_description_set_absolute_size (font, BR__POINTS (size) * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_text (layout, text, (int) length);
  return layout;
}

void
br__page_missing (char letters[BR_PAGE_MISSING], const br_page *page)
{
  memcpy (letters, page->missing, sizeof page->missing);
}

/* Keeps the letter at TEXT that no font has, once.  */
static void
keep_missing (br_page *page, const char *text)
{
  size_t have = strlen (page->missing), n = (size_t) (g_utf8_next_char (text) - text);
  char letter[8] = { 0 };
  memcpy (letter, text, n < sizeof letter ? n : sizeof letter - 1);
  if (have + n >= sizeof page->missing || strstr (page->missing, letter))
    return;
  memcpy (page->missing + have, letter, n);
  page->missing[have + n] = 0;
}

static void
look_for_missing (br_page *page, PangoLayout *layout)
{
  const char *text = pango_layout_get_text (layout);
  PangoLayoutLine *line = pango_layout_get_line_readonly (layout, 0);
  for (const GSList *l = line->runs; l; l = l->next)
    {
      const PangoGlyphItem *run = l->data;
      for (int i = 0; i < run->glyphs->num_glyphs; i++)
        if (run->glyphs->glyphs[i].glyph & PANGO_GLYPH_UNKNOWN_FLAG)
          keep_missing (page, text + run->item->offset + run->glyphs->log_clusters[i]);
    }
}

/* Finds whether the layout of S is a single run, like those of digits and of words, and its glyphs.  */
static void
look_for_glyphs (br__shape *s)
{
  PangoLayoutLine *line = pango_layout_get_line_readonly (s->layout, 0);
  const PangoGlyphItem *run = line->runs ? line->runs->data : NULL;
  if (!run || line->runs->next || run->glyphs->num_glyphs > MOST_GLYPHS)
    return;
  for (int i = 0; i < run->glyphs->num_glyphs; i++)
    {
      const PangoGlyphInfo *g = &run->glyphs->glyphs[i];
      if (g->glyph & PANGO_GLYPH_UNKNOWN_FLAG || g->geometry.x_offset || g->geometry.y_offset
          || run->glyphs->log_clusters[i] >= (i + 1 < run->glyphs->num_glyphs ? run->glyphs->log_clusters[i + 1] : (int) s->length))
        return;
    }
  s->font = pango_cairo_font_get_scaled_font (PANGO_CAIRO_FONT (run->item->analysis.font));
  s->run = run->glyphs;
}

static br__shape *
new_shape (br_page *page, const char *key, size_t head, size_t n, int32_t size, int bold)
{
  br__shape *s = calloc (1, sizeof *s + n);
  PangoRectangle logical;
  if (!s || !br__page_room_again ())
    {
      free (s);
      return NULL;
    }
  memcpy (s->key, key, n);
  s->layout = shape_text (page, key + head, n - head, size, bold);
  pango_layout_get_extents (s->layout, NULL, &logical);
  s->width = (double) logical.width / PANGO_SCALE;
  s->length = n - head;
  look_for_glyphs (s);
  if (!s->font)
    look_for_missing (page, s->layout);
  HASH_ADD (hh, page->shapes, key, n, s);
  return s;
}

/* The shape of LENGTH bytes at TEXT; NULL when memory ran out.  */
static br__shape *
shape_of (br_page *page, const char *text, size_t length, int32_t size, int bold)
{
  size_t head = sizeof size + 1, n = head + length;
  char near[200], *key = n <= sizeof near ? near : malloc (n);
  br__shape *s = NULL;
  if (key)
    {
      key[0] = (char) bold;
      memcpy (key + 1, &size, sizeof size);
      memcpy (key + head, text, length);
      HASH_FIND (hh, page->shapes, key, n, s);
      if (!s)
        s = new_shape (page, key, head, n, size, bold);
    }
  if (key != near)
    free (key);
  page->failed |= !s;
  return s;
}

static void
put_batch (br_page *page)
{
  br__batch *b = page->batch;
  if (!b || !b->count)
    return;
  cairo_set_scaled_font (page->cairo, b->font);
  cairo_show_text_glyphs (page->cairo, b->text, b->length, b->glyphs, b->count, b->clusters, b->count, 0);
  b->count = b->length = 0;
}

/* Adds the glyphs of S at X, Y; text copied from the file is the LENGTH bytes at TEXT, of which the last glyph
   may represent one more than in S.  Returns 0 if that is not possible.  */
static int
add_glyphs (br_page *page, const br__shape *s, double x, double y, const char *text, size_t length)
{
  br__batch *b = page->batch;
  if (!s->font || !b || page->turned || length > sizeof b->text)
    return 0;
  const int count = s->run->num_glyphs;
  if (b->font != s->font || b->count + count > MOST_GLYPHS || (size_t) b->length + length > sizeof b->text)
    put_batch (page);
  b->font = s->font;
  for (int i = 0; i < count; i++)
    {
      cairo_glyph_t glyph = { s->run->glyphs[i].glyph, x, y };
      cairo_text_cluster_t cluster = { (i + 1 < count ? s->run->log_clusters[i + 1] : (int) length) - s->run->log_clusters[i], 1 };
      b->clusters[b->count] = cluster;
      b->glyphs[b->count++] = glyph;
      x += (double) s->run->glyphs[i].geometry.width / PANGO_SCALE;
    }
  memcpy (b->text + b->length, text, length);
  b->length += (int) length;
  return 1;
}

/* Glyphs are made for one direction: those of a turned text are of its own.  */
static void
set_turned (br_page *page, const char *text, size_t length, double x, double y, int32_t size, int bold)
{
  PangoContext *upright = page->context;
  page->context = br__page_context (page->cairo);
  PangoLayout *layout = shape_text (page, text, length, size, bold);
  cairo_move_to (page->cairo, x, y);
  pango_cairo_show_layout_line (page->cairo, pango_layout_get_line_readonly (layout, 0));
  g_object_unref (layout);
  g_object_unref (page->context);
  page->context = upright;
}

/* Sets LENGTH bytes with their base line at Y; returns the width.  */
static double
set_run (br_page *page, const char *text, size_t length, double x, double y, int32_t size, int bold, int draw)
{
  br__shape *s = length ? shape_of (page, text, length, size, bold) : NULL;
  if (!s)
    return 0;
  if (draw && page->turned)
    set_turned (page, text, length, x, y, size, bold);
  else if (draw && !add_glyphs (page, s, x, y, text, length))
    {
      put_batch (page);
      br__page_flush (page);
      cairo_move_to (page->cairo, x, y);
      pango_cairo_show_layout_line (page->cairo, pango_layout_get_line_readonly (s->layout, 0));
    }
  return s->width;
}

/* The whole number of a fraction, with its hyphen unseen.  */
static double
set_whole (br_page *page, const piece *p, double x, double y, int32_t size, int bold, int draw)
{
  br__shape *s = shape_of (page, p->text, p->whole - 1, size, bold);
  if (!s)
    return 0;
  if (!draw || add_glyphs (page, s, x, y, p->text, p->whole))
    return s->width;
  return set_run (page, p->text, p->whole - 1, x, y, size, bold, draw);
}

/* The font's own sloped line in the middle of BAR, or else one that is drawn.  */
static void
draw_bar (br_page *page, double x, double y, int32_t size, int bold)
{
  double full = BR__POINTS (size);
  int32_t slash = page->high ? size * 8 / 5 : size;
  double down = page->high ? full * HIGH_LOWERED : 0;
  br__shape *s = shape_of (page, SLASH, sizeof SLASH - 1, slash, bold);
  if (s && add_glyphs (page, s, x + (full * BAR - s->width) / 2, y + down, "/", 1))
    return;
  put_batch (page);
  br__page_flush (page);
  cairo_move_to (page->cairo, x - full * 0.02, y + full * 0.04 + down);
  cairo_line_to (page->cairo, x + full * (BAR + 0.02), y - full * (page->high ? 0.98 : 0.78));
  cairo_set_line_width (page->cairo, full * (bold ? 0.09 : 0.065));
  cairo_set_dash (page->cairo, NULL, 0, 0);
  cairo_stroke (page->cairo);
}

static double
set_fraction (br_page *page, const piece *p, double x, double y, int32_t size, int bold, int draw)
{
  double full = BR__POINTS (size), start = x, up = page->high ? HIGH_RAISED : RAISED, down = page->high ? HIGH_LOWERED : 0;
  int32_t small = page->high ? size : (int32_t) (size * SMALL);
  if (p->whole)
    x += set_whole (page, p, x, y, size, bold, draw) + full * GAP;
  x += set_run (page, p->text + p->whole, p->slash - p->whole, x, y - full * up, small, bold, draw);
  if (draw)
    draw_bar (page, x, y, size, bold);
  x += full * BAR;
  x += set_run (page, p->text + p->slash + 1, p->length - p->slash - 1, x, y + full * down, small, bold, draw);
  return x - start;
}

static size_t
digits_at (const char *s, size_t length, size_t at)
{
  size_t n = at;
  while (n < length && s[n] >= '0' && s[n] <= '9')
    n++;
  return n - at;
}

/* Finds a fraction at the start of S.  */
static int
find_fraction (piece *p, const char *s, size_t length)
{
  size_t n = digits_at (s, length, 0), den;
  memset (p, 0, sizeof *p);
  if (n && n + 1 < length && s[n] == '-' && digits_at (s, length, n + 1))
    {
      p->whole = n + 1;
      n = p->whole + digits_at (s, length, p->whole);
    }
  if (n == p->whole || n + 1 >= length || s[n] != '/' || !(den = digits_at (s, length, n + 1)))
    return 0;
  p->text = s;
  p->slash = n;
  p->length = n + 1 + den;
  p->fraction = 1;
  return 1;
}

/* The next piece of a word.  */
static piece
next_piece (const char *s, size_t length)
{
  piece p, other;
  size_t n = 0;
  if (find_fraction (&p, s, length))
    return p;
  while (n < length && (n == 0 || !find_fraction (&other, s + n, length - n)))
    {
      size_t number = digits_at (s, length, n);
      n += number ? number : 1;
      /* The digits behind a point belong to a decimal.  */
      if (number && n < length && s[n] == '.')
        n += 1 + digits_at (s, length, n + 1);
    }
  p.text = s;
  p.length = n;
  p.fraction = 0;
  return p;
}

static double
set_word (br_page *page, const char *s, size_t length, double x, double y, int32_t size, int bold, int draw)
{
  double start = x;
  while (length)
    {
      piece p = next_piece (s, length);
      if (p.fraction)
        x += set_fraction (page, &p, x, y, size, bold, draw);
      else
        x += set_run (page, p.text, p.length, x, y, size, bold, draw);
      s += p.length;
      length -= p.length;
    }
  return x - start;
}

/* The bytes of the word at S, LENGTH long, that fit into WIDTH: one character at the least.  */
static size_t
fit_word (br_page *page, const char *s, size_t length, double width, const br_page_text *t)
{
  size_t n = 0, next = 0;
  while (next < length)
    {
      for (next++; next < length && ((unsigned char) s[next] & 0xC0) == 0x80; next++)
        continue;
      if (n > 0 && set_word (page, s, next, 0, 0, t->size, t->bold, 0) > width)
        break;
      n = next;
    }
  return n;
}

/* 1 if the LENGTH bytes of S have letters of a right-to-left script: then pango must lay out the whole line at once.  */
static int
runs_backward (const char *s, size_t length)
{
  for (const char *end = s + length; s < end; s = g_utf8_next_char (s))
    {
      /* Blocks of the Unicode Standard whose letters have the bidirectional classes R and AL.  */
      gunichar c = *(const unsigned char *) s < 0xD6 ? 0 : g_utf8_get_char (s);
      if ((c >= 0x590 && c <= 0x8FF) || (c >= 0xFB1D && c <= 0xFDFF) || (c >= 0xFE70 && c <= 0xFEFE)
          || (c >= 0x10800 && c <= 0x10FFF) || (c >= 0x1E800 && c <= 0x1EFFF))
        return 1;
    }
  return 0;
}

/* The bytes of the next line of S within WIDTH (0: no bound); *TAKES gets its width.  */
static size_t
fit_line (br_page *page, const char *s, double width, double blank, const br_page_text *t, double *takes)
{
  size_t at = 0, all = strcspn (s, "\n");
  *takes = 0;
  if (width <= 0 && runs_backward (s, all))
    {
      *takes = set_run (page, s, all, 0, 0, t->size, t->bold, 0);
      return all;
    }
  while (s[at] && s[at] != '\n')
    {
      size_t blanks = strspn (s + at, " "), n = strcspn (s + at + blanks, " \n");
      double w = (double) blanks * blank + set_word (page, s + at + blanks, n, 0, 0, t->size, t->bold, 0);
      while (width > 0 && br__is_in_measure (s, at + blanks + n))
        {
          size_t more = strcspn (s + at + blanks + n + 1, " \n");
          double wider = w + blank + set_word (page, s + at + blanks + n + 1, more, 0, 0, t->size, t->bold, 0);
          if (wider > width)
            break;
          w = wider;
          n += 1 + more;
        }
      if (width > 0 && at > 0 && *takes + w > width)
        break;
      if (width > 0 && blanks == 0 && w > width)
        {
          n = fit_word (page, s, n, width, t);
          *takes = set_word (page, s, n, 0, 0, t->size, t->bold, 0);
          return n;
        }
      *takes += w;
      at += blanks + n;
    }
  return at;
}

/* Sets the words of one line.  */
static void
set_line (br_page *page, const char *s, size_t length, double x, double y, double blank, const br_page_text *t)
{
  if (t->width <= 0 && runs_backward (s, length))
    {
      set_run (page, s, length, x, y, t->size, t->bold, 1);
      return;
    }
  for (size_t at = 0; at < length; )
    {
      size_t n;
      for (; at < length && s[at] == ' '; at++)
        {
          set_run (page, " ", 1, x, y, t->size, t->bold, 1);
          x += blank;
        }
      n = at < length ? strcspn (s + at, " \n") : 0;
      /* A word that was broken goes on on the next line.  */
      if (n > length - at)
        n = length - at;
      x += set_word (page, s + at, n, x, y, t->size, t->bold, 1);
      at += n;
    }
}

int32_t
br__page_text (br_page *page, int32_t *width, const br_page_text *t, int draw)
{
  if (!page->batch)
    page->batch = calloc (1, sizeof *page->batch);
  br__shape *space = shape_of (page, " ", 1, t->size, t->bold);
  double blank = space ? space->width : 0, full = BR__POINTS (t->size), longest = 0;
  double left = BR__POINTS (t->x), top = BR__POINTS (t->y);
  const char *s = t->text;
  int lines = 0;
  page->turned = t->turned;
  page->high = t->high;
  if (t->turned)
    {
      br__page_flush (page);
      cairo_save (page->cairo);
      cairo_translate (page->cairo, left, top);
      cairo_rotate (page->cairo, -acos (0.0));
      left = top = 0;
    }
  do
    {
      double wide;
      size_t n = fit_line (page, s, BR__POINTS (t->width), blank, t, &wide);
      double x = left - (t->align == BR_ALIGN_LEFT ? 0 : t->align == BR_ALIGN_RIGHT ? wide : wide / 2);
      if (draw)
        set_line (page, s, n, x, top + full * (1 + lines * LEADING), blank, t);
      /* Who hears the page read hears "the" and "track" apart, though a line ends between them.  */
      if (draw && s[n] && strchr (" \n", s[n]))
        set_run (page, " ", 1, x + wide, top + full * (1 + lines * LEADING), t->size, t->bold, 1);
      if (wide > longest)
        longest = wide;
      lines++;
      s += n;
      s += *s == '\n' || *s == ' ';
    }
  while (*s);
  put_batch (page);
  page->turned = page->high = 0;
  if (t->turned)
    cairo_restore (page->cairo);
  if (width)
    *width = (int32_t) (longest * (BR_PAGE_INCH / 72.0));
  return (int32_t) (lines * LEADING * t->size);
}
