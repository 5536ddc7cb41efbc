"""The lining-up sheet: a picture of each front, what its adjusters can do, the order of work."""

from __future__ import annotations

import io
from dataclasses import replace

import pdfplumber
import pytest
from pack_builders import fitting, job_of, not_fitting

from drawerwright.catalogue.families import family_named, load_families
from drawerwright.model.fitted import FittedDrawer, FittedJob, FrontSizes
from drawerwright.pack.lining_up import adjuster_rows, fronts_of, lining_up_files
from drawerwright.pack.papers import papers

FRONT = FrontSizes("overlay", 594.0, 200.0, 19.0, 16.0, 16.0, 16.0, 16.0, 1.0)


def with_front(name: str = "A", front: FrontSizes = FRONT) -> FittedDrawer:
    return replace(fitting(name), front=front)


def text_of(fitted: FittedJob, paper: str = "a4") -> tuple[str, int]:
    ((name, content),) = lining_up_files(fitted, papers()[paper])  # type: ignore[index]
    assert name == "lining-up.pdf"
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in pdf.pages), len(pdf.pages)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_four_fronts_have_a_page_each_with_its_adjusters(paper: str) -> None:
    drawers = [with_front(f"D{n}") for n in range(5)]
    told, pages = text_of(job_of(*drawers)[1], paper)
    assert pages == 2
    assert all(f"D{n}" in told for n in range(5))
    assert told.count("seen from the front") == 5
    assert "height 0 to 12, + up 0.25 mm" in told
    assert "side −6 to 6, + to the right 0.25 mm" in told
    assert told.count("Aim at gaps of 3 mm, alike") == 5
    assert "Left and right are as you stand in front" in told
    assert "Too large" not in told


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("width", "height"), [(200.0, 900.0), (1200.0, 90.0)])
def test_fronts_of_any_shape_find_room(paper: str, width: float, height: float) -> None:
    told, _ = text_of(job_of(with_front("A", replace(FRONT, width=width, height=height)))[1], paper)
    assert "Too large" not in told
    assert told.count("out") >= 4


def test_drawers_without_a_front_or_a_slide_have_none() -> None:
    bare = with_front("A", replace(FRONT, style="none"))
    fitted = job_of(bare, not_fitting("X"), with_front("B"))[1]
    assert [one.id for one in fronts_of(fitted)] == ["B"]
    told, _ = text_of(job_of(not_fitting("X"))[1])
    assert "there is nothing to line up" in told


def test_the_steps_are_in_the_order_of_work() -> None:
    told, _ = text_of(job_of(with_front())[1])
    places = [
        told.index(title) for title in ("1. Measure", "2. Note", "3. Ask", "4. Turn", "5. Measure again")
    ]
    assert places == sorted(places)


def test_a_family_without_adjusters_at_its_brackets_has_no_rows() -> None:
    families = load_families()
    assert adjuster_rows(family_named(families, "side-mounted")) == []
    assert [row[0] for row in adjuster_rows(family_named(families, "house-16"))] == [
        "side",
        "height",
        "depth",
    ]


def test_the_same_fronts_give_the_same_bytes() -> None:
    fitted = job_of(with_front())[1]
    assert list(lining_up_files(fitted, papers()["a4"])) == list(lining_up_files(fitted, papers()["a4"]))
