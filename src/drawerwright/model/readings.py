"""Several readings of one length, with or without the places where they were taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import PlainSerializer, PlainValidator, ValidationInfo, WithJsonSchema

from drawerwright.errors import Problem, Problems, ReadingError
from drawerwright.model.quantities import bare_unit_of, read_each
from drawerwright.model.spelling import nearest
from drawerwright.units import parse_size, show_value

READING_LABELS = ("front_top", "front_bottom", "back_top", "back_bottom", "front", "back")
"""Where a width is read."""
HEIGHT_LABELS = ("left", "right", "front_left", "front_right", "back_left", "back_right")
"""Where a height is read."""
LABELS_OF = {"width": READING_LABELS, "height": HEIGHT_LABELS}
"""The measures that take labels, and which."""
MOST_READINGS = 100
"""Most readings of one length without labels. Own choice: a shop takes six."""


@dataclass(frozen=True, slots=True)
class Readings:
    """Several readings of one length [mm]; `labels` says where each was taken, None when not told."""

    values: tuple[float, ...]
    labels: tuple[str, ...] | None = None

    @property
    def smallest(self) -> float:
        """The smallest reading [mm]."""
        return min(self.values)

    @property
    def largest(self) -> float:
        """The largest reading [mm]."""
        return max(self.values)

    @property
    def labelled(self) -> dict[str, float]:
        """Reading by label; empty when the readings have none."""
        return dict(zip(self.labels, self.values, strict=True)) if self.labels is not None else {}

    @property
    def front(self) -> float | None:
        """The labelled reading at the front that is nearest to slide height [mm]: the slide runs low."""
        return self._first("front_bottom", "front", "front_top")

    @property
    def back(self) -> float | None:
        """The labelled reading at the back that is nearest to slide height [mm]."""
        return self._first("back_bottom", "back", "back_top")

    @property
    def left(self) -> float | None:
        """The labelled reading of a height on the left [mm], the front before the back."""
        return self._first("front_left", "left", "back_left")

    @property
    def right(self) -> float | None:
        """The labelled reading of a height on the right [mm], the front before the back."""
        return self._first("front_right", "right", "back_right")

    def _first(self, *labels: str) -> float | None:
        labelled = self.labelled
        return next((labelled[label] for label in labels if label in labelled), None)


NOT_TOLD = Readings(())
"""Of an opening whose height follows from its front; a job has none left."""


def _read_readings(value: object, info: ValidationInfo) -> Readings:
    unit = bare_unit_of(info)
    if isinstance(value, Readings):
        return Readings(tuple(parse_size(one) for one in value.values), value.labels)
    if isinstance(value, (list, tuple)):
        if not value:
            raise ReadingError("[]", "holds no reading", "562 or [562, 561.5]")
        if len(value) > MOST_READINGS:
            says = f"holds {len(value)} readings, {MOST_READINGS} at most"
            raise ReadingError(show_value(value), says, "[562, 561.5]")
        return Readings(read_each(value, lambda one: parse_size(one, unit)))
    if isinstance(value, Mapping):
        return _read_labelled(value, info)
    return Readings((parse_size(value, unit),))


def _read_labelled(value: Mapping[str, object], info: ValidationInfo) -> Readings:
    known = LABELS_OF.get(info.field_name or "")
    if known is None:
        says = "has labels, which only a width or a height takes"
        raise ReadingError(show_value(dict(value)), says, "[530, 529]")
    example = "{ left = 168, right = 167 }"
    if info.field_name == "width":
        example = "{ front_bottom = 561.8, back_bottom = 561.2 }"
    if not value:
        raise ReadingError("{}", "holds no reading", example)
    unit, problems, read = bare_unit_of(info), [], {}
    for label, one in value.items():
        if label not in known:
            says = f'is read at "{label}", which is none of {", ".join(known)}'
            problems.append(Problem((label,), show_value(one), says, nearest(str(label), known)))
            continue
        try:
            read[label] = parse_size(one, unit)
        except ReadingError as error:
            problems.append(Problem((label,), error.value, error.says, error.try_))
    if problems:
        raise Problems(problems)
    return Readings(tuple(read.values()), tuple(read))


def _plain_readings(readings: Readings) -> Any:
    return readings.labelled or list(readings.values)


Measured = Annotated[
    Readings,
    PlainValidator(_read_readings),
    PlainSerializer(_plain_readings),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": ["number", "string"]},
                {
                    "type": "array",
                    "items": {"type": ["number", "string"]},
                    "minItems": 1,
                    "maxItems": MOST_READINGS,
                },
                {
                    "type": "object",
                    "properties": {
                        label: {"type": ["number", "string"]} for label in (*READING_LABELS, *HEIGHT_LABELS)
                    },
                    "additionalProperties": False,
                    "minProperties": 1,
                },
            ],
            "description": "one reading, several, or (a width or a height) readings by place",
        }
    ),
]
