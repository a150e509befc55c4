/* SPDX-License-Identifier: GPL-3.0-or-later
   text_template.c - a template that has been written, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

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
  for (size_t i = 0; i < br_list_size (drills); i++)
    {
      display_put (d, i ? "; " : "  holes: ");
      display_put (d, br_list_text (drills, i));
    }
  if (br_list_size (drills))
    putc ('\n', d->stream);
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
