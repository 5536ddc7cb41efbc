"""Several readings of one length as people write them: `562, 561.5`, or `front top 562, back top 561`.

Papers tell them so; a job file has `front_top` where people read "front top". What stands here is read beside
the file's own form, `front_top=562; back_top=561`, never in its stead.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, Final

from drawerwright.errors import Fault
from drawerwright.model.readings import LABELS_OF
from drawerwright.web.fitting import place_of

PLACES: Final[Mapping[str, tuple[str, ...]]] = {
    "opening.width": LABELS_OF["width"],
    "opening.height": LABELS_OF["height"],
    "opening.depth": (),
}
"""What is measured of an opening, and the places where a reading of it may have been taken."""

SEVERAL: Final = (*PLACES, "side")
"""Keys of which several readings may be typed with commas between them."""

_LABELS: Final = tuple(dict.fromkeys(label for labels in PLACES.values() for label in labels))
_WORDS: Final = frozenset(word for label in _LABELS for word in label.split("_"))
_BETWEEN: Final = re.compile(r";|,(?=\s|[^\W\d])")
"""A comma between two digits is a decimal sign, and parts nothing."""
_PLACED: Final = re.compile(
    r"(?P<place>[^\W\d_]+(?:[\s_-]+[^\W\d_]+)?)(?:\s*[:=]\s*|\s+|(?=\d))(?P<value>[^\s:=].*)", re.DOTALL
)


def readings_in_words(key: str, value: object, shown: Callable[[Any], str]) -> str | None:
    """Several readings as a field shows them; None where a value is something else, or of another key."""
    if PLACES.get(key) and isinstance(value, Mapping) and value:
        labels = list(map(str, value))
        parts = [f"{in_words(label)} {shown(one)}" for label, one in value.items()]
    elif key in SEVERAL and isinstance(value, (list, tuple)):
        parts = [shown(one) for one in value]
        labels = [""] * len(parts)
    else:
        return None
    text = ", ".join(parts)
    # What was typed may hold signs that part readings, or a place that is none.
    return text if _parts(text) == parts and [_place(part) for part in parts] == labels else None


def in_words(label: str) -> str:
    """A place as people read it: "front top"."""
    return label.replace("_", " ")


def readings_as_filed(key: str, text: str) -> str:
    """Typed readings as the cell of a file has them; what is nothing of the kind stays as it is."""
    if key not in SEVERAL:
        return text
    parts = _parts(text)
    if PLACES.get(key) and any(_place(part) for part in parts):
        return "; ".join(_filed(part) for part in parts)
    return "; ".join(parts) if len(parts) > 1 else text


def fault_in_words(fault: Fault) -> Fault:
    """A fault as a field tells it: what would do without words of a file, the places of readings in words."""
    fault = replace(fault, try_=_without_file_words(fault.try_))
    key = place_of(fault)[2].partition(" item ")[0]
    if not any(key == one or key.startswith(f"{one}.") for one in PLACES):
        return fault
    told = _misread(key, fault.value.strip('"'))
    if told is not None:
        return replace(fault, says=told, try_=_example(key))
    return replace(fault, says=in_words(fault.says), try_=in_words(fault.try_))


def _without_file_words(example: str) -> str:
    """What is offered for a field as one types it there: without the key and the marks of a file."""
    bare = re.sub(r"^[a-z_]+(?:\.[a-z_]+)* = ", "", example)
    inside = re.fullmatch(r"\{ (.*) \}", bare)
    return (inside[1].replace(" = ", " ") if inside else bare).replace('"', "")


def _example(key: str) -> str:
    examples = {"opening.width": "front top 562, back top 561", "opening.height": "left 168, right 167"}
    return examples.get(key, "530, 529")


def _parts(text: str) -> list[str]:
    return [part.strip() for part in _BETWEEN.split(text) if part.strip()]


def _place(part: str) -> str:
    """The label of the place that a reading begins with, as far as it names one; else empty."""
    found = _PLACED.fullmatch(part)
    if found is None:
        return ""
    words = re.split(r"[\s_-]+", found["place"].casefold())
    if not _WORDS & set(words):
        return ""
    known = (label for label in _LABELS if sorted(label.split("_")) == sorted(words))
    return next(known, "_".join(words))


def _filed(part: str) -> str:
    label, found = _place(part), _PLACED.fullmatch(part)
    return f"{label}={found['value'].strip()}" if label and found else part


def _misread(key: str, text: str) -> str | None:
    """Why readings with places do not read as such; None where that is not what is wrong."""
    labels = [_place(part) for part in _parts(text)]
    if key not in PLACES or not any(labels):
        return None
    if not PLACES[key]:
        return "tells a place, which only a width or a height has"
    if not all(labels):
        return "tells the place of some readings and not of others"
    twice = next((label for label in labels if labels.count(label) > 1), None)
    return f'tells "{in_words(twice)}" twice' if twice is not None else None
