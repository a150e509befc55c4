/* SPDX-License-Identifier: GPL-3.0-or-later
   random_sheet.h - a random sheet over every function, operator, unit and shape function of the language.

   Whoever includes this says where choices come from, ENGINES_BELOW (n), and how a test fails,
   ENGINES_FAIL (format, ...).  */
#ifndef BR_TESTS_RANDOM_SHEET_H
#define BR_TESTS_RANDOM_SHEET_H

#include <fcntl.h>
#include <stdarg.h>
#include <unistd.h>

#include "said.h"

#define ENGINES_UNUSED __attribute__ ((unused))
#define ENGINES_COUNT(array) (sizeof (array) / sizeof *(array))
#define ENGINES_LINES 24
#define ENGINES_ABOUT " \xe2\x89\x88 "

/* ---- What is said ---- */

static br_status
engines_run (br_sheet *sheet, said *s, const char *text)
{
  br_sink sink = { .user = s, .record = said_take_record, .fault = said_take_fault };
  said_clear (s);
  return br_sheet_run (sheet, text, strlen (text), "engines", 1, &sink);
}

static br_status engines_say (br_sheet *sheet, said *s, const char *format, ...)
  __attribute__ ((format (printf, 3, 4)));

static br_status
engines_say (br_sheet *sheet, said *s, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  char *line = said_line (format, args);
  va_end (args);
  br_status status = engines_run (sheet, s, line);
  free (line);
  return status;
}

/* The value at PATH of record INDEX, "" where there is none.  */
static const char *
engines_get (const said *s, size_t index, const char *path)
{
  const char *value = said_find (s, index, path);
  return value && strcmp (value, "null") != 0 ? value : "";
}

static const char *
engines_message (const said *s)
{
  return s->fault_count ? s->faults[0].error.message : "nothing is wrong";
}

/* ---- A random sheet ---- */

/* What a formula comes to.  */
typedef enum engines_kind { PLAIN, LENGTH, ANGLE, OTHER } engines_kind;

typedef struct engines_sheet
{
  char *lines[ENGINES_LINES];   /* of the names, in order */
  char names[ENGINES_LINES][12];
  engines_kind kinds[ENGINES_LINES];
  size_t given, count;          /* the first are given, those behind are formulas */
  char *settings, *shapes;
  br_sheet *sheet;
} engines_sheet;

/* Names that the functions have for their own values, too.  */
static const char *const engines_names[] =
  { "a", "r", "gap", "chord", "wheelbase", "x", "rise", "front_dia", "b", "width", "front", "d", "clearance", "rear" };

static const char *
engines_pick (const char *const *words, size_t count)
{
  return words[ENGINES_BELOW (count)];
}

#define ENGINES_PICK(words) engines_pick ((words), ENGINES_COUNT (words))

static void engines_put (FILE *out, const engines_sheet *e, engines_kind kind, int depth);

/* A number of up to three digits with a fraction, and its unit.  */
static void
engines_put_number (FILE *out, engines_kind kind)
{
  static const char *const units[] = { " in", "\"", " mm", " ft", " cm", " thou", " box", " m" };
  unsigned whole = (unsigned) ENGINES_BELOW (12), d = 1u << ENGINES_BELOW (6), n = d > 1 ? 1 + 2 * (unsigned) ENGINES_BELOW (d / 2) : 0;
  switch (kind == ANGLE ? 0 : ENGINES_BELOW (6))
    {
    case 0: fprintf (out, "%u", whole + 1); break;
    case 1: fprintf (out, "%u.%u", whole, 1 + (unsigned) ENGINES_BELOW (99)); break;
    case 2: fprintf (out, "(%u + %u/%u)", whole, 1 + (unsigned) ENGINES_BELOW (8), 3 + (unsigned) ENGINES_BELOW (9));
            fputs (kind == LENGTH ? " * 1 in" : "", out); return;
    default: fprintf (out, n ? "%u-%u/%u" : "%u", n ? whole + 1 : whole + 1, n, d); break;
    }
  if (kind == LENGTH)
    fputs (ENGINES_PICK (units), out);
  else if (kind == ANGLE)
    fprintf (out, "%u deg", (unsigned) ENGINES_BELOW (9));
}

/* A name of KIND, or a number where there is none.  */
static void
engines_put_name (FILE *out, const engines_sheet *e, engines_kind kind)
{
  size_t start = e->count ? ENGINES_BELOW (e->count) : 0;
  for (size_t i = 0; i < e->count; i++)
    if (e->kinds[(start + i) % e->count] == kind)
      {
        fputs (e->names[(start + i) % e->count], out);
        return;
      }
  engines_put_number (out, kind);
}

static void
engines_put_call (FILE *out, const engines_sheet *e, const char *name, engines_kind kind, unsigned count, int depth)
{
  fprintf (out, "%s(", name);
  for (unsigned i = 0; i < count; i++)
    {
      fputs (i ? ", " : "", out);
      engines_put (out, e, kind, depth - 1);
    }
  fputc (')', out);
}

/* LEFT SIGN RIGHT in brackets.  */
static void
engines_put_pair (FILE *out, const engines_sheet *e, engines_kind left, const char *sign, engines_kind right, int depth)
{
  fputc ('(', out);
  engines_put (out, e, left, depth - 1);
  fputs (sign, out);
  engines_put (out, e, right, depth - 1);
  fputc (')', out);
}

/* What takes values of KIND and gives one of KIND, whatever the kind.  */
static void
engines_put_same (FILE *out, const engines_sheet *e, engines_kind kind, int depth)
{
  static const char *const many[] = { "max", "min", "sum", "mean" };
  switch (ENGINES_BELOW (6))
    {
    case 0: engines_put_pair (out, e, kind, " + ", kind, depth); break;
    case 1: engines_put_pair (out, e, kind, " - ", kind, depth); break;
    case 2: engines_put_pair (out, e, kind, " * ", PLAIN, depth); break;
    case 3: engines_put_pair (out, e, kind, " / ", PLAIN, depth); break;
    case 4: fputs ("-(", out), engines_put (out, e, kind, depth - 1), fputc (')', out); break;
    default: engines_put_call (out, e, ENGINES_PICK (many), kind, 1 + (unsigned) ENGINES_BELOW (3), depth); break;
    }
}

/* Functions of lengths or of plain numbers.  */
static void
engines_put_function (FILE *out, const engines_sheet *e, engines_kind kind, int depth)
{
  static const struct { const char *name; unsigned count; } rows[] =
    { { "radius", 1 }, { "diameter", 1 }, { "circumference", 1 }, { "diagonal", 2 }, { "rise", 2 }, { "radius_from", 2 },
      { "fender_radius", 2 }, { "fender_outer", 3 }, { "fender_gap", 2 }, { "wheel_gap", 3 }, { "wheelbase_for", 3 },
      { "axle_length", 5 }, { "clearance_hole", 2 }, { "abs", 1 }, { "nearest", 1 }, { "up", 1 }, { "down", 1 },
      { "full", 1 }, { "drawn", 1 } };
  static const char *const curved[] = { "chord", "arc_length" };
  static const char *const marks[] = { "nearest", "up", "down" };
  size_t row = ENGINES_BELOW (ENGINES_COUNT (rows) + 4);
  if (row < ENGINES_COUNT (rows))
    engines_put_call (out, e, rows[row].name, kind, rows[row].count, depth);
  else if (row == ENGINES_COUNT (rows))
    {
      fprintf (out, "%s(", ENGINES_PICK (curved));
      engines_put (out, e, kind, depth - 1);
      fputs (", ", out), engines_put (out, e, ANGLE, depth - 1), fputc (')', out);
    }
  else if (row == ENGINES_COUNT (rows) + 1)
    {
      fprintf (out, "%s(", ENGINES_PICK (marks));
      engines_put (out, e, kind, depth - 1);
      fprintf (out, kind == LENGTH ? ", 1/%u in)" : ", 1/%u)", 1u << ENGINES_BELOW (6));
    }
  else if (row == ENGINES_COUNT (rows) + 2)
    {
      fputs ("drill(abs(", out), engines_put (out, e, kind, depth - 1);
      fprintf (out, ") / %u)", 20 + (unsigned) ENGINES_BELOW (200));
    }
  else
    {
      fputs ("sqrt((", out), engines_put (out, e, kind, depth - 1);
      fputs (")^2 + (", out), engines_put (out, e, kind, depth - 1), fputs (")^2)", out);
    }
}

/* An area, a volume, one over a length, or a higher power.  */
static void
engines_put_power (FILE *out, const engines_sheet *e)
{
  static const char *const signs[] = { " * ", "^2 * ", " / 1 in^", "^3 * ", "^-1 / " };
  size_t which = ENGINES_BELOW (ENGINES_COUNT (signs));
  engines_put (out, e, LENGTH, 1);
  fputs (signs[which], out);
  if (which == 2)
    fprintf (out, "%u", 2 + (unsigned) ENGINES_BELOW (3));
  else
    engines_put (out, e, LENGTH, 1);
}

/* What gives KIND out of something else.  */
static void
engines_put_other (FILE *out, const engines_sheet *e, engines_kind kind, int depth)
{
  static const char *const round[] = { "sin", "cos", "tan" };
  static const char *const sides[] = { "left", "right", "top", "bottom", "centre_x", "centre_y" };
  static const char *const shapes[] = { "deck", "wheel", "hub", "hood", "brace", "shelf" };
  if (kind == ANGLE)
    engines_put_call (out, e, "atan", PLAIN, 1, depth);
  else if (kind == LENGTH && !e->shapes)
    engines_put_name (out, e, LENGTH);
  else if (kind == LENGTH && ENGINES_BELOW (4) == 0)
    {
      size_t first = ENGINES_BELOW (ENGINES_COUNT (shapes));
      fprintf (out, "clear(%s, %s)", shapes[first], shapes[(first + 1 + ENGINES_BELOW (ENGINES_COUNT (shapes) - 1)) % ENGINES_COUNT (shapes)]);
    }
  else if (kind == LENGTH && ENGINES_BELOW (3))
    fprintf (out, "%s(%s)", ENGINES_PICK (sides), ENGINES_PICK (shapes));
  else if (kind == LENGTH)
    {
      static const char *const signs[] = { "sqrt(", "-full ", "abs " };
      size_t which = ENGINES_BELOW (ENGINES_COUNT (signs));
      fputs (signs[which], out), engines_put_name (out, e, LENGTH);
      if (which == 0)
        fputs (" * ", out), engines_put (out, e, LENGTH, depth - 1), fputc (')', out);
    }
  else
    switch (ENGINES_BELOW (5))
      {
      case 0: engines_put_call (out, e, ENGINES_PICK (round), ANGLE, 1, depth); break;
      case 1: engines_put_pair (out, e, LENGTH, " / ", LENGTH, depth); break;
      case 2: fputs ("pi", out); break;
      case 3: engines_put_call (out, e, "boxes", LENGTH, 1, depth); break;
      default:
        fputc ('(', out), engines_put (out, e, PLAIN, depth - 1);
        fputs (ENGINES_BELOW (4) ? ")^2" : ")^(1/2)", out);
      }
}

static void
engines_put (FILE *out, const engines_sheet *e, engines_kind kind, int depth)
{
  if (depth <= 0 || ENGINES_BELOW (6) == 0)
    {
      if (ENGINES_BELOW (3))
        engines_put_name (out, e, kind);
      else
        engines_put_number (out, kind);
      return;
    }
  switch (ENGINES_BELOW (4))
    {
    case 0: case 1: engines_put_same (out, e, kind, depth); break;
    case 2: engines_put_other (out, e, kind, depth); break;
    default:
      if (kind == ANGLE)
        engines_put_same (out, e, kind, depth);
      else
        engines_put_function (out, e, kind, depth);
    }
}

/* A name more, given or by a formula; taken off again where the sheet refuses it.  */
static void
engines_add (engines_sheet *e, int given)
{
  said s = SAID_ZERO;
  size_t size, at = e->count;
  engines_kind kind = (engines_kind) (ENGINES_BELOW (5) ? ENGINES_BELOW (2) : 2);
  char *formula = NULL;
  FILE *out = open_memstream (&formula, &size);
  if (!given && ENGINES_BELOW (10) == 0)
    kind = OTHER, engines_put_power (out, e);
  else if (given)
    engines_put_number (out, kind);
  else
    engines_put (out, e, kind, 1 + (int) ENGINES_BELOW (3));
  if (given && kind != ANGLE && ENGINES_BELOW (2))
    fprintf (out, kind == LENGTH ? " +- 1/%u in" : " +- 1/%u", 16u << ENGINES_BELOW (3));
  fclose (out);
  snprintf (e->names[at], sizeof e->names[at], "%s%s", engines_names[at % ENGINES_COUNT (engines_names)],
            at < ENGINES_COUNT (engines_names) ? "" : "_2");
  if (engines_say (e->sheet, &s, "%s = %s", e->names[at], formula) == BR_OK)
    {
      e->kinds[at] = kind;
      e->lines[at] = formula;
      e->count++;
      formula = NULL;
    }
  free (formula);
  said_clear (&s);
}

static void
engines_add_shapes (engines_sheet *e)
{
  said s = SAID_ZERO;
  char *line = NULL, *all = NULL;
  size_t size, whole;
  FILE *shapes = open_memstream (&all, &whole);
  for (int i = 0; i < 6; i++)
    {
      static const char *const beside[] = { "above", "below", "left of", "right of" };
      FILE *out = open_memstream (&line, &size);
      fputs (i == 0 ? "box deck = " : i == 1 ? "circle wheel = " : i == 2 ? "circle hub = " : i == 3 ? "arc hood = fender(wheel, "
             : i == 4 ? "line brace = " : "box shelf = ", out);
      engines_put_name (out, e, LENGTH);
      if (i == 0 || i == 5)
        fputs (" x ", out), engines_put_name (out, e, ENGINES_BELOW (3) ? LENGTH : PLAIN);
      if (i < 2)
        fputs (" at ", out), engines_put (out, e, LENGTH, 1), fputs (", ", out), engines_put_number (out, PLAIN);
      else if (i == 2)
        fprintf (out, " %s wheel by ", ENGINES_PICK (beside)), engines_put_name (out, e, LENGTH);
      else if (i == 3)
        fprintf (out, ", 1/2) %u deg", 90 + 90 * (unsigned) ENGINES_BELOW (4));
      else if (i == 4)
        fputs (", 1 to 7-1/2, ", out), engines_put_name (out, e, LENGTH), fputs (" wide 1/4", out);
      else
        fprintf (out, " %s deck%s", ENGINES_PICK (beside), ENGINES_BELOW (2) ? " by -1/8" : "");
      fclose (out);
      if (engines_run (e->sheet, &s, line) != BR_OK
          && engines_run (e->sheet, &s, i == 0 ? "box deck = 5 x 3/4 at 0, 0" : i == 1 ? "circle wheel = 3 at 9, 1"
                          : i == 2 ? "circle hub = 1 right of wheel" : i == 3 ? "arc hood = fender(wheel, 1/4, 1/2) 180 deg"
                          : i == 4 ? "line brace = 0, 0 to 3, 4" : "box shelf = 3 x 1 above deck") != BR_OK)
        ENGINES_FAIL ("a shape: %s", engines_message (&s));
      fprintf (shapes, "%s\n", line);
      free (line);
      line = NULL;
    }
  fclose (shapes);
  e->shapes = all;
  said_clear (&s);
}

ENGINES_UNUSED static void
engines_make (engines_sheet *e)
{
  static const char *const settings[] =
    { "", "units mm", "units ft", "scale 1/4", "scale 1/4 in = 1 ft", "ruler 1/64", "units cm", "feet on", "ties even", "ruler 1/10" };
  said s = SAID_ZERO;
  memset (e, 0, sizeof *e);
  if (br_sheet_new (&e->sheet) != BR_OK)
    ENGINES_FAIL ("%s", "no memory");
  e->settings = strdup (ENGINES_PICK (settings));
  if (engines_say (e->sheet, &s, "grid 1/4 in\n%s", e->settings) != BR_OK)
    ENGINES_FAIL ("%s: %s", e->settings, engines_message (&s));
  for (int i = 0; i < 5; i++)
    engines_add (e, 1);
  e->given = e->count;
  if (e->count && ENGINES_BELOW (2))
    engines_add_shapes (e);
  for (int i = 0; i < 4; i++)
    engines_add (e, 0);
  said_clear (&s);
}

ENGINES_UNUSED static void
engines_end (engines_sheet *e)
{
  br_sheet_free (e->sheet);
  for (size_t i = 0; i < e->count; i++)
    free (e->lines[i]);
  free (e->settings);
  free (e->shapes);
}

/* Fails with the whole sheet.  */
static void
engines_fail (const engines_sheet *e, const char *what, const char *more)
{
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  fprintf (out, "%s: %s\ngrid 1/4 in\n%s\n", what, more, e->settings);
  for (size_t i = 0; i < e->count; i++)
    {
      if (i == e->given)
        fputs (e->shapes ? e->shapes : "", out);
      fprintf (out, "%s = %s\n", e->names[i], e->lines[i]);
    }
  fclose (out);
  ENGINES_FAIL ("%s", text);
}

#endif
