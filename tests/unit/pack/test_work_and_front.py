"""Joints, grooves and banding of parts in words; how a front is fixed and set."""

from __future__ import annotations

import io
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
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.front_rows import front_rows, places_text
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
    assert found["bottom"] == told


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
