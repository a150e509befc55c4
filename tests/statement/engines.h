/* SPDX-License-Identifier: GPL-3.0-or-later
   engines.h - a random sheet over every function, operator, unit and shape function of the language, and what must be
   so whoever works its formulas out: the value by evaluation, the nominal of `stack` and its bounds, the steps of
   `explain` and their end, what `find` finds put back, the number of a shape, the report, and the sheet saved
   and opened agree, or say that they do not know.

   Whoever includes this says where choices come from, ENGINES_BELOW (n), and how a test fails,
   ENGINES_FAIL (format, ...).  */
#ifndef BR_TESTS_ENGINES_H
#define BR_TESTS_ENGINES_H

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
  char *line = NULL;
  size_t length;
  va_list args;
  FILE *out = open_memstream (&line, &length);
  va_start (args, format);
  vfprintf (out, format, args);
  va_end (args);
  fclose (out);
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
typedef enum engines_kind { PLAIN, LENGTH, ANGLE } engines_kind;

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
  else if (kind == LENGTH)
    fprintf (out, "%s(%s)", ENGINES_PICK (sides), ENGINES_PICK (shapes));
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
  if (given)
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

/* ---- What must be so ---- */

/* The state of CHECK, which is taken back: "pass", "fail", "undecided", or "refused".  */
static void
engines_judge (char state[16], const engines_sheet *e, const char *check)
{
  said s = SAID_ZERO;
  int good = engines_say (e->sheet, &s, "check %s", check) == BR_OK;
  snprintf (state, 16, "%.15s", good ? engines_get (&s, 0, "state") : "refused");
  if (good && engines_run (e->sheet, &s, "undo") != BR_OK)
    engines_fail (e, "undo of a check", engines_message (&s));
  said_clear (&s);
}

/* LEFT and RIGHT are one value, or, where no number of bits tells, agree to eleven digits.  */
static void
engines_same (const engines_sheet *e, const char *what, const char *left, const char *right, int about)
{
  char state[16] = "undecided", *check = NULL;
  if (!about)
    {
      if (asprintf (&check, "%s = %s", left, right) < 0)
        return;
      engines_judge (state, e, check);
      if (strcmp (state, "pass") != 0 && strcmp (state, "undecided") != 0)
        engines_fail (e, what, check);
      free (check);
    }
  if (strcmp (state, "pass") == 0)
    return;
  for (int i = 0; i < 2; i++)
    {
      if (asprintf (&check, "(%s) - (%s) <= abs(%s) / 10^11", i ? right : left, i ? left : right, right) < 0)
        return;
      engines_judge (state, e, check);
      if (strcmp (state, "pass") != 0)
        engines_fail (e, what, check);
      free (check);
    }
}

/* Each step typed back, and the end of them is the value.  */
static void
engines_explain (const engines_sheet *e, const char *name)
{
  said s = SAID_ZERO;
  char path[32];
  if (engines_say (e->sheet, &s, "explain %s", name) != BR_OK)
    engines_fail (e, "explain", engines_message (&s));
  size_t count = strtoul (engines_get (&s, 0, "steps.count"), NULL, 10);
  char *last = strdup (""), *answer = strdup (engines_get (&s, 0, "answer"));
  for (size_t i = 0; i < count; i++)
    {
      snprintf (path, sizeof path, "steps.%zu", i);
      const char *step = engines_get (&s, 0, path);
      const char *about = strstr (step, ENGINES_ABOUT), *sign = about ? about : strstr (step, " = ");
      if (!sign)
        engines_fail (e, "no equation", step);
      char *left = strndup (step, (size_t) (sign - step));
      const char *right = sign + (about ? strlen (ENGINES_ABOUT) : 3);
      engines_same (e, step, left, right, about != NULL);
      /* What comes behind is the mark.  */
      if (strncmp (left, "nearest(", 8) != 0 && !strstr (step, "* 1/"))
        {
          free (last);
          last = strdup (right);
        }
      free (left);
    }
  /* 120 in^4 would be read as a power of 120 in.  */
  if (*answer && !strchr (answer, '^'))
    engines_same (e, "the answer of explain", name, answer, 1);
  free (last);
  free (answer);
  said_clear (&s);
}

/* The nominal of `stack`, between its bounds.  */
static void
engines_stack (const engines_sheet *e, const char *name, const char *exact, const char *decimal)
{
  said s = SAID_ZERO;
  char *check = NULL, state[16];
  if (engines_say (e->sheet, &s, "stack %s", name) == BR_OK)
    {
      const char *nominal = engines_get (&s, 0, "nominal"), *low = engines_get (&s, 0, "low"), *high = engines_get (&s, 0, "high");
      if (*nominal && strcmp (nominal, exact) != 0)
        engines_fail (e, "the nominal of stack", nominal);
      const char *digits = engines_get (&s, 0, "nominal_decimal");
      if (*digits && strcmp (digits, decimal) != 0)
        engines_fail (e, "the nominal of stack", digits);
      if (*low && *high)
        {
          if (asprintf (&check, "(%s) * 1 <= %s", low, exact) >= 0 && *exact)
            {
              engines_judge (state, e, check);
              if (strcmp (state, "pass") != 0)
                engines_fail (e, "a bound of stack", check);
            }
          free (check);
          if (asprintf (&check, "(%s) * 1 >= %s", high, exact) >= 0 && *exact)
            {
              engines_judge (state, e, check);
              if (strcmp (state, "pass") != 0)
                engines_fail (e, "a bound of stack", check);
            }
          free (check);
        }
    }
  else if (s.faults[0].error.status != BR_DOMAIN && s.faults[0].error.status != BR_UNDECIDED
           && s.faults[0].error.status != BR_TOO_BIG)
    engines_fail (e, "stack", engines_message (&s));
  said_clear (&s);
}

/* What `find` finds is put back.  */
static void
engines_find (const engines_sheet *e, const char *name)
{
  said s = SAID_ZERO, t = SAID_ZERO;
  if (!e->given)
    return;
  const char *input = e->names[ENGINES_BELOW (e->given)];
  char check[4096], state[16];
  if (engines_say (e->sheet, &s, "list") != BR_OK)
    engines_fail (e, "list", engines_message (&s));
  const char *target = "", *unit = "";
  for (size_t i = 0; i < s.count; i++)
    if (strcmp (engines_get (&s, i, "name"), name) == 0)
      target = engines_get (&s, i, "exact"), unit = engines_get (&s, i, "unit");
  if (*target && strlen (target) < 200)
    {
      char goal[400];
      snprintf (goal, sizeof goal, "(%s)%s%s", target, *unit ? " * 1 " : "", unit);
      if (engines_say (e->sheet, &t, "find %s for %s = %s", input, name, goal) == BR_OK)
        for (size_t i = 0; i < t.count; i++)
          {
            const char *exact = engines_get (&t, i, "exact"), *of = engines_get (&t, i, "unit");
            if (strcmp (engines_get (&t, i, "kind"), "found") != 0 || !*exact || strlen (exact) > 400)
              continue;
            /* Another formula, or a shape, may refuse it.  */
            if (engines_say (e->sheet, &s, "%s = (%s)%s%s", input, exact, *of ? " * 1 " : "", of) != BR_OK)
              continue;
            snprintf (check, sizeof check, "%s = %s", name, goal);
            engines_judge (state, e, check);
            if (strcmp (state, "pass") != 0 && strcmp (state, "undecided") != 0)
              {
                char *what = NULL;
                if (asprintf (&what, "%s for %s: %s is found and put back: %s", input, check, exact, state) >= 0)
                  engines_fail (e, "find", what);
              }
            if (engines_run (e->sheet, &s, "undo") != BR_OK)
              engines_fail (e, "undo of what was found", engines_message (&s));
          }
    }
  said_clear (&s);
  said_clear (&t);
}

/* A shape of that size has it.  */
static void
engines_shape (const engines_sheet *e, const char *name)
{
  said s = SAID_ZERO;
  if (engines_say (e->sheet, &s, "box probe = %s x 1 at 0, 0", name) == BR_OK)
    {
      engines_same (e, "the width of a box", name, "right(probe) - left(probe)", 0);
      if (engines_run (e->sheet, &s, "undo") != BR_OK)
        engines_fail (e, "undo of a shape", engines_message (&s));
    }
  said_clear (&s);
}

/* What `list` says of the values, one a line.  To be freed.  */
static char *
engines_values (br_sheet *sheet)
{
  said s = SAID_ZERO;
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  engines_run (sheet, &s, "list");
  for (size_t i = 0; i < s.count; i++)
    fprintf (out, "%s %s %s %s\n", engines_get (&s, i, "name"), engines_get (&s, i, "exact"), engines_get (&s, i, "decimal"),
             engines_get (&s, i, "unit"));
  fclose (out);
  said_clear (&s);
  return text;
}

/* The sheet saved and opened.  */
static void
engines_saved (const engines_sheet *e)
{
  char path[] = "/tmp/benchrule-engines-XXXXXX";
  int file = mkstemp (path);
  br_sheet *other = NULL;
  if (file < 0 || br_sheet_write (e->sheet, path, NULL) != BR_OK || br_sheet_new (&other) != BR_OK)
    engines_fail (e, "save", path);
  close (file);
  br_sheet_run_file (other, path, NULL);
  unlink (path);
  char *now = engines_values (e->sheet), *then = engines_values (other);
  if (strcmp (now, then) != 0)
    engines_fail (e, "saved and opened", then);
  free (now);
  free (then);
  br_sheet_free (other);
}

/* Everything, of each formula of E.  */
ENGINES_UNUSED static void
engines_check (const engines_sheet *e)
{
  said s = SAID_ZERO;
  char *before = engines_values (e->sheet);
  for (size_t i = e->given; i < e->count; i++)
    {
      if (engines_run (e->sheet, &s, e->names[i]) != BR_OK)
        engines_fail (e, e->names[i], engines_message (&s));
      /* The formula itself is the value of the name.  */
      engines_same (e, "a formula", e->names[i], e->lines[i], 0);
      engines_explain (e, e->names[i]);
      char exact[2048], decimal[64];
      snprintf (exact, sizeof exact, "%s", engines_get (&s, 0, "exact"));
      snprintf (decimal, sizeof decimal, "%s", engines_get (&s, 0, "decimal"));
      engines_stack (e, e->names[i], exact, decimal);
      engines_find (e, e->names[i]);
      if (e->kinds[i] == LENGTH)
        engines_shape (e, e->names[i]);
    }
  engines_saved (e);
  char *after = engines_values (e->sheet);
  if (strcmp (before, after) != 0)
    engines_fail (e, "what was taken back is still there", after);
  free (before);
  free (after);
  said_clear (&s);
}

#endif
