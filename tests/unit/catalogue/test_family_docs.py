"""Every key of the slide-family file is explained in docs/slides.md, and no other."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from drawerwright.model.family import SlideFamily

TEXT = (Path(__file__).resolve().parents[3] / "docs" / "slides.md").read_text(encoding="utf-8")


def models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    """The model that a field holds, bare, optional or in a list."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for one in get_args(annotation):
        yield from models_in(one)


def keys_of(model: type[BaseModel], above: str = "") -> Iterator[str]:
    """Keys as a file has them, dotted: `clearance.under`, `length.nominal`."""
    for name, field in model.model_fields.items():
        key = f"{above}{field.alias or name}"
        inside = next(models_in(field.annotation), None)
        if inside is None:
            yield key
        else:
            yield from keys_of(inside, f"{key}.")


KEYS = tuple(keys_of(SlideFamily))
PARTS = re.split(r"^### (.+)$", TEXT, flags=re.MULTILINE)
ENTRIES = {
    key: body
    for head, body in zip(PARTS[1::2], PARTS[2::2], strict=True)
    for key in re.findall(r"`([^`]+)`", head)
}


def test_the_keys_of_nested_tables_and_of_lengths_are_among_those_looked_up() -> None:
    assert {"inside_width_deduction", "clearance.under", "length.nominal", "profile.points"} <= set(KEYS)


@pytest.mark.parametrize("key", KEYS)
def test_a_key_is_explained_with_how_to_measure_it_and_what_a_wrong_one_does(key: str) -> None:
    assert key in ENTRIES, f"docs/slides.md has no entry for {key}"
    assert [word for word in ("- Is: ", "- Measure: ", "- Wrong: ") if word not in ENTRIES[key]] == []


def test_no_entry_is_about_a_key_that_is_not_there() -> None:
    assert set(ENTRIES) - set(KEYS) == set()
