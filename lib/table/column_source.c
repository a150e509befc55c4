/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_source.c - blocks of whole rows from a file, and what its first row says.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "measure/measure.h"
#include "table/column_pump.h"
#include "file/file.h"

#define ROW_LIMIT (1u << 20)  /* no row is longer: a quote that is not closed ends somewhere */
#define HELD_LIMIT (64 << 20)  /* what is held to keep a total */

const char *
br__source_name (const br__pump *p)
{
  return p->job->source ? p->job->source : "standard input";
}

br_status
br__source_open (br__pump *p)
{
  struct stat st;
  p->fd = STDIN_FILENO;
  while (p->job->source && (p->fd = open (p->job->source, O_RDONLY | O_CLOEXEC)) < 0)
    if (errno == EINTR && br__stopped (p->job->run))
      return br__fail_stopped (p->job->run);
    else if (errno != EINTR)
      return br__can_not (p->job->run->error, "read", p->job->source, errno);
  if (fstat (p->fd, &st) == 0 && S_ISREG (st.st_mode) && st.st_size > 0)
    p->size = (size_t) st.st_size;
  return BR_OK;
}

void
br__source_close (br__pump *p)
{
  if (p->job->source && p->fd >= 0)
    close (p->fd);
  p->fd = -1;
}

/* Up to ROOM bytes at BYTES; GOT is 0 at the end.  */
static br_status
take (size_t *got, br__pump *p, char *bytes, size_t room)
{
  ssize_t n;
  if (p->fd < 0)
    {
      *got = p->held_length - p->held_at < room ? p->held_length - p->held_at : room;
      memcpy (bytes, p->held + p->held_at, *got);
      p->held_at += *got;
      return BR_OK;
    }
  /* A pipe that nobody writes to would hold up the reading: who asked before it began is heard first.  */
  do
    if (br__stopped (p->job->run))
      return br__fail_stopped (p->job->run);
  while ((n = read (p->fd, bytes, room)) < 0 && errno == EINTR);
  if (n < 0)
    return br__can_not (p->job->run->error, "read", br__source_name (p), errno);
  *got = (size_t) n;
  p->taken += *got;
  return BR_OK;
}

br_status
br__block_fill (br__block *b, br__pump *p)
{
  size_t got = 0, whole;
  br_status status;
  b->start = b->length = b->lines = b->rows = b->marks = 0;
  b->last = b->done = 0;
  b->status = BR_OK;
  br__text_reset (&b->out);
  if (!br__grow (&b->in, &b->room, p->carry.length + BR__COLUMN_BLOCK + BR__SLACK, 1))
    return br__fail_plain (p->job->run->error, BR_NO_MEMORY, 0, 0);
  if (p->carry.length)
    memcpy (b->in, p->carry.bytes, p->carry.length);
  b->length = p->carry.length;
  br__text_reset (&p->carry);
  for (;;)
    {
      if (!br__grow (&b->in, &b->room, b->length + BR__COLUMN_BLOCK + BR__SLACK, 1))
        return br__fail_plain (p->job->run->error, BR_NO_MEMORY, 0, 0);
      status = take (&got, p, b->in + b->length, BR__COLUMN_BLOCK);
      if (status != BR_OK)
        return status;
      b->length += got;
      b->last = p->ended = got == 0;
      if (!p->begun)
        p->job->column.separator = br__csv_separator (b->in, b->length);
      whole = b->last ? b->length : b->length < BR__COLUMN_BLOCK ? 0 : br__csv_whole (b->in, b->length, p->job->column.separator);
      if (whole || b->last)
        break;
      if (b->length > ROW_LIMIT)
        return BR_TOO_BIG;
    }
  br__text_put (&p->carry, b->in + whole, b->length - whole);
  b->length = whole;
  return p->carry.failed ? br__fail_plain (p->job->run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
}

br_status
br__source_hold (br__pump *p)
{
  size_t got = 1;
  while (got)
    {
      br_status status = BR_OK;
      if (!br__grow (&p->held, &p->held_room, p->held_length + BR__COLUMN_BLOCK, 1))
        return br__fail_plain (p->job->run->error, BR_NO_MEMORY, 0, 0);
      status = take (&got, p, p->held + p->held_length, p->held_room - p->held_length);
      if (status != BR_OK)
        return status;
      p->held_length += got;
      if (p->held_length > HELD_LIMIT)
        {
          br__fail (p->job->run->error, BR_TOO_BIG, 0, 0, "`%.*s` has more than %d bytes, which is too much to keep a total of",
                    BR__CLIP (br__source_name (p), 100), HELD_LIMIT);
          br__hint (p->job->run->error, "without `keep total` a file may have any size");
          return BR_TOO_BIG;
        }
    }
  return BR_OK;
}

/* ---- The first row ---- */

/* Puts the header ROW with the names of the new cells.  */
static br_status
put_header (br__pump *p, br__block *b, const br__csv_row *row)
{
  static const char *const ends[] = { "_mark", "_error", "_error_decimal" };
  br_text name = BR_TEXT_ZERO, cell = BR_TEXT_ZERO;
  br__text_put (&b->out, row->start, (size_t) (row->end - row->start));
  for (size_t i = 0; i < 3; i++)
    {
      br__text_reset (&name);
      br__csv_put_content (&name, row->cell, row->cell_end);
      br__text_puts (&name, ends[i]);
      br__text_putc (&b->out, p->job->column.separator);
      b->out.failed |= name.failed;
      br__put_cell (&cell, br__text_string (&name));
      if (p->job->column.separator != ',' && cell.length && *cell.bytes != '"')
        br__csv_put_cell (&b->out, cell.bytes, cell.length, p->job->column.separator);
      else
        br__text_puts (&b->out, br__text_string (&cell));
      b->out.failed |= cell.failed;
      br__text_reset (&cell);
      if (i == 0 && !name.failed)
        p->result->name = br__strndup (br__text_string (&name), name.length - strlen (ends[i]));
    }
  br__text_put (&b->out, row->end, (size_t) (row->next - row->end));
  int failed = name.failed || b->out.failed || !p->result->name;
  br__text_clear (&name);
  br__text_clear (&cell);
  return failed ? br__fail_plain (p->job->run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
}

/* The first row of B has a letter where the names are: numbers of rows are none.  */
static int
has_name (const br__column *c, const br__block *b)
{
  br__csv_row row;
  if (!br__csv_next (&row, b->in + b->start, b->in + b->length, c->names - 1, b->last, c->separator) || !row.cell)
    return 0;
  const char *name = row.cell + (row.cell < row.cell_end && *row.cell == '"');
  return br__letter_at (name, (size_t) (row.cell_end - name), 0) > 0;
}

br_status
br__block_begin (br__pump *p, br__block *b)
{
  br__column *c = &p->job->column;
  br__csv_row row;
  br_number x = BR_NUMBER_ZERO;
  br_dimension dimension;
  br_status status = BR_OK;
  const char *end = b->in + b->length;

  /* A byte order mark is no part of the first cell.  */
  if (b->length >= 3 && memcmp (b->in, "\xEF\xBB\xBF", 3) == 0)
    {
      br__text_put (&b->out, b->in, 3);
      b->start = 3;
    }
  p->begun = 1;
  c->separator = br__csv_separator (b->in + b->start, b->length - b->start);
  c->commas = 0;
  c->begun = 0;
  c->head = NULL;
  p->job->blame = p->job->at_column;
  if (b->start == b->length && !p->job->named)
    return BR_OK;
  c->index = p->job->number - 1;
  if (p->job->named)
    status = br__column_find (&c->index, p->job->named, p->job->named_length, b->in + b->start, end, b->last,
                              c->separator, p->job->run->error);
  if (status != BR_OK)
    return status;
  if (!br__csv_next (&row, b->in + b->start, end, c->index, b->last, c->separator) || row.open)
    return BR_OK;
  c->width = row.cells;
  c->commas = br__csv_decimal_commas (b->in + b->start, b->length - b->start, c->index, c->separator);
  if (!row.cell)
    return br__fail (p->job->run->error, BR_DOMAIN, 0, 0, "there is no column %zu: the first row has %zu",
                     p->job->number, row.cells);
  status = br__column_of_names (&c->names, c->index, b->in + b->start, end, b->last, c->separator);
  if (status != BR_OK)
    return br__fail_plain (p->job->run->error, status, 0, 0);
  if (p->job->named || br__column_value (&x, &dimension, c, b, &row, p->job->run->error) != BR_OK)
    {
      status = br__column_unit (&c->head, &row);
      if (status != BR_OK)
        br__fail_plain (p->job->run->error, status, 0, 0);
      else
        status = put_header (p, b, &row);
      b->start = (size_t) (row.next - b->in);
      b->lines = 1 + row.breaks;
    }
  if (c->names && !has_name (c, b))
    c->names = 0;
  b->sums.around = 0;           /* the first row is counted with the others, or is none of them */
  c->begun = 1;
  br_number_clear (&x);
  return status;
}

