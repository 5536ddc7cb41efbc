"""Sections by the line method: turned, mirrored, moved; what bends lose in compression; cold work."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.equations.mechanics.cold_work import bending_yield
from drawerwright.equations.mechanics.effective_width import effective_section, is_fully_effective
from drawerwright.equations.mechanics.midlines import Point, elements_of
from drawerwright.equations.mechanics.rolled_sections import (
    SectionProperties,
    outline_of,
    section_properties,
)

ANGLE: list[Point] = [(0.0, 30.0), (0.0, 0.0), (18.0, 0.0)]
HAT: list[Point] = [(-20.0, 0.0), (-10.0, 0.0), (-10.0, 15.0), (10.0, 15.0), (10.0, 0.0), (20.0, 0.0)]
E = 203_400.0


def section(points: list[Point], radius: float = 1.0, thickness: float = 1.2) -> SectionProperties:
    return section_properties(elements_of(points, (radius,), thickness), thickness)


def test_a_flat_bar_is_a_rectangle() -> None:
    found = section([(0.0, 0.0), (0.0, 20.0)], thickness=3.0)
    assert found.area == pytest.approx(60.0)
    assert found.ix == pytest.approx(3 * 20**3 / 12)
    assert found.iy == pytest.approx(20 * 3**3 / 12)
    assert found.torsion == pytest.approx(20 * 27 / 3)
    assert (found.above, found.below) == (10.0, 10.0)


def test_a_bar_that_lies_askew_has_its_axes_along_itself() -> None:
    found = section([(0.0, 0.0), (10.0, 10.0)], thickness=2.0)
    assert found.smaller == pytest.approx(math.hypot(10, 10) * 2**3 / 12)
    assert found.larger == pytest.approx(2 * math.hypot(10, 10) ** 3 / 12)
    assert abs(found.angle_deg) == pytest.approx(45.0)
    # It is stiffest about the axis across itself, which leans to the left.
    assert found.angle_deg == pytest.approx(-45.0)


def test_a_quarter_bend_is_as_tabled_for_thin_sheet() -> None:
    """Length 1.57 r, centroid 0.637 r from the arc's centre, own second moment 0.149 r³ a thickness."""
    radius, thickness = 10.0, 0.01
    (bend,) = elements_of([(0.0, 0.0), (radius, 0.0), (radius, radius)], (radius - thickness / 2,), thickness)
    found = section_properties([bend], thickness)
    assert bend.length == pytest.approx(1.57 * radius, rel=1e-3)
    assert radius - found.y == pytest.approx(0.637 * radius, rel=1e-3)
    assert found.ix == pytest.approx(0.149 * radius**3 * thickness, rel=2e-3)


@given(angle=st.floats(-180, 180), dx=st.floats(-50, 50), dy=st.floats(-50, 50))
def test_a_section_that_is_turned_and_moved_keeps_its_principal_values(
    angle: float, dx: float, dy: float
) -> None:
    turn = math.radians(angle)
    moved = [
        (x * math.cos(turn) - y * math.sin(turn) + dx, x * math.sin(turn) + y * math.cos(turn) + dy)
        for x, y in ANGLE
    ]
    one, other = section(ANGLE), section(moved)
    assert other.area == pytest.approx(one.area)
    assert other.larger == pytest.approx(one.larger)
    assert other.smaller == pytest.approx(one.smaller)
    assert math.cos(2 * math.radians(other.angle_deg - one.angle_deg - angle)) == pytest.approx(1.0)


@given(factor=st.floats(0.2, 20.0))
def test_second_moments_grow_with_the_fourth_power_of_size(factor: float) -> None:
    one = section(HAT)
    other = section([(x * factor, y * factor) for x, y in HAT], 1.0 * factor, 1.2 * factor)
    assert other.area == pytest.approx(one.area * factor**2)
    assert other.ix == pytest.approx(one.ix * factor**4)
    assert other.torsion == pytest.approx(one.torsion * factor**4)


def test_a_mirrored_section_leans_the_other_way() -> None:
    one, other = section(ANGLE), section([(-x, y) for x, y in ANGLE])
    assert other.ixy == pytest.approx(-one.ixy)
    assert other.angle_deg == pytest.approx(-one.angle_deg)


def test_the_outermost_fibres_are_those_of_the_outline() -> None:
    elements = elements_of(HAT, (2.0,), 1.2)
    heights = [y for _, y in outline_of(elements, 1.2, arcs=64)]
    found = section_properties(elements, 1.2)
    assert found.y + found.above == pytest.approx(max(heights), abs=1e-3)
    assert found.y - found.below == pytest.approx(min(heights), abs=1e-3)


def test_a_thick_section_counts_whole_and_a_thin_one_does_not() -> None:
    thick, thin = elements_of(HAT, (1.0,), 1.2), elements_of(HAT, (1.0,), 0.12)
    assert is_fully_effective(thick, 1.2, 300.0, E, top_pressed=True)
    assert not is_fully_effective(thin, 0.12, 300.0, E, top_pressed=True)


@given(stress=st.floats(10.0, 2000.0), thickness=st.floats(0.05, 1.5))
def test_less_counts_the_harder_it_is_pressed(stress: float, thickness: float) -> None:
    elements = elements_of(HAT, (1.0,), thickness)
    whole = section_properties(elements, thickness)
    for top in (True, False):
        some = effective_section(elements, thickness, stress, E, top_pressed=top)
        less = effective_section(elements, thickness, stress * 2, E, top_pressed=top)
        assert less.area <= some.area * (1 + 1e-9)
        assert some.area <= whole.area * (1 + 1e-9)


def test_a_side_that_is_pulled_counts_whole() -> None:
    """A hat pressed below: only its brims and the foot of its webs can buckle."""
    elements = elements_of(HAT, (1.0,), 0.2)
    foot = effective_section(elements, 0.2, 300.0, E, top_pressed=False)
    top = effective_section(elements, 0.2, 300.0, E, top_pressed=True)
    whole = section_properties(elements, 0.2)
    assert foot.y > whole.y > top.y


def test_cold_work_raises_the_yield_strength_between_that_of_flats_and_corners() -> None:
    yields, worked = bending_yield(elements_of(HAT, (1.0,), 1.2), 1.2, 280.0, 370.0, E)
    assert worked
    assert 280.0 < yields <= 370.0


@pytest.mark.parametrize(
    ("ultimate", "radius", "thickness"),
    [(None, 1.0, 1.2), (320.0, 1.0, 1.2), (370.0, 6.0, 0.5), (370.0, 1.0, 0.12)],
)
def test_cold_work_counts_only_where_the_rule_allows_it(
    ultimate: float | None, radius: float, thickness: float
) -> None:
    """Not without an ultimate strength of 1.2 times yield, on a wide bend, or where flats buckle."""
    elements = elements_of(HAT, (radius,), thickness)
    assert bending_yield(elements, thickness, 280.0, ultimate, E) == (280.0, False)


def test_cold_work_gains_nothing_where_the_outermost_fibre_is_a_free_edge() -> None:
    upright = elements_of([(0.0, 30.0), (0.0, 0.0), (20.0, 0.0), (20.0, 30.0)], (1.0,), 1.2)
    assert bending_yield(upright, 1.2, 280.0, 370.0, E) == (280.0, False)
