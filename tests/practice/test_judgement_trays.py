"""Drawers worked by hand: loose shelves, trays behind doors, openings out of true, boxes round pipes.

Every opening here is invented; the rules are geometry and statics, and the numbers of the slide are the plain
family's: common practice, no source. The plain family takes 42 off the opening's width, leaves 5 beside a box
of 16 mm sides, begins its box 1 before the cabinet's edge and 14 above the floor.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.model.fitted import Check, FittedDrawer

Fit = Callable[..., FittedDrawer]
SLIDE = "plain-16/500"


def check(one: FittedDrawer, id_: str) -> Check:
    return next(found for found in one.checks if found.id == id_)


def cut(one: FittedDrawer) -> dict[str, tuple[int, float, float, float]]:
    return {part.part: (part.count, part.length, part.width, part.thickness) for part in one.parts}


def test_1_a_loose_shelf_lifts_from_three_kilograms(fit_one: Fit) -> None:
    """Shelf 562 × 530 × 18 × 700 kg/m³ = 3.753 kg, its middle 265 − 37 = 228 behind the front support.

    The drawer's middle, all out: −1 + 250 − 500 = −251, so 37 + 251 = 288 before it.
    3.753 × 228 / 288 = 2.971.
    """
    one = fit_one(mount="shelf", cabinet="B", cabinet_keys={"id": "B", "shelf_fixed": False}, slide=SLIDE)
    assert one.verdict == "does-not-fit"
    assert one.workings["shelf_mass"].value == pytest.approx(3.753, abs=5e-4)
    assert one.workings["shelf_lifts_at"].value == pytest.approx(2.971, abs=5e-4)
    assert "from 2.97 kg" in check(one, "shelf-fixed").says


def test_2_three_quarter_travel_makes_a_shelf_hold_longer(fit_one: Fit, family: Callable[..., Any]) -> None:
    """Out by 375 the middle stands −1 + 250 − 375 = −126: arm 37 + 126 = 163. 3.753 × 228 / 163 = 5.250."""
    one = fit_one([family(extension="three-quarter")], mount="shelf", slide=SLIDE)
    assert one.workings["shelf_lifts_at"].value == pytest.approx(5.250, abs=5e-4)


def test_3_a_tray_behind_an_inset_door_that_opens_square_loses_its_thickness(fit_one: Fit) -> None:
    """The leaf stands in by 19, the box is 5 clear: 14 more are wanted. With 14 lost: 548 − 10 = 538 wide."""
    assert check(fit_one(door={"hinge": "left"}), "way-out").margin == pytest.approx(5 - 19)
    packed = fit_one(door={"hinge": "left"}, lost={"left": 14})
    assert packed.slide is not None
    assert packed.box is not None
    assert check(packed, "way-out").margin == pytest.approx(0)
    assert packed.box.outside_width == 538
    assert cut(packed)["packing left"] == (1, 500, 20, 14)


def test_4_a_door_that_stops_at_80_degrees_costs_the_width_of_its_lean(fit_one: Fit) -> None:
    """Measured 3 in at the hinges, a leaf of 400: reach 400 × sin 80° = 393.9, lean 393.9 / tan 80° = 69.5.

    The free edge stands 3 + 69.5 = 72.5 in; the box, 5 clear, comes out 500 and needs 67.5. It meets the
    leaf (5 − 3) × tan 80° = 11.3 before the edge: 11.3 − 1 = 10.3 out.
    """
    one = fit_one(door={"hinge": "left", "opens": 80, "stands_in": 3, "width": 400}, slide=SLIDE)
    assert one.way_out is not None
    assert one.way_out.filler_left == pytest.approx(67.46, abs=0.01)
    assert one.way_out.meetings[0].after == pytest.approx(10.34, abs=0.01)


def test_5_a_hinge_between_two_trays_does_no_harm(fit_one: Fit) -> None:
    """The box reaches from 14 to 161; a hinge from 170 to 230 is over it. From 160 it is 1 in its way."""
    hinge = {"what": "hinge", "side": "left", "stands_in": 24, "top": 230, "depth": [-10, 45]}
    over = fit_one(in_the_way=[{**hinge, "bottom": 170}])
    assert check(over, "way-out").state == "ok"
    assert "meets nothing" in check(over, "way-out").says
    assert check(fit_one(in_the_way=[{**hinge, "bottom": 160}]), "way-out").margin == pytest.approx(5 - 24)


def test_6_a_handle_of_the_neighbour_is_met_when_the_tray_is_far_out(fit_one: Fit) -> None:
    """It stands 9 in, from 60 to 30 before the edge: met at 30 − 1 = 29 out, 9 − 5 = 4 too much."""
    handle = {"what": "neighbour's handle", "side": "right", "stands_in": 9, "depth": [-60, -30]}
    one = fit_one(in_the_way=[handle])
    assert one.way_out is not None
    first = one.way_out.meetings[0]
    assert (first.what, first.side, first.after, first.lacks) == ("neighbour's handle", "right", 29, 4)
    assert "after 29 mm" in check(one, "way-out").says
    assert fit_one(in_the_way=[handle], lost={"right": 4}).slide is not None


def test_7_a_tray_that_clears_by_less_than_two_is_watched(fit_one: Fit) -> None:
    """4 stand in, 5 are clear: 1 to spare, and 2 are wanted (by judgement, from memory)."""
    one = fit_one(in_the_way=[{"what": "appliance", "side": "right", "stands_in": 4}])
    told = check(one, "way-out")
    assert (told.state, told.margin) == ("watch", pytest.approx(1))
    assert "passes the appliance on the right with 1 mm to spare" in told.says


def test_8_a_back_4_wider_wants_2_under_the_rear_of_each_member(fit_one: Fit) -> None:
    """562 in front, 566 at the back: (566 − 562) / 2 = 2 each side, a piece as high as packing, 20."""
    one = fit_one(opening={"width": {"front_bottom": 562, "back_bottom": 566}}, pack_rear=True)
    assert one.verdict == "fits"
    assert cut(one)["rear packing left"][3] == cut(one)["rear packing right"][3] == 2
    assert one.box is not None
    assert one.box.outside_width == 552


def test_9_diagonals_3_apart_lean_a_box_by_1_4(fit_one: Fit) -> None:
    """(588² − 585²) / (4 × 562 × 168) = 3519 / 377664 = 0.009318: 0.534°; 147 × 0.009318 = 1.37 of the 5.

    Their root mean square is 586.50, √(562² + 168²) is 586.57: 0.07 apart, 2 is allowed.
    """
    one = fit_one(opening={"diagonals": [588, 585]})
    assert one.workings["out_of_square"].value == pytest.approx(0.534, abs=1e-3)
    assert check(one, "opening-square").margin == pytest.approx(5 - 1.37, abs=0.01)
    assert check(one, "readings-agree").margin == pytest.approx(2 - 0.07, abs=0.01)


def test_10_diagonals_12_apart_leave_nothing_beside_the_box(fit_one: Fit) -> None:
    """√(562² + 168²) = 586.57. 592.5 and 580.5: 14076 / 377664 = 0.03727; 147 × tan 2.136° = 5.48 of 5."""
    one = fit_one(opening={"diagonals": [592.5, 580.5]}, slide=SLIDE)
    told = check(one, "opening-square")
    assert (told.state, told.margin) == ("stop", pytest.approx(-0.48, abs=0.01))


def test_11_an_inset_front_shows_a_lean_sooner_than_the_box(fit_one: Fit) -> None:
    """Front 168 − 6 = 162 high: 162 × 0.009318 = 1.51 is more than half of its gap of 3."""
    one = fit_one(opening={"diagonals": [588, 585]}, front={"style": "inset"})
    told = check(one, "opening-square")
    assert told.state == "watch"
    assert "plane an inset front" in told.says


def test_12_an_opening_2_5_higher_on_one_side_is_within_the_height_adjusters(fit_one: Fit) -> None:
    """They lift by 3: 3 − 2.5 = 0.5 left. The box is cut to the lower side: 165.5 − 14 − 7 = 144.5."""
    one = fit_one(opening={"height": {"left": 168, "right": 165.5}})
    told = check(one, "opening-lean")
    assert (told.state, told.margin) == ("ok", pytest.approx(0.5))
    assert one.box is not None
    assert one.box.height == 144.5


def test_13_a_trap_in_the_middle_leaves_170_of_the_back_each_side(fit_one: Fit) -> None:
    """520 inside, 180 out of it: 170 each; notch 35 and a bore's 6 beside it want 41: 129 over.

    Inner sides 200 − 16 = 184 long, inner back 180 + 32 = 212, all 147 − 13 − 6 = 128 high; the bottom stands
    6 in the back's groove and is cut 200 − 16 + 6 = 190 deep.
    """
    one = fit_one(cut_out={"width": 180, "depth": 200})
    assert check(one, "cut-out").margin == pytest.approx(129)
    assert cut(one)["inner side"] == (2, 184, 128, 16)
    assert cut(one)["inner back"] == (1, 212, 128, 16)
    assert one.cut_out is not None
    assert one.cut_out.bottom_cut == 190


def test_14_a_trap_too_near_the_side_takes_the_hook_away(fit_one: Fit) -> None:
    """From 30 off the left side: 30 − 41 = −11. From 41 it just holds."""
    near = fit_one(cut_out={"width": 180, "depth": 200, "from_left": 30}, slide=SLIDE)
    assert (check(near, "cut-out").state, check(near, "cut-out").margin) == ("stop", pytest.approx(-11))
    assert fit_one(cut_out={"width": 180, "depth": 200, "from_left": 41}).slide is not None


def test_15_a_thin_frame_with_an_inset_front_wants_blocks_of_23(fit_one: Fit) -> None:
    """Member at 19 + 3 = 22, its screw 8 behind at 30, the frame ends at 19: 11 short; 12 past it: 23."""
    one = fit_one(
        construction="face-frame",
        frame={"left": 38, "right": 41, "thickness": 19},
        front={"style": "inset", "thickness": 19},
    )
    assert check(one, "frame-grip").margin == pytest.approx(-11)
    assert cut(one)["block behind stile left"] == (1, 60, 23, 38)
    assert cut(one)["block behind stile right"] == (1, 60, 23, 41)


def test_16_a_wide_drawer_runs_with_a_stabiliser(fit_one: Fit) -> None:
    """1252 wide, 400 long: 3.13 times; 2.5 is the limit, 5 with a stabiliser (by judgement, from memory)."""
    wide: dict[str, Any] = {"opening": {"width": 1262}, "slide": "plain-16/400"}
    assert check(fit_one(**wide), "width-to-length").margin == pytest.approx(2.5 - 3.13)
    cured = check(fit_one(**wide, stabiliser=True), "width-to-length")
    assert (cured.state, cured.margin) == ("ok", pytest.approx(5 - 3.13))


def test_17_packing_in_a_framed_cabinet_is_counted_from_face_and_from_the_side(fit_one: Fit) -> None:
    """Packed by the overhangs 38 and 41; 37 from the face, 37 − (19 − 6) = 24 from a side let in by 6."""
    one = fit_one(
        construction="face-frame", mount="packed", frame={"left": 38, "right": 41, "thickness": 19, "lap": 6}
    )
    assert one.mounting is not None
    assert (one.mounting.holes[0], one.mounting.holes_from_side_edge[0]) == (37, 24)
    assert (cut(one)["packing left"][3], cut(one)["packing right"][3]) == (38, 41)
