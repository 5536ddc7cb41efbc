"""Volumes and masses of parts against solids of `trimesh`, and against a box worked by hand.

The solids are put together as a joiner would, from the sizes of the cut list alone: they must stand in each
other's grooves and laps, fill the walls of the box, leave its inside free and be as large as the box.
Densities: Wood Handbook (US Forest Products Laboratory), yellow birch G 0.62 at 12 % moisture, so
1000 × 0.62 × 1.12 kg/m³; plywood at the upper end of Table 12-1, 600 kg/m³.
"""

from __future__ import annotations

from itertools import combinations, product
from typing import Any

import numpy as np
import pytest
import trimesh

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, Part

PLYWOOD = 600.0
BIRCH = 1000 * 0.62 * 1.12

FAMILY = SlideFamily.model_validate(
    {
        "id": "plain-16",
        "invented": True,
        "capacity": 45,
        "inside_width_deduction": 42,
        "latch_tolerance": {"side": 5, "along": 5},
        "hardware_mass": 1.0,
        "length": [{"nominal": 500, "holes": [0, 32, 224, 448]}],
    }
)
JOINTS = ("butt", "dowel", "rabbet", "dovetail")
CONSTRUCTIONS = [*product(JOINTS, ("groove-4", "groove-3", "under"))]


def fitted(**keys: Any) -> FittedDrawer:
    drawer = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16, **keys}
    (done,) = fit_job(job_from_mapping({"drawer": [drawer]}), [FAMILY]).drawers
    assert done.box is not None
    return done


def solid(low: tuple[float, float, float], size: tuple[float, float, float]) -> trimesh.Trimesh:
    """A block with its least corner at `low` [mm], of plywood."""
    made = trimesh.creation.box(extents=size)
    made.apply_translation(np.array(low) + np.array(size) / 2)
    made.density = PLYWOOD / 1e9
    return made


def assembled(done: FittedDrawer) -> dict[str, trimesh.Trimesh]:
    """The parts in their places: x from the left outside, y up, z from the subfront's face inwards."""
    found = {part.part: part for part in done.parts}
    box, drawer = done.box, done.drawer
    assert box is not None
    side, subfront, back, bottom = (found[name] for name in ("side", "subfront", "back", "bottom"))
    lap = {"dovetail": drawer.subfront_thickness * 2 / 3}.get(drawer.box.joint, 0.0)
    into = {"rabbet": drawer.side / 2}.get(drawer.box.joint, 0.0)
    beside = 0.0 if drawer.box.joint == "dovetail" else side.thickness - into
    side_starts = subfront.thickness - lap if drawer.box.joint == "dovetail" else 0.0
    grooved = 0.0 if drawer.box.bottom == "under" else drawer.box.groove_depth
    starts = 0.0 if drawer.box.bottom == "under" else subfront.thickness - grooved
    thick, wide = side.thickness, box.outside_width
    side_size = (thick, side.width, side.length)
    across = {part: (part.length, part.width, part.thickness) for part in (subfront, back)}
    return {
        "left": solid((0.0, 0.0, side_starts), side_size),
        "right": solid((wide - thick, 0.0, side_starts), side_size),
        "subfront": solid((beside, box.height - subfront.width, 0.0), across[subfront]),
        "back": solid((beside, box.height - back.width, box.length - back.thickness), across[back]),
        "bottom": solid(
            (thick - grooved, FAMILY.bottom_recess, starts), (bottom.width, bottom.thickness, bottom.length)
        ),
    }


def overlap(one: trimesh.Trimesh, other: trimesh.Trimesh) -> float:
    """Wood [mm³] that two blocks would share: what a groove or a joint takes away."""
    common = np.minimum(one.bounds[1], other.bounds[1]) - np.maximum(one.bounds[0], other.bounds[0])
    return float(np.prod(np.maximum(common, 0.0)))


def volume(part: Part) -> float:
    return part.count * part.length * part.width * part.thickness


@pytest.mark.parametrize(("joint", "bottom"), CONSTRUCTIONS)
def test_parts_have_the_volume_and_the_mass_of_their_solids(joint: str, bottom: str) -> None:
    done = fitted(box={"joint": joint, "bottom": bottom})
    solids = assembled(done)
    assert all(one.is_watertight for one in solids.values())
    assert sum(volume(part) for part in done.parts) == pytest.approx(
        sum(one.volume for one in solids.values()), rel=1e-9
    )
    assert done.mass is not None
    assert done.mass.box == pytest.approx(sum(one.mass for one in solids.values()), rel=1e-9)


@pytest.mark.parametrize(("joint", "bottom"), CONSTRUCTIONS)
def test_the_solids_put_together_are_as_large_as_the_box_and_balanced(joint: str, bottom: str) -> None:
    done = fitted(box={"joint": joint, "bottom": bottom})
    together = trimesh.util.concatenate(list(assembled(done).values()))
    box = done.box
    assert box is not None
    assert together.extents == pytest.approx([box.outside_width, box.height, box.length], abs=1e-6)
    assert together.center_mass[0] == pytest.approx(box.outside_width / 2, abs=1e-6)


@pytest.mark.parametrize(("joint", "bottom"), CONSTRUCTIONS)
def test_the_walls_are_wood_all_round_and_the_inside_is_free(joint: str, bottom: str) -> None:
    done = fitted(box={"joint": joint, "bottom": bottom}, subfront=18)
    box, solids = done.box, assembled(done)
    assert box is not None
    drawer = done.drawer
    x, z = np.meshgrid(np.arange(0.37, box.outside_width, 3.07), np.arange(0.37, box.length, 3.07))
    level = np.full(x.size, box.height - 5.0)
    points = np.column_stack([x.ravel(), level, z.ravel()])
    inside = (
        (abs(points[:, 0] - box.outside_width / 2) < box.inside_width / 2)
        & (points[:, 2] > drawer.subfront_thickness)
        & (points[:, 2] < box.length - drawer.back_thickness)
    )
    wood = sum(trimesh.bounds.contains(one.bounds, points).astype(int) for one in solids.values())
    assert (wood[inside] == 0).all()
    assert (wood[~inside] >= 1).all()
    if joint in ("butt", "dowel"):
        assert (wood[~inside] == 1).all()


@pytest.mark.parametrize(("joint", "bottom"), CONSTRUCTIONS)
def test_grooves_and_laps_left_in_make_the_mass_at_most_a_twentieth_too_large(
    joint: str, bottom: str
) -> None:
    """The tool weighs parts as they are sawn. Butted on a bottom that lies under, nothing is cut away."""
    done = fitted(box={"joint": joint, "bottom": bottom})
    solids = assembled(done)
    cut_away = sum(overlap(*pair) for pair in combinations(solids.values(), 2)) * PLYWOOD / 1e9
    assert done.mass is not None
    assert cut_away < 0.05 * done.mass.box
    if joint in ("butt", "dowel") and bottom == "under":
        assert cut_away == pytest.approx(0.0, abs=1e-9)
    else:
        assert cut_away > 0.0


def test_a_birch_box_weighs_what_the_wood_handbooks_density_makes_of_it() -> None:
    """Worked by hand: opening 562, deduction 42, sides 16, height 168 − 14 − 7 = 147, length 500.

    Sides 2 × 500 × 147 × 16 = 2,352,000 mm³; subfront and back 2 × 520 × 147 × 16 = 2,446,080 mm³: together
    4,798,080 mm³ of birch at 694.4 kg/m³, 3.3318 kg. Bottom (500 − 32 + 12) × (520 + 12) × 6 = 1,532,160 mm³
    of plywood at 600 kg/m³, 0.9193 kg. Together 4.2511 kg; a density kept to whole kg/m³ is half of one off,
    2.4 g here.
    """
    done = fitted(materials={"side": "5/8 birch"})
    assert pytest.approx(694.4) == BIRCH
    assert done.mass is not None
    assert done.mass.box == pytest.approx(3.3318 + 0.9193, abs=2.5e-3)
