/* SPDX-License-Identifier: LGPL-3.0-or-later
   words.h - a line as the words that phrases are made of: phrase.c.  */
#ifndef BR_PHRASE_WORDS_H
#define BR_PHRASE_WORDS_H

#include "formula/functions.h"
#include "sheet/sheet.h"

#define BR__MOST_WORDS 64
#define BR__MOST_MADE 24

/* A line as words.  MADE holds the texts of those that were not typed.  */
typedef struct br__words
{
  const br__run *run;
  struct { const char *s; size_t length; } word[BR__MOST_WORDS];
  size_t count;
  char made[BR__MOST_MADE][24];
  size_t made_count;
  br_text row;              /* holds the words that a row of the table put */
  int changed;
} br__words;

/* Words that deny, as br__words_at reads them.  */
#define BR__DENIALS "not|no|never|cannot|can't|cant|mustn't|shouldn't|won't"

/* The statement whose word is S, or NULL.  */
static inline const br__statement *
br__statement_of (const br__run *run, const char *s, size_t length)
{
  return run->sheet->language->find (s, length);
}

/* Cuts the statement of L->run at its blanks.  */
void br__words_cut (br__words *l);
/* The word I is WORD, in whatever letters.  */
int br__word_at (const br__words *l, size_t i, const char *word);
/* The word I, of LENGTH bytes or more, begins with so many of WORD, which is in small letters.  */
int br__word_starts (const br__words *l, size_t i, const char *word, size_t length);
/* The words from I on are those of PHRASE, which blanks part; a|b is one of the two.  */
int br__words_at (const br__words *l, size_t i, const char *phrase);
/* The length of the word I without those of MARKS that stand at its end.  */
size_t br__word_bare (const br__words *l, size_t i, const char *marks);
/* The sheet knows the word I as a name.  */
int br__word_known (const br__words *l, size_t i);
/* The same, where it is not what the number beside it is said of.  */
int br__word_meant (const br__words *l, size_t i);
/* 1 for a whole number or a fraction in digits, *N / *D, in the word I.  */
int br__word_ratio (const br__words *l, size_t i, int64_t *n, int64_t *d);
/* The digits that S of LENGTH bytes begins with.  */
static inline size_t
br__digits (const char *s, size_t length)
{
  size_t n = 0;
  while (n < length && s[n] >= '0' && s[n] <= '9')
    n++;
  return n;
}
/* Puts the words of TEXT, which the caller keeps, in the place of N words from I on.  */
void br__words_put (br__words *l, size_t i, size_t n, const char *text);
/* The same for a text that is made here.  */
void br__words_make (br__words *l, size_t i, size_t n, const char *format, ...) __attribute__ ((format (printf, 4, 5)));
/* numbers.c: 1 to 99 in words, twenty-three as one word; `a` and `an` are 1; 0: none.  */
int64_t br__cardinal (const br__words *l, size_t i);
/* The denominator that an ordinal says: eighth, eighths, 8ths, 1/8ths, thirty-seconds; 0: none.  *PLURAL may be NULL.  */
int64_t br__ordinal (const br__words *l, size_t i, int *plural);
/* The line is a number with more around it than it says, Ø6.35: T = the number in its line.  */
int br__phrase_cell (br_text *t, br_text *left_out, const br__run *run);
/* Words from I on as many as PHRASE has.  */
size_t br__words_of (const char *phrase);
/* run.c.  TEXT would be taken in the sheet of RUN as it is.  Nothing of it stays, no file is touched, and nothing is said.  */
int br__run_works (const br__run *run, const char *text, size_t length);
/* Words of a rule or a value in a HINT are no names: nothing is compared by them.  */
int br__names_nothing (const br__run *run, const br_text *hint);
/* Digits begin the word I; the word I is a unit.  */
int br__word_begins_number (const br__words *l, size_t i);
int br__word_is_unit (const br__words *l, size_t i);
/* T = the line with signs of other notations as those of the language; 0: there are none.  MORE: those, too, that are refused.  */
int br__respell (br_text *t, const br__run *run, int more);
/* Takes words of questions and assignments away, so that what is asked for is left.  */
void br__phrase_frame (br__words *l);
/* rows.c and orders.c: a row, and what it is; the last of each has no text.  */
typedef struct br__phrase_rule
{
  const char *typed, *is;
} br__phrase_rule;
extern const br__phrase_rule br__phrase_rules[], br__phrase_orders[];
/* index.c.  The words that a row must have, by the letters that each may begin with: the first word's, and those of three more.  Most
   rows are seen off so, long before they are matched.  */
typedef struct br__row_letters
{
  uint32_t first, more[3];
} br__row_letters;

/* The rows of both tables, one behind the other.  */
struct br__phrase_index
{
  size_t orders;                /* the first row of orders.c */
  br__row_letters rows[];
};
/* Made once for each sheet; NULL out of memory: then all rows are matched.  */
const struct br__phrase_index *br__phrase_index (br_sheet *sheet);
/* A word of LENGTH bytes that a row has is a slot, which takes what is typed there.  */
int br__phrase_is_slot (const char *typed, size_t length);
/* Letters as bits, capitals and small ones alike; signs share those.  */
static inline uint32_t br__letter_bit (char c) { return UINT32_C (1) << (c & 31); }
/* Gives RUN's mistake the hint for feet and inches with a comma and no blank between; else 0.  */
int br__phrase_feet_hint (br__run *run, const br__words *l);
/* loose.c.  RUN is refused with both readings where just the last of its list L has a unit, 58.7, 31.3, 40 mm, which may be that of all; 0: it is none.  */
int br__last_has_unit (br__run *run, const br__words *l);
/* loose.c.  How large a square is; 1 where it is not set, so that squares are measures even then.  */
const br_number *br__words_grid (const br__words *l);
/* The word I is a measure, with *UNIT or without.  */
int br__word_measure (const br__words *l, size_t i, const br_unit **unit);
/* Each measure becomes one word, numbers in words digits, and articles and the like go.  */
void br__words_loosen (br__words *l);
/* table.c.  T = the line in the words of the language, where it is a row of the table; else 0.  */
int br__phrase_row (br_text *t, const br__words *l);
/* Gives RUN's mistake the hint of a row that is refused; 0 where there is none.  */
int br__phrase_row_hint (br__run *run, const br__words *l);
/* numbers.c and phrase.c.  Numbers in words as digits, and signs in words as signs.  */
void br__phrase_numbers (br__words *l);
void br__phrase_signs (br__words *l);
/* list.c.  T gets the numbers of an outline, which stand from the fourth word on, as its corners; 0: they are not those of three or more.  */
int br__phrase_corners (br_text *t, const br__words *l);
/* The `and` of a list becomes a comma.  */
void br__phrase_list (br__words *l);
/* 1 and both readings as a hint where its end is two values or one, 2 and 3/8.  */
int br__phrase_list_hint (br__run *run, const br__words *l);
/* COUNT words from START on end in two values or one, 3, 2 and 3/8.  */
int br__words_mixed (const br__words *l, size_t start, size_t count);
/* T = the line with commas between the numbers that stand side by side; 0: none do.  */
int br__phrase_apart (br_text *t, const br__words *l);
/* The function that the words from FROM on name, wheel gap, or NULL; *AFTER = the word behind its name.  */
const br__function *br__phrase_function (const br__words *l, size_t from, size_t *after);
/* T = the call of the function from FROM on, with as many values as it takes, where its name is SPOKEN as several words or,
   if that is 0, written as one.  0: it is none.  */
int br__phrase_call (br_text *t, const br__words *l, size_t from, int spoken);
/* The word I could be the name of a size that is not there yet.  */
int br__word_is_new (const br__words *l, size_t i);
/* 1 where a sum goes on from I on, and where the word I is a part before `of`.  */
int br__sum_follows (const br__words *l, size_t i);
int br__takes_of (const br__words *l, size_t i);

/* names.c.  What the sheet calls by the word I, bits; 0: nothing.  */
enum { BR__THING_SIZE = 1, BR__THING_SHAPE = 2, BR__THING_STOCK = 4, BR__THING_PART = 8 };
int br__word_thing (const br__words *l, size_t i);
/* The same of one or several of it, without the marks behind: wheels is wheel, where there is no wheels.  *LENGTH = of its name.  */
int br__word_called (size_t *length, const br__words *l, size_t i);
/* loose.c.  The size of the sheet that is one slip from the word S, which has four letters or more and is no size; NULL: none is.  */
const char *br__near_size (const br__run *run, const char *s, size_t length);
/* hint.c.  Puts the words FROM up to TO as one name, with underscores for their blanks and hyphens.  */
void br__put_joined (br_text *t, const br__words *l, size_t from, size_t to);
/* sizes.c.  T = a statement for each of several sizes in a line; 0: it has not so many.  */
int br__phrase_sizes (br_text *t, const br__words *l);
/* RUN, in the words L that were made of TYPED, would set a size to a product, where deck: 22 x 11 is more likely a part: it is refused with both.  */
int br__two_sizes (br__run *run, const br__run *typed, const br__words *l);
/* RUN is refused with both readings where the line L could set a size or put it on a mark; 0: it could not.  */
int br__size_or_mark (br__run *run, const br__words *l);
/* The same of one thing, 22 long and 11 wide.  */
int br__phrase_sized (br_text *t, const br__words *l);
/* Puts the size of the shape that the word I is, as it is compared with others; 0: it is none, or more than that.  */
int br__put_size_of (br_text *t, const br__words *l, size_t i);
/* Takes the articles of names away, and puts names of several words as the sheet has them.  */
void br__phrase_names (br__words *l);
/* thing.c.  T = the line as the statement of a shape, a stock or a part; 0: it is none.  */
int br__phrase_thing (br_text *t, const br__words *l);
/* cues.c: what a line is about; the last of each has no HAS.  */
typedef struct br__cue
{
  const char *has, *roles, *is;
} br__cue;
extern const br__cue br__cues[], br__paper_cues[];

#define BR__MOST_VALUES 10
/* A measure, a size, or a ratio 1:4.  */
typedef struct br__valued
{
  size_t at;
  int measured;
  int64_t n, d;                 /* of a fraction or whole number, else 0 */
  int unit;                     /* it has one */
} br__valued;

typedef struct br__about
{
  br__words l;
  br__valued v[BR__MOST_VALUES];
  size_t count, order[BR__MOST_VALUES], named;      /* ORDER begins with the NAMED values that have a role */
  size_t counts;                                    /* the word COUNTS says how many of something */
  int taken[BR__MOST_WORDS];                    /* the hint has the word */
} br__about;

/* slots.c.  The word I alone, without the marks behind it.  */
br__words br__bare_word (const br__words *l, size_t i);
/* The word I is one of WORDS, a|b, up to a blank or a comma, and no size; a- is a word that begins so.  */
int br__word_among (const br__words *l, size_t i, const char *words);
/* The line has a word of each group of HAS, which blanks part.  */
int br__words_among (const br__words *l, const char *has);
/* M->v = the values of M->l.  */
void br__about_values (br__about *m);
/* The first word that says how many: a whole number without a unit, before what is counted or at the end.  */
size_t br__about_count (const br__words *l);
/* Puts the word I of N bytes, with COLON for a colon: 5ft2in as 5 ft 2 in.  */
void br__about_put_word (br_text *t, br__about *m, size_t i, size_t n, char colon);
/* edit.c.  Puts the line that made the shape, the part or the stock NAME; 0 where there is none.  */
int br__about_put_line (br_text *t, const br__words *l, const char *name, size_t length);
/* Puts the line of the shape NAME with the values of the line M: HOW is `A`, at that place, `J`, moved by as much, or `Z`, of that size;
   0: they do not fit it.  */
int br__about_put_again (br_text *t, br__about *m, char how, const char *name, size_t length);
/* Puts the line of the thing NAME with its sizes or its number as the line says: HOW is `Y`, `W`, its first size, or `U`, its second.  */
int br__about_put_edited (br_text *t, br__about *m, char how, const char *name, size_t length);
/* Puts the size that the line asks for of the part NAME: how long it is; 0: it asks for none, or the part has none.  */
int br__put_size_of_part (br_text *t, const br__words *l, const char *name, size_t length);
/* slots.c.  T = the hint from IS up to END; 0 where the line has not all that it takes.  */
int br__about_put (br_text *t, br__about *m, const char *is, const char *end);
/* table.c: the word S ends in one of ENDINGS, a|b, of COUNT bytes, and has more.  */
int br__ends_in (const char *s, size_t length, const char *endings, size_t count);
/* What the names of tables in files end in.  */
#define BR__TABLES ".csv|.txt|.tsv"

#endif
