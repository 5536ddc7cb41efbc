from __future__ import annotations

import pytest

from drawerwright.drawing.dimensioning import lay_out_dimension, lay_out_running
from drawerwright.drawing.primitives import Hole, Slot, Text
from drawerwright.drawing.scene import Dimension, RunningDimension, Scene
from drawerwright.drawing.sheet import drawer_sheet
from drawerwright.drawing.shown_units import in_units
from drawerwright.drawing.templates import templates
from drawerwright.drawing.views.panels import panels
from drawerwright.drawing.wording import bored, listed, shown
from drawerwright.units import ShownUnits

from .drawers import FITTING, NOT_FITTING, fitted


def test_lengths_are_written_in_thirty_seconds_with_a_true_minus_sign() -> None:
    """519.5 mm = 20.4528 in, 14.49 thirty-seconds over 20: 20 7/16. 1 in = 25.4 mm exactly."""
    assert shown(519.5) == "519.5"
    assert shown(519.5, "in") == "20 7/16″"
    assert shown(25.4, "both") == "25.4 (1″)"
    assert shown(-1.5, "in") == "−1/16″"
    assert listed((25.4, 50.8), "in") == "1″, 2″"


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
                    assert "″" in each.text + each.second
                    changed += 1
                if isinstance(each, RunningDimension):
                    assert all("″" in text for text in (each.texts if units == "in" else each.seconds) or "x")
        assert changed


def _bored(scene: Scene) -> list[Hole | Slot]:
    return [each for each in scene.primitives if isinstance(each, Hole | Slot)]


@pytest.mark.parametrize("units", ["in", "both"])
@pytest.mark.parametrize("name", [*FITTING, *NOT_FITTING])
def test_every_sheet_can_be_drawn_in_inches(name: str, units: ShownUnits) -> None:
    sheet = drawer_sheet(fitted(name), 281.0, 190.0, units=units)
    numbers = [each for each in sheet.primitives if isinstance(each, Dimension)]
    assert numbers
    assert all("″" in (each.text or "") + each.second for each in numbers)


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
        "(1 15/32″)",
        "(2 23/32″)",
        "(10 9/32″)",
    ]
    for i, one in enumerate(texts):
        for other in texts[i + 1 :]:
            assert not one.extent.overlaps(other.extent, clear=-0.7)


def test_a_running_dimension_wants_a_text_for_each_value() -> None:
    with pytest.raises(ValueError, match="one text for each value"):
        RunningDimension("h", (0.0, 0.0), ((1.0, 0.0),), (1.0,), 0.0, -8.0, texts=("a", "b"))
