"""The cut list: identical parts of all drawers gathered, sizes [mm] and, where wanted, inches."""

from __future__ import annotations

from dataclasses import dataclass

from drawerwright.model.fitted import FittedDrawer, FittedJob, Part
from drawerwright.pack.figures import inches, millimetres
from drawerwright.pack.tables import Cell, Column, Table
from drawerwright.units import ShownUnits


@dataclass(frozen=True, slots=True)
class CutRow:
    """One kind of part: which drawers want it, how many in all, and what else is done to it."""

    ids: tuple[str, ...]
    part: Part
    count: int
    note: str


def part_note(part: Part, fitted: FittedDrawer) -> str:
    """What is still cut or bored into a part before the box is put together, in words [mm].

    The front carries nothing that the job decides, the bottom lies in grooves or under the box as told.
    """
    box, slide, wishes = fitted.box, fitted.slide, fitted.drawer.box
    if box is None or slide is None:
        return ""
    if part.part == "bottom":
        return "screwed under the box" if wishes.bottom == "under" else "into the grooves"
    says = []
    grooved = ("side", "subfront", "back") if wishes.bottom == "groove-4" else ("side", "subfront")
    if part.part in grooved and wishes.bottom != "under":
        says.append(
            f"groove {millimetres(box.bottom)} wide, {millimetres(box.groove_depth)} deep,"
            f" {millimetres(box.bottom_recess)} above the lower edge"
        )
    if part.part == "back" and slide.family.carriage == "concealed":
        rear = slide.family.rear
        says.append(
            f"notches {millimetres(rear.notch_width)} × {millimetres(rear.notch_height)},"
            f" hook bores Ø {millimetres(rear.bore)}, {millimetres(rear.bore_depth)} deep"
        )
    return "; ".join(says)


def cut_rows(fitted: FittedJob) -> tuple[CutRow, ...]:
    """Distinct parts in the order in which they first come.

    Two parts are one kind when name, sizes (to 0.001 mm), grain and note agree.
    """
    kinds: dict[tuple[str, float, float, float, str, str], list[tuple[FittedDrawer, Part]]] = {}
    for drawer in fitted.drawers:
        for part in drawer.parts:
            sizes = (round(part.length, 3), round(part.width, 3), round(part.thickness, 3))
            kinds.setdefault((part.part, *sizes, part.grain, part_note(part, drawer)), []).append(
                (drawer, part)
            )
    return tuple(
        CutRow(
            ids=tuple(dict.fromkeys(drawer.id for drawer, _ in uses)),
            part=uses[0][1],
            count=sum(part.count * drawer.drawer.quantity for drawer, part in uses),
            note=kind[-1],
        )
        for kind, uses in kinds.items()
    )


def cut_list(fitted: FittedJob, units: ShownUnits) -> Table:
    """The cut list as a table; sizes stay real numbers in mm, inches are extra columns of text."""
    columns = [
        Column("Drawers", "text", 28),
        Column("Part", "text", 12),
        Column("Count", "count", 8),
        Column("Length, mm", "length", 11),
        Column("Width, mm", "length", 11),
        Column("Thickness, mm", "thickness", 11),
    ]
    if units != "mm":
        columns += [Column(f"{name}, in", "inches", 13) for name in ("Length", "Width", "Thickness")]
    columns += [Column("Grain along", "text", 9), Column("Material and work", "text", 52)]
    rows: list[tuple[Cell, ...]] = []
    for row in cut_rows(fitted):
        sizes = (row.part.length, row.part.width, row.part.thickness)
        in_inches = tuple(inches(size) for size in sizes) if units != "mm" else ()
        rows.append(
            (", ".join(row.ids), row.part.part, row.count, *sizes, *in_inches, row.part.grain, row.note)
        )
    return Table(f"Cut list: {fitted.title}", "Cut list", tuple(columns), tuple(rows))
