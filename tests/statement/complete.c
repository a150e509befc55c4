/* SPDX-License-Identifier: GPL-3.0-or-later
   complete.c - what could stand next, by what stands before; and help for every word.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "formula/functions.h"
#include "statement/statements.h"
#include "phrase/topics.h"
#include "../sheet/support.h"

typedef struct offers
{
  char text[8192];      /* " word word ... " */
  size_t count, start;
  int file;
} offers;

static void
take (void *user, const char *word)
{
  offers *o = user;
  size_t n = strlen (o->text);
  snprintf (o->text + n, sizeof o->text - n, "%s ", word);
  o->count++;
}

static void
complete (offers *o, const br_sheet *sheet, const char *text)
{
  memset (o, 0, sizeof *o);
  strcpy (o->text, " ");
  /* A text that ends where it is said to.  */
  size_t n = strlen (text);
  char *copy = malloc (n ? n : 1);
  memcpy (copy, text, n);
  br_sheet_complete (sheet, copy, n, &o->start, &o->file, take, o);
  assert_true (o->start <= n);
  assert_null (strstr (o->text, "  "));
  free (copy);
}

static int
offered (const offers *o, const char *word)
{
  char padded[80];
  snprintf (padded, sizeof padded, " %s ", word);
  return strstr (o->text, padded) != NULL;
}

/* What is typed; where the word begins; words that are offered and words that are not.  */
static const struct row
{
  const char *text;
  size_t start;
  const char *yes[5], *no[5];
} rows[] = {
  { "", 0, { "round", "fender_radius(", "wheel", "wheelbase", "help" }, { "to", "keep", "half" } },
  { "  ", 2, { "round", "wheel" }, { "to" } },
  { "wh", 0, { "wheel", "wheelbase", "wheel_gap(", "wheelbase_for(" }, { "round", "front", "whole" } },
  { "ro", 0, { "round" }, { "wheel", "redo" } },
  { "round ", 6, { "wheel", "sqrt(", "pi", "keep", "to" }, { "round", "list", "half" } },
  { "round wheel t", 12, { "to", "total" }, { "keep", "wheel" } },
  { "round wheel, fr", 13, { "front" }, { "wheel" } },
  { "x = wheel+fr", 10, { "front" }, { "wheel", "round" } },
  { "x = (wh", 5, { "wheel", "wheelbase", "wheel_gap(" }, { "front" } },
  { "x = sq", 4, { "sqrt(" }, { "round" } },
  { "3 + ", 4, { "wheel", "sqrt(", "pi" }, { "round", "list" } },
  { "trace ", 6, { "wheel", "front", "missing_one" }, { "sqrt(", "round", "to" } },
  { "forget wheel, w", 14, { "wheel", "wheelbase" }, { "wheel_gap(", "front" } },
  { "template ", 9, { "slat", "pine", "hub", "into" }, { "round" } },
  { "part lid = 3 x 2 from p", 22, { "pine" }, { "slat", "hub" } },
  { "box lid = 3 x 2 on h", 19, { "hub" }, { "slat" } },
  { "round h", 6, { NULL }, { "hub" } },
  { "divide wheel into ", 18, { "wheel", "kerf" }, { "round" } },
  { "draw ", 5, { "side", "into", "scale" }, { "wheel", "round" } },
  { "draw in", 5, { "into" }, { "side" } },
  { "draw into a.pdf sc", 16, { "scale" }, { "side" } },
  { "scale h", 6, { "half" }, { "quarter", "wheel", "help" } },
  { "units ", 6, { "in", "mm", "cm", "ft" }, { "wheel", "up" } },
  { "ties ", 5, { "up", "down", "even" }, { "on", "wheel" } },
  { "feet o", 5, { "on", "off" }, { "up" } },
  { "simplest wheel wi", 15, { "within" }, { "to", "wheel" } },
  { "check wheel <= fr", 15, { "front" }, { "round" } },
  { "help r", 5, { "round", "redo", "ruler", "radius(" }, { "wheel", "list" } },
  { "list ", 5, { NULL }, { "wheel", "round" } },
  { "3 # wh", 4, { NULL }, { "wheel", "round" } },
  { "x = 3w", 4, { NULL }, { "wheel" } },
  { "zzz", 0, { NULL }, { "wheel" } },
};

static void
by_context (void **state)
{
  br_sheet *sheet = sheet_with ("wheel = 3\nwheelbase = 14\nfront = wheelbase - wheel\nx = missing_one\ncheck wheel < 4"
                                "\nstock pine = 3/4 x 5 x 48\npart slat = 9 x 2 from pine\ncircle hub = 1 at 0, 0");
  offers o;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      const struct row *r = &rows[i];
      complete (&o, sheet, r->text);
      assert_int_equal (o.file, 0);
      if (o.count && o.start != r->start)
        fail_msg ("\"%s\" begins its word at %zu", r->text, o.start);
      for (size_t k = 0; k < CHECK_COUNT (r->yes) && r->yes[k]; k++)
        if (!offered (&o, r->yes[k]))
          fail_msg ("\"%s\" does not offer %s, but%s", r->text, r->yes[k], o.text);
      for (size_t k = 0; k < CHECK_COUNT (r->no) && r->no[k]; k++)
        if (offered (&o, r->no[k]))
          fail_msg ("\"%s\" offers %s", r->text, r->no[k]);
    }
  br_sheet_free (sheet);
}

static void
files (void **state)
{
  static const struct { const char *text; size_t start; } lines[] = {
    { "open ", 5 }, { "open car", 5 }, { "open plans/ca", 5 }, { "  open  x", 8 }, { "save ", 5 },
    { "draw into ", 10 }, { "draw side into plans/ca", 15 }, { "report  into  c", 14 },
    { "round column 1 of a.csv to 1/8 into b.", 36 },
  };
  br_sheet *sheet = sheet_with ("wheel = 3");
  offers o;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    {
      complete (&o, sheet, lines[i].text);
      assert_int_equal (o.file, 1);
      assert_int_equal (o.count, 0);
      assert_int_equal (o.start, lines[i].start);
    }
  br_sheet_free (sheet);
}

/* No name is offered that cannot be typed, whatever bytes stand before.  */
static void
any_bytes (void **state)
{
  br_sheet *sheet = sheet_with ("wheel = 3\nh\xc3\xb6he = 2\ncheck wheel < h\xc3\xb6he");
  offers o;
  char text[16];
  (void) state;
  complete (&o, sheet, "3 + h\xc3\xb6");
  assert_true (offered (&o, "h\xc3\xb6he"));
  assert_int_equal (o.start, 4);
  complete (&o, sheet, "");
  assert_false (offered (&o, "check 1"));
  for (long i = check_times (5000); i > 0; i--)
    {
      size_t n = check_below (sizeof text);
      for (size_t k = 0; k < n; k++)
        text[k] = (char) (check_below (2) ? check_between (1, 255) : "rw \xc3\xb6\xe2\x85\x9c#3(,"[check_below (12)]);
      text[n] = 0;
      complete (&o, sheet, text);
    }
  br_sheet_free (sheet);
}

/* Every word of the tables has help, which names the word; every form is told.  */
static void
help_for_all (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  char line[80];
  const br__statement *st;
  (void) state;
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    {
      sheet_say (sheet, &s, "help %s", st->word);
      assert_int_equal (s.count, 1);
      said_is (&s, 0, "kind", "help");
      assert_true (strtoul (said_get (&s, 0, "lines.count"), NULL, 10) >= 2);
      assert_non_null (strstr (said_get (&s, 0, "lines.0"), st->word));
    }
  for (size_t i = 0; br__function_at (i); i++)
    {
      const char *name = br__function_at (i)->name;
      sheet_say (sheet, &s, "help %s", name);
      assert_true (strtoul (said_get (&s, 0, "lines.count"), NULL, 10) >= 1);
      assert_non_null (strstr (said_get (&s, 0, "lines.0"), name));
    }
  sheet_say (sheet, &s, "help all");
  size_t lines = strtoul (said_get (&s, 0, "lines.count"), NULL, 10);
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    {
      int found = 0;
      for (size_t k = 0; k < lines && !found; k++)
        {
          snprintf (line, sizeof line, "lines.%zu", k);
          found = strstr (said_get (&s, 0, line), st->form) != NULL;
        }
      if (!found)
        fail_msg ("help does not tell %s", st->form);
    }
  sheet_end (sheet, &s);
}

/* The first page and each topic fit a screen of 24 lines with the prompt, 79 columns wide; a topic names words that
   are known.  The lists of all functions may be longer.  */
static void
topics (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  char line[80];
  (void) state;
  for (const br__topic *t = NULL; ; t++)
    {
      sheet_say (sheet, &s, "help %s", t ? t->word : "");
      size_t lines = strtoul (said_get (&s, 0, "lines.count"), NULL, 10);
      if (lines > 23 && t && strcmp (t->word, "functions") != 0)
        fail_msg ("help %s has %zu lines", t->word, lines);
      for (size_t k = 0; k < lines; k++)
        {
          snprintf (line, sizeof line, "lines.%zu", k);
          if (strlen (said_get (&s, 0, line)) > 79)
            fail_msg ("%s", said_get (&s, 0, line));
        }
      for (const char *w = t && t->words ? t->words : ""; *w; w += strcspn (w, " "), w += *w == ' ')
        if (!br__statement_find (w, strcspn (w, " ")) && !br__function_find (w, strcspn (w, " ")))
          fail_msg ("help %s names %s", t->word, w);
      if (!t)
        t = br__topics - 1;
      if (!t[1].word)
        break;
    }
  sheet_end (sheet, &s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (by_context),
    CHECK_TEST (files),
    CHECK_TEST (any_bytes),
    CHECK_TEST (help_for_all), CHECK_TEST (topics),
  };
  return CHECK_RUN (tests);
}
