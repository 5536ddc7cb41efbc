"""The sheets as other programs read them: pdfplumber for lengths, fonts and words.

What they must agree with: ISO 216 (A4 is 210 mm × 297 mm) and ANSI/ASME Y14.1 (size A is 8.5 in × 11 in)
for the page; ISO 32000-1, 8.3.2.3 (1 pt is 1/72 in) with 25.4 mm an inch for lengths; the scale that the
sheet itself states for the drawing; ISO 19005-2 and ISO 14289-1 for the marks of PDF/A-2b and PDF/UA-1 in
the metadata.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import Any

import pdfplumber
import pytest

from drawerwright.catalogue import families_from_mappings
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.check_names import check_name
from drawerwright.model.fitted import FittedJob
from drawerwright.pack.write import pack_contents

MM = 25.4 / 72
FAMILY = {
    "id": "plain-16",
    "title": "Plain slide (invented)",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [
        {"nominal": 500, "holes": [0, 32, 224, 256, 416], "slots": [16]},
        {"nominal": 550, "holes": [0, 32, 224, 256, 448], "slots": [16]},
    ],
}
DRAWERS = [
    {"id": "B1-1", "opening": {"width": [562, 561.5], "height": 168, "depth": 530}, "contents": "20 kg"},
    {"id": "B1-2", "opening": {"width": [562, 561.5], "height": 168, "depth": 530}, "contents": "20 kg"},
    {"id": "Larder-top", "opening": {"width": 500, "height": 200, "depth": 600}, "front": {"style": "inset"}},
    {"id": "Too-shallow", "opening": {"width": 562, "height": 168, "depth": 240}},
]


def sheets(paper: str) -> tuple[FittedJob, bytes]:
    job = job_from_mapping({"title": "Kitchen, north", "defaults": {"side": 16}, "drawer": DRAWERS})
    fitted = fit_job(job, families_from_mappings([FAMILY]))
    return fitted, pack_contents(job, fitted, paper=paper)["sheets.pdf"]  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def fitted_and_pdf() -> Iterator[tuple[FittedJob, Any]]:
    fitted, content = sheets("a4")
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        yield fitted, pdf


def lengths_across(page: Any) -> list[tuple[float, float]]:
    """(length, height on the page) [mm] of everything drawn level: lines and the bars of thin rectangles."""
    drawn = [*page.lines, *page.rects, *page.curves]
    return [(one["width"] * MM, one["top"] * MM) for one in drawn if one["height"] * MM < 0.02]


def test_every_page_is_a4_lying_across(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    for page in fitted_and_pdf[1].pages:
        assert page.width * MM == pytest.approx(297.0, abs=0.01)
        assert page.height * MM == pytest.approx(210.0, abs=0.01)


def test_letter_pages_are_eleven_inches_by_eight_and_a_half() -> None:
    with pdfplumber.open(io.BytesIO(sheets("letter")[1])) as pdf:
        assert len(pdf.pages) == 4
        for page in pdf.pages:
            assert page.width / 72 == pytest.approx(11.0, abs=0.0005)
            assert page.height / 72 == pytest.approx(8.5, abs=0.0005)


def test_the_check_bar_is_a_hundred_millimetres_long(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    for page in fitted_and_pdf[1].pages[1:]:
        (says,) = page.search("Print at 100 %: this bar is 100 mm long")
        beside = [
            length
            for length, top in lengths_across(page)
            if says["top"] * MM - 3 < top < says["bottom"] * MM + 3 and 90 < length < 110
        ]
        assert beside == [pytest.approx(100.0, abs=0.01)]


def dimension_line(page: Any, number: str) -> float:
    """Length [mm of paper] of the dimension line that is broken for a number, from tip to tip."""
    for word in page.search(rf"(?<![\d.]){re.escape(number)}(?![\d.])"):
        level = (word["top"] + word["bottom"]) / 2
        pieces = [
            one
            for one in [*page.lines, *page.curves]
            if one["height"] < 0.05 and abs(one["top"] - level) * MM < 0.8 and one["width"] * MM > 2
        ]
        left = [one["x0"] for one in pieces if 0 <= (word["x0"] - one["x1"]) * MM < 2.5]
        right = [one["x1"] for one in pieces if 0 <= (one["x0"] - word["x1"]) * MM < 2.5]
        if left and right:
            return float(max(right) - min(left)) * MM
    raise AssertionError(f"no dimension line around {number}")


@pytest.mark.parametrize(
    ("page", "number"), [(1, "551.5"), (1, "519.5"), (1, "561.5"), (2, "490"), (3, "562")]
)
def test_a_dimension_is_as_long_as_the_stated_scale_says(
    fitted_and_pdf: tuple[FittedJob, Any], page: int, number: str
) -> None:
    sheet = fitted_and_pdf[1].pages[page]
    stated = re.search(r"Drawn 1 : ([\d.]+)", sheet.extract_text())
    assert stated is not None
    scale = float(stated[1])
    assert dimension_line(sheet, number) * scale == pytest.approx(float(number), abs=0.05 * float(stated[1]))


def test_only_the_house_s_lettering_is_used(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    fonts = {char["fontname"] for page in fitted_and_pdf[1].pages for char in page.chars}
    assert fonts
    assert all(
        re.fullmatch(r"[A-Z]{6}\+BarlowSemiCondensed-(Regular|Medium|SemiBold)", font) for font in fonts
    )


def test_the_job_sheet_names_every_drawer_with_its_verdict(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    fitted, pdf = fitted_and_pdf
    words = {"fits": "Fits", "fits-with-care": "Fits with care", "does-not-fit": "Does not fit"}
    lines = pdf.pages[0].extract_text().splitlines()
    for drawer in fitted.drawers:
        (line,) = [line for line in lines if line.startswith(drawer.id + " ")]
        assert words[drawer.verdict] in line


def test_the_job_sheet_warns_before_anything_is_cut(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    text = " ".join(fitted_and_pdf[1].pages[0].extract_text().split())
    for word in (
        "Saws and boring",
        "Tipping",
        "Anchor",
        "Loads overhead",
        "wiring",
        "Local codes",
        "licensed",
    ):
        assert word in text


def test_drawers_built_alike_share_one_page_and_each_kind_has_one(
    fitted_and_pdf: tuple[FittedJob, Any],
) -> None:
    pages = fitted_and_pdf[1].pages
    assert len(pages) == 1 + 3
    first = pages[1].extract_text()
    assert "B1-1, B1-2" in first
    assert "2 to build" in first
    assert "Larder-top" in pages[2].extract_text()


def test_a_page_says_the_numbers_of_the_answer(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    fitted, pdf = fitted_and_pdf
    text = pdf.pages[1].extract_text()
    drawer = fitted.drawers[0]
    assert drawer.box is not None
    assert drawer.mounting is not None
    assert f"{drawer.box.outside_width:g}" in text
    assert ", ".join(f"{hole:g}" for hole in drawer.mounting.holes) in text
    assert "561.5 − 42 = 519.5" in text
    for check in drawer.checks:
        assert check_name(check.id) in text


def test_a_drawer_that_does_not_fit_says_what_stops_it_and_what_would_help(
    fitted_and_pdf: tuple[FittedJob, Any],
) -> None:
    fitted, pdf = fitted_and_pdf
    text = " ".join(pdf.pages[3].extract_text().split())
    assert "Does not fit" in text
    assert "plain-16 / 500 on the cabinet side: −265.0 mm" in text
    assert fitted.drawers[3].changes[0].says in text
    assert "+265.0 mm" in text


def test_the_file_says_what_it_is_in_words_for_those_who_cannot_see_it() -> None:
    _, content = sheets("a4")
    assert b"<pdfaid:part>2</pdfaid:part>" in content
    assert b"<pdfaid:conformance>B</pdfaid:conformance>" in content
    assert b"<pdfuaid:part>1</pdfuaid:part>" in content
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        assert pdf.metadata["Title"] == "Kitchen, north: sheets"
        tree = str(pdf.structure_tree)
        assert tree.count("'type': 'Figure'") == 3
        assert "Plan" in tree
        assert pdf.doc.catalog["Lang"] == b"en"
