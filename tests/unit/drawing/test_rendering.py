"""What a PDF compiler makes of the SVG: true size, and lettering in the font that is meant."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
import pytest
import typst

from drawerwright.drawing.fonts import font_folder
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Text, line
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg

POINT = 25.4 / 72


def _page(tmp_path: Path, scene: Scene) -> pdfplumber.page.Page:
    (tmp_path / "drawing.svg").write_text(write_svg(scene), encoding="utf-8")
    source = tmp_path / "page.typ"
    source.write_text('#set page(width: 150mm, height: 80mm, margin: 10mm)\n#image("drawing.svg")')
    pdf = typst.compile(str(source), font_paths=[str(font_folder())], ignore_system_fonts=True)
    assert isinstance(pdf, bytes)
    return pdfplumber.open(io.BytesIO(pdf)).pages[0]


def test_a_line_of_a_hundred_is_a_hundred_on_paper(tmp_path: Path) -> None:
    page = Bounds(-5.0, -5.0, 110.0, 20.0)
    bar = line((0.0, 0.0), (100.0, 0.0))
    found = _page(tmp_path, Scene("bar", "Bar", "A bar", (bar,), page=page)).lines
    assert [round(abs(each["x1"] - each["x0"]) * POINT, 4) for each in found] == [
        pytest.approx(100, abs=0.01)
    ]


def test_lettering_stays_text_in_the_drawings_own_font(tmp_path: Path) -> None:
    words = (
        Text((0.0, 0.0), "519.5", weight="semibold"),
        Text((0.0, 5.0), "back 16 × Ø 6"),
    )
    characters = _page(tmp_path, Scene("words", "Words", "Words", words)).chars
    fonts = {each["fontname"].partition("+")[2] for each in characters}
    assert fonts == {"BarlowSemiCondensed-SemiBold", "BarlowSemiCondensed-Regular"}
    assert {each["text"] for each in characters} >= {"5", "1", "9", "Ø", "×"}
