"""The chart of closing as a drawing: three hatchings, three words, edges where drawers change their ways."""

from __future__ import annotations

import math

import pytest

from drawerwright.carry.closing import closing_of
from drawerwright.carry.closing_chart import ClosingChart, closing_chart
from drawerwright.carry.closing_checks import SOFT
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Circle, Polyline, Text
from drawerwright.drawing.scene import Hatch, Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.views.closing_chart import (
    HATCHINGS,
    HEIGHT,
    WIDTH,
    WORDS,
    edges_of,
    ticks_between,
)
from drawerwright.drawing.views.closing_chart import closing_chart as drawn_chart
from drawerwright.model.family import SoftClose

UNIT = SoftClose(capture=50, pull_in=8, spring=0.2, damping=0.1, drag=0.008)


@pytest.fixture(scope="module")
def chart() -> ClosingChart:
    return closing_chart(UNIT, 500)


def texts(scene: Scene) -> list[str]:
    return [one.text for one in scene.primitives if isinstance(one, Text)]


def test_each_area_has_a_hatching_of_its_own_and_its_word_in_field_and_legend(chart: ClosingChart) -> None:
    scene = drawn_chart(chart)
    assert len(set(HATCHINGS.values())) == len(WORDS) == 3
    for state, word in WORDS.items():
        assert texts(scene).count(word) == 2
        angles = {
            (one.angle_deg, one.spacing)
            for one in scene.primitives
            if isinstance(one, Hatch) and one.layer == state
        }
        assert angles == set(HATCHINGS[state])


def test_areas_together_cover_the_field_once(chart: ClosingChart) -> None:
    def area(outline: tuple[tuple[float, float], ...]) -> float:
        turned = zip(outline, (*outline[1:], outline[0]), strict=True)
        return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in turned)) / 2

    hatched = [
        one
        for one in drawn_chart(chart).primitives
        if isinstance(one, Hatch) and min(y for _, y in one.outline) >= 0
    ]
    first = {state: hatchings[0] for state, hatchings in HATCHINGS.items()}
    once = [one for one in hatched if (one.angle_deg, one.spacing) == first[one.layer]]  # type: ignore[index]
    assert sum(area(one.outline) for one in once) == pytest.approx(WIDTH * HEIGHT)


def test_on_either_side_of_an_edge_the_run_of_one_drawer_ends_otherwise(chart: ClosingChart) -> None:
    slams, stalls = edges_of(chart)
    for column in (20, 30, 40, 48):
        mass = float(chart.masses[column])
        for edge, under in ((slams[column], True), (stalls[column], False)):
            if not chart.tilts[0] < edge < chart.tilts[-1]:
                continue
            lower = closing_of(mass, UNIT, travel=500, tilt_deg=edge - 0.03)
            upper = closing_of(mass, UNIT, travel=500, tilt_deg=edge + 0.03)
            assert lower is not None
            assert upper is not None
            if under:
                assert (lower.pushed.slam_speed or 0) > SOFT > (upper.pushed.slam_speed or 0)
            else:
                assert lower.pushed.closes
                assert not upper.pushed.closes


def test_a_drawer_is_marked_at_its_place_and_named_in_the_alternative_text(chart: ClosingChart) -> None:
    one = closing_of(27, UNIT, travel=500, tilt_deg=0.5)
    scene = drawn_chart(chart, one)
    assert "this drawer: 27 kg, closes softly" in texts(scene)
    assert "this drawer of 27 kg at 0.5 degrees closes softly" in scene.alt
    beyond = closing_of(270, UNIT, travel=500)
    assert not any("this drawer" in text for text in texts(drawn_chart(chart, beyond)))


def test_inches_bring_pounds_to_the_axis(chart: ClosingChart) -> None:
    assert "moving mass, lb" in texts(drawn_chart(chart, units="in"))
    assert "moving mass, kg" in texts(drawn_chart(chart))


def test_a_field_of_one_area_alone_is_drawn(chart: ClosingChart) -> None:
    del chart
    scene = drawn_chart(closing_chart(UNIT, 500, [3.0, 4.0], [-0.5, 0.5]))
    assert texts(scene).count(WORDS["closes"]) == 2
    assert texts(scene).count(WORDS["slams"]) == 1
    assert "100 %" in scene.alt


def test_the_same_chart_gives_the_same_bytes_without_a_number_that_is_none(chart: ClosingChart) -> None:
    one, other = (write_svg(drawn_chart(closing_chart(UNIT, 500))) for _ in range(2))
    assert one == other
    assert "nan" not in one.lower().replace("ingenan", "")
    assert write_svg(drawn_chart(chart)) == one


@pytest.mark.parametrize(("low", "high"), [(2.0, 60.0), (-2.0, 4.0), (0.1, 0.2), (4.4, 132.3)])
def test_ticks_are_round_few_and_inside(low: float, high: float) -> None:
    ticks = ticks_between(low, high)
    assert 2 <= len(ticks) <= 9
    assert all(low - 1e-9 <= tick <= high + 1e-9 for tick in ticks)
    step = ticks[1] - ticks[0]
    leading = step / 10 ** math.floor(math.log10(step) + 1e-9)
    assert leading == pytest.approx(round(leading))


@pytest.mark.parametrize("mass", [5.0, 25.0, 35.0, 58.0])
@pytest.mark.parametrize("size", [(60.0, 40.0), (75.0, 60.0), (WIDTH, HEIGHT)])
def test_words_inside_a_field_of_any_size_are_apart_and_keep_to_it(
    chart: ClosingChart, size: tuple[float, float], mass: float
) -> None:
    closing = closing_of(mass, UNIT, travel=500.0)
    scene = drawn_chart(chart, closing, size=size)
    inside = [
        one.extent
        for one in scene.primitives
        if isinstance(one, Text) and one.weight == "semibold" and 0 < one.at[1] < size[1]
    ]
    assert len(inside) >= 2
    assert not [1 for at, one in enumerate(inside) for other in inside[:at] if one.overlaps(other)]
    assert all(one.left > -0.5 and one.right < size[0] + 0.5 for one in inside)
    assert max(max(x for x, _ in one.points) for one in scene.primitives if isinstance(one, Hatch)) == size[0]


@pytest.mark.parametrize("tilt", [-1.5, -0.5, 0.0, 0.2, 1.0, 3.0])
@pytest.mark.parametrize("mass", [4.0, 13.5, 20.0, 27.0, 40.0, 55.0])
def test_no_word_of_an_area_lies_under_the_mark_of_a_drawer(
    chart: ClosingChart, mass: float, tilt: float
) -> None:
    closing = closing_of(mass, UNIT, travel=500.0, tilt_deg=tilt)
    for size in ((75.0, 60.0), (WIDTH, HEIGHT)):
        scene = drawn_chart(chart, closing, size=size)
        (dot,) = [one for one in scene.primitives if isinstance(one, Circle)]
        (lead,) = [one for one in scene.primitives if isinstance(one, Polyline) and one.line == "leader"]
        x, y = dot.centre
        room = Bounds(x - dot.radius, y - dot.radius, x + dot.radius, y + dot.radius)
        words = [
            one
            for one in scene.primitives
            if isinstance(one, Text) and one.text in WORDS.values() and one.backed
        ]
        for word in words:
            assert not word.extent.overlaps(room), word.text
            for px, py in lead.points:
                assert not word.extent.overlaps(Bounds(px, py, px, py).grown(0.1)), word.text


def test_speeds_of_the_chart_are_in_the_units_that_are_asked_for(chart: ClosingChart) -> None:
    assert any("250 mm/s" in text for text in texts(drawn_chart(chart)))
    inch = texts(drawn_chart(chart, units="in"))
    assert any("9.8 in/s" in text for text in inch)
    assert not any("mm" in text for text in inch)


def test_the_legend_of_a_narrow_field_takes_more_rows(chart: ClosingChart) -> None:
    def rows(width: float) -> set[float]:
        drawn = drawn_chart(chart, size=(width, 40.0)).primitives
        return {one.at[1] for one in drawn if isinstance(one, Text) and one.at[1] < -12}

    assert len(rows(WIDTH)) == 1
    assert len(rows(70.0)) == 2
