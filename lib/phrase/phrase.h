/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase.h - what people type, in the words of the language.  */
#ifndef BR_PHRASE_PHRASE_H
#define BR_PHRASE_PHRASE_H

#include "exact/text.h"
#include "sheet/sheet.h"

/* run.c.  The hint of a line of which nothing is known.  */
extern const char br__only_help[];
/* Reads the line of RUN, which was refused with STATUS, as a phrase.  */
br_status br__run_phrase (br__run *run, br_status status);
/* names.c.  T = what NAME is that no size is called; nothing where it is only a name.  */
void br__put_other (br_text *t, const br_sheet *sheet, const char *name);

/* T = the statement RUN->text up to its note in the words of the language, where all of its phrases can mean one thing
   only.  0 where there is nothing to change.  Three rules: what can mean one thing is accepted; what could mean two is left,
   so that it is refused; a hint works as it stands.  LEFT_OUT = what of a number with more around it was left out.  */
int br__phrase (br_text *t, br_text *left_out, const br__run *run);
/* 1 where the statement of RUN, which the language takes, is meant otherwise by those who type it: it is refused with a
   hint, or read as a phrase.  */
int br__phrase_first (br__run *run);
/* A mistake of RUN is looked into: who makes a thousand in one input has the wrong file, and waits for the end of it.  */
int br__seeks_hints (const br__run *run);
/* Where the statement of RUN, which was refused, is a phrase of two readings or one that is not taken, its hint; else 0.  */
int br__phrase_refused (br__run *run);
/* A hint for the statement of RUN, which was refused, where it is one that people use for something else.  */
void br__phrase_hint (br__run *run);
/* T = the statement of RUN in plainer words; 0: there is no memory, or it is too long.  */
int br__phrase_loose (br_text *t, const br__run *run);
/* T = the statement of RUN with words that are one slip from a known one as that is; 0: there are none.  */
int br__phrase_spelled (br_text *t, const br__run *run);
/* Gives RUN's mistake the hint of what the line speaks of, whatever the order of its words; 0: none.  The rows
   behind the one without words are the LAST that are tried.  */
int br__phrase_about (br__run *run, int last);
/* The word begins a question or an order: it is no name, nor another word mistyped.  */
int br__word_asks (const char *word, size_t length);
/* The hint of a line that was refused and has none: help with the first of its words that has any.  */
void br__phrase_topic (br__run *run);

#endif
