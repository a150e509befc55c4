# SPDX-License-Identifier: LGPL-3.0-or-later
# The rooms of the library, in the order in which each may include those before it.

include lib/exact/local.mk
include lib/measure/local.mk
include lib/shop/local.mk
include lib/plan/local.mk
include lib/formula/local.mk
include lib/geometry/local.mk
include lib/file/local.mk
include lib/sheet/local.mk
include lib/solve/local.mk
include lib/explain/local.mk
include lib/shape/local.mk
include lib/wood/local.mk
include lib/table/local.mk
include lib/plot/local.mk
include lib/lesson/local.mk
include lib/view/local.mk
include lib/draw/local.mk
include lib/report/local.mk
include lib/phrase/local.mk
include lib/statement/local.mk
include lib/page/local.mk

include_HEADERS = lib/benchrule.h lib/benchrule_sheet.h
pkgconfigdir = $(libdir)/pkgconfig
pkgconfig_DATA = lib/benchrule.pc
EXTRA_DIST += lib/benchrule.sym lib/lesson/wordings.def
