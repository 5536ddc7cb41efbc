from __future__ import annotations

from collections.abc import Callable

import pytest

from drawerwright.drawing.primitives import Polyline
from drawerwright.drawing.scene import Dimension, Hatch, Leader, RunningDimension, Scene, quantities
from drawerwright.drawing.views.front import front
from drawerwright.drawing.views.plan import plan
from drawerwright.drawing.views.side import side_section
from drawerwright.model.fitted import FittedDrawer

from .drawers import FITTING, NOT_FITTING, TOLD, fitted

View = Callable[[FittedDrawer], Scene]
VIEWS: tuple[View, ...] = (plan, front, side_section)
every_view = pytest.mark.parametrize("view", VIEWS)


def _dimensions(scene: Scene) -> list[Dimension]:
    return [each for each in scene.primitives if isinstance(each, Dimension)]


def _of(scene: Scene, quantity: str) -> Dimension:
    (found,) = [each for each in _dimensions(scene) if each.quantity == quantity]
    return found


def _model_values(one: FittedDrawer) -> dict[str, float]:
    """What each dimension must say, straight from the fitted drawer."""
    values = {
        "opening_width": one.opening.width,
        "opening_height": one.opening.height,
        "opening_depth": one.opening.depth,
    }
    if one.box is not None and one.mounting is not None:
        values |= {
            "inside_width": one.box.inside_width,
            "outside_width": one.box.outside_width,
            "side_gap": one.box.side_gap,
            "box_length": one.box.length,
            "box_height": one.box.height,
            "bottom_recess": one.box.bottom_recess,
            "clearance_under": one.box.lower_edge - one.opening.floor,
            "front_end": one.mounting.front_end,
            "member": one.mounting.member,
        }
        for name in ("rear_bracket_left", "rear_bracket_right", "reach"):
            values[name] = getattr(one.mounting, name) or 0.0
    if one.front is not None and one.front.style != "none":
        values |= {
            "front_width": one.front.width,
            "front_height": one.front.height,
            "front_thickness": one.front.thickness,
            "stands_out": one.front.stands_out,
        }
        for edge in ("left", "right", "top", "bottom"):
            values[f"overlay_{edge}"] = getattr(one.front, edge)
    return values


@every_view
@pytest.mark.parametrize("name", TOLD)
def test_dimensions_show_the_values_of_the_model(view: View, name: str) -> None:
    one = fitted(name)
    values = _model_values(one)
    shown = _dimensions(view(one))
    assert shown
    for dimension in shown:
        if dimension.quantity in values:
            assert dimension.value == pytest.approx(values[dimension.quantity]), dimension.quantity


@every_view
@pytest.mark.parametrize("name", TOLD)
def test_what_is_drawn_is_as_long_as_its_dimension_says(view: View, name: str) -> None:
    for dimension in _dimensions(view(fitted(name))):
        (x1, y1), (x2, y2) = dimension.start, dimension.end
        drawn = abs(x2 - x1) if dimension.direction == "horizontal" else abs(y2 - y1)
        assert drawn == pytest.approx(abs(dimension.value), abs=1e-6), dimension.quantity


@every_view
@pytest.mark.parametrize("name", TOLD)
def test_hatched_parts_are_outlined_and_have_an_area(view: View, name: str) -> None:
    scene = view(fitted(name))
    outlined = {each.points for each in scene.primitives if isinstance(each, Polyline) and each.line == "cut"}
    hatched = [each for each in scene.primitives if isinstance(each, Hatch)]
    for hatch in hatched:
        assert hatch.outline in outlined
        xs, ys = {x for x, _ in hatch.outline}, {y for _, y in hatch.outline}
        assert max(xs) > min(xs)
        assert max(ys) > min(ys)


@every_view
@pytest.mark.parametrize("name", TOLD)
def test_alternative_text_names_the_opening(view: View, name: str) -> None:
    one = fitted(name)
    alt = view(one).alt
    assert f"{one.opening.width:g}" in alt or f"{one.opening.height:g}" in alt
    assert ("no slide fits" in alt or "no front" in alt) is (one.box is None)


def test_a_plan_says_opening_box_and_gaps() -> None:
    """16 mm sides, deduction 42, opening 561.5: 519.5 inside, 551.5 outside, 5 clear. Common practice."""
    scene = plan(fitted("overlay"))
    assert [each.value for each in _dimensions(scene) if each.quantity == "side_gap"] == [5.0, 5.0]
    assert _of(scene, "inside_width").value == 519.5
    assert _of(scene, "outside_width").value == 551.5
    assert _of(scene, "opening_width").value == 561.5


def test_a_front_view_is_laid_out_by_the_widest_reading() -> None:
    scene = front(fitted("overlay"))
    assert _of(scene, "widest_width").value == 562
    assert _of(scene, "front_width").value == 594
    assert _of(scene, "overlay_left").value == _of(scene, "overlay_right").value == 16


def test_the_side_section_counts_row_holes_from_the_front() -> None:
    (running,) = [e for e in side_section(fitted("overlay")).primitives if isinstance(e, RunningDimension)]
    assert running.values == (37.0, 69.0, 261.0, 293.0, 453.0)
    assert tuple(x for x, _ in running.marks) == running.values
    assert {y for _, y in running.marks} == {24.0}


def test_the_side_section_names_the_screw_line() -> None:
    notes = [e for e in side_section(fitted("overlay")).primitives if isinstance(e, Leader) and e.quantity]
    assert [(note.quantity, note.value, note.text) for note in notes] == [
        ("screw_line", 24.0, "screw line 24")
    ]


def test_a_face_frame_shows_overhangs_and_bracket_centres_from_the_cabinet_sides() -> None:
    """Standing in 38 and 41, bracket centre 14: 52 and 55 from the sides. Common practice."""
    scene = plan(fitted("frame"))
    assert (_of(scene, "overhang_left").value, _of(scene, "overhang_right").value) == (38, 41)
    assert (_of(scene, "rear_bracket_left").value, _of(scene, "rear_bracket_right").value) == (52, 55)
    left = max(x for x, _ in (_of(scene, "rear_bracket_left").start, _of(scene, "rear_bracket_left").end))
    right = min(x for x, _ in (_of(scene, "rear_bracket_right").start, _of(scene, "rear_bracket_right").end))
    assert right - left == pytest.approx(562 - 28)


def _cut_spans(scene: Scene, axis: int) -> list[tuple[float, float]]:
    return [
        (min(p[axis] for p in each.points), max(p[axis] for p in each.points))
        for each in scene.primitives
        if isinstance(each, Polyline) and each.line == "cut"
    ]


def test_an_inset_front_lies_inside_the_opening() -> None:
    one = fitted("inset")
    spans = _cut_spans(plan(one), 1)
    assert min(low for low, _ in spans) == 0.0
    assert one.front is not None
    front_span = (0.0, one.front.thickness)
    assert front_span in spans


def test_an_overlay_front_lies_before_the_cabinet() -> None:
    assert min(low for low, _ in _cut_spans(plan(fitted("overlay")), 1)) == -20.0


@pytest.mark.parametrize("name", ["overlay", "inset", "frame", "lost"])
@pytest.mark.parametrize("view", [plan, side_section])
def test_the_rejected_longer_slide_is_drawn_through_the_cabinet_back(view: View, name: str) -> None:
    one = fitted(name)
    axis = 1 if view is plan else 0
    dashed = [each for each in view(one).primitives if isinstance(each, Polyline) and each.line == "accent"]
    assert len(dashed) == 1
    assert max(point[axis] for point in dashed[0].points) > one.opening.depth


def test_without_a_longer_slide_nothing_is_in_the_accent() -> None:
    for view in VIEWS:
        for each in view(fitted("thin")).primitives:
            assert getattr(each, "line", "edge") != "accent"
            assert getattr(each, "tone", "ink") != "accent"


@pytest.mark.parametrize("name", NOT_FITTING)
def test_where_nothing_fits_the_opening_stands_and_the_stop_is_in_the_accent(name: str) -> None:
    one = fitted(name)
    scenes = [view(one) for view in VIEWS]
    shown = {quantity for scene in scenes for quantity in quantities(scene)}
    assert shown == {"opening_width", "opening_height", "opening_depth"}
    words = [each for scene in scenes for each in scene.primitives if getattr(each, "tone", "") == "accent"]
    dashed = [each for scene in scenes for each in scene.primitives if getattr(each, "line", "") == "accent"]
    assert words
    assert dashed


@pytest.mark.parametrize("name", FITTING)
def test_the_plan_is_even_about_the_middle_of_the_opening(name: str) -> None:
    """Box, members and brackets: what the section cuts of the box lies as far left as right."""
    one = fitted(name)
    assert one.box is not None
    spans = _cut_spans(plan(one), 0)
    half = one.box.outside_width / 2
    inner = one.box.inside_width / 2
    assert any(low == pytest.approx(-half) and high == pytest.approx(-inner) for low, high in spans)
    assert any(low == pytest.approx(inner) and high == pytest.approx(half) for low, high in spans)


def test_spacers_are_drawn_between_wood_and_bracket() -> None:
    """12.7 stuff: one 3 mm spacer before each bracket; sized by the outside, one beside it as well."""
    for name, beside in (("thin", 0), ("thin-outside", 2)):
        one = fitted(name)
        spacers = [
            each
            for each in plan(one).primitives
            if isinstance(each, Polyline) and each.line == "edge" and each.fill == "wood"
        ]
        narrow = [
            s
            for s in spacers
            if max(x for x, _ in s.points) - min(x for x, _ in s.points) == pytest.approx(3)
        ]
        assert len(narrow) == beside
        assert len(spacers) == beside + 2
