"""Columns: openings told by fronts, floors that follow, shared edges, sums, and the move onto the rows."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import InputError
from drawerwright.files import job_from_mapping, write_job_toml
from drawerwright.files.jobs import read_job
from drawerwright.fit import fit_document
from drawerwright.fit.columns import front_overlaps
from drawerwright.model.fitted import FittedJob
from drawerwright.model.fitted_column import FittedColumn
from drawerwright.model.job import Job

FitMany = Callable[..., FittedJob]

OVERLAY = {"style": "overlay"}


def row(number: int, height: float | None = None, **keys: Any) -> dict[str, Any]:
    """A drawer of cabinet B by its row; `height` of its opening."""
    opening = {**({} if height is None else {"height": height}), **keys.pop("opening", {})}
    return {"id": f"B-{number}", "cabinet": "B", "row": number, "opening": opening, "front": OVERLAY, **keys}


def column(fitted: FittedJob) -> FittedColumn:
    (found,) = fitted.columns
    return found


def told(found: FittedColumn) -> dict[str, str]:
    """State by remark."""
    return {remark.id: remark.state for remark in found.remarks}


def by_fronts(*heights: float, **cabinet: Any) -> Job:
    drawers = [
        {
            "id": f"B-{number}",
            "cabinet": "B",
            "row": number,
            "opening": {"width": 562, "depth": 530},
            "side": 16,
            "front": {"style": "overlay", "height": height},
        }
        for number, height in enumerate(heights, 1)
    ]
    return job_from_mapping({"cabinet": [{"id": "B", **cabinet}], "drawer": drawers})


def openings(job: Job) -> list[tuple[float, float]]:
    return [(drawer.opening.floor, drawer.opening.height.largest) for drawer in job.drawers]


def test_openings_follow_from_fronts() -> None:
    """206.5 − 16 + 1.5 = 192; 189 + 3 = 192; 157 + 3 = 160; 174.5 − 16 + 1.5 = 160: 704 in all."""
    job = by_fronts(206.5, 189, 157, 174.5)
    assert openings(job) == [(0, 192), (192, 192), (384, 160), (544, 160)]


def test_rails_of_nineteen_take_eight_from_each_front() -> None:
    """(19 − 3) / 2 = 8: 200 − 16 − 8 = 176, then 176 + 19 = 195."""
    assert openings(by_fronts(200, 200, rail=19)) == [(0, 176), (195, 176)]


def test_one_drawer_alone_has_its_overlay_all_round() -> None:
    assert openings(by_fronts(200)) == [(0, 168)]


def test_an_inset_front_leaves_its_gap_above_and_below() -> None:
    drawer = {
        "id": "A",
        "opening": {"width": 562, "depth": 530},
        "side": 16,
        "front": {"style": "inset", "height": 162, "gap": 3},
    }
    assert openings(job_from_mapping({"drawer": [drawer]})) == [(0, 168)]


def test_a_job_told_by_fronts_reads_back_equal(tmp_path: Any) -> None:
    job = by_fronts(206.5, 189, 174.5, rail=19, inside_height=720, partition={"left": 19})
    path = tmp_path / "job.toml"
    path.write_text(write_job_toml(job), encoding="utf-8")
    assert read_job(path) == job


@pytest.mark.parametrize(
    ("front", "opening", "says"),
    [
        ({"height": 200}, {}, "is told for a front that is not made"),
        ({"style": "overlay", "height": 20}, {}, "leaves no opening behind its overlays"),
        (
            {"style": "inset", "height": 150, "gap": 3},
            {"height": 168},
            "is not the opening's height less two gaps",
        ),
        ({"style": "overlay"}, {}, "is missing"),
        ({"style": "inset", "height": 5000, "gap": 3}, {}, "makes an opening of 5006 mm"),
    ],
)
def test_a_height_of_a_front_that_cannot_be_is_refused(
    front: dict[str, Any], opening: dict[str, Any], says: str
) -> None:
    drawer = {"id": "A", "side": 16, "front": front, "opening": {"width": 562, "depth": 530, **opening}}
    with pytest.raises(InputError) as refused:
        job_from_mapping({"drawer": [drawer]})
    assert [fault.says for fault in refused.value.faults if fault.says.startswith(says)]
    assert len(refused.value.faults) == 1


def test_floors_that_nobody_tells_stand_one_opening_on_the_other(fit_many: FitMany) -> None:
    fitted = fit_many(row(1, 192), row(2, 160), row(3, 140))
    assert [one.opening.floor for one in fitted.drawers] == [0, 192, 352]
    assert told(column(fitted))["column"] == "ok"


def test_a_told_floor_leaves_every_floor_as_it_is(fit_many: FitMany) -> None:
    fitted = fit_many(row(1, 192), row(2, 160, opening={"floor": 300}), row(3, 140))
    assert [one.opening.floor for one in fitted.drawers] == [0, 300, 0]
    assert told(column(fitted))["column"] == "watch"


def test_a_row_that_is_left_out_leaves_the_floors_as_they_are(fit_many: FitMany) -> None:
    fitted = fit_many(row(1, 192), row(3, 140))
    assert [one.opening.floor for one in fitted.drawers] == [0, 0]
    (_, upper) = fitted.drawers
    assert {check.id: check.state for check in upper.checks}["column"] == "watch"


def test_openings_that_overlap_are_watched_on_both_drawers(fit_many: FitMany) -> None:
    """168 − 150 = 18 of overlap; the third stands clear by 40."""
    fitted = fit_many(row(1), row(2, opening={"floor": 150}), row(3, opening={"floor": 150 + 168 + 40}))
    checks = [{check.id: check for check in one.checks}["column"] for one in fitted.drawers]
    assert [(check.state, check.margin) for check in checks] == [("watch", -18), ("watch", -18), ("ok", 40)]
    assert [one.verdict for one in fitted.drawers] == ["fits-with-care", "fits-with-care", "fits"]


def test_rows_that_are_numbered_from_the_top_are_watched(fit_many: FitMany) -> None:
    fitted = fit_many(row(1, opening={"floor": 400}), row(2, opening={"floor": 200}))
    remark = column(fitted).remarks[0]
    assert (remark.id, remark.state, remark.margin) == ("column", "watch", 200 - 400 - 168)
    assert "stands under" in remark.says


def test_a_drawer_alone_in_its_cabinet_has_no_column(fit_many: FitMany) -> None:
    fitted = fit_many(row(1), {"id": "C", "cabinet": "C"})
    assert fitted.columns == ()
    assert all(check.id != "column" for one in fitted.drawers for check in one.checks)


def test_fronts_gaps_and_openings_close(fit_many: FitMany) -> None:
    """206.5 + 189 + 157 + 174.5 + 3 × 3 = 736 = 704 + 2 × 16."""
    fitted = fit_many(row(1, 192), row(2, 192), row(3, 160), row(4, 160))
    found = column(fitted)
    assert [one.front.height for one in fitted.drawers if one.front] == [206.5, 189, 157, 174.5]
    assert (found.openings, found.fronts, found.gaps, found.overlays) == (704, 727, 9, 32)
    assert found.closes_by == 0
    assert told(found)["fronts"] == "ok"


def test_told_fronts_that_are_too_low_leave_so_much_open(fit_many: FitMany) -> None:
    """Two openings of 200 want 400 + 32 − 3 = 429 of fronts; 210 + 209 are 10 short."""
    fitted = fit_many(
        row(1, 200, front={**OVERLAY, "height": 210}), row(2, 200, front={**OVERLAY, "height": 209})
    )
    found = column(fitted)
    assert found.closes_by == pytest.approx(10)
    assert told(found)["fronts"] == "watch"
    upper = fitted.drawers[1].front
    assert upper is not None
    assert (upper.height, upper.top, upper.bottom) == (209, 6, 3)


def test_unequal_fronts_over_equal_openings_keep_the_gap_between_them(fit_many: FitMany) -> None:
    """140 from −16 ends at 124, 3 under the next; that one begins 41 under its own opening."""
    fitted = fit_many(
        row(1, 168, front={**OVERLAY, "height": 140}), row(2, 168, front={**OVERLAY, "height": 225})
    )
    found = column(fitted)
    assert [line.gap_above for line in found.rows] == [3, None]
    assert (found.rows[0].front_top, found.rows[1].front_bottom) == (124, 127)
    assert found.closes_by == 0


def test_a_box_that_stands_behind_the_next_front_is_watched(fit_many: FitMany) -> None:
    """Front to 124; the box stands from 14 to 161 under its limit: 37 behind the front above."""
    fitted = fit_many(row(1, 168, front={**OVERLAY, "height": 140}), row(2, 168))
    remark = next(one for one in column(fitted).remarks if one.id == "boxes")
    assert (remark.state, remark.margin) == ("watch", pytest.approx(124 - 161))


def test_a_shared_side_of_nineteen_is_covered_by_eight(fit_many: FitMany) -> None:
    """(19 − 3) / 2 = 8 left, the overlay of 16 right: 562 + 24 = 586."""
    fitted = fit_many(row(1), cabinets=[{"id": "B", "partition": {"left": 19}}])
    front = fitted.drawers[0].front
    assert front is not None
    assert (front.left, front.right, front.width) == (8, 16, 586)


def test_each_edge_may_have_its_own_overlay(fit_many: FitMany) -> None:
    edges = {"left": 10, "right": 5, "top": 20, "bottom": 0}
    fitted = fit_many(row(1, 192, front={**OVERLAY, "overlay": edges}), row(2, 160, front=OVERLAY))
    lower, upper = (one.front for one in fitted.drawers)
    assert lower is not None
    assert upper is not None
    assert (lower.left, lower.right, lower.bottom, lower.top) == (10, 5, 0, -1.5)
    assert (upper.bottom, upper.top) == (-1.5, 16)


def test_the_room_over_the_highest_opening_is_told(fit_many: FitMany) -> None:
    cabinets = [{"id": "B", "inside_height": 400}]
    assert column(fit_many(row(1, 192), row(2, 192), cabinets=cabinets)).room_above == 16
    over = column(fit_many(row(1, 192), row(2, 232), cabinets=cabinets))
    assert over.room_above == -24
    assert told(over)["inside-height"] == "watch"


GRID = {"id": "B", "first_row": 24, "pitch": 32}


def test_a_column_on_its_rows_needs_no_move(fit_many: FitMany) -> None:
    """Screws 24 over each floor; 192 is six rows of 32."""
    found = column(fit_many(row(1, 192), row(2, 192), cabinets=[GRID]))
    assert [line.moved_up for line in found.rows] == [0, 0]
    assert found.move is None
    assert "as it is" in {one.id: one.says for one in found.remarks}["rows"]


def test_one_opening_that_is_raised_puts_the_rest_on_their_rows(fit_many: FitMany) -> None:
    """The second floor is at 180: 12 under the row at 192 + 24. The third is 160 = 5 rows above it."""
    drawers = (row(1, 180), row(2, 160), row(3, 160))
    found = column(fit_many(*drawers, cabinets=[GRID]))
    assert [line.moved_up for line in found.rows] == [0, 12, 12]
    assert found.move is not None
    assert (found.move.row, found.move.by) == (2, 12)
    raised = [row(number, 160, opening={"floor": floor + 12}) for number, floor in ((2, 180), (3, 340))]
    moved = fit_many(row(1, 180), *raised, cabinets=[GRID])
    assert [line.moved_up for line in column(moved).rows] == [0, 0, 0]


def test_it_is_lowered_where_that_is_the_shorter_way(fit_many: FitMany) -> None:
    """The second floor is at 200: 24 up or 8 down."""
    found = column(fit_many(row(1, 200), row(2, 160), cabinets=[GRID]))
    assert found.move is not None
    assert (found.move.row, found.move.by) == (2, -8)


def test_no_single_move_serves_openings_that_are_off_by_different_ways(fit_many: FitMany) -> None:
    found = column(fit_many(row(1, 180), row(2, 170), row(3, 160), cabinets=[GRID]))
    assert [line.moved_up for line in found.rows] == [0, 12, 2]
    assert found.move is None
    assert "moving one opening alone" in {one.id: one.says for one in found.remarks}["rows"]


def test_the_document_has_the_columns_sums(fit_many: FitMany) -> None:
    document = fit_document(fit_many(row(1, 192), row(2, 192)))
    (found,) = document["columns"]
    assert (found["cabinet"], found["openings"], found["fronts"], found["gaps"]) == ("B", 384, 413, 3)
    assert (found["closes_by"], found["room_above"], found["move"]) == (0, None, None)
    assert found["rows"][1]["front"] == {"bottom": 193.5, "top": 400}


def test_a_column_without_fronts_sums_its_openings_alone(fit_many: FitMany) -> None:
    found = column(fit_many(row(1, 192, front={}), row(2, 192, front={})))
    assert (found.openings, found.fronts, found.closes_by) == (384, None, None)
    assert "fronts" not in told(found)


HEIGHTS = st.lists(st.integers(600, 3000).map(lambda tenths: tenths / 10), min_size=1, max_size=6)


@given(heights=HEIGHTS, rail=st.integers(0, 40), gap=st.integers(0, 60).map(lambda tenths: tenths / 10))
def test_fronts_told_come_back_from_the_openings_that_follow(
    heights: list[float], rail: int, gap: float
) -> None:
    job = by_fronts(*heights, rail=rail)
    drawers = [
        one.model_copy(update={"front": one.front.model_copy(update={"height": None})}) for one in job.drawers
    ]
    overlaps = front_overlaps(drawers)
    again = [one.opening.height.largest + overlaps[one.id].top + overlaps[one.id].bottom for one in drawers]
    assert again == pytest.approx(heights)
    for lower, upper in pairwise(job.drawers):
        assert upper.opening.floor == pytest.approx(lower.opening.floor + lower.opening.height.largest + rail)
