"""What the sheets say, before they are set; and that they can be set whatever they say."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import Any

import pdfplumber
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pack_builders import FAMILY, checks, fitting, job_of, not_fitting

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.model.check_names import check_name
from drawerwright.model.fitted import Check, ChosenSlide, FittedDrawer, FittedJob, Latch, Rejected, Working
from drawerwright.pack.beside import in_order_of_care, short_ids, tried_rows
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.drawer_page import page_data
from drawerwright.pack.figures import change_text, margin_text
from drawerwright.pack.free_corner import free_corner
from drawerwright.pack.job_sheet import reason
from drawerwright.pack.layout import Layout
from drawerwright.pack.main_workings import main_workings, told_working
from drawerwright.pack.measured import measured_fields
from drawerwright.pack.papers import PaperName, papers
from drawerwright.pack.sheets import sheets_data
from drawerwright.pack.shown import Shown
from drawerwright.pack.typeset import TypesettingError, set_document
from drawerwright.units import ShownUnits


def sheets(fitted: FittedJob, paper: PaperName = "a4", units: ShownUnits = "mm") -> bytes:
    layout = Layout(papers()[paper])
    return set_document("sheets", sheets_data(fitted, distinct_drawers(fitted), layout, Shown(units)))


def text_of(fitted: FittedJob, **options: Any) -> list[str]:
    paper, units = options.get("paper", "a4"), options.get("units", "mm")
    with pdfplumber.open(io.BytesIO(sheets(fitted, paper, units))) as pdf:
        if "in_order" in options:
            return ["".join(char["text"] for char in page.chars) for page in pdf.pages]
        return [page.extract_text() for page in pdf.pages]


def test_what_stops_comes_first_then_what_wants_care() -> None:
    told = checks({"capacity": "stop", "opening-taper": "watch"})
    assert [check.id for check in in_order_of_care(told)][:3] == [
        "capacity",
        "opening-taper",
        "side-thickness",
    ]


def test_the_reason_on_the_job_sheet_is_the_first_care_and_counts_the_rest() -> None:
    one = replace(fitting(), checks=checks({"opening-taper": "watch", "mount": "watch"}))
    assert reason(one, Shown()) == (
        "Taper 0.5 mm: readings 562 and 561.5: say which is at the front (and 1 more)"
    )


def test_a_very_long_reason_is_cut_at_a_word() -> None:
    long = Check("mount", "watch", 1.0, "mm", "word " * 60, "", "")
    told = reason(replace(fitting(), checks=(long, long)), Shown())
    assert len(told) <= 180
    assert told.endswith("word… (and 1 more)")


def test_margins_carry_their_unit_and_never_a_negative_nothing() -> None:
    assert margin_text(-25.0, "mm", Shown()) == "−25.0 mm"
    assert margin_text(-1e-7, "mm", Shown()) == "0.0 mm"
    assert margin_text(25.4, "mm", Shown("in")) == "1 in"
    assert margin_text(17.6, "kg", Shown()) == "17.6 kg"
    assert margin_text(-0.4, "", Shown()) == "−0.4"


@given(st.floats(-50.0, 50.0), st.sampled_from([Shown(), Shown("in"), Shown("in", 64)]))
def test_a_margin_is_never_shown_larger_than_it_is(margin: float, shown: Shown) -> None:
    told = margin_text(margin, "mm", shown).replace("−", "-")
    number, _, unit = told.rpartition(" ")
    assert unit == ("in" if shown.in_inches and abs(margin) >= 25.4 / 8 else "mm")
    in_mm = length_of(number) * (25.4 if unit == "in" else 1.0)
    assert in_mm <= margin + 1e-3
    assert in_mm > margin - (25.4 / shown.parts if unit == "in" else 0.1) - 1e-3


def length_of(number: str) -> float:
    """A number such as `-1 3/32` or `2.5`."""
    sign = -1.0 if number.startswith("-") else 1.0
    return sign * sum(
        int(piece.split("/")[0]) / int(piece.split("/")[1]) if "/" in piece else float(piece)
        for piece in number.removeprefix("-").split()
    )


def test_what_an_input_has_to_change_by_is_never_shown_too_small() -> None:
    assert change_text(16.01, "mm", Shown()) == "+16.1 mm"
    assert change_text(16.0, "mm", Shown("in")) == "+21/32 in"
    assert change_text(-16.0, "mm", Shown("in", 64)) == "−41/64 in"


def test_ids_that_find_no_room_are_counted() -> None:
    assert short_ids(("A", "B")) == "A, B"
    assert short_ids(tuple(f"Drawer-{n}" for n in range(9))) == "Drawer-0, Drawer-1 and 7 more"
    assert short_ids(("X" * 60,)) == "X" * 60


def test_bore_and_pilot_holes_move_with_the_seat_when_a_spacer_stands_against_the_side() -> None:
    one = replace(
        fitting(),
        slide=ChosenSlide(FAMILY, FAMILY.lengths[0], "side", (3.0,), ()),
        latch=Latch(0.3, 0.0),
    )
    told = dict(bore_rows(one, Shown()))
    assert told["Notches in the back, both corners"] == "38.3 wide, 13 high"
    assert told["Spacers, bracket to box side"] == "3 mm, left and right"
    assert told["Bracket pilots at 75°: from the side, back from the subfront"] == "15, 9; 31, 9; 15, 25"


def test_a_face_frame_gives_depths_from_the_frame_and_from_the_side_s_edge() -> None:
    one = fitting(construction="face-frame", frame={"left": 38, "right": 41, "thickness": 19})
    assert one.mounting is not None
    holes = tuple(hole - 19 for hole in one.mounting.holes)
    told = dict(bore_rows(replace(one, mounting=replace(one.mounting, holes_from_side_edge=holes)), Shown()))
    assert told["Holes, depth from the frame's face"] == "37, 69, 261, 293, 453"
    assert told["Holes, from the side's front edge"] == "18, 50, 242, 274, 434"


def test_a_drawer_that_does_not_fit_has_nothing_to_bore() -> None:
    assert bore_rows(not_fitting(), Shown()) == ()


def test_measured_fields_are_as_they_were_told() -> None:
    fields = {field["name"]: field for field in measured_fields(fitting(side=15.875), Shown())}
    assert fields["Opening width"]["value"] == "562, 561.5"
    assert fields["Sides"]["value"] == "15.875"
    both = {field["name"]: field for field in measured_fields(fitting(), Shown("both"))}
    assert both["Depth"] == {"name": "Depth", "value": "530", "unit": "mm (20 7/8 in)"}


def test_what_was_tried_is_one_row_a_family_with_the_slide_that_lacks_least() -> None:
    shallow = not_fitting().rejected
    twice = Rejected(
        "plain-16", 250.0, "packed", "cabinet-depth", -1.0, "mm",
        (("cabinet-depth", -1.0, "mm"), ("capacity", -9.0, "kg")),
    )  # fmt: skip
    heavy = Rejected("other", 300.0, "side", "capacity", -6.0, "kg", (("capacity", -6.0, "kg"),))
    rows = tried_rows((*shallow, twice, heavy), Shown())
    assert [(row["slide"], row["because"], row["lengths"]) for row in rows] == [
        ("plain-16 / 300", "on the cabinet side: depth", "−65.0 mm"),
        ("other / 300", "on the cabinet side: capacity", "−6.0 kg"),
    ]
    (only,) = tried_rows([twice], Shown())
    assert only["because"] == "on packing: depth and 1 more"


def test_the_next_longer_slide_says_why_it_was_not_taken() -> None:
    longer = Rejected(
        "plain-16", 550.0, "side", "cabinet-depth", -25.0, "mm", (("cabinet-depth", -25.0, "mm"),)
    )
    longest = replace(longer, nominal=600.0, margin=-75.0)
    (alike,) = distinct_drawers(job_of(replace(fitting(), rejected=(longest, longer)))[1])
    data = page_data(
        alike, (drawer_sheet(alike.first, 190, 150), Shown()), "sheet-1", Layout(papers()["a4"]), Shown()
    )
    last = next(group for group in data["beside"] if group["title"] == "Why not longer")["rows"][0]
    assert (last["name"], last["margin"], last["state"]) == ("Slide 550", "−25.0 mm", "stop")


def test_workings_are_those_of_the_answer() -> None:
    assert main_workings(fitting()) == [
        ("Inside", "561.5 − 42 = 519.5"),
        ("Outside", "519.5 + 2 × 16 = 551.5"),
        ("Gap, each side", "(561.5 − 551.5) / 2 = 5"),
    ]


def test_a_quantity_that_only_hands_on_another_shows_the_other_s_working() -> None:
    seat = Working("seat_width", "mm", 519.5, "", "", "561.5 − 42 = 519.5 mm", (), "")
    inside = Working(
        "inside_width", "mm", 519.5, "", "", "519.5 = 519.5 mm", (("seat_width", 519.5, "mm", ""),), ""
    )
    assert told_working("inside_width", {"inside_width": inside, "seat_width": seat}) == seat
    assert told_working("inside_width", {"inside_width": inside}) == inside
    assert told_working("inside_width", {}) is None


def test_nothing_is_drawn_in_the_free_corner() -> None:
    scene = drawer_sheet(fitting(), 190.0, 150.0)
    assert scene.page is not None
    corner = free_corner(drawn(scene), scene.page, 60.0)
    assert corner.width >= 60.0
    assert corner.height > 40.0
    assert (corner.right, corner.top) == (scene.page.right, scene.page.top)
    for primitive in scene.primitives:
        for x, y in primitive.points:
            assert x <= corner.left + 1e-9 or y <= corner.bottom + 1e-9


def test_a_drawing_that_leaves_no_white_gives_an_empty_corner() -> None:
    scene = drawer_sheet(fitting(), 190.0, 150.0)
    assert scene.page is not None
    corner = free_corner(drawn(scene), scene.page, 191.0)
    assert (corner.width, corner.height) == (0.0, 0.0)


def crowded() -> FittedDrawer:
    holes = tuple(37.0 + 32 * n for n in range(12))
    one = fitting("Pantry-left-lower-with-a-long-name", note="word " * 400 + "the end")
    assert one.mounting is not None
    mounting = replace(
        one.mounting, holes=holes, holes_from_side_edge=tuple(hole - 19 for hole in holes),
        packing_left=38.0, packing_right=41.0, rear_bracket_left=52.0, rear_bracket_right=55.0,
        rear_bracket_height=24.0, reach=9.0,
    )  # fmt: skip
    return replace(one, mounting=mounting, checks=one.checks + one.checks)


def full() -> FittedDrawer:
    """As many checks, with fractions in their sentences, as one column just holds."""
    says = "The gap is 5/16 in each side where 23 15/32 in is measured; the slide wants 3/16 in of it."
    return replace(fitting("full"), checks=tuple(replace(check, says=says) for check in checks()))


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_what_finds_no_room_goes_overleaf_and_nothing_is_lost(paper: str, units: str) -> None:
    _, fitted = job_of(crowded())
    pages = text_of(fitted, paper=paper, units=units, in_order="yes")
    text = "".join("".join(pages[1:]).split())
    assert "overleaf" in pages[1]
    assert text.count("wordtheend") == 1
    assert text.count("word") == 400
    for check in crowded().checks:
        told = check.says if check.state != "ok" else check_name(check.id)
        assert text.count("".join(told.split())) >= 2
    for name, _ in bore_rows(crowded(), Shown()):
        assert "".join(name.split()) in text


@pytest.mark.parametrize("units", ["mm", "in", "both"])
def test_no_lettering_leaves_its_room_on_a_crowded_page(units: ShownUnits) -> None:
    _, fitted = job_of(crowded(), *(fitting(f"A-rather-long-id-{n:02d}") for n in range(40)), full())
    with pdfplumber.open(io.BytesIO(sheets(fitted, units=units))) as pdf:
        for page in pdf.pages:
            mm = 25.4 / 72
            for char in page.chars:
                assert char["x0"] * mm > 8.0
                assert char["x1"] * mm < 289.0
                assert char["top"] * mm > 8.0
                assert char["bottom"] * mm < 202.5
                assert not char["top"] * mm < 186.5 < char["bottom"] * mm


def test_forty_drawers_are_all_listed_with_their_sheet() -> None:
    _, fitted = job_of(*(fitting(f"D-{n:02d}", quantity=1 + n % 2) for n in range(40)), not_fitting("last"))
    pages = text_of(fitted)
    listed = [line for page in pages[:2] for line in page.splitlines() if line.startswith(("D-", "last"))]
    assert len(listed) == 41
    assert all(line.endswith(" 3") for line in listed[:40])
    assert listed[40].endswith(" 4")
    assert "Drawers" in pages[0]


def test_letters_that_the_lettering_lacks_are_owned_up_to() -> None:
    _, fitted = job_of(fitting("抽屉", note="Ключ"), title="Küche")
    first = text_of(fitted)[0]
    assert "Letters that these sheets lack stand as ?" in first
    assert "Küche" in first
    assert "Letters that these" not in text_of(job_of(fitting("what?"))[1])[0]


@settings(max_examples=6, suppress_health_check=[HealthCheck.too_slow])
@given(st.text(min_size=1, max_size=80), st.text(max_size=200))
def test_any_title_and_note_can_be_set_and_none_is_read_as_code(title: str, note: str) -> None:
    one = fitting("B1-1")
    told = one.drawer.model_copy(update={"note": note})
    _, fitted = job_of(one)
    pages = text_of(FittedJob(title, (replace(fitted.drawers[0], drawer=told),)))
    assert len(pages) >= 2


def test_typst_s_own_signs_in_a_title_stay_signs() -> None:
    _, fitted = job_of(fitting("B1-1"), title='#panic("x") $x$ *b* [y] <z> @w')
    assert '#panic("x") $x$ *b* [y] <z> @w' in text_of(fitted)[0]


def test_a_fault_of_the_sheets_is_an_error_of_ours() -> None:
    with pytest.raises(TypesettingError, match="could not be set"):
        set_document("sheets", {"job": "no more"})
