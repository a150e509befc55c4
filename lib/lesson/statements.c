/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: worksheets, keys and marks.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/sentences.h"
#include "lesson/worksheet.h"

const br__statement br__lesson_statements[] =
{
  { "problem", "problem TEXT", "a problem of your own for worksheets",
    "The line behind it gives its answer: answer VALUE [to MARK] [as decimal].  A formula in braces,\n"
    "as in `a wheel of {wheel}`, becomes its value.", BR__FOLLOW_TEXT, NULL, 0, 0,
    br__do_problem },
  { "answer", "answer VALUE [to MARK] [as decimal, fraction, mixed or any]", "the answer of the problem above",
    "The form and the unit in which it is written are those that are wanted.", BR__FOLLOW_VALUE,
    "to as decimal fraction mixed any", 0, 0, br__do_answer },
  { "given", "given NAME from LOW to HIGH by STEP", "a size that differs from version to version in your own problems",
    "In the sheet it is LOW.", BR__FOLLOW_NAME, "from to by", 0, 0, br__do_given },
  { "worksheet", "worksheet TOPIC N [level L], ... [ruler 1/16] [seed S] [versions V] [names FILE.csv] into FILE.pdf",
    "practice papers, different from seat to seat",
    "Topics: reading, decimals, sums, products, scale, known size, fender, dividing, stock,\n"
    "missing, and own for your own problems.  Levels are 1 to 4, rulers 1/4 to 1/64, 1 mm and\n"
    "0.5 mm.  A seed always gives the same papers.  FILE ends in .pdf, .txt, .csv or .html; `size large` is large print,\n"
    "`paper a4` the other paper, `duplex` begins each paper on a front side.  `points 2` and `bonus`\n"
    "stand behind a topic; `school`, `class`, `date` and `instruction` take a text for the head.", BR__FOLLOW_WORD,
    "reading decimals sums products scale known size fender dividing stock missing own level ruler seed versions "
    "names size large usual paper letter a4 duplex school class date instruction points bonus into", 0, 0, br__do_worksheet },
  { "words", "words FILE.csv [with english], off, on, english, or into FILE.csv", "your own words for the sentences of papers",
    "`words into FILE.csv` writes a table of all sentences; fill the other column.  `with english`\n"
    "has two languages side by side.  `words off` leaves out what words of the trade mean.", BR__FOLLOW_FILE,
    "with english off on into", 0, 0, br__do_words },
  { "key", "key FILE [short]", "answers, worked steps and usual wrong answers of the worksheet above",
    "`short` is the answers alone, a row for each version.", BR__FOLLOW_FILE, "into short", 0, 0, br__do_key },
  { "grade", "grade ANSWERS.csv with KEY.csv [names FILE.csv] [points FILE.csv] into MARKS.csv",
    "marks papers, and says what went wrong",
    "Columns of answers: student, version, and one for each problem.  The key is one that `key\n"
    "FILE.csv` wrote.  A file of points has the columns verdict, problem and points, or two of them.\n"
    "Into a .pdf or .html it writes a slip for each student.", BR__FOLLOW_FILE, NULL, 0, 0,
    br__do_grade },
  { "mark", "mark again", "grades once more, after the key or the answers were put right", "What changes is named.", BR__FOLLOW_WORD,
    "again", 0, 0, br__do_mark },
  { "history", "history FOLDER [into FILE.csv]", "what a class got wrong over weeks, from the tables of marks in a folder",
    "By topic, week by week and for each student.  A .svg is a picture, a .html has both.", BR__FOLLOW_FILE, "into", 0, 0,
    br__do_history },
  { "practice", "practice [TOPIC] [level N]", "one problem after another, each answer judged at once",
    "The next line is the answer.  `hint` shows the next step, `skip` the answer, `done` ends.  What\n"
    "went wrong comes again sooner.  `practice report` shows how it goes.", BR__FOLLOW_WORD,
    "reading decimals sums products scale known size fender dividing stock missing level report", 0, 0, br__do_practice },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
