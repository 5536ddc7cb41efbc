"""Slide families, read: from the files that come with the package, from a person's own, from mappings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any, Final

from pydantic import ValidationError

from drawerwright.catalogue.family_files import family_files, instead_of
from drawerwright.catalogue.shipped import shipped_text
from drawerwright.errors import Fault, InputError, Problem, Problems
from drawerwright.files.toml_text import TomlFile, parse_toml, read_toml
from drawerwright.model.family import SlideFamily
from drawerwright.model.faults import Loc, named_place, problems_of
from drawerwright.model.spelling import nearest
from drawerwright.units import show_value

SHIPPED: Final = (
    "house-16",
    "house-19",
    "short-16",
    "heavy-19",
    "thin-12",
    "three-quarter-16",
    "inch-19",
    "side-mounted",
)
"""Families that come with the package, in the order in which they are offered."""

Place = Callable[[Loc], tuple[int, str]]


@dataclass(frozen=True, slots=True)
class _Entry:
    """One family as it was written, and where its keys stand."""

    values: Any
    place: Place
    file: str

    def fault(self, problem: Problem) -> tuple[int, Fault]:
        order, place = self.place(problem.loc)
        named = named_place(("family", 0, *problem.loc), {"family": [self.values]})
        return order, Fault(f"{place} {named}", problem.value, problem.says, problem.try_)


def load_families(paths: Sequence[Path] | None = None) -> tuple[SlideFamily, ...]:
    """Families of files and folders, in the order given, a folder's files by name; None: the shipped ones.

    A file holds one family, or several under [[family]]. Raises InputError with the faults of all files.
    """
    if paths is None:
        return _shipped()
    entries: list[_Entry | InputError] = []
    for path in family_files(paths):
        try:
            entries += _entries(read_toml(path, instead=instead_of(path)))
        except InputError as error:
            entries.append(error)
    return _families(entries)


def families_from_mappings(values: object, *, where: str = "slides") -> tuple[SlideFamily, ...]:
    """Families from a list of mappings with the keys of a family file. Raises InputError with all faults.

    A fault's place begins with the entry's: `slides[0]`.
    """
    if not isinstance(values, (list, tuple)) or not values:
        says = "is not a list of slide families"
        raise InputError([Fault(where, show_value(values), says, "a list of at least one family")])
    return _families([_Entry(one, _numbered(where, at), where) for at, one in enumerate(values)])


def _numbered(where: str, position: int) -> Place:
    """Places inside one entry of a list that stands in no file."""
    return lambda loc: (position, f"{where}[{position}]")


def family_mappings(text: str, name: str) -> tuple[Mapping[str, Any], ...]:
    """The keys of each family in the text of a family file, not read yet; `name` is what faults call it.

    Raises InputError when it is no TOML, or holds something else beside its families.
    """
    found = [entry.values for entry in _entries(parse_toml(text, name))]
    return tuple(values for values in found if isinstance(values, Mapping))


@cache
def _shipped() -> tuple[SlideFamily, ...]:
    files = [parse_toml(shipped_text(f"families/{name}.toml"), f"{name}.toml") for name in SHIPPED]
    return _families([entry for file in files for entry in _entries(file)])


def _entries(file: TomlFile) -> list[_Entry]:
    """The families of one file. Raises InputError when it holds none."""
    values = file.values
    if "family" not in values:
        return [_Entry(values, file.place, file.name)]
    faults = []
    for key, value in values.items():
        if key != "family":
            says = "stands beside [[family]]: each family has its own keys"
            found = f"{key} = {show_value(value)}"
            faults.append(Fault(file.place((key,))[1], found, says, "under a [[family]]"))
    several = values["family"]
    if not isinstance(several, list) or not several:
        says = "is not a list of families: write [[family]]"
        faults.append(Fault(file.place(("family",))[1], show_value(several), says, "[[family]]"))
    if faults:
        raise InputError(faults)
    return [_Entry(one, _place_in(file, at), file.name) for at, one in enumerate(several)]


def _place_in(file: TomlFile, position: int) -> Place:
    """Places inside one of the families of a file."""
    return lambda loc: file.place(("family", position, *loc))


def _families(entries: Sequence[_Entry | InputError]) -> tuple[SlideFamily, ...]:
    """All entries read, ids unique; an entry may be the error of its file. Raises InputError."""
    families: list[SlideFamily] = []
    faults: list[Fault] = []
    owners: dict[str, str] = {}
    file, placed = "", list[tuple[int, Fault]]()
    for entry in entries:
        if isinstance(entry, InputError):
            faults += [*_in_order(placed), *entry.faults]
            placed = []
            continue
        if entry.file != file:
            faults += _in_order(placed)
            file, placed = entry.file, []
        try:
            families.append(read_family(entry.values))
        except Problems as error:
            placed += dict.fromkeys(entry.fault(problem) for problem in error.problems)
        name = entry.values.get("id") if isinstance(entry.values, Mapping) else None
        if isinstance(name, str) and name in owners:
            says = f"is the id of a family in {owners[name]} already"
            placed.append(entry.fault(Problem(("id",), show_value(name), says, f'"{name}-2"')))
        elif isinstance(name, str):
            owners[name] = entry.file
    faults += _in_order(placed)
    if faults:
        raise InputError(faults)
    return tuple(families)


def _in_order(placed: Iterable[tuple[int, Fault]]) -> list[Fault]:
    return [fault for _, fault in sorted(placed, key=lambda one: one[0])]


def read_family(values: object) -> SlideFamily:
    """One family from a mapping with the keys of its file.

    Raises Problems with the place of each in the mapping, those between keys that read among them.
    """
    try:
        return _family(values)
    except ValidationError as error:
        problems = problems_of(error, SlideFamily)
        raise Problems([*problems, *_problems_behind(values, problems)]) from None


def _family(values: object) -> SlideFamily:
    inches = isinstance(values, Mapping) and values.get("units") == "in"
    return SlideFamily.model_validate(values, context={"bare_unit": "in" if inches else "mm"})


def _problems_behind(values: object, found: Sequence[Problem]) -> list[Problem]:
    """What is wrong between keys, found by looking again without the keys that could not be read.

    The rules between keys run only once every key reads.
    """
    if not isinstance(values, Mapping):
        return []
    broken = {problem.loc[0] for problem in found if problem.loc and problem.loc[0] != "length"}
    lengths = values.get("length")
    if broken & {"setback", "front_overlay"} or not isinstance(lengths, list):
        return []
    worse = {problem.loc[1] for problem in found if problem.loc[0] == "length" and len(problem.loc) > 1}
    sound = [position for position in range(len(lengths)) if position not in worse]
    again = {"id": "again", "capacity": "1 kg", "inside_width_deduction": "42 mm"}
    again |= {key: value for key, value in values.items() if key not in broken}
    try:
        _family({**again, "length": [lengths[position] for position in sound]})
    except ValidationError as error:
        return [
            _at_place(problem, sound)
            for problem in problems_of(error, SlideFamily)
            if problem.loc[0] not in broken and problem.loc != ("length",)
        ]
    return []


def _at_place(problem: Problem, sound: Sequence[int]) -> Problem:
    """A problem of one of the sound lengths, at its place among all lengths."""
    if problem.loc[0] != "length" or not isinstance(problem.loc[1], int):
        return problem
    return replace(problem, loc=("length", sound[problem.loc[1]], *problem.loc[2:]))


def family_named(families: Sequence[SlideFamily], id: str, *, where: str = "slide") -> SlideFamily:  # noqa: A002
    """The family with that id. Raises InputError naming the nearest when there is none."""
    for family in families:
        if family.id == id:
            return family
    known = [family.id for family in families]
    says = f"is not one of the slide families: {', '.join(known)}"
    raise InputError([Fault(where, show_value(id), says, f'"{nearest(id, known)}"')])
