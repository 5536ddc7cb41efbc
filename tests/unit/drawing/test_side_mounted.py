"""Slides beside the box: an invented family, 12.7 a side by common practice."""

from __future__ import annotations

from functools import cache

import pytest

from drawerwright.catalogue import families_from_mappings
from drawerwright.drawing.primitives import Hole, Polyline
from drawerwright.drawing.scene import Dimension, Hatch, Scene
from drawerwright.drawing.templates import box_back as back_template
from drawerwright.drawing.templates import locking_bracket, templates
from drawerwright.drawing.views.cross_pieces import box_back
from drawerwright.drawing.views.front import front
from drawerwright.drawing.views.panels import panels
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

from .drawers import OPENING, PLAIN

BEARING = {
    **{key: value for key, value in PLAIN.items() if key != "rear_bracket"},
    "id": "bearing",
    "carriage": "side-mounted",
    "inside_width_deduction": 57.4,
    "min_gap": 12.0,
    "heights": {"screw_line": 40},
}


@cache
def _fitted() -> FittedDrawer:
    told = {"id": "S", "side": 16, "opening": OPENING, "front": {"style": "overlay"}}
    job = job_from_mapping({"title": "Side", "drawer": [told]})
    return fit_job(job, families_from_mappings([BEARING])).drawers[0]


def _rectangles(scene: Scene, pen: str) -> list[tuple[float, float, float, float]]:
    return [
        (min(x), min(y), max(x), max(y))
        for e in scene.primitives
        if isinstance(e, Polyline) and e.line == pen
        for x, y in [tuple(zip(*e.points, strict=True))]
    ]


def test_a_box_with_slides_beside_it_has_neither_notch_nor_hook_bore_nor_bracket() -> None:
    one = _fitted()
    assert one.box is not None
    back = box_back(one)
    assert not [e for e in back.primitives if isinstance(e, Hole | Hatch)]
    assert not {e.quantity for e in back.primitives if isinstance(e, Dimension)} & {
        "notch_width",
        "hook_bore_up",
    }
    assert [name for name, _ in templates(one)] == ["row holes left", "row holes right", "front fixing"]
    with pytest.raises(ValueError, match="no hook bores"):
        back_template(one)
    with pytest.raises(ValueError, match="no locking brackets"):
        locking_bracket(one, "left")


def test_the_slides_lie_in_the_gaps_beside_the_box() -> None:
    one = _fitted()
    assert one.box is not None
    half, box = one.opening.width / 2, one.box.outside_width / 2
    assert half - box == pytest.approx(12.7)
    for scene, pen in ((plan(one), "edge"), (front(one), "hidden")):
        beside = [r for r in _rectangles(scene, pen) if box <= r[0] and r[2] <= half]
        assert beside, scene.name
        mirrored = [r for r in _rectangles(scene, pen) if -half <= r[0] and r[2] <= -box]
        assert sorted(-r[2] for r in mirrored) == pytest.approx(sorted(r[0] for r in beside))


def test_the_side_section_shows_the_slide_behind_the_box() -> None:
    one = _fitted()
    assert one.mounting is not None
    assert one.mounting.screw_line == 54.0
    hidden = _rectangles(side_section(one), "hidden")
    assert any(low < 54.0 < high for _, low, _, high in hidden)


def test_the_box_side_bears_the_slides_line_on_its_other_face() -> None:
    side = dict(panels(_fitted()))["box side left"]
    assert [
        e.value for e in side.primitives if isinstance(e, Dimension) and e.quantity == "screw_line_up"
    ] == [40.0]
