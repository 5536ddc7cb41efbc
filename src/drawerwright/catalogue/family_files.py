"""The slide-family files that a person named: found, each once."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from drawerwright.errors import Fault, InputError
from drawerwright.model.spelling import nearest

MARK: Final = b"inside_width_deduction"
"""A key that every slide-family file has, and no job file."""

LOOKED_AT: Final = 100
"""Most files beside a missing one that are looked into."""


def family_files(paths: Iterable[Path]) -> list[Path]:
    """Every family file that the paths name, each folder's in the order of their names.

    Raises InputError with a folder that holds none, or with every file that is named twice.
    """
    files: list[Path] = []
    faults: list[Fault] = []
    seen: set[str] = set()
    for path in paths:
        inside = _inside(path) if path.is_dir() else [path]
        for one in inside:
            whole = os.path.abspath(one)  # noqa: PTH100 - never fails, as following links may
            if whole in seen:
                says = "is a file of slides that is named twice"
                faults.append(Fault(one.name or str(one), "", says, "giving it once"))
            seen.add(whole)
        files += inside
    if faults:
        raise InputError(dict.fromkeys(faults))
    return files


def _inside(folder: Path) -> list[Path]:
    try:
        inside = sorted(one for one in folder.iterdir() if one.suffix.lower() == ".toml")
    except OSError as error:
        says = f"may not be opened: {error.strerror}"
        raise InputError([Fault(folder.name, "", says, "a folder you may read")]) from None
    if not inside:
        says = "is a folder without a slide-family file"
        raise InputError([Fault(folder.name or str(folder), "", says, "a folder with .toml files in it")])
    return inside


def instead_of(path: Path) -> str:
    """What would do in place of a family file that is missing or empty: the nearest beside it, or none."""
    if not path.exists():
        near = nearest(path.name, [one.name for one in _beside(path)])
        if near:
            return near
    return "a slide-family file, or none: the shipped families are used then"


def _beside(path: Path) -> list[Path]:
    """Files beside the missing one that look like slide families."""
    try:
        some = sorted(one for one in path.parent.iterdir() if one.suffix.lower() == ".toml")[:LOOKED_AT]
        return [one for one in some if one.is_file() and MARK in one.read_bytes()]
    except OSError:
        return []
