"""SVG in pieces: together they are the drawing, and each is one element on one line."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

from hypothesis import given, settings

from drawerwright.drawing.scene import Dimension, Scene, quantities
from drawerwright.drawing.svg import write_svg_inside
from drawerwright.drawing.svg_pieces import write_svg_pieces

from .strategies import scenes


@settings(deadline=None)
@given(scenes)
def test_pieces_put_together_are_what_stands_inside_the_document(scene: Scene) -> None:
    links = {quantity: f"?show={quantity}" for quantity in quantities(scene)[::2]}
    pieces = write_svg_pieces(scene, links=links)
    inside = write_svg_inside(scene, links=links, set_fractions=True)
    assert "".join(pieces) == inside.replace("\n", " ")
    for piece in pieces:
        assert "\n" not in piece
        ElementTree.fromstring(piece)


def test_a_dimension_moved_changes_its_own_piece_alone() -> None:
    width = Dimension("opening_width", 500, (0, 0), (500, 0), "horizontal", 0, 6)
    depth = Dimension("opening_depth", 530, (0, 0), (0, 530), "vertical", 0, 6)
    scene = Scene("plan", "Plan", "Two dimensions", (width, depth))
    deeper = replace(scene, primitives=(width, replace(depth, value=531, end=(0.0, 531.0))))
    before, after = write_svg_pieces(scene), write_svg_pieces(deeper)
    assert [one == other for one, other in zip(before, after, strict=True)] == [True, False]
    assert "531" in after[1]
