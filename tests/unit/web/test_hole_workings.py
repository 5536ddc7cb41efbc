"""The working of row holes: the first one's, and of each further hole and slot how far it lies behind it."""

from __future__ import annotations

import re

import pytest

from drawerwright.drawing.shown import Shown
from drawerwright.model.fitted import FittedDrawer
from drawerwright.web.families import shipped_families
from drawerwright.web.fitting import answer_values
from drawerwright.web.quick_job import quick_values
from drawerwright.web.sheet.asked import Asked
from drawerwright.web.sheet.sheet import Sheet
from drawerwright.web.sheet.working import Unfolded, unfold

PLAIN = {"width": "562", "height": "168", "depth": "530", "side": "16", "contents": "20"}
INSET = PLAIN | {"front.style": "inset", "depth": "560"}


def _fitted(told: dict[str, str]) -> FittedDrawer:
    found = answer_values(quick_values(told.items()), shipped_families()).drawers[0].fitted
    assert found is not None
    return found


def _working(told: dict[str, str], shown: Shown) -> tuple[FittedDrawer, Unfolded]:
    fitted = _fitted(told)
    found = unfold("first_hole", fitted, shown)
    assert found is not None
    return fitted, found


def test_each_further_hole_is_named_and_told_as_a_sum() -> None:
    """37 behind an overlay front or none; the family lists holes at 0, 32, 224, 256, 448 behind the first."""
    _, found = _working(PLAIN, Shown())
    told = {term.says: term.value for term in found.terms}
    assert told["row hole 2"] == "37 + 32 = 69 mm"
    assert told["row hole 3"] == "37 + 224 = 261 mm"
    assert "row hole 1" not in told
    assert told["slot 1"] == "37 + 16 = 53 mm"


@pytest.mark.parametrize(
    "told", [PLAIN, INSET, PLAIN | {"slide": "side-mounted"}], ids=["plain", "inset", "beside"]
)
@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_the_sums_end_in_the_depths_of_the_answer(told: dict[str, str], units: str) -> None:
    fitted, found = _working(told, Shown(units))  # type: ignore[arg-type]
    assert fitted.mounting is not None
    sums = [term for term in found.terms if re.match(r"(row hole|slot) \d+$", term.says)]
    wanted = [*fitted.mounting.holes[1:], *fitted.mounting.slots]
    assert len(sums) == len(wanted) > 3
    inch = 25.4 if units == "in" else 1.0
    for term, depth in zip(sums, wanted, strict=True):
        left, _, result = term.value.partition(" = ")
        assert float(result.split()[0]) * inch == pytest.approx(depth, abs=0.02 * inch)
        assert sum(float(each) for each in left.split(" + ")) * inch == pytest.approx(depth, abs=0.02 * inch)


def test_a_drawer_on_a_shelf_has_no_row_holes_to_tell() -> None:
    fitted, found = _working(PLAIN | {"mount": "shelf"}, Shown())
    assert fitted.mounting is not None
    assert fitted.mounting.shelf_holes
    assert [term.says for term in found.terms if re.match(r"(row hole|slot) \d", term.says)] == []


@pytest.mark.parametrize("size", ["mid", "small"])
def test_a_working_of_many_holes_still_opens_on_the_sheet(size: str) -> None:
    sheet = Sheet(_fitted(PLAIN), Asked("/", PLAIN, show="first_hole"))
    working = sheet.board.working
    assert working is not None
    assert "row hole 5" in [term.says for term in working.unfolded.terms]
    assert any(view.working is not None for view in sheet.stack(size))  # type: ignore[attr-defined]
