/* SPDX-License-Identifier: GPL-3.0-or-later
   markup.c - a user's text inside HTML: nothing of it is markup, and measures are read aloud as one says them.
   Rows of escapes: what is special in XML 1.0 (section 2.4) and what is no character there (2.2).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"
#include "file/markup.h"

static void
check_put (void (*put) (br_text *t, const char *text), const char *text, const char *expected)
{
  br_text t = BR_TEXT_ZERO;
  put (&t, text);
  assert_string_equal (br__text_string (&t), expected);
  br__text_clear (&t);
}

static void
escapes (void **state)
{
  static const char *const rows[][2] =
  {
    { "", "" }, { "2 < 3 > 1 & \"a\" 'b'", "2 &lt; 3 &gt; 1 &amp; &quot;a&quot; &#39;b&#39;" },
    { "</script><b>", "&lt;/script&gt;&lt;b&gt;" }, { "&amp;", "&amp;amp;" },
    { "a\tb\nc\rd", "a b c d" }, { "\033[1m\177\001", "\\x1b[1m\\x7f\\x01" },
    { "r\303\244der \342\205\234 \360\237\233\240", "r\303\244der \342\205\234 \360\237\233\240" },
    { "a\342\200\256b\342\201\246c\330\234", "a\\u202eb\\u2066c\\u061c" },
    { "\302\205\357\273\277\357\277\276\357\277\277", "\\u0085\\ufeff\\ufffe\\uffff" },
    { "\302\237\302\240\342\200\247\342\200\250\342\200\257\342\201\245\342\201\251\342\201\252",
      "\\u009f\302\240\342\200\247\\u2028\342\200\257\342\201\245\\u2069\342\201\252" },
    { "a\377b\300\200\355\240\200", "a\\xffb\\xc0\\x80\\xed\\xa0\\x80" }, { "\342\200", "\\xe2\\x80" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    check_put (br__put_escaped, rows[i][0], rows[i][1]);
}

static void
fractions (void **state)
{
  static const char *const rows[][2] =
  {
    { "3/8", "<span class=\"f\"><sup>3</sup>\342\201\204<sub>8</sub></span>" },
    { "a 2-3/8\" <", "a 2\342\200\257<span class=\"f\"><sup>3</sup>\342\201\204<sub>8</sub></span>&quot; &lt;" },
    { "10/19", "<span class=\"f\"><sup>10</sup>\342\201\204<sub>19</sub></span>" },
    { "9-90/109", "9\342\200\257<span class=\"f\"><sup>90</sup>\342\201\204<sub>109</sub></span>" },
    { "95 mm x 1' 3\" in", "95\302\240mm x 1&#39;\302\2403&quot; in" }, { "1 m 20 cm", "1\302\240m\302\24020\302\240cm" },
    { "in 3 inches, 4 in.", "in 3 inches, 4\302\240in." }, { " 3 ", " 3 " },
    { "3-1/2 in", "3\342\200\257<span class=\"f\"><sup>1</sup>\342\201\204<sub>2</sub></span>\302\240in" },
    { "3:8", "3:8" }, { "3/;8", "3/;8" }, { "1.13/8", "1.13/8" }, { "2-3", "2-3" }, { "2-x/8", "2-x/8" }, { "2-", "2-" }, { "/", "/" }, { "5/", "5/" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    check_put (br__put_fractions, rows[i][0], rows[i][1]);
}

/* TEXT is read as WORDS, or is no measure that is.  */
static void
spoken (void **state)
{
  static const char *const rows[][2] =
  {
    { "2-3/8\"", "2 and 3 eighths inches" }, { "5/16\"", "5 sixteenths of an inch" },
    { "1/2\"", "1 half of an inch" }, { "1\"", "1 inch" }, { "11\"", "11 inches" }, { "0\"", "0 inches" },
    { "1-1/64\"", "1 and 1 sixty-fourth inches" }, { "4.55\"", "4.55 inches" },
    { "-3/8\"", "minus 3 eighths of an inch" }, { "5' 2-3/8\"", "5 feet 2 and 3 eighths inches" },
    { "1'", "1 foot" }, { "1' 1/3\"", "1 foot 1 third of an inch" }, { "1/7\"", "1 seventh of an inch" },
    { "3/127\"", "3 over 127 of an inch" }, { "3 in", NULL }, { "3", NULL }, { "", NULL }, { "-", NULL },
    { "3\"x", NULL }, { "x3\"", NULL }, { "3\" ", NULL }, { "about 3\"", NULL }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_text t = BR_TEXT_ZERO;
      char end[120];
      br__put_spoken (&t, rows[i][0]);
      const char *r = strstr (br__text_string (&t), "<span class=\"r\">");
      if (rows[i][1])
        {
          snprintf (end, sizeof end, "<span class=\"r\">%s</span>", rows[i][1]);
          assert_string_equal (r ? r : "", end);
        }
      else
        assert_null (r);
      br__text_clear (&t);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (escapes), CHECK_TEST (fractions), CHECK_TEST (spoken) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, NULL, NULL));
}
