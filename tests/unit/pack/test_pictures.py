"""The pictures: elevations with the sums of their columns, drawers drawn out and taken apart."""

from __future__ import annotations

import io
import re
from typing import Any

import pdfplumber
import pytest
from pack_builders import fitting, job_of, not_fitting

from drawerwright.catalogue import load_families
from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Text
from drawerwright.drawing.scene import Leader, Scene
from drawerwright.drawing.sheet import STANDARD_SCALES
from drawerwright.drawing.views.exploded import exploded
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedJob
from drawerwright.pack import pack_contents
from drawerwright.pack.column_sums import column_data, sums_of
from drawerwright.pack.distinct import distinct_drawers
from drawerwright.pack.names_apart import names_apart
from drawerwright.pack.papers import PaperName, papers
from drawerwright.pack.picture_scale import as_large_as_fits
from drawerwright.pack.pictures import (
    cabinets_of,
    drawer_data,
    drawers_to_draw,
    elevation_data,
    picture_files,
)
from drawerwright.pack.shown import Shown

MM = Shown()
A4 = papers()["a4"]


def opening(height: float, floor: float) -> dict[str, float]:
    return {"width": 562.0, "height": height, "depth": 530.0, "floor": floor}


def drawer(name: str, **keys: Any) -> dict[str, Any]:
    front = {"style": "overlay", "thickness": 19.0, "overlay": 16.0, "gap": 3.0}
    return {"id": name, "side": 16.0, "front": front, "opening": opening(200.0, 0.0)} | keys


@pytest.fixture(scope="module")
def fitted() -> FittedJob:
    """Two cabinets with rows, one a column; two drawers alike but for their contents; one too shallow."""
    job = job_from_mapping(
        {
            "title": "Bench (invented)",
            "cabinet": [{"id": "K"}, {"id": "L"}],
            "drawer": [
                drawer("K-2", cabinet="K", row=2, opening=opening(160.0, 200.0)),
                drawer("K-1", cabinet="K", row=1),
                drawer("P", contents=5.0),
                drawer("Q", contents=6.0),
                drawer("L-1", cabinet="L", row=1),
                drawer("X", opening={"width": 562.0, "height": 200.0, "depth": 120.0}),
            ],
        }
    )
    return fit_job(job, load_families(None))


def pages_of(fitted: FittedJob, shown: Shown = MM, paper: PaperName = "a4") -> list[str]:
    drawn_once = drawers_to_draw(distinct_drawers(fitted))
    ((name, content),) = picture_files(fitted, drawn_once, papers()[paper], shown)
    assert name == "pictures.pdf"
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return [" ".join((page.extract_text() or "").split()) for page in pdf.pages]


def test_cabinets_are_those_whose_drawers_tell_rows_lowest_first(fitted: FittedJob) -> None:
    assert [[one.id for one in cabinet] for cabinet in cabinets_of(fitted)] == [["K-1", "K-2"], ["L-1"]]


def test_drawers_that_look_alike_are_drawn_once_and_what_does_not_fit_is_not(fitted: FittedJob) -> None:
    distinct = distinct_drawers(fitted)
    assert ("P",) in [one.ids for one in distinct]
    together = [one.ids for one in drawers_to_draw(distinct)]
    assert ("P", "Q") in together
    assert "X" not in [name for ids in together for name in ids]
    assert sorted(name for ids in together for name in ids) == ["K-1", "K-2", "L-1", "P", "Q"]


def test_cabinets_come_first_then_two_drawers_a_page(fitted: FittedJob) -> None:
    pages = pages_of(fitted)
    halves = len(drawers_to_draw(distinct_drawers(fitted)))
    assert len(pages) == 2 + (halves + 1) // 2
    assert "Cabinet" in pages[0]
    assert "Heights in the column, mm" in pages[0]
    assert "screws" in pages[0]
    assert "Heights in the column" not in pages[1]
    for page in pages[2:]:
        assert "Drawn out by" in page
        assert "Taken apart, sizes in mm" in page
        assert "subfront" in page
        assert "2 sides" in page
        assert "Box " in page


def test_the_sums_of_a_column_are_told_with_their_signs_and_close(fitted: FittedJob) -> None:
    (column,) = fitted.columns
    # By hand: 200 + 160 + 2 × 16 = 392 are covered by two fronts with a gap of 3 between them.
    told = dict(sums_of(column, MM))
    assert told == {
        "+ openings": "360", "+ between openings": "0", "+ overlays beyond them": "32", "− fronts": "389",
        "− gaps": "3", "= 0: all is covered": "0",
    }  # fmt: skip
    data = column_data(column, MM)
    assert [row[0] for row in data["rows"]] == ["K-2", "K-1"]
    assert data["rows"][1][1:] == ["200", "214.5", "3"]
    assert data["sum"] == ["Together", "360", "389", "3"]


def test_the_drawing_of_a_page_keeps_to_its_room_at_a_standard_scale(fitted: FittedJob) -> None:
    for paper in papers().values():
        page = elevation_data(fitted, cabinets_of(fitted)[0], paper, MM)
        assert page["drawing"]["width"] + page["column_width"] <= paper.width - 16
        half = drawer_data(distinct_drawers(fitted)[0], paper, MM)
        sizes = [one["drawing"] for one in half["drawings"]]
        assert sum(one["width"] for one in sizes) < paper.width - 16
        assert max(one["height"] for one in sizes) < (paper.height - 16 - 15.5) / 2
        for says in (page["scale"], *(one["scale"] for one in half["drawings"])):
            found = re.fullmatch(r"1 : ([\d.]+)", says)
            assert found is not None
            assert float(found[1]) in STANDARD_SCALES


def test_a_drawing_takes_the_largest_scale_that_fits_and_none_where_none_does(fitted: FittedJob) -> None:
    scene = exploded(fitted.drawers[0])
    large, small = as_large_as_fits(scene, 250.0, 150.0), as_large_as_fits(scene, 150.0, 80.0)
    assert large is not None
    assert small is not None
    assert large.scene.scale > small.scene.scale
    assert small.room.width <= 150.0
    assert small.room.height <= 80.0
    assert as_large_as_fits(scene, 5.0, 5.0) is None


def lettering_of(scene: Scene) -> list[Bounds]:
    return [item.extent for group in drawn(scene) for item in group.items if isinstance(item, Text)]


def test_names_beside_parts_are_apart_on_small_paper_and_stay_in_their_columns(fitted: FittedJob) -> None:
    small = as_large_as_fits(exploded(fitted.drawers[0]), 120.0, 60.0, names_beside=True)
    assert small is not None
    areas = lettering_of(small.scene)
    assert len(areas) > 10
    assert not [1 for at, one in enumerate(areas) for other in areas[:at] if one.overlaps(other)]


def test_names_that_touch_move_by_as_much_to_both_sides() -> None:
    notes = tuple(Leader((0.0, y), (0.0, 0.0), 2.0, f"n{y}", bend=(9.0, y)) for y in (10.0, 10.4))
    lower, upper = names_apart(Scene("s", "t", "two notes", notes)).primitives
    assert isinstance(lower, Leader)
    assert isinstance(upper, Leader)
    assert lower.bend is not None
    assert upper.bend is not None
    assert lower.bend[0] == upper.bend[0] == 9.0
    assert lower.bend[1] + upper.bend[1] == pytest.approx(20.4)
    assert upper.bend[1] - lower.bend[1] > 3.0
    assert (lower.at, upper.at) == ((0.0, 10.0), (0.0, 10.4))


def test_sizes_of_parts_in_inches_are_those_of_the_cut_list(fitted: FittedJob) -> None:
    pages = pages_of(fitted, Shown("in"), "letter")
    assert "sizes in inches" in pages[2]
    half = drawer_data(distinct_drawers(fitted)[0], A4, Shown("in"))
    side = next(part for part in fitted.drawers[0].parts if part.part == "side")
    nearest = round(side.length / 25.4 * 32) / 32
    told = re.search(r">(\d+)(?: (\d+)/(\d+))? × [^<]*<", half["drawings"][1]["drawing"]["svg"])
    assert told is not None
    lengths = re.findall(r">(\d+)(?: (\d+)/(\d+))? × ", half["drawings"][1]["drawing"]["svg"])
    assert nearest in [int(whole) + (int(a) / int(b) if a else 0.0) for whole, a, b in lengths]


def test_every_picture_says_in_words_what_is_seen(fitted: FittedJob) -> None:
    page = elevation_data(fitted, cabinets_of(fitted)[0], A4, MM)
    assert page["drawing"]["alt"].startswith("Elevation of cabinet K, from the top: K-2")
    out, apart = drawer_data(distinct_drawers(fitted)[0], A4, MM)["drawings"]
    assert "isometric, drawn out by 333 of 500" in out["drawing"]["alt"]
    assert "taken apart" in apart["drawing"]["alt"]


def test_pictures_are_the_same_bytes_again_with_the_house_s_lettering_alone(fitted: FittedJob) -> None:
    drawn_once = drawers_to_draw(distinct_drawers(fitted))
    first, second = (dict(picture_files(fitted, drawn_once, A4, Shown("both"))) for _ in range(2))
    assert first == second
    with pdfplumber.open(io.BytesIO(first["pictures.pdf"])) as pdf:
        fonts = {char["fontname"].partition("+")[2] for page in pdf.pages for char in page.chars}
    assert fonts
    assert all(name.startswith("Barlow") for name in fonts)


def test_a_column_of_very_many_drawers_still_has_one_page() -> None:
    drawers = [
        drawer(f"T-{row}", cabinet="T", row=row, opening=opening(80.0, (row - 1) * 82.0))
        for row in range(1, 61)
    ]
    tall = fit_job(job_from_mapping({"cabinet": [{"id": "T"}], "drawer": drawers}), load_families(None))
    ((_, content),) = picture_files(tall, (), A4, MM)
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        (page,) = pdf.pages
        words = page.extract_text()
    assert "Sums" in words
    assert "Heights in the column" not in words


def test_a_job_without_anything_to_draw_says_so() -> None:
    assert "nothing to draw" in pages_of(job_of(not_fitting("X"))[1])[0]


def test_very_many_drawers_are_in_several_documents(monkeypatch: pytest.MonkeyPatch) -> None:
    from drawerwright.pack import pictures

    monkeypatch.setattr(pictures, "PAGES", 2)
    told: list[tuple[int, int]] = []
    made = pack_contents(
        *job_of(*(fitting(f"D{n}", side=12.0 + n / 10) for n in range(3))),
        only=["pictures"],
        progress=lambda done, total, what: told.append((done, total)),
    )
    assert set(made) == {"pictures-01.pdf", "pictures-02.pdf"}
    assert told[-1][0] == told[-1][1]
