"""Elements of an SVG: dimensions, notes and shapes as text, for whoever puts them together.

Presentation attributes on paths, circles and text; class names (`pen-cut`, `fill-wood`, `tone-fine`) let a
page recolour what it carries inline. Same primitive, same bytes.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Sequence
from functools import cache
from itertools import groupby
from operator import itemgetter
from typing import TypeAlias

from drawerwright.drawing.drawn import Drawn
from drawerwright.drawing.fonts import CSS_WEIGHTS
from drawerwright.drawing.geometry import Bounds, Point, bounds_of, joined
from drawerwright.drawing.markup import Markup, element, lettering, own_element
from drawerwright.drawing.pens import PALETTES, PENS, Fill, LineClass, PaperKind
from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Plain, Polyline, Slot, Text
from drawerwright.drawing.wording import plain_text, shown_length
from drawerwright.equations.working import words_of

Numbers: TypeAlias = Callable[[str, Sequence[float]], str]
"""Puts numbers into a template, one for each %: a path at once, for speed."""
Styled: TypeAlias = tuple[str, Markup]
"""An element, and before it its group's tag and attributes; "" where it stands alone."""
_LEAST_TARGET = 5.0
"""Least height and width of what a pointer or a finger meets [mm on paper]. Own choice."""


def group_element(name: str, group: Drawn, paper: PaperKind, numbers: Numbers) -> Markup:
    """An element for one dimension or note: id, quantity, value and a title in words."""
    attributes = {"id": name, "class": "dimension", "data-quantity": group.quantity}
    title = words_of(group.quantity)
    if group.value is not None:
        attributes["data-value"] = number(group.value)
        title = f"{title} {shown_length(group.value)} mm"
    return element(
        "g", attributes, [element("title", {}, text=title), *items_elements(group.items, paper, numbers)]
    )


def link_element(
    name: str, group: Drawn, paper: PaperKind, numbers: Numbers, link: str, unfolded: bool
) -> Markup:
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
        attributes["data-value"] = number(group.value)
        if said.replace(".", "").replace("\u2212", "").isdecimal():
            attributes["aria-label"] += " mm"
    if not letters:
        return element("a", attributes, items_elements(group.items, paper, numbers))
    area = joined(item.extent for item in letters).grown(0.8)
    wide, high = max(area.width, _LEAST_TARGET), max(area.height, _LEAST_TARGET)
    x, y = area.centre
    target = {
        "class": "target",
        "x": number(x - wide / 2),
        "y": number(-y - high / 2),
        "width": number(wide),
        "height": number(high),
        "pointer-events": "all",
    }
    return element("a", attributes, [element("rect", target), *items_elements(group.items, paper, numbers)])


def items_elements(items: Iterable[Plain], paper: PaperKind, numbers: Numbers) -> list[Markup]:
    """Items in order; neighbours drawn alike share one group of attributes."""
    return grouped([each for item in items for each in styled(item, paper, numbers)])


def styled(item: Plain, paper: PaperKind, numbers: Numbers) -> list[Styled]:
    """An item's elements, each with the style that its neighbours may share; "" for lettering."""
    if isinstance(item, Text):
        return [("", each) for each in _text(item, paper)]
    fill = item.fill if isinstance(item, Polyline | Circle | Hole) else "none"
    return [(_style(item.line, fill, paper), _shape(item, numbers))]


def grouped(elements: Iterable[Styled]) -> list[Markup]:
    """Elements in order, neighbours of one style in one group."""
    found: list[Markup] = []
    for style, alike in groupby(elements, itemgetter(0)):
        inside = [each for _, each in alike]
        found += [own_element(style, "".join(inside))] if style else inside
    return found


@cache
def _style(line: LineClass, fill: Fill, paper: PaperKind) -> str:
    """A group's tag and attributes for a pen and a wash."""
    pen, palette = PENS[line], PALETTES[paper]
    words = [f'class="pen-{line}"' if fill == "none" else f'class="pen-{line} fill-{fill}"']
    if fill != "none":
        words.append(f'fill="{palette.fills[fill]}"')
    words += [f'stroke="{palette.tones[pen.tone]}"', f'stroke-width="{number(pen.weight)}"']
    if pen.dashes:
        words.append(f'stroke-dasharray="{" ".join(number(dash) for dash in pen.dashes)}"')
    return " ".join(["g", *words])


def _shape(item: Lines | Polyline | Circle | Arc | Hole | Slot, numbers: Numbers) -> Markup:
    if isinstance(item, Circle | Hole):
        radius = item.radius if isinstance(item, Circle) else item.diameter / 2
        x, y = item.centre
        return own_element(f'circle cx="{number(x)}" cy="{number(-y)}" r="{number(radius)}"')
    return own_element(f'path d="{_path(item, numbers)}"')


def _path(item: Lines | Polyline | Arc | Slot, numbers: Numbers) -> str:
    if isinstance(item, Lines):
        ends = [each for (ax, ay), (bx, by) in item.segments for each in (ax, -ay, bx, -by)]
        return numbers("M% %L% %" * len(item.segments), ends)
    if isinstance(item, Polyline):
        points = _line_inside(item) if item.line_inside else item.points
        places = [each for x, y in points for each in (x, -y)]
        pairs = "L".join(["% %"] * len(points))
        return numbers(f"M{pairs}Z" if item.closed else f"M{pairs}", places)
    radius = number(item.radius if isinstance(item, Arc) else item.width / 2)
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
                f'rect class="fill-paper" x="{number(area.left - 0.4)}" y="{number(-area.top - 0.4)}" '
                f'width="{number(area.width + 0.8)}" height="{number(area.top - item.foot[1] + 0.8)}" '
                f'fill="{palette.fills["paper"]}"'
            )
        )
    x, y = item.foot
    begin = (
        f'text class="tone-{item.tone}" x="{number(x)}" y="{number(-y)}" font-size="{number(item.size)}" '
        f'font-weight="{CSS_WEIGHTS[item.weight]}" text-anchor="{item.anchor}" '
        f'fill="{palette.tones[item.tone]}"'
    )
    found.append(lettering(begin, plain_text(item.text)))
    return found


def _pair(point: Point) -> str:
    return f"{number(point[0])} {number(-point[1])}"


_ENDING_NOUGHTS = re.compile(r"(\.\d*?)0+(?!\d)")
_BARE_POINT = re.compile(r"\.(?!\d)")
_NEGATIVE_NOUGHT = re.compile(r"-0(?![\d.])")


def thousandths(template: str, values: Sequence[float]) -> str:
    """Each number written as `number` writes it. Raises ValueError where one is not finite."""
    text = _BARE_POINT.sub("", _ENDING_NOUGHTS.sub(r"\1", _filled(template, "%.3f", values)))
    return _NEGATIVE_NOUGHT.sub("0", text) if "-0" in text else text


def hundredths(template: str, values: Sequence[float]) -> str:
    """Each number to a hundredth, noughts and all: on a screen nobody sees more, and it is quicker.

    A nought has no sign: what is kept as it was written is found again by numbers that compare equal.
    """
    text = _filled(template, "%.2f", values)
    return text.replace("-0.00", "0.00") if "-0.00" in text else text


def _filled(template: str, form: str, values: Sequence[float]) -> str:
    text = template.replace("%", form) % tuple(values)
    if "n" in text:  # "nan" or "inf": no command of a path has that letter
        raise ValueError("a drawing cannot hold a coordinate that is not a finite number")
    return text


def number(value: float) -> str:
    """At most three decimals, no trailing zeros, never a negative zero.

    Raises:
        ValueError: the value is not a finite number.
    """
    if not math.isfinite(value):
        raise ValueError(f"a drawing cannot hold the coordinate {value}")
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
