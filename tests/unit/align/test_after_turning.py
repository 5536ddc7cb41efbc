"""Fronts turned as they are told, simulated as rigid bodies: what was measured never comes out less even."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from drawerwright.align import align_job
from drawerwright.align.front_geometry import FrontGeometry, front_geometry
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES
from drawerwright.model.job import Job

from .align_builders import gaps_of
from .test_moves import turned

from tests.conftest import plain_drawer, plain_family  # isort: skip

STEP = 0.25
ALIKE = (
    ("left_top", "left_bottom"), ("right_top", "right_bottom"), ("top_left", "top_right"),
    ("bottom_left", "bottom_right"), ("left_top", "right_top"), ("left_bottom", "right_bottom"),
    ("top_left", "bottom_left"), ("top_right", "bottom_right"),
)  # fmt: skip
"""Gaps that should be alike: the two ends of an edge, and what stands across from each other."""


def fitted_front(width: float, height: float) -> FittedJob:
    """One overlay front."""
    drawer = plain_drawer(front={"style": "overlay"}, opening={"width": width, "height": height})
    return fit_job(Job.model_validate({"drawer": [drawer]}), [plain_family()])


def rigid_gaps(front: FrontGeometry, pose: np.ndarray, wide: float, high: float) -> dict[str, float]:
    """All readings of a front at a pose, by exact rotation; gaps `wide` and `high` where it is centred."""
    roll, yaw, pitch = pose[3:]
    turn = Rotation.from_rotvec([pitch, yaw, roll])
    found = {}
    for name in GAP_NAMES:
        x = front.width / 2 if "right" in name else -front.width / 2
        y = front.height / 2 if "top" in name else -front.height / 2
        dx, dy, dz = turn.apply([x, y, 0.0]) + pose[:3] - [x, y, 0.0]
        edge = name.split("_")[0]
        found[name] = {"out": dz, "left": wide + dx, "right": wide - dx, "top": high - dy,
                       "bottom": high + dy}[edge]  # fmt: skip
    return found


def brackets(front: FrontGeometry, marks: dict[tuple[str, str], int]) -> np.ndarray:
    """The pose (6,) that marks bring, from where the two brackets and the hooks hold the box: by hand.

    The box turns about its hooks when pushed sideways, and about the brackets when these are lifted.
    """
    at = {key: count * STEP for key, count in marks.items()}
    side = (at.get(("left", "side"), 0.0) + at.get(("right", "side"), 0.0)) / 2
    left, right = at.get(("left", "height"), 0.0), at.get(("right", "height"), 0.0)
    out_left, out_right = at.get(("left", "depth"), 0.0), at.get(("right", "depth"), 0.0)
    roll = (right - left) / front.base
    lean = -(left + right) / 2 / front.length
    yaw = side / front.length + (out_left - out_right) / front.base
    return np.array([
        side - roll * front.above,
        (left + right) / 2 - roll * front.off_middle,
        (out_left + out_right) / 2 + lean * front.above
        + front.off_middle * (out_left - out_right) / front.base,
        roll, yaw, lean,
    ])  # fmt: skip


def spread_of(gaps: dict[str, float], taken: set[str]) -> float:
    """The largest difference of two gaps that were both measured and should be alike [mm]."""
    return max((abs(gaps[one] - gaps[two]) for one, two in ALIKE if {one, two} <= taken), default=0.0)


@pytest.mark.parametrize("seed", range(6))
def test_what_was_measured_never_comes_out_less_even_by_more_than_a_mark(seed: int) -> None:
    """300 fronts, each with some readings taken of it."""
    random = np.random.default_rng(seed)
    fitted = fitted_front(float(random.integers(400, 900)), float(random.integers(140, 320)))
    front = front_geometry(fitted.drawers[0])
    ends = np.array([2.5, 2.0, 1.5, 2.0, 1.5, 1.0])
    scale = 1 / np.array([1, 1, 1, front.width / 2, front.width / 2, front.height / 2])
    moved = 0
    for _ in range(50):
        pose = random.uniform(-1, 1, 6) * ends * scale
        wide, high = 3.0 + random.uniform(-0.7, 0.7, 2)
        before = rigid_gaps(front, pose, wide, high)
        taken = {name for name in GAP_NAMES if random.uniform() < random.choice([0.3, 0.6, 1.0])}
        taken |= {"left_top"}
        told = {name: before[name] for name in taken}
        aligned = align_job(fitted, [gaps_of("A", **told)]).fronts[0]
        marks = turned(aligned)
        moved += bool(marks)
        after = rigid_gaps(front, pose + brackets(front, marks), wide, high)
        worst, now = spread_of(before, taken), spread_of(after, taken)
        assert now <= worst + STEP + 0.02, (told, marks)
    assert moved > 30
