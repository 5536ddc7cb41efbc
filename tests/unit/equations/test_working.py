"""Workings are read from the equations' own source."""

from __future__ import annotations

import numpy as np
import pytest

from drawerwright.equations.equation import Equation, Q, equation
from drawerwright.equations.sheet import EquationError
from drawerwright.equations.working import figures, formula, plain, template


@equation("mm", source="test")
def margin(depth: Q, front_end: Q, member: Q, rear: Q) -> Q:
    """Margin."""
    return np.minimum(depth - (front_end + member), np.minimum(rear / 2, np.abs(depth - rear)))


@equation("mm", source="test")
def lean(depth: Q, front_end: Q) -> Q:
    """Two lines, so no equation."""
    half = depth / 2
    return half - front_end


def _of(function: object) -> Equation:
    found = getattr(function, "equation", None)
    assert isinstance(found, Equation)
    return found


ARGUMENTS = ("depth", "front_end", "member", "rear")


def test_a_formula_is_told_in_words_with_brackets_only_where_needed() -> None:
    words = formula(_of(margin), ARGUMENTS)
    assert words == "least of (depth − (front end + member); rear / 2; |depth − rear|)"


def test_figures_stand_where_the_names_stood_and_negatives_are_held() -> None:
    values = {"depth": 530.0, "front_end": -2.0, "member": 500.0, "rear": 3.0}
    told = figures(_of(margin), ARGUMENTS, values, lambda _, value: plain(value))
    assert told == "least of (530 − ((−2) + 500); 3 / 2; |530 − 3|)"


def test_a_left_out_term_vanishes_from_sums() -> None:
    words = formula(_of(margin), ARGUMENTS, frozenset({"front_end"}))
    assert words == "least of (depth − member; rear / 2; |depth − rear|)"


def test_an_equation_of_two_statements_has_no_working() -> None:
    with pytest.raises(EquationError, match="lean"):
        template(_of(lean))


@pytest.mark.parametrize(
    ("value", "text"),
    [(500.0, "500"), (-0.0, "0"), (551.5, "551.5"), (-3.25, "−3.25"), (0.3000000001, "0.3")],
)
def test_a_plain_number_has_no_trailing_zeros(value: float, text: str) -> None:
    assert plain(value) == text
