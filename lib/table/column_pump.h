/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_pump.h - the state of a column on its way from one file to another.  */
#ifndef BR_TABLE_COLUMN_PUMP_H
#define BR_TABLE_COLUMN_PUMP_H

#include <pthread.h>

#include "sheet/access.h"
#include "table/column.h"

#define BR__COLUMN_BLOCK 65536      /* bytes read at a time; what they become stays in a cache */

typedef struct br__pump
{
  br__column_job *job;
  br__column_result *result;
  br__output out;
  br__spared spared;          /* files that OUT leaves alone */
  int fd;                     /* the source; -1 where HELD has it all */
  char *held;
  size_t held_length, held_room, held_at;
  size_t size, taken;         /* bytes of the source, 0 where that is not known; read so far */
  int ended, begun;           /* the source is at its end; the first row is done */
  br_text carry;              /* the row that the last block cut off */
  size_t lines;               /* that are written */
  int64_t started, told;      /* milliseconds */

  br__block *blocks;
  size_t block_count;
  size_t head, tail;          /* blocks read, blocks written; the ring is between them */

  pthread_mutex_t lock;
  pthread_cond_t ready, done;
  size_t next;                /* the block that a worker takes next */
  int stop;
  br__account *account;       /* of the thread that called the library */
  pthread_t *workers;
  size_t worker_count;
} br__pump;

/* column_source.c */
const char *br__source_name (const br__pump *p);
br_status br__source_open (br__pump *p);
void br__source_close (br__pump *p);
/* Takes all of the source into P->held.  */
br_status br__source_hold (br__pump *p);
/* Fills B with whole rows.  BR_TOO_BIG without a message: a row over the limit.  */
br_status br__block_fill (br__block *b, br__pump *p);
/* Finds the column in the first row of B, which is passed on if it is a header: if its cell is no
   measure.  */
br_status br__block_begin (br__pump *p, br__block *b);

/* column_total.c.  The values of a column, and the marks that keep their total.  */
typedef struct br__parts
{
  br_real *x;
  br_number *marks;
  size_t count, room;
  int length;                 /* one is a length */
} br__parts;

void br__parts_clear (br__parts *t);
/* The marks for what P holds, for P->job->column.  A plain number beside a length is one in the sheet's
   unit, so that a column with both is gathered twice.  */
br_status br__total_prepare (br__parts *t, br__pump *p);

#endif
