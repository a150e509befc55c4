/* SPDX-License-Identifier: LGPL-3.0-or-later
   recover.c - writes unsaved work to a recovery file, and restores the sheet from it.

   A recovery file begins with lines of a word and a value, up to an empty line; the sheet's lines follow.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <inttypes.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/access.h"
#include "sheet/written.h"
#include "statement/opened.h"
#include "statement/statements.h"

#define FIRST "benchrule kept 1"

/* The file that the sheet's names lead from: its own, or one in the folder at hand.  To be freed.  */
static char *
place_of (const br_sheet *sheet)
{
  return br__file_resolve (sheet->path ? sheet->path : "work.sheet");
}

br_status
br_sheet_keep (const br_sheet *sheet, const char *path, br_error *error)
{
  if (!sheet || !path)
    return br__fail_null (error);
  static const br__output_rules over = { .content = BR__CONTENT_SHEET, .over = 1 };
  br_text t = BR_TEXT_ZERO;
  char *place = place_of (sheet);
  br_status status = br__file_ask_call (sheet, path, BR_FILE_WRITE, error);
  if (status == BR_OK)
    {
      br__text_puts (&t, FIRST "\n");
      /* If its folder no longer exists, the sheet is restored without a file.  */
      if (place && !strchr (place, '\n'))
        br__text_printf (&t, "%s %s\n", sheet->path ? "file" : "at", place);
      if (sheet->stamp.known)
        br__text_printf (&t, "held %zu %" PRIx64 " %" PRIx64 "\n", sheet->stamp.length, sheet->stamp.hash[0],
                         sheet->stamp.hash[1]);
      br__text_putc (&t, '\n');
      br__put_sheet (&t, sheet, place ? place : "work.sheet");
      status = t.failed ? br__fail_plain (error, BR_NO_MEMORY, 0, 0)
               : br__file_write (path, br__text_string (&t), t.length, &over, error);
    }
  br__text_clear (&t);
  br__free (place);
  return status;
}

void
br_sheet_set_keeper (br_sheet *sheet, br_keeper *keeper, void *user)
{
  if (!sheet)
    return;
  sheet->keeper = keeper;
  sheet->keeper_user = user;
}

/* ---- Bringing it back ---- */

/* The value behind WORD in a line that is LENGTH long, or NULL.  To be freed.  */
static char *
value_of (const char *line, size_t length, const char *word)
{
  size_t n = strlen (word);
  return length > n + 1 && memcmp (line, word, n) == 0 && line[n] == ' ' ? br__strndup (line + n + 1, length - n - 1) : NULL;
}

static uint64_t
read_digits (const char **at, unsigned base)
{
  uint64_t value = 0;
  for (; **at && **at != ' '; ++*at)
    value = value * base + (uint64_t) (**at <= '9' ? **at - '0' : **at - 'a' + 10);
  *at += **at == ' ';
  return value;
}

typedef struct kept
{
  char *file, *at;
  br__stamp stamp;
  size_t start;             /* of the lines */
} kept;

static void
read_head (kept *k, const char *bytes, size_t length)
{
  size_t at = 0;
  memset (k, 0, sizeof *k);
  if (length < sizeof FIRST || memcmp (bytes, FIRST "\n", sizeof FIRST) != 0)
    return;
  for (const char *end; (end = memchr (bytes + at, '\n', length - at)) != NULL; at = (size_t) (end - bytes) + 1)
    {
      size_t n = (size_t) (end - bytes) - at;
      char *held = value_of (bytes + at, n, "held");
      if (n == 0)
        {
          k->start = at + 1;
          return;
        }
      if (!k->file)
        k->file = value_of (bytes + at, n, "file");
      if (!k->at)
        k->at = value_of (bytes + at, n, "at");
      if (held)
        {
          const char *text = held;
          k->stamp.known = 1;
          k->stamp.length = (size_t) read_digits (&text, 10);
          k->stamp.hash[0] = read_digits (&text, 16);
          k->stamp.hash[1] = read_digits (&text, 16);
        }
      br__free (held);
    }
}

/* A name from the folder at hand where that is shorter.  */
static void
shorten (char *path)
{
  char *here = br__file_folder ("x");
  const char *below = here ? br__file_below (path, here) : NULL;
  if (below)
    memmove (path, below, strlen (below) + 1);
  br__free (here);
}

static br_status
bring_back (br__run *run, const char *path)
{
  char *bytes = NULL;
  size_t length = 0;
  kept k = { .file = NULL };
  br_status status = br__file_ask_call (run->sheet, path, BR_FILE_READ, run->error);
  if (status == BR_OK)
    status = br__file_read (&bytes, &length, path, run->error);
  if (status == BR_OK)
    {
      read_head (&k, bytes, length);
      if (k.file)
        shorten (k.file);
      if (k.at)
        shorten (k.at);
      status = br__open_text (run, bytes + k.start, length - k.start, k.file ? k.file : k.at ? k.at : "work.sheet");
    }
  if (status == BR_OK)
    {
      run->sheet->path = k.file;
      run->sheet->stamp = k.stamp;
      run->sheet->saved_at = SIZE_MAX;
      k.file = NULL;
    }
  br__free (k.file);
  br__free (k.at);
  br__free (bytes);
  return status;
}

br_status
br__do_recover (br__run *run)
{
  br_sheet *sheet = run->sheet;
  int drop = br__lex_is_word (&run->lex, "drop");
  br_status status = drop ? br__lex_next (&run->lex, run->error) : BR_OK;
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && run->from_file)
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "a sheet recovers nothing");
  if (status != BR_OK)
    return status;
  if (!drop && (status = br__check_saved (run)) != BR_OK)
    return status;
  const char *path = sheet->keeper ? sheet->keeper (sheet->keeper_user, BR_KEPT_ASK) : NULL;
  if (!path)
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "no unsaved work is left from before");
  if (drop)
    {
      sheet->keeper (sheet->keeper_user, BR_KEPT_DROP);
      return br__remark (run, "what was left from before is gone");
    }
  status = bring_back (run, path);
  if (status != BR_OK)
    return status;
  sheet->keeper (sheet->keeper_user, BR_KEPT_TAKEN);
  return br__remark (run, "%s is back as it was, not saved yet", sheet->path ? sheet->path : "the sheet");
}
