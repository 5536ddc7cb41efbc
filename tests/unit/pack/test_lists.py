"""Cut list and hardware list."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pack_builders import FAMILY, fitting, job_of, not_fitting

from drawerwright.model.family import RearBracket
from drawerwright.model.fitted import ChosenSlide, FittedDrawer, FrontFixing, Part
from drawerwright.pack.cut_list import cut_list, cut_rows
from drawerwright.pack.figures import inches_down
from drawerwright.pack.hardware_items import packing_screws
from drawerwright.pack.hardware_list import hardware_list, hardware_rows, total_price
from drawerwright.pack.shown import Shown


def counts(*drawers: FittedDrawer) -> dict[tuple[str, float | None, str], int]:
    _, fitted = job_of(*drawers)
    return {(row.item.name, row.item.size, row.item.hand): row.used for row in hardware_rows(fitted)}


def test_identical_parts_of_several_drawers_are_one_row_with_their_sum() -> None:
    _, fitted = job_of(fitting("A", quantity=3), fitting("B"))
    sides = next(row for row in cut_rows(fitted) if row.part.part == "side")
    assert (sides.ids, sides.count) == (("A", "B"), 8)
    assert len(cut_rows(fitted)) == 5


def test_sizes_in_the_list_are_the_model_s_own_numbers() -> None:
    _, fitted = job_of(fitting("A"))
    table = cut_list(fitted, Shown())
    assert [row[3:6] for row in table.rows] == [
        (p.length, p.width, p.thickness) for p in fitted.drawers[0].parts
    ]


def test_inches_are_extra_columns_of_fractions() -> None:
    _, fitted = job_of(fitting("A"))
    table = cut_list(fitted, Shown("both"))
    headings = [column.heading for column in table.columns]
    row = dict(zip(headings, table.rows[0], strict=True))
    assert (row["Length, mm"], row["Length, in"]) == (500.0, "19 11/16")
    assert "Length, in" not in [column.heading for column in cut_list(fitted, Shown()).columns]


def test_a_back_says_how_it_is_notched_and_bored() -> None:
    _, fitted = job_of(fitting("A"))
    back = next(row for row in cut_rows(fitted) if row.part.part == "back")
    assert back.work == (
        "groove 6 wide, 6 deep, 13 above the lower edge; notches 35 × 13 at the lower corners;"
        " hook bores Ø 6, 10 deep, 7 from each end, 24 up"
    )


def test_a_pair_of_slides_brings_a_left_and_a_right_bracket_and_spacers_for_both() -> None:
    found = counts(fitting("A", quantity=2))
    assert found["slide", 500.0, ""] == 2
    assert found["locking bracket", None, "L"] == found["locking bracket", None, "R"] == 2
    assert found["spacer", 3.0, ""] == 4


def test_screws_are_counted_by_their_holes() -> None:
    found = counts(fitting("A"))
    assert found["screw, member to cabinet", None, ""] == 2 * (5 + 1)
    assert found["screw, locking bracket", None, ""] == 2 * len(FAMILY.bracket_holes)


def test_spacers_on_both_faces_and_two_on_one_are_all_counted() -> None:
    one = fitting("A")
    stacked = replace(one, slide=ChosenSlide(FAMILY, FAMILY.lengths[0], "side", (3.0, 3.0), (3.0,)))
    assert counts(stacked)["spacer", 3.0, ""] + 0 == 2
    _, fitted = job_of(stacked)
    assert sum(row.used for row in hardware_rows(fitted) if row.item.name == "spacer") == 6


def test_rear_brackets_are_handed_and_packing_is_by_thickness() -> None:
    one = fitting("A")
    assert one.mounting is not None
    framed = replace(one, mounting=replace(one.mounting, rear_bracket_left=52.0, rear_bracket_right=55.0))
    packed = replace(one, mounting=replace(one.mounting, packing_left=38.0, packing_right=41.0))
    assert counts(framed)["rear bracket", None, "L"] == counts(framed)["rear bracket", None, "R"] == 1
    assert counts(packed)["packing", 38.0, "L"] == counts(packed)["packing", 41.0, "R"] == 1
    assert ("rear bracket", None, "L") not in counts(packed)


def _notes(*drawers: FittedDrawer) -> dict[str, tuple[int, str]]:
    return {row.item.name: (row.used, row.item.note) for row in hardware_rows(job_of(*drawers)[1])}


def _on_rear_brackets(screws: int | None, **told: object) -> FittedDrawer:
    one = fitting("A", quantity=2, **told)
    assert one.mounting is not None
    family = FAMILY.model_copy(update={"rear_bracket": RearBracket(screws=screws)})
    mounting = replace(one.mounting, rear_bracket_left=52.0, rear_bracket_right=55.0, holes=(), slots=())
    return replace(
        one, slide=ChosenSlide(family, family.lengths[0], "rear-bracket", (), ()), mounting=mounting
    )


def test_screws_of_rear_brackets_are_those_that_the_family_tells() -> None:
    assert _notes(_on_rear_brackets(3))["screw, rear bracket"] == (
        2 * 2 * 3,
        "3 a bracket, as the slide family tells",
    )


def test_rear_brackets_whose_family_tells_no_screws_take_two_by_common_practice() -> None:
    used, note = _notes(_on_rear_brackets(None))["screw, rear bracket"]
    assert used == 2 * 2 * 2
    assert "common practice, no source" in note


def test_members_on_rear_brackets_have_one_screw_each_at_the_front_into_what_is_there() -> None:
    frame = {"left": 38, "right": 41, "thickness": 19}
    framed = _notes(_on_rear_brackets(None, construction="face-frame", frame=frame))
    assert framed["screw, member's front end"] == (
        4,
        "one at the front end of each member, into the face frame",
    )
    assert "cabinet side" in _notes(_on_rear_brackets(None))["screw, member's front end"][1]
    assert "screw, member's front end" not in _notes(fitting("A"))


@pytest.mark.parametrize(
    ("length", "screws"), [(60.0, 1), (100.0, 1), (101.0, 2), (300.0, 2), (301.0, 3), (500.0, 3), (550.0, 4)]
)
def test_packing_is_screwed_50_from_its_ends_and_at_most_200_apart(length: float, screws: int) -> None:
    """Common practice, no source: 500 long leaves 400 between the outer two, and one halfway."""
    assert packing_screws(length) == screws


def test_screws_of_packing_are_counted_by_the_strips_of_the_cut_list_for_each_thickness() -> None:
    """500 long: 3 a strip; a rear piece of 60 long and 3 thick has one, and there are two of them."""
    one = fitting("A")
    strips = (
        Part("packing left", 1, 500.0, 20.0, 38.0, "length"),
        Part("packing right", 1, 500.0, 20.0, 41.0, "length"),
        Part("rear packing left", 1, 60.0, 20.0, 3.0, "length"),
        Part("rear packing right", 1, 60.0, 20.0, 3.0, "length"),
    )
    rows = hardware_rows(job_of(replace(one, parts=(*one.parts, *strips)))[1])
    found = [(row.used, row.item.note.partition(":")[0]) for row in rows if row.item.name == "screw, packing"]
    assert found == [
        (3, "through packing of 38 mm"),
        (3, "through packing of 41 mm"),
        (2, "through packing of 3 mm"),
    ]
    assert not any(name == "screw, packing" for name, _, _ in counts(one))


def test_slides_at_the_sides_of_the_box_come_without_brackets_and_hooks() -> None:
    beside = FAMILY.model_copy(update={"carriage": "side-mounted"})
    one = replace(fitting("A"), slide=ChosenSlide(beside, beside.lengths[0], "side", (), ()))
    names = {name for name, _, _ in counts(one)}
    assert names == {"slide", "screw, member to cabinet"}
    notes = {row.part.part: row.work for row in cut_rows(job_of(one)[1])}
    assert "hook" not in notes["back"]


def test_a_drawer_that_does_not_fit_wants_no_parts_and_no_hardware() -> None:
    _, fitted = job_of(not_fitting("A"))
    assert cut_list(fitted, Shown()).rows == ()
    assert hardware_list(fitted, Shown("both")).rows == ()


def test_slides_come_first_and_sizes_stay_numbers() -> None:
    _, fitted = job_of(fitting("A"))
    table = hardware_list(fitted, Shown("both"))
    assert table.rows[0][:4] == ("slide", "plain-16", 500.0, "19 11/16")


INCHES = st.sampled_from([Shown("in"), Shown("both"), Shown("in", 64)])


def in_mm(text: str) -> float:
    pieces = (piece.split("/") for piece in text.split())
    return 25.4 * sum(int(one[0]) / int(one[1]) if len(one) > 1 else int(one[0]) for one in pieces)


@given(st.floats(60.0, 1200.0), INCHES)
def test_a_part_is_never_told_larger_in_inches_than_it_may_be(length: float, shown: Shown) -> None:
    told = in_mm(inches_down(length, shown))
    assert length - 25.4 / shown.parts - 1e-3 < told <= length + 1e-3


@given(st.integers(1, 2000), INCHES)
def test_a_length_on_a_step_of_the_rule_keeps_it(steps: int, shown: Shown) -> None:
    assert in_mm(inches_down(steps * 25.4 / shown.parts, shown)) == pytest.approx(steps * 25.4 / shown.parts)


def test_the_list_says_how_its_inches_are_rounded() -> None:
    _, fitted = job_of(fitting("A"))
    assert any("rounded down to 1/64" in one for one in cut_list(fitted, Shown("in", 64)).remarks)
    assert not any("rounded" in one for one in cut_list(fitted, Shown()).remarks)


def banded() -> FittedDrawer:
    one = fitting("A")
    front = Part("front", 1, 594.0, 182.5, 19.0, "length", ("top", "bottom", "left", "right"), 1.0)
    side = Part("side", 2, 500.0, 140.0, 16.0, "length", ("top",), 0.5)
    return replace(one, parts=(side, front))


def test_a_banded_part_has_its_finished_and_its_saw_size() -> None:
    _, fitted = job_of(banded())
    table = cut_list(fitted, Shown("both"))
    headings = [column.heading for column in table.columns]
    side, front = (dict(zip(headings, row, strict=True)) for row in table.rows)
    assert (side["Banded edges"], side["Saw length, mm"], side["Saw width, mm"]) == (
        "upper edge",
        500.0,
        139.5,
    )
    assert (front["Banded edges"], front["Saw length, mm"], front["Saw width, mm"]) == (
        "all round",
        592.0,
        180.5,
    )
    assert in_mm(str(front["Saw length, in"])) <= 592.0
    assert any("banding goes on" in remark for remark in table.remarks)


def test_a_list_without_banding_has_no_columns_for_it() -> None:
    headings = [column.heading for column in cut_list(job_of(fitting("A"))[1], Shown()).columns]
    assert not any("Saw" in heading or "Band" in heading for heading in headings)


def test_parts_of_different_stuff_are_different_rows_and_name_it() -> None:
    birch = fitting("A", materials={"side": "birch-16"})
    _, fitted = job_of(birch, fitting("B"))
    table = cut_list(fitted, Shown())
    column = [one.heading for one in table.columns].index("Material")
    sides = [(row[0], row[column]) for row in table.rows if row[1] == "side"]
    assert sides == [("A", "birch-16"), ("B", "")]


def test_screws_have_spares_and_nothing_else_has() -> None:
    rows = {row.item.name: row for row in hardware_rows(job_of(fitting("A", quantity=10))[1])}
    assert (rows["screw, member to cabinet"].used, rows["screw, member to cabinet"].spare) == (120, 6)
    assert (rows["screw, locking bracket"].used, rows["screw, locking bracket"].spare) == (60, 3)
    assert rows["slide"].spare == rows["locking bracket"].spare == 0
    few = {row.item.name: row for row in hardware_rows(job_of(fitting("A"))[1])}
    assert few["screw, locking bracket"].spare == 2


def test_what_lies_in_the_bracket_bag_is_counted_and_not_ordered() -> None:
    spacers = next(row for row in hardware_rows(job_of(fitting("A"))[1]) if row.item.name == "spacer")
    assert (spacers.used, spacers.ordered, spacers.item.supply) == (2, 0, "with the brackets")
    brackets = [row for row in hardware_rows(job_of(fitting("A"))[1]) if row.item.name == "locking bracket"]
    assert [(row.item.hand, row.ordered) for row in brackets] == [("L", 1), ("R", 1)]


def sold(price: float | None, carton: int | None, quantity: int) -> FittedDrawer:
    length = FAMILY.lengths[0].model_copy(update={"price": price})
    family = FAMILY.model_copy(update={"carton": carton, "lengths": (length,)})
    return replace(fitting("A", quantity=quantity), slide=ChosenSlide(family, length, "side", (), (3.0,)))


@pytest.mark.parametrize(
    ("quantity", "carton", "cartons", "ordered"),
    [(1, 10, 1, 10), (10, 10, 1, 10), (11, 10, 2, 20), (11, None, None, 11)],
)
def test_an_order_is_rounded_up_to_whole_cartons(
    quantity: int, carton: int | None, cartons: int | None, ordered: int
) -> None:
    slides = hardware_rows(job_of(sold(28.0, carton, quantity))[1])[0]
    assert (slides.cartons, slides.ordered, slides.price) == (cartons, ordered, 28.0 * ordered)


def test_the_total_is_the_sum_of_what_has_a_price_and_stands_last() -> None:
    _, fitted = job_of(sold(28.0, None, 3))
    table = hardware_list(fitted, Shown())
    assert total_price(hardware_rows(fitted)) == 84.0
    price = [column.heading for column in table.columns].index("Price")
    assert (table.rows[-1][0], table.rows[-1][price]) == ("total", 84.0)
    _, unpriced = job_of(sold(None, None, 3))
    assert total_price(hardware_rows(unpriced)) is None
    assert "Price" not in [column.heading for column in hardware_list(unpriced, Shown()).columns]


def test_a_front_wants_its_screws_and_its_handle() -> None:
    one = fitting("A", front={"style": "overlay", "handle": {"spacing": 128}})
    fixing = FrontFixing(
        holes=((-100.0, 40.0), (100.0, 40.0)), holes_in_front=((-100.0, 56.0), (100.0, 56.0)),
        handle=((-64.0, 91.0), (64.0, 91.0)), handle_bore=5.0, longest_screw=27.7, low_by=1.5, deep_by=2.0,
        room_up=1.5, room_down=1.5, room_out=2.0, room_in=2.0,
    )  # fmt: skip
    found = {row.item.name: row for row in hardware_rows(job_of(replace(one, fixing=fixing))[1])}
    assert found["screw, front to subfront"].used == 2
    assert found["screw, front to subfront"].item.note == "no longer than 27.7 mm"
    assert (found["handle"].item.size, found["handle"].used) == (128.0, 1)


def test_the_list_states_what_its_screws_and_spares_stand_on() -> None:
    told = " ".join(hardware_list(job_of(fitting("A"))[1], Shown()).remarks)
    assert "one in each round hole and each slot" in told
    assert "5%" in told
    assert "at least 2" in told
