"""A drawing set down in a room of its page as large as a standard scale allows, and written for print."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from drawerwright.drawing.clearing import clear_lettering
from drawerwright.drawing.drawn import drawn, extent
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.sheet import STANDARD_SCALES
from drawerwright.drawing.svg import write_svg
from drawerwright.pack.lettering import lettered
from drawerwright.pack.names_apart import names_apart

SCALES: Final = (*STANDARD_SCALES[1:], 75.0, 100.0, 150.0, 200.0, 500.0, 1000.0)
"""How many times smaller than life. 100, 200, 500 and 1000: ISO 5455; 75 and 150: common practice."""
_EDGE: Final = 0.6
"""White around a drawing [mm], so that no line is cut at the edge of its room."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing at its paper scale and the room that it takes [mm], with its lettering."""

    scene: Scene
    room: Bounds

    def document(self) -> dict[str, str | float]:
        """What the template wants to know."""
        # Laid out once: on paper no dimension answers, so that its lines and letters may stand by themselves.
        plain = tuple(item for group in drawn(self.scene) for item in group.items)
        return {
            "svg": lettered(write_svg(replace(self.scene, primitives=plain, page=self.room), paper="print")),
            "width": self.room.width,
            "height": self.room.height,
            "alt": lettered(self.scene.alt),
        }


def as_large_as_fits(
    scene: Scene, width: float, height: float, *, names_beside: bool = False
) -> Picture | None:
    """The scene at the largest of `SCALES` whose lines and lettering fit the room; None where none does.

    `width` and `height` of the room in mm of paper. Lettering keeps its size, and moves apart where it
    touches; with `names_beside` notes stay in their columns beside the drawing.
    """
    bare = scene.bounds
    apart = names_apart if names_beside else clear_lettering
    for times in SCALES:
        if bare.width / times > width or bare.height / times > height:
            continue  # the bare geometry is too large already
        scaled = apart(scale_to_paper(scene, 1.0 / times))
        room = extent(scaled).grown(_EDGE)
        if room.width <= width and room.height <= height:
            return Picture(scaled, room)
    return None
