/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer.h - an answer as a pupil writes it.  */
#ifndef BR_LESSON_ANSWER_H
#define BR_LESSON_ANSWER_H

#include "benchrule.h"
#include "measure/measure.h"

/* An answer is read up to here.  */
#define BR__ANSWER_BYTES 200

typedef struct br__answer
{
  char text[2 * BR__ANSWER_BYTES];      /* what was read: the answer, or the same in the notation that is read */
  size_t length;
  int carried;                  /* a foot or more was written in inches behind feet */
  int quoted;                   /* its last quotation mark may be an inch sign */
  br_measure measure;
} br__answer;

/* answer_none.c: 1 where WRITTEN holds no answer: nothing, signs alone, "idk", "n/a".  */
int br__answer_is_none (const char *written);
/* 1 where a spreadsheet has made a date of the answer.  */
int br__answer_is_date (const char *text);
/* 1 for a letter past ASCII.  */
int br__is_other_letter (const br__glyph *g);
/* Reads WRITTEN.  COUNTED: words behind the number say what was counted.  BR_OK, BR_NO_MEMORY, or the error of
   what cannot be read, its offset in WRITTEN.  A is to be cleared.  */
br_status br__answer_read (br__answer *a, const char *written, int counted, br_error *error);
void br__answer_clear (br__answer *a);

static inline int
br__is_digit (char c)
{
  return c >= '0' && c <= '9';
}

static inline int
br__is_letter (char c)
{
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* 1 where LENGTH bytes at TEXT are, capitals or not, one of WORDS, which end with NULL.  */
int br__is_one_of (const char *text, size_t length, const char *const *words);
/* The end of the letters at AT.  */
size_t br__letters_end (const br__answer *a, size_t at);
/* The end of the fraction at AT, digits on both sides of a slash or one character; AT where there is none.  */
size_t br__fraction_end (const br__answer *a, size_t at);

/* answer_drop.c.  Drops what stands before the value: "x =", "answer:", "about", "I got", "the wheel is", but no word that makes
   another value of it.  */
void br__answer_drop_front (br__answer *a);
/* Drops what stands behind the value: points, question marks, brackets, words.  */
void br__answer_drop_back (br__answer *a);
/* The unit that ends at END, or NULL; *START is where it begins.  */
const br_unit *br__answer_unit_before (const br__answer *a, size_t end, size_t *start);

/* answer_mend.c: letters that look like digits, in a number: l6 is 16.  */
void br__answer_put_digits (br__answer *a);
/* Units and numbers that are misspelt or torn apart.  */
void br__answer_mend (br__answer *a);
/* "in: 5/8" and "mm 238": a unit before the number goes behind it.  */
void br__answer_mend_order (br__answer *a);

/* answer_tail.c.  1 where the word from AT to END makes another value of what stands beside it, or says that it is not the answer;
   where the words behind a size, from AT to END, do.  */
int br__is_changing (const br__answer *a, size_t at, size_t end);
int br__has_changing (const br__answer *a, size_t at, size_t end);
/* 1 where the words from AT to END say that something was so before: "used to be", "at first".  */
int br__is_former (const br__answer *a, size_t at, size_t end);
/* 1 where the words at AT, behind a size, say under which condition it holds, or of how many: "when the saw takes 1/8", "for each of
   the 3 slats".  */
int br__is_condition (const br__answer *a, size_t at);
/* 1 where the bracket that begins at AT and ends the answer says no second size: it has no number, or it has a working or
   says what is left, or how it was rounded.  */
int br__is_remark (const br__answer *a, size_t at);

/* answer_words.c.  Puts WITH in the place of COUNT bytes at AT; nothing where there is no room.  */
void br__answer_replace (br__answer *a, size_t at, size_t count, const char *with);
/* Numbers, fractions and decimals in words become digits.  */
void br__answer_put_words (br__answer *a);
/* The end of WORD, capitals or not, at AT, where no letter goes on; else AT.  */
size_t br__answer_word_end (const br__answer *a, size_t at, const char *word);
/* The same of the first of WORDS, which end with NULL, that is there.  */
size_t br__answer_words_end (const br__answer *a, size_t at, const char *const *words);
/* 1 where LENGTH bytes at TEXT have a digit or a fraction in them.  */
int br__has_number (const char *text, size_t length);
/* "So", "makes" and the like between two numbers become an equals sign, and so does the comma behind steps.  */
void br__answer_put_equals (br__answer *a);
/* 1 23/16 becomes 39/16, and 4' 15" 63".  */
void br__answer_carry (br__answer *a);
/* Drops what the pupil took back: struck through, or followed by "no", "oops", "I mean" and another number.  */
void br__answer_drop_old (br__answer *a);
/* Drops "because", or "rounded to 1/16", and what comes behind it.  */
void br__answer_drop_reason (br__answer *a);

#endif
