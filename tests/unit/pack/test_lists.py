"""Cut list and hardware list."""

from __future__ import annotations

from dataclasses import replace

from pack_builders import FAMILY, fitting, job_of, not_fitting

from drawerwright.model.fitted import ChosenSlide, FittedDrawer
from drawerwright.pack.cut_list import cut_list, cut_rows
from drawerwright.pack.hardware_list import hardware_list, hardware_rows


def counts(*drawers: FittedDrawer) -> dict[tuple[str, float | None, str], int]:
    _, fitted = job_of(*drawers)
    return {(item.name, item.size, item.hand): count for item, count, _ in hardware_rows(fitted)}


def test_identical_parts_of_several_drawers_are_one_row_with_their_sum() -> None:
    _, fitted = job_of(fitting("A", quantity=3), fitting("B"))
    sides = next(row for row in cut_rows(fitted) if row.part.part == "side")
    assert (sides.ids, sides.count) == (("A", "B"), 8)
    assert len(cut_rows(fitted)) == 5


def test_sizes_in_the_list_are_the_model_s_own_numbers() -> None:
    _, fitted = job_of(fitting("A"))
    table = cut_list(fitted, "mm")
    assert [row[3:6] for row in table.rows] == [
        (p.length, p.width, p.thickness) for p in fitted.drawers[0].parts
    ]


def test_inches_are_extra_columns_of_fractions() -> None:
    _, fitted = job_of(fitting("A"))
    table = cut_list(fitted, "both")
    headings = [column.heading for column in table.columns]
    row = dict(zip(headings, table.rows[0], strict=True))
    assert (row["Length, mm"], row["Length, in"]) == (500.0, "19 11/16")
    assert "Length, in" not in [column.heading for column in cut_list(fitted, "mm").columns]


def test_a_back_says_how_it_is_notched_and_bored() -> None:
    _, fitted = job_of(fitting("A"))
    back = next(row for row in cut_rows(fitted) if row.part.part == "back")
    assert back.note == (
        "groove 6 wide, 6 deep, 13 above the lower edge; notches 35 × 13, hook bores Ø 6, 10 deep"
    )


def test_a_pair_of_slides_brings_a_left_and_a_right_bracket_and_spacers_for_both() -> None:
    found = counts(fitting("A", quantity=2))
    assert found["slide", 500.0, ""] == 2
    assert found["locking bracket", None, "L"] == found["locking bracket", None, "R"] == 2
    assert found["spacer", 3.0, ""] == 4


def test_screws_are_counted_by_their_holes() -> None:
    found = counts(fitting("A"))
    assert found["screw for a row hole", None, ""] == 2 * (5 + 1)
    assert found["screw for a locking bracket", None, ""] == 2 * len(FAMILY.bracket_holes)


def test_spacers_on_both_faces_and_two_on_one_are_all_counted() -> None:
    one = fitting("A")
    stacked = replace(one, slide=ChosenSlide(FAMILY, FAMILY.lengths[0], "side", (3.0, 3.0), (3.0,)))
    assert counts(stacked)["spacer", 3.0, ""] + 0 == 2
    _, fitted = job_of(stacked)
    assert sum(count for item, count, _ in hardware_rows(fitted) if item.name == "spacer") == 6


def test_rear_brackets_are_handed_and_packing_is_by_thickness() -> None:
    one = fitting("A")
    assert one.mounting is not None
    framed = replace(one, mounting=replace(one.mounting, rear_bracket_left=52.0, rear_bracket_right=55.0))
    packed = replace(one, mounting=replace(one.mounting, packing_left=38.0, packing_right=41.0))
    assert counts(framed)["rear bracket", None, "L"] == counts(framed)["rear bracket", None, "R"] == 1
    assert counts(packed)["packing", 38.0, "L"] == counts(packed)["packing", 41.0, "R"] == 1
    assert ("rear bracket", None, "L") not in counts(packed)


def test_slides_at_the_sides_of_the_box_come_without_brackets_and_hooks() -> None:
    beside = FAMILY.model_copy(update={"carriage": "side-mounted"})
    one = replace(fitting("A"), slide=ChosenSlide(beside, beside.lengths[0], "side", (), ()))
    names = {name for name, _, _ in counts(one)}
    assert names == {"slide", "screw for a row hole"}
    notes = {row.part.part: row.note for row in cut_rows(job_of(one)[1])}
    assert "hook" not in notes["back"]


def test_a_drawer_that_does_not_fit_wants_no_parts_and_no_hardware() -> None:
    _, fitted = job_of(not_fitting("A"))
    assert cut_list(fitted, "mm").rows == ()
    assert hardware_list(fitted, "both").rows == ()


def test_slides_come_first_and_sizes_stay_numbers() -> None:
    _, fitted = job_of(fitting("A"))
    table = hardware_list(fitted, "both")
    assert table.rows[0][:4] == ("slide", "plain-16", 500.0, "19 11/16")
