/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_pump.c - reads a CSV file block by block, has the blocks worked on, by several threads if that
   is asked for, and writes them in their order.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <signal.h>
#include <time.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "table/column_pump.h"

#define TELL_AFTER 1000       /* milliseconds until progress is reported, and between */
#define TELL_EVERY 250

static int64_t
now (void)
{
  struct timespec t;
  clock_gettime (CLOCK_MONOTONIC, &t);
  return (int64_t) t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

/* ---- Blocks by several threads ---- */

static void *
work (void *user)
{
  br__pump *p = user;
  (void) br__account_use (p->account);
  pthread_mutex_lock (&p->lock);
  for (;;)
    {
      while (!p->stop && p->next == p->head)
        pthread_cond_wait (&p->ready, &p->lock);
      if (p->stop)
        break;
      br__block *b = &p->blocks[p->next++ % p->block_count];
      pthread_mutex_unlock (&p->lock);
      br__column_rows (b, &p->job->column);
      pthread_mutex_lock (&p->lock);
      b->done = 1;
      pthread_cond_signal (&p->done);
    }
  pthread_mutex_unlock (&p->lock);
  return NULL;
}

/* Signals are for the thread that called the library.  Where a thread cannot be had, there are fewer.  */
static void
start_workers (br__pump *p, size_t count)
{
  sigset_t all, before;
  sigfillset (&all);
  pthread_sigmask (SIG_BLOCK, &all, &before);
  while (p->worker_count < count && pthread_create (&p->workers[p->worker_count], NULL, work, p) == 0)
    p->worker_count++;
  pthread_sigmask (SIG_SETMASK, &before, NULL);
}

static void
end_workers (br__pump *p)
{
  pthread_mutex_lock (&p->lock);
  p->stop = 1;
  pthread_cond_broadcast (&p->ready);
  pthread_mutex_unlock (&p->lock);
  for (size_t i = 0; i < p->worker_count; i++)
    pthread_join (p->workers[i], NULL);
  p->worker_count = 0;
}

/* ---- Writing ---- */

static void
tell_progress (br__pump *p)
{
  const br_sink *sink = p->job->run->sink;
  int64_t t;
  if (!sink || !sink->progress || (t = now ()) < p->started + TELL_AFTER || t < p->told + TELL_EVERY)
    return;
  size_t at = p->fd < 0 ? p->held_at : p->taken, of = p->fd < 0 ? p->held_length : p->size;
  p->told = t;
  sink->progress (sink->user, p->job->source ? p->job->source : "standard input",
                  at >= of ? of ? 100 : 0 : (int) (at / (of / 100 + 1)));
}

/* Adds what came of B to the whole; its mistakes move on.  */
static br_status
merge (br__pump *p, br__block *b)
{
  br__column_result *r = p->result;
  br_status status = br__sums_join (&r->sums, &b->sums, p->lines);
  for (size_t i = 0; i < b->bads.told && r->bads.told < BR__BAD_TOLD; i++)
    {
      br__bad *bad = &r->bads.rows[r->bads.told++];
      *bad = b->bads.rows[i];
      b->bads.rows[i].text = NULL;
      bad->line += p->lines + 1;
    }
  r->bads.count += b->bads.count;
  r->rows += b->rows;
  r->marks += b->marks;
  p->lines += b->lines;
  br__bads_clear (&b->bads);
  return status == BR_OK ? BR_OK : br__fail_plain (p->job->run->error, status, 0, 0);
}

/* Passes the results of B to the sink, a record for each row.  */
static br_status
emit_rows (br__pump *p, const br__block *b)
{
  const char *at = br__text_string (&b->out), *end = at + b->out.length;
  const char separator = p->job->column.separator;
  size_t line = p->lines + 1;
  br__csv_row row;
  br_status status = BR_OK;
  for (; at < end && status == BR_OK && br__csv_next (&row, at, end, 0, 1, separator); at = row.next, line += row.breaks + 1)
    {
      br_record *r = br__record_new ("column_row");
      br__put_count (r, "line", (int64_t) line);
      br_list *cells = br__put_list (r, "cells");
      for (const char *cell = row.start, *stop; cell <= row.end; cell = stop + 1)
        {
          br__csv_row ignored = row;
          br_text content = BR_TEXT_ZERO;
          stop = br__csv_cell_end (&ignored, cell, row.end, 1, separator);
          br__csv_put_content (&content, cell, stop);
          br__list_from (cells, &content);
        }
      status = br__emit_or_fail (p->job->run, r, BR_OK, 0, p->job->run->end);
    }
  return status;
}

static br_status
finish (br__pump *p, br__block *b)
{
  const br_sink *sink = p->job->run->sink;
  br_status status = b->status;
  if (status != BR_OK)
    return br__fail_plain (p->job->run->error, status, 0, 0);
  p->job->blame = p->job->at_target;
  status = sink && sink->rows && !p->job->target ? emit_rows (p, b)
           : br__output_write (&p->out, br__text_string (&b->out), b->out.length, p->job->run->error);
  if (status == BR_OK)
    {
      status = merge (p, b);
      tell_progress (p);
    }
  if (status == BR_OK && br__stopped (p->job->run))
    status = br__fail_stopped (p->job->run);
  return status;
}

/* The next block to be worked on.  */
static br_status
read_block (br__pump *p)
{
  br__block *b = &p->blocks[p->head % p->block_count];
  p->job->blame = p->job->at_source;
  br_status status = br__block_fill (b, p);
  if (status == BR_OK && !p->begun)
    status = br__block_begin (p, b);
  if (status != BR_OK)
    return status;
  if (p->worker_count == 0)
    {
      b->first = p->result->marks;
      br__column_rows (b, &p->job->column);
      b->done = 1;
    }
  pthread_mutex_lock (&p->lock);
  p->head++;
  pthread_cond_signal (&p->ready);
  pthread_mutex_unlock (&p->lock);
  return BR_OK;
}

static br_status
run_blocks (br__pump *p)
{
  br_status read = BR_OK, status = BR_OK;
  while (status == BR_OK)
    {
      while (read == BR_OK && !p->ended && p->head - p->tail < p->block_count)
        read = read_block (p);
      if (p->head == p->tail)
        break;
      br__block *b = &p->blocks[p->tail % p->block_count];
      pthread_mutex_lock (&p->lock);
      while (!b->done)
        pthread_cond_wait (&p->done, &p->lock);
      pthread_mutex_unlock (&p->lock);
      status = finish (p, b);
      p->tail++;
    }
  if (status != BR_OK || read == BR_OK)
    return status;
  if (p->tail > 0)
    p->job->blame = p->job->at_source;
  if (read == BR_TOO_BIG)
    {
      br__fail (p->job->run->error, read, 0, 0, "the row from line %zu of `%.*s` on is longer than 1 MiB",
                p->lines + 1, BR__CLIP (br__source_name (p), 100));
      br__hint (p->job->run->error, "a quote that is not closed?");
    }
  return read;
}

/* ---- All of it ---- */

static void
pump_clear (br__pump *p)
{
  br__source_close (p);
  for (size_t i = 0; p->blocks && i < p->block_count; i++)
    {
      br__block *b = &p->blocks[i];
      br__free (b->in);
      br__text_clear (&b->out);
      br__text_clear (&b->cell);
      br__text_clear (&b->shown);
      br__bads_clear (&b->bads);
      br__sums_clear (&b->sums);
    }
  br__free (p->blocks);
  br__free (p->workers);
  br__free (p->held);
  br__text_clear (&p->carry);
  pthread_cond_destroy (&p->done);
  pthread_cond_destroy (&p->ready);
  pthread_mutex_destroy (&p->lock);
}

/* Marks that keep a total go to the cells in their order, so that this is for one thread.  */
static size_t
jobs_of (const br__pump *p)
{
  size_t jobs = p->job->run->sheet->jobs;
  return jobs < 2 || p->job->keep_total || !p->job->source ? 1 : jobs;
}

static br_status
prepare (br__pump *p, br__parts *t)
{
  size_t jobs = jobs_of (p);
  p->job->blame = p->job->at_source;
  br_status status = br__source_open (p);
  if (status == BR_OK && p->job->keep_total)
    {
      status = br__source_hold (p);
      br__source_close (p);
      if (status == BR_OK)
        status = br__total_prepare (t, p);
    }
  if (status != BR_OK)
    return status;
  p->block_count = jobs > 1 ? jobs + 2 : 1;
  p->blocks = br__alloc_zero (p->block_count, sizeof *p->blocks);
  p->workers = br__alloc_zero (jobs, sizeof *p->workers);
  if (!p->blocks || !p->workers)
    return br__fail_plain (p->job->run->error, BR_NO_MEMORY, 0, 0);
  p->job->blame = p->job->at_target;
  br__file_spared (&p->spared, p->job->run);
  br__output_rules rules = { .content = BR__CONTENT_CSV, .spared = p->spared.paths, .spared_count = p->spared.count };
  status = br__output_open (&p->out, p->job->target, &rules, p->job->run->error);
  if (status == BR_OK && jobs > 1)
    start_workers (p, jobs);
  return status;
}

br_status
br__column_pump (br__column_result *result, br__column_job *job)
{
  const br_sink *sink = job->run->sink;
  br__pump p = { .job = job, .result = result, .out = BR__OUTPUT_ZERO, .fd = -1, .started = now (), .account = br__account_used () };
  br__parts t = { NULL, NULL, 0, 0, 0 };
  pthread_mutex_init (&p.lock, NULL);
  pthread_cond_init (&p.ready, NULL);
  pthread_cond_init (&p.done, NULL);
  br_status status = prepare (&p, &t);
  if (status == BR_OK && !job->target && sink && sink->flush)
    sink->flush (sink->user);
  if (status == BR_OK)
    status = run_blocks (&p);
  end_workers (&p);
  if (status == BR_OK)
    status = br__output_close (&p.out, 0, job->run->error);
  br__output_drop (&p.out);
  pump_clear (&p);
  br__parts_clear (&t);
  job->column.kept = NULL;
  return status;
}
