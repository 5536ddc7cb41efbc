from __future__ import annotations

import pytest

from drawerwright.drawing.dimensioning import lay_out_dimension, lay_out_running
from drawerwright.drawing.primitives import Hole, Slot, Text
from drawerwright.drawing.scene import Dimension, Leader, RunningDimension, Scene
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.drawing.shown import Shown
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.templates import templates
from drawerwright.drawing.views.panels import panels
from drawerwright.drawing.wording import THICKNESSES, bored, listed, on_grid, shown, thick
from drawerwright.model.cut_sizes import LIMITED
from drawerwright.units import ShownUnits, is_just_inches, is_slight, parse_length

from .drawers import FITTING, NOT_FITTING, fitted


def test_lengths_are_written_in_thirty_seconds_with_a_true_minus_sign() -> None:
    """519.5 mm = 20.4528 in, 14.49 thirty-seconds over 20: 20 7/16. 1 in = 25.4 mm exactly."""
    assert shown(519.5) == "519.5"
    assert shown(519.5, "in") == "20-7/16″"
    assert shown(25.4, "both") == "25.4 (1″)"
    assert shown(-25.4, "in") == "−1″"
    assert listed((25.4, 50.8), "in") == "25.4 mm (1″), 50.8 mm (2″)"


def test_bores_keep_their_mm_beside_inches() -> None:
    assert (bored(5.0), bored(5.0, "in"), bored(2.5, "both")) == ("5", "5 mm", "2.5 mm")


@pytest.mark.parametrize("units", ["in", "both"])
@pytest.mark.parametrize("name", FITTING)
def test_units_change_the_lettering_and_never_a_hole(name: str, units: ShownUnits) -> None:
    one = fitted(name)
    for make in (panels, templates):
        metric, other = make(one), make(one, units=units)  # type: ignore[operator]
        assert [word for word, _ in metric] == [word for word, _ in other]
        changed = 0
        for (_, plain), (_, imperial) in zip(metric, other, strict=True):
            assert _bored(plain) == _bored(imperial)
            for each in imperial.primitives:
                if isinstance(each, Dimension):
                    assert each.text is not None
                    assert _in_inches(each)
                    changed += 1
                if isinstance(each, RunningDimension):
                    assert all("″" in text for text in each.seconds or "x")
        assert changed


def _bored(scene: Scene) -> list[Hole | Slot]:
    return [each for each in scene.primitives if isinstance(each, Hole | Slot)]


@pytest.mark.parametrize("units", ["in", "both"])
@pytest.mark.parametrize("name", [*FITTING, *NOT_FITTING])
def test_every_sheet_can_be_drawn_in_inches(name: str, units: ShownUnits) -> None:
    sheet = drawer_sheet(fitted(name), 281.0, 190.0, units=units)
    numbers = [each for each in sheet.primitives if isinstance(each, Dimension)]
    assert numbers
    assert all(_in_inches(each) for each in numbers)


def _in_inches(each: Dimension) -> bool:
    """Whether a number has its inches; a small one, or a board, that no fraction tells has its mm instead."""
    told = (each.text or "") + each.second
    in_mm = is_slight(each.value) or (each.quantity in THICKNESSES and not is_just_inches(each.value))
    return ("″" in told) != (in_mm and told.endswith(" mm"))


def test_what_is_under_an_eighth_of_an_inch_stays_in_mm() -> None:
    assert shown(-1.5, "in") == "−1.5 mm"
    assert shown(3.0, "both") == "3 mm"
    assert (shown(3.175, "in"), shown(0.0, "in")) == ("1/8″", "0″")


def test_a_length_of_so_many_sixty_fourths_is_a_fraction_however_short_it_is() -> None:
    """2.38125 mm = 3/32 in and 0.396875 mm = 1/64 in, both exact; 2.4 mm is 6.047 of 1/64 in."""
    assert (shown(2.38125, "in"), shown(0.396875, "in")) == ("3/32″", "1/64″")
    assert shown(2.4, "in") == "2.4 mm"
    assert shown(25.4 * 49 / 64, "in") == "49/64″"
    assert shown(25.4 * 49 / 64, "in", down=True) == "3/4″"


def test_a_board_is_never_called_by_the_fraction_of_another() -> None:
    """1/4 in = 6.35 mm and 3/4 in = 19.05 mm, both exact: boards of 6 and 19 are neither."""
    assert (thick(6.0, "in"), thick(19.0, "in"), thick(16.0, "both")) == ("6 mm", "19 mm", "16 mm")
    assert (thick(6.35, "in"), thick(19.05, "in")) == ("1/4″", "3/4″")
    assert (thick(6.35), thick(12.7, "both")) == ("6.35", "12.7 (1/2″)")


def test_row_holes_stand_in_mm_beside_inches() -> None:
    assert (on_grid(37.0), on_grid(37.0, "in"), on_grid(69.0, "both")) == (
        "37",
        "37 mm (1-15/32″)",
        "69 mm (2-23/32″)",
    )
    plain = RunningDimension("h", (0.0, 0.0), ((5.0, 0.0),), (37.0,), 0.0, -8.0)
    (made,) = in_units(Scene("s", "S", "s", (plain,)), "in").primitives
    assert isinstance(made, RunningDimension)
    assert (made.texts, made.seconds) == (("37 mm",), ("(1-15/32″)",))


def test_whole_inches_and_their_fraction_never_run_together() -> None:
    """A narrow space between them would read as eleven halves."""
    assert shown(38.1, "in") == "1-1/2″"
    assert shown(-38.1, "in") == "−1-1/2″"


def test_sixty_fourths_are_written_where_they_are_asked_for() -> None:
    """519.5 mm = 20.4528 in, 28.98 sixty-fourths over 20: 20-29/64, or 20 7/16 rounded down."""
    assert shown(519.5, Shown("in", 64)) == "20-29/64″"
    assert shown(519.5, Shown("in", 64), down=True) == "20-7/16″"
    assert shown(519.5, Shown("both", 64)) == "519.5 (20-29/64″)"


def test_dimensions_of_boxes_and_parts_are_rounded_down_and_places_to_the_nearest() -> None:
    """166.497 mm = 6.555 in, 17.76 thirty-seconds over 6: down to 17/32, to the nearest 9/16."""
    for quantity, says in (("box_height", "6-17/32″"), ("opening_height", "6-9/16″")):
        one = Dimension(quantity, 166.497, (0.0, 0.0), (0.0, 166.497), "vertical", 0.0, 5.6)
        for units, text in (("in", says), ("both", "166.5")):
            (made,) = in_units(Scene("s", "S", "s", (one,)), units).primitives  # type: ignore[arg-type]
            assert isinstance(made, Dimension)
            assert made.text == text
            assert made.second == ("" if units == "in" else f"({says})")


@pytest.mark.parametrize("name", FITTING)
def test_no_panel_s_overall_size_is_drawn_larger_in_inches_than_it_is(name: str) -> None:
    """Nor is one smaller by more than the step."""
    seen = 0
    for parts in (32, 64):
        for _, scene in panels(fitted(name), Shown("in", parts)):  # type: ignore[arg-type]
            for each in scene.primitives:
                if isinstance(each, Dimension) and each.quantity in LIMITED:
                    drawn = parse_length((each.text or "").replace("″", " in"))
                    assert -25.4 / parts < drawn - each.value < 1e-3
                    seen += 1
    assert seen >= 4 or fitted(name).drawer.existing_box is not None


@pytest.mark.parametrize("name", FITTING)
def test_depths_of_bores_and_spacers_never_stand_in_inches(name: str) -> None:
    """A bit, a stop collar and a spacer are metric: a rounded fraction would be another one."""
    drawn = [*panels(fitted(name), "in"), *templates(fitted(name), units="in")]
    told = [
        " ".join((each.text, each.second_line) if isinstance(each, Leader) else (each.text,))
        for _, scene in drawn
        for each in scene.primitives
        if isinstance(each, Leader | Text)
    ]
    notes = [words for words in told if "Ø" in words or words.startswith(("spacer", "fix the front"))]
    assert notes
    for words in notes:
        assert "″" not in words, words


@pytest.mark.parametrize("name", ["overlay", "frame"])
def test_a_sheet_in_sixty_fourths_has_some(name: str) -> None:
    sheet = drawer_sheet(fitted(name), 281.0, 190.0, units=Shown("in", 64))
    texts = [each.text or "" for each in sheet.primitives if isinstance(each, Dimension)]
    assert any("/64″" in text for text in texts)


def test_upright_numbers_stand_over_their_inches_and_clear_of_the_next_column() -> None:
    first = Dimension("a", 100.0, (0.0, 0.0), (0.0, 100.0), "vertical", 0.0, 5.6)
    second = Dimension("b", 171.0, (0.0, 0.0), (0.0, 171.0), "vertical", 0.0, 13.4)
    made = in_units(Scene("s", "S", "s", (first, second)), "both").primitives
    areas = []
    for each in made:
        assert isinstance(each, Dimension)
        number, inches = [item for item in lay_out_dimension(each) if isinstance(item, Text)]
        assert number.text.isdigit()
        assert inches.text.startswith("(")
        assert number.extent.bottom > inches.at[1]
        areas.append(
            (min(number.extent.left, inches.extent.left), max(number.extent.right, inches.extent.right))
        )
    assert areas[0][1] < areas[1][0]


def test_running_numbers_stand_over_their_inches_without_touching() -> None:
    marks = tuple((x, 0.0) for x in (5.0, 10.0, 40.0))
    plain = RunningDimension("h", (0.0, 0.0), marks, (37.0, 69.0, 261.0), 0.0, -8.0)
    (made,) = in_units(Scene("s", "S", "s", (plain,)), "both").primitives
    assert isinstance(made, RunningDimension)
    texts = [item for item in lay_out_running(made) if isinstance(item, Text)]
    assert [text.text for text in texts if text.text.startswith("(")] == [
        "(1-15/32″)",
        "(2-23/32″)",
        "(10-9/32″)",
    ]
    for i, one in enumerate(texts):
        for other in texts[i + 1 :]:
            assert not one.extent.overlaps(other.extent, clear=-0.7)


def test_a_running_dimension_wants_a_text_for_each_value() -> None:
    with pytest.raises(ValueError, match="one text for each value"):
        RunningDimension("h", (0.0, 0.0), ((1.0, 0.0),), (1.0,), 0.0, -8.0, texts=("a", "b"))
