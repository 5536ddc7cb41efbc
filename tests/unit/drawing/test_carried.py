"""Drawings of what a slide carries: sag and forces over the travel, the slide bent, a member's section."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drawerwright.carry import carry_drawer
from drawerwright.carry.carried import Slide
from drawerwright.drawing.drawn import extent
from drawerwright.drawing.primitives import Circle, Polyline, Text
from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.views.bent_slide import DROP, STEP, bent_slide
from drawerwright.drawing.views.carried import force_diagram, sag_diagram
from drawerwright.drawing.views.diagram import HEIGHT, WIDTH
from drawerwright.drawing.views.rolled_section import LARGEST, rolled_section
from drawerwright.model.family import Profile, SlideFamily
from drawerwright.model.fitted import FittedDrawer

MECHANICS: dict[str, Any] = {
    "carriages": {"lower": [130, 370], "upper": [130, 370]},
    "carriages_for": 500,
    "stiffness": {"cabinet": 1.2e9, "intermediate": 1.0e9, "drawer": 1.6e9},
    "roller": {"stiffness": 4000, "play": 0.1},
    "mount_stiffness": 3000,
}
LIPPED = [[2, 12], [0, 12], [0, 0], [24, 0], [24, 12], [22, 12]]
ANGLE = [[0, 30], [0, 0], [18, 0]]


@pytest.fixture
def slide(fit_one: Callable[..., FittedDrawer], family: Callable[..., SlideFamily]) -> Callable[..., Slide]:
    def carried(**keys: Any) -> Slide:
        one = carry_drawer(fit_one([family(**{**MECHANICS, **keys})], contents=20))
        assert one.slide is not None
        return one.slide

    return carried


def texts(scene: Scene) -> list[str]:
    return [each.text for each in scene.primitives if isinstance(each, Text)]


def curves(scene: Scene, points: int) -> list[Polyline]:
    return [each for each in scene.primitives if isinstance(each, Polyline) and len(each.points) == points]


def test_the_sag_hangs_down_and_names_who_makes_it_up(slide: Callable[..., Slide]) -> None:
    one = slide()
    scene = sag_diagram(one)
    front, *shares = curves(scene, 41)
    assert front.points[0][1] > front.points[-1][1]
    told = " ".join(texts(scene))
    for name in ("front", "members", "rollers", "play", "fixings"):
        assert f"{name} " in told
    assert len(shares) == 4
    assert f"{float(one.drawn.sag[-1]):.2f} mm" in scene.alt


def test_what_never_comes_to_anything_is_left_out_of_the_sag(slide: Callable[..., Slide]) -> None:
    told = " ".join(texts(sag_diagram(slide(mount_stiffness=None, roller={"stiffness": 4000, "play": 0}))))
    assert "fixings" not in told
    assert "play" not in told


def test_curves_stay_inside_the_field(slide: Callable[..., Slide]) -> None:
    for scene in (sag_diagram(slide()), force_diagram(slide())):
        for curve in curves(scene, 41):
            assert all(-1e-9 <= x <= WIDTH + 1e-9 and 0 <= y <= HEIGHT for x, y in curve.points)


def test_forces_mark_where_rear_rollers_lift(slide: Callable[..., Slide]) -> None:
    scene = force_diagram(slide())
    assert {"lower rear lifts beyond 160 mm", "upper rear lifts beyond 480 mm"} <= set(texts(scene))
    rings = [each for each in scene.primitives if isinstance(each, Circle) and each.centre[1] > 0.0]
    dots = sorted(each.centre[0] for each in rings)
    assert dots == pytest.approx([WIDTH * 160 / 500, WIDTH * 480 / 500])
    heights = {each.centre[1] for each in rings}
    assert len(heights) == 1


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(position=st.integers(0, 40), play=st.floats(0, 1), mount=st.floats(200, 1e5))
def test_the_bent_slide_ends_where_the_sag_says(
    slide: Callable[..., Slide], position: int, play: float, mount: float
) -> None:
    one = slide(roller={"stiffness": 4000, "play": play}, mount_stiffness=mount)
    drawer = curves(bent_slide(one, position), 41)[-1]
    hangs = float(one.drawn.sag[position]) / float(abs(one.drawn.sag).max())
    assert drawer.points[-1][1] == pytest.approx(2 * STEP - DROP * hangs, abs=1e-6)


def test_the_bent_slide_is_drawn_as_much_larger_at_every_position(slide: Callable[..., Slide]) -> None:
    one = slide()
    drawer = curves(bent_slide(one), 41)[-1]
    assert drawer.points[-1][1] == pytest.approx(2 * STEP - DROP)
    shut = curves(bent_slide(one, 0), 41)[-1]
    assert abs(shut.points[-1][1] - 2 * STEP) < 0.1 * DROP


def test_a_slide_of_which_nothing_is_known_is_not_drawn(slide: Callable[..., Slide]) -> None:
    nothing = slide(carriages=None, carriages_for=None)
    for draw in (sag_diagram, force_diagram, bent_slide):
        with pytest.raises(ValueError, match="not known"):
            draw(nothing)


def test_a_section_is_drawn_as_large_as_it_fits_with_its_centroid(slide: Callable[..., Slide]) -> None:
    profile = Profile.model_validate({"member": "drawer", "points": LIPPED, "radii": 0.3, "thickness": 1.2})
    scene = rolled_section(profile)
    assert scene.scale == 2.0
    outline = next(each for each in scene.primitives if isinstance(each, Polyline) and each.closed)
    xs = [x for x, _ in outline.points]
    assert max(xs) - min(xs) == pytest.approx(25.2 * 2)
    assert max(xs) - min(xs) <= LARGEST
    (dot,) = (each for each in scene.primitives if isinstance(each, Circle))
    assert dot.centre[0] == pytest.approx(12 * 2)
    assert {"x", "y"} <= set(texts(scene))
    assert "1" not in texts(scene)


def test_a_section_that_leans_shows_its_principal_axes() -> None:
    profile = Profile.model_validate({"member": "cabinet", "points": ANGLE, "radii": 1.2, "thickness": 1.2})
    scene = rolled_section(profile)
    assert {"1", "2"} <= set(texts(scene))
    assert any("yields" in text for text in texts(scene)) is False


def test_the_drawings_are_svg_and_the_same_each_time(slide: Callable[..., Slide]) -> None:
    profile = Profile.model_validate({"member": "drawer", "points": LIPPED, "radii": 0.3, "thickness": 1.2})
    for scene in (sag_diagram(slide()), force_diagram(slide()), bent_slide(slide()), rolled_section(profile)):
        text = write_svg(scene)
        assert text == write_svg(scene)
        ElementTree.fromstring(text)
        assert scene.alt
        assert extent(scene).width > 0
        assert "nan" not in text


def test_a_diagram_stands_in_a_field_of_any_size(slide: Callable) -> None:
    for draw in (sag_diagram, force_diagram):
        frame = next(
            one
            for one in draw(slide(), size=(60.0, 35.0)).primitives
            if isinstance(one, Polyline) and one.closed
        )
        assert max(frame.points) == (60.0, 35.0)


def test_axes_are_told_in_the_units_of_the_words(slide: Callable[..., Slide]) -> None:
    carried = slide()
    for draw, upright in ((sag_diagram, "sag, in"), (force_diagram, "force, lbf")):
        scene = draw(carried, units="in")
        told = {each.text for each in scene.primitives if isinstance(each, Text)}
        assert {upright, "drawn out, in"} <= told
        assert not [one for one in told if one.endswith((", mm", ", N", " mm"))]
        curve = next(each for each in scene.primitives if isinstance(each, Polyline) and not each.closed)
        ten = next(each for each in scene.primitives if isinstance(each, Text) and each.text == "10")
        assert ten.at[0] == pytest.approx(curve.points[-1][0] * 254.0 / carried.data.travel)


def test_words_on_lifting_rollers_stand_clear_of_the_curves(slide: Callable[..., Slide]) -> None:
    words = [
        each
        for each in force_diagram(slide()).primitives
        if isinstance(each, Text) and "lifts beyond" in each.text
    ]
    assert len(words) == 2
    assert all(each.extent.top < 0.0 for each in words), "under the field, where no curve runs"
    assert words[0].extent.bottom > words[1].extent.top
