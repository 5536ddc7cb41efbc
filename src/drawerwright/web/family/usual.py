"""What a family's field holds when it is left blank, and the words that one may choose from."""

from __future__ import annotations

import typing
from collections.abc import Iterator
from functools import cache
from typing import Any

from pydantic import BaseModel
from pydantic_core import PydanticUndefined

from drawerwright.catalogue.family_words import family_words
from drawerwright.model.family import SlideFamily
from drawerwright.web.family.fields import text_of


@cache
def usual_values() -> dict[str, str]:
    """What is taken for each key that is left out, as its field would show it; keys without are left out."""
    usual: dict[str, str] = {}
    for key, _, default in _leaves(SlideFamily):
        words = family_words().get(key)
        if words is not None and default not in (None, PydanticUndefined, "", ()):
            text = text_of(list(default) if isinstance(default, tuple) else default, words)
            if text is not None:
                usual[key] = text
    return usual


@cache
def choices() -> dict[str, tuple[str, ...]]:
    """The words that each key of a choice may hold, in the model's order."""
    return {
        key: tuple(typing.get_args(annotation))
        for key, annotation, _ in _leaves(SlideFamily)
        if typing.get_origin(annotation) is typing.Literal
    }


def _leaves(model: type[BaseModel], above: str = "") -> Iterator[tuple[str, Any, Any]]:
    """Dotted key, annotation and default of every key that holds no table."""
    for name, field in model.model_fields.items():
        key = f"{above}{field.alias or name}"
        inside = next(_models_in(field.annotation), None)
        if inside is None:
            yield key, field.annotation, field.default
        else:
            yield from _leaves(inside, f"{key}.")


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for one in typing.get_args(annotation):
        yield from _models_in(one)
