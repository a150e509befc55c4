/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem.h - problems: their topics, their numbers, their wording, their wrong answers.

   What all versions of a problem share is its plan: kind, scene, denominators and the like, from
   stream (seed, 0, problem), which goes on to give a reference: the first numbers whose difficulty others
   have, too.  A version draws numbers from stream (seed, version, problem) until its difficulty is
   that of the reference.  */
#ifndef BR_LESSON_PROBLEM_H
#define BR_LESSON_PROBLEM_H

#include "exact/text.h"
#include "lesson/mistake.h"
#include "lesson/random.h"
#include "lesson/ratio.h"

#define BR__MOST_GIVEN 8
#define BR__MOST_WRONG 8
#define BR__WRONG_IN_KEY 3
#define BR__GRADES 4
#define BR__PLAN_WORDS 6
#define BR__DANGER_SAW 1u
#define BR__DANGER_GAP 2u

typedef enum br__ask
{
  BR__ASK_MARK,         /* a length on the ruler */
  BR__ASK_LENGTH,       /* an exact length, on the ruler or not */
  BR__ASK_DECIMAL,      /* a length with its sign, as a decimal */
  BR__ASK_COUNT,        /* a whole number with no unit */
  BR__ASK_ONE_FRACTION, /* 19/8, not 2-3/8; of the teacher's own, as the next */
  BR__ASK_ANY           /* any form, in any unit */
} br__ask;

typedef struct br__wrong
{
  br__ratio value;
  br__mistake mistake;
} br__wrong;

/* How hard a problem is: equal in every version.  A denominator of 1 is a whole number; digits are
   those of the whole part.  */
typedef struct br__difficulty
{
  unsigned operations;  /* additions, subtractions, multiplications, divisions, roundings */
  unsigned carry;       /* 0 if nothing is carried or borrowed and no error is below zero */
  unsigned answer_den, answer_digits;
  unsigned den[BR__MOST_GIVEN], digits[BR__MOST_GIVEN];
  unsigned between[2];  /* as in the problem */
  unsigned feet;        /* 1 if the answer is told in feet and inches, or in metres */
} br__difficulty;

typedef struct br__problem
{
  const struct br__topic *topic;        /* NULL: one of the teacher's own */
  const struct br__topic_kind *kind;
  unsigned kind_index;
  unsigned scene;
  size_t own;           /* which of the teacher's own */
  int64_t points;       /* 0: not said */
  int bonus;
  int64_t level;        /* marks in an inch; in a centimetre where METRIC */
  int metric;           /* sizes are in centimetres and told in millimetres */
  int feet;             /* lengths of a foot and more are told in feet and inches; of a metre in metres */
  /* The first COUNT are the numbers of the wording, the rest helps the expression.  */
  br__ratio given[BR__MOST_GIVEN];
  unsigned count, all;
  const char *word;     /* the name of a scale, or NULL */
  br__ratio answer;
  br__wrong wrong[BR__MOST_WRONG];
  unsigned wrong_count;
  unsigned carry;
  unsigned between[2];  /* denominators on the way to the answer, where they differ from version to version */
  int unclear;          /* a wrong answer cannot be told from the right one or from another */
} br__problem;

typedef struct br__plan
{
  const struct br__topic *topic;
  unsigned kind, scene;
  int64_t level;        /* as in the problem */
  int metric, feet;
  int grade;            /* 1 to BR__GRADES: how hard; 0: any */
  uint64_t words[BR__PLAN_WORDS];       /* what a topic takes its shared choices from */
  br__problem reference;
  br__difficulty wanted;
} br__plan;

typedef struct br__topic_kind
{
  /* Whose value is the answer; {0} is a given length, {0l} its number, {0d} that as a decimal, {0n} a given count.  What
     stands before a semicolon is put on the ruler first, and is {1} behind it, in a sum of decimals.  */
  const char *expression;
  unsigned operations;
  br__ask ask;
  int to_mark;                  /* the value goes to the nearest mark */
  int part;                     /* the answer is a part of {0}: nobody takes it for more */
} br__topic_kind;

typedef struct br__topic
{
  const char *name, *summary;
  const br__topic_kind *kinds;
  unsigned kind_count;
  int carries;                  /* its problems may carry or borrow: p->carry says whether one does */
  int picture;                  /* a ruler with an arrow at given[0] */
  unsigned dangers;             /* that its wording may speak of: BR__DANGER_... */
  /* Fills in the numbers; 0 where those drawn do not serve.  */
  int (*draw) (br__problem *p, const br__plan *plan, br__random *r);
} br__topic;

/* The topics in order; NULL past the last.  */
const br__topic *br__topic_at (size_t index);

/* The ruler of a paper: as in the problem.  */
typedef struct br__ruler_of
{
  int64_t level;
  int metric, feet;
} br__ruler_of;

struct br__sentences;

/* The plan of problem INDEX (from 1) of a paper; NTH counts the problems of its topic before it.  GRADE as in the plan.
   0 where the topic has no such problem.  */
int br__plan_make (br__plan *plan, const br__topic *topic, br__ruler_of ruler, int grade, uint64_t seed,
                   uint64_t index, uint64_t nth);
/* wordings.c: how many wordings KIND of TOPIC has, where they begin among all, and one of them.  */
unsigned br__wording_count (const char *topic, unsigned kind);
size_t br__wording_first (const char *topic, unsigned kind);
const char *br__wording (const char *topic, unsigned kind, unsigned index);
/* All that papers say, one after another; NULL past the last.  */
const char *br__wording_at (size_t index);
/* For topics: 1 if the fractions of X and Y make a whole, or that of Y is more than that of X, which is borrowed.  */
unsigned br__carries (br__ratio x, br__ratio y);
unsigned br__borrows (br__ratio x, br__ratio y);
/* A version of problem INDEX.  BEFORE (may be NULL) is the same problem in the version before, and
   the COUNT problems at EARLIER come before it in its paper: it differs from them where it can.  */
void br__problem_make (br__problem *p, const br__plan *plan, uint64_t seed, uint64_t version,
                       uint64_t index, const br__problem *before, const br__problem *earlier,
                       size_t count);
void br__problem_measure (br__difficulty *d, const br__problem *p);
/* For topics: a wrong answer with its mistake.  */
void br__problem_wrong (br__problem *p, br__ratio value, br__mistake mistake);
/* For topics: a denominator from LEAST to MOST, both powers of two (2, 10 and 20 where METRIC), by a word of the plan.  */
int64_t br__plan_den (const br__plan *plan, unsigned word, int64_t least, int64_t most);
/* For topics: LOW .. HIGH inches and an odd number of DENths; whole inches where DEN is 1.  The like in centimetres, five
   for two inches, where METRIC.  */
br__ratio br__draw_length (const br__plan *plan, br__random *r, int64_t low, int64_t high, int64_t den);
/* For topics: from LOW to HIGH inches (or centimetres, as above), a multiple of STEP marks.  */
br__ratio br__draw_marks (const br__plan *plan, br__random *r, int64_t low, int64_t high, int64_t step);
/* For topics: INCHES, or about as much in centimetres.  */
br__ratio br__plan_size (const br__plan *plan, int64_t inches);

/* The wording, and the expression whose value is the answer.  WORDS (may be NULL) are those of another table.  */
void br__problem_tell (br_text *t, const br__problem *p, const struct br__sentences *words);
/* The like for any FORM with braces.  */
void br__problem_fill (br_text *t, const char *form, const br__problem *p, const struct br__sentences *words);
void br__problem_expression (br_text *t, const br__problem *p);
/* VALUE as an answer of P is written, and its inches.  */
void br__problem_answer (br_text *t, const br__problem *p, br__ratio value);
br__ratio br__problem_inches (const br__problem *p, br__ratio value);
/* The number of the length X in P's unit: 2-3/8, 60.5; as a decimal where DECIMAL.  */
void br__put_size (br_text *t, const br__problem *p, br__ratio x, int decimal);
/* The length X with its unit, as the wording says it.  */
void br__problem_put_length (br_text *t, const br__problem *p, br__ratio x);
/* 1 where the wording says in which unit the answer is wanted.  */
int br__problem_names_unit (const br__problem *p);
/* 1 where the length X is told in feet and inches, or in metres and millimetres.  */
int br__problem_in_feet (const br__problem *p, br__ratio x);
void br__put_ratio (br_text *t, br__ratio x);
void br__put_ratio_decimal (br_text *t, br__ratio x);

extern const br__topic br__topic_reading, br__topic_decimals, br__topic_sums, br__topic_products,
  br__topic_scale, br__topic_known_size, br__topic_fender, br__topic_dividing, br__topic_stock,
  br__topic_missing;

#endif
