"""The sheet orders itself, pins what is given, and says what is wrong with its equations."""

from __future__ import annotations

import numpy as np
import pytest

from drawerwright.equations.equation import Equation, Q, equation
from drawerwright.equations.sheet import EquationError, Sheet


def _marked(function: object) -> Equation:
    found = getattr(function, "equation", None)
    assert isinstance(found, Equation)
    return found


@equation("mm", source="test")
def area(width: Q, height: Q) -> Q:
    """Area."""
    return width * height


@equation("mm", source="test")
def width(gap: Q) -> Q:
    """Width."""
    return 100 - 2 * gap


@equation("mm", source="test", style="inset")
def height__inset(gap: Q) -> Q:
    """Height."""
    return 50 - gap


@equation("mm", source="test", style="overlay")
def height__overlay(gap: Q) -> Q:
    """Height."""
    return 50 + gap


@equation("mm", source="test", hands=True)
def bracket(overhang: Q, gap: Q) -> Q:
    """Bracket."""
    return overhang + gap


EQUATIONS = [_marked(item) for item in (area, height__inset, height__overlay, width, bracket)]
GIVEN = ("gap", "overhang_left", "overhang_right")


def test_a_plan_orders_equations_by_what_they_need() -> None:
    plan = Sheet(EQUATIONS, GIVEN).plan({"style": "inset"}, ("area",), GIVEN)
    assert [step.quantity for step in plan.steps] == ["width", "height", "area"]
    assert plan.run({"gap": np.array(3.0)})["area"] == 94 * 47


def test_the_variant_follows_the_situation() -> None:
    sheet = Sheet(EQUATIONS, GIVEN)
    values = sheet.plan({"style": "overlay"}, ("height",), GIVEN).run({"gap": np.array(3.0)})
    assert values["height"] == 53


def test_arrays_broadcast_to_the_same_numbers_as_single_values() -> None:
    plan = Sheet(EQUATIONS, GIVEN).plan({"style": "inset"}, ("area",), GIVEN)
    gaps = np.linspace(0, 20, 7)
    together = plan.run({"gap": gaps})["area"]
    assert together.tolist() == [float(plan.run({"gap": np.array(gap)})["area"]) for gap in gaps]


def test_a_given_quantity_pins_its_equation() -> None:
    plan = Sheet(EQUATIONS, GIVEN).plan({"style": "inset"}, ("area",), (*GIVEN, "width"))
    assert [step.quantity for step in plan.steps] == ["height", "area"]
    assert plan.run({"gap": np.array(0.0), "width": np.array(7.0)})["area"] == 350


def test_one_function_makes_a_left_and_a_right() -> None:
    plan = Sheet(EQUATIONS, GIVEN).plan({}, ("bracket_left", "bracket_right"), GIVEN)
    given = {"gap": np.array(1.0), "overhang_left": np.array(38.0), "overhang_right": np.array(41.0)}
    values = plan.run(given)
    assert (values["bracket_left"], values["bracket_right"]) == (39.0, 42.0)


def test_an_unknown_quantity_is_named_with_who_asked() -> None:
    with pytest.raises(EquationError, match=r"reach.*neither given nor computed"):
        Sheet([_marked(_needs_reach)], GIVEN)
    with pytest.raises(EquationError, match=r"volume, needed by the caller"):
        Sheet(EQUATIONS, GIVEN).plan({}, ("volume",), GIVEN)


def test_a_quantity_without_a_variant_in_this_situation_is_named() -> None:
    with pytest.raises(EquationError, match=r"height, needed by area.*style=none"):
        Sheet(EQUATIONS, GIVEN).plan({"style": "none"}, ("area",), GIVEN)


def test_two_variants_that_hold_at_once_are_an_error_when_the_sheet_is_made() -> None:
    with pytest.raises(
        EquationError, match=r"height: 2 equations hold at once \(height__inset, height__also\)"
    ):
        Sheet([*EQUATIONS, _marked(height__also)], GIVEN)


def test_a_circle_is_named_in_its_order() -> None:
    sheet = Sheet([_marked(hen), _marked(egg)], ())
    with pytest.raises(EquationError, match="hen → egg → hen"):
        sheet.plan({}, ("hen",), ())


def test_an_equation_without_a_title_is_refused() -> None:
    def bare(gap: Q) -> Q:
        return gap

    with pytest.raises(TypeError, match="bare has no docstring"):
        equation("mm", source="test")(bare)


@equation("mm", source="test")
def _needs_reach(reach: Q) -> Q:
    """Needs something unknown."""
    return reach


@equation("mm", source="test", style=("inset", "none"))
def height__also(gap: Q) -> Q:
    """Height."""
    return gap


@equation("mm", source="test")
def hen(egg: Q) -> Q:
    """Hen."""
    return egg


@equation("mm", source="test")
def egg(hen: Q) -> Q:
    """Egg."""
    return hen
