from __future__ import annotations

from typing import Any

import pytest

from drawerwright.catalogue import load_families
from drawerwright.files.jobs import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.pack.cut_list import cut_list
from drawerwright.pack.figures import box_text, holes_text, part_text, thick_text, thickness_inches
from drawerwright.pack.rounding import rounding_notes
from drawerwright.pack.shown import Shown

OPENING = {"width": 562, "height": 168, "depth": 530}


def fitted(**told: Any) -> FittedJob:
    drawer = {"id": "A", "opening": OPENING, "side": 16, "slide": "house-16/500", **told}
    return fit_job(job_from_mapping({"drawer": [drawer]}), load_families())


def test_sides_are_cut_to_the_nearest_fraction_and_all_else_is_rounded_down() -> None:
    """500 mm = 19.685 in, 629.9 thirty-seconds: 19 11/16 is the nearest, 500.06 mm; 520 mm = 20.472 in."""
    found = fitted().drawers[0]
    texts = {part.part: part_text(part, Shown("in")) for part in found.parts}
    assert texts["side"].startswith("19 11/16 × ")
    assert texts["subfront"].startswith("20 15/32 × ")
    assert found.box is not None
    assert box_text(found.box, Shown("in")).endswith(" × 19 11/16")


@pytest.mark.parametrize(
    ("board", "text", "decimal"), [(6.0, "6 mm", "0.236"), (6.35, "1/4 in", "1/4"), (19.0, "19 mm", "0.748")]
)
def test_a_board_keeps_its_own_thickness(board: float, text: str, decimal: str) -> None:
    """1/4 in = 6.35 mm; 6 / 25.4 = 0.2362 and 19 / 25.4 = 0.7480."""
    assert thick_text(board, Shown("in")) == text
    assert thickness_inches(board, Shown("in")) == decimal


def test_grooves_follow_the_board_as_measured_and_work_has_both_units() -> None:
    for board, wide in ((6.0, "groove 6 wide"), (6.35, "groove 6.35 (1/4 in) wide")):
        table = cut_list(fitted(box={"bottom_thickness": board}), Shown("in"))
        assert table.columns[-1].heading == "Work, mm (in)"
        work = table.rows[0][-1]
        assert isinstance(work, str)
        assert work.startswith(wide)
        assert "13 (1/2 in) above the lower edge" in work


def test_row_holes_are_in_mm_on_inch_papers() -> None:
    """37 mm = 1.4567 in and 69 mm = 2.7165 in: 1 15/32 and 2 23/32."""
    assert holes_text((37.0, 69.0), Shown("in")) == "37, 69 mm (1 15/32, 2 23/32 in)"
    assert holes_text((37.0, 69.0), Shown()) == "37, 69"


def test_a_side_whose_inches_leave_the_bracket_nothing_is_told_to_be_cut_to_the_mm() -> None:
    """19 11/16 in = 500.0625 mm; subfront 16.95 in a family for 16 stands 0.95 off, of 1.0: 0.05 is left."""
    (note,) = rounding_notes(fitted(subfront=16.95).drawers[0], Shown("in"))
    assert note.startswith("Sides 500 mm long are 0.06 mm longer at 19 11/16 in")
    assert "0.05 mm are left" in note


def test_a_narrow_box_beside_an_opening_that_widens_is_told() -> None:
    """518 mm = 20.394 in, down to 20 3/8 = 517.525 mm: 0.475 narrower, where 0.1 of the band is left."""
    job = fitted(opening={**OPENING, "width": [560.0, 561.4]})
    (note,) = rounding_notes(job.drawers[0], Shown("in"))
    assert "up to 0.1 mm narrower" in note
    assert any(one.startswith("A: subfront 518 mm long") for one in cut_list(job, Shown("in")).remarks)


def test_nothing_is_told_where_the_inches_may_be_cut_or_mm_are_shown() -> None:
    assert rounding_notes(fitted().drawers[0], Shown("in")) == ()
    assert rounding_notes(fitted(subfront=16.95).drawers[0], Shown()) == ()
