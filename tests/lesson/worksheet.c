/* SPDX-License-Identifier: GPL-3.0-or-later
   worksheet.c - tests of the statements `worksheet`, `key`, `problem` and `answer`: what they write, what
   they refuse, and that a seed is a paper for ever.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#include "lesson/problem.h"
#include "table/rows.h"

#define ALL "reading 2, decimals 2, sums 2, products 4, scale 2, known size 2, fender 4, dividing 1, stock 2, missing 2"

/* FNV-1a, 64 bits (Fowler, Noll and Vo).  */
static uint64_t
hash_of (const char *name)
{
  char *bytes = lesson_get (name);
  uint64_t h = UINT64_C (0xcbf29ce484222325);
  for (const char *s = bytes; *s; s++)
    h = (h ^ (unsigned char) *s) * UINT64_C (0x100000001b3);
  free (bytes);
  return h;
}

static br_sheet *
new_sheet (void)
{
  br_sheet *sheet = NULL;
  check_ok (br_sheet_new (&sheet));
  return sheet;
}

/* What a seed gives today it gives for ever: whoever changes a number of these changes the papers in
   teachers' folders.  */
static void
test_for_ever (void **state)
{
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "worksheet " ALL " ruler 1/16 seed 42 versions 5 into a.csv");
  said_is (&s, 0, "kind", "worksheet");
  said_is (&s, 0, "file", "a.csv");
  said_is (&s, 0, "versions", "5");
  said_is (&s, 0, "problems", "23");
  said_is (&s, 0, "seed", "42");
  lesson_contains ("a.csv", ",1,5,sums,\"The lower shelf of the plant stand is 12-3/16\"\" from the floor, and the upper one is 4-1/2\"\" above it. "
                   "How high up is the upper shelf?\",\n", 1);
  assert_true (hash_of ("a.csv") == UINT64_C (0xd6289c0a394b144e));
  said_clear (&s);
  br_sheet_free (sheet);
}

/* The same seed, the same bytes, in a sheet of other settings too, but for its ruler and its units; another seed or version, others.  */
static void
test_seed (void **state)
{
  static const char *const forms[] = { "txt", "csv", "html" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (forms); i++)
    {
      uint64_t hashes[4];
      for (int k = 0; k < 3; k++)
        {
          br_sheet *sheet = new_sheet ();
          said s = SAID_ZERO;
          char name[16], key[16];
          snprintf (name, sizeof name, "a.%s", forms[i]);
          snprintf (key, sizeof key, "k.%s", forms[i]);
          if (k == 1)
            sheet_say (sheet, &s, "ties even\nfeet on\nscale 1:4\nkerf 1/8");
          sheet_say (sheet, &s, "worksheet " ALL " versions 2 seed %d into %s", k == 2 ? 8 : 7, name);
          sheet_say (sheet, &s, "key %s", key);
          said_is (&s, 0, "kind", "key");
          said_is (&s, 0, "file", key);
          if (k == 1)
            {
              assert_true (hash_of (name) == hashes[0]);
              assert_true (hash_of (key) == hashes[1]);
            }
          hashes[k == 2 ? 2 : 0] = hash_of (name);
          hashes[k == 2 ? 3 : 1] = hash_of (key);
          said_clear (&s);
          br_sheet_free (sheet);
        }
      assert_true (hashes[0] != hashes[2] && hashes[1] != hashes[3]);
    }
}

/* A paper for each name, at its top; names are harmless in every form.  */
static void
test_names (void **state)
{
  static const char names[] = "student\nAda <b>\n=1+2\n";
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  lesson_put ("names.csv", names, sizeof names - 1);
  sheet_say (sheet, &s, "worksheet sums 2 names names.csv into a.csv");
  said_is (&s, 0, "versions", "2");
  said_is (&s, 0, "papers", "2");
  lesson_contains ("a.csv", "\nAda <b>,1,1,sums,", 1);
  lesson_contains ("a.csv", "\n'=1+2,2,1,sums,", 1);
  sheet_say (sheet, &s, "worksheet sums 2 names names.csv versions 1 into my paper.txt");
  said_is (&s, 0, "papers", "2");
  lesson_contains ("my paper.txt", "Version 1, seed 1\nName: =1+2\n", 1);
  sheet_say (sheet, &s, "worksheet sums 2 names \"names.csv\" into \"a.html\"");
  lesson_contains ("a.html", "Name: Ada &lt;b&gt;</div>", 1);
  lesson_contains ("a.html", "<b>", 0);
  /* A row without a name is no student, and no names at all are a mistake.  */
  lesson_put ("names.csv", "student,class\nBo,7\n,7\nCy,7\n", strlen ("student,class\nBo,7\n,7\nCy,7\n"));
  sheet_say (sheet, &s, "worksheet sums 2 names names.csv into b.csv");
  said_is (&s, 0, "papers", "2");
  lesson_contains ("b.csv", "\nCy,2,1,sums,", 1);
  lesson_put ("names.csv", "student,class\n,7\n", strlen ("student,class\n,7\n"));
  assert_int_equal (sheet_run (sheet, &s, "worksheet sums 2 names names.csv into b.csv"), BR_DOMAIN);
  assert_string_equal (s.faults[0].error.message, "names.csv holds no names");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Neither the list of names nor the papers are lost to a slip.  */
static void
test_over (void **state)
{
  static const char names[] = "First name,Student name\nx,Ada\n";
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  lesson_put ("names.csv", names, sizeof names - 1);
  assert_int_not_equal (sheet_run (sheet, &s, "worksheet sums 1 names names.csv into names.csv"), BR_OK);
  assert_string_equal (s.faults[0].error.message, "this would write over the list of names");
  assert_int_equal (s.faults[0].error.offset, 38);
  lesson_contains ("names.csv", "First name", 1);
  sheet_say (sheet, &s, "worksheet sums 1 names names.csv into a.csv");
  said_is (&s, 0, "papers", "1");
  assert_int_not_equal (sheet_run (sheet, &s, "key a.csv"), BR_OK);
  assert_string_equal (s.faults[0].error.message, "this would write over the worksheet");
  lesson_contains ("a.csv", "name,version,problem", 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* The teacher's own problems, with the numbers of the sheet.  */
static void
test_own (void **state)
{
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "wheel = 3-1/2 in");
  sheet_say (sheet, &s, "problem The cart's wheel is 3-1/2\" across; what is half of it?");
  said_is (&s, 0, "text", "The cart's wheel is 3-1/2\" across; what is half of it?");
  sheet_say (sheet, &s, "answer wheel / 2");
  said_is (&s, 0, "exact", "7/4");
  said_is (&s, 0, "shown", "1-3/4\"");
  sheet_say (sheet, &s, "problem How far around is the wheel?\nanswer circumference(wheel) to 1/16");
  sheet_say (sheet, &s, "worksheet sums 1, own 2 versions 2 into a.txt");
  lesson_contains ("a.txt", " 2. The cart's wheel is 3-1/2\" across; what is half of it?\n", 1);
  lesson_contains ("a.txt", " 3. How far around is the wheel?\n", 1);
  sheet_say (sheet, &s, "key k.txt");
  lesson_contains ("k.txt", "Answer: 1-3/4\"\n      wheel \xC3\xB7 2 = 3-1/2\" \xC3\xB7 2\n", 1);
  /* Pi times 3-1/2 is 10.9955...; 11 is the nearest sixteenth.  */
  lesson_contains ("k.txt", "Answer: 11\"\n", 1);
  /* Undo takes a problem away as it takes any line.  */
  sheet_say (sheet, &s, "undo\nundo");
  assert_int_not_equal (sheet_run (sheet, &s, "worksheet own 2 into a.txt"), BR_OK);
  sheet_say (sheet, &s, "worksheet own 1 into a.txt");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* An answer may name what comes later in the sheet, as any formula may.  */
static void
test_own_waits (void **state)
{
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "problem What is left of the rail?\nanswer rail - axle - rail / 4 to 1/8");
  said_is (&s, 1, "kind", "answer");
  said_is (&s, 1, "exact", "null");
  said_is (&s, 1, "waiting.count", "2");
  said_is (&s, 1, "waiting.0", "rail");
  said_is (&s, 1, "waiting.1", "axle");
  sheet_say (sheet, &s, "rail = 12");
  assert_int_equal (sheet_run (sheet, &s, "worksheet own 1 into a.txt"), BR_DOMAIN);
  assert_int_equal (sheet_run (sheet, &s, "answer rail"), BR_SYNTAX);
  sheet_say (sheet, &s, "axle = 1/4\nworksheet own 1 into a.txt\nkey k.txt");
  lesson_contains ("k.txt", "Answer: 8-3/4\n", 1);
  sheet_end (sheet, &s);
}

/* One row of answers of a key, judged with that key.  */
static void
own_is (const char *answer, const char *given, const char *verdict)
{
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  char row[100];
  sheet_say (sheet, &s, "wheel = 3-1/2 in\nscale 1:4\nproblem x\nanswer %s", answer);
  sheet_say (sheet, &s, "worksheet own 1 into a.txt\nkey k.csv");
  snprintf (row, sizeof row, "student,version,1\nAda,1,%s\n", given);
  lesson_put ("answers.csv", row, strlen (row));
  sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
  said_is (&s, 0, "verdicts.0", verdict);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* An own answer is wanted in the form and the unit in which it was written, or which `as` says.  */
static void
test_own_forms (void **state)
{
  (void) state;
  own_is ("0.375", "0.375", "right");
  own_is ("0.375", "3/8", "other form");
  own_is ("0.375", "\xE2\x85\x9C", "other form");
  own_is ("3/8 as decimal", ".375", "right");
  own_is ("2.5 in", "2.5 in", "right");
  own_is ("2.5 in", "2-1/2 in", "other form");
  own_is ("2-3/8 as fraction", "19/8", "right");
  own_is ("2-3/8 as fraction", "2-3/8", "other form");
  own_is ("3/8 in as fraction", "3/8 in", "right");
  own_is ("2-3/8 as fraction", "38/16", "not in lowest terms");
  own_is ("2-3/8", "19/8", "other form");
  own_is ("2.375 as mixed", "2-3/8", "right");
  own_is ("2-3/8 in as any", "2.375 in", "right");
  own_is ("2-3/8 in as any", "19/8 in", "right");
  own_is ("60.3 mm", "60.3 mm", "right");
  own_is ("60.3 mm", "60.3", "unit missing");
  own_is ("60.3 mm", "6.03 cm", "other form");
  own_is ("60.3 mm", "60.0 mm", "wrong");
  own_is ("1/3 to 0.01 as decimal", "0.33", "right");
}

/* `given` draws a size for each version: the words, the key and its steps follow, and the sheet stays as it was.  */
static void
test_given (void **state)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  br__rows key = BR__ROWS_ZERO;
  size_t differ = 0;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  sheet_say (sheet, &s, "given w from 2 in to 4 in by 1/4 in\nproblem A wheel of {w}, and {w / 2} to its middle: {no}\nanswer w + 1/2 in");
  sheet_say (sheet, &s, "worksheet own 1 seed 3 versions 20 into a.csv\nkey k.csv");
  check_ok (br__rows_read (&key, "k.csv", NULL));
  assert_int_equal (key.count, 21);
  size_t text = br__rows_column (&key, "text"), answer = br__rows_column (&key, "answer");
  for (size_t v = 1; v <= 20; v++)
    {
      const char *words = br__row_cell (&key.rows[v], text) + strlen ("A wheel of "), *given = br__row_cell (&key.rows[v], answer);
      br_measure m = BR_MEASURE_ZERO, n = BR_MEASURE_ZERO;
      br_number half = BR_NUMBER_ZERO;
      check_set (&half, "1/2");
      check_ok (br_measure_read (&m, words, strcspn (words, ","), NULL, NULL));
      check_ok (br_measure_read (&n, given, strlen (given), NULL, NULL));
      check_ok (br_number_add (&m.value, &m.value, &half));
      assert_true (br_number_equal (&m.value, &n.value));
      assert_non_null (strstr (words, "{no}"));
      differ += v > 1 && strcmp (given, br__row_cell (&key.rows[v - 1], answer)) != 0;
      br_measure_clear (&m);
      br_measure_clear (&n);
      br_number_clear (&half);
    }
  assert_int_equal (differ, 19);
  sheet_say (sheet, &s, "list");
  said_is (&s, 0, "exact", "2");
  br__rows_clear (&key);
  /* The first size has an answer that is a fraction; of the others one in 9,998 has.  */
  sheet_say (sheet, &s, "given side from 1 to 9999 by 1\nproblem The root?\nanswer side ^ (1/11)");
  assert_int_equal (sheet_run (sheet, &s, "worksheet own 2 versions 3 ruler 1/8 into a.csv"), BR_DOMAIN);
  assert_string_equal (s.faults[0].error.message, "with the sizes that `given` draws, own problems have no answer");
  assert_string_equal (s.faults[0].error.hint, "an answer that is no fraction needs `to 1/16`");
  assert_int_equal (sheet_run (sheet, &s, "problem The scale?\nanswer 1:48"), BR_SYNTAX);
  assert_string_equal (s.faults[0].error.hint, "write the ratio as a fraction, `answer 1/48`; pupils may answer `1:48`");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Own answers of every kind can be marked, with the mistakes that their formulas call for.  */
static void
test_own_marks (void **state)
{
  (void) state;
  own_is ("3 in * 4-1/2 in", "13-1/2 sq in", "right");
  own_is ("3 in * 4-1/2 in", "13-1/2", "unit missing");
  own_is ("3 in * 4-1/2 in", "13-1/2 in", "wrong unit");
  own_is ("2 in * 3 in * 4 in", "24 cu in", "right");
  own_is ("atan 1", "45 deg", "right");
  own_is ("wheel / 2 to 1 mm", "44 mm", "right");
  own_is ("wheel / 2 to 1 mm", "45 mm", "one mark off");
  own_is ("wheel / 2", "7 in", "other operation");
  own_is ("wheel - 1/2 in", "4 in", "other operation");
  own_is ("radius(wheel)", "3-1/2 in", "diameter for radius");
  own_is ("circumference(wheel) to 1/16", "22 in", "diameter for radius");
  own_is ("circumference(wheel) to 1/16", "11-1/16 in", "one mark off");
  own_is ("full(wheel)", "7/8 in", "scaled the wrong way");
  own_is ("drawn(wheel)", "14 in", "scaled the wrong way");
  own_is ("3/7", "6/7", "sides miscounted");
  own_is ("8", "7", "whole number off by one");
  own_is ("1 - 3", "2", "sign missing");
}

/* No answer of the key's is that of a rounding that nobody asked for, and none is a mark off a count.  */
static void
test_own_key (void **state)
{
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "problem A share?\nanswer 1/7 + 2/7\nproblem How many?\nanswer 5 + 3");
  sheet_say (sheet, &s, "worksheet own 2 into a.txt\nkey k.txt");
  lesson_contains ("k.txt", "    Answer: 3/7\n      1/7 + 2/7 = 3/7\n    Usual", 1);
  lesson_contains ("k.txt", "7/16", 0);
  lesson_contains ("k.txt", "      2: other operation; ", 1);
  lesson_contains ("k.txt", "one mark off", 0);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* The seed stands on paper and key, cautions where a problem speaks of what can hurt, the picture in
   words where it cannot be seen.  */
static void
test_head (void **state)
{
  static const char *const forms[] = { "txt", "html" };
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (forms); i++)
    {
      char name[16], key[16];
      snprintf (name, sizeof name, "a.%s", forms[i]);
      snprintf (key, sizeof key, "k.%s", forms[i]);
      sheet_say (sheet, &s, "worksheet dividing 1 seed 77 into %s\nkey %s", name, key);
      lesson_contains (name, "seed 77", 1);
      lesson_contains (key, "seed 77", 1);
      lesson_contains (name, "fingers away from the blade", 1);
      lesson_contains (name, "pinches a finger", 0);
      sheet_say (sheet, &s, "worksheet fender 1 into %s", name);
      lesson_contains (name, "fingers away from the blade", 0);
      lesson_contains (name, "pinches a finger", 1);
      sheet_say (sheet, &s, "worksheet reading 1, scale 1 into %s", name);
      lesson_contains (name, "not for building", 0);
    }
  lesson_contains ("a.html", "aria-label=\"a ruler with 16 marks to the inch; the arrow is ", 1);
  lesson_contains ("a.html", "This line is 2 in long.", 1);
  sheet_say (sheet, &s, "worksheet reading 1 ruler 1/8 into a.csv");
  lesson_contains ("a.csv", ",a ruler with 8 marks to the inch; the arrow is ", 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Exercises of textbooks as own problems: `answer` gives what is printed there.  */
static void
test_textbook (void **state)
{
  check_data data;
  int count = 0;
  (void) state;
  check_open (&data, "textbook.txt", '|');
  while (check_next (&data))
    {
      br_sheet *sheet = new_sheet ();
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "problem from a textbook");
      sheet_say (sheet, &s, "answer %s", data.field[0]);
      if (strcmp (said_get (&s, 0, "exact"), data.field[1]) != 0)
        fail_msg ("%s:%ld: %s", data.name, data.line, said_get (&s, 0, "exact"));
      sheet_say (sheet, &s, "worksheet own 1 into a.txt\nkey k.csv");
      said_clear (&s);
      br_sheet_free (sheet);
      count++;
    }
  assert_true (count >= 14);
}

/* Each wrong line: where, what, and no file.  */
#define TOPICS "reading, decimals, sums, products, scale, known size, fender, dividing, stock, missing, own"

static void
test_wrong_lines (void **state)
{
  static const struct { const char *line, *says; size_t offset; } rows[] =
  {
    { "worksheet", "the line ends where the name of a topic should stand", 9 },
    { "worksheet sumz 3 into a.txt", "`sumz` is no topic of worksheets: " TOPICS, 10 },
    { "worksheet known 3 into a.txt", "`known` is no topic of worksheets: " TOPICS, 10 },
    { "worksheet sums into a.txt", "the count of problems should stand here", 15 },
    { "worksheet sums 0 into a.txt", "the count of problems is a whole number from 1 to 100", 15 },
    { "worksheet sums 60, scale 41 into a.txt", "more than 100 problems on a paper", 19 },
    { "worksheet sums 2 ruler 1/10 into a.txt", "the rulers of worksheets are 1/4, 1/8, 1/16, 1/32 and 1/64 in, 1 mm and 0.5 mm", 23 },
    { "worksheet sums 2 seed 1/2 into a.txt", "a seed is a whole number from 0 to 999999999999999999", 22 },
    { "worksheet sums 2 seed -1 into a.txt", "a seed should stand here", 22 },
    { "worksheet sums 2 versions 10001 into a.txt", "the count of versions is a whole number from 1 to 10000", 26 },
    { "worksheet sums 100 versions 241 into a.txt", "more than 24000 problems in all versions together", 0 },
    { "worksheet sums 2 seed 4", "the line ends where `into FILE.pdf` should stand", 23 },
    { "worksheet sums 2 colour red into a.txt",
      "one of `ruler`, `seed`, `versions`, `names`, `size`, `paper`, `duplex`, `school`, `class`, `date`, `instruction` and `into FILE` should stand here", 17 },
    { "worksheet sums 2 size huge into a.txt", "`large` or `usual` should stand here", 22 },
    { "worksheet sums 2 names none.csv into a.txt", "cannot read `none.csv`: there is no such file or folder", 23 },
    { "worksheet sums 2 into a.doc", "the name must end in .pdf, .txt, .csv or .html", 22 },
    { "worksheet sums 2 into a.pdf", "this program cannot draw pages", 22 },
    { "worksheet sums 2 into none/a.txt", "cannot write `none/a.txt`: there is no such file or folder", 22 },
    { "worksheet sums 2 size large points 2 into a.txt", "`points` is said of a topic, and stands behind its count", 28 },
    { "worksheet sums 2 versions 2 bonus into a.txt", "`bonus` is said of a topic, and stands behind its count", 28 },
    { "worksheet sums 2 school Oak Lane points 2 into a.txt", "`points` is said of a topic, and stands behind its count", 33 },
    { "worksheet sums 2 class level 2 into a.txt", "`level` is said of a topic, and stands behind its count", 23 },
    { "worksheet sums 2 school Oak Lane bonus into a.txt", "`bonus` is said of a topic, and stands behind its count", 33 },
    { "worksheet sums 2 school Oak Lane, known size 2 into a.txt",
      "one of `ruler`, `seed`, `versions`, `names`, `size`, `paper`, `duplex`, `school`, `class`, `date`, `instruction` and `into FILE` should stand here", 34 },
    { "worksheet 2 sums into a.txt", "the name of a topic should stand here", 10 },
    { "worksheet sums 2 seed 3 seed 4 into a.txt", "`seed` stands here twice", 24 },
    { "worksheet sums 2 names into a.txt", "the name of a file should stand here", 23 },
    { "worksheet sums 2 into a.txt ruler 1/8", "the name must end in .pdf, .txt, .csv or .html", 22 },
    { "worksheet sums 2 size \xff", "byte 0xff is not part of any text (the line is not UTF-8)", 22 },
    { "worksheet sums 2 seed \xff", "byte 0xff is not part of any text (the line is not UTF-8)", 22 },
    { "grade a.csv with k.csv with k.csv", "one of `with`, `names`, `points` and `into` should stand here", 23 },
    { "worksheet own 1 into a.txt", "own problems asked for: 1; with an answer in the sheet: 0", 0 },
    { "key k.txt", "there is no worksheet yet", 0 },
    { "grade a.csv with k.csv into a.csv", "this would write over the answers", 28 },
    { "grade a.csv with k.csv into k.csv", "this would write over the key", 28 },
    { "problem", "the line ends where the problem's text should stand", 7 },
    { "answer 2", "there is no problem that waits for an answer", 0 },
    { "grade a.csv into b.csv", "the line ends where `with KEY.csv` should stand", 22 },
    { "grade a.csv with k.csv", "the line ends where `into MARKS.csv` should stand", 22 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = new_sheet ();
      said s = SAID_ZERO;
      unlink ("a.txt");
      assert_int_not_equal (sheet_run (sheet, &s, rows[i].line), BR_OK);
      assert_int_equal (s.fault_count, 1);
      if (strcmp (s.faults[0].error.message, rows[i].says) != 0 || s.faults[0].error.offset != rows[i].offset)
        fail_msg ("%s: %zu: %s", rows[i].line, s.faults[0].error.offset, s.faults[0].error.message);
      assert_int_not_equal (access ("a.txt", F_OK), 0);
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

/* An answer of no fraction needs a mark, and an unknown function is told of at its place.  */
static void
test_wrong_answers (void **state)
{
  char line[900] = "problem ";
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  memset (line + 8, 'x', 801);
  assert_int_equal (sheet_run (sheet, &s, line), BR_TOO_BIG);
  assert_string_equal (s.faults[0].error.message, "a problem of more than 800 bytes");
  sheet_say (sheet, &s, "problem x");
  assert_int_not_equal (sheet_run (sheet, &s, "answer sqrt 2"), BR_OK);
  assert_string_equal (s.faults[0].error.message, "an answer that is no fraction needs a mark");
  assert_int_not_equal (sheet_run (sheet, &s, "answer 2 * whel(2)"), BR_OK);
  assert_int_equal (s.faults[0].error.offset, 11);
  sheet_say (sheet, &s, "answer sqrt 2 to 1/16");
  said_is (&s, 0, "exact", "23/16");
  said_clear (&s);
  br_sheet_free (sheet);
}

static void
count_progress (void *user, const char *what, int percent)
{
  assert_true (*what && percent >= 0 && percent <= 100);
  ++*(int *) user;
}

/* Long work tells how far it is, and ends when it is asked to, with nothing written.  */
static void
test_progress (void **state)
{
  br_sheet *sheet = new_sheet ();
  int calls = 0;
  volatile sig_atomic_t flag = 0;
  br_sink sink = { .user = &calls, .progress = count_progress };
  const char line[] = "worksheet sums 2 versions 300 into a.txt";
  (void) state;
  check_ok (br_sheet_run (sheet, line, strlen (line), "test", 1, &sink));
  assert_in_range (calls, 100, 500);
  unlink ("a.txt");
  br_sheet_watch (sheet, &flag);
  flag = 1;
  assert_int_equal (br_sheet_run (sheet, line, strlen (line), "test", 1, &sink), BR_STOPPED);
  assert_int_not_equal (access ("a.txt", F_OK), 0);
  br_sheet_free (sheet);
}

/* Every allocation may fail: the line is refused and nothing is lost.  */
static void
test_memory (void **state)
{
  static const char *const lines[] =
  { "worksheet sums 1, own 1 names names.csv into a.txt", "key k.csv", "grade answers.csv with k.csv into marks.csv" };
  static const char names[] = "name\nAda\n", answers[] = "student,version,1\nAda,1,2\n";
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  lesson_put ("names.csv", names, sizeof names - 1);
  lesson_put ("answers.csv", answers, sizeof answers - 1);
  sheet_say (sheet, &s, "problem x\nanswer 2-3/8 in\nworksheet sums 1 into a.txt\nkey k.csv");
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    for (long nth = 0;; nth++)
      {
        br_status status;
        check_memory_limit (nth);
        status = br_sheet_run (sheet, lines[i], strlen (lines[i]), "test", 1, NULL);
        int refused = check_memory_refused;
        check_memory_free ();
        if (!refused)
          {
            assert_int_equal (status, BR_OK);
            break;
          }
        if (status != BR_NO_MEMORY)
          fail_msg ("%s, refusal %ld: %s", lines[i], nth, br_status_name (status));
      }
  said_clear (&s);
  br_sheet_free (sheet);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_for_ever), CHECK_TEST (test_seed), CHECK_TEST (test_names), CHECK_TEST (test_over), CHECK_TEST (test_own), CHECK_TEST (test_own_waits),
    CHECK_TEST (test_own_marks), CHECK_TEST (test_own_forms), CHECK_TEST (test_given), CHECK_TEST (test_own_key), CHECK_TEST (test_head),
    CHECK_TEST (test_textbook), CHECK_TEST (test_wrong_lines), CHECK_TEST (test_wrong_answers),
    CHECK_TEST (test_progress), CHECK_TEST (test_memory)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, lesson_enter, lesson_leave));
}
