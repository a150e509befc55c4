/* SPDX-License-Identifier: LGPL-3.0-or-later
   stock.c - nominal and actual sizes: softwood by PS 20, hardwood by the NHLA's surfaced thicknesses,
   plywood by what the trade sells under a name.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/stock.h"

/* In 32nds of an inch.  */
typedef struct size
{
  int64_t nominal, actual;
} size;

/* PS 20-20, dressed dry: boards are 1 in, dimension lumber 2 to 4 in thick.  */
static const size thicknesses[] = { { 32, 24 }, { 64, 48 }, { 96, 80 }, { 128, 112 } };
static const size widths[] =
{
  { 32, 24 }, { 64, 48 }, { 96, 80 }, { 128, 112 }, { 160, 144 }, { 192, 176 }, { 224, 208 },
  { 256, 232 }, { 288, 264 }, { 320, 296 }, { 352, 328 }, { 384, 360 }, { 448, 424 }, { 512, 488 }
};
/* Timbers, 5 in and more both ways, are 1/2 in under.  */
#define TIMBER_FROM 5
#define TIMBER_TO 24

/* Sanded panels are sold 1/32 in under their name: trade practice.  */
static const size plywood[] =
{
  { 8, 7 }, { 12, 11 }, { 16, 15 }, { 20, 19 }, { 24, 23 }
};

/* NHLA standard surfaced (S2S) thicknesses: 3/16 in under up to 6/4, 1/4 in from there.  */
static const size hardwood[] =
{
  { 12, 6 }, { 16, 10 }, { 20, 14 }, { 24, 18 }, { 32, 26 }, { 40, 34 }, { 48, 42 }, { 56, 48 },
  { 64, 56 }, { 80, 72 }, { 96, 88 }, { 112, 104 }, { 128, 120 }
};

static int64_t
look_up (const size *rows, size_t count, int64_t nominal)
{
  for (size_t i = 0; i < count; i++)
    if (rows[i].nominal == nominal)
      return rows[i].actual;
  return 0;
}

const char *
br__nominal_source (br__nominal_kind kind)
{
  switch (kind)
    {
    case BR__LUMBER:
      return "US PS 20, American Softwood Lumber Standard, dressed dry sizes";
    case BR__PLYWOOD:
      return "plywood trade practice: sanded panels are 1/32 in under their name; measure yours";
    case BR__HARDWOOD:
      return "NHLA rules, standard surfaced (S2S) thicknesses; shops often sell others, measure yours";
    default:
      return "";
    }
}

const char *
br__nominal_list (br__nominal_kind kind)
{
  switch (kind)
    {
    case BR__PLYWOOD:
      return "1/4, 3/8, 1/2, 5/8, 3/4";
    case BR__HARDWOOD:
      return "3/8, 1/2, 5/8, 3/4, 4/4, 5/4, 6/4, 7/4, 8/4, 10/4, 12/4, 14/4, 16/4";
    default:
      return "1x2, 1x3, 1x4, 1x6, 2x4, 2x6, 4x4 ...";
    }
}

br_status
br__nominal_lumber (br_number *thickness, br_number *width, int64_t nominal_thickness,
                    int64_t nominal_width)
{
  int64_t a = nominal_thickness < nominal_width ? nominal_thickness : nominal_width;
  int64_t b = nominal_thickness < nominal_width ? nominal_width : nominal_thickness;
  int64_t t = 0, w = 0;
  if (a >= TIMBER_FROM && b <= TIMBER_TO)
    t = 32 * a - 16, w = 32 * b - 16;
  else if (a >= 1 && b <= TIMBER_TO)
    {
      t = look_up (thicknesses, sizeof thicknesses / sizeof thicknesses[0], 32 * a);
      w = look_up (widths, sizeof widths / sizeof widths[0], 32 * b);
    }
  if (!t || !w)
    return BR_DOMAIN;
  br_status status = br_number_set_ratio (thickness, t, 32);
  return status == BR_OK ? br_number_set_ratio (width, w, 32) : status;
}

br_status
br__nominal_thickness (br_number *thickness, br__nominal_kind kind, const br_number *nominal)
{
  int64_t n, d, found;
  if (!br_number_get_ratio (&n, &d, nominal) || n <= 0 || n > 32 || 32 % d != 0)
    return BR_DOMAIN;
  n *= 32 / d;
  found = kind == BR__PLYWOOD ? look_up (plywood, sizeof plywood / sizeof plywood[0], n)
                              : look_up (hardwood, sizeof hardwood / sizeof hardwood[0], n);
  return found ? br_number_set_ratio (thickness, found, 32) : BR_DOMAIN;
}
