/* SPDX-License-Identifier: GPL-3.0-or-later
   text_template.c - a template that has been written, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "show/text.h"

/* "holes: 7x drill 3/8; drill 1": what is drilled alike is said once.  */
static void
put_drills (const display *d, const br_list *drills)
{
  size_t n = br_list_size (drills), told = 0;
  for (size_t i = 0; i < n; i++)
    {
      const char *drill = br_list_text (drills, i);
      size_t before = 0, alike = 0;
      for (size_t k = 0; k < n; k++)
        if (strcmp (br_list_text (drills, k), drill) == 0)
          {
            alike++;
            before += k < i;
          }
      if (before)
        continue;
      display_put (d, told++ ? "; " : "  holes: ");
      if (alike > 1)
        fprintf (d->stream, "%zux ", alike);
      display_put (d, drill);
    }
  if (n)
    putc ('\n', d->stream);
}

static void
template_block (const display *d, const br_record *record)
{
  const br_list *drills = br_record_list (record, "drills"), *problems = br_record_list (record, "problems");
  long long pages = br_record_count (record, "pages"), left_out = br_record_count (record, "left_out");
  display_put (d, "template of ");
  text_strong (d, br_record_text (record, "part"));
  display_put (d, ", full size, ");
  text_count (d, pages, "sheet", "sheets");
  display_put (d, " of paper: ");
  display_put (d, br_record_text (record, "file"));
  putc ('\n', d->stream);
  put_drills (d, drills);
  for (size_t i = 0; i < br_list_size (problems); i++)
    {
      text_strong (d, "  does not fit: ");
      display_put (d, br_list_text (problems, i));
      putc ('\n', d->stream);
    }
  if (pages > 1)
    fputs ("  Join the sheets on their dashed lines before cutting.\n", d->stream);
  if (left_out > 0)
    fprintf (d->stream, "  %lld of its sizes and names found no room on the figure: a list on the paper has them.\n", left_out);
}

const text_kind text_templates[] = {
  { "template", template_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
