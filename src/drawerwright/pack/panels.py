"""One DXF a distinct panel, at true size, and a list that says which drawers each is for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.views.panels import panels
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.filenames import distinct_stems
from drawerwright.pack.tables import Column, Table, write_csv

FOLDER = "dxf"
INDEX = "panels.csv"


@dataclass(frozen=True, slots=True)
class DistinctPanel:
    """A panel that one or more drawers want, and how many of it are made in all."""

    name: str
    scene: Scene
    ids: tuple[str, ...]
    count: int


def distinct_panels(
    distinct: tuple[AlikeDrawers, ...], tell: Callable[[AlikeDrawers], None] = lambda _: None
) -> tuple[DistinctPanel, ...]:
    """Panels of all drawers, those that are drawn alike once, in the order in which they first come.

    `tell` is called once a kind of drawer has been drawn.
    """
    kinds: dict[tuple[str, tuple[Primitive, ...]], list[tuple[Scene, AlikeDrawers]]] = {}
    for alike in distinct:
        for name, scene in panels(alike.first):
            kinds.setdefault((name, scene.primitives), []).append((scene, alike))
        tell(alike)
    return tuple(
        DistinctPanel(
            name=name,
            scene=uses[0][0],
            ids=tuple(one for _, alike in uses for one in alike.ids),
            count=sum(alike.count for _, alike in uses),
        )
        for (name, _), uses in kinds.items()
    )


def panel_files(
    distinct: tuple[AlikeDrawers, ...], tell: Callable[[AlikeDrawers], None] = lambda _: None
) -> Iterator[tuple[str, bytes]]:
    """Path and content of each DXF and of the list of them; each is named by its first drawer."""
    found = distinct_panels(distinct, tell)
    stems = distinct_stems(f"{panel.ids[0]} {panel.name}" for panel in found)
    for stem, panel in zip(stems, found, strict=True):
        yield f"{FOLDER}/{stem}.dxf", write_dxf(panel.scene)
    rows = tuple(
        (f"{stem}.dxf", panel.name, panel.count, ", ".join(panel.ids))
        for stem, panel in zip(stems, found, strict=True)
    )
    columns = (
        Column("File", "text", 40),
        Column("Panel", "text", 20),
        Column("Count", "count", 8),
        Column("Drawers", "ids", 40),
    )
    yield f"{FOLDER}/{INDEX}", write_csv(Table("Panels", "Panels", columns, rows))
