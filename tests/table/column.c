/* SPDX-License-Identifier: GPL-3.0-or-later
   column.c - columns of CSV files at random against a slow twin made of the public functions: every byte of
   what comes out, by one thread and by four, the cells that get no mark, and totals that are kept.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../sheet/support.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

static char folder[] = "/tmp/benchrule-column-XXXXXX";

static void
path_of (char path[static 64], const char *name)
{
  snprintf (path, 64, "%s/%s", folder, name);
}

static void
save (const char *name, const br_text *text)
{
  char path[64];
  path_of (path, name);
  FILE *file = fopen (path, "w");
  assert_non_null (file);
  assert_int_equal (fwrite (br__text_string (text), 1, text->length, file), text->length);
  assert_int_equal (fclose (file), 0);
}

static void
load (br_text *text, const char *name)
{
  char path[64];
  int c;
  path_of (path, name);
  FILE *file = fopen (path, "r");
  assert_non_null (file);
  br__text_reset (text);
  while ((c = getc (file)) != EOF)
    br__text_putc (text, (char) c);
  fclose (file);
}

typedef struct heard
{
  size_t faults, records;
  size_t first_line;
  char bad[24], marks[24];
  char total[200], total_exact[200], worst[200];
} heard;

static void
on_fault (void *user, const br_fault *fault)
{
  heard *h = user;
  if (!h->faults++)
    h->first_line = fault->line;
}

static void
on_record (void *user, const br_record *record)
{
  heard *h = user;
  schema_hold (record);
  assert_string_equal (br_record_kind (record), "column");
  h->records++;
  snprintf (h->bad, sizeof h->bad, "%" PRId64, br_record_get (record, "bad").value.count);
  snprintf (h->marks, sizeof h->marks, "%" PRId64, br_record_get (record, "marks").value.count);
  snprintf (h->total, sizeof h->total, "%s", br_record_text (record, "total_value"));
  snprintf (h->total_exact, sizeof h->total_exact, "%s", br_record_text (record, "total_exact"));
  snprintf (h->worst, sizeof h->worst, "%s", br_record_text (record, "worst_error"));
}

/* Runs `round column COLUMN of in.csv CLAUSES into TARGET`.  */
static br_status
run (heard *h, const char *column, const char *clauses, const char *target, unsigned jobs)
{
  char line[300];
  br_sheet *sheet = NULL;
  br_sink sink = { .user = h, .record = on_record, .fault = on_fault };
  memset (h, 0, sizeof *h);
  check_ok (br_sheet_new (&sheet));
  check_ok (br_sheet_set_jobs (sheet, jobs));
  snprintf (line, sizeof line, "round column %s of %s/in.csv %s into %s/%s", column, folder, clauses, folder,
            target);
  br_status status = br_sheet_run (sheet, line, strlen (line), "test", 1, &sink);
  br_sheet_free (sheet);
  return status;
}

/* A cell that may be anything: a measure, words, quotes, line breaks.  */
static void
make_cell (br_text *t)
{
  static const char *const some[] = {
    "6.595", "2-3/8", "2 3/8", "\"2-3/8\"\"\"", "3/8", "0", "-1/32", "12", "1/3", "5' 2-3/8\"", "25.4 mm", "-7.03125",
    "", "none", "1,5", "1e3", "\"two\nlines\"", "\"a, b\"", "\"\"", "\"1.5\"", "2-9/8", "3 sq in", " 4.25 ", "\xc2\xbd",
    "123456789012345678901234567890.5", "0.000000000000000000001", "900000000000000000", "1200000000000000000.3",
    "12345678", "1234.567", "12345.6789", ".5", "7.", "48.25", "0.0000001", "\"\"\"\"", "\"\n\n\"", "9/0", "1/1048577"
  };
  if (check_below (2))
    br__text_puts (t, some[check_below (CHECK_COUNT (some))]);
  else
    br__text_printf (t, "%u.%03u", (unsigned) check_below (60), (unsigned) check_below (1000));
}

/* What cells and marks come to, one number after the other, and the first of the largest errors.  */
typedef struct tally
{
  br_number exact, marks, worst, worst_size;
} tally;

static void
tally_clear (tally *sums)
{
  br_number_clear (&sums->exact);
  br_number_clear (&sums->marks);
  br_number_clear (&sums->worst);
  br_number_clear (&sums->worst_size);
}

static void
add_up (tally *sums, const br_number *x, const br_number *mark, const br_number *error)
{
  br_number size = BR_NUMBER_ZERO;
  check_ok (br_number_add (&sums->exact, &sums->exact, x));
  check_ok (br_number_add (&sums->marks, &sums->marks, mark));
  check_ok (br_number_abs (&size, error));
  if (br_number_cmp (&size, &sums->worst_size) > 0)
    {
      br_number_swap (&sums->worst_size, &size);
      check_ok (br_number_set (&sums->worst, error));
    }
  br_number_clear (&size);
}

static void
check_sums (const heard *h, const tally *sums)
{
  char text[200];
  assert_true (br_number_write (text, sizeof text, &sums->exact) < sizeof text);
  assert_string_equal (h->total_exact, text);
  br_number_write (text, sizeof text, &sums->marks);
  assert_string_equal (h->total, text);
  br_number_write (text, sizeof text, &sums->worst);
  assert_string_equal (h->worst, text);
}

/* What the statement is to answer for one cell as it stands; 0 for no mark.  */
static int
expect_marks (br_text *t, tally *sums, const char *cell, size_t length)
{
  char plain[200], mark[200], error[400], decimal[200];
  size_t size = 0;
  br_measure m = BR_MEASURE_ZERO;
  br_number value = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO, sixteenth = { 1, 15 };
  for (size_t i = 0; i < length; i++)
    {
      if (cell[0] == '"' && (i == 0 || i + 1 == length || (cell[i] == '"' && cell[i + 1] == '"' && i++)))
        {
          if (i == 0 || i + 1 == length)
            continue;
        }
      plain[size++] = cell[i];
    }
  int good = br_measure_read (&m, plain, size, NULL, NULL) == BR_OK
             && (!m.unit || m.unit->dimension == BR_LENGTH);
  if (good)
    {
      check_ok (br_ruler_round (&value, &off, NULL, &m.value, &sixteenth, BR_NEAREST, BR_TIES_UP));
      assert_true (br_measure_write (mark, sizeof mark, &value, m.unit ? BR_LENGTH : BR_PLAIN, NULL) < sizeof mark);
      assert_true (br_number_write (error, sizeof error, &off) < sizeof error);
      br_number_write_decimal (decimal, sizeof decimal, NULL, &off, 12);
      add_up (sums, &m.value, &value, &off);
      /* The inch mark at the end is doubled, and the quote closed.  */
      if (m.unit)
        br__text_printf (t, ",\"%s\"\",%s,%s", mark, error, decimal);
      else
        br__text_printf (t, ",%s,%s,%s", mark, error, decimal);
    }
  else
    br__text_puts (t, ",,,");
  br_measure_clear (&m);
  br_number_clear (&value);
  br_number_clear (&off);
  return good;
}

/* ROWS rows under a header into IN, and what is to come of them into OUT and SUMS.  */
static size_t
make_file (br_text *in, br_text *out, tally *sums, size_t rows)
{
  size_t bad = 0, width = 1 + check_below (4), index = check_below (width);
  br__text_reset (in);
  br__text_reset (out);
  for (size_t i = 0; i < width; i++)
    br__text_printf (in, "%s%s", i ? "," : "", i == index ? "length" : "other");
  br__text_put (out, in->bytes, in->length);
  br__text_puts (out, ",length_mark,length_error,length_error_decimal\n");
  br__text_putc (in, '\n');
  for (size_t r = 0; r < rows; r++)
    {
      const char *end = r + 1 == rows && check_below (2) ? "" : check_below (2) ? "\r\n" : "\n";
      size_t cells = check_below (20) ? width : 1 + check_below (width), start = in->length, cell = 0, length = 0;
      for (size_t i = 0; i < cells; i++)
        {
          if (i)
            br__text_putc (in, ',');
          size_t before = in->length;
          make_cell (in);
          if (i == 0 && width == 1 && in->length == before)
            br__text_putc (in, 'x');
          if (cells == 1 && in->length == before)
            br__text_putc (in, 'y');
          /* a bare comma would make two cells of one */
          if (in->length - before == 3 && memcmp (in->bytes + before, "1,5", 3) == 0)
            in->bytes[before + 1] = ';';
          if (i == index)
            cell = before, length = in->length - before;
        }
      br__text_put (out, in->bytes + start, in->length - start);
      for (size_t i = cells; i < width; i++)
        br__text_putc (out, ',');
      if (cells > index)
        bad += !expect_marks (out, sums, in->bytes + cell, length);
      else
        {
          br__text_puts (out, ",,,");
          bad++;
        }
      br__text_puts (in, end);
      br__text_puts (out, end);
    }
  return bad;
}

/* GOT is WANTED, or the first line that differs is shown.  */
static void
check_same (const br_text *got, const br_text *wanted)
{
  size_t at = 0;
  while (at < got->length && at < wanted->length && got->bytes[at] == wanted->bytes[at])
    at++;
  if (at == got->length && at == wanted->length)
    return;
  while (at > 0 && wanted->bytes[at - 1] != '\n')
    at--;
  fail_msg ("%.200s\nis not\n%.200s", br__text_string (got) + at, br__text_string (wanted) + at);
}

static void
test_random (void **state)
{
  (void) state;
  br_text in = BR_TEXT_ZERO, wanted = BR_TEXT_ZERO, got = BR_TEXT_ZERO;
  for (long i = 0; i < check_times (60); i++)
    {
      heard h;
      tally sums = { BR_NUMBER_ZERO, BR_NUMBER_ZERO, BR_NUMBER_ZERO, BR_NUMBER_ZERO };
      size_t rows = i % 10 == 0 ? 20000 : check_below (60), bad = make_file (&in, &wanted, &sums, rows);
      save ("in.csv", &in);
      for (unsigned jobs = 1; jobs <= 4; jobs += 3)
        {
          br_status status = run (&h, "length", "to 1/16", "out.csv", jobs);
          assert_int_equal (status, bad ? BR_SYNTAX : BR_OK);
          load (&got, "out.csv");
          check_same (&got, &wanted);
          assert_int_equal (strtoull (h.bad, NULL, 10), bad);
          assert_int_equal (strtoull (h.marks, NULL, 10), rows - bad);
          assert_int_equal (h.faults, bad > 20 ? 21 : bad);
          assert_int_equal (h.records, 1);
          if (rows > bad)
            check_sums (&h, &sums);
        }
      tally_clear (&sums);
    }
  br__text_clear (&in);
  br__text_clear (&wanted);
  br__text_clear (&got);
}

/* The marks that keep a total are those of br_ruler_keep_total, block after block.  */
static void
test_total (void **state)
{
  enum { COUNT = 20000 };
  (void) state;
  br_text in = BR_TEXT_ZERO, wanted = BR_TEXT_ZERO, got = BR_TEXT_ZERO;
  br_real *x = calloc (COUNT, sizeof *x);
  br_number *marks = calloc (COUNT, sizeof *marks), total = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO;
  br_number eighth = { 1, 7 };
  char text[40];
  heard h;
  assert_true (x && marks);
  for (size_t i = 0; i < COUNT; i++)
    {
      check_ok (br_number_set_ratio (&x[i].rational, check_between (-3000, 60000), check_below (3) ? 1000 : 96));
      br_number_write_mixed (text, sizeof text, &x[i].rational);
      br__text_printf (&in, "%s\n", text);
    }
  save ("in.csv", &in);
  check_ok (br_ruler_keep_total (marks, &total, x, COUNT, &eighth, BR_NEAREST, BR_TIES_UP, 0));
  for (size_t i = 0; i < COUNT; i++)
    {
      br_number_write_mixed (text, sizeof text, &x[i].rational);
      br__text_printf (&wanted, "%s,", text);
      br_number_write_mixed (text, sizeof text, &marks[i]);
      br__text_printf (&wanted, "%s,", text);
      check_ok (br_number_sub (&off, &marks[i], &x[i].rational));
      br__put_number (&wanted, &off);
      br__text_putc (&wanted, ',');
      br__put_decimal (&wanted, &off, 12);
      br__text_putc (&wanted, '\n');
    }
  check_ok (run (&h, "1", "to 1/8 keep total", "out.csv", 4));
  load (&got, "out.csv");
  check_same (&got, &wanted);
  br_number_write (text, sizeof text, &total);
  assert_string_equal (h.total, text);
  br_number_clear (&total);
  br_number_clear (&off);
  free (x);
  free (marks);
  br__text_clear (&in);
  br__text_clear (&wanted);
  br__text_clear (&got);
}

static void
test_jobs (void **state)
{
  br_sheet *sheet = NULL;
  (void) state;
  check_ok (br_sheet_new (&sheet));
  assert_int_equal (br_sheet_set_jobs (sheet, 0), BR_DOMAIN);
  assert_int_equal (br_sheet_set_jobs (sheet, BR_MAX_JOBS + 1), BR_DOMAIN);
  check_ok (br_sheet_set_jobs (sheet, BR_MAX_JOBS));
  br_sheet_free (sheet);
}

/* Whenever memory runs out, the statement says so and the file is not there.  */
static void
test_memory (void **state)
{
  (void) state;
  br_text in = BR_TEXT_ZERO;
  char path[64];
  path_of (path, "none.csv");
  br__text_puts (&in, "length\n2-3/8\"\n\"1.5\"\nbad\n123456789012345678901234567890.5\n");
  save ("in.csv", &in);
  for (int keep = 0; keep < 2; keep++)
    for (long left = 0;; left++)
      {
        heard h;
        unlink (path);
        memset (&h, 0, sizeof h);
        br_sheet *sheet = NULL;
        br_sink sink = { .user = &h, .record = on_record, .fault = on_fault };
        char line[200];
        check_ok (br_sheet_new (&sheet));
        snprintf (line, sizeof line, "round column length of %s/in.csv to 1/16 %s into %s", folder,
                  keep ? "keep total" : "", path);
        check_memory_limit (left);
        br_status status = br_sheet_run (sheet, line, strlen (line), "test", 1, &sink);
        check_memory_left = -1;
        int refused = check_memory_refused;
        br_sheet_free (sheet);
        check_memory_free ();
        assert_int_equal (status, refused ? BR_NO_MEMORY : BR_SYNTAX);
        if (!refused)
          break;
      }
  br__text_clear (&in);
}

/* Sizes get names all or not at all: whichever request for memory is refused, and once or from there on.  */
static void
test_names_memory (void **state)
{
  (void) state;
  br_text in = BR_TEXT_ZERO;
  br__text_puts (&in, "part;size\nrail;2,5\npost;\"3 1/2 in\"\nslat;7,25\n");
  save ("in.csv", &in);
  for (int once = 0; once < 2; once++)
    for (long left = 0;; left++)
      {
        char line[200];
        br_sheet *sheet = NULL;
        br_real x = BR_REAL_ZERO;
        br_dimension dimension;
        int named = 0;
        static const char *const names[] = { "rail", "post", "slat" };
        check_ok (br_sheet_new (&sheet));
        check_ok (br_sheet_run (sheet, "z = 1", 5, "test", 1, NULL));
        snprintf (line, sizeof line, "name column 1 size 2 of %s/in.csv", folder);
        check_memory_limit (left);
        check_memory_once = once;
        br_status status = br_sheet_run (sheet, line, strlen (line), "test", 1, NULL);
        check_memory_left = -1;
        int refused = check_memory_refused;
        for (size_t i = 0; i < CHECK_COUNT (names); i++)
          named += br_sheet_get (&x, &dimension, sheet, names[i], NULL) == BR_OK;
        assert_int_equal (named, status == BR_OK ? 3 : 0);
        check_ok (br_sheet_get (&x, &dimension, sheet, "z", NULL));
        /* One `undo` takes all of them back, and the next one z.  */
        check_ok (br_sheet_run (sheet, "undo", 4, "test", 1, NULL));
        assert_int_equal (br_sheet_get (&x, &dimension, sheet, "rail", NULL) == BR_OK, 0);
        assert_int_equal (br_sheet_get (&x, &dimension, sheet, "z", NULL) == BR_OK, status == BR_OK);
        br_real_clear (&x);
        br_sheet_free (sheet);
        check_memory_free ();
        assert_true (status == BR_OK || (refused && status == BR_NO_MEMORY));
        if (!refused)
          break;
      }
  br__text_clear (&in);
}

/* The program's peak is under 16 MiB for two million rows, by one thread and by four.  */
static void
test_peak (void **state)
{
  const char *program = getenv ("BR");
  (void) state;
  if (!program || check_watched ())
    return;         /* what they take is no measure */
  br_text in = BR_TEXT_ZERO;
  char line[200];
  for (unsigned i = 0; i < 2000000; i++)
    br__text_printf (&in, "%u.%03u\n", i % 97, i % 1000);
  save ("in.csv", &in);
  br__text_clear (&in);
  snprintf (line, sizeof line, "round column 1 of %s/in.csv to 1/16 into %s/out.csv", folder, folder);
  for (int jobs = 1; jobs <= 4; jobs += 3)
    {
      struct rusage use;
      int status = -1;
      pid_t child = fork ();
      if (child == 0)
        {
          if (freopen ("/dev/null", "w", stdout))
            execl (program, program, jobs == 1 ? "--jobs=1" : "--jobs=4", "-c", line, (char *) NULL);
          _exit (127);
        }
      assert_int_equal (wait4 (child, &status, 0, &use), child);
      assert_int_equal (status, 0);
      /* fork begins with the pages of this process, so that they must be fewer.  */
      if (use.ru_maxrss >= 16384)
        fail_msg ("%d threads: %ld KiB", jobs, use.ru_maxrss);
    }
}

static int
make_folder (void **state)
{
  (void) state;
  return mkdtemp (folder) ? 0 : -1;
}

static int
remove_folder (void **state)
{
  static const char *const names[] = { "in.csv", "out.csv", "none.csv" };
  char path[64];
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (names); i++)
    {
      path_of (path, names[i]);
      unlink (path);
    }
  return rmdir (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_random), CHECK_TEST (test_total), CHECK_TEST (test_jobs), CHECK_TEST (test_memory), CHECK_TEST (test_names_memory),
    CHECK_TEST (test_peak),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, make_folder, remove_folder));
}
