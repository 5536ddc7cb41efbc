"""Field types of the models: lengths, masses, numbers, names, read with the unit of their file.

A validation context `{"bare_unit": "in"}` says what a bare number means; without one it is mm and kg.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from itertools import pairwise
from typing import Annotated, Any, Literal, TypeVar, cast

from pydantic import BaseModel, ConfigDict, PlainSerializer, PlainValidator, ValidationInfo, WithJsonSchema

from drawerwright.errors import Problem, Problems, ReadingError
from drawerwright.units import (
    LENGTH_EXAMPLE,
    BareUnit,
    parse_clearance,
    parse_mass,
    parse_offset,
    parse_size,
    show_value,
)

Read = TypeVar("Read")


class Record(BaseModel):
    """Base of all models: frozen, unknown keys refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


def bare_unit_of(info: ValidationInfo) -> BareUnit:
    """What a bare length means in the file being read."""
    context = info.context
    return cast(BareUnit, context.get("bare_unit", "mm")) if context else "mm"


def read_each(values: Iterable[object], read: Callable[[object], Read]) -> tuple[Read, ...]:
    """Every value of a list read; what is wrong in each is reported together, by its position."""
    done: list[Read] = []
    problems: list[Problem] = []
    for position, value in enumerate(values):
        try:
            done.append(read(value))
        except ReadingError as error:
            problems.append(Problem((position,), error.value, error.says, error.try_))
    if problems:
        raise Problems(problems)
    return tuple(done)


def read_thickness(value: object, info: ValidationInfo) -> float:
    """One thickness [mm], or the mean of several readings of it."""
    unit = bare_unit_of(info)
    if isinstance(value, (list, tuple)):
        if not value:
            raise ReadingError("[]", "holds no reading", "16 or [15.8, 16.0]")
        return math.fsum(read_each(value, lambda one: parse_size(one, unit))) / len(value)
    return parse_size(value, unit)


def _list_of(value: object, example: str) -> list[object] | tuple[object, ...]:
    if not isinstance(value, (list, tuple)):
        raise ReadingError(show_value(value), "is not a list", example)
    return value


def _read_clearances(value: object, info: ValidationInfo) -> tuple[float, ...]:
    unit = bare_unit_of(info)
    return read_each(_list_of(value, "[0, 32, 224]"), lambda one: parse_clearance(one, unit))


def _read_ascending(value: object, info: ValidationInfo) -> tuple[float, ...]:
    lengths = _read_clearances(value, info)
    if any(later <= earlier for earlier, later in pairwise(lengths)):
        says = "does not ascend: each is larger than the one before"
        raise ReadingError(show_value(value), says, "[0, 32, 224]")
    return lengths


_SIZES_EXAMPLES = {"spacers": "[3]"}
"""What a list of sizes may look like, where it does not hold heights."""


def _read_sizes(value: object, info: ValidationInfo) -> tuple[float, ...]:
    unit = bare_unit_of(info)
    example = _SIZES_EXAMPLES.get(info.field_name or "", "[90, 120, 147]")
    sizes = read_each(_list_of(value, example), lambda one: parse_size(one, unit))
    return tuple(sorted(set(sizes)))


def _pair_of(value: object, example: str) -> list[object] | tuple[object, ...]:
    pair = _list_of(value, example)
    if len(pair) != 2:
        raise ReadingError(show_value(value), f"has {len(pair)} values: two are wanted", example)
    return pair


_WIDTH_BAND = "[-1.0, 1.5]"
_BAND_EXAMPLES = {
    "reach": "[0, 45]",
    "side": "[-1.5, 1.5]",
    "height": "[0.0, 3.0]",
    "depth": "[0.0, 4.0]",
    "travel": "[-2.0, 2.0]",
    "lower": "[130, 370]",
    "upper": "[130, 370]",
}
"""Bands by their key, as a plain family has them; only to be read, so no number here is used."""


def _read_band(value: object, info: ValidationInfo) -> tuple[float, float]:
    unit, example = bare_unit_of(info), _BAND_EXAMPLES.get(info.field_name or "", _WIDTH_BAND)
    low, high = read_each(_pair_of(value, example), lambda one: parse_offset(one, unit))
    if low > high:
        raise ReadingError(show_value(value), "has its low end above its high end", example)
    return low, high


def _read_two_sizes(value: object, info: ValidationInfo) -> tuple[float, float]:
    unit, example = bare_unit_of(info), "[586.5, 588]"
    first, second = read_each(_pair_of(value, example), lambda one: parse_size(one, unit))
    return first, second


def _read_degrees(value: object) -> float:
    text = value.strip().removesuffix("°").strip() if isinstance(value, str) else value
    try:
        return _read_real(float(text.replace(",", ".")) if isinstance(text, str) else text)
    except (ValueError, ReadingError):
        raise ReadingError(show_value(value), "is not an angle in degrees", "95") from None


def _read_point(value: object, info: ValidationInfo) -> tuple[float, float]:
    unit = bare_unit_of(info)
    x, y = read_each(_pair_of(value, "[12, 9]"), lambda one: parse_offset(one, unit))
    return x, y


def _read_points(value: object, info: ValidationInfo) -> tuple[tuple[float, float], ...]:
    return read_each(_list_of(value, "[[12, 9], [28, 9]]"), lambda one: _read_point(one, info))


def _read_radii(value: object, info: ValidationInfo) -> tuple[float, ...]:
    unit = bare_unit_of(info)
    if not isinstance(value, (list, tuple)):
        return (parse_clearance(value, unit),)
    if not value:
        raise ReadingError("[]", "holds no radius", "1.2 or [1.2, 1.2]")
    return read_each(value, lambda one: parse_clearance(one, unit))


def _read_real(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not math.isfinite(value):
        raise ReadingError(show_value(value), "is not a number", "0.5")
    return float(value)


def _read_positive(value: object) -> float:
    number = _read_real(value)
    if number <= 0.0:
        raise ReadingError(show_value(value), "is not above 0", "0.5")
    return number


def _read_not_negative(value: object) -> float:
    number = _read_real(value)
    if number < 0.0:
        raise ReadingError(show_value(value), "is negative: 0 or more is wanted", "0")
    return number + 0.0


def _read_count(value: object) -> int:
    whole = isinstance(value, (int, float)) and not isinstance(value, bool) and value == value // 1
    if not whole or not 1 <= cast(float, value) <= 100_000:
        raise ReadingError(show_value(value), "is not a whole number from 1 to 100000", "1")
    return int(cast(float, value))


def _read_truth(value: object) -> bool:
    if not isinstance(value, bool):
        raise ReadingError(show_value(value), "is neither true nor false", "true")
    return value


def _read_text(value: object) -> str:
    if not isinstance(value, str):
        raise ReadingError(show_value(value), "is not text", '"text in quotes"')
    return value


def _read_name(value: object) -> str:
    if isinstance(value, int) and not isinstance(value, bool):
        value = str(value)
    if not isinstance(value, str) or not value.strip() or len(value) > 80 or not value.isprintable():
        raise ReadingError(show_value(value), "is not a name: 1 to 80 characters, on one line", '"B1-2"')
    if value.strip() in (".", ".."):
        # In an address these mean "here" and "above": no page of such a drawer could be opened.
        raise ReadingError(show_value(value), "is not a name: it has nothing but dots", '"B1-2"')
    return value.strip()


_LENGTH_SCHEMA: dict[str, Any] = {
    "anyOf": [{"type": "number"}, {"type": "string"}],
    "description": f"a length: a number in the file's unit, or text such as {LENGTH_EXAMPLE}",
}


_AS_LIST = PlainSerializer(list)


def _schema(**schema: Any) -> WithJsonSchema:
    return WithJsonSchema(schema)


def _lengths_schema(**more: Any) -> WithJsonSchema:
    return WithJsonSchema({"type": "array", "items": _LENGTH_SCHEMA, **more})


Length = Annotated[
    float,
    PlainValidator(lambda value, info: parse_offset(value, bare_unit_of(info))),
    WithJsonSchema(_LENGTH_SCHEMA),
]
"""A length of either sign [mm], at most 5,000 from 0."""

Size = Annotated[
    float,
    PlainValidator(lambda value, info: parse_size(value, bare_unit_of(info))),
    WithJsonSchema(_LENGTH_SCHEMA),
]
"""A size [mm], 0 < x ≤ 5,000."""

NARROWEST_PITCH = 5.0
"""Least distance of row holes [mm]: nearer, holes 5 mm across run into each other (common practice, no
source)."""


def _read_pitch(value: object, info: ValidationInfo) -> float:
    pitch = parse_size(value, bare_unit_of(info))
    if pitch < NARROWEST_PITCH:
        says = f"is a pitch below {NARROWEST_PITCH:g} mm: its holes run into each other"
        raise ReadingError(show_value(value), says, "32 mm")
    return pitch


Pitch = Annotated[float, PlainValidator(_read_pitch), WithJsonSchema(_LENGTH_SCHEMA)]
"""A distance of row holes [mm], 5 ≤ x ≤ 5,000."""

Clearance = Annotated[
    float,
    PlainValidator(lambda value, info: parse_clearance(value, bare_unit_of(info))),
    WithJsonSchema(_LENGTH_SCHEMA),
]
"""A clearance or place [mm], 0 ≤ x ≤ 5,000."""

Thickness = Annotated[
    float,
    PlainValidator(read_thickness),
    _schema(anyOf=[_LENGTH_SCHEMA, {"type": "array", "items": _LENGTH_SCHEMA, "minItems": 1}]),
]
"""A thickness [mm]; several readings give their mean."""

Mass = Annotated[
    float,
    PlainValidator(lambda value, info: parse_mass(value, bare_unit_of(info))),
    _schema(anyOf=[{"type": "number"}, {"type": "string"}], description='a mass, such as "27 kg" or "60 lb"'),
]
"""A mass [kg], 0 or more."""

Sizes = Annotated[tuple[float, ...], PlainValidator(_read_sizes), _AS_LIST, _lengths_schema()]
"""Several sizes [mm], ascending, each once."""

Places = Annotated[tuple[float, ...], PlainValidator(_read_ascending), _AS_LIST, _lengths_schema()]
"""Ascending places [mm], none negative."""

Band = Annotated[
    tuple[float, float], PlainValidator(_read_band), _AS_LIST, _lengths_schema(minItems=2, maxItems=2)
]
"""Low and high end [mm], either sign."""

TwoSizes = Annotated[
    tuple[float, float],
    PlainValidator(_read_two_sizes),
    _AS_LIST,
    _lengths_schema(minItems=2, maxItems=2),
]
"""Two sizes [mm], in the order told."""

Points = Annotated[
    tuple[tuple[float, float], ...],
    PlainValidator(_read_points),
    _AS_LIST,
    _schema(type="array", items={"type": "array", "items": _LENGTH_SCHEMA, "minItems": 2, "maxItems": 2}),
]
"""Points (n, 2) [mm]."""

Radii = Annotated[
    tuple[float, ...],
    PlainValidator(_read_radii),
    _AS_LIST,
    _schema(anyOf=[_LENGTH_SCHEMA, {"type": "array", "items": _LENGTH_SCHEMA, "minItems": 1}]),
]
"""One radius for all bends, or one for each [mm]."""

Real = Annotated[float, PlainValidator(_read_real), _schema(type="number")]
Degrees = Annotated[float, PlainValidator(_read_degrees), _schema(type=["number", "string"])]
"""An angle [°]; text may end in °."""
Positive = Annotated[float, PlainValidator(_read_positive), _schema(type="number", exclusiveMinimum=0)]
NotNegative = Annotated[float, PlainValidator(_read_not_negative), _schema(type="number", minimum=0)]
Count = Annotated[int, PlainValidator(_read_count), _schema(type="integer", minimum=1, maximum=100_000)]
Truth = Annotated[bool, PlainValidator(_read_truth), _schema(type="boolean")]
Text = Annotated[str, PlainValidator(_read_text), _schema(type="string")]
Name = Annotated[str, PlainValidator(_read_name), _schema(type=["string", "integer"])]
Units = Literal["mm", "in"]
