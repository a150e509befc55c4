/* SPDX-License-Identifier: LGPL-3.0-or-later
   content.h - what a file holds, told by its bytes and not by its name.  */
#ifndef BR_FILE_CONTENT_H
#define BR_FILE_CONTENT_H

#include <stddef.h>

typedef enum br__content
{
  BR__CONTENT_SHEET, BR__CONTENT_CSV, BR__CONTENT_PAPER, BR__CONTENT_HTML, BR__CONTENT_SVG, BR__CONTENT_PDF,
  BR__CONTENT_PNG
} br__content;

/* How many bytes from a file's start are looked at.  */
#define BR__CONTENT_BYTES 65536

/* By the ending of PATH; CSV where it says nothing.  */
br__content br__content_named (const char *path);
int br__content_has_ending (const char *path, br__content content);
const char *br__content_name (br__content content);
/* 1 where a file that begins with OLD may give way to one of CONTENT that begins with NEW.  A page or a picture
   does where it is one that is made here, too.  A table does where its first row is the same, or both are of one kind that the language writes;
   a paper where its heading names a seed, and a key only for a key: other text is somebody's own.  */
int br__content_gives_way (const char *old, size_t old_length, br__content content, const char *new, size_t new_length);
/* 1 where BYTES could be a text that a person reads: no control characters but those that part lines.  */
int br__content_is_text (const char *bytes, size_t length);

#endif
