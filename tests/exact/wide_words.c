/* SPDX-License-Identifier: GPL-3.0-or-later
   wide_words.c - the same by two words.  */
#define BR__WIDE_BY_WORDS 1
#include "wide.c"
