"""One DXF a distinct panel: what a machine bores and cuts, at true size; identical panels once."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.scene import Scene
from drawerwright.pack.distinct import AlikeDrawers
from drawerwright.pack.filenames import distinct_stems

FOLDER = "dxf"


def panel_files(
    distinct: tuple[AlikeDrawers, ...],
    panels_of: Callable[[AlikeDrawers], tuple[tuple[str, Scene], ...]],
    tell: Callable[[AlikeDrawers], None],
) -> Iterator[tuple[str, bytes]]:
    """Path and content of each DXF, drawer by drawer; a panel like an earlier one is left out.

    `panels_of` gives a drawer's panels by name; `tell` is called once a drawer's panels are done.
    """
    seen: set[bytes] = set()
    made: list[tuple[str, bytes]] = []
    for alike in distinct:
        for name, scene in panels_of(alike):
            content = write_dxf(scene)
            if content not in seen:
                seen.add(content)
                made.append((f"{alike.first.id} {name}", content))
        tell(alike)
    stems = distinct_stems(name for name, _ in made)
    return ((f"{FOLDER}/{stem}.dxf", content) for stem, (_, content) in zip(stems, made, strict=True))
