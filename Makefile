# Every target sets up what it needs in .venv; Python 3.11+ is all that has to be there.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.installed

.PHONY: site test deep bench lint types browser clean

$(STAMP): pyproject.toml
	$(PYTHON) -m venv $(VENV)
	$(BIN)/pip install --quiet --disable-pip-version-check -e '.[test]'
	touch $(STAMP)

site: $(STAMP)              ## check and build the demo book, say where it lies
	$(BIN)/python -m generator check plays
	$(BIN)/python -m generator build plays --out site

browser: $(STAMP)           ## find Chromium or install it
	sh .ci/browser

test: $(STAMP) browser      ## everything, browser included, under ten minutes on two cores
	$(BIN)/python -m pytest -n 2 --dist loadfile --durations 15

deep: $(STAMP) browser      ## long fuzzing, large books
	$(BIN)/python -m pytest --deep -m deep

bench: $(STAMP) browser     ## the budgets as a table and as bench.json
	$(BIN)/python -m tests.bench

lint: $(STAMP)              ## optional: the rules in pyproject.toml
	$(BIN)/python -m pip install --quiet --disable-pip-version-check ruff
	$(BIN)/ruff check .

types:                      ## optional, needs npm: the types that the scripts' comments declare
	npx --yes --package typescript@5.6 tsc -p .ci/tsconfig.json

clean:
	rm -rf $(VENV) site published build dist *.egg-info
