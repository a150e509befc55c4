/* SPDX-License-Identifier: GPL-3.0-or-later
   html.h - reads a page of HTML as strictly as XML would and tells what is wrong with it: a test's own reader,
   which shares nothing with the writer.  The rules are those of the HTML standard (whatwg.org, "Writing HTML
   documents": void elements, quoted attributes, unique ids) and of WCAG 2.2 (1.3.1 headings and tables, 2.4.1 a way
   past the navigation, 3.1.1 the language); read from memory.  */
#ifndef BR_TESTS_DRAW_HTML_H
#define BR_TESTS_DRAW_HTML_H

#include "check.h"

#define HTML_DEPTH 40
#define HTML_IDS 200
#define HTML_NAME "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

typedef struct html_page
{
  const char *at;
  char open[HTML_DEPTH][24];
  size_t depth;
  char *ids[HTML_IDS], *targets[HTML_IDS];
  size_t id_count, target_count;
  int heading;                  /* the level of the last */
  size_t headings, tables, captions, row_heads, main, pictures;
  size_t cells, columns;        /* of the row at hand; of the table's head */
  int in_head;
  char wrong[200];              /* the first thing that is wrong, or "" */
} html_page;

CHECK_UNUSED static void html_wrong (html_page *p, const char *format, ...) __attribute__ ((format (printf, 2, 3)));

CHECK_UNUSED static void
html_wrong (html_page *p, const char *format, ...)
{
  va_list args;
  if (*p->wrong)
    return;
  va_start (args, format);
  vsnprintf (p->wrong, sizeof p->wrong, format, args);
  va_end (args);
}

static int
html_is (const char *name, const char *list)
{
  size_t n = strlen (name);
  for (const char *s = list; (s = strstr (s, name)) != NULL; s += n)
    if ((s == list || s[-1] == ' ') && (s[n] == ' ' || s[n] == 0))
      return 1;
  return 0;
}

/* An entity at S, or 0.  */
static size_t
html_entity (const char *s)
{
  static const char *const known[] = { "&amp;", "&lt;", "&gt;", "&quot;", "&#39;" };
  for (size_t i = 0; i < CHECK_COUNT (known); i++)
    if (strncmp (s, known[i], strlen (known[i])) == 0)
      return strlen (known[i]);
  return 0;
}

/* A text up to END; what is written as itself must be a character that may be.  */
static void
html_text (html_page *p, const char *end)
{
  while (p->at < end)
    {
      size_t n = *p->at == '&' ? html_entity (p->at) : 1;
      if (n == 0 || *p->at == '>' || ((unsigned char) *p->at < ' ' && *p->at != '\n') || *p->at == 127)
        html_wrong (p, "in a text: %.30s", p->at);
      p->at += n ? n : 1;
    }
}

static void
html_keep (html_page *p, char **list, size_t *count, const char *value, size_t length, int once)
{
  for (size_t i = 0; once && i < *count; i++)
    if (strlen (list[i]) == length && strncmp (list[i], value, length) == 0)
      html_wrong (p, "twice: %.*s", (int) length, value);
  if (*count < HTML_IDS)
    list[(*count)++] = strndup (value, length);
}

/* What an element needs of its attributes; FOUND has their names, parted by blanks.  */
static void
html_needs (html_page *p, const char *name, const char *found)
{
  static const char *const rows[][2] =
  {
    { "html", "lang" }, { "th", "scope" }, { "svg", "role" }, { "svg", "aria-label aria-labelledby" }, { "a", "href" },
    { "meta", "charset content" }, { "section", "aria-labelledby" }, { "nav", "aria-label" }
  };
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      char word[24];
      int has = 0;
      if (strcmp (rows[i][0], name) != 0)
        continue;
      for (const char *s = rows[i][1]; *s; s += strspn (s, " "))
        {
          size_t n = strcspn (s, " ");
          snprintf (word, sizeof word, "%.*s", (int) n, s);
          has |= html_is (word, found);
          s += n;
        }
      if (!has)
        html_wrong (p, "<%s> without %s", name, rows[i][1]);
    }
}

/* Attributes up to the end of the tag; 1 if it ends in />.  */
static int
html_attributes (html_page *p, const char *name)
{
  char found[400] = "";
  while (*p->at == ' ' || *p->at == '\n')
    {
      p->at += strspn (p->at, " \n");
      size_t n = strspn (p->at, HTML_NAME "-:");
      if (!n || p->at[n] != '=' || p->at[n + 1] != '"')
        {
          html_wrong (p, "in <%s>: %.20s", name, p->at);
          return 0;
        }
      const char *key = p->at, *value = p->at + n + 2, *end = strchr (value, '"');
      size_t length = (size_t) (end - value), used = strlen (found);
      snprintf (found + used, sizeof found - used, "%s%.*s", used ? " " : "", (int) n, key);
      if (key[0] == 'o' && key[1] == 'n')
        html_wrong (p, "a script: %.20s", key);
      if (n == 2 && strncmp (key, "id", 2) == 0)
        html_keep (p, p->ids, &p->id_count, value, length, 1);
      if (n == 4 && strncmp (key, "href", 4) == 0 && *value != '#')
        html_wrong (p, "leads out of the page: %.*s", (int) length, value);
      else if (n == 4 && strncmp (key, "href", 4) == 0)
        html_keep (p, p->targets, &p->target_count, value + 1, length - 1, 0);
      if (n == 15 && strncmp (key, "aria-labelledby", 15) == 0)
        for (const char *s = value; s < end; s += strcspn (s, " \"") + (s[strcspn (s, " \"")] == ' '))
          html_keep (p, p->targets, &p->target_count, s, strcspn (s, " \""), 0);
      p->at = value;
      html_text (p, end);
      p->at = end + 1;
    }
  html_needs (p, name, found);
  return *p->at == '/';
}

/* Headings go down a level at a time; a row has as many cells as its table has columns.  */
static void
html_open (html_page *p, const char *name)
{
  int level = name[0] == 'h' && name[1] >= '1' && name[1] <= '6' ? name[1] - '0' : 0;
  if (level && level > p->heading + 1)
    html_wrong (p, "<%s> under a heading of level %d", name, p->heading);
  p->heading = level ? level : p->heading;
  p->headings += level == 1;
  p->tables += strcmp (name, "table") == 0;
  p->captions += strcmp (name, "caption") == 0;
  p->main += strcmp (name, "main") == 0;
  p->pictures += strcmp (name, "svg") == 0;
  p->in_head = strcmp (name, "thead") == 0 || (p->in_head && strcmp (name, "tbody") != 0);
  if (strcmp (name, "tr") == 0)
    p->cells = 0;
  p->cells += strcmp (name, "td") == 0 || strcmp (name, "th") == 0;
  p->row_heads += strcmp (name, "th") == 0 && !p->in_head;
  if (html_is (name, "script iframe object embed img link"))
    html_wrong (p, "<%s>", name);
}

static void
html_close (html_page *p, const char *name)
{
  if (p->depth == 0 || strcmp (p->open[p->depth - 1], name) != 0)
    html_wrong (p, "</%s> ends <%s>", name, p->depth ? p->open[p->depth - 1] : "");
  else
    p->depth--;
  if (strcmp (name, "tr") != 0)
    return;
  if (p->in_head)
    p->columns = p->cells;
  else if (p->cells != p->columns)
    html_wrong (p, "%zu cells under %zu heads", p->cells, p->columns);
}

static void
html_tag (html_page *p)
{
  char name[24];
  int closing = p->at[1] == '/';
  p->at += 1 + closing;
  size_t n = strspn (p->at, HTML_NAME);
  snprintf (name, sizeof name, "%.*s", (int) n, p->at);
  p->at += n;
  if (!n)
    html_wrong (p, "a tag: %.20s", p->at);
  if (closing)
    html_close (p, name);
  else
    {
      int ended = html_attributes (p, name);
      html_open (p, name);
      int empty = html_is (name, "meta br hr input col");
      if (!ended && !empty && p->depth < HTML_DEPTH)
        snprintf (p->open[p->depth++], sizeof p->open[0], "%s", name);
      p->at += ended;
    }
  if (*p->at != '>')
    html_wrong (p, "the tag %s goes on: %.20s", name, p->at);
  p->at += *p->at == '>';
  if (!closing && strcmp (name, "style") == 0)
    {
      const char *end = strstr (p->at, "</style>");
      if (memchr (p->at, '<', (size_t) (end - p->at)) || strstr (p->at, "url(") || strstr (p->at, "@import"))
        html_wrong (p, "in the style");
      p->at = end;
    }
}

/* Reads TEXT; P->wrong is empty if all is well.  */
CHECK_UNUSED static void
html_read (html_page *p, const char *text)
{
  static const char type[] = "<!DOCTYPE html>\n";
  memset (p, 0, sizeof *p);
  p->at = text;
  if (strncmp (text, type, strlen (type)) != 0)
    html_wrong (p, "no doctype");
  else
    p->at += strlen (type);
  while (*p->at && !*p->wrong)
    if (*p->at == '<')
      html_tag (p);
    else
      {
        const char *end = strchr (p->at, '<');
        html_text (p, end ? end : p->at + strlen (p->at));
      }
  if (p->depth)
    html_wrong (p, "<%s> is not ended", p->open[p->depth - 1]);
  if (p->headings != 1 || p->main != 1)
    html_wrong (p, "%zu first headings, %zu main parts", p->headings, p->main);
  if (p->tables != p->captions)
    html_wrong (p, "%zu tables, %zu captions", p->tables, p->captions);
  for (size_t i = 0; i < p->target_count; i++)
    {
      size_t k = 0;
      while (k < p->id_count && strcmp (p->ids[k], p->targets[i]) != 0)
        k++;
      if (k == p->id_count)
        html_wrong (p, "nothing is called %s", p->targets[i]);
    }
}

CHECK_UNUSED static void
html_clear (html_page *p)
{
  for (size_t i = 0; i < p->id_count; i++)
    free (p->ids[i]);
  for (size_t i = 0; i < p->target_count; i++)
    free (p->targets[i]);
  p->id_count = p->target_count = 0;
}

#endif
