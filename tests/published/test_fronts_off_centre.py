"""Fronts fixed off the middle of their box, sideways and in height, against a rigid body turned exactly.

Exact rotations: scipy.spatial.transform.Rotation. The box is one rigid body hung at the middle of its rear
hooks and held at the middle of its two brackets, one box length ahead at the same height; the front is a
rectangle of that body. Which way each adjuster turns it: the public contract's directions.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from drawerwright.align import AlignedFront, align_job
from drawerwright.align.front_geometry import COLUMNS, FrontGeometry, front_geometry
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, Reading
from drawerwright.model.job import Job

from tests.conftest import plain_drawer, plain_family  # isort: skip

FLAT = {name: 0.0 if name.startswith("out") else 3.0 for name in GAP_NAMES}


def held_by(front: FrontGeometry, turned: dict[str, float]) -> dict[str, float]:
    """Change of each reading when adjusters [mm] turn the rigid box about the middle of its rear hooks.

    Then the box is shifted until its middle at the brackets stands where these hold it.
    """
    side = turned.get("side", 0.0)
    left, right = turned.get("height_left", 0.0), turned.get("height_right", 0.0)
    out_left, out_right = turned.get("depth_left", 0.0), turned.get("depth_right", 0.0)
    lift, out = (left + right) / 2, (out_left + out_right) / 2
    pitch = (turned.get("tilt", 0.0) - lift) / front.length
    roll, yaw = (right - left) / front.base, side / front.length + (out_left - out_right) / front.base
    turn = Rotation.from_rotvec([pitch, yaw, roll])
    hooks = np.array([0.0, 0.0, -front.length])
    brackets = turn.apply(-hooks) + hooks
    shift = np.array([side, lift, out]) - brackets
    changes = {}
    for name in GAP_NAMES:
        x = -front.off_middle + (front.width if "right" in name else -front.width) / 2
        y = front.above + (front.height if "top" in name else -front.height) / 2
        place = np.array([x, y, 0.0])
        dx, dy, dz = turn.apply(place - hooks) + hooks + shift - place
        edge = name.split("_")[0]
        changes[name] = {"out": dz, "left": dx, "right": -dx, "top": -dy, "bottom": dy}[edge]
    return changes


FRONTS = st.builds(
    FrontGeometry,
    width=st.floats(200.0, 1200.0),
    height=st.floats(80.0, 400.0),
    length=st.floats(250.0, 750.0),
    base=st.floats(200.0, 1000.0),
    off_middle=st.floats(-300.0, 300.0),
    above=st.floats(-60.0, 300.0),
)


@settings(max_examples=60)
@given(front=FRONTS, by=st.floats(-2.0, 2.0))
@pytest.mark.parametrize("adjuster", COLUMNS)
def test_each_adjuster_moves_a_front_off_the_middle_as_the_rigid_box_goes(
    adjuster: str, front: FrontGeometry, by: float
) -> None:
    """What is left of second order: half the square of the angle times the farthest corner."""
    turning = front.turning[:, COLUMNS.index(adjuster)] * by  # type: ignore[arg-type]
    exact = held_by(front, {adjuster: by})
    angle = abs(by) / min(front.length, front.base)
    reach = abs(front.off_middle) + abs(front.above) + front.width + front.height
    for name, linear in zip(GAP_NAMES, turning, strict=True):
        assert linear == pytest.approx(exact[name], abs=2 * angle**2 * reach + 1e-9), name


@settings(max_examples=60)
@given(front=FRONTS, turned=st.lists(st.floats(-1.5, 1.5), min_size=6, max_size=6))
def test_adjusters_turned_together_move_it_likewise(front: FrontGeometry, turned: list[float]) -> None:
    exact = held_by(front, dict(zip(COLUMNS, turned, strict=True)))
    angle = 2 * sum(map(abs, turned)) / min(front.length, front.base)
    reach = abs(front.off_middle) + abs(front.above) + front.width + front.height
    for name, linear in zip(GAP_NAMES, front.turning @ turned, strict=True):
        assert linear == pytest.approx(exact[name], abs=angle**2 * reach + 1e-9), name


def overlay_front(left: float, right: float, top: float, bottom: float, width: float = 400.0) -> FittedJob:
    """One drawer whose front stands over the opening's edges by that much at each."""
    overlay = {"left": left, "right": right, "top": top, "bottom": bottom}
    drawer = plain_drawer(
        front={"style": "overlay", "overlay": overlay}, opening={"width": width, "height": 168.0}
    )
    return fit_job(Job.model_validate({"drawer": [drawer]}), [plain_family()])


def line_up(fitted: FittedJob, values: dict[str, float]) -> AlignedFront:
    """The front lined up from all twelve readings."""
    told = {name: Reading(value) for name, value in values.items()}
    return align_job(fitted, [FrontGaps("A", told)]).fronts[0]  # type: ignore[arg-type]


def turned_by(aligned: AlignedFront) -> dict[str, float]:
    """Adjusters [mm] by the names of their columns."""
    found: dict[str, float] = {}
    for move in aligned.moves:
        hands = ("left", "right") if move.side == "both" else (move.side,)
        names = [f"{move.adjuster}_{hand}" for hand in hands]
        if move.adjuster in ("side", "tilt"):
            names = [move.adjuster]
        for name in names:
            found[name] = found.get(name, 0.0) + move.mm
    return found


def test_a_front_far_to_the_left_of_its_box_is_expected_where_a_side_move_swings_it() -> None:
    """By hand: 1.5 to the left over 500 brings a point c right of the box's middle out by 0.003 c."""
    fitted = overlay_front(300.0, 16.0, 16.0, 16.0)
    front = front_geometry(fitted.drawers[0])
    swung = dict(zip(GAP_NAMES, front.turning @ [-1.5, 0, 0, 0, 0, 0], strict=True))
    assert swung["out_top_left"] == pytest.approx(-0.003 * 500.0)
    assert swung["out_bottom_right"] == pytest.approx(0.003 * 216.0)
    off = {"left_top": 4.5, "left_bottom": 4.5, "right_top": 1.5, "right_bottom": 1.5}
    aligned = line_up(fitted, FLAT | off)
    assert turned_by(aligned)["side"] == pytest.approx(-1.5)
    corners = [value for name, value in aligned.expected.items() if name.startswith("out") and value]
    assert max(map(abs, corners)) < 0.7


@pytest.mark.parametrize("seed", range(4))
def test_fronts_with_unequal_overlays_come_as_the_rigid_box_brings_them_and_mirrored_likewise(
    seed: int,
) -> None:
    """60 fronts: `expected` against exact rotation, and the same front seen in a mirror."""
    random = np.random.default_rng(seed)
    moved = 0
    for _ in range(15):
        left, right, top, bottom = random.choice([3.0, 16.0, 60.0, 180.0], 4).tolist()
        fitted = overlay_front(left, right, top, bottom)
        front = front_geometry(fitted.drawers[0])
        pose = random.uniform(-1, 1, 6) * [1.5, 1.5, 1.5, 0.004, 0.004, 0.006]
        values = {
            name: FLAT[name] + float(change)
            for name, change in zip(GAP_NAMES, front.gap_changes @ pose, strict=True)
        }
        aligned = line_up(fitted, values)
        exact = held_by(front, turned_by(aligned))
        moved += bool(aligned.moves)
        for name in GAP_NAMES:
            assert aligned.expected[name] == pytest.approx(values[name] + exact[name], abs=0.03), name
        again = line_up(
            overlay_front(right, left, top, bottom), {mirrored(name): one for name, one in values.items()}
        )
        assert turned_by(again) == pytest.approx(
            {mirrored(name): -by if name == "side" else by for name, by in turned_by(aligned).items()}
        )
        assert again.expected == pytest.approx(
            {mirrored(name): one for name, one in aligned.expected.items()}, abs=1e-6
        )
        assert [one.size for one in again.left_over] == pytest.approx(
            [one.size for one in aligned.left_over], abs=1e-6
        )
    assert moved > 10


def mirrored(name: str) -> str:
    """A name with left for right."""
    swap = {"left": "right", "right": "left"}
    return "_".join(swap.get(part, part) for part in name.split("_"))


@pytest.mark.parametrize("far", [0.0, 140.0])
@pytest.mark.parametrize("slanted", [-1.0, 0.0, 1.0])
def test_a_slide_that_stands_further_in_is_told_by_what_the_corners_keep(far: float, slanted: float) -> None:
    """A front 4 mm off sideways, beyond the adjusters; what the sides lack is no yaw that is left."""
    fitted = overlay_front(16.0 + far, 16.0, 16.0, 16.0)
    front = front_geometry(fitted.drawers[0])
    off = {"left_top": 7.0, "left_bottom": 7.0, "right_top": 0.5, "right_bottom": 0.5}
    out = {name: slanted / 2 * (1 if "right" in name else -1) for name in GAP_NAMES if name.startswith("out")}
    aligned = line_up(fitted, FLAT | off | out)
    told = {one.what: one for one in aligned.left_over}
    assert "front off to the side" in told
    keeps = (aligned.expected["out_top_right"] or 0.0) - (aligned.expected["out_top_left"] or 0.0)
    mark = 0.25 * front.width / front.base
    left = told.get("one slide stands further in")
    assert abs((left.size if left else 0.0) - abs(keeps)) < max(2 * mark, 0.5 + mark / 2)
    assert left is None or ("left slide" if keeps > 0 else "right slide") in left.cure


def test_slides_that_no_depth_adjuster_moves_are_told_with_how_far_the_front_stands_out() -> None:
    family = plain_family(adjust={"side": [-1.5, 1.5], "height": [0.0, 3.0], "depth": [0.0, 0.0]})
    fitted = fit_job(Job.model_validate({"drawer": [plain_drawer(front={"style": "inset"})]}), [family])
    out = {name: 2.0 if name.endswith("left") else 0.0 for name in GAP_NAMES if name.startswith("out")}
    told = {one.what: one for one in line_up(fitted, FLAT | out).left_over}
    assert told["front stands out"].size == pytest.approx(1.0)
    assert told["one slide stands further in"].size == pytest.approx(2.0)
    assert "right slide" in told["one slide stands further in"].cure
