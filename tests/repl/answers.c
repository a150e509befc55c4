/* SPDX-License-Identifier: GPL-3.0-or-later
   answers.c - tests of answers as JSON and as text, with the records of real statements:
   JSON that is read back has every field in order; text fits the display it is for.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#include <jansson.h>
#include <locale.h>

#include "escape.h"
#include "show/json.h"
#include "schema.h"
#include "show/text.h"

/* One of each kind of answer, with notes, units, ties, values that are not exact.  */
static const char *const statements[] = {
  "1/2 + 3/8, sqrt 2, 63/8 in, 2 in * 3 in, atan 1",
  "sqrt 2",
  "2-3/8\"",
  "round 6.595 to 1/8",
  "round -6.595 to 1/8",
  "round sqrt 2 to 1/64 up",
  "round 2.3125 to 1/8",
  "round 12.5 mm to 1 mm",
  "round 1234567.3 to 1/64",
  "round 1/100 to 1/8",
  "round 6.595, 2.3, 4.44 to 1/8 keep total",
  "marks 6.595",
  "simplest 6.595 within 1/32",
  "wheel = 3-1/2 in +- 1/64 # the front wheel, in contact with the floor on which the cart stands \xe5\xb0\xba",
  "front = wheelbase - wheel - 1/8 # what is left in front",
  "list",
  "missing",
  "check wheel < 3 in # the wheel does not fit in the well",
  "wheelbase = 20 in",
  "wheelbase = 21 in",
  "trace front",
  "list",
  "undo",
  "redo",
  "forget wheelbase",
  "check front > 1 in",
  "ruler 1/32",
  "scale",
  "explain 2-3/8 + 1/2",
  "explain sqrt(2) * 3 to 1/8",
  "drills 0.3",
  "saws 2",
  "show fender(3-1/2, 1/4, 3/4)",
  "help",
  "help round"
};

typedef struct collector
{
  FILE *stream;
  text_printer printer;
  size_t records, faults;
} collector;

static void
on_fault (void *user, const br_fault *fault)
{
  collector *c = user;
  c->faults++;
  print_message ("%.*s: %s\n", (int) fault->text_length, fault->text, fault->error->message);
}

/* What comes back when what was written is read.  */
static void
compare_field (const json_t *value, const br_field *field)
{
  switch (field->type)
    {
    case BR_FIELD_NULL: assert_true (json_is_null (value)); break;
    case BR_FIELD_TRUTH: assert_int_equal (json_is_true (value), field->value.truth != 0); break;
    case BR_FIELD_COUNT: assert_int_equal (json_integer_value (value), field->value.count); break;
    case BR_FIELD_TEXT: assert_string_equal (json_string_value (value), field->value.text); break;
    case BR_FIELD_LIST:
      assert_int_equal (json_array_size (value), br_list_size (field->value.list));
      break;
    case BR_FIELD_RECORD:
      assert_int_equal (json_object_size (value), br_record_size (field->value.record));
      break;
    }
}

static void
on_record_json (void *user, const br_record *record)
{
  collector *c = user;
  schema_hold (record);
  char *line = NULL;
  size_t size = 0, index = 0;
  const char *key;
  json_t *value;
  c->records++;
  FILE *stream = open_memstream (&line, &size);
  assert_true (json_put_record (stream, record));
  fclose (stream);
  assert_int_equal (strcspn (line, "\n"), size - 1);
  json_t *object = json_loads (line, 0, NULL);
  assert_non_null (object);
  json_object_foreach (object, key, value)
    {
      if (index == 0)
        {
          assert_string_equal (key, "kind");
          assert_string_equal (json_string_value (value), br_record_kind (record));
        }
      else
        {
          br_field field = br_record_at (record, index - 1);
          assert_string_equal (key, field.key);
          compare_field (value, &field);
        }
      index++;
    }
  assert_int_equal (index, br_record_size (record) + 1);
  json_decref (object);
  free (line);
}

static void
on_record_text (void *user, const br_record *record)
{
  collector *c = user;
  c->records++;
  text_put (&c->printer, record);
}

static void
run_all (collector *c, void (*on_record) (void *user, const br_record *record),
         void (*after) (collector *c, const char *statement))
{
  br_sheet *sheet = NULL;
  br_sink sink = { .user = c, .record = on_record, .fault = on_fault };
  assert_int_equal (br_sheet_new (&sheet), BR_OK);
  for (size_t i = 0; i < CHECK_COUNT (statements); i++)
    {
      size_t before = c->records;
      br_sheet_run (sheet, statements[i], strlen (statements[i]), "test", 1, &sink);
      assert_true (c->records > before);
      if (after)
        after (c, statements[i]);
    }
  br_sheet_free (sheet);
  assert_int_equal (c->faults, 0);
}

static void
test_json (void **state)
{
  collector c = { NULL, TEXT_PRINTER_ZERO, 0, 0 };
  (void) state;
  run_all (&c, on_record_json, NULL);
}

static char *written;
static size_t written_size;
static display shown_on;

static void
start_text (collector *c)
{
  shown_on.stream = open_memstream (&written, &written_size);
  assert_non_null (shown_on.stream);
  c->printer.display = &shown_on;
}

/* Every answer says something, ends its last line and no line in a blank, and fits.  */
static void
check_text (collector *c, const char *statement)
{
  text_flush (&c->printer);
  fclose (shown_on.stream);
  assert_true (written_size > 1 && written[written_size - 1] == '\n');
  for (char *line = written, *end; *line; line = end + 1)
    {
      end = strchr (line, '\n');
      if (strncmp (statement, "help", 4) != 0)
        assert_true (end == line || end[-1] != ' ');
      if (strncmp (statement, "help", 4) != 0)
        assert_true (escape_width (line, (size_t) (end - line)) <= 80);
    }
  if (!shown_on.utf8)
    for (size_t i = 0; i < written_size; i++)
      assert_true (written[i] == '\n' || (written[i] >= ' ' && written[i] <= '~'));
  assert_int_equal (strchr (written, '\033') != NULL, 0);
  free (written);
  start_text (c);
}

static void
run_text (int utf8)
{
  collector c = { NULL, TEXT_PRINTER_ZERO, 0, 0 };
  display d = { .utf8 = utf8, .width = 80 };
  shown_on = d;
  start_text (&c);
  run_all (&c, on_record_text, check_text);
  fclose (shown_on.stream);
  free (written);
}

static void
test_text (void **state)
{
  (void) state;
  assert_non_null (setlocale (LC_CTYPE, "C.UTF-8"));
  run_text (1);
}

static void
test_plain_text (void **state)
{
  (void) state;
  assert_non_null (setlocale (LC_CTYPE, "C"));
  run_text (0);
}

/* What STATEMENT is answered, to the letter.  */
static void
check_answer (const char *statement, const char *answer)
{
  collector c = { NULL, TEXT_PRINTER_ZERO, 0, 0 };
  br_sink sink = { .user = &c, .record = on_record_text, .fault = on_fault };
  br_sheet *sheet = NULL;
  assert_int_equal (br_sheet_new (&sheet), BR_OK);
  start_text (&c);
  br_sheet_run (sheet, statement, strlen (statement), "test", 1, &sink);
  text_flush (&c.printer);
  fclose (shown_on.stream);
  assert_string_equal (written, answer);
  free (written);
  br_sheet_free (sheet);
}

static void
test_answers (void **state)
{
  display d = { .utf8 = 1, .width = 80 };
  (void) state;
  setlocale (LC_CTYPE, "C.UTF-8");
  shown_on = d;
  check_answer ("63/8", "63/8 = 7-7/8 = 7.875\n  on the ruler: 7-7/8, exactly\n");
  check_answer ("5 in", "5 in = 5\"\n  on the ruler: 5\", exactly\n");
  check_answer ("1/3", "1/3 \xe2\x89\x88 0.333333\n"
                "  on the ruler: 5/16, under: error \xe2\x89\x88 -0.0208333\n");
  check_answer ("sqrt 2", "sqrt 2 \xe2\x89\x88 1.41421\n"
                "  on the ruler: 1-7/16, over: error \xe2\x89\x88 +0.0232864\n");
  check_answer ("1.5 m in ft", "1.5 m \xe2\x89\x88 59.0551 in \xe2\x89\x88 4.92126 ft\n"
                "  on the ruler: 4' 11-1/16\", over: error \xe2\x89\x88 +0.00738189\n");
  check_answer ("sqrt 2 in mm", "sqrt 2 \xe2\x89\x88 35.921 mm\n"
                "  on the ruler: 36 mm, over: error +0.0031 in (+0.079 mm)\n");
  check_answer ("round 40 in, 4 ft to 1 ft",
                "  typed  value  mark  error         ruler\n"
                "  40 in  40\"    3'    -4     under  1 ft\n"
                "  4 ft   48\"    4'    0      exact  1 ft\n"
                "  total 88\", the marks add up to 7', under: error -4\n"
                "  worst error -4: 40 in\n");
  check_answer ("1/2, 63/8",
                "  typed  exact  decimal  mark   error\n"
                "  1/2    1/2    0.5      1/2    0      exact\n"
                "  63/8   7-7/8  7.875    7-7/8  0      exact\n");
  check_answer ("front = base - 2 # what is left",
                "front waits for base\n  # what is left\n");
  check_answer ("check 1/4 > 1/2 # too thin",
                "FAIL  1/4 > 1/2: 1/4 against 1/2, margin -1/4\n      too thin\n");
  check_answer ("round 2.3125, 2.4 to 1/8",
                "  typed   value   mark   error                         ruler\n"
                "  2.3125  2-5/16  2-3/8  +1/16 = +0.0625  over, a tie  1/8\n"
                "  2.4             2-3/8  -0.025           under        1/8\n"
                "  total 4.7125, the marks add up to 4-3/4, over: error +0.0375\n"
                "  worst error +1/16 = +0.0625: 2.3125\n");
}

/* An error beside a mark of another unit has its unit, whatever says it.  */
static void
test_units (void **state)
{
  (void) state;
  check_answer ("units ft; 2.3 in",
                "units ft\n2.3 in = 2.3\" \xe2\x89\x88 0.191667 ft\n  on the ruler: 2-5/16\", over: error +0.0125 in\n");
  /* 2-3/8 in less 60 mm is 13/1016 in, cut at six digits.  */
  check_answer ("units ft; a = 60 mm; list",
                "units ft\na \xe2\x89\x88 0.19685 ft \xe2\x89\x88 2.3622 in\n"
                "  on the ruler: 2-3/8\", over: error \xe2\x89\x88 +0.0127953 in\n"
                "  name  value        mark    error\n"
                "  a     \xe2\x89\x88 2.3622 in  2-3/8\"  \xe2\x89\x88 +0.0127953 in\n");
  check_answer ("units ft; wheel = 7.7", "units ft\nwheel = 7.7\n  on the ruler: 7' 8-3/8\", under: error -0.025 in\n");
  check_answer ("ruler 1/8 in; units cm; wheel = 7.7",
                "  setting  value\n  ruler    1/8 in\n  units    cm\nwheel = 7.7\n  on the ruler: 3\", under: error -0.08 cm (-0.031 in)\n");
  check_answer ("ruler 1/8 in; units cm; divide 3.3 into 2",
                "  setting  value\n  ruler    1/8 in\n  units    cm\n"
                "2 pieces of 1.65 cm  on the ruler: 5/8\", under: error -0.063 cm (-0.025 in)\n"
                "  mark  from the end  on the ruler  error\n"
                "  1     1.65 cm       5/8\"          -0.063 cm (-0.025 in)\n");
  check_answer ("units cm; marks 2.5 cm",
                "units cm\n2.5 cm\n"
                "  ruler  mark    error\n"
                "  1      1\"      +0.04 cm (+0.016 in)       over\n"
                "  1/2    1\"      +0.04 cm (+0.016 in)       over\n"
                "  1/4    1\"      +0.04 cm (+0.016 in)       over\n"
                "  1/8    1\"      +0.04 cm (+0.016 in)       over\n"
                "  1/16   1\"      +0.04 cm (+0.016 in)       over\n"
                "  1/32   31/32\"  -0.039 cm (-0.016 in)      under\n"
                "  1/64   63/64\"  +0.00031 cm (+0.00012 in)  over\n");
  check_answer ("units ft; cube = (1/3 in)^3 * 1 in; list",
                "units ft\ncube \xe2\x89\x88 0.00000178612 ft^4\n"
                "  name  value                 formula\n"
                "  cube  \xe2\x89\x88 0.00000178612 ft^4  (1/3 in)^3 * 1 in\n");
}

/* A mistake in a file of which the name is no UTF-8 is still a line of JSON.  */
static void
test_fault (void **state)
{
  br_error error = { BR_SYNTAX, 4, 1, "a \"strange\" sign", "write \xff" };
  br_fault fault = { "\xff.sheet", 7, "\xe2\x85\x9c ?", 5, &error };
  char *line = NULL;
  size_t size = 0;
  (void) state;
  setlocale (LC_CTYPE, "C.UTF-8");
  FILE *stream = open_memstream (&line, &size);
  assert_true (json_put_fault (stream, &fault));
  fault.line = 0;
  assert_true (json_put_fault (stream, &fault));
  fclose (stream);
  assert_string_equal (line,
    "{\"kind\":\"error\",\"message\":\"a \\\"strange\\\" sign\",\"file\":\"\\\\xff.sheet\","
    "\"line\":7,\"column\":3,\"hint\":\"write \\\\xff\",\"status\":\"syntax\"}\n"
    "{\"kind\":\"error\",\"message\":\"a \\\"strange\\\" sign\",\"file\":\"\\\\xff.sheet\","
    "\"line\":null,\"column\":null,\"hint\":\"write \\\\xff\",\"status\":\"syntax\"}\n");
  free (line);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_json), CHECK_TEST (test_text), CHECK_TEST (test_plain_text),
    CHECK_TEST (test_answers), CHECK_TEST (test_units), CHECK_TEST (test_fault)
  };
  return CHECK_RUN (tests);
}
