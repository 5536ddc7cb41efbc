"""The hardware list: slides, locking brackets, spacers, rear brackets, packing and screws of all drawers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from drawerwright.model.fitted import ChosenSlide, FittedDrawer, FittedJob
from drawerwright.pack.figures import inches, millimetres
from drawerwright.pack.tables import Cell, Column, Table
from drawerwright.units import ShownUnits


@dataclass(frozen=True, slots=True)
class Item:
    """One kind of hardware: `size` [mm], a slide's nominal length or a thickness; `hand` L, R or empty."""

    name: str
    family: str
    size: float | None
    hand: str
    unit: str
    note: str


@dataclass(slots=True)
class _Wanted:
    count: int = 0
    ids: list[str] = field(default_factory=list)


def items_of(fitted: FittedDrawer) -> Iterator[tuple[Item, int]]:
    """What one drawer takes, with how many; nothing where it does not fit.

    Each spacer stands under both brackets, left and right. Screws are counted where their holes are known;
    what a rear bracket or packing takes is for the slide maker's instructions to say.
    """
    slide, mounting = fitted.slide, fitted.mounting
    if slide is None or mounting is None:
        return
    family = slide.family.id
    yield Item("slide", family, slide.length.nominal, "", "pair", slide.family.title), 1
    if slide.family.carriage == "concealed":
        yield from _bracket_items(slide)
    if mounting.rear_bracket_left is not None:
        yield Item("rear bracket", family, None, "L", "piece", ""), 1
    if mounting.rear_bracket_right is not None:
        yield Item("rear bracket", family, None, "R", "piece", ""), 1
    for hand, thickness in (("L", mounting.packing_left), ("R", mounting.packing_right)):
        if thickness > 0:
            long = f"{millimetres(mounting.member)} long, behind the cabinet member"
            yield Item("packing", "", thickness, hand, "strip", long), 1
    row_holes = len(mounting.holes) + len(mounting.slots)
    if row_holes:
        yield (
            Item("screw for a row hole", family, None, "", "piece", "cabinet members, both sides"),
            2 * row_holes,
        )
    if mounting.shelf_holes:
        screws = 2 * len(mounting.shelf_holes)
        yield Item("screw into the shelf", family, None, "", "piece", "cabinet members, both sides"), screws


def _bracket_items(slide: ChosenSlide) -> Iterator[tuple[Item, int]]:
    """Locking brackets, left and right, with their spacers and screws."""
    family = slide.family.id
    yield Item("locking bracket", family, None, "L", "piece", ""), 1
    yield Item("locking bracket", family, None, "R", "piece", ""), 1
    for thickness in slide.side_spacers:
        yield Item("spacer", family, thickness, "", "piece", "between bracket and box side"), 2
    for thickness in slide.subfront_spacers:
        yield Item("spacer", family, thickness, "", "piece", "between bracket and subfront"), 2
    pilot_holes = len(slide.family.bracket_holes)
    if pilot_holes:
        yield Item("screw for a locking bracket", family, None, "", "piece", "both brackets"), 2 * pilot_holes


def hardware_rows(fitted: FittedJob) -> tuple[tuple[Item, int, tuple[str, ...]], ...]:
    """Kinds of hardware, how many in all, and for which drawers; slides first, each in order of first use."""
    wanted: dict[Item, _Wanted] = {}
    for drawer in fitted.drawers:
        for item, count in items_of(drawer):
            one = wanted.setdefault(item, _Wanted())
            one.count += count * drawer.drawer.quantity
            if drawer.id not in one.ids:
                one.ids.append(drawer.id)
    kinds = tuple(dict.fromkeys(item.name for item in sorted(wanted, key=lambda item: item.name != "slide")))
    return tuple(
        (item, wanted[item].count, tuple(wanted[item].ids))
        for kind in kinds
        for item in wanted
        if item.name == kind
    )


def hardware_list(fitted: FittedJob, units: ShownUnits) -> Table:
    """The hardware list as a table; sizes are real numbers in mm, inches an extra column of text."""
    columns = [
        Column("Item", "text", 24),
        Column("Family", "text", 16),
        Column("Size, mm", "thickness", 10),
    ]
    if units != "mm":
        columns.append(Column("Size, in", "inches", 11))
    columns += [
        Column("Hand", "text", 7),
        Column("Count", "count", 8),
        Column("Unit", "text", 8),
        Column("Drawers", "text", 36),
        Column("Note", "text", 38),
    ]
    rows: list[tuple[Cell, ...]] = []
    for item, count, ids in hardware_rows(fitted):
        in_inches: tuple[Cell, ...] = ()
        if units != "mm":
            in_inches = (None if item.size is None else inches(item.size),)
        row = (
            item.name,
            item.family,
            item.size,
            *in_inches,
            item.hand,
            count,
            item.unit,
            ", ".join(ids),
            item.note,
        )
        rows.append(row)
    return Table(f"Hardware list: {fitted.title}", "Hardware list", tuple(columns), tuple(rows))
