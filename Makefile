# Every target sets up .venv first where that is needed; bootstrap.py does the same without make.
PYTHON ?= python3
UV ?= uv
VENV := .venv/bin

.PHONY: setup demo test check format lint types imports size docs benchmarks lock clean

setup:
	$(PYTHON) bootstrap.py

demo:
	$(PYTHON) bootstrap.py demo $(ARGS)

test:
	$(PYTHON) bootstrap.py test $(ARGS)

check:
	$(PYTHON) bootstrap.py check

lint types imports size:
	$(PYTHON) bootstrap.py check $@

format: setup
	$(VENV)/ruff check --fix-only --quiet .
	$(VENV)/ruff format .

# The pages that are made from the equations, then what the tests say of all pages.
docs: setup
	$(VENV)/python tools/write_pages.py
	$(PYTHON) bootstrap.py check docs

benchmarks: setup
	$(VENV)/python -m benchmarks

# Names, versions and hashes alone; needs uv. The oracles that tests compare with have a lock of their own.
lock:
	$(UV) pip compile pyproject.toml --extra test --extra check --extra build --universal --python-version 3.11 \
		--generate-hashes --no-header --quiet --output-file requirements.lock $(ARGS)
	$(UV) pip compile pyproject.toml --extra oracles --universal --python-version 3.11 --generate-hashes \
		--no-header --no-annotate --quiet --constraint requirements.lock \
		--output-file requirements-oracles.lock $(ARGS)

clean:
	rm -rf .venv out dist build .mypy_cache .ruff_cache .pytest_cache .hypothesis
