"""The lock holds names, versions and hashes alone, and covers what the project asks for."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
LINES = (ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines()
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]

PIN = re.compile(r"[a-z0-9-]+==[\w.!+-]+( ; [\w .'\"<>=!()-]+)? \\")
HASH = re.compile(r"    --hash=sha256:[0-9a-f]{64}( \\)?")
NOTE = re.compile(r"    #( via)?( +[\w.-]+)?( \(pyproject\.toml\))?")


def plain(name: str) -> str:
    """A package's name as the lock spells it."""
    return re.sub(r"[-_.]+", "-", re.split(r"[ <>=!~\[;]", name, maxsplit=1)[0]).lower()


def test_every_line_of_the_lock_is_a_pin_or_a_hash_or_a_note_of_who_wants_it() -> None:
    strange = [
        line for line in LINES if not (PIN.fullmatch(line) or HASH.fullmatch(line) or NOTE.fullmatch(line))
    ]
    assert strange == []


def test_the_lock_names_no_address_and_no_place() -> None:
    assert [line for line in LINES if re.search(r"://|--(extra-)?index|--find|@ |/", line)] == []


def test_the_lock_pins_every_requirement_of_the_project() -> None:
    groups = PROJECT["optional-dependencies"].values()
    wanted = {plain(name) for group in (PROJECT["dependencies"], *groups) for name in group}
    assert wanted <= {plain(line) for line in LINES if PIN.fullmatch(line)}


def test_the_lock_pins_what_builds_the_project() -> None:
    pyproject = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    pinned = {plain(line) for line in LINES if PIN.fullmatch(line)}
    assert {plain(name) for name in pyproject["build-system"]["requires"]} <= pinned
