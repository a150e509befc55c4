/* SPDX-License-Identifier: LGPL-3.0-or-later
   sheet.c - making and freeing a sheet, and functions of br_sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "file/file.h"
#include "sheet/tolerance.h"

br_status
br__sheet_new (br_sheet **sheet, const br__language *language)
{
  br_sheet *made = br__alloc_zero (1, sizeof *made);
  br_status status = made ? BR_OK : BR_NO_MEMORY;
  if (made)
    {
      made->language = language;
      made->graph = br__graph_new (&made->settings);
      status = made->graph ? br__settings_start (&made->settings) : BR_NO_MEMORY;
    }
  if (status != BR_OK)
    {
      br_sheet_free (made);
      return status;
    }
  *sheet = made;
  return BR_OK;
}

void
br__release_by (br_sheet *sheet, void (*release) (br_sheet *sheet))
{
  size_t i = 0;
  while (sheet->release[i] && sheet->release[i] != release)
    i++;
  sheet->release[i] = release;
}

void
br__sheet_enter (br__call *call, br_sheet *sheet, const br_sink *sink)
{
  static const br_sink silent;
  call->sink = sink ? *sink : silent;
  call->before = br__account_used ();
  (void) feholdexcept (&call->floating);
  (void) fesetround (FE_TONEAREST);
  if (sheet->account)
    (void) br__account_use (sheet->account);
  const int inner = sheet->running++ > 0;
  sheet->told = inner ? sheet->told : &call->sink;
  if (inner || call->sink.goes_on)
    return;
  sheet->mistakes = sheet->phrases_read = sheet->changed = 0;
  if (sheet->account)
    (void) br__account_work (BR__LONG_WORK);
}

br_status
br__sheet_leave (const br__call *call, br_sheet *sheet, br_status status)
{
  const int ended = sheet->ended;
  (void) br__account_use (call->before);
  (void) fesetenv (&call->floating);
  if (--sheet->running == 0)
    {
      sheet->told = NULL;
      if (ended)
        br_sheet_free (sheet);
    }
  return status == BR_OK && ended ? BR_STOPPED : status;
}

/* The rest of what runs goes unheard and as fast as it can.  */
static void
end_running (br_sheet *sheet)
{
  static const volatile sig_atomic_t up = 1;
  const br_solver *solver = sheet->told->solver;
  *sheet->told = (br_sink) { .solver = solver };
  sheet->flag = &up;
  sheet->quit = sheet->ended = 1;
}

void
br_sheet_free (br_sheet *sheet)
{
  if (!sheet)
    return;
  if (sheet->running)
    {
      end_running (sheet);
      return;
    }
  br__account *account = sheet->account;
  for (size_t i = 0; i < sizeof sheet->release / sizeof sheet->release[0] && sheet->release[i]; i++)
    sheet->release[i] (sheet);
  for (size_t i = 0; i < sheet->history_count; i++)
    br__changes_drop (&sheet->history[i]);
  br__free (sheet->history);
  br__changes_drop (&sheet->pending_rollback.own);
  for (br__check *c = sheet->checks, *next; c; c = next)
    {
      next = c->next;
      br__check_free (c);
    }
  for (br__line *l = sheet->first, *next; l; l = next)
    {
      next = l->next;
      br__free (l->text);
      br__free (l->uses);
      br__free (l->refused_in);
      br__free (l);
    }
  br__tolerances_free (sheet->graph);
  br__graph_free (sheet->graph);
  br__settings_clear (&sheet->settings);
  br__free (sheet->practice_path);
  br__free (sheet->graded);
  br__free (sheet->graded_marks);
  br__free (sheet->title);
  br__free (sheet->date);
  br__free (sheet->path);
  br_number_clear (&sheet->tidy.size);
  br__free (sheet);
  if (account)
    br__account_close (account);
}

/* Waiting checks and shapes also have entries in the graph, but these are not dimensions.  */
size_t
br_sheet_waiting (const br_sheet *sheet)
{
  if (!sheet)
    return 0;
  size_t n = br__graph_waiting (sheet->graph);
  for (const br__entry *e = br__graph_first (sheet->graph); n && e; e = br__entry_next (e))
    n -= br__is_hidden_entry (e) && br__entry_definition (e) && !br__entry_value (e);
  return n;
}

int
br_sheet_unsaved (const br_sheet *sheet)
{
  if (!sheet)
    return 0;
  if (sheet->saved_at == sheet->done_count)
    return 0;
  if (sheet->path)
    return 1;
  for (const br__line *l = sheet->first; l; l = l->next)
    if (!l->hidden && !l->foreign)
      return 1;
  return 0;
}

const char *br_sheet_path (const br_sheet *sheet) { return sheet ? sheet->path : NULL; }
int br_sheet_done (const br_sheet *sheet) { return sheet && sheet->quit; }

void
br_sheet_go_on (br_sheet *sheet)
{
  if (sheet)
    sheet->quit = 0;
}

void
br_sheet_watch (br_sheet *sheet, const volatile sig_atomic_t *flag)
{
  if (!sheet)
    return;
  sheet->flag = flag;
}

void
br_sheet_set_policy (br_sheet *sheet, br_file_policy *policy, void *user)
{
  if (!sheet)
    return;
  sheet->policy = policy;
  sheet->policy_user = user;
}

void
br_sheet_set_painter (br_sheet *sheet, br_painter_find *find, void *user)
{
  if (!sheet)
    return;
  sheet->painter = find;
  sheet->painter_user = user;
}

br_status
br_sheet_keep_practice (br_sheet *sheet, const char *path)
{
  if (!sheet || !path)
    return BR_DOMAIN;
  char *copy = br__strndup (path, strlen (path));
  if (!copy)
    return BR_NO_MEMORY;
  br__free (sheet->practice_path);
  sheet->practice_path = copy;
  return BR_OK;
}

br_status
br_sheet_set_bits (br_sheet *sheet, unsigned bits)
{
  if (!sheet)
    return BR_DOMAIN;
  if (bits < 64 || bits > 65536)
    return BR_DOMAIN;
  sheet->settings.bits = bits;
  return BR_OK;
}

br_status
br_sheet_set_memory (br_sheet *sheet, size_t bytes)
{
  if (!sheet)
    return BR_DOMAIN;
  if (bytes < BR_LEAST_MEMORY)
    return BR_DOMAIN;
  br__account_limit (sheet->account, bytes);
  return BR_OK;
}

br_status
br_sheet_set_jobs (br_sheet *sheet, unsigned jobs)
{
  if (!sheet)
    return BR_DOMAIN;
  if (jobs < 1 || jobs > BR_MAX_JOBS)
    return BR_DOMAIN;
  sheet->jobs = jobs;
  return BR_OK;
}

br_status
br__do_quit (br__run *run)
{
  br_status status = br__end_of_line (run);
  if (status == BR_OK)
    run->sheet->quit = 1;
  return status;
}
