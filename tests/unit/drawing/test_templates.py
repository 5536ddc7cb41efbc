from __future__ import annotations

from itertools import pairwise

import pytest

from drawerwright.drawing.dimensioning import lay_out_dimension
from drawerwright.drawing.geometry import Placement, Point
from drawerwright.drawing.primitives import Hole, Lines, Polyline, Slot, Text
from drawerwright.drawing.scene import Dimension, Hatch, Scene
from drawerwright.drawing.templates import box_back, front_fixing, locking_bracket, row_holes, templates
from drawerwright.drawing.templates.breaking import GAP, broken
from drawerwright.drawing.views.cabinet_side import Hand

from .drawers import FITTING, NOT_FITTING, fitted


def _holes(scene: Scene, operation: str) -> list[tuple[float, float]]:
    return [
        each.centre
        for each in scene.primitives
        if isinstance(each, Hole) and each.operation.startswith(operation)
    ]


def _words(scene: Scene) -> str:
    return " | ".join(each.text for each in scene.primitives if isinstance(each, Text))


@pytest.mark.parametrize("name", FITTING)
def test_row_holes_lie_from_front_edge_and_floor_as_the_model_says(name: str) -> None:
    one = fitted(name)
    assert one.mounting is not None
    if not one.mounting.holes_from_side_edge:
        with pytest.raises(ValueError, match="no row holes"):
            row_holes(one, "left")
        return
    places = [(x, one.mounting.screw_line) for x in one.mounting.holes_from_side_edge]
    assert _holes(row_holes(one, "left"), "row holes") == places
    assert _holes(row_holes(one, "right"), "row holes") == [(-x, y) for x, y in places]


@pytest.mark.parametrize("make", [row_holes, locking_bracket])
def test_hands_are_mirrors_but_for_their_lettering(make: object) -> None:
    one = fitted("thin-outside")
    left, right = (make(one, hand) for hand in ("left", "right"))  # type: ignore[operator]
    mirrored = [
        each.placed(Placement(mirrored=True))
        for each in left.primitives
        if isinstance(each, Hole | Slot | Hatch)
    ]
    assert mirrored == [each for each in right.primitives if isinstance(each, Hole | Slot | Hatch)]
    assert "LEFT" in _words(left)
    assert "RIGHT" not in _words(left)
    assert "RIGHT" in _words(right)
    assert "LEFT" not in _words(right)


def test_a_row_high_above_the_floor_is_set_out_from_a_pencil_line_at_a_round_height() -> None:
    """Screw line 216 above the floor: 40 below it and down to a ten is 170; in inches 6 1/2."""
    one = fitted("high-row")
    assert one.mounting is not None
    assert one.mounting.screw_line == 216.0
    assert "pencil line 170 above the floor of the cabinet" in _words(row_holes(one, "left"))
    assert "pencil line 6-1/2″ above the floor" in _words(row_holes(one, "left", units="in"))
    assert "floor of the cabinet" in _words(row_holes(fitted("low-row"), "left"))


def test_bracket_holes_stand_past_the_spacers_by_the_familys_measures() -> None:
    """Family [12, 9], [28, 9], [12, 25]; spacers of 3 at side and subfront: 15, 31 and 12, 28."""
    plain = _holes(locking_bracket(fitted("overlay"), "left"), "pilot")
    assert plain == [(-12, 9), (-28, 9), (-12, 25)]
    one = fitted("thin-outside")
    assert one.slide is not None
    assert (one.slide.side_spacers, one.slide.subfront_spacers) == ((3,), (3,))
    assert _holes(locking_bracket(one, "left"), "pilot") == [(-15, 12), (-31, 12), (-15, 28)]
    assert "spacer 3 against the side" in _words(locking_bracket(one, "left"))


def test_hook_bores_keep_their_distance_from_the_end_though_the_middle_is_broken() -> None:
    """7 in from the seat of the inside face, 13 + 11 above the lower edge of the box: common practice."""
    scene = box_back(fitted("overlay"))
    (x1, y1), (x2, y2) = _holes(scene, "hook bore")
    edges = sorted({x for each in scene.primitives for x, _ in each.points if _is_datum(each)})
    assert (y1, y2) == (24.0, 24.0)
    assert x1 - edges[1] == pytest.approx(7.0)
    assert edges[-2] - x2 == pytest.approx(7.0)
    assert edges[1] - edges[0] == pytest.approx(16.0)


def _is_datum(each: object) -> bool:
    return getattr(each, "layer", "") == "datum edges"


def test_seen_from_behind_the_drawers_right_hand_is_at_the_left() -> None:
    for scene in (box_back(fitted("overlay")), front_fixing(fitted("overlay"))):
        words = {each.text: each.at[0] for each in scene.primitives if isinstance(each, Text)}
        assert words["RIGHT"] < words["LEFT"]


def test_the_front_fixing_is_the_models_seen_from_behind() -> None:
    one = fitted("overlay")
    assert one.fixing is not None
    assert one.front is not None
    scene = front_fixing(one)
    found = _holes(scene, "screw holes")
    assert [y for _, y in found] == [y for _, y in one.fixing.holes_in_front]
    left = min(x for each in scene.primitives for x, _ in each.points if _is_datum(each))
    half = one.front.width / 2
    wanted = {half - abs(x) for x, _ in one.fixing.holes_in_front if x > 0}
    assert {round(x - left, 6) for x, _ in found if x < 0} == {round(each, 6) for each in wanted}


@pytest.mark.parametrize("name", FITTING)
def test_every_template_is_at_true_size_and_names_its_drawers(name: str) -> None:
    found = templates(fitted(name), ids=("B1-1", "B1-2"))
    assert found
    for _, scene in found:
        assert scene.scale == 1.0
        assert "drawers B1-1, B1-2" in _words(scene)
        assert scene.title.endswith("drawers B1-1, B1-2")


@pytest.mark.parametrize("name", NOT_FITTING)
def test_where_nothing_fits_there_is_no_template(name: str) -> None:
    assert templates(fitted(name)) == ()


def test_many_drawers_are_told_by_the_first_ones_and_their_number() -> None:
    ids = tuple(f"D{k}" for k in range(20))
    assert "D7 and 12 more" in _words(box_back(fitted("overlay"), ids=ids))


def test_a_broken_length_keeps_what_is_near_its_features() -> None:
    lie = broken(-300.0, 300.0, (-250.0, 250.0))
    assert lie.kept == ((-300.0, -224.0), (224.0, 300.0))
    assert lie.place(300.0) - lie.place(250.0) == pytest.approx(50.0)
    assert lie.edges == pytest.approx((-76.0 - GAP / 2, 76.0 + GAP / 2))
    with pytest.raises(ValueError, match="is broken"):
        lie.place(0.0)


def test_a_short_length_is_not_broken() -> None:
    lie = broken(-60.0, 60.0, (-40.0, 40.0))
    assert lie.kept == ((-60.0, 60.0),)
    assert lie.breaks(0.0, 10.0) == []
    assert lie.place(12.5) == 12.5


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("name", ["thin-outside", "overlay"])
def test_no_line_strikes_through_the_words_of_a_bracket_s_datums(name: str, hand: Hand) -> None:
    """With spacers too: their edges lie beyond the words, and so do the lines down to the numbers."""
    scene = locking_bracket(fitted(name), hand)
    words = [each for each in scene.primitives if isinstance(each, Text) and " of the " in each.text]
    edges = [each for each in scene.primitives if isinstance(each, Polyline | Lines)]
    edges += [one for each in scene.primitives if isinstance(each, Dimension) for one in _lines_of(each)]
    assert len([one for one in words if one.backed]) == 2
    for one in words:
        if not one.backed:
            continue
        box = one.extent
        for edge in edges:
            for start, end in _segments(edge):
                left, right = sorted((start[0], end[0]))
                low, high = sorted((start[1], end[1]))
                apart = right < box.left or left > box.right or high < box.bottom or low > box.top
                assert apart, f"{one.text} is struck through from {start} to {end}"


def _lines_of(dimension: Dimension) -> list[Lines]:
    return [each for each in lay_out_dimension(dimension) if isinstance(each, Lines)]


def _segments(drawn: Polyline | Lines) -> list[tuple[Point, Point]]:
    """Straight lines of a drawn thing; the hatching of wood goes behind words on their own paper."""
    if isinstance(drawn, Lines):
        return list(drawn.segments)
    return list(pairwise(drawn.points))
