"""The cabinet elevation: fronts, gaps, rows, verdicts."""

from __future__ import annotations

from typing import Any

import pytest

from drawerwright.catalogue import families_from_mappings
from drawerwright.drawing.primitives import Circle, Lines, Polyline, Text
from drawerwright.drawing.scene import Dimension, Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.verdict_marks import verdict_mark
from drawerwright.drawing.views.elevation import cabinet_elevation
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

from .drawers import PLAIN, fitted

FRONTS = {"style": "overlay", "overlay": 16, "gap": 3}


def column(heights: list[float], **told: Any) -> tuple[FittedDrawer, ...]:
    """Drawers one over the other in a cabinet with rows from 24; an invented scenario."""
    drawers = [
        {
            "id": f"B1-{k + 1}",
            "cabinet": "B1",
            "row": k + 1,
            "opening": {"width": 568, "height": height, "depth": 540, "floor": sum(heights[:k])},
            "side": 16,
            "front": FRONTS,
            **told,
        }
        for k, height in enumerate(heights)
    ]
    job = {"cabinet": [{"id": "B1", "first_row": 24}], "drawer": drawers}
    return fit_job(job_from_mapping(job), families_from_mappings([PLAIN])).drawers


FOUR = column([192, 192, 160, 160])


def shown(scene: Scene, quantity: str) -> list[float]:
    """Values of a quantity's dimensions, lowest first."""
    found = [each for each in scene.primitives if isinstance(each, Dimension) and each.quantity == quantity]
    return [round(each.value, 6) for each in sorted(found, key=lambda each: each.start[1])]


def words(scene: Scene) -> list[str]:
    return [each.text for each in scene.primitives if isinstance(each, Text)]


def test_fronts_and_gaps_add_up_to_the_column() -> None:
    """704 in 192/192/160/160 with 16 all round and gap 3: 206.5 + 189 + 157 + 174.5 + 3 × 3 = 704 + 32."""
    scene = cabinet_elevation(FOUR)
    assert shown(scene, "front_height") == [206.5, 189.0, 157.0, 174.5]
    assert shown(scene, "front_gap") == [3.0, 3.0, 3.0]
    assert shown(scene, "fronts_height") == [736.0]
    assert shown(scene, "opening_height") == [192.0, 192.0, 160.0, 160.0]
    assert shown(scene, "front_width") == [600.0]


def test_the_order_of_the_drawers_does_not_matter() -> None:
    assert write_svg(cabinet_elevation(FOUR)) == write_svg(cabinet_elevation(FOUR[::-1]))


def test_screw_lines_name_their_row_hole() -> None:
    """Rows from 24 every 32: 24 the first, 216 = 24 + 6 × 32 the seventh, 408 the 13th, 568 the 18th."""
    screws = [text for text in words(cabinet_elevation(FOUR)) if text.startswith("screws")]
    assert screws == [
        "screws 24, row hole 1",
        "screws 216, row hole 7",
        "screws 408, row hole 13",
        "screws 568, row hole 18",
    ]


def test_rows_are_ticked_on_both_sides_up_to_the_top() -> None:
    (ticks,) = [
        each
        for each in cabinet_elevation(FOUR).primitives
        if isinstance(each, Lines) and len(each.segments) > 9
    ]
    heights = sorted({a[1] for a, _ in ticks.segments})
    assert heights == [24.0 + 32.0 * k for k in range(22)]
    assert len(ticks.segments) == 2 * len(heights)
    assert sum(a[0] + b[0] for a, b in ticks.segments) == pytest.approx(0.0)


def test_every_drawer_has_its_verdict_in_words_and_a_mark() -> None:
    scene = cabinet_elevation(FOUR)
    assert [text for text in words(scene) if text.startswith("B1-")] == ["B1-1", "B1-2", "B1-3", "B1-4"]
    assert sum(text in ("fits", "fits with care") for text in words(scene)) == 4


def test_what_does_not_fit_is_dashed_and_says_why() -> None:
    scene = cabinet_elevation(column([192, 44, 160]))
    dashed = [each for each in scene.primitives if isinstance(each, Polyline) and each.line == "accent"]
    assert [sorted({y for _, y in each.points}) for each in dashed] == [[192.0, 236.0]]
    assert "does not fit" in words(scene)
    assert any("stopped by box height" in text for text in words(scene))
    assert "B1-2 does not fit" in scene.alt


def test_no_gap_is_shown_across_a_drawer_without_a_front() -> None:
    assert shown(cabinet_elevation(column([192, 44, 160])), "front_gap") == []


def test_an_inset_front_shows_the_gap_to_its_opening() -> None:
    scene = cabinet_elevation(column([192, 160], front={"style": "inset", "gap": 2.5}))
    assert shown(scene, "front_gap") == [2.5, 2.5, 2.5, 2.5]


def test_rails_between_openings_are_dimensioned() -> None:
    lower, upper = column([192, 160])
    raised = column([230, 160])[1]
    assert shown(cabinet_elevation([lower, upper]), "rail") == []
    assert shown(cabinet_elevation([lower, raised]), "rail") == [38.0]


def test_inches_are_written_on_request() -> None:
    texts = {
        each.text
        for each in cabinet_elevation(FOUR, units="in").primitives
        if isinstance(each, Dimension) and each.quantity == "front_width"
    }
    assert texts == {"23-19/32″"}  # 600 mm = 23.622 in, rounded down as on the lists


def test_an_elevation_shows_one_cabinet() -> None:
    with pytest.raises(ValueError, match="at least one"):
        cabinet_elevation([])
    with pytest.raises(ValueError, match="one cabinet"):
        cabinet_elevation([FOUR[0], fitted("overlay")])
    with pytest.raises(ValueError, match="one cabinet"):
        cabinet_elevation([fitted("overlay"), fitted("inset")])
    assert "Cabinet overlay" in cabinet_elevation([fitted("overlay")]).title


def test_marks_are_told_apart_by_their_shape() -> None:
    """Ring, triangle, octagon: none, three and eight corners; only the last is filled."""
    ring, triangle, octagon = (
        verdict_mark(verdict, (0.0, 0.0), 10.0)[0]
        for verdict in ("fits", "fits-with-care", "does-not-fit")  # type: ignore[arg-type]
    )
    assert isinstance(ring, Circle)
    assert isinstance(triangle, Polyline)
    assert isinstance(octagon, Polyline)
    assert (len(triangle.points), len(octagon.points)) == (3, 8)
    assert (ring.fill, triangle.fill, octagon.fill) == ("none", "none", "accent")
