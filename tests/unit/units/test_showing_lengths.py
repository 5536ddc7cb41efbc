from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.units import ShownUnits, format_length, format_mass, parse_length, parse_mass, show_value


@pytest.mark.parametrize(
    ("mm", "shown"),
    [
        (552.45, "21 3/4 in"),
        (19.05, "3/4 in"),
        (25.4, "1 in"),
        (0.0, "0 in"),
        (-3.175, "-1/8 in"),
        (-552.45, "-21 3/4 in"),
        (0.1, "0 in"),
        (-0.1, "0 in"),
        (25.4 - 0.1, "1 in"),
        (16.0, "5/8 in"),
        (552.5, "21 3/4 in"),
    ],
)
def test_inches_are_shown_as_reduced_fractions(mm: float, shown: str) -> None:
    assert format_length(mm, "in") == shown


@pytest.mark.parametrize(
    ("mm", "decimals", "shown"),
    [
        (552.5, 1, "552.5 mm"),
        (500.0, 1, "500 mm"),
        (500.0, 0, "500 mm"),
        (0.25, 1, "0.3 mm"),
        (-0.25, 1, "-0.3 mm"),
        (-0.04, 1, "0 mm"),
        (8.3, 2, "8.3 mm"),
        (1234.5678, 3, "1234.568 mm"),
        (1e-7, 1, "0 mm"),
    ],
)
def test_millimetres_are_rounded_half_away_from_0_without_trailing_zeros(
    mm: float, decimals: int, shown: str
) -> None:
    assert format_length(mm, decimals=decimals) == shown


def test_half_a_fraction_is_rounded_away_from_0() -> None:
    assert format_length(25.4 / 8, "in", denominator=4) == "1/4 in"
    assert format_length(-25.4 / 8, "in", denominator=4) == "-1/4 in"


def test_both_units_are_shown_with_millimetres_first() -> None:
    assert format_length(552.5, "both") == "552.5 mm (21 3/4 in)"
    assert format_mass(27.0, "both") == "27 kg (59.5 lb)"


def test_a_chosen_fraction_is_kept_to() -> None:
    assert format_length(552.5, "in", denominator=64) == "21 3/4 in"
    assert format_length(554.0, "in", denominator=64) == "21 13/16 in"
    assert format_length(554.0, "in", denominator=4) == "21 3/4 in"


@given(st.floats(-5000, 5000), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))
def test_shown_inches_read_back_within_half_the_fraction(mm: float, denominator: int) -> None:
    shown = format_length(mm, "in", denominator=denominator)
    assert abs(parse_length(shown) - mm) <= 25.4 / denominator / 2 + 1e-9


@given(st.floats(-5000, 5000), st.integers(0, 4))
def test_shown_millimetres_read_back_within_half_the_last_place(mm: float, decimals: int) -> None:
    assert abs(parse_length(format_length(mm, decimals=decimals)) - mm) <= 0.5 * 10**-decimals + 1e-9


@given(st.floats(0, 500))
def test_a_shown_mass_reads_back_within_half_the_last_place(kg: float) -> None:
    assert abs(parse_mass(format_mass(kg)) - kg) <= 0.05 + 1e-9
    assert abs(parse_mass(format_mass(kg, "in")) - kg) <= 0.05 * 0.45359237 + 1e-9


@given(st.floats(0.01, 5000))
def test_left_of_0_is_shown_as_right_of_0_with_a_sign(mm: float) -> None:
    for units in ("mm", "in"):
        right, left = format_length(mm, units), format_length(-mm, units)  # type: ignore[arg-type]
        assert left == (f"-{right}" if not right.startswith("0 ") else right)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (True, "true"),
        ("a\nb", '"a\N{REPLACEMENT CHARACTER}b"'),
        (None, "nothing"),
        ([1, "a"], '[1, "a"]'),
        ({"width": 3}, "{ width = 3 }"),
        ({}, "{}"),
        ([[[[1]]]], "[[[[…]]]]"),
        ({"a": {"b": {"c": {"d": 1}}}}, "{ a = { b = { c = {…} } } }"),
        (math.nan, "nan"),
    ],
)
def test_a_value_in_a_message_looks_as_it_did_in_the_file(value: object, shown: str) -> None:
    assert show_value(value) == shown


def test_a_long_value_is_cut_in_a_message() -> None:
    assert len(show_value("x" * 500)) <= 80


@given(st.floats(), st.sampled_from(["mm", "in", "both"]), st.integers(0, 6))
def test_any_number_is_shown_without_breaking(number: float, units: ShownUnits, decimals: int) -> None:
    length = format_length(number, units, decimals=decimals)
    mass = format_mass(number, units, decimals=decimals)
    assert length.endswith({"mm": " mm", "in": " in", "both": " in)"}[units])
    assert mass.endswith({"mm": " kg", "in": " lb", "both": " lb)"}[units])


@pytest.mark.parametrize(
    ("mm", "shown"), [(1e30, "1e+30 mm"), (-1e16, "-1e+16 mm"), (math.inf, "inf mm"), (math.nan, "nan mm")]
)
def test_numbers_too_large_to_round_are_shown_as_they_are(mm: float, shown: str) -> None:
    assert format_length(mm) == shown


def test_inches_rounded_down_are_never_more_than_the_length_and_whole_steps_stay() -> None:
    """166.497 mm = 6.555 in. 508 mm = 20 in exactly, whatever hair its float falls short by."""
    assert format_length(166.497, "in") == "6 9/16 in"
    assert format_length(166.497, "in", inches_down=True) == "6 17/32 in"
    assert format_length(166.497, "in", inches_down=True, denominator=64) == "6 35/64 in"
    assert format_length(507.99999999999994, "in", inches_down=True) == "20 in"
    assert format_length(-25.0, "in", inches_down=True) == "-1 in"
    assert format_length(25.0, "both", inches_down=True) == "25 mm (31/32 in)"
