"""Columns, existing boxes and mounts, worked by hand. Every number here: common practice, no source.

The slide is the plain family of the 16 class: deduction 42, clearances 14 under, 7 over and 3 behind, screw
line 10 above the box's lower edge, front end 2 deep, first hole 37 deep, box 3 ahead of the member.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import FittedDrawer, FittedJob

Fit = Callable[..., FittedDrawer]
FitMany = Callable[..., FittedJob]
Family = Callable[..., SlideFamily]


def in_column(*drawers: dict[str, Any]) -> list[dict[str, Any]]:
    """Drawers of cabinet K from the bottom, each an overlay front unless told."""
    return [
        {"id": f"K-{number}", "cabinet": "K", "row": number, "front": {"style": "overlay"}, **keys}
        for number, keys in enumerate(drawers, 1)
    ]


def fronts(fitted: FittedJob) -> list[float]:
    return [one.front.height for one in fitted.drawers if one.front is not None]


def of_height(height: float, **opening: float) -> dict[str, Any]:
    return {"opening": {"height": height, **opening}}


def test_four_drawers_in_704_share_their_gaps(fit_many: FitMany) -> None:
    """192 + 16 − 1.5 = 206.5; 192 − 3 = 189; 160 − 3 = 157; 160 − 1.5 + 16 = 174.5.

    206.5 + 189 + 157 + 174.5 = 727, three gaps are 9: 736 = 704 + 32.
    """
    fitted = fit_many(*in_column(*(of_height(height) for height in (192, 192, 160, 160))))
    assert fronts(fitted) == [206.5, 189, 157, 174.5]
    (column,) = fitted.columns
    assert (column.openings, column.fronts, column.gaps, column.closes_by) == (704, 727, 9, 0)


def test_the_same_four_on_rows_that_begin_at_45(fit_many: FitMany) -> None:
    """Floors 0, 192, 384, 544. Screws want 24, 216, 408, 568; rows 45, 237, 429, 589 are each 21 above.

    Boxes 192 − 7 − 14 − 21 = 150 and 160 − 42 = 118. With all 21 higher, or rows 21 lower: 171.
    """
    drawers = in_column(*(of_height(height) for height in (192, 192, 160, 160)))
    fitted = fit_many(*drawers, cabinets=[{"id": "K", "first_row": 45}])
    mountings = [one.mounting for one in fitted.drawers if one.mounting]
    assert [one.screw_line for one in mountings] == [45, 237, 429, 589]
    assert [one.box.height for one in fitted.drawers if one.box] == [150, 150, 118, 118]
    (column,) = fitted.columns
    assert column.move is not None
    assert (column.move.row, column.move.by) == (1, 21)
    lower = fit_many(*drawers, cabinets=[{"id": "K", "first_row": 24}])
    assert [one.box.height for one in lower.drawers if one.box] == [171, 171, 139, 139]


def test_two_pot_drawers_and_a_cutlery_drawer_told_by_their_fronts() -> None:
    """283 − 16 + 1.5 = 268.5; 283 + 3 = 286; 140 − 16 + 1.5 = 125.5: 680 of openings.

    283 + 283 + 140 + 6 = 712 = 680 + 32. Floors 0, 268.5, 554.5; box of the top one 125.5 − 21 = 104.5.
    """
    drawers = [
        {
            "id": f"K-{number}",
            "cabinet": "K",
            "row": number,
            "side": 16,
            "opening": {"width": 562, "depth": 530},
            "front": {"style": "overlay", "height": height},
        }
        for number, height in enumerate((283, 283, 140), 1)
    ]
    family = SlideFamily.model_validate(
        {
            "id": "plain-16",
            "capacity": 45,
            "inside_width_deduction": 42,
            "length": [{"nominal": 500, "holes": [0, 32]}],
        }
    )
    fitted = fit_job(job_from_mapping({"drawer": drawers}), [family])
    assert [one.opening.height for one in fitted.drawers] == [268.5, 286, 125.5]
    assert [one.opening.floor for one in fitted.drawers] == [0, 268.5, 554.5]
    assert fronts(fitted) == [283, 283, 140]
    top = fitted.drawers[2].box
    assert top is not None
    assert top.height == 104.5
    assert fitted.columns[0].closes_by == 0


def test_rails_of_nineteen_between_three_openings(fit_many: FitMany) -> None:
    """(19 − 3) / 2 = 8 over each rail: 168 + 16 + 8 = 192, 168 + 16 = 184, 192. Floors 0, 187, 374.

    192 + 184 + 192 + 6 = 574 = 3 × 168 + 38 + 32.
    """
    fitted = fit_many(*in_column({}, {}, {}), cabinets=[{"id": "K", "rail": 19}])
    assert fronts(fitted) == [192, 184, 192]
    assert [one.opening.floor for one in fitted.drawers] == [0, 187, 374]
    assert fitted.columns[0].closes_by == 0


def test_two_cabinets_that_share_a_side_of_nineteen(fit_many: FitMany) -> None:
    """Each front covers (19 − 3) / 2 = 8 of it, 16 of the outer side: 562 + 24 = 586; 8 + 3 + 8 = 19."""
    left = {"id": "l", "cabinet": "L", "front": {"style": "overlay"}}
    right = {"id": "r", "cabinet": "R", "front": {"style": "overlay"}}
    cabinets = [{"id": "L", "partition": {"right": 19}}, {"id": "R", "partition": {"left": 19}}]
    one, other = (drawer.front for drawer in fit_many(left, right, cabinets=cabinets).drawers)
    assert one is not None
    assert other is not None
    assert (one.width, other.width) == (586, 586)
    assert 19 - one.right - other.left == 3


def test_inset_fronts_between_rails_of_a_face_frame(fit_many: FitMany) -> None:
    """168 − 2 × 3 = 162; over a rail of 38 the next front is 38 + 2 × 3 = 44 away. 2 × 162 + 44 = 374 − 6."""
    framed = {
        "construction": "face-frame",
        "frame": {"left": 38, "right": 38, "thickness": 19},
        "front": {"style": "inset", "gap": 3},
    }
    fitted = fit_many(*in_column(framed, framed), cabinets=[{"id": "K", "rail": 38}])
    assert fronts(fitted) == [162, 162]
    (column,) = fitted.columns
    assert column.rows[0].gap_above == 44
    assert (column.gaps, column.overlays, column.closes_by) == (44, -6, 0)


OLD = {
    "length": 500,
    "height": 140,
    "bottom_recess": 13,
    "bore_in": 7,
    "bore_up": 11,
    "notch_width": 35,
    "notch_height": 13,
}


def test_a_box_of_half_inch_stuff_sized_by_its_outside(fit_one: Fit) -> None:
    """552 outside: 5 each side; 526.6 inside: each face 3.3 outboard of its seat, 0.3 with a spacer.

    The hook stays at the seat: bored 7 + 3.3 = 10.3 from the face, notched 38.3. Lengthways 16 − 12.7 = 3.3.
    """
    fitted = fit_one(side=12.7, existing_box={**OLD, "outside_width": 552})
    assert fitted.latch is not None
    assert (fitted.latch.side, fitted.latch.along) == (pytest.approx(0.3), pytest.approx(0.3))
    (retrofit,) = fitted.retrofit
    work = [(piece.kind, round(piece.by, 6)) for piece in retrofit.work]
    assert work == [("side-spacer", 3), ("subfront-spacer", 3), ("hook-bore", 3.3), ("notch", 3.3)]
    assert "10.3 mm from each side's inside face" in retrofit.work[2].says


def test_a_box_made_for_sides_of_nineteen_keeps_to_its_own_class(fit_one: Fit, family: Family) -> None:
    """562 − 49 = 513 inside. On a deduction of 42 it is 7 too narrow, where 1.5 is what the pair gives."""
    nineteen = family(id="plain-19", inside_width_deduction=49, design_side=19, design_subfront=19)
    fitted = fit_one([family(), nineteen], side=19, existing_box={**OLD, "inside_width": 513})
    assert [(one.family, one.as_is) for one in fitted.retrofit] == [("plain-19", True)]
    margins = {item.family: {stop[0]: stop[1] for stop in item.stops} for item in fitted.rejected}
    assert margins["plain-16"]["opening-width"] == 1.5 - 7


def test_worn_slides_whose_hooks_sat_ten_in(fit_one: Fit) -> None:
    """Bored 10 in, wanted 7: 3 apart and bores of 6, so plug and bore. The rest of the box stays."""
    (retrofit,) = fit_one(existing_box={**OLD, "inside_width": 520, "bore_in": 10}).retrofit
    (bore,) = retrofit.work
    assert (bore.kind, bore.by) == ("hook-bore", 3)
    assert "plug the old ones first" in bore.says


def test_a_bottom_ten_above_the_lower_edges(fit_one: Fit) -> None:
    """13 − 10 = 3 higher; a box of 146 under 168 − 21 = 147 then lacks 2 at the top."""
    old = {**OLD, "inside_width": 520, "bottom_recess": 10, "height": 146}
    (retrofit,) = fit_one(existing_box=old).retrofit
    assert [(piece.kind, piece.by) for piece in retrofit.work] == [("recess", -3), ("height", -2)]


def test_an_eighteen_inch_box_wants_an_eighteen_inch_slide(fit_one: Fit, family: Family) -> None:
    """457.2 is 7.2 off 450, and 0.2 off 457: within the 1.0 of the latch."""
    inch = family(id="inch", length=[{"nominal": 457, "holes": [0, 32]}])
    old = {**OLD, "inside_width": 520, "length": 457.2}
    assert [one.family for one in fit_one([family(), inch], existing_box=old).retrofit] == ["inch"]


FRAME = {"left": 38, "right": 41, "thickness": 19}


def test_packing_is_as_thick_as_the_frame_stands_in(fit_one: Fit) -> None:
    """38 left, 41 right. Holes 37 from the frame's face are 37 − 19 = 18 from the edge of the side.

    Strips as long as the slide, 500, and twice 10 high.
    """
    fitted = fit_one(construction="face-frame", frame=FRAME, mount="packed")
    assert fitted.mounting is not None
    assert (fitted.mounting.packing_left, fitted.mounting.packing_right) == (38, 41)
    assert (fitted.mounting.holes[0], fitted.mounting.holes_from_side_edge[0]) == (37, 18)
    strips = {part.part: (part.length, part.width, part.thickness) for part in fitted.parts}
    assert (strips["packing left"], strips["packing right"]) == ((500, 20, 38), (500, 20, 41))


def test_rear_brackets_reach_so_far_and_close_the_sum(fit_one: Fit) -> None:
    """562 + 38 + 41 = 641 inside. Centres 38 + 14 = 52 and 41 + 14 = 55: 641 − 107 = 534 = 562 − 28.

    Of a depth of 560, 560 − 2 − 550 = 8 are left behind the 550: reached. It wants 3, so 5 are over.
    """
    fitted = fit_one(
        construction="face-frame",
        frame=FRAME,
        opening={"depth": 560},
        cabinet="K",
        cabinet_keys={"id": "K", "inside_width": 641},
    )
    assert fitted.slide is not None
    assert (fitted.slide.mount, fitted.slide.length.nominal) == ("rear-bracket", 550)
    assert fitted.mounting is not None
    left, right = fitted.mounting.rear_bracket_left, fitted.mounting.rear_bracket_right
    assert (left, right, fitted.mounting.reach) == (52, 55, 8)
    margins = {check.id: check.margin for check in fitted.checks}
    assert margins["cabinet-depth"] == 5
    assert margins["frame-sum"] >= 0


def test_a_bracket_that_does_not_reach_leaves_packing(fit_one: Fit) -> None:
    """Of 700, 700 − 2 − 550 = 148 are left behind the longest, and 45 is what a bracket bridges."""
    fitted = fit_one(construction="face-frame", frame=FRAME, opening={"depth": 700})
    assert fitted.slide is not None
    assert (fitted.slide.mount, fitted.slide.length.nominal) == ("packed", 550)
    reasons = {item.because for item in fitted.rejected if item.mount == "rear-bracket"}
    assert reasons == {"rear-bracket"}


def test_on_a_shelf_the_box_stands_twelve_up_and_has_no_screw_line(fit_one: Fit) -> None:
    """168 − 12 − 7 = 149 high instead of 147; holes at 2 + 60 = 62 and 2 + 400 = 402 from the front."""
    fitted = fit_one(
        mount="shelf", cabinet="K", cabinet_keys={"id": "K", "shelf_fixed": True, "first_row": 45}
    )
    assert fitted.box is not None
    assert fitted.mounting is not None
    assert (fitted.box.lower_edge, fitted.box.height) == (12, 149)
    assert (fitted.mounting.screw_line, fitted.mounting.shelf_holes) == (None, (62, 402))


def test_an_inset_front_behind_a_frame_counts_its_holes_from_two_edges(fit_one: Fit) -> None:
    """19 + 3 = 22 is where the member begins; 22 + 35 = 57 the first hole; 57 − 19 + 6 = 44, lap 6."""
    fitted = fit_one(
        construction="face-frame",
        frame={**FRAME, "lap": 6},
        mount="packed",
        front={"style": "inset", "thickness": 19},
    )
    assert fitted.mounting is not None
    assert fitted.mounting.front_end == 22
    assert (fitted.mounting.holes[0], fitted.mounting.holes_from_side_edge[0]) == (57, 44)
