"""Sheet goods and wood by the names that shops give them: "1/2 ply", "16 melamine", "3/4 cherry".

A name says less than a rule: a sheet is often thinner than what it is called. What a name stands for here
is the thickness that is commonly bought under it, with the limits within which a sheet lies, each sourced.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Final

from drawerwright.catalogue.boards import board
from drawerwright.catalogue.material_file import (
    Kind,
    MaterialFile,
    SoldThickness,
    Tolerance,
    nominal_thickness,
    read_material_file,
)
from drawerwright.catalogue.shipped import shipped_text
from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.files.toml_text import TomlFile, parse_toml, read_toml
from drawerwright.model.spelling import nearest
from drawerwright.units import ShownUnits, format_length, parse_size, show_value

_FILE: Final = "materials.toml"
_PLAIN_STOCK: Final = "plywood"
_SAME: Final = 0.02
"""How near a thickness must be to one that is sold [mm]: less than any two of them lie apart."""

_INCHES_UP_TO: Final = 2.0
"""Bare numbers up to here may be inches: nothing is sold so thin in mm."""

_NOMINAL: Final = re.compile(r"[\d\s./,\-½¼¾⅛⅜⅝⅞″\"']*(?:(?:mm|cm|inch|in)\b\.?)?\s*", re.IGNORECASE)
_LENGTH_UNITS: Final = frozenset(["mm", "cm", "m", "in", "inch", "inches", "ft"])
_OTHER_UNITS: Final = frozenset(["kg", "g", "lb", "lbs", "oz", "n", "kn"])


@dataclass(frozen=True, slots=True)
class Material:
    """One material in one thickness [mm]; its limits are None where no source tells any; density [kg/m³].

    `board`: the stock it is of, None where that is not known.
    """

    id: str
    title: str
    nominal: float
    thickness: float
    lowest: float | None
    highest: float | None
    source: str
    limits_source: str
    density: float
    density_source: str
    board: str | None = None

    @property
    def thinner(self) -> float:
        """How much less than its name it is [mm]."""
        return self.nominal - self.thickness

    def caution(self, units: ShownUnits = "mm") -> str:
        """The thickness that is used, and that the sheet wants measuring; for papers."""
        says = f"{self.id}: {format_length(self.thickness, units)} used"
        if self.lowest is not None and self.highest is not None:
            low, high = (format_length(one, units) for one in (self.lowest, self.highest))
            says += f", as commonly bought ({low} to {high})"
        return f"{says}; measure the stuff itself"


class Materials:
    """Kinds of stuff, and the thicknesses that they are sold in."""

    def __init__(self, kinds: Iterable[Kind], tolerances: Iterable[Tolerance]) -> None:
        self.kinds = tuple(kinds)
        self.tolerances: Mapping[str, Tolerance] = {one.id: one for one in tolerances}
        self._found: dict[str, Material] = {}

    @cached_property
    def _by_word(self) -> dict[str, Kind]:
        """Kind by each of its names, the longest first, so that "birch ply" is not taken for "ply"."""
        words = {word.casefold(): kind for kind in self.kinds for word in (kind.name, *kind.aliases)}
        return dict(sorted(words.items(), key=lambda pair: (-len(pair[0]), pair[0])))

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of everything that is sold in thicknesses of its own."""
        return tuple(f"{one.nominal} {kind.name}" for kind in self.kinds for one in kind.thickness)

    def all(self) -> tuple[Material, ...]:
        """Everything that is sold in thicknesses of its own, in the order of the files."""
        return tuple(self.find(name) for name in self.ids)

    def find(self, name: str) -> Material:
        """The material of that name. Raises ReadingError naming the nearest."""
        material = self._found.get(name)
        if material is None:
            material = self._found[name] = self._find(name)
        return material

    def is_meant(self, text: str) -> bool:
        """Whether text that is no length may have been meant as a material."""
        plain = " ".join(text.casefold().split())
        match = _NOMINAL.match(plain)
        word = plain[match.end() :] if match else plain
        if word in _LENGTH_UNITS | _OTHER_UNITS or not any(sign.isalpha() for sign in word):
            return False
        has_number = any(sign.isdigit() or sign in "½¼¾⅛⅜⅝⅞" for sign in plain)
        return has_number or bool(difflib.get_close_matches(word, self._by_word, n=1, cutoff=0.75))

    def _find(self, name: str) -> Material:
        plain = " ".join(name.casefold().split())
        for word, kind in self._by_word.items():
            before = plain.removesuffix(word)
            if before == plain or (before and before[-1] not in ' "″' and not before[-1].isdigit()):
                continue
            nominal = before.strip()
            if not nominal:
                says = f"names no thickness of {kind.name}"
                raise ReadingError(show_value(name), says, f'"{self._example(kind)}"')
            if _reads(nominal):
                return self._of(kind, nominal, name)
        known = [*self.ids, *(f"3/4 {kind.name}" for kind in self.kinds if kind.any_thickness)]
        close = nearest(plain, known)
        says = f'is neither a length nor a known material: the nearest is "{close}"'
        raise ReadingError(show_value(name), says, f'"{close}", or the thickness as measured')

    @staticmethod
    def _example(kind: Kind) -> str:
        return f"{kind.thickness[0].nominal if kind.thickness else '3/4'} {kind.name}"

    def _of(self, kind: Kind, nominal: str, name: str) -> Material:
        """A kind in a thickness: one that it is sold in, or, of wood, any."""
        readings = [nominal_thickness(nominal)]
        if readings[0] <= _INCHES_UP_TO and nominal.replace(".", "").replace(",", "").isdigit():
            readings.append(parse_size(nominal, "in"))
        for reading in readings:
            for one in kind.thickness:
                if abs(nominal_thickness(one.nominal) - reading) < _SAME:
                    return self._sold(kind, one)
        if kind.any_thickness:
            return self._planed(kind, nominal, readings[-1])
        sold = ", ".join(one.nominal for one in kind.thickness)
        close = min(kind.thickness, key=lambda one: abs(nominal_thickness(one.nominal) - readings[-1]))
        says = f"is not a thickness in which {kind.name} is known: {sold}"
        try_ = f'"{close.nominal} {kind.name}", or the thickness as measured'
        raise ReadingError(show_value(name), says, try_)

    def _sold(self, kind: Kind, one: SoldThickness) -> Material:
        nominal = nominal_thickness(one.nominal)
        bought = nominal if one.bought is None else one.bought
        tolerance = self.tolerances.get(one.tolerance or kind.tolerance or "")
        limits: tuple[float | None, float | None] = (None, None)
        if tolerance is not None:
            limits = tolerance.limits(nominal if kind.limits_from == "nominal" else bought)
        return Material(
            id=f"{one.nominal} {kind.name}",
            title=kind.title or kind.name,
            nominal=nominal,
            thickness=bought,
            lowest=limits[0],
            highest=limits[1],
            source=one.source or kind.source,
            limits_source=tolerance.source if tolerance is not None else "",
            density=_density(kind)[0],
            density_source=_density(kind)[1],
            board=_board_id(kind),
        )

    def _planed(self, kind: Kind, nominal: str, thickness: float) -> Material:
        density, source = _density(kind)
        bare = nominal.replace(".", "").replace(",", "").isdigit()
        named = f"{nominal} in" if bare and thickness != nominal_thickness(nominal) else nominal
        return Material(
            id=f"{named} {kind.name}",
            title=kind.title or kind.name,
            nominal=thickness,
            thickness=thickness,
            lowest=None,
            highest=None,
            source=kind.source,
            limits_source="",
            density=density,
            density_source=source,
            board=_board_id(kind),
        )


def _reads(nominal: str) -> bool:
    """Whether text is a thickness."""
    try:
        nominal_thickness(nominal)
    except ReadingError:
        return False
    return True


def _density(kind: Kind) -> tuple[float, str]:
    """Density [kg/m³] and its source; that of the box stock where a kind tells none."""
    if kind.density is not None:
        return kind.density, kind.density_source or kind.source
    stock = board(kind.board or _PLAIN_STOCK)
    return stock.density, stock.source


def _board_id(kind: Kind) -> str | None:
    """The stock that a kind is of; None where it tells a density of its own and no stock."""
    return kind.board or (None if kind.density is not None else _PLAIN_STOCK)


@cache
def shipped_materials() -> Materials:
    """The materials that come with the package."""
    return _joined([read_material_file(parse_toml(shipped_text(_FILE), _FILE))])


def load_materials(paths: Sequence[Path] | None = None) -> Materials:
    """The shipped materials with those of files added; a thickness of the same name is replaced.

    Raises InputError with the faults of all files.
    """
    if not paths:
        return shipped_materials()
    files = [read_material_file(parse_toml(shipped_text(_FILE), _FILE))]
    errors: list[InputError] = []
    for path in paths:
        try:
            before = [one for file in files for one in file.tolerances]
            files.append(read_material_file(read_toml(path), before))
        except InputError as error:
            errors.append(error)
    if errors:
        raise InputError(fault for error in errors for fault in error.faults)
    return _joined(files)


def materials_from_mappings(values: object, *, where: str = "materials") -> Materials:
    """The shipped materials with those of mappings added, each with the keys of a file of materials.

    Raises InputError with the faults of all of them.
    """
    if not isinstance(values, (list, tuple)):
        says = "is not a list of tables, each with the keys of a file of materials"
        raise InputError([Fault(where, show_value(values), says, f'"{where}": [{{"material": [...]}}]')])
    files = [read_material_file(parse_toml(shipped_text(_FILE), _FILE))]
    faults: list[Fault] = []
    for at, one in enumerate(values):
        place = f"{where}[{at}]"
        if not isinstance(one, Mapping):
            says = "is not a table with the keys of a file of materials"
            faults.append(Fault(place, show_value(one), says, '{"material": [...]}'))
            continue
        try:
            before = [tolerance for file in files for tolerance in file.tolerances]
            files.append(read_material_file(TomlFile(place, "", one), before))
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)
    return _joined(files)


def _joined(files: Sequence[MaterialFile]) -> Materials:
    kinds: dict[str, Kind] = {}
    for kind in (kind for file in files for kind in file.kinds):
        kinds[kind.name] = kinds[kind.name].joined(kind) if kind.name in kinds else kind
    tolerances = {one.id: one for file in files for one in file.tolerances}
    return Materials(kinds.values(), tolerances.values())


def material_named(name: str, materials: Materials | None = None, *, where: str = "material") -> Material:
    """The material of a name such as "1/2 ply". Raises InputError naming the nearest to an unknown one."""
    try:
        return (materials or shipped_materials()).find(name)
    except ReadingError as error:
        raise InputError([error.fault(where)]) from None


def density_of(name: str, materials: Materials | None = None) -> float:
    """Density [kg/m³] of the material of that name. Raises InputError when there is none."""
    return material_named(name, materials).density
