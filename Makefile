# Sendoff. `make` alone lists the commands.
# Nothing here needs more than Python 3.11+, pip and make; what a command misses, it says.

PYTHON  ?= python3
JOBS    ?= 2
BIN     := .venv/bin
DEMO    := examples/quillback
RESULT  := build/demo

.DEFAULT_GOAL := help
.PHONY: help setup setup-dev demo serve test check prove bench look docs system lock clean

help:
	@$(PYTHON) tools/help.py Makefile

setup:  ## make .venv with what Sendoff needs to run, from requirements.lock
	@$(PYTHON) tools/setup.py runtime

setup-dev:
	@$(PYTHON) tools/setup.py dev

demo: setup  ## turn the demo yard's build sheets into packs in build/demo, and end
	@$(BIN)/sendoff pack $(DEMO)/sheets/*.toml --catalogue $(DEMO) -o $(RESULT) -j $(JOBS)
	@$(PYTHON) tools/made.py $(RESULT)

serve: setup  ## open the demo yard's books on this machine, with its units part-way (stop with Ctrl-C)
	@$(BIN)/sendoff yard demo build/yard $(DEMO)
	@$(BIN)/sendoff yard serve build/yard

check: setup-dev
	@$(BIN)/ruff check --quiet .
	@$(BIN)/ruff format --quiet --check .
	@$(BIN)/mypy
	@$(BIN)/lint-imports
	@$(BIN)/sendoff catalogue lint $(DEMO)

test: check  ## set up and check everything: style, types, order of rooms, demo catalogue, tests
	@$(BIN)/python -m pytest -n $(JOBS)

prove: setup-dev  ## what is too long for the test command (resumable; writes build/proofs/summary.md)
	@$(BIN)/python -m proofs -j $(JOBS)

bench: setup-dev  ## measure speed beside peers in the same run (writes build/bench/summary.md)
	@$(BIN)/python -m benchmarks

look: setup-dev  ## contact sheets of every page of three packs in both languages, in build/look
	@$(BIN)/python tools/look.py

docs: setup-dev  ## write docs/calculations, docs/sources.md and docs/tables.md from docstrings and data
	@$(BIN)/python tools/docs.py

system:  ## install the Debian packages some tests look through (root), or say the command
	@$(PYTHON) tools/system.py

lock: setup-dev
	@$(PYTHON) tools/lock.py

clean:
	@$(PYTHON) -c "import shutil; [shutil.rmtree(folder, ignore_errors=True) for folder in ('build', 'dist')]"
