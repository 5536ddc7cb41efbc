"""The slide families that the server fits with: the shipped ones, and the store's own in their place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cache
from pathlib import Path
from weakref import WeakKeyDictionary

from drawerwright.catalogue.families import families_from_mappings, load_families
from drawerwright.model.family import SlideFamily
from drawerwright.store import Store

_offered: tuple[str, ...] = ()


def offer(slides: Sequence[str]) -> None:
    """Offer the families of these files and folders instead of the shipped ones; those again for none.

    It holds for the whole process: a process serves one application. Raises InputError with their faults.
    """
    global _offered
    _read(tuple(slides))
    _offered = tuple(slides)


@cache
def _read(slides: tuple[str, ...]) -> tuple[SlideFamily, ...]:
    return load_families([Path(one) for one in slides] or None)


def shipped_families() -> tuple[SlideFamily, ...]:
    """The families that come with the package, or those that the server was told to offer instead."""
    return _read(_offered)


def with_shipped(own: Sequence[SlideFamily]) -> tuple[SlideFamily, ...]:
    """The shipped families, each replaced by the one of `own` with its id, then the others of `own`."""
    rest = {one.id: one for one in own}
    shipped = tuple(rest.pop(family.id, family) for family in shipped_families())
    return shipped + tuple(rest.values())


@dataclass(frozen=True, slots=True)
class _Known:
    """The families of a store as they were read: all that answer, its own, and by what a change shows."""

    mark: int | None
    offered: tuple[str, ...]
    revisions: tuple[tuple[str, int, datetime], ...]
    own: tuple[SlideFamily, ...]
    all: tuple[SlideFamily, ...]


_known: WeakKeyDictionary[Store, _Known] = WeakKeyDictionary()


def families_of(store: Store) -> tuple[SlideFamily, ...]:
    """Shipped families, each replaced by the store's own of the same id, then the store's others."""
    return _read_store(store).all


def own_families(store: Store) -> tuple[SlideFamily, ...]:
    """The families kept in the store, read anew only when one has a new revision."""
    return _read_store(store).own


def _read_store(store: Store) -> _Known:
    # The mark comes first: what is saved between it and the reading is looked at again next time.
    mark, before = store.change_mark(), _known.get(store)
    if before is not None and mark is not None and (mark, _offered) == (before.mark, before.offered):
        return before
    stored = store.families()
    revisions = tuple((one.id, one.revision, one.saved_at) for one in stored)
    if before is not None and (revisions, _offered) == (before.revisions, before.offered):
        known = replace(before, mark=mark)
    else:
        own = families_from_mappings([dict(one.values) for one in stored]) if stored else ()
        known = _Known(mark, _offered, revisions, own, with_shipped(own))
    _known[store] = known
    return known
