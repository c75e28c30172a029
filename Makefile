# The words of every day. Each makes the environment it needs; nothing is installed outside .venv but the browser.
SHELL := /bin/bash
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
CHROMIUM := /usr/bin/chromium
# requirements-site.lock is the part of it that a site is built with.
LOCK ?= requirements.lock
export NO_MKDOCS_2_WARNING := 1

.PHONY: site check impact status release test quick prove soak bench look pictures browser desk

# With COPIES=DIR lasting copies of releases stand in it too.
site: $(VENV)/ready
	$(BIN)/python -m builder build $(if $(COPIES),--copies "$(COPIES)")

check: $(VENV)/ready
	$(BIN)/python -m builder check

# What moves since a revision or a folder: make impact BASE=main
BASE ?= main
impact: $(VENV)/ready
	$(BIN)/python -m builder impact "$(BASE)"

# Which reports were corrected or retracted: make status CONTACT=somebody@example.org
status: $(VENV)/ready
	$(BIN)/python -m builder status --contact "$(CONTACT)"

# What a release would change and say: make release VERSION=1.2.0; with WRITE=--write its files are written.
release: $(VENV)/ready
	$(BIN)/python -m builder release "$(VERSION)" $(WRITE)

# Neighbours go to one process, which makes what they share once; whoever is done first takes over half of the rest.
# Where the desk's runtime cannot be fetched its own tests fail and say so; all others are run.
test: $(VENV)/ready browser
	@$(MAKE) --no-print-directory desk || true
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/pytest -q -n 2 --dist worksteal

quick: $(VENV)/ready
	$(BIN)/pytest -q -n 2 --dist worksteal -m "not browser and not slow"

prove: $(VENV)/ready
	$(BIN)/python tests/mutation/prove.py
	$(BIN)/python tests/mutation/meaning_table.py
	ALL_REPORTS=1 $(BIN)/pytest -q -n 2 tests/impact/test_retracting.py
	EXAMPLES=200 $(BIN)/pytest -q -n 2 tests/audit/printed/test_late.py
	$(BIN)/python tests/clean_clone.py

# An hour of changed files through check, each accepted one through build; every round tells its slowest.
SEED ?= 1
SOAK ?= 3600
soak: $(VENV)/ready
	@end=$$(( $$(date +%s) + $(SOAK) )); seed=$(SEED); while [ $$(date +%s) -lt $$end ]; do \
		echo "seed $$seed:"; $(BIN)/python tests/hardened/told.py mutated $$seed 2000 2000 || exit 1; \
		seed=$$(( seed + 1 )); \
	done

bench: $(VENV)/ready
	$(BIN)/python tests/bench/bench.py

look: $(VENV)/ready browser
	$(BIN)/python -m builder build --site build/site
	$(BIN)/python tests/browser/look.py build/site build/look
	$(BIN)/python tests/browser/reader.py build/site build/look

# Python for browsers, by hash: with it the site has a desk that checks a paper while it is typed.
desk: node_modules/pyodide/pyodide.asm.wasm

node_modules/pyodide/pyodide.asm.wasm: package-lock.json
	@command -v npm >/dev/null || if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
		apt-get update -qq && apt-get install -y -qq --no-install-recommends npm; \
	else \
		echo "npm is missing. Type: sudo apt-get install -y npm"; exit 1; \
	fi
	npm ci --ignore-scripts --no-audit --no-fund --silent
	@touch $@

pictures: $(VENV)/ready browser
	$(BIN)/python tests/browser/pictures.py .github/pictures

$(VENV)/ready: $(LOCK) pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
		{ echo "Python 3.11 or newer is needed. Type: make $(MAKECMDGOALS) PYTHON=python3.11"; exit 1; }
	@$(PYTHON) -c 'import venv, ensurepip' 2>/dev/null || \
		{ echo "Python's venv is missing. Type: sudo apt-get install -y python3-venv"; exit 1; }
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r $(LOCK)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

# The browser that the tests drive is Debian's own, and so is git; they are installed only where that needs no password.
browser:
	@test -x $(CHROMIUM) && command -v git >/dev/null && exit 0; \
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
		apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium fonts-dejavu-core git; \
	else \
		echo "The browser or git is missing. Type: sudo apt-get install -y chromium fonts-dejavu-core git"; exit 1; \
	fi
