/* SPDX-License-Identifier: LGPL-3.0-or-later
   lexer.h - the tokens of the language.  Offsets count from the start of the line.  */
#ifndef BR_FORMULA_LEXER_H
#define BR_FORMULA_LEXER_H

#include "benchrule.h"

typedef enum br__token_type
{
  BR__END,
  BR__NUMBER,       /* a measure with its unit */
  BR__NAME,
  BR__SIGN,         /* one of + - * / ^ ( ) , : and the comparisons, in SIGN */
  BR__RAISED,       /* a raised whole number, with its raised minus: a power */
  BR__QUOTED        /* "text": only where a file name is wanted */
} br__token_type;

/* Signs of more than one character, and those with several spellings, as one int.  */
#define BR__AT_MOST 0x100       /* <= */
#define BR__AT_LEAST 0x101      /* >= */
#define BR__UNEQUAL 0x102       /* != */
#define BR__PLUS_MINUS 0x103    /* +- */

typedef struct br__token
{
  br__token_type type;
  size_t offset, length;
  int blank_before;     /* blanks stood between this and the token before */
  int sign;
} br__token;

/* TEXT has LENGTH bytes; the first END of them are the statement, the rest is its note.
   TOKEN is the current token, NUMBER its value if it is a measure (boxes count as inches here;
   they are multiplied by the grid when the formula is evaluated).  Copy the struct to save the position.  */
typedef struct br__lexer
{
  const char *text;
  size_t end;
  size_t next;          /* offset behind TOKEN */
  br__token token;
  br_status status;     /* the first failure of reading: nothing is read after it, and TOKEN is no word or sign */
  int commas;           /* a comma between digits parts values: inside the brackets of diagonal(3,5) */
  int power;            /* TOKEN is a ^ or a sign behind one: what follows is an exponent */
  /* Whether a name stands for something in the sheet already, or NULL: nothing does.  Words such as `x` and
     `half` are read as such only where they name nothing.  */
  int (*known) (const void *user, const char *name, size_t length);
  const void *user;
} br__lexer;

/* Begins at the line's start.  */
br_status br__lex_start (br__lexer *l, const char *text, size_t end, br_error *error);
/* Reads the next token.  An error is sticky: after an error here or in a parser that uses this lexer, each later call
   returns it again, so that callers need not check each step.  */
br_status br__lex_next (br__lexer *l, br_error *error);
/* Reports STATUS to L and returns it, or the first error so far, which is kept for all later calls.  It is inline so that
   a static analyser, which sees one file at a time, knows that an error is sticky.  */
static inline br_status
br__lex_fail (br__lexer *l, br_status status)
{
  if (l->status == BR_OK)
    l->status = status;
  return l->status;
}
/* Goes on at offset NEXT, behind something that was read by other means; earlier failures are forgotten.  */
br_status br__lex_from (br__lexer *l, size_t next, br_error *error);
/* Reads the measure of the NUMBER token at hand.  */
br_status br__lex_number (br_measure *m, const br__lexer *l, br_error *error);

/* Another token is at hand, and nothing has failed.  */
static inline int
br__lex_more (const br__lexer *l)
{
  return l->status == BR_OK && l->token.type != BR__END;
}

int br__lex_is_sign (const br__lexer *l, int sign);
/* 1 if the current token is the name WORD; case is ignored (WORD is in small letters).  */
int br__lex_is_word (const br__lexer *l, const char *word);
int br__same_word (const char *text, size_t length, const char *word);
/* The token at hand is a name that the sheet knows.  */
int br__lex_is_known (const br__lexer *l);
/* Sets a hint that repeats the statement with A instead of the LENGTH bytes at OFFSET, or with B (may be
   NULL).  No hint if it would be too long.  */
void br__hint_instead (br_error *error, const br__lexer *l, size_t offset, size_t length, const char *a,
                       const char *b);

/* The offset of the note: of the first # that is not inside the quotes around a file name, or
   LENGTH.  */
size_t br__note_start (const char *text, size_t length);
/* Bytes of the blank at TEXT (ASCII or Unicode), or 0.  */
size_t br__blank_at (const char *text, size_t length);
/* Bytes of the letter at TEXT that a name may hold: 0 if none.  DIGITS: digits, too.  */
size_t br__letter_at (const char *text, size_t length, int digits);
/* The error for bytes at OFFSET that are no text of the language.  */
br_status br__stray (const char *text, size_t end, size_t offset, br_error *error);

#endif
