/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood.h - stock and parts of a sheet.  Their sizes are kept as formulas and worked out when a list
   or a plan is asked for, so that they follow every change.  */
#ifndef BR_WOOD_WOOD_H
#define BR_WOOD_WOOD_H

#include "sheet/sheet.h"
#include "shop/stock.h"

enum { BR__THICKNESS, BR__WIDTH, BR__LENGTH_OF, BR__SIZES };

/* A stock or a part as it was written.  Sizes that were not given have no tree.  */
typedef struct br__wood
{
  struct br__wood *next;
  struct br__wood *alike;       /* an older one whose name has the same hash */
  int stock;                    /* else a part */
  int active;                   /* not undone, forgotten or given anew */
  char *name, *note;
  int round;                    /* a dowel: the thickness is its diameter */
  br__nominal_kind nominal;
  int64_t lumber[2];            /* BR__LUMBER: 2 and 4 */
  br__tree size[BR__SIZES];
  br__tree quantity;            /* without nodes: 1 of a part, as many as it takes of a stock */
  char *from;                   /* a part's stock, or NULL */
  char *as;                     /* the shape that a part is cut as, or NULL */
  int turn;                     /* may lie across the grain */
  br__line *line;
} br__wood;

void br__wood_free (br__wood *w);
br__wood *br__wood_find (const br_sheet *sheet, int stock, const char *name, size_t length);
/* The shape that the part NAME is cut as, or NULL.  */
const char *br__wood_cut_as (const br_sheet *sheet, const char *name);
/* Forgets the stock or the part whose name is at hand.  */
br_status br__wood_forget (br__run *run, int stock);

/* A size worked out, in inches.  */
typedef struct br__sized
{
  br_number value;              /* as it was given; where no fraction says it, its mark */
  br_number mark;               /* the size that is cut: on the sheet's ruler, or the whole of the stock */
  br_real over;                 /* the mark less what was given */
  int known;
  int plain;                    /* it was given without a unit */
} br__sized;

/* A stock or a part worked out.  */
typedef struct br__piece
{
  const br__wood *wood;
  br__sized size[BR__SIZES];
  int64_t quantity;             /* -1: as many as it takes */
  size_t stock;                 /* of a part: index among the stocks, or SIZE_MAX */
  br_text problem;              /* why it cannot be made, or empty */
  int waits;                    /* the problem is a value that is not known yet */
} br__piece;

void br__piece_clear (br__piece *p);
/* Computes the sizes and the quantity of W; an error in them is stored in PROBLEM.  */
br_status br__wood_work_out (br__piece *p, br__run *run, const br__wood *w);

typedef struct br__wood_list
{
  br__piece *stocks, *parts;
  size_t stock_count, part_count;
} br__wood_list;

/* Computes all stocks and parts; an error in one of them is stored in its PROBLEM.  Returns only other errors:
   BR_NO_MEMORY and the like.  */
br_status br__wood_resolve (br__wood_list *list, br__run *run);
void br__wood_list_clear (br__wood_list *list);

/* A length in inches as a text of the sheet: "3/4"", and on its ruler.  */
br_status br__put_length (br_text *t, const br_number *inches, const br__settings *s);
br_status br__put_ruler_mark (br_text *t, const br_number *inches, br_direction direction,
                              const br__settings *s);
/* A size that is cut: as its mark, or, where it lies on none, as a length.  */
br_status br__put_cut (br_text *t, const br_number *inches, const br__settings *s);
/* wood_show.c: "12" x 4" x 3/4"" as far as it is known, of a stock its thickness first; CUT: as it is cut.  */
br_status br__put_wood_size (br_text *t, const br__piece *p, int cut, const br__settings *s);
/* The exact value in the sheet's unit.  */
br_status br__put_sheet_exact (br_record *r, const char *key, const br_number *inches,
                               const br__settings *s);

/* wood_show.c: P as a record of its own, and all stocks.  */
br_status br__wood_show (br__run *run, const br__piece *p);
br_status br__stock_list (br__run *run);

/* The cautions about parts: how to hold the first of them and which are small, or each part in a line; or all in full.  */
typedef enum br__wood_which { BR__WOOD_FIRST, BR__WOOD_EACH, BR__WOOD_FULL } br__wood_which;
br_status br__wood_cautions (br__run *run, const br__wood_list *list, br__wood_which which);
/* wood_depth.c: reports parts whose shape has a depth that is not one of their sizes.  */
br_status br__wood_depths (br__run *run, const br__wood_list *list);
/* Reports where the views disagree: these parts, and the wheels on their axles.  */
br_status br__tell_across (br__run *run);
br_status br__do_rubs (br__run *run);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__wood_statements[];
br_status br__do_stock (br__run *run);
br_status br__do_part (br__run *run);
br_status br__do_parts (br__run *run);
br_status br__do_cuts (br__run *run);
br_status br__do_order (br__run *run);
/* tools.c */
br_status br__do_drills (br__run *run);
br_status br__do_saws (br__run *run);
br_status br__do_cautions (br__run *run);

/* at_hand.c.  Each of TREES on the stock, or the DOWELS, that is nearest, with its neighbours.  */
br_status br__round_to_stock (br__run *run, const br__tree *trees, size_t count, int dowels);

#endif
