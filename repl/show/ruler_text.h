/* SPDX-License-Identifier: GPL-3.0-or-later
   ruler_text.h - a small picture of a ruler around a value and the mark it goes to.  */
#ifndef REPL_RULER_H
#define REPL_RULER_H

#include "benchrule.h"
#include "display.h"

typedef struct ruler_picture
{
  const char *value;    /* "1319/200" or a decimal near it: where the arrow stands */
  const char *label;    /* over the arrow */
  const char *mark;     /* exact */
  const char *step;     /* exact: the finest mark of the ruler */
  const char *name;     /* under the mark, such as "the mark, over by 3/100" */
} ruler_picture;

/* Writes nothing where the numbers cannot be read.  */
void ruler_put (const display *d, const ruler_picture *picture);

#endif
