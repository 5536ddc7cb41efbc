from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys

import ezdxf
import pytest
from ezdxf.document import Drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from drawerwright.drawing.dxf import APPLICATION, hole_layer, write_dxf
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Arc, Hole, Slot, Text, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Scene, mirror, scale_to_paper

from .strategies import scenes


def _panel(*holes: Hole) -> Scene:
    edge = Bounds(0, 0, 500, 140)
    return Scene(
        "panel",
        "Panel",
        "A panel with holes",
        (
            rectangle(edge, "outline", layer="outline"),
            Hatch(edge.corners, layer=""),
            Slot((60, 24), (70, 24), 5, layer="slots, not bored"),
            Arc((200, 70), 20, 10, 170, layer="handle"),
            Dimension("box_length", 500, (0, 140), (500, 140), "horizontal", 140, 8),
            Text((10, 10), "outside face", layer="notes"),
            *holes,
        ),
    )


def _read(data: bytes) -> Drawing:
    return ezdxf.read(io.StringIO(data.decode("utf-8")))  # type: ignore[attr-defined,no-any-return]


holes = st.lists(
    st.builds(
        Hole,
        st.tuples(st.floats(-900, 900), st.floats(-300, 300)),
        st.sampled_from([2.5, 5.0, 6.0]),
        st.sampled_from([None, 10.0, 13.0]),
        st.sampled_from(["row holes", "hook bore"]),
    ),
    min_size=1,
    max_size=8,
)


@settings(max_examples=15)
@given(holes)
def test_hole_centres_and_diameters_come_back_within_a_thousandth(found: list[Hole]) -> None:
    document = _read(write_dxf(_panel(*found)))
    circles = list(document.modelspace().query("CIRCLE"))
    assert len(circles) == len(found)
    for hole, circle in zip(found, circles, strict=True):
        assert tuple(circle.dxf.center)[:2] == pytest.approx(hole.centre, abs=0.001)
        assert circle.dxf.radius * 2 == pytest.approx(hole.diameter, abs=0.001)


def test_the_depth_of_a_hole_is_kept_in_layer_name_and_extended_data() -> None:
    blind = Hole((30, 24), 6.0, 10.0, "hook bore")
    through = Hole((60, 24), 5.0, None, "row holes")
    document = _read(write_dxf(_panel(blind, through)))
    one, two = document.modelspace().query("CIRCLE")
    assert one.dxf.layer == hole_layer(blind) == "hook bore 6 mm deep 10"
    assert two.dxf.layer == hole_layer(through) == "row holes 5 mm through"
    assert [tuple(tag) for tag in one.get_xdata(APPLICATION)][-3:] == [
        (1000, "hook bore"),
        (1040, 6.0),
        (1040, 10.0),
    ]
    assert [tuple(tag) for tag in two.get_xdata(APPLICATION)][-1] == (1000, "through")


def test_the_file_is_metric_in_mm_for_the_2010_format_and_passes_the_audit() -> None:
    document = _read(write_dxf(_panel(Hole((37, 24), 5, 13, "row holes"))))
    assert document.dxfversion == "AC1024"
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes


def test_layers_bear_the_operations_in_plain_words() -> None:
    document = _read(write_dxf(_panel(Hole((37, 24), 5, 13, "row holes"))))
    names = {entity.dxf.layer for entity in document.modelspace()}
    assert names == {
        "outline",
        "drawing hatching",
        "slots not bored",
        "handle",
        "dimensions",
        "notes",
        "row holes 5 mm deep 13",
    }
    assert names <= {layer.dxf.name for layer in document.layers}


def test_an_outline_is_one_closed_polyline_at_true_size() -> None:
    document = _read(write_dxf(_panel()))
    (outline,) = document.modelspace().query('LWPOLYLINE[layer=="outline"]')
    assert outline.closed
    assert [tuple(point) for point in outline.get_points("xy")] == [(0, 0), (500, 0), (500, 140), (0, 140)]


def test_a_slot_has_half_round_ends() -> None:
    (slot,) = _read(write_dxf(_panel())).modelspace().query('LWPOLYLINE[layer=="slots not bored"]')
    assert [point[2] for point in slot.get_points("xyb")] == [0, 1, 0, 1]


def test_lettering_is_text_of_the_height_of_its_capitals() -> None:
    texts = {text.dxf.text: text for text in _read(write_dxf(_panel())).modelspace().query("TEXT")}
    assert set(texts) == {"500", "outside face"}
    assert texts["outside face"].dxf.height == pytest.approx(0.7 * 2.83)


def test_a_mirrored_panel_has_its_holes_on_the_other_side() -> None:
    panel = _panel(Hole((37, 24), 5, 13, "row holes"), Hole((69, 24), 5, 13, "row holes"))
    circles = _read(write_dxf(mirror(panel))).modelspace().query("CIRCLE")
    assert [tuple(circle.dxf.center)[:2] for circle in circles] == [(-37, 24), (-69, 24)]


def test_a_scene_at_the_scale_of_paper_is_refused() -> None:
    with pytest.raises(ValueError, match="true size"):
        write_dxf(scale_to_paper(_panel(), 0.2))


@settings(max_examples=25)
@given(st.text(max_size=40))
def test_any_words_at_all_give_a_file_that_passes_the_audit(words: str) -> None:
    scene = Scene("words", words, "Words", (Text((0, 0), words, layer=words), rectangle(Bounds(0, 0, 5, 5))))
    document = _read(write_dxf(scene))
    assert not document.audit().errors


def test_words_that_look_like_codes_come_back_as_they_were_written() -> None:
    words = "5 %% off, 50%, ^I, <b>&\x07 \\U+2205"
    (text,) = _read(write_dxf(Scene("w", "", "W", (Text((0, 0), words),)))).modelspace().query("TEXT")
    assert text.plain_text() == "5 %% off, 50%, ^I, <b>& \\ U+2205"


@settings(max_examples=4)
@given(scenes)
def test_any_scene_gives_a_file_that_passes_the_audit(scene: Scene) -> None:
    document = _read(write_dxf(scene))
    assert not document.audit().errors


def test_handles_are_each_used_once_and_the_seed_is_beyond_them() -> None:
    data = write_dxf(_panel(Hole((37, 24), 5, 13, "row holes"), Hole((69, 24), 6, None, "hook bore")))
    document = _read(data)
    handles = [int(entity.dxf.handle, 16) for entity in document.modelspace()]
    layers = [int(layer.dxf.handle, 16) for layer in document.layers]
    assert len(set(handles + layers)) == len(handles) + len(layers)
    text = data.decode("utf-8")
    seed = text.partition("$HANDSEED\n  5\n")[2].partition("\n")[0]
    assert int(seed, 16) == max(handles + layers) + 1
    lines = text.split("\n")
    told = [
        lines[i + 1]
        for i in range(0, len(lines) - 1, 2)
        if lines[i].strip() == "5" and not lines[i - 1].startswith("$")
    ]
    assert len(told) == len(set(told))


def test_layers_that_differ_in_case_alone_are_one_and_every_files_own_layer_is_kept() -> None:
    texts = tuple(Text((0, 0), "w", layer=layer) for layer in ("Notch", "notch", "0", "DEFPOINTS"))
    document = _read(write_dxf(Scene("w", "", "W", texts)))
    assert sorted(layer.dxf.name for layer in document.layers) == ["0", "Defpoints", "Notch"]
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes


def test_a_reader_opens_with_the_whole_panel_in_view() -> None:
    document = _read(write_dxf(_panel(Hole((37, 24), 5, 13, "row holes"))))
    (view,) = document.viewports.get("*Active")
    assert tuple(view.dxf.center)[:2] == pytest.approx((250, 70))
    assert view.dxf.height == pytest.approx(600)


_SAME = """
import hashlib
from drawerwright.drawing.dxf import write_dxf
from drawerwright.drawing.svg import write_svg
from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Hole, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Scene
edge = Bounds(0, 0, 500, 140)
scene = Scene("p", "P", "A panel", (rectangle(edge, layer="outline"), Hatch(edge.corners),
    Hole((37, 24), 5, 13, "row holes"), Hole((37, 90), 6, None, "hook bore"),
    Dimension("box_length", 500, (0, 140), (500, 140), "horizontal", 140, 8)))
print(hashlib.sha256(write_dxf(scene) + write_svg(scene).encode()).hexdigest())
"""


def test_the_same_scene_gives_the_same_bytes_in_every_process() -> None:
    """Under several seeds, because sets of words come out in another order in each process."""
    seen = set()
    for seed in ("0", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        run = subprocess.run(
            [sys.executable, "-c", _SAME], capture_output=True, text=True, check=True, env=environment
        )
        seen.add(run.stdout.strip())
    assert len(seen) == 1
    assert len(seen.pop()) == len(hashlib.sha256().hexdigest())


def test_writing_leaves_the_library_as_it_was() -> None:
    before = ezdxf.options.write_fixed_meta_data_for_testing  # type: ignore[attr-defined]
    write_dxf(_panel())
    assert ezdxf.options.write_fixed_meta_data_for_testing is before  # type: ignore[attr-defined]
