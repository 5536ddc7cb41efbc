"""The file of materials, read: kinds of sheet goods and wood, thicknesses they are sold in, tolerances."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Literal

from pydantic import ValidationError

from drawerwright.catalogue.boards import board, boards
from drawerwright.errors import Fault, InputError, Problem, ReadingError
from drawerwright.files.toml_text import TomlFile
from drawerwright.model.faults import named_place, problems_of
from drawerwright.model.quantities import (
    Clearance,
    Name,
    NotNegative,
    Positive,
    Record,
    Size,
    Text,
    Truth,
    Units,
)
from drawerwright.model.spelling import nearest
from drawerwright.units import parse_size, show_value


class Tolerance(Record):
    """How far a sheet may lie over and under [mm]: a length and a share of the thickness.

    Above `up_to` the share `share_beyond` alone counts, both ways.
    """

    id: Name
    plus: Clearance
    minus: Clearance
    share: NotNegative = 0.0
    up_to: Size | None = None
    share_beyond: NotNegative = 0.0
    source: Text

    def limits(self, thickness: float) -> tuple[float, float]:
        """Lowest and highest thickness [mm] about one [mm]."""
        if self.up_to is not None and thickness > self.up_to + 1e-9:
            share = self.share_beyond * thickness
            return thickness - share, thickness + share
        share = self.share * thickness
        return thickness - self.minus - share, thickness + self.plus + share


class SoldThickness(Record):
    """A thickness as it is named; `bought`: what comes under that name [mm], None: as named."""

    nominal: Name
    bought: Size | None = None
    tolerance: Name | None = None
    source: Text | None = None


class Kind(Record):
    """A kind of sheet goods or wood. Its density is told [kg/m³], or is that of a board."""

    name: Name
    aliases: tuple[Name, ...] = ()
    title: Text = ""
    board: Name | None = None
    density: Positive | None = None
    density_source: Text = ""
    tolerance: Name | None = None
    limits_from: Literal["bought", "nominal"] = "bought"
    any_thickness: Truth = False
    source: Text
    thickness: tuple[SoldThickness, ...] = ()

    def joined(self, later: Kind) -> Kind:
        """This kind with what another file tells of it: thicknesses of the same name are replaced."""
        sold = {one.nominal: one for one in (*self.thickness, *later.thickness)}
        told = {key: getattr(later, key) for key in later.model_fields_set}
        if "density" in told:
            told.setdefault("board", None)
        return self.model_copy(update={**told, "thickness": tuple(sold.values())})


class MaterialFile(Record):
    """All of a file."""

    units: Units = "mm"
    tolerances: tuple[Tolerance, ...] = ()
    kinds: tuple[Kind, ...] = ()


class _Written(Record):
    """The same by the keys of the file."""

    units: Units = "mm"
    tolerance: tuple[Tolerance, ...] = ()
    material: tuple[Kind, ...] = ()


def nominal_thickness(nominal: str) -> float:
    """The thickness that a name says [mm]: a fraction is inches, a bare number mm. Raises ReadingError."""
    return parse_size(nominal, "mm")


def read_material_file(file: TomlFile, before: Sequence[Tolerance] = ()) -> MaterialFile:
    """A file of materials; `before`: tolerances that it may use. Raises InputError with all its faults."""
    unit = "in" if file.values.get("units") == "in" else "mm"
    try:
        told = _Written.model_validate(file.values, context={"bare_unit": unit})
        problems: list[Problem] = []
    except ValidationError as error:
        raise _refused(problems_of(error, _Written), file) from None
    known = {one.id for one in (*before, *told.tolerance)}
    for at, kind in enumerate(told.material):
        problems += _problems(("material", at), kind, known)
    if problems:
        raise _refused(problems, file)
    return MaterialFile(units=told.units, tolerances=told.tolerance, kinds=told.material)


def _problems(loc: tuple[str | int, ...], kind: Kind, tolerances: set[str]) -> Iterator[Problem]:
    """What does not hold together in one kind."""
    if kind.board is not None:
        try:
            board(kind.board)
        except InputError:
            close = nearest(kind.board, [one.id for one in boards()])
            says = f'is not a known board: the nearest is "{close}"'
            yield Problem((*loc, "board"), show_value(kind.board), says, f'"{close}"')
    for key, used in (("tolerance", kind.tolerance), *_tolerances_used(kind)):
        if used is not None and used not in tolerances:
            close = nearest(used, tolerances)
            says = f'is not a known tolerance: the nearest is "{close}"'
            yield Problem((*loc, key), show_value(used), says, f'"{close}"')
    for at, one in enumerate(kind.thickness):
        try:
            nominal_thickness(one.nominal)
        except ReadingError as error:
            yield Problem((*loc, "thickness", at, "nominal"), error.value, error.says, error.try_)


def _tolerances_used(kind: Kind) -> Iterator[tuple[str, str | None]]:
    for one in kind.thickness:
        yield "thickness", one.tolerance


def _refused(problems: Sequence[Problem], file: TomlFile) -> InputError:
    placed: dict[Fault, int] = {}
    values: Mapping[str, Any] = file.values
    for problem in problems:
        order, place = file.place(problem.loc)
        where = f"{place} {named_place(problem.loc, values)}"
        placed.setdefault(Fault(where, problem.value, problem.says, problem.try_), order)
    return InputError(sorted(placed, key=lambda fault: placed[fault]))
