/* SPDX-License-Identifier: LGPL-3.0-or-later
   index.c - which rows of the phrases a line may be, by the letters that its words begin with.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "phrase/words.h"

int
br__phrase_is_slot (const char *typed, size_t length)
{
  return *typed == '.' || (length == 1 && (*typed == '*' || (*typed >= 'A' && *typed <= 'Z')));
}

static br__row_letters
letters_of (const char *typed)
{
  br__row_letters found = { UINT32_MAX, { UINT32_MAX, UINT32_MAX, UINT32_MAX } };
  size_t count = 0;
  for (const char *end, *word = typed; *word && count < 3; word = end + (*end == ' '))
    {
      uint32_t begins = br__letter_bit (*word);
      for (end = word; *end && *end != ' '; end++)
        if (*end == '|')
          begins |= br__letter_bit (end[1]);
      if (*word != '[' && !br__phrase_is_slot (word, (size_t) (end - word)))
        *(word == typed ? &found.first : &found.more[count++]) = begins;
    }
  return found;
}

static void
free_index (br_sheet *sheet)
{
  br__free (sheet->phrase_index);
  sheet->phrase_index = NULL;
}

static size_t
rows_of (const br__phrase_rule *r)
{
  size_t n = 0;
  while (r[n].typed)
    n++;
  return n;
}

const struct br__phrase_index *
br__phrase_index (br_sheet *sheet)
{
  if (!sheet->phrase_index)
    {
      const size_t orders = rows_of (br__phrase_rules), count = orders + rows_of (br__phrase_orders);
      struct br__phrase_index *made = br__alloc (sizeof *made + count * sizeof *made->rows);
      if (!made)
        return NULL;
      made->orders = orders;
      for (size_t i = 0; i < count; i++)
        made->rows[i] = letters_of ((i < orders ? br__phrase_rules + i : br__phrase_orders + (i - orders))->typed);
      br__release_by (sheet, free_index);
      sheet->phrase_index = made;
    }
  return sheet->phrase_index;
}
