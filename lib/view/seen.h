/* SPDX-License-Identifier: LGPL-3.0-or-later
   seen.h - a sheet as it looks from above or from the front.  */
#ifndef BR_VIEW_SEEN_H
#define BR_VIEW_SEEN_H

#include "shape/depth.h"
#include "view/view.h"

typedef enum br__seen_from { BR__FROM_THE_SIDE, BR__FROM_ABOVE, BR__FROM_THE_FRONT, BR__ALL_VIEWS } br__seen_from;

/* What shapes look like from there: SHEET, of which each shape is a box and the one at index I is OF[I] of the sheet that
   it was made from.  */
typedef struct br__seen
{
  br__seen_from from;
  br_sheet *sheet;
  const br__shape **of;
  size_t *copy;                 /* which of its figures that the side view adds to others, where it is a row or a mirror */
  const br__shape **in;         /* the wood that a hole without depth is shown in, or NULL */
  size_t room, copy_room, in_room;      /* of OF, COPY and IN */
  size_t count;
  const br__shape **flat;       /* without a depth, or one that waits: they are not in it */
  size_t flat_count;
  const char *layer, *part;     /* what is drawn, NULL: all */
} br__seen;

void br__seen_clear (br__seen *z);
/* As for br__view_make, of which the shapes are those of the sheet of RUN.  */
br_status br__seen_make (br__seen *z, br__run *run, br__seen_from from, const char *layer, const char *of);

#endif
