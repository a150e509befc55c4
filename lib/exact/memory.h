/* SPDX-License-Identifier: LGPL-3.0-or-later
   memory.h - the one place where the library takes memory of its own.
   Tests put a failing allocator in (br__memory_set); GMP keeps its own functions, which
   the library never replaces.  */
#ifndef BR_EXACT_MEMORY_H
#define BR_EXACT_MEMORY_H

#include <signal.h>
#include <stddef.h>

void br__free (void *block);
void *br__realloc (void *old, size_t size);         /* on NULL the old block stays */

/* What such a function gives is the caller's, who ends it: the compiler watches that.  */
#if defined (__GNUC__) && !defined (__clang__) && __GNUC__ >= 11
# define BR__GIVES_MEMORY __attribute__ ((__malloc__, __malloc__ (br__free, 1), __malloc__ (br__realloc, 1)))
#else
# define BR__GIVES_MEMORY __attribute__ ((__malloc__))
#endif

BR__GIVES_MEMORY void *br__alloc (size_t size);     /* NULL when there is none; size 0 gives 1 byte */
/* Zeroed; NULL also where count * size overflows.  */
BR__GIVES_MEMORY void *br__alloc_zero (size_t count, size_t size);
BR__GIVES_MEMORY char *br__strndup (const char *text, size_t length);

/* What a sheet holds, and how much that may be.  While an account is in use in a thread, what is taken there is charged to
   it; each block goes back to its own, wherever it is given back.  An account ends with its last block.  */
typedef struct br__account br__account;
br__account *br__account_new (size_t most);         /* NULL when there is no memory */
void br__account_close (br__account *account);
/* The account, or NULL, from here on in this thread; gives the one before, to be used again afterwards.  */
br__account *br__account_use (br__account *account);
br__account *br__account_used (void);
void br__account_limit (br__account *account, size_t most);
/* As much again, for what gives memory back or keeps the work, while ON.  Of the account in use, if any.  */
void br__account_spare (int on);
/* The limit where the account in use has refused something since it was last asked, else 0.  */
size_t br__account_refused (void);
/* Once *FLAG is up nothing more is given out, except to what is spared, so that work of any kind ends at once, and is taken
   back like work for which memory does not suffice; NULL: nothing of the kind.  Gives the one before, to be put back.  */
const volatile sig_atomic_t *br__account_watch (const volatile sig_atomic_t *flag);
/* 1 where it is up and nothing is spared: for long work that asks for no memory, which ends as if it had been refused.  */
int br__account_ends (void);
/* Once *FLAG is up nothing waits any longer for another program, which reads or writes the other end of a pipe, say.
   NULL: nothing of the kind.  Gives the one before, to be put back.  */
const volatile sig_atomic_t *br__account_wait (const volatile sig_atomic_t *flag);
/* 1 where it is up: asked when a wait was interrupted, which fails then as if there were no memory.  */
int br__wait_ends (void);
/* 1 where something was refused for that since it was last asked.  */
int br__account_stopped (void);
/* Some seconds of work.  */
#define BR__LONG_WORK 400000000
/* Numbers of a workshop have some hundred bits, and those of a million take a hundred milliseconds to be shown.  */
#define BR__SHORT_BITS 512
/* Bits of long numbers that may still be worked on for the account in use; gives how many that were.  SIZE_MAX: any.  */
size_t br__account_work (size_t bits);
/* Takes BITS off that; 0 where there are too few.  */
int br__work_on (size_t bits);
/* 1 where something was refused for that since it was last asked.  */
int br__account_overworked (void);
/* How often memory was taken for the account in use, which is a measure of work that is the same on each machine.  */
size_t br__account_takes (void);
/* Counts work that takes no memory, or little, as if it took some so many times.  */
void br__account_toil (size_t takes);
/* Takes what so many times stand for off what may still be worked; never refused.  */
void br__account_spend (size_t takes);
/* 1 where nothing of it is left.  */
int br__account_spent (void);
/* 1 where the account in use has room for BYTES and the machine has them now: asked before GMP and MPFR take them, which
   end the program where they cannot.  */
int br__room_for (size_t bytes);

/* Grows *ARRAY (elements of SIZE bytes) to room for NEED elements, doubling.
   0 when memory ran out, with everything as it was.  */
int br__grow (void *array, size_t *room, size_t need, size_t size);

/* Gives the room of *ARRAY back that its COUNT elements do not need.  0 when memory ran out, with everything as it was.  */
int br__trim (void *array, size_t *room, size_t count, size_t size);

/* For test programs only: the functions used from now on.  NULL: the C library's.  */
void br__memory_set (void *(*reallocate) (void *old, size_t size), void (*release) (void *block));

#endif
