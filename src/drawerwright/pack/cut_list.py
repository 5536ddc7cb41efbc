"""The cut list: identical parts of all drawers gathered, finished and saw sizes [mm], inches where wanted."""

from __future__ import annotations

from dataclasses import dataclass

from drawerwright.model.fitted import FittedDrawer, FittedJob, Part
from drawerwright.pack.figures import GRAIN_WORDS, cut_inches, inches_down, thickness_inches
from drawerwright.pack.part_work import edges_text, part_work
from drawerwright.pack.rounding import rounding_notes
from drawerwright.pack.shown import MILLIMETRES, Shown
from drawerwright.pack.tables import Cell, Column, Table


@dataclass(frozen=True, slots=True)
class CutRow:
    """One kind of part: which drawers want it, how many in all, of what, and what else is done to it."""

    ids: tuple[str, ...]
    part: Part
    count: int
    material: str
    work: str


def part_material(part: Part, fitted: FittedDrawer) -> str:
    """What the part is made of, by the name that the job gives it; empty where the job does not say."""
    return getattr(fitted.drawer.materials, part.part, None) or ""


def cut_rows(fitted: FittedJob, shown: Shown = MILLIMETRES) -> tuple[CutRow, ...]:
    """Distinct parts in the order in which they first come.

    Two parts are one kind when name, sizes (to 0.001 mm), grain, banding, material and work agree.
    """
    kinds: dict[tuple[object, ...], list[tuple[FittedDrawer, Part]]] = {}
    for drawer in fitted.drawers:
        for part in drawer.parts:
            sizes = tuple(round(size, 3) for size in (part.length, part.width, part.thickness, part.edging))
            told = (part.part, sizes, part.grain, part.edged)
            kind = (*told, part_material(part, drawer), part_work(part, drawer, shown))
            kinds.setdefault(kind, []).append((drawer, part))
    return tuple(
        CutRow(
            ids=tuple(dict.fromkeys(drawer.id for drawer, _ in uses)),
            part=uses[0][1],
            count=sum(part.count * drawer.drawer.quantity for drawer, part in uses),
            material=str(kind[-2]),
            work=str(kind[-1]),
        )
        for kind, uses in kinds.items()
    )


def remarks(rows: tuple[CutRow, ...], shown: Shown) -> tuple[str, ...]:
    """What whoever cuts has to know about the figures."""
    told = []
    if shown.with_inches:
        told.append(
            f"Inches: lengths and widths are rounded down to 1/{shown.parts}, so that no part comes out"
            " larger than it may be; the length of the sides, which the slide sets, to the nearest. A"
            " thickness is the board's own: a fraction where it is one, else a decimal. The millimetres are"
            " not rounded down."
        )
    if any(row.part.edged for row in rows):
        told.append("Finished sizes include the banding; saw sizes are cut before the banding goes on.")
    told.append("Grain along: the length runs with the grain. Measure the sheet before you cut.")
    return tuple(told)


def rounding_remarks(fitted: FittedJob, shown: Shown) -> tuple[str, ...]:
    """What cutting by the inches would spoil, with the drawers that it would."""
    of: dict[str, list[str]] = {}
    for drawer in fitted.drawers:
        for note in rounding_notes(drawer, shown):
            of.setdefault(note, []).append(drawer.id)
    return tuple(f"{', '.join(ids)}: {note[:1].lower()}{note[1:]}" for note, ids in of.items())


def cut_list(fitted: FittedJob, shown: Shown) -> Table:
    """The cut list as a table; sizes stay real numbers in mm, inches are extra columns of text."""
    found = cut_rows(fitted, shown)
    banded = any(row.part.edged for row in found)
    told = any(row.material for row in found)
    columns = [
        Column("Drawers", "ids", 24),
        Column("Part", "text", 12),
        Column("Count", "count", 8),
        Column("Length, mm", "length", 11),
        Column("Width, mm", "length", 11),
        Column("Thickness, mm", "thickness", 11),
    ]
    if shown.with_inches:
        columns += [Column(f"{name}, in", "inches", 13) for name in ("Length", "Width", "Thickness")]
    columns.append(Column("Grain", "text", 9))
    if banded:
        columns += [
            Column("Banded edges", "text", 14),
            Column("Banding, mm", "thickness", 10),
            Column("Saw length, mm", "length", 11),
            Column("Saw width, mm", "length", 11),
        ]
        if shown.with_inches:
            columns += [Column(f"Saw {name}, in", "inches", 13) for name in ("length", "width")]
    if told:
        columns.append(Column("Material", "text", 18))
    columns.append(Column("Work, mm (in)" if shown.with_inches else "Work, mm", "text", 52))
    rows = tuple(_cells(row, shown, banded=banded, material=told) for row in found)
    says = (*remarks(found, shown), *rounding_remarks(fitted, shown))
    return Table(f"Cut list: {fitted.title}", "Cut list", tuple(columns), rows, remarks=says)


def _cells(row: CutRow, shown: Shown, *, banded: bool, material: bool) -> tuple[Cell, ...]:
    part = row.part
    cells: list[Cell] = [", ".join(row.ids), part.part, row.count, part.length, part.width, part.thickness]
    if shown.with_inches:
        cells += [cut_inches(part.length, part.part, shown), inches_down(part.width, shown)]
        cells.append(thickness_inches(part.thickness, shown))
    cells.append(GRAIN_WORDS[part.grain])
    if banded:
        cells += [edges_text(part), part.edging or None, part.cut_length, part.cut_width]
        if shown.with_inches:
            cells += [cut_inches(part.cut_length, part.part, shown), inches_down(part.cut_width, shown)]
    if material:
        cells.append(row.material)
    cells.append(row.work)
    return tuple(cells)
