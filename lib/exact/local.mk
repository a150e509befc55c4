# lib/exact: numbers, errors, memory, text.
libbenchrule_core_la_SOURCES += \
  lib/exact/bytes.h \
  lib/exact/memory.c \
  lib/exact/memory.h \
  lib/exact/number.c \
  lib/exact/number.h \
  lib/exact/digits.h \
  lib/exact/wide.h \
  lib/exact/number_big.c \
  lib/exact/number_decimal.c \
  lib/exact/number_gmp.c \
  lib/exact/number_root.c \
  lib/exact/number_round.c \
  lib/exact/number_text.c \
  lib/exact/status.c \
  lib/exact/status.h \
  lib/exact/text.c \
  lib/exact/text.h

# Values that are not rational.
libbenchrule_core_la_SOURCES += \
  lib/exact/interval.c \
  lib/exact/interval.h \
  lib/exact/real.c \
  lib/exact/real.h \
  lib/exact/real_angle.c \
  lib/exact/real_arithmetic.c \
  lib/exact/real_bound.c \
  lib/exact/real_decide.c \
  lib/exact/real_enclose.c \
  lib/exact/real_evaluate.c \
  lib/exact/real_field.c \
  lib/exact/real_field.h \
  lib/exact/real_fraction.c \
  lib/exact/real_normal.c \
  lib/exact/real_poly.c \
  lib/exact/real_poly.h \
  lib/exact/real_root.c \
  lib/exact/real_sum.c \
  lib/exact/real_text.c \
  lib/exact/real_trig.c \
  lib/exact/real_zero.c

# The argument for what the real values answer.
EXTRA_DIST += docs/certainty.md
