"""DXF writer: the scene's geometry at true size, in mm, y up, on layers that name the operation.

R2010, `$INSUNITS` 4 (mm), `$MEASUREMENT` 1 (metric). How deep a hole goes is said twice: in the name of
its layer ("hook bore 6 mm deep 10", "row holes 5 mm through") and as extended data of the circle under
the name DRAWERWRIGHT: operation (1000), diameter (1040), then depth (1040) or "through" (1000).
Washes are left out; dimensions, notes and hatching are plain lines and TEXT on layers of their own.
Group codes of entities: DXF reference for R2010, from memory; tests read them back. Coordinates are
written to a millionth of a millimetre. Handles, dates, ids and version notes are fixed: same scene, same
bytes.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Final

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.dxf_frame import APPLICATION, OWN_LAYERS, Frame, frame, number
from drawerwright.drawing.fonts import CAP_HEIGHT
from drawerwright.drawing.geometry import Point
from drawerwright.drawing.pens import LineClass
from drawerwright.drawing.primitives import Anchor, Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.wording import plain_text

DRAWING_LAYERS: Final[dict[LineClass, str]] = {
    "cut": "drawing, cut edges",
    "outline": "drawing, outlines",
    "edge": "drawing, edges",
    "fine": "drawing, edges",
    "hidden": "drawing, hidden edges",
    "centre": "drawing, centre lines",
    "hatch": "drawing, hatching",
    "dimension": "dimensions",
    "leader": "notes",
    "frame": "drawing, frame",
    "accent": "drawing, does not fit",
    "accent-note": "drawing, does not fit",
}
_TEXT_LAYER: Final = "notes"
_LINETYPES: Final[dict[LineClass, str]] = {"hidden": "DASHED", "centre": "CENTER", "accent": "DASHED"}
_COLOURS: Final[dict[str, int]] = {
    "outline": 7,
    "dimensions": 8,
    "notes": 8,
    "drawing, hatching": 9,
    "drawing, does not fit": 1,
}
_OPERATION_COLOUR: Final = 5
_ANCHORS: Final[dict[Anchor, int]] = {"start": 0, "middle": 1, "end": 2}
"""Group 72 of TEXT: left, centre, right on the baseline."""
_FORBIDDEN_IN_NAMES: Final = re.compile(r'[<>/\\":;?*|=`,]')


def hole_layer(hole: Hole) -> str:
    """The layer of a hole in plain words: operation, diameter and depth [mm]."""
    depth = "through" if hole.depth is None else f"deep {hole.depth:g}"
    return f"{hole.operation} {hole.diameter:g} mm {depth}"


def write_dxf(scene: Scene) -> bytes:
    """The scene as a DXF file at true size.

    Raises:
        ValueError: the scene has been scaled to paper, or holds a coordinate that is not finite.
    """
    if not math.isclose(scene.scale, 1.0, rel_tol=1e-12):
        raise ValueError(f"a DXF is written at true size, and {scene.name!r} is at scale {scene.scale:g}")
    sheet = _Sheet(frame())
    for group in drawn(scene):
        for item in group.items:
            sheet.add(item)
    around = scene.bounds
    (centre,) = _finite((around.centre,))
    text = sheet.frame.filled(
        layers=sheet.layers,
        entities=sheet.entities,
        next_handle=sheet.next_handle,
        centre=centre,
        height=max(around.height, around.width, 1.0) * 1.2,
    )
    return text.encode("utf-8")


class _Sheet:
    """Entities as DXF text, each a run of group codes and values; layers are made as they are met."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self.layers: list[str] = []
        self.entities: list[str] = []
        self.next_handle = frame.first_handle
        self._known = set(OWN_LAYERS)
        self._heads: dict[tuple[str, LineClass], str] = {}

    def add(self, item: Plain) -> None:
        """Add one primitive."""
        if isinstance(item, Text):
            self._add_text(item)
        elif isinstance(item, Lines):
            head = self._head(item.layer, item.line)
            for segment in item.segments:
                start, end = _finite(segment)
                self._write("LINE", head, f"100\nAcDbLine\n{_place(start, 0)}{_place(end, 1)}")
        elif isinstance(item, Polyline):
            self._add_polyline(item)
        elif isinstance(item, Circle):
            head = self._head(item.layer, item.line)
            self._write("CIRCLE", head, _circle(item.centre, item.radius))
        elif isinstance(item, Arc):
            head = self._head(item.layer, item.line)
            angles = f" 50\n{number(item.start_deg)}\n 51\n{number(item.end_deg)}\n"
            self._write("ARC", head, f"{_circle(item.centre, item.radius)}100\nAcDbArc\n{angles}")
        elif isinstance(item, Hole):
            self._add_hole(item)
        else:
            self._add_slot(item)

    def _write(self, kind: str, head: str, body: str) -> None:
        self.entities.append(f"  0\n{kind}\n  5\n{self._handle()}\n{head}{body}")

    def _handle(self) -> str:
        self.next_handle += 1
        return f"{self.next_handle - 1:X}"

    def _head(self, layer: str, line: LineClass) -> str:
        """Owner, layer and line type of an entity; the layer is made when it is first met."""
        head = self._heads.get((layer, line))
        if head is None:
            head = self._heads[layer, line] = self._new_head(layer, line)
        return head

    def _new_head(self, layer: str, line: LineClass) -> str:
        name = _layer_name(layer or DRAWING_LAYERS[line])
        if name.casefold() not in self._known:
            self._known.add(name.casefold())
            colour = _COLOURS.get(name, _OPERATION_COLOUR if layer else 8)
            self.layers.append(self.frame.layer_entry(self._handle(), name, colour))
        linetype = _LINETYPES.get(line, "Continuous")
        return f"330\n{self.frame.owner}\n100\nAcDbEntity\n  8\n{name}\n  6\n{linetype}\n"

    def _add_text(self, item: Text) -> None:
        head = self._head(item.layer or _TEXT_LAYER, "leader")
        words = _dxf_text(item.text)
        if not words:
            return
        (foot,) = _finite((item.foot,))
        self._write(
            "TEXT",
            head,
            f"100\nAcDbText\n{_place(foot, 0)} 40\n{number(item.size * CAP_HEIGHT)}\n  1\n{words}\n"
            f" 72\n{_ANCHORS[item.anchor]}\n{_place(foot, 1)}100\nAcDbText\n",
        )

    def _add_polyline(self, item: Polyline) -> None:
        head = self._head(item.layer, item.line)
        points = _finite(item.points)
        if item.fill in ("ink", "accent") and len(points) == 3:
            corners = "".join(_place(point, i) for i, point in enumerate((*points, points[2])))
            self._write("SOLID", head, f"100\nAcDbTrace\n{corners}")
        else:
            self._write("LWPOLYLINE", head, _polyline([(x, y, 0.0) for x, y in points], closed=item.closed))

    def _add_hole(self, item: Hole) -> None:
        head = self._head(hole_layer(item), "edge")
        depth = "1000\nthrough" if item.depth is None else f"1040\n{number(item.depth)}"
        told = (
            f"1001\n{APPLICATION}\n1000\n{_dxf_text(item.operation)}\n"
            f"1040\n{number(item.diameter)}\n{depth}\n"
        )
        self._write("CIRCLE", head, _circle(item.centre, item.diameter / 2) + told)

    def _add_slot(self, item: Slot) -> None:
        """A closed polyline whose two ends are half circles (bulge 1)."""
        head = self._head(item.layer, item.line)
        (x1, y1), (x2, y2) = _finite((item.start, item.end))
        length = math.dist(item.start, item.end)
        ux, uy = ((x2 - x1) / length, (y2 - y1) / length) if length else (1.0, 0.0)
        nx, ny = -uy * item.width / 2, ux * item.width / 2
        corners = [
            (x1 - nx, y1 - ny, 0.0),
            (x2 - nx, y2 - ny, 1.0),
            (x2 + nx, y2 + ny, 0.0),
            (x1 + nx, y1 + ny, 1.0),
        ]
        self._write("LWPOLYLINE", head, _polyline(corners, closed=True))


def _place(point: Point, index: int) -> str:
    """The group codes of an entity's n-th point, on the level z = 0."""
    return f" 1{index}\n{number(point[0])}\n 2{index}\n{number(point[1])}\n 3{index}\n0.0\n"


def _circle(centre: Point, radius: float) -> str:
    ((x, y), (r, _)) = _finite((centre, (radius, 0.0)))
    return f"100\nAcDbCircle\n{_place((x, y), 0)} 40\n{number(r)}\n"


def _polyline(corners: Sequence[tuple[float, float, float]], *, closed: bool) -> str:
    """Corners with the bulge of the way to the next one."""
    text = [f"100\nAcDbPolyline\n 90\n{len(corners)}\n 70\n{int(closed)}\n"]
    for x, y, bulge in corners:
        text.append(f" 10\n{number(x)}\n 20\n{number(y)}\n")
        if bulge:
            text.append(f" 42\n{number(bulge)}\n")
    return "".join(text)


def _finite(points: Sequence[Point]) -> list[Point]:
    for x, y in points:
        if not (math.isfinite(x) and math.isfinite(y)):
            raise ValueError(f"a drawing cannot hold the point ({x}, {y})")
    return [(x + 0.0, y + 0.0) for x, y in points]


def _layer_name(words: str) -> str:
    """A layer name without the characters that DXF keeps for itself."""
    return _FORBIDDEN_IN_NAMES.sub(" ", plain_text(words)).replace("  ", " ").strip() or "drawing"


def _dxf_text(words: str) -> str:
    """Lettering without what a DXF reader takes for codes: doubled per cent, carets, coded characters."""
    text = plain_text(words).replace("^", "^ ")
    text = re.sub(r"%{2,}", lambda run: "%%%" * len(run.group()), text)
    return re.sub(r"\\(?=[UuMm]\+)", r"\\ ", text)
