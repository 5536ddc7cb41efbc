from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.drawing.geometry import Bounds
from drawerwright.drawing.primitives import Hole, Lines, Text, polygon, rectangle
from drawerwright.drawing.scene import Dimension, Hatch, Leader, Scene, scale_to_paper
from drawerwright.drawing.svg import write_svg

from .strategies import scenes

SVG = "{http://www.w3.org/2000/svg}"


def _board() -> Scene:
    edge = Bounds(0, 0, 500, 140)
    return Scene(
        "board",
        "A board",
        "A board with a hole and two dimensions",
        (
            rectangle(edge, "cut", "wood"),
            Hatch(edge.corners),
            Hole((37, 24), 5, 13, "row holes"),
            Dimension("box_length", 500, (0, 140), (500, 140), "horizontal", 140, 6),
            Dimension("side_gap", 5, (0, 140), (5, 140), "horizontal", 140, 11, label_side="start"),
            Dimension("side_gap", 5, (495, 140), (500, 140), "horizontal", 140, 11),
        ),
    )


def test_the_document_is_xml_with_its_size_in_mm_and_the_same_view_box() -> None:
    root = ElementTree.fromstring(write_svg(scale_to_paper(_board(), 0.2)))
    assert root.tag == f"{SVG}svg"
    left, top, width, height = (float(part) for part in root.attrib["viewBox"].split())
    assert root.attrib["width"] == f"{width:g}mm"
    assert root.attrib["height"] == f"{height:g}mm"
    assert left < 0 < width + left
    assert width > 100
    assert top < -28


def test_a_page_fixes_the_size_of_the_paper() -> None:
    scene = _board()
    page = Scene(scene.name, scene.title, scene.alt, scene.primitives, page=Bounds(-10, -20, 600, 200))
    root = ElementTree.fromstring(write_svg(page))
    assert (root.attrib["width"], root.attrib["height"]) == ("610mm", "220mm")
    assert root.attrib["viewBox"] == "-10 -200 610 220"


def test_dimensions_are_groups_that_know_their_quantity_and_value() -> None:
    root = ElementTree.fromstring(write_svg(_board()))
    groups = {g.attrib["id"]: g for g in root.iter(f"{SVG}g") if "data-quantity" in g.attrib}
    assert list(groups) == ["board-box_length", "board-side_gap", "board-side_gap-2"]
    assert groups["board-box_length"].attrib["data-value"] == "500"
    assert groups["board-box_length"].findtext(f"{SVG}title") == "box length 500 mm"
    assert [t.text for t in groups["board-side_gap-2"].iter(f"{SVG}text")] == ["5"]


def test_only_the_subset_that_all_renderers_share_is_written() -> None:
    text = write_svg(_board())
    tags = {element.tag.removeprefix(SVG) for element in ElementTree.fromstring(text).iter()}
    assert tags <= {"svg", "title", "desc", "g", "path", "circle", "rect", "text"}
    assert not re.search(r"style=|marker|pattern|vector-effect|dominant-baseline|font:|⌀", text)


def test_lettering_names_the_family_as_page_and_pdf_compiler_know_it() -> None:
    root = ElementTree.fromstring(write_svg(_board()))
    assert root.attrib["font-family"] == "Barlow Semi Condensed, Barlow"
    assert root.attrib["font-stretch"] == "semi-condensed"


def test_words_from_a_user_are_escaped_and_cleaned() -> None:
    nasty = 'a<b>&"quoted"\x00\x07\ud800\ufffe </text><script>x</script>'
    scene = Scene(nasty[:1], nasty, nasty, (Text((0, 0), nasty), Leader((0, 0), (3, 3), 3, nasty)))
    root = ElementTree.fromstring(write_svg(scene).encode())
    texts = [element.text for element in root.iter(f"{SVG}text")]
    assert texts == ['a<b>&"quoted" </text><script>x</script>'] * 2
    assert not list(root.iter(f"{SVG}script"))


@given(st.text(max_size=60))
def test_any_words_at_all_give_a_document_that_can_be_read(words: str) -> None:
    scene = Scene("words", words, "Words " + words, (Text((0, 0), words), rectangle(Bounds(0, 0, 5, 5))))
    ElementTree.fromstring(write_svg(scene).encode("utf-8"))
    assert write_svg(scene) == write_svg(scene)


@given(scenes)
def test_any_scene_gives_finite_numbers_of_at_most_three_decimals(scene: Scene) -> None:
    root = ElementTree.fromstring(write_svg(scene).encode())
    for element in root.iter():
        for name in ("d", "x", "y", "cx", "cy", "r", "viewBox"):
            for number in re.findall(r"[-\d.]+(?:e[-\d]+)?|nan|inf", element.attrib.get(name, "")):
                assert re.fullmatch(r"-?\d+(\.\d{1,3})?", number), number
                assert number != "-0"


def test_y_runs_up_in_the_scene_and_down_on_the_page() -> None:
    scene = Scene("one", "", "One line", (Lines((((0, 10), (20, 30)),)),))
    (path,) = ElementTree.fromstring(write_svg(scene)).iter(f"{SVG}path")
    assert path.attrib["d"] == "M0 -10L20 -30"


def test_a_line_inside_is_drawn_in_by_half_its_weight() -> None:
    drawn_in = rectangle(Bounds(0, 0, 100, 50), "outline", line_inside=True)
    text = write_svg(Scene("front", "", "A front", (drawn_in,)))
    (path,) = ElementTree.fromstring(text).iter(f"{SVG}path")
    assert path.attrib["d"].startswith("M0.152 -0.152L")
    (group,) = ElementTree.fromstring(text).iter(f"{SVG}g")
    assert group.attrib["stroke-width"] == "0.304"


def test_the_dark_and_the_printed_sheet_have_their_own_colours() -> None:
    assert "#efeae0" in write_svg(_board(), paper="dark")
    assert "#000000" in write_svg(_board(), paper="print")
    assert "#1d2226" in write_svg(_board())


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_a_coordinate_that_is_no_number_is_refused(value: float) -> None:
    scene = Scene("bad", "", "Bad", (polygon(((0, 0), (1, 0), (value, 1))),))
    with pytest.raises(ValueError, match="cannot hold"):
        write_svg(scene)
