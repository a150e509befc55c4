/* SPDX-License-Identifier: LGPL-3.0-or-later
   room.c - checks before cairo and pango are called: enough memory, a thread, a font.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <pthread.h>
#include <sys/mman.h>

#include "page/page.h"

/* Address space that pango, fontconfig and their two threads take when the first page is begun (measured: 41 to 60 MiB
   with 8 MiB for the stack of a thread), and what one page more may take.  */
#define FIRST_BYTES ((size_t) 64 << 20)
#define PAGE_BYTES ((size_t) 16 << 20)

static void *
do_nothing (void *user)
{
  return user;
}

static int
has_thread (void)
{
  pthread_t thread;
  return pthread_create (&thread, NULL, do_nothing, NULL) == 0 && pthread_join (thread, NULL) == 0;
}

/* Space that nothing is written to takes no memory, but counts in the limit that a program is given.  */
static int
has_space (size_t bytes)
{
  void *block = mmap (NULL, bytes, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  return block != MAP_FAILED && munmap (block, bytes) == 0;
}

/* Each thread has a map of fonts, as pango has it.  pango's own is of the kind that a variable of the environment
   names, which may be none.  */
static GPrivate fonts = G_PRIVATE_INIT (g_object_unref);

static PangoContext *
new_context (void)
{
  if (!g_private_get (&fonts))
    g_private_set (&fonts, pango_cairo_font_map_new_for_font_type (CAIRO_FONT_TYPE_FT));
  return pango_font_map_create_context (g_private_get (&fonts));
}

static int
has_font (void)
{
  PangoContext *context = new_context ();
  PangoFontDescription *any = pango_font_description_from_string ("Sans 10");
  PangoFont *font = pango_context_load_font (context, any);
  pango_font_description_free (any);
  g_object_unref (context);
  if (font)
    g_object_unref (font);
  return font != NULL;
}

br_status
br__page_room (size_t ink, br_error *error)
{
  int first = g_private_get (&fonts) == NULL;
  if (!has_space ((first ? FIRST_BYTES : PAGE_BYTES) + ink) || (first && !has_thread ()))
    return br__page_fail (error, BR_NO_MEMORY, first && !ink ? "out of memory: drawing pages takes 64 MiB of it"
                          : "out of memory for this page");
  return has_font () ? BR_OK : br__page_fail (error, BR_IO, "pages cannot be drawn: no font is installed");
}

int
br__page_room_again (void)
{
  return has_space (PAGE_BYTES);
}

/* Widths that do not depend on the grid of a screen, so that all forms break lines alike.  */
PangoContext *
br__page_context (cairo_t *cairo)
{
  PangoContext *context = new_context ();
  pango_cairo_update_context (cairo, context);
  cairo_font_options_t *options = cairo_font_options_create ();
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  pango_cairo_context_set_font_options (context, options);
  pango_context_set_round_glyph_positions (context, FALSE);
  cairo_font_options_destroy (options);
  return context;
}
