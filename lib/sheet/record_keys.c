/* SPDX-License-Identifier: LGPL-3.0-or-later
   record_keys.c - the keys of each kind of record, in order; docs/benchrule.schema.json describes their values.  A new
   record has all of them with the value null, so that a key is present even if a statement does not set it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "sheet/record_keys.h"

#define VALUE "exact", "decimal", "decimal_exact", "unit", "shown"
#define MARK "mark", "error", "error_decimal", "tie"
#define NUMBER(s) s, s "_decimal"
#define SIZE(s) s, s "_shown", s "_mark", s "_error", s "_from"
#define SIZES SIZE ("length"), SIZE ("width"), SIZE ("thickness")
#define TOTAL VALUE, "value", "mark", "error", "error_decimal", "worst", "worst_error", "worst_error_decimal"
#define MADE "file", "versions", "problems", "papers", "seed"
#define MOVED "name", "before", "after", "before_shown", "after_shown"
#define KEYS(kind, ...) { kind, (const char *const []) { __VA_ARGS__, NULL } }

/* "set.changed": the rows of the list `changed` in a record `set`.  In the order of strcmp, as they are searched by halves.  */
static const br__record_keys table[] =
{
  KEYS ("answer", "waiting", "exact", "shown"),
  KEYS ("caution", "message", "source", "scope", "parts", "brief", "concerns"),
  KEYS ("check", "formula", "state", "left", "left_shown", "right", "right_shown", "margin", "margin_shown", "note",
        "worst_margin", "worst_decimal", "worst_margin_shown", "as_cut"),
  KEYS ("clear", "shapes", "overlap", "along", VALUE, MARK),
  KEYS ("column", "name", "rows", "bad", "marks", "cells_by", "decimal_commas", "cells_in", "cells_with_more", "into", "of", "size", "ruler", "unit", "total_exact",
        "total_value", "total_mark", "error", "error_decimal", "worst_error", "worst_error_decimal", "worst_line", "worst_mark",
        "off_nearest", "off_nearest_rows", "hint"),
  KEYS ("column.off_nearest_rows", "line", "mark", "nearest"),
  KEYS ("column_row", "line", "cells"),
  KEYS ("cut_plan", "sticks", "least", "proven", "unplaced", "stocks"),
  KEYS ("cut_plan.sticks", "stock", "number", "pieces", "offcut", "offcut_mark", "kerfs", "marks", "pencil",
        "pencil_error", "marks_across", "pencil_across", "pencil_across_error", "same", "picture"),
  KEYS ("cut_plan.sticks.pieces", "part", "length", "mark", "width", "width_mark", "x", "y", "turned"),
  KEYS ("cut_plan.stocks", "stock", "used", "needed", "least", "proven", "stopped", "length", "width", "kerf"),
  KEYS ("cut_plan.unplaced", "part", "quantity", "why"),
  KEYS ("dimension", "name", "state", VALUE, MARK, "waiting", "formula", "tolerance", "note", "drawn"),
  KEYS ("dimension_line", "between", "way", VALUE, "off", "text", "waiting"),
  KEYS ("division", "piece", "piece_shown", MARK, "pieces", "of", "kerf", "width", "ends", "marks", "rows", "note"),
  KEYS ("division.rows", VALUE, MARK),
  KEYS ("drawing", "view", "file", "form", "scale", "scale_words", "square", "paper", "lies", "pages", "shapes",
        "loose", "left_out", "width", "width_shown", "height", "height_shown", "projection",
        "without_depth", "waiting", "parts"),
  KEYS ("drawing.parts", "number", "part", "quantity", "shown", "stock", "as", "drawn"),
  KEYS ("drawing.waiting", "name", "needs"),
  KEYS ("drills", "expression", VALUE, "rows", "source"),
  KEYS ("drills.rows", "series", "below", "below_size", "below_play", "above", "above_size", "above_play"),
  KEYS ("exact", "expression", VALUE),
  KEYS ("fit", "scale", "scale_words", "drawn_width", "drawn_width_shown", "full_over_width", "full_over_width_shown",
        "drawn_height", "drawn_height_shown", "full_over_height", "full_over_height_shown", "fits", "paper", "lies",
        "margin", "source", "paper_source", "squares_width", "squares_width_shown", "squares_height",
        "squares_height_shown"),
  KEYS ("forgotten", "name", "changed"),
  KEYS ("forgotten.changed", MOVED),
  KEYS ("found", "name", VALUE, MARK, "solution", "solutions", "linear", "from", "to", "keeping", "message"),
  KEYS ("found.keeping", "side", "value", "mark"),
  KEYS ("grade", "student", "version", "verdicts", "marks", "of", "note"),
  KEYS ("grade_summary", "file", "papers", "mean", "spread", "lowest", "highest", "problems", "mistakes"),
  KEYS ("grade_summary.mistakes", "mistake", "count", "in_problems"),
  KEYS ("grade_summary.problems", "problem", "right", "form", "known_mistake", "other_wrong", "unreadable",
        "no_answer"),
  KEYS ("help", "lines"),
  KEYS ("history", "student", "topic", "file", "problems", "right", "mistakes"),
  KEYS ("key", MADE),
  KEYS ("known", "names"),
  KEYS ("marks", "expression", VALUE, "rows"),
  KEYS ("marks.rows", "ruler", "value", MARK),
  KEYS ("missing", "name", "needed_by"),
  KEYS ("named", "of", "names", "cells_by", "decimal_commas"),
  KEYS ("need", "name", "state", "shown", "low", "high"),
  KEYS ("no_dimension", "shape"),
  KEYS ("note", "text", "x", "y", "to", "waiting"),
  KEYS ("opened", "file", "title", "dimensions", "waiting", "failing", "pass", "fail", "checks_waiting", "undecided",
        "cautions"),
  KEYS ("opened.failing", "formula", "note"),
  KEYS ("order", "class", "spare", "stocks", "parts"),
  KEYS ("order.parts", "part", "quantity", "shown", "problem"),
  KEYS ("order.stocks", "stock", "quantity", "least", "shown"),
  KEYS ("part", "name", "quantity", "shown", SIZES, "problem", "note", "stock"),
  KEYS ("parts", "rows"),
  KEYS ("parts.rows", "part", "quantity", "shown", SIZES, "problem", "note", "stock"),
  KEYS ("picture", "lines"),
  KEYS ("practice_answer", "answer", "right", "verdict", "shows"),
  KEYS ("practice_end", "problems", "right"),
  KEYS ("practice_hint", "step", "more"),
  KEYS ("practice_problem", "number", "topic", "text", "picture"),
  KEYS ("practice_progress", "topic", "problem", "asked", "right", "box", "mistakes"),
  KEYS ("problem", "text"),
  KEYS ("redone", "changed"),
  KEYS ("redone.changed", MOVED),
  KEYS ("remark", "message"),
  KEYS ("renamed", "name", "to", "lines"),
  KEYS ("report", "file", "sections", "dimensions", "missing", "pass", "fail", "waiting", "undecided", "cautions"),
  KEYS ("review", "file", "title", "dimensions", "shapes", "mistakes", "missing", "waiting", "checks_failed",
        "rules_failed", "off_ruler", "unplaced", "cautions", "not_run", "holds", "drawing"),
  KEYS ("rounding", "expression", VALUE, "value", MARK, "ruler", "below", "above", "nearest", "note", "totals"),
  KEYS ("rounding.totals", TOTAL),
  KEYS ("rubs", "first", "second", "state"),
  KEYS ("saved", "file"),
  KEYS ("saws", "expression", VALUE, "rows", "source"),
  KEYS ("saws.rows", "blade", "smallest_radius", "follows"),
  KEYS ("set", "name", "state", VALUE, MARK, "waiting", "formula", "tolerance", "note", "message", "changed"),
  KEYS ("set.changed", MOVED),
  KEYS ("setting", "name", "value", "changed"),
  KEYS ("setting.changed", MOVED),
  KEYS ("shape", "name", "shape", "state", "waiting", "size", "place", "anchor", NUMBER ("x"), NUMBER ("y"),
        NUMBER ("diameter"), NUMBER ("width"), NUMBER ("height"), NUMBER ("inner_radius"), NUMBER ("outer_radius"),
        NUMBER ("from"), NUMBER ("turn"), NUMBER ("run"), NUMBER ("rise"), "corners", NUMBER ("area"), NUMBER ("perimeter"),
        "deep", "depth_from", "depth_to", "both_sides", "behind", "copy_of", "places", "step_x", "step_y", "about",
        "layer", "of", "hole", "note"),
  KEYS ("stack", "expression", "unit", "nominal", "nominal_decimal", "nominal_shown", "low", "low_decimal",
        "low_shown", "high", "high_decimal", "high_shown", "rss", "rss_decimal", "rss_shown", "linear",
        "exact_bounds", "contributors", "message"),
  KEYS ("stack.contributors", "name", "sensitivity", "sensitivity_decimal", "tolerance", "tolerance_decimal",
        "tolerance_shown", "adds", "adds_decimal", "adds_shown", "share", "share_of_squares"),
  KEYS ("steps", "expression", "rules", "steps", "answer"),
  KEYS ("stock", "name", "quantity", "shown", SIZES, "problem", "note", "nominal", "source"),
  KEYS ("template", "part", "file", "form", "pages", "holes", "drills", "left_out", "problems"),
  KEYS ("tidy", "applied", "failing", "dimensions", "moves", "kept"),
  KEYS ("tidy.dimensions", "name", "before", "after"),
  KEYS ("tidy.moves", "name", "before", "after"),
  KEYS ("tolerance", "name", "exact", "shown", "typed", "known", "own"),
  KEYS ("total", TOTAL),
  KEYS ("trace", "name", "formula", "shown", "uses", "used_by"),
  KEYS ("undone", "changed"),
  KEYS ("undone.changed", MOVED),
  KEYS ("value", "expression", VALUE, MARK, "note"),
  KEYS ("view", "view", "shapes", "dots", "plain", "columns", "loose", "hidden", "bar", "bar_columns", "not_to_scale", "parts"),
  KEYS ("view.parts", "number", "part", "quantity", "shown", "stock", "as", "drawn"),
  KEYS ("view.shapes", "mark", "name", "shape", "size", "waiting"),
  KEYS ("words", "file", "sentences", "english", "explained"),
  KEYS ("worksheet", MADE)
};

const br__record_keys *
br__record_keys_of (const char *kind, const char *inner)
{
  size_t length = strlen (kind), low = 0, high = sizeof table / sizeof table[0];
  while (low < high)
    {
      size_t middle = (low + high) / 2;
      const char *row = table[middle].kind;
      int order = strncmp (row, kind, length);
      if (order == 0)
        order = !inner ? row[length] != '\0' : row[length] != '.' ? row[length] - '.' : strcmp (row + length + 1, inner);
      if (order == 0)
        return &table[middle];
      if (order < 0)
        low = middle + 1;
      else
        high = middle;
    }
  return NULL;
}

const br__record_keys *
br__record_keys_at (size_t index)
{
  return index < sizeof table / sizeof table[0] ? &table[index] : NULL;
}
