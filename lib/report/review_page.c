/* SPDX-License-Identifier: LGPL-3.0-or-later
   review_page.c - writes a review on paper: one page for each student.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "measure/unbroken.h"
#include "report/review.h"

#define MARGIN (BR__INCH / 2)
#define LETTERS (BR__POINT * 10)
#define LINE (BR__POINT * 14)

/* A page that is being filled from above.  */
typedef struct side
{
  br__plot *p;
  int64_t y, bottom;            /* the next free line, and where the last one may stand */
} side;

/* TEXT broken at blanks that are in no size, behind an indent; nothing past the bottom.  */
static void
put_text (side *s, int64_t indent, int64_t size, int bold, const char *text)
{
  /* Bold letters are wider.  */
  int64_t room = (s->p->width - 2 * MARGIN - indent) * (bold ? 4 : 5) / 5;
  while (*text && s->y <= s->bottom)
    {
      br_text line = BR_TEXT_ZERO;
      size_t n = 0;
      while (text[n])
        {
          size_t next = n + strspn (text + n, " ");
          next += strcspn (text + next, " ");
          while (br__is_in_measure (text, next))
            next += 1 + strcspn (text + next + 1, " ");
          br__text_reset (&line);
          br__text_put (&line, text, next);
          if (n && br__text_width (br__text_string (&line), size) > room)
            break;
          n = next;
        }
      br__text_reset (&line);
      br__text_put (&line, text, n);
      br__plot_text (s->p, MARGIN + indent, s->y + size / 2, BR_ALIGN_LEFT, size, br__text_string (&line));
      if (s->p->count)
        {
          s->p->inks[s->p->count - 1].bold = bold;
          s->p->inks[s->p->count - 1].apart = s->p->inks[s->p->count - 1].prose = 1;
        }
      s->p->failed |= line.failed;
      br__text_clear (&line);
      s->y += size * 7 / 5;
      text += n + strspn (text + n, " ");
    }
}

static void
put_list (side *s, const br__design *d, br__finding f)
{
  br_text more = BR_TEXT_ZERO;
  size_t most = br__lines_each (d);
  if (!d->count[f])
    return;
  put_text (s, 0, LETTERS, 1, br__finding_heading (f));
  for (size_t i = 0; i < d->count[f] && i < most; i++)
    put_text (s, BR__INCH / 5, LETTERS, 0, br__text_string (&d->found[f][i]));
  if (d->count[f] > most)
    {
      br__text_printf (&more, "and %zu more", d->count[f] - most);
      put_text (s, BR__INCH / 5, LETTERS, 0, br__text_string (&more));
    }
  s->p->failed |= more.failed;
  br__text_clear (&more);
}

/* The drawing of D, whose inks become those of the page.  */
static void
put_drawing (side *s, const br__design *d)
{
  size_t first = s->p->count;
  for (size_t i = 0; i < d->plot.count; i++)
    {
      const br__ink *from = &d->plot.inks[i];
      br__ink *ink = br__plot_add (s->p, from->type, from->pen, from->x, from->y);
      *ink = *from;
      ink->text = NULL;
      ink->steps = NULL;
      ink->step_count = 0;
      br__ink_name (s->p, ink, from->text);
      if (from->steps)
        br__ink_path (s->p, ink, from->steps, from->step_count);
    }
  br__plot_shift (s->p, first, MARGIN, s->y);
  s->y += d->plot.height + LINE;
}

static void
fill (br__plot *p, const br__design *d, const br__paper *paper)
{
  br_text t = BR_TEXT_ZERO;
  side s = { p, MARGIN, 0 };
  p->width = BR__INCH * paper->width_num / paper->width_den;
  p->height = BR__INCH * paper->height_num / paper->height_den;
  /* The last line is the caution.  */
  s.bottom = p->height - MARGIN - 3 * LINE;
  put_text (&s, 0, BR__POINT * 16, 1, d->title.length ? br__text_string (&d->title) : d->path);
  br__text_printf (&t, "%s: %zu dimension%s, %zu shape%s. The drawing: %s.", d->path, d->dimensions, d->dimensions == 1 ? "" : "s", d->shapes,
                   d->shapes == 1 ? "" : "s", br__text_string (&d->drawing));
  put_text (&s, 0, LETTERS, 0, br__text_string (&t));
  s.y += LINE / 2;
  put_drawing (&s, d);
  put_list (&s, d, BR__FINDING_HOLDS);
  s.y += LINE / 2;
  put_text (&s, 0, BR__POINT * 13, 1, "What to do next");
  if (!br__to_mend (d))
    put_text (&s, 0, LETTERS, 0, "Nothing is left to mend. Show it to your teacher before you cut.");
  for (size_t k = 0; k < BR__TO_DO; k++)
    put_list (&s, d, br__to_do[k]);
  s.y = s.bottom = p->height - MARGIN - LINE;
  put_text (&s, 0, LETTERS, 0, "Your teacher's rules and local codes come first.");
  p->failed |= t.failed;
  br__text_clear (&t);
}

br_status
br__review_pdf (const char *path, const br__design *designs, size_t count, br__run *run)
{
  br__plot *pages = br__alloc_zero (count, sizeof *pages);
  const br__paper *paper = br__settings_paper (&run->sheet->settings);
  int failed = !pages;
  for (size_t i = 0; i < count && !failed; i++)
    {
      fill (&pages[i], &designs[i], paper);
      failed = pages[i].failed;
    }
  br_status status = failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : br__paint (run, pages, count, "pdf", "Designs looked over", "the side view of the design", path);
  for (size_t i = 0; i < count && pages; i++)
    br__plot_clear (&pages[i]);
  br__free (pages);
  return status;
}
