"""Corners close: what one part has, its mate has at the same place, over every way to build a box."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.drawing.geometry import Bounds, bounds_of
from drawerwright.drawing.primitives import Hole, Polyline
from drawerwright.drawing.scene import Dimension, Scene, mirror
from drawerwright.drawing.views.bottom_screws import EDGE_PILOT_DEPTH
from drawerwright.drawing.views.box_side import box_side
from drawerwright.drawing.views.grooves import side_groove
from drawerwright.drawing.views.joints import FROM_EDGE, corner, dowel_heights, tails
from drawerwright.drawing.views.panels import panels
from drawerwright.drawing.views.rear_cuts import rear_cuts
from drawerwright.model.fitted import FittedDrawer

from .drawers import OPENING, fit

JOINTS = ("butt", "rabbet", "dowel", "dovetail")
BOTTOMS = ("groove-4", "groove-3", "under")
FRONTS = ("applied", "integral")

built = st.tuples(
    st.sampled_from(JOINTS),
    st.sampled_from(BOTTOMS),
    st.sampled_from(FRONTS),
    st.sampled_from(["overlay", "inset"]),
    st.sampled_from([12.7, 16.0]),
    st.sampled_from([12.0, 16.0, 18.0]),
    st.sampled_from([90.0, 120.0, 168.0, 260.0, 400.0]),
)


@cache
def _fitted(
    joint: str, bottom: str, front: str, style: str, side: float, back: float, height: float
) -> FittedDrawer:
    told = {
        "opening": {**OPENING, "height": height, "depth": 560},
        "side": side,
        "subfront": 16,
        "front": {"style": style, "handle": {"spacing": 96}},
        "box": {"joint": joint, "bottom": bottom, "front": front, "back": back},
    }
    return fit("J", told)


def _holes(scene: Scene, operation: str) -> list[Hole]:
    return [e for e in scene.primitives if isinstance(e, Hole) and e.operation == operation]


def _cuts(scene: Scene, layer: str) -> list[Bounds]:
    """Bounds of the closed outlines on layers that begin so."""
    return [
        bounds_of(e.points) for e in scene.primitives if isinstance(e, Polyline) and e.layer.startswith(layer)
    ]


def _depth(scene: Scene, layer: str) -> float:
    """The depth that the names of layers tell which begin so."""
    named = {e.layer for e in scene.primitives if isinstance(e, Polyline) and e.layer.startswith(layer)}
    (deep,) = {word for name in named for word in re.findall(r"deep ([\d.]+)", name)}
    return float(deep)


@settings(max_examples=40, deadline=None)
@given(built)
def test_corner_bores_of_both_parts_match(how: tuple[str, str, str, str, float, float, float]) -> None:
    """Heights above the box's lower edge, the middle of the thickness, and both depths: 30 + 2 for glue."""
    one = _fitted(*how)
    if one.box is None:
        return
    scenes = dict(panels(one))
    side = scenes["box side left"]
    length = next(part.length for part in one.parts if part.part == "side")
    for end, name in (("front", "subfront"), ("back", "box back")):
        at = corner(one, end)  # type: ignore[arg-type]
        if at.joint not in ("butt", "dowel") or not at.thickness:
            continue
        operation = "dowel bores" if at.joint == "dowel" else "screw holes of the corner"
        in_end = "dowel bores in the end grain" if at.joint == "dowel" else "pilot holes in the end grain"
        inset = at.thickness / 2
        x = inset if end == "front" else length - inset
        in_side = sorted(h.centre[1] for h in _holes(side, operation) if h.centre[0] == pytest.approx(x))
        bores = _cuts(scenes[name], in_end)
        left = sorted(b.centre[1] + at.low for b in bores if b.centre[0] < 0)
        right = sorted(b.centre[1] + at.low for b in bores if b.centre[0] > 0)
        assert in_side == pytest.approx(left)
        assert left == pytest.approx(right)
        if at.joint == "dowel" and in_side:
            (deep,) = {h.depth for h in _holes(side, operation) if h.centre[0] == pytest.approx(x)}
            assert deep is not None
            assert deep + _depth(scenes[name], in_end) == pytest.approx(32.0)
            assert deep <= how[4] - 4.0 + 1e-9


@settings(max_examples=40, deadline=None)
@given(built)
def test_dowels_keep_clear_of_edges_groove_notch_and_hook_bore(
    how: tuple[str, str, str, str, float, float, float],
) -> None:
    one = _fitted("dowel", *how[1:])
    if one.box is None:
        return
    scenes = dict(panels(one))
    cuts = rear_cuts(one)
    assert cuts is not None
    for end in ("front", "back"):
        at = corner(one, end)  # type: ignore[arg-type]
        heights = dowel_heights(one, end)  # type: ignore[arg-type]
        if len(heights) > 1:
            assert heights[0] >= at.low + FROM_EDGE - 1e-9
            assert heights[-1] == pytest.approx(at.high - FROM_EDGE)
            steps = [b - a for a, b in pairwise(heights)]
            assert max(steps) <= 32.0 + 1e-9
            assert max(steps) == pytest.approx(min(steps))
        groove = next(iter(_cuts(scenes["box side left"], "groove")), None)
        for y in heights:
            assert at.low < y < at.high
            if groove is not None and at.low < groove.top:
                assert y - 3.0 > groove.top
            if end == "back":
                assert y - 3.0 > cuts.lifted + cuts.bore_y + cuts.bore / 2
                assert y - 3.0 > 13.0


@settings(max_examples=40, deadline=None)
@given(built)
def test_rabbets_take_the_cross_piece_and_what_is_left_makes_up_the_side(
    how: tuple[str, str, str, str, float, float, float],
) -> None:
    """Width of the rabbet: the piece's thickness. Piece + what is left of both sides: the box's width."""
    one = _fitted("rabbet", *how[1:])
    if one.box is None:
        return
    side = dict(panels(one))["box side left"]
    rabbets = _cuts(side, "rabbet")
    wanted = [one.box.back] if how[2] == "integral" else [one.box.subfront, one.box.back]
    assert sorted(r.width for r in rabbets) == pytest.approx(sorted(wanted))
    depth = _depth(side, "rabbet")
    back = next(part.length for part in one.parts if part.part == "back")
    assert depth + (one.box.side - depth) == pytest.approx(one.box.side)
    assert back + 2 * (one.box.side - depth) == pytest.approx(one.box.outside_width)
    assert depth == pytest.approx(one.box.side / 2)


@settings(max_examples=40, deadline=None)
@given(built)
def test_sockets_receive_the_tails(how: tuple[str, str, str, str, float, float, float]) -> None:
    """A socket's mouth is the tail's root, as long as the side is thick, as deep as the tail is long."""
    one = _fitted("dovetail", *how[1:])
    if one.box is None:
        return
    scenes = dict(panels(one))
    (outline,) = [
        e for e in scenes["box side left"].primitives if isinstance(e, Polyline) and e.layer == "outline"
    ]
    for end, name in (("front", "subfront"), ("back", "box back")):
        at = corner(one, end)  # type: ignore[arg-type]
        found = tails(one, end)  # type: ignore[arg-type]
        assert found
        if not at.thickness:
            continue
        mouths = [b for b in _cuts(scenes[name], "dovetail sockets deep") if b.centre[0] < 0]
        assert [(b.bottom + at.low, b.top + at.low) for b in mouths] == [
            (pytest.approx(t.root_low), pytest.approx(t.root_high)) for t in found
        ]
        assert {round(b.width, 9) for b in mouths} == {one.box.side}
        assert _depth(scenes[name], "dovetail sockets deep") == pytest.approx(at.depth, abs=0.005)
        ys = {round(y, 6) for _, y in outline.points}
        assert {round(t.low, 6) for t in found} | {round(t.high, 6) for t in found} <= ys
        assert at.depth < at.thickness
        for a, b in pairwise(found):
            assert b.low > a.high
        assert found[0].low > at.low
        assert found[-1].high < at.high


@settings(max_examples=40, deadline=None)
@given(built)
def test_the_bottom_lies_in_its_grooves_or_on_its_screws(
    how: tuple[str, str, str, str, float, float, float],
) -> None:
    one = _fitted(*how)
    if one.box is None:
        return
    scenes = dict(panels(one))
    bottom = next(part for part in one.parts if part.part == "bottom")
    groove = side_groove(one)
    front, back = corner(one, "front"), corner(one, "back")
    side = next(part.length for part in one.parts if part.part == "side")
    if how[1] == "under":
        assert groove is None
        assert not any(_cuts(scene, "groove") for scene in scenes.values())
        assert bottom.width == pytest.approx(one.box.inside_width)
    else:
        assert groove is not None
        assert (groove.bottom, groove.height) == (one.box.bottom_recess, one.box.bottom)
        assert bottom.width == pytest.approx(one.box.inside_width + 2 * one.box.groove_depth)
        start = front.inside_at - one.box.groove_depth
        assert groove.left <= max(start, 0.0) + 1e-9
        wood = side - back.depth if back.joint == "dovetail" and how[1] == "groove-3" else side
        assert groove.right >= min(start + bottom.length, wood) - 1e-9
    for end, name in (("front", "subfront"), ("back", "box back")):
        at = corner(one, end)  # type: ignore[arg-type]
        y = at.thickness / 2 if end == "front" else bottom.length - at.thickness / 2
        holes = _holes(scenes["bottom"], "screw holes up into front and back")
        below = sorted(h.centre[0] for h in holes if h.centre[1] == pytest.approx(y))
        if name in scenes:
            pilots = _cuts(scenes[name], "pilot holes in the lower edge")
            assert sorted(p.centre[0] for p in pilots) == pytest.approx(below)
            assert {round(p.height, 9) for p in pilots} <= {EDGE_PILOT_DEPTH}
            stands = how[1] == "under" or (how[1] == "groove-3" and end == "back")
            assert bool(below) == stands


@settings(max_examples=30, deadline=None)
@given(built)
def test_hands_mirror_and_dimensions_are_true_however_the_box_is_built(
    how: tuple[str, str, str, str, float, float, float],
) -> None:
    one = _fitted(*how)
    if one.box is None:
        return
    assert mirror(box_side(one, "left")).primitives == box_side(one, "right").primitives
    for name, scene in panels(one):
        for each in scene.primitives:
            if isinstance(each, Dimension):
                axis = 0 if each.direction == "horizontal" else 1
                drawn = abs(each.end[axis] - each.start[axis])
                assert drawn == pytest.approx(each.value, abs=1e-6), (name, each.quantity)


@settings(max_examples=30, deadline=None)
@given(built)
def test_screws_of_the_front_meet_through_subfront_and_front(
    how: tuple[str, str, str, str, float, float, float],
) -> None:
    """Box laid on the front, which lies face down: both are seen from behind, and one shift fits all."""
    one = _fitted(*how)
    if one.box is None or one.fixing is None or not one.fixing.holes:
        return
    scenes = dict(panels(one))
    through = [h.centre for h in _holes(scenes["subfront"], "screw holes of the front")]
    pilots = [h.centre for h in _holes(scenes["front"], "pilot holes of the front")]
    assert len(through) == len(pilots)
    shifts = {(round(b[0] - a[0], 6), round(b[1] - a[1], 6)) for a, b in zip(through, pilots, strict=True)}
    assert len(shifts) == 1
    (box,) = _cuts(scenes["front"], "box behind")
    ((x, y),) = shifts
    assert x == pytest.approx(box.centre[0], abs=1e-6)
    assert y == pytest.approx(box.bottom + corner(one, "front").low, abs=1e-6)


def test_handles_are_mirrored_on_the_back_of_the_front() -> None:
    """A box moved aside by hinges on the left: borings keep to the front's middle, the screws do not."""
    told = {
        "opening": OPENING,
        "lost": {"left": 20},
        "front": {"style": "overlay", "handle": {"spacing": 96}},
    }
    one = fit("H", told)
    assert one.fixing is not None
    scene = dict(panels(one))["front"]
    assert [h.centre[0] for h in _holes(scene, "handle borings")] == [-48.0, 48.0]
    places = [h.centre for h in _holes(scene, "pilot holes of the front")]
    assert sorted(places) == sorted((-x, y) for x, y in one.fixing.holes_in_front)
    assert sum(x for x, _ in places) != pytest.approx(0.0)


def test_banding_shows_the_cut_size() -> None:
    """Banding of 1 all round: 594 × 200 is cut 592 × 198."""
    one = fit("E", {"opening": OPENING, "front": {"style": "overlay", "edging": 1}})
    scene = dict(panels(one))["front"]
    (cut,) = _cuts(scene, "cut size before banding")
    assert (cut.width, cut.height) == (592.0, 198.0)
