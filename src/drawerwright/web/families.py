"""The slide families that the server fits with: the shipped ones, and the store's own in their place."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path

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


def families_of(store: Store) -> tuple[SlideFamily, ...]:
    """Shipped families, each replaced by the store's own of the same id, then the store's others."""
    own = {one.id: one for one in own_families(store)}
    shipped = tuple(own.pop(family.id, family) for family in shipped_families())
    return shipped + tuple(own.values())


_own: dict[tuple[int, tuple[tuple[str, int], ...]], tuple[SlideFamily, ...]] = {}


def own_families(store: Store) -> tuple[SlideFamily, ...]:
    """The families kept in the store, read anew only when one has a new revision."""
    stored = store.families()
    key = (id(store), tuple((one.id, one.revision) for one in stored))
    if key not in _own:
        _own.clear()
        _own[key] = families_from_mappings([dict(one.values) for one in stored]) if stored else ()
    return _own[key]
