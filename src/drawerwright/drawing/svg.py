"""SVG writer: one user unit is one millimetre of paper, text stays text.

Only what browsers, print and PDF compilers draw alike is written: presentation attributes on paths,
circles and text; arrow heads and hatching are explicit paths. Class names (`pen-cut`, `fill-wood`,
`tone-fine`) let a page recolour a drawing that it carries inline. Same scene, same bytes.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping

from drawerwright.drawing.drawn import drawn, extent
from drawerwright.drawing.fonts import FAMILY_LIST, STRETCH
from drawerwright.drawing.markup import Markup, element
from drawerwright.drawing.pens import PaperKind
from drawerwright.drawing.primitives import Plain
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg_elements import (
    Numbers,
    group_element,
    hundredths,
    items_elements,
    link_element,
    number,
    thousandths,
)
from drawerwright.drawing.wording import plain_text

_NAMESPACE = "http://www.w3.org/2000/svg"
_MARGIN = 1.0
_FRACTION = re.compile(r"(?<=[ >])(\d{1,2}/\d{1,2})(?=[\u2033)]?\)?</text>)")
"""A fraction that ends a line of lettering: a mixed number, or alone."""
_SET_FRACTION = r'<tspan class="frac">\1</tspan>'


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
        "width": f"{number(box.width)}mm",
        "height": f"{number(box.height)}mm",
        "viewBox": f"{number(box.left)} {number(-box.top)} {number(box.width)} {number(box.height)}",
        "role": "group",
        "aria-label": plain_text(scene.alt),
        "font-family": FAMILY_LIST,
        "font-stretch": STRETCH,
        "fill": "none",
    }
    inner = [
        element("title", {}, text=plain_text(scene.title)),
        element("desc", {}, text=plain_text(scene.alt)),
        *_contents(scene, paper, links or {}, unfolded, thousandths),
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
    inside = "".join(_contents(scene, paper, links or {}, unfolded, hundredths))
    return with_fractions(inside) if set_fractions else inside


def with_fractions(text: str) -> str:
    """SVG with each fraction that ends a line of lettering in an element of the class `frac`."""
    return _FRACTION.sub(_SET_FRACTION, text)


def _contents(
    scene: Scene, paper: PaperKind, links: Mapping[str, str], unfolded: str, numbers: Numbers
) -> list[Markup]:
    """Everything drawn, in order; each dimension or note that shows a quantity in an element of its own."""
    seen: Counter[str] = Counter()
    loose: list[Plain] = []
    found: list[Markup] = []
    for group in drawn(scene):
        if not group.quantity:
            loose.extend(group.items)
            continue
        found += items_elements(loose, paper, numbers)
        loose = []
        name = numbered(scene.name, group.quantity, seen)
        link = links.get(group.quantity)
        if link is None:
            found.append(group_element(name, group, paper, numbers))
        else:
            found.append(link_element(name, group, paper, numbers, link, group.quantity == unfolded))
    return found + items_elements(loose, paper, numbers)


def numbered(name: str, quantity: str, seen: Counter[str]) -> str:
    """The id of a dimension or note in the drawing of a name, told apart from those `seen` before."""
    seen[quantity] += 1
    more = f"-{seen[quantity]}" if seen[quantity] > 1 else ""
    return f"{name}-{quantity}{more}"
