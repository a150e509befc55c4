/* SPDX-License-Identifier: GPL-3.0-or-later
   memory.h - what the program does when GMP and MPFR, which cannot do without, find no memory.  */
#ifndef BR_REPL_MEMORY_H
#define BR_REPL_MEMORY_H

/* To be called before the library is used: from here on they have a reserve, and where that is gone, too, the program
   says so and ends as after a mistake.  */
void memory_start (void);
/* Fills the reserve again, if it was used.  */
void memory_refill (void);

#endif
