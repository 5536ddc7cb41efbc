"""One DXF a distinct panel, at true size, and a list that says which drawers or cabinets each is for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Final, TypeAlias

from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.views.cabinet_column import bored_in_column, cabinet_sides
from drawerwright.drawing.views.panels import panels
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.filenames import TakenStems
from drawerwright.pack.shown import MILLIMETRES, Shown
from drawerwright.pack.tables import Column, Table, write_csv

FOLDER: Final = "dxf"
INDEX: Final = "panels.csv"
_CABINET_SIDE: Final = "cabinet side"

Tell: TypeAlias = Callable[[AlikeDrawers], None]


@dataclass(slots=True)
class ListedPanel:
    """A line of the list: the file of a panel, how many of it are made, and the drawers that want it.

    `cabinets` names the cabinets of a side that carries the holes of a whole column.
    """

    file: str
    name: str
    count: int = 0
    ids: list[str] = field(default_factory=list)
    cabinets: tuple[str, ...] = ()


def panel_files(
    distinct: Sequence[AlikeDrawers], shown: Shown = MILLIMETRES, tell: Tell = lambda _: None
) -> Iterator[tuple[str, bytes]]:
    """Path and content of each DXF and of the list of them; each is named by its first drawer or cabinet.

    Panels that are drawn alike are written once, in the order in which they first come, and no drawing is
    kept. Sides of cabinets with a column of drawers come last, each with the holes of all its drawers. `tell`
    is called once a kind of drawer has been drawn.
    """
    stems = TakenStems()
    listed: dict[bytes, ListedPanel] = {}
    for alike in distinct:
        for name, scene, drawers in _panels_of(alike, shown):
            likeness = _likeness(name, scene)
            if likeness not in listed:
                file = f"{stems.take(drawers[0].id, name)}.dxf"
                listed[likeness] = ListedPanel(file, name)
                yield f"{FOLDER}/{file}", write_dxf(scene)
            listed[likeness].ids += [one.id for one in drawers]
            listed[likeness].count += sum(one.drawer.quantity for one in drawers)
        tell(alike)
    lines = list(listed.values())
    for side in cabinet_sides((one for alike in distinct for one in alike.drawers), shown):
        file = f"{stems.take(side.cabinets[0], side.name)}.dxf"
        lines.append(ListedPanel(file, side.name, len(side.cabinets), list(side.ids), side.cabinets))
        yield f"{FOLDER}/{file}", write_dxf(side.scene)
    yield f"{FOLDER}/{INDEX}", write_csv(_list_of(lines))


def _panels_of(alike: AlikeDrawers, shown: Shown) -> Iterator[tuple[str, Scene, tuple[FittedDrawer, ...]]]:
    """Name and drawing of each panel, with the drawers that want it.

    A cabinet side is for those alone whose holes are not on the side of a whole cabinet.
    """
    alone = tuple(one for one in alike.drawers if not bored_in_column(one))
    for name, scene in panels(alike.first, shown, with_cabinet_sides=bool(alone)):
        yield name, scene, alone if name.startswith(_CABINET_SIDE) else alike.drawers


def _likeness(name: str, scene: Scene) -> bytes:
    """What two panels share that are drawn alike; numbers are told in full by their representation."""
    return sha256(repr((name, scene.primitives)).encode("utf-8", "surrogatepass")).digest()


def _list_of(lines: Sequence[ListedPanel]) -> Table:
    columns = (
        Column("File", "text", 40),
        Column("Panel", "text", 20),
        Column("Count", "count", 8),
        Column("Cabinets", "ids", 20),
        Column("Drawers", "ids", 40),
    )
    rows = tuple(
        (one.file, one.name, one.count, ", ".join(one.cabinets), ", ".join(one.ids)) for one in lines
    )
    return Table("Panels", "Panels", columns, rows)
