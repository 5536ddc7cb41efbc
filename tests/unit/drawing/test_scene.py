from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.drawing.drawn import drawn
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Arc, Hole, Polyline, Text, rectangle
from drawerwright.drawing.scene import (
    Dimension,
    Hatch,
    RunningDimension,
    Scene,
    mirror,
    scale_to_paper,
    translate,
)

from .strategies import lengths, scenes


def _points(scene: Scene) -> list[tuple[float, float]]:
    return [point for each in scene.primitives for point in each.points]


def _flat(points: list[tuple[float, float]]) -> list[float]:
    return [value for point in points for value in point]


@given(scenes)
def test_a_scene_mirrored_twice_has_every_point_where_it_was(scene: Scene) -> None:
    again = mirror(mirror(scene))
    assert _flat(sorted(_points(again))) == pytest.approx(_flat(sorted(_points(scene))))


@given(scenes)
def test_a_mirrored_scene_has_every_point_on_the_other_side(scene: Scene) -> None:
    there = mirror(scene)
    assert there.bounds.left == -scene.bounds.right
    assert there.bounds.right == -scene.bounds.left
    assert (there.bounds.bottom, there.bounds.top) == (scene.bounds.bottom, scene.bounds.top)


@given(scenes, st.sampled_from([1.0, 0.5, 0.2, 0.1]))
def test_scaling_moves_every_point_towards_the_origin_by_the_scale(scene: Scene, scale: float) -> None:
    scaled = scale_to_paper(scene, scale)
    assert scaled.scale == scale
    for (x, y), (u, v) in zip(_points(scene), _points(scaled), strict=True):
        assert (u, v) == pytest.approx((x * scale, y * scale), abs=1e-9)


@given(scenes, st.sampled_from([0.5, 0.2]))
def test_scaling_leaves_lettering_and_values_alone(scene: Scene, scale: float) -> None:
    scaled = scale_to_paper(scene, scale)
    for before, after in zip(scene.primitives, scaled.primitives, strict=True):
        for kept in ("size", "value", "values", "offset", "spacing", "elbow", "shift", "depth"):
            assert getattr(before, kept, None) == getattr(after, kept, None)


@given(scenes, lengths, lengths)
def test_moving_there_and_back_changes_nothing(scene: Scene, dx: float, dy: float) -> None:
    back = translate(translate(scene, dx, dy), -dx, -dy)
    for before, after in zip(_points(scene), _points(back), strict=True):
        assert after == pytest.approx(before, abs=1e-6)


@given(scenes)
def test_laying_out_a_mirrored_scene_mirrors_all_its_polygons_and_holes(scene: Scene) -> None:
    """Arrows and outlines; lettering keeps reading from the left, so it is not compared."""
    kept = tuple(each for each in scene.primitives if not isinstance(each, Text | Dimension))
    shapes = Scene("shapes", "", "Shapes", kept or (rectangle(Bounds(1, 2, 3, 4)),))
    here, there = _corners(shapes), _corners(mirror(shapes))
    assert _flat(sorted((-x, y) for x, y in here)) == pytest.approx(_flat(sorted(there)))


def _corners(scene: Scene) -> list[tuple[float, float]]:
    return [
        (round(x, 6), round(y, 6))
        for group in drawn(scene)
        for item in group.items
        if isinstance(item, Polyline | Hole)
        for x, y in ((item.centre,) if isinstance(item, Hole) else item.points)
    ]


def test_a_mirrored_arc_still_runs_counter_clockwise_over_the_mirrored_way() -> None:
    (there,) = mirror(Scene("arc", "", "An arc", (Arc((10.0, 0.0), 5.0, 0.0, 90.0),))).primitives
    assert isinstance(there, Arc)
    assert (there.centre, there.start_deg, there.end_deg) == ((-10.0, 0.0), 90.0, 180.0)


def test_a_mirrored_hatch_turns_its_direction() -> None:
    hatch = Hatch(((0, 0), (10, 0), (10, 5)), 45.0)
    (there,) = mirror(Scene("hatch", "", "A hatch", (hatch,))).primitives
    assert isinstance(there, Hatch)
    assert there.angle_deg == 135.0


def test_mirrored_lettering_hangs_from_its_other_end_and_is_not_reversed() -> None:
    text = Text((10.0, 3.0), "front edge", anchor="start", shift=(1.0, 2.0))
    (there,) = mirror(Scene("text", "", "Words", (text,))).primitives
    assert isinstance(there, Text)
    assert (there.at, there.anchor, there.shift, there.text) == (
        (-10.0, 3.0),
        "end",
        (-1.0, 2.0),
        "front edge",
    )


def test_a_dimension_keeps_the_value_it_was_given_whatever_is_drawn() -> None:
    given_value = Dimension("inside_width", 519.5, (0, 0), (100, 0), "horizontal", 0, 6)
    (scaled,) = scale_to_paper(Scene("one", "", "One", (given_value,)), 0.1).primitives
    assert isinstance(scaled, Dimension)
    assert scaled.value == 519.5
    assert math.dist(scaled.start, scaled.end) == pytest.approx(10)


def test_a_scene_without_alternative_text_is_refused() -> None:
    with pytest.raises(ValueError, match="alternative text"):
        Scene("plan", "Plan", "  ", (rectangle(Bounds(0, 0, 1, 1)),))


@pytest.mark.parametrize("scale", [0.0, -0.2, math.nan])
def test_a_scale_that_is_not_above_zero_is_refused(scale: float) -> None:
    scene = Scene("one", "", "One", (rectangle(Bounds(0, 0, 1, 1)),))
    with pytest.raises(ValueError, match="above zero"):
        scale_to_paper(scene, scale)


def test_a_running_dimension_wants_one_value_a_mark() -> None:
    with pytest.raises(ValueError, match="one value for each mark"):
        RunningDimension("first_hole", (0, 0), ((37, 0), (69, 0)), (37.0,), 0, -8)


def test_a_polygon_of_two_corners_is_refused() -> None:
    with pytest.raises(ValueError, match="three"):
        Polyline(((0, 0), (1, 0)), closed=True)
