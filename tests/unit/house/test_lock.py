"""The locks hold names, versions and hashes alone, and cover what the project asks for."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
LOCKS = {
    name: (ROOT / name).read_text(encoding="utf-8").splitlines()
    for name in ("requirements.lock", "requirements-oracles.lock")
}
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]

PIN = re.compile(r"[a-z0-9-]+==[\w.!+-]+( ; [\w .'\"<>=!()-]+)? \\")
HASH = re.compile(r"    --hash=sha256:[0-9a-f]{64}( \\)?")
NOTE = re.compile(r"    #( via)?( +[\w.-]+)?( \(pyproject\.toml\))?")


def plain(name: str) -> str:
    """A package's name as the lock spells it."""
    return re.sub(r"[-_.]+", "-", re.split(r"[ <>=!~\[;]", name, maxsplit=1)[0]).lower()


def pins(lock: str) -> set[str]:
    """Names with their versions, and for which machines where that is told."""
    return {line.rstrip(" \\") for line in LOCKS[lock] if PIN.fullmatch(line)}


def pinned(lock: str) -> set[str]:
    return {plain(pin) for pin in pins(lock)}


@pytest.mark.parametrize("lock", LOCKS)
def test_every_line_of_a_lock_is_a_pin_or_a_hash_or_a_note_of_who_wants_it(lock: str) -> None:
    strange = [
        line
        for line in LOCKS[lock]
        if not (PIN.fullmatch(line) or HASH.fullmatch(line) or NOTE.fullmatch(line))
    ]
    assert strange == []


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_names_no_address_and_no_place(lock: str) -> None:
    assert [line for line in LOCKS[lock] if re.search(r"://|--(extra-)?index|--find|@ |/", line)] == []


def test_the_lock_pins_every_requirement_of_the_project_but_the_oracles() -> None:
    groups = PROJECT["optional-dependencies"]
    asked = [PROJECT["dependencies"], *(groups[name] for name in groups if name != "oracles")]
    assert {plain(name) for group in asked for name in group} <= pinned("requirements.lock")


def test_the_oracles_are_pinned_apart_and_share_every_other_pin() -> None:
    oracles = {plain(name) for name in PROJECT["optional-dependencies"]["oracles"]}
    assert oracles
    assert oracles <= pinned("requirements-oracles.lock")
    assert oracles.isdisjoint(pinned("requirements.lock"))
    both = pinned("requirements.lock") & pinned("requirements-oracles.lock")
    assert both >= {plain(name) for name in PROJECT["dependencies"]}
    apart = pins("requirements-oracles.lock") - pins("requirements.lock")
    assert {pin for pin in apart if plain(pin) in both} == set()


def test_the_lock_pins_what_builds_the_project() -> None:
    pyproject = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = {plain(name) for name in pyproject["build-system"]["requires"]}
    assert wanted <= pinned("requirements.lock")
