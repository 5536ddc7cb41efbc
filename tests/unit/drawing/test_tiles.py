from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.drawing.clipping import clip_segment
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Circle, Hole, Lines, line
from drawerwright.drawing.scene import Scene, scale_to_paper
from drawerwright.drawing.templates import row_holes, templates
from drawerwright.drawing.tiles import JOINING_LAYER, STRIP, Tile, page_count, tile, tiles

from .drawers import fitted

A4 = (194.0, 281.0)
LETTER = (200.0, 263.0)


def _laid_out(pages: tuple[Tile, ...]) -> set[tuple[float, float, float]]:
    """Holes of all pages laid together, at their places on the drawing."""
    return {
        (
            round(each.centre[0] - page.shift[0], 6),
            round(each.centre[1] - page.shift[1], 6),
            each.diameter,
        )
        for page in pages
        for each in page.scene.primitives
        if isinstance(each, Hole)
    }


places = st.tuples(st.floats(-600, 600), st.floats(0, 500)).map(lambda p: (round(p[0], 2), round(p[1], 2)))
scenes = st.lists(st.tuples(places, st.sampled_from([2.5, 5.0, 8.0])), min_size=2, max_size=30).map(
    lambda found: Scene("t", "T", "t", tuple(Hole(at, across, None, "holes") for at, across in found))
)


@settings(max_examples=60)
@given(scenes, st.sampled_from([A4, A4[::-1], LETTER, LETTER[::-1]]), st.floats(8.0, 30.0))
def test_pages_laid_together_hold_every_hole_whole_at_its_place(
    scene: Scene, paper: tuple[float, float], overlap: float
) -> None:
    pages = tiles(scene, *paper, overlap)
    wanted = {
        (round(e.centre[0], 6), round(e.centre[1], 6), e.diameter)
        for e in scene.primitives
        if isinstance(e, Hole)
    }
    assert _laid_out(pages) == wanted
    assert len(pages) == page_count(scene, *paper, overlap)


@settings(max_examples=40)
@given(scenes, st.sampled_from([A4, LETTER]))
def test_nothing_is_drawn_outside_a_page_or_over_its_foot(scene: Scene, paper: tuple[float, float]) -> None:
    for page in tiles(scene, *paper):
        assert page.scene.page == Bounds(0.0, 0.0, *paper)
        for each in page.scene.primitives:
            for x, y in each.points:
                assert -1e-6 <= x <= paper[0] + 1e-6
                assert -1e-6 <= y <= paper[1] + 1e-6
                if isinstance(each, Hole):
                    assert y >= STRIP


def test_distances_over_the_join_are_true() -> None:
    """The joining line is at one place of the drawing on both pages: laid on each other, 453 − 37 remains."""
    one = fitted("overlay")
    assert one.mounting is not None
    pages = tiles(row_holes(one, "left"), *A4)
    assert len(pages) == 3
    placed: dict[float, float] = {}
    edge = 0.0
    for before, page in itertools.pairwise((None, *pages)):
        joins = sorted({x for e in page.scene.primitives if _on(e, JOINING_LAYER) for x, _ in _ends(e)})
        if before is not None:
            earlier = sorted(
                {x for e in before.scene.primitives if _on(e, JOINING_LAYER) for x, _ in _ends(e)}
            )
            edge += earlier[-1] - joins[0]
        for hole in page.scene.primitives:
            if isinstance(hole, Hole):
                placed[round(hole.centre[0] + edge, 6)] = hole.diameter
    first = min(placed)
    assert sorted(x - first for x in placed) == pytest.approx(
        [x - one.mounting.holes_from_side_edge[0] for x in one.mounting.holes_from_side_edge], abs=1e-6
    )


def _on(each: object, layer: str) -> bool:
    return isinstance(each, Lines) and each.layer == layer


def _ends(each: object) -> tuple[tuple[float, float], ...]:
    assert isinstance(each, Lines)
    return each.points


def test_every_page_carries_both_check_bars() -> None:
    """100 mm and 4 in, 1 in = 25.4 mm exactly."""
    for page in tile(row_holes(fitted("overlay"), "left"), *A4):
        bars = {
            each.layer: math.dist(*each.segments[0])
            for each in page.primitives
            if isinstance(each, Lines) and each.layer.startswith("check bar")
        }
        assert bars == {"check bar 100 mm": pytest.approx(100.0), "check bar 4 in": pytest.approx(101.6)}


def test_small_templates_fit_one_page_whole() -> None:
    for name, scene in templates(fitted("overlay")):
        if name.startswith(("locking", "box back")):
            for paper in (A4, LETTER):
                (page,) = tile(scene, *paper)
                assert page.name == scene.name


def test_pages_say_their_row_and_column() -> None:
    found = tile(row_holes(fitted("overlay"), "right"), *A4)
    assert [page.title.rpartition(", page ")[2] for page in found] == [
        "1 of 3: row 1, column 1", "2 of 3: row 1, column 2", "3 of 3: row 1, column 3",
    ]  # fmt: skip


def test_joining_lines_keep_clear_of_holes_where_there_is_room() -> None:
    scene = Scene("t", "T", "t", (line((0.0, 0.0), (360.0, 0.0)), Hole((180.0, 0.0), 5.0, None, "holes")))
    first, second = tiles(scene, *A4)
    assert first.window.right - second.window.left == pytest.approx(12.0)
    join = (first.window.right + second.window.left) / 2
    assert abs(join - 180.0) > 2.5 + 4.0 - 1e-9


def test_a_circle_that_is_cut_becomes_chords_within_the_window() -> None:
    scene = Scene("t", "T", "t", (Circle((150.0, 30.0), 150.0),))
    for page in tiles(scene, *A4):
        for each in page.scene.primitives:
            assert not isinstance(each, Circle)


points = st.tuples(st.floats(-50, 50), st.floats(-50, 50))


@given(points, points)
def test_a_clipped_line_lies_in_the_window_and_on_the_line(
    a: tuple[float, float], b: tuple[float, float]
) -> None:
    window = Bounds(-10.0, -20.0, 30.0, 15.0)
    kept = clip_segment(a, b, window)
    samples = [(a[0] + (b[0] - a[0]) * k / 50, a[1] + (b[1] - a[1]) * k / 50) for k in range(51)]
    inside = [p for p in samples if -10 < p[0] < 30 and -20 < p[1] < 15]
    if kept is None:
        assert not inside or math.dist(a, b) == 0
        return
    for x, y in kept:
        assert -10 - 1e-9 <= x <= 30 + 1e-9
        assert -20 - 1e-9 <= y <= 15 + 1e-9
    length = math.dist(*kept)
    for p in inside:
        assert math.dist(kept[0], p) + math.dist(p, kept[1]) == pytest.approx(length, abs=1e-6)


def test_pages_are_refused_that_cannot_be_made() -> None:
    scene = row_holes(fitted("overlay"), "left")
    with pytest.raises(ValueError, match="too small"):
        tile(scene, 100.0, 281.0)
    with pytest.raises(ValueError, match="overlap"):
        tile(scene, *A4, 0.0)
    with pytest.raises(ValueError, match="true size"):
        tile(scale_to_paper(scene, 0.5), *A4)


def test_the_same_drawing_gives_the_same_pages() -> None:
    scene = row_holes(fitted("overlay"), "left")
    assert tile(scene, *A4) == tile(scene, *A4)
    assert extent(scene).width > A4[0]
