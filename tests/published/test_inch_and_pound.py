"""The inch and the pound, exact.

International yard and pound agreement of 1 July 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg, exactly, hence
1 in = 25.4 mm and 1 ft = 304.8 mm. The same factors, printed as exact (in bold), stand in NIST Special
Publication 811, Appendix B.8 (from memory of the tables: inch, foot, pound avoirdupois, ounce).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from drawerwright.units import KG_PER_POUND, MM_PER_INCH, parse_length, parse_mass


def test_the_factors_are_the_agreements_and_exact() -> None:
    assert Fraction("914.4") / 36 == MM_PER_INCH
    assert Fraction("0.45359237") == KG_PER_POUND


@pytest.mark.parametrize(
    ("text", "mm"),
    [("1 in", 25.4), ("1 ft", 304.8), ("3 ft", 914.4), ("1/64 in", 0.396875), ("5/8 in", 15.875)],
)
def test_lengths_come_out_to_the_last_bit(text: str, mm: float) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize(
    ("text", "kg"),
    [("1 lb", 0.45359237), ("100 lb", 45.359237), ("1 oz", 0.028349523125), ("16 oz", 0.45359237)],
)
def test_masses_come_out_to_the_last_bit(text: str, kg: float) -> None:
    assert parse_mass(text) == kg


@pytest.mark.parametrize("step", range(1, 64))
def test_every_64th_of_an_inch_is_the_nearest_float(step: int) -> None:
    assert parse_length(f"{step}/64 in") == float(Fraction(step, 64) * Fraction("25.4"))
    assert parse_length(step / 64, "in") == float(Fraction(step, 64) * Fraction("25.4"))
