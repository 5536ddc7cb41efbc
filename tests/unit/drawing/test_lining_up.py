"""Drawings for lining up: readings at their gaps, arrows on the brackets, the year's chart."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from drawerwright.align.air import Air
from drawerwright.align.aligned import Move
from drawerwright.align.seasons import Climate, Seasons, seasons_of
from drawerwright.catalogue.wood_species import species_named
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Circle, Polyline, Text
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.views.bracket_moves import WIDTH, bracket_moves
from drawerwright.drawing.views.front_gaps import box_of, front_gaps
from drawerwright.drawing.views.season_chart import HEIGHT, season_chart
from drawerwright.model.fitted import FittedJob
from drawerwright.model.gaps import GAP_NAMES

EDGE = Bounds(0.0, 0.0, 58.0, 36.0)


def test_each_reading_has_a_box_of_its_own_beside_its_edge_or_inside_its_corner() -> None:
    boxes = {name: box_of(name, EDGE) for name in GAP_NAMES}
    assert len(set(boxes.values())) == 12
    for one, box in boxes.items():
        assert all(one == other or not box.overlaps(boxes[other]) for other in GAP_NAMES)
        x, y = box.centre
        if one.startswith("out"):
            assert 0 < x < 58
            assert 0 < y < 36
        elif one.startswith(("left", "right")):
            assert (x < 0) == one.startswith("left")
            assert (y > 18) == one.endswith("top")
        else:
            assert (y > 36) == one.startswith("top")
            assert (x < 29) == one.endswith("left")


def test_an_empty_front_asks_and_a_measured_one_tells() -> None:
    empty, told = (
        front_gaps("A", 600, 180),
        front_gaps("A", 600, 180, {"left_top": 3.25, "out_top_left": -0.5}),
    )
    assert "empty box" in empty.alt
    assert "left top 3.25" in told.alt
    words = [each.text for each in told.primitives if isinstance(each, Text)]
    assert "3.25" in words
    assert "−0.5" in words


def move(side: str, adjuster: str, marks: int) -> Move:
    return Move(side, adjuster, marks, marks * 0.25, f"{side} {adjuster} {marks}")  # type: ignore[arg-type]


@pytest.mark.parametrize(("marks", "up"), [(3, True), (-3, False)])
def test_a_move_of_one_bracket_is_an_arrow_on_its_side(marks: int, up: bool) -> None:
    scene = bracket_moves("A", [move("left", "height", marks)])
    heads = [each for each in scene.primitives if isinstance(each, Polyline) and each.fill == "ink"]
    (head,) = heads
    (tip, *wings) = head.points
    assert tip[0] < WIDTH / 2
    assert (tip[1] > wings[0][1]) == up
    assert any(isinstance(each, Text) and "3 marks" in each.text for each in scene.primitives)


def test_a_move_of_both_brackets_points_the_same_way_on_both() -> None:
    scene = bracket_moves("A", [move("both", "side", -2)])
    heads = [each.points for each in scene.primitives if isinstance(each, Polyline) and each.fill == "ink"]
    assert len(heads) == 2
    assert all(tip[0] < wing[0] for tip, wing, _ in heads)
    assert {tip[0] < WIDTH / 2 for tip, _, _ in heads} == {True, False}


def test_out_is_a_dot_and_in_a_cross() -> None:
    def dots(marks: int) -> int:
        scene = bracket_moves("A", [move("right", "depth", marks)])
        return sum(isinstance(each, Circle) and each.fill == "ink" for each in scene.primitives)

    assert (dots(1), dots(-1)) == (1, 0)


def test_brackets_are_handed() -> None:
    scene = bracket_moves("A", [])
    left, right = (each for each in scene.primitives if isinstance(each, Polyline) and each.fill == "metal")
    assert {(round(WIDTH - x, 6), y) for x, y in left.points} == {(round(x, 6), y) for x, y in right.points}
    assert "nothing to turn" in scene.alt


@pytest.fixture
def seasons(fit_many: Callable[..., FittedJob]) -> Seasons:
    """One inset front of cherry over a year."""
    house = Climate(Air(20.0, 0.45), Air(20.0, 0.45), Air(21.0, 0.25), Air(24.0, 0.65))
    return seasons_of(fit_many({"front": {"style": "inset"}}), species_named("cherry"), house)


def test_the_chart_of_a_year_has_a_curve_a_gap_that_stays_above_the_limit(seasons: Seasons) -> None:
    scene = season_chart(seasons, "A")
    curves = [each for each in scene.primitives if isinstance(each, Polyline) and len(each.points) == 13]
    assert len(curves) == 2
    for curve in curves:
        heights = [y for _, y in curve.points]
        assert heights[0] == pytest.approx(heights[-1])
        assert 0 < min(heights) == heights[6] < max(heights) < HEIGHT
    assert "never under 1 mm" in {each.text for each in scene.primitives if isinstance(each, Text)}
    with pytest.raises(ValueError, match="no front of drawer B"):
        season_chart(seasons, "B")


def test_a_narrow_chart_has_the_same_year_with_its_words_under_it(seasons: Seasons) -> None:
    wide, narrow = season_chart(seasons, "A"), season_chart(seasons, "A", narrow=True)

    def words(scene: Scene) -> list[str]:
        return sorted(one.text for one in scene.primitives if isinstance(one, Text) and "set" in one.text)

    def heights(scene: Scene) -> list[list[float]]:
        return [[y for _, y in one.points] for one in scene.primitives if isinstance(one, Polyline)]

    assert words(narrow) == words(wide)
    assert heights(narrow)[1:] == heights(wide)[1:]
    assert narrow.page is not None
    assert narrow.page.width < 90
    for one in narrow.primitives:
        if isinstance(one, Text) and "set" in one.text:
            assert narrow.page.bottom < one.at[1] < -6.0
            assert one.at[0] + one.shift[0] + 0.55 * one.size * len(one.text) < narrow.page.right


def test_the_same_drawings_give_the_same_bytes(seasons: Seasons) -> None:
    for make in (lambda: season_chart(seasons, "A"), lambda: front_gaps("A", 600, 180),
                 lambda: bracket_moves("A", [move("left", "depth", 2)])):  # fmt: skip
        svg = write_svg(make())
        assert svg == write_svg(make())
        assert re.search(r"<(svg|title)", svg)
