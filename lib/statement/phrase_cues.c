/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase_cues.c - words that say what a line is about, and the statement that is meant: phrase_about.c makes hints of them.

   Each group of HAS, which blanks part, has a word of the line: a|b is one of two, and a- what begins so.  In IS stand, of what the
   line has, $G1 a shape, $K1 a size, $P1 a part, $S1 a stock, $V1 a measure, $N1 how many, $M1 a mark of a ruler, $F1 a file,
   $R1 a scale as 1:4, $B1 lumber as 2x4, $D1 a paper, $Q1 a text in quotation marks, $T1 what papers are about, $C1 the place that
   it says, $E1 a side of a shape, $L1 the line that made a shape, a part or a stock, $X1 a name that is free; and of its values,
   measures and sizes alike, $1, $2 and so on, where there are just as many, $@ two or more of them as a list, $* one or more, $+
   their sum, $% the unit that the line ends in, $- whatever others there are.  [a|b] is a where the line has it all, else b.  ~ parts
   two readings.

   ROLES says which value is $1, $2 and so on: `#` how many there are of something, `/` one part of an inch, +WORDS the one right
   before one of them, =WORDS the one that they are said of, rather than one of the first group of HAS, WORDS the nearest to one of
   them; the others follow in their order.

   The first row wins of which the line has all that it takes, whose hint takes all that the line measures, and works.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "statement/phrase_words.h"

#define TURNS "turn|turns|turned|revolution|revolutions|revs|rotation|rotations|rotate|rotates|spin|spins|roll|rolls"
#define ROUND "circumference|rim|around"
#define THINGS "holes|hole|slats|slat|rungs|rung|pegs|peg|screws|nails|posts|balusters|spindles|shelves|marks|dowels|bars|hooks"
#define APART "apart|spaced|spacing|spaces|space|spread|evenly|equally|gap|gaps|between"
#define PIECES "pieces|piece|parts|part|lengths|sections|bits|strips|blocks|equal|cut|split|divide|share|slice|saw"
#define ANGLE "angle|slope|slopes|pitch|gradient|incline|ramp|steep|grade|tilt|degrees|degree"
#define MORE "bigger|larger|longer|greater|wider|more|thicker|taller|higher"
#define LESS "smaller|shorter|less|thinner|narrower|lower"
#define NO "not|no|never|cannot|can't|cant|mustn't|shouldn't|won't"
#define TOUCH "hit|hits|hitting|touch-|rub|rubs|rubbing|collid-|bump-|overlap-|clash-|catch|catches|scrap-|foul"
#define MUST "minimum|min|leave|want|has|need|keep|must|should|sure|ensure|never|always|not|don't|doesn't|mustn't|can't|cannot|least|needs|without"
#define PAPERS "worksheet-|papers|handout-|quiz-|test|tests|problems|questions|exercises"
#define CLASS "worksheets|papers|handouts|quizzes|tests|different|copies|versions|students|pupils|kids|class"

const br__cue br__cues[] = {
  { "how|what does|can|do this|i|it work|works|type|start|begin", NULL, "help" },
  { MUST " between|clear-|away|apart|from|gap|room|space|off|least", NULL, "check clear($G1, $G2) >= $V1" },
  { TOUCH " " MUST, NULL, "check clear($G1, $G2) > 0" },
  { TOUCH "|apart|distance|far|gap|close|near|clear|clears|clearance|daylight|space|room|between", NULL, "clear $G1, $G2" },
  { TOUCH, NULL, "rubs" },
  { "rotat-|turn-|flip- upside|around|over|round", NULL, "turn $G1 by 180 deg" },
  { "rotat-|turn-|tilt-|spin|lean|swivel clockwise", NULL, "turn $G1 by -$V1 deg" },
  { "rotat-|turn-|tilt-|spin|lean|swivel", NULL, "turn $G1 by [$V1|10] deg" },
  { "flip-|mirror-|reflect-|symmetr-|opposite", NULL, "mirror $X1 of $G1 about 0" },
  { "copy|copies|duplicate|clone|repeat|another|again|more|row|spaced|apart|spacing|every|twice|second|two", NULL, "row $X1 of $G1 qty [$N1|2] by [$V1|6]" },
  { "area|surface", NULL, "area($G1)" },
  { "perimeter|around|outside|edge", NULL, "perimeter($G1)" },
  { "template|pattern|full-size|full", NULL, "template $P1 into template.pdf" },
  { "template|pattern|full-size|full", NULL, "part $G1 as $G1; template $G1 into template.pdf" },
  { "saw|blade|bandsaw smallest|tightest|minimum|least", NULL, "help saws" },
  { "dimension|measure", NULL, "dimension $E1 to $E2" },
  { "label|write|text|note|say|caption|put|add|mark", NULL, "note $Q1 at left($G1), top($G1)" },
  { "fender|mudguard|guard", NULL, "arc $X1 = fender($G1, $V1, [$V2|1/4]) 180 deg" },
  { "triangle|triangular", NULL, "outline $X1 = 0, 0 to $V1, 0 to 0, $V2" },
  { "ring|plate|washer|rim", NULL, "plate $X1 = $V1 hole $V2" },
  { "hole|holes", NULL, "circle $X1 = $V1 $C1 hole" },
  { "hole|holes centre|center|middle|centred|centered", NULL, "circle $X1 = $V1 same centre as $G1 hole" },
  { "rectangle|box|square|board|shelf on|top|above|onto", NULL, "box $X1 = $V1 x $V2 on $G1" },
  { "rectangle|box|square below|under|beneath|underneath", NULL, "box $X1 = $V1 x $V2 below $G1" },
  { "circle|disc|hole|knob centre|center|middle|centred|centered|concentric|in", NULL, "circle $X1 = $V1 same centre as $G1" },
  { "circle|disc|knob on|top|above|onto", NULL, "circle $X1 = $V1 on $G1" },
  { "rectangle|box|square", NULL, "box $X1 = $V1 x $V2 [$C1|at 0, 0]" },
  { "line", NULL, "line $X1 = $V1, $V2 to $V3, $V4" },
  { "circle|disc radius", NULL, "circle $X1 = diameter($V1) [$C1|at 0, 0]" },
  { "draw|make|add|put|create wheel", NULL, "circle $X1 = $V1 [$C1|at 0, 0]" },
  { "circle|disc", NULL, "circle $X1 = $V1 [$C1|at 0, 0]" },
  { "where|position|place|coordinates|location|middle|centre|center", NULL, "centre_x($G1), centre_y($G1)" },
  { "move|shift|raise|lower|add|increase|extend|lengthen|shorten|slide|nudge|lift|change|make|resize|widen|stretch|shrink|quantity|qty|copies|them|more|extra|fewer|longer|shorter|wider|bigger|smaller|edit|place|put|set|should|no|replace", NULL, "$L1$-" },
  { "saw|blade|kerf|saws|bandsaw curve|bend|radius|corner", NULL, "saws [$V2|$V1]$-" },
  { "saw|blade|kerf|sawdust thick|wide|takes|take|is|width|loses|lose|wastes|removes|cut|cuts|kerf|of|lost", NULL, "kerf $V1" },
  { "plywood", NULL, "stock $X1 = plywood $V1 x $V2 x $V3" },
  { "ignore|no|without|forget kerf", NULL, "kerf 0" },
  { "wast-|leftover|leftovers|offcut-|scrap-|left wood|board|boards|material|plank|planks|stock|timber|lumber|how|much|over|is|what", NULL, "cuts" },
  { "clearance hole|holes", NULL, "help clearance_hole" },
  { "drill-|bit|bits|hole|holes", NULL, "drills $V1" },
  { "drill-|bit|bits|hole|holes", NULL, "drills $K1" },
  { "cut|need|want|make|saw|pieces x|by|wide|and", NULL, "part $X1 = $V1 x $V2 qty $N1[ from $S1]" },
  { "board|boards|plank|planks|sheet|have|got|wood x|by|long|wide|thick", NULL, "stock $X1 = $V1 x $V2 x $V3[ qty $N1]" },
  { "grain", NULL, "help part" },
  { "screw|screws|bolt drill-|hole|holes|size", NULL, "help drills" },
  { "have|got|buy|stock|bought|some", NULL, "stock $X1 = $B1 x $V1[ qty $N1]" },
  { "fit|fits|enough|lay|layout|get|where|show plank-|board-|stock|sheet-|wood|cut|cuts", NULL, "cuts" },
  { "what|which|how|list cut|cuts|cutting|saw", NULL, "cuts" },
  { "cost|costs|price|money|expensive|cheap", NULL, "help order" },
  { "metric|millimet-|mm units|unit|work|use|switch|change|measure|want|set|in|go", NULL, "units mm" },
  { "centimet-|cm units|unit|work|use|switch|change|measure|want|set|in|go", NULL, "units cm" },
  { "inch|inches|imperial units|unit|work|use|switch|change|measure|want|set|in|go", NULL, "units in" },
  { "ruler|tape|rule|measure", NULL, "ruler 1/$M1" },
  { "what|which|anything|did|have|is|not dimensioned|dimension|dimensions|measured|given|forgot-|missing|incomplete|unfinished|omitted|lacking|needed|lacks", NULL, "missing" },
  { "ok|okay|right|correct|fine|pass|passes|wrong|errors|problems|works|work|rules|checks is|are|does|do|will|any|did", NULL, "check" },
  { "decimals|sizes|numbers|column|everything|them", NULL, "round column 1 of $F1 to 1/$M1" },
  { "mark|grade|score|correct|check", NULL, "grade $F1 with [$F2|key.csv] into marks.csv" },
  { PAPERS " " CLASS, NULL, "worksheet [$T1|reading] 6 versions $N1 into papers.pdf" },
  { PAPERS, NULL, "worksheet $T1 [$N1|6] into papers.pdf" },
  { "report", NULL, "report into report.html" },
  { "safe|danger-|hazard-|safety|hurt|hurts|risk-|suitable|child|children|kid|kids|toddler-|baby|years|year|year-old|old year|years|year-old|old|age|aged|for", NULL, "child $N1 years" },
  { "toddler-|baby", NULL, "child 2 years" },
  { "safe|danger-|hazard-|safety|hurt|hurts|risk-|pinch-|caution-|warn-", NULL, "cautions" },
  { "worksheet-|handout-|quiz-", NULL, "worksheet reading 6 into papers.pdf" },
  { "pupil-|student-|class different|each|ask|wrote", NULL, "help worksheets" },
  { "key|answers|solutions", NULL, "key into key.pdf" },
  { "print-|draw-|paper|page|on|fit|fits", NULL, "draw[ scale $R1] into drawing.pdf paper $D1" },
  { "draw-|print-|picture|plan", NULL, "draw scale $R1 into drawing.pdf" },
  { "print-|pdf|picture drawing|picture|plan|pdf|paper|it|everything|page", NULL, "draw into drawing.pdf" },
  { "whole|everything|all|cart|design|drawing half|double|twice|bigger|smaller|big|scale|times", NULL, "help scale" },
  { "back|oops|revert|mistake|undo|wrong", NULL, "undo" },
  { "from depend-|come|comes|based|why|affect-|uses", NULL, "trace $K1" },
  { "dimension|dimensions|sizes|measurements drawing|picture", NULL, "draw" },
  { "unfinished|incomplete|undefined|unset", NULL, "missing" },
  { "move|shift|shapes", NULL, "shapes" },
  { "parts", NULL, "parts" },
  { "tolerances", NULL, "tolerance" },
  { "dimensions|sizes", NULL, "list" },
  { "allow|tolerance", NULL, "tolerance $V1 on $K1" },
  { "within|give|off|plus|either|way|+ -|minus|take|way|or|by", NULL, "tolerance $V1 on $K1" },
  /* What is asked of the values of a line.  */
  { TURNS, "+" TURNS "|times", "$1 * circumference($2)" },
  { TURNS, "wheel|diameter|dia|circle|tyre|tire|roller|disc|across", "$2 / circumference($1)" },
  { TURNS " radius", NULL, "circumference(diameter($1))" },
  { TURNS " diameter|dia", NULL, "circumference($1)~$1 / pi" },
  { TURNS, NULL, "circumference($1)" },
  { "diameter|dia " ROUND, "=" ROUND, "$1 / pi" },
  { "radius " ROUND, "=" ROUND, "$1 / pi / 2" },
  { "diameter|dia|across|wide radius", "=radius", "diameter($1)" },
  { "radius diameter|dia|across|wide", "=diameter|dia|across|wide", "radius($1)" },
  { ROUND " radius", NULL, "circumference(diameter($1))" },
  { ROUND, NULL, "circumference($1)" },
  { "diameter|dia", NULL, "diameter($1)" },
  { "radius", NULL, "radius($1)" },
  { "diagonal|diagonally|hypotenuse|corner|corners|brace|ladder|pythagoras", NULL, "diagonal($1, $2)" },
  { ANGLE " percent|percentage|%", "rise|rises|rising|high|height|up", "$1 / $2 * 100" },
  { ANGLE "|rise|rises|rising", "rise|rises|rising|high|height|up|tall", "atan($1 / $2)" },
  { ANGLE, "/", "atan($1)" },
  { "denominator|denominators", NULL, "explain $+" },
  { "order|sort|arrange|rank|ascending|descending", NULL, "$@" },
  { "smallest|least|shortest|thinnest|minimum", NULL, "min($@)" },
  { "largest|biggest|longest|thickest|widest|maximum|most", NULL, "max($@)" },
  { THINGS "|" APART "|" PIECES " thick|wide|width|thickness", "#,thick|wide|width|thickness", "space $1 across $3 width $2" },
  { "gap|kerf|saw|blade " PIECES, "#,kerf|saw|blade|wide|thick|gap", "divide $3 into $1 kerf $2" },
  { THINGS "|" APART, "#", "space $1 across $2" },
  { PIECES, "#", "divide $2 into $1" },
  { "every", "every", "$2 / $1" },
  { "go|goes|fit|fits|many many|times|often|pieces", "long", "$1 / $2" },
  { "scale|size|scaled|drawn|drawing|paper half", NULL, "drawn($1, 1/2)~full($1, 1/2)" },
  { "scale|size|scaled|drawn|drawing|paper quarter", NULL, "drawn($1, 1/4)~full($1, 1/4)" },
  { "scale|size|scaled|drawn|drawing|paper eighth", NULL, "drawn($1, 1/8)~full($1, 1/8)" },
  { "scale what|what's|whats|which|find", NULL, "$1 / $2" },
  { "scale|scaled", "scale|scaled", "drawn($2, $1)~full($2, $1)" },
  { "nearest|closest|next|round|rounded up|upward|upwards|over|above", "/", "round $2 to $1 up" },
  { "nearest|closest|next|round|rounded down|downward|downwards|under|below", "/", "round $2 to $1 down" },
  { "nearest|closest|round|rounded|rounding|ruler|mark|tape", "/", "round $2 to $1" },
  { "nearest|closest|round|rounded", NULL, "round $*" },
  { "decimal|decimals", NULL, "$1 as a decimal" },
  { "fraction", NULL, "$1 as a fraction" },
  { "percent|percentage|% of|out", NULL, "$1 / $2 * 100" },
  { "percent|percentage|%", NULL, "$1 as percent" },
  { MORE " much|difference", NULL, "abs($1 - $2)" },
  { LESS " much|difference", NULL, "abs($1 - $2)" },
  { "give take", NULL, "size = $1 +- $2" },
  { MORE " " NO, NULL, "check $1 <= $2" },
  { LESS " " NO, NULL, "check $1 >= $2" },
  { MORE, NULL, "check $1 > $2" },
  { LESS, NULL, "check $1 < $2" },
  { "same|equal|equals|equivalent|match|matches", NULL, "check $1 = $2" },
  { "fit|fits|go|goes|inside|through|under|within", NULL, "check $1 <= $2" },
  { "average|mean", NULL, "mean($@)" },
  { "middle|halfway|midway|midpoint|centre|center|between", NULL, "mean($1, $2)" },
  { "difference|far|apart|off|out|error|short", NULL, "abs($1 - $2)" },
  { "take|away|minus|subtract|left|leftover|remains|remain|remaining|less|off|cut", NULL, "$1 - $2~$2 - $1" },
  { "total|altogether|sum|add|plus|together|combined|all", NULL, "sum($@)" },
  { "area|surface|square circle|disc|round", NULL, "pi * ($1 / 2)^2" },
  { "area|surface", NULL, "$1 * $2" },
  { "perimeter|border|edging", NULL, "2 * ($1 + $2)" },
  { "volume", NULL, "$1 * $2 * $3" },
  { "times|product|multiply|multiplied|each", NULL, "$1 * $2" },
  { "half|halve|halved|middle|centre|center", NULL, "$1 / 2" },
  { "third|thirds", NULL, "$1 / 3" },
  { "quarter|quarters", NULL, "$1 / 4" },
  { "twice|double|doubled", NULL, "2 * $1" },
  { "tolerance|within", NULL, "size = $1 +- $2" },
  { "remember|store|keep|save|note|write|memory", NULL, "size = $1" },
  { "in|into|to|as|many|what|convert", "%", "$1 in $%" },
  /* Where nothing of that is certain: what helps.  */
  { "between wheels", NULL, "help wheels" },
  { "between shapes|parts|pieces", NULL, "help clear" },
  { "cut|saw", NULL, "help cutting" },
  { NULL, NULL, NULL }
};

/* What papers are about, by words of a line.  */
const br__cue br__paper_cues[] = {
  { "add-|fraction-|sum|sums|subtract-", NULL, "sums" }, { "read-|ruler-|measur-|mark-", NULL, "reading" }, { "scale|scales|scaling", NULL, "scale" },
  { "decimal-|round-", NULL, "decimals" }, { "multipl-|product-|times", NULL, "products" }, { "fender-|wheel-", NULL, "fender" },
  { "divid-|division", NULL, "dividing" }, { NULL, NULL, NULL }
};
