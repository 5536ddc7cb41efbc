"""Existing boxes on other slides: which take them as they are, which after what work."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.fit import fit_document, fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob
from drawerwright.model.job import Job
from drawerwright.model.retrofit import Retrofit

Fit = Callable[..., FittedDrawer]
Family = Callable[..., SlideFamily]

MADE = {
    "inside_width": 520,
    "length": 500,
    "height": 140,
    "bottom_recess": 13,
    "bore_in": 7,
    "bore_up": 11,
    "notch_width": 35,
    "notch_height": 13,
}
"""A box as the plain family wants it in an opening of 562 × 168 × 530."""


def kinds(one: Retrofit) -> list[str]:
    return [piece.kind for piece in one.work]


def only(fitted: FittedDrawer) -> Retrofit:
    (found,) = fitted.retrofit
    return found


def states(fitted: FittedDrawer) -> dict[str, str]:
    return {check.id: check.state for check in fitted.checks}


def test_a_box_that_is_as_the_slide_wants_it_is_taken_as_it_is(fit_one: Fit) -> None:
    fitted = fit_one(existing_box=MADE)
    assert fitted.verdict == "fits"
    assert (only(fitted).as_is, only(fitted).nominal, only(fitted).measure) == (True, 500, ())
    assert {"box-bore", "box-notch", "box-recess"} <= states(fitted).keys()


def test_what_is_not_told_must_be_measured(fit_one: Fit) -> None:
    fitted = fit_one(existing_box={"inside_width": 520})
    assert only(fitted).as_is
    assert [one.partition(":")[0] for one in only(fitted).measure] == [
        "the box's length",
        "its hook bores",
        "its notches",
        "its bottom's underside",
    ]
    assert not {"box-bore", "box-notch", "box-recess"} & states(fitted).keys()


def test_a_box_without_a_width_is_taken_as_it_would_be_cut_and_is_to_watch(fit_one: Fit) -> None:
    fitted = fit_one(existing_box={"length": 500})
    assert fitted.box is not None
    assert (fitted.box.inside_width, fitted.box.outside_width, fitted.box.length) == (520, 552, 500)
    assert fitted.verdict == "fits-with-care"
    (watched,) = [check for check in fitted.checks if check.state == "watch"]
    assert watched.id == "box-measured"
    assert "width and height are not told and taken as cut" in watched.says
    assert only(fitted).measure[0] == "the box's inside width: 520 mm"


def test_a_box_without_a_width_is_still_checked_for_what_it_tells(fit_one: Fit) -> None:
    told = fit_one(existing_box={"length": 500, "bore_in": 15, "bore_up": 11})
    assert states(told)["box-bore"] == "watch"
    short = fit_one(existing_box={"length": 495})
    assert short.verdict == "does-not-fit"
    assert {stop[0] for stop in short.rejected[0].stops} == {"box-length"}


def test_a_box_without_a_width_that_is_sized_by_its_outside_takes_that(fit_one: Fit) -> None:
    fitted = fit_one(existing_box={"length": 500}, size_from="outside", side=15.5)
    assert fitted.box is not None
    assert (fitted.box.outside_width, fitted.box.inside_width) == (552, 521)


def test_a_bore_that_is_off_is_bored_anew_and_watched(fit_one: Fit) -> None:
    """15 − 7 = 8 off, more than the 6 of a bore: old and new stand clear of each other."""
    fitted = fit_one(existing_box={**MADE, "bore_in": 15})
    assert states(fitted)["box-bore"] == "watch"
    (bore,) = only(fitted).work
    assert (bore.kind, bore.by) == ("hook-bore", 8)
    assert "plug" not in bore.says


def test_an_old_bore_that_meets_the_new_one_is_plugged(fit_one: Fit) -> None:
    """4 across and 3 up are 5 apart, under 6."""
    (bore,) = only(fit_one(existing_box={**MADE, "bore_in": 11, "bore_up": 14})).work
    assert "plug the old ones first" in bore.says


def test_half_a_millimetre_of_play_is_let_pass(fit_one: Fit) -> None:
    assert only(fit_one(existing_box={**MADE, "bore_in": 7.5, "bottom_recess": 12.5})).as_is


def test_bore_and_notch_stay_with_the_slide_where_the_side_stands_further_out(fit_one: Fit) -> None:
    """Inside 526.6: each face 3.3 outboard of its seat, so 7 + 3.3 and 35 + 3.3 from it; a spacer of 3."""
    fitted = fit_one(side=12.7, existing_box={**MADE, "inside_width": 526.6})
    work = {piece.kind: piece for piece in only(fitted).work}
    assert list(work) == ["side-spacer", "subfront-spacer", "hook-bore", "notch"]
    assert work["side-spacer"].by == 3
    assert "10.3 mm from each side's inside face" in work["hook-bore"].says
    assert work["notch"].by == pytest.approx(3.3)


def test_a_notch_is_sawn_higher_alone_where_only_that_lacks(fit_one: Fit) -> None:
    (notch,) = only(fit_one(existing_box={**MADE, "notch_height": 11})).work
    assert (notch.kind, notch.by) == ("notch", 2)
    assert "wider" not in notch.says


def test_a_bottom_too_high_in_the_box_gets_strips(fit_one: Fit) -> None:
    (recess,) = only(fit_one(existing_box={**MADE, "bottom_recess": 16})).work
    assert (recess.kind, recess.by) == ("recess", 3)
    assert "strips of 3 mm" in recess.says


def test_a_bottom_too_low_makes_the_box_run_higher(fit_one: Fit) -> None:
    """3 higher leaves 4 of the 7 over 140."""
    (recess,) = only(fit_one(existing_box={**MADE, "bottom_recess": 10})).work
    assert (recess.kind, recess.by) == ("recess", -3)


def test_running_higher_may_want_the_box_lower(fit_one: Fit) -> None:
    """145 under 147, running 3 higher: 1 too much."""
    work = only(fit_one(existing_box={**MADE, "height": 145, "bottom_recess": 10})).work
    assert [(piece.kind, piece.by) for piece in work] == [("recess", -3), ("height", -1)]


def test_a_box_that_is_too_high_is_sawn(fit_one: Fit) -> None:
    """168 − 14 − 7 = 147 for a box of 152."""
    fitted = fit_one(mount="side", existing_box={**MADE, "height": 152})
    assert fitted.verdict == "does-not-fit"
    (saw,) = only(fitted).work
    assert (saw.kind, saw.by) == ("height", -5)


def test_a_box_is_not_sawn_to_nothing(fit_one: Fit) -> None:
    """50 − 21 = 29 left: less than bottom, bores and what must stay over them, 13 + 11 + 3 + 13 = 40."""
    fitted = fit_one(mount="side", opening={"height": 50}, existing_box={**MADE, "height": 80})
    assert fitted.retrofit == ()


def test_a_box_of_another_length_is_taken_by_no_slide(fit_one: Fit) -> None:
    assert fit_one(existing_box={**MADE, "length": 480}).retrofit == ()


def test_the_families_stand_in_the_order_of_the_work_that_they_want(fit_one: Fit, family: Family) -> None:
    bored = family(id="bored", rear={"bore_in": 9})
    far = family(id="far", inside_width_deduction=48, rear={"notch_height": 16})
    fitted = fit_one([far, bored, family()], existing_box=MADE)
    assert [(one.family, kinds(one)) for one in fitted.retrofit] == [
        ("plain-16", []),
        ("bored", ["hook-bore"]),
        ("far", ["side-spacer", "hook-bore", "notch"]),
    ]


def test_every_family_is_tried_though_the_drawer_asks_for_one(fit_one: Fit, family: Family) -> None:
    fitted = fit_one([family(), family(id="other")], slide="plain-16", existing_box=MADE)
    assert [one.family for one in fitted.retrofit] == ["plain-16", "other"]


def test_of_lengths_that_could_serve_the_longest_is_told(fit_one: Fit) -> None:
    fitted = fit_one(existing_box={key: MADE[key] for key in MADE if key != "length"})
    assert (only(fitted).nominal, only(fitted).measure) == (500, ("the box's length: 500 mm",))


def test_a_side_mounted_slide_asks_nothing_of_the_back(fit_one: Fit, family: Family) -> None:
    beside = family(id="beside", carriage="side-mounted", inside_width_deduction=57.4, min_gap=12)
    box = {"outside_width": 536.6, "length": 500}
    retrofit = only(fit_one([beside], existing_box=box))
    assert (retrofit.as_is, retrofit.measure) == (True, ())


def test_the_document_tells_the_work_of_an_existing_box_alone(fit_many: Callable[..., FittedJob]) -> None:
    fitted = fit_many({"existing_box": {**MADE, "bore_in": 15}}, {"id": "B"})
    old, new = fit_document(fitted)["drawers"]
    assert new["retrofit"] is None
    (told,) = old["retrofit"]
    assert (told["family"], told["nominal"], told["as_is"]) == ("plain-16", 500, False)
    assert told["pieces"] == [{"kind": "hook-bore", "by": 8}]
    assert told["work"][0].startswith("Bore the hook holes anew")


@given(
    off=st.floats(-1.4, 0.9),
    bore=st.floats(3, 15),
    notch=st.floats(30, 45),
    recess=st.floats(8, 18),
)
def test_a_box_changed_as_told_is_then_taken_as_it_is(
    off: float, bore: float, notch: float, recess: float
) -> None:
    """Bored, notched and with its bottom where the work says, nothing more is wanted but the spacers."""
    family = SlideFamily.model_validate(
        {
            "id": "plain",
            "capacity": 45,
            "inside_width_deduction": 42,
            "length": [{"nominal": 500, "holes": [0, 32]}],
        }
    )
    box = {**MADE, "inside_width": 520 + off, "bore_in": bore, "notch_width": notch, "bottom_recess": recess}

    def taken(keys: dict[str, Any]) -> Retrofit:
        drawer = {
            "id": "A",
            "side": 16,
            "opening": {"width": 562, "height": 168, "depth": 530},
            "existing_box": keys,
        }
        (found,) = fit_job(Job.model_validate({"drawer": [drawer]}), [family]).drawers[0].retrofit
        return found

    first = taken(box)
    changed = dict(box)
    for piece in first.work:
        if piece.kind == "hook-bore":
            changed["bore_in"] = 7 + off / 2
        elif piece.kind == "notch":
            changed["notch_width"] += piece.by
        elif piece.kind == "recess":
            changed["bottom_recess"] -= piece.by
    assert taken(changed).as_is
    assert len(first.work) == sum(
        [abs(bore - 7 - off / 2) > 0.5 + 1e-6, 35 + off / 2 - notch > 1e-6, abs(recess - 13) > 0.5 + 1e-6]
    )
