"""Templates measured in the PDF as a rule would measure them on paper, by an independent reader (pdfplumber).

Sources: 1 in = 25.4 mm (international yard and pound agreement, 1959); the unit of PDF user space is 1/72 in
(ISO 32000-1:2008, 8.3.2.3). Where the holes belong follows from the slide family's own numbers and the
public contract's definitions: row holes at setback plus each hole's distance, hook bores `bore_in` from the
seat and `bore_up` above the bottom's underside, pilot holes at `bracket_holes`.
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
from drawerwright.model.fitted import FittedJob
from drawerwright.pack import pack_contents

MM = 25.4 / 72
NEAR = 0.05
HOLES = (0, 32, 224, 256, 448)
FAMILY = {
    "id": "plain-16",
    "invented": True,
    "capacity": "45 kg",
    "inside_width_deduction": 42,
    "setback": 37,
    "bottom_recess": 13,
    "heights": {"screw_line": 10, "rear_bracket": 10, "on_shelf": 12},
    "rear": {"notch_width": 35, "notch_height": 13, "bore": 6, "bore_depth": 10, "bore_in": 7, "bore_up": 11},
    "bracket_holes": [[12, 9], [28, 9], [12, 25]],
    "length": [{"nominal": 500, "holes": list(HOLES), "slots": [16, 432]}],
}
DRAWERS = [
    {
        "id": "B1-1",
        "cabinet": "B1",
        "opening": {"width": 562, "height": 260, "depth": 530},
        "side": 16,
        "front": {"style": "overlay", "overlay": 16, "handle": {"spacing": 128}},
        "contents": "20 kg",
    },
    {"id": "Thin", "opening": {"width": 462, "height": 168, "depth": 530}, "side": 12.7},
]


@pytest.fixture(scope="module", params=["a4", "letter"])
def fitted_and_pdf(request: pytest.FixtureRequest) -> Iterator[tuple[FittedJob, Any]]:
    job = job_from_mapping(
        {"title": "Kitchen", "cabinet": [{"id": "B1", "first_row": 24}], "drawer": DRAWERS}
    )
    fitted = fit_job(job, families_from_mappings([FAMILY]))
    content = pack_contents(job, fitted, paper=request.param, only=["templates"])["templates.pdf"]
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        yield fitted, pdf


def pages_of(pdf: Any, words: str) -> list[Any]:
    """Pages whose foot begins with some words, in order."""
    found = [page for page in pdf.pages[1:] if re.search(rf"^{words}", page.extract_text(), re.MULTILINE)]
    assert found, words
    return found


def middle(curve: Any) -> tuple[float, float]:
    """Centre of a drawn shape, in mm from the page's left and lower edge."""
    return (curve["x0"] + curve["x1"]) / 2 * MM, (curve["y0"] + curve["y1"]) / 2 * MM


def size(curve: Any) -> tuple[float, float]:
    return (curve["x1"] - curve["x0"]) * MM, (curve["y1"] - curve["y0"]) * MM


def circles(page: Any, diameter: float) -> list[tuple[float, float]]:
    return [
        middle(curve)
        for curve in page.curves
        if len(curve["pts"]) >= 6 and size(curve) == pytest.approx((diameter, diameter), abs=0.02)
    ]


def diamonds(page: Any) -> list[tuple[float, float]]:
    """Middles of the marks on joining lines."""
    return [
        middle(curve)
        for curve in page.curves
        if len(curve["pts"]) == 5 and abs(size(curve)[0] - size(curve)[1]) < 0.01 and size(curve)[0] > 3
    ]


def edges(page: Any) -> list[tuple[float, float, float, float]]:
    """Heavy straight lines, which lie on the edges of the work: x0, y0, x1, y1 [mm]."""
    return [
        (one["x0"] * MM, one["y0"] * MM, one["x1"] * MM, one["y1"] * MM)
        for one in page.lines
        if one["linewidth"] * MM > 0.35
    ]


def upright(pages: list[Any], shifts: list[tuple[float, float]]) -> list[float]:
    """Places of heavy upright lines on the joined paper."""
    return sorted(
        {
            round(x0 + dx, 2)
            for page, (dx, _) in zip(pages, shifts, strict=True)
            for x0, _, x1, _ in edges(page)
            if abs(x1 - x0) < 0.01
        }
    )


def level(pages: list[Any], shifts: list[tuple[float, float]]) -> list[float]:
    return sorted(
        {
            round(y0 + dy, 2)
            for page, (_, dy) in zip(pages, shifts, strict=True)
            for _, y0, _, y1 in edges(page)
            if abs(y1 - y0) < 0.01
        }
    )


def place_of(page: Any) -> tuple[int, int]:
    """Row and column of a page, as its foot says; a page alone is the first."""
    told = re.search(r"row (\d+), column (\d+)", page.extract_text())
    return (int(told[1]), int(told[2])) if told else (1, 1)


def pair_on_line(page: Any, axis: int, end: int) -> list[tuple[float, float]]:
    """The two diamonds on a joining line: upright (axis 0) or level (1), at the low (0) or high end (1)."""
    found = diamonds(page)
    pairs = [
        sorted((one, other))
        for at, one in enumerate(found)
        for other in found[at + 1 :]
        if abs(one[axis] - other[axis]) < 0.01
    ]
    return sorted(pairs, key=lambda pair: pair[0][axis])[-end]


def joined(pages: list[Any]) -> list[tuple[float, float]]:
    """How far each page is moved when diamond is laid on diamond, the first left where it is."""
    shifts: dict[tuple[int, int], tuple[float, float]] = {(1, 1): (0.0, 0.0)}
    by_place = {place_of(page): page for page in pages}
    for (row, column), page in sorted(by_place.items()):
        if (row, column) == (1, 1):
            continue
        if column > 1:
            neighbour, axis, here, there = (row, column - 1), 0, 0, 1
        else:
            neighbour, axis, here, there = (row - 1, column), 1, 1, 0
        mine = pair_on_line(page, axis, here)
        other = pair_on_line(by_place[neighbour], axis, there)
        moves = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(mine, other, strict=True)]
        assert moves[0] == pytest.approx(moves[1], abs=0.01)
        base = shifts[neighbour]
        shifts[row, column] = (base[0] + moves[0][0], base[1] + moves[0][1])
    return [shifts[place_of(page)] for page in pages]


def bored(pages: list[Any], shifts: list[tuple[float, float]], diameter: float) -> list[tuple[float, float]]:
    """Middles of holes on the joined paper; one that is on two pages is counted once."""
    found: list[tuple[float, float]] = []
    for page, (dx, dy) in zip(pages, shifts, strict=True):
        for x, y in circles(page, diameter):
            place = (x + dx, y + dy)
            if all(place != pytest.approx(other, abs=NEAR) for other in found):
                found.append(place)
    return sorted(found)


@pytest.mark.parametrize("hand", ["LEFT", "RIGHT"])
def test_row_holes_lie_where_setback_and_member_put_them(
    fitted_and_pdf: tuple[FittedJob, Any], hand: str
) -> None:
    fitted, pdf = fitted_and_pdf
    pages = pages_of(pdf, f"Row holes, {hand}, drawer.* B1-1")
    assert len(pages) > 1
    shifts = joined(pages)
    (edge,) = upright(pages, shifts)
    (floor,) = level(pages, shifts)
    holes = bored(pages, shifts, 5.0)
    depths = sorted(abs(x - edge) for x, _ in holes)
    assert depths == pytest.approx([37.0 + hole for hole in HOLES], abs=NEAR)
    assert all((x > edge) == (hand == "LEFT") for x, _ in holes)
    screw_line = fitted.drawers[0].mounting
    assert screw_line is not None
    assert {round(y - floor, 1) for _, y in holes} == {screw_line.screw_line}
    assert all(abs(y - floor - 24.0) < NEAR for _, y in holes)


def test_hook_bores_lie_beside_the_seat_and_above_the_bottom(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    pages = pages_of(fitted_and_pdf[1], "Box back, drawer.* B1-1")
    shifts = joined(pages)
    outer_left, left, right, outer_right = upright(pages, shifts)
    assert left - outer_left == pytest.approx(16.0, abs=NEAR)
    assert outer_right - right == pytest.approx(16.0, abs=NEAR)
    first, last = bored(pages, shifts, 6.0)
    (foot,) = level(pages, shifts)
    assert (first[0] - left, right - last[0]) == pytest.approx((7.0, 7.0), abs=NEAR)
    assert (first[1] - foot, last[1] - foot) == pytest.approx((13.0 + 11.0,) * 2, abs=NEAR)


@pytest.mark.parametrize("hand", ["LEFT", "RIGHT"])
def test_pilot_holes_lie_in_their_corner(fitted_and_pdf: tuple[FittedJob, Any], hand: str) -> None:
    (page,) = pages_of(fitted_and_pdf[1], f"Locking bracket, {hand}, drawer.* B1-1")
    (side,) = upright([page], [(0.0, 0.0)])
    (subfront,) = level([page], [(0.0, 0.0)])
    (diameter,) = {round(size(one)[0], 2) for one in page.curves if len(one["pts"]) >= 6}
    found = sorted((abs(x - side), abs(y - subfront)) for x, y in circles(page, diameter))
    assert len(found) == 3
    for place, wanted in zip(found, [(12.0, 9.0), (12.0, 25.0), (28.0, 9.0)], strict=True):
        assert place == pytest.approx(wanted, abs=NEAR)


def test_screws_and_handle_lie_where_the_answer_says(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    fitted, pdf = fitted_and_pdf
    pages = pages_of(pdf, "Front fixing, drawer B1-1")
    shifts = joined(pages)
    left, right = upright(pages, shifts)
    (foot,) = level(pages, shifts)
    drawer = fitted.drawers[0]
    assert drawer.fixing is not None
    assert drawer.front is not None
    half = drawer.front.width / 2
    found = [(min(x - left, right - x), y - foot) for x, y in bored(pages, shifts, 5.0)]
    screws = sorted((half - abs(x), y) for x, y in drawer.fixing.holes_in_front)
    assert len(found) == len(screws) + len(drawer.fixing.handle)
    for place in set(screws):
        near = [other for other in found if other == pytest.approx(place, abs=NEAR)]
        assert len(near) == screws.count(place)
        found = [other for other in found if other not in near]
    # The paper is broken between the screws and the handle, whose distances are told in figures there.
    assert [y for _, y in found] == pytest.approx([y for _, y in drawer.fixing.handle], abs=NEAR)


def test_both_bars_of_every_page_have_their_length(fitted_and_pdf: tuple[FittedJob, Any]) -> None:
    for page in fitted_and_pdf[1].pages[1:]:
        lengths = [(one["x1"] - one["x0"]) * MM for one in [*page.lines, *page.curves] if one["y0"] * MM < 30]
        for wanted in (100.0, 101.6):
            assert any(length == pytest.approx(wanted, abs=0.02) for length in lengths)


def test_the_first_page_says_to_print_at_full_size_and_to_measure_first(
    fitted_and_pdf: tuple[FittedJob, Any],
) -> None:
    text = " ".join(fitted_and_pdf[1].pages[0].extract_text().split())
    assert "Print at 100 %" in text
    assert "Measure the bars first" in text
