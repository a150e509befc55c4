/* SPDX-License-Identifier: GPL-3.0-or-later
   edits.c - a sheet of sixty names that is redefined, forgotten, undone and redone at random, and
   after each edit compared with working everything out from scratch by another library.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "oracle.h"
#include "support.h"

#define NAMES 60
#define PLAIN_NAMES 45      /* the rest may divide by those, so that values stay of bounded length */
#define EDITS 1000
#define MOST_TERMS 4

typedef enum kind { NOTHING, SUM_OF, LEAST_OF, GREATEST_OF, QUOTIENT } kind;

/* FIRST / 8 plus, or the least of it and, or it divided by: FACTOR[i] / 4 * name USES[i].  */
typedef struct rule
{
  kind kind;
  int64_t first;
  size_t count;
  size_t uses[MOST_TERMS];
  int64_t factor[MOST_TERMS];
} rule;

typedef struct model
{
  rule rules[NAMES];
} model;

typedef struct values
{
  oracle value[NAMES];
  int state[NAMES];     /* 0 not looked at, 1 being worked out, 2 without a value, 3 with one */
  int loop, zero;
} values;

static void
values_start (values *v)
{
  memset (v, 0, sizeof *v);
  for (size_t i = 0; i < NAMES; i++)
    oracle_init (v->value[i]);
}

static void
values_end (values *v)
{
  for (size_t i = 0; i < NAMES; i++)
    oracle_clear (v->value[i]);
}

static void
combine (values *v, size_t name, kind k, oracle term)
{
  int order = oracle_cmp (term, v->value[name]);
  if (k == SUM_OF)
    oracle_add (v->value[name], v->value[name], term);
  else if (k == QUOTIENT && oracle_is_zero (term))
    v->zero = 1;
  else if (k == QUOTIENT)
    oracle_div (v->value[name], v->value[name], term);
  else if (k == LEAST_OF ? order < 0 : order > 0)
    oracle_set (v->value[name], term);
}

static void
work_out (values *v, const model *m, size_t name)
{
  const rule *r = &m->rules[name];
  oracle term;
  int known = r->kind != NOTHING;
  if (v->state[name] == 1)
    v->loop = 1;
  if (v->state[name])
    return;
  v->state[name] = 1;
  for (size_t i = 0; i < r->count; i++)
    {
      work_out (v, m, r->uses[i]);
      known &= v->state[r->uses[i]] == 3;
    }
  v->state[name] = known ? 3 : 2;
  if (!known)
    return;
  oracle_init (term);
  oracle_set_ratio (v->value[name], r->first, 8);
  for (size_t i = 0; i < r->count && !v->zero; i++)
    {
      oracle_set_ratio (term, r->factor[i], 4);
      oracle_mul (term, term, v->value[r->uses[i]]);
      combine (v, name, r->kind, term);
    }
  oracle_clear (term);
}

/* Everything from scratch.  */
static void
work_out_all (values *v, const model *m)
{
  values_start (v);
  for (size_t i = 0; i < NAMES; i++)
    work_out (v, m, i);
}

static void
random_rule (rule *r, size_t name)
{
  memset (r, 0, sizeof *r);
  r->kind = SUM_OF;
  r->first = check_between (-80, 80);
  r->count = check_below (3) ? 1 + check_below (MOST_TERMS) : 0;
  for (size_t i = 0; i < r->count; i++)
    {
      r->uses[i] = check_below (PLAIN_NAMES);
      r->factor[i] = check_between (-9, 9);
    }
  if (r->count == 1 && name >= PLAIN_NAMES)
    r->kind = QUOTIENT;
  else if (r->count && check_below (3) == 0)
    r->kind = check_below (2) ? LEAST_OF : GREATEST_OF;
}

static void
write_rule (char *line, size_t size, size_t name, const rule *r)
{
  const char *sign = r->kind == SUM_OF ? " + " : r->kind == QUOTIENT ? " / (" : ", ";
  const char *head = r->kind == LEAST_OF ? "min(" : r->kind == GREATEST_OF ? "max(" : "";
  const char *tail = r->kind == SUM_OF || !r->count ? "" : ")";
  size_t n = (size_t) snprintf (line, size, "n%zu = %s%" PRId64 "/8", name, head, r->first);
  for (size_t i = 0; i < r->count; i++)
    n += (size_t) snprintf (line + n, size - n, "%s%" PRId64 " * n%zu / 4", sign, r->factor[i],
                            r->uses[i]);
  snprintf (line + n, size - n, "%s", tail);
}

static void
text_is (const char *text, const values *v, size_t name)
{
  char *expected = v->state[name] == 3 ? oracle_text (v->value[name]) : NULL;
  assert_string_equal (text, expected ? expected : "null");
  if (expected)
    oracle_text_free (expected);
}

/* Every value, as `list` tells it, is that of the model.  */
static void
check_values (br_sheet *sheet, const model *m, const values *v)
{
  said s = SAID_ZERO;
  size_t defined = 0, waiting = 0, seen = 0;
  sheet_say (sheet, &s, "list");
  for (size_t i = 0; i < NAMES; i++)
    {
      defined += m->rules[i].kind != NOTHING;
      waiting += m->rules[i].kind != NOTHING && v->state[i] != 3;
    }
  for (size_t i = 0; i < s.count; i++)
    if (strcmp (said_get (&s, i, "kind"), "dimension") == 0)
      {
        size_t name = strtoul (said_get (&s, i, "name") + 1, NULL, 10);
        assert_true (m->rules[name].kind != NOTHING);
        text_is (said_get (&s, i, "exact"), v, name);
        seen++;
      }
  assert_int_equal (seen, defined);
  assert_int_equal (br_sheet_waiting (sheet), waiting);
  said_clear (&s);
}

static int
moved (const values *before, const values *after, size_t name)
{
  if (before->state[name] != 3 || after->state[name] != 3)
    return (before->state[name] == 3) != (after->state[name] == 3);
  return oracle_cmp (before->value[name], after->value[name]) != 0;
}

/* What is said to have changed is what did, with its values before and after.  */
static void
check_changed (const said *s, const values *before, const values *after, size_t first)
{
  size_t count = strtoul (said_get (s, 0, "changed.count"), NULL, 10), expected = 0;
  char path[40];
  for (size_t i = 0; i < NAMES; i++)
    expected += (size_t) moved (before, after, i);
  assert_int_equal (count, expected);
  for (size_t i = 0; i < count; i++)
    {
      snprintf (path, sizeof path, "changed.%zu.name", i);
      size_t name = strtoul (said_get (s, 0, path) + 1, NULL, 10);
      assert_true (moved (before, after, name));
      if (i > 0 && name == first)
        fail_msg ("n%zu was set, but is not told first", name);
      snprintf (path, sizeof path, "changed.%zu.before", i);
      text_is (said_get (s, 0, path), before, name);
      snprintf (path, sizeof path, "changed.%zu.after", i);
      text_is (said_get (s, 0, path), after, name);
    }
}

typedef struct history
{
  model states[EDITS * 2 + 1];
  size_t at, last;
} history;

/* An edit that may be refused; then nothing has changed.  */
static void
edit_name (br_sheet *sheet, history *h, values *now)
{
  said s = SAID_ZERO;
  char line[256];
  model next = h->states[h->at];
  size_t name = check_below (NAMES);
  int forget = check_below (4) == 0, good = 1;
  values then;
  if (forget)
    {
      snprintf (line, sizeof line, "forget n%zu", name);
      good = next.rules[name].kind != NOTHING;
      memset (&next.rules[name], 0, sizeof next.rules[name]);
    }
  else
    {
      random_rule (&next.rules[name], name);
      write_rule (line, sizeof line, name, &next.rules[name]);
    }
  work_out_all (&then, &next);
  good = good && !then.loop && !then.zero;
  br_status status = sheet_run (sheet, &s, line);
  assert_int_equal (status, good ? BR_OK : BR_DOMAIN);
  if (good)
    {
      check_changed (&s, now, &then, name);
      h->states[++h->at] = next;
      h->last = h->at;
      values_end (now);
      *now = then;
    }
  else
    {
      if (then.loop)
        assert_non_null (strstr (s.faults[0].error.message, "a loop: "));
      values_end (&then);
    }
  said_clear (&s);
}

static void
travel (br_sheet *sheet, history *h, values *now, int back)
{
  said s = SAID_ZERO;
  int can = back ? h->at > 0 : h->at < h->last;
  br_status status = sheet_run (sheet, &s, back ? "undo" : "redo");
  assert_int_equal (status, can ? BR_OK : BR_DOMAIN);
  if (can)
    {
      values then;
      h->at += back ? (size_t) -1 : 1;
      work_out_all (&then, &h->states[h->at]);
      check_changed (&s, now, &then, NAMES);
      values_end (now);
      *now = then;
    }
  said_clear (&s);
}

static void
edits (void **state)
{
  history *h = calloc (1, sizeof *h);
  br_sheet *sheet = sheet_with ("");
  values now;
  said s = SAID_ZERO;
  (void) state;
  work_out_all (&now, &h->states[0]);
  for (size_t i = 0; i < EDITS; i++)
    {
      uint64_t choice = check_below (10);
      if (choice < 7)
        edit_name (sheet, h, &now);
      else
        for (uint64_t times = 1 + check_below (6); times > 0; times--)
          travel (sheet, h, &now, choice < 9);
      check_values (sheet, &h->states[h->at], &now);
    }
  while (h->at > 0)
    travel (sheet, h, &now, 1);
  check_values (sheet, &h->states[0], &now);
  sheet_say (sheet, &s, "list\nmissing");
  assert_int_equal (s.count, 2);
  said_is (&s, 0, "kind", "remark");
  said_is (&s, 1, "kind", "remark");
  while (h->at < h->last)
    travel (sheet, h, &now, 0);
  check_values (sheet, &h->states[h->at], &now);
  values_end (&now);
  free (h);
  sheet_end (sheet, &s);
  oracle_end ();
}

/* One set of rules, defined in several orders, gives one sheet.  */
static void
orders (void **state)
{
  model m;
  values v;
  said s = SAID_ZERO;
  (void) state;
  memset (&m, 0, sizeof m);
  for (size_t i = 0; i < NAMES; i++)
    do
      random_rule (&m.rules[i], i);
    while (m.rules[i].kind == QUOTIENT);
  for (size_t i = 0; i < PLAIN_NAMES; i++)      /* uses only names before it: no loop */
    for (size_t k = 0; k < m.rules[i].count; k++)
      m.rules[i].uses[k] = i ? m.rules[i].uses[k] % i : PLAIN_NAMES;
  m.rules[0].count = 0;
  m.rules[0].kind = SUM_OF;
  work_out_all (&v, &m);
  assert_false (v.loop);
  for (long round = check_times (20); round > 0; round--)
    {
      size_t order[NAMES];
      br_sheet *sheet = sheet_with ("");
      for (size_t i = 0; i < NAMES; i++)
        {
          size_t k = check_below (i + 1);
          order[i] = order[k];
          order[k] = i;
        }
      for (size_t i = 0; i < NAMES; i++)
        {
          char line[256];
          write_rule (line, sizeof line, order[i], &m.rules[order[i]]);
          sheet_say (sheet, &s, "%s", line);
        }
      check_values (sheet, &m, &v);
      br_sheet_free (sheet);
    }
  values_end (&v);
  said_clear (&s);
  oracle_end ();
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (edits),
    CHECK_TEST (orders),
  };
  return CHECK_RUN (tests);
}
