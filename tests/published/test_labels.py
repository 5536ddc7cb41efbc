"""Labels as a camera sees them: pages are turned into pictures and their codes read by another program.

Source: QR codes after ISO/IEC 18004, read by zxing-cpp, an independent decoder; pages drawn by pypdfium2.
Paper sizes: ISO 216 (A4), ANSI/ASME Y14.1 (Letter).
"""

from __future__ import annotations

import io
from itertools import pairwise
from typing import Any

import pdfplumber
import pypdfium2
import pytest
import zxingcpp

from drawerwright.catalogue import families_from_mappings
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.pack import pack_contents
from drawerwright.pack.label_grid import label_grid
from drawerwright.pack.labels import code_text

MM = 25.4 / 72
FAMILY = {
    "id": "plain-16",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "length": [{"nominal": 500, "holes": [0, 32, 224]}],
}
OPENING = {"width": 562, "height": 168, "depth": 530}
DRAWERS = [
    {"id": "B1-1", "cabinet": "B1", "row": 1, "opening": OPENING, "quantity": 3},
    {"id": "Schränkchen", "opening": OPENING},
    {"id": "A-name-that-is-much-longer-than-any-label-could-ever-be", "opening": OPENING, "side": 12.7},
    {"id": "Too-shallow", "opening": {**OPENING, "depth": 240}},
    *({"id": f"N{number}", "opening": OPENING} for number in range(22)),
]


def labels(paper: str, units: str = "mm") -> tuple[FittedJob, bytes]:
    job = job_from_mapping({"title": "Küche, Nordseite", "defaults": {"side": 16}, "drawer": DRAWERS})
    fitted = fit_job(job, families_from_mappings([FAMILY]))
    made = pack_contents(job, fitted, paper=paper, units=units, only=["labels"])  # type: ignore[arg-type]
    return fitted, made["labels.pdf"]


def codes(content: bytes) -> list[Any]:
    """All codes of all pages at 300 dots an inch, as an office printer sets them."""
    found = []
    for page in pypdfium2.PdfDocument(content):
        picture = page.render(scale=300 / 72).to_pil().convert("L")
        found += zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    return found


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_drawer_that_is_built_has_a_code_that_says_what_it_is(paper: str) -> None:
    fitted, content = labels(paper)
    wanted = sorted(
        code_text(fitted.title, drawer)
        for drawer in fitted.drawers
        for _ in range(drawer.drawer.quantity if drawer.box is not None else 0)
    )
    assert len(wanted) == 27
    assert sorted(one.text for one in codes(content)) == wanted


def test_a_code_holds_job_drawer_and_sizes_and_no_address() -> None:
    fitted, _ = labels("a4")
    assert code_text(fitted.title, fitted.drawers[0]).splitlines() == [
        "Küche, Nordseite",
        "B1-1",
        "box 552 x 147 x 500 mm",
        "plain-16/500",
    ]
    for drawer in fitted.drawers:
        assert "://" not in code_text(fitted.title, drawer)
        assert len(code_text(fitted.title, drawer)) < 150


@pytest.mark.parametrize(("paper", "wide", "high"), [("a4", 210.0, 297.0), ("letter", 215.9, 279.4)])
def test_sheets_of_labels_stand_upright_at_the_paper_s_size(paper: str, wide: float, high: float) -> None:
    with pdfplumber.open(io.BytesIO(labels(paper)[1])) as pdf:
        assert len(pdf.pages) == 2
        for page in pdf.pages:
            assert (page.width * MM, page.height * MM) == pytest.approx((wide, high), abs=0.01)


@pytest.mark.parametrize(("paper", "wide", "high"), [("a4", 210.0, 297.0), ("letter", 215.9, 279.4)])
def test_a_grid_fits_its_paper_with_the_same_margin_on_both_sides(
    paper: Any, wide: float, high: float
) -> None:
    grid = label_grid(paper)
    assert 2 * grid.left + grid.columns * grid.width == pytest.approx(wide, abs=0.01)
    assert 2 * grid.top + grid.rows * grid.height == pytest.approx(high, abs=0.01)
    assert grid.source


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_label_runs_into_its_neighbour(paper: Any) -> None:
    grid = label_grid(paper)
    across = [grid.left + column * grid.width for column in range(grid.columns + 1)]
    up = [grid.top + row * grid.height for row in range(grid.rows + 1)]
    for units in ("mm", "in"):
        with pdfplumber.open(io.BytesIO(labels(paper, units)[1])) as pdf:
            for page in pdf.pages:
                for char in page.chars:
                    left, right = char["x0"] * MM, char["x1"] * MM
                    top, bottom = char["top"] * MM, char["bottom"] * MM
                    assert any(low + 2 < left and right < high - 2 for low, high in pairwise(across))
                    assert any(low + 1 < top and bottom < high - 1 for low, high in pairwise(up))


def test_a_label_names_its_drawer_and_tells_left_from_right() -> None:
    with pdfplumber.open(io.BytesIO(labels("a4")[1])) as pdf:
        text = pdf.pages[0].extract_text()
    assert "B1-1" in text
    assert "Cabinet B1, row 1, 1 of 3" in text
    assert "552 × 147 × 500 mm" in text
    assert text.count("seen from the front") == 24
