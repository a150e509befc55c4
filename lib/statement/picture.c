/* SPDX-License-Identifier: LGPL-3.0-or-later
   picture.c - `show fender(...)` and `show wheels(...)`: a small side view in characters.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "statement/statements.h"
#include "sheet/caution.h"
#include "shop/functions.h"
#include "shop/picture.h"

#define MOST_SIZES 3

/* The sizes in the brackets, as lengths in inches.  */
static br_status
read_sizes (br__run *run, br__value *sizes, size_t least, size_t *count, const char *form)
{
  br_status status = BR_OK;
  *count = 0;
  if (!br__lex_is_sign (&run->lex, '('))
    return br__expected (run, "a bracket with the sizes");
  do
    {
      br__tree t = BR__TREE_ZERO;
      br__value *v = &sizes[*count];
      br__go_on (run);
      status = br__parse_inside (&t, &run->lex, run->error);
      if (status == BR_OK)
        status = br__value_of (v, run, &t);
      if (status == BR_OK && v->dimension == BR_PLAIN)
        status = br__to_length (v, &run->sheet->settings);
      if (status == BR_OK && (v->dimension != BR_LENGTH || !br_real_rational (&v->real)))
        status = br__fail (run->error, BR_DOMAIN, t.base, t.length,
                           "a picture needs a length that is a fraction");
      br__tree_clear (&t);
      ++*count;
    }
  while (status == BR_OK && *count < MOST_SIZES && br__lex_is_sign (&run->lex, ','));
  if (status == BR_OK && (!br__lex_is_sign (&run->lex, ')') || *count < least))
    {
      status = br__expected (run, *count < least ? "another size" : "a closing bracket");
      br__hint (run->error, "write %s", form);
    }
  return status == BR_OK ? br__lex_next (&run->lex, run->error) : status;
}

static void
put_lines (br_record *r, br_text *picture)
{
  br_list *lines = br__put_list (r, "lines");
  const char *s = br__text_string (picture);
  while (*s)
    {
      size_t n = strcspn (s, "\n");
      br__list_bytes (lines, s, n);
      s += n + (s[n] == '\n');
    }
}

static br_status
draw_fender (br__run *run, br_text *t, const br__value *v, size_t count)
{
  br_style style = br__settings_style (&run->sheet->settings);
  br_number thin = BR_NUMBER_ZERO;
  br_status status = br_number_set_ratio (&thin, 1, 4);
  if (status == BR_OK)
    status = br__picture_fender (t, br_real_rational (&v[0].real), br_real_rational (&v[1].real),
                                 count > 2 ? br_real_rational (&v[2].real) : &thin, &style);
  br_number_clear (&thin);
  return status;
}

/* GAP gets the daylight between the wheels.  */
static br_status
draw_wheels (br__run *run, br_text *t, br__value *gap, const br__value *v)
{
  const br__settings *s = &run->sheet->settings;
  br_style style = br__settings_style (s);
  const br_real *args[] = { &v[0].real, &v[1].real, &v[2].real };
  br_status status = br_wheel_gap (&gap->real, args[0], args[1], args[2], s->bits, run->error);
  if (status == BR_OK)
    status = br__picture_wheels (t, br_real_rational (args[0]), br_real_rational (args[1]),
                                 br_real_rational (args[2]), &gap->real, &style, s->bits);
  gap->dimension = v[0].dimension;
  return status;
}

br_status
br__do_picture (br__run *run)
{
  br__value sizes[MOST_SIZES], daylight = BR__VALUE_ZERO;
  br_text picture = BR_TEXT_ZERO;
  size_t count = 0, place = run->lex.token.offset;
  int fender = br__lex_is_word (&run->lex, "fender");
  br_status status = BR_OK;

  memset (sizes, 0, sizeof sizes);
  if (!fender && !br__lex_is_word (&run->lex, "wheels"))
    return br__expected (run, "`fender(wheel_dia, gap, width)` or `wheels(wheelbase, front_dia, rear_dia)`");
  status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = read_sizes (run, sizes, fender ? 2 : 3, &count,
                         fender ? "fender(wheel_dia, gap, width)" : "wheels(wheelbase, front_dia, rear_dia)");
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    {
      if (run->error)
        run->error->status = BR_OK;
      status = fender ? draw_fender (run, &picture, sizes, count) : draw_wheels (run, &picture, &daylight, sizes);
      if (status == BR_DOMAIN && run->error && run->error->status == BR_OK)
        br__fail (run->error, status, 0, 0, "these sizes cannot be drawn: each must be over zero");
      else if (status != BR_OK && run->error && run->error->status == BR_OK)
        br__fail_plain (run->error, status, 0, 0);
      if (status != BR_OK && run->error)
        run->error->offset = place, run->error->length = run->end - place;
    }
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("picture");
      put_lines (r, &picture);
      status = br__emit (run, r);
    }
  if (status == BR_OK)
    status = br__caution_gap (run, fender ? &sizes[1] : &daylight, fender ? "the wheel and its fender" : "the wheels");
  br__value_clear (&daylight);
  br__text_clear (&picture);
  for (size_t i = 0; i < MOST_SIZES; i++)
    br__value_clear (&sizes[i]);
  return status;
}
