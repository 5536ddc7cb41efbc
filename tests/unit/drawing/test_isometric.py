"""Isometric and exploded view: what is drawn, how it moves, and that it is the same from either side."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.hidden_lines import Picture
from drawerwright.drawing.primitives import Lines, Polyline, Text
from drawerwright.drawing.scene import Dimension, Leader, Scene, mirror
from drawerwright.drawing.solids import Solid, block
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.views.box_solids import box_solids
from drawerwright.drawing.views.cabinet_solids import cabinet_solids, cut_level
from drawerwright.drawing.views.exploded import exploded
from drawerwright.drawing.views.in_sight import places_in_sight
from drawerwright.drawing.views.isometric import (
    SEEN_FROM,
    isometric,
    room_drawn_out,
    solids_drawn_out,
    travel_of,
)
from drawerwright.drawing.views.standing import standing
from drawerwright.model.fitted import FittedDrawer

from .drawers import FITTING, FRAME, NOT_FITTING, OPENING, fit, fitted

every_fitting = pytest.mark.parametrize("name", FITTING)


def _lines(scene: Scene, *pens: str) -> np.ndarray:
    found = [
        (*a, *b)
        for each in scene.primitives
        if isinstance(each, Lines) and (each.line in pens or not pens)
        for a, b in each.segments
    ]
    return np.array(found).reshape(-1, 4)


def _same_lines(one: np.ndarray, other: np.ndarray) -> bool:
    straight = np.abs(one[:, None] - other[None]).max(axis=2)
    turned = np.abs(one[:, None] - other[None][..., [2, 3, 0, 1]]).max(axis=2)
    apart = np.minimum(straight, turned)
    return len(one) == len(other) and bool(apart.min(axis=0).max() < 0.02 and apart.min(axis=1).max() < 0.02)


@every_fitting
@pytest.mark.parametrize("share", [0.0, 0.4, 1.0])
def test_every_drawer_is_drawn_at_every_extension(name: str, share: float) -> None:
    one = fitted(name)
    scene = isometric(one, share * travel_of(one))
    assert len(_lines(scene, "edge")) > 10
    assert len(_lines(scene, "outline")) > 5
    assert "<path" in write_svg(scene)
    assert write_dxf(scene).startswith(b"  0\nSECTION")


@every_fitting
@pytest.mark.parametrize("share", [0.0, 0.55, 1.0])
def test_solids_do_not_run_into_each_other(name: str, share: float) -> None:
    """Of the boxes around all solids no two share a volume: the finding of hidden lines depends on it."""
    one = fitted(name)
    solids = [each for each in solids_drawn_out(standing(one), share * travel_of(one)) if len(each.starts)]
    low = np.array([np.minimum(each.starts, each.ends).min(axis=0) for each in solids])
    high = np.array([np.maximum(each.starts, each.ends).max(axis=0) for each in solids])
    shared = np.minimum(high[:, None], high[None]) - np.maximum(low[:, None], low[None])
    volume = np.prod(np.clip(shared - 1e-6, 0.0, None), axis=2)
    np.fill_diagonal(volume, 0.0)
    assert [(solids[i].part, solids[j].part) for i, j in np.argwhere(volume > 0)] == []


@every_fitting
def test_nothing_stands_above_the_cut(name: str) -> None:
    one = fitted(name)
    stand = standing(one)
    level = cut_level(stand)
    assert level >= one.opening.height
    tops = [max(each.starts[:, 1].max(), each.ends[:, 1].max()) for each in cabinet_solids(stand)]
    assert max(tops) == level


@settings(max_examples=25, deadline=None)
@given(st.floats(1.0, 499.0), st.floats(1.0, 499.0))
def test_drawn_further_out_the_front_stands_further_out(one: float, other: float) -> None:
    """The front's lower left corner goes along the z axis of the picture by what it is drawn out more."""
    shut, out = sorted((one, other))
    drawer = fitted("overlay")
    corners = [_lines(isometric(drawer, at), "outline")[:, :2].min(axis=0)[0] for at in (shut, out)]
    across = SEEN_FROM["right"].z[0]
    assert corners[1] - corners[0] == pytest.approx(across * (out - shut), abs=0.01)


def test_the_extension_is_dimensioned_along_its_axis() -> None:
    scene = isometric(fitted("overlay"), 200.0)
    (out,) = [each for each in scene.primitives if isinstance(each, Dimension)]
    assert (out.quantity, out.value) == ("extension", 200.0)
    assert np.hypot(out.end[0] - out.start[0], out.end[1] - out.start[1]) == pytest.approx(200.0)
    assert "drawn out by 200 of 500" in scene.alt


def test_a_closed_drawer_has_no_extension_to_show() -> None:
    scene = isometric(fitted("overlay"), 0.0)
    assert not [each for each in scene.primitives if isinstance(each, Dimension)]
    assert "closed" in scene.alt


@pytest.mark.parametrize("extension", [-1.0, 500.1, float("nan")])
def test_a_drawer_comes_out_no_further_than_its_slides(extension: float) -> None:
    with pytest.raises(ValueError, match="0 to 500 mm"):
        isometric(fitted("overlay"), extension)


@pytest.mark.parametrize("name", NOT_FITTING)
def test_what_does_not_fit_shows_the_cabinet_and_why(name: str) -> None:
    scene = isometric(fitted(name), 0.0)
    words = [each.text for each in scene.primitives if isinstance(each, Text) and each.tone == "accent"]
    assert any("stopped by" in text for text in words)
    assert ("cabinet-depth" in {each.because for each in fitted(name).rejected[:1]}) == bool(
        len(_lines(scene, "accent"))
    )
    assert "no slide fits" in scene.alt


TURNED: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "lost": (
        {"opening": OPENING, "lost": {"left": 20, "right": 5}},
        {"opening": OPENING, "lost": {"left": 5, "right": 20}},
    ),
    "frame": (
        {"opening": OPENING, "construction": "face-frame", "frame": FRAME, "front": {"style": "overlay"}},
        {
            "opening": OPENING,
            "construction": "face-frame",
            "frame": {**FRAME, "left": FRAME["right"], "right": FRAME["left"]},
            "front": {"style": "overlay"},
        },
    ),
}


@pytest.mark.parametrize("name", TURNED)
def test_a_mirrored_cabinet_gives_the_mirrored_picture(name: str) -> None:
    there, here = (fit(name, told) for told in TURNED[name])
    one = isometric(there, 230.0, seen_from="right")
    other = mirror(isometric(here, 230.0, seen_from="left"))
    for pens in (("edge",), ("outline",), ("dimension",)):
        assert _same_lines(_lines(one, *pens), _lines(other, *pens))


def test_the_same_drawer_gives_the_same_bytes() -> None:
    for view in (lambda one: isometric(one, 123.4), exploded):
        made = {write_svg(view(fit("frame", TURNED["frame"][0]))) for _ in range(2)}
        assert len(made) == 1


def test_inches_are_written_beside_the_arrow() -> None:
    (out,) = [
        each
        for each in isometric(fitted("overlay"), 254.0, units="in").primitives
        if isinstance(each, Dimension)
    ]
    assert out.text == "10″"


def test_screws_come_in_sight_as_the_drawer_comes_out() -> None:
    def screws(extension: float) -> int:
        scene = isometric(fitted("none"), extension)
        return sum(isinstance(each, Polyline) and each.fill == "ink" for each in scene.primitives)

    seen = [screws(extension) for extension in (0.0, 200.0, 350.0, 500.0)]
    assert seen == sorted(seen)
    assert seen[0] == 0
    assert seen[-1] >= 3


def _names(one: FittedDrawer) -> dict[str, str]:
    leaders = [each for each in exploded(one).primitives if isinstance(each, Leader)]
    return {each.text: each.second_line for each in leaders}


def test_the_exploded_view_names_every_part_with_the_sizes_that_are_cut() -> None:
    one = fitted("overlay")
    cut = {part.part: part for part in one.parts}
    names = _names(one)
    assert list(names) == [
        "front",
        "subfront",
        "2 sides",
        "2 cabinet members",
        "2 intermediate members",
        "2 drawer members",
        "bottom",
        "back",
        "2 locking brackets",
    ]
    assert names["back"] == f"{cut['back'].length:g} × {cut['back'].width:g} × {cut['back'].thickness:g}"
    assert names["2 cabinet members"] == "500"


def test_taken_apart_a_cut_out_shows_its_walls_and_the_back_in_the_two_pieces_that_stay() -> None:
    one = fitted("piped")
    cut = {part.part: part for part in one.parts}
    names = _names(one)
    for name, part in (("2 inner sides", "inner side"), ("inner back", "inner back")):
        assert names[name] == f"{cut[part].length:g} × {cut[part].width:g} × {cut[part].thickness:g}"
    assert "back" in names
    assert "inner side, " in exploded(one).alt
    found = box_solids(standing(one), grooved=True)
    edges = np.concatenate([each.starts[:, 0] for each in found["back"]])
    assert not np.any((edges > -159.9) & (edges < 99.9))
    assert set(np.round([-160.0, 100.0], 6)) <= set(np.round(edges, 6))


def test_names_of_the_walls_stand_above_the_picture_to_either_side() -> None:
    scene = exploded(fitted("piped"))
    top = replace(scene, primitives=tuple(e for e in scene.primitives if isinstance(e, Lines))).bounds.top
    above = [each for each in scene.primitives if isinstance(each, Leader) and "inner" in each.text]
    assert [each.bend is not None and each.bend[1] > top for each in above] == [True, True]
    assert [each.shoulder < 0 for each in above] == [
        each.at[0] == min(e.at[0] for e in above) for each in above
    ]


@every_fitting
def test_every_drawer_can_be_taken_apart(name: str) -> None:
    names = _names(fitted(name))
    assert {"bottom", "back", "2 sides"} <= set(names)
    assert ("front" in names) == standing(fitted(name)).has_front
    assert ("subfront" in names) == (name != "integral")


@every_fitting
def test_names_of_the_exploded_view_start_on_the_picture_and_end_beside_it(name: str) -> None:
    scene = exploded(fitted(name))
    bounds = replace(
        scene, primitives=tuple(each for each in scene.primitives if isinstance(each, Lines))
    ).bounds
    for each in scene.primitives:
        if isinstance(each, Leader):
            assert bounds.left <= each.at[0] <= bounds.right
            assert each.bend is not None
            assert not (
                bounds.left < each.bend[0] < bounds.right and bounds.bottom < each.bend[1] < bounds.top
            )


def test_a_drawer_that_does_not_fit_cannot_be_taken_apart() -> None:
    with pytest.raises(ValueError, match="does not fit"):
        exploded(fitted("too-low"))


@pytest.mark.parametrize("name", NOT_FITTING)
def test_what_stopped_the_nearest_slide_stands_under_the_cabinet_and_over_no_line(name: str) -> None:
    scene = isometric(fitted(name), 0.0)
    lowest = room_drawn_out(fitted(name)).bottom
    words = [each for each in scene.primitives if isinstance(each, Text) and each.tone == "accent"]
    assert words
    assert all(each.at[1] <= lowest and each.shift[1] + each.size <= 0.5 for each in words)


@given(
    st.lists(
        st.tuples(st.floats(-300, 300), st.floats(-300, 300), st.floats(20, 400), st.floats(5, 200)),
        min_size=1,
        max_size=5,
    ),
    st.sampled_from([-1.0, 1.0]),
    st.sampled_from([0.0, 1.0]),
)
def test_no_place_in_sight_lies_further_to_the_side_than_the_one_a_name_points_to(
    told: list[tuple[float, float, float, float]], side: float, upwards: float
) -> None:
    parts: list[list[Solid]] = [
        [block("part", (x, x + wide), (y, y + high), (-500.0 * number - 300.0, -500.0 * number))]
        for number, (x, y, wide, high) in enumerate(told)
    ]
    view = SEEN_FROM["right"]
    picture = Picture([solid for part in parts for solid in part], view)
    shares = np.array([(a, b) for a in (0.04, 0.3, 0.7, 0.96) for b in (0.04, 0.5, 0.96)])
    for part, place in zip(parts, places_in_sight(parts, picture, view, side, upwards), strict=True):
        ends = np.concatenate((part[0].starts, part[0].ends))
        low, high = ends.min(axis=0), ends.max(axis=0)
        faces = np.concatenate([np.insert(shares, axis, 1.0, axis=1) for axis in range(3)])
        points = low + faces * (high - low)
        seen = points[picture.seen(points)] @ view.paper
        if place is None:
            assert not len(seen)
        else:
            far = seen @ np.array((side, upwards))
            assert not len(seen) or place[0] * side + place[1] * upwards >= far.max() - 1e-6
