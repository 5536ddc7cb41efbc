"""A slide family that two people changed at once: both put together, theirs told beside where they clash."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from drawerwright.catalogue.family_words import family_words
from drawerwright.store.merging import merge
from drawerwright.store.parts import FAMILY, Parts, parts_of, values_of
from drawerwright.web.family.fields import form_of, key_of


@dataclass(frozen=True, slots=True)
class FieldClash:
    """A field that both sides changed, not alike: each side's text, blank where the key is left out."""

    name: str
    base: str
    mine: str
    theirs: str

    @property
    def label(self) -> str:
        """The field in words: "Setback of the first row hole", "Price of a pair, length 2"."""
        label = family_words()[key_of(self.name)].label
        table, dot, rest = self.name.partition(".")
        number = rest.partition(".")[0]
        return f"{label}, {table} {int(number) + 1}" if dot and number.isdecimal() else label


def put_together(
    base: Mapping[str, Any], mine: Mapping[str, Any], theirs: Mapping[str, Any]
) -> tuple[dict[str, Any], tuple[FieldClash, ...]]:
    """The values with both sides' changes, mine where they clash; and the fields that clash.

    Fields of a length are named by its place in the values that are put together.
    """
    before, ours, others = (parts_of(one, FAMILY) for one in (base, mine, theirs))
    _, found = merge(before, ours, others, FAMILY)
    for clash in found:
        if clash.kind == "order":
            before, others = (_in_order(side, ours) for side in (before, others))
            continue
        for key in [key for key in (*ours, *others) if (key.kind, key.id) == (clash.kind, clash.id)]:
            if key in ours:
                others[key] = ours[key]
            else:
                others.pop(key, None)
    merged, _ = merge(before, ours, others, FAMILY)
    together = values_of(merged, FAMILY)
    return together, _clashes(base, mine, theirs, together)


def _in_order(parts: Parts, pattern: Parts) -> Parts:
    """The parts in the order that they have in another version; others after them."""
    return {key: parts[key] for key in pattern if key in parts} | parts


def _clashes(
    base: Mapping[str, Any], mine: Mapping[str, Any], theirs: Mapping[str, Any], together: Mapping[str, Any]
) -> tuple[FieldClash, ...]:
    """Fields that came out differently from theirs though they had changed them, in the order of the form."""
    sides = [form_of(_with_lengths_as_in(one, together)) for one in (base, mine, theirs)]
    before, ours, others = sides
    names = dict.fromkeys(name for side in (ours, others, before) for name in side)
    return tuple(
        FieldClash(name, before.get(name, ""), ours.get(name, ""), others.get(name, ""))
        for name in names
        if ours.get(name) != others.get(name)
        and before.get(name) != ours.get(name)
        and before.get(name) != others.get(name)
    )


def _with_lengths_as_in(values: Mapping[str, Any], pattern: Mapping[str, Any]) -> dict[str, Any]:
    """Values whose lengths stand at the places that their nominals have in the pattern; others after them."""
    own = {str(one.get("nominal")): one for one in values.get("length", ())}
    placed = [own.pop(str(one.get("nominal")), {}) for one in pattern.get("length", ())]
    return {**values, "length": [*placed, *own.values()]}
