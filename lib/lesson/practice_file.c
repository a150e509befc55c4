/* SPDX-License-Identifier: LGPL-3.0-or-later
   practice_file.c - the cards of practice as a table: topic, kind, box, due, asked, right, mistakes.  The row with
   the topic `all` has what has been answered.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "sheet/access.h"
#include "exact/status.h"
#include "lesson/practice.h"
#include "table/rows.h"

/* A whole number that is not below 0; anything else is 0.  */
static int64_t
count_of (const br__row *row, size_t column)
{
  const char *cell = br__row_cell (row, column);
  size_t n = strspn (cell, "0123456789");
  return n && n < 16 && !cell[n] ? strtoll (cell, NULL, 10) : 0;
}

/* "kerf forgotten 3; wrong 1".  */
static void
read_mistakes (br__card *card, const char *cell)
{
  while (*cell)
    {
      size_t n = strcspn (cell, ";"), name = n;
      while (name && cell[name - 1] >= '0' && cell[name - 1] <= '9')
        name--;
      size_t end = name;
      while (end && cell[end - 1] == ' ')
        end--;
      for (size_t k = 0; k < BR__VERDICTS; k++)
        if (strlen (br__verdict_name (k)) == end && memcmp (br__verdict_name (k), cell, end) == 0 && n - name < 9)
          card->mistakes[k] = (uint32_t) strtoul (cell + name, NULL, 10);
      cell += n + (cell[n] == ';');
      cell += strspn (cell, " ");
    }
}

br_status
br__practice_read (br__practice *p, const char *path, br_error *error)
{
  br__rows rows = BR__ROWS_ZERO;
  if (!path || access (path, F_OK) != 0)
    return BR_OK;
  br_status status = br__rows_read (&rows, path, error);
  for (size_t i = 1; i < rows.count && status == BR_OK; i++)
    {
      const br__row *row = &rows.rows[i];
      const char *topic = br__row_cell (row, 0);
      if (strcmp (topic, "all") == 0)
        p->answered = count_of (row, 4);
      for (size_t k = 0; k < p->count; k++)
        {
          br__card *card = &p->cards[k];
          if (strcmp (card->topic->name, topic) != 0 || card->kind + 1 != (uint64_t) count_of (row, 1))
            continue;
          int64_t box = count_of (row, 2);
          card->box = (unsigned) (box > BR__BOXES ? BR__BOXES : box ? box : 1);
          card->due = count_of (row, 3);
          card->asked = count_of (row, 4);
          card->right = count_of (row, 5);
          read_mistakes (card, br__row_cell (row, 6));
        }
    }
  br__rows_clear (&rows);
  return status;
}

br_status
br__practice_write (const br__practice *p, const char *path, br_error *error)
{
  br_text t = BR_TEXT_ZERO;
  static const br__output_rules rules = { .content = BR__CONTENT_CSV };
  if (!path)
    return BR_OK;
  br__text_printf (&t, "topic,kind,box,due,asked,right,mistakes\nall,,,,%" PRId64 ",,\n", p->answered);
  for (size_t i = 0; i < p->count; i++)
    {
      const br__card *card = &p->cards[i];
      int first = 1;
      if (!card->asked)
        continue;
      br__text_printf (&t, "%s,%u,%u,%" PRId64 ",%" PRId64 ",%" PRId64 ",", card->topic->name, card->kind + 1, card->box, card->due,
                       card->asked, card->right);
      for (size_t k = 1; k < BR__VERDICTS; k++)
        if (card->mistakes[k])
          {
            br__text_printf (&t, "%s%s %u", first ? "" : "; ", br__verdict_name (k), card->mistakes[k]);
            first = 0;
          }
      br__text_putc (&t, '\n');
    }
  br_status status = t.failed ? br__fail_plain (error, BR_NO_MEMORY, 0, 0) : br__file_write (path, br__text_string (&t), t.length, &rules, error);
  br__text_clear (&t);
  return status;
}
