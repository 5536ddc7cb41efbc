"""The columns of a table: dotted keys of a model, and what the cells under each of them hold."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from drawerwright.files.cells import CellKind
from drawerwright.model.readings import LABELS_OF, Readings

_FREE_TEXT: Final = frozenset({"note", "title"})


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its dotted key, what its cells hold, and the words that it takes (any, if none)."""

    key: str
    kind: CellKind
    choices: tuple[str, ...] = ()
    required: bool = False

    @property
    def path(self) -> tuple[str, ...]:
        """The keys that lead to the value."""
        return tuple(self.key.split("."))


def columns_of(model: type[BaseModel]) -> dict[str, Column]:
    """Every column that a table of such records may have, by key, in the model's order."""
    return {column.key: column for column in _walk(model, "", required=True)}


def _walk(model: type[BaseModel], before: str, *, required: bool) -> Iterator[Column]:
    for name, field in model.model_fields.items():
        key = before + (field.alias or name)
        needed = required and field.is_required()
        inner = next(_models_in(field.annotation), None)
        if inner is None:
            yield from _plain(key, name, field.annotation, required=needed)
            continue
        if _takes_a_number(field):
            yield Column(key, "number", required=needed)
        yield from _walk(inner, f"{key}.", required=needed)


def _plain(key: str, name: str, annotation: Any, *, required: bool) -> Iterator[Column]:
    kinds = set(_alternatives(annotation))
    if Readings in kinds:
        yield Column(key, "number", required=required)
        yield from (Column(f"{key}.{label}", "number") for label in LABELS_OF.get(name, ()))
    elif bool in kinds:
        yield Column(key, "truth", required=required)
    elif int in kinds:
        yield Column(key, "count", required=required)
    elif float in kinds:
        yield Column(key, "number", required=required)
    elif str in kinds:
        yield Column(key, "text" if name in _FREE_TEXT else "word", required=required)
    elif any(_holds_records(kind) for kind in kinds):
        yield Column(key, "tables", required=required)
    elif any(typing.get_origin(kind) is tuple for kind in kinds):
        yield Column(key, "list", required=required)
    else:
        yield Column(key, "word", _choices(annotation), required=required)


def _holds_records(kind: Any) -> bool:
    """Whether a key holds a list of tables."""
    return typing.get_origin(kind) is tuple and any(_models_in(typing.get_args(kind)[0]))


def _alternatives(annotation: Any) -> Iterator[Any]:
    """The types of `X | None` and the like."""
    if typing.get_origin(annotation) in (typing.Union, types.UnionType):
        for argument in typing.get_args(annotation):
            yield from _alternatives(argument)
    elif hasattr(annotation, "__metadata__"):
        yield from _alternatives(annotation.__origin__)
    else:
        yield annotation


def _choices(annotation: Any) -> tuple[str, ...]:
    """The words of a choice."""
    found = [kind for kind in _alternatives(annotation) if typing.get_origin(kind) is Literal]
    return tuple(word for kind in found for word in typing.get_args(kind))


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    for kind in _alternatives(annotation):
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            yield kind


def _takes_a_number(field: FieldInfo) -> bool:
    """Whether a table may also be written as one number: an overlay, the mass of the contents."""
    inputs = [getattr(one, "json_schema_input_type", None) for one in field.metadata]
    return any(float in _alternatives(one) for one in inputs)


def put(values: dict[str, Any], path: tuple[str, ...], value: Any) -> bool:
    """Put a value where its keys lead; False when something stands there, or in the way, already."""
    here = values
    for key in path[:-1]:
        here = here.setdefault(key, {})
        if not isinstance(here, dict):
            return False
    last = path[-1]
    if last in here:
        both = isinstance(here[last], dict) and isinstance(value, Mapping)
        if not both or here[last].keys() & value.keys():
            return False
        here[last].update(value)
        return True
    here[last] = dict(value) if isinstance(value, Mapping) else value
    return True
