"""The cut-out for pipes on drawings: sawn out of back and bottom where the model says, walled in plan."""

from __future__ import annotations

from typing import Any

import pytest

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Polyline
from drawerwright.drawing.scene import Dimension, Scene
from drawerwright.drawing.views.bottom_panel import bottom
from drawerwright.drawing.views.cross_pieces import box_back
from drawerwright.drawing.views.cut_outs import CUT_OUT, cut_out_walls
from drawerwright.drawing.views.plan import plan
from drawerwright.model.fitted import FittedDrawer

from .drawers import fit

# 762 − 42 = 720 inside. From the left 200, 260 wide: 260 stay at the right. Bottom in a groove of 6.
TOLD: dict[str, Any] = {
    "opening": {"width": 762, "height": 200, "depth": 480},
    "cut_out": {"width": 260, "depth": 230, "from_left": 200},
    "side": 16,
}


def _piped(joint: str = "butt") -> FittedDrawer:
    return fit("piped", {**TOLD, "box": {"joint": joint}})


def _sawn(scene: Scene) -> Bounds:
    (found,) = (each for each in scene.primitives if isinstance(each, Polyline) and each.layer == CUT_OUT)
    x, y = zip(*found.points, strict=True)
    return Bounds(min(x), min(y), max(x), max(y))


def _numbers(scene: Scene) -> dict[str, float]:
    return {each.quantity: each.value for each in scene.primitives if isinstance(each, Dimension)}


def test_the_back_is_seen_from_behind_so_the_drawer_s_left_is_at_the_right() -> None:
    """360 − 200 = 160 from the middle. Told from the drawer's left end, as on the cut list: 200."""
    scene = box_back(_piped())
    found = _sawn(scene)
    assert (found.left, found.right) == pytest.approx((-100.0, 160.0))
    assert _numbers(scene)["back_cut_out_in"] == pytest.approx(200.0)
    assert _numbers(scene)["cut_out_width"] == pytest.approx(260.0)


def test_the_bottom_is_sawn_in_from_its_rear_edge_with_the_drawer_s_left_at_the_left() -> None:
    """230 less a back of 16 and with 6 in the groove: 220 from the rear edge."""
    scene = bottom(_piped())
    found = _sawn(scene)
    assert (found.left, found.right) == pytest.approx((-160.0, 100.0))
    assert found.height == pytest.approx(220.0)
    assert _numbers(scene)["bottom_cut"] == pytest.approx(220.0)


def test_the_walls_are_as_long_as_the_parts_that_are_cut_for_them() -> None:
    one = _piped()
    sizes = {part.part: part.length for part in one.parts}
    left, right, across = cut_out_walls(one, 480.0)
    assert left.height == right.height == pytest.approx(sizes["inner side"])
    assert across.width == pytest.approx(sizes["inner back"])
    assert across.top == left.bottom == pytest.approx(250.0)


@pytest.mark.parametrize("joint", ["butt", "rabbet", "dowel", "dovetail"])
def test_in_plan_the_back_is_two_pieces_and_nothing_stands_in_the_cut_out(joint: str) -> None:
    one = _piped(joint)
    with_it = [each for each in plan(one).primitives if isinstance(each, Polyline) and each.line == "cut"]
    told = {key: value for key, value in TOLD.items() if key != "cut_out"}
    without = fit("plain", {**told, "box": {"joint": joint}})
    plain = [each for each in plan(without).primitives if isinstance(each, Polyline) and each.line == "cut"]
    assert len(with_it) == len(plain) + 4
    assert one.box is not None
    rear = one.box.front_depth + one.box.length
    clear = Bounds(-159.9, rear - 229.9, 99.9, rear - 0.1)
    for each in with_it:
        x, y = zip(*each.points, strict=True)
        assert not Bounds(min(x), min(y), max(x), max(y)).overlaps(clear)
