"""Pages of a template set as a PDF and measured there: what the printer gets."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
import pytest
import typst

from drawerwright.drawing.fonts import font_folder
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.templates import row_holes
from drawerwright.drawing.tiles import Tile, tiles

from .drawers import fitted

POINT = 25.4 / 72
PAPER = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
MARGIN = 8.0


def _printed(tmp_path: Path, pages: tuple[Tile, ...], paper: tuple[float, float]) -> pdfplumber.PDF:
    source = [f"#set page(width: {paper[0]}mm, height: {paper[1]}mm, margin: {MARGIN}mm)"]
    for number, page in enumerate(pages):
        (tmp_path / f"{number}.svg").write_text(write_svg(page.scene, paper="print"), encoding="utf-8")
        source.append(f'#image("{number}.svg")' + ("" if number == len(pages) - 1 else "\n#pagebreak()"))
    (tmp_path / "pages.typ").write_text("\n".join(source), encoding="utf-8")
    made = typst.compile(
        str(tmp_path / "pages.typ"), font_paths=[str(font_folder())], ignore_system_fonts=True
    )
    assert isinstance(made, bytes)
    return pdfplumber.open(io.BytesIO(made))


@pytest.mark.parametrize("name", PAPER)
@pytest.mark.parametrize("hand", ["left", "right"])
def test_hole_centres_over_all_printed_pages_are_within_a_twentieth(
    tmp_path: Path, name: str, hand: str
) -> None:
    """Circles of 5 mm found in the PDF, moved back by each page's shift, are the model's row holes."""
    one = fitted("overlay")
    assert one.mounting is not None
    assert one.mounting.screw_line is not None
    paper = PAPER[name]
    pages = tiles(
        row_holes(one, "left" if hand == "left" else "right"), paper[0] - 2 * MARGIN, paper[1] - 2 * MARGIN
    )
    assert len(pages) == 3
    sign = 1.0 if hand == "left" else -1.0
    found: list[tuple[float, float]] = []
    with _printed(tmp_path, pages, paper) as pdf:
        assert len(pdf.pages) == len(pages)
        for page, sheet in zip(pages, pdf.pages, strict=True):
            assert (float(sheet.width) * POINT, float(sheet.height) * POINT) == pytest.approx(paper, abs=0.01)
            for curve in sheet.curves:
                across = (curve["x1"] - curve["x0"]) * POINT
                up = (curve["bottom"] - curve["top"]) * POINT
                if across == pytest.approx(5.0, abs=0.02) and up == pytest.approx(5.0, abs=0.02):
                    x = (curve["x0"] + curve["x1"]) / 2 * POINT - MARGIN
                    y = float(sheet.height) * POINT - (curve["top"] + curve["bottom"]) / 2 * POINT - MARGIN
                    found.append((x - page.shift[0], y - page.shift[1]))
            bars = sorted(
                round(abs(each["x1"] - each["x0"]) * POINT, 2)
                for each in [*sheet.lines, *sheet.curves]
                if abs(abs(each["x1"] - each["x0"]) * POINT - 100.8) < 1.0
            )
            assert bars
            assert min(abs(bar - 100.0) for bar in bars) < 0.02
            assert min(abs(bar - 101.6) for bar in bars) < 0.02
    wanted = [(sign * x, one.mounting.screw_line) for x in one.mounting.holes_from_side_edge]
    for x, y in wanted:
        assert min(abs(a - x) + abs(b - y) for a, b in found) < 0.05
    for a, b in found:
        assert min(abs(a - x) + abs(b - y) for x, y in wanted) < 0.05
