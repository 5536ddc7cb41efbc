"""How a front's pose moves its gaps and its readings tell its pose: against exact rotations and by hand.

Exact rotations: scipy.spatial.transform.Rotation. Signs: a front drawn by hand for each, as the public
contract states them (roll positive lifts the right end, yaw positive pushes it in, pitch positive brings
the top out). Chi-square: scipy.stats.chi2.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.spatial.transform import Rotation
from scipy.stats import chi2

from drawerwright.align.adjusters import adjusters_of
from drawerwright.align.front_geometry import POSE, FrontGeometry
from drawerwright.align.pose import find_state
from drawerwright.align.stack import MeasuredFront, Stack
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.gaps import GAP_NAMES, FrontGaps, Reading

FRONT = FrontGeometry(width=600.0, height=180.0, length=500.0, base=480.0)


def exact_changes(pose: np.ndarray) -> dict[str, float]:
    """Change of each reading when the front is rotated rigidly about its centre, then shifted."""
    roll, yaw, pitch = pose[3:]
    turn = Rotation.from_rotvec([pitch, yaw, roll])
    changes = {}
    for name in GAP_NAMES:
        x = 300.0 if "right" in name else -300.0
        y = 90.0 if "top" in name else -90.0
        dx, dy, dz = turn.apply([x, y, 0.0]) + pose[:3] - [x, y, 0.0]
        edge = name.split("_")[0]
        changes[name] = {"out": dz, "left": dx, "right": -dx, "top": -dy, "bottom": dy}[edge]
    return changes


def test_linear_gaps_are_within_a_hundredth_of_an_exact_rotation_up_to_2_mm_and_4_mrad() -> None:
    random = np.random.default_rng(1)
    worst = 0.0
    for _ in range(400):
        pose = np.concatenate([random.uniform(-2, 2, 3), random.uniform(-0.004, 0.004, 3)])
        exact = exact_changes(pose)
        linear = FRONT.gap_changes @ pose
        worst = max(worst, *(abs(exact[name] - one) for name, one in zip(GAP_NAMES, linear, strict=True)))
    corners = np.array(np.meshgrid(*[[-1.0, 1.0]] * 6)).reshape(6, -1).T * [2, 2, 2, 0.004, 0.004, 0.004]
    for pose in corners:
        exact = exact_changes(pose)
        linear = FRONT.gap_changes @ pose
        worst = max(worst, *(abs(exact[name] - one) for name, one in zip(GAP_NAMES, linear, strict=True)))
    assert 0.001 < worst < 0.01


BY_HAND = {
    # one mm to the right: left gaps open, right ones close
    "x": (1.0, {"left_top": 1, "left_bottom": 1, "right_top": -1, "right_bottom": -1}),
    # one mm up: bottom gaps open, top ones close
    "y": (1.0, {"top_left": -1, "top_right": -1, "bottom_left": 1, "bottom_right": 1}),
    "z": (1.0, {"out_top_left": 1, "out_top_right": 1, "out_bottom_left": 1, "out_bottom_right": 1}),
    # right end up, by 3 mm at 300 from the middle: the top end leans left by 0.9 at 90 above the middle
    "roll": (
        0.01,
        {
            "top_left": 3, "top_right": -3, "bottom_left": -3, "bottom_right": 3,
            "left_top": -0.9, "left_bottom": 0.9, "right_top": 0.9, "right_bottom": -0.9,
        },
    ),
    # right end in by 3 mm
    "yaw": (0.01, {"out_top_left": 3, "out_top_right": -3, "out_bottom_left": 3, "out_bottom_right": -3}),
    # top out by 0.9 mm
    "pitch": (
        0.01,
        {"out_top_left": 0.9, "out_top_right": 0.9, "out_bottom_left": -0.9, "out_bottom_right": -0.9},
    ),
}  # fmt: skip


@pytest.mark.parametrize("coordinate", BY_HAND)
def test_each_coordinate_moves_the_gaps_as_drawn_by_hand(coordinate: str) -> None:
    by, drawn = BY_HAND[coordinate]
    pose = np.zeros(6)
    pose[POSE.index(coordinate)] = by
    told = dict(zip(GAP_NAMES, FRONT.gap_changes @ pose, strict=True))
    assert {name: value for name, value in told.items() if value} == pytest.approx(drawn)


def test_adjusters_move_a_front_600_wide_250_high_and_500_long_as_the_trade_has_it() -> None:
    """By hand: 1.5 to the side swings the ends ±0.9 in and out; 3 of height leans the top in by 1.5."""
    front = FrontGeometry(width=600.0, height=250.0, length=500.0, base=480.0)
    side = dict(zip(GAP_NAMES, front.turning @ [1.5, 0, 0, 0, 0, 0], strict=True))
    assert (side["left_top"], side["right_top"]) == pytest.approx((1.5, -1.5))
    assert (side["out_top_left"], side["out_top_right"]) == pytest.approx((0.9, -0.9))
    lift = dict(zip(GAP_NAMES, front.turning @ [0, 3, 3, 0, 0, 0], strict=True))
    assert (lift["bottom_left"], lift["top_right"]) == pytest.approx((3, -3))
    assert lift["out_top_left"] - lift["out_bottom_left"] == pytest.approx(-1.5)
    rolled = dict(zip(GAP_NAMES, front.turning @ [0, 0, 0.48, 0, 0, 0], strict=True))
    assert rolled["bottom_right"] > 0 > rolled["bottom_left"]
    out = dict(zip(GAP_NAMES, front.turning @ [0, 0, 0, 0, 1, 0], strict=True))
    assert out["out_top_right"] > 0.9
    assert out["out_top_left"] < 0.1


def test_errors_of_500_found_poses_match_their_stated_uncertainty(
    fit_one: Callable[..., FittedDrawer],
) -> None:
    fitted = fit_one(front={"style": "inset"})
    random = np.random.default_rng(2)
    spread = random.uniform(0.05, 0.4, len(GAP_NAMES))
    adjusters = adjusters_of(fitted, {}, {})
    total = 0.0
    for _ in range(500):
        pose = np.concatenate([random.uniform(-2, 2, 3), random.uniform(-0.004, 0.004, 3)])
        values = np.array([0.0 if name.startswith("out") else 3.0 for name in GAP_NAMES])
        values += FRONT.gap_changes @ pose + random.normal(0.0, spread)
        told = {
            name: Reading(value, within)
            for name, value, within in zip(GAP_NAMES, values.tolist(), spread.tolist(), strict=True)
        }
        front = MeasuredFront(fitted, FrontGaps("A", told), FRONT, adjusters, 3.0, 3.0, 3.0)
        found = find_state(Stack((front,)))
        off = found.state[:6] - pose / found.scale[:6]
        total += float(off @ np.linalg.solve(found.covariance[:6, :6], off))
    low, high = chi2.ppf([0.005, 0.995], 6 * 500)
    assert low < total < high
