/* SPDX-License-Identifier: LGPL-3.0-or-later
   told.c - the first mistakes of a file are reported one by one, the others by their number; where a summary
   comes in their place, its answers are not given.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "statement/told.h"

#define MOST_TOLD 100

static void
pass_record (void *user, const br_record *record)
{
  const br__told *t = user;
  if (t->to->record && (!t->summary || strcmp (br_record_kind (record), "remark") == 0))
    t->to->record (t->to->user, record);
}

static void
count_fault (void *user, const br_fault *fault)
{
  br__told *t = user;
  if (t->count++ < MOST_TOLD && t->to->fault)
    t->to->fault (t->to->user, fault);
}

static void
pass_flush (void *user)
{
  const br__told *t = user;
  if (t->to->flush)
    t->to->flush (t->to->user);
}

static void
pass_progress (void *user, const char *what, int percent)
{
  const br__told *t = user;
  if (t->to->progress)
    t->to->progress (t->to->user, what, percent);
}

const br_sink *
br__told_start (br__told *t, const br_sink *sink)
{
  *t = (br__told) { .to = sink, .sink = *sink, .summary = sink->summary == 1 };
  t->sink.user = t;
  t->sink.fault = count_fault;
  t->sink.record = sink->record ? pass_record : NULL;
  t->sink.read_as = NULL;
  t->sink.flush = sink->flush ? pass_flush : NULL;
  t->sink.progress = sink->progress ? pass_progress : NULL;
  return &t->sink;
}

void
br__told_end (br__told *t, const char *path)
{
  br_error error;
  br_fault rest = { path, 0, "", 0, &error };
  if (t->count <= MOST_TOLD || !t->to->fault)
    return;
  br__fill (&error, BR_SYNTAX, 0, 0, "%zu more mistakes, %zu in all", t->count - MOST_TOLD, t->count);
  t->to->fault (t->to->user, &rest);
}
