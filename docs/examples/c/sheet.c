/* SPDX-License-Identifier: CC0-1.0
   sheet.c - a sheet with rules that must hold: a size is set as a number, then the rules say how they stand.  */
#include <benchrule_sheet.h>

#include <stdio.h>
#include <string.h>

static const char lines[] =
  "wheel = 3-1/2 in\n"
  "gap = 1/8 in\n"
  "fender = fender_radius(wheel, gap)\n"
  "check fender <= 2 in     # the fender fits under the deck\n"
  "check gap < 3/16 in      # too narrow for a small finger\n";

static br_status
tell_checks (const br_sheet *sheet)
{
  br_item item = BR_ITEM_ZERO;
  br_status status;
  while ((status = br_sheet_next (&item, sheet, BR_ITEM_CHECK, NULL)) == BR_OK && item.name)
    printf ("%s  %s: %s\n", item.state == BR_ITEM_PASSES ? "pass" : "FAIL", item.formula, item.note);
  return status;
}

int
main (void)
{
  br_sheet *sheet = NULL;
  br_real x = BR_REAL_ZERO;
  char text[80];
  br_status status = br_sheet_new (&sheet);
  if (status == BR_OK)
    status = br_sheet_run (sheet, lines, sizeof lines - 1, "cart", 1, NULL);
  if (status == BR_OK)
    status = tell_checks (sheet);
  if (status == BR_OK)
    status = br_number_set_ratio (&x.rational, 5, 16);
  if (status == BR_OK)
    status = br_sheet_set (sheet, "gap", &x, BR_LENGTH, NULL);
  if (status == BR_OK)
    status = br_sheet_get (&x, NULL, sheet, "fender", NULL);
  if (status == BR_OK && br_number_write_mixed (text, sizeof text, br_real_rational (&x)) < sizeof text)
    printf ("with a gap of 5/16 the fender's radius is %s\n", text);
  if (status == BR_OK)
    status = tell_checks (sheet);
  br_real_clear (&x);
  br_sheet_free (sheet);
  return status != BR_OK;
}
