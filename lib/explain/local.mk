# SPDX-License-Identifier: LGPL-3.0-or-later
# Chains of worked steps.
libbenchrule_core_la_SOURCES += \
  lib/explain/byhand.c \
  lib/explain/explain.c \
  lib/explain/explain.h \
  lib/explain/explain_chain.c \
  lib/explain/explain_private.h \
  lib/explain/explain_shape.c \
  lib/explain/statements.c
