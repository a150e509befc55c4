/* SPDX-License-Identifier: LGPL-3.0-or-later
   trade.c - the trade's functions for programs: each calls its row of the one table.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shop/drill.h"
#include "shop/functions.h"

/* The row NAME of ARGS.  A value that is not given is refused as one out of its range is.  */
static br_status
call (br_real *z, const char *name, const br_real *const *args, unsigned bits, br_error *error)
{
  const br__shop_function *row = br__shop_function_find (name, strlen (name));
  size_t count = br__shop_function_arity (row);
  for (size_t i = 0; i < count; i++)
    if (!args[i])
      {
        size_t length;
        const char *parameter = br__shop_parameter (&length, row, i);
        return br__fail (error, BR_DOMAIN, i, 0, "%s is not given",
                         br__shop_parameter_words (parameter, length));
      }
  return row->call (z, args, bits, error);
}

#define ARGS(...) ((const br_real *const[]) { __VA_ARGS__ })

br_status
br_radius (br_real *radius, const br_real *diameter, unsigned bits, br_error *error)
{
  return call (radius, "radius", ARGS (diameter), bits, error);
}

br_status
br_diameter (br_real *diameter, const br_real *radius, unsigned bits, br_error *error)
{
  return call (diameter, "diameter", ARGS (radius), bits, error);
}

br_status
br_circumference (br_real *circumference, const br_real *diameter, unsigned bits, br_error *error)
{
  return call (circumference, "circumference", ARGS (diameter), bits, error);
}

br_status
br_diagonal (br_real *diagonal, const br_real *side, const br_real *other_side, unsigned bits,
             br_error *error)
{
  return call (diagonal, "diagonal", ARGS (side, other_side), bits, error);
}

br_status
br_arc_length (br_real *length, const br_real *radius, const br_real *degrees, unsigned bits,
               br_error *error)
{
  return call (length, "arc_length", ARGS (radius, degrees), bits, error);
}

br_status
br_chord (br_real *chord, const br_real *radius, const br_real *degrees, unsigned bits,
          br_error *error)
{
  return call (chord, "chord", ARGS (radius, degrees), bits, error);
}

br_status
br_rise (br_real *rise, const br_real *radius, const br_real *chord, unsigned bits,
         br_error *error)
{
  return call (rise, "rise", ARGS (radius, chord), bits, error);
}

br_status
br_radius_from (br_real *radius, const br_real *chord, const br_real *rise, unsigned bits,
                br_error *error)
{
  return call (radius, "radius_from", ARGS (chord, rise), bits, error);
}

br_status
br_fender_radius (br_real *radius, const br_real *wheel_diameter, const br_real *gap,
                  unsigned bits, br_error *error)
{
  return call (radius, "fender_radius", ARGS (wheel_diameter, gap), bits, error);
}

br_status
br_fender_outer (br_real *radius, const br_real *wheel_diameter, const br_real *gap,
                 const br_real *width, unsigned bits, br_error *error)
{
  return call (radius, "fender_outer", ARGS (wheel_diameter, gap, width), bits, error);
}

br_status
br_fender_gap (br_real *gap, const br_real *fender_radius, const br_real *wheel_diameter,
               unsigned bits, br_error *error)
{
  return call (gap, "fender_gap", ARGS (fender_radius, wheel_diameter), bits, error);
}

br_status
br_wheel_gap (br_real *gap, const br_real *wheelbase, const br_real *front_diameter,
              const br_real *rear_diameter, unsigned bits, br_error *error)
{
  return call (gap, "wheel_gap", ARGS (wheelbase, front_diameter, rear_diameter), bits, error);
}

br_status
br_wheelbase_for (br_real *wheelbase, const br_real *gap, const br_real *front_diameter,
                  const br_real *rear_diameter, unsigned bits, br_error *error)
{
  return call (wheelbase, "wheelbase_for", ARGS (gap, front_diameter, rear_diameter), bits, error);
}

br_status
br_axle_length (br_real *length, const br_real *body_width, const br_real *wheel_thickness,
                const br_real *washer, const br_real *side_play, const br_real *end_allowance,
                unsigned bits, br_error *error)
{
  return call (length, "axle_length",
               ARGS (body_width, wheel_thickness, washer, side_play, end_allowance), bits, error);
}

br_status
br_clearance_hole (br_real *hole, const br_real *shaft_diameter, const br_real *clearance,
                   unsigned bits, br_error *error)
{
  return call (hole, "clearance_hole", ARGS (shaft_diameter, clearance), bits, error);
}

/* The row of the table is the fractional series.  */
br_status
br_drill_next (br_real *drill, const br_real *size, br_drill_series series, unsigned bits,
               br_error *error)
{
  br_real found = BR_REAL_ZERO;
  int sign = 0;
  br_status status;
  if (series == BR_DRILL_FRACTIONAL || !size)
    return call (drill, "drill", ARGS (size), bits, error);
  if (series != BR_DRILL_NUMBER && series != BR_DRILL_LETTER)
    return br__fail (error, BR_DOMAIN, 1, 0, "no such series of drills");
  status = br_real_sign (&sign, size, bits);
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  if (sign <= 0)
    return br__fail (error, BR_DOMAIN, 0, 0, "the size must be over zero");
  status = br__drill_next (&found.rational, series, size, bits, error);
  if (status == BR_OK)
    {
      br_real_clear (drill);
      *drill = found;
    }
  return status;
}
