from __future__ import annotations

import os
import subprocess
import sys
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.drawing.clearing import clear_lettering, room_at_least, room_of_geometry
from drawerwright.drawing.drawn import drawn, extent
from drawerwright.drawing.primitives import Text, line
from drawerwright.drawing.scene import Dimension, Leader, Scene, scale_to_paper
from drawerwright.drawing.sheet import STANDARD_SCALES, drawer_sheet, scale_words
from drawerwright.drawing.svg import write_svg

from .drawers import TOLD, fit, fitted
from .strategies import scenes

PAPERS = ((281.0, 190.0), (194.0, 96.0), (190.0, 250.0), (400.0, 277.0))


def _lettering(scene: Scene) -> list[Text]:
    return [item for group in drawn(scene) for item in group.items if isinstance(item, Text)]


def _of(scene: Scene, quantity: str) -> list[Dimension]:
    return [each for each in scene.primitives if isinstance(each, Dimension) and each.quantity == quantity]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", TOLD)
def test_a_sheet_fills_its_paper_at_a_standard_scale_and_nothing_hangs_over(
    name: str, paper: tuple[float, float]
) -> None:
    scene = drawer_sheet(fitted(name), *paper)
    assert scene.page is not None
    assert (scene.page.width, scene.page.height) == paper
    assert any(scene.scale == pytest.approx(1 / times) for times in STANDARD_SCALES)
    room = extent(scene)
    assert room.left >= 0
    assert room.bottom >= 0
    assert room.right <= paper[0]
    assert room.top <= paper[1]


@pytest.mark.parametrize("may_turn", [False, True])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", TOLD)
def test_no_two_pieces_of_lettering_touch(name: str, paper: tuple[float, float], may_turn: bool) -> None:
    found = _lettering(drawer_sheet(fitted(name), *paper, may_turn=may_turn))
    for one, two in combinations(found, 2):
        apart = not one.extent.overlaps(two.extent, clear=-0.2)
        assert apart, (one.text, two.text)


@pytest.mark.parametrize("name", TOLD)
def test_lettering_is_never_smaller_than_a_note(name: str) -> None:
    assert min(text.size for text in _lettering(drawer_sheet(fitted(name), 194.0, 96.0))) >= 2.8


@pytest.mark.parametrize("name", ["overlay", "inset", "frame", "too-shallow"])
def test_the_front_stands_under_the_plan_and_the_side_on_the_fronts_floor_line(name: str) -> None:
    scene = drawer_sheet(fitted(name), 281.0, 190.0)
    widths = _of(scene, "opening_width") + _of(scene, "widest_width")
    middles = [(each.start[0] + each.end[0]) / 2 for each in widths]
    assert len(middles) >= 2
    assert max(middles) - min(middles) < 1e-6
    heights = _of(scene, "opening_height")
    floors = [min(each.start[1], each.end[1]) for each in heights]
    assert len(floors) == 2
    assert floors[0] == pytest.approx(floors[1])


def test_all_views_share_the_scale_that_the_sheet_says() -> None:
    scene = drawer_sheet(fitted("overlay"), 281.0, 190.0)
    for each in scene.primitives:
        if isinstance(each, Dimension):
            (x1, y1), (x2, y2) = each.start, each.end
            drawn_length = abs(x2 - x1) if each.direction == "horizontal" else abs(y2 - y1)
            assert drawn_length == pytest.approx(abs(each.value) * scene.scale, abs=1e-6)
    assert scene.title.endswith(scale_words(scene.scale))


def test_on_low_paper_the_views_turn_beside_each_other_to_stay_large() -> None:
    assert drawer_sheet(fitted("overlay"), 194.0, 96.0).scale == pytest.approx(1 / 20)
    scene = drawer_sheet(fitted("overlay"), 194.0, 96.0, may_turn=True)
    plan_width = _of(scene, "opening_width")[0]
    front_width = _of(scene, "front_width")[0]
    assert min(front_width.start[0], front_width.end[0]) > max(plan_width.start[0], plan_width.end[0])
    assert scene.scale == pytest.approx(1 / 10)


def test_paper_that_is_too_small_is_refused_with_the_drawers_name() -> None:
    with pytest.raises(ValueError, match="too small for drawer overlay"):
        drawer_sheet(fitted("overlay"), 40.0, 30.0)


def test_a_scale_is_said_as_one_to_so_many() -> None:
    assert scale_words(1 / 7) == "1 : 7"
    assert scale_words(0.4) == "1 : 2.5"
    assert scale_words(1.0) == "1 : 1"


@settings(max_examples=12)
@given(
    st.floats(150, 1100),
    st.floats(70, 400),
    st.floats(320, 700),
    st.sampled_from(["overlay", "inset", "none"]),
    st.sampled_from([12.7, 16.0]),
)
def test_any_drawer_gets_a_sheet_inside_its_paper(
    width: float, height: float, depth: float, style: str, side: float
) -> None:
    told = {
        "opening": {"width": width, "height": height, "depth": depth},
        "front": {"style": style},
        "side": side,
    }
    scene = drawer_sheet(fit("any", told), 281.0, 190.0)
    room = extent(scene)
    assert min(room.left, room.bottom) >= 0
    assert room.right <= 281.0
    assert room.top <= 190.0
    assert write_svg(scene) == write_svg(scene)


SMALL_PAPERS = ((110.0, 75.0), (130.0, 90.0), (90.0, 130.0), (120.0, 160.0), (194.0, 96.0), (190.0, 120.0))
openings = st.fixed_dictionaries(
    {"width": st.floats(150, 1200), "height": st.floats(45, 420), "depth": st.floats(220, 700)},
    optional={"floor": st.floats(0, 600)},
)
any_drawers = st.fixed_dictionaries(
    {
        "opening": openings,
        "side": st.sampled_from([12.0, 12.7, 15.4, 16.0, 19.0]),
        "front": st.fixed_dictionaries({"style": st.sampled_from(["none", "overlay", "inset"])}),
        "box": st.fixed_dictionaries(
            {
                "joint": st.sampled_from(["butt", "rabbet", "dowel", "dovetail"]),
                "bottom": st.sampled_from(["groove-4", "groove-3", "under"]),
            }
        ),
    },
    optional={
        "lost": st.fixed_dictionaries({"left": st.floats(0, 30), "right": st.floats(0, 30)}),
        "cut_out": st.fixed_dictionaries({"width": st.floats(60, 300), "depth": st.floats(40, 250)}),
    },
)
ways_to_hang = st.one_of(
    st.just({}),
    st.fixed_dictionaries({"mount": st.sampled_from(["side", "shelf"])}),
    st.fixed_dictionaries(
        {
            "construction": st.just("face-frame"),
            "mount": st.sampled_from(["auto", "packed", "rear-bracket", "shelf"]),
            "frame": st.fixed_dictionaries(
                {"left": st.floats(0, 50), "right": st.floats(0, 50), "thickness": st.just(19)}
            ),
        }
    ),
)


def _touching(scene: Scene) -> list[tuple[str, str]]:
    return [
        (one.text, two.text)
        for one, two in combinations(_lettering(scene), 2)
        if one.extent.overlaps(two.extent, clear=-0.2)
    ]


@settings(max_examples=150, deadline=None)
@given(
    any_drawers,
    ways_to_hang,
    st.sampled_from(SMALL_PAPERS),
    st.sampled_from(["mm", "in", "both"]),
    st.booleans(),
)
def test_on_the_smallest_papers_no_number_and_no_note_covers_another(
    told: dict[str, Any], hung: dict[str, Any], paper: tuple[float, float], units: Any, may_turn: bool
) -> None:
    """Fitting or not, at whatever scale there is room for; paper with room for none is refused."""
    try:
        scene = drawer_sheet(fit("any", told | hung), *paper, may_turn=may_turn, units=units)
    except ValueError as error:
        assert "too small for drawer any" in str(error)  # noqa: PT017
        return
    assert _touching(scene) == []


@pytest.mark.parametrize(
    ("paper", "units", "may_turn", "told"),
    [
        (
            (110.0, 75.0),
            "in",
            False,
            {"opening": {"width": 460, "height": 120, "depth": 240}, "mount": "shelf"},
        ),
        ((194.0, 96.0), "both", False, {"opening": {"width": 900, "height": 357, "depth": 560}, "side": 16}),
    ],
)
def test_sheets_on_which_words_once_covered_a_number_keep_them_apart(
    paper: tuple[float, float], units: Any, may_turn: bool, told: dict[str, Any]
) -> None:
    assert _touching(drawer_sheet(fit("any", told), *paper, may_turn=may_turn, units=units)) == []


def test_a_dimension_inside_a_view_moves_off_a_number_and_two_notes_part_up_and_down() -> None:
    kept = Dimension("box_length", 10, (0, 5), (30, 5), "horizontal", 5, 0, extension=False)
    inside = Dimension("bottom_recess", 13, (15, 0), (15, 10), "vertical", 15, 0, extension=False)
    upper = Text((15, 5), "stopped by depth", anchor="middle", tone="accent", shift=(0.0, 0.8))
    lower = Text((15, 5), "house-16 / 500: 12 mm short", anchor="middle", tone="accent", shift=(0.0, -3.0))
    cleared = clear_lettering(Scene("s", "", "S", (kept, inside, upper, lower)))
    assert _touching(cleared) == []
    assert len(cleared.primitives) == 4
    high, low = (each.shift[1] for each in cleared.primitives if isinstance(each, Text))
    assert high > low


def test_a_label_that_finds_no_room_is_left_out_and_a_number_is_kept() -> None:
    number = Dimension("box_length", 10, (0, 0), (30, 0), "horizontal", 0, 0, extension=False)
    label = Text((15, -1), "back 16", anchor="middle", tone="fine")
    kept = clear_lettering(Scene("s", "", "S", (label, number, line((0, 0), (1, 1)))))
    assert kept.primitives == (number, line((0, 0), (1, 1)))


def test_a_note_that_would_touch_a_number_reaches_further() -> None:
    number = Dimension("box_length", 10, (0, 5), (30, 5), "horizontal", 5, 0, extension=False)
    note = Leader((5, 0), (4, 5), 2, "screw line 24")
    moved = clear_lettering(Scene("s", "", "S", (note, number))).primitives[0]
    assert isinstance(moved, Leader)
    assert moved.elbow != note.elbow
    assert moved.text == note.text


_SAME = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from drawers import fitted
from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.views.panels import panels
found = hashlib.sha256()
for name in ("overlay", "frame", "too-thick"):
    found.update(write_svg(drawer_sheet(fitted(name), 281.0, 190.0)).encode())
    for _, scene in panels(fitted(name)):
        found.update(write_dxf(scene))
print(found.hexdigest())
"""


def test_sheets_and_panels_are_the_same_bytes_in_every_process() -> None:
    seen = set()
    for seed in ("0", "41"):
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        command = [sys.executable, "-c", _SAME, str(Path(__file__).parent)]
        run = subprocess.run(command, capture_output=True, text=True, check=True, env=environment)
        seen.add(run.stdout.strip())
    assert len(seen) == 1


@given(scenes, st.sampled_from([1.0, 0.5, 0.125, 0.02]))
def test_a_cleared_drawing_never_takes_less_than_the_room_that_is_foretold(
    scene: Scene, scale: float
) -> None:
    drawn_with_a_line = Scene("a", "A", "A", (line((0.0, 0.0), (9.0, 4.0)), *scene.primitives))
    least = room_at_least(drawn_with_a_line, room_of_geometry(drawn_with_a_line).scaled(scale), scale)
    taken = extent(clear_lettering(scale_to_paper(drawn_with_a_line, scale))).grown(1e-9)
    assert taken.left <= least.left
    assert taken.right >= least.right
    assert taken.bottom <= least.bottom
    assert taken.top >= least.top


def test_the_room_foretold_holds_the_rows_of_dimensions() -> None:
    bare = line((0.0, 0.0), (90.0, 40.0))
    above = Dimension("a", 90.0, (0.0, 40.0), (90.0, 40.0), "horizontal", 40.0, 12.0)
    beside = Dimension("b", 40.0, (0.0, 0.0), (0.0, 40.0), "vertical", 0.0, -9.0)
    scene = Scene("a", "A", "A", (bare, above, beside))
    least = room_at_least(scene, room_of_geometry(scene).scaled(0.5), 0.5)
    assert least.top > 0.5 * 40.0 + 12.0
    assert least.left < -9.0
    assert (least.right, least.bottom) == (45.0, 0.0)
