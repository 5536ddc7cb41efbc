"""SVG in pieces: a scene's elements one by one, for a page that changes a drawing where an edit changed it.

What is drawn again as it was before is not written again: an edit leaves most of a drawing as it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import lru_cache
from typing import Final

from drawerwright.drawing.drawn import drawn_of
from drawerwright.drawing.markup import Markup
from drawerwright.drawing.pens import PaperKind
from drawerwright.drawing.scene import Primitive, Scene
from drawerwright.drawing.svg import numbered, with_fractions
from drawerwright.drawing.svg_elements import (
    Styled,
    group_element,
    grouped,
    hundredths,
    link_element,
    styled,
)

_KEPT: Final = 2048
"""How many primitives a process keeps as they were written: those of some twenty sheets. Own choice."""


def write_svg_pieces(
    scene: Scene, *, paper: PaperKind = "screen", links: Mapping[str, str] | None = None, unfolded: str = ""
) -> list[str]:
    """What stands inside an SVG document, fractions set, as its elements one by one, each on one line.

    Units, `links` and `unfolded` as of `write_svg_inside`.
    """
    told = links or {}
    seen: Counter[str] = Counter()
    loose: list[Styled] = []
    found: list[str] = []
    for each in scene.primitives:
        quantity: str = getattr(each, "quantity", "")
        if not quantity:
            loose += _loose(each, paper)
            continue
        found += grouped(loose)
        loose = []
        name = numbered(scene.name, quantity, seen)
        found.append(_dimension(name, each, paper, told.get(quantity), quantity == unfolded))
    return found + list(grouped(loose))


@lru_cache(maxsize=_KEPT)
def _loose(primitive: Primitive, paper: PaperKind) -> tuple[Styled, ...]:
    """The elements of a primitive that shows no quantity."""
    group = drawn_of(primitive)
    found = [each for item in group.items for each in styled(item, paper, hundredths)]
    return tuple((style, markup if style else _set(markup)) for style, markup in found)


@lru_cache(maxsize=_KEPT)
def _dimension(name: str, primitive: Primitive, paper: PaperKind, link: str | None, unfolded: bool) -> Markup:
    """The element of a dimension or note, a link where it leads anywhere."""
    group = drawn_of(primitive)
    if link is None:
        return _set(group_element(name, group, paper, hundredths))
    return _set(link_element(name, group, paper, hundredths, link, unfolded))


def _set(piece: Markup) -> Markup:
    """An element with lettering: on one line, as a browser shows it, its fractions set."""
    return Markup(with_fractions(piece.replace("\n", " ")))
