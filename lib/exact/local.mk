# lib/exact: numbers, errors, memory, text.
libbenchrule_core_la_SOURCES += \
  lib/exact/memory.c \
  lib/exact/memory.h \
  lib/exact/number.c \
  lib/exact/number.h \
  lib/exact/number_big.c \
  lib/exact/number_round.c \
  lib/exact/number_text.c \
  lib/exact/status.c \
  lib/exact/status.h \
  lib/exact/text.c \
  lib/exact/text.h
