/* SPDX-License-Identifier: GPL-3.0-or-later
   papers.c - tests of papers: levels, units, the head, points, and the teacher's own words.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#include "lesson/problem.h"
#include "lesson/write.h"
#include "table/rows.h"

#define ALL "reading 2, decimals 2, sums 2, products 4, scale 2, known size 2, fender 4, dividing 1, stock 2, missing 2"

static br_sheet *
new_sheet (void)
{
  br_sheet *sheet = NULL;
  check_ok (br_sheet_new (&sheet));
  return sheet;
}

/* The size that TEXT begins with, in inches: 1' 2-3/8".  */
static br__ratio
size_at (const char *text)
{
  br_measure m = BR_MEASURE_ZERO;
  size_t used = 0;
  int64_t n = 0, d = 1;
  check_ok (br_measure_scan (&m, &used, text, strlen (text), NULL, NULL));
  assert_true (br_number_get_ratio (&n, &d, &m.value));
  br_measure_clear (&m);
  return br__ratio_of (n, d);
}

/* 1 if WORDS are those of an addition.  */
static int
adds (const char *words)
{
  for (unsigned i = 0; i < br__wording_count ("sums", 0); i++)
    if (strstr (words, strrchr (br__wording ("sums", 0, i), '}') + 1))
      return 1;
  return 0;
}

/* A level is what the manual says, taken from the words of the problems: like denominators, unlike ones, something
   carried or borrowed, feet.  */
static void
test_levels (void **state)
{
  (void) state;
  for (int level = 1; level <= 4; level++)
    for (int ruler = 4; ruler <= 64; ruler *= 2)
      {
        br_sheet *sheet = new_sheet ();
        said s = SAID_ZERO;
        br__rows paper = BR__ROWS_ZERO;
        sheet_say (sheet, &s, "worksheet sums 6 level %d ruler 1/%d, scale 1 seed %d versions 4 into a.csv", level, ruler, level * ruler);
        check_ok (br__rows_read (&paper, "a.csv", NULL));
        size_t text = br__rows_column (&paper, "text"), topic = br__rows_column (&paper, "topic");
        for (size_t i = 1; i < paper.count; i++)
          {
            br__ratio sizes[2];
            size_t n = 0;
            const char *words = br__row_cell (&paper.rows[i], text);
            if (strcmp (br__row_cell (&paper.rows[i], topic), "sums") != 0)
              continue;
            int feet = 0, add = adds (words);
            for (const char *at = words; *at; at++)
              if (*at >= '1' && *at <= '9' && n < 2)
                {
                  size_t length = strcspn (at, "\"");
                  sizes[n++] = size_at (at);
                  feet |= memchr (at, '\'', length) != NULL;
                  at += length;
                }
            assert_int_equal (n, 2);
            br__ratio a = sizes[0], b = sizes[1];
            if (!add && br__ratio_cmp (a, b) < 0)
              {
                a = sizes[1];
                b = sizes[0];
              }
            unsigned carry = add ? br__carries (a, b) : br__borrows (a, b);
            int like = br__ratio_part (a).den == br__ratio_part (b).den;
            if (a.den > ruler || b.den > ruler || (feet ? 4 : carry ? 3 : like ? 1 : 2) != level)
              fail_msg ("level %d, ruler 1/%d: %s", level, ruler, words);
          }
        br__rows_clear (&paper);
        said_clear (&s);
        br_sheet_free (sheet);
      }
}

/* What `ruler` says behind the topics, the sheet's ruler and its units say as well.  */
static void
test_units (void **state)
{
  static const struct { const char *before, *behind; } rows[] =
  {
    { "units mm", "" }, { "ruler 1 mm", "" }, { "units in", " ruler 1 mm" }, { "units cm", " ruler 1 mm" }, { "units mm", " ruler 1" }
  };
  char *papers[CHECK_COUNT (rows)];
  (void) state;
  for (size_t k = 0; k < CHECK_COUNT (rows); k++)
    {
      br_sheet *sheet = new_sheet ();
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "%s", rows[k].before);
      sheet_say (sheet, &s, "worksheet " ALL "%s seed 7 into a.csv", rows[k].behind);
      papers[k] = lesson_get ("a.csv");
      assert_non_null (strstr (papers[k], " mm"));
      assert_null (strstr (papers[k], "\"\" "));
      assert_string_equal (papers[k], papers[0]);
      said_clear (&s);
      br_sheet_free (sheet);
    }
  for (size_t k = 0; k < CHECK_COUNT (rows); k++)
    free (papers[k]);
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "units ft\nworksheet stock 4, fender 2 ruler 1/32 into a.txt");
  lesson_contains ("a.txt", " of 8'", 1);
  sheet_say (sheet, &s, "units mm\nruler 0.5\nworksheet sums 4 level 4, reading 1 ruler 1/16 in into b.csv");
  lesson_contains ("b.csv", " mm", 0);
  sheet_say (sheet, &s, "worksheet reading 2 ruler 0.5 mm, fender 4, known size 2 ruler 1 mm into a.html");
  lesson_contains ("a.html", "marks to the centimetre", 1);
  sheet_say (sheet, &s, "worksheet reading 2 ruler 1 mm into a.txt");
  lesson_contains ("a.txt", "|     |     |", 1);
  sheet_say (sheet, &s, "worksheet sums 4 level 4 into b.csv");
  lesson_contains ("b.csv", " m ", 1);
  sheet_say (sheet, &s, "worksheet sums 4 level 4, reading 1 ruler 1/16 in, decimals 2 ruler 0.5 mm into a.txt");
  lesson_contains ("a.txt", "0.5 mm", 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* The key of metric papers is read again, and marks what pupils write in millimetres, centimetres and in none.  */
static void
test_metric_marks (void **state)
{
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  br__rows key = BR__ROWS_ZERO;
  br_text answers = BR_TEXT_ZERO;
  (void) state;
  sheet_say (sheet, &s, "units mm\nworksheet sums 3 seed 3 into a.csv\nkey k.csv");
  check_ok (br__rows_read (&key, "k.csv", NULL));
  size_t answer = br__rows_column (&key, "answer");
  br__text_puts (&answers, "student,version,1,2,3\n");
  for (int k = 0; k < 3; k++)
    {
      br__text_printf (&answers, "P%d,1", k);
      for (size_t i = 1; i < 4; i++)
        {
          int n = atoi (br__row_cell (&key.rows[i], answer));
          br__text_printf (&answers, k == 0 ? ",%d mm" : k == 1 ? ",%d" : ",%d.%d cm", k == 2 ? n / 10 : n, n % 10);
        }
      br__text_putc (&answers, '\n');
    }
  lesson_put ("answers.csv", answers.bytes, answers.length);
  sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
  said_is (&s, 0, "marks", "3");
  said_is (&s, 1, "marks", "2.25");
  said_is (&s, 2, "marks", "3");
  br__text_clear (&answers);
  br__rows_clear (&key);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* A text ends before the next clause, and one that holds the word of a clause stands in quotes, which an error says.  */
static void
test_texts (void **state)
{
  static const struct { const char *clauses, *shown, *hint; } rows[] =
  {
    { "school Oak Lane, class 8b", "School: Oak Lane\n", NULL },
    { "school \"Oak Lane points 2\"", "School: Oak Lane points 2\n", NULL },
    { "instruction You get points for steps, and a bonus for a sketch", "You get points for steps, and a bonus for a sketch\n", NULL },
    { "instruction Show it, sums too", "Show it, sums too\n", NULL },
    { "instruction Use a pencil and a ruler", NULL,
      "if `ruler` is a word of the text, put that in quotes: `instruction \"Use a pencil and a ruler\"`" },
    { "instruction \"Use a pencil and a ruler\"", "Use a pencil and a ruler\n", NULL },
    { "instruction Write the names of the parts", NULL,
      "if `names` is a word of the text, put that in quotes: `instruction \"Write the names of the parts\"`" },
    { "school Oak Lane points 2", NULL, "write `worksheet sums 1 points 2 into FILE.pdf`" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = new_sheet ();
      said s = SAID_ZERO;
      char line[120];
      snprintf (line, sizeof line, "worksheet sums 1 %s into texts.txt", rows[i].clauses);
      assert_int_equal (sheet_run (sheet, &s, line) == BR_OK, rows[i].shown != NULL);
      if (rows[i].shown)
        lesson_contains ("texts.txt", rows[i].shown, 1);
      else
        assert_string_equal (s.faults[0].error.hint, rows[i].hint);
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

/* School, class, date, an instruction of the teacher's own, points and a bonus, on every form of paper.  */
static void
test_head (void **state)
{
  static const char *const forms[] = { "a.txt", "a.html" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (forms); i++)
    {
      br_sheet *sheet = new_sheet ();
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "worksheet sums 1 points 2, scale 1 bonus points 3, stock 1 points 1 school \"Hill & Dale\" class date 12 May "
                 "instruction \"Use a pencil.\" into %s\nkey k.csv", forms[i]);
      lesson_contains (forms[i], i ? "Hill &amp; Dale" : "Hill & Dale", 1);
      lesson_contains (forms[i], i ? "Class: <i></i>" : "Class: ____", 1);
      lesson_contains (forms[i], "Date: 12 May", 1);
      lesson_contains (forms[i], "Use a pencil.", 1);
      lesson_contains (forms[i], "Show your steps", 0);
      lesson_contains (forms[i], "(2", 1);
      lesson_contains (forms[i], "(bonus,", 1);
      lesson_contains (forms[i], "(1", 1);
      lesson_contains ("k.csv", ",2\n1,2,", 1);
      lesson_contains ("k.csv", ",3 bonus\n", 1);
      /* A bonus counts for the marks alone.  */
      br__rows key = BR__ROWS_ZERO;
      br_text answers = BR_TEXT_ZERO;
      check_ok (br__rows_read (&key, "k.csv", NULL));
      size_t answer = br__rows_column (&key, "answer");
      br__text_puts (&answers, "student,version,1,2,3\nA,1,,");
      br__put_cell (&answers, br__row_cell (&key.rows[2], answer));
      br__text_puts (&answers, ",0\n");
      lesson_put ("answers.csv", answers.bytes, answers.length);
      sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
      said_is (&s, 0, "marks", "3");
      said_is (&s, 0, "of", "3");
      /* What a table says a problem is worth stands instead.  */
      lesson_put ("points.csv", "problem,points\n2,5\n", 19);
      sheet_say (sheet, &s, "grade answers.csv with k.csv points points.csv into marks.csv");
      said_is (&s, 0, "marks", "5");
      br__text_clear (&answers);
      br__rows_clear (&key);
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

/* Each printed sheet of a browser says whose it is and which page, whatever the name; one paper alone says of how many.  The
   teacher's words stand there, and in what is read out, too.  */
static void
test_feet (void **state)
{
  static const char names[] = "name\n\"Ada \"\"A\"\" </style>\"\nBo\n", table[] = "english,own\nen,pt-BR\npage %d of %d,Seite %d von %d\nWorksheet,Blatt\n"
    "a ruler with {k} marks to the inch; the arrow is {2n} marks past {1n},{k} Striche: <{2n}> nach {1n}\n";
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  lesson_put ("names.csv", names, sizeof names - 1);
  lesson_put ("b.csv", table, sizeof table - 1);
  sheet_say (sheet, &s, "worksheet sums 1 names names.csv duplex into a.html\nkey k.html");
  lesson_contains ("a.html", "@page p1{counter-increment:p1;@bottom-left{content:\"Ada \\22 A\\22  \\3c \\2f style\\3e \\2c  version 1\"}"
                   "@bottom-right{content:\"page \" counter(p1)}}\n", 1);
  lesson_contains ("a.html", "<section style=\"page:p2\">", 1);
  lesson_contains ("a.html", "content:\"Bo\\2c  version 2\"", 1);
  lesson_contains ("a.html", "break-before:right", 1);
  lesson_contains ("k.html", "content:\"Key\\2c  version 2\"", 1);
  lesson_contains ("k.html", "break-before:right", 0);
  sheet_say (sheet, &s, "words b.csv\nworksheet sums 1 into a.html\nkey k.html");
  lesson_contains ("a.html", "<title>Blatt</title>", 1);
  lesson_contains ("a.html", "<html lang=\"pt-BR\">", 1);
  lesson_contains ("k.html", "<html lang=\"en\">", 1);
  lesson_contains ("k.html", "<title>Worksheet</title>", 1);
  lesson_contains ("a.html", "content:\"Seite \" counter(p1)\" von \" counter(pages)\"\"}", 1);
  lesson_contains ("k.html", "content:\"page \" counter(p1)\" of \" counter(pages)\"\"}", 1);
  sheet_say (sheet, &s, "worksheet reading 2 into a.csv\nworksheet reading 2 into a.html");
  lesson_contains ("a.csv", "16 Striche: ", 1);
  lesson_contains ("a.html", "aria-label=\"16 Striche: &lt;", 1);
  lesson_contains ("a.html", "marks to the inch", 0);
  /* A large ruler is drawn twice its size, from the whole number before the arrow on; the key is in ordinary print.  */
  sheet_say (sheet, &s, "words english\nworksheet reading 20 seed 3 size large into a.html\nkey k.html");
  lesson_contains ("a.html", "<svg width=\"6.250in\" height=\"0.993in\" viewBox=\"-120 0 6000 954\"", 1);
  lesson_contains ("a.html", "font-size=\"240\" text-anchor=\"middle\">0<", 1);
  lesson_contains ("a.html", "font-size=\"240\" text-anchor=\"middle\">4<", 1);
  lesson_contains ("a.html", "<div>This ruler is drawn twice its size.</div>", 1);
  lesson_contains ("a.html", "<div>It is drawn twice its size. 0 is further left.</div>", 1);
  lesson_contains ("a.html", "font-size:18pt", 1);
  lesson_contains ("k.html", "font-size:18pt", 0);
  lesson_contains ("a.html", "@page{size", 0);
  sheet_say (sheet, &s, "worksheet reading 1 paper a4 into a.html");
  /* ISO 216: 210 mm x 297 mm.  */
  lesson_contains ("a.html", "@page{size:8.267in 11.692in}", 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* A table of other words: in their place, beside English, and off; words of the trade are explained once on a paper.  */
static void
test_words (void **state)
{
  static const char table[] = "own,english\n\"Strich {1}, dann {0}?\",\"Around a corner the trim runs {0} one way and {1} the other. How much trim is that?\"\n"
                              "Antwort:,Answer:\nSeite %d von %d,page %d of %d\nFuge: Staub,\"kerf: how wide a cut the saw makes, wood that turns to dust\"\n,Name:\n";
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "words");
  said_is (&s, 0, "english", "true");
  said_is (&s, 0, "sentences", "0");
  unlink ("a.csv");
  sheet_say (sheet, &s, "words into a.csv");
  lesson_contains ("a.csv", "english,own\n", 1);
  lesson_contains ("a.csv", "Answer:,\n", 1);
  sheet_say (sheet, &s, "words a.csv\nworksheet " ALL " seed 3 into a.txt\nwords english\nworksheet " ALL " seed 3 into b.txt");
  char *a = lesson_get ("a.txt"), *b = lesson_get ("b.txt");
  assert_string_equal (a, b);
  free (a), free (b);
  lesson_put ("b.csv", table, sizeof table - 1);
  sheet_say (sheet, &s, "words b.csv");
  said_is (&s, 0, "sentences", "5");
  said_is (&s, 0, "english", "false");
  sheet_say (sheet, &s, "worksheet sums 24, stock 2, dividing 2 seed 3 into a.txt");
  lesson_contains ("a.txt", "Strich ", 1);
  lesson_contains ("a.txt", "Around a corner", 0);
  lesson_contains ("a.txt", "Answer:", 0);
  lesson_contains ("a.txt", "Fuge: Staub\n", 1);
  lesson_contains ("a.txt", "Name:", 1);
  sheet_say (sheet, &s, "words b.csv with english\nworksheet sums 24, stock 2 seed 3 into a.txt\nworksheet sums 24 seed 3 into a.html");
  lesson_contains ("a.txt", "Strich ", 1);
  lesson_contains ("a.txt", "Around a corner", 1);
  lesson_contains ("a.txt", "Answer: / Antwort: ", 1);
  lesson_contains ("a.html", "class=\"two\"><div>Around", 1);
  sheet_say (sheet, &s, "words off");
  said_is (&s, 0, "explained", "false");
  sheet_say (sheet, &s, "worksheet stock 4 into a.txt");
  lesson_contains ("a.txt", "Fuge", 0);
  sheet_say (sheet, &s, "words english");
  said_is (&s, 0, "explained", "false");
  sheet_say (sheet, &s, "words on\nworksheet stock 4 into a.txt\nworksheet stock 4 into a.html");
  lesson_contains ("a.txt", "kerf: how wide", 1);
  lesson_contains ("a.html", "<p class=\"words\">", 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

static void
test_wrong_words (void **state)
{
  static const struct { const char *table, *line, *says; } rows[] =
  {
    { "english,own\nen,German\n", "words b.csv", "b.csv:2: beside `en` stands the code of your language, as `de` or `pt-BR`" },
    { "english,own\nen,d\"e\n", "words b.csv", "b.csv:2: beside `en` stands the code of your language, as `de` or `pt-BR`" },
    { "english,own\nNonsense,x\n", "words b.csv", "b.csv:2: papers have no such sentence: Nonsense" },
    { "english,own\n\"Two knobs {1} across sit {0} apart, middle to middle. How wide is the room between them?\",{0}\n", "words b.csv", "b.csv:2: {1} is missing" },
    { "english,own\n\"Two knobs {1} across sit {0} apart, middle to middle. How wide is the room between them?\",{0} {1} {2}\n", "words b.csv",
      "b.csv:2: {2} is not in the English sentence" },
    { "english\nName:\n", "words b.csv", "b.csv: a column must be called english, and another hold what stands instead" },
    { "a,b\nName:,x\n", "words b.csv", "b.csv: a column must be called english, and another hold what stands instead" },
    { "", "words b.csv with german", "`english` should stand here" },
    { "english,own\nAnswer:,Antwort:\n", "words into b.csv", "`b.csv` has words of your own, so it stays" },
    { "own;english\nAntwort:;Answer:\n", "words into b.csv", "`b.csv` has words of your own, so it stays" },
    { "", "words into", "the name of a file should stand here" },
    { "", "words into b.sheet", "`b.sheet` would hold a table, so its name must end in .csv" },
    { "", "words into b.pdf", "`b.pdf` would hold a table, so its name must end in .csv" },
    { "", "words off b.csv", "unexpected `b`" },
    { "", "words gone.csv", "cannot read `gone.csv`: there is no such file or folder" },
    { "", "worksheet sums 1 class 8b class 9a into a.txt", "`class` stands here twice" },
    { "", "worksheet sums 1 duplex duplex into a.txt", "`duplex` stands here twice" },
    { "", "worksheet sums 1 bonus bonus into a.txt", "`bonus` stands here twice" },
    { "", "worksheet sums 1 points 0 into a.txt", "the points of a problem is a whole number from 1 to 1000" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = new_sheet ();
      said s = SAID_ZERO;
      lesson_put ("b.csv", rows[i].table, strlen (rows[i].table));
      assert_int_not_equal (sheet_run (sheet, &s, rows[i].line), BR_OK);
      if (strcmp (s.faults[0].error.message, rows[i].says) != 0)
        fail_msg ("%s: %s", rows[i].line, s.faults[0].error.message);
      said_clear (&s);
      br_sheet_free (sheet);
    }
  char line[600] = "worksheet sums 1 school ";
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  memset (line + 24, 'x', 401);
  strcpy (line + 425, " into a.txt");
  assert_int_equal (sheet_run (sheet, &s, line), BR_TOO_BIG);
  lesson_put ("b.csv", "version,problem,exact,unit,points\n1,1,2,,two\n", 46);
  lesson_put ("answers.csv", "student,version,1\nA,1,2\n", 25);
  assert_int_not_equal (sheet_run (sheet, &s, "grade answers.csv with b.csv into marks.csv"), BR_OK);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* A ruler that does not begin at 0 says so, and no problem takes its left end for 0: in every form and in other words.  */
static void
test_zero (void **state)
{
  static const char table[] = "english,own\n0 is further left: measure from there.,Die Null ist weiter links.\n";
  static const char *const names[] = { "a.txt", "k.txt", "a.csv", "a.html" };
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  lesson_put ("b.csv", table, sizeof table - 1);
  unlink ("a.csv");
  sheet_say (sheet, &s, "worksheet reading 24 seed 11 into a.txt\nkey k.txt\nworksheet reading 24 seed 11 into a.csv\n"
             "worksheet reading 24 seed 11 into a.html");
  for (size_t i = 0; i < CHECK_COUNT (names); i++)
    lesson_contains (names[i], "left end", 0);
  lesson_contains ("a.txt", " from 0 ", 1);
  lesson_contains ("a.html", "text-anchor=\"middle\">0</text>", 1);
  char *bytes = lesson_get ("a.txt");
  size_t rulers = 0;
  for (const char *at = bytes; (at = strstr (at, "\n      0 is further left: measure from there.\n    Answer:")) != NULL; at++)
    rulers++;
  assert_int_equal (rulers, 24);
  free (bytes);
  unlink ("a.txt");
  sheet_say (sheet, &s, "words b.csv\nworksheet reading 2 seed 11 into a.txt");
  lesson_contains ("a.txt", "\n      Die Null ist weiter links.\n", 1);
  sheet_say (sheet, &s, "words english\nunits mm\nworksheet reading 2 seed 11 into a.txt");
  lesson_contains ("a.txt", "\n      0 is further left: measure from there.\n", 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* What a pupil reads of a step has no call of the program's in it.  */
static void
test_steps_in_words (void **state)
{
  static const struct { const char *step, *words; } rows[] =
  {
    { "full(6-13/16\", 1/4) = 6-13/16\" * 4", "6-13/16\" \xC3\x97 4" },
    { "drawn(46-1/2\", 1/8) = 46-1/2\" / 8", "46-1/2\" \xC3\xB7 8" },
    { "nearest(98.288, 1) = 98", "98.288 to the nearest whole number is 98" },
    { "nearest(3.3\", 1/16\") = 3-5/16\"", "3.3\" to the nearest 1/16\" is 3-5/16\"" },
    { "down(19-74/77, 1) = 19", "19-74/77 down to the next whole number is 19" },
    { "up(3.3, 1/8) = 3-3/8", "3.3 up to the next 1/8 is 3-3/8" },
    { "sqrt(2) \xE2\x89\x88 1.414", "the square root of 2 is about 1.414" },
    { "max(1, 2, 5/2) = 5/2", "the largest of 1, 2, 5/2 is 5/2" },
    { "fender_gap(3\", 1/8\") = 3\" - 1/8\" / 2", "3\" - 1/8\" \xC3\xB7 2" },
    { "cos(30) \xE2\x89\x88 0.866", "\xE2\x89\x88 0.866" },
    { "(3\" + 1\") / 2 = 2\"", "(3\" + 1\") \xC3\xB7 2 = 2\"" },
    { "2 * sqrt(2) \xE2\x89\x88 2.83", "2 \xC3\x97 sqrt(2) \xE2\x89\x88 2.83" },
    { "max(1", "max(1" },
  };
  br_sheet *sheet = new_sheet ();
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_text t = BR_TEXT_ZERO;
      br__put_step_in_words (&t, rows[i].step);
      assert_string_equal (br__text_string (&t), rows[i].words);
      br__text_clear (&t);
    }
  unlink ("k.csv");
  sheet_say (sheet, &s, "worksheet scale 1 into a.txt\nkey k.csv");
  lesson_put ("answers.csv", "student,version,1\nAda,1,999 in\n", 31);
  sheet_say (sheet, &s, "grade answers.csv with k.csv into a.html");
  lesson_contains ("a.html", "<p>Problem 1 begins: ", 1);
  lesson_contains ("a.html", "full(", 0);
  sheet_say (sheet, &s, "practice scale");
  sheet_say (sheet, &s, "hint");
  assert_null (strchr (said_get (&s, 0, "step"), '('));
  said_clear (&s);
  br_sheet_free (sheet);
}

/* On a phone of 390 px, of which the sides take 46 (0.6em and 1.7em at 16 px), no letter of a figure has less than 11 px.  */
static void
test_phone (void **state)
{
  static const char *const rulers[] = { "1/16", "1/64", "1 mm", "0.5 mm" };
  (void) state;
  for (size_t i = 0; i < 4 * CHECK_COUNT (rulers); i++)
    {
      br_sheet *sheet = new_sheet ();
      said s = SAID_ZERO;
      int count = 0;
      sheet_say (sheet, &s, "worksheet reading 2, fender 8, missing 8, known size 4, dividing 4, stock 4 ruler %s seed %zu%s into a.html",
                 rulers[i % CHECK_COUNT (rulers)], i + 1, i % 3 ? "" : " size large");
      char *page = lesson_get ("a.html");
      assert_non_null (strstr (page, "(max-width:32em){ol{padding-left:1.7em}}"));
      const char *numeral = strstr (page, "@media screen and (max-width:32em){svg[width$=in] text{font-size:");
      assert_true (i % 3 ? numeral != NULL : numeral == NULL);
      for (const char *at = page; (at = strstr (at, "<svg width=\"")); at++, count++)
        {
          const char *box = strstr (at, "viewBox=\"") + strlen ("viewBox=\""), *size = strstr (at, "font-size=\"");
          double wide = 0, letters = strtod (size + strlen ("font-size=\""), NULL);
          for (int k = 0; k < 3; k++)
            {
              char *end;
              wide = strtod (box, &end);
              box = end;
            }
          if (wide > 1000 && numeral)
            letters = strtod (strstr (numeral, "font-size:") + strlen ("font-size:"), NULL);
          if (letters * (wide > 344 ? 344 / wide : 1) < 11)
            fail_msg ("letters of %g px: %.300s", letters * 344 / wide, at);
        }
      assert_int_equal (count, 30);
      free (page);
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_levels), CHECK_TEST (test_units), CHECK_TEST (test_metric_marks), CHECK_TEST (test_texts), CHECK_TEST (test_head), CHECK_TEST (test_feet),
    CHECK_TEST (test_words), CHECK_TEST (test_wrong_words),
    CHECK_TEST (test_zero), CHECK_TEST (test_steps_in_words), CHECK_TEST (test_phone)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, lesson_enter, lesson_leave));
}
