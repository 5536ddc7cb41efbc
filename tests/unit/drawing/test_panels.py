from __future__ import annotations

import io

import ezdxf
import pytest
from ezdxf.document import Drawing

from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.primitives import Hole, Polyline, Text
from drawerwright.drawing.scene import Dimension, Leader, Scene, mirror
from drawerwright.drawing.views.bottom_panel import bottom
from drawerwright.drawing.views.box_side import box_side
from drawerwright.drawing.views.cabinet_back import cabinet_back
from drawerwright.drawing.views.cabinet_side import cabinet_side
from drawerwright.drawing.views.cross_pieces import box_back, subfront
from drawerwright.drawing.views.front_panel import front_panel
from drawerwright.drawing.views.panels import panels

from .drawers import FITTING, NOT_FITTING, fitted


def _read(scene: Scene) -> Drawing:
    return ezdxf.read(io.StringIO(write_dxf(scene).decode("utf-8")))  # type: ignore[attr-defined,no-any-return]


def _centres(scene: Scene) -> list[tuple[float, float]]:
    return [
        (round(c.dxf.center.x, 6), round(c.dxf.center.y, 6))
        for c in _read(scene).modelspace().query("CIRCLE")
    ]


@pytest.mark.parametrize("name", FITTING)
def test_row_holes_in_the_dxf_are_where_the_model_says(name: str) -> None:
    one = fitted(name)
    assert one.mounting is not None
    centres = _centres(cabinet_side(one, "left"))
    assert [x for x, _ in centres] == pytest.approx(list(one.mounting.holes_from_side_edge), abs=0.001)
    for _, y in centres:
        assert y == pytest.approx(one.mounting.screw_line, abs=0.001)


@pytest.mark.parametrize("name", FITTING)
def test_the_right_cabinet_side_is_the_left_one_mirrored(name: str) -> None:
    one = fitted(name)
    left, right = cabinet_side(one, "left"), cabinet_side(one, "right")
    assert mirror(left).primitives == right.primitives
    assert [(-x, y) for x, y in _centres(left)] == _centres(right)
    assert (left.name, right.name) == ("cabinet-side-left", "cabinet-side-right")
    assert "Left" not in right.title + right.alt


def test_first_holes_by_common_practice() -> None:
    """37 behind the edge, 32 apart; an inset front of 19 puts it 57 (front_inset 3 over front_overlay 2)."""
    assert [x for x, _ in _centres(cabinet_side(fitted("overlay"), "left"))][:2] == [37, 69]
    assert [x for x, _ in _centres(cabinet_side(fitted("inset"), "left"))][:2] == [57, 89]


def test_on_a_face_frame_the_holes_count_from_the_edge_of_the_side() -> None:
    """Frame 19 thick, side let in by 6: 13 less than from the frame's face. Geometry."""
    one = fitted("frame-packed-inset")
    assert one.mounting is not None
    centres = _centres(cabinet_side(one, "left"))
    assert [x + 13 for x, _ in centres] == pytest.approx(list(one.mounting.holes))


def test_a_rear_bracket_needs_no_hole_in_the_side_but_has_its_height_marked() -> None:
    scene = cabinet_side(fitted("frame"), "left")
    assert not _centres(scene)
    heights = [
        e for e in scene.primitives if isinstance(e, Dimension) and e.quantity == "rear_bracket_height"
    ]
    assert [each.value for each in heights] == [24.0]


def test_only_holes_are_for_the_machine_on_a_cabinet_side() -> None:
    layers = {entity.dxf.layer for entity in _read(cabinet_side(fitted("overlay"), "left")).modelspace()}
    work = {layer for layer in layers if "not cut" not in layer and "not bored" not in layer}
    assert work == {"row holes 5 mm deep 13", "dimensions", "notes"}


def test_hook_bores_stand_off_the_seat_by_the_familys_measures() -> None:
    """Opening 561.5, deduction 42: seats 259.75 from the middle; 7 in: 252.75; 13 + 11 up: 24."""
    holes = [each for each in box_back(fitted("overlay")).primitives if isinstance(each, Hole)]
    assert [hole.centre for hole in holes] == [(-252.75, 24.0), (252.75, 24.0)]
    assert {(hole.diameter, hole.depth, hole.operation) for hole in holes} == {(6.0, 10.0, "hook bore")}


def test_with_spacers_at_the_side_bore_and_notch_stay_where_the_slide_is() -> None:
    """300 wide, 12.7 sides sized by the outside: back 264.6, seats 258 apart: 3.3 + 7 from its end."""
    scene = box_back(fitted("thin-outside"))
    holes = [each for each in scene.primitives if isinstance(each, Hole)]
    assert [hole.centre[0] for hole in holes] == [-122.0, 122.0]
    values = {e.quantity: e.value for e in scene.primitives if isinstance(e, Dimension)}
    assert values["hook_bore_in"] == pytest.approx(10.3)
    assert values["notch_width"] == pytest.approx(38.3)


def _layer(scene: Scene, layer: str) -> list[Polyline]:
    return [each for each in scene.primitives if isinstance(each, Polyline) and each.layer == layer]


def test_notches_take_the_lower_corners_from_the_end_to_past_the_member() -> None:
    scene = box_back(fitted("overlay"))
    one, two = _layer(scene, "notch")
    assert one.points == ((-259.75, 0.0), (-224.75, 0.0), (-224.75, 13.0), (-259.75, 13.0))
    assert sorted(two.points) == sorted((-x, y) for x, y in one.points)


def test_a_back_that_stands_on_the_bottom_has_no_notch_and_lower_bores() -> None:
    """Bottom 6: its top is 19 above the sides' lower edge, the bores 24: 5 above the back's own edge."""
    scene = box_back(fitted("dovetail"))
    assert not _layer(scene, "notch")
    assert {e.centre[1] for e in scene.primitives if isinstance(e, Hole)} == {5.0}


def test_grooves_say_their_face_width_and_depth() -> None:
    one = fitted("overlay")
    for scene, face in (
        (box_back(one), "inside face"),
        (box_side(one, "left"), "this face"),
        (subfront(one), "this face"),
    ):
        (groove,) = _layer(scene, f"groove 6 mm wide deep 6 {face}")
        assert {y for _, y in groove.points} == {13.0, 19.0}


def test_box_sides_are_mirrors_and_say_which_way_they_face() -> None:
    one = fitted("overlay")
    left, right = box_side(one, "left"), box_side(one, "right")
    assert mirror(left).primitives == right.primitives
    assert left.alt.endswith("front at the left")
    assert right.alt.endswith("front at the right")
    assert right.title.startswith("Right")


@pytest.mark.parametrize("name", FITTING)
def test_outlines_have_the_sizes_of_the_cut_list(name: str) -> None:
    one = fitted(name)
    scenes = dict(panels(one))
    names = {"box side left": "side", "box side right": "side", "box back": "back", "subfront": "subfront",
             "bottom": "bottom", "front": "front"}  # fmt: skip
    cut = {part.part: part for part in one.parts}
    checked = 0
    for panel, part in names.items():
        if panel in scenes and part in cut:
            (outline,) = _layer(scenes[panel], "outline")
            xs, ys = [x for x, _ in outline.points], [y for _, y in outline.points]
            size = sorted((max(xs) - min(xs), max(ys) - min(ys)))
            assert size == pytest.approx(sorted((cut[part].length, cut[part].width)))
            checked += 1
    assert checked == len(set(cut) & set(names.values())) + ("side" in cut)


@pytest.mark.parametrize("name", FITTING)
def test_every_panel_is_a_clean_dxf_whose_dimensions_are_true(name: str) -> None:
    found = panels(fitted(name))
    assert found
    for panel, scene in found:
        audit = _read(scene).audit()
        assert not audit.errors, panel
        for each in scene.primitives:
            if isinstance(each, Dimension):
                (x1, y1), (x2, y2) = each.start, each.end
                drawn = abs(x2 - x1) if each.direction == "horizontal" else abs(y2 - y1)
                assert drawn == pytest.approx(each.value, abs=1e-6), (panel, each.quantity)


def test_panels_that_are_alike_are_drawn_alike_whatever_the_drawers_are_called() -> None:
    """So that identical panels can be told by their bytes."""
    assert write_dxf(bottom(fitted("none"))) == write_dxf(bottom(fitted("frame")))


def test_an_existing_box_is_not_cut_again_but_its_back_is_bored() -> None:
    assert [name for name, _ in panels(fitted("existing"))] == [
        "cabinet side left", "cabinet side right", "box back",
    ]  # fmt: skip


def test_an_integral_front_leaves_out_the_subfront() -> None:
    one = fitted("integral")
    assert "subfront" not in dict(panels(one))
    with pytest.raises(ValueError, match="integral front"):
        subfront(one)


@pytest.mark.parametrize("name", NOT_FITTING)
def test_where_nothing_fits_there_is_nothing_to_bore(name: str) -> None:
    one = fitted(name)
    assert panels(one) == ()
    for draw in (box_back, bottom, subfront, front_panel, lambda f: cabinet_side(f, "left")):
        with pytest.raises(ValueError, match="does not fit"):
            draw(one)


def test_a_drawer_without_a_front_has_no_front_panel() -> None:
    with pytest.raises(ValueError, match="has no front"):
        front_panel(fitted("none"))


def test_notes_on_panels_say_number_diameter_and_depth() -> None:
    one = fitted("overlay")
    side = [each.text for each in cabinet_side(one, "left").primitives if isinstance(each, Leader)]
    back = [each.text for each in box_back(one).primitives if isinstance(each, Leader)]
    assert side == ["5 × Ø 5, 13 deep"]
    assert back == ["2 × Ø 6, 10 deep", "groove 6 wide, 6 deep", "3 × Ø 2.5, 25 deep"]
    assert [e.text for e in cabinet_side(one, "right").primitives if isinstance(e, Text)] == [
        "front edge, seen from inside"
    ]


def test_the_cabinet_back_is_marked_out_for_rear_brackets() -> None:
    """Frame standing in 38 and 41: centres 52 and 55 from the sides, W - 28 apart. Common practice."""
    scene = cabinet_back(fitted("frame"))
    values = {each.quantity: each.value for each in scene.primitives if isinstance(each, Dimension)}
    assert values == {
        "rear_bracket_left": 52,
        "rear_bracket_right": 55,
        "rear_brackets_apart": 562 - 28,
        "rear_bracket_height": 24,
    }
    assert "cabinet back" in dict(panels(fitted("frame")))
    with pytest.raises(ValueError, match="not mounted on rear brackets"):
        cabinet_back(fitted("overlay"))
