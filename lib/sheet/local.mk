## The language: words, formulas, names, statements.
libbenchrule_core_la_SOURCES += \
	lib/sheet/check.c \
	lib/sheet/dimension.c \
	lib/sheet/evaluate.c \
	lib/sheet/evaluate.h \
	lib/sheet/file.c \
	lib/sheet/file.h \
	lib/sheet/functions.c \
	lib/sheet/functions.h \
	lib/sheet/graph.c \
	lib/sheet/graph.h \
	lib/sheet/graph_private.h \
	lib/sheet/help.c \
	lib/sheet/lexer.c \
	lib/sheet/lexer.h \
	lib/sheet/lines.c \
	lib/sheet/loop.c \
	lib/sheet/parser.c \
	lib/sheet/record.c \
	lib/sheet/record.h \
	lib/sheet/renew.c \
	lib/sheet/round.c \
	lib/sheet/safety.c \
	lib/sheet/safety.h \
	lib/sheet/setting.c \
	lib/sheet/settings.c \
	lib/sheet/settings.h \
	lib/sheet/sheet.c \
	lib/sheet/sheet.h \
	lib/sheet/show.c \
	lib/sheet/statement.c \
	lib/sheet/steps.c \
	lib/sheet/table.c \
	lib/sheet/tree.h \
	lib/sheet/words.c \
	lib/sheet/words.h
