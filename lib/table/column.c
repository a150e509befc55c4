/* SPDX-License-Identifier: LGPL-3.0-or-later
   column.c - the statements `round column`, `full column` and `drawn column`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "table/column.h"
#include "formula/evaluate.h"
#include "sheet/access.h"
#include "formula/words.h"

/* Places in the line: what stands between quotes, or up to the next blank.  */
typedef struct piece
{
  size_t start, end;          /* without its quotes */
  size_t next;                /* behind it and the blanks that follow */
} piece;

static size_t
skip_blanks (const br__run *run, size_t at)
{
  for (size_t n; at < run->end && (n = br__blank_at (run->text + at, run->end - at)) > 0; at += n)
    ;
  return at;
}

/* The end of the bytes at AT that are no blank.  */
static size_t
skip_word (const br__run *run, size_t at)
{
  while (at < run->end && br__blank_at (run->text + at, run->end - at) == 0)
    at++;
  return at;
}

static br_status
take_quoted (piece *p, br__run *run, size_t at)
{
  const char *close = memchr (run->text + at + 1, '"', run->end - at - 1);
  if (!close)
    return br__fail (run->error, BR_SYNTAX, at, 1, "the quote that opens here is not closed");
  p->start = at + 1;
  p->end = (size_t) (close - run->text);
  p->next = skip_blanks (run, p->end + 1);
  return BR_OK;
}

static int
is_word_at (const br__run *run, size_t at, const char *word)
{
  return br__same_word (run->text + at, skip_word (run, at) - at, word);
}

/* The column's name or number at AT: in quotes, or all up to the word `of`.  */
static br_status
take_column (piece *p, br__run *run, size_t at)
{
  br_status status = BR_OK;
  if (at < run->end && run->text[at] == '"')
    status = take_quoted (p, run, at);
  else
    {
      p->start = p->end = p->next = at;
      while (p->next < run->end && !is_word_at (run, p->next, "of"))
        {
          p->end = skip_word (run, p->next);
          p->next = skip_blanks (run, p->end);
        }
      if (p->next < run->end && p->end == p->start)
        return br__fail (run->error, BR_SYNTAX, at, 0, "the name or the number of a column should stand here");
    }
  if (status == BR_OK && !is_word_at (run, p->next, "of"))
    {
      status = br__fail (run->error, BR_SYNTAX, p->next, 0, "`of` and the name of a file should stand here");
      br__hint (run->error, "round column length of parts.csv to 1/16");
    }
  return status;
}

/* The file's name at AT; *PATH stays NULL for -.  */
static br_status
take_file (char **path, br__place *place, size_t *next, br__run *run, size_t at, br_file_use use)
{
  piece p = { at, skip_word (run, at), 0 };
  br_status status = BR_OK;
  if (at >= run->end)
    return br__fail (run->error, BR_SYNTAX, at, 0, "the line ends where the name of a file should stand");
  p.next = skip_blanks (run, p.end);
  if (run->text[at] == '"')
    status = take_quoted (&p, run, at);
  if (status != BR_OK)
    return status;
  *next = p.next;
  *place = (br__place) { p.start, p.end };
  if (p.end == p.start)
    return br__fail (run->error, BR_SYNTAX, at, p.next - at, "the name of a file is missing");
  if (p.end - p.start == 1 && run->text[p.start] == '-')
    return use == BR_FILE_WRITE ? BR_OK : br__file_ask (run, "-", use, p.start, p.end);
  return br__file_path (path, run, p.start, p.end, use);
}

/* A number from 1, or a name.  */
static br_status
set_column (br__column_job *job, const piece *p)
{
  br__run *run = job->run;
  const char *text = run->text + p->start;
  size_t length = p->end - p->start, i = 0;
  job->named = text;
  job->named_length = length;
  job->at_column = (br__place) { p->start, p->end };
  if (p->start > 0 && text[-1] == '"')
    return BR_OK;
  while (i < length && text[i] >= '0' && text[i] <= '9')
    i++;
  if (i < length)
    return BR_OK;
  job->named = NULL;
  for (i = 0; i < length && job->number < 1000000; i++)
    job->number = job->number * 10 + (size_t) (text[i] - '0');
  if (job->number > 0 && job->number < 1000000)
    return BR_OK;
  br__fail (run->error, BR_DOMAIN, p->start, length, job->number ? "no row has so many cells"
            : "columns are counted from 1");
  br__hint (run->error, "a name of digits stands in quotes");
  return BR_DOMAIN;
}

/* What is behind the file's name: clauses, and `into` at the end.  */
static br_status
take_clauses (char **target, br__column_job *job, size_t at)
{
  br__run *run = job->run;
  br__clauses c = { BR__MARK_ZERO, BR_NEAREST, 0, 0, 0 };
  size_t next;
  run->lex.next = at;
  br_status status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__read_clauses (run, &c, "into");
  job->column.mark = c.mark;
  job->column.direction = c.direction;
  job->keep_total = c.keep_total;
  if (status != BR_OK || run->lex.token.type == BR__END)
    return status;
  at = skip_blanks (run, run->lex.token.offset + run->lex.token.length);
  status = take_file (target, &job->at_target, &next, run, at, BR_FILE_WRITE);
  if (status == BR_OK && next < run->end)
    status = br__fail (run->error, BR_SYNTAX, next, run->end - next, "this is too much behind the file's name");
  return status;
}

/* What every cell needs, worked out once.  */
static br_status
set_sizes (br__column *c)
{
  const br__settings *s = c->settings;
  br_status status = br__settings_factor (&c->unit, s, BR_LENGTH);
  c->lengths = c->mark.length;
  c->grid = br_number_sign (&s->grid) ? &s->grid : NULL;
  for (int length = 0; length < 2 && status == BR_OK; length++)
    {
      br__value x = { .dimension = length ? BR_LENGTH : BR_PLAIN };
      status = br__mark_size (&c->sizes[length], &c->mark, &x, s);
      br__value_clear (&x);
    }
  return status;
}

static void
put_side (br_record *r, const char *key, const br_number *x, const br__column *c, int length)
{
  br_number z = BR_NUMBER_ZERO;
  if (br_number_set (&z, x) == BR_OK && (!length || br_number_div (&z, &z, &c->unit) == BR_OK))
    br__put_exact (r, key, &z);
  br_number_clear (&z);
}

/* What the total was and has become.  */
static br_status
put_total (br_record *r, const br__column_result *got, const br__column *c)
{
  br__value sum = BR__VALUE_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = br_real_set_number (&sum.real, &got->sum);
  sum.dimension = got->length ? BR_LENGTH : BR_PLAIN;
  put_side (r, "total_exact", &got->sum, c, got->length);
  put_side (r, "total_value", &got->total, c, got->length);
  br__put_mark_text (&t, &got->total, sum.dimension, &c->mark, c->settings);
  br__put_from (r, "total_mark", &t);
  if (status == BR_OK)
    status = br__put_error (r, &sum, &got->total, c->settings);
  br__value_clear (&sum);
  return status;
}

static br_status
emit_column (const br__column_job *job, const br__column_result *got)
{
  br__run *run = job->run;
  br_status status = BR_OK;
  br_record *r = br__record_new ("column");
  br_text name = BR_TEXT_ZERO;
  if (got->name)
    br__text_puts (&name, got->name);
  else
    br__text_printf (&name, "%zu", job->number);
  br__put_from (r, "name", &name);
  br__put_count (r, "rows", (int64_t) got->rows);
  br__put_count (r, "bad", (int64_t) got->bads.count);
  br__put_count (r, "marks", (int64_t) got->marks);
  br__put_text (r, "into", job->target ? job->target : "-");
  br__put_text (r, "of", job->source ? job->source : "-");
  br__put_text (r, "size", job->column.asked == BR__FULL_SIZE ? "full"
                : job->column.asked == BR__DRAWN_SIZE ? "drawn" : "");
  put_side (r, "ruler", &job->column.sizes[job->column.lengths], &job->column, job->column.lengths);
  if (job->keep_total)
    status = put_total (r, got, &job->column);
  if (status == BR_OK)
    return br__emit (run, r);
  br__record_free (r);
  return br__fail_plain (run->error, status, 0, run->end);
}

/* Tells of the cells that got no mark, the first of them one by one.  */
static br_status
tell_bads (const br__column_job *job, const br__bads *bads)
{
  const br_sink *sink = job->run->sink;
  br_error rest;
  br_fault fault = { job->source ? job->source : "standard input", 0, "", 0, &rest };
  if (bads->count == 0)
    return BR_OK;
  job->run->told = 1;
  if (!sink || !sink->fault)
    return BR_SYNTAX;
  for (size_t i = 0; i < bads->told; i++)
    {
      const br__bad *bad = &bads->rows[i];
      br_fault one = { fault.file, bad->line, bad->text, bad->length, &bad->error };
      sink->fault (sink->user, &one);
    }
  if (bads->count > bads->told)
    {
      br__fail (&rest, BR_SYNTAX, 0, 0, "%zu more got no mark, %zu in all", bads->count - bads->told, bads->count);
      sink->fault (sink->user, &fault);
    }
  return BR_SYNTAX;
}

int
br__is_column (const br__run *run)
{
  static const char *const words[] = { "round", "full", "drawn" };
  size_t at = skip_blanks (run, run->lex.token.offset + run->lex.token.length);
  int known = 0;
  for (size_t i = 0; i < 3; i++)
    known |= br__same_word (run->text + run->word.offset, run->word.length, words[i]);
  if (!known || !br__lex_is_word (&run->lex, "column") || at == run->lex.token.offset + run->lex.token.length)
    return 0;
  br__lexer l = run->lex;
  /* A dimension may be called column: it is followed by a sign, by a clause or by nothing.  */
  if (br__lex_next (&l, NULL) != BR_OK)
    return 1;
  return l.token.type != BR__END && l.token.type != BR__SIGN && !br__is_clause_word (&l);
}

static br_status
read_statement (br__column_job *job, char **source, char **target)
{
  br__run *run = job->run;
  piece p;
  size_t at = skip_blanks (run, run->lex.token.offset + run->lex.token.length), next = 0;
  br_status status = take_column (&p, run, at);
  if (status == BR_OK)
    status = set_column (job, &p);
  if (status != BR_OK)
    return status;
  at = skip_blanks (run, skip_word (run, p.next));
  status = take_file (source, &job->at_source, &next, run, at, BR_FILE_READ);
  if (status == BR_OK && !*source && run->file && strcmp (run->file, "-") == 0)
    status = br__fail (run->error, BR_DOMAIN, at, 1, "standard input is where the statements come from");
  if (status == BR_OK)
    status = take_clauses (target, job, next);
  return status;
}

br_status
br__do_column (br__run *run)
{
  br__column_job job = { .run = run };
  br__column_result got;
  char *source = NULL, *target = NULL;
  memset (&got, 0, sizeof got);
  job.column.settings = &run->sheet->settings;
  if (!br__same_word (run->text + run->word.offset, run->word.length, "round"))
    job.column.asked = br__same_word (run->text + run->word.offset, run->word.length, "full") ? BR__FULL_SIZE
                       : BR__DRAWN_SIZE;
  br_status status = read_statement (&job, &source, &target);
  job.source = source;
  job.target = target;
  if (status == BR_OK)
    {
      status = set_sizes (&job.column);
      if (status != BR_OK)
        br__fail_plain (run->error, status, 0, run->end);
    }
  if (status == BR_OK)
    {
      status = br__column_pump (&got, &job);
      if (status != BR_OK && run->error)
        {
          run->error->offset = job.blame.start;
          run->error->length = job.blame.end - job.blame.start;
        }
    }
  if (status == BR_OK)
    status = emit_column (&job, &got);
  if (status == BR_OK)
    status = tell_bads (&job, &got.bads);
  br__bads_clear (&got.bads);
  br__free (got.name);
  br_number_clear (&got.sum);
  br_number_clear (&got.total);
  br_number_clear (&job.column.mark.size);
  br_number_clear (&job.column.sizes[0]);
  br_number_clear (&job.column.sizes[1]);
  br_number_clear (&job.column.unit);
  br__free (source);
  br__free (target);
  return status;
}
