"""What differs between two versions: parts added, removed, changed key by key, and moved."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from drawerwright.store.ordering import moved
from drawerwright.store.parts import Layout, Parts, alike, same

_MOST_WORDS: Final = 3


@dataclass(frozen=True, slots=True)
class KeyChange:
    """One key of a part, dotted ("opening.width"; "": the part itself); None: not there."""

    key: str
    old: Any
    new: Any

    def as_json(self) -> dict[str, Any]:
        """The change with the keys `key`, `old`, `new`."""
        return {"key": self.key, "old": self.old, "new": self.new}


@dataclass(frozen=True, slots=True)
class PartChange:
    """A part that differs. `kind`: "drawer", "cabinet", "defaults", "length", or "": a key of the whole."""

    kind: str
    id: str
    change: Literal["added", "removed", "changed"]
    keys: tuple[KeyChange, ...]

    @property
    def name(self) -> str:
        """The part in words: "drawer B1-2", "defaults.front", "title"."""
        if self.kind == "defaults":
            return f"defaults.{self.id}"
        return f"{self.kind} {self.id}".strip() or "(without a name)"

    def as_json(self) -> dict[str, Any]:
        """The change with the keys `kind`, `id`, `change`, `keys`."""
        keys = [one.as_json() for one in self.keys]
        return {"kind": self.kind, "id": self.id, "change": self.change, "keys": keys}


@dataclass(frozen=True, slots=True)
class Difference:
    """What differs from revision `old` to revision `new`.

    `parts`: added, removed and changed ones, in the order of the new version, removed ones last. `moved`: per
    list ("drawer", "cabinet") the ids that stand elsewhere, the fewest that explain the new order.
    """

    old: int
    new: int
    parts: tuple[PartChange, ...]
    moved: dict[str, tuple[str, ...]]

    def of(self, kind: str) -> tuple[PartChange, ...]:
        """The parts of one kind."""
        return tuple(part for part in self.parts if part.kind == kind)

    @property
    def drawers(self) -> tuple[PartChange, ...]:
        """The drawers that differ."""
        return self.of("drawer")

    @property
    def cabinets(self) -> tuple[PartChange, ...]:
        """The cabinets that differ."""
        return self.of("cabinet")

    @property
    def defaults(self) -> tuple[PartChange, ...]:
        """The keys of the defaults that differ."""
        return self.of("defaults")

    @property
    def whole(self) -> tuple[PartChange, ...]:
        """The keys of the whole that differ: title, units."""
        return self.of("")

    def as_json(self) -> dict[str, Any]:
        """The difference with the keys `old`, `new`, `parts`, `moved`."""
        told = {kind: list(names) for kind, names in self.moved.items()}
        return {
            "old": self.old,
            "new": self.new,
            "parts": [one.as_json() for one in self.parts],
            "moved": told,
        }


def changed_keys(old: Any, new: Any) -> tuple[KeyChange, ...]:
    """What differs between two contents, key by dotted key; a list is one value."""
    if isinstance(old, dict) or isinstance(new, dict):
        one = old if isinstance(old, dict) else {}
        other = new if isinstance(new, dict) else {}
        if (old is None or one is old) and (new is None or other is new):
            return tuple(_dotted("", one, other))
    return () if same(old, new) else (KeyChange("", old, new),)


def _dotted(before: str, old: dict[str, Any], new: dict[str, Any]) -> Iterator[KeyChange]:
    for key in dict.fromkeys((*old, *new)):
        one, other = old.get(key), new.get(key)
        name = f"{before}{key}"
        if isinstance(one, dict) and isinstance(other, dict):
            yield from _dotted(f"{name}.", one, other)
        elif not same(one, other) or (key in old) != (key in new):
            yield KeyChange(name, one, other)


def difference(old: Parts, new: Parts, layout: Layout, *, numbers: tuple[int, int] = (0, 0)) -> Difference:
    """What differs from one version to the other; `numbers`: their revisions."""
    changes = []
    for key in dict.fromkeys((*new, *old)):
        if alike(old, new, key):
            continue
        kind: Literal["added", "removed", "changed"]
        kind = "added" if key not in old else "removed" if key not in new else "changed"
        keys = changed_keys(old.get(key), new.get(key))
        changes.append(PartChange(key.kind, key.id, kind, keys))
    shifted: dict[str, tuple[str, ...]] = {}
    for kind_of_list in layout.lists:
        one, other = ([key for key in side if key.kind == kind_of_list] for side in (old, new))
        if names := tuple(key.id for key in moved(one, other)):
            shifted[kind_of_list] = names
    return Difference(*numbers, tuple(changes), shifted)


def words_of(told: Difference) -> str:
    """A difference in a few words: "changed drawer A: opening.width, side; moved 2 drawers"."""
    groups: dict[tuple[str, str], list[PartChange]] = {}
    for part in told.parts:
        groups.setdefault((part.change, part.kind), []).append(part)
    words = [_group_words(change, kind, parts) for (change, kind), parts in groups.items()]
    for kind, names in told.moved.items():
        words.append(f"moved {kind} {names[0]}" if len(names) == 1 else f"moved {len(names)} {kind}s")
    return "; ".join(words) or "nothing changed"


def _group_words(change: str, kind: str, parts: Sequence[PartChange]) -> str:
    if len(parts) > 1 and kind:
        many = kind if kind == "defaults" else f"{kind}s"
        return f"{change} {len(parts)} {many}"
    if len(parts) > 1:
        return f"{change} {', '.join(part.name for part in parts[:_MOST_WORDS])}"
    keys = [one.key for one in parts[0].keys if one.key]
    if change != "changed" or not keys:
        return f"{change} {parts[0].name}"
    more = f" and {len(keys) - _MOST_WORDS} more" if len(keys) > _MOST_WORDS else ""
    return f"changed {parts[0].name}: {', '.join(keys[:_MOST_WORDS])}{more}"
