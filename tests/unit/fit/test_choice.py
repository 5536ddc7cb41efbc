"""What is chosen among what fits, in the public contract's order, and what is said of the rest."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob

Fit = Callable[..., FittedDrawer]
Family = Callable[..., SlideFamily]


def _length(nominal: float, **keys: Any) -> dict[str, Any]:
    return {"nominal": nominal, "holes": [0, 32, 128], **keys}


def _chosen(fitted: FittedDrawer) -> tuple[str, float]:
    assert fitted.slide is not None
    return fitted.slide.family.id, fitted.slide.length.nominal


def test_the_longest_box_that_fits_is_chosen(fit_one: Fit) -> None:
    assert _chosen(fit_one()) == ("plain-16", 500)


def test_of_equal_boxes_the_lowest_capacity_that_carries(fit_one: Fit, family: Family) -> None:
    families = [
        family(id="strong", capacity=70),
        family(id="mild", capacity=30),
        family(id="weak", capacity=10),
    ]
    assert _chosen(fit_one(families, contents=15))[0] == "mild"


def test_then_the_fewest_spacers(fit_one: Fit, family: Family) -> None:
    families = [family(id="far", design_subfront=19), family(id="near")]
    assert _chosen(fit_one(families))[0] == "near"


def test_then_the_nearest_latch(fit_one: Fit, family: Family) -> None:
    families = [family(id="half-off", design_subfront=16.5), family(id="on-seat")]
    assert _chosen(fit_one(families))[0] == "on-seat"


def test_then_the_order_of_the_files(fit_one: Fit, family: Family) -> None:
    assert _chosen(fit_one([family(id="zebra"), family(id="aard")]))[0] == "zebra"


def test_a_check_to_watch_does_not_demote(fit_one: Fit, family: Family) -> None:
    """The longer box wins although its latch is only 0.1 inside what it may be off."""
    long = family(id="long", design_subfront=16.9, length=[_length(500)])
    short = family(id="short", length=[_length(450)])
    fitted = fit_one([short, long])
    assert _chosen(fitted)[0] == "long"
    assert fitted.verdict == "fits-with-care"


def test_two_spacers_of_one_kind_may_be_laid_on_one_face(fit_one: Fit) -> None:
    """16 − 10.4 = 5.6: two of 3 leave −0.4."""
    fitted = fit_one(side=16, subfront=10.4)
    assert fitted.slide is not None
    assert fitted.latch is not None
    assert fitted.slide.subfront_spacers == (3, 3)
    assert fitted.latch.along == pytest.approx(-0.4)


def test_every_candidate_that_stops_is_told_with_its_margin(fit_one: Fit) -> None:
    fitted = fit_one()
    assert [(item.nominal, item.because, item.margin) for item in fitted.rejected] == [
        (550, "cabinet-depth", -25)
    ]


def test_a_slide_asked_for_is_the_only_one_tried(fit_one: Fit) -> None:
    assert _chosen(fit_one(slide="plain-16/400")) == ("plain-16", 400)
    fitted = fit_one(slide="plain-16/550")
    assert fitted.verdict == "does-not-fit"
    assert [item.nominal for item in fitted.rejected if item.mount == "side"] == [550]
    assert {change.change: change.by for change in fitted.changes} == {"slide": 0, "opening.depth": 25}


@pytest.mark.parametrize(
    ("slide", "says"), [("plane-16", "not among the slide families"), ("plain-16/480", "not a length")]
)
def test_a_slide_that_nobody_has_is_a_fault_naming_the_nearest(fit_one: Fit, slide: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        fit_one(slide=slide)
    (fault,) = caught.value.faults
    assert says in fault.says
    assert fault.where == "drawer A slide"
    assert "plain-16" in fault.try_


def test_frameless_tries_the_sides_then_a_shelf(fit_one: Fit) -> None:
    assert fit_one().slide.mount == "side"  # type: ignore[union-attr]
    low = fit_one(opening={"height": 44})
    assert low.verdict == "does-not-fit"
    assert {item.mount for item in low.rejected} == {"side", "shelf"}


def test_a_face_frame_tries_rear_brackets_then_packing(fit_one: Fit) -> None:
    keys = {"construction": "face-frame", "frame": {"left": 38, "right": 41, "thickness": 19}}
    assert fit_one(**keys).slide.mount == "rear-bracket"  # type: ignore[union-attr]
    deep = fit_one(**keys, opening={"depth": 700})
    assert deep.slide is not None
    assert deep.slide.mount == "packed"
    assert {item.because for item in deep.rejected} == {"rear-bracket"}


def test_side_mount_behind_a_frame_that_stands_in_stops(fit_one: Fit) -> None:
    frame = {"left": 0, "right": 38, "thickness": 19}
    fitted = fit_one(construction="face-frame", mount="side", frame=frame)
    assert fitted.verdict == "does-not-fit"
    assert ("mount", -38, "mm") in fitted.rejected[0].stops


def test_a_loose_shelf_stops_a_fixed_one_fits_and_an_unknown_one_is_watched(fit_one: Fit) -> None:
    verdicts = {}
    for fixed in (False, True, None):
        keys = {"id": "T"} if fixed is None else {"id": "T", "shelf_fixed": fixed}
        verdicts[fixed] = fit_one(mount="shelf", cabinet="T", cabinet_keys=keys).verdict
    assert verdicts == {False: "does-not-fit", True: "fits", None: "fits-with-care"}


def test_the_box_moves_up_to_a_row_of_holes(fit_one: Fit) -> None:
    """Screw line 14 + 10 = 24; the next row from 45 is 45: 21 up, and the box is 21 lower."""
    fitted = fit_one(cabinet="B", cabinet_keys={"id": "B", "first_row": 45})
    assert fitted.mounting is not None
    assert fitted.box is not None
    assert (fitted.mounting.moved_up, fitted.mounting.screw_line) == (21, 45)
    assert fitted.box.height == 168 - 14 - 21 - 7


def test_a_row_that_the_screw_line_meets_moves_nothing(fit_one: Fit) -> None:
    fitted = fit_one(cabinet="B", cabinet_keys={"id": "B", "first_row": 24}, opening={"floor": 64})
    assert fitted.mounting is not None
    assert (fitted.mounting.moved_up, fitted.mounting.screw_line) == (0, 24 + 64)


def test_the_shop_keeps_heights_and_the_tallest_under_the_limit_is_taken(fit_one: Fit) -> None:
    assert fit_one(box={"heights": [100, 140, 160]}).box.height == 140  # type: ignore[union-attr]
    low = fit_one(box={"heights": [160, 200]})
    assert low.verdict == "does-not-fit"
    assert low.rejected[0].because == "opening-height"
    assert low.rejected[0].margin == 147 - 160


def test_readings_beyond_the_band_stop_and_within_it_are_watched(fit_one: Fit) -> None:
    watched = fit_one(opening={"width": [562, 561.5]})
    taper = next(check for check in watched.checks if check.id == "opening-taper")
    assert (taper.state, taper.margin) == ("watch", 1.0)
    assert watched.box is not None
    assert watched.box.inside_width == 561.5 - 42
    assert fit_one(opening={"width": [562, 560]}).rejected[0].because == "opening-width"


def test_labelled_readings_that_taper_within_the_band_fit(fit_one: Fit) -> None:
    fitted = fit_one(opening={"width": {"front_bottom": 562, "back_bottom": 562.8}})
    assert fitted.verdict == "fits"


def test_an_overlay_front_is_cut_from_the_largest_reading_and_an_inset_one_from_the_smallest(
    fit_one: Fit,
) -> None:
    opening = {"width": [562, 561.5]}
    overlay = fit_one(opening=opening, front={"style": "overlay", "overlay": 16})
    inset = fit_one(opening=opening, front={"style": "inset", "gap": 3})
    assert overlay.front is not None
    assert inset.front is not None
    assert (overlay.front.width, inset.front.width) == (562 + 32, 561.5 - 6)
    assert (overlay.front.height, inset.front.height) == (168 + 32, 168 - 6)


def test_an_inset_front_whose_screw_finds_no_frame_is_watched(fit_one: Fit) -> None:
    """Front 19 + inset 3 + front screw 8 = 30 deep, frame 19: 11 of air."""
    fitted = fit_one(
        construction="face-frame",
        frame={"left": 38, "right": 38, "thickness": 19},
        front={"style": "inset", "thickness": 19},
    )
    grip = next(check for check in fitted.checks if check.id == "frame-grip")
    assert (grip.state, grip.margin) == ("watch", -11)
    assert fitted.verdict == "fits-with-care"


def test_overhangs_that_do_not_close_on_the_cabinet_stop(fit_one: Fit) -> None:
    keys = {"construction": "face-frame", "frame": {"left": 38, "right": 41, "thickness": 19}, "cabinet": "B"}
    closes = fit_one(**keys, cabinet_keys={"id": "B", "inside_width": 641})
    assert closes.verdict == "fits"
    off = fit_one(**keys, cabinet_keys={"id": "B", "inside_width": 644})
    assert off.verdict == "does-not-fit"
    assert ("frame-sum", pytest.approx(2 - 3), "mm") in off.rejected[0].stops


def test_capacity_of_contents_does_not_count_the_box(fit_one: Fit, family: Family) -> None:
    moving = fit_one([family(capacity=20)], contents=19)
    contents = fit_one([family(capacity=20, capacity_of="contents")], contents=19)
    assert moving.verdict == "does-not-fit"
    assert contents.verdict == "fits"
    by = {change.change: change.by for change in moving.changes}["contents"]
    assert by == pytest.approx(moving.rejected[0].margin, abs=1e-4)
    assert by <= moving.rejected[0].margin


def test_a_wide_and_shallow_drawer_is_watched_for_racking(fit_one: Fit) -> None:
    fitted = fit_one(opening={"width": 1162, "depth": 460})
    racking = next(check for check in fitted.checks if check.id == "width-to-length")
    assert racking.state == "watch"
    assert racking.margin == pytest.approx(2.5 - 1152 / 450)


def test_an_existing_box_is_checked_and_not_sized(fit_one: Fit) -> None:
    """Inside 518.6 against 520: 0.7 inboard of each seat, 0.1 inside the tolerance; nothing is cut."""
    fitted = fit_one(existing_box={"inside_width": 518.6, "length": 450, "height": 120})
    assert fitted.slide is not None
    assert fitted.latch is not None
    assert fitted.slide.length.nominal == 450
    assert fitted.latch.side == pytest.approx(-0.7)
    assert fitted.parts == ()
    stops = {item.nominal: item.because for item in fitted.rejected}
    assert stops[400] == stops[500] == "box-length"


def test_a_side_mounted_slide_is_sized_by_its_own_room(fit_one: Fit, family: Family) -> None:
    """12.7 each side: 562 − 25.4 outside, whatever the side; no bracket, no hook."""
    ball = family(
        id="ball", carriage="side-mounted", inside_width_deduction=25.4 + 32, min_gap=12.5, spacers=[]
    )
    fitted = fit_one([ball], side=12.7)
    assert fitted.box is not None
    assert fitted.box.outside_width == pytest.approx(562 - 25.4)
    assert fitted.box.side_gap == pytest.approx(12.7)
    assert {"latch-side", "latch-along", "hook-bore"}.isdisjoint(check.id for check in fitted.checks)


def test_drawers_are_answered_in_the_jobs_order_whatever_their_situation(
    fit_many: Callable[..., FittedJob],
) -> None:
    job = fit_many(
        {"id": "A"},
        {"id": "B", "front": {"style": "inset"}},
        {"id": "C"},
        {"id": "D", "opening": {"depth": 200}},
    )
    assert [one.id for one in job.drawers] == ["A", "B", "C", "D"]
    assert [one.verdict for one in job.drawers] == ["fits", "fits", "fits", "does-not-fit"]


def test_a_spacer_is_chosen_that_lets_the_pair_run_too(fit_one: Fit, family: Family) -> None:
    """Side 15.4 sized by the outside: 0.6 off latches but runs 1.2 too tight; a spacer of 1 helps."""
    thin = family(spacers=[1], width_band=[-1.0, 1.5])
    fitted = fit_one([thin], side=15.4, size_from="outside")
    assert fitted.slide is not None
    assert fitted.latch is not None
    assert fitted.slide.side_spacers == (1,)
    assert fitted.latch.side == pytest.approx(-0.4)


@pytest.mark.parametrize("width", [30, 80])
def test_an_opening_too_narrow_for_a_box_stops(fit_one: Fit, width: float) -> None:
    fitted = fit_one(opening={"width": width})
    assert fitted.verdict == "does-not-fit"
    assert fitted.rejected[0].because == "opening-width"


def test_a_gap_that_leaves_no_front_stops(fit_one: Fit) -> None:
    fitted = fit_one(front={"style": "inset", "gap": 90})
    assert fitted.rejected[0].because == "front-gap"
    assert fitted.rejected[0].margin == 168 - 180


def test_an_existing_box_goes_on_its_own_length_only_side_mounted_too(fit_one: Fit, family: Family) -> None:
    ball = family(id="ball", carriage="side-mounted", inside_width_deduction=57.4, min_gap=12.5, spacers=[])
    fitted = fit_one([ball], existing_box={"outside_width": 536.6, "length": 450}, side=16)
    assert _chosen(fitted) == ("ball", 450)
    assert {item.because for item in fitted.rejected} >= {"box-length"}


def test_what_hinges_take_moves_the_rear_bracket_and_narrows_an_inset_front(fit_one: Fit) -> None:
    """Lost 20 left: bracket at 38 + 20 + 14 = 72; inset front 562 − 20 − 6 = 536."""
    fitted = fit_one(
        construction="face-frame",
        mount="rear-bracket",
        lost={"left": 20},
        frame={"left": 38, "right": 41, "thickness": 19},
        front={"style": "inset", "gap": 3},
    )
    assert fitted.mounting is not None
    assert fitted.front is not None
    assert (fitted.mounting.rear_bracket_left, fitted.mounting.rear_bracket_right) == (72, 55)
    assert fitted.front.width == 536


def test_the_cabinet_back_is_in_reach_at_the_deepest_reading_too(fit_one: Fit) -> None:
    """530: 28 behind the member; 560: 58, and the bracket reaches 45."""
    keys = {"construction": "face-frame", "frame": {"left": 38, "right": 41, "thickness": 19}}
    fitted = fit_one(**keys, mount="rear-bracket", slide="plain-16/500", opening={"depth": [530, 560]})
    assert fitted.rejected[0].because == "rear-bracket"
    assert fitted.rejected[0].margin == 45 - 58


def test_no_change_asks_for_sides_that_are_none(fit_one: Fit, family: Family) -> None:
    fitted = fit_one([family(min_gap=14)], side=16)
    assert "side" not in {change.change for change in fitted.changes}
    near = fit_one([family(min_gap=8)], side=16)
    assert {change.change: change.by for change in near.changes}["side"] == -3


def test_a_change_of_width_says_which_readings_it_means(fit_one: Fit) -> None:
    fitted = fit_one(opening={"width": [562, 559]})
    (change,) = [one for one in fitted.changes if one.change == "opening.width"]
    assert (change.by, change.readings) == (-1.5, "widest")


def test_front_screws_stand_clear_of_handle_borings(fit_one: Fit) -> None:
    handle = {"spacing": 424, "up": 74}
    fitted = fit_one(front={"style": "overlay", "overlay": 16, "handle": handle, "screw": 40})
    assert fitted.fixing is not None
    gaps = [
        ((x - u) ** 2 + (y - v) ** 2) ** 0.5
        for x, y in fitted.fixing.holes_in_front
        for u, v in fitted.fixing.handle
    ]
    assert len(gaps) == 8
    assert min(gaps) >= 15
    assert next(check for check in fitted.checks if check.id == "front-screw").margin == 16 + 19 - 4 - 40


def test_a_front_is_fixed_low_so_that_the_height_adjuster_goes_both_ways(fit_one: Fit) -> None:
    """Height 0 to 3: 1.5 low, then 1.5 up and 1.5 down; depth 0 to 4: out alone."""
    fitted = fit_one(front={"style": "overlay", "overlay": 16})
    assert fitted.fixing is not None
    assert (fitted.fixing.low_by, fitted.fixing.room_up, fitted.fixing.room_down) == (1.5, 1.5, 1.5)
    assert (fitted.fixing.deep_by, fitted.fixing.room_out, fitted.fixing.room_in) == (0, 4, 0)


def test_a_bracket_screw_that_comes_out_of_the_subfront_is_watched(fit_one: Fit) -> None:
    """17 long at 75 degrees goes 16.42 deep into 16."""
    fitted = fit_one(box={"bracket_screw": 17})
    screw = next(check for check in fitted.checks if check.id == "bracket-screw")
    assert screw.state == "watch"
    assert screw.margin == pytest.approx(16 - 17 * 0.9659258, abs=1e-5)


def test_screws_meet_a_front_that_hangs_low_higher_up_on_its_back(fit_one: Fit) -> None:
    """Box 14 above the opening's edge, front 16 below it and fixed 1.5 low: 14 + 16 + 1.5 = 31.5 higher."""
    fitted = fit_one(front={"style": "overlay", "overlay": 16})
    assert fitted.fixing is not None
    for (x, y), (u, v) in zip(fitted.fixing.holes, fitted.fixing.holes_in_front, strict=True):
        assert (u - x, v - y) == (0, pytest.approx(31.5))


def test_a_front_that_is_the_box_front_keeps_its_handle(fit_one: Fit) -> None:
    handle = {"spacing": 128}
    fitted = fit_one(box={"front": "integral"}, front={"style": "overlay", "overlay": 16, "handle": handle})
    assert fitted.fixing is not None
    assert fitted.fixing.holes == ()
    assert fitted.fixing.handle == ((-64, 100), (64, 100))


def test_of_lengths_that_lack_the_same_the_longest_is_the_nearest(fit_one: Fit) -> None:
    answer = fit_one(side=30)
    told = {one.nominal: {name for name, *_ in one.stops} for one in answer.rejected}
    assert told[350] == told[500] < told[550]
    assert answer.nearest is not None
    assert answer.nearest.length.nominal == 500


def test_a_slide_that_is_not_there_is_not_advised_one_that_the_sides_are_too_thick_for(
    fit_one: Fit, family: Family
) -> None:
    """Sides of 16 on a deduction of 34 leave 1: `shop-12` is no way out, however alike the name is."""
    with pytest.raises(InputError) as caught:
        fit_one([family(id="shop-12", inside_width_deduction=34), family(id="plain-16")], slide="shop-16")
    assert caught.value.faults[0].try_ == '"auto"'


@pytest.mark.parametrize(
    ("height", "margin", "state"),
    [(33.0, 8.0, "ok"), (60.0, 35.0, "ok"), (32.0, 7.0, "watch"), (25.0, 0.0, "watch"), (20.0, -5.0, "stop")],
)
def test_a_slide_beside_the_box_wants_wood_over_its_screws(
    fit_one: Fit, family: Family, height: float, margin: float, state: str
) -> None:
    """Screws 25 up the side want 8 over them, twice a screw's diameter (common practice, no source); with
    none over them they hold nothing."""
    beside = family(
        id="beside",
        carriage="side-mounted",
        inside_width_deduction=57.4,
        min_gap=12,
        heights={"screw_line": 25},
    )
    fitted = fit_one([beside], box_height=height)
    told = next(check for check in fitted.checks if check.id == "slide-height")
    assert (told.margin, told.state) == (pytest.approx(margin), state)
    assert (fitted.slide is None) == (margin < 0)
    if margin < 0:
        assert "slide-height" in {one.because for one in fitted.rejected}
        (raised,) = (one for one in fitted.changes if one.change == "box_height")
        assert raised.by == pytest.approx(-margin)


def test_a_slide_under_the_box_is_screwed_to_no_side(fit_one: Fit) -> None:
    assert "slide-height" not in {check.id for check in fit_one(box_height=40).checks}
