# SPDX-License-Identifier: GPL-3.0-or-later
# What is installed beside the program: the manual, the examples, the completion.
# The Markdown pages are the one source of the manual; docs/page.sh makes man pages and HTML from them.

manual_sources = docs/NEWS.md docs/benchrule.md docs/cad_numbers.md docs/certainty.md docs/design.md docs/drawing.md docs/library.md \
  docs/first_design.md docs/limits.md docs/manual.md docs/market_cart.md docs/performance.md docs/reference.md docs/safety.md docs/trust.md docs/wheels.md docs/wood.md \
  docs/words.md docs/worksheets.md
# Which of them are man pages, too.
man_sources = docs/benchrule.md:benchrule.1 docs/library.md:benchrule.3 docs/reference.md:benchrule-language.7 \
  docs/words.md:benchrule-words.7 docs/limits.md:benchrule-limits.7
man_pages = docs/benchrule.1 docs/benchrule.3 docs/benchrule-language.7 docs/benchrule-words.7 docs/benchrule-limits.7 docs/benchrule-numbers.3 docs/benchrule-reals.3 docs/benchrule-measures.3 docs/benchrule-rulers.3 docs/benchrule-trade.3 docs/benchrule-cautions.3 docs/benchrule-gmp.3 docs/benchrule-records.3 docs/benchrule-sheets.3
page_tools = docs/page.sh docs/page.awk
make_page = env SOURCE_PAGES='$(man_sources)' LOWDOWN='$(LOWDOWN)' AWK='$(AWK)' $(SHELL) $(srcdir)/docs/page.sh

docs/benchrule.1: docs/benchrule.md
docs/benchrule.3: docs/library.md
# One for each group of functions, from the same source.
docs/benchrule-numbers.3 \
  docs/benchrule-reals.3 \
  docs/benchrule-measures.3 \
  docs/benchrule-rulers.3 \
  docs/benchrule-trade.3 \
  docs/benchrule-cautions.3 \
  docs/benchrule-gmp.3 \
  docs/benchrule-records.3 \
  docs/benchrule-sheets.3: docs/library.md
docs/benchrule-language.7: docs/reference.md
docs/benchrule-words.7: docs/words.md
docs/benchrule-limits.7: docs/limits.md

if HAVE_LOWDOWN
$(man_pages): $(page_tools) docs/local.mk $(top_srcdir)/configure.ac
	$(AM_V_GEN)$(MKDIR_P) docs && $(make_page) man $(filter %.md,$^) $(@F) '$(PACKAGE_VERSION)' '$(BR_RELEASE_DAY)' >$@.new
	@mv $@.new $@
else
$(man_pages):
	@test -f '$(srcdir)/$@' || { echo '$@: lowdown not found (Debian: lowdown)' >&2; exit 1; }
endif

if HAVE_MAN_PAGES
man_MANS = $(man_pages)
endif

# In the build folder; installed where it was made before.
html_pages = docs/html/index.html $(patsubst docs/%.md,docs/html/%.html,$(filter-out docs/manual.md,$(manual_sources)))
html_DATA = $(wildcard docs/html/*.html)
html-local: $(html_pages)
	@$(MKDIR_P) docs/html/examples && cp $(addprefix $(srcdir)/,$(dist_example_DATA)) docs/html/examples/
docs/html/index.html: docs/manual.md $(page_tools)
	$(html_page)
docs/html/%.html: docs/%.md $(page_tools)
	$(html_page)
html_page = $(AM_V_GEN)$(MKDIR_P) docs/html && $(make_page) html $< >$@.new && mv $@.new $@

dist_doc_DATA = README.md docs/benchrule.schema.json $(manual_sources)
exampledir = $(docdir)/examples
dist_example_DATA = \
  docs/examples/cad_numbers.sheet \
  docs/examples/market_cart.sheet \
  docs/examples/market_cart_parts.sheet \
  docs/examples/market_cart_side.sheet \
  docs/examples/market_cart_sketch.sheet
cexampledir = $(docdir)/examples/c
dist_cexample_DATA = docs/examples/c/column.c \
  docs/examples/c/fender.c \
  docs/examples/c/mark.c \
  docs/examples/c/sheet.c \
  docs/examples/c/sketch.c \
  docs/examples/c/worksheet.c
# The folders that are ours alone.
uninstall-hook:
	@for folder in '$(cexampledir)' '$(exampledir)' '$(htmldir)/examples' '$(htmldir)' '$(docdir)' '$(pkglibdir)'; do \
	  rmdir "$(DESTDIR)$$folder" 2>/dev/null || true; \
	done

dist_bashcompletion_DATA = repl/benchrule.bash
EXTRA_DIST += docs/pictures docs/packaging/deb.sh docs/packaging/debian $(page_tools) $(man_pages)
MAINTAINERCLEANFILES = $(man_pages)
