"""One DXF a distinct panel, at true size, and a list that says which drawers or cabinets each is for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.views.cabinet_column import bored_in_column, cabinet_sides
from drawerwright.drawing.views.panels import panels
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.filenames import distinct_stems
from drawerwright.pack.shown import MILLIMETRES, Shown
from drawerwright.pack.tables import Column, Table, write_csv

FOLDER: Final = "dxf"
INDEX: Final = "panels.csv"
_CABINET_SIDE: Final = "cabinet side"


@dataclass(frozen=True, slots=True)
class DistinctPanel:
    """A panel, how many of it are made in all, and the drawers that want it.

    `cabinets` names the cabinets of a side that carries the holes of a whole column.
    """

    name: str
    scene: Scene
    ids: tuple[str, ...]
    count: int
    cabinets: tuple[str, ...] = ()

    @property
    def first_name(self) -> str:
        """What its file is named by: the first cabinet or drawer that wants it, and what it is."""
        return f"{(self.cabinets or self.ids)[0]} {self.name}"


def distinct_panels(
    distinct: Sequence[AlikeDrawers],
    shown: Shown = MILLIMETRES,
    tell: Callable[[AlikeDrawers], None] = lambda _: None,
) -> tuple[DistinctPanel, ...]:
    """Panels of all drawers, those that are drawn alike once, in the order in which they first come.

    Sides of cabinets with a column of drawers come last, each with the holes of all its drawers. `tell` is
    called once a kind of drawer has been drawn.
    """
    kinds: dict[tuple[str, tuple[Primitive, ...]], list[tuple[Scene, Sequence[FittedDrawer]]]] = {}
    for alike in distinct:
        alone = tuple(one for one in alike.drawers if not bored_in_column(one))
        for name, scene in panels(alike.first, shown.units, with_cabinet_sides=bool(alone)):
            drawers = alone if name.startswith(_CABINET_SIDE) else alike.drawers
            kinds.setdefault((name, scene.primitives), []).append((scene, drawers))
        tell(alike)
    found = [
        DistinctPanel(
            name=name,
            scene=uses[0][0],
            ids=tuple(one.id for _, drawers in uses for one in drawers),
            count=sum(one.drawer.quantity for _, drawers in uses for one in drawers),
        )
        for (name, _), uses in kinds.items()
    ]
    found += [
        DistinctPanel(side.name, side.scene, side.ids, len(side.cabinets), side.cabinets)
        for side in cabinet_sides((one for alike in distinct for one in alike.drawers), shown.units)
    ]
    return tuple(found)


def panel_files(
    distinct: Sequence[AlikeDrawers],
    shown: Shown = MILLIMETRES,
    tell: Callable[[AlikeDrawers], None] = lambda _: None,
) -> Iterator[tuple[str, bytes]]:
    """Path and content of each DXF and of the list of them; each is named by its first drawer or cabinet."""
    found = distinct_panels(distinct, shown, tell)
    stems = distinct_stems(panel.first_name for panel in found)
    for stem, panel in zip(stems, found, strict=True):
        yield f"{FOLDER}/{stem}.dxf", write_dxf(panel.scene)
    rows = tuple(
        (f"{stem}.dxf", panel.name, panel.count, ", ".join(panel.cabinets), ", ".join(panel.ids))
        for stem, panel in zip(stems, found, strict=True)
    )
    columns = (
        Column("File", "text", 40),
        Column("Panel", "text", 20),
        Column("Count", "count", 8),
        Column("Cabinets", "ids", 20),
        Column("Drawers", "ids", 40),
    )
    yield f"{FOLDER}/{INDEX}", write_csv(Table("Panels", "Panels", columns, rows))
