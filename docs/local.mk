# SPDX-License-Identifier: GPL-3.0-or-later
# What is installed beside the program: the manual, the examples, the completion.

dist_man_MANS = docs/benchrule.1
dist_doc_DATA = README.md docs/NEWS.md
exampledir = $(docdir)/examples
dist_example_DATA = \
  docs/examples/cad_numbers.sheet \
  docs/examples/market_cart.sheet \
  docs/examples/market_cart_parts.sheet \
  docs/examples/market_cart_side.sheet \
  docs/examples/market_cart_sketch.sheet
dist_bashcompletion_DATA = repl/benchrule.bash
EXTRA_DIST += docs/packaging/deb.sh docs/packaging/debian
EXTRA_DIST += docs/certainty.md docs/design.md docs/drawing.md docs/market_cart.md docs/performance.md docs/reference.md docs/wheels.md docs/wood.md docs/worksheets.md
