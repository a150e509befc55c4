/* SPDX-License-Identifier: LGPL-3.0-or-later
   review.c - `review FILE ... with RULES.sheet into FILE.csv`: every sheet is opened on its own, in a sheet of
   its own, in which no statement reads or writes a file.  Then the teacher's rules are run in it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <glob.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/access.h"
#include "file/content.h"
#include "table/rows.h"
#include "lesson/worksheet.h"
#include "report/guard.h"
#include "report/report.h"
#include "report/review.h"
#include "sheet/caution.h"

#define ROOM_HEIGHT (BR__INCH * 4)  /* of a drawing, so that the lists have room below it */
#define MOST_DESIGNS 1000
/* A student's sheet is smaller by far.  */
#define MOST_BYTES (1u << 20)
#define MOST_SHOWN 60           /* bytes of a value; a longer one is told as a decimal */

/* ---- What a sheet says ---- */

/* The parts of a review: the lines of the sheet, questions about it, the lines of the rules, and the checks again; TRIAL, the
   first: the rules alone.  */
typedef enum part { PART_SHEET, PART_CHECKS, PART_RULES, PART_AGAIN, PART_TRIAL } part;

typedef struct reading
{
  br__design *design;           /* none in a trial of the rules */
  const br_sheet *sheet;
  part part;
  const br_sink *teller;        /* of a trial */
  int refusing;                 /* a line that is not run */
  size_t checks;                /* of the student's; so many are passed over among all */
  size_t seen;
} reading;

static void
take_check (reading *r, const br_record *record)
{
  const char *state = br_record_text (record, "state"), *note = br_record_text (record, "note");
  int rule = r->part == PART_AGAIN, holds = strcmp (state, "pass") == 0;
  if (rule && r->seen++ < r->checks)
    return;
  r->checks += !rule;
  br__design_add (r->design, holds ? BR__FINDING_HOLDS : rule ? BR__FINDING_RULE : BR__FINDING_FAILS, "%s%s%s%s%s%s",
                  br_record_text (record, "formula"), *note ? " (" : "", note, *note ? ")" : "",
                  holds ? "" : ": ", holds ? "" : strcmp (state, "fail") == 0 ? "fails" : strcmp (state, "waiting") == 0
                  ? "waits for a size" : "is not decided");
}

/* ", but `Wheel` is there: its letters differ" where the sheet has NAME in other capitals; else nothing.  */
static void
put_like (br_text *t, const reading *r, const char *name)
{
  br_item item = BR_ITEM_ZERO;
  while (br_sheet_next (&item, r->sheet, BR_ITEM_DIMENSION, NULL) == BR_OK && item.name)
    if (strcasecmp (item.name, name) == 0 && strcmp (item.name, name) != 0)
      br__text_printf (t, ", but `%s` is there: small letters and capitals differ", item.name);
}

/* Writes SHOWN with its numbers shortened; if one was, ≈ comes before it.  */
static void
put_shown (br_text *t, const char *shown)
{
  br_text plain = BR_TEXT_ZERO;
  br__text_puts (t, br__put_short_text (&plain, shown) ? "\xE2\x89\x88 " : "");
  br__text_puts (t, br__text_string (&plain));
  t->failed |= plain.failed;
  br__text_clear (&plain);
}

/* "a, b, c" of the texts in LIST.  */
static const char *
join (char *out, size_t size, const br_list *list)
{
  size_t used = 0;
  *out = 0;
  for (size_t i = 0; i < br_list_size (list) && used < size - 1; i++)
    {
      int known = 0;
      for (size_t k = 0; k < i; k++)
        known |= strcmp (br_list_text (list, k), br_list_text (list, i)) == 0;
      if (!known)
        used += (size_t) snprintf (out + used, size - used, "%s%s", used ? ", " : "", br_list_text (list, i));
    }
  return out;
}

static void
take_dimension (reading *r, const br_record *record)
{
  char names[200];
  const char *error = br_record_text (record, "error"), *unit = br_record_text (record, "unit"), *decimal = br_record_text (record, "decimal");
  r->design->dimensions++;
  if (strcmp (br_record_text (record, "state"), "waiting") == 0)
    br__design_add (r->design, BR__FINDING_WAITING, "%s waits for %s", br_record_text (record, "name"),
                    join (names, sizeof names, br_record_list (record, "waiting")));
  else if (*br_record_text (record, "mark") && strcmp (error, "0") != 0 && strcmp (unit, "deg") != 0)
    {
      br_text shown = BR_TEXT_ZERO;
      put_shown (&shown, br_record_text (record, "shown"));
      if (shown.length > MOST_SHOWN)
        {
          br__text_reset (&shown);
          put_shown (&shown, decimal);
          br__text_printf (&shown, *unit ? " %s" : "%s", unit);
        }
      r->design->title.failed |= shown.failed;
      br__design_add (r->design, BR__FINDING_OFF_RULER, "%s: %s, nearest mark %s", br_record_text (record, "name"), br__text_string (&shown),
                      br_record_text (record, "mark"));
      br__text_clear (&shown);
    }
}

static void
take_shape (reading *r, const br_record *record)
{
  char names[200];
  r->design->shapes++;
  if (!br_list_size (br_record_list (record, "waiting")))
    return;
  r->design->waiting_shapes++;
  br__design_add (r->design, BR__FINDING_WAITING, "the shape %s waits for %s", br_record_text (record, "name"),
                    join (names, sizeof names, br_record_list (record, "waiting")));
}

static void
take_caution (reading *r, const br_record *record)
{
  const br_list *concerns = br_record_list (record, "concerns");
  char names[200], text[800];
  int some = concerns && br_list_size (concerns);
  snprintf (text, sizeof text, "%s%s%.500s", some ? join (names, sizeof names, concerns) : "", some ? ": " : "", br_record_text (record, "message"));
  for (size_t i = 0; i < r->design->count[BR__FINDING_CAUTION]; i++)
    if (strcmp (br__text_string (&r->design->found[BR__FINDING_CAUTION][i]), text) == 0)
      return;
  br__design_add (r->design, BR__FINDING_CAUTION, "%s", text);
}

static void
take_need (reading *r, const br_record *record)
{
  const char *state = br_record_text (record, "state"), *name = br_record_text (record, "name");
  br_text t = BR_TEXT_ZERO;
  int holds = strcmp (state, "pass") == 0;
  br__text_puts (&t, name);
  if (holds)
    br__text_puts (&t, " is ");
  else if (strcmp (state, "missing") == 0)
    {
      br__text_puts (&t, " is missing");
      put_like (&t, r, name);
    }
  else if (strcmp (state, "waiting") == 0)
    br__text_puts (&t, " waits for a size");
  else
    {
      br__text_puts (&t, " must be from ");
      put_shown (&t, br_record_text (record, "low"));
      br__text_puts (&t, " to ");
      put_shown (&t, br_record_text (record, "high"));
      br__text_puts (&t, ", and is ");
    }
  put_shown (&t, br_record_text (record, "shown"));
  br__design_add (r->design, holds ? BR__FINDING_HOLDS : BR__FINDING_RULE, "%s", br__text_string (&t));
  r->design->title.failed |= t.failed;
  br__text_clear (&t);
}

static void
take_missing (reading *r, const br_record *record)
{
  char names[200];
  br_text t = BR_TEXT_ZERO;
  put_like (&t, r, br_record_text (record, "name"));
  br__design_add (r->design, BR__FINDING_MISSING, "%s, needed by %s%s", br_record_text (record, "name"),
                  join (names, sizeof names, br_record_list (record, "needed_by")), br__text_string (&t));
  r->design->title.failed |= t.failed;
  br__text_clear (&t);
}

static void
take_record (void *user, const br_record *record)
{
  reading *r = user;
  const char *kind = br_record_kind (record);
  if (strcmp (kind, "caution") == 0)
    take_caution (r, record);
  else if (strcmp (kind, "need") == 0 && r->part == PART_RULES)
    take_need (r, record);
  else if (strcmp (kind, "check") == 0 && (r->part == PART_CHECKS || r->part == PART_AGAIN))
    take_check (r, record);
  else if (r->part == PART_CHECKS && strcmp (kind, "dimension") == 0)
    take_dimension (r, record);
  else if (r->part == PART_CHECKS && strcmp (kind, "shape") == 0)
    take_shape (r, record);
  else if (r->part == PART_CHECKS && strcmp (kind, "missing") == 0)
    take_missing (r, record);
  else if (r->part == PART_CHECKS && strcmp (kind, "cut_plan") == 0)
    {
      const br_list *list = br_record_list (record, "unplaced");
      for (size_t i = 0; i < br_list_size (list); i++)
        br__design_add (r->design, BR__FINDING_UNPLACED, "%s: %lld", br_record_text (br_list_record (list, i), "part"),
                        (long long) br_record_count (br_list_record (list, i), "quantity"));
    }
}

static void
take_fault (void *user, const br_fault *fault)
{
  reading *r = user;
  /* A line of the rules with a syntax error is the teacher's error, not the design's: it is reported once, with its place.  */
  int of_rules = fault->error->status == BR_SYNTAX || r->refusing;
  if (r->part == PART_TRIAL)
    {
      if (of_rules && r->teller && r->teller->fault)
        r->teller->fault (r->teller->user, fault);
    }
  else if (fault->error->status == BR_NO_MEMORY)
    r->design->title.failed = 1;
  else if (r->part == PART_SHEET)
    br__design_add (r->design, r->refusing ? BR__FINDING_NOT_RUN : BR__FINDING_MISTAKE, "line %zu: %s", fault->line, fault->error->message);
  else if (r->part == PART_RULES && !of_rules)
    br__design_add (r->design, BR__FINDING_RULE, "rule in line %zu: %s", fault->line, fault->error->message);
}

/* The line NUMBER of PATH, LENGTH bytes at TEXT, is not run.  */
static void
tell_refused (reading *r, const char *path, size_t number, const char *text, size_t length)
{
  br_error error = { .status = BR_DOMAIN, .message = "a review runs no statement that reads or writes a file" };
  br_fault fault = { path, number, text, length, &error };
  r->refusing = 1;
  take_fault (r, &fault);
  r->refusing = 0;
}

/* The policy of the sheets that are looked over: nothing is touched.  */
static int
refuse_file (void *user, const br_file_request *request)
{
  /* The second call is about the effect of `run files`; report only the first.  */
  if (request->sheet && !request->asked)
    tell_refused (user, request->sheet, request->line, "", 0);
  return 0;
}

/* 1 if the line is not for a design but for an interactive session.  */
static int
is_refused (const char *line, size_t length)
{
  static const char words[] = "open save practice recover run mark quit name undo redo new";
  size_t at = 0, end;
  while (at < length && br__blank_at (line + at, length - at))
    at += br__blank_at (line + at, length - at);
  for (end = at; end < length && !br__blank_at (line + end, length - end); end++)
    continue;
  if (!br__is_among (line + at, end - at, words))
    return 0;
  /* `new = 3` names a dimension, which is a mistake of its own kind.  */
  while (end < length && line[end] == ' ')
    end++;
  return end >= length || line[end] != '=';
}

/* Runs the lines of BYTES in SHEET, as lines of a file, without those that are refused; SINK's user is a reading.  */
static void
run_lines (br_sheet *sheet, const char *bytes, size_t length, const char *path, br__guard *guard, const br_sink *sink)
{
  const char *at = bytes, *end = bytes + length;
  for (size_t number = 1; at < end; number++)
    {
      const char *stop = memchr (at, '\n', (size_t) (end - at));
      size_t n = (size_t) ((stop ? stop : end) - at);
      if (br__guard_is_over (guard))
        {
          br_error error = { .status = BR_STOPPED };
          br_fault fault = { .file = path, .line = number, .error = &error };
          snprintf (error.message, sizeof error.message, "%s", br__guard_reason (guard));
          sink->fault (sink->user, &fault);
          return;
        }
      if (is_refused (at, n))
        tell_refused (sink->user, path, number, at, n);
      else
        sheet->language->run (sheet, at, n, path, number, 1, sink);
      at += n + 1;
    }
}

static void
ask (br_sheet *sheet, const char *statement, const br_sink *sink)
{
  sheet->language->run (sheet, statement, strlen (statement), "review", 1, 0, sink);
}

/* The sheet as a whole: cautions, and the picture.  */
static void
look_at (br_sheet *sheet, br__design *d, const br_sink *sink)
{
  br_error error = { .status = BR_OK };
  br__run run = { .sheet = sheet, .sink = sink, .file = d->path, .text = "", .note = "", .error = &error };
  br__report p = { .run = &run, .room_height = ROOM_HEIGHT, .plot = &d->plot };
  if (br__lex_start (&run.lex, "", 0, &error) != BR_OK || br__caution_all (&run) == BR_NO_MEMORY)
    d->title.failed = 1;
  if (sheet->title)
    br__text_puts (&d->title, sheet->title);
  if (!d->shapes)
    br__text_puts (&d->drawing, "no shapes");
  else if (br__report_figure (&p) != BR_OK || !strstr (br__text_string (&p.sections[BR__REPORT_DRAWING].remark), "<figure>"))
    br__text_puts (&d->drawing, "cannot be drawn");
  else if (d->waiting_shapes)
    br__text_printf (&d->drawing, "%zu of %zu shapes wait", d->waiting_shapes, d->shapes);
  else
    br__text_puts (&d->drawing, strstr (br__text_string (&p.sections[BR__REPORT_DRAWING].remark), "not tied down")
                   ? "parts not tied down" : "complete");
  br__text_put (&d->figure, br__text_string (&p.sections[BR__REPORT_DRAWING].remark), p.sections[BR__REPORT_DRAWING].remark.length);
  for (int i = 0; i < BR__REPORT_SECTIONS; i++)
    {
      br__text_clear (&p.sections[i].body);
      br__text_clear (&p.sections[i].remark);
    }
  br_number_clear (&p.scale);
  br__text_clear (&p.settings);
}

typedef struct rules { char *path, *bytes; size_t length; } rules;

/* Runs the rules in an empty sheet, to find errors in them that do not depend on the design.  */
static br_status
try_rules (const rules *with, br__guard *guard, const br__run *run)
{
  br_sheet *sheet = NULL;
  reading r = { .part = PART_TRIAL, .teller = run->sink };
  br_sink sink = { .user = &r, .fault = take_fault };
  br_status status = with->bytes ? br__sheet_new (&sheet, run->sheet->language) : BR_OK;
  if (sheet)
    {
      br_sheet_set_policy (sheet, refuse_file, &r);
      br_sheet_watch (sheet, br__guard_begin (guard));
      run_lines (sheet, with->bytes, with->length, with->path, guard, &sink);
      br__guard_end (guard);
    }
  br_sheet_free (sheet);
  return status;
}

static br_status
look_over (br__design *d, const rules *with, br__guard *guard, const br__run *run)
{
  static const char *const questions[] = { "missing", "list", "shapes", "check" };
  /* A pipe among the designs would hold up the others.  */
  static const br__reading plain = { 0, 0, 1, NULL };
  char *bytes = NULL;
  size_t length = 0;
  br_sheet *sheet = NULL;
  br_error error = { .status = BR_OK };
  reading r = { .design = d, .part = PART_SHEET };
  br_sink sink = { .user = &r, .record = take_record, .fault = take_fault, .solver = run->sink ? run->sink->solver : NULL };
  br_status status = br__file_read_as (&bytes, &length, d->path, &plain, &error);
  if (status == BR_OK && length > MOST_BYTES)
    status = br__fail (&error, BR_TOO_BIG, 0, 0, "a sheet of more than %u bytes", MOST_BYTES);
  else if (status == BR_OK && !br__content_is_text (bytes, length))
    status = br__fail (&error, BR_SYNTAX, 0, 0, "this is no text, so it is no sheet");
  if (status != BR_OK)
    {
      br__free (bytes);
      br__text_puts (&d->drawing, "none");
      br__design_add (d, BR__FINDING_MISTAKE, "%s", error.message);
      return status == BR_NO_MEMORY ? status : BR_OK;
    }
  d->read = 1;
  /* GUARD watches the memory of designs.  */
  br__account *outer = br__account_use (NULL);
  status = br__sheet_new (&sheet, run->sheet->language);
  if (status == BR_OK)
    {
      r.sheet = sheet;
      br_sheet_set_policy (sheet, refuse_file, &r);
      br_sheet_watch (sheet, br__guard_begin (guard));
      run_lines (sheet, bytes, length, d->path, guard, &sink);
      r.part = PART_CHECKS;
      for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++)
        ask (sheet, questions[i], &sink);
      if (sheet->wood)
        ask (sheet, "cuts", &sink);
      look_at (sheet, d, &sink);
      r.part = PART_RULES;
      if (with->bytes)
        {
          run_lines (sheet, with->bytes, with->length, with->path, guard, &sink);
          r.part = PART_AGAIN;
          ask (sheet, "check", &sink);
        }
      br__guard_end (guard);
    }
  br_sheet_free (sheet);
  (void) br__account_use (outer);
  br__free (bytes);
  return d->title.failed || d->drawing.failed || d->figure.failed ? BR_NO_MEMORY : status;
}

/* ---- The statement ---- */

static br_status
emit_design (br__run *run, const br__design *d)
{
  br_record *r = br__record_new ("review");
  br__put_text (r, "file", d->path);
  br__put_text (r, "title", br__text_string (&d->title));
  br__put_count (r, "dimensions", (int64_t) d->dimensions);
  br__put_count (r, "shapes", (int64_t) d->shapes);
  for (int f = 0; f < BR__FINDINGS; f++)
    {
      br_list *list = br__put_list (r, br__finding_key ((br__finding) f));
      for (size_t i = 0; i < d->count[f]; i++)
        br__list_text (list, br__text_string (&d->found[f][i]));
    }
  br__put_text (r, "drawing", br__text_string (&d->drawing));
  return br__emit (run, r);
}

typedef struct clauses
{
  br__design *designs;
  size_t count, room;
  char *rules, *path;
  size_t path_start;
} clauses;

/* The files that the PATTERN means, which may have * and ? in it.  */
static br_status
add_files (clauses *c, br__run *run, char *pattern, size_t start, size_t end)
{
  glob_t found;
  br_status status = BR_OK;
  int got = glob (pattern, GLOB_NOCHECK, NULL, &found);
  if (got != 0)
    return br__fail (run->error, BR_IO, start, end - start, "cannot look for these files");
  /* A missing file is reported together with the others; a word that is not a file, or a pattern without files, is an error.  */
  if (found.gl_pathc == 1 && (strpbrk (pattern, "*?") || !strchr (pattern, '.')) && access (found.gl_pathv[0], F_OK) != 0)
    {
      globfree (&found);
      br__fail (run->error, BR_IO, start, end - start, "there is no file `%.*s`", br__clip (pattern, strlen (pattern), 60), pattern);
      br__hint (run->error, "help review");
      return BR_IO;
    }
  for (size_t i = 0; i < found.gl_pathc && status == BR_OK; i++)
    {
      const char *path = found.gl_pathv[i];
      if (c->rules && strcmp (c->rules, path) == 0)
        continue;
      if (c->count == MOST_DESIGNS)
        status = br__fail (run->error, BR_TOO_BIG, start, end - start, "more than %d designs", MOST_DESIGNS);
      else if (!br__grow (&c->designs, &c->room, c->count + 1, sizeof *c->designs))
        status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
      else
        {
          br__design *d = &c->designs[c->count++];
          memset (d, 0, sizeof *d);
          d->path = br__strndup (path, strlen (path));
          status = d->path ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
        }
    }
  globfree (&found);
  return status;
}

/* The next file name from AT on, in quotes or up to a blank: [*START, *END); *NEXT is behind it.  Commas may part names.  */
static int
next_name (const br__run *run, size_t *start, size_t *end, size_t *next, size_t at)
{
  while (at < run->end && (run->text[at] == ',' || br__blank_at (run->text + at, run->end - at)))
    at += run->text[at] == ',' ? 1 : br__blank_at (run->text + at, run->end - at);
  *start = *end = at;
  if (at >= run->end)
    return 0;
  if (run->text[at] == '"')
    {
      const char *quote = memchr (run->text + at + 1, '"', run->end - at - 1);
      *start = at + 1;
      *end = quote ? (size_t) (quote - run->text) : run->end;
      *next = *end + (quote != NULL);
      return 1;
    }
  while (*end < run->end && !br__blank_at (run->text + *end, run->end - *end))
    ++*end;
  *next = *end;
  while (run->text[*end - 1] == ',')
    --*end;
  return 1;
}

static br_status
read_names (clauses *c, br__run *run, int designs)
{
  size_t at = run->word.offset + run->word.length, start, end;
  int into = 0, with = 0;
  br_status status = BR_OK;
  while (status == BR_OK && next_name (run, &start, &end, &at, at))
    {
      char *path = NULL;
      size_t n = end - start;
      if (run->text[start > 0 ? start - 1 : 0] != '"' && (br__is_among (run->text + start, n, "with into")))
        {
          with = run->text[start] == 'w' || run->text[start] == 'W';
          into = !with;
          continue;
        }
      status = br__file_path (&path, run, start, end, into ? BR_FILE_WRITE : BR_FILE_READ);
      if (status == BR_OK && designs && !with && !into)
        status = add_files (c, run, path, start, end);
      else if (status == BR_OK && !designs && (with || into))
        {
          char **place = with ? &c->rules : &c->path;
          if (*place)
            status = br__fail (run->error, BR_SYNTAX, start, n, "one file should stand here");
          else
            {
              *place = path;
              path = NULL;
            }
          if (into)
            c->path_start = start;
        }
      br__free (path);
    }
  return status;
}

static br_status
read_clauses (clauses *c, br__run *run)
{
  br_status status = read_names (c, run, 0);
  if (status == BR_OK)
    status = read_names (c, run, 1);
  if (status == BR_OK && !c->count)
    return br__fail (run->error, BR_SYNTAX, run->end, 0, "the line ends where the files of the designs should stand");
  for (size_t i = 0; i < c->count && status == BR_OK; i++)
    status = br__not_over (run, c->path ? c->path : "", c->designs[i].path, "a design", c->path_start, run->end);
  if (status == BR_OK && c->path)
    status = br__not_over (run, c->path, c->rules, "the rules", c->path_start, run->end);
  return status;
}

br_status
br__do_review (br__run *run)
{
  clauses c;
  rules with = { NULL, NULL, 0 };
  br__guard *guard = NULL;
  memset (&c, 0, sizeof c);
  br_status status = read_clauses (&c, run);
  if (status == BR_OK && c.rules)
    status = br__placed (run, br__file_read (&with.bytes, &with.length, c.rules, run->error), run->word.offset, run->end);
  with.path = c.rules;
  if (status == BR_OK && ((status = br__guard_new (&guard, run->sheet->flag)) != BR_OK || (status = try_rules (&with, guard, run)) != BR_OK))
    br__fail_plain (run->error, status, 0, 0);
  for (size_t i = 0; i < c.count && status == BR_OK; i++)
    {
      status = br__lesson_progress (run, "looking over designs", i, c.count);
      if (status == BR_OK && (status = look_over (&c.designs[i], &with, guard, run)) != BR_OK)
        br__fail_plain (run->error, status, 0, 0);
      if (status == BR_OK)
        status = emit_design (run, &c.designs[i]);
    }
  br__guard_free (guard);
  if (status == BR_OK && c.path)
    status = br__placed (run, br__review_write (c.path, c.designs, c.count, run), c.path_start, run->end);
  for (size_t i = 0; i < c.count; i++)
    br__design_clear (&c.designs[i]);
  br__free (c.designs);
  br__free (c.rules);
  br__free (c.path);
  br__free (with.bytes);
  return status;
}
