/* SPDX-License-Identifier: GPL-3.0-or-later
   engines.h - what must be so of a sheet, whoever works its formulas out: the value by evaluation, the nominal of
   `stack` and its bounds, the steps of `explain` and their end, what `find` finds put back, the number of a shape,
   the report, and the sheet saved and opened agree, or say that they do not know.  */
#ifndef BR_TESTS_ENGINES_H
#define BR_TESTS_ENGINES_H

#include "statement/random_sheet.h"

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

/* Each name with a tolerance somewhere in it, in AT of eight steps; taken back by one `undo` a name.  The count.  */
static size_t
engines_move (const engines_sheet *e, int *refused)
{
  said s = SAID_ZERO, t = SAID_ZERO;
  size_t moved = 0;
  *refused = 0;
  if (engines_run (e->sheet, &s, "list") != BR_OK)
    engines_fail (e, "list", engines_message (&s));
  for (size_t i = 0; i < s.count && !*refused; i++)
    {
      const char *tolerance = engines_get (&s, i, "tolerance"), *unit = engines_get (&s, i, "unit");
      if (!*tolerance)
        continue;
      *refused = engines_say (e->sheet, &t, "%s = (%s)%s%s + (%d/8) * (%s)", engines_get (&s, i, "name"),
                              engines_get (&s, i, "exact"), *unit ? " * 1 " : "", unit, (int) ENGINES_BELOW (17) - 8,
                              tolerance) != BR_OK;
      moved += !*refused;
    }
  said_clear (&s);
  said_clear (&t);
  return moved;
}

/* BOUND SIGN NAME holds.  */
static void
engines_bound (const engines_sheet *e, const char *bound, const char *unit, const char *sign, const char *name)
{
  char *check = NULL, state[16];
  if (!*bound || asprintf (&check, "(%s)%s%s %s %s", bound, *unit ? " * 1 " : "", unit, sign, name) < 0)
    return;
  engines_judge (state, e, check);
  if (strcmp (state, "pass") != 0)
    engines_fail (e, "a bound of stack", check);
  free (check);
}

/* The nominal of `stack`, and its bounds: no sizes within the tolerances lead out of them.  */
static void
engines_stack (const engines_sheet *e, const char *name, const char *exact, const char *decimal)
{
  said s = SAID_ZERO, t = SAID_ZERO;
  br_status status = engines_say (e->sheet, &s, "stack %s", name);
  const char *nominal = engines_get (&s, 0, "nominal"), *digits = engines_get (&s, 0, "nominal_decimal");
  const char *unit = engines_get (&s, 0, "unit");
  if (status != BR_OK && status != BR_DOMAIN && status != BR_UNDECIDED && status != BR_TOO_BIG)
    engines_fail (e, "stack", engines_message (&s));
  if ((*nominal && strcmp (nominal, exact) != 0) || (*digits && strcmp (digits, decimal) != 0))
    engines_fail (e, "the nominal of stack", *nominal ? nominal : digits);
  for (int i = 0; i < 3 && status == BR_OK && !strchr (unit, '^') && *engines_get (&s, 0, "low"); i++)
    {
      int refused = 0;
      size_t moved = i ? engines_move (e, &refused) : 0;
      engines_bound (e, engines_get (&s, 0, "low"), unit, "<=", name);
      engines_bound (e, engines_get (&s, 0, "high"), unit, ">=", name);
      for (; moved > 0; moved--)
        if (engines_run (e->sheet, &t, "undo") != BR_OK)
          engines_fail (e, "undo of a move", engines_message (&t));
    }
  said_clear (&s);
  said_clear (&t);
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

/* The digits of TEXT up to END, without those of marks such as <td class="r">, one behind the other.  */
static void
engines_digits (char *digits, size_t size, const char *text, const char *end)
{
  size_t count = 0;
  for (char inside = 0; text < end && count + 1 < size; text++)
    {
      /* A mark or a character by its number.  */
      if (*text == '<' || *text == '&')
        inside = *text == '<' ? '>' : ';';
      else if (*text == inside)
        inside = 0;
      if (!inside && *text >= '0' && *text <= '9')
        digits[count++] = *text;
    }
  digits[count] = 0;
}

/* Whether ABOUT, in six digits and any unit, is the decimal and the unit of row I of S.  */
static int
engines_about (const said *s, size_t i, const char *about, const char *end)
{
  char text[200];
  br_measure m = BR_MEASURE_ZERO, n = BR_MEASURE_ZERO;
  br_number slack = BR_NUMBER_ZERO;
  snprintf (text, sizeof text, "%s %s", engines_get (s, i, "decimal"), engines_get (s, i, "unit"));
  int same = br_measure_read (&m, text, strlen (text), NULL, NULL) == BR_OK
             && br_measure_read (&n, about, (size_t) (end - about), NULL, NULL) == BR_OK
             && br_number_sub (&n.value, &n.value, &m.value) == BR_OK && br_number_set_ratio (&slack, 1, 100000) == BR_OK
             && br_number_mul (&slack, &slack, &m.value) == BR_OK && br_number_abs (&n.value, &n.value) == BR_OK
             && br_number_abs (&slack, &slack) == BR_OK && br_number_cmp (&n.value, &slack) <= 0;
  br_number_clear (&slack);
  br_measure_clear (&m), br_measure_clear (&n);
  return same;
}

/* The value of each name in the report is the one that `list` shows.  */
static void
engines_report (const engines_sheet *e)
{
  char path[] = "/tmp/benchrule-engines-XXXXXX.html", cell[64], expected[400], found[400];
  said s = SAID_ZERO;
  int file = mkstemps (path, 5);
  if (file < 0 || engines_say (e->sheet, &s, "report into %s", path) != BR_OK)
    engines_fail (e, "report", engines_message (&s));
  /* It is another file now.  */
  close (file);
  file = open (path, O_RDONLY);
  off_t size = lseek (file, 0, SEEK_END);
  char *page = calloc (1, (size_t) size + 1);
  if (!page || pread (file, page, (size_t) size, 0) != size || engines_run (e->sheet, &s, "list") != BR_OK)
    engines_fail (e, "report", path);
  close (file);
  unlink (path);
  const char *table = strstr (page, "<table");
  for (size_t i = 0; i < s.count; i++)
    {
      snprintf (cell, sizeof cell, "<th scope=\"row\">%s</th><td>", engines_get (&s, i, "name"));
      const char *shown = engines_get (&s, i, "shown"), *at = table ? strstr (table, cell) : NULL;
      const char *end = at ? strstr (at += strlen (cell), "</td>") : NULL, *spoken = at ? strstr (at, "<span class=\"r\">") : NULL;
      const char *band = at ? strstr (at, " \xc2\xb1") : NULL;
      if (!end)
        engines_fail (e, "the report has no such name", cell);
      end = band && band < end ? band : end;
      engines_digits (found, sizeof found, at, spoken && spoken < end ? spoken : end);
      if (strncmp (at, "\xe2\x89\x88 ", 4) == 0 && engines_about (&s, i, at + 4, spoken && spoken < end ? spoken : end))
        continue;
      engines_digits (expected, sizeof expected, shown, shown + strlen (shown));
      if (strcmp (found, expected) != 0)
        engines_fail (e, "the report", found);
    }
  free (page);
  said_clear (&s);
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
      char exact[2048], decimal[2048];
      snprintf (exact, sizeof exact, "%s", engines_get (&s, 0, "exact"));
      snprintf (decimal, sizeof decimal, "%s", engines_get (&s, 0, "decimal"));
      engines_stack (e, e->names[i], exact, decimal);
      engines_find (e, e->names[i]);
      if (e->kinds[i] == LENGTH)
        engines_shape (e, e->names[i]);
    }
  engines_saved (e);
  if (ENGINES_BELOW (8) == 0)
    engines_report (e);
  char *after = engines_values (e->sheet);
  if (strcmp (before, after) != 0)
    engines_fail (e, "what was taken back is still there", after);
  free (before);
  free (after);
  said_clear (&s);
}

#endif
