"""Joints, grooves and banding of parts in words; how a front is fixed and set."""

from __future__ import annotations

import io
import re
from importlib.resources import as_file
from importlib.resources import files as package_files
from typing import Any

import pdfplumber
import pytest

from drawerwright import cli
from drawerwright.catalogue import families_from_mappings, load_families
from drawerwright.files import job_from_mapping, read_job
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer, Part
from drawerwright.pack import pack_contents
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.front_rows import front_rows, places_text
from drawerwright.pack.hardware_items import items_of
from drawerwright.pack.mounting_sheet import rows_of
from drawerwright.pack.packing import packing_screws_text
from drawerwright.pack.part_work import edges_text, joint_words, part_work
from drawerwright.pack.shown import Shown

FAMILY = {
    "id": "plain-16",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500, "holes": [0, 32, 224]}],
}


def fitted(**keys: Any) -> FittedDrawer:
    told = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16, **keys}
    (drawer,) = fit_job(job_from_mapping({"drawer": [told]}), families_from_mappings([FAMILY])).drawers
    assert drawer.slide is not None
    return drawer


def test_hook_bores_are_told_from_the_ends_of_the_back_as_on_the_cut_list() -> None:
    """Sides of 12.7 sized by the outside stand 3.3 further out: 7 from the seat are 10.3 from the end."""
    drawer = fitted(side=12.7, size_from="outside")
    (told,) = [value for name, value in bore_rows(drawer, Shown()) if name == "Hook bores in the back"]
    assert told == "Ø 6, 10 deep; 10.3 from each end of the back, 11 above the bottom's underside"
    assert "10.3 from each end" in work(drawer)["back"]
    let_in = fitted(box={"joint": "rabbet"})
    (told,) = [value for name, value in bore_rows(let_in, Shown()) if name == "Hook bores in the back"]
    assert "15 from each end of the back" in told
    assert "15 from each end" in work(let_in)["back"]


def test_no_length_in_mm_reads_as_inches() -> None:
    """A figure and "in" after it are inches to whoever reads them: inwards is said in other words."""
    for keys in ({}, {"side": 12.7}, {"front": {"style": "inset"}}, {"lost": {"left": 12, "right": 0}}):
        drawer = fitted(**keys)
        rows = [*bore_rows(drawer, Shown()), *front_rows(drawer, Shown())]
        said = [*(f"{name} {value}" for name, value in rows), *work(drawer).values()]
        said += [check.says + check.cure for check in drawer.checks]
        assert [one for one in said if re.search(r"\d in\b", one)] == []


@pytest.mark.parametrize("bottom", ["groove-4", "groove-3", "under"])
def test_a_bottom_in_grooves_wants_play_and_says_so(bottom: str) -> None:
    """Common practice, no source: the contract's part goes to the floor of its grooves."""
    drawer = fitted(box={"bottom": bottom})
    grooved = bottom != "under"
    assert ("take 0.5 to 1 mm off its length and width" in work(drawer)["bottom"]) == grooved
    assert ("Bottom" in dict(bore_rows(drawer, Shown()))) == grooved


def test_packing_is_told_where_it_stands_and_what_screws_it_wants() -> None:
    """20 high round a screw line of 24: 14 to 34 above the cabinet floor."""
    drawer = fitted(lost={"left": 12, "right": 0})
    told = dict(bore_rows(drawer, Shown()))["Packing behind the members"]
    where = "14 to 34 up, member's screws longer by it, into the cabinet side"
    assert told == f"left 12, right 0; {where}"
    headings, (row,) = rows_of([drawer], Shown())
    at = [one["name"] for one in headings].index("Packing, rear brackets, spacers")
    assert row["cells"][at] == f"packing L 12, R 0, {where}"
    assert "its middle on the screw line; member's screws longer by it" in work(drawer)["packing left"]
    notes = {item.name: item.note for item, _ in items_of(drawer)}
    assert notes["screw, member to cabinet"].startswith("through packing: member's screws longer")


def test_thick_packing_takes_the_screws_by_itself() -> None:
    assert packing_screws_text(38.0, 41.0) == "member's screws into the packing alone"
    assert packing_screws_text(38.0, 12.0).startswith("member's screws longer by it where it is under 16 mm")
    assert packing_screws_text(0.0, 0.0) == ""


def work(drawer: FittedDrawer) -> dict[str, str]:
    return {part.part: part_work(part, drawer) for part in drawer.parts}


@pytest.mark.parametrize(
    ("joint", "words", "side", "back"),
    [
        ("butt", "butt joints, screwed", "groove 6 wide", "groove 6 wide"),
        ("dowel", "dowel joints", "dowel holes at both ends", "dowel holes at both ends"),
        ("rabbet", "rabbets 8 deep in the ends of the sides", "rabbets 8 deep at both ends", "groove 6 wide"),
        ("dovetail", "half-blind dovetails", "at both ends", "half-blind sockets"),
    ],
)
def test_a_joint_is_told_on_the_parts_that_it_cuts(joint: str, words: str, side: str, back: str) -> None:
    drawer = fitted(box={"joint": joint})
    assert joint_words(drawer).startswith(words)
    assert side in work(drawer)["side"]
    assert back in work(drawer)["back"]


@pytest.mark.parametrize(
    ("bottom", "grooved", "told"),
    [
        ("groove-4", {"side", "subfront", "back"}, "into the grooves all round"),
        ("groove-3", {"side", "subfront"}, "into three grooves, screwed to the back"),
        ("under", set(), "screwed under the box"),
    ],
)
def test_grooves_are_where_the_bottom_lies(bottom: str, grooved: set[str], told: str) -> None:
    found = work(fitted(box={"bottom": bottom}))
    assert {part for part, words in found.items() if "groove 6 wide" in words} == grooved
    assert found["bottom"].split("; ")[0] == told


def test_edges_are_named_and_all_four_are_all_round() -> None:
    part = Part("front", 1, 600.0, 190.0, 19.0, "length", ("top", "left"), 1.0)
    assert edges_text(part) == "upper edge, left end"
    assert edges_text(
        Part("front", 1, 600.0, 190.0, 19.0, "length", ("top", "bottom", "left", "right"), 1.0)
    ) == ("all round")
    assert edges_text(Part("back", 1, 600.0, 190.0, 19.0, "length")) == ""


def test_places_that_lie_alike_to_both_hands_stand_once() -> None:
    assert places_text([(-200.0, 40.0), (-200.0, 90.0), (200.0, 40.0), (200.0, 90.0)], Shown()) == (
        "± 200 across; 40, 90 up"
    )
    assert places_text([(-200.0, 40.0), (0.0, 40.0), (200.0, 40.0)], Shown()) == "0, ± 200 across; 40 up"
    assert places_text([(0.0, 95.0)], Shown()) == "0 across; 95 up"
    assert places_text([(-198.0, 40.0), (202.0, 40.0)], Shown()).startswith("left 198, right 202")


def test_the_front_s_numbers_are_those_of_the_answer() -> None:
    drawer = fitted(front={"style": "overlay", "handle": {"spacing": 128}})
    fixing = drawer.fixing
    assert fixing is not None
    told = dict(front_rows(drawer, Shown()))
    assert told["Screws through the subfront"] == f"{len(fixing.holes)}, no longer than 31"
    assert told["Set the front"] == f"{fixing.low_by:g} low; its depth is where the members stand"
    assert told["Then the adjusters have"] == "1.5 up, 1.5 down, 4 out; nothing inwards"
    assert "± 64 across" in next(value for name, value in told.items() if name.startswith("Handle borings"))


def test_an_inset_front_is_told_its_shims_and_how_far_back_the_members_put_it() -> None:
    told = dict(front_rows(fitted(front={"style": "inset", "gap": 1}), Shown()))
    assert told["Set the front"] == "0.5 low, on shims of 0.5; its depth is where the members stand"
    back = families_from_mappings([{**FAMILY, "front_inset": 5}])
    drawer = {"id": "A", "opening": {"width": 562, "height": 168, "depth": 530}, "side": 16}
    job = job_from_mapping({"drawer": [{**drawer, "front": {"style": "inset"}}]})
    told = dict(front_rows(fit_job(job, back).drawers[0], Shown()))
    assert told["Set the front"] == "1.5 low, on shims of 1.5; the members put it 2 back of flush"
    assert told["Then the adjusters have"] == "1.5 up, 1.5 down, 2 out, 2 inwards"


def test_a_drawer_without_a_front_of_its_own_has_no_rows_for_it() -> None:
    assert front_rows(fitted(), Shown()) == ()


@pytest.mark.parametrize(("paper", "units"), [("a4", "mm"), ("a4", "in"), ("letter", "both")])
def test_every_drawer_of_the_demo_that_fits_has_one_page(paper: Any, units: Any) -> None:
    with as_file(package_files(cli).joinpath("demo.toml")) as path:
        job = read_job(path)
    answer = fit_job(job, load_families(None))
    content = pack_contents(job, answer, paper=paper, units=units, only=["sheets"])["sheets.pdf"]
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        drawn = [page for page in pdf.pages if "Drawn 1 :" in page.extract_text()]
        lists = [page for page in pdf.pages if "Job sheet" in page.extract_text()]
        assert len(drawn) == len(distinct_drawers(answer))
        left_over = [page for page in pdf.pages if page not in drawn and page not in lists]
        assert all("What was tried" in page.extract_text() for page in left_over)
