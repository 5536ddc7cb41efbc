"""Keys and values of a job in the words of its sheets, for pages that set versions beside each other."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any, Final

from drawerwright.files.column_names import heading_of
from drawerwright.web.reading_places import PLACES, in_words
from drawerwright.web.schedule.columns import told_value
from drawerwright.web.sheet.fields import FIELDS, USUAL_WORDS

FOR_ALL: Final = "For every drawer"
_WHOLE: Final = {"title": "Title", "units": "Lengths in"}
_CHANGED: Final = re.compile(
    r"(?P<done>added|removed|changed) (?P<part>drawer .+?|cabinet .+?|defaults\.[a-z_]+|\d+ defaults)"
    r"(?:: (?P<keys>[a-z_.]+(?:, [a-z_.]+)*))?(?P<more> and \d+ more)?(?=; |\Z)"
)
"""A part of what the store says of a save."""


@cache
def _labels() -> Mapping[str, str]:
    """What fields of a drawer's sheet are called, where that says it without the heading of their group."""
    return {field.key: field.label for field in FIELDS if not field.key.startswith("front.")}


def key_in_words(kind: str, key: str) -> str:
    """A dotted key of a part: "Opening width", "Front gap". `kind` is that of the store's parts."""
    if kind == "":
        return _WHOLE.get(key, key)
    if kind == "drawer" and key in _labels():
        return _labels()[key]
    above, _, place = key.rpartition(".")
    if kind == "drawer" and above in PLACES:
        return f"{_labels()[above]}, {in_words(place)}"
    return heading_of(key)


def part_in_words(kind: str, name: str) -> str:
    """A part: "Drawer B1-2", "For every drawer", "Title"; `name` is its id, or its key."""
    if kind == "defaults":
        return FOR_ALL
    if kind == "order":
        return f"Order of the {name}s"
    return key_in_words("", name) if kind == "" else f"{kind.capitalize()} {name}".rstrip()


def named_key(kind: str, name: str, inside: str) -> tuple[str, str]:
    """Kind and key of what a key inside a part stands for: those of the defaults are a drawer's."""
    if kind == "defaults":
        return "drawer", f"{name}.{inside}" if inside else name
    return kind, inside if kind else name


def value_in_words(kind: str, key: str, value: Any) -> str:
    """A value of a key as people read it; empty where there is none."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping) and key not in PLACES and set(value) != {"preset"}:
        told = ((f"{key}.{name}" if key else str(name), one) for name, one in value.items())
        words = [f"{key_in_words(kind, inner)} {value_in_words(kind, inner, one)}" for inner, one in told]
        return "; ".join(words)
    text = told_value(key, value)
    return _chosen(key, text) if kind == "drawer" else text


def _chosen(key: str, text: str) -> str:
    """A word of the file as the field that offers it says it."""
    field = next((one for one in FIELDS if one.key == key and one.choices), None)
    if field is None or not text:
        return text
    return dict(field.choices).get("" if text == USUAL_WORDS.get(key) else text, text)


def saved_in_words(what: str) -> str:
    """What the store, or whoever saved, says of a save, with the keys of drawers and cabinets in words."""
    return _CHANGED.sub(_told, what)


def _told(found: re.Match[str]) -> str:
    kind, _, name = found["part"].partition("." if found["part"].startswith("defaults.") else " ")
    keys = found["keys"].split(", ") if found["keys"] else []
    if name == "defaults":
        return f"{found['done']} {kind} values for every drawer"
    if kind == "defaults":
        keys = [f"{name}.{key}" for key in keys] or [name]
        part = "for every drawer"
    elif not keys:
        return found[0]
    else:
        part = found["part"]
    known = [_in_a_sentence(key_in_words("cabinet" if kind == "cabinet" else "drawer", key)) for key in keys]
    return f"{found['done']} {part}: {', '.join(known)}{found['more'] or ''}"


def _in_a_sentence(words: str) -> str:
    return words[:1].lower() + words[1:]
