"""Paper sizes against the standards that define them.

ISO 216:2007, main ISO-A series: A4 is 210 mm × 297 mm; each size of the series has sides in the ratio 1 : √2
(to the whole millimetre) and A0 has an area of 1 m².
ANSI/ASME Y14.1: size A is 8.5 in × 11 in; 25.4 mm to the inch is exact (international inch, 1959).
Workbooks know A4 as paper 9 and Letter as paper 1: ECMA-376 Part 1, 18.3.1.63 (paperSize).
"""

from __future__ import annotations

import math

import pytest

from drawerwright.pack.papers import papers


def test_a4_is_that_of_iso_216_and_lies_across() -> None:
    a4 = papers()["a4"]
    assert (a4.width, a4.height) == (297.0, 210.0)


def test_a4_is_a0_halved_four_times_and_keeps_its_shape() -> None:
    a4 = papers()["a4"]
    assert a4.width / a4.height == pytest.approx(math.sqrt(2), abs=0.5 / a4.height * 2)
    assert a4.width * a4.height * 2**4 == pytest.approx(1e6, rel=0.005)


def test_letter_is_size_a_of_the_american_standard_in_exact_inches() -> None:
    letter = papers()["letter"]
    assert letter.width == pytest.approx(11 * 25.4, abs=1e-9)
    assert letter.height == pytest.approx(8.5 * 25.4, abs=1e-9)


def test_workbooks_know_both_papers_by_their_numbers() -> None:
    assert papers()["a4"].spreadsheet == 9
    assert papers()["letter"].spreadsheet == 1


def test_every_paper_names_its_source() -> None:
    assert all("216" in paper.source or "Y14.1" in paper.source for paper in papers().values())
