/* SPDX-License-Identifier: LGPL-3.0-or-later
   memory.h - the allocator of the library: all of its memory comes from here.
   Tests install a failing allocator (br__memory_set).  GMP uses its own allocation functions, which
   the library never replaces.  */
#ifndef BR_EXACT_MEMORY_H
#define BR_EXACT_MEMORY_H

#include <signal.h>
#include <stddef.h>

void br__free (void *block);
void *br__realloc (void *old, size_t size);         /* on NULL the old block stays */

/* Marks a function that returns memory that the caller frees, so that the compiler can warn of leaks.  */
#if defined (__GNUC__) && !defined (__clang__) && __GNUC__ >= 11
# define BR__GIVES_MEMORY __attribute__ ((__malloc__, __malloc__ (br__free, 1), __malloc__ (br__realloc, 1)))
#else
# define BR__GIVES_MEMORY __attribute__ ((__malloc__))
#endif

BR__GIVES_MEMORY void *br__alloc (size_t size);     /* NULL when there is none; size 0 gives 1 byte */
/* Zeroed; NULL also where count * size overflows.  */
BR__GIVES_MEMORY void *br__alloc_zero (size_t count, size_t size);
BR__GIVES_MEMORY char *br__strndup (const char *text, size_t length);

/* An account counts the memory of a sheet and limits it.  While an account is in use in a thread, the allocations of that
   thread are charged to it.  A block stays charged to the account it was allocated from, whichever thread frees it.  An
   account is freed after it is closed, with its last block.  */
typedef struct br__account br__account;
br__account *br__account_new (size_t most);         /* NULL when there is no memory */
void br__account_close (br__account *account);
/* Makes ACCOUNT (or none, NULL) the account in use of this thread; returns the previous one, to be restored later.  */
br__account *br__account_use (br__account *account);
br__account *br__account_used (void);
void br__account_limit (br__account *account, size_t most);
/* While ON, doubles the limit of the account in use, if any: for code that frees memory or saves the user's work.  */
void br__account_spare (int on);
/* The limit of the account in use if it has refused an allocation since the last call, else 0.  */
size_t br__account_refused (void);
/* From when *FLAG is set, allocations fail (except while br__account_spare is on), so that any work ends soon and is
   rolled back as if memory had run out.  FLAG NULL: none.  Returns the previous flag, to be restored later.  */
const volatile sig_atomic_t *br__account_watch (const volatile sig_atomic_t *flag);
/* 1 if that flag is set and br__account_spare is off.  Long work that allocates nothing polls this and then fails as if
   memory had run out.  */
int br__account_ends (void);
/* From when *FLAG is set, waits for another program (at the other end of a pipe, for example) end.  FLAG NULL: none.
   Returns the previous flag, to be restored later.  */
const volatile sig_atomic_t *br__account_wait (const volatile sig_atomic_t *flag);
/* 1 if that flag is set: called when a signal interrupted a wait, which then fails as if memory had run out.  */
int br__wait_ends (void);
/* 1 if one of these flags has made something fail since the last call.  */
int br__account_stopped (void);
/* Some seconds of work.  */
#define BR__LONG_WORK 400000000
/* Workshop numbers have a few hundred bits; only longer ones count as work, as it takes 100 ms to write one of a million.  */
#define BR__SHORT_BITS 512
/* Sets the work budget of the account in use, in bits of long numbers; returns the previous one.  SIZE_MAX: no limit.  */
size_t br__account_work (size_t bits);
/* Subtracts BITS from the budget and returns 1; returns 0 if it is too small.  */
int br__work_on (size_t bits);
/* 1 if work was refused because of the budget since the last call.  */
int br__account_overworked (void);
/* The number of allocations charged to the account in use: a measure of work that does not depend on the machine.  */
size_t br__account_takes (void);
/* Counts work that allocates little or nothing as TAKES allocations.  */
void br__account_toil (size_t takes);
/* Subtracts the equivalent of TAKES allocations from the budget; never refused.  */
void br__account_spend (size_t takes);
/* 1 if the budget is used up.  */
int br__account_spent (void);
/* 1 if BYTES fit into the account in use and can be allocated now.  Called before GMP and MPFR allocate, because they
   end the process if they cannot.  */
int br__room_for (size_t bytes);

/* Grows *ARRAY (elements of SIZE bytes) to a capacity of at least NEED elements, by doubling.
   Returns 0, with nothing changed, if memory ran out.  */
int br__grow (void *array, size_t *room, size_t need, size_t size);

/* Shrinks *ARRAY to its COUNT elements.  Returns 0, with nothing changed, if memory ran out.  */
int br__trim (void *array, size_t *room, size_t count, size_t size);

/* For test programs only: sets the allocation functions.  NULL: those of the C library.  */
void br__memory_set (void *(*reallocate) (void *old, size_t size), void (*release) (void *block));

#endif
