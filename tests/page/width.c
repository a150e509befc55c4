/* SPDX-License-Identifier: GPL-3.0-or-later
   width.c - the room that a text of a drawing is given, against what the painter's own font takes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#include <dlfcn.h>

#include "draw/drawing.h"

static const br_painter *painter;
static br_page *page;

static int
open_page (void **state)
{
  char path[4096];
  const char *folder = getenv ("builddir");
  (void) state;
  snprintf (path, sizeof path, "%s/.libs/libbenchrule-draw.so", folder ? folder : ".");
  void *module = dlopen (path, RTLD_NOW | RTLD_LOCAL);
  painter = module ? dlsym (module, "br_draw_painter") : NULL;
  if (!painter)
    return 0;
  return painter->open (&page, "pdf", 8 * BR_PAGE_INCH, 8 * BR_PAGE_INCH, "", NULL) == BR_OK ? 0 : -1;
}

static int
close_page (void **state)
{
  (void) state;
  if (painter)
    painter->drop (page);
  return 0;
}

/* What TEXT takes in letters of SIZE points, in billionths of an inch.  */
static int64_t
taken (const char *text, int size, int bold)
{
  int32_t width = 0;
  br_page_text t = { .text = text, .size = size * (BR_PAGE_INCH / 72), .bold = bold };
  painter->text (page, &width, &t, 0);
  return (int64_t) width * BR__INCH / BR_PAGE_INCH;
}

static void
fits (const char *text, int size, int bold)
{
  int64_t room = br__text_width (text, size * BR__POINT), found = taken (text, size, bold);
  /* Bold letters have a tenth less room, as the title block gives them.  */
  if (found > (bold ? room * 10 / 9 : room))
    fail_msg ("`%s` takes %" PRId64 " of %" PRId64 " billionths of an inch", text, found, room);
}

static void
test_words (void **state)
{
  static const char *const words[] =
  {
    "2-3/8", "≈4-9/16", "front_mudguard R 2-1/16", "rear ⌀ 3-1/2", "shaft, ≈30 long", "8x 2-5/16", "88.9", "4' 2-3/8\"",
    "WWW", "MMMMM", "wwww", "mmm", "OOOO", "HHH", "QQQQ", "DDNNGG", "@", "%%%", "iiii", "llll", "1111", "00000",
    "____", "----", "+++", "===", "###", "&&&&", "Ñandú", "Größe", "ŵŵŵ", "ŒŒŒ", "ЖЖЖЖ", "ЩЩЩЩ", "ШШШ", "ﬃﬃ", "木材木材",
    "drill 15/32", "⌀ ≈3/8, nearest drill 13/32", "No room on the drawing for:", "lid needs a place", "AVAVAV", "~~~"
  };
  (void) state;
  if (!painter)
    skip ();
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    for (int size = 7; size <= 12; size++)
      {
        fits (words[i], size, 0);
        if (size == 10)
          fits (words[i], size, 1);
      }
}

/* Each character of ASCII alone, and texts of many.  */
static void
test_characters (void **state)
{
  (void) state;
  if (!painter)
    skip ();
  for (int c = ' '; c < 127; c++)
    {
      char text[8] = { (char) c, (char) c, (char) c, 0 };
      fits (text, 9, 0);
      fits (text, 9, 1);
    }
  for (long n = 0; n < check_times (300); n++)
    {
      char text[40];
      size_t length = 1 + (size_t) check_below (38);
      for (size_t i = 0; i < length; i++)
        text[i] = (char) check_between (' ', 126);
      text[length] = 0;
      fits (text, 9, 0);
    }
}

/* No more room than a quarter over what is taken, so that texts find a place.  */
static void
test_not_wasted (void **state)
{
  static const char *const words[] = { "2-3/8", "front_mudguard", "21-3/4", "shaft, 30 long", "deck" };
  (void) state;
  if (!painter)
    skip ();
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    assert_true (br__text_width (words[i], 9 * BR__POINT) < taken (words[i], 9, 0) * 8 / 5);
}

/* What the painter does not draw on, and a page of each form.  */
static void
test_pages (void **state)
{
  static const struct { const char *form; int32_t width, height; br_status status; const char *says; } wrong[] =
  {
    { "bmp", BR_PAGE_INCH, BR_PAGE_INCH, BR_DOMAIN, "pages are drawn as pdf, svg or png" },
    { "pdf", 0, BR_PAGE_INCH, BR_TOO_BIG, "a page must be over 0 and at most 200 in wide and high" },
    { "svg", BR_PAGE_INCH, -1, BR_TOO_BIG, "a page must be over 0 and at most 200 in wide and high" },
    { "png", 201 * BR_PAGE_INCH, BR_PAGE_INCH, BR_TOO_BIG, "a page must be over 0 and at most 200 in wide and high" },
  };
  /* How such files begin: PDF by ISO 32000-1, 7.5.2, PNG by ISO/IEC 15948, 5.2.  */
  static const char *const forms[][2] = { { "pdf", "%PDF-" }, { "svg", "<?xml" }, { "png", "\x89PNG\r\n\x1a\n" } };
  br_page_text text = { .x = BR_PAGE_INCH, .y = BR_PAGE_INCH, .text = "2-3/8", .size = BR_PAGE_INCH / 6 };
  (void) state;
  if (!painter)
    skip ();
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    {
      br_page *made = NULL;
      br_error error;
      assert_int_equal (painter->open (&made, wrong[i].form, wrong[i].width, wrong[i].height, "", &error), wrong[i].status);
      assert_int_equal (painter->open (&made, wrong[i].form, wrong[i].width, wrong[i].height, "", NULL), wrong[i].status);
      assert_null (made);
      assert_int_equal (error.status, wrong[i].status);
      assert_string_equal (error.message, wrong[i].says);
    }
  for (size_t i = 0; i < CHECK_COUNT (forms); i++)
    {
      br_page *made = NULL;
      char *bytes = NULL;
      size_t length = 0;
      check_ok (painter->open (&made, forms[i][0], 2 * BR_PAGE_INCH, 2 * BR_PAGE_INCH, "A page", NULL));
      assert_true (painter->text (made, NULL, &text, 1) > 0);
      check_ok (painter->close (&bytes, &length, made, NULL));
      assert_true (length > 100 && strncmp (bytes, forms[i][1], strlen (forms[i][1])) == 0);
      painter->release (bytes);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    cmocka_unit_test (test_words), CHECK_TEST (test_characters), cmocka_unit_test (test_not_wasted),
    cmocka_unit_test (test_pages)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, open_page, close_page));
}
