/* SPDX-License-Identifier: LGPL-3.0-or-later
   paper.c - paper by ISO 216, ASME Y14.1 and US office and architects' sizes; scales by ISO 5455
   and the customary ones of inch drawings.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "shop/paper.h"

#define ISO "ISO 216, trimmed sizes"
#define ASME "ASME Y14.1, decimal inch drawing sheet sizes"
#define OFFICE "US office paper sizes"
#define ARCH "US architectural drawing sheet sizes"

/* An inch is 127/5 mm.  */
#define MM(n) 5 * (n), 127

const br__paper br__papers[] =
{
  { "letter", "letter", 17, 2, 11, 1, OFFICE },
  { "legal", "legal", 17, 2, 14, 1, OFFICE },
  { "tabloid", "tabloid", 11, 1, 17, 1, OFFICE },
  { "ledger", "ledger", 11, 1, 17, 1, OFFICE },
  { "statement", "statement", 11, 2, 17, 2, OFFICE },
  { "a5", "A5", MM (148), MM (210), ISO },
  { "a4", "A4", MM (210), MM (297), ISO },
  { "a3", "A3", MM (297), MM (420), ISO },
  { "a2", "A2", MM (420), MM (594), ISO },
  { "a1", "A1", MM (594), MM (841), ISO },
  { "a0", "A0", MM (841), MM (1189), ISO },
  { "a", "size A", 17, 2, 11, 1, ASME },
  { "b", "size B", 11, 1, 17, 1, ASME },
  { "c", "size C", 17, 1, 22, 1, ASME },
  { "d", "size D", 22, 1, 34, 1, ASME },
  { "e", "size E", 34, 1, 44, 1, ASME },
  { "f", "size F", 28, 1, 40, 1, ASME },
  { "arch_a", "architects' A", 9, 1, 12, 1, ARCH },
  { "arch_b", "architects' B", 12, 1, 18, 1, ARCH },
  { "arch_c", "architects' C", 18, 1, 24, 1, ARCH },
  { "arch_d", "architects' D", 24, 1, 36, 1, ARCH },
  { "arch_e", "architects' E", 36, 1, 48, 1, ARCH },
  { "arch_e1", "architects' E1", 30, 1, 42, 1, ARCH },
};

const size_t br__paper_count = sizeof br__papers / sizeof br__papers[0];

const br__paper *
br__paper_find (const char *name, size_t length)
{
  for (size_t i = 0; i < br__paper_count; i++)
    {
      const char *p = br__papers[i].name;
      size_t k = 0;
      while (k < length && p[k] && (name[k] == p[k] || (name[k] >= 'A' && name[k] <= 'Z'
                                                        && name[k] + 'a' - 'A' == p[k])))
        k++;
      if (k == length && !p[k])
        return &br__papers[i];
    }
  return NULL;
}

/* Largest first.  Inch scales that an ISO scale equals (6 in = 1 ft is 1:2) are left to it.  */
static const br__scale_row scales[] =
{
  { 50, 1, NULL }, { 20, 1, NULL }, { 10, 1, NULL }, { 5, 1, NULL }, { 2, 1, NULL }, { 1, 1, NULL },
  { 1, 2, NULL }, { 1, 4, "3 in = 1 ft" }, { 1, 5, NULL }, { 1, 8, "1-1/2 in = 1 ft" },
  { 1, 10, NULL }, { 1, 12, "1 in = 1 ft" }, { 1, 16, "3/4 in = 1 ft" }, { 1, 20, NULL },
  { 1, 24, "1/2 in = 1 ft" }, { 1, 32, "3/8 in = 1 ft" }, { 1, 48, "1/4 in = 1 ft" },
  { 1, 50, NULL }, { 1, 64, "3/16 in = 1 ft" }, { 1, 96, "1/8 in = 1 ft" }, { 1, 100, NULL },
  { 1, 128, "3/32 in = 1 ft" }, { 1, 192, "1/16 in = 1 ft" }, { 1, 200, NULL }, { 1, 500, NULL },
  { 1, 1000, NULL }, { 1, 2000, NULL }, { 1, 5000, NULL }, { 1, 10000, NULL }
};

const br__scale_row *
br__scale_at (size_t index, int inch)
{
  for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++)
    if ((inch || !scales[i].words) && index-- == 0)
      return &scales[i];
  return NULL;
}

int
br__scale_is_usual (const br__scale_row *row, int inch)
{
  return !inch || row->full % 5 || row->full >= 200;
}

static br_status
one_fits (int *fits, const br__scale_row *row, const br_real *size, const br_number *room, unsigned bits)
{
  br_real drawn = BR_REAL_ZERO, limit = BR_REAL_ZERO;
  int order = 0;
  br_status status = br_number_set_ratio (&drawn.rational, row->drawn, row->full);
  if (status == BR_OK)
    status = br_real_mul (&drawn, &drawn, size);
  if (status == BR_OK)
    status = br_real_set_number (&limit, room);
  if (status == BR_OK)
    status = br_real_cmp (&order, &drawn, &limit, bits);
  *fits = status == BR_OK && order <= 0;
  br_real_clear (&drawn);
  br_real_clear (&limit);
  return status;
}

br_status
br__scale_fits (int *fits, const br__scale_row *row, const br_real *width, const br_real *height,
                const br_number *room_width, const br_number *room_height, unsigned bits)
{
  int first = 0, second = 0;
  br_status status = one_fits (&first, row, width, room_width, bits);
  if (status == BR_OK)
    status = one_fits (&second, row, height, room_height, bits);
  if (status == BR_OK)
    *fits = first && second;
  return status;
}
