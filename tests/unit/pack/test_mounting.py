"""The mounting sheet: steps in the order of work, and a row for each drawer."""

from __future__ import annotations

import io
from dataclasses import replace

import pdfplumber
import pytest
from pack_builders import FAMILY, fitting, job_of, not_fitting

from drawerwright.model.family import Heights
from drawerwright.model.fitted import ChosenSlide, FittedDrawer, FittedJob, FrontFixing
from drawerwright.pack.cautions import cautions, cautions_for
from drawerwright.pack.mounting_sheet import fronts_text, mounting_files, rows_of, steps_of, ticks_of
from drawerwright.pack.papers import papers
from drawerwright.pack.shown import Shown

MM = Shown()


def fixed(one: FittedDrawer, low: float = 1.5, deep: float = 2.0) -> FittedDrawer:
    places = ((-100.0, 40.0), (100.0, 40.0))
    fixing = FrontFixing(places, places, (), 0.0, 31.0, low, deep, 1.5, 1.5, 2.0, 2.0)
    return replace(one, fixing=fixing)


def text_of(fitted: FittedJob, shown: Shown = MM) -> str:
    ((name, content),) = mounting_files(fitted, papers()["a4"], shown)
    assert name == "mounting.pdf"
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in pdf.pages)


def test_steps_are_in_the_order_of_work() -> None:
    titles = [step["title"] for step in steps_of(job_of(fixed(fitting()))[1])]
    assert titles == [
        "Shipping blocks out", "Cover the slides", "Measure and mark", "Slots first", "Set the front ends",
        "Lock them", "Hang the drawer", "Click, then tug, both sides", "Fix the front", "Adjust", "Load",
    ]  # fmt: skip


def test_a_job_without_a_front_that_is_screwed_on_has_no_step_for_fixing_it() -> None:
    assert "Fix the front" not in [step["title"] for step in steps_of(job_of(fitting())[1])]


def _beside(name: str = "S") -> FittedDrawer:
    beside = FAMILY.model_copy(update={"carriage": "side-mounted", "heights": Heights(screw_line=25.0)})
    return replace(fitting(name), slide=ChosenSlide(beside, beside.lengths[0], "side", (), ()))


@pytest.mark.parametrize("alone", [False, True])
def test_slides_beside_the_box_are_told_without_brackets_hooks_clicks_and_spacers(alone: bool) -> None:
    steps = steps_of(job_of(_beside())[1], alone=alone)
    assert [step["title"] for step in steps][-6:] == [
        "Lock them", "Members onto the box sides", "Slide the drawer in", "Tug at its stop, both sides",
        "Adjust in the slots", "Load",
    ]  # fmt: skip
    words = " ".join(step["title"] + step["says"] for step in steps).lower()
    assert [
        word for word in ("bracket", "hook", "click", "spacer", "{", "slides beside") if word in words
    ] == []


def test_a_job_of_both_kinds_of_slides_says_each_step_for_its_own() -> None:
    steps = {step["title"]: step["says"] for step in steps_of(job_of(fitting(), _beside())[1])}
    assert steps["Hang the drawer"].startswith("Slides under the box. ")
    assert steps["Slide the drawer in"].startswith("Slides beside the box. ")
    assert "Slides" not in steps["Lock them"]


def test_fronts_are_fixed_in_a_step_of_its_own_before_anything_is_adjusted() -> None:
    steps = {step["title"]: step["says"] for step in steps_of(job_of(fixed(fitting()), _beside())[1])}
    assert "on shims, 1.5 mm low, even left and right" in steps["Fix the front"]
    assert "depth stop" in steps["Fix the front"]
    assert list(steps).index("Fix the front") < list(steps).index("Adjust")
    assert "mm low" not in steps["Adjust"] + steps["Adjust in the slots"]


def test_a_row_of_a_slide_beside_the_box_tells_its_height_on_the_box_side() -> None:
    headings, (row, other) = rows_of([_beside(), fitting("B")], MM)
    at = [one["name"] for one in headings].index("On the box side")
    assert (row["cells"][at], other["cells"][at]) == ("25 up", "")
    assert "On the box side" not in [one["name"] for one in rows_of([fitting("B")], MM)[0]]


def test_cautions_speak_of_locking_brackets_only_where_there_are_some() -> None:
    said = {
        kind: [one.title for one in cautions_for(of)]
        for kind, of in (("beside", [_beside()]), ("under", [fitting()]), ("both", [_beside(), fitting()]))
    }
    assert "Locking brackets" not in said["beside"]
    assert "Locking brackets" in said["under"]
    assert said["both"] == said["under"] == [one.title for one in cautions()]
    assert len(said["beside"]) == len(said["both"]) - 1


def test_what_is_caught_beside_the_box_is_ticked_in_its_own_words() -> None:
    assert ticks_of([_beside()])[2:4] == ["Caught L", "Caught R"]
    assert ticks_of([_beside(), fitting("B")])[2:4] == ticks_of([])[2:4] == ["Click L", "Click R"]
    assert "25 up" in text_of(job_of(_beside())[1])
    assert "Caught L" in text_of(job_of(_beside())[1])


def test_packing_and_rear_brackets_are_a_step_only_where_a_drawer_has_them() -> None:
    one = fitting()
    assert one.mounting is not None
    packed = replace(one, mounting=replace(one.mounting, packing_left=38.0, packing_right=41.0))
    titles = [step["title"] for step in steps_of(job_of(fitting("B"), packed)[1])]
    assert titles.index("Packing and rear brackets") == titles.index("Slots first") - 1


def test_fronts_are_set_low_alike_or_each_as_the_table_says() -> None:
    assert fronts_text([fixed(fitting())]) == "1.5 mm low"
    assert fronts_text([fixed(fitting(), 0.0)]) == "even with their gaps"
    assert fronts_text([fixed(fitting()), fixed(fitting("B"), 1.0)]) == "as low as the table says"
    assert fronts_text([fitting()]) == ""


def test_a_row_tells_what_the_installer_measures() -> None:
    headings, (row,) = rows_of([fixed(fitting("B1-1"))], MM)
    told = dict(zip([one["name"] for one in headings], row["cells"], strict=True))
    assert told == {
        "Front end": "2",
        "Screw line": "24",
        "Slots first": "53",
        "Round holes": "37, 69, 261, 293, 453",
        "Packing, rear brackets, spacers": "spacers 3 mm at the subfront",
        "Front fixed": "1.5 low",
        "Most inside, kg": "37.6",
    }


def test_the_two_hands_of_packing_and_rear_brackets_are_both_told() -> None:
    one = fitting()
    assert one.mounting is not None
    framed = replace(
        one.mounting, holes=(), holes_from_side_edge=(), rear_bracket_left=52.0, rear_bracket_right=55.0,
        rear_bracket_height=24.0, packing_left=38.0, packing_right=41.0,
    )  # fmt: skip
    headings, (row,) = rows_of([replace(one, mounting=framed)], MM)
    told = dict(zip([one["name"] for one in headings], row["cells"], strict=True))
    assert told["Packing, rear brackets, spacers"].startswith(
        "packing L 38, R 41, member's screws into the packing alone; rear brackets L 52, R 55, 24 up"
    )
    assert "Round holes" not in told


def test_every_drawer_that_is_built_has_its_own_boxes_to_tick() -> None:
    _, rows = rows_of([fitting("A", quantity=3), not_fitting("B")], MM)
    assert [(row["id"], row["of"]) for row in rows] == [("A", "1 of 3"), ("A", "2 of 3"), ("A", "3 of 3")]


def test_the_sheet_carries_the_cautions_of_whoever_mounts() -> None:
    text = text_of(job_of(fixed(fitting("B1-1")))[1])
    for word in ("pinch", "Anchor", "wiring", "structure", "Local codes", "licensed", "at each side"):
        assert word in text
    assert "37, 69, 261, 293, 453" in text


def test_a_job_in_which_nothing_fits_says_so() -> None:
    assert "there is nothing to mount" in text_of(job_of(not_fitting("A"))[1])
