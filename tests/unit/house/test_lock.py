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


def versions(lock: str, name: str) -> set[str]:
    """A package's pins with the machines left out: one, unless machines get different versions."""
    return {pin.partition(" ; ")[0] for pin in pins(lock) if plain(pin) == name}


def hashes(lock: str, name: str) -> set[str]:
    """The hashes that stand under a package's pins."""
    found: dict[str, set[str]] = {}
    here = ""
    for line in LOCKS[lock]:
        if PIN.fullmatch(line):
            here = plain(line)
        elif HASH.fullmatch(line):
            found.setdefault(here, set()).add(line.strip(" \\"))
    return found[name]


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


def test_the_oracles_are_pinned_apart() -> None:
    oracles = {plain(name) for name in PROJECT["optional-dependencies"]["oracles"]}
    assert oracles
    assert oracles <= pinned("requirements-oracles.lock")
    assert oracles.isdisjoint(pinned("requirements.lock"))


def test_what_the_oracles_share_with_the_project_is_the_same_version_on_every_machine() -> None:
    project, oracles = "requirements.lock", "requirements-oracles.lock"
    both = pinned(project) & pinned(oracles)
    assert both >= {plain(name) for name in PROJECT["dependencies"]}
    apart = {plain(pin) for pin in pins(oracles) - pins(project)} & both
    # An oracle may want on every machine what the project wants on some: that is no other pin while
    # there is but one version of it, from the same files.
    unlike = {
        name
        for name in apart
        if len(versions(project, name)) > 1 or versions(project, name) != versions(oracles, name)
    }
    assert unlike == set()
    assert {name for name in both if hashes(project, name) != hashes(oracles, name)} == set()


def test_the_lock_pins_what_builds_the_project() -> None:
    pyproject = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = {plain(name) for name in pyproject["build-system"]["requires"]}
    assert wanted <= pinned("requirements.lock")
