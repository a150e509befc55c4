/* SPDX-License-Identifier: GPL-3.0-or-later
   text_template.c - a template that has been written, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include "fields.h"

static long long
count (const br_record *record, const char *key)
{
  br_field field = br_record_get (record, key);
  return field.type == BR_FIELD_COUNT ? (long long) field.value.count : 0;
}

static void
template_block (const display *d, const br_record *record)
{
  const br_list *drills = field_list (record, "drills");
  long long pages = count (record, "pages"), left_out = count (record, "left_out");
  display_put (d, "template of ");
  text_strong (d, field_text (record, "part"));
  fprintf (d->stream, ", full size, %lld %s of paper: ", pages, pages == 1 ? "sheet" : "sheets");
  display_put (d, field_text (record, "file"));
  putc ('\n', d->stream);
  for (size_t i = 0; i < fields_in (drills); i++)
    {
      display_put (d, i ? "; " : "  holes: ");
      display_put (d, field_text_at (drills, i));
    }
  if (fields_in (drills))
    putc ('\n', d->stream);
  if (pages > 1)
    fputs ("  Join the sheets on their dashed lines before cutting.\n", d->stream);
  if (left_out)
    fprintf (d->stream, "  %lld of its sizes and names found no room: they are listed below the part.\n", left_out);
}

const text_kind text_templates[] = {
  { "template", template_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
