/* SPDX-License-Identifier: LGPL-3.0-or-later
   status.h - filling in errors.  */
#ifndef BR_EXACT_STATUS_H
#define BR_EXACT_STATUS_H

#include <string.h>

#include "benchrule.h"

/* Fills ERROR (may be NULL) and is STATUS, which is evaluated twice.  The hint becomes "".  Text that does not
   fit is cut at a character's border.  That the value is the status given stands here and not in the function
   that fills in the error: so a reader of one file alone, as an analyser is, knows that a failure was one.  */
#define br__fail(error, status, ...) br__status ((br__fill (error, status, __VA_ARGS__), (status)))
void br__fill (br_error *error, br_status status, size_t offset, size_t length, const char *format, ...)
  __attribute__ ((format (printf, 5, 6)));

/* A function, as the value of a call may go unused.  */
static inline br_status
br__status (br_status status)
{
  return status;
}

/* Adds what to write instead.  */
void br__hint (br_error *error, const char *format, ...) __attribute__ ((format (printf, 2, 3)));

/* The usual message for a STATUS that came without one ("out of memory", "a result past
   1,000,000 bits", "division by zero" is the caller's).  */
void br__fill_plain (br_error *error, br_status status, size_t offset, size_t length);
/* 1 where ERROR says no more than its status does.  */
int br__error_is_plain (const br_error *error);

/* The same, and returns STATUS.  */
static inline br_status
br__fail_plain (br_error *error, br_status status, size_t offset, size_t length)
{
  br__fill_plain (error, status, offset, length);
  return status;
}

/* A public function was given NULL where it takes none.  */
static inline br_status
br__fail_null (br_error *error)
{
  return br__fail (error, BR_DOMAIN, 0, 0, "NULL was given where something is needed");
}

/* The same where ERROR does not tell of STATUS already.  */
static inline br_status
br__fail_untold (br_error *error, br_status status, size_t offset, size_t length)
{
  if (error && error->status != status)
    br__fill_plain (error, status, offset, length);
  return status;
}

/* How many bytes of TEXT[0..LENGTH) to show where there is room for MOST: whole characters.  */
int br__clip (const char *text, size_t length, size_t most);
/* The arguments of %.*s to write at most MOST bytes of the string TEXT.  */
#define BR__CLIP(text, most) br__clip ((text), strlen (text), (most)), (text)

#endif
