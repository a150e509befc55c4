/* SPDX-License-Identifier: GPL-3.0-or-later
   grade.c - tests of marking: each known mistake, and whatever a spreadsheet may hand
   over.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#include "table/rows.h"
#include "lesson/verdict.h"
#include "lesson/worksheet.h"

static void
put_text (const char *name, const char *text)
{
  lesson_put (name, text, strlen (text));
}

/* Every wrong answer of a key, handed in, is found to be what the key says; every right one, right.  */
static void
test_each_mistake (void **state)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  br__rows key = BR__ROWS_ZERO;
  char seen[BR__MISTAKES] = { 0 };
  (void) state;
  check_ok (br_sheet_new (&sheet));
  sheet_say (sheet, &s, "worksheet reading 4, decimals 4, sums 8, products 4, scale 2, known size 2, fender 4, dividing 2, "
             "stock 4, missing 4 seed 4 versions 3 into a.csv");
  sheet_say (sheet, &s, "key k.csv");
  check_ok (br__rows_read (&key, "k.csv", NULL));
  assert_int_equal (key.count, 3 * 38 + 1);
  size_t answer = br__rows_column (&key, "answer");
  for (int round = 0; round <= BR__MOST_WRONG; round++)
    {
      br_text t = BR_TEXT_ZERO;
      size_t column = answer;
      for (size_t i = 0; round && i < key.rows[0].count; i++)
        if (strncmp (key.rows[0].cells[i], "wrong ", 6) == 0 && atoi (key.rows[0].cells[i] + 6) == round)
          column = i;
      br__text_puts (&t, "student,version\n");
      for (size_t v = 1; v <= 3; v++)
        {
          br__text_printf (&t, "S%zu,%zu", v, v);
          for (size_t i = 0; i < 38; i++)
            {
              br__text_putc (&t, ',');
              br__put_cell (&t, br__row_cell (&key.rows[(v - 1) * 38 + i + 1], column));
            }
          br__text_putc (&t, '\n');
        }
      /* The headings: as many columns as the rows have.  */
      br_text whole = BR_TEXT_ZERO;
      br__text_puts (&whole, "student,version");
      for (int i = 1; i <= 38; i++)
        br__text_printf (&whole, ",p%d", i);
      br__text_puts (&whole, strchr (t.bytes, '\n'));
      lesson_put ("answers.csv", whole.bytes, whole.length);
      sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
      for (size_t v = 0; v < 3; v++)
        for (size_t i = 0; i < 38; i++)
          {
            char path[32];
            const br__row *row = &key.rows[v * 38 + i + 1];
            const char *want = round == 0 ? "right" : br__row_cell (row, column + 1);
            snprintf (path, sizeof path, "verdicts.%zu", i);
            said_is (&s, v, path, *want ? want : "no answer");
            if (round && *want)
              seen[br__mistake_find (want, strlen (want))] = 1;
          }
      br__text_clear (&t);
      br__text_clear (&whole);
    }
  /* The eight that the class is asked about are among them.  */
  for (int m = 0; m <= BR__MISTAKE_ROUNDING; m++)
    if (!seen[m])
      fail_msg ("no problem shows: %s", br__mistake_name ((br__mistake) m));
  br__rows_clear (&key);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* ---- What spreadsheets write ---- */

#define KEY "version,problem,exact,unit,form,mark,wrong 1,shows 1\n" \
  "1,1,19/8,in,fraction,1/16,\"4-3/4\"\"\",scaled the wrong way\n1,2,12,,count,,13,kerf forgotten\n"

/* Grades TEXT (LENGTH bytes) with KEY; the first record's verdicts must be WANTED.  */
static void
grade_bytes (const char *text, size_t length, const char *first, const char *second, const char *student)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  check_ok (br_sheet_new (&sheet));
  put_text ("k.csv", KEY);
  lesson_put ("answers.csv", text, length);
  sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
  said_is (&s, 0, "verdicts.0", first);
  said_is (&s, 0, "verdicts.1", second);
  said_is (&s, 0, "student", student);
  said_clear (&s);
  br_sheet_free (sheet);
}

#define GRADE(text, first, second, student) grade_bytes ((text), sizeof (text) - 1, (first), (second), (student))

static void
test_files (void **state)
{
  (void) state;
  GRADE ("student,version,1,2\nAda,1,\"2-3/8\"\"\",12\n", "right", "right", "Ada");
  GRADE ("Student;Version;1;2\r\nAda;1;\"2-3/8\"\"\";12\r\n", "right", "right", "Ada");
  GRADE ("student;version;1;2\nAda;1;2,375 in;12\n", "other form", "right", "Ada");
  GRADE ("student\tversion\t1\t2\nAda\t1\t 2 3/8 in \t13\n", "right", "kerf forgotten", "Ada");
  GRADE ("\xEF\xBB\xBFstudent,version,1,2\nAda, 1 ,2-3/8\",  \n", "right", "no answer", "Ada");
  GRADE ("2,version,1,name\n12,1,4 3/4,Bo\n", "scaled the wrong way", "right", "Bo");
  GRADE ("student,version,1,2\nAda,1\n", "no answer", "no answer", "Ada");
  GRADE ("student,version,1,2\nAda,version 1,2 3/8 in,12 slats\n", "right", "right", "Ada");
  /* Windows-1252: E with acute is C9, one half is BD.  */
  GRADE ("student,version,1,2\n\xC9va,1,\xBD\",12\n", "wrong", "right", "\xC3\x89va");
  GRADE ("\xFF\xFEn\0a\0m\0e\0,\0v\0e\0r\0s\0i\0o\0n\0,\0" "1\0,\0" "2\0\n\0Z\0o\0\xEB\0,\0" "1\0,\0" "2\0 \0\x5C\x21" "i\0n\0,\0" "1\0" "2\0",
         "right", "right", "Zo\xC3\xAB");
  /* A character past FFFF is two of UTF-16 (RFC 2781, 2.1: U+12345 is D808 DF45).  */
  GRADE ("\xFE\xFF\0n\0a\0m\0e\0,\0v\0e\0r\0s\0i\0o\0n\0,\0" "1\0,\0" "2\0\n\xD8\x08\xDF\x45\0,\0" "1\0,\0" "9\0,\0" "1\0" "2",
         "wrong", "right", "\xF0\x92\x8D\x85");
}

/* Columns headed by a problem's number hold answers; all others are named and left alone.  */
static void
test_columns (void **state)
{
  static const struct { const char *headings, *row, *first, *second, *left; } rows[] =
  {
    { "class,1,2", "8b,2 3/8 in,12", "right", "right", "column left alone: class" },
    { "class 1,problem 1,p2", "7,2 3/8 in,12", "right", "right", "column left alone: class 1" },
    { "p1,2,1,grade 2", "9,12,2 3/8 in,13", "right", "right", "columns left alone: p1, grade 2" },
    { "2.,1.,3,period", "12,2 3/8 in,9,1", "right", "right", "columns left alone: 3, period" },
    { "Question 2,date,Q1", "12,2026,2 3/8 in", "right", "right", "column left alone: date" },
    { "#1,no. 2,remarks", "2 3/8 in,12,-", "right", "right", "column left alone: remarks" },
    { "2,teacher", "12,Mr 1", "no answer", "right", "column left alone: teacher" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = NULL;
      said s = SAID_ZERO;
      char text[200];
      check_ok (br_sheet_new (&sheet));
      put_text ("k.csv", KEY);
      snprintf (text, sizeof text, "student,version,%s\nAda,1,%s\n", rows[i].headings, rows[i].row);
      put_text ("answers.csv", text);
      sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
      said_is (&s, 0, "message", rows[i].left);
      said_is (&s, 1, "verdicts.0", rows[i].first);
      said_is (&s, 1, "verdicts.1", rows[i].second);
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

/* A problem that the first version of a key does not have counts as much as another version says.  */
static void
test_gap (void **state)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  put_text ("k.csv", "version,problem,exact,unit,points\n1,1,1/2,in,2\n2,2,3/4,in,5\n");
  put_text ("answers.csv", "student,version,1,2\nAda,2,,3/4 in\n");
  sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
  said_is (&s, 0, "verdicts.0", "not in this version");
  said_is (&s, 0, "verdicts.1", "right");
  said_is (&s, 0, "marks", "5");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* No papers have no mean.  */
static void
test_no_papers (void **state)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  put_text ("k.csv", KEY);
  put_text ("answers.csv", "student,version,1,2\n");
  sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
  said_is (&s, 0, "kind", "grade_summary");
  said_is (&s, 0, "papers", "0");
  said_is (&s, 0, "mean", "null");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* A cell that a spreadsheet would run is text on the way out, and the same name on the way in.  */
static void
test_injection (void **state)
{
  static const char *const names[] = { "=1+2", "+cmd", "-x", "@sum" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (names); i++)
    {
      char text[100], cell[100];
      br_text t = BR_TEXT_ZERO;
      snprintf (text, sizeof text, "student,version,1,2\n%s,1,=9,12\n", names[i]);
      grade_bytes (text, strlen (text), "wrong", "right", names[i]);
      snprintf (cell, sizeof cell, "\n'%s,1,", names[i]);
      lesson_contains ("marks.csv", cell, 1);
      br__put_cell (&t, names[i]);
      assert_true (t.bytes[0] == '\'');
      snprintf (text, sizeof text, "student,version,1,2\n%s,1,9,12\n", t.bytes);
      grade_bytes (text, strlen (text), "wrong", "right", names[i]);
      br__text_clear (&t);
    }
  br_text t = BR_TEXT_ZERO;
  br__put_cell (&t, "-0.25");
  assert_string_equal (t.bytes, "-0.25");
  br__text_clear (&t);
}

/* Missing and unknown students, unknown versions, points of the teacher's own, the summary.  */
static void
test_class (void **state)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  put_text ("k.csv", KEY);
  put_text ("names.csv", "name\nAda\nBo\nCy\n");
  put_text ("points.csv", "verdict,points\nright,2\nscaled the wrong way,1/2\n");
  put_text ("answers.csv", "student,version,1,2\nAda,1,2-3/8 in,13\nNemo,1,4-3/4,12\nBo,9,1,1\nAda,1,,\n");
  sheet_say (sheet, &s, "grade answers.csv with k.csv names names.csv points points.csv into marks.csv");
  said_is (&s, 0, "marks", "2");
  said_is (&s, 0, "of", "4");
  said_is (&s, 1, "marks", "2.5");
  said_is (&s, 1, "note", "not in the list of names");
  said_is (&s, 2, "note", "the key has no version 9");
  said_is (&s, 3, "note", "another paper of this name, not counted");
  said_is (&s, 4, "kind", "remark");
  said_is (&s, 4, "message", "no paper of Cy");
  said_is (&s, 5, "kind", "grade_summary");
  said_is (&s, 5, "papers", "2");
  said_is (&s, 5, "mean", "2.25");
  said_is (&s, 5, "problems.0.right", "1");
  said_is (&s, 5, "problems.0.known_mistake", "1");
  said_is (&s, 5, "problems.1.known_mistake", "1");
  said_is (&s, 5, "problems.1.no_answer", "0");
  said_is (&s, 5, "mistakes.count", "2");
  lesson_contains ("marks.csv", "student,version,1,answer 1,right 1,2,answer 2,right 2,marks,of,note\nAda,1,right,2-3/8 in,,kerf forgotten,13,,2,4,\n", 1);
  lesson_contains ("marks.csv", "\nCy,,,,,,,,,,no paper\n", 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Names are the same in large and small letters of four alphabets, and with other blanks; a key may leave out a
   problem; a paper with the answers of another version is pointed out.  */
static void
test_papers (void **state)
{
  static const char *const notes[] =
  {
    "", "no name; the key has no version ?", "another paper of this name, not counted; 2 of 2 match version 2",
    "", "another paper of this name, not counted", "", "another paper of this name, not counted",
    "", "another paper of this name, not counted", "no version stands on the paper; 2 of 2 match version 1", "2 of 2 match version 2",
    "the key has no version 9", "", "another paper of this name, not counted",
  };
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  put_text ("k.csv", "version,problem,exact,unit,answer\n1,1,3/8,in,\n1,2,12,,12\n1,3,1/2,in,1 ft\n2,1,1/4,in,\n2,2,7,,\n");
  put_text ("answers.csv", "student,version,1,2,3\n"
            "\xD0\x81lka Ada,1,3/8 in,12,1 ft\n,?,,,\n\xD1\x91lka  ADA ,1,1/4 in,7,\n"
            "\xC5\x81ucja,1,3/8 in,,12 in\n\xC5\x82ucja,1,,,\n\xC5\xBB""ak,1,,,\n\xC5\xBC""ak,1,,,\n"
            "\xC4\x80ris,1,,,\n\xC4\x81r is,1,,,\nNemo,,3/8 in,12,\nBo,1.0,1/4 in,7,\n"
            "Cy,9,,,\nCy,1,3/8 in,,\nCy,1,,,\n");
  sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
  for (size_t i = 0; i < CHECK_COUNT (notes); i++)
    said_is (&s, i, "note", notes[i]);
  /* A paper that answers another version, or an unknown one, is not marked, blank cells neither.  */
  said_is (&s, 10, "verdicts.0", "other version");
  said_is (&s, 10, "verdicts.2", "other version");
  said_is (&s, 10, "of", "0");
  said_is (&s, 11, "verdicts.0", "version unknown");
  said_is (&s, 9, "verdicts.2", "version missing");
  /* The answer that the teacher put into the key is in feet: that is its unit.  */
  said_is (&s, 0, "verdicts.2", "right");
  sheet_say (sheet, &s, "grade answers.csv with k.csv into a.html");
  lesson_contains ("a.html", "<h2>no name</h2>", 1);
  lesson_contains ("a.html", "<p>Not marked yet.</p>", 1);
  assert_int_not_equal (sheet_run (sheet, &s, "grade answers.csv with k.csv into a.doc"), BR_OK);
  assert_string_equal (s.faults[0].error.message, "the name must end in .csv, .html or .pdf");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Weeks in the order of their numbers; what was not marked is not in the history, nor in the average.  */
static void
test_history (void **state)
{
  static const char *const weeks[] = { "w1.csv", "w2.csv", "w10.csv", "w10a.csv" };
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  assert_int_not_equal (sheet_run (sheet, &s, "mark again"), BR_OK);
  assert_string_equal (s.faults[0].error.message, "nothing has been graded yet in this run: there is no `grade` to do again");
  unlink ("marks.csv");
  put_text ("k.csv", "version,problem,topic,exact,unit\n1,1,sums,3/8,in\n1,2,sums,1/2,in\n2,1,sums,1/4,in\n2,2,sums,3/4,in\n");
  for (size_t i = 0; i < 4; i++)
    {
      put_text ("answers.csv", "student,version,1,2\nAda,1,3/8 in,1/2 in\nBo,9,1/4 in,\nCy,1,1/4 in,3/4 in\n");
      sheet_say (sheet, &s, "grade answers.csv with k.csv into %s", weeks[i]);
      said_is (&s, 3, "papers", "1");
      said_is (&s, 3, "mean", "2");
    }
  sheet_say (sheet, &s, "history .");
  assert_int_equal (s.count, 6);
  said_is (&s, 0, "problems", "8");
  said_is (&s, 0, "right", "8");
  said_is (&s, 0, "mistakes", "");
  for (size_t i = 0; i < 4; i++)
    said_is (&s, 1 + i, "file", weeks[i]);
  said_is (&s, 5, "student", "Ada");
  for (size_t i = 0; i < 4; i++)
    unlink (weeks[i]);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* More wrong answers than a slip has room for, and one of the class without a paper.  */
static void
test_slips (void **state)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  sheet_say (sheet, &s, "worksheet sums 9 into a.txt");
  unlink ("k.csv");
  sheet_say (sheet, &s, "key k.csv");
  put_text ("names.csv", "name\nAda\nCy\n");
  put_text ("answers.csv", "student,version,1,2,3,4,5,6,7,8,9\nAda,1,99,7.6 in,99,99,99,99,99,99,99\n");
  sheet_say (sheet, &s, "grade answers.csv with k.csv names names.csv into a.html");
  lesson_contains ("a.html", "<p>and 2 more</p>\n<p>Problem 1 begins: ", 1);
  lesson_contains ("a.html", "2. rounded to 1 place: you wrote 7.6", 1);
  lesson_contains ("a.html", "Cy", 0);
  sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
  assert_int_not_equal (sheet_run (sheet, &s, "history . into a.doc"), BR_OK);
  assert_string_equal (s.faults[0].error.message, "the name must end in .csv, .html or .svg");
  volatile sig_atomic_t flag = 1;
  br_sheet_watch (sheet, &flag);
  assert_int_equal (sheet_run (sheet, &s, "history ."), BR_STOPPED);
  br_sheet_watch (sheet, NULL);
  /* What is wrong in the line that is run again is told at the line at hand.  */
  unlink ("k.csv");
  assert_int_not_equal (sheet_run (sheet, &s, "mark again"), BR_OK);
  assert_int_equal (s.faults[0].error.offset, 0);
  assert_int_equal (s.faults[0].error.length, 10);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Lines of practice have blanks around them; an empty one is none; past the last step a hint is the answer.  */
static void
test_practice (void **state)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  sheet_say (sheet, &s, "practice sums level 2");
  said_is (&s, 0, "kind", "practice_problem");
  sheet_say (sheet, &s, "  ");
  assert_int_equal (s.count, 0);
  for (int i = 0; i < 12; i++)
    sheet_say (sheet, &s, " \t hint \t");
  said_is (&s, 0, "more", "0");
  assert_true (strncmp (said_get (&s, 0, "step"), "the answer is ", 14) == 0);
  sheet_say (sheet, &s, "skip");
  said_is (&s, 0, "kind", "practice_hint");
  said_is (&s, 1, "number", "2");
  sheet_say (sheet, &s, "skip");
  assert_true (strncmp (said_get (&s, 0, "step"), "the answer is ", 14) == 0);
  sheet_say (sheet, &s, " quit ");
  said_is (&s, 0, "kind", "practice_end");
  said_is (&s, 0, "problems", "2");
  /* One that is left counts where something went wrong, and not where nothing was tried.  */
  sheet_say (sheet, &s, "practice sums level 2");
  sheet_say (sheet, &s, "1000 in");
  said_is (&s, 0, "right", "false");
  sheet_say (sheet, &s, "done");
  said_is (&s, 0, "problems", "1");
  said_is (&s, 0, "right", "0");
  sheet_say (sheet, &s, "practice report");
  said_is (&s, 0, "message", "nothing has been practised yet");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Tables of points: with a decimal comma, and wrong ones, told with their line and the nearest verdict.  */
static void
test_points (void **state)
{
  static const struct { const char *table, *says, *hint; } rows[] =
  {
    { "verdict,points\nrigth,1\n", "points.csv:2: `rigth` cannot be read as a verdict", "did you mean `right`?" },
    { "verdict,points\nright,-1\n", "points.csv:2: `-1` cannot be read as points", "" },
    { "verdict,points\n\nright,\n", "points.csv:3: the cell where points should stand is empty", "" },
    { "problem,points\n7,1\n", "points.csv:2: `7` cannot be read as the number of a problem", "" },
    { "right,1\n", "points.csv: the first row must name the columns verdict or problem, and points", "" },
  };
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  put_text ("k.csv", KEY);
  put_text ("answers.csv", "student,version,1,2\nAda,1,2-3/8 in,13\n");
  put_text ("points.csv", "Verdict;Points\nkerf forgotten;0,25\n");
  sheet_say (sheet, &s, "grade answers.csv with k.csv points points.csv into marks.csv");
  said_is (&s, 0, "marks", "1.25");
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      put_text ("points.csv", rows[i].table);
      assert_int_not_equal (sheet_run (sheet, &s, "grade answers.csv with k.csv points points.csv into marks.csv"), BR_OK);
      assert_string_equal (s.faults[0].error.message, rows[i].says);
      assert_string_equal (s.faults[0].error.hint, rows[i].hint);
      assert_int_equal (s.faults[0].error.offset, 36);
      assert_int_equal (s.faults[0].error.length, 10);
    }
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Files that are no keys or answers: a clear error at the file's name, nothing written.  */
static void
test_wrong_files (void **state)
{
  static const struct { const char *key, *answers, *says; size_t offset; } rows[] =
  {
    { "a,b\n1,2\n", "student,version\n", "k.csv is no key", 23 },
    { KEY "1,2,12,,count,,13,x\n", "student,version\n", "k.csv:4: version 1 has problem 2 twice", 23 },
    { "version,problem,exact,unit\n1,1,1/0,in\n", "student,version\n", "k.csv:2: `1/0` cannot be read as an exact answer", 23 },
    { "version,problem,exact,unit\nx,1,1/2,in\n", "student,version\n", "k.csv:2: `x` cannot be read as a version", 23 },
    { "version,problem,exact,unit\n1,0,1/2,in\n", "student,version\n", "k.csv:2: `0` cannot be read as the number of a problem", 23 },
    { "version,problem,exact,unit,answer\n1,1,1/2,in,?\n", "student,version\n", "k.csv:2: `?` cannot be read as an answer", 23 },
    { "version,problem,exact,unit,also\n1,1,1/2,in,?\n", "student,version\n", "k.csv:2: `?` cannot be read as another answer", 23 },
    { "version,problem,exact,unit,wrong 1,shows 1\n1,1,1/2,in,?,one mark off\n", "student,version\n",
      "k.csv:2: `?` cannot be read as a wrong answer", 23 },
    { "version,problem,exact,unit,mark\n1,1,1/2,in,x\n", "student,version\n", "k.csv:2: `x` cannot be read as a mark", 23 },
    { "version,problem,exact,unit\n1,1,1/2,furlong\n", "student,version\n", "k.csv:2: `furlong` cannot be read as a unit", 23 },
    { "version,problem,exact,unit,points\n1,1,1/2,in,x\n", "student,version\n", "k.csv:2: `x` cannot be read as points", 23 },
    { "version,problem,exact,unit\n", "student,version\n", "k.csv holds no problems", 23 },
    { KEY, "who,what\n", "answers.csv: the first row must name the columns student and version", 6 },
    { KEY, "student,version,a,b\nAda,1,2,3\n", "no column is headed by the number of a problem: a, b", 6 },
    { KEY, "student,version\nAda,\"1\n", "answers.csv:2: a quote is not closed", 6 },
    { KEY, "student,version\nA\033[2Jda,1\n", "answers.csv:2: a control character: is this a text file?", 6 },
    { KEY, "PK\003\004\n", "answers.csv:1: a control character: is this a text file?", 6 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = NULL;
      said s = SAID_ZERO;
      check_ok (br_sheet_new (&sheet));
      put_text ("k.csv", rows[i].key);
      put_text ("answers.csv", rows[i].answers);
      unlink ("marks.csv");
      assert_int_not_equal (sheet_run (sheet, &s, "grade answers.csv with k.csv into marks.csv"), BR_OK);
      assert_int_equal (s.fault_count, 1);
      assert_string_equal (s.faults[0].error.message, rows[i].says);
      assert_int_equal (s.faults[0].error.offset, rows[i].offset);
      assert_int_not_equal (access ("marks.csv", F_OK), 0);
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_each_mistake), CHECK_TEST (test_files),
    CHECK_TEST (test_injection), CHECK_TEST (test_columns), CHECK_TEST (test_class), CHECK_TEST (test_points), CHECK_TEST (test_wrong_files),
    CHECK_TEST (test_gap), CHECK_TEST (test_no_papers), CHECK_TEST (test_papers), CHECK_TEST (test_slips), CHECK_TEST (test_history), CHECK_TEST (test_practice)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, lesson_enter, lesson_leave));
}
