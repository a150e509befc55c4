libbenchrule_core_la_SOURCES += \
  lib/shop/blade.c lib/shop/blade.h \
  lib/shop/drill.c lib/shop/drill.h \
  lib/shop/functions.c lib/shop/functions.h
