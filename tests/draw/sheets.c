/* SPDX-License-Identifier: GPL-3.0-or-later
   sheets.c - drawings on paper through a painter that only notes what it is asked for: sheets that join, what is
   cut off, and what becomes of a drawing when the painter or memory gives up.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "draw/drawing.h"
#include "source.h"
#include "told.h"

#define MOST_SHEETS 64

/* What was put on one sheet of paper.  */
typedef struct sheet_notes
{
  int lines, arcs, texts, fills, clips;
  int outside;                  /* strokes that leave the paper and were not cut off */
  char words[16384];            /* the texts, each behind a line end */
} sheet_notes;

struct br_page
{
  int clipped, pens, tags;
};

static struct
{
  sheet_notes sheet[MOST_SHEETS];
  int count, open, closed;
  int32_t width, height;
  char form[8], title[200];
  int fail_open, fail_close;
} notes;

static sheet_notes *
last_sheet (void)
{
  return &notes.sheet[notes.count - 1];
}

static br_status
note_failure (br_error *error, const char *message)
{
  memset (error, 0, sizeof *error);
  error->status = BR_IO;
  snprintf (error->message, sizeof error->message, "%s", message);
  return BR_IO;
}

static br_status
note_open (br_page **page, const char *form, int32_t width, int32_t height, const char *title, br_error *error)
{
  memset (notes.sheet, 0, sizeof notes.sheet);
  notes.count = 1;
  notes.width = width;
  notes.height = height;
  snprintf (notes.form, sizeof notes.form, "%s", form);
  snprintf (notes.title, sizeof notes.title, "%s", title);
  if (notes.fail_open)
    return note_failure (error, "no paper");
  *page = calloc (1, sizeof **page);
  notes.open++;
  return BR_OK;
}

static void
note_next (br_page *page)
{
  assert_false (page->clipped);
  assert_true (notes.count < MOST_SHEETS);
  notes.count++;
}

static void
note_place (const br_page *page, int32_t x, int32_t y)
{
  assert_true (page->pens > 0);
  if (!page->clipped && (x < 0 || y < 0 || x > notes.width || y > notes.height))
    last_sheet ()->outside++;
}

static int32_t
note_text (br_page *page, int32_t *width, const br_page_text *text, int draw)
{
  sheet_notes *s = last_sheet ();
  size_t n = strlen (s->words);
  if (width)
    *width = 0;
  if (!draw)
    return text->size * 6 / 5;
  note_place (page, text->x, text->y);
  s->texts++;
  snprintf (s->words + n, sizeof s->words - n, "\n%s", text->text);
  return text->size * 6 / 5;
}

static br_status
note_close (char **bytes, size_t *length, br_page *page, br_error *error)
{
  assert_int_equal (page->tags, 0);
  free (page);
  notes.closed++;
  if (notes.fail_close)
    return note_failure (error, "the printer is on fire");
  *bytes = malloc (4);
  memcpy (*bytes, "new", 4);
  *length = 3;
  return BR_OK;
}

static void
note_release (char *bytes)
{
  free (bytes);
}

static void
note_drop (br_page *page)
{
  free (page);
  notes.closed++;
}

static void
note_pen (br_page *page, int32_t grey, int round)
{
  assert_true (grey >= 0 && grey < 1000 && round);
  page->pens++;
}

static void
note_fill (br_page *page, const int32_t *corners, size_t count)
{
  for (size_t i = 0; i < count; i++)
    note_place (page, corners[2 * i], corners[2 * i + 1]);
  last_sheet ()->fills++;
}

static void
note_clip (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1)
{
  page->clipped = x1 > x0;
  if (!page->clipped)
    return;
  assert_true (x0 >= 0 && y0 >= 0 && x1 <= notes.width && y1 <= notes.height && y1 > y0);
  last_sheet ()->clips++;
}

/* An outline is one path.  */
static void
note_path (br_page *page, const br_page_step *steps, size_t count)
{
  for (const br_page_step *s = steps; s < steps + count; s++)
    {
      if (s->type == BR_STEP_CLOSE)
        continue;
      assert_true (s->r >= 0 && llabs ((int64_t) s->to - s->from) <= 360000000);
      note_place (page, s->x, s->y);
      last_sheet ()->arcs += s->type == BR_STEP_ARC;
      last_sheet ()->lines += s->type == BR_STEP_LINE;
    }
}

static void
note_stroke (br_page *page, int32_t width, int dashes)
{
  assert_true (page->pens > 0 && width > 0 && dashes >= 0 && dashes <= 2);
}

static void
note_tag (br_page *page, const char *role, const char *description)
{
  page->tags += role ? 1 : -1;
  assert_true (page->tags >= 0 && (!description || strcmp (role, "Figure") == 0));
}

static const br_painter painter = {
  .open = note_open, .next = note_next, .text = note_text, .close = note_close, .release = note_release, .drop = note_drop,
  .pen = note_pen, .fill = note_fill, .clip = note_clip, .path = note_path, .stroke = note_stroke, .tag = note_tag
};

static const br_painter *
find_painter (void *user, br_error *error)
{
  (void) user;
  (void) error;
  return &painter;
}

static const char *const plank =
  "title Long plank\n"
  "box plank = 30 x 4 at 0, 0\n"
  "circle wheel = 3 at 15, 2\n"
  "line brace = 0, 0 to 30, 4 wide 1/2\n"
  "arc rim = bend(5, 1/4) 200 deg from 350 deg at 20, 2\n";

static br_sheet *
sheet_of_plank (void)
{
  br_sheet *sheet = sheet_with (plank);
  br_sheet_set_painter (sheet, find_painter, NULL);
  return sheet;
}

/* ---- Sheets ---- */

static void
test_one (void **state)
{
  br_sheet *sheet = sheet_of_plank ();
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "draw into a.pdf");
  said_is (&s, 0, "pages", "1");
  assert_int_equal (notes.count, 1);
  assert_string_equal (notes.form, "pdf");
  assert_string_equal (notes.title, "Long plank: side view, quarter size, 1:4");
  assert_int_equal (last_sheet ()->clips, 0);
  assert_int_equal (last_sheet ()->outside, 0);
  assert_true (last_sheet ()->arcs >= 5);       /* the wheel, the brace's two ends, the rim's two edges */
  assert_null (strstr (last_sheet ()->words, "joins"));
  sheet_end (sheet, &s);
}

static void
test_many (void **state)
{
  br_sheet *sheet = sheet_of_plank ();
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "draw into a.pdf scale full");
  assert_int_equal (atoi (said_get (&s, 0, "pages")), notes.count);
  assert_true (notes.count >= 4);
  for (int i = 0; i < notes.count; i++)
    {
      const sheet_notes *it = &notes.sheet[i];
      char number[40];
      snprintf (number, sizeof number, ", %d of %d", i + 1, notes.count);
      assert_int_equal (it->clips, strstr (it->words, "Sheet T") ? 0 : 1);
      assert_int_equal (it->outside, 0);
      assert_non_null (strstr (it->words, number));
      assert_non_null (strstr (it->words, "This line is 2 in long"));
      assert_non_null (strstr (it->words, "\nLong plank"));
    }
  sheet_end (sheet, &s);
}

/* The name of SHEET, "A1", from its title block.  */
static void
name_of (char *name, const sheet_notes *sheet)
{
  const char *at = strstr (sheet->words, "Sheet ");
  assert_non_null (at);
  assert_int_equal (sscanf (at, "Sheet %7[A-Z0-9],", name), 1);
}

/* Each sheet names its neighbours, and they name it: across A1 stands beside B1, down above A2.  */
static void
test_neighbours (void **state)
{
  static const struct { const char *side, *other; } sides[] =
  { { "on the right", "on the left" }, { "below", "above" } };
  br_sheet *sheet = sheet_of_plank ();
  said s = SAID_ZERO;
  int joins = 0;
  (void) state;
  sheet_say (sheet, &s, "box post = 3 x 26 at 12, 0\ndraw into a.pdf scale full paper tabloid");
  for (int i = 0; i < notes.count; i++)
    for (int k = 0; k < notes.count; k++)
      for (size_t j = 0; j < CHECK_COUNT (sides); j++)
        {
          char one[8], two[8], there[80], back[80];
          name_of (one, &notes.sheet[i]);
          name_of (two, &notes.sheet[k]);
          snprintf (there, sizeof there, "\n%s joins %s", two, sides[j].side);
          snprintf (back, sizeof back, "\n%s joins %s", one, sides[j].other);
          int beside = j == 0 ? two[0] == one[0] + 1 && strcmp (one + 1, two + 1) == 0
                              : two[0] == one[0] && atoi (two + 1) == atoi (one + 1) + 1;
          assert_int_equal (strstr (notes.sheet[i].words, there) != NULL, beside);
          assert_int_equal (strstr (notes.sheet[k].words, back) != NULL, beside);
          joins += beside;
        }
  assert_true (joins >= 6);
  sheet_end (sheet, &s);
}

/* ---- What fails ---- */

/* What no paper takes, in words and with what to do.  */
static void
test_too_large (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("part floor = 3000 x 2000\npaper letter");
  (void) state;
  br_sheet_set_painter (sheet, find_painter, NULL);
  assert_int_equal (sheet_run (sheet, &s, "template floor into a.pdf"), BR_TOO_BIG);
  assert_string_equal (s.faults[0].error.message, "at this scale the drawing takes more than 200 sheets of paper");
  assert_string_equal (s.faults[0].error.hint, "an .svg file is one sheet, however large");
  sheet_end (sheet, &s);
  sheet = sheet_with ("paper letter margin 3-3/4 in\nbox plank = 20 x 4 at 0, 0");
  br_sheet_set_painter (sheet, find_painter, NULL);
  assert_int_equal (sheet_run (sheet, &s, "draw into a.pdf scale full"), BR_DOMAIN);
  assert_string_equal (s.faults[0].error.message, "the margins leave too little of the paper");
  sheet_end (sheet, &s);
}

/* An arc without breadth is one line, not two on each other.  */
static void
test_edge (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("circle wheel = 2 in at 0, 0\narc edge = fender(wheel, 1/4 in)");
  (void) state;
  br_sheet_set_painter (sheet, find_painter, NULL);
  sheet_say (sheet, &s, "draw into a.pdf");
  assert_int_equal (notes.sheet[0].arcs, 3);   /* the wheel, the edge, the mark of the datum */
  sheet_end (sheet, &s);
}

/* The sheets of a long drawing go on behind Z.  */
static void
test_long (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("paper letter\nbox plank = 280 x 1/2 at 0, 0");
  (void) state;
  br_sheet_set_painter (sheet, find_painter, NULL);
  sheet_say (sheet, &s, "draw into a.pdf scale full");
  assert_true (notes.count > 27);
  assert_non_null (strstr (notes.sheet[26].words, "AA1"));
  sheet_end (sheet, &s);
}

/* Each part on one sheet, as many as there is room for; what is too large for one takes several that join.  */
static void
test_parts (void **state)
{
  br_sheet *sheet = sheet_with ("part lid = 5 x 7\npart deck = 5-1/2 x 7\npart side = 5-1/4 x 7-1/8\n");
  said s = SAID_ZERO;
  (void) state;
  br_sheet_set_painter (sheet, find_painter, NULL);
  sheet_say (sheet, &s, "draw parts into a.pdf scale full");
  assert_int_equal (notes.count, 4);
  said_is (&s, 0, "pages", "4");
  said_is (&s, 0, "paper", "letter");
  assert_non_null (strstr (notes.sheet[0].words, "\nSheet 1 of 4"));
  assert_non_null (strstr (notes.sheet[0].words, "\nlid, make 1"));
  assert_null (strstr (notes.sheet[0].words, "\ndeck"));
  assert_non_null (strstr (notes.sheet[2].words, "\nside, make 1"));
  /* The list, for which there is no room below the last one.  */
  assert_non_null (strstr (notes.sheet[3].words, "\nno.\n1\n2\n3\npart\nlid\ndeck\nside"));
  for (int i = 0; i < notes.count; i++)
    assert_int_equal (notes.sheet[i].outside, 0);
  sheet_say (sheet, &s, "part plank = 30 x 3");
  sheet_say (sheet, &s, "draw parts into a.pdf scale full");
  said_is (&s, 0, "shapes", "4");
  assert_true (notes.count > 5);
  assert_non_null (strstr (notes.sheet[3].words, "joins on the right"));
  sheet_end (sheet, &s);
  unlink ("a.pdf");
}

/* How often PART stands on all sheets of paper.  */
static size_t
times_on_paper (const char *part)
{
  size_t found = 0;
  for (int i = 0; i < notes.count; i++)
    for (const char *s = notes.sheet[i].words; (s = strstr (s, part)) != NULL; s++)
      found++;
  return found;
}

/* A template of HOLES, or of slots from side to side that leave no paper free, as PDF and as SVG: each drill and each row of the
   table is once on paper.  The sheets that have the table alone.  */
static size_t
template_of (int holes, int64_t wide, int64_t high, int slots)
{
  said s = SAID_ZERO;
  char line[200];
  br_sheet *sheet = sheet_with ("");
  br_sheet_set_painter (sheet, find_painter, NULL);
  sheet_say (sheet, &s, "box board = %" PRId64 " x %" PRId64 " at 0, 0 of p", wide, high);
  for (int i = 0; i < holes; i++)
    {
      int64_t x = check_between (8, wide * 16 - 8), y = check_between (8, high * 16 - 8), d = check_between (2, 14);
      if (slots)
        snprintf (line, sizeof line, "line h%d = 1/8, %d/64 to %" PRId64 ", %d/64 wide 1/16 of p hole", i, 8 + i * 13, wide - 1, 9 + i * 13);
      else
        snprintf (line, sizeof line, "circle h%d = %" PRId64 "/16 at %" PRId64 "/16, %" PRId64 "/16 of p hole", i, d, x, y);
      sheet_say (sheet, &s, "%s", line);
    }
  sheet_say (sheet, &s, "template p into a.svg");
  sheet_say (sheet, &s, "template p into a.pdf");
  assert_int_equal (times_on_paper ("drill "), holes);
  /* Alone, or with how far up in the same row.  */
  assert_int_equal (times_on_paper (" across\n") + times_on_paper (" across, "), times_in ("a.svg", " across<") + times_in ("a.svg", " across, "));
  assert_int_equal (times_on_paper (" up\n"), times_in ("a.svg", " up<"));
  assert_int_equal (times_on_paper ("\nSheet "), notes.count);
  for (int i = 0; i < notes.count; i++)
    assert_int_equal (notes.sheet[i].outside, 0);
  sheet_end (sheet, &s);
  unlink ("a.svg");
  unlink ("a.pdf");
  return times_on_paper ("\nSheet T");
}

/* The table of a template stands where the sheets have free paper.  */
static void
test_templates (void **state)
{
  (void) state;
  for (long n = check_times (20); n > 0; n--)
    {
      int64_t wide = check_between (4, 30), high = check_between (3, 14);
      int holes = (int) check_between (1, wide * high / 5 < 24 ? wide * high / 5 : 24);
      assert_int_equal (template_of (holes, wide, high, 0), 0);
    }
  assert_true (template_of (58, 14, 12, 1) > 0);
}

/* What SHEET, which it takes over, has in its table at SCALE stands on paper as in a picture: no row is lost between the sheets, and
   no name has a number that another has, from a try on paper that lay the other way.  */
static void
table_stands (br_sheet *sheet, const char *scale)
{
  said s = SAID_ZERO;
  br_sheet_set_painter (sheet, find_painter, NULL);
  sheet_say (sheet, &s, "draw into a.pdf scale %s", scale);
  sheet_say (sheet, &s, "draw into a.svg scale %s", scale);
  /* Alone, or with how far up in the same row.  */
  assert_int_equal (times_on_paper (" across\n") + times_on_paper (" across, "), times_in ("a.svg", " across<") + times_in ("a.svg", " across, "));
  assert_int_equal (times_on_paper (" up\n"), times_in ("a.svg", " up<"));
  /* Rows are merged as the paper has room for them; what they tell of is the same.  */
  size_t told = 0;
  for (int i = 0; i < notes.count; i++)
    told += told_in (notes.sheet[i].words);
  assert_int_equal (told, told_in_picture ("a.svg"));
  for (int k = 1; k <= 40; k++)
    {
      char number[16];
      snprintf (number, sizeof number, "(%d) ", k);
      assert_true (times_on_paper (number) <= 1);
    }
  sheet_end (sheet, &s);
  unlink ("a.svg");
  unlink ("a.pdf");
}

static void
test_tables (void **state)
{
  static const char *const names[] = { "train", "birdhouse" }, *const scales[] = { "1:2", "1:4", "1:5" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (names); i++)
    for (size_t k = 0; k < CHECK_COUNT (scales); k++)
      {
        char path[PATH_MAX + 40];
        snprintf (path, sizeof path, "%s/tests/data/%s.sheet", source, names[i]);
        table_stands (sheet_open (path), scales[k]);
      }
}

/* Boxes and wheels with names of any length, whose table is as wide as it comes.  */
static void
test_random_tables (void **state)
{
  (void) state;
  for (long n = check_times (20); n > 0; n--)
    {
      said s = SAID_ZERO;
      int count = (int) check_between (6, 16), letters = (int) check_between (1, 16);
      br_sheet *sheet = sheet_with ("");
      for (int i = 0; i < count; i++)
        {
          int64_t x = check_between (0, 300), y = check_between (0, 300);
          sheet_say (sheet, &s, "%s %.*s%d = %s at %" PRId64 "/16, %" PRId64 "/16", i % 3 ? "box" : "circle", letters,
                     "gatepostandhinge", i, i % 3 ? "2-1/4 x 1-3/8" : "1-1/2", x, y);
        }
      said_clear (&s);
      table_stands (sheet, check_between (0, 1) ? "1/4" : "1/2");
    }
}

static void
file_is (const char *name, const char *expected)
{
  char *bytes = lesson_get (name);
  assert_string_equal (bytes, expected);
  free (bytes);
}

static void
test_painter_fails (void **state)
{
  br_sheet *sheet = sheet_of_plank ();
  said s = SAID_ZERO;
  (void) state;
  lesson_put ("a.pdf", "old", 3);
  notes.fail_open = 1;
  assert_int_equal (sheet_run (sheet, &s, "draw into a.pdf"), BR_IO);
  assert_string_equal (s.faults[0].error.message, "no paper");
  notes.fail_open = 0;
  notes.fail_close = 1;
  assert_int_equal (sheet_run (sheet, &s, "draw into a.pdf"), BR_IO);
  assert_string_equal (s.faults[0].error.message, "the printer is on fire");
  assert_int_equal (s.faults[0].error.offset, strlen ("draw into "));
  notes.fail_close = 0;
  file_is ("a.pdf", "old");
  sheet_say (sheet, &s, "draw into a.pdf");
  file_is ("a.pdf", "new");
  assert_int_equal (notes.open, notes.closed);
  sheet_end (sheet, &s);
}

/* Each allocation of LINE refused in turn, after the first EACH fewer and fewer: it is told, nothing is lost, the old file stays
   until the new one is drawn.  */
static void
refuse (const char *line, long each)
{
  said s = SAID_ZERO;
  long refused = 0, late = 0;
  int closed = notes.closed;
  for (long n = 0; ; n += n < each ? 1 : 1 + (long) check_below (1 + (uint64_t) n / 20))
    {
      check_memory_limit (-1);
      br_sheet *sheet = sheet_of_plank ();
      sheet_say (sheet, &s, "part lid = 9 x 5");
      sheet_say (sheet, &s, "part leg = 15 x 3");
      lesson_put ("a.pdf", "old", 3);
      check_memory_left = n;
      br_status status = sheet_run (sheet, &s, line);
      int was_refused = check_memory_refused;
      check_memory_left = -1;
      assert_int_equal (notes.open, notes.closed);
      if (status != BR_OK)
        assert_int_equal (status, BR_NO_MEMORY);
      /* Memory may run out once more when the file is whole and only the answer is left.  */
      if (status == BR_OK || notes.closed > closed)
        late += status != BR_OK;
      else
        file_is ("a.pdf", "old");
      if (status == BR_OK)
        file_is ("a.pdf", "new");
      closed = notes.closed;
      br_sheet_free (sheet);
      if (check_memory_blocks != 0)
        fail_msg ("allocation %ld refused: %ld blocks are lost", n, check_memory_blocks);
      check_memory_free ();
      refused += was_refused;
      if (!was_refused)
        break;
    }
  assert_true (refused > 60 && late < refused / 4);
  said_clear (&s);
}

/* From the outermost of a row, and of a mirror, to each other: 14 in is said by nothing else here.  */
static void
test_copies (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("circle c = 4 at 2, 2\nrow r of c qty 3 by 5\nbox b = 3 x 2 at 20, 6\nmirror m of b about 30\n"
                                "dimension left(r) to right(r) level\ndimension left(r) to right(m) level as \"to the mirror\"\n");
  (void) state;
  sheet_say (sheet, &s, "draw into a.svg scale 1:8");
  lesson_contains ("a.svg", ">14<", 1);
  lesson_contains ("a.svg", ">to the mirror<", 1);
  sheet_end (sheet, &s);
  unlink ("a.svg");
}

static void
test_memory (void **state)
{
  (void) state;
  refuse ("draw into a.pdf scale full", 250 + check_times (750));
  refuse ("draw parts into a.pdf scale full", 20 + check_times (80));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_one), CHECK_TEST (test_many), CHECK_TEST (test_neighbours), CHECK_TEST (test_too_large), CHECK_TEST (test_long), CHECK_TEST (test_edge), CHECK_TEST (test_parts), CHECK_TEST (test_copies),
    CHECK_TEST (test_templates), CHECK_TEST (test_tables), CHECK_TEST (test_random_tables),
    CHECK_TEST (test_painter_fails),
    CHECK_TEST (test_memory)
  };
  check_start ();
  int failed = cmocka_run_group_tests (tests, source_enter, lesson_leave);
  return check_end (failed);
}
