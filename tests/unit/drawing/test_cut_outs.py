"""The cut-out for pipes on drawings: sawn out of back and bottom where the model says, walled in plan."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Hole, Polyline
from drawerwright.drawing.scene import Dimension, Leader, Scene
from drawerwright.drawing.views.bottom_panel import bottom
from drawerwright.drawing.views.bottom_screws import BOTTOM_HOLE, FROM_SAWN, screw_places, screw_rows
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


def _screwed(kind: str, **cut_out: float) -> FittedDrawer:
    told = {**TOLD, "cut_out": {"width": 260, "depth": 230, **cut_out}, "box": {"bottom": kind}}
    return fit("piped", told)


def _pilots(scene: Scene) -> list[float]:
    """Where pilot holes in the lower edge stand: x of their middles."""
    return [
        (each.points[0][0] + each.points[1][0]) / 2
        for each in scene.primitives
        if isinstance(each, Polyline) and each.layer.startswith("pilot holes in the lower edge")
    ]


@pytest.mark.parametrize("kind", ["under", "groove-3"])
def test_each_piece_of_the_back_is_screwed_for_itself_from_60_inside_the_side_to_12_from_the_cut(
    kind: str,
) -> None:
    """720 inside: -360 to -160 stay left, 100 to 360 right; 128 and 188 of them, in steps up to 150."""
    left, right = screw_rows(_screwed(kind, from_left=200), "back")
    assert [x for x, _ in left] == pytest.approx([-300.0, -172.0])
    assert [x for x, _ in right] == pytest.approx([112.0, 206.0, 300.0])


@pytest.mark.parametrize("kind", ["under", "groove-3"])
def test_screws_of_a_cut_bottom_are_counted_as_they_are_drawn_and_told_from_both_ends(kind: str) -> None:
    one = _screwed(kind, from_left=200)
    scene = bottom(one)
    holes = [each for each in scene.primitives if isinstance(each, Hole)]
    assert len(holes) == 5 + len(screw_places(one, "front"))
    (note,) = (each for each in scene.primitives if isinstance(each, Leader))
    assert note.text.startswith(f"{len(holes)} × ")
    told = [
        each.value
        for each in scene.primitives
        if isinstance(each, Dimension) and each.quantity == "bottom_screw_first" and each.start[1] > 100
    ]
    outside = 6.0 if kind == "groove-3" else 0.0  # what of the bottom stands in the sides' grooves
    assert told == pytest.approx([60.0 + outside] * 2)


@pytest.mark.parametrize("kind", ["under", "groove-3"])
def test_pilot_holes_in_the_back_seen_from_behind_meet_the_holes_in_the_bottom(kind: str) -> None:
    one = _screwed(kind, from_left=200)
    below = [x for x, _ in screw_places(one, "back")]
    assert _pilots(box_back(one)) == pytest.approx([-x for x in reversed(below)])


def test_a_short_piece_of_back_has_one_screw_between_member_and_cut_and_a_shorter_one_none() -> None:
    """65 stay: -360 to -295, less 35 over the member: -325 to -295. Of 50 no more than 15 are left: none."""
    left, _ = screw_rows(_screwed("groove-3", from_left=65), "back")
    assert [x for x, _ in left] == pytest.approx([-310.0])
    (right,) = screw_rows(_screwed("groove-3", from_left=50), "back")
    assert min(x for x, _ in right) > -50.0


def test_two_screws_of_a_piece_never_stand_close_together() -> None:
    """73 stay, 1 between 60 from the side and 12 from the cut: one screw, midway of -325 and -287."""
    left, _ = screw_rows(_screwed("groove-3", from_left=73), "back")
    assert [x for x, _ in left] == pytest.approx([-306.0])


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(["under", "groove-3"]),
    st.floats(40.0, 620.0),
    st.floats(30.0, 270.0),
    st.one_of(st.none(), st.floats(20.0, 600.0)),
)
def test_no_screw_of_the_bottom_stands_inside_the_cut_out_wherever_it_is(
    kind: str, width: float, depth: float, from_left: float | None
) -> None:
    at = {} if from_left is None else {"from_left": from_left}
    one = _screwed(kind, width=width, depth=depth, **at)
    if one.box is None or one.cut_out is None:
        return
    away = _sawn(bottom(one))
    for end in ("front", "back"):
        for x, y in screw_places(one, end):  # type: ignore[arg-type]
            beside = max(away.left - x, x - away.right, away.bottom - y)
            assert beside >= (FROM_SAWN if end == "back" else BOTTOM_HOLE / 2) - 1e-9
            assert abs(x) < one.box.inside_width / 2
