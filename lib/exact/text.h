/* SPDX-License-Identifier: LGPL-3.0-or-later
   text.h - a growable text buffer.  If memory runs out, FAILED is set and every
   later call does nothing, so callers check once, at the end.  */
#ifndef BR_EXACT_TEXT_H
#define BR_EXACT_TEXT_H

#include "benchrule.h"

typedef struct br_text
{
  char *bytes;      /* NUL at bytes[length]; NULL while nothing was put in */
  size_t length;
  size_t room;
  int failed;
} br_text;

#define BR_TEXT_ZERO { NULL, 0, 0, 0 }

void br__text_clear (br_text *t);
void br__text_reset (br_text *t);                       /* empties, keeps the room; failed stays so */
void br__text_put (br_text *t, const char *bytes, size_t length);
void br__text_puts (br_text *t, const char *string);
void br__text_printf (br_text *t, const char *format, ...) __attribute__ ((format (printf, 2, 3)));
const char *br__text_string (const br_text *t);         /* never NULL */
/* A pointer to the end of T with room for MORE bytes and a NUL, or NULL (T has then failed).  The caller
   writes there and then calls br__text_took with the number of bytes.  Numbers are written this way for
   every cell of a column, so both are inline while there is room.  */
char *br__text_more_room (br_text *t, size_t more);

static inline char *
br__text_room (br_text *t, size_t more)
{
  if (__builtin_expect (more < t->room - t->length && !t->failed, 1))
    return t->bytes + t->length;
  return br__text_more_room (t, more);
}

static inline void
br__text_took (br_text *t, size_t length)
{
  t->length += length;
  t->bytes[t->length] = 0;
}

static inline void
br__text_putc (br_text *t, char c)
{
  char *end = br__text_room (t, 1);
  if (end)
    {
      *end = c;
      br__text_took (t, 1);
    }
}

/* Hands T out in the manner of snprintf and clears it; SIZE_MAX if it failed.  */
size_t br__text_hand_out (char *buffer, size_t size, br_text *t);

/* Writers that the public snprintf-like functions wrap.  number.c: */
void br__put_number (br_text *t, const br_number *x);                   /* n/d */
void br__put_mixed (br_text *t, const br_number *x);                    /* 2-3/8 */
int br__put_decimal (br_text *t, const br_number *x, unsigned digits);  /* 1 if exact */
/* real: BR_OK, BR_UNDECIDED, BR_NO_MEMORY ... ; whole may be NULL */
br_status br__put_real_decimal (br_text *t, int *whole, const br_real *x, unsigned digits, unsigned bits);
/* measure/write.c */
void br__put_measure (br_text *t, const br_number *x, br_dimension dimension, const br_style *style);
void br__put_scale (br_text *t, const br_number *ratio);

#endif
