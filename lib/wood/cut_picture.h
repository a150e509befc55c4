/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_picture.h - a stick or a board with its cuts in plain characters.  */
#ifndef BR_WOOD_CUT_PICTURE_H
#define BR_WOOD_CUT_PICTURE_H

#include "benchrule.h"
#include "exact/text.h"

typedef struct br__picture_piece
{
  const char *name;
  int64_t x, y, length, width;
} br__picture_piece;

/* Adds lines of at most 66 characters: a stick of LENGTH in one line, or with a WIDTH a board.  Offcuts
   are dotted.  Not to scale where a piece is narrower than a character.  Sizes under 2^44.  */
void br__picture_cuts (br_text *text, int64_t length, int64_t width, const br__picture_piece *pieces,
                       size_t count);

#endif
