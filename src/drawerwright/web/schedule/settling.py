"""What two people changed at once: keys that differ, side by side, and the values that come of a choice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, NamedTuple

from drawerwright.store.differing import changed_keys
from drawerwright.store.merging import merge
from drawerwright.store.parts import ABSENT, JOB, PartKey, Parts, alike, parts_of, values_of
from drawerwright.web.schedule.key_words import key_in_words, named_key, part_in_words, value_in_words

Side = Literal["mine", "theirs"]


@dataclass(frozen=True, slots=True)
class KeyClash:
    """One key that the two versions have differently, as text; `both`: each side changed it.

    `words`: what the key is called on the sheets. `suggested`: the side that alone changed it, else mine.
    """

    field: str
    key: str
    words: str
    base: str
    mine: str
    theirs: str
    both: bool
    suggested: Side


class _Texts(NamedTuple):
    base: str
    mine: str
    theirs: str


@dataclass(frozen=True, slots=True)
class Clash:
    """One part that was changed twice; `title` in words.

    `whole`: a side took it away, or it has no keys of its own.
    """

    part: PartKey
    name: str
    title: str
    whole: bool
    keys: tuple[KeyClash, ...]


def clashes_of(base: Mapping[str, Any], mine: Mapping[str, Any], theirs: Mapping[str, Any]) -> list[Clash]:
    """The parts that both sides changed, not alike, each with its keys."""
    before, ours, others = (parts_of(one, JOB) for one in (base, mine, theirs))
    found: list[Clash] = []
    for key in dict.fromkeys((*others, *ours, *before)):
        if alike(ours, others, key) or alike(before, ours, key) or alike(before, others, key):
            continue
        found.append(_clash(len(found), key, before, ours, others))
    for part in merge(before, ours, others, JOB)[1]:
        if part.kind == "order":
            before_text, my_text, their_text = (
                ", ".join(side) for side in (part.base, part.mine, part.theirs)
            )
            title = part_in_words("order", part.id)
            texts = (before_text, my_text, their_text)
            one = KeyClash(f"c{len(found)}.0", part.name, title, *texts, True, "mine")
            found.append(Clash(PartKey("order", part.id), part.name, title, True, (one,)))
    return found


def settled_values(
    base: Mapping[str, Any],
    mine: Mapping[str, Any],
    theirs: Mapping[str, Any],
    clashes: list[Clash],
    told: Mapping[str, str],
) -> dict[str, Any]:
    """Both versions put together; where they clash, as the fields of the keys say: "mine" or "theirs"."""
    before, ours, others = (parts_of(one, JOB) for one in (base, mine, theirs))
    for clash in clashes:
        picked = {one.key: told.get(one.field, one.suggested) for one in clash.keys}
        if clash.part.kind == "order":
            before = _in_order(before, others if picked[clash.name] == "mine" else ours, clash.part.id)
            continue
        content = _content(clash, ours, others, picked)
        if content is ABSENT:
            ours.pop(clash.part, None)
            others.pop(clash.part, None)
        else:
            ours, others = (
                _with_part(side, clash.part, content, other)
                for side, other in ((ours, others), (others, ours))
            )
    merged, _ = merge(before, ours, others, JOB)
    return values_of(merged, JOB)


def _clash(number: int, part: PartKey, before: Parts, ours: Parts, others: Parts) -> Clash:
    was, mine, theirs = (side.get(part, ABSENT) for side in (before, ours, others))
    name = f"defaults.{part.id}" if part.kind == "defaults" else f"{part.kind} {part.id}".strip()
    title = part_in_words(part.kind, part.id)
    if not isinstance(mine, dict) or not isinstance(theirs, dict):
        texts = _Texts(*(_text(part, "", one) for one in (was, mine, theirs)))
        words = key_in_words("drawer", part.id) if part.kind == "defaults" else title
        one = KeyClash(f"c{number}.0", name, words, *texts, True, "mine")
        return Clash(part, name, title, True, (one,))
    start = was if isinstance(was, dict) else {}
    changed = {
        side: {one.key for one in changed_keys(start, content)}
        for side, content in (("mine", mine), ("theirs", theirs))
    }
    keys = []
    for at, change in enumerate(changed_keys(theirs, mine)):
        by_mine, by_theirs = (_touches(change.key, changed[side]) for side in ("mine", "theirs"))
        suggested: Side = "theirs" if by_theirs and not by_mine else "mine"
        sides = (_at(start, change.key), change.new, change.old)
        texts = _Texts(*(_text(part, change.key, one) for one in sides))
        words = key_in_words(*named_key(part.kind, part.id, change.key))
        keys.append(KeyClash(f"c{number}.{at}", change.key, words, *texts, by_mine and by_theirs, suggested))
    return Clash(part, name, title, False, tuple(keys))


def _touches(key: str, changed: set[str]) -> bool:
    """Whether a key, one inside it or one around it was changed."""
    return any(key == one or key.startswith(f"{one}.") or one.startswith(f"{key}.") for one in changed)


def _at(content: Any, key: str) -> Any:
    for step in key.split("."):
        if not isinstance(content, Mapping) or step not in content:
            return None
        content = content[step]
    return content


def _text(part: PartKey, key: str, value: Any) -> str:
    return "(not there)" if value is ABSENT else value_in_words(*named_key(part.kind, part.id, key), value)


def _content(clash: Clash, ours: Parts, others: Parts, picked: Mapping[str, str]) -> Any:
    """The content that was chosen."""
    if clash.whole:
        side = ours if picked[clash.name] == "mine" else others
        return side.get(clash.part, ABSENT)
    content: dict[str, Any] = others[clash.part]
    for one in clash.keys:
        if picked[one.key] == "mine":
            content = _with(content, one.key.split("."), _at(ours[clash.part], one.key))
    return content


def _with(content: Mapping[str, Any], path: list[str], value: Any) -> dict[str, Any]:
    """A copy with the value at a dotted key; None takes the key away."""
    copied = dict(content)
    if len(path) > 1:
        below = copied.get(path[0])
        copied[path[0]] = _with(below if isinstance(below, Mapping) else {}, path[1:], value)
    elif value is None:
        copied.pop(path[0], None)
    else:
        copied[path[0]] = value
    return copied


def _with_part(parts: Parts, key: PartKey, content: Any, like: Parts) -> Parts:
    """The parts with one more, where it was not there: behind what it stands behind in the other version."""
    if key in parts:
        return {**parts, key: content}
    before: list[PartKey] = []
    for one in like:
        if one == key:
            break
        if one.kind == key.kind and one in parts:
            before.append(one)
    found: Parts = {} if before or not key.kind else {key: content}
    for one, told in parts.items():
        found[one] = told
        if before and one == before[-1]:
            found[key] = content
    found.setdefault(key, content)
    return found


def _in_order(parts: Parts, like: Parts, kind: str) -> Parts:
    """The parts, those of one list in the order of another version as far as that has them."""
    known = {key: at for at, key in enumerate(key for key in like if key.kind == kind)}
    named = sorted((key for key in parts if key.kind == kind), key=lambda key: known.get(key, len(known)))
    others = {key: content for key, content in parts.items() if key.kind != kind}
    return {**others, **{key: parts[key] for key in named}}
