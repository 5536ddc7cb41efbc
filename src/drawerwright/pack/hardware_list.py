"""The hardware list: what all drawers take, what of it is ordered, in which cartons, for how much."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from drawerwright.model.fitted import FittedJob
from drawerwright.pack.figures import inches
from drawerwright.pack.hardware_items import KINDS, SCREW_ASSUMPTION, Item, items_of
from drawerwright.pack.shown import Shown
from drawerwright.pack.tables import Cell, Column, Table

SPARE_SHARE: Final = 0.05
"""Spare screws, as a share of those that are used. Common practice, no source."""
LEAST_SPARES: Final = 2
"""Fewest spare screws of a kind. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class HardwareRow:
    """One kind of hardware: how many are used, how many of it are spare, and for which drawers."""

    item: Item
    used: int
    ids: tuple[str, ...]

    @property
    def spare(self) -> int:
        """Spares on top of what is used: screws alone have any."""
        return max(LEAST_SPARES, math.ceil(self.used * SPARE_SHARE - 1e-9)) if self.item.is_screw else 0

    @property
    def cartons(self) -> int | None:
        """Whole cartons to order; None where the family tells no carton, or nothing is ordered."""
        if self.item.carton is None or self.item.supply != "order":
            return None
        return -(-(self.used + self.spare) // self.item.carton)

    @property
    def ordered(self) -> int:
        """How many to order: used and spare, in whole cartons; 0 for what comes with something else."""
        if self.item.supply != "order":
            return 0
        if self.cartons is not None and self.item.carton is not None:
            return self.cartons * self.item.carton
        return self.used + self.spare

    @property
    def price(self) -> float | None:
        """Price of what is ordered, in the user's money; None where no price is told."""
        if self.item.price is None or self.item.supply != "order":
            return None
        return self.item.price * self.ordered


def hardware_rows(fitted: FittedJob) -> tuple[HardwareRow, ...]:
    """Kinds of hardware in the order of `KINDS`, each kind in order of first use."""
    used: dict[Item, int] = {}
    ids: dict[Item, dict[str, None]] = {}
    for drawer in fitted.drawers:
        for item, count in items_of(drawer):
            used[item] = used.get(item, 0) + count * drawer.drawer.quantity
            ids.setdefault(item, {})[drawer.id] = None
    return tuple(
        HardwareRow(item, used[item], tuple(ids[item]))
        for item in sorted(used, key=lambda item: KINDS.index(item.name))
    )


def total_price(rows: tuple[HardwareRow, ...]) -> float | None:
    """Sum of all prices told, in the user's money; None where none is."""
    prices = [row.price for row in rows if row.price is not None]
    return sum(prices) if prices else None


def remarks(rows: tuple[HardwareRow, ...]) -> tuple[str, ...]:
    """What the counts stand on."""
    told = [SCREW_ASSUMPTION] if any(row.item.is_screw for row in rows) else []
    told.append(
        f"Spares: {SPARE_SHARE:.0%} of the screws, at least {LEAST_SPARES} of each kind (common practice, no"
        " source); none of anything else."
    )
    if any(row.item.supply == "with the brackets" for row in rows):
        told.append("Spacers lie in the bag of the locking brackets: they are counted, and not ordered.")
    if any(row.cartons is not None for row in rows):
        told.append("Orders are rounded up to whole cartons where the slide family tells how many one holds.")
    if total_price(rows) is not None:
        told.append("Prices are those of the slide families, of a pair; what has none is not in the total.")
    return tuple(told)


def hardware_list(fitted: FittedJob, shown: Shown) -> Table:
    """The hardware list as a table; sizes are real numbers in mm, inches an extra column of text."""
    found = hardware_rows(fitted)
    total = total_price(found)
    in_cartons = any(row.cartons is not None for row in found)
    columns = [Column("Item", "text", 24), Column("Family", "text", 14), Column("Size, mm", "thickness", 9)]
    if shown.with_inches:
        columns.append(Column("Size, in", "inches", 11))
    columns += [
        Column("Hand", "text", 6),
        Column("Used", "count", 7),
        Column("Spare", "count", 7),
        Column("Order", "count", 7),
        Column("Unit", "text", 7),
    ]
    if in_cartons:
        columns.append(Column("Cartons", "count", 8))
    if total is not None:
        columns += [Column("Price of one", "money", 9), Column("Price", "money", 10)]
    columns += [Column("Supply", "text", 16), Column("Drawers", "ids", 32), Column("Note", "text", 38)]
    rows = [_cells(row, shown, cartons=in_cartons, prices=total is not None) for row in found]
    if total is not None:
        headings = [column.heading for column in columns]
        rows.append(
            tuple("total" if name == "Item" else total if name == "Price" else None for name in headings)
        )
    return Table(
        f"Hardware list: {fitted.title}", "Hardware list", tuple(columns), tuple(rows), remarks(found)
    )


def _cells(row: HardwareRow, shown: Shown, *, cartons: bool, prices: bool) -> tuple[Cell, ...]:
    item = row.item
    cells: list[Cell] = [item.name, item.family, item.size]
    if shown.with_inches:
        cells.append(None if item.size is None else inches(item.size, shown))
    cells += [item.hand, row.used, row.spare, row.ordered, item.unit]
    if cartons:
        cells.append(row.cartons)
    if prices:
        cells += [item.price, row.price]
    cells += [item.supply, ", ".join(row.ids), item.note]
    return tuple(cells)
