"""Lengths and masses as people write them, to and from mm and kg.

The only place where units are converted. 1 in = 25.4 mm and 1 lb = 0.45359237 kg, both exact
(international yard and pound agreement, 1959; NIST SP 811, Appendix B). Strings are worked out as exact
fractions and rounded once, to the float that is returned.
"""

from __future__ import annotations

import math
import re
import unicodedata
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Final, Literal

from drawerwright.errors import ReadingError

BareUnit = Literal["mm", "in"]
ShownUnits = Literal["mm", "in", "both"]

MM_PER_INCH: Final = Fraction(254, 10)
KG_PER_POUND: Final = Fraction(45359237, 10**8)
LARGEST_LENGTH: Final = 5000.0
"""Largest length that a file may hold [mm], from the public contract."""

HARDLY: Final = Fraction(1, 10_000)
"""A step short by less than this share of one counts as whole: floats of 508.0 mm are 20 in. Own choice."""

_TOO_LARGE_TO_ROUND: Final = 1e15
"""From here on a float has no decimals left: such numbers, and what is no number, are shown as they are."""

SIXTY_FOURTH: Final = 64
"""Finest parts of an inch that anybody writes: a length of just so many was told in inches."""

EIGHTH: Final = float(MM_PER_INCH) / 8
"""1/8 in [mm]: shorter lengths are told in mm, for a fraction would hide them. Own choice."""

LENGTH_EXAMPLE: Final = '"552.5 mm" or "21 3/4 in"'
MASS_EXAMPLE: Final = '"27 kg" or "60 lb"'

_LENGTH_UNITS: Final[dict[str, Fraction]] = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000)),
    **dict.fromkeys(("in", "inch", "inches", '"'), MM_PER_INCH),
    **dict.fromkeys(("ft", "foot", "feet", "'"), MM_PER_INCH * 12),
}
_MASS_UNITS: Final[dict[str, Fraction]] = {
    **dict.fromkeys(("kg", "kilogram", "kilograms", "kilogramme", "kilogrammes"), Fraction(1)),
    **dict.fromkeys(("g", "gram", "grams", "gramme", "grammes"), Fraction(1, 1000)),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), KG_PER_POUND),
    **dict.fromkeys(("oz", "ounce", "ounces"), KG_PER_POUND / 16),
}
_FORCE_UNITS: Final = frozenset({"n", "kn", "lbf", "kgf", "newton", "newtons"})
_FEET: Final = frozenset({"ft", "foot", "feet", "'"})
_INCHES: Final = frozenset({"in", "inch", "inches", '"'})

_SIGNS: Final = str.maketrans(
    {
        "″": '"', "“": '"', "”": '"', "„": '"', "′": "'", "’": "'", "‘": "'", "ʹ": "'", "´": "'",
        "⁄": "/", "∕": "/", "−": "-", "–": "-", "‐": "-", "‑": "-",
    }
)  # fmt: skip
_RAISED_FRACTION: Final = re.compile(r"(?<=\d)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)(?=[⁄∕/])")
_RAISED_ALONE: Final = re.compile(r"[⁰¹²³⁴⁵⁶⁷⁸⁹](?![⁰¹²³⁴⁵⁶⁷⁸⁹]*[⁄∕/])")
"""A raised figure that is no part of a fraction: a power or a footnote, never a digit of the length."""
_NUMBER: Final = r"(?:\d+(?:\s+|-)\d+\s*/\s*\d+|\d+\s*/\s*\d+|[\d.,]*\d[\d.,]*)"
_ONE: Final = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>[a-z\"']*)\.?")
_TWO: Final = re.compile(
    rf"(?P<number>{_NUMBER})\s*(?P<unit>[a-z']+)\.?\s*-?\s*(?P<number2>{_NUMBER})\s*(?P<unit2>[a-z\"]*)\.?"
)
_MIXED: Final = re.compile(r"(?:(\d+)(?:\s+|-))?(\d+)\s*/\s*(\d+)")


def parse_length(value: object, bare_unit: BareUnit = "mm") -> float:
    """A length [mm] of either sign, as written in a file.

    A number, and a string that is a plain decimal number, is in `bare_unit`. A string may carry its unit,
    and one with a fraction and no unit is in inches: nobody writes fractions of a millimetre.
    Raises ReadingError.
    """
    if type(value) is float and bare_unit == "mm" and math.isfinite(value):
        return value
    if isinstance(value, str):
        return _as_float(_read_text(value, bare_unit, length=True), value, "a length", LENGTH_EXAMPLE)
    number = _read_number(value, "a length", LENGTH_EXAMPLE)
    if bare_unit == "mm":
        return number
    return _as_float(_as_written(number) * MM_PER_INCH, value, "a length", LENGTH_EXAMPLE)


def parse_size(value: object, bare_unit: BareUnit = "mm") -> float:
    """A length [mm] with 0 < x ≤ 5,000. Raises ReadingError."""
    length = parse_length(value, bare_unit)
    if not 0.0 < length <= LARGEST_LENGTH:
        raise _out_of_range(value, length, bare_unit, "a size lies above 0 and up to 5000 mm")
    return length


def parse_clearance(value: object, bare_unit: BareUnit = "mm") -> float:
    """A length [mm] with 0 ≤ x ≤ 5,000. Raises ReadingError."""
    length = parse_length(value, bare_unit)
    if not 0.0 <= length <= LARGEST_LENGTH:
        raise _out_of_range(value, length, bare_unit, "this length lies from 0 up to 5000 mm")
    return length + 0.0  # -0.0 becomes 0.0


def parse_offset(value: object, bare_unit: BareUnit = "mm") -> float:
    """A length [mm] of either sign with −5,000 ≤ x ≤ 5,000. Raises ReadingError."""
    length = parse_length(value, bare_unit)
    if not -LARGEST_LENGTH <= length <= LARGEST_LENGTH:
        raise _out_of_range(value, length, bare_unit, "this length lies from -5000 to 5000 mm")
    return length + 0.0


def parse_mass(value: object, bare_unit: BareUnit = "mm") -> float:
    """A mass [kg], 0 or more. A bare number is kg in an mm file, lb in an in file. Raises ReadingError."""
    if isinstance(value, str):
        mass = _as_float(_read_text(value, bare_unit, length=False), value, "a mass", MASS_EXAMPLE)
    else:
        mass = _read_number(value, "a mass", MASS_EXAMPLE)
        if bare_unit == "in":
            mass = _as_float(_as_written(mass) * KG_PER_POUND, value, "a mass", MASS_EXAMPLE)
    if mass < 0.0:
        raise ReadingError(show_value(value), "is negative: a mass is 0 or more", MASS_EXAMPLE)
    return mass + 0.0


def format_length(
    mm: float,
    units: ShownUnits = "mm",
    *,
    denominator: int | None = None,
    decimals: int = 1,
    inches_down: bool = False,
) -> str:
    """A length [mm] as people read it: "552.5 mm", "21 3/4 in", or "552.5 mm (21 3/4 in)".

    Millimetres are rounded to `decimals`, without trailing zeros; inches to the nearest 1/`denominator`,
    reduced: unless told 1/32, or 1/64 where the length is just so many. What lies half way goes away from 0.
    With `inches_down` inches are never more than the length is, for sizes and margins that have an upper
    limit; a step that a float falls short of by a hair counts.
    """
    metric = f"{_decimal(mm, decimals)} mm"
    if units == "mm":
        return metric
    parts = denominator or (32 if inches_down else finest_parts(mm))
    inches = f"{_inch_fraction(mm, parts, inches_down)} in"
    return inches if units == "in" else f"{metric} ({inches})"


def is_just_inches(mm: float) -> bool:
    """Whether a length [mm] is a whole number of 1/64 in, but for what a float is off by."""
    steps = abs(mm) / float(MM_PER_INCH) * SIXTY_FOURTH
    return steps < _TOO_LARGE_TO_ROUND and abs(steps - round(steps)) < HARDLY


def finest_parts(mm: float, parts: int = 32) -> int:
    """Into how many parts an inch is divided for a length [mm]: `parts`, or 64 where it is just so many."""
    return SIXTY_FOURTH if is_just_inches(mm) else parts


def is_slight(mm: float) -> bool:
    """Whether fractions of an inch hide what a length [mm] is: under 1/8 in, and no whole number of 1/64."""
    return abs(mm) < EIGHTH and not is_just_inches(mm)


def format_mass(kg: float, units: ShownUnits = "mm", *, decimals: int = 1) -> str:
    """A mass [kg] as people read it: "27 kg", "59.5 lb", or "27 kg (59.5 lb)"; rounded as lengths are."""
    metric = f"{_decimal(kg, decimals)} kg"
    if units == "mm":
        return metric
    pounds = f"{_decimal(_pounds(kg), decimals)} lb"
    return pounds if units == "in" else f"{metric} ({pounds})"


def show_value(value: object, *, depth: int = 3) -> str:
    """A value as it is named in a message: strings quoted, long and deep ones cut."""
    if isinstance(value, bool):
        text = "true" if value else "false"
    elif isinstance(value, str):
        text = '"' + "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in value) + '"'
    elif value is None:
        text = "nothing"
    elif isinstance(value, (list, tuple)):
        shown = [show_value(one, depth=depth - 1) for one in value[:8]] if depth else ["…"]
        text = "[" + ", ".join(shown) + ("…]" if len(value) > 8 and depth else "]")
    elif isinstance(value, dict):
        few = list(value.items())[:8] if depth else []
        pairs = ", ".join(f"{key} = {show_value(one, depth=depth - 1)}" for key, one in few)
        text = f"{{ {pairs} }}" if pairs else "{…}" if value else "{}"
    else:
        text = str(value)
    return text if len(text) <= 80 else text[:76] + "…" + text[-1]


def _decimal(number: float, decimals: int) -> str:
    """A number rounded to so many decimals, trailing zeros and the sign of 0 left out."""
    if not abs(number) < _TOO_LARGE_TO_ROUND:
        return f"{number:.6g}"
    rounded = Decimal(repr(float(number))).quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    text = f"{rounded:f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _pounds(kg: float) -> float:
    if not abs(kg) < _TOO_LARGE_TO_ROUND:
        return kg / float(KG_PER_POUND)
    return float(_as_written(float(kg)) / KG_PER_POUND)


def _inch_fraction(mm: float, denominator: int, down: bool) -> str:
    """Whole inches and a reduced fraction of a length [mm]."""
    if not abs(mm) < _TOO_LARGE_TO_ROUND:
        return f"{mm / 25.4:.6g}"
    exact = _as_written(float(mm)) / MM_PER_INCH * denominator
    steps = abs(math.floor(exact + HARDLY)) if down else math.floor(abs(exact) + Fraction(1, 2))
    whole, rest = divmod(Fraction(steps, denominator), 1)
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{rest.numerator}/{rest.denominator}")
    return ("-" if mm < 0 and steps else "") + " ".join(parts)


def _read_number(value: object, wanted: str, example: str) -> float:
    """A finite number that is not a boolean."""
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise ReadingError(show_value(value), f"is not {wanted}", example)
    try:
        number = float(value)
    except OverflowError:
        raise ReadingError(show_value(value), f"is too large for {wanted}", example) from None
    if not math.isfinite(number):
        raise ReadingError(show_value(value), f"is not a finite number: {wanted} is wanted", example)
    return number


def _as_float(exact: Fraction, value: object, wanted: str, example: str) -> float:
    """The number nearest to an exact one. Raises ReadingError where there is none so large."""
    try:
        return float(exact)
    except OverflowError:
        raise ReadingError(show_value(value), f"is too large for {wanted}", example) from None


def _as_written(number: float) -> Fraction:
    """The decimal that was written, not its binary neighbour."""
    return Fraction(repr(number))


def _out_of_range(value: object, length: float, bare_unit: BareUnit, allowed: str) -> ReadingError:
    """A length that is too large or too small, told as it was read, with the limit in the same unit."""
    said, example, unit = "is out of range", LENGTH_EXAMPLE, _unit_told(value, bare_unit)
    if isinstance(value, str) and unit is None:
        said = f"is {length:.6g} mm, out of range"
    elif unit == "in":
        allowed += f" (about {LARGEST_LENGTH / float(MM_PER_INCH):.1f} in)"
        said = f"was read as {length / float(MM_PER_INCH):.6g} in, {length:.6g} mm: out of range"
        if length > LARGEST_LENGTH:
            why = "a bare number here is inches" if bare_unit == "in" else "a fraction is read as inches"
            example = f'"{str(value).strip()} mm", if mm were meant: {why}'
            if bare_unit == "mm":
                example = f"the figure with a decimal point, if mm were meant: {why}"
    return ReadingError(show_value(value), f"{said}: {allowed}", example)


def _unit_told(value: object, bare_unit: BareUnit) -> BareUnit | None:
    """The unit that a number without one was read in; None where it has its own."""
    if not isinstance(value, str):
        return bare_unit
    one = _ONE.fullmatch(_normal(value).lstrip("+- "))
    if one is None or one["unit"]:
        return None
    return "in" if "/" in one["number"] else bare_unit


def _normal(text: str) -> str:
    """Text with one kind of space, sign and fraction, in small letters."""
    text = _RAISED_FRACTION.sub(r" \1", text)
    text = _RAISED_ALONE.sub("\N{REPLACEMENT CHARACTER}", text)
    spread = []
    for character in text:
        decomposed = unicodedata.decomposition(character)
        if decomposed.startswith("<fraction>"):
            spread.append(" " + "".join(chr(int(code, 16)) for code in decomposed.split()[1:]))
        else:
            spread.append(character)
    plain = unicodedata.normalize("NFKC", "".join(spread).translate(_SIGNS)).translate(_SIGNS)
    return re.sub(r"\s+", " ", plain.replace("''", '"')).strip().casefold()


def _read_text(text: str, bare_unit: BareUnit, *, length: bool) -> Fraction:
    """The exact value of a written length [mm] or mass [kg]."""
    shown, wanted = show_value(text), "a length" if length else "a mass"
    example = LENGTH_EXAMPLE if length else MASS_EXAMPLE
    plain = _normal(text)
    if not plain:
        raise ReadingError(shown, f"is empty: {wanted} is wanted", example)
    sign = -1 if plain[0] == "-" else 1
    body = plain[1:].lstrip() if plain[0] in "+-" else plain
    one = _ONE.fullmatch(body)
    if one is not None:
        unit = one["unit"] or _bare(one["number"], bare_unit, length=length)
        factor = _factor(unit, shown, length=length)
        return sign * _number(one["number"], shown, example) * factor
    two = _TWO.fullmatch(body)
    if two is not None:
        return sign * _two_units(two, shown, length=length)
    raise ReadingError(shown, f"cannot be read as {wanted}", _several(text) or example)


def _several(text: str) -> str:
    """What to write where a text holds several bare numbers one after the other; empty where it does not."""
    numbers = re.split(r"[\s,]+", text.strip())
    if len(numbers) < 2 or not all(re.fullmatch(r"\d{2,}(?:\.\d+)?", one) for one in numbers):
        return ""
    return f'"{"; ".join(numbers)}", if these are several readings'


def _bare(number: str, bare_unit: BareUnit, *, length: bool) -> str:
    """The unit that a string without one is in."""
    if not length:
        return "kg" if bare_unit == "mm" else "lb"
    return "in" if "/" in number else bare_unit


def _factor(unit: str, shown: str, *, length: bool) -> Fraction:
    """How many mm or kg one of a unit is."""
    units, others = (_LENGTH_UNITS, _MASS_UNITS) if length else (_MASS_UNITS, _LENGTH_UNITS)
    wanted, other = ("a length", "a mass") if length else ("a mass", "a length")
    example = LENGTH_EXAMPLE if length else MASS_EXAMPLE
    if unit in units:
        return units[unit]
    if unit in others:
        raise ReadingError(shown, f"is {other}: {wanted} is wanted here", example)
    if unit in _FORCE_UNITS:
        raise ReadingError(shown, f"is a force: {wanted} is wanted here", example)
    known = "mm, cm, m, in, ft" if length else "kg, g, lb, oz"
    raise ReadingError(shown, f'has the unit "{unit}", which is not one of {known}', example)


def _number(text: str, shown: str, example: str) -> Fraction:
    """The exact value of a decimal, a fraction or a whole number with a fraction."""
    mixed = _MIXED.fullmatch(text)
    if mixed is not None:
        whole, over, under = mixed[1], int(mixed[2]), int(mixed[3])
        if under == 0:
            raise ReadingError(shown, "has a fraction over 0", example)
        if whole is not None and over >= under:
            raise ReadingError(shown, f"has {over}/{under} beside a whole number: less than 1 goes", example)
        return int(whole or 0) + Fraction(over, under)
    if text.count(",") + text.count(".") > 1:
        raise ReadingError(shown, "has more than one comma or point: leave out marks of thousands", example)
    before, comma, after = text.partition(",")
    if comma and len(after) == 3 and 1 <= len(before) <= 3 and before.strip("0"):
        raise ReadingError(
            shown,
            "could be thousands or a decimal comma",
            f'"{before}{after}" or "{before}.{after}", whichever is meant' + _or_two(before, after),
        )
    return Fraction(text.replace(",", ".").rstrip("."))


def _or_two(before: str, after: str) -> str:
    """A comma's third meaning: two readings alike, as one opening's are. Own choice: to a tenth."""
    if not 0.9 < int(before) / max(int(after), 1) < 1.1:
        return ""
    return f'; "{before}; {after}", if these are two readings'


def _two_units(match: re.Match[str], shown: str, *, length: bool) -> Fraction:
    """Feet with inches, or pounds with ounces."""
    large, small = match["unit"], match["unit2"]
    example = '"1\' 9 3/4\\""' if length else '"5 lb 4 oz"'
    if length:
        fits, base, most, names = large in _FEET and small in _INCHES | {""}, "in", 12, "feet and inches"
    else:
        pounds = _MASS_UNITS.get(large) == KG_PER_POUND and _MASS_UNITS.get(small) == KG_PER_POUND / 16
        fits, base, most, names = pounds, "oz", 16, "pounds and ounces"
    if not fits:
        _factor(large, shown, length=length)
        if small:
            _factor(small, shown, length=length)
        raise ReadingError(shown, f"has two numbers: only {names} go together", example)
    first, second = _number(match["number"], shown, example), _number(match["number2"], shown, example)
    if first.denominator != 1 or second >= most:
        raise ReadingError(shown, f"does not read as {names}: a whole number, then less than {most}", example)
    return (first * most + second) * _factor(base, shown, length=length)
