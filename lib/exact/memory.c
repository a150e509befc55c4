/* SPDX-License-Identifier: LGPL-3.0-or-later
   memory.c - memory of the library's own, from one pair of functions.

   The pair is the one exception to "no hidden state": test programs exchange it to refuse
   the n-th allocation.  No function of the library writes it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"

static void *(*memory_reallocate) (void *, size_t) = realloc;
static void (*memory_release) (void *) = free;

void
br__memory_set (void *(*reallocate) (void *old, size_t size), void (*release) (void *block))
{
  memory_reallocate = reallocate ? reallocate : realloc;
  memory_release = release ? release : free;
}

void *
br__realloc (void *old, size_t size)
{
  return memory_reallocate (old, size ? size : 1);
}

void *
br__alloc (size_t size)
{
  return br__realloc (NULL, size);
}

void *
br__alloc_zero (size_t count, size_t size)
{
  size_t bytes;
  if (__builtin_mul_overflow (count, size, &bytes))
    return NULL;
  void *block = br__alloc (bytes);
  if (block)
    memset (block, 0, bytes);
  return block;
}

void
br__free (void *block)
{
  if (block)
    memory_release (block);
}

char *
br__strndup (const char *text, size_t length)
{
  char *copy = length < SIZE_MAX ? br__alloc (length + 1) : NULL;
  if (!copy)
    return NULL;
  if (length)
    memcpy (copy, text, length);
  copy[length] = 0;
  return copy;
}

int
br__grow (void *array, size_t *room, size_t need, size_t size)
{
  if (need <= *room)
    return 1;
  size_t more = *room > SIZE_MAX / 2 ? need : *room * 2;
  if (more < 8)
    more = 8;
  if (more < need)
    more = need;
  size_t bytes;
  if (__builtin_mul_overflow (more, size, &bytes))
    return 0;
  /* ARRAY is a pointer to a pointer of any type: copied as bytes, not read as void *.  */
  void *block;
  memcpy (&block, array, sizeof block);
  block = br__realloc (block, bytes);
  if (!block)
    return 0;
  memcpy (array, &block, sizeof block);
  *room = more;
  return 1;
}
