/* SPDX-License-Identifier: GPL-3.0-or-later
   report.c - the page that a sheet becomes: it is well-formed, a reader finds its way, it says what the sheet's
   own statements say, and nothing that a user typed is markup.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../draw/source.h"
#include "html.h"

#include <time.h>

#include "report/guard.h"

/* The page of SHEET, which it takes over and which must be in order; to be freed.  */
static char *
page_of_sheet (br_sheet *sheet)
{
  said s = SAID_ZERO;
  html_page p;
  sheet_say (sheet, &s, "report into a.html");
  said_is (&s, 0, "kind", "report");
  said_is (&s, 0, "file", "a.html");
  sheet_end (sheet, &s);
  char *page = lesson_get ("a.html");
  html_read (&p, page);
  if (*p.wrong)
    fail_msg ("%s, in the page: %.400s", p.wrong, page);
  html_clear (&p);
  return page;
}

static char *
page_of (const char *text)
{
  return page_of_sheet (sheet_with (text));
}

static void
holds (const char *page, const char *part)
{
  if (!strstr (page, part))
    fail_msg ("the page lacks: %s", part);
}

static void
lacks (const char *page, const char *part)
{
  if (strstr (page, part))
    fail_msg ("the page has: %s", part);
}

static size_t
count_of (const char *page, const char *part)
{
  size_t n = 0;
  for (; (page = strstr (page, part)) != NULL; page += strlen (part))
    n++;
  return n;
}

/* The cart of the examples, with parts.  */
static char *
cart_text (void)
{
  const char *top = getenv ("srcdir");
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  fprintf (out, "use \"%s/docs/examples/market_cart_side.sheet\"\n"
                "stock pine = 3/4 x 5-1/2 x 48 qty 3\nstock dowel = round 7/16 x 36 qty 2\n"
                "part side = side_length x side_height qty 2 from pine  # either side\n"
                "part axle = axle qty 2 from dowel\n", top ? top : ".");
  fclose (out);
  return text;
}

/* The number behind WHAT in TEXT.  */
static double
number_behind (const char *text, const char *what)
{
  const char *at = strstr (text, what);
  if (!at)
    fail_msg ("no %s", what);
  return strtod (at + strlen (what), NULL);
}

/* The side view takes the page's width, and scrolls where its smallest letters would have less than 11 px: by the units of
   the picture.  It is reached with the keyboard, and has the line that checks the printer.  */
static void
letters (void **state)
{
  char *text = cart_text (), *page = page_of (text), *end;
  (void) state;
  holds (page, "<figure><div class=\"scroll\" role=\"region\" aria-label=\"The side view\" tabindex=\"0\">");
  holds (page, "@media screen{.fit svg{width:100%}}");
  holds (page, ".fit{min-width:0!important}}");
  holds (page, "On paper this line is 2 in long. If it is not, print at 100 %.");
  const char *fit = strstr (page, "<div class=\"fit\""), *picture = strstr (fit, "viewBox=\"");
  double pixels = number_behind (fit, "min-width:"), units = number_behind (picture, "viewBox=\"0 0 "), least = 1e9;
  end = strstr (picture, "</svg>");
  for (const char *at = picture; (at = strstr (at, "font-size=\"")) && at < end; at++)
    {
      double size = number_behind (at, "font-size=\"");
      least = size < least ? size : least;
    }
  if (least * pixels / units < 11)
    fail_msg ("letters of %g px", least * pixels / units);
  /* So do sticks.  */
  double stick = number_behind (page, ".stick text{font:"), wide = number_behind (page, "<svg class=\"stick\" viewBox=\"-2 -2 ");
  assert_true (stick * number_behind (page, ".stick{display:block;width:100%;min-width:") / wide >= 11);
  free (page);
  page = page_of ("units mm\ncircle rim = 60 at 0, 0");
  holds (page, "On paper this line is 50 mm long.");
  free (page);
  free (text);
}

/* A piece with no room for its name has its number in the list.  */
static void
pieces (void **state)
{
  char *page = page_of ("kerf 0\nstock oak = 3/4 x 5 x 40\npart a_long_name_for_a_narrow_piece = 3 in x 5 in qty 2 from oak\n"
                        "part lid = 20 in x 5 in from oak");
  (void) state;
  holds (page, ">lid</text>");
  assert_int_equal (count_of (page, ">2</text>") + count_of (page, ">1</text>"), 2);
  holds (page, "a_long_name_for_a_narrow_piece");
  holds (page, "(1)");
  holds (page, "(2)");
  free (page);
}

static void
cart (void **state)
{
  char *text = cart_text (), *page = page_of (text), name[200];
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with (text);
  (void) state;
  holds (page, "<h1>Market cart</h1>");
  holds (page, "Your teacher&#39;s rules and local codes come first.");
  holds (page, "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
  holds (page, "scale: <b>1:8</b>");
  lacks (page, "<script");
  holds (page, "<figure>");
  holds (page, "<desc id=\"drawing-words\">circle front: ");
  assert_int_equal (count_of (page, "http"), 1);
  holds (page, "<svg xmlns=\"http://www.w3.org/2000/svg\"");
  /* Every answer of `list`, `check` and `shapes` has its row.  */
  sheet_say (sheet, &s, "list\nshapes");
  assert_true (s.count > 35);
  for (size_t i = 0; i < s.count; i++)
    {
      snprintf (name, sizeof name, "<tr><th scope=\"row\">%s</th>", said_get (&s, i, "name"));
      holds (page, name);
    }
  sheet_say (sheet, &s, "check");
  assert_int_equal (count_of (page, "<tr class=\"pass\">"), s.count);
  sheet_say (sheet, &s, "report into a.html");
  said_is (&s, 0, "sections.count", "7");
  said_is (&s, 0, "dimensions", "30");
  said_is (&s, 0, "fail", "0");
  holds (page, "pinch a small finger");
  holds (page, "ASTM F963 4.18.1");
  sheet_end (sheet, &s);
  free (page);
  free (text);
}

/* Full size, mark, error and drawn size of one row, worked by hand: 4.55 lies between 72/16 and 73/16, that is 4.5 and
   4.5625, which is 0.0125 over; half of it is 2.275.  */
static void
rows (void **state)
{
  char *page = page_of ("scale 1:2\ndate 3 May\nside = 4.55 in # tall\nb = side - 1/20 in\nc = b + later\nd = sqrt (2 sq in)\n"
                        "e = 1/3 in");
  (void) state;
  holds (page, "<tr><th scope=\"row\">side</th><td><span class=\"m\" aria-hidden=\"true\">4.55&quot;</span>"
               "<span class=\"r\">4.55 inches</span></td><td><span class=\"m\" aria-hidden=\"true\">4\342\200\257<span class=\"f\"><sup>9</sup>"
               "\342\201\204<sub>16</sub></span>&quot;</span><span class=\"r\">4 and 9 sixteenths inches</span>, over by "
               "<span class=\"f\"><sup>1</sup>\342\201\204<sub>80</sub></span> = 0.0125</td>"
               "<td><span class=\"m\" aria-hidden=\"true\">2.275&quot;</span><span class=\"r\">2.275 inches</span></td>"
               "<td>given</td><td>tall</td></tr>");
  holds (page, "<span class=\"r\">4 and 1 half inches</span> exactly</td>");
  holds (page, "<td><code>side - 1/20 in</code></td>");
  holds (page, "<tr><th scope=\"row\">c</th><td>waits for later</td>");
  holds (page, "<tr><th scope=\"row\">later</th><td>c</td></tr>");
  holds (page, "<td>\342\211\210 1.41421\302\240in</td>");
  /* 5/16 less 1/3 is -1/48.  */
  holds (page, ", under by <span class=\"f\"><sup>1</sup>\342\201\204<sub>48</sub></span> \342\211\210 0.0208333</td>");
  holds (page, "<li>1 <a href=\"#missing\">value is <b>missing</b></a></li>");
  holds (page, "<li>date: <b>3 May</b></li>\n<li>scale: <b>1:2</b></li>");
  lacks (page, "The side view");
  lacks (page, "The cutting plan");
  free (page);
}

static void
checks (void **state)
{
  char *page = page_of ("a = 3 in +- 1/8 in\ncheck a > 4 in # wide enough\ncheck a < 4 in\ncheck a > 2-15/16 in\ncheck a < b");
  (void) state;
  holds (page, "<tr class=\"fail\"><th scope=\"row\"><code>a &gt; 4 in</code></th><td class=\"state\"><b>"
               "<span aria-hidden=\"true\">\342\234\227 </span>FAILS</b></td>");
  holds (page, "<span class=\"r\">minus 1 inch</span>");
  holds (page, "<td>wide enough</td>");
  holds (page, "</span>holds as cut</b>");
  holds (page, "</span>holds as drawn, may fail as cut</b>");
  holds (page, "</span>waits for a value</b>");
  holds (page, "<li>1 <a href=\"#checks\">check <b>FAILS</b></a></li>\n<li>1 check waits for a value</li>\n<li>2 checks hold</li>");
  free (page);
}

/* Two pieces of 14 in from a rod of 36 in, the kerf 1/8: in thousandths of the rod 388.9 each and 3.5 between.  */
static void
plan (void **state)
{
  char *page = page_of ("kerf 1/8\nstock rod = round 7/16 x 36\npart axle = 14 in qty 2 from rod\n"
                        "stock pine = 3/4 x 5 x 40\npart lid = 20 in x 4 in from pine\npart wide = 9 in x (5 in + 1 in) from pine");
  (void) state;
  holds (page, "<h3>rod 1</h3>");
  holds (page, "aria-label=\"rod cut into 2 axle\"");
  holds (page, "<rect x=\"0\" y=\"0\" width=\"389\" height=\"52\" class=\"piece\"/>");
  holds (page, "<rect x=\"392\" y=\"0\" width=\"389\" height=\"52\" class=\"piece\"/>");
  holds (page, "<rect x=\"0\" y=\"0\" width=\"500\" height=\"100\" class=\"piece\"/><text x=\"250\" y=\"58\">lid</text>");
  holds (page, "<li>Pencil marks from one end: <span class=\"m\" aria-hidden=\"true\">14&quot;</span>");
  holds (page, "<b>cannot be cut:</b>");
  holds (page, "<br><code>(5 in + 1 in)</code></td>");
  lacks (page, "<code>14 in</code>");
  holds (page, "<b>Not every part has a place:</b>");
  holds (page, "it is proved that no plan with this stock");
  free (page);
}

/* Sticks cut alike stand once; of boards that do not suffice it is told how many do: two lids with a cut between
   do not go into 40 in.  */
static void
sticks (void **state)
{
  char *page = page_of ("kerf 1/8\nstock rod = round 7/16 x 36\npart axle = 14 in qty 4 from rod\n"
                        "stock oak = 3/4 x 5 x 40 qty 1\npart lid = 20 in x 4 in qty 3 from oak\npart rib = 15 in x 4 in from oak");
  (void) state;
  holds (page, "<h3>rod 1 to 2, all alike</h3>");
  holds (page, "<li>rod: 2 used; it is proved that no plan with this stock needs fewer.</li>");
  holds (page, "<li>oak: 1 used, 3 needed; it is proved that no plan with this stock, cut from edge to edge, needs fewer.</li>");
  holds (page, "aria-label=\"oak cut into 1 lid, 1 rib\"");
  free (page);
}

/* A caution that goes with two results stands there once, and the parts' own beside it.  */
static void
cautions (void **state)
{
  char *page = page_of ("gap = 5/16 in\nother_gap = 5/16 in\nstock pine = 3/4 x 5-1/2 x 48\n"
                        "part peg = 3/4 in x 3/4 in x 3/4 in from pine\nchild 2 years");
  (void) state;
  assert_int_equal (count_of (page, "pinch a small finger"), 2);        /* by two standards, in one sentence */
  assert_int_equal (count_of (page, "<small>Source: ASTM"), 1);
  holds (page, "<li>peg: ");
  holds (page, "16 CFR 1501");
  free (page);
}

static void
little (void **state)
{
  char *page = page_of ("");
  (void) state;
  holds (page, "<h1>Design</h1>");
  holds (page, "<p>No dimension has been set yet.</p>");
  holds (page, "<p>Nothing is missing");
  holds (page, "<p>No check has been set yet.</p>");
  free (page);
  page = page_of ("part lid = 20 in x 4 in");
  holds (page, "The cutting plan");
  holds (page, "<li>1 lid: there is no stock for it</li>");
  free (page);
  /* A page without a picture is of use, too.  */
  page = page_of ("circle far = 3 in at 1000000000000 in, 0");
  holds (page, "<p>A shape reaches too far to be drawn.</p>");
  lacks (page, "<figure>");
  free (page);
  br_text crowd = BR_TEXT_ZERO;
  br__text_puts (&crowd, "box b = 1 x 1 at 0, 0\n");
  for (int i = 0; i < 21; i++)
    br__text_printf (&crowd, "row r%d of b qty 100 by 1, %d\n", i, i);
  page = page_of (br__text_string (&crowd));
  br__text_clear (&crowd);
  holds (page, "<p>More than 2000 places of shapes are too many for one drawing.</p>");
  lacks (page, "<figure>");
  free (page);
}

static void
hostile (void **state)
{
  char *page = page_of ("title </title><script>alert(1)</script> \"2-1/2\" & 'so'\n"
                        "a = 1 in # </td><b onclick=\"x\">bold</b> &amp; \342\200\256drow\033[31m\n"
                        "check a < 2 in # <img src=http://x.example/>\n"
                        "circle hub = a at 0, 0 # --> ]]> </svg>\n"
                        "part lid = 2 in x a # <table>");
  (void) state;
  lacks (page, "<script");
  lacks (page, "<img");
  lacks (page, "<b onclick");
  lacks (page, "\342\200\256");
  lacks (page, "\033");
  holds (page, "\\u202edrow\\x1b[31m");
  holds (page, "&lt;/title&gt;&lt;script&gt;alert(1)");
  holds (page, "&amp;amp;");
  free (page);
}

/* A power of a foot that has no name of its own stays one; an error beside a mark of another unit has its unit.  */
static void
test_power (void **state)
{
  (void) state;
  char *page = page_of ("units ft\nfourth = (1/3 in)^3 * 7 ft");
  holds (page, ">fourth</th><td>\xe2\x89\x88 0.000150034\302\240ft^4</td>");
  free (page);
  /* 0.16 cm are 63/1000 in, and the mark there 1/16 in.  */
  page = page_of ("ruler 1/16 in\nunits cm\nthin = 0.16 cm");
  holds (page, "under by <span class=\"f\"><sup>1</sup>\342\201\204<sub>800</sub></span> = 0.00125 cm</td>");
  free (page);
}

/* Metric: 300 mm at 1:5 is 60 mm, and a seventh of it is 42 mm and 6/7, which a decimal does not say.  */
static void
metric (void **state)
{
  char *page = page_of ("units mm\nruler 1 mm\na = 300 mm\nb = a / 7\nscale 1:5\nbox lid = a x 2000 mm at 0, 0\ncircle c = b");
  (void) state;
  holds (page, "<td>300\302\240mm</td><td>300\302\240mm exactly</td><td>60\302\240mm</td>");
  holds (page, "over by <span class=\"f\"><sup>1</sup>\342\201\204<sub>7</sub></span> \342\211\210 0.142857</td>");
  holds (page, "1 square is ");
  holds (page, "What is dashed is not tied down yet");
  holds (page, "stroke-dasharray");
  free (page);
}

/* A drawing with a long table has a page of its own: it is not drawn smaller, so that the table stands beside other sections.  */
static void
drawing_with_table (void **state)
{
  char path[PATH_MAX + 40];
  (void) state;
  snprintf (path, sizeof path, "%s/tests/data/boat.sheet", source);
  char *page = page_of_sheet (sheet_open (path));
  holds (page, "The scale is quarter size, 1:4 when");
  holds (page, ">dimension</text>");
  free (page);
  /* A table that is longer than the page does not shrink the figure to a dot.  */
  snprintf (path, sizeof path, "%s/tests/data/tool_board.sheet", source);
  page = page_of_sheet (sheet_open (path));
  holds (page, "The scale is 1\302\240in = 1\302\240ft, 1:12 when");
  free (page);
}

/* Where the sheet has no scale, the head and the drawn sizes are at that of the figure: 24 in at 1:4 are 6 in.  */
static void
scale_of_the_figure (void **state)
{
  char *page = page_of ("units in\nlong = 24 in\nbox board = long x 6 in at 0, 0");
  (void) state;
  holds (page, "<li>scale: <b>1:4</b></li>");
  holds (page, "The scale is quarter size, 1:4 when");
  holds (page, "<td><span class=\"m\" aria-hidden=\"true\">6&quot;</span>");
  free (page);
  /* Without a figure nothing is drawn.  */
  page = page_of ("units in\nlong = 24 in");
  holds (page, "<li>scale: <b>1:1</b></li>");
  free (page);
}

/* Notes and titles of random characters, special ones more often than others.  */
static void
random_texts (void **state)
{
  static const char *const pieces[] =
  { "<", ">", "&", "\"", "'", "/", "-", "!", "[", "a", " ", "1/2", "2-3/8\"", ";", "#", "\342\200\256", "\303\244", "\001",
    "\t", "=", "\\", "</", "<!--", "&lt", "\360\237\233\240" };
  (void) state;
  for (long times = check_times (60); times > 0; times--)
    {
      char *text = NULL;
      size_t size;
      FILE *out = open_memstream (&text, &size);
      fputs ("title x", out);
      for (int line = 0; line < 4; line++)
        {
          static const char *const starts[] = { "", "a = 1/3 in # x", "check a < 1 in # x", "part p = a x a # x" };
          fputs (starts[line], out);
          for (uint64_t n = 1 + check_below (12); n > 0; n--)
            {
              const char *piece = pieces[check_below (CHECK_COUNT (pieces))];
              /* In a title, what stands behind # is its note.  */
              fputs (line == 0 && *piece == '#' ? "x" : piece, out);
            }
          fputc ('\n', out);
        }
      fclose (out);
      free (page_of (text));
      free (text);
    }
}

/* A page with one thing wrong is found out, or the reader is no test.  */
static void
reader (void **state)
{
  static const char *const changes[][2] =
  {
    { "</section>", "</div>" }, { "</b>", "" }, { " lang=\"en\"", "" }, { " scope=\"row\"", "" }, { "<td>", "" },
    { "</td>", "</td><td></td>" }, { "<caption", "<div" }, { "id=\"checks\"", "id=\"missing\"" }, { "&#39;", "&x;" },
    { "id=\"design\"", "id=\"desing\"" }, { "<h2", "<h4" }, { "charset=\"utf-8\"", "charset=utf-8" }, { "</html>", "" },
    { "<main", "<section" }, { "<h1>", "<h1 onclick=\"x\">" }, { "<!DOCTYPE html>", "" }, { "href=\"#", "href=\"http://" }
  };
  char *text = cart_text (), *page = page_of (text);
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (changes); i++)
    {
      html_page p;
      char *at = strstr (page, changes[i][0]), *changed = malloc (strlen (page) + 100);
      assert_non_null (at);
      sprintf (changed, "%.*s%s%s", (int) (at - page), page, changes[i][1], at + strlen (changes[i][0]));
      html_read (&p, changed);
      if (!*p.wrong)
        fail_msg ("%s for %s is not seen", changes[i][1], changes[i][0]);
      html_clear (&p);
      free (changed);
    }
  free (page);
  free (text);
}

static void
mistakes (void **state)
{
  static const struct { const char *line, *message; size_t offset; } lines[] =
  {
    { "report", "the line ends where `into FILE.html` should stand", 6 },
    { "report into", "the name of a file should stand here", 11 },
    { "report into b.pdf", "the name must end in .html", 12 },
    { "report into .html", "the name must end in .html", 12 },
    { "report into no/such/b.html", "cannot write `no/such/b.html`: there is no such file or folder", 12 },
    { "report into \"b.html\" now", "unexpected `now`", 21 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
      assert_int_not_equal (sheet_run (sheet, &s, lines[i].line), BR_OK);
      assert_int_equal (s.fault_count, 1);
      assert_string_equal (s.faults[0].error.message, lines[i].message);
      assert_int_equal (s.faults[0].error.offset, lines[i].offset);
      assert_int_equal (access ("b.html", F_OK), -1);
      sheet_end (sheet, &s);
    }
}

static void
wait_ms (long ms)
{
  struct timespec t = { ms / 1000, ms % 1000 * 1000000L };
  nanosleep (&t, NULL);
}

/* Whether G has stopped its work within 20 s.  */
static int
stops (br__guard *g)
{
  for (int i = 0; i < 2000 && !br__guard_is_over (g); i++)
    wait_ms (10);
  /* It stays so.  */
  wait_ms (120);
  return br__guard_is_over (g);
}

/* Work ends when the user asks for it or takes too much memory, and the next begins anew.  */
static void
guards (void **state)
{
  volatile sig_atomic_t flag = 0;
  br__guard *g = NULL;
  (void) state;
  check_ok (br__guard_new (&g, &flag));
  const volatile sig_atomic_t *over = br__guard_begin (g);
  wait_ms (120);
  assert_int_equal (*over, 0);
  flag = 1;
  assert_true (stops (g));
  assert_true (*over);
  assert_string_equal (br__guard_reason (g), "stopped");
  br__guard_end (g);
  flag = 0;
#if defined __GLIBC__ && __GLIBC_PREREQ (2, 33)
  if (!check_watched ())
    {
      br__guard_begin (g);
      char *volatile held = malloc ((size_t) (BR__GUARD_MEBIBYTES + 1) << 20);
      assert_non_null (held);
      assert_true (stops (g));
      assert_string_equal (br__guard_reason (g), "stopped: more than 256 MiB of memory");
      br__guard_end (g);
      free (held);
    }
#endif
  br__guard_free (g);
}

typedef struct stopping { volatile sig_atomic_t flag; char mistake[100]; } stopping;

static void
ask_to_stop (void *user, const char *what, int percent)
{
  (void) what;
  (void) percent;
  ((stopping *) user)->flag = 1;
}

static void
keep_mistake (void *user, const br_record *record)
{
  const br_list *list = br_record_list (record, "mistakes");
  size_t n = br_list_size (list);
  if (n && strcmp (br_record_kind (record), "review") == 0)
    snprintf (((stopping *) user)->mistake, sizeof ((stopping *) user)->mistake, "%s", br_list_text (list, n - 1));
}

/* A design that was stopped while it was looked over is not told of as a whole one.  */
static void
stopped (void **state)
{
  static const char line[] = "review a.txt";
  stopping s = { .flag = 0 };
  br_sink sink = { .user = &s, .record = keep_mistake, .progress = ask_to_stop };
  br_sheet *sheet = sheet_with ("");
  FILE *file = fopen ("a.txt", "w");
  (void) state;
  assert_non_null (file);
  for (int i = 0; i < 25000; i++)
    fprintf (file, "x = sin %d + 2 ^ (1/7)\n", i);
  assert_int_equal (fclose (file), 0);
  br_sheet_watch (sheet, &s.flag);
  (void) !br_sheet_run (sheet, line, sizeof line - 1, "test", 1, &sink);
  br_sheet_free (sheet);
  assert_true (strncmp (s.mistake, "line ", 5) == 0 && strstr (s.mistake, ": stopped"));
}

/* The figure, for which scale after scale is tried, ends too.  */
static void
stopped_figure (void **state)
{
  static const char line[] = "review boxes.txt";
  clock_t took[2];
  FILE *file = fopen ("boxes.txt", "w");
  (void) state;
  assert_non_null (file);
  for (int i = 0; i < 160; i++)
    fprintf (file, "box c%d = %d x %d at %d, %d deep %d\n", i, i % 9 + 1, i % 4 + 1, i % 40, i / 40, i % 7 + 1);
  assert_int_equal (fclose (file), 0);
  for (int i = 0; i < 2; i++)
    {
      stopping s = { .flag = 0 };
      br_sink sink = { .user = &s, .progress = i ? ask_to_stop : NULL };
      br_sheet *sheet = sheet_with ("");
      br_sheet_watch (sheet, &s.flag);
      took[i] = clock ();
      (void) !br_sheet_run (sheet, line, sizeof line - 1, "test", 1, &sink);
      took[i] = clock () - took[i];
      br_sheet_free (sheet);
    }
  assert_true (took[1] < took[0] / 4 * 3);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (letters), CHECK_TEST (pieces), CHECK_TEST (cart), CHECK_TEST (rows), CHECK_TEST (checks), CHECK_TEST (plan), CHECK_TEST (sticks), CHECK_TEST (cautions),
    CHECK_TEST (little),
    CHECK_TEST (metric), CHECK_TEST (drawing_with_table), CHECK_TEST (scale_of_the_figure), CHECK_TEST (hostile), CHECK_TEST (random_texts), CHECK_TEST (reader), CHECK_TEST (mistakes), CHECK_TEST (guards), CHECK_TEST (test_power), CHECK_TEST (stopped), CHECK_TEST (stopped_figure)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, source_enter, lesson_leave));
}
