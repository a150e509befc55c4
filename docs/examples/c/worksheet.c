/* SPDX-License-Identifier: CC0-1.0
   worksheet.c - a worksheet of four problems and its key, into the folder this runs in.  The same seed gives the same
   papers.  */
#include <benchrule_sheet.h>

#include <stdio.h>

static void
on_record (void *user, const br_record *record)
{
  (void) user;
  printf ("%s: %s\n", br_record_kind (record), br_record_text (record, "file"));
}

static void
on_fault (void *user, const br_fault *fault)
{
  (void) user;
  fprintf (stderr, "%zu: %s\n", fault->line, fault->error->message);
}

int
main (void)
{
  static const char lines[] = "worksheet reading 2, fender 2 seed 12 into class.txt\nkey class_key.txt\n";
  br_sink sink = BR_SINK_ZERO;
  br_sheet *sheet = NULL;
  br_status status = br_sheet_new (&sheet);
  sink.record = on_record;
  sink.fault = on_fault;
  if (status == BR_OK)
    status = br_sheet_run (sheet, lines, sizeof lines - 1, "worksheet", 1, &sink);
  br_sheet_free (sheet);
  return status != BR_OK;
}
