"""SVG writer: one user unit is one millimetre of paper, text stays text.

Only what browsers, print and PDF compilers draw alike is written: presentation attributes on paths,
circles and text; arrow heads and hatching are explicit paths. Class names (`pen-cut`, `fill-wood`,
`tone-fine`) let a page recolour a drawing that it carries inline. Same scene, same bytes.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from xml.etree import ElementTree

from drawerwright.drawing.drawn import Drawn, drawn, extent
from drawerwright.drawing.fonts import CSS_WEIGHTS, FAMILY_LIST, STRETCH
from drawerwright.drawing.geometry import Bounds, Point, bounds_of
from drawerwright.drawing.pens import PALETTES, PENS, Fill, LineClass, Palette, PaperKind
from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.wording import plain_text, shown_length
from drawerwright.equations.working import words_of

_NAMESPACE = "http://www.w3.org/2000/svg"
_MARGIN = 1.0


def write_svg(scene: Scene, *, paper: PaperKind = "screen") -> str:
    """The scene as an SVG document, its size in mm and its view box in the same mm.

    Each dimension is a group with an id, `data-quantity` and `data-value` [mm], and a title in words,
    so that a page can make it answer.

    Raises:
        ValueError: the scene is empty.
    """
    palette = PALETTES[paper]
    box = scene.page or extent(scene).grown(_MARGIN)
    root = ElementTree.Element(
        "svg",
        {
            "xmlns": _NAMESPACE,
            "width": f"{_number(box.width)}mm",
            "height": f"{_number(box.height)}mm",
            "viewBox": f"{_number(box.left)} {_number(-box.top)} {_number(box.width)} {_number(box.height)}",
            "role": "group",
            "aria-label": plain_text(scene.alt),
            "font-family": FAMILY_LIST,
            "font-stretch": STRETCH,
            "fill": "none",
        },
    )
    ElementTree.SubElement(root, "title").text = plain_text(scene.title)
    ElementTree.SubElement(root, "desc").text = plain_text(scene.alt)
    seen: Counter[str] = Counter()
    loose: list[Plain] = []
    for group in drawn(scene):
        if group.quantity:
            _write_items(root, loose, palette)
            loose = []
            seen[group.quantity] += 1
            _write_items(_group(root, scene.name, group, seen[group.quantity]), group.items, palette)
        else:
            loose.extend(group.items)
    _write_items(root, loose, palette)
    return ElementTree.tostring(root, encoding="unicode") + "\n"


def _group(root: ElementTree.Element, scene_name: str, group: Drawn, count: int) -> ElementTree.Element:
    """An element for one dimension or note: id, quantity, value and a title in words."""
    again = f"-{count}" if count > 1 else ""
    attributes = {
        "id": f"{scene_name}-{group.quantity}{again}",
        "class": "dimension",
        "data-quantity": group.quantity,
    }
    title = words_of(group.quantity)
    if group.value is not None:
        attributes["data-value"] = _number(group.value)
        title = f"{title} {shown_length(group.value)} mm"
    element = ElementTree.SubElement(root, "g", attributes)
    ElementTree.SubElement(element, "title").text = title
    return element


def _write_items(parent: ElementTree.Element, items: Sequence[Plain], palette: Palette) -> None:
    """Write items in order; neighbours drawn alike share one group of attributes."""
    style: tuple[LineClass, Fill] | None = None
    group = parent
    for item in items:
        if isinstance(item, Text):
            style = None
            _write_text(parent, item, palette)
            continue
        fill = item.fill if isinstance(item, Polyline | Circle | Hole) else "none"
        if style != (item.line, fill):
            style = (item.line, fill)
            group = ElementTree.SubElement(parent, "g", _style(item.line, fill, palette))
        _write_shape(group, item)


def _style(line: LineClass, fill: Fill, palette: Palette) -> dict[str, str]:
    pen = PENS[line]
    attributes = {"class": f"pen-{line}" if fill == "none" else f"pen-{line} fill-{fill}"}
    if fill != "none":
        attributes["fill"] = palette.fills[fill]
    attributes["stroke"] = palette.tones[pen.tone]
    attributes["stroke-width"] = _number(pen.weight)
    if pen.dashes:
        attributes["stroke-dasharray"] = " ".join(_number(dash) for dash in pen.dashes)
    return attributes


def _write_shape(parent: ElementTree.Element, item: Lines | Polyline | Circle | Arc | Hole | Slot) -> None:
    if isinstance(item, Circle | Hole):
        radius = item.radius if isinstance(item, Circle) else item.diameter / 2
        x, y = item.centre
        place = {"cx": _number(x), "cy": _number(-y), "r": _number(radius)}
        ElementTree.SubElement(parent, "circle", place)
        return
    ElementTree.SubElement(parent, "path", {"d": _path(item)})


def _path(item: Lines | Polyline | Arc | Slot) -> str:
    if isinstance(item, Lines):
        return "".join(f"M{_pair(a)}L{_pair(b)}" for a, b in item.segments)
    if isinstance(item, Polyline):
        points = _line_inside(item) if item.line_inside else item.points
        return "M" + "L".join(_pair(point) for point in points) + ("Z" if item.closed else "")
    radius = _number(item.radius if isinstance(item, Arc) else item.width / 2)
    if isinstance(item, Arc):
        start, end = (_on_circle(item.centre, item.radius, a) for a in (item.start_deg, item.end_deg))
        large = int((item.end_deg - item.start_deg) % 360.0 > 180.0)
        return f"M{_pair(start)}A{radius} {radius} 0 {large} 0 {_pair(end)}"
    left, right = item.start, item.end
    length = math.dist(left, right)
    ux, uy = ((right[0] - left[0]) / length, (right[1] - left[1]) / length) if length else (1.0, 0.0)
    nx, ny = -uy * item.width / 2, ux * item.width / 2
    corners = [
        (left[0] - nx, left[1] - ny),
        (right[0] - nx, right[1] - ny),
        (right[0] + nx, right[1] + ny),
        (left[0] + nx, left[1] + ny),
    ]
    a, b, c, d = (_pair(corner) for corner in corners)
    return f"M{a}L{b}A{radius} {radius} 0 0 0 {c}L{d}A{radius} {radius} 0 0 0 {a}Z"


def _line_inside(item: Polyline) -> tuple[Point, ...]:
    """An upright rectangle drawn in by half its line's weight; any other polygon as it is."""
    around = bounds_of(item.points)
    if set(item.points) != set(around.corners):
        return item.points
    inner: Bounds = around.grown(-PENS[item.line].weight / 2)
    return inner.corners


def _on_circle(centre: Point, radius: float, degrees: float) -> Point:
    angle = math.radians(degrees)
    return (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))


def _write_text(parent: ElementTree.Element, item: Text, palette: Palette) -> None:
    if item.backed:
        area = item.extent
        ElementTree.SubElement(
            parent,
            "rect",
            {
                "class": "fill-paper",
                "x": _number(area.left - 0.4),
                "y": _number(-area.top - 0.4),
                "width": _number(area.width + 0.8),
                "height": _number(area.top - item.foot[1] + 0.8),
                "fill": palette.fills["paper"],
            },
        )
    x, y = item.foot
    element = ElementTree.SubElement(
        parent,
        "text",
        {
            "class": f"tone-{item.tone}",
            "x": _number(x),
            "y": _number(-y),
            "font-size": _number(item.size),
            "font-weight": CSS_WEIGHTS[item.weight],
            "text-anchor": item.anchor,
            "fill": palette.tones[item.tone],
        },
    )
    element.text = plain_text(item.text)


def _pair(point: Point) -> str:
    return f"{_number(point[0])} {_number(-point[1])}"


def _number(value: float) -> str:
    """At most three decimals, no trailing zeros, never a negative zero.

    Raises:
        ValueError: the value is not a finite number.
    """
    if not math.isfinite(value):
        raise ValueError(f"a drawing cannot hold the coordinate {value}")
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
