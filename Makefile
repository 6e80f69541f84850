# Hollowright's commands. Each sets up .venv by itself. More words for a command: make demo ARGS="--help"
# Another Python: make demo PYTHON=python3.12

PYTHON ?= python3
ARGS ?=
WORKERS ?= 2
BIN = .venv/bin
SETUP = pyproject.toml tools/environment.py
MAKE_ENVIRONMENT = @command -v $(PYTHON) >/dev/null || { echo "There is no $(PYTHON) here; Hollowright needs Python 3.11 to 3.14."; exit 1; }; $(PYTHON) tools/environment.py

# What a shell has set for another Python must not reach this one.
unexport PYTHONPATH
unexport PYTHONHOME
unexport VIRTUAL_ENV

.PHONY: help demo test check bench docs serve golden oracle lock clean
.DEFAULT_GOAL := help

help:
	@echo "make demo     make the demo piece; its bench card is left in out/"
	@echo "make test     run the tests"
	@echo "make serve    open the local page"
	@echo "make check    format, lint, types, order of the rooms"
	@echo "make bench    measure the speed"
	@echo "make docs     write the documents that come from the code"
	@echo "make golden   write the golden texts anew (read the difference before you keep it)"
	@echo "make oracle   compare with the CAD kernel (some 830 MB the first time)"
	@echo "make lock     resolve the locked packages (ARGS=--upgrade for newer ones)"

demo: .venv/.runtime
	@$(BIN)/hollowright demo $(ARGS)

serve: .venv/.runtime
	@$(BIN)/hollowright serve $(ARGS)

test: .venv/.dev
	@$(BIN)/python -m pytest -q -n $(WORKERS) $(ARGS)

check: .venv/.dev
	@$(BIN)/ruff format --check --quiet . || { echo "Not in the house's format: run .venv/bin/ruff format ."; exit 1; }
	@$(BIN)/ruff check --quiet .
	@$(BIN)/mypy
	@$(BIN)/python -m pytest -q tests/house

golden: .venv/.dev
	@$(BIN)/python -m pytest -q --update-golden $(ARGS)

bench: .venv/.dev
	@$(BIN)/python tools/bench.py $(ARGS)

docs: .venv/.dev
	@$(BIN)/python tools/docs.py $(ARGS)

oracle: .venv/.oracle
	@HOLLOWRIGHT_ORACLE=1 $(BIN)/python -m pytest -q -m oracle $(ARGS)

lock: .venv/.dev
	@$(BIN)/python tools/lock.py $(ARGS)

clean:
	@rm -rf .venv out build dist .pytest_cache .mypy_cache .ruff_cache .hypothesis

.venv/.runtime: constraints/runtime.txt $(SETUP)
	$(MAKE_ENVIRONMENT) runtime

.venv/.dev: constraints/dev.txt constraints/runtime.txt $(SETUP)
	$(MAKE_ENVIRONMENT) dev

.venv/.oracle: constraints/oracle.txt constraints/dev.txt constraints/runtime.txt $(SETUP)
	$(MAKE_ENVIRONMENT) oracle
