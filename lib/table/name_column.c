/* SPDX-License-Identifier: LGPL-3.0-or-later
   name_column.c - `name column`: dimensions from a column of names and one of sizes, so that checks and `tidy` can say
   what rounding does to a fit.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/words.h"
#include "measure/measure.h"
#include "sheet/access.h"
#include "table/column_words.h"

#define MOST_NAMES 2000

/* The statement, and what it makes.  */
typedef struct naming
{
  br__run *run;
  br__words names, sizes;     /* as they are called; of no length: by their headings */
  int has_names, has_sizes;
  char *path;
  const char *at, *end;       /* the rows that are left */
  size_t line;                /* of AT */
  size_t name_index;
  br__column column;          /* of the sizes */
  br__block block;
  br_record *made;            /* `named`, whose NAMES are as many */
  br_list *list;
  br_text lines;              /* NAME = SIZE, each a line */
  br_text name, cell;
  size_t *rows;               /* the line of each name in the file */
  size_t count, room;
} naming;

/* Words up to `of`: those before `size` call the names, those behind it the sizes.  */
static br_status
read_columns (naming *n, size_t *at)
{
  br__run *run = n->run;
  int behind = 0;
  while (*at < run->end && !br__words_is (run, *at, "of"))
    {
      br__words w = { *at, br__words_skip (run, *at), 0 };
      br__words *to = behind ? &n->sizes : &n->names;
      int *has = behind ? &n->has_sizes : &n->has_names;
      w.next = br__words_skip_blanks (run, w.end);
      if (run->text[*at] == '"')
        {
          br_status status = br__words_quoted (&w, run, *at);
          if (status != BR_OK)
            return status;
        }
      else if (!behind && (br__words_is (run, *at, "size") || br__words_is (run, *at, "sizes")))
        {
          behind = 1;
          *at = w.next;
          continue;
        }
      if (*has)
        w.start = to->start;
      *to = w;
      *has = 1;
      *at = w.next;
    }
  const char *number = run->text + n->names.start;
  if (!behind && n->has_names && *number >= '0' && *number <= '9' && n->names.start > 0 && number[-1] != '"')
    {
      int shown = br__clip (number, n->names.end - n->names.start, 20);
      size_t rest = br__words_skip_blanks (run, *at);
      br__fail (run->error, BR_DOMAIN, n->names.start, n->names.end - n->names.start,
                "column %.*s could be that of the names or that of the sizes", shown, number);
      br__hint (run->error, "name column %.*s size %.*s, or name column size %.*s %.*s", shown, number,
                br__clip (run->text + rest, run->end - rest, 60), run->text + rest, shown, number,
                br__clip (run->text + rest, run->end - rest, 60), run->text + rest);
      return BR_DOMAIN;
    }
  if (!behind && n->has_names)
    {
      n->sizes = n->names;
      n->has_sizes = 1;
      n->has_names = 0;
    }
  if (*at < run->end)
    return BR_OK;
  br__fail (run->error, BR_SYNTAX, run->end, 0, "`of` and the name of a file should stand here");
  br__hint (run->error, "name column 1 size 2 of parts.csv");
  return BR_SYNTAX;
}

static br_status
read_statement (naming *n)
{
  br__run *run = n->run;
  br__place place;
  size_t at = br__words_skip_blanks (run, run->lex.token.offset + run->lex.token.length), next = 0;
  br_status status = read_columns (n, &at);
  if (status == BR_OK)
    {
      at = br__words_skip_blanks (run, br__words_skip (run, at));
      status = br__words_file (&n->path, &place, &next, run, at, BR_FILE_READ);
    }
  if (status == BR_OK && !n->path)
    status = br__fail (run->error, BR_DOMAIN, at, 1, "names come from a file that can be read again");
  if (status == BR_OK && next < run->end)
    status = br__fail (run->error, BR_SYNTAX, next, run->end - next, "this is too much behind the file's name");
  return status;
}

/* Puts the line of the file before the mistake at hand.  */
static br_status
at_line (naming *n, size_t line)
{
  br_error *error = n->run->error;
  if (!error || error->status == BR_NO_MEMORY)
    return error ? error->status : BR_SYNTAX;
  br_error was = *error;
  br__fill (error, was.status, 0, n->run->end, "line %zu of `%.*s`: %.*s", line, BR__CLIP (n->path, 60),
            BR__CLIP (was.message, 120));
  br__hint (error, "%s", was.hint);
  return was.status;
}

/* ---- Which columns ---- */

static br_status
find_one (size_t *index, naming *n, const br__words *w)
{
  const char *named;
  size_t length, number;
  br_status status = br__words_which (&named, &length, &number, n->run, w);
  *index = number - 1;
  if (status == BR_OK && named)
    status = br__column_find (index, named, length, n->at, n->end, 1, n->column.separator, n->run->error);
  if (status != BR_OK && n->run->error)
    {
      n->run->error->offset = w->start;
      n->run->error->length = w->end - w->start;
    }
  return status;
}

/* The sizes where nobody said which: the column headed `size`, else the first that holds measures below the first row.  */
static br_status
guess_sizes (size_t *found, naming *n)
{
  static const char *const heads[] = { "size", "sizes", "length" };
  br__csv_row row = { 0 };
  br_error error;
  br_number x = BR_NUMBER_ZERO;
  br_dimension dimension;
  br_status status = BR_DOMAIN;
  for (size_t i = 0; i < sizeof heads / sizeof heads[0] && status == BR_DOMAIN; i++)
    status = br__column_find (found, heads[i], strlen (heads[i]), n->at, n->end, 1, n->column.separator, &error);
  if (status != BR_DOMAIN)
    return status == BR_OK ? BR_OK : br__fail_plain (n->run->error, status, 0, 0);
  const char *at = br__csv_next (&row, n->at, n->end, 0, 1, n->column.separator) && row.next < n->end ? row.next : n->at;
  for (size_t i = 0; br__csv_next (&row, at, n->end, i, 1, n->column.separator) && row.cell && i < 100; i++)
    if (!(n->has_names && i == n->name_index))
      {
        n->column.commas = br__csv_decimal_commas (n->at, (size_t) (n->end - n->at), i, n->column.separator);
        status = br__column_value (&x, &dimension, &n->column, &n->block, &row, &error);
        br_number_clear (&x);
        *found = i;
        if (status == BR_OK || status == BR_NO_MEMORY)
          return status == BR_OK ? BR_OK : br__fail_plain (n->run->error, status, 0, 0);
      }
  *found = n->has_names && n->name_index != 0 ? 0 : 1;
  return BR_OK;
}

static br_status
find_columns (naming *n)
{
  br_status status = n->has_names ? find_one (&n->name_index, n, &n->names) : BR_OK;
  if (status == BR_OK && n->has_sizes)
    status = find_one (&n->column.index, n, &n->sizes);
  else if (status == BR_OK)
    status = guess_sizes (&n->column.index, n);
  if (status == BR_OK && !n->has_names)
    {
      size_t number = 0;
      status = br__column_of_names (&number, n->column.index, n->at, n->end, 1, n->column.separator);
      if (status != BR_OK)
        return br__fail_plain (n->run->error, status, 0, 0);
      if (!number)
        {
          br__fail (n->run->error, BR_DOMAIN, 0, n->run->end, "`%.*s` has no second column, with names", BR__CLIP (n->path, 100));
          return BR_DOMAIN;
        }
      n->name_index = number - 1;
    }
  if (status == BR_OK && n->name_index == n->column.index)
    {
      br__fail (n->run->error, BR_DOMAIN, 0, n->run->end, "names and sizes cannot be the same column");
      br__hint (n->run->error, "name column 1 size 2 of %s", n->path);
      return BR_DOMAIN;
    }
  return status;
}

/* The first row, which is a heading where its size is none.  */
static br_status
read_first (naming *n)
{
  br__csv_row row, names;
  br_number x = BR_NUMBER_ZERO;
  br_dimension dimension;
  br_error error;
  if (!br__csv_next (&row, n->at, n->end, n->column.index, 1, n->column.separator) || !br__csv_next (&names, n->at, n->end, n->name_index, 1, n->column.separator)
      || !row.cell || !names.cell)
    return br__fail (n->run->error, BR_DOMAIN, 0, n->run->end, "there is no column %zu: the first row has %zu",
                     (row.cell ? n->name_index : n->column.index) + 1, row.cells);
  if (br__column_value (&x, &dimension, &n->column, &n->block, &row, &error) != BR_OK)
    {
      br_status status = error.status == BR_NO_MEMORY ? BR_NO_MEMORY : br__column_unit (&n->column.head, &row);
      if (status != BR_OK)
        return br__fail_plain (n->run->error, status, 0, 0);
      n->at = row.next;
      n->line += 1 + row.breaks;
    }
  br_number_clear (&x);
  n->column.begun = 1;
  return BR_OK;
}

/* ---- Rows ---- */

/* T gets the cell of ROW without blanks around.  */
static void
take_cell (br_text *t, const br__csv_row *row)
{
  br_text raw = BR_TEXT_ZERO;
  br__csv_put_content (&raw, row->cell, row->cell_end);
  const char *text = br__text_string (&raw);
  size_t start = 0, end = raw.length;
  while (start < end && (text[start] == ' ' || text[start] == '\t'))
    start++;
  while (end > start && (text[end - 1] == ' ' || text[end - 1] == '\t'))
    end--;
  br__text_reset (t);
  br__text_put (t, text + start, end - start);
  t->failed |= raw.failed;
  br__text_clear (&raw);
}

/* A hint of a name like the one in the cell: left rail, left_rail.  */
static void
hint_name (naming *n)
{
  const char *text = br__text_string (&n->name);
  br_text t = BR_TEXT_ZERO;
  for (size_t i = 0, k; i < n->name.length && t.length < 60; i += k)
    {
      k = br__letter_at (text + i, n->name.length - i, t.length > 0);
      if (k)
        br__text_put (&t, text + i, k);
      else if (t.length && t.bytes[t.length - 1] != '_')
        br__text_putc (&t, '_');
      k = k ? k : 1;
    }
  while (t.length && t.bytes[t.length - 1] == '_')
    t.length--;
  if (t.length)
    br__hint (n->run->error, "write `%.*s` in that cell", (int) t.length, t.bytes);
  else
    br__hint (n->run->error, "a name has letters, digits and _, and begins with a letter");
  br__text_clear (&t);
}

/* Capital or not.  */
static int
same_letters (const char *a, const char *b)
{
  for (; *a && *b; a++, b++)
    if (*a != *b && ((*a ^ *b) != 0x20 || (*a | 0x20) < 'a' || (*a | 0x20) > 'z'))
      return 0;
  return *a == *b;
}

static br_status
check_name (naming *n)
{
  br__run *run = n->run;
  br__run probe = *run;
  br__lexer l;
  const char *text = br__text_string (&n->name), *other = NULL;
  if (n->name.failed)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (br__lex_start (&l, text, n->name.length, NULL) != BR_OK || l.token.type != BR__NAME || l.token.length != n->name.length)
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "`%.*s` cannot be a name", BR__CLIP (text, 40));
      hint_name (n);
      return BR_DOMAIN;
    }
  probe.text = text;
  probe.length = probe.end = n->name.length;
  br_status status = br__name_taken (&probe, &l.token);
  if (status != BR_OK)
    {
      br__hint (run->error, "write `%s_size` in that cell", text);
      return status;
    }
  br__entry *e = br__graph_find (run->sheet->graph, text, n->name.length);
  if (e && br__entry_definition (e))
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "`%.*s` has a value already", BR__CLIP (text, 40));
      br__hint (run->error, "forget %s", text);
      return BR_DOMAIN;
    }
  other = br__graph_same_letters (run->sheet->graph, text, n->name.length);
  for (size_t i = 0; i < n->count && !other; i++)
    {
      if (same_letters (br_list_text (n->list, i), text))
        {
          br__fail (run->error, BR_DOMAIN, 0, 0, "`%.*s` is the name of line %zu already", BR__CLIP (text, 40), n->rows[i]);
          br__hint (run->error, "write `%s_2` in that cell", text);
          return BR_DOMAIN;
        }
    }
  if (other)
    return br__fail (run->error, BR_DOMAIN, 0, 0, "`%.*s` and `%s` differ by capital letters alone", BR__CLIP (text, 40), other);
  return BR_OK;
}

/* Writes the tolerance that follows a size: ±0.1.  */
static void
put_tolerance (naming *n, const char *text, const char *end, const br_unit *unit)
{
  static const char *const signs[] = { "\xc2\xb1", "+-", "+/-" };
  br_measure m = BR_MEASURE_ZERO;
  while (text < end && *text == ' ')
    text++;
  for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
    {
      size_t length = strlen (signs[i]);
      if ((size_t) (end - text) <= length || memcmp (text, signs[i], length) != 0)
        continue;
      text += length;
      if (br_measure_read (&m, text, (size_t) (end - text), NULL, NULL) == BR_OK)
        {
          br__text_puts (&n->lines, " +- ");
          br__text_put (&n->lines, text, (size_t) (end - text));
          br__text_printf (&n->lines, "%s%s", unit && !m.unit ? " " : "", unit && !m.unit ? unit->name : "");
        }
      br_measure_clear (&m);
      return;
    }
}

/* The size in words of the language, as the cell has it.  */
static void
put_size (naming *n)
{
  const char *text = br__text_string (&n->cell), *comma = n->column.commas ? br__decimal_comma (text, n->cell.length) : NULL;
  size_t start = 0, end = n->cell.length;
  br_measure m = BR_MEASURE_ZERO;
  if (comma)
    n->cell.bytes[comma - text] = '.';
  (void) br__measure_within (&start, &end, text, n->cell.length);
  br_status status = br_measure_read (&m, text + start, end - start, n->column.grid, NULL);
  const br_unit *own = status == BR_OK ? m.unit : NULL, *unit = own ? own : n->column.head;
  br_measure_clear (&m);
  br__text_put (&n->lines, text + start, end - start);
  if (!own && unit)
    br__text_printf (&n->lines, " %s", unit->name);
  put_tolerance (n, text + end, text + n->cell.length, unit);
}

static br_status
take_row (naming *n, const br__csv_row *row, const br__csv_row *names)
{
  br_number x = BR_NUMBER_ZERO;
  br_dimension dimension;
  br_status status;
  if (!row->cell || !names->cell)
    return br__fail (n->run->error, BR_SYNTAX, 0, 0, "this row has %zu cells", row->cells);
  take_cell (&n->name, names);
  take_cell (&n->cell, row);
  status = check_name (n);
  if (status == BR_OK)
    {
      status = br__column_value (&x, &dimension, &n->column, &n->block, row, n->run->error);
      br_number_clear (&x);
    }
  if (status != BR_OK)
    return status;
  if (n->count == MOST_NAMES)
    return br__fail (n->run->error, BR_TOO_BIG, 0, 0, "more than %d names", MOST_NAMES);
  if (!br__grow (&n->rows, &n->room, n->count + 1, sizeof *n->rows))
    return br__fail_plain (n->run->error, BR_NO_MEMORY, 0, 0);
  n->rows[n->count++] = n->line;
  br__list_text (n->list, br__text_string (&n->name));
  br__text_printf (&n->lines, "%s = ", br__text_string (&n->name));
  put_size (n);
  br__text_putc (&n->lines, '\n');
  return n->lines.failed || n->cell.failed || br__record_failed (n->made) ? br__fail_plain (n->run->error, BR_NO_MEMORY, 0, 0)
         : BR_OK;
}

static br_status
take_rows (naming *n)
{
  br__csv_row row, names;
  br_status status = BR_OK;
  while (status == BR_OK && n->at < n->end && br__csv_next (&row, n->at, n->end, n->column.index, 1, n->column.separator))
    {
      if (row.open)
        status = br__fail (n->run->error, BR_SYNTAX, 0, 1, "the quote that opens here, or in this row, is not closed");
      else if (row.end > row.start && br__csv_next (&names, n->at, n->end, n->name_index, 1, n->column.separator))
        status = take_row (n, &row, &names);
      if (status != BR_OK)
        return at_line (n, n->line);
      n->at = row.next;
      n->line += 1 + row.breaks;
    }
  if (!n->count)
    return br__fail (n->run->error, BR_DOMAIN, 0, n->run->end, "`%.*s` has no row with a name and a size", BR__CLIP (n->path, 100));
  return BR_OK;
}

/* ---- Dimensions ---- */

/* The answer of each single assignment is not passed on: forty of them would hide the summary.  */
static void
pass_record (void *user, const br_record *record)
{
  const naming *n = user;
  if (n->run->sink && n->run->sink->record && strcmp (br_record_kind (record), "set") != 0)
    n->run->sink->record (n->run->sink->user, record);
}

/* The first mistake is that of the statement.  */
static void
keep_fault (void *user, const br_fault *fault)
{
  naming *n = user;
  if (n->run->error && n->run->error->status == BR_OK)
    {
      *n->run->error = *fault->error;
      (void) at_line (n, n->rows[fault->line - 1]);
    }
}

static br_status
make_dimensions (naming *n)
{
  br__run *run = n->run;
  br_sheet *sheet = run->sheet;
  struct br__run *outer = sheet->collect;
  br_sink sink = { .user = n, .record = pass_record, .fault = keep_fault };
  /* In a sheet file the line itself stays, and what it makes is made again with it.  */
  br_status status = run->from_file && !run->line ? br__line_append (run, &run->line) : BR_OK;
  if (status != BR_OK)
    return status;
  sheet->collect = run;
  status = sheet->language->run (sheet, br__text_string (&n->lines), n->lines.length, run->file, 1, 0, &sink);
  sheet->collect = outer;
  if (status == BR_OK)
    {
      br__put_cells_by (n->made, &n->column);
      status = br__emit (run, n->made);
      n->made = NULL;
    }
  return status;
}

br_status
br__do_name (br__run *run)
{
  naming n = { .run = run, .line = 1, .made = br__record_new ("named") };
  char *bytes = NULL;
  size_t length = 0;
  br__reading how = { .plain = run->from_file };
  n.column.settings = &run->sheet->settings;
  n.column.grid = br_number_sign (&run->sheet->settings.grid) ? &run->sheet->settings.grid : NULL;
  br_status status = read_statement (&n);
  if (status == BR_OK)
    status = br__file_read_as (&bytes, &length, n.path, &how, run->error);
  if (status == BR_OK)
    {
      size_t mark = br__mark_length (bytes, length);
      n.at = bytes + mark;
      n.end = bytes + length;
      n.column.separator = br__csv_separator (n.at, length - mark);
      br__put_text (n.made, "of", n.path);
      n.list = br__put_list (n.made, "names");
      status = find_columns (&n);
    }
  if (status == BR_OK)
    {
      n.column.commas = br__csv_decimal_commas (n.at, (size_t) (n.end - n.at), n.column.index, n.column.separator);
      status = read_first (&n);
    }
  if (status == BR_OK)
    status = take_rows (&n);
  if (status == BR_OK)
    status = make_dimensions (&n);
  br__record_free (n.made);
  br__text_clear (&n.lines);
  br__text_clear (&n.name);
  br__text_clear (&n.cell);
  br__text_clear (&n.block.cell);
  br__text_clear (&n.block.shown);
  br__sums_clear (&n.block.sums);
  br__free (n.rows);
  br__free (n.path);
  br__free (bytes);
  return status;
}
