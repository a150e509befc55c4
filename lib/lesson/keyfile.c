/* SPDX-License-Identifier: LGPL-3.0-or-later
   keyfile.c - reading keys and tables of points for grading.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/answer.h"
#include "lesson/keyfile.h"
#include "lesson/worksheet.h"
#include "formula/words.h"

/* A whole number from 1 to MOST, or 0.  Programs write 3.0 for 3 where a cell of the column is empty.  */
size_t
br__cell_number (const char *cell, size_t most)
{
  size_t n = 0, digits = strspn (cell, "0123456789");
  if (digits > 9 || (cell[digits] && strcmp (cell + digits, ".0") != 0))
    return 0;
  for (size_t i = 0; i < digits; i++)
    n = n * 10 + (size_t) (cell[i] - '0');
  return n <= most ? n : 0;
}

/* STATUS is why it cannot be read.  */
static br_status
wrong_cell (br_error *error, br_status status, const char *path, const br__row *row, const char *heading, const char *cell)
{
  if (status == BR_NO_MEMORY)
    return br__fail_plain (error, status, 0, 0);
  if (!*cell)
    return br__fail (error, BR_SYNTAX, 0, 0, "%.*s:%zu: the cell where %s should stand is empty",
                     BR__CLIP (path, 80), row->line, heading);
  return br__fail (error, BR_SYNTAX, 0, 0, "%.*s:%zu: `%.*s` cannot be read as %s", BR__CLIP (path, 80), row->line,
                   BR__CLIP (cell, 30), heading);
}

/* A decimal comma is a point.  */
static br_status
read_measure (br_number *z, const char *cell)
{
  br_measure m = BR_MEASURE_ZERO;
  br_text text = BR_TEXT_ZERO;
  for (const char *s = cell; *s; s++)
    br__text_putc (&text, *s == ',' ? '.' : *s);
  br_status status = text.failed ? BR_NO_MEMORY : br_measure_read (&m, br__text_string (&text), text.length, NULL, NULL);
  br__text_clear (&text);
  if (status == BR_OK)
    status = br_number_set (z, &m.value);
  br_measure_clear (&m);
  return status;
}

/* The columns of a key.  */
typedef struct headings
{
  size_t version, problem, topic, answer, also, steps, exact, unit, form, mark, points, wrong[BR__MOST_WRONG], shows[BR__MOST_WRONG];
} headings;

static size_t
numbered (const br__rows *rows, const char *word, int k)
{
  for (size_t i = 0; i < rows->rows[0].count; i++)
    {
      const char *cell = rows->rows[0].cells[i];
      size_t n = strlen (word);
      if (strncmp (cell, word, n) == 0 && cell[n] == ' ' && cell[n + 1] == '0' + k && !cell[n + 2])
        return i;
    }
  return SIZE_MAX;
}

static br_status
find_headings (headings *h, const br__rows *rows, const char *path, br_error *error)
{
  h->version = br__rows_column (rows, "version");
  h->problem = br__rows_column (rows, "problem");
  h->topic = br__rows_column (rows, "topic");
  h->answer = br__rows_column (rows, "answer");
  h->also = br__rows_column (rows, "also");
  h->steps = br__rows_column (rows, "steps");
  h->exact = br__rows_column (rows, "exact");
  h->unit = br__rows_column (rows, "unit");
  h->form = br__rows_column (rows, "form");
  h->mark = br__rows_column (rows, "mark");
  h->points = br__rows_column (rows, "points");
  for (int k = 0; k < BR__MOST_WRONG && rows->count; k++)
    {
      h->wrong[k] = numbered (rows, "wrong", k + 1);
      h->shows[k] = numbered (rows, "shows", k + 1);
    }
  if (h->version == SIZE_MAX || h->problem == SIZE_MAX || h->exact == SIZE_MAX || h->unit == SIZE_MAX)
    {
      br__fail (error, BR_SYNTAX, 0, 0, "%.*s is no key", BR__CLIP (path, 140));
      br__hint (error, "`key FILE.csv` writes one, without `short`");
      return BR_SYNTAX;
    }
  return BR_OK;
}

static br_status
read_wrong (br__key *key, const headings *h, const br__row *row, const char *path, br_error *error)
{
  for (int k = 0; k < BR__MOST_WRONG; k++)
    {
      const char *value = br__row_cell (row, h->wrong[k]), *shows = br__row_cell (row, h->shows[k]);
      br__mistake mistake = br__mistake_find (shows, strlen (shows));
      if (!*value || mistake == BR__MISTAKES)
        continue;
      br_status status = read_measure (&key->wrong[key->wrong_count], value);
      if (status != BR_OK)
        return wrong_cell (error, status, path, row, "a wrong answer", value);
      key->mistake[key->wrong_count++] = mistake;
    }
  return BR_OK;
}

/* Takes what the teacher made of the answer: where its size is another than the exact one, it counts.  */
static br_status
read_corrected (br__key *key, br__answer *a, const char *cell)
{
  br_error ignored;
  br_number size = BR_NUMBER_ZERO;
  br_status status = br__answer_read (a, cell, key->ask == BR__ASK_COUNT, &ignored);
  if (status == BR_OK)
    status = a->measure.unit || !key->unit ? br_number_set (&size, &a->measure.value)
                                           : br_number_mul (&size, &a->measure.value, &key->step);
  if (status == BR_OK)
    br_number_swap (&a->measure.value, &size);
  br_number_clear (&size);
  return status;
}

static br_status
read_answers (br__key *key, const headings *h, const br__row *row, const char *path, br_error *error)
{
  const char *cells[] = { br__row_cell (row, h->answer), br__row_cell (row, h->also) };
  for (int i = 0; i < 2; i++)
    {
      br__answer a;
      if (!*cells[i])
        continue;
      br_status status = read_corrected (key, &a, cells[i]);
      if (status == BR_OK && i == 0 && !br_number_equal (&a.measure.value, &key->exact))
        {
          br_number_swap (&key->exact, &a.measure.value);
          if (a.measure.unit && a.measure.unit != key->unit)
            {
              key->unit = a.measure.unit;
              status = br_number_set_ratio (&key->step, key->unit->num, key->unit->den);
            }
        }
      else if (status == BR_OK && i == 1)
        {
          br__written f = br__written_of (a.text, a.length);
          br_number_swap (&key->also, &a.measure.value);
          key->also_unit = a.measure.unit ? a.measure.unit : key->unit;
          key->also_ask = key->ask == BR__ASK_COUNT ? key->ask : f.decimal ? BR__ASK_DECIMAL
                          : f.fraction && !f.mixed && f.num > f.den ? BR__ASK_ONE_FRACTION : BR__ASK_LENGTH;
          key->has_also = 1;
          status = a.measure.unit ? br_number_set_ratio (&key->also_step, key->also_unit->num, key->also_unit->den)
                                  : br_number_set (&key->also_step, &key->step);
        }
      br__answer_clear (&a);
      if (status != BR_OK)
        return wrong_cell (error, status, path, row, i ? "another answer" : "an answer", cells[i]);
    }
  return BR_OK;
}

/* "2", "bonus", "2 bonus", or nothing: a point.  */
static br_status
read_worth (br__key *key, const char *cell, const br__row *row, const char *path, br_error *error)
{
  size_t n = strspn (cell, "0123456789");
  char digits[8] = "1";
  if (n && n < sizeof digits)
    {
      memcpy (digits, cell, n);
      digits[n] = 0;
    }
  key->bonus = strcmp (cell + n + (cell[n] == ' '), "bonus") == 0;
  key->worth = br__cell_number (digits, BR__MOST_POINTS);
  return key->worth && (key->bonus || !cell[n]) ? BR_OK : wrong_cell (error, BR_SYNTAX, path, row, "points", cell);
}

static br__ask
ask_of (const char *form)
{
  static const struct { const char *name; br__ask ask; } rows[] =
  {
    { "decimal", BR__ASK_DECIMAL }, { "count", BR__ASK_COUNT }, { "one fraction", BR__ASK_ONE_FRACTION }, { "any", BR__ASK_ANY }
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    if (strcmp (form, rows[i].name) == 0)
      return rows[i].ask;
  return BR__ASK_LENGTH;
}

static br_status
read_key (br__key *key, const headings *h, const br__row *row, const char *path, br_error *error)
{
  const char *exact = br__row_cell (row, h->exact), *unit = br__row_cell (row, h->unit), *mark = br__row_cell (row, h->mark);
  br_status status = br_number_read (&key->exact, exact, strlen (exact), NULL);
  if (status != BR_OK)
    return wrong_cell (error, status, path, row, "an exact answer", exact);
  if (*mark)
    status = br_number_read (&key->mark, mark, strlen (mark), NULL);
  if (status != BR_OK)
    return wrong_cell (error, status, path, row, "a mark", mark);
  key->unit = *unit ? br_unit_find (unit, strlen (unit)) : NULL;
  if (*unit && !key->unit)
    return wrong_cell (error, BR_SYNTAX, path, row, "a unit", unit);
  key->ask = ask_of (br__row_cell (row, h->form));
  key->answer = br__row_cell (row, h->answer);
  key->steps = br__row_cell (row, h->steps);
  status = read_worth (key, br__row_cell (row, h->points), row, path, error);
  if (status != BR_OK)
    return status;
  key->topic = br__row_cell (row, h->topic);
  status = br_number_set_ratio (&key->step, key->unit ? key->unit->num : 1, key->unit ? key->unit->den : 1);
  key->present = 1;
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  status = read_answers (key, h, row, path, error);
  return status == BR_OK ? read_wrong (key, h, row, path, error) : status;
}

static br_status
place_of (size_t *version, size_t *problem, const headings *h, const br__row *row, const char *path, br_error *error)
{
  const char *v = br__row_cell (row, h->version), *p = br__row_cell (row, h->problem);
  *version = br__cell_number (v, BR__MOST_VERSIONS);
  *problem = br__cell_number (p, BR__MOST_PROBLEMS);
  if (!*version)
    return wrong_cell (error, BR_SYNTAX, path, row, "a version", v);
  return *problem ? BR_OK : wrong_cell (error, BR_SYNTAX, path, row, "the number of a problem", p);
}

br_status
br__key_read (br__class *c, const char *path, br_error *error)
{
  br__rows rows = BR__ROWS_ZERO;    /* the keys point into it */
  headings h;
  size_t version, problem;
  br_status status = br__rows_read (&rows, path, error);
  if (status == BR_OK)
    status = find_headings (&h, &rows, path, error);
  for (size_t i = 1; i < rows.count && status == BR_OK; i++)
    {
      status = place_of (&version, &problem, &h, &rows.rows[i], path, error);
      if (status == BR_OK && version > c->versions)
        c->versions = version;
      if (status == BR_OK && problem > c->problems)
        c->problems = problem;
    }
  if (status == BR_OK && !c->problems)
    status = br__fail (error, BR_SYNTAX, 0, 0, "%.*s holds no problems", BR__CLIP (path, 140));
  if (status == BR_OK)
    {
      c->keys = br__alloc_zero (c->versions * c->problems, sizeof *c->keys);
      status = c->keys ? BR_OK : br__fail_plain (error, BR_NO_MEMORY, 0, 0);
    }
  for (size_t i = 1; i < rows.count && status == BR_OK; i++)
    {
      status = place_of (&version, &problem, &h, &rows.rows[i], path, error);
      br__key *key = &c->keys[(version - 1) * c->problems + problem - 1];
      if (key->present)
        status = br__fail (error, BR_SYNTAX, 0, 0, "%.*s:%zu: version %zu has problem %zu twice",
                           BR__CLIP (path, 80), rows.rows[i].line, version, problem);
      if (status == BR_OK)
        status = read_key (key, &h, &rows.rows[i], path, error);
    }
  c->key_rows = rows;
  return status;
}

/* What the key says of problem I, in whichever version has it.  */
static size_t
worth_of (const br__class *c, size_t i)
{
  size_t v = 0;
  while (v + 1 < c->versions && !c->keys[v * c->problems + i].present)
    v++;
  return c->keys[v * c->problems + i].present ? c->keys[v * c->problems + i].worth : 1;
}

/* Without a teacher's table: all for right, three quarters where only the form is amiss, half for one
   mark, a sign left off, another unit and a rounded size, nothing else.  */
br_status
br__points_default (br__class *c, br_error *error)
{
  br_status status = BR_OK;
  c->points = br__alloc_zero (c->problems * BR__VERDICTS, sizeof *c->points);
  if (!c->points)
    return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  for (size_t k = 0; k < c->problems * BR__VERDICTS && status == BR_OK; k++)
    {
      size_t i = k % BR__VERDICTS, m = i < BR__JUDGEMENTS ? (size_t) BR__MISTAKES : i - BR__JUDGEMENTS;
      int half = i == BR__ROUNDED || m == BR__MISTAKE_MARK || m == BR__MISTAKE_NO_SIGN || m == BR__MISTAKE_UNIT;
      int64_t quarters = i == BR__RIGHT ? 4 : half ? 2 : i <= BR__NO_UNIT ? 3 : 0;
      status = br_number_set_ratio (&c->points[k], quarters * (int64_t) worth_of (c, k / BR__VERDICTS), 4);
    }
  return status;
}

static br_status
wrong_verdict (br_error *error, const char *path, const br__row *row, const char *name)
{
  br__search search;
  br_status status = wrong_cell (error, BR_SYNTAX, path, row, "a verdict", name);
  br__search_start (&search, name, strlen (name));
  for (size_t k = 0; k < BR__VERDICTS; k++)
    br__search_offer (&search, br__verdict_name (k));
  if (search.best)
    br__hint (error, "did you mean `%s`?", search.best);
  return status;
}

/* The columns of a table of points.  */
typedef struct point_columns { size_t problem, verdict, points; } point_columns;

/* Gives C what ROW says, if it is of the kind PASS: 0 a verdict in all problems, 1 what a problem is worth, 2 a
   verdict in one problem.  */
static br_status
read_points (br__class *c, const point_columns *h, const br__row *row, int pass, const char *path, br_error *error)
{
  const char *problem = br__row_cell (row, h->problem), *name = br__row_cell (row, h->verdict), *value = br__row_cell (row, h->points);
  size_t n = br__cell_number (problem, c->problems), verdict = 0;
  br_number z = BR_NUMBER_ZERO, w = BR_NUMBER_ZERO;
  if (pass != (*problem ? 1 + (*name != 0) : 0))
    return BR_OK;
  if (*problem && !n)
    return wrong_cell (error, BR_SYNTAX, path, row, "the number of a problem", problem);
  while (pass != 1 && verdict < BR__VERDICTS && strcmp (br__verdict_name (verdict), name) != 0)
    verdict++;
  if (verdict == BR__VERDICTS)
    return wrong_verdict (error, path, row, name);
  br_status status = read_measure (&z, value);
  if (status != BR_OK || br_number_sign (&z) < 0)
    status = wrong_cell (error, status, path, row, "points", value);
  /* What the table says a problem is worth stands instead of what the key says.  */
  if (status == BR_OK && pass == 1)
    status = br_number_set_ratio (&w, 1, (int64_t) worth_of (c, n - 1));
  if (status == BR_OK && pass == 1)
    status = br_number_mul (&w, &w, &z);
  for (size_t k = 0; k < c->problems * BR__VERDICTS && status == BR_OK; k++)
    if ((!n || k / BR__VERDICTS == n - 1) && (pass == 1 || k % BR__VERDICTS == verdict))
      status = pass == 1 ? br_number_mul (&c->points[k], &c->points[k], &w) : br_number_set (&c->points[k], &z);
  br_number_clear (&w);
  br_number_clear (&z);
  return status;
}

br_status
br__points_read (br__class *c, const char *path, br_error *error)
{
  br__rows rows = BR__ROWS_ZERO;
  br_status status = br__rows_read (&rows, path, error);
  point_columns h = { br__rows_column (&rows, "problem"), br__rows_column (&rows, "verdict"), br__rows_column (&rows, "points") };
  if (status == BR_OK && ((h.verdict == SIZE_MAX && h.problem == SIZE_MAX) || h.points == SIZE_MAX))
    status = br__fail (error, BR_SYNTAX, 0, 0, "%.*s: the first row must name the columns verdict or problem, and points",
                      BR__CLIP (path, 120));
  for (int pass = 0; pass < 3; pass++)
    for (size_t i = 1; i < rows.count && status == BR_OK; i++)
      status = read_points (c, &h, &rows.rows[i], pass, path, error);
  br__rows_clear (&rows);
  return status;
}
