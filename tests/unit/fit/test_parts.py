"""The sum of the parts closes on the box, whatever joints, bottom, front and thicknesses it is built with."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.catalogue import density_of
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, Part

JOINTS = ("butt", "dowel", "rabbet", "dovetail")
BOTTOMS = ("groove-4", "groove-3", "under")
FRONTS = ("applied", "integral")

# Latches and bores at any thickness, so that what is tried here is the box alone; an invented family.
PATIENT = SlideFamily.model_validate(
    {
        "id": "patient",
        "capacity": 500,
        "inside_width_deduction": 60,
        "min_gap": 0,
        "latch_tolerance": {"side": 60, "along": 60},
        "width_band": [-60, 60],
        "rear": {"bore_up": 20, "bore_depth": 1},
        "hardware_mass": 1.0,
        "length": [{"nominal": nominal, "holes": [0, 32, 192]} for nominal in (300, 450, 600)],
    }
)
RECESS = PATIENT.bottom_recess
PLYWOOD = 600.0  # kg/m³: Wood Handbook Table 12-1, specific gravity 0.6, what a box is taken to be of


def tenths(low: float, high: float) -> st.SearchStrategy[float]:
    return st.integers(round(low * 10), round(high * 10)).map(lambda tenth: tenth / 10)


@st.composite
def boxes(draw: st.DrawFn) -> dict[str, Any]:
    """Keys of a drawer: every construction, thicknesses from thin to thick, told or left out."""
    side = draw(tenths(9, 22))
    box: dict[str, Any] = {
        "joint": draw(st.sampled_from(JOINTS)),
        "bottom": draw(st.sampled_from(BOTTOMS)),
        "front": draw(st.sampled_from(FRONTS)),
        "bottom_thickness": draw(tenths(3, 13)),
        "groove_depth": draw(tenths(3, 6)),
    }
    for key, value in (("back", tenths(9, 22)), ("joint_depth", tenths(1, 8))):
        if draw(st.booleans()):
            box[key] = draw(value)
    keys: dict[str, Any] = {
        "id": "A",
        "opening": {
            "width": draw(tenths(320, 1100)),
            "height": draw(tenths(110, 400)),
            "depth": draw(tenths(360, 800)),
        },
        "side": side,
        "size_from": draw(st.sampled_from(["inside", "outside"])),
        "front": {"style": draw(st.sampled_from(["overlay", "inset"]))},
        "box": box,
    }
    if draw(st.booleans()):
        keys["subfront"] = draw(tenths(9, 22))
    return keys


def fit(keys: dict[str, Any]) -> FittedDrawer:
    (done,) = fit_job(job_from_mapping({"drawer": [keys]}), [PATIENT]).drawers
    assert done.slide is not None, [one.because for one in done.rejected]
    return done


def parts(done: FittedDrawer) -> dict[str, Part]:
    return {part.part: part for part in done.parts}


def let_in(done: FittedDrawer) -> float:
    """How deep a joint is let in: as told, else half the side or two thirds of the subfront."""
    drawer = done.drawer
    if drawer.box.joint_depth is not None:
        return drawer.box.joint_depth
    return drawer.side / 2 if drawer.box.joint == "rabbet" else drawer.subfront_thickness * 2 / 3


def body(done: FittedDrawer) -> float:
    """Length of the box behind an integral front, which stands in the subfront's stead; else all of it."""
    assert done.box is not None
    return done.box.length - (PATIENT.design_subfront if done.drawer.box.front == "integral" else 0.0)


def front_wood(done: FittedDrawer) -> float:
    return 0.0 if done.drawer.box.front == "integral" else done.drawer.subfront_thickness


def close(value: float) -> Any:
    return pytest.approx(value, abs=1e-9)


@given(boxes())
def test_cross_pieces_and_what_the_sides_take_are_the_outside_width(keys: dict[str, Any]) -> None:
    done = fit(keys)
    side, box, joint = done.drawer.side, done.box, done.drawer.box.joint
    assert box is not None
    taken_by_a_side = {"butt": side, "dowel": side, "rabbet": side - let_in(done), "dovetail": 0.0}[joint]
    cross = [part for name, part in parts(done).items() if name in ("subfront", "back")]
    assert len(cross) == (1 if done.drawer.box.front == "integral" else 2)
    for part in cross:
        assert part.length + 2 * taken_by_a_side == close(box.outside_width)
    assert box.inside_width + 2 * side == close(box.outside_width)
    assert box.outside_width + 2 * box.side_gap == close(keys["opening"]["width"])


@given(boxes())
def test_sides_and_front_and_back_without_their_laps_are_the_length_of_the_box(keys: dict[str, Any]) -> None:
    done = fit(keys)
    side = parts(done)["side"]
    beyond = 0.0
    if done.drawer.box.joint == "dovetail":  # the sides end in front and back: tails reach in by the lap
        beyond = front_wood(done) + done.drawer.back_thickness - 2 * let_in(done)
    assert side.length + beyond == close(body(done))
    assert side.count == 2


@given(boxes())
def test_heights_of_back_and_subfront_close_on_the_sides(keys: dict[str, Any]) -> None:
    done = fit(keys)
    found, box, bottom = parts(done), done.box, done.drawer.box.bottom
    assert box is not None
    under = RECESS + done.drawer.box.bottom_thickness
    assert found["side"].width == close(box.height)
    assert found["back"].width + (0.0 if bottom == "groove-4" else under) == close(box.height)
    if "subfront" in found:
        assert found["subfront"].width + (under if bottom == "under" else 0.0) == close(box.height)


@given(boxes())
def test_the_bottom_lies_in_its_grooves_and_ends_where_they_end(keys: dict[str, Any]) -> None:
    done = fit(keys)
    box, drawer, bottom = done.box, done.drawer, parts(done)["bottom"]
    assert box is not None
    groove = drawer.box.groove_depth
    inside = body(done) - front_wood(done) - drawer.back_thickness
    into_sides, beyond_inside = {
        "groove-4": (groove, 2 * groove),
        "groove-3": (groove, groove + drawer.back_thickness),
        "under": (0.0, front_wood(done) + drawer.back_thickness),
    }[drawer.box.bottom]
    assert bottom.width - box.inside_width == close(2 * into_sides)
    assert bottom.length - inside == close(beyond_inside)
    assert into_sides < drawer.side


@given(boxes())
def test_every_part_has_a_size(keys: dict[str, Any]) -> None:
    done = fit(keys)
    for part in done.parts:
        assert min(part.length, part.width, part.thickness) > 0.0, part
        assert part.count >= 1


@given(boxes())
def test_the_box_weighs_its_density_times_the_volume_of_its_parts(keys: dict[str, Any]) -> None:
    done = fit(keys)
    assert done.mass is not None
    volume = sum(
        part.count * part.length * part.width * part.thickness
        for part in done.parts
        if part.part in ("side", "subfront", "back", "bottom")
    )
    assert done.mass.box == pytest.approx(PLYWOOD * volume / 1e9, rel=1e-12)
    total = done.mass.box + done.mass.front + done.mass.hardware + done.mass.contents
    assert done.mass.moving == pytest.approx(total, rel=1e-12)


@pytest.mark.parametrize(("joint", "bottom", "front"), [*product(JOINTS, BOTTOMS, FRONTS)])
def test_each_part_weighs_by_the_material_that_it_is_of(joint: str, bottom: str, front: str) -> None:
    done = fit(
        {
            "id": "A",
            "opening": {"width": 600, "height": 200, "depth": 500},
            "side": "1/2 maple",
            "subfront": "3/4 cherry",
            "front": {"style": "overlay", "thickness": "3/4 walnut"},
            "box": {
                "joint": joint,
                "bottom": bottom,
                "front": front,
                "bottom_thickness": "1/4 ply",
                "back": "5/8 poplar",
            },
        }
    )
    of = {
        "side": "1/2 maple",
        "subfront": "3/4 cherry",
        "back": "5/8 poplar",
        "bottom": "1/4 ply",
        "front": "3/4 walnut",
    }
    weights = {
        part.part: part.count * part.length * part.width * part.thickness * density_of(of[part.part]) / 1e9
        for part in done.parts
    }
    assert done.mass is not None
    assert done.mass.front == pytest.approx(weights.pop("front"), rel=1e-12)
    assert done.mass.box == pytest.approx(sum(weights.values()), rel=1e-12)


@pytest.mark.parametrize("front", FRONTS)
def test_an_existing_box_is_not_cut_again(front: str) -> None:
    done = fit(
        {
            "id": "A",
            "opening": {"width": 600, "height": 200, "depth": 500},
            "side": 16,
            "box": {"front": front},
            "existing_box": {"inside_width": 540, "length": 450, "height": 150},
        }
    )
    assert done.parts == ()
