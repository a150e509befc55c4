/* SPDX-License-Identifier: LGPL-3.0-or-later
   mark.c - marking: every answer judged, what is to be said of a paper as a whole, and the class.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/real.h"
#include "exact/status.h"
#include "formula/lexer.h"
#include "lesson/answer.h"
#include "lesson/grade.h"
#include "lesson/keyfile.h"
#include "lesson/worksheet.h"
#include "measure/measure.h"

const char *
br__marked_answer (const br__class *c, const br__marked *paper, size_t i)
{
  return paper->row ? br__row_cell (paper->row, c->columns[i]) : "";
}

const br__key *
br__marked_key (const br__class *c, const br__marked *paper, size_t i)
{
  const br__key *key = paper->version ? &c->keys[(paper->version - 1) * c->problems + i] : NULL;
  return key && key->present ? key : NULL;
}

/* The version that CELL names, such as "3" or "version 3"; 0 where the key has none such.  */
static size_t
version_of (const char *cell, size_t most)
{
  return br__cell_number (cell + strcspn (cell, "0123456789"), most);
}

/* ---- Names ---- */

/* The small letter of the letter CODE: of ASCII, Latin, Greek and Cyrillic (Unicode, UnicodeData.txt, simple
   lower case).  */
static uint32_t
small (uint32_t code)
{
  if ((code >= 'A' && code <= 'Z') || (code >= 0xC0 && code <= 0xDE && code != 0xD7) || (code >= 0x391 && code <= 0x3A9)
      || (code >= 0x410 && code <= 0x42F))
    return code + 32;
  if (code >= 0x400 && code <= 0x40F)
    return code + 80;
  if ((code >= 0x139 && code <= 0x148) || (code >= 0x179 && code <= 0x17E))
    return code + code % 2;
  return code >= 0x100 && code <= 0x177 ? code | 1 : code;
}

int
br__same_name (const char *a, const char *b)
{
  size_t m = strlen (a), n = strlen (b), i = 0, k = 0;
  for (;;)
    {
      while (i < m && br__blank_at (a + i, m - i))
        i += br__blank_at (a + i, m - i);
      while (k < n && br__blank_at (b + k, n - k))
        k += br__blank_at (b + k, n - k);
      if (i >= m || k >= n)
        return i >= m && k >= n;
      br__glyph x = br__glyph_at (a, m, i), y = br__glyph_at (b, n, k);
      if (small (x.code) != small (y.code))
        return 0;
      i += x.length;
      k += y.length;
    }
}

uint64_t
br__name_like (const char *name)
{
  size_t length = strlen (name);
  uint64_t hash = UINT64_C (0xcbf29ce484222325);
  for (size_t i = 0; i < length;)
    {
      size_t blank = br__blank_at (name + i, length - i);
      br__glyph x = br__glyph_at (name, length, i);
      if (!blank)
        hash = (hash ^ small (x.code)) * UINT64_C (0x100000001b3);
      i += blank ? blank : x.length;
    }
  return hash ^ hash >> 32;
}

/* One name of the list or of papers, however often it is written.  */
typedef struct pupil
{
  const char *name;
  char listed;
  char has_paper;
  char has_version;     /* has a paper whose version is known */
} pupil;

/* COUNT places, a power of two, of which some are free.  */
typedef struct roll
{
  pupil *places;
  size_t count;
} roll;

/* The pupil NAME, who is new where there is none.  */
static pupil *
pupil_called (roll *r, const char *name)
{
  for (uint64_t at = br__name_like (name);; at++)
    {
      pupil *p = &r->places[at & (r->count - 1)];
      if (!p->name)
        p->name = name;
      if (p->name == name || br__same_name (p->name, name))
        return p;
    }
}

static br_status
begin_roll (roll *r, const br__class *c)
{
  r->count = 2;
  while (r->count / 2 < c->name_count + c->answers.count)
    r->count *= 2;
  r->places = br__alloc_zero (r->count, sizeof *r->places);
  for (size_t i = 0; r->places && i < c->name_count; i++)
    pupil_called (r, c->names[i])->listed = 1;
  return r->places ? BR_OK : BR_NO_MEMORY;
}

/* Whether PAPER counts, and what is to be said of its name.  One that could not be marked is no first paper.  */
static void
note_name (const br__class *c, br__marked *paper, pupil *p)
{
  p->has_paper = 1;
  paper->counted = !*paper->student || !p->has_version;
  if (!*paper->student)
    br__text_puts (&paper->note, "no name");
  else if (!paper->counted)
    br__text_puts (&paper->note, BR__NOTE_SECOND);
  else if (c->name_count && !p->listed)
    br__text_puts (&paper->note, "not in the list of names");
}

/* ---- Papers ---- */

/* What the search for other versions may take in one grading: a judgement counts 10, and of a long answer by the square of its length.  */
#define MOST_COMPARED 2000000

/* How many answers of PAPER have the right size, by the key of VERSION.  It gives up where that is not more than
   ENOUGH any more.  */
static br_status
count_matches (size_t *matches, br__class *c, const br__marked *paper, size_t version, size_t enough)
{
  br_status status = BR_OK;
  *matches = 0;
  for (size_t i = 0; i < c->problems && status == BR_OK && *matches + c->problems - i > enough; i++)
    {
      const br__key *key = &c->keys[(version - 1) * c->problems + i];
      br__verdict v;
      if (!key->present)
        continue;
      const char *written = br__marked_answer (c, paper, i);
      size_t length = strnlen (written, 200);
      c->compared += 10 + length * length / 16;
      status = br__judge (&v, written, key);
      *matches += v.index <= BR__NO_UNIT;
    }
  return status;
}

/* A paper that was written for another version: the one that more than half of its answers match is told, and it is not
   marked by the version that stands on it.  */
static br_status
note_version (br__class *c, br__marked *paper)
{
  size_t own = 0, answers = 0, best = 0;
  br_status status = BR_OK;
  if (c->versions == 1 && paper->version)
    return BR_OK;
  for (size_t i = 0; i < c->problems; i++)
    answers += !br__answer_is_none (br__marked_answer (c, paper, i));
  if (paper->version && c->compared < MOST_COMPARED)
    status = count_matches (&own, c, paper, paper->version, 0);
  size_t most = own > answers / 2 ? own : answers / 2;
  for (size_t v = 1; v <= c->versions && status == BR_OK && most < answers && c->compared < MOST_COMPARED; v++)
    {
      size_t n = 0;
      if (v != paper->version)
        status = count_matches (&n, c, paper, v, most);
      if (n > most)
        {
          most = n;
          best = v;
        }
    }
  if (best && (most > 1 || c->problems == 1))
    {
      br__text_printf (&paper->note, "%s%zu of %zu match version %zu", paper->note.length ? "; " : "", most, answers, best);
      paper->other = paper->version ? best : 0;
      paper->counted &= !paper->other;
      paper->version = paper->other ? 0 : paper->version;
    }
  return status;
}

/* What stands in the cell of an answer that is not judged.  */
static void
put_unjudged (const br__class *c, const br__marked *paper, br__mark_cell *cell)
{
  static const char *const texts[] = { "version unknown", "version missing", "other version", "not in this version" };
  cell->verdict = paper->version ? BR__NOT_ASKED : paper->other ? BR__VERSION_OTHER
                  : *br__row_cell (paper->row, c->version) ? BR__VERSION_UNKNOWN : BR__VERSION_MISSING;
  br__text_puts (&cell->text, texts[cell->verdict - BR__VERSION_UNKNOWN]);
}

static br_status
mark_answer (br__class *c, br__marked *paper, size_t i)
{
  br__mark_cell *cell = &paper->cells[i];
  const br__key *key = br__marked_key (c, paper, i);
  const char *written = br__marked_answer (c, paper, i);
  const br_number *points = &c->points[i * BR__VERDICTS];
  br__verdict v;
  br_status status = BR_OK;
  if (key)
    {
      status = br__judge (&v, written, key);
      if (status == BR_OK && !key->bonus)
        status = br_number_add (&paper->of, &paper->of, &points[BR__RIGHT]);
      if (status == BR_OK)
        status = br_number_add (&paper->marks, &paper->marks, &points[v.index]);
      c->counts[v.index * c->problems + i] += paper->counted != 0;
      cell->verdict = v.index;
      br__put_verdict (&cell->text, &v);
    }
  else
    put_unjudged (c, paper, cell);
  return cell->text.failed ? BR_NO_MEMORY : status;
}

static br_status
mark_paper (br__class *c, br__run *run, const br__row *row, roll *r)
{
  br__marked *paper = &c->marked[c->marked_count];
  const char *version = br__row_cell (row, c->version);
  paper->row = row;
  paper->student = br__row_cell (row, c->student);
  paper->version = version_of (version, c->versions);
  paper->cells = br__alloc_zero (c->problems, sizeof *paper->cells);
  if (!paper->cells)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  c->marked_count++;
  pupil *p = pupil_called (r, paper->student);
  note_name (c, paper, p);
  if (!paper->version)
    {
      paper->counted = 0;
      br__text_printf (&paper->note, *version ? "%sthe key has no version %.*s" : "%sno version stands on the paper",
                       paper->note.length ? "; " : "", BR__CLIP (version, 30));
    }
  br_status status = note_version (c, paper);
  p->has_version |= paper->version != 0;
  for (size_t i = 0; i < c->problems && status == BR_OK; i++)
    status = mark_answer (c, paper, i);
  if (status == BR_OK && paper->note.failed)
    status = BR_NO_MEMORY;
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, 0);
}

static br_status
emit_paper (const br__class *c, br__run *run, const br__marked *paper)
{
  br_record *r = br__record_new ("grade");
  br_text t = BR_TEXT_ZERO;
  br__put_text (r, "student", paper->student);
  br__put_text (r, "version", paper->row ? br__row_cell (paper->row, c->version) : "");
  br_list *verdicts = br__put_list (r, "verdicts");
  for (size_t i = 0; paper->cells && i < c->problems; i++)
    br__list_text (verdicts, br__text_string (&paper->cells[i].text));
  br__put_marks (&t, &paper->marks);
  br__put_from (r, "marks", &t);
  br__put_marks (&t, &paper->of);
  br__put_from (r, "of", &t);
  br__put_text (r, "note", br__text_string (&paper->note));
  return br__emit (run, r);
}

/* ---- The class ---- */

/* Mean and standard deviation of the papers that count: the root of the mean square less the squared mean
   (any textbook of statistics, the deviation of a whole population; from memory).  */
static br_status
measure_class (br__class *c)
{
  br_number sum = BR_NUMBER_ZERO, squares = BR_NUMBER_ZERO, x = BR_NUMBER_ZERO, half = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  for (size_t i = 0; i < c->marked_count && status == BR_OK; i++)
    {
      const br_number *marks = &c->marked[i].marks;
      if (!c->marked[i].counted)
        continue;
      if (!c->papers || br_number_cmp (marks, &c->lowest) < 0)
        status = br_number_set (&c->lowest, marks);
      if (status == BR_OK && (!c->papers || br_number_cmp (marks, &c->highest) > 0))
        status = br_number_set (&c->highest, marks);
      c->papers++;
      if (status == BR_OK)
        status = br_number_add (&sum, &sum, marks);
      if (status == BR_OK)
        status = br_number_mul (&x, marks, marks);
      if (status == BR_OK)
        status = br_number_add (&squares, &squares, &x);
    }
  if (status == BR_OK)
    status = br_number_set_int (&x, c->papers ? (int64_t) c->papers : 1);
  if (status == BR_OK)
    status = br_number_div (&sum, &sum, &x);
  if (status == BR_OK)
    status = br_number_div (&squares, &squares, &x);
  if (status == BR_OK)
    status = br_real_set_number (&c->mean, &sum);
  if (status == BR_OK)
    status = br_number_mul (&sum, &sum, &sum);
  if (status == BR_OK)
    status = br_number_sub (&squares, &squares, &sum);
  if (status == BR_OK)
    status = br_number_set_ratio (&half, 1, 2);
  if (status == BR_OK)
    status = br_real_set_number (&c->spread, &squares);
  if (status == BR_OK)
    status = br_real_pow (&c->spread, &c->spread, &half, BR_REAL_BITS);
  br_number_clear (&sum);
  br_number_clear (&squares);
  br_number_clear (&x);
  br_number_clear (&half);
  return status;
}

/* Those of the class who have no paper.  */
static br_status
add_missing (br__class *c, br__run *run, roll *r)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < c->name_count && status == BR_OK; i++)
    if (!pupil_called (r, c->names[i])->has_paper)
      {
        br__marked *paper = &c->marked[c->marked_count++];
        paper->student = c->names[i];
        br__text_puts (&paper->note, "no paper");
        status = br__remark (run, "no paper of %.*s", BR__CLIP (c->names[i], 150));
      }
  return status;
}

br_status
br__mark_all (br__class *c, br__run *run)
{
  roll r = { NULL, 0 };
  br_status status = begin_roll (&r, c);
  c->marked = br__alloc_zero (c->answers.count + c->name_count, sizeof *c->marked);
  if (status != BR_OK || !c->marked)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  for (size_t i = 1; i < c->answers.count && status == BR_OK; i++)
    {
      status = br__lesson_progress (run, "grading", i, c->answers.count);
      if (status == BR_OK)
        status = mark_paper (c, run, &c->answers.rows[i], &r);
      if (status == BR_OK)
        status = emit_paper (c, run, &c->marked[c->marked_count - 1]);
    }
  if (status == BR_OK)
    status = add_missing (c, run, &r);
  if (status == BR_OK && (status = measure_class (c)) != BR_OK)
    br__fail_plain (run->error, status, 0, 0);
  br__free (r.places);
  return status;
}
