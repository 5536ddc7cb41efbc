"""What the store gives back, as JSON."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from drawerwright.store import JobCard, Revision, StoredFamily, StoredGaps, StoredJob, Tick


def moment(at: datetime | None) -> str | None:
    """A moment as RFC 3339 text in UTC; None: never."""
    return None if at is None else at.isoformat(timespec="milliseconds").replace("+00:00", "Z")


def card_values(card: JobCard) -> dict[str, Any]:
    """A job in a list."""
    return {
        "id": card.id,
        "title": card.title,
        "units": card.units,
        "drawers": card.drawers,
        "revision": card.revision,
        "saved_at": moment(card.saved_at),
        "by": card.by,
        "binned_at": moment(card.binned_at),
    }


def stored_values(one: StoredJob | StoredFamily) -> dict[str, Any]:
    """One revision of a job or a family, with its values."""
    return {
        "id": one.id,
        "revision": one.revision,
        "how": one.how,
        "saved_at": moment(one.saved_at),
        "by": one.by,
        "what": one.what,
        "can_undo": one.can_undo,
        "can_redo": one.can_redo,
        "binned_at": moment(one.binned_at),
        "values": one.values,
    }


def revision_values(one: Revision) -> dict[str, Any]:
    """One save in a history."""
    return {
        "revision": one.number,
        "how": one.how,
        "saved_at": moment(one.saved_at),
        "by": one.by,
        "what": one.what,
        "based_on": one.based_on,
        "shows": one.shows,
        "title": one.title,
        "units": one.units,
        "entries": one.entries,
    }


def gaps_values(one: StoredGaps) -> dict[str, Any]:
    """One measuring of a front."""
    return {
        "id": one.id,
        "drawer": one.drawer,
        "readings": one.values,
        "saved_at": moment(one.saved_at),
        "by": one.by,
    }


def tick_values(one: Tick) -> dict[str, Any]:
    """One step of the work, done or not."""
    return {"drawer": one.drawer, "step": one.step, "done": one.done, "at": moment(one.at), "by": one.by}
