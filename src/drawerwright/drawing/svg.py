"""SVG writer: one user unit is one millimetre of paper, text stays text.

Only what browsers, print and PDF compilers draw alike is written: presentation attributes on paths,
circles and text; arrow heads and hatching are explicit paths. Class names (`pen-cut`, `fill-wood`,
`tone-fine`) let a page recolour a drawing that it carries inline. Same scene, same bytes.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from functools import cache, lru_cache
from typing import TypeAlias

from drawerwright.drawing.drawn import Drawn, drawn, extent
from drawerwright.drawing.fonts import CSS_WEIGHTS, FAMILY_LIST, STRETCH
from drawerwright.drawing.geometry import Bounds, Point, bounds_of, joined
from drawerwright.drawing.markup import Markup, element, lettering, own_element
from drawerwright.drawing.pens import PALETTES, PENS, Fill, LineClass, PaperKind
from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.wording import plain_text, shown_length
from drawerwright.equations.working import words_of

_NAMESPACE = "http://www.w3.org/2000/svg"
_MARGIN = 1.0
_FRACTION = re.compile(r"(?<=[ >])(\d{1,2}/\d{1,2})(?=[\u2033)]?\)?</text>)")
"""A fraction that ends a line of lettering: a mixed number, or alone."""
_SET_FRACTION = r'<tspan class="frac">\1</tspan>'
_KEPT = 2048
"""How many shapes, and how many dimensions, a page's drawings are kept of: those of some twenty. Own choice."""
_LEAST_TARGET = 5.0
"""Least height and width of what a pointer or a finger meets [mm on paper]. Own choice."""


def write_svg(
    scene: Scene,
    *,
    paper: PaperKind = "screen",
    links: Mapping[str, str] | None = None,
    unfolded: str = "",
) -> str:
    """The scene as an SVG document, its size in mm and its view box in the same mm.

    Each dimension is a group with an id, `data-quantity` and `data-value` [mm], and a title in words,
    so that a page can make it answer. `links` are addresses by quantity: a dimension that has one is a link,
    with `aria-expanded` saying whether it is the `unfolded` one.

    Raises:
        ValueError: the scene is empty.
    """
    box = scene.page or extent(scene).grown(_MARGIN)
    attributes = {
        "xmlns": _NAMESPACE,
        "width": f"{_number(box.width)}mm",
        "height": f"{_number(box.height)}mm",
        "viewBox": f"{_number(box.left)} {_number(-box.top)} {_number(box.width)} {_number(box.height)}",
        "role": "group",
        "aria-label": plain_text(scene.alt),
        "font-family": FAMILY_LIST,
        "font-stretch": STRETCH,
        "fill": "none",
    }
    inner = [
        element("title", {}, text=plain_text(scene.title)),
        element("desc", {}, text=plain_text(scene.alt)),
        *_contents(scene, paper, links or {}, unfolded, _thousandths),
    ]
    return element("svg", attributes, inner) + "\n"


def write_svg_inside(
    scene: Scene,
    *,
    paper: PaperKind = "screen",
    links: Mapping[str, str] | None = None,
    unfolded: str = "",
    set_fractions: bool = False,
) -> str:
    """The scene as what stands inside an SVG document, for a page that makes one picture of several things.

    Units are the scene's mm, y downwards; what is around it tells that nothing is filled unless it says so.
    Lines are written to a hundredth. With `set_fractions` each fraction is an element of the class `frac`,
    for a page's lettering to set.
    """
    inside = "".join(_contents(scene, paper, links or {}, unfolded, _hundredths))
    return _FRACTION.sub(_SET_FRACTION, inside) if set_fractions and "/" in inside else inside


def write_svg_pieces(
    scene: Scene, *, paper: PaperKind = "screen", links: Mapping[str, str] | None = None, unfolded: str = ""
) -> list[str]:
    """The same, fractions set, as its elements one by one, each on one line.

    What is drawn again as it was before is not written again: an edit leaves most of a drawing as it is.
    """
    return list(_contents(scene, paper, links or {}, unfolded, _hundredths, kept=True))


def _contents(
    scene: Scene,
    paper: PaperKind,
    links: Mapping[str, str],
    unfolded: str,
    numbers: _Numbers,
    *,
    kept: bool = False,
) -> list[Markup]:
    """Everything drawn, in order; each dimension or note that shows a quantity in an element of its own.

    `kept`: written elements are kept for the next drawing that has the same; each is one line then, its
    fractions set.
    """
    loose_items, group_of, link_of = (
        (_kept_items, _kept_group, _kept_link) if kept else (_items, _group, _link)
    )
    seen: Counter[str] = Counter()
    loose: list[Plain] = []
    found: list[Markup] = []
    for group in drawn(scene):
        if not group.quantity:
            loose.extend(group.items)
            continue
        found += loose_items(loose, paper, numbers)
        loose = []
        seen[group.quantity] += 1
        name = f"{scene.name}-{group.quantity}"
        if seen[group.quantity] > 1:
            name = f"{name}-{seen[group.quantity]}"
        link = links.get(group.quantity)
        if link is None:
            found.append(group_of(name, group, paper, numbers))
        else:
            found.append(link_of(name, group, paper, numbers, link, group.quantity == unfolded))
    return found + loose_items(loose, paper, numbers)


def _group(name: str, group: Drawn, paper: PaperKind, numbers: _Numbers) -> Markup:
    """An element for one dimension or note: id, quantity, value and a title in words."""
    attributes = {"id": name, "class": "dimension", "data-quantity": group.quantity}
    title = words_of(group.quantity)
    if group.value is not None:
        attributes["data-value"] = _number(group.value)
        title = f"{title} {shown_length(group.value)} mm"
    return element("g", attributes, [element("title", {}, text=title), *_items(group.items, paper, numbers)])


def _link(name: str, group: Drawn, paper: PaperKind, numbers: _Numbers, link: str, unfolded: bool) -> Markup:
    """A dimension that answers: a link in words, with an area around its lettering that is easy to meet."""
    letters = [item for item in group.items if isinstance(item, Text)]
    said = ", ".join(plain_text(item.text) for item in letters)
    attributes = {
        "id": name,
        "class": "dimension unfolded" if unfolded else "dimension",
        "href": link,
        "data-quantity": group.quantity,
        "aria-label": f"{words_of(group.quantity)} {said}",
        "aria-expanded": "true" if unfolded else "false",
    }
    if group.value is not None:
        attributes["data-value"] = _number(group.value)
        if said.replace(".", "").replace("\u2212", "").isdecimal():
            attributes["aria-label"] += " mm"
    if not letters:
        return element("a", attributes, _items(group.items, paper, numbers))
    area = joined(item.extent for item in letters).grown(0.8)
    wide, high = max(area.width, _LEAST_TARGET), max(area.height, _LEAST_TARGET)
    x, y = area.centre
    target = {
        "class": "target",
        "x": _number(x - wide / 2),
        "y": _number(-y - high / 2),
        "width": _number(wide),
        "height": _number(high),
        "pointer-events": "all",
    }
    return element("a", attributes, [element("rect", target), *_items(group.items, paper, numbers)])


def _items(
    items: Sequence[Plain], paper: PaperKind, numbers: _Numbers, shape: _Shaper | None = None
) -> list[Markup]:
    """Items in order; neighbours drawn alike share one group of attributes."""
    shaped = shape or _shape
    found: list[Markup] = []
    alike: list[Markup] = []
    style: tuple[LineClass, Fill] | None = None

    def close() -> None:
        if style is not None and alike:
            found.append(own_element(_style(*style, paper), "".join(alike)))

    for item in items:
        if isinstance(item, Text):
            close()
            style, alike = None, []
            found += _text(item, paper)
            continue
        fill = item.fill if isinstance(item, Polyline | Circle | Hole) else "none"
        if style != (item.line, fill):
            close()
            style, alike = (item.line, fill), []
        alike.append(shaped(item, numbers))
    close()
    return found


def _kept_items(items: Sequence[Plain], paper: PaperKind, numbers: _Numbers) -> list[Markup]:
    return [
        _set_down(each) if each.startswith("<text") else each
        for each in _items(items, paper, numbers, _kept_shape)
    ]


def _set_down(piece: Markup) -> Markup:
    """An element with lettering: on one line, as a browser shows it, its fractions set."""
    return Markup(_FRACTION.sub(_SET_FRACTION, piece.replace("\n", " ")))


@lru_cache(maxsize=_KEPT)
def _kept_group(name: str, group: Drawn, paper: PaperKind, numbers: _Numbers) -> Markup:
    return _set_down(_group(name, group, paper, numbers))


@lru_cache(maxsize=_KEPT)
def _kept_link(
    name: str, group: Drawn, paper: PaperKind, numbers: _Numbers, link: str, unfolded: bool
) -> Markup:
    return _set_down(_link(name, group, paper, numbers, link, unfolded))


@cache
def _style(line: LineClass, fill: Fill, paper: PaperKind) -> str:
    """A group's tag and attributes for a pen and a wash."""
    pen, palette = PENS[line], PALETTES[paper]
    words = [f'class="pen-{line}"' if fill == "none" else f'class="pen-{line} fill-{fill}"']
    if fill != "none":
        words.append(f'fill="{palette.fills[fill]}"')
    words += [f'stroke="{palette.tones[pen.tone]}"', f'stroke-width="{_number(pen.weight)}"']
    if pen.dashes:
        words.append(f'stroke-dasharray="{" ".join(_number(dash) for dash in pen.dashes)}"')
    return " ".join(["g", *words])


def _shape(item: Lines | Polyline | Circle | Arc | Hole | Slot, numbers: _Numbers) -> Markup:
    if isinstance(item, Circle | Hole):
        radius = item.radius if isinstance(item, Circle) else item.diameter / 2
        x, y = item.centre
        return own_element(f'circle cx="{_number(x)}" cy="{_number(-y)}" r="{_number(radius)}"')
    return own_element(f'path d="{_path(item, numbers)}"')


@lru_cache(maxsize=_KEPT)
def _kept_shape(item: Lines | Polyline | Circle | Arc | Hole | Slot, numbers: _Numbers) -> Markup:
    return _shape(item, numbers)


def _path(item: Lines | Polyline | Arc | Slot, numbers: _Numbers) -> str:
    if isinstance(item, Lines):
        ends = [number for (ax, ay), (bx, by) in item.segments for number in (ax, -ay, bx, -by)]
        return numbers("M% %L% %" * len(item.segments), ends)
    if isinstance(item, Polyline):
        points = _line_inside(item) if item.line_inside else item.points
        places = [number for x, y in points for number in (x, -y)]
        pairs = "L".join(["% %"] * len(points))
        return numbers(f"M{pairs}Z" if item.closed else f"M{pairs}", places)
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


def _text(item: Text, paper: PaperKind) -> list[Markup]:
    found = []
    palette = PALETTES[paper]
    if item.backed:
        area = item.extent
        found.append(
            own_element(
                f'rect class="fill-paper" x="{_number(area.left - 0.4)}" y="{_number(-area.top - 0.4)}" '
                f'width="{_number(area.width + 0.8)}" height="{_number(area.top - item.foot[1] + 0.8)}" '
                f'fill="{palette.fills["paper"]}"'
            )
        )
    x, y = item.foot
    begin = (
        f'text class="tone-{item.tone}" x="{_number(x)}" y="{_number(-y)}" font-size="{_number(item.size)}" '
        f'font-weight="{CSS_WEIGHTS[item.weight]}" text-anchor="{item.anchor}" '
        f'fill="{palette.tones[item.tone]}"'
    )
    found.append(lettering(begin, plain_text(item.text)))
    return found


def _pair(point: Point) -> str:
    return f"{_number(point[0])} {_number(-point[1])}"


_ENDING_NOUGHTS = re.compile(r"(\.\d*?)0+(?!\d)")
_BARE_POINT = re.compile(r"\.(?!\d)")
_NEGATIVE_NOUGHT = re.compile(r"-0(?![\d.])")


_Numbers: TypeAlias = Callable[[str, Sequence[float]], str]
"""Puts numbers into a template, one for each %: a path at once, for speed."""
_Shaper: TypeAlias = Callable[[Lines | Polyline | Circle | Arc | Hole | Slot, _Numbers], Markup]


def _thousandths(template: str, values: Sequence[float]) -> str:
    """Each number written as `_number` writes it. Raises ValueError where one is not finite."""
    text = _BARE_POINT.sub("", _ENDING_NOUGHTS.sub(r"\1", _filled(template, "%.3f", values)))
    return _NEGATIVE_NOUGHT.sub("0", text) if "-0" in text else text


def _hundredths(template: str, values: Sequence[float]) -> str:
    """Each number to a hundredth, noughts and all: on a screen nobody sees more, and it is quicker."""
    return _filled(template, "%.2f", values)


def _filled(template: str, form: str, values: Sequence[float]) -> str:
    text = template.replace("%", form) % tuple(values)
    if "n" in text:  # "nan" or "inf": no command of a path has that letter
        raise ValueError("a drawing cannot hold a coordinate that is not a finite number")
    return text


def _number(value: float) -> str:
    """At most three decimals, no trailing zeros, never a negative zero.

    Raises:
        ValueError: the value is not a finite number.
    """
    if not math.isfinite(value):
        raise ValueError(f"a drawing cannot hold the coordinate {value}")
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
