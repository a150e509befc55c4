/* SPDX-License-Identifier: LGPL-3.0-or-later
   written.h - the sheet as the text of a file.  */
#ifndef BR_SHEET_WRITTEN_H
#define BR_SHEET_WRITTEN_H

#include "exact/text.h"
#include "sheet/sheet.h"

/* Puts the sheet's own lines for the file PATH.  A sheet that it uses, and that cannot be used from there or has been
   changed, is put in whole.  */
void br__put_sheet (br_text *t, const br_sheet *sheet, const char *path);
/* A name for a new sheet that no file here has.  */
void br__free_name (char *name, size_t size);

#endif
