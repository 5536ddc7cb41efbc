"""Values taken apart into named parts, and put together again.

A part is what is kept, compared and merged as one: a drawer, a cabinet, one key of the defaults, one length
of a slide family, or one key of the whole, such as `title`. The order of parts matters where they are a list.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, NamedTuple, TypeAlias

LONGEST_ID: Final = 200
"""Longer ids are told apart by their first characters and their place among those alike."""


class PartKey(NamedTuple):
    """Name of a part: `kind` is the list or table it stands in ("": the whole), `which` counts equal ids.

    Drawers that are half typed may have no id, or one that another has: they are parts all the same.
    """

    kind: str
    id: str
    which: int = 1


Parts: TypeAlias = dict[PartKey, Any]
"""Content by name, in order."""


@dataclass(frozen=True, slots=True)
class Layout:
    """How values are taken apart.

    `lists`: keys that hold a list of tables, and the key that names an entry; `tables`: keys whose own keys
    are parts; `always`: keys that are there even if nobody told them.
    """

    lists: Mapping[str, str]
    tables: Collection[str] = ()
    always: Mapping[str, Any] = field(default_factory=dict)


JOB: Final = Layout({"cabinet": "id", "drawer": "id"}, ("defaults",), {"title": "", "units": "mm"})
FAMILY: Final = Layout({"length": "nominal"})


def id_text(told: object) -> str:
    """An entry's id as text; "" where it has none that could be one."""
    if isinstance(told, bool) or not isinstance(told, (str, int, float)):
        return ""
    return str(told).strip()[:LONGEST_ID]


def parts_of(values: Mapping[str, Any], layout: Layout) -> Parts:
    """Values taken apart."""
    parts: Parts = {PartKey("", key): value for key, value in layout.always.items()}
    for key, value in values.items():
        if key in layout.lists:
            named = layout.lists[key]
            parts |= numbered((key, id_text(entry.get(named)), entry) for entry in value)
        elif key in layout.tables:
            parts |= {PartKey(key, name): one for name, one in value.items()}
        else:
            parts[PartKey("", key)] = value
    return parts


def numbered(entries: Any) -> Parts:
    """Parts of (kind, id, content), equal ids told apart by their place."""
    parts: Parts = {}
    seen: dict[tuple[str, str], int] = {}
    for kind, name, content in entries:
        which = seen.get((kind, name), 0) + 1
        seen[kind, name] = which
        parts[PartKey(kind, name, which)] = content
    return parts


def values_of(parts: Parts, layout: Layout) -> dict[str, Any]:
    """Parts put together: keys of the whole first, then tables and lists, which are there even if empty."""
    values: dict[str, Any] = {
        key: parts[PartKey("", key)] for key in layout.always if PartKey("", key) in parts
    }
    values |= {key.id: content for key, content in parts.items() if not key.kind}
    for table in layout.tables:
        values[table] = {key.id: content for key, content in parts.items() if key.kind == table}
    for kind in layout.lists:
        values[kind] = [content for key, content in parts.items() if key.kind == kind]
    return values


def same(one: object, other: object) -> bool:
    """Whether two contents are equal; the order of keys is nothing, true is not 1."""
    if type(one) is not type(other):
        return False
    if isinstance(one, dict) and isinstance(other, dict):
        return len(one) == len(other) and all(key in other and same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    return one == other


class _Absent:
    """What stands where a part is not there; None is a content."""


ABSENT: Final = _Absent()


def alike(parts: Parts, others: Parts, key: PartKey) -> bool:
    """Whether a part is the same on both sides: absent on both, or equal on both."""
    one, other = parts.get(key, ABSENT), others.get(key, ABSENT)
    return one is other or (ABSENT not in (one, other) and same(one, other))
