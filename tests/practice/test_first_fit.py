"""Trade facts that a first fit must give. Every number here: common practice, no source."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.model.fitted import FittedDrawer

Fit = Callable[..., FittedDrawer]


def test_sixteen_millimetre_sides_leave_five_each_side(fit_one: Fit) -> None:
    """562 − 42 + 2 × 16 = 552; (562 − 552) / 2 = 5."""
    fitted = fit_one(side=16)
    assert fitted.box is not None
    assert (fitted.box.outside_width, fitted.box.side_gap) == (552, 5)


def test_half_inch_sides_leave_8_3_and_want_a_spacer_lengthways(fit_one: Fit) -> None:
    """21 − 12.7 = 8.3; 16 − 12.7 = 3.3 lengthways, less a 3 mm spacer is 0.3: it latches."""
    fitted = fit_one(side=12.7)
    assert fitted.box is not None
    assert fitted.slide is not None
    assert fitted.latch is not None
    assert fitted.box.side_gap == pytest.approx(8.3)
    assert fitted.slide.subfront_spacers == (3,)
    assert fitted.slide.side_spacers == ()
    assert fitted.latch.along == pytest.approx(0.3)


def test_without_the_spacer_half_inch_stuff_does_not_latch(fit_one: Fit, family: Callable[..., Any]) -> None:
    """3.3 mm off its seat, and 1.0 is what latches."""
    fitted = fit_one([family(spacers=[])], side=12.7)
    assert fitted.verdict == "does-not-fit"
    assert {item.because for item in fitted.rejected if item.nominal <= 500} == {"latch-along"}
    assert fitted.rejected[0].margin == pytest.approx(1.0 - 3.3)


def test_the_same_box_sized_by_the_outside_wants_a_spacer_sideways_too(fit_one: Fit) -> None:
    """Outside 562 − 42 + 32 = 552 whatever the stuff: inside 526.6, 3.3 off each seat, 0.3 with a spacer."""
    fitted = fit_one(side=12.7, size_from="outside")
    assert fitted.box is not None
    assert fitted.slide is not None
    assert fitted.latch is not None
    assert fitted.box.outside_width == 552
    assert fitted.slide.side_spacers == (3,)
    assert fitted.latch.side == pytest.approx(0.3)
    assert fitted.box.side_gap == pytest.approx(5)


def test_the_first_row_hole_is_37_behind_the_edge_and_rows_are_32_apart(fit_one: Fit) -> None:
    """37, then every 32: 37, 69."""
    fitted = fit_one(front={"style": "overlay", "overlay": 16})
    assert fitted.mounting is not None
    assert fitted.mounting.holes[:2] == (37, 69)
    assert all((hole - 37) % 32 == 0 for hole in fitted.mounting.holes)


def test_an_inset_front_of_19_moves_the_first_hole_to_56(fit_one: Fit, family: Callable[..., Any]) -> None:
    """Equal offsets before and behind: 37 + 19 = 56."""
    same = family(front_overlay=3, front_inset=3)
    fitted = fit_one([same], front={"style": "inset", "thickness": 19})
    assert fitted.mounting is not None
    assert fitted.mounting.holes[0] == 56


def test_rear_brackets_stand_14_inside_the_frame(fit_one: Fit) -> None:
    """Frame in by 38: 38 + 14 = 52 from the side; centres 562 − 28 = 534 apart."""
    fitted = fit_one(
        construction="face-frame",
        frame={"left": 38, "right": 38, "thickness": 19},
        cabinet_keys={"id": "B", "inside_width": 638},
        cabinet="B",
    )
    assert fitted.slide is not None
    assert fitted.slide.mount == "rear-bracket"
    assert fitted.mounting is not None
    left, right = fitted.mounting.rear_bracket_left, fitted.mounting.rear_bracket_right
    assert (left, right) == (52, 52)
    assert left is not None
    assert right is not None
    assert 638 - left - right == 562 - 28


def test_the_hook_bore_is_6_by_10(family: Callable[..., Any]) -> None:
    """6 mm, 10 mm deep."""
    rear = family().rear
    assert (rear.bore, rear.bore_depth) == (6, 10)


def test_five_eighths_sheet_is_not_16_and_latches(fit_one: Fit) -> None:
    """15.875 is 0.125 short of 16: inside 1.0, no spacer."""
    fitted = fit_one(side="5/8 in")
    assert fitted.latch is not None
    assert fitted.slide is not None
    assert fitted.latch.along == pytest.approx(0.125)
    assert fitted.slide.subfront_spacers == ()
    assert fitted.verdict == "fits"


def test_a_column_of_four_fronts_closes_on_its_openings(fit_many: Callable[..., Any]) -> None:
    """192/192/160/160, 16 all round, gap 3: 206.5, 189, 157, 174.5; sum + 3 gaps = 704 + 32."""
    front = {"style": "overlay", "overlay": 16, "gap": 3}
    heights = (192, 192, 160, 160)
    job = fit_many(
        *(
            {"id": f"D{row}", "cabinet": "B", "row": row, "front": front, "opening": {"height": height}}
            for row, height in enumerate(heights, 1)
        ),
        cabinets=[{"id": "B"}],
    )
    fronts = [one.front.height for one in job.drawers]
    assert fronts == [206.5, 189, 157, 174.5]
    assert sum(fronts) + 3 * 3 == 704 + 32


def test_a_twelve_millimetre_bottom_lies_in_the_bores_way(fit_one: Fit) -> None:
    """Bore 11 above the underside, 6 wide: its lower edge is at 8, the bottom reaches 12."""
    fitted = fit_one(box={"bottom_thickness": 12})
    assert fitted.verdict == "does-not-fit"
    assert {item.because for item in fitted.rejected if item.nominal <= 500} == {"hook-bore"}
    assert fitted.rejected[0].margin == pytest.approx(8 - 12)


def test_a_half_inch_back_with_a_groove_is_bored_past_the_groove(fit_one: Fit) -> None:
    """12.7 − 6 leaves 6.7, the bore is 10 deep: to be watched, though 2.0 of wood stands between."""
    fitted = fit_one(side=12.7)
    hook = next(check for check in fitted.checks if check.id == "hook-bore")
    assert (hook.state, hook.margin) == ("watch", pytest.approx(2.0))


def test_a_frame_is_counted_from_its_face_and_from_the_side(fit_one: Fit) -> None:
    """Packed out behind a 19 mm frame with a side let in by 6: 37 from the face, 37 − 13 from the side."""
    fitted = fit_one(
        construction="face-frame", mount="packed", frame={"left": 38, "right": 41, "thickness": 19, "lap": 6}
    )
    assert fitted.mounting is not None
    assert fitted.mounting.holes[0] == 37
    assert fitted.mounting.holes_from_side_edge[0] == 24
    assert (fitted.mounting.packing_left, fitted.mounting.packing_right) == (38, 41)
