/* SPDX-License-Identifier: LGPL-3.0-or-later
   report_rows.c - answers of the sheet's statements as rows of tables: dimensions, checks, what is missing,
   cautions, shapes, settings.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "report/report.h"
#include "file/markup.h"

/* ---- Cells ---- */

void
br__report_cell (br_text *t, const char *text)
{
  br__text_puts (t, "<td>");
  br__put_spoken (t, text);
  br__text_puts (t, "</td>");
}

static void
put_row_head (br_text *t, const char *name)
{
  br__text_puts (t, "<tr><th scope=\"row\">");
  br__put_escaped (t, name);
  br__text_puts (t, "</th>");
}

static void
put_code_cell (br_text *t, const char *formula)
{
  br__text_puts (t, "<td><code>");
  br__put_escaped (t, formula);
  br__text_puts (t, "</code></td>");
}

static void
put_names (br_text *t, const br_list *names)
{
  for (size_t i = 0; names && i < br_list_size (names); i++)
    {
      br__text_puts (t, i ? ", " : "");
      br__put_escaped (t, br_list_text (names, i));
    }
}

/* ---- Dimensions ---- */

#define DIGITS 6                /* of a decimal for people */
#define MOST_PARTS 64           /* of a whole, in a fraction for people; halves of these as well */

/* 1 if such fractions are on rulers or used by people: 5/12 and 3/128, not 64/127.  */
static int
is_plain (long parts)
{
  return parts <= MOST_PARTS || (parts <= 1024 && (parts & (parts - 1)) == 0);
}

int
br__put_short_text (br_text *t, const char *shown)
{
  br_measure m = BR_MEASURE_ZERO;
  br_number one = BR_NUMBER_ZERO;
  br_text digits = BR_TEXT_ZERO;
  int cut = 0;
  const char *slash = strrchr (shown, '/');
  br_status status = BR_DOMAIN;         /* it stays as it is */
  /* A power of a unit that has no name stays in that unit.  */
  const char *power = strchr (shown, '^') ? strchr (shown, ' ') : NULL;
  if (!strchr (shown, '\'') && (slash ? !is_plain (strtol (slash + 1, NULL, 10)) : strchr (shown, '.') != NULL))
    status = br_measure_read (&m, shown, power ? (size_t) (power - shown) : strlen (shown), NULL, NULL);
  if (status == BR_OK && m.unit)
    {
      status = br_number_set_ratio (&one, m.unit->num, m.unit->den);
      if (status == BR_OK)
        status = br_number_div (&m.value, &m.value, &one);
    }
  if (status == BR_OK)
    {
      cut = !br__put_decimal (&digits, &m.value, DIGITS);
      /* A short decimal stays as it is.  */
      if (!cut && !slash)
        status = BR_DOMAIN;
      br__text_puts (&digits, m.unit && !power ? " " : "");
      br__text_puts (&digits, power ? power : m.unit ? m.unit->name : "");
    }
  br__text_puts (t, status == BR_OK ? br__text_string (&digits) : shown);
  t->failed |= status == BR_NO_MEMORY || digits.failed;
  br__text_clear (&digits);
  br_number_clear (&one);
  br_measure_clear (&m);
  return cut;
}

/* SHOWN in short, for eye and ear.  ABOUT: it is no more than about so.  */
static void
put_short (br_text *t, const char *shown, int about)
{
  br_text plain = BR_TEXT_ZERO;
  about |= br__put_short_text (&plain, shown);
  br__text_puts (t, about ? "\xE2\x89\x88 " : "");
  br__put_spoken (t, br__text_string (&plain));
  t->failed |= plain.failed;
  br__text_clear (&plain);
}

/* 1 if DECIMAL is exactly the fraction EXACT.  */
static int
same_number (br_text *t, const char *exact, const char *decimal)
{
  br_measure m = BR_MEASURE_ZERO;
  br_number x = BR_NUMBER_ZERO;
  br_status status = br_number_read (&x, exact, strlen (exact), NULL);
  if (status == BR_OK)
    status = br_measure_read (&m, decimal, strlen (decimal), NULL, NULL);
  int same = status == BR_OK && br_number_equal (&x, &m.value);
  t->failed |= status == BR_NO_MEMORY;
  br_measure_clear (&m);
  br_number_clear (&x);
  return same;
}

/* "over by 1/80 = 0.0125": how far the mark is off.  */
static void
put_error (br_text *t, const br_record *r)
{
  const char *error = br_record_text (r, "error"), *decimal = br_record_text (r, "error_decimal");
  if (strcmp (decimal, "0") == 0)
    br__text_puts (t, " exactly");
  else if (*decimal)
    {
      int under = *decimal == '-';
      br__text_puts (t, under ? ", under by " : ", over by ");
      int same = *error && same_number (t, error, decimal);
      if (*error)
        {
          br__put_fractions (t, error + under);
          br__text_puts (t, same ? " = " : " ");
        }
      put_short (t, decimal + under, !same);
      /* Beside a mark of another unit it has its own.  */
      const char *unit = br_record_text (r, "unit"), *mark = br_record_text (r, "mark");
      if (*unit && strcmp (unit, "in") != 0 && !strstr (mark, unit))
        {
          br__text_puts (t, " ");
          br__text_puts (t, unit);
        }
    }
  if (br_record_truth (r, "tie"))
    br__text_puts (t, ", a tie");
}

static void
dimension_row (br__report *p, const br_record *r)
{
  br_text *t = &p->sections[BR__REPORT_DIMENSIONS].body;
  const char *state = br_record_text (r, "state"), *tolerance = br_record_text (r, "tolerance");
  put_row_head (t, br_record_text (r, "name"));
  br__text_puts (t, "<td>");
  if (strcmp (state, "waiting") == 0)
    {
      br__text_puts (t, "waits for ");
      put_names (t, br_record_list (r, "waiting"));
    }
  else
    put_short (t, br_record_text (r, "shown"),
               !br_record_truth (r, "decimal_exact") && br_record_get (r, "exact").type != BR_FIELD_TEXT);
  if (*tolerance)
    {
      br__text_puts (t, " \xC2\xB1 ");
      br__put_fractions (t, tolerance);
    }
  br__text_puts (t, "</td><td>");
  if (*br_record_text (r, "mark"))
    {
      br__put_spoken (t, br_record_text (r, "mark"));
      put_error (t, r);
    }
  br__text_puts (t, "</td>");
  br__report_cell (t, br_record_text (r, "drawn"));
  if (strcmp (state, "given") == 0)
    br__text_puts (t, "<td>given</td>");
  else
    put_code_cell (t, br_record_text (r, "formula"));
  br__report_cell (t, br_record_text (r, "note"));
  br__text_puts (t, "</tr>\n");
}

static void
missing_row (br__report *p, const br_record *r)
{
  br_text *t = &p->sections[BR__REPORT_MISSING].body;
  put_row_head (t, br_record_text (r, "name"));
  br__text_puts (t, "<td>");
  put_names (t, br_record_list (r, "needed_by"));
  br__text_puts (t, "</td></tr>\n");
}

/* ---- Checks and cautions ---- */

static void
put_shown (br_text *t, const br_record *r, const char *key, const char *shown_key)
{
  const char *shown = br_record_text (r, shown_key);
  br__text_puts (t, "<td>");
  put_short (t, *shown ? shown : br_record_text (r, key), 0);
  br__text_puts (t, "</td>");
}

static void
check_row (br__report *p, const br_record *r)
{
  static const struct { const char *state, *mark, *words; } states[] =
  {
    { "pass", "\xE2\x9C\x93", "holds" }, { "fail", "\xE2\x9C\x97", "FAILS" },
    { "waiting", "\xE2\x80\xA6", "waits for a value" }, { "undecided", "?", "not decided" }
  };
  br_text *t = &p->sections[BR__REPORT_CHECKS].body;
  const char *state = br_record_text (r, "state"), *as_cut = br_record_text (r, "as_cut");
  size_t i = 0;
  while (i < 3 && strcmp (states[i].state, state) != 0)
    i++;
  p->checks[i]++;
  br__text_printf (t, "<tr class=\"%s\"><th scope=\"row\"><code>", states[i].state);
  br__put_escaped (t, br_record_text (r, "formula"));
  br__text_printf (t, "</code></th><td class=\"state\"><b><span aria-hidden=\"true\">%s </span>%s</b></td>", states[i].mark,
                   *as_cut ? as_cut : states[i].words);
  put_shown (t, r, "left", "left_shown");
  put_shown (t, r, "right", "right_shown");
  br__text_puts (t, "<td>");
  put_short (t, *br_record_text (r, "margin_shown") ? br_record_text (r, "margin_shown") : br_record_text (r, "margin"), 0);
  if (*br_record_text (r, "worst_margin_shown"))
    {
      br__text_puts (t, ", at the worst ");
      put_short (t, br_record_text (r, "worst_margin_shown"), 0);
      br__text_puts (t, *br_record_text (r, "worst_margin") ? "" : " or more");
    }
  br__text_puts (t, "</td>");
  br__report_cell (t, br_record_text (r, "note"));
  br__text_puts (t, "</tr>\n");
}

/* The same caution may go with many results; it stands here once.  */
static void
caution_item (br__report *p, const br_record *r)
{
  br__report_section *s = &p->sections[BR__REPORT_CAUTIONS];
  br_text item = BR_TEXT_ZERO;
  br__text_puts (&item, "<li>");
  br__put_fractions (&item, br_record_text (r, "message"));
  br__text_puts (&item, ".");
  if (*br_record_text (r, "source"))
    {
      br__text_puts (&item, " <small>Source: ");
      br__put_escaped (&item, br_record_text (r, "source"));
      if (*br_record_text (r, "scope"))
        {
          br__text_puts (&item, "; it is about ");
          br__put_escaped (&item, br_record_text (r, "scope"));
        }
      br__text_puts (&item, ".</small>");
    }
  br__text_puts (&item, "</li>\n");
  if (!strstr (br__text_string (&s->body), br__text_string (&item)))
    {
      br__text_puts (&s->body, br__text_string (&item));
      s->rows++;
    }
  s->body.failed |= item.failed;
  br__text_clear (&item);
}

/* ---- Shapes and settings ---- */

static void
shape_row (br__report *p, const br_record *r)
{
  br_text *t = &p->sections[BR__REPORT_DRAWING].body;
  const br_list *waiting = br_record_list (r, "waiting");
  put_row_head (t, br_record_text (r, "name"));
  br__report_cell (t, br_record_text (r, "shape"));
  br__report_cell (t, br_record_text (r, "size"));
  br__report_cell (t, br_record_text (r, "place"));
  br__text_puts (t, "<td>");
  if (waiting && br_list_size (waiting))
    {
      br__text_puts (t, "waits for ");
      put_names (t, waiting);
    }
  else
    br__text_puts (t, "tied down");
  br__text_puts (t, *br_record_text (r, "note") ? "; " : "");
  br__put_escaped (t, br_record_text (r, "note"));
  br__text_puts (t, "</td></tr>\n");
}

static void
setting_item (br__report *p, const br_record *r)
{
  if (!*br_record_text (r, "value"))
    return;
  br__text_printf (&p->settings, "<li>%s: <b>", br_record_text (r, "name"));
  br__put_spoken (&p->settings, br_record_text (r, "value"));
  br__text_puts (&p->settings, "</b></li>\n");
}

static void
remark (br__report *p, const br_record *r)
{
  br_text *t = &p->sections[p->at].remark;
  const char *message = br_record_text (r, "message");
  int small = *message >= 'a' && *message <= 'z';
  br__text_puts (t, "<p>");
  if (small)
    br__text_putc (t, (char) (*message - 'a' + 'A'));
  br__put_escaped (t, message + small);
  br__text_puts (t, ".</p>\n");
}

void
br__report_row (br__report *p, const br_record *r)
{
  static const struct { const char *kind; int section; void (*put) (br__report *p, const br_record *r); } rows[] =
  {
    { "dimension", BR__REPORT_DIMENSIONS, dimension_row }, { "missing", BR__REPORT_MISSING, missing_row },
    { "check", BR__REPORT_CHECKS, check_row }, { "shape", BR__REPORT_DRAWING, shape_row },
    { "parts", BR__REPORT_PARTS, br__report_parts }, { "cut_plan", BR__REPORT_PLAN, br__report_plan },
    /* These count for themselves, or not at all.  */
    { "caution", -1, caution_item }, { "setting", -1, setting_item }, { "remark", -1, remark }
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    if (strcmp (br_record_kind (r), rows[i].kind) == 0)
      {
        rows[i].put (p, r);
        if (rows[i].section >= 0)
          p->sections[rows[i].section].rows++;
      }
}
