"""The slide families as they were at a moment, for what the bench ticked then."""

from __future__ import annotations

from datetime import datetime
from typing import Any, TypeAlias

from drawerwright.catalogue.families import families_from_mappings
from drawerwright.model.family import SlideFamily
from drawerwright.store import Revision, Store, StoredFamily
from drawerwright.web.families import with_shipped

_Versions: TypeAlias = tuple[tuple[str, int], ...]


class FamiliesThen:
    """The families of a store through time; looked up only where one was changed since a moment.

    A shop's own families are followed by their revisions, and into the bin; of those that come with the
    program, or are offered instead, no history is kept.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self._own = [*store.families(), *store.families(binned=True)]
        self._saves: dict[str, list[Revision]] = {}
        self._read: dict[_Versions, tuple[SlideFamily, ...]] = {}

    def changed_since(self, moment: datetime) -> bool:
        """Whether a family was saved, or put in the bin, since then."""
        return any(moment < (one.saved_at if one.binned_at is None else one.binned_at) for one in self._own)

    def at(self, moment: datetime) -> tuple[SlideFamily, ...]:
        """The families that answered then, in the order in which they are tried."""
        versions = tuple(
            (one.id, number)
            for one in sorted(self._own, key=lambda one: one.id)
            if (number := self._number(one, moment)) is not None
        )
        if versions not in self._read:
            values: list[dict[str, Any]] = [
                dict(self._store.family(name, number).values) for name, number in versions
            ]
            self._read[versions] = with_shipped(families_from_mappings(values) if values else ())
        return self._read[versions]

    def _number(self, family: StoredFamily, moment: datetime) -> int | None:
        """The newest revision of a family at a moment; None where it did not answer then."""
        if family.binned_at is not None and family.binned_at <= moment:
            return None
        if family.saved_at <= moment:
            return family.revision
        if family.id not in self._saves:
            self._saves[family.id] = self._store.family_revisions(family.id)
        saves = (one for one in self._saves[family.id] if one.how != "kept" and one.saved_at <= moment)
        return next((one.number for one in saves), None)
