"""What a model refused, as problems with a place, a value, what is allowed and what would do."""

from __future__ import annotations

import typing
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from pydantic import BaseModel, ValidationError

from drawerwright.errors import Problem, Problems, ReadingError
from drawerwright.model.spelling import nearest
from drawerwright.units import LENGTH_EXAMPLE, show_value

Loc = tuple[str | int, ...]

_EXAMPLES: Final[dict[str, str]] = {
    "id": '"B1-2"',
    "opening": "opening = { width = 562, height = 168, depth = 530 }",
    "capacity": '"45 kg"',
    "inside_width_deduction": "inside_width_deduction = 42",
    "length": "[[length]] with nominal = 500",
    "nominal": "nominal = 500",
    "side": "side = 16",
    "carriages": "{ lower = [130, 370], upper = [130, 370] }",
}


def problems_of(error: ValidationError, model: type[BaseModel]) -> list[Problem]:
    """Every problem of a refused mapping, with its place from the top of `model`."""
    problems: list[Problem] = []
    for one in error.errors(include_url=False):
        loc: Loc = one["loc"]
        cause = one.get("ctx", {}).get("error")
        if isinstance(cause, Problems):
            problems.extend(
                Problem(loc + inner.loc, inner.value, inner.says, inner.try_) for inner in cause.problems
            )
        elif isinstance(cause, ReadingError):
            problems.append(Problem(loc, cause.value, cause.says, cause.try_))
        else:
            problems.append(_plain_problem(one["type"], loc, one["input"], one["msg"], model))
    return problems


def _plain_problem(kind: str, loc: Loc, found: Any, message: str, model: type[BaseModel]) -> Problem:
    """One of the refusals that pydantic words itself, in our words."""
    key = str(loc[-1]) if loc else ""
    if kind == "missing":
        return Problem(loc, "", "is missing", {**_EXAMPLES, **_own_examples(model)}.get(key, LENGTH_EXAMPLE))
    if kind == "extra_forbidden":
        known = known_keys(model, loc[:-1])
        close = nearest(key, known)
        says = f'is not a known key: the nearest is "{close}"'
        return Problem(loc, show_value(found), says, ", ".join(known) if len(known) <= 8 else close)
    if kind == "literal_error":
        allowed = _choices(model, loc)
        says = "is not one of " + ", ".join(f'"{choice}"' for choice in allowed)
        return Problem(loc, show_value(found), says, f'"{nearest(str(found), allowed)}"')
    if kind in {"model_type", "model_attributes_type", "dict_type"}:
        says = "is not a table; its keys are " + ", ".join(known_keys(model, loc))
        return Problem(loc, show_value(found), says, _EXAMPLES.get(key, "{ … }"))
    if kind in {"tuple_type", "list_type"}:
        return Problem(loc, show_value(found), f"is not a list of tables: write [[{key}]]", f"[[{key}]]")
    return Problem(loc, show_value(found), f"cannot be read: {message}", "")


def _own_examples(model: type[BaseModel]) -> Mapping[str, str]:
    """Examples that a model has of its own for keys that others name otherwise."""
    own: Mapping[str, str] = getattr(model, "EXAMPLES", {})
    return own


def known_keys(model: type[BaseModel], loc: Sequence[str | int]) -> list[str]:
    """Keys that a table at that place takes, in the model's order; none when the place holds no table."""
    here = _model_at(model, loc)
    if here is None:
        return []
    return [field.alias or name for name, field in here.model_fields.items()]


def _annotation_of(model: type[BaseModel], key: str | int) -> Any:
    for name, field in model.model_fields.items():
        if key in (name, field.alias):
            return field.annotation
    return None


def _model_at(model: type[BaseModel], loc: Sequence[str | int]) -> type[BaseModel] | None:
    here: type[BaseModel] | None = model
    for key in loc:
        if here is not None and not isinstance(key, int):
            here = next(_models_in(_annotation_of(here, key)), None)
    return here


def _models_in(annotation: Any) -> Iterator[Any]:
    """Models named in an annotation such as `X | None` or `tuple[X, ...]`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for argument in typing.get_args(annotation):
        yield from _models_in(argument)


def _choices(model: type[BaseModel], loc: Loc) -> list[str]:
    here = _model_at(model, loc[:-1])
    annotation = _annotation_of(here, loc[-1]) if here is not None else None
    return [one for one in typing.get_args(annotation) if isinstance(one, str)]


def named_place(loc: Loc, data: Any) -> str:
    """A place in words: `drawer B1-2 opening.width`, `length 500 holes item 2`.

    An entry of a list is named by its id or nominal length, else by its position from 1.
    """
    words: list[str] = []
    keys: list[str] = []
    here = data
    for step in loc:
        if isinstance(step, str):
            keys.append(step)
            here = here.get(step) if isinstance(here, Mapping) else None
            continue
        here = here[step] if isinstance(here, (list, tuple)) and step < len(here) else None
        if isinstance(here, Mapping):
            words.append(f"{'.'.join(keys)} {_name_of(here, step)}")
        else:
            words.append(f"{'.'.join(keys)} item {step + 1}")
        keys = []
    return " ".join([*words, ".".join(keys)] if keys else words)


def _name_of(entry: Mapping[str, Any], position: int) -> str:
    for key in ("id", "nominal", "member"):
        name = entry.get(key)
        if isinstance(name, (str, int, float)) and not isinstance(name, bool) and len(str(name)) <= 80:
            return str(name).strip() or str(position + 1)
    return str(position + 1)
