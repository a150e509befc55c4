/* SPDX-License-Identifier: LGPL-3.0-or-later
   history.c - `history FOLDER`: what a class got wrong over weeks, from the tables of marks in a folder.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "file/file.h"
#include "file/markup.h"
#include "lesson/answer.h"
#include "lesson/grade.h"
#include "table/rows.h"
#include "lesson/worksheet.h"
#include "lesson/write.h"

#define MOST_FILES 200

/* One pupil (or the class, "") in one topic, in one file (or in all, "").  */
typedef struct tally
{
  char *student, *topic, *file;
  int64_t problems, right;
  uint32_t verdicts[BR__VERDICTS];
  size_t alike;                 /* the row before with the same hash, counted from 1, or 0 */
} tally;

#define HASHES 65536

typedef struct past
{
  tally *rows;
  size_t count, room;
  size_t last[HASHES];          /* the last row of each hash, counted from 1, or 0 */
  char **files;                 /* names in the folder, in order */
  size_t file_count, file_room;
} past;

static void
past_clear (past *h)
{
  for (size_t i = 0; i < h->count; i++)
    {
      br__free (h->rows[i].student);
      br__free (h->rows[i].topic);
      br__free (h->rows[i].file);
    }
  br__free (h->rows);
  for (size_t i = 0; i < h->file_count; i++)
    br__free (h->files[i]);
  br__free (h->files);
}

/* Which of two names comes first: numbers in them are in the order of their size, w2 before w10.  */
static int
compare_files (const char *a, const char *b)
{
  const char *x = a, *y = b;
  for (; *x && *y; x++, y++)
    {
      size_t m = strspn (x, "0123456789"), n = strspn (y, "0123456789");
      if (br__is_digit (*x) && br__is_digit (*y) && m != n && *x != '0' && *y != '0')
        return m < n ? -1 : 1;
      if (*x != *y)
        break;
    }
  return (unsigned char) *x - (unsigned char) *y;
}

static int
compare_names (const void *a, const void *b)
{
  return compare_files (*(char *const *) a, *(char *const *) b);
}

/* The names of the tables in FOLDER, in their order.  */
static br_status
list_files (past *h, const char *folder, br_error *error)
{
  DIR *dir = opendir (folder);
  struct dirent *entry;
  br_status status = BR_OK;
  if (!dir)
    return br__can_not (error, "read", folder, errno);
  while (status == BR_OK && (entry = readdir (dir)) != NULL)
    {
      if (!br__ends_with (entry->d_name, ".csv") || entry->d_name[0] == '.')
        continue;
      if (h->file_count == MOST_FILES)
        status = br__fail (error, BR_TOO_BIG, 0, 0, "more than %d tables in a folder", MOST_FILES);
      else if (!br__grow (&h->files, &h->file_room, h->file_count + 1, sizeof *h->files)
               || !(h->files[h->file_count] = br__strndup (entry->d_name, strlen (entry->d_name))))
        status = br__fail_plain (error, BR_NO_MEMORY, 0, 0);
      else
        h->file_count++;
    }
  closedir (dir);
  if (h->file_count)
    qsort (h->files, h->file_count, sizeof *h->files, compare_names);
  return status;
}

/* The row of STUDENT, TOPIC and FILE, made where there is none; NULL without memory.  */
static tally *
tally_of (past *h, const char *student, const char *topic, const char *file)
{
  size_t *last = &h->last[(br__name_like (student) * 31 + br__name_like (topic) + br__name_like (file)) % HASHES];
  for (size_t i = *last; i; i = h->rows[i - 1].alike)
    {
      tally *t = &h->rows[i - 1];
      if (br__same_name (t->student, student) && strcmp (t->topic, topic) == 0 && strcmp (t->file, file) == 0)
        return t;
    }
  if (!br__grow (&h->rows, &h->room, h->count + 1, sizeof *h->rows))
    return NULL;
  tally *t = &h->rows[h->count++];
  memset (t, 0, sizeof *t);
  t->alike = *last;
  *last = h->count;
  t->student = br__strndup (student, strlen (student));
  t->topic = br__strndup (topic, strlen (topic));
  t->file = br__strndup (file, strlen (file));
  return t->student && t->topic && t->file ? t : NULL;
}

/* The verdict that CELL begins with, or SIZE_MAX.  */
static size_t
verdict_of (const char *cell)
{
  size_t best = SIZE_MAX, longest = 0;
  for (size_t k = 0; k < BR__VERDICTS; k++)
    {
      size_t n = strlen (br__verdict_name (k));
      if (n > longest && strncmp (cell, br__verdict_name (k), n) == 0 && (cell[n] == 0 || cell[n] == ' '))
        {
          best = k;
          longest = n;
        }
    }
  return best;
}

/* Adds what ROW says of the problem in COLUMN, which is of TOPIC.  */
static br_status
add_cell (past *h, const char *student, const char *topic, const char *file, const char *cell)
{
  size_t verdict = verdict_of (cell);
  if (verdict == SIZE_MAX)
    return BR_OK;
  for (int k = 0; k < 3; k++)
    {
      /* The pupil over all weeks, the class over all weeks, the class in this one.  */
      tally *t = tally_of (h, k == 0 ? student : "", topic, k == 2 ? file : "");
      if (!t)
        return BR_NO_MEMORY;
      t->problems++;
      t->right += verdict == BR__RIGHT;
      t->verdicts[verdict]++;
    }
  return BR_OK;
}

/* Adds the table FILE; one that has no marks is left alone.  */
static br_status
add_file (past *h, const char *folder, const char *file, int *is_table, br__run *run)
{
  br__rows rows = BR__ROWS_ZERO;
  br_text path = BR_TEXT_ZERO;
  const br__row *topics = NULL;
  br__text_printf (&path, "%s/%s", folder, file);
  br_status status = path.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : br__rows_read (&rows, br__text_string (&path), run->error);
  size_t student = br__rows_column (&rows, "student"), marks = br__rows_column (&rows, "marks"), note = br__rows_column (&rows, "note");
  *is_table = status == BR_OK && student != SIZE_MAX && marks != SIZE_MAX;
  for (size_t i = 1; *is_table && i < rows.count; i++)
    if (strcmp (br__row_cell (&rows.rows[i], student), "topic") == 0)
      topics = &rows.rows[i];
  for (size_t i = 1; *is_table && i < rows.count && status == BR_OK; i++)
    {
      const char *name = br__row_cell (&rows.rows[i], student);
      status = br__lesson_progress (run, "history", i, rows.count);
      if (note != SIZE_MAX && strncmp (br__row_cell (&rows.rows[i], note), BR__NOTE_SECOND, sizeof BR__NOTE_SECOND - 1) == 0)
        continue;
      for (size_t k = 0; k < rows.rows[0].count && k < rows.rows[i].count && status == BR_OK && *name; k++)
        {
          const char *topic = topics ? br__row_cell (topics, k) : "";
          if (br__cell_is_number (rows.rows[0].cells[k]) && &rows.rows[i] != topics)
            status = add_cell (h, name, *topic ? topic : "other", file, br__row_cell (&rows.rows[i], k));
        }
    }
  if (status == BR_NO_MEMORY)
    br__fail_plain (run->error, status, 0, 0);
  br__rows_clear (&rows);
  br__text_clear (&path);
  return status;
}

/* "kerf forgotten 3; wrong 1", the most frequent first; the form counts, what is right does not.  */
static void
put_mistakes (br_text *t, const tally *row)
{
  char told[BR__VERDICTS] = { 0 };
  for (;;)
    {
      size_t best = 0;
      for (size_t k = BR__NOT_LOWEST; k < BR__VERDICTS; k++)
        if (!told[k] && row->verdicts[k] && (!best || row->verdicts[k] > row->verdicts[best]))
          best = k;
      if (!best)
        return;
      told[best] = 1;
      br__text_printf (t, "%s%s %u", t->length ? "; " : "", br__verdict_name (best), row->verdicts[best]);
    }
}

static br_status
emit_row (br__run *run, const tally *row)
{
  br_record *r = br__record_new ("history");
  br_text t = BR_TEXT_ZERO;
  br__put_text (r, "student", row->student);
  br__put_text (r, "topic", row->topic);
  br__put_text (r, "file", row->file);
  br__put_count (r, "problems", row->problems);
  br__put_count (r, "right", row->right);
  put_mistakes (&t, row);
  br__put_from (r, "mistakes", &t);
  return br__emit (run, r);
}

/* Where a row stands: the class first, then the class week by week, then the pupils by name.  */
static int
group_of (const tally *t)
{
  return *t->student ? 2 : *t->file != 0;
}

static int
compare_rows (const void *a, const void *b)
{
  const tally *x = a, *y = b;
  int order = group_of (x) - group_of (y);
  if (!order)
    order = strcmp (x->student, y->student);
  if (!order)
    order = strcmp (x->topic, y->topic);
  return order ? order : compare_files (x->file, y->file);
}

/* ---- The file ---- */

static void
put_table (br_text *t, const past *h)
{
  br__text_puts (t, "student,topic,file,problems,right,mistakes\n");
  for (size_t i = 0; i < h->count; i++)
    {
      const tally *row = &h->rows[i];
      br_text mistakes = BR_TEXT_ZERO;
      br__put_cell (t, *row->student ? row->student : "class");
      br__text_putc (t, ',');
      br__put_cell (t, row->topic);
      br__text_putc (t, ',');
      br__put_cell (t, row->file);
      br__text_printf (t, ",%lld,%lld,", (long long) row->problems, (long long) row->right);
      put_mistakes (&mistakes, row);
      br__put_cell (t, br__text_string (&mistakes));
      br__text_putc (t, '\n');
      t->failed |= mistakes.failed;
      br__text_clear (&mistakes);
    }
}

#define BAR 34
#define HIGH 60

/* A row of bars for each topic, one a week, as high as the part that was right.  The class stands in front, its weeks behind
   it, both in the order of the topics.  */
static void
put_picture (br_text *t, const past *h)
{
  size_t topics = 0;
  for (size_t i = 0; i < h->count; i++)
    topics += group_of (&h->rows[i]) == 0;
  br__text_printf (t, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %zu %zu\" width=\"%zu\" role=\"img\" font-family=\"sans-serif\" "
                   "font-size=\"12\"><title>The part that was right, week by week</title>\n", 130 + BAR * h->file_count, (HIGH + 34) * topics + 8,
                   130 + BAR * h->file_count);
  size_t y = 8;
  const tally *week = h->rows + topics, *const end = h->rows + h->count;
  for (size_t i = 0; i < topics; i++)
    {
      const tally *all = &h->rows[i];
      br__text_printf (t, "<text x=\"0\" y=\"%zu\">", y + HIGH);
      br__put_escaped (t, all->topic);
      br__text_puts (t, "</text>");
      for (; week < end && group_of (week) == 1 && strcmp (week->topic, all->topic) == 0; week++)
        {
          size_t k = 0;
          while (strcmp (week->file, h->files[k]) != 0)
            k++;
          int64_t high = week->right * HIGH / week->problems;
          br__text_printf (t, "<rect x=\"%zu\" y=\"%zu\" width=\"%d\" height=\"%d\" fill=\"none\" stroke=\"#000\"/>"
                           "<rect x=\"%zu\" y=\"%lld\" width=\"%d\" height=\"%lld\"><title>", 120 + BAR * k, y, BAR - 8, HIGH,
                           120 + BAR * k, (long long) y + HIGH - high, BAR - 8, (long long) high);
          br__put_escaped (t, week->file);
          br__text_printf (t, ": %lld of %lld right</title></rect><text x=\"%zu\" y=\"%zu\">%lld/%lld</text>\n", (long long) week->right,
                           (long long) week->problems, 120 + BAR * k, y + HIGH + 14, (long long) week->right, (long long) week->problems);
        }
      y += HIGH + 34;
    }
  br__text_puts (t, "</svg>\n");
}

static void
put_page (br_text *t, const past *h)
{
  br__html_head (t, "en", "What was right, week by week",
                 "body{margin:1em}svg{max-width:100%;height:auto}\n"
                 "@media(max-width:5in){body{margin:.5em}td,th{padding:.1em .25em;font-size:.85em}}\n");
  br__text_puts (t, "<h1>What was right, week by week</h1>\n<div class=\"box\">");
  put_picture (t, h);
  br__text_puts (t, "</div>\n<p>The weeks:</p><ol>");
  for (size_t k = 0; k < h->file_count; k++)
    {
      br__text_puts (t, "<li>");
      br__put_escaped (t, h->files[k]);
      br__text_puts (t, "</li>");
    }
  br__text_puts (t, "</ol>\n<div class=\"box\"><table><tr><th>Student</th><th>Topic</th><th>Right</th><th>Of</th><th>Mistakes</th></tr>\n");
  for (size_t i = 0; i < h->count; i++)
    {
      const tally *row = &h->rows[i];
      br_text mistakes = BR_TEXT_ZERO;
      if (group_of (row) == 1)
        continue;
      br__text_puts (t, "<tr><th>");
      br__put_escaped (t, *row->student ? row->student : "the class");
      br__text_puts (t, "</th><td>");
      br__put_escaped (t, row->topic);
      br__text_printf (t, "</td><td>%lld</td><td>%lld</td><td>", (long long) row->right, (long long) row->problems);
      put_mistakes (&mistakes, row);
      br__put_escaped (t, br__text_string (&mistakes));
      br__text_puts (t, "</td></tr>\n");
      t->failed |= mistakes.failed;
      br__text_clear (&mistakes);
    }
  br__text_puts (t, "</table></div></body></html>\n");
}

static br_status
write_file (const char *path, const past *h, br__run *run)
{
  br_text t = BR_TEXT_ZERO;
  if (br__ends_with (path, ".csv"))
    put_table (&t, h);
  else if (br__ends_with (path, ".html"))
    put_page (&t, h);
  else if (br__ends_with (path, ".svg"))
    put_picture (&t, h);
  else
    return br__wrong_ending (run, path, ".csv, .html or .svg", ".html");
  br_status status = br__lesson_write (path, &t, run);
  br__text_clear (&t);
  return status;
}

br_status
br__do_history (br__run *run)
{
  char *folder = NULL, *path = NULL;
  past *h = br__alloc_zero (1, sizeof *h);
  size_t start = run->word.offset + run->word.length, end, into = 0, tables = 0;
  if (!h)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  br_status status = br__clause_file (&folder, run, start, "into", BR_FILE_READ);
  end = run->lex.token.offset;
  if (status == BR_OK && br__lex_is_word (&run->lex, "into"))
    {
      into = run->lex.next;
      status = br__clause_file (&path, run, into, "", BR_FILE_WRITE);
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__placed (run, list_files (h, folder, run->error), start, end);
  for (size_t i = 0; i < h->file_count && status == BR_OK; i++)
    {
      int is_table = 0;
      status = br__placed (run, add_file (h, folder, h->files[i], &is_table, run), start, end);
      tables += is_table != 0;
    }
  if (status == BR_OK && !tables)
    {
      status = br__fail (run->error, BR_DOMAIN, 0, 0, "this folder holds no table of marks");
      br__hint (run->error, "`grade` writes one: into MARKS.csv");
      br__placed (run, status, start, end);
    }
  if (h->count && status == BR_OK)
    qsort (h->rows, h->count, sizeof *h->rows, compare_rows);
  for (size_t i = 0; i < h->count && status == BR_OK; i++)
    {
      status = br__lesson_progress (run, "history", i, h->count);
      if (status == BR_OK)
        status = emit_row (run, &h->rows[i]);
    }
  if (status == BR_OK && path)
    status = br__placed (run, write_file (path, h, run), into, run->end);
  past_clear (h);
  br__free (h);
  br__free (folder);
  br__free (path);
  return status;
}
