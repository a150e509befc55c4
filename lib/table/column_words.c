/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_words.c - columns and files in a statement, which are words as they stand or texts in quotes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "formula/words.h"
#include "sheet/access.h"
#include "table/column_words.h"

size_t
br__words_skip_blanks (const br__run *run, size_t at)
{
  for (size_t n; at < run->end && (n = br__blank_at (run->text + at, run->end - at)) > 0; at += n)
    ;
  return at;
}

size_t
br__words_skip (const br__run *run, size_t at)
{
  while (at < run->end && br__blank_at (run->text + at, run->end - at) == 0)
    at++;
  return at;
}

br_status
br__words_quoted (br__words *p, br__run *run, size_t at)
{
  const char *close = memchr (run->text + at + 1, '"', run->end - at - 1);
  if (!close)
    return br__fail (run->error, BR_SYNTAX, at, 1, "the quote that opens here is not closed");
  p->start = at + 1;
  p->end = (size_t) (close - run->text);
  p->next = br__words_skip_blanks (run, p->end + 1);
  return BR_OK;
}

int
br__words_is (const br__run *run, size_t at, const char *word)
{
  return br__same_word (run->text + at, br__words_skip (run, at) - at, word);
}

br_status
br__words_column (br__words *p, br__run *run, size_t at)
{
  br_status status = BR_OK;
  if (at < run->end && run->text[at] == '"')
    status = br__words_quoted (p, run, at);
  else
    {
      p->start = p->end = p->next = at;
      while (p->next < run->end && !br__words_is (run, p->next, "of"))
        {
          p->end = br__words_skip (run, p->next);
          p->next = br__words_skip_blanks (run, p->end);
        }
      if (p->next < run->end && p->end == p->start)
        return br__fail (run->error, BR_SYNTAX, at, 0, "the name or the number of a column should stand here");
    }
  if (status == BR_OK && !br__words_is (run, p->next, "of"))
    {
      status = br__fail (run->error, BR_SYNTAX, p->next, 0, "`of` and the name of a file should stand here");
      br__hint (run->error, "round column length of parts.csv to 1/16");
    }
  return status;
}

br_status
br__words_file (char **path, br__place *place, size_t *next, br__run *run, size_t at, br_file_use use)
{
  br__words p = { at, br__words_skip (run, at), 0 };
  br_status status = BR_OK;
  if (at >= run->end)
    return br__fail (run->error, BR_SYNTAX, at, 0, "the line ends where the name of a file should stand");
  p.next = br__words_skip_blanks (run, p.end);
  if (run->text[at] == '"')
    status = br__words_quoted (&p, run, at);
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

br_status
br__words_which (const char **named, size_t *named_length, size_t *number, br__run *run, const br__words *p)
{
  const char *text = run->text + p->start;
  size_t length = p->end - p->start, i = 0;
  *named = text;
  *named_length = length;
  *number = 0;
  if (p->start > 0 && text[-1] == '"')
    return BR_OK;
  while (i < length && text[i] >= '0' && text[i] <= '9')
    i++;
  if (i < length)
    return BR_OK;
  *named = NULL;
  for (i = 0; i < length && *number < 1000000; i++)
    *number = *number * 10 + (size_t) (text[i] - '0');
  if (*number > 0 && *number < 1000000)
    return BR_OK;
  br__fail (run->error, BR_DOMAIN, p->start, length, *number ? "no row has so many cells"
            : "columns are counted from 1");
  br__hint (run->error, "a name of digits stands in quotes");
  return BR_DOMAIN;
}
