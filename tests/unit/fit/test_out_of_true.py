"""Openings out of true: lean, diagonals, packing of the rear; shelves and blocks behind the stile."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, hypot, radians, sin, tan
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.fit import fit_document, fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Check, FittedDrawer, FittedJob
from drawerwright.model.job import Job

Fit = Callable[..., FittedDrawer]


def check(one: FittedDrawer, id_: str) -> Check:
    return next(found for found in one.checks if found.id == id_)


def part_sizes(one: FittedDrawer) -> dict[str, tuple[float, float, float]]:
    return {part.part: (part.length, part.width, part.thickness) for part in one.parts}


@given(lean=st.floats(-2, 2), width=st.integers(300, 900), height=st.integers(120, 400))
def test_diagonals_of_a_leaning_opening_give_its_lean_back(lean: float, width: int, height: int) -> None:
    """Corners of a parallelogram drawn by hand; its two diagonals are measured from corner to corner."""
    top_left = (height * sin(radians(lean)), height * cos(radians(lean)))
    rising_right = hypot(top_left[0] + width, top_left[1])
    rising_left = hypot(top_left[0] - width, top_left[1])
    opening = {"width": width, "height": height, "depth": 530, "diagonals": [rising_right, rising_left]}
    lengths = [{"nominal": 500, "holes": [0, 32]}]
    family = SlideFamily.model_validate(
        {"id": "plain-16", "capacity": 45, "inside_width_deduction": 42, "length": lengths}
    )
    job = Job.model_validate({"drawer": [{"id": "A", "opening": opening, "side": 16}]})
    one = fit_job(job, [family]).drawers[0]
    found = one.workings["out_of_square"].value
    assert found == pytest.approx(lean, abs=1e-6)
    box_height = one.workings["box_height"].value
    assert one.workings["box_lean"].value == pytest.approx(box_height * tan(radians(lean)), abs=1e-6)
    assert check(one, "readings-agree").margin == pytest.approx(2)


def test_diagonals_that_fit_no_width_and_height_say_what_to_measure_again(fit_one: Fit) -> None:
    """Root mean square 594.003; beside a height of 168 that makes √(594.003² − 168²) = 569.751."""
    one = fit_one(opening={"diagonals": [592, 596]})
    told = check(one, "readings-agree")
    assert told.state == "watch"
    assert "measure again" in told.cure
    assert "a width of 569.751 mm" in told.cure


def test_an_opening_without_diagonals_or_labelled_heights_is_not_judged(fit_one: Fit) -> None:
    ids = {found.id for found in fit_one(opening={"height": [168, 167]}).checks}
    assert not ids & {"opening-lean", "opening-square", "readings-agree"}


def test_a_wider_back_stops_until_the_shop_packs_the_rear(fit_one: Fit) -> None:
    keys: dict[str, Any] = {"opening": {"width": {"front": 562, "back": 566}}}
    as_is, packed = fit_one(**keys), fit_one(**keys, pack_rear=True)
    assert as_is.verdict == "does-not-fit"
    assert "pack_rear" in {change.change for change in as_is.changes}
    assert packed.verdict == "fits"
    assert packed.mounting is not None
    assert (packed.mounting.rear_packing_left, packed.mounting.rear_packing_right) == (2, 2)
    assert part_sizes(packed)["rear packing left"] == (60, 20, 2)
    (told,) = fit_document(FittedJob("", (packed,)))["drawers"]
    assert told["mounting"]["rear_packing"] == {"left": 2.0, "right": 2.0}


def test_a_narrower_back_is_not_packed_at_the_rear(fit_one: Fit) -> None:
    one = fit_one(opening={"width": {"front": 566, "back": 562}}, pack_rear=True)
    assert one.verdict == "does-not-fit"
    taper = check(one, "opening-taper")
    assert taper.margin == pytest.approx(-3)
    assert "front of each member by 2 mm" in taper.cure


def test_more_than_ten_a_side_is_no_taper_but_a_fault(fit_one: Fit) -> None:
    one = fit_one(opening={"width": {"front": 562, "back": 583}}, pack_rear=True)
    assert check(one, "opening-taper").margin == pytest.approx(-1)
    assert check(one, "opening-taper").state == "stop"


def test_rear_brackets_are_set_in_where_members_would_be_packed(fit_one: Fit) -> None:
    keys: dict[str, Any] = {
        "construction": "face-frame",
        "frame": {"left": 38, "right": 38, "thickness": 30},
        "opening": {"width": {"front": 562, "back": 566}},
    }
    one = fit_one(**keys, pack_rear=True)
    assert one.mounting is not None
    assert one.mounting.rear_bracket_left == 38 + 14 + 2
    assert one.mounting.rear_packing_left == 0


def test_the_back_made_narrower_is_a_change_that_fits(fit_one: Fit) -> None:
    (change,) = [
        one
        for one in fit_one(opening={"width": {"front": 562, "back": 566}}).changes
        if one.change == "opening.width"
    ]
    assert (change.readings, change.by) == ("back", -2.5)
    assert fit_one(opening={"width": {"front": 562, "back": 563.5}}).slide is not None
    assert fit_one(opening={"width": {"front": 562, "back": 563.6}}).slide is None


def test_a_thin_frame_lists_blocks_behind_its_stiles(fit_one: Fit) -> None:
    keys: dict[str, Any] = {"construction": "face-frame", "front": {"style": "inset"}}
    one = fit_one(**keys, frame={"left": 38, "right": 20, "thickness": 19})
    sizes = part_sizes(one)
    assert sizes["block behind stile left"] == (60, 23, 38)
    assert sizes["block behind stile right"] == (60, 23, 20)


def test_a_frame_that_takes_the_screw_wants_no_block(fit_one: Fit) -> None:
    one = fit_one(construction="face-frame", frame={"left": 38, "right": 20, "thickness": 19})
    assert check(one, "frame-grip").state == "ok"
    assert not [part for part in one.parts if part.part.startswith("block")]


def test_a_stile_flush_with_the_cabinet_side_wants_no_block_on_that_side(fit_one: Fit) -> None:
    keys: dict[str, Any] = {"construction": "face-frame", "front": {"style": "inset"}}
    one = fit_one(**keys, frame={"left": 38, "right": 0, "thickness": 19})
    assert [part.part for part in one.parts if part.part.startswith("block")] == ["block behind stile left"]


@pytest.mark.parametrize(("fixed", "state"), [(False, "stop"), (None, "watch"), (True, "ok")])
def test_a_shelf_says_from_which_load_it_lifts_whatever_is_known_of_it(
    fit_one: Fit, fixed: bool | None, state: str
) -> None:
    keys = {"id": "B", **({"shelf_fixed": fixed} if fixed is not None else {})}
    one = fit_one(mount="shelf", cabinet="B", cabinet_keys=keys, slide="plain-16/500")
    told = check(one, "shelf-fixed")
    assert told.state == state
    assert "from 2.97 kg that move" in told.says
