/* SPDX-License-Identifier: GPL-3.0-or-later
   samples.h - one line for each statement there is, which the tests of memory and of threads run; a word
   without a line fails them.  */
#ifndef BR_TESTS_SHEET_SAMPLES_H
#define BR_TESTS_SHEET_SAMPLES_H

#include <unistd.h>

#include "statement/statements.h"
#include "support.h"

typedef struct sheet_sample
{
  const char *word;         /* of the table of statements; "" where none begins the line */
  const char *line;
  int many;                 /* it runs further lines, each of them whole or not at all */
} sheet_sample;

static const sheet_sample samples[] = {
  { "", "wheel / 3 + sqrt (2 sq in)", 0 },
  { "", "full 1-3/16, 2-1/4, drawn wheel", 0 },
  { "", "wheel = 4 in +- 1/64 in  # larger", 0 },
  { "", "fresh = wheel + later", 0 },
  { "", "later = 1/2 in", 0 },
  { "", "fender_gap(fender_radius(wheel, 5/16), wheel)", 0 },
  { "", "round column size of sizes.csv to 1/8 keep total into column.csv", 0 },
  { "name", "name column 2 size 1 of sizes.csv", 1 },
  { "pictures", "pictures off", 0 },
  { "pager", "pager off", 0 },
  { "round", "round front, wheel, 1/3 in to 1/8 keep total", 0 },
  { "marks", "marks sqrt (3 sq in)", 0 },
  { "simplest", "simplest 6.595 within 1/32", 0 },
  { "drills", "drills axle", 0 },
  { "saws", "saws 2 in", 0 },
  { "tidy", "tidy apply to 1/4", 0 },
  { "list", "list", 0 },
  { "missing", "missing", 0 },
  { "trace", "trace diag", 0 },
  { "forget", "forget wheel, base", 0 },
  { "undo", "undo", 0 },
  { "redo", "redo", 0 },
  { "check", "check diag < 15 in  # fits", 0 },
  { "tolerance", "tolerance 1/64 in on base, axle", 0 },
  { "stack", "stack base - wheel * 2", 0 },
  { "find", "find base for front = 20 in", 0 },
  { "show", "show fender(wheel, 1/4 in, 1/2 in)", 0 },
  { "datum", "datum base, wheel / 2", 0 },
  { "no", "no datum", 0 },
  { "dimension", "dimension centre(rim) to left(bed) level off 1/2 in as \"so\"", 0 },
  { "note", "note \"sand\" at base, wheel to bed", 0 },
  { "circle", "circle hub = axle on rim hole", 0 },
  { "box", "box deck = base x 3/4 in above rim by 1/4 in", 0 },
  { "arc", "arc hood = fender(rim, 1/2 in, 1 in) 200 deg", 0 },
  { "line", "line handle = 0 in, 0 in to base, 5 in wide 1/2 in", 0 },
  { "outline", "outline wing = 0 in, 0 in to base, 0 in to base, 5 in round 1/4 in", 0 },
  { "plate", "plate washer = 2 in hole 1 in at base, 3 in", 0 },
  { "turn", "turn bed by 10 deg", 0 },
  { "row", "row rims of rim qty 3 by base, 1 in", 0 },
  { "mirror", "mirror rear of wing about base", 0 },
  { "shapes", "shapes", 0 },
  { "clear", "clear rim, bed", 0 },
  { "circle", "circle disc = axle on rim deep 3/4 in both sides base behind bed", 0 },
  { "rubs", "rubs", 0 },
  { "template", "template side into side_part.svg", 0 },
  { "report", "report into report.html", 0 },
  { "review", "review other.sheet with sizes.csv into review.csv", 0 },
  { "practice", "practice report", 0 },
  { "mark", "mark again", 0 },
  { "history", "history . into history.html", 0 },
  { "must", "must have base from 1 in to 9 in, later", 0 },
  { "explain", "explain front to 1/8", 0 },
  { "draw", "draw", 0 },
  { "draw", "draw into side.svg scale 1:8 grid 1/2 in paper a4", 0 },
  { "draw", "draw views into side.svg", 0 },
  { "divide", "divide base into 5 kerf 1/8 in", 0 },
  { "space", "space 4 across base width axle ends 1 in", 0 },
  { "stock", "stock ash = hardwood 4/4 x 6 x 72", 0 },
  { "part", "part rail = 10 in x 2 in qty 4 from pine", 0 },
  { "parts", "parts", 0 },
  { "cautions", "cautions", 0 },
  { "cuts", "cuts pine", 0 },
  { "order", "order class 3 spare 10", 0 },
  { "fit", "fit 20 in x 30 in", 0 },
  { "ruler", "ruler 1/10", 0 },
  { "scale", "scale 41 mm = 3 in", 0 },
  { "units", "units mm", 0 },
  { "grid", "grid 5 mm", 0 },
  { "kerf", "kerf 3/32", 0 },
  { "blade", "blade 1/4", 0 },
  { "child", "child 3 years", 0 },
  { "paper", "paper a3 margin 10 mm", 0 },
  { "ties", "ties even", 0 },
  { "feet", "feet on", 0 },
  { "projection", "projection first", 0 },
  { "title", "title Market cart, second plan", 0 },
  { "date", "date 25 November 2026", 0 },
  { "problem", "problem How long is the handle?", 0 },
  { "answer", "answer base * 2 to 1/8", 0 },
  { "given", "given rim from 2 in to 4 in by 1/4 in", 0 },
  { "worksheet", "worksheet sums 2, reading 2, own 1 seed 3 into sums.csv", 0 },
  { "words", "words into sentences.csv", 0 },
  { "key", "key sums_key.csv", 0 },
  { "grade", "grade answers.csv with key.csv into marks.csv", 0 },
  { "open", "save over prelude.sheet\nopen other.sheet", 1 },
  { "use", "use other.sheet", 1 },
  { "new", "new without saving", 0 },
  { "run", "run files", 0 },
  { "recover", "recover drop", 0 },
  { "known", "known wheel", 0 },
  { "known", "known", 0 },
  { "", "fresh_axle = 3/8 in known", 0 },
  { "exact", "exact wheel / 7", 0 },
  { "rename", "rename wheel to disc", 0 },
  { "save", "save over saved.sheet", 0 },
  { "help", "help round", 0 },
  { "quit", "quit", 0 },
};

/* The market cart in few lines, so that there is something of everything, and something to redo.  */
static const char samples_prelude[] =
  "wheel = 3-1/2 in +- 1/32 in  # bought\n"
  "axle = 7/16 in\n"
  "base = 14 in\n"
  "front = base - wheel / 2\n"
  "waits = front + later\n"
  "diag = sqrt (base ^ 2 + wheel ^ 2)\n"
  "check front >= 4 in  # room\n"
  "tolerance 1/32 in on base\n"
  "stock pine = 3/4 x 5-1/2 x 48 qty 2\n"
  "part side = base x 5 in from pine\n"
  "circle rim = wheel at 0 in, 0 in deep 1 in both sides base\n"
  "box bed = base x 1 in at 0 in, 4 in deep 9 in\n"
  "datum base, 0 in\n"
  "given hub from 1 in to 2 in by 1/2 in\n"
  "worksheet sums 2 seed 1 into prelude.csv\n"
  "grade answers.csv with key.csv into marks.csv\n"
  "problem How long are the sides?\n"
  "answer base\n"
  "problem How wide is the bed?\n"
  "spare = 1/2 in\n"
  "undo";

static const char *const samples_files[][2] = {
  { "sizes.csv", "size,name\n1.23,side\n2-5/8,rail\n" },
  { "answers.csv", "student,version,1,2\nFinch,1,3/8,2-1/2 in\n" },
  { "other.sheet", "handle = 20 in\ngrip = handle / 4  # as long as a hand\ncheck grip > 4 in\n" },
};

static char samples_folder[] = "/tmp/benchrule-samples-XXXXXX";

/* A folder with the files that the lines name.  */
CHECK_UNUSED static int
samples_start (void **state)
{
  br_sheet *sheet = NULL;
  (void) state;
  if (!mkdtemp (samples_folder) || chdir (samples_folder) != 0 || br_sheet_new (&sheet) != BR_OK)
    return -1;
  for (size_t i = 0; i < CHECK_COUNT (samples_files); i++)
    {
      FILE *file = fopen (samples_files[i][0], "w");
      if (!file || fputs (samples_files[i][1], file) < 0 || fclose (file) != 0)
        return -1;
    }
  const char *text = "worksheet sums 2 seed 1 into sums.csv\nkey key.csv";
  br_status status = br_sheet_run (sheet, text, strlen (text), "test", 1, NULL);
  br_sheet_free (sheet);
  return status != BR_OK;
}

CHECK_UNUSED static int
samples_end (void **state)
{
  static const char *const made[] = { "column.csv", "sums.csv", "sums_key.csv", "key.csv", "marks.csv",
                                      "saved.sheet", "sentences.csv", "side.svg", "side_part.svg", "prelude.csv", "prelude.sheet", "report.html", "review.csv",
                                      "history.html" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (samples_files); i++)
    remove (samples_files[i][0]);
  for (size_t i = 0; i < CHECK_COUNT (made); i++)
    remove (made[i]);
  return chdir ("/") != 0 || rmdir (samples_folder) != 0;
}

/* What S holds, a value a line.  */
static void
samples_write (FILE *out, const said *s)
{
  for (size_t i = 0; i < s->count; i++)
    for (size_t k = 0; k < s->records[i].size; k++)
      fputc (s->records[i].pairs[k] ? s->records[i].pairs[k] : '\n', out);
  for (size_t i = 0; i < s->fault_count; i++)
    fprintf (out, "%s\n", s->faults[i].error.message);
}

CHECK_UNUSED static char *
samples_said (const said *s)
{
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  samples_write (out, s);
  fclose (out);
  return text;
}

/* All that SHEET holds, as it shows it and as it would be saved.  To be freed.  */
CHECK_UNUSED static char *
samples_state (br_sheet *sheet)
{
  static const char things[] = "list\nmissing\ncheck\ntolerance\nstock\nparts\nshapes";
  char *text = NULL;
  size_t size;
  const br__statement *st;
  said s = SAID_ZERO;
  FILE *out = open_memstream (&text, &size);
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    if (st->setting)
      {
        sheet_say (sheet, &s, "%s", st->word);
        samples_write (out, &s);
      }
  sheet_say (sheet, &s, "%s", things);
  samples_write (out, &s);
  for (const br__line *l = sheet->first; l; l = l->next)
    if (!l->hidden)
      fprintf (out, "%.*s\n", (int) l->length, l->text);
  fprintf (out, "done %zu failing %zu waiting %zu\n", sheet->done_count, br_sheet_failing (sheet),
           br_sheet_waiting (sheet));
  fclose (out);
  said_clear (&s);
  return text;
}

/* What SAMPLE says in a sheet of its own, and what that sheet holds then.  To be freed.  */
CHECK_UNUSED static char *
samples_answer (const char *prelude, const sheet_sample *sample)
{
  said s = SAID_ZERO;
  char *text = NULL;
  size_t size;
  br_sheet *sheet = sheet_with (prelude);
  FILE *out = open_memstream (&text, &size);
  fprintf (out, "%s\n", br_status_name (sheet_run (sheet, &s, sample->line)));
  samples_write (out, &s);
  br_sheet_go_on (sheet);
  char *state = samples_state (sheet);
  fputs (state, out);
  free (state);
  fclose (out);
  sheet_end (sheet, &s);
  return text;
}

#endif
