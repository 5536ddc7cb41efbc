"""DXF writer: the scene's geometry at true size, in mm, y up, on layers that name the operation.

R2010, `$INSUNITS` 4 (mm), `$MEASUREMENT` 1 (metric). How deep a hole goes is said twice: in the name of
its layer ("hook bore 6 mm deep 10", "row holes 5 mm through") and as extended data of the circle under
the name DRAWERWRIGHT: operation (1000), diameter (1040), then depth (1040) or "through" (1000).
Washes are left out; dimensions, notes and hatching are plain lines and TEXT on layers of their own.
Handles, dates, ids and version notes are fixed: same scene, same bytes.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from threading import Lock
from typing import Final

from ezdxf._options import options
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.fonts import CAP_HEIGHT
from drawerwright.drawing.geometry import Point
from drawerwright.drawing.pens import LineClass
from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.wording import plain_text

APPLICATION: Final = "DRAWERWRIGHT"
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
_ANCHORS: Final = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}
_FORBIDDEN_IN_NAMES: Final = re.compile(r'[<>/\\":;?*|=`,]')
_FIXED_OPTION_LOCK: Final = Lock()


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
    with _fixed_metadata():
        document = Drawing.new("AC1024")
        document.header["$INSUNITS"] = 4
        document.header["$MEASUREMENT"] = 1
        document.linetypes.add("DASHED", [8.0, 5.0, -3.0], description="hidden edges")
        document.linetypes.add("CENTER", [22.0, 13.0, -3.0, 3.0, -3.0], description="centre lines")
        document.styles.get("Standard").dxf.font = "arial.ttf"
        document.appids.add(APPLICATION)
        sheet = _Sheet(document)
        for group in drawn(scene):
            for item in group.items:
                sheet.add(item)
        around = scene.bounds
        document.set_modelspace_vport(
            height=max(around.height, around.width, 1.0) * 1.2, center=around.centre
        )
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # the library would list them in the order of a set
        stream = io.StringIO()
        document.write(stream)
    return stream.getvalue().encode("utf-8")


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Dates, ids and version notes at fixed values while a file is made.

    The library keeps this switch for the whole process, hence the lock.
    """
    with _FIXED_OPTION_LOCK:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before


class _Sheet:
    """Adds primitives to a document's model space, making layers as they are met."""

    def __init__(self, document: Drawing) -> None:
        self._document = document
        self._space = document.modelspace()

    def add(self, item: Plain) -> None:
        """Add one primitive."""
        if isinstance(item, Text):
            self._add_text(item)
        elif isinstance(item, Lines):
            attributes = self._attributes(item.layer, item.line)
            for segment in item.segments:
                start, end = _finite(segment)
                self._space.add_line(start, end, dxfattribs=attributes)
        elif isinstance(item, Polyline):
            self._add_polyline(item)
        elif isinstance(item, Circle):
            attributes = self._attributes(item.layer, item.line)
            self._space.add_circle(_finite((item.centre,))[0], item.radius, dxfattribs=attributes)
        elif isinstance(item, Arc):
            attributes = self._attributes(item.layer, item.line)
            centre = _finite((item.centre,))[0]
            self._space.add_arc(centre, item.radius, item.start_deg, item.end_deg, dxfattribs=attributes)
        elif isinstance(item, Hole):
            self._add_hole(item)
        else:
            self._add_slot(item)

    def _attributes(self, layer: str, line: LineClass) -> dict[str, str]:
        """Layer and line type; the layer is made when it is first met."""
        name = _layer_name(layer or DRAWING_LAYERS[line])
        linetype = _LINETYPES.get(line, "Continuous")
        if name not in self._document.layers:
            colour = _COLOURS.get(name, _OPERATION_COLOUR if layer else 8)
            self._document.layers.add(name, color=colour)
        return {"layer": name, "linetype": linetype}

    def _add_text(self, item: Text) -> None:
        attributes = self._attributes(item.layer or _TEXT_LAYER, "leader")
        words = _dxf_text(item.text)
        if not words:
            return
        text = self._space.add_text(words, height=item.size * CAP_HEIGHT, dxfattribs=attributes)
        text.set_placement(_finite((item.foot,))[0], align=_ANCHORS[item.anchor])

    def _add_polyline(self, item: Polyline) -> None:
        attributes = self._attributes(item.layer, item.line)
        points = _finite(item.points)
        if item.fill in ("ink", "accent") and len(points) == 3:
            self._space.add_solid([*points, points[2]], dxfattribs=attributes)
        else:
            self._space.add_lwpolyline(points, close=item.closed, dxfattribs=attributes)

    def _add_hole(self, item: Hole) -> None:
        attributes = self._attributes(hole_layer(item), "edge")
        centre = _finite((item.centre,))[0]
        circle = self._space.add_circle(centre, item.diameter / 2, dxfattribs=attributes)
        depth = (1000, "through") if item.depth is None else (1040, float(item.depth))
        circle.set_xdata(APPLICATION, [(1000, item.operation), (1040, float(item.diameter)), depth])

    def _add_slot(self, item: Slot) -> None:
        """A closed polyline whose two ends are half circles (bulge 1)."""
        attributes = self._attributes(item.layer, item.line)
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
        self._space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs=attributes)


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
