/* SPDX-License-Identifier: LGPL-3.0-or-later
   markup.h - text of the user inside HTML and SVG.  */
#ifndef BR_FILE_MARKUP_H
#define BR_FILE_MARKUP_H

#include "exact/text.h"

/* Writes TEXT escaped for an element or a quoted attribute of HTML or XML: & < > " ' become
   entities; control characters, bidirectional controls, characters not allowed in XML and invalid bytes
   are written as \x1b, \u202e.  A line end or a tab becomes a blank.  */
void br__put_escaped (br_text *t, const char *text);
void br__put_escaped_bytes (br_text *t, const char *bytes, size_t length);

/* Puts text for a file that is no HTML: the same is spelled out, but line ends and tabs stay.  */
void br__put_plain (br_text *t, const char *bytes, size_t length);

/* S escaped, its fractions raised and lowered in a span of the class f, and no line ends inside a size of it.  */
void br__put_fractions (br_text *t, const char *s);
/* The same, and for screen readers also the measure in words, in a span of the class r:
   "2 and 3 eighths inches".  TEXT that is not a shop measure is only escaped.  */
void br__put_spoken (br_text *t, const char *text);

/* The head of a page of HTML up to <body>: TITLE escaped; the style that all pages share, then STYLE, the page's own.  */
void br__html_head (br_text *t, const char *language, const char *title, const char *style);

#endif
