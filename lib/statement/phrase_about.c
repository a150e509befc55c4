/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase_about.c - a line that no row reads, but that has words of something and what its statement takes, in whatever order:
   `make sure that the front wheel never hits the deck` has `hits` and two shapes, and its hint is a check of their distance.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/hidden.h"
#include "statement/phrase.h"
#include "statement/phrase_words.h"
#include "statement/statements.h"
#include "wood/wood.h"

#define MOST 4

/* Each group of HAS, which blanks part, has a word of the line; a word that ends in - is the beginning of one.  In IS stand
   $G1 a shape, $A1 whatever has a name, $K1 a size, $P1 a part, $S1 a stock, $V1 a measure, $N1 a whole number, $M1 a
   mark of a ruler, $F1 a file, $R1 a scale as 1:4, $B1 lumber as 2x4, $Q1 a text in quotation marks, $T1 what papers are about,
   $C1 the place that it says, $E1 a side of a shape, $L1 the line that made a shape, a part or a stock, $X1 a name that is free.  The first row wins of
   which the line has all that it takes.  */
typedef struct about
{
  const char *has, *is;
} about;

#define TOUCH "hit|hits|hitting|touch-|rub|rubs|rubbing|collid-|bump-|overlap-|clash-|catch|catches|scrap-|foul"
#define MUST "minimum|min|leave|want|has|need|keep|must|should|sure|ensure|never|always|not|don't|doesn't|mustn't|can't|cannot|least|needs|without"
/* What stands behind a number and is not what it counts.  */
#define NO_THINGS "x|by|of|on|in|at|to|for|from|and|or|long|wide|high|tall|thick|deep|across|with|in."
#define PAPERS "worksheet-|papers|handout-|quiz-|test|tests|problems|questions|exercises"

#define CLASS "worksheets|papers|handouts|quizzes|tests|different|copies|versions|students|pupils|kids|class"

static const about rows[] = {
  { "how|what does|can|do this|i|it work|works|type|start|begin", "help" },
  { MUST " between|clear-|away|apart|from|gap|room|space|off|least", "check clear($G1, $G2) >= $V1" },
  { TOUCH " " MUST, "check clear($G1, $G2) > 0" },
  { TOUCH "|apart|distance|far|gap|close|near|clear|clears|clearance|daylight|space|room|between", "clear $G1, $G2" },
  { TOUCH, "rubs" },
  { "rotat-|turn-|flip- upside|around|over|round", "turn $G1 by 180 deg" },
  { "rotat-|turn-|tilt-|spin|lean|swivel clockwise", "turn $G1 by -$V1" },
  { "rotat-|turn-|tilt-|spin|lean|swivel|angle", "turn $G1 by $V1" },
  { "rotat-|turn-|tilt-|spin|lean|swivel", "turn $G1 by 10 deg" },
  { "flip-|mirror-|reflect-|symmetr-|opposite", "mirror $X1 of $G1 about 0" },
  { "copy|copies|duplicate|clone|repeat|another|again|more|row|spaced|apart|spacing|every", "row $X1 of $G1 qty $N1 by $V1" },
  { "copy|copies|duplicate|clone|repeat|another|again|more|row|spaced|apart|spacing", "row $X1 of $G1 qty $N1 by 6" },
  { "copy|copies|duplicate|clone|repeat|another|again|twice", "row $X1 of $G1 qty 2 by 6" },
  { "area|surface", "area($G1)" },
  { "perimeter|around|outside|edge", "perimeter($G1)" },
  { "template|pattern|full-size|full", "template $P1 into template.pdf" },
  { "template|pattern|full-size|full", "part $G1 as $G1; template $G1 into template.pdf" },
  { "saw|blade|bandsaw smallest|tightest|minimum|least", "help saws" },
  { "dimension|measure", "dimension $E1 to $E2" },
  { "label|write|text|note|say|caption|put|add|mark", "note $Q1 at left($G1), top($G1)" },
  { "fender|mudguard|guard", "arc $X1 = fender($G1, $V1, $V2) 180 deg" },
  { "fender|mudguard|guard", "arc $X1 = fender($G1, $V1, 1/4) 180 deg" },
  { "triangle|triangular", "outline $X1 = 0, 0 to $V1, 0 to 0, $V2" },
  { "ring|plate|washer|rim", "plate $X1 = $V1 hole $V2" },
  { "hole|holes", "circle $X1 = $V1 $C1 hole" },
  { "hole|holes centre|center|middle|centred|centered", "circle $X1 = $V1 same centre as $G1 hole" },
  { "rectangle|box|square|board|shelf on|top|above|onto", "box $X1 = $V1 x $V2 on $G1" },
  { "rectangle|box|square below|under|beneath|underneath", "box $X1 = $V1 x $V2 below $G1" },
  { "circle|disc|hole|knob centre|center|middle|centred|centered|concentric|in", "circle $X1 = $V1 same centre as $G1" },
  { "circle|disc|knob on|top|above|onto", "circle $X1 = $V1 on $G1" },
  { "rectangle|box|square", "box $X1 = $V1 x $V2 $C1" },
  { "rectangle|box|square", "box $X1 = $V1 x $V2 at 0, 0" },
  { "line", "line $X1 = $V1, $V2 to $V3, $V4" },
  { "circle|disc radius", "circle $X1 = diameter($V1) $C1" },
  { "circle|disc radius", "circle $X1 = diameter($V1) at 0, 0" },
  { "draw|make|add|put|create|circle|disc wheel|circle|disc", "circle $X1 = $V1 $C1" },
  { "draw|make|add|put|create wheel", "circle $X1 = $V1 at 0, 0" },
  { "circle|disc", "circle $X1 = $V1 at 0, 0" },
  { "where|position|place|coordinates|location|middle|centre|center", "centre_x($G1), centre_y($G1)" },
  { "move|shift|raise|lower|add|increase|extend|lengthen|shorten|slide|nudge|lift|change|make|resize|widen|stretch|shrink|quantity|qty|copies|them|more|extra|fewer|longer|shorter|wider|bigger|smaller|edit|place|put|set|should|no|replace", "$L1" },
  { "saw|blade|kerf|saws|bandsaw curve|bend|radius|corner", "saws $V2" },
  { "saw|blade|kerf|saws|bandsaw curve|bend|radius|corner", "saws $V1" },
  { "saw|blade|kerf|sawdust thick|wide|takes|take|is|width|loses|lose|wastes|removes|cut|cuts|kerf|of|lost", "kerf $V1" },
  { "between wheels", "help wheels" },
  { "between shapes|parts|pieces", "help clear" },
  { "plywood", "stock $X1 = plywood $V1 x $V2 x $V3" },
  { "ignore|no|without|forget kerf", "kerf 0" },
  { "wast-|leftover|leftovers|offcut-|scrap-|left wood|board|boards|material|plank|planks|stock|timber|lumber|how|much|over|is|what", "cuts" },
  { "clearance hole|holes", "help clearance_hole" },
  { "drill-|bit|bits|hole|holes", "drills $V1" },
  { "drill-|bit|bits|hole|holes", "drills $K1" },
  { "cut|need|want|make|saw x|by|wide|and", "part $X1 = $V1 x $V2 qty $N1 from $S1" },
  { "cut|need|want|make|saw|pieces x|by|wide|and", "part $X1 = $V1 x $V2 qty $N1" },
  { "board|boards|plank|planks|sheet|have|got|wood x|by|long|wide|thick", "stock $X1 = $V1 x $V2 x $V3 qty $N1" },
  { "board|boards|plank|planks|sheet|have|got|wood x|by|long|wide|thick", "stock $X1 = $V1 x $V2 x $V3" },
  { "grain", "help part" },
  { "screw|screws|bolt drill-|hole|holes|size", "help drills" },
  { "have|got|buy|stock|bought|some", "stock $X1 = $B1 x $V1 qty $N1" },
  { "have|got|buy|stock|bought|some", "stock $X1 = $B1 x $V1" },
  { "fit|fits|enough|lay|layout|get|where|show plank-|board-|stock|sheet-|wood|cut|cuts", "cuts" },
  { "what|which|how|list cut|cuts|cutting|saw", "cuts" },
  { "cost|costs|price|money|expensive|cheap", "help order" },
  { "metric|millimet-|mm units|unit|work|use|switch|change|measure|want|set|in|go", "units mm" },
  { "centimet-|cm units|unit|work|use|switch|change|measure|want|set|in|go", "units cm" },
  { "inch|inches|imperial units|unit|work|use|switch|change|measure|want|set|in|go", "units in" },
  { "ruler|tape|rule|measure", "ruler 1/$M1" },
  { "what|which|anything|did|have|is|not dimensioned|dimension|dimensions|measured|given|forgot-|missing|incomplete|unfinished|omitted|lacking|needed|lacks", "missing" },
  { "ok|okay|right|correct|fine|pass|passes|wrong|errors|problems|works|work|rules|checks is|are|does|do|will|any|did", "check" },
  { "decimals|sizes|numbers|column|everything|them", "round column 1 of $F1 to 1/$M1" },
  { "mark|grade|score|correct|check", "grade $F1 with $F2 into marks.csv" },
  { "mark|grade|score|correct|check", "grade $F1 with key.csv into marks.csv" },
  { PAPERS " " CLASS, "worksheet $T1 6 versions $N1 into papers.pdf" },
  { PAPERS, "worksheet $T1 $N1 into papers.pdf" },
  { PAPERS, "worksheet $T1 6 into papers.pdf" },
  { "report", "report into report.html" },
  { "safe|danger-|hazard-|safety|hurt|hurts|risk-|suitable|child|children|kid|kids|toddler-|baby|years|year|year-old|old year|years|year-old|old|age|aged|for", "child $N1 years" },
  { "toddler-|baby", "child 2 years" },
  { "safe|danger-|hazard-|safety|hurt|hurts|risk-|pinch-|caution-|warn-", "cautions" },
  { "worksheet-|handout-|quiz-", "worksheet reading 6 into papers.pdf" },
  { "pupil-|student-|class different|each|ask|wrote", "help worksheets" },
  { "key|answers|solutions", "key into key.pdf" },
  { "a4|a3 print-|draw-|paper|page|on|fit|fits", "draw scale $R1 into drawing.pdf paper a4" },
  { "letter print-|draw-|paper|page|on", "draw scale $R1 into drawing.pdf paper letter" },
  { "draw-|print-|picture|plan", "draw scale $R1 into drawing.pdf" },
  { "a4|a3 print-|draw-|paper|page|on|fit|fits", "draw into drawing.pdf paper a4" },
  { "letter print-|draw-|paper|page|on", "draw into drawing.pdf paper letter" },
  { "print-|pdf|picture drawing|picture|plan|pdf|paper|it|everything|page", "draw into drawing.pdf" },
  { "whole|everything|all|cart|design|drawing half|double|twice|bigger|smaller|big|scale|times", "help scale" },
  { "back|oops|revert|mistake|undo|wrong", "undo" },
  { "from depend-|come|comes|based|why|affect-|uses", "trace $K1" },
  { "dimension|dimensions|sizes|measurements drawing|picture", "draw" },
  { "unfinished|incomplete|undefined|unset", "missing" },
  { "move|shift|shapes", "shapes" },
  { "parts", "parts" },
  { "tolerances", "tolerance" },
  { "dimensions|sizes", "list" },
  { "cut|saw", "help cutting" },
  { "allow|tolerance", "tolerance $V1 on $K1" },
  { "within|give|off|plus|either|way|+ -|minus|take|way|or|by", "tolerance $V1 on $K1" },
  { NULL, NULL }
};

/* What papers are about, by words of a line.  */
static const about topics[] = {
  { "add-|fraction-|sum|sums|subtract-", "sums" }, { "read-|ruler-|measur-|mark-", "reading" }, { "scale|scales|scaling", "scale" },
  { "decimal-|round-", "decimals" }, { "multipl-|product-|times", "products" }, { "fender-|wheel-", "fender" },
  { "divid-|division", "dividing" }, { NULL, NULL }
};

/* The word I without the marks around it.  */
static void
plain_word (const char **s, size_t *length, const br__words *l, size_t i)
{
  *s = l->word[i].s;
  *length = br__word_bare (l, i, ".,?!;:\"'");
}

static int
word_is (const br__words *l, size_t i, const char *word, size_t n)
{
  const char *s;
  char text[24];
  size_t length;
  plain_word (&s, &length, l, i);
  const int begins = n > 1 && word[n - 1] == '-';
  n -= (size_t) begins;
  if (n >= sizeof text || length < n || (!begins && length != n))
    return 0;
  memcpy (text, word, n);
  text[n] = 0;
  return br__same_word (s, n, text);
}

/* The line has a word of each group of HAS.  */
static int
has_words (const br__words *l, const char *has)
{
  while (*has)
    {
      int found = 0;
      for (size_t n; *has && *has != ' '; has += n + (has[n] == '|'))
        {
          n = strcspn (has, " |");
          for (size_t i = 0; i < l->count && !found; i++)
            found = word_is (l, i, has, n) && !(br__word_thing (l, i) & BR__THING_SIZE);
        }
      if (!found)
        return 0;
      has += *has == ' ';
    }
  return 1;
}

/* The word I as a name of the kinds in WANTED, one of many as one: wheels for wheel.  */
static int
is_thing (const char **s, size_t *length, const br__words *l, size_t i, int wanted)
{
  br__words one = { .run = l->run, .count = 1 };
  plain_word (s, length, l, i);
  one.word[0].s = *s;
  one.word[0].length = *length;
  if (br__word_thing (&one, 0) & wanted)
    return 1;
  if (*length > 3 && ((*s)[*length - 1] == 's') && !br__word_thing (&one, 0))
    one.word[0].length = --*length;
  return (br__word_thing (&one, 0) & wanted) != 0;
}

/* 2x4 and 2x4s: the length of the name of lumber, or 0.  */
static size_t
lumber_at (const char *s, size_t length)
{
  size_t n = 0, x = 0;
  for (; n < length && ((s[n] >= '0' && s[n] <= '9') || (s[n] == 'x' && n && !x)); n++)
    x = s[n] == 'x' ? n : x;
  return x && x + 1 < n && (n == length || (n + 1 == length && s[n] == 's')) ? n : 0;
}

/* The words of a measure at I: 3, 3 in, 3 1/2 in; 0: none.  */
static size_t
measure_at (const br__words *l, size_t i)
{
  br__words unit = { .run = l->run, .count = 1 };
  const char *s;
  size_t length, n = 1;
  if (!br__word_begins_number (l, i))
    return 0;
  n += (size_t) (br__word_begins_number (l, i + 1) && memchr (l->word[i + 1].s, '/', l->word[i + 1].length) && !memchr (l->word[i].s, '/', l->word[i].length));
  if (i + n >= l->count)
    return n;
  plain_word (&s, &length, l, i + n);
  unit.word[0].s = s;
  unit.word[0].length = length;
  /* 3 in the deck */
  return n + (size_t) (br__word_is_unit (&unit, 0) && !(br__word_at (l, i + n, "in") && br__words_at (l, i + n + 1, "the|a")));
}

/* The first word that says how many: a whole number without a unit, before what is counted or at the end.  */
static size_t
count_at (const br__words *l)
{
  size_t i = 0;
  for (; i < l->count; i++)
    {
      int64_t n, d;
      br__words one = { .run = l->run, .count = 1 };
      plain_word (&one.word[0].s, &one.word[0].length, l, i);
      if (!br__word_begins_number (l, i) && br__cardinal (l, i) > 1)
        break;
      if (!br__word_ratio (&one, 0, &n, &d) || d != 1 || measure_at (l, i) != 1)
        continue;
      if (i + 1 == l->count)
        break;
      plain_word (&one.word[0].s, &one.word[0].length, l, i + 1);
      if (br__letter_at (one.word[0].s, one.word[0].length, 0) && !br__words_at (&one, 0, NO_THINGS))
        break;
    }
  return i;
}

/* Puts the side of the shape NAME, the word I, that is said before it: the left of the deck as left(deck).  */
static int
put_side (br_text *t, const br__words *l, size_t i, const char *name, size_t length)
{
  static const char *const sides[] = { "left", "right", "top", "bottom" };
  const char *side = "centre";
  for (size_t k = i > 3 ? i - 3 : 0; k < i; k++)
    for (size_t n = 0; n < sizeof sides / sizeof sides[0]; n++)
      if (br__word_at (l, k, sides[n]))
        side = sides[n];
  br__text_printf (t, "%s(%.*s)", side, (int) length, name);
  return 1;
}

/* Puts the place of the line, at 3, 4; 0: it says none.  */
static int
put_place (br_text *t, const br__words *l)
{
  for (size_t i = 0; i + 1 < l->count; i++)
    if (br__word_at (l, i, "at") && br__word_begins_number (l, i + 1))
      {
        const char *s = l->word[i + 1].s, *comma = memchr (s, ',', l->word[i + 1].length);
        const size_t n = comma ? (size_t) (comma - s) : l->word[i + 1].length;
        if (comma && n + 1 < l->word[i + 1].length)
          br__text_printf (t, "at %.*s, %.*s", (int) n, s, (int) (l->word[i + 1].length - n - 1), comma + 1);
        else if (br__word_begins_number (l, i + 2))
          br__text_printf (t, "at %.*s, %.*s", (int) n, s, (int) l->word[i + 2].length, l->word[i + 2].s);
        else
          return 0;
        return 1;
      }
  return 0;
}

/* Puts the text in quotation marks of the line; 0: there is none.  */
static int
put_quoted (br_text *t, const br__run *run)
{
  const char *open = memchr (run->text, '"', run->end);
  const char *close = open ? memchr (open + 1, '"', run->end - (size_t) (open + 1 - run->text)) : NULL;
  if (close)
    br__text_put (t, open, (size_t) (close + 1 - open));
  return close != NULL;
}

/* Puts the WHICH-th thing of KIND that the line names, the word COUNT says how many; 0: it has not so many.  */
static int
put_thing (br_text *t, const br__words *l, size_t count, char kind, int which)
{
  const int wanted = kind == 'G' ? BR__THING_SHAPE : kind == 'K' ? BR__THING_SIZE : kind == 'P' ? BR__THING_PART : kind == 'S' ? BR__THING_STOCK
                     : kind == 'L' ? BR__THING_SHAPE | BR__THING_PART | BR__THING_STOCK : kind == 'A' ? 15 : 0;
  const char *s, *before = NULL;
  size_t length, n, before_length = 0;
  for (size_t i = 0; i < l->count; i += n)
    {
      int found = 0, plural = 0;
      n = 1;
      if (kind == 'E' && is_thing (&s, &length, l, i, BR__THING_SHAPE))
        {
          if (--which == 0)
            return put_side (t, l, i, s, length);
        }
      else if (kind == 'B')
        plain_word (&s, &length, l, i), length = lumber_at (s, length), found = length > 0;
      else if (wanted)
        found = is_thing (&s, &length, l, i, wanted) && !(before && before_length == length && memcmp (before, s, length) == 0);
      else if (kind == 'M')
        found = br__ordinal (l, i, &plural) > 1 && plural;
      else if (kind == 'F')
        plain_word (&s, &length, l, i), found = br__ends_in (s, length, BR__TABLES, strlen (BR__TABLES));
      else if (kind == 'R')
        plain_word (&s, &length, l, i), found = br__word_begins_number (l, i) && memchr (s, ':', length) != NULL;
      else if (kind == 'N')
        plain_word (&s, &length, l, i), found = i == count;
      if (kind == 'N' && found && br__cardinal (l, i) > 1)
        {
          br__text_printf (t, "%lld", (long long) br__cardinal (l, i));
          return 1;
        }
      if (kind == 'V' && i != count && !lumber_at (l->word[i].s, l->word[i].length) && (n = measure_at (l, i)) > 0)
        {
          plain_word (&s, &length, l, i + n - 1);
          length = (size_t) (s + length - l->word[i].s);
          s = l->word[i].s;
          found = 1;
        }
      n += n == 0;
      if (found && --which == 0)
        {
          if (kind == 'M')
            br__text_printf (t, "%lld", (long long) br__ordinal (l, i, NULL));
          else
            br__text_put (t, s, length);
          return 1;
        }
      if (found && wanted)
        before = s, before_length = length;
    }
  return 0;
}

/* Puts the line that made the shape, the part or the stock called NAME.  */
static int
put_line (br_text *t, const br__words *l, const br_text *name)
{
  const br_sheet *sheet = l->run->sheet;
  const char *s = br__text_string (name);
  const br__shape *shape = br__shape_find (sheet, s, name->length);
  const br__wood *part = br__wood_find (sheet, 0, s, name->length);
  part = part ? part : br__wood_find (sheet, 1, s, name->length);
  const br__line *line = shape ? shape->line : part ? part->line : NULL;
  if (line)
    br__text_put (t, line->text, br__note_start (line->text, line->length));
  while (t->length && t->bytes[t->length - 1] == ' ')
    t->length--;
  return line != NULL;
}

/* Puts a name that is free: what the line calls the thing, what it counts, or another.  */
static void
put_name (br_text *t, const br__words *l)
{
  for (int counted = 0; counted < 2; counted++)
    for (size_t i = 0; i + 1 < l->count; i++)
      {
        br__words one = { .run = l->run, .count = 1 };
        int64_t n = 0, d = 0;
        plain_word (&one.word[0].s, &one.word[0].length, l, i + 1);
        const int before = counted ? (br__word_ratio (l, i, &n, &d) && d == 1 && n > 1) || br__cardinal (l, i) > 1 : br__words_at (l, i, "called|named");
        if (before && br__word_is_new (&one, 0) && !br__word_thing (&one, 0) && !br__words_at (&one, 0, NO_THINGS "|more|times|pieces|copies|big"))
          {
            br__text_put (t, one.word[0].s, one.word[0].length);
            return;
          }
      }
  br__text_puts (t, "new_one");
}

/* Puts what the papers of the line are about; 0: it does not say.  */
static int
put_topic (br_text *t, const br__words *l)
{
  const about *a = topics;
  while (a->has && !has_words (l, a->has))
    a++;
  br__text_puts (t, a->has ? a->is : "");
  return a->has != NULL;
}

/* T = the hint IS; 0 where the line has not all that it takes.  */
static int
put_hint (br_text *t, const br__words *l, const char *is)
{
  const size_t count = strstr (is, "$N") ? count_at (l) : l->count;
  for (; *is; is++)
    {
      if (*is != '$')
        {
          br__text_putc (t, *is);
          continue;
        }
      const char kind = is[1];
      const int which = is[2] - '0';
      br_text name = BR_TEXT_ZERO;
      int found = 1;
      if (kind == 'X')
        put_name (t, l);
      else if (kind == 'C')
        found = put_place (t, l);
      else if (kind == 'T')
        found = put_topic (t, l);
      else if (kind == 'Q')
        found = put_quoted (t, l->run);
      else if (kind == 'L')
        found = put_thing (&name, l, count, kind, which) && put_line (t, l, &name);
      else
        found = put_thing (t, l, count, kind, which);
      t->failed |= name.failed;
      br__text_clear (&name);
      if (!found)
        return 0;
      is += 2;
    }
  return !t->failed;
}

/* The measures of the line.  */
static size_t
measures_of (const br__words *l)
{
  size_t count = 0, n;
  for (size_t i = 0; i < l->count; i += n ? n : 1)
    count += (n = measure_at (l, i)) > 0;
  return count;
}

/* A hint that takes some of the measures and not the others was not meant, nor were units and checks where something is measured
   or a plan where there is no wood.  */
static int
takes_all (const br__words *l, const char *is)
{
  const size_t there = measures_of (l);
  size_t taken = 0;
  if (strncmp (is, "units", 5) == 0 || strcmp (is, "check") == 0)
    return there == 0;
  if (strcmp (is, "cuts") == 0)
    return l->run->sheet->wood != NULL;
  for (const char *s = strchr (is, '$'); s; s = strchr (s + 1, '$'))
    {
      /* The second alone is taken with the first in view.  */
      const size_t which = s[1] == 'C' ? taken + 2 : s[1] == 'V' && taken < (size_t) (s[2] - '0') ? (size_t) (s[2] - '0') : taken + 1;
      taken = strchr ("VNMRBC", s[1]) ? which : taken;
    }
  return taken == 0 || taken >= there;
}

/* A question about numbers makes no shape, and its answer has something of it: how many turns does a 3 inch wheel make in
   10 ft.  */
static int
answers (const br__words *l, const char *is)
{
  int numbers = 0;
  for (size_t i = 0; i < l->count; i++)
    numbers |= br__word_begins_number (l, i);
  return !numbers || !br__words_at (l, 0, "how|what|what's|which|is|are|does|find|if")
         || (strchr (is, '$') && strncmp (is, "circle", 6) != 0 && strncmp (is, "box", 3) != 0 && strncmp (is, "line", 4) != 0);
}

int
br__phrase_about (br__run *run)
{
  br__words l = { .run = run };
  br_text t = BR_TEXT_ZERO;
  int found = 0;
  br__words_cut (&l);
  /* What is wrong in a file is not what the line lacks.  */
  if (l.count < 2 || l.count == BR__MOST_WORDS || memchr (run->text, '=', run->end)
      || (run->touched_count && strncmp (run->error->message, "the line ends", 13) != 0))
    return 0;
  br__phrase_names (&l);
  br__phrase_numbers (&l);
  for (const about *a = rows; a->has && !found; a++)
    {
      br__text_reset (&t);
      found = has_words (&l, a->has) && answers (&l, a->is) && takes_all (&l, a->is) && put_hint (&t, &l, a->is) && t.length < 120;
    }
  /* What was typed already is no help.  */
  found &= t.length != run->end || memcmp (br__text_string (&t), run->text, t.length) != 0;
  if (found)
    br__hint (run->error, "write `%s`", br__text_string (&t));
  br__text_clear (&t);
  return found;
}
