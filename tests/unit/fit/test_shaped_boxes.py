"""Boxes that go round pipes, and wide ones with a stabiliser."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_document, fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import Check, FittedDrawer, FittedJob, Part

Fit = Callable[..., FittedDrawer]
PLYWOOD = 600e-9  # kg/mm³, as boxes are taken to be of


def check(one: FittedDrawer, id_: str) -> Check:
    return next(found for found in one.checks if found.id == id_)


def parts(one: FittedDrawer) -> dict[str, Part]:
    return {part.part: part for part in one.parts}


def family() -> SlideFamily:
    lengths = [{"nominal": 500, "holes": [0, 32]}]
    keys = {"id": "plain-16", "capacity": 45, "inside_width_deduction": 42, "length": lengths}
    return SlideFamily.model_validate({**keys, "hardware_mass": 1})


@given(
    width=st.integers(50, 400),
    depth=st.integers(50, 300),
    bottom=st.sampled_from(["groove-4", "groove-3", "under"]),
    joint=st.sampled_from(["butt", "dowel", "rabbet", "dovetail"]),
)
def test_the_mass_is_that_of_the_solids_that_are_left(
    width: int, depth: int, bottom: str, joint: str
) -> None:
    """The box's mass less the whole one's: blocks counted one by one from the plan, 16 and 6 thick."""
    opening = {"width": 562, "height": 168, "depth": 530}
    base: dict[str, Any] = {"opening": opening, "side": 16, "box": {"bottom": bottom, "joint": joint}}
    drawers = [{"id": "whole", **base}, {"id": "cut", **base, "cut_out": {"width": width, "depth": depth}}]
    whole, cut = fit_job(job_from_mapping({"drawer": drawers}), [family()]).drawers
    assert whole.mass is not None
    assert cut.mass is not None
    assert cut.box is not None
    high = cut.box.height - 13 - 6
    walls = 2 * (depth - 16) * 16 * high + (width + 32) * 16 * high
    of_back = width * 16 * (cut.box.height if bottom == "groove-4" else high)
    of_bottom = width * 6 * (depth - 10 if bottom == "groove-4" else depth)
    assert cut.mass.box - whole.mass.box == pytest.approx((walls - of_back - of_bottom) * PLYWOOD)


def test_inner_walls_close_on_the_cut_out(fit_one: Fit) -> None:
    one = fit_one(cut_out={"width": 180, "depth": 200, "from_left": 100})
    side, back = parts(one)["inner side"], parts(one)["inner back"]
    assert one.cut_out is not None
    assert (side.count, side.length, side.thickness) == (2, 184, 16)
    assert (back.length, back.thickness) == (180 + 2 * 16, 16)
    assert (one.cut_out.back_left, one.cut_out.back_right) == (100, 520 - 100 - 180)


@given(width=st.integers(50, 300), from_left=st.integers(1, 200))
def test_a_cut_out_seen_in_the_mirror_leaves_the_same_pieces(width: int, from_left: int) -> None:
    opening = {"width": 562, "height": 168, "depth": 530}
    base: dict[str, Any] = {"opening": opening, "side": 16}
    mirrored = 520 - width - from_left
    drawers = [
        {"id": id_, **base, "cut_out": {"width": width, "depth": 100, "from_left": place}}
        for id_, place in (("one", from_left), ("other", mirrored))
    ]
    one, other = fit_job(job_from_mapping({"drawer": drawers}), [family()]).drawers
    assert check(one, "cut-out").margin == pytest.approx(check(other, "cut-out").margin)


def test_pieces_too_small_stop_and_a_narrower_cut_out_is_a_change_that_fits(fit_one: Fit) -> None:
    one = fit_one(cut_out={"width": 460, "depth": 200})
    assert {item.because for item in one.rejected if item.nominal <= 500} == {"cut-out"}
    (change,) = [change for change in one.changes if change.change == "cut_out.width"]
    assert change.by == pytest.approx(-22)
    assert fit_one(cut_out={"width": 438, "depth": 200}).slide is not None
    assert fit_one(cut_out={"width": 438.1, "depth": 200}).slide is None


def test_a_cut_out_deeper_than_the_box_stops(fit_one: Fit) -> None:
    """500 less subfront and back, 468 inside; 470 leaves −2."""
    one = fit_one(cut_out={"width": 180, "depth": 470}, slide="plain-16/500")
    assert check(one, "cut-out").margin == pytest.approx(-2)


def test_a_cut_out_that_stays_in_the_back_is_a_fault_of_the_file() -> None:
    drawer = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
    with pytest.raises(InputError, match="does not go through the back, 16 mm"):
        job_from_mapping({"drawer": [{**drawer, "cut_out": {"width": 180, "depth": 12}}]})


def test_less_goes_into_a_box_with_a_cut_out(fit_one: Fit) -> None:
    preset = {"preset": "kcma-drawer"}
    whole, cut = fit_one(contents=preset), fit_one(contents=preset, cut_out={"width": 180, "depth": 200})
    assert whole.mass is not None
    assert cut.mass is not None
    lost = (180 + 32) * 200 / (520 * 468)
    assert cut.mass.contents == pytest.approx(whole.mass.contents * (1 - lost))


def test_the_document_tells_the_pieces_that_stay_and_the_stabiliser(fit_one: Fit) -> None:
    one = fit_one(cut_out={"width": 180, "depth": 200}, stabiliser=True)
    (told,) = fit_document(FittedJob("", (one,)))["drawers"]
    assert told["cut_out"] == {
        "width": 180.0,
        "depth": 200.0,
        "back_left": 170.0,
        "back_right": 170.0,
        "bottom_cut": 190.0,
    }
    assert told["mounting"]["stabiliser"] is True


def test_a_stabiliser_cures_a_wide_drawer_up_to_twice_the_ratio(fit_one: Fit) -> None:
    wide: dict[str, Any] = {"opening": {"width": 1262}, "slide": "plain-16/400"}
    assert check(fit_one(**wide), "width-to-length").state == "watch"
    cured = check(fit_one(**wide, stabiliser=True), "width-to-length")
    assert (cured.state, cured.margin) == ("ok", pytest.approx(5 - 1252 / 400))
    far_too_wide = fit_one(opening={"width": 2262}, slide="plain-16/400", stabiliser=True)
    assert check(far_too_wide, "width-to-length").state == "watch"
