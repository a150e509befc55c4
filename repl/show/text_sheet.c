/* SPDX-License-Identifier: GPL-3.0-or-later
   text_sheet.c - answers about a sheet as text: dimensions, what is missing, where one
   comes from, checks, steps, settings and cautions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "escape.h"

#include "show/fields.h"

/* A list of names as one cell; the caller frees it.  */
static char *
join (const br_list *names)
{
  char *text = NULL;
  size_t size = 0;
  FILE *stream = open_memstream (&text, &size);
  if (!stream)
    return NULL;
  for (size_t i = 0; i < br_list_size (names); i++)
    fprintf (stream, "%s%s", i ? ", " : "", br_list_text (names, i));
  return fclose (stream) == 0 ? text : NULL;
}

static void
add_free (table *t, char *text)
{
  table_add (t, text ? text : "");
  free (text);
}

/* A formula that is no more than a measure is what the value shows already.  */
static const char *
formula_of (const br_record *record)
{
  br_number x = BR_NUMBER_ZERO;
  const char *formula = br_record_text (record, "formula");
  int plain = field_number (&x, formula);
  br_number_clear (&x);
  return plain ? "" : formula;
}

/* The value as it is shown; six figures of one that is no fraction, so that the table keeps its width.  */
static void
add_short_value (table *t, const display *d, const br_record *record)
{
  const char *tolerance = br_record_text (record, "tolerance");
  const char *unit = br_record_text (record, "unit");
  br_number n = BR_NUMBER_ZERO;
  char digits[64];
  int waits = strcmp (br_record_text (record, "state"), "waiting") == 0;
  char *shown = text_short (d, br_record_text (record, "shown"), br_record_text (record, "formula"));

  if (!waits && text_is_open (record))
    table_addf (t, "%s%s", display_sign (d, "\xe2\x89\x88 ", "about "), br_record_text (record, "shown"));
  else if (!waits && !*br_record_text (record, "exact") && field_number (&n, br_record_text (record, "decimal"))
      && br_number_write_decimal (digits, sizeof digits, NULL, &n, 6) < sizeof digits)
    table_addf (t, "%s%s%s%s", display_sign (d, "\xe2\x89\x88 ", "about "), digits, *unit ? " " : "", unit);
  else
    table_addf (t, "%s%s%s", waits ? "waits" : shown ? shown : "", *tolerance ? " +- " : "", tolerance);
  free (shown);
  br_number_clear (&n);
}

/* A signed error in few characters: "+1/80", or three figures of one that is no fraction.  */
static void
add_short_error (table *t, const display *d, const br_record *record)
{
  const char *exact = br_record_text (record, "error");
  const char *decimal = br_record_text (record, "error_decimal");
  const char *plus = field_sign (decimal) > 0 ? "+" : "";
  br_number n = BR_NUMBER_ZERO;
  char digits[64] = "";

  char *both = text_mark_unit (record) ? text_record_error (d, record) : *exact ? text_signed (d, exact) : NULL;
  if (both)
    table_add (t, both);
  else if (field_number (&n, decimal) && br_number_write_decimal (digits, sizeof digits, NULL, &n, 3)
           < sizeof digits)
    table_addf (t, "%s%s%s", display_sign (d, "\xe2\x89\x88 ", "about "), plus, digits);
  else
    table_add (t, "");
  free (both);
  br_number_clear (&n);
}

/* The mark and the error, where the value lies between marks.  */
static void
add_mark (table *t, const display *d, const br_record *record)
{
  if (field_sign (br_record_text (record, "error_decimal")) == 0)
    {
      table_add (t, "");
      table_add (t, "");
      return;
    }
  table_add (t, br_record_text (record, "mark"));
  add_short_error (t, d, record);
}

static void
dimension_row (table *t, const display *d, const br_record *record)
{
  const char *shown = br_record_text (record, "shown");
  const char *drawn = br_record_text (record, "drawn");
  int waits = strcmp (br_record_text (record, "state"), "waiting") == 0;
  table_add (t, br_record_text (record, "name"));
  add_short_value (t, d, record);
  add_mark (t, d, record);
  table_add (t, strcmp (drawn, shown) != 0 ? drawn : "");
  table_add (t, formula_of (record));
  if (waits)
    add_free (t, join (br_record_list (record, "waiting")));
  else
    table_add (t, "");
  table_add (t, br_record_text (record, "note"));
}

static void
missing_row (table *t, const display *d, const br_record *record)
{
  (void) d;
  table_add (t, br_record_text (record, "name"));
  br_field by = br_record_get (record, "needed_by");
  if (by.type == BR_FIELD_LIST)
    add_free (t, join (by.value.list));
  else
    table_add (t, br_record_text (record, "needed_by"));
}

static void
setting_row (table *t, const display *d, const br_record *record)
{
  (void) d;
  table_add (t, br_record_text (record, "name"));
  table_add (t, br_record_text (record, "value"));
}

static void
setting_block (const display *d, const br_record *record)
{
  display_put (d, br_record_text (record, "name"));
  display_put (d, " ");
  display_put (d, br_record_text (record, "value"));
  putc ('\n', d->stream);
}

static void
trace_block (const display *d, const br_record *record)
{
  const br_list *uses = br_record_list (record, "uses");
  const br_list *used_by = br_record_list (record, "used_by");
  const char *formula = br_record_text (record, "formula");
  display_put (d, br_record_text (record, "name"));
  display_put (d, *formula ? " = " : "");
  display_put (d, formula);
  fputs ("\n  comes from   ", d->stream);
  display_put (d, br_list_size (uses) ? "" : *formula ? "nothing else: it was given" : "nothing: it was not given yet");
  text_names (d, uses);
  fputs ("\n  is used by   ", d->stream);
  display_put (d, br_list_size (used_by) ? "" : "nothing");
  text_names (d, used_by);
  putc ('\n', d->stream);
}

static void
put_shown (const display *d, const char *before, const br_record *record, const char *key)
{
  char *shown = text_shown (record, key), *text = shown ? text_short (d, shown, br_record_text (record, "formula")) : NULL;
  if (text && *text)
    {
      display_put (d, before);
      display_put (d, text);
    }
  free (shown);
  free (text);
}

/* The state stands first and in words, a failure in capitals.  */
static void
check_block (const display *d, const br_record *record)
{
  const char *state = br_record_text (record, "state");
  const char *note = br_record_text (record, "note");
  int fails = strcmp (state, "fail") == 0;
  display_bold (d, fails);
  display_put (d, fails ? "FAIL" : state);
  if (fails)
    display_bold (d, 0);
  display_put (d, "  ");
  display_put (d, br_record_text (record, "formula"));
  put_shown (d, ": ", record, "left_shown");
  put_shown (d, " against ", record, "right_shown");
  put_shown (d, ", margin ", record, "margin");
  put_shown (d, ", at the worst ", record, "worst_margin");
  /* A bound that is certain, and need not be reached.  */
  if (*br_record_text (record, "worst_margin_shown") && !*br_record_text (record, "worst_margin"))
    display_put (d, " or more");
  put_shown (d, ": ", record, "as_cut");
  putc ('\n', d->stream);
  if (*note)
    {
      display_put (d, "      ");
      display_wrap (d, note, 6, 6);
    }
}

/* Whether STEP comes to about ANSWER and no fraction.  */
static int
comes_to_about (const char *step, const char *answer)
{
  static const char sign[] = " \xe2\x89\x88 ";
  const char *about = strstr (step, sign);
  /* Behind the digits of an answer may stand what they are not told apart from.  */
  size_t length = about ? strlen (about + strlen (sign)) : 0;
  return about && strncmp (about + strlen (sign), answer, length) == 0 && (!answer[length] || answer[length] == ',');
}

static void
steps_block (const display *d, const br_record *record)
{
  const br_list *steps = br_record_list (record, "steps");
  const br_list *rules = br_record_list (record, "rules");
  const char *answer = br_record_text (record, "answer");
  int about = 0;
  for (size_t i = 0; i < br_list_size (rules); i++)
    text_pair (d, "rule", br_list_text (rules, i));
  for (size_t i = 0; i < br_list_size (steps); i++)
    {
      fprintf (d->stream, "%3zu. ", i + 1);
      display_put (d, br_list_text (steps, i));
      putc ('\n', d->stream);
      about |= comes_to_about (br_list_text (steps, i), answer);
    }
  display_put (d, "answer ");
  display_put (d, about ? display_sign (d, "\xe2\x89\x88 ", "about ") : "");
  display_bold (d, 1);
  display_put (d, answer);
  display_bold (d, 0);
  putc ('\n', d->stream);
}

static void
remark_block (const display *d, const br_record *record)
{
  display_wrap (d, br_record_text (record, "message"), 0, 0);
}

static void
opened_block (const display *d, const br_record *record)
{
  const char *title = br_record_text (record, "title");
  const br_list *waiting = br_record_list (record, "waiting"), *failing = br_record_list (record, "failing");
  int64_t pass = br_record_count (record, "pass"), fail = br_record_count (record, "fail");
  int64_t wait = br_record_count (record, "checks_waiting"), open = br_record_count (record, "undecided");
  text_strong (d, br_record_text (record, "file"));
  display_put (d, *title ? ": " : "");
  display_put (d, title);
  display_put (d, *title ? ", " : ": ");
  text_count (d, br_record_count (record, "dimensions"), "dimension", "dimensions");
  putc ('\n', d->stream);
  if (br_list_size (waiting))
    {
      fputs ("  ", d->stream);
      text_count (d, (int64_t) br_list_size (waiting), "waits: ", "wait: ");
      text_names (d, waiting);
      fputs ("; `missing` says what for\n", d->stream);
    }
  if (pass + fail + wait + open)
    {
      fputs ("  ", d->stream);
      text_count (d, pass + fail + wait + open, "check: ", "checks: ");
      fprintf (d->stream, "%" PRId64 " hold%s, %" PRId64 " fail%s", pass, pass == 1 ? "s" : "", fail, fail == 1 ? "s" : "");
      if (wait)
        fprintf (d->stream, ", %" PRId64 " wait%s", wait, wait == 1 ? "s" : "");
      if (open)
        fprintf (d->stream, ", %" PRId64 " cannot be decided", open);
      putc ('\n', d->stream);
    }
  for (size_t i = 0; i < br_list_size (failing); i++)
    {
      const br_record *row = br_list_record (failing, i);
      const char *note = br_record_text (row, "note");
      text_strong (d, "  FAIL  ");
      display_put (d, br_record_text (row, "formula"));
      display_put (d, *note ? "  # " : "");
      display_put (d, note);
      putc ('\n', d->stream);
    }
  if (br_record_count (record, "cautions"))
    {
      fputs ("  ", d->stream);
      text_count (d, br_record_count (record, "cautions"), "caution; `cautions` shows it\n", "cautions; `cautions` shows them\n");
    }
}

#define CAUTION_WIDTH 160     /* characters of a caution that nobody asked for */

/* "slat, rail, axle: ", or "slat, rail and 7 more: " where that would be more than MOST characters.  */
static char *
concerned (const br_record *record, int most)
{
  const br_list *names = br_record_list (record, "concerns");
  size_t count = br_list_size (names), shown = 0;
  char *text = NULL;
  size_t size = 0;
  FILE *stream = open_memstream (&text, &size);
  if (!stream)
    return NULL;
  for (int width = 0; shown < count; shown++)
    {
      const char *name = br_list_text (names, shown);
      width += escape_width (name, strlen (name)) + 2;
      if (shown && width > most)
        break;
      fprintf (stream, "%s%s", shown ? ", " : "", name);
    }
  if (shown < count)
    fprintf (stream, " and %zu more", count - shown);
  if (fclose (stream) != 0)
    {
      free (text);
      return NULL;
    }
  return text;
}

static void
caution_block (const display *d, const br_record *record)
{
  static const char heading[] = "Take care: ", first[] = "; ask your teacher";
  const char *brief = br_record_text (record, "brief");
  int left = CAUTION_WIDTH - (int) strlen (heading) - escape_width (brief, strlen (brief)) - 2;
  char *names = concerned (record, *brief ? left : CAUTION_WIDTH), *line = NULL;
  int own = !*brief && *br_record_text (record, "parts");      /* the message begins with the names */
  const char *colon = names && *names && !own ? ": " : "";
  if (names)
    left -= escape_width (names, strlen (names));
  int length = asprintf (&line, "%s%s%s%s", names && !own ? names : "", colon, *brief ? brief : br_record_text (record, "message"),
                         *brief && left >= (int) strlen (first) ? first : "");
  text_strong (d, heading);
  if (length >= 0)
    display_wrap (d, line, (int) strlen (heading), 2);
  if (!*brief)
    text_source (d, record);
  if (length >= 0)
    free (line);
  free (names);
}

static const char *const dimension_headings[] = { "name", "value", "mark", "error",
                                                  "drawn", "formula", "waits for", "note" };
static const char *const missing_headings[] = { "missing", "needed by" };
static const char *const setting_headings[] = { "setting", "value" };

const text_kind text_sheets[] = {
  { "dimension", NULL, dimension_row, 8, dimension_headings, 4, NULL },
  { "missing", NULL, missing_row, 2, missing_headings, 0, NULL },
  { "setting", setting_block, setting_row, 2, setting_headings, 0, NULL },
  { "trace", trace_block, NULL, 0, NULL, 0, NULL },
  { "check", check_block, NULL, 0, NULL, 0, NULL },
  { "steps", steps_block, NULL, 0, NULL, 0, NULL },
  { "remark", remark_block, NULL, 0, NULL, 0, NULL },
  { "caution", caution_block, NULL, 0, NULL, 0, NULL },
  { "opened", opened_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
