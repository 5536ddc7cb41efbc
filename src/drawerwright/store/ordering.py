"""The order of a list: what moved, where rows stand, and two orders put together."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from typing import Final, TypeVar

Name = TypeVar("Name")

STEP: Final = 1 << 20
"""Room left between neighbours, so that a row is put between two others without touching them."""


def staying(places: Sequence[int]) -> set[int]:
    """Indexes of a longest rising run among `places`: those that need not move."""
    ends: list[int] = []
    at: list[int] = []
    before: list[int] = []
    for index, place in enumerate(places):
        length = bisect_left(ends, place)
        before.append(at[length - 1] if length else -1)
        if length == len(ends):
            ends.append(place)
            at.append(index)
        else:
            ends[length] = place
            at[length] = index
    run: set[int] = set()
    index = at[-1] if at else -1
    while index >= 0:
        run.add(index)
        index = before[index]
    return run


def moved(old: Sequence[Name], new: Sequence[Name]) -> list[Name]:
    """Those of both lists that stand elsewhere, the fewest that explain it, in the new order."""
    place = {name: at for at, name in enumerate(old)}
    both = [name for name in new if name in place]
    stay = staying([place[name] for name in both])
    return [name for at, name in enumerate(both) if at not in stay]


def positions(old: Mapping[Name, int], new: Sequence[Name]) -> dict[Name, int]:
    """A position for each name, rising in the new order; as many as can keep the one they have.

    Where the room between two is used up, all are numbered anew.
    """
    kept = [name for name in new if name in old]
    stay = staying([old[name] for name in kept])
    stays = {name for at, name in enumerate(kept) if at in stay}
    told: dict[Name, int] = {}
    waiting: list[Name] = []
    low = 0
    for name in new:
        if name not in stays:
            waiting.append(name)
            continue
        high = old[name]
        if waiting and high - low <= len(waiting):
            return {one: STEP * at for at, one in enumerate(new, 1)}
        room = high - low
        told |= {one: low + room * at // (len(waiting) + 1) for at, one in enumerate(waiting, 1)}
        told[name] = low = high
        waiting = []
    told |= {one: low + STEP * at for at, one in enumerate(waiting, 1)}
    return told


def merged_order(
    base: Iterable[Name], mine: Iterable[Name], theirs: Iterable[Name], wanted: Iterable[Name]
) -> list[Name] | None:
    """The names `wanted`, in an order that has what either side moved; None: both moved things differently.

    What a side added stands behind what it stood behind there; of two added at one place, theirs comes first.
    """
    base, mine, theirs, keep = list(base), list(mine), list(theirs), set(wanted)
    common = set(base) & set(mine) & set(theirs)
    before, ours, others = ([name for name in side if name in common] for side in (base, mine, theirs))
    if ours not in (before, others) and others != before:
        return None
    main, other = (mine, theirs) if others == before else (theirs, mine)
    theirs_first = main is theirs
    order = [name for name in main if name in keep]
    known, has = set(other), set(order)
    added: dict[Name | None, list[Name]] = {}
    last: Name | None = None
    for name in other:
        if name in has:
            last = name
        elif name in keep:
            added.setdefault(last, []).append(name)
    if theirs_first:
        # Mine goes behind what theirs alone has there.
        added = {_end_of_run(anchor, order, known): names for anchor, names in added.items()}
    result = list(added.get(None, ()))
    for name in order:
        result += [name, *added.get(name, ())]
    return result


def _end_of_run(anchor: Name | None, order: Sequence[Name], known: set[Name]) -> Name | None:
    """The last of those behind `anchor` that the other side does not know."""
    start = 0 if anchor is None else order.index(anchor) + 1
    for name in order[start:]:
        if name in known:
            break
        anchor = name
    return anchor
