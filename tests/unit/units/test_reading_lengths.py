from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawerwright.errors import ReadingError
from drawerwright.units import parse_clearance, parse_length, parse_mass, parse_offset, parse_size

INCHES_21_3_4 = 552.45


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("552.5 mm", 552.5),
        ("55.25 cm", 552.5),
        ("0.5525 m", 552.5),
        ("552.5mm", 552.5),
        ("552.5 MM", 552.5),
        ("552.5 millimetres", 552.5),
        ("552.5\u00a0mm", 552.5),
        ("552.5\u202fmm", 552.5),
        ("552,5 mm", 552.5),
        ("552,5", 552.5),
        ("0,125", 0.125),
        ("1234,567", 1234.567),
        ("552.", 552.0),
        (".5", 0.5),
        (" 552 ", 552.0),
        ("+3 mm", 3.0),
        ("-3 mm", -3.0),
        ("−3 mm", -3.0),
        ("21 3/4 in", INCHES_21_3_4),
        ("21-3/4 in", INCHES_21_3_4),
        ("21-3/4 in.", INCHES_21_3_4),
        ("21–3/4 inches", INCHES_21_3_4),
        ('21-3/4"', INCHES_21_3_4),
        ('21 3/4"', INCHES_21_3_4),
        ("21 3/4″", INCHES_21_3_4),
        ("21 3/4”", INCHES_21_3_4),
        ("21 3/4''", INCHES_21_3_4),
        ("21.75 in", INCHES_21_3_4),
        ("21,75 inch", INCHES_21_3_4),
        ("87/4 in", INCHES_21_3_4),
        ("21¾", INCHES_21_3_4),
        ("21 ¾ in", INCHES_21_3_4),
        ("21¾″", INCHES_21_3_4),
        ("21 3⁄4 in", INCHES_21_3_4),
        ("21³⁄₄ in", INCHES_21_3_4),
        ("21 3 / 4 in", INCHES_21_3_4),
        ("1' 9 3/4\"", INCHES_21_3_4),
        ("1′ 9 3⁄4″", INCHES_21_3_4),
        ("1'-9 3/4\"", INCHES_21_3_4),
        ("1'9¾\"", INCHES_21_3_4),
        ("1 ft 9 3/4 in", INCHES_21_3_4),
        ("1 ft. 9.75 in.", INCHES_21_3_4),
        ("1' 9 3/4", INCHES_21_3_4),
        ("2 ft", 609.6),
        ("2'", 609.6),
        ("1/2 ft", 152.4),
        ("3/4 in", 19.05),
        ("⅝ in", 15.875),
        ("⅟8 in", 3.175),
        ("-1/8 in", -3.175),
        ("5/8", 15.875),
        ("0", 0.0),
    ],
)
def test_a_written_length_is_read_in_its_own_unit(text: str, mm: float) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize(
    ("value", "bare_unit", "mm"),
    [
        (552, "mm", 552.0),
        (552.5, "mm", 552.5),
        ("552.5", "mm", 552.5),
        (21.75, "in", INCHES_21_3_4),
        (22, "in", 558.8),
        ("21.75", "in", INCHES_21_3_4),
        ("21¾", "in", INCHES_21_3_4),
        ("21 3/4", "in", INCHES_21_3_4),
        ("552.5 mm", "in", 552.5),
        (0.1, "in", 2.54),
    ],
)
def test_a_bare_number_is_in_the_files_unit(value: object, bare_unit: str, mm: float) -> None:
    assert parse_length(value, bare_unit) == mm  # type: ignore[arg-type]


def test_a_fraction_without_a_unit_is_in_inches_even_in_a_millimetre_file() -> None:
    assert parse_length("21¾", "mm") == parse_length("21¾", "in") == INCHES_21_3_4


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (True, "is not a length"),
        (None, "is not a length"),
        ([552], "is not a length"),
        ({}, "is not a length"),
        (math.nan, "not a finite number"),
        (math.inf, "not a finite number"),
        (-math.inf, "not a finite number"),
        (10**400, "too large"),
        ("", "is empty"),
        ("  \u00a0 ", "is empty"),
        ("wide", "cannot be read as a length"),
        ("nan", "cannot be read as a length"),
        ("inf mm", "cannot be read as a length"),
        ("1e3 mm", "is not one of mm, cm, m, in, ft"),
        ("--3", "cannot be read as a length"),
        ("mm", "cannot be read as a length"),
        ("5 mm mm", "cannot be read as a length"),
        ("27 kg", "is a mass"),
        ("60 lb", "is a mass"),
        ("60 N", "is a force"),
        ("3 yards", 'has the unit "yards"'),
        ("1,234", "thousands or a decimal comma"),
        ("12,345 mm", "thousands or a decimal comma"),
        ("1,234.5", "more than one comma or point"),
        ("1.234.5", "more than one comma or point"),
        ("21 5/4 in", "beside a whole number"),
        ("21 3/0 in", "fraction over 0"),
        ("3/0", "fraction over 0"),
        ("21.5 3/4 in", "cannot be read as a length"),
        ("1 234 mm", "cannot be read as a length"),
        ("1' 13\"", "does not read as feet and inches"),
        ("1.5' 3\"", "does not read as feet and inches"),
        ("3 mm 4 mm", "only feet and inches go together"),
        ("3 mm 4 in", "only feet and inches go together"),
        ("3 in 4 in", "only feet and inches go together"),
        ("5 lb 4 oz", "is a mass"),
        ("²²", "cannot be read as a length"),
        ("22²", "cannot be read as a length"),
    ],
)
def test_what_is_no_length_is_refused_with_the_reason(value: object, says: str) -> None:
    with pytest.raises(ReadingError) as refused:
        parse_length(value)
    assert says in refused.value.says
    assert refused.value.try_


def test_an_ambiguous_comma_is_answered_with_both_readings() -> None:
    with pytest.raises(ReadingError) as refused:
        parse_length("1,234")
    assert refused.value.try_ == '"1234" or "1.234", whichever is meant'


@pytest.mark.parametrize(
    ("text", "meant"),
    [("562 561", "562; 561"), ("562  561.5 560", "562; 561.5; 560"), ("562,561", "562; 561")],
)
def test_several_readings_in_one_are_answered_with_how_to_part_them(text: str, meant: str) -> None:
    with pytest.raises(ReadingError) as refused:
        parse_length(text)
    assert f'"{meant}", if these are' in refused.value.try_


def test_figures_that_are_no_two_readings_are_not_called_so() -> None:
    for text in ("1,234", "1 234", "21 three", "5 5"):
        with pytest.raises(ReadingError) as refused:
            parse_length(text)
        assert "readings" not in refused.value.try_


def test_a_length_out_of_range_says_what_it_was_read_as() -> None:
    with pytest.raises(ReadingError) as fraction:
        parse_size("561½")
    assert "was read as 561.5 in" in fraction.value.says
    assert "a fraction is read as inches" in fraction.value.try_
    with pytest.raises(ReadingError) as bare:
        parse_size("562", "in")
    assert "196.9 in" in bare.value.says
    assert bare.value.try_.startswith('"562 mm", if mm were meant')
    with pytest.raises(ReadingError) as metric:
        parse_size("6000")
    assert "in)" not in metric.value.says


@pytest.mark.parametrize("value", [0, -1, 0.0, "-3 mm", 5000.5, "5.1 m", "200 in"])
def test_a_size_lies_above_0_and_up_to_5000_mm(value: object) -> None:
    with pytest.raises(ReadingError, match="a size lies above 0 and up to 5000 mm"):
        parse_size(value)


@pytest.mark.parametrize("value", [5000, "5 m", 0.001])
def test_sizes_at_the_ends_of_the_range_are_read(value: object) -> None:
    assert 0.0 < parse_size(value) <= 5000.0


def test_millimetres_in_an_inch_file_are_refused_with_a_hint() -> None:
    with pytest.raises(ReadingError) as refused:
        parse_size(552, "in")
    assert "14020.8 mm" in refused.value.says
    assert '"552 mm"' in refused.value.try_


def test_a_clearance_may_be_0_but_not_less() -> None:
    assert parse_clearance(0) == 0.0
    assert math.copysign(1.0, parse_clearance(-0.0)) == 1.0
    with pytest.raises(ReadingError, match="from 0 up to 5000 mm"):
        parse_clearance(-0.1)


@pytest.mark.parametrize(
    ("value", "bare_unit", "kg"),
    [
        ("27 kg", "mm", 27.0),
        ("27kg", "mm", 27.0),
        ("60 lb", "mm", 27.2155422),
        ("60 lbs.", "mm", 27.2155422),
        ("60 pounds", "mm", 27.2155422),
        ("500 g", "mm", 0.5),
        ("16 oz", "mm", 0.45359237),
        ("5 lb 4 oz", "mm", 2.3813599425),
        ("2,5 kg", "mm", 2.5),
        ("1/2 lb", "mm", 0.226796185),
        (27, "mm", 27.0),
        ("27", "mm", 27.0),
        (60, "in", 27.2155422),
        ("60", "in", 27.2155422),
        ("27 kg", "in", 27.0),
        (0, "mm", 0.0),
    ],
)
def test_a_written_mass_is_read(value: object, bare_unit: str, kg: float) -> None:
    assert parse_mass(value, bare_unit) == kg  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (True, "is not a mass"),
        (-1, "is negative"),
        ("-1 kg", "is negative"),
        (math.nan, "not a finite number"),
        ("20 mm", "is a length"),
        ('20"', "is a length"),
        ("200 N", "is a force"),
        ("1 stone", 'has the unit "stone"'),
        ("", "is empty"),
        ("heavy", "cannot be read as a mass"),
        ("5 lb 17 oz", "does not read as pounds and ounces"),
        ("1 kg 2 g", "only pounds and ounces go together"),
    ],
)
def test_what_is_no_mass_is_refused_with_the_reason(value: object, says: str) -> None:
    with pytest.raises(ReadingError) as refused:
        parse_mass(value)
    assert says in refused.value.says


def reads_or_refuses(parse: Callable[[object], float], text: str) -> bool:
    try:
        return math.isfinite(parse(text))
    except ReadingError as refused:
        return bool(refused.says and refused.try_)


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused_but_never_breaks(text: str) -> None:
    assert reads_or_refuses(parse_length, text)


@given(st.text(alphabet="0123456789 /-.,'\"inmftclbkgoz¾½⁄", max_size=16))
def test_text_of_the_signs_of_lengths_is_read_or_refused(text: str) -> None:
    for parse in (parse_length, parse_mass):
        assert reads_or_refuses(parse, text)


@given(st.decimals(min_value="0.001", max_value="196", places=3))
def test_a_length_in_inches_is_25_4_times_the_same_in_millimetres(number: object) -> None:
    inches = parse_size(f"{number} in")
    assert inches == pytest.approx(25.4 * parse_size(f"{number} mm"), rel=1e-15)
    assert inches == parse_size(float(str(number)), "in")


@given(st.integers(0, 190), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_every_spelling_of_a_fraction_reads_alike(whole: int, over: int, under: int) -> None:
    over %= under
    spellings = [f"{whole} {over}/{under} in", f'{whole}-{over}/{under}"', f"{whole} {over}⁄{under}″"]
    spellings.append(f"{whole // 12}' {whole % 12} {over}/{under}\"")
    assert len({parse_length(text) for text in spellings}) == 1
    assert parse_length(spellings[0]) == (whole * under + over) * 254 / (under * 10)


@pytest.mark.parametrize("value", [5000, -5000, "-5 m", 0, -1.5])
def test_an_offset_has_either_sign(value: object) -> None:
    assert parse_offset(value) == parse_length(value)


@pytest.mark.parametrize("value", [5000.5, "-5.1 m", 1e30])
def test_an_offset_lies_within_5000_mm(value: object) -> None:
    with pytest.raises(ReadingError) as refused:
        parse_offset(value)
    assert "from -5000 to 5000 mm" in refused.value.says


@pytest.mark.parametrize("read", [parse_length, parse_size, parse_mass])
@pytest.mark.parametrize(
    "value", [1.7e308, "9" * 310, "9" * 400 + " in"], ids=["number", "text", "with unit"]
)
def test_a_number_that_is_too_large_once_its_unit_is_known_is_refused(
    read: Callable[..., float], value: object
) -> None:
    told = ""
    try:
        length = read(value, "in")
    except ReadingError as error:
        length, told = math.inf, error.says
    assert math.isfinite(length) != bool(told)
