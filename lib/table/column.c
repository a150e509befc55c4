/* SPDX-License-Identifier: LGPL-3.0-or-later
   column.c - the statements `round column`, `full column` and `drawn column`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "table/column.h"
#include "table/column_words.h"
#include "formula/evaluate.h"
#include "sheet/access.h"
#include "formula/words.h"

/* Parses the text after the file name: clauses, and `into` at the end.  */
static br_status
take_clauses (char **target, br__column_job *job, size_t at)
{
  br__run *run = job->run;
  br__clauses c = { BR__MARK_ZERO, BR_NEAREST, 0, 0, 0 };
  size_t next;
  br_status status = br__lex_from (&run->lex, at, run->error);
  if (status == BR_OK)
    status = br__read_clauses (run, &c, "into");
  job->column.mark = c.mark;
  job->column.direction = c.direction;
  job->keep_total = c.keep_total;
  if (status != BR_OK || run->lex.token.type == BR__END)
    return status;
  at = br__words_skip_blanks (run, run->lex.token.offset + run->lex.token.length);
  status = br__words_file (target, &job->at_target, &next, run, at, BR_FILE_WRITE);
  if (status == BR_OK && next < run->end)
    status = br__fail (run->error, BR_SYNTAX, next, run->end - next, "this is too much behind the file's name");
  return status;
}

/* Computes once what is needed for every cell.  */
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

static void
put_mark (br_record *r, const char *key, const br_number *mark, int length, const br__column *c)
{
  br_text t = BR_TEXT_ZERO;
  br__put_mark_text (&t, mark, length ? BR_LENGTH : BR_PLAIN, &c->mark, c->settings);
  br__put_from (r, key, &t);
}

/* The fields for the total before and after.  */
static br_status
put_total (br_record *r, const br__column_sums *s, const br__column *c)
{
  br__value sum = { .dimension = s->lengths ? BR_LENGTH : BR_PLAIN };
  br_number exact = BR_NUMBER_ZERO, marks = BR_NUMBER_ZERO;
  br_status status = br__sums_total (&exact, &marks, s, &c->unit);
  if (status == BR_OK)
    status = br_real_set_number (&sum.real, &exact);
  if (status == BR_OK)
    {
      put_side (r, "total_exact", &exact, c, s->lengths);
      put_side (r, "total_value", &marks, c, s->lengths);
      put_mark (r, "total_mark", &marks, s->lengths, c);
      status = br__put_error (r, &sum, &marks, c->settings);
    }
  br_number_clear (&exact);
  br_number_clear (&marks);
  br__value_clear (&sum);
  return status;
}

/* The row that is furthest off its mark, and those that the total took to another one.  */
static void
put_furthest (br_record *r, const br__column_sums *s, const br__column *c)
{
  br_text t = BR_TEXT_ZERO;
  br__put_exact (r, "worst_error", &s->worst);
  br__put_decimal (&t, &s->worst, 12);
  br__put_from (r, "worst_error_decimal", &t);
  br__put_count (r, "worst_line", (int64_t) s->worst_line);
  put_mark (r, "worst_mark", &s->worst_mark, s->worst_length, c);
  br__put_count (r, "off_nearest", (int64_t) s->pushed_count);
  br_list *rows = br__put_list (r, "off_nearest_rows");
  for (size_t i = 0; i < s->pushed_told; i++)
    {
      br_record *row = br__list_record (rows);
      br__put_count (row, "line", (int64_t) s->pushed[i].line);
      put_mark (row, "mark", &s->pushed[i].mark, s->pushed[i].length, c);
      put_mark (row, "nearest", &s->pushed[i].nearest, s->pushed[i].length, c);
    }
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
  br__put_cells_by (r, &job->column);
  if (!got->name && job->column.width == 2 && job->column.separator == ',')
    br__put_text (r, "cells_by", "commas");
  br__put_text (r, "cells_in", job->column.head ? job->column.head->name : "");
  br__put_count (r, "cells_with_more", (int64_t) got->sums.around);
  br__put_text (r, "unit", got->sums.lengths || job->column.lengths ? run->sheet->settings.unit->name : "");
  if (job->source && job->column.names && job->column.asked == BR__AS_IT_IS)
    {
      const char *quote = strpbrk (job->source, " \t") ? "\"" : "";
      br__text_printf (&name, "name column %zu size %zu of %s%s%s", job->column.names, job->column.index + 1, quote,
                       job->source, quote);
      br__put_from (r, "hint", &name);
    }
  br__put_text (r, "into", job->target ? job->target : "-");
  br__put_text (r, "of", job->source ? job->source : "-");
  br__put_text (r, "size", job->column.asked == BR__FULL_SIZE ? "full"
                : job->column.asked == BR__DRAWN_SIZE ? "drawn" : "");
  put_side (r, "ruler", &job->column.sizes[job->column.lengths], &job->column, job->column.lengths);
  if (got->marks && !got->sums.too_long)
    status = put_total (r, &got->sums, &job->column);
  if (got->marks)
    put_furthest (r, &got->sums, &job->column);
  return br__emit_or_fail (run, r, status, 0, run->end);
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
  size_t at = br__words_skip_blanks (run, run->lex.token.offset + run->lex.token.length);
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
  br__words p;
  size_t at = br__words_skip_blanks (run, run->lex.token.offset + run->lex.token.length), next = 0;
  br_status status = br__words_column (&p, run, at);
  if (status == BR_OK)
    status = br__words_which (&job->named, &job->named_length, &job->number, run, &p);
  job->at_column = (br__place) { p.start, p.end };
  if (status != BR_OK)
    return status;
  at = br__words_skip_blanks (run, br__words_skip (run, p.next));
  status = br__words_file (source, &job->at_source, &next, run, at, BR_FILE_READ);
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
      /* Its numbers are as long as its digits are many.  */
      const size_t work = br__account_work (SIZE_MAX);
      status = br__column_pump (&got, &job);
      (void) br__account_work (work);
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
  br__sums_clear (&got.sums);
  br_number_clear (&job.column.mark.size);
  br_number_clear (&job.column.sizes[0]);
  br_number_clear (&job.column.sizes[1]);
  br_number_clear (&job.column.unit);
  br__free (source);
  br__free (target);
  return status;
}
