"""Three versions put together: what both began with, mine, and theirs, part by part."""

from __future__ import annotations

from drawerwright.store.differing import changed_keys
from drawerwright.store.faults import PartClash
from drawerwright.store.ordering import merged_order
from drawerwright.store.parts import ABSENT, Layout, PartKey, Parts, alike


def merge(base: Parts, mine: Parts, theirs: Parts, layout: Layout) -> tuple[Parts, tuple[PartClash, ...]]:
    """Mine and theirs put together, and what clashes; where something does, the parts are theirs.

    A part that one side changed is taken from that side, one that both changed alike from either. It clashes
    where both changed it and not alike, removing included. The order of a list clashes where both moved what
    was there, and not alike.
    """
    merged: Parts = {}
    clashes: list[PartClash] = []
    for key in dict.fromkeys((*theirs, *mine, *base)):
        if alike(mine, theirs, key) or alike(base, mine, key):
            chosen = theirs
        elif alike(base, theirs, key):
            chosen = mine
        else:
            clashes.append(_clash(key, base, mine, theirs))
            continue
        if key in chosen:
            merged[key] = chosen[key]
    ordered: Parts = {key: content for key, content in merged.items() if key.kind not in layout.lists}
    for kind in layout.lists:
        sides = [[key for key in side if key.kind == kind] for side in (base, mine, theirs)]
        wanted = [key for key in merged if key.kind == kind]
        order = merged_order(sides[0], sides[1], sides[2], wanted)
        if order is None:
            names = [[key.id for key in side] for side in sides]
            clashes.append(PartClash("order", kind, mine=names[1], theirs=names[2], base=names[0]))
        else:
            ordered |= {key: merged[key] for key in order}
    return (theirs, tuple(clashes)) if clashes else (ordered, ())


def _clash(key: PartKey, base: Parts, mine: Parts, theirs: Parts) -> PartClash:
    contents = [None if (one := side.get(key, ABSENT)) is ABSENT else one for side in (base, mine, theirs)]
    before, ours, others = contents
    return PartClash(
        kind=key.kind,
        id=key.id,
        mine=ours,
        theirs=others,
        base=before,
        mine_keys=tuple(one.key for one in changed_keys(before, ours)),
        theirs_keys=tuple(one.key for one in changed_keys(before, others)),
    )
