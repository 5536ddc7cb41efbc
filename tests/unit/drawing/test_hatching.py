from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.drawing.hatching import hatch_lines


def _star(radii: list[float]) -> tuple[tuple[float, float], ...]:
    """A simple polygon, concave in general: corners at rising angles around the origin."""
    step = 2 * math.pi / len(radii)
    return tuple((r * math.cos(i * step), r * math.sin(i * step)) for i, r in enumerate(radii))


stars = st.lists(st.floats(1, 50), min_size=4, max_size=12).map(_star)


def _inside(point: tuple[float, float], outline: tuple[tuple[float, float], ...]) -> bool:
    """By winding number, so not by the rule under test."""
    turned = 0.0
    for a, b in zip(outline, outline[1:] + outline[:1], strict=True):
        one = math.atan2(a[1] - point[1], a[0] - point[0])
        two = math.atan2(b[1] - point[1], b[0] - point[0])
        turned += (two - one + math.pi) % (2 * math.pi) - math.pi
    return abs(turned) > math.pi


def _shrunk(outline: tuple[tuple[float, float], ...], by: float) -> tuple[tuple[float, float], ...]:
    return tuple((x * by, y * by) for x, y in outline)


@given(stars, st.sampled_from([0.0, 30.0, 45.0, 135.0]), st.floats(0.7, 10))
def test_hatch_lines_stay_inside_the_polygon(
    outline: tuple[tuple[float, float], ...], angle: float, spacing: float
) -> None:
    grown = _shrunk(outline, 1 + 1e-6)
    for (x1, y1), (x2, y2) in hatch_lines(outline, angle, spacing):
        for part in (0.001, 0.25, 0.5, 0.75, 0.999):
            assert _inside((x1 + (x2 - x1) * part, y1 + (y2 - y1) * part), grown)


@given(stars, st.sampled_from([45.0, 60.0]))
def test_a_mirrored_polygon_gets_the_mirrored_lines(
    outline: tuple[tuple[float, float], ...], angle: float
) -> None:
    here = hatch_lines(outline, angle, 2.0)
    there = hatch_lines(tuple((-x, y) for x, y in outline), 180 - angle, 2.0)
    middles = sorted((-(a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in here)
    assert len(here) == len(there)
    for one, two in zip(
        middles, sorted(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in there), strict=True
    ):
        assert one == pytest.approx(two, abs=1e-6)


def test_the_lines_cover_the_area_that_their_spacing_promises() -> None:
    """Total length × spacing is the area, to within one spacing's fringe."""
    lines = hatch_lines(((0, 0), (100, 0), (100, 40), (0, 40)), 45.0, 0.5)
    assert sum(math.dist(a, b) for a, b in lines) * 0.5 == pytest.approx(4000, rel=0.01)


def test_every_line_lies_at_the_asked_angle() -> None:
    for (x1, y1), (x2, y2) in hatch_lines(((0, 0), (30, 0), (30, 9), (0, 9)), 45.0, 2.0):
        assert math.degrees(math.atan2(y2 - y1, x2 - x1)) == pytest.approx(45.0)


def test_spacing_of_nothing_and_polygons_of_two_corners_are_refused() -> None:
    with pytest.raises(ValueError, match="above zero"):
        hatch_lines(((0, 0), (1, 0), (1, 1)), 45.0, 0.0)
    with pytest.raises(ValueError, match="three corners"):
        hatch_lines(((0, 0), (1, 0)), 45.0, 1.0)
