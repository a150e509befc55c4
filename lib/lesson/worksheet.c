/* SPDX-License-Identifier: LGPL-3.0-or-later
   worksheet.c - the statements `worksheet` and `key`: what was asked for is drawn, and sent to the writer that
   the ending of the file's name calls for.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "file/markup.h"
#include "table/rows.h"
#include "lesson/write.h"
#include "shop/paper.h"
#include "sheet/access.h"

void
br__worksheet_free (br__worksheet *w)
{
  if (!w)
    return;
  for (size_t i = 0; i < w->name_count; i++)
    br__free (w->names[i]);
  br__free (w->names);
  br__free (w->names_path);
  br__free (w->path);
  br__own_free (w->own, w->own_count * w->own_sets);
  br__free (w->problems);
  br__free (w->title);
  for (size_t i = 0; i < BR__FIELDS; i++)
    br__free (w->fields[i]);
  br__free (w);
}

static void
free_of (br_sheet *sheet)
{
  br__worksheet_free (sheet->worksheet);
}

/* ---- Drawing ---- */

/* What the statement says of the points of its topics.  */
static void
give_points (br__worksheet *w)
{
  for (size_t v = 0, at = 0; w->problems && v < (size_t) w->versions; v++)
    for (size_t i = 0; i < w->row_count; i++)
      for (int64_t k = 0; k < w->rows[i].count; k++, at++)
        {
          w->problems[at].points = w->rows[i].points;
          w->problems[at].bonus = w->rows[i].bonus;
        }
}

br_status
br__worksheet_draw (br__worksheet *w, br__run *run)
{
  br__plan *plans = br__alloc_zero (w->problem_count, sizeof *plans);
  size_t index = 0, own = 0;
  br_status status = BR_OK;
  w->problems = br__alloc_zero ((size_t) w->versions * w->problem_count, sizeof *w->problems);
  if (!plans || !w->problems)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  for (size_t i = 0; i < w->row_count && status == BR_OK; i++)
    for (int64_t k = 0; k < w->rows[i].count; k++, index++)
      {
        uint64_t nth = (uint64_t) k;
        for (size_t j = 0; j < i; j++)
          nth += w->rows[j].topic == w->rows[i].topic ? (uint64_t) w->rows[j].count : 0;
        const br__topic *topic = w->rows[i].topic;
        if (topic && !br__plan_make (&plans[index], topic, w->rows[i].ruler.level ? w->rows[i].ruler : w->ruler, (int) w->rows[i].grade,
                                     (uint64_t) w->seed, index + 1, nth))
          {
            status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "`%s` has no problems of this level on this ruler",
                               topic->name);
            break;
          }
        if (!topic)
          {
            for (int64_t v = 0; v < w->versions; v++)
              w->problems[(size_t) v * w->problem_count + index].own = own + (w->own_sets > 1 ? (size_t) v * w->own_count : 0);
            own++;
          }
      }
  for (int64_t v = 0; v < w->versions && status == BR_OK; v++)
    {
      status = br__lesson_progress (run, "drawing problems", (size_t) v, (size_t) w->versions);
      br__problem *first = &w->problems[(size_t) v * w->problem_count];
      for (size_t i = 0; i < w->problem_count && status == BR_OK; i++)
        if (plans[i].topic)
          br__problem_make (&first[i], &plans[i], (uint64_t) w->seed, (uint64_t) v + 1, i + 1, v ? &first[i] - w->problem_count : NULL, first, i);
    }
  give_points (w);
  br__free (plans);
  return status;
}

/* ---- Writing ---- */

int
br__ends_with (const char *path, const char *ending)
{
  size_t n = strlen (path), k = strlen (ending);
  return n > k && br__same_word (path + n - k, k, ending);
}

typedef br_status writer (br_text *out, const br__worksheet *w, br__run *run, int key);

/* The writer of a file that ends as PATH does; NULL for a PDF.  */
static br_status
find_writer (writer **write, const char *path, br__run *run)
{
  static const struct { const char *ending; writer *write; } forms[] =
  {
    { ".txt", br__worksheet_text }, { ".csv", br__worksheet_csv }, { ".html", br__worksheet_html }, { ".pdf", NULL }
  };
  for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
    if (br__ends_with (path, forms[i].ending))
      {
        *write = forms[i].write;
        return BR_OK;
      }
  return br__wrong_ending (run, path, ".pdf, .txt, .csv or .html", ".pdf");
}

br_status
br__check_ending (const char *path, br__run *run)
{
  writer *write;
  return find_writer (&write, path, run);
}

br_status
br__lesson_write (const char *path, const br_text *t, br__run *run)
{
  if (t->failed)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (!br__ends_with (path, ".txt"))
    return br__file_put (run, path, br__content_named (path), br__text_string (t), t->length);
  br_text plain = BR_TEXT_ZERO;
  br__put_plain (&plain, br__text_string (t), t->length);
  br_status status = plain.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0)
                     : br__file_put (run, path, br__content_named (path), br__text_string (&plain), plain.length);
  br__text_clear (&plain);
  return status;
}

/* More would take longer to write than one input may take.  */
static br_status
check_amount (const br__worksheet *w, br__run *run)
{
  const size_t versions = (size_t) w->versions * w->problem_count, papers = br__papers_of (w) * w->problem_count;
  if (versions <= BR__MOST_IN_ALL && papers <= BR__MOST_IN_ALL)
    return BR_OK;
  br__fail (run->error, BR_TOO_BIG, run->word.offset, run->end - run->word.offset, "more than %d problems %s together", BR__MOST_IN_ALL,
            versions > BR__MOST_IN_ALL ? "in all versions" : "on all papers");
  br__hint (run->error, "write several files, with another seed for each");
  return BR_TOO_BIG;
}

/* Writes W, or its key, by the ending of PATH.  */
static br_status
put_file (const char *path, const br__worksheet *w, br__run *run, int key)
{
  writer *write = NULL;
  br_text out = BR_TEXT_ZERO;
  br_status status = find_writer (&write, path, run);
  if (status != BR_OK || !write)
    return status == BR_OK ? br__worksheet_pdf (path, w, run, key) : status;
  status = write (&out, w, run, key);
  if (status == BR_OK)
    status = br__lesson_write (path, &out, run);
  br__text_clear (&out);
  return status;
}

static br_status
emit_made (br__run *run, const char *kind, const char *path, const br__worksheet *w)
{
  br_record *r = br__record_new (kind);
  br__put_text (r, "file", path);
  br__put_count (r, "versions", w->versions);
  br__put_count (r, "problems", (int64_t) w->problem_count);
  br__put_count (r, "papers", (int64_t) br__papers_of (w));
  br__put_count (r, "seed", w->seed);
  return br__emit (run, r);
}

/* What the sheet adds: its title and its own problems.  */
static br_status
take_from_sheet (br__worksheet *w, br__run *run)
{
  size_t wanted = 0;
  br_status status = br__own_draw (w, run);
  for (size_t i = 0; i < w->row_count; i++)
    wanted += w->rows[i].topic ? 0 : (size_t) w->rows[i].count;
  if (status == BR_OK && wanted > w->own_count)
    {
      status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                         "own problems asked for: %zu; with an answer in the sheet: %zu", wanted, w->own_count);
      br__hint (run->error, "write `problem TEXT`, then `answer VALUE` with names that have one");
    }
  if (status == BR_OK && run->sheet->title)
    {
      w->title = br__strndup (run->sheet->title, strlen (run->sheet->title));
      status = w->title ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  return status;
}

br_status
br__do_worksheet (br__run *run)
{
  br__worksheet *w = br__alloc_zero (1, sizeof *w);
  size_t start = 0;
  br_status status = w ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (!w)
    return status;
  w->ruler = br__sheet_ruler (run);
  w->paper = run->sheet->settings.paper;
  w->seed = w->versions = 1;
  status = br__worksheet_read (w, &start, run);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__not_over (run, w->path, w->names_path, "the list of names", start, run->end);
  if (status == BR_OK && !w->versions_given && w->name_count)
    w->versions = (int64_t) w->name_count < BR__MOST_VERSIONS ? (int64_t) w->name_count : BR__MOST_VERSIONS;
  if (status == BR_OK)
    status = check_amount (w, run);
  if (status == BR_OK)
    status = take_from_sheet (w, run);
  if (status == BR_OK)
    status = br__worksheet_draw (w, run);
  w->words = run->sheet->words;
  if (status == BR_OK)
    status = br__placed (run, put_file (w->path, w, run, 0), start, run->end);
  if (status == BR_OK)
    status = emit_made (run, "worksheet", w->path, w);
  if (status == BR_OK)
    {
      br__worksheet *old = run->sheet->worksheet;
      run->sheet->worksheet = w;
      br__release_by (run->sheet, free_of);
      w = old;
    }
  br__worksheet_free (w);
  return status;
}

br_status
br__do_key (br__run *run)
{
  char *path = NULL;
  size_t start = run->word.offset + run->word.length;
  br__worksheet *w = run->sheet->worksheet;
  /* `key into FILE` is what `worksheet ... into FILE` makes one write.  */
  if (br__lex_is_word (&run->lex, "into"))
    start = run->lex.next;
  br_status status = br__clause_file (&path, run, start, "short", BR_FILE_WRITE);
  if (status == BR_OK && !w)
    {
      status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "there is no worksheet yet");
      br__hint (run->error, "write `worksheet sums 5 into FILE.pdf` first");
    }
  size_t end = run->lex.token.offset;
  int alone = status == BR_OK && br__lex_is_word (&run->lex, "short");
  if (alone)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__not_over (run, path, w->path, "the worksheet", start, end);
  if (status == BR_OK)
    status = br__placed (run, br__check_ending (path, run), start, end);
  if (w)
    w->words = run->sheet->words;
  if (status == BR_OK)
    status = br__placed (run, alone ? br__key_short (path, w, run) : put_file (path, w, run, 1), start, end);
  if (status == BR_OK)
    status = emit_made (run, "key", path, w);
  br__free (path);
  return status;
}
