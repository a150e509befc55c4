/* SPDX-License-Identifier: LGPL-3.0-or-later
   grade.c - the statement `grade`: every answer judged, a row for each student.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/keyfile.h"
#include "lesson/worksheet.h"
#include "sheet/access.h"

#define CLAUSES "with names points into"

static void
marked_clear (br__marked *m, size_t problems)
{
  for (size_t i = 0; m->cells && i < problems; i++)
    br__text_clear (&m->cells[i].text);
  br__free (m->cells);
  br_number_clear (&m->marks);
  br_number_clear (&m->of);
  br__text_clear (&m->note);
}

static void
class_clear (br__class *c)
{
  for (size_t i = 0; i < c->marked_count; i++)
    marked_clear (&c->marked[i], c->problems);
  br__free (c->marked);
  br__rows_clear (&c->answers);
  br__rows_clear (&c->key_rows);
  br__free (c->columns);
  for (size_t i = 0; c->keys && i < c->versions * c->problems; i++)
    br__key_clear (&c->keys[i]);
  br__free (c->keys);
  for (size_t i = 0; c->points && i < c->problems * BR__VERDICTS; i++)
    br_number_clear (&c->points[i]);
  br__free (c->points);
  for (size_t i = 0; i < c->name_count; i++)
    br__free (c->names[i]);
  br__free (c->names);
  br__free (c->counts);
  br_number_clear (&c->lowest);
  br_number_clear (&c->highest);
  br_real_clear (&c->mean);
  br_real_clear (&c->spread);
}

/* How surely CELL is the heading of problem *N: 2 by its number alone, 1 by a word and the number, 0 not at all.  */
static int
heading_of (size_t *n, const char *cell)
{
  static const char words[] = "problem question task exercise answer item number no nr p q";
  const char *digits = cell + strcspn (cell, "0123456789");
  size_t word = strcspn (cell, " .#0123456789");
  char number[16];
  size_t length = strspn (digits, "0123456789");
  if (!length || length >= sizeof number || digits[length + strspn (digits + length, ".):")]
      || (word && !br__is_among (cell, word, words)) || strspn (cell + word, " .#") != (size_t) (digits - cell) - word)
    return 0;
  memcpy (number, digits, length);
  number[length] = 0;
  *n = br__cell_number (number, BR__MOST_PROBLEMS);
  return *n ? 1 + (digits == cell) : 0;
}

/* Says which columns are left alone.  */
static br_status
tell_left_alone (const br__class *c, br__run *run, size_t answers)
{
  const br__row *row = &c->answers.rows[0];
  br_text t = BR_TEXT_ZERO;
  size_t left = 0;
  br_status status = BR_OK;
  for (size_t i = 0; i < row->count; i++)
    {
      int used = i == c->student || i == c->version || !*row->cells[i];
      for (size_t k = 0; k < c->problems; k++)
        used |= c->columns[k] == i;
      if (!used)
        br__text_printf (&t, "%s%.*s", left++ ? ", " : "", BR__CLIP (row->cells[i], 40));
    }
  if (left && !answers)
    {
      status = br__fail (run->error, BR_SYNTAX, 0, 0, "no column is headed by the number of a problem: %.*s",
                         BR__CLIP (br__text_string (&t), 120));
      br__hint (run->error, "head the answers 1, 2, 3");
    }
  else if (left)
    status = br__remark (run, "column%s left alone: %.*s", left == 1 ? "" : "s", BR__CLIP (br__text_string (&t), 160));
  br__text_clear (&t);
  return status;
}

/* Which column is which: those headed by a problem's number hold its answers.  */
static br_status
find_columns (br__class *c, br__run *run, const char *path)
{
  size_t n = 0, answers = 0;
  c->student = br__rows_column (&c->answers, "student name");
  c->version = br__rows_column (&c->answers, "version");
  if (c->student == SIZE_MAX || c->version == SIZE_MAX)
    return br__fail (run->error, BR_SYNTAX, 0, 0, "%.*s: the first row must name the columns student and version",
                     BR__CLIP (path, 120));
  c->columns = br__alloc_zero (c->problems, sizeof *c->columns);
  c->counts = br__alloc_zero (c->problems * BR__VERDICTS, sizeof *c->counts);
  if (!c->columns || !c->counts)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  for (size_t i = 0; i < c->problems; i++)
    c->columns[i] = SIZE_MAX;
  for (int sure = 2; sure > 0; sure--)
    for (size_t i = 0; i < c->answers.rows[0].count; i++)
      if (i != c->student && i != c->version && heading_of (&n, c->answers.rows[0].cells[i]) == sure
          && n <= c->problems && c->columns[n - 1] == SIZE_MAX)
        {
          c->columns[n - 1] = i;
          answers++;
        }
  return tell_left_alone (c, run, answers);
}

enum { ANSWERS, KEY, NAMES, POINTS, MARKS, PATHS };

/* The names of the files, by the words before them, and where they stand.  */
static br_status
read_paths (char **paths, size_t *starts, size_t *ends, br__run *run)
{
  static const char *const words[] = { "", "with", "names", "points", "into" };
  starts[ANSWERS] = run->word.offset + run->word.length;
  br_status status = br__clause_file (&paths[ANSWERS], run, starts[ANSWERS], CLAUSES, BR_FILE_READ);
  ends[ANSWERS] = run->lex.token.offset;
  while (status == BR_OK && run->lex.token.type != BR__END)
    {
      int k = KEY;
      while (k < PATHS && !br__lex_is_word (&run->lex, words[k]))
        k++;
      if (k == PATHS || paths[k])
        return br__expected (run, "one of `with`, `names`, `points` and `into`");
      starts[k] = run->lex.next;
      status = br__clause_file (&paths[k], run, starts[k], CLAUSES, k == MARKS ? BR_FILE_WRITE : BR_FILE_READ);
      ends[k] = run->lex.token.offset;
    }
  if (status == BR_OK && !paths[KEY])
    return br__expected (run, "`with KEY.csv`");
  return status == BR_OK && !paths[MARKS] ? br__expected (run, "`into MARKS.csv`") : status;
}

/* Keeps the statement and its marks for `mark again`.  */
static br_status
remember (const br__class *c, br__run *run)
{
  br_text t = BR_TEXT_ZERO;
  for (size_t i = 0; i < c->marked_count; i++)
    {
      br__text_printf (&t, "%s: ", c->marked[i].student);
      br__put_marks (&t, &c->marked[i].marks);
      br__text_putc (&t, '\n');
    }
  char *line = br__strndup (run->text, run->end), *marks = t.failed ? NULL : br__strndup (br__text_string (&t), t.length);
  br__text_clear (&t);
  if (!line || !marks)
    {
      br__free (line);
      br__free (marks);
      return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  br__free (run->sheet->graded);
  br__free (run->sheet->graded_marks);
  run->sheet->graded = line;
  run->sheet->graded_marks = marks;
  return BR_OK;
}

br_status
br__do_grade (br__run *run)
{
  char *paths[PATHS] = { NULL, NULL, NULL, NULL, NULL };
  size_t starts[PATHS] = { 0 }, ends[PATHS] = { 0 };
  static const char *const what[] = { "the answers", "the key", "the list of names", "the table of points" };
  br__class c;
  memset (&c, 0, sizeof c);
  br_status status = read_paths (paths, starts, ends, run);
  for (int i = 0; i < MARKS && status == BR_OK; i++)
    status = br__not_over (run, paths[MARKS], paths[i], what[i], starts[MARKS], ends[MARKS]);
  if (status == BR_OK)
    status = br__placed (run, br__key_read (&c, paths[KEY], run->error), starts[KEY], ends[KEY]);
  if (status == BR_OK)
    status = br__points_default (&c, run->error);
  if (status == BR_OK && paths[POINTS])
    status = br__placed (run, br__points_read (&c, paths[POINTS], run->error), starts[POINTS], ends[POINTS]);
  if (status == BR_OK && paths[NAMES])
    status = br__placed (run, br__names_read (&c.names, &c.name_count, paths[NAMES], run->error), starts[NAMES], ends[NAMES]);
  if (status == BR_OK)
    status = br__placed (run, br__rows_read (&c.answers, paths[ANSWERS], run->error), starts[ANSWERS], ends[ANSWERS]);
  if (status == BR_OK)
    status = br__placed (run, find_columns (&c, run, paths[ANSWERS]), starts[ANSWERS], ends[ANSWERS]);
  if (status == BR_OK)
    status = br__mark_all (&c, run);
  if (status == BR_OK)
    status = br__placed (run, br__marks_write (paths[MARKS], &c, run), starts[MARKS], ends[MARKS]);
  if (status == BR_OK)
    status = br__grade_summary (run, &c, paths[MARKS]);
  if (status == BR_OK)
    status = remember (&c, run);
  for (int i = 0; i < PATHS; i++)
    br__free (paths[i]);
  class_clear (&c);
  return status;
}

/* Says which of the lines of BEFORE are others in AFTER.  */
static br_status
tell_changes (br__run *run, const char *before, const char *after)
{
  br_status status = BR_OK;
  size_t changed = 0;
  while (status == BR_OK && *before && *after)
    {
      size_t m = strcspn (before, "\n"), n = strcspn (after, "\n");
      if (m != n || memcmp (before, after, n) != 0)
        {
          changed++;
          status = br__remark (run, "%.*s, before %.*s", br__clip (after, n, 120), after, br__clip (before, m, 120), before);
        }
      before += m + (before[m] != 0);
      after += n + (after[n] != 0);
    }
  return status == BR_OK && !changed ? br__remark (run, "no paper has other marks") : status;
}

br_status
br__do_mark (br__run *run)
{
  if (!br__lex_is_word (&run->lex, "again"))
    return br__expected (run, "`again`");
  br_status status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && !run->sheet->graded)
    {
      br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "nothing has been graded yet in this run: there is no `grade` to do again");
      br__hint (run->error, "write the whole statement: `grade ANSWERS.csv with KEY.csv into MARKS.csv`");
      return BR_DOMAIN;
    }
  if (status != BR_OK)
    return status;
  char *line = br__strndup (run->sheet->graded, strlen (run->sheet->graded));
  char *before = br__strndup (run->sheet->graded_marks, strlen (run->sheet->graded_marks));
  status = line && before ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    {
      br__run sub = { .sheet = run->sheet, .sink = run->sink, .file = run->file, .line_number = run->line_number, .text = line,
                      .from_file = run->from_file, .asked = run->asked, .length = strlen (line), .end = strlen (line), .note = "", .error = run->error };
      status = br__lex_start (&sub.lex, sub.text, sub.end, run->error);
      sub.word = sub.lex.token;
      if (status == BR_OK)
        status = br__do_grade (&sub);
      if (sub.refused)
        {
          run->refused = 1;
          run->refused_use = sub.refused_use;
          run->refused_path = sub.refused_path;
          sub.refused_path = NULL;
        }
      br__file_forget (&sub);
      if (status != BR_OK && run->error)
        {
          /* The place is one of the line before.  */
          run->error->offset = run->word.offset;
          run->error->length = run->end - run->word.offset;
        }
    }
  if (status == BR_OK)
    status = tell_changes (run, before, run->sheet->graded_marks);
  br__free (line);
  br__free (before);
  return status;
}
