/* SPDX-License-Identifier: LGPL-3.0-or-later
   memory.c - the allocator of the library, one pair of functions, and the accounts that memory is charged to.

   There are two exceptions to "no hidden state".  Test programs replace the pair of functions to make the n-th
   allocation fail; the library itself never does.  The account in use is thread-local, and a call that sets it
   restores it before it returns.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stddef.h>
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

/* Before each block; as large as keeps the block aligned.  */
typedef union head
{
  struct { br__account *account; size_t size; } of;
  max_align_t aligned;
} head;

/* USED counts the bytes of all blocks, plus 1 for the owner; the account is freed when USED reaches 0.  */
struct br__account
{
  size_t used, most, spare;
  int refused;
  const volatile sig_atomic_t *flag;    /* or NULL */
  const volatile sig_atomic_t *waits;   /* the same, for waits alone */
  int stopped;
  size_t work;          /* bits left */
  int overworked;
  size_t takes;
};

/* The work of one allocation: in searches for numbers a few microseconds pass between two of them.  */
#define BITS_OF_TAKE 300

static _Thread_local br__account *in_use;

br__account *
br__account_new (size_t most)
{
  br__account *a = memory_reallocate (NULL, sizeof *a);
  if (a)
    *a = (br__account) { .used = 1, .most = most, .work = SIZE_MAX };
  return a;
}

static void
give_back (br__account *a, size_t size)
{
  if (a && __atomic_sub_fetch (&a->used, size, __ATOMIC_ACQ_REL) == 0)
    memory_release (a);
}

void
br__account_close (br__account *account)
{
  give_back (account, 1);
}

br__account *
br__account_use (br__account *account)
{
  br__account *before = in_use;
  in_use = account;
  return before;
}

br__account *
br__account_used (void)
{
  return in_use;
}

void
br__account_limit (br__account *account, size_t most)
{
  account->most = most;
}

void
br__account_spare (int on)
{
  if (in_use)
    in_use->spare = on ? in_use->most : 0;
}

size_t
br__account_refused (void)
{
  size_t most = in_use && in_use->refused ? in_use->most : 0;
  if (in_use)
    in_use->refused = 0;
  return most;
}

/* Stores FLAG in *WATCHED and returns the old value; WATCHED is NULL if no account is in use.  */
static const volatile sig_atomic_t *
watch_instead (const volatile sig_atomic_t **watched, const volatile sig_atomic_t *flag)
{
  const volatile sig_atomic_t *before = watched ? *watched : NULL;
  if (watched)
    *watched = flag;
  return before;
}

const volatile sig_atomic_t *
br__account_watch (const volatile sig_atomic_t *flag)
{
  return watch_instead (in_use ? &in_use->flag : NULL, flag);
}

const volatile sig_atomic_t *
br__account_wait (const volatile sig_atomic_t *flag)
{
  return watch_instead (in_use ? &in_use->waits : NULL, flag);
}

int
br__wait_ends (void)
{
  if (!in_use || !in_use->waits || !*in_use->waits)
    return 0;
  in_use->stopped = 1;
  return 1;
}

int
br__account_stopped (void)
{
  int stopped = in_use && in_use->stopped;
  if (in_use)
    in_use->stopped = 0;
  return stopped;
}

static int
ends (br__account *a)
{
  if (!a->flag || !*a->flag || a->spare)
    return 0;
  a->stopped = 1;
  return 1;
}

int
br__account_ends (void)
{
  return in_use && ends (in_use);
}

static int
has_room (br__account *a, size_t size)
{
  if (ends (a))
    return 0;
  size_t used = __atomic_load_n (&a->used, __ATOMIC_RELAXED), most;
  if (__builtin_add_overflow (a->most, a->spare, &most))
    most = SIZE_MAX;
  if (used <= most && size <= most - used)
    return 1;
  __atomic_store_n (&a->refused, 1, __ATOMIC_RELAXED);
  return 0;
}

/* Several threads may pass the limit together by what they ask for at that moment.  */
static int
charge (br__account *a, size_t size)
{
  if (a && !has_room (a, size))
    return 0;
  if (a)
    {
      (void) __atomic_fetch_add (&a->used, size, __ATOMIC_RELAXED);
      (void) __atomic_fetch_add (&a->takes, 1, __ATOMIC_RELAXED);
    }
  return 1;
}

size_t
br__account_work (size_t bits)
{
  size_t before = in_use ? in_use->work : SIZE_MAX;
  if (in_use)
    in_use->work = bits;
  return before;
}

int
br__work_on (size_t bits)
{
  if (!in_use || in_use->work == SIZE_MAX || in_use->spare)
    return 1;
  in_use->overworked |= in_use->work < bits;
  in_use->work -= in_use->work < bits ? 0 : bits;
  return !in_use->overworked;
}

int
br__account_overworked (void)
{
  int overworked = in_use && in_use->overworked;
  if (in_use)
    in_use->overworked = 0;
  return overworked;
}

size_t
br__account_takes (void)
{
  return in_use ? __atomic_load_n (&in_use->takes, __ATOMIC_RELAXED) : 0;
}

void
br__account_toil (size_t takes)
{
  if (in_use)
    (void) __atomic_fetch_add (&in_use->takes, takes, __ATOMIC_RELAXED);
}

void
br__account_spend (size_t takes)
{
  if (in_use && in_use->work != SIZE_MAX)
    in_use->work -= takes < in_use->work / BITS_OF_TAKE ? takes * BITS_OF_TAKE : in_use->work;
}

int
br__account_spent (void)
{
  return in_use && in_use->work == 0;
}

int
br__room_for (size_t bytes)
{
  void *block;
  if (in_use && !has_room (in_use, bytes))
    return 0;
  block = memory_reallocate (NULL, bytes ? bytes : 1);
  if (block)
    memory_release (block);
  return block != NULL;
}

void *
br__realloc (void *old, size_t size)
{
  head *block = old ? (head *) old - 1 : NULL;
  br__account *a = block ? block->of.account : in_use;
  size_t bytes, before = block ? block->of.size : 0;
  if (__builtin_add_overflow (size, sizeof *block, &bytes) || (bytes > before && !charge (a, bytes - before)))
    return NULL;
  head *made = memory_reallocate (block, bytes);
  if (!made)
    {
      if (bytes > before)
        give_back (a, bytes - before);
      return NULL;
    }
  if (bytes < before)
    give_back (a, before - bytes);
  made->of.account = a;
  made->of.size = bytes;
  return made + 1;
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
  if (!block)
    return;
  head *h = (head *) block - 1;
  give_back (h->of.account, h->of.size);
  memory_release (h);
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
  /* A sheet keeps one or two arrays of large elements for each line, most of them with few.  */
  size_t least = size > 32 ? 2 : 8;
  if (more < least)
    more = least;
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

int
br__trim (void *array, size_t *room, size_t count, size_t size)
{
  void *block;
  if (!count || count >= *room)
    return 1;
  memcpy (&block, array, sizeof block);
  block = br__realloc (block, count * size);
  if (!block)
    return 0;
  memcpy (array, &block, sizeof block);
  *room = count;
  return 1;
}
